package words

import (
	"strings"
	"unicode"

	"gapwright/app/job"
)

// What the Bench says where there are many instruments.
func FindLabel() string   { return "Find by name, owner, tag or kind" }
func FindClear() string   { return "Clear" }
func MoreNotes() string   { return "More messages" }
func OwnerLabel() string  { return "Whose it is" }
func KeepBelongs() string { return "Keep owner and tags" }
func TagsLabel() string   { return "Tags, such as: rental, stage left" }

// Found says how many were found, of all that are on the Bench, and where else there are some; "" when nothing is looked for.
func Found(query string, found, all, archived int) string {
	switch {
	case strings.TrimSpace(query) == "":
		return ""
	case found > 0:
		return Number(found) + " of " + plural(all, "instrument", "instruments")
	case archived > 0:
		return "None on the Bench, but " + Number(archived) + " in the archive."
	}
	return "No instrument has all of that in its name, owner, tags or kind. Try fewer letters."
}

// InstrumentAndOwner names an instrument and whose it is.
func InstrumentAndOwner(i job.Instrument) string {
	if i.Owner == "" {
		return Instrument(i)
	}
	return Instrument(i) + " · " + i.Owner
}

// ShowMore leads to that many more of a long list.
func ShowMore(n int) string { return "Show " + Number(n) + " more" }

// The archive.
func Archive(n int) string     { return "Archive (" + Number(n) + ")" }
func IntoArchive() string      { return "Put it in the archive" }
func IntoArchiveTitle() string { return "Archive this instrument" }
func OutOfArchive() string     { return "Take it out of the archive" }
func InArchive() string        { return "In the archive: off the Bench, but a search there finds it." }
func IntoArchiveMore() string {
	return "It leaves the Bench and keeps all its heights and jobs. A search still finds it."
}
func ArchivedWithJob() string {
	return "A job is under way on it. That stays on the Bench until it is finished or put away."
}

// Belongs tells whose an instrument is and what it is found by; "" when nobody said.
func Belongs(i job.Instrument) string {
	var said []string
	for _, each := range []string{i.Owner, i.Tags} {
		if each != "" {
			said = append(said, each)
		}
	}
	return strings.Join(said, " · ")
}

// TooLong refuses a text of more letters than there is room for.
func TooLong(most int) string {
	return "There is room for " + Number(most) + " letters here. Shorten it, or put the rest into a note of the job."
}

// FindIn lists those of the instruments that are found.
func FindIn(all []job.Instrument, query string) []job.Instrument {
	if strings.TrimSpace(query) == "" {
		return all
	}
	var found []job.Instrument
	for _, i := range all {
		if Finds(i, query) {
			found = append(found, i)
		}
	}
	return found
}

// Finds tells whether each word that is looked for stands somewhere in an instrument's name, owner, tags or kind. Capitals, accents and
// punctuation make no difference, and the beginning or any part of a word will do. Nothing looked for finds everything.
func Finds(i job.Instrument, query string) bool {
	all := plain(i.Name) + " " + plain(i.Owner) + " " + plain(i.Tags) + " " + plain(Family(i.Family))
	for _, word := range strings.Fields(plain(query)) {
		if !strings.Contains(all, word) {
			return false
		}
	}
	return true
}

// plain writes a text without capitals, accents and apostrophes, and with spaces for other punctuation.
func plain(text string) string {
	var b strings.Builder
	for _, c := range text {
		c = unicode.ToLower(c)
		switch {
		case c < 0x80 && (c >= 'a' && c <= 'z' || c >= '0' && c <= '9'):
			b.WriteRune(c)
		case c == '\'' || c == '’' || c >= 0x300 && c < 0x370: // the last are accents that follow their letter
		case c < 0x80 || c == '\u2011': // a hyphen that does not break
			b.WriteByte(' ')
		default:
			b.WriteString(bare(c))
		}
	}
	return b.String()
}

// letters are small Latin letters, each followed by those that are it with something added.
var letters = [...]string{"aàáâãäåāăą", "cçćĉċč", "dďđð", "eèéêëēĕėęě", "gĝğġģ", "hĥħ", "iìíîïĩīĭįı", "jĵ", "kķ", "lĺļľŀł", "nñńņňŋ", "oòóôõöøōŏőơ", "rŕŗř",
	"sśŝşšș", "tţťŧț", "uùúûüũūŭůűųư", "wŵ", "yýÿŷ", "zźżž"}

// bare is a small letter without what is added to it, or as it is.
func bare(c rune) string {
	switch {
	case c == 'ß':
		return "ss"
	case c == 'æ':
		return "ae"
	case c == 'œ':
		return "oe"
	case c == 'þ':
		return "th"
	case c > 'ư': // further letters with two accents stand in the order of the alphabet
		for _, run := range [...]struct {
			last rune
			is   string
		}{{0x1E9F, ""}, {0x1EB7, "a"}, {0x1EC7, "e"}, {0x1ECB, "i"}, {0x1EE3, "o"}, {0x1EF1, "u"}, {0x1EF9, "y"}} {
			if c <= run.last && run.is != "" {
				return run.is
			} else if c <= run.last {
				break
			}
		}
	}
	for _, all := range letters {
		if strings.ContainsRune(all, c) {
			return all[:1]
		}
	}
	return string(c)
}
