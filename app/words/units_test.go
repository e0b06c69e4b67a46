package words_test

import (
	"reflect"
	"regexp"
	"testing"
	"time"

	"gapwright/app/job"
	"gapwright/app/words"
	"gapwright/geometry"
)

// choices are the values that a type takes in turn. Any other is filled by its kind.
var choices = map[reflect.Type][]any{
	reflect.TypeFor[job.Unit]():           {job.MM, job.Inch},
	reflect.TypeFor[geometry.Family]():    {geometry.FlatTop6},
	reflect.TypeFor[time.Time]():          {time.Date(2026, 3, 4, 9, 0, 0, 0, time.UTC)},
	reflect.TypeFor[job.Method]():         anys(job.Methods()),
	reflect.TypeFor[job.Step]():           anys(job.AllSteps()),
	reflect.TypeFor[job.PlanOutcome]():    anys(job.PlanOutcomes()),
	reflect.TypeFor[job.Way]():            anys(job.Ways()),
	reflect.TypeFor[job.Marks]():          anys(job.AllMarks()),
	reflect.TypeFor[job.Zero]():           anys(job.Zeros()),
	reflect.TypeFor[job.Answer]():         {job.FollowPencil, job.FollowKnife, job.FollowCards, job.FollowCaliper},
	reflect.TypeFor[job.Feature]():        {job.Relief, job.FirstFret, job.FirstPressed},
	reflect.TypeFor[geometry.Verdict]():   anys(geometry.Verdicts()),
	reflect.TypeFor[geometry.Severity]():  {geometry.Note, geometry.Caution, geometry.Refuse},
	reflect.TypeFor[geometry.Quantity]():  anys(append(geometry.Quantities(), geometry.NeckQuantities()...)),
	reflect.TypeFor[geometry.BlankStep](): anys(geometry.BlankSteps()),
	reflect.TypeFor[job.Fact](): {job.Read{Way: job.ByCaliper, Low: typed("7.77")}, job.Stood{Exposure: typed("7.77")}, job.Shimmed{Bass: typed("7.77"), Treble: typed("7.77")},
		job.Checked{Bass: typed("7.77"), Treble: typed("7.77")}, job.Chosen{Bass: typed("7.77"), Treble: typed("7.77")}, job.Slotted{Length: typed("7.77"), Bass: typed("7.77")},
		job.Read{Way: job.ByMarks, Low: typed("7.77"), High: typed("8.77")}, job.Filed{Wanted: typed("7.77")}},
	reflect.TypeFor[error](): errorsOfLengths(),
}

func anys[T any](all []T) (out []any) {
	for _, v := range all {
		out = append(out, v)
	}
	return out
}

func errorsOfLengths() (all []any) {
	for _, q := range append(geometry.Quantities(), geometry.NeckQuantities()...) {
		all = append(all, &geometry.RangeError{Quantity: q, Got: 99, Min: 1, Max: 2})
	}
	for _, k := range geometry.ParseKinds() {
		all = append(all, &geometry.ParseError{Text: "x", Kind: k})
	}
	for _, k := range job.RefusalKinds() {
		all = append(all, &job.Refusal{Kind: k, String: -1, Cause: &geometry.RangeError{Quantity: geometry.QuantityTarget, Got: 99, Min: 1, Max: 2}})
	}
	return append(all, &geometry.ContradictionError{A: geometry.Interval{Low: 1, High: 2}, B: geometry.Interval{Low: 3, High: 4}})
}

// fill makes a value of a type, another one for each turn. What was typed is in the unit of the turn, whoever reads it.
func fill(t reflect.Type, turn, depth int) reflect.Value {
	v := reflect.New(t).Elem()
	if c, ok := choices[t]; ok {
		v.Set(reflect.ValueOf(c[turn%len(c)]))
		return v
	}
	if t == reflect.TypeFor[job.Typed]() {
		v.Set(reflect.ValueOf([]job.Typed{typed("7.77"), {Text: ".777", Unit: job.Inch}}[turn%2]))
		return v
	}
	switch t.Kind() {
	case reflect.Float32, reflect.Float64:
		v.SetFloat(1.5 + float64(turn%3))
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		v.SetInt(int64(turn % 3))
	case reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		v.SetUint(uint64(turn % 3))
	case reflect.Bool:
		v.SetBool(turn/2%2 == 1)
	case reflect.String:
		v.SetString("x")
	case reflect.Struct:
		for i := range t.NumField() {
			if t.Field(i).IsExported() && depth > 0 {
				v.Field(i).Set(fill(t.Field(i).Type, turn, depth-1))
			}
		}
	case reflect.Slice:
		v.Set(reflect.MakeSlice(t, 6, 6))
		for i := range 6 {
			if depth > 0 {
				v.Index(i).Set(fill(t.Elem(), turn, depth-1))
			}
		}
	case reflect.Array:
		for i := range t.Len() {
			if depth > 0 {
				v.Index(i).Set(fill(t.Elem(), turn, depth-1))
			}
		}
	case reflect.Pointer:
		if depth > 0 {
			v.Set(reflect.New(t.Elem()))
			v.Elem().Set(fill(t.Elem(), turn, depth-1))
		}
	}
	return v
}

// texts are all texts in a value.
func texts(v reflect.Value) (all []string) {
	switch v.Kind() {
	case reflect.String:
		return []string{v.String()}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			all = append(all, texts(v.Index(i))...)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			all = append(all, texts(v.Field(i))...)
		}
	}
	return all
}

// Everything that a reader is told, by whatever method, with lengths typed in either unit: no other unit stands in it, and no number that was typed in the other.
func TestNobodyReadsTheOtherUnit(t *testing.T) {
	foreign := map[job.Unit]*regexp.Regexp{
		job.MM:   regexp.MustCompile(`\d[ \x{a0}]?(in|thou|lb)\b|\d"|inch|\.777`),
		job.Inch: regexp.MustCompile(`\d[ \x{a0}]?(mm|cm|kg)\b|millimetre|7\.77`),
	}
	parted := regexp.MustCompile(`\d (mm|kg|lb|N|%|°|in([.,;]|$))`) // at the end of a line
	for _, s := range everythingSaid(t) {
		if s.file != "table.go" && parted.MatchString(s.text) {
			t.Errorf("%s, %s can part a number from its unit: %q", s.file, s.by, s.text)
		}
	}
	elsewhere := map[string]string{"Table": "lists what was typed as it was typed, its unit beside it", "Letter": "has its own test, with whole jobs in both units",
		"Kits": "names the rules, which have the unit they have"}
	methods, heard := reflect.TypeFor[words.Reader]().NumMethod(), map[string]int{}
	for unit, r := range readers {
		for m := range methods {
			method, name := reflect.ValueOf(r).Method(m), reflect.TypeFor[words.Reader]().Method(m).Name
			if elsewhere[name] != "" {
				continue
			}
			for turn := range 60 {
				for _, s := range say(method, turn) {
					heard[name]++
					if found := parted.FindString(s); found != "" {
						t.Errorf("%s can part a number from its unit in %q: %q", name, found, s)
					}
					if found := foreign[unit].FindString(s); found != "" {
						t.Errorf("%s: %s says %q: %q", unit, name, found, s)
					}
				}
			}
		}
	}
	for m := range methods {
		name := reflect.TypeFor[words.Reader]().Method(m).Name
		if heard[name] == 0 && elsewhere[name] == "" {
			t.Errorf("%s was never heard", name)
		}
	}
	if methods < 60 {
		t.Errorf("only %d methods", methods)
	}
}

// say calls a method with what fits that turn; nothing where that cannot be worked with.
func say(method reflect.Value, turn int) (all []string) {
	defer func() {
		if recover() != nil {
			all = nil
		}
	}()
	var args []reflect.Value
	for i := range method.Type().NumIn() {
		args = append(args, fill(method.Type().In(i), turn+i, 5))
	}
	if method.Type().IsVariadic() {
		return nil
	}
	for _, out := range method.Call(args) {
		all = append(all, texts(out)...)
	}
	return all
}

// Whoever is no reader of a unit names none: the functions that do are these, and why.
func TestUnitsAreNamedByReadersAlone(t *testing.T) {
	may := map[string]string{
		"Marks": "how a rule is marked", "MarkUnit": "the rule's own marks",
		"parse": "what can be typed", "example": "what can be typed", "outOfRange": "what can be typed", "tableTyped": "a table says what was typed",
		"UnitName": "", "About": "", "CheckLine": "", "PaperCheck": "", "Sideways": "", "Together": "",
	}
	unit := regexp.MustCompile(`\b(mm|cm|kg|lb|thou)\b|millimet|\binch(es)?\b|^[ \x{a0}]?in$|\d[ \x{a0}]in\b`)
	seen := map[string]bool{}
	for _, s := range everythingSaid(t) {
		if !unit.MatchString(s.text) {
			continue
		}
		seen[s.by] = true
		if _, ok := may[s.by]; !ok {
			t.Errorf("%s, %s names a unit: %q", s.file, s.by, s.text)
		}
	}
	for by := range may {
		if !seen[by] {
			t.Errorf("%s names no unit any more", by)
		}
	}
}
