package draw

import "gapwright/geometry"

// Check is the two outer strings across the board, as they were set and as they are. Heights in millimetres; pairs are bass and treble.
type Check struct {
	Title, Desc string
	Was, Is     [2]geometry.Interval // a Was that is nothing: not known
	Names       [2]string            // 14 letters
	Note        string               // what is to scale; 16 letters, and 32 where there is something to compare
	WasLabel    string               // 16 letters
	IsLabel     string               // 16 letters
	LeftHanded  bool                 // treble on the left, as the player of such an instrument sees it
}

// CheckBroken tells whether the foot of the bars is left out, so that what differs can be seen.
func CheckBroken(c Check) bool {
	from, _ := c.scale()
	return from > 0
}

// scale is the height at the foot of the bars and the one at their top. Where both differ by little, what all of them share is mostly left out.
func (c Check) scale() (from, to float64) {
	low, high := 15.0, 0.0
	for side := range 2 {
		for _, i := range [2]geometry.Interval{c.Was[side], c.Is[side]} {
			if i.High > 0 {
				low, high = min(low, within(float64(i.Low), 0, 15)), max(high, within(float64(i.High), 0, 15))
			}
		}
	}
	high = max(high, 0.5)
	if span := max(high-low, 0.4); low-0.45*span > 0.3*high {
		return low - 0.45*span, max(high, low+span)
	}
	return 0, high
}

// CheckPicture draws for each side a plain bar where the string was and a hatched one where it is, each on its column from the fret up, and what joins the middles: a line
// that lies flat above the other when all strings moved alike, and slants when one side did.
func CheckPicture(c Check) Scene {
	p := sheet("check", c.Title, c.Desc, 320, 0)
	const wide, apart, high = 38.0, 20.0, 24.0
	known := c.Was[0].High > 0 && c.Was[1].High > 0
	top, tall := 78.0, 78-high
	if !known { // lower: there is nothing to compare
		top, tall = 66, 66-high
	}
	from, to := c.scale()
	y := func(h geometry.Length) float64 { return top - within(float64(h)-from, 0, to-from)*tall/(to-from) }
	p.rect(Board, 8, top+3, 304, 10, 2)
	p.line(Metal, 12, top+2, 308, top+2)
	x := [2]float64{84, 236}
	if c.LeftHanded {
		x[0], x[1] = x[1], x[0]
	}
	line := func(role Role, pair [2]geometry.Interval, off float64) {
		p.line(role, x[0]+off, y(pair[0].Middle()), x[1]+off, y(pair[1].Middle()))
	}
	bar := func(role Role, i geometry.Interval, x float64) {
		high, tall := y(i.High), y(i.Low)-y(i.High)
		if tall < 3 { // so that it is seen
			high, tall = high-(3-tall)/2, 3
		}
		p.rect(Sheet, x-wide/2+5, min(high+tall/2, top), wide-10, max(top-high-tall/2, 0), 0)
		p.rect(Gap, x-wide/2, high, wide, tall, 0) // nothing shows through
		p.rect(role, x-wide/2, high, wide, tall, 0)
		if role == After {
			p.hatch(Hatching, 5, x-wide/2, high, x+wide/2, high, x+wide/2, high+tall, x-wide/2, high+tall)
		}
	}
	if known {
		line(Hint, c.Was, -apart)
	}
	if c.Is[0].High > 0 && c.Is[1].High > 0 {
		line(Fine, c.Is, apart)
	}
	for side := range 2 {
		if known {
			bar(Now, c.Was[side], x[side]-apart)
		}
		if c.Is[side].High > 0 {
			bar(After, c.Is[side], x[side]+apart)
		}
		p.text(Label, x[side], top+29, Middle, 148, 1, c.Names[side])
		if from > 0 { // the columns are broken
			for _, off := range [2]float64{-apart, apart} {
				if off < 0 && known || off > 0 && c.Is[side].High > 0 {
					l, r := x[side]+off-wide/2+2, x[side]+off+wide/2-2
					p.area(Gap, l, top-5, r, top-9, r, top-5, l, top-1)
					p.strokes(Fine, l, top-5, r, top-9, l, top-1, r, top-5)
				}
			}
		}
	}
	p.Height = top + 33
	if !known {
		p.text(Label, 8, 16, Start, 152, 1, c.Note)
	} else {
		if c.Note != "" {
			p.Height += 16
			p.text(Label, 160, p.Height-4, Middle, 304, 1, c.Note)
		}
		p.rect(Now, 8, 5, 20, 11, 0)
		p.text(Label, 34, 16, Start, 122, 1, c.WasLabel)
	}
	p.rect(After, 166, 5, 20, 11, 0)
	p.hatch(Hatching, 5, 166, 5, 186, 5, 186, 16, 166, 16)
	p.text(Label, 192, 16, Start, 120, 1, c.IsLabel)
	return p.Scene
}
