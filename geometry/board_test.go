package geometry_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	. "gapwright/geometry"
)

// guitar is a 650 mm neck that meets the body at fret 14.
var guitar = Neck{Scale: 650, Body: 14, Frets: 20}

// printed holds got against a number as a table prints it: half of its last digit, and a hair for the computing.
func printed[T ~float64](t *testing.T, what string, got T, text string) {
	t.Helper()
	want := number(t, text)
	mantissa, exponent, _ := strings.Cut(strings.ToLower(strings.TrimSpace(text)), "e")
	_, after, _ := strings.Cut(mantissa, ".")
	half := 0.5 * math.Pow(10, -float64(len(after)))
	if exponent != "" {
		half *= math.Pow(10, number(t, exponent))
	}
	near(t, what, float64(got), want, half*(1+1e-6))
}

func TestReliefReadsDifferentlyWhereverItIsHeld(t *testing.T) {
	for _, c := range []struct {
		from, at, to int
		want         float64
	}{
		// x1 36.4817, x6 190.3806, x12 325, x14 360.4579: 4 · 153.8989 · 134.6194 / 323.9762² = 0.78955
		{1, 6, 12, 0.78955},
		// half-way between frets 1 and 14 lies 198.47, fret 6 8.09 before it: 1 − (8.0892 · 2/323.9762)² = 0.9975
		{1, 6, 14, 0.9975},
		// the tangent at fret 20 is 4 · 84.8049/323.9762 = 1.0470; at fret 8 the chord is at 204.0440/408.7811 of it, 0.5226, and the
		// curve at −4 · 204.0440 · 119.9322/323.9762² = −0.9326; together 1.4552
		{1, 8, 20, 1.4552},
	} {
		near(t, "ReliefFactor", must(guitar.ReliefFactor(c.from, c.at, c.to)), c.want, 5e-5)
	}
	// as rounded: 0.79 held at 1 and 12, 1.46 at 1 and 20, read where the gap is widest
	for to, want := range map[int]float64{12: 0.79, 14: 1.00, 20: 1.46} {
		near(t, "ReliefFactor", must(guitar.ReliefFactor(1, MidFret(1, to), to)), want, 0.005)
	}
	got := must(guitar.Relief(ReliefReading{From: 1, At: 8, To: 20, Depth: Interval{0.25, 0.30}}))
	nearInterval(t, "relief", got, Interval{0.25 / 1.4552, 0.30 / 1.4552}, 1e-4)
	// A fall-away of 0.2 mm lowers the far support: the reading loses 0.2 · 204.0440/408.7811 = 0.0998 mm, which is not relief.
	falls := guitar
	falls.FallAway = 0.2
	got = must(falls.Relief(ReliefReading{From: 1, At: 8, To: 20, Depth: Exactly(0.25)}))
	nearInterval(t, "relief", got, Exactly((0.25+0.0998)/1.4552), 1e-4)
	for _, c := range [][3]int{{14, 16, 20}, {15, 17, 20}, {12, 13, 14}} {
		if _, err := guitar.ReliefFactor(c[0], c[1], c[2]); !errors.Is(err, ErrNoRelief) {
			t.Errorf("ReliefFactor%v: %v, want ErrNoRelief", c, err)
		}
	}
}

func TestTheCurveIsDeepestMidWayAndRunsOnStraight(t *testing.T) {
	// With relief 0.2 mm: z6 = −0.2 · 0.9975, z14 = 0, z20 = 0.2 · 1.0470, z1 = 0
	for fret, want := range map[int]Length{1: 0, 6: -0.19950, 14: 0, 20: 0.20941} {
		near(t, "Top", must(guitar.Top(fret, 0.2)), want, 5e-6)
	}
	// slopes on both sides of the joint meet: 4r/(xj − x1) = 4 · 0.2/323.9762 = 0.0024693 per mm; from fret 14 to 15 it is exactly that
	rise := must(guitar.Top(15, 0.2)) - must(guitar.Top(14, 0.2))
	near(t, "slope beyond", float64(rise/(must(FretDistance(650, 15))-must(FretDistance(650, 14)))), 0.0024693, 1e-7)
	falls := guitar
	falls.FallAway = 0.3
	near(t, "last fret falls away", must(falls.Top(20, 0.2)), 0.20941-0.3, 5e-6)
	near(t, "the joint does not", must(falls.Top(14, 0.2)), 0, 1e-12)
}

// A beam under the same moment everywhere: 14 N m on 11 GPa and 50 × 20 mm, I = 3.33333e-8 m⁴, over 0.4 m: mid = M·L²/(8EI) = 14 ·
// 0.16/(8 · 11e9 · 3.33333e-8) = 0.763636 mm, R = EI/M = 26.190476 m. Euler and Bernoulli; Timoshenko, Roark (from memory).
func TestTheCurveOfABentBeamIsThisParabola(t *testing.T) {
	r := 11e9 * 3.333333333e-8 / 14 * 1000
	near(t, "R", r, 26190.476, 0.001)
	near(t, "mid", 400.0*400/(8*r), 0.763636, 5e-7)
	near(t, "sagitta of the arc", must(Camber{Nut: Length(r)}.Drop(0, 45)), 45*45/(2*Length(r)), 1e-6)
	// A neck of the same chord with that relief is the beam, at every fret.
	n := Neck{Scale: 800, Body: 14, Frets: 14}
	x1, xj := must(FretDistance(800, 1)), must(FretDistance(800, 14))
	for fret := 1; fret <= 14; fret++ {
		x := must(FretDistance(800, fret))
		want := -(x - x1) * (xj - x) / (2 * Length(r)) // M·x(L − x)/2EI
		near(t, "Top", must(n.Top(fret, (xj-x1)*(xj-x1)/(8*Length(r)))), want, 1e-9)
	}
	// arc against parabola, chord 500, depth 0.25, at a quarter: 0.187500047 against 0.1875 (computed in double precision)
	R := 500.0*500/(8*0.25) + 0.25/2
	near(t, "radius of a relief of 0.25 over 500", R, 125000, 0.5)
	near(t, "of 0.20 over 450", 450.0*450/(8*0.2)+0.2/2, 126563, 0.5)
	near(t, "its sagitta", must(Camber{Nut: Length(R)}.Drop(0, 45)), 45*45/(2*Length(R)), 1e-6)
	arc := math.Sqrt(R*R-125*125) - (R - 0.25)
	near(t, "arc", arc, 0.187500047, 5e-9)
	near(t, "parabola", 4*0.25*125*375/(500.0*500), arc, 1e-6)
}

func TestRadiusAcross(t *testing.T) {
	for _, row := range table(t, "radius", 5) {
		inches, r, half := number(t, row[0]), Length(number(t, row[1])), Length(number(t, row[2])/2)
		near(t, "inches", Length(inches)*Inch, r, 1e-9)
		printed(t, "drop "+row[0], must(Camber{Nut: r}.Drop(0, half)), row[3])
		printed(t, "approximation "+row[0], must(FanRelief(r, 2*half/2))*4, row[4]) // c²/8R is four times (c/2)²/8R
	}
	// 16 in, six strings over 52 mm: 0.033269, 0.299520, 0.832546 (computed in double precision)
	for u, want := range map[Length]Length{5.2: 0.033269, 15.6: 0.299520, 26: 0.832546} {
		near(t, "drop", must(Camber{Nut: 16 * Inch}.Drop(300, u)), want, 5e-7)
		near(t, "drop", must(Camber{Nut: 16 * Inch}.Drop(300, -u)), want, 5e-7)
	}
	cone := Camber{Nut: 10 * Inch, End: 16 * Inch, EndAt: 480}
	near(t, "cone", must(cone.RadiusAt(325)), 357.1875, 1e-9)               // 254 + 152.4 · 325/480
	near(t, "cone beyond its end", must(cone.RadiusAt(650)), 460.375, 1e-9) // 254 + 152.4 · 650/480
	if d := must(Camber{}.Drop(325, 26)); d != 0 {
		t.Errorf("a flat board drops by %v", d)
	}
	near(t, "a kilometre", must(Camber{Nut: 1e6}.Drop(0, 26)), 0.000338, 5e-10) // 26²/2e6
	// relief: chord 500, depth 0.25 → 125 000 mm; 450, 0.20 → 126 563 mm
	near(t, "chord 500", 500.0*500/(8*0.25)+0.125, 125000, 0.5)
	near(t, "chord 450", must(FanRelief(126563, 30))*225, 0.2, 1e-5) // 30²/8R · (450/30)²
}

// Strings that fan out lie on the straight lines of a cone only when its radii are as the spreads: 250 · 54/43.
func TestStringsOnTheGeneratorsOfAConeSeeAStraightBoard(t *testing.T) {
	cone := Camber{Nut: 250, End: 250 * 54.0 / 43, EndAt: 650}
	drop := func(x Length) Length { u := 21.5 + (27-21.5)*x/650; return must(cone.Drop(x, u)) }
	near(t, "mid-way", drop(325), (drop(0)+drop(650))/2, 1e-9)
	cylinder := Camber{Nut: 250}
	hump := func(x Length) Length { u := 21.5 + (27-21.5)*x/650; return must(cylinder.Drop(x, u)) }
	near(t, "the cylinder's hump", (hump(0)+hump(650))/2-hump(325), must(FanRelief(250, 5.5)), 3e-4) // to second order in u/R
}

func TestBoardRefuses(t *testing.T) {
	for _, c := range []struct {
		neck Neck
		want Quantity
	}{
		{Neck{Scale: 199, Body: 14, Frets: 20}, QuantityScale}, {Neck{Scale: nan, Body: 14, Frets: 20}, QuantityScale},
		{Neck{Scale: 650, Body: 4, Frets: 20}, QuantityBody}, {Neck{Scale: 650, Body: 37, Frets: 37}, QuantityBody},
		{Neck{Scale: 650, Body: 14, Frets: 13}, QuantityLastFret}, {Neck{Scale: 650, Body: 14, Frets: 37}, QuantityLastFret},
		{Neck{Scale: 650, Setback: 21, Body: 14, Frets: 20}, QuantitySetback}, {Neck{Scale: 650, Body: 14, Frets: 20, FallAway: nan}, QuantityFallAway},
	} {
		_, err := c.neck.Top(1, 0)
		refused(t, "Top", err, c.want)
		_, err = NewPath(c.neck, Interval{}, GapReading{Fret: 1}, GapReading{Fret: 12})
		refused(t, "NewPath", err, c.want)
		_, err = Diagnose(c.neck, nil)
		refused(t, "Diagnose", err, c.want)
	}
	_, err := guitar.Top(0, 0)
	refused(t, "Top", err, QuantityFret)
	_, err = guitar.Top(21, 0)
	refused(t, "Top", err, QuantityFret)
	_, err = guitar.Top(12, 3.1)
	refused(t, "Top", err, QuantityRelief)
	for _, r := range []ReliefReading{{From: 0, At: 6, To: 12}, {From: 1, At: 6, To: 21}, {From: 1, At: 6, To: 2}, {From: 30, At: 31, To: 32}} {
		_, err := guitar.Relief(r)
		refused(t, "Relief", err, QuantityHeld)
	}
	_, err = guitar.Relief(ReliefReading{From: 1, At: 12, To: 12})
	refused(t, "Relief", err, QuantityFret)
	_, err = guitar.Relief(ReliefReading{From: 1, At: 6, To: 12, Depth: Interval{0.2, 0.1}})
	refused(t, "Relief", err, QuantityRelief)
	_, err = guitar.Relief(ReliefReading{From: 1, At: 6, To: 12, Depth: Interval{0.2, 2.9}}) // 2.9/0.79 is over 3
	refused(t, "Relief", err, QuantityRelief)
	for _, c := range []Camber{{Nut: 49}, {Nut: 2e6}, {Nut: nan}, {End: 300, EndAt: 480}, {Nut: 250, End: nan, EndAt: 480}, {Nut: 1000, End: 100, EndAt: 480}} {
		_, err := c.Drop(650, 20) // the last one narrows to −219 mm at the saddle
		refused(t, "Drop", err, QuantityRadius)
	}
	_, err = Camber{Nut: 250, End: 300, EndAt: 20}.Drop(0, 20)
	refused(t, "Drop", err, QuantityRadiusAt)
	_, err = Camber{Nut: 250}.Drop(-1, 20)
	refused(t, "Drop", err, QuantityDistanceAlong)
	_, err = Camber{Nut: 250}.Drop(0, 45.1)
	refused(t, "Drop", err, QuantityOffset)
	_, err = FanRelief(40, 5)
	refused(t, "FanRelief", err, QuantityRadius)
	_, err = FanRelief(0, 31)
	refused(t, "FanRelief", err, QuantityOffset)
}
