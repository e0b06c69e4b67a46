package geometry

// LargestGap is the highest string this package believes, measured at any fret. Twice the highest in common practice; a bigger number is
// a slip of the thumb or another unit (common practice, no source).
const LargestGap Length = 15

// LeastHalfWidth is how near to the truth any number of rule readings can come: the eye's parallax and the thickness of a mark do not
// average away (common practice, no source).
const LeastHalfWidth Length = 0.05

// CaliperAccuracy is what an ordinary digital caliper can be trusted to, whatever its last digit shows (common practice, no source).
const CaliperAccuracy Length = 0.03

// TwoMarks is a rule's reading: light shows under the string at the mark lit and none at the mark dark, so the gap lies between. The marks
// are counted from the rule's zero, from 0 to LargestGap. Errors: ErrMarksOrder, *RangeError.
func TwoMarks(lit, dark Length) (Interval, error) {
	if err := within(QuantityGap, float64(lit), 0, float64(LargestGap)); err != nil {
		return Interval{}, err
	}
	if err := within(QuantityGap, float64(dark), 0, float64(LargestGap)); err != nil {
		return Interval{}, err
	}
	if dark <= lit {
		return Interval{}, ErrMarksOrder
	}
	return Interval{lit, dark}, nil
}

// OnRuleEnd turns what was read on a rule standing on its end into the gap. The zero lies e above that end (negative when the rule was cut
// off past its zero), −10 to 10 mm, and may itself be uncertain: the gap is the reading plus e. Where even the zero mark shows no light the
// gap is smaller than e and that rule cannot be used; a reading of a cut-off rule that leaves nothing above zero is refused: ErrBelowRule.
// Other errors: *RangeError, also for a gap above LargestGap.
func OnRuleEnd(read, e Interval) (Interval, error) {
	if err := reading(QuantityGap, read, 0, LargestGap); err != nil {
		return Interval{}, err
	}
	if err := reading(QuantityRuleEnd, e, -10, 10); err != nil {
		return Interval{}, err
	}
	gap := read.Plus(e)
	if gap.High <= hair {
		return Interval{}, ErrBelowRule
	}
	gap = gap.AtLeast(0)
	if err := reading(QuantityGap, gap, 0, LargestGap); err != nil {
		return Interval{}, err
	}
	return gap, nil
}

// Caliper is a reading of value give or take the caliper's accuracy (0.005 to 1 mm), never less than zero and never more than LargestGap. Error:
// *RangeError.
func Caliper(value, accuracy Length) (Interval, error) {
	if err := within(QuantityAccuracy, float64(accuracy), 0.005, 1); err != nil {
		return Interval{}, err
	}
	if err := within(QuantityGap, float64(value), 0, float64(LargestGap-accuracy)); err != nil {
		return Interval{}, err
	}
	return Interval{value - accuracy, value + accuracy}.AtLeast(0), nil
}

// JustFits is a reading by feeler, drill shank or card: fits goes under without moving the string, next does not. Errors: ErrFeelerOrder,
// *RangeError.
func JustFits(fits, next Length) (Interval, error) {
	if err := within(QuantityFeeler, float64(fits), 0, float64(LargestGap)); err != nil {
		return Interval{}, err
	}
	if err := within(QuantityFeeler, float64(next), 0, float64(LargestGap)); err != nil {
		return Interval{}, err
	}
	if next <= fits {
		return Interval{}, ErrFeelerOrder
	}
	return Interval{fits, next}, nil
}

// Cards is a reading by a stack of equal cards: count go under without moving the string, one more does not. Ten of them together measure
// tenThick, 0.5 to 15 mm: measured by tens because one card is thinner than most tools can tell.
func Cards(count int, tenThick Interval) (Interval, error) {
	if err := reading(QuantityCards, tenThick, 0.5, 15); err != nil {
		return Interval{}, err
	}
	if err := within(QuantityCards, float64(count), 0, 200); err != nil {
		return Interval{}, err
	}
	one := tenThick.Times(0.1)
	return JustFits(one.Low*Length(count), one.High*Length(count+1))
}

// Repeats joins several readings of one gap, in any order: the truth lies in all of them. Reading twice does not sharpen the eye, so the
// result is never narrower than least (0 to 1 mm) on either side of its middle, unless one reading by itself was. Readings that share nothing
// give a *ContradictionError with the two furthest apart, the lower first; no readings give ErrNoReading; a reading that is not one, a
// *RangeError.
func Repeats(readings []Interval, least Length) (Interval, error) {
	if len(readings) == 0 {
		return Interval{}, ErrNoReading
	}
	if err := within(QuantityAccuracy, float64(least), 0, 1); err != nil {
		return Interval{}, err
	}
	lowest, highest, narrowest := readings[0], readings[0], 2*least
	for _, r := range readings {
		if err := reading(QuantityGap, r, 0, LargestGap); err != nil {
			return Interval{}, err
		}
		if r.High < lowest.High {
			lowest = r
		}
		if r.Low > highest.Low {
			highest = r
		}
		narrowest = min(narrowest, r.Width())
	}
	joint, meet := highest.Meet(lowest) // from the highest low end to the lowest high end
	if !meet {
		return Interval{}, &ContradictionError{A: lowest, B: highest}
	}
	if joint.Width() < narrowest {
		middle := joint.Middle()
		joint = Interval{middle - narrowest/2, middle + narrowest/2}.AtLeast(0)
	}
	return joint, nil
}
