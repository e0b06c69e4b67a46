package job

import (
	"testing"

	"gapwright/geometry"
)

// exploredFully is a flat-top at Choose of which all is known that a look at a height asks for: relief, both first gaps, both outer strings, how far the saddle stands.
func exploredFully(b *testing.B) Record {
	strings := flatTop.Instrument.WithGauges([]Gauge{plain(".053"), plain(".042"), plain(".032"), plain(".024"), plain(".016"), plain(".012")})
	facts := append([]Fact{}, toMeasure...)
	facts = append(facts, Described{strings}, Answered{AskStrings, StringsStay}, fits(0, "2.8", "2.85"), fits(5, "2.2", "2.25"),
		reliefRead(strings, 0, "0.15", "0.2"), firstRead(0, "0.55", "0.6"), firstRead(5, "0.4", "0.45"), Did{Measure}, Answered{AskBuzz, BuzzNone})
	r, err := apply(Record{}, facts...)
	if err != nil {
		b.Fatal(err)
	}
	return r
}

// What the screen of choosing works out once, when it opens and after every tap.
func BenchmarkExplore(b *testing.B) {
	r := exploredFully(b)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := r.Explore(MixedPlayer); err != nil {
			b.Fatal(err)
		}
	}
}

// What a drag works out in every frame: the wish, and what it would do at the string that is dragged.
func BenchmarkExploreSide(b *testing.B) {
	x, err := exploredFully(b).Explore(MixedPlayer)
	if err != nil {
		b.Fatal(err)
	}
	drag := x.Drag(x.Suggest(false), 0)
	b.Run("wish", func(b *testing.B) {
		b.ReportAllocs()
		for n := 0; b.Loop(); n++ {
			drag.To(geometry.Length(n%40) / 100)
		}
	})
	b.Run("side", func(b *testing.B) {
		b.ReportAllocs()
		for n := 0; b.Loop(); n++ {
			seen, err := x.Side(0, 2.2+geometry.Length(n%40)/100)
			if err != nil || !seen.Sounds || !seen.Suited {
				b.Fatalf("%+v, %v", seen, err)
			}
		}
	})
}

// A drag goes where the same number of nudges would go, at the limits too: with heights off the grid, in both units, below the beginner's floor,
// and with a saddle that allows no less.
func TestADragGoesWhereNudgesGo(t *testing.T) {
	for _, unit := range []Unit{MM, Inch} {
		for _, low := range []string{"2.8", "2.815", "2.835", "1.9"} {
			for _, stands := range []string{"", "2"} {
				began := flatTop
				began.Kit.Unit = unit
				facts := []Fact{began, Answered{AskSaddle, SaddleLoose}, Answered{AskStrings, StringsStay}, reading(0, low), reading(5, low)}
				if stands != "" {
					facts = append(facts, Stood{Exposure: Typed{stands, MM}}, Stood{Side: 1, Exposure: Typed{stands, MM}})
				}
				r := must(t, Record{}, facts...)
				x, err := r.Explore(MixedPlayer)
				if err != nil {
					t.Fatal(err)
				}
				step := r.Kit.SmallStep()
				for _, own := range []bool{false, true} {
					from := x.Suggest(own)
					for side := range 2 {
						drag := x.Drag(from, side)
						for n := -40; n <= 40; n++ {
							moved := [2]int{}
							moved[side] = n
							want := r.Nudged(from, moved[0], moved[1])
							wantSteps := int(((want.Heights()[side] - from.Heights()[side]) / step).RoundTo(1))
							steps, height, got := drag.To(geometry.Length(n) * step / geometry.Length(x.sides[side].lever))
							if got != want || steps != wantSteps || abs(height-want.Heights()[side]) > 1e-9 {
								t.Fatalf("%s, read %s, standing %q, own %v, side %d: %d steps from %+v lead by %d to %v, %+v, nudges by %d to %+v",
									unit, low, stands, own, side, n, from, steps, height, got, wantSteps, want)
							}
						}
					}
				}
			}
		}
	}
}
