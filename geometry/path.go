package geometry

import "math"

// GapReading is a string's height over a fret, and how it was held when that was read: 0 for an open string; at a lower fret, the
// string then running from that fret's top to the saddle; or at a higher one, it then running from the nut to that fret's top. The
// three are different things.
type GapReading struct {
	Fret, Held int
	Gap        Interval
}

// Path is one string over its neck: the straight line from nut to saddle, the board under it, and how far each is known.
//
// Everything a path tells is a straight-line function of what was read – a sum of readings, each times its own weight – so the least
// and the most of it are at the ends of the readings, each end chosen by the sign of its weight. Clearances and gaps are therefore
// exact ranges, not wider and not narrower than the readings allow, also where nut, saddle and relief are each known badly but depend
// on the same readings.
type Path struct {
	board  *board
	known  []Interval // what was read or done; never changed in place, so that paths may share it
	nut    form       // heights in the frame of the chord from fret 1 to the body joint
	saddle form
	relief form
}

// form is plain + Σ of[i]·known[i]; a missing weight is nothing.
type form struct {
	plain float64
	of    []float64
}

// sum is plain + Σ weights[i]·forms[i].
func sum(plain float64, weights []float64, forms ...form) form {
	s := form{plain: plain}
	for i, f := range forms {
		s.plain += weights[i] * f.plain
		for len(s.of) < len(f.of) {
			s.of = append(s.of, 0)
		}
		for j, w := range f.of {
			s.of[j] += weights[i] * w
		}
	}
	return s
}

// one is the reading at i by itself.
func one(i int) form {
	f := form{of: make([]float64, i+1)}
	f.of[i] = 1
	return f
}

func (f form) weight(i int) float64 {
	if i < len(f.of) {
		return f.of[i]
	}
	return 0
}

func (p Path) span(f form) Interval {
	return p.combine(0, 0, 0, f.plain, f)
}

// combine is the range of n·nut + s·saddle + r·relief + plain + what rest weighs, without making the form.
func (p Path) combine(n, s, r, plain float64, rest form) Interval {
	low := n*p.nut.plain + s*p.saddle.plain + r*p.relief.plain + plain
	high := low
	for j, k := range p.known {
		w := n*p.nut.weight(j) + s*p.saddle.weight(j) + r*p.relief.weight(j) + rest.weight(j)
		a, b := w*float64(k.Low), w*float64(k.High)
		if w < 0 {
			a, b = b, a
		}
		low, high = low+a, high+b
	}
	return Interval{Length(low), Length(high)}
}

// over is what makes a gap: how much of it comes from the nut, the saddle, the relief, and from nothing that was read.
type over struct{ nut, saddle, relief, plain float64 }

// over is the gap at a fret, held so: the string's straight line there, less the fret's top.
func (b *board) over(fret, held int) over {
	o := over{relief: -b.bow[fret], plain: -b.fall[fret]}
	x, h := b.x[fret], b.x[held]
	switch {
	case held == 0:
		o.saddle = x / b.saddle
		o.nut = 1 - o.saddle
	case held < fret:
		o.saddle = (x - h) / (b.saddle - h)
		o.relief += (1 - o.saddle) * b.bow[held]
		o.plain += (1 - o.saddle) * b.fall[held]
	default:
		t := x / h
		o.nut = 1 - t
		o.relief += t * b.bow[held]
		o.plain += t * b.fall[held]
	}
	return o
}

func (b *board) condition(fret, held int) error {
	if err := b.fret(QuantityFret, fret, 1); err != nil {
		return err
	}
	if held == fret {
		return &RangeError{QuantityHeld, float64(held), 0, float64(fret - 1)}
	}
	return b.fret(QuantityHeld, held, 0)
}

// leastSquare is how different two readings must be, as the determinant of their weights on nut and saddle: 0.44 for open gaps at frets
// 1 and 12, 0.05 for frets 12 and 14 (common practice, no source).
const leastSquare = 0.02

// NewPath lays the string's line through two readings of its gap at different frets or held differently – best open at fret 1 and at
// fret 12 – over a board with the given relief (−2 to 3 mm). Gaps are 0 to 15 mm. Errors: ErrNoPath when the two readings do not fix a
// line, *RangeError.
//
// What is left out: the string's own stiffness where it leans on nut and saddle, and the few hundredths by which a string that fans out
// over a rounded board sees another curve than a straightedge along the middle (FanRelief). Source: straight lines.
func NewPath(neck Neck, relief Interval, first, second GapReading) (Path, error) {
	b, err := neck.board()
	if err != nil {
		return Path{}, err
	}
	if err := reading(QuantityRelief, relief, LeastRelief, MostRelief); err != nil {
		return Path{}, err
	}
	for _, r := range []GapReading{first, second} {
		if err := b.condition(r.Fret, r.Held); err != nil {
			return Path{}, err
		}
		if err := reading(QuantityGap, r.Gap, 0, LargestGap); err != nil {
			return Path{}, err
		}
	}
	p := Path{board: b, known: []Interval{first.Gap, second.Gap, relief}, relief: one(2)}
	a, c := b.over(first.Fret, first.Held), b.over(second.Fret, second.Held)
	det := a.nut*c.saddle - a.saddle*c.nut
	if math.Abs(det) < leastSquare {
		return Path{}, ErrNoPath
	}
	line := func(na, nc float64) form { // one unknown of two equations: gap = nut + saddle + relief + plain, each weighed
		return sum(-na*a.plain-nc*c.plain, []float64{na, nc, -na*a.relief - nc*c.relief}, one(0), one(1), p.relief)
	}
	p.nut = line(c.saddle/det, -a.saddle/det)
	p.saddle = line(-c.nut/det, a.nut/det)
	return p, nil
}

// Nut is the height of the string at the nut, over the chord from fret 1 to the body joint: no caliper height.
func (p Path) Nut() Interval { return p.span(p.nut) }

// Saddle is the height of the string at the saddle, over the chord from fret 1 to the body joint: no caliper height.
func (p Path) Saddle() Interval { return p.span(p.saddle) }

// Relief is the relief that the path lies over.
func (p Path) Relief() Interval { return p.span(p.relief) }

// Neck is the neck that the path lies over.
func (p Path) Neck() Neck {
	if p.board == nil {
		return Neck{}
	}
	return p.board.Neck
}

func (p Path) condition(fret, held int) error {
	if p.board == nil {
		return ErrNoPath
	}
	return p.board.condition(fret, held)
}

// Clearance is the gap at a fret, open (held 0) or held at another fret: so a gap is carried from one fret and condition to another,
// and there is no other honest way. A range that goes below zero means that the string may lie on that fret. Errors: *RangeError,
// ErrNoPath for the zero path.
func (p Path) Clearance(fret, held int) (Interval, error) {
	if err := p.condition(fret, held); err != nil {
		return Interval{}, err
	}
	return p.clearance(fret, held), nil
}

func (p Path) clearance(fret, held int) Interval {
	o := p.board.over(fret, held)
	return p.combine(o.nut, o.saddle, o.relief, o.plain, form{})
}

// Clearances are the gaps at every fret after the one held down (0: open), the next one first, as far as the last fret. Errors as for
// Clearance.
func (p Path) Clearances(held int) ([]Interval, error) {
	if err := p.stop(held); err != nil {
		return nil, err
	}
	gaps := make([]Interval, 0, p.board.Frets-held)
	for fret := held + 1; fret <= p.board.Frets; fret++ {
		gaps = append(gaps, p.clearance(fret, held))
	}
	return gaps, nil
}

// stop refuses a fret that leaves none beyond it.
func (p Path) stop(held int) error {
	if p.board == nil {
		return ErrNoPath
	}
	return within(QuantityHeld, float64(held), 0, float64(p.board.Frets-1))
}

// and returns the path with one more thing known, and that thing.
func (p Path) and(i Interval) (Path, form) {
	p.known = append(p.known[:len(p.known):len(p.known)], i)
	return p, one(len(p.known) - 1)
}

// mostMoved is the furthest that this package believes a saddle or a nut slot to be moved.
const mostMoved Length = 15

func (p Path) moved(q Quantity, by Interval, low, high Length) error {
	if p.board == nil {
		return ErrNoPath
	}
	return reading(q, by, low, high)
}

// LowerSaddle is the path once the string lies lower by that much at the saddle; negative, higher; −15 to 15 mm. Errors: *RangeError.
func (p Path) LowerSaddle(by Interval) (Path, error) {
	if err := p.moved(QuantityCut, by, -mostMoved, mostMoved); err != nil {
		return Path{}, err
	}
	p, cut := p.and(by)
	p.saddle = sum(0, []float64{1, -1}, p.saddle, cut)
	return p, nil
}

// LowerNut is the path once the string lies lower by that much in the nut's slot; negative, higher; −15 to 15 mm. Errors: *RangeError.
func (p Path) LowerNut(by Interval) (Path, error) {
	if err := p.moved(QuantityCut, by, -mostMoved, mostMoved); err != nil {
		return Path{}, err
	}
	p, cut := p.and(by)
	p.nut = sum(0, []float64{1, -1}, p.nut, cut)
	return p, nil
}

// WithGap is the path once the saddle has been moved so that the gap at a fret, held so, is the wanted one (0 to 15 mm); the nut and
// the board stay. It is how a wished height is looked at before anything is cut. A gap held at a higher fret does not depend on the
// saddle: ErrNoPath. Other errors: *RangeError.
func (p Path) WithGap(fret, held int, wanted Interval) (Path, error) {
	if err := p.condition(fret, held); err != nil {
		return Path{}, err
	}
	if err := reading(QuantityGap, wanted, 0, LargestGap); err != nil {
		return Path{}, err
	}
	o := p.board.over(fret, held)
	if o.saddle == 0 {
		return Path{}, ErrNoPath
	}
	p, gap := p.and(wanted)
	p.saddle = sum(-o.plain/o.saddle, []float64{1 / o.saddle, -o.nut / o.saddle, -o.relief / o.saddle}, gap, p.nut, p.relief)
	return p, nil
}

// WithRelief is the path once the relief is another (−2 to 3 mm) and body, saddle and nut slot were left alone: the neck bends evenly
// from the body joint to the nut and carries the nut with it. Frets beyond the joint and the saddle stay where they are, so clearances
// held there do not change. A neck may bend otherwise: ReliefMoves gives the usual range, and a new reading is the only proof. Errors:
// *RangeError.
func (p Path) WithRelief(relief Interval) (Path, error) {
	if err := p.moved(QuantityRelief, relief, LeastRelief, MostRelief); err != nil {
		return Path{}, err
	}
	b, before := p.board, p.relief
	p, now := p.and(relief)
	// In the body's frame the neck is 4r(xj − x)²/D², D the chord from fret 1 to the joint, and the chord's own height 4r(xj − x)/D.
	// The nut keeps its height over the curve carried on to it, the saddle its height over the body.
	nut := 4 * b.x[b.Body] * b.x[1] / (b.chord * b.chord)
	saddle := 4 * (b.saddle - b.x[b.Body]) / b.chord
	p.nut = sum(0, []float64{1, -nut, nut}, p.nut, before, now)
	p.saddle = sum(0, []float64{1, -saddle, saddle}, p.saddle, before, now)
	p.relief = now
	return p, nil
}

// ReliefMoves tells how much the gap at a fret, held so (0: open; not at a higher fret), rises with each millimetre of relief when
// body, nut slot and saddle are left alone: for a neck that bends evenly, and for one that bends at mid-neck only. At fret 12 with the
// joint at fret 14 these are 2.43 and 1.23. Most necks lie between, but that is no bound: measure again. Errors: *RangeError.
//
// Source: plane geometry. In the body's frame an evenly bent neck is 4r(xj − x)²/D², one bent at xm half-way 4r(xm − x)/D, nothing
// beyond, D = xj − x1; the nut goes with it. At fret 12, open: 4[xj²(1 − λ) − max(0, xj − x12)²]/D² and 4·xm(1 − λ)/D.
func (n Neck) ReliefMoves(fret, held int) (even, midNeck float64, err error) {
	b, err := n.board()
	if err == nil {
		err = b.fret(QuantityFret, fret, 1)
	}
	if err == nil {
		err = within(QuantityHeld, float64(held), 0, float64(fret-1))
	}
	if err != nil {
		return 0, 0, err
	}
	even, midNeck = b.reliefMoves(fret, held)
	return even, midNeck, nil
}

func (b *board) reliefMoves(fret, held int) (even, midNeck float64) {
	joint := b.x[b.Body]
	middle := (b.x[1] + joint) / 2
	arc := func(x float64) float64 { d := max(0, joint-x) / b.chord; return 4 * d * d }
	kink := func(x float64) float64 { return 4 * max(0, middle-x) / b.chord }
	lever := (b.x[fret] - b.x[held]) / (b.saddle - b.x[held])
	return (1-lever)*arc(b.x[held]) - arc(b.x[fret]), (1-lever)*kink(b.x[held]) - kink(b.x[fret])
}

// ReliefChange is how much the gap at a fret, held so, rises when the relief changes by that much (−5 to 5 mm) and body, nut slot and
// saddle are left alone: the usual range, from a bend at mid-neck to an even one. Errors: *RangeError.
func (n Neck) ReliefChange(fret, held int, change Interval) (Interval, error) {
	even, midNeck, err := n.ReliefMoves(fret, held)
	if err == nil {
		err = reading(QuantityRelief, change, LeastRelief-MostRelief, MostRelief-LeastRelief)
	}
	if err != nil {
		return Interval{}, err
	}
	return change.Times(even).Hull(change.Times(midNeck)), nil
}

// NutShare is how much the open gap at a fret falls for each millimetre that the open gap at fret 1 is lowered by deepening the nut
// slot alone: (1 − λ)/(1 − λ1), so 0.53 at fret 12. Errors: *RangeError. Source: similar triangles.
func (n Neck) NutShare(fret int) (float64, error) {
	b, err := n.board()
	if err == nil {
		err = b.fret(QuantityFret, fret, 1)
	}
	if err != nil {
		return 0, err
	}
	return (b.saddle - b.x[fret]) / (b.saddle - b.x[1]), nil
}

// SaddleShare is how much the open gap at fret 1 falls for each millimetre that the open gap at a fret is lowered at the saddle alone:
// λ1/λ, so 0.11 at fret 12. What is left of a high nut after that is still a high nut. Errors: *RangeError. Source: similar triangles.
func (n Neck) SaddleShare(fret int) (float64, error) {
	b, err := n.board()
	if err == nil {
		err = b.fret(QuantityFret, fret, 1)
	}
	if err != nil {
		return 0, err
	}
	return b.x[1] / b.x[fret], nil
}
