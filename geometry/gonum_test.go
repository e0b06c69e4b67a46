package geometry

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize"
	"gonum.org/v1/gonum/optimize/convex/lp"
)

// A numerical library that shares nothing with this package works the same answers out in its own way. It is used in tests only.

// simplexDual is the least value of c·x over G·x ≤ h and x ≥ 0, by the simplex method on the dual: least h·y over Gᵀ·y − s = −c, y and
// s ≥ 0, which has as many rows as x has numbers and no start to be found among many.
func simplexDual(c []float64, g [][]float64, h []float64) (float64, error) {
	rows, y := len(c), len(g)
	a, b, cost := mat.NewDense(rows, y+rows, nil), make([]float64, rows), append(append([]float64(nil), h...), make([]float64, rows)...)
	for i := range rows {
		for j := range y {
			a.Set(i, j, g[j][i])
		}
		a.Set(i, y+i, -1)
		b[i] = -c[i]
	}
	least, _, err := lp.Simplex(cost, a, b, 1e-10, nil)
	return -least, err
}

// simplexWorst is the smallest worst deviation: least t over p, q, t ≥ 0 with want − lever·s ≤ t, lever·s − want ≤ t and lever·s ≤ cap.
func simplexWorst(pulls []pull) (float64, error) {
	var g [][]float64
	var h []float64
	for _, pl := range pulls {
		p, q := pl.lever*(1-pl.along), pl.lever*pl.along
		g = append(g, []float64{-p, -q, -1}, []float64{p, q, -1}, []float64{p, q, 0})
		h = append(h, -pl.want, pl.want, math.Max(0, pl.cap))
	}
	return simplexDual([]float64{0, 0, 1}, g, h)
}

func TestFitAgreesWithTheSimplexMethod(t *testing.T) {
	seen := 0
	for _, seed := range []uint64{1, 20240607, 987654321} {
		rng := rand.New(rand.NewPCG(seed, 31))
		for range 1000 {
			pulls := anyPulls(rng, 2+rng.IntN(5))
			if rng.IntN(20) == 0 {
				pulls = anyPulls(rng, 12)
			}
			p, q := fit(pulls)
			d := worstFirst(pulls, p, q, 1e-7)
			if d == nil {
				t.Fatalf("seed %d: %v, %v passes a cap of %+v", seed, p, q, pulls)
			}
			want, err := simplexWorst(pulls)
			if err != nil {
				t.Fatalf("seed %d: the simplex method gives up on %+v: %v", seed, pulls, err)
			}
			if math.Abs(d[0]-want) > 1e-7 {
				t.Fatalf("seed %d: worst deviation %v, the simplex method finds %v: %+v", seed, d[0], want, pulls)
			}
			seen++
		}
	}
	if seen < 3000 {
		t.Fatalf("only %d instruments", seen)
	}
}

// The least miss of a crown: least t with low − t ≤ a + b·along ≤ high + t. The line may lie anywhere and the miss be less than
// nothing, so all three are raised by a level far above any of them.
func TestLeastMissAgreesWithTheSimplexMethod(t *testing.T) {
	const up = 20.0
	for _, seed := range []uint64{1, 77} {
		rng := rand.New(rand.NewPCG(seed, 32))
		for range 500 {
			n := 3 + rng.IntN(6)
			strings, asks := make([]MeasuredString, n), make([]Interval, n)
			var g [][]float64
			var h []float64
			for i := range strings {
				along := (float64(i) + 0.5*rng.Float64()) / float64(n)
				low := rng.Float64()
				high := low + 0.3*rng.Float64()
				strings[i].Offset, asks[i] = Length(50*along), Interval{Length(low), Length(high)}
				raised := up * (1 + along)
				g = append(g, []float64{-1, -along, -1}, []float64{1, along, -1})
				h = append(h, -low-raised-up, high+raised-up)
			}
			least, err := simplexDual([]float64{0, 0, 1}, g, h)
			if err != nil {
				t.Fatalf("seed %d: %v", seed, err)
			}
			if got := leastMiss(strings, asks); math.Abs(float64(got)-(least-up)) > 1e-7 {
				t.Fatalf("seed %d: least miss %v, the simplex method finds %v: %v %v", seed, got, least-up, strings, asks)
			}
		}
	}
}

// byHand is one string over one neck by another way: the curve by its definition, the string as the line between two points in the
// plane.
type byHand struct {
	n           Neck
	relief      float64
	nut, saddle float64
}

func (h byHand) x(fret int) float64 {
	x := float64(h.n.Scale)
	for range fret {
		x /= math.Pow(2, 1.0/12)
	}
	return float64(h.n.Scale) - x
}

func (h byHand) top(fret int) float64 {
	x, x1, xj := h.x(fret), h.x(1), h.x(h.n.Body)
	if x <= xj {
		return -4 * h.relief * (x - x1) * (xj - x) / math.Pow(xj-x1, 2)
	}
	slope := 4 * h.relief / (xj - x1)
	return slope*(x-xj) - float64(h.n.FallAway)*(x-xj)/(h.x(h.n.Frets)-xj)
}

func (h byHand) gap(fret, held int) float64 {
	ax, az, bx, bz := 0.0, h.nut, float64(h.n.Scale+h.n.Setback), h.saddle
	if held > fret {
		bx, bz = h.x(held), h.top(held)
	} else if held > 0 {
		ax, az = h.x(held), h.top(held)
	}
	return az + (bz-az)*(h.x(fret)-ax)/(bx-ax) - h.top(fret)
}

func anyBoard(rng *rand.Rand) Neck {
	body := 10 + rng.IntN(10)
	return Neck{Scale: Length(300 + 600*rng.Float64()), Setback: Length(4*rng.Float64() - 1), Body: body, Frets: max(12, body) + rng.IntN(8),
		FallAway: Length(0.6*rng.Float64() - 0.3)}
}

// The path against direct minimisation: nut and saddle that leave the least squared difference between the gaps by hand and the
// readings.
func TestPathAgreesWithDirectMinimisation(t *testing.T) {
	for _, seed := range []uint64{3, 79} {
		rng := rand.New(rand.NewPCG(seed, 33))
		for range 60 {
			n := anyBoard(rng)
			relief := 0.4*rng.Float64() - 0.1
			first, second := GapReading{Fret: 1, Gap: Exactly(Length(0.3 + 0.5*rng.Float64()))}, GapReading{Fret: 12, Gap: Exactly(Length(1.2 + 2*rng.Float64()))}
			switch rng.IntN(3) {
			case 0:
				second.Held = 1
			case 1:
				first.Held = 3
			}
			p, err := NewPath(n, Exactly(Length(relief)), first, second)
			if err != nil {
				t.Fatal(err)
			}
			miss := func(v []float64) float64 {
				h := byHand{n, relief, v[0], v[1]}
				a, b := h.gap(first.Fret, first.Held)-float64(first.Gap.Low), h.gap(second.Fret, second.Held)-float64(second.Gap.Low)
				return a*a + b*b
			}
			best, err := optimize.Minimize(optimize.Problem{Func: miss}, []float64{1, 4},
				&optimize.Settings{Converger: &optimize.FunctionConverge{Absolute: 1e-30, Iterations: 200}}, &optimize.NelderMead{})
			if err != nil {
				t.Fatal(err)
			}
			h := byHand{n, relief, best.X[0], best.X[1]}
			for fret := 1; fret <= n.Frets; fret++ {
				for held := range n.Frets + 1 {
					if held == fret {
						continue
					}
					got, err := p.Clearance(fret, held)
					if err != nil {
						t.Fatal(err)
					}
					if d := math.Abs(float64(got.Low) - h.gap(fret, held)); !(d < 1e-6) {
						t.Fatalf("seed %d: %+v, fret %d held at %d: %v, minimised %v", seed, n, fret, held, got.Low, h.gap(fret, held))
					}
				}
			}
		}
	}
}

// The range of a clearance against the least and the most that the simplex method finds over the box of the readings, the string's line
// being among the unknowns: nothing is solved beforehand.
func TestClearanceRangesAgreeWithTheSimplexMethod(t *testing.T) {
	for _, seed := range []uint64{4, 80} {
		rng := rand.New(rand.NewPCG(seed, 34))
		for range 1000 {
			n := anyBoard(rng)
			wide := func(low float64) Interval { return Interval{Length(low), Length(low + 0.3*rng.Float64())} }
			relief, first, second := wide(0.05), GapReading{Fret: 1, Gap: wide(0.4)}, GapReading{Fret: 12, Held: rng.IntN(2), Gap: wide(1.8)}
			p, err := NewPath(n, relief, first, second)
			if err != nil {
				t.Fatal(err)
			}
			fret := 2 + rng.IntN(n.Frets-1)
			held := rng.IntN(fret)
			got, err := p.Clearance(fret, held)
			if err != nil {
				t.Fatal(err)
			}
			// A gap is a straight-line function of nut, saddle and relief: found by trying each alone.
			row := func(fret, held int) (w [3]float64, plain float64) {
				plain = byHand{n, 0, 0, 0}.gap(fret, held)
				return [3]float64{byHand{n, 0, 1, 0}.gap(fret, held) - plain, byHand{n, 0, 0, 1}.gap(fret, held) - plain, byHand{n, 1, 0, 0}.gap(fret, held) - plain}, plain
			}
			// unknowns: nut + 50, saddle + 50 and relief, all positive, then a slack for each row
			const up = 50.0
			a, b := mat.NewDense(6, 9, nil), make([]float64, 6)
			bound := func(k int, w [3]float64, sign, at float64) { // sign·(w · unknowns) ≤ sign·at
				a.SetRow(k, []float64{sign * w[0], sign * w[1], sign * w[2], 0, 0, 0, 0, 0, 0})
				a.Set(k, 3+k, 1)
				b[k] = sign * (at + up*(w[0]+w[1]))
			}
			for k, r := range []GapReading{first, second} {
				w, plain := row(r.Fret, r.Held)
				bound(2*k, w, 1, float64(r.Gap.High)-plain)
				bound(2*k+1, w, -1, float64(r.Gap.Low)-plain)
			}
			bound(4, [3]float64{0, 0, 1}, 1, float64(relief.High))
			bound(5, [3]float64{0, 0, 1}, -1, float64(relief.Low))
			w, plain := row(fret, held)
			for _, sign := range []float64{1, -1} {
				least, _, err := lp.Simplex([]float64{sign * w[0], sign * w[1], sign * w[2], 0, 0, 0, 0, 0, 0}, a, b, 0, nil)
				if err != nil {
					t.Fatal(err)
				}
				end, have := sign*least-up*(w[0]+w[1])+plain, float64(got.Low)
				if sign < 0 {
					have = float64(got.High)
				}
				if math.Abs(end-have) > 1e-7 {
					t.Fatalf("seed %d: %+v, fret %d held at %d: %v, the simplex method ends at %v", seed, n, fret, held, got, end)
				}
			}
		}
	}
}

// Room against direct minimisation: of displacements, the largest that no sampled moment of the motion brings onto a fret.
func TestHeadroomAgreesWithTheMotionItself(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 35))
	for range 1000 {
		n := anyBoard(rng)
		h := byHand{n, 0.3 * rng.Float64(), 0.3 + 0.3*rng.Float64(), 3 + 2*rng.Float64()}
		g := func(fret int) GapReading { return GapReading{Fret: fret, Gap: Exactly(Length(h.gap(fret, 0)))} }
		p, err := NewPath(n, Exactly(Length(h.relief)), g(1), g(12))
		if err != nil {
			t.Fatal(err)
		}
		stop := rng.IntN(10)
		end := float64(n.Scale + n.Setback)
		length := end - h.x(stop)
		at := length * (0.1 + 0.3*rng.Float64())
		room, err := p.Headroom(stop, Length(at))
		if err != nil {
			t.Fatal(err)
		}
		wave := func(x float64) float64 {
			x = math.Mod(math.Mod(x, 2*length)+2*length, 2*length)
			if x > length {
				return -math.Min((2*length-x)/at, (x-length)/(length-at))
			}
			return math.Min(x/at, (length-x)/(length-at))
		}
		least, first := math.Inf(1), 0
		for fret := stop + 1; fret <= n.Frets; fret++ {
			v, far := end-h.x(fret), 0.0
			for k := range 400 {
				y := (wave(v+2*length*float64(k)/400) + wave(v-2*length*float64(k)/400)) / 2
				far = math.Max(far, math.Abs(y))
			}
			if r := h.gap(fret, stop) / far; r < least {
				least, first = r, fret
			}
		}
		if math.Abs(float64(room.Free.Low)-least) > 1e-6 {
			t.Fatalf("%+v, stop %d at %v: %v on fret %d, sampled %v on fret %d", n, stop, at, room.Free, room.First, least, first)
		}
	}
}
