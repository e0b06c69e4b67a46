package job

import (
	"errors"
	"os"
	"strings"
	"testing"
	"time"

	"gapwright/geometry"
)

// played is the record of a whole job script, with facts put in before its last one.
func played(t *testing.T, name string, before ...Fact) Record {
	t.Helper()
	text, err := os.ReadFile("../../testdata/jobs/" + name + ".txt")
	if err != nil {
		t.Fatal(err)
	}
	s := script{now: noon}
	for _, line := range strings.Split(string(text), "\n") {
		line, _, _ = strings.Cut(line, "#")
		if strings.TrimSpace(line) == "" || strings.HasPrefix(line, " ") {
			continue
		}
		if strings.HasPrefix(line, "saved") {
			s.record = must(t, s.record, before...)
		}
		if err := s.step(strings.Fields(line)); err != nil {
			t.Fatalf("%s: %s: %v", name, line, err)
		}
	}
	return s.record
}

func TestAirThatCanBe(t *testing.T) {
	for _, c := range []struct {
		air     Aired
		celsius float64
		read    bool
	}{
		{Aired{}, 0, false}, {Aired{Humidity: 45}, 0, false}, {Aired{Humidity: 1, Temperature: "21", Scale: Celsius}, 21, true},
		{Aired{Temperature: " 21,5 ", Scale: Celsius}, 21.5, true}, {Aired{Temperature: "68", Scale: Fahrenheit}, 20, true},
		{Aired{Temperature: "−4", Scale: Celsius}, -4, true}, {Aired{Temperature: "+14", Scale: Fahrenheit}, -10, true}, {Aired{Humidity: 100}, 0, false},
	} {
		celsius, read := c.air.Celsius()
		if err := c.air.Check(); err != nil || read != c.read || read && (celsius < c.celsius-1e-9 || celsius > c.celsius+1e-9) {
			t.Errorf("%+v: %v %v %v", c.air, celsius, read, err)
		}
	}
}

func TestAirThatCannotBe(t *testing.T) {
	var out *geometry.RangeError
	for _, c := range []struct {
		air      Aired
		quantity geometry.Quantity
		low, top float64
	}{
		{Aired{Humidity: 101}, geometry.QuantityHumidity, 1, 100}, {Aired{Humidity: -3}, geometry.QuantityHumidity, 1, 100},
		{Aired{Temperature: "70", Scale: Celsius}, geometry.QuantityCelsius, -10, 50}, {Aired{Temperature: "-11", Scale: Celsius}, geometry.QuantityCelsius, -10, 50},
		{Aired{Temperature: "13", Scale: Fahrenheit}, geometry.QuantityFahrenheit, 14, 122}, {Aired{Temperature: "123", Scale: Fahrenheit}, geometry.QuantityFahrenheit, 14, 122},
	} {
		if err := c.air.Check(); !errors.As(err, &out) || out.Quantity != c.quantity || out.Min != c.low || out.Max != c.top {
			t.Errorf("%+v: %v", c.air, err)
		}
	}
	for _, text := range []string{"warm", "1e1", "0x10", "NaN", "21 C", "2.1.5", "--2", "21", "-", "2100000000000"} {
		scale := Celsius
		if text == "21" {
			scale = "K"
		}
		if err := (Aired{Temperature: text, Scale: scale}).Check(); !errors.Is(err, ErrTemperature) {
			t.Errorf("%q: %v", text, err)
		}
	}
}

func TestHumidityAsTyped(t *testing.T) {
	for text, want := range map[string]int{"": 0, " ": 0, "45": 45, " 45 % ": 45, "100%": 100, "1": 1} {
		if got, err := HumidityOf(text); err != nil || got != want {
			t.Errorf("%q: %d, %v", text, got, err)
		}
	}
	var out *geometry.RangeError
	for _, text := range []string{"0", "101", "-5", "%%", "45.5", "45,5", "damp", "99999999999999999999", "4 5"} {
		if _, err := HumidityOf(text); !errors.Is(err, ErrHumidity) && !errors.As(err, &out) {
			t.Errorf("%q: %v", text, err)
		}
	}
}

func TestTheRoomIsKeptWithTheBaseline(t *testing.T) {
	dry, damp := Aired{Humidity: 35}, Aired{Humidity: 60, Temperature: "21", Scale: Celsius}
	r := must(t, Record{}, toSave...)
	if _, said := r.Room(); said {
		t.Error("nobody said anything of the room")
	}
	if _, err := apply(r, Aired{Humidity: 200}); err == nil {
		t.Error("air of 200 % was taken")
	}
	said := must(t, r, dry, damp)
	if air, ok := said.Room(); !ok || air != damp {
		t.Errorf("%+v", air)
	}
	sequence, _, _ := said.Undoable()
	if air, ok := must(t, said, Undone{sequence}).Room(); !ok || air != dry {
		t.Errorf("the last word taken back, it is %+v", air)
	}
	if _, ok := must(t, said, Aired{}).Room(); ok {
		t.Error("not measured is an answer too")
	}
	if base := must(t, said, Saved{}).Baseline(); base == nil || base.Air == nil || *base.Air != damp {
		t.Errorf("%+v", base)
	}
	if base := must(t, r, Saved{}).Baseline(); base == nil || base.Air != nil {
		t.Errorf("%+v", base)
	}
	old := later(t, r, 25*time.Hour, damp) // the air of the day after is not that of the readings
	if base := must(t, old, Saved{}).Baseline(); base == nil || base.Air != nil {
		t.Errorf("%+v", base)
	}
}

// The two rounds of mm-pencil-two-rounds, whose predictions are worked out there.
func TestAJobsEntry(t *testing.T) {
	air := Aired{Humidity: 48}
	e, ok := played(t, "mm-pencil-two-rounds", air).Entry()
	if !ok || e.Method != SandUnderside || e.Ended != AsSaved || !e.Proven || !e.Changed || e.Fret != 12 || e.Held != 0 || e.ReliefRead {
		t.Fatalf("%+v", e)
	}
	if e.Air == nil || *e.Air != air {
		t.Errorf("air %+v", e.Air)
	}
	for side, want := range [2][2]geometry.Interval{{{Low: 2.75, High: 3}, {Low: 2.25, High: 2.5}}, {{Low: 2, High: 2.25}, {Low: 1.75, High: 2}}} {
		if !e.Found[side].Known || !e.Left[side].Known {
			t.Fatalf("%+v", e)
		}
		near2(t, "found", e.Found[side].Range, want[0], 1e-9)
		near2(t, "left", e.Left[side].Range, want[1], 1e-9)
	}
	if !e.FoundAt.Before(e.LeftAt) || e.At.Before(e.LeftAt) {
		t.Errorf("found %v, left %v, ended %v", e.FoundAt, e.LeftAt, e.At)
	}
	want := []Foretold{
		{SandUnderside, 1, 0, geometry.Interval{Low: 2.49375, High: 2.84375}, geometry.Interval{Low: 2.5, High: 2.75}},
		{SandUnderside, 1, 5, geometry.Interval{Low: 1.85625, High: 2.20625}, geometry.Interval{Low: 2, High: 2.25}},
		{SandUnderside, 2, 0, geometry.Interval{Low: 2.25, High: 2.65}, geometry.Interval{Low: 2.25, High: 2.5}},
		{SandUnderside, 2, 5, geometry.Interval{Low: 1.75, High: 2.15}, geometry.Interval{Low: 1.75, High: 2}},
	}
	if len(e.Foretold) != len(want) {
		t.Fatalf("%+v", e.Foretold)
	}
	for i, f := range e.Foretold {
		if f.Method != want[i].Method || f.Round != want[i].Round || f.Course != want[i].Course {
			t.Errorf("%+v, want %+v", f, want[i])
		}
		near2(t, "predicted", f.Predicted, want[i].Predicted, 1e-5)
		near2(t, "read", f.Read, want[i].Read, 1e-9)
	}
	if got := TrustIn([]Entry{e}, ""); got != (Trust{Times: 4, Agreed: 4}) {
		t.Errorf("%+v", got)
	}
	if got := TrustIn([]Entry{e}, ByScrews); got.Times != 0 {
		t.Errorf("nothing was foretold of screws: %+v", got)
	}
}

func TestAJobOnTheNeckHasItsRelief(t *testing.T) {
	e, ok := played(t, "relief-two-turns").Entry()
	if !ok || !e.ReliefRead || !e.Changed || e.Found[0].Known || e.Left[0].Known || len(e.Foretold) != 0 {
		t.Fatalf("%+v", e)
	}
	near2(t, "relief", e.Relief, geometry.Interval{Low: 0.2005, High: 0.25063}, 1e-4) // 0.20 and 0.25 over 0.997506
}

func TestEveryScriptHasAnEntryOnceItIsOver(t *testing.T) {
	over := 0
	for _, name := range []string{"caliper", "no-proof", "screws-two", "posts-plate", "strip-even", "new-saddle-nylon", "nut-slots-open", "too-much-and-shims", "papers",
		"inch-cannot-tell-keep", "age-and-strings", "stops"} {
		r := played(t, name)
		e, ok := r.Entry()
		if ok != (r.Ended != Open) {
			t.Errorf("%s: ended %q, entry %v", name, r.Ended, ok)
		}
		if ok {
			over++
		}
		for _, f := range e.Foretold {
			if !f.Predicted.Valid() || !f.Read.Valid() {
				t.Errorf("%s: %+v", name, f)
			}
		}
	}
	if over < 8 {
		t.Errorf("only %d are over", over)
	}
}

// checkOf is a check of both outer strings read by caliper, ten days after the other.
func checkOf(t *testing.T, n int, humidity int, bass, treble string) Record {
	t.Helper()
	var r Record
	for _, f := range []Fact{Began{Method: QuickCheck, Instrument: flatTop.Instrument, Kit: flatTop.Kit}, reading(0, bass), reading(5, treble), Aired{Humidity: humidity}} {
		next, err := r.Apply(Event{Job: "check", Sequence: len(r.Events) + 1, Writer: "w", At: noon.Add(time.Duration(n) * 240 * time.Hour), Fact: f})
		if err != nil {
			t.Fatalf("%+v: %v", f, err)
		}
		r = next
		if _, over := r.Entry(); over != (len(r.Events) >= 3) {
			t.Fatalf("after %d facts over is %v", len(r.Events), over)
		}
	}
	return r
}

// Four checks at 30, 40, 60 and 70 %: 2.00, 2.10, 2.30, 2.40 by a caliper good to 0.03: 0.1 mm for ten percent, by 2·10·(0.06/√12)/√1000 = 0.010954
// either way. A job between them makes two settings of it.
func TestChecksTellADrift(t *testing.T) {
	var checks []Record
	for n, c := range []struct {
		humidity     int
		bass, treble string
	}{{30, "2.00", "1.70"}, {40, "2.10", "1.70"}, {60, "2.30", "1.70"}, {70, "2.40", "1.70"}} {
		checks = append(checks, checkOf(t, n, c.humidity, c.bass, c.treble))
	}
	entries := Entries(checks)
	if len(entries) != 4 || entries[0].Changed || entries[0].Left[0].Known || entries[0].Air == nil {
		t.Fatalf("%+v", entries)
	}
	d, err := DriftOf(entries, 0)
	if err != nil || d.Verdict != geometry.DriftHigher || d.Readings != 4 {
		t.Fatalf("%+v, %v", d, err)
	}
	near2(t, "for ten percent", d.PerTen, geometry.Interval{Low: 0.089046, High: 0.110954}, 1e-5)
	if d, _ := DriftOf(entries, 1); d.Verdict != geometry.DriftCannotBe {
		t.Errorf("the treble string did not move: %+v", d)
	}
	if d, _ := DriftOf(entries[:3], 0); d.Verdict != geometry.DriftTooFew {
		t.Errorf("%+v", d)
	}
	work, _ := played(t, "mm-pencil-two-rounds").Entry()
	between := []Entry{entries[0], entries[1], work, entries[2], entries[3]}
	if d, _ := DriftOf(between, 0); d.Verdict != geometry.DriftTooFew || d.Readings != 4 { // two and two leave one degree of freedom
		t.Errorf("%+v", d)
	}
	restrung := append([]Record(nil), checks...)
	for n, capo := range []int{1, 1, 0, 2} {
		if restrung[n].Instrument.Set = nil; capo > 0 {
			restrung[n].Instrument.Set = &Stringing{Capo: capo}
		}
	}
	other := Entries(restrung)
	for n, want := range []bool{true, false, false, true} {
		if other[n].OtherSet != want {
			t.Errorf("entry %d has other strings: %v", n, other[n].OtherSet)
		}
	}
	if d, _ := DriftOf(other, 0); d.Readings != 3 {
		t.Errorf("the last is alone with its strings: %+v", d)
	}
	other[2].OtherSet, other[3].OtherSet = true, false
	if d, _ := DriftOf(other, 0); d.Readings != 4 || d.Verdict != geometry.DriftTooFew {
		t.Errorf("other strings: %+v", d)
	}
	entries[1].Held = 1
	here, elsewhere := flatTop.Instrument.AtPlace(entries)
	if len(here) != 3 || elsewhere != 1 {
		t.Errorf("%d here, %d elsewhere", len(here), elsewhere)
	}
}

func TestTrustCountsWhatWasMissed(t *testing.T) {
	in := func(low, high geometry.Length) geometry.Interval { return geometry.Interval{Low: low, High: high} }
	e := []Entry{{Foretold: []Foretold{
		{SandUnderside, 1, 0, in(2.2, 2.4), in(2.3, 2.5)}, {SandUnderside, 1, 5, in(2.2, 2.4), in(1.9, 2.05)}, // under by at least 0.15
		{SandUnderside, 2, 0, in(2.2, 2.4), in(2.0, 2.1)}, {ByScrews, 1, 0, in(2.2, 2.4), in(2.5, 2.6)},
	}}}
	got := TrustIn(e, "")
	if got.Times != 4 || got.Agreed != 1 || got.Under != 2 || got.Over != 1 || abs(got.MostUnder-0.15) > 1e-9 || abs(got.MostOver-0.1) > 1e-9 {
		t.Errorf("%+v", got)
	}
	if got := TrustIn(e, SandUnderside); got.Times != 3 || got.Over != 0 {
		t.Errorf("%+v", got)
	}
}

func TestAChartHasWhatWasRead(t *testing.T) {
	work, _ := played(t, "mm-pencil-two-rounds", Aired{Humidity: 48}).Entry()
	gaps := work.Gaps(0)
	if len(gaps) != 2 || gaps[0].Left || !gaps[1].Left || gaps[0].High != 3 || gaps[1].Low != 2.25 || !gaps[0].At.Before(gaps[1].At) {
		t.Errorf("%+v", gaps)
	}
	if airs := work.Airs(); len(airs) != 1 || airs[0].Low != 48 || airs[0].High != 48 || !airs[0].At.Equal(work.LeftAt) {
		t.Errorf("%+v", airs)
	}
	if len(work.Reliefs()) != 0 {
		t.Error("no relief was read")
	}
	neck, _ := played(t, "relief-two-turns").Entry()
	if reliefs := neck.Reliefs(); len(reliefs) != 1 || !reliefs[0].Left || !reliefs[0].At.Equal(neck.At) || len(neck.Gaps(0)) != 0 || len(neck.Airs()) != 0 {
		t.Errorf("%+v", reliefs)
	}
	check, _ := checkOf(t, 3, 60, "2.3", "1.8").Entry()
	from, to, ok := Stretch([]Entry{check, work})
	if !ok || !from.Equal(work.FoundAt) || !to.Equal(check.FoundAt) {
		t.Errorf("%v to %v", from, to)
	}
	if _, _, ok := Stretch(nil); ok {
		t.Error("nothing has no time")
	}
	damp := check
	damp.Ended = AsSaved
	if set, now := LastAir([]Entry{damp, work, check}); set.Humidity != 48 || now.Humidity != 60 {
		t.Errorf("%+v, %+v", set, now)
	}
}

func TestAsSetIsDrawnWhereItStillHolds(t *testing.T) {
	i := flatTop.Instrument
	if _, ok := i.SetPoint(0); ok {
		t.Error("it was never set")
	}
	set := must(t, must(t, Record{}, toSave...), Saved{}).Baseline()
	i.AsSet = set
	bass, err := set.Interval(0)
	if p, ok := i.SetPoint(0); err != nil || !ok || p.Low != float64(bass.Low) || p.High != float64(bass.High) || !p.At.Equal(set.At) {
		t.Errorf("%+v, want %v (%v)", p, bass, err)
	}
	elsewhere := i
	elsewhere.Fret = 14
	moved := *set
	moved.Moved = true
	for _, other := range []Instrument{elsewhere, {Family: i.Family, AsSet: &moved}} {
		if p, ok := other.SetPoint(0); ok {
			t.Errorf("%+v", p)
		}
	}
}

func TestDegreesAreThoseUsedBefore(t *testing.T) {
	r := must(t, Record{}, toSave...)
	r.Kit.Unit = MM
	if got := r.UsualDegrees(); got != Celsius {
		t.Errorf("in millimetres %s", got)
	}
	if r.Kit.Unit = Inch; r.UsualDegrees() != Fahrenheit {
		t.Error("in inches Celsius")
	}
	r.Instrument.AsSet = &AsSet{Air: &Aired{Temperature: "20", Scale: Celsius}}
	if r.UsualDegrees() != Celsius {
		t.Error("it was Celsius last time")
	}
	if r = must(t, r, Aired{Temperature: "70", Scale: Fahrenheit}); r.UsualDegrees() != Fahrenheit {
		t.Error("it was Fahrenheit just now")
	}
}
