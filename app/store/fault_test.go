package store

import (
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"math/rand"
	"slices"
	"strings"
	"testing"
	"time"
)

// spoil cuts a text or turns some of its bits.
func spoil(r *rand.Rand, text string) string {
	bytes := []byte(text)
	switch r.Intn(4) {
	case 0:
		return text[:r.Intn(len(text)+1)]
	case 1:
		from := r.Intn(len(text) + 1)
		return text[:from] + text[from+r.Intn(len(text)+1-from):]
	case 2:
		for i := r.Intn(len(bytes)); i < len(bytes) && r.Intn(8) > 0; i++ {
			bytes[i] = 0 // as a disk that lost a sector
		}
	}
	for range 1 + r.Intn(3) {
		bytes[r.Intn(len(bytes))] ^= 1 << r.Intn(8)
	}
	return string(bytes)
}

// A text that is cut or of which bits are turned is never taken for another document: it reads as it was, or not at all.
func TestCutsAndTurnedBitsAreFound(t *testing.T) {
	kinds := JobKinds()
	var texts [][2]string
	for key, body := range map[string]string{"kit": `{"unit":"mm","marks":"mm-0.25"}`, "instrument/a": `{"id":"a","name":"Größe <&> 𝄞","family":"flat-top-6"}`,
		"job/a": `{"events":[]}`, "history/a": `{"jobs":["a"]}`} {
		kind, _, _ := strings.Cut(key, "/")
		_, text, err := Encode(Document{Key: key, Sequence: 12, Kind: kind, Version: kinds[kind].Version(), Parent: "0123456789abcdef", Body: json.RawMessage(body)})
		if err != nil {
			t.Fatal(err)
		}
		texts = append(texts, [2]string{key, text})
	}
	tried, newer := 0, 0
	for seed := range int64(*runs) {
		r := rand.New(rand.NewSource(seed))
		for _, each := range texts {
			bad := spoil(r, each[1])
			if bad == each[1] {
				continue
			}
			tried++
			d, outcome := kinds.Decode(each[0], bad)
			switch outcome {
			case Absent:
				if bad != "" {
					t.Fatalf("seed %d: %q is called absent", seed, bad)
				}
			case Newer: // the number of the layout is another: whoever wrote that, it is not touched
				newer++
				if len(d.Body) != 0 {
					t.Fatalf("seed %d: %q gives a body", seed, bad)
				}
			case Damaged, Foreign:
			default:
				t.Fatalf("seed %d: %q reads as %v: %s", seed, bad, outcome, d.Body)
			}
		}
	}
	t.Logf("cuts and turned bits: tried %d, taken for another document 0, left to a later version %d", tried, newer)
}

// ours reports whether the number of the layout is still ours: another one means a later version, and is left alone for ever.
func ours(text string) bool { return strings.HasPrefix(text, "~1 ") }

// Damage in one of the homes while nobody works: what was reported saved is still there afterwards from the other home or from the revision before,
// and a spoilt text is kept as it was found.
func TestWhatWasSavedSurvivesDamageInOneHome(t *testing.T) {
	faults, reported := 0, 0
	for seed := range int64(*runs) {
		c := newChance(t, seed)
		c.openPages()
		for range 20 + c.r.Intn(60) {
			c.step(false)
		}
		c.calm()
		for key := range c.saved {
			reported += len(c.saved[key])
		}
		reported += len(c.sure)
		home := c.r.Intn(2)
		spoilt := map[string]string{}
		for _, key := range []string{"job/a", "job/b", "instrument/a"} {
			text := c.Local()[Prefix+key]
			if home == 1 {
				text = ""
				if head := c.JournalHead(key); head != nil && c.Local()[Prefix+key] != "" { // a finished one is in one home alone
					text = head.Text
				}
			}
			if text == "" || c.r.Intn(3) == 0 {
				continue
			}
			bad := spoil(c.r, text)
			if bad == text || bad == "" || !ours(bad) {
				continue
			}
			faults++
			spoilt[key] = bad
			if home == 0 {
				c.Plant(Prefix+key, bad)
			} else {
				c.Spoil(key, func(string) string { return bad })
			}
		}
		c.pages = nil
		c.calm()
		k := c.settled()
		c.Drain()
		kept := slices.Collect(maps.Values(c.KeptTexts()))
		for key, bad := range spoilt {
			if !slices.Contains(kept, bad) {
				t.Fatalf("seed %d: %s was spoilt in home %d, and %q is not kept", seed, key, home, bad)
			}
		}
		if lost := c.missing(k, c.saved); len(lost) > 0 {
			t.Fatalf("seed %d: saved and lost after damage in home %d: %q", seed, home, lost)
		}
		if lost := c.untraced(c.sure); len(lost) > 0 {
			t.Fatalf("seed %d: of the instrument saved and lost after damage in home %d: %q", seed, home, lost)
		}
		if state := k.State(); state.Mark != Saved && state.Why != Conflict {
			t.Fatalf("seed %d: %+v", seed, state)
		}
	}
	if faults < *runs/2 || reported < *runs {
		t.Errorf("%d faults and %d saved in %d runs: the test tests nothing", faults, reported, *runs)
	}
	t.Logf("damage in one home: tried %d, facts reported saved %d, lost after saved 0", faults, reported)
}

// A clock that jumps by years, both ways, between any two facts: nothing depends on it.
func TestClocksThatJumpLoseNothing(t *testing.T) {
	at := func(year int) time.Time { return time.Date(year, 5, 4, 3, 2, 1, 0, time.UTC) }
	for _, years := range [][2]int{{2030, 2001}, {1970, 2026}, {2026, 1969}, {2026, 9999}, {9999, 1}} {
		w := newWorld(t)
		w.clock = func() time.Time { return at(years[0]) }
		k, other := w.settled(), w.settled()
		put(t, k, "job/a", `["1"]`)
		w.clock = func() time.Time { return at(years[1]) }
		put(t, k, "job/a", `["1","2"]`)
		put(t, other, "job/a", `["3"]`)
		w.clock = func() time.Time { return at(years[0]) }
		again := w.settled()
		wantBody(t, again, "job/a", `["1","2","3"]`)
		put(t, again, "instrument/a", `{"a":1}`)
		w.clock = func() time.Time { return at(years[1]) }
		put(t, again, "instrument/a", `{"a":2}`)
		clear(w.Local())
		wantBody(t, w.settled(), "instrument/a", `{"a":2}`)
		wantState(t, w.settled(), Saved, None, true)
	}
}

// The journal fails in the middle: between the two things that one change needs, whatever these are. What was readable before is readable after.
func TestJournalThatFailsMidwayWritesNothingOver(t *testing.T) {
	for _, wrong := range []error{ErrFull, ErrBlocked, errors.New("disk"), nil} {
		for after := range 12 { // so many transactions go well
			w := newWorld(t)
			k, other := w.settled(), w.settled()
			put(t, k, "instrument/a", `{"name":"x","scale":1}`)
			other.Reconcile()
			put(t, k, "instrument/a", `{"name":"y","scale":1}`)
			first := w.JournalHead("instrument/a").Text
			w.Plant(Prefix+"job/t", "torn")
			w.Slow = true
			put(t, other, "instrument/a", `{"name":"z","scale":2}`) // parts: kept beside, then written over
			third := w.open()                                       // sets aside
			third.Reconcile()
			for n := 0; ; n++ {
				if n == after {
					w.JournalError, w.Hang = wrong, wrong == nil
				}
				work, answers := w.Waiting()
				if work+answers == 0 {
					break
				}
				if work > 0 {
					w.Work()
				} else {
					w.Answer(0)
				}
			}
			w.pass()
			w.Drain()
			name := fmt.Sprintf("%v after %d", wrong, after)
			everywhere := first
			for _, text := range w.Local() {
				everywhere += text
			}
			for _, text := range w.KeptTexts() {
				everywhere += text
			}
			head := w.JournalHead("instrument/a")
			everywhere += head.Text + other.entries["instrument/a"].text // a page that is open holds what it says is not saved
			if _, outcome := k.opt.Kinds.Decode("instrument/a", head.Text); outcome != Fine {
				t.Errorf("%s: the head reads as %v", name, outcome)
			}
			for _, want := range []string{`"name":"y"`, `"name":"z"`, "torn"} {
				if !strings.Contains(everywhere, want) {
					t.Errorf("%s: %s is nowhere", name, want)
				}
			}
			if state := other.StateOf("instrument/a"); state.Mark == Saved && !strings.Contains(head.Text, `"scale":2`) {
				t.Errorf("%s: called saved, and the journal has %s", name, head.Text)
			}
			w.JournalError, w.Hang, w.Slow = nil, false, false
			for range 3 {
				for _, page := range []*Keeper{k, other, third} {
					page.Retry()
					page.Reconcile()
				}
			}
			last := w.settled()
			if state := last.State(); state.Mark != Saved && state.Why != Conflict {
				t.Errorf("%s: in the end %+v", name, state)
			}
			wantBody(t, last, "instrument/a", `{"name":"y","scale":2}`)
			if n := len(last.Parted()); n != 1 {
				t.Errorf("%s: %d parted in the end", name, n)
			}
		}
	}
}
