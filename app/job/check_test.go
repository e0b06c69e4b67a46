package job

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"gapwright/geometry"
)

var checkNames = map[CheckAnswer]string{CheckSame: "same", CheckMoved: "moved", CheckUntold: "untold", CheckNoBaseline: "no-baseline"}

var changeNames = map[geometry.Change]string{geometry.Unchanged: "unchanged", geometry.Higher: "higher", geometry.Lower: "lower", geometry.Untold: "untold"}

// quickCheck compares what a check found with a script's line.
func (s *script) quickCheck(words []string) error {
	c, ok := s.record.Check()
	if !ok {
		return sameWord("unread", words[0])
	}
	yes := map[bool]string{true: "yes", false: "no"}
	since := func(d Since, want []string) error {
		if !d.OK {
			return sameWord("not-compared", want[0])
		}
		return errors.Join(sameWord(changeNames[d.Told], want[0]), sameRange(d.Change, want[1]))
	}
	switch words[0] {
	case "bass", "treble":
		return since(c.Strings[side(words[0])], words[1:])
	case "relief":
		return since(c.Relief, words[1:])
	case "stands": // without a baseline
		return sameWord(standingNames[c.Standing[0]]+" "+standingNames[c.Standing[1]], strings.Join(words[1:], " "))
	case "age":
		return sameWord(c.Age.Round(time.Hour).String(), words[1])
	case "rebent":
		return sameWord(yes[c.Rebent], words[1])
	case "restrung":
		return sameWord(yes[c.Restrung], words[1])
	case "finer":
		return sameWord(yes[c.Finer], words[1])
	}
	return sameWord(checkNames[c.Answer], words[0])
}

func mm(text string) Typed { return Typed{text, MM} }

func marksRead(course int, low, high string) Read {
	return Read{String: course, Fret: 12, Way: ByMarks, Low: mm(low), High: mm(high)}
}

// asSet is a six-string with these heights as set, and a rule in quarters of a millimetre.
func asSet(readings ...Read) Instrument {
	return Instrument{ID: "i", Family: geometry.FlatTop6, AsSet: &AsSet{Job: "set", At: noon.Add(-30 * 24 * time.Hour), Readings: readings, Proven: true}}
}

func checkedOn(i Instrument, facts ...Fact) (Record, error) {
	return apply(Record{}, append([]Fact{Began{Method: QuickCheck, Instrument: i.ToCheck(), Kit: Kit{Unit: MM, Marks: EveryQuarter, Zero: ZeroAtEnd}}}, facts...)...)
}

// The four answers. Every range is worked out by hand: the change is from the new low less the old high to the new high less the old low.
func TestTheFourAnswersOfAQuickCheck(t *testing.T) {
	caliper := func(course int, text string) Read {
		return Read{String: course, Fret: 12, Way: ByCaliper, Low: mm(text)} // ± 0.03
	}
	set := asSet(marksRead(0, "2.25", "2.50"), marksRead(5, "1.75", "2.00"))
	for _, c := range []struct {
		name         string
		i            Instrument
		bass, treble Read
		want         CheckAnswer
		told         [2]geometry.Change
		change       [2]geometry.Interval
		finer        bool
	}{
		{"nothing moved", set, marksRead(0, "2.25", "2.50"), marksRead(5, "1.75", "2.00"), CheckSame,
			[2]geometry.Change{}, [2]geometry.Interval{{Low: -0.25, High: 0.25}, {Low: -0.25, High: 0.25}}, false},
		{"both higher", set, marksRead(0, "2.75", "3.00"), marksRead(5, "2.25", "2.50"), CheckMoved,
			[2]geometry.Change{geometry.Higher, geometry.Higher}, [2]geometry.Interval{{Low: 0.25, High: 0.75}, {Low: 0.25, High: 0.75}}, false},
		{"the treble lower", set, marksRead(0, "2.25", "2.50"), marksRead(5, "1.25", "1.50"), CheckMoved,
			[2]geometry.Change{geometry.Unchanged, geometry.Lower}, [2]geometry.Interval{{Low: -0.25, High: 0.25}, {Low: -0.75, High: -0.25}}, false},
		{"one up, one down", set, marksRead(0, "2.75", "3.00"), marksRead(5, "1.25", "1.50"), CheckMoved,
			[2]geometry.Change{geometry.Higher, geometry.Lower}, [2]geometry.Interval{{Low: 0.25, High: 0.75}, {Low: -0.75, High: -0.25}}, false},
		{"one mark up at the bass", set, marksRead(0, "2.50", "2.75"), marksRead(5, "1.75", "2.00"), CheckUntold,
			[2]geometry.Change{geometry.Untold, geometry.Unchanged}, [2]geometry.Interval{{Low: 0, High: 0.5}, {Low: -0.25, High: 0.25}}, true},
		{"moved wins over untold", set, marksRead(0, "2.50", "2.75"), marksRead(5, "1.25", "1.50"), CheckMoved,
			[2]geometry.Change{geometry.Untold, geometry.Lower}, [2]geometry.Interval{{Low: 0, High: 0.5}, {Low: -0.75, High: -0.25}}, false},
		{"a rule in millimetres", set, marksRead(0, "2", "3"), marksRead(5, "1", "2"), CheckUntold,
			[2]geometry.Change{geometry.Untold, geometry.Untold}, [2]geometry.Interval{{Low: -0.5, High: 0.75}, {Low: -1, High: 0.25}}, true},
		{"a caliper against the rule", set, caliper(0, "2.40"), caliper(5, "1.80"), CheckSame, // 2.37 to 2.43 less 2.25 to 2.50; 1.77 to 1.83 less 1.75 to 2.00
			[2]geometry.Change{}, [2]geometry.Interval{{Low: -0.13, High: 0.18}, {Low: -0.23, High: 0.08}}, false},
		{"set with a caliper, read with one", asSet(caliper(0, "2.40"), caliper(5, "1.80")), caliper(0, "2.50"), caliper(5, "1.80"), CheckMoved,
			[2]geometry.Change{geometry.Higher, geometry.Unchanged}, [2]geometry.Interval{{Low: 0.04, High: 0.16}, {Low: -0.06, High: 0.06}}, false},
		{"set too coarsely for any way", asSet(marksRead(0, "2", "4"), marksRead(5, "1.75", "2.00")), marksRead(0, "2", "4"), marksRead(5, "1.75", "2.00"), CheckUntold,
			[2]geometry.Change{geometry.Untold, geometry.Unchanged}, [2]geometry.Interval{{Low: -2, High: 2}, {Low: -0.25, High: 0.25}}, false},
	} {
		r, err := checkedOn(c.i, c.bass, c.treble)
		if err != nil {
			t.Fatalf("%s: %v", c.name, err)
		}
		got, ok := r.Check()
		if !ok || !r.Over() || got.Answer != c.want || got.Finer != c.finer || got.Age.Round(time.Hour) != 30*24*time.Hour {
			t.Errorf("%s: %v over %v, %+v", c.name, ok, r.Over(), got)
		}
		for side, s := range got.Strings {
			if !s.OK || s.Told != c.told[side] || abs(s.Change.Low-c.change[side].Low) > 1e-9 || abs(s.Change.High-c.change[side].High) > 1e-9 {
				t.Errorf("%s, side %d: %+v, want %v %v", c.name, side, s, c.told[side], c.change[side])
			}
		}
	}

	// No baseline: usual at fret 12 is 2.2 to 2.6 and 1.7 to 2.0.
	r, err := checkedOn(Instrument{ID: "i", Family: geometry.FlatTop6}, marksRead(0, "2.75", "3.00"), marksRead(5, "1.75", "2.00"))
	if err != nil {
		t.Fatal(err)
	}
	got, ok := r.Check()
	if !ok || got.Answer != CheckNoBaseline || got.Standing != [2]geometry.Standing{geometry.Above, geometry.Usual} || got.Strings[0].OK || got.Relief.OK {
		t.Errorf("no baseline: %v %+v", ok, got)
	}
}

// The zero of this rule lies 1 mm above its end, give or take 0.1: it is in both readings alike and falls out. The same half-millimetre marks are then
// 0.5 apart at most, and not 0.7; by another rule, or where the zero is not known, it does not fall out.
func TestTheSameRuleCancels(t *testing.T) {
	read := func(course int, low, high, end, give string) Read {
		r := marksRead(course, low, high)
		r.End, r.EndGive = mm(end), mm(give)
		return r
	}
	i := asSet(read(0, "1.5", "2.0", "1.00", "0.10"), read(5, "1.0", "1.5", "1.00", "0.10"))
	r, err := checkedOn(i, read(0, "1.5", "2.0", "1.00", "0.10"), read(5, "1.0", "1.5", "1.20", "0.10"))
	if err != nil {
		t.Fatal(err)
	}
	c, _ := r.Check()
	if s := c.Strings[0]; s.Told != geometry.Unchanged || abs(s.Change.High-0.5) > 1e-9 || abs(s.Is.Low-2.4) > 1e-9 || abs(s.Is.High-3.1) > 1e-9 {
		t.Errorf("the same rule: %+v", s)
	}
	// 1.0 to 1.5 with 1.20 ± 0.1 is 2.1 to 2.8; with 1.00 ± 0.1 it was 1.9 to 2.6: from -0.5 to 0.9.
	if s := c.Strings[1]; s.Told != geometry.Untold || abs(s.Change.Low+0.5) > 1e-9 || abs(s.Change.High-0.9) > 1e-9 {
		t.Errorf("another rule: %+v", s)
	}
	unknown := asSet(read(0, "1.5", "2.0", "0", "0.25"), read(5, "1.0", "1.5", "0", "0.25"))
	r, err = checkedOn(unknown, read(0, "1.5", "2.0", "0", "0.25"), read(5, "1.0", "1.5", "0", "0.25"))
	if err != nil {
		t.Fatal(err)
	}
	if c, _ := r.Check(); c.Strings[0].Told != geometry.Untold || abs(c.Strings[0].Change.High-1) > 1e-9 {
		t.Errorf("a zero that nobody knows: %+v", c.Strings[0])
	}
}

// A check is read where the instrument was read when it was set, whatever the profile says now.
func TestACheckIsReadWhereItWasSet(t *testing.T) {
	held := Read{String: 0, Fret: 12, Held: 1, Way: ByCaliper, Low: mm("1.90")}
	treble := held
	treble.String, treble.Low = 5, mm("1.50")
	i := asSet(held, treble)
	i.Fret, i.Held = 14, 0
	r, err := checkedOn(i, held, treble)
	if c, ok := r.Check(); err != nil || !ok || c.Answer != CheckSame {
		t.Errorf("%v, %+v", err, c)
	}
	if _, err := checkedOn(i, Read{String: 0, Fret: 14, Way: ByCaliper, Low: mm("2.10")}); err == nil {
		t.Error("a reading at another fret is taken")
	}
	plain := asSet(marksRead(0, "2.25", "2.50"), marksRead(5, "1.75", "2.00"))
	if got := plain.ToCheck(); got.Fret != 0 || got.Held != 0 {
		t.Errorf("fret 12 is said to be fret %d", got.Fret)
	}
}

// A check takes readings, the neck, the air, notes and the kit, and nothing that changes the instrument; it never leaves a baseline.
func TestACheckChangesNothing(t *testing.T) {
	i := asSet(marksRead(0, "2.25", "2.50"), marksRead(5, "1.75", "2.00"))
	r, err := checkedOn(i, marksRead(0, "2.25", "2.50"))
	if err != nil || r.Over() || r.Step() != Measure {
		t.Fatalf("half a check: %v, over %v at %s", err, r.Over(), r.Step())
	}
	for half := range 2 {
		for _, f := range []Fact{Did{Measure}, Answered{AskStrings, StringsStay}, Strung{}, Adjusted{Relief, 1}, Chosen{Bass: mm("2.2"), Treble: mm("1.8")}, Judged{Keep},
			Saved{}, Stood{Side: 0, Exposure: mm("4")}, Listened{Everywhere: true}, Described{i}, Skipped{Measure}, LeftAlone{Relief}, Filed{String: 0}, Screwed{[]int{1}}, Shimmed{}} {
			var refusal *Refusal
			if _, err := apply(r, f); !errors.As(err, &refusal) || refusal.Kind != RefusedNotYet {
				t.Errorf("half %d: %T: %v", half, f, err)
			}
		}
		if r, err = apply(r, marksRead(5, "1.75", "2.00")); err != nil {
			t.Fatal(err)
		}
	}
	r, err = apply(r, reliefRead(i, 0, "0.20", "0.25"), Aired{Humidity: 45}, Noted{"before the show"}, Equipped{Kit{Unit: MM, Marks: EveryHalfMM, Zero: ZeroAtEnd}})
	if err != nil || !r.Over() || r.Baseline() != nil || r.Instrument.AsSet != i.AsSet {
		t.Errorf("%v, over %v, baseline %v", err, r.Over(), r.Baseline())
	}
	// A wrong reading is corrected, by another or by undo; then it is not over until it is read again.
	wrong, err := apply(r, Read{String: 5, Fret: 12, Way: ByMarks, Low: mm("2.50"), High: mm("2.75"), Replaces: true})
	if c, ok := wrong.Check(); err != nil || !ok || c.Answer != CheckMoved {
		t.Errorf("corrected: %v %+v", err, c)
	}
	back, err := apply(wrong, Undone{len(wrong.Events)})
	if c, ok := back.Check(); err != nil || !ok || c.Answer != CheckSame {
		t.Errorf("taken back: %v %+v", err, c)
	}
	undone, err := apply(Record{Events: r.Events[:3], ID: r.ID, state: standingState(r.Events[:3])}, Undone{3})
	if _, ok := undone.Check(); err != nil || ok || undone.Over() {
		t.Errorf("the treble taken back: %v, over %v", err, undone.Over())
	}
}

func TestWhatMayBeCompared(t *testing.T) {
	relief := reliefRead(flatTop.Instrument, 0, "0.20", "0.25")
	i := asSet(marksRead(0, "2.25", "2.50"), marksRead(5, "1.75", "2.00"))
	i.AsSet.Moved, i.AsSet.Neck = true, []Surveyed{relief}
	i.AsSet.Set, i.Set = &Stringing{Capo: 1}, &Stringing{Capo: 2}
	r, err := checkedOn(i, marksRead(0, "2.25", "2.50"), marksRead(5, "1.75", "2.00"), reliefRead(i, 0, "0.40", "0.45"))
	if err != nil {
		t.Fatal(err)
	}
	// Fret 7 lies a little off the middle between 1 and 14: what is read there counts 1.0025 times. (0.40 to 0.45 less 0.20 to 0.25) × 1.0025.
	c, _ := r.Check()
	if !c.Rebent || !c.Restrung || !c.Relief.OK || c.Relief.Told != geometry.Higher || abs(c.Relief.Change.Low-0.15037) > 1e-5 || abs(c.Relief.Change.High-0.25062) > 1e-5 {
		t.Errorf("%+v", c)
	}
	for _, same := range [][2]*Stringing{{nil, i.Set}, {i.Set, nil}, {i.Set, &Stringing{Capo: 2}}} {
		i.AsSet.Set, i.Set = same[0], same[1]
		r, _ := checkedOn(i, marksRead(0, "2.25", "2.50"), marksRead(5, "1.75", "2.00"))
		if c, _ := r.Check(); c.Restrung {
			t.Errorf("%+v and %+v are not alike", same[0], same[1])
		}
	}
}

func TestWhatIsCheckedFirst(t *testing.T) {
	at := func(id string, days int) Instrument {
		i := asSet(marksRead(0, "2.25", "2.50"), marksRead(5, "1.75", "2.00"))
		i.ID, i.AsSet.At = id, noon.Add(-time.Duration(days)*24*time.Hour)
		return i
	}
	old, checked, newer, away, bare, half := at("old", 300), at("checked", 200), at("newer", 3), at("away", 1), Instrument{ID: "bare", Family: geometry.Nylon}, at("half", 1)
	checked.Checked = noon.Add(-24 * time.Hour)
	away.Archived = true
	half.AsSet.Readings = half.AsSet.Readings[:1]
	set, others := ToCheckFirst([]Instrument{old, newer, bare, checked, away, half})
	names := func(all []Instrument) (ids []string) {
		for _, i := range all {
			ids = append(ids, i.ID)
		}
		return ids
	}
	if got := fmt.Sprint(names(set), names(others)); got != "[checked newer old] [bare half]" {
		t.Error(got)
	}

	// A check goes on with the reading that it has, unless that is old, or the instrument was set since.
	r, err := checkedOn(newer, marksRead(0, "2.25", "2.50"))
	if err != nil {
		t.Fatal(err)
	}
	jobs := []Record{r}
	if _, ok := CheckOn(jobs, newer, r.Last.Add(time.Hour)); !ok {
		t.Error("a check under way is not found")
	}
	if _, ok := CheckOn(jobs, newer, r.Last.Add(25*time.Hour)); ok {
		t.Error("yesterday's reading is gone on with")
	}
	if _, ok := CheckOn(jobs, old, r.Last); ok {
		t.Error("another instrument's")
	}
	since := newer
	since.AsSet = &AsSet{Job: "later", At: noon, Readings: newer.AsSet.Readings}
	if _, ok := CheckOn(jobs, since, r.Last); ok {
		t.Error("the instrument was set since")
	}
	if _, under := OpenOn(jobs, "newer"); under {
		t.Error("half a check is in the way of a job")
	}
	if slices.Contains(Methods(), QuickCheck) || slices.Contains(newer.Methods(), QuickCheck) {
		t.Error("a check is offered as a way of setting the height")
	}
}

// The control opens at the mark that was read when the instrument was set, by whatever way that was, and that mark alone is called the same.
func TestTheControlOpensWhereItWasSet(t *testing.T) {
	for _, c := range []struct {
		read Read
		kit  Kit
		want int
	}{
		{marksRead(0, "2.25", "2.50"), Kit{Unit: MM, Marks: EveryQuarter, Zero: ZeroAtEnd}, 9}, // 2.25 / 0.25
		{marksRead(0, "2.25", "2.50"), Kit{Unit: MM, Marks: EveryHalfMM, Zero: ZeroAtEnd}, 4},  // 2.375 lies over 2.0
		{marksRead(0, "2.25", "2.50"), Kit{Unit: Inch, Marks: Every64th, Zero: ZeroAtEnd}, 5},  // 2.375 / 0.396875 = 5.98
		{Read{String: 0, Fret: 12, Way: ByMarks, Low: Typed{"6/64", Inch}, High: Typed{"7/64", Inch}}, Kit{Unit: Inch, Marks: Every64th, Zero: ZeroAtEnd}, 6},
		{Read{String: 0, Fret: 12, Way: ByMarks, Low: mm("1.25"), High: mm("1.50"), End: mm("1"), EndGive: mm("0.10")},
			Kit{Unit: MM, Marks: EveryQuarter, Zero: ZeroInside, ZeroDist: mm("1")}, 5}, // 2.375 less 1 over 0.25 = 5.5
	} {
		i := asSet(c.read, marksRead(5, "1.75", "2.00"))
		r, err := apply(Record{}, Began{Method: QuickCheck, Instrument: i.ToCheck(), Kit: c.kit})
		if err != nil {
			t.Fatal(err)
		}
		if got := r.LikelyMark(0, false); got != c.want || !r.AtAsSet(0, got) || r.AtAsSet(0, got+1) || r.AtAsSet(0, got-1) {
			t.Errorf("%+v by %s: opens at %d, want %d, the same there: %v", c.read, c.kit.Marks, got, c.want, r.AtAsSet(0, got))
		}
	}
}

// Whatever comes in whatever order, a check is a record or a typed refusal, never has another step, and is over exactly when it has an answer.
func TestAnyOrderOfFactsInACheck(t *testing.T) {
	answers := map[CheckAnswer]int{}
	for seed := range uint64(walks) {
		hand := newRandomizer(seed, 11)
		i := asSet(marksRead(0, "2.25", "2.50"), marksRead(5, "1.75", "2.00"))
		if seed%5 == 0 {
			i.AsSet = nil
		}
		r, err := checkedOn(i)
		if err != nil {
			t.Fatal(err)
		}
		for range 60 {
			fact := hand.anything(r)
			switch hand.IntN(3) {
			case 0:
				fact = hand.caliper(r, pick(hand, 0, r.Instrument.Last()), geometry.Length(1.5+1.5*hand.Float64()))
			case 1:
				fact = hand.reading(r)
			}
			next, err := apply(r, fact)
			var refusal *Refusal
			if err != nil && (!errors.As(err, &refusal) || printed(next) != printed(r)) {
				t.Fatalf("seed %d: %+v: %v", seed, fact, err)
			}
			r = next
			look(r)
			c, ok := r.Check()
			if r.Ended == Open && (ok != r.Over() || r.Step() != Measure) || r.Baseline() != nil || len(r.Rounds) != 1 {
				t.Fatalf("seed %d: after %T: answer %v, over %v, at %s", seed, fact, ok, r.Over(), r.Step())
			}
			if ok {
				answers[c.Answer]++
			}
		}
		if again, err := Replay(r.Events); err != nil || printed(again) != printed(r) {
			t.Fatalf("seed %d: replayed: %v", seed, err)
		}
	}
	for _, a := range CheckAnswers() {
		if answers[a] < 20 {
			t.Errorf("answer %d came %d times", a, answers[a])
		}
	}
}

// Two pages read the same check: joined, neither reading is lost.
func TestTwoPagesReadOneCheck(t *testing.T) {
	r, err := checkedOn(asSet(marksRead(0, "2.25", "2.50"), marksRead(5, "1.75", "2.00")), marksRead(0, "2.25", "2.50"))
	if err != nil {
		t.Fatal(err)
	}
	ours, err := apply(r, marksRead(5, "1.75", "2.00"))
	if err != nil {
		t.Fatal(err)
	}
	theirs, err := apply(r, Noted{"ten minutes"})
	if err != nil {
		t.Fatal(err)
	}
	merged, left, err := Merge(ours.Events, theirs.Events)
	joined, again := Replay(merged)
	if err != nil || again != nil || len(left) != 0 || !joined.Over() || len(joined.Notes) != 1 {
		t.Errorf("%v %v, left %v, over %v", err, again, left, joined.Over())
	}
}
