package draw

import (
	"math"
	"strings"
	"unicode/utf8"
)

// pen puts shapes on a scene; coordinates come as x, y, x, y.
type pen struct{ Scene }

func sheet(id, title, desc string, width, height float64) *pen {
	return &pen{Scene{ID: id, Title: title, Desc: desc, Width: width, Height: height}}
}

func (p *pen) add(kind Kind, role Role, xy []float64) *Shape {
	s := Shape{Kind: kind, Role: role, Points: make([]Point, len(xy)/2)}
	for i := range s.Points {
		s.Points[i] = Point{xy[2*i], xy[2*i+1]}
	}
	p.Shapes = append(p.Shapes, s)
	return &p.Shapes[len(p.Shapes)-1]
}

func (p *pen) line(r Role, xy ...float64)    { p.add(Polyline, r, xy) }
func (p *pen) area(r Role, xy ...float64)    { p.add(Polygon, r, xy) }
func (p *pen) curve(r Role, xy ...float64)   { p.add(Curve, r, xy) }
func (p *pen) blob(r Role, xy ...float64)    { p.add(Blob, r, xy) }
func (p *pen) strokes(r Role, xy ...float64) { p.add(Strokes, r, xy) }
func (p *pen) arrow(r Role, xy ...float64)   { p.add(Arrow, r, xy) }
func (p *pen) sweep(r Role, xy ...float64)   { p.add(Sweep, r, xy) }
func (p *pen) between(r Role, xy ...float64) { p.add(Dimension, r, xy) }
func (p *pen) dot(r Role, x, y, radius float64) {
	p.add(Circle, r, []float64{x, y}).R = radius
}
func (p *pen) rect(r Role, x, y, width, height, corner float64) *Shape {
	s := p.add(Rect, r, []float64{x, y, x + width, y + height})
	s.R = corner
	return s
}

// The sizes of letters, in drawing units.
const (
	labelSize   = 15
	numberSize  = 19
	smallLetter = 21 // in a picture to choose from
)

// wide is the room that a label takes: a careful guess, wider than common letters are. Between 0.50 and 0.60 of the size per letter in the
// system fonts of phones (from memory).
func wide(s string, size float64) float64 { return 0.62 * size * float64(utf8.RuneCountInString(s)) }

// leading is the distance between two lines of text.
const leading = 1.2

// text sets a label in the room there is, in at most so many lines; the first stands at y. What would not fit is set smaller rather than cut:
// a cut number is a wrong number. It returns how many lines it took.
func (p *pen) text(r Role, x, y float64, a Anchor, room float64, most int, s string) int {
	size := float64(labelSize)
	if r == Value {
		size = numberSize
	}
	lines := wrapped(s, size, room, most)
	for _, l := range lines {
		if w := wide(l, size); w > room {
			size *= room / w
		}
	}
	for i, l := range lines {
		t := p.add(Text, r, []float64{x, y + float64(i)*size*leading})
		t.Text, t.Anchor, t.Size = l, a, size
	}
	return len(lines)
}

// wrapped breaks s at spaces into at most so many lines, each within the room where that can be had.
func wrapped(s string, size, room float64, most int) []string {
	var lines []string
	for _, word := range strings.Fields(s) {
		n := len(lines)
		if n > 0 && (n == most || wide(lines[n-1]+" "+word, size) <= room) {
			lines[n-1] += " " + word
		} else {
			lines = append(lines, word)
		}
	}
	return lines
}

// hatch draws slanting strokes over a convex area.
func (p *pen) hatch(r Role, apart float64, xy ...float64) {
	low, high := math.Inf(1), math.Inf(-1)
	for i := 0; i < len(xy); i += 2 {
		low, high = min(low, xy[i]+xy[i+1]), max(high, xy[i]+xy[i+1])
	}
	var ends []float64
	for c := low + apart/2; c < high; c += apart { // the stroke on which x + y = c
		from := len(ends)
		for i, n := 0, len(xy); i < n && len(ends) < from+4; i += 2 {
			x, y, u, v := xy[i], xy[i+1], xy[(i+2)%n], xy[(i+3)%n]
			if t := (c - x - y) / (u + v - x - y); t >= 0 && t < 1 {
				ends = append(ends, x+t*(u-x), y+t*(v-y))
			}
		}
		if len(ends) < from+4 { // only a corner
			ends = ends[:from]
		}
	}
	if len(ends) > 0 {
		p.strokes(r, ends...)
	}
}

// ring is points on an arc round x, y from one angle to another, in degrees, 0 to the right and 90 up.
func ring(x, y, radius, from, to float64) []float64 {
	const n = 6
	xy := make([]float64, 0, 2*n+2)
	for i := 0.0; i <= n; i++ {
		sin, cos := math.Sincos((from + (to-from)*i/n) * math.Pi / 180)
		xy = append(xy, x+radius*cos, y-radius*sin)
	}
	return xy
}

// turn turns all shapes from the given one on round x, y, by degrees anticlockwise as seen. A Rect becomes a Polygon: it no longer lies level.
func (p *pen) turn(from int, x, y, degrees float64) {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	for k := range p.Shapes[from:] {
		s := &p.Shapes[from+k]
		if s.Kind == Rect {
			a, c := s.Points[0], s.Points[1]
			s.Kind, s.Points = Polygon, []Point{a, {c.X, a.Y}, c, {a.X, c.Y}}
		}
		for i, q := range s.Points {
			dx, dy := q.X-x, q.Y-y
			s.Points[i] = Point{x + dx*cos + dy*sin, y - dx*sin + dy*cos}
		}
	}
}

// query draws a question mark, for what is not known.
func (p *pen) query(x, y, tall float64) {
	k := tall / 28
	p.curve(Outline, x-7*k, y-7*k, x-4*k, y-12*k, x+2*k, y-13*k, x+7*k, y-9*k, x+6*k, y-3*k, x+1*k, y+1*k, x, y+6*k)
	p.dot(WireEnd, x, y+13*k, 1.8*k)
}

// finger draws a finger whose tip is at x, y, pointing at the given angle in degrees (0 to the right, 90 up), with a nail.
func (p *pen) finger(x, y, degrees, long, thick float64) {
	from, w := len(p.Shapes), thick/2
	p.curve(Hand, x-long, y-w*1.1, x-long*0.5, y-w, x-w, y-w*0.9, x, y-w*0.2, x, y+w*0.25, x-w*0.9, y+w*0.95, x-long*0.5, y+w, x-long, y+w*1.1)
	p.curve(Fine, x-w*0.5, y-w*0.62, x-w*1.5, y-w*0.5, x-w*1.6, y-w*0.1, x-w*0.3, y-w*0.1)
	p.turn(from, x, y, degrees)
}

// within limits x; what is not a number becomes the lower limit.
func within(x, low, high float64) float64 {
	if x >= low {
		return min(x, high)
	}
	return low
}
