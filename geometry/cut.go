package geometry

// MeasuredString is one string as the cut sees it. Gap, Target and Floor belong to the same fret and the same condition (open, or held
// down at a fret); Leverage is that fret's λ. Offset is the string's place across the saddle, bass side negative.
type MeasuredString struct {
	Offset   Length
	Gap      Interval
	Target   Length
	Floor    Length
	Leverage float64
}

// Ends are the places across of the saddle's two ends, bass first. Every string lies between them.
type Ends struct{ Bass, Treble Length }

// Line is a straight cut along the saddle: how much is removed at each end. Neither is ever negative.
type Line struct {
	Ends         Ends
	Bass, Treble Length // removed at the ends
}

// At is how much the line removes at the place across u.
func (l Line) At(u Length) Length {
	width := l.Ends.Treble - l.Ends.Bass
	if width <= 0 {
		return l.Bass
	}
	t := (u - l.Ends.Bass) / width
	return l.Bass*(1-t) + l.Treble*t
}

const mostStrings = 12

func checkStrings(strings []MeasuredString, ends Ends) error {
	if len(strings) > mostStrings {
		return ErrTooMany
	}
	lowest, highest := Length(0), Length(0)
	for i, s := range strings {
		if err := within(QuantityGap, float64(s.Gap.Low), 0, float64(LargestGap)); err != nil {
			return err
		}
		if err := within(QuantityGap, float64(s.Gap.High), float64(s.Gap.Low), float64(LargestGap)); err != nil {
			return err
		}
		for _, wished := range []Length{s.Target, s.Floor} {
			if err := within(QuantityTarget, float64(wished), 0, float64(LargestGap)); err != nil {
				return err
			}
		}
		if !(s.Leverage > 0 && s.Leverage < 1) {
			return &RangeError{QuantityFret, s.Leverage, 0, 1}
		}
		if !(s.Offset >= ends.Bass-hair && s.Offset <= ends.Treble+hair) {
			return ErrOutsideSaddle
		}
		if i == 0 {
			lowest, highest = s.Offset, s.Offset
		}
		lowest, highest = min(lowest, s.Offset), max(highest, s.Offset)
	}
	if len(strings) < 2 || highest-lowest < 1 {
		return ErrTooFewStrings
	}
	return nil
}

func (s MeasuredString) pull(gap Length, ends Ends) pull {
	return pull{
		along: float64((s.Offset - ends.Bass) / (ends.Treble - ends.Bass)),
		lever: s.Leverage,
		want:  float64(gap - s.Target),
		cap:   float64(gap - s.Floor),
	}
}

// Whole is the whole cut: everything that would have to come off for the wanted heights. It is told as a range and never drawn.
type Whole struct {
	Strings      []Interval // at each string, at the saddle: (gap − target)/λ, from 0 up
	Bass, Treble Interval   // at the saddle ends, from 0 up
	Middle       Line       // the line for the middle of every reading
	Leaves       []Length   // what the middle line leaves between each string and its target; negative: below it
}

// WholeCut works out the whole cut for two to twelve strings. Two strings ask for one exact line; more ask for the line whose worst
// deviation at the fret is smallest, no string under its floor, ties by the next-worst and then by the least removed. The ranges at the
// ends hold the fit at every corner of the readings (at up to eight strings) and, since an end lies beyond the strings and pulls against the
// far one, interval arithmetic over the two outer strings. Errors: ErrTooFewStrings, ErrTooMany, ErrOutsideSaddle, *RangeError.
func WholeCut(strings []MeasuredString, ends Ends) (Whole, error) {
	if err := checkStrings(strings, ends); err != nil {
		return Whole{}, err
	}
	whole := Whole{Strings: make([]Interval, len(strings)), Leaves: make([]Length, len(strings))}
	outerBass, outerTreble := 0, 0
	for i, s := range strings {
		whole.Strings[i] = s.Gap.Shifted(-s.Target).Times(1 / s.Leverage)
		if s.Offset < strings[outerBass].Offset {
			outerBass = i
		}
		if s.Offset > strings[outerTreble].Offset {
			outerTreble = i
		}
	}
	b, t := strings[outerBass], strings[outerTreble]
	whole.Bass = extrapolate(b.Offset, t.Offset, ends.Bass, whole.Strings[outerBass], whole.Strings[outerTreble]).AtLeast(0)
	whole.Treble = extrapolate(b.Offset, t.Offset, ends.Treble, whole.Strings[outerBass], whole.Strings[outerTreble]).AtLeast(0)
	if len(strings) <= 8 {
		for corner := range 1 << len(strings) {
			line := fitLine(strings, ends, func(i int) Length {
				if corner>>i&1 == 1 {
					return strings[i].Gap.High
				}
				return strings[i].Gap.Low
			})
			whole.Bass = whole.Bass.Hull(Exactly(line.Bass))
			whole.Treble = whole.Treble.Hull(Exactly(line.Treble))
		}
	}
	whole.Middle = fitLine(strings, ends, func(i int) Length { return strings[i].Gap.Middle() })
	for i, s := range strings {
		whole.Strings[i] = whole.Strings[i].AtLeast(0)
		whole.Leaves[i] = s.Gap.Middle() - Length(s.Leverage)*whole.Middle.At(s.Offset) - s.Target
	}
	return whole, nil
}

// extrapolate carries two readings at u1 and u2 along their straight line to u, by interval arithmetic: beyond u1 the weight of u2 is
// negative, so the low bound there comes from u1's low and u2's high.
func extrapolate(u1, u2, u Length, at1, at2 Interval) Interval {
	t := float64((u - u1) / (u2 - u1))
	return at1.Times(1 - t).Plus(at2.Times(t))
}

func fitLine(strings []MeasuredString, ends Ends, gap func(i int) Length) Line {
	pulls := make([]pull, len(strings))
	for i, s := range strings {
		pulls[i] = s.pull(gap(i), ends)
	}
	p, q := fit(pulls)
	return Line{Ends: ends, Bass: Length(p), Treble: Length(q)}
}

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
// underside turns about its end, and a string inside that end goes down with the far side. ok is false when no string is in the way, or
// when the lower target would be under the string's floor.
func Blocked(strings []MeasuredString, ends Ends, rules RoundRules) (index int, target Length, ok bool) {
	if checkStrings(strings, ends) != nil {
		return 0, 0, false
	}
	deepest, at := Length(0), Length(0) // steepest wish, as the cut at the far end of a line from zero at the near end
	width := ends.Treble - ends.Bass
	for _, bassSide := range []bool{true, false} {
		along := func(u Length) Length { // 0 at the near end, 1 at the far end
			if bassSide {
				return (u - ends.Bass) / width
			}
			return (ends.Treble - u) / width
		}
		slope := Length(0)
		for _, s := range strings {
			if a := along(s.Offset); a > 0.5 && s.room(rules)/a > slope {
				slope = s.room(rules) / a
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
