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
		{func(s *Sanding) { s.SpareBass = -0.1 }, QuantityAllow}, {func(s *Sanding) { s.SpareTreble = nan }, QuantityAllow},
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
			if rng.IntN(2) == 0 {
				s.SpareBass, s.SpareTreble = 0.1, Length(0.2*rng.Float64())
			}
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
			over := max(s.StartBass-s.StopBass-s.SpareBass-bass, s.StartTreble-s.StopTreble-s.SpareTreble-treble) - stroke
			furthest = max(furthest, over)
			if over > s.Accuracy+1e-9 {
				t.Fatalf("seed %d: %.4f mm past the target, the spare and a stroke of %.4f: hand %+v, %+v, checks %+v", seed, float64(over), float64(stroke), hand, s, checks)
			}
			checksAll, checksMost = checksAll+len(checks), max(checksMost, len(checks))
		}
		t.Logf("seed %d: %.1f checks a job, %d at most; %.4f mm past the target, the spare and one stroke at the furthest; %d of %d left an end for the next round",
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
	line := Line{Ends: ends72, Bass: 0.4, Treble: 0.45} // the two ends near enough to be one job; a tenth to spare at each
	guess := Interval{0.005, 0.03}
	for _, c := range []struct {
		name                 string
		bass, middle, treble LineSeen
		soFar                int
		want                 CoachVerdict
		strokes              int
	}{
		{"before the first stroke: half of 0.4 at three times 0.03", LineClear, LineClear, LineClear, 0, KeepLevel, 2},
		{"then 0.1/0.45 as many more: 4.4, rounded up", LineClear, LineClear, LineClear, 20, KeepLevel, 5},
		{"0.4 takes four at three times 0.03: two more", LineClear, LineClear, LineClear, 2, KeepLevel, 2},
		{"at least one", LineClear, LineClear, LineClear, 4, KeepLevel, 1},
		{"never more than thirty", LineClear, LineClear, LineClear, 1000, KeepLevel, 30},
		{"bass touched after 16 clear: 0.4/16 a stroke at most, 0.05 is two of those", LineTouched, LineClear, LineClear, 20, FavourTreble, 2},
		{"bass and middle touched after 80 clear: ten of 0.4/80, four at a time", LineTouched, LineTouched, LineClear, 100, FavourTreble, 4},
		{"treble touched after 7 clear: half of 0.45/7, so one", LineClear, LineClear, LineTouched, 8, FavourBass, 1},
		{"both ends, not the middle", LineTouched, LineClear, LineTouched, 20, Hollow, 2},
		{"the middle only", LineClear, LineTouched, LineClear, 20, Rounded, 4},
		{"everywhere", LineTouched, LineTouched, LineTouched, 20, AtLine, 0},
		{"gone at the bass end", LineGone, LineTouched, LineTouched, 20, PastLine, 0},
		{"gone in the middle", LineTouched, LineGone, LineTouched, 20, PastLine, 0},
		{"no such look", LineClear, 7, LineClear, 20, PastLine, 0},
	} {
		a := LineSanding{line, 0.1, 0.1, guess}.Coach(looksAfter(c.soFar, c.bass, c.middle, c.treble))
		if a.Verdict != c.want || a.Strokes != c.strokes {
			t.Errorf("%s: verdict %d, %d strokes, want %d, %d", c.name, a.Verdict, a.Strokes, c.want, c.strokes)
		}
		if c.bass == LineGone && (a.OverBass != 0.5 || a.OverTreble != 0 || a.SmoothBass != 0) {
			t.Errorf("%s: %+v", c.name, a)
		}
	}
	// no line at the bass end: the treble's counts, 0.6/2/0.09 = 3.3; the bass end's spare, 0.15/(0.09/2), is as many
	line.Bass, line.Treble = 0.05, 0.6
	if a := (LineSanding{line, 0.1, 0.1, guess}).Coach(nil); a.Strokes != 3 {
		t.Errorf("%+v, want 3 strokes", a)
	}
	if a := (LineSanding{Line{ends72, nan, 0.6}, nan, 0.1, guess}).Coach(nil); a.Verdict != FavourTreble || a.Strokes != 1 || a.SmoothBass != 0 {
		t.Errorf("what is no number counts as nothing: %+v", a)
	}
	for _, odd := range []Interval{{}, {nan, nan}, {-1, -1}} {
		if a := (LineSanding{line, 0.1, 0.1, odd}).Coach(nil); a.Strokes != 3 {
			t.Errorf("guess %v: %+v, want 3 strokes", odd, a)
		}
	}
}

func TestAnUnevenLineRoundByLineStepByStep(t *testing.T) {
	s := LineSanding{Line{ends72, 0.65, 0.05}, 0.1, 0.1, Interval{0.005, 0.03}}
	var looks []LineLook
	for _, c := range []struct {
		why                     string
		verdict                 CoachVerdict
		strokes                 int
		smoothBass, smoothOther Length
	}{
		{"half of 0.65 at 0.09 is 3.6; 0.15 at half of 0.09 is 3.3", FavourBass, 3, 0.1, 0.1},
		{"0.65 takes seven at 0.09: four more. 3 × 0.015 off the treble end is within its 0.05", FavourBass, 4, 0.1, 0.1},
		{"7 × 0.1/0.65 = 1.1, rounded up. 7 × 0.015 is 0.055 beyond", FavourBass, 2, 0.1, 0.045},
		{"0.15 takes ten at 0.015: one more. 9 × 0.015 is 0.085 beyond", FavourBass, 1, 0.1, 0.015},
		{"the spare could be used up", AtLine, 0, 0.1, 0},
	} {
		a := s.Coach(looks)
		if a.Verdict != c.verdict || a.Strokes != c.strokes {
			t.Errorf("%s: verdict %d, %d strokes, want %d, %d", c.why, a.Verdict, a.Strokes, c.verdict, c.strokes)
		}
		near(t, c.why, a.SmoothBass, c.smoothBass, 1e-9)
		near(t, c.why, a.SmoothTreble, c.smoothOther, 1e-9)
		looks = append(looks, LineLook{Strokes: a.Strokes})
	}
	// half of 0.3 is no more than 0.05 and 0.1: any number, until the bass end is there
	s.Line.Bass = 0.3
	if a := s.Coach([]LineLook{{Strokes: 100}}); a.Verdict != FavourBass || a.Strokes != 25 {
		t.Errorf("%+v, want 25 more", a)
	}
	if a := s.Coach([]LineLook{{Strokes: 100}, {25, LineTouched, LineClear, LineTouched}}); a.Verdict != AtLine {
		t.Errorf("%+v, want the line", a)
	}
	// 0.65 and 0.25: the treble end touched after 20 clear loses 0.25/20 at most, so four, and then it stops; 4 × 0.0125 of the 0.1 may have gone before
	s.Line.Bass, s.Line.Treble = 0.65, 0.25
	looks = []LineLook{{Strokes: 20}, {4, LineClear, LineClear, LineTouched}}
	if a := s.Coach(looks); a.Verdict != FavourBass || a.Strokes != 4 || a.SmoothBass != 0.1 {
		t.Errorf("%+v, want four more at the bass end", a)
	} else {
		near(t, "for the fine paper", a.SmoothTreble, 0.05, 1e-9)
	}
	if a := s.Coach(append(looks, LineLook{4, LineClear, LineClear, LineTouched})); a.Verdict != AtLine {
		t.Errorf("%+v, want the line", a)
	}
	// 1.0 and 0.6: every other look keeps level
	s.Line.Bass, s.Line.Treble = 1, 0.6
	for n, want := range []CoachVerdict{FavourBass, KeepLevel, FavourBass, KeepLevel} {
		if a := s.Coach(make([]LineLook, n)); a.Verdict != want {
			t.Errorf("look %d: %+v", n, a)
		}
	}
	// 0.03 and 0.04: nothing worth a stroke
	s.Line.Bass, s.Line.Treble = 0.03, 0.04
	if a := s.Coach(nil); a.Verdict != AtLine || a.Strokes != 0 {
		t.Errorf("%+v, want the line", a)
	}
}

func TestAnUnevenRoundWithACaliperStepByStep(t *testing.T) {
	// 0.65 and 0.05 off, 0.1 to spare at each, caliper 0.03, a stroke may take 0.005 to 0.03
	s := Sanding{StartBass: 12, StartTreble: 12, StopBass: 0.65, StopTreble: 0.05, SpareBass: 0.1, SpareTreble: 0.1, Accuracy: 0.03, PerStroke: Interval{0.005, 0.03}}
	for _, c := range []struct {
		why                      string
		checks                   []SandingCheck
		verdict                  CoachVerdict
		strokes                  int
		smoothBass, smoothTreble Length
	}{
		{"half of 0.65 at 0.09 is 3.6; 0.15 at half of 0.09 is 3.3", nil, FavourBass, 3, 0.1, 0.1},
		{"treble 0.02 in 3: (0.02 + 0.03)/3 = 0.0167; 0.03 and 0.03 beyond is 3.6 of those. 0.15 − 0.02 − 0.06 = 0.07", []SandingCheck{{3, 11.93, 11.98}}, FavourBass, 3, 0.1, 0.07},
		{"treble 0.03 in 6: 0.01; 0.02 + 0.03 is 5 of those", []SandingCheck{{3, 11.93, 11.98}, {3, 11.86, 11.97}}, FavourBass, 5, 0.1, 0.06},
		{"treble 0.07 in 11: 0.0091; 0.01 is one of those", []SandingCheck{{11, 11.75, 11.93}}, FavourBass, 1, 0.1, 0.02},
		{"treble 0.08 off: nothing within half of the spare is left", []SandingCheck{{12, 11.74, 11.92}}, AtLine, 0, 0.1, 0.01},
		{"beyond the line, within the spare", []SandingCheck{{12, 11.74, 11.87}}, AtLine, 0, 0.1, 0},
		{"beyond the spare", []SandingCheck{{12, 11.74, 11.84}}, PastLine, 0, 0.1, 0},
		{"both there; 0.75 − 0.62 − 0.06 = 0.07", []SandingCheck{{60, 11.38, 11.95}}, AtLine, 0, 0.07, 0.04},
	} {
		a := must(s.Coach(c.checks))
		if a.Verdict != c.verdict || a.Strokes != c.strokes {
			t.Errorf("%s: verdict %d, %d strokes, want %d, %d", c.why, a.Verdict, a.Strokes, c.verdict, c.strokes)
		}
		near(t, c.why, a.SmoothBass, c.smoothBass, 1e-9)
		near(t, c.why, a.SmoothTreble, c.smoothTreble, 1e-9)
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
				n := (LineSanding{Line{ends72, stop, stop}, 0.1, 0.1, guess}).Coach(looksAfter(soFar, LineClear, LineClear, LineClear)).Strokes
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

// looksAfter is a line that was clear until the last look, if there was one.
func looksAfter(strokes int, bass, middle, treble LineSeen) []LineLook {
	if strokes <= 0 {
		return nil
	}
	return []LineLook{{Strokes: strokes - strokes/5}, {strokes / 5, bass, middle, treble}}
}
