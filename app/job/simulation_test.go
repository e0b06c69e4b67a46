package job

import (
	"math"
	"testing"
	"time"

	"gapwright/geometry"
)

// A worker is a simulated person with a simulated instrument. What it knows is the record; what is true is kept beside it: gaps inside
// every reading, strokes that vary, a caliper that is off by up to its accuracy, a line drawn and seen a little wrong.
type worker struct {
	randomizer
	t      *testing.T
	seed   uint64
	record Record
	now    time.Time

	gaps    []geometry.Length // true, at the place of reading, by course
	zero    geometry.Length   // where the rule's zero really lies above its end
	way     Way               // how this person reads
	all     bool              // reads every course, not the outer two only
	follow  Answer
	perfect bool // sands exactly to the line

	perStroke geometry.Length    // what a stroke takes off on average
	lean      float64            // the bass end's share of a stroke, when pressing evenly
	lineOff   [2]geometry.Length // how far off the line was drawn, either end

	drawn     geometry.Line      // the line followed in this round
	removed   [2]geometry.Length // by sanding in this round, true
	smoothed  [2]geometry.Length
	widest    geometry.Length // the largest single stroke at an end
	rechoices int

	over [2]geometry.Length // the furthest past the drawn line so far: ends that had a line, ends that had none
}

func (w *worker) uniform(low, high geometry.Length) geometry.Length {
	return low + geometry.Length(w.Float64())*(high-low)
}

func (w *worker) add(f Fact) error {
	w.now = w.now.Add(time.Minute)
	next, err := w.record.Apply(Event{Job: "j", Sequence: len(w.record.Events) + 1, Writer: "w", At: w.now, Fact: f})
	w.record = next
	return err
}

func (w *worker) must(f Fact) {
	w.t.Helper()
	if err := w.add(f); err != nil {
		w.t.Fatalf("seed %d: %+v refused: %v", w.seed, f, err)
	}
}

// read reads a course so that the truth is inside what was read.
func (w *worker) read(course int) Read {
	gap, kit := w.gaps[course], w.record.Kit
	at := Read{String: course, Fret: w.record.Instrument.ReadFret(), Held: w.record.Instrument.Held}
	if w.way == ByMarks {
		if n := int(math.Floor(float64((gap - w.zero) / kit.RuleStep()))); gap > w.zero && kit.RuleStep() > 0 {
			return ReadByMarks(kit, w.record.Instrument, course, n)
		}
	}
	at.Way = ByCaliper
	at.Low = Write(gap+w.uniform(-0.024, 0.024), MM, geometry.Millimetre/100) // and 0.005 by rounding: within 0.03
	if w.way == ByFeeler {
		at.Way = ByFeeler
		at.Low, at.High = Write(gap.RoundDown(0.05), MM, 0.01), Write(gap.RoundDown(0.05)+0.05, MM, 0.01)
	}
	return at
}

func (w *worker) readAll() {
	last := w.record.Instrument.Last()
	for course := range w.gaps {
		if !w.all && course != 0 && course != last {
			continue
		}
		for range pick(w.randomizer, 1, 1, 2) {
			w.must(w.read(course))
		}
	}
}

func newWorker(t *testing.T, seed uint64) *worker {
	w := &worker{t: t, seed: seed, now: noon, randomizer: newRandomizer(seed, 11)}
	families := []geometry.FamilyID{geometry.FlatTop6, geometry.FlatTop12, geometry.Nylon, geometry.UkuleleSmall, geometry.UkuleleTenor, geometry.BaritoneGuitar}
	profile := Instrument{ID: "i", Family: pick(w.randomizer, families...)}
	switch w.IntN(6) {
	case 0:
		profile.Fret = 14
	case 1:
		profile.Held = 1
	case 2:
		profile.Setback = Typed{"2", MM}
	}
	kit := Kit{Unit: pick(w.randomizer, MM, Inch), Marks: pick(w.randomizer, AllMarks()...), Zero: pick(w.randomizer, Zeros()...), Grit: pick(w.randomizer, 0, 80, 120, 220)}
	off := w.uniform(0.5, 2)
	switch kit.Zero {
	case ZeroInside, ZeroCutOff:
		kit.ZeroDist = Write(off, MM, 0.1)
		off = kit.ZeroDist.LengthOr(0) + w.uniform(-0.1, 0.1)
		w.zero = off
		if kit.Zero == ZeroCutOff {
			w.zero = -off
		}
	case ZeroUnknown:
		w.zero = w.uniform(-0.25, 0.25)
	}
	w.way = pick(w.randomizer, ByMarks, ByMarks, ByMarks, ByCaliper, ByFeeler)
	w.all = w.IntN(3) == 0
	w.follow = pick(w.randomizer, FollowCaliper, FollowPencil, FollowKnife, FollowCards)
	guess := geometry.StrokeGuess(kit.Grit)
	w.perStroke = w.uniform(guess.Low, 1.5*guess.High)
	w.lean = 0.4 + 0.2*w.Float64()
	w.lineOff = [2]geometry.Length{w.uniform(-0.05, 0.05), w.uniform(-0.05, 0.05)}
	w.must(Began{Method: SandUnderside, Instrument: profile, Kit: kit})
	bass := w.uniform(-0.1, 1.6)
	treble := max(-0.1, bass+w.uniform(-0.5, 0.5))
	for course := range profile.Kind().Courses {
		share := geometry.Length(course) / geometry.Length(profile.Last())
		w.gaps = append(w.gaps, profile.Floor(course, false)+bass*(1-share)+treble*share+w.uniform(-0.05, 0.05))
	}
	return w
}

// cut takes true material off at both ends.
func (w *worker) cut(bass, treble geometry.Length) {
	line := geometry.Line{Ends: w.record.Instrument.Ends(), Bass: bass, Treble: treble}
	lever, _ := w.record.Instrument.Leverage(w.record.Instrument.ReadFret(), w.record.Instrument.Held)
	for course := range w.gaps {
		w.gaps[course] -= geometry.Length(lever) * line.At(w.record.Instrument.Offset(course))
	}
}

// strokes sands n strokes, pressing as the coach said.
func (w *worker) strokes(n int, verdict geometry.CoachVerdict) {
	for range n {
		lean := w.lean
		switch verdict {
		case geometry.FavourBass:
			lean = 0.8
		case geometry.FavourTreble:
			lean = 0.2
		}
		s := w.perStroke * w.uniform(0.6, 1.4)
		bass, treble := 2*s*geometry.Length(lean), 2*s*geometry.Length(1-lean)
		w.widest = max(w.widest, bass, treble)
		w.removed[0] += bass
		w.removed[1] += treble
		w.cut(bass, treble)
	}
}

// look is how the line looks at a cut there: its lower edge a little off, its width of 0.4.
func (w *worker) look(removed, drawn, off geometry.Length) Line {
	switch past := removed - max(0, drawn+off); {
	case past < 0:
		return Clear
	case past < 0.4:
		return Touched
	}
	return Gone
}

// sand follows the coach until it says stop.
func (w *worker) sand() Coach {
	start := [2]geometry.Length{12 + w.uniform(-1, 1), 11 + w.uniform(-1, 1)}
	height := func(side int) Typed {
		return Write(start[side]-w.removed[side]+w.uniform(-0.024, 0.024), MM, geometry.Millimetre/100)
	}
	if w.follow == FollowCaliper {
		w.must(Checked{Bass: height(0), Treble: height(1)})
	}
	for checks := 0; ; checks++ {
		coach, err := w.record.Coach()
		if err != nil || !coach.Ready || checks > 600 {
			w.t.Fatalf("seed %d: the coach after %d checks: %+v, %v", w.seed, checks, coach, err)
		}
		if coach.Strokes == 0 {
			return coach
		}
		w.strokes(coach.Strokes, coach.Verdict)
		if w.follow == FollowCaliper {
			w.must(Checked{Strokes: coach.Strokes, Bass: height(0), Treble: height(1)})
			continue
		}
		middle := geometry.Line{Bass: w.drawn.Bass, Treble: w.drawn.Treble, Ends: w.drawn.Ends}.At(0)
		w.must(Looked{coach.Strokes, w.look(w.removed[0], w.drawn.Bass, w.lineOff[0]),
			w.look((w.removed[0]+w.removed[1])/2, middle, (w.lineOff[0]+w.lineOff[1])/2), w.look(w.removed[1], w.drawn.Treble, w.lineOff[1])})
	}
}

// round goes once through the work, from the plan to the strings back on, and holds what must hold.
func (w *worker) round(plan Plan) {
	w.must(Did{MakePlan})
	w.must(Answered{AskUnder, UnderClear})
	w.must(Did{TakeOut})
	w.must(Answered{AskFollow, w.follow})
	w.must(Did{Mark})
	plan, err := w.record.Plan() // what is followed may be marked finer
	if err != nil {
		w.t.Fatal(err)
	}
	w.drawn, w.removed, w.smoothed, w.widest = plan.Drawn, [2]geometry.Length{}, [2]geometry.Length{}, 0
	before := append([]geometry.Length(nil), w.gaps...)
	coach := w.sand()
	w.must(Did{Sand})
	if w.IntN(3) == 0 {
		w.must(Skipped{Smooth})
	} else {
		w.smoothed = [2]geometry.Length{w.uniform(0, coach.SmoothBass), w.uniform(0, coach.SmoothTreble)}
		w.cut(w.smoothed[0], w.smoothed[1])
		w.must(Did{Smooth})
	}
	over := geometry.Line{Ends: plan.Drawn.Ends, Bass: max(0, w.removed[0]+w.smoothed[0]-plan.Drawn.Bass-plan.Stop.SmoothBass),
		Treble: max(0, w.removed[1]+w.smoothed[1]-plan.Drawn.Treble-plan.Stop.SmoothTreble)}
	for side, past := range [2]geometry.Length{over.Bass, over.Treble} {
		drawn := at(plan.Drawn, side)
		none := 0
		if drawn <= leastRound {
			none = 1
		}
		w.over[none] = max(w.over[none], past)
		bound := caliperBound
		if w.follow != FollowCaliper {
			bound = lineBound + max(drawn, at(plan.Drawn, 1-side))/2
		}
		if none == 0 && past > bound+2*w.widest {
			w.t.Errorf("seed %d: the coach let %s be passed by %.3f, largest stroke %.3f, drawn %.3f", w.seed, w.follow, past, w.widest, drawn)
		}
	}
	for _, p := range plan.Strings {
		limit := min(before[p.Course], max(p.Target, p.Floor)) - geometry.Length(p.Leverage)*over.At(p.Offset)
		if w.gaps[p.Course] < limit-1e-9 {
			w.t.Errorf("seed %d: course %d ends at %.4f, under %.4f (target %.3f, floor %.3f, before %.3f)", w.seed, p.Course, w.gaps[p.Course], limit,
				p.Target, p.Floor, before[p.Course])
		}
		if !p.After.Contains(w.gaps[p.Course]) && over.Bass == 0 && over.Treble == 0 && w.removed[0] >= plan.Drawn.Bass && w.removed[1] >= plan.Drawn.Treble {
			w.t.Errorf("seed %d: course %d promised %v, is %.4f", w.seed, p.Course, p.After, w.gaps[p.Course])
		}
	}
	w.must(Answered{AskSeat, SeatFlat})
	w.must(Did{Seat})
	w.must(Answered{AskStrung, StrungSame})
	w.must(Did{StringUp})
}

// What the coach may let a drawn line be passed by, apart from the strokes themselves: with a caliper its accuracy at the start and at the
// end; with a line how far off it was drawn, here up to 0.05, and half of the deeper cut, since a quarter as many strokes more are done
// before the next look and the pressing shifts between them.
const (
	caliperBound geometry.Length = 2 * geometry.CaliperAccuracy
	lineBound    geometry.Length = 0.05
)

// mostRounds is far more than anybody would do; the slowest are those where one end has nothing to lose and a line tells little of it.
const mostRounds = 60

// work does a whole job and tells how it ended and in how many rounds.
func (w *worker) work() (ending string, rounds int) {
	r := w.randomizer
	w.must(Answered{AskSaddle, SaddleLoose})
	w.readAll()
	w.must(Answered{AskStrings, StringsStay})
	w.must(Did{Measure})
	w.must(Answered{AskBuzz, BuzzNone})
	w.wish(r.IntN(2) == 0)
	w.must(Answered{AskRoom, RoomFine})
	for range mostRounds {
		plan, err := w.record.Plan()
		if err != nil {
			w.t.Fatalf("seed %d: %v", w.seed, err)
		}
		if plan.Outcome == PlanHeldBack && plan.HeldHelps && w.rechoices < 3 { // be content with less at the string in the way
			w.rechoices++
			wanted := *w.record.Current().Wanted
			if plan.HeldBy == 0 {
				wanted.Bass = Write(plan.HeldTarget, MM, 0.01)
			} else if plan.HeldBy == w.record.Instrument.Last() {
				wanted.Treble = Write(plan.HeldTarget, MM, 0.01)
			}
			if w.add(wanted) == nil {
				continue
			}
		}
		if plan.Outcome != PlanGo {
			if err := w.add(Did{MakePlan}); err == nil {
				w.t.Fatalf("seed %d: a plan of %s was agreed to", w.seed, plan.Outcome)
			}
			w.must(Judged{Keep})
			return string(plan.Outcome), w.record.Current().Number - 1
		}
		w.round(plan)
		w.readAll()
		for _, c := range w.record.Compare() {
			if !c.Read.Contains(w.gaps[c.Course]) {
				w.t.Fatalf("seed %d: the truth is outside the reading", w.seed)
			}
		}
		if w.record.Reached() {
			w.must(Judged{Done})
			return "done", w.record.Current().Number
		}
		if err := w.add(Judged{Done}); err == nil {
			w.t.Fatalf("seed %d: done without proof", w.seed)
		}
		w.must(Judged{Again})
	}
	return "endless", mostRounds
}

// wish chooses heights between the floor and what is there.
func (w *worker) wish(own bool) {
	lower := 0.6 * w.Float64()
	wish := func(course int) Typed {
		may, err := w.record.MayWish(course, own)
		if err != nil {
			w.t.Fatalf("seed %d: %v", w.seed, err)
		}
		share := geometry.Length(lower + 0.2*w.Float64())
		return Write(may.Low+share*(may.High-may.Low), pick(w.randomizer, MM, Inch), geometry.Thousandth)
	}
	w.must(Chosen{Bass: wish(0), Treble: wish(w.record.Instrument.Last()), Own: own})
}

// No string ends a round under its target or floor (or, if it was under it before, any lower), but for what the person went past the drawn line by
// themselves: λ times that, exactly, at every measured string. How far the coach lets a line be passed is bounded as well. And the rounds end.
func TestSimulatedJobsNeverGoTooFarAndAlwaysEnd(t *testing.T) {
	jobs := uint64(600)
	if testing.Short() {
		jobs = 100
	}
	endings, rounds := map[string]int{}, map[int]int{}
	var over [2][2]geometry.Length // by caliper or line; at ends with a line or without one
	for seed := range jobs {
		w := newWorker(t, seed)
		ending, n := w.work()
		endings[ending]++
		rounds[n]++
		if ending == "endless" {
			t.Errorf("seed %d: no end after %d rounds: %+v", seed, mostRounds, w.record.Kit)
			continue
		}
		w.must(Saved{})
		base := w.record.Baseline()
		if base == nil || base.Proven != (ending == "done") && ending != string(PlanThere) {
			t.Errorf("seed %d: ended %s with baseline %+v", seed, ending, base)
		}
		way := 0
		if w.follow != FollowCaliper {
			way = 1
		}
		over[way][0], over[way][1] = max(over[way][0], w.over[0]), max(over[way][1], w.over[1])
		if t.Failed() {
			break
		}
	}
	for _, ending := range []string{"done", string(PlanThere), string(PlanCannotTell), string(PlanHeldBack)} {
		if endings[ending] == 0 {
			t.Errorf("no job ended %s: the simulation does not reach it", ending)
		}
	}
	t.Logf("endings %v", endings)
	t.Logf("rounds %v", rounds)
	t.Logf("furthest past the drawn line, in mm at the saddle's end: caliper %.3f (an end with nothing to take %.3f), line %.3f (%.3f)",
		over[0][0], over[0][1], over[1][0], over[1][1])
}
