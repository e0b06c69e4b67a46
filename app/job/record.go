package job

import (
	"errors"
	"time"

	"gapwright/geometry"
)

// Record is a job read from its events. The zero Record is a job that has not begun. Events is the whole truth; everything else is worked
// out from it by Apply and never stored.
type Record struct {
	ID     string
	Events []Event
	state
}

type state struct {
	Method     Method
	Instrument Instrument
	Kit        Kit
	Began      time.Time
	Last       time.Time // of the newest fact
	Rounds     []Round
	Notes      []string
	Strings    string // what Strung said last
	Tuning     string
	Stands     [2]*Stood // the saddle's stand before the first round, bass and treble end
	Ended      Ending
	answers    map[Question]given
	set        int // grows when strings or tuning change; readings of an older set no longer hold
}

// Ending is how a job ended.
type Ending string

// The endings.
const (
	Open    Ending = ""
	AsSaved Ending = "saved"
	Away    Ending = "put-away"
)

type given struct {
	answer   Answer
	round    int
	sequence int
}

// Taken is a reading with when and under which strings it was taken.
type Taken struct {
	Read     Read
	At       time.Time
	Sequence int
	set      int
}

// Round is one time through the saddle's coming out and going back.
type Round struct {
	Number    int
	Before    []Taken // what the round's plan is made from
	After     []Taken // with the strings back on
	Wanted    *Chosen
	Work      []Event // Checked and Looked, in order
	Shims     []Shimmed
	Outcome   Outcome // Done or Keep once judged; TooMuch while that stands
	Proofless bool    // the measuring after it was skipped
	Smoothed  bool
	done      map[Step]int // step → sequence of the fact that did or skipped it
	changed   int          // sequence of the newest fact that changes the plan
	agreed    int          // sequence of the fact that agreed to the plan
}

// TooOld is the age at which a reading no longer counts: a night in another room moves a top (common practice, no source).
const TooOld = 24 * time.Hour

// Replay reads a job from its events. The first event that is refused ends it with that error; the record up to there is returned with it.
func Replay(events []Event) (Record, error) {
	var r Record
	for _, e := range events {
		next, err := r.Apply(e)
		if err != nil {
			return r, err
		}
		r = next
	}
	return r, nil
}

// Apply gives the record with one more event, or the record unchanged and a *Refusal. It changes nothing that was passed in.
func (r Record) Apply(e Event) (Record, error) {
	refuse := func(k RefusalKind) (Record, error) {
		return r, &Refusal{Kind: k, Step: r.Step(), String: -1}
	}
	began, isBegan := e.Fact.(Began)
	switch {
	case e.Fact == nil:
		return refuse(RefusedUnknown)
	case e.Sequence != len(r.Events)+1 || e.Job == "" || (len(r.Events) > 0 && e.Job != r.ID):
		return refuse(RefusedSequence)
	case len(r.Events) == 0 && !isBegan:
		return refuse(RefusedNotBegun)
	case len(r.Events) > 0 && isBegan:
		return refuse(RefusedBegunTwice)
	}
	next := Record{ID: e.Job, Events: append(r.Events[:len(r.Events):len(r.Events)], e), state: r.state.clone()}
	if isBegan {
		if err := began.Instrument.Check(); err != nil {
			return r, &Refusal{Kind: RefusedProfile, Step: BeforeYouStart, String: -1, Cause: err}
		}
		next.state = state{Method: began.Method, Instrument: began.Instrument, Kit: began.Kit, Began: e.At, answers: map[Question]given{},
			Rounds: []Round{{Number: 1, done: map[Step]int{}}}}
	} else if undone, ok := e.Fact.(Undone); ok {
		if kind := r.undoable(undone.Sequence); kind != "" {
			return refuse(kind)
		}
		next.state = replayState(next.Events)
	} else if err := next.take(e); err != nil {
		return r, err
	}
	next.state.Last = e.At
	return next, nil
}

// effective leaves out the facts that were taken back, and the taking back.
func effective(events []Event) []Event {
	gone := map[int]bool{}
	for _, e := range events {
		if u, ok := e.Fact.(Undone); ok {
			gone[u.Sequence], gone[e.Sequence] = true, true
		}
	}
	var left []Event
	for _, e := range events {
		if !gone[e.Sequence] {
			left = append(left, e)
		}
	}
	return left
}

// replayState folds the facts that still stand. They were all taken once, in this order, and only the last is ever taken back, so none can
// be refused now.
func replayState(events []Event) state {
	var r Record
	for _, e := range effective(events) {
		if b, ok := e.Fact.(Began); ok {
			fresh, _ := Record{}.Apply(Event{Job: e.Job, Sequence: 1, Writer: e.Writer, At: e.At, Fact: b})
			r = fresh
			continue
		}
		r.Events = append(r.Events, e)
		_ = r.take(e)
		r.state.Last = e.At
	}
	return r.state
}

// Undoable is the sequence number of the fact that undo would take back now; ok is false when there is none.
func (r Record) Undoable() (sequence int, fact Fact, ok bool) {
	left := effective(r.Events)
	if len(left) == 0 {
		return 0, nil, false
	}
	last := left[len(left)-1]
	return last.Sequence, last.Fact, r.undoable(last.Sequence) == ""
}

func (r Record) undoable(sequence int) RefusalKind {
	left := effective(r.Events)
	if len(left) < 2 || left[len(left)-1].Sequence != sequence || r.Ended == AsSaved {
		return RefusedNoUndo
	}
	switch f := left[len(left)-1].Fact.(type) {
	case Checked:
		if f.Strokes > 0 {
			return RefusedMaterialGone
		}
	case Looked:
		if f.Strokes > 0 {
			return RefusedMaterialGone
		}
	}
	return ""
}

func (s state) clone() state {
	c := s
	c.answers = make(map[Question]given, len(s.answers))
	for k, v := range s.answers {
		c.answers[k] = v
	}
	c.Rounds = make([]Round, len(s.Rounds))
	for i, round := range s.Rounds {
		round.Before = append([]Taken(nil), round.Before...)
		round.After = append([]Taken(nil), round.After...)
		round.Work = append([]Event(nil), round.Work...)
		round.Shims = append([]Shimmed(nil), round.Shims...)
		done := make(map[Step]int, len(round.done))
		for k, v := range round.done {
			done[k] = v
		}
		round.done = done
		c.Rounds[i] = round
	}
	c.Notes = append([]string(nil), s.Notes...)
	return c
}

// Round is the round under way; a Record that has not begun has an empty one.
func (s *state) round() *Round {
	if len(s.Rounds) == 0 {
		return &Round{Number: 1, done: map[Step]int{}}
	}
	return &s.Rounds[len(s.Rounds)-1]
}

// Current is the round under way.
func (r Record) Current() Round { return *r.state.round() }

// MaterialGone tells whether anything was sanded off in this round, recorded stroke by stroke or not.
func (r Round) MaterialGone() bool {
	if _, sanded := r.done[Sand]; sanded {
		return true
	}
	for _, e := range r.Work {
		if strokes(e.Fact) > 0 {
			return true
		}
	}
	return false
}

// Strokes counts the round's strokes so far.
func (r Round) Strokes() int {
	n := 0
	for _, e := range r.Work {
		n += strokes(e.Fact)
	}
	return n
}

func strokes(f Fact) int {
	switch f := f.(type) {
	case Checked:
		return f.Strokes
	case Looked:
		return f.Strokes
	}
	return 0
}

// Answer is what was answered to a question, in this round where the question is asked in each.
func (r Record) Answer(q Question) (Answer, bool) {
	g, ok := r.answers[q]
	if !ok || (q.PerRound() && g.round != r.state.round().Number) {
		return "", false
	}
	return g.answer, true
}

// settled tells whether a step's question is answered with something that lets the work go on.
func (r Record) settled(s Step) bool {
	q, asks := s.Asks()
	if !asks {
		return true
	}
	a, ok := r.Answer(q)
	return ok && !q.Stops(a)
}

// Step is where the work is, from the facts alone.
func (r Record) Step() Step {
	if len(r.Events) == 0 {
		return BeforeYouStart
	}
	if r.Ended != Open {
		return Finished
	}
	round := r.Current()
	for _, s := range sandingSteps {
		if !r.passed(s, round) {
			return s
		}
	}
	return Finished
}

// StepAt is Step as of now: readings that have grown old before the strings came off are asked for again.
func (r Record) StepAt(now time.Time) Step {
	s := r.Step()
	switch s {
	case Choose, MakePlan, TakeOut:
		if r.Stale(now) {
			return Measure
		}
	}
	return s
}

func (r Record) passed(s Step, round Round) bool {
	gone := round.MaterialGone()
	did := func(s Step) bool { _, ok := round.done[s]; return ok }
	judged := round.Outcome == Done || round.Outcome == Keep
	switch s {
	case BeforeYouStart:
		return r.settled(s)
	case Measure:
		return gone || judged || (did(Measure) && r.settled(s) && r.measured(round.Before))
	case Choose:
		return judged || (round.Wanted != nil && r.settled(s))
	case MakePlan:
		return gone || judged || (did(MakePlan) && round.agreed > round.changed && r.settled(s))
	case TakeOut, Mark, Sand, Smooth, Seat, StringUp:
		return judged || (did(s) && r.settled(s))
	case MeasureAgain:
		return judged || round.Proofless
	}
	return false // Save ends with Saved
}

// measured tells whether both outer courses have a reading that holds.
func (r Record) measured(taken []Taken) bool {
	_, bass := r.joint(taken, 0)
	_, treble := r.joint(taken, r.Instrument.Last())
	return bass == nil && treble == nil
}

// joint is what all standing readings of a course allow together.
func (r Record) joint(taken []Taken, course int) (geometry.Interval, error) {
	var all []geometry.Interval
	for _, t := range taken {
		if t.Read.String != course || t.set != r.set {
			continue
		}
		if t.Read.Replaces {
			all = all[:0]
		}
		i, err := t.Read.Interval()
		if err != nil {
			return geometry.Interval{}, err
		}
		all = append(all, i)
	}
	return geometry.Repeats(all, geometry.LeastHalfWidth)
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
	for _, t := range taken {
		if t.Read.String != course || t.set != r.set {
			continue
		}
		if t.Read.Replaces {
			standing = standing[:0]
		}
		standing = append(standing, t)
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
	round := r.Current()
	return !round.MaterialGone() && r.stale(round.Before, now)
}

// StaleAfter is Stale for the readings with the strings back on.
func (r Record) StaleAfter(now time.Time) bool { return r.stale(r.Current().After, now) }

func (r Record) stale(taken []Taken, now time.Time) bool {
	for course := range r.Instrument.Kind().Courses {
		oldest, any := time.Duration(0), false
		for _, t := range taken {
			if t.Read.String != course || t.set != r.set {
				continue
			}
			if t.Read.Replaces {
				oldest = 0
			}
			age := now.Sub(t.At)
			oldest, any = max(oldest, age, -age), true
		}
		if any && oldest > TooOld {
			return true
		}
	}
	return false
}

// take folds one fact into the state or refuses it.
func (r *Record) take(e Event) error {
	step := r.Step()
	refuse := func(k RefusalKind, course int, cause error) error {
		return &Refusal{Kind: k, Step: step, String: course, Cause: cause}
	}
	if r.Ended != Open {
		return refuse(RefusedEnded, -1, nil)
	}
	round := r.state.round()
	switch f := e.Fact.(type) {
	case Equipped:
		r.Kit = f.Kit
	case Described:
		if err := f.Instrument.Check(); err != nil {
			return refuse(RefusedProfile, -1, err)
		}
		if f.Instrument.Family != r.Instrument.Family || f.Instrument.ID != r.Instrument.ID {
			return refuse(RefusedProfile, -1, nil)
		}
		if f.Instrument.ReadFret() != r.Instrument.ReadFret() || f.Instrument.Held != r.Instrument.Held {
			if round.MaterialGone() || len(r.Rounds) > 1 {
				return refuse(RefusedMaterialGone, -1, nil)
			}
			r.set++ // readings at another place are not readings of this one
			round.Wanted = nil
		}
		r.Instrument = f.Instrument
		round.changed = e.Sequence
	case Strung:
		if step.order() >= TakeOut.order() && step.order() <= StringUp.order() {
			return refuse(RefusedNotYet, -1, nil)
		}
		r.Strings, r.Tuning = f.Strings, f.Tuning
		r.set++
		round.changed = e.Sequence
	case Answered:
		if !f.Question.allows(f.Answer) {
			return refuse(RefusedAnswer, -1, nil)
		}
		if f.Question.Step().order() > step.order() {
			return refuse(RefusedNotYet, -1, nil)
		}
		r.answers[f.Question] = given{f.Answer, round.Number, e.Sequence}
		if f.Question == AskStrung && f.Answer == StrungOther {
			r.set++
		}
	case Read:
		return r.takeReading(e, f, step)
	case Stood:
		if f.Side != 0 && f.Side != 1 {
			return refuse(RefusedCheck, -1, nil)
		}
		if err := f.check(); err != nil {
			return refuse(RefusedCheck, -1, err)
		}
		if len(r.Rounds) > 1 || step.order() > Sand.order() {
			return refuse(RefusedNotYet, -1, nil)
		}
		r.Stands[f.Side] = &f
		round.changed = e.Sequence
	case Chosen:
		return r.takeChoice(e, f, step)
	case Did:
		return r.takeDid(e, f, step)
	case Skipped:
		if f.Step != step {
			return refuse(RefusedNotYet, -1, nil)
		}
		if !f.Step.MaySkip() {
			return refuse(RefusedSkip, -1, nil)
		}
		if f.Step == MeasureAgain {
			round.Proofless = true
		}
		round.done[f.Step] = e.Sequence
	case Checked:
		if step != Sand {
			return refuse(RefusedNotYet, -1, nil)
		}
		if f.Strokes < 0 || f.Strokes > 1000 {
			return refuse(RefusedCheck, -1, &geometry.RangeError{Quantity: geometry.QuantityStrokes, Got: float64(f.Strokes), Min: 0, Max: 1000})
		}
		round.Work = append(round.Work, e)
		if _, err := r.Coach(); err != nil {
			round.Work = round.Work[:len(round.Work)-1]
			return refuse(RefusedCheck, -1, err)
		}
	case Looked:
		if step != Sand {
			return refuse(RefusedNotYet, -1, nil)
		}
		_, bass := f.Bass.geometry()
		_, middle := f.Middle.geometry()
		_, treble := f.Treble.geometry()
		if !bass || !middle || !treble || f.Strokes < 0 || f.Strokes > 1000 {
			return refuse(RefusedCheck, -1, nil)
		}
		round.Work = append(round.Work, e)
	case Judged:
		return r.takeJudgement(e, f, step)
	case Shimmed:
		if step != MeasureAgain {
			return refuse(RefusedNotYet, -1, nil)
		}
		for _, t := range []Typed{f.Bass, f.Treble} {
			if !t.Given() {
				continue
			}
			if l, err := t.Length(); err != nil || l > 5 {
				return refuse(RefusedCheck, -1, errors.Join(err, &geometry.RangeError{Quantity: geometry.QuantityFeeler, Got: float64(l), Min: 0, Max: 5}))
			}
		}
		round.Shims = append(round.Shims, f)
		round.After, round.Outcome = nil, ""
	case Noted:
		r.Notes = append(r.Notes, f.Text)
	case Saved:
		if step != Save {
			return refuse(RefusedNotYet, -1, nil)
		}
		r.Ended = AsSaved
	case PutAway:
		r.Ended = Away
	default:
		return refuse(RefusedUnknown, -1, nil)
	}
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
	_, strungUp := round.done[StringUp]
	taken := Taken{Read: f, At: e.At, Sequence: e.Sequence, set: r.set}
	switch {
	case step == BeforeYouStart, step == Save:
		return refuse(RefusedNotYet, nil)
	case strungUp:
		after := append(round.After[:len(round.After):len(round.After)], taken)
		if _, err := r.joint(after, f.String); err != nil {
			return refuse(RefusedContradicts, err)
		}
		round.After = after
		round.Outcome = ""
		return nil
	case step.order() > TakeOut.order() && !f.Replaces:
		return refuse(RefusedNotYet, nil)
	}
	before := append(round.Before[:len(round.Before):len(round.Before)], taken)
	if _, err := r.joint(before, f.String); err != nil {
		return refuse(RefusedContradicts, err)
	}
	round.Before = before
	round.changed = e.Sequence
	return nil
}

func (r *Record) takeChoice(e Event, f Chosen, step Step) error {
	round := r.state.round()
	if step.order() < Choose.order() || step.order() > Sand.order() {
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
		if floor := r.Instrument.Floor(course, f.Own); target < floor-sameLength {
			return refuse(RefusedTargetFloor, &geometry.RangeError{Quantity: geometry.QuantityTarget, Got: float64(target), Min: float64(floor),
				Max: float64(geometry.LargestGap)})
		}
		gap, err := r.Before(course)
		if err != nil {
			return refuse(RefusedReading, err)
		}
		if target > gap.High+sameLength {
			return refuse(RefusedTargetHigh, &geometry.RangeError{Quantity: geometry.QuantityTarget, Got: float64(target), Min: 0,
				Max: float64(gap.High)})
		}
	}
	round.Wanted = &f
	round.changed = e.Sequence
	return nil
}

// sameLength is the difference below which a wish and a limit are the same: typed inches and millimetres differ by less.
const sameLength geometry.Length = 0.015

func (r *Record) takeDid(e Event, f Did, step Step) error {
	refuse := func(k RefusalKind) error { return &Refusal{Kind: k, Step: step, String: -1} }
	round := r.state.round()
	if f.Step != step {
		return refuse(RefusedNotYet)
	}
	if q, asks := step.Asks(); asks && step != Measure {
		a, ok := r.Answer(q)
		if !ok {
			return refuse(RefusedUnanswered)
		}
		if q.Stops(a) {
			return refuse(RefusedStopped)
		}
	}
	switch step {
	case Measure:
		if !r.measured(round.Before) {
			return &Refusal{Kind: RefusedReading, Step: step, String: -1, Cause: geometry.ErrNoReading}
		}
	case MakePlan:
		if r.stale(round.Before, e.At) {
			return refuse(RefusedStale)
		}
		plan, err := r.Plan()
		if err != nil {
			return &Refusal{Kind: RefusedNothingToCut, Step: step, String: -1, Cause: err}
		}
		if plan.Outcome != PlanGo {
			return refuse(RefusedNothingToCut)
		}
		round.agreed = e.Sequence
	case BeforeYouStart, Choose, MeasureAgain, Save, Finished: // passed by their own facts
		return refuse(RefusedNotYet)
	}
	if step == Smooth {
		round.Smoothed = true
	}
	round.done[step] = e.Sequence
	return nil
}

func (r *Record) takeJudgement(e Event, f Judged, step Step) error {
	refuse := func(k RefusalKind) error { return &Refusal{Kind: k, Step: step, String: -1} }
	round := r.state.round()
	if step == MakePlan && f.Outcome == Keep { // nothing was cut this round: it stays as it was read
		round.Outcome = Keep
		return nil
	}
	if step != MeasureAgain {
		return refuse(RefusedNotYet)
	}
	if !r.measured(round.After) {
		return &Refusal{Kind: RefusedReading, Step: step, String: -1, Cause: geometry.ErrNoReading}
	}
	if r.stale(round.After, e.At) {
		return refuse(RefusedStale)
	}
	switch f.Outcome {
	case Done:
		if !r.Reached() {
			return refuse(RefusedUnproven)
		}
		round.Outcome = Done
	case Keep, TooMuch:
		round.Outcome = f.Outcome
	case Again:
		wanted := *round.Wanted
		r.Rounds = append(r.Rounds, Round{Number: round.Number + 1, Before: append([]Taken(nil), round.After...), Wanted: &wanted,
			done: map[Step]int{Measure: e.Sequence}, changed: e.Sequence})
	default:
		return refuse(RefusedAnswer)
	}
	return nil
}

// Check tells whether a profile can be worked with: its lengths readable and in range.
func (i Instrument) Check() error {
	if _, ok := geometry.FamilyOf(i.Family); !ok {
		return errors.New("unknown family")
	}
	for _, t := range []struct {
		typed    Typed
		quantity geometry.Quantity
		low, top geometry.Length
	}{
		{i.Scale, geometry.QuantityScale, geometry.ShortestScale, geometry.LongestScale},
		{i.Setback, geometry.QuantitySetback, 0, 20},
		{i.Saddle, geometry.QuantitySaddle, 20, 150},
		{i.Spread, geometry.QuantitySaddle, 10, 140},
	} {
		if !t.typed.Given() {
			continue
		}
		l, err := t.typed.Length()
		if err != nil {
			return err
		}
		if l < t.low || l > t.top {
			return &geometry.RangeError{Quantity: t.quantity, Got: float64(l), Min: float64(t.low), Max: float64(t.top)}
		}
	}
	saddle, spread := i.Saddle.LengthOr(i.Kind().SaddleLength), i.Spread.LengthOr(i.Kind().SaddleSpread)
	if saddle < spread {
		return &geometry.RangeError{Quantity: geometry.QuantitySaddle, Got: float64(saddle), Min: float64(spread), Max: 150}
	}
	_, err := i.Leverage(i.ReadFret(), i.Held)
	return err
}

func (s Stood) check() error {
	for _, t := range []struct {
		typed    Typed
		quantity geometry.Quantity
		low, top geometry.Length
	}{
		{s.Exposure, geometry.QuantityExposure, 0, 20},
		{s.Give, geometry.QuantityAccuracy, 0, 2},
		{s.Behind, geometry.QuantityDistance, 1, 60},
		{s.Depth, geometry.QuantityExposure, 0.5, 20},
	} {
		if !t.typed.Given() {
			continue
		}
		l, err := t.typed.Length()
		if err != nil {
			return err
		}
		if l < t.low || l > t.top {
			return &geometry.RangeError{Quantity: t.quantity, Got: float64(l), Min: float64(t.low), Max: float64(t.top)}
		}
	}
	return nil
}
