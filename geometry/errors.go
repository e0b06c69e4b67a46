package geometry

import (
	"errors"
	"fmt"
)

// A Quantity names what a number was meant to be, so that a refusal can stand beside the right field.
type Quantity string

// The quantities that this package checks.
const (
	QuantityLength   Quantity = "length"
	QuantityGap      Quantity = "gap"
	QuantityScale    Quantity = "scale length"
	QuantitySetback  Quantity = "saddle setback"
	QuantityFret     Quantity = "fret"
	QuantityHeld     Quantity = "fret held down"
	QuantityTarget   Quantity = "wanted height"
	QuantityExposure Quantity = "saddle exposure"
	QuantityDistance Quantity = "distance behind the saddle"
	QuantityHeight   Quantity = "saddle height"
	QuantityStrokes  Quantity = "strokes"
	QuantityAccuracy Quantity = "caliper accuracy"
	QuantityFeeler   Quantity = "feeler thickness"
	QuantityCards    Quantity = "cards"
	QuantityRuleEnd  Quantity = "distance from the rule's end to its zero"
	QuantitySaddle   Quantity = "saddle length"
	QuantityAllow    Quantity = "smoothing allowance"
	QuantityLeverage Quantity = "leverage"
	QuantityCut      Quantity = "cut"
	QuantityDepth    Quantity = "depth in the slot"
	QuantityStroke   Quantity = "removal per stroke"
)

// The quantities of the board, the string's path and the strings.
const (
	QuantityBody          Quantity = "fret at the body joint"
	QuantityLastFret      Quantity = "last fret"
	QuantityFallAway      Quantity = "fall-away"
	QuantityRelief        Quantity = "relief"
	QuantityRadius        Quantity = "radius of the board"
	QuantityRadiusAt      Quantity = "place of the radius"
	QuantityDistanceAlong Quantity = "distance from the nut"
	QuantityOffset        Quantity = "place across the board"
	QuantityPluckAt       Quantity = "distance of the pluck from the saddle"
	QuantityTouch         Quantity = "touch"
	QuantityNote          Quantity = "note"
	QuantityFrequency     Quantity = "frequency"
	QuantityDiameter      Quantity = "string diameter"
	QuantityUnitWeight    Quantity = "weight per length"
	QuantityStretch       Quantity = "stretch factor"
	QuantityStiffness     Quantity = "stiffness of the string"
	QuantityFinger        Quantity = "distance of the finger behind the fret"
	QuantitySideways      Quantity = "distance bent sideways"
	QuantityModulus       Quantity = "modulus"
	QuantityDensity       Quantity = "density"
)

// NeckQuantities lists the quantities of the board, the string's path and the strings, so that tests can ask for a name for each.
func NeckQuantities() []Quantity {
	return []Quantity{QuantityBody, QuantityLastFret, QuantityFallAway, QuantityRelief, QuantityRadius, QuantityRadiusAt, QuantityDistanceAlong,
		QuantityOffset, QuantityPluckAt, QuantityTouch, QuantityNote, QuantityFrequency, QuantityDiameter, QuantityUnitWeight, QuantityStretch,
		QuantityStiffness, QuantityFinger, QuantitySideways, QuantityModulus, QuantityDensity}
}

// The quantities of the other ways in which a height is set: shims, screws, posts and nut slots.
const (
	QuantityShim       Quantity = "thickness of the shim"
	QuantityPart       Quantity = "part of the saddle's length"
	QuantityLeaves     Quantity = "leaves in the pile"
	QuantityPitch      Quantity = "thread pitch"
	QuantityTurns      Quantity = "turns"
	QuantityPosts      Quantity = "place of the posts"
	QuantityLever      Quantity = "lever of the plate"
	QuantityFretHeight Quantity = "height of the frets over the board"
)

// WayQuantities lists the quantities of shims, screws, posts and nut slots, so that tests can ask for a name for each.
func WayQuantities() []Quantity {
	return []Quantity{QuantityShim, QuantityPart, QuantityLeaves, QuantityPitch, QuantityTurns, QuantityPosts, QuantityLever, QuantityFretHeight}
}

// Quantities lists every quantity of readings, cuts and saddles, so that tests can ask for a name for each.
func Quantities() []Quantity {
	return []Quantity{QuantityLength, QuantityGap, QuantityScale, QuantitySetback, QuantityFret, QuantityHeld, QuantityTarget, QuantityExposure,
		QuantityDistance, QuantityHeight, QuantityStrokes, QuantityAccuracy, QuantityFeeler, QuantityCards, QuantityRuleEnd, QuantitySaddle,
		QuantityAllow, QuantityLeverage, QuantityCut, QuantityDepth, QuantityStroke}
}

// RangeError reports a number outside what the quantity can be. Lengths are millimetres; counts are plain numbers.
type RangeError struct {
	Quantity      Quantity
	Got, Min, Max float64
}

func (e *RangeError) Error() string {
	return fmt.Sprintf("%s: %.4g is outside %.4g to %.4g", e.Quantity, e.Got, e.Min, e.Max)
}

// Kinds of refusal that callers branch on.
var (
	ErrMarksOrder    = errors.New("the mark that shows light must be lower than the one that does not")
	ErrBelowRule     = errors.New("the gap is smaller than the distance from the rule's end to its zero")
	ErrFeelerOrder   = errors.New("the feeler that fits must be thinner than the one that does not")
	ErrTooFewStrings = errors.New("a straight cut needs two measured strings at different places")
	ErrTooMany       = errors.New("more than twelve measured strings")
	ErrNoReading     = errors.New("not measured")
	ErrOutsideSaddle = errors.New("a string lies beyond the end of the saddle")
	ErrGrew          = errors.New("the saddle measures higher than before sanding")
)

// Refusals lists every refusal of readings, cuts and saddles, so that tests can ask for a sentence for each. Besides these there are *RangeError, *ParseError and
// *ContradictionError.
func Refusals() []error {
	return []error{ErrMarksOrder, ErrBelowRule, ErrFeelerOrder, ErrTooFewStrings, ErrTooMany, ErrNoReading, ErrOutsideSaddle, ErrGrew}
}

// Refusals of the board, the string's path and the strings.
var (
	ErrNoRelief   = errors.New("a straightedge held there shows too little of the relief")
	ErrNoPath     = errors.New("these two readings do not fix the string's line")
	ErrTouch      = errors.New("it buzzed with more room than it was clean with")
	ErrNoStretch  = errors.New("how much this string stretches is not known")
	ErrFewStrings = errors.New("three strings at different places are needed")
)

// NeckRefusals lists the refusals of the board, the string's path and the strings, so that tests can ask for a sentence for each.
func NeckRefusals() []error {
	return []error{ErrNoRelief, ErrNoPath, ErrTouch, ErrNoStretch, ErrFewStrings}
}

// Refusals of shims, screws, posts and nut slots.
var (
	ErrNoPile  = errors.New("nothing that may be piled of this is thick enough")
	ErrNoPitch = errors.New("the screw may not have moved at all")
)

// WayRefusals lists the refusals of shims, screws, posts and nut slots, so that tests can ask for a sentence for each.
func WayRefusals() []error { return []error{ErrNoPile, ErrNoPitch} }

// ContradictionError reports two readings of one gap that share no height at all.
type ContradictionError struct{ A, B Interval }

func (e *ContradictionError) Error() string {
	return fmt.Sprintf("readings contradict: %.3f to %.3f mm and %.3f to %.3f mm share nothing",
		float64(e.A.Low), float64(e.A.High), float64(e.B.Low), float64(e.B.High))
}

// within returns nil when value lies in [low, high], a *RangeError otherwise, also for what is not a number.
func within(q Quantity, value, low, high float64) error {
	if !(value >= low && value <= high) { // also catches NaN
		return &RangeError{Quantity: q, Got: value, Min: low, Max: high}
	}
	return nil
}

// reading returns nil when both ends lie in [low, high], the low end first; a *RangeError otherwise.
func reading(q Quantity, i Interval, low, high Length) error {
	if err := within(q, float64(i.Low), float64(low), float64(high)); err != nil {
		return err
	}
	return within(q, float64(i.High), float64(i.Low), float64(high))
}
