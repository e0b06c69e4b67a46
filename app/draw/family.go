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
	lines                     int // strings that are drawn
	front                     front
}

// front is what the front of a body looks like.
type front uint8

const (
	roundHole   front = iota
	slottedHead       // a round hole, and a head with slots
	fHoles
	solid // horns, no hole
)

func buildOf(id geometry.FamilyID) (build, bool) {
	switch id {
	case geometry.FlatTop6:
		return build{48, 20, 12, 15, 40, 2.6, 19, 3, 2, roundHole}, true
	case geometry.FlatTop12:
		return build{48, 20, 12, 15, 40, 3.2, 29, 6, 3, roundHole}, true
	case geometry.Nylon:
		return build{47, 18, 12.5, 14, 34, 4, 22, 3, 2, slottedHead}, true
	case geometry.UkuleleSmall:
		return build{32, 12.5, 8.3, 10, 19, 2.5, 13, 2, 2, roundHole}, true
	case geometry.UkuleleTenor:
		return build{37, 14.5, 9.5, 11.5, 27, 2.6, 14, 2, 2, roundHole}, true
	case geometry.UkuleleBaritone:
		return build{42, 16.5, 11, 13.2, 32, 2.7, 15, 2, 2, roundHole}, true
	case geometry.TenorGuitar:
		return build{45, 19, 11.5, 14.5, 41, 2.1, 16, 2, 2, roundHole}, true
	case geometry.BaritoneGuitar:
		return build{52, 23, 14, 17.5, 49, 2.8, 19, 3, 2, roundHole}, true
	case geometry.Archtop:
		return build{50, 21, 13, 16, 40, 2.6, 19, 3, 2, fHoles}, true
	case geometry.SolidBody:
		return build{40, 15.5, 11.5, 14.5, 44, 2.6, 18, 3, 2, solid}, true
	case geometry.Bass:
		return build{42, 16, 12, 15, 54, 2.8, 19, 2, 4, solid}, true
	case geometry.Bass5:
		return build{42, 16, 12, 15, 54, 3.6, 22, 3, 5, solid}, true
	case geometry.Mandolin:
		return build{36, 17, 14.5, 7.5, 24, 2.6, 20, 4, 3, roundHole}, true
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
		b = build{48, 20, 12, 15, 40, 2.6, 19, 0, 2, roundHole}
	}
	const y = smallTall / 2
	x := (smallWide - b.body - b.neck - b.head) / 2
	body, role := x+b.body, Wood
	if !known {
		role = Hint
	}
	nut := body + b.neck
	at := func(part float64) float64 { return x + b.body*part }
	if b.front == solid {
		p.blob(role, x, y, at(.05), y-b.lower*.7, at(.25), y-b.lower, at(.55), y-b.waist, at(.84), y-b.upper, at(1.06), y-b.upper*.82, at(.94), y-b.upper*.45,
			at(.9), y, at(.94), y+b.upper*.45, at(1.06), y+b.upper*.82, at(.84), y+b.upper, at(.55), y+b.waist, at(.25), y+b.lower, at(.05), y+b.lower*.7)
	} else {
		p.blob(role, x, y, at(.05), y-b.lower*.62, at(.28), y-b.lower, at(.6), y-b.waist, at(.84), y-b.upper, body, y-b.half*1.6,
			body, y+b.half*1.6, at(.84), y+b.upper, at(.6), y+b.waist, at(.28), y+b.lower, at(.05), y+b.lower*.62)
	}
	if !known {
		p.area(Hint, body, y-b.half, nut+b.head, y-b.half-1, nut+b.head, y+b.half+1, body, y+b.half)
		p.turn(0, smallWide/2, y, 27)
		p.query(36, 57, 25)
		return p.Scene
	}
	switch b.front {
	case solid: // what hears the strings
		p.rect(Hole, at(.4), y-b.waist*.5, 3.5, b.waist, 1)
		p.rect(Hole, at(.62), y-b.waist*.5, 3.5, b.waist, 1)
	case fHoles:
		p.curve(Fine, at(.3), y-b.waist*.78, at(.36), y-b.waist*.92, at(.46), y-b.waist*.72, at(.56), y-b.waist*.52, at(.62), y-b.waist*.66)
		p.curve(Fine, at(.3), y+b.waist*.78, at(.36), y+b.waist*.92, at(.46), y+b.waist*.72, at(.56), y+b.waist*.52, at(.62), y+b.waist*.66)
		p.line(Metal, x+2, y, at(.22), y)
	case slottedHead: // the ring round the hole of a nylon-strung guitar
		p.dot(Fine, at(.7), y, b.waist*.42+2.2)
		fallthrough
	default:
		p.dot(Hole, at(.7), y, b.waist*.42)
	}
	p.rect(Board, at(.8), y-b.half, nut-at(.8), 2*b.half, 0)
	head := b.half + 2.2
	p.area(Sheet, nut, y-b.half, nut+4, y-head, nut+b.head, y-head, nut+b.head, y+head, nut+4, y+b.half+2.2, nut, y+b.half)
	if b.front == slottedHead {
		p.rect(Hole, nut+6, y-head*.62, b.head-9, head*.36, 1)
		p.rect(Hole, nut+6, y+head*.26, b.head-9, head*.36, 1)
	}
	for i := range b.tuners {
		t := nut + 5.5 + (b.head-7.5)*(float64(i)+.3)/(float64(b.tuners)-.4)
		p.dot(WireEnd, t, y-head-2, 1.35)
		if b.lines != 5 || i < 2 { // five strings have three and two
			p.dot(WireEnd, t, y+head+2, 1.35)
		}
	}
	bridge := at(.3)
	if b.front == solid {
		bridge = at(.18)
	}
	p.rect(Hole, bridge-1.5, y-b.lower*.38, 3, b.lower*.76, 1)
	strings := make([]float64, 0, 4*b.lines)
	for n := range b.lines {
		part := 2*float64(n)/float64(b.lines-1) - 1
		strings = append(strings, bridge, y+b.half*.8*part, nut, y+b.half*.7*part)
	}
	p.strokes(Fine, strings...)
	p.turn(0, smallWide/2, y, 27)
	return p.Scene
}
