package job

import "unicode/utf8"

// How many letters may say whose an instrument is and what it is found by: two lines of a phone, and four. Our choice.
const (
	MostOwner = 60
	MostTags  = 120
)

// TooLong refuses a text that has no room.
type TooLong struct {
	Field string // "owner" or "tags"
	Most  int    // letters
}

// Error is for programmers.
func (t *TooLong) Error() string { return t.Field + " is too long" }

// CheckLabels tells whether what an instrument is found by has room where it is shown. It is no part of Check: no plan rests on it. Errors: *TooLong.
func (i Instrument) CheckLabels() error {
	if utf8.RuneCountInString(i.Owner) > MostOwner {
		return &TooLong{"owner", MostOwner}
	}
	if utf8.RuneCountInString(i.Tags) > MostTags {
		return &TooLong{"tags", MostTags}
	}
	return nil
}

// Shelved sorts instruments into those on the Bench and those in the archive.
func Shelved(all []Instrument) (bench, archive []Instrument) {
	for _, i := range all {
		if i.Archived {
			archive = append(archive, i)
		} else {
			bench = append(bench, i)
		}
	}
	return bench, archive
}

// Pages tells how many of a list stand on its first page and on that many more, and how many come with the next one.
func Pages(all, page, more int) (shown, next int) {
	shown = min(all, page*(more+1))
	return shown, min(page, all-shown)
}
