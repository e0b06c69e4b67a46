package store

import (
	"sort"
	"strings"
)

// A Device is what outlives a page: a local storage and a journal in memory, shared by the tabs that are opened on it. It can be told
// to delay, fail, hang, refuse for want of room, tear a text, and lose power. It belongs to one goroutine.
type Device struct {
	LocalBlocked   bool
	LocalRoom      int // characters, 0 for no limit but LocalLimit
	JournalBlocked bool
	JournalRoom    int   // characters of texts, 0 for no limit
	JournalError   error // every writing transaction fails with it while it is set
	Hang           bool  // the journal takes what it is asked and never answers
	Slow           bool  // the journal does nothing until it is told to, by Work and Answer
	Tear           int   // the next local text is cut to that many bytes, once; 0 for none

	local   map[string]string
	undo    []change // of local storage, oldest first
	journal map[string]record
	kept    map[string]string
	work    []func() // transactions that were not run yet, in order
	answers []func() // answers that were not given yet
	tabs    []*Memory
}

type change struct {
	name, text string // what was there before, "" for nothing
}

type record struct {
	head Head
	past []Text // newest first; Name is the sum
}

// NewDevice returns an empty device that works and answers at once.
func NewDevice() *Device {
	return &Device{local: map[string]string{}, journal: map[string]record{}, kept: map[string]string{}}
}

// Memory is the shelf of one tab on a device in memory. It serves tests, the pages that are drawn without a browser, and what is rehearsed.
type Memory struct {
	device *Device
	moved  func(string)
}

// Tab opens a tab on the device.
func (d *Device) Tab() *Memory {
	m := &Memory{device: d}
	d.tabs = append(d.tabs, m)
	return m
}

// Waiting tells how many transactions were not run and how many answers were not given yet.
func (d *Device) Waiting() (work, answers int) { return len(d.work), len(d.answers) }

// Work runs the oldest transaction that waits, without giving its answer.
func (d *Device) Work() {
	next := d.work[0]
	d.work = d.work[1:]
	next()
}

// Answer gives the answer number i of those that wait.
func (d *Device) Answer(i int) {
	next := d.answers[i]
	d.answers = append(d.answers[:i:i], d.answers[i+1:]...)
	next()
}

// Drain runs and answers until nothing waits. It panics when that does not come to an end.
func (d *Device) Drain() {
	for steps := 0; len(d.work)+len(d.answers) > 0; steps++ {
		if steps > 100_000 {
			panic("store: pages on one device answer each other for ever")
		}
		if len(d.work) > 0 {
			d.Work()
		} else {
			d.Answer(0)
		}
	}
}

// Crash ends every tab as a killed browser does: transactions that were not run are lost and so are all answers, and local storage
// falls back by that many changes.
func (d *Device) Crash(back int) {
	d.work, d.answers, d.tabs = nil, nil, nil
	for ; back > 0 && len(d.undo) > 0; back-- {
		last := d.undo[len(d.undo)-1]
		d.undo = d.undo[:len(d.undo)-1]
		if last.text == "" {
			delete(d.local, last.name)
		} else {
			d.local[last.name] = last.text
		}
	}
}

// Local shows local storage as another program would see it, whole names and all.
func (d *Device) Local() map[string]string { return d.local }

// Plant puts a text into local storage under its whole name, as another program could.
func (d *Device) Plant(name, text string) { d.local[name] = text }

// Spoil changes the text of the head of a document in the journal.
func (d *Device) Spoil(key string, change func(string) string) {
	r := d.journal[key]
	r.past = append([]Text(nil), r.past...)
	r.past[0].Text = change(r.past[0].Text)
	d.journal[key] = r
}

// DropJournal deletes the journal, as a browser does that was told to clear it.
func (d *Device) DropJournal() {
	d.journal, d.kept = map[string]record{}, map[string]string{}
}

// JournalHead returns the journal's head of a document with its text, nil when there is none.
func (d *Device) JournalHead(key string) *Head { return d.head(key) }

// KeptTexts returns what was kept in the journal, by name.
func (d *Device) KeptTexts() map[string]string { return d.kept }

// Names lists the names in local storage.
func (m *Memory) Names() ([]string, error) {
	if m.device.LocalBlocked {
		return nil, ErrBlocked
	}
	var names []string
	for name := range m.device.local {
		if name, ours := strings.CutPrefix(name, Prefix); ours {
			names = append(names, name)
		}
	}
	return names, nil
}

// Texts reads all of local storage.
func (m *Memory) Texts() (map[string]string, error) {
	names, err := m.Names()
	texts := make(map[string]string, len(names))
	for _, name := range names {
		texts[name] = m.device.local[Prefix+name]
	}
	return texts, err
}

// Text reads from local storage.
func (m *Memory) Text(name string) (string, error) {
	if m.device.LocalBlocked {
		return "", ErrBlocked
	}
	return m.device.local[Prefix+name], nil
}

// SetText writes to local storage.
func (m *Memory) SetText(name, text string) error {
	d := m.device
	if d.LocalBlocked {
		return ErrBlocked
	}
	whole, all, own := Prefix+name, 0, 0
	for other, its := range d.local {
		if other == whole {
			continue
		}
		size := units(other) + units(its)
		all += size
		if strings.HasPrefix(other, Prefix) {
			own += size
		}
	}
	size := units(whole) + units(text)
	if own+size > LocalLimit || d.LocalRoom > 0 && all+size > d.LocalRoom {
		return ErrFull
	}
	if d.Tear > 0 && d.Tear < len(text) {
		text, d.Tear = text[:d.Tear], 0
	}
	d.undo = append(d.undo, change{whole, d.local[whole]})
	d.local[whole] = text
	m.tell(name)
	return nil
}

// RemoveText removes from local storage.
func (m *Memory) RemoveText(name string) error {
	d := m.device
	if d.LocalBlocked {
		return ErrBlocked
	}
	if old, there := d.local[Prefix+name]; there {
		d.undo = append(d.undo, change{Prefix + name, old})
		delete(d.local, Prefix+name)
		m.tell(name)
	}
	return nil
}

// tell lets the other tabs know, later, that something moved. Without Slow nobody is told: a notice in the middle of the one who
// writes is nothing that a browser does.
func (m *Memory) tell(name string) {
	if !m.device.Slow {
		return
	}
	for _, other := range m.device.tabs {
		if other != m {
			m.device.answers = append(m.device.answers, func() {
				if other.moved != nil {
					other.moved(name)
				}
			})
		}
	}
}

// ask runs a transaction and then gives its answer, each when its time has come.
func (m *Memory) ask(writes bool, run func() error, answer func(error)) {
	d := m.device
	if d.Hang {
		return
	}
	transaction := func() {
		var err error
		switch {
		case d.JournalBlocked:
			err = ErrBlocked
		case writes && d.JournalError != nil:
			err = d.JournalError
		default:
			err = run()
		}
		if d.Slow {
			d.answers = append(d.answers, func() { answer(err) })
		} else {
			answer(err)
		}
	}
	if d.Slow {
		d.work = append(d.work, transaction)
	} else {
		transaction()
	}
}

func (d *Device) head(key string) *Head {
	r, there := d.journal[key]
	if !there {
		return nil
	}
	head := r.head
	head.Text = r.past[0].Text
	return &head
}

// Heads reads all heads.
func (m *Memory) Heads(answer func([]Head, []string, error)) {
	var heads []Head
	var kept []string
	m.ask(false, func() error {
		for _, r := range m.device.journal {
			head := r.head
			text := r.past[0].Text
			head.Same = !head.Finished && !m.device.LocalBlocked && text != "" && m.device.local[Prefix+head.Key] == text
			switch {
			case head.Finished:
				head.Line = nil
			case !head.Same:
				head.Text = text
			}
			heads = append(heads, head)
		}
		for name := range m.device.kept {
			kept = append(kept, name)
		}
		sort.Slice(heads, func(i, j int) bool { return heads[i].Key < heads[j].Key })
		sort.Strings(kept)
		return nil
	}, func(err error) { answer(heads, kept, err) })
}

// Read reads one document.
func (m *Memory) Read(key string, answer func(*Head, []string, error)) {
	var head *Head
	var past []string
	m.ask(false, func() error {
		head = m.device.head(key)
		for _, each := range m.device.journal[key].past {
			past = append(past, each.Text)
		}
		if text, there := m.device.kept[key]; there {
			past = append(past, text)
		}
		return nil
	}, func(err error) { answer(head, past, err) })
}

// Newest reads several documents' heads.
func (m *Memory) Newest(keys []string, answer func([]Head, error)) {
	heads := make([]Head, len(keys))
	m.ask(false, func() error {
		for i, key := range keys {
			if head := m.device.head(key); head != nil {
				heads[i] = *head
			} else {
				heads[i] = Head{Key: key, Text: m.device.kept[key]}
			}
		}
		return nil
	}, func(err error) { answer(heads, err) })
}

// Commit makes a revision the head.
func (m *Memory) Commit(c Commit, answer func(bool, *Head, error)) {
	d := m.device
	var conflict bool
	var head *Head
	m.ask(true, func() error {
		head = d.head(c.Key)
		now := ""
		if head != nil {
			now = head.Sum
		}
		if now == c.Sum {
			return nil
		}
		if now != c.Expect {
			conflict = true
			return nil
		}
		if d.JournalRoom > 0 && d.size()+units(c.Text) > d.JournalRoom {
			return ErrFull
		}
		past := append([]Text{{Name: c.Sum, Text: c.Text}}, d.journal[c.Key].past...)
		d.journal[c.Key] = record{
			head: Head{Key: c.Key, Sequence: c.Sequence, Sum: c.Sum, Line: lengthen(head, c.Line, c.Sum), Finished: c.Finished},
			past: past[:min(len(past), PastLimit)],
		}
		m.tell(c.Key)
		return nil
	}, func(err error) { answer(conflict, head, err) })
}

func (d *Device) size() int {
	n := 0
	for _, r := range d.journal {
		for _, each := range r.past {
			n += units(each.Text)
		}
	}
	for _, text := range d.kept {
		n += units(text)
	}
	return n
}

// Keep keeps a text.
func (m *Memory) Keep(name, text string, answer func(error)) {
	d := m.device
	m.ask(true, func() error {
		if d.JournalRoom > 0 && d.size()+units(text) > d.JournalRoom {
			return ErrFull
		}
		d.kept[name] = text
		return nil
	}, answer)
}

// Forget removes what was kept.
func (m *Memory) Forget(name string, answer func(error)) {
	m.ask(true, func() error { delete(m.device.kept, name); return nil }, answer)
}

// All reads every text in the journal.
func (m *Memory) All(answer func([]Text, error)) {
	var texts []Text
	m.ask(false, func() error {
		for key, r := range m.device.journal {
			for _, each := range r.past {
				texts = append(texts, Text{"journal", key, each.Text})
			}
		}
		for name, text := range m.device.kept {
			texts = append(texts, Text{"journal", name, text})
		}
		return nil
	}, func(err error) { answer(texts, err) })
}

// Persist is granted: memory is never cleared to make room.
func (m *Memory) Persist(answer func(bool, error)) { answer(true, nil) }

// Watch names the watcher.
func (m *Memory) Watch(moved func(string)) { m.moved = moved }
