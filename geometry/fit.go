package geometry

import (
	"math"
	"slices"
)

// A pull is what one string asks of the cut: its height at the fret should change by want and may change by no more than cap. A cut s at
// the string's place lowers it there by lever·s. along is the place on the saddle, 0 at the bass end and 1 at the treble end.
type pull struct{ along, lever, want, cap float64 }

// deviation is how far a cut of p at the bass end and q at the treble end stays short of what the string asks; negative: too much.
func (pl pull) deviation(p, q float64) float64 {
	return pl.want - pl.lever*((1-pl.along)*p+pl.along*q)
}

// fitHair is the deviation, in millimetres, below which two cuts are equally good.
const fitHair = 1e-9

// fit finds the straight cut, p at the bass end and q at the treble end and neither negative, whose worst deviation over the pulls is
// smallest with no pull beyond its cap; ties are settled by the next-worst deviation, and so on, then by the least removed. Some cut always
// exists: none at all.
//
// Each round of the loop lowers the worst deviation of the strings that are still open, then settles the strings that have it in every
// best cut. At least one is settled each time, so the loop ends.
func fit(pulls []pull) (p, q float64) {
	bound := make([]float64, len(pulls)) // a settled string's deviation, or +Inf while it is still being lowered
	for i := range bound {
		bound[i] = math.Inf(1)
	}
	for {
		t, best := lowestWorst(pulls, bound)
		settled, open := 0, 0
		for i, pl := range pulls {
			if !math.IsInf(bound[i], 1) {
				continue
			}
			short, over := true, true // on the same side in every best cut: between two cuts on opposite sides it would be less
			for _, v := range best {
				d := pl.deviation(v[0], v[1])
				short, over = short && d >= t-fitHair, over && d <= -t+fitHair
			}
			if short || over {
				bound[i] = t
				settled++
			} else {
				open++
			}
		}
		if len(best) == 1 || settled == 0 || open == 0 {
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

// halfspace is a·p + b·q − c·t ≤ d, with c = 1 where the bound t counts and 0 where it does not.
type halfspace struct{ a, b, c, d float64 }

func cross(u, v halfspace) float64 { return u.a*v.b - u.b*v.a }

// lowestWorst lowers the largest deviation t of the strings that are still open, keeps the settled ones within their bounds, and returns t
// with every corner (p, q) of the set of best cuts.
//
// It is a linear program in (p, q, t), small enough to look at every three boundaries. Where three boundaries meet is a best cut only if
// their normals balance, each pushing against the other two (the multipliers y ≥ 0 of linear programming duality); such a meeting point is
// never worse than the best cut, so those below the highest one seen are skipped, and those inside every boundary are best.
func lowestWorst(pulls []pull, bound []float64) (lowest float64, best [][2]float64) {
	rows := make([]halfspace, 0, 2+3*len(pulls))
	rows = append(rows, halfspace{-1, 0, 0, 0}, halfspace{0, -1, 0, 0})
	for i, pl := range pulls {
		a, b, cap := pl.lever*(1-pl.along), pl.lever*pl.along, math.Max(0, pl.cap)
		if !math.IsInf(bound[i], 1) {
			slack := bound[i] + fitHair
			rows = append(rows, halfspace{-a, -b, 0, slack - pl.want}, halfspace{a, b, 0, math.Min(cap, slack+pl.want)})
			continue
		}
		rows = append(rows, halfspace{-a, -b, 1, -pl.want}, halfspace{a, b, 0, cap})
		if cap > pl.want { // otherwise the cap already keeps it from being lowered too far
			rows = append(rows, halfspace{a, b, 1, pl.want})
		}
	}
	const tiny = 1e-12 // of a product of two normals; strings a hundredth of a millimetre apart give 1e-6
	highest := math.Inf(-1)
	lowest = math.Inf(1)
	for i, u := range rows {
		for j := i + 1; j < len(rows); j++ {
			v := rows[j]
			yw := cross(u, v)
			for _, w := range rows[j+1:] {
				yu, yv := cross(v, w), cross(w, u)
				if (yu < -tiny || yv < -tiny || yw < -tiny) && (yu > tiny || yv > tiny || yw > tiny) {
					continue
				}
				weight := yu*u.c + yv*v.c + yw*w.c
				if math.Abs(weight) < tiny {
					continue
				}
				t := -(yu*u.d + yv*v.d + yw*w.d) / weight
				if t < highest-10*fitHair {
					continue
				}
				x := meeting(u, v, w, t, yu, yv, yw)
				if !inside(rows, x[0], x[1], t) {
					continue
				}
				highest, lowest = math.Max(highest, t), math.Min(lowest, t)
				if !slices.ContainsFunc(best, func(b [2]float64) bool {
					return math.Abs(b[0]-x[0]) < fitHair && math.Abs(b[1]-x[1]) < fitHair
				}) {
					best = append(best, x)
				}
			}
		}
	}
	if len(best) == 0 { // cannot happen while cutting nothing is allowed; nothing is the safe answer
		return 0, [][2]float64{{0, 0}}
	}
	return math.Max(0, lowest), best
}

// meeting is the point (p, q) where the boundaries u, v and w meet at t, taken from the two that cross most squarely.
func meeting(u, v, w halfspace, t, vw, wu, uv float64) [2]float64 {
	switch square := max(math.Abs(vw), math.Abs(wu), math.Abs(uv)); square {
	case math.Abs(vw):
		u, v, uv = v, w, vw
	case math.Abs(wu):
		u, v, uv = w, u, wu
	}
	du, dv := u.d+u.c*t, v.d+v.c*t
	return [2]float64{(du*v.b - dv*u.b) / uv, (u.a*dv - v.a*du) / uv}
}

func inside(rows []halfspace, p, q, t float64) bool {
	for _, r := range rows {
		if !(r.a*p+r.b*q-r.c*t <= r.d+10*fitHair) {
			return false
		}
	}
	return true
}
