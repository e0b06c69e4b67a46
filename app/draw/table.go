package draw

import (
	"strconv"
	"strings"
)

// Pictures from tables: a table is a text of shapes, one after the other with semicolons between, each a word and its numbers. It takes a fraction of
// the room that calls take in the program, and every picture of a step is drawn by the one reader below.
//
//	line, area, curve, blob, strokes, arrow, sweep, between, hatch  role x y x y …
//	rect role x y wide tall corner · dot role x y radius · arc role x y radius from to
//	text role n anchor x y room lines: the nth label, where there is one
//	finger x y degrees long thick · turn n x y degrees: the last n shapes, or all for 0
//	use name dx dy: the shapes of another table, moved by so much

// kinds are the kinds of shape that are written as they are.
var kinds = [...]struct {
	word string
	kind Kind
}{{"line", Polyline}, {"area", Polygon}, {"curve", Curve}, {"blob", Blob}, {"strokes", Strokes}, {"arrow", Arrow}, {"sweep", Sweep}, {"between", Dimension}}

// shapes draws a table.
func (p *pen) shapes(table string, labels []string) {
	for _, line := range strings.Split(table, ";") {
		words := strings.Fields(line)
		if len(words) < 2 {
			continue
		}
		role, from := Role(words[1]), len(p.Shapes)
		n := make([]float64, 0, len(words))
		for _, w := range words[1:] {
			if x, err := strconv.ParseFloat(w, 64); err == nil {
				n = append(n, x)
			}
		}
		switch words[0] {
		case "rect":
			p.rect(role, n[0], n[1], n[2], n[3], n[4])
		case "dot":
			p.dot(role, n[0], n[1], n[2])
		case "arc":
			p.sweep(role, ring(n[0], n[1], n[2], n[3], n[4])...)
		case "hatch":
			p.hatch(role, n[0], n[1:]...)
		case "finger":
			p.finger(n[0], n[1], n[2], n[3], n[4])
		case "turn":
			first := from - int(n[0])
			if n[0] == 0 {
				first = 0
			}
			p.turn(first, n[1], n[2], n[3])
		case "use":
			p.shapes(parts[words[1]], labels)
			for i := range p.Shapes[from:] {
				points := p.Shapes[from+i].Points
				for k := range points {
					points[k].X, points[k].Y = points[k].X+n[0], points[k].Y+n[1]
				}
			}
		case "text":
			if i := int(n[0]); i < len(labels) && labels[i] != "" {
				p.text(role, n[1], n[2], Anchor(words[3]), n[3], int(n[4]), labels[i])
			}
		default:
			for _, k := range kinds {
				if k.word == words[0] {
					p.add(k.kind, role, n)
				}
			}
		}
	}
}
