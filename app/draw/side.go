package draw

import (
	"math"

	"gapwright/geometry"
)

// Side is a string from the side, now and after the round. Lengths in millimetres.
type Side struct {
	Title, Desc string
	Scale       float64           // nut to saddle, 200 to 1200
	Fret        int               // where the gaps are read, 1 to 24
	Nut         float64           // the string's height over the fret tops' line at the nut
	Now, After  geometry.Interval // the gap at that fret
	NowLabel    string            // 30 letters
	AfterLabel  string            // 30 letters
	FretLabel   string            // the fret's number
	Exaggerated string            // how much taller than long it is drawn, see SideTimes; 32 letters
}

const sideRoom, sideTall = 284.0, 78.0

func (s Side) whole() (scale, fret, nut float64) {
	scale = within(s.Scale, 200, 1200)
	return scale, 1 - math.Exp2(-within(float64(s.Fret), 1, 24)/12), within(s.Nut, 0, 3)
}

// atSaddle carries a gap at the fret on to the saddle.
func atSaddle(gap, fret, nut float64) float64 { return nut + (within(gap, 0, 15)-nut)/fret }

// SideTimes is how many times taller than long StringSide draws: 5, 10, 20 and so on, the most that fits.
func SideTimes(s Side) int {
	scale, fret, nut := s.whole()
	most := max(nut, atSaddle(float64(s.Now.High), fret, nut), atSaddle(float64(s.After.High), fret, nut), 0.5)
	times := 1
	for _, t := range []int{2, 5, 10, 15, 20, 25, 30, 40, 50} {
		if float64(t)*most*sideRoom/scale <= sideTall {
			times = t
		}
	}
	return times
}

// StringSide draws the string from nut to saddle over the frets: a plain band where it may be now, a hatched one where it may be after the
// round.
func StringSide(s Side) Scene {
	scale, fret, nut := s.whole()
	p := sheet("side", s.Title, s.Desc, 320, 206)
	const x, tops = 18.0, 140.0
	along := sideRoom / scale
	up := along * float64(SideTimes(s))
	end := x + sideRoom
	y := func(h float64) float64 { return tops - max(h, -1)*up }
	p.rect(Wood, 6, tops+5, 308, 14, 2)
	p.rect(Board, 6, tops+3, x+sideRoom*0.72-6, 9, 1)
	for n := 1; n <= 19; n++ {
		f := x + sideRoom*(1-math.Exp2(-float64(n)/12))
		p.line(Outline, f, tops, f, tops+3)
	}
	top := min(y(atSaddle(float64(s.Now.High), fret, nut)), tops-6)
	p.area(Bone, x-8, tops+4, x-8, y(nut), x, y(nut), x, tops+4)
	p.area(Bone, end, tops+5, end, top, end+9, top+2, end+9, tops+5)
	band := func(role Role, g geometry.Interval) []float64 {
		b := []float64{x, y(nut), end, y(atSaddle(float64(g.High), fret, nut)), end, y(atSaddle(float64(g.Low), fret, nut))}
		p.area(role, b...)
		return b
	}
	band(Now, s.Now)
	p.hatch(Hatching, 5, band(After, s.After)...)

	f := x + sideRoom*fret
	p.line(Hint, f, tops+18, f, y(float64(s.Now.High)))
	p.text(Label, f, tops+36, Middle, 60, 1, s.FretLabel)
	p.rect(Now, 8, 7, 20, 11, 0)
	p.text(Label, 34, 18, Start, 280, 1, s.NowLabel)
	p.rect(After, 8, 28, 20, 11, 0)
	p.hatch(Hatching, 5, 8, 28, 28, 28, 28, 39, 8, 39)
	p.text(Label, 34, 39, Start, 280, 1, s.AfterLabel)
	p.text(Label, 312, tops+59, End, 304, 1, s.Exaggerated)
	return p.Scene
}
