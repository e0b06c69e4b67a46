package draw

import (
	"math"
	"testing"
)

func exampleBow() Bow {
	return Bow{Title: "t", Length: 648, From: 1, To: 14, Relief: 0.2, Known: true, Label: "0.18 to 0.22 mm", Rod: true, Exaggerated: "drawn 40 × too tall"}
}

// bows is a neck from straight to deep, what is turned and what is not.
func bows() []named {
	var list []named
	add := func(name string, change func(*Bow)) {
		b := exampleBow()
		change(&b)
		list = append(list, named{name, BowPicture(b)})
	}
	add("bow", func(b *Bow) {})
	add("bow-straight-looser", func(b *Bow) { b.Relief, b.Label, b.Turn, b.TurnLabel = 0.02, "0.00 to 0.04 mm", -1, "looser, on most" })
	add("bow-deep-tighter", func(b *Bow) { b.Relief, b.Label, b.Turn, b.TurnLabel = 0.52, "0.50 to 0.55 mm", 1, "tighter, on most" })
	add("bow-deep-tighter-left", func(b *Bow) {
		b.Relief, b.Label, b.Turn, b.TurnLabel, b.LeftHanded = 0.52, "0.50 to 0.55 mm", 1, "tighter, on most", true
	})
	add("bow-back", func(b *Bow) { b.Relief, b.Label, b.Rod = -0.3, "bent back by 0.010 to 0.012 in", false })
	add("bow-wild", func(b *Bow) { b.Relief, b.Length, b.Label = 5, 350, "5.00 mm" })
	add("bow-looked-for", func(b *Bow) {
		b.Known, b.Label, b.LookLabel, b.Exaggerated = false, "", "a nut or socket here?", "not to scale"
	})
	return list
}

// dip is how far under the string the lowest fret top of the picture lies.
func dip(b Bow) float64 {
	s := BowPicture(b)
	wire := shapeOf(s, Wire, 0).Points
	line, low := wire[len(wire)-2].Y, 0.0
	for _, shape := range s.Shapes {
		if shape.Kind == Strokes && shape.Role == Outline {
			for i := 1; i < len(shape.Points); i += 2 {
				low = math.Max(low, shape.Points[i].Y-line)
			}
			break
		}
	}
	return low
}

func TestABowIsAsDeepAsItWasRead(t *testing.T) {
	for relief, want := range map[float64][2]float64{ // 648 mm × (1 − 2^(−14/12)) = 359.3 mm on 222 units: 0.618 a mm, and 24.7 at 40 times
		0.02: {0.3, 0.6}, // 0.49 units
		0.2:  {4.6, 5},   // 4.94
		0.52: {12.2, 12.9},
	} {
		b := exampleBow()
		b.Relief = relief
		if got := dip(b); got < want[0] || got > want[1] {
			t.Errorf("a relief of %v is drawn %.2f deep, want %v", relief, got, want)
		}
		if got := BowTimes(b); got != 40 {
			t.Errorf("a relief of %v is drawn %d times too tall, want 40 like the others", relief, got)
		}
	}
	deep := exampleBow()
	deep.Relief = 2 // 49 units at 40 times: more than 30; 24.7 at 20 times
	if got := BowTimes(deep); got != 20 {
		t.Errorf("drawn %d times too tall, want 20", got)
	}
}

// The arrow is seen from the key's end: clockwise tightens, on a left-handed instrument as well; and nothing turns where nothing is turned.
func TestTheKeyTurnsTheWayThatIsMeant(t *testing.T) {
	for _, left := range []bool{false, true} {
		for turn, want := range map[int]int{-2: -1, 1: 1} {
			b := exampleBow()
			b.Turn, b.LeftHanded = turn, left
			arrow := shapeOf(BowPicture(b), Move, 0).Points
			if got := arrow[len(arrow)-1].X > arrow[0].X; got != (want > 0) {
				t.Errorf("turned by %d, left hand %v: over its top the arrow goes to the right: %v", turn, left, got)
			}
		}
	}
	if arrow := shapeOf(BowPicture(exampleBow()), Move, 0); len(arrow.Points) > 0 {
		t.Errorf("nothing is turned, and an arrow is drawn: %v", arrow.Points)
	}
}
