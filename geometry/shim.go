package geometry

import "math"

// Shim is the strip that a saddle needs under it. The saddle's underside is straight, and so is what it stands on.
type Shim struct {
	Strings      []Interval // at each string, at the saddle: (max(target, floor) − gap)/λ, from 0 up
	Bass, Treble Interval   // at the saddle's ends, from 0 up
	Lay          Line       // the thickness to lay at the ends: with every reading at its low end no string stays under its target or floor
	Over         []Length   // how far above max(target, floor) Lay brings each string's low reading: what the straight strip gives it too much
}

// Nothing tells that no string needs raising by as much as can be laid.
func (s Shim) Nothing() bool { return s.Lay.Bass <= leastCut && s.Lay.Treble <= leastCut }

const (
	// EvenShim is how different two ends may be and still get one even strip, made for the higher (common practice, no source).
	EvenShim Length = 0.05
	// MostShim is the thickest strip that is still an answer: a saddle that asks for more is better made new (common practice, no source).
	MostShim Length = 1
)

// Even tells whether one even strip, as thick as the thicker end, serves both ends.
func (s Shim) Even() bool {
	return max(s.Lay.Bass-s.Lay.Treble, s.Lay.Treble-s.Lay.Bass) <= EvenShim+hair
}

// BetterNew tells that a new saddle is the better answer.
func (s Shim) BetterNew() bool { return max(s.Lay.Bass, s.Lay.Treble) > MostShim+hair }

// Raise works out the shim for two to twelve strings. Of all straight strips under which no string stays under its target or floor, readings
// at their low end, it is the one that raises the strings least in all; of equals the most even. Two strings between whose ends nothing
// would go negative get just what they ask for. The strings must satisfy the same rules as for WholeCut. Errors: ErrTooFewStrings,
// ErrTooMany, ErrOutsideSaddle, *RangeError.
//
// The ranges at the ends hold the strip of every pair of gaps of two strings; for more they hold those of every corner of the readings (up
// to eight strings that are not exact) and, like those of WholeCut, may miss a gap between the corners by hundredths. Source: similar
// triangles.
func Raise(strings []MeasuredString, ends Ends) (Shim, error) {
	if err := checkStrings(strings, ends); err != nil {
		return Shim{}, err
	}
	shim := Shim{Strings: make([]Interval, len(strings)), Over: make([]Length, len(strings))}
	needs := make([]Length, len(strings))
	var open []int
	for i, s := range strings {
		shim.Strings[i] = Exactly(max(s.Target, s.Floor)).Minus(s.Gap).Times(1 / s.Leverage).AtLeast(0)
		needs[i] = shim.Strings[i].High
		if shim.Strings[i].Width() > 0 {
			open = append(open, i)
		}
	}
	shim.Lay = strip(strings, ends, needs)
	shim.Bass, shim.Treble = Exactly(shim.Lay.Bass), Exactly(shim.Lay.Treble)
	for i, s := range strings {
		shim.Over[i] = s.Gap.Low + Length(s.Leverage)*shim.Lay.At(s.Offset) - max(s.Target, s.Floor)
	}
	if len(open) > mostCorners { // then only all readings at their low and all at their high end
		for i := range needs {
			needs[i] = shim.Strings[i].Low
		}
		open = nil
	}
	for corner := range 1 << len(open) {
		for bit, i := range open {
			needs[i] = shim.Strings[i].Low
			if corner>>bit&1 == 1 {
				needs[i] = shim.Strings[i].High
			}
		}
		line := strip(strings, ends, needs)
		shim.Bass, shim.Treble = shim.Bass.Hull(Exactly(line.Bass)), shim.Treble.Hull(Exactly(line.Treble))
	}
	return shim, nil
}

// strip is the straight strip, nowhere under zero and at no string under its need, that raises the strings least in all: the lowest over
// their mean place, so the edge over that place of the hull of the needs, or, when a corner stands there, the most even through it.
func strip(strings []MeasuredString, ends Ends, needs []Length) Line {
	type point struct{ at, need Length }
	points := []point{{0, 0}, {1, 0}}
	mean, most := Length(0), Length(0)
	for i, s := range strings {
		at := (s.Offset - ends.Bass) / (ends.Treble - ends.Bass)
		points = append(points, point{at, needs[i]})
		mean += at / Length(len(strings))
		most = max(most, needs[i])
	}
	under := func(p, q Length) (short Length) { // how far some point stands above the line
		for _, o := range points {
			short = max(short, o.need-p*(1-o.at)-q*o.at)
		}
		return short
	}
	steep := func(p, q Length) Length { return max(p-q, q-p) }
	p, q := most, most
	for i, a := range points {
		for _, b := range points[:i] {
			if math.Abs(float64(a.at-b.at)) < fitHair {
				continue
			}
			slope := (b.need - a.need) / (b.at - a.at)
			cp := a.need - slope*a.at
			cq := cp + slope
			if under(cp, cq) > fitHair {
				continue
			}
			better := (cp-p)*(1-mean) + (cq-q)*mean
			if better < -fitHair || better < fitHair && steep(cp, cq) < steep(p, q) {
				p, q = cp, cq
			}
		}
	}
	short := under(p, q) // rounding alone
	return Line{Ends: ends, Bass: max(0, p+short), Treble: max(0, q+short)}
}

// Raised is what the string's gap can be once a strip of that thickness lies under the saddle below it: gap + λ·thickness.
func (s MeasuredString) Raised(thickness Interval) Interval {
	return s.Gap.Plus(thickness.Times(s.Leverage))
}

// Laid is what lies under a saddle, at both ends; between them it runs straight.
type Laid struct {
	Ends         Ends
	Bass, Treble Interval
}

// At is the thickness at the place across u between the ends.
func (l Laid) At(u Length) Interval {
	e := l.Ends
	if !(e.Treble > e.Bass) {
		return l.Bass
	}
	return extrapolate(e.Bass, e.Treble, min(max(u, e.Bass), e.Treble), l.Bass, l.Treble)
}

// SteadyPart is the longest part of a saddle that a strip under one end may fill: the strings pull down about the saddle's middle, and a
// strip that reaches nearly there lets it rock on its inner edge (common practice, no source).
const SteadyPart = 0.4

// Stepped is what a saddle stands on when an even strip lies under the whole of it and another on that under one end, filling from a
// twentieth to half of its length. The saddle then touches the even strip's far end and the short strip's inner edge, so the near end
// comes up by more than the short strip is thick: strip/(1 − part). rocks tells that the short strip reaches so far to the middle that the
// saddle may as well lie flat on it; the range holds both. Errors: *RangeError. Source: a straight line over two edges.
func Stepped(ends Ends, even, strip Interval, side Side, part float64) (laid Laid, rocks bool, err error) {
	err = within(QuantitySaddle, float64(ends.Treble-ends.Bass), 10, 200)
	for _, i := range []Interval{even, strip} {
		if err == nil {
			err = reading(QuantityShim, i, 0, thickest)
		}
	}
	if err == nil {
		err = within(QuantityPart, part, 0.05, 0.5)
	}
	if err != nil {
		return Laid{}, false, err
	}
	far, near := even, even.Plus(strip.Times(1/(1-part)))
	if rocks = part > SteadyPart+roundingHair; rocks {
		flat := even.Plus(strip)
		far, near = far.Hull(flat), near.Hull(flat)
	}
	if side == BassSide {
		return Laid{ends, near, far}, rocks, nil
	}
	return Laid{ends, far, near}, rocks, nil
}

// thickest is more than anybody lays under a saddle or a file.
const thickest Length = 10

// Leaf is one kind of leaf, veneer or card to hand: how thick one is, 0.01 to 5 mm, and how many there are, 0 to 200.
type Leaf struct {
	Thickness Interval
	Count     int
}

// Pile is some of the leaves, one on another.
type Pile struct {
	Counts    []int    // how many of each kind, in the order in which the kinds were given
	Leaves    int      // of all kinds together
	Thickness Interval // of the pile, pressed together
}

const (
	mostKinds = 24 // kinds of leaves to choose from
	mostInOne = 6  // leaves in one pile: more are springy (common practice, no source)
)

// PileFor is the best pile for a thickness: with every leaf at its thinnest it is not under need; of all such piles it is the one that is least
// at its thickest; of equals the one with fewest leaves, then the surest. All are looked at. Up to 24 kinds, 1 to 6 leaves in a pile; a
// need of zero or less, down to −10, is an empty pile. Errors: ErrNoPile when all that may be piled stays under need, *RangeError.
func PileFor(need Length, leaves []Leaf, most int) (Pile, error) {
	err := within(QuantityShim, float64(need), -float64(thickest), float64(thickest))
	if err == nil {
		err = within(QuantityLeaves, float64(most), 1, mostInOne)
	}
	if err == nil {
		err = within(QuantityLeaves, float64(len(leaves)), 0, mostKinds)
	}
	for _, l := range leaves {
		if err == nil {
			err = reading(QuantityFeeler, l.Thickness, 0.01, 5)
		}
		if err == nil {
			err = within(QuantityLeaves, float64(l.Count), 0, 200)
		}
	}
	if err != nil {
		return Pile{}, err
	}
	best := Pile{Thickness: Exactly(Length(math.Inf(1)))}
	counts := make([]int, len(leaves))
	var lay func(kind, used int, now Interval)
	lay = func(kind, used int, now Interval) {
		switch worse := now.High - best.Thickness.High; {
		case worse > fitHair: // more leaves only make it worse
			return
		case now.Low >= need-hair:
			if worse < -fitHair || used < best.Leaves || used == best.Leaves && now.Low > best.Thickness.Low+fitHair {
				best = Pile{append([]int(nil), counts...), used, now}
			}
			return
		case kind == len(leaves):
			return
		}
		thickness := leaves[kind].Thickness
		for n := range min(leaves[kind].Count, most-used) + 1 {
			counts[kind] = n
			lay(kind+1, used+n, now.Plus(thickness.Times(float64(n))))
		}
		counts[kind] = 0
	}
	lay(0, 0, Interval{})
	if !best.Thickness.Valid() {
		return Pile{}, ErrNoPile
	}
	return best, nil
}

// Laying is a shim built from what is to hand.
type Laying struct {
	Even  Pile // under the whole saddle; may be empty
	Strip Pile // on it under one end; empty when Even serves both
	Side  Side // the strip's end
	Under Laid // what the saddle stands on then
}

// Build makes the shim from what is to hand: one even pile where that serves both ends, otherwise an even pile for the thinner end and on
// it a strip of part of the saddle's length (0.05 to SteadyPart) under the other. The even pile is chosen first, the strip from what is left,
// most leaves together. Errors: ErrNoPile, *RangeError.
func (s Shim) Build(leaves []Leaf, most int, part float64) (Laying, error) {
	if err := within(QuantityPart, part, 0.05, SteadyPart); err != nil {
		return Laying{}, err
	}
	thin, thick := min(s.Lay.Bass, s.Lay.Treble), max(s.Lay.Bass, s.Lay.Treble)
	if s.Even() {
		thin = thick
	}
	var l Laying
	if s.Lay.Treble > s.Lay.Bass {
		l.Side = TrebleSide
	}
	var err error
	if l.Even, err = PileFor(thin, leaves, most); err != nil {
		return Laying{}, err
	}
	if more := (thick - l.Even.Thickness.Low) * Length(1-part); more > hair {
		if l.Even.Leaves == most {
			return Laying{}, ErrNoPile
		}
		rest := append([]Leaf(nil), leaves...)
		for i, n := range l.Even.Counts {
			rest[i].Count -= n
		}
		if l.Strip, err = PileFor(more, rest, most-l.Even.Leaves); err != nil {
			return Laying{}, err
		}
	}
	l.Under, _, err = Stepped(s.Lay.Ends, l.Even.Thickness, l.Strip.Thickness, l.Side, part)
	return l, err
}

// OnShim is one end of a saddle once a shim lies under it.
type OnShim struct {
	Exposure Interval // how far it stands over the top
	Depth    Interval // how deep it sits in its slot; only where the depth was measured
}

// leastDepth is the least that a saddle may sit in its slot (common practice, no source).
const leastDepth Length = 1

// Shimmed tells what a shim, 0 to 10 mm there, does to this end of the saddle: it stands that much further out of the slot and sits that much less
// deep. Where the depth is known a LeanRisk is found: a note when more may stand above the slot than sits in it, a caution when more than
// twice as much does, a refusal when less than a millimetre may be left in it (common practice, no source). Errors: *RangeError.
func Shimmed(side Side, end SaddleEnd, shim Interval) (OnShim, []Finding, error) {
	err := reading(QuantityExposure, end.Exposure, 0, 20)
	if err == nil {
		err = within(QuantityDepth, float64(end.Depth), 0, 40)
	}
	if err == nil {
		err = reading(QuantityShim, shim, 0, thickest)
	}
	if err != nil {
		return OnShim{}, nil, err
	}
	on := OnShim{Exposure: end.Exposure.Plus(shim)}
	if end.Depth == 0 {
		return on, nil, nil
	}
	on.Depth = Exactly(end.Depth).Minus(shim).AtLeast(0)
	f := Finding{Kind: LeanRisk, Side: side, Length: on.Exposure.High}
	switch deep := on.Depth.Low; {
	case deep < leastDepth-hair:
		f.Severity = Refuse
	case f.Length > 2*deep+hair:
		f.Severity = Caution
	case f.Length > deep+hair:
	default:
		return on, nil, nil
	}
	return on, []Finding{f}, nil
}
