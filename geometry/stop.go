package geometry

// Smoothing is what fine paper takes off to remove the sanding marks, at the saddle (common practice, no source).
const Smoothing Length = 0.10

// RoundRules are what a round is allowed.
type RoundRules struct {
	Smoothing Length // kept back for the fine paper, 0 to 1 mm
	HalfWay   bool   // a first round by somebody who has not done this before: no further than half of what the low reading asks
}

// Stop is where a round must stop.
type Stop struct {
	Line Line // drawn, marked and coached: Full less the smoothing allowance, never below zero
	Full Line // what may come off at most, smoothing included: with every reading at its low end no string goes under its target or floor

	SmoothBass, SmoothTreble Length // what the fine paper may still take at each end
	FineBass, FineTreble     bool   // the allowance was larger than this end's cut: only fine paper there

	Lowest []Length // the lowest that each string can be after Full, at its fret
	Leaves []Length // how far above max(target, floor) its low reading stays: what the straight cut could not give it
	Asked  []Length // what each string by itself would allow at the saddle, smoothing kept back; zero or less: none
}

// Nothing tells that there is nothing to sand: no string has room for a cut beyond the smoothing allowance, or the straight line between the
// strings gives none.
func (s Stop) Nothing() bool { return s.Line.Bass <= leastCut && s.Line.Treble <= leastCut }

// leastCut is the smallest cut worth drawing: a hundredth of a millimetre cannot be drawn or measured (common practice, no source).
const leastCut Length = 0.01

// StopLine works out where this round must stop. At each string the most that may go is (low − max(target, floor))/λ, of which the smoothing
// allowance is kept back for the fine paper; a halved round stops at half of (low − target)/λ if that is less. The line that keeps to
// this at every string and lowers the worst-served one most is Full; less the smoothing it is Line. A string already at or under its target
// or floor allows nothing, and since the underside is planed straight it may hold the others back: see Blocked. The strings must satisfy
// the same rules as for WholeCut.
func StopLine(strings []MeasuredString, ends Ends, rules RoundRules) (Stop, error) {
	if err := checkStrings(strings, ends); err != nil {
		return Stop{}, err
	}
	if err := within(QuantityAllow, float64(rules.Smoothing), 0, 1); err != nil {
		return Stop{}, err
	}
	stop := Stop{Lowest: make([]Length, len(strings)), Leaves: make([]Length, len(strings)), Asked: make([]Length, len(strings))}
	pulls := make([]pull, len(strings))
	for i, s := range strings {
		room := s.room(rules)
		stop.Asked[i] = room - rules.Smoothing
		pl := s.pull(s.Gap.Low, ends)
		pl.want = s.Leverage * float64(max(0, room))
		pl.cap = pl.want
		pulls[i] = pl
	}
	p, q := fit(pulls)
	stop.Full = Line{Ends: ends, Bass: Length(p), Treble: Length(q)}
	stop.Line = Line{Ends: ends, Bass: max(0, stop.Full.Bass-rules.Smoothing), Treble: max(0, stop.Full.Treble-rules.Smoothing)}
	stop.SmoothBass, stop.SmoothTreble = stop.Full.Bass-stop.Line.Bass, stop.Full.Treble-stop.Line.Treble
	stop.FineBass, stop.FineTreble = stop.Line.Bass <= leastCut, stop.Line.Treble <= leastCut
	for i, s := range strings {
		stop.Lowest[i] = s.Gap.Low - Length(s.Leverage)*stop.Full.At(s.Offset)
		stop.Leaves[i] = stop.Lowest[i] - max(s.Target, s.Floor)
	}
	return stop, nil
}

// room is the most that may go at this string, smoothing included.
func (s MeasuredString) room(rules RoundRules) Length {
	room := (s.Gap.Low - max(s.Target, s.Floor)) / Length(s.Leverage)
	if rules.HalfWay {
		room = min(room, (s.Gap.Low-s.Target)/Length(s.Leverage)/2+rules.Smoothing)
	}
	return room
}

// Blocked tells which string holds the others back most, and the target that it would need for them to get what they ask for: the straight
// underside turns about its end, and a string inside that end goes down with the far side. The target, a whole number of twentieths of a
// millimetre, serves the whole lowering and therefore a halved round too. ok is false when no string is in the way, when no other has anything
// to ask, or when the lower target would be under the string's floor.
func Blocked(strings []MeasuredString, ends Ends, rules RoundRules) (index int, target Length, ok bool) {
	if checkStrings(strings, ends) != nil {
		return 0, 0, false
	}
	rules.HalfWay = false
	deepest, at := Length(0), Length(0) // how far short of the far side's wish the string falls, at the saddle; where it would have to go
	width := ends.Treble - ends.Bass
	for _, bassSide := range []bool{true, false} {
		along := func(u Length) Length { // 0 at the near end, 1 at the far end
			if bassSide {
				return (u - ends.Bass) / width
			}
			return (ends.Treble - u) / width
		}
		slope := Length(0) // steepest wish: the cut at the far end of a line from zero at the near end
		for _, s := range strings {
			if a := along(s.Offset); a > 0.5 && s.room(rules) > rules.Smoothing+leastCut {
				slope = max(slope, s.room(rules)/a)
			}
		}
		for i, s := range strings {
			a := along(s.Offset)
			short := slope*a - max(0, s.room(rules))
			if a <= 0.5 && short > deepest+leastCut {
				deepest, index, at = short, i, s.Gap.Low-Length(s.Leverage)*slope*a
			}
		}
	}
	at = at.RoundDown(roundedTarget)
	return index, at, deepest > 0 && at >= strings[index].Floor
}

// roundedTarget is how finely a height is wished for.
const roundedTarget Length = 0.05
