package job

import (
	"slices"

	"gapwright/geometry"
)

// Coach says what to do next while sanding, from the checks of this round.
type Coach struct {
	geometry.Advice
	ByCaliper bool
	Ready     bool // enough is known to say anything: with a caliper, the heights before the first stroke
	Checks    int  // so far
}

// Coach works out the advice. Without a caliper it goes by the drawn line. Errors: *geometry.RangeError and geometry.ErrGrew for a check that
// cannot be, *geometry.ParseError for text that is not a length, ErrNoStart for strokes before the first height.
func (r Record) Coach() (Coach, error) {
	if r.byCaliper() {
		return r.coachByCaliper()
	}
	return r.coachByLine()
}

func (r Record) byCaliper() bool {
	a, _ := r.Answer(AskFollow)
	return a == FollowCaliper
}

// coachByLine goes by the looks at the line that is on the saddle now. Strokes that no look at it followed have not been seen: then one
// more at a time.
func (r Record) coachByLine() (Coach, error) {
	round := r.state.round()
	mark, ok := round.lastMark()
	if !ok { // not drawn yet: the line that is to be drawn
		stop, err := r.stop()
		if err != nil {
			return Coach{}, err
		}
		mark = stop.marked(0)
	}
	coach := Coach{Ready: true}
	var looks []geometry.LineLook
	since := 0
	for _, e := range round.Work {
		since += strokes(e.Fact)
		f, ok := e.Fact.(Looked)
		if !ok {
			continue
		}
		coach.Checks++
		if e.Sequence < mark.sequence {
			continue
		}
		look := geometry.LineLook{Strokes: since}
		look.Bass, _ = f.Bass.geometry()
		look.Middle, _ = f.Middle.geometry()
		look.Treble, _ = f.Treble.geometry()
		looks, since = append(looks, look), 0
	}
	if !worthwhile(mark.line) { // a correction left nothing to take
		coach.Advice = geometry.Advice{Verdict: geometry.AtLine, PerStroke: r.Kit.strokeGuess()}
		return coach, nil
	}
	coach.Advice = geometry.LineSanding{Line: mark.line, SpareBass: mark.smooth[0], SpareTreble: mark.smooth[1],
		PerStroke: r.Kit.strokeGuess()}.Coach(looks)
	if since > 0 {
		coach.Strokes = min(coach.Strokes, 1)
	}
	return coach, nil
}

func (r Record) coachByCaliper() (Coach, error) {
	stop, err := r.stop()
	if err != nil {
		return Coach{}, err
	}
	heights, err := r.state.round().heights()
	if err != nil || len(heights) == 0 {
		return Coach{ByCaliper: true}, err
	}
	sanding := geometry.Sanding{StartBass: heights[0].Bass, StartTreble: heights[0].Treble, StopBass: stop.drawn.Bass, StopTreble: stop.drawn.Treble,
		SpareBass: stop.SmoothBass, SpareTreble: stop.SmoothTreble, Accuracy: heights[len(heights)-1].accuracy, PerStroke: r.Kit.strokeGuess()}
	var checks []geometry.SandingCheck
	for _, h := range heights[1:] {
		checks = append(checks, h.SandingCheck)
	}
	advice, err := sanding.Coach(checks)
	return Coach{Advice: advice, ByCaliper: true, Ready: err == nil, Checks: len(checks)}, err
}

// height is a caliper check as it stands after corrections: Strokes counts every stroke since the check before.
type height struct {
	geometry.SandingCheck
	accuracy geometry.Length
}

// heights lists the round's caliper checks, the one before the first stroke first. Errors: *geometry.ParseError, ErrNoStart.
func (r Round) heights() ([]height, error) {
	var all []height
	since := 0
	for _, e := range r.Work {
		since += strokes(e.Fact)
		f, ok := e.Fact.(Checked)
		if !ok {
			continue
		}
		bass, treble, err := lengths(f.Bass, f.Treble)
		if err != nil {
			return nil, err
		}
		h := height{geometry.SandingCheck{Strokes: since, Bass: bass, Treble: treble}, geometry.CaliperAccuracy}
		if f.Accuracy.Given() {
			if h.accuracy, err = f.Accuracy.Length(); err != nil {
				return nil, err
			}
		}
		if n := len(all); f.Replaces && n > 0 {
			h.Strokes += all[n-1].Strokes
			all = all[:n-1]
		}
		if len(all) == 0 && h.Strokes > 0 {
			return nil, ErrNoStart
		}
		all, since = append(all, h), 0
	}
	return all, nil
}

// marked is a stop line that was followed, and what the fine paper was allowed beyond it.
type marked struct {
	line     geometry.Line
	smooth   [2]geometry.Length
	sequence int
}

// markAt is the line that was in force when the fact with that number came.
func (r Round) markAt(sequence int) marked {
	var m marked
	for _, other := range r.marks {
		if other.sequence < sequence {
			m = other
		}
	}
	return m
}

func (r Round) lastMark() (marked, bool) {
	if len(r.marks) == 0 {
		return marked{}, false
	}
	return r.marks[len(r.marks)-1], true
}

// DrawnLine is the stop line as it was marked on the saddle in this round, measured from where its underside was before the first stroke;
// ok is false when none was yet. When a correction moves the stop line, the step is Mark again and this is the old line, from which the
// new one is measured: the underside is no longer where it was.
func (r Record) DrawnLine() (line geometry.Line, ok bool) {
	m, ok := r.state.round().lastMark()
	return m.line, ok
}

// redraw tells whether the line on the saddle is not the one to stop at: the plan changed since, or another guide is followed than was marked.
func (r Record) redraw(round Round) bool {
	at := round.done[Mark]
	if r.answers[AskFollow].sequence > at {
		return true
	}
	if r.byCaliper() || round.changed < at { // the caliper's targets follow the plan by themselves
		return false
	}
	stop, err := r.stop()
	if err != nil {
		return false
	}
	line, _ := r.DrawnLine()
	return abs(line.Bass-stop.drawn.Bass) > sameMark || abs(line.Treble-stop.drawn.Treble) > sameMark
}

// sameMark is the difference below which two marks are one: half of the finest that a caliper shows.
const sameMark geometry.Length = 0.005

func abs(l geometry.Length) geometry.Length { return max(l, -l) }

// removed is what the round may have taken off at each side, all of it told as a range: by caliper what it measured, by line what a clear,
// touched or missing line stands for, whichever was recorded last; anything up to the line where nothing was; and the smoothing on top
// where it was done.
func (r Round) removed() [2]geometry.Interval {
	var removed [2]geometry.Interval
	last, ok := r.lastMark()
	if !ok || !r.MaterialGone() {
		return removed
	}
	for side := range removed {
		removed[side] = geometry.Interval{Low: 0, High: at(last.line, side) + lineGive}
	}
	if n := len(r.Work); n > 0 {
		switch f := r.Work[n-1].Fact.(type) {
		case Checked:
			heights, err := r.heights()
			if err != nil || len(heights) < 2 {
				break
			}
			start, end := heights[0], heights[len(heights)-1]
			give := start.accuracy + end.accuracy
			for side, taken := range [2]geometry.Length{start.Bass - end.Bass, start.Treble - end.Treble} {
				removed[side] = geometry.Interval{Low: taken - give, High: taken + give}.AtLeast(0)
			}
		case Looked:
			drawn := r.markAt(r.Work[n-1].Sequence).line
			for side, seen := range [2]Line{f.Bass, f.Treble} {
				removed[side] = seen.removed(at(drawn, side))
			}
		}
	}
	if r.Smoothed {
		for side := range removed {
			removed[side] = removed[side].Plus(geometry.Interval{Low: 0, High: last.smooth[side]})
		}
	}
	return removed
}

// removed is what a drawn line tells when it looks like this: of a line that is gone only that it was wholly passed.
func (l Line) removed(drawn geometry.Length) geometry.Interval {
	switch l {
	case Touched:
		return geometry.Interval{Low: drawn - lineGive, High: drawn + lineGive}.AtLeast(0)
	case Gone:
		return geometry.Interval{Low: drawn, High: drawn + geometry.PencilWidth.High}
	}
	return geometry.Interval{Low: 0, High: drawn + lineGive}
}

func at(line geometry.Line, side int) geometry.Length {
	if side == 0 {
		return line.Bass
	}
	return line.Treble
}

// lineGive is how far off a drawn line and the eye that watches it may be (common practice, no source).
const lineGive geometry.Length = 0.1

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
	if round.Wanted == nil {
		return nil
	}
	var all []Compared
	for course := range r.Instrument.Kind().Courses {
		read, err := r.After(course)
		target, errTarget := r.Target(course)
		lever, errLever := r.Instrument.Lever(course)
		if err != nil || errTarget != nil || errLever != nil {
			continue
		}
		c := Compared{Course: course, Read: read, Both: read, Target: target, Floor: r.Instrument.Floor(course, round.Wanted.Own)}
		before, err := r.Before(course) // other strings since, or read only afterwards: nothing was to be expected
		if err == nil {
			lowered, known := r.lowered(course)
			c.Before, c.Compares = before, known
			c.Predicted = before.Minus(lowered.Times(lever)).AtLeast(0)
		}
		if both, meets := c.Predicted.Meet(read); c.Compares && meets {
			c.Both, c.Meets = both, true
			if both.Width() < 2*geometry.LeastHalfWidth && read.Width() > both.Width() {
				middle := both.Middle()
				c.Both = geometry.Interval{Low: middle - geometry.LeastHalfWidth, High: middle + geometry.LeastHalfWidth}.AtLeast(0)
			}
		}
		c.Verdict = geometry.Judge(c.Both, target, lever)
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
	lever, err := r.Instrument.Lever(course)
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

// Baseline is what a saved job leaves on the instrument; nil when nothing was read after the work. A job that is kept as it is leaves one too,
// and it is proven when its readings show the wanted heights.
func (r Record) Baseline() *AsSet {
	if !r.Method.Has(Measure) {
		return r.movedBaseline()
	}
	round := r.state.round()
	taken, proven := round.After, round.Outcome == Done || round.Outcome == Keep && r.Reached()
	if len(taken) == 0 && round.Outcome == Keep && !round.MaterialGone() {
		taken = round.Before
		plan, err := r.Plan()
		proven = err == nil && !slices.ContainsFunc(plan.Strings, func(p PlannedString) bool { return p.Verdict != geometry.Reached })
	}
	if r.Ended != AsSaved || !r.measured(taken) {
		return nil
	}
	base := &AsSet{Job: r.ID, At: r.Last, Proven: proven, Neck: r.SurveyList(), Rod: r.RodTurns(), Touch: r.keptTouch(), Set: r.Instrument.Set}
	for course := range r.Instrument.Kind().Courses {
		for _, t := range r.standing(taken) {
			if t.Read.String == course {
				base.Air = r.airOf(t.At)
				base.Readings = append(base.Readings, t.Read)
			}
		}
	}
	return base
}

// Interval is what a baseline's readings allow for a course. Errors: geometry.ErrNoReading.
func (a AsSet) Interval(course int) (geometry.Interval, error) { return jointOf(a.Readings, course) }
