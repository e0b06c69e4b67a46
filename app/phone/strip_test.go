package phone

import (
	"testing"

	"gapwright/app/job"
	"gapwright/app/words"
	"gapwright/geometry"
)

// raise goes from the first screen to the first question of raising by strips.
func (w *Walk) raise() {
	w.t.Helper()
	w.Waiting(words.FamilyQuestion().Title)
	w.Tap(words.Family(guitar.Family))
	w.Waiting(words.Question(job.AskSaddle, job.Kit{}).Title)
	w.Open("/")
	w.Tap(".card-name")
	w.Tap(words.OtherWork())
	w.Waiting(words.WorkQuestion(job.BridgeSlot).Title)
	label, note := words.Work(job.RaiseByStrip)
	w.Tap(label + " " + note)
	w.answer(job.AskSaddle, job.SaddleLoose)
}

// strip tells of a kind of strip that is to hand.
func (w *Walk) strip(thick, count string) {
	w.t.Helper()
	w.Waiting(mm.StripsAsk(job.StripPlan{}).Title)
	w.Type("#strip", thick)
	w.Type("#strip-count", count)
	w.Tap(words.AddStrip())
}

// Both strings too low by a rule in quarter millimetres: 2.00 to 2.25 and 1.50 to 1.75, wanted 2.40 and 1.85. The most that can be missing is (2.40 − 2.00) × 2 =
// 0.80 and 0.70; 9 mm further out, at the ends, 0.82 and 0.68: near enough for one pile. Of leaves of 0.25 and cards of 0.29 the best is 0.25 + 2 × 0.29 = 0.83.
func TestRaisingByAPile(t *testing.T) {
	t.Parallel()
	w := StartWalk(t, "strip", Small)
	w.raise()
	w.rule(job.EveryQuarter)
	w.forbid = notInch
	w.reading(0, false, -2, mark("2.00"), mark("2.25"))
	w.reading(5, false, -2, mark("1.50"), mark("1.75"))
	w.On(words.MeasuredTitle())
	w.Tap(words.Answer(job.AskStrings, job.StringsStay))
	w.choose(0, 0, mm.AimFor(mark("2.40"), mark("1.85")))
	w.stands("3", "3,5")

	ask := mm.StripsAsk(job.StripPlan{}).Title
	w.On(ask)
	w.Tap(words.IDontKnow())
	w.On(words.StripPlanTitle(job.StripGo))
	w.ends("0.82\u00a0mm", "0.82\u00a0mm")
	w.Tap(words.OtherStrips())
	w.On(ask)
	w.Tap(words.FindPile())
	w.Sees(wrongOf(words.LeafSize, "", false))
	w.strip("0.01", "two")
	w.Sees(words.WholeNumber())
	if said := w.Said("strip-count"); said != words.WholeNumber() {
		t.Errorf("two of them: %q", said)
	}
	if said := w.Said("strip"); said != mm.Error(&geometry.RangeError{Quantity: geometry.QuantityShim, Got: 0.01, Min: 0.05, Max: 2}) {
		t.Errorf("a strip of 0.01 mm: %q", said)
	}
	w.Look()
	w.strip("0.5", "")
	w.Wait("the kind", `document.querySelectorAll("#screen .row").length === 1 && document.getElementById("strip").value === ""`)
	w.On(ask)
	w.Tap(words.DropStrip() + ": 0.5\u00a0mm")
	w.Wait("no kind", `document.querySelector("#screen .row") === null`)
	w.strip("0,25", "2")
	w.Wait("the kind", `document.querySelectorAll("#screen .row").length === 1`)
	w.Tap(words.OfTen())
	w.Type("#strip", "2.9")
	w.Tap(words.FindPile())

	w.On(words.StripPlanTitle(job.StripGo))
	w.ends("0.83\u00a0mm", "0.83\u00a0mm")
	w.Says("1\u00a0×\u00a00.25\u00a0mm and 2\u00a0×\u00a00.29\u00a0mm, right across.", "Then bass 2.40 to 2.70, treble 1.90 to 2.20\u00a0mm") // 0.415 up: 2.415 to 2.665, 1.915 to 2.165
	w.Read(words.Numbers(), "Saddle standing up, bass end: 3.70 to 4.00\u00a0mm")                                                             // 3 and 0.83, an eighth either way
	w.Reload()
	w.On(words.StripPlanTitle(job.StripGo)) // what is to hand is kept
	w.Tap(words.FollowPile())
	w.answer(job.AskUnder, job.UnderClear)

	w.On(words.SeatDepthAsk().Title)
	w.Type("#slot", "1.5")
	w.Tap(words.GoOn())
	w.On(words.StripPlanTitle(job.StripTooShallow)) // 1.5 − 0.83
	w.undo()
	w.Tap(".undo") // the menu is still open
	w.Waiting(words.SeatDepthAsk().Title)
	w.Type("#slot", "60")
	w.Tap(words.GoOn())
	w.Wait("what is wrong with it", `document.getElementById("slot").getAttribute("aria-invalid") === "true"`)
	if said := w.Said("slot"); said != mm.Error(&geometry.RangeError{Quantity: geometry.QuantityDepth, Got: 60, Min: 0.5, Max: 20}) {
		t.Errorf("a slot of 60 mm: %q", said)
	}
	w.Type("#slot", "4")
	w.Tap(words.GoOn())
	w.On(mm.LayAsk(job.StripPlan{}, job.Kit{}).Title)
	w.Holds("shim-0", "0.83")
	w.Holds("shim-1", "0.83")
	w.Type("#shim-1", "thick")
	w.Tap(words.LaidIn())
	w.Wait("what is wrong with it", `document.getElementById("shim-1").getAttribute("aria-invalid") === "true"`)
	w.Type("#shim-1", "0.83")
	w.Tap(words.LaidIn())
	w.back()

	// Expected 2.39 to 2.69 and 1.89 to 2.19, a pile being believed to 0.05: the rule opens there, and together with it tells enough.
	w.reading(0, true, -1, mark("2.25"), mark("2.50"))
	w.reading(5, true, -1, mark("1.75"), mark("2.00"))
	w.On("There: as wanted")
	w.SeesNot(words.TooMuchButton())
	w.SeesNot(words.AgainButton())
	w.Tap(words.DoneButton())
	w.On(words.SaveTitle())
	w.WaitSaved()
	w.Tap(words.SaveButton())
	w.On(words.FinishedTitle())
	w.Says("was 2.00 to 2.25\u00a0mm", words.Proven(true))
}

// In inches the bass end asks for more: 5/64 to 6/64 and 4/64 to 5/64, wanted 0.094 and 0.072. Missing are at most 0.81 and 0.48 mm; at the ends 0.86 and 0.43.
// Of leaves of 0.010 and 0.004: one and two are 0.018 in, 0.457 mm; (0.860 − 0.457) × 2/3 = 0.269 asks for three of 0.004. Over a pickup 3 × 0.010 + 0.004.
func TestRaisingByAShortStripAndOverAPickup(t *testing.T) {
	t.Parallel()
	w := StartWalk(t, "strip-short", Tall.InTheDark())
	w.raise()
	w.rule(job.Every64th)
	w.forbid = notMM
	w.reading(0, false, -1, inches("5/64"), inches("6/64"))
	w.reading(5, false, -1, inches("4/64"), inches("5/64"))
	w.On(words.MeasuredTitle())
	w.Tap(words.Answer(job.AskStrings, job.StringsStay))
	w.choose(0, 0, inch.AimFor(inches("0.094"), inches("0.072")))
	w.stands("0.12", "0.12")
	w.strip("0.010", "")
	w.Wait("the kind", `document.querySelectorAll("#screen .row").length === 1`)
	w.strip("4 thou", "")
	w.Wait("both kinds", `document.querySelectorAll("#screen .row").length === 2`)
	w.On(inch.StripsAsk(job.StripPlan{}).Title)
	w.Tap(words.FindPile())
	w.On(words.StripPlanTitle(job.StripGo))
	w.ends("0.030\u00a0in", "0.018\u00a0in")
	w.Says("1\u00a0×\u00a00.010\u00a0in and 2\u00a0×\u00a00.004\u00a0in right across.", "On it 3\u00a0×\u00a00.004\u00a0in, a third as long, bass end.")
	w.Tap(words.FollowPile())
	w.answer(job.AskUnder, job.UnderPickup)
	w.On(words.SeatDepthAsk().Title)
	w.Tap(words.IDontKnow())
	w.On(inch.LayAsk(job.StripPlan{}, job.Kit{}).Title)
	w.Says("3\u00a0×\u00a00.010\u00a0in and 1\u00a0×\u00a00.004\u00a0in, right across.", words.LayCaution(job.UnderPickup))
	w.Holds("shim-1", "0.034")
	w.Tap(words.NotMeasured())
	w.back()

	// Nobody measured what went in, so nothing was to be expected; and nothing moved.
	w.reading(0, true, 0, inches("5/64"), inches("6/64"))
	w.reading(5, true, 0, inches("4/64"), inches("5/64"))
	w.On("Lower than wanted")
	w.SeesNot(words.TooMuchButton())
	w.Tap(words.AgainButton())
	w.On(words.StripPlanTitle(job.StripGo))
	w.Tap(words.KeepAsItIs())
	w.On(words.SaveTitle())
}
