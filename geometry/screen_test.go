package geometry_test

import (
	"errors"
	"fmt"
	"testing"

	. "gapwright/geometry"
)

func TestAScreenMeasuredWithACard(t *testing.T) {
	s := must(ScreenFromCard(1234.5, 0))
	got := map[string]float64{"width mm": float64(CardWidth), "height mm": float64(CardHeight), "corner low mm": float64(CardCornerLow),
		"corner high mm": float64(CardCornerHigh), "aspect": float64(CardWidth / CardHeight), "pixels per mm when 1234.5 pixels are the width": s.PerMM,
		"pixels per inch then": s.PerMM * 25.4, "share of one pixel at each edge": s.Edges, "share of the card's own tolerance": s.Card}
	for _, row := range table(t, "card", 9) {
		if _, known := got[row[0]]; !known {
			t.Errorf("nothing is called %s", row[0])
		}
		printed(t, row[0], got[row[0]], row[1])
	}
	near(t, "over 72 mm", s.OffOver(72), 72*(0.0016201+0.0015187), 1e-5) // 0.226 mm
	near(t, "over a height of 10 mm", s.OffOver(10), 0.0314, 5e-5)
	near(t, "100 mm", s.Pixels(100), 1442.17, 0.005) // 14.4217 × 100
	// the short side alone, on a narrow screen: 300/53.98, 2/300 and 0.06/53.98
	short := must(ScreenFromCard(0, 300))
	near(t, "by the short side", short.PerMM, 5.557614, 5e-7)
	near(t, "its edges", short.Edges, 0.0066667, 5e-8)
	near(t, "its card", short.Card, 0.0011115, 5e-8)
}

func TestBothSidesMustBeACards(t *testing.T) {
	// 1234.5 wide is 778.48 high; 2/1234.5 + 2/778.5 + 0.00152 + 0.00111 = 0.00682 of it is 5.3 pixels
	for short, ok := range map[float64]bool{778.5: true, 783: true, 774: true, 785: false, 772: false, 1234.5: false} {
		s, err := ScreenFromCard(1234.5, short)
		if ok != (err == nil) || !ok && !errors.Is(err, ErrNotACard) {
			t.Errorf("%v high: %v", short, err)
		}
		if ok && s != must(ScreenFromCard(1234.5, 0)) {
			t.Errorf("the long side counts, got %+v", s)
		}
	}
	for _, c := range [][2]float64{{99, 0}, {10001, 0}, {0, 50}, {float64(nan), 0}, {-1, 0}, {500, float64(nan)}} {
		s, err := ScreenFromCard(c[0], c[1])
		refused(t, "ScreenFromCard", err, QuantityPixels)
		if s != (Screen{}) {
			t.Errorf("%v and a refusal", s)
		}
	}
	if list := BlankRefusals(); len(list) != 1 || list[0] != ErrNotACard {
		t.Errorf("%v", list)
	}
	if _, err := ScreenFromCard(0, 0); !errors.Is(err, ErrNoReading) {
		t.Errorf("%v", err)
	}
}

func ExampleScreenFromCard() {
	screen, _ := ScreenFromCard(1234.5, 0) // over 85.60 mm
	fmt.Printf("%.4f pixels per mm, to %.3f %%\n", screen.PerMM, 100*screen.Edges)
	// Output: 14.4217 pixels per mm, to 0.162 %
}
