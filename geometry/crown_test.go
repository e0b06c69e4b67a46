package geometry_test

import (
	"errors"
	"math/rand/v2"
	"testing"

	. "gapwright/geometry"
)

// seats puts six strings 10 mm apart, wanted 2.0 to 1.5, each asking for 0.8 at the saddle plus its own error there, read to the given
// width.
func seats(width Length, errs ...Length) []MeasuredString {
	strings := make([]MeasuredString, len(errs))
	for i, e := range errs {
		target := 2 - 0.1*Length(i)
		low := target + (0.8+e)/2 - width/2
		strings[i] = MeasuredString{Offset: -25 + 10*Length(i), Gap: Interval{low, low + width}, Target: target, Leverage: 0.5}
	}
	return strings
}

func TestOneSeatThatIsOutIsNamedByItself(t *testing.T) {
	c := must(CrownOf(seats(0, 0, 0, 0, 0.2, 0, 0)))
	for i, want := range []Length{0, 0, 0, 0.2, 0, 0} {
		nearInterval(t, "seat", c.High[i], Exactly(want), 1e-9)
	}
	// half of what the middle one has over its neighbours' line: 0.1
	near(t, "least miss", c.Out, 0.1, 1e-9)
	if c.Follows || c.Bass != 0 || c.Treble != 5 {
		t.Errorf("%+v", c)
	}
	c = must(CrownOf(seats(0, -0.2, 0, 0, 0, 0, 0))) // the bass seat is cut too deep: the line goes through others
	nearInterval(t, "bass seat", c.High[0], Exactly(-0.2), 1e-9)
	near(t, "least miss", c.Out, 0.1*4/5, 1e-9) // of 1, 2 and 6 the middle one lies four fifths of 0.2 over the chord
	// a cut that is a straight line by itself is no crown error
	tilted := must(CrownOf(seats(0, 0.5, 0.4, 0.3, 0.2, 0.1, 0)))
	if !tilted.Follows || tilted.Out != 0 {
		t.Errorf("%+v", tilted)
	}
	// flat seats under a board that wants 0.03, 0.30 and 0.83 less from the middle out (16 in, section on radius): the two middle ones
	// are not out, the others high
	flat := must(CrownOf(seats(0, 0.832546, 0.299520, 0.033269, 0.033269, 0.299520, 0.832546)))
	if flat.Follows {
		t.Errorf("%+v", flat)
	}
}

func TestACoarseRuleShowsNoCrownError(t *testing.T) {
	// 0.2 at one seat is 0.1 at the fret; readings a quarter wide cannot tell
	if c := must(CrownOf(seats(0.25, 0, 0, 0, 0.2, 0, 0))); !c.Follows || c.Out != 0 || !c.High[3].Contains(0) {
		t.Errorf("%+v", c)
	}
	// read to 0.03 they can: ± 0.03 at the saddle for itself, and as much for the line: 0.14 to 0.26
	c := must(CrownOf(seats(0.03, 0, 0, 0, 0.2, 0, 0)))
	nearInterval(t, "seat", c.High[3], Interval{0.14, 0.26}, 1e-9)
	near(t, "least miss", c.Out, (0.2-0.06)/2, 1e-9)
	if c.Follows {
		t.Errorf("%+v", c)
	}
}

func TestCrownOfPairsAndSimulatedSaddles(t *testing.T) {
	pair := seats(0, 0, 0, 0, 0)
	pair[1].Offset = pair[0].Offset + 0.5 // a pair: no line between the two
	pair[1].Gap, pair[1].Target = pair[0].Gap, pair[0].Target
	if c := must(CrownOf(pair)); !c.Follows {
		t.Errorf("%+v", c)
	}
	for _, seed := range seeds {
		rng := rand.New(rand.NewPCG(seed, 27))
		for range 300 {
			strings, _ := anyStrings(rng, 3+rng.IntN(8))
			c := must(CrownOf(strings))
			if c.Out < 0 || c.Follows != (c.Out == 0) {
				t.Fatalf("seed %d: %+v", seed, c)
			}
			out := false // a line through all readings exists only if no three forbid it, so when all follow, each may be nothing
			for _, h := range c.High {
				if !h.Valid() {
					t.Fatalf("seed %d: %+v", seed, c)
				}
				out = out || !h.Contains(0)
			}
			if c.Follows && out {
				t.Fatalf("seed %d: follows, and is out: %+v", seed, c)
			}
			for i := range strings { // moved all together, or seen from the other side, nothing changes
				strings[i].Offset = -strings[i].Offset
			}
			m := must(CrownOf(strings))
			near(t, "mirrored", m.Out, c.Out, 1e-9)
		}
	}
}

func TestCrownRefuses(t *testing.T) {
	if _, err := CrownOf(seats(0, 0, 0)); !errors.Is(err, ErrFewStrings) {
		t.Errorf("%v", err)
	}
	near2 := seats(0, 0, 0, 0)
	near2[1].Offset = near2[0].Offset + 0.5
	if _, err := CrownOf(near2); !errors.Is(err, ErrFewStrings) {
		t.Errorf("%v", err)
	}
	if _, err := CrownOf(make([]MeasuredString, 13)); !errors.Is(err, ErrTooMany) {
		t.Errorf("%v", err)
	}
	for _, c := range []struct {
		set  func(*MeasuredString)
		want Quantity
	}{
		{func(s *MeasuredString) { s.Gap = Exactly(nan) }, QuantityGap}, {func(s *MeasuredString) { s.Target = -1 }, QuantityTarget},
		{func(s *MeasuredString) { s.Leverage = 0 }, QuantityLeverage}, {func(s *MeasuredString) { s.Offset = nan }, QuantityOffset},
	} {
		strings := seats(0, 0, 0, 0)
		c.set(&strings[1])
		_, err := CrownOf(strings)
		refused(t, "CrownOf", err, c.want)
	}
	_, err := SeatHeights(guitar, Interval{}, Camber{Nut: 10}, make([]Seat, 1))
	refused(t, "SeatHeights", err, QuantityRadius)
	_, err = SeatHeights(guitar, Exactly(5), Camber{}, make([]Seat, 1))
	refused(t, "SeatHeights", err, QuantityRelief)
	_, err = SeatHeights(guitar, Interval{}, Camber{Nut: 300}, []Seat{{Nut: 20, Saddle: 46}})
	refused(t, "SeatHeights", err, QuantityOffset)
	if _, err := SeatHeights(guitar, Interval{}, Camber{}, make([]Seat, 13)); !errors.Is(err, ErrTooMany) {
		t.Errorf("%v", err)
	}
}

func TestSeatHeights(t *testing.T) {
	// Relief 0.2, 0.6 at fret 1, wanted 2.4 at fret 12: hN = 0.382258, z12 = −0.077974, λ 1/2: [2.4 − 0.077974 − 0.382258/2]/0.5 =
	// 4.261794
	h := must(SeatHeights(guitar, Exactly(0.2), Camber{}, []Seat{{First: Exactly(0.6), Twelfth: 2.4}}))
	nearInterval(t, "flat", h[0], Exactly(4.261794), 5e-6)

	// All strings 0.5 over the nut's own arc and 2 mm over fret 12, a cylinder of 250 mm, spreads of 35 at the nut and 54 at the
	// saddle, so 44.5 at fret 12: the outer seats stand higher against the middle by (22.25 − 17.5)²/250 = 0.09025 than the board's arc
	// at the saddle, 27²/500 = 1.458, says.
	cylinder := Camber{Nut: 250}
	seat := func(nut, saddle Length) Seat {
		x1 := must(FretDistance(650, 1))
		// 0.5 over the nut's arc in the line to 2 over fret 12's, each lower than the crown by its drop; the gap that this leaves at
		// fret 1
		at := func(x Length) Length { return nut + (saddle-nut)*x/650 }
		drop := func(x Length) Length { return must(cylinder.Drop(x, at(x))) }
		line := 0.5 - drop(0) + (2-drop(325)-(0.5-drop(0)))*x1/325
		return Seat{Nut: nut, Saddle: saddle, First: Exactly(line + drop(x1)), Twelfth: 2}
	}
	heights := must(SeatHeights(guitar, Interval{}, cylinder, []Seat{seat(0, 0), seat(17.5, 27), seat(-17.5, -27)}))
	arc := must(cylinder.Drop(650, 27))
	near(t, "the middle seat", heights[0].Low, 3.5, 1e-6)
	near(t, "what fanning out adds", heights[1].Low-(heights[0].Low-arc), 0.09025, 0.002) // to second order in u/R
	near(t, "both sides alike", heights[2].Low, heights[1].Low, 1e-9)
	// on a cone whose lines the strings keep to, the board's arc is right
	cone := Camber{Nut: 250, End: 250 * 54.0 / 35, EndAt: 650}
	cylinder = cone
	heights = must(SeatHeights(guitar, Interval{}, cone, []Seat{seat(0, 0), seat(17.5, 27)}))
	near(t, "on a cone", heights[1].Low, heights[0].Low-must(cone.Drop(650, 27)), 1e-9)
	// doubt at fret 1 comes out multiplied by (L − x12)/(x12 − x1) = 325/288.5183
	wide := must(SeatHeights(guitar, Interval{}, Camber{}, []Seat{{First: Interval{0.5, 0.6}, Twelfth: 2}}))
	near(t, "width", wide[0].Width(), 0.1126445, 1e-7)
}
