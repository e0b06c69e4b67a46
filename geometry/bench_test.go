package geometry_test

import (
	"fmt"
	"testing"

	. "gapwright/geometry"
)

// spread puts n strings evenly over 54 mm of a 72 mm saddle, read to a quarter of a millimetre, the middle ones not quite in line.
func spread(n int) ([]MeasuredString, Ends) {
	strings := make([]MeasuredString, n)
	for i := range strings {
		t := Length(i) / Length(n-1)
		low := 2.5 - 0.4*t + 0.06*Length(i%3)
		strings[i] = MeasuredString{Offset: -27 + 54*t, Gap: Interval{Low: low, High: low + 0.25}, Target: 2.0 - 0.3*t, Floor: 1.6, Leverage: 0.5}
	}
	return strings, Ends{Bass: -36, Treble: 36}
}

func BenchmarkStopLine(b *testing.B) {
	for _, n := range []int{2, 6, 12} {
		strings, ends := spread(n)
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				if _, err := StopLine(strings, ends, RoundRules{Smoothing: Smoothing}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkWholeCut(b *testing.B) {
	for _, n := range []int{2, 6, 8, 12} {
		strings, ends := spread(n)
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				if _, err := WholeCut(strings, ends); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkParseLength(b *testing.B) {
	for _, text := range []string{"2.25", "2,25 mm", `1 3/4 in`, "89 thou", "nonsense"} {
		b.Run(text, func(b *testing.B) {
			for b.Loop() {
				_, _ = ParseLength(text, UnitMillimetre)
			}
		})
	}
}

// One preview of Choose: for each string the wanted gap put in, then every clearance, open and stopped, the room at every stop, what is asked of the
// saddle, and the pitch at fret 12 with its change.
func BenchmarkPreview(b *testing.B) {
	for _, n := range []int{6, 12} {
		paths, steel := make([]Path, n), must(PlainSteel(0.3048, 650, 330))
		for i := range paths {
			p, err := NewPath(guitar, Interval{0.15, 0.2}, GapReading{1, 0, Interval{0.5, 0.55}}, GapReading{12, 0, Interval{2.25, 2.5}})
			if err != nil {
				b.Fatal(err)
			}
			paths[i] = p
		}
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				for _, p := range paths {
					q := must(p.WithGap(12, 0, Exactly(2)))
					for held := range 20 {
						must(q.Clearances(held))
					}
					must(q.Headrooms(104))
					must(q.Sharp(steel, 12, 0))
					must(p.SharpChange(q, steel, 12, 0))
				}
			}
		})
	}
}

func BenchmarkLowestFor(b *testing.B) {
	p, err := NewPath(guitar, Interval{0.15, 0.2}, GapReading{1, 0, Interval{0.5, 0.55}}, GapReading{12, 0, Interval{2.25, 2.5}})
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		must(p.LowestFor(Playing{Touch: Interval{0.5, 0.8}, At: 104, From: 1, To: 15}, 12, 0))
	}
}
