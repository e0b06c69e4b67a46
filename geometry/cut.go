package geometry

// MeasuredString is one string as the cut sees it. Gap, Target and Floor belong to the same fret and the same condition (open, or held
// down at a fret); Leverage is that fret's λ, 0.01 to 1. Offset is the string's place across the saddle, bass side negative.
type MeasuredString struct {
	Offset   Length
	Gap      Interval
	Target   Length
	Floor    Length
	Leverage float64
}

// After is what the string's gap can be once removed has come off the saddle under it: gap − λ·removed, never below zero. More removed is never
// higher.
func (s MeasuredString) After(removed Interval) Interval {
	return s.Gap.Minus(removed.Times(s.Leverage)).AtLeast(0)
}

// Ends are the places across of the saddle's two ends, bass first, 10 to 200 mm apart. Every string lies between them.
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

// checkStrings refuses what no saddle has: fewer than two strings a millimetre apart, more than twelve, strings beyond its ends.
func checkStrings(strings []MeasuredString, ends Ends) error {
	if len(strings) > mostStrings {
		return ErrTooMany
	}
	if err := within(QuantitySaddle, float64(ends.Treble-ends.Bass), 10, 200); err != nil {
		return err
	}
	lowest, highest := Length(0), Length(0)
	for i, s := range strings {
		if err := reading(QuantityGap, s.Gap, 0, LargestGap); err != nil {
			return err
		}
		for _, wished := range []Length{s.Target, s.Floor} {
			if err := within(QuantityTarget, float64(wished), 0, float64(LargestGap)); err != nil {
				return err
			}
		}
		if err := within(QuantityLeverage, s.Leverage, 0.01, 1); err != nil {
			return err
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

// fitLine is the straight cut that serves the strings best when their gaps are these.
func fitLine(strings []MeasuredString, ends Ends, gaps []Length) Line {
	pulls := make([]pull, len(strings))
	for i, s := range strings {
		pulls[i] = s.pull(gaps[i], ends)
	}
	p, q := fit(pulls)
	return Line{Ends: ends, Bass: Length(p), Treble: Length(q)}
}
