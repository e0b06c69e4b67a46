package geometry_test

import (
	"testing"

	. "gapwright/geometry"
)

func TestBreakAngle(t *testing.T) {
	for _, c := range []struct {
		exposure, distance Length
		degrees            float64
	}{
		{3, 3, 45}, {0, 10, 0}, {2, 3.4641016, 30}, // atan(1/√3)
		{3, 10, 16.699244}, // atan 0.3
	} {
		near(t, "BreakAngle", must(BreakAngle(c.exposure, c.distance)).Degrees(), c.degrees, 1e-5)
	}
	for _, e := range []Length{-0.1, 20.1, nan} {
		_, err := BreakAngle(e, 10)
		refused(t, "BreakAngle", err, QuantityExposure)
	}
	for _, d := range []Length{0.9, 60.1, nan} {
		_, err := BreakAngle(3, d)
		refused(t, "BreakAngle", err, QuantityDistance)
	}
}

func TestWhatIsLeftDecidesStopsAndCautions(t *testing.T) {
	type found struct {
		kind     FindingKind
		severity Severity
		length   Length
	}
	for _, c := range []struct {
		name             string
		end              SaddleEnd
		stop, smooth     Length
		whole            Interval
		round, wholeLeft Interval
		want             []found
	}{
		{"stands well", SaddleEnd{Exposure: Interval{4, 4.2}}, 0.4, 0.1, Interval{0.5, 1}, Interval{3.5, 3.7}, Interval{3, 3.7}, nil},
		{"2.0 to 2.5 is worth a note", SaddleEnd{Exposure: Exactly(3.2)}, 0.4, 0.1, Interval{0.5, 1}, Exactly(2.7), Interval{2.2, 2.7},
			[]found{{ExposureTooLow, Note, 2.2}}},
		{"just 2.0 is no caution yet", SaddleEnd{Exposure: Exactly(3)}, 0.4, 0.1, Interval{0.5, 1}, Exactly(2.5), Interval{2, 2.5},
			[]found{{ExposureTooLow, Note, 2}}},
		{"the whole cut's high end cautions: 2.9 − 1", SaddleEnd{Exposure: Interval{2.9, 3.5}}, 0.4, 0.1, Interval{0.5, 1}, Interval{2.4, 3},
			Interval{1.9, 3}, []found{{ExposureTooLow, Caution, 1.9}}},
		{"just 1.5 after the round is no stop", SaddleEnd{Exposure: Exactly(2)}, 0.4, 0.1, Interval{0.5, 1}, Exactly(1.5), Interval{1, 1.5},
			[]found{{ExposureTooLow, Caution, 1}}},
		{"the round's low end stops: 1.9 − 0.5", SaddleEnd{Exposure: Interval{1.9, 2.5}}, 0.4, 0.1, Interval{0.5, 1}, Interval{1.4, 2},
			Interval{0.9, 2}, []found{{ExposureTooLow, Refuse, 1.4}}},
		{"a cut higher than the saddle", SaddleEnd{Exposure: Exactly(2)}, 3, 0.1, Interval{3, 4}, Exactly(0), Exactly(0),
			[]found{{ExposureTooLow, Refuse, 0}}},
		{"it leans: 3.5 stands over 3 in the slot", SaddleEnd{Exposure: Exactly(4), Depth: 3}, 0.4, 0.1, Exactly(0.5), Exactly(3.5), Exactly(3.5),
			[]found{{LeanRisk, Note, 3.5}}},
		{"and not when the cut leaves as much in it", SaddleEnd{Exposure: Exactly(4), Depth: 3.5}, 0.4, 0.1, Exactly(0.5), Exactly(3.5), Exactly(3.5), nil},
		// breaks: 3 over 10 is 16.7°, a note; 2.5 over 10 is 14.0°, a caution; 1.7 over 10 is 9.6°, a stop
		{"16.7 degrees", SaddleEnd{Exposure: Exactly(4), Behind: 10}, 0.4, 0.1, Exactly(1), Exactly(3.5), Exactly(3), []found{{BreakTooShallow, Note, 3}}},
		{"14.0 degrees", SaddleEnd{Exposure: Exactly(4), Behind: 10}, 0.4, 0.1, Exactly(1.5), Exactly(3.5), Exactly(2.5),
			[]found{{BreakTooShallow, Caution, 2.5}}},
		{"9.6 degrees", SaddleEnd{Exposure: Exactly(2.2), Behind: 10}, 0.4, 0.1, Exactly(0), Exactly(1.7), Exactly(2.2),
			[]found{{ExposureTooLow, Note, 2.2}, {BreakTooShallow, Refuse, 1.7}}},
		{"3 over 5 is 31.0 degrees", SaddleEnd{Exposure: Exactly(4), Behind: 5}, 0.4, 0.1, Exactly(1), Exactly(3.5), Exactly(3), nil},
	} {
		left, findings, err := WhatIsLeft(TrebleSide, c.end, c.stop, c.smooth, c.whole)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
		}
		nearInterval(t, c.name+", round", left.AfterRound, c.round, 1e-12)
		nearInterval(t, c.name+", whole", left.AfterWhole, c.wholeLeft, 1e-12)
		if len(findings) != len(c.want) {
			t.Errorf("%s: found %+v, want %+v", c.name, findings, c.want)
			continue
		}
		for i, f := range findings {
			if f.Kind != c.want[i].kind || f.Severity != c.want[i].severity || f.Side != TrebleSide {
				t.Errorf("%s: found %+v, want %+v", c.name, f, c.want[i])
			}
			near(t, c.name, f.Length, c.want[i].length, 1e-12)
			if f.Kind == BreakTooShallow {
				near(t, c.name+", angle", f.Angle, must(BreakAngle(f.Length, c.end.Behind)), 1e-12)
			}
		}
	}
}

func TestWhatIsLeftRefuses(t *testing.T) {
	good := SaddleEnd{Exposure: Interval{3, 3.2}, Behind: 10, Depth: 5}
	for _, c := range []struct {
		end          SaddleEnd
		stop, smooth Length
		whole        Interval
		want         Quantity
	}{
		{SaddleEnd{Exposure: Interval{nan, 3}}, 0.4, 0.1, Exactly(1), QuantityExposure},
		{SaddleEnd{Exposure: Interval{3, 2}}, 0.4, 0.1, Exactly(1), QuantityExposure},
		{SaddleEnd{Exposure: Exactly(21)}, 0.4, 0.1, Exactly(1), QuantityExposure},
		{SaddleEnd{Exposure: Exactly(3), Behind: 0.5}, 0.4, 0.1, Exactly(1), QuantityDistance},
		{SaddleEnd{Exposure: Exactly(3), Behind: nan}, 0.4, 0.1, Exactly(1), QuantityDistance},
		{SaddleEnd{Exposure: Exactly(3), Depth: nan}, 0.4, 0.1, Exactly(1), QuantityDepth},
		{SaddleEnd{Exposure: Exactly(3), Depth: -1}, 0.4, 0.1, Exactly(1), QuantityDepth},
		{good, nan, 0.1, Exactly(1), QuantityCut}, {good, -0.1, 0.1, Exactly(1), QuantityCut}, {good, 0.4, nan, Exactly(1), QuantityCut},
		{good, 0.4, 0.1, Exactly(nan), QuantityCut}, {good, 0.4, 0.1, Interval{2, 1}, QuantityCut}, {good, 0.4, inf, Exactly(1), QuantityCut},
	} {
		_, found, err := WhatIsLeft(BassSide, c.end, c.stop, c.smooth, c.whole)
		refused(t, "WhatIsLeft", err, c.want)
		if found != nil {
			t.Error("a refusal finds nothing")
		}
	}
}

func TestLowestGapThatASaddleIsSureToAllow(t *testing.T) {
	// 0.5 to spare over 1.5, half of that at fret 12: 2.50 − 0.25 = 2.25. Sanded by 0.5, a true gap of 2.5 comes to 2.25 and no lower.
	near(t, "LowestGap", LowestGap(Interval{2.25, 2.50}, Interval{2.0, 2.5}, 0.5), 2.25, 1e-12)
	near(t, "nothing to spare", LowestGap(Interval{2.25, 2.50}, Interval{1.2, 2.5}, 0.5), 2.50, 1e-12)
	near(t, "never below the frets", LowestGap(Interval{1, 1.1}, Exactly(9), 0.5), 0, 0)
}

func TestJudge(t *testing.T) {
	for _, c := range []struct {
		name    string
		reading Interval
		target  Length
		lever   float64
		want    Verdict
	}{
		{"inside and narrow", Interval{2.0, 2.25}, 2.1, 0.5, Reached},
		{"on the lower mark", Interval{2.0, 2.25}, 2.0, 0.5, Reached},
		{"on the upper mark", Interval{2.0, 2.25}, 2.25, 0.5, Reached},
		{"above", Interval{2.25, 2.5}, 2.0, 0.5, StillHigh},
		{"below", Interval{1.75, 1.95}, 2.0, 0.5, TooLow},
		{"a rule with 1 mm marks never shows it", Interval{2, 3}, 2.0, 0.5, CannotTell},
		{"nor inside", Interval{2, 3}, 2.5, 0.5, CannotTell},
		{"but above it, it does", Interval{2, 3}, 1.7, 0.5, StillHigh},
		{"a hundredth of an inch is narrow enough: 0.08 to 0.09 in", Interval{2.032, 2.286}, 2.1, 0.5, Reached},
		{"half a millimetre is not", Interval{2.0, 2.5}, 2.1, 0.5, CannotTell},
		{"at fret 17 the same saddle moves it more: 0.254 × 0.6254/0.5 = 0.3177", Interval{2.0, 2.31}, 2.1, 0.6254, Reached},
		{"held at fret 1 less: 0.254 × 0.4703/0.5 = 0.2389", Interval{2.0, 2.25}, 2.1, 0.4703, CannotTell},
		{"a caliper's ±0.03 counts upwards like a quarter: (0.254 − 0.06)/2 = 0.097, so 2.09 may stand for 2.00", Interval{2.09, 2.15}, 2.0, 0.5, Reached},
		{"but not 2.10", Interval{2.10, 2.16}, 2.0, 0.5, StillHigh},
		{"and never downwards", Interval{1.93, 1.99}, 2.0, 0.5, TooLow},
		{"no reading", Interval{nan, nan}, 2.1, 0.5, CannotTell},
		{"no target", Interval{2, 2.1}, nan, 0.5, CannotTell},
	} {
		if got := Judge(c.reading, c.target, c.lever); got != c.want {
			t.Errorf("%s: %d, want %d", c.name, got, c.want)
		}
	}
	if len(Verdicts()) != 4 {
		t.Error("Verdicts")
	}
}

func TestEveryKindIsListedOnce(t *testing.T) {
	if n := len(FindingKinds()); n != 3 || FindingKinds()[n-1] != LeanRisk {
		t.Error("FindingKinds")
	}
	if n := len(CoachVerdicts()); n != 7 || CoachVerdicts()[n-1] != Rounded {
		t.Error("CoachVerdicts")
	}
	seen := map[Quantity]bool{}
	for _, q := range Quantities() {
		if q == "" || seen[q] {
			t.Errorf("quantity %q", q)
		}
		seen[q] = true
	}
	texts := map[string]bool{}
	for _, e := range Refusals() {
		if texts[e.Error()] {
			t.Errorf("refusal %q twice", e)
		}
		texts[e.Error()] = true
	}
}

func TestFamiliesAreInOrder(t *testing.T) {
	for _, f := range Families() {
		got, ok := FamilyOf(f.ID)
		if !ok || got != f {
			t.Errorf("FamilyOf(%s)", f.ID)
		}
		if _, err := Leverage(f.Scale, 0, f.Body, 0); err != nil || f.Courses < 2 || f.PerCourse < 1 || f.SaddleSpread < 10 {
			t.Errorf("%s: %+v", f.ID, f)
		}
		if f.SaddleLength != 0 && f.SaddleLength <= f.SaddleSpread {
			t.Errorf("%s: the strings lie beyond the saddle", f.ID)
		}
		for i := range f.Gap {
			if !(0 < f.Floor[i] && f.Floor[i] < f.BeginnersFloor[i] && f.BeginnersFloor[i] <= f.Gap[i].High && f.Floor[i] <= f.Gap[i].Low) {
				t.Errorf("%s: floor %v, beginner's %v, gap %v", f.ID, f.Floor[i], f.BeginnersFloor[i], f.Gap[i])
			}
			if !f.Gap[i].Valid() || !f.FirstFret[i].Valid() || !f.Relief.Valid() || f.FirstFret[i].High >= f.Gap[i].Low {
				t.Errorf("%s: ranges", f.ID)
			}
		}
		if f.Gap[0].Low < f.Gap[1].Low || f.Floor[0] < f.Floor[1] {
			t.Errorf("%s: the bass side is never the lower one", f.ID)
		}
	}
	four, _ := FamilyOf(Bass)
	five, _ := FamilyOf(Bass5) // the low B is carried 0.2 higher than the lowest of four: 2.2 to 2.8, 1.7 and 2.0
	nearInterval(t, "low B", five.Gap[0], Interval{2.4, 3.0}, 1e-12)
	near(t, "its floor", five.Floor[0], 1.9, 1e-12)
	near(t, "its beginner's floor", five.BeginnersFloor[0], 2.2, 1e-12)
	if five.Gap[1] != four.Gap[1] || five.Floor[1] != four.Floor[1] || five.Courses != 5 {
		t.Errorf("%+v beside %+v", five, four)
	}
	if _, ok := FamilyOf("zither"); ok {
		t.Error("FamilyOf must say when there is none")
	}
	Families()[0].Floor[0] = 99
	if f, _ := FamilyOf(FlatTop6); f.Floor[0] != 1.8 {
		t.Error("Families must hand out a copy")
	}
}
