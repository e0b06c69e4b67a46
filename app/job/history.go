package job

import (
	"reflect"
	"slices"
	"time"

	"gapwright/geometry"
)

// What an instrument's jobs and checks say together, once they are over.

// Entry is what one job or check says for its instrument's history. Pairs are the bass-most and the treble-most course.
type Entry struct {
	Job        string
	At         time.Time // of the last fact
	Method     Method
	Ended      Ending
	Proven     bool
	Fret, Held int           // where the gaps were read
	Found      [2]LetterRead // before anything was done
	FoundAt    time.Time
	Left       [2]LetterRead // as it was left, where something was done
	LeftAt     time.Time
	Relief     geometry.Interval // at the end
	ReliefRead bool
	Air        *Aired     // of the day of the readings
	Set        *Stringing // the strings that were on, as far as somebody said
	OtherSet   bool       // they are not those that were named last, or are named for the first time
	Changed    bool       // something was done that moves the strings, or they are others: readings before and after are not of one setting
	Foretold   []Foretold
}

// Foretold is a height that was to be expected after a round, by what was recorded of the work, and what was read then.
type Foretold struct {
	Method    Method
	Round     int
	Course    int
	Predicted geometry.Interval
	Read      geometry.Interval
}

// Entry is what a record that is over says for the history; ok is false for one that is not.
func (r Record) Entry() (e Entry, ok bool) {
	if !r.Over() {
		return Entry{}, false
	}
	kept := r.Kept()
	e = Entry{Job: r.ID, At: r.Last, Method: r.Method, Ended: r.Ended, Fret: r.Instrument.ReadFret(), Held: r.Instrument.Held, Set: r.Instrument.Set,
		Changed: !r.lettered(kept).Nothing() || r.restrung(kept), Foretold: r.foretold(kept)}
	if base := r.Baseline(); base != nil {
		e.Proven = base.Proven
	}
	for side, course := range r.outer() {
		e.Found[side] = r.found(kept, course)
		if e.Found[side].Known {
			e.FoundAt = r.Events[e.Found[side].at-1].At
		}
		if e.Changed {
			e.Left[side] = r.left(course)
			if e.Left[side].Known {
				e.LeftAt = r.Events[e.Left[side].at-1].At
			}
		}
	}
	relief, err := r.Surveys(Relief, 0)
	e.Relief, e.ReliefRead = relief, err == nil
	for _, at := range []time.Time{e.LeftAt, e.FoundAt, e.At} {
		if e.Air == nil && !at.IsZero() {
			e.Air = r.airOf(at)
		}
	}
	return e, true
}

// outer are the courses that a history follows.
func (r Record) outer() [2]int { return [2]int{0, r.Instrument.Last()} }

// restrung tells whether strings or tuning were changed in the job.
func (r Record) restrung(kept []Event) bool {
	return slices.ContainsFunc(kept, func(e Event) bool {
		switch f := e.Fact.(type) {
		case Strung:
			return true
		case Answered:
			return f.Question == AskStrung && f.Answer != StrungSame
		}
		return false
	})
}

// foretold looks at every round that was judged, as the record was then, and at the last one as it is.
func (r Record) foretold(kept []Event) (all []Foretold) {
	add := func(then Record) {
		for _, c := range then.Compare() {
			if c.Compares {
				all = append(all, Foretold{r.Method, len(then.Rounds), c.Course, c.Predicted, c.Read})
			}
		}
	}
	for _, e := range kept {
		if f, ok := e.Fact.(Judged); ok && f.Outcome == Again {
			add(Record{ID: r.ID, Events: r.Events[:e.Sequence-1], state: standingState(r.Events[:e.Sequence-1])})
		}
	}
	add(r)
	return all
}

// Entries are what records say that are over, in the order given.
func Entries(records []Record) (all []Entry) {
	var strings *Stringing
	for _, r := range records {
		if e, ok := r.Entry(); ok {
			if e.Set != nil {
				e.OtherSet = !reflect.DeepEqual(strings, e.Set)
				strings = e.Set
			}
			all = append(all, e)
		}
	}
	return all
}

// AtPlace keeps the entries whose gaps were read where this instrument is read now, and those without gaps, and counts the others: heights of
// different places are different things.
func (i Instrument) AtPlace(entries []Entry) (here []Entry, elsewhere int) {
	for _, e := range entries {
		if (e.Fret != i.ReadFret() || e.Held != i.Held) && (e.Found[0].Known || e.Left[0].Known) {
			elsewhere++
			continue
		}
		here = append(here, e)
	}
	return here, elsewhere
}

// DriftOf looks for a trend of the bass-most or treble-most course (side 0 or 1) with the humidity, in the order of the entries. What a job did,
// and other strings, begin a new setting. Error: *geometry.RangeError.
func DriftOf(entries []Entry, side int) (geometry.Drift, error) {
	var points []geometry.DriftPoint
	setting, named := 0, false
	for _, e := range entries {
		if e.OtherSet && named { // to be named for the first time is no change
			setting++
		}
		named = named || e.Set != nil
		add := func(read LetterRead, at time.Time) {
			if read.Known && e.Air != nil && e.Air.Humidity != 0 && e.near(at) {
				points = append(points, geometry.DriftPoint{Setting: setting, Humidity: float64(e.Air.Humidity), Gap: read.Range})
			}
		}
		add(e.Found[side], e.FoundAt)
		if e.Changed {
			setting++
			add(e.Left[side], e.LeftAt)
		}
	}
	return geometry.DriftOf(points)
}

// near tells whether a reading is of the day on which the air was read: the air is that of the last readings.
func (e Entry) near(at time.Time) bool {
	last := e.LeftAt
	if last.IsZero() {
		last = e.FoundAt
	}
	return between(at, last) <= TooOld
}

// Trust is how what was foretold came true: how often the new reading agreed with it, lay wholly under or wholly over it, and by how much at least,
// where it was worst.
type Trust struct {
	Times, Agreed, Under, Over int
	MostUnder, MostOver        geometry.Length
}

// TrustIn counts what was foretold of one method; of all when it is "".
func TrustIn(entries []Entry, m Method) (t Trust) {
	for _, e := range entries {
		for _, f := range e.Foretold {
			if m != "" && f.Method != m {
				continue
			}
			t.Times++
			_, meets := f.Predicted.Meet(f.Read)
			switch {
			case meets:
				t.Agreed++
			case f.Read.High < f.Predicted.Low:
				t.Under++
				t.MostUnder = max(t.MostUnder, f.Predicted.Low-f.Read.High)
			default:
				t.Over++
				t.MostOver = max(t.MostOver, f.Read.Low-f.Predicted.High)
			}
		}
	}
	return t
}

// A Point is one thing that was read at one time: a gap or relief in millimetres, or a humidity in percent.
type Point struct {
	At        time.Time
	Low, High float64
	Left      bool // as it was left after work
}

// LeastShown and LeastAirShown are how much of a height and of the humidity a chart shows at least, in millimetres and percent: less would make
// mountains of what a reading leaves open.
const (
	LeastShown    = 0.4
	LeastAirShown = 20
)

// Gaps are the gaps of an outer course, as found and as left.
func (e Entry) Gaps(side int) (all []Point) {
	if found := e.Found[side]; found.Known {
		all = append(all, Point{e.FoundAt, float64(found.Range.Low), float64(found.Range.High), false})
	}
	if left := e.Left[side]; left.Known {
		all = append(all, Point{e.LeftAt, float64(left.Range.Low), float64(left.Range.High), true})
	}
	return all
}

// Reliefs is the relief at the end, where it was read.
func (e Entry) Reliefs() []Point {
	if !e.ReliefRead {
		return nil
	}
	return []Point{{e.read(), float64(e.Relief.Low), float64(e.Relief.High), e.Changed}}
}

// Airs is the humidity, where it was read.
func (e Entry) Airs() []Point {
	if e.Air == nil || e.Air.Humidity == 0 {
		return nil
	}
	return []Point{{e.read(), float64(e.Air.Humidity), float64(e.Air.Humidity), e.Changed}}
}

// read is when the last gap was read; without one, when all was over.
func (e Entry) read() time.Time {
	for _, at := range []time.Time{e.LeftAt, e.FoundAt} {
		if !at.IsZero() {
			return at
		}
	}
	return e.At
}

// Stretch is the time from the first to the last point of a chart; ok is false when there is none.
func Stretch(entries []Entry) (from, to time.Time, ok bool) {
	for _, e := range entries {
		for _, p := range slices.Concat(e.Gaps(0), e.Gaps(1), e.Reliefs(), e.Airs()) {
			if !ok || p.At.Before(from) {
				from = p.At
			}
			if !ok || p.At.After(to) {
				to = p.At
			}
			ok = true
		}
	}
	return from, to, ok
}

// SetPoint is how an outer course was last set, where it is still read at that place and nothing moved it since; ok is false otherwise.
func (i Instrument) SetPoint(side int) (p Point, ok bool) {
	if i.AsSet == nil || i.AsSet.Moved {
		return Point{}, false
	}
	for _, r := range i.AsSet.Readings {
		if r.Fret != i.ReadFret() || r.Held != i.Held {
			return Point{}, false
		}
	}
	set, err := i.AsSet.Interval(side * i.Last())
	return Point{i.AsSet.At, float64(set.Low), float64(set.High), true}, err == nil
}

// LastAir is the air of the newest entry that was left as set, and of the newest entry of all that has any; nil where it was not read.
func LastAir(entries []Entry) (set, now *Aired) {
	for _, e := range entries {
		if e.Air == nil || e.Air.Humidity == 0 {
			continue
		}
		now = e.Air
		if e.Ended == AsSaved {
			set = e.Air
		}
	}
	return set, now
}
