package job

import (
	"errors"
	"slices"

	"gapwright/geometry"
)

// Setting heights by what turns: screws at each string, or two posts under all of them. What is turned can be turned back, so a round need not stop
// half-way; but no string is turned so low that it could be under its floor.

// Hardware is what turns at the bridge, as far as somebody said. It stays with the instrument.
type Hardware struct {
	Thread geometry.ThreadID `json:"thread,omitzero"` // by its name; otherwise by what it was seen to do:
	Turned int               `json:"turned,omitzero"` // so many eighths of a turn, either way,
	Moved  Typed             `json:"moved,omitzero"`  // moved what it carries by so much,
	Give   Typed             `json:"give,omitzero"`   // give or take that
	Screws int               `json:"screws,omitzero"` // at each string, 1 or 2; 0: not said
	Apart  Typed             `json:"apart,omitzero"`  // between the two posts; nothing: about what is usual
	Behind Typed             `json:"behind,omitzero"` // from the posts back to where the strings sit; nothing: they sit over the posts
	Rest   Typed             `json:"rest,omitzero"`   // from the posts back to where the plate lies on the body; nothing: it does not
}

// beyond is how far outside the outer strings each of two posts usually stands (from memory).
const beyond geometry.Length = 11

// Pitch is how far a whole turn moves what the thread carries. Errors: geometry.ErrNoReading while nothing is known of it, and those of
// geometry.MeasuredPitch.
func (h Hardware) Pitch() (geometry.Interval, error) {
	if t, ok := geometry.ThreadOf(h.Thread); ok {
		return geometry.Exactly(t.Pitch), nil
	}
	if h.Turned == 0 || !h.Moved.Given() {
		return geometry.Interval{}, geometry.ErrNoReading
	}
	moved, err := h.Moved.Length()
	if err != nil {
		return geometry.Interval{}, err
	}
	return geometry.MeasuredPitch(geometry.Eighths(h.Turned), moved, h.Give.LengthOr(geometry.Millimetre/4))
}

// Check tells whether it can be such a thing. Errors: geometry's.
func (h Hardware) Check() error {
	for _, t := range []limit{
		{h.Apart, geometry.QuantityPosts, 10, 200},
		{h.Behind, geometry.QuantityPosts, 0, 60},
		{h.Rest, geometry.QuantityPosts, 10, 150},
	} {
		if err := t.check(); err != nil {
			return err
		}
	}
	if h.Rest.Given() {
		if _, err := (geometry.Posts{Saddle: h.Behind.LengthOr(0), Rest: h.Rest.LengthOr(0)}).Lever(); err != nil {
			return err
		}
	}
	if _, err := h.Pitch(); err != geometry.ErrNoReading {
		return err
	}
	return nil
}

// Apart is how far apart two posts stand, as given, or what is usual.
func (i Instrument) Apart() geometry.Length {
	return i.Turns.Apart.LengthOr(i.Spread.LengthOr(i.Kind().SaddleSpread) + 2*beyond)
}

// posts are the two posts under the bridge.
func (i Instrument) posts(pitch geometry.Interval) geometry.Posts {
	apart := i.Apart()
	return geometry.Posts{Bass: -apart / 2, Treble: apart / 2, Pitch: pitch, Saddle: i.Turns.Behind.LengthOr(0), Rest: i.Turns.Rest.LengthOr(0)}
}

// Fitting are the threads that such a bridge may have, thinnest first: thin screws at each string, thicker posts under all of them (common practice,
// no source). After a trial turn, those that fit what it showed.
func (r Record) Fitting() []geometry.Thread {
	seen, err := r.Tried()
	pitch, errPitch := seen.Pitch()
	return slices.DeleteFunc(geometry.Threads(), func(t geometry.Thread) bool {
		if err == nil && errPitch == nil && !pitch.Contains(t.Pitch) {
			return true
		}
		if r.Method == ByPosts {
			return t.Major < 2.8
		}
		return t.Major > 3.6
	})
}

// trial is a turn that was made to find out what a turn does: what was read of the string before it.
type trial struct {
	eighths int
	course  int
	gap     geometry.Interval
	round   int
	set     int
}

// MostTrial is how many whole turns a trial may take (common practice, no source).
const MostTrial = 5

// Trial is the fact of a trial turn of that many eighths upwards, of the bass-most string's screws or of both posts.
func (r Record) Trial(eighths int) Screwed {
	turned := make([]int, r.turnable())
	turned[0] = eighths
	if r.Method == ByPosts {
		turned[1] = eighths
	}
	return Screwed{turned}
}

// turnable is how many things there are to turn.
func (r Record) turnable() int {
	if r.Method == ByPosts {
		return 2
	}
	return r.Instrument.Kind().Courses
}

// takeTrial keeps what was read before a trial turn, which holds no longer for what was turned.
func (r *Record) takeTrial(e Event, f Screwed) bool {
	course := slices.IndexFunc(f.Eighths, func(n int) bool { return n != 0 })
	alone := course >= 0 && !slices.ContainsFunc(f.Eighths[course+1:], func(n int) bool { return n != 0 })
	switch {
	case r.Method == ByPosts:
		if f.Eighths[0] == 0 || f.Eighths[0] != f.Eighths[1] {
			return false
		}
		course = 0
	case !alone || course != 0 && course != r.Instrument.Last():
		return false
	}
	round := r.state.round()
	gap, err := r.joint(round.Before, course)
	if err != nil {
		return false
	}
	r.tried = trial{f.Eighths[course], course, gap, round.Number, r.set}
	round.Before = slices.DeleteFunc(round.Before, func(t Taken) bool { return r.Method == ByPosts || t.Read.String == course })
	round.changed = e.Sequence
	return true
}

// Tried is what a trial turn showed, by the readings before and after it. Errors: geometry.ErrNoReading where none was made in this round or nothing was read since,
// geometry.ErrNoPitch when the string may not have moved at all, *geometry.RangeError for what no screw does.
func (r Record) Tried() (Hardware, error) {
	if r.tried.eighths == 0 || r.tried.set != r.set || r.tried.round != r.state.round().Number {
		return Hardware{}, geometry.ErrNoReading
	}
	now, err := r.Before(r.tried.course)
	if err != nil {
		return Hardware{}, err
	}
	lever, err := r.Instrument.Lever(r.tried.course)
	if err != nil {
		return Hardware{}, err
	}
	if r.Method == ByPosts {
		plate, err := r.Instrument.posts(geometry.Interval{}).Lever()
		if err != nil {
			return Hardware{}, err
		}
		lever *= plate
	}
	moved := now.Minus(r.tried.gap).Times(1 / lever)
	if moved.Middle() < 0 { // it went the other way
		moved = moved.Times(-1)
	}
	fine := geometry.Millimetre / 1000
	h := Hardware{Turned: r.tried.eighths, Moved: Write(moved.Middle(), MM, fine), Give: Write(moved.Width()/2, MM, fine)}
	if moved.Low <= 0 {
		return h, geometry.ErrNoPitch
	}
	_, err = h.Pitch()
	return h, err
}

// TurnOutcome says whether there is something to turn.
type TurnOutcome string

// The outcomes of planning.
const (
	TurnGo     TurnOutcome = "go"
	TurnThere  TurnOutcome = "there"   // as near as an eighth of a turn gets
	TurnThread TurnOutcome = "thread"  // what a turn does is not known yet
	TurnTooFar TurnOutcome = "too-far" // by more than such screws are turned
)

// TurnOutcomes lists every outcome, so that tests can ask for a sentence for each.
func TurnOutcomes() []TurnOutcome { return []TurnOutcome{TurnGo, TurnThere, TurnThread, TurnTooFar} }

// TurnedString is what turning does to one course.
type TurnedString struct {
	Course int
	Read   bool              // otherwise it is taken as standing between the outer two
	Gap    geometry.Interval // now
	Target geometry.Length
	After  geometry.Interval // then
	Left   geometry.Length   // over the target, in the middle of what is known
}

// TurnPlan is what a round is to turn, worked out from the facts.
type TurnPlan struct {
	Outcome TurnOutcome
	Turns   []int          // in eighths, up above zero: of each course, or of the bass and the treble post
	Order   []int          // in which they are best turned
	Strings []TurnedString // bass first; with posts those that were read
	Raises  bool           // something is turned up, against the pull of the strings
	Follows bool           // some course was not read
}

// TurnPlan works out the round. A string whose reading shows its wanted height is left alone. With screws, one between the outer two that was not read is
// taken as standing over its wish by what they stand over theirs, evenly between: so it keeps its place on the board's curve. Errors:
// geometry.ErrNoReading while something is missing, *geometry.RangeError.
func (r Record) TurnPlan() (TurnPlan, error) {
	round, last := r.state.round(), r.Instrument.Last()
	var plan TurnPlan
	var strings []geometry.MeasuredString
	var over [2]geometry.Interval // how much the outer two stand over what they are turned to
	course := func(course int) (geometry.MeasuredString, TurnedString, error) {
		t := TurnedString{Course: course}
		var err error
		if t.Target, err = r.Target(course); err != nil {
			return geometry.MeasuredString{}, t, err
		}
		s := geometry.MeasuredString{Offset: r.Instrument.Offset(course), Target: t.Target, Floor: r.Instrument.Floor(course, round.Wanted.Own)}
		if s.Leverage, err = r.Instrument.Lever(course); err != nil {
			return s, t, err
		}
		s.Gap, err = r.Before(course)
		if t.Read = err == nil; t.Read && s.Gap.Contains(t.Target) && geometry.Judge(s.Gap, t.Target, s.Leverage) == geometry.Reached {
			s.Target = s.Gap.Middle()
		}
		return s, t, err
	}
	for side := range over {
		s, _, err := course(side * last)
		if err != nil {
			return plan, err
		}
		over[side] = s.Gap.Shifted(-s.Target)
	}
	for c := range last + 1 {
		s, t, err := course(c)
		if err != nil && r.Method == ByPosts { // two posts are one straight line, whatever stands between
			continue
		}
		if err != nil {
			plan.Follows = true
			s.Gap = geometry.Interval{Low: s.Target + r.Instrument.between([2]geometry.Length{over[0].Low, over[1].Low}, c),
				High: s.Target + r.Instrument.between([2]geometry.Length{over[0].High, over[1].High}, c)}.AtLeast(0)
		}
		t.Gap = s.Gap
		strings, plan.Strings = append(strings, s), append(plan.Strings, t)
	}
	pitch, err := r.Instrument.Turns.Pitch()
	if err != nil {
		plan.Outcome = TurnThread
		return plan, nil
	}
	if r.Method == ByPosts {
		turns, err := r.Instrument.posts(pitch).Turn(strings)
		var far *geometry.RangeError
		if errors.As(err, &far) && far.Quantity == geometry.QuantityTurns {
			plan.Outcome = TurnTooFar
			return plan, nil
		}
		if err != nil {
			return plan, err
		}
		plan.Turns, plan.Order = []int{int(turns.Bass), int(turns.Treble)}, []int{0, 1}
		for n := range plan.Strings {
			plan.Strings[n].After = turns.After[n]
		}
	} else {
		turns, order, err := geometry.Screws(strings, pitch)
		if err != nil {
			return plan, err
		}
		plan.Order = order
		for n, turn := range turns {
			plan.Turns, plan.Strings[n].After = append(plan.Turns, int(turn.Turns)), turn.After
		}
	}
	plan.Outcome = TurnThere
	for _, n := range plan.Turns {
		plan.Raises = plan.Raises || n > 0
		switch {
		case n > mostTurn || n < -mostTurn:
			plan.Outcome = TurnTooFar
		case n != 0 && plan.Outcome == TurnThere:
			plan.Outcome = TurnGo
		}
	}
	for n := range plan.Strings {
		s := &plan.Strings[n]
		s.Left = s.After.Middle() - s.Target
	}
	return plan, nil
}

func (r Record) turnsReady() (bool, error) {
	plan, err := r.TurnPlan()
	return err == nil && plan.Outcome == TurnGo, err
}

// handGive is how far off an eighth of a turn a hand may be (common practice, no source).
const handGive = 0.5

// turnsLowered is what was really turned, give or take half an eighth at each thing that was.
func (r Record) turnsLowered(course int) (geometry.Interval, bool) {
	turned := r.Current().Turned
	pitch, err := r.Instrument.Turns.Pitch()
	if turned == nil || err != nil {
		return geometry.Interval{}, false
	}
	down := make([]geometry.Interval, len(turned.Eighths))
	for n, eighths := range turned.Eighths {
		if eighths != 0 {
			low, high := pitch.Times((-float64(eighths)-handGive)/float64(geometry.PerTurn)), pitch.Times((-float64(eighths)+handGive)/float64(geometry.PerTurn))
			down[n] = low.Hull(high)
		}
	}
	if r.Method == ByScrews {
		return down[course], true
	}
	posts := r.Instrument.posts(pitch)
	lever, err := posts.Lever()
	part := float64((r.Instrument.Offset(course) - posts.Bass) / (posts.Treble - posts.Bass))
	return down[0].Times(1 - part).Plus(down[1].Times(part)).Times(lever), err == nil
}
