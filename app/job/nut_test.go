package job

import (
	"encoding/json"
	"errors"
	"math"
	"reflect"
	"slices"
	"testing"
	"time"

	"gapwright/geometry"
)

// begunBy is a job of a method that has passed its first question.
func begunBy(t *testing.T, m Method, i Instrument, kit Kit) Record {
	t.Helper()
	q, _ := m.Asks(BeforeYouStart)
	return told(t, Record{}, Began{Method: m, Instrument: i, Kit: kit}, Answered{q, q.Answers()[0]})
}

// told gives a record facts, a minute apart, none of which may be refused.
func told(t *testing.T, r Record, facts ...Fact) Record {
	t.Helper()
	for _, f := range facts {
		at := noon
		if len(r.Events) > 0 {
			at = r.Last.Add(time.Minute)
		}
		next, err := r.Apply(Event{Job: "j", Sequence: len(r.Events) + 1, Writer: "w", At: at, Fact: f})
		if err != nil {
			t.Fatalf("%+v: %v", f, err)
		}
		r = next
	}
	return r
}

// feelers is a reading of a place of the neck between two leaves.
func feelers(i Instrument, p Place, low, high geometry.Length, unit Unit) Surveyed {
	s := i.Survey(p)
	s.Way, s.Low, s.High, s.Replaces = ByFeeler, Write(low, unit, 1e-4), Write(high, unit, 1e-4), true
	return s
}

// Whatever is read, in whatever way and unit: a slot that is filed to the stop and polished leaves the gap at or over what is wanted and over the least
// that is usual, with the reading at its low end; the first filing goes at most half-way; and going on like that ends.
func TestNoSlotIsFiledTooDeep(t *testing.T) {
	r := newRandomizer(4, 1)
	filings := 0
	for _, f := range geometry.Families() {
		for range 40 {
			i := Instrument{ID: "i", Family: f.ID, Saddle: Typed{"90", MM}, Scale: Write(f.Scale+geometry.Length(40*r.Float64()-20), MM, 0.1)}
			unit := pick(r, MM, Inch)
			rec := begunBy(t, NutSlots, i, Kit{Unit: unit})
			course, way := r.IntN(f.Courses), pick(r, FirstFret, FirstPressed)
			depth := 1.0594630943592953 // 2^(1/12): d1 = L (1 - 2^(-1/12)), 1/(1 - d1/L)
			if way == FirstPressed {
				depth = 2.0594630943592953 // d2/(d2 - d1) = (1 - 2^(-1/6))/(2^(-1/12) - 2^(-1/6)) = 1 + 2^(1/12)
			}
			usual := i.UsualFirst(way, course)
			truth := usual.Low + geometry.Length(r.Float64())*0.6
			for n := 0; ; n++ {
				width := geometry.Length(pick(r, 0.05, 0.05, 0.1))
				low := max(0, truth-geometry.Length(r.Float64())*width) // the truth is somewhere in the reading
				rec = told(t, rec, feelers(i, Place{way, course}, low, low+width, unit))
				s := rec.NutSlot(course, pick(r, 0, 0, -3, 5))
				if s.State != SlotHigh {
					break
				}
				if n > 12 {
					t.Fatalf("%s: filed %d times and not there: %+v", f.ID, n, s)
				}
				filings++
				off := (s.Stop + 0.03) / geometry.Length(depth)
				if left := s.Read.Low - off; left < s.Wanted-2e-3 || left < usual.Low-2e-3 || math.Abs(float64(left-s.Leaves.Low)) > 1e-3 {
					t.Fatalf("%s, %s: %+v leaves %.4f, usual %+v", f.ID, way, s, left, usual)
				}
				if half := max(0.05, (s.Read.Low-s.Wanted)*geometry.Length(depth)/2); n == 0 && s.Stop > half+1e-9 { // the least that is halved
					t.Fatalf("%s: the first filing %.4f is more than half of the way, %.4f", f.ID, s.Stop, half)
				}
				truth -= (s.Stop + geometry.Length(r.Float64())*0.03) / geometry.Length(depth)
				rec = told(t, rec, rec.FileSlot(s))
				if got := rec.NutSlot(course, 0); got.State != SlotAgain || rec.SlotsRead() {
					t.Fatalf("%s: after filing %+v", f.ID, got)
				}
			}
			if truth < usual.Low-2e-3 {
				t.Fatalf("%s, %s: ended at %.4f, under %.4f", f.ID, way, truth, usual.Low)
			}
		}
	}
	if filings < 300 {
		t.Errorf("only %d filings", filings)
	}
}

// The two readings at fret 1 are different things: a pressed one changes nothing that rests on an open one, and the other way round.
func TestOpenAndPressedAreNeverMixed(t *testing.T) {
	i := Instrument{ID: "i", Family: geometry.FlatTop6}
	gap := func(course int, low, high string) Read {
		return Read{String: course, Fret: 12, Way: ByFeeler, Low: Typed{low, MM}, High: Typed{high, MM}}
	}
	r := told(t, begunBy(t, SandUnderside, i, Kit{Unit: MM}), gap(0, "2.40", "2.45"), gap(5, "1.90", "1.95"))
	path, measured, err := r.Path(0, false)
	if err != nil || measured.First {
		t.Fatal(measured, err)
	}
	r = told(t, r, feelers(i, Place{FirstPressed, 0}, 0.9, 0.95, MM))
	again, measured, err := r.Path(0, false)
	if err != nil || measured.First || !reflect.DeepEqual(again, path) {
		t.Errorf("a pressed reading of 0.90 to 0.95 changes the open string's path: %+v, %v", measured, err)
	}
	if _, out := r.NeckOut(); out {
		t.Error("a pressed reading of 0.90 to 0.95 is taken for an open one that is out")
	}
	n := told(t, begunBy(t, NutSlots, i, Kit{Unit: MM}), feelers(i, Place{FirstPressed, 0}, 0.15, 0.2, MM), feelers(i, Place{FirstFret, 0}, 0.55, 0.6, MM))
	if s := n.NutSlot(0, 0); s.Feature != FirstFret || s.Read.Low != 0.55 || s.Read.High != 0.6 {
		t.Errorf("read open last: %+v", s)
	}
	n = told(t, n, feelers(i, Place{FirstPressed, 0}, 0.16, 0.21, MM))
	if s := n.NutSlot(0, 0); s.Feature != FirstPressed || s.Read.Low != 0.16 || s.Read.High != 0.21 {
		t.Errorf("read pressed last: %+v", s)
	}
}

// What a job on the neck leaves on an instrument: the gaps as they were set, marked as moved where anything was changed; nothing where there was nothing.
func TestWhatAJobOnTheNeckLeaves(t *testing.T) {
	i := Instrument{ID: "i", Family: geometry.FlatTop6}
	kit := Kit{Unit: MM}
	relief, open := Place{Relief, 0}, Place{FirstFret, 0}
	before := &AsSet{Job: "earlier", At: noon, Proven: true, Readings: []Read{{Fret: 12, Way: ByFeeler, Low: Typed{"2.40", MM}, High: Typed{"2.45", MM}}},
		Neck: []Surveyed{feelers(i, relief, 0.2, 0.25, MM), feelers(i, open, 0.8, 0.85, MM), feelers(i, Place{FirstFret, 5}, 0.4, 0.45, MM)},
		Rod:  []RodTurn{{1, feelers(i, relief, 0.3, 0.35, MM), feelers(i, relief, 0.2, 0.25, MM)}}}
	set := i
	set.AsSet = before
	nut := func(i Instrument) Record {
		r := begunBy(t, NutSlots, i, kit)
		return told(t, r, feelers(i, open, 0.8, 0.85, MM))
	}
	for name, c := range map[string]struct {
		r     Record
		none  bool
		moved bool
		neck  int
		rod   int
	}{
		"nothing is invented":      {r: told(t, nut(i), Did{FixNut}, Saved{}), none: true},
		"read only":                {r: told(t, nut(set), Did{FixNut}, Saved{}), neck: 3, rod: 1},
		"filed":                    {r: told(t, nut(set), Filed{String: 0}, feelers(i, open, 0.6, 0.65, MM), Did{FixNut}, Saved{}), moved: true, neck: 3, rod: 1},
		"relief read only":         {r: told(t, begunBy(t, SetRelief, set, kit), feelers(i, relief, 0.2, 0.25, MM), Did{FixRelief}, Saved{}), neck: 3, rod: 1},
		"turned: fret 1 moved too": {r: told(t, begunBy(t, SetRelief, set, kit), feelers(i, relief, 0.4, 0.45, MM), Adjusted{Relief, 2}, feelers(i, relief, 0.2, 0.25, MM), Did{FixRelief}, Saved{}), moved: true, neck: 1, rod: 2},
		"not saved, nothing of it": {r: told(t, nut(set), PutAway{}), none: true},
		"pressed beside the open":  {r: told(t, begunBy(t, NutSlots, set, kit), feelers(i, Place{FirstPressed, 0}, 0.2, 0.25, MM), Did{FixNut}, Saved{}), neck: 4, rod: 1},
		"filed by another's reading": {r: told(t, begunBy(t, NutSlots, set, kit), feelers(i, Place{FirstPressed, 0}, 0.3, 0.35, MM), Filed{String: 0},
			feelers(i, Place{FirstPressed, 0}, 0.2, 0.25, MM), Did{FixNut}, Saved{}), moved: true, neck: 3, rod: 1},
	} {
		base := c.r.Baseline()
		if c.none != (base == nil) {
			t.Errorf("%s: %+v", name, base)
		}
		if base == nil {
			continue
		}
		if base.Moved != c.moved || len(base.Neck) != c.neck || len(base.Rod) != c.rod || !reflect.DeepEqual(base.Readings, before.Readings) || base.Job != "earlier" || !base.At.Equal(noon) {
			t.Errorf("%s: %+v", name, base)
		}
	}
	if before.Moved || len(before.Neck) != 3 || len(before.Rod) != 1 {
		t.Error("the old baseline itself was changed")
	}
}

// Where the instrument's last gaps are known, a slot that would take fret 12 under its floor says so.
func TestASlotKnowsTheFloorAtFretTwelve(t *testing.T) {
	for low, under := range map[string]bool{"2.04": true, "2.08": false} { // the floor is 2.00; 0.12 of depth at the most takes 0.06
		i := Instrument{ID: "i", Family: geometry.FlatTop6, AsSet: &AsSet{Readings: []Read{{Fret: 12, Way: ByFeeler, Low: Typed{low, MM}, High: Typed{"2.10", MM}}}}}
		r := told(t, begunBy(t, NutSlots, i, Kit{Unit: MM}), feelers(i, Place{FirstFret, 0}, 0.8, 0.8001, MM))
		if s := r.NutSlot(0, 0); s.Stop != 0.09 || s.Under != under {
			t.Errorf("last set at %s: %+v", low, s)
		}
		i.AsSet.Moved = true // then nothing is known of it
		r = told(t, begunBy(t, NutSlots, i, Kit{Unit: MM}), feelers(i, Place{FirstFret, 0}, 0.8, 0.8001, MM))
		if s := r.NutSlot(0, 0); s.Under {
			t.Errorf("moved since: %+v", s)
		}
	}
}

// Under a saddle that stands high the open gap is large over a slot that is low already: the path to the last known gap at fret 12 stops it sooner.
func TestAHighSaddleHidesALowSlot(t *testing.T) {
	i := Instrument{ID: "i", Family: geometry.FlatTop6, AsSet: &AsSet{Readings: []Read{{Fret: 12, Way: ByFeeler, Low: Typed{"5.00", MM}, High: Typed{"5.05", MM}}}}}
	r := told(t, begunBy(t, NutSlots, i, Kit{Unit: MM}), feelers(i, Place{FirstFret, 0}, 0.8, 0.8001, MM))
	// Relief 0.30 at the most: fret 12 lies 0.11696 and fret 2 0.11399 under the chord. Nut 0.80 - 36.36945 x (5.05 - 0.11696 - 0.80)/287.63055 = 0.27739; pressed
	// over fret 1 0.27739/2.059463 - 0.11399 x 36.36945/70.69763 = 0.07605. So (0.07605 - 0.03) x 2.059463 - 0.03 = 0.06484, half of it at first, instead of 0.09.
	if s := r.NutSlot(0, 0); s.State != SlotHigh || s.Stop != 0.03 {
		t.Errorf("%+v", s)
	}
}

// The advice for the rod never takes the relief past what is usual, at the most that an eighth was seen to do, and never past half a turn in a day.
func TestTurnsAreAdvisedOnTheSafeSide(t *testing.T) {
	r := newRandomizer(11, 2)
	more := 0
	for range 400 {
		i := Instrument{ID: "i", Family: geometry.FlatTop6}
		each := geometry.Length(0.02 + 0.1*r.Float64()) // what an eighth really does
		if r.IntN(5) == 0 {
			each = -each // a rod that turns the other way
		}
		truth := geometry.Length(pick(r, 0.35, -0.3) + 0.6*r.Float64())
		rec := begunBy(t, SetRelief, i, Kit{Unit: MM})
		for range 6 {
			low := max(0.0001, truth/1.0025-geometry.Length(r.Float64())*0.04)
			if truth < 0 {
				break
			}
			rec = told(t, rec, feelers(i, Place{Relief, 0}, low, low+0.05, MM))
			now := rec.Last.Add(time.Minute)
			n := rec.TurnAdvised(now)
			looser, tighter := rec.TurnsLeft(now)
			if n < looser || n > tighter || n < -4 || n > 4 {
				t.Fatalf("%d advised of %d to %d", n, looser, tighter)
			}
			f, _ := rec.ReliefFound()
			change, known := rec.PerEighth()
			if max(n, -n) > 1 {
				more++
				after := f.Read.Plus(change.Times(float64(n)))
				if !known || f.Standing == geometry.Above && after.Low < f.Usual.Low-1e-6 || f.Standing == geometry.Below && after.High > f.Usual.High+1e-6 {
					t.Fatalf("%d advised, relief %+v, an eighth %+v", n, f.Read, change)
				}
			}
			if n == 0 {
				break
			}
			rec = told(t, rec, Adjusted{Relief, n})
			truth -= each * geometry.Length(n)
		}
	}
	if more < 20 {
		t.Errorf("more than one eighth was advised only %d times", more)
	}
	rec := told(t, begunBy(t, SetRelief, Instrument{ID: "i", Family: geometry.FlatTop6}, Kit{Unit: MM}), Adjusted{Relief, 3}, Adjusted{Relief, 1})
	if looser, tighter := rec.TurnsLeft(rec.Last); looser != -4 || tighter != 0 {
		t.Errorf("after half a turn: %d to %d", looser, tighter)
	}
	if looser, tighter := rec.TurnsLeft(rec.Last.Add(25 * time.Hour)); looser != -4 || tighter != 4 {
		t.Errorf("a day later: %d to %d", looser, tighter)
	}
}

// Any order of facts, in both methods: a record or a typed refusal, the same read again from its document, undo as if it had never been, no slot given
// back, and always a way to the end.
func TestAnyOrderOfFactsOnTheNeck(t *testing.T) {
	for _, m := range []Method{NutSlots, SetRelief} {
		seen := map[Step]int{}
		for seed := range uint64(120) {
			r := newRandomizer(seed, 21)
			rec, err := Record{}.Apply(Event{Job: "j", Sequence: 1, Writer: "w", At: noon, Fact: Began{Method: m, Instrument: Instrument{ID: "i", Family: geometry.FlatTop6}, Kit: Kit{Unit: MM}}})
			if err != nil {
				t.Fatal(err)
			}
			states := map[int]Record{}
			at := noon
			try := func(f Fact) {
				at = at.Add(pick(r, time.Minute, time.Hour, -time.Minute))
				next, err := rec.Apply(Event{Job: "j", Sequence: len(rec.Events) + 1, Writer: "w", At: at, Fact: f})
				var refusal *Refusal
				if err != nil && !errors.As(err, &refusal) {
					t.Fatalf("%s, seed %d: %T gives %v", m, seed, f, err)
				}
				states[len(rec.Events)] = rec
				if u, ok := f.(Undone); ok && err == nil {
					if filed, is := rec.Events[u.Sequence-1].Fact.(Filed); is {
						t.Fatalf("%s, seed %d: a slot was given back: %+v", m, seed, filed)
					}
					was := states[u.Sequence-1]
					was.Last = time.Time{}
					after := next
					after.Last = time.Time{}
					if printed(was) != printed(after) {
						t.Fatalf("%s, seed %d: after undo of %d:\n%s\n%s", m, seed, u.Sequence, printed(was), printed(after))
					}
				}
				rec = next
			}
			onward := func() Fact {
				if q, asks := m.Asks(rec.Step()); asks {
					return Answered{q, q.Answers()[0]}
				}
				i := rec.Instrument
				switch rec.Step() {
				case FixNut:
					s, ok := rec.NextSlot(-1)
					switch {
					case !ok || rec.SlotsRead() && r.IntN(4) == 0:
						return Did{FixNut}
					case s.State == SlotHigh:
						return rec.FileSlot(s)
					}
					low := s.Usual.Low + geometry.Length(0.3*r.Float64())
					return feelers(i, Place{pick(r, FirstFret, s.Feature), s.Course}, low, low+0.05, MM)
				case FixRelief:
					if rec.ReliefKnown() {
						return pick[Fact](r, Did{FixRelief}, Adjusted{Relief, pick(r, 0, 1, -2)})
					}
					low := geometry.Length(0.6 * r.Float64())
					return feelers(i, Place{Relief, 0}, low, low+0.05, MM)
				}
				return Saved{}
			}
			for range 60 {
				seen[rec.Step()]++
				f := onward()
				if r.IntN(3) == 0 {
					f = pick[Fact](r, r.anything(rec), Filed{String: pick(r, 0, 1, 5, 6, -1), Wanted: r.maybe(0.1, 0.9)}, Did{pick(r, FixNut, FixRelief, Save)},
						Undone{len(rec.Events)}, feelers(rec.Instrument, Place{pick(r, FirstPressed, FirstFret, Relief), r.IntN(6)}, geometry.Length(r.Float64()), 1.1, MM))
				}
				try(f)
				if rec.Ended != Open {
					break
				}
			}
			data, err := json.Marshal(rec.Events)
			var events []Event
			if err == nil {
				err = json.Unmarshal(data, &events)
			}
			again, errReplay := Replay(events)
			if err != nil || errReplay != nil || printed(again) != printed(rec) || !reflect.DeepEqual(again, rec) {
				t.Fatalf("%s, seed %d: read again: %v, %v", m, seed, err, errReplay)
			}
			for n := 0; rec.Ended == Open; n++ {
				if n > 300 {
					t.Fatalf("%s, seed %d: still at %s", m, seed, rec.Step())
				}
				try(onward())
			}
		}
		for _, s := range Steps(m) {
			if seen[s] == 0 {
				t.Errorf("%s: no walk came to %s", m, s)
			}
		}
	}
}

// Every state of a slot is named once.
func TestSlotStates(t *testing.T) {
	for n, s := range SlotStates() {
		if s == "" || slices.Index(SlotStates(), s) != n {
			t.Errorf("state %d is %q", n, s)
		}
	}
}
