package job

import (
	"errors"
	"fmt"
	"testing"
	"time"

	"gapwright/geometry"
)

// surveyed by feelers: low goes in, high does not.
func reliefRead(i Instrument, course int, low, high string) Surveyed {
	held, fret, to := i.ReliefPlace()
	return Surveyed{Feature: Relief, Read: Read{String: course, Fret: fret, Held: held, Way: ByFeeler, Low: Typed{low, MM}, High: Typed{high, MM}}, To: to}
}

func firstRead(course int, low, high string) Surveyed {
	return Surveyed{Feature: FirstFret, Read: Read{String: course, Fret: 1, Way: ByFeeler, Low: Typed{low, MM}, High: Typed{high, MM}}}
}

func fits(course int, low, high string) Read {
	return Read{String: course, Fret: 12, Way: ByFeeler, Low: Typed{low, MM}, High: Typed{high, MM}}
}

// must adds facts and fails when one is refused.
func must(t *testing.T, r Record, facts ...Fact) Record {
	t.Helper()
	for _, f := range facts {
		next, err := apply(r, f)
		if err != nil {
			t.Fatalf("%+v: %v", f, err)
		}
		r = next
	}
	return r
}

// later adds one fact at another time.
func later(t *testing.T, r Record, after time.Duration, f Fact) Record {
	t.Helper()
	next, err := r.Apply(Event{Job: "j", Sequence: len(r.Events) + 1, Writer: "w", At: r.Last.Add(after), Fact: f})
	if err != nil {
		t.Fatalf("%+v: %v", f, err)
	}
	return next
}

func near2(t *testing.T, what string, got, want geometry.Interval, give geometry.Length) {
	t.Helper()
	if !got.Valid() || abs(got.Low-want.Low) > give || abs(got.High-want.High) > give {
		t.Errorf("%s: %.6f to %.6f, want %.6f to %.6f", what, float64(got.Low), float64(got.High), float64(want.Low), float64(want.High))
	}
}

func atMeasure(t *testing.T) Record {
	return must(t, Record{}, append(toMeasure, Answered{AskStrings, StringsStay})...)
}

// Held down at 1 and 20, of 20 frets; then it turns out that there are 18. What was read there means nothing any more, and a reading at the usual place is taken.
func TestAReadingThatTheProfileNoLongerAllowsBarsNoNewOne(t *testing.T) {
	r := atMeasure(t)
	more := r.Instrument
	more.Frets = 20
	wide := reliefRead(r.Instrument, 0, "0.2", "0.25")
	wide.To, wide.Fret = 20, 9
	r = must(t, r, Described{more}, wide)
	less := r.Instrument
	less.Frets = 18
	r = must(t, r, Described{less})
	if i, err := r.Surveys(Relief, 0); !errors.Is(err, geometry.ErrNoReading) {
		t.Errorf("relief %v, %v from frets that are not there", i, err)
	}
	r = must(t, r, reliefRead(less, 0, "0.5", "0.55"))
	if _, err := r.Surveys(Relief, 0); err != nil {
		t.Error(err)
	}
}

// A high first gap is unlikely and no contradiction.
func TestAFirstGapMayBeAsLargeAsAnyGap(t *testing.T) {
	r := must(t, atMeasure(t), firstRead(0, "14", "14.5"))
	i, err := r.Surveys(FirstFret, 0)
	if err != nil {
		t.Fatal(err)
	}
	near2(t, "first gap", i, geometry.Interval{Low: 14, High: 14.5}, 1e-9)
}

// What was misread is not told as read, and leaves no mark on the baseline.
func TestAReplacedReadingOfTheNeckIsGone(t *testing.T) {
	wrong, right := reliefRead(flatTop.Instrument, 0, "0.2", "0.25"), reliefRead(flatTop.Instrument, 0, "0.1", "0.15")
	right.Replaces = true
	r := must(t, atMeasure(t), wrong, firstRead(0, "0.5", "0.55"), right)
	if all := r.SurveyList(); len(all) != 2 || all[0].Feature != FirstFret || all[1] != right {
		t.Errorf("%+v", all)
	}
}

// Relief read eight days before the gap says nothing about today; read again, only the new one counts, and the old one contradicts nothing.
func TestReadingsOfTheNeckGrowOld(t *testing.T) {
	r := must(t, atMeasure(t), reliefRead(flatTop.Instrument, 0, "0.2", "0.25"))
	r = later(t, r, 8*24*time.Hour, fits(0, "2.5", "2.55"))
	if i, err := r.Surveys(Relief, 0); !errors.Is(err, geometry.ErrNoReading) {
		t.Errorf("relief %v, %v after eight days", i, err)
	}
	r = later(t, r, time.Minute, reliefRead(flatTop.Instrument, 0, "0.1", "0.15"))
	i, err := r.Surveys(Relief, 0)
	if err != nil || i.High > 0.151 || i.Low < 0.099 {
		t.Errorf("relief %v, %v, read again as 0.10 to 0.15", i, err)
	}
	if all := r.SurveyList(); len(all) != 1 {
		t.Errorf("%d readings hold, want the new one alone", len(all))
	}
}

// Course 2 was read at fret 1 before the round and at fret 12 only after it: the two do not belong to one line, and the first gap counts as not read.
func TestAFirstGapWithoutItsOwnGapIsNotMixedWithALaterOne(t *testing.T) {
	before := append(append(append([]Fact{}, toMeasure...), Answered{AskStrings, StringsStay}, firstRead(2, "0.5", "0.55"), reading(0, "2.8"), reading(5, "2.2"), Did{Measure}),
		append(append([]Fact{}, toAgain[len(toChoose):]...), fits(2, "2.2", "2.25"))...)
	r := must(t, Record{}, before...)
	_, measured, err := r.Path(2, true)
	if err != nil || measured.First {
		t.Errorf("first gap taken as measured: %+v, %v", measured, err)
	}
	unread := must(t, Record{}, append(append([]Fact{}, toAgain...), fits(2, "2.2", "2.25"))...)
	got, _, _ := r.Path(2, true)
	want, _, _ := unread.Path(2, true)
	if got.Nut() != want.Nut() || got.Saddle() != want.Saddle() {
		t.Errorf("nut %v and saddle %v, want %v and %v as with nothing read", got.Nut(), got.Saddle(), want.Nut(), want.Saddle())
	}
}

// What was heard beside a gap at fret 12 stays beside a gap at fret 12 when fret 14 is read from then on, and does not fade when it is read again after more than a week.
func TestWhatWasHeardKeepsTheHeightItWasHeardAt(t *testing.T) {
	r := must(t, atMeasure(t), reliefRead(flatTop.Instrument, 0, "0.20", "0.25"), fits(0, "2.5", "2.55"), fits(5, "2", "2.05"), Listened{String: 0, Stop: 3, Buzzed: true})
	was, err := r.OwnTouch(geometry.BassSide)
	if err != nil {
		t.Fatal(err)
	}
	other := r.Instrument
	other.Fret = 14
	moved := must(t, r, Described{other})
	if now, err := moved.OwnTouch(geometry.BassSide); err != nil || now != was {
		t.Errorf("heard at fret 12: %v; read at fret 14 from then on: %v, %v", was, now, err)
	}
	turned := must(t, r, Adjusted{Feature: Relief, Eighths: 1})
	turned = later(t, turned, 8*24*time.Hour, fits(0, "2.4", "2.45"))
	if now, err := turned.OwnTouch(geometry.BassSide); err != nil || now != was {
		t.Errorf("heard before the rod was turned: %v; afterwards: %v, %v", was, now, err)
	}
}

// Read at fret 22 with nobody having counted the frets: there are at least as many.
func TestThereAreAsManyFretsAsAreRead(t *testing.T) {
	i := Instrument{ID: "i", Family: geometry.SolidBody, Saddle: Typed{"72", MM}, Fret: 22}
	if i.LastFret() < 22 || i.Check() != nil {
		t.Errorf("last fret %d, %v", i.LastFret(), i.Check())
	}
	var outside *geometry.RangeError
	for _, frets := range []int{-1, 11, 21, 37} {
		i.Frets = frets
		if err := i.Check(); !errors.As(err, &outside) || outside.Quantity != geometry.QuantityLastFret {
			t.Errorf("%d frets, read at fret 22: %v", frets, err)
		}
	}
	i.Frets = 22
	if err := i.Check(); err != nil {
		t.Error(err)
	}
}

// What a saved job found out of neck and player stands on the instrument, and counts in the next job beside what is heard then.
func TestWhatIsKnownGoesOnToTheNextJob(t *testing.T) {
	facts := append(append([]Fact{}, toMeasure...), Answered{AskStrings, StringsStay}, reliefRead(flatTop.Instrument, 0, "0.50", "0.55"), Adjusted{Relief, 2}, fits(0, "2.5", "2.55"),
		fits(5, "2", "2.05"), reliefRead(flatTop.Instrument, 0, "0.20", "0.25"), Listened{String: 0, Stop: 3, Buzzed: true}, Listened{String: 0, Stop: 0}, Listened{String: 5, Everywhere: true},
		Did{Measure}, Chosen{Bass: Typed{"2.5", MM}, Treble: Typed{"2", MM}}, Answered{AskBuzz, BuzzNone}, Judged{Keep}, Saved{})
	first := must(t, Record{}, facts...)
	base := first.Baseline()
	if base == nil || len(base.Neck) != 1 || base.Neck[0].Low.Text != "0.20" || len(base.Rod) != 1 || base.Rod[0].Eighths != 2 || base.Rod[0].Before.Low.Text != "0.50" {
		t.Fatalf("left behind: %+v", base)
	}
	i := flatTop.Instrument
	i.AsSet = base
	next := must(t, Record{}, Began{Method: SandUnderside, Instrument: i, Kit: flatTop.Kit}, Answered{AskSaddle, SaddleLoose})
	for _, side := range []geometry.Side{geometry.BassSide, geometry.TrebleSide} {
		was, err := first.OwnTouch(side)
		now, errNow := next.OwnTouch(side)
		if err != nil || errNow != nil {
			t.Fatal(err, errNow)
		}
		near2(t, "touch", now.Needs, was.Needs, 0.005001) // kept in hundredths
		if side == geometry.BassSide && (was.Needs.Low < 0.5 || was.Needs.High > 2) || side == geometry.TrebleSide && was.Needs.Low != 0 {
			t.Errorf("touch of side %d: %v", side, was.Needs)
		}
	}
	if each, ok := next.PerEighth(); !ok || each.High >= 0 {
		t.Errorf("an eighth: %v, %v", each, ok)
	}
	// Clean now with less room than the buzz of then had: it does not fit together, and nothing is said.
	next = must(t, next, fits(0, "1.2", "1.25"), fits(5, "2", "2.05"), Listened{String: 0, Everywhere: true})
	if touch, err := next.OwnTouch(geometry.BassSide); !errors.Is(err, geometry.ErrTouch) {
		t.Errorf("touch %v, %v", touch, err)
	}
}

// Read at fret 14, the saddle is judged at fret 12 all the same. With the string's line through 0.50 to 0.55 over fret 1 and 2.80 to 2.85 over fret 14, relief r of
// 0.20050 to 0.25062 and 287.63055/322.97937 = 0.89055 of the way: 0.10945 × first + 0.89055 × gap + 0.38987 r (fret 14 lies on the chord, fret 12 by that under it).
func TestEachPartIsFoundAsItWasRead(t *testing.T) {
	i := flatTop.Instrument
	i.Fret = 14
	read := func(course int, low, high string) Read {
		r := fits(course, low, high)
		r.Fret = 14
		return r
	}
	r := must(t, Record{}, Began{Method: SandUnderside, Instrument: i, Kit: flatTop.Kit}, Answered{AskSaddle, SaddleLoose}, read(0, "2.80", "2.85"), read(5, "1.00", "1.05"),
		reliefRead(i, 0, "0.20", "0.25"), firstRead(0, "0.50", "0.55"), firstRead(5, "0.40", "0.42"))
	all, err := r.Diagnosis()
	if err != nil || len(all) != 5 {
		t.Fatalf("%+v, %v", all, err)
	}
	for n, want := range []struct {
		part geometry.Part
		side geometry.Side
		read geometry.Interval
	}{
		{geometry.PartRelief, geometry.BassSide, geometry.Interval{Low: 0.200500, High: 0.250625}}, // 0.20/0.997506, 0.25/0.997506
		{geometry.PartNut, geometry.BassSide, geometry.Interval{Low: 0.50, High: 0.55}},
		{geometry.PartNut, geometry.TrebleSide, geometry.Interval{Low: 0.40, High: 0.42}},
		{geometry.PartSaddle, geometry.BassSide, geometry.Interval{Low: 2.626435, High: 2.695977}}, // 0.05472 + 2.49354 + 0.07817; 0.06020 + 2.53807 + 0.09771
		{geometry.PartSaddle, geometry.TrebleSide, geometry.Interval{Low: 1.012501, High: 1.078760}},
	} {
		if all[n].Part != want.part || all[n].Side != want.side {
			t.Errorf("%d: part %d of side %d", n, all[n].Part, all[n].Side)
		}
		near2(t, fmt.Sprint("part ", n), all[n].Read, want.read, 1e-5)
	}
}

// The saddle went down by 0.4 at fret 12, and the string over fret 1 with it: read again there, the newer reading counts and contradicts nothing.
func TestAFirstGapReadAgainAfterARoundTakesTheOldOnesPlace(t *testing.T) {
	facts := append(append([]Fact{}, toMeasure...), Answered{AskStrings, StringsStay}, firstRead(0, "0.55", "0.58"), reading(0, "2.8"), reading(5, "2.2"),
		Listened{String: 5, Stop: 2}, Did{Measure})
	r := must(t, Record{}, append(facts, toAgain[len(toChoose):]...)...)
	if heard := r.Heard(5); len(heard) != 0 {
		t.Errorf("heard over the saddle as it is now: %+v", heard)
	}
	r = must(t, r, reading(0, "2.4"), reading(5, "2.0"), firstRead(0, "0.50", "0.52"), Listened{String: 5, Stop: 3})
	i, err := r.Surveys(FirstFret, 0)
	if err != nil {
		t.Fatal(err)
	}
	near2(t, "first gap", i, geometry.Interval{Low: 0.50, High: 0.52}, 1e-9)
	if heard := r.Heard(5); len(heard) != 1 || heard[0].Stop != 3 {
		t.Errorf("heard over the saddle as it is now: %+v", heard)
	}
}

// Three turns and then two more, by two that part: neither sees the other's.
func TestTurnsOfRecordsThatPartDoNotTouch(t *testing.T) {
	r := must(t, atMeasure(t), Adjusted{Relief, 1}, Adjusted{Relief, 2}, Adjusted{FirstFret, 0})
	one, two := must(t, r, Adjusted{Relief, 4}), must(t, r, Adjusted{Relief, 5})
	if one.turns[3].Eighths != 4 || two.turns[3].Eighths != 5 {
		t.Errorf("%+v and %+v", one.turns, two.turns)
	}
	var refusal *Refusal
	if _, err := apply(r, Adjusted{FirstFret, 1}); !errors.As(err, &refusal) || refusal.Kind != RefusedCheck {
		t.Errorf("eighths of a turn at the nut: %v", err)
	}
}
