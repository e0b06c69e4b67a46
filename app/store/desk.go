package store

import (
	"bytes"
	"cmp"
	"encoding/json"
	"errors"
	"slices"
	"sort"
	"strings"
	"time"

	"gapwright/app/job"
)

// KindKit, KindInstrument and KindJob are the documents of this program.
const (
	KindKit        = "kit"
	KindInstrument = "instrument"
	KindJob        = "job"
	KindHistory    = "history" // which jobs an instrument had; in the journal alone
)

// JobBody is what a job's document holds: its events, and those of another page that could not be joined to them.
type JobBody struct {
	Events []job.Event `json:"events"`
	Left   []job.Event `json:"left,omitempty"`
}

// JobKinds are the released kinds with the way in which two copies of a job are joined.
func JobKinds() Kinds {
	kinds := Released()
	jobs := kinds[KindJob]
	jobs.Merge = mergeJobs
	kinds[KindJob] = jobs
	history := kinds[KindHistory]
	history.Merge = mergeHistories
	kinds[KindHistory] = history
	for _, name := range []string{KindKit, KindInstrument} {
		kind := kinds[name]
		kind.Merge = mergeMembers
		kinds[name] = kind
	}
	return kinds
}

func mergeJobs(_ string, _, ours, theirs json.RawMessage) (json.RawMessage, error) {
	var a, b JobBody
	if err := errors.Join(json.Unmarshal(ours, &a), json.Unmarshal(theirs, &b)); err != nil {
		return nil, err
	}
	merged, left, err := job.Merge(a.Events, b.Events)
	if err != nil {
		return nil, err
	}
	return json.Marshal(JobBody{Events: merged, Left: union(b.Left, a.Left, left)})
}

// union joins lists of facts, each fact once: a fact is known by its writer and its moment.
func union(lists ...[]job.Event) []job.Event {
	type name struct {
		writer string
		at     time.Time
	}
	known := map[name]bool{}
	var all []job.Event
	for _, list := range lists {
		for _, e := range list {
			if n := (name{e.Writer, e.At.UTC()}); !known[n] {
				known[n] = true
				all = append(all, e)
			}
		}
	}
	return all
}

// A Desk is a keeper together with what its documents mean: the kit, the instruments and the jobs.
type Desk struct {
	*Keeper
	now    func() time.Time
	newID  func() string
	writer string
	last   time.Time
	read   map[string]readJob // decoded jobs, by key
	kit    readKit
	// profiles are decoded instruments, by key. What is in one is never changed in place.
	profiles map[string]readProfile
	listed   []job.Instrument // as they were last listed, and
	listedAs []string         // their sums then, by key
	copied   *lastBackup      // nil until it is read
}

type readProfile struct {
	sum     string
	profile job.Instrument
	ok      bool
}

type readJob struct {
	sum    string
	record job.Record
	left   []job.Event // see JobBody
	err    error
}

type readKit struct {
	sum string
	kit job.Kit
	ok  bool
}

// NewDesk opens the documents. opt.Kinds is set here.
func NewDesk(shelf Shelf, opt Options) *Desk {
	opt.Kinds = JobKinds()
	if opt.Now == nil {
		opt.Now = time.Now
	}
	if opt.Writer == "" {
		opt.Writer = opt.NewID()
	}
	return &Desk{Keeper: Open(shelf, opt), now: opt.Now, newID: opt.NewID, writer: opt.Writer, read: map[string]readJob{}, profiles: map[string]readProfile{}}
}

// Kit is what is to hand; ok is false until something was said of it.
func (d *Desk) Kit() (kit job.Kit, ok bool) {
	doc, outcome := d.Get(KindKit)
	if outcome != Fine && outcome != Migrated {
		return job.Kit{}, false
	}
	if d.kit.sum != doc.Sum { // it is asked for many times a screen
		d.kit = readKit{sum: doc.Sum}
		d.kit.ok = json.Unmarshal(doc.Body, &d.kit.kit) == nil
	}
	return d.kit.kit, d.kit.ok
}

// SetKit keeps the kit.
func (d *Desk) SetKit(kit job.Kit) error { return d.put(KindKit, KindKit, kit) }

// Instruments lists the instruments, those last set first, then by name. The list is made anew only when one of them has changed, and is not to be
// written to.
func (d *Desk) Instruments() []job.Instrument {
	keys := d.OpenKeys(KindInstrument)
	sums := make([]string, len(keys))
	for n, key := range keys {
		doc, _ := d.Get(key)
		sums[n] = doc.Sum
	}
	if slices.Equal(sums, d.listedAs) {
		return d.listed
	}
	var order []*job.Instrument // moved about instead of what they point to
	for _, key := range keys {
		if i, ok := d.Instrument(key[len(KindInstrument)+1:]); ok {
			order = append(order, &i)
		}
	}
	slices.SortFunc(order, func(a, b *job.Instrument) int {
		x, y := a.AsSet, b.AsSet
		switch {
		case x == nil && y != nil:
			return 1
		case x != nil && y == nil:
			return -1
		case x != nil && !x.At.Equal(y.At):
			return y.At.Compare(x.At)
		}
		return cmp.Or(strings.Compare(a.Name, b.Name), strings.Compare(a.ID, b.ID))
	})
	d.listed, d.listedAs = make([]job.Instrument, len(order)), sums
	for n, i := range order {
		d.listed[n] = *i
	}
	return d.listed
}

// Instrument finds one.
func (d *Desk) Instrument(id string) (job.Instrument, bool) {
	key := KindInstrument + "/" + id
	doc, outcome := d.Get(key)
	if outcome != Fine && outcome != Migrated {
		return job.Instrument{}, false
	}
	known, ok := d.profiles[key]
	if !ok || known.sum != doc.Sum {
		known = readProfile{sum: doc.Sum}
		known.ok = json.Unmarshal(doc.Body, &known.profile) == nil
		d.profiles[key] = known
	}
	return known.profile, known.ok
}

// PutInstrument keeps a profile; one without an ID is given one. It returns the profile as kept.
func (d *Desk) PutInstrument(i job.Instrument) (job.Instrument, error) {
	if i.ID == "" {
		i.ID = d.newID()
	}
	return i, d.put(KindInstrument+"/"+i.ID, KindInstrument, i)
}

// RemoveInstrument takes an instrument, its jobs and its history away. Those that are over follow as soon as the journal has said which they are.
func (d *Desk) RemoveInstrument(id string) error {
	err := d.Remove(KindInstrument + "/" + id)
	for _, r := range d.Jobs() {
		if r.Instrument.ID == id {
			err = errors.Join(err, d.Remove(KindJob+"/"+r.ID))
		}
	}
	d.forget(id)
	return err
}

// Jobs lists the jobs that are not over, the one worked on last first.
func (d *Desk) Jobs() []job.Record {
	var open []job.Record
	for _, key := range d.OpenKeys(KindJob) {
		if r, ok := d.Job(key[len(KindJob)+1:]); ok && !r.Over() {
			open = append(open, r)
		}
	}
	sort.SliceStable(open, func(a, b int) bool {
		if !open[a].Last.Equal(open[b].Last) {
			return open[a].Last.After(open[b].Last)
		}
		return open[a].ID < open[b].ID
	})
	return open
}

// Job reads a job that is at hand. One that is finished may live in the journal alone: see Fetch.
func (d *Desk) Job(id string) (job.Record, bool) {
	key := KindJob + "/" + id
	doc, outcome := d.Get(key)
	if outcome != Fine && outcome != Migrated {
		return job.Record{}, false
	}
	known, ok := d.read[key]
	if !ok || known.sum != doc.Sum {
		known = readJob{sum: doc.Sum}
		known.record, known.left, known.err = decodeJob(doc.Body)
		d.read[key] = known
	}
	return known.record, known.err == nil
}

// Fetch reads a job wherever it is.
func (d *Desk) Fetch(id string, give func(r job.Record, ok bool)) {
	d.Load(KindJob+"/"+id, func(doc Document, outcome Outcome) {
		if outcome != Fine && outcome != Migrated {
			give(job.Record{}, false)
			return
		}
		r, _, err := decodeJob(doc.Body)
		give(r, err == nil)
	})
}

func decodeJob(body []byte) (r job.Record, left []job.Event, err error) {
	var b JobBody
	if err := json.Unmarshal(body, &b); err != nil {
		return job.Record{}, nil, err
	}
	r, err = job.Replay(b.Events)
	return r, b.Left, err
}

// Begin opens a job on an instrument, with what is known from the start, and returns its id.
func (d *Desk) Begin(m job.Method, i job.Instrument, known ...job.Fact) (id string, err error) {
	kit, _ := d.Kit()
	id = d.newID()
	return id, d.Record(id, append([]job.Fact{job.Began{Method: m, Instrument: i, Kit: kit}}, known...)...)
}

// Adopt keeps a job that was made elsewhere, such as the worked example, under a new document.
func (d *Desk) Adopt(events []job.Event) error {
	r, err := job.Replay(events)
	if err != nil {
		return err
	}
	return d.put(KindJob+"/"+r.ID, KindJob, JobBody{Events: r.Events})
}

// Record adds facts to a job, all of them or none, and keeps it. What the facts say of the instrument or the kit is kept there too, and a
// saved job leaves its baseline on the instrument and goes into the journal. Errors: *job.Refusal, and the keeper's.
func (d *Desk) Record(id string, facts ...job.Fact) error {
	key := KindJob + "/" + id
	var left []job.Event
	r, ok := d.Job(id)
	if ok {
		left = d.read[key].left
	}
	for _, f := range facts {
		next, err := r.Apply(job.Event{Job: id, Sequence: len(r.Events) + 1, Writer: d.writer, At: d.tick(), Fact: f})
		if err != nil {
			return err
		}
		r = next
	}
	put := d.Put
	if r.Method == job.QuickCheck && r.Over() { // it may be told more, and stays in the journal alone
		put = d.PutFinished
	}
	data, err := json.Marshal(JobBody{Events: r.Events, Left: left})
	if err != nil {
		return err
	}
	if err := put(key, KindJob, data); err != nil {
		return err
	}
	if doc, _ := d.Get(key); bytes.Equal(doc.Body, data) { // what was just written need not be read
		d.read[key] = readJob{sum: doc.Sum, record: r, left: left}
	}
	for _, f := range facts {
		if err := d.follow(r, f); err != nil {
			return err
		}
	}
	return nil
}

// follow carries a fact on to the documents it also concerns.
func (d *Desk) follow(r job.Record, f job.Fact) error {
	switch f := f.(type) {
	case job.Equipped:
		return d.SetKit(f.Kit)
	case job.Described:
		_, err := d.PutInstrument(f.Instrument)
		return err
	case job.Read:
		if r.Method != job.QuickCheck || !r.Over() {
			return nil
		}
		d.remember(r)
		if i, ok := d.Instrument(r.Instrument.ID); ok {
			i.Checked = r.Last
			_, err := d.PutInstrument(i)
			return err
		}
	case job.PutAway:
		d.remember(r)
		return d.Finish(KindJob + "/" + r.ID)
	case job.Saved:
		if base := r.Baseline(); base != nil {
			i, ok := d.Instrument(r.Instrument.ID)
			if !ok {
				i = r.Instrument
			}
			i.AsSet = base
			if _, err := d.PutInstrument(i); err != nil {
				return err
			}
		}
		d.remember(r)
		return d.Finish(KindJob + "/" + r.ID)
	}
	return nil
}

// tick is now, in thousandths of a second, never twice the same: a fact is known by its writer and its moment.
func (d *Desk) tick() time.Time {
	at := d.now().UTC().Truncate(time.Millisecond)
	if at.Equal(d.last) {
		at = at.Add(time.Millisecond)
	}
	d.last = at
	return at
}

// JobState tells how safe what was written of a job is.
func (d *Desk) JobState(id string) State { return d.StateOf(KindJob + "/" + id) }

// WhenJobSaved calls tell once the job as it is now is strictly committed, or has failed to be.
func (d *Desk) WhenJobSaved(id string, tell func(ok bool)) { d.WhenSaved(KindJob+"/"+id, tell) }

func (d *Desk) put(key, kind string, body any) error {
	data, err := json.Marshal(body)
	if err != nil {
		return err
	}
	return d.Put(key, kind, data)
}
