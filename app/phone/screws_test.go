package phone

import (
	"fmt"
	"testing"

	"gapwright/app/job"
	"gapwright/app/words"
	"gapwright/geometry"
)

// turnable goes from the first screen to the first question of a job by screws or posts.
func (w *Walk) turnable(family geometry.FamilyID, bridge job.Bridge, m job.Method) {
	w.t.Helper()
	w.Waiting(words.FamilyQuestion().Title)
	w.Tap(words.Family(family))
	w.Waiting(words.BridgeQuestion().Title)
	w.Tap(words.Bridge(bridge))
	w.Wait("what can be done", `document.querySelectorAll("main .choice").length > 1`)
	label, note := words.Work(m)
	w.Tap(label + " " + note)
	w.On(words.Question(job.AskScrews, job.Kit{}).Title)
}

// shown waits until what is to be turned there says that.
func (w *Walk) shown(n int, text string) {
	w.t.Helper()
	w.Wait(text, fmt.Sprintf(`document.getElementById("turn-%d-value").textContent === %q`, n, text))
}

// enter types a text into a field that is unfolded, sends it, and wants the sentence beside the field with the text still in it.
func (w *Walk) enter(field, text, sentence string) {
	w.t.Helper()
	w.Type("#"+field, text)
	w.Press("Enter")
	w.beside(field, text, sentence)
}

func (w *Walk) beside(field, text, sentence string) {
	w.t.Helper()
	w.until("a sentence beside "+field+" about "+text, func() (bool, string) {
		said := w.Said(field)
		return said == sentence, said
	})
	w.Holds(field, text)
}

// A solid body with two screws at each string of a thread that nobody knows. A rule in quarter millimetres shows nothing after one turn; after five more it
// shows 0.40 to 0.60 a turn, and the person then sees that it is M3: 0.50. Bass 3.75 to 4.00 by then, treble 1.50 to 1.75; wanted 1.80 and 1.45. So in turns of
// 0.25 at fret 12: 2.075 is 8.3, 8¼ is nearest; 0.175 is 0.7, ¾; between 1.695, 1.315, 0.935 and 0.555 are 6.78, 5.26, 3.74, 2.22.
func TestScrewsOfAnUnknownThread(t *testing.T) {
	t.Parallel()
	w := StartWalk(t, "screws", Small)
	i := job.Instrument{Family: geometry.SolidBody}
	w.turnable(i.Family, job.BridgeScrews, job.ByScrews)
	w.Tap(words.Answer(job.AskScrews, job.ScrewsStuck))
	stop, _, _ := words.Stop(job.AskScrews, job.ScrewsStuck)
	w.On(stop)
	w.Tap(words.AnswerAgain())
	w.Tap(words.Answer(job.AskScrews, job.ScrewsUnsure))
	w.rule(job.EveryQuarter)
	w.forbid = notInch
	w.On(words.ReadTitle(i, 0, false))
	w.toMark(2.25, 2.50)
	w.Waiting(words.ReadTitle(i, 5, false))
	w.toMark(1.50, 1.75)
	w.On(words.MeasuredTitle())
	w.Tap(words.Answer(job.AskStrings, job.StringsStay))
	w.On(words.ChooseTitle())
	w.Says("Down: bass 0.90–1.40, treble 0.10–0.60\u00a0mm") // twice 0.45 to 0.70, and 0.05 to 0.30
	w.Tap(mm.AimFor(mark("1.80"), mark("1.45")))

	ask := mm.ThreadAsk(job.ByScrews, nil).Title
	w.On(ask)
	w.Read(words.More(), "M2.5: 0.45\u00a0mm a turn", "4-40: 0.64\u00a0mm a turn") // 0.635
	w.Tap(words.IDontKnow())
	w.On(words.TrialAsk(job.ByScrews).Title)
	w.Says(words.TurnCaution(), words.Caution(job.AskScrews, job.ScrewsUnsure))
	w.Tap(words.TurnedReadAgain())
	w.Waiting(words.ReadTitle(i, 0, false))
	w.toMark(2.50, 2.75)
	w.On(ask)
	w.Says(mm.Error(geometry.ErrNoPitch))
	w.Tap(words.IDontKnow())
	w.Waiting(words.TrialAsk(job.ByScrews).Title)
	for n := 2; n <= 5; n++ {
		w.Tap(words.TurnsUpLabel() + ": " + words.OneTurnMore())
		w.Wait("one more", fmt.Sprintf(`document.getElementById("trial-value").textContent === "%d"`, n))
	}
	w.Tap(words.TurnedReadAgain())
	w.Waiting(words.ReadTitle(i, 0, false))
	w.toMark(3.75, 4.00)
	w.On(ask)
	w.Says("A turn moved it 0.40 to 0.60\u00a0mm.") // (3.75 − 2.75) × 2 / 5 and (4.00 − 2.50) × 2 / 5
	w.SeesNot("4-40")
	w.Tap("2")
	w.Tap("M3")

	// What was planned can be looked at, and what a turn does corrected; nonsense is refused beside its field.
	w.On(words.TurnPlanTitle(job.TurnGo))
	planned := []string{"Bass string; 8¼ turns down", "String 5; 6¾ turns down", "String 4; 5¼ turns down", "String 3; 3¾ turns down",
		"String 2; 2¼ turns down", "Treble string; ¾ turn down"}
	w.rows(planned...)
	w.Read(words.Numbers(), words.NotRead())
	w.Tap(words.WhichThread())
	w.Waiting(ask)
	if w.JS(`[...document.querySelectorAll(".chip[aria-pressed=true]")].map(e => e.textContent).join()`) != "M3,2" {
		t.Error("what was said of the thread is not shown")
	}
	w.Tap(words.IMeasuredIt())
	w.Type("#turns", "0")
	w.enter("moved", "two", wrong("two", job.MM))
	w.Type("#moved", "2")
	w.Press("Enter")
	w.beside("turns", "0", words.WholeNumber())
	w.Type("#turns", "4")
	w.enter("moved", "20", mm.Error(&geometry.RangeError{Quantity: geometry.QuantityPitch, Min: 0.2, Max: 3})) // 5.00 a turn
	w.LookInto()
	w.Tap(words.Back())
	w.Waiting(words.TurnPlanTitle(job.TurnGo))
	w.rows(planned...)
	w.Tap(words.FollowTurns())

	w.On(words.Question(job.AskWayUp, job.Kit{}).Title)
	w.Tap(words.Answer(job.AskWayUp, job.WayCounter))
	w.On(words.TurnTitle(job.ByScrews))
	w.shown(0, "8¼ down ↻")
	w.Tap(words.WhichWay())
	w.Waiting(words.Question(job.AskWayUp, job.Kit{}).Title)
	w.Tap(words.Answer(job.AskWayUp, job.WayClockwise))
	w.Waiting(words.TurnTitle(job.ByScrews))
	w.shown(0, "8¼ down ↺")
	w.WaitSaved()
	w.Reload()
	w.Waiting(words.TurnTitle(job.ByScrews))
	w.Tap(words.CourseTitle(i, 5) + ": " + words.AnEighthUp())
	w.shown(5, "⅝ down ↺")
	w.Read(words.More(), words.TurnMore(job.ByScrews)...)
	w.Tap(words.TurnedAsShown())

	// The rule opens where the turns should have brought the strings: 3.875 − 2.0625 and 1.625 − 0.15625.
	w.On(words.ReadTitle(i, 0, true))
	w.Tap(words.MarkSeen(mark("1.75"), mark("2.00")))
	w.Waiting(words.ReadTitle(i, 5, true))
	w.Tap(words.MarkSeen(mark("1.25"), mark("1.50")))
	w.On("There: as wanted")
	w.SeesNot(words.TooMuchButton())
	w.Tap(words.DoneButton())
	w.On(words.SaveTitle())
	w.Tap(words.SaveButton())
	w.On(words.FinishedTitle())
	w.Read(words.StoryTitle(), mm.Fact(i, job.Screwed{Eighths: []int{40, 0, 0, 0, 0, 0}}), mm.Fact(i, job.Screwed{Eighths: []int{-66, -54, -42, -30, -18, -5}}))
}

// An archtop on wheels that its strings alone hold, in hundredths of an inch: bass 0.09 to 0.10, treble 0.07 to 0.08; wanted 0.080 and 0.066. In millimetres it
// has to sink by 0.381 and 0.2286 at fret 12. An eighth of a turn of 8-32 is 0.0992, half of it there: 7.68 and 4.61 at the strings, 52 apart; carried to
// the posts, 74 apart, 8.33 and 3.96. 8 and 4 leave the least.
func TestWheelsUnderABridge(t *testing.T) {
	t.Parallel()
	w := StartWalk(t, "posts", Tall.InTheDark())
	i := job.Instrument{Family: geometry.Archtop}
	w.Open("/kit/")
	w.Tap(words.Inches())
	w.WaitSaved()
	w.Open("/")
	w.turnable(i.Family, job.BridgePosts, job.ByPosts)
	w.Tap(words.Answer(job.AskScrews, job.ScrewsFloating))
	w.rule(job.EveryHundreth)
	w.forbid = notMM
	w.gaps(i)
	w.Waiting(words.MeasuredTitle())
	w.Tap(words.Answer(job.AskStrings, job.StringsStay))
	w.On(words.ChooseTitle())
	w.wishes(inch, "0.080", "0.062")
	w.Tap(higher(i, 5))
	w.Tap(higher(i, 5))
	w.wishes(inch, "0.080", "0.066")
	w.Tap(inch.AimFor(inches("0.080"), inches("0.066")))

	ask := inch.ThreadAsk(job.ByPosts, nil).Title
	w.On(ask)
	w.Tap(words.IDontKnow())
	w.On(words.TrialAsk(job.ByPosts).Title)
	w.Says(words.Caution(job.AskScrews, job.ScrewsFloating))
	w.Tap(words.Back())
	w.Waiting(ask)
	w.Tap(words.PostsTitle())
	w.Says(inch.ApartLabel(74))
	w.Type("#behind", "1")
	w.Type("#apart", "9")
	w.enter("rest", "thick", wrong("thick", job.Inch))
	w.beside("apart", "9", inch.Error(&geometry.RangeError{Quantity: geometry.QuantityPosts, Min: 10, Max: 200}))
	w.Type("#apart", "")
	w.enter("rest", "1", inch.Error(&geometry.RangeError{Quantity: geometry.QuantityLever, Min: 0.2, Max: 3}))
	w.LookInto()
	w.Type("#behind", "")
	w.Type("#rest", "")
	w.Press("Enter")
	w.Waiting(ask)
	w.Tap("8-32")
	w.On(words.TurnPlanTitle(job.TurnGo))
	w.rows("Bass post; 1 turn down", "Treble post; ½ turn down")
	w.Tap(words.FollowTurns())
	w.On(words.Question(job.AskWayUp, job.Kit{}).Title)
	w.Says(words.Caution(job.AskScrews, job.ScrewsFloating))
	w.Tap(words.Answer(job.AskWayUp, job.WayUnsure))
	w.On(words.TurnTitle(job.ByPosts))
	w.shown(0, "1 down")
	w.Read(words.More(), words.TurnMore(job.ByPosts)...)
	w.Tap(words.TurnedAsShown())
	w.On(words.ReadTitle(i, 0, true))
	w.undo() // a wheel was forgotten
	w.Waiting(words.TurnTitle(job.ByPosts))
	w.Tap(words.TurnedAsShown())
	w.Waiting(words.ReadTitle(i, 0, true))
	w.Tap(words.MarkSeen(inches("0.08"), inches("0.09")))
	w.Waiting(words.ReadTitle(i, 5, true))
	w.Tap(words.MarkSeen(inches("0.06"), inches("0.07")))
	w.On("There: as wanted")
	w.Tap(words.DoneButton())
	w.Waiting(words.SaveTitle())
	w.Tap(words.SaveButton())
	w.On(words.FinishedTitle())
	w.Read(words.StoryTitle(), inch.Fact(i, job.Screwed{Eighths: []int{-8, -4}}))
}
