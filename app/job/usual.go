package job

import "gapwright/geometry"

// Wont is what is usual of one instrument, where that is not what is usual for its family: at fret 12, open. Whatever is not given is the
// family's. Pairs are bass and treble.
type Wont struct {
	Gap      [2]Span  `json:"gap,omitzero"`
	Relief   Span     `json:"relief,omitzero"`
	First    [2]Span  `json:"first,omitzero"` // over fret 1, open
	Floor    [2]Typed `json:"floor,omitzero"`
	Beginner [2]Typed `json:"beginner,omitzero"` // the floor for whoever does not know their touch
}

// Span is from a length to another, as typed.
type Span struct {
	Low  Typed `json:"low,omitzero"`
	High Typed `json:"high,omitzero"`
}

// over gives a range with what was given of it put in its place.
func (s Span) over(usual geometry.Interval) geometry.Interval {
	return geometry.Interval{Low: s.Low.LengthOr(usual.Low), High: s.High.LengthOr(usual.High)}
}

// over gives a family with what is usual of one instrument put over what is usual for all of them.
func (w *Wont) over(f geometry.Family) geometry.Family {
	if w == nil {
		return f
	}
	f.Relief = w.Relief.over(f.Relief)
	for side := range 2 {
		f.Gap[side], f.FirstFret[side] = w.Gap[side].over(f.Gap[side]), w.First[side].over(f.FirstFret[side])
		f.Floor[side], f.BeginnersFloor[side] = w.Floor[side].LengthOr(f.Floor[side]), w.Beginner[side].LengthOr(f.BeginnersFloor[side])
	}
	return f
}

// WontPart is what can be usual of an instrument.
type WontPart uint8

// The parts.
const (
	WontGap WontPart = iota
	WontRelief
	WontFirst
	WontFloor
	WontBeginner
)

// WontParts lists them.
func WontParts() []WontPart {
	return []WontPart{WontGap, WontRelief, WontFirst, WontFloor, WontBeginner}
}

// WontField is one number of a part: of the bass or the treble side, the low or the high end. Relief has one side, floors have one end.
type WontField struct {
	Part WontPart
	Side int
	High bool
}

// Fields lists a part's numbers.
func (p WontPart) Fields() []WontField {
	switch p {
	case WontRelief:
		return []WontField{{Part: p}, {Part: p, High: true}}
	case WontFloor, WontBeginner:
		return []WontField{{Part: p}, {Part: p, Side: 1}}
	}
	return []WontField{{Part: p}, {Part: p, High: true}, {Part: p, Side: 1}, {Part: p, Side: 1, High: true}}
}

// at is where a number is kept.
func (w *Wont) at(f WontField) *Typed {
	span := &w.Relief
	switch f.Part {
	case WontFloor:
		return &w.Floor[f.Side]
	case WontBeginner:
		return &w.Beginner[f.Side]
	case WontGap:
		span = &w.Gap[f.Side]
	case WontFirst:
		span = &w.First[f.Side]
	}
	if f.High {
		return &span.High
	}
	return &span.Low
}

// of is that number of a family.
func (f WontField) of(kind geometry.Family) geometry.Length {
	span := kind.Relief
	switch f.Part {
	case WontFloor:
		return kind.Floor[f.Side]
	case WontBeginner:
		return kind.BeginnersFloor[f.Side]
	case WontGap:
		span = kind.Gap[f.Side]
	case WontFirst:
		span = kind.FirstFret[f.Side]
	}
	if f.High {
		return span.High
	}
	return span.Low
}

// limit is what a number may be (common practice, no source).
func (f WontField) limit(t Typed) limit {
	switch f.Part {
	case WontRelief:
		return limit{t, geometry.QuantityRelief, 0, 1}
	case WontFirst:
		return limit{t, geometry.QuantityGap, 0.1, 1.5}
	case WontGap:
		return limit{t, geometry.QuantityGap, 0.8, 8}
	}
	return limit{t, geometry.QuantityTarget, 0.5, 8}
}

// Wonted is what was said to be usual of this instrument; nothing where that is the family's.
func (i Instrument) Wonted(f WontField) Typed {
	if i.Wont == nil {
		return Typed{}
	}
	return *i.Wont.at(f)
}

// FamilyWont is what is usual for the family, whatever was said of this instrument.
func (i Instrument) FamilyWont(f WontField) geometry.Length {
	i.Wont = nil
	return f.of(i.Kind())
}

// WithWont is the instrument with another number usual of it; nothing: the family's.
func (i Instrument) WithWont(f WontField, t Typed) Instrument {
	var w Wont
	if i.Wont != nil {
		w = *i.Wont
	}
	*w.at(f) = t
	if i.Wont = &w; w == (Wont{}) {
		i.Wont = nil
	}
	return i
}

// Under tells whether a floor lies lower than that of the family.
func (i Instrument) Under(f WontField) bool {
	return (f.Part == WontFloor || f.Part == WontBeginner) && f.of(i.Kind()) < i.FamilyWont(f)-sameLength
}

// WontError says which number of what is usual cannot be: by itself, for a Cause of geometry's, or beside another number, which it must not pass.
type WontError struct {
	Field WontField
	Cause error
	Other WontField       // otherwise: the number that is passed,
	Than  geometry.Length // what it is,
	Over  bool            // and whether it is passed upwards
}

func (e *WontError) Error() string { return "what is usual does not fit together" }

// Unwrap gives the cause.
func (e *WontError) Unwrap() error { return e.Cause }

// checkWont tells whether what is usual can be: every number readable and in range, low ends no higher than high ones, a floor no higher than the beginner's
// and than where the usual gap begins, the beginner's no higher than where that ends. Errors: *WontError, for a number that was given.
func (i Instrument) checkWont() error {
	if i.Wont == nil {
		return nil
	}
	for _, p := range WontParts() {
		for _, f := range p.Fields() {
			if err := f.limit(i.Wonted(f)).check(); err != nil {
				return &WontError{Field: f, Cause: err}
			}
		}
	}
	kind := i.Kind()
	for side := range 2 {
		floor, beginner := WontField{Part: WontFloor, Side: side}, WontField{Part: WontBeginner, Side: side}
		low, high := WontField{Part: WontGap, Side: side}, WontField{Part: WontGap, Side: side, High: true}
		for _, pair := range [][2]WontField{
			{floor, beginner},
			{floor, low},
			{beginner, high}, // it may lie within what is usual: then the low end of that is for those who know their touch
			{low, high},
			{{Part: WontRelief}, {Part: WontRelief, High: true}},
			{{Part: WontFirst, Side: side}, {Part: WontFirst, Side: side, High: true}},
		} {
			lower, upper := pair[0].of(kind), pair[1].of(kind)
			switch {
			case lower <= upper+sameLength:
			case i.Wonted(pair[0]).Given():
				return &WontError{Field: pair[0], Other: pair[1], Than: upper, Over: true}
			default:
				return &WontError{Field: pair[1], Other: pair[0], Than: lower}
			}
		}
	}
	return nil
}
