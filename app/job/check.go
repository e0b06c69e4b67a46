package job

import (
	"slices"
	"time"

	"gapwright/geometry"
)

// A quick check: what was left as set is read again, and nothing is changed. It is a job of one step that never ends: when both outer strings are read
// it is over, and may still be told more.

// checks tells whether a quick check takes such a fact.
func checks(f Fact) bool {
	switch f.(type) {
	case Equipped, Read, Surveyed, Aired, Noted, PutAway:
		return true
	}
	return false
}

// Over tells whether nothing more has to be done: the job was ended, or is a check whose outer strings are both read.
func (r Record) Over() bool {
	return r.Ended != Open || r.Method == QuickCheck && r.measured(r.state.round().Before)
}

// ToCheck is the instrument as it is read for a check: at the place and in the way in which it was read when it was set.
func (i Instrument) ToCheck() Instrument {
	if i.HasBaseline() {
		first := i.AsSet.Readings[0]
		if i.Held = first.Held; first.Fret != i.ReadFret() {
			i.Fret = first.Fret
		}
	}
	return i
}

// HasBaseline tells whether there are heights as set of both outer strings.
func (i Instrument) HasBaseline() bool {
	if i.AsSet == nil {
		return false
	}
	_, bass := i.AsSet.Interval(0)
	_, treble := i.AsSet.Interval(i.Last())
	return bass == nil && treble == nil
}

// Touched is when an instrument was last set or checked; the zero time: never.
func (i Instrument) Touched() time.Time {
	if i.AsSet != nil && i.AsSet.At.After(i.Checked) {
		return i.AsSet.At
	}
	return i.Checked
}

// ToCheckFirst lists the instruments that a quick check may be wanted of: with heights as set, those last set or checked first, and then the others.
// Whatever is put away is left out.
func ToCheckFirst(all []Instrument) (set, others []Instrument) {
	for _, i := range all {
		switch {
		case i.Archived:
		case i.HasBaseline():
			set = append(set, i)
		default:
			others = append(others, i)
		}
	}
	slices.SortStableFunc(set, func(a, b Instrument) int { return b.Touched().Compare(a.Touched()) })
	return set, others
}

// CheckOn is the check under way on an instrument that its next reading still belongs to: what was read is not old, and the instrument was not set
// anew since.
func CheckOn(jobs []Record, i Instrument, now time.Time) (Record, bool) {
	for _, r := range jobs {
		if r.Method == QuickCheck && r.Instrument.ID == i.ID && !r.Stale(now) && sameSetting(r.Instrument.AsSet, i.AsSet) {
			return r, true
		}
	}
	return Record{}, false
}

func sameSetting(a, b *AsSet) bool {
	return a == nil && b == nil || a != nil && b != nil && a.Job == b.Job && a.At.Equal(b.At) && a.Moved == b.Moved
}

// CheckAnswer is what a quick check comes to.
type CheckAnswer uint8

// The answers.
const (
	CheckSame       CheckAnswer = iota // as set, within what the readings tell
	CheckMoved                         // some string is higher or lower
	CheckUntold                        // nothing is proven, and such readings cannot tell
	CheckNoBaseline                    // nothing to compare with
)

// CheckAnswers lists them.
func CheckAnswers() []CheckAnswer {
	return []CheckAnswer{CheckSame, CheckMoved, CheckUntold, CheckNoBaseline}
}

// Since is one thing that was read as set and again: ok is false where it was not read both times.
type Since struct {
	Was, Is geometry.Interval
	Change  geometry.Interval // Is less Was
	Told    geometry.Change
	OK      bool
}

// Check is what a quick check found.
type Check struct {
	Answer   CheckAnswer
	Strings  [2]Since             // the bass-most and treble-most course; without a baseline Is alone
	Standing [2]geometry.Standing // without a baseline: how they stand to what is usual
	Relief   Since
	Age      time.Duration // from the baseline to this check
	Rebent   bool          // nut or relief were changed after the baseline: some of the difference may be theirs
	Restrung bool          // other strings or another tuning than it was set with, as far as somebody said
	Finer    bool          // a finer way of reading could tell what these readings cannot
	Sudden   bool          // some string moved by more than a season moves it
}

// seasons is about how far a season moves a string at fret 12 (common practice, no source): a move by more is looked into before anything else.
const seasons geometry.Length = 0.5

// Most is how far apart the two readings may be at most.
func (s Since) Most() geometry.Length { return max(s.Change.High, -s.Change.Low) }

// Least is by how much the two readings differ at the least; nothing where they may be the same.
func (s Since) Least() geometry.Length { return max(0, s.Change.Low, -s.Change.High) }

// Most is the most that any string may lie off what it was as set.
func (c Check) Most() geometry.Length { return max(c.Strings[0].Most(), c.Strings[1].Most()) }

// Check compares the readings of a quick check with the instrument as it was set; ok is false until both outer strings are read.
func (r Record) Check() (c Check, ok bool) {
	base, last := r.Instrument.AsSet, r.Instrument.Last()
	for side, course := range []int{0, last} {
		is, err := r.Before(course)
		if err != nil {
			return Check{}, false
		}
		c.Strings[side] = r.since(course)
		c.Standing[side] = geometry.Compare(is, r.Instrument.Usual(course))
	}
	if !r.Instrument.HasBaseline() {
		c.Answer = CheckNoBaseline
		return c, true
	}
	c.Age = max(0, r.Last.Sub(base.At))
	c.Rebent = base.Moved
	c.Restrung = !base.Set.alike(r.Instrument.Set)
	c.Relief = r.reliefSince()
	for _, s := range c.Strings {
		c.Sudden = c.Sudden || s.Least() > seasons
		switch {
		case s.Told == geometry.Higher || s.Told == geometry.Lower:
			c.Answer = CheckMoved
		case s.Told == geometry.Untold && c.Answer != CheckMoved:
			c.Answer = CheckUntold
		}
	}
	c.Finer = c.Answer == CheckUntold && !slices.ContainsFunc(c.Strings[:], func(s Since) bool { return s.Told == geometry.Untold && !s.finer() })
	return c, true
}

// since compares a course with what it was as set.
func (r Record) since(course int) (s Since) {
	var now []Read
	for _, t := range r.Readings(course, false) {
		now = append(now, t.Read)
	}
	s.Is, _ = jointOf(now, course)
	if !r.Instrument.HasBaseline() {
		return s
	}
	s.Was, _ = r.Instrument.AsSet.Interval(course)
	lever, err := r.Instrument.Lever(course)
	if err != nil {
		return s
	}
	was, is := s.Was, s.Is
	if marks, again, same := sameRule(r.Instrument.AsSet.of(course), now); same {
		was, is = marks, again
	}
	s.Change, s.Told = geometry.SinceAt(was, is, lever)
	s.OK = true
	return s
}

// sameRule gives two readings without what they share: a rule whose zero was measured to lie that far from its end stands the same way both times, and
// how far off that distance may be falls out of the difference.
func sameRule(was, is []Read) (before, now geometry.Interval, same bool) {
	if len(was) != 1 || len(is) != 1 || was[0].Way != ByMarks || is[0].Way != ByMarks {
		return before, now, false
	}
	a, b := was[0], is[0]
	if a.End.LengthOr(0) == 0 || a.End != b.End || a.EndGive != b.EndGive || a.EndCut != b.EndCut {
		return before, now, false
	}
	var ends [2]geometry.Interval
	for n, r := range []Read{a, b} {
		low, high, err := lengths(r.Low, r.High)
		if err == nil {
			ends[n], err = geometry.TwoMarks(low, high)
		}
		if err != nil {
			return before, now, false
		}
	}
	return ends[0], ends[1], true
}

// of lists the readings of a course.
func (a AsSet) of(course int) (reads []Read) {
	for _, r := range a.Readings {
		if r.String == course {
			reads = append(reads, r)
		}
	}
	return reads
}

// finer tells whether a caliper in place of the present reading could tell a change: not where the earlier one is too wide by itself.
func (s Since) finer() bool {
	middle := s.Was.Middle()
	_, told := geometry.SinceAt(s.Was, geometry.Interval{Low: middle - geometry.CaliperAccuracy, High: middle + geometry.CaliperAccuracy}, 0.5)
	return told == geometry.Unchanged
}

// reliefSince compares the relief, where it was read both times.
func (r Record) reliefSince() (s Since) {
	then := state{Instrument: r.Instrument}
	for _, n := range r.Instrument.AsSet.Neck {
		then.neck = append(then.neck, surveyed{Surveyed: n})
	}
	for course := range r.Instrument.Kind().Courses {
		was, _, errWas := then.surveys(Relief, course, 0)
		is, err := r.Surveys(Relief, 0)
		if errWas != nil || err != nil {
			continue
		}
		s = Since{Was: was, Is: is, OK: true}
		s.Change, s.Told = geometry.Since(was, is, geometry.SameRelief, geometry.SameReliefCoarse)
		return s
	}
	return s
}

// alike tells whether two sets are the same as far as both are told: what was not said differs from nothing.
func (s *Stringing) alike(o *Stringing) bool {
	if s == nil || o == nil {
		return true
	}
	return s.Published == o.Published && s.Capo == o.Capo && slices.Equal(s.Tuning, o.Tuning) && slices.Equal(s.Gauges, o.Gauges)
}

// AsSetRead is what a course was read as when it was set, where that was one reading in one of these ways: what a field of that way may begin with.
func (i Instrument) AsSetRead(course int, w Way) (Read, bool) {
	if i.AsSet == nil {
		return Read{}, false
	}
	if reads := i.AsSet.of(course); len(reads) == 1 && reads[0].Way == w {
		return reads[0], true
	}
	return Read{}, false
}

// In tells whether everything in a reading was typed in that unit.
func (r Read) In(u Unit) bool {
	for _, t := range []Typed{r.Low, r.High, r.TenThick} {
		if t.Given() && t.Unit != u {
			return false
		}
	}
	return true
}

// AtAsSet tells whether a mark is the one at which the string was as set: what the rule shows there and what was read then share something.
func (r Record) AtAsSet(course, mark int) bool {
	if r.Method != QuickCheck || !r.Instrument.HasBaseline() {
		return false
	}
	was, _ := r.Instrument.AsSet.Interval(course)
	return mark == r.Kit.NearestMark(was.Middle())
}
