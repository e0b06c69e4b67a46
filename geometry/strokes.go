package geometry

import "math"

// StrokeGuess is what one stroke of about 10 cm takes off a saddle before the person's own checks say better. From memory, for bone and hard
// plastics; the high end is what keeps the first strokes safe. Grit 0 is not known.
func StrokeGuess(grit int) Interval {
	switch {
	case grit <= 0, grit >= 120 && grit < 220:
		return Interval{0.005, 0.03}
	case grit < 120:
		return Interval{0.01, 0.06}
	case grit < 400:
		return Interval{0.002, 0.015}
	}
	return Interval{0.0005, 0.006}
}

const (
	guessFactor        = 3    // how far a guess's high end may be out, until a check says better (common practice, no source)
	leastLeft   Length = 0.05 // less than this is not worth a stroke (common practice, no source)
	mostStrokes        = 30   // between two checks, however slow the paper (common practice, no source)
)

// strokesWithin is how many strokes take off no more than left at perStroke each: one at least, since a stop is said before one could go too
// far, and no more than mostStrokes.
func strokesWithin(left, perStroke Length) int {
	n := math.Floor(float64(left/perStroke) + roundingHair)
	if !(n > 1) {
		return 1
	}
	return int(min(mostStrokes, n))
}
