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

// steps of rounding are counted in whole steps; a hair of tolerance keeps 0.30000000000000004 from becoming one step more.
const roundingHair = 1e-9

// RoundTo returns l rounded to the nearest whole number of steps, halves up. A step of zero or less leaves l as it is.
func (l Length) RoundTo(step Length) Length {
	if step <= 0 {
		return l
	}
	return Length(math.Floor(float64(l/step)+0.5+roundingHair)) * step
}

// RoundDown returns the largest whole number of steps that is not more than l: for what must not be exceeded.
func (l Length) RoundDown(step Length) Length {
	if step <= 0 {
		return l
	}
	return Length(math.Floor(float64(l/step)+roundingHair)) * step
}

// RoundUp returns the smallest whole number of steps that is not less than l.
func (l Length) RoundUp(step Length) Length {
	if step <= 0 {
		return l
	}
	return Length(math.Ceil(float64(l/step)-roundingHair)) * step
}

// Finite tells whether l is a number at all.
func (l Length) Finite() bool { return !math.IsNaN(float64(l)) && !math.IsInf(float64(l), 0) }
