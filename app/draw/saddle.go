package draw

// Saddle is a saddle seen from the front, with what comes off its underside. Lengths in millimetres; pairs are bass end, treble end.
type Saddle struct {
	Title, Desc   string
	Length        float64    // 20 to 120
	Height        float64    // at the ends; 0: not known, a usual one is drawn
	Rise          float64    // how much higher the crown is in the middle
	Cut           [2]float64 // to the line that is drawn
	Strings       []float64  // places of the strings across, from the middle, bass negative
	LeftHanded    bool       // bass on the right
	Ends          [2]string  // the names of the ends, 14 letters in a line
	Numbers       [2]string  // what comes off at the ends
	Zoom          string     // the label of the magnified ends, see SaddleZoom
	Letter        string     // on the front of the bass end
	Dots          bool       // a dot near each end
	Beside        Beside     // what lies at the magnified ends
	PencilWidth   float64    // of the line; 0: a line without a thickness
	PencilCaption string     // what is said of its lower edge, for the foot of the picture; up to two lines of 32 letters
}

// Beside is what the line is scored with.
type Beside uint8

// What may lie there.
const (
	NoTool     Beside = iota
	KnifeThere        // a knife’s point at the line
	CardsThere        // a knife on a stack of cards, as high as the line
)

// saddleRoom is how wide the saddle is drawn.
const saddleRoom = 280.0

// SaddleZoom is how much larger than the rest the two ends are drawn so that the cut can be seen: 1 when it can be seen without, and then no
// ends are drawn beside.
func SaddleZoom(length float64, cut [2]float64) int {
	most := within(max(cut[0], cut[1]), 0, 20) * saddleRoom / within(length, 20, 120)
	if most == 0 || most > 14 {
		return 1
	}
	zoom := 2
	for _, z := range []int{5, 10, 20, 40} {
		if most*float64(z) <= 44 {
			zoom = z
		}
	}
	return zoom
}

// SaddleCut draws it in true proportion. Where the cut is too thin to be seen, both ends are drawn again, magnified, and in both at the same
// scale, so that their difference is true.
func SaddleCut(s Saddle) Scene {
	length := within(s.Length, 20, 120)
	zoom := SaddleZoom(length, s.Cut)
	scale := saddleRoom / length
	height := within(s.Height, 0, 20)
	if height == 0 {
		height = 8 // common practice, no source
	}
	cut := [2]float64{within(s.Cut[0], 0, height), within(s.Cut[1], 0, height)}
	rise := within(s.Rise, 0, 6)

	ends, numbers := s.Ends, s.Numbers
	left, right := cut[0], cut[1]
	if s.LeftHanded {
		left, right = right, left
		ends[0], ends[1], numbers[0], numbers[1] = ends[1], ends[0], numbers[1], numbers[0]
	}
	const x, end, crown = 20.0, 20 + saddleRoom, 40.0 // crown: the highest point
	shoulder := crown + rise*scale
	foot := shoulder + height*scale
	inset := 0.0
	if zoom > 1 {
		inset = 94
	}
	p := sheet("saddle", s.Title, s.Desc, 320, 0)
	p.text(Label, 8, 18, Start, 148, 1, ends[0])
	p.text(Label, 312, 18, End, 148, 1, ends[1])

	top := func(t float64) float64 { return shoulder - 4*t*(1-t)*rise*scale }
	outline := []float64{x, foot, x, shoulder + 2}
	for t := 0.02; t < 1; t += 0.12 {
		outline = append(outline, x+t*saddleRoom, top(t))
	}
	p.area(Bone, append(outline, end, shoulder+2, end, foot)...)
	off := []float64{x, foot - left*scale, end, foot - right*scale, end, foot, x, foot}
	p.area(Waste, off...)
	p.hatch(Hatching, 6, off...)
	if left+right > 0 {
		p.line(StopLine, off[:4]...)
	}
	for _, u := range s.Strings {
		t := within(u/length+0.5, 0, 1)
		if s.LeftHanded {
			t = 1 - t
		}
		y := top(t)
		p.line(Fine, x+t*saddleRoom, y, x+t*saddleRoom, y+7)
		p.dot(WireEnd, x+t*saddleRoom, y-4.5, 3)
	}

	at, far := x, end // the bass end, the treble end
	if s.LeftHanded {
		at, far = far, at
	}
	way := (far - at) / saddleRoom
	if s.Dots {
		p.dot(WireEnd, at+9*way, shoulder+13, 2.5)
		p.dot(WireEnd, far-9*way, shoulder+13, 2.5)
	}
	p.text(Label, at+25*way, shoulder+18, Middle, 14, 1, s.Letter)

	edges := [2]float64{foot - (left+right)/2*scale, foot - (left+right)/2*scale} // of the line, where the caption's pointers end
	if zoom > 1 {
		y := foot + 22
		p.text(Label, 160, foot+17, Middle, 190, 1, s.Zoom)
		edges[0] = p.closeUp(8, y, 1, left, (right-left)/length, scale*float64(zoom), s, x, foot)
		edges[1] = p.closeUp(312, y, -1, right, (left-right)/length, scale*float64(zoom), s, end, foot)
	}
	below := foot + inset
	lines := max(p.text(Value, 8, below+24, Start, 146, 2, numbers[0]), p.text(Value, 312, below+24, End, 146, 2, numbers[1]))
	below += 24 + float64(lines)*numberSize*leading
	if s.PencilCaption != "" {
		p.line(Dim, 160, below-12, 160, edges[0]+4)
		if zoom > 1 {
			p.arrow(Dim, 160, edges[0]+4, 144, edges[0]+1)
			p.arrow(Dim, 160, edges[1]+4, 176, edges[1]+1)
		} else {
			p.arrow(Dim, 160, edges[0]+4, 160, edges[0])
		}
	}
	p.Height = below - 8 + float64(p.text(Label, 160, below+4, Middle, 304, 2, s.PencilCaption))*labelSize*leading
	return p.Scene
}

// closeUp draws one end magnified: edge is the outer border of the frame, way 1 for the left end and −1 for the right one, cut what comes off at the
// very end, slope how much more per millimetre inwards; the pointer comes from fromX, fromY. It returns where the line is at the inner border.
func (p *pen) closeUp(edge, y, way, cut, slope, scale float64, s Saddle, fromX, fromY float64) float64 {
	const wideness, tall, air, stand = 142.0, 66.0, 30.0, 10.0
	at := func(x float64) float64 { return edge + way*x }
	foot := y + tall - stand
	inner := cut + slope*(wideness-air)/scale
	line := func(c float64) float64 { return max(foot-c*scale, y+1) }
	p.strokes(Hint, fromX, fromY+3, at(air), y-2)
	p.rect(Sheet, at(0), y, way*wideness, tall, 2)
	p.area(Bone, at(air), y+1, at(air), foot, at(wideness), foot, at(wideness), y+1)
	off := []float64{at(air), line(cut), at(wideness), line(inner), at(wideness), foot, at(air), foot}
	p.area(Waste, off...)
	p.hatch(Hatching, 8, off...)
	if s.PencilWidth > 0 {
		p.area(Pencil, at(air), line(cut), at(wideness), line(inner), at(wideness), line(inner+s.PencilWidth), at(air), line(cut+s.PencilWidth))
	}
	if cut > 0 {
		p.line(StopLine, at(air), line(cut), at(wideness), line(inner))
	}
	switch {
	case s.Beside == CardsThere && foot-line(cut) > 4:
		const cards = 4
		for n := range cards {
			thick := (foot - line(cut)) / cards
			p.rect(Sheet, at(1), foot-thick*float64(n+1), way*(air-3), thick, 0)
		}
	case cut > 0:
		p.between(Dim, at(air-11), line(cut), at(air-11), foot)
	}
	if s.Beside != NoTool && cut > 0 {
		p.area(Metal, at(air), line(cut), at(5), max(line(cut)-9, y+1), at(1), max(line(cut)-9, y+1), at(1), line(cut))
	}
	p.strokes(Fine, at(air-17), foot, at(air-3), foot, at(air-17), line(cut), at(air-3), line(cut))
	return line(inner)
}
