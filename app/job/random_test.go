package job

import (
	"encoding/json"
	"errors"
	"fmt"
	"math/rand/v2"
	"reflect"
	"testing"
	"time"

	"gapwright/geometry"
)

// A randomizer makes facts, likely and unlikely ones, with lengths that are good, borderline and garbage.
type randomizer struct{ *rand.Rand }

func newRandomizer(seed, stream uint64) randomizer {
	return randomizer{rand.New(rand.NewPCG(seed, stream))}
}

func pick[T any](r randomizer, from ...T) T { return from[r.IntN(len(from))] }

var garbage = []string{"", " ", "abc", "-1", "1e3", "NaN", "0x1p3", "25", "1/0", "2,25", "5/64", "0", "99999999999", "٣", "2.2.2", "15.1", "\"", "1 3/4 in"}

func (r randomizer) length(low, high float64) Typed {
	if r.IntN(12) == 0 {
		return Typed{pick(r, garbage...), pick(r, MM, Inch, Unit("cubit"), "")}
	}
	l := geometry.Length(low + r.Float64()*(high-low))
	if r.IntN(2) == 0 {
		return Write(l, Inch, geometry.Thousandth)
	}
	return Write(l, MM, geometry.Millimetre/100)
}

func (r randomizer) maybe(low, high float64) Typed {
	if r.IntN(2) == 0 {
		return Typed{}
	}
	return r.length(low, high)
}

func (r randomizer) kit() Kit {
	kit := Kit{Unit: pick(r, MM, Inch), Marks: pick(r, append(AllMarks(), "", "fathom")...), Zero: pick(r, append(Zeros(), "", "nowhere")...),
		Caliper: pick(r, Yes, No, NotAsked), Grit: pick(r, 0, 80, 120, 220, 400, -5)}
	if kit.Zero == ZeroInside || kit.Zero == ZeroCutOff || r.IntN(9) == 0 {
		kit.ZeroDist = r.maybe(0, 6)
	}
	return kit
}

func (r randomizer) instrument() Instrument {
	i := Instrument{ID: pick(r, "i", "i", "i", "k"), Name: pick(r, "", "a"), Family: pick(r, geometry.FlatTop6, geometry.FlatTop6, geometry.Nylon,
		geometry.UkuleleSmall, geometry.Mandolin, "lyre"), Scale: r.maybe(300, 700), Fret: pick(r, 0, 0, 12, 14, 17, -1, 40), Held: pick(r, 0, 0, 1, 3, 12)}
	if r.IntN(4) == 0 {
		i.Setback, i.Saddle, i.Spread = r.maybe(0, 3), r.maybe(60, 90), r.maybe(35, 60)
	}
	if r.IntN(3) == 0 {
		i.Body, i.Frets, i.Radius = pick(r, 0, 12, 14, 5, 37, -1), pick(r, 0, 18, 20, 24, 12, 40), r.maybe(40, 500)
	}
	for range pick(r, 0, 0, 1, 2) { // usual of it, within reason or not
		fields := pick(r, WontParts()...).Fields()
		i = i.WithWont(pick(r, fields...), r.maybe(pick(r, 0.1, 1.6), pick(r, 1.0, 3.0)))
	}
	if r.IntN(3) == 0 {
		i.Set = &Stringing{Capo: pick(r, 0, 0, 2, 12, 13)}
		if r.IntN(2) == 0 {
			for range i.Kind().Courses * i.Kind().PerCourse {
				i.Set.Gauges = append(i.Set.Gauges, Gauge{Make: pick(r, PlainSteel, WoundSteel, MakeUnknown), Diameter: r.maybe(0.2, 1.4),
					Weight: pick(r, "", "", "0.6", "5,47", "heavy")})
			}
		}
	}
	return i
}

// survey is a reading of relief or first gap: usual, out, or nonsense.
func (r randomizer) survey(record Record) Surveyed {
	i := record.Instrument
	held, fret, to := i.ReliefPlace()
	f := Surveyed{Feature: Relief, Read: Read{String: pick(r, 0, i.Last(), 1, 9), Fret: fret, Held: held, Way: ByFeeler, Replaces: r.IntN(2) == 0}, To: to}
	low := geometry.Length(pick(r, 0, 0.15, 0.15, 0.4, 0.8) + 0.1*r.Float64())
	if r.IntN(2) == 0 {
		f.Feature, f.Fret, f.Held, f.To = FirstFret, 1, 0, 0
		low += pick[geometry.Length](r, 0, 0.3)
	}
	f.Low, f.High = Write(low, MM, 0.01), Write(low+0.05, MM, 0.01)
	switch r.IntN(20) {
	case 0:
		f.Low = Typed{} // not even the thinnest went in
	case 1:
		f.Way = pick(r, append(Ways(), "eye")...)
	case 2:
		f.Feature, f.Fret, f.Held, f.To = pick(r, Relief, FirstFret, "varnish"), r.IntN(22), r.IntN(22)-1, r.IntN(22)
	case 3:
		f.Low = r.length(0, 3)
	}
	return f
}

// gap is a reading in the usual places, mostly.
func (r randomizer) reading(record Record) Read {
	gap := 1.2 + 2.5*r.Float64()
	read := Read{String: pick(r, 0, record.Instrument.Last(), record.Instrument.Last(), 2, -1, 9), Fret: record.Instrument.ReadFret(),
		Held: record.Instrument.Held, Way: pick(r, append(Ways(), ByMarks, ByCaliper, "eye")...), Low: r.length(gap, gap), High: r.length(gap+0.1, gap+0.5),
		Replaces: r.IntN(3) == 0}
	if r.IntN(5) > 0 {
		read.String = pick(r, 0, record.Instrument.Last())
	}
	if r.IntN(15) == 0 {
		read.Fret = r.IntN(20)
	}
	if read.Way == ByCards {
		read.Count, read.TenThick = r.IntN(12)-1, r.length(2, 4)
	}
	if read.Way == ByMarks && r.IntN(3) == 0 {
		read.End, read.EndGive, read.EndCut = r.maybe(0, 3), r.maybe(0, 0.3), r.IntN(2) == 0
	}
	return read
}

// anything is any fact at all.
func (r randomizer) anything(record Record) Fact {
	switch r.IntN(25) {
	case 0:
		return Equipped{r.kit()}
	case 1:
		return Described{r.instrument()}
	case 2, 3:
		q := pick(r, append(Questions(), "weather")...)
		return Answered{q, pick(r, append(q.Answers(), "maybe")...)}
	case 4, 5:
		return r.reading(record)
	case 6:
		return Strung{pick(r, "", "light"), pick(r, "", "open D")}
	case 7:
		return Stood{pick(r, 0, 1, 2), r.maybe(2, 5), r.maybe(0, 0.5), r.maybe(5, 30), r.maybe(1, 8)}
	case 8:
		return Chosen{Bass: r.length(1, 3), Treble: r.length(1, 3), Own: r.IntN(2) == 0, For: pick(r, "", MixedPlayer, OwnPlayer, "dance")}
	case 9, 10:
		return Did{pick(r, append(Steps(SandUnderside), Finished, "dance")...)}
	case 11:
		return Skipped{pick(r, append(Steps(SandUnderside), "dance")...)}
	case 12:
		h := 8 - r.Float64()
		return Checked{pick(r, 0, 0, 5, 20, -1, 100000), r.length(h, h+0.2), r.length(h, h+0.2), r.maybe(0.01, 0.1), r.IntN(3) == 0}
	case 13:
		return Looked{pick(r, 0, 5, 20, -1), pick(r, append(Lines(), "blue")...), pick(r, Lines()...), pick(r, Lines()...)}
	case 14:
		return Judged{pick(r, append(Outcomes(), "perfect")...)}
	case 15:
		return Shimmed{r.maybe(0, 1), r.maybe(0, 6)}
	case 16:
		return pick[Fact](r, Noted{"n"}, Saved{}, nil, &Saved{}, Began{Method: SandUnderside, Instrument: r.instrument(), Kit: r.kit()})
	case 17:
		if r.IntN(6) == 0 {
			return PutAway{}
		}
		return Saved{}
	case 18:
		return r.survey(record)
	case 19:
		return Listened{pick(r, 0, record.Instrument.Last(), 3, 7), pick(r, 0, 3, 12, 18, 30, -1), r.IntN(2) == 0, r.IntN(4) == 0}
	case 20:
		return Adjusted{pick(r, append(Features(), "varnish")...), pick(r, 0, 1, -2, 9, -9)}
	case 22:
		return Aired{pick(r, 0, 1, 45, 100, 101, -4), pick(r, "", "", "21", "70", "-5,5", "hot"), pick(r, Celsius, Fahrenheit, "", "K")}
	case 21:
		return LeftAlone{pick(r, append(Features(), "varnish")...)}
	}
	sequence, _, _ := record.Undoable()
	return Undone{pick(r, sequence, sequence, sequence, r.IntN(len(record.Events)+3)-1)}
}

func (r randomizer) caliper(record Record, course int, gap geometry.Length) Read {
	return Read{String: course, Fret: record.Instrument.ReadFret(), Held: record.Instrument.Held, Way: ByCaliper,
		Low: Write(gap, MM, geometry.Millimetre/100), Replaces: true}
}

// onward is a fact that a person who does the work would add now.
func (r randomizer) onward(record Record) Fact {
	step := record.Step()
	if q, asks := record.Method.Asks(step); asks {
		if a, ok := record.Answer(q); !ok || q.Stops(a) {
			return Answered{q, q.Answers()[0]}
		}
	}
	last := record.Instrument.Last()
	caliper := func(course int, gap geometry.Length) Read { return r.caliper(record, course, gap) }
	switch step {
	case Measure:
		course := pick(r, 0, last)
		if record.measured(record.Current().Before) {
			return pick[Fact](r, Did{Measure}, Did{Measure}, r.survey(record), Listened{String: course, Stop: r.IntN(8), Buzzed: r.IntN(3) == 0})
		}
		return caliper(course, record.Instrument.Floor(course, false)+geometry.Length(0.3+r.Float64()))
	case Diagnose:
		found, _ := record.NeckOut()
		feature, _ := FeatureOf(found.Part)
		turned := Adjusted{Feature: feature}
		if feature == Relief {
			turned.Eighths = pick(r, 0, 1, 2, -1)
		}
		return pick[Fact](r, LeftAlone{feature}, turned)
	case Choose:
		own := r.IntN(2) == 0
		wish := func(course int) Typed {
			may, _ := record.MayWish(course, own)
			return Write(min(may.Low+0.02, may.High), MM, geometry.Millimetre/100)
		}
		return Chosen{Bass: wish(0), Treble: wish(last), Own: own}
	case MakePlan:
		if p, err := record.Plan(); err == nil && p.Outcome == PlanGo {
			return Did{MakePlan}
		}
		return pick[Fact](r, Judged{Keep}, caliper(0, record.Instrument.Floor(0, false)+1), caliper(last, record.Instrument.Floor(last, false)+1))
	case Sand:
		c, _ := record.Coach()
		switch heights, _ := record.Current().heights(); {
		case c.ByCaliper && !c.Ready:
			if record.Current().MaterialGone() {
				return Did{Sand}
			}
			return Checked{Bass: Typed{"30.00", MM}, Treble: Typed{"29.50", MM}} // tall, so that no plan is deeper
		case c.Strokes == 0 || r.IntN(4) == 0:
			return Did{Sand}
		case c.ByCaliper:
			h := heights[len(heights)-1]
			return Checked{Strokes: c.Strokes, Bass: Write(h.Bass-0.1, MM, 0.01), Treble: Write(h.Treble-0.1, MM, 0.01)}
		}
		return Looked{c.Strokes, pick(r, Clear, Touched), pick(r, Clear, Touched), pick(r, Clear, Touched)}
	case MeasureAgain:
		if record.measured(record.Current().After) {
			return Judged{pick(r, Outcomes()...)}
		}
		course := pick(r, 0, last)
		return pick[Fact](r, caliper(course, record.Instrument.Floor(course, false)+geometry.Length(r.Float64())),
			caliper(course, record.Instrument.Floor(course, false)+geometry.Length(r.Float64())), r.survey(record))
	case Save:
		return Saved{}
	}
	if step.MaySkip() && r.IntN(2) == 0 {
		return Skipped{step}
	}
	return Did{step}
}

// walk builds a record of random facts, refused ones left out, and calls each for every try with the record before and after.
func walk(t *testing.T, seed uint64, length int, wild int, each func(before, after Record, e Event, err error)) Record {
	r := newRandomizer(seed, 7)
	record, err := Record{}.Apply(Event{Job: "j", Sequence: 1, Writer: "w", At: noon, Fact: Began{Method: SandUnderside,
		Instrument: Instrument{ID: "i", Family: geometry.FlatTop6}, Kit: Kit{Unit: MM, Marks: EveryQuarter, Zero: ZeroAtEnd}}})
	if err != nil {
		t.Fatal(err)
	}
	now := noon
	for range length {
		now = now.Add(pick(r, time.Second, time.Minute, time.Hour, time.Minute, -time.Hour))
		if r.IntN(60) == 0 {
			now = now.Add(pick(r, 30*time.Hour, -30*time.Hour))
		}
		fact := r.onward(record)
		if r.IntN(100) < wild {
			fact = r.anything(record)
		}
		e := Event{Job: "j", Sequence: len(record.Events) + 1, Writer: "w", At: now, Fact: fact}
		if r.IntN(100) == 0 {
			e.Sequence += pick(r, -1, 1)
		}
		next, err := record.Apply(e)
		each(record, next, e, err)
		record = next
	}
	return record
}

// printed is everything that a record says, apart from its events: what must not change and what must come out the same.
func printed(r Record) string {
	r.Events, r.state = nil, r.state.clone()
	text := ""
	if r.Instrument.Set != nil {
		text += fmt.Sprintf(" %+v", *r.Instrument.Set)
	}
	r.Instrument.Set = nil
	if r.Instrument.AsSet != nil {
		data, _ := json.Marshal(r.Instrument.AsSet)
		text += string(data)
	}
	r.Instrument.AsSet = nil
	for i, s := range r.Stands {
		if s != nil {
			text += fmt.Sprintf(" %+v", *s)
		}
		r.Stands[i] = nil
	}
	for i, round := range r.Rounds {
		if round.Wanted != nil {
			text += fmt.Sprintf(" %+v", *round.Wanted)
		}
		r.Rounds[i].Wanted = nil
	}
	return fmt.Sprintf("%s %+v", r.ID, r.state) + text
}

const walks = 150

func TestAnyOrderOfFactsGivesARecordOrATypedRefusal(t *testing.T) {
	kinds := map[RefusalKind]int{}
	steps := map[Step]int{}
	for seed := range uint64(walks) {
		walk(t, seed, 120, int(seed%4)*30+5, func(before, after Record, e Event, err error) {
			steps[before.Step()]++
			if err == nil {
				if len(after.Events) != len(before.Events)+1 {
					t.Fatalf("seed %d: %T was taken and %d events became %d", seed, e.Fact, len(before.Events), len(after.Events))
				}
				return
			}
			var refusal *Refusal
			if !errors.As(err, &refusal) {
				t.Fatalf("seed %d: %T gives %v, not a refusal", seed, e.Fact, err)
			}
			kinds[refusal.Kind]++
			if !reflect.DeepEqual(before, after) {
				t.Fatalf("seed %d: a refused %T changed the record", seed, e.Fact)
			}
		})
	}
	for _, s := range append(Steps(SandUnderside), Finished) {
		if steps[s] == 0 {
			t.Errorf("no walk came to %s", s)
		}
	}
	t.Logf("refusals %v", kinds)
	t.Logf("steps %v", steps)
}

// The whole record is looked at before and after each fact: neither a taken nor a refused one may change what was passed in.
func TestApplyChangesNothingThatWasPassedIn(t *testing.T) {
	for seed := range uint64(walks / 3) {
		var kept []Record
		var was []string
		walk(t, seed, 80, 30, func(before, after Record, e Event, err error) {
			kept, was = append(kept, before), append(was, printed(before))
		})
		for i, r := range kept {
			if now := printed(r); now != was[i] {
				t.Fatalf("seed %d: record %d changed after it was left:\n%s\n%s", seed, i, was[i], now)
			}
		}
	}
}

// Two records that part from one never touch each other, though they share its events.
func TestRecordsThatPartDoNotTouch(t *testing.T) {
	r := walk(t, 3, 20, 0, func(Record, Record, Event, error) {})
	note := func(text string) Record {
		next, err := r.Apply(Event{Job: "j", Sequence: len(r.Events) + 1, Writer: "w", At: noon, Fact: Noted{text}})
		if err != nil {
			t.Fatal(err)
		}
		return next
	}
	one, two := note("one"), note("two")
	if one.Notes[len(one.Notes)-1] != "one" || one.Events[len(one.Events)-1].Fact != (Noted{"one"}) || two.Notes[len(two.Notes)-1] != "two" {
		t.Errorf("%v and %v", one.Notes, two.Notes)
	}
}

func TestReplayFromDocumentsEqualsTheRecord(t *testing.T) {
	for seed := range uint64(walks) {
		r := walk(t, seed, 80, 25, func(Record, Record, Event, error) {})
		data, err := json.Marshal(r.Events)
		if err != nil {
			t.Fatal(err)
		}
		var events []Event
		if err := json.Unmarshal(data, &events); err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		again, err := Replay(events)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		if printed(again) != printed(r) || !reflect.DeepEqual(again, r) {
			t.Fatalf("seed %d: read again from documents:\n%s\n%s", seed, printed(again), printed(r))
		}
	}
}

// After undo everything but the time of the last fact is what it was before the fact that was taken back; and no undo brings material back.
func TestUndoIsNeverHavingDoneItAndNeverBringsMaterialBack(t *testing.T) {
	undone := 0
	for seed := range uint64(walks) {
		states := map[int]Record{0: {}} // by how many facts there were
		walk(t, seed, 120, 25, func(before, after Record, e Event, err error) {
			states[len(before.Events)] = before
			u, ok := e.Fact.(Undone)
			if err != nil || !ok {
				if err == nil && before.Current().MaterialGone() && after.Current().Number == before.Current().Number && !after.Current().MaterialGone() {
					t.Fatalf("seed %d: %T brought material back", seed, e.Fact)
				}
				return
			}
			undone++
			was := states[u.Sequence-1]
			was.Last, after.Last = time.Time{}, time.Time{}
			if printed(was) != printed(after) {
				t.Fatalf("seed %d: after undo of %d:\n%s\n%s", seed, u.Sequence, printed(was), printed(after))
			}
			if before.Current().MaterialGone() && before.Current().Number == after.Current().Number && !after.Current().MaterialGone() {
				t.Fatalf("seed %d: undo of %T brought material back", seed, before.Events[u.Sequence-1].Fact)
			}
			if before.Current().Number == after.Current().Number && before.Current().Strokes() > after.Current().Strokes() {
				t.Fatalf("seed %d: undo took back strokes", seed)
			}
		})
	}
	if undone < 100 {
		t.Errorf("only %d undone", undone)
	}
}

// Wherever a person has come to, the work can be finished.
func TestNobodyGetsStuck(t *testing.T) {
	for seed := range uint64(walks) {
		for _, length := range []int{10, 40, 90} {
			r := walk(t, seed, length, 60, func(Record, Record, Event, error) {})
			if r.Ended == Away {
				sequence, _, ok := r.Undoable()
				next, err := r.Apply(Event{Job: "j", Sequence: len(r.Events) + 1, Writer: "w", At: r.Last, Fact: Undone{sequence}})
				if !ok || err != nil {
					t.Fatalf("seed %d: put away for ever: %v", seed, err)
				}
				r = next
			}
			hand := newRandomizer(seed, 9)
			var stuck []string
			for range 300 {
				if r.Step() == Finished {
					break
				}
				fact, now := hand.onward(r), r.Last.Add(time.Second)
				switch {
				case r.StepAt(now) == Measure && r.Step() != Measure, r.Step() == MeasureAgain && r.StaleAfter(now): // too old
					fact = hand.caliper(r, 0, r.Instrument.Floor(0, false)+0.8)
				case r.Step() == MeasureAgain && r.measured(r.Current().After):
					fact = Judged{Keep}
				}
				next, err := r.Apply(Event{Job: "j", Sequence: len(r.Events) + 1, Writer: "w", At: now, Fact: fact})
				if err != nil {
					stuck = append(stuck, fmt.Sprintf("%s: %+v: %v", r.Step(), fact, err))
				}
				r = next
			}
			if r.Step() != Finished {
				t.Fatalf("seed %d, %d facts: still at %s: %v", seed, length, r.Step(), stuck[max(0, len(stuck)-3):])
			}
		}
	}
}
