package geometry

import "math"

// LineSeen is how a drawn line looks after sanding, at one place.
type LineSeen uint8

// The paper has not reached the line, just touches its lower edge, or has taken it away.
const (
	LineClear LineSeen = iota
	LineTouched
	LineGone
)

// PencilWidth is how wide a pencil line is: why it must be said which of its edges counts (common practice, no source).
var PencilWidth = Interval{0.3, 0.5}

// LineLook is one look at the line: how many strokes since the last look, and how it looks at the bass end, in the middle and at the treble end.
type LineLook struct {
	Strokes              int
	Bass, Middle, Treble LineSeen
}

// LineSanding is a round's work by the drawn line alone. The line's lower edge lies on the cut, so touching it is the stop; where the whole line
// has gone, at least its width too much came off.
type LineSanding struct {
	Line                   Line     // the cut that the line stands for
	SpareBass, SpareTreble Length   // what may come off beyond it: the allowance kept back for the fine paper
	PerStroke              Interval // what one stroke may take off; zero: StrokeGuess(0)
}

const (
	atOneLook         = 4   // strokes before the next look where a touched line or a bent underside is at stake (common practice, no source)
	lineDiffer Length = 0.1 // two ends of a line nearer to each other than this are one job (common practice, no source)
)

// lineEnd is what the looks tell of one end.
type lineEnd struct {
	cut, spare            Length
	seen                  LineSeen // at the last look
	clear, touched, total int      // strokes until the last look that saw it clear, until the first after that which did not, and until the last look
	little                bool     // so low that clear and touched look the same
}

func endOf(cut, spare Length, looks []LineLook, seen func(LineLook) LineSeen) lineEnd {
	e := lineEnd{little: !(cut > leastLeft+hair)}
	if cut > 0 { // so that what is no number counts as nothing
		e.cut = cut
	}
	if spare > 0 {
		e.spare = spare
	}
	for _, l := range looks {
		e.total += max(0, min(l.Strokes, 10000))
		if e.seen = seen(l); e.seen == LineClear {
			e.clear, e.touched = e.total, 0
		} else if e.touched == 0 {
			e.touched = e.total
		}
	}
	return e
}

// there tells whether nothing more is to come off here.
func (e lineEnd) there() bool { return e.seen >= LineTouched || e.little }

// losing is the most that a stroke can be taking off here while the other end is pressed. A line that was clear proves that the strokes until
// then took less than the cut; where no look can prove anything, the guess and what the other end's line proves are shared out.
func (e lineEnd) losing(other lineEnd, guess Length) Length {
	if e.little {
		if other.clear > 0 && !other.little {
			guess = min(guess, other.cut/Length(other.clear))
		}
		return farShare * guess
	}
	if e.clear == 0 { // touched at the very first look
		return max(guess, e.cut/Length(max(1, e.total)))
	}
	rate := e.cut / Length(e.clear)
	if e.cut > other.cut { // pressed until now
		rate *= farShare
	}
	return rate
}

// room is how many strokes this end bears from now on while the other is pressed; negative: any number.
func (e lineEnd) room(other lineEnd, guess Length) int {
	switch rate := e.losing(other, guess); {
	case e.little:
		most := max(e.cut+e.spare, leastLeft) // an end that was to lose nothing is let go that much past
		if !other.little && farShare*other.cut <= most {
			return -1
		}
		return max(0, strokesBelow(most, rate)-e.total)
	case e.seen >= LineTouched:
		return max(0, strokesBelow(e.spare/2, rate)-(e.total-e.touched))
	}
	return -1
}

// part is how many more strokes, of those that an untouched line has borne, cannot pass it by more than a quarter of the cut nor, down to an eighth,
// by more than the spare.
func (e lineEnd) part() float64 {
	if e.there() || e.spare <= 0 || e.cut <= 4*e.spare {
		return 1. / 4
	}
	return max(1./8, float64(e.spare/e.cut))
}

// smooth is what the fine paper may take here: of a clear line all that was kept back; of a touched one what is left when everything since it was
// last clear came off at the fastest that this allows, so often nothing.
func (e lineEnd) smooth(other lineEnd, guess Length) Length {
	over := Length(0)
	switch {
	case e.total == 0:
	case e.seen >= LineGone:
		over = e.spare
	case e.little:
		over = max(0, e.losing(other, guess)*Length(e.total)-e.cut)
	case e.seen == LineClear:
	case e.clear == 0:
		over = e.spare
	default:
		over = e.cut / Length(e.clear) * Length(e.total-e.clear)
	}
	return max(0, e.spare-over)
}

// strokesBelow is how many strokes take off no more than left, ten thousand at most.
func strokesBelow(left, perStroke Length) int {
	n := math.Floor(float64(left/perStroke) + roundingHair)
	if !(n > 0) {
		return 0
	}
	return int(min(10000, n))
}

// Coach tells what to do from the line alone.
//
// Where one end of the line is higher by more than 0.1 mm and a fifth, that end is favoured from the start, in every other look when the low end is
// more than half as high. The first look comes before half of the cut, of the higher end's where it is favoured, at three times the guess's
// high end. After that a line that is still clear proves that so many strokes took less than the cut, so a quarter as many more cannot pass it
// by more than a quarter of the cut; where that is more than the spare, fewer, down to an eighth. Or as many more as could not reach it at
// three times the guess's high end.
//
// Once an end is touched, the other one is favoured, a few strokes at a time, until those could have used up half of the touched end's spare; then
// it stops, and what the other end has left is the next round's. An end of 0.05 mm or less counts as touched from the start, since clear
// and touched look the same there: it bears as many strokes as at the guess's high end use up its cut and its spare, half as much coming off there
// as at the pressed end; or any number, when half of the other end's cut is no more than that.
func (s LineSanding) Coach(looks []LineLook) Advice {
	if !(s.PerStroke.High > 0) || !s.PerStroke.Valid() {
		s.PerStroke = StrokeGuess(0)
	}
	bass := endOf(s.Line.Bass, s.SpareBass, looks, func(l LineLook) LineSeen { return l.Bass })
	treble := endOf(s.Line.Treble, s.SpareTreble, looks, func(l LineLook) LineSeen { return l.Treble })
	middle := LineClear
	if n := len(looks); n > 0 {
		middle = looks[n-1].Middle
	}
	guess := s.PerStroke.High
	a := Advice{PerStroke: s.PerStroke, SmoothBass: bass.smooth(treble, guess), SmoothTreble: treble.smooth(bass, guess)}
	touched := min(bass.seen, treble.seen) >= LineTouched
	switch {
	case max(bass.seen, middle, treble.seen) >= LineGone:
		a.Verdict = PastLine
		if bass.seen >= LineGone {
			a.OverBass = PencilWidth.High
		}
		if treble.seen >= LineGone {
			a.OverTreble = PencilWidth.High
		}
		return a
	case touched && middle == LineClear && !bass.little && !treble.little:
		a.Verdict = Hollow
	case bass.there() && treble.there():
		a.Verdict = AtLine
		return a
	case middle == LineTouched && bass.seen == LineClear && treble.seen == LineClear:
		a.Verdict = Rounded
	case bass.there():
		a.Verdict = FavourTreble
	case treble.there():
		a.Verdict = FavourBass
	default:
		low, high := min(bass.cut, treble.cut), max(bass.cut, treble.cut)
		apart := high-low > max(lineDiffer, high/5)+hair
		if apart && (low <= high/2 || len(looks)%2 == 0) {
			a.Verdict = FavourBass
			if treble.cut > bass.cut {
				a.Verdict = FavourTreble
			}
		}
	}

	// What would use up the cuts at three times the guess, and a quarter of what the untouched line has borne.
	reach := func(e lineEnd, pressed bool) int {
		left, rate := e.cut, guessFactor*guess
		switch {
		case !pressed && e.there() && e.total > 0:
			return mostStrokes // see room
		case !pressed && e.there():
			left, rate = max(e.cut+e.spare, leastLeft), farShare*rate
		case !pressed:
			rate *= farShare
		case e.total == 0:
			left /= 2
		}
		return strokesBelow(left, rate) - e.total
	}
	a.Strokes = min(reach(bass, a.Verdict != FavourTreble), reach(treble, a.Verdict != FavourBass))
	part := min(bass.part(), treble.part())
	a.Strokes = max(1, a.Strokes, int(math.Ceil(float64(bass.total)*part-roundingHair)))
	a.Strokes = min(a.Strokes, mostStrokes)
	if a.Verdict == Hollow || a.Verdict == Rounded {
		a.Strokes = min(a.Strokes, atOneLook)
	}
	for _, pair := range [2][2]lineEnd{{bass, treble}, {treble, bass}} {
		end, other := pair[0], pair[1]
		if end.total == 0 {
			continue
		}
		room := end.room(other, guess)
		switch {
		case room < 0:
			continue
		case room == 0:
			a.Verdict, a.Strokes = AtLine, 0
			return a
		case !end.little: // a touched line is looked at often
			whole := room + end.total - end.touched
			a.Strokes = min(a.Strokes, max(atOneLook, (whole+3)/4))
		}
		a.Strokes = min(a.Strokes, room)
	}
	return a
}
