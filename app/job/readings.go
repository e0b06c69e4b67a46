package job

import (
	"time"

	"gapwright/geometry"
)

// Taken is a reading with when and under which strings it was taken.
type Taken struct {
	Read     Read
	At       time.Time // a correction made after the saddle came out keeps the time of the reading that it corrects
	Sequence int
	set      int
}

// TooOld is the age at which a reading no longer counts: a night in another room moves a top (common practice, no source).
const TooOld = 24 * time.Hour

// between is how far apart two times are, whichever comes first: clocks are set back as well.
func between(a, b time.Time) time.Duration { return a.Sub(b).Abs() }

// standing lists the readings that hold: of the strings and tuning that are on now, not replaced by a later one of the same course, and
// taken within a day of the newest of them. So one course read afresh after a day asks for the others too.
func (s *state) standing(taken []Taken) []Taken {
	var newest time.Time
	replaced := make(map[int]bool)
	var kept []Taken
	for i := len(taken) - 1; i >= 0; i-- {
		t := taken[i]
		if t.set == s.set && len(kept) == 0 {
			newest = t.At
		}
		if replaced[t.Read.String] || t.set != s.set || between(t.At, newest) > TooOld {
			continue
		}
		kept = append(kept, t)
		replaced[t.Read.String] = t.Read.Replaces
	}
	for i, j := 0, len(kept)-1; i < j; i, j = i+1, j-1 {
		kept[i], kept[j] = kept[j], kept[i]
	}
	return kept
}

// joint is what all standing readings of a course allow together.
func (s *state) joint(taken []Taken, course int) (geometry.Interval, error) {
	var reads []Read
	for _, t := range s.standing(taken) {
		reads = append(reads, t.Read)
	}
	return jointOf(reads, course)
}

func jointOf(reads []Read, course int) (geometry.Interval, error) {
	var all []geometry.Interval
	for _, r := range reads {
		if r.String != course {
			continue
		}
		i, err := r.Interval()
		if err != nil {
			return geometry.Interval{}, err
		}
		all = append(all, i)
	}
	return geometry.Repeats(all, geometry.LeastHalfWidth)
}

// measured tells whether both outer courses have a reading that holds.
func (s *state) measured(taken []Taken) bool {
	_, bass := s.joint(taken, 0)
	_, treble := s.joint(taken, s.Instrument.Last())
	return bass == nil && treble == nil
}

// Before is the reading of a course that this round's plan is made from. Errors: geometry.ErrNoReading.
func (r Record) Before(course int) (geometry.Interval, error) {
	return r.joint(r.state.round().Before, course)
}

// After is the reading of a course with the strings back on.
func (r Record) After(course int) (geometry.Interval, error) {
	return r.joint(r.state.round().After, course)
}

// Readings lists the standing readings of a course before or after the work, in order.
func (r Record) Readings(course int, after bool) []Taken {
	taken := r.state.round().Before
	if after {
		taken = r.state.round().After
	}
	var standing []Taken
	for _, t := range r.standing(taken) {
		if t.Read.String == course {
			standing = append(standing, t)
		}
	}
	return standing
}

// Measured lists the courses that have a reading this round, bass first.
func (r Record) Measured(after bool) []int {
	var courses []int
	for course := range r.Instrument.Kind().Courses {
		if len(r.Readings(course, after)) > 0 {
			courses = append(courses, course)
		}
	}
	return courses
}

// Stale tells whether a reading that the plan rests on is older than a day at now, or from a clock that has since gone back by a day. Once
// material is gone the readings stand: they are all there is to go by.
func (r Record) Stale(now time.Time) bool {
	round := r.state.round()
	return !round.MaterialGone() && r.stale(round.Before, now)
}

// StaleAfter is Stale for the readings with the strings back on.
func (r Record) StaleAfter(now time.Time) bool { return r.stale(r.state.round().After, now) }

func (s *state) stale(taken []Taken, now time.Time) bool {
	for _, t := range s.standing(taken) {
		if between(now, t.At) > TooOld {
			return true
		}
	}
	return false
}
