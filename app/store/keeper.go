package store

import (
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"slices"
	"sort"
	"strings"
	"time"
)

// Patience is how long the journal may take to confirm a write before it counts as not saved. Our choice, common practice, no source.
const Patience = 2 * time.Second

// Options are what a keeper needs of the world around it.
type Options struct {
	Now    func() time.Time // for the envelope's information only; nil for time.Now
	NewID  func() string    // a new id of letters, digits and hyphens, never given before
	Build  string           // of this program
	Writer string           // of this opened page, never used by another; "" for a NewID
	Kinds  Kinds            // nil for Released
	// After calls f once when the time has passed; nil for time.AfterFunc.
	After func(wait time.Duration, f func())
	// Post brings an answer of the shelf or of After to the one goroutine on which the keeper lives; nil runs it where it is, which
	// is sound only where answers come on that goroutine.
	Post func(func())
}

// A Mark is what the screen says about saving.
type Mark int

// The marks, the most pressing last.
const (
	Saved    Mark = iota // strictly committed in the journal
	Saving               // asked, not confirmed yet
	NotSaved             // State.Why tells why
)

// Why tells why something is not saved, or why a store is of no use; None when all is well.
type Why int

// The reasons, the most pressing first after None.
const (
	None     Why = iota
	Full         // no room
	Blocked      // the browser does not let this page keep anything there
	Conflict     // another page wrote something that could not be joined with this; both are kept
	NoAnswer     // not confirmed within Patience; it may still come
	Other        // nobody foresaw it
)

// A State is how safe a document is, or all of them together.
type State struct {
	Mark  Mark
	Why   Why  // of NotSaved
	Local bool // local storage holds this very revision, so that a reload finds it although a killed browser may lose it
}

// A Homes tells which of the two stores can be used; both None when all is well. With neither, all is in memory only.
type Homes struct{ Local, Journal Why }

// A Report tells of something found that was not as it should be. The text is kept under the name Kept, if there was one to keep.
type Report struct {
	Key     string
	Outcome Outcome // Migrated, Newer, Damaged or Foreign
	Home    string  // "local" or "journal": where it was found
	Kept    string
}

// A Parted tells of two revisions of one document of which neither comes from the other and which could not be merged. Theirs is the
// document now; ours is kept under the name Kept until Forget is told it.
type Parted struct {
	Key          string
	Ours, Theirs Document
	Kept         string
}

// A Keeper keeps the documents of one opened page. It belongs to one goroutine: all calls are made there and all callbacks come there.
type Keeper struct {
	shelf    Shelf
	opt      Options
	entries  map[string]*entry
	sorted   []*entry // the same by key, since there may be thousands and every screen asks for the open ones
	reports  []Report
	parted   []Parted
	aside    []string // names of what was damaged or foreign, of earlier visits too
	told     map[string]bool
	local    Why      // why local storage last failed
	failed   Why      // why the journal's heads could not be read
	reading  *attempt // to read the heads; nil when none is under way
	again    bool     // something moved meanwhile
	settled  bool
	onChange func()
	onMoved  func(string)
}

// An entry is what the keeper knows of one document.
type entry struct {
	key       string
	doc       Document // the newest revision on this page; Sequence 0 when there is none or it was not loaded
	outcome   Outcome
	text      string // doc as it is stored
	local     string // local storage's text as this page last read or wrote it
	known     bool   // the journal's head is known, and is:
	head      string
	sequence  uint64
	finished  bool            // the head's text lives in the journal alone
	base      json.RawMessage // body of the revision baseSum: the last one that this page and the journal agreed on
	baseSum   string
	locked    bool // a later version wrote it
	keep      []kept
	attempt   *attempt
	conflicts int
	why       Why
	waiters   []waiter
}

// kept is a text that must be kept under a name before its document may be written again.
type kept struct {
	name, text string
	done       bool
}

// An attempt is one try to bring a document's newest revision into the journal.
type attempt struct {
	doc  Document
	late bool
	done bool
}

type waiter struct {
	sequence uint64
	tell     func(bool)
}

// maxConflicts is how often in a row a write is tried again after another page was faster. More than that is no race but a mistake.
const maxConflicts = 50

// Open reads what local storage holds, so that the first screen has it, and writes nothing. Call Reconcile next.
func Open(shelf Shelf, opt Options) *Keeper {
	if opt.Now == nil {
		opt.Now = time.Now
	}
	if opt.After == nil {
		opt.After = func(wait time.Duration, f func()) { time.AfterFunc(wait, f) }
	}
	if opt.Post == nil {
		opt.Post = func(f func()) { f() }
	}
	if opt.Kinds == nil {
		opt.Kinds = Released()
	}
	if opt.Writer == "" {
		opt.Writer = opt.NewID()
	}
	k := &Keeper{shelf: shelf, opt: opt, entries: map[string]*entry{}, told: map[string]bool{}, onChange: func() {}, onMoved: func(string) {}}
	shelf.Watch(func(key string) { opt.Post(func() { k.moved(key) }) })
	texts, err := shelf.Texts()
	k.local = whyOf(err)
	for _, name := range slices.Sorted(maps.Keys(texts)) {
		if opt.Kinds.kindOf(name) != "" {
			k.readLocal(k.entry(name), texts[name])
		} else if what, told := strings.CutPrefix(name, "told/"); told {
			k.told[what] = true
		}
	}
	return k
}

// readLocal takes over what local storage holds of a document that this page has nothing of.
func (k *Keeper) readLocal(e *entry, text string) {
	doc, outcome := k.opt.Kinds.Decode(e.key, text)
	e.local, e.outcome = text, outcome
	switch outcome {
	case Newer:
		e.doc, e.text, e.locked = doc, text, true
		k.report(Report{e.key, Newer, "local", ""})
	case Damaged, Foreign:
		k.report(Report{e.key, outcome, "local", e.mustKeep("aside/", text)})
	case Migrated:
		k.report(Report{e.key, Migrated, "local", e.mustKeep("before/", text)})
		e.doc, e.text, e.base, e.baseSum = doc, text, doc.Body, doc.Sum
	case Fine:
		e.doc, e.text, e.base, e.baseSum = doc, text, doc.Body, doc.Sum
	}
}

// mustKeep lays down that a text is kept before the document is written again, and returns the name it is kept under.
func (e *entry) mustKeep(sort, text string) string {
	name := sort + e.key + "/" + checksum("0", text)
	for _, each := range e.keep {
		if each.name == name {
			return name
		}
	}
	e.keep = append(e.keep, kept{name: name, text: text})
	return name
}

// OnChange names what to call whenever a State may have changed, in place of what was named before.
func (k *Keeper) OnChange(f func()) { k.onChange = f }

// OnMoved names what to call when a document became another one than this page last put: another page wrote it, or the journal held a
// newer revision, or both were merged. A body that is put afterwards must be made from what Get returns then.
func (k *Keeper) OnMoved(f func(key string)) { k.onMoved = f }

// Settled reports whether local storage and the journal have been compared, or it is certain that there is no journal.
func (k *Keeper) Settled() bool { return k.settled }

// Homes tells which stores can be used.
func (k *Keeper) Homes() Homes { return Homes{k.local, k.failed} }

// Reports lists what was found that was not as it should be, since Open.
func (k *Keeper) Reports() []Report { return k.reports }

// Parted lists the documents of which two revisions are kept, since Open and, after Reconcile, from earlier visits.
func (k *Keeper) Parted() []Parted { return k.parted }

// Aside lists the names under which something is kept that was damaged or foreign, since Open and, after Reconcile, from earlier visits, until
// Forget is told it.
func (k *Keeper) Aside() []string {
	all := slices.Clone(k.aside)
	for _, r := range k.reports {
		if (r.Outcome == Damaged || r.Outcome == Foreign) && r.Kept != "" {
			all = append(all, r.Kept)
		}
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// KeyOf is the key of the document that something is kept of under a name of Aside or Parted, with its kind, "" for none of ours.
func (k *Keeper) KeyOf(name string) (key, kind string) {
	_, key, _ = keptKey(name)
	return key, k.opt.Kinds.kindOf(key)
}

// Tell remembers, in both stores and for ever, that a person was told or asked something once. What is a word of small letters.
func (k *Keeper) Tell(what string) {
	k.told[what] = true
	name := "told/" + what
	k.local = whyOf(k.shelf.SetText(name, toldText))
	k.shelf.Keep(name, toldText, func(error) {}) // what is lost is asked again
	k.onChange()
}

// Told reports whether Tell was called with that, on this visit or an earlier one. Before Reconcile it is what local storage knows.
func (k *Keeper) Told(what string) bool { return k.told[what] }

// toldText stands where nothing but the name tells something; its first byte is not JSON, like that of a document.
const toldText = "~1"

// NewKey returns a key for a new document of a kind.
func (k *Keeper) NewKey(kind string) string { return kind + "/" + k.opt.NewID() }

// Get returns a document as this page has it: Absent also when it was removed, and Unreachable when it is finished and was not loaded.
func (k *Keeper) Get(key string) (Document, Outcome) {
	e := k.entries[key]
	switch {
	case e == nil || e.doc.Removed:
		return Document{Key: key}, Absent
	case e.doc.Sequence == 0 && e.finished:
		return Document{Key: key}, Unreachable
	case e.doc.Sequence == 0 && !e.locked:
		return Document{Key: key}, e.outcome
	}
	return e.doc, e.outcome
}

// Load gives a document that may live in the journal alone: at once when this page has it. Unreachable when the journal does not answer.
func (k *Keeper) Load(key string, give func(Document, Outcome)) {
	doc, outcome := k.Get(key)
	if outcome != Unreachable && (outcome != Absent || k.settled) {
		give(doc, outcome)
		return
	}
	given := false
	once := func(doc Document, outcome Outcome) {
		if !given {
			given = true
			give(doc, outcome)
		}
	}
	k.shelf.Read(key, func(head *Head, past []string, err error) {
		k.opt.Post(func() {
			if err != nil {
				once(Document{Key: key}, Unreachable)
				return
			}
			if e := k.entry(key); e.doc.Sequence == 0 && (e.attempt == nil || e.attempt.late) && head != nil {
				k.meet(e, head, past)
			}
			doc, outcome := k.Get(key)
			once(doc, outcome)
		})
	})
	k.opt.After(Patience, func() { k.opt.Post(func() { once(Document{Key: key}, Unreachable) }) })
}

// Keys lists the keys of the documents of a kind, finished ones too, removed ones not, in order.
func (k *Keeper) Keys(kind string) []string { return k.keys(kind, true) }

// OpenKeys lists the keys of the documents of a kind that are not finished, in order.
func (k *Keeper) OpenKeys(kind string) []string { return k.keys(kind, false) }

func (k *Keeper) keys(kind string, finished bool) (keys []string) {
	first := sort.Search(len(k.sorted), func(i int) bool { return k.sorted[i].key >= kind })
	for _, e := range k.sorted[first:] {
		if !strings.HasPrefix(e.key, kind) {
			break
		}
		its := len(e.key) == len(kind) || e.key[len(kind)] == '/'
		there := e.doc.Sequence > 0 && !e.doc.Removed || e.doc.Sequence == 0 && (e.finished || e.locked)
		if its && there && (finished || !e.over()) {
			keys = append(keys, e.key)
		}
	}
	return keys
}

// Finished reports whether a document lives, or will when its commit is confirmed, in the journal alone.
func (k *Keeper) Finished(key string) bool {
	e := k.entries[key]
	return e != nil && e.over()
}

func (e *entry) over() bool { return e.doc.Finished || e.doc.Sequence == 0 && e.finished }

// Put makes a new revision of a document: local storage has it before Put returns, and the journal's strict commit is on its way.
// The body replaces the one that Get returns now. A document that was finished is open again. Errors: ErrKey, ErrBody, ErrNewer.
func (k *Keeper) Put(key, kind string, body json.RawMessage) error {
	return k.write(key, kind, Document{Body: body})
}

// PutFinished is Put and Finish in one: the document lives in the journal alone once it is confirmed. Errors: those of Put.
func (k *Keeper) PutFinished(key, kind string, body json.RawMessage) error {
	return k.write(key, kind, Document{Body: body, Finished: true})
}

// Finish makes a new revision, with the same body, whose text leaves local storage as soon as its commit is confirmed. Errors: ErrKey for
// a document that is not at hand, ErrNewer.
func (k *Keeper) Finish(key string) error {
	doc, outcome := k.Get(key)
	if outcome != Fine && outcome != Migrated && outcome != Newer {
		return fmt.Errorf("%w: nothing to finish at %s", ErrKey, key)
	}
	return k.write(key, doc.Kind, Document{Body: doc.Body, Finished: true})
}

// Remove makes a tombstone the newest revision, so that no other page and no older copy brings the document back. Errors: ErrKey, ErrNewer.
func (k *Keeper) Remove(key string) error {
	return k.write(key, k.opt.Kinds.kindOf(key), Document{Body: json.RawMessage("null"), Removed: true})
}

func (k *Keeper) write(key, kind string, doc Document) error {
	if kind == "" || k.opt.Kinds.kindOf(key) != kind {
		return fmt.Errorf("%w: %s of kind %s", ErrKey, key, kind)
	}
	e := k.entry(key)
	if e.locked {
		return fmt.Errorf("%w: %s", ErrNewer, key)
	}
	if err := k.revise(e, doc); err != nil {
		return err
	}
	e.why, e.conflicts = None, 0
	k.writeLocal(e)
	k.push(e)
	k.onChange()
	return nil
}

// revise makes a document the entry's newest revision, a child of the one before.
func (k *Keeper) revise(e *entry, doc Document) error {
	k.stamp(e, &doc)
	doc.Parent = e.doc.Sum
	if doc.Parent == "" {
		doc.Parent = e.head // a finished document that was not loaded, or one damaged beyond reading
	} else if doc.Parent != e.head {
		doc.Line = append(doc.Line, e.unconfirmed()...)
	}
	return k.take(e, doc)
}

// stamp fills in whatever does not depend on where a revision comes from.
func (k *Keeper) stamp(e *entry, doc *Document) {
	doc.Key, doc.Kind = e.key, k.opt.Kinds.kindOf(e.key)
	doc.Version = k.opt.Kinds[doc.Kind].Version()
	doc.Build, doc.Writer, doc.Saved = k.opt.Build, k.opt.Writer, k.opt.Now()
	doc.Sequence = max(e.doc.Sequence, e.sequence) + 1
}

// unconfirmed lists the ancestors of the newest revision from the journal's head on, as far as it knows them.
func (e *entry) unconfirmed() []string {
	line := e.doc.Line
	if e.doc.Parent != "" && !has(line, e.doc.Parent) {
		line = append(line[:len(line):len(line)], e.doc.Parent)
	}
	for i, sum := range line {
		if sum == e.head {
			line = line[i:]
			break
		}
	}
	return line[max(0, len(line)-LineLimit):]
}

// take writes a document out and makes it the entry's newest revision.
func (k *Keeper) take(e *entry, doc Document) error {
	doc, text, err := Encode(doc)
	if err != nil {
		return err
	}
	e.doc, e.text, e.outcome = doc, text, Fine
	return nil
}

// writeLocal brings the newest revision into local storage, unless something lies there that must not be written over.
func (k *Keeper) writeLocal(e *entry) {
	if e.locked || e.doc.Sequence == 0 {
		return
	}
	if e.toKeep() >= 0 {
		return
	}
	found, err := k.shelf.Text(e.key)
	if err != nil {
		k.local = whyOf(err)
		return
	}
	if found != "" && found != e.local && found != e.text {
		theirs, outcome := k.opt.Kinds.Decode(e.key, found)
		switch outcome {
		case Fine, Migrated:
			if !e.doc.Descends(theirs.Sum) {
				if k.failed != None {
					k.meetLocal(e, theirs, found)
				}
				return // the journal settles which of the two is newer, and the newer one is written then
			}
		case Newer:
			k.lock(e, "local")
			return
		default:
			k.report(Report{e.key, outcome, "local", e.mustKeep("aside/", found)})
			e.local = found // once it is kept it may be written over
			return
		}
	}
	if err := k.shelf.SetText(e.key, e.text); err != nil {
		k.local = whyOf(err)
		return
	}
	k.local, e.local = None, e.text
}

// clearLocal takes a document out of local storage that lives in the journal alone.
func (k *Keeper) clearLocal(e *entry) {
	if e.toKeep() >= 0 {
		return
	}
	found, err := k.shelf.Text(e.key)
	if err != nil || found == "" {
		return
	}
	if found != e.local && found != e.text {
		if theirs, outcome := k.opt.Kinds.Decode(e.key, found); outcome != Fine || !e.doc.Descends(theirs.Sum) {
			return
		}
	}
	if err := k.shelf.RemoveText(e.key); err != nil {
		k.local = whyOf(err)
		return
	}
	e.local = ""
}

// push brings the newest revision into the journal: one try at a time, the last revision at the end.
func (k *Keeper) push(e *entry) {
	if e.attempt != nil && !e.attempt.late {
		return // its answer pushes again
	}
	if !e.known {
		if k.failed != None {
			k.Reconcile()
		}
		k.impatientForHeads(e)
		return // Reconcile pushes
	}
	if e.locked {
		return
	}
	if i := e.toKeep(); i >= 0 {
		k.keepFirst(e, i)
		return
	}
	if e.doc.Sequence == 0 {
		if len(e.keep) > 0 {
			k.clearLocal(e) // it may have been kept while the journal was silent
		}
		return
	}
	if e.doc.Sum == e.head {
		k.confirmed(e, e.doc)
		return
	}
	if e.head != "" && !e.doc.Descends(e.head) {
		k.readAgain(e) // it parted from the head and was not joined with it yet
		return
	}
	if e.head != "" && e.doc.Sequence <= e.sequence { // it comes from the head, so it has to stand above it, or nobody would take it for newer
		again := Document{Body: e.doc.Body, Finished: e.doc.Finished, Removed: e.doc.Removed}
		if err := k.revise(e, again); err != nil {
			k.fail(e, Other)
			return
		}
		k.writeLocal(e)
	}
	a := k.try(e)
	line := append(e.doc.Line[:len(e.doc.Line):len(e.doc.Line)], e.doc.Parent)
	k.shelf.Commit(Commit{Key: e.key, Expect: e.head, Sequence: e.doc.Sequence, Sum: e.doc.Sum, Line: line,
		Finished: e.doc.Finished, Text: e.text}, func(conflict bool, head *Head, err error) {
		k.opt.Post(func() { k.committed(e, a, conflict, head, err) })
	})
	k.impatient(e, a)
}

func (e *entry) toKeep() int {
	for i, each := range e.keep {
		if !each.done {
			return i
		}
	}
	return -1
}

// try begins an attempt.
func (k *Keeper) try(e *entry) *attempt {
	e.attempt = &attempt{doc: e.doc}
	return e.attempt
}

// impatient lets an attempt count as failed when no answer comes. The answer is still heard.
func (k *Keeper) impatient(e *entry, a *attempt) {
	if a.done {
		return
	}
	k.opt.After(Patience, func() {
		k.opt.Post(func() {
			if !a.done && e.attempt == a {
				a.late = true
				k.fail(e, NoAnswer)
			}
		})
	})
}

// impatientForHeads lets a revision count as not saved that waits for Reconcile too long.
func (k *Keeper) impatientForHeads(e *entry) {
	if e.doc.Sequence == 0 || e.why != None {
		return
	}
	waits := e.doc.Sequence
	k.opt.After(Patience, func() {
		k.opt.Post(func() {
			if !e.known && e.why == None && e.doc.Sequence == waits {
				k.fail(e, NoAnswer)
			}
		})
	})
}

// end closes an attempt and reports whether it is the newest one.
func (e *entry) end(a *attempt) bool {
	a.done = true
	if e.attempt != a {
		return false
	}
	e.attempt = nil
	return true
}

// fail marks a document as not saved and tells who waits for it.
func (k *Keeper) fail(e *entry, why Why) {
	e.why = why
	k.answer(e, ^uint64(0), false)
	k.onChange()
}

// answer tells those who wait for a revision up to that sequence.
func (k *Keeper) answer(e *entry, upTo uint64, ok bool) {
	var later []waiter
	all := e.waiters
	e.waiters = nil
	for _, each := range all {
		if each.sequence > upTo {
			later = append(later, each)
		}
	}
	e.waiters = later
	for _, each := range all {
		if each.sequence <= upTo {
			each.tell(ok)
		}
	}
}

// committed hears the journal's answer to a commit.
func (k *Keeper) committed(e *entry, a *attempt, conflict bool, head *Head, err error) {
	newest := e.end(a)
	switch {
	case err == nil && !conflict:
		k.answers()
		k.confirmed(e, a.doc)
	case !newest: // a later attempt has the same to say
	case err != nil:
		k.fail(e, k.worse(whyOf(err)))
	case e.conflicts >= maxConflicts:
		k.fail(e, Conflict)
	case head == nil: // the journal was cleared under our feet: give it this document, and then all the others
		e.conflicts++
		e.head, e.sequence = "", 0
		k.push(e)
		k.Reconcile()
	default:
		e.conflicts++
		k.meet(e, head, nil)
		k.onChange()
	}
}

// worse is the reason to give when the journal failed: no room when local storage has none either.
func (k *Keeper) worse(why Why) Why {
	if k.local == Full {
		return Full
	}
	return why
}

// confirmed takes note that a revision is strictly committed.
func (k *Keeper) confirmed(e *entry, doc Document) {
	if doc.Sequence >= e.sequence {
		e.head, e.sequence, e.finished = doc.Sum, doc.Sequence, doc.Finished
		e.base, e.baseSum = doc.Body, doc.Sum
	}
	e.conflicts = 0
	if e.doc.Sum == e.head {
		if e.why != Conflict {
			e.why = None
		}
		k.tidyLocal(e)
	} else if e.attempt == nil {
		e.why = None
		k.push(e)
	}
	k.answer(e, doc.Sequence, true)
	k.onChange()
}

// tidyLocal makes local storage follow a confirmed revision.
func (k *Keeper) tidyLocal(e *entry) {
	if e.doc.Finished || e.doc.Removed {
		k.clearLocal(e)
	} else if e.local != e.text {
		k.writeLocal(e)
	}
}

// Retry tries again whatever is not saved.
func (k *Keeper) Retry() {
	unknown := k.failed != None
	for _, e := range k.entries {
		unknown = unknown || !e.known
	}
	if unknown {
		k.Reconcile()
	}
	for _, e := range k.now() {
		if e.why != None && e.why != Conflict || e.toKeep() >= 0 {
			k.retry(e)
		}
	}
	k.onChange()
}

func (k *Keeper) retry(e *entry) {
	e.why, e.conflicts = None, 0
	if e.local != e.text && !e.doc.Finished && !e.doc.Removed {
		k.writeLocal(e)
	}
	k.push(e)
}

// WhenSaved calls once: with true as soon as the present revision is strictly committed, by itself or within a later one; with false when
// that failed or was not confirmed within Patience. What was not saved before is tried again. It may call before it returns.
func (k *Keeper) WhenSaved(key string, tell func(ok bool)) {
	e := k.entries[key]
	if e == nil {
		tell(false)
		return
	}
	switch state := k.stateOf(e); {
	case state.Mark == Saved:
		tell(e.doc.Sequence > 0 || e.finished)
	case state.Why == Conflict:
		tell(false)
	default:
		e.waiters = append(e.waiters, waiter{e.doc.Sequence, tell})
		if state.Mark == NotSaved {
			k.retry(e)
			k.onChange()
		}
	}
}

// State tells how safe all documents are together: the worst of them. Local means that each one that is not saved is there.
func (k *Keeper) State() State {
	all := State{Mark: Saved, Local: true}
	for _, e := range k.sorted {
		one := k.stateOf(e)
		if one.Mark > all.Mark || one.Mark == all.Mark && one.Why < all.Why {
			all.Mark, all.Why = one.Mark, one.Why
		}
		all.Local = all.Local && (one.Local || one.Mark == Saved)
	}
	return all
}

// StateOf tells how safe one document is. One that is not there is as safe as can be.
func (k *Keeper) StateOf(key string) State {
	if e := k.entries[key]; e != nil {
		return k.stateOf(e)
	}
	return State{Mark: Saved}
}

func (k *Keeper) stateOf(e *entry) State {
	local := e.local != "" && e.local == e.text
	switch {
	case e.doc.Sequence == 0 || e.locked:
		return State{Mark: Saved, Local: local}
	case e.why != None:
		return State{NotSaved, e.why, local}
	case e.known && e.doc.Sum == e.head:
		return State{Mark: Saved, Local: local}
	}
	return State{Mark: Saving, Local: local}
}

// Everything gives every text of both stores, whatever its state, for a plain copy in a file. whole is false when the journal did not
// answer within Patience: then there is what local storage and this page hold.
func (k *Keeper) Everything(give func(texts []Text, whole bool)) {
	var texts []Text
	names, _ := k.shelf.Names() // a store that cannot be read has nothing to give
	sort.Strings(names)
	for _, name := range names {
		if text, err := k.shelf.Text(name); err == nil && text != "" {
			texts = append(texts, Text{"local", name, text})
		}
	}
	for _, e := range k.sorted {
		if e.text != "" && e.text != e.local {
			texts = append(texts, Text{"page", e.key, e.text})
		}
	}
	given := false
	k.shelf.All(func(more []Text, err error) {
		k.opt.Post(func() {
			if !given {
				given = true
				give(append(texts, more...), err == nil)
			}
		})
	})
	if !given {
		k.opt.After(Patience, func() {
			k.opt.Post(func() {
				if !given {
					given = true
					give(texts, false)
				}
			})
		})
	}
}

// Persist asks the browser not to clear this origin by itself, and tells what it said.
func (k *Keeper) Persist(told func(granted bool)) {
	k.shelf.Persist(func(granted bool, err error) { k.opt.Post(func() { told(granted && err == nil) }) })
}

// Forget removes what was kept under a name, after a person has chosen, and takes it off the lists.
func (k *Keeper) Forget(name string, told func(ok bool)) {
	k.shelf.Forget(name, func(err error) {
		k.opt.Post(func() {
			if err == nil {
				err = k.shelf.RemoveText(name)
			}
			if err == nil || errors.Is(err, ErrBlocked) {
				if sort, key, _ := keptKey(name); sort == "parted" && k.entries[key] != nil && k.entries[key].why == Conflict {
					k.entries[key].why = None
				}
				k.parted = without(k.parted, func(p Parted) bool { return p.Kept == name })
				k.aside = without(k.aside, func(each string) bool { return each == name })
				k.reports = without(k.reports, func(r Report) bool { return r.Kept == name })
			}
			told(err == nil)
			k.onChange()
		})
	})
}

func without[T any](list []T, drop func(T) bool) []T {
	var rest []T
	for _, each := range list {
		if !drop(each) {
			rest = append(rest, each)
		}
	}
	return rest
}

func (k *Keeper) entry(key string) *entry {
	e := k.entries[key]
	if e == nil {
		// After Settled a key that nobody has heard of has no head; a page that made it since then is met as a conflict.
		e = &entry{key: key, known: k.settled && k.failed == None}
		k.entries[key] = e
		i := sort.Search(len(k.sorted), func(i int) bool { return k.sorted[i].key > key })
		k.sorted = slices.Insert(k.sorted, i, e)
	}
	return e
}

// now lists the entries as they are now: what is called meanwhile may make new ones.
func (k *Keeper) now() []*entry { return slices.Clone(k.sorted) }

// all lists the keys of all of them, in order.
func (k *Keeper) all() []string {
	keys := make([]string, len(k.sorted))
	for i, e := range k.sorted {
		keys[i] = e.key
	}
	return keys
}

func (k *Keeper) report(r Report) {
	for _, each := range k.reports {
		if each == r {
			return
		}
	}
	k.reports = append(k.reports, r)
}

// lock takes note that a later version of the program wrote a document.
func (k *Keeper) lock(e *entry, home string) {
	e.locked, e.outcome = true, Newer
	k.report(Report{e.key, Newer, home, ""})
}

// keptKey returns the key of the document that something was kept of: aside/job/1/<sum> is of job/1.
func keptKey(name string) (sort, key, sum string) {
	sort, rest, _ := strings.Cut(name, "/")
	i := strings.LastIndexByte(rest, '/')
	if i < 0 {
		return sort, "", ""
	}
	return sort, rest[:i], rest[i+1:]
}

func whyOf(err error) Why {
	switch {
	case err == nil:
		return None
	case errors.Is(err, ErrFull):
		return Full
	case errors.Is(err, ErrBlocked):
		return Blocked
	}
	return Other
}
