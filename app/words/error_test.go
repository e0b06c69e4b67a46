package words_test

import (
	"strings"
	"testing"

	"gapwright/app/job"
	"gapwright/geometry"
)

// A refusal says what it means, not only which number was out; where it means nothing more its cause is said.
func TestARefusalSaysMoreThanItsCause(t *testing.T) {
	low := &geometry.RangeError{Quantity: geometry.QuantityTarget, Got: 1.5, Min: 2, Max: 15}
	high := &geometry.RangeError{Quantity: geometry.QuantityTarget, Got: 3.5, Max: 3}
	for _, c := range []struct {
		kind       job.RefusalKind
		cause      error
		want, inch string
	}{
		{job.RefusedTargetFloor, low, "Under 2.00\u00a0mm this string is likely to buzz.", "Under 0.079\u00a0in this string is likely to buzz."},
		{job.RefusedTargetHigh, high, "sanding only lowers", "sanding only lowers"},
		{job.RefusedTargetText, low, "That height cannot be wanted. It should lie between 2.00\u00a0mm and 15.00\u00a0mm.", "It should lie between 0.079\u00a0in and 0.590\u00a0in."},
		{job.RefusedNothingToCut, geometry.ErrOutsideSaddle, "further apart than the saddle is long", "further apart than the saddle is long"},
		{job.RefusedNothingToCut, nil, "Nothing here can safely be done", "Nothing here can safely be done"},
	} {
		refusal := &job.Refusal{Kind: c.kind, Cause: c.cause}
		if got := readers[job.MM].Error(refusal); !strings.Contains(got, c.want) {
			t.Errorf("%s: %q, want %q", c.kind, got, c.want)
		}
		if got := readers[job.Inch].Error(refusal); !strings.Contains(got, c.inch) {
			t.Errorf("%s in inches: %q, want %q", c.kind, got, c.inch)
		}
	}
}
