package store

import (
	"bytes"
	"encoding/json"
	"errors"
	"hash"
	"io"
	"sort"
	"strconv"
	"strings"

	"gapwright/app/job"
)

// Why a file cannot be taken for a backup at all.
var (
	ErrNoBackup    = errors.New("nothing in it is a backup of ours")
	ErrNewerBackup = errors.New("a later version wrote it")
	ErrTooLarge    = errors.New("more than can be read")
	ErrBusy        = errors.New("something is not saved yet")
)

// A Source gives a file piece by piece: the one that begins at that byte, none at the end. It may answer wherever it is. Errors are those of whoever
// reads the file.
type Source func(from int64, give func(piece []byte, err error))

// A Standing is how a document of a backup stands to the one that is here.
type Standing int

// The standings, what needs a person's eye last.
const (
	Nothing    Standing = iota
	Same                // it is here, revision for revision, or waits here beside its document
	NewerHere           // what is here was made from it
	New                 // nothing of the kind is here
	Back                // it was removed here, and comes back
	NewerThere          // it was made from what is here, or what is here cannot be read
	Both                // each was changed: joined, and where that cannot be, here as it is with the other one beside it
	Busy                // what is here is not saved yet: left alone
	Unread              // damaged, or nothing that this program could have written: left alone
	Later               // a later version wrote it: left alone
	standings
)

// Writes reports whether a restore writes documents of that standing.
func (s Standing) Writes() bool { return s >= New && s <= Both }

// A Part of a backup is an instrument with its jobs.
type Part struct {
	Instrument job.Instrument // as it will be, or as a job on it says
	Standing   Standing       // of its profile; Nothing where the backup has only jobs on it
	Jobs       [standings]int
}

// Pressing is the standing that says most of the part: its own or one of its jobs'.
func (p Part) Pressing() Standing {
	most := p.Standing
	for s := range standings {
		if p.Jobs[s] > 0 && s > most {
			most = s
		}
	}
	return most
}

// Changes reports whether something of the part would be written.
func (p Part) Changes() bool {
	changes := p.Standing.Writes()
	for s := range standings {
		changes = changes || s.Writes() && p.Jobs[s] > 0
	}
	return changes
}

// A Restore is what a backup holds beside what is here. Nothing is written before Desk.Restore.
type Restore struct {
	BackupHead
	Torn    bool // its end is missing or does not agree with the rest
	Damaged int  // lines that cannot be read
	Parts   []Part
	Kit     Standing
	Changes int // documents that would be written

	source Source
	items  map[string]item
}

// item is what is remembered of one line.
type item struct {
	sum      string // of the document
	here     string // sum of the journal's head, "" for none
	standing Standing
}

// backupLine is one line of a backup, whole.
type backupLine struct {
	name string // a key, or parted/<key>/<sum>
	line []string
	text string
}

// key is the key of the document that a line is of.
func (l backupLine) key() string {
	if sort, key, _ := keptKey(l.name); sort == "parted" {
		return key
	}
	return l.name
}

// backupScan takes a file apart. It holds one line at most.
type backupScan struct {
	kinds   Kinds
	take    func(backupLine)
	head    BackupHead
	headed  bool
	later   bool
	lines   int // whole ones
	damaged int
	spoilt  []string // names of damaged lines, as far as they can be read
	all     hash.Hash
	ended   bool // the closing line was there and agrees
	part    []byte
	skip    bool // the line is too long: until its end
	begun   bool
	copy    []byte // of a plain copy of both stores, which is one JSON text
	copies  bool
}

func newScan(kinds Kinds, take func(backupLine)) *backupScan {
	return &backupScan{kinds: kinds, take: take, all: newAll()}
}

// feed takes the next bytes.
func (s *backupScan) feed(piece []byte) error {
	if !s.begun && len(piece) > 0 {
		s.begun = true
		piece = bytes.TrimPrefix(piece, []byte("\ufeff"))
		s.copies = len(piece) > 0 && piece[0] == '['
	}
	if s.copies {
		s.copy = append(s.copy, piece...)
		if len(s.copy) > BackupLimit/4 {
			return ErrTooLarge
		}
		return nil
	}
	for {
		i := bytes.IndexByte(piece, '\n')
		if i < 0 {
			break
		}
		s.hold(piece[:i])
		s.end()
		piece = piece[i+1:]
		if s.lines+s.damaged > documentsLimit {
			return ErrTooLarge
		}
	}
	s.hold(piece)
	return nil
}

func (s *backupScan) hold(piece []byte) {
	if s.skip = s.skip || len(s.part)+len(piece) > documentLimit; s.skip {
		piece = piece[:min(len(piece), max(0, 200-len(s.part)))] // enough to tell its name
	}
	s.part = append(s.part, piece...)
}

// end closes a line.
func (s *backupScan) end() {
	line := strings.TrimSuffix(string(s.part), "\r")
	if line != "" {
		s.read(line, s.skip)
	}
	s.part, s.skip = s.part[:0], false
}

// close takes the end of the file.
func (s *backupScan) close() {
	s.end()
	if s.copies {
		s.closeCopy()
	}
}

func (s *backupScan) read(line string, short bool) {
	first, rest, _ := strings.Cut(line, " ")
	switch {
	case short:
		s.spoil(rest)
	case first == backupName:
		s.readHead(rest)
	case first == backupEnd:
		s.ended = rest == strconv.Itoa(s.lines)+" "+sumOf(s.all)
	case checksum("line", rest) != first:
		s.spoil(rest)
	default:
		fields := strings.SplitN(rest, " ", 3)
		l := backupLine{name: fields[0]}
		if len(fields) == 3 && fields[1] != "-" {
			l.line = strings.Split(fields[1], ",")
		}
		if len(fields) < 3 || s.kinds.kindOf(l.key()) == "" || !sums(l.line) {
			s.spoil(rest)
			return
		}
		l.text = fields[2]
		io.WriteString(s.all, " "+first)
		s.lines++
		s.take(l)
	}
}

// sums reports whether a list can be one of ancestors.
func sums(line []string) bool {
	for _, sum := range line {
		if len(sum) != 16 || strings.Trim(sum, "0123456789abcdef") != "" {
			return false
		}
	}
	return len(line) <= LineLimit
}

// spoil takes note of a line that cannot be read.
func (s *backupScan) spoil(rest string) {
	s.damaged++
	name, _, _ := strings.Cut(rest, " ")
	if l := (backupLine{name: name}); s.kinds.kindOf(l.key()) != "" && len(s.spoilt) < 1000 {
		s.spoilt = append(s.spoilt, l.key())
	}
}

func (s *backupScan) readHead(rest string) {
	fields := strings.SplitN(rest, " ", 3)
	if fields[0] != format && decimal(fields[0]) {
		s.later = true
		return
	}
	var head BackupHead
	if len(fields) < 3 || checksum("head", fields[2]) != fields[1] || json.Unmarshal([]byte(fields[2]), &head) != nil {
		s.damaged++
		return
	}
	s.head, s.headed = head, true
}

// closeCopy reads a plain copy of both stores: several revisions of a document may be in it, and the last in their sequence counts.
func (s *backupScan) closeCopy() {
	var texts []Text
	if json.Unmarshal(s.copy, &texts) != nil {
		s.damaged++
		return
	}
	s.copy = nil
	newest, before := map[string]Document{}, map[string][]string{}
	whole := map[string]string{}
	for _, t := range texts {
		if s.kinds.kindOf(t.Name) == "" {
			continue
		}
		doc, outcome := s.kinds.Decode(t.Name, t.Text)
		if outcome != Fine && outcome != Migrated && outcome != Newer || strings.Contains(t.Text, "\n") {
			s.spoil(t.Name)
			continue
		}
		before[t.Name] = append(append(before[t.Name], doc.Line...), doc.Parent, doc.Sum)
		if last, there := newest[t.Name]; !there || doc.Sequence > last.Sequence {
			newest[t.Name], whole[t.Name] = doc, t.Text
		}
	}
	for _, name := range sortedKeys(whole) {
		if doc := newest[name]; !doc.Removed {
			s.lines++
			s.take(backupLine{name, lengthen(nil, before[name], doc.Sum), whole[name]})
		}
	}
	s.headed, s.ended = true, true
}

func sortedKeys[V any](of map[string]V) []string {
	keys := make([]string, 0, len(of))
	for key := range of {
		keys = append(keys, key)
	}
	sort.Strings(keys)
	return keys
}

// eachPiece feeds a scan with the whole file and goes on with what went wrong. After each piece it waits for then.
func (k *Keeper) eachPiece(source Source, scan *backupScan, from int64, then func(read int64, on func()), done func(error)) {
	source(from, func(piece []byte, err error) {
		k.opt.Post(func() { k.takePiece(source, scan, from, piece, err, then, done) })
	})
}

func (k *Keeper) takePiece(source Source, scan *backupScan, from int64, piece []byte, err error, then func(read int64, on func()), done func(error)) {
	if err == nil && len(piece) > 0 {
		err = scan.feed(piece)
	}
	switch from += int64(len(piece)); {
	case err != nil:
		done(err)
	case from > BackupLimit:
		done(ErrTooLarge)
	case len(piece) == 0:
		scan.close()
		then(from, func() { done(nil) })
	default:
		then(from, func() { k.eachPiece(source, scan, from, then, done) })
	}
}

// ReadBackup compares a file with what is here and writes nothing. progress tells how many bytes were read. Errors: ErrNoBackup, ErrNewerBackup,
// ErrTooLarge, ErrBusy, the source's, and the journal's.
func (d *Desk) ReadBackup(source Source, progress func(read int64), give func(*Restore, error)) {
	d.whenRested(20, func(rested bool) {
		if !rested {
			give(nil, ErrBusy)
			return
		}
		d.readBackup(source, progress, give)
	})
}

// whenRested goes on as soon as both stores are compared and everything is saved, and gives up after so many quarters of Patience.
func (k *Keeper) whenRested(quarters int, then func(rested bool)) {
	switch rested := k.settled && k.failed == None && k.State().Mark == Saved; {
	case rested, quarters == 0, k.State().Mark == NotSaved && k.failed != NoAnswer:
		then(rested)
	default:
		k.opt.After(Patience/4, func() { k.opt.Post(func() { k.whenRested(quarters-1, then) }) })
	}
}

func (d *Desk) readBackup(source Source, progress func(read int64), give func(*Restore, error)) {
	var here map[string]*Head
	var beside []string
	d.timely(func(answer func(error)) {
		d.shelf.Heads(func(heads []Head, kept []string, err error) {
			here, beside = map[string]*Head{}, kept
			for i := range heads {
				here[heads[i].Key] = &heads[i]
			}
			answer(err)
		})
	}, func(err error) {
		if err != nil {
			give(nil, err)
			return
		}
		r := &Restore{source: source, items: map[string]item{}}
		reading := &comparison{desk: d, restore: r, here: here, beside: beside, parts: map[string]*Part{}}
		scan := newScan(d.opt.Kinds, reading.take)
		d.eachPiece(source, scan, 0, func(read int64, on func()) { progress(read); on() }, func(err error) {
			switch {
			case err != nil:
			case scan.lines == 0 && scan.later:
				err = ErrNewerBackup
			case scan.lines == 0 && !scan.headed:
				err = ErrNoBackup
			}
			if err != nil {
				give(nil, err)
				return
			}
			reading.compareLater(func(err error) {
				if err != nil {
					give(nil, err)
					return
				}
				r.BackupHead, r.Torn, r.Damaged = scan.head, !scan.ended, r.Damaged+scan.damaged
				reading.finish(scan.spoilt)
				give(r, nil)
			})
		})
	})
}

// comparison puts what a file holds beside what is here.
type comparison struct {
	desk    *Desk
	restore *Restore
	here    map[string]*Head
	beside  []string
	parts   map[string]*Part
	later   []waiting
}

// waiting is a line whose document here is finished: where that comes from is read when the whole file is.
type waiting struct {
	key  string
	line []string
	doc  Document // without its body
	of   job.Instrument
}

// take compares one line.
func (c *comparison) take(l backupLine) {
	if _, twice := c.restore.items[l.name]; twice { // the first one counts
		c.restore.Damaged++
		return
	}
	key := l.key()
	doc, outcome := c.desk.opt.Kinds.Decode(key, l.text)
	head := c.here[key]
	it := item{sum: doc.Sum, standing: Unread}
	if head != nil {
		it.here = head.Sum
	}
	kind := c.desk.opt.Kinds.kindOf(key)
	var of job.Instrument
	switch outcome {
	case Newer:
		it.standing = Later
		of.ID = aimedAt(key)
	case Fine, Migrated:
		switch {
		case doc.Removed || doc.Sequence > revisionsLimit:
		case l.name != key:
			it.standing = c.stepAside(l, doc)
		case head != nil && head.Finished && head.Sum != doc.Sum:
			if of, sound := soundBody(kind, aimedAt(key), doc.Body); sound {
				doc.Body = nil
				c.later = append(c.later, waiting{key, l.line, doc, of})
				c.restore.items[l.name] = it
				return
			}
		default:
			it.standing = c.desk.standing(doc, l.line, head, c.beside)
		}
		if it.standing == Same || it.standing == NewerHere {
			of = c.named(kind, key, doc.Body)
			break
		}
		sound := false
		if of, sound = soundBody(kind, aimedAt(key), doc.Body); !sound {
			it.standing = Unread
		}
	}
	c.settle(l.name, it, of)
}

// settle takes note of how a line stands.
func (c *comparison) settle(name string, it item, of job.Instrument) {
	c.restore.items[name] = it
	if it.standing.Writes() {
		c.restore.Changes++
	}
	if kind := c.desk.opt.Kinds.kindOf(name); kind != "" {
		c.count(kind, of, it.standing)
	}
}

// compareLater compares what waits, a batch at a time.
func (c *comparison) compareLater(done func(error)) {
	if len(c.later) == 0 {
		done(nil)
		return
	}
	now := c.later[:min(batch, len(c.later))]
	c.later = c.later[len(now):]
	var keys []string
	for _, w := range now {
		keys = append(keys, w.key)
	}
	var found []Head
	c.desk.timely(func(answer func(error)) {
		c.desk.shelf.Newest(keys, func(heads []Head, err error) {
			found = heads
			answer(err)
		})
	}, func(err error) {
		if err != nil || len(found) != len(now) {
			done(errors.Join(err, errSilent))
			return
		}
		for i, w := range now {
			it := c.restore.items[w.key]
			it.standing = Busy
			if found[i].Sum == it.here {
				it.standing = c.desk.standing(w.doc, w.line, &found[i], c.beside)
			}
			c.settle(w.key, it, w.of)
		}
		c.compareLater(done)
	})
}

// stepAside is the standing of a revision that waited for somebody's choice.
func (c *comparison) stepAside(l backupLine, doc Document) Standing {
	_, key, sum := keptKey(l.name)
	switch {
	case sum != doc.Sum:
		return Unread
	case has(c.beside, l.name):
		return Same
	case c.here[key] != nil && has(c.here[key].Line, doc.Sum):
		return NewerHere
	}
	return New
}

func aimedAt(key string) string {
	_, id, _ := strings.Cut(key, "/")
	return id
}

// named finds out, without looking closely, whose a document is that is here already.
func (c *comparison) named(kind, key string, body []byte) (of job.Instrument) {
	switch kind {
	case KindInstrument:
		json.Unmarshal(body, &of) // a profile that cannot be read has no name
		of.ID = aimedAt(key)
	case KindJob:
		var b struct {
			Events []struct {
				What struct {
					Instrument job.Instrument `json:"instrument"`
				} `json:"what"`
			} `json:"events"`
		}
		if r, ok := c.desk.Job(aimedAt(key)); ok {
			return r.Instrument
		}
		if json.Unmarshal(body, &b) == nil && len(b.Events) > 0 {
			of = b.Events[0].What.Instrument
		}
	}
	return of
}

// count takes a document into the preview.
func (c *comparison) count(kind string, of job.Instrument, s Standing) {
	if kind == KindKit {
		c.restore.Kit = s
		return
	}
	if kind == KindHistory {
		return // comes and goes with its instrument
	}
	part := c.parts[of.ID]
	if part == nil {
		part = &Part{Instrument: of}
		if i, ok := c.desk.Instrument(of.ID); ok {
			part.Instrument = i
		}
		c.parts[of.ID] = part
	}
	if kind == KindInstrument {
		part.Standing = s
		if s == New || s == Back || s == NewerThere { // as it will be
			part.Instrument = of
		}
	} else {
		part.Jobs[s]++
	}
}

// finish lists the parts: what needs an eye first, then by name.
func (c *comparison) finish(spoilt []string) {
	for _, key := range spoilt {
		kind := c.desk.opt.Kinds.kindOf(key)
		if kind == KindInstrument && c.parts[aimedAt(key)] != nil && c.parts[aimedAt(key)].Standing != Nothing {
			continue // damaged once and whole another time
		}
		var of job.Instrument
		if kind == KindInstrument {
			of.ID = aimedAt(key)
		}
		c.count(kind, of, Unread)
	}
	parts := &c.restore.Parts
	for _, id := range sortedKeys(c.parts) {
		*parts = append(*parts, *c.parts[id])
	}
	sort.SliceStable(*parts, func(a, b int) bool {
		x, y := (*parts)[a], (*parts)[b]
		if x.Pressing() != y.Pressing() {
			return x.Pressing() > y.Pressing()
		}
		return x.Instrument.Name < y.Instrument.Name
	})
}

// standing compares a document of a file with the journal's head of it: by descent, never by the clock.
func (d *Desk) standing(doc Document, line []string, head *Head, beside []string) Standing {
	e := d.entries[doc.Key]
	switch {
	case head == nil && (e == nil || e.doc.Sequence == 0):
		return New
	case head == nil || e == nil || e.head != head.Sum || e.toKeep() >= 0 || e.attempt != nil:
		return Busy
	case e.locked:
		return NewerHere
	case e.doc.Sequence == 0 && !e.finished: // it cannot be read, and is kept aside
		return NewerThere
	case e.doc.Sequence > 0 && e.doc.Sum != head.Sum:
		return Busy
	case head.Sum == doc.Sum:
		return Same
	case has(head.Line, doc.Sum) && !e.doc.Removed:
		return NewerHere
	case (doc.Descends(head.Sum) || has(line, head.Sum)) && doc.Sequence > head.Sequence:
		return NewerThere
	case e.doc.Removed:
		return Back
	case has(beside, "parted/"+doc.Key+"/"+doc.Sum):
		return Same
	case e.doc.Sequence > 0 && bytes.Equal(e.doc.Body, doc.Body) && e.doc.Finished == doc.Finished:
		return Same
	}
	return Both
}

// soundBody reports whether a body is one that this program could have written under that id, and whose it is. What would be refused from a
// person's hand is refused from a file.
func soundBody(kind, id string, body []byte) (of job.Instrument, sound bool) {
	defer func() {
		if recover() != nil { // facts in an order that nobody foresaw: not into the stores
			sound = false
		}
	}()
	switch kind {
	case KindKit:
		var kit job.Kit
		return of, json.Unmarshal(body, &kit) == nil
	case KindInstrument:
		err := json.Unmarshal(body, &of)
		same := of.ID == id
		of.ID = id
		return of, err == nil && same && of.Check() == nil
	case KindHistory:
		var b HistoryBody
		of.ID = id
		return of, json.Unmarshal(body, &b) == nil && len(b.Jobs) <= documentsLimit
	}
	var b JobBody
	if err := json.Unmarshal(body, &b); err != nil || len(b.Events) > eventsLimit || len(b.Left) > eventsLimit {
		return of, false
	}
	r, err := job.Replay(b.Events)
	of = r.Instrument
	return of, err == nil && r.ID == id
}
