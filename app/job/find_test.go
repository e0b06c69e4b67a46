package job

import (
	"errors"
	"strings"
	"testing"
)

func TestPagesOfALongList(t *testing.T) {
	for _, c := range []struct{ all, more, shown, next int }{
		{0, 0, 0, 0}, {7, 0, 7, 0}, {30, 0, 30, 0}, {31, 0, 30, 1}, {31, 1, 31, 0}, {500, 0, 30, 30}, {500, 15, 480, 20}, {500, 16, 500, 0}, {12, 40, 12, 0},
	} {
		if shown, next := Pages(c.all, 30, c.more); shown != c.shown || next != c.next {
			t.Errorf("%d, %d times more: %d shown and %d to come, want %d and %d", c.all, c.more, shown, next, c.shown, c.next)
		}
	}
}

func TestLabelsHaveAnEnd(t *testing.T) {
	for _, c := range []struct {
		i     Instrument
		field string
	}{
		{Instrument{}, ""},
		{Instrument{Owner: strings.Repeat("ö", 60), Tags: strings.Repeat("é", 120)}, ""}, // letters are counted, not bytes
		{Instrument{Owner: strings.Repeat("ö", 61)}, "owner"},
		{Instrument{Tags: strings.Repeat("é", 121)}, "tags"},
		{Instrument{Owner: strings.Repeat("o", 61), Tags: strings.Repeat("e", 121)}, "owner"},
	} {
		var long *TooLong
		if errors.As(c.i.CheckLabels(), &long); long == nil && c.field != "" || long != nil && long.Field != c.field {
			t.Errorf("%d and %d letters: %v", len(c.i.Owner), len(c.i.Tags), long)
		}
	}
}

func TestShelved(t *testing.T) {
	bench, archive := Shelved([]Instrument{{ID: "a"}, {ID: "b", Archived: true}, {ID: "c"}, {ID: "d", Archived: true}})
	if len(bench) != 2 || bench[0].ID != "a" || bench[1].ID != "c" || len(archive) != 2 || archive[0].ID != "b" || archive[1].ID != "d" {
		t.Errorf("on the Bench %v, in the archive %v", bench, archive)
	}
}
