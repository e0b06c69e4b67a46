package job

import "gapwright/geometry"

// A new saddle from a blank: what is known of its slot and of the saddle before it, and how high it is made.

// Rounded is what the board is like across, as it stands in records.
type Rounded string

// The answers. Nothing: not asked yet.
const (
	AcrossFlat    Rounded = "flat"
	AcrossRadius  Rounded = "radius" // the profile's
	AcrossUnknown Rounded = "unknown"
)

// AcrossAll lists the answers.
func AcrossAll() []Rounded { return []Rounded{AcrossRadius, AcrossFlat, AcrossUnknown} }

// Slot is what was last said of the slot of a new saddle; the old saddle's heights only where they are those of the saddle that is in it now. ok is
// false before anything was said.
func (r Record) Slot() (s Slotted, ok bool) {
	if r.slot == nil {
		return s, false
	}
	s = *r.slot
	if r.slotIn != r.state.round().Number {
		s.Bass, s.Treble = Typed{}, Typed{}
	}
	return s, true
}

func (r *Record) takeSlot(e Event, f Slotted, step Step) error {
	round := r.state.round()
	switch {
	case r.Method != NewSaddle || step.order() < Measure.order() || step.order() > MakeSaddle.order():
		return &Refusal{Kind: RefusedNotYet, Step: step, String: -1}
	case f.Across != "" && f.Across != AcrossFlat && f.Across != AcrossRadius && f.Across != AcrossUnknown:
		return &Refusal{Kind: RefusedCheck, Step: step, String: -1}
	}
	if err := f.Check(); err != nil {
		return &Refusal{Kind: RefusedCheck, Step: step, String: -1, Cause: err}
	}
	r.slot, r.slotIn = &f, round.Number
	if step.order() <= TakeOut.order() { // with the saddle out it only tells more of what was agreed to
		round.changed = e.Sequence
	}
	return nil
}

// Check tells whether the numbers can be those of a slot and a saddle (limits: common practice, no source).
func (s Slotted) Check() error {
	for _, t := range []limit{
		{s.Length, geometry.QuantitySaddle, 20, 150},
		{s.Width, geometry.QuantityLength, 1, 10},
		{s.Depth, geometry.QuantityDepth, 0.5, 20},
		{s.Bass, geometry.QuantityHeight, 2, 40},
		{s.Treble, geometry.QuantityHeight, 2, 40},
		{s.Give, geometry.QuantityAccuracy, 0, 2},
	} {
		if err := t.check(); err != nil {
			return err
		}
	}
	return nil
}
