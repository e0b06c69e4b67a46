package geometry

// Limits of what should be left of a saddle (common practice, no source).
const (
	ExposureHigh    Length = 4 // 2.5 to 4 mm stands well
	ExposureGood    Length = 2.5
	ExposureCaution Length = 2.0
	ExposureStop    Length = 1.5

	BreakSteep   Angle = 35 * degree // 20 to 35 degrees is good
	BreakGood    Angle = 20 * degree
	BreakCaution Angle = 15 * degree
	BreakStop    Angle = 10 * degree
)

// Side is one end of the saddle.
type Side uint8

// The two ends.
const (
	BassSide Side = iota
	TrebleSide
)

// Severity says what a finding asks for.
type Severity uint8

// From a remark to a stop.
const (
	Note    Severity = iota // worth knowing
	Caution                 // go on with care
	Refuse                  // stop: not this way
)

// FindingKind names what was found.
type FindingKind uint8

// What can be found about the saddle that will be left standing.
const (
	ExposureTooLow  FindingKind = iota // the saddle would stand too low over the top
	BreakTooShallow                    // the string would bend too little over it
	LeanRisk                           // more stands above the slot than sits in it
)

// FindingKinds lists every kind, so that tests can ask for a sentence for each.
func FindingKinds() []FindingKind { return []FindingKind{ExposureTooLow, BreakTooShallow, LeanRisk} }

// Finding is one thing found at one end. Length is the exposure that decided it; Angle the break angle, for BreakTooShallow.
type Finding struct {
	Kind     FindingKind
	Severity Severity
	Side     Side
	Length   Length
	Angle    Angle
}

// SaddleEnd is what is known of one end of the saddle before the round. Zero means not measured for Behind and Depth.
type SaddleEnd struct {
	Exposure Interval // how far it stands over the top in front of it, 0 to 20 mm; must be measured
	Behind   Length   // from the saddle to where the string leaves, 1 to 60 mm
	Depth    Length   // how deep the saddle sits in its slot, up to 40 mm
}

// LeftStanding is the exposure left at one end.
type LeftStanding struct {
	AfterRound Interval // after the stop line and the smoothing
	AfterWhole Interval // after the whole cut
}

// WhatIsLeft tells what this end will be after a round that takes stop and then smoothing, and after the whole cut, and what to say of it. The
// low end of what is left after the round decides a stop, the low end after the whole cut a caution; a note is what lies between that and good.
// The cuts are those at this end, zero or more. Errors: *RangeError.
func WhatIsLeft(side Side, end SaddleEnd, stop, smoothing Length, whole Interval) (LeftStanding, []Finding, error) {
	err := reading(QuantityExposure, end.Exposure, 0, 20)
	if err == nil && end.Behind != 0 {
		err = within(QuantityDistance, float64(end.Behind), 1, 60)
	}
	if err == nil {
		err = within(QuantityDepth, float64(end.Depth), 0, 40)
	}
	for _, cut := range []Interval{Exactly(stop), Exactly(smoothing), whole} {
		if err == nil {
			err = reading(QuantityCut, cut, 0, 1000)
		}
	}
	if err != nil {
		return LeftStanding{}, nil, err
	}
	left := LeftStanding{
		AfterRound: end.Exposure.Shifted(-stop - smoothing).AtLeast(0),
		AfterWhole: end.Exposure.Minus(whole).AtLeast(0),
	}
	var found []Finding
	round, wholly := left.AfterRound.Low, left.AfterWhole.Low
	switch f := (Finding{Kind: ExposureTooLow, Side: side, Length: wholly}); {
	case round < ExposureStop-hair:
		f.Severity, f.Length = Refuse, round
		found = append(found, f)
	case wholly < ExposureCaution-hair:
		f.Severity = Caution
		found = append(found, f)
	case wholly < ExposureGood-hair:
		found = append(found, f)
	}
	if end.Behind != 0 {
		angleRound, angleWhole := breakAngle(round, end.Behind), breakAngle(wholly, end.Behind)
		switch f := (Finding{Kind: BreakTooShallow, Side: side, Length: wholly, Angle: angleWhole}); {
		case angleRound < BreakStop-angleHair:
			f.Severity, f.Length, f.Angle = Refuse, round, angleRound
			found = append(found, f)
		case angleWhole < BreakCaution-angleHair:
			f.Severity = Caution
			found = append(found, f)
		case angleWhole < BreakGood-angleHair:
			found = append(found, f)
		}
	}
	if stands := left.AfterRound.High; end.Depth > 0 && stands > end.Depth+hair {
		found = append(found, Finding{Kind: LeanRisk, Severity: Note, Side: side, Length: stands})
	}
	return left, found, nil
}

// LowestGap is the lowest string that this saddle is sure to allow at a fret, wherever the truth lies in the two readings: the gap's high end
// less what can come off before the exposure's low end reaches ExposureStop. With nothing to spare it is the gap's high end itself.
func LowestGap(gap, exposure Interval, leverage float64) Length {
	spare := max(0, exposure.Low-ExposureStop)
	return max(0, gap.High-Length(leverage)*spare)
}
