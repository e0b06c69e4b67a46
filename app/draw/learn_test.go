package draw

import (
	"math"
	"testing"
)

// exampleLearn is a scale of 648 mm with 19 frets over a neck that is bent evenly: 4r(xj − x)²/(xj − x1)² over the body's line, the joint at fret 14.
func exampleLearn(relief float64) Learn {
	l := Learn{Title: "The string", Desc: "from the side", Length: 648, Ends: [2]float64{1.27, 3.55}, Before: [2]float64{1.27, 3.55}, First: 4, Room: RoomClear,
		Names: [2]string{"fret 1", "fret 12"}, Gaps: [2]string{"0.60 mm", "2.40 mm"}, Exaggerated: "drawn 40 × too tall"}
	at := func(n int) float64 { return 648 * (1 - math.Exp2(-float64(n)/12)) }
	for n := 1; n <= 19; n++ {
		part := max(0, at(14)-at(n)) / (at(14) - at(1))
		l.Frets, l.Tops = append(l.Frets, at(n)), append(l.Tops, 4*relief*part*part)
	}
	return l
}

// learns is the picture as it begins, and at its ends.
func learns() []named {
	low := exampleLearn(0)
	low.Ends, low.First, low.Room, low.Gaps = [2]float64{-0.13, 2.72}, 1, RoomTouches, [2]string{"0.001 in", "0.051 in"}
	high := exampleLearn(0.6)
	high.Ends, high.First, high.Room = [2]float64{3.71, 4.35}, 17, RoomMay
	wild := exampleLearn(math.NaN())
	wild.Ends, wild.First, wild.Room, wild.Length = [2]float64{-50, math.Inf(1)}, 12, RoomNotKnown, 0
	return []named{{"learn", LearnPicture(exampleLearn(0.2))}, {"learn-low", LearnPicture(low)}, {"learn-high", LearnPicture(high)},
		{"learn-wild", LearnPicture(wild)}, {"learn-empty", LearnPicture(Learn{Title: "t"})}}
}

// 280 units are 648 mm: 40 times taller, a millimetre is 17.28 units. The gap of 2.40 mm at fret 12 is 41.48.
func TestALessonIsDrawnAsTallAsItSays(t *testing.T) {
	l := exampleLearn(0)
	l.Ends = [2]float64{1, 3.8} // 2.4 half-way
	s := LearnPicture(l)
	line, frets := shapeOf(s, StopLine, 0).Points, shapeOf(s, Outline, 0).Points
	middle := (line[0].Y + line[1].Y) / 2
	if got := frets[2*11+1].Y - middle; math.Abs(got-41.48) > 0.01 {
		t.Errorf("the gap at fret 12 is drawn %.2f units high, want 41.48", got)
	}
	if got := frets[2*11+1].X - line[0].X; math.Abs(got-140) > 0.01 {
		t.Errorf("fret 12 is %.2f units from the nut, want half of 280", got)
	}
}
