package geometry

import (
	"math"
	"math/rand/v2"
	"testing"
)

// Every number is worked out beside its case: change = [is.Low − was.High, is.High − was.Low].
func TestSinceTellsWhatTwoReadingsTell(t *testing.T) {
	const fine, coarse = 0.254, 0.55
	for name, c := range map[string]struct {
		was, is, change Interval
		want            Change
	}{
		"the same quarter":                {Interval{2.25, 2.5}, Interval{2.25, 2.5}, Interval{-0.25, 0.25}, Unchanged},
		"the next quarter":                {Interval{2.25, 2.5}, Interval{2.5, 2.75}, Interval{0, 0.5}, Untold},
		"two quarters up":                 {Interval{2.25, 2.5}, Interval{2.75, 3}, Interval{0.25, 0.75}, Higher},
		"two quarters down":               {Interval{2.25, 2.5}, Interval{1.75, 2}, Interval{-0.75, -0.25}, Lower},
		"the same half":                   {Interval{2, 2.5}, Interval{2, 2.5}, Interval{-0.5, 0.5}, Unchanged},
		"the same millimetre":             {Interval{2, 3}, Interval{2, 3}, Interval{-1, 1}, Untold},
		"a caliper within a half":         {Interval{2, 2.5}, Interval{2.31, 2.37}, Interval{-0.19, 0.37}, Unchanged},
		"a caliper within a millimetre":   {Interval{2, 3}, Interval{2.47, 2.53}, Interval{-0.53, 0.53}, Unchanged},
		"a caliper at a millimetre's end": {Interval{2, 3}, Interval{2.01, 2.07}, Interval{-0.99, 0.07}, Untold},
		"two calipers that meet":          {Interval{2.27, 2.33}, Interval{2.31, 2.37}, Interval{-0.02, 0.10}, Unchanged},
		"two calipers a hair apart":       {Interval{2.27, 2.33}, Interval{2.34, 2.4}, Interval{0.01, 0.13}, Unchanged}, // less than a thousandth of an inch
		"two calipers apart":              {Interval{2.27, 2.33}, Interval{2.36, 2.42}, Interval{0.03, 0.15}, Higher},
		"halves that overlap by half":     {Interval{2, 2.5}, Interval{2.25, 2.75}, Interval{-0.25, 0.75}, Untold},
		"a 64th, the same":                {Interval{2.38125, 2.778125}, Interval{2.38125, 2.778125}, Interval{-0.396875, 0.396875}, Unchanged},
		"a 32nd, the same":                {Interval{2.38125, 3.175}, Interval{2.38125, 3.175}, Interval{-0.79375, 0.79375}, Untold},
	} {
		change, got := Since(c.was, c.is, fine, coarse)
		if got != c.want || math.Abs(float64(change.Low-c.change.Low)) > 1e-9 || math.Abs(float64(change.High-c.change.High)) > 1e-9 {
			t.Errorf("%s: %v %v, want %v %v", name, got, change, c.want, c.change)
		}
	}
	for _, bad := range []Interval{{3, 2}, {Length(math.NaN()), 2}, {1, Length(math.Inf(1))}} {
		if change, got := Since(bad, Interval{2, 3}, fine, coarse); got != Untold || change != (Interval{}) {
			t.Errorf("%v: %v %v", bad, got, change)
		}
		if _, got := Since(Interval{2, 3}, bad, fine, coarse); got != Untold {
			t.Errorf("%v: %v", bad, got)
		}
	}
}

// A quarter of the gap moves a quarter: read at a place with half the leverage of fret 12, half as much passes for the same.
func TestSinceAtCountsLeverage(t *testing.T) {
	half := Interval{1, 1.5}
	if _, got := SinceAt(half, half, 0.5); got != Unchanged {
		t.Errorf("at fret 12: %v", got)
	}
	if _, got := SinceAt(half, half, 0.25); got != Untold {
		t.Errorf("at half the leverage: %v", got)
	}
	if _, got := SinceAt(half, half, 0.498); got != Unchanged {
		t.Errorf("a setback makes half a millimetre too coarse: %v", got)
	}
}

// The other way round everything is mirrored; no change is claimed of readings that share anything; what is claimed holds for every pair of heights
// that the two readings allow; and a narrower reading of the same height never claims the contrary.
func TestSinceIsSymmetricAndNeverClaimsTooMuch(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 4))
	mirror := map[Change]Change{Unchanged: Unchanged, Higher: Lower, Lower: Higher, Untold: Untold}
	seen := map[Change]int{}
	for range 20000 {
		random := func() Interval {
			low := Length(1 + 2*r.Float64())
			return Interval{low, low + Length(r.Float64()*r.Float64())}
		}
		was, is := random(), random()
		fine := Length(0.05 + 0.3*r.Float64())
		coarse := fine + Length(r.Float64())
		change, got := Since(was, is, fine, coarse)
		back, backwards := Since(is, was, fine, coarse)
		if backwards != mirror[got] || math.Abs(float64(back.Low+change.High)) > 1e-9 || math.Abs(float64(back.High+change.Low)) > 1e-9 {
			t.Fatalf("%v then %v: %v %v, backwards %v %v", was, is, got, change, backwards, back)
		}
		seen[got]++
		if _, meet := was.Meet(is); meet && (got == Higher || got == Lower) {
			t.Fatalf("%v and %v share something, and yet %v", was, is, got)
		}
		before := was.Low + Length(r.Float64())*was.Width()
		now := is.Low + Length(r.Float64())*is.Width()
		switch {
		case got == Higher && now < before, got == Lower && now > before:
			t.Fatalf("%v then %v may be %v then %v: %v", was, is, before, now, got)
		case got == Unchanged && max(now-before, before-now) > coarse+1e-6:
			t.Fatalf("%v then %v may be %v then %v, and passes for the same within %v", was, is, before, now, coarse)
		case now-before < change.Low-1e-9 || now-before > change.High+1e-9:
			t.Fatalf("%v then %v may be %v then %v: not in %v", was, is, before, now, change)
		}
		narrow := Interval{max(is.Low, now-0.01), min(is.High, now+0.01)}
		if _, finer := Since(was, narrow, fine, coarse); got == Higher && finer != Higher || got == Lower && finer != Lower {
			t.Fatalf("%v then %v is %v; read finer, %v, it is %v", was, is, got, narrow, finer)
		}
	}
	for _, c := range Changes() {
		if seen[c] < 100 {
			t.Errorf("change %d came %d times", c, seen[c])
		}
	}
}

func FuzzSince(f *testing.F) {
	f.Add(2.25, 2.5, 2.5, 2.75)
	f.Add(0.0, 0.0, 0.0, 0.0)
	f.Fuzz(func(t *testing.T, a, b, c, d float64) {
		change, got := SinceAt(Interval{Length(a), Length(b)}, Interval{Length(c), Length(d)}, 0.5)
		if got > Untold || got != Untold && !change.Valid() {
			t.Errorf("%v %v", change, got)
		}
	})
}
