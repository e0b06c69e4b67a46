package draw

// Act is a step of the work that has a picture of its own.
type Act string

// The acts, with the labels that their pictures take. All labels are short: 12 letters unless it says otherwise.
const (
	StandRule    Act = "stand-rule"    // the fret's number; the word at the eye
	TakeOut      Act = "take-out"      // none
	MarkSides    Act = "mark-sides"    // the letter on the bass end; what is marked there; what is marked on the front face (20 letters each)
	SandLow      Act = "sand"          // how to hold; how to stroke (34 letters each)
	SmoothFoot   Act = "smooth"        // none
	SeatTest     Act = "seat"          // none
	StringUp     Act = "string-up"     // none
	MeasureAgain Act = "measure-again" // the fret's number; the old gap; the new gap
	ReliefHeld   Act = "relief-held"   // what is slid in; at the left finger; at the right finger
	FirstGap     Act = "first-gap"     // what is slid in
	FirstPressed Act = "first-pressed" // the same; at the finger
	FileStop     Act = "file-stop"     // at the pile
	LayStrip     Act = "lay-strip"     // none
	LayStepped   Act = "lay-stepped"   // none
)

// Acts lists them.
func Acts() []Act {
	return []Act{StandRule, TakeOut, MarkSides, SandLow, SmoothFoot, SeatTest, StringUp, MeasureAgain, ReliefHeld, FirstGap, FirstPressed, FileStop, LayStrip,
		LayStepped}
}

// ActPicture draws an act, 320 × 180. A label that is not given is left out. Mirrored, MarkSides has its bass end on the right, LayStepped the short strip, and
// what is seen from the side the head.
func ActPicture(a Act, mirrored bool, title, desc string, labels ...string) Scene {
	p := sheet(string(a), title, desc, 320, 180)
	label := func(i int) string {
		if i < len(labels) {
			return labels[i]
		}
		return ""
	}
	switch a {
	case StandRule:
		p.neckSide()
		p.ruler(190, 138)
		p.line(Wire, 4, 112, 316, 104)
		p.line(Hint, 66, 121, 186, 121)
		p.eye(38, 121)
		p.text(Label, 10, 92, Start, 150, 1, label(1))
		p.text(Value, 190, 176, Middle, 60, 1, label(0))
	case MeasureAgain:
		p.neckSide()
		p.ruler(190, 138)
		p.line(Hint, 4, 98, 316, 78)
		p.line(Wire, 4, 112, 316, 104)
		p.arrow(Move, 250, 84, 250, 102)
		p.text(Label, 226, 50, Start, 92, 2, label(1))
		p.text(Label, 226, 126, Start, 92, 1, label(2))
		p.text(Value, 190, 176, Middle, 60, 1, label(0))
		p.sweep(Move, ring(84, 50, 24, 60, -240)...)
	case TakeOut:
		p.tuners(54, 88)
		p.sweep(Move, ring(54, 88, 44, 30, 150)...)
		p.bridgeAt(120, 130, 190)
		p.saddleAt(150, 98, 130)
		p.strokes(Hint, 150, 100, 150, 150, 280, 100, 280, 150)
		p.finger(152, 86, 0, 40, 20)
		p.finger(278, 86, 180, 40, 20)
		p.arrow(Move, 215, 50, 215, 14)
	case MarkSides:
		x, way, near := 40.0, 1.0, Start
		if mirrored {
			x, way, near = 280, -1, End
		}
		p.saddleAt(40, 128, 240)
		p.area(Bone, 40, 92, 54, 80, 108, 73, 160, 71, 212, 73, 266, 80, 280, 92, 212, 84, 160, 82, 108, 84)
		p.text(Value, x+way*24, 118, Middle, 30, 1, label(0))
		p.area(WireEnd, 152, 100, 168, 100, 160, 114)
		p.strokes(Mark, x+way*46, 118, x+way*46, 128, x+way*194, 118, x+way*194, 128)
		p.line(Dim, x+way*24, 132, x+way*24, 150)
		p.line(Dim, 160, 98, 160, 40)
		p.text(Label, x-way*26, 168, near, 200, 1, label(1))
		p.text(Label, 160, 30, Middle, 300, 1, label(2))
	case SandLow:
		p.plate(Grit)
		p.blockLow()
		p.finger(112, 84, -28, 62, 22)
		p.finger(208, 84, 208, 62, 22)
		p.between(Move, 90, 136, 230, 136)
		p.text(Label, 160, 20, Middle, 310, 1, label(0))
		p.text(Label, 160, 174, Middle, 310, 1, label(1))
	case SmoothFoot:
		p.saddleAt(40, 104, 240)
		p.line(StopLine, 42, 104, 278, 104)
		p.rect(Grit, 20, 112, 280, 10, 1)
		p.strokes(Fine, 60, 92, 84, 92, 96, 92, 120, 92, 200, 92, 224, 92)
		p.between(Move, 110, 146, 210, 146)
		p.sweep(Move, 30, 90, 28, 100, 36, 108)
		p.sweep(Move, 290, 90, 292, 100, 284, 108)
	case SeatTest:
		p.bridgeAt(30, 110, 260)
		p.saddleAt(80, 130, 160)
		p.bridgeFace(30, 110, 260)
		p.finger(96, 92, -90, 56, 24)
		p.finger(224, 72, -90, 50, 24)
		p.arrow(Move, 62, 44, 62, 84)
		p.arrow(Move, 258, 84, 258, 44)
	case StringUp:
		p.tuners(84, 92)
		p.sweep(Move, ring(84, 92, 48, 150, 30)...)
		p.dot(Sheet, 236, 86, 46) // a clock's face
		for h := range 12 {
			at := ring(236, 86, 40, float64(h)*30, float64(h)*30)
			p.dot(WireEnd, at[0], at[1], 1.5)
		}
		p.line(Outline, 236, 58, 236, 86, 256, 98)
		p.sweep(Move, ring(236, 86, 56, 90, 0)...)
	case LayStrip, LayStepped:
		x, long := 69.0, 182.0
		if a == LayStepped {
			if long = 61; mirrored {
				x = 190
			}
		}
		p.bridgeAt(30, 118, 260)
		p.rect(Metal, 69, 106, 182, 4, 0)
		p.rect(Bone, x, 100, long, 4, 0)
		p.saddleAt(72, 82, 176)
		p.arrow(Move, 44, 62, 44, 102)
		p.arrow(Move, 276, 62, 276, 102)
	case ReliefHeld:
		p.bowedNeck()
		p.leaf(160, 98)
		p.line(Wire, 4, 94, 26, 88, 66, 97, 254, 97, 316, 84)
		p.finger(53, 96, -90, 62, 22)
		p.finger(246, 97, -90, 62, 22)
		p.text(Label, 160, 62, Middle, 150, 1, label(0))
		p.line(Dim, 160, 70, 160, 90)
		p.text(Label, 6, 22, Start, 150, 1, label(1))
		p.text(Label, 314, 22, End, 150, 1, label(2))
	case FirstGap:
		p.area(Wood, 4, 132, 44, 120, 316, 120, 316, 156, 90, 156, 4, 168)
		p.rect(Board, 66, 112, 250, 16, 1)
		for _, x := range [...]float64{192, 290} {
			p.curve(Metal, x-15, 112, x-13, 105, x, 100, x+13, 105, x+15, 112)
		}
		p.area(Bone, 44, 128, 44, 98, 48, 92, 66, 89, 66, 128)
		p.leaf(186, 83)
		p.line(Wire, 4, 106, 46, 92, 64, 88, 316, 80)
		p.text(Label, 186, 52, Middle, 250, 1, label(0))
		p.line(Dim, 186, 60, 186, 76)
	case FirstPressed:
		p.nutSide()
		for _, x := range [...]float64{112, 190, 264} {
			p.curve(Metal, x-13, 112, x-11, 105, x, 101, x+11, 105, x+13, 112)
		}
		p.leaf(106, 90)
		p.line(Wire, 4, 102, 34, 86, 46, 84, 190, 100, 264, 100, 316, 92)
		p.finger(228, 99, -90, 62, 22)
		p.text(Label, 106, 56, Middle, 120, 1, label(0))
		p.line(Dim, 106, 64, 106, 84)
		p.text(Label, 314, 22, End, 150, 1, label(1))
	case FileStop:
		p.nutSide()
		for n := range 3 { // the pile, laid against the nut
			p.rect(Sheet, 49, 106-float64(n)*6, 62, 6, 0)
		}
		p.curve(Metal, 199, 112, 201, 105, 212, 101, 223, 105, 225, 112)
		p.area(Metal, 4, 98, 4, 89, 150, 76, 150, 85) // tilted down to the headstock
		p.arrow(Move, 96, 60, 26, 67)
		p.text(Label, 166, 92, Start, 150, 1, label(0))
		p.line(Dim, 162, 90, 108, 102)
	}
	switch a {
	case StandRule, MeasureAgain, ReliefHeld, FirstGap, FirstPressed, FileStop:
		if mirrored {
			return Mirrored(p.Scene)
		}
	}
	return p.Scene
}

// neckSide is the neck from the side near fret 12: board, frets 10 to 15, back of the neck.
func (p *pen) neckSide() {
	p.area(Wood, 4, 146, 316, 146, 316, 154, 200, 156, 4, 158)
	p.rect(Board, 4, 138, 312, 12, 1)
	for _, x := range [...]float64{26, 84, 138, 190, 238, 284} {
		p.curve(Metal, x-4, 138, x-3, 134, x, 132, x+3, 134, x+4, 138)
	}
}

// nutSide is the end of the neck from the side: nut, board, headstock.
func (p *pen) nutSide() {
	p.area(Wood, 4, 132, 30, 120, 316, 120, 316, 156, 74, 156, 4, 168)
	p.rect(Board, 48, 112, 268, 16, 1)
	p.area(Bone, 30, 128, 30, 94, 34, 88, 48, 84, 48, 128)
}

// ruler is a rule standing on a fret at x.
func (p *pen) ruler(x, foot float64) {
	p.rect(Rule, x-15, 14, 30, foot-20, 0)
	for n := range 14 {
		tall := 8.0
		if n%2 == 0 {
			tall = 13
		}
		y := foot - 6 - 8*float64(n)
		p.line(Mark, x+15-tall, y, x+15, y)
	}
}

// bowedNeck is a whole neck from the side, hollow in the middle far more than any is: nut on the left, body on the right.
func (p *pen) bowedNeck() {
	hollow := func(x float64) float64 { return 102 + 12*(1-(x-160)*(x-160)/8836) } // the frets at 66 and 254 stand at the ends of the hollow
	board := []float64{30, 116, 30, 100}
	var frets []float64
	for _, x := range [...]float64{66, 100, 131, 160, 187, 211, 234, 254, 272} {
		board = append(board, x, hollow(x))
		frets = append(frets, x, hollow(x), x, hollow(x)-4)
	}
	p.area(Wood, 4, 124, 30, 110, 316, 112, 316, 176, 276, 176, 264, 160, 252, 140, 160, 138, 60, 136, 4, 144)
	p.area(Board, append(board, 276, 100, 276, 114, 254, 114, 160, 125)...)
	p.strokes(Outline, frets...)
	p.area(Bone, 22, 114, 22, 90, 30, 88, 30, 114)
}

// leaf is a feeler's leaf whose tip is slid under a string at x, y, its other end towards the eye.
func (p *pen) leaf(x, y float64) {
	p.area(Metal, x-8, y+4, x-5, y+1, x+5, y+1, x+9, y+4, x+30, y+72, x+4, y+72)
	p.dot(Fine, x+15, y+62, 3)
	p.arrow(Move, x+58, y+70, x+40, y+28)
}

// eye is an eye that looks to the right.
func (p *pen) eye(x, y float64) {
	p.curve(Fine, x+11, y-11, x+17, y-5, x+18, y, x+16, y+5, x+10, y+9)
	p.blob(WireEnd, x+13, y-6, x+16, y-1, x+13, y+4, x+11, y-1)
	p.curve(Outline, x-22, y+1, x-8, y-8, x+15, y-13)
	p.curve(Outline, x-22, y+1, x-8, y+6, x+13, y+10)
	p.curve(Fine, x-14, y-12, x, y-18, x+18, y-20)
}

// tuners is a head with six tuners, round x, y.
func (p *pen) tuners(x, y float64) {
	p.area(Board, x-8, y+84, x-8, y+34, x+8, y+34, x+8, y+84)
	p.area(Sheet, x-10, y+34, x-18, y+24, x-20, y-30, x+20, y-30, x+18, y+24, x+10, y+34)
	for i := range 3 {
		t := y - 20 + 18*float64(i)
		p.rect(Metal, x-34, t-5, 12, 10, 4)
		p.rect(Metal, x+22, t-5, 12, 10, 4)
		p.strokes(Outline, x-22, t, x-18, t, x+18, t, x+22, t)
		p.dot(WireEnd, x-11, t, 3)
		p.dot(WireEnd, x+11, t, 3)
		at := 1.8 * float64(3-i)
		p.line(Wire, x-11, t, x-at, y+34, x-at, y+84)
		p.line(Wire, x+11, t, x+at, y+34, x+at, y+84)
	}
}

// bridgeAt is a bridge from the front with an open slot; bridgeFace the wood in front of what stands in it; saddleAt a saddle with its foot at y.
func (p *pen) bridgeAt(x, y, long float64) {
	p.bridgeFace(x, y, long)
	p.rect(Hole, x+long*.15, y+2, long*.7, 20, 0)
}

func (p *pen) bridgeFace(x, y, long float64) {
	p.area(Wood, x, y+40, x+10, y+8, x+long*.11, y, x+long*.89, y, x+long-10, y+8, x+long, y+40)
	p.line(Outline, max(x-16, 4), y+40, min(x+long+16, 316), y+40)
}

func (p *pen) saddleAt(x, y, long float64) {
	high := 0.15 * long
	p.area(Bone, x, y, x, y-high, x+long*.2, y-high*1.16, x+long*.5, y-high*1.25, x+long*.8, y-high*1.16, x+long, y-high, x+long, y)
}

// plate is something flat seen from a little above, with paper taped down on it.
func (p *pen) plate(paper Role) {
	p.area(Wood, 12, 158, 50, 66, 270, 66, 308, 158)
	p.area(paper, 40, 152, 68, 72, 252, 72, 280, 152)
	p.area(Sheet, 30, 152, 56, 72, 76, 72, 54, 152)
	p.area(Sheet, 290, 152, 264, 72, 244, 72, 266, 152)
}

// blockLow is a saddle standing on the paper.
func (p *pen) blockLow() {
	p.area(Bone, 104, 116, 104, 96, 132, 90, 160, 88, 188, 90, 216, 96, 216, 116)
	p.area(Bone, 104, 96, 110, 90, 134, 84, 160, 82, 186, 84, 210, 90, 216, 96, 188, 90, 160, 88, 132, 90)
}
