package phone

import (
	"testing"

	"gapwright/app/job"
	"gapwright/app/words"
	"gapwright/geometry"
)

// Somebody who has never seen the app taps six times at most to the first recorded reading, and types nothing.
func TestFirstReadingInSixTaps(t *testing.T) {
	t.Parallel()
	w := StartWalk(t, "first", Small.InTheDark())
	w.JS(`addEventListener("keydown", () => { window.typed = true }, true)`)
	w.Waiting(words.FamilyQuestion().Title)
	w.Touch(words.Family(geometry.Nylon))
	w.Touch(words.Answer(job.AskSaddle, job.SaddleLoose))
	w.Touch(words.Marks(job.EveryHalfMM))
	w.Touch(words.Zero(job.ZeroAtEnd))
	w.Touch(words.OneMarkUp()) // opens at the usual 4.0
	w.Touch(words.MarkSeen(mark("4.5"), mark("5.0")))
	w.On(words.ReadTitle(job.Instrument{Family: geometry.Nylon}, 5, false))
	w.Read(words.JobMenu())
	w.Tap(words.JobMenu())
	w.Read(words.StoryTitle(), "Bass string read: 4.5 to 5.0\u00a0mm")
	if w.taps > 6 {
		t.Errorf("it took %d taps", w.taps)
	}
	if w.JS("window.typed === true") == true {
		t.Error("something was typed")
	}
}

// Somebody who has never seen the app knows what to take off after 25 taps and 350 words at most, and types nothing. A line that stood on an earlier
// screen, such as the name of the menu, is not read again.
func TestAFirstTimersRunIsShort(t *testing.T) {
	t.Parallel()
	w := StartWalk(t, "first-run", Small)
	w.JS(`addEventListener("keydown", () => { window.typed = true }, true)`)
	screen := func(title, tap string) {
		t.Helper()
		w.Meets(title)
		w.Touch(tap)
	}
	question := func(q job.Question, a job.Answer) {
		t.Helper()
		screen(words.Question(q, job.Kit{}).Title, words.Answer(q, a))
	}
	screen(words.FamilyQuestion().Title, words.Family(geometry.FlatTop6))
	question(job.AskSaddle, job.SaddleLoose)
	screen(words.RuleQuestion().Title, words.Marks(job.EveryQuarter))
	screen(words.ZeroQuestion().Title, words.Zero(job.ZeroAtEnd))
	w.Meets(words.ReadTitle(guitar, 0, false))
	w.Touch(words.OneMarkUp())
	w.Touch(words.MarkSeen(mark("2.75"), mark("3.00")))
	screen(words.ReadTitle(guitar, 5, false), words.MarkSeen(mark("2.00"), mark("2.25")))
	screen(words.MeasuredTitle(), words.Answer(job.AskStrings, job.StringsStay))
	question(job.AskBuzz, job.BuzzNone)
	screen(words.ChooseTitle(), mm.AimFor(mark("2.40"), mark("1.85")))
	question(job.AskRoom, job.RoomFine)
	screen(words.StandQuestion().Title, words.IDontKnow())
	w.Meets(words.PlanTitle(job.PlanGo, 1))
	// Half of (2.75 - 2.40)/0.5 is 0.35, of (2.00 - 1.85)/0.5 0.15, each with 0.10; a sixth of the 0.20 between them outwards, less 0.10.
	w.ends("0.35\u00a0mm", "0.10\u00a0mm")
	t.Logf("%d taps, %d words", w.taps, w.words)
	if w.taps > 25 {
		t.Errorf("it took %d taps, at most 25 are wanted", w.taps)
	}
	if w.words > 350 {
		t.Errorf("it took %d words, at most 350 are wanted", w.words)
	}
	if w.words < 50 || w.taps < 8 {
		t.Error("that cannot be all of it")
	}
	if w.JS("window.typed === true") == true {
		t.Error("something was typed")
	}
}

// Somebody who knows nothing is led on to a plan all the same, or told why not.
func TestNotKnowingLeadsOn(t *testing.T) {
	t.Parallel()
	w := StartWalk(t, "not-knowing", Tall)
	w.On(words.FamilyQuestion().Title)
	w.Tap(words.SomethingElse())
	w.On(words.SomethingElseTitle())
	w.Says(words.SomethingElseText())
	w.Tap(words.Back())
	w.On(words.FamilyQuestion().Title)
	w.Tap(words.Family(geometry.FlatTop6))
	w.answer(job.AskSaddle, job.SaddleUnsure)
	w.On(words.RuleQuestion().Title)
	w.Tap(words.IDontKnow())
	w.On(words.CountSpaces().Title)
	w.Tap(words.Spaces(20) + " " + words.Marks(job.EveryHalfMM))
	w.On(words.ZeroQuestion().Title)
	w.Tap(words.Zero(job.ZeroUnknown))
	w.reading(0, false, 1, mark("3.0"), mark("3.5")) // opens at 2.5, the mark below the usual 2.6
	w.reading(5, false, 1, mark("2.5"), mark("3.0")) // 2.0
	w.On(words.MeasuredTitle())
	w.rows("Bass string; 2.75 to 3.75\u00a0mm", "Treble string; 2.25 to 3.25\u00a0mm") // a quarter millimetre less sure each way
	w.Tap(words.Answer(job.AskStrings, job.StringsUnsure))
	w.answer(job.AskBuzz, job.BuzzUnsure)
	w.choose(0, 0, mm.AimFor(mark("2.40"), mark("1.85")))
	w.answer(job.AskRoom, job.RoomUnsure)
	w.On(words.StandQuestion().Title)
	w.Says(words.Caution(job.AskRoom, job.RoomUnsure))
	w.Tap(words.IDontKnow())
	// Half of (2.75 − 2.40)/0.5 is 0.35, half of (2.25 − 1.85)/0.5 is 0.40, each with 0.10; a sixth of the difference outwards: 0.4417 and 0.5083,
	// less 0.10.
	w.On(words.PlanTitle(job.PlanGo, 1))
	w.ends("0.30\u00a0mm", "0.40\u00a0mm")
}

// Somebody without any rule reads by what fits under the string.
func TestWithoutARule(t *testing.T) {
	t.Parallel()
	w := StartWalk(t, "no-rule", Small)
	w.On(words.FamilyQuestion().Title)
	w.Tap(words.Family(geometry.FlatTop6))
	w.answer(job.AskSaddle, job.SaddleLoose)
	w.On(words.RuleQuestion().Title)
	w.Tap(words.IDontKnow())
	w.On(words.CountSpaces().Title)
	w.Tap(words.OtherCount() + " " + words.Marks(job.NoRule))
	w.On(words.ReadTitle(guitar, 0, false))
	w.Type("#fits", "2.8")
	w.Type("#next", "2.9")
	w.Tap(words.ReadButton())
	w.On(words.ReadTitle(guitar, 5, false))
	w.Tap(words.Way(job.ByCards))
	w.Sees(words.WayLead(job.ByCards))
	w.Look()
	w.Type("#cards", "7")
	w.Type("#ten", "3.00")
	w.Press("Enter")
	// Ten cards 3.00 ± 0.03: seven are 2.079 at least, eight 2.424 at most.
	w.On(words.MeasuredTitle())
	w.rows("Bass string; 2.80 to 2.90\u00a0mm", "Treble string; 2.05 to 2.45\u00a0mm")
}
