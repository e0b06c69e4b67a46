package geometry

// DoneWidth is how narrow a reading at fret 12 must be before it can show that a wanted height is reached: a quarter of a millimetre, or a
// hundredth of an inch, whichever the rule is marked in (common practice, no source). At another fret it grows with the leverage.
const DoneWidth Length = Inch / 100

// Verdict is what a new reading says of a wanted height.
type Verdict uint8

// What can be said.
const (
	Reached    Verdict = iota // the wanted height lies inside a reading that is narrow enough, or as near as such a reading could tell
	StillHigh                 // the whole reading lies above it
	TooLow                    // the whole reading lies below it
	CannotTell                // it lies inside, but the reading is too wide to say so
)

// Verdicts lists every verdict, so that tests can ask for a sentence for each.
func Verdicts() []Verdict { return []Verdict{Reached, StillHigh, TooLow, CannotTell} }

// Judge compares a reading with the wanted height at the fret with the given leverage (1/2 at fret 12). A reading narrower than DoneWidth counts
// upwards as if it had that width about its middle: a finer tool must not be harder to satisfy than the coarsest that will do. Below the
// wanted height no such grace is given. A reading that is no reading at all (not finite, or the wrong way round) tells nothing.
func Judge(reading Interval, target Length, leverage float64) Verdict {
	switch {
	case !reading.Valid() || !target.Finite() || !(leverage > 0 && leverage < 1):
		return CannotTell
	case reading.Low > target+max(0, DoneWidth*Length(leverage/0.5)-reading.Width())/2+hair:
		return StillHigh
	case reading.High < target-hair:
		return TooLow
	case reading.Width() <= DoneWidth*Length(leverage/0.5)+hair:
		return Reached
	}
	return CannotTell
}
