package geometry_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	. "gapwright/geometry"
)

func TestOpenAndPressedAskForOtherDepths(t *testing.T) {
	// 650 mm: 1/(1 − 36.4817/650) = 1.059463; pressed: 1/(1 − 36.4817/70.9158) = 2.059463 = 1 + 2^(1/12)
	near(t, "open", must(OpenNut{Scale: 650}.Factor()), 1.059463, 5e-7)
	near(t, "open, 2 mm setback: 1/(1 − 36.4817/652)", must(OpenNut{Scale: 650, Setback: 2}.Factor()), 1.059270, 5e-7)
	near(t, "pressed", PressedFactor, 2.059463, 5e-7)
	near(t, "pressed", PressedFactor, 1+math.Exp2(1.0/12), 1e-15)
	for _, scale := range []Length{346, 650, 863.6} { // on any scale
		d1, d2 := must(FretDistance(scale, 1)), must(FretDistance(scale, 2))
		near(t, "pressed", PressedFactor, float64(d2/(d2-d1)), 1e-12)
	}
	// 0.2 lower: 0.211893 open, 0.411893 pressed
	near(t, "open", must(OpenNut{Scale: 650, Gap: Exactly(0.7), Target: 0.5}.Plan()).Depth.Low, 0.211893, 5e-7)
	near(t, "pressed", must(PressedNut{Gap: Exactly(0.3), Target: 0.1}.Plan()).Depth.Low, 0.411893, 5e-7)
}

// The string's path says the same: made deeper by the plan's depth the slot gives the wanted gaps, whatever the saddle and, open, the board.
func TestNutPlansAgreeWithTheStringsPath(t *testing.T) {
	for _, seed := range seeds {
		rng := rand.New(rand.NewPCG(seed, 81))
		for range 300 {
			n := anyNeck(rng)
			p := must(NewPath(n, Exactly(Length(rng.Float64()*0.3)), GapReading{Fret: 1, Gap: Exactly(0.6 + Length(rng.Float64())*0.4)},
				GapReading{Fret: 12, Gap: Exactly(2 + Length(rng.Float64())*2)}))
			lower := Length(0.05 + rng.Float64()*0.2)
			open := must(p.Clearance(1, 0))
			plan := must(OpenNut{Scale: n.Scale, Setback: n.Setback, Gap: open.AtLeast(0), Target: max(0, open.Low-lower)}.Plan())
			nearInterval(t, "open", must(must(p.LowerNut(plan.Depth)).Clearance(1, 0)), open.Shifted(-lower), 1e-9)
			// fret 12 falls with it as AfterNut says
			nearInterval(t, "fret 12", must(must(p.LowerNut(plan.Depth)).Clearance(12, 0)), must(n.AfterNut(12, must(p.Clearance(12, 0)), plan.Depth)), 1e-9)
			pressed := must(p.Clearance(1, 2))
			if pressed.Low-lower < LeastPressed {
				continue
			}
			plan = must(PressedNut{Gap: pressed, Target: pressed.Low - lower}.Plan())
			nearInterval(t, "pressed", must(must(p.LowerNut(plan.Depth)).Clearance(1, 2)), pressed.Shifted(-lower), 1e-9)
			if t.Failed() {
				t.Fatalf("seed %d: %+v", seed, n)
			}
		}
	}
}

func TestASlotIsFiledForTheLowestReading(t *testing.T) {
	// leaves 0.25 fits and 0.30 does not, wanted 0.10: (0.25 − 0.10) × 2.059463 = 0.308919 to 0.411893; kept back 0.03: 0.278919
	gap := must(JustFits(0.25, 0.30))
	plan := must(PressedNut{Gap: gap, Target: 0.10, Allow: NutFile}.Plan())
	nearInterval(t, "depth", plan.Depth, Interval{0.308919, 0.411893}, 1e-6)
	near(t, "stop", plan.Stop, 0.278919, 1e-6)
	near(t, "lowest", plan.Lowest, 0.10, 1e-9)
	// half first: 0.139460, then half of the rest: 0.209190, 0.244054, then less than 0.05 is left
	filed := Length(0)
	for _, want := range []Length{0.139460, 0.209190, 0.244054, 0.278919, 0.278919} {
		filed = plan.Next(filed)
		near(t, "next", filed, want, 1e-6)
	}
	// a floor above the target counts; a target of nothing is never nothing
	near(t, "floor", must(PressedNut{Gap: gap, Target: 0.10, Floor: 0.15}.Plan()).Stop, 0.205946, 1e-6) // (0.25 − 0.15) × 2.059463
	near(t, "never the fret itself", must(PressedNut{Gap: gap}.Plan()).Lowest, LeastPressed, 1e-9)
	// the wish lies inside the reading: nothing may be filed on it
	plan = must(PressedNut{Gap: gap, Target: 0.27, Allow: NutFile}.Plan())
	nearInterval(t, "may be there", plan.Depth, Interval{0, 0.061784}, 1e-6) // (0.30 − 0.27) × 2.059463
	if !plan.Nothing() || plan.Stop != 0 || plan.Lowest != 0.25 {
		t.Errorf("%+v, want nothing", plan)
	}
	// the open plan that would go 0.4 deep gives way to the pressed one
	open := must(OpenNut{Scale: 650, Gap: Exactly(0.6), Target: 0.222450}.Plan()) // 0.377550 × 1.059463
	near(t, "open", open.Stop, 0.4, 1e-6)
	pressed := must(PressedNut{Gap: Exactly(0.2), Target: 0.05}.Plan())
	if got := open.Shallower(pressed); got != pressed || pressed.Shallower(open) != pressed {
		t.Errorf("%+v", got)
	}
}

func TestASlotThatIsTooLow(t *testing.T) {
	// pressed 0 to 0.05, wanted 0.10: (0.10 − 0.05) × 2.059463 = 0.102973 to 0.205946; filled 0.3 more, 0.3 to 0.402973 filed back
	r := must(PressedNut{Gap: must(JustFits(0, 0.05)), Target: 0.10}.Repair())
	nearInterval(t, "raise", r.Raise, Interval{0.102973, 0.205946}, 1e-6)
	near(t, "fill", r.Fill, 0.505946, 1e-6)
	nearInterval(t, "back", r.Back, Interval{0.3, 0.402973}, 1e-6)
	// open 0.3, floor 0.4: 0.1 × 1.059463
	r = must(OpenNut{Scale: 650, Gap: Exactly(0.3), Target: 0.35, Floor: 0.4}.Repair())
	nearInterval(t, "raise", r.Raise, Exactly(0.105946), 1e-6)
	if r := must(PressedNut{Gap: Exactly(0.2), Target: 0.1}.Repair()); r != (NutRepair{}) {
		t.Errorf("%+v, want nothing", r)
	}
}

func TestNoSlotGoesUnderTheFret(t *testing.T) {
	for _, seed := range seeds {
		rng := rand.New(rand.NewPCG(seed, 82))
		for range 3000 {
			low := Length(rng.Float64())
			gap := Interval{low, low + Length(rng.IntN(3))*0.05}
			target, floor, allow := Length(rng.Float64()*0.5), Length(rng.Float64()*0.3), Length(rng.Float64()*0.1)
			open := OpenNut{Scale: Length(330 + 500*rng.Float64()), Gap: gap, Target: target, Floor: floor, Allow: allow}
			pressed := PressedNut{gap, target, floor, allow}
			for i, plan := range []NutPlan{must(open.Plan()), must(pressed.Plan())} {
				least := max(target, floor)
				if i == 1 {
					least = max(least, LeastPressed)
				}
				truth := gap.Low + gap.Width()*Length(rng.Float64())
				filed := Length(0)
				for range 1 + rng.IntN(12) { // any number of checks, then the file and polish take what was kept back
					if next := plan.Next(filed); next < filed-1e-12 {
						t.Fatalf("seed %d: the next check lies higher", seed)
					} else {
						filed = next
					}
				}
				if plan.Stop > 0 {
					filed += allow
				}
				if after := truth - filed/Length(plan.Factor); after < min(truth, least)-1e-9 || plan.Stop < 0 || filed > plan.Stop+allow+1e-12 {
					t.Fatalf("seed %d: %v comes to %v under %v: %+v", seed, truth, after, least, plan)
				}
				if plan.Stop > 0 {
					near(t, "lowest", plan.Lowest, least, 1e-9)
				}
			}
			// filed by the repair, and back by the least of what must come off, it is high enough for any truth
			r := must(pressed.Repair())
			if r.Fill > 0 && gap.Low+(r.Fill-r.Back.Low)/PressedFactor < max(target, floor, LeastPressed)-1e-9 {
				t.Fatalf("seed %d: %+v", seed, r)
			}
			// lower wanted is never shallower; all lengths × k ask for k times as much
			lower := open
			lower.Target = target * Length(rng.Float64())
			if must(lower.Plan()).Stop < must(open.Plan()).Stop-1e-12 {
				t.Fatalf("seed %d: lower wanted, shallower", seed)
			}
			big := OpenNut{open.Scale * 1.3, 0, gap.Times(1.3), target * 1.3, floor * 1.3, allow * 1.3}
			near(t, "scaled", must(big.Plan()).Stop, must(open.Plan()).Stop*1.3, 1e-9)
		}
	}
}

func TestNutRefuses(t *testing.T) {
	for _, c := range []struct {
		open OpenNut
		want Quantity
	}{
		{OpenNut{Scale: 100}, QuantityScale}, {OpenNut{Scale: 650, Setback: nan}, QuantitySetback}, {OpenNut{Scale: 650, Gap: Exactly(nan)}, QuantityGap},
		{OpenNut{Scale: 650, Gap: Exactly(16)}, QuantityGap}, {OpenNut{Scale: 650, Target: nan}, QuantityTarget}, {OpenNut{Scale: 650, Floor: -1}, QuantityTarget},
	} {
		_, err := c.open.Plan()
		refused(t, "Plan", err, c.want)
		_, err = c.open.Repair()
		refused(t, "Repair", err, c.want)
		if c.open.Scale == 650 && c.open.Setback == 0 {
			_, err = PressedNut{Gap: c.open.Gap, Target: c.open.Target, Floor: c.open.Floor}.Plan()
			if c.open.Floor == 0 {
				refused(t, "Plan", err, c.want)
			}
		}
	}
	_, err := PressedNut{Gap: Exactly(0.2), Allow: nan}.Plan()
	refused(t, "Plan", err, QuantityAllow)
	_, err = PressedNut{Gap: Exactly(nan)}.Repair()
	refused(t, "Repair", err, QuantityGap)
}

func TestAPileStopsTheFile(t *testing.T) {
	// frets 1.00 high at fret 1 and 2: the line passes 1.00 over the board; 1.10 and 1.00: 1.1 × 2.059463 − 1.0 × 1.059463 = 1.205946
	nearInterval(t, "level", must(FretLine(Exactly(1), Exactly(1))), Exactly(1), 1e-12)
	nearInterval(t, "higher first", must(FretLine(Exactly(1.1), Exactly(1))), Exactly(1.205946), 1e-6)
	// known to 0.03 either way: ± 0.03 × (2.059463 + 1.059463) = ± 0.093568
	nearInterval(t, "caliper", must(FretLine(Interval{0.97, 1.03}, Interval{0.97, 1.03})), Interval{0.906432, 1.093568}, 1e-6)
	// the line read at 1.00 to 1.05 under a straightedge, 0.05 wanted: 1.05 + 0.05 × 2.059463 = 1.152973, so a pile of 1.20; filed to it the gap is
	// (1.20 − 1.05)/2.059463 = 0.072835 to (1.20 − 1.00)/2.059463 = 0.097113
	stop := must(StopPile(Interval{1.00, 1.05}, 0.05, exactLeaves(FeelerSet(13)...), 6))
	near(t, "need", stop.Need, 1.152973, 1e-6)
	nearInterval(t, "pile", stop.Pile.Thickness, Exactly(1.20), 1e-9)
	nearInterval(t, "pressed", stop.Pressed, Interval{0.072835, 0.097113}, 1e-6)
	if stop.Pile.Leaves != 2 {
		t.Errorf("%+v, want 1.00 and 0.20", stop.Pile)
	}
	for _, seed := range seeds {
		rng := rand.New(rand.NewPCG(seed, 83))
		for range 500 { // the line and every leaf anywhere in their ranges
			line, wanted := Interval{0.5, 0.6}.Shifted(Length(rng.Float64()*0.6)), LeastPressed+Length(rng.Float64()*0.1)
			s := must(StopPile(line, wanted, []Leaf{leaf(0.05, 2), leaf(0.1, 2), leaf(0.2, 2), leaf(0.4, 4)}, 6))
			truth := s.Pile.Thickness.Low + s.Pile.Thickness.Width()*Length(rng.Float64()) - line.Low - line.Width()*Length(rng.Float64())
			if gap := truth / PressedFactor; gap < wanted-1e-6 || !s.Pressed.Contains(gap) {
				t.Fatalf("seed %d: %v under %v: %+v", seed, gap, wanted, s)
			}
		}
	}
	if _, err := StopPile(Exactly(1), 0.05, nil, 6); !errors.Is(err, ErrNoPile) {
		t.Errorf("%v", err)
	}
	for _, c := range []struct {
		line    Interval
		pressed Length
		want    Quantity
	}{{Exactly(nan), 0.05, QuantityFretHeight}, {Exactly(0), 0.05, QuantityFretHeight}, {Exactly(4), 0.05, QuantityFretHeight}, {Exactly(1), 0.01, QuantityTarget}, {Exactly(1), nan, QuantityTarget}} {
		_, err := StopPile(c.line, c.pressed, nil, 6)
		refused(t, "StopPile", err, c.want)
	}
	_, err := FretLine(Exactly(1), Exactly(nan))
	refused(t, "FretLine", err, QuantityFretHeight)
}

func TestANutLowersFretTwelveByHalf(t *testing.T) {
	// 0.2 to 0.3 deeper: 0.1 to 0.15 lower at fret 12, 2.25 − 0.15 to 2.50 − 0.1
	nearInterval(t, "after", must(guitar.AfterNut(12, Interval{2.25, 2.5}, Interval{0.2, 0.3})), Interval{2.10, 2.40}, 1e-9)
	nearInterval(t, "filled", must(guitar.AfterNut(12, Exactly(2), Exactly(-0.2))), Exactly(2.1), 1e-9)
	// at fret 1: 0.2 × (1 − 0.0561257) = 0.188775
	nearInterval(t, "fret 1", must(guitar.AfterNut(1, Exactly(0.6), Exactly(0.2))), Exactly(0.411225), 1e-6)
	nearInterval(t, "never under nothing", must(guitar.AfterNut(12, Exactly(0.1), Exactly(1))), Exactly(0), 0)
	// a floor of 1.8 is one of 1.95 while the nut is still to be made deeper by up to 0.3
	near(t, "floor", must(guitar.FloorBeforeNut(12, 1.8, Interval{0.2, 0.3})), 1.95, 1e-9)
	// NutShare tells the same by the open gap at fret 1: 0.188775 there is 0.1 at fret 12
	near(t, "share", must(guitar.NutShare(12))*0.188775, 0.1, 1e-6)
	for _, c := range []struct {
		neck  Neck
		fret  int
		depth Interval
		want  Quantity
	}{{Neck{}, 12, Exactly(0), QuantityScale}, {guitar, 0, Exactly(0), QuantityFret}, {guitar, 12, Exactly(6), QuantityCut}, {guitar, 12, Exactly(nan), QuantityCut}} {
		_, err := c.neck.AfterNut(c.fret, Exactly(2), c.depth)
		refused(t, "AfterNut", err, c.want)
		_, err = c.neck.FloorBeforeNut(c.fret, 2, c.depth)
		refused(t, "FloorBeforeNut", err, c.want)
	}
	_, err := guitar.AfterNut(12, Exactly(nan), Exactly(0))
	refused(t, "AfterNut", err, QuantityGap)
	_, err = guitar.FloorBeforeNut(12, nan, Exactly(0))
	refused(t, "FloorBeforeNut", err, QuantityTarget)
}

func FuzzNut(f *testing.F) {
	f.Add(650.0, 0.0, 0.25, 0.3, 0.1, 0.05, 0.03, 1.0, 1.05)
	f.Add(200.0, -10.0, 0.0, 15.0, 15.0, 15.0, 1.0, 3.0, 3.0)
	f.Add(math.NaN(), math.Inf(1), math.NaN(), -1.0, math.NaN(), 0.0, math.NaN(), 0.0, math.Inf(-1))
	f.Fuzz(func(t *testing.T, scale, setback, low, high, target, floor, allow, l1, l2 float64) {
		gap := Interval{Length(low), Length(high)}
		check := func(p NutPlan, err error, r NutRepair, err2 error) {
			if err == nil && (!sound(p.Depth) || !p.Stop.Finite() || p.Stop < 0 || p.Lowest < min(gap.Low, max(Length(target), Length(floor)))-1e-6) {
				t.Fatalf("%v: %+v", gap, p)
			}
			if err2 == nil && (!sound(r.Raise) || !sound(r.Back) || r.Fill < 0) {
				t.Fatalf("%v: %+v", gap, r)
			}
		}
		open := OpenNut{Length(scale), Length(setback), gap, Length(target), Length(floor), Length(allow)}
		pressed := PressedNut{gap, Length(target), Length(floor), Length(allow)}
		p, err := open.Plan()
		r, err2 := open.Repair()
		check(p, err, r, err2)
		p, err = pressed.Plan()
		r, err2 = pressed.Repair()
		check(p, err, r, err2)
		if s, err := StopPile(Interval{Length(l1), Length(l2)}, Length(target), []Leaf{leaf(0.2, 4), leaf(0.76, 6)}, 6); err == nil && (!sound(s.Pressed) || s.Pressed.Low < Length(target)-1e-5) {
			t.Fatalf("%+v", s)
		}
		if l, err := FretLine(Interval{Length(l1), Length(l2)}, gap); err == nil && !sound(l) {
			t.Fatalf("%v", l)
		}
	})
}
