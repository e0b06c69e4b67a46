package store

import (
	"encoding/json"
	"errors"
	"fmt"
	"math/rand"
	"testing"
)

func TestMembersAreJoinedOneByOne(t *testing.T) {
	for _, row := range []struct {
		what, base, ours, theirs, want string
		differs                        bool
	}{
		{"each changed another", `{"a":1,"b":1}`, `{"a":2,"b":1}`, `{"a":1,"b":3}`, `{"a":2,"b":3}`, false},
		{"only ours", `{"a":1}`, `{"a":2}`, `{"a":1}`, `{"a":2}`, false},
		{"only theirs", `{"a":1}`, `{"a":1}`, `{"a":2}`, `{"a":2}`, false},
		{"both alike", `{"a":1}`, `{"a":2}`, `{"a":2}`, `{"a":2}`, false},
		{"both differently: theirs stands", `{"a":1,"b":1}`, `{"a":2,"b":5}`, `{"a":3,"b":1}`, `{"a":3,"b":5}`, true},
		{"ours removed one", `{"a":1,"b":1}`, `{"b":1}`, `{"a":1,"b":2}`, `{"b":2}`, false},
		{"theirs removed what ours changed", `{"a":1,"b":1}`, `{"a":2,"b":1}`, `{"b":1}`, `{"b":1}`, true},
		{"ours removed what theirs changed", `{"a":1}`, `{}`, `{"a":2}`, `{"a":2}`, true},
		{"each added another", `{}`, `{"x":1}`, `{"y":2}`, `{"y":2,"x":1}`, false},
		{"without a base what one side lacks was added", `null`, `{"a":1,"x":1}`, `{"a":1,"y":2}`, `{"a":1,"y":2,"x":1}`, false},
		{"without a base", `null`, `{"a":1}`, `{"a":2}`, `{"a":2}`, true},
		{"a measurement is taken whole", `{"scale":{"text":"650","unit":"mm"}}`, `{"scale":{"text":"25.5","unit":"in"}}`, `{"scale":{"text":"648","unit":"mm"}}`,
			`{"scale":{"text":"648","unit":"mm"}}`, true},
		{"a fret and where the string is held belong together", `{"fret":12,"held":0}`, `{"fret":12,"held":1}`, `{"fret":17,"held":0}`, `{"fret":17,"held":0}`, true},
		{"the same, only one changed", `{"fret":12,"held":0,"name":"a"}`, `{"fret":17,"held":1,"name":"a"}`, `{"fret":12,"held":0,"name":"b"}`,
			`{"fret":17,"held":1,"name":"b"}`, false},
		{"spare blanks say nothing", `{"a": [1, 2]}`, `{"a":[1,2],"b":1}`, "{\n\"a\":[1,2],\"c\":2}", `{"a":[1,2],"c":2,"b":1}`, false},
		{"a name with signs", `{}`, `{"\"<":1}`, `{"é":2}`, `{"é":2,"\"\u003c":1}`, false},
	} {
		got, err := mergeMembers("instrument", json.RawMessage(row.base), json.RawMessage(row.ours), json.RawMessage(row.theirs))
		if string(got) != row.want || errors.Is(err, ErrDiffers) != row.differs || err != nil && !row.differs {
			t.Errorf("%s: %s, %v; want %s, differs %v", row.what, got, err, row.want, row.differs)
		}
	}
	for _, bad := range []string{`[1]`, `"x"`, `null`, `3`, `{`, ``} {
		for _, pair := range [][2]string{{bad, `{}`}, {`{}`, bad}} {
			if got, err := mergeMembers("", json.RawMessage(`{}`), json.RawMessage(pair[0]), json.RawMessage(pair[1])); err == nil || errors.Is(err, ErrDiffers) || got != nil {
				t.Errorf("merging %q and %q gives %s, %v; want an error", pair[0], pair[1], got, err)
			}
		}
	}
}

// Any three objects: what one side alone changed is there, nothing is there that nobody had, merging again changes nothing, and the merge with the
// sides exchanged differs only where both changed the same thing.
func TestMergedMembersByChance(t *testing.T) {
	names := []string{"a", "b", "c", "fret", "held"}
	for seed := range int64(*runs) {
		r := rand.New(rand.NewSource(seed))
		any := func() map[string]int {
			m := map[string]int{}
			for _, name := range names {
				if v := r.Intn(4); v > 0 {
					m[name] = v
				}
			}
			return m
		}
		raw := func(m map[string]int) json.RawMessage { text, _ := json.Marshal(m); return text }
		base, ours, theirs := any(), any(), any()
		merged, err := mergeMembers("", raw(base), raw(ours), raw(theirs))
		other, otherErr := mergeMembers("", raw(base), raw(theirs), raw(ours))
		if (err == nil) != (otherErr == nil) {
			t.Fatalf("seed %d: %v one way, %v the other", seed, err, otherErr)
		}
		var m, o map[string]int
		if json.Unmarshal(merged, &m) != nil || json.Unmarshal(other, &o) != nil {
			t.Fatalf("seed %d: %s, %s", seed, merged, other)
		}
		for _, name := range names[:3] { // 0 is for what is not there
			b, x, y := base[name], ours[name], theirs[name]
			want, beside := y, x
			if x == b {
				beside = y
			} else if y == b {
				want = x
			}
			if m[name] != want || o[name] != beside {
				t.Fatalf("seed %d: %s of %v, %v, %v is %d and %d, want %d and %d", seed, name, base, ours, theirs, m[name], o[name], want, beside)
			}
		}
		pair := func(m map[string]int) string { return fmt.Sprint(m["fret"], m["held"]) }
		if p := pair(m); p != pair(ours) && p != pair(theirs) || pair(ours) != pair(base) && pair(theirs) == pair(base) && p != pair(ours) {
			t.Fatalf("seed %d: fret and held of %v, %v, %v are %s", seed, base, ours, theirs, p)
		}
		for what, again := range map[string][2]json.RawMessage{"ours into it": {raw(ours), merged}, "it into itself": {merged, merged}, "theirs into it": {raw(theirs), merged}} {
			if got, _ := mergeMembers("", raw(base), again[0], again[1]); string(got) != string(merged) {
				t.Fatalf("seed %d: %s merged again (%s) is %s, was %s", seed, raw(theirs), what, got, merged)
			}
		}
		if err == nil && fmt.Sprint(m) != fmt.Sprint(o) {
			t.Fatalf("seed %d: %v and %v without a difference", seed, m, o)
		}
	}
}

// Two tabs that change different things of one instrument end with both; where both changed the same, the choice is of that thing alone.
func TestTabsJoinWhatTheyChanged(t *testing.T) {
	for _, blocked := range []bool{false, true} {
		w := newWorld(t)
		w.JournalBlocked = blocked
		k, other := w.settled(), w.settled()
		put(t, k, "instrument/a", `{"name":"a","scale":1}`)
		other = w.settled()
		put(t, k, "instrument/a", `{"name":"b","scale":1}`)
		put(t, other, "instrument/a", `{"name":"a","scale":2}`)
		wantBody(t, other, "instrument/a", `{"name":"b","scale":2}`)
		wantBody(t, w.settled(), "instrument/a", `{"name":"b","scale":2}`)
		if len(other.Parted()) != 0 {
			t.Errorf("blocked %v: parted %+v", blocked, other.Parted())
		}

		k, other = w.settled(), w.settled()
		put(t, k, "instrument/a", `{"name":"c","scale":2,"tags":"x"}`)
		put(t, other, "instrument/a", `{"name":"d","scale":3}`)
		wantBody(t, other, "instrument/a", `{"name":"c","scale":3,"tags":"x"}`)
		if n := len(other.Parted()); n != 1 {
			t.Fatalf("blocked %v: %d parted", blocked, n)
		}
		kept := other.Parted()[0].Kept
		w.settled().Kept(kept, func(d Document, outcome Outcome, _ string) {
			if outcome != Fine || string(d.Body) != `{"name":"d","scale":3,"tags":"x"}` {
				t.Errorf("blocked %v: kept beside is %v %s", blocked, outcome, d.Body)
			}
		})
		k.Reconcile()
		again := w.settled()
		wantBody(t, again, "instrument/a", `{"name":"c","scale":3,"tags":"x"}`)
		if n := len(again.Parted()); !blocked && n != 1 {
			t.Errorf("%d parted on the next visit, want the one", n)
		}
	}
}
