package store

import (
	"errors"
	"fmt"
	"slices"
	"testing"

	"gapwright/app/job"
	"gapwright/geometry"
)

// shop opens a desk on a device; every page has a writer of its own.
func shop(device *Device, page string) *Desk {
	ids := 0
	d := NewDesk(device.Tab(), Options{Writer: page, NewID: func() string { ids++; return fmt.Sprint(page, "-", ids) }})
	d.Reconcile()
	return d
}

// newInstrument is an instrument on a desk that is worked on.
func (d *Desk) newInstrument(t *testing.T) job.Instrument {
	t.Helper()
	i, err := d.PutInstrument(job.Instrument{ID: "i", Family: geometry.FlatTop6})
	if err != nil {
		t.Fatal(err)
	}
	return i
}

func (d *Desk) awayJob(t *testing.T, i job.Instrument) string {
	t.Helper()
	id, err := d.Begin(job.SandUnderside, i)
	if err == nil {
		err = d.Record(id, job.Noted{Text: id}, job.PutAway{})
	}
	if err != nil {
		t.Fatal(err)
	}
	return id
}

// past lists the jobs that a desk's history names.
func past(t *testing.T, d *Desk) (ids []string) {
	t.Helper()
	asked := false
	d.History("i", func(jobs []job.Record, whole bool) {
		asked = true
		if !whole {
			t.Error("not whole")
		}
		for _, r := range jobs {
			ids = append(ids, r.ID)
		}
	})
	if !asked {
		t.Fatal("no answer")
	}
	return ids
}

func TestJobsThatAreOverAreInTheHistory(t *testing.T) {
	device := NewDevice()
	d := shop(device, "a")
	i := d.newInstrument(t)
	if got := past(t, d); len(got) != 0 {
		t.Errorf("a new instrument has %q", got)
	}
	first, second := d.awayJob(t, i), d.awayJob(t, i)
	open, err := d.Begin(job.SandUnderside, i)
	if err != nil {
		t.Fatal(err)
	}
	if got := past(t, d); !slices.Equal(got, []string{first, second}) {
		t.Errorf("%q", got)
	}
	if got := past(t, shop(device, "b")); !slices.Equal(got, []string{first, second}) { // nothing of them is in local storage
		t.Errorf("on the next visit: %q", got)
	}

	// What is taken up again is under way, and the one that ended last when it ends.
	again := shop(device, "c")
	again.TakeUp(first, func(err error) {
		if err != nil {
			t.Fatal(err)
		}
	})
	if got := past(t, again); !slices.Equal(got, []string{second}) {
		t.Errorf("%q", got)
	}
	var under []string
	for _, r := range again.Jobs() {
		under = append(under, r.ID)
	}
	slices.Sort(under)
	if want := []string{first, open}; !slices.Equal(under, want) && !slices.Equal(under, []string{open, first}) {
		t.Errorf("under way: %q, want %q", under, want)
	}
	if r, ok := again.Job(first); !ok || r.Ended != job.Open || len(r.Notes) != 1 {
		t.Errorf("%+v", r)
	}
	if _, stored := device.local[Prefix+"job/"+first]; !stored {
		t.Errorf("a job under way is not in local storage: %v", device.local)
	}
	if err := again.Record(first, job.PutAway{}); err != nil {
		t.Fatal(err)
	}
	if got := past(t, again); !slices.Equal(got, []string{second, first}) {
		t.Errorf("%q", got)
	}
	if got := past(t, shop(device, "d")); !slices.Equal(got, []string{second, first}) {
		t.Errorf("on the next visit: %q", got)
	}
}

func TestOnlyWhatWasPutAwayIsTakenUp(t *testing.T) {
	d := shop(NewDevice(), "a")
	i := d.newInstrument(t)
	open, err := d.Begin(job.SandUnderside, i)
	if err != nil {
		t.Fatal(err)
	}
	for _, id := range []string{open, "nothing"} {
		asked := false
		d.TakeUp(id, func(err error) {
			asked = true
			if !errors.Is(err, ErrNotAway) {
				t.Errorf("%s: %v", id, err)
			}
		})
		if !asked {
			t.Error("no answer")
		}
	}
}

func TestAHistoryWithAJobMissingSaysSo(t *testing.T) {
	device := NewDevice()
	d := shop(device, "a")
	i := d.newInstrument(t)
	first, second := d.awayJob(t, i), d.awayJob(t, i)
	delete(device.journal, "job/"+first)
	asked := false
	shop(device, "b").History("i", func(jobs []job.Record, whole bool) {
		asked = true
		if whole || len(jobs) != 1 || jobs[0].ID != second {
			t.Errorf("%d jobs, whole %v", len(jobs), whole)
		}
	})
	if !asked {
		t.Error("no answer")
	}
}

// An instrument may come from another device with its heights as set, and without the job that set it; or from before there were histories.
func TestAHistoryKnowsTheJobOfTheHeightsAsSet(t *testing.T) {
	device := NewDevice()
	d := shop(device, "a")
	i := d.newInstrument(t)
	for _, set := range []string{"elsewhere", ""} {
		i.AsSet = &job.AsSet{Job: set}
		if _, err := d.PutInstrument(i); err != nil {
			t.Fatal(err)
		}
		if got := past(t, shop(device, "b")); len(got) != 0 {
			t.Errorf("%q", got)
		}
	}
	old := d.awayJob(t, i)
	delete(device.journal, "history/i")
	i.AsSet = &job.AsSet{Job: old}
	if _, err := d.PutInstrument(i); err != nil {
		t.Fatal(err)
	}
	if got := past(t, shop(device, "c")); !slices.Equal(got, []string{old}) {
		t.Errorf("%q, want %q", got, old)
	}
}

// A hundred and twenty jobs are read in three questions, and not again the next time.
func TestALongHistoryIsReadAtOnce(t *testing.T) {
	device := NewDevice()
	d := shop(device, "a")
	i := d.newInstrument(t)
	var want []string
	for range 120 {
		want = append(want, d.awayJob(t, i))
	}
	shelf := &counting{Memory: device.Tab()}
	again := NewDesk(shelf, Options{Writer: "b", NewID: func() string { return "x" }})
	again.Reconcile()
	shelf.reads = 0
	if got := past(t, again); !slices.Equal(got, want) {
		t.Errorf("%d jobs, want %d", len(got), len(want))
	}
	if shelf.reads > 1 { // the list of them
		t.Errorf("%d documents were asked for one by one", shelf.reads)
	}
	shelf.reads = 0
	if got := past(t, again); len(got) != len(want) || shelf.reads > 0 {
		t.Errorf("%d jobs, %d questions", len(got), shelf.reads)
	}
}

// A job that is damaged in the journal is mended from what was before it, or missing; the others are there.
func TestAHistoryWithADamagedJob(t *testing.T) {
	device := NewDevice()
	d := shop(device, "a")
	i := d.newInstrument(t)
	first, second := d.awayJob(t, i), d.awayJob(t, i)
	torn := device.journal["job/"+first]
	torn.past = slices.Clone(torn.past)
	for n := range torn.past {
		torn.past[n].Text = torn.past[n].Text[:60]
	}
	torn.head.Text = ""
	device.journal["job/"+first] = torn
	asked := false
	shop(device, "b").History("i", func(jobs []job.Record, whole bool) {
		asked = true
		if whole || len(jobs) != 1 || jobs[0].ID != second {
			t.Errorf("%d jobs, whole %v", len(jobs), whole)
		}
	})
	if !asked {
		t.Error("no answer")
	}
}

func TestTwoPagesHistoriesAreJoined(t *testing.T) {
	device := NewDevice()
	a, b := shop(device, "a"), shop(device, "b")
	i := a.newInstrument(t)
	var want []string
	device.Slow = true
	want = append(want, a.awayJob(t, i), b.awayJob(t, i))
	device.Slow = false
	device.Drain()
	got := past(t, shop(device, "c"))
	slices.Sort(got)
	if !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
}

// An instrument that is taken away takes with it what is over: neither this page nor a later one finds it, and local storage holds no more than before.
func TestWhatIsOverGoesWithItsInstrument(t *testing.T) {
	device := NewDevice()
	d := shop(device, "a")
	i := d.newInstrument(t)
	ids := []string{d.awayJob(t, i), d.awayJob(t, i)}
	later := shop(device, "b")
	if got := past(t, later); !slices.Equal(got, ids) {
		t.Fatalf("the history names %v, want %v", got, ids)
	}
	if err := later.RemoveInstrument("i"); err != nil {
		t.Fatal(err)
	}
	d.Reconcile()
	if local := device.Local(); len(local) != 0 {
		t.Errorf("local storage holds %v", local)
	}
	for _, page := range []*Desk{later, d, shop(device, "c")} {
		if got := past(t, page); len(got) != 0 {
			t.Errorf("the history names %v still", got)
		}
		for _, id := range ids {
			answered := false
			page.Fetch(id, func(_ job.Record, ok bool) {
				answered = true
				if ok {
					t.Errorf("job %s is there still", id)
				}
			})
			if !answered {
				t.Errorf("no answer for job %s", id)
			}
		}
	}
}
