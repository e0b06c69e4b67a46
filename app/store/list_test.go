package store

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"gapwright/app/job"
)

func desk(device *Device) *Desk {
	ids := 0
	d := NewDesk(device.Tab(), Options{Writer: "w", NewID: func() string { ids++; return fmt.Sprint("new", ids) }})
	d.Reconcile()
	return d
}

func ids(all []job.Instrument) string {
	var list []string
	for _, i := range all {
		list = append(list, i.ID)
	}
	return strings.Join(list, " ")
}

func TestInstrumentsAreListedAndFollowWhatChanges(t *testing.T) {
	d := desk(NewDevice())
	at := func(hour int) *job.AsSet { return &job.AsSet{At: time.Date(2026, 5, 1, hour, 0, 0, 0, time.UTC)} }
	for _, i := range []job.Instrument{
		{ID: "a", Family: "bass", Name: "Zither"}, {ID: "b", Family: "bass", Name: "Alto"}, {ID: "c", Family: "bass", AsSet: at(8)},
		{ID: "d", Family: "bass", AsSet: at(9)}, {ID: "e", Family: "bass", Name: "Alto"}, {ID: "f", Family: "bass", Name: "M", AsSet: at(9)},
	} {
		if _, err := d.PutInstrument(i); err != nil {
			t.Fatal(err)
		}
	}
	if got := ids(d.Instruments()); got != "d f c b e a" { // last set first, then by name, then by id
		t.Errorf("listed %s", got)
	}
	if room := testing.AllocsPerRun(5, func() { d.Instruments() }); room > 10 {
		t.Errorf("a list that did not change takes room %v times", room)
	}
	i, _ := d.Instrument("a")
	i.Name, i.Archived = "Aardvark", true
	if _, err := d.PutInstrument(i); err != nil {
		t.Fatal(err)
	}
	all := d.Instruments()
	if got := ids(all); got != "d f c a b e" || !all[3].Archived {
		t.Errorf("after one was changed: %s", got)
	}
	if err := d.RemoveInstrument("d"); err != nil {
		t.Fatal(err)
	}
	if got := ids(d.Instruments()); got != "f c a b e" {
		t.Errorf("after one was removed: %s", got)
	}
}

// What has no room in local storage is as safe as the rest, and is there again once the journal is read.
func TestMoreThanLocalStorageHolds(t *testing.T) {
	device := NewDevice()
	d := desk(device)
	for n := range 60 {
		if _, err := d.PutInstrument(job.Instrument{ID: fmt.Sprint("i", n), Family: "bass", Tags: strings.Repeat("word ", 8000)}); err != nil { // 40,000 characters, in all 2.4 million
			t.Fatal(err)
		}
	}
	if s := d.State(); s.Mark != Saved {
		t.Errorf("state %+v", s)
	}
	if n := len(device.Local()); n < 30 || n > 37 { // 1.5 million characters
		t.Errorf("%d in local storage", n)
	}
	again := desk(device)
	if n, s := len(again.Instruments()), again.State(); n != 60 || s.Mark != Saved {
		t.Errorf("%d of 60 after opening again, state %+v", n, s)
	}
}
