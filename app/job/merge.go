package job

import "reflect"

// Merge joins two lists of events that share their beginning and were then continued by two copies of the app. Theirs stands; the facts that
// are only in ours follow with new numbers, as far as the record takes them. What it refuses comes back in left, in order, so that nothing
// vanishes without a word.
func Merge(ours, theirs []Event) (merged, left []Event, err error) {
	record, err := Replay(theirs)
	if err != nil {
		return theirs, ours, err
	}
	shared := 0
	for shared < len(ours) && shared < len(theirs) && same(ours[shared], theirs[shared]) {
		shared++
	}
	for _, e := range ours[shared:] {
		if _, undo := e.Fact.(Undone); undo { // what it pointed at has another number now, or another successor
			left = append(left, e)
			continue
		}
		e.Sequence = len(record.Events) + 1
		next, err := record.Apply(e)
		if err != nil {
			left = append(left, e)
			continue
		}
		record = next
	}
	return record.Events, left, nil
}

func same(a, b Event) bool {
	return a.Job == b.Job && a.Sequence == b.Sequence && a.Writer == b.Writer && a.At.Equal(b.At) && reflect.DeepEqual(a.Fact, b.Fact)
}
