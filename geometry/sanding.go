package geometry

// SandingCheck is one look at the saddle with a caliper: how many strokes since the last check, and the heights at the two marked points.
type SandingCheck struct {
	Strokes      int
	Bass, Treble Length
}

// Sanding is a round's work with a caliper.
type Sanding struct {
	StartBass, StartTreble Length   // heights at the marked points before the first stroke, 1 to 40 mm
	StopBass, StopTreble   Length   // how much comes off at those points, zero or more; half a millimetre must be left
	Accuracy               Length   // the caliper's, 0.005 to 1 mm
	PerStroke              Interval // what one stroke may take off before anything is known, up to 1 mm: see StrokeGuess; zero: StrokeGuess(0)
}

const lowestSaddle Length = 0.5 // less is no saddle

// Coach turns checks into the strokes still to do.
//
// The fastest removal is the average over all strokes so far at the faster end, the caliper's accuracy against it, or what a single check proved to
// be faster. The next check comes before half of what is left at that rate; before the first check, at three times the guess's high end. An end
// within 0.05 mm or the caliper's accuracy of its target is done, and the strokes for the other one stay within what the done end has left.
// It stops when both ends are done, or when the caliper shows one at its target: what the other has left is then the next round's. So no marked
// point goes below its target by more than the caliper's accuracy and one stroke, as long as a stroke does not suddenly take off twice
// what it did.
//
// An end that was to lose nothing, or less than 0.05 mm, has no target to stop at: it is let go that much past before the coach stops.
//
// A check that reads higher than the one before by more than twice the accuracy gives ErrGrew: one of the two was misread. Other errors:
// *RangeError.
func (s Sanding) Coach(checks []SandingCheck) (Advice, error) {
	if s.PerStroke == (Interval{}) {
		s.PerStroke = StrokeGuess(0)
	}
	if err := s.check(checks); err != nil {
		return Advice{}, err
	}
	a := Advice{TargetBass: s.StartBass - s.StopBass, TargetTreble: s.StartTreble - s.StopTreble, PerStroke: s.PerStroke}
	bass, treble, strokes := s.StartBass, s.StartTreble, 0
	proved := Length(0) // the fastest that one check by itself proves
	for _, c := range checks {
		if c.Strokes > 0 {
			proved = max(proved, (max(bass-c.Bass, treble-c.Treble)-2*s.Accuracy)/Length(c.Strokes))
		}
		bass, treble, strokes = c.Bass, c.Treble, strokes+c.Strokes
	}
	fellBass, fellTreble := max(0, s.StartBass-bass), max(0, s.StartTreble-treble)
	rate := func(fell Length) Length { // the fastest that an end which fell so far may be losing
		if strokes == 0 {
			return guessFactor * s.PerStroke.High
		}
		return (fell + s.Accuracy) / Length(strokes)
	}
	fastest := max(proved, rate(fellBass), rate(fellTreble))
	if strokes > 0 {
		a.PerStroke = Interval{max(0, min(fellBass, fellTreble)-s.Accuracy) / Length(strokes), fastest}
	}

	leftBass, leftTreble := bass-a.TargetBass, treble-a.TargetTreble
	give := Interval{-s.Accuracy, s.Accuracy}
	a.LeftBass, a.LeftTreble = Exactly(leftBass).Plus(give), Exactly(leftTreble).Plus(give)
	a.OutOfLevel = leftTreble - leftBass
	enough := max(leastLeft, s.Accuracy) + hair
	doneBass, doneTreble := leftBass <= enough, leftTreble <= enough
	reached := func(left, stop Length) bool { return stop > enough && left <= hair }
	switch {
	case a.LeftBass.High < -hair || a.LeftTreble.High < -hair:
		a.Verdict = PastLine
		a.OverBass, a.OverTreble = max(0, -a.LeftBass.Low), max(0, -a.LeftTreble.Low)
		return a, nil
	case doneBass && doneTreble, reached(leftBass, s.StopBass), reached(leftTreble, s.StopTreble):
		a.Verdict = AtLine
		return a, nil
	case doneBass || a.OutOfLevel > 2*s.Accuracy+hair:
		a.Verdict = FavourTreble
	case doneTreble || a.OutOfLevel < -2*s.Accuracy-hair:
		a.Verdict = FavourBass
	}
	allowed := func(left, stop, own Length) int {
		switch {
		case stop <= enough: // nothing was to come off here: only what this end by itself is seen to lose counts
			return strokesWithin(left+enough, own)
		case left <= enough:
			return strokesWithin(left, fastest)
		}
		return strokesWithin(left/2, fastest)
	}
	a.Strokes = min(allowed(leftBass, s.StopBass, rate(fellBass)), allowed(leftTreble, s.StopTreble, rate(fellTreble)))
	return a, nil
}

func (s Sanding) check(checks []SandingCheck) error {
	if err := within(QuantityAccuracy, float64(s.Accuracy), 0.005, 1); err != nil {
		return err
	}
	if err := reading(QuantityStroke, s.PerStroke, 0, 1); err != nil {
		return err
	}
	if err := within(QuantityStroke, float64(s.PerStroke.High), 1e-5, 1); err != nil {
		return err
	}
	for _, end := range [][2]Length{{s.StartBass, s.StopBass}, {s.StartTreble, s.StopTreble}} {
		if err := within(QuantityHeight, float64(end[0]), 1, 40); err != nil {
			return err
		}
		if err := within(QuantityCut, float64(end[1]), 0, float64(end[0]-lowestSaddle)); err != nil {
			return err
		}
	}
	bass, treble := s.StartBass, s.StartTreble
	for _, c := range checks {
		if err := within(QuantityStrokes, float64(c.Strokes), 0, 10000); err != nil {
			return err
		}
		for _, h := range []Length{c.Bass, c.Treble} {
			if err := within(QuantityHeight, float64(h), float64(lowestSaddle), 40); err != nil {
				return err
			}
		}
		if c.Bass > bass+2*s.Accuracy+hair || c.Treble > treble+2*s.Accuracy+hair {
			return ErrGrew
		}
		bass, treble = c.Bass, c.Treble
	}
	return nil
}
