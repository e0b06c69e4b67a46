package job

import (
	"slices"
	"strconv"
	"strings"

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
	Papers   string   `json:"papers,omitzero"` // the numbers of all papers to hand, as printed on them; said, they count instead of Grit
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

// Grits are the papers that are to hand, by both standards: with a P before the number FEPA's, without one CAMI's. ok is false when something
// typed is no number of a paper.
func (k Kit) Grits() (grits []geometry.Grit, ok bool) {
	for _, word := range strings.FieldsFunc(k.Papers, func(r rune) bool { return strings.ContainsRune(" ,;/", r) }) {
		g := geometry.Grit{Standard: geometry.CAMI}
		number := strings.TrimLeft(word, "Pp")
		if number != word {
			g.Standard = geometry.FEPA
		}
		var err error
		if g.Number, err = strconv.Atoi(number); err != nil || g.Number < 1 || g.Number > finestPaper {
			return nil, false
		}
		grits = append(grits, g)
	}
	return grits, true
}

// finestPaper is more than any paper's number (common practice, no source).
const finestPaper = 5000

// Order is the order in which the papers to hand are used on the underside; rough: none of them is fine enough to finish with.
func (k Kit) Order() (papers []geometry.Paper, rough bool) {
	grits, _ := k.Grits()
	if len(grits) == 0 {
		return nil, false
	}
	return geometry.Papers(grits, geometry.UndersideFinish)
}

// coarse is the paper that is sanded with up to the line; ok is false when nothing of use was said.
func (k Kit) coarse() (geometry.Grit, bool) {
	papers, _ := k.Order()
	i := slices.IndexFunc(papers, func(p geometry.Paper) bool { return p.Use == geometry.PaperUsed })
	if i < 0 {
		return geometry.Grit{}, false
	}
	return papers[i].Grit, true
}

// Smoothing is what the fine papers may take off at the saddle after the line.
func (k Kit) Smoothing() geometry.Length {
	if g, ok := k.coarse(); ok {
		return geometry.SmoothingFor(g)
	}
	return geometry.Smoothing
}

// strokeGuess is what a stroke may take off before this person's own strokes say it.
func (k Kit) strokeGuess() geometry.Interval {
	if g, ok := k.coarse(); ok {
		return g.StrokeGuess()
	}
	return geometry.StrokeGuess(k.Grit)
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
