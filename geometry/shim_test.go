package geometry_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	. "gapwright/geometry"
)

func TestShimIsTheShortfallOverTheLeverage(t *testing.T) {
	// 1.8 wanted 2.1 on both sides: 0.3 × 2 = 0.6 everywhere
	shim := must(Raise(two(Exactly(1.8), 2.1, Exactly(1.8), 2.1), ends72))
	nearLine(t, "level", shim.Lay, 0.6, 0.6)
	nearInterval(t, "at a string", shim.Strings[0], Exactly(0.6), 1e-12)
	if !shim.Even() || shim.BetterNew() || shim.Nothing() {
		t.Errorf("%+v", shim)
	}
	// bass short by 0.2, treble by 0.4: 0.4 and 0.8 at the strings 54 mm apart, 9 mm further each way 0.4 − 0.4/6 and 0.8 + 0.4/6
	shim = must(Raise(two(Exactly(1.9), 2.1, Exactly(1.6), 2.0), ends72))
	nearLine(t, "tapered", shim.Lay, 0.333333, 0.866667)
	nearInterval(t, "bass end", shim.Bass, Exactly(0.333333), 1e-6)
	near(t, "over", shim.Over[1], 0, 1e-9)
	if shim.Even() {
		t.Error("0.53 apart is not even")
	}
	// with 2 mm setback at fret 12: 0.3 × 652/325 = 0.601846
	strings := two(Exactly(1.8), 2.1, Exactly(1.8), 2.1)
	for i := range strings {
		strings[i].Leverage = must(Leverage(650, 2, 12, 0))
	}
	nearLine(t, "setback", must(Raise(strings, ends72)).Lay, 0.601846, 0.601846)
	// the floor counts when it is higher than the target: (2.0 − 1.8) × 2
	strings = two(Exactly(1.8), 1.7, Exactly(1.8), 1.7)
	strings[0].Floor, strings[1].Floor = 2, 2
	nearLine(t, "floor", must(Raise(strings, ends72)).Lay, 0.4, 0.4)
}

func TestShimIsLaidForTheWorstReading(t *testing.T) {
	// read 1.75 to 2.00, wanted 2.1: 0.2 to 0.7 at the strings; ends 0.2 − 0.5/6 to 0.7 + 0.5/6, laid 0.7
	gap := must(TwoMarks(1.75, 2.00))
	strings := two(gap, 2.1, gap, 2.1)
	shim := must(Raise(strings, ends72))
	nearInterval(t, "string", shim.Strings[1], Interval{0.2, 0.7}, 1e-12)
	nearLine(t, "lay", shim.Lay, 0.7, 0.7)
	nearInterval(t, "bass end", shim.Bass, Interval{0.116667, 0.783333}, 1e-6)
	nearInterval(t, "treble end", shim.Treble, Interval{0.116667, 0.783333}, 1e-6)
	nearInterval(t, "then it reads", strings[0].Raised(Exactly(shim.Lay.At(-27))), Interval{2.1, 2.35}, 1e-9)
	// a reading that may already be there: from nothing up
	gap = must(TwoMarks(2.0, 2.25))
	shim = must(Raise(two(gap, 2.1, gap, 2.1), ends72))
	nearInterval(t, "may be there", shim.Strings[0], Interval{0, 0.2}, 1e-12)
	nearLine(t, "lay", shim.Lay, 0.2, 0.2)
	// high enough everywhere
	if shim := must(Raise(two(Exactly(3), 2, Exactly(3), 2), ends72)); !shim.Nothing() || shim.Lay != (Line{Ends: ends72}) {
		t.Errorf("%+v, want nothing", shim)
	}
}

func TestAShimNeverGoesNegativeAtAnEnd(t *testing.T) {
	// bass needs nothing, treble 0.7 at 63 of 72 mm: from nothing at the bass end 0.7 × 72/63 = 0.8 at the treble end; the bass string gets 0.1 at the
	// saddle, 0.05 at its fret
	shim := must(Raise(two(Exactly(2.1), 2.1, Exactly(1.75), 2.1), ends72))
	nearLine(t, "from nothing", shim.Lay, 0, 0.8)
	near(t, "bass gets too much", shim.Over[0], 0.05, 1e-9)
	near(t, "treble gets its own", shim.Over[1], 0, 1e-9)
	// a middle string that alone needs 0.4: level, as thin as can be without favouring a side
	strings := append(two(Exactly(2.1), 2.1, Exactly(2.1), 2.1), MeasuredString{Gap: Exactly(1.9), Target: 2.1, Leverage: 0.5})
	nearLine(t, "level", must(Raise(strings, ends72)).Lay, 0.4, 0.4)
	// five strings of which the second needs most: 0.6 at −13.5 and 0.2 at 13.5; over the mean place 0 the line through both, −0.4/27 per mm,
	// is 0.4; at the ends 0.4 ± 0.533333, negative at the treble end: from nothing there instead, 0.6 × 72/49.5 = 0.872727
	strings = strings[:2]
	for _, s := range []struct{ u, gap Length }{{-13.5, 1.8}, {0, 2.1}, {13.5, 2.0}} {
		strings = append(strings, MeasuredString{Offset: s.u, Gap: Exactly(s.gap), Target: 2.1, Leverage: 0.5})
	}
	nearLine(t, "second string", must(Raise(strings, ends72)).Lay, 0.872727, 0)
}

func TestShimIsTheLeastStraightStrip(t *testing.T) {
	for _, seed := range seeds {
		rng := rand.New(rand.NewPCG(seed, 51))
		laid := 0
		for range 1500 {
			strings, ends := anyStrings(rng, 2+rng.IntN(6))
			for i := range strings {
				strings[i].Target += Length(rng.Float64())
			}
			shim := must(Raise(strings, ends))
			if shim.Lay.Bass < 0 || shim.Lay.Treble < 0 || shim.Bass.Low < 0 || shim.Treble.Low < 0 {
				t.Fatalf("seed %d: %+v goes below nothing", seed, shim)
			}
			if !shim.Bass.Contains(shim.Lay.Bass) || !shim.Treble.Contains(shim.Lay.Treble) {
				t.Fatalf("seed %d: %+v does not hold what is laid", seed, shim)
			}
			if !shim.Nothing() {
				laid++
			}
			mean := Length(0)
			for i, s := range strings {
				mean += s.Offset / Length(len(strings))
				truth := s.Gap.Low + s.Gap.Width()*Length(rng.Float64())
				if after := s.Raised(Exactly(shim.Lay.At(s.Offset))); after.Low < max(s.Target, s.Floor)-1e-9 || !after.Contains(truth+Length(s.Leverage)*shim.Lay.At(s.Offset)) {
					t.Fatalf("seed %d: string %d comes to %v: %+v %+v", seed, i, after, strings, shim)
				}
				near(t, "over", shim.Over[i], s.Raised(Exactly(shim.Lay.At(s.Offset))).Low-max(s.Target, s.Floor), 1e-12)
			}
			// none of a hundred others that serve every string is thinner over their mean place
			best := shim.Lay.At(mean)
			for range 100 {
				other := Line{Ends: ends, Bass: max(0, shim.Lay.Bass+Length(rng.NormFloat64()*0.3)), Treble: max(0, shim.Lay.Treble+Length(rng.NormFloat64()*0.3))}
				serves := true
				for i, s := range strings {
					serves = serves && other.At(s.Offset) >= shim.Strings[i].High
				}
				if serves && other.At(mean) < best-1e-7 {
					t.Fatalf("seed %d: %+v is thinner than %+v: %+v", seed, other, shim.Lay, strings)
				}
			}
		}
		if laid < 500 {
			t.Fatalf("seed %d: only %d needed a shim", seed, laid)
		}
	}
}

func TestTheShimKnowsNeitherHandNorSize(t *testing.T) {
	for _, seed := range seeds {
		rng := rand.New(rand.NewPCG(seed, 52))
		for range 500 {
			strings, ends := anyStrings(rng, 2+rng.IntN(5))
			for i := range strings {
				strings[i].Target += Length(rng.Float64())
			}
			shim := must(Raise(strings, ends))
			other := must(Raise(mirrored(strings), ends))
			near(t, "mirrored", other.Lay.Bass, shim.Lay.Treble, 1e-7)
			nearInterval(t, "mirrored", other.Treble, shim.Bass, 1e-7)
			k := Length(0.6 + 1.2*rng.Float64())
			big := must(Raise(scaled(strings, k), Ends{ends.Bass * k, ends.Treble * k}))
			near(t, "scaled", big.Lay.Bass, shim.Lay.Bass*k, 1e-7)
			// more wanted is never less laid over the middle of the strings
			higher, mean := slices.Clone(strings), Length(0)
			for i := range higher {
				higher[i].Target += Length(rng.Float64() * 0.2)
				mean += higher[i].Offset / Length(len(higher))
			}
			if must(Raise(higher, ends)).Lay.At(mean) < shim.Lay.At(mean)-1e-7 {
				t.Fatalf("seed %d: more wanted, less laid: %+v", seed, strings)
			}
			if t.Failed() {
				t.Fatalf("seed %d: %+v", seed, strings)
			}
		}
	}
}

func TestShimOfTwoStringsHoldsEveryTruth(t *testing.T) {
	for _, seed := range seeds {
		rng := rand.New(rand.NewPCG(seed, 53))
		for range 500 {
			strings, ends := anyStrings(rng, 2)
			for i := range strings {
				strings[i].Target += Length(rng.Float64())
			}
			shim := must(Raise(strings, ends))
			for range 40 {
				exact := slices.Clone(strings)
				for i, s := range exact {
					exact[i].Gap = Exactly(s.Gap.Low + s.Gap.Width()*Length(rng.Float64()))
				}
				line := must(Raise(exact, ends)).Lay
				if !shim.Bass.Contains(line.Bass) || !shim.Treble.Contains(line.Treble) {
					t.Fatalf("seed %d: %+v outside %+v: %+v", seed, line, shim, exact)
				}
			}
		}
	}
}

func TestShimRefuses(t *testing.T) {
	good := two(Exactly(2), 2.2, Exactly(2), 2.2)
	for _, c := range []struct {
		strings []MeasuredString
		ends    Ends
		want    error
	}{{good[:1], ends72, ErrTooFewStrings}, {append(make([]MeasuredString, 11), good...), ends72, ErrTooMany}, {good, Ends{-20, 20}, ErrOutsideSaddle}} {
		if _, err := Raise(c.strings, c.ends); !errors.Is(err, c.want) {
			t.Errorf("%v, want %v", err, c.want)
		}
	}
	bad := two(Interval{nan, 2}, 2, Exactly(2), 2)
	_, err := Raise(bad, ends72)
	refused(t, "Raise", err, QuantityGap)
	// more open readings than corners are tried: still a range that holds what is laid
	twelve, ends := spread(12)
	for i := range twelve {
		twelve[i].Target += 1
	}
	if shim := must(Raise(twelve, ends)); !shim.Bass.Contains(shim.Lay.Bass) || !(shim.Bass.Low < shim.Lay.Bass) || !shim.Treble.Valid() {
		t.Errorf("%+v", shim)
	}
}

// leaf is so many leaves of one thickness, known to a hundredth either way.
func leaf(thickness Length, count int) Leaf {
	return Leaf{Interval{thickness - 0.01, thickness + 0.01}, count}
}

func exactLeaves(thicknesses ...Length) []Leaf {
	leaves := make([]Leaf, len(thicknesses))
	for i, l := range thicknesses {
		leaves[i] = Leaf{Exactly(l), 1}
	}
	return leaves
}

func TestThePileThatIsNotTooThin(t *testing.T) {
	thirteen := exactLeaves(FeelerSet(13)...)
	for _, c := range []struct {
		need   Length
		leaves int
		got    Length
	}{
		{0.25, 1, 0.25}, {0.55, 2, 0.55}, {0.90, 1, 0.90}, {0.27, 1, 0.30}, {0, 0, 0}, {-1, 0, 0}, {1.03, 2, 1.05}, {1.95, 3, 1.95}, // 1.00 + 0.90 + 0.05
	} {
		pile := must(PileFor(c.need, thirteen, 6))
		nearInterval(t, "pile", pile.Thickness, Exactly(c.got), 1e-9)
		if pile.Leaves != c.leaves {
			t.Errorf("for %v: %d leaves, want %d", c.need, pile.Leaves, c.leaves)
		}
	}
	// four cards of 0.76 ± 0.01 each: 0.75 each at the thinnest, so 1.5 takes two and 1.51 takes three
	cards := []Leaf{leaf(0.76, 4)}
	pile := must(PileFor(1.5, cards, 6))
	nearInterval(t, "two cards", pile.Thickness, Interval{1.50, 1.54}, 1e-9)
	if pile := must(PileFor(1.51, cards, 6)); pile.Counts[0] != 3 {
		t.Errorf("%+v, want three cards", pile)
	}
	// a veneer that may be anything from 0.5 to 0.7 is worse than two sure leaves
	pile = must(PileFor(0.5, []Leaf{{Interval{0.5, 0.7}, 1}, {Interval{0.27, 0.28}, 2}}, 6))
	if !slices.Equal(pile.Counts, []int{0, 2}) {
		t.Errorf("%+v, want the sure leaves", pile)
	}
	for _, c := range []struct {
		need   Length
		leaves []Leaf
		most   int
	}{{4, cards, 6}, {1.6, cards, 2}, {0.1, nil, 6}, {0.1, []Leaf{{Exactly(1), 0}}, 6}} {
		if _, err := PileFor(c.need, c.leaves, c.most); !errors.Is(err, ErrNoPile) {
			t.Errorf("PileFor(%v, %v, %d): %v", c.need, c.leaves, c.most, err)
		}
	}
	for _, c := range []struct {
		need   Length
		leaves []Leaf
		most   int
		want   Quantity
	}{
		{nan, cards, 6, QuantityShim}, {11, cards, 6, QuantityShim}, {1, cards, 0, QuantityLeaves}, {1, cards, 7, QuantityLeaves},
		{1, make([]Leaf, 25), 6, QuantityLeaves}, {1, []Leaf{{Exactly(0), 1}}, 6, QuantityFeeler}, {1, []Leaf{{Exactly(nan), 1}}, 6, QuantityFeeler},
		{1, []Leaf{{Interval{0.2, 0.1}, 1}}, 6, QuantityFeeler}, {1, []Leaf{{Exactly(1), -1}}, 6, QuantityLeaves},
	} {
		_, err := PileFor(c.need, c.leaves, c.most)
		refused(t, "PileFor", err, c.want)
	}
}

// everyPile looks at all piles, none left out.
func everyPile(need Length, leaves []Leaf, most int) (best Pile, ok bool) {
	counts := make([]int, len(leaves))
	var from func(kind, left int)
	from = func(kind, left int) {
		if kind < len(leaves) {
			for n := 0; n <= min(left, leaves[kind].Count); n++ {
				counts[kind] = n
				from(kind+1, left-n)
			}
			counts[kind] = 0
			return
		}
		p := Pile{Counts: slices.Clone(counts), Leaves: most - left}
		for i, n := range counts {
			p.Thickness.Low += leaves[i].Thickness.Low * Length(n)
			p.Thickness.High += leaves[i].Thickness.High * Length(n)
		}
		d := p.Thickness.High - best.Thickness.High
		if p.Thickness.Low >= need-1e-6 && (!ok || d < -1e-9 || d < 1e-9 && (p.Leaves < best.Leaves || p.Leaves == best.Leaves && p.Thickness.Low > best.Thickness.Low+1e-9)) {
			best, ok = p, true
		}
	}
	from(0, most)
	return best, ok
}

func TestThePileIsTheBestOfAll(t *testing.T) {
	for _, seed := range seeds {
		rng := rand.New(rand.NewPCG(seed, 54))
		found, tries := 0, 3000
		for trial := range tries {
			kinds, most := 1+rng.IntN(5), 1+rng.IntN(5)
			if trial < 10 {
				kinds, most = 12, 6
			}
			leaves := make([]Leaf, kinds)
			for i := range leaves {
				l := Length(1+rng.IntN(20)) * 0.05
				if rng.IntN(3) == 0 {
					l = Length(0.02 + rng.Float64())
				}
				leaves[i] = Leaf{Interval{l, l + Length(rng.IntN(3))*0.01}, rng.IntN(5)}
			}
			need := Length(rng.Float64() * 3)
			if rng.IntN(2) == 0 {
				need = need.RoundTo(0.05)
			}
			got, err := PileFor(need, leaves, most)
			want, ok := everyPile(need, leaves, most)
			if ok != (err == nil) {
				t.Fatalf("seed %d: %v of %v, most %d: %v, want %+v", seed, need, leaves, most, err, want)
			}
			if !ok {
				continue
			}
			found++
			sum, n := Interval{}, 0
			for i, count := range got.Counts {
				sum, n = sum.Plus(leaves[i].Thickness.Times(float64(count))), n+count
				if count > leaves[i].Count {
					t.Fatalf("seed %d: %+v of %+v", seed, got, leaves)
				}
			}
			nearInterval(t, "thickness", got.Thickness, sum, 1e-9)
			nearInterval(t, "best", got.Thickness, want.Thickness, 1e-8)
			if n != got.Leaves || n != want.Leaves || t.Failed() {
				t.Fatalf("seed %d: %v of %v, most %d: %+v, want %+v", seed, need, leaves, most, got, want)
			}
			// a little more to reach never makes a thinner pile
			if more, err := PileFor(need+0.01, leaves, most); err == nil && more.Thickness.High < got.Thickness.High-1e-9 {
				t.Fatalf("seed %d: %+v for more than %+v", seed, more, got)
			}
		}
		if found < tries/2 {
			t.Fatalf("seed %d: only %d of %d had a pile", seed, found, tries)
		}
	}
}

func TestAStripUnderOneEnd(t *testing.T) {
	// 0.2 under the whole and 0.3 under the last quarter of the treble end: the saddle stands on the far end and on the strip's edge at three
	// quarters, so 0.2 + 0.3/0.75 = 0.6 at the treble end, in the middle 0.4
	laid, rocks, err := Stepped(ends72, Exactly(0.2), Exactly(0.3), TrebleSide, 0.25)
	if err != nil || rocks {
		t.Fatal(err, rocks)
	}
	nearInterval(t, "bass end", laid.Bass, Exactly(0.2), 1e-12)
	nearInterval(t, "treble end", laid.Treble, Exactly(0.6), 1e-12)
	nearInterval(t, "middle", laid.At(0), Exactly(0.4), 1e-12)
	// half of the length: it lies flat on the strip, 0.5 at both ends, or tilts over its edge, 0.2 and 0.8
	laid, rocks, err = Stepped(ends72, Exactly(0.2), Exactly(0.3), BassSide, 0.5)
	if err != nil || !rocks {
		t.Fatal(err, rocks)
	}
	nearInterval(t, "bass end", laid.Bass, Interval{0.5, 0.8}, 1e-12)
	nearInterval(t, "treble end", laid.Treble, Interval{0.2, 0.5}, 1e-12)
	for _, c := range []struct {
		ends        Ends
		even, strip Interval
		part        float64
		want        Quantity
	}{
		{Ends{}, Exactly(0), Exactly(0), 0.3, QuantitySaddle}, {ends72, Exactly(nan), Exactly(0), 0.3, QuantityShim},
		{ends72, Exactly(0), Exactly(-1), 0.3, QuantityShim}, {ends72, Exactly(0), Exactly(0), 0.6, QuantityPart}, {ends72, Exactly(0), Exactly(0), math.NaN(), QuantityPart},
	} {
		_, _, err := Stepped(c.ends, c.even, c.strip, BassSide, c.part)
		refused(t, "Stepped", err, c.want)
	}
	if got := (Laid{Bass: Exactly(1), Treble: Exactly(2)}).At(5); got != Exactly(1) {
		t.Errorf("no ends: %v", got)
	}
}

func TestAShimIsBuiltOfWhatIsToHand(t *testing.T) {
	box := exactLeaves(FeelerSet(20)...)
	// 0.333 and 0.867 wanted: 0.35 under the whole, (0.866667 − 0.35) × 0.75 = 0.3875 under the last quarter: 0.40. At the end 0.35 + 0.4/0.75 = 0.883333
	strings := two(Exactly(1.9), 2.1, Exactly(1.6), 2.0)
	shim := must(Raise(strings, ends72))
	l := must(shim.Build(box, 6, 0.25))
	nearInterval(t, "even", l.Even.Thickness, Exactly(0.35), 1e-9)
	nearInterval(t, "strip", l.Strip.Thickness, Exactly(0.40), 1e-9)
	nearInterval(t, "bass end", l.Under.Bass, Exactly(0.35), 1e-9)
	nearInterval(t, "treble end", l.Under.Treble, Exactly(0.883333), 1e-6)
	if l.Side != TrebleSide {
		t.Error("the strip goes under the treble end")
	}
	// at the treble string, 63 of 72 mm: 0.35 + 0.533333 × 7/8 = 0.816667, half of it at the fret: 1.6 + 0.408333
	nearInterval(t, "then it reads", strings[1].Raised(l.Under.At(27)), Exactly(2.008333), 1e-6)
	// 0.05 apart at the ends: one even pile for the thicker
	shim.Lay.Bass, shim.Lay.Treble = 0.60, 0.55
	l = must(shim.Build(box, 6, 0.25))
	if l.Strip.Leaves != 0 || l.Side != BassSide || l.Even.Leaves != 1 {
		t.Errorf("%+v, want one leaf of 0.60", l)
	}
	nearInterval(t, "even", l.Under.Treble, Exactly(0.60), 1e-9)
	shim.Lay.Treble = 0.54 // 0.06 apart
	if l = must(shim.Build(box, 6, 0.25)); l.Strip.Leaves != 1 || l.Side != BassSide {
		t.Errorf("%+v, want a strip", l)
	}
	// nothing under the treble end: the strip alone, out of the same box
	shim.Lay.Bass, shim.Lay.Treble = 0.8, 0
	if l = must(shim.Build(box, 1, 0.25)); l.Even.Leaves != 0 || l.Strip.Thickness.Low != 0.6 {
		t.Errorf("%+v, want 0.60 under the bass end", l)
	}
	shim.Lay.Treble = 0.3
	if _, err := shim.Build(box, 1, 0.25); !errors.Is(err, ErrNoPile) {
		t.Errorf("one leaf cannot be two: %v", err)
	}
	if _, err := shim.Build(exactLeaves(0.4), 6, 0.25); !errors.Is(err, ErrNoPile) { // the one leaf lies under the whole
		t.Errorf("nothing is left for the strip: %v", err)
	}
	_, err := shim.Build(box, 6, 0.5)
	refused(t, "Build", err, QuantityPart)
	_, err = shim.Build(box, 9, 0.25)
	refused(t, "Build", err, QuantityLeaves)
	if shim.BetterNew() {
		t.Error("0.8 is a shim")
	}
	if shim.Lay.Bass = 1.05; !shim.BetterNew() {
		t.Error("1.05 is a new saddle")
	}
}

func TestABuiltShimIsNeverTooThin(t *testing.T) {
	for _, seed := range seeds {
		rng := rand.New(rand.NewPCG(seed, 55))
		built, stepped := 0, 0
		for range 1000 {
			strings, ends := anyStrings(rng, 2+rng.IntN(4))
			for i := range strings {
				strings[i].Target = strings[0].Target + Length(rng.Float64())*0.3
			}
			leaves := []Leaf{leaf(0.05, 2), leaf(0.1, 2), leaf(0.2, 2), leaf(0.4, 2), leaf(0.76, 4)}
			shim := must(Raise(strings, ends))
			l, err := shim.Build(leaves, 6, 0.1+0.3*rng.Float64())
			if err != nil {
				continue
			}
			built++
			if l.Strip.Leaves > 0 {
				stepped++
			}
			if l.Even.Leaves+l.Strip.Leaves > 6 {
				t.Fatalf("seed %d: %+v", seed, l)
			}
			for i, s := range strings {
				if after := s.Raised(l.Under.At(s.Offset)); after.Low < max(s.Target, s.Floor)-1e-6 {
					t.Fatalf("seed %d: string %d comes to %v on %+v: %+v", seed, i, after, l, strings)
				}
			}
		}
		if built < 300 || stepped < 100 {
			t.Fatalf("seed %d: %d built, %d stepped", seed, built, stepped)
		}
	}
}

func TestAShimLiftsTheSaddleOutOfItsSlot(t *testing.T) {
	for _, c := range []struct {
		name     string
		end      SaddleEnd
		shim     Interval
		severity Severity
		found    bool
	}{
		{"3.5 over, 4.5 in", SaddleEnd{Exposure: Exactly(3), Depth: 5}, Exactly(0.5), Note, false},
		{"4 over, 4 in: just as much", SaddleEnd{Exposure: Exactly(3), Depth: 5}, Exactly(1), Note, false},
		{"4.5 over, 3.5 in", SaddleEnd{Exposure: Exactly(3.5), Depth: 4.5}, Exactly(1), Note, true},
		{"4.6 over, 2.2 in: more than twice", SaddleEnd{Exposure: Exactly(3.8), Depth: 3}, Exactly(0.8), Caution, true},
		{"4 over, 2 in: just twice", SaddleEnd{Exposure: Exactly(3), Depth: 3}, Exactly(1), Note, true},
		{"0.8 in", SaddleEnd{Exposure: Exactly(3), Depth: 1.8}, Exactly(1), Refuse, true},
		{"the shim's high end counts: 2 to 0.9 in", SaddleEnd{Exposure: Exactly(1), Depth: 2.4}, Interval{0.4, 1.5}, Refuse, true},
		{"depth not measured", SaddleEnd{Exposure: Exactly(3)}, Exactly(3), Note, false},
	} {
		on, found, err := Shimmed(BassSide, c.end, c.shim)
		if err != nil || len(found) > 1 || (len(found) == 1) != c.found {
			t.Errorf("%s: %+v, %v", c.name, found, err)
			continue
		}
		if c.found && (found[0].Severity != c.severity || found[0].Kind != LeanRisk || found[0].Side != BassSide || found[0].Length != on.Exposure.High) {
			t.Errorf("%s: %+v", c.name, found)
		}
	}
	on, _, _ := Shimmed(BassSide, SaddleEnd{Exposure: Interval{3, 3.2}, Depth: 5}, Interval{0.4, 0.5})
	nearInterval(t, "over", on.Exposure, Interval{3.4, 3.7}, 1e-12)
	nearInterval(t, "in", on.Depth, Interval{4.5, 4.6}, 1e-12)
	for _, c := range []struct {
		end  SaddleEnd
		shim Interval
		want Quantity
	}{
		{SaddleEnd{Exposure: Exactly(nan)}, Exactly(1), QuantityExposure}, {SaddleEnd{Exposure: Exactly(3), Depth: nan}, Exactly(1), QuantityDepth},
		{SaddleEnd{Exposure: Exactly(3)}, Exactly(nan), QuantityShim}, {SaddleEnd{Exposure: Exactly(3)}, Exactly(-1), QuantityShim},
	} {
		_, _, err := Shimmed(BassSide, c.end, c.shim)
		refused(t, "Shimmed", err, c.want)
	}
}

func FuzzRaise(f *testing.F) {
	f.Add(-27.0, 1.8, 1.9, 2.1, 0.5, 27.0, 1.8, 2.0, 0.5, -36.0, 36.0, 0.3)
	f.Add(-27.0, 0.0, 15.0, 15.0, 0.01, -25.0, 0.0, 15.0, 1.0, -100.0, 100.0, 0.05)
	f.Add(math.NaN(), math.Inf(1), 0.0, -1.0, 0.0, 1e300, 1.0, 2.0, 3.0, 5.0, -5.0, math.NaN())
	f.Fuzz(func(t *testing.T, u1, low, high, target, lever, u2, gap2, target2, lever2, bass, treble, part float64) {
		strings := []MeasuredString{
			{Offset: Length(u1), Gap: Interval{Length(low), Length(high)}, Target: Length(target), Leverage: lever},
			{Offset: Length(u2), Gap: Exactly(Length(gap2)), Target: Length(target2), Leverage: lever2},
		}
		shim, err := Raise(strings, Ends{Length(bass), Length(treble)})
		if err != nil {
			return
		}
		if !sound(shim.Bass) || !sound(shim.Treble) || !shim.Lay.Bass.Finite() || shim.Lay.Bass < 0 || shim.Lay.Treble < 0 {
			t.Fatalf("%+v: %+v", strings, shim)
		}
		for _, s := range strings {
			if s.Raised(Exactly(shim.Lay.At(s.Offset))).Low < s.Target-1e-6 {
				t.Fatalf("%+v: %+v", strings, shim)
			}
		}
		if l, err := shim.Build([]Leaf{leaf(0.1, 3), leaf(0.76, 5)}, 6, part); err == nil && (!sound(l.Under.Bass) || !sound(l.Under.Treble)) {
			t.Fatalf("%+v: %+v", shim, l)
		}
	})
}
