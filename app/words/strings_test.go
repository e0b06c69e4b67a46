package words_test

import (
	"testing"

	"gapwright/app/job"
	"gapwright/app/words"
	"gapwright/geometry"
)

func TestEverythingThatCanBeSaidOfStringsHasAWord(t *testing.T) {
	once := func(what string) func(string) {
		seen := map[string]bool{}
		return func(s string) {
			t.Helper()
			if s == "" || seen[s] {
				t.Errorf("%s: %q", what, s)
			}
			seen[s] = true
		}
	}
	source, tuning, made, published := once("weight"), once("tuning"), once("make"), once("published set")
	for _, from := range geometry.WeightSources() {
		source(words.WeightSource(from))
	}
	for _, c := range job.TuningChoices(geometry.FlatTop6) {
		tuning(words.Tuning(c))
	}
	for _, m := range job.Makes() {
		made(words.Make(m))
	}
	for _, s := range geometry.NylonSets() {
		published(words.Published(s.ID))
	}
}

// 60 is C4 and 69 is A4 by the numbering of MIDI; what is not a note of any string is still named, not fatal.
func TestNotesAreNamed(t *testing.T) {
	for tone, want := range map[geometry.Tone]string{60: "C4", 69: "A4", 54: "F♯3", 23: "B0", 9: "A-1", 108: "C8"} {
		if got := words.NoteInOctave(tone); got != want {
			t.Errorf("%d is %q, want %q", tone, got, want)
		}
	}
	if got := words.Note(-1); got != "B" {
		t.Errorf("−1 is %q", got)
	}
	i := job.Instrument{Family: geometry.BaritoneGuitar}
	if got, want := words.Notes(i.Tones()), "B E A D F♯ B"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	twelve := job.Instrument{Family: geometry.FlatTop12}
	for _, c := range []struct{ got, want string }{
		{words.StringName(twelve, 0, 0), "Bass string, E"}, {words.StringName(twelve, 0, 1), "Bass string, octave, E"},
		{words.StringName(twelve, 4, 1), "String 2, second, B"}, {words.StringName(twelve, 5, 0), "Treble string, E"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
}

// 712 N are 712/9.80665 = 72.6 kilograms' weight, and 712/4.448222 = 160.1 pounds'.
func TestThePullIsSaid(t *testing.T) {
	mm, in := readers[job.MM], readers[job.Inch]
	for _, c := range []struct{ got, want string }{
		{mm.Together(712, true), "712\u00a0N, about 73\u00a0kg"}, {in.Together(712, true), "712\u00a0N, about 160\u00a0lb"}, {mm.Together(712, false), "Not known yet"},
		{words.Pull(job.Pull{Tension: 104.53, Weight: 0.000572782, From: geometry.FromDiameter, Known: true}), "105\u00a0N, 0.573\u00a0g/m from its diameter"},
		{words.Pull(job.Pull{Tension: 62.78, Weight: 0.00547, From: geometry.Published, Known: true}), "63\u00a0N, 5.47\u00a0g/m as published"},
		{words.Pull(job.Pull{Tension: 62.39, Weight: 0.00547, From: geometry.Typed, Known: true}), "62\u00a0N, as typed"}, {words.Pull(job.Pull{}), "Pull not known"},
		{words.NewStrings(17.36, true).Lead, "Another gauge or tuning moves relief and height. Measure both again. The strings now pull 17\u00a0% harder."},
		{words.NewStrings(-4.6, true).Lead, "Another gauge or tuning moves relief and height. Measure both again. The strings now pull 5\u00a0% less."},
		{words.NewStrings(0.3, true).Lead, words.NewStrings(9, false).Lead},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
}

// A plain .012 at E4 on 648 mm resists with 1.20025 N for a millimetre: 3.0 N for a tenth of an inch.
func TestStiffnessIsSaidInThePersonsUnit(t *testing.T) {
	i := job.Instrument{Family: geometry.FlatTop6}.WithGauges([]job.Gauge{{}, {}, {}, {}, {}, {Make: job.PlainSteel, Diameter: job.Typed{Text: ".012", Unit: job.Inch}}})
	for _, c := range []struct{ got, want string }{
		{readers[job.MM].Sideways(i, 5), "Treble string: 1.2\u00a0N moves it 1\u00a0mm"}, {readers[job.Inch].Sideways(i, 5), "Treble string: 3.0\u00a0N moves it 0.1\u00a0in"},
		{readers[job.MM].Sideways(i, 0), "Bass string: not known"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
}

// A unit that was typed with the number is not said twice, and the reader's is said in its place.
func TestATypedUnitIsNotSaidTwice(t *testing.T) {
	for _, c := range []struct{ text, mm, inch string }{
		{"2.25", "2.25\u00a0mm", "2.25\u00a0in"}, {"2.25\u00a0mm", "2.25\u00a0mm", "0.089\u00a0in"}, {"16\u00a0in", "406.40\u00a0mm", "16.000\u00a0in"}, {"89 thou", "2.25\u00a0mm", "0.089\u00a0in"}, {"5/64\u00a0in", "2.00\u00a0mm", "0.078\u00a0in"},
	} {
		for unit, want := range map[job.Unit]string{job.MM: c.mm, job.Inch: c.inch} {
			if got := readers[unit].Typed(job.Typed{Text: c.text, Unit: unit}); got != want {
				t.Errorf("%s typed and read in %s: %q, want %q", c.text, unit, got, want)
			}
		}
	}
}
