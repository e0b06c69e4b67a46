package words_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"gapwright/app/job"
	"gapwright/app/words"
	"gapwright/geometry"
)

func TestEveryRefusalOfAirHasASentence(t *testing.T) {
	for _, r := range readers {
		general, fallback := r.Error(&geometry.RangeError{Quantity: "no such quantity", Got: 9, Min: 1, Max: 2}), r.Error(errors.New("anything"))
		for _, q := range geometry.AirQuantities() {
			if s := r.Error(&geometry.RangeError{Quantity: q, Got: 900, Min: 14, Max: 122}); s == general || len(s) < 20 {
				t.Errorf("%s: %q", q, s)
			}
		}
		for _, err := range job.AirRefusals() {
			if s := r.Error(err); s == fallback {
				t.Errorf("%v has no sentence", err)
			}
		}
	}
}

func TestAirIsSaidAsItWasRead(t *testing.T) {
	for _, c := range []struct {
		air  job.Aired
		want string
	}{
		{job.Aired{Humidity: 45}, "45\u00a0%"}, {job.Aired{Temperature: "70", Scale: job.Fahrenheit}, "70\u00a0°F"},
		{job.Aired{Humidity: 45, Temperature: "21,5", Scale: job.Celsius}, "45\u00a0%, 21.5\u00a0°C"}, {job.Aired{}, ""},
	} {
		if got := words.Air(c.air); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

func TestDriftIsSaidInTheReadersUnit(t *testing.T) {
	i := job.Instrument{Family: geometry.FlatTop6}
	few := geometry.Drift{}
	higher := geometry.Drift{Verdict: geometry.DriftHigher, Readings: 6, Dry: 30, Damp: 70, PerTen: geometry.Interval{Low: 0.08, High: 0.12}}
	lower := geometry.Drift{Verdict: geometry.DriftLower, Readings: 6, Dry: 30, Damp: 70, PerTen: geometry.Interval{Low: -0.12, High: -0.02}}
	same := geometry.Drift{Verdict: geometry.DriftSameAir, Readings: 5, Dry: 42, Damp: 48}
	for _, c := range []struct {
		unit   job.Unit
		drifts [2]geometry.Drift
		want   []string
	}{
		{job.MM, [2]geometry.Drift{few, few}, []string{"A trend with humidity needs at least 4 readings of one setting, with the humidity read."}},
		{job.MM, [2]geometry.Drift{higher, same}, []string{"Bass string: 0.05 to 0.15\u00a0mm higher for every 10\u00a0% more humidity, by 6 readings between 30 and 70\u00a0%.",
			"Treble string: humidity hardly varied so far, 42 to 48\u00a0%, so nothing can be said of its part.",
			"So expect it higher in damp seasons and lower where rooms are heated."}},
		{job.Inch, [2]geometry.Drift{higher, lower}, []string{"Bass string: 0.003 to 0.005\u00a0in higher for every 10\u00a0% more humidity, by 6 readings between 30 and 70\u00a0%.",
			"Treble string: up to 0.005\u00a0in lower for every 10\u00a0% more humidity, by 6 readings between 30 and 70\u00a0%."}},
	} {
		got := words.Reader{Unit: c.unit}.Drift(i, c.drifts)
		if strings.Join(got, "\n") != strings.Join(c.want, "\n") {
			t.Errorf("%s:\n%s\nwant\n%s", c.unit, strings.Join(got, "\n"), strings.Join(c.want, "\n"))
		}
	}
	seen := map[string]bool{}
	for _, v := range geometry.DriftVerdicts() {
		text := strings.Join(readers[job.MM].Drift(i, [2]geometry.Drift{{Verdict: v, Readings: 5, Dry: 1, Damp: 2, PerTen: geometry.Interval{Low: 1, High: 2}}, few}), " ")
		if seen[text] {
			t.Errorf("%d is said as another", v)
		}
		seen[text] = true
	}
}

// At 20 °C wood goes to 6.96 % in air of 35 %, to 11.00 % in air of 60 % (the published formula).
func TestWoodIsSaidInWholePercent(t *testing.T) {
	dry, damp := &job.Aired{Humidity: 35}, &job.Aired{Humidity: 60, Temperature: "68", Scale: job.Fahrenheit}
	for _, c := range []struct {
		set, now *job.Aired
		want     string
	}{
		{nil, nil, ""}, {dry, nil, ""}, {dry, &job.Aired{Temperature: "20", Scale: job.Celsius}, ""},
		{nil, damp, "The air of the newest reading takes wood towards 11\u00a0% moisture. It follows within days to weeks."},
		{dry, damp, "The air of the newest reading takes wood towards 11\u00a0% moisture; that of the last setting, towards 7\u00a0%. It follows within days to weeks."},
		{dry, &job.Aired{Humidity: 36}, "The air takes wood towards 7\u00a0% moisture, as when it was last set. It follows within days to weeks."},
	} {
		if got := words.Wood(c.set, c.now); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

func TestTrustIsSaidPlainly(t *testing.T) {
	for _, c := range []struct {
		trust job.Trust
		want  string
	}{
		{job.Trust{}, ""},
		{job.Trust{Times: 1, Agreed: 1}, "The one new height so far agreed with what was foretold."},
		{job.Trust{Times: 2, Agreed: 2}, "Both new heights so far agreed with what was foretold."},
		{job.Trust{Times: 4, Agreed: 4}, "All 4 new heights so far agreed with what was foretold."},
		{job.Trust{Times: 4, Agreed: 3, Under: 1, MostUnder: 0.12}, "3 of 4 new heights agreed with what was foretold; once it was lower, by at least 0.10\u00a0mm."},
		{job.Trust{Times: 4, Agreed: 1, Under: 2, MostUnder: 0.02, Over: 1, MostOver: 0.3},
			"1 of 4 new heights agreed with what was foretold; 2 times it was lower, by less than 0.05\u00a0mm; once it was higher, by at least 0.30\u00a0mm."},
	} {
		if got := words.Trust(readers[job.MM], c.trust); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
	if got := words.TrustPlan(readers[job.MM], job.Trust{}); got != "" {
		t.Errorf("%q", got)
	}
	low := words.TrustPlan(readers[job.Inch], job.Trust{Times: 2, Agreed: 1, Under: 1, MostUnder: 0.1})
	if low != "On this instrument: 1 of 2 new heights agreed with what was foretold; once it was lower, by at least 0.003\u00a0in. It may end lower again: stop a little early and measure." {
		t.Errorf("%q", low)
	}
}

func TestScalesHaveRoundMarks(t *testing.T) {
	text := func(all []words.ScaleMark) string {
		var s []string
		for _, m := range all {
			s = append(s, m.Text)
		}
		return strings.Join(s, " ")
	}
	for _, c := range []struct {
		got, want string
	}{
		{text(readers[job.MM].Scale(1.92, 3.08)), "2.00 2.50 3.00"}, {text(readers[job.MM].Scale(-0.12, 0.28)), "0.00 0.20"},
		{text(readers[job.Inch].Scale(1.9, 2.4)), "0.080 0.090"}, {text(words.PercentScale(36, 62)), "40 50 60"}, {text(words.PercentScale(10, 98)), "50"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
	for _, m := range readers[job.Inch].Scale(1.9, 2.4) {
		if m.At < 1.9 || m.At > 2.4 {
			t.Errorf("%+v", m)
		}
	}
}

func TestDaysWorthMarking(t *testing.T) {
	day := func(y, m, d int) time.Time { return time.Date(y, time.Month(m), d, 9, 0, 0, 0, time.UTC) }
	for _, c := range []struct {
		from, to time.Time
		want     string
	}{
		{day(2026, 3, 1), day(2026, 3, 30), ""}, {day(2025, 11, 2), day(2026, 3, 2), "Dec 2026 Feb Mar"}, {day(2023, 6, 1), day(2026, 2, 1), "2024 2025 2026"},
		{day(2026, 5, 1), day(2026, 1, 1), ""}, {day(1900, 1, 1), day(2300, 1, 1), ""},
	} {
		var got []string
		for _, d := range words.Between(c.from, c.to) {
			if d.At.Before(c.from) || d.At.After(c.to) {
				t.Errorf("%v is outside", d.At)
			}
			got = append(got, d.Text)
		}
		if strings.Join(got, " ") != c.want {
			t.Errorf("%v, want %q", got, c.want)
		}
	}
}

func TestAnEntryTellsWhatWasRead(t *testing.T) {
	i := job.Instrument{Family: geometry.FlatTop6}
	read := func(low, high geometry.Length) job.LetterRead {
		return job.LetterRead{Known: true, Range: geometry.Interval{Low: low, High: high}}
	}
	e := job.Entry{At: time.Date(2026, 3, 4, 0, 0, 0, 0, time.UTC), Method: job.SandUnderside, Ended: job.AsSaved, Changed: true,
		Found: [2]job.LetterRead{read(2.75, 3), read(2, 2.25)}, Left: [2]job.LetterRead{read(2.25, 2.5)}, ReliefRead: true,
		Relief: geometry.Interval{Low: 0.1, High: 0.15}, Air: &job.Aired{Humidity: 45}, OtherSet: true,
		Set: &job.Stringing{Gauges: []job.Gauge{{Diameter: job.Typed{Text: "1.35", Unit: job.MM}}, {}, {Diameter: job.Typed{Text: "0.3", Unit: job.MM}}}}}
	want := "4 Mar 2026: saddle sanded: Bass 2.25 to 2.50\u00a0mm, was 2.75 to 3.00\u00a0mm; Treble was 2.00 to 2.25\u00a0mm; Relief 0.10 to 0.15\u00a0mm; Air in the room 45\u00a0%; Other strings, 0.30 to 1.35\u00a0mm thick."
	if got := readers[job.MM].HistoryText(i, []job.Entry{e}); got != want {
		t.Errorf("%s\nwant\n%s", got, want)
	}
	names := map[string]bool{}
	for _, m := range append(job.Methods(), job.QuickCheck) {
		e.Method = m
		names[words.EntryName(e)] = true
	}
	if e.Ended = job.Away; words.EntryName(e) != "4 Mar 2026: check, put away" || len(names) != 8 {
		t.Errorf("%v", names)
	}
	if got := readers[job.Inch].HistoryText(i, []job.Entry{e}); strings.Contains(got, "mm") {
		t.Error(got)
	}
	for n, want := range map[int]string{0: "Nothing is over yet. Every finished job and check is kept here.", 1: "1 check, the newest first.", 3: "2 jobs, 1 check, the newest first."} {
		all := []job.Entry{{Method: job.QuickCheck}, {}, {}}[:n]
		if got := words.HistoryLead(all); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
