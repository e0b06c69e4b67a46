package job

import (
	"testing"
	"time"
)

var noon = time.Date(2026, 3, 4, 12, 0, 0, 0, time.UTC)

// The worked example: bass read 2.75 to 3.00, wanted 2.30; treble 2.00 to 2.25, wanted 1.80; a first round stops half-way.
func TestTheWorkedExampleHasAPlan(t *testing.T) {
	_, events := Example("i", "j", "w", "Example", noon)
	r, err := Replay(events)
	if err != nil {
		t.Fatal(err)
	}
	if r.Step() != MakePlan {
		t.Errorf("step = %s, want %s", r.Step(), MakePlan)
	}
	p, err := r.Plan()
	if err != nil || p.Outcome != PlanGo || !p.HalfWay {
		t.Fatalf("plan = %+v, %v", p, err)
	}
	// Half of (2.75 − 2.30)/½ and of (2.00 − 1.80)/½ at the strings, 0.45 and 0.20, are 0.4917 and 0.1583 at the ends; rounded down to twentieths.
	if abs(p.Drawn.Bass-0.45) > 1e-9 || abs(p.Drawn.Treble-0.15) > 1e-9 {
		t.Errorf("stop line %v and %v, want 0.45 and 0.15", p.Drawn.Bass, p.Drawn.Treble)
	}
}
