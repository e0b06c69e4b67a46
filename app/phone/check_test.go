package phone

import (
	"encoding/json"
	"fmt"
	"testing"
	"time"

	"gapwright/app/job"
	"gapwright/app/store"
	"gapwright/app/view"
	"gapwright/app/words"
	"gapwright/geometry"
)

// holds puts documents into the local storage of a phone, as an earlier visit left them, and opens the app on them; a kit with no rule is left out.
func (w *Walk) holds(kit job.Kit, instruments ...job.Instrument) {
	w.t.Helper()
	w.Wait("a page that stores", `typeof localStorage === "object" && document.querySelector("main h1") !== null`)
	put := func(key, kind string, body any) {
		data, err := json.Marshal(body)
		if err != nil {
			w.t.Fatal(err)
		}
		_, text, err := store.Encode(store.Document{Key: key, Kind: kind, Version: store.JobKinds()[kind].Version(), Sequence: 1, Build: "b", Writer: "w",
			Saved: time.Now(), Body: data})
		if err != nil {
			w.t.Fatal(err)
		}
		w.JS(fmt.Sprintf("localStorage.setItem(%q, %q)", store.Prefix+key, text))
	}
	if kit.Marks != job.MarksUnknown {
		put(store.KindKit, store.KindKit, kit)
	}
	for _, i := range instruments {
		put(store.KindInstrument+"/"+i.ID, store.KindInstrument, i)
	}
	w.Go(view.Bench)
	w.WaitSaved()
}

// wasSet is an instrument that was set so many days ago.
func wasSet(id, name string, family geometry.FamilyID, days int, readings ...job.Read) job.Instrument {
	return job.Instrument{ID: id, Name: name, Family: family, AsSet: &job.AsSet{Job: "set-" + id, At: time.Now().Add(-time.Duration(days)*24*time.Hour - time.Minute),
		Proven: true, Readings: readings}}
}

func byMarks(course int, low, high string) job.Read {
	return job.Read{String: course, Fret: 12, Way: job.ByMarks, Low: mark(low), High: mark(high)}
}

// moved moves the mark by that many and takes the reading, every tap counted; label is what the button says then.
func (w *Walk) moved(i job.Instrument, course, move int, label string) {
	w.t.Helper()
	w.On(words.ReadTitle(i, course, false))
	for ; move > 0; move-- {
		w.Touch(words.OneMarkUp())
	}
	for ; move < 0; move++ {
		w.Touch(words.OneMarkDown())
	}
	w.Touch(label)
}

// shortcut is the tap on the home screen.
func (w *Walk) shortcut() {
	w.t.Helper()
	w.Go(view.Check)
	w.taps = 0
}

// answered waits for the answer of a check and looks at how many taps it took.
func (w *Walk) answered(title string, most int) {
	w.t.Helper()
	w.On(title)
	if w.taps > most {
		w.t.Errorf("%q took %d taps, at most %d are wanted", title, w.taps, most)
	}
	w.t.Logf("%s: %d taps", title, w.taps)
}

// Ten minutes before a show, with no network: every answer from the shortcut, with its taps counted.
func TestCheckBeforeAShow(t *testing.T) {
	t.Parallel()
	w := StartWalk(t, "check", Small)
	old := wasSet("old", "Old friend", geometry.FlatTop6, 20, byMarks(0, "2.25", "2.50"), byMarks(5, "1.75", "2.00"))
	old.AsSet.Neck = []job.Surveyed{surveyed(old, job.Place{Feature: job.Relief}, mark("0.20"), mark("0.25"))}
	bare := job.Instrument{ID: "bare", Name: "Never set", Family: geometry.UkuleleTenor}
	w.holds(job.Kit{Unit: job.MM, Marks: job.EveryQuarter, Zero: job.ZeroAtEnd, Feelers: job.Yes}, old, bare)

	// As set: one instrument that was ever set, so its first string at once, and the mark stands where it was.
	w.shortcut()
	w.Tap(words.AnotherInstrument())
	w.On(words.CheckWhich())
	w.shortcut()
	w.moved(old, 0, 0, "Same: 2.25 to 2.50\u00a0mm")
	w.moved(old, 5, 0, "Same: 1.75 to 2.00\u00a0mm")
	w.answered("As it was set", 4)
	w.Says("Old friend", "Set 20 days ago", "Within 0.25\u00a0mm, as near as your rule tells.")
	w.rows("Bass string; 2.25 to 2.50 → 2.25 to 2.50\u00a0mm; as set", "Treble string; 1.75 to 2.00 → 1.75 to 2.00\u00a0mm; as set")
	w.Read(words.WhatIsSafe(), words.WaitsTitle(), words.BuzzTitle(), "qualified repairer")
	w.WaitSaved()
	w.Reload() // the answer lives in the journal alone, and is found again under its own address
	w.On("As it was set")
	w.Tap(words.CheckDone())
	w.Sees("Old friend")
	w.SeesNot(words.OpenJobs())

	// Two that were set: which one is asked, and the one that was checked or set last stands first.
	other := wasSet("new", "Stage one", geometry.FlatTop6, 3, byMarks(0, "2.25", "2.50"), byMarks(5, "1.75", "2.00"))
	w.holds(job.Kit{}, other)
	w.shortcut()
	w.On(words.CheckWhich())
	if got := w.JS(`[...document.querySelectorAll("main .card strong")].map(e => e.textContent).join(", ")`); got != "Old friend, Stage one, Never set" {
		t.Errorf("the list is %v", got)
	}

	// Higher at both: two marks up each.
	w.taps = 0
	w.Touch(`#screen .card[href$="id=old"]`)
	w.moved(old, 0, 2, "Light at 2.75, none at 3.00\u00a0mm")
	w.moved(old, 5, 2, "Light at 2.25, none at 2.50\u00a0mm")
	w.answered("Higher than it was set", 8)
	w.rows("Bass string; 2.25 to 2.50 → 2.75 to 3.00\u00a0mm; higher by 0.25 to 0.75\u00a0mm", "Treble string; 1.75 to 2.00 → 2.25 to 2.50\u00a0mm; higher by 0.25 to 0.75\u00a0mm")

	// The relief too: it grew.
	w.Tap(words.ReliefToo())
	w.On(words.SurveyTitle(old, job.Place{Feature: job.Relief}))
	w.feelers("0.40", "0.45")
	w.On("Higher than it was set")
	w.Says("Relief", "0.20 to 0.25 → 0.40 to 0.45\u00a0mm", "more by 0.15 to 0.26\u00a0mm")
	// The treble was misread: both are read again, and the later reading counts.
	w.Tap(words.ReadAgain())
	w.Waiting(words.ReadTitle(old, 0, false))
	w.Tap(words.Back())
	w.Waiting("Higher than it was set")
	w.Tap(words.ReadAgain())
	w.moved(old, 0, 0, "Light at 2.75, none at 3.00\u00a0mm")
	w.moved(old, 5, -2, "Same: 1.75 to 2.00\u00a0mm")
	w.On("Bass side is higher")
	w.Tap(words.JobMenu())
	w.Tap(mm.UndoOf(old, byMarks(5, "1.75", "2.00")))
	w.Waiting("Higher than it was set")
	w.WaitSaved()

	// Half a check is kept: it is under way on the Bench, and both shortcuts lead to it.
	w.shortcut()
	w.Touch(`#screen .card[href$="id=new"]`)
	w.moved(other, 0, 1, "Light at 2.50, none at 2.75\u00a0mm")
	w.Waiting(words.ReadTitle(other, 5, false))
	half := w.Place()
	w.WaitSaved()
	w.Go(view.Bench)
	w.Sees(words.OpenJobs())
	w.Go(view.Job)
	w.Waiting(words.ReadTitle(other, 5, false))
	if w.Place() != half {
		t.Errorf("the way back to the job leads to %s, want %s", w.Place(), half)
	}
	w.Open("/check/?id=new")
	w.Waiting(words.ReadTitle(other, 5, false))
	// One mark up tells nothing with this rule.
	w.moved(other, 5, 0, "Same: 1.75 to 2.00\u00a0mm")
	w.taps = 4 // the instrument, one mark, and two readings
	w.answered("This reading cannot tell", 8)
	w.Says("It may lie up to 0.50\u00a0mm off. Feelers could tell.")
	w.rows("Bass string; 2.25 to 2.50 → 2.50 to 2.75\u00a0mm; cannot tell: up to 0.50\u00a0mm higher", "Treble string; 1.75 to 2.00 → 1.75 to 2.00\u00a0mm; as set")
	w.WaitSaved()
	w.Go(view.Job) // nothing is under way now
	w.Sees("Stage one")
	w.SeesNot(words.OpenJobs())

	// No baseline: what is usual, and where it stands. The control opens at the high end of usual.
	w.shortcut()
	w.Touch(`#screen .card[href$="id=bare"]`)
	w.moved(bare, 0, 1, "Light at 3.00, none at 3.25\u00a0mm")
	w.moved(bare, 3, 0, "Light at 2.75, none at 3.00\u00a0mm")
	w.answered("Compared with what is usual", 8)
	w.rows("Bass string; 3.00 to 3.25\u00a0mm; higher than usual: 2.40 to 2.80\u00a0mm", "Treble string; 2.75 to 3.00\u00a0mm; perhaps usual: 2.40 to 2.80\u00a0mm")
	w.Tap(words.StartAJob())
	w.Waiting(words.WorkQuestion(bare.Holds()).Title)

	// What was read by caliper stands in the field; nobody has a rule here.
	bench := wasSet("cal", "By caliper", geometry.FlatTop6, 400,
		job.Read{String: 0, Fret: 12, Way: job.ByCaliper, Low: mark("2.40")}, job.Read{String: 5, Fret: 12, Way: job.ByCaliper, Low: mark("1.80")})
	bench.AsSet.Moved = true
	w.holds(job.Kit{}, bench)
	w.Go(view.Kit)
	w.Tap(words.HasCaliper())
	w.Tap(words.HasFeelers())
	w.Tap(words.Change() + ": " + words.RuleRow())
	w.Waiting(words.RuleQuestion().Title)
	w.Tap(words.Marks(job.NoRule))
	w.WaitSaved()
	w.Open("/check/?id=cal")
	w.taps = 0
	w.On(words.ReadTitle(bench, 0, false))
	w.Holds("value", "2.40")
	w.Touch("Same: 2.40\u00a0mm")
	w.On(words.ReadTitle(bench, 5, false))
	w.Wait("the treble's own number", `document.getElementById("value").value === "1.80"`)
	w.Type("#value", "1.10")
	w.Touch(words.ReadButton())
	w.answered("Treble side is lower", 8)
	w.Says("A cracked saddle, a lifting bridge? Slacken the strings.")
	w.rows("Bass string; 2.35 to 2.45 → 2.35 to 2.45\u00a0mm; as set", "Treble string; 1.75 to 1.85 → 1.05 to 1.15\u00a0mm; lower by 0.60 to 0.80\u00a0mm")
	w.Read(words.WhatIsSafe(), "Nut or relief were changed after these heights were read")
}
