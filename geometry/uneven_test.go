package geometry_test

import (
	"math/rand/v2"
	"testing"

	. "gapwright/geometry"
)

// planer is somebody following the advice on a saddle whose ends are told apart: pressing on one side gives that end half as much again, and the other
// still loses a share of what the pressed one does.
type planer struct {
	rng    *rand.Rand
	rate   Length // per stroke, even pressure
	uneven Length // how much more at the bass end, even pressure
	share  Length // at the other end, of what the pressed end loses
}

func newPlaner(rng *rand.Rand, guess Interval) planer {
	return planer{rng, guess.Low + guess.Width()*Length(rng.Float64()), Length(rng.Float64()-0.5) * 0.4, Length(0.15 + 0.35*rng.Float64())}
}

func (h planer) stroke(v CoachVerdict) (bass, treble Length) {
	bass, treble = h.rate*(1+h.uneven), h.rate*(1-h.uneven)
	switch v {
	case FavourBass:
		bass = h.rate * 1.5
		treble = bass * h.share
	case FavourTreble:
		treble = h.rate * 1.5
		bass = treble * h.share
	}
	give := func() Length { return Length(0.7 + 0.6*h.rng.Float64()) }
	return bass * give(), treble * give()
}

// work is one round: what was to come off, what may beyond that, what did, and how often somebody had to look.
type work struct {
	line, spare, gone [2]Length
	checks            int
	stroke            Length
	last              Advice
}

// full is how far beyond line and spare together the worse end is.
func (w work) full() Length {
	return max(w.gone[0]-w.line[0]-w.spare[0], w.gone[1]-w.line[1]-w.spare[1])
}

func (w work) near() bool { // both ends a tenth or less above their line
	return w.line[0]-w.gone[0] < 0.1 && w.line[1]-w.gone[1] < 0.1
}

func (h planer) sand(w *work, a Advice) {
	for range a.Strokes {
		b, tr := h.stroke(a.Verdict)
		w.gone[0], w.gone[1], w.stroke = w.gone[0]+b, w.gone[1]+tr, max(w.stroke, b, tr)
	}
	w.checks++
}

func byCaliper(t *testing.T, h planer, guess Interval, line, spare [2]Length) work {
	w := work{line: line, spare: spare}
	read := func(side int) Length { return 12 - w.gone[side] + Length(0.06*h.rng.Float64()-0.03) }
	s := Sanding{StartBass: read(0), StartTreble: read(1), StopBass: line[0], StopTreble: line[1], SpareBass: spare[0], SpareTreble: spare[1],
		Accuracy: 0.03, PerStroke: guess}
	var checks []SandingCheck
	for {
		if w.last = must(s.Coach(checks)); w.last.Strokes == 0 {
			return w
		}
		h.sand(&w, w.last)
		if checks = append(checks, SandingCheck{w.last.Strokes, read(0), read(1)}); len(checks) > 200 {
			t.Fatalf("no end: %+v, %+v, %+v", h, s, w)
		}
	}
}

func byLine(t *testing.T, h planer, guess Interval, line, spare [2]Length) work {
	w := work{line: line, spare: spare}
	see := func(gone, line Length) LineSeen { // drawn and seen to 0.05; the line is 0.4 wide
		switch over := gone - line + Length(0.1*h.rng.Float64()-0.05); {
		case over > 0.4:
			return LineGone
		case over > 0:
			return LineTouched
		}
		return LineClear
	}
	s := LineSanding{Line{ends72, line[0], line[1]}, spare[0], spare[1], guess}
	var looks []LineLook
	for {
		if w.last = s.Coach(looks); w.last.Strokes == 0 {
			return w
		}
		h.sand(&w, w.last)
		middle := see((w.gone[0]+w.gone[1])/2, (line[0]+line[1])/2)
		if looks = append(looks, LineLook{w.last.Strokes, see(w.gone[0], line[0]), middle, see(w.gone[1], line[1])}); len(looks) > 200 {
			t.Fatalf("no end: %+v, %+v, %+v", h, s, w)
		}
	}
}

// What is proven: with a caliper and the usual spare no end ever loses more than line and spare together by more than the caliper's accuracy, at
// whatever share pressing one end takes from the other. By line the drawing and the eye are in it, and a quarter of the cut.
func TestUnevenCuts(t *testing.T) {
	const checksWanted, nearWanted = 12, 0.85 // a first round at the most on average, and how many leave both ends near their line at the least
	for _, way := range []struct {
		name   string
		sand   func(*testing.T, planer, Interval, [2]Length, [2]Length) work
		beyond func(cut Length) Length // line and spare
	}{
		{"caliper", byCaliper, func(Length) Length { return 0.03 }},
		{"line", byLine, func(cut Length) Length { return max(0, cut/4-0.1) + 0.15 }},
	} {
		for _, job := range []struct {
			bass, treble Length
			oneRound     bool // what the low end loses while the other is pressed leaves room for the whole
		}{{0.65, 0.05, false}, {0.65, 0.25, true}, {1.0, 0.6, true}, {0.4, 0.4, true}, {0, 0.5, false}} {
			jobs, rounds, checks, firstChecks, near, held, smooth := 0, 0, 0, 0, 0, 0, Length(0)
			var left [2]Length
			worst := Length(-1)
			for _, seed := range seeds {
				rng := rand.New(rand.NewPCG(seed, 11))
				for range 1000 {
					jobs++
					guess := StrokeGuess([]int{80, 150, 320, 600}[rng.IntN(4)])
					h := newPlaner(rng, guess)
					line, spare := [2]Length{job.bass, job.treble}, [2]Length{0.1, 0.1}
					for round := 1; max(line[0], line[1]) > 0.055 && round <= 10; round++ {
						if min(line[0]+spare[0], line[1]+spare[1]) < 0.04 { // one end has nothing more to give: no straight cut takes the rest
							held++
							break
						}
						w := way.sand(t, h, guess, line, spare)
						rounds, checks = rounds+1, checks+w.checks
						if round == 1 {
							firstChecks, smooth = firstChecks+w.checks, smooth+w.last.SmoothBass+w.last.SmoothTreble
							left[0], left[1] = left[0]+line[0]-w.gone[0], left[1]+line[1]-w.gone[1]
							if w.near() {
								near++
							}
							worst = max(worst, w.full())
							if w.full() > way.beyond(max(job.bass, job.treble)) {
								t.Fatalf("seed %d: %.3f mm beyond line and spare: %+v, %+v", seed, float64(w.full()), h, w)
							}
						}
						for side := range line {
							full := max(0, line[side]+spare[side]-w.gone[side])
							line[side] = max(0, full-0.1)
							spare[side] = full - line[side]
							if over := w.gone[side] - w.line[side] - max(w.spare[side], 0.05); over > w.line[side]/4+0.06+w.stroke {
								t.Fatalf("seed %d: round %d: %.3f mm beyond: %+v, %+v", seed, round, float64(over), h, w)
							}
						}
					}
				}
			}
			per := func(n int) float64 { return float64(n) / float64(jobs) }
			t.Logf("%s %.2f/%.2f: first round %.1f checks, leaves %.2f/%.2f, both near %.0f %%, %.3f for the fine paper, worst %.3f beyond; the job %.1f rounds, %.1f checks, "+
				"%.0f %% held by an end with nothing to give", way.name, float64(job.bass), float64(job.treble), per(firstChecks), float64(left[0])/float64(jobs),
				float64(left[1])/float64(jobs), 100*per(near), float64(smooth)/float64(jobs)/2, float64(worst), per(rounds), per(checks), 100*per(held))
			if way.name == "caliper" && per(firstChecks) > checksWanted || job.oneRound && per(near) < nearWanted {
				t.Errorf("%s %v: %.1f checks, %.2f near", way.name, job, per(firstChecks), per(near))
			}
		}
	}
}
