package job_test

import (
	"math"
	"testing"

	"gapwright/app/job"
)

// Straight lines over a scale of 648 mm: fret 1 stands at 648·(1 − 2^(−1/12)) = 36.3695, fret 12 at 324, fret 14 at 359.3405, so that the chord from
// fret 1 to the joint is 322.9710. A nut slot that is 0.10 lower takes 0.10·(1 − 36.3695/648) = 0.09439 off at fret 1 and half of it at fret 12. A
// saddle 0.20 lower takes 0.20·36.3695/648 = 0.01123 and 0.10. With 0.10 more relief, evenly bent, the nut rises by 0.4·359.3405²/322.9710² =
// 0.49516, the string by 0.94387 of that at fret 1 and half of it at fret 12, the frets by 0.4 and by 0.4·35.3405²/322.9710² = 0.00479: the gaps
// grow by 0.06737 and 0.24279.
func TestEachOfThreeMovesTheOthersByStraightLines(t *testing.T) {
	learn := func(m job.Moves) job.Lesson {
		t.Helper()
		l, err := job.Learn(m, job.MM)
		if err != nil {
			t.Fatal(m, err)
		}
		return l
	}
	near := func(what string, got, want float64) {
		t.Helper()
		if math.Abs(got-want) > 2e-5 {
			t.Errorf("%s: %.5f, want %.5f", what, got, want)
		}
	}
	for what, c := range map[string]struct {
		moves          job.Moves
		first, twelfth float64
	}{
		"as usual":          {job.Moves{}, 0.6, 2.4}, // the middles of 0.50 to 0.70 and of 2.2 to 2.6
		"nut lower":         {job.Moves{job.MoveNut: -1}, 0.6 - 0.09439, 2.4 - 0.05},
		"saddle lower":      {job.Moves{job.MoveSaddle: -1}, 0.6 - 0.01123, 2.4 - 0.10},
		"more relief":       {job.Moves{job.MoveRelief: 1}, 0.6 + 0.06737, 2.4 + 0.24279},
		"straight":          {job.Moves{job.MoveRelief: -2}, 0.6 - 2*0.06737, 2.4 - 2*0.24279},
		"all three at once": {job.Moves{-2, 3, 1}, 0.6 - 2*0.09439 + 3*0.06737 + 0.01123, 2.4 - 0.10 + 3*0.24279 + 0.10},
	} {
		l := learn(c.moves)
		near(what+", fret 1", float64(l.First), c.first)
		near(what+", fret 12", float64(l.Twelfth), c.twelfth)
	}

	// Over the body's line the saddle stays whatever the neck does, and frets beyond the joint lie on it.
	usual, bent := learn(job.Moves{}), learn(job.Moves{job.MoveRelief: 4})
	near("the saddle under a bent neck", float64(bent.Profile.Now.Low), float64(usual.Profile.Now.Low))
	near("fret 1 with 0.60 of relief", bent.Profile.Tops[0], 2.4) // four times the relief
	near("the joint", bent.Profile.Tops[13], 0)
	near("the last fret", bent.Profile.Tops[18], 0)
	near("the nut", bent.Profile.Nut-usual.Profile.Nut, 4*0.49516)

	in, err := job.Learn(job.Moves{job.MoveNut: -1}, job.Inch) // 0.004 in are 0.1016 mm: 0.0508 at fret 12, over a relief of 0.008 in
	if err != nil {
		t.Fatal(err)
	}
	near("nut lower by inches", float64(in.Twelfth), 2.4-0.0508)
	near("relief in inches", float64(in.Relief), 0.2032)
}

// Where there is least room: what a low nut, a straight neck and a low saddle are known for.
func TestLeastRoomGoesWhereEachOfThemTakesIt(t *testing.T) {
	for what, c := range map[string]struct {
		moves       job.Moves
		stop, first int
		chance      job.Chance
	}{
		"as usual":    {job.Moves{}, 1, 4, job.RoomEnough},
		"nut low":     {job.Moves{job.MoveNut: -4}, 0, 1, job.RoomLacking},    // the open string on the first fret
		"straight":    {job.Moves{job.MoveRelief: -2}, 1, 3, job.RoomLacking}, // low on the neck
		"saddle low":  {job.Moves{job.MoveSaddle: -4}, 5, 9, job.RoomPerhaps},
		"much relief": {job.Moves{job.MoveRelief: 4}, 11, 17, job.RoomEnough}, // towards the body
	} {
		l, err := job.Learn(c.moves, job.MM)
		if err != nil || l.Least().Stop != c.stop || l.Least().First != c.first || l.Worst != c.chance {
			t.Errorf("%s: %v at %d over %d (%v), want %v at %d over %d", what, l.Worst, l.Least().Stop, l.Least().First, err, c.chance, c.stop, c.first)
		}
	}
}

func TestAnExampleIsMovedOnlyAsFarAsItGoes(t *testing.T) {
	for part, steps := range [3][2]int{{4, 4}, {2, 4}, {4, 4}} {
		for way, most := range map[int]int{-1: steps[0], 1: steps[1]} {
			m, n := job.Moves{}, 0
			for next, ok := m.With(part, way); ok && n < 100; next, ok = m.With(part, way) {
				m, n = next, n+1
			}
			if n != most {
				t.Errorf("part %d goes %d steps by %d, want %d", part, n, way, most)
			}
			if _, err := job.Learn(m, job.Inch); err != nil {
				t.Errorf("%v: %v", m, err)
			}
		}
	}
}
