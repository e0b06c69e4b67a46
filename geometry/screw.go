package geometry

import "math"

// ThreadID names a thread for good: it may stand in saved records.
type ThreadID string

// ThreadStandard is where a thread is laid down.
type ThreadStandard uint8

// The standards.
const (
	ISOCoarse ThreadStandard = iota // ISO 261 and 262
	Unified                         // ASME B1.1
)

// ThreadStandards lists every standard, so that tests can ask for a word for each.
func ThreadStandards() []ThreadStandard { return []ThreadStandard{ISOCoarse, Unified} }

// Thread is a screw's thread with a single start: one turn moves it by its pitch.
type Thread struct {
	ID       ThreadID
	Name     string // as the standard writes it
	Standard ThreadStandard
	Major    Length // outer diameter
	Pitch    Length
}

// Threads lists the threads that bridges have, thinnest first. Pitches in millimetres: ISO 261; M8 from memory. Unified ones are 25.4 mm over the
// turns per inch, their diameter 0.060 in + 0.013 in × the number: ASME B1.1.
func Threads() []Thread {
	iso := func(id ThreadID, name string, major, pitch Length) Thread {
		return Thread{id, name, ISOCoarse, major, pitch}
	}
	unified := func(id ThreadID, name string, number, perInch Length) Thread {
		return Thread{id, name, Unified, (0.060 + 0.013*number) * Inch, Inch / perInch}
	}
	return []Thread{
		iso("m2", "M2", 2, 0.4), iso("m2.5", "M2.5", 2.5, 0.45), iso("m3", "M3", 3, 0.5), iso("m4", "M4", 4, 0.7), iso("m5", "M5", 5, 0.8),
		iso("m6", "M6", 6, 1), iso("m8", "M8", 8, 1.25),
		unified("2-56", "2-56", 2, 56), unified("4-40", "4-40", 4, 40), unified("6-32", "6-32", 6, 32), unified("8-32", "8-32", 8, 32),
		unified("10-24", "10-24", 10, 24), unified("10-32", "10-32", 10, 32),
	}
}

// ThreadOf finds a thread by its name for good.
func ThreadOf(id ThreadID) (Thread, bool) {
	for _, t := range Threads() {
		if t.ID == id {
			return t, true
		}
	}
	return Thread{}, false
}

// Advance is how far the screw moves in that many turns.
func (t Thread) Advance(turns float64) Length { return t.Pitch * Length(turns) }

// Diameters are the basic pitch diameter d − 3√3/8·P, the nut's minor diameter d − 5√3/8·P and the screw's root d − 17√3/24·P: three
// things that tables confuse. Source: ISO 68-1 and ISO 724 (from memory; tables that could be read agree).
func (t Thread) Diameters() (pitch, minor, root Length) {
	p := t.Pitch * Length(math.Sqrt(3))
	return t.Major - p*3/8, t.Major - p*5/8, t.Major - p*17/24
}

// Eighths counts eighths of a turn: nobody turns a key by less. Where a screw's sense is known, above zero raises the string.
type Eighths int

// PerTurn is how many eighths make a turn.
const PerTurn Eighths = 8

// Turns gives the whole turns and the fraction, in lowest terms, of as many eighths without their sign; numerator 0 and denominator 1 when there is
// no fraction.
func (e Eighths) Turns() (whole, numerator, denominator int) {
	n := int(max(e, -e))
	whole, numerator, denominator = n/8, n%8, 8
	for numerator != 0 && numerator%2 == 0 {
		numerator, denominator = numerator/2, denominator/2
	}
	if numerator == 0 {
		denominator = 1
	}
	return whole, numerator, denominator
}

// moves is how far a screw of that pitch moves.
func (e Eighths) moves(pitch Interval) Interval { return pitch.Times(float64(e) / float64(PerTurn)) }

// What a thread's pitch can be on an instrument (common practice, no source).
const (
	leastPitch Length = 0.2
	mostPitch  Length = 3
)

// mostTurns is more than anybody turns a screw at once.
const mostTurns = 100

func checkPitch(pitch Interval) error { return reading(QuantityPitch, pitch, leastPitch, mostPitch) }

// MeasuredPitch is the pitch of a screw of an unknown thread: turned by an eighth to 100 turns, either way, it moved by that much (up to 40 mm), give or
// take the accuracy (0.005 to 1 mm) with which that was measured. More turns are surer. Errors: ErrNoPitch when it may not have moved at all,
// *RangeError, also for a pitch that no screw has (0.2 to 3 mm).
func MeasuredPitch(turned Eighths, moved, accuracy Length) (Interval, error) {
	turned = max(turned, -turned)
	err := within(QuantityTurns, float64(turned)/float64(PerTurn), 1/float64(PerTurn), mostTurns)
	if err == nil {
		err = within(QuantityAccuracy, float64(accuracy), 0.005, 1)
	}
	if err == nil {
		err = within(QuantityLength, float64(moved), 0, 40)
	}
	if err != nil {
		return Interval{}, err
	}
	if moved <= accuracy {
		return Interval{}, ErrNoPitch
	}
	pitch := Interval{moved - accuracy, moved + accuracy}.Times(float64(PerTurn) / float64(turned))
	if err := checkPitch(pitch); err != nil {
		return Interval{}, err
	}
	return pitch, nil
}

// Turning is what to turn a screw.
type Turning struct {
	Turns Eighths  // above zero raises the string
	Moves Interval // what that moves at the screw; above zero up
	Left  Interval // what of the wanted change stays undone at the screw, above zero: still to raise; its middle is the rounding's part
}

// TurnsFor is the number of turns nearest to a wanted change at the screw (−15 to 15 mm, above zero up), in eighths, of two equally near the higher.
// A saddle on two screws gets these turns at both, so that it stays level. Errors: *RangeError.
func TurnsFor(change, pitch Interval) (Turning, error) {
	err := reading(QuantityCut, change, -mostMoved, mostMoved)
	if err == nil {
		err = checkPitch(pitch)
	}
	if err != nil {
		return Turning{}, err
	}
	return turning(nearestEighths(change.Middle(), pitch), change, pitch), nil
}

func turning(e Eighths, change, pitch Interval) Turning {
	t := Turning{Turns: e, Moves: e.moves(pitch)}
	t.Left = change.Minus(t.Moves)
	return t
}

func nearestEighths(change Length, pitch Interval) Eighths {
	return Eighths(math.Floor(float64(change/pitch.Middle())*float64(PerTurn) + 0.5 + roundingHair))
}

// eighthsAtLeast is the fewest eighths that are sure to raise by that much; negative: the most that are sure not to lower by more.
func eighthsAtLeast(raise Length, pitch Interval) Eighths {
	p := pitch.Low
	if raise < 0 {
		p = pitch.High
	}
	return Eighths(math.Ceil(float64(raise/p)*float64(PerTurn) - roundingHair))
}

// check refuses what no string is, whatever carries it.
func (s MeasuredString) check() error {
	err := reading(QuantityGap, s.Gap, 0, LargestGap)
	for _, wished := range []Length{s.Target, s.Floor} {
		if err == nil {
			err = within(QuantityTarget, float64(wished), 0, float64(LargestGap))
		}
	}
	if err == nil {
		err = within(QuantityLeverage, s.Leverage, 0.01, 1)
	}
	if err == nil {
		err = within(QuantityOffset, float64(s.Offset), -100, 100)
	}
	return err
}

// ScrewTurn is what to turn at one string, and what follows at its fret.
type ScrewTurn struct {
	Turning
	After Interval // the gap then
	Over  Interval // the gap then, less the target
}

// Screw is what to turn at a string that has a saddle of its own: (target − gap)/λ from the middle of the reading to the nearest eighth, but
// never so low that the string could be under its floor with the reading at its low end, rounding and pitch against it; a string that
// could be under it now is raised until it cannot. Since a screw can be turned back, the target itself is met by the middle of the reading and not
// by its low end. Errors: *RangeError. Source: similar triangles.
func (s MeasuredString) Screw(pitch Interval) (ScrewTurn, error) {
	err := s.check()
	if err == nil {
		err = checkPitch(pitch)
	}
	if err != nil {
		return ScrewTurn{}, err
	}
	change := Exactly(s.Target).Minus(s.Gap).Times(1 / s.Leverage)
	e := max(nearestEighths(change.Middle(), pitch), eighthsAtLeast((s.Floor-s.Gap.Low)/Length(s.Leverage), pitch))
	if err := within(QuantityTurns, float64(e)/float64(PerTurn), -mostTurns, mostTurns); err != nil {
		return ScrewTurn{}, err
	}
	t := ScrewTurn{Turning: turning(e, change, pitch)}
	t.After = s.Raised(t.Moves)
	t.Over = t.After.Shifted(-s.Target)
	return t, nil
}

// outermost are the strings nearest the bass and the treble side, the first of equals.
func outermost(strings []MeasuredString) (bass, treble int) {
	for i, s := range strings {
		if s.Offset < strings[bass].Offset {
			bass = i
		}
		if s.Offset > strings[treble].Offset {
			treble = i
		}
	}
	return bass, treble
}

// FollowOuter returns the strings with targets that run evenly across from that of the outermost bass string to that of the outermost treble
// string. Gaps are measured over the board, so strings that are set to such targets follow its radius. Errors: ErrTooFewStrings,
// ErrTooMany, *RangeError.
func FollowOuter(strings []MeasuredString) ([]MeasuredString, error) {
	if err := checkAcross(strings); err != nil {
		return nil, err
	}
	b, t := outermost(strings)
	bass, treble := strings[b], strings[t]
	follow := append([]MeasuredString(nil), strings...)
	for i := range follow {
		part := (follow[i].Offset - bass.Offset) / (treble.Offset - bass.Offset)
		follow[i].Target = bass.Target*(1-part) + treble.Target*part
	}
	return follow, nil
}

// checkAcross refuses what does not make a line: fewer than two strings a millimetre apart, more than twelve.
func checkAcross(strings []MeasuredString) error {
	if len(strings) > mostStrings {
		return ErrTooMany
	}
	for _, s := range strings {
		if err := s.check(); err != nil {
			return err
		}
	}
	if len(strings) < 2 {
		return ErrTooFewStrings
	}
	if b, t := outermost(strings); strings[t].Offset-strings[b].Offset < leastApart {
		return ErrTooFewStrings
	}
	return nil
}

// Screws is what to turn at each of two to twelve strings, and the order of work: the outer two first, since the others follow them, then from the bass
// side to the treble side. Errors as for FollowOuter and MeasuredString.Screw.
func Screws(strings []MeasuredString, pitch Interval) (turns []ScrewTurn, order []int, err error) {
	if err := checkAcross(strings); err != nil {
		return nil, nil, err
	}
	b, t := outermost(strings)
	order = []int{b, t}
	for i, s := range strings {
		turn, err := s.Screw(pitch)
		if err != nil {
			return nil, nil, err
		}
		turns = append(turns, turn)
		if i == b || i == t {
			continue
		}
		at := 2
		for at < len(order) && strings[order[at]].Offset <= s.Offset {
			at++
		}
		order = append(order[:at], append([]int{i}, order[at:]...)...)
	}
	return turns, order, nil
}

// InnerSeats are how far each string's seat must stand above a straight line laid over the outermost two for the wanted gaps over a board of
// that radius: for setting the middle strings when only the outer ones were measured. Relief falls out, since it moves all seats alike.
// Errors as for SeatHeights, and ErrFewStrings for fewer than three or for outer ones less than a millimetre apart.
func InnerSeats(neck Neck, camber Camber, seats []Seat) ([]Interval, error) {
	heights, err := SeatHeights(neck, Interval{}, camber, seats)
	if err != nil {
		return nil, err
	}
	if len(seats) < 3 {
		return nil, ErrFewStrings
	}
	b, t := 0, 0
	for i, s := range seats {
		if s.Saddle < seats[b].Saddle {
			b = i
		}
		if s.Saddle > seats[t].Saddle {
			t = i
		}
	}
	if seats[t].Saddle-seats[b].Saddle < leastApart {
		return nil, ErrFewStrings
	}
	above := make([]Interval, len(seats))
	for i, s := range seats {
		if i != b && i != t {
			above[i] = heights[i].Minus(extrapolate(seats[b].Saddle, seats[t].Saddle, s.Saddle, heights[b], heights[t]))
		}
	}
	return above, nil
}

// Sense is which way a screw works.
type Sense uint8

// What a trial turn can tell.
const (
	SenseUnknown    Sense = iota // the two readings do not tell
	ClockwiseRaises              // turned clockwise, seen from where the key goes in, the string rises
	ClockwiseLowers              // and here it sinks
)

// Senses lists every sense, so that tests can ask for a sentence for each.
func Senses() []Sense { return []Sense{SenseUnknown, ClockwiseRaises, ClockwiseLowers} }

// TrialTurn tells which way a screw works from one gap read before and after it was turned clockwise by that many eighths (anticlockwise:
// below zero). Two readings that share more than one height cannot tell: turn further.
func TrialTurn(before, after Interval, clockwise Eighths) Sense {
	if !before.Valid() || !after.Valid() || clockwise == 0 {
		return SenseUnknown
	}
	rose := after.Low >= before.High-hair && after.Middle() > before.Middle()+hair
	sank := after.High <= before.Low+hair && after.Middle() < before.Middle()-hair
	switch {
	case rose && clockwise > 0, sank && clockwise < 0:
		return ClockwiseRaises
	case rose, sank:
		return ClockwiseLowers
	}
	return SenseUnknown
}
