package job

import (
	"time"

	"gapwright/geometry"
)

// What the new readings suggest making of a round.

// Likely is what the readings suggest making of a finished round.
func (r Record) Likely() Outcome {
	if r.Reached() {
		return Done
	}
	best := Keep
	for _, c := range r.Compare() {
		switch {
		case r.Method != NewSaddle && (c.Verdict == geometry.TooLow && r.Method.Raises() || c.Verdict == geometry.StillHigh && r.Method.Lowers()):
			best = Again // a new saddle that stands proud is sanded from below, in a job of that
		case c.Verdict == geometry.TooLow && c.Read.High < c.Floor:
			return TooMuch
		}
	}
	return best
}

// Offers tells whether an outcome is worth offering: what takes nothing off cannot take too much, and what only raises goes another round only where
// something is too low.
func (r Record) Offers(o Outcome) bool {
	switch o {
	case TooMuch:
		return r.Method.Lowers() && r.Method.Has(Seat)
	case Again:
		return r.Method.Lowers() || r.Likely() == Again
	}
	return true
}

// Standing is what a course's standing readings allow, before or after the work; the zero interval when there are none.
func (r Record) Standing(course int, after bool) geometry.Interval {
	read := r.Before
	if after {
		read = r.After
	}
	i, err := read(course)
	if err != nil {
		return geometry.Interval{}
	}
	return i
}

// StaleCourse tells whether a course's readings are too old at now.
func (r Record) StaleCourse(course int, after bool, now time.Time) bool {
	for _, t := range r.Readings(course, after) {
		if age := now.Sub(t.At); age > TooOld || -age > TooOld {
			return true
		}
	}
	return false
}

// Final lists the courses as they were last read, with what they were before the first round; the predictions are those of the last round.
func (r Record) Final() []Compared {
	round := r.state.round()
	all := r.Compare()
	if len(all) == 0 && len(round.After) == 0 && !round.MaterialGone() {
		for course := range r.Instrument.Kind().Courses {
			if read, err := r.Before(course); err == nil {
				all = append(all, Compared{Course: course, Read: read, Both: read})
			}
		}
	}
	for i := range all {
		all[i].Before = r.first(all[i].Course)
	}
	return all
}

// first is what a course was before the first round, by the readings that held then; the zero interval when there are none.
func (r Record) first(course int) geometry.Interval {
	if len(r.Rounds) == 0 || len(r.Rounds[0].Before) == 0 {
		return geometry.Interval{}
	}
	then := r.state
	then.set = r.Rounds[0].Before[len(r.Rounds[0].Before)-1].set // whatever strings are on now
	i, err := then.joint(r.Rounds[0].Before, course)
	if err != nil {
		return geometry.Interval{}
	}
	return i
}

// ThickestStrip is the thickest strip worth laying under a saddle (common practice, no source).
const ThickestStrip = geometry.Millimetre

// MuchMissing tells whether more than a strip can put back is missing at some end.
func (r Record) MuchMissing() bool { return r.Missing().High > ThickestStrip }

// Missing is what one even strip under the whole saddle has to put back: for the side that is short by more.
func (r Record) Missing() geometry.Interval {
	bass, treble := r.Shortfall(0), r.Shortfall(r.Instrument.Last())
	if treble.High > bass.High {
		return treble
	}
	return bass
}

// DoesNotFit is the first course whose new reading does not meet what was to be expected.
func DoesNotFit(all []Compared) (c Compared, ok bool) {
	for _, c := range all {
		if c.Compares && !c.Meets {
			return c, true
		}
	}
	return Compared{}, false
}

// Decides is the first course between the outer two of which the readings say something worse than of both of these; ok is false when there is none.
func Decides(all []Compared) (c Compared, ok bool) {
	worse := map[geometry.Verdict]int{geometry.CannotTell: 1, geometry.StillHigh: 2, geometry.TooLow: 3}
	if len(all) < 3 {
		return Compared{}, false
	}
	last := len(all) - 1
	worst := max(worse[all[0].Verdict], worse[all[last].Verdict])
	for _, between := range all[1:last] {
		if w := worse[between.Verdict]; w > worst {
			c, ok, worst = between, true, w
		}
	}
	return c, ok
}

// TooWide tells whether a reading is too wide to show, at the end, that a height is reached.
func (r Record) TooWide(course int, after bool) bool {
	i := r.Standing(course, after)
	lever, err := r.Instrument.Lever(course)
	return err == nil && i.High > 0 && geometry.Judge(i, i.Middle(), lever) == geometry.CannotTell
}

// Uneven tells whether the round ends although an end of the saddle has some left: the other end has given what it may.
func (r Record) Uneven(c Coach) bool {
	if c.ByCaliper {
		return max(c.LeftBass.Low, c.LeftTreble.Low) > leastRound
	}
	work := r.Current().Work
	if len(work) == 0 {
		return false
	}
	look, ok := work[len(work)-1].Fact.(Looked)
	return ok && (look.Bass == Clear || look.Treble == Clear)
}
