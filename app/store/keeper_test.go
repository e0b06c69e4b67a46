package store

import (
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"
	"time"
)

// A world is a device with a clock that moves when a test says so.
type world struct {
	*Device
	t      testing.TB
	timers []func()
	pages  int
	clock  func() time.Time
}

func newWorld(t testing.TB) *world {
	return &world{Device: NewDevice(), t: t, clock: func() time.Time { return time.Date(2026, 1, 2, 3, 4, 5, 0, time.UTC) }}
}

// kinds for tests: jobs are lists of facts that merge, instruments that are objects merge by their members, a kit cannot be merged.
func (w *world) kinds() Kinds {
	kinds := unlifted()
	kinds["instrument"] = Kind{Merge: mergeMembers}
	kinds["job"] = Kind{Merge: func(kind string, base, ours, theirs json.RawMessage) (json.RawMessage, error) {
		var all, more []string
		if err := errors.Join(json.Unmarshal(theirs, &all), json.Unmarshal(ours, &more)); err != nil {
			return nil, err
		}
		for _, fact := range more {
			if !slices.Contains(all, fact) {
				all = append(all, fact)
			}
		}
		return json.Marshal(all)
	}}
	return kinds
}

// open opens a page, without Reconcile.
func (w *world) open() *Keeper {
	w.pages++
	page, ids := fmt.Sprint("page", w.pages), 0
	return Open(w.Tab(), Options{Now: func() time.Time { return w.clock() }, Build: "test", Writer: page, Kinds: w.kinds(),
		NewID: func() string { ids++; return fmt.Sprint(page, "-", ids) },
		After: func(wait time.Duration, f func()) {
			if wait != Patience {
				w.t.Errorf("waits %v, want %v", wait, Patience)
			}
			w.timers = append(w.timers, f)
		}})
}

// settled opens a page and lets everything come to rest.
func (w *world) settled() *Keeper {
	w.t.Helper()
	k := w.open()
	k.Reconcile()
	w.Drain()
	if !k.Settled() {
		w.t.Fatal("not settled")
	}
	return k
}

// pass lets all that waits for the clock see that its time has come.
func (w *world) pass() {
	timers := w.timers
	w.timers = nil
	for _, f := range timers {
		f()
	}
}

func put(t testing.TB, k *Keeper, key, body string) {
	t.Helper()
	kind, _, _ := strings.Cut(key, "/")
	if err := k.Put(key, kind, json.RawMessage(body)); err != nil {
		t.Fatal(err)
	}
}

func wantState(t testing.TB, k *Keeper, mark Mark, why Why, local bool) {
	t.Helper()
	if got := k.State(); got != (State{mark, why, local}) {
		t.Errorf("State = %+v, want %+v", got, State{mark, why, local})
	}
}

func wantBody(t testing.TB, k *Keeper, key, want string) {
	t.Helper()
	d, outcome := k.Get(key)
	if string(d.Body) != want {
		t.Errorf("%s = %s (outcome %d), want %s", key, d.Body, outcome, want)
	}
}

func localText(w *world, key string) string { return w.Local()[Prefix+key] }

func TestSavedIsSaidOnlyAfterTheStrictCommit(t *testing.T) {
	w := newWorld(t)
	k := w.settled()
	w.Slow = true
	changes := 0
	k.OnChange(func() { changes++ })
	put(t, k, "kit", `{"rule":"mm"}`)
	wantState(t, k, Saving, None, true)
	if localText(w, "kit") == "" {
		t.Error("local storage does not have it at once")
	}
	saved := 0
	k.WhenSaved("kit", func(ok bool) {
		if saved++; !ok || w.JournalHead("kit") == nil {
			t.Errorf("told %v, journal has %v", ok, w.JournalHead("kit"))
		}
	})
	w.Work()
	wantState(t, k, Saving, None, true)
	if saved > 0 {
		t.Error("told before the journal's answer")
	}
	w.Drain()
	wantState(t, k, Saved, None, true)
	if saved != 1 || changes < 2 {
		t.Errorf("told %d times, %d changes", saved, changes)
	}
	w.pass()
	wantState(t, k, Saved, None, true)
}

func TestNoAnswerInTimeIsNotSavedUntilItComes(t *testing.T) {
	w := newWorld(t)
	k := w.settled()
	w.Slow = true
	put(t, k, "kit", `1`)
	told := []bool{}
	k.WhenSaved("kit", func(ok bool) { told = append(told, ok) })
	w.pass()
	wantState(t, k, NotSaved, NoAnswer, true)
	w.Drain()
	wantState(t, k, Saved, None, true)
	if !slices.Equal(told, []bool{false}) {
		t.Errorf("told %v, want false once", told)
	}

	w.Slow, w.Hang = false, true
	put(t, k, "kit", `2`)
	w.pass()
	wantState(t, k, NotSaved, NoAnswer, true)
	w.Hang = false
	put(t, k, "kit", `3`)
	wantState(t, k, Saved, None, true)
	w.Hang = true
	put(t, k, "kit", `4`)
	w.pass()
	w.Hang = false
	k.Retry()
	wantState(t, k, Saved, None, true)
	wantBody(t, w.settled(), "kit", `4`)
}

func TestJournalThatNeverOpensIsToldAndHealsByItself(t *testing.T) {
	w := newWorld(t)
	w.Hang = true
	k := w.open()
	k.Reconcile()
	put(t, k, "kit", `1`)
	wantState(t, k, Saving, None, true)
	w.pass()
	wantState(t, k, NotSaved, NoAnswer, true)
	if k.Settled() || k.Homes().Journal != NoAnswer {
		t.Errorf("settled %v, homes %+v", k.Settled(), k.Homes())
	}
	put(t, k, "kit", `2`)
	wantState(t, k, Saving, None, true)
	w.pass()
	wantState(t, k, NotSaved, NoAnswer, true)
	w.Hang = false
	k.Retry()
	wantState(t, k, Saved, None, true)
}

func TestFailedWriteIsRetried(t *testing.T) {
	w := newWorld(t)
	k := w.settled()
	w.JournalError = errors.New("disk")
	put(t, k, "kit", `1`)
	wantState(t, k, NotSaved, Other, true)
	var told []bool
	k.WhenSaved("kit", func(ok bool) { told = append(told, ok) })
	w.JournalError = nil
	k.WhenSaved("kit", func(ok bool) { told = append(told, ok) })
	if !slices.Equal(told, []bool{false, true}) {
		t.Errorf("told %v", told)
	}
	w.JournalError = ErrFull
	put(t, k, "kit", `2`)
	wantState(t, k, NotSaved, Full, true)
	w.JournalError = nil
	k.Retry()
	wantState(t, k, Saved, None, true)
	wantBody(t, w.settled(), "kit", `2`)
}

func TestOneWriteInFlightAndNeverTheLastLost(t *testing.T) {
	w := newWorld(t)
	k := w.settled()
	w.Slow = true
	for i := range 5 {
		put(t, k, "job/a", fmt.Sprint("[", i, "]"))
		if work, _ := w.Waiting(); work != 1 {
			t.Fatalf("%d writes in flight", work)
		}
	}
	w.Drain()
	wantState(t, k, Saved, None, true)
	head := w.JournalHead("job/a")
	if head.Sequence != 5 || !strings.HasSuffix(head.Text, `"body":[4]}`) || len(head.Line) != 4 {
		t.Errorf("head = %+v, want revision 5 with its four ancestors", head)
	}
}

func TestFullLocalStorageLeavesItToTheJournal(t *testing.T) {
	w := newWorld(t)
	w.LocalRoom = 400
	k := w.settled()
	put(t, k, "kit", `"`+strings.Repeat("x", 400)+`"`)
	wantState(t, k, Saved, None, true)
	if k.Homes().Local != Full || localText(w, "kit") != "" {
		t.Errorf("homes %+v, local %q", k.Homes(), localText(w, "kit"))
	}
	w.JournalRoom = 500
	put(t, k, "kit", `"`+strings.Repeat("y", 401)+`"`)
	wantState(t, k, NotSaved, Full, false)
	w.JournalRoom = 0
	k.Retry()
	wantState(t, k, Saved, None, true)
	wantBody(t, w.settled(), "kit", `"`+strings.Repeat("y", 401)+`"`)
}

// 40 jobs of 50,000 characters are 2 million: more than the limit, and all of them are safe.
func TestLocalStorageStaysBelowItsLimit(t *testing.T) {
	if LocalLimit != 1_500_000 {
		t.Fatalf("LocalLimit = %d, want 1.5 million", LocalLimit)
	}
	w := newWorld(t)
	w.Plant("another program", strings.Repeat("z", LocalLimit))
	k := w.settled()
	body := `["` + strings.Repeat("x", 50_000) + `"]`
	for i := range 40 {
		put(t, k, fmt.Sprint("job/", i), body)
	}
	total := 0
	for name, text := range w.Local() {
		if strings.HasPrefix(name, Prefix) {
			total += len(name) + len(text)
		}
	}
	if total > LocalLimit || total < LocalLimit-60_000 {
		t.Errorf("local storage holds %d characters of ours, want just below %d", total, LocalLimit)
	}
	wantState(t, k, Saved, None, true)
	again := w.settled()
	if n := len(again.Keys("job")); n != 40 {
		t.Errorf("%d jobs after reopening, want 40", n)
	}
}

func TestBlockedStoresAreToldAndTheDataStaysInTheSession(t *testing.T) {
	w := newWorld(t)
	w.JournalBlocked = true
	k := w.settled()
	put(t, k, "kit", `1`)
	wantState(t, k, NotSaved, Blocked, true)
	if k.Homes() != (Homes{None, Blocked}) {
		t.Errorf("homes %+v", k.Homes())
	}
	again := w.settled()
	wantBody(t, again, "kit", `1`)
	wantState(t, again, NotSaved, Blocked, true)
	w.JournalBlocked = false
	again.Retry()
	wantState(t, again, Saved, None, true)

	w = newWorld(t)
	w.LocalBlocked = true
	k = w.settled()
	put(t, k, "kit", `1`)
	wantState(t, k, Saved, None, true)
	if k.Homes() != (Homes{Blocked, None}) {
		t.Errorf("homes %+v", k.Homes())
	}
	wantBody(t, w.settled(), "kit", `1`)

	w = newWorld(t)
	w.LocalBlocked, w.JournalBlocked = true, true
	k = w.settled()
	put(t, k, "kit", `1`)
	wantState(t, k, NotSaved, Blocked, false)
	wantBody(t, k, "kit", `1`)
	if k.Homes() != (Homes{Blocked, Blocked}) {
		t.Errorf("homes %+v", k.Homes())
	}
}

func TestClearedLocalStorageIsRestored(t *testing.T) {
	w := newWorld(t)
	k := w.settled()
	put(t, k, "kit", `1`)
	put(t, k, "job/a", `["x"]`)
	clear(w.Local())
	again := w.open()
	if _, outcome := again.Get("kit"); outcome != Absent {
		t.Errorf("before Reconcile: %v", outcome)
	}
	var moved []string
	again.OnMoved(func(key string) { moved = append(moved, key) })
	again.Reconcile()
	wantBody(t, again, "kit", `1`)
	if localText(w, "job/a") == "" || !slices.Equal(moved, []string{"job/a", "kit"}) {
		t.Errorf("local %q, moved %q", localText(w, "job/a"), moved)
	}
	wantState(t, again, Saved, None, true)
}

func TestDeletedJournalIsWrittenAnew(t *testing.T) {
	w := newWorld(t)
	k := w.settled()
	put(t, k, "kit", `1`)
	put(t, k, "job/a", `["x"]`)
	w.DropJournal()
	put(t, k, "kit", `2`) // the page is open all the while
	wantState(t, k, Saved, None, true)
	if w.JournalHead("kit") == nil || w.JournalHead("job/a") == nil {
		t.Error("the open page did not bring its documents back")
	}
	w.DropJournal()
	again := w.settled()
	wantState(t, again, Saved, None, true)
	if w.JournalHead("job/a") == nil {
		t.Error("reopening did not bring the documents back")
	}
}

func TestNewerRevisionWinsInBothDirections(t *testing.T) {
	w := newWorld(t)
	k := w.settled()
	put(t, k, "kit", `1`)
	old := localText(w, "kit")
	for i := range 20 {
		put(t, k, "kit", fmt.Sprint(i+2))
	}
	w.Plant(Prefix+"kit", old) // as after a kill
	again := w.open()
	wantBody(t, again, "kit", `1`)
	again.Reconcile()
	wantBody(t, again, "kit", `21`)
	if len(again.Parted()) != 0 || !strings.HasSuffix(localText(w, "kit"), `"body":21}`) {
		t.Errorf("parted %v, local %s", again.Parted(), localText(w, "kit"))
	}
	w.Hang = true // and the other way round: the journal misses some
	put(t, again, "kit", `22`)
	put(t, again, "kit", `23`)
	w.Hang = false
	again = w.settled()
	wantBody(t, again, "kit", `23`)
	wantState(t, again, Saved, None, true)
	if len(again.Parted()) != 0 {
		t.Errorf("parted %v", again.Parted())
	}
}

func TestDamagedLocalTextIsSetAsideAndTheJournalsCopyUsed(t *testing.T) {
	for _, slow := range []bool{false, true} {
		w := newWorld(t)
		k := w.settled()
		put(t, k, "kit", `"good"`)
		bad := localText(w, "kit")[:60]
		w.Plant(Prefix+"kit", bad)
		w.Slow = slow
		again := w.open()
		if _, outcome := again.Get("kit"); outcome != Damaged {
			t.Errorf("outcome %v before Reconcile, want Damaged", outcome)
		}
		again.Reconcile()
		if slow && localText(w, "kit") != bad {
			t.Error("written over before it was set aside")
		}
		w.Drain()
		wantBody(t, again, "kit", `"good"`)
		wantState(t, again, Saved, None, true)
		reports := again.Reports()
		if len(reports) != 1 || reports[0].Outcome != Damaged || reports[0].Home != "local" || w.KeptTexts()[reports[0].Kept] != bad {
			t.Errorf("reports %+v, kept %q", reports, w.KeptTexts())
		}
		again.Kept(reports[0].Kept, func(_ Document, outcome Outcome, text string) {
			if outcome != Damaged || text != bad {
				t.Errorf("Kept gives %v, %q", outcome, text)
			}
		})
		w.Drain()
	}
}

func TestDamagedTextThatNobodyHasACopyOfIsKept(t *testing.T) {
	for _, bad := range []string{"~1 5 0000 {", "rubbish", `{"value":null}`} {
		w := newWorld(t)
		w.Plant(Prefix+"job/a", bad)
		k := w.settled()
		if keys := k.Keys("job"); len(keys) != 0 {
			t.Errorf("keys %q", keys)
		}
		put(t, k, "job/a", `["new"]`)
		wantState(t, k, Saved, None, true)
		if !slices.Contains(slices.Collect(maps.Values(w.KeptTexts())), bad) {
			t.Errorf("%q was not kept: %q", bad, w.KeptTexts())
		}
	}
	// Without a journal it is kept in local storage, and moves to the journal later.
	w := newWorld(t)
	w.JournalBlocked = true
	w.Plant(Prefix+"kit", "torn")
	k := w.settled()
	put(t, k, "kit", `1`)
	wantState(t, k, NotSaved, Blocked, true)
	kept := k.Reports()[0].Kept
	if localText(w, kept) != "torn" {
		t.Errorf("local %q", w.Local())
	}
	w.JournalBlocked = false
	w.settled()
	if w.KeptTexts()[kept] != "torn" || localText(w, kept) != "" {
		t.Errorf("kept %q, local %q", w.KeptTexts(), w.Local())
	}
	// Where there is no room to keep it, it is not written over.
	w = newWorld(t)
	w.JournalBlocked, w.LocalRoom = true, 30
	w.Plant(Prefix+"kit", "torn")
	k = w.settled()
	put(t, k, "kit", `1`)
	wantState(t, k, NotSaved, Full, false)
	if localText(w, "kit") != "torn" {
		t.Errorf("local %q", w.Local())
	}
}

func TestDamagedHeadGivesWayToTheNewestIntactRevision(t *testing.T) {
	for _, row := range []struct {
		local string // how local storage stands when the damage is found
		want  string
	}{{"as it was", `4`}, {"fell back", `3`}, {"cleared", `3`}} {
		w := newWorld(t)
		k := w.settled()
		put(t, k, "kit", `1`)
		old := localText(w, "kit")
		for i := range 3 {
			put(t, k, "kit", fmt.Sprint(i+2))
		}
		w.Spoil("kit", func(text string) string { return text[:len(text)-3] })
		bad := w.JournalHead("kit").Text
		switch row.local {
		case "fell back":
			w.Plant(Prefix+"kit", old)
		case "cleared":
			clear(w.Local())
		}
		again := w.settled()
		wantBody(t, again, "kit", row.want)
		wantState(t, again, Saved, None, true)
		if !slices.Contains(slices.Collect(maps.Values(w.KeptTexts())), bad) {
			t.Errorf("%s: the damaged head was not kept", row.local)
		}
		if len(again.Parted()) != 0 || len(again.Reports()) != 1 || again.Reports()[0].Home != "journal" {
			t.Errorf("%s: parted %v, reports %v", row.local, again.Parted(), again.Reports())
		}
		if head := w.JournalHead("kit"); !strings.HasSuffix(head.Text, `"body":`+row.want+`}`) || head.Sequence != 5 {
			t.Errorf("%s: head %+v, want revision 5: four written, one mended", row.local, head)
		}
		wantBody(t, w.settled(), "kit", row.want)
	}
	// Local storage parted from the newest intact revision: both count.
	m := newWorld(t)
	for _, body := range []string{`["x"]`, `["x","y"]`} {
		put(t, m.settled(), "job/a", body)
	}
	m.Spoil("job/a", func(text string) string { return text[:len(text)-3] })
	m.Plant(Prefix+"job/a", raw("1", `{"kind":"job","version":1,"body":["local"]}`))
	merged := m.settled()
	wantBody(t, merged, "job/a", `["x","local"]`)
	wantState(t, merged, Saved, None, true)
	// Nothing intact anywhere: told, kept, and free to be put anew.
	w := newWorld(t)
	put(t, w.settled(), "kit", `1`)
	w.Spoil("kit", func(string) string { return "rubbish" })
	clear(w.Local())
	k := w.settled()
	if _, outcome := k.Get("kit"); outcome != Damaged {
		t.Errorf("outcome %v", outcome)
	}
	put(t, k, "kit", `2`)
	wantState(t, k, Saved, None, true)
	if !slices.Contains(slices.Collect(maps.Values(w.KeptTexts())), "rubbish") {
		t.Error("the damaged head was not kept")
	}
}

func TestNewerDocumentsAreShownAndNeverWritten(t *testing.T) {
	later := raw("9", `{"kind":"kit","version":2,"body":{"much":"later"}}`)
	for _, home := range []string{"local", "journal", "both"} {
		w := newWorld(t)
		if home != "journal" {
			w.Plant(Prefix+"kit", later)
		}
		if home != "local" {
			sum := strings.Split(later, " ")[2]
			w.Tab().Commit(Commit{Key: "kit", Sequence: 9, Sum: sum, Text: later}, func(bool, *Head, error) {})
		}
		before, journal := maps.Clone(w.Local()), w.JournalHead("kit")
		k := w.settled()
		d, outcome := k.Get("kit")
		if outcome != Newer || d.Version != 2 || string(d.Body) != `{"much":"later"}` {
			t.Errorf("%s: %v %+v", home, outcome, d)
		}
		for _, err := range []error{k.Put("kit", "kit", json.RawMessage("1")), k.Remove("kit"), k.Finish("kit")} {
			if !errors.Is(err, ErrNewer) {
				t.Errorf("%s: %v, want ErrNewer", home, err)
			}
		}
		k.Retry()
		if !maps.Equal(w.Local(), before) {
			t.Errorf("%s: local storage was changed to %q", home, w.Local())
		}
		if now := w.JournalHead("kit"); (now == nil) != (journal == nil) || now != nil && now.Text != journal.Text {
			t.Errorf("%s: the journal was changed to %v", home, now)
		}
		if len(k.Reports()) == 0 || k.Reports()[0].Outcome != Newer {
			t.Errorf("%s: reports %v", home, k.Reports())
		}
	}
}

func TestNewerVersionInAnotherTabLeavesOursKept(t *testing.T) {
	w := newWorld(t)
	k := w.settled()
	put(t, k, "kit", `1`)
	head := w.JournalHead("kit")
	later := raw("2", `{"kind":"kit","version":2,"parent":"`+head.Sum+`","body":2}`)
	w.Tab().Commit(Commit{Key: "kit", Expect: head.Sum, Sequence: 2, Sum: strings.Split(later, " ")[2], Text: later}, func(bool, *Head, error) {})
	put(t, k, "kit", `"ours"`)
	if d, outcome := k.Get("kit"); outcome != Newer || string(d.Body) != "2" {
		t.Errorf("%v %s", outcome, d.Body)
	}
	if w.JournalHead("kit").Text != later || len(k.Parted()) != 1 || string(k.Parted()[0].Ours.Body) != `"ours"` {
		t.Errorf("head %v, parted %v", w.JournalHead("kit"), k.Parted())
	}
}

func TestKeysOfOthersAreUntouched(t *testing.T) {
	w := newWorld(t)
	others := map[string]string{"kit": "x", "job/a": "~1 1 0 {}", "/go-app/deviceID": `"id"`, "gapwright": "y", Prefix + "loft/1": "later",
		Prefix: "nameless", "": "empty", Prefix + "aside": "z"}
	for name, text := range others {
		w.Plant(name, text)
	}
	k := w.settled()
	put(t, k, "kit", `1`)
	put(t, k, "job/a", `["x"]`)
	if err := k.Remove("job/a"); err != nil {
		t.Fatal(err)
	}
	for name, text := range others {
		if w.Local()[name] != text {
			t.Errorf("%q is %q now, was %q", name, w.Local()[name], text)
		}
	}
	if len(k.Reports()) != 0 {
		t.Errorf("reports %v", k.Reports())
	}
}

func TestFinishedDocumentLivesInTheJournalAlone(t *testing.T) {
	w := newWorld(t)
	k := w.settled()
	put(t, k, "job/a", `["x"]`)
	w.Slow = true
	if err := k.Finish("job/a"); err != nil {
		t.Fatal(err)
	}
	if localText(w, "job/a") == "" || !k.Finished("job/a") {
		t.Error("left local storage before the commit was confirmed")
	}
	w.Drain()
	wantState(t, k, Saved, None, true)
	if localText(w, "job/a") != "" {
		t.Error("still in local storage")
	}
	w.Slow = false
	again := w.settled()
	if _, outcome := again.Get("job/a"); outcome != Unreachable || !again.Finished("job/a") || localText(w, "job/a") != "" {
		t.Errorf("%v, finished %v, local %q", outcome, again.Finished("job/a"), localText(w, "job/a"))
	}
	if keys := again.Keys("job"); !slices.Equal(keys, []string{"job/a"}) {
		t.Errorf("keys %q", keys)
	}
	w.Hang = true
	var got []Outcome
	again.Load("job/a", func(_ Document, o Outcome) { got = append(got, o) })
	w.pass()
	w.Hang = false
	again.Load("job/a", func(d Document, o Outcome) {
		if got = append(got, o); string(d.Body) != `["x"]` {
			t.Errorf("loaded %s", d.Body)
		}
	})
	again.Load("job/none", func(_ Document, o Outcome) { got = append(got, o) })
	if !slices.Equal(got, []Outcome{Unreachable, Fine, Absent}) {
		t.Errorf("outcomes %v", got)
	}
	put(t, again, "job/a", `["x","y"]`) // open again
	if localText(w, "job/a") == "" || again.Finished("job/a") {
		t.Error("a job that is worked on again is not back in local storage")
	}
	third := w.settled() // and without being loaded first
	if err := third.Finish("job/a"); err != nil {
		t.Fatal(err)
	}
	fourth := w.settled()
	put(t, fourth, "job/a", `["z"]`)
	wantState(t, fourth, Saved, None, true)
}

func TestOlderLocalTextOfAFinishedJobIsCleared(t *testing.T) {
	w := newWorld(t)
	k := w.settled()
	put(t, k, "job/a", `["x"]`)
	old := localText(w, "job/a")
	put(t, k, "job/a", `["x","y"]`)
	if err := k.Finish("job/a"); err != nil {
		t.Fatal(err)
	}
	w.Plant(Prefix+"job/a", old)
	again := w.settled()
	if localText(w, "job/a") != "" || !again.Finished("job/a") {
		t.Errorf("local %q", localText(w, "job/a"))
	}
	again.Load("job/a", func(d Document, _ Outcome) {
		if string(d.Body) != `["x","y"]` {
			t.Errorf("loaded %s", d.Body)
		}
	})
}

func TestRemovedDocumentIsNotBroughtBack(t *testing.T) {
	w := newWorld(t)
	k, other := w.settled(), w.settled()
	put(t, k, "instrument/a", `1`)
	old := localText(w, "instrument/a")
	other.Reconcile()
	wantBody(t, other, "instrument/a", `1`)
	if err := k.Remove("instrument/a"); err != nil {
		t.Fatal(err)
	}
	wantState(t, k, Saved, None, true)
	if localText(w, "instrument/a") != "" || len(k.Keys("instrument")) != 0 {
		t.Errorf("local %q, keys %q", localText(w, "instrument/a"), k.Keys("instrument"))
	}
	other.Reconcile()
	if len(other.Keys("instrument")) != 0 {
		t.Error("the other page still lists it")
	}
	w.Plant(Prefix+"instrument/a", old)
	again := w.settled()
	if _, outcome := again.Get("instrument/a"); outcome != Absent || localText(w, "instrument/a") != "" {
		t.Errorf("%v, local %q", outcome, localText(w, "instrument/a"))
	}
	put(t, again, "instrument/a", `2`) // undone by hand
	wantBody(t, w.settled(), "instrument/a", `2`)
}

func TestChangeOutlivesARemovalThatDidNotKnowOfIt(t *testing.T) {
	for _, removesLast := range []bool{true, false} {
		w := newWorld(t)
		k, other := w.settled(), w.settled()
		put(t, k, "instrument/a", `1`)
		other.Reconcile()
		change := func() { put(t, k, "instrument/a", `2`) }
		remove := func() {
			if err := other.Remove("instrument/a"); err != nil {
				t.Fatal(err)
			}
		}
		if removesLast {
			change()
			remove()
		} else {
			remove()
			change()
		}
		wantBody(t, w.settled(), "instrument/a", `2`)
	}
}

func TestPartedChainsAreBothKept(t *testing.T) {
	w := newWorld(t)
	k, other := w.settled(), w.settled()
	put(t, k, "instrument/a", `1`)
	other.Reconcile()
	put(t, k, "instrument/a", `"first"`)
	var told []bool
	put(t, other, "instrument/a", `"second"`)
	other.WhenSaved("instrument/a", func(ok bool) { told = append(told, ok) })
	wantBody(t, other, "instrument/a", `"first"`)
	if len(other.Parted()) != 1 || !slices.Equal(told, []bool{false}) {
		t.Fatalf("parted %v, told %v", other.Parted(), told)
	}
	p := other.Parted()[0]
	if p.Key != "instrument/a" || string(p.Ours.Body) != `"second"` || string(p.Theirs.Body) != `"first"` {
		t.Errorf("parted %+v", p)
	}
	wantState(t, other, NotSaved, Conflict, true)
	again := w.settled() // the next visit is told as well
	if len(again.Parted()) != 1 || again.Parted()[0].Kept != p.Kept {
		t.Errorf("next visit: %v", again.Parted())
	}
	again.Kept(p.Kept, func(d Document, outcome Outcome, _ string) {
		if outcome != Fine || string(d.Body) != `"second"` {
			t.Errorf("kept %v %s", outcome, d.Body)
		}
	})
	other.Forget(p.Kept, func(ok bool) {
		if !ok || len(other.Parted()) != 0 {
			t.Errorf("forgotten %v, parted %v", ok, other.Parted())
		}
	})
	wantState(t, other, Saved, None, true)
}

// While the copy of ours is not confirmed, what is put next must not go over their head unseen.
func TestHeadIsNotWrittenOverWhileTheCopyHangs(t *testing.T) {
	w := newWorld(t)
	k, other := w.settled(), w.settled()
	put(t, k, "instrument/a", `1`)
	other.Reconcile()
	put(t, k, "instrument/a", `"first"`)
	w.Slow = true
	put(t, other, "instrument/a", `"second"`)
	w.Work()
	w.Answer(len(w.answers) - 1) // the conflict; the copy is asked for now
	w.pass()
	wantState(t, other, NotSaved, NoAnswer, false) // local storage has theirs
	put(t, other, "instrument/a", `"third"`)
	w.Drain()
	if head := w.JournalHead("instrument/a"); !strings.HasSuffix(head.Text, `"body":"first"}`) {
		t.Errorf("head %s", head.Text)
	}
	if parted := other.Parted(); len(parted) != 1 || string(parted[0].Ours.Body) != `"third"` {
		t.Errorf("parted %v", parted)
	}
}

func TestTwoPagesOnOneJobBothCount(t *testing.T) {
	w := newWorld(t)
	k, other := w.settled(), w.settled()
	put(t, k, "job/a", `["0"]`)
	other.Reconcile()
	w.Slow = true
	put(t, k, "job/a", `["0","ours"]`)
	put(t, other, "job/a", `["0","theirs"]`)
	w.Drain()
	wantBody(t, k, "job/a", `["0","ours","theirs"]`)
	wantBody(t, other, "job/a", `["0","ours","theirs"]`)
	wantState(t, k, Saved, None, true)
	wantState(t, other, Saved, None, true)
}

func TestTwoPagesWithoutAJournalBothCount(t *testing.T) {
	w := newWorld(t)
	w.JournalBlocked = true
	k, other := w.settled(), w.settled()
	put(t, k, "job/a", `["ours"]`)
	put(t, other, "job/a", `["theirs"]`)
	wantBody(t, w.settled(), "job/a", `["ours","theirs"]`)
	put(t, k, "kit", `"ours"`)
	put(t, other, "kit", `"theirs"`)
	wantBody(t, w.settled(), "kit", `"ours"`)
	if len(other.Parted()) != 1 || localText(w, other.Parted()[0].Kept) == "" {
		t.Errorf("parted %v", other.Parted())
	}
	w.JournalBlocked = false
	again := w.settled()
	wantBody(t, again, "kit", `"ours"`)
	if len(again.Parted()) != 1 {
		t.Errorf("parted %v", again.Parted())
	}
}

func TestRawTextIsKeptBeforeAMigratedOneIsWritten(t *testing.T) {
	old := raw("3", `{"kind":"note","version":1,"body":1}`)
	for _, home := range []string{"local", "journal"} {
		for _, blocked := range []bool{false, true} {
			d := NewDevice()
			d.JournalBlocked = blocked && home == "local"
			if home == "local" {
				d.Plant(Prefix+"note", old)
			} else {
				d.Tab().Commit(Commit{Key: "note", Sequence: 3, Sum: strings.Split(old, " ")[2], Text: old}, func(bool, *Head, error) {})
			}
			k := Open(d.Tab(), Options{NewID: func() string { return "p" }, After: func(time.Duration, func()) {}, Kinds: Kinds{
				"note": {Migrations: []Migration{func(b []byte) ([]byte, error) { return append([]byte("1"), b...), nil }}}}})
			k.Reconcile()
			wantBody(t, k, "note", `11`)
			put(t, k, "note", `12`)
			kept := slices.Collect(maps.Values(d.KeptTexts()))
			if d.JournalBlocked {
				kept = slices.Collect(maps.Values(d.Local()))
			}
			if !slices.Contains(kept, old) {
				t.Errorf("%s, blocked %v: the raw text is gone", home, blocked)
			}
			if len(k.Reports()) != 1 || k.Reports()[0].Outcome != Migrated {
				t.Errorf("reports %v", k.Reports())
			}
			if doc, outcome := k.Get("note"); doc.Version != 2 || outcome != Fine || doc.Sequence != 4 {
				t.Errorf("%+v %v", doc, outcome)
			}
		}
	}
}

func TestEverythingIsEveryText(t *testing.T) {
	w := newWorld(t)
	w.Plant(Prefix+"instrument/b", "torn")
	k := w.settled()
	put(t, k, "kit", `1`)
	put(t, k, "job/a", `["x"]`)
	if err := k.Finish("job/a"); err != nil {
		t.Fatal(err)
	}
	given := 0
	k.Everything(func(texts []Text, whole bool) {
		given++
		var found []string
		for _, each := range texts {
			sort, _, _ := strings.Cut(each.Name, "/")
			found = append(found, each.Home+" "+sort)
		}
		slices.Sort(found)
		// the finished job in two revisions
		if want := []string{"journal aside", "journal job", "journal job", "journal kit", "local kit", "page job"}; !whole || !slices.Equal(found, want) {
			t.Errorf("whole %v: %q, want %q", whole, found, want)
		}
	})
	w.Hang = true
	put(t, k, "kit", `2`)
	w.LocalBlocked = true
	put(t, k, "kit", `3`)
	k.Everything(func(texts []Text, whole bool) {
		given++
		if whole || len(texts) != 2 || texts[1].Home != "page" || !strings.HasSuffix(texts[1].Text, `"body":3}`) {
			t.Errorf("without stores: %v %v", whole, texts)
		}
	})
	w.pass()
	if given != 2 {
		t.Errorf("given %d times", given)
	}
}

func TestPutRefusesWhatIsNoDocument(t *testing.T) {
	k := newWorld(t).settled()
	for _, row := range []struct {
		key, kind, body string
		want            error
	}{{"loft", "loft", "1", ErrKey}, {"job/a", "kit", "1", ErrKey}, {"job/", "job", "1", ErrKey}, {"", "", "1", ErrKey}, {"kit", "kit", "{", ErrBody}} {
		if err := k.Put(row.key, row.kind, json.RawMessage(row.body)); !errors.Is(err, row.want) {
			t.Errorf("Put(%q, %q, %q) = %v, want %v", row.key, row.kind, row.body, err, row.want)
		}
	}
	if err := k.Finish("job/none"); !errors.Is(err, ErrKey) {
		t.Errorf("Finish of nothing: %v", err)
	}
	wantState(t, k, Saved, None, true)
	if key := k.NewKey("job"); Released().kindOf(key) != "job" {
		t.Errorf("NewKey = %q", key)
	}
}

// The interface of the job of two calls at one moment: whatever the callback does, the keeper is of one mind.
func TestCallbacksMayPut(t *testing.T) {
	w := newWorld(t)
	k := w.settled()
	n := 0
	k.OnChange(func() {
		if n++; n < 10 {
			put(t, k, "kit", fmt.Sprint(n))
		}
	})
	put(t, k, "kit", `0`)
	wantState(t, k, Saved, None, true)
	wantBody(t, w.settled(), "kit", `9`)
}

func TestWhatWasToldOnceStaysTold(t *testing.T) {
	w := newWorld(t)
	k := w.settled()
	if k.Told("keep") {
		t.Error("told before anybody did")
	}
	k.Tell("keep")
	for what, change := range map[string]func(){"nothing lost": func() {}, "local storage lost": func() { clear(w.Local()) }, "the journal lost": w.DropJournal} {
		change()
		again := w.settled()
		if !again.Told("keep") || again.Told("other") || len(again.Aside()) != 0 || len(again.Parted()) != 0 || len(again.Reports()) != 0 {
			t.Errorf("%s: told %v, other %v, aside %q", what, again.Told("keep"), again.Told("other"), again.Aside())
		}
		again.Tell("keep") // as the page would ask again
		k = again
	}
	w.LocalBlocked, w.JournalBlocked = true, true
	k = w.settled()
	k.Tell("asked")
	if !k.Told("asked") {
		t.Error("with no store at all it is forgotten at once")
	}
}

// What was set aside while the journal was silent, and is forgotten afterwards, does not come back from where it lay.
func TestWhatIsForgottenStaysForgotten(t *testing.T) {
	w := newWorld(t)
	w.Plant(Prefix+"job/a", "torn")
	w.Hang = true
	k := w.open()
	k.Reconcile()
	w.pass()
	w.Hang = false
	k.Retry()
	for _, name := range k.Aside() {
		k.Forget(name, func(bool) {})
	}
	if again := w.settled(); len(again.Aside()) != 0 || len(again.Reports()) != 0 || localText(w, "job/a") != "" {
		t.Errorf("on the next visit: aside %q, reports %v, local %q", again.Aside(), again.Reports(), w.Local())
	}
}

func TestWhatIsAsideIsListedUntilItIsForgotten(t *testing.T) {
	w := newWorld(t)
	w.Plant(Prefix+"job/a", "torn")
	w.Plant(Prefix+"kit", "~1 3 0 {")
	w.settled()
	again := w.settled() // on a later visit, too
	names := again.Aside()
	if len(names) != 2 || len(again.Reports()) != 0 {
		t.Fatalf("aside %q, reports %v", names, again.Reports())
	}
	if key, kind := again.KeyOf(names[0]); key != "job/a" || kind != "job" {
		t.Errorf("%s is of %s, a %s", names[0], key, kind)
	}
	again.Kept(names[0], func(_ Document, outcome Outcome, text string) {
		if outcome != Foreign || text != "torn" {
			t.Errorf("kept: %v %q", outcome, text)
		}
	})
	again.Forget(names[0], func(ok bool) {
		if left := again.Aside(); !ok || !slices.Equal(left, names[1:]) {
			t.Errorf("forgotten %v, left %q", ok, left)
		}
	})
	if left := w.settled().Aside(); !slices.Equal(left, names[1:]) {
		t.Errorf("on the next visit there is %q", left)
	}
}
