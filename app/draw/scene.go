// Package draw makes the pictures: plain values in, a Scene of shapes out, and two writers for it. It holds no colours (a shape has a role, and
// the style sheet says how a role looks), no clock and no words: every label, title and description is handed in.
package draw

import (
	"math"
	"strconv"
	"strings"
)

// Point is a place in a picture, in drawing units: x to the right, y down. A picture as wide as the screen is 320 units wide.
type Point struct{ X, Y float64 }

// Scene is a whole picture. Its box starts at 0, 0. Without a Title it is decoration, hidden from screen readers: for pictures beside the
// words that say the same. ID makes the ids of title and description; two pictures with titles on one page need different ones.
type Scene struct {
	ID, Title, Desc string
	Width, Height   float64
	Shapes          []Shape
}

// Kind is what a shape is drawn as.
type Kind uint8

// The kinds.
const (
	Polyline  Kind = iota // straight from point to point
	Polygon               // the same, closed
	Curve                 // smooth through all points
	Blob                  // the same, closed
	Strokes               // every two points are one stroke
	Boxes                 // every two points are opposite corners of an upright area
	Arrow                 // Polyline with a head at its last point
	Dimension             // Polyline with a head at both ends
	Sweep                 // Curve with a head at its last point
	Rect                  // two opposite corners, rounded by R
	Circle                // centre and R
	Text                  // the point is the start, middle or end of the baseline
)

// Anchor is which part of a label its point holds.
type Anchor string

// The anchors.
const (
	Start  Anchor = "start"
	Middle Anchor = "middle"
	End    Anchor = "end"
)

// Shape is one stroke, area or label of a picture.
type Shape struct {
	Kind   Kind
	Role   Role
	Points []Point
	R      float64 // radius of a Circle or of a Rect's corners
	Text   string
	Anchor Anchor
	Size   float64 // of the letters
	Tap    int     // 1 or more: what is chosen by touching it
}

// Node is one element of a written picture, for a view that keeps its elements and changes them in place.
type Node struct {
	Tag  string
	Attr [][2]string
	Text string
	Tap  int
}

// Nodes writes a scene as elements: the first is the svg, all others are its children, in order.
func Nodes(s Scene) []Node {
	root := Node{Tag: "svg", Attr: [][2]string{{"class", "picture"}, {"viewBox", "0 0 " + number(s.Width) + " " + number(s.Height)}}}
	nodes := make([]Node, 1, len(s.Shapes)+3)
	if s.Title == "" {
		root.Attr = append(root.Attr, [2]string{"aria-hidden", "true"})
	} else {
		named := s.ID + "-title"
		nodes = append(nodes, Node{Tag: "title", Attr: [][2]string{{"id", named}}, Text: s.Title})
		if s.Desc != "" {
			nodes = append(nodes, Node{Tag: "desc", Attr: [][2]string{{"id", s.ID + "-desc"}}, Text: s.Desc})
			named += " " + s.ID + "-desc"
		}
		root.Attr = append(root.Attr, [2]string{"role", "img"}, [2]string{"aria-labelledby", named})
	}
	nodes[0] = root
	for _, shape := range s.Shapes {
		nodes = append(nodes, shape.node())
	}
	return nodes
}

// SVG writes a scene as text that stands by itself.
func SVG(s Scene) string {
	var b strings.Builder
	nodes := Nodes(s)
	nodes[0].Attr = append([][2]string{{"xmlns", "http://www.w3.org/2000/svg"}}, nodes[0].Attr...)
	for i, n := range nodes {
		b.WriteString("<" + n.Tag)
		for _, a := range n.Attr {
			b.WriteString(" " + a[0] + `="` + escaped.Replace(a[1]) + `"`)
		}
		b.WriteString(">" + escaped.Replace(n.Text))
		if i > 0 {
			b.WriteString("</" + n.Tag + ">")
		}
		b.WriteString("\n")
	}
	b.WriteString("</svg>\n")
	return b.String()
}

var escaped = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;")

func (s Shape) node() Node {
	n := Node{Tag: "path", Attr: make([][2]string, 1, 6), Tap: s.Tap}
	n.Attr[0] = [2]string{"class", s.Role.Class()}
	set := func(name, value string) { n.Attr = append(n.Attr, [2]string{name, value}) }
	p := s.Points
	switch s.Kind {
	case Rect:
		n.Tag = "rect"
		set("x", number(min(p[0].X, p[1].X)))
		set("y", number(min(p[0].Y, p[1].Y)))
		set("width", number(math.Abs(p[1].X-p[0].X)))
		set("height", number(math.Abs(p[1].Y-p[0].Y)))
		set("rx", number(s.R))
	case Circle:
		n.Tag = "circle"
		set("cx", number(p[0].X))
		set("cy", number(p[0].Y))
		set("r", number(s.R))
	case Text:
		n.Tag, n.Text = "text", s.Text
		set("x", number(p[0].X))
		set("y", number(p[0].Y))
		set("font-size", number(s.Size))
		set("text-anchor", string(s.Anchor))
	default:
		set("d", s.path())
	}
	return n
}

// path is the d of a path, in absolute M, L, C and Z only.
func (s Shape) path() string {
	b := make(trace, 0, 16*len(s.Points)+16)
	p := s.Points
	last := len(p) - 1
	for i, q := range p {
		switch {
		case s.Kind == Boxes:
			if i%2 == 1 {
				b.box(p[i-1], q)
			}
		case i == 0 || s.Kind == Strokes && i%2 == 0:
			b.to('M', q)
		case s.Kind == Curve || s.Kind == Blob || s.Kind == Sweep:
			b.bend(s, i)
		default:
			b.to('L', q)
		}
	}
	switch s.Kind {
	case Blob:
		b.bend(s, last+1)
		b = append(b, 'Z')
	case Polygon:
		b = append(b, 'Z')
	case Arrow, Dimension, Sweep:
		b.head(p[last], p[last-1])
		if s.Kind == Dimension {
			b.head(p[0], p[1])
		}
	}
	return string(b)
}

// trace is a path as it is being written.
type trace []byte

func (b *trace) to(letter byte, q Point) {
	*b = append(*b, letter)
	*b = appendNumber(*b, q.X)
	*b = append(*b, ' ')
	*b = appendNumber(*b, q.Y)
}

// box goes round an upright area between two opposite corners.
func (b *trace) box(p, q Point) {
	b.to('M', p)
	b.to('L', Point{q.X, p.Y})
	b.to('L', q)
	b.to('L', Point{p.X, q.Y})
	*b = append(*b, 'Z')
}

// bend goes from point i−1 to point i on a smooth curve through all points (a Catmull–Rom spline written as cubics).
func (b *trace) bend(s Shape, i int) {
	n := len(s.Points)
	at := func(i int) Point {
		if s.Kind == Blob {
			return s.Points[(i+n)%n]
		}
		return s.Points[min(max(i, 0), n-1)]
	}
	o, p, q, r := at(i-2), at(i-1), at(i), at(i+1)
	b.to('C', Point{p.X + (q.X-o.X)/6, p.Y + (q.Y-o.Y)/6})
	b.to(' ', Point{q.X - (r.X-p.X)/6, q.Y - (r.Y-p.Y)/6})
	b.to(' ', q)
}

// head draws an open arrow head at tip, coming from a point before it; shorter on a short shaft, so that two heads never cross.
func (b *trace) head(tip, from Point) {
	dx, dy := from.X-tip.X, from.Y-tip.Y
	long := math.Hypot(dx, dy)
	if long < 0.5 {
		return
	}
	k := min(6, long/2) / long
	b.to('M', Point{tip.X + k*(dx-0.6*dy), tip.Y + k*(dy+0.6*dx)})
	b.to('L', tip)
	b.to('L', Point{tip.X + k*(dx+0.6*dy), tip.Y + k*(dy-0.6*dx)})
}

// number writes a coordinate with two decimals at most and always the same way.
func number(x float64) string { return string(appendNumber(nil, x)) }

// appendNumber does it by whole hundredths: many are written in every frame of a drag, and strconv takes its time over decimals.
func appendNumber(b []byte, x float64) []byte {
	if !(math.Abs(x) < 1e12) {
		return strconv.AppendFloat(b, x, 'f', 2, 64)
	}
	n := int64(math.RoundToEven(x * 100))
	if n < 0 {
		b, n = append(b, '-'), -n
	}
	b = strconv.AppendInt(b, n/100, 10)
	if n %= 100; n > 0 {
		b = append(b, '.', byte('0'+n/10))
		if n%10 > 0 {
			b = append(b, byte('0'+n%10))
		}
	}
	return b
}
