package view

import (
	"slices"
	"testing"

	"gapwright/app/job"
)

// The rehearsal goes through every step of the main job, and each of its facts is taken.
func TestTheRehearsalGoesThroughTheWholeJob(t *testing.T) {
	r := newRehearsal()
	var steps []job.Step
	for r.next() {
		if len(r.app.problem) > 0 {
			t.Errorf("problems %v", r.app.problem)
		}
		if record, ok := r.app.desk.Job(r.app.id); ok {
			if step := record.Step(); !slices.Contains(steps, step) {
				steps = append(steps, step)
			}
		}
	}
	want := slices.DeleteFunc(job.Steps(job.SandUnderside), func(s job.Step) bool { return s == job.Diagnose }) // nothing is wrong with its neck
	if want = append(want, job.Finished); !slices.Equal(steps, want) {
		t.Errorf("steps %v, want %v", steps, want)
	}
}
