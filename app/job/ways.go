package job

import "gapwright/geometry"

// What the methods do each in their own way.

// mostTurn is more than anybody turns a screw at one time, in eighths (common practice, no source).
const mostTurn = 80

func (r *Record) takeTurning(e Event, f Screwed, step Step) error {
	refuse := func(k RefusalKind) error { return &Refusal{Kind: k, Step: step, String: -1} }
	if step != Turn && !(step == MakePlan && r.Method.Has(Turn)) { // at the plan it is a trial
		return refuse(RefusedNotYet)
	}
	if len(f.Eighths) != r.turnable() {
		return refuse(RefusedCheck)
	}
	for _, n := range f.Eighths {
		if n < -mostTurn || n > mostTurn {
			return refuse(RefusedCheck)
		}
	}
	switch {
	case step == MakePlan:
		if !r.takeTrial(e, f) {
			return refuse(RefusedCheck)
		}
		return nil
	case !r.settled(step):
		return refuse(RefusedUnanswered)
	case r.Stale(e.At):
		return refuse(RefusedStale)
	}
	round := r.state.round()
	round.Turned = &f
	round.done[Turn] = e.Sequence
	return nil
}

// stringsOn tells whether the strings are on at a step before the work is done: turning leaves them on.
func (s Step) stringsOn() bool { return s.order() <= TakeOut.order() || s == Turn }

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
	return false, nil // nut and relief have no plan to agree to
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
