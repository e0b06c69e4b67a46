package words_test

import (
	"regexp"
	"strings"
	"testing"

	"gapwright/app/job"
	"gapwright/app/words"
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

// An example is of the size that is asked for, can be typed as it stands, and is given once.
func TestAFieldGivesAnExampleOfItsSizeOnce(t *testing.T) {
	for unit, r := range readers {
		for size, between := range map[words.Size][2]geometry.Length{words.GapSize: {2, 2.5}, words.LeafSize: {0.2, 0.3}, words.StandSize: {3, 4}, words.HeightSize: {8, 9},
			words.LengthSize: {70, 75}, words.RadiusSize: {390, 410}} {
			_, err := job.Typed{Text: "x,y", Unit: unit}.Length()
			said := r.FieldError(err, size, false)
			text, found := strings.CutPrefix(said, "That is not a number. Type a length such as ")
			if !found {
				t.Fatalf("%q", said)
			}
			for _, example := range regexp.MustCompile(", | or ").Split(strings.TrimSuffix(text, "."), -1) {
				if l, err := (job.Typed{Text: example, Unit: unit}).Length(); err != nil || l < between[0] || l > between[1] {
					t.Errorf("%s: %q is %v, %v, want %v", unit, example, l, err, between)
				}
			}
			if got := r.FieldError(err, size, true); got != "That is not a number." {
				t.Errorf("again: %q", got)
			}
		}
	}
}
