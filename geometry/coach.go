package geometry

import "math"

// SandingCheck is one look at the saddle with a caliper: how many strokes since the last check, and the heights at the two marked points.
type SandingCheck struct {
	Strokes      int
	Bass, Treble Length
}

// Sanding is a round's work with a caliper.
type Sanding struct {
	StartBass, StartTreble Length   // heights at the marked points before the first stroke, 1 to 40 mm
	StopBass, StopTreble   Length   // how much comes off at those points, zero or more
	Accuracy               Length   // the caliper's
	PerStroke              Interval // what one stroke may take off before anything is known: see StrokeGuess
}

// StrokeGuess is what one stroke of about 10 cm takes off a saddle before the person's own checks say better. From memory, for bone and hard
// plastics; the high end is what keeps a first dozen strokes safe.
func StrokeGuess(grit int) Interval {
	switch {
	case grit <= 0, grit >= 120 && grit < 220:
		return Interval{0.005, 0.03}
	case grit < 120:
		return Interval{0.01, 0.06}
	case grit < 400:
		return Interval{0.002, 0.015}
	}
	return Interval{0.0005, 0.006}
}

// CoachVerdict is what to do next.
type CoachVerdict uint8

// What the coach says.
const (
	KeepLevel    CoachVerdict = iota // go on, pressing evenly
	FavourBass                       // press more on the bass side
	FavourTreble                     // press more on the treble side
	AtLine                           // stop: the line is reached
	PastLine                         // stop: beyond the line at an end
	Hollow                           // the middle is behind the ends: the paper or the hand is not flat
	Rounded                          // the middle is ahead of the ends: the saddle is rocking
)

// CoachVerdicts lists every verdict, so that tests can ask for a sentence for each.
func CoachVerdicts() []CoachVerdict {
	return []CoachVerdict{KeepLevel, FavourBass, FavourTreble, AtLine, PastLine, Hollow, Rounded}
}

// Advice is the coach's answer.
type Advice struct {
	Verdict                  CoachVerdict
	Strokes                  int      // before the next check; 0 when it is time to stop
	LeftBass, LeftTreble     Interval // still to come off at the marked points; below zero: taken too far
	PerStroke                Interval // what a stroke takes off, as far as is known
	OutOfLevel               Length   // treble left minus bass left: positive, the treble end is behind
	OverBass, OverTreble     Length   // how far past the line at the most, when past it
	TargetBass, TargetTreble Length   // the caliper's reading at which to stop
}

const (
	leastLeft   Length = 0.05 // less than this is not worth a stroke (common practice, no source)
	mostStrokes        = 30   // between two checks, however slow the paper (common practice, no source)
)

// Coach turns checks into the strokes still to do. The next check always comes before half of what is left, with the fastest removal seen so
// far; it stops when what is left is under 0.05 mm or the caliper's accuracy. A check that reads higher than the one before by more than
// twice the accuracy gives ErrGrew: one of the two was misread.
func (s Sanding) Coach(checks []SandingCheck) (Advice, error) {
	if err := within(QuantityAccuracy, float64(s.Accuracy), 0.005, 1); err != nil {
		return Advice{}, err
	}
	for _, h := range []Length{s.StartBass, s.StartTreble} {
		if err := within(QuantityHeight, float64(h), 1, 40); err != nil {
			return Advice{}, err
		}
	}
	if err := within(QuantityHeight, float64(s.StopBass), 0, float64(s.StartBass)); err != nil {
		return Advice{}, err
	}
	if err := within(QuantityHeight, float64(s.StopTreble), 0, float64(s.StartTreble)); err != nil {
		return Advice{}, err
	}
	bass, treble, strokes := s.StartBass, s.StartTreble, 0
	rate := s.PerStroke
	for _, c := range checks {
		if err := within(QuantityStrokes, float64(c.Strokes), 0, 10000); err != nil {
			return Advice{}, err
		}
		for _, h := range []Length{c.Bass, c.Treble} {
			if err := within(QuantityHeight, float64(h), 0.5, 40); err != nil {
				return Advice{}, err
			}
		}
		if c.Bass > bass+2*s.Accuracy+hair || c.Treble > treble+2*s.Accuracy+hair {
			return Advice{}, ErrGrew
		}
		if c.Strokes > 0 {
			rate.Low = min(rate.Low, max(0, min(bass-c.Bass, treble-c.Treble))/Length(c.Strokes))
			fastest := max(bass-c.Bass, treble-c.Treble) / Length(c.Strokes)
			if strokes == 0 { // the first check replaces the guess
				rate = Interval{max(0, min(bass-c.Bass, treble-c.Treble)) / Length(c.Strokes), fastest + s.Accuracy/Length(c.Strokes)}
			}
			rate.High = max(rate.High, fastest)
		}
		bass, treble, strokes = c.Bass, c.Treble, strokes+c.Strokes
	}
	a := Advice{PerStroke: rate, TargetBass: s.StartBass - s.StopBass, TargetTreble: s.StartTreble - s.StopTreble}
	give := Interval{-s.Accuracy, s.Accuracy}
	leftBass, leftTreble := bass-a.TargetBass, treble-a.TargetTreble
	a.LeftBass, a.LeftTreble = Exactly(leftBass).Plus(give), Exactly(leftTreble).Plus(give)
	a.OutOfLevel = leftTreble - leftBass
	enough := max(leastLeft, s.Accuracy)
	doneBass, doneTreble := leftBass <= enough+hair, leftTreble <= enough+hair
	switch {
	case a.LeftBass.High < -hair || a.LeftTreble.High < -hair:
		a.Verdict = PastLine
		a.OverBass, a.OverTreble = max(0, -a.LeftBass.Low), max(0, -a.LeftTreble.Low)
		return a, nil
	case doneBass && doneTreble:
		a.Verdict = AtLine
		return a, nil
	case doneBass || a.OutOfLevel > 2*s.Accuracy+hair:
		a.Verdict = FavourTreble
	case doneTreble || a.OutOfLevel < -2*s.Accuracy-hair:
		a.Verdict = FavourBass
	}
	left := leftBass // the strokes must be safe for the end that is nearer its line, unless that one is done and only the other is pressed
	switch {
	case doneBass:
		left = leftTreble
	case doneTreble:
		left = leftBass
	default:
		left = min(leftBass, leftTreble)
	}
	a.Strokes = safeStrokes(left, rate.High)
	return a, nil
}

// safeStrokes is how many strokes stay within half of what is left, at the fastest removal known: at least one, since a stop is said before
// one stroke could go too far.
func safeStrokes(left, perStroke Length) int {
	if perStroke <= 0 {
		return mostStrokes
	}
	n := math.Floor(float64(left / 2 / perStroke))
	return int(max(1, min(mostStrokes, n)))
}

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
// stands for and the strokes done so far. The line's lower edge lies on the cut, so touching it is the stop.
func CoachByLine(bass, middle, treble LineSeen, stop Line, strokesSoFar int, perStroke Interval) Advice {
	a := Advice{PerStroke: perStroke}
	end := max(bass, treble)
	switch {
	case end == LineGone || middle == LineGone:
		a.Verdict = PastLine
		if bass == LineGone {
			a.OverBass = PencilWidth.High
		}
		if treble == LineGone {
			a.OverTreble = PencilWidth.High
		}
		return a
	case bass == LineTouched && treble == LineTouched && middle == LineTouched:
		a.Verdict = AtLine
		return a
	case bass == LineTouched && treble == LineTouched:
		a.Verdict = Hollow
	case middle == LineTouched && end == LineClear:
		a.Verdict = Rounded
	case bass == LineTouched:
		a.Verdict = FavourTreble
	case treble == LineTouched:
		a.Verdict = FavourBass
	}
	a.Strokes = strokesByLine(min(stop.Bass, stop.Treble), max(stop.Bass, stop.Treble), strokesSoFar, perStroke.High)
	if a.Verdict != KeepLevel { // one end is there already: a few at a time
		a.Strokes = min(a.Strokes, 4)
	}
	return a
}

// strokesByLine is safe without measuring: before the first look no more than half of the shallower cut at the fastest guess; after that, an
// untouched line proves that so many strokes took less than the deeper cut, so a quarter as many more stay well clear of overshooting it.
func strokesByLine(shallow, deep Length, soFar int, fastest Length) int {
	if shallow <= leastCut {
		shallow = deep
	}
	if soFar == 0 {
		return safeStrokes(shallow, fastest)
	}
	return int(max(1, min(mostStrokes, math.Ceil(float64(soFar)/4))))
}
