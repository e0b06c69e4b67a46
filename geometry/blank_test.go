package geometry_test

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	. "gapwright/geometry"
)

// sixteenInch is six strings that run parallel over a board of 16 in, each 0.5 over fret 1; the outer two 2.5 over fret 12 on a saddle of
// 10 mm there, all wanted at 2.0; the slot is 72 × 2.5 × 5.
func sixteenInch() Blank {
	b := Blank{Neck: guitar, Camber: Camber{Nut: 16 * Inch}, Slot: Slot{Length: Exactly(72), Width: Exactly(2.5), Depth: Exactly(5)}, Behind: [2]Length{10, 10}, Smoothing: 0.1}
	for _, u := range []Length{-26, -15.6, -5.2, 5.2, 15.6, 26} {
		b.Strings = append(b.Strings, BlankString{Seat: Seat{Nut: u, Saddle: u, First: Exactly(0.5), Twelfth: 2}, Gap: Exactly(2.5)})
	}
	b.Strings[0].Old, b.Strings[5].Old = Exactly(10), Exactly(10)
	return b
}

func TestANewSaddleForABoardOfSixteenInches(t *testing.T) {
	s := must(FromBlank(sixteenInch()))
	// outer: 10 + (2.0 − 2.5)/0.5 = 9; the others over them by the board's drops of 0.832546, 0.299520 and 0.033269
	for i, want := range []Length{9, 9.533026, 9.799277, 9.799277, 9.533026, 9} {
		nearInterval(t, "height", s.Strings[i].Height, Exactly(want), 1.5e-6)
		near(t, "stop", s.Strings[i].Stop, want+0.1, 1.5e-6)
		near(t, "above", s.Strings[i].Above, want-9, 1.5e-6)
		near(t, "fan", s.Strings[i].Fan, 0, 1e-9)
	}
	for _, e := range s.Ends { // 36²/(406.4 + √(406.4² − 36²)) = 1.597628 is the arc's drop at the ends: 9 + 0.832546 − 1.597628
		nearInterval(t, "end", e.Height, Exactly(8.234918), 1.5e-6)
		near(t, "end's stop", e.Stop, 8.334918, 1.5e-6)
		near(t, "end above", e.Above, -0.765082, 1.5e-6)
	}
	near(t, "half-way between two strings", s.StopAt(10.4), 9+0.1+0.832546-0.133093, 1.5e-6) // 10.4²/(406.4 + 406.266907) = 0.133093
	near(t, "the middle", s.Tallest, 9+0.1+0.832546, 1.5e-6)
	near(t, "above, in the middle", s.AboveAt(0), 0.832546, 1.5e-6)
	near(t, "beyond the end", s.StopAt(99), 8.334918, 1.5e-6)
	near(t, "the board's radius", s.Radius, 406.4, 1e-9)
	nearInterval(t, "length", s.Length, Interval{Low: 71.6, High: 71.9}, 1e-9)
	nearInterval(t, "thickness", s.Thickness, Interval{Low: 2.45, High: 2.5}, 1e-9)
	for side := range s.Exposure { // 9 − 5, and atan(4/10) = 21.8 degrees
		nearInterval(t, "exposure", s.Exposure[side], Exactly(4), 1e-6)
	}
	if len(s.Found) != 0 || !s.Known || s.Level || s.Ends[0].At != -36 || s.Ends[1].At != 36 {
		t.Errorf("%+v", s)
	}
	low := sixteenInch()
	low.Slot.Depth, low.Behind[0] = Interval{7.4, 7.6}, 12 // 1.4 to 1.6 stand over the top
	s = must(FromBlank(low))
	nearInterval(t, "exposure", s.Exposure[0], Interval{1.4, 1.6}, 1e-9)
	if len(s.Found) != 4 || s.Found[0].Kind != ExposureTooLow || s.Found[0].Severity != Refuse || s.Found[1].Kind != BreakTooShallow || s.Found[2].Side != TrebleSide {
		t.Errorf("%+v", s.Found)
	}
}

func TestFanningOutIsSeen(t *testing.T) {
	// 17.5 from the middle at the nut, 27 at the saddle: 22.25 over fret 12, (22.25 − 17.5)²/250 = 0.09025 from the nut, and told from fret
	// 1, 613.5183/650 of it: 0.085185
	b := sixteenInch()
	b.Camber.Nut = 250
	for i := range b.Strings {
		u := -27 + 10.8*Length(i)
		b.Strings[i].Nut, b.Strings[i].Saddle = u*17.5/27, u
	}
	b.Strings[0].Old, b.Strings[5].Old = Interval{}, Interval{}
	b.Strings[2].Old = Exactly(10) // one is enough where the underside is level
	s := must(FromBlank(b))
	near(t, "fan", s.Strings[0].Fan, 0.085185, 0.002) // to second order in u/R
	near(t, "both sides", s.Strings[5].Fan, s.Strings[0].Fan, 1e-9)
	if !s.Level || !s.Known {
		t.Error("one measured string hangs the crown up level")
	}
	// the outer seat is so much higher than the board's arc through the middle ones
	arc := must(b.Camber.Drop(650, 27)) - must(b.Camber.Drop(650, 5.4))
	near(t, "it is in the height", s.Strings[0].Height.Low-(s.Strings[2].Height.Low-arc), s.Strings[0].Fan-s.Strings[2].Fan, 1e-9)
	b.Camber = Camber{Nut: 250, End: 250 * 27 / 17.5, EndAt: 650} // strings on the generators of a cone
	near(t, "on a cone", must(FromBlank(b)).Strings[0].Fan, 0, 1e-9)
	b.Camber = Camber{}
	near(t, "on a flat board", must(FromBlank(b)).Strings[0].Fan, 0, 0)
}

// bench is a guitar worked out directly: frets along a curve, a rounded board, strings as straight lines.
type bench struct {
	neck          Neck
	relief        float64
	camber        Camber
	tilt, rise    float64 // of the board over the saddle's underside
	nut, saddle   []float64
	over, heights []float64 // over the board's frame at the nut; over the underside at the saddle
}

func (b bench) fret(n int) float64 { return float64(b.neck.Scale) * (1 - math.Pow(2, -float64(n)/12)) }

// gap is how high string i stands over a fret when its seat is so high over the underside.
func (b bench) gap(i, n int, seat float64) Length {
	x, end := b.fret(n), float64(b.neck.Scale+b.neck.Setback)
	x1, xj := b.fret(1), b.fret(b.neck.Body)
	t := x / end
	u := b.nut[i] + (b.saddle[i]-b.nut[i])*t
	z := -4 * b.relief * (x - x1) * (xj - x) / ((xj - x1) * (xj - x1))
	if r := float64(b.camber.Nut); r != 0 {
		if b.camber.End != 0 {
			r += (float64(b.camber.End) - r) * x / float64(b.camber.EndAt)
		}
		z -= r - math.Sqrt(r*r-u*u)
	}
	return Length(b.over[i]*(1-t) + (b.rise+b.tilt*b.saddle[i]+seat)*t - z)
}

func anyBench(rng *rand.Rand) bench {
	b := bench{neck: Neck{Scale: 340 + 500*Length(rng.Float64()), Setback: 4 * Length(rng.Float64()), Body: 14, Frets: 20}, relief: 0.4 * rng.Float64(),
		tilt: 0.02 * (rng.Float64() - 0.5), rise: -6 + 2*rng.Float64()}
	switch rng.IntN(3) {
	case 1:
		b.camber = Camber{Nut: 180 + 400*Length(rng.Float64())}
	case 2:
		b.camber = Camber{Nut: 180 + 200*Length(rng.Float64()), End: 400 + 100*Length(rng.Float64()), EndAt: 480}
	}
	n := 2 + rng.IntN(7)
	wide, narrow := 40+15*rng.Float64(), 30+8*rng.Float64()
	for i := range n {
		t := float64(i)/float64(n-1) - 0.5
		b.nut, b.saddle = append(b.nut, t*narrow), append(b.saddle, t*wide)
		drop := 0.0
		if r := float64(b.camber.Nut); r != 0 {
			drop = (t * narrow) * (t * narrow) / (2 * r)
		}
		b.over = append(b.over, 0.5+0.3*rng.Float64()-drop)
		b.heights = append(b.heights, 8+2*rng.Float64()) // a crown that follows nothing
	}
	return b
}

func (b bench) blank(rng *rand.Rand, wide Length) Blank {
	about := func(l Length) Interval {
		low := l - wide*Length(rng.Float64())
		return Interval{low, low + wide}
	}
	k := Blank{Neck: b.neck, Relief: about(Length(b.relief)), Camber: b.camber, Slot: Slot{Length: Exactly(70), Width: Exactly(3)}}
	for i := range b.nut {
		k.Strings = append(k.Strings, BlankString{
			Seat: Seat{Nut: Length(b.nut[i]), Saddle: Length(b.saddle[i]), First: about(b.gap(i, 1, b.heights[i])), Twelfth: 1.5 + Length(rng.Float64())},
			Gap:  about(b.gap(i, 12, b.heights[i])),
		})
	}
	for _, i := range []int{0, len(b.nut) - 1} {
		k.Strings[i].Old = about(Length(b.heights[i]))
	}
	return k
}

// A new saddle made as told gives each string its wanted gap on a guitar worked out directly, whatever the old crown was like.
func TestANewSaddleGivesTheWantedGaps(t *testing.T) {
	for _, seed := range seeds {
		rng := rand.New(rand.NewPCG(seed, 81))
		for range 300 {
			b := anyBench(rng)
			k := b.blank(rng, 0)
			s := must(FromBlank(k))
			for i, c := range s.Strings {
				near(t, fmt.Sprintf("seed %d, string %d", seed, i), b.gap(i, 12, float64(c.Height.Low)), k.Strings[i].Twelfth, 1e-9)
				near(t, "width", c.Height.Width(), 0, 1e-9)
			}
			// another crown, measured at every string, gives the same by each string's own
			for i := range k.Strings {
				k.Strings[i].Old = Exactly(Length(b.heights[i]))
			}
			for i, c := range must(FromBlank(k)).Strings {
				near(t, "the same", c.Height.Low, s.Strings[i].Height.Low, 1e-9)
				if i > 0 && i < len(s.Strings)-1 {
					near(t, "its own", c.Own.Low, c.Height.Low, 1e-9)
				}
			}
		}
	}
}

// Wherever the truth lies in the readings: at the top of its range no string is too low, at the bottom none too high.
func TestANewSaddleAtItsStopIsNeverTooLow(t *testing.T) {
	for _, seed := range seeds {
		rng := rand.New(rand.NewPCG(seed, 82))
		tightest := Length(1)
		for range 600 {
			b := anyBench(rng)
			k := b.blank(rng, 0.1)
			k.Smoothing = 0.1
			s := must(FromBlank(k))
			for i, c := range s.Strings {
				wanted := k.Strings[i].Twelfth
				if b.gap(i, 12, float64(c.Stop-0.1)) < wanted-1e-9 || b.gap(i, 12, float64(c.Height.Low)) > wanted+1e-9 {
					t.Fatalf("seed %d: string %d, %v, wanted %v", seed, i, c, wanted)
				}
				tightest = min(tightest, b.gap(i, 12, float64(c.Height.High))-wanted)
			}
		}
		if tightest > 0.02 { // some truth lies near the end of its reading: the range is no wider than it must be
			t.Errorf("seed %d: never nearer to the wanted height than %v", seed, tightest)
		}
	}
}

func TestANewSaddleMirroredAndStraight(t *testing.T) {
	for _, seed := range seeds {
		rng := rand.New(rand.NewPCG(seed, 83))
		for range 100 {
			k := anyBench(rng).blank(rng, 0.2)
			s := must(FromBlank(k))
			m := k
			m.Strings = nil
			for i := range k.Strings {
				o := k.Strings[len(k.Strings)-1-i]
				o.Nut, o.Saddle = -o.Nut, -o.Saddle
				m.Strings = append(m.Strings, o)
			}
			r := must(FromBlank(m))
			for i, c := range s.Strings {
				nearInterval(t, "mirrored", r.Strings[len(r.Strings)-1-i].Height, c.Height, 1e-9)
			}
			nearInterval(t, "mirrored end", r.Ends[1].Height, s.Ends[0].Height, 1e-9)
			near(t, "mirrored top", r.StopAt(-7), s.StopAt(7), 1e-9)
		}
	}
	b := sixteenInch() // a radius of a kilometre is straight: 36²/2e6 = 0.0006
	b.Camber.Nut = 1e6
	s := must(FromBlank(b))
	for _, c := range append(s.Strings, s.Ends[0], s.Ends[1]) {
		near(t, "straight", c.Height.Low, 9, 0.0007)
	}
	b.Camber.Nut = 0
	b.Strings[5].Twelfth = 1.8 // 10 + (1.8 − 2.5)/0.5 = 8.6 at the treble, on a straight line at its end: 8.6 − 10 × 0.4/52
	near(t, "straight and sloping", must(FromBlank(b)).Ends[1].Height.Low, 8.523077, 5e-7)
}

func TestAnOldSaddleThatDoesNotAgree(t *testing.T) {
	b := sixteenInch()
	b.Strings[2].Old = Interval{10.75, 10.85} // asks for 9.75 to 9.85, and the crown is 9.799277 there
	c := must(FromBlank(b)).Strings[2]
	nearInterval(t, "its own", c.Own, Interval{9.75, 9.85}, 1e-9)
	if c.Differs {
		t.Error("it agrees")
	}
	b.Strings[2].Old = Interval{10.85, 10.95}
	if c = must(FromBlank(b)).Strings[2]; !c.Differs {
		t.Error("9.85 and 9.80 do not agree")
	}
}

func TestAShapeWithoutAnOldSaddle(t *testing.T) {
	b := sixteenInch()
	for i := range b.Strings {
		b.Strings[i].Old, b.Strings[i].Gap = Interval{}, Interval{}
	}
	s := must(FromBlank(b))
	for i, want := range []Length{0, 0.533026, 0.799277, 0.799277, 0.533026, 0} {
		nearInterval(t, "over the lowest", s.Strings[i].Height, Exactly(want), 1.5e-6)
		near(t, "above", s.Strings[i].Above, want, 1.5e-6)
	}
	near(t, "end", s.Ends[0].Above, -0.765082, 1.5e-6)
	if s.Known || s.Level || s.Tallest != 0 || s.StopAt(0) != 0 || s.Exposure != [2]Interval{} || (NewSaddle{}).AboveAt(1) != 0 {
		t.Errorf("%+v", s)
	}
	// a longer scale under the bass changes nothing where nut, target and leverage are the same but for the relief's place
	b.Strings[0].Scale = 680
	near(t, "its own scale", must(FromBlank(b)).Strings[0].Height.Low, 0, 1e-6)
}

func TestABlankRefuses(t *testing.T) {
	for _, c := range []struct {
		set  func(*Blank)
		want Quantity
	}{
		{func(b *Blank) { b.Slot.Length = Exactly(19) }, QuantitySaddle}, {func(b *Blank) { b.Slot.Width = Exactly(nan) }, QuantitySlot},
		{func(b *Blank) { b.Slot.Depth = Exactly(21) }, QuantityDepth}, {func(b *Blank) { b.Slot.Middle = nan }, QuantityOffset},
		{func(b *Blank) { b.Smoothing = nan }, QuantityAllow}, {func(b *Blank) { b.Relief = Exactly(4) }, QuantityRelief},
		{func(b *Blank) { b.Neck.Scale = 0 }, QuantityScale}, {func(b *Blank) { b.Camber.Nut = 49 }, QuantityRadius},
		{func(b *Blank) { b.Slot.Length, b.Camber.Nut = Exactly(120), 55 }, QuantityRadius},
		{func(b *Blank) { b.Strings[1].Saddle = -25.5 }, QuantityOffset}, {func(b *Blank) { b.Strings[0].Saddle = nan }, QuantityOffset},
		{func(b *Blank) { b.Strings[1].Nut = 60 }, QuantityOffset}, {func(b *Blank) { b.Strings[1].Nut = nan }, QuantityOffset},
		{func(b *Blank) { b.Strings[1].Twelfth = -1 }, QuantityTarget}, {func(b *Blank) { b.Strings[1].Gap = Exactly(nan) }, QuantityGap},
		{func(b *Blank) { b.Strings[1].First = Exactly(-1) }, QuantityGap}, {func(b *Blank) { b.Strings[0].Old = Exactly(0.4) }, QuantityHeight},
		{func(b *Blank) { b.Strings[1].Scale = 100 }, QuantityScale}, {func(b *Blank) { b.Strings[0].Old = Exactly(40); b.Strings[0].Gap = Exactly(1) }, QuantityHeight},
		{func(b *Blank) { b.Behind[1] = 0.5 }, QuantityDistance},
	} {
		b := sixteenInch()
		c.set(&b)
		s, err := FromBlank(b)
		refused(t, "FromBlank", err, c.want)
		if s.Strings != nil {
			t.Errorf("%+v and a refusal", s)
		}
	}
	for want, set := range map[error]func(*Blank){
		ErrTooMany:       func(b *Blank) { b.Strings = make([]BlankString, 13) },
		ErrTooFewStrings: func(b *Blank) { b.Strings = b.Strings[:1] },
		ErrOutsideSaddle: func(b *Blank) { b.Slot.Length = Exactly(51) },
		ErrNoReading:     func(b *Blank) { b.Strings[0].Gap = Interval{} },
	} {
		b := sixteenInch()
		set(&b)
		if _, err := FromBlank(b); !errors.Is(err, want) {
			t.Errorf("%v, want %v", err, want)
		}
	}
	seen := map[BlankStep]bool{}
	for _, step := range BlankSteps() {
		seen[step] = true
	}
	if len(seen) != 7 || BlankSteps()[0] != BlankThickness || BlankSteps()[6] != BlankPolish || len(BlankQuantities()) != 2 {
		t.Errorf("%v", BlankSteps())
	}
}

func ExampleFromBlank() {
	// flat board, gaps of 2.5 and 2.25 wanted at 2.0 and 1.75, the old saddle 9.4 and 8.8 under them: 9.4 − 0.5/0.5, 8.8 − 0.5/0.5
	outer := func(u, gap, old Length) BlankString {
		return BlankString{Seat: Seat{Nut: u * 0.7, Saddle: u, First: Exactly(0.5), Twelfth: gap - 0.5}, Gap: Exactly(gap), Old: Exactly(old)}
	}
	s, _ := FromBlank(Blank{Neck: Neck{Scale: 650, Body: 14, Frets: 20}, Strings: []BlankString{outer(-27, 2.5, 9.4), outer(27, 2.25, 8.8)},
		Slot: Slot{Length: Exactly(72), Width: Exactly(2.5)}, Smoothing: 0.1})
	fmt.Println(s.Strings[0].Height.Low.Millimetres(0.01), s.Strings[1].Height.Low.Millimetres(0.01))
	fmt.Println(s.Ends[0].Stop.Millimetres(0.01), s.Ends[1].Stop.Millimetres(0.01)) // 0.6 over 54 goes on for 9 each way; 0.1 to smooth
	// Output:
	// 8.40 7.80
	// 8.60 7.80
}
