package store

import (
	"bytes"
	"encoding/json"
	"errors"
	"strconv"
	"strings"
	"time"
)

// A restore works like another page that was opened on this device: each document is committed to the journal over the head that was compared, and
// this page then meets it as it meets any other page's. What was there before is kept first, so that all of it can be taken back.

// Restored tells what a restore has done.
type Restored struct {
	At          time.Time
	Made        time.Time // of the backup
	Written     int       // documents, and among them:
	Instruments int
	Jobs        int
	Finished    int // jobs that were new and are finished
	Beside      int // revisions kept beside a document for somebody's choice
	Left        int // moved on meanwhile or not saved: left as they were
}

// undoPart is what takes back one piece of a restore. Parts lie in the journal under undo/restore/<number>, from 0.
type undoPart struct {
	ID      string // of the restore: parts of an older one are not its
	At      time.Time
	Made    time.Time
	Changes []undoChange
}

// undoChange takes back one change.
type undoChange struct {
	Key    string
	Before string `json:",omitempty"` // the text that was the newest; "" for none
	Was    string `json:",omitempty"` // its sum in the journal
	After  string `json:",omitempty"` // sum of what the restore wrote; "" where it only kept something
	Kept   string `json:",omitempty"` // the name under which a revision was kept beside the document
}

func undoName(n int) string { return "undo/restore/" + strconv.Itoa(n) }

// writing is one document on its way.
type writing struct {
	undoChange
	commit Commit // nothing where something is only kept
	beside string // the text to keep under Kept
	isNew  bool
}

// Restore writes what ReadBackup has found. What moved on meanwhile is left alone, and so is everything behind an error: ErrFull and the like. What
// was written until then can be taken back like the rest.
func (d *Desk) Restore(r *Restore, progress func(read int64), done func(Restored, error)) {
	told := Restored{At: d.now().UTC().Truncate(time.Second), Made: r.Made}
	id, parts := d.newID(), 0
	var lines []backupLine
	seen := map[string]bool{}
	scan := newScan(d.opt.Kinds, func(l backupLine) {
		if !seen[l.name] && r.items[l.name].standing.Writes() {
			seen[l.name] = true
			lines = append(lines, l)
		}
	})
	var failed error
	finish := func(err error) {
		if failed != nil {
			err = failed
		}
		if told.Finished > 0 && d.copied != nil {
			d.keepLast(lastBackup{d.copied.At, d.copied.Jobs + told.Finished}) // they are in a backup already
		}
		d.onChange()
		done(told, err)
	}
	piece := func(read int64, on func()) {
		progress(read)
		now := lines
		lines = nil
		d.prepare(r, now, nil, &told, func(all []writing, err error) {
			if err != nil {
				failed = err
				finish(nil)
				return
			}
			if len(all) == 0 {
				on()
				return
			}
			part := undoPart{ID: id, At: told.At, Made: told.Made}
			for _, w := range all {
				part.Changes = append(part.Changes, w.undoChange)
			}
			text, err := json.Marshal(part)
			if err != nil {
				failed = err
				finish(nil)
				return
			}
			d.timely(func(answer func(error)) { d.shelf.Keep(undoName(parts), string(text), answer) }, func(err error) {
				if err != nil {
					failed = err
					finish(nil)
					return
				}
				parts++
				d.writeAll(all, &told, func(err error) {
					if err != nil {
						failed = err
						finish(nil)
						return
					}
					on()
				})
			})
		})
	}
	d.forgetUndo(func(err error) {
		if err != nil {
			finish(err)
			return
		}
		d.eachPiece(r.source, scan, 0, piece, finish)
	})
}

// prepare works out what is to be written of some lines.
func (d *Desk) prepare(r *Restore, lines []backupLine, ready []writing, told *Restored, give func([]writing, error)) {
	for len(lines) > 0 {
		l := lines[0]
		lines = lines[1:]
		key := l.key()
		it := r.items[l.name]
		doc, outcome := d.opt.Kinds.Decode(key, l.text)
		if outcome != Fine && outcome != Migrated || doc.Sum != it.sum {
			told.Left++ // another file than the one that was compared
			continue
		}
		switch {
		case l.name != key:
			ready = append(ready, writing{undoChange: undoChange{Key: key, Kept: l.name}, beside: l.text})
		case it.here == "":
			line := append(l.line[:len(l.line):len(l.line)], doc.Line...)
			ready = append(ready, writing{isNew: true, undoChange: undoChange{Key: key, After: doc.Sum},
				commit: Commit{Key: key, Sequence: doc.Sequence, Sum: doc.Sum, Line: append(line, doc.Parent), Finished: doc.Finished, Text: l.text}})
		default:
			var head *Head
			var past []string
			d.timely(func(answer func(error)) {
				d.shelf.Read(key, func(its *Head, texts []string, err error) {
					head, past = its, texts
					answer(err)
				})
			}, func(err error) {
				if err != nil {
					give(nil, err)
					return
				}
				if head == nil || head.Sum != it.here {
					told.Left++
				} else if w, ok := d.over(l, doc, it.standing, head, past); ok {
					ready = append(ready, w...)
				} else {
					told.Left++
				}
				d.prepare(r, lines, ready, told, give)
			})
			return
		}
	}
	give(ready, nil)
}

// over works out what a document of a file becomes over the one that is here.
func (d *Desk) over(l backupLine, doc Document, s Standing, head *Head, past []string) (all []writing, ok bool) {
	key, kind := l.key(), d.opt.Kinds[doc.Kind]
	ours, outcome := d.opt.Kinds.Decode(key, head.Text)
	readable := outcome == Fine || outcome == Migrated
	line := append(l.line[:len(l.line):len(l.line)], doc.Line...)
	line = append(line, doc.Parent)
	made := Document{Key: key, Kind: doc.Kind, Version: kind.Version(), Build: d.opt.Build, Writer: d.opt.Writer, Saved: d.opt.Now(),
		Sequence: max(head.Sequence, doc.Sequence) + 1, Parent: head.Sum, Line: lengthen(nil, append(line, doc.Sum), ""), Body: doc.Body, Finished: doc.Finished}
	change := undoChange{Key: key, Was: head.Sum}
	if readable {
		change.Before = head.Text
	}
	merge := func(base json.RawMessage, a, b Document) (json.RawMessage, error) {
		return kind.Merge(doc.Kind, bytes.Clone(base), bytes.Clone(a.Body), bytes.Clone(b.Body))
	}
	switch {
	case outcome == Newer:
		return nil, false
	case s == Back || !readable:
	case s == NewerThere && (ours.Removed || hasAll(merge, ours, doc)):
		change.After = doc.Sum
		return []writing{{undoChange: change, commit: Commit{Key: key, Expect: head.Sum, Sequence: doc.Sequence, Sum: doc.Sum, Line: line,
			Finished: doc.Finished, Text: l.text}}}, true
	default:
		base := json.RawMessage("null")
		for _, each := range past {
			was, found := d.opt.Kinds.Decode(key, each)
			if (found == Fine || found == Migrated) && (doc.Descends(was.Sum) || has(l.line, was.Sum)) {
				base = was.Body
				break
			}
		}
		merged, err := merge(base, doc, ours)
		if err != nil {
			other, text := doc, l.text
			if errors.Is(err, ErrDiffers) {
				if body, _ := merge(base, ours, doc); body != nil && !bytes.Equal(body, doc.Body) {
					other.Sequence, other.Parent, other.Body = doc.Sequence+1, doc.Sum, body
					other.Line = lengthen(nil, line, doc.Sum)
					if next, its, wrong := Encode(other); wrong == nil {
						other, text = next, its
					} else {
						other = doc
					}
				}
			} else {
				merged = ours.Body
			}
			all = append(all, writing{undoChange: undoChange{Key: key, Kept: "parted/" + key + "/" + other.Sum}, beside: text})
		}
		made.Body, made.Finished = merged, ours.Finished || doc.Finished
	}
	made, text, err := Encode(made)
	if err != nil {
		return nil, false
	}
	change.After = made.Sum
	return append(all, writing{undoChange: change, commit: Commit{Key: key, Expect: head.Sum, Sequence: made.Sequence, Sum: made.Sum,
		Line: made.Line, Finished: made.Finished, Text: text}}), true
}

// hasAll reports whether a revision that says it was made from ours has all that ours has. A file can say anything.
func hasAll(merge func(base json.RawMessage, a, b Document) (json.RawMessage, error), ours, theirs Document) bool {
	both, err := merge(ours.Body, ours, theirs)
	alone, wrong := merge(theirs.Body, theirs, theirs)
	return err == nil && wrong == nil && bytes.Equal(both, alone)
}

// writeAll commits one after the other.
func (d *Desk) writeAll(all []writing, told *Restored, done func(error)) {
	if len(all) == 0 {
		done(nil)
		return
	}
	w := all[0]
	next := func(err error) {
		if err != nil {
			done(err)
			return
		}
		d.writeAll(all[1:], told, done)
	}
	if w.Kept != "" {
		d.timely(func(answer func(error)) { d.shelf.Keep(w.Kept, w.beside, answer) }, func(err error) {
			if err == nil {
				told.Beside++
				d.noteBeside(w.Key, w.Kept, w.beside)
			}
			next(err)
		})
		return
	}
	d.commitAnd(w.commit, func(moved bool, err error) {
		switch {
		case err != nil:
		case moved:
			told.Left++
		default:
			told.Written++
			switch d.opt.Kinds.kindOf(w.Key) {
			case KindInstrument:
				told.Instruments++
			case KindJob:
				told.Jobs++
			}
			if w.isNew && w.commit.Finished && strings.HasPrefix(w.Key, KindJob+"/") {
				told.Finished++
			}
		}
		next(err)
	})
}

// noteBeside lists what waits for somebody's choice.
func (d *Desk) noteBeside(key, name, text string) {
	doc, _ := d.opt.Kinds.Decode(key, text)
	theirs, _ := d.Get(key)
	d.noteParted(Parted{Key: key, Ours: doc, Theirs: theirs, Kept: name})
}

// commitAnd commits a revision and lets this page meet it, also when the answer comes late. moved tells that the head was another one.
func (k *Keeper) commitAnd(c Commit, then func(moved bool, err error)) {
	moved := false
	k.timely(func(answer func(error)) {
		k.shelf.Commit(c, func(conflict bool, head *Head, err error) {
			k.opt.Post(func() {
				moved = conflict
				if err == nil && !conflict {
					met := Head{Key: c.Key, Sequence: c.Sequence, Sum: c.Sum, Line: lengthen(nil, append(c.Line[:len(c.Line):len(c.Line)], c.Expect), c.Sum),
						Finished: c.Finished, Text: c.Text}
					if met.Finished {
						met.Text = "" // it lives in the journal alone
					}
					if e := k.entry(c.Key); e.attempt == nil || e.attempt.late {
						k.meetHead(e, &met)
					}
				}
				answer(err)
			})
		})
	}, func(err error) { then(moved, err) })
}

// eachUndo reads the parts of the last restore in their order.
func (d *Desk) eachUndo(n int, parts []undoPart, give func([]undoPart, error)) {
	var past []string
	d.timely(func(answer func(error)) {
		d.shelf.Read(undoName(n), func(_ *Head, texts []string, err error) {
			past = texts
			answer(err)
		})
	}, func(err error) {
		var part undoPart
		if err != nil || len(past) == 0 || json.Unmarshal([]byte(past[0]), &part) != nil || n > 0 && part.ID != parts[0].ID {
			give(parts, err)
			return
		}
		d.eachUndo(n+1, append(parts, part), give)
	})
}

// forgetUndo takes the last restore's parts away, the last one first, so that what is left begins at 0.
func (d *Desk) forgetUndo(done func(error)) {
	d.eachUndo(0, nil, func(parts []undoPart, err error) {
		if err != nil {
			done(err)
			return
		}
		d.forgetParts(len(parts), done)
	})
}

func (d *Desk) forgetParts(n int, done func(error)) {
	if n == 0 {
		done(nil)
		return
	}
	d.timely(func(answer func(error)) { d.shelf.Forget(undoName(n-1), answer) }, func(err error) {
		if err != nil {
			done(err)
			return
		}
		d.forgetParts(n-1, done)
	})
}

// LastRestore tells of the restore that can still be taken back.
func (d *Desk) LastRestore(give func(last Restored, ok bool)) {
	d.eachUndo(0, nil, func(parts []undoPart, err error) {
		var last Restored
		for _, p := range parts {
			last.At, last.Made = p.At, p.Made
			for _, c := range p.Changes {
				if c.Kept != "" {
					last.Beside++
				} else {
					last.Written++
				}
			}
		}
		give(last, err == nil && len(parts) > 0)
	})
}

// UndoRestore puts back, as new revisions, what was there before the last restore; what came with it is removed. What was changed since then stays,
// and stayed counts it. It can be tried again after an error.
func (d *Desk) UndoRestore(done func(undone, stayed int, err error)) {
	d.eachUndo(0, nil, func(parts []undoPart, err error) {
		if err != nil {
			done(0, 0, err)
			return
		}
		d.undoParts(parts, 0, 0, done)
	})
}

func (d *Desk) undoParts(parts []undoPart, undone, stayed int, done func(int, int, error)) {
	if len(parts) == 0 {
		d.onChange()
		done(undone, stayed, nil)
		return
	}
	last := len(parts) - 1
	d.undoChanges(parts[last].Changes, undone, stayed, func(undone, stayed int, err error) {
		if err != nil {
			done(undone, stayed, err)
			return
		}
		d.timely(func(answer func(error)) { d.shelf.Forget(undoName(last), answer) }, func(err error) {
			if err != nil {
				done(undone, stayed, err)
				return
			}
			d.undoParts(parts[:last], undone, stayed, done)
		})
	})
}

func (d *Desk) undoChanges(changes []undoChange, undone, stayed int, done func(int, int, error)) {
	if len(changes) == 0 {
		done(undone, stayed, nil)
		return
	}
	c, rest := changes[0], changes[1:]
	next := func(one, other int, err error) {
		if err != nil {
			done(undone, stayed, err)
			return
		}
		d.undoChanges(rest, undone+one, stayed+other, done)
	}
	if c.Kept != "" {
		d.Forget(c.Kept, func(ok bool) {
			if !ok {
				next(0, 0, errSilent)
				return
			}
			next(1, 0, nil)
		})
		return
	}
	e := d.entry(c.Key)
	switch {
	case e.head == c.Was: // it was never written, or is taken back already
		next(0, 0, nil)
		return
	case e.head != c.After || e.locked:
		next(0, 1, nil)
		return
	}
	made := Document{Key: c.Key, Kind: d.opt.Kinds.kindOf(c.Key), Build: d.opt.Build, Writer: d.opt.Writer, Saved: d.opt.Now(), Sequence: e.sequence + 1,
		Parent: e.head, Body: json.RawMessage("null"), Removed: true}
	if c.Was != "" {
		before, outcome := d.opt.Kinds.Decode(c.Key, c.Before)
		if outcome != Fine && outcome != Migrated { // what was there could not be read
			next(0, 1, nil)
			return
		}
		made.Body, made.Removed, made.Finished = before.Body, before.Removed, before.Finished
	}
	made.Version = d.opt.Kinds[made.Kind].Version()
	made, text, err := Encode(made)
	if err != nil {
		next(0, 1, nil)
		return
	}
	d.commitAnd(Commit{Key: c.Key, Expect: made.Parent, Sequence: made.Sequence, Sum: made.Sum, Line: []string{made.Parent}, Finished: made.Finished,
		Text: text}, func(moved bool, err error) {
		if moved {
			next(0, 1, err)
			return
		}
		next(1, 0, err)
	})
}
