package job

import (
	"encoding/json"
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
	if err != nil || p.Outcome != PlanGo {
		t.Fatalf("plan = %+v, %v", p, err)
	}
	data, err := json.Marshal(events)
	if err != nil {
		t.Fatal(err)
	}
	var back []Event
	if err := json.Unmarshal(data, &back); err != nil {
		t.Fatal(err)
	}
	t.Logf("%s", data)
	t.Logf("%+v", p)
}
