package job

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"gapwright/geometry"
)

// turning compares one number or name of what is to be turned with a script's.
func (s *script) turning(words []string) error {
	plan, err := s.record.TurnPlan()
	if err != nil {
		return err
	}
	list := func(numbers []int) error {
		return sameWord(strings.Trim(fmt.Sprint(numbers), "[]"), strings.Join(words[1:], " "))
	}
	which := func() TurnedString {
		n := slices.IndexFunc(plan.Strings, func(t TurnedString) bool { return t.Course == course(words[1]) })
		return plan.Strings[n]
	}
	yes := func(is bool) error { return sameWord(map[bool]string{true: "yes", false: "no"}[is], words[1]) }
	switch words[0] {
	case "plan":
		return sameWord(string(plan.Outcome), words[1])
	case "eighths":
		return list(plan.Turns)
	case "order":
		return list(plan.Order)
	case "after":
		return sameRange(which().After, words[2])
	case "left":
		return same3(which().Left, words[2])
	case "raises":
		return yes(plan.Raises)
	case "follows":
		return yes(plan.Follows)
	case "pitch":
		pitch, err := s.record.Instrument.Turns.Pitch()
		return errors.Join(err, sameRange(pitch, words[1]))
	case "tried": // what the trial turn showed a whole turn to do
		seen, err := s.record.Tried()
		if errors.Is(err, geometry.ErrNoPitch) {
			return sameWord("nothing", words[1])
		}
		if err != nil {
			return err
		}
		pitch, err := seen.Pitch()
		return errors.Join(err, sameRange(pitch, words[1]))
	case "fitting":
		var ids []string
		for _, t := range s.record.Fitting() {
			ids = append(ids, string(t.ID))
		}
		return sameWord(strings.Join(ids, " "), strings.Join(words[1:], " "))
	}
	return errors.New("unknown check")
}

func turningJob(method Method, family geometry.FamilyID, turns Hardware) []Fact {
	return []Fact{Began{Method: method, Instrument: Instrument{ID: "i", Family: family, Turns: turns}, Kit: Kit{Unit: MM, Marks: EveryQuarter, Zero: ZeroAtEnd}},
		Answered{AskScrews, ScrewsFree}}
}

// Whatever is read and wished for, no string that was read can be under its floor once the plan is turned, for any truth in its reading and any pitch
// that the thread may have, and turning it twice as fine would bring none nearer than half an eighth.
func TestNothingIsTurnedUnderItsFloor(t *testing.T) {
	random := rand.New(rand.NewPCG(4, 12))
	planned := 0
	for range 400 {
		method, family := ByScrews, geometry.SolidBody
		if random.IntN(2) == 0 {
			method, family = ByPosts, geometry.Archtop
		}
		turns := Hardware{Turned: 16, Moved: Write(geometry.Length(0.8+0.6*random.Float64()), MM, 0.01), Give: Typed{"0.1", MM}}
		facts := turningJob(method, family, turns)
		own := random.IntN(2) == 0
		for course := range 6 {
			if course == 0 || course == 5 || random.IntN(2) == 0 {
				mark := 4 + random.IntN(8)
				kit := facts[0].(Began).Kit
				facts = append(facts, ReadByMarks(kit, facts[0].(Began).Instrument, course, mark))
			}
		}
		wish := func(floor float64) Typed { return Write(geometry.Length(floor+1.2*random.Float64()), MM, 0.05) }
		facts = append(facts, Answered{AskStrings, StringsStay}, Did{Measure}, Chosen{Bass: wish(1.8), Treble: wish(1.5), Own: own})
		r, err := apply(Record{}, facts...)
		if err != nil {
			t.Fatal(err)
		}
		plan, err := r.TurnPlan()
		if err != nil {
			t.Fatal(err)
		}
		if plan.Outcome != TurnGo {
			continue
		}
		planned++
		for _, s := range plan.Strings {
			if floor := r.Instrument.Floor(s.Course, own); s.Read && s.After.Low < floor-1e-6 {
				t.Errorf("%s: string %d may end at %v, under its floor of %v: %+v", method, s.Course, s.After.Low, floor, plan)
			}
		}
		if next, err := apply(r, Did{MakePlan}); err != nil || next.Step() != Turn {
			t.Errorf("the plan cannot be followed: %v", err)
		}
	}
	if planned < 300 {
		t.Errorf("only %d of 400 had something to turn", planned)
	}
}

// What was really turned is what is expected of the next reading; turned up, a string is expected higher.
func TestWhatIsTurnedIsExpected(t *testing.T) {
	facts := append(turningJob(ByScrews, geometry.SolidBody, Hardware{Thread: "m3"}), reading(0, "2.00"), reading(5, "1.20"), Answered{AskStrings, StringsStay},
		Did{Measure}, Chosen{Bass: Typed{"1.75", MM}, Treble: Typed{"1.45", MM}}, Did{MakePlan}, Answered{AskWayUp, WayUnsure})
	r, err := apply(Record{}, append(facts, Screwed{[]int{-8, 0, 0, 0, 0, 8}}, reading(0, "1.75"), reading(5, "1.45"))...)
	if err != nil {
		t.Fatal(err)
	}
	compared := r.Compare()
	if len(compared) != 2 || !compared[0].Meets || !compared[1].Meets || !r.Reached() {
		t.Errorf("a turn of 0.5 mm moves fret 12 by 0.25: %+v", compared)
	}
}

func TestHardwareThatCannotBe(t *testing.T) {
	in := func(s string) Typed { return Typed{s, MM} }
	for _, h := range []Hardware{{Apart: in("5")}, {Apart: in("wide")}, {Behind: in("61")}, {Rest: in("9")}, {Rest: in("20"), Behind: in("20")},
		{Turned: 8, Moved: in("0.1"), Give: in("0.2")}, {Turned: 8, Moved: in("9")}, {Turned: 8, Moved: in("much")}, {Turned: 8000, Moved: in("3")}} {
		if err := h.Check(); err == nil {
			t.Errorf("%+v is taken", h)
		}
	}
	for _, h := range []Hardware{{}, {Thread: "m3", Screws: 2}, {Thread: "of a later version"}, {Turned: 8, Moved: in("0.5")}, {Turned: -8, Moved: in("0.5"), Give: in("0.03")},
		{Apart: in("74"), Behind: in("12"), Rest: in("60")}} {
		if err := h.Check(); err != nil {
			t.Errorf("%+v: %v", h, err)
		}
	}
}

// Turns that cannot be are refused, at the plan and at the work.
func TestTurnsThatCannotBe(t *testing.T) {
	facts := append(turningJob(ByScrews, geometry.SolidBody, Hardware{Thread: "m3"}), reading(0, "2.00"), reading(5, "1.80"), Answered{AskStrings, StringsStay},
		Did{Measure}, Chosen{Bass: Typed{"1.75", MM}, Treble: Typed{"1.50", MM}})
	for _, trial := range [][]int{{8, 8, 0, 0, 0, 0}, {0, 8, 0, 0, 0, 0}, {0, 0, 0, 0, 0, 0}, {8}} {
		if r, err := apply(Record{}, append(slices.Clip(facts), Screwed{trial})...); err == nil {
			t.Errorf("a trial of %v leads to %s", trial, r.Step())
		}
	}
	facts = append(facts, Did{MakePlan})
	if _, err := apply(Record{}, append(slices.Clip(facts), Screwed{make([]int, 6)})...); err == nil {
		t.Error("it was not said which way lifts")
	}
	facts = append(facts, Answered{AskWayUp, WayClockwise})
	for _, turned := range [][]int{{-8, 0, 0, 0, 0}, {-81, 0, 0, 0, 0, 0}, {0, 0, 0, 0, 0, 81}} {
		if _, err := apply(Record{}, append(slices.Clip(facts), Screwed{turned})...); err == nil {
			t.Errorf("%v is taken", turned)
		}
	}
}

// A job by screws or posts of any facts, likely and unlikely, is taken or refused in kind, read again from its events it is the same, and it comes to every
// step.
func TestAnyOrderOfFactsByTurning(t *testing.T) {
	for _, method := range []Method{ByScrews, ByPosts} {
		steps := map[Step]int{}
		told := func(r Record) string {
			turned := ""
			for n := range r.Rounds {
				if s := r.Rounds[n].Turned; s != nil {
					turned += fmt.Sprint(n, s.Eighths)
				}
			}
			r.state = r.state.clone()
			for n := range r.Rounds {
				r.Rounds[n].Turned = nil
			}
			return turned + printed(r)
		}
		for seed := range uint64(60) {
			r := newRandomizer(seed, 41)
			began := Began{Method: method, Instrument: Instrument{ID: "i", Family: geometry.SolidBody}, Kit: flatTop.Kit}
			record, err := apply(Record{}, began)
			if err != nil {
				t.Fatal(err)
			}
			turns := func(most int) Screwed {
				f := Screwed{}
				for range record.turnable() + pick(r, 0, 0, 0, 0, 0, 0, 1) {
					f.Eighths = append(f.Eighths, r.IntN(2*most+1)-most)
				}
				return f
			}
			for n := range 120 {
				fact := r.onward(record)
				switch plan, err := record.TurnPlan(); {
				case r.IntN(100) < int(seed%3)*20:
					if fact = r.anything(record); r.IntN(8) == 0 {
						fact = turns(90)
					}
				case record.Step() == Choose && record.settled(Choose):
					wish := func(course int) Typed {
						may, _ := record.MayWish(course, false)
						return Write(may.Low+geometry.Length(0.4*r.Float64()), MM, geometry.Millimetre/100)
					}
					fact = Chosen{Bass: wish(0), Treble: wish(5)}
				case record.Step() == MakePlan && err == nil && plan.Outcome == TurnGo:
					fact = Did{MakePlan}
				case record.Step() == MakePlan && err == nil && plan.Outcome == TurnThread:
					i := record.Instrument
					i.Turns = pick(r, Hardware{Thread: "m3"}, Hardware{Thread: "m5", Apart: r.maybe(40, 90), Rest: r.maybe(20, 60)}, Hardware{Turned: 8, Moved: r.length(0.2, 2)})
					fact = pick[Fact](r, Described{i}, record.Trial(pick(r, 8, 16, -8)), record.Trial(0))
				case record.Step() == Turn && record.settled(Turn):
					fact = turns(12)
				}
				steps[record.Step()]++
				before := told(record)
				next, err := record.Apply(Event{Job: "j", Sequence: len(record.Events) + 1, Writer: "w", At: noon.Add(time.Duration(n) * time.Minute), Fact: fact})
				var refusal *Refusal
				if err != nil && !errors.As(err, &refusal) {
					t.Fatalf("seed %d: %T gives %v", seed, fact, err)
				}
				if told(record) != before {
					t.Fatalf("seed %d: %T changed what it was applied to", seed, fact)
				}
				record = next
			}
			again, err := Replay(record.Events)
			if err != nil || told(again) != told(record) {
				t.Errorf("seed %d: read again %v\n%s\n%s", seed, err, told(again), told(record))
			}
		}
		for _, s := range append(Steps(method), Finished) {
			if steps[s] == 0 {
				t.Errorf("%s: none came to %s: %v", method, s, steps)
			}
		}
	}
}
