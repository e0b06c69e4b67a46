package job

import (
	"errors"

	"gapwright/geometry"
)

// ErrNoStart refuses a caliper check after the first strokes when no height was taken before them: what is gone could not be told.
var ErrNoStart = errors.New("no height was taken before the first stroke")

// take folds one fact into the state or refuses it.
func (r *Record) take(e Event) error {
	step := r.Step()
	refuse := func(k RefusalKind, cause error) error {
		return &Refusal{Kind: k, Step: step, String: -1, Cause: cause}
	}
	if r.Ended != Open {
		return refuse(RefusedEnded, nil)
	}
	if r.Method == QuickCheck && !checks(e.Fact) {
		return refuse(RefusedNotYet, nil)
	}
	round := r.state.round()
	switch f := e.Fact.(type) {
	case Equipped:
		r.Kit = f.Kit
	case Described:
		return r.takeDescription(e, f, step)
	case Strung:
		if !step.stringsOn() && step != MeasureAgain || round.apart() {
			return refuse(RefusedNotYet, nil)
		}
		r.Strings, r.Tuning = f.Strings, f.Tuning
		r.otherStrings(e)
	case Answered:
		return r.takeAnswer(e, f, step)
	case Read:
		return r.takeReading(e, f, step)
	case Surveyed:
		return r.takeSurvey(e, f, step)
	case Listened:
		return r.takeListening(e, f, step)
	case Adjusted:
		if !f.Feature.known() || f.Eighths != 0 && f.Feature != Relief || f.Eighths < -mostEighths || f.Eighths > mostEighths {
			return refuse(RefusedCheck, nil)
		}
		if !r.strungUp(step) {
			return refuse(RefusedNotYet, nil)
		}
		if step == FixRelief && f.Eighths != 0 && !r.CanTurn() {
			return refuse(RefusedStopped, nil)
		}
		r.turns = append(r.turns, turned{f, r.set, r.saddleState(), e.At})
		r.otherStrings(e)
		delete(round.done, Measure)
	case Aired:
		if err := f.Check(); err != nil {
			return refuse(RefusedCheck, err)
		}
		r.air, r.airAt = f, e.At
	case LeftAlone:
		if !f.Feature.known() {
			return refuse(RefusedCheck, nil)
		}
		out, is := r.NeckOut()
		if feature, _ := FeatureOf(out.Part); step != Diagnose || !is || feature != f.Feature {
			return refuse(RefusedNotYet, nil)
		}
		r.alone[f.Feature] = r.set
	case Stood:
		if f.Side != 0 && f.Side != 1 {
			return refuse(RefusedCheck, nil)
		}
		if err := f.Check(); err != nil {
			return refuse(RefusedCheck, err)
		}
		if step.order() > ways[r.Method].work.order() {
			return refuse(RefusedNotYet, nil)
		}
		r.Stands[f.Side], r.stoodIn[f.Side] = &f, round.Number
		round.changed = e.Sequence
	case Slotted:
		return r.takeSlot(e, f, step)
	case Made:
		return r.takeMade(f, step)
	case Chosen:
		return r.takeChoice(e, f, step)
	case Did:
		return r.takeDid(e, f, step)
	case Skipped:
		if f.Step != step {
			return refuse(RefusedNotYet, nil)
		}
		if !f.Step.MaySkip() {
			return refuse(RefusedSkip, nil)
		}
		if f.Step == MeasureAgain {
			round.Proofless = true
		}
		round.done[f.Step] = e.Sequence
	case Checked, Looked:
		return r.takeCheck(e, step)
	case Judged:
		return r.takeJudgement(e, f, step)
	case Screwed:
		return r.takeTurning(e, f, step)
	case Filed:
		return r.takeFiling(e, f, step)
	case Shimmed:
		if step != MeasureAgain && step != Lay {
			return refuse(RefusedNotYet, nil)
		}
		for _, t := range []Typed{f.Bass, f.Treble} {
			if err := (limit{t, geometry.QuantityFeeler, 0, thickestShim}).check(); err != nil {
				return refuse(RefusedCheck, err)
			}
		}
		round.Shims = append(round.Shims, f)
		if step == Lay {
			round.done[Lay] = e.Sequence
			break
		}
		round.After, round.Outcome = nil, ""
	case Noted:
		r.Notes = append(r.Notes, f.Text)
	case Saved:
		if step != Save {
			return refuse(RefusedNotYet, nil)
		}
		r.Ended = AsSaved
	case PutAway:
		r.Ended = Away
	default:
		return refuse(RefusedUnknown, nil)
	}
	return nil
}

// thickestShim is more than anybody puts under a saddle (common practice, no source).
const thickestShim geometry.Length = 5

// otherStrings makes every reading so far one of other strings, and with them any verdict that rested on them.
func (r *Record) otherStrings(e Event) {
	round := r.state.round()
	r.set++
	round.changed = e.Sequence
	round.Outcome = ""
}

func (r *Record) takeDescription(e Event, f Described, step Step) error {
	refuse := func(k RefusalKind, cause error) error {
		return &Refusal{Kind: k, Step: step, String: -1, Cause: cause}
	}
	round, old := r.state.round(), r.Instrument
	if err := f.Instrument.Check(); err != nil {
		return refuse(RefusedProfile, err)
	}
	if f.Instrument.Family != old.Family || f.Instrument.ID != old.ID {
		return refuse(RefusedProfile, nil)
	}
	if f.Instrument.ReadFret() != old.ReadFret() || f.Instrument.Held != old.Held {
		switch {
		case round.MaterialGone() || round.strungUp(r.Method) || len(r.Rounds) > 1:
			return refuse(RefusedMaterialGone, nil)
		case step == Save:
			return refuse(RefusedNotYet, nil)
		}
		r.otherStrings(e) // readings at another place are not readings of this one
		round.Wanted = nil
	}
	if f.Instrument.lengths() != old.lengths() || f.Instrument.Turns != old.Turns || f.Instrument.Kind() != old.Kind() {
		round.changed = e.Sequence
	}
	r.Instrument = f.Instrument
	return nil
}

func (r *Record) takeAnswer(e Event, f Answered, step Step) error {
	refuse := func(k RefusalKind) error { return &Refusal{Kind: k, Step: step, String: -1} }
	round := r.state.round()
	if asked, _ := r.Method.Asks(f.Question.Step()); asked != f.Question || !f.Question.allows(f.Answer) {
		return refuse(RefusedAnswer)
	}
	if f.Question.Step().order() > step.order() || step == Save {
		return refuse(RefusedNotYet)
	}
	before, answered := r.Answer(f.Question)
	if answered && before == f.Answer {
		return nil
	}
	switch f.Question {
	case AskFollow:
		if round.MaterialGone() { // a line or a height taken now would start from where the saddle is, not from where it was
			return refuse(RefusedMaterialGone)
		}
	case AskStrung:
		if f.Answer == StrungOther || f.Answer == StrungUnsure {
			r.otherStrings(e)
		}
	}
	r.answers[f.Question] = given{f.Answer, round.Number, e.Sequence}
	return nil
}

func (r *Record) takeReading(e Event, f Read, step Step) error {
	refuse := func(k RefusalKind, cause error) error {
		return &Refusal{Kind: k, Step: step, String: f.String, Cause: cause}
	}
	round := r.state.round()
	if f.String < 0 || f.String > r.Instrument.Last() {
		return refuse(RefusedString, nil)
	}
	if f.Fret != r.Instrument.ReadFret() || f.Held != r.Instrument.Held {
		return refuse(RefusedPlace, nil)
	}
	if _, err := f.Interval(); err != nil {
		return refuse(RefusedReading, err)
	}
	taken := Taken{Read: f, At: e.At, Sequence: e.Sequence, set: r.set}
	list := &round.Before
	if round.strungUp(r.Method) {
		list = &round.After
	}
	switch {
	case step == BeforeYouStart, step == Save, !r.Method.Has(Measure):
		return refuse(RefusedNotYet, nil)
	case list == &round.After:
		round.Outcome = ""
	case !step.stringsOn(), round.apart():
		old := r.Readings(f.String, false)
		if !f.Replaces || len(old) == 0 { // with the saddle out nothing can be read, only corrected
			return refuse(RefusedNotYet, nil)
		}
		taken.At = old[0].At
	}
	*list = append(*list, taken)
	if _, err := r.joint(*list, f.String); err != nil {
		return refuse(RefusedContradicts, err)
	}
	if list == &round.Before {
		round.changed = e.Sequence
	}
	return nil
}

func (r *Record) takeChoice(e Event, f Chosen, step Step) error {
	round := r.state.round()
	if step.order() < Choose.order() || step.order() > ways[r.Method].work.order() {
		return &Refusal{Kind: RefusedNotYet, Step: step, String: -1}
	}
	for i, typed := range []Typed{f.Bass, f.Treble} {
		course := i * r.Instrument.Last()
		refuse := func(k RefusalKind, cause error) error {
			return &Refusal{Kind: k, Step: step, String: course, Cause: cause}
		}
		target, err := typed.Length()
		if err != nil {
			return refuse(RefusedTargetText, err)
		}
		if target <= 0 || target > geometry.LargestGap {
			return refuse(RefusedTargetText, &geometry.RangeError{Quantity: geometry.QuantityTarget, Got: float64(target), Min: 0.2,
				Max: float64(geometry.LargestGap)})
		}
		may, err := r.MayWish(course, f.Own)
		if err != nil {
			return refuse(RefusedReading, err)
		}
		if target < may.Low-sameLength {
			return refuse(RefusedTargetFloor, &geometry.RangeError{Quantity: geometry.QuantityTarget, Got: float64(target), Min: float64(may.Low),
				Max: float64(geometry.LargestGap)})
		}
		if target > may.High+sameLength {
			return refuse(RefusedTargetHigh, &geometry.RangeError{Quantity: geometry.QuantityTarget, Got: float64(target), Min: 0, Max: float64(may.High)})
		}
	}
	round.Wanted = &f
	round.changed = e.Sequence
	return nil
}

// MayWish is what may be wished for a course: from its floor up to where it is now, or higher where the method can raise it. A string that is under its floor already may be wished at
// the floor, which cuts nothing there, so that the others can still be worked on. Errors: geometry.ErrNoReading.
func (r Record) MayWish(course int, own bool) (geometry.Interval, error) {
	gap, err := r.Before(course)
	floor := r.Instrument.Floor(course, own)
	may := geometry.Interval{Low: floor, High: max(floor, gap.High)}
	if r.Method.Raises() {
		may.High = min(geometry.LargestGap, max(may.High, r.Instrument.Usual(course).High)+mostRaise)
	}
	if !r.Method.Lowers() {
		may.Low = max(floor, gap.Low)
	}
	return may, err
}

// mostRaise is how far over what is usual, or is there now, anybody wants a string (common practice, no source).
const mostRaise geometry.Length = 1.5

// sameLength is the difference below which a wish and a limit are the same: typed inches and millimetres differ by less.
const sameLength geometry.Length = 0.015

func (r *Record) takeDid(e Event, f Did, step Step) error {
	refuse := func(k RefusalKind, cause error) error {
		return &Refusal{Kind: k, Step: step, String: -1, Cause: cause}
	}
	round := r.state.round()
	if f.Step != step {
		return refuse(RefusedNotYet, nil)
	}
	if q, asks := r.Method.Asks(step); asks && step != Measure {
		a, ok := r.Answer(q)
		if !ok {
			return refuse(RefusedUnanswered, nil)
		}
		if q.Stops(a) {
			return refuse(RefusedStopped, nil)
		}
	}
	switch step {
	case BeforeYouStart, Diagnose, Choose, Lay, Turn, MeasureAgain, Save: // passed by their own facts
		return refuse(RefusedNotYet, nil)
	case Measure:
		if !r.measured(round.Before) {
			return refuse(RefusedReading, geometry.ErrNoReading)
		}
	case MakePlan:
		if r.stale(round.Before, e.At) {
			return refuse(RefusedStale, nil)
		}
		if ready, err := r.ready(); err != nil || !ready {
			return refuse(RefusedNothingToCut, err)
		}
		round.smoothing, round.agreed = r.Kit.Smoothing(), e.Sequence
	case TakeOut: // the last moment at which the gaps can be read again
		if r.Stale(e.At) {
			return refuse(RefusedStale, nil)
		}
	case Mark, Sand:
		if step == Sand && !r.byCaliper() { // the line that is on the saddle stays; a caliper's targets follow the plan
			break
		}
		stop, err := r.stop()
		if err != nil {
			return refuse(RefusedNothingToCut, err)
		}
		round.marks = append(round.marks, stop.marked(e.Sequence))
	case Smooth:
		round.Smoothed = true
	case FixNut:
		if !r.SlotsRead() {
			return refuse(RefusedReading, geometry.ErrNoReading)
		}
	case FixRelief:
		if !r.ReliefKnown() {
			return refuse(RefusedReading, geometry.ErrNoReading)
		}
	}
	round.done[step] = e.Sequence
	return nil
}

func (r *Record) takeCheck(e Event, step Step) error {
	refuse := func(cause error) error {
		return &Refusal{Kind: RefusedCheck, Step: step, String: -1, Cause: cause}
	}
	if step != Sand {
		return &Refusal{Kind: RefusedNotYet, Step: step, String: -1}
	}
	round := r.state.round()
	if n := strokes(e.Fact); n < 0 || n > mostStrokes {
		return refuse(&geometry.RangeError{Quantity: geometry.QuantityStrokes, Got: float64(n), Min: 0, Max: mostStrokes})
	}
	gone := round.MaterialGone()
	round.Work = append(round.Work, e)
	switch f := e.Fact.(type) {
	case Checked:
		if heights, err := round.heights(); err != nil {
			return refuse(err)
		} else if len(heights) == 1 && gone {
			return refuse(ErrNoStart)
		}
		if _, err := r.coachByCaliper(); err != nil {
			return refuse(err)
		}
	case Looked:
		for _, l := range []Line{f.Bass, f.Middle, f.Treble} {
			if _, known := l.geometry(); !known {
				return refuse(nil)
			}
		}
	}
	return nil
}

// mostStrokes is more than anybody does between two looks (common practice, no source).
const mostStrokes = 1000

func (r *Record) takeJudgement(e Event, f Judged, step Step) error {
	refuse := func(k RefusalKind, cause error) error {
		return &Refusal{Kind: k, Step: step, String: -1, Cause: cause}
	}
	round := r.state.round()
	taken := round.After
	switch {
	case step == MakePlan && f.Outcome == Keep: // nothing was cut this round: it stays as it was read
		taken = round.Before
	case step != MeasureAgain:
		return refuse(RefusedNotYet, nil)
	}
	if !r.measured(taken) {
		return refuse(RefusedReading, geometry.ErrNoReading)
	}
	if r.stale(taken, e.At) {
		return refuse(RefusedStale, nil)
	}
	switch f.Outcome {
	case Done:
		if !r.Reached() {
			return refuse(RefusedUnproven, nil)
		}
		round.Outcome = Done
	case Keep, TooMuch:
		round.Outcome = f.Outcome
	case Again:
		wanted := *round.Wanted
		r.Rounds = append(r.Rounds, Round{Number: round.Number + 1, Before: append([]Taken(nil), round.After...), Wanted: &wanted,
			done: map[Step]int{Measure: e.Sequence}, changed: e.Sequence})
	default:
		return refuse(RefusedAnswer, nil)
	}
	return nil
}

// limit is what a typed length may be; nothing typed is within any limit.
type limit struct {
	typed    Typed
	quantity geometry.Quantity
	low, top geometry.Length
}

func (t limit) check() error {
	if !t.typed.Given() {
		return nil
	}
	l, err := t.typed.Length()
	if err != nil {
		return err
	}
	if l < t.low || l > t.top {
		return &geometry.RangeError{Quantity: t.quantity, Got: float64(l), Min: float64(t.low), Max: float64(t.top)}
	}
	return nil
}

// Check tells whether the numbers can be those of a saddle (limits: common practice, no source).
func (s Stood) Check() error {
	for _, t := range []limit{
		{s.Exposure, geometry.QuantityExposure, 0, 18},
		{s.Give, geometry.QuantityAccuracy, 0, 2},
		{s.Behind, geometry.QuantityDistance, 1, 60},
		{s.Depth, geometry.QuantityDepth, 0.5, 20},
	} {
		if err := t.check(); err != nil {
			return err
		}
	}
	return nil
}
