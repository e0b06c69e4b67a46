package draw

// Thing is something that can be seen, picked from small pictures.
type Thing string

// The things, by what they answer.
const (
	SaddleLoose    Thing = "saddle-loose"
	SaddleGlued    Thing = "saddle-glued"
	SaddleUnsure   Thing = "saddle-unsure"
	SaddleDamage   Thing = "saddle-damage"
	SaddlePrecious Thing = "saddle-precious"
	SaddleStepped  Thing = "saddle-stepped" // from above: its top stands further forward under some strings
	SaddleSplit    Thing = "saddle-split"
	SaddleThrough  Thing = "saddle-through" // a slot open at both ends
	SaddleLow      Thing = "saddle-low"
	BridgeScrews   Thing = "bridge-screws"
	BridgePosts    Thing = "bridge-posts"
	WorkBlank      Thing = "work-new-saddle"
	WorkNut        Thing = "work-nut-slots"
	WorkRelief     Thing = "work-relief"
	UnderClear     Thing = "under-clear"
	UnderLead      Thing = "under-pickup" // a lead or strip under the saddle
	UnderShim      Thing = "under-shim"
	UnderStuck     Thing = "under-stuck"
	SeatFlat       Thing = "seat-flat"
	SeatRocks      Thing = "seat-rocks"
	SeatLeans      Thing = "seat-leans"
	FollowCaliper  Thing = "follow-caliper"
	FollowPencil   Thing = "follow-pencil"
	FollowKnife    Thing = "follow-knife"
	FollowCards    Thing = "follow-cards"
	ScrewsFree     Thing = "screws-free"
	ScrewsFloating Thing = "screws-floating" // the strings alone hold the bridge
	ScrewsVibrato  Thing = "screws-vibrato"  // a plate that rocks on springs, from the side
	ScrewsUnsure   Thing = "screws-unsure"
	ScrewsStuck    Thing = "screws-stuck"
	ScrewsDamage   Thing = "screws-damage"
	ScrewsPrecious Thing = "screws-precious"
	WayClockwise   Thing = "way-up-clockwise" // a screw from the key's end, and what lifts
	WayCounter     Thing = "way-up-counter"
	WayUnsure      Thing = "way-up-unsure"
	NutFiles       Thing = "nut-files"
	NutNoFiles     Thing = "nut-no-files"
	NutWorn        Thing = "nut-worn"
	NutUnsure      Thing = "nut-unsure"
	RodTurns       Thing = "rod-rod" // a neck from the side, and a key at its end
	RodNone        Thing = "rod-none"
	RodStuck       Thing = "rod-stuck"
	RodUnsure      Thing = "rod-unsure"
)

// Things lists them all.
func Things() []Thing {
	return []Thing{SaddleLoose, SaddleGlued, SaddleUnsure, SaddleDamage, SaddlePrecious, SaddleStepped, SaddleSplit, SaddleThrough, SaddleLow,
		BridgeScrews, BridgePosts, WorkBlank, WorkNut, WorkRelief, UnderClear, UnderLead, UnderShim, UnderStuck,
		SeatFlat, SeatRocks, SeatLeans, FollowCaliper, FollowPencil, FollowKnife, FollowCards,
		ScrewsFree, ScrewsFloating, ScrewsVibrato, ScrewsUnsure, ScrewsStuck, ScrewsDamage, ScrewsPrecious, WayClockwise, WayCounter, WayUnsure,
		NutFiles, NutNoFiles, NutWorn, NutUnsure, RodTurns, RodNone, RodStuck, RodUnsure}
}

// bridge draws a bridge from the front with its open slot, and the top under it.
func (p *pen) bridge() {
	p.area(Wood, 6, 80, 12, 58, 24, 54, 96, 54, 108, 58, 114, 80)
	p.rect(Hole, 26, 56, 68, 12, 0)
	p.line(Outline, 2, 80, 118, 80)
}

// loose draws a saddle from the front, its foot at y, leaning to one side by degrees.
func (p *pen) loose(y, degrees float64) {
	from := len(p.Shapes)
	p.area(Bone, 28, y, 28, y-20, 40, y-23, 60, y-24, 80, y-23, 92, y-20, 92, y)
	p.turn(from, 28, y, degrees)
}

// endOn draws bridge and saddle from the end: a slot cut across, the saddle in it leaning by degrees.
func (p *pen) endOn(degrees float64) {
	p.area(Wood, 14, 82, 30, 52, 52, 50, 52, 72, 68, 72, 68, 50, 90, 52, 106, 82)
	from := len(p.Shapes)
	p.area(Bone, 54, 72, 54, 26, 56, 22, 60, 20, 64, 22, 66, 26, 66, 72)
	p.turn(from, 60, 72, degrees)
}

// ThingPicture draws a thing, 120 × 90.
func ThingPicture(t Thing, title, desc string) Scene {
	p := sheet(string(t), title, desc, smallWide, smallTall)
	switch t {
	case SaddleLoose:
		p.bridge()
		p.loose(52, 0)
		p.strokes(Hint, 28, 54, 28, 68, 92, 54, 92, 68)
		p.arrow(Move, 60, 24, 60, 7)
	case SaddleGlued:
		p.loose(68, 0)
		p.bridgeFront()
		p.blob(Trouble, 30, 58, 36, 54, 44, 59, 52, 55, 60, 59, 68, 55, 76, 59, 84, 54, 91, 58, 84, 64, 76, 63, 68, 68, 60, 63, 52, 66, 44, 63, 37, 66)
		p.arrow(Hint, 60, 40, 60, 14)
		p.strokes(Trouble, 52, 12, 68, 26, 68, 12, 52, 26)
	case SaddleUnsure:
		p.loose(68, 0)
		p.bridgeFront()
		p.query(60, 22, 28)
	case SaddleDamage, ScrewsDamage:
		p.loose(58, 0)
		p.area(Wood, 6, 70, 12, 48, 24, 44, 96, 44, 108, 48, 114, 70)
		p.curve(Outline, 2, 84, 30, 82, 60, 76, 90, 82, 118, 84)
		p.area(Hole, 6, 70, 40, 76, 60, 74, 80, 76, 114, 70, 60, 70)
		p.line(Trouble, 72, 44, 68, 51, 74, 57, 69, 63, 73, 70)
	case SaddlePrecious, ScrewsPrecious:
		if t == SaddlePrecious {
			p.loose(68, 0)
		} else {
			p.turns()
		}
		p.bridgeFront()
		p.curve(Fine, 92, 50, 100, 40, 94, 30)
		from := len(p.Shapes)
		p.area(Sheet, 52, 8, 92, 8, 100, 18, 92, 28, 52, 28)
		p.dot(Outline, 92, 18, 2.2)
		p.strokes(Fine, 58, 15, 80, 15, 58, 21, 74, 21)
		p.turn(from, 76, 18, -8)
	case SaddleStepped:
		p.bridgeAbove()
		p.area(Bone, 22, 38, 98, 38, 98, 50, 22, 50)
		p.line(Outline, 22, 48, 41, 41, 41, 48, 60, 41, 60, 48, 79, 41, 79, 48, 98, 41)
	case SaddleSplit:
		p.area(Bone, 24, 68, 24, 48, 40, 45, 54, 44, 54, 68)
		p.area(Bone, 66, 68, 66, 46, 80, 47, 96, 50, 96, 68)
		p.bridgeFront()
		p.arrow(Dim, 38, 34, 53, 34)
		p.arrow(Dim, 82, 34, 67, 34)
	case SaddleThrough:
		p.area(Bone, 8, 68, 14, 50, 34, 44, 60, 42, 86, 44, 106, 50, 112, 68)
		p.bridgeFront()
		p.area(Bone, 4, 72, 6, 60, 13, 58, 13, 72)
		p.area(Bone, 116, 72, 114, 60, 107, 58, 107, 72)
	case SaddleLow:
		p.area(Bone, 28, 58, 28, 53, 60, 51, 92, 53, 92, 58)
		p.bridgeFront()
		p.arrow(Move, 60, 26, 60, 46)
		p.line(Hint, 20, 28, 100, 28)
	case BridgeScrews:
		p.rect(Metal, 22, 8, 76, 74, 3)
		for i := range 4 {
			y := 14 + 17*float64(i)
			p.rect(Sheet, 44, y, 30, 12, 1)
			p.line(Wire, 2, y+6, 74, y+6)
			p.dot(Hole, 68, y+3, 2.2)
			p.dot(Hole, 68, y+9, 2.2)
		}
		p.sweep(Move, ring(68, 17, 12, 330, 120)...)
	case BridgePosts:
		p.line(Outline, 2, 82, 118, 82)
		for _, x := range [...]float64{26, 94} {
			p.rect(Metal, x-3, 40, 6, 42, 0)
			p.rect(Sheet, x-11, 58, 22, 8, 3)
		}
		p.area(Wood, 12, 50, 14, 38, 30, 30, 60, 27, 90, 30, 106, 38, 108, 50)
		for i := range 4 {
			x := 36 + 16*float64(i)
			p.dot(WireEnd, x, 26, 1.8)
		}
		p.sweep(Move, 10, 72, 26, 76, 42, 72)
	case WorkBlank:
		p.hatch(Hatching, 6, 14, 20, 106, 20, 106, 70, 14, 70)
		p.rect(Outline, 14, 20, 92, 50, 0)
		p.area(Bone, 14, 70, 14, 48, 36, 42, 60, 40, 84, 42, 106, 48, 106, 70)
	case WorkNut:
		p.area(Wood, 8, 84, 8, 62, 112, 62, 112, 84)
		p.area(Bone, 16, 62, 16, 44, 30, 44, 30, 50, 34, 50, 34, 44, 52, 44, 52, 50, 56, 50, 56, 44, 74, 44, 74, 50, 78, 50, 78, 44, 104, 44, 104, 62)
		for _, x := range [...]float64{32, 54, 76} {
			p.dot(WireEnd, x, 46, 2)
		}
		p.area(Metal, 94, 44, 98, 44, 98, 8, 94, 8)
		p.between(Move, 106, 14, 106, 40)
	case WorkRelief:
		p.area(Board, 6, 44, 24, 51, 42, 55, 60, 57, 78, 55, 96, 51, 114, 44, 114, 54, 96, 61, 78, 65, 60, 67, 42, 65, 24, 61, 6, 54)
		p.line(Wire, 6, 38, 114, 38)
		p.between(Dim, 60, 39, 60, 56)
	case UnderClear, UnderLead, UnderShim, UnderStuck:
		p.slot(t)
	case SeatFlat:
		p.endOn(0)
		p.arrow(Move, 60, 4, 60, 15)
		p.line(Good, 84, 30, 90, 37, 102, 22)
	case SeatLeans:
		p.endOn(-12)
		p.line(Hint, 60, 72, 60, 8)
		p.sweep(Move, 62, 10, 70, 11, 80, 16)
	case SeatRocks:
		p.bridge()
		p.loose(66, 5)
		p.sweep(Move, 22, 44, 16, 34, 22, 24)
		p.sweep(Move, 104, 20, 109, 30, 104, 42)
	case FollowCaliper:
		p.area(Bone, 52, 78, 52, 34, 56, 30, 64, 30, 68, 34, 68, 78)
		p.rect(Sheet, 6, 6, 108, 14, 1)
		p.area(Sheet, 34, 20, 52, 20, 52, 62, 46, 52, 34, 26)
		p.area(Sheet, 68, 20, 94, 20, 94, 26, 76, 50, 68, 62)
		p.strokes(Mark, 12, 8, 12, 14, 20, 8, 20, 14, 28, 8, 28, 14)
		p.rect(Hole, 74, 9, 26, 8, 1)
	case FollowPencil:
		p.underside(7)
		p.rod(true)
	case FollowKnife:
		p.underside(0)
		p.rod(false)
	case FollowCards:
		p.loose(58, 0)
		for i := range 4 {
			p.rect(Sheet, 8, 60+6*float64(i), 104, 6, 1)
		}
		p.line(StopLine, 28, 52, 92, 52)
	default:
		p.turning(t)
	}
	return p.Scene
}

// bridgeFront is the bridge in front of a saddle that stands in it.
func (p *pen) bridgeFront() {
	p.area(Wood, 6, 80, 12, 60, 24, 56, 96, 56, 108, 60, 114, 80)
	p.line(Outline, 2, 80, 118, 80)
}

// bridgeAbove is a bridge from above with its slot.
func (p *pen) bridgeAbove() {
	p.blob(Wood, 6, 45, 12, 24, 36, 20, 60, 24, 84, 20, 108, 24, 114, 45, 108, 68, 84, 70, 60, 68, 36, 70, 12, 68)
	p.rect(Hole, 20, 36, 80, 16, 2)
}

// slot is a bridge from above with what lies in its slot.
func (p *pen) slot(t Thing) {
	p.bridgeAbove()
	switch t {
	case UnderLead:
		p.rect(Metal, 24, 40, 72, 8, 3)
		p.curve(Wire, 94, 44, 106, 50, 104, 64, 112, 78, 116, 86)
	case UnderShim:
		p.rect(Bone, 24, 38, 46, 12, 0)
		p.area(Sheet, 54, 39, 92, 36, 94, 47, 56, 50)
	case UnderStuck:
		p.rect(Bone, 20, 36, 80, 16, 2)
		p.strokes(Trouble, 50, 34, 70, 54, 70, 34, 50, 54)
	default:
		p.line(Good, 48, 60, 54, 66, 66, 55)
	}
}

// underside is a saddle upside down, big, with a line of some thickness along it.
func (p *pen) underside(thick float64) {
	p.area(Bone, 4, 40, 116, 40, 116, 82, 4, 82)
	p.hatch(Hatching, 6, 4, 66, 116, 66, 116, 82, 4, 82)
	if thick > 0 {
		p.rect(Pencil, 4, 66-thick, 70, thick, 0)
		p.line(StopLine, 4, 66, 74, 66)
	} else {
		p.line(Outline, 4, 66, 74, 66)
	}
}

// rod is a pencil or a knife held at the end of that line.
func (p *pen) rod(pencil bool) {
	from := len(p.Shapes)
	if pencil {
		p.area(Sheet, 74, 64, 88, 58, 132, 58, 132, 70, 88, 70)
		p.strokes(Fine, 88, 64, 132, 64)
		p.area(Pencil, 74, 64, 80, 61.5, 80, 66.5)
	} else {
		p.area(Metal, 74, 64, 100, 60, 100, 68, 84, 68)
		p.rect(Sheet, 100, 58, 34, 12, 3)
	}
	p.turn(from, 74, 64, 52)
}

// Look is how a drawn line looks after sanding.
type Look uint8

// The looks.
const (
	LineClear   Look = iota // bone still shows under it
	LineTouched             // its lower edge is reached
	LineGone
)

// Place is where along the saddle.
type Place int

// The places as drawn: for a left-handed instrument the bass end is on the right.
const (
	LeftEnd   Place = -1
	MidSaddle Place = 0
	RightEnd  Place = 1
)

// LineLook is a close-up of the sanded edge with the line over it, 120 × 90.
func LineLook(look Look, place Place, title, desc string) Scene {
	p := sheet("line-"+string(rune('a'+look))+string(rune('b'+place)), title, desc, smallWide, smallTall)
	left, right := 0.0, smallWide
	switch place {
	case LeftEnd:
		left = 28
	case RightEnd:
		right = smallWide - 28
	}
	const foot = 68.0
	p.rect(Grit, 0, foot+2, smallWide, 18, 0)
	p.rect(Bone, left, 10, right-left, foot-10, 0)
	switch look {
	case LineClear:
		p.rect(Pencil, left, foot-27, right-left, 11, 0)
		p.line(StopLine, left+2, foot-16, right-2, foot-16)
		p.between(Dim, (left+right)/2, foot-15, (left+right)/2, foot-1)
	case LineTouched:
		p.rect(Pencil, left, foot-11, right-left, 11, 0)
		p.line(StopLine, left+2, foot, right-2, foot)
	case LineGone:
		p.strokes(Trouble, (left+right)/2-9, foot-29, (left+right)/2+9, foot-11, (left+right)/2+9, foot-29, (left+right)/2-9, foot-11)
	}
	return p.Scene
}
