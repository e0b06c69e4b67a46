package geometry

import "math"

// Limits of what should be left of a saddle (common practice, no source).
const (
	ExposureGood    Length = 2.5 // 2.5 to 4 mm stands well
	ExposureHigh    Length = 4
	ExposureCaution Length = 2.0
	ExposureStop    Length = 1.5

	breakCaution = 15 * math.Pi / 180 // 20 to 35 degrees is good
	breakStop    = 10 * math.Pi / 180
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
	Exposure Interval // how far it stands over the top in front of it
	Behind   Length   // from the saddle to where the string leaves
	Depth    Length   // how deep the saddle sits in its slot
}

// LeftStanding is the exposure left at one end.
type LeftStanding struct {
	AfterRound Interval // after the stop line and the smoothing
	AfterWhole Interval // after the whole cut
}

// WhatIsLeft tells what this end will be after a round that takes stop and then smoothing, and after the whole cut, and what to say of it. The
// round with the exposure at its low end decides a stop; the whole cut at its high end decides a caution. Cuts are zero or more.
func WhatIsLeft(side Side, end SaddleEnd, stop, smoothing Length, whole Interval) (LeftStanding, []Finding, error) {
	for _, e := range []Length{end.Exposure.Low, end.Exposure.High} {
		if err := within(QuantityExposure, float64(e), 0, 20); err != nil {
			return LeftStanding{}, nil, err
		}
	}
	if end.Behind != 0 {
		if err := within(QuantityDistance, float64(end.Behind), 1, 60); err != nil {
			return LeftStanding{}, nil, err
		}
	}
	left := LeftStanding{
		AfterRound: Interval{end.Exposure.Low - stop - smoothing, end.Exposure.High - stop - smoothing}.AtLeast(0),
		AfterWhole: end.Exposure.Minus(whole).AtLeast(0),
	}
	var found []Finding
	worst := func(kind FindingKind, f Finding, stop, caution bool) {
		f.Kind, f.Side = kind, side
		switch {
		case stop:
			f.Severity = Refuse
		case caution:
			f.Severity = Caution
		default:
			return
		}
		found = append(found, f)
	}
	round, wholly := left.AfterRound.Low, left.AfterWhole.Low
	stopNow := round < ExposureStop-hair
	f := Finding{Length: wholly}
	if stopNow {
		f.Length = round
	}
	worst(ExposureTooLow, f, stopNow, wholly < ExposureCaution-hair)
	if end.Behind != 0 {
		angleRound, err := BreakAngle(round, end.Behind)
		if err != nil {
			return left, found, err
		}
		angleWhole, err := BreakAngle(wholly, end.Behind)
		if err != nil {
			return left, found, err
		}
		stopNow := angleRound < breakStop
		f := Finding{Length: wholly, Angle: angleWhole}
		if stopNow {
			f.Length, f.Angle = round, angleRound
		}
		worst(BreakTooShallow, f, stopNow, angleWhole < breakCaution)
	}
	if end.Depth > 0 && end.Exposure.High > end.Depth {
		found = append(found, Finding{Kind: LeanRisk, Severity: Note, Side: side, Length: end.Depth})
	}
	return left, found, nil
}

// LowestGap is the lowest string that this saddle allows at a fret: the gap's low end less what can come off before the exposure's low end
// reaches ExposureStop. It is never above the gap itself.
func LowestGap(gap, exposure Interval, leverage float64) Length {
	spare := max(0, exposure.Low-ExposureStop)
	return max(0, gap.Low-Length(leverage)*spare)
}
