package geometry_test

import (
	"fmt"

	"gapwright/geometry"
)

// The examples can be followed with a pocket calculator.

func ExampleParseLength() {
	for _, text := range []string{"2,25", "0.089 in", "5/64", "1 3/4 in"} {
		l, _ := geometry.ParseLength(text, geometry.UnitMillimetre)
		fmt.Println(text, "is", l.Millimetres(0.001), "mm")
	}
	_, err := geometry.ParseLength("1e3", geometry.UnitMillimetre)
	fmt.Println(err)
	// Output:
	// 2,25 is 2.250 mm
	// 0.089 in is 2.261 mm
	// 5/64 is 1.984 mm
	// 1 3/4 in is 44.450 mm
	// length "1e3": an exponent
}

func ExampleLength_NearestSixtyFourth() {
	inches, numerator, denominator, remainder := geometry.Length(2.0).NearestSixtyFourth()
	fmt.Println(inches, numerator, denominator, remainder.Millimetres(0.001)) // 2 mm = 5/64 in + 0.015625 mm
	// Output: 0 5 64 0.016
}

func ExampleTwoMarks() {
	gap, _ := geometry.TwoMarks(2.25, 2.50) // light shows at 2.25, none at 2.50
	fmt.Println(gap.Low, gap.High)
	// Output: 2.25 2.5
}

func ExampleOnRuleEnd() {
	marks, _ := geometry.TwoMarks(1.5, 2.0)
	gap, _ := geometry.OnRuleEnd(marks, geometry.Exactly(0.5)) // the rule's zero lies 0.5 mm above its end
	fmt.Println(gap.Low, gap.High)
	// Output: 2 2.5
}

func ExampleRepeats() {
	gap, _ := geometry.Repeats([]geometry.Interval{{Low: 2, High: 2.5}, {Low: 2.25, High: 2.75}}, geometry.LeastHalfWidth)
	fmt.Println(gap.Low, gap.High)
	// Output: 2.25 2.5
}

func ExampleFretDistance() {
	d, _ := geometry.FretDistance(650, 14) // 650 × (1 − 2^(−14/12))
	fmt.Println(d.Millimetres(0.0001))
	// Output: 360.4579
}

func ExampleLeverage() {
	open, _ := geometry.Leverage(650, 2, 12, 0) // 325 / 652
	held, _ := geometry.Leverage(650, 0, 12, 1) // (325 − 36.4817) / (650 − 36.4817)
	fmt.Printf("%.6f %.6f\n", open, held)
	// Output: 0.498466 0.470268
}

// twoStrings is read with a rule marked in quarters of a millimetre: 2.25 shows light, 2.50 does not, 2.00 is wanted.
func twoStrings() ([]geometry.MeasuredString, geometry.Ends) {
	gap := geometry.Interval{Low: 2.25, High: 2.50}
	return []geometry.MeasuredString{
		{Offset: -27, Gap: gap, Target: 2, Floor: 1.8, Leverage: 0.5},
		{Offset: 27, Gap: gap, Target: 2, Floor: 1.8, Leverage: 0.5},
	}, geometry.Ends{Bass: -36, Treble: 36}
}

func ExampleStopLine() {
	strings, ends := twoStrings()
	stop, _ := geometry.StopLine(strings, ends, geometry.RoundRules{Smoothing: geometry.Smoothing}) // (2.25 − 2.00) / 0.5 − 0.10
	fmt.Println(stop.Line.Bass.Millimetres(0.01), stop.Line.Treble.Millimetres(0.01))
	// Output: 0.40 0.40
}

func ExampleWholeCut() {
	strings, ends := twoStrings()
	whole, _ := geometry.WholeCut(strings, ends)
	fmt.Println(whole.Strings[0].Low.Millimetres(0.01), whole.Strings[0].High.Millimetres(0.01)) // 0.25 / 0.5 to 0.50 / 0.5
	fmt.Println(whole.Bass.Low.Millimetres(0.001), whole.Bass.High.Millimetres(0.001))           // 0.5 − 0.5/6 to 1 + 0.5/6
	// Output:
	// 0.50 1.00
	// 0.417 1.083
}

func ExampleMeasuredString_After() {
	strings, _ := twoStrings()
	after := strings[0].After(geometry.Interval{Low: 0.4, High: 0.5}) // 2.25 − 0.5 × 0.5 to 2.50 − 0.5 × 0.4
	fmt.Println(after.Low, after.High)
	// Output: 2 2.3
}

func ExampleBlocked() {
	strings, ends := twoStrings()
	strings[0].Gap = geometry.Interval{Low: 2.00, High: 2.25} // the bass string may be right already: it holds the treble string back
	index, target, ok := geometry.Blocked(strings, ends, geometry.RoundRules{Smoothing: geometry.Smoothing})
	fmt.Println(index, target.Millimetres(0.05), ok) // 2.00 − 0.5 × 0.5 × 9/63 = 1.964, so 1.95
	// Output: 0 1.95 true
}

func ExampleJudge() {
	for _, reading := range []geometry.Interval{{Low: 2.25, High: 2.5}, {Low: 2, High: 2.25}, {Low: 2, High: 3}} {
		fmt.Println(geometry.Judge(reading, 2.0, 0.5) == geometry.Reached)
	}
	// Output:
	// false
	// true
	// false
}

func ExampleBreakAngle() {
	angle, _ := geometry.BreakAngle(3, 10) // atan 0.3
	fmt.Printf("%.1f\n", angle.Degrees())
	// Output: 16.7
}

func ExampleWhatIsLeft() {
	end := geometry.SaddleEnd{Exposure: geometry.Interval{Low: 2.9, High: 3.1}}
	left, found, _ := geometry.WhatIsLeft(geometry.BassSide, end, 0.4, 0.1, geometry.Interval{Low: 0.5, High: 1})
	fmt.Println(left.AfterRound.Low.Millimetres(0.1), left.AfterWhole.Low.Millimetres(0.1), found[0].Severity == geometry.Caution)
	// Output: 2.4 1.9 true
}

func ExampleLowestGap() {
	gap, exposure := geometry.Interval{Low: 2.25, High: 2.5}, geometry.Interval{Low: 2, High: 2.5}
	fmt.Println(geometry.LowestGap(gap, exposure, 0.5)) // 2.5 − 0.5 × (2.0 − 1.5)
	// Output: 2.25
}

func ExampleSanding_Coach() {
	s := geometry.Sanding{StartBass: 12, StartTreble: 12, StopBass: 0.4, StopTreble: 0.4, Accuracy: geometry.CaliperAccuracy,
		PerStroke: geometry.StrokeGuess(150)}
	first, _ := s.Coach(nil)
	next, _ := s.Coach([]geometry.SandingCheck{{Strokes: 2, Bass: 11.98, Treble: 11.98}}) // at most 0.05/2 a stroke; half of 0.38 is 7 of those
	fmt.Println(first.Strokes, next.Strokes, next.TargetBass.Millimetres(0.01))
	// Output: 2 7 11.60
}

func ExampleLineSanding_Coach() {
	line := geometry.Line{Ends: geometry.Ends{Bass: -36, Treble: 36}, Bass: 0.4, Treble: 0.4}
	s := geometry.LineSanding{Line: line, SpareBass: 0.1, SpareTreble: 0.1, PerStroke: geometry.StrokeGuess(150)}
	a := s.Coach([]geometry.LineLook{{Strokes: 16}, {Strokes: 4, Bass: geometry.LineTouched}})
	fmt.Println(a.Verdict == geometry.FavourTreble, a.Strokes)
	// Output: true 2
}

func ExampleFewestLeaves() {
	fmt.Println(geometry.FewestLeaves(geometry.FeelerSet(13), 0.55))
	// Output: [0.5 0.05]
}
