package job

import (
	"errors"
	"reflect"
	"slices"
	"testing"
	"time"

	"gapwright/geometry"
)

func TestEveryQuestionHasAStepAndAnswers(t *testing.T) {
	for _, q := range Questions() {
		somewhere := false
		for _, m := range Methods() {
			back, asks := m.Asks(q.Step())
			somewhere = somewhere || asks && back == q
		}
		if !somewhere {
			t.Errorf("%s is asked by no method at %q", q, q.Step())
		}
		answers := q.Answers()
		goOn := slices.ContainsFunc(answers, func(a Answer) bool { return !q.Stops(a) })
		if len(answers) < 2 || !goOn || q.Stops(answers[0]) {
			t.Errorf("%s has answers %v: at least two, the first of them letting the work go on", q, answers)
		}
		for _, a := range answers {
			if !q.allows(a) {
				t.Errorf("%s does not allow %s", q, a)
			}
		}
	}
	if len(questions) != len(Questions()) {
		t.Errorf("%d questions are listed, %d are known", len(Questions()), len(questions))
	}
	if q := Question("weather"); q.Step() != "" || q.Answers() != nil || q.allows("") {
		t.Errorf("an unknown question is taken for one")
	}
}

// Every kind of fact that there is comes back from its document, and no two share a name.
func TestEveryFactHasANameOfItsOwn(t *testing.T) {
	facts := []Fact{Began{}, Equipped{}, Described{}, Answered{}, Read{}, Surveyed{}, Listened{}, Adjusted{}, LeftAlone{}, Slotted{}, Made{}, Strung{}, Stood{}, Chosen{}, Did{}, Skipped{}, Checked{}, Looked{}, Judged{},
		Shimmed{}, Noted{}, Saved{}, PutAway{}, Undone{}}
	names := map[string]bool{}
	for _, f := range facts {
		if names[f.kind()] {
			t.Errorf("two facts are called %s", f.kind())
		}
		names[f.kind()] = true
		back, err := readFact(f.kind(), []byte("{}"))
		if err != nil || reflect.TypeOf(back) != reflect.TypeOf(f) {
			t.Errorf("%s comes back as %T, %v", f.kind(), back, err)
		}
	}
}

// apply adds facts a minute apart and stops at the first that is refused.
func apply(r Record, facts ...Fact) (Record, error) {
	for _, f := range facts {
		next, err := r.Apply(Event{Job: "j", Sequence: len(r.Events) + 1, Writer: "w", At: noon.Add(time.Duration(len(r.Events)) * time.Minute), Fact: f})
		if err != nil {
			return r, err
		}
		r = next
	}
	return r, nil
}

func reading(course int, mm string) Read {
	return Read{String: course, Fret: 12, Way: ByCaliper, Low: Typed{mm, MM}}
}

var flatTop = Began{Method: SandUnderside, Instrument: Instrument{ID: "i", Family: geometry.FlatTop6}, Kit: Kit{Unit: MM, Marks: EveryQuarter, Zero: ZeroAtEnd}}

// The facts that lead to each step by the shortest way.
var (
	toMeasure = []Fact{flatTop, Answered{AskSaddle, SaddleLoose}}
	toChoose  = append(slices.Clip(toMeasure), Answered{AskStrings, StringsStay}, reading(0, "2.8"), reading(5, "2.2"), Did{Measure})
	toPlan    = append(slices.Clip(toChoose), Answered{AskBuzz, BuzzNone}, Chosen{Bass: Typed{"2.3", MM}, Treble: Typed{"1.8", MM}})
	toTakeOut = append(slices.Clip(toPlan), Answered{AskRoom, RoomFine}, Did{MakePlan})
	toMark    = append(slices.Clip(toTakeOut), Answered{AskUnder, UnderClear}, Did{TakeOut})
	toSand    = append(slices.Clip(toMark), Answered{AskFollow, FollowPencil}, Did{Mark})
	toAgain   = append(slices.Clip(toSand), Looked{9, Touched, Touched, Touched}, Did{Sand}, Skipped{Smooth}, Answered{AskSeat, SeatFlat}, Did{Seat},
		Answered{AskStrung, StrungSame}, Did{StringUp})
	toSave = append(slices.Clip(toAgain), reading(0, "2.7"), reading(5, "2.1"), Judged{Keep})
)

func TestEveryRefusalCanBeReached(t *testing.T) {
	far := reading(0, "2.8")
	far.Fret = 14
	cases := map[RefusalKind][]Fact{
		RefusedEnded:        append(slices.Clip(toMeasure), PutAway{}, Noted{"late"}),
		RefusedNotBegun:     {Noted{"early"}},
		RefusedBegunTwice:   {flatTop, flatTop},
		RefusedNotYet:       append(slices.Clip(toMeasure), Did{Sand}),
		RefusedStopped:      append(slices.Clip(toPlan), Answered{AskRoom, RoomWet}, Did{MakePlan}),
		RefusedNothingToCut: append(slices.Clip(toPlan), reading(0, "2.79"), Chosen{Bass: Typed{"2.8", MM}, Treble: Typed{"2.2", MM}}, Answered{AskRoom, RoomFine}, Did{MakePlan}),
		RefusedMaterialGone: append(slices.Clip(toSand), Looked{5, Clear, Clear, Clear}, Undone{len(toSand) + 1}),
		RefusedNoUndo:       append(slices.Clip(toMeasure), Undone{1}),
		RefusedString:       append(slices.Clip(toMeasure), reading(6, "2.8")),
		RefusedReading:      append(slices.Clip(toMeasure), reading(0, "25")),
		RefusedContradicts:  append(slices.Clip(toMeasure), reading(0, "2.8"), reading(0, "2.9")),
		RefusedTargetHigh:   append(slices.Clip(toChoose), Chosen{Bass: Typed{"2.9", MM}, Treble: Typed{"1.8", MM}}),
		RefusedTargetFloor:  append(slices.Clip(toChoose), Chosen{Bass: Typed{"1.9", MM}, Treble: Typed{"1.8", MM}}),
		RefusedTargetText:   append(slices.Clip(toChoose), Chosen{Bass: Typed{"low", MM}, Treble: Typed{"1.8", MM}}),
		RefusedUnproven:     append(slices.Clip(toAgain), reading(0, "2.7"), reading(5, "2.1"), Judged{Done}),
		RefusedSkip:         append(slices.Clip(toSand), Skipped{Sand}),
		RefusedAnswer:       {flatTop, Answered{AskSaddle, "painted"}},
		RefusedUnanswered:   append(slices.Clip(toPlan), Did{MakePlan}),
		RefusedCheck:        append(slices.Clip(toSand), Looked{-1, Clear, Clear, Clear}),
		RefusedPlace:        append(slices.Clip(toMeasure), far),
		RefusedProfile:      {Began{Method: SandUnderside, Instrument: Instrument{ID: "i", Family: "lyre"}}},
		RefusedUnknown:      {Began{Method: "carve", Instrument: flatTop.Instrument}},
		RefusedSequence:     nil, // below
		RefusedStale:        nil,
	}
	for _, kind := range RefusalKinds() {
		facts, listed := cases[kind]
		if !listed {
			t.Errorf("nothing here reaches %s", kind)
			continue
		}
		if facts == nil {
			continue
		}
		r, err := apply(Record{}, facts...)
		var refusal *Refusal
		if !errors.As(err, &refusal) || refusal.Kind != kind || len(r.Events) != len(facts)-1 {
			t.Errorf("%s: %v after %d of %d facts", kind, err, len(r.Events), len(facts))
		}
	}
	r, err := apply(Record{}, toPlan...)
	if err != nil {
		t.Fatal(err)
	}
	r, _ = apply(r, Answered{AskRoom, RoomFine})
	for kind, e := range map[RefusalKind]Event{
		RefusedSequence: {Job: "j", Sequence: len(r.Events), At: noon, Fact: Did{MakePlan}},
		RefusedStale:    {Job: "j", Sequence: len(r.Events) + 1, At: noon.Add(25 * time.Hour), Fact: Did{MakePlan}},
	} {
		var refusal *Refusal
		if _, err := r.Apply(e); !errors.As(err, &refusal) || refusal.Kind != kind {
			t.Errorf("%s: %v", kind, err)
		}
	}
}

func TestTheShortestWayLeadsToEachStep(t *testing.T) {
	for want, facts := range map[Step][]Fact{Measure: toMeasure, Choose: toChoose, MakePlan: toPlan, TakeOut: toTakeOut, Mark: toMark, Sand: toSand,
		MeasureAgain: toAgain, Save: toSave} {
		r, err := apply(Record{}, facts...)
		if err != nil || r.Step() != want {
			t.Errorf("leads to %s, want %s: %v", r.Step(), want, err)
		}
	}
}

// The same job in inches, each length as 1/1000 of an inch can say it and converted exactly, leads to the same plan.
func TestInchEntryGivesTheSamePlan(t *testing.T) {
	plan := func(facts []Fact) Plan {
		r, err := apply(Record{}, facts...)
		if err != nil {
			t.Fatal(err)
		}
		p, err := r.Plan()
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	job := func(unit Unit, lengths ...string) []Fact {
		marks := func(course int, low, high string) Read {
			return Read{String: course, Fret: 12, Way: ByMarks, Low: Typed{low, unit}, High: Typed{high, unit}}
		}
		return append(slices.Clip(toMeasure), Answered{AskStrings, StringsStay}, marks(0, lengths[0], lengths[1]), marks(5, lengths[2], lengths[3]), Did{Measure},
			Answered{AskBuzz, BuzzNone}, Chosen{Bass: Typed{lengths[4], unit}, Treble: Typed{lengths[5], unit}})
	}
	// 0.100 in = 2.54 mm, 0.110 = 2.794, 0.080 = 2.032, 0.090 = 2.286, 0.085 = 2.159, 0.070 = 1.778
	inch := plan(job(Inch, "0.100", ".110", "80 thou", "0.09", "0,085", "70 thou"))
	mm := plan(job(MM, "2.54", "2.794", "2,032", "2.286 mm", "2.159", "1.778"))
	if inch.Outcome != PlanGo || inch.Outcome != mm.Outcome {
		t.Fatalf("%s and %s", inch.Outcome, mm.Outcome)
	}
	for i := range mm.Strings {
		for _, pair := range [][2]geometry.Length{
			{inch.Strings[i].Whole.Low, mm.Strings[i].Whole.Low}, {inch.Strings[i].Whole.High, mm.Strings[i].Whole.High},
			{inch.Strings[i].After.Low, mm.Strings[i].After.Low}, {inch.Strings[i].After.High, mm.Strings[i].After.High},
			{inch.Drawn.Bass, mm.Drawn.Bass}, {inch.Drawn.Treble, mm.Drawn.Treble},
		} {
			if d := abs(pair[0] - pair[1]); d > 1e-9 {
				t.Errorf("string %d: %v and %v differ by %v", i, pair[0], pair[1], d)
			}
		}
	}
}

// A fact that only a newer version knows is told apart from damage, and nothing is guessed of a unit that is not known.
func TestNewerFactsAreToldApart(t *testing.T) {
	var refusal *Refusal
	var e Event
	err := e.UnmarshalJSON([]byte(`{"job":"j","seq":3,"by":"w","at":"2026-03-04T12:00:00Z","fact":"bowed","what":{"turns":2}}`))
	if !errors.As(err, &refusal) || refusal.Kind != RefusedUnknown {
		t.Errorf("a newer fact gives %v", err)
	}
	if err := e.UnmarshalJSON([]byte(`{"job":"j","seq":"three"}`)); err == nil || errors.As(err, &refusal) && refusal == nil {
		t.Errorf("a damaged fact gives %v", err)
	}
	if l, err := (Typed{"2", "cubit"}).Length(); err == nil {
		t.Errorf("2 cubits are %v", l)
	}
}

func TestMergeKeepsWhatBothDidAndNeverRevivesWhatWasTakenBack(t *testing.T) {
	base, err := apply(Record{}, toMeasure...)
	if err != nil {
		t.Fatal(err)
	}
	n := len(base.Events)
	must := func(facts ...Fact) []Event {
		r, err := apply(base, facts...)
		if err != nil {
			t.Fatal(err)
		}
		return r.Events
	}
	kinds := func(events []Event) string {
		text := ""
		for _, e := range events {
			text += e.Fact.kind() + " "
		}
		return text
	}
	theirs := must(reading(0, "2.8"), Noted{"theirs"})
	for _, c := range []struct {
		name         string
		ours         []Event
		theirs       []Event
		merged, left string
	}{
		{"equal", theirs, theirs, "read noted ", ""},
		{"ours went on, with an undo", must(reading(0, "2.8"), Noted{"theirs"}, Undone{n + 2}), theirs, "read noted undone ", ""},
		{"theirs went on", must(reading(0, "2.8")), theirs, "read noted ", ""},
		{"parted", must(reading(0, "2.8"), reading(5, "2.2")), theirs, "read noted read ", ""},
		{"ours took its own back", must(reading(5, "2.2"), Undone{n + 1}, Noted{"ours"}), theirs, "read noted noted ", ""},
		{"ours took back what both had", must(Undone{n}), theirs, "read noted ", "undone "},
		{"ours contradicts", must(reading(0, "2.9")), theirs, "read noted ", "read "},
	} {
		merged, left, err := Merge(c.ours, c.theirs)
		if err != nil || kinds(merged[n:]) != c.merged || kinds(left) != c.left {
			t.Errorf("%s: %v merged, %v left, %v", c.name, kinds(merged[n:]), kinds(left), err)
		}
		if again, _, err := Merge(c.ours, merged); err != nil || len(again) != len(merged) {
			t.Errorf("%s: merged again %d events became %d, %v", c.name, len(merged), len(again), err)
		}
		if _, err := Replay(merged); err != nil {
			t.Errorf("%s: the joined list is no job: %v", c.name, err)
		}
	}
}
