package job

import (
	"math"
	"slices"
	"time"

	"gapwright/geometry"
)

// Setting the bow of the neck, and what of the neck a job of its own leaves.

// CanTurn tells whether there is a rod that turns and a key that fits it.
func (r Record) CanTurn() bool {
	a, _ := r.Answer(AskRod)
	return a == RodTurns
}

// ReliefFound is how the relief stands to what is usual; ok is false while it is not read.
func (r Record) ReliefFound() (f geometry.PartFound, ok bool) {
	found, err := r.Diagnosis()
	if err != nil || len(found) == 0 || !r.ReliefKnown() {
		return f, false
	}
	return found[0], true
}

// aDay is how long half a turn is left to settle before the rod is turned further (common practice, no source).
const aDay = 24 * time.Hour

// TurnsLeft is how far the rod may still be turned today, in eighths: looser below zero, tighter above. Half a turn in a day is the most.
func (r Record) TurnsLeft(now time.Time) (looser, tighter int) {
	done := 0
	for _, t := range r.turns {
		if t.Feature == Relief && between(now, t.at) < aDay {
			done += t.Eighths
		}
	}
	return max(-MostAtOnce, min(0, -MostAtOnce-done)), min(MostAtOnce, max(0, MostAtOnce-done))
}

// TurnAdvised is how many eighths to turn now, tightened above zero: one at a time until it is known what an eighth does here, then as many as leave the
// relief within the usual at the most that they may do, about to its middle; 0 when nothing is out or nothing more may be turned today.
func (r Record) TurnAdvised(now time.Time) int {
	f, ok := r.ReliefFound()
	if !ok || f.Standing != geometry.Above && f.Standing != geometry.Below {
		return 0
	}
	way, n := FirstTurn(f), 1
	if each, known := r.PerEighth(); known {
		if each.Low > 0 { // tightened by what the person calls so, this one bends further
			way, each = -way, each.Times(-1)
		}
		if each.High < 0 {
			room, aim := f.Read.Low-f.Usual.Low, f.Read.Middle()-f.Usual.Middle()
			if f.Standing == geometry.Below {
				room, aim = f.Usual.High-f.Read.High, -aim
			}
			n = max(1, min(int(math.Floor(float64(room/-each.Low))), int(math.Round(float64(aim/-each.Middle())))))
		}
	}
	looser, tighter := r.TurnsLeft(now)
	return min(max(way*min(n, MostAtOnce), looser), tighter)
}

// Was is what a place read before it was first changed in this job: before the rod was turned or the strings changed, and, at fret 1, before its slot was
// filed. changed is false when it was not read then, or nothing changed since; then it is what it reads now.
func (r Record) Was(p Place) (was geometry.Interval, changed bool) {
	then, set, until := r.state, -1, math.MaxInt
	then.neck, then.filed = nil, nil
	for _, f := range slices.Backward(r.filed) {
		if p.Feature.first() && f.String == p.Course {
			until = f.sequence
		}
	}
	for _, t := range r.neck {
		if t.Feature == p.Feature && t.String == p.Course && t.sequence < until && (set < 0 || set == t.set) {
			then.neck, set = append(then.neck, t), t.set
		}
	}
	was, _, err := then.surveys(p.Feature, p.Course, set)
	return was, err == nil && (set != r.set || until != math.MaxInt)
}

// NeckRead is a place of the neck as the job leaves it.
type NeckRead struct {
	Place
	Now     geometry.Interval
	Was     geometry.Interval
	Changed bool              // it was read before and after
	At12    geometry.Interval // what that did to the open gap at fret 12: above zero higher
}

// NeckReads lists the places of the neck that are read now, relief first, then fret 1 course by course.
func (r Record) NeckReads() []NeckRead {
	var all []NeckRead
	add := func(p Place) {
		now, _, err := r.surveys(p.Feature, p.Course, r.set)
		if err != nil {
			return
		}
		n := NeckRead{Place: p, Now: now}
		if n.Was, n.Changed = r.Was(p); n.Changed {
			change := now.Minus(n.Was)
			if p.Feature == Relief {
				n.At12, err = r.Instrument.Neck().ReliefChange(12, 0, change)
				n.Changed = err == nil
			} else {
				n.At12 = change.Times(r.Instrument.slotDepth(p.Feature) * r.Instrument.nutShare(12, 0))
			}
		}
		all = append(all, n)
	}
	add(Place{Relief, 0})
	for course := range r.Instrument.Kind().Courses {
		add(Place{r.FirstWay(course), course})
	}
	return all
}

// NeckMoved tells whether anything of the neck was changed in this job.
func (r Record) NeckMoved() bool { return len(r.turns) > 0 || len(r.filed) > 0 }

// NeckStill tells whether the rod was turned and the relief reads as before, as far as both readings tell: it was turned back, or did nothing.
func (r Record) NeckStill() bool {
	if len(r.turns) == 0 || len(r.filed) > 0 {
		return false
	}
	reads := r.NeckReads()
	return len(reads) > 0 && reads[0].Feature == Relief && reads[0].Changed && reads[0].At12.Low <= 0 && reads[0].At12.High >= 0
}

// SlotFiled tells whether something was filed that no undo puts back.
func (r Record) SlotFiled() bool { return len(r.filed) > 0 }

// movedBaseline is what a job leaves that changes the neck and reads no gap: the gaps as they were set before, marked as moved when something was
// changed, with what the neck reads now. nil where there was none: nothing is invented.
func (r Record) movedBaseline() *AsSet {
	if r.Ended != AsSaved || r.Instrument.AsSet == nil {
		return nil
	}
	base := *r.Instrument.AsSet
	bent := slices.ContainsFunc(r.turns, func(t turned) bool { return t.Feature == Relief })
	base.Moved = base.Moved || r.NeckMoved()
	read := r.SurveyList()
	neck := slices.DeleteFunc(slices.Clone(base.Neck), func(s Surveyed) bool {
		return bent || s.Feature.first() && r.filedAt(s.String) > 0 || slices.ContainsFunc(read, func(t Surveyed) bool { return t.Feature == s.Feature && t.String == s.String })
	})
	base.Neck, base.Rod = append(neck, read...), r.RodTurns()
	if air := r.airOf(r.Last); air != nil && len(read) > 0 {
		base.Air = air
	}
	return &base
}
