package geometry_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	. "gapwright/geometry"
)

// at are points of one setting: humidity and the middle of a gap read to 0.05 mm either way.
func at(setting int, xy ...float64) (points []DriftPoint) {
	for i := 0; i < len(xy); i += 2 {
		points = append(points, DriftPoint{setting, xy[i], Interval{Length(xy[i+1] - 0.05), Length(xy[i+1] + 0.05)}})
	}
	return points
}

// Humidity 30, 40, 60, 70, gap 2.0, 2.1, 2.3, 2.4: a slope of exactly 0.01 mm a percent. Sxx = 2·(20² + 10²) = 1000. Each reading is uncertain by
// 0.1/√12 = 0.028868, the slope by 0.028868/√1000 = 0.00091287, twice that for ten percent: 0.018257 mm.
func TestDriftByHand(t *testing.T) {
	d := must(DriftOf(at(1, 30, 2.0, 40, 2.1, 60, 2.3, 70, 2.4)))
	if d.Verdict != DriftHigher || d.Readings != 4 || d.Dry != 30 || d.Damp != 70 {
		t.Errorf("%+v", d)
	}
	nearInterval(t, "for ten percent", d.PerTen, Interval{0.1 - 0.018257, 0.1 + 0.018257}, 1e-6)
}

// The same with caliper readings that scatter: middles 2.0, 2.2, 2.2, 2.4 have the slope (20·0.2 + 10·0 + 10·0 + 20·0.2)/1000 =
// 0.008; the line through 2.2 gives 2.04, 2.12, 2.28, 2.36, the rest is −0.04, 0.08, −0.08, 0.04: squares 0.016 over 2 is 0.008, over 1000 is
// 8e-6, root 0.00282843; times 4.30 is 0.012162, more than the slope.
func TestScatterDrownsATrend(t *testing.T) {
	points := []DriftPoint{{0, 30, Interval{1.97, 2.03}}, {0, 40, Interval{2.17, 2.23}}, {0, 60, Interval{2.17, 2.23}}, {0, 70, Interval{2.37, 2.43}}}
	if d := must(DriftOf(points)); d.Verdict != DriftCannotBe || d.PerTen != (Interval{}) {
		t.Errorf("%+v", d)
	}
}

func TestNoDriftIsClaimed(t *testing.T) {
	steep := []float64{30, 2.0, 40, 2.1, 60, 2.3, 70, 2.4}
	for _, c := range []struct {
		name   string
		points []DriftPoint
		want   DriftVerdict
	}{
		{"nothing", nil, DriftTooFew},
		{"three", at(0, steep[:6]...), DriftTooFew},
		{"four, each of its own setting", append(append(at(0, 30, 2.0), at(1, 40, 2.1)...), append(at(2, 60, 2.3), at(3, 70, 2.4)...)...), DriftTooFew},
		{"two and two: one degree of freedom", append(at(0, 30, 2.0, 70, 2.4), at(1, 30, 3.0, 70, 3.4)...), DriftTooFew},
		{"air that hardly varied", at(0, 41, 2.0, 43, 2.1, 45, 2.3, 49, 2.4), DriftSameAir},
		{"the same air", at(0, 45, 2.0, 45, 2.1, 45, 2.3, 45, 2.4), DriftSameAir},
		{"one mark of the rule all year", at(0, 30, 2.0, 45, 2.0, 60, 2.0, 75, 2.0), DriftCannotBe},
		{"a height that all allow", at(0, 30, 2.0, 45, 2.03, 60, 2.06, 75, 2.09), DriftCannotBe},
	} {
		if d := must(DriftOf(c.points)); d.Verdict != c.want || d.PerTen != (Interval{}) {
			t.Errorf("%s: %+v, want %d", c.name, d, c.want)
		}
	}
	if d := must(DriftOf(at(0, 30, 2.4, 40, 2.3, 60, 2.1, 70, 2.0))); d.Verdict != DriftLower || d.PerTen.High >= 0 {
		t.Errorf("%+v", d)
	}
}

// What was sanded off between two settings is no drift: the damp summer of one and the dry winter of the other say nothing by themselves.
func TestWorkIsNoDrift(t *testing.T) {
	before, after := at(0, 60, 3.0, 62, 3.0, 64, 3.0), at(1, 30, 2.0, 32, 2.0, 34, 2.0)
	if d := must(DriftOf(append(before, after...))); d.Verdict != DriftSameAir {
		t.Errorf("%+v", d)
	}
}

func TestDriftKeepsItsRules(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 77))
	claimed := 0
	for range 3000 {
		var points []DriftPoint
		slope := []float64{0, 0.004, -0.02}[rng.IntN(3)]
		for setting := range 1 + rng.IntN(3) {
			height := 2 + rng.Float64()
			for range rng.IntN(7) {
				h := 25 + 50*rng.Float64()
				middle := height + slope*(h-50) + 0.05*rng.NormFloat64()
				half := 0.03 + 0.1*rng.Float64()
				points = append(points, DriftPoint{setting, h, Interval{Length(middle - half), Length(middle + half)}.AtLeast(0)})
			}
		}
		d := must(DriftOf(points))
		trend := d.Verdict == DriftHigher || d.Verdict == DriftLower
		if trend && (d.Readings < 4 || d.Damp-d.Dry < 10 || d.PerTen.Low*d.PerTen.High <= 0) {
			t.Fatalf("%+v", d)
		}
		if trend {
			claimed++
		}
		// Taller by a half, in other settings and another order, it is the same; upside down it is the other way round.
		moved, turned := make([]DriftPoint, len(points)), make([]DriftPoint, len(points))
		for i, p := range points {
			moved[len(points)-1-i] = DriftPoint{p.Setting + 40, p.Humidity, p.Gap.Shifted(0.5)}
			turned[i] = DriftPoint{p.Setting, p.Humidity, Exactly(8).Minus(p.Gap)}
		}
		m, o := must(DriftOf(moved)), must(DriftOf(turned))
		if m.Verdict != d.Verdict || math.Abs(float64(m.PerTen.Low-d.PerTen.Low)) > 1e-9 {
			t.Fatalf("%+v, moved %+v", d, m)
		}
		if want := map[DriftVerdict]DriftVerdict{DriftHigher: DriftLower, DriftLower: DriftHigher}[d.Verdict]; trend && o.Verdict != want || !trend && o.Verdict != d.Verdict {
			t.Fatalf("%+v, upside down %+v", d, o)
		}
	}
	if claimed < 300 {
		t.Errorf("only %d trends were found", claimed)
	}
}

// Where nothing drifts, a trend is claimed at most about as often as 95 % confidence allows.
func TestDriftIsRarelyFoundWhereThereIsNone(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	wrong := 0
	const tries = 4000
	for range tries {
		var points []DriftPoint
		for range 4 + rng.IntN(8) {
			gap := 2 + 0.1*rng.NormFloat64()
			points = append(points, DriftPoint{0, 25 + 50*rng.Float64(), Interval{Length(gap - 0.03), Length(gap + 0.03)}})
		}
		if d := must(DriftOf(points)); d.Verdict == DriftHigher || d.Verdict == DriftLower {
			wrong++
		}
	}
	if wrong > tries*6/100 {
		t.Errorf("%d of %d", wrong, tries)
	}
}

func TestDriftRefuses(t *testing.T) {
	for _, c := range []struct {
		p DriftPoint
		q Quantity
	}{
		{DriftPoint{0, 0, Interval{2, 3}}, QuantityHumidity}, {DriftPoint{0, math.NaN(), Interval{2, 3}}, QuantityHumidity},
		{DriftPoint{0, 50, Interval{-1, 3}}, QuantityGap}, {DriftPoint{0, 50, Interval{3, 2}}, QuantityGap}, {DriftPoint{0, 50, Interval{nan, inf}}, QuantityGap},
	} {
		_, err := DriftOf([]DriftPoint{c.p})
		refused(t, "drift", err, c.q)
	}
	seen := map[DriftVerdict]bool{}
	for _, v := range DriftVerdicts() {
		seen[v] = true
	}
	if len(seen) != 5 {
		t.Error("DriftVerdicts")
	}
}

func ExampleDriftOf() {
	var year []DriftPoint
	for _, read := range []struct{ humidity, low, high float64 }{{30, 1.95, 2.05}, {40, 2.05, 2.15}, {60, 2.25, 2.35}, {70, 2.35, 2.45}} {
		year = append(year, DriftPoint{Humidity: read.humidity, Gap: Interval{Low: Length(read.low), High: Length(read.high)}})
	}
	d, err := DriftOf(year)
	fmt.Printf("%d readings, %.2f to %.2f mm for ten percent more; %v\n", d.Readings, float64(d.PerTen.Low), float64(d.PerTen.High), err)
	// Output: 4 readings, 0.08 to 0.12 mm for ten percent more; <nil>
}
