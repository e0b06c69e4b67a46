package geometry_test

import (
	"errors"
	"testing"

	. "gapwright/geometry"
)

// The saddle of the worked values: 72 mm long, its outer strings 54 mm apart, so that each end lies 9 mm beyond its string: a sixth of the spread.
var ends72 = Ends{Bass: -36, Treble: 36}

// two makes a bass and a treble string at fret 12 with no setback, floors at nothing.
func two(bass Interval, bassTarget Length, treble Interval, trebleTarget Length) []MeasuredString {
	return []MeasuredString{
		{Offset: -27, Gap: bass, Target: bassTarget, Leverage: 0.5},
		{Offset: 27, Gap: treble, Target: trebleTarget, Leverage: 0.5},
	}
}

func nearLine(t *testing.T, what string, got Line, bass, treble Length) {
	t.Helper()
	near(t, what+", bass end", got.Bass, bass, 1e-6)
	near(t, what+", treble end", got.Treble, treble, 1e-6)
}

func TestWholeCutOfExactReadings(t *testing.T) {
	for _, c := range []struct {
		name                          string
		setback                       Length
		fret, held                    int
		gap, target, want, resolution Length
	}{
		{"2.5 wanted 1.75 at fret 12: 0.75 × 2", 0, 12, 0, 2.5, 1.75, 1.5, 1e-12},
		{"with 2 mm setback: 0.75 × 652/325 = 1.504615", 2, 12, 0, 2.5, 1.75, 1.504615, 5e-7},
		{"2.7 wanted 2.2: 1.000000", 0, 12, 0, 2.7, 2.2, 1, 1e-12},
		{"fret 14: 0.6 × 650/360.4579 = 1.08196", 0, 14, 0, 2.6, 2.0, 1.08196, 5e-6},
		{"fret 17: 0.6 × 650/406.5251 = 0.95935", 0, 17, 0, 2.6, 2.0, 0.95935, 5e-6},
		{"held at fret 1: 0.3 × 613.5183/288.5183 = 0.63793", 0, 12, 1, 2.0, 1.7, 0.63793, 5e-6},
		{"wanted higher than it is: nothing comes off", 0, 12, 0, 1.75, 2.5, 0, 0},
	} {
		strings := two(Exactly(c.gap), c.target, Exactly(c.gap), c.target)
		for i := range strings {
			strings[i].Leverage = must(Leverage(650, c.setback, c.fret, c.held))
		}
		whole := must(WholeCut(strings, ends72))
		for _, s := range whole.Strings {
			nearInterval(t, c.name, s, Exactly(c.want), c.resolution)
		}
		nearInterval(t, c.name+", bass end", whole.Bass, Exactly(c.want), c.resolution+1e-8)
		nearInterval(t, c.name+", treble end", whole.Treble, Exactly(c.want), c.resolution+1e-8)
		nearInterval(t, c.name+", a marked point", whole.At(11), Exactly(c.want), c.resolution+1e-8)
		near(t, c.name+", left", whole.Leaves[0], min(0, c.gap-c.target), 1e-8)
	}
	// 1.000 mm off the saddle lowers fret 1 by 0.056126
	first := MeasuredString{Gap: Exactly(1), Leverage: must(Leverage(650, 0, 1, 0))}
	near(t, "fret 1", 1-first.After(Exactly(1)).High, 0.056126, 5e-7)
}

func TestAMarkedRuleGivesAStopLineAndARange(t *testing.T) {
	gap := must(TwoMarks(2.25, 2.50))
	strings := two(gap, 2, gap, 2)
	stop := must(StopLine(strings, ends72, RoundRules{Smoothing: 0.10})) // (2.25 − 2.00) × 2 − 0.10
	nearLine(t, "stop line", stop.Line, 0.40, 0.40)
	nearLine(t, "full", stop.Full, 0.50, 0.50)
	whole := must(WholeCut(strings, ends72))
	for _, s := range whole.Strings {
		nearInterval(t, "at a string", s, Interval{0.50, 1.00}, 1e-12)
	}
	// at the ends low/low and high/high are not the bounds: 0.5 − (1.0 − 0.5)/6 to 1.0 + (1.0 − 0.5)/6
	nearInterval(t, "bass end", whole.Bass, Interval{0.416667, 1.083333}, 1e-6)
	nearInterval(t, "treble end", whole.Treble, Interval{0.416667, 1.083333}, 1e-6)
	nearLine(t, "middle", whole.Middle, 0.75, 0.75)
	// the string after the round: 2.25 − 0.5/2 at the lowest, 2.50 − 0.4/2 at the highest
	nearInterval(t, "after", strings[0].After(Interval{0.4, 0.5}), Interval{2.0, 2.3}, 1e-12)
	near(t, "lowest", stop.Lowest[0], 2.0, 1e-8)
	near(t, "asked", stop.Asked[0], 0.40, 1e-12)
	if stop.Nothing() || stop.FineBass || stop.FineTreble {
		t.Error("there is something to sand, not only with fine paper")
	}
}

func TestBassAndTrebleAreCarriedToTheSaddleEnds(t *testing.T) {
	// bass 2.75 → 2.25: 1.0 off; treble 2.1 → 1.8: 0.6 off; 0.4 over 54 mm, 9 mm further each way: 1.066667 and 0.533333
	strings := two(Exactly(2.75), 2.25, Exactly(2.1), 1.8)
	whole := must(WholeCut(strings, ends72))
	nearLine(t, "whole", whole.Middle, 1.066667, 0.533333)
	near(t, "at the bass string", whole.Middle.At(-27), 1.0, 1e-8)
	near(t, "in the middle", whole.Middle.At(0), 0.8, 1e-8)
	stop := must(StopLine(strings, ends72, RoundRules{Smoothing: 0.1}))
	nearLine(t, "stop", stop.Line, 0.966667, 0.433333)
	// another scale on the treble side is another leverage: bass 0.5/0.5, treble 0.3/0.48 = 0.625
	strings[1].Leverage = 0.48
	whole = must(WholeCut(strings, ends72))
	nearLine(t, "two scales", whole.Middle, 1.0625, 0.5625) // (1 − 0.625)/6 = 0.0625
}

func TestFirstTimeStopsHalfWay(t *testing.T) {
	rules := RoundRules{Smoothing: 0.1, HalfWay: true}
	// (2.5 − 1.75)/0.5/2 = 0.75, less than 1.5 − 0.1
	strings := two(Exactly(2.5), 1.75, Exactly(2.5), 1.75)
	nearLine(t, "half-way", must(StopLine(strings, ends72, rules)).Line, 0.75, 0.75)
	// a floor at 2.2: (2.5 − 2.2)/0.5 − 0.1 = 0.5 is less still
	strings[0].Floor, strings[1].Floor = 2.2, 2.2
	nearLine(t, "floor", must(StopLine(strings, ends72, rules)).Line, 0.5, 0.5)
	// marks 2.25/2.50 wanted 2.00: half is 0.25, under 0.40
	strings = two(Interval{2.25, 2.5}, 2, Interval{2.25, 2.5}, 2)
	nearLine(t, "marks", must(StopLine(strings, ends72, rules)).Line, 0.25, 0.25)
	// wanted 2.20: half is 0.05 and the floor of the reading is (0.05 × 2) − 0.1 = 0: nothing
	strings = two(Interval{2.25, 2.5}, 2.2, Interval{2.25, 2.5}, 2.2)
	if stop := must(StopLine(strings, ends72, rules)); !stop.Nothing() || stop.Line.Bass < 0 {
		t.Errorf("%+v, want nothing", stop)
	}
}

func TestFloorsRefusePerString(t *testing.T) {
	// bass wanted 1.8 but floor 2.0: (2.25 − 2.0) × 2 = 0.5; treble wanted 1.6, floor 1.4: (2.0 − 1.6) × 2 = 0.8
	strings := two(Exactly(2.25), 1.8, Exactly(2.0), 1.6)
	strings[0].Floor, strings[1].Floor = 2.0, 1.4
	stop := must(StopLine(strings, ends72, RoundRules{Smoothing: 0.1}))
	near(t, "bass", stop.Line.At(-27), 0.4, 1e-8)
	near(t, "treble", stop.Line.At(27), 0.7, 1e-8)
	near(t, "bass at its floor", stop.Lowest[0], 2.0, 1e-8)
	near(t, "treble at its target", stop.Lowest[1], 1.6, 1e-8)
	// the whole cut keeps to the floor too: 0.5 at the bass string, not the 0.9 that is wished
	whole := must(WholeCut(strings, ends72))
	near(t, "whole, bass", whole.Middle.At(-27), 0.5, 1e-8)
	near(t, "left over the wish", whole.Leaves[0], 0.2, 1e-8)
	// a string under its floor already is not touched, and the straight underside then touches no other
	strings[0].Gap = Exactly(1.95)
	stop = must(StopLine(strings, ends72, RoundRules{Smoothing: 0.1}))
	nearLine(t, "under the floor", stop.Full, 0, 0)
	near(t, "asked: (1.95 − 2.0) × 2 − 0.1", stop.Asked[0], -0.2, 1e-12)
	if !stop.Nothing() {
		t.Error("nothing may come off")
	}
	if _, _, ok := Blocked(strings, ends72, RoundRules{Smoothing: 0.1}); ok {
		t.Error("no lower target helps a string that is under its floor")
	}
}

func TestARuleWithMillimetreMarks(t *testing.T) {
	gap := must(TwoMarks(2, 3))
	stop := must(StopLine(two(gap, 1.7, gap, 1.7), ends72, RoundRules{Smoothing: 0.1})) // (2.0 − 1.7) × 2 − 0.1
	nearLine(t, "wanted 1.70", stop.Line, 0.5, 0.5)
	stop = must(StopLine(two(gap, 2, gap, 2), ends72, RoundRules{Smoothing: 0.1}))
	if !stop.Nothing() {
		t.Errorf("wanted 2.00: %+v, want nothing", stop)
	}
	if v := Judge(gap, 2, 0.5); v != CannotTell {
		t.Errorf("wanted 2.00: %d, want CannotTell", v)
	}
	// the reading's own low edge must not turn rounding into a plan: 0.1 + 0.2 is a hair over 0.3
	tenth := Length(0.1)
	stop = must(StopLine(two(Exactly(2+tenth+0.2), 2.3, Exactly(2+tenth+0.2), 2.3), ends72, RoundRules{}))
	if !stop.Nothing() {
		t.Errorf("a hair over: %+v, want nothing", stop)
	}
}

func TestAnEndThatWouldGoNegative(t *testing.T) {
	// bass asks 0.05, treble 1.0: the line through both is 0.05 − 0.95/6 = −0.108 at the bass end. From nothing there, q at the treble end
	// takes q/8 at the bass string and 7q/8 at the treble string; equally wrong both ways: 0.5 − 7q/16 = q/16 − 0.025, q = 1.05.
	strings := two(Exactly(2.025), 2, Exactly(2.3), 1.8)
	whole := must(WholeCut(strings, ends72))
	nearLine(t, "whole", whole.Middle, 0, 1.05)
	near(t, "bass goes under by 1.05/16 − 0.025", whole.Leaves[0], -0.040625, 1e-8)
	near(t, "treble stays over by the same", whole.Leaves[1], 0.040625, 1e-8)
	nearInterval(t, "the bass end", whole.Bass, Exactly(0), 1e-8)
	// a round never lets the bass string under its target: q/8 ≤ 0.05, q = 0.4, less the smoothing at that end alone
	stop := must(StopLine(strings, ends72, RoundRules{Smoothing: 0.1}))
	nearLine(t, "full", stop.Full, 0, 0.4)
	nearLine(t, "stop line", stop.Line, 0, 0.3)
	near(t, "treble stays over its target by 0.5 − 0.4 × 7/16", stop.Leaves[1], 0.325, 1e-8)
	// in the way: the bass string. The treble's 1.0 at 63 of 72 mm makes 1.142857 at the end and 0.142857 here: 2.025 − 0.071429 = 1.953571
	i, target, ok := Blocked(strings, ends72, RoundRules{Smoothing: 0.1, HalfWay: true})
	if i != 0 || !ok {
		t.Fatalf("Blocked = %d, %v, %v; want the bass string", i, target, ok)
	}
	near(t, "the target it would need", target, 1.95, 1e-9)
	strings[0].Target = target
	stop = must(StopLine(strings, ends72, RoundRules{Smoothing: 0.1}))
	near(t, "then the treble string gets all it asks", stop.Leaves[1], 0, 1e-8)
	strings[0].Target, strings[0].Floor = 2, 1.96
	if _, _, ok := Blocked(strings, ends72, RoundRules{Smoothing: 0.1}); ok {
		t.Error("no target under the floor is offered")
	}
	// treble wanted 2.0 off: 2/0.875 × 0.125 = 0.285714 here, 2.0 − 0.142857 = 1.857143; a halved first round does not change what it needs
	for _, half := range []bool{false, true} {
		strings := two(Exactly(2), 2, Exactly(2.25), 1.25)
		_, target, ok := Blocked(strings, ends72, RoundRules{Smoothing: 0.1, HalfWay: half})
		near(t, "the target it would need", target, 1.85, 1e-9)
		strings[0].Target = target
		stop := must(StopLine(strings, ends72, RoundRules{Smoothing: 0.1, HalfWay: half}))
		if asked := stop.Asked[1]; !ok || stop.Line.At(27) < asked-1e-6 {
			t.Errorf("half-way %v: the treble string gets %v of %v", half, stop.Line.At(27), asked)
		}
	}
	if _, _, ok := Blocked(two(Exactly(2.5), 2, Exactly(2.5), 2), ends72, RoundRules{Smoothing: 0.1}); ok {
		t.Error("nothing is in the way of a level cut")
	}
	if _, _, ok := Blocked(two(Exactly(2), 2, Exactly(2.05), 2), ends72, RoundRules{Smoothing: 0.1}); ok {
		t.Error("nobody asks for more than the smoothing takes")
	}
}

func TestSmoothingLargerThanOneEndsCut(t *testing.T) {
	// bass asks 0.05, treble 0.30: 0.05 − 0.25/6 = 0.008333 at the bass end, 0.341667 at the treble end
	strings := two(Exactly(2.025), 2, Exactly(2.15), 2)
	stop := must(StopLine(strings, ends72, RoundRules{Smoothing: 0.1}))
	nearLine(t, "full", stop.Full, 0.008333, 0.341667)
	nearLine(t, "stop line", stop.Line, 0, 0.241667)
	near(t, "fine paper takes what there is", stop.SmoothBass, 0.008333, 1e-6)
	near(t, "and the usual at the other end", stop.SmoothTreble, 0.1, 1e-9)
	if !stop.FineBass || stop.FineTreble || stop.Nothing() {
		t.Errorf("%+v: only fine paper at the bass end", stop)
	}
}

func TestSixStringsShareTheWorstDeviation(t *testing.T) {
	// Three strings at −27, 0, 27 that ask 0.4, 0.8, 0.4 (heights 0.2, 0.4, 0.2): level at 0.6, everyone out by 0.1 at the fret
	strings := append(two(Exactly(2.2), 2, Exactly(2.2), 2), MeasuredString{Gap: Exactly(2.4), Target: 2, Leverage: 0.5})
	whole := must(WholeCut(strings, ends72))
	nearLine(t, "whole", whole.Middle, 0.6, 0.6)
	for i, want := range []Length{-0.1, -0.1, 0.1} {
		near(t, "left", whole.Leaves[i], want, 1e-8)
	}
	// with floors at the targets the outer strings allow 0.4 and the middle one keeps 0.2
	for i := range strings {
		strings[i].Floor = 2
	}
	whole = must(WholeCut(strings, ends72))
	nearLine(t, "floors", whole.Middle, 0.4, 0.4)
	near(t, "left in the middle", whole.Leaves[2], 0.2, 1e-8)
}

func TestStringsAreRefused(t *testing.T) {
	good := two(Interval{2.25, 2.5}, 2, Interval{2.25, 2.5}, 2)
	change := func(f func(s *MeasuredString)) []MeasuredString {
		s := append([]MeasuredString(nil), good...)
		f(&s[1])
		return s
	}
	both := func(strings []MeasuredString, ends Ends) []error {
		_, whole := WholeCut(strings, ends)
		_, stop := StopLine(strings, ends, RoundRules{Smoothing: 0.1})
		if _, _, ok := Blocked(strings, ends, RoundRules{}); ok {
			t.Error("Blocked answers where StopLine refuses")
		}
		return []error{whole, stop}
	}
	for _, c := range []struct {
		strings []MeasuredString
		ends    Ends
		want    error
	}{
		{nil, ends72, ErrTooFewStrings}, {good[:1], ends72, ErrTooFewStrings},
		{change(func(s *MeasuredString) { s.Offset = -26.5 }), ends72, ErrTooFewStrings},
		{append(make([]MeasuredString, 11), good...), ends72, ErrTooMany},
		{good, Ends{Bass: -20, Treble: 20}, ErrOutsideSaddle},
		{change(func(s *MeasuredString) { s.Offset = nan }), ends72, ErrOutsideSaddle},
	} {
		for _, err := range both(c.strings, c.ends) {
			if !errors.Is(err, c.want) {
				t.Errorf("%v, want %v", err, c.want)
			}
		}
	}
	for _, c := range []struct {
		strings []MeasuredString
		ends    Ends
		want    Quantity
	}{
		{change(func(s *MeasuredString) { s.Gap = Interval{nan, 2} }), ends72, QuantityGap},
		{change(func(s *MeasuredString) { s.Gap = Interval{2.5, 2.25} }), ends72, QuantityGap},
		{change(func(s *MeasuredString) { s.Gap = Interval{2, 25} }), ends72, QuantityGap},
		{change(func(s *MeasuredString) { s.Target = nan }), ends72, QuantityTarget},
		{change(func(s *MeasuredString) { s.Floor = -1 }), ends72, QuantityTarget},
		{change(func(s *MeasuredString) { s.Leverage = 0 }), ends72, QuantityLeverage},
		{change(func(s *MeasuredString) { s.Leverage = 1e-300 }), ends72, QuantityLeverage},
		{good, Ends{Bass: -inf, Treble: inf}, QuantitySaddle}, {good, Ends{Bass: nan, Treble: 36}, QuantitySaddle},
		{good, Ends{Bass: 36, Treble: -36}, QuantitySaddle}, {good, Ends{}, QuantitySaddle},
	} {
		for _, err := range both(c.strings, c.ends) {
			refused(t, "strings", err, c.want)
		}
	}
	for _, smoothing := range []Length{-0.1, 1.1, nan} {
		_, err := StopLine(good, ends72, RoundRules{Smoothing: smoothing})
		refused(t, "smoothing", err, QuantityAllow)
	}
}
