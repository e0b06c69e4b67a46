package phone

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"gapwright/app/job"
	"gapwright/app/words"
	"gapwright/geometry"
)

// guitar is the instrument of these walks: six strings, its outer strings 54 mm apart, on a saddle 72 mm long.
var guitar = job.Instrument{Family: geometry.FlatTop6}

var (
	mm   = words.Reader{Unit: job.MM}
	inch = words.Reader{Unit: job.Inch}
)

// explains opens what stands behind a step and one of its words, and looks at it, also with longer words.
func (w *Walk) explains(how words.How, term [2]string) {
	w.t.Helper()
	w.CheckLonger()
	w.Tap(words.More())
	for _, l := range how.Lines() {
		w.Says(l[0], l[1])
	}
	w.SeesNot(term[1])
	w.Tap(term[0])
	w.Sees(term[1])
	w.LookInto()
	w.CheckLonger()
	w.Tap(words.More())
}

// answer answers a question on its own screen.
func (w *Walk) answer(q job.Question, a job.Answer) {
	w.t.Helper()
	w.On(words.Question(q, job.Kit{}).Title)
	w.Tap(words.Answer(q, a))
}

// reading takes a reading by rule: the mark is moved by that many from where it stands, and lies then at lit and the one above it at dark.
func (w *Walk) reading(course int, again bool, move int, lit, dark job.Typed) {
	w.t.Helper()
	w.On(words.ReadTitle(guitar, course, again))
	for ; move > 0; move-- {
		w.Tap(words.OneMarkUp())
	}
	for ; move < 0; move++ {
		w.Tap(words.OneMarkDown())
	}
	w.Tap(words.MarkSeen(lit, dark))
}

// mark is a mark of a rule in millimetres, or a height in millimetres.
func mark(text string) job.Typed { return job.Typed{Text: text, Unit: job.MM} }

// inches is a mark or a height in inches.
func inches(text string) job.Typed { return job.Typed{Text: text, Unit: job.Inch} }

// choose steps both heights down by so many steps and goes on.
func (w *Walk) choose(bass, treble int, aim string) {
	w.t.Helper()
	w.On(words.ChooseTitle())
	for range bass {
		w.Tap(lower(guitar, 0))
	}
	for range treble {
		w.Tap(lower(guitar, guitar.Last()))
	}
	w.Tap(aim)
}

// lower and higher are the buttons that move the height of an outer string.
func lower(i job.Instrument, course int) string {
	return words.CourseShort(i, course) + ": " + words.Lower()
}

func higher(i job.Instrument, course int) string {
	return words.CourseShort(i, course) + ": " + words.Higher()
}

// stands types how far the saddle stands up.
func (w *Walk) stands(bass, treble string) {
	w.t.Helper()
	w.On(words.StandQuestion().Title)
	w.Type("#stand-0", bass)
	w.Type("#stand-1", treble)
	w.Tap(words.GoOn())
}

// ends are the two numbers of the plan, bass end first.
func (w *Walk) ends(bass, treble string) {
	w.t.Helper()
	w.Wait("the numbers of the plan", `document.querySelectorAll(".end-number").length === 2`)
	got := w.JS(`[...document.querySelectorAll(".end-number")].map(e => e.textContent).join(" and ")`)
	if want := bass + " and " + treble; got != want {
		w.t.Errorf("the plan says %s, want %s", got, want)
	}
}

// looks records what is seen of the line, at bass, middle and treble, after so many strokes more or fewer than were asked for.
func (w *Walk) looks(asked, more int, bass, middle, treble job.Line) {
	w.t.Helper()
	w.On(words.Strokes(asked) + ", then look")
	for range more {
		w.Tap(words.StrokesDone() + ": " + words.MoreStrokes())
	}
	for range -more {
		w.Tap(words.StrokesDone() + ": " + words.FewerStrokes())
	}
	for place, seen := range []job.Line{bass, middle, treble} {
		w.Tap(fmt.Sprintf("[aria-label=%q] .chip:nth-child(%d)", words.Place(place), 1+slices.Index(job.Lines(), seen)))
	}
	w.Tap(words.RecordLook(asked + more))
}

// back puts the saddle in and the strings on.
func (w *Walk) back() {
	w.t.Helper()
	w.answer(job.AskSeat, job.SeatFlat)
	w.answer(job.AskStrung, job.StrungSame)
}

// rule says which rule is to hand, its zero at its very end.
func (w *Walk) rule(marks job.Marks) {
	w.t.Helper()
	w.On(words.RuleQuestion().Title)
	w.Tap(words.Marks(marks))
	w.On(words.ZeroQuestion().Title)
	w.Tap(words.Zero(job.ZeroAtEnd))
}

// rows are the values and the notes of the screen's tables that are not folded away, one line a row.
func (w *Walk) rows(want ...string) {
	w.t.Helper()
	got := w.JS(`[...document.querySelectorAll("main .row")].filter(row => row.checkVisibility()).map(row =>
		[...row.querySelectorAll(".row-name, .row-value, .row-note")].map(e => e.textContent).join("; ")).join("\n")`)
	if want := strings.Join(want, "\n"); got != want {
		w.t.Errorf("the table says\n%v\nwant\n%s", got, want)
	}
}

// measured goes from the first screen to the question of buzz: the instrument, a loose saddle, the rule, a reading of both outer strings.
func (w *Walk) measured(marks job.Marks, bassMove int, bass [2]job.Typed, trebleMove int, treble [2]job.Typed) {
	w.t.Helper()
	w.On(words.FamilyQuestion().Title)
	w.Tap(words.Family(geometry.FlatTop6))
	w.answer(job.AskSaddle, job.SaddleLoose)
	w.rule(marks)
	w.reading(0, false, bassMove, bass[0], bass[1])
	w.reading(5, false, trebleMove, treble[0], treble[1])
	w.On(words.MeasuredTitle())
}

// marked goes from the plan to the first stroke.
func (w *Walk) marked(follow job.Answer) {
	w.t.Helper()
	w.Tap(words.FollowPlan())
	w.answer(job.AskUnder, job.UnderClear)
	w.answer(job.AskFollow, follow)
	w.On(words.MarkTitle())
	w.Tap(words.Marked())
}

// A person with a rule in quarter millimetres and a pencil goes round twice, their battery dies once and they reload once while sanding. Bass 2.75
// to 3.00, wanted 2.30; treble 2.00 to 2.25, wanted 1.80. The saddle is 72 mm long under strings 54 mm apart, so the outer strings are an eighth
// of the saddle in from its ends; leverage at fret 12 is a half.
func TestWholeJobInMillimetres(t *testing.T) {
	t.Parallel()
	wholeJobInMillimetres(t, Small)
}

func wholeJobInMillimetres(t *testing.T, model Model) *Walk {
	t.Helper()
	w := StartWalk(t, "mm", model)
	// The rule opens at the mark below what is usual at most, 2.60 and 2.00: the bass at 2.50, one mark too low.
	w.measured(job.EveryQuarter, 1, [2]job.Typed{mark("2.75"), mark("3.00")}, 0, [2]job.Typed{mark("2.00"), mark("2.25")})
	w.rows("Bass string; 2.75 to 3.00\u00a0mm", "Treble string; 2.00 to 2.25\u00a0mm")
	w.Tap(words.Answer(job.AskStrings, job.StringsStay))
	w.answer(job.AskBuzz, job.BuzzNone)
	// Offered: the middle of what is usual, 2.40 and 1.85; two steps of 0.05 lower at the bass, one at the treble.
	if model.Engine != Blink {
		w.dragsAndStepsBack("2.40")
	}
	w.choose(2, 1, mm.AimFor(mark("2.30"), mark("1.80")))
	w.Waiting(words.Question(job.AskRoom, job.Kit{}).Title)
	w.WaitSaved()
	place := w.Place()
	w.Kill()
	w.Open(place)
	w.answer(job.AskRoom, job.RoomFine)
	w.stands("4,5", "4")

	// Low ends: bass (2.75 − 2.30)/0.5 = 0.90, half 0.45; treble (2.00 − 1.80)/0.5 = 0.40, half 0.20; each with 0.10 for the fine paper: 0.55 and 0.30
	// at the strings. They differ by 0.25 over 54 mm, so by 0.0417 over the 9 mm to each end: 0.5917 and 0.2583, less 0.10: 0.4917 and 0.1583.
	w.On(words.PlanTitle(job.PlanGo, 1))
	w.SeesNot(words.OpenInOther()) // the battery was no other window
	w.ends("0.45\u00a0mm", "0.15\u00a0mm")
	// After it, bass: 2.75 − 0.55/2 = 2.475 at least; 3.00 less half of the 0.4125 that the drawn line takes under it = 2.794 at most.
	// Treble: 2.00 − 0.30/2 = 1.85; 2.25 − 0.1875/2 = 2.156. Whole cuts at the strings: bass 0.90 to 1.40, treble 0.40 to 0.90; at an end 7/6 of
	// its own string less 1/6 of the other: bass 1.05 − 0.15 to 1.633 − 0.067; treble 0.467 − 0.233 to 1.05 − 0.15.
	// Standing, 4.50 ± 0.125 at the bass: less 0.45 and 0.10, 3.825 to 4.075; less 0.90 to 1.567, 2.808 to 3.725. Treble, 4.00 ± 0.125: less
	// 0.15 and 0.10, 3.625 to 3.875; less 0.233 to 0.90, 2.975 to 3.892.
	w.Read(words.Numbers(),
		"Bass string: now 2.75 to 3.00\u00a0mm, after this round 2.45 to 2.80\u00a0mm, wanted 2.30\u00a0mm",
		"Treble string: now 2.00 to 2.25\u00a0mm, after this round 1.85 to 2.20\u00a0mm, wanted 1.80\u00a0mm",
		"Bass end: 0.90 to 1.60\u00a0mm in all", "Treble end: 0.20 to 0.90\u00a0mm in all",
		"bass end: 3.80 to 4.10\u00a0mm after this round, 2.80 to 3.75\u00a0mm after the whole cut",
		"treble end: 3.60 to 3.90\u00a0mm after this round, 2.95 to 3.90\u00a0mm after the whole cut")
	w.Tap(words.FollowPlan())
	w.answer(job.AskUnder, job.UnderClear)
	w.answer(job.AskFollow, job.FollowPencil)
	w.On(words.MarkTitle())
	w.Says("0.45\u00a0mm at bass, 0.15\u00a0mm at treble")
	w.explains(words.StepHow(job.SandUnderside, job.Mark), words.Terms("saddle")[0])
	w.Tap(words.Marked())

	// Unknown paper: 0.03 a stroke at most, three times that until a look says better. The bass end is the higher by far: half of its 0.45 is
	// used up by 0.225/0.09 = 2 strokes; the treble's 0.15 is not by 0.15/0.045 = 3.
	w.looks(2, 0, job.Clear, job.Clear, job.Clear)
	w.On("1 stroke, then look") // the treble end bears 3 − 2
	w.WaitSaved()
	w.Reload()
	w.On("1 stroke, then look")
	w.looks(1, 0, job.Clear, job.Clear, job.Clear)
	w.looks(1, 0, job.Touched, job.Touched, job.Touched)
	w.On("Stop: you are there")
	w.Tap(words.StopHere())
	w.On("Smooth later")
	w.Tap(words.SkipForNow())
	w.back()

	// Expected: a touched line means 0.45 ± 0.10 and 0.15 ± 0.10 at the ends; an eighth in, 0.3125 to 0.5125 and 0.0875 to 0.2875, half of it at
	// the fret: bass 2.494 to 2.844, treble 1.856 to 2.206.
	w.reading(0, true, 0, mark("2.50"), mark("2.75")) // opens below 2.63, the middle of what was to be
	w.reading(5, true, 0, mark("2.00"), mark("2.25")) // 2.003
	w.On("Still higher than wanted")
	w.rows("Bass string; 2.50 to 2.75\u00a0mm; wanted 2.30\u00a0mm, still high", "Treble string; 2.00 to 2.25\u00a0mm; wanted 1.80\u00a0mm, still high")
	w.Read(words.Numbers(), "Bass string: expected 2.45 to 2.85\u00a0mm, and the two agree at 2.50 to 2.75\u00a0mm",
		"Treble string: expected 1.85 to 2.25\u00a0mm, and the two agree at 2.00 to 2.25\u00a0mm")
	w.Tap(words.AgainButton())

	// Round 2, whole: bass (2.50 − 2.30)/0.5 = 0.40, treble (2.00 − 1.80)/0.5 = 0.40, less 0.10. Low after it: 2.50 − 0.20 = 2.30 and 1.80; high:
	// 2.75 − 0.15 = 2.60 and 2.10. Whole cuts 0.40 to 0.90 at both strings: at the ends 0.467 − 0.15 to 1.05 − 0.067.
	w.On(words.PlanTitle(job.PlanGo, 2))
	w.ends("0.30\u00a0mm", "0.30\u00a0mm")
	w.Read(words.Numbers(), "Bass string: now 2.50 to 2.75\u00a0mm, after this round 2.30 to 2.60\u00a0mm, wanted 2.30\u00a0mm",
		"Treble string: now 2.00 to 2.25\u00a0mm, after this round 1.80 to 2.10\u00a0mm, wanted 1.80\u00a0mm",
		"Bass end: 0.30 to 1.00\u00a0mm in all", "Treble end: 0.30 to 1.00\u00a0mm in all")
	w.Tap(words.FollowPlan())
	w.answer(job.AskUnder, job.UnderClear)
	w.answer(job.AskFollow, job.FollowPencil)
	w.On(words.MarkTitle())
	w.Says("0.30\u00a0mm at bass, 0.30\u00a0mm at treble")
	w.Tap(words.Marked())
	w.looks(1, 8, job.Clear, job.Clear, job.Clear)        // asked for 0.15/0.09
	w.looks(3, -2, job.Touched, job.Touched, job.Touched) // asked for a quarter of 9 more
	w.On("Stop: you are there")
	w.Tap(words.StopHere())
	w.On("Smooth the underside")
	w.Says("0.05\u00a0mm") // of 0.10, since 9 strokes left 0.30 clear and one more may have taken 0.033
	w.Tap(words.Smoothed())
	w.back()

	// Expected: 0.30 ± 0.10 and up to 0.10 of fine paper, 0.20 to 0.50, half of it at the fret: bass 2.25 to 2.65, treble 1.75 to 2.15.
	w.reading(0, true, 0, mark("2.25"), mark("2.50")) // opens below 2.45
	w.reading(5, true, 0, mark("1.75"), mark("2.00")) // 1.95
	w.On("There: as wanted")
	w.rows("Bass string; 2.25 to 2.50\u00a0mm; wanted 2.30\u00a0mm, as wanted", "Treble string; 1.75 to 2.00\u00a0mm; wanted 1.80\u00a0mm, as wanted")
	w.Read(words.Numbers(), "Bass string: expected 2.25 to 2.65\u00a0mm, and the two agree at 2.25 to 2.50\u00a0mm",
		"Treble string: expected 1.75 to 2.15\u00a0mm, and the two agree at 1.75 to 2.00\u00a0mm")
	w.Tap(words.DoneButton())
	w.On(words.SaveTitle())
	w.Tap(words.SaveButton())
	w.On(words.FinishedTitle())
	w.rows("Bass string; 2.25 to 2.50\u00a0mm; was 2.75 to 3.00\u00a0mm", "Treble string; 1.75 to 2.00\u00a0mm; was 2.00 to 2.25\u00a0mm")
	w.Says(words.Proven(true))
	w.Reload()
	w.On(words.FinishedTitle())
	w.rows("Bass string; 2.25 to 2.50\u00a0mm; was 2.75 to 3.00\u00a0mm", "Treble string; 1.75 to 2.00\u00a0mm; was 2.00 to 2.25\u00a0mm")
	w.Open("/")
	w.Sees("As set " + words.Day(time.Now()) + ": 2.25 to 2.50\u00a0mm bass, 1.75 to 2.00\u00a0mm treble")
	w.Look()
	return w
}

// A person with a rule in 64ths and an inch caliper, who knows their touch, is there in one round. Bass 7/64 to 8/64, wanted 0.090; treble 5/64 to
// 6/64, wanted 0.070. No screen says a millimetre.
func TestWholeJobInInches(t *testing.T) {
	t.Parallel()
	w := StartWalk(t, "inch", Tall.InTheDark())
	w.On(words.FamilyQuestion().Title)
	w.Tap(words.Family(geometry.FlatTop6))
	w.answer(job.AskSaddle, job.SaddleLoose)
	w.On(words.RuleQuestion().Title)
	w.Tap(words.Marks(job.Every64th))
	w.forbid = regexp.MustCompile(`(?i)\bmm\b|millimet`)
	w.On(words.ZeroQuestion().Title)
	w.Tap(words.Zero(job.ZeroAtEnd))
	w.reading(0, false, 1, inches("7/64"), inches("8/64")) // the usual 2.60 mm is 6.55 marks
	w.reading(5, false, 0, inches("5/64"), inches("6/64")) // 2.00 mm, 5.04
	w.On(words.MeasuredTitle())
	w.rows("Bass string; 7/64 to 8/64\u00a0in", "Treble string; 5/64 to 6/64\u00a0in")
	w.Tap(words.Answer(job.AskStrings, job.StringsStay))
	w.answer(job.AskBuzz, job.BuzzNone)
	w.On(words.ChooseTitle())
	w.Tap(words.OwnFloor())
	// Offered: 2.40 and 1.85 mm to two thousandths, 0.094 and 0.072.
	w.choose(2, 1, inch.AimFor(inches("0.090"), inches("0.070")))
	w.answer(job.AskRoom, job.RoomFine)
	w.stands("0.18", "5/32")

	// Low ends, not halved: bass (0.109375 − 0.090)/0.5 = 0.03875, treble (0.078125 − 0.070)/0.5 = 0.01625. A sixth of the difference to each end:
	// 0.0425 and 0.0125; less 0.10 mm, 0.00394: 0.03856 and 0.00856, to a thousandth or two 0.038 and 0.008.
	w.On(words.PlanTitle(job.PlanGo, 1))
	w.ends("0.038\u00a0in", "0.008\u00a0in")
	// After it, bass: 0.090 at least; 0.125 less half of 0.038 − 0.030/8 = 0.03425, 0.1079 at most. Treble: 0.070; 0.09375 less half of
	// 0.008 + 0.030/8 = 0.01175, 0.0879. Whole cuts at the strings: 0.03875 to 0.070, 0.01625 to 0.0475; at the bass end 0.04521 − 0.00792 to
	// 0.08167 − 0.00271, at the treble end 0.01896 − 0.01167 to 0.05542 − 0.00646.
	w.Read(words.Numbers(),
		"Bass string: now 0.109 to 0.125\u00a0in, after this round 0.090 to 0.108\u00a0in, wanted 0.090\u00a0in",
		"Treble string: now 0.078 to 0.094\u00a0in, after this round 0.070 to 0.088\u00a0in, wanted 0.070\u00a0in",
		"Bass end: 0.037 to 0.079\u00a0in in all", "Treble end: 0.007 to 0.049\u00a0in in all")
	w.marked(job.FollowCaliper)

	w.On("Measure before the first stroke")
	w.Type("#height-0", ".400")
	w.Type("#height-1", "0.380")
	w.Tap(words.RecordStart())
	// The bass end is behind: half of its 0.965 mm at 0.09 a stroke, 5; the treble bears 0.203 + 0.10 at half of 0.09, 6.
	w.On("5 strokes, then measure")
	w.Says("Bass end, stop at 0.362", "Treble end, stop at 0.372") // 0.400 − 0.038, 0.380 − 0.008
	w.Type("#height-0", "0.393")
	w.Type("#height-1", "0.379")
	w.Tap(words.RecordCheck())
	// 0.178 mm in 5 strokes and 0.03 of doubt are 0.0416 a stroke: half of the 0.787 that is left, 9; the treble bears (0.178 + 0.10)/2 at 0.011, 12.
	w.On("9 strokes, then measure")
	w.WaitSaved()
	w.Reload()
	w.On("9 strokes, then measure")
	w.Says("Bass end, stop at 0.362", "Treble end, stop at 0.372")
	w.Tap(words.StrokesDone() + ": " + words.MoreStrokes())
	w.Type("#height-0", "0.362")
	w.Type("#height-1", "0.3725")
	w.Tap(words.RecordCheck())
	w.On("Stop: you are there") // 0 and 0.0127 mm are left, both under 0.05
	w.Tap(words.StopHere())
	// 0.10 mm were kept back, and both readings may be out by 0.03 mm: at bass 0.10 − 0.06 = 0.04 mm are sure to be free, at treble 0.0127 more.
	w.On("Smooth the underside")
	w.Says("at bass no more than 0.001\u00a0in, at treble 0.002\u00a0in")
	w.Tap(words.Smoothed())
	w.back()

	// Expected: 0.038 and 0.0075 off at the ends, give or take 0.06 mm, and up to 0.10 mm of fine paper: 0.03564 to 0.04430 and 0.00514 to 0.01380;
	// an eighth in 0.03183 to 0.04049 and 0.00895 to 0.01761; half of it at the fret.
	w.reading(0, true, -1, inches("5/64"), inches("6/64"))
	w.reading(5, true, -1, inches("4/64"), inches("5/64"))
	w.On("There: as wanted")
	w.rows("Bass string; 5/64 to 6/64\u00a0in; wanted 0.090\u00a0in, as wanted", "Treble string; 4/64 to 5/64\u00a0in; wanted 0.070\u00a0in, as wanted")
	w.Read(words.Numbers(), "Bass string: expected 0.089 to 0.110\u00a0in, and the two agree at 0.089 to 0.094\u00a0in",
		"Treble string: expected 0.069 to 0.090\u00a0in, and the two agree at 0.069 to 0.079\u00a0in")
	w.Tap(words.DoneButton())
	w.On(words.SaveTitle())
	w.Tap(words.SaveButton())
	w.On(words.FinishedTitle())
	w.rows("Bass string; 5/64 to 6/64\u00a0in; was 0.109 to 0.125\u00a0in", "Treble string; 4/64 to 5/64\u00a0in; was 0.078 to 0.094\u00a0in")
	w.Says(words.Proven(true))
	w.Read(words.StoryTitle(), "10 strokes; saddle 0.362\u00a0in bass, 0.3725\u00a0in treble")
	w.Open("/")
	w.Sees("As set " + words.Day(time.Now()) + ": 5/64 to 6/64\u00a0in bass, 4/64 to 5/64\u00a0in treble")
	w.Look()
}
