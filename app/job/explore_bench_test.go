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
	wish := x.Suggest(false)
	b.Run("wish", func(b *testing.B) {
		b.ReportAllocs()
		for n := 0; b.Loop(); n++ {
			x.Dragged(wish, 0, geometry.Length(n%40)/100)
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
