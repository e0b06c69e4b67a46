package job

import (
	"errors"
	"math"
	"strconv"
	"strings"
	"testing"
	"time"

	"gapwright/geometry"
)

// newSaddle compares one number of the saddle that is to be made with a script's.
func (s *script) newSaddle(words []string) error {
	m, err := s.record.Making()
	if err != nil {
		return err
	}
	switch words[0] {
	case "told": // from where heights count, and what else of it is told
		from := "over-the-wood"
		switch {
		case !m.Known:
			from = "nothing"
		case m.Whole:
			from = "in-all"
		}
		told := []string{from}
		for _, t := range []struct {
			is   bool
			name string
		}{{m.Standing, "stand"}, {m.Sized, "length"}, {m.Fits, "thickness"}, {m.Shaped, "crown"}, {m.Ready(), "ready"}, {m.TooLow(), "too-low"}} {
			if t.is {
				told = append(told, t.name)
			}
		}
		return sameWord(strings.Join(told, " "), strings.Join(words[1:], " "))
	case "height":
		return sameRange(m.Strings[course(words[1])].Height, words[2])
	case "no-lower":
		return same3(m.Strings[course(words[1])].Stop, words[2])
	case "rise": // over the straight line between the outer seats
		n, last := course(words[1]), len(m.Strings)-1
		line := m.Strings[0].Above + (m.Strings[last].Above-m.Strings[0].Above)*geometry.Length(n)/geometry.Length(last)
		return same3(m.Strings[n].Above-line, words[2])
	case "end":
		return sameRange(m.Ends[side(words[1])].Height, words[2])
	case "stands":
		return sameRange(m.Exposure[side(words[1])], words[2])
	case "length":
		return sameRange(m.Length, words[1])
	case "thickness":
		return sameRange(m.Thickness, words[1])
	case "found":
		var got []string
		for _, f := range m.Found {
			got = append(got, strconv.Itoa(int(f.Kind))+"/"+strconv.Itoa(int(f.Severity))+"/"+strconv.Itoa(int(f.Side)))
		}
		return sameWord(strings.Join(got, " "), strings.Join(words[1:], " "))
	}
	return errors.New("unknown check of a new saddle")
}

// making is a job that is at its plan, with 2.25 to 2.50 and 1.75 to 2.00 read and 2.00 and 1.60 wanted.
func making(t *testing.T, more ...Fact) Record {
	t.Helper()
	mm := func(text string) Typed { return Typed{text, MM} }
	kit := Kit{Unit: MM, Marks: EveryQuarter, Zero: ZeroAtEnd}
	i := Instrument{ID: "i", Family: geometry.FlatTop6}
	facts := []Fact{Began{Method: NewSaddle, Instrument: i, Kit: kit}, Answered{AskSaddle, SaddleLoose}, ReadByMarks(kit, i, 0, 9), ReadByMarks(kit, i, 5, 7),
		Answered{AskStrings, StringsStay}, Did{Measure}, Chosen{Bass: mm("2.00"), Treble: mm("1.60")}, Answered{AskRoom, RoomFine}}
	r, err := apply(Record{}, append(facts, more...)...)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// A card that takes 300 of the page's pixels where each is two of the screen's own: 600 of those, in hundredths. Enlarged by half, so that a pixel of the
// page is three of the screen's, the same card takes 200.
func TestACardStaysFittedWhenThePageIsEnlarged(t *testing.T) {
	kit := Kit{Unit: MM}.WithCard(1200, 2)
	if kit.Card != 60000 {
		t.Errorf("kept %d", kit.Card)
	}
	for ratio, want := range map[float64]int{2: 1200, 3: 800, 1: MostCard, 8: LeastCard} {
		if q, ok := kit.Quarters(ratio); q != want || !ok {
			t.Errorf("at %v: %d %v, want %d", ratio, q, ok, want)
		}
	}
	for _, k := range []Kit{{}, {Card: -4}} {
		if q, ok := k.Quarters(2); ok || q != UsualCard {
			t.Errorf("%+v: %d %v", k, q, ok)
		}
	}
	if _, ok := kit.Quarters(math.NaN()); ok {
		t.Error("a screen without pixels was taken")
	}
	s := CardScreen(1200) // 300/53.98 = 5.557614 to the millimetre; 360 across are 64.776 mm
	if got := Across(s, 360); math.Abs(got-64.776) > 5e-4 {
		t.Errorf("%v mm across", got)
	}
	if got := Across(geometry.Screen{}, 360); got != 0 {
		t.Errorf("%v mm across a screen that was not measured", got)
	}
}

// What is not known is not told: the board across, the slot, the old saddle. One old height alone is none.
func TestANewSaddleTellsWhatIsKnown(t *testing.T) {
	mm := func(text string) Typed { return Typed{text, MM} }
	for _, c := range []struct {
		name  string
		facts []Fact
		is    Making
	}{
		{"nothing", nil, Making{}},
		{"one end alone", []Fact{Slotted{Bass: mm("11")}}, Making{}},
		{"one end that stands", []Fact{Stood{Side: 0, Exposure: mm("4")}, Stood{Side: 1}}, Making{}},
		{"a round board of no known radius", []Fact{Slotted{Across: AcrossRadius, Width: mm("3")}}, Making{Fits: true}},
		{"flat", []Fact{Slotted{Across: AcrossFlat, Length: mm("72")}}, Making{Shaped: true, Sized: true}},
		{"not known across", []Fact{Slotted{Across: AcrossUnknown, Bass: mm("11"), Treble: mm("10")}}, Making{NewSaddle: geometry.NewSaddle{Known: true}, Whole: true}},
		{"in all", []Fact{Slotted{Bass: mm("11"), Treble: mm("10"), Depth: mm("5")}}, Making{NewSaddle: geometry.NewSaddle{Known: true}, Whole: true, Standing: true}},
		{"over the wood", []Fact{Stood{Side: 0, Exposure: mm("5")}, Stood{Side: 1, Exposure: mm("5")}}, Making{NewSaddle: geometry.NewSaddle{Known: true}, Standing: true}},
	} {
		r := making(t, c.facts...)
		m, err := r.Making()
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if m.Known != c.is.Known || m.Whole != c.is.Whole || m.Standing != c.is.Standing || m.Sized != c.is.Sized || m.Fits != c.is.Fits || m.Shaped != c.is.Shaped {
			t.Errorf("%s: %+v", c.name, m)
		}
		ready, err := r.ready()
		if err != nil || ready != c.is.Known {
			t.Errorf("%s: ready %v, %v", c.name, ready, err)
		}
	}
	if _, err := (Record{}).Making(); err == nil {
		t.Error("a job that has not begun makes a saddle")
	}
}

// Whatever the truth inside the readings, a saddle made to its stop leaves no string under its wish, wherever heights are read. The truth is tried at
// every corner of what was read and measured.
func TestNoStringEndsTooLowOverANewSaddle(t *testing.T) {
	mm := func(text string) Typed { return Typed{text, MM} }
	for _, place := range []struct{ fret, held int }{{12, 0}, {14, 0}, {12, 1}} {
		kit := Kit{Unit: MM, Marks: EveryQuarter, Zero: ZeroAtEnd}
		i := Instrument{ID: "i", Family: geometry.FlatTop6, Fret: place.fret, Held: place.held}
		facts := []Fact{Began{Method: NewSaddle, Instrument: i, Kit: kit}, Answered{AskSaddle, SaddleLoose}, ReadByMarks(kit, i, 0, 9), ReadByMarks(kit, i, 5, 7),
			Answered{AskStrings, StringsStay}, Did{Measure}, Chosen{Bass: mm("2.50"), Treble: mm("2.20")}, Answered{AskRoom, RoomFine},
			Slotted{Bass: mm("11.0"), Treble: mm("10.0"), Give: mm("0.25")}}
		r, err := apply(Record{}, facts...)
		if err != nil {
			t.Fatal(err)
		}
		m, err := r.Making()
		if err != nil {
			t.Fatal(err)
		}
		lever, err := i.Leverage(place.fret, place.held)
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range []struct {
			course         int
			gap, old, wish geometry.Length
		}{{0, 2.25, 11, 2.50}, {5, 1.75, 10, 2.20}} {
			for _, gap := range []geometry.Length{c.gap, c.gap + 0.25} {
				for _, old := range []geometry.Length{c.old - 0.25, c.old + 0.25} {
					made := m.Strings[c.course].Stop - 0.1 // all of the fine paper's share
					if ends := gap + geometry.Length(lever)*(made-old); ends < c.wish-1e-9 {
						t.Errorf("read at %+v, string %d ends at %.4f, under %.2f", place, c.course, float64(ends), float64(c.wish))
					}
				}
			}
		}
	}
}

// Whatever is told in whatever order, a new saddle is a number or a refusal, nothing that was taken is lost by an undo, and no plan is agreed to whose
// saddle is not known at both ends.
func TestAnyOrderOfFactsOfANewSaddle(t *testing.T) {
	steps, made := map[Step]int{}, 0
	for seed := range uint64(60) {
		r := newRandomizer(seed, 11)
		record := making(t)
		for range 120 {
			var fact Fact
			switch step := record.Step(); {
			case r.IntN(8) == 0:
				fact = r.anything(record)
			case step == MakePlan && r.IntN(2) == 0 || r.IntN(12) == 0:
				fact = Slotted{Length: r.maybe(54, 90), Width: r.maybe(2, 4), Depth: r.maybe(4, 10), Across: pick(r, append(AcrossAll(), "", "wavy")...),
					Bass: r.maybe(8, 14), Treble: r.maybe(8, 14), Give: r.maybe(0, 0.5)}
			case step == MakeSaddle && r.IntN(2) == 0:
				fact = Made{pick(r, append(geometry.BlankSteps(), "varnish")...), r.IntN(3) == 0}
			case step == MakePlan && r.IntN(2) == 0:
				fact = Stood{Side: r.IntN(2), Exposure: r.length(3, 6), Give: r.maybe(0, 0.5)}
			case step == TakeOut || step == MakePlan || step == MakeSaddle:
				fact = Did{step}
				if q, asks := NewSaddle.Asks(step); asks && !record.settled(step) {
					fact = Answered{q, q.Answers()[0]}
				}
			default:
				fact = r.onward(record)
			}
			before := record
			next, err := record.Apply(Event{Job: "j", Sequence: len(record.Events) + 1, Writer: "w", At: noon.Add(time.Duration(len(record.Events)) * time.Minute), Fact: fact})
			var refusal *Refusal
			if err != nil && (!errors.As(err, &refusal) || printed(next) != printed(before)) {
				t.Fatalf("seed %d: %#v: %v", seed, fact, err)
			}
			record = next
			steps[record.Step()]++
			m, err := record.Making()
			if err != nil {
				continue
			}
			for _, c := range append(m.Strings, m.Ends[:]...) {
				if !(c.Height.Low <= c.Height.High) || m.Known && !(c.Stop > -50 && c.Stop < 60) {
					t.Fatalf("seed %d: a place of %+v", seed, c)
				}
			}
			if did, ok := fact.(Did); ok && did.Step == MakePlan && refusal == nil && !m.Ready() {
				t.Fatalf("seed %d: a plan was agreed to that cannot be followed: %+v", seed, m)
			}
			if m.Ready() {
				made++
			}
		}
		if again, err := Replay(record.Events); err != nil || printed(again) != printed(record) {
			t.Fatalf("seed %d: read again it is another job, %v", seed, err)
		}
	}
	for _, s := range []Step{MakePlan, TakeOut, MakeSaddle, Seat, StringUp, MeasureAgain} {
		if steps[s] < 5 {
			t.Errorf("%s was reached %d times only", s, steps[s])
		}
	}
	if made < 100 {
		t.Errorf("only %d saddles could be made", made)
	}
}
