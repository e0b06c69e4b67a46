package job

import (
	"slices"
	"time"

	"gapwright/geometry"
)

// What a job that is over has to tell whoever owns the instrument: what it was, what was done, what it is. Nothing is told that no fact tells.

// NoLetter says why a job has nothing to tell; empty: it has.
type NoLetter string

// The reasons.
const (
	LetterNotYet  NoLetter = "not-yet" // the job is under way
	LetterNothing NoLetter = "nothing" // nothing was read and nothing was done
)

// Letter is what a job tells.
type Letter struct {
	Method     Method
	Instrument Instrument
	Day        time.Time   // of the last fact
	Away       bool        // the job was put away before its end
	Out        bool        // the saddle was out then, or the strings were off
	Check      *Check      // what a quick check found; what places were is then what was read when the instrument was set
	Gaps       []LetterRow // where this instrument is read, bass first
	Neck       []LetterRow // relief first, then fret 1, bass first
	Still      bool        // the rod was turned and the relief reads as before
	Parted     bool        // strings or tuning changed between what some row was and is
	Wanted     *Chosen     // what was wanted in the end, where readings can answer it
	Proven     bool        // the readings show that
	Done       LetterWork
	Strung     Answer // which strings went back on; "": none came off
	Air        *Aired // of the room
	Room       Answer // what was said of its air where nothing was read
}

// Shown are the rows that are worth a picture, two at the most: the outer strings, or what of the neck was worked on.
func (l Letter) Shown() []LetterRow {
	rows := l.Gaps
	if len(rows) == 0 {
		rows = slices.DeleteFunc(slices.Clone(l.Neck), func(row LetterRow) bool { return (row.Feature == Relief) != (l.Method == SetRelief) })
		if changed := slices.DeleteFunc(slices.Clone(rows), func(row LetterRow) bool { return !row.Was.Known }); len(changed) > 0 {
			rows = changed
		}
	}
	if len(rows) > 2 {
		rows = []LetterRow{rows[0], rows[len(rows)-1]}
	}
	return rows
}

// LetterRow is one place as it was found and as it is left.
type LetterRow struct {
	Place // without a feature: the gap
	Was   LetterRead
	Now   LetterRead
}

// LetterRead is what was read of a place.
type LetterRead struct {
	Known bool // otherwise it was not read, or read when it was something else
	Range geometry.Interval
	Once  *Read // as it was read, where that was once
	at    int   // sequence of its last reading
}

// LetterWork is what was done, in all rounds together.
type LetterWork struct {
	Rounds   int                  // in which something was done to what holds the strings up
	Sanded   bool                 // at the underside of the saddle:
	Off      [2]geometry.Interval // so much is gone, bass and treble end
	Smoothed bool
	Laid     []Shimmed // strips under the saddle
	Made     bool      // a new saddle
	Turned   []int     // eighths of a turn, trial turns counted in, up above zero: of each course, or of the bass and the treble post
	Filed    []int     // the courses whose nut slots were deepened, bass first
	Rod      int       // eighths of a turn of the truss rod in all, tightened above zero
	Relief   bool      // it was changed
	Nut      bool      // it was worked on otherwise
}

// Nothing tells whether nothing was done.
func (w LetterWork) Nothing() bool {
	return w.Rounds == 0 && len(w.Laid) == 0 && len(w.Turned) == 0 && len(w.Filed) == 0 && !w.Relief && !w.Nut
}

// Kept lists the events that stand: without those that were taken back, and the taking back.
func (r Record) Kept() []Event { return effective(r.Events) }

// Letter works out what the job tells, or says why there is nothing.
func (r Record) Letter() (l Letter, none NoLetter) {
	if !r.Over() {
		return l, LetterNotYet
	}
	kept, round := r.Kept(), r.Current()
	l = Letter{Method: r.Method, Instrument: r.Instrument, Day: r.Last, Away: r.Ended == Away, Room: r.answers[AskRoom].answer, Done: r.lettered(kept)}
	if air, said := r.Room(); said {
		l.Air = &air
	}
	if found, ok := r.Check(); ok && r.Method == QuickCheck {
		l.Check, l.Away = &found, false
	}
	_, out := round.done[TakeOut]
	l.Out = l.Away && out && !round.strungUp(r.Method)
	if given, ok := r.answers[AskStrung]; ok && !l.Out {
		l.Strung = given.answer
	}
	for course := range r.Instrument.Kind().Courses {
		row := LetterRow{Place: Place{Course: course}, Was: r.found(kept, course), Now: r.left(course)}
		if r.Method == QuickCheck {
			row.Was = r.checked(course)
		} else if row.Was.at == row.Now.at { // read once, and nothing was done
			row.Was = LetterRead{}
		}
		if row.Was.Known || row.Now.Known {
			l.Gaps = append(l.Gaps, row)
		}
	}
	l.Neck, l.Still = r.neckRows(), r.NeckStill()
	if l.Check != nil && l.Check.Relief.OK && len(l.Neck) > 0 && l.Neck[0].Feature == Relief {
		l.Neck[0].Was = LetterRead{Known: true, Range: l.Check.Relief.Was}
	}
	l.Parted = r.parted(kept, slices.Concat(l.Gaps, l.Neck))
	if base := r.Baseline(); base != nil && r.Method.Has(Measure) && round.Wanted != nil {
		l.Wanted, l.Proven = round.Wanted, base.Proven
	}
	if len(l.Gaps) == 0 && len(l.Neck) == 0 && l.Done.Nothing() {
		return l, LetterNothing
	}
	return l, ""
}

// found is the gap of a course as it was found: by the readings of the first strings, before anything was turned.
func (r Record) found(kept []Event, course int) LetterRead {
	then := r.state
	for _, e := range kept {
		if _, turned := e.Fact.(Screwed); turned { // a trial turn takes away what was read before it
			then = standingState(r.Events[:e.Sequence-1])
			break
		}
	}
	if len(then.Rounds) == 0 {
		return LetterRead{}
	}
	here := slices.DeleteFunc(slices.Clone(then.Rounds[0].Before), func(t Taken) bool {
		return t.Read.Fret != r.Instrument.ReadFret() || t.Read.Held != r.Instrument.Held
	})
	first := slices.IndexFunc(here, func(t Taken) bool { return t.Read.String == course })
	if first < 0 {
		return LetterRead{}
	}
	then.set = here[first].set
	return then.letterRead(here, course)
}

// left is the gap of a course as the job leaves it.
func (r Record) left(course int) LetterRead {
	round := r.Current()
	taken := round.After
	if len(taken) == 0 && !round.worked() {
		taken = round.Before
	}
	return r.letterRead(taken, course)
}

// worked tells whether something was done in the round that moves the strings.
func (r Round) worked() bool {
	_, made := r.done[MakeSaddle]
	return made || r.MaterialGone() || len(r.Shims) > 0 || r.Turned != nil
}

func (s *state) letterRead(taken []Taken, course int) (read LetterRead) {
	var reads []Read
	for _, t := range s.standing(taken) {
		if t.Read.String == course {
			reads, read.at = append(reads, t.Read), t.Sequence
		}
	}
	joint, err := jointOf(reads, course)
	read.Known, read.Range = err == nil, joint
	if len(reads) == 1 {
		read.Once = &reads[0]
	}
	return read
}

// checked is what a check compares a course with: as it was last set.
func (r Record) checked(course int) LetterRead {
	set := r.Instrument.AsSet
	if set == nil {
		return LetterRead{}
	}
	var reads []Read
	for _, read := range set.Readings {
		if read.String == course && read.Fret == r.Instrument.ReadFret() && read.Held == r.Instrument.Held {
			reads = append(reads, read)
		}
	}
	joint, err := jointOf(reads, course)
	was := LetterRead{Known: err == nil, Range: joint}
	if len(reads) == 1 {
		was.Once = &reads[0]
	}
	return was
}

// neckRows lists what of the neck was read. A gap at fret 1 with the string open has something of the saddle in it: once that was worked on, what was
// read before is only what it was.
func (r Record) neckRows() []LetterRow {
	var all []LetterRow
	for _, feature := range []Feature{Relief, FirstFret, FirstPressed} {
		for course := range r.Instrument.Kind().Courses {
			row := LetterRow{Place: Place{Feature: feature, Course: course}}
			for _, t := range r.neck {
				if t.Feature == feature && t.String == course {
					row.Now.at = t.sequence
					if row.Was.at == 0 {
						row.Was.at = t.sequence
					}
				}
			}
			if row.Now.at == 0 {
				continue
			}
			now, in, err := r.surveys(feature, course, r.set)
			row.Now.Known, row.Now.Range = err == nil, now
			was, changed := r.Was(row.Place)
			if row.Was.Known = changed; changed {
				row.Was.Range = was
			}
			if row.Now.Known && feature == FirstFret && in != r.saddleState() && r.Method.Has(Measure) {
				if !changed {
					row.Was = row.Now
				}
				row.Now = LetterRead{}
			}
			if row.Was.Known || row.Now.Known {
				all = append(all, row)
			}
		}
	}
	return all
}

// parted tells whether strings or tuning were changed between what a row was and what it is.
func (r Record) parted(kept []Event, rows []LetterRow) bool {
	return r.Method != QuickCheck && slices.ContainsFunc(kept, func(e Event) bool {
		switch f := e.Fact.(type) {
		case Strung:
		case Answered:
			if f.Question != AskStrung || f.Answer != StrungOther && f.Answer != StrungUnsure {
				return false
			}
		default:
			return false
		}
		return slices.ContainsFunc(rows, func(row LetterRow) bool {
			return row.Was.Known && row.Now.Known && row.Was.at < e.Sequence && e.Sequence < row.Now.at
		})
	})
}

// lettered adds up what was done.
func (r Record) lettered(kept []Event) (w LetterWork) {
	for _, round := range r.Rounds {
		if round.worked() {
			w.Rounds++
		}
		if round.MaterialGone() {
			w.Sanded, w.Smoothed = true, w.Smoothed || round.Smoothed
			for side, off := range round.removed() {
				w.Off[side] = w.Off[side].Plus(off)
			}
		}
		_, made := round.done[MakeSaddle]
		w.Laid, w.Made = append(w.Laid, round.Shims...), w.Made || made
	}
	for _, e := range kept {
		switch f := e.Fact.(type) {
		case Screwed:
			if w.Turned == nil {
				w.Turned = make([]int, len(f.Eighths))
			}
			for n, eighths := range f.Eighths {
				w.Turned[n] += eighths
			}
		case Filed:
			w.Filed = append(w.Filed, f.String)
		case Adjusted:
			w.Relief, w.Nut = w.Relief || f.Feature == Relief, w.Nut || f.Feature == FirstFret
			w.Rod += f.Eighths
		}
	}
	slices.Sort(w.Filed)
	w.Filed = slices.Compact(w.Filed)
	return w
}
