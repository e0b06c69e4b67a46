package job

import (
	"testing"
	"time"

	"gapwright/geometry"
)

func TestTheWaitGoesByTheClock(t *testing.T) {
	const ends = 1_772_366_400_000 + 900_000 // noon of the first of March 2026, and a quarter of an hour
	for _, c := range []struct {
		after, left time.Duration
	}{
		{0, 15 * time.Minute},
		{time.Second, 14*time.Minute + 59*time.Second},
		{1500 * time.Millisecond, 14*time.Minute + 59*time.Second}, // 898.5 s, rounded up
		{15*time.Minute - time.Millisecond, time.Second},
		{15 * time.Minute, 0},
		{3 * time.Hour, 0},                 // slept through it
		{-2 * time.Hour, 15 * time.Minute}, // a clock set back
	} {
		if got := SettlingLeft(ends, ends-900_000+c.after.Milliseconds()); got != c.left {
			t.Errorf("%v after the start %v are left, want %v", c.after, got, c.left)
		}
	}
	if got := SettlingLeft(0, ends); got != 0 {
		t.Errorf("of no wait %v are left", got)
	}
}

func TestTheCoachStopsAtTheLineAndPastIt(t *testing.T) {
	for v, want := range map[geometry.CoachVerdict]bool{geometry.KeepLevel: false, geometry.FavourBass: false, geometry.FavourTreble: false, geometry.Hollow: false,
		geometry.Rounded: false, geometry.AtLine: true, geometry.PastLine: true} {
		if c := (Coach{Advice: geometry.Advice{Verdict: v}}); c.Stops() != want {
			t.Errorf("verdict %d: %v", v, c.Stops())
		}
	}
}

// A whole job with steel strings and one with nylon: the first waits once in every round, from the strings being on until one of them is read.
func TestOnlySteelIsWaitedFor(t *testing.T) {
	count := func(name string) (waits, again int) {
		r, was := Record{}, Record{}
		for _, e := range played(t, name).Events {
			next, err := r.Apply(e)
			if err != nil {
				t.Fatal(err)
			}
			was, r = r, next
			if r.Settles() && !was.Settles() {
				waits++
			}
			if r.Step() == MeasureAgain && len(was.Events) > 0 && r.Far() > was.Far() {
				again++
			}
		}
		return waits, again
	}
	if waits, again := count("mm-pencil-two-rounds"); waits != 2 || again != 2 {
		t.Errorf("steel: %d waits in %d rounds", waits, again)
	}
	if waits, again := count("family-nylon"); waits != 0 || again == 0 {
		t.Errorf("nylon: %d waits in %d rounds", waits, again)
	}
}
