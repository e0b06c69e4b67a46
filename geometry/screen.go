package geometry

import "errors"

// An ID-1 card, as banks, libraries and authorities hand them out: ISO/IEC 7810, as quoted by an encyclopedia and by a page on paper
// sizes. The standard says that its inches and millimetres are each rounded and must not be mixed.
const (
	CardWidth      Length = 85.60
	CardHeight     Length = 53.98
	CardCornerLow  Length = 2.88 // the corners' radius
	CardCornerHigh Length = 3.48
)

// How far an unused card may be off: 85.47 to 85.72 and 53.92 to 54.03 mm (from memory, not confirmed).
const (
	cardWidthOff  Length = 0.13
	cardHeightOff Length = 0.06
)

// edgeOff is how far, in pixels, a drawn edge may be from the card's edge when the two look the same (common practice, no source).
const edgeOff = 1.0

// QuantityPixels is a distance on the screen. A pixel is the page's, and need not be a whole one.
const QuantityPixels Quantity = "pixels"

// ErrNotACard reports that the two sides are not in a card's proportion: another thing was laid on the screen, or one side was misread.
var ErrNotACard = errors.New("the two sides are not in the proportion of an ID-1 card")

// BlankRefusals lists the refusals of new saddles and of screens that no other list has, so that tests can ask for a sentence for each.
func BlankRefusals() []error { return []error{ErrNotACard} }

// Screen is how large things come out on a screen.
type Screen struct {
	PerMM float64 // pixels per millimetre
	Edges float64 // how far that may be off because edges are seen to a pixel, as a share: two of them in what was read
	Card  float64 // how far because cards differ, as a share
}

// ScreenFromCard works out the scale of a screen from the outline that matches a card lying on it: along its long side, its short side,
// or both, in pixels; zero for a side that was not matched. Each is 100 to 10 000 pixels. A narrow screen has room for the short side only.
//
// With both, the longer one counts and the other checks it: screens have square pixels, so the two sides must be in the proportion
// 85.60 to 53.98 to within a pixel at each edge and what cards may differ. Errors: ErrNoReading for neither side, ErrNotACard,
// *RangeError.
func ScreenFromCard(long, short float64) (Screen, error) {
	if long == 0 && short == 0 {
		return Screen{}, ErrNoReading
	}
	var read [2]Screen
	for i, side := range []struct {
		pixels   float64
		mm, give Length
	}{{long, CardWidth, cardWidthOff}, {short, CardHeight, cardHeightOff}} {
		if side.pixels == 0 {
			continue
		}
		if err := within(QuantityPixels, side.pixels, 100, 10000); err != nil {
			return Screen{}, err
		}
		read[i] = Screen{PerMM: side.pixels / float64(side.mm), Edges: 2 * edgeOff / side.pixels, Card: float64(side.give / side.mm)}
	}
	switch {
	case long == 0:
		return read[1], nil
	case short != 0:
		if off := read[1].PerMM/read[0].PerMM - 1; off > read[0].Off()+read[1].Off() || -off > read[0].Off()+read[1].Off() {
			return Screen{}, ErrNotACard
		}
	}
	return read[0], nil
}

// Off is how far anything drawn on the screen may be off, as a share of its length: edges and card together, at worst.
func (s Screen) Off() float64 { return s.Edges + s.Card }

// OffOver is how far a drawing of a length may be off, at worst: 0.23 mm over a saddle of 72 mm after a card of 1200 pixels, and next to
// nothing over its height.
func (s Screen) OffOver(l Length) Length { return l * Length(s.Off()) }

// Pixels is how many pixels a length takes.
func (s Screen) Pixels(l Length) float64 { return float64(l) * s.PerMM }
