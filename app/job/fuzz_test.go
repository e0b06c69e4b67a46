package job

import (
	"encoding/json"
	"errors"
	"reflect"
	"testing"

	"gapwright/geometry"
)

// FuzzDecode reads bytes as a job's document: it must be refused or read, never a panic, and what was read must be written and read the same.
func FuzzDecode(f *testing.F) {
	for _, facts := range [][]Fact{toMeasure, toSave, append(toPlan[:len(toPlan):len(toPlan)], Undone{len(toPlan)}),
		append(append(toMeasure[:len(toMeasure):len(toMeasure)], Answered{AskStrings, StringsStay}, reliefRead(flatTop.Instrument, 0, "0.50", "0.55"), firstRead(5, "0.40", "0.45"),
			Adjusted{Relief, 1}, reliefRead(flatTop.Instrument, 0, "0.40", "0.45")), append(toChoose[3:len(toChoose):len(toChoose)], Listened{String: 0, Everywhere: true}, LeftAlone{Relief})...)} {
		r, err := apply(Record{}, facts...)
		if err != nil {
			f.Fatal(err)
		}
		data, err := json.Marshal(r.Events)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	check, err := checkedOn(asSet(marksRead(0, "2.25", "2.50"), marksRead(5, "1.75", "2.00")), marksRead(0, "2.50", "2.75"), marksRead(5, "1.75", "2.00"))
	data, errData := json.Marshal(check.Events)
	if err != nil || errData != nil {
		f.Fatal(err, errData)
	}
	f.Add(data)
	f.Add([]byte(`[{"job":"j","seq":1,"by":"w","at":"2026-03-04T12:00:00Z","fact":"screwed","what":{}}]`))
	f.Add([]byte(`[{"fact":"began","what":null}]`))
	f.Add([]byte(`{`))
	f.Fuzz(func(t *testing.T, data []byte) {
		var events []Event
		if json.Unmarshal(data, &events) != nil {
			return
		}
		r, err := Replay(events)
		var refusal *Refusal
		if err != nil && !errors.As(err, &refusal) {
			t.Fatalf("%v is not a refusal", err)
		}
		look(r)
		again, err := json.Marshal(r.Events)
		if err != nil {
			t.Fatalf("what was read cannot be written: %v", err)
		}
		var back []Event
		if err := json.Unmarshal(again, &back); err != nil {
			t.Fatalf("what was written cannot be read: %v", err)
		}
		if twice, err := Replay(back); err != nil || printed(twice) != printed(r) {
			t.Fatalf("read again: %v\n%s\n%s", err, printed(twice), printed(r))
		}
		if _, _, err := Merge(events, r.Events); err != nil {
			t.Fatalf("joined with itself: %v", err)
		}
	})
}

// FuzzApply takes each byte for the choice of a fact, likely or not: no order of them panics, and the record is the same replayed.
func FuzzApply(f *testing.F) {
	f.Add(uint64(1), []byte("an ordinary job with a few slips"))
	f.Add(uint64(2), []byte{0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0})
	f.Add(uint64(3), []byte{255, 255, 255, 255, 255, 0, 0, 0, 0, 0, 128, 128, 128})
	f.Fuzz(func(t *testing.T, seed uint64, choices []byte) {
		r, err := apply(Record{}, flatTop)
		if err != nil {
			t.Fatal(err)
		}
		for i, choice := range choices[:min(len(choices), 150)] {
			hand := newRandomizer(seed+uint64(i), uint64(choice))
			fact := hand.onward(r)
			if choice >= 128 {
				fact = hand.anything(r)
			}
			next, err := apply(r, fact)
			var refusal *Refusal
			if err != nil && (!errors.As(err, &refusal) || !reflect.DeepEqual(r, next)) {
				t.Fatalf("%+v: %v", fact, err)
			}
			r = next
		}
		look(r)
		if again, err := Replay(r.Events); err != nil || !reflect.DeepEqual(again, r) {
			t.Fatalf("replayed: %v", err)
		}
	})
}

// look asks a record everything that a screen may ask.
func look(r Record) {
	r.Step()
	r.StepAt(noon)
	r.Plan()
	r.Coach()
	r.Compare()
	r.Reached()
	r.Baseline()
	r.Undoable()
	r.DrawnLine()
	for course := -1; course < 8; course++ {
		r.Before(course)
		r.After(course)
		r.Readings(course, true)
		r.LowestGap(course)
		r.Shortfall(course)
		r.MayWish(course, true)
		r.Target(course)
	}
	r.Check()
	r.Over()
	r.Measured(false)
	r.Diagnosis()
	r.NeckOut()
	r.PerEighth()
	r.SurveyList()
	for _, after := range []bool{false, true} {
		r.Crown(after)
		for course := -1; course < 8; course++ {
			r.Rooms(course, after, OwnPlayer)
			r.Surveys(Relief, course)
			r.Surveys(FirstFret, course)
			r.Heard(course)
		}
		r.Rows(after, r.Player())
	}
	if plan, err := r.Plan(); err == nil {
		r.RowsAfter(plan, HardPlayer)
	}
	if x, err := r.Explore(r.Player()); err == nil {
		for _, height := range []geometry.Length{-1, 0, 1.5, 15, 16} {
			x.Side(0, height)
			x.Side(1, height)
		}
		wish := x.Suggest(true)
		if seen, err := x.Both(wish); err == nil {
			x.Rows(seen)
		}
		x.Profile(1)
	}
}
