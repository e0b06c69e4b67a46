package geometry

import "math"

// Posts are two posts or wheels that carry a bridge, with what they do to the saddle on it.
type Posts struct {
	Bass, Treble Length   // their places across, −100 to 100 mm, 10 mm or more apart
	Pitch        Interval // of both threads, 0.2 to 3 mm
	// Saddle is how far behind the posts, away from the nut, the strings' seats stand, −40 to 60 mm; below zero: in front of them.
	Saddle Length
	// Rest is how far behind the posts the plate lies on the top or is held at its height, 10 to 150 mm; zero: nowhere. A bridge that stands on
	// its posts alone has none, and a plate that floats between strings and springs comes back to its angle when the strings are at pitch again.
	Rest Length
}

// Lever is how far the saddle moves when both posts move by one: 1 with no rest, otherwise (rest − saddle)/rest, since the plate turns about
// its rest. Errors: *RangeError, also for a lever beyond 0.2 to 3. Source: similar triangles.
func (p Posts) Lever() (float64, error) {
	if err := within(QuantityPosts, float64(p.Saddle), -40, 60); err != nil || p.Rest == 0 {
		return 1, err
	}
	if err := within(QuantityPosts, float64(p.Rest), 10, 150); err != nil {
		return 1, err
	}
	lever := float64((p.Rest - p.Saddle) / p.Rest)
	return lever, within(QuantityLever, lever, 0.2, 3)
}

// PostTurns is what to turn at two posts, and what follows.
type PostTurns struct {
	AskBass, AskTreble Interval // the wanted changes at the posts, above zero up
	Bass, Treble       Eighths  // what to turn, above zero up
	After              []Interval
	Over               []Interval // the gaps then, less their targets; the middle is what rounding leaves
}

// postWindow is how many eighths either way are tried at each post: what two roundings can do to each other, with room to spare.
const postWindow Eighths = 10

// Turn works out the turns at both posts for two to twelve strings. The outer two ask for (target − gap)/λ at the saddle; the line through
// both is carried on to the posts, which mostly stand outside the strings. From there it looks for the pair of eighths that leaves the least
// worst remainder in the middle of the readings, of equals the least in all and then the fewest turns, such that no string could be under
// its floor with its reading at the low end and the pitch against it. Errors: ErrTooFewStrings, ErrTooMany, *RangeError.
//
// The posts are one rigid line, so middle strings get what the outer two leave them; their remainders count like all others.
func (p Posts) Turn(strings []MeasuredString) (PostTurns, error) {
	err := checkAcross(strings)
	for _, u := range []Length{p.Bass, p.Treble} {
		if err == nil {
			err = within(QuantityPosts, float64(u), -100, 100)
		}
	}
	if err == nil {
		err = within(QuantityPosts, float64(p.Treble-p.Bass), 10, 200)
	}
	if err == nil {
		err = checkPitch(p.Pitch)
	}
	if err != nil {
		return PostTurns{}, err
	}
	lever, err := p.Lever()
	if err != nil {
		return PostTurns{}, err
	}
	b, t := outermost(strings)
	at := func(post Length, wanted func(s MeasuredString) Interval) Interval {
		u1, u2 := strings[b].Offset, strings[t].Offset
		return extrapolate(u1, u2, post, wanted(strings[b]), wanted(strings[t])).Times(1 / lever)
	}
	asked := func(s MeasuredString) Interval { return Exactly(s.Target).Minus(s.Gap).Times(1 / s.Leverage) }
	safely := func(s MeasuredString) Interval { // from the middle of the reading, the floor kept at its low end
		return Exactly(max(s.Target-s.Gap.Middle(), s.Floor-s.Gap.Low) / Length(s.Leverage))
	}
	turns := PostTurns{AskBass: at(p.Bass, asked), AskTreble: at(p.Treble, asked)}
	var near [2]Eighths
	for i, post := range []Length{p.Bass, p.Treble} {
		change := at(post, safely).Middle()
		if err := within(QuantityTurns, float64(change/p.Pitch.Middle()), -mostTurns, mostTurns); err != nil {
			return PostTurns{}, err
		}
		near[i] = nearestEighths(change, p.Pitch)
	}
	// all up together until some pair is safe: the line's own
	up := Eighths(0)
	for _, s := range strings {
		for !p.safe(s, lever, near[0]+up, near[1]+up) {
			if up++; up > mostTurns*PerTurn {
				return PostTurns{}, &RangeError{QuantityTurns, mostTurns + 1, -mostTurns, mostTurns}
			}
		}
	}
	worst, all, fewest := math.Inf(1), math.Inf(1), Eighths(0)
	bass, treble := near[0]+up, near[1]+up
	for range mostTurns { // about the best pair so far, until none near it is better
		turns.Bass, turns.Treble = bass, treble
		for b := turns.Bass - postWindow; b <= turns.Bass+postWindow; b++ {
			for t := turns.Treble - postWindow; t <= turns.Treble+postWindow; t++ {
				w, a, safe := p.leaves(strings, lever, b, t)
				few := max(b, -b) + max(t, -t)
				switch {
				case !safe || w > worst+fitHair:
					continue
				case w < worst-fitHair:
				case a > all+fitHair || a > all-fitHair && few >= fewest:
					continue
				}
				worst, all, fewest = w, a, few
				bass, treble = b, t
			}
		}
		if bass == turns.Bass && treble == turns.Treble {
			break
		}
	}
	turns.Bass, turns.Treble = bass, treble
	for _, s := range strings {
		after := p.after(s, lever, turns.Bass, turns.Treble)
		turns.After = append(turns.After, after)
		turns.Over = append(turns.Over, after.Shifted(-s.Target))
	}
	return turns, nil
}

// after is the string's gap once the posts are turned so. Both have one pitch, so the line is that pitch times the eighths' own line.
func (p Posts) after(s MeasuredString, lever float64, bass, treble Eighths) Interval {
	part := float64((s.Offset - p.Bass) / (p.Treble - p.Bass))
	turns := (float64(bass)*(1-part) + float64(treble)*part) / float64(PerTurn)
	return s.Raised(p.Pitch.Times(lever * turns))
}

// leaves is the worst remainder in the middle of the readings and the sum of all, and whether no string could be under its floor.
func (p Posts) leaves(strings []MeasuredString, lever float64, bass, treble Eighths) (worst, all float64, safe bool) {
	for _, s := range strings {
		after := p.after(s, lever, bass, treble)
		if after.Low < s.Floor-hair {
			return 0, 0, false
		}
		left := math.Abs(float64(after.Middle() - s.Target))
		worst, all = max(worst, left), all+left
	}
	return worst, all, true
}

func (p Posts) safe(s MeasuredString, lever float64, bass, treble Eighths) bool {
	return p.after(s, lever, bass, treble).Low >= s.Floor-hair
}
