package draw

import (
	"math"

	"gapwright/geometry"
)

// LetterKind is what a picture in a letter shows.
type LetterKind uint8

// The kinds.
const (
	LetterString  LetterKind = iota // a string from nut to saddle, read at Fret and held at Held, open at 0
	LetterFirst                     // the nut's end of an open string, read at fret 1
	LetterPressed                   // the same, pressed down on fret 2
	LetterRelief                    // the board under a string that is held down at Held and To
)

// LetterPart is one place as it was and as it is. Lengths in millimetres; a range that is not known is left out.
type LetterPart struct {
	Kind           LetterKind
	ID             string
	Title, Desc    string
	Name           string  // 34 letters
	Scale          float64 // nut to saddle, 200 to 1200
	Fret, Held, To int
	Nut            float64 // the string's height over the fret tops at the nut
	Twelfth        float64 // and over fret 12; for LetterFirst
	Was, Now       *geometry.Interval
	WasLabel       string // 30 letters
	NowLabel       string // 30 letters
	FretLabel      string // at the fret: 20 letters
	Times          int    // how much taller than long it is drawn, see LetterTimes
	Exaggerated    string // says so; 32 letters
}

const letterTall, letterTops = 62.0, 132.0

// along is how far a fret is from the nut.
func (l LetterPart) along(fret float64) float64 {
	return within(l.Scale, 200, 1200) * (1 - math.Exp2(-within(fret, 0, 36)/12))
}

// window is the part of the string that is shown.
func (l LetterPart) window() (from, to float64) {
	switch l.Kind {
	case LetterFirst, LetterPressed:
		return 0, l.along(3.4)
	case LetterRelief:
		return l.along(float64(l.Held) - 0.6), l.along(float64(l.To) + 0.8)
	}
	return 0, within(l.Scale, 200, 1200)
}

// line is the straight string with that gap at its fret: from where to where it is drawn, and how high it is there.
func (l LetterPart) line(gap geometry.Length) (from, low, to, high float64) {
	from, to = l.window()
	x, at, height := l.along(1), 0.0, within(l.Nut, 0, 3)
	switch l.Kind {
	case LetterFirst:
		at, height = l.along(12), within(l.Twelfth, 0, 15)
	case LetterPressed:
		at, height, to = l.along(2), 0, l.along(2)
	default:
		x = l.along(within(float64(l.Fret), 1, 24))
		if l.Held > 0 && l.Held < l.Fret {
			at, height = l.along(float64(l.Held)), 0
			from = at
		}
	}
	over := func(where float64) float64 {
		return within(height+(within(float64(gap), 0, 15)-height)*(where-at)/(x-at), 0, 40)
	}
	return from, over(from), to, over(to)
}

// tallest is how much room the part takes upwards, or downwards for a relief.
func (l LetterPart) tallest() float64 {
	most := 0.05
	for _, g := range []*geometry.Interval{l.Was, l.Now} {
		switch {
		case g == nil:
		case l.Kind == LetterRelief:
			most = max(most, within(float64(g.High), 0, 5)+l.back())
		default:
			_, low, _, high := l.line(g.High)
			most = max(most, low, high)
		}
	}
	return most
}

// back is how far a board may be bent back, up to the string.
func (l LetterPart) back() float64 {
	most := 0.0
	for _, g := range []*geometry.Interval{l.Was, l.Now} {
		if g != nil {
			most = max(most, within(float64(-g.Low), 0, 5))
		}
	}
	return most
}

// LetterTimes is how many times taller than long all the parts can be drawn: 1, 2, 5, 10 and so on, the most that fits.
func LetterTimes(parts []LetterPart) int {
	times := 1
	for _, t := range []int{2, 5, 10, 15, 20, 25, 30, 40, 50, 100, 150, 200} {
		fits := true
		for _, l := range parts {
			from, to := l.window()
			fits = fits && float64(t)*l.tallest()*sideRoom/(to-from) <= letterTall
		}
		if fits {
			times = t
		}
	}
	return times
}

// LetterPicture draws a part, 320 × 192: a plain band for what it was, a hatched one for what it is.
func LetterPicture(l LetterPart) Scene {
	p := sheet(l.ID, l.Title, l.Desc, 320, 192)
	const left, tops = 18.0, letterTops
	from, to := l.window()
	scale := sideRoom / (to - from)
	up := scale * float64(max(l.Times, 1))
	x := func(at float64) float64 { return left + (at-from)*scale }
	level := tops
	if l.Kind == LetterRelief { // it goes down from the string, and up where it may be bent back
		level = tops - letterTall + l.back()*up
	}
	y := func(h float64) float64 { return level - h*up }

	p.text(Label, 8, 18, Start, 304, 1, l.Name)
	row := 38.0
	legend := func(role Role, label string) {
		p.rect(role, 8, row-11, 20, 11, 0)
		if role == After {
			p.hatch(Hatching, 5, 8, row-11, 28, row-11, 28, row, 8, row)
		}
		p.text(Label, 34, row, Start, 278, 1, label)
		row += 19
	}
	if l.Was != nil {
		legend(Now, l.WasLabel)
	}
	if l.Now != nil {
		legend(After, l.NowLabel)
	}

	fret := x(l.along(float64(l.Fret)))
	if l.Kind == LetterRelief {
		l.bow(p, x, y)
	} else {
		wide := x(l.along(19))
		p.rect(Wood, 6, tops+5, 308, 12, 2)
		p.rect(Board, 6, tops+3, min(wide, 314)-6, 8, 1)
		for n := 1.0; n <= 19 && l.along(n) < to; n++ {
			p.line(Outline, x(l.along(n)), tops, x(l.along(n)), tops+3)
		}
		nut, end := 0.0, 0.0
		if l.Kind == LetterString {
			nut = within(l.Nut, 0, 3)
		}
		for _, g := range []*geometry.Interval{l.Was, l.Now} {
			if g != nil {
				_, low, _, high := l.line(g.High)
				end = max(end, high)
				if l.Kind != LetterString {
					nut = max(nut, low)
				}
			}
		}
		p.area(Bone, left-8, tops+4, left-8, y(nut), left, y(nut), left, tops+4)
		if l.Kind == LetterString {
			right := x(to)
			p.area(Bone, right, tops+5, right, min(y(end), tops-6), right+9, min(y(end), tops-6)+2, right+9, tops+5)
		}
		band := func(role Role, g *geometry.Interval) {
			if g == nil {
				return
			}
			a, low, b, high := l.line(g.Low)
			_, low2, _, high2 := l.line(g.High)
			xy := []float64{x(a), y(low2), x(b), y(high2), x(b), y(high), x(a), y(low)}
			p.area(role, xy...)
			if role == After {
				p.hatch(Hatching, 5, xy...)
			}
		}
		band(Now, l.Was)
		band(After, l.Now)
		if l.Kind == LetterPressed {
			p.line(Wire, x(l.along(2)), tops, x(l.along(2.6)), tops)
			p.finger(x(l.along(2.6)), tops-1, -90, 30, 14)
		}
		top := tops
		for _, g := range []*geometry.Interval{l.Was, l.Now} {
			if g != nil {
				top = min(top, y(within(float64(g.High), 0, 15)))
			}
		}
		p.line(Hint, fret, tops+14, fret, top)
	}
	p.text(Label, within(fret, 60, 260), tops+34, Middle, 120, 1, l.FretLabel)
	p.text(Label, 312, tops+54, End, 304, 1, l.Exaggerated)
	return p.Scene
}

// bow draws the board under a string that is held down, hollow as it was and as it is.
func (l LetterPart) bow(p *pen, x, y func(float64) float64) {
	a, b := l.along(float64(l.Held)), l.along(float64(l.To))
	from, to := l.window()
	curve := func(relief geometry.Length, back bool) (xy []float64) {
		r := within(math.Abs(float64(relief)), 0, 5)
		if relief < 0 {
			r = -r
		}
		for n := range 25 {
			if back {
				n = 24 - n
			}
			t := float64(n) / 24
			xy = append(xy, x(a+t*(b-a)), y(-4*r*t*(1-t)))
		}
		return xy
	}
	deepest := geometry.Length(0)
	for _, g := range []*geometry.Interval{l.Was, l.Now} {
		if g != nil {
			deepest = max(deepest, g.High)
		}
	}
	under := append([]float64{x(from), y(0)}, curve(deepest, false)...)
	p.area(Board, append(under, x(to), y(0), x(to), letterTops+14, x(from), letterTops+14)...)
	for _, band := range []struct {
		role Role
		g    *geometry.Interval
	}{{Now, l.Was}, {After, l.Now}} {
		if band.g == nil {
			continue
		}
		low, high := curve(band.g.Low, false), curve(band.g.High, true)
		p.area(band.role, append(low, high...)...)
		if band.role == After { // strokes across: the band is not convex
			var strokes []float64
			for n := 2; n < len(low)-2; n += 2 {
				strokes = append(strokes, low[n], low[n+1], high[len(high)-2-n], high[len(high)-1-n])
			}
			p.strokes(Hatching, strokes...)
		}
	}
	p.line(Wire, x(from), y(0), x(to), y(0))
	p.line(Hint, x(l.along(float64(l.Fret))), y(0), x(l.along(float64(l.Fret))), letterTops+20)
}
