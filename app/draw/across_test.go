package draw

import (
	"strconv"
	"strings"
	"testing"
)

// acrosses is the strings side by side on all that holds them.
func acrosses() []named {
	six, twelve := numbered(OuterFirst(6)), numbered(OuterFirst(12))
	return []named{
		{"across-saddle", AcrossPicture(Across{Title: "t", Strings: 6, Over: []string{"1st", "3rd", "5th", "6th", "4th", "2nd"}, Ends: [2]string{"bass", "treble"}, Note: "outer ones first"})},
		{"across-saddle-left", AcrossPicture(Across{Title: "t", Strings: 4, Over: six[:4], LeftHanded: true, Ends: [2]string{"bass", "treble"}})},
		{"across-saddle-twelve", AcrossPicture(Across{Title: "t", Strings: 12, Over: twelve, Note: "outer strings first, then inwards"})},
		{"across-one", AcrossPicture(Across{Title: "t", Strings: 0})},
		{"across-screws", AcrossPicture(Across{Title: "t", On: OnScrews, Strings: 6, Over: []string{"1¼", "¼", "0", "⅛", "½", "12¾"}, Moves: []int{-1, -1, 0, 1, -1, -1}})},
		{"across-screws-order-left", AcrossPicture(Across{Title: "t", On: OnScrews, Strings: 6, Over: []string{"1¼", "¼", "none", "⅛", "½", "12¾"}, Moves: []int{-1, -1, 0, 1, -1, -1}, Under: []string{"1st", "3rd", "", "5th", "4th", "2nd"}, Heads: [2]string{"turns", "order"}, LeftHanded: true})},
		{"across-screws-twelve", AcrossPicture(Across{Title: "t", On: OnScrews, Strings: 12, Over: twelve, Moves: []int{1, 1, 1, 1, -1, -1, 0, 0, 0, 1, 1, 1}})},
		{"across-posts", AcrossPicture(Across{Title: "t", On: OnPosts, Strings: 8, Over: []string{"2¼ turns ↻", "12¾ turns"}, Moves: []int{-1, 1}, Ends: [2]string{"bass", "treble"}})},
		{"across-nut", AcrossPicture(Across{Title: "t", On: OnNut, Strings: 6, Over: []string{"✓", "▲", "○", "■", "↻", "?"}, At: 2})},
		{"across-nut-read", AcrossPicture(Across{Title: "t", On: OnNut, Strings: 6, Over: []string{"✓", "▲", "○", "■", "↻", "?"}, At: 2, Slots: []Slot{SlotThere, SlotHigh, SlotNotKnown, SlotLow, SlotNotKnown, SlotHigh}, Note: "dashed: where strings should lie"})},
		{"across-nut-twelve-left", AcrossPicture(Across{Title: "t", On: OnNut, Strings: 12, LeftHanded: true, Over: twelve, At: 12, Note: "the first slot is meant"})},
	}
}

// numbered writes places as numbers.
func numbered(places []int) []string {
	all := make([]string, len(places))
	for i, n := range places {
		all[i] = strconv.Itoa(n)
	}
	return all
}

// Every string is drawn, evenly, and a left hand sees the mirror.
func TestStringsLieSideBySide(t *testing.T) {
	for n := 1; n <= 12; n++ {
		right, left := AcrossPicture(Across{Strings: n}), AcrossPicture(Across{Strings: n, LeftHanded: true})
		var at, mirror []float64
		for i, s := range right.Shapes {
			if s.Role == WireEnd {
				at, mirror = append(at, s.Points[0].X), append(mirror, left.Shapes[i].Points[0].X)
			}
		}
		if len(at) != n {
			t.Fatalf("%d strings drawn, want %d", len(at), n)
		}
		for i, x := range at {
			if d := x + at[n-1-i] - 320; d > 1e-9 || d < -1e-9 || mirror[i] != 320-x {
				t.Errorf("%d strings: the one at %v is not the mirror of %v, or of %v for the left hand", n, x, at[n-1-i], mirror[i])
			}
		}
	}
}

// A string that lies high is drawn over the line, a low one under it.
func TestAStringLiesAsItsSlotWasRead(t *testing.T) {
	lies := func(s Slot) float64 {
		wire := shapeOf(AcrossPicture(Across{On: OnNut, Strings: 1, Slots: []Slot{s}}), WireEnd, 0)
		return wire.Points[0].Y
	}
	if high, there, low := lies(SlotHigh), lies(SlotThere), lies(SlotLow); !(high < there-5 && there < low-5) {
		t.Errorf("high at %v, as it should be at %v, low at %v", high, there, low)
	}
	if s := AcrossPicture(Across{On: OnNut, Strings: 1, Slots: []Slot{SlotNotKnown}}); len(shapeOf(s, WireEnd, 0).Points) > 0 {
		t.Error("a string of which nothing was read is drawn like the others")
	}
}

func TestTheOuterStringsGoOnFirst(t *testing.T) {
	for n, want := range map[int]string{1: "1", 2: "1 2", 5: "1 3 5 4 2", 6: "1 3 5 6 4 2"} {
		if got := strings.Join(numbered(OuterFirst(n)), " "); got != want {
			t.Errorf("%d strings: %s, want %s", n, got, want)
		}
	}
}
