package geometry_test

import (
	"embed"
	"encoding/csv"
	"math"
	"strconv"
	"strings"
	"testing"

	. "gapwright/geometry"
)

// The tables are embedded, not opened: the same tests run where there is no file system.
//
//go:embed testdata/*.csv
var tables embed.FS

// table returns the rows of a source table; its first lines, after #, name the source.
func table(t *testing.T, name string, least int) [][]string {
	t.Helper()
	text, err := tables.ReadFile("testdata/" + name + ".csv")
	if err != nil {
		t.Fatal(err)
	}
	if !strings.HasPrefix(string(text), "# ") {
		t.Fatalf("%s names no source", name)
	}
	r := csv.NewReader(strings.NewReader(string(text)))
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil || len(rows) < least {
		t.Fatalf("%s: %d rows, at least %d expected; %v", name, len(rows), least, err)
	}
	return rows
}

func number(t *testing.T, s string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(strings.TrimSpace(s), 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// near fails unless got is within tolerance of want; not-a-number is never near.
func near[T ~float64](t *testing.T, what string, got, want, tolerance T) {
	t.Helper()
	if d := math.Abs(float64(got - want)); !(d <= float64(tolerance)) {
		t.Errorf("%s = %.9f, want %.9f, off by %.3g, tolerance %.3g", what, float64(got), float64(want), d, float64(tolerance))
	}
}

func nearInterval(t *testing.T, what string, got, want Interval, tolerance Length) {
	t.Helper()
	near(t, what+" low", got.Low, want.Low, tolerance)
	near(t, what+" high", got.High, want.High, tolerance)
}

// must is for what the test itself sets up.
func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

func TestFretsStandWhereEqualTemperamentPutsThem(t *testing.T) {
	scales := []Length{650, 647.7, 863.6, 346}
	for _, row := range table(t, "fret-positions", 19) {
		n := int(number(t, row[0]))
		for i, scale := range scales {
			near(t, "FretDistance("+row[0]+")", must(FretDistance(scale, n)), Length(number(t, row[i+1])), 0.00005000001)
		}
		if off := must(FretDistance(650, n)) - Length(number(t, row[5])); off < 0.3 {
			t.Errorf("fret %d is only %.3f mm from the rule of 18, which is another rule", n, float64(off))
		}
	}
}

func TestLeverageAndDropOfAStraightString(t *testing.T) {
	for _, row := range table(t, "leverage", 13) {
		n := int(number(t, row[0]))
		lever := must(Leverage(650, 0, n, 0))
		near(t, "Leverage at "+row[0], lever, number(t, row[1]), 5e-10)
		s := MeasuredString{Gap: Exactly(3), Leverage: lever}
		near(t, "drop at "+row[0], 3-s.After(Exactly(0.5)).Low, Length(number(t, row[2])), 5.000001e-7)
	}
}

func TestPartsOfAnInchAreExact(t *testing.T) {
	for _, row := range table(t, "inch-parts", 26) {
		want := Length(number(t, row[1]))
		for _, unit := range []Unit{UnitMillimetre, UnitInch} {
			near(t, row[0], must(ParseLength(row[0], unit)), want, 1e-12)
		}
		if bare, found := strings.CutSuffix(row[0], "/64 in"); found {
			near(t, bare+"/64", must(ParseLength(bare+"/64", UnitMillimetre)), want, 1e-12) // no rule has 64ths of a millimetre
			near(t, bare+"/64", Length(number(t, bare))*SixtyFourth, want, 1e-12)
		} else {
			thou, _ := strings.CutSuffix(row[0], " thou")
			near(t, row[0], Length(number(t, thou))*Thousandth, want, 1e-12)
			if got := want.Thousandths(); got != thou {
				t.Errorf("%v mm = %s thousandths, want %s", want, got, thou)
			}
		}
	}
}

func TestStandardUncertaintyOfAReading(t *testing.T) {
	for _, row := range table(t, "uncertainty", 10) {
		i := Interval{Length(number(t, row[1])), Length(number(t, row[2]))}
		near(t, row[0], i.StandardUncertainty(), Length(number(t, row[3])), Length(number(t, row[4])))
	}
	// a quarter-millimetre rule at fret 12, the saddle's removal is twice the gap: 2 × 0.072169 = 0.144338
	gap := must(TwoMarks(2.25, 2.50))
	near(t, "removal", gap.Shifted(-2).Times(1/0.5).StandardUncertainty(), 0.144338, 0.0000005)
	leaf := must(JustFits(0.25, 0.30))
	near(t, "feelers", leaf.StandardUncertainty(), 0.014434, 0.0000005)
}
