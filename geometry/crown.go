package geometry

import "math"

// Crown tells whether the top of the saddle, as it stands, follows the board.
type Crown struct {
	// Follows is true when one straight cut could bring every string to its target for some truth inside the readings: then nothing
	// shows that the crown is out. Otherwise Out is the least by which some string must miss, at the saddle.
	Follows bool
	Out     Length
	// Bass and Treble are the strings, by index, on whose line the most others lie: the rest is measured from it.
	Bass, Treble int
	// High is how much each string's seat stands above that line, at the saddle; negative: below it. Of those two, and of a string
	// beside one of them, nothing.
	High []Interval
}

// CrownOf compares the seats of three to twelve strings before anything is cut. What each string asks for at the saddle, (gap −
// target)/λ, lies on one straight line when the crown follows the board, because a straight cut of the underside then serves them all;
// the targets must run evenly from bass to treble.
//
// A straight cut exists for some truth inside the readings unless three strings forbid it: the middle one asks for more, or for less,
// than anything between the outer two can give (Helly's theorem on lines); half of the worst of these is the least miss. The line that
// the rest is measured from goes through the two strings for which the sum of the others' distances in the middle of the readings is
// least, of equals the two furthest apart: so one seat that is out is named by itself, and not shared out among its neighbours. Each
// range is then exact, for the three readings in it.
//
// Errors: ErrFewStrings for fewer than three places across at least a millimetre apart, ErrTooMany, *RangeError.
func CrownOf(strings []MeasuredString) (Crown, error) {
	if len(strings) > mostStrings {
		return Crown{}, ErrTooMany
	}
	asks := make([]Interval, len(strings))
	places := 0
	for i, s := range strings {
		err := reading(QuantityGap, s.Gap, 0, LargestGap)
		if err == nil {
			err = within(QuantityTarget, float64(s.Target), 0, float64(LargestGap))
		}
		if err == nil {
			err = within(QuantityLeverage, s.Leverage, 0.01, 1)
		}
		if err == nil {
			err = within(QuantityOffset, float64(s.Offset), -100, 100)
		}
		if err != nil {
			return Crown{}, err
		}
		asks[i] = s.Gap.Shifted(-s.Target).Times(1 / s.Leverage)
		fresh := true
		for _, o := range strings[:i] {
			fresh = fresh && apart(s, o) >= leastApart
		}
		if fresh {
			places++
		}
	}
	if places < 3 {
		return Crown{}, ErrFewStrings
	}
	c := Crown{Out: leastMiss(strings, asks), High: make([]Interval, len(strings))}
	c.Follows = c.Out <= hair
	if c.Follows {
		c.Out = 0
	}
	best, widest := math.Inf(1), Length(0)
	for b := range strings {
		for t := range strings {
			wide := strings[t].Offset - strings[b].Offset
			if wide < leastApart {
				continue
			}
			distance := 0.0
			for i := range strings {
				distance += math.Abs(float64(above(strings, asks, b, t, i).Middle()))
			}
			if distance < best-float64(hair) || distance < best+float64(hair) && wide > widest {
				best, widest = distance, wide
				c.Bass, c.Treble = b, t
			}
		}
	}
	for i := range strings {
		c.High[i] = above(strings, asks, c.Bass, c.Treble, i)
	}
	return c, nil
}

// leastApart is how far apart two strings must be to make a line.
const leastApart Length = 1

func apart(a, b MeasuredString) Length { return max(a.Offset-b.Offset, b.Offset-a.Offset) }

// above is how much more string i asks for than the line through b and t gives it.
func above(strings []MeasuredString, asks []Interval, b, t, i int) Interval {
	if i == b || i == t {
		return Interval{}
	}
	return asks[i].Minus(extrapolate(strings[b].Offset, strings[t].Offset, strings[i].Offset, asks[b], asks[t]))
}

// leastMiss is the smallest t for which some straight line passes every asked interval by no more than t; zero or less: through all,
// with that to spare.
func leastMiss(strings []MeasuredString, asks []Interval) Length {
	miss := Length(math.Inf(-1))
	for i, m := range strings {
		for j, l := range strings {
			if apart(l, m) <= hair && j <= i { // at one place, itself among them
				miss = max(miss, (asks[i].Low-asks[j].High)/2, (asks[j].Low-asks[i].High)/2)
			}
			if !(l.Offset < m.Offset-hair) {
				continue
			}
			for k, r := range strings {
				if !(r.Offset > m.Offset+hair) {
					continue
				}
				between := extrapolate(l.Offset, r.Offset, m.Offset, asks[j], asks[k])
				miss = max(miss, (asks[i].Low-between.High)/2, (between.Low-asks[i].High)/2)
			}
		}
	}
	return miss
}

// Seat is where one string runs across the board, and how high it is wanted.
type Seat struct {
	Nut, Saddle Length   // places across at the nut and at the saddle, bass side negative, up to 45 mm
	First       Interval // its open gap at fret 1, 0 to 15 mm
	Twelfth     Length   // its wanted open gap at fret 12, 0 to 15 mm
}

// SeatHeights are the heights that a saddle's seats must have for the wanted gaps, over the plane of the chord from fret 1 to the body
// joint along the board's crown: each on the string's straight line over the real board, hS = [target + z12 − hN(1 − λ)]/λ. Only their
// differences and their place over the board mean something: they are no caliper heights.
//
// A new crown cut to the board's radius is not quite right: strings that fan out over a cylinder need their outer seats higher by (u12
// − uN)²/R than that radius says. Errors: *RangeError, for up to twelve strings ErrTooMany. Source: plane geometry.
func SeatHeights(neck Neck, relief Interval, camber Camber, seats []Seat) ([]Interval, error) {
	if len(seats) > mostStrings {
		return nil, ErrTooMany
	}
	heights := make([]Interval, len(seats))
	for i, s := range seats {
		p, err := NewPath(neck, relief, GapReading{Fret: 1, Gap: s.First}, GapReading{Fret: 12, Gap: Exactly(s.Twelfth)})
		if err != nil {
			return nil, err
		}
		var drops [2]float64 // of the board under the string at frets 1 and 12
		for k, fret := range []int{1, 12} {
			x := p.board.x[fret]
			u := s.Nut + (s.Saddle-s.Nut)*Length(x/p.board.saddle)
			drop, err := camber.Drop(Length(x), u)
			if err == nil {
				err = within(QuantityOffset, float64(s.Saddle), -float64(mostOffset), float64(mostOffset))
			}
			if err != nil {
				return nil, err
			}
			drops[k] = float64(drop)
		}
		// the board there is lower than the crown by its drops, and the line with it
		slope := (drops[1] - drops[0]) / (p.board.x[12] - p.board.x[1])
		heights[i] = p.Saddle().Shifted(Length(-drops[0] - slope*(p.board.saddle-p.board.x[1])))
	}
	return heights, nil
}
