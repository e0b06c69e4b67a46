package words_test

import (
	"encoding/csv"
	"slices"
	"strings"
	"testing"

	"gapwright/app/job"
	"gapwright/app/words"
	"gapwright/geometry"
)

// rows reads a table back and finds its columns by their names.
func rows(t *testing.T, text string) (all []map[string]string) {
	t.Helper()
	text, marked := strings.CutPrefix(text, "\ufeff")
	if !marked || !strings.HasSuffix(text, "\r\n") {
		t.Errorf("not marked as UTF-8, or without its last end of line: %q", text)
	}
	read, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, cells := range read[1:] {
		row := map[string]string{}
		for n, name := range read[0] {
			row[name] = cells[n]
		}
		if len(row) != len(read[0]) {
			t.Fatalf("two columns of one name among %q", read[0])
		}
		all = append(all, row)
	}
	return all
}

// want compares some cells of a row, given as name, value, name, value.
func want(t *testing.T, row map[string]string, cells ...string) {
	t.Helper()
	for n := 0; n < len(cells); n += 2 {
		if got, ok := row[cells[n]]; !ok || got != cells[n+1] {
			t.Errorf("%s is %q, want %q", cells[n], got, cells[n+1])
		}
	}
}

func TestTheTableOfReadings(t *testing.T) {
	text, ok := words.Reader{Unit: job.MM}.Table([]job.Record{sanded(t), deepened(t), raised(t), checked(t)})
	all := rows(t, text)
	if !ok || len(all) != 4+3+4+2 {
		t.Fatalf("%d rows", len(all))
	}
	if ends := strings.Count(text, "\r\n"); ends != len(all)+1 || strings.Count(text, "\n") != ends {
		t.Errorf("%d lines end as they should, want %d", ends, len(all)+1)
	}
	// The third fact of the job: 12:03.
	want(t, all[0], "date", "2026-03-04T12:03:00Z", "job", "j1", "work", "sanding", "instrument", "The brown one", "reading", "height", "string (1 is treble)", "6",
		"fret", "12", "held at", "", "and at", "", "read by", "a rule", "low mm", "2.75", "high mm", "3.00", "low as typed", "2.75 mm", "high as typed", "3.00 mm",
		"count", "", "replaces", "", "humidity %", "45", "temperature", "21,5 C")
	want(t, all[3], "string (1 is treble)", "1", "low mm", "2.00", "high mm", "2.25")
	want(t, all[4], "work", "nut slots", "reading", "fret 1 pressed", "fret", "1", "held at", "", "and at", "3", "read by", "feelers", "low mm", "0.30", "high mm", "0.35",
		"humidity %", "")
	// 8/64 in is 3.175 mm and 9/64 in 3.571875: outwards to hundredths.
	want(t, all[7], "work", "strip under the saddle", "low mm", "3.17", "high mm", "3.58", "low as typed", "8/64 in", "high as typed", "9/64 in")
	want(t, all[11], "work", "check", "low mm", "3.00")

	text, _ = words.Reader{Unit: job.Inch}.Table([]job.Record{sanded(t)})
	want(t, rows(t, text)[0], "low in", "0.108", "high in", "0.119", "low as typed", "2.75 mm") // 0.10827 and 0.11811
}

// Names are anybody's; a spreadsheet must not work them out, and every one of them must be read back as it was.
func TestNamesInTheTableDoNoHarm(t *testing.T) {
	for name, kept := range map[string]string{
		"plain":                     "plain",
		"with, a comma":             "with, a comma",
		`with "marks"`:              `with "marks"`,
		"two\nlines":                "two\nlines",
		"Müllers Gitarre – älteste": "Müllers Gitarre – älteste",
		"=1+1":                      "'=1+1",
		"=HYPERLINK(\"x\",\"y\")":   "'=HYPERLINK(\"x\",\"y\")",
		"+49":                       "'+49",
		"-5":                        "'-5",
		"@SUM(A1)":                  "'@SUM(A1)",
		"\t=1":                      "'\t=1",
		"\r\n=1":                    "'\n=1", // encoding/csv reads any end of line as one
	} {
		i := flatTop
		i.Name = name
		r := told(t, job.Began{Method: job.SetRelief, Instrument: i, Kit: quarters}, job.Answered{Question: job.AskRod, Answer: job.RodTurns},
			between(i, job.Place{Feature: job.Relief}, job.Typed{}, mm("0.05")))
		text, _ := words.Reader{Unit: job.MM}.Table([]job.Record{r})
		all := rows(t, text)
		// Not even the thinnest goes in: nothing to 0.05, or bent back by up to half a millimetre.
		want(t, all[0], "instrument", kept, "reading", "relief", "held at", "1", "fret", "6", "and at", "14", "low mm", "-0.50", "high mm", "0.05", "low as typed", "")
	}
}

// What was taken back is not in the table; what was corrected says so; cards and a rule's blank are told as they were typed, also with a comma.
func TestTheTableTellsHowAReadingWasTaken(t *testing.T) {
	cards := job.Read{String: 0, Fret: 12, Way: job.ByCards, Count: 3, TenThick: mm("7,6")}
	again := marks(0, mm("2.25"), mm("2.50"))
	again.Replaces = true
	cut := marks(5, mm("3.00"), mm("3.25"))
	cut.End, cut.EndGive, cut.EndCut = mm("1.00"), mm("0.10"), true
	facts := append([]job.Fact{job.Began{Method: job.SandUnderside, Instrument: flatTop, Kit: quarters}}, answers(job.AskSaddle, job.SaddleLoose)...)
	r := told(t, append(facts, cards, again, cut, marks(5, mm("2.00"), mm("2.25")), job.Undone{Sequence: 6})...)
	text, _ := words.Reader{Unit: job.MM}.Table([]job.Record{r})
	all := rows(t, text)
	if len(all) != 3 {
		t.Fatalf("%d rows: %v", len(all), all)
	}
	want(t, all[0], "read by", "cards", "count", "3", "ten together as typed", "7,6 mm", "low as typed", "", "replaces", "")
	want(t, all[1], "replaces", "yes", "rule end to zero as typed", "")
	want(t, all[2], "rule end to zero as typed", "1.00 mm cut off", "low mm", "1.90", "high mm", "2.35") // 3.00 − 1.10, 3.25 − 0.90
}

func TestEveryJobAndReadingIsNamedInTheTable(t *testing.T) {
	text, ok := words.Reader{Unit: job.MM}.Table(nil)
	if ok || len(rows(t, text)) != 0 {
		t.Errorf("of no job: %q", text)
	}
	var works []string
	for _, m := range append(job.Methods(), job.QuickCheck) {
		r := job.Record{Events: []job.Event{{Job: "j", Sequence: 1, Fact: job.Read{Fret: 12, Way: job.ByCaliper, Low: mm("2.00")}}}}
		r.Method, r.Instrument = m, job.Instrument{Family: geometry.FlatTop6}
		text, _ := words.Reader{Unit: job.MM}.Table([]job.Record{r})
		works = append(works, rows(t, text)[0]["work"])
	}
	slices.Sort(works)
	if all := len(works); len(slices.Compact(works)) != all || works[0] == "" {
		t.Errorf("kinds of work are called %q", works)
	}
}
