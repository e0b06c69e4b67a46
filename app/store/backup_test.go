package store

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"math/rand"
	"slices"
	"strings"
	"testing"
	"time"

	"gapwright/app/job"
	"gapwright/geometry"
)

// workshop is a device with desks on it, a clock and ids of its own.
type workshop struct {
	*Device
	t     testing.TB
	name  string
	ids   int
	clock time.Time
	late  []func() // what waits for time to pass
}

func newWorkshop(t testing.TB, name string) *workshop {
	return &workshop{Device: NewDevice(), t: t, name: name, clock: time.Date(2026, 3, 1, 8, 0, 0, 0, time.UTC)}
}

// desk opens a page on the device.
func (b *workshop) desk() *Desk {
	d := NewDesk(b.Tab(), Options{Build: "test",
		Now:   func() time.Time { b.clock = b.clock.Add(time.Second); return b.clock },
		NewID: func() string { b.ids++; return fmt.Sprint(b.name, "-", b.ids) },
		After: func(_ time.Duration, f func()) { b.late = append(b.late, f) }})
	d.Reconcile()
	if !d.Settled() && b.JournalError == nil && !b.JournalBlocked {
		b.t.Fatal("the desk does not settle")
	}
	return d
}

func (b *workshop) must(err error) {
	b.t.Helper()
	if err != nil {
		b.t.Fatal(err)
	}
}

// work puts a job on an instrument: the worked example up to so many facts. An ended one is put away.
func (b *workshop) work(d *Desk, i job.Instrument, facts int, ended bool) (id string) {
	b.t.Helper()
	b.ids++
	id = fmt.Sprint(b.name, "-job-", b.ids)
	_, events := job.Example(i.ID, id, b.name, i.Name, b.clock)
	began := events[0].Fact.(job.Began)
	began.Instrument = i
	events[0].Fact = began
	b.clock = b.clock.Add(time.Minute)
	b.must(d.Adopt(events[:facts]))
	if ended {
		b.must(d.Record(id, job.PutAway{}))
	}
	return id
}

// furnished is a device with a kit, three instruments, open jobs and finished ones, all of our own invention.
func furnished(t testing.TB) (b *workshop, d *Desk) {
	t.Helper()
	b = newWorkshop(t, "home")
	d = b.desk()
	b.must(d.SetKit(job.Kit{Unit: job.MM, Marks: job.EveryHalfMM, Zero: job.ZeroAtEnd}))
	for n, name := range []string{"Porch guitar", "Über <b>loud</b> \"𝄞\"", "Old box"} {
		i, err := d.PutInstrument(job.Instrument{ID: fmt.Sprint("i", n), Name: name, Family: geometry.FlatTop6})
		b.must(err)
		b.work(d, i, 8, true)
		b.work(d, i, 5, n == 0)
	}
	if state := d.State(); state.Mark != Saved {
		t.Fatalf("state %+v", state)
	}
	return b, d
}

// backup writes one to a string.
func backup(t testing.TB, d *Desk, instrument string) string {
	t.Helper()
	var text strings.Builder
	var made Backup
	d.Backup(instrument, func(piece string) { text.WriteString(piece) }, func(b Backup) { made = b })
	if made.First == "" || !made.Whole {
		t.Fatalf("the backup is %+v", made)
	}
	return made.First + text.String() + made.Last
}

// source gives a text in pieces of that many bytes.
func source(text string, size int) Source {
	return func(from int64, give func([]byte, error)) {
		if from >= int64(len(text)) {
			give(nil, nil)
			return
		}
		give([]byte(text[from:min(int64(len(text)), from+int64(size))]), nil)
	}
}

func compare(d *Desk, text string, size int) (r *Restore, err error) {
	err = errors.New("no answer")
	d.ReadBackup(source(text, size), func(int64) {}, func(its *Restore, wrong error) { r, err = its, wrong })
	return r, err
}

func restore(t testing.TB, d *Desk, text string) (*Restore, Restored) {
	t.Helper()
	r, err := compare(d, text, 700)
	if err != nil {
		t.Fatal(err)
	}
	told, answered := Restored{}, false
	d.Restore(r, func(int64) {}, func(its Restored, wrong error) {
		told, answered = its, true
		if wrong != nil {
			t.Fatal(wrong)
		}
	})
	if !answered {
		t.Fatal("the restore gives no answer")
	}
	return r, told
}

func undo(t testing.TB, d *Desk) (undone, stayed int) {
	t.Helper()
	answered := false
	d.UndoRestore(func(one, other int, err error) {
		undone, stayed, answered = one, other, true
		if err != nil {
			t.Fatal(err)
		}
	})
	if !answered {
		t.Fatal("the undo gives no answer")
	}
	return undone, stayed
}

// heads are the journal's heads with their texts, tombstones left out.
func (b *workshop) heads() map[string]Head {
	all := map[string]Head{}
	for key := range b.journal {
		if h := b.JournalHead(key); !strings.Contains(h.Text, `"removed":true`) {
			all[key] = *h
		}
	}
	return all
}

// bodies are what a desk reads of every document, by key.
func bodies(d *Desk) map[string]string {
	all := map[string]string{}
	for _, kind := range []string{KindKit, KindInstrument, KindHistory, KindJob} {
		for _, key := range d.Keys(kind) {
			d.Load(key, func(doc Document, outcome Outcome) {
				all[key] = fmt.Sprint(outcome, doc.Finished, " ", string(doc.Body))
			})
		}
	}
	return all
}

func same(t testing.TB, what string, got, want map[string]string) {
	t.Helper()
	for _, key := range sortedKeys(want) {
		if got[key] != want[key] {
			t.Errorf("%s: %s is\n%s\nwant\n%s", what, key, got[key], want[key])
		}
	}
	for _, key := range sortedKeys(got) {
		if _, known := want[key]; !known {
			t.Errorf("%s: there is a %s: %.200s", what, key, got[key])
		}
	}
}

func TestARestoreOnAnEmptyDeviceGivesTheSameTexts(t *testing.T) {
	b, d := furnished(t)
	text := backup(t, d, "")
	fresh := newWorkshop(t, "fresh")
	e := fresh.desk()
	r, told := restore(t, e, text)
	// A kit, three instruments, three histories, six jobs.
	if r.Torn || r.Damaged != 0 || r.Documents != 13 || r.Changes != 13 || told.Written != 13 || told.Left != 0 || told.Finished != 4 {
		t.Errorf("restore %+v, told %+v", r, told)
	}
	want, got := b.heads(), fresh.heads()
	for key, h := range want {
		g := got[key]
		if g.Text != h.Text || g.Sum != h.Sum || g.Sequence != h.Sequence || g.Finished != h.Finished || !slices.Equal(g.Line, h.Line) {
			t.Errorf("%s is\n%+v\nwant\n%+v", key, g, h)
		}
	}
	if len(got) != len(want) {
		t.Errorf("%d documents, want %d", len(got), len(want))
	}
	local := func(b *workshop) map[string]string {
		all := map[string]string{}
		for name, text := range b.Local() {
			all[name] = text
		}
		return all
	}
	same(t, "local storage", local(fresh), local(b))
	same(t, "the page", bodies(e), bodies(d))
	same(t, "another page", bodies(fresh.desk()), bodies(d))
	again := backup(t, e, "")
	if documentLines(again) != documentLines(text) {
		t.Errorf("a backup of the restored device differs behind its first line:\n%s\nwant\n%s", again, text)
	}
}

func TestABackupIsALineADocument(t *testing.T) {
	b := newWorkshop(t, "x")
	d := b.desk()
	b.must(d.SetKit(job.Kit{Unit: job.Inch}))
	b.must(d.SetKit(job.Kit{Unit: job.MM}))
	lines := strings.Split(backup(t, d, ""), "\n")
	if len(lines) != 4 || lines[3] != "" {
		t.Fatalf("%d lines: %q", len(lines), lines)
	}
	if !strings.HasPrefix(lines[0], "gapwright-backup 1 ") || !strings.HasSuffix(lines[0], `"build":"test","documents":1}`) {
		t.Errorf("first line %s", lines[0])
	}
	h := b.JournalHead("kit")
	if want := " kit " + h.Line[0] + " " + h.Text; len(h.Line) != 1 || lines[1][16:] != want {
		t.Errorf("line\n%s\nwant a sum and\n%s", lines[1], want)
	}
	if !strings.HasPrefix(lines[2], "end 1 ") || len(lines[2]) != len("end 1 ")+16 {
		t.Errorf("last line %s", lines[2])
	}
}

// The format, worked out with a command line: each sum is the first 16 digits that `printf … | sha256sum` gives.
const smallest = `gapwright-backup 1 c9ec46d15b47073f {"made":"2026-02-03T09:00:00Z","build":"b","documents":1}
21821b52edf4a553 kit - ~1 1 69a8b2ac3e5187fd {"kind":"kit","version":2,"build":"b","saved":"2026-02-03T09:00:00Z","writer":"w","parent":"","body":{"unit":"in"}}
end 1 dd505cb8fb6df295
`

func TestTheFormatStaysAsItIs(t *testing.T) {
	b := newWorkshop(t, "x")
	d := b.desk()
	r, told := restore(t, d, smallest)
	if r.Torn || r.Damaged != 0 || r.Documents != 1 || r.Build != "b" || told.Written != 1 {
		t.Errorf("%+v, %+v", r, told)
	}
	if kit, _ := d.Kit(); kit.Unit != job.Inch {
		t.Errorf("the kit is %+v", kit)
	}
	if again := backup(t, d, ""); documentLines(again) != documentLines(smallest) {
		t.Errorf("written as\n%s", again)
	}
}

// documentLines is a backup behind its first line, which names the program and the time.
func documentLines(text string) string {
	_, rest, _ := strings.Cut(text, "\n")
	return rest
}

func TestTheOneInstrumentGoesWithItsJobsAndItsHistory(t *testing.T) {
	_, d := furnished(t)
	text := backup(t, d, "i1")
	fresh := newWorkshop(t, "fresh")
	_, told := restore(t, fresh.desk(), text)
	if told.Written != 4 {
		t.Errorf("%d documents written, want an instrument, its history and two jobs", told.Written)
	}
	want := map[string]string{}
	for key, body := range bodies(d) {
		if key == "instrument/i1" || key == "history/i1" || strings.HasPrefix(key, "job/") && strings.Contains(body, `"id":"i1"`) {
			want[key] = body
		}
	}
	if len(want) != 4 {
		t.Fatalf("the test expects %d documents: %v", len(want), sortedKeys(want))
	}
	same(t, "the fresh device", bodies(fresh.desk()), want)
}

// Every way in which a document of a backup can stand to the one that is here.
func TestRestoreTellsHowEachStandsAndJoins(t *testing.T) {
	b, d := furnished(t)
	i0, _ := d.Instrument("i0")
	i1, _ := d.Instrument("i1")
	i2, _ := d.Instrument("i2")
	other := newWorkshop(t, "other")
	o := other.desk()
	restore(t, o, backup(t, d, ""))

	// On the other device: i0 is renamed, i1 gets an owner, the kit another rule; i2 is left alone. A job goes on.
	i0.Name = "Porch guitar, refretted"
	_, err := o.PutInstrument(i0)
	other.must(err)
	i1.Owner = "somebody"
	_, err = o.PutInstrument(i1)
	other.must(err)
	other.must(o.SetKit(job.Kit{Unit: job.MM, Marks: job.EveryMM, Zero: job.ZeroAtEnd}))
	theirJob := other.work(o, i2, 3, true)
	// Here: i1 gets a tag, the kit yet another rule, i2 is removed.
	i1.Owner, i1.Tags = "", "loud"
	_, err = d.PutInstrument(i1)
	b.must(err)
	b.must(d.SetKit(job.Kit{Unit: job.MM, Marks: job.EveryQuarter, Zero: job.ZeroAtEnd}))
	b.must(d.RemoveInstrument("i2"))
	before := bodies(d)

	r, told := restore(t, d, backup(t, o, ""))
	stands := map[string]Standing{}
	for _, p := range r.Parts {
		stands[p.Instrument.ID] = p.Standing
	}
	if stands["i0"] != NewerThere || stands["i1"] != Both || stands["i2"] != Back || r.Kit != Both {
		t.Errorf("standings %v, kit %v", stands, r.Kit)
	}
	for _, p := range r.Parts {
		if p.Instrument.ID == "i2" && (p.Jobs[New] != 1 || p.Jobs[Back] != 2) {
			t.Errorf("jobs of the removed one: %v", p.Jobs)
		}
	}
	if told.Beside != 1 || told.Left != 0 {
		t.Errorf("told %+v", told)
	}
	if i, _ := d.Instrument("i0"); i.Name != "Porch guitar, refretted" {
		t.Errorf("i0 is %+v", i)
	}
	if i, _ := d.Instrument("i1"); i.Owner != "somebody" || i.Tags != "loud" {
		t.Errorf("i1 is %+v: want both changes", i)
	}
	if _, ok := d.Instrument("i2"); !ok {
		t.Error("i2 did not come back")
	}
	d.Fetch(theirJob, func(_ job.Record, ok bool) {
		if !ok {
			t.Error("the job of the other device is not there")
		}
	})
	if kit, _ := d.Kit(); kit.Marks != job.EveryQuarter {
		t.Errorf("the kit is %+v: this device's stays", kit)
	}
	parted := d.Parted()
	if len(parted) != 1 || parted[0].Key != "kit" {
		t.Fatalf("parted %+v", parted)
	}
	d.Kept(parted[0].Kept, func(doc Document, outcome Outcome, _ string) {
		var kit job.Kit
		if json.Unmarshal(doc.Body, &kit); outcome != Fine || kit.Marks != job.EveryMM {
			t.Errorf("beside the kit is %v %s", outcome, doc.Body)
		}
	})

	// The same once more changes nothing.
	after := bodies(d)
	if r, err := compare(d, backup(t, o, ""), 1000); err != nil || r.Changes != 0 {
		t.Errorf("once more: %d changes, %v", r.Changes, err)
	}
	same(t, "once more", bodies(d), after)

	// A reload, and all of it is taken back.
	e := b.desk()
	e.LastRestore(func(last Restored, ok bool) {
		if !ok || last.Written != told.Written || !last.Made.Equal(r.Made) {
			t.Errorf("last restore %+v %v, want %+v", last, ok, told)
		}
	})
	if undone, stayed := undo(t, e); undone != told.Written+told.Beside || stayed != 0 {
		t.Errorf("undone %d, stayed %d of %+v", undone, stayed, told)
	}
	same(t, "undone", bodies(e), before)
	same(t, "undone, another page", bodies(b.desk()), before)
	if n := len(b.desk().Parted()); n != 0 {
		t.Errorf("%d still kept beside", n)
	}
	e.LastRestore(func(_ Restored, ok bool) {
		if ok {
			t.Error("a restore that was taken back can be taken back again")
		}
	})
}

func TestWhatIsNewerHereStays(t *testing.T) {
	b, d := furnished(t)
	text := backup(t, d, "")
	i, _ := d.Instrument("i0")
	i.Tags = "stage"
	_, err := d.PutInstrument(i)
	b.must(err)
	want := bodies(d)
	r, told := restore(t, d, text)
	if r.Changes != 0 || told.Written != 0 || r.Parts[0].Standing != NewerHere || r.Parts[0].Instrument.ID != "i0" {
		t.Errorf("%+v", r)
	}
	same(t, "afterwards", bodies(d), want)
}

func TestWhatWasChangedAfterARestoreIsNotTakenBack(t *testing.T) {
	_, d := furnished(t)
	fresh := newWorkshop(t, "fresh")
	e := fresh.desk()
	_, told := restore(t, e, backup(t, d, ""))
	i, _ := e.Instrument("i0")
	i.Name = "Mine now"
	_, err := e.PutInstrument(i)
	fresh.must(err)
	if undone, stayed := undo(t, e); undone != told.Written-1 || stayed != 1 {
		t.Errorf("undone %d, stayed %d", undone, stayed)
	}
	if left := bodies(e); len(left) != 1 || !strings.Contains(left["instrument/i0"], "Mine now") {
		t.Errorf("left: %v", left)
	}
	// What was taken back can be restored once more.
	r, _ := restore(t, e, backup(t, d, ""))
	if r.Changes != told.Written-1 {
		t.Errorf("%d changes, want %d", r.Changes, told.Written-1)
	}
}

// A spoilt line costs its own document and no other; a torn file gives all before the tear.
func TestADamagedBackupGivesBackTheRest(t *testing.T) {
	_, d := furnished(t)
	text := backup(t, d, "")
	lines := strings.SplitAfter(text, "\n")
	for n := 1; n < len(lines)-2; n++ {
		spoilt := slices.Clone(lines)
		spoilt[n] = strings.Replace(spoilt[n], `"build"`, `"bvild"`, 1)
		e := newWorkshop(t, "fresh").desk()
		r, told := restore(t, e, strings.Join(spoilt, ""))
		if told.Written != 12 || r.Damaged != 1 || !r.Torn {
			t.Errorf("line %d spoilt: %d written, %d damaged, torn %v", n, told.Written, r.Damaged, r.Torn)
		}
		unread := 0
		for _, p := range r.Parts {
			unread += p.Jobs[Unread]
			if p.Standing == Unread {
				unread++
			}
		}
		if kind := strings.Fields(lines[n])[1]; unread == 0 && kind != "kit" && !strings.HasPrefix(kind, "history") {
			t.Errorf("line %d spoilt: nobody is told of it", n)
		}
	}
	for cut := 0; cut < len(text); cut += 97 {
		e := newWorkshop(t, "fresh").desk()
		whole := strings.Count(text[:cut], "\n") - 1 // the first line is none
		r, err := compare(e, text[:cut], 512)
		if err != nil {
			if whole > 0 || !errors.Is(err, ErrNoBackup) {
				t.Errorf("cut at %d: %v", cut, err)
			}
			continue
		}
		if r.Changes != max(0, whole) || r.Torn != (cut < len(text)-1) {
			t.Errorf("cut at %d: %d of %d documents, torn %v", cut, r.Changes, whole, r.Torn)
		}
	}
}

// sign gives a line the sum that it should have, as somebody would who writes a file by hand.
func sign(rest string) string { return checksum("line", rest) + " " + rest + "\n" }

// written is a line with a document of somebody else's making.
func written(key, kind string, sequence uint64, version int, line, body string) string {
	inner := fmt.Sprintf(`{"kind":%q,"version":%d,"build":"x","saved":"","writer":"x","parent":"","body":%s}`, kind, version, body)
	n := fmt.Sprint(sequence)
	return sign(key + " " + line + " ~1 " + n + " " + checksum(n, inner) + " " + inner)
}

func TestHostileBackupsAreRefusedOrHarmless(t *testing.T) {
	profile := func(more string) string { return `{"id":"evil","name":"n","family":"flat-top-6"` + more + `}` }
	_, events := job.Example("evil", "evil", "w", "n", time.Unix(0, 0))
	whole, _ := json.Marshal(JobBody{Events: events})
	short, _ := json.Marshal(JobBody{Events: events[1:]})
	many := slices.Repeat(events[1:2], eventsLimit+1)
	long, _ := json.Marshal(JobBody{Events: many})
	_, here := furnished(t)
	h := here.entries["instrument/i0"].head
	for name, c := range map[string]struct {
		text string
		want Standing
	}{
		"a script for a name":        {written("instrument/evil", "instrument", 1, 1, "-", `{"id":"evil","name":"<script>alert(1)</script>","family":"flat-top-6"}`), New},
		"an id that is another":      {written("instrument/evil", "instrument", 1, 1, "-", `{"id":"i0","family":"flat-top-6"}`), Unread},
		"an unknown family":          {written("instrument/evil", "instrument", 1, 1, "-", `{"id":"evil","family":"<b>"}`), Unread},
		"a unit that is none":        {written("instrument/evil", "instrument", 1, 1, "-", profile(`,"scale":{"text":"650","unit":"parsec"}`)), Unread},
		"a length that is none":      {written("instrument/evil", "instrument", 1, 1, "-", profile(`,"scale":{"text":"1e9999","unit":"mm"}`)), Unread},
		"a text for a number":        {written("instrument/evil", "instrument", 1, 1, "-", profile(`,"fret":"twelve"`)), Unread},
		"a fret that is none":        {written("instrument/evil", "instrument", 1, 1, "-", profile(`,"fret":-99999999`)), Unread},
		"a list for a profile":       {written("instrument/evil", "instrument", 1, 1, "-", `[]`), Unread},
		"nothing for a profile":      {written("instrument/evil", "instrument", 1, 1, "-", `null`), Unread},
		"deep JSON":                  {written("instrument/evil", "instrument", 1, 1, "-", strings.Repeat("[", 100000)+strings.Repeat("]", 100000)), Unread},
		"deep JSON that is ignored":  {written("instrument/evil", "instrument", 1, 1, "-", profile(`,"x":`+strings.Repeat("[", 9000)+strings.Repeat("]", 9000))), New},
		"a revision too high":        {written("instrument/evil", "instrument", maxSequence, 1, "-", profile("")), Unread},
		"a revision past counting":   {written("instrument/evil", "instrument", 1<<63, 1, "-", profile("")), Unread},
		"a later version":            {written("instrument/evil", "instrument", 1, 99, "-", `{"who":"knows"}`), Later},
		"a version below one":        {written("instrument/evil", "instrument", 1, 0, "-", profile("")), Unread},
		"a job that is whole":        {written("job/evil", "job", 1, 1, "-", string(whole)), New},
		"a job without its start":    {written("job/evil", "job", 1, 1, "-", string(short)), Unread},
		"a job with endless facts":   {written("job/evil", "job", 1, 1, "-", string(long)), Unread},
		"a job under another id":     {written("job/other", "job", 1, 1, "-", string(whole)), Unread},
		"a job's text at a profile":  {written("instrument/evil", "job", 1, 1, "-", string(whole)), Unread},
		"a key that is not ours":     {written("secret/evil", "secret", 1, 1, "-", `{}`), Nothing},
		"a key with a path":          {written("instrument/../evil", "instrument", 1, 1, "-", profile("")), Nothing},
		"a kept text as a document":  {written("aside/instrument/evil/0123456789abcdef", "instrument", 1, 1, "-", profile("")), Nothing},
		"ancestors that are none":    {written("instrument/evil", "instrument", 1, 1, "<b>", profile("")), Nothing},
		"too many ancestors":         {written("instrument/evil", "instrument", 1, 1, strings.Repeat("0123456789abcdef,", 300)+"0123456789abcdef", profile("")), Nothing},
		"ancestors that lie":         {written("instrument/i0", "instrument", 1, 1, h, `{"id":"i0","name":"Stolen","family":"flat-top-6"}`), Both},
		"ancestors that lie, higher": {written("instrument/i0", "instrument", 1<<39, 1, h, `{"id":"i0","name":"Stolen","family":"flat-top-6"}`), NewerThere},
	} {
		t.Run(name, func(t *testing.T) {
			_, d := furnished(t)
			before := bodies(d)
			r, err := compare(d, backupName+" 1 "+checksum("head", "{}")+" {}\n"+c.text, 1<<16)
			if err != nil {
				t.Fatal(err)
			}
			got := Nothing
			for _, it := range r.items {
				got = it.standing
			}
			if got != c.want || (c.want == Nothing) != (r.Damaged == 1) {
				t.Fatalf("stands %d, want %d; %d damaged", got, c.want, r.Damaged)
			}
			d.Restore(r, func(int64) {}, func(told Restored, err error) {
				if err != nil || told.Written > 1 || !c.want.Writes() && told.Written > 0 {
					t.Errorf("told %+v, %v", told, err)
				}
			})
			after := bodies(d)
			for key, body := range before {
				if after[key] != body && !(key == "instrument/i0" && c.want.Writes()) {
					t.Errorf("%s changed", key)
				}
			}
			if c.want.Writes() {
				undo(t, d)
			}
			same(t, "undone", bodies(d), before)
			if state := d.State(); state.Mark != Saved {
				t.Errorf("state %+v", state)
			}
		})
	}
}

func TestFilesThatAreNoBackup(t *testing.T) {
	_, d := furnished(t)
	for name, c := range map[string]struct {
		text string
		want error
	}{
		"nothing":           {"", ErrNoBackup},
		"a letter":          {"Dear player,\nplease find my strings.\n", ErrNoBackup},
		"a picture":         {"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR\xff\xfe", ErrNoBackup},
		"a list":            {"[1,2,3]", ErrNoBackup},
		"half a list":       {"[{", ErrNoBackup},
		"a later format":    {backupName + " 2 x {}\n~~~\n", ErrNewerBackup},
		"one endless line":  {strings.Repeat("x", 3<<20), ErrNoBackup},
		"lines without end": {strings.Repeat("x\n", documentsLimit+2), ErrTooLarge},
	} {
		r, err := compare(d, c.text, 1<<16)
		if name == "a list" && err == nil && r.Changes == 0 {
			continue // a plain copy with nothing of ours in it
		}
		if !errors.Is(err, c.want) {
			t.Errorf("%s: %v, want %v", name, err, c.want)
		}
	}
	endless := func(from int64, give func([]byte, error)) { give(bytes.Repeat([]byte("x"), 1<<20), nil) }
	d.ReadBackup(endless, func(int64) {}, func(_ *Restore, err error) {
		if !errors.Is(err, ErrTooLarge) {
			t.Errorf("a file without an end: %v", err)
		}
	})
	broken := func(from int64, give func([]byte, error)) { give(nil, ErrBlocked) }
	d.ReadBackup(broken, func(int64) {}, func(_ *Restore, err error) {
		if !errors.Is(err, ErrBlocked) {
			t.Errorf("a file that cannot be read: %v", err)
		}
	})
}

// A plain copy of both stores, as earlier versions wrote it, gives back the newest revision of each document.
func TestAPlainCopyIsABackupToo(t *testing.T) {
	b, d := furnished(t)
	var texts []Text
	d.Everything(func(all []Text, whole bool) { texts = all })
	data, err := json.Marshal(texts)
	b.must(err)
	e := newWorkshop(t, "fresh").desk()
	if r, told := restore(t, e, string(data)); told.Written != 13 || r.Damaged != 0 || r.Torn {
		t.Errorf("%+v, %+v", r, told)
	}
	same(t, "restored", bodies(e), bodies(d))
}

// Windows line ends, a mark at the start, a file without a last line end: as mail and editors leave them.
func TestLineEndsDoNotMatter(t *testing.T) {
	_, d := furnished(t)
	text := backup(t, d, "")
	r, err := compare(newWorkshop(t, "fresh").desk(), "\ufeff"+strings.ReplaceAll(strings.TrimSuffix(text, "\n"), "\n", "\r\n"), 333)
	if err != nil || r.Torn || r.Damaged > 0 || r.Changes != 13 {
		t.Errorf("%+v, %v", r, err)
	}
}

// A journal that fails in the middle: what is in stays and can be taken back, and a second try brings the rest.
func TestARestoreThatFailsInTheMiddle(t *testing.T) {
	_, d := furnished(t)
	text := backup(t, d, "")
	for room := 1000; room < 40_000; room += 1500 {
		fresh := newWorkshop(t, "fresh")
		e := fresh.desk()
		r, err := compare(e, text, 700)
		fresh.must(err)
		fresh.JournalRoom = room
		var told Restored
		var failed error
		e.Restore(r, func(int64) {}, func(its Restored, err error) { told, failed = its, err })
		fresh.JournalRoom = 0
		if failed == nil {
			if told.Written != 13 {
				t.Fatalf("room %d: %+v", room, told)
			}
			continue
		}
		if !errors.Is(failed, ErrFull) {
			t.Fatalf("room %d: %v", room, failed)
		}
		again := newWorkshop(t, "again")
		again.Device = fresh.Device
		if n := len(bodies(again.desk())); n != told.Written {
			t.Fatalf("room %d: %d there, %d told", room, n, told.Written)
		}
		if undone, _ := undo(t, again.desk()); undone != told.Written || len(bodies(again.desk())) != 0 {
			t.Fatalf("room %d: undone %d of %d", room, undone, told.Written)
		}
		restore(t, again.desk(), text)
		same(t, "in the end", bodies(again.desk()), bodies(d))
	}
}

// A journal that never answers ends in an error and not in silence.
func TestARestoreDoesNotWaitForEver(t *testing.T) {
	_, d := furnished(t)
	text := backup(t, d, "")
	fresh := newWorkshop(t, "fresh")
	e := fresh.desk()
	r, err := compare(e, text, 700)
	fresh.must(err)
	fresh.Hang = true
	var failed error
	e.Restore(r, func(int64) {}, func(_ Restored, err error) { failed = err })
	for len(fresh.late) > 0 && failed == nil {
		f := fresh.late[0]
		fresh.late = fresh.late[1:]
		f()
	}
	if failed == nil {
		t.Error("no answer, and nobody is told")
	}
}

// A file that is chosen while something is on its way waits for it, and not for ever.
func TestAFileWaitsUntilEverythingIsSaved(t *testing.T) {
	_, d := furnished(t)
	text := backup(t, d, "")
	b := newWorkshop(t, "x")
	b.Slow = true
	e := NewDesk(b.Tab(), Options{NewID: func() string { return "one" }, After: func(_ time.Duration, f func()) { b.late = append(b.late, f) }})
	e.Reconcile()
	var found *Restore
	var failed error
	e.ReadBackup(source(text, 1000), func(int64) {}, func(r *Restore, err error) { found, failed = r, err })
	for n := 0; n < 100 && found == nil && failed == nil; n++ {
		if n >= 5 { // so long nothing answers
			b.Drain()
		}
		f := b.late[0]
		b.late = b.late[1:]
		f()
	}
	if failed != nil || found == nil || found.Changes != 13 {
		t.Errorf("%+v, %v", found, failed)
	}
	b.JournalError = errors.New("disk")
	e.SetKit(job.Kit{Unit: job.MM})
	b.Drain()
	if _, err := compare(e, text, 1000); !errors.Is(err, ErrBusy) {
		t.Errorf("with something that is not saved: %v", err)
	}
}

// A backup that is asked for before the stores are compared waits, so that nothing is missing from it.
func TestABackupWaitsForTheJournal(t *testing.T) {
	b, d := furnished(t)
	want := backup(t, d, "")
	for _, answers := range []bool{true, false} {
		b.Slow, b.late = true, nil
		e := NewDesk(b.Tab(), Options{Build: "test", NewID: func() string { return "one" }, After: func(_ time.Duration, f func()) { b.late = append(b.late, f) }})
		e.Reconcile()
		text, made := "", (*Backup)(nil)
		e.Backup("", func(piece string) { text += piece }, func(its Backup) { made = &its })
		for n := 0; n < 1000 && made == nil; n++ {
			if answers && n > 5 {
				b.Drain()
			}
			if len(b.late) > 0 {
				f := b.late[0]
				b.late = b.late[1:]
				f()
			}
		}
		if made == nil || made.Whole != answers {
			t.Fatalf("answers %v: %+v", answers, made)
		}
		if whole := documentLines(made.First + text + made.Last); (whole == documentLines(want)) != answers || made.Documents == 0 {
			t.Errorf("answers %v: the backup holds %d documents", answers, made.Documents)
		}
		b.Crash(0)
	}
}

func TestAReminderAfterThreeJobsOrThreeMonths(t *testing.T) {
	b := newWorkshop(t, "x")
	d := b.desk()
	d.ReadLastBackup()
	due := func(d *Desk, wantJobs int, want bool) {
		t.Helper()
		if _, jobs, is := d.BackupDue(); is != want || jobs != wantJobs {
			t.Errorf("due %v with %d jobs, want %v with %d", is, jobs, want, wantJobs)
		}
	}
	i, err := d.PutInstrument(job.Instrument{ID: "i", Family: geometry.FlatTop6})
	b.must(err)
	due(d, 0, false)
	for n := range 3 {
		due(d, n, false)
		b.work(d, i, 3, true)
	}
	due(d, 3, true)
	d.RememberBackup(b.clock)
	due(d, 0, false)
	b.work(d, i, 3, true)
	due(d, 1, false)
	d = b.desk()
	due(d, 0, false) // not read yet
	d.ReadLastBackup()
	due(d, 1, false)
	b.clock = b.clock.Add(DueAfter)
	due(d, 1, true)
	// What comes from a backup needs none.
	_, o := furnished(t)
	restore(t, d, backup(t, o, ""))
	due(d, 1, true)
}

// Backups spoilt by chance and by intent, restored on a device that has worked on meanwhile: nothing panics, nothing that was there is lost, and all of
// it can be taken back.
func TestMutatedBackupsLoseNothing(t *testing.T) {
	b, d := furnished(t)
	i0, _ := d.Instrument("i0")
	i1, _ := d.Instrument("i1")
	other := newWorkshop(t, "other")
	o := other.desk()
	restore(t, o, backup(t, d, ""))
	i0.Name = "Renamed there"
	_, err := o.PutInstrument(i0)
	b.must(err)
	i1.Name = "Named so there"
	_, err = o.PutInstrument(i1)
	b.must(err)
	other.work(o, i1, 6, false)
	for _, r := range o.Jobs() {
		other.must(o.Record(r.ID, job.Noted{Text: "there"}))
	}
	text := backup(t, o, "")
	written, refused, spoilt, facts := 0, 0, 0, 0
	n := *runs / 10
	if *runs >= 10_000 { // somebody has the time for all
		n = *runs
	}
	for seed := range int64(n) {
		here, h := furnished(t)
		i1, _ := h.Instrument("i1")
		i1.Name = "Named so here"
		_, err := h.PutInstrument(i1)
		b.must(err)
		for _, r := range h.Jobs() {
			b.must(h.Record(r.ID, job.Noted{Text: "here"}))
		}
		b.must(h.RemoveInstrument("i2"))
		before, sums := bodies(h), here.heads()
		m := mutation{rand.New(rand.NewSource(seed)), strings.SplitAfter(text, "\n"), sums}
		file := m.mutated()
		r, err := compare(h, file, 1+m.r.Intn(4000))
		if err != nil {
			refused++
			same(t, fmt.Sprint("seed ", seed, ", refused"), bodies(h), before)
			continue
		}
		if r.Damaged > 0 || r.Torn {
			spoilt++
		}
		h.Restore(r, func(int64) {}, func(told Restored, err error) {
			if err != nil {
				t.Fatalf("seed %d: %v", seed, err)
			}
			written += told.Written
		})
		page := here.desk() // after a reload
		after := bodies(page)
		for key, old := range sums {
			if now := here.JournalHead(key); after[key] == "" || now.Sum != old.Sum && !has(now.Line, old.Sum) {
				t.Fatalf("seed %d: %s was there and is not, nor anything made from it: %s", seed, key, after[key])
			}
			looked, lost := lostFacts(before[key], after[key])
			if facts += looked; len(lost) > 0 {
				t.Fatalf("seed %d: %s lost %q", seed, key, lost)
			}
		}
		for key, body := range after {
			if !strings.HasPrefix(body, fmt.Sprint(Fine)) && !strings.HasPrefix(body, fmt.Sprint(Migrated)) {
				t.Fatalf("seed %d: %s cannot be read any more: %.100s", seed, key, body)
			}
		}
		if state := page.State(); state.Mark != Saved {
			t.Fatalf("seed %d: %+v", seed, state)
		}
		if _, stayed := undo(t, page); stayed > 0 {
			t.Fatalf("seed %d: %d stayed", seed, stayed)
		}
		same(t, fmt.Sprint("seed ", seed, ", undone"), bodies(here.desk()), before)
		if t.Failed() {
			return
		}
	}
	if written < n || spoilt < n/4 || facts < 25*n {
		t.Errorf("%d written, %d refused, %d spoilt, %d facts looked for: the test tests nothing", written, refused, spoilt, facts)
	}
	t.Logf("%d backups: %d refused as a whole, %d damaged in part, %d documents written", n, refused, spoilt, written)
}

// lostFacts lists the facts of one job that another does not have, neither in its list nor among those that could not be joined, and says how many it
// looked for.
func lostFacts(before, after string) (looked int, lost []string) {
	read := func(text string) (b JobBody) {
		json.Unmarshal([]byte(text[max(0, strings.IndexByte(text, '{')):]), &b) // what cannot be read is looked at elsewhere
		return b
	}
	have := map[string]bool{}
	its := read(after)
	for _, e := range append(its.Events, its.Left...) {
		have[fmt.Sprint(e.Writer, e.At.UTC(), e.Fact)] = true
	}
	for _, e := range read(before).Events {
		looked++
		if name := fmt.Sprint(e.Writer, e.At.UTC(), e.Fact); !have[name] {
			lost = append(lost, name)
		}
	}
	return looked, lost
}

// mutation spoils a backup.
type mutation struct {
	r     *rand.Rand
	lines []string
	here  map[string]Head // what somebody knows who means harm
}

func (m *mutation) mutated() string {
	for range 1 + m.r.Intn(4) {
		n := m.r.Intn(len(m.lines))
		switch m.r.Intn(12) {
		case 0: // bits
			if line := []byte(m.lines[n]); len(line) > 0 {
				for range 1 + m.r.Intn(3) {
					line[m.r.Intn(len(line))] ^= 1 << m.r.Intn(8)
				}
				m.lines[n] = string(line)
			}
		case 1: // a line gone
			m.lines = slices.Delete(m.lines, n, n+1)
		case 2: // twice
			m.lines = slices.Insert(m.lines, m.r.Intn(len(m.lines)+1), m.lines[n])
		case 3: // torn, and something behind it
			m.lines[n] = m.lines[n][:m.r.Intn(len(m.lines[n])+1)]
		case 4: // nothing but noise
			noise := make([]byte, m.r.Intn(300))
			m.r.Read(noise)
			m.lines = slices.Insert(m.lines, n, string(noise)+"\n")
		case 5: // another order
			m.r.Shuffle(len(m.lines), func(i, j int) { m.lines[i], m.lines[j] = m.lines[j], m.lines[i] })
		case 6:
			m.lines = m.lines[:n]
		default:
			m.forge(n)
		}
		if len(m.lines) == 0 {
			return ""
		}
	}
	return strings.Join(m.lines, "")
}

// forge changes a line and signs it, as somebody does who means harm.
func (m *mutation) forge(n int) {
	fields := strings.SplitN(strings.TrimSpace(m.lines[n]), " ", 7) // sum, key, ancestors, ~1, sequence, sum, envelope
	if len(fields) < 7 {
		return
	}
	key, line, sequence, inner := fields[1], fields[2], fields[4], fields[6]
	switch m.r.Intn(10) {
	case 9: // a job with fewer facts that says it was made from the one here
		var e envelope
		var body JobBody
		if json.Unmarshal([]byte(inner), &e) == nil && json.Unmarshal(e.Body, &body) == nil && len(body.Events) > 2 && m.here[key].Sum != "" {
			body.Events = body.Events[:1+m.r.Intn(len(body.Events)-1)]
			e.Body, _ = json.Marshal(body)
			forged, _ := json.Marshal(e)
			line, sequence, inner = m.here[key].Sum, fmt.Sprint(m.here[key].Sequence+1), string(forged)
		}
	case 0:
		sequence = []string{"1", "999999", "1099511627776", "9007199254740991", "9007199254740992", "18446744073709551615", "0", "-1"}[m.r.Intn(8)]
	case 1: // a lie about where it comes from
		other := strings.Fields(m.lines[m.r.Intn(len(m.lines))])
		if len(other) > 5 {
			line = strings.Trim(other[2]+","+other[5], "-,")
		}
	case 2:
		key = []string{"kit", "instrument/i0", "instrument/i1", "job/home-job-2", "history/i0", "secret", "instrument/", "parted/kit/0123456789abcdef"}[m.r.Intn(8)]
	case 3: // wrong types
		inner = strings.Replace(inner, []string{`:"`, `:[`, `:1`, `:{`}[m.r.Intn(4)], []string{`:null,"x":"`, `:-1e400,"x":[`, `:"1`, `:[],"x":{`}[m.r.Intn(4)], 1+m.r.Intn(3))
	case 4:
		inner = strings.Replace(inner, `"mm"`, []string{`"parsec"`, `"in"`, `""`, `"<script>"`}[m.r.Intn(4)], 1+m.r.Intn(3))
	case 5: // facts left out, so that the job does not replay, or is another
		if i, j := m.r.Intn(len(inner)), m.r.Intn(len(inner)); i < j {
			inner = inner[:i] + inner[j:]
		}
	case 6:
		if line := []byte(inner); len(line) > 0 {
			for range 1 + m.r.Intn(3) {
				line[m.r.Intn(len(line))] = `0123456789{}[]",:-.eabc`[m.r.Intn(23)]
			}
			inner = string(line)
		}
	case 7: // other values of the same kind
		inner = strings.Replace(inner, []string{`"name":"`, `"text":"2`, `"at":"2026`, `"seq":`, `"fret":12`}[m.r.Intn(5)],
			[]string{`"name":"<img src=x onerror=alert(1)>`, `"text":"9`, `"at":"0001`, `"seq":1`, `"fret":3`}[m.r.Intn(5)], 1+m.r.Intn(2))
	case 8:
		inner = strings.Replace(inner, `"finished":true,`, "", 1)
	}
	m.lines[n] = sign(key + " " + line + " ~1 " + sequence + " " + checksum(sequence, inner) + " " + inner)
}
