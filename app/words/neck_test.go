package words_test

import (
	"strings"
	"testing"

	"gapwright/app/job"
	"gapwright/app/words"
	"gapwright/geometry"
)

// Before and after the change and by how much, in whole cents, outward.
func TestThePitchIsSaidBeforeAndAfter(t *testing.T) {
	seen := job.Seen{Course: 5, Before: geometry.CentsRange{Low: 8.2, High: 9.7}, Sharp: geometry.CentsRange{Low: 6.4, High: 7.2}, Change: geometry.CentsRange{Low: -2.4, High: -1.9}}
	want := "Treble string, fret 12: by its height and stretch now +8 to +10 cents, then +6 to +8 cents; this change −3 to −1 cents"
	if got := readers[job.MM].SharpLine(flatTop, seen); got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

// The first contact is named whatever the room is.
func TestEveryRunNamesTheFretThatIsTouchedFirst(t *testing.T) {
	for _, c := range []struct {
		run  job.Run
		want string
	}{
		{job.Run{From: 0, To: 3, Chance: job.RoomPerhaps, First: 4}, "Bass string, open to fret 3: may buzz, first on fret 4"},
		{job.Run{From: 4, To: 12, Chance: job.RoomEnough, First: 13}, "Bass string, frets 4 to 12: enough room, least over fret 13"},
		{job.Run{From: 2, To: 2, Chance: job.RoomLacking, First: 3}, "Bass string, fret 2: will buzz, first on fret 3"},
		{job.Run{From: 0, To: 12, Chance: job.ChanceNotKnown, First: 7}, "Bass string, open to fret 12: not known, least room over fret 7"},
	} {
		if got := words.RunLine(flatTop, 0, c.run); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

// What a job on the neck says of fret 12 depends on what was done and read.
func TestWhatAJobOnTheNeckSaysOfFret12(t *testing.T) {
	for _, c := range []struct {
		moved, still bool
		want         string
	}{{true, false, "moved with it"}, {true, true, "reads as before"}, {false, false, "Nothing was changed"}} {
		if got := words.NeckSaved(c.moved, c.still); !strings.Contains(got, c.want) {
			t.Errorf("%q, want %q in it", got, c.want)
		}
	}
}
