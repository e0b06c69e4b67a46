package geometry

import (
	"math"
	"slices"
)

// QuantitySlot is the width of a saddle's slot.
const QuantitySlot Quantity = "width of the slot"

// BlankQuantities lists the quantities of new saddles and of screens, so that tests can ask for a name for each.
func BlankQuantities() []Quantity { return []Quantity{QuantitySlot, QuantityPixels} }

// How a new saddle fits its slot (common practice, no source).
const (
	PushFit    Length = 0.05 // thinner than the slot by more than this it leans
	EndFit     Length = 0.1  // shorter than the slot by at least this it does not jam
	EndFitMost Length = 0.4  // by more, it slides along
)

// Slot is the slot that a saddle stands in, as measured.
type Slot struct {
	Middle Length   // the place across of its middle, −20 to 20 mm; zero: in the middle of the board
	Length Interval // 20 to 150 mm
	Width  Interval // 1 to 12 mm
	Depth  Interval // under the top in front of the saddle, up to 20 mm; zero: not known, then no exposure is told
}

func (s Slot) check() error {
	err := within(QuantityOffset, float64(s.Middle), -20, 20)
	if err == nil {
		err = reading(QuantitySaddle, s.Length, 20, 150)
	}
	if err == nil {
		err = reading(QuantitySlot, s.Width, 1, 12)
	}
	if err == nil {
		err = reading(QuantityDepth, s.Depth, 0, 20)
	}
	return err
}

// BlankString is one string, or one pair, that a new saddle is made for.
type BlankString struct {
	Seat         // First is its gap as it is now if Gap says at what height; otherwise as it will be
	Scale Length // its own, where it differs from string to string; zero: the neck's
	// What is known of the old saddle: the open gap at fret 12 over it, 0 to 15 mm, and its height under this string from the underside,
	// 0.5 to 40 mm – by caliper, or how far it stands over the top and how deep it sat: Interval.Plus. Zero: not measured.
	Gap, Old Interval
}

// Blank is everything that a new saddle is made from.
type Blank struct {
	Neck      Neck
	Relief    Interval
	Camber    Camber
	Strings   []BlankString // two to twelve from the bass side to the treble side, a millimetre apart at the saddle or more
	Slot      Slot
	Behind    [2]Length // from the saddle to where the outer strings leave, bass and treble, 1 to 60 mm; zero: not measured
	Smoothing Length    // left on for the fine paper, 0 to 1 mm: see SmoothingFor
}

// CrownPoint is one place on a new saddle's top.
type CrownPoint struct {
	At     Length   // across, bass side negative
	Height Interval // over the flat underside: what the wanted gap asks for
	Stop   Length   // no lower than this before the gaps have been read over it: Height.High and the smoothing
	Above  Length   // over the lowest string's seat, in the middle of the readings
	Fan    Length   // how much of that the board's own radius does not say, because the string fans out over it
	// Own is what the old saddle's height and gap at this very string say, where it was measured besides the two that the crown is hung on.
	// Differs: Own and Height share nothing, so a reading is wrong, or the board is not round as was said.
	Own     Interval
	Differs bool
}

// NewSaddle is a saddle to be made.
type NewSaddle struct {
	Length    Interval     // to make it: shorter than the slot by EndFit to EndFitMost
	Thickness Interval     // from where the fit in the slot is first tried down to where it would be loose
	Radius    Length       // of the board at the saddle, which the top follows between and beyond the strings; zero: flat
	Known     bool         // an old saddle tells the heights; otherwise they are over the lowest string's seat, and exposure is not told
	Level     bool         // only one string of the old saddle was measured: the underside is taken to lie level with the board
	Strings   []CrownPoint // as they were given
	Ends      [2]CrownPoint
	Tallest   Length // the blank must be as tall at least; as long and thick as the slot, of course
	Exposure  [2]Interval
	Found     []Finding // about the exposure at the outer strings
}

// BlankStep is one part of making a saddle from a blank. It names it for good: it may stand in saved records.
type BlankStep string

// The parts.
const (
	BlankThickness BlankStep = "thickness" // until it can be pushed in by hand
	BlankLength    BlankStep = "length"
	BlankUnderside BlankStep = "underside" // flat and square, before any height is measured from it
	BlankCrown     BlankStep = "crown"     // the top to the heights of the strings over one another
	BlankHeight    BlankStep = "height"    // the whole of it, to the stop, by the underside
	BlankEnds      BlankStep = "ends"      // round, and the edges broken where strings lean
	BlankPolish    BlankStep = "polish"    // the top only: polish on the sides would loosen the fit
)

// BlankSteps is the order of work (common practice, no source): each part is measured from one that is finished before it.
func BlankSteps() []BlankStep {
	return []BlankStep{BlankThickness, BlankLength, BlankUnderside, BlankCrown, BlankHeight, BlankEnds, BlankPolish}
}

// FromBlank works out a new saddle. At a string whose old height and gap were measured the new height is old + (target − gap)/λ. Through
// the outermost two of these goes the line that the underside makes with the board; all other strings stand over it as SeatHeights has
// them. With one such string the underside is taken as level with the board, with none only the shape is told.
//
// Beyond the outer strings the top goes on by the board's radius at the saddle, tilted as it is between them; so does it from string to
// string. Every range is what the readings allow; those of the ends may be wider. Errors: ErrTooFewStrings, ErrTooMany, ErrOutsideSaddle,
// ErrNoReading for an old height without its gap, *RangeError. Source: straight lines and circles.
func FromBlank(b Blank) (NewSaddle, error) {
	radius, err := b.check()
	if err != nil {
		return NewSaddle{}, err
	}
	s := NewSaddle{
		Length:    Interval{b.Slot.Length.Low - EndFitMost, b.Slot.Length.Low - EndFit},
		Thickness: Interval{b.Slot.Width.Low - PushFit, b.Slot.Width.High},
		Radius:    radius, Strings: make([]CrownPoint, len(b.Strings)),
	}
	own := make([]Interval, len(b.Strings))
	first, last := -1, -1 // of the strings whose old height is known
	for i, t := range b.Strings {
		s.Strings[i].At = t.Saddle
		if s.Strings[i].Fan, err = b.fan(t); err != nil {
			return NewSaddle{}, err
		}
		if t.Old == (Interval{}) {
			continue
		}
		lever, err := b.lever(t)
		if err != nil {
			return NewSaddle{}, err
		}
		own[i] = t.Old.Plus(Exactly(t.Twelfth).Minus(t.Gap).Times(1 / lever))
		if last = i; first < 0 {
			first = i
		}
	}
	s.Known, s.Level = first >= 0, first == last && first >= 0

	for k, relief := range []Length{b.Relief.Low, b.Relief.High} { // one relief under all strings: it must not be taken at different ends
		seats := make([]Interval, len(b.Strings))
		for i, t := range b.Strings {
			if seats[i], err = b.seat(t, relief); err != nil {
				return NewSaddle{}, err
			}
		}
		at := func(i int) Length { return b.Strings[i].Saddle }
		for i := range seats {
			height := seats[i]
			switch {
			case i == first || i == last:
				height = own[i]
			case s.Level:
				height = height.Minus(seats[first]).Plus(own[first])
			case s.Known:
				height = height.Minus(extrapolate(at(first), at(last), at(i), seats[first], seats[last])).
					Plus(extrapolate(at(first), at(last), at(i), own[first], own[last]))
			}
			if k > 0 {
				height = height.Hull(s.Strings[i].Height)
			}
			s.Strings[i].Height = height
		}
	}
	lowest := s.Strings[0].Height.Middle()
	for _, c := range s.Strings {
		lowest = min(lowest, c.Height.Middle())
	}
	for i := range s.Strings {
		c := &s.Strings[i]
		c.Above = c.Height.Middle() - lowest
		if !s.Known {
			c.Height = c.Height.Shifted(-lowest)
			continue
		}
		if err := reading(QuantityHeight, c.Height, lowestSaddle, 40); err != nil {
			return NewSaddle{}, err
		}
		c.Stop = c.Height.High + b.Smoothing
		if i != first && i != last && own[i] != (Interval{}) {
			c.Own = own[i]
			_, meet := own[i].Meet(c.Height)
			c.Differs = !meet
		}
	}
	if !s.Known {
		lowest = 0
	}
	b.ends(&s, lowest)
	if err := b.expose(&s); err != nil {
		return NewSaddle{}, err
	}
	return s, nil
}

// check refuses what cannot be; the radius is the board's at the saddle.
func (b Blank) check() (radius Length, err error) {
	if len(b.Strings) > mostStrings {
		return 0, ErrTooMany
	}
	if len(b.Strings) < 2 {
		return 0, ErrTooFewStrings
	}
	if err = b.Slot.check(); err != nil {
		return 0, err
	}
	if err = within(QuantityAllow, float64(b.Smoothing), 0, 1); err != nil {
		return 0, err
	}
	if err = reading(QuantityRelief, b.Relief, LeastRelief, MostRelief); err != nil {
		return 0, err
	}
	if err = b.Neck.check(); err != nil {
		return 0, err
	}
	half := b.Slot.Length.Middle() / 2
	for i, t := range b.Strings {
		if err = within(QuantityOffset, float64(t.Saddle), -float64(mostOffset), float64(mostOffset)); err != nil {
			return 0, err
		}
		if i > 0 && !(t.Saddle >= b.Strings[i-1].Saddle+leastApart-hair) {
			return 0, &RangeError{QuantityOffset, float64(t.Saddle), float64(b.Strings[i-1].Saddle + leastApart), float64(mostOffset)}
		}
		if u := t.Saddle - b.Slot.Middle; u < -half-hair || u > half+hair {
			return 0, ErrOutsideSaddle
		}
		if err = within(QuantityTarget, float64(t.Twelfth), 0, float64(LargestGap)); err != nil {
			return 0, err
		}
		if t.Gap != (Interval{}) {
			err = reading(QuantityGap, t.Gap, 0, LargestGap)
		}
		if t.Old != (Interval{}) && err == nil {
			if t.Gap == (Interval{}) {
				return 0, ErrNoReading
			}
			err = reading(QuantityHeight, t.Old, lowestSaddle, 40)
		}
		if err != nil {
			return 0, err
		}
	}
	radius, err = b.Camber.RadiusAt(b.Neck.Scale + b.Neck.Setback)
	if far := max(half+b.Slot.Middle, half-b.Slot.Middle); err == nil && radius != 0 { // such a circle must reach the saddle's ends
		err = within(QuantityRadius, float64(radius), float64(far+1), math.Inf(1))
	}
	return radius, err
}

// neck is what a string lies over.
func (b Blank) neck(t BlankString) Neck {
	n := b.Neck
	if t.Scale != 0 {
		n.Scale = t.Scale
	}
	return n
}

func (b Blank) lever(t BlankString) (float64, error) {
	n := b.neck(t)
	return Leverage(n.Scale, n.Setback, 12, 0)
}

// seat is where a string's seat must be for its wanted gap, over the chord of the board as SeatHeights has it. The nut stays where the
// first-fret gap that was read with the present gap puts it.
func (b Blank) seat(t BlankString, relief Length) (Interval, error) {
	gaps := []Length{t.Twelfth}
	if t.Gap != (Interval{}) {
		gaps = []Length{t.Gap.Low, t.Gap.High}
	}
	lever, err := b.lever(t)
	if err != nil {
		return Interval{}, err
	}
	var all Interval
	for i, gap := range gaps {
		now := t.Seat
		now.Twelfth = gap
		h, err := SeatHeights(b.neck(t), Exactly(relief), b.Camber, []Seat{now})
		if err != nil {
			return Interval{}, err
		}
		wanted := h[0].Shifted((t.Twelfth - gap) / Length(lever))
		if i > 0 {
			wanted = wanted.Hull(all)
		}
		all = wanted
	}
	return all, nil
}

// fan is how much higher a seat must be than the board's arc at the saddle says: what is left of the arc there when the drops at frets 1
// and 12, where the gaps are told, are carried on in a straight line. Over a cylinder 0.94·(u12 − uN)²/R; from the nut itself it would be
// (u12 − uN)²/R. Source: plane geometry.
func (b Blank) fan(t BlankString) (Length, error) {
	n := b.neck(t)
	saddle := n.Scale + n.Setback
	var at, drop [3]Length
	for i, fret := range []int{1, 12, 0} {
		x, err := FretDistance(n.Scale, fret)
		if err != nil {
			return 0, err
		}
		if fret == 0 {
			x = saddle
		}
		at[i] = x
		if drop[i], err = b.Camber.Drop(x, t.Nut+(t.Saddle-t.Nut)*(x/saddle)); err != nil {
			return 0, err
		}
	}
	return drop[2] - drop[1] - (drop[1]-drop[0])*(at[2]-at[1])/(at[1]-at[0]), nil
}

// ends carries the top on to the saddle's ends, and finds its tallest place.
func (b Blank) ends(s *NewSaddle, lowest Length) {
	bass, treble := s.Strings[0], s.Strings[len(s.Strings)-1]
	flat := func(c CrownPoint) Interval { return c.Height.Shifted(sagitta(s.Radius, c.At)) }
	half := b.Slot.Length.Middle() / 2
	s.Ends[0].At, s.Ends[1].At = b.Slot.Middle-half, b.Slot.Middle+half
	for i := range s.Ends {
		e := &s.Ends[i]
		e.Height = extrapolate(bass.At, treble.At, e.At, flat(bass), flat(treble)).Shifted(-sagitta(s.Radius, e.At))
		e.Above = e.Height.Middle() - lowest
		if s.Known {
			e.Stop = s.StopAt(e.At)
		}
	}
	s.Tallest = max(s.Ends[0].Stop, s.Ends[1].Stop)
	for i, c := range s.Strings {
		s.Tallest = max(s.Tallest, c.Stop, s.StopAt((c.At+s.Strings[max(0, i-1)].At)/2))
	}
}

// StopAt is how high the top stands at a place across, between the saddle's ends, when it is at its stop; zero when the heights are not
// known. Between two strings and beyond the outer ones it follows the board's radius.
func (s NewSaddle) StopAt(u Length) Length {
	if !s.Known {
		return 0
	}
	return s.follow(u, func(c CrownPoint) Length { return c.Stop })
}

// AboveAt is how high the top stands at a place across over the lowest string's seat; below it near the ends as a rule.
func (s NewSaddle) AboveAt(u Length) Length {
	return s.follow(u, func(c CrownPoint) Length { return c.Above })
}

func (s NewSaddle) follow(u Length, height func(CrownPoint) Length) Length {
	n := len(s.Strings)
	if n < 2 {
		return 0
	}
	u = max(s.Ends[0].At, min(u, s.Ends[1].At))
	l, r := s.Strings[0], s.Strings[n-1]
	if u > l.At && u < r.At {
		i := slices.IndexFunc(s.Strings, func(c CrownPoint) bool { return c.At >= u })
		l, r = s.Strings[i-1], s.Strings[i]
	}
	t := (u - l.At) / (r.At - l.At)
	return (height(l)+sagitta(s.Radius, l.At))*(1-t) + (height(r)+sagitta(s.Radius, r.At))*t - sagitta(s.Radius, u)
}

// expose tells how far the saddle will stand over the top under the outer strings, and what to say of it.
func (b Blank) expose(s *NewSaddle) error {
	if !s.Known || b.Slot.Depth == (Interval{}) {
		return nil
	}
	for side, c := range []CrownPoint{s.Strings[0], s.Strings[len(s.Strings)-1]} {
		s.Exposure[side] = c.Height.Minus(b.Slot.Depth).AtLeast(0)
		_, found, err := WhatIsLeft(Side(side), SaddleEnd{Exposure: s.Exposure[side], Behind: b.Behind[side], Depth: b.Slot.Depth.Middle()}, 0, 0, Interval{})
		if err != nil {
			return err
		}
		s.Found = append(s.Found, found...)
	}
	return nil
}
