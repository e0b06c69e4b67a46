package draw

import "math"

// Bow is a neck from the side with its relief: a string held at two frets, straight, and the frets between that lie under it. Lengths in millimetres.
type Bow struct {
	Title, Desc string
	Length      float64 // nut to saddle, 200 to 1200
	From, To    int     // the frets at which the string is held, 1 to 24
	Relief      float64 // in the middle between them; below zero: bent back
	Known       bool    // it was read; if not, a bow is drawn as an example
	Label       string  // what is read; 30 letters
	Rod         bool    // the rod in the neck and its nut
	Turn        int     // the key at that nut: tighter above zero, looser below, 0: no key
	TurnLabel   string  // which way that is; 16 letters, in two lines
	LookLabel   string  // at the nut, where it is only looked for; 24 letters
	Exaggerated string  // how much taller than long it is drawn, see BowTimes; 32 letters
	LeftHanded  bool    // nut on the right
}

const (
	bowNut, bowEnd = 42.0, 264.0 // the nut, and the fret at which the neck meets the body
	bowMost        = 30.0        // no bow is drawn deeper
)

func (b Bow) along() float64 {
	return (bowEnd - bowNut) / (within(b.Length, 200, 1200) * (1 - math.Exp2(-within(float64(b.To), 2, 24)/12)))
}

// BowTimes is how many times taller than long BowPicture draws: the same for every bow that a neck has, so that a straight one looks straight and a deep one deep, less
// only where the picture would not hold it.
func BowTimes(b Bow) int {
	times := 1
	for _, t := range []int{2, 5, 10, 20, 30, 40} {
		if math.Abs(b.Relief)*b.along()*float64(t) <= bowMost {
			times = t
		}
	}
	return times
}

// BowPicture draws it. The key is seen twice: at the nut, and from its own end, where the arrow shows how it is turned; that one is no mirror image on a left-handed
// instrument.
func BowPicture(b Bow) Scene {
	p := sheet("bow", b.Title, b.Desc, 320, 0)
	deep := 7.0
	if b.Known {
		deep = within(b.Relief, -8/b.along(), 100) * b.along() * float64(BowTimes(b))
		deep = within(deep, -8, bowMost)
	}
	line := 30.0 // the string
	switch {
	case b.Turn != 0:
		line = 52
	case b.LookLabel != "":
		line = 42
	}
	at := func(fret int) float64 {
		return bowNut + within(b.Length, 200, 1200)*b.along()*(1-math.Exp2(-float64(fret)/12))
	}
	from, to := at(max(b.From, 1)), bowEnd
	sag := func(x float64) float64 {
		t := within((x-from)/(to-from), 0, 1)
		return 4 * t * (1 - t) * deep
	}
	const crown, thick, neck = 4.0, 9.0, 21.0
	const steps = 16
	var top, under, back []float64
	for i := range steps + 1 {
		x := bowNut + (to-bowNut)*float64(i)/steps
		y := line + crown + sag(x)
		top = append(top, x, y)
		under = append([]float64{x, y + thick}, under...)
		back = append([]float64{x, y + neck + 6*math.Exp2(-float64(i))}, back...)
	}
	foot := line + crown
	p.area(Wood, append(append([]float64{4, foot + 12, bowNut, foot + thick - 2}, top...), append([]float64{to + 10, foot + 10, 316, foot + 10, 316, foot + 46, to + 14, foot + 46, to + 4, foot + neck + 8},
		append(back, 4, foot+25)...)...)...)
	p.area(Board, append(append([]float64{}, top...), append([]float64{to + 10, foot, to + 10, foot + thick}, under...)...)...)
	var frets []float64
	for f := 1; f <= max(b.To, 2); f++ {
		x := at(f)
		frets = append(frets, x, line+crown+sag(x), x, line+sag(x))
	}
	p.strokes(Outline, frets...)
	p.area(Bone, bowNut-7, foot+thick, bowNut-7, line-6, bowNut, line-7, bowNut, foot+thick)
	wire := []float64{4, line + 5, bowNut - 4, line - 6.5, from, line}
	if deep < 0 { // it lies on the bow
		wire = append(wire, (from+to)/2, line+deep)
	}
	p.line(Wire, append(wire, to, line, 316, line-12)...)
	middle := (from + to) / 2
	switch {
	case b.Label == "":
	case b.Turn != 0: // beside the words at the key
		n := p.text(Label, middle-36, 16, Start, 350-middle, 2, b.Label)
		p.line(Dim, middle, 2+18*float64(n), middle, line+min(deep, 0)-2)
	default:
		p.text(Label, middle, 16, Middle, 300, 1, b.Label)
		p.line(Dim, middle, 20, middle, line+min(deep, 0)-2)
	}
	if deep > 7 {
		p.between(Dim, middle, line+1, middle, line+deep-1)
	}
	if b.Rod {
		p.line(Hint, bowNut-8, foot+thick+6, middle, foot+thick+6+max(deep, 0), to-8, foot+thick+8)
		p.rect(Metal, bowNut-24, foot+11, 16, 7, 2)
	}
	if b.LookLabel != "" {
		p.text(Label, 50, 20, Start, 220, 1, b.LookLabel)
		p.arrow(Move, 44, 16, bowNut-19, foot+8)
	}
	if b.Turn != 0 {
		p.line(Outline, bowNut-20, foot+14.5, 7, foot+14.5, 7, foot-8)
	}
	p.Height = foot + 52 + max(deep-12, 0)
	p.text(Label, 6, p.Height-4, Start, 252, 1, b.Exaggerated)
	key, tighter := 22.0, b.Turn > 0
	p.Scene = Handed(p.Scene, b.LeftHanded)
	if b.LeftHanded {
		key = 320 - key
	}
	if b.Turn != 0 {
		x, y := key, 24.0
		p.dot(Metal, x, y, 11)
		p.area(Hole, ring(x, y, 6, 0, 360)[:12]...)
		if tighter {
			p.sweep(Move, ring(x, y, 17, 200, -20)...)
		} else {
			p.sweep(Move, ring(x, y, 17, -20, 200)...)
		}
		if b.LeftHanded {
			p.text(Label, x-26, 20, End, 76, 2, b.TurnLabel)
		} else {
			p.text(Label, x+26, 20, Start, 76, 2, b.TurnLabel)
		}
	}
	return p.Scene
}
