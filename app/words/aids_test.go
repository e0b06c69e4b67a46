package words_test

import (
	"testing"
	"time"

	"gapwright/app/job"
	"gapwright/app/words"
	"gapwright/geometry"
)

// A big number and what stands behind it read as the usual title does.
func TestBigNumbersReadLikeTheUsualOnes(t *testing.T) {
	for _, c := range []job.Coach{
		{Advice: geometry.Advice{Strokes: 1}, Ready: true}, {Advice: geometry.Advice{Strokes: 12}, Ready: true, ByCaliper: true},
	} {
		number, rest := words.BigStrokes(c)
		if number+rest != words.SandTitle(c, false) || number != words.Number(c.Strokes) {
			t.Errorf("%q and %q", number, rest)
		}
	}
	for eighths, want := range map[int]string{-18: "2¼", 3: "⅜", 8: "1", 0: "none"} {
		number, rest := words.BigTurn(eighths, job.WayClockwise)
		if number != want || number+rest != words.TurnBy(eighths, job.WayClockwise) {
			t.Errorf("%d eighths: %q and %q", eighths, number, rest)
		}
	}
	for _, r := range readers {
		if got, want := words.StopName(1)+" "+r.StopNumber(9.354), r.StopAt(1, 9.354); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

func TestTheWaitIsSaidInMinutesAndSeconds(t *testing.T) {
	for left, want := range map[time.Duration]string{15 * time.Minute: "Settling: 15:00", 61 * time.Second: "Settling: 1:01", 9 * time.Second: "Settling: 0:09", 0: "Settling: 0:00"} {
		if got := words.SettlingLeft(left); got != want {
			t.Errorf("%v: %q, want %q", left, got, want)
		}
	}
	if words.RemindMe() != "Settling: 15-min timer" {
		t.Error(words.RemindMe())
	}
}
