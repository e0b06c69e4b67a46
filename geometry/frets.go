package geometry

import "math"

// Bounds of what this package calls a fretted instrument: from the smallest ukuleles to the longest basses (common practice, no source).
const (
	ShortestScale Length = 200
	LongestScale  Length = 1200
	LargestFret          = 36
)

// FretDistance is how far fret n lies from the nut: L(1 − 2^(−n/12)), for a scale length before any compensation of 200 to 1200 mm and
// frets 0 (the nut) to 36. Source: equal temperament; Anderson and Beausoleil, J. Acoust. Soc. Am. 156 (2024) 683, section on the model.
func FretDistance(scale Length, fret int) (Length, error) {
	if err := within(QuantityScale, float64(scale), float64(ShortestScale), float64(LongestScale)); err != nil {
		return 0, err
	}
	if err := within(QuantityFret, float64(fret), 0, LargestFret); err != nil {
		return 0, err
	}
	return scale * Length(1-math.Exp2(-float64(fret)/12)), nil
}

// Leverage is how far the string moves at a fret when the saddle moves by one: λ = d(n)/(L + c) for an open string, and
// (d(n) − d(k))/(L + c − d(k)) for a string held down at fret k; 1/2 at fret 12 with no setback. The setback c (positive: the saddle stands
// further from the nut than the scale length) lies between −10 and 20 mm. The string is taken as straight from nut (or held fret) to
// saddle. The nut's own leverage is 1 − λ for an open string, 0 for a held one. Source: similar triangles.
func Leverage(scale, setback Length, fret, held int) (float64, error) {
	d, err := FretDistance(scale, fret)
	if err != nil {
		return 0, err
	}
	if err := within(QuantityFret, float64(fret), 1, LargestFret); err != nil {
		return 0, err
	}
	if err := within(QuantitySetback, float64(setback), -10, 20); err != nil {
		return 0, err
	}
	if err := within(QuantityHeld, float64(held), 0, float64(fret-1)); err != nil {
		return 0, err
	}
	k, err := FretDistance(scale, held)
	if err != nil {
		return 0, err
	}
	return float64((d - k) / (scale + setback - k)), nil
}
