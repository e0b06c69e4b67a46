package phone

import (
	"testing"

	"gapwright/app/job"
	"gapwright/app/view"
	"gapwright/app/words"
	"gapwright/geometry"
)

// buzz answers the three questions with a tap each.
func (w *Walk) buzz(b job.Buzz) {
	w.t.Helper()
	w.taps = 0
	for n, answer := range b {
		w.On(words.BuzzQuestion(n).Title)
		w.Touch(words.BuzzAnswer(n, answer))
	}
}

// Three taps lead to the likely causes: of any instrument, of one whose neck was read, and from a job that a buzz stops.
func TestWhereItBuzzes(t *testing.T) {
	t.Parallel()
	w := StartWalk(t, "buzz", Small)
	w.measured(job.EveryQuarter, 1, [2]job.Typed{mark("2.75"), mark("3.00")}, 1, [2]job.Typed{mark("2.25"), mark("2.50")})
	w.Tap(words.Answer(job.AskStrings, job.StringsStay))
	w.answer(job.AskBuzz, job.BuzzHeard)
	stop, _, _ := words.Stop(job.AskBuzz, job.BuzzHeard)
	w.On(stop)
	w.WaitSaved()
	w.Tap(words.BuzzName())
	w.buzz(job.Buzz{job.BuzzAll, job.BuzzUpper, job.SinceUnsure}) // too low, 8, but it was read as high: 4
	w.On(words.BuzzNumbered(1, job.CauseFret))
	w.Says(words.BuzzSaid(job.Buzz{job.BuzzAll, job.BuzzUpper}), words.BuzzCause(job.CauseFret).Check)
	w.Read(words.BuzzLess(), words.BuzzCause(job.CauseLow).Name, "Against it: fret 12, bass 2.75 to 3.00\u00a0mm, more than usual (2.20 to 2.60\u00a0mm)")
	w.Read(words.BuzzIfSo(), words.BuzzCause(job.CauseFret).Remedy...)

	flat := wasSet("flat", "Old friend", geometry.FlatTop6, 20, byMarks(0, "2.25", "2.50"), byMarks(5, "1.75", "2.00"))
	flat.AsSet.Neck = []job.Surveyed{surveyed(flat, relief, mark("0.05"), mark("0.08"))}
	w.holds(job.Kit{}, flat)
	w.Open("/instrument/?id=flat")
	w.Tap(words.BuzzName())
	w.buzz(job.Buzz{job.BuzzAll, job.BuzzFirstFrets, job.SinceWeather})
	w.On(words.BuzzNumbered(1, job.CauseFlat)) // the season would come first, had nobody read the relief
	if w.taps != 3 {
		t.Errorf("the causes took %d taps", w.taps)
	}
	w.Says("Old friend", "For it: relief 0.05 to 0.08\u00a0mm, less than usual (0.10 to 0.30\u00a0mm)")
	w.Read(words.BuzzNumbered(2, job.CauseSeason), words.BuzzCause(job.CauseSeason).Check, words.CheckName())
	w.Read(words.BuzzStopWhen(), words.CheckStop())
	w.Tap(words.Back())
	w.Waiting(words.BuzzQuestion(2).Title)
	w.Tap(words.BuzzAnswer(2, job.SinceSuddenly))
	w.On(words.BuzzNumbered(1, job.CauseFlat))
	w.Says(words.BuzzSudden())
	w.Tap(words.CheckDone())
	w.Waiting("Old friend")

	w.Go(view.Buzz)
	w.buzz(job.Buzz{job.BuzzOne, job.BuzzOpen, job.SinceAlways})
	w.On(words.BuzzNumbered(1, job.CauseNut))
	w.Says(words.BuzzName())
	w.Tap(words.CheckDone())
	w.Sees("Old friend")
}
