package words

import (
	"errors"
	"strings"

	"gapwright/app/job"
	"gapwright/geometry"
)

// Size is about how large what a field asks for is: an example is of that size.
type Size int

// The sizes: the gap at fret 12, a feeler or strip, how far a saddle stands up, its whole height or the slot's depth, a slot's length, a board's radius.
const (
	GapSize Size = iota
	LeafSize
	StandSize
	HeightSize
	LengthSize
	RadiusSize
)

// example is a length of a size as it could be typed.
func (r Reader) example(s Size) string {
	both := [...][2]string{
		GapSize: {"2.25 or 2,25", "0.089, 89 thou or 6/64"}, LeafSize: {"0.25 or 0,25", "0.010 or 10 thou"}, StandSize: {"3.50 or 3,50", "0.140 or 9/64"},
		HeightSize: {"8.50 or 8,50", "0.335 or 11/32"}, LengthSize: {"72.5 or 72,5", "2.85 or 2 27/32"}, RadiusSize: {"400", "16"},
	}[s]
	if r.Unit == job.Inch {
		return both[1]
	}
	return both[0]
}

// FieldError is Error of a field that asks for such a size. Where another field beside it is wrong too, an example has been given.
func (r Reader) FieldError(err error, s Size, again bool) string {
	var parse *geometry.ParseError
	if !errors.As(err, &parse) {
		return r.Error(err)
	}
	if again {
		return r.parse(parse, "")
	}
	return r.parse(parse, r.example(s))
}

// Error says what is wrong with what was entered and what would be right. It never blames and never repeats code.
func (r Reader) Error(err error) string {
	var parse *geometry.ParseError
	if errors.As(err, &parse) {
		return r.parse(parse, r.example(GapSize))
	}
	var refusal *job.Refusal
	if errors.As(err, &refusal) { // before what lies under it: it may say more than its cause
		return r.Refusal(refusal)
	}
	var out *geometry.RangeError
	var contradiction *geometry.ContradictionError
	var wont *job.WontError
	switch {
	case errors.As(err, &wont):
		return r.wont(wont)
	case errors.As(err, &contradiction):
		return "Two readings disagree: " + r.Span(contradiction.A) + " and " + r.Span(contradiction.B) +
			" have nothing in common. Read once more, and keep the one you trust."
	case errors.Is(err, geometry.ErrMarksOrder):
		return "The mark with light must be lower on the rule than the mark without. Swap them."
	case errors.Is(err, geometry.ErrBelowRule):
		return "This rule starts above the string: the blank before its zero is larger than the gap. Use feelers, cards or another rule."
	case errors.Is(err, geometry.ErrFeelerOrder):
		return "What fits must be thinner than what does not fit. Swap them, or check the numbers on the leaves."
	case errors.Is(err, geometry.ErrGrew):
		return "The saddle cannot have grown. One of the two numbers was misread: measure again at the marked point."
	case errors.Is(err, geometry.ErrTooFewStrings):
		return "Two strings must be read, the bass and the treble one."
	case errors.Is(err, geometry.ErrOutsideSaddle):
		return "The outer strings are further apart than the saddle is long. One of the two lengths is wrong."
	case errors.Is(err, geometry.ErrNoReading):
		return "This string has not been read yet."
	case errors.Is(err, geometry.ErrTooMany):
		return "More strings than this can work with: twelve at most."
	case errors.Is(err, geometry.ErrNoRelief):
		return "Held there, a straightedge shows too little of the relief. Hold it at fret 1 and where the neck meets the body."
	case errors.Is(err, geometry.ErrNoPath):
		return "These two readings do not tell the string’s line. Read one at fret 1 and one at fret 12."
	case errors.Is(err, geometry.ErrTouch):
		return "It buzzed with more room than it was clean with. Try both once more, with the same touch."
	case errors.Is(err, geometry.ErrNoStretch):
		return "How much this string stretches is not known, so neither is its pitch when stopped."
	case errors.Is(err, geometry.ErrFewStrings):
		return "Three strings must be read: the two outer ones and one between."
	case errors.Is(err, geometry.ErrNoPitch):
		return "It may not have moved at all, as far as these readings tell. Turn further, or read more finely."
	case errors.Is(err, geometry.ErrNoPile):
		return "Nothing to hand is thick enough, six leaves at most. Add another kind."
	case errors.Is(err, job.ErrSet):
		return "These strings are not those of such an instrument. Enter them once more."
	case errors.Is(err, job.ErrWeight):
		return "Type grams per metre as the packet prints them, such as 0.57 or 5,47."
	case errors.Is(err, job.ErrNoWeight):
		return "What this string weighs is not known. Type its grams per metre, or the diameter of a plain steel string."
	case errors.Is(err, geometry.ErrNotACard):
		return "That is not as long and wide as a bank card. Lay one on the screen and fit its shape again."
	case errors.Is(err, job.ErrHumidity):
		return "Type whole percent, such as 45. Left empty: not measured."
	case errors.Is(err, job.ErrTemperature):
		return "Type degrees alone, such as 21. Left empty: not measured."
	case errors.As(err, &out):
		return r.outOfRange(out)
	}
	return "That could not be taken. Nothing you entered is lost; try once more."
}

func (r Reader) parse(e *geometry.ParseError, example string) string {
	typed, such := "", ""
	if example != "" {
		typed, such = "Type a length such as "+example+".", ", such as "+example
	}
	switch e.Kind {
	case geometry.ParseEmpty:
		return strings.TrimSpace("Nothing is entered yet. " + typed)
	case geometry.ParseNegative:
		return "A length cannot be below zero. Leave out the minus sign."
	case geometry.ParseExponent:
		return "Write the number out in full" + such + "."
	case geometry.ParseTwoMarks:
		return "There are two decimal marks. Use one" + such + "."
	case geometry.ParseFraction:
		return "A rule has halves, quarters, eighths, and so on to 128ths. Type a fraction such as 5/64."
	case geometry.ParseAmbiguous:
		return "Half of what? Add mm or in behind the fraction."
	case geometry.ParseUnknownUnit:
		return "That unit is not known here. Use mm, in or thou, or the number alone."
	case geometry.ParseTooLong:
		return strings.TrimSpace("That is too long for a length. " + typed)
	}
	return strings.TrimSpace("That is not a number. " + typed)
}

func (r Reader) outOfRange(e *geometry.RangeError) string {
	low, high := r.Up(geometry.Length(e.Min)), r.Down(geometry.Length(e.Max))
	between := " It should lie between " + low + " and " + high + "."
	switch e.Quantity {
	case geometry.QuantityGap, geometry.QuantityFeeler:
		hint := ""
		if r.Unit == job.Inch && e.Got > e.Max {
			hint = " For thousandths, add thou: 89 thou."
		}
		return "No string stands that high." + between + hint
	case geometry.QuantityScale:
		return "That is not the length of a fretted instrument’s strings, nut to saddle." + between
	case geometry.QuantitySetback:
		return "The saddle’s setback is how far it stands beyond twice the distance to fret 12." + between
	case geometry.QuantityFret:
		return "There is no such fret. Choose a fret from 1 to 24."
	case geometry.QuantityHeld:
		return "The string must be held between the nut and the fret where you read."
	case geometry.QuantityTarget:
		return "That height cannot be wanted." + between
	case geometry.QuantityExposure:
		return "A saddle does not stand that far over the top." + between
	case geometry.QuantityDistance:
		return "Measure along the top, from the saddle to where the string leaves." + between
	case geometry.QuantityHeight:
		return "The saddle must be higher than what comes off it." + between
	case geometry.QuantityStrokes:
		return "Type how many strokes you did since the last check, from 0 to 1000."
	case geometry.QuantityAccuracy:
		return "No caliper is that far out, or that exact." + between
	case geometry.QuantityCards:
		return "Measure ten cards together." + between
	case geometry.QuantityRuleEnd:
		return "Measure from the rule’s end to its zero mark." + between
	case geometry.QuantitySaddle:
		return "The saddle is at least as long as the outer strings are apart." + between
	case geometry.QuantityLength:
		return "That length cannot be right here." + between
	case geometry.QuantityLeverage:
		return "Read the gap at a fret between the nut and the body’s end, fret 12 for most."
	case geometry.QuantityCut:
		return "No more can come off than there is." + between
	case geometry.QuantityDepth:
		return "A saddle does not sit that deep in its slot." + between
	case geometry.QuantitySlot:
		return "No saddle’s slot is that narrow or that wide." + between
	case geometry.QuantityPixels:
		return "No card takes so little of a screen, or so much. Fit its shape again."
	case geometry.QuantityStroke:
		return "One stroke takes off less than that." + between
	case geometry.QuantityPitch:
		return "Nothing here moves that much in a turn, or that little." + between
	case geometry.QuantityTurns:
		return "Nobody turns that far, or by less than an eighth. Count the turns again."
	case geometry.QuantityPosts:
		return "Posts do not stand there." + between
	case geometry.QuantityLever:
		return "A plate that rests so near its posts would not carry the strings. Measure both once more, from the posts back."
	case geometry.QuantityShim:
		return "That is no strip to lay under a saddle." + between
	case geometry.QuantityLeaves:
		return "A pile has six leaves at most: more give under the strings."
	case geometry.QuantityPart:
		return "A strip under one end is shorter than half of the saddle."
	case geometry.QuantityAllow:
		return "Fine paper takes off very little." + between
	case geometry.QuantityBody:
		return "No neck meets the body there. Choose a fret from 5 to 36."
	case geometry.QuantityLastFret:
		return "The last fret is where the neck meets the body or beyond, 36 at most."
	case geometry.QuantityFallAway:
		return "No board falls away that far." + between
	case geometry.QuantityRelief:
		return "Relief lies between " + low + " and " + high + "."
	case geometry.QuantityRadius:
		return "A board’s radius lies between " + r.About(geometry.Length(e.Min)) + " and " + r.About(geometry.Length(e.Max)) + ". Leave it empty when it is flat or not known."
	case geometry.QuantityRadiusAt:
		return "A radius belongs to a place along the board." + between
	case geometry.QuantityDistanceAlong:
		return "Measure along the string, from the nut." + between
	case geometry.QuantityOffset:
		return "That place is not on the board." + between
	case geometry.QuantityPluckAt:
		return "A string is plucked between saddle and nut. Measure from the saddle." + between
	case geometry.QuantityTouch:
		return "No touch needs that much room, or that little." + between
	case geometry.QuantityNote:
		return "No string is tuned that low or that high."
	case geometry.QuantityFrequency:
		return "No string sounds that low or that high."
	case geometry.QuantityDiameter:
		hint := " A packet’s .012 needs in behind it, its 12 needs thou."
		if r.Unit == job.Inch {
			hint = " For thousandths, add thou: 12 thou."
		}
		return "A string is between " + low + " and " + high + " thick." + hint
	case geometry.QuantityUnitWeight:
		return "A string weighs between 0.01 and 100 grams per metre."
	case geometry.QuantityStretch:
		return "No string stretches that easily or that hard."
	case geometry.QuantityStiffness:
		return "No string is that stiff."
	case geometry.QuantityFinger:
		return "A finger presses close behind the fret." + between
	case geometry.QuantitySideways:
		return "No string is bent that far." + between
	case geometry.QuantityModulus:
		return "No string is of such a soft or stiff material."
	case geometry.QuantityHumidity:
		return "Humidity lies between 1 and 100\u00a0%. Left empty: not measured."
	case geometry.QuantityCelsius:
		return "No room is like that. Type −10 to 50\u00a0°C, or choose °F."
	case geometry.QuantityFahrenheit:
		return "No room is like that. Type 14 to 122\u00a0°F, or choose °C."
	case geometry.QuantityDensity:
		return "No string is of such a light or heavy material."
	}
	return "That number cannot be right here." + between
}

// Refusal says why a fact was not taken and what to do.
func (r Reader) Refusal(f *job.Refusal) string {
	switch f.Kind {
	case job.RefusedReading, job.RefusedContradicts, job.RefusedTargetText, job.RefusedCheck, job.RefusedProfile:
		if f.Cause != nil {
			return r.Error(f.Cause)
		}
		return "One of these numbers cannot be right. Look at them once more."
	case job.RefusedEnded:
		return "This job is finished. Start another one to go on."
	case job.RefusedNotBegun, job.RefusedBegunTwice, job.RefusedSequence:
		return "This job has moved on in another window. Reload to see where it is."
	case job.RefusedNotYet:
		return "That belongs to another step. Finish this one first."
	case job.RefusedStopped:
		return "What you saw here says: stop. Answer the question again when it is put right."
	case job.RefusedStale:
		return "The readings are older than a day, or from other strings or tuning. Read again first."
	case job.RefusedNothingToCut:
		if f.Cause != nil {
			return r.Error(f.Cause)
		}
		return "Nothing here can safely be done to the height. Wish for another height, or read more finely."
	case job.RefusedMaterialGone:
		if f.Step == job.FixNut {
			return "What a file took cannot be put back. Read the slot once more instead."
		}
		return "What was sanded off cannot be undone. Correct a reading instead: the plan is worked out again from what is gone."
	case job.RefusedNoUndo:
		return "There is nothing to undo."
	case job.RefusedString:
		return "This instrument has no such string."
	case job.RefusedTargetHigh:
		return "That is higher than it is now, and sanding only lowers. To raise it lay a strip under the saddle: another kind of work, on the instrument’s page."
	case job.RefusedTargetFloor:
		var out *geometry.RangeError
		if errors.As(f.Cause, &out) {
			return "Under " + r.Up(geometry.Length(out.Min)) + " this string is likely to buzz. Choose that or more."
		}
		return "That is so low that the string is likely to buzz."
	case job.RefusedUnproven:
		return "These readings do not show that the wanted height is reached. Read more finely, go another round, or keep it as it is."
	case job.RefusedSkip:
		return "This step cannot be left out: harm could come of it."
	case job.RefusedAnswer:
		return "Choose one of the answers shown."
	case job.RefusedUnanswered:
		return "Name what you see first."
	case job.RefusedPlace:
		return "Readings are taken at the same fret in the same way, or they cannot be compared."
	case job.RefusedUnknown:
		return "This job was written by a newer version of the app. It is kept untouched: reload to get the newer version."
	}
	return "That could not be taken. Nothing you entered is lost."
}
