package store

import (
	"bytes"
	"encoding/json"
	"errors"
	"math/rand"
	"reflect"
	"strconv"
	"strings"
	"testing"
	"time"
)

// unlifted are the kinds at version 1, whatever is released since: tests of reading and writing have nothing to lift.
func unlifted() Kinds { return Kinds{"kit": {}, "instrument": {}, "job": {}} }

func sample(t testing.TB) (Document, string) {
	t.Helper()
	d, text, err := Encode(Document{Key: "job/a1", Sequence: 12, Parent: "00112233445566ff", Line: []string{"0102030405060708"}, Kind: "job",
		Version: 1, Build: "v1", Saved: time.Date(2026, 3, 4, 5, 6, 7, 8, time.FixedZone("", 3600)), Writer: "w1",
		Body: json.RawMessage(`{ "typed": "2,25", "note": "<saddle> & 𝄞" }`)})
	if err != nil {
		t.Fatal(err)
	}
	return d, text
}

// The text is laid out as documented. The checksum was worked out apart, by sha256sum over `1 12 {json}`.
func TestTextIsLaidOutAsDocumented(t *testing.T) {
	_, text := sample(t)
	const want = `~1 12 4fb396fcc2431ebc {"kind":"job","version":1,"build":"v1","saved":"2026-03-04T04:06:07Z","writer":"w1",` +
		`"parent":"00112233445566ff","line":["0102030405060708"],"body":{"typed":"2,25","note":"<saddle> & 𝄞"}}`
	if text != want {
		t.Errorf("Encode =\n%s, want\n%s", text, want)
	}
}

func TestDecodeGivesWhatWasEncoded(t *testing.T) {
	d, text := sample(t)
	got, outcome := unlifted().Decode("job/a1", text)
	if outcome != Fine || !reflect.DeepEqual(got, d) {
		t.Errorf("Decode = %+v, %v\nwant %+v", got, outcome, d)
	}
	if _, again, err := Encode(got); again != text || err != nil {
		t.Errorf("encoded again: %s, %v", again, err)
	}
}

func TestEncodeRefusesWhatCouldNotBeReadBack(t *testing.T) {
	for _, body := range []string{"", "{", "{} {}", "\"\xff\"", "nil"} {
		if _, _, err := Encode(Document{Key: "kit", Kind: "kit", Version: 1, Sequence: 1, Body: json.RawMessage(body)}); !errors.Is(err, ErrBody) {
			t.Errorf("body %q: %v, want ErrBody", body, err)
		}
	}
	for _, sequence := range []uint64{0, maxSequence + 1} {
		if _, _, err := Encode(Document{Key: "kit", Kind: "kit", Version: 1, Sequence: sequence, Body: json.RawMessage("1")}); err == nil {
			t.Errorf("sequence %d was written", sequence)
		}
	}
}

// raw builds a text with a right checksum around any JSON.
func raw(sequence, inner string) string {
	return "~1 " + sequence + " " + checksum(sequence, inner) + " " + inner
}

func TestOutcomesAreDistinct(t *testing.T) {
	_, text := sample(t)
	kinds := unlifted()
	for _, row := range []struct {
		name, key, text string
		want            Outcome
	}{
		{"nothing", "job/a1", "", Absent},
		{"ours", "job/a1", text, Fine},
		{"fields that nobody knows", "kit", raw("1", `{"kind":"kit","version":1,"colour":7,"body":1}`), Fine},
		{"a time that cannot be read", "kit", raw("1", `{"kind":"kit","version":1,"saved":"soon","body":1}`), Fine},
		{"a later version of the body", "kit", raw("1", `{"kind":"kit","version":2,"body":1}`), Newer},
		{"a later version, all else unknown", "kit", raw("1", `{"kind":"kit","version":2,"line":3,"content":{}}`), Newer},
		{"a later kind", "kit", raw("1", `{"kind":"loft","version":1,"body":1}`), Newer},
		{"a later layout", "kit", `~2 1 whatever {}`, Newer},
		{"our layout, its number spoilt", "job/a1", "~3" + text[2:], Damaged},
		{"half of it", "job/a1", text[:len(text)/2], Damaged},
		{"only the head", "job/a1", "~1", Damaged},
		{"another sequence", "job/a1", strings.Replace(text, " 12 ", " 13 ", 1), Damaged},
		{"sequence nought", "kit", raw("0", `{"kind":"kit","version":1,"body":1}`), Damaged},
		{"sequence with a sign", "kit", raw("+1", `{"kind":"kit","version":1,"body":1}`), Damaged},
		{"sequence too large", "kit", raw("9007199254740992", `{"kind":"kit","version":1,"body":1}`), Damaged},
		{"wrong type of a field", "kit", raw("1", `{"kind":"kit","version":1,"line":3,"body":1}`), Damaged},
		{"wrong type of the version", "kit", raw("1", `{"kind":"kit","version":"1","body":1}`), Damaged},
		{"no body", "kit", raw("1", `{"kind":"kit","version":1}`), Damaged},
		{"no version", "kit", raw("1", `{"kind":"kit","body":1}`), Damaged},
		{"not JSON", "kit", raw("1", `{"kind":`), Damaged},
		{"a list", "kit", raw("1", `[]`), Damaged},
		{"the document of another key's kind", "kit", text, Damaged},
		{"another program's JSON", "kit", `{"value":1}`, Foreign},
		{"a word", "kit", "true", Foreign},
		{"a tilde of somebody else", "kit", "~/home", Foreign},
		{"bytes", "kit", "\x00\xff\xfe", Foreign},
		{"very long", "kit", strings.Repeat("~1 ", 1<<20), Damaged},
		{"very deep", "kit", raw("1", strings.Repeat("[", 100_000)), Damaged},
	} {
		doc, got := kinds.Decode(row.key, row.text)
		if got != row.want {
			t.Errorf("%s: %v, want %v", row.name, got, row.want)
		}
		if got != Fine && got != Newer && doc.Body != nil {
			t.Errorf("%s: outcome %v with a body", row.name, got)
		}
	}
}

// A body lifted through two versions. The migrations of a released kind would stand in a list like this.
func TestMigrationsLiftStepByStep(t *testing.T) {
	kinds := Kinds{"note": {Migrations: []Migration{
		func(b []byte) ([]byte, error) { b[0] = 'x'; return []byte(`{"words":"hand"}`), nil }, // spoiling its own copy harms nobody
		func(b []byte) ([]byte, error) { return bytes.Replace(b, []byte("words"), []byte("text"), 1), nil },
	}}}
	text := raw("4", `{"kind":"note","version":1,"body":{"w":"hand"}}`)
	d, outcome := kinds.Decode("note", text)
	if outcome != Migrated || d.Version != 3 || string(d.Body) != `{"text":"hand"}` {
		t.Errorf("from version 1: %v %d %s", outcome, d.Version, d.Body)
	}
	d, outcome = kinds.Decode("note", raw("4", `{"kind":"note","version":2,"body":{"words":"hand"}}`))
	if outcome != Migrated || string(d.Body) != `{"text":"hand"}` {
		t.Errorf("from version 2: %v %s", outcome, d.Body)
	}
	if _, outcome = kinds.Decode("note", raw("4", `{"kind":"note","version":3,"body":1}`)); outcome != Fine {
		t.Errorf("version 3: %v", outcome)
	}
	if _, outcome = kinds.Decode("note", raw("4", `{"kind":"note","version":4,"body":1}`)); outcome != Newer {
		t.Errorf("version 4: %v", outcome)
	}
	failing := Kinds{"note": {Migrations: []Migration{func([]byte) ([]byte, error) { return nil, errors.New("no") }}}}
	if _, outcome = failing.Decode("note", text); outcome != Damaged {
		t.Errorf("a migration that fails: %v, want Damaged, so that the text is set aside", outcome)
	}
	nonsense := Kinds{"note": {Migrations: []Migration{func([]byte) ([]byte, error) { return []byte("{"), nil }}}}
	if _, outcome = nonsense.Decode("note", text); outcome != Damaged {
		t.Errorf("a migration that writes no JSON: %v", outcome)
	}
}

// What is of an older version comes to the present one with every byte of its body; an older program leaves that one alone.
func TestWhatSaysMoreIsALaterVersion(t *testing.T) {
	const body = `{ "typed" : "2,25"}`
	for key, now := range map[string]int{"instrument/a1": 4, "job/a1": 4, "kit": 2} {
		name, _, _ := strings.Cut(key, "/")
		written := func(version int) string {
			return raw("4", `{"kind":"`+name+`","version":`+strconv.Itoa(version)+`,"body":`+body+`}`)
		}
		for version := 1; version < now; version++ {
			given := []byte(body)
			d, outcome := JobKinds().Decode(key, written(version))
			if outcome != Migrated || d.Version != now || string(d.Body) != body {
				t.Errorf("%s of version %d: outcome %v, version %d, %s", name, version, outcome, d.Version, d.Body)
			}
			lifted, err := Released()[name].Migrations[version-1](given)
			if err != nil || string(lifted) != body || string(given) != body || &lifted[0] == &given[0] {
				t.Errorf("%s is lifted to %s, %v, from %s", name, lifted, err, given)
			}
		}
		if _, outcome := JobKinds().Decode(key, written(now)); outcome != Fine {
			t.Errorf("%s of version %d: outcome %v", name, now, outcome)
		}
		if _, outcome := unlifted().Decode(key, written(now)); outcome != Newer {
			t.Errorf("%s of version %d in an older program: outcome %v, want Newer", name, now, outcome)
		}
	}
	if JobKinds()[KindJob].Merge == nil {
		t.Error("two copies of a job are not joined")
	}
}

// Whatever byte a text is cut at, and whatever bits flip, it is never taken for a document other than the one written.
func TestNoDamageIsAccepted(t *testing.T) {
	d, text := sample(t)
	kinds := unlifted()
	accepted := func(bad string) bool {
		got, outcome := kinds.Decode("job/a1", bad)
		return (outcome == Fine || outcome == Migrated) && !reflect.DeepEqual(got, d) || (outcome == Fine) != (bad == text)
	}
	for i := range len(text) {
		if accepted(text[:i]) || accepted(text[i+1:]) {
			t.Fatalf("cut at byte %d was accepted", i)
		}
		for bit := range 8 {
			bad := []byte(text)
			bad[i] ^= 1 << bit
			if accepted(string(bad)) {
				t.Fatalf("bit %d of byte %d flipped was accepted", bit, i)
			}
		}
	}
	seed := int64(20260304)
	r := rand.New(rand.NewSource(seed))
	for run := range 20_000 {
		bad := []byte(text)
		for range 1 + r.Intn(6) {
			bad[r.Intn(len(bad))] ^= 1 << r.Intn(8)
		}
		if accepted(string(bad)) {
			t.Fatalf("seed %d, run %d: %q was accepted", seed, run, bad)
		}
	}
}

func TestKeysAreAKindAndAnID(t *testing.T) {
	kinds := Released()
	for key, want := range map[string]string{"kit": "kit", "job/0f-A9": "job", "instrument/x": "instrument", "": "", "loft": "", "job/": "",
		"job/a/b": "", "job/a b": "", "aside/job/1/2": "", "job/" + strings.Repeat("a", 65): "", "job/ü": ""} {
		if got := kinds.kindOf(key); got != want {
			t.Errorf("kindOf(%q) = %q, want %q", key, got, want)
		}
	}
}

func FuzzDecode(f *testing.F) {
	_, text := sample(f)
	for _, seed := range []string{"", text, text[:40], "~1 1 0 {}", "~2 x", "{}", raw("1", `{"kind":"kit","version":1,"body":null}`)} {
		f.Add("job/a1", seed)
	}
	f.Fuzz(func(t *testing.T, key, text string) {
		d, outcome := Released().Decode(key, text)
		if outcome != Fine {
			return
		}
		if _, _, err := Encode(d); err != nil {
			t.Errorf("%q is fine and cannot be written again: %v", text, err)
		}
		if checksum(strings.Split(text, " ")[1], text[strings.Index(text, "{"):]) != d.Sum {
			t.Errorf("%q is fine with the sum %s", text, d.Sum)
		}
	})
}
