package store

import (
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"gapwright/app/job"
	"gapwright/geometry"
)

// Every document that a released version wrote stays in testdata/documents and opens at the same place for ever. A file's first line says what
// is expected of the text in its second. `go test ./app/store -run Released -release` adds files for what is not there yet and never touches
// one that is.
var release = flag.Bool("release", false, "add missing samples of the documents that this version writes")

const released = "../../testdata/documents"

func TestReleasedDocumentsOpenAtTheSamePlace(t *testing.T) {
	if *release {
		addSamples(t)
	}
	files, err := filepath.Glob(filepath.Join(released, "v*", "*.txt"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no released documents found: %v", err)
	}
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			data, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			lines := strings.SplitN(strings.TrimRight(string(data), "\n"), "\n", 3)
			if len(lines) != 3 {
				t.Fatalf("%s has %d lines, not a key, what is expected, and a text", file, len(lines))
			}
			doc, outcome := JobKinds().Decode(lines[0], lines[2])
			if outcome != Fine && outcome != Migrated {
				t.Fatalf("reads as outcome %d", outcome)
			}
			if got := told(t, doc); got != lines[1] {
				t.Errorf("opens as\n%s\nwant\n%s", got, lines[1])
			}
		})
	}
}

// A version's samples say everything that came with it: a part that no sample has could be lost without a test.
func TestSamplesHaveWhatIsNewInTheirVersion(t *testing.T) {
	for version, parts := range map[string][]string{
		"v1": {`"fact":"read"`, `"fact":"looked"`, `"fact":"checked"`, `"fact":"undone"`, `"asSet"`, `"zeroDist"`},
		"v2": {`"fact":"surveyed"`, `"fact":"listened"`, `"fact":"adjusted"`, `"fact":"left-alone"`, `"for"`, `"body":14`, `"frets"`, `"radius"`, `"strings":{`,
			`"tuning"`, `"capo"`, `"gauges"`, `"card"`, `"strips":[{`, `"papers"`, `"neck"`, `"rod"`, `"touch"`},
		"v3": {`"bridge"`, `"trebleScale"`, `"turns":{`, `"thread"`, `"turned"`, `"moved"`, `"give"`, `"screws"`, `"apart"`, `"behind"`, `"rest"`, `"fact":"screwed"`,
			`"fact":"filed"`, `"first-fret-pressed"`, `"moved":true`},
		"v4": {`"owner"`, `"tags"`, `"archived"`, `"usual":{`, `"beginner"`, `"fact":"aired"`, `"air"`, `"checked"`, `"method":"check"`, `"strings":{`, `"fact":"made"`},
	} {
		files, _ := filepath.Glob(filepath.Join(released, version, "*.txt"))
		var all strings.Builder
		for _, file := range files {
			data, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			all.Write(data)
		}
		for _, part := range parts {
			if !strings.Contains(all.String(), part) {
				t.Errorf("no sample of %s has %s", version, part)
			}
		}
	}
}

// told says in one line what a document is to the app today.
func told(t *testing.T, doc Document) string {
	t.Helper()
	switch doc.Kind {
	case KindKit:
		var kit job.Kit
		if err := json.Unmarshal(doc.Body, &kit); err != nil {
			t.Fatal(err)
		}
		return fmt.Sprintf("unit %s, rule %s, zero %s %s, caliper %s, grit %d, short %v", kit.Unit, kit.Marks, kit.Zero, kit.ZeroDist.Text, kit.Caliper, kit.Grit, kit.Short) + toHand(kit)
	case KindInstrument:
		var i job.Instrument
		if err := json.Unmarshal(doc.Body, &i); err != nil {
			t.Fatal(err)
		}
		bass, err := i.AsSet.Interval(0)
		return fmt.Sprintf("%s, %s, scale %s %s, read at %d, as set bass %.3f to %.3f %v", i.Name, i.Family, i.Scale.Text, i.Scale.Unit, i.ReadFret(), float64(bass.Low), float64(bass.High), err) + more(i)
	}
	if doc.Kind == KindHistory {
		var past HistoryBody
		if err := json.Unmarshal(doc.Body, &past); err != nil {
			t.Fatal(err)
		}
		return fmt.Sprintf("jobs %v", past.Jobs)
	}
	r, _, err := decodeJob(doc.Body)
	if err != nil {
		t.Fatal(err)
	}
	line := fmt.Sprintf("round %d, step %s", len(r.Rounds), r.Step())
	bass, err := r.Before(0)
	if errors.Is(err, geometry.ErrNoReading) {
		return line + ", nothing read yet" + neck(r)
	}
	return line + fmt.Sprintf(", bass %.3f to %.3f, %d strokes, ended %q", float64(bass.Low), float64(bass.High), r.Current().Strokes(), r.Ended) + more(r.Instrument) + neck(r)
}

// toHand says what kits say since version 2, and nothing where they do not.
func toHand(k job.Kit) (line string) {
	if k.Card != 0 {
		line += fmt.Sprintf(", card %d", k.Card)
	}
	if k.Papers != "" {
		line += ", papers " + k.Papers
	}
	for _, s := range k.Strips {
		if s != (job.Strip{}) {
			line += fmt.Sprintf(", %d strips of %s %s, ten %v", s.Count, s.Thick.Text, s.Thick.Unit, s.Ten)
		}
	}
	return line
}

// more says what instruments say since versions 2 and 3, and nothing where they do not.
func more(i job.Instrument) (line string) {
	if i.Bridge != "" || i.Treble.Given() {
		line += fmt.Sprintf(", bridge %s, treble scale %s %s", i.Bridge, i.Treble.Text, i.Treble.Unit)
	}
	if h := i.Turns; h != (job.Hardware{}) {
		line += fmt.Sprintf(", thread %q, %d eighths move %s %s give %s, %d screws, posts %s apart, strings %s behind, rest %s", h.Thread, h.Turned, h.Moved.Text, h.Moved.Unit,
			h.Give.Text, h.Screws, h.Apart.Text, h.Behind.Text, h.Rest.Text)
	}
	if i.Body != 0 || i.Frets != 0 || i.Radius.Given() {
		line += fmt.Sprintf(", body at %d, %d frets, radius %s %s", i.Body, i.Frets, i.Radius.Text, i.Radius.Unit)
	}
	if i.Set != nil {
		line += fmt.Sprintf(", capo at %d, tuning %v, set %q, %d gauges", i.Set.Capo, i.Set.Tuning, i.Set.Published, len(i.Set.Gauges))
		for _, g := range i.Set.Gauges[:min(1, len(i.Set.Gauges))] {
			line += fmt.Sprintf(" from %s %s %s %s", g.Make, g.Diameter.Text, g.Diameter.Unit, g.Weight)
		}
	}
	if i.Owner != "" || i.Tags != "" || i.Archived || !i.Checked.IsZero() {
		line += fmt.Sprintf(", of %s, tags %q, archived %v, checked %v", i.Owner, i.Tags, i.Archived, i.Checked)
	}
	if i.Wont != nil {
		line += fmt.Sprintf(", usual %+v", *i.Wont)
	}
	if i.AsSet != nil && i.AsSet.Air != nil {
		line += fmt.Sprintf(", set in air %+v", *i.AsSet.Air)
	}
	if i.AsSet != nil && i.AsSet.Set != nil {
		line += fmt.Sprintf(", set with strings %v", i.AsSet.Set.Tuning)
	}
	if i.AsSet != nil && i.AsSet.Moved {
		line += ", moved since it was set"
	}
	if set := i.AsSet; set != nil && len(set.Neck)+len(set.Rod)+len(set.Touch) > 0 {
		line += ", as set"
		for _, s := range set.Neck {
			line += ", " + surveyed(s)
		}
		for _, turn := range set.Rod {
			line += fmt.Sprintf(", %d eighths from %s to %s", turn.Eighths, surveyed(turn.Before), surveyed(turn.After))
		}
		for _, k := range set.Touch {
			line += fmt.Sprintf(", side %d needs %s to %s %s", k.Side, k.Low.Text, k.High.Text, k.Low.Unit)
		}
	}
	return line
}

// neck says what of the neck was read and heard, and nothing where nothing was.
func neck(r job.Record) (line string) {
	for _, s := range r.SurveyList() {
		line += ", " + surveyed(s)
	}
	for course := range r.Instrument.Kind().Courses {
		for _, h := range r.Heard(course) {
			line += fmt.Sprintf(", heard %+v", h)
		}
	}
	if r.Method == job.NutSlots {
		line += fmt.Sprintf(", slot of string 0 %s, wanted %.3f", r.NutSlot(0, 0).State, float64(r.NutSlot(0, 0).Wanted))
	}
	if air, ok := r.Room(); ok {
		line += fmt.Sprintf(", in air %+v", air)
	}
	if made := r.Current().Made; len(made) > 0 {
		line += fmt.Sprintf(", made %v", made)
	}
	if turned := r.Current().Turned; turned != nil {
		line += fmt.Sprintf(", turned %v", turned.Eighths)
	}
	if w, ok := r.Present(); ok && w.For != "" {
		line += ", for " + string(w.For)
	}
	return line
}

func surveyed(s job.Surveyed) string {
	return fmt.Sprintf("%s of string %d at %d held %d and %d by %s %s to %s %s", s.Feature, s.String, s.Fret, s.Held, s.To, s.Way, s.Low.Text, s.High.Text, s.High.Unit)
}

// addSamples writes what this version writes: the kit, an instrument with its baseline, and a job at every step, by line and by caliper. Every kind
// has its own version and goes into the folder of that.
func addSamples(t *testing.T) {
	t.Helper()
	add := func(name, key string, body any) {
		kind, _, _ := strings.Cut(key, "/")
		version := JobKinds()[kind].Version()
		folder := filepath.Join(released, fmt.Sprintf("v%d", version))
		if err := os.MkdirAll(folder, 0o755); err != nil {
			t.Fatal(err)
		}
		path := filepath.Join(folder, name+".txt")
		if _, err := os.Stat(path); err == nil {
			return
		}
		data, err := json.Marshal(body)
		if err != nil {
			t.Fatal(err)
		}
		doc, text, err := Encode(Document{Key: key, Sequence: 7, Kind: kind, Version: version, Build: "sample", Writer: "sample",
			Saved: time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC), Body: data})
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(key+"\n"+told(t, doc)+"\n"+text+"\n"), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	mm := func(s string) job.Typed { return job.Typed{Text: s, Unit: job.MM} }
	in := func(s string) job.Typed { return job.Typed{Text: s, Unit: job.Inch} }
	kits := map[string]job.Kit{
		"line":    {Unit: job.MM, Marks: job.EveryQuarter, Zero: job.ZeroAtEnd, Grit: 150, Card: 90000, Papers: "P150 P240 400", Strips: [job.MostKinds]job.Strip{{Thick: mm("0.25"), Count: 4}, {Thick: mm("2.9"), Ten: true}}},
		"caliper": {Unit: job.Inch, Marks: job.Every64th, Zero: job.ZeroInside, ZeroDist: in("1/64"), Caliper: job.Yes, Short: true},
	}
	works := map[string][]job.Fact{ // invented
		"line": {job.Answered{Question: job.AskFollow, Answer: job.FollowPencil}, job.Did{Step: job.Mark},
			job.Looked{Strokes: 8, Bass: job.Clear, Middle: job.Clear, Treble: job.Clear}, job.Looked{Strokes: 4, Bass: job.Touched, Middle: job.Touched, Treble: job.Touched}},
		"caliper": {job.Answered{Question: job.AskFollow, Answer: job.FollowCaliper}, job.Did{Step: job.Mark},
			job.Checked{Bass: in("0.355"), Treble: in("0.340")}, job.Checked{Strokes: 6, Bass: in("0.351"), Treble: in("0.337")}},
	}
	wishes := map[string]job.Chosen{
		"line":    {Bass: mm("2.30"), Treble: mm("1.80"), For: job.MixedPlayer},
		"caliper": {Bass: in("0.080"), Treble: in("0.070"), Own: true, For: job.OwnPlayer},
	}
	survey := func(f job.Feature, course, held, fret, to int, low, high string) job.Surveyed {
		return job.Surveyed{Feature: f, Read: job.Read{String: course, Fret: fret, Held: held, Way: job.ByFeeler, Low: mm(low), High: mm(high)}, To: to}
	}
	bowed, straight := survey(job.Relief, 0, 1, 6, 14, "0.50", "0.55"), survey(job.Relief, 0, 1, 6, 14, "0.20", "0.25")
	necks := map[string][]job.Fact{ // relief too great: straightened, or left alone
		"line": {bowed, job.Did{Step: job.Measure}, job.Adjusted{Feature: job.Relief, Eighths: 2}, straight,
			survey(job.FirstFret, 0, 0, 1, 0, "0.50", "0.55"), survey(job.FirstFret, 5, 0, 1, 0, "0.40", "0.45")},
		"caliper": {bowed, job.Listened{String: 5, Everywhere: true}, job.Did{Step: job.Measure}, job.LeftAlone{Feature: job.Relief}},
	}
	sets := map[string]*job.Stringing{
		"line": {Tuning: []geometry.Tone{38, 45, 50, 55, 59, 64}, Capo: 2, Gauges: []job.Gauge{{Make: job.WoundSteel, Weight: "5.47"}, {}, {}, {}, {}, {Make: job.PlainSteel, Diameter: in(".012")}}},
	}
	marks := map[string][4]int{"line": {11, 8, 10, 7}, "caliper": {6, 5, 5, 4}}
	for name, kit := range kits {
		i := job.Instrument{ID: "sample", Name: "The porch guitar", Family: geometry.FlatTop6, Scale: mm("648"), Saddle: mm("72"), Spread: mm("54"),
			Body: 14, Frets: 20, Radius: in("12"), Set: sets[name], Bridge: job.BridgeSlot, Treble: mm("630")}
		m := marks[name]
		facts := []job.Fact{job.Began{Method: job.SandUnderside, Instrument: i, Kit: kit}, job.Answered{Question: job.AskSaddle, Answer: job.SaddleLoose},
			job.ReadByMarks(kit, i, 0, m[0]), job.ReadByMarks(kit, i, 5, m[1]), job.Answered{Question: job.AskStrings, Answer: job.StringsStay}}
		facts = append(facts, necks[name]...)
		if name == "line" { // what was read before the turn holds no longer
			facts = append(facts, job.ReadByMarks(kit, i, 0, m[0]), job.ReadByMarks(kit, i, 5, m[1]), job.Listened{String: 0, Stop: 3, Buzzed: true},
				job.Did{Step: job.Measure})
		}
		facts = append(facts, job.Answered{Question: job.AskBuzz, Answer: job.BuzzNone}, wishes[name], job.Answered{Question: job.AskRoom, Answer: job.RoomFine},
			job.Stood{Side: 0, Exposure: mm("3.5"), Give: mm("0.25")}, job.Stood{Side: 1, Exposure: mm("3.0"), Give: mm("0.25")}, job.Did{Step: job.MakePlan},
			job.Answered{Question: job.AskUnder, Answer: job.UnderClear}, job.Did{Step: job.TakeOut})
		facts = append(append(facts, works[name]...), job.Did{Step: job.Sand}, job.Skipped{Step: job.Smooth},
			job.Answered{Question: job.AskSeat, Answer: job.SeatFlat}, job.Did{Step: job.Seat}, job.Answered{Question: job.AskStrung, Answer: job.StrungSame}, job.Did{Step: job.StringUp},
			job.ReadByMarks(kit, i, 0, m[2]), job.ReadByMarks(kit, i, 5, m[3]), job.Listened{String: 5, Everywhere: true}, job.Noted{Text: "Round one: quiet at every fret."}, job.Judged{Outcome: job.Again},
			job.Noted{Text: "taken back"}, job.Undone{Sequence: 0}, job.Judged{Outcome: job.Keep}, job.Saved{})
		var r job.Record
		seen := map[string]bool{}
		for _, f := range facts {
			if u, ok := f.(job.Undone); ok {
				u.Sequence = len(r.Events)
				f = u
			}
			next, err := r.Apply(job.Event{Job: "sample", Sequence: len(r.Events) + 1, Writer: "sample", At: time.Date(2026, 11, 25, 9, len(r.Events), 0, 0, time.UTC), Fact: f})
			if err != nil {
				t.Fatalf("%s, %#v: %v", name, f, err)
			}
			r = next
			place := fmt.Sprintf("job-%s-round-%d-%s", name, len(r.Rounds), r.Step())
			if !seen[place] {
				seen[place] = true
				add(place, "job/sample", JobBody{Events: r.Events})
			}
		}
		add("kit-"+name, KindKit, kit)
		i.AsSet = r.Baseline()
		add("instrument-"+name, "instrument/sample", i)
	}
	for method, turns := range map[job.Method]job.Hardware{
		job.ByScrews: {Thread: "m3", Screws: 2},
		job.ByPosts:  {Turned: 32, Moved: mm("3.2"), Give: mm("0.03"), Apart: mm("74"), Behind: mm("12"), Rest: mm("60")},
	} {
		i := job.Instrument{ID: "sample", Family: geometry.SolidBody, Turns: turns}
		kit := kits["line"]
		turned := []int{-8, 0, 0, 0, 0, -4}
		if method == job.ByPosts {
			turned = []int{-8, -4}
		}
		var r job.Record
		for _, f := range []job.Fact{job.Began{Method: method, Instrument: i, Kit: kit}, job.Answered{Question: job.AskScrews, Answer: job.ScrewsFree},
			job.ReadByMarks(kit, i, 0, 9), job.ReadByMarks(kit, i, 5, 7), job.Answered{Question: job.AskStrings, Answer: job.StringsStay}, job.Did{Step: job.Measure},
			job.Chosen{Bass: mm("2.00"), Treble: mm("1.70")}, job.Did{Step: job.MakePlan}, job.Answered{Question: job.AskWayUp, Answer: job.WayClockwise}, job.Screwed{Eighths: turned}} {
			next, err := r.Apply(job.Event{Job: "sample", Sequence: len(r.Events) + 1, Writer: "sample", At: time.Date(2026, 11, 25, 9, len(r.Events), 0, 0, time.UTC), Fact: f})
			if err != nil {
				t.Fatalf("%s, %#v: %v", method, f, err)
			}
			r = next
		}
		i.AsSet = &job.AsSet{Job: "sample"}
		add("instrument-"+string(method), "instrument/sample", i)
		add("job-"+string(method)+"-turned", "job/sample", JobBody{Events: r.Events})
	}
	set := job.Instrument{ID: "sample", Family: geometry.FlatTop6, AsSet: &job.AsSet{Job: "earlier", Readings: []job.Read{job.ReadByMarks(kits["line"], job.Instrument{}, 0, 9)}}}
	necked := map[string][]job.Fact{
		"nut": {job.Began{Method: job.NutSlots, Instrument: set, Kit: kits["line"]}, job.Answered{Question: job.AskNut, Answer: job.NutFiles},
			survey(job.FirstPressed, 0, 0, 1, 3, "0.30", "0.35"), job.Filed{String: 0, Wanted: mm("0.17")}, survey(job.FirstPressed, 0, 0, 1, 3, "0.20", "0.25"), job.Did{Step: job.FixNut}, job.Saved{}},
		"relief": {job.Began{Method: job.SetRelief, Instrument: set, Kit: kits["line"]}, job.Answered{Question: job.AskRod, Answer: job.RodTurns},
			bowed, job.Adjusted{Feature: job.Relief, Eighths: 2}, straight, job.Did{Step: job.FixRelief}, job.Saved{}},
	}
	for name, facts := range necked {
		var r job.Record
		for _, f := range facts {
			next, err := r.Apply(job.Event{Job: "sample", Sequence: len(r.Events) + 1, Writer: "sample", At: time.Date(2026, 11, 25, 9, len(r.Events), 0, 0, time.UTC), Fact: f})
			if err != nil {
				t.Fatalf("%s, %#v: %v", name, f, err)
			}
			r = next
			switch f.(type) {
			case job.Filed, job.Adjusted, job.Saved:
				add(fmt.Sprintf("job-%s-%d", name, len(r.Events)), "job/sample", JobBody{Events: r.Events})
			}
		}
		i := set
		i.AsSet = r.Baseline()
		add("instrument-"+name, "instrument/sample", i)
	}
	// Whose an instrument is and what is usual of it; a check of it with the air in the room; a saddle that is half made.
	owned := job.Instrument{ID: "sample", Family: geometry.FlatTop6, Owner: "the cellar choir", Tags: "loan wide", Archived: true,
		Wont:    &job.Wont{Gap: [2]job.Span{{Low: mm("2.4"), High: mm("2.8")}, {}}, Relief: job.Span{High: mm("0.25")}, Floor: [2]job.Typed{mm("1.9"), {}}, Beginner: [2]job.Typed{mm("2.2"), {}}},
		Checked: time.Date(2026, 11, 24, 18, 30, 0, 0, time.UTC),
		AsSet: &job.AsSet{Job: "earlier", At: time.Date(2026, 6, 1, 9, 0, 0, 0, time.UTC), Readings: []job.Read{job.ReadByMarks(kits["line"], set, 0, 9), job.ReadByMarks(kits["line"], set, 5, 7)},
			Air: &job.Aired{Humidity: 52, Temperature: "19.5", Scale: job.Celsius}, Set: &job.Stringing{Tuning: []geometry.Tone{38, 45, 50, 55, 59, 64}}}}
	add("instrument-owned", "instrument/sample", owned)
	add("history", "history/sample", HistoryBody{Jobs: []string{"earlier", "sample"}})
	for name, facts := range map[string][]job.Fact{
		"check": {job.Began{Method: job.QuickCheck, Instrument: owned, Kit: kits["line"]}, job.ReadByMarks(kits["line"], owned, 0, 10), job.ReadByMarks(kits["line"], owned, 5, 7),
			job.Aired{Humidity: 38, Temperature: "68", Scale: job.Fahrenheit}},
		"made": {job.Began{Method: job.NewSaddle, Instrument: job.Instrument{ID: "sample", Family: geometry.FlatTop6, Saddle: mm("72.4")}, Kit: kits["line"]},
			job.Answered{Question: job.AskSaddle, Answer: job.SaddleLoose}, job.Answered{Question: job.AskStrings, Answer: job.StringsStay},
			job.ReadByMarks(kits["line"], job.Instrument{}, 0, 6), job.ReadByMarks(kits["line"], job.Instrument{}, 5, 5), job.Did{Step: job.Measure},
			job.Chosen{Bass: mm("2.20"), Treble: mm("1.80")}, job.Answered{Question: job.AskRoom, Answer: job.RoomFine},
			job.Slotted{Length: mm("72.4"), Width: mm("3.25"), Depth: mm("9.60"), Bass: mm("12.20"), Treble: mm("11.80"), Give: mm("0.03")}, job.Did{Step: job.MakePlan},
			job.Answered{Question: job.AskUnder, Answer: job.UnderClear}, job.Did{Step: job.TakeOut}, job.Made{Part: geometry.BlankThickness}, job.Made{Part: geometry.BlankLength},
			job.Made{Part: geometry.BlankLength, Open: true}},
	} {
		var r job.Record
		for _, f := range facts {
			next, err := r.Apply(job.Event{Job: "sample", Sequence: len(r.Events) + 1, Writer: "sample", At: time.Date(2026, 11, 25, 9, len(r.Events), 0, 0, time.UTC), Fact: f})
			if err != nil {
				t.Fatalf("%s, %#v: %v", name, f, err)
			}
			r = next
		}
		add("job-"+name, "job/sample", JobBody{Events: r.Events})
	}
}
