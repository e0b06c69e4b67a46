package job

import "gapwright/geometry"

// What the methods do each in their own way.

// mostTurn is more than anybody turns a screw at one time, in eighths (common practice, no source).
const mostTurn = 80

func (r *Record) takeTurning(e Event, f Screwed, step Step) error {
	refuse := func(k RefusalKind) error { return &Refusal{Kind: k, Step: step, String: -1} }
	if step != Turn {
		return refuse(RefusedNotYet)
	}
	want := r.Instrument.Kind().Courses
	if r.Method == ByPosts {
		want = 2
	}
	if len(f.Eighths) != want {
		return refuse(RefusedCheck)
	}
	for _, n := range f.Eighths {
		if n < -mostTurn || n > mostTurn {
			return refuse(RefusedCheck)
		}
	}
	if !r.settled(step) {
		return refuse(RefusedUnanswered)
	}
	round := r.state.round()
	round.Turned = &f
	round.done[Turn] = e.Sequence
	return nil
}

// ready tells whether there is a plan that can be followed.
func (r Record) ready() (bool, error) {
	switch r.Method {
	case SandUnderside:
		plan, err := r.Plan()
		return err == nil && plan.Outcome == PlanGo, err
	case RaiseByStrip:
		return r.stripReady()
	case NewSaddle:
		return r.blankReady()
	case ByScrews, ByPosts:
		return r.turnsReady()
	}
	for _, course := range []int{0, r.Instrument.Last()} {
		if _, err := r.Before(course); err != nil {
			return false, err
		}
	}
	return true, nil
}

// lowered is how much lower a course lies at the saddle for the work of this round, as a range: below zero when it was raised. ok is false
// when nothing is known of that: a new saddle owes nothing to the old one.
func (r Record) lowered(course int) (geometry.Interval, bool) {
	round := r.Current()
	at := r.Instrument.Offset(course)
	line := func(sides [2]geometry.Interval) geometry.Interval {
		least := geometry.Line{Ends: r.Instrument.Ends(), Bass: sides[0].Low, Treble: sides[1].Low}
		most := geometry.Line{Ends: r.Instrument.Ends(), Bass: sides[0].High, Treble: sides[1].High}
		return geometry.Interval{Low: least.At(at), High: most.At(at)}
	}
	switch r.Method {
	case SandUnderside:
		return line(round.removed()), len(round.Shims) == 0
	case RaiseByStrip:
		return r.stripLowered(course)
	case ByScrews, ByPosts:
		return r.turnsLowered(course)
	}
	return geometry.Interval{}, false
}
