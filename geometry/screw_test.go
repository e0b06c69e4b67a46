package geometry_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	. "gapwright/geometry"
)

var m3 = Exactly(0.5) // the pitch of an M3 screw

func TestPublishedThreads(t *testing.T) {
	for _, row := range table(t, "threads", 12) {
		thread, ok := ThreadOf(ThreadID(row[0]))
		if !ok {
			t.Errorf("no thread %s", row[0])
			continue
		}
		tolerance := Length(1e-9)
		if thread.Standard == Unified {
			tolerance = 5.000001e-7
		}
		near(t, row[0]+" pitch", thread.Pitch, Length(number(t, row[1])), tolerance)
		near(t, row[0]+" major", thread.Major, Length(number(t, row[2])), 0.001)
		near(t, row[0]+" quarter turn", thread.Advance(0.25), Length(number(t, row[6])), 5.01e-7)
		pitch, minor, root := thread.Diameters()
		for i, d := range []Length{pitch, minor, root} {
			if row[3+i] != "" {
				near(t, row[0]+" diameter", d, Length(number(t, row[3+i])), 0.001)
			}
		}
	}
	// 25.4/40 × 1.5 = 0.952500; M3: 0.5 × 0.75 = 0.375
	unified, _ := ThreadOf("4-40")
	near(t, "4-40, 1.5 turns", unified.Advance(1.5), 0.952500, 1e-9)
	iso, _ := ThreadOf("m3")
	near(t, "M3, 0.75 turn", iso.Advance(0.75), 0.375, 1e-9)
	// a trap: one public table calls M2's root 1.509 its minor diameter, which is 1.567
	m2, _ := ThreadOf("m2")
	if _, minor, root := m2.Diameters(); minor < root+0.05 {
		t.Errorf("minor %v, root %v", minor, root)
	}
	seen := map[ThreadID]bool{}
	for _, thread := range Threads() {
		if seen[thread.ID] || thread.ID == "" || thread.Name == "" || !slices.Contains(ThreadStandards(), thread.Standard) {
			t.Errorf("%+v", thread)
		}
		seen[thread.ID] = true
		if _, err := TurnsFor(Exactly(0.1), Exactly(thread.Pitch)); err != nil {
			t.Errorf("%s: %v", thread.ID, err)
		}
	}
	if _, ok := ThreadOf("m99"); ok {
		t.Error("ThreadOf must say when there is none")
	}
}

func TestTurnsToTheNearestEighth(t *testing.T) {
	for _, c := range []struct {
		name   string
		change Interval
		pitch  Interval
		turns  Eighths
		moves  Interval
		left   Interval
	}{
		{"0.5 down on M3 is a turn", Exactly(-0.5), m3, -8, Exactly(-0.5), Exactly(0)},
		{"0.3 up on M3: 4.8 eighths, 5 are 0.3125", Exactly(0.3), m3, 5, Exactly(0.3125), Exactly(-0.0125)},
		{"0.4 down on 4-40: 5.04 eighths, 5 are 0.396875", Exactly(-0.4), Exactly(0.635), -5, Exactly(-0.396875), Exactly(-0.003125)},
		{"between two eighths the higher: 0.03125 is half of one", Exactly(0.03125), m3, 1, Exactly(0.0625), Exactly(-0.03125)},
		{"and so down", Exactly(-0.03125), m3, 0, Exactly(0), Exactly(-0.03125)},
		{"nothing", Exactly(0), m3, 0, Exactly(0), Exactly(0)},
		{"a range by its middle: 0.5 to 0.7 down is 9.6 eighths", Interval{-0.7, -0.5}, m3, -10, Exactly(-0.625), Interval{-0.075, 0.125}},
		{"a pitch known to 0.45 to 0.55", Exactly(-0.5), Interval{0.45, 0.55}, -8, Interval{-0.55, -0.45}, Interval{-0.05, 0.05}},
	} {
		got := must(TurnsFor(c.change, c.pitch))
		if got.Turns != c.turns {
			t.Errorf("%s: %d eighths, want %d", c.name, got.Turns, c.turns)
		}
		nearInterval(t, c.name+", moves", got.Moves, c.moves, 1e-9)
		nearInterval(t, c.name+", left", got.Left, c.left, 1e-9)
	}
	for _, c := range []struct {
		change, pitch Interval
		want          Quantity
	}{
		{Exactly(nan), m3, QuantityCut}, {Exactly(16), m3, QuantityCut}, {Interval{1, 0}, m3, QuantityCut},
		{Exactly(1), Exactly(0), QuantityPitch}, {Exactly(1), Exactly(nan), QuantityPitch}, {Exactly(1), Interval{0.6, 0.5}, QuantityPitch}, {Exactly(1), Exactly(4), QuantityPitch},
	} {
		_, err := TurnsFor(c.change, c.pitch)
		refused(t, "TurnsFor", err, c.want)
	}
	for e, want := range map[Eighths][3]int{0: {0, 0, 1}, 1: {0, 1, 8}, -6: {0, 3, 4}, 8: {1, 0, 1}, 12: {1, 1, 2}, -19: {2, 3, 8}} {
		w, n, d := e.Turns()
		if [3]int{w, n, d} != want {
			t.Errorf("%d eighths = %d %d/%d, want %v", e, w, n, d, want)
		}
	}
}

func TestPitchMeasuredByThePerson(t *testing.T) {
	// ten turns moved it by 5.00 ± 0.03: 0.497 to 0.503, either way round
	for _, turned := range []Eighths{80, -80} {
		nearInterval(t, "ten turns", must(MeasuredPitch(turned, 5, 0.03)), Interval{0.497, 0.503}, 1e-9)
	}
	// one turn: 0.5 ± 0.03
	nearInterval(t, "one turn", must(MeasuredPitch(8, 0.5, 0.03)), Interval{0.47, 0.53}, 1e-9)
	if _, err := MeasuredPitch(8, 0.03, 0.03); !errors.Is(err, ErrNoPitch) {
		t.Errorf("it may not have moved: %v", err)
	}
	for _, c := range []struct {
		turned          Eighths
		moved, accuracy Length
		want            Quantity
	}{
		{0, 5, 0.03, QuantityTurns}, {801, 5, 0.03, QuantityTurns}, {math.MinInt, 5, 0.03, QuantityTurns}, {8, nan, 0.03, QuantityLength}, {8, -1, 0.03, QuantityLength},
		{8, 0.5, nan, QuantityAccuracy}, {8, 0.5, 0, QuantityAccuracy}, {8, 0.2, 0.03, QuantityPitch}, {8, 3, 0.03, QuantityPitch},
	} {
		_, err := MeasuredPitch(c.turned, c.moved, c.accuracy)
		refused(t, "MeasuredPitch", err, c.want)
	}
}

func TestOneStringsScrew(t *testing.T) {
	for _, c := range []struct {
		name  string
		s     MeasuredString
		pitch Interval
		turns Eighths
		after Interval
	}{
		{"fret 12 down by 0.25 with M3: one turn", MeasuredString{Gap: Exactly(2), Target: 1.75, Leverage: 0.5}, m3, -8, Exactly(1.75)},
		{"up by 0.2: 0.4 at the saddle, 6.4 eighths, 6 are 0.375", MeasuredString{Gap: Exactly(1.4), Target: 1.6, Leverage: 0.5}, m3, 6, Exactly(1.5875)},
		{"a rule's reading by its middle: 0.375 × 2 is 12 eighths", MeasuredString{Gap: Interval{2.25, 2.5}, Target: 2, Leverage: 0.5}, m3, -12, Interval{1.875, 2.125}},
		{"not under the floor of 1.95: (2.25 − 1.95) × 2 = 0.6 is 9.6 eighths, so 9 and not 12", MeasuredString{Gap: Interval{2.25, 2.5}, Target: 2, Floor: 1.95, Leverage: 0.5}, m3, -9,
			Interval{1.96875, 2.21875}},
		{"and with a pitch of up to 0.55, 8", MeasuredString{Gap: Interval{2.25, 2.5}, Target: 2, Floor: 1.95, Leverage: 0.5}, Interval{0.45, 0.55}, -8, Interval{1.975, 2.275}},
		{"it may be under its floor: raised by 0.2 for sure, 3.2 eighths, so 4", MeasuredString{Gap: Interval{1.5, 1.75}, Target: 1.6, Floor: 1.6, Leverage: 0.5}, m3, 4, Interval{1.625, 1.875}},
		{"and with a pitch from 0.4, 0.2/0.05", MeasuredString{Gap: Interval{1.5, 1.75}, Target: 1.6, Floor: 1.6, Leverage: 0.5}, Interval{0.4, 0.5}, 4, Interval{1.6, 1.875}},
	} {
		got := must(c.s.Screw(c.pitch))
		if got.Turns != c.turns {
			t.Errorf("%s: %d eighths, want %d", c.name, got.Turns, c.turns)
		}
		nearInterval(t, c.name, got.After, c.after, 1e-9)
		nearInterval(t, c.name+", over", got.Over, c.after.Shifted(-c.s.Target), 1e-9)
	}
	for _, c := range []struct {
		s     MeasuredString
		pitch Interval
		want  Quantity
	}{
		{MeasuredString{Gap: Exactly(nan), Leverage: 0.5}, m3, QuantityGap}, {MeasuredString{Gap: Exactly(2), Target: nan, Leverage: 0.5}, m3, QuantityTarget},
		{MeasuredString{Gap: Exactly(2), Leverage: 0}, m3, QuantityLeverage}, {MeasuredString{Gap: Exactly(2), Leverage: 0.5, Offset: nan}, m3, QuantityOffset},
		{MeasuredString{Gap: Exactly(2), Leverage: 0.5}, Exactly(0), QuantityPitch}, {MeasuredString{Gap: Exactly(15), Leverage: 0.01}, m3, QuantityTurns},
	} {
		_, err := c.s.Screw(c.pitch)
		refused(t, "Screw", err, c.want)
	}
}

func TestMiddleStringsFollowTheOuterTwo(t *testing.T) {
	strings, _ := spread(6) // targets are replaced: 2.0 to 1.7 over 54 mm in five steps of 0.06
	for i := range strings {
		strings[i].Target = []Length{2, 9, 9, 9, 9, 1.7}[i]
	}
	follow := must(FollowOuter(strings))
	for i, want := range []Length{2.0, 1.94, 1.88, 1.82, 1.76, 1.7} {
		near(t, "target", follow[i].Target, want, 1e-9)
	}
	if strings[1].Target != 9 {
		t.Error("FollowOuter must not touch what it was given")
	}
	// the order of work does not depend on the order of the strings
	shuffled := []MeasuredString{follow[3], follow[5], follow[1], follow[0], follow[4], follow[2]}
	turns, order, err := Screws(shuffled, m3)
	if err != nil || !slices.Equal(order, []int{3, 1, 2, 5, 0, 4}) {
		t.Errorf("order %v, %v", order, err)
	}
	for i, s := range shuffled {
		if want := must(s.Screw(m3)); turns[i] != want {
			t.Errorf("string %d: %+v, want %+v", i, turns[i], want)
		}
	}
	for _, bad := range [][]MeasuredString{nil, strings[:1], {strings[0], strings[0]}} {
		_, err := FollowOuter(bad)
		_, _, err2 := Screws(bad, m3)
		if !errors.Is(err, ErrTooFewStrings) || !errors.Is(err2, ErrTooFewStrings) {
			t.Errorf("%v, %v", err, err2)
		}
	}
	if _, _, err := Screws(make([]MeasuredString, 13), m3); !errors.Is(err, ErrTooMany) {
		t.Errorf("thirteen: %v", err)
	}
	_, err = FollowOuter(make([]MeasuredString, 3))
	refused(t, "FollowOuter", err, QuantityLeverage)
	_, _, err = Screws(strings, Exactly(0))
	refused(t, "Screws", err, QuantityPitch)
}

func TestNoScrewLetsAStringUnderItsFloor(t *testing.T) {
	for _, seed := range seeds {
		rng := rand.New(rand.NewPCG(seed, 61))
		floored := 0
		for range 4000 {
			strings, _ := anyStrings(rng, 2)
			s := strings[0]
			p := Length(0.3 + rng.Float64())
			pitch := Interval{p, p + Length(rng.Float64()*0.1)}
			got := must(s.Screw(pitch))
			if got.After.Low < s.Floor-1e-6 {
				t.Fatalf("seed %d: %+v comes to %v", seed, s, got)
			}
			// any true gap, any true pitch
			truth := s.Gap.Low + s.Gap.Width()*Length(rng.Float64())
			turn := (p + pitch.Width()*Length(rng.Float64())) / 8
			if after := truth + Length(s.Leverage)*turn*Length(got.Turns); !got.After.Contains(after) {
				t.Fatalf("seed %d: %v outside %+v", seed, after, got)
			}
			off := math.Abs(float64(got.Left.Middle()))
			switch lower := got.Turns - 1; {
			case off <= float64(pitch.Middle())/16+1e-6: // the nearest
			case s.Gap.Low+Length(s.Leverage)*min(pitch.Low*Length(lower), pitch.High*Length(lower))/8 >= s.Floor-1e-9:
				t.Fatalf("seed %d: %+v is neither the nearest nor the floor's", seed, got)
			default:
				floored++
			}
			wider := s
			wider.Target += Length(rng.Float64())
			if must(wider.Screw(pitch)).Turns < got.Turns {
				t.Fatalf("seed %d: wanted higher, turned lower: %+v", seed, s)
			}
			k := Length(0.6 + rng.Float64())
			big := scaled(strings, k)[0]
			if p*k < 0.2 || (pitch.High*k) > 3 {
				continue
			}
			if d := must(big.Screw(pitch.Times(float64(k)))).Turns - got.Turns; d < -1 || d > 1 { // at a rounding's edge
				t.Fatalf("seed %d: scaled %+v turns otherwise", seed, s)
			}
		}
		if floored < 100 {
			t.Fatalf("seed %d: only %d were held by their floor", seed, floored)
		}
	}
}

func TestInnerSeatsFollowTheRadius(t *testing.T) {
	// strings that do not fan out over a 16-inch cylinder with one target: at ±5.2, ±15.6, ±26 mm the drops are 0.033269, 0.299520, 0.832546
	// mm, so the seats stand 0.799277 and 0.533026 over the line of the outer two
	sixteen := Camber{Nut: 406.4}
	seats := make([]Seat, 6)
	for i := range seats {
		u := -26 + 10.4*Length(i)
		seats[i] = Seat{Nut: u, Saddle: u, First: Exactly(0.5), Twelfth: 1.8}
	}
	above := must(InnerSeats(guitar, sixteen, seats))
	for i, want := range []Length{0, 0.533026, 0.799277, 0.799277, 0.533026, 0} {
		nearInterval(t, "seat", above[i], Exactly(want), 1e-5)
	}
	// a first-fret gap known to 0.1 moves the saddle's seat by (1 − λ12)/λ12 of its part: hS = [g12 − g1·(1 − λ12)/(1 − λ1)]/(λ12 − λ1·(1 − λ12)/(1 − λ1)),
	// λ1 = 0.0561257, λ12 = 0.5: 0.529731/0.470269 = 1.126443 for each millimetre
	seats[2].First = Interval{0.5, 0.6}
	nearInterval(t, "uncertain nut", must(InnerSeats(guitar, sixteen, seats))[2], Interval{0.799277 - 0.112644, 0.799277}, 1e-5)
	for _, bad := range [][]Seat{seats[:2], {seats[0], seats[0], seats[0]}} {
		if _, err := InnerSeats(guitar, sixteen, bad); !errors.Is(err, ErrFewStrings) {
			t.Errorf("%v", err)
		}
	}
	seats[0].Saddle = 50
	_, err := InnerSeats(guitar, sixteen, seats)
	refused(t, "InnerSeats", err, QuantityOffset)
}

func TestATrialTurnTellsTheWay(t *testing.T) {
	for _, c := range []struct {
		name          string
		before, after Interval
		clockwise     Eighths
		want          Sense
	}{
		{"up", Interval{1.75, 2}, Interval{2, 2.25}, 8, ClockwiseRaises},
		{"down", Interval{2, 2.25}, Interval{1.75, 2}, 8, ClockwiseLowers},
		{"up against the clock", Interval{1.75, 2}, Interval{2.1, 2.25}, -8, ClockwiseLowers},
		{"down against the clock", Interval{2, 2.25}, Interval{1.5, 1.75}, -8, ClockwiseRaises},
		{"the same marks", Interval{2, 2.25}, Interval{2, 2.25}, 8, SenseUnknown},
		{"they overlap", Interval{2, 2.25}, Interval{2.2, 2.45}, 8, SenseUnknown},
		{"exact and the same", Exactly(2), Exactly(2), 8, SenseUnknown},
		{"exact", Exactly(2), Exactly(2.01), 8, ClockwiseRaises},
		{"not turned", Interval{1.75, 2}, Interval{2, 2.25}, 0, SenseUnknown},
		{"no reading", Exactly(nan), Exactly(2), 8, SenseUnknown},
	} {
		if got := TrialTurn(c.before, c.after, c.clockwise); got != c.want {
			t.Errorf("%s: %d, want %d", c.name, got, c.want)
		}
	}
	if len(Senses()) != 3 {
		t.Error("Senses")
	}
}

func TestWayListsNameEachOnce(t *testing.T) {
	seen := map[Quantity]bool{}
	for _, q := range slices.Concat(Quantities(), NeckQuantities(), WayQuantities()) {
		if q == "" || seen[q] {
			t.Errorf("%q twice", q)
		}
		seen[q] = true
	}
	texts := map[string]bool{}
	for _, err := range slices.Concat(Refusals(), NeckRefusals(), WayRefusals()) {
		if texts[err.Error()] {
			t.Errorf("%v twice", err)
		}
		texts[err.Error()] = true
	}
}

func FuzzScrew(f *testing.F) {
	f.Add(2.25, 2.5, 2.0, 1.8, 0.5, 0.5, 0.5, 80, 5.0, 0.03)
	f.Add(0.0, 15.0, 15.0, 15.0, 0.01, 0.2, 3.0, -800, 40.0, 1.0)
	f.Add(math.NaN(), math.Inf(1), -1.0, 0.0, 2.0, 0.0, math.NaN(), math.MinInt, math.NaN(), 0.0)
	f.Fuzz(func(t *testing.T, low, high, target, floor, lever, p1, p2 float64, turned int, moved, accuracy float64) {
		s := MeasuredString{Gap: Interval{Length(low), Length(high)}, Target: Length(target), Floor: Length(floor), Leverage: lever}
		pitch := Interval{Length(p1), Length(p2)}
		if got, err := s.Screw(pitch); err == nil && (!sound(got.After) || !sound(got.Left) || got.After.Low < s.Floor-1e-5) {
			t.Fatalf("%+v: %+v", s, got)
		}
		if got, err := TurnsFor(s.Gap, pitch); err == nil && (!sound(got.Moves) || math.Abs(float64(got.Left.Middle())) > float64(pitch.Middle())/16+1e-6) {
			t.Fatalf("%v: %+v", s.Gap, got)
		}
		if got, err := MeasuredPitch(Eighths(turned), Length(moved), Length(accuracy)); err == nil && !sound(got) {
			t.Fatalf("%v", got)
		}
		TrialTurn(s.Gap, pitch, Eighths(turned))
	})
}
