package geometry

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

// Advice is the coach's answer. What is left, out of level and the targets are known only with a caliper and zero without one.
type Advice struct {
	Verdict                  CoachVerdict
	Strokes                  int      // before the next check; 0 when it is time to stop
	LeftBass, LeftTreble     Interval // still to come off at the marked points; below zero: taken too far
	PerStroke                Interval // what a stroke takes off, as far as is known
	OutOfLevel               Length   // treble left minus bass left: positive, the treble end is behind
	OverBass, OverTreble     Length   // when past the line, how far: the most with a caliper, a line's width without one
	TargetBass, TargetTreble Length   // the caliper's reading at which to stop
	SmoothBass, SmoothTreble Length   // what fine paper may still take after the worst case of what has gone; no more than was kept back for it
}
