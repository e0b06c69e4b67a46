package geometry_test

import (
	"errors"
	"math/rand/v2"
	"testing"

	. "gapwright/geometry"
)

func TestCoachWithACaliperStepByStep(t *testing.T) {
	// 12 mm high, 0.40 off at both marked points, caliper 0.03, a stroke may take 0.005 to 0.03.
	s := Sanding{StartBass: 12, StartTreble: 12, StopBass: 0.4, StopTreble: 0.4, Accuracy: 0.03, PerStroke: Interval{0.005, 0.03}}
	var checks []SandingCheck
	for _, c := range []struct {
		why            string
		check          SandingCheck
		verdict        CoachVerdict
		strokes        int
		left, leftOver Length // bass, treble
	}{
		{"half of 0.4 at three times 0.03: 2.2", SandingCheck{}, KeepLevel, 2, 0.40, 0.40},
		{"0.02 gone in 2: at most (0.02 + 0.03)/2 = 0.025; half of 0.38 is 7.6 of those", SandingCheck{2, 11.98, 11.98}, KeepLevel, 7, 0.38, 0.38},
		{"0.09 in 9: 0.12/9 = 0.0133; half of 0.31 is 11.6", SandingCheck{7, 11.91, 11.91}, KeepLevel, 11, 0.31, 0.31},
		{"treble 0.07 behind: 0.23/20 = 0.0115; half of 0.20 is 8.7", SandingCheck{11, 11.80, 11.87}, FavourTreble, 8, 0.20, 0.27},
		{"0.27 in 28: 0.30/28 = 0.0107; half of 0.13 is 6.1", SandingCheck{8, 11.73, 11.74}, KeepLevel, 6, 0.13, 0.14},
		{"bass done with 0.05 left: (0.35 + 0.03)/34 = 0.0112; 0.05 is 4.5 of those, half of 0.08 is 3.6", SandingCheck{6, 11.65, 11.68}, FavourTreble, 3,
			0.05, 0.08},
		{"both within 0.05", SandingCheck{3, 11.63, 11.64}, AtLine, 0, 0.03, 0.04},
	} {
		if c.check != (SandingCheck{}) {
			checks = append(checks, c.check)
		}
		a := must(s.Coach(checks))
		if a.Verdict != c.verdict || a.Strokes != c.strokes {
			t.Errorf("%s: verdict %d, %d strokes, want %d, %d", c.why, a.Verdict, a.Strokes, c.verdict, c.strokes)
		}
		nearInterval(t, c.why, a.LeftBass, Interval{c.left - 0.03, c.left + 0.03}, 1e-9)
		nearInterval(t, c.why, a.LeftTreble, Interval{c.leftOver - 0.03, c.leftOver + 0.03}, 1e-9)
		near(t, "out of level", a.OutOfLevel, c.leftOver-c.left, 1e-9)
		near(t, "target", a.TargetBass, 11.6, 1e-9)
		near(t, "target", a.TargetTreble, 11.6, 1e-9)
	}
}

func TestCoachStops(t *testing.T) {
	s := Sanding{StartBass: 12, StartTreble: 11, StopBass: 0.4, StopTreble: 0.6, Accuracy: 0.03, PerStroke: Interval{0.005, 0.03}}
	for _, c := range []struct {
		name  string
		check SandingCheck
		want  CoachVerdict
	}{
		{"the bass end at its target, the treble still high: the rest is the next round's", SandingCheck{30, 11.60, 10.6}, AtLine},
		{"0.02 past by a caliper good to 0.03 is the line", SandingCheck{30, 11.58, 10.4}, AtLine},
		{"0.04 past is past", SandingCheck{30, 11.56, 10.4}, PastLine},
		{"bass behind", SandingCheck{30, 11.9, 10.5}, FavourBass},
	} {
		a := must(s.Coach([]SandingCheck{c.check}))
		if a.Verdict != c.want || (a.Strokes == 0) != (c.want == AtLine || c.want == PastLine) {
			t.Errorf("%s: %+v", c.name, a)
		}
		if c.want == PastLine {
			near(t, "over at the most: 0.04 + 0.03", a.OverBass, 0.07, 1e-9)
			near(t, "treble, at its target: 0.03", a.OverTreble, 0.03, 1e-9)
		}
	}
	if a := must(s.Coach(nil)); a.Verdict != FavourTreble { // a sloping cut begins out of level
		t.Errorf("%+v, want FavourTreble", a)
	}
	// new paper: 0.20 in 4 strokes proves (0.20 − 0.06)/4 = 0.035 a stroke, whatever the average; half of 0.17 is 2.4 of those
	s.StopTreble = 0.4
	if a := must(s.Coach([]SandingCheck{{30, 11.97, 10.97}, {4, 11.77, 10.77}})); a.Strokes != 2 || a.Verdict != KeepLevel {
		t.Errorf("after new paper: %+v, want 2 strokes", a)
	}
	s.StopBass, s.StopTreble = 0, 0
	if a := must(s.Coach(nil)); a.Verdict != AtLine || a.Strokes != 0 {
		t.Errorf("nothing to take off: %+v", a)
	}
}

func TestCoachRefuses(t *testing.T) {
	good := Sanding{StartBass: 12, StartTreble: 12, StopBass: 0.4, StopTreble: 0.4, Accuracy: 0.03}
	if a := must(good.Coach(nil)); a.PerStroke != StrokeGuess(0) {
		t.Errorf("no guess given: %+v", a)
	}
	for _, c := range []struct {
		change func(s *Sanding)
		want   Quantity
	}{
		{func(s *Sanding) { s.StartBass = nan }, QuantityHeight}, {func(s *Sanding) { s.StartTreble = 0.9 }, QuantityHeight},
		{func(s *Sanding) { s.StopBass = -0.1 }, QuantityCut}, {func(s *Sanding) { s.StopTreble = nan }, QuantityCut},
		{func(s *Sanding) { s.StartBass, s.StopBass = 3, 2.6 }, QuantityCut}, // a saddle shorter than the cut
		{func(s *Sanding) { s.Accuracy = 0 }, QuantityAccuracy}, {func(s *Sanding) { s.Accuracy = nan }, QuantityAccuracy},
		{func(s *Sanding) { s.PerStroke = Interval{nan, nan} }, QuantityStroke}, {func(s *Sanding) { s.PerStroke = Interval{0.03, 0.01} }, QuantityStroke},
		{func(s *Sanding) { s.PerStroke = Interval{0, inf} }, QuantityStroke},
	} {
		s := good
		c.change(&s)
		_, err := s.Coach(nil)
		refused(t, "Coach", err, c.want)
	}
	for _, c := range []struct {
		check SandingCheck
		want  Quantity
	}{
		{SandingCheck{-1, 12, 12}, QuantityStrokes}, {SandingCheck{20000, 12, 12}, QuantityStrokes}, {SandingCheck{1, nan, 12}, QuantityHeight},
		{SandingCheck{1, 12, 0.4}, QuantityHeight}, {SandingCheck{1, 12, 41}, QuantityHeight},
	} {
		_, err := good.Coach([]SandingCheck{c.check})
		refused(t, "Coach", err, c.want)
	}
	if _, err := good.Coach([]SandingCheck{{1, 12.05, 12}}); err != nil {
		t.Errorf("0.05 higher is the caliper's own give: %v", err)
	}
	if _, err := good.Coach([]SandingCheck{{1, 11.9, 11.9}, {1, 11.97, 11.9}}); !errors.Is(err, ErrGrew) {
		t.Errorf("0.07 higher than the check before: %v", err)
	}
}

// sander is somebody following the advice: a stroke takes off what the paper and the hand do that day.
type sander struct {
	rng          *rand.Rand
	rate, uneven Length // per stroke; how much more at the bass end
	accuracy     Length
}

func (h sander) read(true Length) Length {
	return true + h.accuracy*Length(2*h.rng.Float64()-1)
}

// stroke is what one stroke takes off at each end: pressing on one side gives it up to half as much again and takes most from the other.
func (h sander) stroke(v CoachVerdict) (bass, treble Length) {
	bass, treble = h.rate*(1+h.uneven), h.rate*(1-h.uneven)
	switch v {
	case FavourBass:
		bass, treble = h.rate*1.5, h.rate*0.4
	case FavourTreble:
		bass, treble = h.rate*0.4, h.rate*1.5
	}
	give := func() Length { return Length(0.7 + 0.6*h.rng.Float64()) }
	return bass * give(), treble * give()
}

func TestWhoeverFollowsTheCoachNeverGoesTooFar(t *testing.T) {
	for _, seed := range seeds {
		rng := rand.New(rand.NewPCG(seed, 8))
		checksAll, checksMost, furthest, short, jobs := 0, 0, Length(-1), 0, 3000
		for range jobs {
			guess := StrokeGuess([]int{80, 150, 320, 600}[rng.IntN(4)])
			hand := sander{rng: rng, accuracy: 0.03, uneven: Length(rng.Float64()-0.5) * 0.8}
			// anywhere from a third of the guess's low end to three times its high end
			hand.rate = guess.Low/3 + (3*guess.High-guess.Low/3)*Length(rng.Float64()*rng.Float64())
			bass, treble := Length(8+6*rng.Float64()), Length(8+6*rng.Float64())
			s := Sanding{StartBass: hand.read(bass), StartTreble: hand.read(treble), StopBass: Length(0.06 + rng.Float64()), StopTreble: Length(0.06 + rng.Float64()),
				Accuracy: hand.accuracy, PerStroke: guess}
			var checks []SandingCheck
			stroke := Length(0)
			for {
				a, err := s.Coach(checks)
				if err != nil {
					t.Fatalf("seed %d: %v after %+v", seed, err, checks)
				}
				if a.Strokes == 0 {
					if a.Verdict != AtLine && a.Verdict != PastLine {
						t.Fatalf("seed %d: no strokes and no stop: %+v", seed, a)
					}
					if a.LeftBass.Low > 0.06 || a.LeftTreble.Low > 0.06 {
						short++
					}
					break
				}
				for range a.Strokes {
					b, tr := hand.stroke(a.Verdict)
					bass, treble, stroke = bass-b, treble-tr, max(stroke, b, tr)
				}
				checks = append(checks, SandingCheck{a.Strokes, hand.read(bass), hand.read(treble)})
				if len(checks) > 400 {
					t.Fatalf("seed %d: no end after %d checks: %+v, hand %+v, %+v", seed, len(checks), s, hand, a)
				}
			}
			over := max(s.StartBass-s.StopBass-bass, s.StartTreble-s.StopTreble-treble) - stroke
			furthest = max(furthest, over)
			if over > s.Accuracy+1e-9 {
				t.Fatalf("seed %d: %.4f mm past the target and a stroke of %.4f: hand %+v, %+v, checks %+v", seed, float64(over), float64(stroke), hand, s, checks)
			}
			checksAll, checksMost = checksAll+len(checks), max(checksMost, len(checks))
		}
		t.Logf("seed %d: %.1f checks a job, %d at most; %.4f mm past the target and one stroke at the furthest; %d of %d left an end for the next round",
			seed, float64(checksAll)/float64(jobs), checksMost, float64(furthest), short, jobs)
	}
}

func TestAnEndThatWasToLoseNothingIsWatched(t *testing.T) {
	for _, seed := range seeds {
		rng := rand.New(rand.NewPCG(seed, 9))
		for range 1000 {
			guess := StrokeGuess(150)
			hand := sander{rng: rng, accuracy: 0.03, rate: guess.Low + guess.Width()*Length(rng.Float64())}
			bass, treble, stroke := Length(10), Length(10), Length(0)
			s := Sanding{StartBass: hand.read(bass), StartTreble: hand.read(treble), StopTreble: Length(0.1 + 0.5*rng.Float64()), Accuracy: 0.03, PerStroke: guess}
			var checks []SandingCheck
			for {
				a := must(s.Coach(checks))
				if a.Strokes == 0 {
					break
				}
				for range a.Strokes {
					b, tr := hand.stroke(a.Verdict)
					bass, treble, stroke = bass-b, treble-tr, max(stroke, b, tr)
				}
				if checks = append(checks, SandingCheck{a.Strokes, hand.read(bass), hand.read(treble)}); len(checks) > 400 {
					t.Fatalf("seed %d: no end", seed)
				}
			}
			if over := s.StartBass - bass; over > 0.05+2*0.03+stroke { // the leeway, the caliper twice and a stroke
				t.Fatalf("seed %d: %.4f mm off an end that was to lose nothing, stroke %.4f", seed, float64(over), float64(stroke))
			}
		}
	}
}

func TestCoachByTheLineAlone(t *testing.T) {
	line := Line{Ends: ends72, Bass: 0.4, Treble: 0.6}
	guess := Interval{0.005, 0.03}
	for _, c := range []struct {
		name                 string
		bass, middle, treble LineSeen
		soFar                int
		want                 CoachVerdict
		strokes              int
	}{
		{"before the first stroke: half of 0.4 at three times 0.03", LineClear, LineClear, LineClear, 0, KeepLevel, 2},
		{"then a quarter as many more", LineClear, LineClear, LineClear, 20, KeepLevel, 5},
		{"at least one", LineClear, LineClear, LineClear, 2, KeepLevel, 1},
		{"never more than thirty", LineClear, LineClear, LineClear, 1000, KeepLevel, 30},
		{"bass touched", LineTouched, LineClear, LineClear, 20, FavourTreble, 4},
		{"bass and middle touched", LineTouched, LineTouched, LineClear, 20, FavourTreble, 4},
		{"treble touched", LineClear, LineClear, LineTouched, 8, FavourBass, 2},
		{"both ends, not the middle", LineTouched, LineClear, LineTouched, 20, Hollow, 4},
		{"the middle only", LineClear, LineTouched, LineClear, 20, Rounded, 4},
		{"everywhere", LineTouched, LineTouched, LineTouched, 20, AtLine, 0},
		{"gone at the bass end", LineGone, LineTouched, LineTouched, 20, PastLine, 0},
		{"gone in the middle", LineTouched, LineGone, LineTouched, 20, PastLine, 0},
		{"no such look", LineClear, 7, LineClear, 20, PastLine, 0},
	} {
		a := CoachByLine(c.bass, c.middle, c.treble, line, c.soFar, guess)
		if a.Verdict != c.want || a.Strokes != c.strokes {
			t.Errorf("%s: verdict %d, %d strokes, want %d, %d", c.name, a.Verdict, a.Strokes, c.want, c.strokes)
		}
		if c.bass == LineGone && (a.OverBass != 0.5 || a.OverTreble != 0) {
			t.Errorf("%s: %+v", c.name, a)
		}
	}
	// no line at the bass end: the treble's counts, 0.6/2/0.09 = 3.3
	line.Bass = 0
	if a := CoachByLine(LineClear, LineClear, LineClear, line, 0, guess); a.Strokes != 3 {
		t.Errorf("%+v, want 3 strokes", a)
	}
	for _, odd := range []Interval{{}, {nan, nan}, {-1, -1}} {
		if a := CoachByLine(LineClear, LineClear, LineClear, line, -5, odd); a.Strokes != 3 {
			t.Errorf("guess %v: %+v, want 3 strokes", odd, a)
		}
	}
}

func TestTheLineCoachPassesByAQuarterAtMost(t *testing.T) {
	for _, seed := range seeds {
		rng := rand.New(rand.NewPCG(seed, 10))
		for range 2000 {
			guess := StrokeGuess([]int{80, 150, 320, 600}[rng.IntN(4)])
			rate := guess.Low/3 + (3*guess.High-guess.Low/3)*Length(rng.Float64())
			stop := Length(0.1 + rng.Float64())
			gone, soFar, looks := Length(0), 0, 0
			for ; gone < stop; looks++ {
				n := CoachByLine(LineClear, LineClear, LineClear, Line{ends72, stop, stop}, soFar, guess).Strokes
				gone, soFar = gone+rate*Length(n), soFar+n
			}
			if gone > stop*1.25+rate+1e-9 || looks > 200 {
				t.Fatalf("seed %d: %v of %v gone after %d looks at %v a stroke", seed, gone, stop, looks, rate)
			}
		}
	}
}

func TestStrokeGuessFallsWithTheGrit(t *testing.T) {
	last := Interval{1, 1}
	for _, grit := range []int{60, 80, 120, 150, 220, 320, 400, 1000} {
		g := StrokeGuess(grit)
		if !g.Valid() || g.Low <= 0 || g.High > last.High || g.Low > last.Low {
			t.Errorf("grit %d: %v after %v", grit, g, last)
		}
		last = g
	}
	if StrokeGuess(0) != StrokeGuess(150) || StrokeGuess(-1) != StrokeGuess(0) {
		t.Error("an unknown grit is taken as a middling one")
	}
}
