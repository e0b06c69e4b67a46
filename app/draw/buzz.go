package draw

import "math"

// BuzzNeck is a neck from above, nut on the left, 120 × 90 like all pictures to choose from: the strings that buzz carry the sign of a string that touches
// where a finger makes them buzz. Strings is 0 for one, 1 for neighbours, 2 for all; place 0 for the open strings, then the first frets, the middle ones,
// those from the 12th on, all of them, a single one; with −1, nowhere in particular, they wave.
func BuzzNeck(strings, place int, title, desc string) Scene {
	p := sheet("buzz", title, desc, smallWide, smallTall)
	const nut, end, top, tall, lines, frets = 24.0, 118.0, 6.0, 78.0, 4, 16
	whole := 1 - math.Exp2(-frets/12.0)
	at := func(fret float64) float64 { return nut + (end-nut)*(1-math.Exp2(-fret/12))/whole }
	p.rect(Board, nut, top, end-nut, tall, 1)
	for f := 1; f < frets; f++ {
		p.line(Fine, at(float64(f)), top, at(float64(f)), top+tall)
	}
	p.rect(Bone, nut-5, top-1, 5, tall+2, 1)
	sign := func(x, y float64) { // that of a string that touches, without its cross: it is small here
		const r = 6.5
		p.area(RoomFull, x-r, y, x, y-r, x+r, y, x, y+r)
	}
	stops := [...][]float64{{}, {0.5, 2.5}, {5.5, 8.5}, {12.5}, {0.5, 3.5, 7.5, 12.5}, {6.5}}
	for n := range lines {
		y := top + tall*(float64(n)+0.5)/lines
		if strings == 0 && n != 2 || strings == 1 && (n == 0 || n == 3) {
			p.line(Wire, 2, y, end, y)
			continue
		}
		if place < 0 {
			wave := []float64{2, y}
			for x := nut + 2; x < end; x += 8 {
				wave = append(wave, x, y+4-float64(len(wave)/2%2*8))
			}
			p.curve(Trouble, wave...)
		} else {
			p.line(Wire, 2, y, end, y)
		}
		if place == 0 || place == 4 {
			sign(10, y)
		}
		if place > 0 && place < len(stops) {
			for _, stop := range stops[place] {
				sign(at(stop), y)
			}
		}
	}
	if place == 5 {
		p.line(Trouble, at(7), top, at(7), top+tall)
	}
	return p.Scene
}

// FretRocker is a short straight edge that rocks on the middle one of three frets, 320 × 120.
func FretRocker(title, desc string) Scene {
	p := sheet("rocker", title, desc, 320, 120)
	p.rect(Board, 4, 84, 312, 24, 1)
	for n, rise := range [...]float64{0, 8, 0} {
		x := 66 + 94*float64(n)
		p.curve(Metal, x-13, 84, x-11, 77-rise, x, 73-rise, x+11, 77-rise, x+13, 84)
	}
	from := len(p.Shapes)
	p.rect(Sheet, 40, 41, 240, 24, 1)
	p.turn(from, 160, 65, 4)
	p.sweep(Move, 30, 52, 26, 42, 30, 30)
	p.sweep(Move, 290, 44, 294, 56, 290, 68)
	return p.Scene
}
