package store

import (
	"encoding/json"

	"gapwright/app/job"
)

// TakeOther makes the version that was kept beside a document the document, and drops the copy once that is saved. told hears whether it is.
// Errors: those of Put, and nothing is changed then.
func (d *Desk) TakeOther(p Parted, other Document, told func(ok bool)) error {
	_, kind := d.KeyOf(p.Kept)
	put := d.Put
	if d.Finished(p.Key) {
		put = d.PutFinished
	}
	if err := put(p.Key, kind, other.Body); err != nil {
		return err
	}
	d.dropWhenSaved(p.Key, p.Kept, told)
	return nil
}

// SecondInstrument makes the version that was kept beside an instrument an instrument of its own with that name, and drops the copy once that is
// saved. Errors: ErrBody, those of Put.
func (d *Desk) SecondInstrument(p Parted, other Document, name string, told func(ok bool)) error {
	var i job.Instrument
	if json.Unmarshal(other.Body, &i) != nil {
		return ErrBody
	}
	i.ID, i.Name = "", name
	i, err := d.PutInstrument(i)
	if err != nil {
		return err
	}
	d.dropWhenSaved(KindInstrument+"/"+i.ID, p.Kept, told)
	return nil
}

func (d *Desk) dropWhenSaved(key, kept string, told func(ok bool)) {
	d.WhenSaved(key, func(ok bool) {
		if !ok {
			told(false)
			return
		}
		d.Forget(kept, told)
	})
}

// RecordOf reads a job's document; one that cannot be read is a job of which nothing is known.
func RecordOf(doc Document) job.Record {
	r, _, _ := decodeJob(doc.Body)
	return r
}
