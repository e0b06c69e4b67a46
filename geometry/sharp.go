package geometry

import "math"

// Stopped is a string pressed down behind a fret: what makes it sound sharp. The symbols are those of Anderson and Beausoleil, J.
// Acoust. Soc. Am. 156 (2024) 683, "Simple model of guitar intonation".
type Stopped struct {
	Scale      Length // X0, 200 to 1200 mm
	Nut        Length // b: the string at the nut over the top of the fret it is pressed at, −15 to 15 mm
	Rise       Length // c: the string at the saddle over the string at the nut, −15 to 15 mm
	Finger     Length // d: how far behind the fret it is pressed, 0 to 20 mm, and not beyond the nut
	SaddleBack Length // S: how far the saddle stands beyond the scale length, −10 to 20 mm
	NutBack    Length // N: how far the nut stands back; negative: moved towards the saddle; −5 to 5 mm
}

// Sharpness is by how much a stopped string sounds above equal temperament, by cause. Positive is sharp.
type Sharpness struct {
	Length    Cents // what sounds is shorter or longer than the fret's place alone says
	Mass      Cents // the stretched string weighs less per length
	Tension   Cents // the stretched string pulls harder
	Stiffness Cents // a shorter string is stiffer for its length
}

// Total is all causes together.
func (s Sharpness) Total() Cents { return s.Length + s.Mass + s.Tension + s.Stiffness }

func (s Stopped) check(fret int) error {
	err := within(QuantityScale, float64(s.Scale), float64(ShortestScale), float64(LongestScale))
	if err == nil {
		err = within(QuantityFret, float64(fret), 1, LargestFret)
	}
	if err == nil {
		err = within(QuantityGap, float64(s.Nut), -15, 15)
	}
	if err == nil {
		err = within(QuantityGap, float64(s.Rise), -15, 15)
	}
	if err == nil {
		err = within(QuantitySetback, float64(s.SaddleBack), -10, 20)
	}
	if err == nil {
		err = within(QuantitySetback, float64(s.NutBack), -5, 5)
	}
	if err == nil {
		behind := float64(s.Scale)*(1-math.Exp2(-float64(fret)/12)) + float64(s.NutBack)
		err = within(QuantityFinger, float64(s.Finger), 0, min(20, behind))
	}
	return err
}

// lengths are the open string, what sounds of it when stopped, and the rest back to the nut by way of the finger: L0, Ln and L'n.
func (s Stopped) lengths(ratio float64) (open, sounding, rest float64) {
	x := float64(s.Scale)
	b, c, d := float64(s.Nut), float64(s.Rise), float64(s.Finger)
	flat := x/ratio + float64(s.SaddleBack)
	open = math.Hypot(x+float64(s.SaddleBack+s.NutBack), c)
	sounding = math.Hypot(flat, b+c)
	rest = sounding*d/flat + math.Hypot(x-x/ratio+float64(s.NutBack)-d, b+(b+c)*d/flat)
	return open, sounding, rest
}

// Strain is how much longer the whole string is stopped at a fret than open, as a share of the open string: Qn = (Ln + L'n − L0)/L0.
// Errors: *RangeError.
func (s Stopped) Strain(fret int) (float64, error) {
	if err := s.check(fret); err != nil {
		return 0, err
	}
	open, sounding, rest := s.lengths(math.Exp2(float64(fret) / 12))
	return (sounding + rest - open) / open, nil
}

// Sharp is the error of the stopped string for the stretch factor κ (1 to 10 000) and the open string's stiffness B0 (0 to 0.05; see
// StiffnessOf; 0: left out). Errors: *RangeError.
//
// 1200·log2(L0/(g·Ln)) + 600·log2(1 + Qn) + 600·log2(1 + κQn) + 1200·log2[(1 + Bn + (1 + π²/2)Bn²)/(1 + B0 + (1 + π²/2)B0²)], g =
// 2^(n/12), Bn = g·B0. Source: as above. Clamped at the nut or fret, pinned at the saddle; its authors measured that stiffness term to
// 20 or 30 %, on nylon. Against a real instrument 1 or 2 cents at the low frets, and 20 to 30 % of the whole.
func (s Stopped) Sharp(fret int, stretch, stiffness float64) (Sharpness, error) {
	err := s.check(fret)
	if err == nil {
		err = within(QuantityStretch, stretch, 1, mostStretch)
	}
	if err == nil {
		err = within(QuantityStiffness, stiffness, 0, mostStiffness)
	}
	if err != nil {
		return Sharpness{}, err
	}
	return s.sharp(math.Exp2(float64(fret)/12), stretch, stiffness), nil
}

func (s Stopped) sharp(ratio, stretch, stiffness float64) Sharpness {
	open, sounding, rest := s.lengths(ratio)
	strain := (sounding + rest - open) / open
	stiff := func(b float64) float64 { return 1 + b + (1+math.Pi*math.Pi/2)*b*b }
	return Sharpness{
		Length:    Cents(1200 * math.Log2(open/(ratio*sounding))),
		Mass:      Cents(600 * math.Log2(1+strain)),
		Tension:   Cents(600 * math.Log2(1+stretch*strain)),
		Stiffness: Cents(1200 * math.Log2(stiff(ratio*stiffness)/stiff(stiffness))),
	}
}

const mostStiffness = 0.05

// StiffnessOf is B0 = √κ·ρ/(2L) of a string with the stretch factor κ (1 to 10 000) and the radius ρ of what resists bending, 0 to 1.5
// mm, on a scale: of a plain string its own, of a wound steel one the core's. Errors: *RangeError. Source: as above, for round strings.
func StiffnessOf(stretch float64, radius, scale Length) (float64, error) {
	err := within(QuantityStretch, stretch, 1, mostStretch)
	if err == nil {
		err = within(QuantityDiameter, float64(2*radius), 0, 3)
	}
	if err == nil {
		err = within(QuantityScale, float64(scale), float64(ShortestScale), float64(LongestScale))
	}
	if err != nil {
		return 0, err
	}
	return stiffnessOf(stretch, radius, scale), nil
}

func stiffnessOf(stretch float64, radius, scale Length) float64 {
	return min(mostStiffness, math.Sqrt(stretch)*float64(radius/(2*scale)))
}

// Setbacks are roughly the places of saddle and nut that leave the least error over the first twelve frets, for a nut b over fret 1 and
// a saddle c over the nut: S = B0·X0 + κ((b + c)² − 7b²)/4X0, N = −κ(5b + c)b/2X0, from both 2κ(2b + c)²d/X0² for the finger. Errors:
// *RangeError. Source: as above, its approximate solution; the fit itself differs from it by some hundredths of a millimetre.
func (s Stopped) Setbacks(stretch, stiffness float64) (saddle, nut Length, err error) {
	if _, err := s.Sharp(1, stretch, stiffness); err != nil {
		return 0, 0, err
	}
	x, b, c, d := float64(s.Scale), float64(s.Nut), float64(s.Rise), float64(s.Finger)
	finger := 2 * stretch * (2*b + c) * (2*b + c) * d / (x * x)
	saddle = Length(stiffness*x + stretch/(4*x)*((b+c)*(b+c)-7*b*b) - finger)
	nut = Length(-stretch/(2*x)*(5*b+c)*b - finger)
	return saddle, nut, nil
}

// CentsRange is every error between Low and High.
type CentsRange struct{ Low, High Cents }

func (r CentsRange) hull(c Cents) CentsRange { return CentsRange{min(r.Low, c), max(r.High, c)} }

var noCents = CentsRange{Cents(math.Inf(1)), Cents(math.Inf(-1))}

// Sharp is how sharp the string sounds when stopped at a fret, pressed finger (0 to 20 mm) behind it, over this path: its height at nut
// and saddle over the fret's own top, so with the relief, and the saddle's setback as the neck has it. The string's scale must be the
// neck's. Errors: ErrNoStretch, ErrNoPath, *RangeError.
//
// To second order the stretch is the square of the open gap at that fret, so the ends of that gap are the ends of the error; both are
// tried with both ends of the stretch factor. A string that may lie on the fret already is taken as not stretched there.
func (p Path) Sharp(s Strung, fret int, finger Length) (CentsRange, error) {
	if err := p.sharpens(s, fret, finger); err != nil {
		return CentsRange{}, err
	}
	o := p.board.over(fret, 0)
	r := noCents
	for _, high := range []bool{false, true} {
		end := make([]Length, len(p.known))
		for j, k := range p.known {
			w := o.nut*p.nut.weight(j) + o.saddle*p.saddle.weight(j) + o.relief*p.relief.weight(j)
			if end[j] = k.Low; high == (w > 0) {
				end[j] = k.High
			}
		}
		for _, kappa := range []float64{s.Stretch.Low, s.Stretch.High} {
			r = r.hull(p.sharp(s, fret, finger, kappa, end))
		}
	}
	return r, nil
}

func (p Path) sharpens(s Strung, fret int, finger Length) error {
	if err := p.condition(fret, 0); err != nil {
		return err
	}
	if err := s.check(); err != nil {
		return err
	}
	if err := s.stretchKnown(); err != nil {
		return err
	}
	if err := within(QuantityScale, float64(s.Scale), float64(p.board.Scale-1), float64(p.board.Scale+1)); err != nil {
		return err
	}
	if err := within(QuantityDiameter, float64(2*s.Stiff), 0, 3); err != nil {
		return err
	}
	return within(QuantityFinger, float64(finger), 0, min(20, p.board.x[fret]))
}

// at is the form's value when everything known is this.
func (f form) at(known []Length) float64 {
	x := f.plain
	for j, w := range f.of {
		x += w * float64(known[j])
	}
	return x
}

// sharp is the error when everything known is this.
func (p Path) sharp(s Strung, fret int, finger Length, kappa float64, known []Length) Cents {
	nut, saddle := p.nut.at(known), p.saddle.at(known)
	top := p.board.bow[fret]*p.relief.at(known) + p.board.fall[fret]
	t := p.board.x[fret] / p.board.saddle
	lifted := max(0, top-(nut*(1-t)+saddle*t))
	stopped := Stopped{Scale: p.board.Scale, Nut: Length(nut + lifted - top), Rise: Length(saddle - nut), Finger: finger, SaddleBack: p.board.Setback}
	return stopped.sharp(math.Exp2(float64(fret)/12), kappa, stiffnessOf(kappa, s.Stiff, s.Scale)).Total()
}

// mostCornersOfAChange is how many things may be open before the change is told by its two ranges instead.
const mostCornersOfAChange = 6

// SharpChange is how much sharper the string sounds at a fret over the path after than over this one: negative when it is lowered.
// Where after was made from this path both are worked out at the same ends of the same readings, so that what is not known of the
// instrument cancels; otherwise, and with more than six things open, it is the difference of the two ranges. Errors as for Sharp.
func (p Path) SharpChange(after Path, s Strung, fret int, finger Length) (CentsRange, error) {
	before, err := p.Sharp(s, fret, finger)
	if err != nil {
		return CentsRange{}, err
	}
	then, err := after.Sharp(s, fret, finger)
	if err != nil {
		return CentsRange{}, err
	}
	var open []int
	for j, k := range after.known {
		if k.Width() > 0 {
			open = append(open, j)
		}
	}
	if !p.leadsTo(after) || len(open) > mostCornersOfAChange {
		return CentsRange{then.Low - before.High, then.High - before.Low}, nil
	}
	r := noCents
	known := make([]Length, len(after.known))
	for corner := range 1 << len(open) {
		for j, k := range after.known {
			known[j] = k.Low
		}
		for bit, j := range open {
			if corner>>bit&1 == 1 {
				known[j] = after.known[j].High
			}
		}
		for _, kappa := range []float64{s.Stretch.Low, s.Stretch.High} {
			r = r.hull(after.sharp(s, fret, finger, kappa, known) - p.sharp(s, fret, finger, kappa, known))
		}
	}
	return r, nil
}

// leadsTo tells whether after was made from p.
func (p Path) leadsTo(after Path) bool {
	if p.board != after.board || len(after.known) < len(p.known) {
		return false
	}
	for j, k := range p.known {
		if after.known[j] != k {
			return false
		}
	}
	return true
}
