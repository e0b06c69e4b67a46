package geometry

import "math"

// Neck is what one string lies over, from the side: where its frets stand and how the board bends. Where the scale length differs from
// bass to treble every string has its own.
type Neck struct {
	Scale    Length // 200 to 1200 mm, before compensation
	Setback  Length // of the saddle, positive: longer; −10 to 20 mm
	Body     int    // the fret at which the neck meets the body, 5 to 36
	Frets    int    // the last fret, from Body to 36
	FallAway Length // how far the last fret lies below the tangent at the body joint, −3 to 3 mm; negative: a rising tongue; zero when not known
}

// What this package believes of relief: from a strong back-bow to a neck that needs a repairer (common practice, no source).
const (
	LeastRelief Length = -2
	MostRelief  Length = 3
)

// firstJoint is the lowest fret at which a neck meets a body; below it a curve between fret 1 and the joint means nothing.
const firstJoint = 5

func (n Neck) check() error {
	err := within(QuantityScale, float64(n.Scale), float64(ShortestScale), float64(LongestScale))
	if err == nil {
		err = within(QuantitySetback, float64(n.Setback), -10, 20)
	}
	if err == nil {
		err = within(QuantityBody, float64(n.Body), firstJoint, LargestFret)
	}
	if err == nil {
		err = within(QuantityLastFret, float64(n.Frets), float64(n.Body), LargestFret)
	}
	if err == nil {
		err = within(QuantityFallAway, float64(n.FallAway), -3, 3)
	}
	return err
}

// board is a neck worked out once: how far from the nut each fret stands, and how high its top stands in the frame of the chord from
// fret 1 to the body joint: bow·relief + fall.
type board struct {
	Neck
	saddle float64 // from the nut
	chord  float64 // from fret 1 to the joint
	x      [LargestFret + 1]float64
	bow    [LargestFret + 1]float64
	fall   [LargestFret + 1]float64
}

func (n Neck) board() (*board, error) {
	if err := n.check(); err != nil {
		return nil, err
	}
	b := &board{Neck: n, saddle: float64(n.Scale + n.Setback)}
	for i := range n.Frets + 1 {
		b.x[i] = float64(n.Scale) * (1 - math.Exp2(-float64(i)/12))
	}
	first, joint, last := b.x[1], b.x[n.Body], b.x[n.Frets]
	b.chord = joint - first
	for i := 1; i <= n.Frets; i++ {
		x := b.x[i]
		if i <= n.Body {
			b.bow[i] = -4 * (x - first) * (joint - x) / (b.chord * b.chord)
			continue
		}
		b.bow[i] = 4 * (x - joint) / b.chord
		b.fall[i] = -float64(n.FallAway) * (x - joint) / (last - joint)
	}
	return b, nil
}

// fret refuses what is no fret of this neck.
func (b *board) fret(q Quantity, fret, low int) error {
	return within(q, float64(fret), float64(low), float64(b.Frets))
}

// Top is how high the top of a fret stands over the chord from fret 1 to the body joint j for a relief r of −2 to 3 mm: the parabola
// −4r(x − x1)(xj − x)/(xj − x1)² as far as the joint, beyond it its tangent 4r(x − xj)/(xj − x1) less the fall-away, which grows evenly
// from the joint to the last fret. Errors: *RangeError.
//
// Source: a beam bent by the same moment everywhere is an arc of a circle, and at these depths a parabola to a millionth of a
// millimetre (Euler and Bernoulli's beam). A real neck tapers: its shape may differ from this by a fifth (from memory). The straight
// tongue is an assumption. This is a bow; the tilt of the board about the nut that Anderson and Beausoleil call relief is another
// thing.
func (n Neck) Top(fret int, relief Length) (Length, error) {
	b, err := n.board()
	if err == nil {
		err = b.fret(QuantityFret, fret, 1)
	}
	if err == nil {
		err = within(QuantityRelief, float64(relief), float64(LeastRelief), float64(MostRelief))
	}
	if err != nil {
		return 0, err
	}
	return Length(b.bow[fret]*float64(relief) + b.fall[fret]), nil
}

// MidFret is the fret nearest to half-way between two others, for a scale of any length: where a gap under a straightedge is widest.
func MidFret(from, to int) int {
	half := (math.Exp2(-float64(from)/12) + math.Exp2(-float64(to)/12)) / 2
	return int(math.Round(-12 * math.Log2(half)))
}

// ReliefReading is a gap read over the fret At under a straightedge, or a string held down, that touches the frets From and To.
type ReliefReading struct {
	From, At, To int
	Depth        Interval // −2 to 3 mm; negative when the straightedge rocks on a hump
}

// leastReliefFactor is the smallest part of the relief that a reading may show: to divide by less makes noise of it (common practice,
// no source).
const leastReliefFactor = 0.25

// ReliefFactor is what a reading shows of each millimetre of relief: 1 between fret 1 and the body joint, read half-way. With the joint
// at fret 14 it is 0.79 held at 1 and 12, and 1.46 held at 1 and 20. Errors: ErrNoRelief when it is under a quarter (a straightedge
// that lies wholly beyond the joint touches a straight board), *RangeError.
func (n Neck) ReliefFactor(from, at, to int) (float64, error) {
	factor, _, err := n.reliefShown(from, at, to)
	return factor, err
}

// reliefShown is how deep fret at lies under the chord between two others: factor·relief + fall.
func (n Neck) reliefShown(from, at, to int) (factor, fall float64, err error) {
	b, err := n.board()
	if err == nil {
		err = within(QuantityHeld, float64(from), 1, float64(n.Frets-2))
	}
	if err == nil {
		err = b.fret(QuantityHeld, to, from+2)
	}
	if err == nil {
		err = within(QuantityFret, float64(at), float64(from+1), float64(to-1))
	}
	if err != nil {
		return 0, 0, err
	}
	t := (b.x[at] - b.x[from]) / (b.x[to] - b.x[from])
	under := func(z [LargestFret + 1]float64) float64 { return z[from]*(1-t) + z[to]*t - z[at] }
	factor, fall = under(b.bow), under(b.fall)
	if factor < leastReliefFactor {
		return 0, 0, ErrNoRelief
	}
	return factor, fall, nil
}

// Relief turns a reading into the relief r, wherever the straightedge touched and wherever it was read. Errors: ErrNoRelief,
// *RangeError, also for a relief beyond −2 to 3 mm.
func (n Neck) Relief(r ReliefReading) (Interval, error) {
	if err := reading(QuantityRelief, r.Depth, LeastRelief, MostRelief); err != nil {
		return Interval{}, err
	}
	factor, fall, err := n.reliefShown(r.From, r.At, r.To)
	if err != nil {
		return Interval{}, err
	}
	relief := r.Depth.Shifted(Length(-fall)).Times(1 / factor)
	if err := reading(QuantityRelief, relief, LeastRelief, MostRelief); err != nil {
		return Interval{}, err
	}
	return relief, nil
}

// Camber is the board's roundness across: its radius at the nut and, for a cone, at another place. The zero value is a flat board.
type Camber struct {
	Nut   Length // 50 mm to a kilometre; zero: flat
	End   Length // the radius at EndAt, likewise; zero: the same everywhere
	EndAt Length // its distance from the nut, 50 to 1200 mm; only with End
}

const (
	leastRadius Length = 50
	mostRadius  Length = 1e6
)

func (c Camber) check() error {
	switch {
	case c.Nut == 0 && c.End == 0:
		return nil
	case c.End == 0:
		return within(QuantityRadius, float64(c.Nut), float64(leastRadius), float64(mostRadius))
	}
	err := within(QuantityRadius, float64(c.Nut), float64(leastRadius), float64(mostRadius))
	if err == nil {
		err = within(QuantityRadius, float64(c.End), float64(leastRadius), float64(mostRadius))
	}
	if err == nil {
		err = within(QuantityRadiusAt, float64(c.EndAt), 50, float64(LongestScale))
	}
	return err
}

// RadiusAt is the radius at a distance of 0 to 1300 mm from the nut: R = Rnut + (Rend − Rnut)·x/xend for a cone, also beyond its end,
// so at the saddle; zero for a flat board. Errors: *RangeError, also where a cone that narrows comes to under 50 mm. Source: plane
// geometry.
func (c Camber) RadiusAt(x Length) (Length, error) {
	if err := c.check(); err != nil {
		return 0, err
	}
	if err := within(QuantityDistanceAlong, float64(x), 0, 1300); err != nil {
		return 0, err
	}
	if c.End == 0 {
		return c.Nut, nil
	}
	r := c.Nut + (c.End-c.Nut)*x/c.EndAt
	return r, within(QuantityRadius, float64(r), float64(leastRadius), math.Inf(1))
}

// Drop is how far the board lies below its crown at u across (up to 45 mm either way), x from the nut: R − √(R² − u²). Errors:
// *RangeError. Source: plane geometry.
func (c Camber) Drop(x, u Length) (Length, error) {
	r, err := c.RadiusAt(x)
	if err == nil {
		err = within(QuantityOffset, float64(u), -float64(mostOffset), float64(mostOffset))
	}
	if err != nil {
		return 0, err
	}
	return sagitta(r, u), nil
}

const mostOffset Length = 45

// sagitta is R − √(R² − u²), written so that a huge radius does not swallow it.
func sagitta(r, u Length) Length {
	if r == 0 {
		return 0
	}
	return u * u / (r + Length(math.Sqrt(float64(r*r-u*u))))
}

// FanRelief is how much less relief lies under a string that fans out by spread (0 to 30 mm) between fret 1 and the body joint than
// along the board's middle: spread²/(8R), because over a cylinder the string crosses a hump. Read along the string itself, relief has
// it in already. Nothing on a flat board, nor on a cone along which the string keeps to a generator. Errors: *RangeError. Source:
// sagitta of the parabola u²/2R.
func FanRelief(radius, spread Length) (Length, error) {
	if radius == 0 {
		return 0, within(QuantityOffset, float64(spread), 0, 30)
	}
	err := within(QuantityRadius, float64(radius), float64(leastRadius), float64(mostRadius))
	if err == nil {
		err = within(QuantityOffset, float64(spread), 0, 30)
	}
	if err != nil {
		return 0, err
	}
	return spread * spread / (8 * radius), nil
}
