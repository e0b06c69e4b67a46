package draw

import "strings"

// quiet is the margin that a code needs on every side, in modules (ISO/IEC 18004, 5.3.8).
const quiet = 4

// CodePicture draws a code of dark and light modules on light paper, whatever the colours around it. Rows come from the top, each with a 1 for
// every dark module, parted by slashes; while there are none, the paper is as large as that of a code of 61 modules. One unit is one module.
func CodePicture(title, desc, rows string) Scene {
	side := 61
	if at := strings.IndexByte(rows, '/'); at > 0 {
		side = at
	}
	wide := float64(side + 2*quiet)
	p := sheet("code", title, desc, wide, wide)
	p.rect(CodePaper, 0, 0, wide, wide, 0)
	var corners []float64
	for y, row := range strings.Split(rows, "/") {
		for x := 0; x < len(row); x++ {
			if row[x] != '1' {
				continue
			}
			first := x
			for x+1 < len(row) && row[x+1] == '1' {
				x++
			}
			corners = append(corners, float64(quiet+first), float64(quiet+y), float64(quiet+x+1), float64(quiet+y+1))
		}
	}
	p.add(Boxes, CodeDark, corners)
	return p.Scene
}

// HandOver draws a phone that shows a code to the camera of another.
func HandOver(title, desc string) Scene {
	p := sheet("hand-over", title, desc, 320, 150)
	phone := func(x float64) {
		p.rect(Sheet, x, 8, 76, 134, 9)
		p.line(Fine, x+28, 15, x+48, 15)
	}
	phone(38)
	p.rect(CodePaper, 46, 44, 60, 60, 0)
	var corners []float64
	for _, at := range [3][2]float64{{52, 50}, {86, 50}, {52, 84}} { // the marks at three corners of every code
		x, y := at[0], at[1]
		corners = append(corners, x, y, x+14, y+2, x, y+12, x+14, y+14, x, y+2, x+2, y+12, x+12, y+2, x+14, y+12, x+4, y+4, x+10, y+10)
	}
	for n := range 60 { // anything at all
		x, y := n*7%24, n*n*5%48
		if x < 8 && (y < 16 || y >= 34) || x >= 16 && y < 16 {
			continue
		}
		corners = append(corners, 52+2*float64(x), 50+float64(y), 54+2*float64(x), 52+float64(y))
	}
	p.add(Boxes, CodeDark, corners)
	p.arrow(Move, 128, 74, 192, 74)
	phone(206)
	for _, at := range [4][4]float64{{214, 44, 1, 1}, {274, 44, -1, 1}, {274, 104, -1, -1}, {214, 104, 1, -1}} { // what the camera sees
		p.line(Move, at[0], at[1]+14*at[3], at[0], at[1], at[0]+14*at[2], at[1])
	}
	return p.Scene
}
