package phone

import (
	"testing"

	"gapwright/app/job"
	"gapwright/app/words"
	"gapwright/geometry"
)

// stops names something that stops the work, finds no way on, and goes back by the answer that it is put right with.
func (w *Walk) stops(q job.Question, bad, good job.Answer) {
	w.t.Helper()
	w.answer(q, bad)
	w.stopped(q, bad)
	w.Tap(words.AnswerAgain())
	w.Tap(words.Answer(q, good))
}

// stopped looks at a stop: it says why, and offers nothing but the way back and putting the job away.
func (w *Walk) stopped(q job.Question, bad job.Answer) {
	w.t.Helper()
	title, text, ok := words.Stop(q, bad)
	if !ok {
		w.t.Fatalf("%s %s does not stop the work", q, bad)
	}
	w.On(title)
	w.Says(text)
	for _, c := range w.Controls() {
		if c.Role == "button" && c.Name != "" && c.Name != words.PutAway() && c.Name != words.AnswerAgain() {
			w.t.Errorf("%s offers %q", title, c.Name)
		}
	}
}

// Everything that stops the work, on the way of somebody whose rule has millimetres alone: wanted is 2.40 and 1.85, inside 2 to 3 and 1 to 2, so nothing may
// come off until it is read more finely; and what that rule shows afterwards proves nothing.
func TestStopsAndACoarseRule(t *testing.T) {
	t.Parallel()
	w := StartWalk(t, "stops", Tall.InTheDark())
	w.On(words.FamilyQuestion().Title)
	w.Tap(words.Family(geometry.FlatTop6))
	for _, bad := range []job.Answer{job.SaddleGlued, job.SaddlePrecious} {
		w.answer(job.AskSaddle, bad)
		w.stopped(job.AskSaddle, bad)
		w.Tap(words.JobMenu())
		w.Tap(".undo")
	}
	w.stops(job.AskSaddle, job.SaddleDamage, job.SaddleLoose)
	w.rule(job.EveryMM)
	w.reading(0, false, 0, mark("2"), mark("3"))
	w.reading(5, false, -1, mark("1"), mark("2"))
	w.On(words.MeasuredTitle())
	w.rows("Bass string; 2 to 3\u00a0mm", "Treble string; 1 to 2\u00a0mm")
	w.Tap(words.Answer(job.AskStrings, job.StringsGo))
	why, _, _ := words.Stop(job.AskStrings, job.StringsGo)
	w.Sees(why)
	w.On(words.MeasuredTitle())
	w.Tap(words.Answer(job.AskStrings, job.StringsStay))
	w.stops(job.AskBuzz, job.BuzzHeard, job.BuzzNone)
	w.choose(0, 0, mm.AimFor(mark("2.40"), mark("1.85")))
	w.answer(job.AskRoom, job.RoomDry)
	w.stopped(job.AskRoom, job.RoomDry)
	w.Tap(words.JobMenu())
	w.Tap(".undo")
	w.stops(job.AskRoom, job.RoomWet, job.RoomFine)
	w.On(words.StandQuestion().Title)
	w.Tap(words.IDontKnow())

	w.coarse(1)
	w.finer(0, "2.80", "2.95")
	w.Wait("the next screen", `document.querySelector("#fits") === null`)
	w.noPlan() // the treble's reading still says nothing
	w.finer(5, "1.95", "2.00")
	// Bass: half of (2.80 − 2.40)/0.5 is 0.40, and 0.10; treble: (1.95 − 1.85)/0.5 = 0.20 in all. A sixth of 0.30 outwards: 0.55 and 0.15, less 0.10.
	w.On(words.PlanTitle(job.PlanGo, 1))
	w.ends("0.45\u00a0mm", "0.05\u00a0mm")
	w.Read(words.Numbers(), "Bass string: now 2.80 to 2.95\u00a0mm", "Treble string: now 1.95 to 2.00\u00a0mm")
	w.Tap(words.FollowPlan())
	w.stops(job.AskUnder, job.UnderStuck, job.UnderClear)
	w.answer(job.AskFollow, job.FollowKnife)
	w.On(words.MarkTitle())
	w.Tap(words.Marked())
	w.looks(2, 0, job.Touched, job.Touched, job.Touched)
	w.On("Stop: you are there")
	w.Tap(words.StopHere())
	w.On("Smooth later")
	w.Tap(words.SkipForNow())
	w.answer(job.AskSeat, job.SeatLeans)
	w.stopped(job.AskSeat, job.SeatLeans)
	w.Tap(words.JobMenu())
	w.Tap(".undo")
	w.stops(job.AskSeat, job.SeatRocks, job.SeatFlat)
	w.answer(job.AskStrung, job.StrungSame)

	// Expected: 0.35 to 0.55 and nothing to 0.15 at the ends, an eighth in 0.306 to 0.50 and 0.044 to 0.20, half of it at the fret: bass 2.55 to 2.797, treble
	// 1.85 to 1.978. The rule agrees, and by itself it would have said nothing.
	w.reading(0, true, 0, mark("2"), mark("3"))
	w.reading(5, true, 0, mark("1"), mark("2"))
	w.On("Still higher than wanted")
	w.Read(words.Numbers(), "Bass string: expected 2.55 to 2.80\u00a0mm, and the two agree at 2.55 to 2.80\u00a0mm")
	w.Tap(words.AgainButton())
	w.coarse(2) // the next round rests on the readings alone
	w.Tap(words.KeepAsItIs())
	w.On(words.SaveTitle())
	w.Tap(words.SaveButton())
	w.On(words.FinishedTitle())
	w.Says(words.Proven(false))
}

// coarse looks at the screen that says that the rule cannot tell: no number, no line, no way to the saddle.
func (w *Walk) coarse(round int) {
	w.t.Helper()
	w.On(words.PlanTitle(job.PlanCannotTell, round))
	w.noPlan()
}

// noPlan fails when there is a number to sand or a way to the saddle.
func (w *Walk) noPlan() {
	w.t.Helper()
	if w.JS(`document.querySelectorAll(".end-number").length`) != 0.0 {
		w.t.Error("a plan is shown")
	}
	for _, c := range w.Controls() {
		if c.Name == words.FollowPlan() {
			w.t.Error("the plan can be followed")
		}
	}
}

// finer reads a course again with feelers.
func (w *Walk) finer(course int, fits, next string) {
	w.t.Helper()
	w.Tap(words.FinerReading())
	w.On(words.ReadTitle(guitar, course, false))
	w.Type("#fits", fits)
	w.Type("#next", next)
	w.Tap("#screen .button.main")
}

// A straight underside turns about an end: bass 2.75 to 3.00, wanted 2.30, treble 1.75 to 2.00, wanted 1.80, which allows nothing. The bass wants 0.90 all
// in all: at the treble end the line begins at zero, so under the treble string, an eighth in of seven to the bass, 0.90/7 = 0.129 would go, half of it at the
// fret: 1.75 − 0.064 = 1.686, so it would have to aim for 1.65.
func TestOneStringHoldsBackTheOther(t *testing.T) {
	t.Parallel()
	w := StartWalk(t, "held-back", Small)
	w.measured(job.EveryQuarter, 1, [2]job.Typed{mark("2.75"), mark("3.00")}, -1, [2]job.Typed{mark("1.75"), mark("2.00")})
	w.Tap(words.Answer(job.AskStrings, job.StringsStay))
	w.answer(job.AskBuzz, job.BuzzNone)
	w.choose(2, 1, mm.AimFor(mark("2.30"), mark("1.80")))
	w.answer(job.AskRoom, job.RoomFine)
	w.stands("4.5", "4")
	w.On(words.PlanTitle(job.PlanHeldBack, 1))
	w.Says("1.65\u00a0mm")
	w.Tap(mm.AcceptTarget(1.65))
	// Now the treble allows (1.75 − 1.65)/0.5 = 0.20; the bass 0.55 as ever: 0.608 and 0.142 at the ends, less 0.10.
	w.On(words.PlanTitle(job.PlanGo, 1))
	w.ends("0.50\u00a0mm", "nothing")
}

// Undo goes back a step as long as nothing is gone, and says why not afterwards. Then too much comes off, and a strip under the saddle puts it back.
func TestTooMuchAndUndo(t *testing.T) {
	t.Parallel()
	w := StartWalk(t, "too-much", Small.InTheDark())
	w.measured(job.EveryQuarter, 1, [2]job.Typed{mark("2.75"), mark("3.00")}, 0, [2]job.Typed{mark("2.00"), mark("2.25")})
	w.Tap(words.Answer(job.AskStrings, job.StringsStay))
	w.answer(job.AskBuzz, job.BuzzUnsure)
	w.choose(2, 1, mm.AimFor(mark("2.30"), mark("1.80")))
	w.answer(job.AskRoom, job.RoomFine)
	w.stands("4.5", "4")
	w.On(words.PlanTitle(job.PlanGo, 1))
	w.Tap(words.FollowPlan())
	w.Waiting(words.Question(job.AskUnder, job.Kit{}).Title)
	w.Tap(words.JobMenu())
	w.Tap(".undo")
	w.On(words.PlanTitle(job.PlanGo, 1))
	w.ends("0.45\u00a0mm", "0.15\u00a0mm")
	w.marked(job.FollowCards)
	w.looks(2, 0, job.Clear, job.Clear, job.Clear)
	w.On("1 stroke, then look")
	w.Tap(words.JobMenu())
	w.Tap(".undo")
	w.alerted("What was sanded off cannot be undone.")
	w.Tap(words.JobMenu())
	w.looks(1, 0, job.Gone, job.Touched, job.Touched)
	w.On("Stop: past the line")
	w.Tap(words.StopHere())
	w.On("Do not smooth now")
	w.Tap(words.SkipForNow())
	w.back()

	// Two marks under what was expected at both strings.
	w.reading(0, true, -2, mark("2.00"), mark("2.25"))
	w.reading(5, true, -2, mark("1.50"), mark("1.75"))
	w.On(words.DoesNotFit())
	w.rows("Bass string; 2.00 to 2.25\u00a0mm; wanted 2.30\u00a0mm, too low", "Treble string; 1.50 to 1.75\u00a0mm; wanted 1.80\u00a0mm, too low")
	w.Tap(words.TooMuchButton())
	// Missing at the fret: 2.30 less 2.00 to 2.25, and 1.80 less 1.50 to 1.75: 0.05 to 0.30, twice that at the saddle.
	w.On("Put height back")
	w.Says("One even strip under the whole saddle, 0.10 to 0.60\u00a0mm thick")
	w.Type("#shim-0", "0.5")
	w.Type("#shim-1", "0,5")
	w.Tap(words.Shimmed())
	w.reading(0, true, -1, mark("2.25"), mark("2.50"))
	w.reading(5, true, -1, mark("1.75"), mark("2.00"))
	w.On("There: as wanted")
	w.rows("Bass string; 2.25 to 2.50\u00a0mm; wanted 2.30\u00a0mm, as wanted", "Treble string; 1.75 to 2.00\u00a0mm; wanted 1.80\u00a0mm, as wanted")
	w.Tap(words.DoneButton())
	w.On(words.SaveTitle())
	w.Tap(words.SaveButton())
	w.On(words.FinishedTitle())
	w.Read(words.StoryTitle(), "A strip went under the saddle, 0.5\u00a0mm bass, 0,5\u00a0mm treble")
}
