package phone

import (
	"strings"
	"testing"

	"gapwright/app/job"
	"gapwright/app/words"
	"gapwright/geometry"
)

// refused types a text into a field, sends it with the Enter key, and wants the sentence beside the field with the text still in it.
func (w *Walk) refused(field, text, sentence string) {
	w.t.Helper()
	w.Type("#"+field, text)
	w.Tap("#screen .button.main")
	w.saidBeside(field, text, sentence)
}

func (w *Walk) saidBeside(field, text, sentence string) {
	w.t.Helper()
	var said string
	w.until("a sentence beside "+field+" about "+text, func() (bool, string) {
		said = w.Said(field)
		return strings.Contains(said, sentence), said
	})
	w.Holds(field, text)
	w.Look()
}

// alerted waits for what is wrong with the screen as a whole.
func (w *Walk) alerted(sentence string) {
	w.t.Helper()
	w.Wait("the alert "+sentence, `[...document.querySelectorAll("main [role=alert]")].some(e => !e.hidden && e.textContent.includes(`+"`"+sentence+"`"+`))`)
	w.CheckAccessible()
	w.CheckFits()
}

// Whatever is typed, the app says beside the field what is wrong and what would be right, and keeps what was typed.
func TestBadInput(t *testing.T) {
	t.Parallel()
	w := StartWalk(t, "bad-input", Small)
	w.On(words.FamilyQuestion().Title)
	w.Tap(words.Family(geometry.FlatTop6))
	w.answer(job.AskSaddle, job.SaddleLoose)
	w.rule(job.EveryQuarter)

	// A caliper's number: one field.
	w.On(words.ReadTitle(guitar, 0, false))
	w.Tap(words.OtherWays())
	w.Tap(words.Way(job.ByCaliper))
	w.Sees(words.WayLead(job.ByCaliper))
	for _, bad := range [][2]string{
		{"", "Nothing is entered yet. Type a length such as 2.25 or 2,25."},
		{"abc", "That is not a number. Type a length such as 2.25 or 2,25."},
		{"1/2", "Half of what? Add mm or in behind the fraction."},
		{"1e3", "Write the number out in full, such as 2.25 or 2,25."},
		{"-1", "A length cannot be below zero. Leave out the minus sign."},
		{"2.2.5", "There are two decimal marks. Use one, such as 2.25 or 2,25."},
		{"2 yards", "That unit is not known here. Use mm, in or thou, or the number alone."},
		{"0x10", "That is not a number."},
		{"NaN", "That is not a number."},
		{"25", "No string stands that high."},
	} {
		w.refused("value", bad[0], bad[1])
	}

	// Feelers: each field has its own sentence, and what does not fit is thicker.
	w.Tap(words.Way(job.ByFeeler))
	w.Sees(words.WayLead(job.ByFeeler))
	w.Type("#fits", "abc")
	w.refused("next", "1e3", "Write the number out in full")
	w.saidBeside("fits", "abc", "That is not a number.")
	w.Type("#fits", "2.9")
	w.refused("next", "2.8", "What fits must be thinner than what does not fit.")
	w.Holds("fits", "2.9")

	// A comma is a decimal mark, and 64ths are inches whoever types them. A caliper's 3,00 is 2.97 to 3.03; its 5/64 in, 1.984, is 1.954 to 2.014.
	w.Tap(words.Way(job.ByCaliper))
	w.Type("#value", "3,00")
	w.Tap(words.ReadButton())
	w.On(words.ReadTitle(guitar, 5, false))
	w.Tap(words.OtherWays())
	w.Tap(words.Way(job.ByCaliper))
	w.Sees(words.WayLead(job.ByCaliper))
	w.Type("#value", "5/64")
	w.Tap(words.ReadButton())
	w.On(words.MeasuredTitle())
	w.rows("Bass string; 2.95 to 3.05\u00a0mm", "Treble string; 1.95 to 2.05\u00a0mm")

	// A second reading that has nothing in common with the first: it opens at 3.00, the middle of the first.
	w.Tap(words.ReadAgain() + ": " + words.CourseTitle(guitar, 0))
	w.On(words.ReadTitle(guitar, 0, false))
	w.Tap(words.OneMarkUp())
	w.Tap(words.OneMarkUp())
	w.Tap(words.MarkSeen(mark("3.50"), mark("3.75")))
	w.alerted("Two readings disagree: 2.95 to 3.05\u00a0mm and 3.50 to 3.75\u00a0mm have nothing in common.")
	w.Tap(words.Back())
	w.On(words.MeasuredTitle())
	w.Tap(words.Answer(job.AskStrings, job.StringsStay))
	w.answer(job.AskBuzz, job.BuzzNone)

	// No wish above the string can be told: from 1.85 it goes up to 2.00, the last step under 2.014, and no further.
	w.On(words.ChooseTitle())
	for range 6 {
		w.Tap(higher(guitar, 5))
	}
	w.Tap(lower(guitar, 0))
	w.Sees(mm.AimFor(mark("2.35"), mark("2.00")))
	for range 4 {
		w.Tap(lower(guitar, 5))
	}
	w.Tap(mm.AimFor(mark("2.35"), mark("1.80")))
	w.answer(job.AskRoom, job.RoomFine)

	// The saddle's stand, each end by itself.
	w.On(words.StandQuestion().Title)
	w.Type("#stand-0", "4")
	w.refused("stand-1", "40", "A saddle does not stand that far over the top.")
	w.refused("stand-1", "four", "That is not a number.")
	w.Holds("stand-0", "4")
	w.Type("#stand-1", "4")
	w.Tap(words.GoOn())
	w.On(words.PlanTitle(job.PlanGo, 1))

	// A saddle shorter than its strings are apart, on the instrument's own page.
	place := w.Place()
	w.Open("/")
	w.Tap(words.Family(geometry.FlatTop6))
	w.Waiting(words.Family(geometry.FlatTop6))
	w.Tap(words.AboutInstrument())
	w.Type("#saddle", "40")
	w.Tap(words.Keep())
	w.saidBeside("saddle", "40", "The saddle is at least as long as the outer strings are apart. It should lie between 54.00\u00a0mm and 150.00\u00a0mm.")
	w.Type("#saddle", "")
	w.Type("#fret", "12.5")
	w.Tap(words.Keep())
	w.saidBeside("fret", "12.5", words.WholeNumber())
	w.Type("#fret", "99")
	w.Tap(words.Keep())
	w.saidBeside("fret", "99", "There is no such fret. Choose a fret from 1 to 24.")
	w.Open(place)

	// The caliper: an empty height, and a saddle that grew.
	w.On(words.PlanTitle(job.PlanGo, 1))
	w.marked(job.FollowCaliper)
	w.On("Measure before the first stroke")
	w.Type("#height-0", "10,0")
	w.refused("height-1", "", "Nothing is entered yet.")
	w.Holds("height-0", "10,0")
	w.Type("#height-1", "9")
	w.Tap(words.RecordStart())
	w.Wait("the first check", `document.querySelector("main h1").textContent.endsWith("then measure")`)
	w.Type("#height-0", "10.2")
	w.refused("height-1", "9", "The saddle cannot have grown.")
	w.Holds("height-0", "10.2")
}

// The short form's fields take marks of the rule, and say what is none.
func TestBadInputInShortForm(t *testing.T) {
	t.Parallel()
	w := StartWalk(t, "bad-input-short", Tall.InTheDark())
	w.Open("/kit/")
	w.On(words.KitTitle())
	w.Tap(words.ShortForm())
	w.Tap(words.Change() + ": " + words.RuleRow())
	w.rule64()
	w.Open("/")
	w.Tap(words.Family(geometry.FlatTop6))
	w.answer(job.AskSaddle, job.SaddleLoose)
	w.onShort(false)
	w.Type("#read-5", "5")
	for _, bad := range [][2]string{
		{"", "Nothing is entered yet. Type a length such as 0.089, 89 thou or 6/64."},
		{"seven", "That is not a number."},
		{"-7", "A length cannot be below zero."},
		{"0.111", "Your rule has no mark there. The nearest are 1/64, 2/64, 3/64 and so on."},
		{"99", "No string stands that high."},
	} {
		w.refused("read-0", bad[0], bad[1])
		w.Holds("read-5", "5")
	}
	w.Type("#read-0", "7/64")
	w.Press("Enter")
	w.Press("Enter")
	w.answer(job.AskBuzz, job.BuzzNone)
	w.On(words.ChooseTitle())
	w.Read(words.Numbers(), "7/64 to 8/64\u00a0in")
}

// rule64 says in the Kit that the rule has 64ths and its zero at its end.
func (w *Walk) rule64() {
	w.t.Helper()
	w.On(words.RuleQuestion().Title)
	w.Tap(words.Marks(job.Every64th))
	w.Waiting(words.KitTitle())
	w.Tap(words.Change() + ": " + words.ZeroRow())
	w.On(words.ZeroQuestion().Title)
	w.Tap(words.Zero(job.ZeroAtEnd))
	w.Waiting(words.KitTitle())
}
