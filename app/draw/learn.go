package draw

import "math"

// Learn is an example string from the side. Lengths in millimetres, heights over the line of the frets beyond the body joint.
type Learn struct {
	Title, Desc string
	Frets, Tops []float64  // of every fret from the first: its distance from the nut, 0 to Length, and the height of its top, −1 to 4
	Length      float64    // nut to saddle, 200 to 1200
	Ends        [2]float64 // the string at nut and saddle, −1 to 4.5
	Before      [2]float64 // the same before anything was moved
	First       int        // the fret over which there is least room, 1 first; 0: none to show
	Room        Room       // how the string stands to it
	Names       [2]string  // of frets 1 and 12; 8 letters
	Gaps        [2]string  // the gaps there; 8 letters
	Exaggerated string     // how much taller than long it is drawn: LearnTimes; 32 letters
}

// LearnTimes is how many times taller than long LearnPicture draws, whatever is moved: a millimetre stays a millimetre.
const LearnTimes = 40

// LearnPicture draws the string over its frets, nut on the left, with the gaps at frets 1 and 12, a dashed line where it was before, and the mark of
// the room over the fret that it would touch first.
func LearnPicture(l Learn) Scene {
	const left, right, ground, foot, labels = 16.0, 296.0, 132.0, 152.0, 40.0
	p := sheet("learn", l.Title, l.Desc, 320, 184)
	length := within(l.Length, 200, 1200)
	along := (right - left) / length
	up := along * LearnTimes
	x := func(at float64) float64 { return left + within(at, 0, length)*along }
	y := func(height float64) float64 { return within(ground-within(height, -1, 4.5)*up, labels+8, foot-6) }

	const crown = 3.0 // a fret's height over the board
	n := min(len(l.Frets), len(l.Tops))
	var board, frets []float64
	for i := range n {
		board = append(board, x(l.Frets[i]), y(l.Tops[i])+crown)
		frets = append(frets, x(l.Frets[i]), y(l.Tops[i])+crown, x(l.Frets[i]), y(l.Tops[i]))
	}
	nut, saddle := y(l.Ends[0]), y(l.Ends[1])
	p.rect(Wood, 4, foot, 312, 8, 2)
	if n > 1 {
		end := board[2*n-2] + 4
		rise := (board[1] - board[3]) * (board[0] - left) / (board[2] - board[0]) // the board goes on to the nut as it began
		p.area(Board, append(board, end, board[2*n-1], end, foot, left, foot, left, board[1]+rise)...)
		p.strokes(Outline, frets...)
	}
	p.area(Bone, left-8, foot, left-8, nut, left, nut, left, foot)
	p.area(Bone, right, foot, right, saddle, right+8, saddle+2, right+8, foot)
	p.line(Hint, left, y(l.Before[0]), right, y(l.Before[1]))
	p.line(StopLine, left, nut, right, saddle)
	wire := func(at float64) float64 { return nut + (saddle-nut)*(at-left)/(right-left) }

	for i, fret := range [2]int{1, 12} {
		if fret > n {
			continue
		}
		at := x(l.Frets[fret-1])
		p.line(Fine, at, labels+3, at, y(l.Tops[fret-1]))
		start := within(at-12, 124, 218)
		if i == 0 {
			start = 6
		}
		p.text(Label, start, 16, Start, 96, 1, l.Names[i])
		p.text(Value, start, labels-4, Start, 96, 1, l.Gaps[i])
	}
	if l.First >= 1 && l.First <= n {
		at := x(l.Frets[l.First-1])
		p.room(l.Room, at, foot-8, 5.5, false)
		p.line(Hint, at, math.Min(wire(at), foot-14), at, foot-14)
	}
	p.text(Label, 312, 178, End, 304, 1, l.Exaggerated)
	return p.Scene
}
