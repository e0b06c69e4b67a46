package draw

// Room is how a string that is plucked stands to the frets under it.
type Room uint8

// The rooms.
const (
	RoomNotKnown Room = iota
	RoomClear         // it clears them all
	RoomMay           // it may touch one
	RoomTouches       // it touches one
)

// Rooms lists them.
func Rooms() []Room { return []Room{RoomNotKnown, RoomClear, RoomMay, RoomTouches} }

// room draws a room as a shape that is told from the others without colour: an open ring, a ring half filled, a filled diamond with a cross in
// it, a short stroke. With every set, the shapes of the others are there too, unseen, so that one picture can change into another in place.
func (p *pen) room(r Room, x, y, radius float64, every bool) {
	part := func(is bool, role Role, draw func(Role)) {
		if is || every {
			draw(shown(is, role))
		}
	}
	wide, cross := radius*1.2, radius*0.38
	part(r == RoomClear || r == RoomMay, RoomRing, func(role Role) { p.dot(role, x, y, radius) })
	part(r == RoomMay, RoomHalf, func(role Role) { p.area(role, ring(x, y, radius, 180, 360)...) })
	part(r == RoomTouches, RoomFull, func(role Role) { p.area(role, x-wide, y, x, y-wide, x+wide, y, x, y+wide) })
	part(r == RoomTouches, RoomCross, func(role Role) {
		p.strokes(role, x-cross, y-cross, x+cross, y+cross, x+cross, y-cross, x-cross, y+cross)
	})
	part(r == RoomNotKnown, RoomDash, func(role Role) { p.line(role, x-radius*0.7, y, x+radius*0.7, y) })
}

// shown is the role of a shape that is always there and not always seen.
func shown(is bool, role Role) Role {
	if is {
		return role
	}
	return Nothing
}
