package job

import (
	"slices"

	"gapwright/geometry"
)

// What of a plan or of the sanding is worth a line to the person.

// Invisible tells whether the round moves no string by half of what the kit's rule can show.
func (r Record) Invisible(p Plan) bool {
	most := geometry.Length(0)
	for _, s := range p.Strings {
		most = max(most, geometry.Length(s.Leverage)*p.Drawn.At(s.Offset))
	}
	return r.Kit.RuleStep() > 0 && most < r.Kit.RuleStep()/2
}

// leastLine is the cut below which no line can be drawn or scored at an end (common practice, no source).
const leastLine geometry.Length = 0.1

// RunsOut tells which ends of a line are too low to be drawn: there it runs out at the corner.
func RunsOut(l geometry.Line) (bass, treble bool) { return l.Bass < leastLine, l.Treble < leastLine }

// At is what the line removes at a side.
func (p Plan) At(side int) geometry.Length {
	if side == 1 {
		return p.Drawn.Treble
	}
	return p.Drawn.Bass
}

// Unclear is the first course whose reading cannot tell enough for the plan; the bass-most when all can.
func (p Plan) Unclear() int {
	for _, s := range p.Strings {
		if s.Verdict == geometry.CannotTell {
			return s.Course
		}
	}
	for _, s := range p.Strings {
		if s.Verdict == geometry.StillHigh && geometry.Judge(s.Reading, s.Reading.Middle(), s.Leverage) == geometry.CannotTell {
			return s.Course
		}
	}
	return 0
}

// EdgeStrokes is how many strokes to go on with before measuring, when one end hangs over the paper's edge (common practice, no source).
const EdgeStrokes = 3

// deepCut is a cut that should not be made without knowing how much saddle there is (common practice, no source).
const deepCut geometry.Length = 1.5

// Blind tells whether a plan takes much off a saddle whose stand nobody measured.
func (p Plan) Blind() bool {
	return p.Drawn.Bass > deepCut && !p.LeftKnow[0] || p.Drawn.Treble > deepCut && !p.LeftKnow[1]
}

// Told are the findings worth a line: of each kind the worst, at the end where it is worst.
func (p Plan) Told() []geometry.Finding {
	var told []geometry.Finding
	for _, f := range p.Findings {
		i := slices.IndexFunc(told, func(t geometry.Finding) bool { return t.Kind == f.Kind })
		switch {
		case i < 0:
			told = append(told, f)
		case f.Severity > told[i].Severity || f.Severity == told[i].Severity && f.Length < told[i].Length:
			told[i] = f
		}
	}
	return told
}

// LineMoves tells how much further up than the line on the saddle the new one lies at each end, when a correction has moved it; negative: further
// down. ok is false while there is no other line on the saddle.
func (r Record) LineMoves() (bass, treble geometry.Length, ok bool) {
	old, ok := r.DrawnLine()
	plan, err := r.Plan()
	if !ok || err != nil {
		return 0, 0, false
	}
	return plan.Drawn.Bass - old.Bass, plan.Drawn.Treble - old.Treble, true
}

// BackToMeasuring are the facts that put the saddle back as it came out and ask for new readings; ok is false when the taking out was not the
// last thing done.
func (r Record) BackToMeasuring() (facts []Fact, ok bool) {
	sequence, fact, undoable := r.Undoable()
	if did, is := fact.(Did); !undoable || !is || did.Step != TakeOut {
		return nil, false
	}
	return []Fact{Undone{Sequence: sequence}, Strung{}}, true
}
