package geometry

import "math"

// Length is a distance in millimetres.
type Length float64

// One inch is 25.4 mm exactly (yard and pound agreement of 1 July 1959, addendum to NBS Circular 572).
const (
	Millimetre  Length = 1
	Inch        Length = 25.4
	Thousandth  Length = Inch / 1000
	SixtyFourth Length = Inch / 64
)

// Unit is what a person measures in.
type Unit uint8

// The two units. A bare number takes the person's unit.
const (
	UnitMillimetre Unit = iota
	UnitInch
)

// roundingHair is in steps: it keeps 0.1 + 0.2, a hair over three tenths, from becoming one step more.
const roundingHair = 1e-9

// RoundTo returns l rounded to the nearest whole number of steps, halves up. A step that is not a length above zero leaves l as it is.
func (l Length) RoundTo(step Length) Length {
	return l.round(step, func(steps float64) float64 { return math.Floor(steps + 0.5 + roundingHair) })
}

// RoundDown returns the largest whole number of steps that is not more than l: for what must not be exceeded.
func (l Length) RoundDown(step Length) Length {
	return l.round(step, func(steps float64) float64 { return math.Floor(steps + roundingHair) })
}

// RoundUp returns the smallest whole number of steps that is not less than l.
func (l Length) RoundUp(step Length) Length {
	return l.round(step, func(steps float64) float64 { return math.Ceil(steps - roundingHair) })
}

func (l Length) round(step Length, whole func(steps float64) float64) Length {
	if !(step > 0) || !step.Finite() || !l.Finite() {
		return l
	}
	return Length(whole(float64(l/step))) * step
}

// Finite tells whether l is a number at all.
func (l Length) Finite() bool { return !math.IsNaN(float64(l)) && !math.IsInf(float64(l), 0) }
