package geometry_test

import (
	"fmt"

	"gapwright/geometry"
)

// A 650 mm neck that meets the body at fret 14: fret 1 stands at 36.4817, 12 at 325, 14 at 360.4579, 20 at 445.2628 mm.
var neck = geometry.Neck{Scale: 650, Body: 14, Frets: 20}

func ExampleNeck_Relief() {
	// held at 1 and 12, read at 6: 4 × (190.3806 − 36.4817) × (325 − 190.3806) / (360.4579 − 36.4817)² = 0.7895 of the relief
	relief, _ := neck.Relief(geometry.ReliefReading{From: 1, At: 6, To: 12, Depth: geometry.Interval{Low: 0.15, High: 0.20}})
	fmt.Println(relief.Low.Millimetres(0.01), relief.High.Millimetres(0.01)) // 0.15 / 0.7895, 0.20 / 0.7895
	// Output: 0.19 0.25
}

func ExamplePath_Clearance() {
	// flat, nut 0.5 and saddle 4.0: 0.5 + 3.5 × 36.4817/650 at fret 1, 2.25 at fret 12
	path, _ := geometry.NewPath(neck, geometry.Exactly(0), geometry.GapReading{Fret: 1, Gap: geometry.Exactly(0.69644)},
		geometry.GapReading{Fret: 12, Gap: geometry.Exactly(2.25)})
	open, _ := path.Clearance(14, 0) // 0.5 + 3.5 × 360.4579/650
	held, _ := path.Clearance(12, 1) // 4 × (325 − 36.4817) / (650 − 36.4817)
	fmt.Println(open.Low.Millimetres(0.001), held.Low.Millimetres(0.001))
	// Output: 2.441 1.881
}

func ExampleNeck_ReliefChange() {
	change, _ := neck.ReliefChange(12, 0, geometry.Exactly(-0.1)) // 2.428 and 1.225 for each millimetre
	fmt.Println(change.Low.Millimetres(0.01), change.High.Millimetres(0.01))
	// Output: -0.24 -0.12
}

func ExamplePath_Headroom() {
	// flat, saddle 4.0, held at 12 and plucked 100 mm from the saddle: 4 × 18.2410/325 over fret 13, which the string may reach with
	// 18.2410/100
	path, _ := geometry.NewPath(neck, geometry.Exactly(0), geometry.GapReading{Fret: 1, Gap: geometry.Exactly(0.69644)},
		geometry.GapReading{Fret: 12, Gap: geometry.Exactly(2.25)})
	room, _ := path.Headroom(12, 100)
	fmt.Println(room.Free.Low.Millimetres(0.01)) // 4/325 × 100
	// Output: 1.23
}

func ExampleTouchOf() {
	touch, _ := geometry.TouchOf([]geometry.BuzzTest{
		{Room: geometry.Interval{Low: 0.9, High: 1.0}},
		{Room: geometry.Interval{Low: 0.5, High: 0.6}, Buzzed: true},
	})
	fmt.Println(touch.Needs.Low, touch.Needs.High)
	// Output: 0.5 1
}

func ExamplePath_LowestFor() {
	// held at 12 as above the room is 100/325 of the saddle's height over fret 12, so a touch of 0.8 to 1.0 asks for 2.6 to 3.25 there,
	// whatever it is now; with the nut at 0.5 that is (0.5 + 2.6)/2 to (0.5 + 3.25)/2 at fret 12
	path, _ := geometry.NewPath(neck, geometry.Exactly(0), geometry.GapReading{Fret: 1, Gap: geometry.Exactly(0.69644)},
		geometry.GapReading{Fret: 12, Gap: geometry.Exactly(2.25)})
	suits, _ := path.LowestFor(geometry.Playing{Touch: geometry.Interval{Low: 0.8, High: 1.0}, At: 100, From: 12, To: 12}, 12, 0)
	fmt.Println(suits.Gap.Low.Millimetres(0.001), suits.Gap.High.Millimetres(0.001))
	// Output: 1.550 1.875
}

func ExampleStrung_Tension() {
	e4, _ := geometry.Tone(64).Frequency(geometry.ConcertPitch)            // 440 × 2^(−5/12)
	plain, _ := geometry.PlainSteel(0.012*geometry.Inch, 647.7, e4)        // 7850 × π × 0.3048² / 4 = 572.8 mg/m
	tension, _ := plain.Tension()                                          // (2 × 0.6477 × 329.6276)² × 0.0005728
	fmt.Printf("%.1f N, %.1f lbf\n", tension, tension/geometry.PoundForce) // over 4.44822
	// Output: 104.4 N, 23.5 lbf
}

func ExampleStopped_Sharp() {
	// [1.0595 × 0.4 + 0.0595 × 4.2]² / (2 × 0.0595 × 650²) = 9.03e-6 longer; 138.7 times that pulls harder; 600 × log2(1.001253)
	sharp, _ := geometry.Stopped{Scale: 650, Nut: 0.4, Rise: 4.2}.Sharp(1, 138.748, 0)
	fmt.Printf("%.2f\n", sharp.Tension)
	// Output: 1.08
}

func ExampleCrownOf() {
	strings := make([]geometry.MeasuredString, 3)
	for i, gap := range []geometry.Length{2.4, 2.3, 2.0} { // wanted 2.0, 1.8, 1.6: they ask for 0.8, 1.0, 0.8 at the saddle
		strings[i] = geometry.MeasuredString{Offset: geometry.Length(20*i - 20), Gap: geometry.Exactly(gap), Target: 2 - 0.2*geometry.Length(i), Leverage: 0.5}
	}
	crown, _ := geometry.CrownOf(strings)
	fmt.Println(crown.Follows, crown.High[1].Low.Millimetres(0.01))
	// Output: false 0.20
}

func ExampleSeatHeights() {
	// nut 0.5, wanted 2.25 at fret 12, flat: [2.25 − 0.5 × 0.5] / 0.5
	heights, _ := geometry.SeatHeights(neck, geometry.Exactly(0), geometry.Camber{}, []geometry.Seat{{First: geometry.Exactly(0.69644), Twelfth: 2.25}})
	fmt.Println(heights[0].Low.Millimetres(0.01))
	// Output: 4.00
}

func ExampleDiagnose() {
	found, _ := geometry.Diagnose(neck, []geometry.PartReading{
		{Part: geometry.PartRelief, Read: geometry.Interval{Low: 0.15, High: 0.20}, Usual: geometry.Interval{Low: 0.10, High: 0.30}},
		{Part: geometry.PartNut, Read: geometry.Interval{Low: 0.80, High: 0.85}, Usual: geometry.Interval{Low: 0.50, High: 0.70}},
		{Part: geometry.PartSaddle, Read: geometry.Interval{Low: 2.75, High: 3.00}, Usual: geometry.Interval{Low: 2.2, High: 2.6}},
	})
	for _, f := range found { // the nut first: 0.10 to 0.15 lower at fret 1 is × (650 − 325)/(650 − 36.4817) at fret 12
		if f.First {
			fmt.Println(f.Part == geometry.PartNut, f.Moves.Low.Millimetres(0.01), f.Moves.High.Millimetres(0.01))
		}
	}
	// Output: true -0.08 -0.05
}
