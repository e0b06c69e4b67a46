package geometry

// What a nut slot needs is read in two ways that look alike and are not: the same slot one millimetre deeper lowers the one by 0.94 and the
// other by 0.49. Each has its own type with its own target and floor, so that a number of one kind cannot reach the other.

const (
	// LeastPressed is the least gap over fret 1, the string pressed between frets 2 and 3, that a slot may be filed to: less cannot be told from
	// a string that lies on the fret (common practice, no source).
	LeastPressed Length = 0.03
	// NutFile is what the last strokes of a file and the polish may still take from a slot (common practice, no source).
	NutFile Length = 0.03
	// FillSpare is how far a slot is filled over what it needs, to be filed back (common practice, no source).
	FillSpare Length = 0.3
)

// deepestNut is more than any slot is filed or filled.
const deepestNut Length = 5

// PressedFactor is how much deeper a slot must be for each millimetre less of the pressed gap: 1/(1 − d(1)/d(2)) = 1 + 2^(1/12) = 2.0595 on any
// scale, wherever the saddle stands. Source: equal temperament and similar triangles.
const PressedFactor = 1 + 1.0594630943592953

// OpenNut is a slot judged by the open string's gap over fret 1. That gap has something of the saddle in it: what the open reading alone says can
// be under the frets' line while there is still light under the string, so take the shallower of this plan and one by PressedNut,
// whose gap the string's path gives too: Path.Clearance(1, 2).
type OpenNut struct {
	Scale, Setback Length
	Gap            Interval // read, 0 to 15 mm
	Target, Floor  Length   // of the open gap, 0 to 15 mm
	Allow          Length   // NutFile, or another, 0 to 1 mm, at the nut
}

// PressedNut is a slot judged by the gap over fret 1 with the string pressed down between frets 2 and 3: it then lies on the top of fret 2,
// and from there to the nut it is straight. Pressed behind fret 3 so lightly that it does not touch fret 2, it would be another reading: it must
// touch. Saddle and relief have no part in this.
type PressedNut struct {
	Gap           Interval // read, 0 to 15 mm
	Target, Floor Length   // of the pressed gap; a floor under LeastPressed counts as that
	Allow         Length
}

// NutPlan is how deep a slot may go.
type NutPlan struct {
	Depth  Interval // the whole deepening for the target: (gap − max(target, floor)) × Factor, from 0 up
	Stop   Length   // no deeper than this now: for the reading's low end, less what file and polish may still take; 0 or more
	Lowest Length   // the least the gap can be after Stop and Allow, as it was read: never under target or floor, nor under what it may be already
	Factor float64  // at the nut for each millimetre at fret 1
}

// Nothing tells that there is nothing to file.
func (p NutPlan) Nothing() bool { return p.Stop <= leastCut }

// Next is how deep, in all, the slot may be before it is read again, when it is filed deep now: half of what is left to Stop, or all of it
// when that is 0.05 mm or less. The first check of a slot is Next(0).
func (p NutPlan) Next(filed Length) Length {
	left := p.Stop - filed
	if !(left > leastLeft+hair) {
		return p.Stop
	}
	return filed + left/2
}

// Shallower is the plan that stops first.
func (p NutPlan) Shallower(o NutPlan) NutPlan {
	if o.Stop < p.Stop {
		return o
	}
	return p
}

// NutRepair is what a slot that is too low needs.
type NutRepair struct {
	Raise Interval // how much higher its floor must be, from 0 up; the high end is sure to be enough
	Fill  Length   // how high to fill it: the high end and FillSpare; 0 when nothing is missing
	Back  Interval // what is then to be filed back, as the slot is read again
}

// Factor is how much deeper the slot must be for each millimetre less of the open gap: 1/(1 − d(1)/(L + c)), about 1.06. Errors: *RangeError.
func (n OpenNut) Factor() (float64, error) {
	lever, err := Leverage(n.Scale, n.Setback, 1, 0)
	if err != nil {
		return 0, err
	}
	return 1 / (1 - lever), nil
}

// Plan is how deep the slot may go. Errors: *RangeError.
func (n OpenNut) Plan() (NutPlan, error) {
	factor, err := n.Factor()
	if err != nil {
		return NutPlan{}, err
	}
	return nutPlan(factor, n.Gap, n.Target, n.Floor, n.Allow)
}

// Repair is what a slot that is too low needs. Errors: *RangeError.
func (n OpenNut) Repair() (NutRepair, error) {
	factor, err := n.Factor()
	if err != nil {
		return NutRepair{}, err
	}
	return nutRepair(factor, n.Gap, n.Target, n.Floor)
}

// Plan is how deep the slot may go. Errors: *RangeError.
func (n PressedNut) Plan() (NutPlan, error) {
	return nutPlan(PressedFactor, n.Gap, n.Target, max(n.Floor, LeastPressed), n.Allow)
}

// Repair is what a slot that is too low needs. Errors: *RangeError.
func (n PressedNut) Repair() (NutRepair, error) {
	return nutRepair(PressedFactor, n.Gap, n.Target, max(n.Floor, LeastPressed))
}

func checkNut(gap Interval, target, floor Length) error {
	err := reading(QuantityGap, gap, 0, LargestGap)
	for _, wished := range []Length{target, floor} {
		if err == nil {
			err = within(QuantityTarget, float64(wished), 0, float64(LargestGap))
		}
	}
	return err
}

func nutPlan(factor float64, gap Interval, target, floor, allow Length) (NutPlan, error) {
	err := checkNut(gap, target, floor)
	if err == nil {
		err = within(QuantityAllow, float64(allow), 0, 1)
	}
	if err != nil {
		return NutPlan{}, err
	}
	p := NutPlan{Factor: factor}
	p.Depth = gap.Shifted(-max(target, floor)).Times(factor).AtLeast(0)
	p.Stop = max(0, p.Depth.Low-allow)
	p.Lowest = gap.Low
	if p.Stop > 0 {
		p.Lowest -= (p.Stop + allow) / Length(factor)
	}
	return p, nil
}

func nutRepair(factor float64, gap Interval, target, floor Length) (NutRepair, error) {
	if err := checkNut(gap, target, floor); err != nil {
		return NutRepair{}, err
	}
	r := NutRepair{Raise: Exactly(max(target, floor)).Minus(gap).Times(factor).AtLeast(0)}
	if r.Raise.High > hair {
		r.Fill = r.Raise.High + FillSpare
		r.Back = Exactly(r.Fill).Minus(r.Raise)
	}
	return r, nil
}

// FretLine is how high the straight line over the tops of frets 1 and 2 passes over the board's surface in front of the nut, from the heights of
// both frets over the board (0.1 to 3 mm): h1·(1 + 2^(1/12)) − h2·2^(1/12), the range by interval arithmetic. A straightedge on both frets and a
// feeler under it at the nut read the same thing at once, and better. Errors: *RangeError. Source: equal temperament, a straight line.
func FretLine(first, second Interval) (Interval, error) {
	for _, h := range []Interval{first, second} {
		if err := reading(QuantityFretHeight, h, 0.1, 3); err != nil {
			return Interval{}, err
		}
	}
	return first.Times(PressedFactor).Plus(second.Times(1 - PressedFactor)), nil
}

// FileStop is a pile of feelers laid on the board against the nut, so that the file cannot go deeper than its top.
type FileStop struct {
	Need    Length   // the thickness asked for: the frets' line at its highest and the pressed gap carried to the nut
	Pile    Pile     // what is to hand for it
	Pressed Interval // the pressed gap over fret 1 when the slot is filed down to the pile
}

// StopPile is the pile that stops a file so that the pressed gap over fret 1 is not less than pressed (LeastPressed to 1 mm), where the frets' line
// passes that high over the board in front of the nut (FretLine or read there; 0.1 to 3 mm). Nothing is known of how a file wears a
// leaf: lay no good feelers. The board is taken as flat across the slot: over a string's 5 mm it is, to two hundredths on the roundest
// board. Errors: ErrNoPile, *RangeError.
func StopPile(line Interval, pressed Length, leaves []Leaf, most int) (FileStop, error) {
	err := reading(QuantityFretHeight, line, 0.1, 3)
	if err == nil {
		err = within(QuantityTarget, float64(pressed), float64(LeastPressed), 1)
	}
	if err != nil {
		return FileStop{}, err
	}
	s := FileStop{Need: line.High + pressed*Length(PressedFactor)}
	if s.Pile, err = PileFor(s.Need, leaves, most); err != nil {
		return FileStop{}, err
	}
	s.Pressed = s.Pile.Thickness.Minus(line).Times(1 / PressedFactor)
	return s, nil
}

// AfterNut is what the open gap at a fret can be once the nut slot has been made deeper by that much (below zero: filled): gap − (1 − λ)·depth, half of
// it at fret 12, never less than zero. Depth −5 to 5 mm, gap 0 to 15. Errors: *RangeError. Source: similar triangles.
func (n Neck) AfterNut(fret int, gap, depth Interval) (Interval, error) {
	lever, err := n.nutLever(fret, depth)
	if err == nil {
		err = reading(QuantityGap, gap, 0, LargestGap)
	}
	if err != nil {
		return Interval{}, err
	}
	return gap.Minus(depth.Times(lever)).AtLeast(0), nil
}

// FloorBeforeNut is the floor that a fret's open gap must keep now, so that it keeps floor once the nut slot has been made deeper by as much as
// depth allows: floor + (1 − λ)·depth at its high end. Errors: *RangeError. Source: similar triangles.
func (n Neck) FloorBeforeNut(fret int, floor Length, depth Interval) (Length, error) {
	lever, err := n.nutLever(fret, depth)
	if err == nil {
		err = within(QuantityTarget, float64(floor), 0, float64(LargestGap))
	}
	if err != nil {
		return 0, err
	}
	return floor + depth.High*Length(lever), nil
}

func (n Neck) nutLever(fret int, depth Interval) (float64, error) {
	b, err := n.board()
	if err == nil {
		err = b.fret(QuantityFret, fret, 1)
	}
	if err == nil {
		err = reading(QuantityCut, depth, -deepestNut, deepestNut)
	}
	if err != nil {
		return 0, err
	}
	return 1 - b.x[fret]/b.saddle, nil
}
