package job

import (
	"slices"
	"testing"
	"time"

	"gapwright/geometry"
)

// everyBuzz calls do with every combination of answers.
func everyBuzz(do func(Buzz)) {
	for strings := range BuzzAnswers[0] {
		for where := range BuzzAnswers[1] {
			for since := range BuzzAnswers[2] {
				do(Buzz{strings, where, since})
			}
		}
	}
}

// What a repairer would look at first, by common practice; no source says so in numbers.
func TestWhatIsLookedAtFirst(t *testing.T) {
	for _, c := range []struct {
		b    Buzz
		want BuzzCause
		why  string
	}{
		{Buzz{BuzzOne, BuzzOpen, SinceAlways}, CauseNut, "only the open string rests on its slot"},
		{Buzz{BuzzFew, BuzzOpen, SinceUnsure}, CauseNut, "stopped strings leave the nut"},
		{Buzz{BuzzOne, BuzzOpen, SinceStrings}, CauseSeat, "a new string beside its notch is seen at once"},
		{Buzz{BuzzOne, BuzzOpen, SinceSuddenly}, CauseLoose, "a slot does not sink overnight, a nut of a tuner does"},
		{Buzz{BuzzAll, BuzzFirstFrets, SinceAlways}, CauseFlat, "a straight neck has no room behind the first frets"},
		{Buzz{BuzzAll, BuzzFirstFrets, SinceSetting}, CauseFlat, "a rod that was tightened too far"},
		{Buzz{BuzzAll, BuzzFirstFrets, SinceWeather}, CauseSeason, "the air straightened it, and may bend it back by itself"},
		{Buzz{BuzzOne, BuzzFirstFrets, SinceStrings}, CauseString, "one string of a new set, and only that one"},
		{Buzz{BuzzAll, BuzzMiddle, SinceSetting}, CauseLow, "it was set too low"},
		{Buzz{BuzzOne, BuzzMiddle, SinceAlways}, CauseFret, "one string over some frets: one of these stands high"},
		{Buzz{BuzzAll, BuzzUpper, SinceAlways}, CauseLow, "all strings where they lie lowest"},
		{Buzz{BuzzFew, BuzzUpper, SinceAlways}, CauseFret, "neighbours alone: the board rises under these"},
		{Buzz{BuzzAll, BuzzOneFret, SinceAlways}, CauseFret, "a fret lies under all of them"},
		{Buzz{BuzzOne, BuzzOneFret, SinceSuddenly}, CauseFret, "an end that came up"},
		{Buzz{BuzzAll, BuzzEverywhere, SinceSetting}, CauseLow, "it was set too low"},
		{Buzz{BuzzAll, BuzzEverywhere, SinceWeather}, CauseSeason, "all of it moved together"},
		{Buzz{BuzzOne, BuzzEverywhere, SinceStrings}, CauseString, "it goes where that string goes"},
	} {
		if got := c.b.Suspects(nil); got[0].Cause != c.want {
			t.Errorf("%v begins with cause %d, want %d: %s", c.b, got[0].Cause, c.want, c.why)
		}
	}
}

func TestEveryBuzzHasACauseAndNoneTwice(t *testing.T) {
	first := map[BuzzCause]bool{}
	everyBuzz(func(b Buzz) {
		all := b.Suspects(nil)
		seen := map[BuzzCause]bool{}
		for n, s := range all {
			if seen[s.Cause] || n > 0 && (s.weight > all[n-1].weight || s.weight == all[n-1].weight && s.Cause < all[n-1].Cause) {
				t.Errorf("%v: cause %d is out of order", b, s.Cause)
			}
			seen[s.Cause] = true
			if len(s.Read) > 0 {
				t.Errorf("%v: something was read where nothing was", b)
			}
		}
		if len(all) < 2 || len(all) > len(BuzzCauses()) {
			t.Fatalf("%v has %d causes", b, len(all))
		}
		first[all[0].Cause] = true
		if b[1] != BuzzOpen && seen[CauseNut] {
			t.Errorf("%v: the nut of a stopped string", b)
		}
	})
	if len(first) < 7 { // seat, string, loose, season, flat, low, nut, fret
		t.Errorf("only %d causes ever come first: %v", len(first), first)
	}
	for _, weights := range buzzWeights {
		for n, each := range weights {
			if len(each) != BuzzAnswers[n] {
				t.Errorf("%q has weights for %d answers, want %d", each, len(each), BuzzAnswers[n])
			}
		}
	}
	if out := (Buzz{-1, 9, 9}).Suspects(nil); out[0].Cause != (Buzz{0, 5, 5}).Suspects(nil)[0].Cause {
		t.Error("answers that are none are not taken as the nearest")
	}
}

func place(all []Suspect, c BuzzCause) int {
	return slices.IndexFunc(all, func(s Suspect) bool { return s.Cause == c })
}

// Whatever was read, the same causes are there, and what it speaks for is no lower, what it speaks against no higher.
func TestReadingsMoveCausesAndTakeNoneAway(t *testing.T) {
	part := func(p geometry.Part, side geometry.Side, s geometry.Standing) geometry.PartFound {
		return geometry.PartFound{PartReading: geometry.PartReading{Part: p, Side: side}, Standing: s}
	}
	for _, c := range []struct {
		name         string
		found        []geometry.PartFound
		forIt, notIt []BuzzCause
	}{
		{"flat", []geometry.PartFound{part(geometry.PartRelief, 0, geometry.Below)}, []BuzzCause{CauseFlat}, []BuzzCause{CauseBowed}},
		{"bowed", []geometry.PartFound{part(geometry.PartRelief, 0, geometry.Above)}, []BuzzCause{CauseBowed}, []BuzzCause{CauseFlat}},
		{"usual relief", []geometry.PartFound{part(geometry.PartRelief, 0, geometry.Usual)}, nil, []BuzzCause{CauseBowed, CauseFlat}},
		{"perhaps", []geometry.PartFound{part(geometry.PartRelief, 0, geometry.Unclear)}, nil, nil},
		{"one low end of the nut", []geometry.PartFound{part(geometry.PartNut, 0, geometry.Usual), part(geometry.PartNut, 1, geometry.Below)}, []BuzzCause{CauseNut}, nil},
		{"half a nut", []geometry.PartFound{part(geometry.PartNut, 0, geometry.Usual)}, nil, nil},
		{"high strings", []geometry.PartFound{part(geometry.PartSaddle, 0, geometry.Above), part(geometry.PartSaddle, 1, geometry.Usual)}, nil, []BuzzCause{CauseLow}},
	} {
		everyBuzz(func(b Buzz) {
			bare, read := b.Suspects(nil), b.Suspects(c.found)
			if len(bare) != len(read) {
				t.Fatalf("%s, %v: %d causes, want %d", c.name, b, len(read), len(bare))
			}
			for _, s := range read {
				was, is := place(bare, s.Cause), place(read, s.Cause)
				told := slices.Contains(c.forIt, s.Cause) || slices.Contains(c.notIt, s.Cause)
				if told != (len(s.Read) > 0) || s.For != slices.Contains(c.forIt, s.Cause) {
					t.Errorf("%s, %v: cause %d is told %v, for it %v", c.name, b, s.Cause, s.Read, s.For)
				}
				if s.For && is > was || len(s.Read) > 0 && !s.For && is < was {
					t.Errorf("%s, %v: cause %d went from place %d to %d", c.name, b, s.Cause, was, is)
				}
			}
		})
	}
	// All strings on the first frets, since always: a flat neck. Relief that was read as usual: 10 less 4 puts it behind what is too low, 8.
	usual := []geometry.PartFound{part(geometry.PartRelief, 0, geometry.Usual)}
	if got := (Buzz{BuzzAll, BuzzFirstFrets, SinceAlways}).Suspects(usual); got[0].Cause == CauseFlat || place(got, CauseFlat) < 1 {
		t.Errorf("a usual relief leaves a flat neck first: %v", got)
	}
}

// What is known of an instrument: the job under way, or else as it was set; heights from before work on the neck tell nothing.
func TestWhatWasFoundOfTheNeck(t *testing.T) {
	at := time.Date(2026, 3, 1, 12, 0, 0, 0, time.UTC)
	i := Instrument{ID: "i", Family: geometry.FlatTop6}
	if got := FoundOn(nil, i); got != nil {
		t.Errorf("of an instrument that was never set is known %v", got)
	}
	relief := i.Survey(Place{Feature: Relief})
	relief.Way, relief.Low, relief.High = ByFeeler, Typed{"0.05", MM}, Typed{"0.08", MM}
	read := func(course int, text string) Read {
		return Read{String: course, Fret: 12, Way: ByCaliper, Low: Typed{text, MM}}
	}
	i.AsSet = &AsSet{Job: "j", At: at, Readings: []Read{read(0, "2.40"), read(5, "1.50")}, Neck: []Surveyed{relief}}
	stands := func(found []geometry.PartFound) (all []geometry.Standing) {
		for _, f := range found {
			all = append(all, f.Standing)
		}
		return all
	}
	// Usual are 0.10 to 0.30 relief, 2.2 to 2.6 and 1.7 to 2.0 at fret 12.
	if got, want := stands(FoundOn(nil, i)), []geometry.Standing{geometry.Below, geometry.Usual, geometry.Below}; !slices.Equal(got, want) {
		t.Errorf("as set it stands %v, want %v", got, want)
	}
	i.AsSet.Moved = true
	if got, want := stands(FoundOn(nil, i)), []geometry.Standing{geometry.Below}; !slices.Equal(got, want) {
		t.Errorf("after work on the neck it stands %v, want %v", got, want)
	}
	job := Record{}
	for n, f := range []Fact{Began{Method: SandUnderside, Instrument: i}, Answered{AskSaddle, SaddleLoose}, read(0, "3.00")} {
		if next, err := job.Apply(Event{Job: "open", Sequence: n + 1, At: at.Add(time.Hour), Fact: f}); err != nil {
			t.Fatal(err)
		} else if job = next; n == 1 {
			if got := stands(FoundOn([]Record{job}, i)); !slices.Equal(got, []geometry.Standing{geometry.Below}) {
				t.Errorf("with nothing read in the job it stands %v", got)
			}
		}
	}
	if got, want := stands(FoundOn([]Record{job}, i)), []geometry.Standing{geometry.Above}; !slices.Equal(got, want) {
		t.Errorf("in the job it stands %v, want %v", got, want)
	}
}
