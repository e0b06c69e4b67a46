package words

import (
	"gapwright/app/job"
	"gapwright/geometry"
)

// slotted tells what was measured for a new saddle.
func (r Reader) slotted(f job.Slotted) string {
	line := "Slot"
	for _, part := range []struct {
		typed job.Typed
		name  string
	}{{f.Length, "long"}, {f.Width, "wide"}, {f.Depth, "deep"}} {
		if part.typed.Given() {
			line += ", " + r.Typed(part.typed) + " " + part.name
		}
	}
	if line == "Slot" {
		line += ": not measured"
	}
	if f.Across != "" {
		line += "; board: " + Across(f.Across)
	}
	if f.Bass.Given() || f.Treble.Given() {
		line += "; old saddle " + r.Typed(f.Bass) + " bass, " + r.Typed(f.Treble) + " treble, in all"
	}
	return line
}

// Across names what the board is like across.
func Across(a job.Rounded) string {
	switch a {
	case job.AcrossFlat:
		return "flat"
	case job.AcrossRadius:
		return "round"
	}
	return "not known"
}

// SlotAsk asks what the slot measures.
func SlotAsk() Ask {
	return Ask{Title: "Measure the slot", Lead: "Leave empty what you can’t measure yet.", More: []string{
		"Length and width along the top of the bridge. The depth, from the top of the bridge to the slot’s floor, can wait until the old saddle is out.",
		"Without the length or the width nothing is told of them: fit the saddle by trying. Without the depth heights may count from the wood only, and nothing is told of leaning.",
	}}
}

// The labels of a slot's measures.
func SlotLength() string { return "Length" }
func SlotWidth() string  { return "Width" }
func SlotDepth() string  { return "Depth" }

// AcrossAsk asks how round the board is.
func AcrossAsk() Ask {
	return Ask{Title: "Is the board round across?", Lead: "Look along it from the end, or lay a straight edge across.", More: []string{
		"The saddle’s top follows the board, so that the inner strings stand right as well. Nylon-string boards are mostly flat.",
		"Don’t know the radius? Then only the outer strings and the saddle’s size are told: copy the top’s curve from the old saddle.",
	}}
}

// FlatBoard is one of its answers.
func FlatBoard() string { return "It is flat" }

// OldAsk asks how high the old saddle is, in all or over the wood.
func OldAsk(all bool) Ask {
	q := Ask{Title: "How high is the old saddle?", Lead: "From the wood in front to its top, under each outer string.", More: []string{
		"The new saddle is as much higher or lower as the strings have to rise or fall. So everything counts from the old one, and nothing can be told without it.",
		"In all is surer with a caliper, once the saddle is out. A strip that lay under it counts as part of it.",
	}}
	if all {
		q.Lead = "From underside to top, where each outer string crosses it."
	}
	return q
}

// OverTheWood and InAll are the two ways to measure it.
func OverTheWood() string { return "Over the wood" }
func InAll() string       { return "In all, taken out" }

// MeasureOld and the others lead back to what was asked.
func MeasureOld() string    { return "Measure the old saddle" }
func MeasureSlot() string   { return "Measure the slot" }
func MeasureAcross() string { return "Say how round the board is" }

// BlankTitle heads the plan of a new saddle.
func BlankTitle(m job.Making) string {
	switch {
	case !m.Known:
		return "No height can be told"
	case m.TooLow():
		return PlanTitle(job.PlanTooLow, 1)
	}
	return "Make it no lower than"
}

// BlankLead says what the numbers count from.
func (r Reader) BlankLead(m job.Making) string {
	switch {
	case !m.Known:
		return "It counts from the old saddle, and that was not measured."
	case m.TooLow():
		return r.PlanLead(job.Plan{Outcome: job.PlanTooLow}, job.Instrument{}, job.Kit{})
	case m.Whole:
		return "Underside to top, under the outer strings. Too much is sanded off later."
	}
	return "Over the wood, under the outer strings. Too much is sanded off later."
}

// FollowBlank is the main button of that plan.
func FollowBlank() string { return "I’ll make it so" }

// BlankPicture names the picture of it.
func BlankPicture() string { return "The new saddle from the front" }

// BlankHeight tells a place's height as the range it is, and how low it may be made.
func (r Reader) BlankHeight(name string, c geometry.CrownPoint) string {
	return name + ": " + r.Span(c.Height) + ", make it no lower than " + r.Up(c.Stop)
}

// BlankEnd tells an end's height, and what it is when the strings' places are at their stop.
func (r Reader) BlankEnd(side int, c geometry.CrownPoint) string {
	return SideTitle(side) + ": " + r.Span(c.Height) + ", with the strings at their stop " + r.Up(c.Stop)
}

// BlankAbove tells how much a place stands over the lowest string's.
func (r Reader) BlankAbove(name string, c geometry.CrownPoint) string {
	return name + ": " + r.Length(c.Above) + " over the lowest"
}

// BlankStands tells how far it will stand over the wood.
func (r Reader) BlankStands(name string, i geometry.Interval) string {
	return name + ": will stand " + r.Span(i) + " over the wood"
}

// BlankLength and BlankThickness tell its size.
func (r Reader) BlankLength(i geometry.Interval) string {
	return "Length: no more than " + r.Down(i.High)
}

// BlankThickness tells how thick it is, and down to where.
func (r Reader) BlankThickness(i geometry.Interval) string {
	return "Thickness: try it from " + r.Up(i.High) + " on, not under " + r.Up(i.Low)
}

// LengthUnknown and ThicknessUnknown stand in the drawing where that was not measured: it is drawn as is usual.
func LengthUnknown() string    { return "length not measured" }
func ThicknessUnknown() string { return "width not measured" }

// BlankAcross tells what its top follows.
func (r Reader) BlankAcross(m job.Making) string {
	switch {
	case !m.Shaped:
		return "Top: copy the curve of the old saddle."
	case m.Radius > 0:
		return "Top: as round as the board, " + r.About(m.Radius) + " radius."
	}
	return "Top: straight, as the board is flat."
}

// BlankStep names a part of the making.
func BlankStep(s geometry.BlankStep) string {
	switch s {
	case geometry.BlankThickness:
		return "Thickness"
	case geometry.BlankLength:
		return "Length"
	case geometry.BlankUnderside:
		return "Underside"
	case geometry.BlankCrown:
		return "Rough top"
	case geometry.BlankHeight:
		return "Height"
	case geometry.BlankEnds:
		return "Ends"
	case geometry.BlankPolish:
		return "Polish"
	}
	return ""
}

// BlankDo says how a part is done.
func (r Reader) BlankDo(s geometry.BlankStep, m job.Making) string {
	switch s {
	case geometry.BlankThickness:
		if m.Fits {
			return "Sand both faces until a push seats it; try from " + r.Up(m.Thickness.High) + "."
		}
		return "Sand both faces until a push seats it and nothing wobbles."
	case geometry.BlankLength:
		if m.Sized {
			return "Shorten it to " + r.Down(m.Length.High) + ", so that it never jams."
		}
		return "Shorten it until it drops in with a hair to spare."
	case geometry.BlankUnderside:
		return "Make it flat and square. No light under a straight edge."
	case geometry.BlankCrown:
		if m.Shaped {
			return "Mark the strings, draw the top from the drawing, file to the line."
		}
		return "Mark the strings, draw round the old top, file to the line."
	case geometry.BlankHeight:
		heights := r.Up(m.Strings[0].Stop) + " at bass, " + r.Up(m.Strings[len(m.Strings)-1].Stop) + " at treble"
		if m.Whole {
			return "Sand the underside, and stop at " + heights + "."
		}
		return "Sand the underside until it stands " + heights + ", no less."
	case geometry.BlankEnds:
		return "Round the ends like the slot’s. Take the sharp edges off under the strings."
	case geometry.BlankPolish:
		return "Polish only the top. A face that is polished fits loosely."
	}
	return ""
}

// BlankOrder opens the order of work.
func BlankOrder() string { return "Order of work" }

// MakeTitle heads the making.
func MakeTitle() string { return "Make the saddle" }

// MakeReady stands there when every part is ticked.
func MakeReady() string { return "Try it once more in the slot." }

// Made is the main button.
func Made() string { return "It is made" }

// StripCounts asks what is done with a strip that lay under the old saddle.
func StripCounts() Ask {
	return Ask{Title: "The old strip counts", Lead: "The strings stood on saddle and strip. Without it the new saddle must be higher by as much.", More: []string{
		"Laid back in, it stays as it was. A saddle without it is better. Measure the old one and its strip together, and the new one makes up for both.",
	}}
}

// StripBack is one of its answers; the other is to measure.
func StripBack() string { return "It goes back in" }

// MakeMore says more of the making.
func MakeMore() []string {
	return []string{
		"Dust of bone, shell and plastics harms lungs: wear a mask that seals, or work wet, and wipe up wet. Not where food is made.",
		"The slot alone holds it. Never glue it.",
	}
}

// LifeSize names the drawing.
func LifeSize() string { return "Life-size drawing" }

// LifeTitle heads it.
func LifeTitle() string { return "In life size" }

// LifeLead says what to do with it; fitted: it is shown on this screen, which may be too narrow for it.
func LifeLead(fitted, narrow bool) string {
	if fitted && narrow {
		return "First measure the check line with your rule. Turn the phone sideways to see all of it."
	}
	if fitted {
		return "First measure the check line with your rule."
	}
	return "Print it, or fit this screen to a bank card and lay the blank on the glass."
}

// LifeMore says how true it is: how far a length of it may be off on this screen.
func (r Reader) LifeMore(off geometry.Length) []string {
	more := []string{
		"On paper: choose 100\u00a0% or actual size in the print window, then measure the check line. If it is not as long as it says, print again at 100\u00a0%.",
		"The top is drawn at the height to stop at, with the place of each string. Under it are the saddle from above and its two ends.",
	}
	if off > 0 {
		more = append(more, "On this screen the whole length may be off by "+r.Up(off)+", the heights by next to nothing. Don’t enlarge the page with two fingers: that enlarges the drawing.")
	}
	return more
}

// PrintIt and the others are the drawing's buttons.
func PrintIt() string      { return "Print it" }
func FitCard() string      { return "Fit to a card" }
func FitCardAgain() string { return "Fit the card again" }
func CardFits() string     { return "It fits" }
func CardTitle() string    { return "Lay a bank card here" }
func CardLead() string     { return "Upright, on the shape. Make both edges just vanish under it." }
func CardLabel() string    { return "Any bank card" }
func CardPicture() string  { return "The outline of a card, standing upright" }
func CardSize() string     { return "Size of the shape" }
func CardSmaller() string  { return "A hair smaller" }
func CardLarger() string   { return "A hair larger" }
func LifePicture() string  { return "The new saddle in life size" }
func LifeText() string {
	return "From the front at its stop, with the strings’ places; from above; from both ends."
}
func CardMore() []string {
	return []string{
		"Bank and library cards all have one size, so any of them shows how large things come out on this screen. It is kept for next time.",
		"Look straight down. Upright, only the two long edges need to fit.",
	}
}

// CheckLine says how long the line is that tells whether the drawing is true: 100 or 50 mm.
func (r Reader) CheckLine(mm float64) string {
	l := geometry.Length(mm)
	if r.Unit == job.Inch {
		return "This line is " + r.digits(l, geometry.Thousandth) + "\u00a0in long"
	}
	return "This line is " + Number(int(mm)) + "\u00a0mm long"
}

// PaperCheck stands over the drawing on paper.
func (r Reader) PaperCheck(mm float64) string {
	l := Number(int(mm)) + "\u00a0mm"
	if r.Unit == job.Inch {
		l = r.digits(geometry.Length(mm), geometry.Thousandth) + "\u00a0in"
	}
	return "Measure the check line; if it is not " + l + ", print at 100\u00a0%."
}

// PaperHeights says on paper what the heights count from.
func PaperHeights(m job.Making) string {
	switch {
	case !m.Known:
		return "Heights over the lowest string’s place: only the shape is known."
	case m.Whole:
		return "Heights from the underside. Make it no lower."
	}
	return "Heights over the wood in front. Make it no lower."
}

// sandNext tells that a new saddle is too high, as planned: another job lowers it.
func sandNext(m job.Method, all []job.Compared) bool {
	return m == job.NewSaddle && VerdictTitle(all) == VerdictTitle([]job.Compared{{Verdict: geometry.StillHigh}})
}

// PlayOrSand asks to listen before judging, where it is not clear what comes next.
func PlayOrSand(m job.Method, all []job.Compared) string {
	if sandNext(m, all) {
		return "As planned. Sand off the rest next."
	}
	return PlayIt()
}
