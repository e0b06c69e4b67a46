package store

import (
	"encoding/json"
	"errors"
	"slices"

	"gapwright/app/job"
)

// HistoryBody is what a history's document holds: the ids of an instrument's jobs that are over, in the order in which they ended. What they say
// is read from the jobs themselves.
type HistoryBody struct {
	Jobs []string `json:"jobs"`
}

func mergeHistories(_ string, _, ours, theirs json.RawMessage) (json.RawMessage, error) {
	var a, b HistoryBody
	if err := errors.Join(json.Unmarshal(ours, &a), json.Unmarshal(theirs, &b)); err != nil {
		return nil, err
	}
	for _, id := range a.Jobs {
		if !slices.Contains(b.Jobs, id) {
			b.Jobs = append(b.Jobs, id)
		}
	}
	return json.Marshal(b)
}

// remember notes a job that is over in its instrument's history, as the one that ended last.
func (d *Desk) remember(r job.Record) {
	key := KindHistory + "/" + r.Instrument.ID
	d.Load(key, func(doc Document, outcome Outcome) {
		var body HistoryBody
		if outcome == Fine || outcome == Migrated {
			json.Unmarshal(doc.Body, &body)
		}
		if n := len(body.Jobs); n > 0 && body.Jobs[n-1] == r.ID {
			return
		}
		body.Jobs = append(slices.DeleteFunc(body.Jobs, func(id string) bool { return id == r.ID }), r.ID)
		if data, err := json.Marshal(body); err == nil {
			d.PutFinished(key, KindHistory, data)
		}
	})
}

// History reads the jobs of an instrument that are over, in the order in which they ended. whole is false when one of them could not be read.
func (d *Desk) History(instrument string, give func(jobs []job.Record, whole bool)) {
	d.Load(KindHistory+"/"+instrument, func(doc Document, outcome Outcome) {
		var body HistoryBody
		whole := outcome == Absent
		if outcome == Fine || outcome == Migrated {
			whole = json.Unmarshal(doc.Body, &body) == nil
		}
		listed := len(body.Jobs)
		if i, ok := d.Instrument(instrument); ok && i.AsSet != nil && i.AsSet.Job != "" && !slices.Contains(body.Jobs, i.AsSet.Job) {
			body.Jobs = append(body.Jobs, i.AsSet.Job) // of before there were histories, or done on another device and not here at all
		}
		jobs := make([]job.Record, len(body.Jobs))
		left := len(jobs)
		done := func() {
			give(slices.DeleteFunc(jobs, func(r job.Record) bool { return !r.Over() }), whole) // what was taken up again is not over
		}
		if left == 0 {
			done()
			return
		}
		keys := make([]string, len(body.Jobs))
		for n, id := range body.Jobs {
			keys[n] = KindJob + "/" + id
		}
		d.bring(keys, func() {
			for n, id := range body.Jobs {
				d.Load(keys[n], func(_ Document, outcome Outcome) {
					r, ok := d.Job(id)
					jobs[n] = r
					whole = whole && (ok || n >= listed && outcome == Absent)
					if left--; left == 0 {
						done()
					}
				})
			}
		})
	})
}

// forget removes an instrument's history with the jobs in it.
func (d *Desk) forget(instrument string) {
	key := KindHistory + "/" + instrument
	d.Load(key, func(doc Document, outcome Outcome) {
		var body HistoryBody
		if outcome != Fine && outcome != Migrated || json.Unmarshal(doc.Body, &body) != nil {
			return
		}
		for _, id := range body.Jobs {
			d.Remove(KindJob + "/" + id)
		}
		d.Remove(key)
	})
}

// bring loads what lives in the journal alone, a batch at a time: many questions at once would outlast a journal's patience. What is not sound is
// left to Load.
func (d *Desk) bring(keys []string, done func()) {
	keys = slices.DeleteFunc(slices.Clone(keys), func(key string) bool {
		_, outcome := d.Get(key)
		return outcome != Unreachable && (outcome != Absent || d.settled)
	})
	if len(keys) == 0 {
		done()
		return
	}
	now := keys[:min(batch, len(keys))]
	d.newest(now, func(found []Head, err error) {
		if err != nil {
			done()
			return
		}
		for _, h := range found {
			doc, outcome := d.opt.Kinds.Decode(h.Key, h.Text)
			sound := (outcome == Fine || outcome == Migrated) && doc.Sum == h.Sum
			if e := d.entry(h.Key); sound && e.doc.Sequence == 0 && (e.attempt == nil || e.attempt.late) {
				d.meet(e, &h, nil)
			}
		}
		d.bring(keys[len(now):], done)
	})
}

// newest asks the journal once, with patience, for the newest revisions of some documents.
func (k *Keeper) newest(keys []string, give func(found []Head, err error)) {
	var found []Head
	k.timely(func(answer func(error)) {
		k.shelf.Newest(keys, func(heads []Head, err error) {
			found = heads
			answer(err)
		})
	}, func(err error) { give(found, err) })
}

// ErrNotAway refuses to take up a job that was not put away.
var ErrNotAway = errors.New("the job was not put away")

// TakeUp opens a job again that was put away, wherever it is. Errors: ErrNotAway, *job.Refusal, and the keeper's.
func (d *Desk) TakeUp(id string, tell func(err error)) {
	d.Load(KindJob+"/"+id, func(Document, Outcome) {
		r, ok := d.Job(id)
		sequence, fact, can := r.Undoable()
		if _, away := fact.(job.PutAway); !ok || !can || !away {
			tell(ErrNotAway)
			return
		}
		tell(d.Record(id, job.Undone{Sequence: sequence}))
	})
}
