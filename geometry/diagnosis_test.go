package geometry_test

import (
	"testing"

	. "gapwright/geometry"
)

func TestDiagnosisTakesReliefThenNutThenSaddle(t *testing.T) {
	relief, nutB, nutT := Interval{.10, .30}, Interval{.50, .70}, Interval{.35, .50}
	gapB, gapT := Interval{2.2, 2.6}, Interval{1.7, 2.0}
	read := func(part Part, side Side, usual Interval, low, high Length) PartReading {
		return PartReading{Part: part, Side: side, Read: Interval{low, high}, Usual: usual}
	}
	type found struct {
		part     Part
		side     Side
		standing Standing
		first    bool
		waits    bool
		moves    Interval
	}
	even, midNeck, _ := guitar.ReliefMoves(12, 0)
	for _, c := range []struct {
		name string
		in   []PartReading
		want []found
	}{
		{"all is usual, the strings are high: the saddle", []PartReading{
			read(PartSaddle, TrebleSide, gapT, 2.25, 2.5), read(PartSaddle, BassSide, gapB, 2.75, 3), read(PartNut, BassSide, nutB, .55, .60),
			read(PartNut, TrebleSide, nutT, .40, .45), read(PartRelief, BassSide, relief, .15, .20)},
			[]found{{PartRelief, BassSide, Usual, false, false, Interval{}}, {PartNut, BassSide, Usual, false, false, Interval{}},
				{PartNut, TrebleSide, Usual, false, false, Interval{}}, {PartSaddle, BassSide, Above, true, false, Interval{-.4, -.15}},
				{PartSaddle, TrebleSide, Above, true, false, Interval{-.5, -.25}}}},
		// 0.45 to 0.50 is 0.15 to 0.20 too much; that is 0.15 · 1.22521 to 0.20 · 2.42787 at fret 12
		{"too much relief comes first and the rest waits", []PartReading{
			read(PartRelief, BassSide, relief, .45, .50), read(PartNut, BassSide, nutB, .80, .85), read(PartSaddle, BassSide, gapB, 2.75, 3)},
			[]found{{PartRelief, BassSide, Above, true, false, Interval{Length(-.20 * even), Length(-.15 * midNeck)}},
				{PartNut, BassSide, Above, false, true, Interval{-.15 * .52973, -.10 * .52973}}, {PartSaddle, BassSide, Above, false, true, Interval{-.4, -.15}}}},
		{"a high nut comes before the saddle", []PartReading{
			read(PartRelief, BassSide, relief, .15, .20), read(PartNut, BassSide, nutB, .60, .65), read(PartNut, TrebleSide, nutT, .60, .65),
			read(PartSaddle, TrebleSide, gapT, 2.25, 2.5)},
			[]found{{PartRelief, BassSide, Usual, false, false, Interval{}}, {PartNut, BassSide, Usual, false, false, Interval{}},
				{PartNut, TrebleSide, Above, true, false, Interval{-.15 * .52973, -.10 * .52973}}, {PartSaddle, TrebleSide, Above, false, true, Interval{-.5, -.25}}}},
		{"what was not read is said, and leaves the rest open", []PartReading{read(PartSaddle, BassSide, gapB, 1.9, 2.0)},
			[]found{{PartRelief, BassSide, Unstated, false, false, Interval{}}, {PartNut, BassSide, Unstated, false, true, Interval{}},
				{PartSaddle, BassSide, Below, true, true, Interval{.2, .3}}}},
		{"a reading that may be out claims nothing", []PartReading{
			read(PartRelief, BassSide, relief, .25, .35), read(PartNut, BassSide, nutB, .45, .55), read(PartSaddle, BassSide, gapB, 2, 3)},
			[]found{{PartRelief, BassSide, Unclear, false, false, Interval{}}, {PartNut, BassSide, Unclear, false, true, Interval{}},
				{PartSaddle, BassSide, Unclear, false, true, Interval{}}}},
		{"back-bow: more relief raises the strings", []PartReading{read(PartRelief, BassSide, relief, -.10, -.05)},
			[]found{{PartRelief, BassSide, Below, true, false, Interval{Length(.15 * midNeck), Length(.20 * even)}},
				{PartNut, BassSide, Unstated, false, true, Interval{}}, {PartSaddle, BassSide, Unstated, false, true, Interval{}}}},
	} {
		got := must(Diagnose(guitar, c.in))
		if len(got) != len(c.want) {
			t.Errorf("%s: %d parts, want %d: %+v", c.name, len(got), len(c.want), got)
			continue
		}
		for i, w := range c.want {
			g := got[i]
			if g.Part != w.part || g.Side != w.side || g.Standing != w.standing || g.First != w.first || g.Provisional != w.waits {
				t.Errorf("%s: %+v, want %+v", c.name, g, w)
			}
			nearInterval(t, c.name, g.Moves, w.moves, 1e-6)
			if out := g.Standing == Above || g.Standing == Below; out != (g.Out.Low > 0) {
				t.Errorf("%s: out by %v", c.name, g.Out)
			}
		}
	}
}

func TestTheSaddleIsNeverFirstWhileReliefOrNutIsOut(t *testing.T) {
	usual := Interval{1, 2}
	at := func(s Standing) Interval {
		return map[Standing]Interval{Usual: {1.2, 1.5}, Above: {2.2, 2.5}, Below: {0.2, 0.5}, Unclear: {0.5, 1.5}}[s]
	}
	for _, relief := range Standings() {
		for _, nut := range Standings() {
			for _, saddle := range Standings() {
				var in []PartReading
				for part, s := range map[Part]Standing{PartRelief: relief, PartNut: nut, PartSaddle: saddle} {
					if s != Unstated {
						in = append(in, PartReading{Part: part, Read: at(s), Usual: usual})
					}
				}
				first := -1
				for _, f := range must(Diagnose(guitar, in)) {
					if f.First {
						if first >= 0 {
							t.Fatalf("two things first: %v %v %v", relief, nut, saddle)
						}
						first = int(f.Part)
					}
				}
				want := -1
				for part, s := range []Standing{relief, nut, saddle} {
					if want < 0 && (s == Above || s == Below) {
						want = part
					}
				}
				if first != want {
					t.Errorf("%v %v %v: part %d first, want %d", relief, nut, saddle, first, want)
				}
			}
		}
	}
}

func TestDiagnosisRefuses(t *testing.T) {
	_, err := Diagnose(guitar, []PartReading{{Part: PartRelief, Read: Exactly(4), Usual: Interval{0, 1}}})
	refused(t, "Diagnose", err, QuantityRelief)
	_, err = Diagnose(guitar, []PartReading{{Part: PartNut, Read: Exactly(-1), Usual: Interval{0, 1}}})
	refused(t, "Diagnose", err, QuantityGap)
	_, err = Diagnose(guitar, []PartReading{{Part: PartSaddle, Read: Exactly(2), Usual: Exactly(nan)}})
	refused(t, "Diagnose", err, QuantityGap)
	_, err = Diagnose(Neck{Scale: 650, Body: 9, Frets: 11}, nil)
	refused(t, "Diagnose", err, QuantityLastFret)
	for _, c := range []struct {
		read, usual Interval
		want        Standing
	}{{Exactly(nan), Interval{0, 1}, Unstated}, {Interval{1, 0}, Interval{0, 1}, Unstated}, {Interval{0, 1}, Interval{1, 0}, Unstated},
		{Exactly(1), Interval{0, 1}, Usual}, {Exactly(1.1), Interval{0, 1}, Above}, {Exactly(-0.1), Interval{0, 1}, Below}, {Interval{-1, 2}, Interval{0, 1}, Unclear}} {
		if got := Compare(c.read, c.usual); got != c.want {
			t.Errorf("Compare(%v, %v) = %d, want %d", c.read, c.usual, got, c.want)
		}
	}
}
