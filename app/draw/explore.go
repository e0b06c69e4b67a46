package draw

import (
	"math"

	"gapwright/geometry"
)

// Explored is one string of the picture. Lengths in millimetres; heights over the chord from fret 1 to the body joint.
type Explored struct {
	Name   string            // 12 letters
	Frets  []float64         // from the nut, fret 1 first
	Tops   []float64         // height of each fret's top: a relief makes most of them slightly negative
	Length float64           // nut to saddle, 200 to 1200
	Nut    float64           // the string's height at the nut
	Now    geometry.Interval // its height at the saddle as it is
	Wanted float64           // the same as wished: the line and the grip
	First  int               // the fret that the string would touch first, 1 first; 0: none to show
	Room   Room              // how it stands to that fret
	Sign   [2]string         // what that means, and which fret it is; 7 letters each
	Value  string            // what the wish comes to, 12 letters
	Chosen bool              // this grip is held
}

// Explore is two strings from the side, to pull up and down.
type Explore struct {
	Title, Desc string // each always given or never: a title that comes and goes is an element that comes and goes
	Strings     [2]Explored
	LeftHanded  bool   // nut on the right
	Exaggerated string // how much taller than long it is drawn, see ExploreTimes; 32 letters
}

// The taps of ExplorePicture: the grips.
const (
	BassGrip   = 1
	TrebleGrip = 2
)

const (
	exploreLane = 95.0  // the room of one string, from top to bottom
	exploreLong = 242.0 // from the nut of the longer string to the saddle
	exploreEnd  = 256.0 // the saddle
	exploreFoot = 16.0  // what is drawn under the lowest fret's top
	leastSign   = 14.0  // the letters beside the frets
	gripHalf    = 17.0  // half a grip's height
	gripReach   = 27.0  // half the height of its target
)

// exploreScale is how the millimetres of both strings are drawn: units a millimetre along and up, and the chord over the bottom of a lane.
type exploreScale struct {
	times            int
	along, up, chord float64
}

func (e Explore) scale() exploreScale {
	long, most, least := 200.0, 0.5, 0.0
	for _, s := range e.Strings {
		long = max(long, within(s.Length, 200, 1200))
		most = max(most, within(s.Nut, 0, 30), within(float64(s.Now.High), 0, 30))
		for i := range s.Tops {
			most, least = max(most, s.top(i)), min(least, s.top(i))
		}
	}
	k := exploreScale{times: 1, along: exploreLong / long}
	for _, t := range []int{2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 35, 40, 45, 50, 60, 80} {
		// an eighth more than the highest string now: it may be wished higher
		if float64(t)*k.along*(1.125*most-least) <= exploreLane-exploreFoot-gripHalf {
			k.times = t
		}
	}
	k.up = k.along * float64(k.times)
	k.chord = exploreFoot - least*k.up
	return k
}

// top is the height of a fret's top; what is not given is on the chord.
func (s Explored) top(i int) float64 {
	if i >= len(s.Tops) || math.IsNaN(s.Tops[i]) {
		return 0
	}
	return within(s.Tops[i], -3, 10)
}

// ExploreTimes is how many times taller than long ExplorePicture draws. It depends on the strings as they are and not on what is wished, so that
// it stays the same under a finger.
func ExploreTimes(e Explore) int { return e.scale().times }

// ExploreRise is the height at the saddle, in millimetres, of one drawing unit: what a pull of one unit down takes off.
func ExploreRise(e Explore) float64 { return 1 / e.scale().up }

// ExplorePicture draws both strings over their frets, nut on the left, on the right for the left-handed: a pale band where each is now, a line where it is wished, strokes between
// where it comes down, a grip at the end of the line, and the room over the fret that comes first. The grips' targets tap BassGrip and
// TrebleGrip, for the first string and the second. For given Frets the shapes are the same in number, order and kind whatever else is
// given: only their values change.
func ExplorePicture(e Explore) Scene {
	p := sheet("explore", e.Title, e.Desc, 320, 2*exploreLane+22)
	p.Shapes = make([]Shape, 0, 56) // a new picture in every frame of a drag
	k := e.scale()
	names := 10 + max(fitted(e.Strings[0].Name, labelSize, 105), fitted(e.Strings[1].Name, labelSize, 105))
	for i, s := range e.Strings {
		p.explored(s, k, exploreLane*float64(i), names)
	}
	p.set(Label, 312, p.Height-7, End, labelSize, 304, e.Exaggerated)
	for i, s := range e.Strings { // last, so that nothing lies over them
		top := exploreLane * float64(i)
		y := within(k.end(s, top), top+gripReach, top+exploreLane-gripReach)
		p.rect(Drag, exploreEnd+2, y-gripReach, p.Width-exploreEnd-2, 2*gripReach, 0).Tap = BassGrip + i
	}
	return Handed(p.Scene, e.LeftHanded)
}

// y is where a height is drawn in the lane that begins at top.
func (k exploreScale) y(top, height float64) float64 {
	return top + exploreLane - k.chord - height*k.up
}

// end is where the wished string ends: so that its grip stays in its lane.
func (k exploreScale) end(s Explored, top float64) float64 {
	return within(k.y(top, within(s.Wanted, -100, 100)), top+gripHalf, top+exploreLane-gripHalf)
}

// explored draws one string in the lane that begins at top; its value begins right of all names.
func (p *pen) explored(s Explored, k exploreScale, top, names float64) {
	y := func(height float64) float64 { return max(k.y(top, height), top+2) }
	length := within(s.Length, 200, 1200)
	nut := exploreEnd - length*k.along
	x := func(i int) float64 { return nut + within(s.Frets[i], 0, length)*k.along }
	bottom, end, over := top+exploreLane-9, k.end(s, top), y(within(s.Nut, 0, 30))

	const crown = 3.0 // a fret's height over the board
	board := append(make([]float64, 0, 2*len(s.Frets)+8), nut, bottom, nut, y(0)+crown)
	frets := make([]float64, 0, 4*len(s.Frets))
	last := nut + 0.7*length*k.along
	for i := range s.Frets {
		last = x(i)
		board = append(board, last, y(s.top(i))+crown)
		frets = append(frets, last, y(s.top(i))+crown, last, y(s.top(i)))
	}
	p.rect(Wood, max(nut-8, 2), bottom-2, 318-max(nut-8, 2), 8, 2)
	p.area(Board, append(board, last+4, board[len(board)-1], last+4, bottom)...)
	if len(frets) > 0 {
		p.strokes(Outline, frets...)
	}
	for _, n := range [...]int{3, 5, 7, 9, 12} { // the dots on the neck's side
		if n <= len(s.Frets) {
			a := nut
			if n > 1 {
				a = x(n - 2)
			}
			p.dot(Round, (a+x(n-1))/2, bottom-3.5, 1.4)
		}
	}
	p.area(Bone, nut-7, bottom, nut-7, over, nut, over, nut, bottom)
	p.area(Bone, exploreEnd, bottom, exploreEnd, end, exploreEnd+7, end+2, exploreEnd+7, bottom)

	low, high := y(within(float64(s.Now.Low), 0, 30)), y(within(float64(s.Now.High), 0, 30))
	p.area(Now, nut, over, exploreEnd, high, exploreEnd, low)
	before := len(p.Shapes)
	if end > low+1 {
		p.hatch(Hatching, 6, nut, over, exploreEnd, low, exploreEnd, end)
	}
	if len(p.Shapes) == before {
		p.strokes(Nothing, nut, over, nut, over)
	}
	p.line(StopLine, nut, over, exploreEnd, end)

	pointed := s.First >= 1 && s.First <= len(s.Frets)
	fret, foot, at := nut, over, over
	if pointed {
		fret, foot = x(s.First-1), y(s.top(s.First-1))
		at = over + (end-over)*(fret-nut)/(exploreEnd-nut)
	}
	const radius = 5.5
	mark := max(min(at, foot)-7-radius, top+20+radius)
	p.line(shown(pointed, Fine), fret, mark, fret, foot)
	from := len(p.Shapes)
	p.room(s.Room, fret, mark, radius, true)
	for i := range p.Shapes[from:] {
		s := &p.Shapes[from+i]
		if !pointed {
			s.Role = Nothing
		}
		if s.Role == Nothing { // unseen, it need not follow
			clear(s.Points)
		}
	}

	// beyond the frets, under the string, is room to say what the mark means
	const signs = exploreEnd - 5
	for i, sign := range s.Sign {
		p.set(shown(pointed, Label), signs, bottom-20+15*float64(i), End, leastSign, 62, sign)
	}

	p.set(Label, 6, top+17, Start, labelSize, 105, s.Name)
	p.set(Value, names, top+17, Start, numberSize, exploreEnd-6-names, s.Value)

	grip, leaf := Grip, GripMark
	if s.Chosen {
		grip, leaf = GripHeld, GripMarkHeld
	}
	const g = exploreEnd + 10 // its tip
	p.blob(grip, g, end, g+12, end-11, g+26, end-gripHalf+0.5, g+40, end-13, g+47, end, g+40, end+13, g+26, end+gripHalf-0.5, g+12, end+11)
	p.strokes(leaf, g+22, end-4, g+29, end-10, g+29, end-10, g+36, end-4, g+22, end+4, g+29, end+10, g+29, end+10, g+36, end+4)
}

// fitted is the room that a label takes when it is set no wider than the room there is.
func fitted(s string, size, room float64) float64 { return min(wide(s, size), room) }

// set puts one line that is always there, even empty, smaller where the room is less than it takes.
func (p *pen) set(r Role, x, y float64, a Anchor, size, room float64, s string) {
	if w := wide(s, size); w > room {
		size *= room / w
	}
	t := p.add(Text, r, []float64{x, y})
	t.Text, t.Anchor, t.Size = s, a, size
}
