package geometry_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	. "gapwright/geometry"
)

var nan, inf = Length(math.NaN()), Length(math.Inf(1))

// refused fails unless err is a refusal of that quantity.
func refused(t *testing.T, what string, err error, want Quantity) {
	t.Helper()
	var r *RangeError
	if !errors.As(err, &r) || r.Quantity != want || r.Error() == "" {
		t.Errorf("%s: %v, want a refusal of the %s", what, err, want)
	}
}

func TestTwoMarksHoldTheGap(t *testing.T) {
	if got := must(TwoMarks(2.25, 2.50)); got != (Interval{2.25, 2.50}) {
		t.Errorf("got %v", got)
	}
	for _, c := range [][2]Length{{2.5, 2.25}, {2, 2}} {
		if _, err := TwoMarks(c[0], c[1]); !errors.Is(err, ErrMarksOrder) {
			t.Errorf("TwoMarks(%v): %v", c, err)
		}
	}
	for _, c := range [][2]Length{{25, 26}, {-1, 2}, {2, 15.1}, {nan, 2}, {2, nan}, {2, inf}} {
		_, err := TwoMarks(c[0], c[1])
		refused(t, "TwoMarks", err, QuantityGap)
	}
}

func TestARuleWhoseZeroIsNotAtItsEnd(t *testing.T) {
	marks := must(TwoMarks(1.5, 2.0))
	// the zero 0.5 above the end: the mark 1.5 stands at 2.0
	nearInterval(t, "zero above the end", must(OnRuleEnd(marks, Exactly(0.5))), Interval{2.0, 2.5}, 1e-12)
	// cut off 0.5 past the zero: the mark 1.5 stands at 1.0
	nearInterval(t, "cut off past zero", must(OnRuleEnd(marks, Exactly(-0.5))), Interval{1.0, 1.5}, 1e-12)
	// e known to 0.1: the reading widens by it, 1.5 + 0.4 to 2.0 + 0.6
	nearInterval(t, "uncertain e", must(OnRuleEnd(marks, Interval{0.4, 0.6})), Interval{1.9, 2.6}, 1e-12)
	nearInterval(t, "no e", must(OnRuleEnd(marks, Exactly(0))), marks, 0)
	// cut off 1.75 past zero: from 0, a gap is never less than nothing, to 0.25
	nearInterval(t, "cut off inside the reading", must(OnRuleEnd(marks, Exactly(-1.75))), Interval{0, 0.25}, 1e-12)
	if _, err := OnRuleEnd(marks, Exactly(-2)); !errors.Is(err, ErrBelowRule) {
		t.Errorf("nothing left above zero: %v", err)
	}
	for _, e := range []Interval{{-11, 0}, {0, 11}, {nan, 0}, {0.2, 0.1}} {
		_, err := OnRuleEnd(marks, e)
		refused(t, "OnRuleEnd", err, QuantityRuleEnd)
	}
	for _, read := range []Interval{{nan, 1}, {2, 1}, {-1, 1}, {1, inf}} {
		_, err := OnRuleEnd(read, Exactly(0))
		refused(t, "OnRuleEnd", err, QuantityGap)
	}
	_, err := OnRuleEnd(Interval{9, 10}, Exactly(6)) // 16 mm
	refused(t, "OnRuleEnd", err, QuantityGap)
}

func TestCaliperFeelersAndCards(t *testing.T) {
	nearInterval(t, "caliper", must(Caliper(2.37, 0.03)), Interval{2.34, 2.40}, 1e-12)
	nearInterval(t, "caliper near zero", must(Caliper(0.01, 0.03)), Interval{0, 0.04}, 1e-12)
	for _, v := range []Length{-0.1, 25, nan, 15} {
		_, err := Caliper(v, CaliperAccuracy)
		refused(t, "Caliper", err, QuantityGap)
	}
	for _, a := range []Length{0, 1.1, nan} {
		_, err := Caliper(2, a)
		refused(t, "Caliper", err, QuantityAccuracy)
	}
	nearInterval(t, "feelers", must(JustFits(0.25, 0.30)), Interval{0.25, 0.30}, 0)
	if _, err := JustFits(0.3, 0.3); !errors.Is(err, ErrFeelerOrder) {
		t.Errorf("JustFits: %v", err)
	}
	for _, f := range [][2]Length{{-0.1, 1}, {0.1, 16}, {nan, 1}, {0.1, nan}} {
		_, err := JustFits(f[0], f[1])
		refused(t, "JustFits", err, QuantityFeeler)
	}
	// ten cards measure 3.0 ± 0.03, one is 0.297 to 0.303: seven go under, eight do not: 7 × 0.297 = 2.079 to 8 × 0.303 = 2.424
	nearInterval(t, "cards", must(Cards(7, Interval{2.97, 3.03})), Interval{2.079, 2.424}, 1e-12)
	for _, c := range []Interval{{0.4, 3}, {3, 15.5}, {3.03, 2.97}, {nan, 3}} {
		_, err := Cards(7, c)
		refused(t, "Cards", err, QuantityCards)
	}
	for _, n := range []int{-1, 201} {
		_, err := Cards(n, Exactly(3))
		refused(t, "Cards", err, QuantityCards)
	}
	_, err := Cards(60, Exactly(3)) // 18 mm
	refused(t, "Cards", err, QuantityFeeler)
}

func TestFeelerSets(t *testing.T) {
	for leaves, last := range map[int]Length{8: 0.50, 13: 1.00, 20: 1.00} { // customary metric sets, from memory
		set := FeelerSet(leaves)
		if len(set) != leaves || set[0] != 0.05 || set[leaves-1] != last {
			t.Errorf("set of %d: %v", leaves, set)
		}
	}
	if FeelerSet(9) != nil {
		t.Error("there is no set of 9")
	}
	for _, c := range []struct {
		set       int
		thickness Length
		want      []Length
	}{
		{13, 0.25, []Length{0.25}},                  // one leaf, though 0.10 + 0.15 would do
		{13, 0.55, []Length{0.50, 0.05}},            // two, exact
		{8, 0.60, []Length{0.50, 0.10}},             //
		{8, 1.45, []Length{0.50, 0.40, 0.30, 0.25}}, // four
		{8, 1.55, nil},                              // 0.50 + 0.40 + 0.30 + 0.25 + 0.10 would be five
		{13, 0.07, nil}, {13, 0, nil}, {13, 9, nil}, // no pile
	} {
		got := FewestLeaves(FeelerSet(c.set), c.thickness)
		if len(got) != len(c.want) {
			t.Errorf("%v mm from %d: %v, want %v", c.thickness, c.set, got, c.want)
			continue
		}
		for i := range got {
			near(t, "leaf", got[i], c.want[i], 0)
		}
	}
}

func TestRepeatsIntersectButNeverSharpenTheEye(t *testing.T) {
	for _, c := range []struct {
		name string
		in   []Interval
		want Interval
	}{
		{"one reading stays", []Interval{{2.25, 2.5}}, Interval{2.25, 2.5}},
		{"two overlap", []Interval{{2, 2.5}, {2.25, 2.75}}, Interval{2.25, 2.5}},
		{"a sliver is widened to 0.05 either side of its middle, 2.495", []Interval{{2.25, 2.5}, {2.49, 2.75}}, Interval{2.445, 2.545}},
		{"touching, middle 2.5", []Interval{{2.25, 2.5}, {2.5, 2.75}}, Interval{2.45, 2.55}},
		{"a caliper's own width, 0.06, is the least: middle 2.03", []Interval{{2, 2.06}, {2, 3}, {2.0, 2.06}}, Interval{2, 2.06}},
		{"caliper against caliper: middle 2.025, half 0.03", []Interval{{1.97, 2.03}, {2.02, 2.08}}, Interval{1.995, 2.055}},
		{"near nothing", []Interval{{0, 0.25}, {0, 0.02}}, Interval{0, 0.02}},
	} {
		nearInterval(t, c.name, must(Repeats(c.in, LeastHalfWidth)), c.want, 1e-12)
	}
	_, err := Repeats([]Interval{{2, 2.25}, {2.1, 2.6}, {2.5, 2.75}}, LeastHalfWidth)
	var contradiction *ContradictionError
	if !errors.As(err, &contradiction) || contradiction.A != (Interval{2, 2.25}) || contradiction.B != (Interval{2.5, 2.75}) || err.Error() == "" {
		t.Errorf("contradicting repeats: %v", err)
	}
	if _, err := Repeats(nil, LeastHalfWidth); !errors.Is(err, ErrNoReading) {
		t.Errorf("no readings: %v", err)
	}
	for _, bad := range []Interval{{nan, 2}, {2, nan}, {3, 2}, {2, inf}, {-1, 2}} {
		_, err := Repeats([]Interval{{2, 2.5}, bad}, LeastHalfWidth)
		refused(t, "Repeats", err, QuantityGap)
	}
	_, err = Repeats([]Interval{{2, 2.5}}, nan)
	refused(t, "Repeats", err, QuantityAccuracy)
}

func TestRepeatsInAnyOrder(t *testing.T) {
	const seed = 5
	rng := rand.New(rand.NewPCG(seed, 0))
	contradicted := 0
	for range 5000 {
		truth := Length(1 + 2*rng.Float64())
		readings := make([]Interval, 1+rng.IntN(6))
		for i := range readings {
			low := truth - Length(rng.Float64()*0.5)
			readings[i] = Interval{low, low + Length(rng.Float64()*0.7)} // sometimes misses the truth
		}
		first, firstErr := Repeats(readings, LeastHalfWidth)
		rng.Shuffle(len(readings), func(i, j int) { readings[i], readings[j] = readings[j], readings[i] })
		second, secondErr := Repeats(readings, LeastHalfWidth)
		if first != second || (firstErr == nil) != (secondErr == nil) {
			t.Fatalf("seed %d: %v %v in one order, %v %v in another", seed, first, firstErr, second, secondErr)
		}
		if firstErr != nil {
			contradicted++
			continue
		}
		for _, r := range readings {
			if first.Low < r.Low-LeastHalfWidth-1e-9 || first.High > r.High+LeastHalfWidth+1e-9 {
				t.Fatalf("seed %d: %v lies outside the reading %v", seed, first, r)
			}
		}
	}
	if contradicted == 0 || contradicted == 5000 {
		t.Fatalf("%d of 5000 contradicted: the test tries only one kind", contradicted)
	}
}

func TestNoReadingIsNarrowedByItsUnit(t *testing.T) {
	// an inch rule's marks, written with the digits that their step has and read back, are the same marks
	for _, step := range []Length{SixtyFourth, Inch / 32, Inch / 100} {
		for n := Length(1); n*step < 10; n++ {
			low, high := must(ParseLength((n*step).Inches(step), UnitInch)), must(ParseLength(((n+1)*step).Inches(step), UnitInch))
			nearInterval(t, "inch marks", must(TwoMarks(low, high)), Interval{n * step, (n + 1) * step}, 1e-9)
		}
	}
	// a millimetre rule's marks have no end in inches: they are rounded outward, so that every gap they allow is still allowed
	for _, step := range []Length{Millimetre, Millimetre / 2, Millimetre / 4} {
		for n := Length(1); n*step < 10; n++ {
			want := must(TwoMarks(n*step, (n+1)*step))
			out := want.Outward(Thousandth)
			low, high := must(ParseLength(out.Low.Inches(Thousandth), UnitInch)), must(ParseLength(out.High.Inches(Thousandth), UnitInch))
			if low > want.Low+1e-9 || high < want.High-1e-9 || high-low > want.Width()+2*Thousandth {
				t.Fatalf("%v in thousandths is %v to %v", want, low, high)
			}
		}
	}
	// and what is typed in inches is what is typed in millimetres: 0.089 in = 2.2606 mm
	mm := must(Caliper(must(ParseLength("2.2606", UnitMillimetre)), CaliperAccuracy))
	in := must(Caliper(must(ParseLength("0.089", UnitInch)), CaliperAccuracy))
	nearInterval(t, "caliper", in, mm, 1e-9)
}

func TestIntervalArithmetic(t *testing.T) {
	a, b := Interval{1, 2}, Interval{0.5, 0.75}
	for _, c := range []struct {
		name      string
		got, want Interval
	}{
		{"plus", a.Plus(b), Interval{1.5, 2.75}}, {"minus", a.Minus(b), Interval{0.25, 1.5}}, {"shifted", a.Shifted(-1), Interval{0, 1}},
		{"times", a.Times(2), Interval{2, 4}}, {"times below zero", a.Times(-2), Interval{-4, -2}}, {"at least", a.AtLeast(1.5), Interval{1.5, 2}},
		{"hull", b.Hull(a), Interval{0.5, 2}}, {"outward", Interval{1.01, 1.99}.Outward(0.05), Interval{1, 2}}, {"exactly", Exactly(1), Interval{1, 1}},
	} {
		nearInterval(t, c.name, c.got, c.want, 1e-12)
	}
	near(t, "width", a.Width(), 1, 0)
	near(t, "middle", a.Middle(), 1.5, 0)
	if !a.Contains(1) || !a.Contains(2) || a.Contains(2.1) || a.Contains(nan) {
		t.Error("Contains")
	}
	if !a.Valid() || (Interval{2, 1}).Valid() || (Interval{nan, 1}).Valid() || (Interval{1, inf}).Valid() {
		t.Error("Valid")
	}
	if _, ok := a.Meet(Interval{2.1, 3}); ok {
		t.Error("Meet of strangers")
	}
	touching, ok := a.Meet(Interval{2 + 1e-9, 3})
	if !ok || !touching.Valid() {
		t.Error("Meet must forgive rounding")
	}
}
