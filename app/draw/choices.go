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
	UnderUnsure    Thing = "under-unsure"
	SeatUnsure     Thing = "seat-unsure"
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
	PostsDamage    Thing = "posts-damage" // what a bridge on posts looks like, where the question is that of the screws
	PostsPrecious  Thing = "posts-precious"
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
	all := make([]Thing, len(things))
	for i, t := range things {
		all[i] = t.thing
	}
	return all
}

// ThingPicture draws a thing, 120 × 90.
func ThingPicture(t Thing, title, desc string) Scene {
	p := sheet(string(t), title, desc, smallWide, smallTall)
	for _, known := range things {
		if known.thing == t {
			p.shapes(known.shapes, nil)
		}
	}
	return p.Scene
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
