package job

import (
	"strconv"

	"gapwright/geometry"
)

// Marks is how a rule is marked.
type Marks string

// The rules that people have. NoRule is somebody who measures with feelers, cards or a caliper only.
const (
	MarksUnknown  Marks = ""
	EveryMM       Marks = "mm-1"
	EveryHalfMM   Marks = "mm-1/2"
	EveryQuarter  Marks = "mm-1/4"
	Every32nd     Marks = "in-1/32"
	Every64th     Marks = "in-1/64"
	EveryHundreth Marks = "in-1/100"
	NoRule        Marks = "none"
)

// AllMarks lists the rules, millimetres first.
func AllMarks() []Marks {
	return []Marks{EveryHalfMM, EveryMM, EveryQuarter, Every64th, Every32nd, EveryHundreth}
}

// Zero is where a rule's zero lies.
type Zero string

// The answers. ZeroUnknown is an answer too: it widens every reading.
const (
	ZeroNotAsked Zero = ""
	ZeroAtEnd    Zero = "at-end"
	ZeroInside   Zero = "inside"  // blank before the zero mark
	ZeroCutOff   Zero = "cut-off" // the end was worn or cut off past the zero
	ZeroUnknown  Zero = "unknown"
)

// Zeros lists the answers that can be given.
func Zeros() []Zero { return []Zero{ZeroAtEnd, ZeroInside, ZeroCutOff, ZeroUnknown} }

// Has is yes, no, or not asked yet.
type Has string

// The answers.
const (
	NotAsked Has = ""
	Yes      Has = "yes"
	No       Has = "no"
)

// Kit is what a person has to hand. Nothing in it is asked before the step that uses it.
type Kit struct {
	Unit     Unit     `json:"unit"`
	Marks    Marks    `json:"marks"`
	Zero     Zero     `json:"zero"`
	ZeroDist Typed    `json:"zeroDist,omitzero"` // from the rule's end to its zero, for ZeroInside and ZeroCutOff
	Caliper  Has      `json:"caliper,omitzero"`
	Feelers  Has      `json:"feelers,omitzero"`
	Cards    Has      `json:"cards,omitzero"`
	Grit     int      `json:"grit,omitzero"`   // the sanding paper's number, 0 when not said
	Card     int      `json:"card,omitzero"`   // over the short side of an ID-1 card on this device's screen, in hundredths of its own pixels; 0: not fitted
	Short    bool     `json:"short,omitzero"`  // everything on one page, for people who do this daily
	Strips   [4]Strip `json:"strips,omitzero"` // what can go under a saddle
}

// RuleStep is the distance between two marks; zero when the marks are not known.
func (k Kit) RuleStep() geometry.Length {
	switch k.Marks {
	case EveryMM:
		return geometry.Millimetre
	case EveryHalfMM:
		return geometry.Millimetre / 2
	case EveryQuarter:
		return geometry.Millimetre / 4
	case Every32nd:
		return geometry.Inch / 32
	case Every64th:
		return geometry.Inch / 64
	case EveryHundreth:
		return geometry.Inch / 100
	}
	return 0
}

// Mark is the n-th mark above the zero, n from 0, as it would be read aloud.
func (k Kit) Mark(n int) Typed {
	switch k.Marks {
	case Every32nd:
		return Typed{strconv.Itoa(n) + "/32", Inch}
	case Every64th:
		return Typed{strconv.Itoa(n) + "/64", Inch}
	case EveryHundreth:
		return Typed{(geometry.Length(n) * k.RuleStep()).Inches(k.RuleStep()), Inch}
	}
	return Typed{(geometry.Length(n) * k.RuleStep()).Millimetres(k.RuleStep()), MM}
}

// zeroGive is how well the distance from a rule's end to its zero is known when it was measured, and when it was not (common practice, no
// source).
const (
	zeroGiveMeasured geometry.Length = 0.1
	zeroGiveUnknown  geometry.Length = 0.25
)

// end and endGive are the distance from the rule's end to its zero and how far that may be off, as a reading keeps them; nothing when the
// zero is exactly at the end.
func (k Kit) end() Typed {
	switch k.Zero {
	case ZeroInside, ZeroCutOff:
		return k.ZeroDist
	case ZeroUnknown:
		return Typed{"0", MM}
	}
	return Typed{}
}

func (k Kit) endGive() Typed {
	switch k.Zero {
	case ZeroInside, ZeroCutOff:
		return Write(zeroGiveMeasured, MM, geometry.Millimetre/100)
	case ZeroUnknown:
		return Write(zeroGiveUnknown, MM, geometry.Millimetre/100)
	}
	return Typed{}
}

func ruleEnd(distance, give geometry.Length, cut bool) geometry.Interval {
	if cut {
		distance = -distance
	}
	return geometry.Interval{Low: distance - give, High: distance + give}
}

// RuleEnd is how far the zero lies above the end that the rule stands on.
func (k Kit) RuleEnd() geometry.Interval {
	return ruleEnd(k.end().LengthOr(0), k.endGive().LengthOr(0), k.Zero == ZeroCutOff)
}

// HighestMark is the last mark worth showing: above it no string is believed.
func (k Kit) HighestMark() int {
	if k.RuleStep() == 0 {
		return 0
	}
	return int(geometry.LargestGap/k.RuleStep()) - 1
}

// NearestMark is the mark at or just below the height l.
func (k Kit) NearestMark(l geometry.Length) int {
	if k.RuleStep() == 0 {
		return 0
	}
	n := int((l - k.RuleEnd().Middle()) / k.RuleStep())
	return max(0, min(n, k.HighestMark()))
}

// SmallStep is how finely a height is wished for in the kit's unit: 0.05 mm, or two thousandths of an inch.
func (k Kit) SmallStep() geometry.Length {
	if k.Unit == Inch {
		return 2 * geometry.Thousandth
	}
	return geometry.Millimetre / 20
}

// standGive is how far a number for the saddle's stand may be off, taken with what is to hand.
func (k Kit) standGive() geometry.Length {
	if k.Caliper == Yes {
		return geometry.CaliperAccuracy
	}
	if step := k.RuleStep(); step > 0 {
		return step / 2
	}
	return geometry.Millimetre / 2
}

// StandGive is standGive as a record keeps it.
func (k Kit) StandGive() Typed {
	return Write(k.standGive(), MM, geometry.Millimetre/100)
}
