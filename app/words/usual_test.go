package words_test

import (
	"strings"
	"testing"

	"gapwright/app/job"
	"gapwright/app/words"
	"gapwright/geometry"
)

// Every number has a label of its own within its group, every group a name of its own, in both units; what cannot be names the other number and what it is.
func TestUsualIsSaid(t *testing.T) {
	names := map[string]bool{}
	for _, p := range job.WontParts() {
		if name := words.WontPart(p); name == "" || names[name] {
			t.Errorf("part %d is called %q", p, name)
		} else {
			names[name] = true
		}
		labels := map[string]bool{}
		for _, f := range p.Fields() {
			label := readers[job.MM].WontLabel(f, 1.3)
			if labels[label] {
				t.Errorf("two numbers are called %q", label)
			}
			labels[label] = true
			for unit, r := range readers { // every number beside every other, passed either way
				for _, over := range []bool{false, true} {
					said := r.Error(&job.WontError{Field: f, Other: f, Than: 1.3, Over: over})
					if want := map[job.Unit]string{job.MM: ", 1.30\u00a0mm. ", job.Inch: ", 0.051\u00a0in. "}[unit]; len(said) < 40 || !strings.Contains(said, want) {
						t.Errorf("%+v: %q", f, said)
					}
				}
			}
		}
	}
	mm := readers[job.MM]
	for _, c := range []struct {
		err  error
		want string
	}{
		{&job.WontError{Field: job.WontField{Part: job.WontRelief}, Cause: &geometry.RangeError{Quantity: geometry.QuantityRelief, Got: 2, Max: 1}}, "A usual relief lies between 0.00 and 1.00\u00a0mm."},
		{&job.WontError{Field: job.WontField{Part: job.WontFloor}, Cause: &geometry.RangeError{Quantity: geometry.QuantityTarget, Got: 9, Min: 0.5, Max: 8}}, "A floor lies between 0.50 and 8.00\u00a0mm."},
		{&job.WontError{Cause: &geometry.ParseError{Kind: geometry.ParseNegative}}, "A length cannot be below zero. Leave out the minus sign."},
	} {
		if got := mm.Error(c.err); got != c.want {
			t.Errorf("says %q, want %q", got, c.want)
		}
	}
}
