package job

import "gapwright/geometry"

// PlanOutcome says whether there is something to sand.
type PlanOutcome string

// The outcomes of planning.
const (
	PlanGo         PlanOutcome = "go"
	PlanThere      PlanOutcome = "there"       // the wanted heights are reached, or passed
	PlanClose      PlanOutcome = "close"       // higher, but by less than the fine paper alone takes
	PlanCannotTell PlanOutcome = "cannot-tell" // this way of measuring cannot say whether anything may come off
	PlanHeldBack   PlanOutcome = "held-back"   // a string that is low enough already holds the others back
	PlanTooLow     PlanOutcome = "saddle-low"  // too little saddle would be left standing
)

// PlanOutcomes lists every outcome, so that tests can ask for a sentence for each.
func PlanOutcomes() []PlanOutcome {
	return []PlanOutcome{PlanGo, PlanThere, PlanClose, PlanCannotTell, PlanHeldBack, PlanTooLow}
}

// PlannedString is one measured course in the plan.
type PlannedString struct {
	Course   int
	Leverage float64
	Offset   geometry.Length
	Reading  geometry.Interval
	Target   geometry.Length
	Floor    geometry.Length
	Verdict  geometry.Verdict
	Whole    geometry.Interval // the whole cut at the saddle under it
	After    geometry.Interval // where this round leaves it: from all of the smoothing taken to none
	Leaves   geometry.Length   // what the straight cut cannot give it, above its target
	LowestBy geometry.Length   // the lowest height that the saddle allows, where its stand is known; 0: not known
}

// Plan is what a round is to take off, worked out from the facts.
type Plan struct {
	Outcome  PlanOutcome
	Strings  []PlannedString
	Whole    geometry.Whole
	Stop     geometry.Stop
	Drawn    geometry.Line // the stop line as it can be drawn or read, rounded down
	HalfWay  bool          // a first round by somebody new to it
	Left     [2]geometry.LeftStanding
	LeftKnow [2]bool // whether the saddle's stand was measured at that end
	Findings []geometry.Finding
	Shim     geometry.Length // more than 0.1 mm at some string stays that no straight cut can take: what a shim would have to do

	HeldBy     int             // the course that holds the others back
	HeldTarget geometry.Length // what it would have to be content with
	HeldHelps  bool            // whether that can be wished: it is above its floor, and one of the outer two, which wishes are made for
}

// shimWorth is what a straight cut may leave before a shim is worth a word (design limit; common practice, no source).
const shimWorth geometry.Length = 0.1

// planned lists the measured courses of this round and the rules of its cut. Errors: geometry.ErrNoReading while something is missing.
func (r Record) planned() ([]PlannedString, []geometry.MeasuredString, geometry.RoundRules, error) {
	round := r.state.round()
	smoothing := round.smoothing
	if round.agreed <= round.changed { // a paper that is named later changes no plan that stands
		smoothing = r.Kit.Smoothing()
	}
	rules := geometry.RoundRules{Smoothing: smoothing, HalfWay: round.Number == 1 && round.Wanted != nil && !round.Wanted.Own}
	if round.Wanted == nil {
		return nil, nil, rules, geometry.ErrNoReading
	}
	var planned []PlannedString
	var strings []geometry.MeasuredString
	for course := range r.Instrument.Kind().Courses {
		gap, err := r.Before(course)
		if err == geometry.ErrNoReading && course != 0 && course != r.Instrument.Last() {
			continue
		}
		if err != nil {
			return nil, nil, rules, err
		}
		target, err := r.Target(course)
		if err != nil {
			return nil, nil, rules, err
		}
		lever, err := r.Instrument.Lever(course)
		if err != nil {
			return nil, nil, rules, err
		}
		p := PlannedString{Course: course, Leverage: lever, Offset: r.Instrument.Offset(course), Reading: gap, Target: target,
			Floor: r.Instrument.Floor(course, round.Wanted.Own), Verdict: geometry.Judge(gap, target, lever)}
		planned = append(planned, p)
		strings = append(strings, geometry.MeasuredString{Offset: p.Offset, Gap: gap, Target: target, Floor: p.Floor, Leverage: lever})
	}
	return planned, strings, rules, nil
}

// Target is the height wanted for a course. Errors: geometry.ErrNoReading while none is chosen, *geometry.ParseError.
func (r Record) Target(course int) (geometry.Length, error) {
	wanted := r.state.round().Wanted
	if wanted == nil {
		return 0, geometry.ErrNoReading
	}
	bass, treble, err := lengths(wanted.Bass, wanted.Treble)
	if err != nil {
		return 0, err
	}
	return r.Instrument.between([2]geometry.Length{bass, treble}, course), nil
}

// stopping is where this round must stop, and the line that can be drawn of it.
type stopping struct {
	geometry.Stop
	drawn geometry.Line
}

func (s stopping) marked(sequence int) marked {
	return marked{line: s.drawn, smooth: [2]geometry.Length{s.SmoothBass, s.SmoothTreble}, sequence: sequence}
}

// stop is the part of the plan that the work itself follows; it is much quicker to work out than the whole of it.
func (r Record) stop() (stopping, error) {
	_, strings, rules, err := r.planned()
	if err != nil {
		return stopping{}, err
	}
	return r.stopFor(strings, rules)
}

func (r Record) stopFor(strings []geometry.MeasuredString, rules geometry.RoundRules) (stopping, error) {
	ends, step := r.Instrument.Ends(), r.Kit.SmallStep()
	stop, err := geometry.StopLine(strings, ends, rules)
	return stopping{stop, geometry.Line{Ends: ends, Bass: stop.Line.Bass.RoundDown(step), Treble: stop.Line.Treble.RoundDown(step)}}, err
}

// leastRound is the smallest cut worth a round: with less to go the coach says at once that the line is reached, and rounds would never end
// (common practice, no source).
const leastRound geometry.Length = 0.05

func worthwhile(line geometry.Line) bool { return max(line.Bass, line.Treble) > leastRound+sameMark }

// Plan works out the round from its readings, wishes and the instrument. Errors: geometry.ErrNoReading while something is missing.
func (r Record) Plan() (Plan, error) {
	planned, strings, rules, err := r.planned()
	if err != nil {
		return Plan{}, err
	}
	plan := Plan{Strings: planned, HalfWay: rules.HalfWay, HeldBy: -1}
	if plan.Whole, err = geometry.WholeCut(strings, r.Instrument.Ends()); err != nil {
		return Plan{}, err
	}
	stop, err := r.stopFor(strings, rules)
	if err != nil {
		return Plan{}, err
	}
	plan.Stop, plan.Drawn = stop.Stop, stop.drawn
	for i := range plan.Strings {
		p := &plan.Strings[i]
		p.Whole = plan.Whole.Strings[i]
		p.After = geometry.Interval{
			Low:  plan.Stop.Lowest[i],
			High: p.Reading.High - geometry.Length(p.Leverage)*plan.Drawn.At(p.Offset),
		}
		p.Leaves = plan.Whole.Leaves[i]
		if p.Leaves > shimWorth {
			plan.Shim = max(plan.Shim, p.Leaves/geometry.Length(p.Leverage))
		}
	}
	if err := r.leftStanding(&plan); err != nil {
		return Plan{}, err
	}
	plan.decide(strings, r.Instrument.Ends(), rules)
	return plan, nil
}

// leftStanding works out what is left at each end whose stand was measured; in later rounds less what earlier rounds may have taken.
func (r Record) leftStanding(plan *Plan) error {
	stops := [2]geometry.Length{plan.Drawn.Bass, plan.Drawn.Treble}
	smooth := [2]geometry.Length{plan.Stop.SmoothBass, plan.Stop.SmoothTreble}
	wholes := [2]geometry.Interval{plan.Whole.Bass, plan.Whole.Treble}
	for side, stood := range r.Stands {
		if stood == nil {
			continue
		}
		exposure, ok := r.exposure(side)
		if !ok {
			continue
		}
		plan.LeftKnow[side] = true
		end := geometry.SaddleEnd{Exposure: exposure, Behind: stood.Behind.LengthOr(0), Depth: stood.Depth.LengthOr(0)}
		left, findings, err := geometry.WhatIsLeft(geometry.Side(side), end, stops[side], smooth[side], wholes[side])
		if err != nil {
			return err
		}
		plan.Left[side] = left
		plan.Findings = append(plan.Findings, findings...)
		course := side * r.Instrument.Last()
		for i := range plan.Strings {
			if plan.Strings[i].Course == course {
				plan.Strings[i].LowestBy = geometry.LowestGap(plan.Strings[i].Reading, exposure, plan.Strings[i].Leverage)
			}
		}
	}
	return nil
}

// exposure is how far the saddle stands at a side before this round: as measured, less what the rounds since may have taken off. Shims that
// raised it since are not counted: it may stand higher than told, never lower.
func (r Record) exposure(side int) (geometry.Interval, bool) {
	stood := r.Stands[side]
	if stood == nil || !stood.Exposure.Given() {
		return geometry.Interval{}, false
	}
	e, err := stood.Exposure.Length()
	if err != nil {
		return geometry.Interval{}, false
	}
	give := stood.Give.LengthOr(geometry.Millimetre / 2)
	exposure := geometry.Interval{Low: e - give, High: e + give}.AtLeast(0)
	for n := r.stoodIn[side]; n < len(r.Rounds); n++ { // rounds count from 1, so this leaves out the one under way
		exposure = exposure.Minus(r.Rounds[n-1].removed()[side]).AtLeast(0)
	}
	return exposure, true
}

// LowestGap is the lowest height that the saddle allows at an outer course; ok is false when its stand was not measured.
func (r Record) LowestGap(course int) (geometry.Length, bool) {
	side := 0
	if course > 0 {
		side = 1
	}
	gap, err := r.Before(course)
	exposure, ok := r.exposure(side)
	lever, errLever := r.Instrument.Lever(course)
	if err != nil || errLever != nil || !ok {
		return 0, false
	}
	return geometry.LowestGap(gap, exposure, lever), true
}

func (p *Plan) decide(strings []geometry.MeasuredString, ends geometry.Ends, rules geometry.RoundRules) {
	if worthwhile(p.Drawn) {
		p.Outcome = PlanGo
		for _, f := range p.Findings {
			if f.Severity == geometry.Refuse {
				p.Outcome = PlanTooLow
			}
		}
		return
	}
	anyAsks, anyHigh, anyUnclear, tooLow := false, false, false, false
	for _, f := range p.Findings {
		tooLow = tooLow || f.Severity == geometry.Refuse
	}
	for i, s := range p.Strings {
		anyAsks = anyAsks || p.Stop.Asked[i] > leastRound+sameMark
		anyHigh = anyHigh || s.Verdict == geometry.StillHigh
		anyUnclear = anyUnclear || s.Verdict == geometry.CannotTell || s.Verdict == geometry.StillHigh && s.Reading.Width() > geometry.DoneWidth*geometry.Length(s.Leverage/0.5)
	}
	if tooLow && (anyHigh || anyUnclear) { // whatever else is in the way, this saddle has nothing to give
		p.Outcome = PlanTooLow
		return
	}
	if anyAsks && (anyHigh || anyUnclear) {
		i, target, ok := geometry.Blocked(strings, ends, rules)
		// A target of zero: none is in the way, what is asked for is only less than can be drawn. A string whose reading cannot tell is not in
		// the way either until it is read more finely.
		if target != 0 && p.Strings[i].Verdict != geometry.CannotTell {
			p.Outcome, p.HeldBy, p.HeldTarget, p.HeldHelps = PlanHeldBack, p.Strings[i].Course, target, ok && (i == 0 || i == len(p.Strings)-1)
			return
		}
	}
	switch {
	case anyUnclear:
		p.Outcome = PlanCannotTell
	case anyHigh:
		p.Outcome = PlanClose
	default:
		p.Outcome = PlanThere
	}
}
