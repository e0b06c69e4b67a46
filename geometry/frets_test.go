package geometry_test

import (
	"errors"
	"math"
	"testing"

	. "gapwright/geometry"
)

func TestOctavesHalveTheString(t *testing.T) {
	for _, scale := range []Length{200, 346, 650, 863.6, 1200} {
		near(t, "fret 12", must(FretDistance(scale, 12)), scale/2, scale*1e-12)
		near(t, "fret 24", must(FretDistance(scale, 24)), scale*3/4, scale*1e-12)
		last, gap := Length(0), scale
		for n := 1; n <= LargestFret; n++ {
			d := must(FretDistance(scale, n))
			if d-last >= gap || d <= last {
				t.Fatalf("scale %v fret %d: spaces must shrink", scale, n)
			}
			if n > 1 { // each space is 2^(−1/12) = 0.943874313 of the one before
				near(t, "ratio of spaces", (d-last)/gap, 0.943874313, 1e-9)
			}
			last, gap = d, d-last
		}
	}
	// Anderson and Beausoleil 2024: fret 1 of a 650 mm scale is 614 mm from the saddle (their rounding: 0.5 mm)
	near(t, "from the saddle", 650-must(FretDistance(650, 1)), 614, 0.5)
	near(t, "from the saddle", 650-must(FretDistance(650, 1)), 613.518303, 5e-7)
	near(t, "first space", must(FretDistance(650, 1)), 650/17.817153745, 1e-8)
	// the customary rounded 17.817 lands 0.002001 mm long at fret 12; the exact rule must not
	rounded := Length(650 - 650*math.Pow(1-1/17.817, 12))
	near(t, "17.817", rounded-must(FretDistance(650, 12)), 0.002001, 1e-6)
}

func TestWorkedHeightsOfAStraightString(t *testing.T) {
	// nut 0.5, saddle 4.0 over the fret tops, 650 mm: published heights at frets 1, 12, 14, 19
	for fret, want := range map[int]float64{1: 0.69644, 12: 2.25, 14: 2.44093, 19: 2.83202} {
		lever := must(Leverage(650, 0, fret, 0))
		near(t, "height", 0.5*(1-lever)+4.0*lever, want, 5.1e-6)
	}
	// Anderson and Beausoleil's model guitar: nut 1 mm, saddle 1 + 4 mm, so 3.0 mm at fret 12
	lever := must(Leverage(650, 0, 12, 0))
	near(t, "height", 1*(1-lever)+5*lever, 3.0, 1e-12)
	// 0.3 mm lower at fret 12: 0.6 off with no setback; with 1.8 mm, 0.3 × 651.8 / 325 = 0.601662
	near(t, "no setback", 0.3/must(Leverage(650, 0, 12, 0)), 0.6, 1e-12)
	near(t, "1.8 setback", 0.3/must(Leverage(650, 1.8, 12, 0)), 0.601662, 5e-7)
}

func TestLeverageOfAHeldString(t *testing.T) {
	// 650 mm held at fret 1, read at 12: (325 − 36.4817) / (650 − 36.4817) = 288.5183 / 613.5183 = 0.470268
	near(t, "held at 1", must(Leverage(650, 0, 12, 1)), 0.470268, 1e-6)
	// held at 12 and read at 24: the half string's octave, (487.5 − 325) / 325 = 1/2
	near(t, "held at 12", must(Leverage(650, 0, 24, 12)), 0.5, 1e-12)
	// fret 14: 360.4579 / 650 = 0.554551; fret 17: 406.5251 / 650 = 0.625423
	near(t, "fret 14", must(Leverage(650, 0, 14, 0)), 0.554551, 1e-6)
	near(t, "fret 17", must(Leverage(650, 0, 17, 0)), 0.625423, 1e-6)
}

func TestFretsRefuse(t *testing.T) {
	for _, c := range []struct {
		scale, setback Length
		fret, held     int
		want           Quantity
	}{
		{199, 0, 12, 0, QuantityScale}, {1201, 0, 12, 0, QuantityScale}, {Length(math.NaN()), 0, 12, 0, QuantityScale},
		{Length(math.Inf(1)), 0, 12, 0, QuantityScale}, {650, 0, -1, 0, QuantityFret}, {650, 0, 0, 0, QuantityFret}, {650, 0, 37, 0, QuantityFret},
		{650, -10.1, 12, 0, QuantitySetback}, {650, 20.1, 12, 0, QuantitySetback}, {650, Length(math.NaN()), 12, 0, QuantitySetback},
		{650, 0, 12, 12, QuantityHeld}, {650, 0, 12, 13, QuantityHeld}, {650, 0, 12, -1, QuantityHeld},
	} {
		_, err := Leverage(c.scale, c.setback, c.fret, c.held)
		var r *RangeError
		if !errors.As(err, &r) || r.Quantity != c.want {
			t.Errorf("Leverage(%v, %v, %d, %d): %v, want a refusal of the %s", c.scale, c.setback, c.fret, c.held, err, c.want)
		}
	}
}

func TestLeverageLiesBetweenNothingAndOne(t *testing.T) {
	for _, scale := range []Length{200, 650, 1200} {
		for _, setback := range []Length{-10, 0, 20} {
			for fret := 1; fret <= LargestFret; fret++ {
				for held := range fret {
					l := must(Leverage(scale, setback, fret, held))
					if !(l >= 0.01 && l < 1) {
						t.Fatalf("Leverage(%v, %v, %d, %d) = %v", scale, setback, fret, held, l)
					}
				}
			}
		}
	}
}
