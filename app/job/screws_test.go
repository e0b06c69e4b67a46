package job

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

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
