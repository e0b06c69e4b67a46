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
	SpareBass, SpareTreble Length   // what may come off beyond that, 0 to 1 mm: the allowance kept back for the fine paper
	Accuracy               Length   // the caliper's, 0.005 to 1 mm
	PerStroke              Interval // what one stroke may take off before anything is known, up to 1 mm: see StrokeGuess; zero: StrokeGuess(0)
}

const lowestSaddle Length = 0.5 // less is no saddle

// farShare is what an end still loses while the other one is pressed, of what the pressed end loses, at the most (common practice, no source).
const farShare = 0.5

// sandingEnd is how far one end has come.
type sandingEnd struct {
	stop, spare, left Length // what was to come off, what may beyond that, and what is left of the first
	own               Length // the most that a stroke takes off here, as far as its own readings tell
}

// room is what this end may lose before the next check while the other one is pressed: half of what may still go here, and no further than half
// of the spare, the caliper's accuracy within that half. An end that was to lose next to nothing cannot be seen to lose less than the accuracy.
func (e sandingEnd) room(enough, accuracy Length) Length {
	beyond := max(0, e.spare/2-accuracy)
	if e.stop <= enough {
		beyond = max(beyond, accuracy)
	}
	if e.left <= enough {
		return e.left + beyond
	}
	return min((e.left+e.spare)/2, e.left+beyond)
}

// Coach turns checks into the strokes still to do.
//
// The fastest removal is the average over all strokes so far at the faster end, the caliper's accuracy against it, or what a single check proved to
// be faster. Where both ends have about the same left, the next check comes before half of what is left at that rate; before the first check, at
// three times the guess's high end. An end within 0.05 mm or the caliper's accuracy of its target is done; when both are, it stops.
//
// While one end has more left by over twice the accuracy, or the other one is done, that end is favoured and the half is counted there. The other
// one loses something meanwhile, at its own rate: the next check also comes before half of what may still go there, its spare included. It is
// let go past its target by half of its spare, less the accuracy; when one more stroke could use up more, it stops, and what the favoured end
// has left is the next round's. Without a spare it stops at the target; but an end that was to lose nothing, or less than 0.05 mm, is let
// go past by the accuracy, or it would stop before the first stroke.
//
// So no marked point loses more than was to come off and its spare together by more than the caliper's accuracy and one stroke, as long as a stroke
// does not suddenly take off twice what it did. It is past the line when it reads beyond its target by more than the spare and the accuracy; where
// nothing was to come off, twice the accuracy.
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
	strokes := 0
	readBass, readTreble := s.StartBass, s.StartTreble
	var provedBass, provedTreble, proved Length // the fastest that the last check by itself proves, and that any check does
	for _, c := range checks {
		if c.Strokes > 0 {
			provedBass = (readBass - c.Bass - 2*s.Accuracy) / Length(c.Strokes)
			provedTreble = (readTreble - c.Treble - 2*s.Accuracy) / Length(c.Strokes)
			proved = max(proved, provedBass, provedTreble)
		}
		readBass, readTreble, strokes = c.Bass, c.Treble, strokes+c.Strokes
	}
	fellBass, fellTreble := max(0, s.StartBass-readBass), max(0, s.StartTreble-readTreble)
	rate := func(fell Length) Length { // the fastest that an end which fell so far may be losing
		if strokes == 0 {
			return guessFactor * s.PerStroke.High
		}
		return (fell + s.Accuracy) / Length(strokes)
	}
	fastest := max(proved, rate(fellBass), rate(fellTreble))
	a.SmoothBass, a.SmoothTreble = s.SpareBass, s.SpareTreble
	if strokes > 0 {
		a.PerStroke = Interval{max(0, min(fellBass, fellTreble)-s.Accuracy) / Length(strokes), fastest}
		smooth := func(stop, spare, fell Length) Length { // both readings may be out
			return max(0, min(spare, stop+spare-fell-2*s.Accuracy))
		}
		a.SmoothBass, a.SmoothTreble = smooth(s.StopBass, s.SpareBass, fellBass), smooth(s.StopTreble, s.SpareTreble, fellTreble)
	}

	bass := sandingEnd{s.StopBass, s.SpareBass, readBass - a.TargetBass, max(provedBass, rate(fellBass))}
	treble := sandingEnd{s.StopTreble, s.SpareTreble, readTreble - a.TargetTreble, max(provedTreble, rate(fellTreble))}
	give := Interval{-s.Accuracy, s.Accuracy}
	a.LeftBass, a.LeftTreble = Exactly(bass.left).Plus(give), Exactly(treble.left).Plus(give)
	a.OutOfLevel = treble.left - bass.left
	enough := max(leastLeft, s.Accuracy) + hair
	past := func(e sandingEnd) bool {
		if e.stop <= enough { // both readings may be out by as much as it was let go past
			return e.left < -max(e.spare, 2*s.Accuracy)-hair
		}
		return e.left < -max(e.spare, s.Accuracy)-hair
	}
	switch {
	case past(bass) || past(treble):
		a.Verdict = PastLine
		a.OverBass, a.OverTreble = max(0, -a.LeftBass.Low), max(0, -a.LeftTreble.Low)
		return a, nil
	case bass.left <= enough && treble.left <= enough:
		a.Verdict = AtLine
		return a, nil
	case bass.left <= enough || a.OutOfLevel > 2*s.Accuracy+hair:
		a.Verdict = FavourTreble
	case treble.left <= enough || a.OutOfLevel < -2*s.Accuracy-hair:
		a.Verdict = FavourBass
	default:
		a.Strokes = strokesWithin(min(bass.left, treble.left)/2, fastest)
		return a, nil
	}
	pressed, other := treble, bass
	if a.Verdict == FavourBass {
		pressed, other = bass, treble
	}
	a.Strokes = strokesWithin(pressed.left/2, fastest)
	room := other.room(enough, s.Accuracy)
	switch {
	case strokes == 0: // three times the guess is guarded against already: all that may go
		a.Strokes = min(a.Strokes, strokesWithin(other.left+other.spare, farShare*other.own))
	case room < other.own:
		a.Verdict, a.Strokes = AtLine, 0
	default:
		a.Strokes = min(a.Strokes, strokesWithin(room, other.own))
	}
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
	for _, spare := range []Length{s.SpareBass, s.SpareTreble} {
		if err := within(QuantityAllow, float64(spare), 0, 1); err != nil {
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
