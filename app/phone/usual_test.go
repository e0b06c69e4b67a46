package phone

import (
	"testing"

	"gapwright/app/job"
	"gapwright/app/view"
	"gapwright/app/words"
	"gapwright/geometry"
)

// A solid body of somebody who plays it very low, of which what is usual and what turns is said on its page while a job is under way. Of its family 1.60 to 2.00
// and 1.30 to 1.60 are usual, and nobody goes under 1.20 and 1.00, or 1.50 and 1.30 who does not know their touch.
func TestUsualOfOneInstrument(t *testing.T) {
	t.Parallel()
	w := StartWalk(t, "usual", Small)
	i := job.Instrument{Family: geometry.SolidBody}
	w.turnable(i.Family, job.BridgeScrews, job.ByScrews)
	w.Tap(words.Answer(job.AskScrews, job.ScrewsFree))
	w.rule(job.EveryQuarter)
	w.Waiting(words.ReadTitle(i, 0, false))
	w.toMark(2.00, 2.25)
	w.Waiting(words.ReadTitle(i, 5, false))
	w.toMark(1.50, 1.75)
	w.Waiting(words.MeasuredTitle())
	w.Tap(words.NeckTitle())
	w.Tap(words.MeasureIt() + ": " + words.OtherStrings())
	for course := 1; course < 5; course++ {
		w.Waiting(words.ReadTitle(i, course, false))
		w.Tap("#screen .button.main")
	}
	w.Waiting(words.MeasuredTitle())
	w.Tap(words.Answer(job.AskStrings, job.StringsStay))
	w.Waiting(words.ChooseTitle())
	w.WaitSaved()

	// What cannot be is said beside its field, and stays as it was typed; a floor under the family's asks for care.
	w.Open("/")
	w.Tap(words.Family(geometry.SolidBody))
	w.Waiting(words.Family(geometry.SolidBody))
	w.Tap(words.AboutInstrument())
	w.Tap(words.WontTitle(false))
	w.Says("Bass, from (1.60)", "Treble, to (1.60)", "From (0.10)", "Bass (1.20)")
	w.SeesNot(words.WontUnder())
	w.Type("#wont-0-0", "low")
	w.Type("#wont-3-0", "1.1")
	w.Sees(words.WontUnder())
	w.Tap(words.KeepWont())
	w.beside("wont-0-0", "low", wrong("low", job.MM))
	w.Type("#wont-0-0", "1.15")
	w.Type("#wont-0-0-to", "1.45")
	w.Tap(words.KeepWont())
	w.beside("wont-0-0-to", "1.45", "Not under the floor for everybody else, 1.50\u00a0mm. Change one of the two.")
	w.Type("#wont-4-0", "1.3")
	w.Tap(words.KeepWont())
	w.beside("wont-4-0", "1.3", "")
	w.WaitSaved()
	w.LookInto()
	w.Type("#wont-1-0-to", "3")
	w.Press("Enter")
	w.beside("wont-1-0-to", "3", "A usual relief lies between 0.00 and 1.00\u00a0mm.")
	w.Type("#wont-1-0-to", "")
	w.Press("Enter")
	w.beside("wont-1-0-to", "", "")

	// What turns: named here, and not asked in the job.
	w.Says("Screws Thread not known")
	w.Tap(words.Change() + ": " + words.TurnsRow(job.ByScrews))
	w.On(mm.ThreadAsk(job.ByScrews, nil).Title)
	w.Tap("2")
	w.Tap("M3")
	w.Waiting(words.Family(geometry.SolidBody))
	w.Reload()
	w.Tap(words.AboutInstrument())
	w.Says("Screws M3, 2 at each string")
	w.Tap(words.WontTitle(true))
	w.Holds("wont-0-0", "1.15")
	w.Holds("wont-3-0", "1.1")
	w.Holds("wont-0-1", "")
	w.Says(words.WontUnder())

	// The job under way wishes by it: the middle of 1.15 and 1.45, which the floor of 1.30 just allows, and of 1.30 and 1.60.
	w.Open("/")
	w.Tap(".card-open")
	w.On(words.ChooseTitle())
	w.wishes(mm, "1.30", "1.45")
	w.Tap(mm.AimFor(mark("1.30"), mark("1.45")))
	w.On(words.TurnPlanTitle(job.TurnGo))
	w.Go(view.Kit) // all readings on one page
	w.Tap(words.ShortForm())
	w.WaitSaved()
	w.Open("/")
	w.Tap(".card-open")
	w.Waiting(words.TurnPlanTitle(job.TurnGo))
	w.Tap(words.FollowTurns())
	w.Tap(words.Answer(job.AskWayUp, job.WayClockwise))
	w.Waiting(words.TurnTitle(job.ByScrews))
	w.Tap(words.TurnedAsShown())

	// All six read again where they should be by now: the outer two are in sight, those between stand with the numbers.
	w.Waiting(words.ShortTitle(i, true))
	w.Tap(words.BetweenStrings())
	for _, course := range []string{"0", "1", "2", "3", "4", "5"} { // 2.00 to 2.25 less 0.69, 1.75 to 2.00 less 0.44, 1.50 to 1.75 less 0.19: 1.31 to 1.56, each of them
		w.Type("#read-"+course, "1.25")
	}
	w.Tap(words.TakeReadings())
	w.On("There: as wanted")
	w.SeesNot(words.CourseTitle(i, 2))
	w.Read(words.Numbers(), words.CourseTitle(i, 1), words.CourseTitle(i, 4))
}
