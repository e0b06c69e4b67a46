package geometry_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	. "gapwright/geometry"
)

// plain is a path through open gaps at frets 1 and 12.
func plain(t *testing.T, n Neck, relief, first, twelfth Interval) Path {
	t.Helper()
	p, err := NewPath(n, relief, GapReading{Fret: 1, Gap: first}, GapReading{Fret: 12, Gap: twelfth})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func gapAt(t *testing.T, p Path, fret, held int) Interval {
	t.Helper()
	g, err := p.Clearance(fret, held)
	if err != nil {
		t.Fatalf("Clearance(%d, %d): %v", fret, held, err)
	}
	return g
}

func TestPathOverAFlatBoardIsTheStraightString(t *testing.T) {
	// 650 mm, nut 0.5, saddle 4.0: 0.69644, 2.25, 2.44093, 2.83202 at frets 1, 12, 14, 19 (plane geometry, computed in double
	// precision)
	p := plain(t, guitar, Interval{}, Exactly(0.5+3.5*0.056125687), Exactly(2.25))
	nearInterval(t, "nut", p.Nut(), Exactly(0.5), 1e-8)
	nearInterval(t, "saddle", p.Saddle(), Exactly(4), 1e-8)
	for fret, want := range map[int]Length{1: 0.69644, 12: 2.25, 14: 2.44093, 19: 2.83202} {
		nearInterval(t, "open", gapAt(t, p, fret, 0), Exactly(want), 5e-6)
	}
	// held at 1 the string runs from 0 to 4.0 over 613.5183: at fret 12 that is 4 · 288.5183/613.5183 = 1.88107
	nearInterval(t, "held at 1", gapAt(t, p, 12, 1), Exactly(1.88107), 5e-6)
	// pressed at 2 and read at 1: 0.5 · (1 − 36.4817/70.9158) = 0.24278
	nearInterval(t, "between nut and fret 2", gapAt(t, p, 1, 2), Exactly(0.24278), 5e-6)
}

func TestPathOverABentBoard(t *testing.T) {
	// relief 0.2: z12 = −4 · 0.2 · 288.5183 · 35.4579/323.9762² = −0.077974; line through 0.6 at 36.4817 and 2.4 − 0.077974 at 325:
	// slope 1.722026/288.5183 = 0.00596852; nut 0.6 − 0.217742 = 0.382258, saddle 0.6 + 613.5183 · 0.00596852 = 4.261797
	p := plain(t, guitar, Exactly(0.2), Exactly(0.6), Exactly(2.4))
	nearInterval(t, "nut", p.Nut(), Exactly(0.382258), 2e-6)
	nearInterval(t, "saddle", p.Saddle(), Exactly(4.261797), 5e-6)
	// held at 1: 4.261797 · 288.5183/613.5183 + 0.077974 = 2.082164
	nearInterval(t, "held at 1", gapAt(t, p, 12, 1), Exactly(2.082164), 5e-6)
	// what one reads in another condition lays the same line
	for _, c := range [][2]int{{12, 1}, {17, 0}, {14, 5}, {20, 12}} {
		q := must(NewPath(guitar, Exactly(0.2), GapReading{Fret: 1, Gap: Exactly(0.6)}, GapReading{c[0], c[1], gapAt(t, p, c[0], c[1])}))
		nearInterval(t, "nut", q.Nut(), p.Nut(), 1e-9)
		nearInterval(t, "saddle", q.Saddle(), p.Saddle(), 1e-9)
	}
	q := must(NewPath(guitar, Exactly(0.2), GapReading{1, 2, gapAt(t, p, 1, 2)}, GapReading{12, 1, gapAt(t, p, 12, 1)}))
	nearInterval(t, "fret 1 by way of a held nut and a held saddle", gapAt(t, q, 1, 0), Exactly(0.6), 1e-9)
}

func TestWhatIsReadIsReadBackWithItsDoubtAndNoMore(t *testing.T) {
	first, twelfth := Interval{0.5, 0.55}, Interval{2.25, 2.5}
	p := plain(t, guitar, Interval{0.1, 0.25}, first, twelfth)
	nearInterval(t, "fret 1", gapAt(t, p, 1, 0), first, 1e-9)
	nearInterval(t, "fret 12", gapAt(t, p, 12, 0), twelfth, 1e-9)
	nearInterval(t, "relief", p.Relief(), Interval{0.1, 0.25}, 1e-12)
	wide := must(p.Clearance(17, 0)) // another fret knows more than 0.25 of doubt: more of the line, and the curve
	if wide.Width() <= 0.25 {
		t.Errorf("fret 17 is %v wide", wide.Width())
	}
}

// The range is as wide as the readings allow: every corner is inside, and both ends are reached at corners.
func TestClearanceIsExactlyWhatTheReadingsAllow(t *testing.T) {
	for _, seed := range seeds {
		rng := rand.New(rand.NewPCG(seed, 21))
		for range 60 {
			n := anyNeck(rng)
			k := anySetup(rng, n)
			p := must(NewPath(n, k.relief, k.first, k.second))
			p = must(p.LowerSaddle(Interval{0.1, 0.3}))
			fret := 1 + rng.IntN(n.Frets)
			held := rng.IntN(fret)
			got := gapAt(t, p, fret, held)
			hull := Interval{Length(math.Inf(1)), Length(math.Inf(-1))}
			for corner := range 16 {
				end := func(bit int, i Interval) Interval {
					if corner>>bit&1 == 1 {
						return Exactly(i.High)
					}
					return Exactly(i.Low)
				}
				a, b := k.first, k.second
				a.Gap, b.Gap = end(0, a.Gap), end(1, b.Gap)
				q := must(must(NewPath(n, end(2, k.relief), a, b)).LowerSaddle(end(3, Interval{0.1, 0.3})))
				hull = hull.Hull(gapAt(t, q, fret, held))
			}
			nearInterval(t, "corners", got, hull, 1e-9)
		}
	}
}

// setup is what somebody read.
type setup struct {
	relief        Interval
	first, second GapReading
}

// anyNeck is any instrument: from 200 to 1200 mm, joints and last frets wherever they can be, rising and falling tongues.
func anyNeck(rng *rand.Rand) Neck {
	body := 5 + rng.IntN(20)
	return Neck{
		Scale: Length(200 + 1000*rng.Float64()), Setback: Length(-2 + 8*rng.Float64()), Body: body,
		Frets: max(12, body) + rng.IntN(LargestFret+1-max(12, body)), FallAway: Length(rng.Float64() - 0.5),
	}
}

func anySetup(rng *rand.Rand, n Neck) setup {
	wide := []Length{0, 0.03, 0.25}[rng.IntN(3)]
	low := func(a, b float64) Interval { l := Length(a + (b-a)*rng.Float64()); return Interval{l, l + wide} }
	k := setup{relief: low(-0.1, 0.5), first: GapReading{1, 0, low(0.2, 0.8)}, second: GapReading{12, 0, low(1.2, 3.5)}}
	if rng.IntN(3) == 0 {
		k.second.Held = 1
	}
	if rng.IntN(4) == 0 {
		k.first.Held = 2
	}
	return k
}

func TestChangesAtSaddleAndNutMoveEveryClearanceByTheirLeverage(t *testing.T) {
	p := plain(t, guitar, Interval{0.1, 0.2}, Interval{0.5, 0.6}, Interval{2.25, 2.5})
	cut := must(p.LowerSaddle(Exactly(0.5)))
	for fret := 2; fret <= 20; fret++ {
		for _, held := range []int{0, 1} {
			want := gapAt(t, p, fret, held).Shifted(-0.5 * Length(must(Leverage(650, 0, fret, held))))
			nearInterval(t, "saddle", gapAt(t, cut, fret, held), want, 1e-9)
		}
	}
	// the nut moves an open string by 1 − λ and a held one not at all
	deep := must(p.LowerNut(Exactly(0.1)))
	nearInterval(t, "nut, open", gapAt(t, deep, 12, 0), gapAt(t, p, 12, 0).Shifted(-0.05), 1e-9)
	nearInterval(t, "nut, held", gapAt(t, deep, 12, 1), gapAt(t, p, 12, 1), 1e-9)
	// Fret 1 wanted lower by 0.1: depth 0.1/(1 − 0.056126) = 0.105946; fret 12 then falls by half of that, 0.052973
	near(t, "NutShare", must(guitar.NutShare(12)), 0.52973, 5e-6)
	near(t, "SaddleShare", must(guitar.SaddleShare(12)), 0.112251, 5e-7)
	near(t, "pressed at 2: 1/(1 − 36.4817/70.9158)", 1/(1-float64(must(FretDistance(650, 1))/must(FretDistance(650, 2)))), 2.0595, 5e-5)
}

func TestPathsMadeFromOnePathDoNotDisturbEachOther(t *testing.T) {
	p := must(plain(t, guitar, Interval{}, Exactly(0.5), Exactly(2)).LowerSaddle(Exactly(0.1)))
	a := must(p.LowerSaddle(Exactly(1)))
	before := a.Saddle()
	must(p.LowerSaddle(Exactly(2)))
	if a.Saddle() != before {
		t.Errorf("%v became %v", before, a.Saddle())
	}
}

func TestWantedGapsAreCarriedThroughThePathAlone(t *testing.T) {
	p := plain(t, guitar, Exactly(0.2), Exactly(0.6), Exactly(2.4))
	w := must(p.WithGap(12, 0, Exactly(2)))
	nearInterval(t, "fret 12", gapAt(t, w, 12, 0), Exactly(2), 1e-9)
	nearInterval(t, "nut", w.Nut(), p.Nut(), 1e-9)
	nearInterval(t, "saddle", w.Saddle(), p.Saddle().Shifted(-0.8), 1e-9) // twice 0.4
	// held at 1: 2.082164 − 0.8 · 0.470268 = 1.705950; at fret 17: 2.4 → 2 is 0.4 · 0.625423/0.5 = 0.500339 lower
	nearInterval(t, "held", gapAt(t, w, 12, 1), Exactly(1.705950), 5e-6)
	nearInterval(t, "fret 17", gapAt(t, w, 17, 0), gapAt(t, p, 17, 0).Shifted(-0.500339), 1e-6)
	// A wanted gap is exact however badly the rest is known, and so is its way back.
	q := plain(t, guitar, Interval{0.1, 0.3}, Interval{0.5, 0.7}, Interval{2.25, 2.5})
	q = must(must(q.WithGap(12, 1, Exactly(1.8))).LowerNut(Interval{0, 0.1}))
	nearInterval(t, "held", gapAt(t, q, 12, 1), Exactly(1.8), 1e-9)
	if _, err := p.WithGap(1, 2, Exactly(0.2)); !errors.Is(err, ErrNoPath) {
		t.Errorf("a gap between nut and held fret knows no saddle: %v", err)
	}
}

func TestReliefMovesTheGapAtTwelve(t *testing.T) {
	// Joint at 14, even: 4(360.4579² · 0.5 − 35.4579²)/323.9762² = 4 · 63707.7/104960.6 = 2.42787; mid-neck: 4 · 198.4698 ·
	// 0.5/323.9762 = 1.22521
	even, midNeck, err := guitar.ReliefMoves(12, 0)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "even", even, 2.42787, 5e-6)
	near(t, "mid-neck", midNeck, 1.22521, 5e-6)
	// at fret 1: 4(360.4579² · 0.943874 − 323.9762²)/323.9762² = 0.67366; 4(198.4698 · 0.943874 − 161.9881)/323.9762 = 0.31288
	even1, midNeck1, _ := guitar.ReliefMoves(1, 0)
	near(t, "even, fret 1", even1, 0.67366, 5e-5)
	near(t, "mid-neck, fret 1", midNeck1, 0.31288, 5e-5)
	nearInterval(t, "a tenth less relief", must(guitar.ReliefChange(12, 0, Exactly(-0.1))), Interval{-0.242787, -0.122521}, 1e-6)
	nearInterval(t, "a range either way", must(guitar.ReliefChange(12, 0, Interval{-0.1, 0.2})), Interval{-0.242787, 0.485574}, 1e-6)
	p := plain(t, guitar, Exactly(0.3), Exactly(0.6), Exactly(2.4))
	q := must(p.WithRelief(Exactly(0.2)))
	near(t, "the path bends evenly", gapAt(t, q, 12, 0).Low, 2.4-0.242787, 1e-6)
	for fret := 2; fret <= 20; fret++ {
		for held := range fret {
			even, _, _ := guitar.ReliefMoves(fret, held)
			near(t, "every gap", gapAt(t, q, fret, held).Low, gapAt(t, p, fret, held).Low-Length(0.1*even), 1e-9)
		}
	}
	back := must(q.WithRelief(Exactly(0.3)))
	nearInterval(t, "there and back", back.Saddle(), p.Saddle(), 1e-9)
	nearInterval(t, "there and back", back.Nut(), p.Nut(), 1e-9)
}

// Anderson and Beausoleil (2024) call relief a straight tilt of the board about the nut, which adds 2·dy12·(g − 1)/g to the height over a fret: here that is a saddle
// higher by 2·dy12, and no bow.
func TestATiltIsNoRelief(t *testing.T) {
	flat := plain(t, guitar, Interval{}, Exactly(0.6), Exactly(2.4))
	tilted := must(flat.WithGap(12, 0, Exactly(2.6)))
	nearInterval(t, "saddle", tilted.Saddle(), flat.Saddle().Shifted(0.4), 1e-9)
	bow := must(flat.WithRelief(Exactly(0.2 / 2.42787)))
	nearInterval(t, "the bow that raises fret 12 as much", gapAt(t, bow, 12, 0), Exactly(2.6), 1e-5)
	for fret := 1; fret <= 20; fret++ {
		g := math.Exp2(float64(fret) / 12)
		nearInterval(t, "tilt", gapAt(t, tilted, fret, 0), gapAt(t, flat, fret, 0).Shifted(Length(2*0.2*(g-1)/g)), 1e-9)
		if fret > 13 {
			if far := gapAt(t, tilted, fret, 12).Low - gapAt(t, bow, fret, 12).Low; far < 0.001 {
				t.Errorf("fret %d held at 12: a tilt and a bow are %v apart", fret, far)
			}
		}
	}
}

func TestMoreReliefRaisesWhatLiesBelowTheJointAndNothingBeyond(t *testing.T) {
	for _, seed := range seeds {
		rng := rand.New(rand.NewPCG(seed, 22))
		for range 100 {
			n := anyNeck(rng)
			k := anySetup(rng, n)
			p := must(NewPath(n, k.relief, k.first, k.second))
			more := must(p.WithRelief(k.relief.Shifted(0.2)))
			at := n.Scale * Length(0.05+0.2*rng.Float64())
			before, after := must(p.Headrooms(at)), must(more.Headrooms(at))
			for stop := range before {
				for fret := stop + 1; fret <= n.Frets; fret++ {
					even, _, _ := n.ReliefMoves(fret, stop)
					if stop < n.Body && even <= 0 || stop >= n.Body && even != 0 {
						t.Fatalf("seed %d: %+v: fret %d held at %d rises by %v", seed, n, fret, stop, even)
					}
				}
				// exact readings, so that the two paths know the same of the relief
				if k.relief.Width() > 0 {
					continue
				}
				gain := after[stop].Free.Low - before[stop].Free.Low
				if stop < n.Body && gain <= 0 || stop >= n.Body && math.Abs(float64(gain)) > 1e-9 {
					t.Fatalf("seed %d: %+v, stop %d: room %v → %v", seed, n, stop, before[stop], after[stop])
				}
			}
		}
	}
}

func TestPathRefuses(t *testing.T) {
	ok := GapReading{Fret: 12, Gap: Exactly(2)}
	for _, c := range []struct {
		first GapReading
		want  Quantity
	}{
		{GapReading{Fret: 0}, QuantityFret}, {GapReading{Fret: 21}, QuantityFret}, {GapReading{Fret: 1, Held: 1}, QuantityHeld},
		{GapReading{Fret: 1, Held: -1}, QuantityHeld}, {GapReading{Fret: 1, Held: 21}, QuantityHeld}, {GapReading{Fret: 1, Gap: Exactly(nan)}, QuantityGap},
		{GapReading{Fret: 1, Gap: Interval{1, 0.5}}, QuantityGap}, {GapReading{Fret: 1, Gap: Exactly(16)}, QuantityGap},
	} {
		_, err := NewPath(guitar, Interval{}, c.first, ok)
		refused(t, "NewPath", err, c.want)
	}
	_, err := NewPath(guitar, Exactly(4), GapReading{Fret: 1}, ok)
	refused(t, "NewPath", err, QuantityRelief)
	for _, c := range [][2]GapReading{{ok, ok}, {GapReading{Fret: 1, Held: 2}, GapReading{Fret: 1, Held: 3}}, {GapReading{Fret: 12, Held: 1}, GapReading{Fret: 12, Held: 2}}} {
		if _, err := NewPath(guitar, Interval{}, c[0], c[1]); !errors.Is(err, ErrNoPath) {
			t.Errorf("NewPath(%v): %v, want ErrNoPath", c, err)
		}
	}
	p := plain(t, guitar, Interval{}, Exactly(0.5), Exactly(2))
	_, err = p.LowerSaddle(Interval{1, 0})
	refused(t, "LowerSaddle", err, QuantityCut)
	_, err = p.LowerNut(Exactly(nan))
	refused(t, "LowerNut", err, QuantityCut)
	_, err = p.WithRelief(Exactly(5))
	refused(t, "WithRelief", err, QuantityRelief)
	_, err = p.WithGap(12, 0, Exactly(-1))
	refused(t, "WithGap", err, QuantityGap)
	_, err = p.WithGap(12, 12, Exactly(1))
	refused(t, "WithGap", err, QuantityHeld)
	_, err = p.Clearances(20)
	refused(t, "Clearances", err, QuantityHeld)
	_, _, err = guitar.ReliefMoves(12, 13)
	refused(t, "ReliefMoves", err, QuantityHeld)
	_, err = guitar.ReliefChange(12, 0, Exactly(6))
	refused(t, "ReliefChange", err, QuantityRelief)
	_, err = guitar.NutShare(21)
	refused(t, "NutShare", err, QuantityFret)
	_, err = guitar.SaddleShare(0)
	refused(t, "SaddleShare", err, QuantityFret)

	var none Path // knows nothing, and says so
	if none.Neck() != (Neck{}) || none.Nut() != (Interval{}) || none.Saddle() != (Interval{}) || none.Relief() != (Interval{}) {
		t.Error("the zero path knows something")
	}
	for name, err := range map[string]error{
		"Clearance": second(none.Clearance(12, 0)), "Clearances": second(none.Clearances(0)), "LowerSaddle": second(none.LowerSaddle(Interval{})),
		"LowerNut": second(none.LowerNut(Interval{})), "WithGap": second(none.WithGap(12, 0, Interval{})), "WithRelief": second(none.WithRelief(Interval{})),
		"Headroom": second(none.Headroom(0, 100)), "Headrooms": second(none.Headrooms(100)), "LowestFor": second(none.LowestFor(Playing{At: 100}, 12, 0)),
		"Sharp": second(none.Sharp(Strung{}, 12, 0)), "SharpChange": second(none.SharpChange(none, Strung{}, 12, 0)),
	} {
		if !errors.Is(err, ErrNoPath) {
			t.Errorf("%s of the zero path: %v", name, err)
		}
	}
}

func second[T any](_ T, err error) error { return err }
