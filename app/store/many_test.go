package store

import (
	"encoding/json"
	"fmt"
	"slices"
	"testing"

	"gapwright/app/job"
)

// counting is a shelf that counts what is asked of it and the characters that it hands out.
type counting struct {
	*Memory
	reads, texts int
}

func (c *counting) Read(key string, answer func(*Head, []string, error)) {
	c.reads++
	c.Memory.Read(key, answer)
}

func (c *counting) Heads(answer func([]Head, []string, error)) {
	c.Memory.Heads(func(heads []Head, kept []string, err error) {
		for _, h := range heads {
			c.texts += len(h.Text) + 16*len(h.Line)
		}
		answer(heads, kept, err)
	})
}

// bench opens a desk beside that many finished jobs, with three instruments and two jobs under way.
func bench(t *testing.T, finished int) (*Desk, *counting) {
	t.Helper()
	device := NewDevice()
	ids := 0
	options := Options{Writer: "w", NewID: func() string { ids++; return fmt.Sprint("id", ids) }}
	first := NewDesk(device.Tab(), options)
	first.Reconcile()
	for n := range 3 {
		if _, err := first.PutInstrument(job.Instrument{ID: fmt.Sprint("i", n), Family: "flat-top-6"}); err != nil {
			t.Fatal(err)
		}
	}
	for range 2 {
		i, _ := first.Instrument("i0")
		if _, err := first.Begin(job.SandUnderside, i); err != nil {
			t.Fatal(err)
		}
	}
	body, kinds := json.RawMessage(`{"events":[]}`), JobKinds()
	for n := range finished {
		doc, text, err := Encode(Document{Key: fmt.Sprint("job/f", n), Sequence: 60, Kind: KindJob, Version: kinds[KindJob].Version(), Finished: true, Body: body})
		if err != nil {
			t.Fatal(err)
		}
		line := make([]string, 60)
		for i := range line {
			line[i] = fmt.Sprintf("%016x", i)
		}
		device.journal[doc.Key] = record{head: Head{Key: doc.Key, Sequence: 60, Sum: doc.Sum, Line: line, Finished: true}, past: []Text{{Name: doc.Sum, Text: text}}}
	}
	shelf := &counting{Memory: device.Tab()}
	d := NewDesk(shelf, options)
	d.Reconcile()
	if !d.Settled() || len(d.Keys(KindJob)) != finished+2 {
		t.Fatalf("settled %v with %d jobs, want %d", d.Settled(), len(d.Keys(KindJob)), finished+2)
	}
	return d, shelf
}

// What every screen asks for costs the same beside ten thousand finished jobs as beside ten: none of them is read, decoded or listed for it.
func TestTenThousandFinishedJobsCostAScreenNothing(t *testing.T) {
	few, small := bench(t, 10)
	many, large := bench(t, 10_000)
	if large.reads != small.reads || large.texts != small.texts {
		t.Errorf("opening reads %d documents and %d characters beside 10,000, %d and %d beside 10", large.reads, large.texts, small.reads, small.texts)
	}
	id := many.Jobs()[0].ID
	for what, ask := range map[string]func(d *Desk){
		"State":       func(d *Desk) { d.State() },
		"JobState":    func(d *Desk) { d.JobState(id) },
		"Jobs":        func(d *Desk) { d.Jobs() },
		"Job":         func(d *Desk) { d.Job(id) },
		"Instruments": func(d *Desk) { d.Instruments() },
		"Instrument":  func(d *Desk) { d.Instrument("i1") },
		"OpenKeys":    func(d *Desk) { d.OpenKeys(KindJob) },
		"Keys":        func(d *Desk) { d.Keys(KindInstrument) },
		"Finished":    func(d *Desk) { d.Finished("job/f7") },
	} {
		ask(few)
		ask(many)
		a, b := testing.AllocsPerRun(5, func() { ask(few) }), testing.AllocsPerRun(5, func() { ask(many) })
		if a != b {
			t.Errorf("%s takes room %v times beside 10,000, %v times beside 10", what, b, a)
		}
	}
	if got := many.OpenKeys(KindInstrument); !slices.Equal(got, []string{"instrument/i0", "instrument/i1", "instrument/i2"}) {
		t.Errorf("instruments %q", got)
	}
	// What is decoded once is not decoded again, and what is put is seen at once.
	if n := testing.AllocsPerRun(5, func() { many.Instrument("i1") }); n > 2 {
		t.Errorf("an instrument that was read before takes room %v times", n)
	}
	i, _ := many.Instrument("i1")
	i.Name = "Porch"
	if _, err := many.PutInstrument(i); err != nil {
		t.Fatal(err)
	}
	if i, _ := many.Instrument("i1"); i.Name != "Porch" {
		t.Errorf("after it was put: %q", i.Name)
	}
	if err := many.Remove("instrument/i1"); err != nil {
		t.Fatal(err)
	}
	if _, there := many.Instrument("i1"); there || len(many.Instruments()) != 2 {
		t.Error("a removed instrument is listed")
	}
}
