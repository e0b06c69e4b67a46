package job

import "testing"

// A rod that was turned and turned back, or that did nothing: the relief reads as before, and nobody is told that fret 12 has moved with it.
func TestAReliefThatReadsAsBeforeMovedNothing(t *testing.T) {
	r := must(t, Record{}, Began{SetRelief, Instrument{Family: "flat-top-6"}, Kit{Unit: MM, Marks: EveryQuarter, Zero: ZeroAtEnd}}, Answered{AskRod, RodTurns})
	was := must(t, r, reliefRead(r.Instrument, 0, "0.40", "0.45"))
	for _, c := range []struct {
		name  string
		facts []Fact
		still bool
	}{
		{"not turned", nil, false},
		{"turned and not read", []Fact{Adjusted{Relief, 1}}, false},
		{"turned back", []Fact{Adjusted{Relief, 1}, Adjusted{Relief, -1}, reliefRead(r.Instrument, 0, "0.40", "0.45")}, true},
		{"turned, and the readings share 0.40", []Fact{Adjusted{Relief, 1}, reliefRead(r.Instrument, 0, "0.35", "0.40")}, true},
		{"turned, less", []Fact{Adjusted{Relief, 1}, reliefRead(r.Instrument, 0, "0.35", "0.38")}, false},
		{"turned, more", []Fact{Adjusted{Relief, -1}, reliefRead(r.Instrument, 0, "0.46", "0.50")}, false},
	} {
		if got := must(t, was, c.facts...).NeckStill(); got != c.still {
			t.Errorf("%s: still %v", c.name, got)
		}
	}
	if must(t, r, Adjusted{Relief, 1}, reliefRead(r.Instrument, 0, "0.35", "0.40")).NeckStill() {
		t.Error("what it was before nobody read")
	}
}
