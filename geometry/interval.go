package geometry

import "math"

// Interval is every height that a reading allows: from Low to High, both included. A reading is never a single number.
type Interval struct{ Low, High Length }

// Exactly is an interval of no width, for numbers that are wished rather than read.
func Exactly(l Length) Interval { return Interval{l, l} }

// Width is how much the reading leaves open.
func (i Interval) Width() Length { return i.High - i.Low }

// StandardUncertainty is the standard deviation of a value that is equally likely anywhere in the interval: width/√12, the half-width
// over √3. For comparing with published uncertainties only; a plan always uses the ends. Source: JCGM 100:2008, 4.3.7.
func (i Interval) StandardUncertainty() Length { return i.Width() / Length(math.Sqrt(12)) }

// Middle is the value half-way.
func (i Interval) Middle() Length { return (i.Low + i.High) / 2 }

// Contains tells whether l is one of the heights the reading allows.
func (i Interval) Contains(l Length) bool { return l >= i.Low-hair && l <= i.High+hair }

// Valid tells whether the interval is finite and the right way round.
func (i Interval) Valid() bool { return i.Low.Finite() && i.High.Finite() && i.Low <= i.High }

// Plus returns every sum of a height from i and one from o.
func (i Interval) Plus(o Interval) Interval { return Interval{i.Low + o.Low, i.High + o.High} }

// Minus returns every difference of a height from i and one from o.
func (i Interval) Minus(o Interval) Interval { return Interval{i.Low - o.High, i.High - o.Low} }

// Shifted returns the interval moved by d.
func (i Interval) Shifted(d Length) Interval { return Interval{i.Low + d, i.High + d} }

// Times returns the interval multiplied by k; a negative k turns it round.
func (i Interval) Times(k float64) Interval {
	a, b := i.Low*Length(k), i.High*Length(k)
	return Interval{min(a, b), max(a, b)}
}

// AtLeast returns the interval with everything under floor lifted to it.
func (i Interval) AtLeast(floor Length) Interval {
	return Interval{max(i.Low, floor), max(i.High, floor)}
}

// Hull returns the smallest interval that holds both.
func (i Interval) Hull(o Interval) Interval { return Interval{min(i.Low, o.Low), max(i.High, o.High)} }

// Meet returns the heights that both allow, and whether there are any.
func (i Interval) Meet(o Interval) (Interval, bool) {
	m := Interval{max(i.Low, o.Low), min(i.High, o.High)}
	if m.Low > m.High+hair {
		return Interval{}, false
	}
	if m.Low > m.High { // they touch, but for rounding
		m.Low = m.High
	}
	return m, true
}

// Outward returns the interval rounded to whole steps so that nothing it allows is lost.
func (i Interval) Outward(step Length) Interval {
	return Interval{i.Low.RoundDown(step), i.High.RoundUp(step)}
}

// hair is the length below which two heights are the same: a thousandth of a micrometre, far below any reading.
const hair Length = 1e-6

func isFinite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
