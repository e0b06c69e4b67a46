package draw

import "gapwright/geometry"

// Check is the two outer strings across the board, as they were set and as they are. Heights in millimetres; pairs are bass and treble.
type Check struct {
	Title, Desc string
	Was, Is     [2]geometry.Interval // a Was that is nothing: not known
	Names       [2]string            // 14 letters
	Note        string               // what is to scale; 16 letters
	WasLabel    string               // 16 letters
	IsLabel     string               // 16 letters
	LeftHanded  bool                 // treble on the left, as the player of such an instrument sees it
}

const checkTall = 49.0

// CheckPicture draws for each side a plain bar where the string was and a hatched one where it is, from the fret up, and what joins the middles: a line
// that lies flat above the other when all strings moved alike, and slants when one side did.
func CheckPicture(c Check) Scene {
	p := sheet("check", c.Title, c.Desc, 320, 0)
	const wide = 30.0
	known := c.Was[0].High > 0 && c.Was[1].High > 0
	top, tall, most := 75.0, checkTall, 0.5
	if !known { // lower: there is nothing to compare
		top, tall = 62, 36
	}
	for side := range 2 {
		most = max(most, within(float64(c.Was[side].High), 0, 15), within(float64(c.Is[side].High), 0, 15))
	}
	y := func(h geometry.Length) float64 { return top - within(float64(h), 0, 15)*tall/most }
	p.rect(Board, 22, top+3, 276, 12, 2)
	p.line(Metal, 26, top+2, 294, top+2)
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
		p.rect(role, x-wide/2, high, wide, tall, 0)
		if role == After {
			p.hatch(Hatching, 5, x-wide/2, high, x+wide/2, high, x+wide/2, high+tall, x-wide/2, high+tall)
		}
	}
	const apart = 18.0
	if known {
		line(Hint, c.Was, -apart)
	}
	line(Fine, c.Is, apart)
	for side := range 2 {
		if known {
			bar(Now, c.Was[side], x[side]-apart)
		}
		bar(After, c.Is[side], x[side]+apart)
		p.text(Label, x[side], top+31, Middle, 140, 1, c.Names[side])
	}
	p.Height = top + 35
	if !known {
		p.text(Label, 8, 16, Start, 152, 1, c.Note)
	} else {
		if c.Note != "" {
			p.Height += 17
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
