package job

import (
	"gapwright/geometry"
)

// What height is offered before a person says anything, and how it is moved. None of it is a fact until it is told.

// Wish is a height to wish for: the low end, the middle or the high end of what is usual, lifted to the floor, and never above what the string
// already has (common practice, no source).
func (r Record) Wish(style geometry.Style, own bool) Chosen {
	height := func(course int) Typed {
		usual := r.Instrument.Usual(course)
		h := usual.Middle()
		switch style {
		case geometry.StyleLight:
			h = usual.Low
		case geometry.StyleHard:
			h = usual.High
		}
		if gap, err := r.Before(course); err == nil && !r.Method.Raises() {
			h = min(h, gap.High)
		}
		return r.wish(course, h, own)
	}
	return Chosen{Bass: height(0), Treble: height(r.Instrument.Last()), Own: own}
}

// wish writes a height for a course, on the grid in which heights are wished for and at or above the floor.
func (r Record) wish(course int, h geometry.Length, own bool) Typed {
	step := r.Kit.SmallStep()
	h = max(h.RoundTo(step), r.Instrument.Floor(course, own).RoundUp(step))
	if least, ok := r.LowestGap(course); ok { // what the saddle cannot give is not offered
		h = max(h, least.RoundUp(step))
	}
	if may, err := r.MayWish(course, own); err == nil {
		if h = min(h, max(may.High, may.Low.RoundUp(step))); !r.Method.Lowers() { // what only raises is not asked for less than there is
			h = max(h, may.Low.RoundUp(step))
		}
	}
	return Write(h, r.Kit.Unit, step)
}

// Nudged moves both heights of a wish by whole steps, no further than what may be wished for.
func (r Record) Nudged(c Chosen, bass, treble int) Chosen {
	step := r.Kit.SmallStep()
	move := func(t Typed, course, by int) Typed {
		if by == 0 {
			return t
		}
		h := t.LengthOr(0) + geometry.Length(by)*step
		if may, err := r.MayWish(course, c.Own); err == nil {
			h = min(h, may.High)
		}
		return r.wish(course, h, c.Own)
	}
	return Chosen{Bass: move(c.Bass, 0, bass), Treble: move(c.Treble, r.Instrument.Last(), treble), Own: c.Own, For: c.For}
}

// Held is the present wish with the height that a held-back plan asks for.
func (r Record) Held(p Plan) Chosen {
	round := r.state.round()
	if round.Wanted == nil {
		return Chosen{}
	}
	wish := *round.Wanted
	lower := Write(p.HeldTarget.RoundDown(r.Kit.SmallStep()), r.Kit.Unit, r.Kit.SmallStep())
	switch p.HeldBy {
	case 0:
		wish.Bass = lower
	case r.Instrument.Last():
		wish.Treble = lower
	}
	return wish
}

// Present is the wish as it stands; ok is false before anything was chosen.
func (r Record) Present() (c Chosen, ok bool) {
	if w := r.state.round().Wanted; w != nil {
		return *w, true
	}
	return Chosen{}, false
}
