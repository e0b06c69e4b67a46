package store

import "errors"

// LocalLimit is the most characters (UTF-16 units, names with their prefix and texts together) that this program puts into local
// storage. Our choice: browsers hold some 5 million for all that runs on one origin, and the start of the app reads all of it.
const LocalLimit = 1_500_000

// Prefix is put before every name of ours in local storage; names without it belong to others and are neither read nor written.
const Prefix = "gapwright/"

// Why a shelf could not do what it was asked. Any other error is as much a failure, of a kind that nobody foresaw.
var (
	ErrFull    = errors.New("no room left")
	ErrBlocked = errors.New("this store may not be used here")
)

// A Shelf is where texts are kept: local storage, read and written at once but lost by some ten seconds when a browser is killed, and
// a journal that answers later and has lost nothing that it confirmed. The browser twin and the memory twin pass one shared contract test.
// No method panics or blocks. An answer may come before the method returns, later, or never; never twice.
type Shelf interface {
	// Names lists the names in local storage, without the prefix, in no order.
	Names() ([]string, error)
	// Texts reads all of them, by name.
	Texts() (map[string]string, error)
	// Text reads from local storage: "" when there is none.
	Text(name string) (string, error)
	// SetText writes to local storage at once. Errors: ErrFull, also when LocalLimit would be exceeded, with the old text left as it
	// was; ErrBlocked.
	SetText(name, text string) error
	// RemoveText removes a name from local storage. Errors: ErrBlocked.
	RemoveText(name string) error

	// Heads reads the newest revision of every document in the journal, and the names of what was kept aside. The text is left out of
	// what local storage holds as well, to the letter, and text and line of what is finished.
	Heads(answer func(heads []Head, kept []string, err error))
	// Read reads one document's head, nil when there is none, and the texts of its last revisions, newest first.
	Read(key string, answer func(head *Head, past []string, err error))
	// Newest reads several documents' heads with line and text, in the order of the keys. Of what is kept under a name there is the text alone, of
	// what is not there nothing but the key.
	Newest(keys []string, answer func(heads []Head, err error))
	// Commit makes a revision the head of its document, if the head is still the expected one. Saved without error and without
	// conflict means: strictly committed, to be found after a kill or a power cut.
	Commit(c Commit, answer func(conflict bool, head *Head, err error))
	// Keep keeps a text under a name of its own, strictly committed, never pruned. The same name with the same text changes nothing.
	Keep(name, text string, answer func(err error))
	// Forget removes what was kept under that name.
	Forget(name string, answer func(err error))
	// All reads every text in the journal.
	All(answer func(texts []Text, err error))
	// Persist asks that the browser does not clear this origin by itself when it is short of room.
	Persist(answer func(granted bool, err error))
	// Watch names what another page has changed; "" when anything may have changed. One watcher at most.
	Watch(moved func(key string))
}

// A Head is the journal's record of a document's newest revision.
type Head struct {
	Key      string   `json:"key"`
	Sequence uint64   `json:"sequence"`
	Sum      string   `json:"sum"`
	Line     []string `json:"line"` // sums of the revisions it comes from, oldest first, at most LineLimit
	Finished bool     `json:"finished"`
	Text     string   `json:"text"`
	Same     bool     `json:"-"` // in Heads: local storage holds this very text
}

// A Commit is what the journal is asked to write, in one transaction.
type Commit struct {
	Key      string
	Expect   string // sum that the head must have now, "" for none
	Sequence uint64
	Sum      string
	Line     []string // sums of its ancestors beyond those that the journal knows
	Finished bool
	Text     string
}

// A Text is one stored text, for a copy of everything.
type Text struct {
	Home string `json:"home"` // "local" or "journal"
	Name string `json:"name"`
	Text string `json:"text"`
}

const (
	// LineLimit is how many ancestors the journal remembers of a document: a local storage that fell back by fewer revisions is
	// recognised as merely old. Further back it counts as parted, and both are kept. Our choice: ten seconds of one tap each 50 ms.
	LineLimit = 200
	// PastLimit is how many revisions' texts the journal holds of a document, the head among them.
	PastLimit = 3
)

// lengthen returns the ancestors of a revision that is written over a head: the head's own, the head, and those that the writer adds;
// each once, the newest LineLimit of them.
func lengthen(head *Head, add []string, sum string) []string {
	var all []string
	if head != nil {
		all = append(append(all, head.Line...), head.Sum)
	}
	var line []string
	for _, each := range append(all, add...) {
		if each != "" && each != sum && !has(line, each) {
			line = append(line, each)
		}
	}
	return line[max(0, len(line)-LineLimit):]
}

// units is how long a browser counts a text to be: UTF-16 units.
func units(s string) int {
	n := 0
	for _, r := range s {
		n++
		if r > 0xFFFF {
			n++
		}
	}
	return n
}
