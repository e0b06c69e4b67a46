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

// CoachByLine tells what to do from the line alone: how it looks at the bass end, in the middle and at the treble end, the cut that the line
// stands for, the strokes done so far and what one may take off (zero: StrokeGuess(0)). The line's lower edge lies on the cut, so touching
// it is the stop; where the whole line has gone, at least its width too much came off.
//
// The first look comes before half of the shallower end's cut at three times the guess's high end. After that a line that is still clear
// proves that so many strokes took less than the cut at either end, so a quarter as many more cannot pass it by more than a quarter of the cut.
// Once an end is touched, four strokes at most.
func CoachByLine(bass, middle, treble LineSeen, stop Line, strokesSoFar int, perStroke Interval) Advice {
	if !(perStroke.High > 0) || !perStroke.Valid() {
		perStroke = StrokeGuess(0)
	}
	a := Advice{PerStroke: perStroke}
	switch {
	case max(bass, middle, treble) >= LineGone:
		a.Verdict = PastLine
		if bass >= LineGone {
			a.OverBass = PencilWidth.High
		}
		if treble >= LineGone {
			a.OverTreble = PencilWidth.High
		}
		return a
	case bass == LineTouched && treble == LineTouched && middle == LineTouched:
		a.Verdict = AtLine
		return a
	case bass == LineTouched && treble == LineTouched:
		a.Verdict = Hollow
	case middle == LineTouched && bass == LineClear && treble == LineClear:
		a.Verdict = Rounded
	case bass == LineTouched:
		a.Verdict = FavourTreble
	case treble == LineTouched:
		a.Verdict = FavourBass
	}
	shallow := min(stop.Bass, stop.Treble)
	if shallow <= leastCut { // no line at that end
		shallow = max(stop.Bass, stop.Treble)
	}
	if strokesSoFar <= 0 {
		a.Strokes = strokesWithin(shallow/2, guessFactor*perStroke.High)
	} else {
		a.Strokes = int(math.Ceil(float64(min(strokesSoFar, 4*mostStrokes)) / 4))
	}
	if a.Verdict != KeepLevel { // part of it is there already
		a.Strokes = min(a.Strokes, 4)
	}
	return a
}
