package words_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"gapwright/app/job"
	"gapwright/app/words"
	"gapwright/geometry"
)

var readers = map[job.Unit]words.Reader{job.MM: {Unit: job.MM}, job.Inch: {Unit: job.Inch}}

func TestEveryRefusedLengthHasASentenceOfItsOwn(t *testing.T) {
	for unit, r := range readers {
		seen := map[string]bool{}
		for _, k := range geometry.ParseKinds() {
			s := r.Error(&geometry.ParseError{Text: "x", Kind: k})
			if len(s) < 20 || seen[s] || !strings.HasSuffix(s, ".") {
				t.Errorf("%s, kind %d: %q", unit, k, s)
			}
			seen[s] = true
		}
	}
}

func TestEveryQuantityOutOfRangeSaysWhatWouldBeRight(t *testing.T) {
	general := readers[job.MM].Error(&geometry.RangeError{Quantity: "no such quantity", Got: 9, Min: 1, Max: 2})
	for _, q := range append(geometry.Quantities(), geometry.NeckQuantities()...) {
		s := readers[job.MM].Error(&geometry.RangeError{Quantity: q, Got: 9, Min: 1, Max: 2})
		if s == general || len(s) < 20 {
			t.Errorf("%s has no sentence: %q", q, s)
		}
	}
}

func TestEveryRefusalHasASentence(t *testing.T) {
	fallback := readers[job.MM].Error(errors.New("anything"))
	for _, k := range job.RefusalKinds() {
		s := readers[job.MM].Error(&job.Refusal{Kind: k, String: -1})
		if s == fallback || len(s) < 20 {
			t.Errorf("%s: %q", k, s)
		}
	}
	for _, err := range slices.Concat(geometry.Refusals(), geometry.NeckRefusals(), job.StringRefusals()) {
		if s := readers[job.MM].Error(err); s == fallback {
			t.Errorf("%v has no sentence", err)
		}
	}
}

func TestEveryAnswerHasALabelAndEveryStopSaysWhatToDo(t *testing.T) {
	for _, q := range job.Questions() {
		if a := words.Question(q, job.Kit{}); a.Title == "" || a.Lead == "" {
			t.Errorf("%s: %+v", q, a)
		}
		seen := map[string]bool{}
		for _, a := range q.Answers() {
			label := words.Answer(q, a)
			if label == "" || seen[label] {
				t.Errorf("%s, %s: label %q", q, a, label)
			}
			seen[label] = true
			title, text, stops := words.Stop(q, a)
			if stops != q.Stops(a) || stops && (title == "" || len(text) < 40) {
				t.Errorf("%s, %s: stop %v %q %q", q, a, stops, title, text)
			}
		}
	}
}

func TestEveryOutcomeIsNamed(t *testing.T) {
	r := readers[job.MM]
	for _, o := range job.PlanOutcomes() {
		if words.PlanTitle(o, 1) == "" || r.PlanLead(job.Plan{Outcome: o}, job.Instrument{}, job.Kit{}) == "" {
			t.Errorf("plan %s", o)
		}
	}
	for _, v := range geometry.Verdicts() {
		if words.Verdict(v) == "" {
			t.Errorf("verdict %d", v)
		}
	}
	for _, v := range geometry.CoachVerdicts() {
		if r.SandLead(job.Coach{Advice: geometry.Advice{Verdict: v}, Ready: true}, false) == "" {
			t.Errorf("coach %d", v)
		}
	}
	for _, k := range geometry.FindingKinds() {
		for _, s := range []geometry.Severity{geometry.Note, geometry.Caution, geometry.Refuse} {
			if r.Finding(geometry.Finding{Kind: k, Severity: s}) == "" {
				t.Errorf("finding %d, severity %d", k, s)
			}
		}
	}
	for _, s := range job.AllSteps() {
		if words.StepName(s) == words.StepName(job.Finished) {
			t.Errorf("step %s has no name", s)
		}
		if s.MaySkip() && words.Skip(s) == "" {
			t.Errorf("skipping %s does not say what is lost", s)
		}
	}
	for _, f := range geometry.Families() {
		if words.Family(f.ID) == "" {
			t.Errorf("family %s", f.ID)
		}
	}
	for _, m := range append(job.AllMarks(), job.NoRule) {
		if words.Marks(m) == words.Marks(job.MarksUnknown) {
			t.Errorf("rule %s", m)
		}
	}
	for _, z := range job.Zeros() {
		if words.Zero(z) == words.Zero(job.ZeroNotAsked) {
			t.Errorf("zero %s", z)
		}
	}
	for _, w := range job.Ways() {
		if words.Way(w) == "" {
			t.Errorf("way %s", w)
		}
	}
}

// 2.25 mm is 0.0886 in: 0.089 to the thousandth. 0.40 mm is 0.01575 in: 0.016, and rounded down 0.015.
func TestLengthsAreSaidInThePersonsUnit(t *testing.T) {
	mm, in := readers[job.MM], readers[job.Inch]
	for _, c := range []struct{ got, want string }{
		{mm.Length(2.25), "2.25\u00a0mm"},
		{in.Length(2.25), "0.089\u00a0in"},
		{mm.Down(0.449), "0.40\u00a0mm"},
		{in.Down(0.40), "0.015\u00a0in"},
		{mm.Span(geometry.Interval{Low: 0.5, High: 1}), "0.50 to 1.00\u00a0mm"},
		{mm.Span(geometry.Interval{Low: 0.51, High: 0.98}), "0.50 to 1.00\u00a0mm"},
		{mm.Typed(job.Typed{Text: "6/64", Unit: job.Inch}), "2.40\u00a0mm"}, // 2.38125
		{in.Typed(job.Typed{Text: "6/64", Unit: job.Inch}), "6/64\u00a0in"},
		{in.Reading(job.Read{Way: job.ByMarks, Low: job.Typed{Text: "6/64", Unit: job.Inch}, High: job.Typed{Text: "7/64", Unit: job.Inch}}), "6/64 to 7/64\u00a0in"},
		{mm.Reading(job.Read{Way: job.ByMarks, Low: job.Typed{Text: "2.25", Unit: job.MM}, High: job.Typed{Text: "2.50", Unit: job.MM}}), "2.25 to 2.50\u00a0mm"},
		{words.Strokes(1), "1 stroke"},
		{words.Strokes(12), "12 strokes"},
	} {
		if c.got != c.want {
			t.Errorf("said %q, want %q", c.got, c.want)
		}
	}
}
