package job

import (
	"errors"
	"strconv"
	"strings"

	"gapwright/geometry"
)

// What a rule can show, and which of its marks is meant.

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
	} else if lowered, known := r.lowered(course); after && known && r.Method != SandUnderside {
		before, err := r.Before(course)
		if lever, errLever := r.Instrument.Lever(course); err == nil && errLever == nil {
			expected = before.Minus(lowered.Times(lever)).Middle()
		}
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

// Ways are the ways of reading other than by rule that the kit may have: what is to hand first, what was said not to be there left out.
func (k Kit) Ways() []Way {
	var ways []Way
	for _, wanted := range []Has{Yes, NotAsked} {
		for _, w := range []struct {
			way Way
			has Has
		}{{ByFeeler, k.Feelers}, {ByCards, k.Cards}, {ByCaliper, k.Caliper}} {
			if w.has == wanted {
				ways = append(ways, w.way)
			}
		}
	}
	if len(ways) == 0 { // then something will have to be borrowed
		return []Way{ByFeeler, ByCards, ByCaliper}
	}
	return ways
}

// Follows tells whether the kit may have what an answer wants to watch while sanding.
func (k Kit) Follows(a Answer) bool {
	return !(a == FollowCaliper && k.Caliper == No || a == FollowCards && k.Cards == No)
}
