package store

import (
	"bytes"
	"encoding/json"
	"errors"
	"strings"
)

// Reconcile reads the journal's heads and compares them with what this page has of local storage. Of one chain the newer intact revision
// wins, in both directions; what is missing on one side is restored; what parted is merged, or both are kept and reported; what is
// damaged is set aside first. Nothing is written to the journal before. It may be called again at any time, for example when a page
// comes back after it was frozen.
func (k *Keeper) Reconcile() {
	if k.reading != nil && !k.reading.late {
		k.again = true
		return
	}
	r := &attempt{}
	k.reading, k.again = r, false
	k.shelf.Heads(func(heads []Head, kept []string, err error) {
		k.opt.Post(func() { k.heard(r, heads, kept, err) })
	})
	if r.done {
		return
	}
	k.opt.After(Patience, func() {
		k.opt.Post(func() {
			if !r.done && k.reading == r {
				r.late = true
				k.withoutJournal(NoAnswer)
			}
		})
	})
}

// heard hears the journal's heads.
func (k *Keeper) heard(r *attempt, heads []Head, kept []string, err error) {
	r.done = true
	if k.reading != r {
		return // a later question was asked, and its answer counts
	}
	k.reading = nil
	if err != nil {
		k.settled = k.settled || whyOf(err) == Blocked
		k.withoutJournal(whyOf(err))
		return
	}
	k.failed, k.settled = None, true
	there := map[string]*Head{}
	for i := range heads {
		if k.opt.Kinds.kindOf(heads[i].Key) != "" { // another kind belongs to a later version
			there[heads[i].Key] = &heads[i]
			k.entry(heads[i].Key)
		}
	}
	for _, e := range k.now() {
		head := there[e.key]
		busy := e.attempt != nil && !e.attempt.late                   // its answer tells more
		stale := e.known && head != nil && head.Sequence < e.sequence // committed since the heads were read
		if !busy && !stale {
			k.meetHead(e, head)
		}
	}
	k.gather(kept)
	k.onChange()
	if k.again {
		k.Reconcile()
	}
}

// answers takes note that the journal did what it was asked: when it could not be read before, it is read again.
func (k *Keeper) answers() {
	if k.failed != None {
		k.failed = None
		k.Reconcile()
	}
}

// withoutJournal goes on with local storage alone, and says so of every document that is not known to be in the journal.
func (k *Keeper) withoutJournal(why Why) {
	k.failed = why
	for _, e := range k.now() {
		if e.known {
			continue
		}
		for i := range e.keep {
			k.keepLocally(&e.keep[i])
		}
		if e.doc.Sequence > 0 && !e.locked {
			if e.local != e.text {
				k.writeLocal(e)
			}
			k.fail(e, k.worse(why))
		}
	}
	k.onChange()
}

// keepLocally keeps a text in local storage, where the journal does not.
func (k *Keeper) keepLocally(each *kept) {
	if each.done {
		return
	}
	err := k.shelf.SetText(each.name, each.text)
	k.local = whyOf(err)
	now, _ := k.shelf.Text(each.name) // there is no other copy, so look
	each.done = err == nil && now == each.text
}

// gather lists what was parted on earlier visits, and moves to the journal what had to be kept in local storage meanwhile.
func (k *Keeper) gather(inJournal []string) {
	names, _ := k.shelf.Names() // a store that cannot be read has nothing to move
	for _, name := range names {
		sort, key, sum := keptKey(name)
		if key == "" || sort != "aside" && sort != "before" && sort != "parted" {
			continue
		}
		text, err := k.shelf.Text(name)
		if err != nil || text == "" {
			continue
		}
		into := name
		if doc, _ := k.opt.Kinds.Decode(key, text); doc.Sum != sum && checksum("0", text) != sum {
			into = "aside/" + key + "/" + checksum("0", text) // damaged here: not over an intact one there
		}
		inJournal = append(inJournal, into)
		k.shelf.Keep(into, text, func(err error) {
			k.opt.Post(func() {
				if now, _ := k.shelf.Text(name); err == nil && now == text {
					if err := k.shelf.RemoveText(name); err != nil {
						k.local = whyOf(err)
					}
				}
			})
		})
	}
	for _, name := range inJournal {
		what, told := strings.CutPrefix(name, "told/")
		switch sort, key, _ := keptKey(name); {
		case told:
			k.told[what] = true
		case key == "":
		case sort == "parted":
			k.noteParted(Parted{Key: key, Kept: name})
		case sort == "aside" && !has(k.aside, name):
			k.aside = append(k.aside, name)
		}
	}
}

func (k *Keeper) noteParted(p Parted) {
	for i, each := range k.parted {
		if each.Kept == p.Kept {
			if each.Ours.Sequence == 0 {
				k.parted[i] = p
			}
			return
		}
	}
	k.parted = append(k.parted, p)
}

// Kept gives what is kept under a name of Report or Parted: the document, if it can be read as one, and the bare text.
func (k *Keeper) Kept(name string, give func(doc Document, outcome Outcome, text string)) {
	_, key, _ := keptKey(name)
	k.shelf.Read(name, func(head *Head, past []string, err error) {
		k.opt.Post(func() {
			text := ""
			if len(past) > 0 {
				text = past[0]
			} else if found, wrong := k.shelf.Text(name); wrong == nil && found != "" {
				text = found
			} else if err != nil {
				give(Document{Key: key}, Unreachable, "")
				return
			}
			doc, outcome := k.opt.Kinds.Decode(key, text)
			give(doc, outcome, text)
		})
	})
}

// meetHead compares a document with its head as Heads gives it: some without text, which is read when this page has another revision.
func (k *Keeper) meetHead(e *entry, head *Head) {
	if head == nil || !head.Finished && !head.Same || head.Text != "" || e.locked {
		k.meet(e, head, nil)
		return
	}
	if other := e.doc.Sum != head.Sum; other && (e.doc.Sequence > 0 || head.Same) {
		k.shelf.Read(e.key, func(head *Head, past []string, err error) {
			k.opt.Post(func() {
				switch busy := e.attempt != nil && !e.attempt.late; {
				case err != nil || busy:
				case head != nil && head.Finished && head.Text != "" && has(head.Line, e.doc.Sum):
					k.letGo(e, head)
				default:
					k.meet(e, head, past)
				}
			})
		})
		return
	}
	e.known, e.head, e.sequence, e.finished = true, head.Sum, head.Sequence, head.Finished
	k.push(e)
}

// letGo leaves to the journal a finished document of which this page has an older revision.
func (k *Keeper) letGo(e *entry, head *Head) {
	e.known, e.head, e.sequence, e.finished = true, head.Sum, head.Sequence, true
	e.doc, e.text, e.outcome, e.why = Document{}, "", Absent, None
	k.clearLocal(e)
	k.answer(e, head.Sequence, true)
	k.onMoved(e.key)
	k.push(e)
}

// meet compares a document with its head in the journal, nil for none, and does what follows. past has the texts of its last
// revisions, or is nil when they were not read.
func (k *Keeper) meet(e *entry, head *Head, past []string) {
	if head == nil {
		e.known, e.head, e.sequence, e.finished = true, "", 0, false
		k.push(e)
		return
	}
	theirs, outcome := k.opt.Kinds.Decode(e.key, head.Text)
	if (outcome == Fine || outcome == Migrated) && theirs.Sum != head.Sum {
		outcome = Damaged // the record does not agree with its own text
	}
	switch outcome {
	case Fine, Migrated:
	case Newer:
		k.meetNewer(e, theirs, head)
		return
	default:
		k.mend(e, head, past)
		return
	}
	e.known, e.head, e.sequence, e.finished = true, head.Sum, head.Sequence, head.Finished
	if e.locked {
		return // local storage has it from a later version, so this one writes neither
	}
	if outcome == Migrated {
		k.report(Report{e.key, Migrated, "journal", e.mustKeep("before/", head.Text)})
	}
	switch {
	case e.doc.Sequence == 0:
		k.adopt(e, theirs, outcome, head.Text)
	case e.doc.Sum == head.Sum || e.doc.Descends(head.Sum):
		k.push(e)
	case theirs.Descends(e.doc.Sum) || has(head.Line, e.doc.Sum):
		k.adopt(e, theirs, outcome, head.Text)
	default:
		k.join(e, theirs, outcome, head)
	}
}

// meetNewer takes over what a later version of the program wrote, to be shown and never written.
func (k *Keeper) meetNewer(e *entry, theirs Document, head *Head) {
	e.known, e.head, e.sequence, e.finished = true, head.Sum, head.Sequence, head.Finished
	ours := e.doc.Sequence > 0 && !e.locked && e.doc.Sum != head.Sum && !theirs.Descends(e.doc.Sum) && !has(head.Line, e.doc.Sum)
	switch {
	case ours:
		k.part(e, theirs, Newer, head.Text)
	case e.locked && theirs.Sequence <= e.doc.Sequence:
	default:
		k.adopt(e, theirs, Newer, head.Text)
	}
}

// adopt makes another page's revision the document of this one.
func (k *Keeper) adopt(e *entry, theirs Document, outcome Outcome, text string) {
	moved := e.doc.Sum != theirs.Sum || theirs.Sum == ""
	for i := range e.waiters { // what they wait for is within theirs
		e.waiters[i].sequence = min(e.waiters[i].sequence, theirs.Sequence)
	}
	e.doc, e.text, e.outcome = theirs, text, outcome
	e.base, e.baseSum = theirs.Body, theirs.Sum
	if outcome == Newer {
		k.lock(e, "journal")
		e.why = None
		k.answer(e, ^uint64(0), true)
	} else {
		k.push(e) // keeps first what must be kept, then confirms; commits what local storage alone had
	}
	if moved {
		k.onMoved(e.key)
	}
}

// join merges this page's revision with theirs, from which it parted, into one that comes from both; where that cannot be done, theirs
// stays the document and ours is kept beside it. What was changed outlives a removal that did not know of the change.
func (k *Keeper) join(e *entry, theirs Document, outcome Outcome, head *Head) {
	ours := e.doc
	text := head.Text
	var body json.RawMessage
	switch merge := k.opt.Kinds[theirs.Kind].Merge; {
	case ours.Removed && theirs.Removed:
		k.adopt(e, theirs, outcome, text)
		return
	case ours.Removed:
	case theirs.Removed:
		body = ours.Body
	case merge != nil:
		base := json.RawMessage("null")
		if e.baseSum != "" && e.baseSum != ours.Sum && (theirs.Descends(e.baseSum) || has(head.Line, e.baseSum)) {
			base = e.base
		}
		merged, err := merge(theirs.Kind, bytes.Clone(base), bytes.Clone(ours.Body), bytes.Clone(theirs.Body))
		if errors.Is(err, ErrDiffers) {
			other, _ := merge(theirs.Kind, bytes.Clone(base), bytes.Clone(theirs.Body), bytes.Clone(ours.Body))
			k.partOver(e, theirs, outcome, text, merged, other)
			return
		}
		if err == nil {
			body = merged
		}
	}
	doc := Document{Body: body, Finished: ours.Finished || theirs.Finished}
	if bytes.Equal(body, theirs.Body) && doc.Finished == theirs.Finished {
		k.adopt(e, theirs, outcome, text) // ours has nothing that theirs has not
		return
	}
	before := e.doc.Sequence
	e.doc.Sequence = max(ours.Sequence, theirs.Sequence)
	k.stamp(e, &doc)
	e.doc.Sequence = before
	doc.Parent = theirs.Sum
	line := append(theirs.Line[:len(theirs.Line):len(theirs.Line)], theirs.Parent) // the journal may not know of them, when local storage had it first
	line = append(append(line, ours.Line...), ours.Parent, ours.Sum)
	doc.Line = lengthen(nil, line, theirs.Sum)
	if body == nil || k.take(e, doc) != nil {
		k.part(e, theirs, outcome, text)
		return
	}
	e.base, e.baseSum = theirs.Body, theirs.Sum
	k.writeLocal(e)
	k.push(e)
	if !bytes.Equal(e.doc.Body, ours.Body) {
		k.onMoved(e.key)
	}
}

// part keeps this page's revision beside theirs, which stays the document.
func (k *Keeper) part(e *entry, theirs Document, outcome Outcome, text string) {
	k.keepBeside(e, e.doc, e.text, func(beside Parted) {
		beside.Theirs = theirs
		k.noteParted(beside)
		k.fail(e, Conflict)
		k.adopt(e, theirs, outcome, text)
	})
}

// partOver parts where both sides changed the same thing: merged, in which it is as theirs has it, becomes the document, and other, in which it
// is as ours has it, is kept beside. They differ in nothing else.
func (k *Keeper) partOver(e *entry, theirs Document, outcome Outcome, text string, merged, other json.RawMessage) {
	ours := e.doc
	beside, copied := ours, e.text
	if !bytes.Equal(other, ours.Body) {
		// A child of ours that is the same whenever it is made again, so that it is kept once.
		beside.Sequence, beside.Parent, beside.Body = ours.Sequence+1, ours.Sum, other
		beside.Line = lengthen(nil, append(ours.Line[:len(ours.Line):len(ours.Line)], ours.Parent), ours.Sum)
		var err error
		if beside, copied, err = Encode(beside); err != nil {
			beside, copied = ours, e.text
		}
	}
	k.keepBeside(e, beside, copied, func(p Parted) {
		p.Theirs = theirs
		k.noteParted(p)
		k.fail(e, Conflict)
		k.adopt(e, theirs, outcome, text)
		if bytes.Equal(merged, theirs.Body) {
			return
		}
		e.doc.Sequence = max(e.doc.Sequence, ours.Sequence) // what is made now comes from both
		if k.revise(e, Document{Body: merged, Finished: theirs.Finished, Line: []string{ours.Sum}}) == nil {
			k.writeLocal(e)
			k.push(e)
			k.onMoved(e.key)
		}
	})
}

// keepBeside keeps a revision beside the document, and goes on when that is done and this page has put nothing meanwhile.
func (k *Keeper) keepBeside(e *entry, beside Document, text string, then func(Parted)) {
	ours := e.doc
	copied := kept{name: "parted/" + e.key + "/" + beside.Sum, text: text}
	a := k.try(e)
	k.shelf.Keep(copied.name, copied.text, func(err error) {
		k.opt.Post(func() {
			if !e.end(a) {
				return
			}
			if err == nil {
				k.answers()
			} else if k.keepLocally(&copied); !copied.done {
				k.fail(e, k.worse(whyOf(err)))
				return
			}
			if e.doc.Sum != ours.Sum { // put meanwhile: that parts from theirs as well
				k.push(e)
				return
			}
			then(Parted{Key: e.key, Ours: beside, Kept: copied.name})
			k.onChange()
		})
	})
	k.impatient(e, a)
}

// mend deals with a head that cannot be read: its text is set aside, and the newest intact revision, in the journal or on this page,
// becomes a new one over it.
func (k *Keeper) mend(e *entry, head *Head, past []string) {
	e.known = false // nothing is written before the last revisions are read
	if past == nil {
		k.shelf.Read(e.key, func(head *Head, past []string, err error) {
			k.opt.Post(func() {
				switch {
				case err != nil:
					k.fail(e, k.worse(whyOf(err)))
				case past == nil:
					k.mend(e, head, []string{})
				default:
					k.meet(e, head, past)
				}
				k.onChange()
			})
		})
		return
	}
	if head == nil {
		k.meet(e, nil, past)
		return
	}
	e.known, e.head, e.sequence, e.finished = true, head.Sum, head.Sequence, head.Finished
	if e.locked {
		return
	}
	r := Report{Key: e.key, Outcome: Damaged, Home: "journal"}
	if head.Text != "" {
		r.Kept = e.mustKeep("aside/", head.Text)
	}
	k.report(r)
	var best Document
	var found Outcome
	var text string
	for _, each := range past {
		doc, outcome := k.opt.Kinds.Decode(e.key, each)
		if (outcome == Fine || outcome == Migrated) && doc.Sequence > best.Sequence {
			best, found, text = doc, outcome, each
		}
	}
	inLine := has(head.Line, e.doc.Sum) || e.doc.Sum == head.Sum
	ours := e.doc.Sequence > 0 && (best.Sequence == 0 || e.doc.Sum == best.Sum || e.doc.Descends(best.Sum) || e.doc.Descends(head.Sum) ||
		inLine && e.doc.Sequence >= best.Sequence)
	switch {
	case best.Sequence == 0 && e.doc.Sequence == 0:
		e.outcome = Damaged
		k.push(e) // keeps the text; what is put next goes over it
	case ours:
		k.replace(e, head.Sum)
	case e.doc.Sequence == 0, best.Descends(e.doc.Sum), inLine:
		e.doc, e.text, e.outcome = best, text, found
		e.base, e.baseSum = best.Body, best.Sum
		k.replace(e, head.Sum)
		k.onMoved(e.key)
	default:
		k.heal(e, best, head)
	}
}

// replace puts the newest revision once more, as a new one over a head that is damaged.
func (k *Keeper) replace(e *entry, damaged string) {
	again := Document{Body: e.doc.Body, Finished: e.doc.Finished, Removed: e.doc.Removed, Line: []string{damaged}}
	if err := k.revise(e, again); err != nil {
		k.fail(e, Other) // it was read, so it can be written: nobody foresaw this
		return
	}
	k.writeLocal(e)
	k.push(e)
}

// heal writes the newest intact revision of the journal over its damaged head, and then lets this page's, from which it parted, meet it.
func (k *Keeper) heal(e *entry, best Document, head *Head) {
	healed := Document{Body: best.Body, Finished: best.Finished, Removed: best.Removed, Parent: best.Sum, Line: []string{head.Sum}}
	k.stamp(e, &healed)
	healed, text, err := Encode(healed)
	if err != nil {
		k.fail(e, Other)
		return
	}
	kept := kept{name: "aside/" + e.key + "/" + checksum("0", head.Text), text: head.Text}
	a := k.try(e)
	failed := func(err error) {
		if e.end(a) {
			k.fail(e, k.worse(whyOf(err)))
		}
	}
	k.shelf.Keep(kept.name, kept.text, func(err error) {
		k.opt.Post(func() {
			if err != nil {
				failed(err)
				return
			}
			k.shelf.Commit(Commit{Key: e.key, Expect: head.Sum, Sequence: healed.Sequence, Sum: healed.Sum, Line: []string{best.Sum},
				Finished: healed.Finished, Text: text}, func(_ bool, _ *Head, err error) {
				k.opt.Post(func() {
					if err != nil {
						failed(err)
					} else if e.end(a) {
						k.readAgain(e) // there is an intact head now, this one or another page's
					}
				})
			})
		})
	})
	k.impatient(e, a)
}

// readAgain reads the journal's head and meets it.
func (k *Keeper) readAgain(e *entry) {
	a := k.try(e)
	k.shelf.Read(e.key, func(head *Head, past []string, err error) {
		k.opt.Post(func() {
			switch {
			case !e.end(a): // a later attempt tells more
			case err != nil:
				k.fail(e, k.worse(whyOf(err)))
			default:
				k.answers()
				k.meet(e, head, past)
				k.onChange()
			}
		})
	})
	k.impatient(e, a)
}

// keepFirst keeps what must be kept of a document before it may be written, and goes on with it then.
func (k *Keeper) keepFirst(e *entry, i int) {
	a := k.try(e)
	name, text := e.keep[i].name, e.keep[i].text
	k.shelf.Keep(name, text, func(err error) {
		k.opt.Post(func() {
			newest := e.end(a)
			if err == nil {
				e.keep[i].done = true
			} else {
				k.keepLocally(&e.keep[i])
			}
			if !newest {
				return
			}
			if err == nil {
				k.answers()
			}
			if !e.keep[i].done {
				k.fail(e, k.worse(whyOf(err)))
				return
			}
			if e.toKeep() < 0 {
				if e.doc.Sequence == 0 && strings.HasPrefix(name, "aside/") {
					k.clearLocal(e)
				} else if e.doc.Sum != e.head {
					k.writeLocal(e)
				}
			}
			if e.why != Conflict {
				e.why = None
			}
			k.push(e)
			k.onChange()
		})
	})
	k.impatient(e, a)
}

// meetLocal settles, without a journal, between this page's revision and one that another page left in local storage.
func (k *Keeper) meetLocal(e *entry, theirs Document, text string) {
	if e.doc.Sequence == 0 && e.known && e.head != "" {
		return // the journal has something that this page did not read
	}
	_, outcome := k.opt.Kinds.Decode(e.key, text)
	if outcome == Migrated {
		e.mustKeep("before/", text)
		k.keepLocally(&e.keep[len(e.keep)-1])
	}
	if e.doc.Sequence == 0 || theirs.Descends(e.doc.Sum) {
		e.local = text
		k.adopt(e, theirs, outcome, text)
		return
	}
	k.join(e, theirs, outcome, &Head{Text: text})
}

// moved hears that another page changed a document; "" for any of them.
func (k *Keeper) moved(key string) {
	if key == "" {
		k.Reconcile()
		return
	}
	if k.opt.Kinds.kindOf(key) == "" {
		return
	}
	if k.reading != nil {
		k.again = true
		if !k.reading.late {
			return
		}
	}
	if k.failed != None {
		k.movedLocally(key)
		return
	}
	if !k.settled {
		return // Reconcile is still to come
	}
	e := k.entry(key)
	k.shelf.Read(key, func(head *Head, past []string, err error) {
		k.opt.Post(func() {
			busy := e.attempt != nil && !e.attempt.late // its answer tells more
			if err != nil || busy || head != nil && (head.Sum == e.head || head.Sequence < e.sequence) {
				return
			}
			if head == nil && e.doc.Sequence == 0 {
				return // only local storage has moved so far
			}
			k.meet(e, head, past)
			k.onChange()
		})
	})
}

// movedLocally looks at local storage after another page changed it, when there is no journal.
func (k *Keeper) movedLocally(key string) {
	e := k.entry(key)
	text, err := k.shelf.Text(key)
	if err != nil || text == "" || text == e.local || text == e.text || e.locked {
		return
	}
	theirs, outcome := k.opt.Kinds.Decode(key, text)
	switch {
	case outcome == Newer:
		k.lock(e, "local")
	case outcome != Fine && outcome != Migrated:
	case e.doc.Sequence == 0 || !e.doc.Descends(theirs.Sum):
		k.meetLocal(e, theirs, text)
	}
	k.onChange()
}
