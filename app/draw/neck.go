package draw

import "math"

// mostRounds is how many dots there is room for.
const mostRounds = 10

// NeckProgress draws how far the work is: a neck with a fret space per step, spaced as frets are, the nut on the left. Spaces before
// current are done and have an inlay; current (from 0) is framed and pointed at; a current of steps or more means that all are done. A dot
// beside the nut stands for every round, ten at most.
func NeckProgress(title, desc string, steps, current, rounds int) Scene {
	p := sheet("progress", title, desc, 320, 32)
	const nut, end = 38.0, 317.0
	steps = max(steps, 1)
	whole := 1 - math.Exp2(-float64(steps)/12)
	at := func(n int) float64 { return nut + (end-nut)*(1-math.Exp2(-float64(n)/12))/whole }
	p.rect(Board, nut, 7, end-nut, 18, 1)
	for n := range steps {
		if n < current {
			p.dot(StepDone, (at(n)+at(n+1))/2, 16, 4.2)
		}
		if n > 0 {
			p.line(Fine, at(n), 7, at(n), 25)
		}
	}
	if current >= 0 && current < steps {
		a, b := at(current), at(current+1)
		p.rect(StepNow, a, 4, b-a, 24, 2)
	}
	p.rect(Bone, nut-4, 5, 5, 22, 1)
	for i := range min(max(rounds, 0), mostRounds) {
		p.dot(Round, 30-6.4*float64(i/2), 12+8*float64(i%2), 2.4)
	}
	return p.Scene
}
