package geometry_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	. "gapwright/geometry"
)

func sound(i Interval) bool { return i.Valid() }

// everything that a screen may ask about one string; fails on what is not a number.
func everything(t *testing.T, n Neck, k setup, s Strung) {
	t.Helper()
	p, err := NewPath(n, k.relief, k.first, k.second)
	if err != nil {
		t.Fatalf("%+v, %+v: %v", n, k, err)
	}
	target := must(p.WithGap(12, 0, Exactly(1.5)))
	for _, q := range []Path{p, target, must(p.WithRelief(Exactly(0))), must(p.LowerNut(Exactly(0.1))), must(p.LowerSaddle(Interval{0, 1}))} {
		if !sound(q.Nut()) || !sound(q.Saddle()) {
			t.Fatalf("%+v, %+v: nut %v, saddle %v", n, k, q.Nut(), q.Saddle())
		}
		for held := range n.Frets {
			gaps := must(q.Clearances(held))
			if len(gaps) != n.Frets-held || slices.ContainsFunc(gaps, func(g Interval) bool { return !sound(g) }) {
				t.Fatalf("%+v, %+v, held at %d: %v", n, k, held, gaps)
			}
		}
		at := UsualPluck * n.Scale
		for _, h := range must(q.Headrooms(at)) {
			if !sound(h.Free) || h.First <= h.Stop || h.First > n.Frets {
				t.Fatalf("%+v, %+v: %+v", n, k, h)
			}
		}
		suits := must(q.LowestFor(Playing{Touch: Interval{0.5, 0.8}, At: at, From: 0, To: n.Frets - 1}, 12, 0))
		if !sound(suits.Gap) || suits.Gap.Low < 0 || suits.Gap.High > LargestGap || suits.First <= suits.Stop {
			t.Fatalf("%+v, %+v: %+v", n, k, suits)
		}
		for fret := 1; fret <= n.Frets; fret++ {
			r, change := must(q.Sharp(s, fret, 5)), must(p.SharpChange(q, s, fret, 0))
			for _, c := range []Cents{r.Low, r.High, change.Low, change.High} {
				if math.IsNaN(float64(c)) || math.IsInf(float64(c), 0) {
					t.Fatalf("%+v, %+v, fret %d: %v, %v", n, k, fret, r, change)
				}
			}
		}
	}
}

func TestAtTheLimitsEverythingIsANumber(t *testing.T) {
	exact := setup{Exactly(0), GapReading{1, 0, Exactly(0.5)}, GapReading{12, 0, Exactly(2)}}
	wide := setup{Interval{-2, 3}, GapReading{1, 0, Interval{0, 15}}, GapReading{12, 0, Interval{0, 15}}}
	for name, n := range map[string]Neck{
		"34-inch bass":      {Scale: 34 * Inch, Body: 16, Frets: 24},
		"shortest":          {Scale: ShortestScale, Setback: -10, Body: 12, Frets: LargestFret},
		"longest":           {Scale: LongestScale, Setback: 20, Body: 5, Frets: 12, FallAway: 3},
		"joint at the last": {Scale: 350, Body: 24, Frets: 24, FallAway: 1},
		"rising tongue":     {Scale: 650, Body: 12, Frets: 36, FallAway: -3},
	} {
		t.Run(name, func(t *testing.T) {
			s := Strung{Scale: n.Scale, Pitch: 100, Weight: 0.005, From: Typed, Stretch: Band{30, 60}, Stiff: 0.5}
			everything(t, n, exact, s)
			everything(t, n, wide, s)
			if h := must(must(NewPath(n, exact.relief, exact.first, exact.second)).Headroom(min(12, n.Frets-1), UsualPluck*n.Scale)); !sound(h.Free) { // capo at 12
				t.Errorf("%+v", h)
			}
		})
	}
	huge := Camber{Nut: 1e6, End: 1e6, EndAt: 480}
	for _, strings := range []int{1, 12} {
		seats := make([]Seat, strings)
		for i := range seats {
			u := Length(-30 + 5*i)
			seats[i] = Seat{Nut: u * 0.8, Saddle: u, First: Exactly(0.5), Twelfth: 2}
		}
		for _, c := range []Camber{{}, huge, {Nut: 50}} {
			heights := must(SeatHeights(guitar, Interval{}, c, seats))
			if len(heights) != strings || slices.ContainsFunc(heights, func(i Interval) bool { return !sound(i) }) {
				t.Errorf("%d strings over %+v: %v", strings, c, heights)
			}
		}
	}
	if total := must(TotalTension([]Strung{must(PlainSteel(0.254, 650, 330))})); !(total > 0) {
		t.Errorf("one string pulls %v", total)
	}
	twelve, _ := spread(12)
	if c := must(CrownOf(twelve)); len(c.High) != 12 {
		t.Errorf("%+v", c)
	}
}

func TestAnyInstrumentGivesNumbers(t *testing.T) {
	for _, seed := range seeds {
		rng := rand.New(rand.NewPCG(seed, 41))
		for range 8 {
			n := anyNeck(rng)
			n.Frets = min(n.Frets, max(n.Body, 20))
			s := Strung{Scale: n.Scale, Pitch: Frequency(30 + 600*rng.Float64()), Weight: UnitWeight(0.0003 + 0.01*rng.Float64()), Stretch: Band{20, 400 * (1 + rng.Float64())}}
			everything(t, n, anySetup(rng, n), s)
		}
	}
}

// A neck twice as long under gaps twice as high is the same neck.
func TestEverythingScales(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 42))
	twice := func(i Interval) Interval { return i.Times(2) }
	for range 100 {
		n := anyNeck(rng)
		n.Scale = 200 + n.Scale/3
		k := anySetup(rng, n)
		m := Neck{2 * n.Scale, 2 * n.Setback, n.Body, n.Frets, 2 * n.FallAway}
		p := must(NewPath(n, k.relief, k.first, k.second))
		q := must(NewPath(m, twice(k.relief), GapReading{k.first.Fret, k.first.Held, twice(k.first.Gap)}, GapReading{k.second.Fret, k.second.Held, twice(k.second.Gap)}))
		fret := 2 + rng.IntN(n.Frets-1)
		held := rng.IntN(fret)
		nearInterval(t, "clearance", must(q.Clearance(fret, held)), twice(must(p.Clearance(fret, held))), 1e-9)
		stop := rng.IntN(8)
		nearInterval(t, "room", must(q.Headroom(stop, 0.3*n.Scale)).Free, twice(must(p.Headroom(stop, 0.15*n.Scale)).Free), 1e-9)
	}
}

func TestEveryListNamesEachOnce(t *testing.T) {
	seen := map[Quantity]bool{}
	for _, q := range append(Quantities(), NeckQuantities()...) {
		if q == "" || seen[q] {
			t.Errorf("%q twice", q)
		}
		seen[q] = true
	}
	texts := map[string]bool{}
	for _, err := range append(Refusals(), NeckRefusals()...) {
		if texts[err.Error()] {
			t.Errorf("%v twice", err)
		}
		texts[err.Error()] = true
	}
	if len(WeightSources()) != 4 || len(Parts()) != 3 || len(Standings()) != 5 || len(Styles()) != 3 {
		t.Error("a list has another length")
	}
}

// Whatever is asked, the answer is numbers or a refusal, never both and never neither.
func FuzzPath(f *testing.F) {
	f.Add(650.0, 0.0, 14, 20, 0.0, 0.1, 0.2, 1, 0, 0.5, 0.6, 12, 0, 2.0, 2.25, 104.0, 3, 8)
	f.Add(863.6, 2.0, 16, 24, -0.3, -0.1, 0.0, 1, 2, 0.2, 0.2, 17, 1, 3.0, 3.5, 60.0, 0, 12)
	f.Add(200.0, -10.0, 5, 36, 3.0, 3.0, 3.0, 36, 35, 0.0, 0.0, 1, 36, 15.0, 15.0, 0.1, 35, 1)
	f.Add(math.NaN(), math.Inf(1), -1, 99, math.NaN(), math.Inf(-1), math.NaN(), 0, 0, 1.0, 0.0, -5, 5, 1e300, -1e300, math.NaN(), -1, 1<<40)
	f.Fuzz(func(t *testing.T, scale, setback float64, body, frets int, fall, r1, r2 float64, f1, h1 int, a1, a2 float64, f2, h2 int, b1, b2, at float64, stop, fret int) {
		n := Neck{Length(scale), Length(setback), body, frets, Length(fall)}
		relief := Interval{Length(r1), Length(r2)}
		check := func(what string, err error, numbers ...Interval) {
			for _, i := range numbers {
				if !i.Low.Finite() || !i.High.Finite() || err == nil && i.Low > i.High+1e-9 {
					t.Fatalf("%s: %v with %v", what, i, err)
				}
				if err != nil && i != (Interval{}) {
					t.Fatalf("%s: %v and %v", what, i, err)
				}
			}
		}
		i, err := n.Relief(ReliefReading{f1, h1, f2, relief})
		check("Relief", err, i)
		top, err := n.Top(fret, relief.Low)
		check("Top", err, Exactly(top))
		i, err = n.ReliefChange(fret, stop, relief)
		check("ReliefChange", err, i)
		p, err := NewPath(n, relief, GapReading{f1, h1, Interval{Length(a1), Length(a2)}}, GapReading{f2, h2, Interval{Length(b1), Length(b2)}})
		if err != nil {
			return
		}
		check("ends", nil, p.Nut(), p.Saddle(), p.Relief())
		i, err = p.Clearance(fret, stop)
		check("Clearance", err, i)
		room, err := p.Headroom(stop, Length(at))
		check("Headroom", err, room.Free)
		suits, err := p.LowestFor(Playing{Touch: Interval{Length(a1), Length(a2)}, At: Length(at), From: stop, To: stop}, fret, h1)
		check("LowestFor", err, suits.Gap)
		for _, change := range []func() (Path, error){
			func() (Path, error) { return p.WithGap(fret, stop, Interval{Length(a1), Length(a2)}) },
			func() (Path, error) { return p.LowerSaddle(relief) },
			func() (Path, error) { return p.LowerNut(relief) },
			func() (Path, error) { return p.WithRelief(relief) },
		} {
			if q, err := change(); err == nil {
				check("changed", nil, q.Nut(), q.Saddle())
			}
		}
		s := Strung{Scale: n.Scale, Pitch: 200, Weight: 0.001, Stretch: Band{50, 100}, Stiff: 0.2}
		cents, err := p.Sharp(s, fret, Length(at/20))
		check("Sharp", err, Interval{Length(cents.Low), Length(cents.High)})
	})
}

func FuzzStrings(f *testing.F) {
	f.Add(0.3048, 650.0, 330.0, 0.001, 50.0, 60.0, 0.2, 104.0, 5.0, 12)
	f.Add(math.NaN(), math.Inf(1), -1.0, 0.0, math.NaN(), 0.0, -1.0, 0.0, 51.0, 99)
	f.Fuzz(func(t *testing.T, d, scale, pitch, weight, k1, k2, stiff, at, sideways float64, fret int) {
		finite := func(what string, err error, x float64) {
			if math.IsNaN(x) || math.IsInf(x, 0) || err == nil && x < 0 {
				t.Fatalf("%s: %v with %v", what, x, err)
			}
		}
		s := Strung{Length(scale), Frequency(pitch), UnitWeight(weight), Typed, Band{k1, k2}, Length(stiff)}
		tension, err := s.Tension()
		finite("Tension", err, float64(tension))
		k, err := s.Sideways(Length(at))
		finite("Sideways", err, k)
		low, high, err := s.Bend(Length(at), Length(sideways))
		finite("Bend", err, float64(low))
		finite("Bend", err, float64(high))
		plain, err := PlainSteel(Length(d), Length(scale), Frequency(pitch))
		finite("PlainSteel", err, plain.Stretch.High)
		stopped := Stopped{Length(scale), Length(at), Length(sideways), Length(stiff), Length(d), Length(d)}
		strain, err := stopped.Strain(fret)
		finite("Strain", nil, math.Abs(strain))
		sharp, err := stopped.Sharp(fret, k1, stiff)
		finite("Sharp", err, math.Abs(float64(sharp.Total())))
		weightOf, err := RoundWeight(Length(d), Density(k1))
		finite("RoundWeight", err, float64(weightOf))
		f, err := Frequency(pitch).Capo(fret)
		finite("Capo", err, float64(f))
	})
}
