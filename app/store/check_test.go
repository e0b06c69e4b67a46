package store

import (
	"slices"
	"testing"
	"time"

	"gapwright/app/job"
	"gapwright/geometry"
)

// Half a check is at hand like any job; when both strings are read its text lives in the journal alone, and it may still be told more, corrected and
// taken back. The heights as set stay what they were.
func TestACheckThatIsOverLivesInTheJournalAlone(t *testing.T) {
	device := NewDevice()
	read := func(course int, low, high string) job.Read {
		return job.Read{String: course, Fret: 12, Way: job.ByMarks, Low: job.Typed{Text: low, Unit: job.MM}, High: job.Typed{Text: high, Unit: job.MM}}
	}
	d := shop(device, "a")
	i, err := d.PutInstrument(job.Instrument{ID: "i", Family: geometry.FlatTop6,
		AsSet: &job.AsSet{Job: "set", At: time.Now().Add(-time.Hour), Readings: []job.Read{read(0, "2.25", "2.50"), read(5, "1.75", "2.00")}}})
	if err != nil {
		t.Fatal(err)
	}
	past := func() (names []string) { // the job that set it was never on this device
		d.History("i", func(jobs []job.Record, _ bool) {
			for _, r := range jobs {
				names = append(names, r.ID)
			}
		})
		return names
	}

	bad := read(0, "2.50", "2.25")
	if _, err := d.Begin(job.QuickCheck, i.ToCheck(), bad); err == nil || len(d.Keys(KindJob)) != 0 {
		t.Errorf("a check that began with no reading: %v, %q", err, d.Keys(KindJob))
	}
	id, err := d.Begin(job.QuickCheck, i.ToCheck(), read(0, "2.25", "2.50"))
	if err != nil || len(d.Jobs()) != 1 || d.Finished(KindJob+"/"+id) || len(past()) != 0 {
		t.Fatalf("half a check: %v, %d under way, history %q", err, len(d.Jobs()), past())
	}
	over := func(what string, facts ...job.Fact) {
		t.Helper()
		if err := d.Record(id, facts...); err != nil {
			t.Fatalf("%s: %v", what, err)
		}
		if len(d.Jobs()) != 0 || !d.Finished(KindJob+"/"+id) || !slices.Equal(past(), []string{id}) {
			t.Errorf("%s: %d under way, finished %v, history %q", what, len(d.Jobs()), d.Finished(KindJob+"/"+id), past())
		}
		if text, err := device.Tab().Text(KindJob + "/" + id); err != nil || text != "" {
			t.Errorf("%s: local storage holds %q, %v", what, text, err)
		}
	}
	over("both read", read(5, "1.75", "2.00"))
	kept, _ := d.Instrument("i")
	if r, ok := d.Job(id); !ok || !kept.Checked.Equal(r.Last) || kept.AsSet.Job != "set" || len(kept.AsSet.Readings) != 2 {
		t.Errorf("%v: checked %v, as set %+v", ok, kept.Checked, kept.AsSet)
	}
	over("a note", job.Noted{Text: "before the show"})
	over("the relief", job.Surveyed{Feature: job.Relief, To: 14, Read: job.Read{Fret: 7, Held: 1, Way: job.ByFeeler,
		Low: job.Typed{Text: "0.20", Unit: job.MM}, High: job.Typed{Text: "0.25", Unit: job.MM}}})
	for _, sequence := range []int{5, 4, 3} { // relief, note and treble taken back: half a check again
		if err := d.Record(id, job.Undone{Sequence: sequence}); err != nil {
			t.Fatal(err)
		}
	}
	if len(d.Jobs()) != 1 || d.Finished(KindJob+"/"+id) {
		t.Errorf("taken back: %d under way", len(d.Jobs()))
	}
	over("read again", read(5, "2.25", "2.50"))

	// Another visit: the check is fetched from the journal, with its answer, and is told more then too.
	d = shop(device, "b")
	if len(d.Jobs()) != 0 {
		t.Errorf("%d under way on the next visit", len(d.Jobs()))
	}
	asked := false
	d.Fetch(id, func(r job.Record, ok bool) {
		asked = true
		if c, is := r.Check(); !ok || !is || c.Answer != job.CheckMoved {
			t.Errorf("fetched: %v %+v", ok, c)
		}
	})
	if !asked {
		t.Error("nothing was fetched")
	}
	over("a note on the next visit", job.Noted{Text: "after it"})

	// Half a check that is put away is over as well.
	half, err := d.Begin(job.QuickCheck, i.ToCheck(), read(0, "2.25", "2.50"))
	if err != nil || d.Record(half, job.PutAway{}) != nil || len(d.Jobs()) != 0 || !slices.Equal(past(), []string{id, half}) {
		t.Errorf("put away: %v, %d under way, history %q", err, len(d.Jobs()), past())
	}
}
