package job

import (
	"errors"
	"slices"
	"strconv"
	"strings"
	"time"

	"gapwright/geometry"
)

// What is offered before a person says anything: a likely mark, a height to wish for, what to make of a verdict. None of it is a fact until it
// is told.

// Touch is a playing style as it bears on height.
type Touch uint8

// The touches, lowest strings first.
const (
	TouchLight Touch = iota
	TouchMixed
	TouchHard
)

// Touches lists them.
func Touches() []Touch { return []Touch{TouchLight, TouchMixed, TouchHard} }

// Wish is a height to wish for: the low end, the middle or the high end of what is usual, lifted to the floor, and never above what the string
// already has (common practice, no source).
func (r Record) Wish(t Touch, own bool) Chosen {
	height := func(course int) Typed {
		usual := r.Instrument.Usual(course)
		h := usual.Middle()
		switch t {
		case TouchLight:
			h = usual.Low
		case TouchHard:
			h = usual.High
		}
		if gap, err := r.Before(course); err == nil {
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
		h = min(h, max(may.High, may.Low.RoundUp(step)))
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
	return Chosen{Bass: move(c.Bass, 0, bass), Treble: move(c.Treble, r.Instrument.Last(), treble), Own: c.Own}
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

// Likely is what the readings suggest making of a finished round.
func (r Record) Likely() Outcome {
	if r.Reached() {
		return Done
	}
	best := Keep
	for _, c := range r.Compare() {
		switch c.Verdict {
		case geometry.TooLow:
			if c.Read.High < c.Floor {
				return TooMuch
			}
		case geometry.StillHigh:
			best = Again
		}
	}
	return best
}

// Standing is what a course's standing readings allow, before or after the work; the zero interval when there are none.
func (r Record) Standing(course int, after bool) geometry.Interval {
	read := r.Before
	if after {
		read = r.After
	}
	i, err := read(course)
	if err != nil {
		return geometry.Interval{}
	}
	return i
}

// StaleCourse tells whether a course's readings are too old at now.
func (r Record) StaleCourse(course int, after bool, now time.Time) bool {
	for _, t := range r.Readings(course, after) {
		if age := now.Sub(t.At); age > TooOld || -age > TooOld {
			return true
		}
	}
	return false
}

// LikelyMark is the mark at which the reading control opens: where the string is expected, or was last.
func (r Record) LikelyMark(course int, after bool) int {
	expected := r.Instrument.Usual(course).High
	if r.Instrument.AsSet != nil {
		if i, err := r.Instrument.AsSet.Interval(course); err == nil {
			expected = i.Middle()
		}
	}
	if taken := r.Readings(course, after); len(taken) > 0 {
		expected = r.Standing(course, after).Middle()
	} else if after {
		if plan, err := r.Plan(); err == nil {
			for _, p := range plan.Strings {
				if p.Course == course {
					expected = p.After.Middle()
				}
			}
		}
	}
	return r.Kit.NearestMark(expected)
}

// Final lists the courses as they were last read, with what they were before the first round; the predictions are those of the last round.
func (r Record) Final() []Compared {
	round := r.state.round()
	all := r.Compare()
	if len(all) == 0 && len(round.After) == 0 && !round.MaterialGone() {
		for course := range r.Instrument.Kind().Courses {
			if read, err := r.Before(course); err == nil {
				all = append(all, Compared{Course: course, Read: read, Both: read})
			}
		}
	}
	for i := range all {
		all[i].Before = geometry.Interval{}
		if len(r.Rounds) > 0 {
			var first []geometry.Interval
			for _, t := range r.Rounds[0].Before {
				if t.Read.String != all[i].Course {
					continue
				}
				if t.Read.Replaces {
					first = first[:0]
				}
				if read, err := t.Read.Interval(); err == nil {
					first = append(first, read)
				}
			}
			if before, err := geometry.Repeats(first, geometry.LeastHalfWidth); err == nil {
				all[i].Before = before
			}
		}
	}
	return all
}

// WithMarks is the kit with another rule; its unit becomes the person's, and where its zero lies is asked anew.
func (k Kit) WithMarks(m Marks) Kit {
	k.Marks, k.Zero, k.ZeroDist = m, ZeroNotAsked, Typed{}
	switch m {
	case Every32nd, Every64th, EveryHundreth:
		k.Unit = Inch
	case EveryMM, EveryHalfMM, EveryQuarter:
		k.Unit = MM
	}
	if k.Unit == "" {
		k.Unit = MM
	}
	return k
}

// Check tells whether the kit can be worked with. Errors: geometry's.
func (k Kit) Check() error {
	if k.Zero != ZeroInside && k.Zero != ZeroCutOff {
		return nil
	}
	d, err := k.ZeroDist.Length()
	if err != nil {
		return err
	}
	if d > 9 {
		return &geometry.RangeError{Quantity: geometry.QuantityRuleEnd, Got: float64(d), Min: 0, Max: 9}
	}
	return nil
}

// Window is the lowest mark to show so that lit and the one above it are seen among so many, moved no more than needed from first.
func (k Kit) Window(lit, first, marks int) int {
	if lit < first {
		first = lit - 1
	}
	if lit+1 >= first+marks {
		first = lit + 3 - marks
	}
	return max(0, first)
}

// ErrNotAMark says that a rule has no mark at the height that was typed.
var ErrNotAMark = errors.New("the rule has no mark there")

// MarkAt finds the mark that was typed: its height, or for a rule in fractions its number of 64ths or 32nds. Errors: ErrNotAMark,
// *geometry.ParseError, *geometry.RangeError.
func (k Kit) MarkAt(text string) (int, error) {
	step := k.RuleStep()
	if step == 0 {
		return 0, ErrNotAMark
	}
	if k.Marks == Every64th || k.Marks == Every32nd {
		if n, err := strconv.Atoi(strings.TrimSpace(text)); err == nil && n >= 0 {
			if n > k.HighestMark() {
				return 0, &geometry.RangeError{Quantity: geometry.QuantityGap, Got: float64(n) * float64(step), Min: 0, Max: float64(geometry.LargestGap)}
			}
			return n, nil
		}
	}
	l, err := Typed{text, k.Unit}.Length()
	if err != nil {
		return 0, err
	}
	if l > geometry.LargestGap {
		return 0, &geometry.RangeError{Quantity: geometry.QuantityGap, Got: float64(l), Min: 0, Max: float64(geometry.LargestGap)}
	}
	mark := l.RoundTo(step)
	if d := l - mark; d > step/50 || -d > step/50 {
		return 0, ErrNotAMark
	}
	return min(int(float64(mark/step)+0.5), k.HighestMark()), nil
}

// LongMark is how many marks make a longer one on the rule: a centimetre's or an inch's usual division.
func (k Kit) LongMark() int {
	switch k.Marks {
	case EveryMM:
		return 5
	case EveryHalfMM:
		return 2
	case EveryQuarter:
		return 4
	case EveryHundreth:
		return 5
	}
	return 4
}

// ScaleLength is the scale length as given, or what is usual.
func (i Instrument) ScaleLength() geometry.Length { return i.Scale.LengthOr(i.Kind().Scale) }

// UsualNut is about how high a course stands over the fret tops at the nut, for a picture: the usual gap at fret 1, which is a little less.
func (i Instrument) UsualNut(course int) geometry.Length {
	f := i.Kind().FirstFret
	return i.between([2]geometry.Length{f[0].Middle(), f[1].Middle()}, course)
}

// Check tells whether the numbers for the saddle's stand can be.
func (s Stood) Check() error { return s.check() }

// Spaces is how many spaces between marks there are from one number of the rule to the next: centimetres or inches.
func (m Marks) Spaces() int {
	switch m {
	case EveryMM:
		return 10
	case EveryHalfMM:
		return 20
	case EveryQuarter:
		return 40
	case Every32nd:
		return 32
	case Every64th:
		return 64
	case EveryHundreth:
		return 100
	}
	return 0
}

// Papers are the papers to choose from, coarse to fine (common practice, no source).
func Papers() []int { return []int{80, 120, 150, 220, 320, 400} }

// Invisible tells whether the round moves no string by half of what the kit's rule can show.
func (r Record) Invisible(p Plan) bool {
	most := geometry.Length(0)
	for _, s := range p.Strings {
		most = max(most, geometry.Length(s.Leverage)*p.Drawn.At(s.Offset))
	}
	return r.Kit.RuleStep() > 0 && most < r.Kit.RuleStep()/2
}

// MuchMissing tells whether more than a strip can put back is missing at some end (common practice, no source).
func (r Record) MuchMissing() bool {
	return max(r.Shortfall(0).High, r.Shortfall(r.Instrument.Last()).High) > geometry.Millimetre
}

// Missing is what one even strip under the whole saddle has to put back: for the side that is short by more.
func (r Record) Missing() geometry.Interval {
	bass, treble := r.Shortfall(0), r.Shortfall(r.Instrument.Last())
	if treble.High > bass.High {
		return treble
	}
	return bass
}

// DoesNotFit is the first course whose new reading does not meet what was to be expected.
func DoesNotFit(all []Compared) (c Compared, ok bool) {
	for _, c := range all {
		if c.Compares && !c.Meets {
			return c, true
		}
	}
	return Compared{}, false
}

// leastLine is the cut below which no line can be drawn or scored at an end (common practice, no source).
const leastLine geometry.Length = 0.1

// RunsOut tells which ends of a line are too low to be drawn: there it runs out at the corner.
func RunsOut(l geometry.Line) (bass, treble bool) { return l.Bass < leastLine, l.Treble < leastLine }

// Present is the wish as it stands; ok is false before anything was chosen.
func (r Record) Present() (c Chosen, ok bool) {
	if w := r.state.round().Wanted; w != nil {
		return *w, true
	}
	return Chosen{}, false
}

// Sides are the saddle's ends as they lie from left to right when the strings run away from the player: bass first, treble first for the
// left-handed.
func (i Instrument) Sides() []int {
	if i.LeftHanded {
		return []int{1, 0}
	}
	return []int{0, 1}
}

// At is what the line removes at a side.
func (p Plan) At(side int) geometry.Length {
	if side == 1 {
		return p.Drawn.Treble
	}
	return p.Drawn.Bass
}

// OpenOn is the job under way on an instrument, the first in the list.
func OpenOn(jobs []Record, instrument string) (Record, bool) {
	for _, r := range jobs {
		if r.Instrument.ID == instrument {
			return r, true
		}
	}
	return Record{}, false
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

// TooWide tells whether a reading is too wide to show, at the end, that a height is reached.
func (r Record) TooWide(course int, after bool) bool {
	i := r.Standing(course, after)
	lever, err := r.Instrument.Leverage(r.Instrument.ReadFret(), r.Instrument.Held)
	return err == nil && i.High > 0 && geometry.Judge(i, i.Middle(), lever) == geometry.CannotTell
}

// deepCut is a cut that should not be made without knowing how much saddle there is (common practice, no source).
const deepCut geometry.Length = 1.5

// Blind tells whether a plan takes much off a saddle whose stand nobody measured.
func (p Plan) Blind() bool {
	return p.Drawn.Bass > deepCut && !p.LeftKnow[0] || p.Drawn.Treble > deepCut && !p.LeftKnow[1]
}

// Uneven tells whether the round ends although an end of the saddle has some left: the other end has given what it may.
func (r Record) Uneven(c Coach) bool {
	if c.ByCaliper {
		return max(c.LeftBass.Low, c.LeftTreble.Low) > geometry.Millimetre/20
	}
	work := r.Current().Work
	if len(work) == 0 {
		return false
	}
	look, ok := work[len(work)-1].Fact.(Looked)
	return ok && (look.Bass == Clear || look.Treble == Clear)
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
