package draw

import (
	"math"
	"slices"
	"strings"

	"gapwright/geometry"
)

// Pictures in life size. Their drawing units are millimetres, and they are written by Print and OnScreen, not by SVG: with a width of their own
// instead of the room there is, and with the class life instead of picture, whose lines are 0.2 mm thin so that they can be measured.

// NewSaddle is a saddle to be made, in life size. Pairs are bass end, treble end.
type NewSaddle struct {
	Title, Desc string
	Saddle      geometry.NewSaddle
	Depth       float64   // of the slot: where the top of the bridge is, mm; 0: not known
	LeftHanded  bool      // bass on the right
	Room        float64   // how wide the screen is, mm; 0: paper
	Sides       [2]string // the names of the ends, 14 letters
	Heights     []string  // at the strings, 6 letters
	Ends        [2]string // the heights at the ends, 12 letters
	Length      string    // 20 letters
	Thickness   string    // 20 letters
	Check       string    // of the line to be measured, see CheckLine; 40 letters
}

const (
	lifeEdge   = 4.0 // empty round the picture
	lifeLetter = 3.0 // height of the letters
	lifeRow    = 4.2
	lifeShape  = 6.0 // what stands under the lowest string's seat when only the shape of the top is known; for the eye
	tick       = 3.0
)

// CheckLine is how long the line is that tells whether a drawing came out in life size, in millimetres: 100, or 50 on a screen that is narrower
// than that; on paper (room 0) 100.
func CheckLine(room float64) float64 {
	if room > 0 && room < 100+2*lifeEdge {
		return 50
	}
	return 100
}

// LifeSize draws a new saddle from the front, at its stop, with every string's place and height; under it from above and from both ends; and the
// line to check it by. On a screen that is too narrow for the saddle it is wider than the screen.
func LifeSize(n NewSaddle) Scene {
	s := n.Saddle
	long := within(float64(s.Length.High), 20, 150)
	thick := within(float64(s.Thickness.High), 0.5, 12)
	check := CheckLine(n.Room)
	wideness := max(long, check) + 2*lifeEdge
	middle := float64(s.Ends[0].At+s.Ends[1].At) / 2
	left, right := (wideness-long)/2, (wideness+long)/2
	x := func(u float64) float64 {
		u -= middle
		if n.LeftHanded {
			u = -u
		}
		return wideness/2 + within(u, -long/2, long/2)
	}
	height := func(u float64) float64 {
		if s.Known {
			return within(float64(s.StopAt(geometry.Length(u))), 0.5, 40)
		}
		return within(lifeShape+float64(s.AboveAt(geometry.Length(u))), 0.5, 40)
	}
	sides, ends := n.Sides, n.Ends
	if n.LeftHanded {
		sides[0], sides[1], ends[0], ends[1] = sides[1], sides[0], ends[1], ends[0]
	}
	p := sheet("life", n.Title, n.Desc, wideness, 0)
	y := lifeEdge + lifeLetter
	p.lifeText(left, y, Start, long/2, sides[0])
	p.lifeText(right, y, End, long/2, sides[1])

	places, widest := make([]float64, len(s.Strings)), 0.0
	for i, c := range s.Strings {
		places[i] = x(float64(c.At))
		if i < len(n.Heights) {
			widest = max(widest, wide(n.Heights[i], lifeLetter)+1)
		}
	}
	rows := 1
	if float64(len(places))*widest > wideness {
		rows = 2 // every second one under the saddle
	}
	y += lifeRow + 1
	above := y
	const steps = 60
	top := make([]float64, 0, 2*steps+4)
	tallest := 0.0
	for i := 0.0; i <= steps; i++ {
		u := middle + long*(i/steps-0.5)
		if n.LeftHanded {
			u = middle - long*(i/steps-0.5)
		}
		top = append(top, left+long*i/steps, height(u))
		tallest = max(tallest, height(u))
	}
	crown := above + lifeRow
	foot := crown + tallest
	for i := 1; i < len(top); i += 2 {
		top[i] = foot - top[i]
	}
	below := foot + lifeLetter + 2
	for row := range rows {
		var at []float64
		for i := row; i < len(places); i += rows {
			at = append(at, places[i])
		}
		line := above
		if row > 0 {
			line = below
		}
		for k, put := range spread(at, widest, wideness) {
			i := row + k*rows
			seat := foot - height(float64(s.Strings[i].At))
			if row == 0 {
				p.line(Fine, put, line+1, places[i], crown-1, places[i], foot)
			} else {
				p.line(Fine, put, line-lifeLetter, places[i], foot+0.5, places[i], seat)
			}
			if i < len(n.Heights) {
				p.lifeText(put, line, Middle, widest, n.Heights[i])
			}
		}
	}
	p.line(Outline, append(top, right, foot)...)
	p.line(Outline, left, top[1], left, foot)
	base := Outline
	if !s.Known {
		base = Hint
	}
	p.line(base, left, foot, right, foot)
	if depth := within(n.Depth, 0, tallest); depth > 0 {
		p.line(Hint, left, foot-depth, right, foot-depth)
	}

	y = foot + lifeLetter + 2 + float64(rows-1)*(lifeRow+1)
	p.lifeText(left, y, Start, long/2, ends[0])
	p.lifeText(right, y, End, long/2, ends[1])
	y += 4
	p.measured(left, right, y)
	y += lifeRow
	p.lifeText(wideness/2, y, Middle, wideness-2*lifeEdge, n.Length)

	y += 3
	p.rect(Outline, left, y, long, thick, thick/2)
	y += thick + 3
	p.rect(Outline, left, y+top[1]-crown, thick, foot-top[1], 0)
	p.rect(Outline, right-thick, y+top[len(top)-1]-crown, thick, foot-top[len(top)-1], 0)
	p.lifeText(wideness/2, y+max(tallest/2, lifeLetter), Middle, max(long-2*thick-2, 30), n.Thickness)
	y += max(tallest, lifeRow) + 5
	p.measured((wideness-check)/2, (wideness+check)/2, y)
	y += lifeRow
	p.lifeText(wideness/2, y, Middle, wideness-2*lifeEdge, n.Check)
	p.Height = y + lifeEdge
	return p.Scene
}

// measured is a line with a tick at each end: from the middle of one tick to the middle of the other.
func (p *pen) measured(from, to, y float64) {
	p.strokes(Outline, from, y, to, y, from, y-tick/2, from, y+tick/2, to, y-tick/2, to, y+tick/2)
}

// lifeText sets a label on one line, smaller rather than cut.
func (p *pen) lifeText(x, y float64, a Anchor, room float64, s string) {
	if s == "" {
		return
	}
	t := p.add(Text, Label, []float64{x, y})
	t.Text, t.Anchor, t.Size = s, a, lifeLetter*min(1, room/wide(s, lifeLetter))
}

// spread puts labels of one width as near to their places as can be, side by side, within the room; the places rise or fall.
func spread(places []float64, each, room float64) []float64 {
	n := len(places)
	put := append([]float64(nil), places...)
	if n == 0 {
		return put
	}
	if put[0] > put[n-1] {
		slices.Reverse(put)
		defer slices.Reverse(put)
	}
	moved := 0.0
	for i := 1; i < n; i++ {
		near := max(put[i], put[i-1]+each)
		moved += near - put[i]
		put[i] = near
	}
	back := moved / float64(n) // as far to one side as to the other
	back = max(min(back, put[0]-each/2), put[n-1]+each/2-room)
	for i := range put {
		put[i] -= back
	}
	return put
}

// CardOutline is an ID-1 card in life size, to lay one on: the long side across, or the short one where the screen is too narrow for that. The
// label stands in the middle, 24 letters.
func CardOutline(upright bool, label, title, desc string) Scene {
	across, down := float64(geometry.CardWidth), float64(geometry.CardHeight)
	if upright {
		across, down = down, across
	}
	p := sheet("card", title, desc, across+2, down+2)
	p.rect(Outline, 1, 1, across, down, float64(geometry.CardCornerLow+geometry.CardCornerHigh)/2)
	p.lifeText(p.Width/2, p.Height/2, Middle, across-8, label)
	return p.Scene
}

// Print writes a picture in life size for paper: its width and height in millimetres.
func Print(s Scene) string { return sized(s, 1, "mm") }

// OnScreen writes a picture in life size for a screen with so many pixels to the millimetre.
func OnScreen(s Scene, perMM float64) string { return sized(s, within(perMM, 0.5, 200), "") }

// sized gives the picture a size of its own. The height is cut to hundredths as the box is, so that both directions have one scale.
func sized(s Scene, per float64, unit string) string {
	size := func(mm float64) string { return number(math.Round(mm*100)/100*per) + unit }
	return strings.Replace(SVG(s), ` class="picture"`, ` class="life" width="`+size(s.Width)+`" height="`+size(s.Height)+`"`, 1)
}
