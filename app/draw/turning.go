package draw

// What is seen of screws, posts, nuts and rods before anything is turned or filed.

// turning draws those things.
func (p *pen) turning(t Thing) {
	switch t {
	case ScrewsFree:
		p.head(60, 45, 24, 6)
		p.sweep(Move, ring(60, 45, 34, 160, 20)...)
		p.line(Good, 90, 66, 96, 73, 108, 58)
	case ScrewsUnsure:
		p.head(42, 45, 24, 6)
		p.query(92, 46, 40)
	case ScrewsStuck: // a head in which the key only slips
		p.head(60, 45, 24, 12)
		p.strokes(Trouble, 40, 25, 80, 65, 80, 25, 40, 65)
	case ScrewsFloating:
		p.curve(Outline, 2, 80, 60, 72, 118, 80)
		p.area(Wood, 34, 74, 36, 60, 44, 56, 76, 56, 84, 60, 86, 74)
		p.area(Hint, 50, 74, 52, 60, 60, 56, 92, 56, 100, 60, 102, 74)
		for i := range 4 {
			p.line(Wire, 46+9*float64(i), 54, 46+9*float64(i), 30)
			p.dot(WireEnd, 46+9*float64(i), 54, 1.8)
		}
		p.arrow(Move, 88, 44, 112, 44)
	case ScrewsVibrato:
		p.area(Wood, 2, 54, 34, 54, 34, 86, 2, 86)
		p.area(Wood, 84, 54, 118, 54, 118, 86, 84, 86)
		p.line(Outline, 34, 78, 38, 70, 43, 84, 48, 70, 53, 84, 58, 70, 62, 78)
		from := len(p.Shapes)
		p.rect(Metal, 62, 48, 8, 36, 1)
		p.rect(Metal, 30, 42, 74, 7, 1)
		p.rect(Sheet, 70, 32, 18, 10, 1)
		p.turn(from, 30, 46, 7)
		p.rect(Hole, 25, 40, 6, 24, 1)
		p.line(Wire, 2, 28, 76, 27)
		p.sweep(Move, 111, 48, 114, 38, 110, 26)
	case WayClockwise, WayCounter, WayUnsure:
		p.head(42, 47, 22, 6)
		switch t {
		case WayClockwise:
			p.sweep(Move, ring(42, 47, 32, 160, 20)...)
		case WayCounter:
			p.sweep(Move, ring(42, 47, 32, 20, 160)...)
		default:
			p.query(92, 46, 40)
			return
		}
		p.dot(WireEnd, 98, 20, 4)
		p.rect(Sheet, 86, 25, 24, 14, 1)
		p.arrow(Move, 98, 78, 98, 46)
	case NutFiles, NutNoFiles, NutWorn, NutUnsure:
		p.nut(t)
	case RodTurns, RodNone, RodStuck, RodUnsure:
		p.rodEnd(t)
	}
}

// turns is a plate with screws, as it stands in front of a bridge.
func (p *pen) turns() {
	for i := range 4 {
		p.rect(Metal, 30+16*float64(i), 40, 12, 20, 1)
		p.dot(Hole, 36+16*float64(i), 47, 2.2)
	}
}

// head is a screw from the end where the key goes, its socket with so many corners: twelve are a round one.
func (p *pen) head(x, y, radius float64, corners int) {
	p.dot(Metal, x, y, radius)
	p.add(Polygon, Hole, polygon(x, y, radius*0.46, corners))
}

func polygon(x, y, radius float64, corners int) []float64 {
	xy := make([]float64, 0, 2*corners)
	for i := range corners {
		xy = append(xy, ring(x, y, radius, 360*float64(i)/float64(corners), 0)[:2]...)
	}
	return xy
}

// nut is a nut from the front with its strings, and what is seen of it.
func (p *pen) nut(t Thing) {
	deep := 48.0
	if t == NutWorn {
		deep = 60
	}
	p.area(Wood, 8, 84, 8, 66, 112, 66, 112, 84)
	p.area(Bone, 12, 66, 12, 42, 27, 42, 27, deep, 33, deep, 33, 42, 57, 42, 57, deep, 63, deep, 63, 42, 87, 42, 87, deep, 93, deep, 93, 42, 108, 42, 108, 66)
	for _, x := range [...]float64{30, 60, 90} {
		p.dot(WireEnd, x, deep-3, 2.4)
	}
	switch t {
	case NutWorn:
		p.line(Trouble, 72, 42, 76, 49, 70, 55, 75, 66)
		p.arrow(Move, 30, 20, 30, 50)
	case NutUnsure:
		p.query(60, 22, 26)
	default: // files, one as wide as each string
		for i, x := range [...]float64{30, 60, 90} {
			wide := 4 - float64(i)*0.8
			p.rect(Metal, x-wide, 6, 2*wide, 28, 0)
		}
		if t == NutNoFiles {
			p.strokes(Trouble, 48, 8, 72, 32, 72, 8, 48, 32)
		}
	}
}

// rodEnd is the head end of a neck from the side, and what is seen of its rod.
func (p *pen) rodEnd(t Thing) {
	p.area(Wood, 118, 52, 118, 70, 60, 68, 48, 62, 12, 74, 8, 64, 44, 44, 52, 52)
	p.area(Board, 54, 46, 118, 46, 118, 52, 54, 52)
	p.area(Bone, 48, 42, 54, 42, 54, 52, 48, 52)
	switch t {
	case RodTurns, RodStuck:
		p.line(Hint, 50, 57, 118, 60)
		p.rect(Metal, 34, 50, 14, 6, 2)
		p.line(Outline, 36, 53, 14, 40, 14, 26)
		if t == RodTurns {
			p.sweep(Move, 6, 40, 8, 28, 22, 20)
		} else {
			p.strokes(Trouble, 20, 32, 46, 58, 46, 32, 20, 58)
		}
	case RodUnsure:
		p.query(28, 26, 28)
	}
}
