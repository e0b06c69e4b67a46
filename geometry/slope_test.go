package geometry

import (
	"embed"
	"encoding/csv"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

//go:embed testdata/line.csv
var line embed.FS

func TestSlopeHasTheCertifiedValues(t *testing.T) {
	text, err := line.ReadFile("testdata/line.csv")
	if err != nil {
		t.Fatal(err)
	}
	r := csv.NewReader(strings.NewReader(string(text)))
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil || len(rows) != 36 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	var points []DriftPoint
	for _, row := range rows {
		y, errY := strconv.ParseFloat(row[0], 64)
		x, errX := strconv.ParseFloat(row[1], 64)
		if errX != nil || errY != nil {
			t.Fatal(row)
		}
		points = append(points, DriftPoint{Humidity: x, Gap: Exactly(Length(y))})
	}
	got := slopeOf(points)
	same := func(what string, got, want float64) {
		t.Helper()
		if math.Abs(got-want) > 1e-12*math.Abs(want) {
			t.Errorf("%s is %.16g, certified %.16g", what, got, want)
		}
	}
	same("the slope", got.slope, 1.00211681802045)
	same("its standard deviation", got.scatter, 0.429796848199937e-03)
	if got.freedom != 34 || got.read != 0 {
		t.Errorf("%+v", got)
	}
}

// Two settings whose own lines are known: the common slope is theirs weighed by how far their air spreads, whatever their heights.
func TestSlopeIsSharedBySettings(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 9))
	for range 500 {
		var points []DriftPoint
		weight, sum := 0.0, 0.0
		for setting := range 1 + rng.IntN(3) {
			var xs, ys []float64
			height := rng.Float64() * 10
			for range 2 + rng.IntN(5) {
				x := 20 + 60*rng.Float64()
				y := height + 0.01*x + 0.2*rng.Float64()
				xs, ys = append(xs, x), append(ys, y)
				points = append(points, DriftPoint{setting, x, Exactly(Length(y))})
			}
			_, slope := stat.LinearRegression(xs, ys, nil, false)
			spread := stat.Variance(xs, nil) * float64(len(xs)-1)
			weight, sum = weight+spread, sum+spread*slope
		}
		if got := slopeOf(points).slope; math.Abs(got-sum/weight) > 1e-9 {
			t.Fatalf("%v: %v, want %v", points, got, sum/weight)
		}
	}
}

func TestStudentIsNeverTooSure(t *testing.T) {
	for freedom := 1; freedom < 60; freedom++ {
		exact := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: float64(freedom)}.Quantile(0.975)
		got := student95(freedom)
		if got < exact-0.005 || got > exact+0.05 {
			t.Errorf("%d: %v, exactly %.4f", freedom, got, exact)
		}
	}
	for _, row := range student { // as the table prints it, to half of its last digit
		if exact := (distuv.StudentsT{Sigma: 1, Nu: float64(row.freedom)}).Quantile(0.975); math.Abs(row.t-exact) > 0.005+1e-9 {
			t.Errorf("%d: %v, exactly %.4f", row.freedom, row.t, exact)
		}
	}
	if !math.IsInf(student95(0), 1) {
		t.Error("no freedom, no confidence")
	}
}
