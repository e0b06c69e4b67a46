package job

import (
	"bytes"
	"encoding/json"
	"slices"
)

// Merge joins two lists of events that share their beginning and were then continued by two copies of the app. When one is the other gone on,
// that one stands as it is. Where they part, theirs stands; the facts that are only in ours follow with new numbers, as far as the record
// takes them and does not have them already. What it refuses comes back in left, in order, so that nothing vanishes without a word; only what ours did and took back by
// itself is left out of both. Errors: those of Replay, for a list that is not a job.
func Merge(ours, theirs []Event) (merged, left []Event, err error) {
	record, err := Replay(theirs)
	if err != nil {
		return theirs, ours, err
	}
	shared := 0
	for shared < len(ours) && shared < len(theirs) && same(ours[shared], theirs[shared]) {
		shared++
	}
	if shared == len(theirs) {
		if longer, err := Replay(ours); err == nil {
			return longer.Events, nil, nil
		}
	}
	for _, e := range effective(ours[shared:]) {
		if slices.ContainsFunc(theirs[shared:], func(other Event) bool {
			other.Sequence = e.Sequence // joined before
			return same(e, other)
		}) {
			continue
		}
		next, err := record.Apply(Event{Job: e.Job, Sequence: len(record.Events) + 1, Writer: e.Writer, At: e.At, Fact: e.Fact})
		if _, undo := e.Fact.(Undone); undo || err != nil { // what an undo pointed at has another successor now
			left = append(left, e)
			continue
		}
		record = next
	}
	return record.Events, left, nil
}

// same compares facts as documents keep them: a time read back from one is the same moment without its clock.
func same(a, b Event) bool {
	if !a.At.Equal(b.At) {
		return false
	}
	a.At = b.At
	ours, errOurs := json.Marshal(a)
	theirs, errTheirs := json.Marshal(b)
	return errOurs == nil && errTheirs == nil && bytes.Equal(ours, theirs)
}
