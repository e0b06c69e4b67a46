package words_test

import (
	"errors"
	"regexp"
	"strings"
	"testing"

	"gapwright/app/job"
	"gapwright/app/words"
	"gapwright/geometry"
)

func TestEveryOutcomeOfStripsIsSaidInThePersonsUnit(t *testing.T) {
	for unit, r := range readers {
		foreign := regexp.MustCompile(`\d[ \x{a0}]?mm\b|millimetre`)
		if unit == job.MM {
			foreign = regexp.MustCompile(`\d[ \x{a0}]?in\b|inch`)
		}
		kit := job.Kit{Unit: unit, Strips: [job.MostKinds]job.Strip{{Thick: job.Typed{Text: "2.9", Unit: job.MM}, Ten: true, Count: 3}}}
		plan := job.StripPlan{Thick: [2]geometry.Length{1.2, 0.9}, Strings: make([]job.PlannedString, 2)}
		said := []string{r.StripsAsk(plan).Lead, r.Then(plan), words.MayLean(), r.StripThick(kit.Strips[0]), words.StripCount(kit.Strips[0]), words.SeatDepthAsk().Lead,
			r.StandsOn(0, geometry.OnShim{Exposure: geometry.Interval{Low: 3, High: 4}, Depth: geometry.Exactly(3)}),
			r.Error(&geometry.RangeError{Quantity: geometry.QuantityShim, Got: 9, Min: 0.05, Max: 2})}
		for _, o := range job.StripOutcomes() {
			plan.Outcome = o
			title, lead := words.StripPlanTitle(o), r.StripLead(plan, kit)
			if title == "" || len(lead) < 20 {
				t.Errorf("%s, %s: %q %q", unit, o, title, lead)
			}
			said = append(said, lead)
		}
		plan.Known, plan.Laying = true, geometry.Laying{Even: geometry.Pile{Counts: []int{2, 0, 0, 0}, Leaves: 2}}
		said = append(said, r.Pile(plan, kit), r.ToHand(kit, plan.Laying.Even))
		if !strings.HasPrefix(said[len(said)-2], "2\u00a0×\u00a0") || strings.Contains(said[len(said)-2], "third") {
			t.Errorf("an even pile reads %q", said[len(said)-2])
		}
		plan.Laying.Strip, plan.Laying.Side = geometry.Pile{Counts: []int{1, 0, 0, 0}, Leaves: 1}, geometry.TrebleSide
		if text := r.Pile(plan, kit); !strings.Contains(text, "a third as long") || !strings.Contains(text, words.Side(1)) {
			t.Errorf("a stepped pile reads %q", text)
		}
		said = append(said, strings.Join(r.LayAsk(plan, kit).More, " "), r.LayAsk(plan, kit).Lead)
		for _, s := range said {
			if s == "" || foreign.MatchString(s) {
				t.Errorf("%s reads %q", unit, s)
			}
		}
	}
	general, fallback := readers[job.MM].Error(&geometry.RangeError{Quantity: "no such quantity", Got: 9, Min: 1, Max: 2}), readers[job.MM].Error(errors.New("anything"))
	for _, q := range []geometry.Quantity{geometry.QuantityShim, geometry.QuantityPart, geometry.QuantityLeaves} {
		if s := readers[job.MM].Error(&geometry.RangeError{Quantity: q, Got: 9, Min: 1, Max: 2}); s == general {
			t.Errorf("%s has no sentence", q)
		}
	}
	if s := readers[job.MM].Error(geometry.ErrNoPile); s == fallback {
		t.Error("a pile that cannot be has no sentence")
	}
	for _, a := range job.AskUnder.Answers() {
		if warns := words.LayCaution(a) != ""; warns != (a == job.UnderPickup || a == job.UnderUnsure || a == job.UnderShim) {
			t.Errorf("laying over %s warns: %v", a, warns)
		}
	}
}
