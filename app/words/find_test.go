package words_test

import (
	"strings"
	"testing"

	"gapwright/app/job"
	"gapwright/app/words"
	"gapwright/geometry"
)

func TestWhatIsFound(t *testing.T) {
	i := job.Instrument{Name: "Porch guitar No. 12", Family: geometry.FlatTop6, Owner: "Søren O’Hanlon-Świątek", Tags: "rental, blue case; <b>loud</b>"}
	vietnamese := job.Instrument{Family: geometry.Bass5, Owner: "Nguyễn Thị Ổn", Tags: "STRAẞE Œuvre"}
	combined := job.Instrument{Family: geometry.Mandolin, Owner: "Zoe\u0308 Pe\u0301rez"} // accents after their letters
	for _, c := range []struct {
		i     job.Instrument
		query string
		want  bool
	}{
		{i, "", true},
		{i, "   ", true},
		{i, "…", false}, // a sign that stands nowhere
		{i, "--", true}, // nothing to look for
		{i, "porch", true},
		{i, "PORCH GUITAR", true},
		{i, "guitar porch", true}, // in any order
		{i, "orch", true},         // any part
		{i, "12", true},
		{i, "13", false},
		{i, "porch bass", false}, // every word must be there
		{i, "soren", true},
		{i, "SØREN", true},
		{i, "søren", true},
		{i, "ohanlon", true},
		{i, "o'hanlon", true},
		{i, "hanlon swiatek", true},
		{i, "blue case rental", true},
		{i, "blue, case", true},
		{i, "<b>loud</b>", true},
		{i, "bloud", false}, // signs stand between words
		{i, "flat-top", true},
		{i, "six string", true},
		{i, "nylon", false},
		{vietnamese, "nguyen thi on", true},
		{vietnamese, "Nguyễn", true},
		{vietnamese, "strasse", true},
		{vietnamese, "oeuvre", true},
		{vietnamese, "five-string", true}, // of the kind alone
		{combined, "zoe perez", true},
		{combined, "Zoë Pérez", true},
		{combined, "mandolin", true},
		{job.Instrument{Family: "of a later version"}, "of", false}, // its kind has no name here
	} {
		if got := words.Finds(c.i, c.query); got != c.want {
			t.Errorf("%q in %q of %q: %v, want %v", c.query, c.i.Name, c.i.Owner, got, c.want)
		}
	}
	all := []job.Instrument{i, vietnamese, combined}
	if found := words.FindIn(all, "zoe"); len(found) != 1 || found[0].Owner != combined.Owner {
		t.Errorf("found %d", len(found))
	}
	if found := words.FindIn(all, " "); len(found) != 3 {
		t.Errorf("nothing looked for finds %d of 3", len(found))
	}
}

// Whatever stands on an instrument finds it, as it is written and in capitals.
func FuzzFindsItself(f *testing.F) {
	f.Add("Søren", "Ærø blue")
	f.Add("İstanbul", "ΣΑΣ ﬁ")
	f.Add("ǅ", "\xff\u0301")
	f.Fuzz(func(t *testing.T, owner, tags string) {
		i := job.Instrument{Family: geometry.Bass, Owner: owner, Tags: tags}
		for _, query := range []string{owner, tags, owner + " " + tags, tags + " bass " + owner} {
			if !words.Finds(i, query) {
				t.Errorf("%q is not found in owner %q with tags %q", query, owner, tags)
			}
		}
	})
}

func TestFoundSaysWhatThereIs(t *testing.T) {
	for _, c := range []struct {
		query                string
		found, all, archived int
		want                 string
	}{
		{"", 60, 60, 1, ""},
		{" ", 60, 60, 1, ""},
		{"a", 12, 60, 3, "12 of 60 instruments"},
		{"a", 1, 1, 0, "1 of 1 instrument"},
		{"a", 0, 60, 2, "None on the Bench, but 2 in the archive."},
	} {
		if got := words.Found(c.query, c.found, c.all, c.archived); got != c.want {
			t.Errorf("%+v says %q", c, got)
		}
	}
	if nothing := words.Found("a", 0, 60, 0); !strings.HasPrefix(nothing, "No instrument") {
		t.Errorf("nothing found says %q", nothing)
	}
	for _, c := range []struct{ owner, tags, belongs, name string }{
		{"", "", "", "Bass"}, {"Ada", "", "Ada", "Bass · Ada"}, {"", "red", "red", "Bass"}, {"Ada", "red", "Ada · red", "Bass · Ada"},
	} {
		i := job.Instrument{Family: geometry.Bass, Owner: c.owner, Tags: c.tags}
		if words.Belongs(i) != c.belongs || words.InstrumentAndOwner(i) != c.name {
			t.Errorf("%+v says %q and %q", c, words.Belongs(i), words.InstrumentAndOwner(i))
		}
	}
}
