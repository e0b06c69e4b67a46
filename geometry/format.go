package geometry

import (
	"math"
	"strconv"
	"strings"
)

// Millimetres writes l in millimetres, rounded to step, with just the decimals that the step has: 2.25 for steps of 0.05, 2 for steps
// of 1. The decimal mark is a point; the unit is left to the words around it.
func (l Length) Millimetres(step Length) string {
	return fixed(float64(l.RoundTo(step)), decimals(float64(step)))
}

// Inches writes l in decimal inches, rounded to step (a Length: 0.001 in is Thousandth), with just the decimals that the step has.
func (l Length) Inches(step Length) string {
	return fixed(float64(l.RoundTo(step)/Inch), decimals(float64(step/Inch)))
}

// Thousandths writes l as a whole number of thousandths of an inch.
func (l Length) Thousandths() string {
	return fixed(float64(l.RoundTo(Thousandth)/Thousandth), 0)
}

// NearestSixtyFourth gives the nearest 64th of an inch as a whole number of inches and a fraction in lowest terms (numerator 0 when
// there is none), with the remainder l minus that, which may be negative and must be said with it. For lengths from 0 to 10 000 inches; any
// other comes back whole as the remainder.
func (l Length) NearestSixtyFourth() (inches, numerator, denominator int, remainder Length) {
	if !l.Finite() || l < 0 || l > 10000*Inch {
		return 0, 0, 1, l
	}
	n := int(math.Floor(float64(l/SixtyFourth) + 0.5 + roundingHair))
	remainder = l - Length(n)*SixtyFourth
	inches, numerator, denominator = n/64, n%64, 64
	for numerator != 0 && numerator%2 == 0 {
		numerator, denominator = numerator/2, denominator/2
	}
	if numerator == 0 {
		denominator = 1
	}
	return inches, numerator, denominator, remainder
}

// decimals is how many digits after the point a step needs: 1 → 0, 0.5 → 1, 0.05 → 2, 0.025 → 3, and 1/64 → 6 (0.015625), so that a rule's mark written in
// inches is that mark and not one beside it; never more than 6.
func decimals(step float64) int {
	for d, scaled := 0, step; d < mostDecimals; d, scaled = d+1, scaled*10 {
		if math.Abs(scaled-math.Round(scaled)) < 1e-6 && scaled > 0.5 {
			return d
		}
	}
	return mostDecimals
}

const mostDecimals = 6

func fixed(x float64, decimals int) string {
	s := strconv.FormatFloat(x, 'f', decimals, 64)
	if x < 0 && strings.Trim(s, "-0.") == "" { // "-0.00" is 0.00
		return s[1:]
	}
	return s
}
