package phone

import (
	"testing"

	"gapwright/app/job"
	"gapwright/app/view"
	"gapwright/app/words"
	"gapwright/geometry"
)

// slot is a slot of the nut in some state.
func slot(course int, s job.SlotState) job.NutSlot { return job.NutSlot{Course: course, State: s} }

// row is the name of a slot among all of them.
func slotRow(course int, s job.SlotState) string {
	return words.CourseTitle(guitar, course) + " " + words.SlotSays(s)
}

// The bass slot pressed at 0.30 to 0.35 where 0.17 is wanted: (0.30 − 0.17) × 2.0595 − 0.03 = 0.238, half of it 0.11 at first; fret 12 comes down by half of
// 0.11 to 0.14. Filed, it is read again before anything else; the treble one, open at 0.30 to 0.33 under 0.35, is a stop; one that nobody began is left.
func TestNutSlots(t *testing.T) {
	t.Parallel()
	w := StartWalk(t, "nut", Small)
	w.begin(guitar, job.NutSlots)
	w.forbid = notInch
	w.stops(job.AskNut, job.NutNoFiles, job.NutFiles)
	w.On(words.SlotsTitle())
	w.Says(words.SlotSays(job.SlotUnread))
	w.Tap(words.NextSlot(guitar, slot(0, job.SlotUnread)))

	bass := job.Place{Feature: job.FirstPressed}
	w.On(words.SurveyTitle(guitar, bass))
	w.Says(words.SurveyLead(guitar.Survey(bass)))
	w.refused("next", "thin", wrongOf(words.LeafSize, "thin", true))
	w.Tap(words.Back())
	w.Waiting(words.SlotsTitle())
	w.Tap(slotRow(0, job.SlotUnread))
	w.Waiting(words.SurveyTitle(guitar, bass))
	w.Holds("fits", "")
	w.feelers("0.30", "0.35")

	high := words.SlotTitle(guitar, slot(0, job.SlotHigh))
	w.On(high)
	w.Says("0.11\u00a0mm", "0.05 to 0.07\u00a0mm", words.FileCaution(false))
	w.Read(words.Numbers(), "0.30 to 0.35\u00a0mm, "+words.FirstWay(job.FirstPressed), "0.11 to 0.22\u00a0mm", "0.26 to 0.38\u00a0mm", "0.23 to 0.30\u00a0mm")
	w.Tap(words.WantedFirst() + ": " + words.Higher()) // 0.19: half of 0.11 × 2.0595 − 0.03 = 0.197
	w.Wait("less to file", `document.querySelector(".end-number").textContent === "0.09\u00a0mm"`)
	w.Tap(words.WantedFirst() + ": " + words.Lower())
	w.Wait("as before", `document.querySelector(".end-number").textContent === "0.11\u00a0mm"`)
	w.Tap(words.PileTitle())
	w.Type("#lifts", "high")
	w.Press("Enter")
	w.saidBesideOpen("lifts", "high", wrongOf(words.LeafSize, "high", false))
	w.Type("#lifts", "1.5")
	w.Tap(words.FindPile())
	w.Sees(mm.PileStop(job.Kit{}, job.SlotPile{Need: 1.39})) // 1.50 − 0.11
	w.LookInto()
	w.Tap(words.FiledIt())

	w.On(words.SurveyTitle(guitar, bass))
	w.Says(words.SlotFiled())
	w.undo()
	w.alerted(mm.Refusal(&job.Refusal{Kind: job.RefusedMaterialGone, Step: job.FixNut}))
	w.WaitSaved()
	w.Reload()
	w.On(words.SlotsTitle())
	w.Says(words.SlotSays(job.SlotAgain))
	w.Tap(words.NextSlot(guitar, slot(0, job.SlotAgain)))
	w.Waiting(words.SurveyTitle(guitar, bass))
	w.feelers("0.17", "0.20")
	w.On(words.SlotTitle(guitar, slot(0, job.SlotThere)))
	w.Tap(words.AllSlots())
	w.Waiting(words.SlotsTitle())

	treble := job.Place{Feature: job.FirstFret, Course: 5}
	w.Tap(slotRow(5, job.SlotUnread))
	w.Waiting(words.SurveyTitle(guitar, treble))
	w.Tap(words.FirstWay(job.FirstFret))
	w.Sees(words.SurveyLead(guitar.Survey(treble)))
	w.Look()
	w.feelers("0.30", "0.33")
	w.On(words.SlotTitle(guitar, slot(5, job.SlotLow)))
	w.Says(mm.SlotLead(job.NutSlot{State: job.SlotLow, Read: geometry.Interval{Low: 0.30, High: 0.33}}))
	w.Tap(words.NextSlot(guitar, slot(1, job.SlotUnread)))
	w.Waiting(words.SurveyTitle(guitar, job.Place{Feature: job.FirstPressed, Course: 1}))
	w.Tap(words.FirstWay(job.FirstPressed))
	w.Sees(words.SurveyLead(guitar.Survey(bass)))
	w.feelers("0.05", "0.25")
	w.On(words.SlotTitle(guitar, slot(1, job.SlotUnclear)))
	w.Tap(words.FinerReading())
	w.feelers("0.12", "0.15")
	w.On(words.SlotTitle(guitar, slot(1, job.SlotThere)))
	w.Tap(words.SlotsDone())

	w.On(words.SaveTitle())
	w.rows("Bass string; 0.17 to 0.20\u00a0mm; string pressed, was 0.30 to 0.35\u00a0mm", "Treble string; 0.30 to 0.33\u00a0mm; string open")
	w.Read(words.OtherStrings(), "0.12 to 0.15\u00a0mm")
	w.Read(words.Numbers(), mm.ToTwelve(geometry.Interval{Low: -0.186, High: -0.102})) // (0.17 − 0.35) and (0.20 − 0.30) × 2.0595/2
	w.undo()
	w.Waiting(words.SlotsTitle())
	w.Tap(words.SlotsDone())
	w.Waiting(words.SaveTitle())
	w.Tap(words.SaveButton())
	w.On(words.FinishedTitle())
	w.Says(words.NeckSaved(true, false))
	w.Read(words.StoryTitle(), mm.Fact(guitar, surveyed(guitar, bass, mark("0.30"), mark("0.35"))), mm.Fact(guitar, job.Filed{Wanted: mark("0.17")}))
}

// In thousandths: pressed at 0.012 to 0.014 where 0.007 is wanted (0.1637 mm, rounded up): (0.3048 − 0.1778) × 2.0595 − 0.03 = 0.2316 mm, half of it 0.1158,
// 0.004 in.
func TestNutSlotsInInches(t *testing.T) {
	t.Parallel()
	w := StartWalk(t, "nut-inches", Tall.InTheDark())
	w.begin(guitar, job.NutSlots)
	w.answer(job.AskNut, job.NutFiles)
	w.Waiting(words.SlotsTitle())
	w.inInches(words.SlotsTitle())
	w.On(words.SlotsTitle())
	w.Tap(words.NextSlot(guitar, slot(0, job.SlotUnread)))
	w.feelers("0.012", "0.014")
	w.On(words.SlotTitle(guitar, slot(0, job.SlotHigh)))
	w.Says("0.004\u00a0in", "0.007\u00a0in", "0.002 to 0.003\u00a0in")
	w.Read(words.Numbers(), "0.012 to 0.014\u00a0in")
	w.Tap(words.FiledIt())
	w.feelers("0.007", "0.008")
	w.On(words.SlotTitle(guitar, slot(0, job.SlotThere)))
	w.Tap(words.SlotsDone())
	w.On(words.SaveTitle())
	w.rows("Bass string; 0.007 to 0.008\u00a0in; string pressed, was 0.012 to 0.014\u00a0in")
}

// inInches changes the unit in the kit and comes back to the job.
func (w *Walk) inInches(title string) {
	w.t.Helper()
	w.WaitSaved()
	back := w.JS("location.pathname + location.search").(string)
	w.Go(view.Kit)
	w.Waiting(words.KitTitle())
	w.Tap(words.Inches())
	w.WaitSaved()
	w.Open(back)
	w.Waiting(title)
	w.forbid = notMM
}

// saidBesideOpen is saidBeside where something is unfolded.
func (w *Walk) saidBesideOpen(field, text, sentence string) {
	w.t.Helper()
	w.until("a sentence beside "+field, func() (bool, string) {
		said := w.Said(field)
		return said == sentence, said
	})
	w.Holds(field, text)
	w.LookInto()
}

// Relief of 0.50 to 0.55 where 0.10 to 0.30 is usual. Nothing is turned before there is known to be a rod; an eighth, then two by what the first did; then
// it is as usual, and what it did at fret 12 is told.
func TestReliefByItself(t *testing.T) {
	t.Parallel()
	w := StartWalk(t, "relief-by-itself", Small.InTheDark())
	w.begin(guitar, job.SetRelief)
	w.forbid = notInch
	w.stops(job.AskRod, job.RodStuck, job.RodUnsure)
	w.On(words.SurveyTitle(guitar, relief))
	w.feelers("0.50", "0.55")
	w.On(words.ReliefTitle(geometry.Above))
	w.Says(words.RodMissing(true))
	w.Tap(words.RodFound())
	w.Sees(words.RodTurn(1))
	w.Look()
	w.Says(words.Advice(found(geometry.PartRelief, geometry.Above)))
	w.Tap(words.ReadAgainFirst())
	w.Waiting(words.SurveyTitle(guitar, relief))
	w.Tap(words.Back())
	w.Waiting(words.ReliefTitle(geometry.Above))
	w.Tap(words.EighthsLabel() + ": " + words.Looser())
	w.Sees(words.RodTurn(0))
	w.Look()
	w.Tap(words.EighthsLabel() + ": " + words.Looser())
	w.Sees(words.Advice(found(geometry.PartRelief, geometry.Below)))
	w.Tap(words.EighthsLabel() + ": " + words.Tighter())
	w.Sees(words.RodTurn(0))
	w.Tap(words.EighthsLabel() + ": " + words.Tighter())
	w.Sees(words.RodTurn(1))
	w.Tap(words.TurnedIt())

	w.On(words.SurveyTitle(guitar, relief))
	w.Says(words.Settle())
	w.undo()
	w.Waiting(words.ReliefTitle(geometry.Above))
	w.Tap(words.TurnedIt())
	w.Waiting(words.SurveyTitle(guitar, relief))
	w.WaitSaved()
	w.Reload()
	w.Waiting(words.SurveyTitle(guitar, relief))
	w.Says(words.Settle())
	w.feelers("0.40", "0.45")
	w.On(words.ReliefTitle(geometry.Above))
	w.Says(words.RodTurn(2), mm.Learned(geometry.Interval{Low: -0.1504, High: -0.0501})) // 0.40 less 0.55, 0.45 less 0.50, over 0.9975
	w.Tap(words.TurnedIt())
	w.Waiting(words.SurveyTitle(guitar, relief))
	w.feelers("0.20", "0.25")
	w.On(words.ReliefTitle(geometry.Usual))
	w.Says(mm.ToTwelve(geometry.Interval{Low: -0.852, High: -0.307})) // 0.351 × 2.428 and 0.251 × 1.225
	w.Tap(words.KeepNeck())

	w.On(words.SaveTitle())
	w.rows("Relief; 0.20 to 0.25\u00a0mm; was 0.50 to 0.55\u00a0mm")
	w.undo()
	w.Waiting(words.ReliefTitle(geometry.Usual))
	w.Tap(words.KeepNeck())
	w.Waiting(words.SaveTitle())
	w.Tap(words.SaveButton())
	w.On(words.FinishedTitle())
	w.Says(words.NeckSaved(true, false))
	w.Read(words.StoryTitle(), mm.Fact(guitar, job.Adjusted{Feature: job.Relief, Eighths: 1}), mm.Fact(guitar, job.Adjusted{Feature: job.Relief, Eighths: 2}))
}

// Without a rod the relief is measured and kept; half a turn in a day is the most with one.
func TestReliefWithoutARod(t *testing.T) {
	t.Parallel()
	w := StartWalk(t, "relief-no-rod", Tall)
	w.begin(guitar, job.SetRelief)
	w.answer(job.AskRod, job.RodNone)
	w.Waiting(words.SurveyTitle(guitar, relief))
	w.inInches(words.SurveyTitle(guitar, relief))
	w.On(words.SurveyTitle(guitar, relief))
	w.Tap(words.NothingFits())
	w.Wait("one field", `document.getElementById("fits") === null`)
	w.Type("#next", "0.003")
	w.Tap(words.ReadButton())
	w.On(words.ReliefTitle(geometry.Below))
	w.Says(words.RodMissing(false))
	w.Tap(words.KeepAsItIs())
	w.On(words.SaveTitle())
	w.Says(words.NeckSaved(false, false))
	w.Tap(words.SaveButton())
	w.Waiting(words.FinishedTitle())
	w.Tap("#screen .button.main")
	w.Tap(".card-name")
	w.Tap(words.OtherWork())
	w.Tap(work(job.SetRelief))
	w.answer(job.AskRod, job.RodTurns)
	w.feelers("0.020", "0.022")
	w.Waiting(words.ReliefTitle(geometry.Above))
	for range 5 { // one is advised, four are the most
		w.Tap(words.EighthsLabel() + ": " + words.Tighter())
	}
	w.Sees(words.RodTurn(4))
	w.Tap(words.TurnedIt())
	w.feelers("0.018", "0.020")
	w.On(words.ReliefTitle(geometry.Above))
	w.Says(words.EnoughToday())
	w.Tap(words.KeepAsItIs())
	w.On(words.SaveTitle())
}
