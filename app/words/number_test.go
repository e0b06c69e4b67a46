package words_test

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"gapwright/app/job"
	"gapwright/app/words"
	"gapwright/geometry"
)

// Whatever another language would say in its own way is decided in number.go: no other file turns a number into digits, counts, or says a range or a list.
func TestNumbersCountsRangesAndListsAreSaidInOnePlace(t *testing.T) {
	files, err := filepath.Glob("*.go")
	if err != nil || len(files) < 20 {
		t.Fatalf("%d sources: %v", len(files), err)
	}
	// A file's name and the cells of a table are read by machines.
	foreign := regexp.MustCompile(`"strconv"|"fmt"|"math/big"|months\[|== 1 \{\s*return "(is|was|1 )|Join\([a-z]+, " (and|or) "\)`)
	for _, f := range files {
		if f == "number.go" || strings.HasSuffix(f, "_test.go") {
			continue
		}
		text, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		if found := foreign.Find(text); found != nil {
			t.Errorf("%s has %q", f, found)
		}
	}
	for _, s := range everythingSaid(t) {
		if s.file != "number.go" && (s.text == " and " || s.text == " or " || strings.Contains(s.text, "one to one")) {
			t.Errorf("%s, %s says a range or a list by itself: %q", s.file, s.by, s.text)
		}
	}
}

func TestNumbersAreSaidAsTheLanguageHasThem(t *testing.T) {
	mm, in := readers[job.MM], readers[job.Inch]
	for _, c := range []struct{ got, want string }{
		{words.Strokes(0), "0 strokes"},
		{words.Strokes(1), "1 stroke"},
		{words.Strokes(2), "2 strokes"},
		{words.AsideSize(1), "1 character"},
		{words.AsideSize(9999), "9999 characters"},
		{words.AsideSize(10000), "10\u202f000 characters"},
		{words.AsideSize(1234567), "1\u202f234\u202f567 characters"},
		{words.Large(-5), "-5"},
		{words.SetAside(1), "1 stored text could not be read and is kept aside. Nothing was written over."},
		{words.SetAside(2), "2 stored texts could not be read and are kept aside. Nothing was written over."},
		{words.Day(time.Date(2026, 3, 4, 12, 0, 0, 0, time.UTC)), "4 Mar 2026"},
		{words.Age(90 * time.Minute), "90 minutes ago"},
		{words.Age(25 * time.Hour), "25 hours ago"},
		{words.Eighths(-3), "⅜ turn down"},
		{words.Eighths(8), "1 turn up"},
		{words.Eighths(11), "1⅜ turns up"},
		{mm.Span(geometry.Interval{Low: 2.25, High: 2.5}), "2.25 to 2.50\u00a0mm"},
		// A wish that was made in the other unit: 2.25 mm is 0.0886 in, 1.80 mm is 0.0709 in; 6/64 in is 2.38 mm.
		{in.Heights(typed("2.25"), typed("1.80")), "bass 0.089, treble 0.071\u00a0in"},
		{in.AimFor(typed("2.25"), typed("1.80")), "Bass 0.089, treble 0.071\u00a0in"},
		{mm.Heights(job.Typed{Text: "6/64", Unit: job.Inch}, typed("1.80")), "bass 2.40, treble 1.80\u00a0mm"},
	} {
		if c.got != c.want {
			t.Errorf("said %q, want %q", c.got, c.want)
		}
	}
}

func typed(text string) job.Typed { return job.Typed{Text: text, Unit: job.MM} }
