package geometry

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// The fit is held against ways of finding it that share nothing with it: a nested search of a convex function for the worst deviation, and small
// steps in every direction for the ties.

func anyPulls(rng *rand.Rand, n int) []pull {
	pulls := make([]pull, n)
	for i := range pulls {
		want := rng.Float64()*1.5 - 0.3
		if rng.IntN(3) == 0 {
			want = math.Round(want*10) / 10 // makes ties
		}
		pulls[i] = pull{along: 0.1 + 0.8*(float64(i)+0.3*rng.Float64())/float64(n), lever: 0.45 + 0.2*rng.Float64(), want: want, cap: want + rng.Float64() - 0.4}
		if rng.IntN(2) == 0 {
			pulls[i].lever = 0.5
		}
		if rng.IntN(2) == 0 {
			pulls[i].cap = want
		}
	}
	return pulls
}

// worstFirst is every deviation without its sign, the worst first; nil when a cap is passed or an end negative.
func worstFirst(pulls []pull, p, q, forgive float64) []float64 {
	if p < 0 || q < 0 {
		return nil
	}
	d := make([]float64, len(pulls))
	for i, pl := range pulls {
		d[i] = math.Abs(pl.deviation(p, q))
		if pl.want-pl.deviation(p, q) > math.Max(0, pl.cap)+forgive {
			return nil
		}
	}
	slices.SortFunc(d, func(a, b float64) int {
		if a > b {
			return -1
		}
		return 1
	})
	return d
}

// better tells whether a is the better list by more than by hair.
func better(a, b []float64, hair float64) bool {
	for i := range a {
		switch {
		case a[i] < b[i]-hair:
			return true
		case a[i] > b[i]+hair:
			return false
		}
	}
	return false
}

// searched is the smallest worst deviation found by golden halving of q inside golden halving of p: both are convex.
func searched(pulls []pull) float64 {
	highest := func(p float64) float64 { // the most that may go at the treble end with p at the bass end, or below nothing
		q := 20.0
		for _, pl := range pulls {
			q = math.Min(q, (math.Max(0, pl.cap)/pl.lever-(1-pl.along)*p)/pl.along)
		}
		return q
	}
	golden := func(low, high float64, f func(float64) float64) float64 {
		const g = 0.6180339887498949
		a, b := high-g*(high-low), low+g*(high-low)
		fa, fb := f(a), f(b)
		for range 60 {
			if fa <= fb {
				high, b, fb = b, a, fa
				a = high - g*(high-low)
				fa = f(a)
			} else {
				low, a, fa = a, b, fb
				b = low + g*(high-low)
				fb = f(b)
			}
		}
		return min(f(low), f(high), fa, fb)
	}
	far := 20.0 // the most that may go at the bass end
	for _, pl := range pulls {
		far = math.Min(far, math.Max(0, pl.cap)/pl.lever/(1-pl.along))
	}
	return golden(0, far, func(p float64) float64 {
		return golden(0, math.Max(0, highest(p)), func(q float64) float64 {
			worst := 0.0
			for _, pl := range pulls {
				worst = math.Max(worst, math.Abs(pl.deviation(p, q)))
			}
			return worst
		})
	})
}

func TestFitHasTheSmallestWorstDeviation(t *testing.T) {
	for _, seed := range []uint64{1, 77} {
		rng := rand.New(rand.NewPCG(seed, 6))
		for range 60 {
			pulls := anyPulls(rng, 2+rng.IntN(11))
			p, q := fit(pulls)
			d := worstFirst(pulls, p, q, 1e-7)
			if d == nil {
				t.Fatalf("seed %d: %v, %v passes a cap of %+v", seed, p, q, pulls)
			}
			if want := searched(pulls); math.Abs(d[0]-want) > 1e-6 {
				t.Fatalf("seed %d: worst deviation %v, a search finds %v: %+v", seed, d[0], want, pulls)
			}
		}
	}
}

func TestNothingNearTheFitIsBetter(t *testing.T) {
	// The set of cuts is convex and so is the order by worst, next-worst and so on: if a better cut were anywhere, one would be near.
	for _, seed := range []uint64{2, 78} {
		rng := rand.New(rand.NewPCG(seed, 7))
		for range 1500 {
			pulls := anyPulls(rng, 2+rng.IntN(7))
			p, q := fit(pulls)
			have := worstFirst(pulls, p, q, 1e-7)
			for k := range 120 {
				size := math.Pow(10, -float64(k%5))
				angle := rng.Float64() * 2 * math.Pi
				if k%3 == 0 { // along what keeps one string where it is
					pl := pulls[rng.IntN(len(pulls))]
					angle = math.Atan2(-(1-pl.along), pl.along) + math.Pi*float64(k%2)
				}
				if other := worstFirst(pulls, p+size*math.Cos(angle), q+size*math.Sin(angle), 0); other != nil && better(other, have, 1e-7) {
					t.Fatalf("seed %d: %v, %v leaves %v; %v, %v would leave %v: %+v", seed, p, q, have, p+size*math.Cos(angle),
						q+size*math.Sin(angle), other, pulls)
				}
			}
		}
	}
}

func TestTiesAreSettledByTheNextWorst(t *testing.T) {
	for _, c := range []struct {
		name  string
		pulls []pull
		p, q  float64
	}{
		// 0.2 short at the first string whatever is done (its cap), so the others decide: 0.5/0.5 at 1/2, 0.4/0.5 at 3/4; s = 1, 0.8: slope −0.8
		{"a hopeless string does not spoil the rest", []pull{{0.25, 0.5, 0.9, 0.6}, {0.5, 0.5, 0.5, 1}, {0.75, 0.5, 0.4, 1}}, 1.4, 0.6},
		// nothing asked: least removed is nothing at all
		{"nothing", []pull{{0.2, 0.5, 0, 0}, {0.8, 0.5, 0, 0}}, 0, 0},
		// the bass string is over its target already and must not be touched: nothing anywhere
		{"one capped at nothing", []pull{{0.2, 0.5, -0.1, -0.1}, {0.8, 0.5, 0.5, 0.5}}, 0, 0},
		// one string a fifth of the way along asks 0.8 there: 1.0 at the bass end alone removes least (4.0 at the treble end alone would do too)
		{"least removed", []pull{{0.2, 0.5, 0.4, 9}}, 1, 0},
		// two strings at one place asking 0.2 and 0.6: 0.4 there, both 0.2 out; the third gets what it asks: cuts of 0.8 and 1.2 at their places
		{"a pair", []pull{{0.2, 0.5, 0.2, 9}, {0.2, 0.5, 0.6, 9}, {0.8, 0.5, 0.6, 9}}, 0.8 - 0.4/3, 1.2 + 0.4/3},
	} {
		p, q := fit(c.pulls)
		if math.Abs(p-c.p) > 1e-7 || math.Abs(q-c.q) > 1e-7 {
			t.Errorf("%s: %v, %v, want %v, %v", c.name, p, q, c.p, c.q)
		}
	}
	if p, q := fit(nil); p != 0 || q != 0 {
		t.Errorf("no strings: %v, %v", p, q)
	}
}

// A string that is the worst in two best cuts, too high in one and too low in the other, is less wrong between them: it must not be settled.
func TestAStringBetweenTwoBestCutsIsNotSettled(t *testing.T) {
	// The first string, at the very bass end, may not be lowered and keeps 0.4 whatever is done.
	// The second, at the treble end with 0.2 asked, may be 0.4 out either way: q = 0 … 1.2. Best is q = 0.4.
	pulls := []pull{{0, 0.5, 0.4, 0}, {1, 0.5, 0.2, 9}}
	if p, q := fit(pulls); math.Abs(p) > 1e-7 || math.Abs(q-0.4) > 1e-7 {
		t.Errorf("%v, %v, want 0, 0.4", p, q)
	}
	// with 0.4 asked the best cuts for the worst string run from q = 0 to 1.6, the second 0.4 out at both, on opposite sides; 0.8 suits it
	pulls[1].want = 0.4
	if p, q := fit(pulls); math.Abs(p) > 1e-7 || math.Abs(q-0.8) > 1e-7 {
		t.Errorf("%v, %v, want 0, 0.8", p, q)
	}
}
