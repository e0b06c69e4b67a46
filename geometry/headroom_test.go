package geometry_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	. "gapwright/geometry"
)

func TestPluckReachesWhatTheTriangleAndItsMirrorReach(t *testing.T) {
	// 1.5 N at 0.10 m of 0.65 m under 74 N: A = F·p(L − p)/(T·L) = 1.5 · 0.1 · 0.55/(74 · 0.65) = 1.71518 mm
	s := Strung{Scale: 650, Pitch: 100, Weight: UnitWeight(74 / (1.3 * 1.3 * 100 * 100))}
	stiff := must(s.Sideways(100))
	a := 1000 * 1.5 / stiff
	near(t, "A", a, 1.71518, 5e-6)
	for _, row := range table(t, "pluck", 5) {
		towards, away := PluckReach(650, 100, Length(number(t, row[0]))*1000)
		near(t, "upper at "+row[0], a*towards, number(t, row[1]), 5.001e-6)
		near(t, "lower at "+row[0], -a*away, number(t, row[2]), 5.001e-6)
	}
	if _, away := PluckReach(650, 100, 550); math.Abs(away-1) > 1e-12 { // all of A below, at the mirror's corner near the other end, and nowhere more
		t.Errorf("%v at the mirror's corner", away)
	}
	for _, c := range [][3]Length{{650, 0, 10}, {650, 650, 10}, {650, 100, -1}, {650, 100, 651}, {nan, 100, 10}, {650, nan, 10}, {650, 100, nan},
		{Length(math.Inf(1)), 100, 10}} {
		if a, b := PluckReach(c[0], c[1], c[2]); a != 0 || b != 0 {
			t.Errorf("PluckReach(%v) = %v, %v", c, a, b)
		}
	}
}

// The motion of an ideal string let go is half the sum of two waves that run apart, each the odd, periodic image of the triangle
// (d'Alembert). Sampled over a whole period, its extremes are the reach.
func TestReachIsTheEnvelopeOfTheTravellingWaves(t *testing.T) {
	const length, steps = 650.0, 4000
	for _, at := range []float64{20, 100, 325, 500} {
		wave := func(x float64) float64 {
			x = math.Mod(math.Mod(x, 2*length)+2*length, 2*length)
			sign := 1.0
			if x > length {
				x, sign = 2*length-x, -1
			}
			if x <= at {
				return sign * x / at
			}
			return sign * (length - x) / (length - at)
		}
		for _, v := range []float64{1, 19, 60, 100, 324, 550, 631, 649} {
			high, low := 0.0, 0.0
			for k := range steps {
				shift := 2 * length * float64(k) / steps
				y := (wave(v+shift) + wave(v-shift)) / 2
				high, low = max(high, y), min(low, y)
			}
			towards, away := PluckReach(length, Length(at), Length(v))
			near(t, "towards", towards, high, 1e-12) // reached as it is let go
			near(t, "away", away, -low, 1e-12)       // and half a period later
		}
	}
}

// a_n = 2A·sin(nπQ)/(n²π²Q(1 − Q)), Q = p/L. With L 28, p 6, A 3 the first four are 2.25125, 0.880048, 0.361461, 0.0979145 (inputs from
// an open physics applet).
func TestReachIsTheEnvelopeOfTheFourierSeries(t *testing.T) {
	a := func(n int, q float64) float64 {
		return 2 * math.Sin(float64(n)*math.Pi*q) / (float64(n*n) * math.Pi * math.Pi * q * (1 - q))
	}
	for n, want := range []float64{2.25125, 0.880048, 0.361461, 0.0979145} {
		near(t, "a_n", 3*a(n+1, 6.0/28), want, want*1e-5)
	}
	const terms = 2000 // what is left out is below 2/(π²q(1 − q)) · Σ 1/n² beyond it, about 2/(π² · 0.168 · 2000) = 0.0006
	for _, v := range []float64{2, 6, 14, 20, 22, 27} {
		at := func(phase float64) float64 { // the series at a time, in periods
			y := 0.0
			for n := 1; n <= terms; n++ {
				y += a(n, 6.0/28) * math.Sin(float64(n)*math.Pi*v/28) * math.Cos(2*math.Pi*float64(n)*phase)
			}
			return y
		}
		towards, away := PluckReach(28, 6, Length(v))
		near(t, "let go", towards, at(0), 0.0006)
		near(t, "half a period later", away, -at(0.5), 0.0006)
		for _, phase := range []float64{0.07, 0.19, 0.31, 0.42} {
			if y := at(phase); y > towards+0.0006 || y < -away-0.0006 {
				t.Errorf("at %v of a period: %v outside %v, −%v", phase, y, towards, away)
			}
		}
	}
}

func TestHeadroomOfAFlatBoard(t *testing.T) {
	// Nut 0.5, saddle 4.0, flat; held at 12 and plucked at 100 mm of the 325 that sound: at fret 13 the gap is 4 · (343.2410 − 325)/325
	// = 0.224505 and the reach the mirror's 18.2410/100 = 0.182410, so 1.2308; further on both grow alike while the mirror rises: 4/325
	// · 100 = 1.230769 as far as 100 mm from the stop, fret 19 (433.0885 − 325 = 108.0885) is past the corner: 4 · 108.0885/325 ÷
	// (216.9115/225) = 1.330322/0.964051 = 1.379930
	p := plain(t, guitar, Interval{}, Exactly(0.5+3.5*0.056125687), Exactly(2.25))
	h := must(p.Headroom(12, 100))
	nearInterval(t, "held at 12", h.Free, Exactly(1.230769), 1e-6)
	if h.Stop != 12 || h.First < 13 || h.First > 18 {
		t.Errorf("%+v", h)
	}
	// Open: nut 0.5 + 3.5 x/650 over min(x/100, (650 − x)/550): falls until the mirror's corner at 100 mm, then rises. Fret 2
	// (70.9158): 0.881854/0.709158 = 1.2435; fret 3 (103.4173): 1.056862/0.993787 = 1.063470; fret 4 (134.0947): 1.222048/0.938010 =
	// 1.302809
	h = must(p.Headroom(0, 100))
	nearInterval(t, "open", h.Free, Exactly(1.063470), 1e-6)
	if h.First != 3 {
		t.Errorf("first touches fret %d, want 3", h.First)
	}
}

func TestHeadroomIsTheLeastOfClearanceOverReach(t *testing.T) {
	for _, seed := range seeds {
		rng := rand.New(rand.NewPCG(seed, 23))
		for range 50 {
			n := anyNeck(rng)
			k := anySetup(rng, n)
			p := must(NewPath(n, k.relief, k.first, k.second))
			at := n.Scale * Length(0.02+0.3*rng.Float64())
			rooms := must(p.Headrooms(at))
			ls := n.Scale + n.Setback
			for stop, room := range rooms {
				length := ls - must(FretDistance(n.Scale, stop))
				low, high := math.Inf(1), math.Inf(1)
				for i, gap := range must(p.Clearances(stop)) {
					towards, away := PluckReach(length, at, ls-must(FretDistance(n.Scale, stop+1+i)))
					low, high = min(low, float64(gap.Low)/max(towards, away)), min(high, float64(gap.High)/max(towards, away))
				}
				near(t, "low", float64(room.Free.Low), low, 1e-9)
				near(t, "high", float64(room.Free.High), high, 1e-9)
				if room.Stop != stop || room.First <= stop || room.First > n.Frets {
					t.Fatalf("%+v", room)
				}
			}
			lower := must(must(p.LowerSaddle(Exactly(0.2))).Headrooms(at))
			for stop := range rooms {
				if lower[stop].Free.Low >= rooms[stop].Free.Low || lower[stop].Free.High >= rooms[stop].Free.High {
					t.Fatalf("seed %d: lower at the saddle and no less room: %+v, %+v", seed, rooms[stop], lower[stop])
				}
			}
		}
	}
}

func TestBuzzTestsBracketATouch(t *testing.T) {
	touch := must(TouchOf([]BuzzTest{{Interval{0.9, 1.0}, false}, {Interval{0.5, 0.6}, true}, {Interval{1.1, 1.3}, false}, {Interval{0.3, 0.4}, true}}))
	if touch != (Touch{Needs: Interval{0.5, 1.0}, Buzzed: true, Clean: true}) {
		t.Errorf("%+v", touch)
	}
	if touch = must(TouchOf([]BuzzTest{{Interval{0.9, 1.0}, false}})); touch != (Touch{Needs: Interval{0, 1.0}, Clean: true}) {
		t.Errorf("clean alone: %+v", touch)
	}
	if touch = must(TouchOf([]BuzzTest{{Interval{0.9, 1.0}, true}})); touch != (Touch{Needs: Interval{0.9, MostTouch}, Buzzed: true}) {
		t.Errorf("buzzing alone: %+v", touch)
	}
	if touch = must(TouchOf([]BuzzTest{{Interval{-0.5, -0.1}, true}, {Interval{-0.2, -0.1}, false}})); touch.Needs != (Interval{}) {
		t.Errorf("clean though it lies on the fret: %+v", touch)
	}
	// the same height may buzz today and not tomorrow: the two ranges meet, and that is where the touch lies
	if touch = must(TouchOf([]BuzzTest{{Interval{0.9, 1.0}, true}, {Interval{0.9, 1.0}, false}})); touch.Needs != (Interval{0.9, 1.0}) {
		t.Errorf("%+v", touch)
	}
	if _, err := TouchOf([]BuzzTest{{Interval{1.0, 1.1}, true}, {Interval{0.5, 0.6}, false}}); !errors.Is(err, ErrTouch) {
		t.Errorf("%v, want ErrTouch", err)
	}
	if _, err := TouchOf(nil); !errors.Is(err, ErrNoReading) {
		t.Errorf("%v, want ErrNoReading", err)
	}
	_, err := TouchOf([]BuzzTest{{Interval{1, 0}, true}})
	refused(t, "TouchOf", err, QuantityTouch)
}

// What LowestFor names has just the room that the touch needs: at its high end no stop has less, at the deciding one no more.
func TestTheLowestHeightHasJustTheRoomThatTheTouchNeeds(t *testing.T) {
	decided := 0
	for _, seed := range seeds {
		rng := rand.New(rand.NewPCG(seed, 24))
		for range 80 {
			n := anyNeck(rng)
			k := anySetup(rng, n)
			p := must(NewPath(n, k.relief, k.first, k.second))
			play := Playing{Touch: Exactly(Length(0.3 + rng.Float64())), At: n.Scale * 0.16, From: 1, To: 10}
			fret := []int{12, 12, 10, n.Frets}[rng.IntN(4)]
			suits := must(p.LowestFor(play, fret, 0))
			if suits.Beyond || suits.Gap.Low == 0 {
				continue
			}
			alone := play
			alone.From, alone.To = suits.Stop, suits.Stop
			near(t, "the stop that decides", must(p.LowestFor(alone, fret, 0)).Gap.High, suits.Gap.High, 1e-12)
			// with everything known exactly the range is a point
			exactly := must(NewPath(n, Exactly(k.relief.Low), GapReading{k.first.Fret, k.first.Held, Exactly(k.first.Gap.Low)},
				GapReading{k.second.Fret, k.second.Held, Exactly(k.second.Gap.Low)}))
			point := must(exactly.LowestFor(play, fret, 0))
			near(t, "a point", point.Gap.Width(), 0, 1e-9)
			if !suits.Gap.Contains(point.Gap.Low) {
				t.Fatalf("seed %d: %+v outside %+v", seed, point, suits)
			}
			if point.Gap.Low == 0 {
				continue
			}
			set := must(exactly.WithGap(fret, 0, point.Gap))
			for stop := play.From; stop <= play.To; stop++ {
				h := must(set.Headroom(stop, play.At))
				if h.Free.Low < play.Touch.Low-1e-9 {
					t.Fatalf("seed %d: stop %d has %v, %v needed", seed, stop, h.Free, play.Touch)
				}
			}
			at := must(set.Headroom(point.Stop, play.At))
			near(t, "where it is decided", at.Free.Low, play.Touch.Low, 1e-9)
			decided++
		}
	}
	if decided < 100 {
		t.Fatalf("only %d heights were looked at", decided)
	}
}

func TestALowNutShowsAsAHeightBeyondMeasure(t *testing.T) {
	p := plain(t, guitar, Exactly(0.1), Exactly(0.1), Exactly(2))
	// at fret 1 it needs 1.2 · 36.4817/100 = 0.4378 and has 0.1; the saddle gives 0.1123 of what it gives fret 12: 2 + 0.3378/0.1123 =
	// 5.009
	open := must(p.LowestFor(Playing{Touch: Exactly(1.2), At: 100}, 12, 0))
	nearInterval(t, "open", open.Gap, Exactly(5.009), 0.001)
	if open.Beyond || open.Stop != 0 || open.First != 1 {
		t.Errorf("%+v", open)
	}
	if open = must(p.LowestFor(Playing{Touch: Exactly(6), At: 100}, 12, 0)); !open.Beyond || open.Gap.High != LargestGap {
		t.Errorf("%+v", open)
	}
	if held := must(p.LowestFor(Playing{Touch: Exactly(1.2), At: 100, From: 1, To: 15}, 12, 0)); held.Beyond || held.Gap.High > 4 {
		t.Errorf("%+v", held)
	}
	// no room needed: the strings may lie where they like
	if none := must(p.LowestFor(Playing{At: 100, From: 13, To: 15}, 12, 0)); none.Gap.Low < 0 || none.Beyond {
		t.Errorf("%+v", none)
	}
}

func TestHeadroomRefuses(t *testing.T) {
	p := plain(t, guitar, Interval{}, Exactly(0.5), Exactly(2))
	for _, at := range []Length{0, -1, 650, nan} {
		_, err := p.Headroom(0, at)
		refused(t, "Headroom", err, QuantityPluckAt)
		_, err = p.Headrooms(at)
		refused(t, "Headrooms", err, QuantityPluckAt)
		_, err = p.LowestFor(Playing{At: at}, 12, 0)
		refused(t, "LowestFor", err, QuantityPluckAt)
	}
	_, err := p.Headroom(20, 100)
	refused(t, "Headroom", err, QuantityHeld)
	_, err = p.LowestFor(Playing{At: 100, From: 3, To: 2}, 12, 0)
	refused(t, "LowestFor", err, QuantityHeld)
	_, err = p.LowestFor(Playing{At: 100, From: 20, To: 20}, 12, 0)
	refused(t, "LowestFor", err, QuantityHeld)
	_, err = p.LowestFor(Playing{At: 100}, 1, 2)
	refused(t, "LowestFor", err, QuantityHeld)
	_, err = p.LowestFor(Playing{At: 100, Touch: Exactly(11)}, 12, 0)
	refused(t, "LowestFor", err, QuantityTouch)
	// plucked so far from the saddle that high stops have no such place: they are left out, not guessed
	if got := len(must(p.Headrooms(320))); got != 13 { // 650 − 325 = 325 is left at stop 12, 306.8 at 13
		t.Errorf("%d stops, want 13", got)
	}
}

func TestStylesNeedMoreRoomTheHarder(t *testing.T) {
	for _, f := range Families() {
		for _, side := range []Side{BassSide, TrebleSide} {
			before := Interval{}
			for _, s := range Styles() {
				touch, ok := StyleTouch(f.ID, side, s)
				if !ok || !(touch.Low > 0 && touch.Low < touch.High && touch.High < 3) {
					t.Fatalf("%s, side %d, style %d: %v", f.ID, side, s, touch)
				}
				if s > StyleLight {
					near(t, "from where the lighter one ends", touch.Low, before.High, 1e-12)
				}
				before = touch
			}
		}
	}
	if _, ok := StyleTouch("no such", BassSide, StyleLight); ok {
		t.Error("a touch for no family")
	}
	if _, ok := StyleTouch(FlatTop6, BassSide, StyleHard+1); ok {
		t.Error("a touch for no style")
	}
	// The usual heights suit the usual style, by the way these are made: the middle of the flat-top's, mixed.
	f, _ := FamilyOf(FlatTop6)
	touch, _ := StyleTouch(FlatTop6, TrebleSide, StyleMixed)
	p := plain(t, Neck{Scale: f.Scale, Body: f.Body, Frets: 19}, Exactly(0.2), Exactly(0.425), Exactly(1.85))
	suits := must(p.LowestFor(Playing{Touch: touch, At: UsualPluck * f.Scale, From: 1, To: 12}, 12, 0))
	near(t, "high", suits.Gap.High, 1.85, 1e-9)
}
