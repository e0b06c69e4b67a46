package draw

import (
	"math"
	"testing"
)

// In a mirror everything is as far from the other edge, at the same height, and every letter still reads from left to right; a mirror of a mirror is what
// was there before.
func TestMirrored(t *testing.T) {
	p := sheet("m", "t", "", 100, 50)
	p.line(Wire, 10, 5, 40, 6)
	p.rect(Bone, 20, 10, 30, 5, 1)
	p.text(Label, 12, 20, Start, 80, 1, "now")
	m := Mirrored(p.Scene)
	for n, want := range [][]Point{{{90, 5}, {60, 6}}, {{50, 10}, {80, 15}}, {{88, 20}}} {
		for i, at := range want {
			if m.Shapes[n].Points[i] != at {
				t.Errorf("shape %d: point %d is %v, want %v", n, i, m.Shapes[n].Points[i], at)
			}
		}
	}
	if m.Shapes[2].Anchor != End || m.Shapes[2].Text != "now" || p.Shapes[2].Anchor != Start {
		t.Errorf("the label: %v", m.Shapes[2])
	}
	for _, a := range Acts() {
		s := ActPicture(a, false, "t", "", "one", "two", "three")
		for n, shape := range Mirrored(Mirrored(s)).Shapes {
			for i, at := range shape.Points {
				if was := s.Shapes[n].Points[i]; math.Abs(at.X-was.X) > 1e-9 || at.Y != was.Y || shape.Anchor != s.Shapes[n].Anchor {
					t.Errorf("%s, shape %d: %v after two mirrors, %v before", a, n, at, was)
				}
			}
		}
	}
}
