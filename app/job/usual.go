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
