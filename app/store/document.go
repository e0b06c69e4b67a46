package store

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"
)

// Errors of a write that can never succeed as it is. They are for programmers; what a person reads is told by State.
var (
	ErrKey   = errors.New("key is not a known kind, or a known kind followed by / and an id of letters, digits and hyphens")
	ErrBody  = errors.New("body is not JSON in valid UTF-8")
	ErrNewer = errors.New("document was written by a later version and is not written by this one")
)

// A Document is one revision of one thing that is kept: the kit, an instrument or a job.
type Document struct {
	Key      string
	Sequence uint64   // 1 for the first revision; a revision is always above every one that it was made from
	Sum      string   // checksum of this revision's text: its name in the chain
	Parent   string   // Sum of the revision this one was made from, "" for the first
	Line     []string // Sums of further ancestors, oldest first: those that the journal had not confirmed, those merged in
	Kind     string
	Version  int       // of the body, from 1; after decoding always this program's version unless the outcome is Newer
	Build    string    // program that wrote it
	Saved    time.Time // information only: nothing is ever decided by it
	Writer   string    // the opened page that wrote it
	Finished bool      // its text lives in the journal alone
	Removed  bool      // a tombstone: the body is null
	Body     json.RawMessage
}

// Descends reports whether the document is known to be made from the revision with that sum, directly or through others.
func (d Document) Descends(sum string) bool {
	return sum != "" && (d.Parent == sum || has(d.Line, sum))
}

// An Outcome says what was found when a document was read. No outcome but Fine and Migrated gives a body to work on.
type Outcome int

// What reading a document can end in.
const (
	Absent      Outcome = iota // there is none
	Fine                       // intact and of this program's version
	Migrated                   // intact, of an earlier version, lifted to this one; the raw text is kept before anything is written
	Newer                      // written by a later version of the program: shown, never written
	Damaged                    // begins as ours and is not intact: set aside, never overwritten
	Foreign                    // not ours at all, under a key of ours: set aside, never overwritten
	Unreachable                // the journal did not answer, so nobody knows
)

// A Migration lifts a body by one version. It gets bytes and returns new ones, never edits what it was given, and is never
// changed once released.
type Migration func(body []byte) ([]byte, error)

// A Kind is a sort of document.
type Kind struct {
	// Migrations in order: the first leaves version 1 behind, the next version 2. The present version is one more than their number.
	Migrations []Migration
	// Merge joins two bodies that part after base; nil when this kind has no way to do that. base is null when the revision that
	// both come from is not at hand. Merging what was merged before must change nothing.
	Merge MergeFunc
}

// A MergeFunc makes one body of two that were both made from base.
type MergeFunc func(kind string, base, ours, theirs json.RawMessage) (json.RawMessage, error)

// Version is the version of the bodies that this program writes, from 1.
func (k Kind) Version() int { return len(k.Migrations) + 1 }

// Kinds are the sorts of document that a keeper knows, by name.
type Kinds map[string]Kind

// Released returns the kinds of this program: the kit, the instruments, the jobs, and which jobs an instrument had. The caller adds how they merge.
func Released() Kinds {
	more := []Migration{sayingMore, sayingMore, sayingMore}
	return Kinds{"kit": {Migrations: more[:1]}, "instrument": {Migrations: more}, "job": {Migrations: more}, "history": {}}
}

// sayingMore leads to a version that may say more: instruments and jobs from 1 to 2 of neck and strings, and of what was heard, from 2 to 3 of the
// bridge, of a second scale and of the other ways of setting a height; from 3 to 4 of owner, tags, what is usual of
// this one, the air, and quick checks; the kit from 1 to 2 of the screen and of what else is to hand. Nothing in a body changes; it is another version because a program that does not know the new parts would drop them when it writes.
func sayingMore(body []byte) ([]byte, error) { return bytes.Clone(body), nil }

// kindOf returns the kind that a key belongs to: "kit" for kit, "job" for job/<id>; "" for a key that is not one of ours.
func (k Kinds) kindOf(key string) string {
	name, id, more := strings.Cut(key, "/")
	if _, known := k[name]; !known {
		return ""
	}
	if more && (id == "" || len(id) > 64 || strings.Trim(id, "-0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz") != "") {
		return ""
	}
	return name
}

// envelope is the JSON of a text. What is written has every field in this order; what is read may lack or add some.
type envelope struct {
	Kind     string          `json:"kind"`
	Version  int             `json:"version"`
	Build    string          `json:"build"`
	Saved    string          `json:"saved"`
	Writer   string          `json:"writer"`
	Parent   string          `json:"parent"`
	Line     []string        `json:"line,omitempty"`
	Finished bool            `json:"finished,omitempty"`
	Removed  bool            `json:"removed,omitempty"`
	Body     json.RawMessage `json:"body"`
}

// read reads an envelope. The body, which comes last in what is written, is looked through once and left as it is.
func (e *envelope) read(inner string) bool {
	most, closed := strings.CutSuffix(inner, "}")
	head, text, there := strings.Cut(most, bodyMark)
	if body := json.RawMessage(text); closed && there && json.Valid(body) && json.Unmarshal([]byte(head+"}"), e) == nil {
		e.Body = body
		return true
	}
	*e = envelope{}
	return json.Unmarshal([]byte(inner), e) == nil && len(e.Body) > 0
}

// bodyMark cannot stand within a string: a quote there has a stroke before it.
const bodyMark = `,"body":`

// maxSequence is the largest whole number that a browser counts exactly, 2^53 - 1: the journal sorts by sequence.
const maxSequence = 1<<53 - 1

// format is the number after the tilde: how the text around the envelope is laid out.
const format = "1"

// Encode writes a document as the text that both stores hold, `~1 <sequence> <checksum> {json}`, and returns the document as a reader
// of that text would find it, its Sum set and its body without spare blanks. The first byte is not JSON on purpose: the screen library
// parses every JSON text in local storage at start, and deletes some. Errors: ErrBody.
func Encode(d Document) (Document, string, error) {
	var body bytes.Buffer
	if !utf8.Valid(d.Body) || json.Compact(&body, d.Body) != nil || body.Len() == 0 {
		return d, "", ErrBody
	}
	if d.Sequence == 0 || d.Sequence > maxSequence || d.Kind == "" || d.Version < 1 {
		return d, "", fmt.Errorf("document %s: sequence %d, kind %q, version %d cannot be written", d.Key, d.Sequence, d.Kind, d.Version)
	}
	d.Body = body.Bytes()
	d.Saved = d.Saved.UTC().Truncate(time.Second)
	var text bytes.Buffer
	pen := json.NewEncoder(&text)
	pen.SetEscapeHTML(false) // so that the body stays as it is, byte for byte
	err := pen.Encode(envelope{d.Kind, d.Version, d.Build, d.Saved.Format(time.RFC3339), d.Writer, d.Parent, d.Line,
		d.Finished, d.Removed, d.Body})
	if err != nil {
		return d, "", fmt.Errorf("%w: %w", ErrBody, err)
	}
	inner := strings.TrimSuffix(text.String(), "\n")
	sequence := strconv.FormatUint(d.Sequence, 10)
	d.Sum = checksum(sequence, inner)
	return d, "~" + format + " " + sequence + " " + d.Sum + " " + inner, nil
}

// checksum is the first 16 hexadecimal digits (64 bits) of the SHA-256 of format, sequence and envelope. It finds damage; it is no
// proof against somebody who means to deceive.
func checksum(sequence, inner string) string {
	sum := sha256.Sum256([]byte(format + " " + sequence + " " + inner))
	return hex.EncodeToString(sum[:8])
}

// Decode reads a text of the document with that key. It never panics and never gives a body that is not exactly what was written.
// With Newer, the document carries what could be read of the envelope, so that it can be shown; with Damaged and Foreign, only the key.
func (k Kinds) Decode(key, text string) (Document, Outcome) {
	none := Document{Key: key}
	if text == "" {
		return none, Absent
	}
	parts := strings.SplitN(text, " ", 4)
	layout, ours := strings.CutPrefix(parts[0], "~")
	if !ours || !decimal(layout) {
		return none, Foreign
	}
	if len(parts) < 4 {
		return none, Damaged
	}
	sequence, sum, inner := parts[1], parts[2], parts[3]
	intact := decimal(sequence) && checksum(sequence, inner) == sum
	if layout != format {
		if intact { // our own layout with a spoilt number: a later layout has its own number in its checksum
			return none, Damaged
		}
		return none, Newer
	}
	number, err := strconv.ParseUint(sequence, 10, 64)
	if !intact || err != nil || number == 0 || number > maxSequence {
		return none, Damaged
	}
	var e envelope
	whole := e.read(inner)
	if !whole { // a later version may lay out the rest in another way
		e = envelope{}
		var first struct {
			Kind    string `json:"kind"`
			Version int    `json:"version"`
		}
		if json.Unmarshal([]byte(inner), &first) != nil {
			return none, Damaged
		}
		e.Kind, e.Version = first.Kind, first.Version
	}
	kind, known := k[e.Kind]
	newer := !known || e.Version > kind.Version()
	switch {
	case e.Version < 1:
		return none, Damaged
	case !whole && newer:
		return Document{Key: key, Sequence: number, Sum: sum, Kind: e.Kind, Version: e.Version}, Newer
	case !whole:
		return none, Damaged
	}
	saved, _ := time.Parse(time.RFC3339, e.Saved) // information only: a time that cannot be read spoils nothing
	d := Document{Key: key, Sequence: number, Sum: sum, Parent: e.Parent, Line: e.Line, Kind: e.Kind, Version: e.Version, Build: e.Build,
		Saved: saved, Writer: e.Writer, Finished: e.Finished, Removed: e.Removed, Body: e.Body}
	switch {
	case newer:
		return d, Newer
	case k.kindOf(key) != d.Kind:
		return none, Damaged // intact, but of another key: whoever put it there, it is not this document
	case d.Version == kind.Version() || d.Removed:
		return d, Fine
	}
	for _, lift := range kind.Migrations[d.Version-1:] {
		body, err := lift(bytes.Clone(d.Body))
		if err != nil || !json.Valid(body) {
			return none, Damaged
		}
		d.Body = body
		d.Version++
	}
	return d, Migrated
}

// decimal reports whether s is a whole number of at most 16 digits as this program writes it: no sign, no leading zero.
func decimal(s string) bool {
	return s != "" && len(s) <= 16 && s[0] != '0' && strings.Trim(s, "0123456789") == ""
}

func has(list []string, s string) bool {
	for _, each := range list {
		if each == s {
			return true
		}
	}
	return false
}
