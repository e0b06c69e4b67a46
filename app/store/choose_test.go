package store

import (
	"encoding/json"
	"fmt"
	"testing"

	"gapwright/app/job"
)

// partedDesk opens a desk on a device on which two windows called one instrument differently.
func partedDesk(t *testing.T) (*Desk, *Device, Parted) {
	t.Helper()
	device, ids := NewDevice(), 0
	open := func() *Desk {
		d := NewDesk(device.Tab(), Options{NewID: func() string { ids++; return fmt.Sprint("id", ids) }})
		d.Reconcile()
		return d
	}
	first := open()
	if _, err := first.PutInstrument(job.Instrument{ID: "a", Name: "Porch", Family: "flat-top-6"}); err != nil {
		t.Fatal(err)
	}
	second := open()
	change := func(d *Desk, name, owner string) {
		i, _ := d.Instrument("a")
		i.Name, i.Owner = name, owner
		if _, err := d.PutInstrument(i); err != nil {
			t.Fatal(err)
		}
	}
	change(first, "Hall", "")
	change(second, "Attic", "Ines Varga")
	third := open()
	if n := len(third.Parted()); n != 1 {
		t.Fatalf("%d parted, want 1", n)
	}
	if i, _ := third.Instrument("a"); i.Name != "Hall" || i.Owner != "Ines Varga" {
		t.Fatalf("the document is %q of %q, want Hall of Ines Varga", i.Name, i.Owner)
	}
	return third, device, third.Parted()[0]
}

// otherOf reads the version that is kept beside.
func otherOf(t *testing.T, d *Desk, p Parted) Document {
	t.Helper()
	var other Document
	d.Kept(p.Kept, func(doc Document, outcome Outcome, _ string) {
		if outcome != Fine {
			t.Errorf("kept reads as %v", outcome)
		}
		other = doc
	})
	return other
}

func TestTheOtherVersionIsTakenOrBecomesAnInstrumentOfItsOwn(t *testing.T) {
	d, _, p := partedDesk(t)
	told := 0
	if err := d.TakeOther(p, otherOf(t, d, p), func(ok bool) { told++; check(t, map[bool]error{false: ErrFull}[ok]) }); err != nil || told != 1 {
		t.Fatalf("%v, told %d times", err, told)
	}
	if i, _ := d.Instrument("a"); i.Name != "Attic" || i.Owner != "Ines Varga" || len(d.Parted()) != 0 {
		t.Errorf("taken: %q of %q, parted %v", i.Name, i.Owner, d.Parted())
	}
	if state := d.State(); state.Mark != Saved {
		t.Errorf("state %+v", state)
	}

	d, _, p = partedDesk(t)
	if err := d.SecondInstrument(p, otherOf(t, d, p), "Attic too", func(ok bool) { told++ }); err != nil || told != 2 {
		t.Fatalf("%v, told %d times", err, told)
	}
	all := d.Instruments()
	if len(all) != 2 || all[0].Name != "Attic too" || all[1].Name != "Hall" || all[0].ID == all[1].ID || len(d.Parted()) != 0 {
		t.Errorf("%+v, parted %v", all, d.Parted())
	}
	if err := d.SecondInstrument(p, Document{Body: json.RawMessage("[]")}, "x", nil); err == nil {
		t.Error("a body that is no instrument makes one")
	}
}

// Where the choice cannot be kept, both versions stay.
func TestAChoiceThatIsNotSavedDropsNothing(t *testing.T) {
	d, device, p := partedDesk(t)
	other := otherOf(t, d, p)
	device.JournalError = ErrFull
	var told []bool
	if err := d.TakeOther(p, other, func(ok bool) { told = append(told, ok) }); err != nil {
		t.Fatal(err)
	}
	if len(told) != 1 || told[0] || len(d.Parted()) != 1 || device.KeptTexts()[p.Kept] == "" {
		t.Errorf("told %v, parted %v, kept %q", told, d.Parted(), device.KeptTexts())
	}
}
