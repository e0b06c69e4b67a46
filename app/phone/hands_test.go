package phone

import (
	"fmt"
	"testing"
	"time"

	"gapwright/app/job"
	"gapwright/app/words"
	"gapwright/geometry"
)

// press goes to a control with the Tab key and presses a key there.
func (w *Walk) press(control, key string) {
	w.t.Helper()
	w.find(control)
	w.TabTo(control)
	w.Press(key)
}

// A whole job without a finger, from the first screen to the record: Tab, Enter and Space alone.
func TestKeyboardAlone(t *testing.T) {
	t.Parallel()
	w := StartWalk(t, "keyboard", Tall)
	w.JS(`["pointerdown", "mousedown", "touchstart"].forEach(kind => addEventListener(kind, () => { window.touched = true }, true))`)
	w.Waiting(words.FamilyQuestion().Title)
	w.press(words.Family(geometry.FlatTop6), "Enter")
	w.Waiting(words.Question(job.AskSaddle, job.Kit{}).Title)
	w.press(words.Answer(job.AskSaddle, job.SaddleLoose), "Space")
	w.Waiting(words.RuleQuestion().Title)
	w.press(words.Marks(job.EveryQuarter), "Enter")
	w.Waiting(words.ZeroQuestion().Title)
	w.press(words.Zero(job.ZeroAtEnd), "Space")
	w.Waiting(words.ReadTitle(guitar, 0, false))
	w.press(words.OneMarkUp(), "Space")
	w.press(words.MarkSeen(mark("2.75"), mark("3.00")), "Enter")
	w.Waiting(words.ReadTitle(guitar, 5, false))
	w.press(words.MarkSeen(mark("2.00"), mark("2.25")), "Enter")
	w.Waiting(words.MeasuredTitle())
	w.press(words.Answer(job.AskStrings, job.StringsStay), "Enter")
	w.Waiting(words.Question(job.AskBuzz, job.Kit{}).Title)
	w.press(words.Answer(job.AskBuzz, job.BuzzNone), "Enter")
	w.Waiting(words.ChooseTitle())
	w.press(lower(guitar, 0), "Space")
	w.Sees(mm.AimFor(mark("2.35"), mark("1.85")))
	w.Press("Space") // the keyboard is still there
	w.press(lower(guitar, 5), "Enter")
	w.press(mm.AimFor(mark("2.30"), mark("1.80")), "Enter")
	w.Waiting(words.Question(job.AskRoom, job.Kit{}).Title)
	w.press(words.Answer(job.AskRoom, job.RoomFine), "Enter")
	w.Waiting(words.StandQuestion().Title)
	w.TabTo(words.SideTitle(0))
	w.here("4.5")
	w.Press("Enter")
	w.focused("stand-1")
	w.here("4")
	w.Press("Enter")
	w.On(words.PlanTitle(job.PlanGo, 1))
	w.ends("0.45\u00a0mm", "0.15\u00a0mm")
	w.press(words.Numbers(), "Enter")
	w.Sees("Bass string: now 2.75 to 3.00\u00a0mm, after this round 2.45 to 2.80\u00a0mm")
	w.press(words.FollowPlan(), "Enter")
	w.Waiting(words.Question(job.AskUnder, job.Kit{}).Title)
	w.press(words.Answer(job.AskUnder, job.UnderClear), "Enter")
	w.Waiting(words.Question(job.AskFollow, job.Kit{}).Title)
	w.press(words.Answer(job.AskFollow, job.FollowPencil), "Space")
	w.Waiting(words.MarkTitle())
	w.press(words.Marked(), "Enter")
	w.Waiting("2 strokes, then look")
	for place := range 3 {
		at := fmt.Sprintf(`document.activeElement.closest("[aria-label='" + %q + "']") !== null && document.activeElement.textContent === %q`, words.Place(place), words.Line(job.Touched))
		for n := 0; w.JS(at) != true; n++ {
			if n > 60 {
				t.Fatalf("the keyboard does not reach %s at %s", words.Line(job.Touched), words.Place(place))
			}
			w.Press("Tab")
		}
		w.Press("Space")
	}
	w.press(words.RecordLook(2), "Enter")
	w.Waiting("Stop: you are there")
	w.press(words.StopHere(), "Enter")
	w.Waiting("Smooth later")
	w.press(words.SkipForNow(), "Enter")
	w.Waiting(words.Question(job.AskSeat, job.Kit{}).Title)
	w.press(words.Answer(job.AskSeat, job.SeatFlat), "Enter")
	w.Waiting(words.Question(job.AskStrung, job.Kit{}).Title)
	w.press(words.Answer(job.AskStrung, job.StrungSame), "Enter")
	w.Waiting(words.ReadTitle(guitar, 0, true))
	w.press(words.MarkSeen(mark("2.50"), mark("2.75")), "Enter")
	w.Waiting(words.ReadTitle(guitar, 5, true))
	w.press(words.MarkSeen(mark("2.00"), mark("2.25")), "Enter")
	w.Waiting("Still higher than wanted")
	w.press(words.KeepAsItIs(), "Enter")
	w.Waiting(words.SaveTitle())
	w.press(words.SaveButton(), "Enter")
	w.Waiting(words.FinishedTitle())
	if w.JS("window.touched === true") == true {
		t.Error("something was touched")
	}
}

// Two windows on one job: what is told in one is seen in the other, and what both tell at the same moment is all there.
func TestTwoWindowsOnOneJob(t *testing.T) {
	t.Parallel()
	w := StartWalk(t, "two-windows", Small)
	w.Tap(words.Family(geometry.FlatTop6))
	w.Waiting(words.Question(job.AskSaddle, job.Kit{}).Title)
	w.WaitSaved()
	other := &Walk{Phone: w.Another(), name: "two-windows-other"}
	other.Expect("net::ERR_CONNECTION_REFUSED")
	other.Open(w.Place())
	other.Waiting(words.Question(job.AskSaddle, job.Kit{}).Title)
	other.SeesNot(words.OpenInOther())

	w.Tap(words.Answer(job.AskSaddle, job.SaddleLoose))
	w.Waiting(words.RuleQuestion().Title)
	other.Waiting(words.RuleQuestion().Title)
	other.Sees(words.OpenInOther())
	other.CheckAccessible()
	other.CheckFits()
	other.Tap(words.Marks(job.EveryQuarter))
	w.Waiting(words.ZeroQuestion().Title)
	w.Sees(words.OpenInOther())
	w.Tap(words.Zero(job.ZeroAtEnd))
	other.Waiting(words.ReadTitle(guitar, 0, false))

	// Both write a note, and tap at the same moment.
	for _, tab := range []*Walk{w, other} {
		tab.Waiting(words.ReadTitle(guitar, 0, false))
		tab.Tap(words.JobMenu())
		tab.Type("#note", "from "+tab.name)
	}
	at := time.Now().Add(2 * time.Second).UnixMilli()
	for _, tab := range []*Walk{w, other} {
		tab.run(fmt.Sprintf(`const b = [...document.querySelectorAll("button")].find(b => b.textContent === %q); setTimeout(() => b.click(), %d - Date.now())`, words.AddNote(), at))
	}
	for _, tab := range []*Walk{w, other} {
		tab.Wait("both notes", `["two-windows", "two-windows-other"].every(n => [...document.querySelectorAll(".story li")].some(li => li.textContent.endsWith("from " + n)))`)
		tab.WaitSaved()
	}
	w.Reload()
	w.Tap(words.JobMenu())
	w.Read(words.StoryTitle(), "from two-windows", "from two-windows-other", "Rule: "+words.Marks(job.EveryQuarter))
	if n := w.JS(`[...document.querySelectorAll(".story li")].filter(li => li.textContent.includes("from two-windows")).length`); n != 2.0 {
		t.Errorf("the notes are there %v times, want 2", n)
	}
}
