package geometry

// Whole is the whole cut: everything that would have to come off for the wanted heights. It is told as a range and never drawn.
type Whole struct {
	Strings      []Interval // at each string, at the saddle: (gap − max(target, floor))/λ, from 0 up
	Bass, Treble Interval   // at the saddle ends, from 0 up
	Middle       Line       // the line for the middle of every reading
	Leaves       []Length   // what the middle line leaves between each string and its target; negative: below it
}

// At is what the whole cut can be at the place across u between the ends, for a marked point: the ends' ranges joined by straight lines.
func (w Whole) At(u Length) Interval {
	e := w.Middle.Ends
	return extrapolate(e.Bass, e.Treble, min(max(u, e.Bass), e.Treble), w.Bass, w.Treble)
}

// WholeCut works out the whole cut for two to twelve strings. Two strings ask for one exact line; more ask for the line whose worst
// deviation at the fret is smallest, no string under its floor, ties by the next-worst and then by the least removed. Errors: ErrTooFewStrings,
// ErrTooMany, ErrOutsideSaddle, *RangeError.
//
// For two strings the ranges at the ends hold the line of every pair of gaps inside the readings. For more they hold the lines of every corner
// of the readings (up to eight strings that are not exact) and the lines through every pair of gaps of the two outer strings; a line for gaps between the
// corners can lie beyond them, in simulated jobs seldom and by hundredths of a millimetre.
func WholeCut(strings []MeasuredString, ends Ends) (Whole, error) {
	if err := checkStrings(strings, ends); err != nil {
		return Whole{}, err
	}
	whole := Whole{Strings: make([]Interval, len(strings)), Leaves: make([]Length, len(strings))}
	outerBass, outerTreble := 0, 0
	var open []int // the strings whose reading leaves something open
	for i, s := range strings {
		whole.Strings[i] = s.Gap.Shifted(-max(s.Target, s.Floor)).Times(1 / s.Leverage)
		if s.Offset < strings[outerBass].Offset {
			outerBass = i
		}
		if s.Offset > strings[outerTreble].Offset {
			outerTreble = i
		}
		if s.Gap.Width() > 0 {
			open = append(open, i)
		}
	}
	b, t := strings[outerBass], strings[outerTreble]
	whole.Bass = extrapolate(b.Offset, t.Offset, ends.Bass, whole.Strings[outerBass], whole.Strings[outerTreble]).AtLeast(0)
	whole.Treble = extrapolate(b.Offset, t.Offset, ends.Treble, whole.Strings[outerBass], whole.Strings[outerTreble]).AtLeast(0)
	gaps := make([]Length, len(strings))
	if len(open) <= mostCorners {
		for corner := range 1 << len(open) {
			for i, s := range strings {
				gaps[i] = s.Gap.Low
			}
			for bit, i := range open {
				if corner>>bit&1 == 1 {
					gaps[i] = strings[i].Gap.High
				}
			}
			line := fitLine(strings, ends, gaps)
			whole.Bass = whole.Bass.Hull(Exactly(line.Bass))
			whole.Treble = whole.Treble.Hull(Exactly(line.Treble))
		}
	}
	for i, s := range strings {
		gaps[i] = s.Gap.Middle()
	}
	whole.Middle = fitLine(strings, ends, gaps)
	for i, s := range strings {
		whole.Strings[i] = whole.Strings[i].AtLeast(0)
		whole.Leaves[i] = s.Gap.Middle() - Length(s.Leverage)*whole.Middle.At(s.Offset) - s.Target
	}
	return whole, nil
}

// mostCorners is how many open readings are tried at each of their ends: 2 to the power of it lines.
const mostCorners = 8

// extrapolate carries two readings at u1 and u2 along their straight line to u, by interval arithmetic: beyond u1 the weight of u2 is
// negative, so the low bound there comes from u1's low and u2's high.
func extrapolate(u1, u2, u Length, at1, at2 Interval) Interval {
	t := float64((u - u1) / (u2 - u1))
	return at1.Times(1 - t).Plus(at2.Times(t))
}
