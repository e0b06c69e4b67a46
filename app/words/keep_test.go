package words

import (
	"reflect"
	"slices"
	"testing"
	"time"

	"gapwright/app/job"
	"gapwright/app/store"
)

// Whatever two versions of an instrument or a kit differ in is told: no choice is made unseen.
func TestEveryDifferenceIsTold(t *testing.T) {
	mm := Reader{Unit: job.MM}
	quiet := []string{"ID", "Example", "Checked"} // of the same instrument, and nothing that a person would choose by
	whole := reflect.TypeOf(job.Instrument{})
	for n := range whole.NumField() {
		name := whole.Field(n).Name
		here := job.Instrument{Family: "flat-top-6", Bridge: job.BridgeSlot}
		other := here
		change(t, reflect.ValueOf(&other).Elem().Field(n))
		if told := mm.Profiles(here, other); (len(told) == 0) != slices.Contains(quiet, name) {
			t.Errorf("instruments that differ in %s alone: told %v", name, told)
		}
	}
	whole = reflect.TypeOf(job.Kit{})
	for n := range whole.NumField() {
		var here, other job.Kit
		change(t, reflect.ValueOf(&other).Elem().Field(n))
		if told := mm.Kits(here, other); len(told) == 0 {
			t.Errorf("kits that differ in %s alone: nothing is told", whole.Field(n).Name)
		}
	}
	if told := mm.Profiles(job.Instrument{Name: "a"}, job.Instrument{Name: "a"}); len(told) != 0 {
		t.Errorf("alike, and told %v", told)
	}
}

// change makes a field another one than it was.
func change(t *testing.T, field reflect.Value) {
	t.Helper()
	switch v := field.Addr().Interface().(type) {
	case *job.Typed:
		*v = job.Typed{Text: "3.5", Unit: job.MM}
		return
	case *job.Unit:
		*v = job.Inch
		return
	case *job.Marks:
		*v = job.Every64th
		return
	case *job.Zero:
		*v = job.ZeroInside
		return
	case *job.Bridge:
		*v = job.BridgePosts
		return
	case *job.Has:
		*v = job.Yes
		return
	case *time.Time:
		*v = time.Date(2026, 2, 3, 4, 5, 6, 0, time.UTC)
		return
	}
	switch field.Kind() {
	case reflect.String:
		field.SetString("bass-4")
	case reflect.Int:
		field.SetInt(15)
	case reflect.Bool:
		field.SetBool(true)
	case reflect.Pointer:
		field.Set(reflect.New(field.Type().Elem()))
		if field.Elem().NumField() > 0 && field.Elem().Field(0).Kind() == reflect.String {
			field.Elem().Field(0).SetString("x")
		}
	case reflect.Struct:
		change(t, field.Field(0))
	case reflect.Array:
		change(t, field.Index(0))
	default:
		t.Fatalf("a field of type %s", field.Type())
	}
}

func TestEveryReasonHasASentenceOfItsOwn(t *testing.T) {
	said := map[string]store.Why{}
	for why := store.Full; why <= store.Other; why++ {
		text := Unsaved(store.State{Mark: store.NotSaved, Why: why})
		if before, twice := said[text]; twice || text == "" {
			t.Errorf("reasons %v and %v: %q", before, why, text)
		}
		said[text] = why
	}
}
