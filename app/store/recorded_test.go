package store

import (
	"fmt"
	"reflect"
	"testing"
	"time"

	"gapwright/app/job"
)

// What was just recorded is not read again from its document: it must be what the document says, after every fact.
func TestWhatIsRecordedIsWhatIsRead(t *testing.T) {
	ids := 0
	d := NewDesk(NewDevice().Tab(), Options{Writer: "w", NewID: func() string { ids++; return fmt.Sprint("id", ids) }})
	_, events := job.Example("i", "j", "w", "An example", time.Unix(1e9, 0).UTC())
	for _, e := range events {
		if err := d.Record("j", e.Fact); err != nil {
			t.Fatal(err)
		}
		known, ok := d.Job("j")
		doc, _ := d.Get(KindJob + "/j")
		read, _, err := decodeJob(doc.Body)
		if !ok || err != nil || !reflect.DeepEqual(known, read) {
			t.Fatalf("after %T: known\n%+v\nread (%v)\n%+v", e.Fact, known, err, read)
		}
	}
}
