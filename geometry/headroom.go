package geometry

import "math"

// PluckReach tells how far an ideal string of the given length goes, as a share of the displacement it was plucked with: at the
// distance v from the saddle, to the side it was pulled to and to the other side, when it is let go from a triangle with its corner at
// the distance at from the saddle. 0 < at < length, 0 ≤ v ≤ length; outside these it goes nowhere. The first is the triangle itself,
// the second its mirror about the string's middle: two kinks run apart, and the far one comes back mirrored and on the other side.
//
// Source: the travelling waves of a string without stiffness or losses; Fletcher and Rossing, The Physics of Musical Instruments, 2.8
// (from memory); the tests hold it against the waves and against the Fourier series.
func PluckReach(length, at, v Length) (towards, away float64) {
	if !(at > 0 && at < length && v >= 0 && v <= length) || !length.Finite() {
		return 0, 0
	}
	triangle := func(v Length) float64 {
		if v <= at {
			return float64(v / at)
		}
		return float64((length - v) / (length - at))
	}
	return triangle(v), triangle(length - v)
}

// Headroom is how far a string can be plucked at right angles to the board, either way, with nothing touched on the way.
type Headroom struct {
	Stop  int      // the fret it is held at; 0: open
	Free  Interval // the displacement where it is plucked; zero or less: the string may lie on a fret already
	First int      // the fret that it would touch first, going by the low end
}

// Headroom is the room of the string held at a fret (0: open) and plucked at a distance from the saddle of more than 0 and less than
// the length that sounds. It is the least, over the frets beyond, of clearance ÷ the larger of the two PluckReach. Errors: *RangeError;
// ErrNoPath for the zero path.
//
// It is a guarantee for the ideal string and no prediction: a real string is stiff and loses height on its way, is plucked partly along
// the board, and gets away with more. Left out as well: a finger that pushes the string sideways or behind the fret, frets that stand
// higher or lower than the curve, the string's stretch while it is pulled, sympathetic strings, and everything that buzzes without
// touching a fret. So the model is only compared with itself: what was clean and what buzzed, in its own units (see TouchOf).
//
// The low end is exact. The high end is not passed, but may not be reached: no single reading makes every fret's clearance the highest.
func (p Path) Headroom(stop int, at Length) (Headroom, error) {
	if err := p.stop(stop); err != nil {
		return Headroom{}, err
	}
	if err := p.pluck(stop, at); err != nil {
		return Headroom{}, err
	}
	return p.headroom(stop, float64(at)), nil
}

// pluck refuses a place that is not on the string that sounds.
func (p Path) pluck(stop int, at Length) error {
	length := p.board.saddle - p.board.x[stop]
	if !(at > 0 && float64(at) < length) {
		return &RangeError{QuantityPluckAt, float64(at), 0, length}
	}
	return nil
}

func (p Path) headroom(stop int, at float64) Headroom {
	room := Headroom{Stop: stop, Free: Interval{Length(math.Inf(1)), Length(math.Inf(1))}}
	for fret := stop + 1; fret <= p.board.Frets; fret++ {
		free := p.clearance(fret, stop).Times(1 / p.board.reach(fret, stop, at))
		if free.Low < room.Free.Low {
			room.First = fret
		}
		room.Free = Interval{min(room.Free.Low, free.Low), min(room.Free.High, free.High)}
	}
	return room
}

// reach is the larger of the two PluckReach over a fret: never zero between the stop and the saddle.
func (b *board) reach(fret, stop int, at float64) float64 {
	length := Length(b.saddle - b.x[stop])
	towards, away := PluckReach(length, Length(at), Length(b.saddle-b.x[fret]))
	return max(towards, away)
}

// Headrooms are the rooms of the open string and of every stop whose sounding length is longer than the distance at which it is
// plucked, the open string first. Errors as for Headroom of the open string.
func (p Path) Headrooms(at Length) ([]Headroom, error) {
	if err := p.stop(0); err != nil {
		return nil, err
	}
	if err := p.pluck(0, at); err != nil {
		return nil, err
	}
	rooms := make([]Headroom, 0, p.board.Frets)
	for stop := 0; stop < p.board.Frets && p.pluck(stop, at) == nil; stop++ {
		rooms = append(rooms, p.headroom(stop, float64(at)))
	}
	return rooms, nil
}

// BuzzTest is what a person heard of one string at one stop, plucked as they play: the room it had by the model, and whether it buzzed.
type BuzzTest struct {
	Room   Interval // Headroom's Free, −50 to 50 mm
	Buzzed bool
}

// Touch is how much room a person's playing needs, in the units of Headroom: at least Needs.Low, at most Needs.High. Low is 0 as long
// as nothing buzzed, High MostTouch as long as nothing was clean.
type Touch struct {
	Needs         Interval
	Buzzed, Clean bool // whether any test did
}

// MostTouch is more room than any playing needs (common practice, no source).
const MostTouch Length = 10

// TouchOf brackets a person's touch: it needs no more room than the least that was clean, and no less than the most that buzzed – each
// at the end of its range that is sure. Tests of one string, or of strings alike, with the same pluck belong together. Errors: ErrTouch
// when something buzzed with more room than something else was clean with: not the height then, but a fret, the touch or another cause;
// ErrNoReading for no tests; *RangeError.
func TouchOf(tests []BuzzTest) (Touch, error) {
	if len(tests) == 0 {
		return Touch{}, ErrNoReading
	}
	touch := Touch{Needs: Interval{0, MostTouch}}
	for _, t := range tests {
		if err := reading(QuantityTouch, t.Room, -50, 50); err != nil {
			return Touch{}, err
		}
		if t.Buzzed {
			touch.Buzzed = true
			touch.Needs.Low = max(touch.Needs.Low, t.Room.Low)
		} else {
			touch.Clean = true
			touch.Needs.High = min(touch.Needs.High, max(0, t.Room.High))
		}
	}
	if touch.Needs.Low > touch.Needs.High+hair {
		return Touch{}, ErrTouch
	}
	touch.Needs.Low = min(touch.Needs.Low, touch.Needs.High)
	return touch, nil
}

// Playing is what is asked of a string: the room that the touch needs, 0 to MostTouch, where it is plucked, and the stops it is played
// at.
type Playing struct {
	Touch    Interval
	At       Length // from the saddle
	From, To int    // the lowest and the highest stop, 0: open
}

// Suits is the lowest gap that suits a touch: what is under Low will not do by the model, what is over High will, between is not known.
// Stop and First are where it is decided, going by the high end. Beyond tells that the high end passes LargestGap: no height at the
// saddle is sure to do.
type Suits struct {
	Gap         Interval
	Stop, First int
	Beyond      bool
}

// LowestFor is the lowest gap at a fret, held so (0: open; not at a higher fret), for which every stop that is played has the room that
// the touch needs, when only the saddle is moved. An open string near the nut hardly depends on the saddle: a nut that is too low asks
// for a gap beyond all measure, and shows itself by that. Stops whose sounding length is not longer than the distance of the pluck are
// left out; if all are, a *RangeError. Other errors: *RangeError, ErrNoPath.
//
// For each stop and fret the gap asked for is a straight-line function of the readings and the touch, so each range is exact; of their
// largest the high end is exact, and the low end is not passed but may not be reached.
func (p Path) LowestFor(play Playing, fret, held int) (Suits, error) {
	if err := p.condition(fret, held); err != nil {
		return Suits{}, err
	}
	if err := within(QuantityHeld, float64(held), 0, float64(fret-1)); err != nil {
		return Suits{}, err
	}
	if err := reading(QuantityTouch, play.Touch, 0, MostTouch); err != nil {
		return Suits{}, err
	}
	if err := within(QuantityHeld, float64(play.From), 0, float64(p.board.Frets-1)); err != nil {
		return Suits{}, err
	}
	if err := within(QuantityHeld, float64(play.To), float64(play.From), float64(p.board.Frets-1)); err != nil {
		return Suits{}, err
	}
	if err := p.pluck(play.From, play.At); err != nil {
		return Suits{}, err
	}
	gap := p.board.over(fret, held)
	suits := Suits{Gap: Interval{Length(math.Inf(-1)), Length(math.Inf(-1))}}
	for stop := play.From; stop <= play.To && p.pluck(stop, play.At) == nil; stop++ {
		for next := stop + 1; next <= p.board.Frets; next++ {
			// the saddle from clearance = touch · reach, put into the gap
			need, reach := p.board.over(next, stop), p.board.reach(next, stop, float64(play.At))
			k := gap.saddle / need.saddle
			g := p.combine(gap.nut-k*need.nut, 0, gap.relief-k*need.relief, gap.plain-k*need.plain, form{}).Plus(play.Touch.Times(k * reach))
			if g.High > suits.Gap.High {
				suits.Stop, suits.First = stop, next
			}
			suits.Gap = Interval{max(suits.Gap.Low, g.Low), max(suits.Gap.High, g.High)}
		}
	}
	suits.Gap = suits.Gap.AtLeast(0)
	if suits.Beyond = suits.Gap.High > LargestGap; suits.Beyond {
		suits.Gap = Interval{min(suits.Gap.Low, LargestGap), LargestGap}
	}
	return suits, nil
}
