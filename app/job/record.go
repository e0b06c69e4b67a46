package job

import (
	"maps"
	"slices"
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
	Stands     [2]*Stood // how far the saddle stood when it was last measured, bass and treble end
	stoodIn    [2]int    // in which round that was
	slot       Slotted   // what was last said of the slot of a new saddle
	slotIn     int       // in which round that was; 0: nothing was
	Ended      Ending
	neck       []surveyed
	heard      []heard
	turns      []turned
	filed      []filed
	tried      trial           // the last trial turn
	alone      map[Feature]int // in which set a feature was left as it is
	air        Aired           // of the room, as last said
	airAt      time.Time
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

// Round is one time through the saddle's coming out and going back.
type Round struct {
	Number    int
	Before    []Taken // what the round's plan is made from
	After     []Taken // with the strings back on
	Wanted    *Chosen
	Work      []Event // Checked and Looked, in order
	Shims     []Shimmed
	Made      []geometry.BlankStep // parts of a new saddle that are done
	Turned    *Screwed
	Outcome   Outcome // Done or Keep once judged; TooMuch while that stands
	Proofless bool    // the measuring after it was skipped
	Smoothed  bool
	done      map[Step]int    // step → sequence of the fact that did or skipped it
	marks     []marked        // the stop lines that were followed, the newest last
	changed   int             // sequence of the newest fact that changes the plan
	agreed    int             // sequence of the fact that agreed to the plan
	smoothing geometry.Length // what the fine papers may take by that plan
}

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
	case e.Fact == nil, isBegan && len(Steps(began.Method)) == 0:
		return refuse(RefusedUnknown)
	case e.Sequence != len(r.Events)+1 || e.Job == "" || (len(r.Events) > 0 && e.Job != r.ID):
		return refuse(RefusedSequence)
	case len(r.Events) == 0 && !isBegan:
		return refuse(RefusedNotBegun)
	case len(r.Events) > 0 && isBegan:
		return refuse(RefusedBegunTwice)
	}
	next := Record{ID: e.Job, Events: append(slices.Clip(r.Events), e), state: r.state.clone()}
	if undone, ok := e.Fact.(Undone); ok {
		if kind := r.undoable(undone.Sequence); kind != "" {
			return refuse(kind)
		}
		next.state = standingState(next.Events)
	} else if isBegan {
		if err := began.Instrument.Check(); err != nil {
			return r, &Refusal{Kind: RefusedProfile, Step: BeforeYouStart, String: -1, Cause: err}
		}
		next.state = began.state(e.At)
	} else if err := next.take(e); err != nil {
		return r, err
	}
	next.state.Last = e.At
	return next, nil
}

func (b Began) state(at time.Time) state {
	return state{Method: b.Method, Instrument: b.Instrument, Kit: b.Kit, Began: at, Last: at, answers: map[Question]given{},
		alone: map[Feature]int{}, Rounds: []Round{{Number: 1, done: map[Step]int{}}}}
}

// effective leaves out the facts that were taken back, and the taking back; an undo of a fact that is not among the events stays.
func effective(events []Event) []Event {
	in, gone := map[int]bool{}, map[int]bool{}
	for _, e := range events {
		in[e.Sequence] = true
		if u, ok := e.Fact.(Undone); ok && in[u.Sequence] {
			gone[u.Sequence], gone[e.Sequence] = true, true
		}
	}
	return slices.DeleteFunc(slices.Clone(events), func(e Event) bool { return gone[e.Sequence] })
}

// standingState folds the facts that still stand. They were all taken once, in this order, and only the last is ever taken back, so none can
// be refused now.
func standingState(events []Event) state {
	r := Record{Events: events}
	for _, e := range effective(events) {
		if b, ok := e.Fact.(Began); ok {
			r.state = b.state(e.At)
			continue
		}
		if err := r.take(e); err != nil {
			panic("a fact that was taken is refused: " + err.Error()) // held by the tests of any order of facts
		}
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

// undoable says why the fact with that number cannot be taken back; empty: it can. Only the newest standing fact can, and never one that
// tells of material: strokes, smoothing, or sanding of which nothing else was recorded.
func (r Record) undoable(sequence int) RefusalKind {
	left := effective(r.Events)
	if len(left) < 2 || left[len(left)-1].Sequence != sequence || r.Ended == AsSaved {
		return RefusedNoUndo
	}
	round, refused := r.Current(), false
	switch f := left[len(left)-1].Fact.(type) {
	case Checked, Looked:
		refused = round.goneBy(round.Work[len(round.Work)-1:])
	case Filed:
		refused = true
	case Did:
		refused = f.Step == Smooth || f.Step == Sand && !round.goneBy(round.Work)
	}
	if refused {
		return RefusedMaterialGone
	}
	return ""
}

func (s state) clone() state {
	c := s
	c.answers = maps.Clone(s.answers)
	c.alone = maps.Clone(s.alone)
	c.neck, c.heard, c.turns, c.filed = slices.Clone(s.neck), slices.Clone(s.heard), slices.Clone(s.turns), slices.Clone(s.filed)
	c.Notes = slices.Clone(s.Notes)
	c.Rounds = slices.Clone(s.Rounds)
	for i := range c.Rounds {
		round := &c.Rounds[i]
		round.Before, round.After = slices.Clone(round.Before), slices.Clone(round.After)
		round.Work, round.Shims, round.Made = slices.Clone(round.Work), slices.Clone(round.Shims), slices.Clone(round.Made)
		round.marks, round.done = slices.Clone(round.marks), maps.Clone(round.done)
	}
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
	_, sanded := r.done[Sand]
	return sanded || r.goneBy(r.Work)
}

// apart tells whether material is gone and the strings are not back on: the readings of before are all there is to go by.
func (r Round) apart() bool {
	_, strungUp := r.done[StringUp]
	return r.MaterialGone() && !strungUp
}

// strungUp tells whether the work of the round is done and the strings are on again.
func (r Round) strungUp(m Method) bool {
	last := StringUp
	if !m.Has(StringUp) {
		last = ways[m].work
	}
	_, done := r.done[last]
	return done
}

// goneBy tells whether these checks and looks show that material is gone: strokes, a second height, or a line that is no longer whole where
// there was something to take.
func (r Round) goneBy(work []Event) bool {
	for _, e := range work {
		switch f := e.Fact.(type) {
		case Checked:
			first := e.Sequence == r.firstCheck()
			if f.Strokes > 0 || !first && !f.Replaces {
				return true
			}
		case Looked:
			line := r.markAt(e.Sequence).line
			if f.Strokes > 0 || f.Bass != Clear && line.Bass > 0 || f.Treble != Clear && line.Treble > 0 ||
				f.Middle != Clear && line.Bass > 0 && line.Treble > 0 {
				return true
			}
		}
	}
	return false
}

// firstCheck is the sequence number of the round's first caliper check, 0 when there is none.
func (r Round) firstCheck() int {
	for _, e := range r.Work {
		if _, ok := e.Fact.(Checked); ok {
			return e.Sequence
		}
	}
	return 0
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
	q, asks := r.Method.Asks(s)
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
	for _, s := range ways[r.Method].steps {
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
	case Diagnose, Choose, MakePlan, TakeOut, Turn:
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
	case FixRelief, FixNut:
		return did(s) && r.settled(s)
	case Measure:
		return gone || judged || (did(Measure) && r.settled(s) && r.measured(round.Before))
	case Diagnose:
		if gone || judged || did(ways[r.Method].work) {
			return true
		}
		_, out := r.NeckOut()
		return !out
	case Choose:
		return judged || (round.Wanted != nil && r.settled(s))
	case MakePlan:
		return gone || judged || did(ways[r.Method].work) || (did(MakePlan) && round.agreed > round.changed && r.settled(s))
	case Mark:
		return judged || (did(s) && r.settled(s) && (did(Sand) || !r.redraw(round)))
	case TakeOut, Lay, MakeSaddle, Turn, Sand, Smooth, Seat, StringUp:
		return judged || (did(s) && r.settled(s))
	case MeasureAgain:
		return judged || round.Proofless
	}
	return false // Save ends with Saved
}
