package draw

import "gapwright/geometry"

// The small pictures to choose from are all of this size.
const smallWide, smallTall = 120.0, 90.0

// build is an outline along its own axis, in drawing units; the sizes are drawn to be told apart, not to scale.
type build struct {
	body, lower, waist, upper float64 // length, and half widths from the tail up
	neck, half                float64 // from the body to the nut, and half its width
	head                      float64
	tuners                    int // on each side
	slotted, pairs            bool
}

func buildOf(id geometry.FamilyID) (build, bool) {
	switch id {
	case geometry.FlatTop6:
		return build{48, 20, 12, 15, 40, 2.6, 19, 3, false, false}, true
	case geometry.FlatTop12:
		return build{48, 20, 12, 15, 40, 3.2, 29, 6, false, true}, true
	case geometry.Nylon:
		return build{47, 18, 12.5, 14, 34, 4, 22, 3, true, false}, true
	case geometry.UkuleleSmall:
		return build{32, 12.5, 8.3, 10, 19, 2.5, 13, 2, false, false}, true
	case geometry.UkuleleTenor:
		return build{37, 14.5, 9.5, 11.5, 27, 2.6, 14, 2, false, false}, true
	case geometry.UkuleleBaritone:
		return build{42, 16.5, 11, 13.2, 32, 2.7, 15, 2, false, false}, true
	case geometry.TenorGuitar:
		return build{45, 19, 11.5, 14.5, 41, 2.1, 16, 2, false, false}, true
	case geometry.BaritoneGuitar:
		return build{52, 23, 14, 17.5, 49, 2.8, 19, 3, false, false}, true
	}
	return build{}, false
}

// FamilyPicture is a plain outline of a kind of instrument, 120 × 90 like all pictures to choose from; for an unknown kind ("something else"), an
// outline with a question mark.
func FamilyPicture(id geometry.FamilyID, title, desc string) Scene {
	p := sheet("family-"+string(id), title, desc, smallWide, smallTall)
	b, known := buildOf(id)
	if !known {
		p.ID = "family-other"
		b = build{48, 20, 12, 15, 40, 2.6, 19, 0, false, false}
	}
	const y = smallTall / 2
	x := (smallWide - b.body - b.neck - b.head) / 2
	body, role := x+b.body, Wood
	if !known {
		role = Hint
	}
	nut := body + b.neck
	p.blob(role, x, y, x+b.body*.05, y-b.lower*.62, x+b.body*.28, y-b.lower, x+b.body*.6, y-b.waist, x+b.body*.84, y-b.upper, body, y-b.half*1.6,
		body, y+b.half*1.6, x+b.body*.84, y+b.upper, x+b.body*.6, y+b.waist, x+b.body*.28, y+b.lower, x+b.body*.05, y+b.lower*.62)
	if !known {
		p.area(Hint, body, y-b.half, nut+b.head, y-b.half-1, nut+b.head, y+b.half+1, body, y+b.half)
		p.turn(0, smallWide/2, y, 27)
		p.query(36, 57, 25)
		return p.Scene
	}
	hole := x + b.body*.7
	p.dot(Hole, hole, y, b.waist*.42)
	if b.slotted { // the ring round the hole of a nylon-strung guitar
		p.dot(Fine, hole, y, b.waist*.42+2.2)
	}
	p.rect(Board, x+b.body*.8, y-b.half, nut-x-b.body*.8, 2*b.half, 0)
	head := b.half + 2.2
	p.area(Sheet, nut, y-b.half, nut+4, y-head, nut+b.head, y-head, nut+b.head, y+head, nut+4, y+b.half+2.2, nut, y+b.half)
	if b.slotted {
		p.rect(Hole, nut+6, y-head*.62, b.head-9, head*.36, 1)
		p.rect(Hole, nut+6, y+head*.26, b.head-9, head*.36, 1)
	}
	for i := range b.tuners {
		t := nut + 5.5 + (b.head-7.5)*(float64(i)+.3)/(float64(b.tuners)-.4)
		p.dot(WireEnd, t, y-head-2, 1.35)
		p.dot(WireEnd, t, y+head+2, 1.35)
	}
	bridge := x + b.body*.3
	p.rect(Hole, bridge-1.5, y-b.lower*.38, 3, b.lower*.76, 1)
	p.strokes(Fine, bridge, y-b.half*.8, nut, y-b.half*.7, bridge, y+b.half*.8, nut, y+b.half*.7)
	if b.pairs {
		p.strokes(Fine, bridge, y, nut, y)
	}
	p.turn(0, smallWide/2, y, 27)
	return p.Scene
}
