package words_test

import (
	"errors"
	"regexp"
	"slices"
	"testing"

	"gapwright/app/job"
	"gapwright/app/words"
	"gapwright/geometry"
)

// blanks are new saddles of which more and less is known.
func blanks() []job.Making {
	known := geometry.NewSaddle{Known: true, Strings: make([]geometry.CrownPoint, 6), Radius: 400}
	low := known
	low.Found = []geometry.Finding{{Severity: geometry.Refuse}}
	return []job.Making{{NewSaddle: geometry.NewSaddle{Strings: known.Strings}}, {NewSaddle: known}, {NewSaddle: known, Whole: true}, {NewSaddle: low},
		{NewSaddle: known, Whole: true, Sized: true, Fits: true, Shaped: true}, {NewSaddle: geometry.NewSaddle{Known: true, Strings: known.Strings}, Shaped: true}}
}

func TestEveryPartOfANewSaddleIsToldInThePersonsUnit(t *testing.T) {
	for unit, r := range readers {
		foreign := regexp.MustCompile(`\d[ \x{a0}]?mm\b|millimetre`)
		if unit == job.MM {
			foreign = regexp.MustCompile(`\d[ \x{a0}]?(in|thou)\b|\d"|inch`)
		}
		i := geometry.Interval{Low: 2, High: 3}
		said := []string{r.BlankHeight("String 2", geometry.CrownPoint{Height: i}), r.BlankAbove("String 2", geometry.CrownPoint{Above: 1}), r.BlankStands("Bass string", i),
			r.BlankEnd(0, geometry.CrownPoint{Height: i}), r.BlankLength(i), r.BlankThickness(i), r.CheckLine(100), r.CheckLine(50), r.PaperCheck(100)}
		said = slices.Concat(said, r.LifeMore(0.5), r.LifeMore(0))
		for _, m := range blanks() {
			if words.BlankTitle(m) == "" || words.PaperHeights(m) == "" {
				t.Errorf("%+v has no title", m)
			}
			said = append(said, r.BlankLead(m), r.BlankAcross(m))
			for _, s := range geometry.BlankSteps() {
				said = append(said, r.BlankDo(s, m))
			}
		}
		for _, s := range said {
			if len(s) < 10 || foreign.MatchString(s) {
				t.Errorf("%s reads %q", unit, s)
			}
		}
	}
	// 100 mm are 3.937 in, 50 are 1.9685
	for got, want := range map[string]string{readers[job.MM].CheckLine(50): "This line is 50\u00a0mm long", readers[job.Inch].CheckLine(100): "This line is 3.937\u00a0in long",
		readers[job.Inch].PaperCheck(50): "Measure the check line; if it is not 1.969\u00a0in, print at 100\u00a0%."} {
		if got != want {
			t.Errorf("said %q, want %q", got, want)
		}
	}
}

func TestEveryPartOfANewSaddleHasAName(t *testing.T) {
	names := map[string]bool{}
	for _, s := range geometry.BlankSteps() {
		name := words.BlankStep(s)
		if name == "" || names[name] {
			t.Errorf("%s is called %q", s, name)
		}
		names[name] = true
	}
	across := map[string]bool{}
	for _, a := range job.AcrossAll() {
		across[words.Across(a)] = true
	}
	if len(across) != len(job.AcrossAll()) {
		t.Errorf("boards are called %v", across)
	}
	r := readers[job.MM]
	for _, f := range []struct {
		fact job.Slotted
		want string
	}{
		{job.Slotted{}, "Slot: not measured"},
		{job.Slotted{Across: job.AcrossFlat}, "Slot: not measured; board: flat"},
		{job.Slotted{Length: job.Typed{Text: "72", Unit: job.MM}, Depth: job.Typed{Text: "8,5", Unit: job.MM}}, "Slot, 72\u00a0mm long, 8,5\u00a0mm deep"},
		{job.Slotted{Bass: job.Typed{Text: "11", Unit: job.MM}, Treble: job.Typed{Text: "10", Unit: job.MM}}, "Slot: not measured; old saddle 11\u00a0mm bass, 10\u00a0mm treble, in all"},
	} {
		if got := r.Fact(job.Instrument{Family: geometry.FlatTop6}, f.fact); got != f.want {
			t.Errorf("told as %q, want %q", got, f.want)
		}
	}
	for _, q := range geometry.BlankQuantities() {
		if r.Error(&geometry.RangeError{Quantity: q, Got: 9, Min: 1, Max: 2}) == r.Error(&geometry.RangeError{Quantity: "no such quantity", Got: 9, Min: 1, Max: 2}) {
			t.Errorf("%s has no sentence", q)
		}
	}
	for _, err := range geometry.BlankRefusals() {
		if r.Error(err) == r.Error(errors.New("anything")) {
			t.Errorf("%v has no sentence", err)
		}
	}
}
