package geometry

import (
	"math"
	"slices"
)

// A pull is what one string asks of the cut: its height at the fret should change by want and may change by no more than cap. A cut s at
// the string's place lowers it there by lever·s. along is the place on the saddle, 0 at the bass end and 1 at the treble end.
type pull struct{ along, lever, want, cap float64 }

// fit finds the straight cut, p at the bass end and q at the treble end and neither negative, whose worst deviation |want − lever·s| over
// the pulls is smallest with no pull beyond its cap; ties are settled by the next-worst deviation, and so on, then by the least removed.
// Some cut always exists: none at all.
//
// The problem is a small linear program in (p, q, t), solved by visiting every vertex: with twelve strings that is a few thousand 3 × 3
// systems, exact to rounding and without a loop that could fail to end.
func fit(pulls []pull) (p, q float64) {
	worst := make([]float64, len(pulls)) // the settled bound of a string's deviation, or +Inf while it is still being lowered
	for i := range worst {
		worst[i] = math.Inf(1)
	}
	for {
		t, best := lowestWorst(pulls, worst)
		fixed := 0
		for i, pl := range pulls {
			if !math.IsInf(worst[i], 1) {
				continue
			}
			tight := true
			for _, v := range best {
				if math.Abs(pl.deviation(v[0], v[1])) < t-fitHair {
					tight = false
					break
				}
			}
			if tight {
				worst[i] = t
				fixed++
			}
		}
		open := slices.ContainsFunc(worst, func(w float64) bool { return math.IsInf(w, 1) })
		if fixed == 0 || !open || len(best) == 1 {
			least := slices.MinFunc(best, func(a, b [2]float64) int {
				switch d := (a[0] + a[1]) - (b[0] + b[1]); {
				case d < -fitHair:
					return -1
				case d > fitHair:
					return 1
				}
				return 0
			})
			return math.Max(0, least[0]), math.Max(0, least[1])
		}
	}
}

// fitHair is the deviation, in millimetres, below which two cuts are equally good.
const fitHair = 1e-9

func (pl pull) deviation(p, q float64) float64 {
	return pl.want - pl.lever*((1-pl.along)*p+pl.along*q)
}

// halfspace is a·p + b·q + c·t ≤ d.
type halfspace struct{ a, b, c, d float64 }

// lowestWorst lowers the largest deviation of the strings not yet settled, keeps the settled ones within their bounds, and returns that
// largest deviation with every vertex (p, q) that reaches it.
func lowestWorst(pulls []pull, worst []float64) (t float64, best [][2]float64) {
	rooms := []halfspace{{-1, 0, 0, 0}, {0, -1, 0, 0}, {0, 0, -1, 0}}
	for i, pl := range pulls {
		a, b := pl.lever*(1-pl.along), pl.lever*pl.along
		rooms = append(rooms, halfspace{a, b, 0, math.Max(0, pl.cap)})
		if math.IsInf(worst[i], 1) {
			rooms = append(rooms, halfspace{-a, -b, -1, -pl.want}, halfspace{a, b, -1, pl.want})
		} else {
			rooms = append(rooms, halfspace{-a, -b, 0, worst[i] - pl.want + fitHair}, halfspace{a, b, 0, worst[i] + pl.want + fitHair})
		}
	}
	t = math.Inf(1)
	for i := range rooms {
		for j := i + 1; j < len(rooms); j++ {
			for k := j + 1; k < len(rooms); k++ {
				x, ok := meet(rooms[i], rooms[j], rooms[k])
				if !ok || x[2] > t+fitHair || !inside(rooms, x) {
					continue
				}
				if x[2] < t-fitHair {
					best = best[:0]
				}
				t = math.Min(t, x[2])
				best = append(best, [2]float64{x[0], x[1]})
			}
		}
	}
	if len(best) == 0 { // cannot happen while cutting nothing is allowed; nothing is the safe answer
		return 0, [][2]float64{{0, 0}}
	}
	return t, best
}

func inside(rooms []halfspace, x [3]float64) bool {
	for _, r := range rooms {
		if r.a*x[0]+r.b*x[1]+r.c*x[2] > r.d+10*fitHair {
			return false
		}
	}
	return true
}

// meet solves the three boundaries by Cramer's rule.
func meet(u, v, w halfspace) ([3]float64, bool) {
	det := func(a, b, c, d, e, f, g, h, i float64) float64 { return a*(e*i-f*h) - b*(d*i-f*g) + c*(d*h-e*g) }
	D := det(u.a, u.b, u.c, v.a, v.b, v.c, w.a, w.b, w.c)
	if math.Abs(D) < 1e-12 {
		return [3]float64{}, false
	}
	return [3]float64{
		det(u.d, u.b, u.c, v.d, v.b, v.c, w.d, w.b, w.c) / D,
		det(u.a, u.d, u.c, v.a, v.d, v.c, w.a, w.d, w.c) / D,
		det(u.a, u.b, u.d, v.a, v.b, v.d, w.a, w.b, w.d) / D,
	}, true
}
