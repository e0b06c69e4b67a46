package draw

// Holder is what a row of strings lies on.
type Holder uint8

// The holders.
const (
	OnSaddle Holder = iota // a saddle in its bridge
	OnScrews               // a screw at each string
	OnPosts                // a bridge on two posts
	OnNut
)

// Slot is how a string lies in the nut.
type Slot uint8

// The slots.
const (
	SlotThere Slot = iota
	SlotHigh
	SlotLow
	SlotNotKnown // not read since it was made
)

// Across is all strings side by side, as they lie on what holds them, seen from the front.
type Across struct {
	Title, Desc string
	On          Holder
	Strings     int // 1 to 12
	LeftHanded  bool
	Over        []string  // over each string, or over both posts, bass first: 4 letters with six strings, 2 with twelve
	Moves       []int     // the same, up above zero and down below
	Under       []string  // the same under each string: its place in an order
	Heads       [2]string // before what stands over the strings and under them; 5 letters, for up to six strings
	At          int       // the string that is meant, from 1; 0: none. At a nut a file stands in its slot.
	Slots       []Slot    // at a nut: how deep each string lies; none given: as it should, without the line that says where that is
	Ends        [2]string
	Note        string // under the picture; 34 letters
}

// holders are drawn under the strings; the nut and the screws have parts of their own for each.
var holders = [...]string{
	OnSaddle: `area wood 10 108 18 78 30 70 290 70 302 78 310 108; rect hole 36 72 248 20 0; use saddle-24 40 92; area wood 10 108 18 80 30 74 290 74 302 80 310 108; line outline 4 108 316 108`,
	OnScrews: `rect fret 10 96 300 12 2`,
	OnPosts: `rect fret 51 70 8 38 0; rect fret 261 70 8 38 0; rect sheet 39 82 32 11 4; rect sheet 249 82 32 11 4;
		area wood 26 76 30 62 60 54 160 47 260 54 290 62 294 76; line outline 4 108 316 108`,
	OnNut: `area wood 14 108 14 86 306 86 306 108`,
}

// slotDeep is how deep the slots are drawn.
var slotDeep = [...]float64{SlotThere: 10, SlotHigh: 3, SlotLow: 20, SlotNotKnown: 10}

func (a Across) slot(i int) Slot {
	if a.On != OnNut || i >= len(a.Slots) {
		return SlotThere
	}
	return min(a.Slots[i], SlotNotKnown)
}

// AcrossPicture draws it, bass on the left; on the right for the left-handed, as they see it.
func AcrossPicture(a Across) Scene {
	p := sheet("across", a.Title, a.Desc, 320, 112)
	n := min(max(a.Strings, 1), 12)
	apart := min(40, 220/float64(max(n-1, 1)))
	centre := 160.0
	if a.Heads != [2]string{} && n <= 6 {
		centre = 176
		p.text(Label, 4, 13, Start, 48, 1, a.Heads[0])
		p.text(Label, 4, 124, Start, 48, 1, a.Heads[1])
	}
	x := func(i int) float64 { return centre + (float64(i)-float64(n-1)/2)*apart }
	const nut = 52.0
	p.shapes(holders[min(int(a.On), len(holders)-1)], nil)
	if a.On == OnNut {
		top := []float64{24, 86, 24, nut}
		for i := range n {
			deep := nut + slotDeep[a.slot(i)]
			if a.slot(i) == SlotNotKnown {
				continue
			}
			top = append(top, x(i)-3.5, nut, x(i)-3.5, deep, x(i)+3.5, deep, x(i)+3.5, nut)
		}
		p.area(Bone, append(top, 296, nut, 296, 86)...)
		if len(a.Slots) > 0 {
			p.strokes(Hint, 14, nut+4, 306, nut+4)
		}
	}
	for i := range n {
		t := (x(i) - centre) / 120
		y := 47 + 8.0*t*t // the crown of the saddle
		switch a.On {
		case OnNut:
			y = nut + slotDeep[a.slot(i)] - 4
		case OnScrews:
			p.rect(Hole, x(i)-2, 70, 4, 26, 0)
			p.rect(Sheet, x(i)-min(13, 0.42*apart), 60, 2*min(13, 0.42*apart), 13, 1)
			y = 59
		case OnPosts:
			y -= 1
		}
		if i+1 == a.At {
			p.rect(StepNow, x(i)-min(9, apart/2), y-12, 2*min(9, apart/2), 20, 4)
		}
		role := WireEnd
		if a.slot(i) == SlotNotKnown {
			role = RoomRing
		}
		p.dot(role, x(i), y-2, 3.2-1.2*float64(i)/float64(n))
	}
	for i, label := range a.Over {
		at, room := x(min(i, n-1)), apart-1
		if a.On == OnPosts {
			at, room = [2]float64{55, 265}[min(i, 1)], 108
		} else if i >= n {
			break
		}
		p.text(Label, at, 13, Middle, room, 1, label)
		if i < len(a.Moves) && a.Moves[i] != 0 {
			from, to := 38.0, 18.0
			if a.Moves[i] < 0 {
				from, to = to, from
			}
			p.arrow(Move, at, from, at, to)
		}
	}
	for i, label := range a.Under[:min(len(a.Under), n)] {
		p.text(Label, x(i), 124, Middle, apart-1, 1, label)
		p.Height = 128
	}
	foot := 124.0
	if len(a.Over) == 0 { // nothing stands over them
		const lift = 26
		for _, shape := range p.Shapes {
			for k := range shape.Points {
				shape.Points[k].Y -= lift
			}
		}
		foot, p.Height = foot-lift, p.Height-lift
	}
	if a.Ends != [2]string{} || a.Note != "" {
		p.Height += 16
		p.text(Label, 8, foot, Start, 60, 1, a.Ends[0])
		p.text(Label, 312, foot, End, 60, 1, a.Ends[1])
		p.text(Label, 160, foot, Middle, 304-2*max(wide(a.Ends[0], labelSize), wide(a.Ends[1], labelSize))-12, 1, a.Note)
	}
	if a.LeftHanded {
		return Mirrored(p.Scene)
	}
	return p.Scene
}

// OuterFirst is the place of each string in the order in which they go on, bass first: the outer two, then the next two, inwards, so that the saddle is held evenly
// (common practice, no source).
func OuterFirst(n int) []int {
	order := make([]int, n)
	for i := range order {
		order[i] = 2*i + 1
		if i >= (n+1)/2 {
			order[i] = 2 * (n - i)
		}
	}
	return order
}
