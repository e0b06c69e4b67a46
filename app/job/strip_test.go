package job

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"gapwright/geometry"
)

// strips reads kinds of strips as scripts write them, 0.25x4,10:2.9 being four of a quarter of a millimetre and any number of which ten measure 2.9.
func strips(text string, unit Unit) (all [MostKinds]Strip) {
	for n, kind := range strings.Split(text, ",") {
		thick, count, _ := strings.Cut(kind, "x")
		ten, is := strings.CutPrefix(thick, "10:")
		all[n] = Strip{Thick: Typed{ten, unit}, Ten: is}
		all[n].Count, _ = strconv.Atoi(count)
	}
	return all
}

// strip compares one number or name of the plan with the script's.
func (s *script) strip(words []string) error {
	p, err := s.record.StripPlan()
	if err != nil {
		return err
	}
	pile := func(pile geometry.Pile) (text string) {
		for _, kind := range s.record.Kit.Piled(pile) {
			text += fmt.Sprintf("+%dx%s", kind.Count, kind.Thick.Text)
		}
		return strings.TrimPrefix(text, "+")
	}
	switch words[0] {
	case "needs":
		return sameRange(p.Shim.Strings[slices.IndexFunc(p.Strings, func(p PlannedString) bool { return p.Course == course(words[1]) })], words[2])
	case "asked": // at the ends, at the least
		return errors.Join(same3(p.Shim.Lay.Bass, words[1]), same3(p.Shim.Lay.Treble, words[2]))
	case "lay": // what lies there
		return errors.Join(same3(p.Thick[0], words[1]), same3(p.Thick[1], words[2]))
	case "pile": // right across; on it under one end
		got := pile(p.Laying.Even)
		if !p.Known {
			got = "none"
		}
		if p.Laying.Strip.Leaves > 0 {
			got += " " + pile(p.Laying.Strip) + " " + []string{"bass", "treble"}[p.Laying.Side]
		}
		return sameWord(got, strings.Join(words[1:], " "))
	case "after":
		return sameRange(p.Strings[slices.IndexFunc(p.Strings, func(p PlannedString) bool { return p.Course == course(words[1]) })].After, words[2])
	case "stands":
		return sameRange(p.Stands[side(words[1])].Exposure, words[2])
	case "sits":
		return sameRange(p.Stands[side(words[1])].Depth, words[2])
	case "leans":
		return sameWord(map[bool]string{true: "yes", false: "no"}[p.Leans()], words[1])
	}
	return sameWord(string(p.Outcome), words[0])
}

// stripJob is a job by strips up to its plan, both outer strings read by feelers.
func stripJob(t *testing.T, kit Kit, gaps, wishes [2]geometry.Length) (Record, error) {
	t.Helper()
	write := func(l geometry.Length) Typed { return Write(l, MM, geometry.Millimetre/100) }
	feeler := func(course int, low geometry.Length) Read {
		return Read{String: course, Fret: 12, Way: ByFeeler, Low: write(low), High: write(low + 0.05)}
	}
	return apply(Record{}, Began{Method: RaiseByStrip, Instrument: flatTop.Instrument, Kit: kit}, Answered{AskSaddle, SaddleLoose}, Answered{AskStrings, StringsStay},
		feeler(0, gaps[0]), feeler(5, gaps[1]), Did{Measure}, Chosen{Bass: write(wishes[0]), Treble: write(wishes[1])})
}

// Whatever is to hand, whatever was typed of it: what is laid is enough at every string with its reading at the low end, never lies under one end alone, is
// not more than there is, and over a pickup goes right across; and a string that truly was where its reading ends is found where it was said to be.
func TestWhatIsLaidIsAlwaysEnough(t *testing.T) {
	r := newRandomizer(40, 12)
	known, stepped := 0, 0
	for n := range 3000 {
		kit := Kit{Unit: MM, Marks: EveryHalfMM, Zero: ZeroAtEnd}
		for i := range r.IntN(MostKinds + 1) {
			kit.Strips[i] = Strip{Thick: r.length(0.05, 0.6), Count: pick(r, 0, 1, 2, 5, -1, 1000)}
			if r.IntN(3) == 0 {
				kit.Strips[i] = Strip{Thick: r.length(0.5, 4), Ten: true}
			}
		}
		gaps := [2]geometry.Length{geometry.Length(2 + 0.6*r.Float64()).RoundTo(0.01), geometry.Length(1.6 + 0.4*r.Float64()).RoundTo(0.01)}
		wishes := [2]geometry.Length{gaps[0] + geometry.Length(0.6*r.Float64()).RoundTo(0.01), gaps[1] + geometry.Length(0.6*r.Float64()).RoundTo(0.01)}
		record, err := stripJob(t, kit, gaps, wishes)
		if err != nil {
			t.Fatal(n, err)
		}
		record, _ = apply(record, Did{MakePlan}, Answered{AskUnder, pick(r, UnderClear, UnderPickup, UnderShim)}, Did{TakeOut})
		p, err := record.StripPlan()
		if err != nil {
			t.Fatal(n, err)
		}
		if (p.Outcome == StripGo) != (record.Step() == Lay) {
			t.Fatalf("%d: %s, and the step is %s", n, p.Outcome, record.Step())
		}
		if p.Outcome != StripGo {
			continue
		}
		for i, s := range p.Strings {
			if s.After.Low < wishes[i]-1e-6 {
				t.Fatalf("%d: string %d ends at %.4f, wanted %.2f", n, s.Course, s.After.Low, wishes[i])
			}
		}
		if !p.Known {
			continue
		}
		known++
		under, _ := record.Answer(AskUnder)
		if p.Laying.Strip.Leaves > 0 {
			stepped++
			if under == UnderPickup || p.Laying.Even.Leaves == 0 {
				t.Fatalf("%d: a short strip over %s, %d leaves under it", n, under, p.Laying.Even.Leaves)
			}
		}
		for i, s := range kit.Strips {
			laid := p.Laying.Even.Counts[i]
			if p.Laying.Strip.Leaves > 0 {
				laid += p.Laying.Strip.Counts[i]
			}
			if laid > 0 && (s.Check() != nil || s.Count > 0 && laid > s.Count) {
				t.Fatalf("%d: %d are laid of %+v", n, laid, s)
			}
		}
		laid := kit.LaidAs(p.Thick[0], p.Thick[1])
		record, err = apply(record, laid, Answered{AskSeat, SeatFlat}, Did{Seat}, Answered{AskStrung, StrungSame}, Did{StringUp})
		if err != nil {
			t.Fatal(n, err)
		}
		up := 0.5 * p.Laying.Under.At(record.Instrument.Offset(0)).Low
		again := Read{String: 0, Fret: 12, Way: ByFeeler, Low: Write(gaps[0]+up, MM, 0.001), High: Write(gaps[0]+up+0.02, MM, 0.001)}
		if record, err = apply(record, again); err != nil {
			t.Fatal(n, err)
		}
		if c, odd := DoesNotFit(record.Compare()); odd {
			t.Fatalf("%d: expected %v, read %v", n, c.Predicted, c.Read)
		}
	}
	if known < 300 || stepped < 100 {
		t.Errorf("only %d plans of what is to hand, %d of them with a short strip", known, stepped)
	}
}

// What is laid in earlier rounds counts for what stands up and for what sits in the slot.
func TestWhatWasLaidBeforeCounts(t *testing.T) {
	kit := Kit{Unit: MM, Strips: [MostKinds]Strip{{Thick: Typed{"0.5", MM}}}}
	r, err := stripJob(t, kit, [2]geometry.Length{2.25, 1.75}, [2]geometry.Length{2.5, 2})
	if err != nil {
		t.Fatal(err)
	}
	stood := Stood{Exposure: Typed{"3", MM}, Give: Typed{"0.1", MM}, Depth: Typed{"6", MM}}
	feeler := func(course int, low, high string) Read {
		return Read{String: course, Fret: 12, Way: ByFeeler, Low: Typed{low, MM}, High: Typed{high, MM}}
	}
	r, err = apply(r, stood, Did{MakePlan}, Answered{AskUnder, UnderClear}, Did{TakeOut}, Shimmed{Typed{"0.5", MM}, Typed{"0.5", MM}}, Answered{AskSeat, SeatFlat}, Did{Seat},
		Answered{AskStrung, StrungSame}, Did{StringUp}, feeler(0, "2.4", "2.45"), feeler(5, "1.9", "1.95"), Judged{Again})
	if err != nil {
		t.Fatal(err)
	}
	p, err := r.StripPlan()
	if err != nil || p.Outcome != StripGo {
		t.Fatal(p.Outcome, err)
	}
	// 0.5 went in and 0.5 goes on it: 3 + 1 give or take 0.1 stands up, 6 - 1 sits.
	if on := p.Stands[0]; errors.Join(sameRange(on.Exposure, "3.90..4.10"), sameRange(on.Depth, "5.00..5.00")) != nil || p.Stood[1] {
		t.Errorf("%+v, %v", on, p.Stood)
	}
	if facts, ask := r.SeatDepth(Typed{"5", MM}); ask || len(facts) > 0 {
		t.Errorf("the slot is asked for again: %v", facts)
	}
}

func TestKindsOfStripsComeAndGo(t *testing.T) {
	var kit Kit
	for _, text := range []string{"0.1", "0.2", "0.3", "0.4"} {
		var ok bool
		if kit, ok = kit.WithStrip(Strip{Thick: Typed{text, MM}}); !ok {
			t.Fatalf("no room for %s", text)
		}
	}
	if _, ok := kit.WithStrip(Strip{Thick: Typed{"0.5", MM}}); ok {
		t.Error("a fifth kind has room")
	}
	kit = kit.WithoutStrip(1)
	if kit.Strips[1].Thick.Text != "0.3" || kit.Strips[2].Thick.Text != "0.4" || kit.Strips[3] != (Strip{}) {
		t.Errorf("without the second: %+v", kit.Strips)
	}
	for text, good := range map[string]bool{"0.25": true, "0.01": false, "2.5": false, "thin": false, "": false, "-1": false} {
		if err := (Strip{Thick: Typed{text, MM}}).Check(); (err == nil) != good {
			t.Errorf("%q: %v", text, err)
		}
		if err := (Strip{Thick: Typed{text, MM}, Ten: true}).Check(); (err == nil) != (text == "2.5") {
			t.Errorf("ten of %q: %v", text, err)
		}
	}
}

// What takes nothing off cannot take too much, and what only raises goes on only where something is too low.
func TestOnlyWhatMakesSenseIsOffered(t *testing.T) {
	sanded, err := apply(Record{}, toAgain...)
	if err != nil || !sanded.Offers(TooMuch) || !sanded.Offers(Again) || !sanded.Offers(Keep) {
		t.Errorf("after sanding: %v %v %v, %v", sanded.Offers(TooMuch), sanded.Offers(Again), sanded.Offers(Keep), err)
	}
	for again, want := range map[geometry.Length]bool{2.1: true, 2.3: false, 2.8: false} {
		r, err := stripJob(t, Kit{Unit: MM}, [2]geometry.Length{2.0, 1.6}, [2]geometry.Length{2.3, 1.6})
		if err != nil {
			t.Fatal(err)
		}
		r, err = apply(r, Did{MakePlan}, Answered{AskUnder, UnderClear}, Did{TakeOut}, Shimmed{}, Answered{AskSeat, SeatFlat}, Did{Seat}, Answered{AskStrung, StrungSame}, Did{StringUp},
			reading(0, again.Millimetres(0.01)), reading(5, "1.6"))
		if err != nil || r.Offers(Again) != want || r.Offers(TooMuch) || !r.Offers(Keep) {
			t.Errorf("at %v: another round %v, too much %v, %v", again, r.Offers(Again), r.Offers(TooMuch), err)
		}
	}
}

// A wish over the reading is looked at as a rise at the saddle, which then stands so much further out.
func TestAWishAboveIsARise(t *testing.T) {
	r, err := stripJob(t, Kit{Unit: MM}, [2]geometry.Length{2.0, 1.5}, [2]geometry.Length{2.5, 1.8})
	if err != nil {
		t.Fatal(err)
	}
	inner := Read{String: 2, Fret: 12, Way: ByFeeler, Low: Typed{"1.80", MM}, High: Typed{"1.85", MM}}
	if r, err = apply(r, inner, Stood{Exposure: Typed{"3", MM}, Give: Typed{"0.1", MM}}); err != nil {
		t.Fatal(err)
	}
	x, err := r.Explore(MixedPlayer)
	if err != nil {
		t.Fatal(err)
	}
	high, err := x.Both(Chosen{Bass: Typed{"2.5", MM}, Treble: Typed{"1.8", MM}})
	if err != nil {
		t.Fatal(err)
	}
	// (2.5 - 2.05) x 2 and (2.5 - 2.0) x 2; 3 give or take 0.1 with that.
	if s := high[0]; !s.Raises || sameRange(s.Off, "-1.00..-0.90") != nil || sameRange(s.Left, "3.80..4.10") != nil {
		t.Errorf("%v comes off, %v stands", s.Off, s.Left)
	}
	low, err := x.Both(Chosen{Bass: Typed{"2.02", MM}, Treble: Typed{"1.55", MM}})
	if err != nil || sameRange(low[0].Off, "-0.04..0.00") != nil { // inside the reading: up by as much as may be missing, down by nothing
		t.Fatal(low[0].Off, err)
	}
	if a, b := x.Rows(high)[1], x.Rows(low)[1]; a.Course != 2 || a.Least().Free.Low <= b.Least().Free.Low {
		t.Errorf("string %d has %v of room raised, %v not", a.Course, a.Least().Free, b.Least().Free)
	}
}

// A job by strips of any facts, likely and unlikely, is taken or refused in kind, read again from its events it is the same, and it comes to every step.
func TestAnyOrderOfFactsByStrips(t *testing.T) {
	steps := map[Step]int{}
	for seed := range uint64(60) {
		r := newRandomizer(seed, 40)
		record, err := apply(Record{}, Began{Method: RaiseByStrip, Instrument: flatTop.Instrument, Kit: flatTop.Kit})
		if err != nil {
			t.Fatal(err)
		}
		for n := range 120 {
			fact := r.onward(record)
			switch plan, err := record.StripPlan(); {
			case r.IntN(100) < int(seed%3)*20:
				fact = r.anything(record)
				if kit, is := fact.(Equipped); is {
					kit.Kit.Strips[r.IntN(MostKinds)] = Strip{Thick: r.maybe(0.05, 0.6), Ten: r.IntN(5) == 0, Count: pick(r, 0, 1, 3, -2)}
					fact = kit
				}
			case record.Step() == Choose && record.settled(Choose):
				wish := func(course int) Typed {
					may, _ := record.MayWish(course, false)
					return Write(may.Low+geometry.Length(0.4*r.Float64()), MM, geometry.Millimetre/100)
				}
				fact = Chosen{Bass: wish(0), Treble: wish(5)}
			case record.Step() == MakePlan && err == nil && plan.Outcome == StripGo:
				fact = Did{MakePlan}
			case record.Step() == Lay:
				fact = Shimmed{r.maybe(0, 1), r.maybe(0, 1)}
			}
			steps[record.Step()]++
			next, err := record.Apply(Event{Job: "j", Sequence: len(record.Events) + 1, Writer: "w", At: noon.Add(time.Duration(n) * time.Minute), Fact: fact})
			var refusal *Refusal
			if err != nil && !errors.As(err, &refusal) {
				t.Fatalf("seed %d: %T gives %v", seed, fact, err)
			}
			record = next
		}
		again, err := Replay(record.Events)
		if err != nil || printed(again) != printed(record) {
			t.Errorf("seed %d: read again %v\n%s\n%s", seed, err, printed(again), printed(record))
		}
	}
	for _, s := range append(Steps(RaiseByStrip), Finished) {
		if steps[s] == 0 {
			t.Errorf("none came to %s: %v", s, steps)
		}
	}
}

// A tenor ukulele that stands where it usually does: 2.40 to 2.80 mm, the middle of it 2.60. By a rule in 64ths (0.396875 mm) it reads 7/64 to 8/64, that is 2.778 to
// 3.175: a strip cannot lower it to 2.60, so no less is offered than 2.778, which is 0.110 in to the thousandth above, and that is taken.
func TestAStripIsNotWishedForLessThanThereIs(t *testing.T) {
	r := must(t, Record{}, Began{RaiseByStrip, Instrument{ID: "i", Family: geometry.UkuleleTenor}, Kit{Unit: Inch, Marks: Every64th, Zero: ZeroAtEnd}}, Answered{AskSaddle, SaddleLoose})
	for _, course := range []int{0, 3} {
		r = must(t, r, Read{String: course, Fret: 12, Way: ByMarks, Low: Typed{"7/64", Inch}, High: Typed{"8/64", Inch}})
	}
	r = must(t, r, Answered{AskStrings, StringsStay}, Did{Measure})
	for _, style := range []geometry.Style{geometry.StyleLight, geometry.StyleMixed, geometry.StyleHard} {
		wish := r.Wish(style, false)
		if wish.Bass.Text != "0.110" || wish.Treble.Text != "0.110" {
			t.Errorf("style %v: offered %s and %s", style, wish.Bass.Text, wish.Treble.Text)
		}
		if lower := r.Nudged(wish, -1, -1); lower.Bass != wish.Bass || lower.Treble != wish.Treble {
			t.Errorf("style %v: a step lower is %s and %s", style, lower.Bass.Text, lower.Treble.Text)
		}
		must(t, r, wish)
	}
}
