package job

import (
	"math"

	"gapwright/geometry"
)

// Deepening the slots of the nut, string by string: read, file, read again.

// filed is a nut slot that was deepened, towards what, and when.
type filed struct {
	Filed
	way      Feature // how its gap at fret 1 was read then
	sequence int
}

// Common practice, no source.
const (
	leastSlot  = geometry.Millimetre / 40 // less is not worth a file: two or three strokes take as much
	clearFirst = geometry.Millimetre / 10 // a reading at fret 1 that is wider leaves too much open to say that a slot is right
)

// SlotState is what the reading of a course says of its slot.
type SlotState string

// The states.
const (
	SlotUnread  SlotState = "unread"
	SlotAgain   SlotState = "again"   // filed since it was read
	SlotHigh    SlotState = "high"    // may be filed
	SlotThere   SlotState = "there"   // as wanted, or as near as a file gets
	SlotLow     SlotState = "low"     // under the least that is usual: no file
	SlotUnclear SlotState = "unclear" // the reading cannot tell
)

// SlotStates lists them.
func SlotStates() []SlotState {
	return []SlotState{SlotUnread, SlotAgain, SlotHigh, SlotThere, SlotLow, SlotUnclear}
}

// NutSlot is the nut slot of one course, worked out from the facts. Gaps are at fret 1, read in the way that Feature says; depths are of the slot.
type NutSlot struct {
	Course  int
	State   SlotState
	Feature Feature
	Read    geometry.Interval
	Usual   geometry.Interval
	Wanted  geometry.Length
	Whole   geometry.Interval // the whole depth to what is wanted
	Stop    geometry.Length   // no deeper this time
	HalfWay bool              // the first filing of this slot
	Leaves  geometry.Interval // the gap after it, with all that file and polish may still take and without
	At12    geometry.Interval // how much lower the open string comes at fret 12 by it
	Under   bool              // where the instrument was last set, the string could come under its floor by it
}

// filedAt is the sequence number of the fact that last deepened a course's slot, 0 when none did.
func (s *state) filedAt(course int) int {
	at := 0
	for _, f := range s.filed {
		if f.String == course {
			at = f.sequence
		}
	}
	return at
}

// UsualFirst is the usual range of the gap at fret 1. Pressed, it is carried there from the open one along the straight string to the usual gap at
// fret 12, with as little relief as is usual, under which it comes out largest: a guide, not a measurement.
func (i Instrument) UsualFirst(f Feature, course int) geometry.Interval {
	kind := i.Kind()
	open := i.betweenRanges(kind.FirstFret, course)
	if f != FirstPressed {
		return open
	}
	pressed := func(first geometry.Length) geometry.Length {
		gap, err := i.pressedFrom(kind.Relief.Low, geometry.Exactly(first), geometry.Exactly(i.betweenRanges(kind.Gap, course).Middle()))
		if err != nil {
			return first / 4
		}
		return max(geometry.LeastPressed, gap.Middle())
	}
	return geometry.Interval{Low: pressed(open.Low), High: pressed(open.High)}
}

func (i Instrument) betweenRanges(pair [2]geometry.Interval, course int) geometry.Interval {
	return geometry.Interval{
		Low:  i.between([2]geometry.Length{pair[0].Low, pair[1].Low}, course),
		High: i.between([2]geometry.Length{pair[0].High, pair[1].High}, course),
	}
}

// pressedFrom is the gap at fret 1 with the string pressed behind fret 3, from the open gaps at frets 1 and 12.
func (i Instrument) pressedFrom(relief geometry.Length, first, twelfth geometry.Interval) (geometry.Interval, error) {
	path, err := geometry.NewPath(i.Neck(), geometry.Exactly(relief), geometry.GapReading{Fret: 1, Gap: first}, geometry.GapReading{Fret: 12, Gap: twelfth})
	if err != nil {
		return geometry.Interval{}, err
	}
	return path.Clearance(1, 2)
}

// FirstWay is how the gap at fret 1 of a course is read: as it last was, or as the last one of any was; pressed at first, which has nothing of
// the saddle in it.
func (r Record) FirstWay(course int) Feature {
	way, own := FirstPressed, false
	for _, t := range r.neck {
		if mine := t.String == course; t.Feature.first() && (mine || !own) {
			way, own = t.Feature, mine
		}
	}
	return way
}

// NutSlot works out the slot of a course; nudge is by how many small steps the wanted gap is moved from what was wanted before, or is usual. What is
// wanted is never under the least that is usual.
func (r Record) NutSlot(course, nudge int) NutSlot {
	i, step := r.Instrument, r.Kit.fineStep()
	s := NutSlot{Course: course, Feature: r.FirstWay(course)}
	s.Usual = i.UsualFirst(s.Feature, course)
	s.Wanted = s.Usual.Middle()
	begun := r.filedAt(course) > 0
	for _, f := range r.filed {
		if f.String == course && f.way == s.Feature {
			s.Wanted = f.Wanted.LengthOr(s.Wanted)
		}
	}
	s.Wanted = max(s.Wanted.RoundUp(step)+geometry.Length(nudge)*r.Kit.slotStep(), s.Usual.Low.RoundUp(step))
	read, _, err := r.surveys(s.Feature, course, r.set)
	if err != nil {
		s.State = SlotUnread
		if begun {
			s.State = SlotAgain
		}
		return s
	}
	plan, err := r.slotPlan(s.Feature, course, read, s.Wanted)
	if err != nil {
		s.State = SlotUnclear
		return s
	}
	s.Read, s.Whole, s.Stop, s.HalfWay = read, plan.Depth, plan.Stop, !begun
	if s.HalfWay {
		s.Stop = plan.Next(0)
	}
	s.Stop = s.Stop.RoundDown(step)
	switch {
	case read.High < s.Usual.Low:
		s.State = SlotLow
	case !begun && nudge == 0 && geometry.Compare(read, s.Usual) == geometry.Usual: // nobody began it, and nothing is wrong with it
		s.State = SlotThere
	case s.Stop >= leastSlot:
		s.State = SlotHigh
	case read.Low > s.Usual.High, read.Width() > clearFirst && (read.Low < s.Usual.Low || plan.Depth.High >= leastSlot+geometry.NutFile):
		s.State = SlotUnclear
	default:
		s.State = SlotThere
	}
	if s.State != SlotHigh {
		s.Stop = 0
		return s
	}
	off := geometry.Interval{Low: s.Stop, High: s.Stop + geometry.NutFile}
	depth := i.slotDepth(s.Feature)
	s.Leaves = geometry.Interval{Low: read.Low - off.High/geometry.Length(depth), High: read.High - off.Low/geometry.Length(depth)}
	s.At12 = off.Times(i.nutShare(12, 0))
	if gap, err := r.asSet(course); err == nil {
		was, _ := r.Was(Place{s.Feature, course})
		off = was.Minus(s.Leaves).Times(depth * i.nutShare(i.ReadFret(), i.Held))
		s.Under = gap.Low-off.High < i.Floor(course, false)
	}
	return s
}

// slotPlan is how deep a slot may go. An open gap has something of the saddle in it: what the fret may be left with, as the string's path gives it
// from the last or the usual gap at fret 12, may stop it sooner.
func (r Record) slotPlan(way Feature, course int, read geometry.Interval, wanted geometry.Length) (geometry.NutPlan, error) {
	i := r.Instrument
	floor := i.UsualFirst(way, course).Low
	if way == FirstPressed {
		return geometry.PressedNut{Gap: read, Target: wanted, Floor: floor, Allow: geometry.NutFile}.Plan()
	}
	plan, err := geometry.OpenNut{Scale: i.ScaleLength(), Setback: i.Setback.LengthOr(0), Gap: read, Target: wanted, Floor: floor, Allow: geometry.NutFile}.Plan()
	if err != nil {
		return plan, err
	}
	twelfth := i.betweenRanges(i.Kind().Gap, course)
	if gap, err := r.asSet(course); err == nil && i.ReadFret() == 12 && i.Held == 0 {
		twelfth = gap
	}
	relief, err := r.Surveys(Relief, course)
	if err != nil {
		relief = i.Kind().Relief
	}
	pressed, err := i.pressedFrom(relief.High, read, twelfth)
	if err != nil {
		return plan, nil
	}
	other, err := geometry.PressedNut{Gap: pressed.AtLeast(0), Floor: geometry.LeastPressed, Allow: geometry.NutFile}.Plan()
	if err != nil || other.Stop >= plan.Stop {
		return plan, err
	}
	plan.Stop = other.Stop
	return plan, nil
}

// asSet is the gap of a course as the instrument was last set, as long as nothing of the neck was changed since. Errors: geometry.ErrNoReading.
func (r Record) asSet(course int) (geometry.Interval, error) {
	if set := r.Instrument.AsSet; set != nil && !set.Moved {
		return set.Interval(course)
	}
	return geometry.Interval{}, geometry.ErrNoReading
}

// slotDepth is how much deeper a slot goes than the gap at fret 1 falls, in that reading of it.
func (i Instrument) slotDepth(f Feature) float64 {
	if f == FirstPressed {
		return geometry.PressedFactor
	}
	depth, err := geometry.OpenNut{Scale: i.ScaleLength(), Setback: i.Setback.LengthOr(0)}.Factor()
	if err != nil {
		return 1
	}
	return depth
}

// nutShare is how much the gap at a fret falls for each millimetre by which a slot is deepened: half of it at fret 12, nothing of a string that is held.
func (i Instrument) nutShare(fret, held int) float64 {
	lever, err := i.Leverage(fret, 0)
	if err != nil || held > 0 {
		return 0
	}
	return 1 - lever
}

// fineStep is the finest step in which a wish is moved: a hundredth of a millimetre or a thousandth of an inch.
func (k Kit) fineStep() geometry.Length {
	if k.Unit == Inch {
		return geometry.Thousandth
	}
	return geometry.Millimetre / 100
}

// Nudge is by how many steps the wanted gap of a course may be moved when it is asked for that many: not under the least that is usual, and not past a
// millimetre over it.
func (r Record) Nudge(course, asked int) int {
	s, step := r.NutSlot(course, 0), r.Kit.slotStep()
	least := int(math.Ceil(float64((s.Usual.Low-s.Wanted)/step) - 0.01))
	return min(max(asked, least), least+int(geometry.Millimetre/step))
}

// slotStep is how finely the wanted gap of a slot is moved.
func (k Kit) slotStep() geometry.Length {
	if k.Unit == Inch {
		return geometry.Thousandth
	}
	return geometry.Millimetre / 50
}

// NutSlots are the slots of all courses, bass first.
func (r Record) NutSlots() []NutSlot {
	var all []NutSlot
	for course := range r.Instrument.Kind().Courses {
		all = append(all, r.NutSlot(course, 0))
	}
	return all
}

// SlotsRead tells whether some slot is read and none is filed and not read again.
func (r Record) SlotsRead() bool {
	read := false
	for _, s := range r.NutSlots() {
		if s.State == SlotAgain {
			return false
		}
		read = read || s.State != SlotUnread
	}
	return read
}

// NextSlot is the slot to go on with, the course but left out (−1: none): one to read again, then one to file, then one not read; ok is false when all
// are done.
func (r Record) NextSlot(but int) (next NutSlot, ok bool) {
	for _, state := range []SlotState{SlotAgain, SlotHigh, SlotUnread} {
		for _, s := range r.NutSlots() {
			if s.State == state && s.Course != but {
				return s, true
			}
		}
	}
	return next, false
}

// FileSlot is the fact that a slot was filed towards what is wanted of it.
func (r Record) FileSlot(s NutSlot) Filed {
	return Filed{String: s.Course, Wanted: Write(s.Wanted, r.Kit.Unit, r.Kit.fineStep())}
}

// SlotPile is a pile of leaves that lies on the board against the nut and stops a file.
type SlotPile struct {
	Need  geometry.Length // at least so thick
	Pile  geometry.Pile   // of what is to hand, where that makes it
	Known bool
}

// SlotPile is the pile at which the file stops no deeper than the slot may go now, where lifts is the thinnest pile that lifts the string there: the
// slot's floor is lower than that. Limits: common practice, no source. Errors: geometry's.
func (r Record) SlotPile(s NutSlot, lifts Typed) (p SlotPile, err error) {
	high, err := lifts.Length()
	if err == nil {
		err = limit{lifts, geometry.QuantityFeeler, geometry.Millimetre / 2, 5}.check()
	}
	if err == nil {
		p.Need = (high - s.Stop).RoundUp(r.Kit.fineStep())
		p.Pile, p.Known = r.Kit.Pile(p.Need)
	}
	return p, err
}

func (r *Record) takeFiling(e Event, f Filed, step Step) error {
	refuse := func(k RefusalKind, cause error) error {
		return &Refusal{Kind: k, Step: step, String: f.String, Cause: cause}
	}
	switch {
	case step != FixNut:
		return refuse(RefusedNotYet, nil)
	case f.String < 0 || f.String > r.Instrument.Last():
		return refuse(RefusedString, nil)
	}
	way := r.FirstWay(f.String)
	if f.Wanted.Given() {
		wanted, err := f.Wanted.Length()
		if err != nil {
			return refuse(RefusedTargetText, err)
		}
		out := &geometry.RangeError{Quantity: geometry.QuantityTarget, Got: float64(wanted), Min: float64(r.Instrument.UsualFirst(way, f.String).Low), Max: float64(geometry.LargestGap)}
		if out.Got < out.Min-float64(sameMark) {
			return refuse(RefusedTargetFloor, out)
		}
		if out.Got > out.Max {
			return refuse(RefusedTargetText, out)
		}
	}
	r.filed = append(r.filed, filed{f, way, e.Sequence})
	return nil
}
