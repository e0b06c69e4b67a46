package phone

import (
	"fmt"
	"regexp"
	"testing"

	"gapwright/app/job"
	"gapwright/app/words"
	"gapwright/geometry"
)

var (
	notMM   = regexp.MustCompile(`(?i)\bmm\b|millimet`)
	notInch = regexp.MustCompile(`(?i)\d[ \x{a0}]in\b|\binch|/64|/32|\bthou`)
)

// reviewed goes from the first screen to the review of the readings: the instrument, a loose saddle, a rule, both outer strings at the marks that
// are offered.
func (w *Walk) reviewed(i job.Instrument, marks job.Marks) {
	w.t.Helper()
	w.Waiting(words.FamilyQuestion().Title)
	w.Tap(words.Family(i.Family))
	w.answer(job.AskSaddle, job.SaddleLoose)
	w.rule(marks)
	w.gaps(i)
}

// gaps reads both outer strings at the marks that are offered.
func (w *Walk) gaps(i job.Instrument) {
	w.t.Helper()
	for _, course := range []int{0, i.Last()} {
		w.On(words.ReadTitle(i, course, false))
		w.Tap("#screen .button.main")
	}
}

// survey opens a reading of the neck from the review.
func (w *Walk) survey(i job.Instrument, place job.Place) {
	w.t.Helper()
	w.Waiting(words.MeasuredTitle())
	w.Tap(words.NeckTitle())
	w.LookInto()
	w.Tap(words.MeasureIt() + ": " + words.PlaceName(i, place))
	w.On(words.SurveyTitle(i, place))
}

// feelers types what fits and what does not.
func (w *Walk) feelers(fits, next string) {
	w.t.Helper()
	w.Type("#fits", fits)
	w.Type("#next", next)
	w.Tap(words.ReadButton())
}

// undo takes the last fact back.
func (w *Walk) undo() {
	w.t.Helper()
	w.Tap(words.JobMenu())
	w.Wait("the menu", `document.querySelector(".undo").checkVisibility()`)
	w.Tap(".undo")
}

// found is a part that is out.
func found(part geometry.Part, standing geometry.Standing) geometry.PartFound {
	return geometry.PartFound{PartReading: geometry.PartReading{Part: part}, Standing: standing}
}

// surveyed is a reading of the neck with feelers as a record has it.
func surveyed(i job.Instrument, place job.Place, fits, next job.Typed) job.Surveyed {
	s := i.Survey(place)
	s.Way, s.Low, s.High = job.ByFeeler, fits, next
	return s
}

var (
	relief = job.Place{Feature: job.Relief}
	nut    = job.Place{Feature: job.FirstFret}
)

// Relief between 0.40 and 0.45 where 0.10 to 0.30 is usual: nothing is chosen before the rod was turned and all of it read anew. Every step back gives the
// screen before, and a page that is loaded again is where it was.
func TestTooMuchRelief(t *testing.T) {
	t.Parallel()
	w := StartWalk(t, "relief", Small)
	w.reviewed(guitar, job.EveryQuarter)
	w.forbid = notInch
	w.On(words.MeasuredTitle())
	w.survey(guitar, nut)
	w.Type("#fits", "0.40")
	w.Tap(words.Back())
	w.survey(guitar, relief)
	w.Holds("fits", "")
	w.feelers("0.40", "0.45")
	w.On(words.MeasuredTitle())
	w.undo()
	w.survey(guitar, relief) // offered to be measured: nothing is left of the reading
	w.feelers("0.40", "0.45")
	w.Waiting(words.MeasuredTitle())
	w.Read(words.NeckTitle(), words.Standing(geometry.Above))
	w.Tap(words.Answer(job.AskStrings, job.StringsStay))

	much := found(geometry.PartRelief, geometry.Above)
	w.On(words.DiagnoseTitle(much))
	w.Says(words.RodTurn(1), words.Advice(much))
	w.undo()
	w.Waiting(words.MeasuredTitle())
	w.Tap(words.Answer(job.AskStrings, job.StringsStay))
	w.Waiting(words.DiagnoseTitle(much))
	w.WaitSaved()
	w.Reload()
	w.Waiting(words.DiagnoseTitle(much))
	w.Tap(words.TurnedIt())

	// The gaps are another set now; the relief is due after them.
	w.On(words.ReadTitle(guitar, 0, false))
	w.undo()
	w.Waiting(words.DiagnoseTitle(much))
	w.Tap(words.TurnedIt())
	w.Waiting(words.ReadTitle(guitar, 0, false))
	w.Tap("#screen .button.main")
	w.Waiting(words.ReadTitle(guitar, 5, false))
	w.undo()
	w.gaps(guitar)
	w.On(words.SurveyTitle(guitar, relief))
	w.Says(words.DueLead())
	w.undo()
	w.Waiting(words.ReadTitle(guitar, 5, false))
	w.Tap("#screen .button.main")
	w.Waiting(words.SurveyTitle(guitar, relief))
	w.WaitSaved()
	w.Reload()
	w.Waiting(words.SurveyTitle(guitar, relief))
	w.Says(words.DueLead())
	w.feelers("0.35", "0.38")
	w.Waiting(words.MeasuredTitle())
	w.undo()
	w.Waiting(words.SurveyTitle(guitar, relief))
	w.feelers("0.35", "0.38")
	w.Waiting(words.MeasuredTitle())
	w.Tap(words.Answer(job.AskStrings, job.StringsStay))

	// Still too much, and now it is known what an eighth does here: 0.35 to 0.38 less 0.40 to 0.45. Two more.
	w.On(words.DiagnoseTitle(much))
	w.Says(mm.Learned(geometry.Interval{Low: -0.10, High: -0.02}))
	w.Tap(words.EighthsLabel() + ": " + words.Tighter())
	w.Wait("two eighths", `document.getElementById("eighths-value").textContent === "2 tighter"`)
	w.Tap(words.TurnedIt())
	w.gaps(guitar)
	w.Waiting(words.SurveyTitle(guitar, relief))
	w.feelers("0.20", "0.25")
	w.Waiting(words.MeasuredTitle())
	w.Read(words.NeckTitle(), words.Standing(geometry.Usual))
	w.Tap(words.Answer(job.AskStrings, job.StringsStay))
	w.answer(job.AskBuzz, job.BuzzNone)
	w.On(words.ChooseTitle())
	w.Tap(words.JobMenu())
	w.Read(words.StoryTitle(),
		mm.Fact(guitar, surveyed(guitar, relief, mark("0.40"), mark("0.45"))), mm.Fact(guitar, job.Adjusted{Feature: job.Relief, Eighths: 1}),
		mm.Fact(guitar, surveyed(guitar, relief, mark("0.35"), mark("0.38"))), mm.Fact(guitar, job.Adjusted{Feature: job.Relief, Eighths: 2}),
		mm.Fact(guitar, surveyed(guitar, relief, mark("0.20"), mark("0.25"))))
}

// A neck under which not even the thinnest goes is left alone, then set by somebody else; the nut is too high, then too low. Whatever is out can be left.
func TestNeckLeftAlone(t *testing.T) {
	t.Parallel()
	w := StartWalk(t, "neck-left-alone", Tall.InTheDark())
	w.reviewed(guitar, job.EveryQuarter)
	w.survey(guitar, relief)
	w.Tap(words.NothingFits())
	w.Wait("one field", `document.getElementById("next") !== null && document.getElementById("fits") === null`)
	w.Look()
	w.refused("next", "", wrongOf(words.LeafSize, "", false))
	w.Tap(words.SomethingFits())
	w.Wait("two fields", `document.getElementById("fits") !== null`)
	w.Tap(words.NothingFits())
	w.Wait("one field", `document.getElementById("fits") === null`)
	w.Type("#next", "0.05")
	w.Press("Enter")
	w.On(words.MeasuredTitle())
	w.Tap(words.Answer(job.AskStrings, job.StringsStay))

	little := found(geometry.PartRelief, geometry.Below)
	w.On(words.DiagnoseTitle(little))
	w.Says(words.RodTurn(-1), words.Advice(little))
	w.Tap(words.NeckReadings())
	w.Tap(words.ReadAgainFirst())
	w.Waiting(words.SurveyTitle(guitar, relief))
	w.Tap(words.Back())
	w.Waiting(words.DiagnoseTitle(little))
	w.Tap(words.LeaveNeck())
	w.Waiting(words.Question(job.AskBuzz, job.Kit{}).Title)
	w.undo()
	w.Waiting(words.DiagnoseTitle(little))
	w.Tap(words.More())
	w.Tap(words.SetByOther())
	w.gaps(guitar)
	w.On(words.SurveyTitle(guitar, relief))
	w.Says(words.DueLead())
	w.Tap(words.LeaveOut())
	w.On(words.MeasuredTitle())

	// The nut, bass side: 0.90 to 0.95 where 0.50 to 0.70 is usual, then 0.20 to 0.25.
	w.survey(guitar, nut)
	w.feelers("0.90", "0.95")
	w.Waiting(words.MeasuredTitle())
	w.Tap(words.Answer(job.AskStrings, job.StringsStay))
	high := found(geometry.PartNut, geometry.Above)
	w.On(words.DiagnoseTitle(high))
	w.Says(words.Advice(high))
	w.Tap(words.LeaveNeck())
	w.Waiting(words.Question(job.AskBuzz, job.Kit{}).Title)
	w.undo()
	w.Waiting(words.DiagnoseTitle(high))
	w.Tap(words.NutWasDone())
	w.gaps(guitar)
	w.On(words.SurveyTitle(guitar, nut))
	w.Says(words.DueLead())
	w.feelers("0.20", "0.25")
	w.Waiting(words.MeasuredTitle())
	w.Tap(words.Answer(job.AskStrings, job.StringsStay))
	low := found(geometry.PartNut, geometry.Below)
	w.On(words.DiagnoseTitle(low))
	w.Says(words.Advice(low))
	w.Tap(words.LeaveNeck())
	w.answer(job.AskBuzz, job.BuzzNone)
	w.On(words.ChooseTitle())
	w.Tap(words.JobMenu())
	w.Read(words.StoryTitle(), mm.Fact(guitar, surveyed(guitar, relief, job.Typed{}, mark("0.05"))), mm.Fact(guitar, job.Adjusted{Feature: job.Relief}),
		mm.Fact(guitar, surveyed(guitar, nut, mark("0.90"), mark("0.95"))), mm.Fact(guitar, job.Adjusted{Feature: job.FirstFret}),
		mm.Fact(guitar, job.LeftAlone{Feature: job.FirstFret}))
}

// wrong is what is said of a text that is no length.
func wrong(text string, unit job.Unit) string {
	_, err := job.Typed{Text: text, Unit: unit}.Length()
	return words.Reader{Unit: unit}.Error(err)
}

// wrongOf is that of a field for such a size in millimetres; again: after another one.
func wrongOf(size words.Size, text string, again bool) string {
	_, err := job.Typed{Text: text, Unit: job.MM}.Length()
	return mm.FieldError(err, size, again)
}

// Whatever is typed while the neck is read, what is wrong is said beside its field and what was typed stays.
func TestBadInputAtTheNeck(t *testing.T) {
	t.Parallel()
	w := StartWalk(t, "bad-input-neck", Small.InTheDark())
	w.reviewed(guitar, job.EveryQuarter)
	for _, place := range []job.Place{relief, {Feature: job.FirstFret, Course: 5}} {
		w.survey(guitar, place)
		w.Type("#fits", "abc")
		w.refused("next", "", wrongOf(words.LeafSize, "", true))
		w.saidBeside("fits", "abc", wrongOf(words.LeafSize, "abc", false))
		w.Type("#fits", "0.2")
		w.refused("next", "1e3", wrongOf(words.LeafSize, "1e3", false))
		w.Holds("fits", "0.2")
		_, swapped := geometry.JustFits(0.2, 0.1)
		w.refused("next", "0.1", mm.Error(swapped))
		w.Holds("fits", "0.2")
		w.Tap(words.NothingFits())
		w.Wait("one field", `document.getElementById("fits") === null`)
		w.refused("next", "thin", wrongOf(words.LeafSize, "thin", false))
		w.Tap(words.Way(job.ByCards))
		w.Wait("the cards", `document.getElementById("cards") !== null`)
		w.Look()
		w.Type("#ten", "1")
		w.refused("cards", "two", words.WholeNumber())
		w.Holds("ten", "1")
		w.Type("#cards", "2")
		w.refused("ten", "x", wrong("x", job.MM))
		w.Holds("cards", "2")
		w.Type("#ten", "1")
		w.Press("Enter") // ten of 1.00 ± 0.03: two are 0.194 at least, three 0.309 at most
		w.Waiting(words.MeasuredTitle())
		w.Tap(words.NeckTitle())
		w.Says("0.19 to 0.31\u00a0mm")
		w.Tap(words.NeckTitle())
	}

	// The board's radius is asked where the neck is, and stands there.
	w.Tap(words.NeckTitle())
	w.Tap(words.MeasureIt() + ": " + words.RadiusLabel())
	w.On(words.RadiusLabel())
	w.refused("radius", "3", "A board’s radius lies between 50\u00a0mm and 5000\u00a0mm.")
	w.Look()
	w.Type("#radius", "16 in")
	w.Press("Enter")
	w.Waiting(words.MeasuredTitle())
	w.Tap(words.NeckTitle())
	w.Says("406\u00a0mm")
	w.Tap(words.NeckTitle())

	// Another reading of the same place takes the place of the first.
	w.Tap(words.NeckTitle())
	w.Tap(words.ReadAgain() + ": " + words.PlaceName(guitar, relief))
	w.Waiting(words.SurveyTitle(guitar, relief))
	w.feelers("0.10", "0.15")
	w.Waiting(words.MeasuredTitle())
	w.Tap(words.NeckTitle())
	w.Says("0.10 to 0.15\u00a0mm")
}

// Somebody left-handed who measures in inches: the neck is drawn as they see it, and no screen says a millimetre.
func TestNeckLeftHandedInInches(t *testing.T) {
	t.Parallel()
	w := StartWalk(t, "neck-inch", Tall)
	w.Open("/kit/")
	w.Tap(words.Inches())
	w.WaitSaved()
	w.Open("/")
	w.reviewed(guitar, job.Every64th)
	w.forbid = notMM
	place := w.Place()
	w.Open("/")
	w.Tap(words.Family(geometry.FlatTop6))
	w.Waiting(words.Family(geometry.FlatTop6))
	w.Tap(words.AboutInstrument())
	w.Tap(words.LeftHanded())
	w.WaitSaved()
	w.Open(place)
	w.survey(guitar, relief)
	w.feelers("0.016", "0.018")
	w.On(words.MeasuredTitle())
	w.survey(guitar, nut)
	w.feelers("0.024", "0.026")
	w.Waiting(words.MeasuredTitle())
	w.Tap(words.NeckTitle())
	w.Says("0.016 to 0.018\u00a0in", "0.024 to 0.026\u00a0in")
	w.LookInto()
	w.Tap(words.NeckTitle())
	w.Tap(words.Answer(job.AskStrings, job.StringsStay))
	much := found(geometry.PartRelief, geometry.Above)
	w.On(words.DiagnoseTitle(much))
	w.Tap(words.NeckReadings())
	w.LookInto()
	w.Tap(words.LeaveNeck())
	w.answer(job.AskBuzz, job.BuzzNone)
	w.On(words.ChooseTitle())
	w.Tap(words.Numbers())
	w.LookInto()
	w.Tap(words.Numbers())
	w.fretByFret(guitar)
	if w.JS(nutOnTheLeft) == true {
		t.Error("left-handed, the nut is drawn on the left")
	}
	w.LookInto()
	w.Tap(words.ListenButton())
	w.On(words.ListenTitle())
}

// nutOnTheLeft is whether the drawn neck has the names of its strings, which stand at the nut, in its left half.
const nutOnTheLeft = `(() => { const name = document.querySelector(".unfold ~ * svg text, .unfold ~ svg text"), b = name.getBoundingClientRect(), all = name.ownerSVGElement.getBoundingClientRect(); return b.x + b.width / 2 < all.x + all.width / 2 })()`

// With one seat high the review says so, with all on a line that it follows. Strings 54 mm apart in fifths ask at the saddle for twice what they stand over
// the even 2.40 to 1.85.
func TestTheSaddlesTop(t *testing.T) {
	t.Parallel()
	w := StartWalk(t, "saddles-top", Small)
	w.reviewed(guitar, job.EveryQuarter)
	w.Waiting(words.MeasuredTitle())
	w.Tap(words.NeckTitle())
	w.Tap(words.MeasureIt() + ": " + words.OtherStrings())
	read := map[int]geometry.Interval{0: {Low: 2.50, High: 2.75}, 5: {Low: 2.00, High: 2.25}}
	for course := 1; course < 5; course++ {
		w.On(words.ReadTitle(guitar, course, false))
		low := geometry.Length(2.25)
		if course < 3 {
			low = 2.50
		}
		w.toMark(low, low+0.25)
		read[course] = geometry.Interval{Low: low, High: low + 0.25}
	}
	w.On(words.MeasuredTitle())
	follows, out := w.crown(read)
	if out {
		t.Fatal("these readings do not follow the board")
	}
	w.Read(words.NeckTitle(), follows)
	w.Tap(words.NeckTitle())
	w.LookInto()
	w.Tap(words.ReadAgain() + ": " + words.CourseTitle(guitar, 3))
	w.On(words.ReadTitle(guitar, 3, false))
	for range 4 {
		w.Tap(words.OneMarkUp())
	}
	w.Waiting(words.ReadTitle(guitar, 3, false))
	w.Tap(words.ReplaceIt())
	read[3] = geometry.Interval{Low: 3.25, High: 3.50}
	w.Waiting(words.MeasuredTitle())
	high, out := w.crown(read)
	if !out {
		t.Fatal("a seat that is high follows the board")
	}
	w.Says(high)
	w.Look()
}

// toMark moves the rule to a mark and takes the reading.
func (w *Walk) toMark(lit, dark geometry.Length) {
	w.t.Helper()
	name := words.MarkSeen(job.Write(lit, job.MM, 0.01), job.Write(dark, job.MM, 0.01))
	for range 20 {
		main := w.JS(`document.querySelector("#screen .button.main").textContent`).(string)
		switch {
		case main == name:
			w.Tap(name)
			return
		case main < name:
			w.Tap(words.OneMarkUp())
		default:
			w.Tap(words.OneMarkDown())
		}
		w.Wait("the next mark", fmt.Sprintf(`document.querySelector("#screen .button.main").textContent !== %q`, main))
	}
	w.t.Fatalf("no mark says %q", name)
}

// crown is what is to be said of the saddle's top with these readings.
func (w *Walk) crown(read map[int]geometry.Interval) (text string, out bool) {
	w.t.Helper()
	var strings []geometry.MeasuredString
	var courses []int
	for course := range 6 {
		strings = append(strings, geometry.MeasuredString{Offset: guitar.Offset(course), Gap: read[course],
			Target: 2.40 - 0.11*geometry.Length(course), Leverage: 0.5})
		courses = append(courses, course)
	}
	crown, err := geometry.CrownOf(strings)
	if err != nil {
		w.t.Fatal(err)
	}
	return mm.CrownLine(guitar, crown, courses)
}

// Other instruments: every family is offered; a neck with twelve strings and one with nylon are chosen for like any other.
func TestNecksOfOtherFamilies(t *testing.T) {
	t.Parallel()
	w := StartWalk(t, "families-neck", Tall.InTheDark())
	w.Waiting(words.FamilyQuestion().Title)
	offered := make(map[string]bool)
	for _, c := range w.Controls() {
		offered[c.Name] = true
	}
	for _, f := range geometry.Families() {
		if !offered[words.Family(f.ID)] {
			t.Errorf("%s is not offered", f.ID)
		}
	}
	for n, family := range []geometry.FamilyID{geometry.FlatTop12, geometry.Nylon, geometry.UkuleleSmall} {
		i := job.Instrument{Family: family}
		if n == 0 {
			w.reviewed(i, job.EveryHalfMM)
		} else {
			w.Open("/")
			w.Tap(words.AddInstrument())
			w.Waiting(words.FamilyQuestion().Title)
			w.Tap(words.Family(family))
			w.answer(job.AskSaddle, job.SaddleLoose)
			w.gaps(i)
		}
		w.survey(i, relief)
		w.feelers("0.10", "0.12")
		w.survey(i, job.Place{Feature: job.FirstFret, Course: i.Last()})
		if family == geometry.Nylon { // usual is 0.50 to 0.75
			w.feelers("0.30", "0.35")
		} else {
			w.feelers("0.40", "0.45")
		}
		w.Waiting(words.MeasuredTitle())
		w.Tap(words.Answer(job.AskStrings, job.StringsStay))
		if family == geometry.Nylon {
			w.On(words.DiagnoseTitle(found(geometry.PartNut, geometry.Below)))
			w.Tap(words.LeaveNeck())
		}
		w.answer(job.AskBuzz, job.BuzzNone)
		w.On(words.ChooseTitle())
		w.consistent(mm)
		was, _ := w.wished()
		f := w.grip(0)
		f.down(4)
		w.Wait("the height under the finger", fmt.Sprintf(`document.getElementById("bass-value").textContent < %q`, was))
		f.lift(false)
		w.consistent(mm)
		w.fretByFret(i)
		w.LookInto()
		w.Tap(words.Numbers())
		w.LookInto()
	}
}

// After a round the room is there to be looked at and one can listen; the record tells all that was found out about the neck.
func TestTheNeckAfterARound(t *testing.T) {
	t.Parallel()
	w := StartWalk(t, "neck-round", Small.InTheDark())
	w.measured(job.EveryQuarter, 1, [2]job.Typed{mark("2.75"), mark("3.00")}, 0, [2]job.Typed{mark("2.00"), mark("2.25")})
	w.survey(guitar, relief)
	w.feelers("0.05", "0.06")
	w.survey(guitar, nut)
	w.feelers("0.55", "0.60")
	w.Waiting(words.MeasuredTitle())
	w.Tap(words.Answer(job.AskStrings, job.StringsStay))
	// Relief 0.05 to 0.06 is under 0.10 by 0.05 at most, which can wait.
	w.answer(job.AskBuzz, job.BuzzNone)
	w.choose(2, 1, mm.AimFor(mark("2.30"), mark("1.80")))
	w.answer(job.AskRoom, job.RoomFine)
	w.stands("4.5", "4")
	w.On(words.PlanTitle(job.PlanGo, 1))
	w.ends("0.45\u00a0mm", "0.15\u00a0mm")
	w.fretByFret(guitar)
	w.LookInto()
	w.Tap(words.NowChip())
	w.shapes(guitar)
	w.marked(job.FollowPencil)
	w.looks(2, 0, job.Touched, job.Touched, job.Touched)
	w.On("Stop: you are there")
	w.Tap(words.StopHere())
	w.Waiting("Smooth later")
	w.Tap(words.SkipForNow())
	w.back()
	w.reading(0, true, 0, mark("2.50"), mark("2.75"))
	w.reading(5, true, 0, mark("2.00"), mark("2.25"))
	w.Wait("the verdict", `document.querySelector("main .row") !== null`)
	w.Look()
	w.fretByFret(guitar)
	w.LookInto()
	w.Tap(words.ListenButton())
	w.On(words.ListenTitle())
	w.Tap(words.CleanEverywhere())
	w.Sees(words.HeardTitle(1))
	w.Tap(words.CourseTitle(guitar, 5))
	w.Sees(words.ListenLead(guitar, 5, 0))
	w.Tap(words.SoundsBuzz())
	w.Sees(words.HeardTitle(2))
	w.Look()
	w.Tap(words.ListenDone())
	w.Waiting("Still higher than wanted")
	w.Tap(words.KeepAsItIs())
	w.On(words.SaveTitle())
	w.Tap(words.SaveButton())
	w.On(words.FinishedTitle())
	w.Read(words.StoryTitle(), mm.Fact(guitar, surveyed(guitar, relief, mark("0.05"), mark("0.06"))), mm.Fact(guitar, surveyed(guitar, nut, mark("0.55"), mark("0.60"))),
		mm.Fact(guitar, job.Listened{Everywhere: true}), mm.Fact(guitar, job.Listened{String: 5, Buzzed: true}))
}
