package geometry

// Change is how what is read now stands to what was read before.
type Change uint8

// What can be said.
const (
	Unchanged Change = iota // no further apart than such readings can tell
	Higher                  // the whole reading lies above the earlier one
	Lower                   // the whole reading lies below it
	Untold                  // nothing proves a change, and there may be one that matters
)

// Changes lists every change, so that tests can ask for a sentence for each.
func Changes() []Change { return []Change{Unchanged, Higher, Lower, Untold} }

// How far apart two readings may be and pass for the same (common practice, no source). For a gap at fret 12 that is what a reading may be wide
// that shows a height, DoneWidth, and half a millimetre with a little over: what two looks at the same half-millimetre mark allow.
const (
	SameGapCoarse    Length = 0.55
	SameRelief       Length = 0.05
	SameReliefCoarse Length = 0.1
)

// leastChange is the least that is called a change: a thousandth of an inch.
const leastChange = Thousandth

// Since compares a reading with an earlier one of the same place, by their two ranges alone: the change is the difference by interval arithmetic, and
// it is Higher or Lower only where the ranges share nothing. Otherwise they pass for Unchanged when the change that both still allow is no more than
// the wider of the two is wide: at least fine, at most coarse. A range that is none (not finite, wrong way round) tells nothing.
func Since(was, is Interval, fine, coarse Length) (Interval, Change) {
	change := is.Minus(was)
	if !was.Valid() || !is.Valid() || !change.Valid() {
		return Interval{}, Untold
	}
	most := max(change.High, -change.Low)
	switch {
	case change.Low >= leastChange-hair:
		return change, Higher
	case change.High <= hair-leastChange:
		return change, Lower
	case most <= min(coarse, max(fine, was.Width(), is.Width()))+hair:
		return change, Unchanged
	}
	return change, Untold
}

// SinceAt is Since for gaps at a place with the given leverage (1/2 at fret 12): where a string moves less, less passes for the same.
func SinceAt(was, is Interval, leverage float64) (Interval, Change) {
	share := Length(leverage / 0.5)
	return Since(was, is, DoneWidth*share, SameGapCoarse*share)
}
