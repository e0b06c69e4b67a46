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
