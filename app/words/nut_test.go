package words_test

import (
	"regexp"
	"testing"

	"gapwright/app/job"
	"gapwright/app/words"
	"gapwright/geometry"
)

// Every state of a slot and every standing of the relief has its own words, and inch people never read millimetres.
func TestTheNeckHasItsWords(t *testing.T) {
	i := job.Instrument{Family: geometry.FlatTop6}
	millimetres := regexp.MustCompile(`(?i)\bmm\b|millimet`)
	seen := map[string]bool{}
	once := func(what, text string) {
		t.Helper()
		if text == "" || seen[what+text] {
			t.Errorf("%s: %q", what, text)
		}
		seen[what+text] = true
	}
	for _, s := range job.SlotStates() {
		once("state", words.SlotSays(s))
		for _, half := range []bool{true, false} {
			slot := job.NutSlot{Course: 1, State: s, Feature: job.FirstPressed, HalfWay: half, Read: geometry.Interval{Low: 0.3, High: 0.35}, Wanted: 0.17, Stop: 0.11,
				At12: geometry.Interval{Low: 0.055, High: 0.07}}
			if s == job.SlotUnread || s == job.SlotAgain {
				continue
			}
			if half {
				once("title", words.SlotTitle(i, slot))
			}
			lead := readers[job.Inch].SlotLead(slot)
			if s == job.SlotHigh || half {
				once("lead", lead)
			}
			for _, line := range append(readers[job.Inch].SlotNumbers(slot), lead, readers[job.Inch].Fine(slot.Stop), readers[job.Inch].PileStop(job.Kit{}, job.SlotPile{Need: 1.39})) {
				if millimetres.MatchString(line) {
					t.Errorf("in inches: %q", line)
				}
			}
		}
	}
	for _, s := range []geometry.Standing{geometry.Above, geometry.Below, geometry.Usual, geometry.Unclear} {
		once("relief", words.ReliefTitle(s))
	}
	for _, moved := range []geometry.Interval{{Low: -0.2, High: -0.1}, {Low: 0.1, High: 0.2}, {Low: -0.1, High: 0.1}} {
		once("fret 12", readers[job.MM].ToTwelve(moved))
	}
	for n, want := range map[int]string{0: "none", 2: "2 tighter", -3: "3 looser"} {
		if got := words.RodTurn(n); got != want {
			t.Errorf("%d: %q, want %q", n, got, want)
		}
	}
	// widened to whole hundredths, so that nothing it allows is lost
	if got := readers[job.MM].SlotLead(job.NutSlot{State: job.SlotHigh, At12: geometry.Interval{Low: 0.055, High: 0.0651}}); got != "Fret 12 comes down by 0.05 to 0.07\u00a0mm." {
		t.Error(got)
	}
	set := i
	set.AsSet = &job.AsSet{Moved: true}
	before := i
	before.AsSet = &job.AsSet{}
	if readers[job.MM].AsSetLine(set) == readers[job.MM].AsSetLine(before) {
		t.Error("a baseline from before the neck was changed reads like any other")
	}
}
