package job

import "gapwright/geometry"

// What Learn shows: an example string, and what nut, relief and saddle each do to it. Pure, and no job: nothing of it is kept.

// The three things of an example that can be moved.
const (
	MoveNut = iota
	MoveRelief
	MoveSaddle
)

// Moves are by how many steps nut slot, relief and saddle were moved: above zero upwards, or to more relief.
type Moves [3]int

// moveLimits are how far each can be moved: from a straight neck to a strong bend, and the string never as low as a fret (common practice, no source).
var moveLimits = [3][2]int{{-4, 4}, {-2, 4}, {-4, 4}}

// With moves one of the three by so many steps; ok is false where that would be further than the example goes.
func (m Moves) With(part, by int) (next Moves, ok bool) {
	next = m
	next[part] += by
	return next, next[part] >= moveLimits[part][0] && next[part] <= moveLimits[part][1]
}

// MoveStep is how far one step moves a part: 0.10 mm at nut and relief, 0.20 mm at the saddle; in inches 0.004 and 0.008.
func MoveStep(part int, unit Unit) geometry.Length {
	step := geometry.Millimetre / 10
	if unit == Inch {
		step = 4 * geometry.Thousandth
	}
	if part == MoveSaddle {
		step *= 2
	}
	return step
}

// startRelief is the example's relief in steps: the middle of what is usual.
const startRelief = 2

// Lesson is the example after some moves.
type Lesson struct {
	Moved          [3]geometry.Length // by how much each was moved
	Relief         geometry.Length
	First, Twelfth geometry.Length // the open gaps at frets 1 and 12
	Rooms                          // for a light touch
	Profile        Profile         // heights over the body's line: the straight one on which frets beyond the joint lie
}

// Learn is the bass string of a usual six-string flat-top, from the middle of what is usual, after some moves. Nut slot and saddle move the string
// alone; relief bends the neck evenly and carries the nut with it, while body and saddle stay. Errors: *geometry.RangeError for moves beyond what
// With allows by far.
func Learn(m Moves, unit Unit) (Lesson, error) {
	i := Instrument{Family: geometry.FlatTop6}
	neck := i.Neck()
	step := MoveStep(MoveRelief, unit)
	l := Lesson{Relief: step * geometry.Length(startRelief+m[MoveRelief])}
	for part, by := range m {
		l.Moved[part] = MoveStep(part, unit) * geometry.Length(by)
	}
	path, err := geometry.NewPath(neck, geometry.Exactly(startRelief*step), geometry.GapReading{Fret: 1, Gap: geometry.Exactly(i.UsualNut(0))},
		geometry.GapReading{Fret: 12, Gap: geometry.Exactly(i.Usual(0).Middle())})
	if err == nil {
		path, err = path.WithRelief(geometry.Exactly(l.Relief))
	}
	if err == nil {
		path, err = path.LowerNut(geometry.Exactly(-l.Moved[MoveNut]))
	}
	if err == nil {
		path, err = path.LowerSaddle(geometry.Exactly(-l.Moved[MoveSaddle]))
	}
	if err != nil {
		return l, err
	}
	gaps, err := path.Clearances(0)
	if err != nil {
		return l, err
	}
	l.First, l.Twelfth = gaps[0].Middle(), gaps[11].Middle()
	needs, known := geometry.StyleTouch(i.Family, geometry.BassSide, geometry.StyleLight)
	l.Rooms = i.rooms(path, needs, known)
	l.Profile = profile(path).onBody(neck, float64(l.Relief))
	return l, nil
}

// onBody is the profile over the body's line instead of the chord from fret 1 to the joint: by 4r(xj − x)/(xj − x1) higher.
func (p Profile) onBody(neck geometry.Neck, relief float64) Profile {
	joint := p.Frets[neck.Body-1]
	up := func(x float64) float64 { return 4 * relief * (joint - x) / (joint - p.Frets[0]) }
	for i, x := range p.Frets {
		p.Tops[i] += up(x)
	}
	p.Nut += up(0)
	p.Now = p.Now.Shifted(geometry.Length(up(p.Length)))
	return p
}
