package job

import (
	"encoding/json"
	"errors"
	"testing"

	"gapwright/geometry"
)

// of puts numbers that are usual of it on an instrument, in millimetres.
func of(i Instrument, fields map[WontField]string) Instrument {
	for f, text := range fields {
		i = i.WithWont(f, Typed{text, MM})
	}
	return i
}

// What is given is the instrument's, what is not the family's: for the flat-top 2.2 to 2.6 and 1.7 to 2.0 over fret 12, 0.50 to 0.70 and 0.35 to 0.50 over fret 1,
// relief 0.10 to 0.30, floors 1.8, 1.4 and 2.0, 1.6.
func TestUsualOfOneInstrument(t *testing.T) {
	i := of(Instrument{Family: geometry.FlatTop6}, map[WontField]string{
		{Part: WontGap, High: true}: "2.4", {Part: WontGap, Side: 1}: "1.65", {Part: WontRelief}: "0.05", {Part: WontFirst, Side: 1, High: true}: "0,45",
		{Part: WontFloor}: "1.9", {Part: WontBeginner, Side: 1}: "1.5"})
	k := i.Kind()
	for n, got := range []geometry.Length{k.Gap[0].Low, k.Gap[0].High, k.Gap[1].Low, k.Gap[1].High, k.Relief.Low, k.Relief.High, k.FirstFret[0].High, k.FirstFret[1].High,
		k.Floor[0], k.Floor[1], k.BeginnersFloor[0], k.BeginnersFloor[1]} {
		if want := []geometry.Length{2.2, 2.4, 1.65, 2.0, 0.05, 0.30, 0.70, 0.45, 1.9, 1.4, 2.0, 1.5}[n]; abs(got-want) > 1e-9 {
			t.Errorf("number %d is %.3f, want %.3f", n, float64(got), float64(want))
		}
	}
	if err := i.Check(); err != nil {
		t.Errorf("refused: %v", err)
	}
	if got := i.Floor(0, true); abs(got-1.9) > 1e-9 {
		t.Errorf("floor %.3f, want 1.9", float64(got))
	}
	if got := i.Usual(5); abs(got.Low-1.65) > 1e-9 || abs(got.High-2.0) > 1e-9 {
		t.Errorf("usual %.3f to %.3f, want 1.65 to 2", float64(got.Low), float64(got.High))
	}
	if got := i.FamilyWont(WontField{Part: WontFloor}); abs(got-1.8) > 1e-9 {
		t.Errorf("the family's floor is %.3f, want 1.8", float64(got))
	}
	// A beginner's floor under the family's asks for a caution; a floor over it, and one that was not given, do not.
	for f, want := range map[WontField]bool{{Part: WontFloor}: false, {Part: WontFloor, Side: 1}: false, {Part: WontBeginner, Side: 1}: true, {Part: WontGap, Side: 1}: false} {
		if i.Under(f) != want {
			t.Errorf("%v lies under the family's: %v, want %v", f, !want, want)
		}
	}
	if plain := (Instrument{Family: geometry.FlatTop6}).Kind(); plain != (Instrument{Family: geometry.FlatTop6, Wont: &Wont{}}).Kind() {
		t.Error("nothing that is usual of it changes what is")
	}
	if i = i.WithWont(WontField{Part: WontFloor}, Typed{}); i.Kind().Floor[0] != 1.8 {
		t.Error("what is taken back is not the family's again")
	}
	if i = of(Instrument{Family: geometry.FlatTop6}, map[WontField]string{{Part: WontRelief}: "0.05"}).WithWont(WontField{Part: WontRelief}, Typed{}); i.Wont != nil {
		t.Error("something is left when all was taken back")
	}
}

// Every number is refused where it cannot be, with the field and what it is held against; and one instrument's number is never another's.
func TestUsualThatCannotBe(t *testing.T) {
	gapLow, gapHigh := WontField{Part: WontGap}, WontField{Part: WontGap, High: true}
	floor, beginner := WontField{Part: WontFloor}, WontField{Part: WontBeginner}
	for _, c := range []struct {
		said        map[WontField]string
		field       WontField
		other       WontField
		than        geometry.Length
		over, cause bool
	}{
		{said: map[WontField]string{gapLow: "two"}, field: gapLow, cause: true},
		{said: map[WontField]string{gapHigh: "8.1"}, field: gapHigh, cause: true},
		{said: map[WontField]string{{Part: WontRelief, High: true}: "1.1"}, field: WontField{Part: WontRelief, High: true}, cause: true},
		{said: map[WontField]string{{Part: WontFirst, Side: 1}: "0.05"}, field: WontField{Part: WontFirst, Side: 1}, cause: true},
		{said: map[WontField]string{floor: "0.4"}, field: floor, cause: true},
		{said: map[WontField]string{gapHigh: "2.1"}, field: gapHigh, other: gapLow, than: 2.2},
		{said: map[WontField]string{gapLow: "2.7"}, field: gapLow, other: gapHigh, than: 2.6, over: true},
		{said: map[WontField]string{gapLow: "1.7"}, field: gapLow, other: floor, than: 1.8},
		{said: map[WontField]string{gapHigh: "1.95", gapLow: "1.9"}, field: gapHigh, other: beginner, than: 2.0},
		{said: map[WontField]string{beginner: "2.7"}, field: beginner, other: gapHigh, than: 2.6, over: true},
		{said: map[WontField]string{floor: "1.95", gapLow: "1.9"}, field: floor, other: gapLow, than: 1.9, over: true},
		{said: map[WontField]string{beginner: "1.7"}, field: beginner, other: floor, than: 1.8},
		{said: map[WontField]string{floor: "2.1"}, field: floor, other: beginner, than: 2.0, over: true},
		{said: map[WontField]string{{Part: WontRelief}: "0.35"}, field: WontField{Part: WontRelief}, other: WontField{Part: WontRelief, High: true}, than: 0.3, over: true},
	} {
		before := Instrument{Family: geometry.FlatTop6}
		err := of(before, c.said).Check()
		var wrong *WontError
		if !errors.As(err, &wrong) {
			t.Errorf("%v is taken: %v", c.said, err)
			continue
		}
		if wrong.Field != c.field || (wrong.Cause != nil) != c.cause || !c.cause && (wrong.Other != c.other || abs(wrong.Than-c.than) > 1e-9 || wrong.Over != c.over) {
			t.Errorf("%v: %+v", c.said, *wrong)
		}
		if before.Wont != nil {
			t.Error("the instrument before is not what it was")
		}
	}
}

// All families are such as their own limits allow, so that giving a family's own numbers changes nothing.
func TestUsualOfEveryFamily(t *testing.T) {
	for _, family := range geometry.Families() {
		i := Instrument{Family: family.ID}
		for _, p := range WontParts() {
			for _, f := range p.Fields() {
				i = i.WithWont(f, Write(i.FamilyWont(f), MM, geometry.Millimetre/100))
			}
		}
		if err := i.Check(); err != nil {
			t.Errorf("%s: %v", family.ID, err)
		}
		text, err := json.Marshal(i)
		var again Instrument
		if err != nil || json.Unmarshal(text, &again) != nil || again.Wont == nil || *again.Wont != *i.Wont {
			t.Errorf("%s: written and read again it is not the same: %v %s", family.ID, err, text)
		}
	}
}
