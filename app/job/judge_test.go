package job

import (
	"testing"

	"gapwright/geometry"
)

// Of the strings between the outer two the first with the worst verdict decides, where it is worse than those of the outer two.
func TestWhichStringDecides(t *testing.T) {
	const ok, high, low, unclear = geometry.Reached, geometry.StillHigh, geometry.TooLow, geometry.CannotTell
	for _, c := range []struct {
		verdicts []geometry.Verdict
		want     int // −1: none
	}{
		{nil, -1},
		{[]geometry.Verdict{low, ok}, -1},
		{[]geometry.Verdict{ok, ok, ok}, -1},
		{[]geometry.Verdict{ok, ok, unclear, unclear, ok}, 2},
		{[]geometry.Verdict{ok, unclear, high, low, low, ok}, 3},
		{[]geometry.Verdict{high, unclear, high, ok}, -1},
		{[]geometry.Verdict{ok, high, high, low}, -1},
		{[]geometry.Verdict{unclear, high, ok, ok}, 1},
	} {
		var all []Compared
		for course, v := range c.verdicts {
			all = append(all, Compared{Course: course, Verdict: v})
		}
		got, found := Decides(all)
		if found != (c.want >= 0) || found && got.Course != c.want {
			t.Errorf("%v: %d %v, want %d", c.verdicts, got.Course, found, c.want)
		}
	}
}
