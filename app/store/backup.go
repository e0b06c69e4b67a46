package store

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"hash"
	"io"
	"strconv"
	"strings"
	"time"
)

// A backup is a text of one line a document, so that what spoils a line spoils that document alone, and a torn file gives back all before the tear:
//
//	gapwright-backup 1 <checksum> {"made":…,"build":…,"documents":…}
//	<checksum> <key> <ancestors> <text>
//	end <number of documents> <checksum of all>
//
// A text is byte for byte what the stores hold; ancestors are the sums that the journal knows of it, oldest first, with commas, or -. Revisions that
// wait beside a document for somebody's choice have a line too, under the name that they are kept by. There is no tombstone: a backup takes nothing
// away. Every checksum counts the number of the format in.
const (
	backupName = "gapwright-backup"
	backupEnd  = "end"
)

// The limits of what is read as a backup. Our choice: ten times what a busy repairer has after years.
const (
	BackupLimit    = 200 << 20 // bytes of a file
	documentLimit  = 2 << 20   // bytes of a line
	documentsLimit = 100_000
	eventsLimit    = 5_000 // of a job
	revisionsLimit = 1 << 40
)

// BackupHead is what a backup says of itself. All of it is information: nothing is decided by it.
type BackupHead struct {
	Made       time.Time `json:"made"`
	Build      string    `json:"build"`
	Documents  int       `json:"documents"`
	Instrument string    `json:"instrument,omitempty"` // the one that it is of; "" for everything
}

// A Backup is what was written: First and Last go before and behind everything that was handed over in between.
type Backup struct {
	BackupHead
	First, Last string
	Whole       bool // the journal answered, and everything in it could be read
}

// backupPen writes the lines.
type backupPen struct {
	write   func(text string)
	waiting strings.Builder
	all     hash.Hash
	n       int
}

// pieceSize is about how much is handed over at once.
const pieceSize = 256 << 10

func newAll() hash.Hash {
	all := sha256.New()
	io.WriteString(all, format+" "+backupEnd)
	return all
}

func (p *backupPen) line(key string, line []string, text string) {
	ancestors := "-"
	if len(line) > 0 {
		ancestors = strings.Join(line, ",")
	}
	rest := key + " " + ancestors + " " + text
	sum := checksum("line", rest)
	io.WriteString(p.all, " "+sum)
	p.n++
	p.waiting.WriteString(sum + " " + rest + "\n")
	if p.waiting.Len() >= pieceSize {
		p.flush()
	}
}

func (p *backupPen) flush() {
	if p.waiting.Len() > 0 {
		p.write(p.waiting.String())
		p.waiting.Reset()
	}
}

func (p *backupPen) last() string {
	return backupEnd + " " + strconv.Itoa(p.n) + " " + sumOf(p.all) + "\n"
}

func sumOf(all hash.Hash) string { return hex.EncodeToString(all.Sum(nil)[:8]) }

func (h BackupHead) line() string {
	said, _ := json.Marshal(h) // a time, texts and a number always have a JSON form
	return backupName + " " + format + " " + checksum("head", string(said)) + " " + string(said) + "\n"
}

var errSilent = errors.New("the journal does not answer")

// batch is how many finished documents are read from the journal at once.
const batch = 50

// Backup writes everything, or one instrument with its jobs and its history, piece by piece, and then tells what it is. What the journal does not
// give is left out, and Whole is false.
func (d *Desk) Backup(instrument string, write func(piece string), done func(Backup)) {
	d.whenSettled(40, func() { d.backup(instrument, write, done) })
}

// whenSettled goes on as soon as both stores are compared or there is no journal, and in any case after so many quarters of Patience.
func (k *Keeper) whenSettled(quarters int, then func()) {
	if k.settled || k.failed != None && k.failed != NoAnswer || quarters == 0 {
		then()
		return
	}
	k.opt.After(Patience/4, func() { k.opt.Post(func() { k.whenSettled(quarters-1, then) }) })
}

func (d *Desk) backup(instrument string, write func(piece string), done func(Backup)) {
	made := Backup{BackupHead: BackupHead{Made: d.now().UTC().Truncate(time.Second), Build: d.opt.Build, Instrument: instrument}, Whole: true}
	pen := &backupPen{write: write, all: newAll()}
	finish := func() {
		pen.flush()
		made.Documents = pen.n
		made.First, made.Last = made.line(), pen.last()
		done(made)
	}
	var heads []Head
	var beside []string
	d.timely(func(answer func(error)) {
		d.shelf.Heads(func(all []Head, kept []string, err error) {
			heads, beside = all, kept
			answer(err)
		})
	}, func(err error) {
		made.Whole = err == nil
		lines := map[string]Head{}
		for _, h := range heads {
			lines[h.Key] = h
			if d.entries[h.Key] == nil && d.opt.Kinds.kindOf(h.Key) != "" {
				made.Whole = false // this page has not heard of it yet
			}
		}
		d.backupKeys(instrument, func(keys []string) {
			var later []string
			for _, key := range keys { // what this page has comes first: a torn file has lost the oldest work last
				e := d.entries[key]
				switch h := lines[key]; {
				case e == nil || e.doc.Removed:
				case e.over() && e.head != "" && (e.text == "" || e.doc.Sum == e.head && err == nil):
					later = append(later, key)
				case e.text != "":
					pen.line(key, lineOf(e.doc, h), e.text)
				case e.outcome != Absent: // damaged beyond reading
					made.Whole = false
				}
			}
			for _, name := range beside {
				if sort, key, _ := keptKey(name); sort == "parted" && has(keys, key) {
					later = append(later, name)
				}
			}
			d.backupLater(pen, later, &made, finish)
		})
	})
}

// backupKeys gives the keys of what goes into a backup, in the order of the file: the kit, instruments, histories, open jobs, finished jobs.
func (d *Desk) backupKeys(instrument string, give func(keys []string)) {
	if instrument == "" {
		var keys []string
		all := d.all()
		for _, kind := range []string{KindKit, KindInstrument, KindHistory, KindJob} {
			for _, key := range all {
				if d.opt.Kinds.kindOf(key) == kind {
					keys = append(keys, key)
				}
			}
		}
		give(keys)
		return
	}
	keys := []string{KindInstrument + "/" + instrument, KindHistory + "/" + instrument}
	for _, key := range d.Keys(KindJob) {
		if r, ok := d.Job(strings.TrimPrefix(key, KindJob+"/")); ok && r.Instrument.ID == instrument {
			keys = append(keys, key)
		}
	}
	add := func(job string) {
		if key := KindJob + "/" + job; d.entries[key] != nil && !has(keys, key) {
			keys = append(keys, key)
		}
	}
	d.Load(KindHistory+"/"+instrument, func(doc Document, outcome Outcome) {
		var body HistoryBody
		if outcome == Fine || outcome == Migrated {
			json.Unmarshal(doc.Body, &body)
		}
		for _, id := range body.Jobs {
			add(id)
		}
		if i, ok := d.Instrument(instrument); ok && i.AsSet != nil {
			add(i.AsSet.Job)
		}
		give(keys)
	})
}

// backupLater writes what lives in the journal alone, a batch at a time.
func (d *Desk) backupLater(pen *backupPen, keys []string, made *Backup, done func()) {
	if len(keys) == 0 {
		done()
		return
	}
	now := keys[:min(batch, len(keys))]
	d.newest(now, func(found []Head, err error) {
		if err != nil || len(found) != len(now) {
			made.Whole = false
			done()
			return
		}
		for _, h := range found {
			doc, outcome := d.opt.Kinds.Decode(backupLine{name: h.Key}.key(), h.Text)
			switch outcome {
			case Fine, Migrated, Newer:
				if !doc.Removed {
					pen.line(h.Key, lineOf(doc, h), h.Text)
				}
			default:
				made.Whole = false
			}
		}
		d.backupLater(pen, keys[len(now):], made, done)
	})
}

// lineOf is what is known of where a revision comes from: the journal's word, or its own where the journal has another.
func lineOf(doc Document, head Head) []string {
	if head.Sum == doc.Sum {
		return head.Line
	}
	own := append(doc.Line[:len(doc.Line):len(doc.Line)], doc.Parent)
	if has(own, head.Sum) {
		return lengthen(&head, own, doc.Sum)
	}
	return lengthen(nil, own, doc.Sum)
}

// timely asks the journal something and goes on once: with its error, or with errSilent when it does not answer within ten times Patience. Nothing
// is at stake meanwhile but time; from a journal that failed before no more is waited for than Patience.
func (k *Keeper) timely(ask func(answer func(error)), then func(error)) {
	given := false
	once := func(err error) {
		if !given {
			given = true
			then(err)
		}
	}
	ask(func(err error) { k.opt.Post(func() { once(err) }) })
	times := time.Duration(10)
	if k.failed != None && k.failed != NoAnswer {
		times = 1
	}
	if !given {
		k.opt.After(times*Patience, func() { k.opt.Post(func() { once(errSilent) }) })
	}
}

// lastBackup is what is remembered of the last backup, under a name of its own in the journal.
type lastBackup struct {
	At   time.Time `json:"at"`
	Jobs int       `json:"jobs"` // finished ones that there were then
}

const lastBackupName = "backup/last/0"

// RememberBackup takes note that a backup of everything was handed over.
func (d *Desk) RememberBackup(at time.Time) {
	d.keepLast(lastBackup{At: at, Jobs: d.finishedJobs()})
}

func (d *Desk) keepLast(last lastBackup) {
	d.copied = &last
	text, _ := json.Marshal(last)                              // a time and a number always have a JSON form
	d.shelf.Keep(lastBackupName, string(text), func(error) {}) // it serves a reminder; without it there is one too many
	d.onChange()
}

// ReadLastBackup reads what is remembered of the last backup; Since knows of it from then on.
func (d *Desk) ReadLastBackup() {
	d.shelf.Read(lastBackupName, func(_ *Head, past []string, err error) {
		d.opt.Post(func() {
			if err != nil || d.copied != nil {
				return
			}
			var last lastBackup
			if len(past) > 0 {
				json.Unmarshal([]byte(past[0]), &last) // what cannot be read was no backup
			}
			d.copied = &last
			d.onChange()
		})
	})
}

// SinceBackup tells when the last backup was made, zero for never, and how many jobs were finished after it. ok is false until that is known.
func (d *Desk) SinceBackup() (at time.Time, jobs int, ok bool) {
	if d.copied == nil || !d.settled {
		return at, 0, false
	}
	return d.copied.At, max(0, d.finishedJobs()-d.copied.Jobs), true
}

// DueJobs and DueAfter are when a backup is worth a reminder: so many finished jobs since the last one, or one and so long ago (common practice,
// no source).
const (
	DueJobs  = 3
	DueAfter = 90 * 24 * time.Hour
)

// BackupDue reports whether somebody is to be reminded, with what SinceBackup tells.
func (d *Desk) BackupDue() (at time.Time, jobs int, due bool) {
	at, jobs, ok := d.SinceBackup()
	old := !at.IsZero() && d.now().Sub(at) > DueAfter
	return at, jobs, ok && (jobs >= DueJobs || jobs > 0 && old)
}

func (d *Desk) finishedJobs() int {
	n := 0
	for key, e := range d.entries {
		if strings.HasPrefix(key, KindJob+"/") && !e.doc.Removed && (e.doc.Finished || e.doc.Sequence == 0 && e.finished) {
			n++
		}
	}
	return n
}
