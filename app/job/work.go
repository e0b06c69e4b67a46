package job

import "gapwright/geometry"

// Coach says what to do next while sanding, from the checks of this round.
type Coach struct {
	geometry.Advice
	ByCaliper bool
	Ready     bool // enough is known to say anything: with a caliper, the heights before the first stroke
	Checks    int  // so far
}

// Coach works out the advice. Without a caliper it goes by the drawn line. Errors: *geometry.RangeError and geometry.ErrGrew for a check that
// cannot be, *geometry.ParseError for text that is not a length.
func (r Record) Coach() (Coach, error) {
	plan, err := r.Plan()
	if err != nil {
		return Coach{}, err
	}
	guess := geometry.StrokeGuess(r.Kit.Grit)
	if a, _ := r.Answer(AskFollow); a == FollowCaliper {
		return r.coachByCaliper(plan, guess)
	}
	round := r.Current()
	bass, middle, treble := geometry.LineClear, geometry.LineClear, geometry.LineClear
	looks := 0
	for _, e := range round.Work {
		if f, ok := e.Fact.(Looked); ok {
			bass, _ = f.Bass.geometry()
			middle, _ = f.Middle.geometry()
			treble, _ = f.Treble.geometry()
			looks++
		}
	}
	advice := geometry.CoachByLine(bass, middle, treble, plan.Drawn, round.Strokes(), guess)
	return Coach{Advice: advice, Ready: true, Checks: looks}, nil
}

func (r Record) coachByCaliper(plan Plan, guess geometry.Interval) (Coach, error) {
	sanding := geometry.Sanding{StopBass: plan.Drawn.Bass, StopTreble: plan.Drawn.Treble, Accuracy: geometry.CaliperAccuracy, PerStroke: guess}
	var checks []geometry.SandingCheck
	started := false
	for _, e := range r.Current().Work {
		f, ok := e.Fact.(Checked)
		if !ok {
			continue
		}
		bass, treble, err := lengths(f.Bass, f.Treble)
		if err != nil {
			return Coach{}, err
		}
		if f.Accuracy.Given() {
			if sanding.Accuracy, err = f.Accuracy.Length(); err != nil {
				return Coach{}, err
			}
		}
		if !started {
			sanding.StartBass, sanding.StartTreble, started = bass, treble, true
			if f.Strokes == 0 {
				continue
			}
		}
		checks = append(checks, geometry.SandingCheck{Strokes: f.Strokes, Bass: bass, Treble: treble})
	}
	if !started {
		return Coach{ByCaliper: true}, nil
	}
	advice, err := sanding.Coach(checks)
	return Coach{Advice: advice, ByCaliper: true, Ready: err == nil, Checks: len(checks)}, err
}

// removedIn is what round n (from 0) may have taken off at each side, all of it told as a range: by caliper what it measured, by line what a
// touched or missing line stands for; and the smoothing on top where it was done.
func (r Record) removedIn(n int) [2]geometry.Interval {
	past := r
	past.state = r.state.clone()
	past.Rounds = past.Rounds[:n+1]
	round := past.Rounds[n]
	if len(round.Before) > 0 { // the strings of that round, whatever is on now
		past.set = round.Before[len(round.Before)-1].set
	}
	plan, err := past.Plan()
	if err != nil {
		return [2]geometry.Interval{}
	}
	stops := [2]geometry.Length{plan.Drawn.Bass, plan.Drawn.Treble}
	smooth := [2]geometry.Length{plan.Stop.SmoothBass, plan.Stop.SmoothTreble}
	var first, last *Checked
	var look *Looked
	for _, e := range round.Work {
		switch f := e.Fact.(type) {
		case Checked:
			if first == nil {
				first = &f
			}
			last = &f
		case Looked:
			look = &f
		}
	}
	var removed [2]geometry.Interval
	for side := range removed {
		removed[side] = geometry.Interval{Low: 0, High: stops[side]} // nothing was recorded: anything up to the line
		switch {
		case first != nil:
			start, end, accuracy := first.at(side), last.at(side), last.Accuracy.LengthOr(geometry.CaliperAccuracy)
			removed[side] = geometry.Interval{Low: start - end - 2*accuracy, High: start - end + 2*accuracy}.AtLeast(0)
		case look != nil:
			seen := look.Bass
			if side == 1 {
				seen = look.Treble
			}
			switch seen {
			case Touched:
				removed[side] = geometry.Interval{Low: max(0, stops[side]-lineGive), High: stops[side] + lineGive}
			case Gone:
				removed[side] = geometry.Interval{Low: stops[side], High: stops[side] + geometry.PencilWidth.High}
			}
		}
		if round.Smoothed {
			removed[side] = removed[side].Plus(geometry.Interval{Low: 0, High: smooth[side]})
		}
	}
	return removed
}

// lineGive is how far off a drawn line and the eye that watches it may be (common practice, no source).
const lineGive geometry.Length = 0.1

func (c Checked) at(side int) geometry.Length {
	if side == 1 {
		return c.Treble.LengthOr(0)
	}
	return c.Bass.LengthOr(0)
}

// Compared is one course after the work: what was to be expected, what was read, and what both allow.
type Compared struct {
	Course    int
	Before    geometry.Interval
	Predicted geometry.Interval
	Read      geometry.Interval
	Both      geometry.Interval // what prediction and reading both allow; the reading alone when they do not meet
	Meets     bool              // false: something else moved (seat, relief, strings, tuning)
	Compares  bool              // false: other strings or shims since, so nothing was to be expected
	Target    geometry.Length
	Floor     geometry.Length
	Verdict   geometry.Verdict
}

// Compare sets the new readings against what was taken off, for every course read again. A reading and the prediction together may tell
// what the reading alone cannot; the next round is planned from the reading alone, so a wrong prediction can never cut deeper.
func (r Record) Compare() []Compared {
	round := r.state.round()
	plan, err := r.Plan()
	if err != nil {
		// Other strings: the readings before no longer hold, but the new ones can still be judged against the wish.
		return r.compareAlone()
	}
	removed := r.removedIn(len(r.Rounds) - 1)
	lines := [2]geometry.Line{
		{Ends: r.Instrument.Ends(), Bass: removed[0].Low, Treble: removed[1].Low},
		{Ends: r.Instrument.Ends(), Bass: removed[0].High, Treble: removed[1].High},
	}
	var all []Compared
	for _, p := range plan.Strings {
		read, err := r.After(p.Course)
		if err != nil {
			continue
		}
		c := Compared{Course: p.Course, Before: p.Reading, Read: read, Both: read, Target: p.Target, Floor: p.Floor, Compares: len(round.Shims) == 0}
		lever := geometry.Length(p.Leverage)
		c.Predicted = geometry.Interval{Low: p.Reading.Low - lever*lines[1].At(p.Offset), High: p.Reading.High - lever*lines[0].At(p.Offset)}.AtLeast(0)
		if c.Compares {
			if both, ok := c.Predicted.Meet(read); ok {
				c.Both, c.Meets = both, true
				if both.Width() < 2*geometry.LeastHalfWidth && read.Width() > both.Width() {
					middle := both.Middle()
					c.Both = geometry.Interval{Low: middle - geometry.LeastHalfWidth, High: middle + geometry.LeastHalfWidth}
				}
			}
		}
		c.Verdict = geometry.Judge(c.Both, p.Target, p.Leverage)
		all = append(all, c)
	}
	return all
}

func (r Record) compareAlone() []Compared {
	round := r.state.round()
	if round.Wanted == nil {
		return nil
	}
	bass, treble, err := lengths(round.Wanted.Bass, round.Wanted.Treble)
	lever, errLever := r.Instrument.Leverage(r.Instrument.ReadFret(), r.Instrument.Held)
	if err != nil || errLever != nil {
		return nil
	}
	var all []Compared
	for course := range r.Instrument.Kind().Courses {
		read, err := r.After(course)
		if err != nil {
			continue
		}
		c := Compared{Course: course, Read: read, Both: read, Target: r.Instrument.between([2]geometry.Length{bass, treble}, course),
			Floor: r.Instrument.Floor(course, round.Wanted.Own)}
		c.Verdict = geometry.Judge(read, c.Target, lever)
		all = append(all, c)
	}
	return all
}

// Reached tells whether every course that was read again shows its wanted height, both outer ones among them.
func (r Record) Reached() bool {
	compared := r.Compare()
	outer := 0
	for _, c := range compared {
		if c.Verdict != geometry.Reached {
			return false
		}
		if c.Course == 0 || c.Course == r.Instrument.Last() {
			outer++
		}
	}
	return outer == 2
}

// Shortfall is how much a course is under its wish, at the saddle: the thickness of shim that is sure to be enough lies at High, the least
// that could be at Low. Zero when it is not under.
func (r Record) Shortfall(course int) geometry.Interval {
	lever, err := r.Instrument.Leverage(r.Instrument.ReadFret(), r.Instrument.Held)
	if err != nil {
		return geometry.Interval{}
	}
	for _, c := range r.Compare() {
		if c.Course == course {
			return geometry.Exactly(c.Target).Minus(c.Read).Times(1 / lever).AtLeast(0)
		}
	}
	return geometry.Interval{}
}

// Baseline is what a saved job leaves on the instrument; nil when nothing was read after the work.
func (r Record) Baseline() *AsSet {
	round := r.state.round()
	taken, proven := round.After, round.Outcome == Done
	if len(taken) == 0 && round.Outcome == Keep && !round.MaterialGone() {
		taken = round.Before
	}
	if r.Ended != AsSaved || !r.measured(taken) {
		return nil
	}
	base := &AsSet{Job: r.ID, At: r.Last, Proven: proven}
	for course := range r.Instrument.Kind().Courses {
		for _, t := range taken {
			if t.Read.String != course || t.set != r.set {
				continue
			}
			if t.Read.Replaces {
				base.Readings = dropCourse(base.Readings, course)
			}
			base.Readings = append(base.Readings, t.Read)
		}
	}
	return base
}

func dropCourse(reads []Read, course int) []Read {
	var kept []Read
	for _, r := range reads {
		if r.String != course {
			kept = append(kept, r)
		}
	}
	return kept
}

// Interval is what a baseline's readings allow for a course. Errors: geometry.ErrNoReading.
func (a AsSet) Interval(course int) (geometry.Interval, error) {
	var all []geometry.Interval
	for _, r := range a.Readings {
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
