package store

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"
)

// What both stores hold to the letter is read once. It is still met in full where this page could not read it, and where it has gone on since.
func TestWhatBothStoresHoldIsMetOnce(t *testing.T) {
	ids := 0
	options := Options{Writer: "w", NewID: func() string { ids++; return fmt.Sprint("id", ids) }, Kinds: Kinds{"kit": {}}}
	device := NewDevice()
	first := Open(device.Tab(), options)
	first.Reconcile()
	for _, body := range []string{`"one"`, `"two"`} {
		if err := first.Put("kit", "kit", json.RawMessage(body)); err != nil {
			t.Fatal(err)
		}
	}
	open := func() (*Keeper, *counting) {
		shelf := &counting{Memory: device.Tab()}
		k := Open(shelf, options)
		k.Reconcile()
		return k, shelf
	}
	if k, shelf := open(); k.State() != (State{Mark: Saved, Local: true}) || shelf.reads != 0 || shelf.texts != 16 { // one ancestor's sum and no text
		t.Errorf("state %+v, %d reads, %d characters of heads", k.State(), shelf.reads, shelf.texts)
	}

	// Gone on between the two: put before the journal was heard.
	k := Open(device.Tab(), options)
	if err := k.Put("kit", "kit", json.RawMessage(`"three"`)); err != nil {
		t.Fatal(err)
	}
	k.Reconcile()
	if head := device.JournalHead("kit"); head.Sequence != 3 || k.State().Mark != Saved {
		t.Errorf("the journal has revision %d, state %+v", head.Sequence, k.State())
	}

	// Spoilt alike in both: the last intact revision is found, and the spoilt text is kept.
	spoilt := strings.Replace(device.Local()[Prefix+"kit"], "three", "thrEE", 1)
	device.Plant(Prefix+"kit", spoilt)
	device.Spoil("kit", func(string) string { return spoilt })
	k, _ = open()
	if doc, outcome := k.Get("kit"); outcome != Fine || string(doc.Body) != `"two"` || k.State().Mark != Saved {
		t.Errorf("%s, outcome %d, state %+v", doc.Body, outcome, k.State())
	}
	kept := 0
	for _, text := range device.KeptTexts() {
		if text == spoilt {
			kept++
		}
	}
	if kept != 1 {
		t.Errorf("the spoilt text is kept %d times", kept)
	}
}

// However the members of an envelope lie, it reads as JSON says.
func TestEnvelopeReadsAsJSONSays(t *testing.T) {
	for _, inner := range []string{
		`{"kind":"kit","version":1,"body":{"a":1}}`,
		`{"kind":"kit","version":1,"body":{"a":1}`,
		`{"kind":"kit","version":1,"body":5`,
		`{"kind":"kit","body":{"a":1},"version":1}`,
		`{"body":{"a":1},"kind":"kit","version":1}`,
		`{"kind":"kit","version":1,"body":1,"body":2}`,
		`{"kind":"kit","version":1,"BODY":1,"body":2}`,
		`{"kind":"kit","version":1,"body":2,"BODY":1}`,
		`{"kind":"kit","version":1,"more":{"x":1,"body":2}}`,
		`{"kind":"kit","version":1,"more":{"x":1,"body":2},"body":3}`,
		`{"kind":"kit","version":1,"writer":"x\",\"body\":7","body":3}`,
		`{"kind":"kit","version":1,"body":}`,
		`{"kind":"kit","version":1,"body":{"a":1}}}`,
		`{"kind":"kit","version":"one","body":{"a":1}}`,
		`{"kind":"kit","version":1}`,
		`,"body":1}`, `}`, ``,
	} {
		var want, got envelope
		whole := json.Unmarshal([]byte(inner), &want) == nil && len(want.Body) > 0
		if got.read(inner) != whole || whole && (got.Kind != want.Kind || got.Version != want.Version || got.Writer != want.Writer || string(got.Body) != string(want.Body)) {
			t.Errorf("%s reads as %+v, want %+v, whole %v", inner, got, want, whole)
		}
	}
}
