package job

import (
	"time"

	"gapwright/geometry"
)

// SettleTime is how long steel strings that were brought to pitch are left before they are read: a quarter of an hour at least (common practice, no
// source).
const SettleTime = 15 * time.Minute

// Settles tells whether the strings were just brought to pitch and come to rest in minutes: they are of steel, and nothing is read of them yet.
func (r *Record) Settles() bool {
	return r.Step() == MeasureAgain && r.Method.Has(StringUp) && MakesFor(r.Instrument.Family)[0] == PlainSteel && len(r.Measured(true)) == 0
}

// SettlingLeft is what is left at now of a wait that ends then, both in milliseconds since 1970, in whole seconds, rounded up; 0 once it is over. It goes
// by the clock on the wall, so that a phone that slept has lost none of it; a clock that was set back makes it no longer than SettleTime.
func SettlingLeft(ends, now int64) time.Duration {
	left := time.Duration(min(ends-now+999, SettleTime.Milliseconds())) * time.Millisecond
	return max(left, 0).Truncate(time.Second)
}

// Stops tells whether the coach says to sand no further.
func (c *Coach) Stops() bool { return c.Verdict == geometry.AtLine || c.Verdict == geometry.PastLine }

// Far is a number that grows as a job goes on, from step to step and from round to round; 0 of no job.
func (r *Record) Far() int { return len(r.Rounds)*(len(stepOrder)+1) + r.Step().order() }
