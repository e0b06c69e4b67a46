package draw

import (
	"math"
	"strconv"
)

// RoomRow is one string of the neck.
type RoomRow struct {
	Name  string // 8 letters
	Rooms []Room // [0] the open string, [n] stopped at fret n; 24 at most
	// where it has the least room, and the fret that is touched first from there; both 0: not shown
	Stop, First int
}

// RoomNeck is the room that every string has at every place where it can be stopped.
type RoomNeck struct {
	Title, Desc string
	LeftHanded  bool
	Rows        []RoomRow // from the bass side, 1 to 6; fewer rooms than in the longest row: the rest is not known
	Row         int       // the string to point out; −1: none
	Keys        [3]string // what clear, may and touches are called, 16 letters each
}

// RoomNeckPicture draws the neck from above as it lies on the player's lap: nut on the left, on the right for the left-handed, the bass string nearest,
// frets as they are spaced. A shape is in every fret space, and beyond the nut for the open string. Where a string has the least room its shape is framed and
// the fret that it touches first is drawn stronger; from the one that is pointed out an arrow goes there.
func RoomNeckPicture(n RoomNeck) Scene {
	const tall, top, end = 24.0, 15.0, 316.0
	rows := n.Rows[:min(len(n.Rows), 6)]
	frets, last, names := 1, 1, 0.0
	for _, r := range rows {
		frets = max(frets, min(len(r.Rooms)-1, 24))
		last = max(last, frets, min(r.First, 24)) // it may lie beyond the highest stop
		names = max(names, fitted(r.Name, labelSize, 70))
	}
	nut := 4 + names + 22
	whole := 1 - math.Exp2(-float64(last)/12)
	at := func(fret int) float64 { return nut + (end-nut)*(1-math.Exp2(-float64(fret)/12))/whole }
	bottom := top + tall*float64(max(len(rows), 1))
	p := sheet("rooms", n.Title, n.Desc, 320, bottom)

	p.rect(Board, nut, top, end-nut, bottom-top, 1)
	for f := 1; f < last; f++ {
		p.line(Fine, at(f), top, at(f), bottom)
	}
	p.rect(Bone, nut-5, top-1, 5, bottom-top+2, 1)
	line := func(row int) float64 { return bottom - tall*(float64(row)+0.5) }
	place := func(stop int) (x, radius float64) { // where the finger is
		if stop == 0 {
			return nut - 14, 4.5
		}
		a, b := at(stop-1), at(stop)
		return (a + b) / 2, min(4.5, 0.44*(b-a))
	}
	for i, r := range rows {
		y := line(i)
		p.line(Wire, nut-14, y, end, y)
		for stop := range frets + 1 {
			room := RoomNotKnown
			if stop < len(r.Rooms) {
				room = r.Rooms[stop]
			}
			x, radius := place(stop)
			if room == RoomNotKnown { // the string would go through it
				p.rect(Gap, x-radius, y-1.5, 2*radius, 3, 0)
			}
			p.room(room, x, y, radius, false)
		}
		p.set(Label, 4, y+5, Start, labelSize, 70, r.Name)
		if r.Stop < 0 || r.Stop >= r.First || r.First > last {
			continue
		}
		x, radius := place(r.Stop)
		to := at(r.First)
		p.dot(StepNow, x, y, radius+3.5)
		p.line(Move, to, y-9, to, y+9)
		if i == n.Row {
			high := y - 10 - min(5, 0.15*(to-x))
			p.sweep(Move, x, y-radius-5, x+(to-x)*0.3, high, x+(to-x)*0.7, high, to, y-10)
		}
	}
	for _, f := range [...]int{3, 5, 7, 9, 12, 15} {
		if f <= last {
			x, _ := place(f)
			p.set(Label, x, bottom+16, Middle, 14, 40, strconv.Itoa(f))
		}
	}
	p.Height = bottom + 20
	p.Scene = Handed(p.Scene, n.LeftHanded) // not the key: it is read
	x := end
	for i, key := range n.Keys {
		if key == "" {
			continue
		}
		w := fitted(key, labelSize, 139)
		if x+16+w > end {
			x = 4
			p.Height += 20
		}
		p.room(RoomClear+Room(i), x+6, p.Height-9, 5, false)
		p.set(Label, x+16, p.Height-4, Start, labelSize, 139, key)
		x += 16 + w + 12
	}
	return p.Scene
}
