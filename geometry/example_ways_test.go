package geometry_test

import (
	"fmt"

	"gapwright/geometry"
)

// The examples can be followed with a pocket calculator.

func ExampleRaise() {
	// read 1.75 to 2.00 mm at fret 12 on both sides, wanted 2.10: (2.10 − 1.75) × 2 under the worst reading
	gap := geometry.Interval{Low: 1.75, High: 2.00}
	shim, _ := geometry.Raise([]geometry.MeasuredString{
		{Offset: -27, Gap: gap, Target: 2.10, Leverage: 0.5},
		{Offset: 27, Gap: gap, Target: 2.10, Leverage: 0.5},
	}, geometry.Ends{Bass: -36, Treble: 36})
	fmt.Println(shim.Lay.Bass.Millimetres(0.01), shim.Lay.Treble.Millimetres(0.01), shim.Even())
	// Output: 0.70 0.70 true
}

func ExamplePileFor() {
	var leaves []geometry.Leaf
	for _, thickness := range geometry.FeelerSet(13) {
		leaves = append(leaves, geometry.Leaf{Thickness: geometry.Exactly(thickness), Count: 1})
	}
	pile, _ := geometry.PileFor(0.55, leaves, 6) // 0.50 + 0.05
	fmt.Println(pile.Leaves, pile.Thickness.Low.Millimetres(0.01))
	// Output: 2 0.55
}

func ExampleStepped() {
	// 0.3 under the last quarter, on 0.2 under the whole: 0.2 + 0.3/0.75
	laid, _, _ := geometry.Stepped(geometry.Ends{Bass: -36, Treble: 36}, geometry.Exactly(0.2), geometry.Exactly(0.3), geometry.TrebleSide, 0.25)
	fmt.Println(laid.Bass.Low.Millimetres(0.01), laid.Treble.Low.Millimetres(0.01))
	// Output: 0.20 0.60
}

func ExampleThread_Advance() {
	thread, _ := geometry.ThreadOf("4-40")
	fmt.Printf("%.6f\n", thread.Advance(1.5)) // 25.4/40 × 1.5
	// Output: 0.952500
}

func ExampleMeasuredString_Screw() {
	// fret 12 lower by 0.25: 0.5 at the saddle, one turn of 0.5
	s := geometry.MeasuredString{Gap: geometry.Exactly(2.0), Target: 1.75, Leverage: 0.5}
	turn, _ := s.Screw(geometry.Exactly(0.5))
	whole, _, _ := turn.Turns.Turns()
	fmt.Println(turn.Turns, whole)
	// Output: -8 1
}

func ExampleMeasuredPitch() {
	pitch, _ := geometry.MeasuredPitch(80, 5.00, 0.03) // ten turns: 4.97/10 to 5.03/10
	fmt.Println(pitch.Low.Millimetres(0.001), pitch.High.Millimetres(0.001))
	// Output: 0.497 0.503
}

func ExamplePosts_Turn() {
	// 0.4 and 0.2 down at strings 54 mm apart; posts 10 mm further out: −0.3 ∓ 37 × 0.2/54
	turns, _ := geometry.Posts{Bass: -37, Treble: 37, Pitch: geometry.Exactly(0.5)}.Turn([]geometry.MeasuredString{
		{Offset: -27, Gap: geometry.Exactly(2.0), Target: 1.8, Leverage: 0.5},
		{Offset: 27, Gap: geometry.Exactly(1.7), Target: 1.6, Leverage: 0.5},
	})
	fmt.Println(turns.AskBass.Low.Millimetres(0.001), turns.AskTreble.Low.Millimetres(0.001), turns.Bass, turns.Treble)
	// Output: -0.437 -0.163 -7 -3
}

func ExamplePosts_Lever() {
	lever, _ := geometry.Posts{Saddle: 15, Rest: 60}.Lever() // (60 − 15)/60
	fmt.Println(lever)
	// Output: 0.75
}

func ExamplePressedNut_Plan() {
	// a leaf of 0.25 goes in and one of 0.30 does not; wanted 0.10: (0.25 − 0.10) × 2.0595, less 0.03 for file and polish
	plan, _ := geometry.PressedNut{Gap: geometry.Interval{Low: 0.25, High: 0.30}, Target: 0.10, Allow: geometry.NutFile}.Plan()
	fmt.Println(plan.Stop.Millimetres(0.001), plan.Next(0).Millimetres(0.001))
	// Output: 0.279 0.139
}

func ExampleOpenNut_Plan() {
	// 0.2 lower at fret 1 of a 650 mm scale: 0.2/(1 − 36.4817/650)
	plan, _ := geometry.OpenNut{Scale: 650, Gap: geometry.Exactly(0.7), Target: 0.5}.Plan()
	fmt.Println(plan.Stop.Millimetres(0.001))
	// Output: 0.212
}

func ExampleStopPile() {
	// the frets' line 1.00 over the board at the nut, 0.05 wanted over fret 1: 1.00 + 0.05 × 2.0595 = 1.103, so a pile of 1.15
	leaves := []geometry.Leaf{{Thickness: geometry.Exactly(1.00), Count: 1}, {Thickness: geometry.Exactly(0.15), Count: 1}}
	stop, _ := geometry.StopPile(geometry.Exactly(1.00), 0.05, leaves, 6)
	fmt.Println(stop.Pile.Thickness.Low.Millimetres(0.01), stop.Pressed.Low.Millimetres(0.001)) // 0.15/2.0595
	// Output: 1.15 0.073
}

func ExampleNeck_AfterNut() {
	after, _ := neck.AfterNut(12, geometry.Exactly(2.25), geometry.Exactly(0.2)) // half of it at fret 12
	fmt.Println(after.Low.Millimetres(0.01))
	// Output: 2.15
}
