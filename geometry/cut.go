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

// fitLine is the straight cut that serves the strings best when their gaps are gap(i).
func fitLine(strings []MeasuredString, ends Ends, gap func(i int) Length) Line {
	pulls := make([]pull, len(strings))
	for i, s := range strings {
		pulls[i] = s.pull(gap(i), ends)
	}
	p, q := fit(pulls)
	return Line{Ends: ends, Bass: Length(p), Treble: Length(q)}
}
