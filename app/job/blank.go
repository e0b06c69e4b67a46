package job

import (
	"errors"
	"math"
	"slices"

	"gapwright/geometry"
)

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
	if s = r.slot; r.slotIn != r.state.round().Number {
		s.Bass, s.Treble = Typed{}, Typed{}
	}
	return s, r.slotIn > 0
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
	r.slot, r.slotIn = f, round.Number
	if step.order() <= TakeOut.order() { // with the saddle out it only tells more of what was agreed to
		round.changed = e.Sequence
	}
	return nil
}

// takeMade ticks a part off, or on again. Told twice it is told once.
func (r *Record) takeMade(f Made, step Step) error {
	switch {
	case step != MakeSaddle:
		return &Refusal{Kind: RefusedNotYet, Step: step, String: -1}
	case !slices.Contains(geometry.BlankSteps(), f.Part):
		return &Refusal{Kind: RefusedCheck, Step: step, String: -1}
	}
	round := r.state.round()
	round.Made = slices.DeleteFunc(round.Made, func(s geometry.BlankStep) bool { return s == f.Part })
	if !f.Open {
		round.Made = append(round.Made, f.Part)
	}
	return nil
}

// Check tells whether the numbers can be those of a slot and a saddle (limits: common practice, no source).
func (s Slotted) Check() error {
	for _, t := range []limit{
		{s.Length, geometry.QuantitySaddle, 20, 150},
		{s.Width, geometry.QuantitySlot, 1, 12},
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

// nutShare is how far apart the outer strings are at the nut as a share of what they are at the saddle (from memory: 0.65 to 0.74). It bears on a
// crown by a few hundredths.
const nutShare = 0.68

// Usual measures of a slot, where nobody took any; nothing that rests on them is told (common practice, no source).
const usualSlot geometry.Length = 3

// Making is the saddle that a round makes from a blank, as far as it is known.
type Making struct {
	geometry.NewSaddle
	Whole    bool // heights count from the underside; otherwise from the wood in front of the saddle
	Standing bool // how far it will stand over the wood is told
	Sized    bool // the slot's length was measured, and so the saddle's is told
	Fits     bool // the slot's width was measured
	First    bool // the gap at fret 1 was read under both outer strings: what is told of those between is the surer
	Shaped   bool // the board is known across: the strings between the outer ones and the ends are told
}

// wide is a measured length with what it may be off; ok is false for one that was not measured.
func (s Slotted) wide(t Typed) (i geometry.Interval, ok bool) {
	l, err := t.Length()
	give := s.Give.LengthOr(geometry.Millimetre / 2)
	return geometry.Interval{Low: l - give, High: l + give}, t.Given() && err == nil
}

// Making works out the new saddle of this round. Errors: geometry.ErrNoReading while the outer strings are not read or no height is wished for,
// *geometry.RangeError for what cannot be.
func (r Record) Making() (Making, error) {
	var m Making
	slot, _ := r.Slot()
	i, last := r.Instrument, r.Instrument.Last()
	b := geometry.Blank{Neck: i.Neck(), Relief: i.Kind().Relief, Smoothing: r.Kit.Smoothing(), Strings: make([]geometry.BlankString, last+1)}
	if relief, err := r.Surveys(Relief, 0); err == nil {
		b.Relief = relief
	}
	if b.Slot.Length, m.Sized = slot.wide(slot.Length); !m.Sized {
		ends := i.Ends()
		b.Slot.Length = geometry.Exactly(ends.Treble - ends.Bass)
	}
	if b.Slot.Width, m.Fits = slot.wide(slot.Width); !m.Fits {
		b.Slot.Width = geometry.Exactly(usualSlot)
	}
	if slot.Across == AcrossRadius {
		b.Camber.Nut = i.Radius.LengthOr(0)
	}
	m.Shaped = slot.Across == AcrossFlat || b.Camber.Nut > 0
	depth, deep := slot.wide(slot.Depth)
	old, whole := r.oldHeights(slot)
	if m.Whole = whole || deep; m.Whole && deep {
		b.Slot.Depth = depth
	}
	_, bass, _ := r.Path(0, false)
	_, treble, _ := r.Path(last, false)
	m.First = bass.First && treble.First
	var then [2]geometry.BlankString // the outer strings as they will be: what was not read lies between them
	for side, course := range []int{0, last} {
		now, wanted, err := r.blankString(course)
		if err != nil {
			return m, err
		}
		if !whole && deep && old[side].High > 0 {
			old[side] = old[side].Plus(depth)
		}
		now.Old = old[side]
		b.Strings[course], then[side] = now, wanted
		if stood := r.Stands[side]; stood != nil {
			b.Behind[side] = stood.Behind.LengthOr(0)
		}
	}
	for course := 1; course < last; course++ {
		now, _, err := r.blankString(course)
		if err != nil {
			now.Twelfth = i.between([2]geometry.Length{then[0].Twelfth, then[1].Twelfth}, course)
			now.First = geometry.Interval{Low: i.between([2]geometry.Length{then[0].First.Low, then[1].First.Low}, course),
				High: i.between([2]geometry.Length{then[0].First.High, then[1].First.High}, course)}
		}
		b.Strings[course] = now
	}
	var err error
	if m.NewSaddle, err = geometry.FromBlank(b); err != nil {
		return m, err
	}
	m.Standing = m.Known && (deep || !m.Whole)
	if m.Known && !m.Whole { // these heights are what stands
		for side, c := range []geometry.CrownPoint{m.Strings[0], m.Strings[last]} {
			m.Exposure[side] = c.Height
			_, found, err := geometry.WhatIsLeft(geometry.Side(side), geometry.SaddleEnd{Exposure: c.Height, Behind: b.Behind[side]}, 0, 0, geometry.Interval{})
			if err != nil {
				return m, err
			}
			m.Found = append(m.Found, found...)
		}
	}
	return m, nil
}

// oldHeights are those of the saddle that is in the slot now, bass and treble: in all where that was measured, otherwise over the wood; zero: not known.
func (r Record) oldHeights(slot Slotted) (old [2]geometry.Interval, whole bool) {
	bass, known := slot.wide(slot.Bass)
	treble, too := slot.wide(slot.Treble)
	if known && too {
		return [2]geometry.Interval{bass, treble}, true
	}
	for side := range old {
		if stands, ok := r.exposure(side); ok && r.stoodIn[side] == r.state.round().Number {
			old[side] = stands
		}
	}
	if old[0].High == 0 || old[1].High == 0 {
		old = [2]geometry.Interval{}
	}
	return old, false
}

// blankString is a course as it is over the old saddle, and as it will be over the new one. Where heights are read elsewhere than open at fret 12 they
// are carried there along the string's path, with the same change at the saddle. Errors: geometry.ErrNoReading, *geometry.RangeError.
func (r Record) blankString(course int) (now, then geometry.BlankString, err error) {
	i := r.Instrument
	now.Saddle = i.Offset(course)
	now.Nut = now.Saddle * nutShare
	then = now
	gap, err := r.Before(course)
	if err != nil {
		return now, then, err
	}
	target, err := r.Target(course)
	if err != nil {
		return now, then, err
	}
	path, _, err := r.Path(course, false)
	if err != nil {
		return now, then, err
	}
	wanted, err := path.WithGap(i.ReadFret(), i.Held, geometry.Exactly(target))
	if err != nil {
		return now, then, err
	}
	for _, at := range []struct {
		path geometry.Path
		s    *geometry.BlankString
	}{{path, &now}, {wanted, &then}} {
		if at.s.First, err = at.path.Clearance(1, 0); err != nil {
			return now, then, err
		}
		at.s.First = at.s.First.AtLeast(0)
	}
	now.Gap, now.Twelfth, now.Scale = gap, target, path.Neck().Scale
	if i.ReadFret() != 12 || i.Held != 0 {
		neck := path.Neck()
		here, err := geometry.Leverage(neck.Scale, neck.Setback, i.ReadFret(), i.Held)
		lever, errLever := geometry.Leverage(neck.Scale, neck.Setback, 12, 0)
		open, errPath := wanted.Clearance(12, 0)
		if err := errors.Join(err, errLever, errPath); err != nil {
			return now, then, err
		}
		now.Twelfth = open.Middle()
		now.Gap = gap.Shifted(-target).Times(lever / here).Shifted(now.Twelfth).AtLeast(0)
	}
	then.Twelfth = now.Twelfth
	return now, then, nil
}

// blankReady tells whether the new saddle's height is known at both ends, and leaves enough standing.
func (r Record) blankReady() (bool, error) {
	m, err := r.Making()
	return err == nil && m.Ready(), err
}

// Ready tells whether it can be made: its height is known at both ends, and enough of it will stand.
func (m Making) Ready() bool { return m.Known && !m.Level && !m.TooLow() }

// TooLow tells whether too little of it would stand: a matter of the neck's angle.
func (m Making) TooLow() bool {
	return slices.ContainsFunc(m.Found, func(f geometry.Finding) bool { return f.Severity == geometry.Refuse })
}

// OldAsked tells whether it was asked how high the saddle is that is in the slot now.
func (r Record) OldAsked() bool {
	slot, _ := r.Slot()
	return slot.Bass.Given() || r.Stands[0] != nil && r.stoodIn[0] == r.state.round().Number
}

// Front is how high its lower end is, and how much higher its tallest place.
func (m Making) Front() (low, rise geometry.Length) {
	low = min(m.Ends[0].Stop, m.Ends[1].Stop)
	return low, m.Tallest - low
}

// Depth is how deep the new saddle sits in its slot, in the middle of what was measured; 0: not known.
func (r Record) Depth(m Making) geometry.Length {
	slot, _ := r.Slot()
	if !m.Whole {
		return 0
	}
	return slot.Depth.LengthOr(0)
}

// What the outline of a card can be moved through: over its short side, in quarters of the page's pixels. It begins at what is common on phones.
const (
	LeastCard = 600
	UsualCard = 1200
	MostCard  = 1800
)

// CardScreen is how large things come out on the screen on which a card's short side takes so many quarters of the page's pixels.
func CardScreen(quarters int) geometry.Screen {
	s, _ := geometry.ScreenFromCard(0, float64(quarters)/4)
	return s
}

// WithCard is the kit with that outline on this device's screen, which has so many pixels of its own to one of the page's: those stay when the page is
// enlarged.
func (k Kit) WithCard(quarters int, ratio float64) Kit {
	k.Card = int(math.Round(float64(quarters) * 25 * ratio))
	return k
}

// Quarters is the outline that was kept, as the page's pixels are now; LeastCard to MostCard. ok is false before a card was fitted.
func (k Kit) Quarters(ratio float64) (quarters int, ok bool) {
	if k.Card <= 0 || !(ratio > 0) {
		return UsualCard, false
	}
	return min(max(LeastCard, int(math.Round(float64(k.Card)/25/ratio))), MostCard), true
}

// Across is how many millimetres lie across so many of the page's pixels.
func Across(s geometry.Screen, pixels float64) float64 {
	if s.PerMM <= 0 {
		return 0
	}
	return pixels / s.PerMM
}
