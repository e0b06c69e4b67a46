package words

import (
	"strings"
	"testing"
)

func TestAPlaceInAnOrderIsNoNumberOfAString(t *testing.T) {
	for n, want := range map[int]string{1: "1st", 2: "2nd", 3: "3rd", 4: "4th", 11: "11th", 12: "12th", 13: "13th", 21: "21st"} {
		if got := InOrder(n); got != want {
			t.Errorf("InOrder(%d) = %q, want %q", n, got, want)
		}
	}
	if got := strings.Join(Ordered([]int{1, 0, 2}), "|"); got != "1st||2nd" {
		t.Errorf("with one that has no place: %q", got)
	}
}

func TestTurnsHaveTheirUnit(t *testing.T) {
	for eighths, want := range map[int]string{0: "none", -1: "⅛ turn", 8: "1 turn", -12: "1½ turns"} {
		if got := TurnsLong(eighths); got != want {
			t.Errorf("TurnsLong(%d) = %q, want %q", eighths, got, want)
		}
	}
}
