package job

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"gapwright/geometry"
)

// What may be looked at before anything is cut, on instruments of every family.

// exactly reads a gap to a millionth of a millimetre, as nobody can: where a test asks for a gap that is known.
func exactly(course int, gap geometry.Length) Read {
	return Read{String: course, Fret: 12, Way: ByMarks, Low: Write(gap, MM, 0.001), High: Typed{Write(gap, MM, 0.001).Text + "001", MM}}
}

// profile is an instrument of a family, much of it left to what is usual.
func (r randomizer) profile(f geometry.Family) Instrument {
	i := Instrument{ID: "i", Family: f.ID, Fret: pick(r, 0, 0, 0, 12, 14), Held: pick(r, 0, 0, 0, 1, 3)}
	if f.SaddleLength == 0 || r.IntN(3) == 0 {
		i.Saddle = Write(f.SaddleSpread+geometry.Length(5+20*r.Float64()), MM, 0.1)
	}
	if r.IntN(3) == 0 {
		i.Scale = Write(f.Scale*geometry.Length(0.95+0.1*r.Float64()), MM, 0.1)
	}
	if r.IntN(3) == 0 {
		i.Setback, i.Radius = Write(geometry.Length(4*r.Float64()), MM, 0.1), Write(geometry.Length(180+400*r.Float64()), MM, 1)
	}
	if r.IntN(3) == 0 {
		i.Body = pick(r, 12, 14, 16)
		i.Frets = i.Body + r.IntN(9) + 2
	}
	if r.IntN(2) == 0 {
		i = i.WithCapo(pick(r, 0, 2, 5))
	}
	gauges := make([]Gauge, f.Courses*f.PerCourse)
	for n := range gauges {
		if r.IntN(4) > 0 {
			gauges[n] = Gauge{Make: PlainSteel, Diameter: Write(geometry.Length(0.22+0.4*r.Float64()), MM, 0.01)}
		}
	}
	return i.WithGauges(gauges)
}

// known is a job at its measuring: the gaps read and, when it is asked for, the neck; usual ones, or any.
func (r randomizer) known(t *testing.T, i Instrument, all, neck, usual bool) Record {
	t.Helper()
	rec := must(t, Record{}, Began{Method: SandUnderside, Instrument: i, Kit: Kit{Unit: MM, Marks: EveryQuarter, Zero: ZeroAtEnd}}, Answered{AskSaddle, SaddleLoose})
	last := i.Last()
	for course := range i.Kind().Courses {
		if all || course == 0 || course == last {
			gap := max(0.3, i.Usual(course).Middle()+geometry.Length(1.6*r.Float64()-0.4))
			rec = must(t, rec, Read{String: course, Fret: i.ReadFret(), Held: i.Held, Way: ByFeeler, Low: Write(gap, MM, 0.01), High: Write(gap+0.05, MM, 0.01)})
		}
	}
	if !neck {
		return rec
	}
	within := func(u geometry.Interval, width geometry.Length) (low, high Typed) {
		if !usual {
			u = geometry.Interval{Low: 0, High: 2 * u.High}
		}
		at := u.Low + 0.01 + geometry.Length(r.Float64())*(u.Width()-width-0.02)
		return Write(at, MM, 0.001), Write(at+width, MM, 0.001)
	}
	low, high := within(i.Kind().Relief, 0.04)
	rec = must(t, rec, reliefRead(i, 0, low.Text, high.Text))
	for course := range i.Kind().Courses {
		if all || course == 0 || course == last {
			f := i.Kind().FirstFret
			low, high = within(geometry.Interval{Low: i.between([2]geometry.Length{f[0].Low, f[1].Low}, course), High: i.between([2]geometry.Length{f[0].High, f[1].High}, course)}, 0.04)
			rec = must(t, rec, firstRead(course, low.Text, high.Text))
		}
	}
	if r.IntN(2) == 0 {
		rec = must(t, rec, Stood{Side: 0, Exposure: Write(geometry.Length(2+3*r.Float64()), MM, 0.1)}, Stood{Side: 1, Exposure: Write(geometry.Length(2+3*r.Float64()), MM, 0.1)})
	}
	if next, err := apply(rec, Listened{String: 0, Everywhere: true}); err == nil && r.IntN(2) == 0 {
		rec = next
	}
	return rec
}

// everyFamily runs a test on many instruments of each family.
func everyFamily(t *testing.T, many int, test func(t *testing.T, r randomizer, f geometry.Family)) {
	for _, f := range geometry.Families() {
		t.Run(string(f.ID), func(t *testing.T) {
			for seed := range uint64(many) {
				test(t, newRandomizer(seed, 23), f)
				if t.Failed() {
					t.Fatalf("seed %d", seed)
				}
			}
		})
	}
}

func players() []Player { return []Player{LightPlayer, MixedPlayer, HardPlayer, OwnPlayer} }

func number(c geometry.CentsRange) bool {
	return !math.IsNaN(float64(c.Low-c.Low)) && !math.IsNaN(float64(c.High-c.High)) && c.Low <= c.High
}

// rightly judges a room anew: enough when no room it may have is less than any the player may need, lacking when all are.
func rightly(room, needs geometry.Interval) Chance {
	enough, lacking := true, true
	for _, r := range []geometry.Length{room.Low, room.High} {
		for _, n := range []geometry.Length{needs.Low, needs.High} {
			enough, lacking = enough && r >= n, lacking && r < n
		}
	}
	switch {
	case enough:
		return RoomEnough
	case lacking:
		return RoomLacking
	}
	return RoomPerhaps
}

// sane looks whether what is seen is a number throughout and fits together.
func sane(t *testing.T, x Explorer, side int, seen Seen) {
	t.Helper()
	needs, known := geometry.Interval{}, false
	if style, ok := x.Player.Style(); ok {
		needs, known = geometry.StyleTouch(x.job.Instrument.Kind().ID, geometry.Side(side), style)
	} else if touch, err := x.job.OwnTouch(geometry.Side(side)); err == nil {
		needs, known = touch.Needs, true
	}
	if len(seen.All) != len(seen.Chances) {
		t.Fatalf("%d rooms, %d chances", len(seen.All), len(seen.Chances))
	}
	worst, least := ChanceNotKnown, geometry.Length(math.Inf(1))
	for n, room := range seen.All {
		want := ChanceNotKnown
		if known {
			want = rightly(room.Free, needs)
		}
		if !room.Free.Valid() || room.Stop != seen.From()+n || room.First <= room.Stop || seen.Chances[n] != want {
			t.Fatalf("at %v, stop %+v: chance %d, want %d for %v", seen.Height, room, seen.Chances[n], want, needs)
		}
		worst, least = max(worst, want), min(least, room.Free.Low)
	}
	if seen.Worst != worst || len(seen.All) > 0 && seen.Least().Free.Low != least {
		t.Fatalf("worst %d and %v, told as %d and %v", worst, least, seen.Worst, seen.Least().Free.Low)
	}
	var stops int
	for _, run := range seen.Runs() {
		stops += run.To - run.From + 1
	}
	if stops != len(seen.All) {
		t.Fatalf("%d stops in runs, %d in all", stops, len(seen.All))
	}
	if !seen.Off.Valid() || seen.Off.Low < 0 || !seen.Left.Valid() || seen.Left.Low < 0 || !number(seen.Sharp) || !number(seen.Change) ||
		seen.Suited && (!seen.Suits.Gap.Valid() || seen.Suits.Gap.Low < 0) || math.IsNaN(seen.AtSaddle()) {
		t.Fatalf("at %v: %+v", seen.Height, seen)
	}
}

// sharpHair is how far two errors in pitch may differ by rounding and by the string's length alone, where it lies on the fret at either height.
const sharpHair geometry.Cents = 0.05

func TestALowerWishGivesLessRoomLessSharpnessAndTakesMoreOff(t *testing.T) {
	many := 80
	if testing.Short() {
		many = 10
	}
	sounding, standing := 0, 0
	everyFamily(t, many, func(t *testing.T, r randomizer, f geometry.Family) {
		rec := r.known(t, r.profile(f), false, r.IntN(2) == 0, false)
		for _, p := range players() {
			x, err := rec.Explore(p)
			if err != nil {
				t.Fatal(err)
			}
			for side := range 2 {
				course := side * rec.Instrument.Last()
				top := rec.Standing(course, false).High
				heights := []geometry.Length{0, rec.Instrument.Floor(course, true), rec.Instrument.Floor(course, false), top, 15, geometry.Length(4 * r.Float64()), geometry.Length(15 * r.Float64())}
				slices.Sort(heights)
				var lower Seen
				for n, h := range heights {
					seen, err := x.Side(side, h)
					if err != nil {
						t.Fatalf("at %v: %v", h, err)
					}
					sane(t, x, side, seen)
					if n == 0 {
						lower = seen
						continue
					}
					for k, room := range seen.All {
						if was := lower.All[k].Free; was.Low > room.Free.Low+1e-9 || was.High > room.Free.High+1e-9 {
							t.Fatalf("stop %d: %v at %v, %v at %v", room.Stop, was, lower.Height, room.Free, h)
						}
					}
					if lower.Sharp.Low > seen.Sharp.Low+sharpHair || lower.Sharp.High > seen.Sharp.High+sharpHair {
						t.Fatalf("sharp %v at %v, %v at %v", lower.Sharp, lower.Height, seen.Sharp, h)
					}
					if lower.Off.Low < seen.Off.Low-1e-9 || lower.Off.High < seen.Off.High-1e-9 || lower.Left.Low > seen.Left.Low+1e-9 || lower.Left.High > seen.Left.High+1e-9 {
						t.Fatalf("off %v, left %v at %v; %v and %v at %v", lower.Off, lower.Left, lower.Height, seen.Off, seen.Left, h)
					}
					if seen.Sounds {
						sounding++
					}
					if seen.Stands {
						standing++
					}
					lower = seen
				}
				for _, h := range []geometry.Length{-0.01, 15.01, geometry.Length(math.NaN()), geometry.Length(math.Inf(1))} {
					if seen, err := x.Side(side, h); err == nil {
						t.Fatalf("%v was looked at: %+v", h, seen)
					}
				}
			}
		}
	})
	if sounding < 1000 || standing < 1000 {
		t.Errorf("only %d sounded and %d stood: the test looks at too little", sounding, standing)
	}
}

func TestTheHeightThatIsThereLooksAsItIs(t *testing.T) {
	everyFamily(t, 40, func(t *testing.T, r randomizer, f geometry.Family) {
		i := r.profile(f)
		i.Fret, i.Held = 0, 0
		rec := must(t, Record{}, Began{Method: SandUnderside, Instrument: i, Kit: Kit{Unit: MM, Marks: EveryQuarter}}, Answered{AskSaddle, SaddleLoose})
		gaps := [2]geometry.Length{i.Usual(0).Middle() + geometry.Length(r.Float64()), i.Usual(i.Last()).Middle() + geometry.Length(r.Float64())}
		rec = must(t, rec, exactly(0, gaps[0]), exactly(i.Last(), gaps[1]))
		if r.IntN(2) == 0 {
			rec = must(t, rec, reliefRead(i, 0, "0.10", "0.15"), firstRead(0, "0.4", "0.45"))
		}
		x, err := rec.Explore(MixedPlayer)
		if err != nil {
			t.Fatal(err)
		}
		for side := range 2 {
			course := side * i.Last()
			now, _, err := rec.Rooms(course, false, MixedPlayer)
			if err != nil {
				t.Fatal(err)
			}
			seen, err := x.Side(side, rec.Standing(course, false).Low)
			if err != nil || len(seen.All) != len(now.All) || len(seen.All) == 0 {
				t.Fatalf("%d rooms, %d now, %v", len(seen.All), len(now.All), err)
			}
			for k, room := range seen.All {
				near2(t, fmt.Sprintf("stop %d", room.Stop), room.Free, now.All[k].Free, 1e-5)
			}
			near2(t, "off", seen.Off, geometry.Interval{}, 1e-5)
			if change := max(-seen.Change.Low, seen.Change.High); change > 1e-3 {
				t.Errorf("sharper by %v", seen.Change)
			}
			if off := max(seen.Before.Low-seen.Sharp.Low, seen.Sharp.Low-seen.Before.Low, seen.Before.High-seen.Sharp.High, seen.Sharp.High-seen.Before.High); off > sharpHair {
				t.Errorf("%v now, %v at the height that is there", seen.Before, seen.Sharp)
			}
		}
	})
}

func TestWhatIsMeasuredWithinWhatIsUsualTellsNoLess(t *testing.T) {
	narrower := 0
	everyFamily(t, 60, func(t *testing.T, r randomizer, f geometry.Family) {
		i := r.profile(f)
		i.Body, i.Frets = 0, 0 // relief is read where it is whole, so that what is read as usual is usual
		rec := r.known(t, i, false, true, true)
		bare := rec
		bare.state = rec.state.clone()
		bare.neck = nil
		if read, err := rec.Surveys(Relief, 0); err != nil || read.Low < f.Relief.Low || read.High > f.Relief.High {
			return
		}
		for _, course := range []int{0, i.Last()} {
			with, _, err := rec.Path(course, false)
			without, measured, errBare := bare.Path(course, false)
			if err != nil || errBare != nil || measured != (Measured{}) {
				t.Fatal(err, errBare, measured)
			}
			from, to := i.stops()
			for stop := from; stop <= to; stop++ {
				a, err := with.Headroom(stop, pluckAt(with))
				b, errBare := without.Headroom(stop, pluckAt(without))
				if err != nil || errBare != nil {
					t.Fatal(err, errBare)
				}
				if a.Free.Low < b.Free.Low-1e-9 || a.Free.High > b.Free.High+1e-9 {
					t.Fatalf("course %d, stop %d: %v measured, %v by what is usual", course, stop, a.Free, b.Free)
				}
				if a.Free.Width() < b.Free.Width()-0.01 {
					narrower++
				}
			}
		}
	})
	if narrower < 1000 {
		t.Errorf("only %d rooms are narrower when the neck is measured", narrower)
	}
}

// At the lowest height that is sure to suit a player there is room enough, and a little under the lowest that might there is not.
func TestTheLowestHeightThatSuitsDoesAndALowerOneDoesNot(t *testing.T) {
	looked := map[Player]int{}
	everyFamily(t, 40, func(t *testing.T, r randomizer, f geometry.Family) {
		rec := r.known(t, r.profile(f), false, r.IntN(2) == 0, false)
		for _, p := range players() {
			x, err := rec.Explore(p)
			if err != nil {
				t.Fatal(err)
			}
			for side := range 2 {
				seen, err := x.Side(side, 2)
				if err != nil || !seen.Suited || seen.Suits.Beyond || seen.Suits.Gap.Low < 0.1 {
					continue
				}
				looked[p]++
				high, err := x.Side(side, seen.Suits.Gap.High+1e-6)
				if err != nil || high.Worst != RoomEnough {
					t.Fatalf("%s, side %d at %v: worst %d, %v", p, side, seen.Suits.Gap.High, high.Worst, err)
				}
				low, err := x.Side(side, seen.Suits.Gap.Low-0.01)
				if err != nil || low.Worst == RoomEnough {
					t.Fatalf("%s, side %d at %v: worst %d, %v", p, side, seen.Suits.Gap.Low, low.Worst, err)
				}
			}
		}
	})
	for _, p := range players() {
		if looked[p] < 20 {
			t.Errorf("only %d looked at for %s", looked[p], p)
		}
	}
}

func TestAtTheLimitsWhatIsSeenIsANumber(t *testing.T) {
	steel := func(i Instrument) Instrument {
		gauges := make([]Gauge, i.Kind().Courses*i.Kind().PerCourse)
		for n := range gauges {
			gauges[n] = Gauge{Make: PlainSteel, Diameter: Typed{"0.3", MM}}
		}
		return i.WithGauges(gauges)
	}
	plain := Instrument{ID: "i", Family: geometry.FlatTop6}
	bass := Instrument{ID: "i", Family: geometry.Bass, Scale: Typed{"34", Inch}, Frets: 24}
	flatNeck := reliefRead(plain, 0, "0", "0.000001")
	short := Instrument{ID: "i", Family: geometry.UkuleleSmall, Frets: 12}
	for name, c := range map[string]struct {
		i     Instrument
		reads []Fact
		rooms int // stops that are judged: from the open string or the capo to fret 12, or as far as a fret is left
	}{
		"one pair only":        {plain, nil, 13},
		"no relief":            {plain, []Fact{flatNeck, firstRead(0, "0.5", "0.55"), firstRead(5, "0.4", "0.45")}, 13},
		"capo at 12":           {plain.WithCapo(12), []Fact{flatNeck}, 1},
		"capo at the last":     {short.WithCapo(12), nil, 0},
		"flat board":           {Instrument{ID: "i", Family: geometry.FlatTop6, Radius: Typed{"5000", MM}}, []Fact{flatNeck}, 13},
		"twelve strings":       {Instrument{ID: "i", Family: geometry.FlatTop12}, []Fact{firstRead(0, "0", "0.05")}, 13},
		"34-inch bass":         {bass, []Fact{reliefRead(bass, 0, "1.5", "1.6")}, 13},
		"ukulele":              {Instrument{ID: "i", Family: geometry.UkuleleSmall}, nil, 13},
		"twelve frets":         {short, nil, 12},
		"bent back":            {plain, []Fact{Surveyed{Feature: Relief, Read: Read{Fret: 6, Held: 1, Way: ByFeeler, High: Typed{"0.05", MM}}, To: 14}}, 13},
		"strings on the frets": {plain, []Fact{reliefRead(plain, 0, "2.5", "2.6"), firstRead(0, "0", "0.01"), firstRead(5, "0", "0.01")}, 13},
	} {
		t.Run(name, func(t *testing.T) {
			i := steel(c.i)
			last := i.Last()
			rec := must(t, Record{}, Began{Method: SandUnderside, Instrument: i, Kit: Kit{Unit: MM, Marks: EveryQuarter}}, Answered{AskSaddle, SaddleLoose},
				fits(0, "2.5", "2.55"), fits(last, "2", "2.05"), Stood{Side: 0, Exposure: Typed{"0.1", MM}})
			rec = must(t, rec, c.reads...)
			for _, p := range players() {
				x, err := rec.Explore(p)
				if err != nil {
					t.Fatal(err)
				}
				for side, top := range []geometry.Length{2.55, 2.05} {
					for _, h := range []geometry.Length{0, 0.01, rec.Instrument.Floor(side*last, true), rec.Instrument.Floor(side*last, false), top, 15} {
						seen, err := x.Side(side, h)
						if err != nil {
							t.Fatalf("at %v: %v", h, err)
						}
						sane(t, x, side, seen)
						if len(seen.All) != c.rooms {
							t.Fatalf("%d stops, want %d", len(seen.All), c.rooms)
						}
						if !seen.Sounds {
							t.Fatalf("a plain steel string does not sound at %v", h)
						}
					}
				}
				wish := x.Suggest(true)
				seen, err := x.Both(wish)
				if err != nil || wish.For != p || len(x.Rows(seen)) != 2 {
					t.Fatalf("suggested %+v: %v", wish, err)
				}
				for _, v := range append(x.Profile(0).Tops, x.Profile(1).Frets...) {
					if math.IsNaN(v) || math.IsInf(v, 0) {
						t.Fatalf("profile %+v", x.Profile(0))
					}
				}
			}
		})
	}
}

// Read 2.50 to 2.55, wished 2.20: (2.50 − 2.20) × 2 to (2.55 − 2.20) × 2 comes off; of 3.0, give or take 0.5, 2.5 − 0.70 to 3.5 − 0.60 is left. Read 2.00 to 2.05 and
// wished as high, up to 0.10 comes off.
func TestWhatComesOffAndWhatIsLeft(t *testing.T) {
	rec := must(t, atMeasure(t), fits(0, "2.5", "2.55"), fits(5, "2", "2.05"), Stood{Side: 0, Exposure: Typed{"3.0", MM}}, Listened{String: 5, Everywhere: true})
	x, err := rec.Explore(OwnPlayer)
	if err != nil {
		t.Fatal(err)
	}
	seen, err := x.Both(Chosen{Bass: Typed{"2.20", MM}, Treble: Typed{"2.00", MM}})
	if err != nil || !seen[0].Stands || seen[1].Stands {
		t.Fatalf("%+v, %v", seen, err)
	}
	near2(t, "off, bass", seen[0].Off, geometry.Interval{Low: 0.60, High: 0.70}, 1e-9)
	near2(t, "left, bass", seen[0].Left, geometry.Interval{Low: 1.80, High: 2.90}, 1e-9)
	near2(t, "off, treble", seen[1].Off, geometry.Interval{Low: 0, High: 0.10}, 1e-9)
	// Of the bass nothing was heard: it is suggested what is usual. The treble gets the lowest that is sure to do, no higher than it is.
	wish, usual := x.Suggest(true), rec.Wish(geometry.StyleMixed, true)
	if seen[0].Suited || wish.Bass != usual.Bass || !seen[1].Suited || wish.Treble != rec.wish(5, seen[1].Suits.Gap.High, true) || wish.Treble == rec.wish(5, seen[1].Suits.Gap.Low, true) {
		t.Errorf("suggested %+v, suited from %v", wish, seen[1].Suits.Gap)
	}
}

// toPlanOf takes a measured job on to its plan, wishing for a height somewhere between the floor and what is there.
func (r randomizer) toPlanOf(t *testing.T, rec Record) Record {
	t.Helper()
	rec = must(t, rec, Answered{AskStrings, StringsStay}, Did{Measure})
	for _, f := range Features() {
		if _, out := rec.NeckOut(); out {
			rec = must(t, rec, LeftAlone{f})
		}
	}
	wish := func(course int) Typed {
		may, err := rec.MayWish(course, true)
		if err != nil {
			t.Fatal(err)
		}
		return Write(may.Low+geometry.Length(0.6*r.Float64())*may.Width(), MM, 0.01)
	}
	return must(t, rec, Chosen{Bass: wish(0), Treble: wish(rec.Instrument.Last()), Own: true}, Answered{AskBuzz, BuzzNone})
}

func TestAfterARoundTheRoomLiesBetweenNowAndTheTarget(t *testing.T) {
	plans := 0
	everyFamily(t, 60, func(t *testing.T, r randomizer, f geometry.Family) {
		rec := r.toPlanOf(t, r.known(t, r.profile(f), r.IntN(2) == 0, r.IntN(2) == 0, true))
		plan, err := rec.Plan()
		if err != nil || plan.Outcome != PlanGo {
			return
		}
		rows, rowsAfter := rec.Rows(false, MixedPlayer), rec.RowsAfter(plan, MixedPlayer)
		if len(rows) != len(plan.Strings) || len(rowsAfter) != len(rows) {
			t.Fatalf("%d strings, %d rows now, %d after", len(plan.Strings), len(rows), len(rowsAfter))
		}
		for n, s := range plan.Strings {
			path, _, err := rec.Path(s.Course, false)
			if err != nil || rows[n].Course != s.Course || rowsAfter[n].Course != s.Course {
				t.Fatalf("course %d: rows %d and %d, %v", s.Course, rows[n].Course, rowsAfter[n].Course, err)
			}
			at, err := path.WithGap(rec.Instrument.ReadFret(), rec.Instrument.Held, geometry.Exactly(min(s.Target, s.Reading.Low)))
			if err != nil {
				t.Fatal(err)
			}
			for k, after := range rowsAfter[n].All {
				target, err := at.Headroom(after.Stop, pluckAt(at))
				now := rows[n].All[k]
				if err != nil || after.Free.Low > now.Free.Low+1e-9 || after.Free.Low < target.Free.Low-1e-9 || after.Free.High > now.Free.High+1e-9 {
					t.Fatalf("course %d, stop %d: now %v, after the round %v, at the target %v, %v", s.Course, after.Stop, now.Free, after.Free, target.Free, err)
				}
			}
			plans++
		}
	})
	if plans < 500 {
		t.Errorf("only %d strings were planned", plans)
	}
}

// Relief or a nut that is out comes before the saddle; a job in which nothing of the neck was read stays where it was.
func TestTheSaddleComesFirstOnlyWithTheNeckInOrder(t *testing.T) {
	out, in := 0, 0
	everyFamily(t, 80, func(t *testing.T, r randomizer, f geometry.Family) {
		rec := r.known(t, r.profile(f), false, r.IntN(4) > 0, false)
		found, neckOut := rec.NeckOut()
		all, err := rec.Diagnosis()
		if err != nil {
			t.Fatal(err)
		}
		for _, a := range all {
			if a.Part == geometry.PartSaddle && a.First && neckOut {
				t.Fatalf("%+v is out and the saddle first", found)
			}
		}
		done := must(t, rec, Answered{AskStrings, StringsStay}, Did{Measure})
		switch {
		case len(rec.SurveyList()) == 0 && neckOut:
			t.Fatalf("%+v is out and nothing was read", found)
		case neckOut != (done.Step() == Diagnose):
			t.Fatalf("out %v at %s", neckOut, done.Step())
		case neckOut:
			out++
			if found.Part == geometry.PartSaddle || !found.First && found.Part == geometry.PartRelief {
				t.Fatalf("put right first: %+v", found)
			}
		default:
			in++
		}
	})
	if out < 100 || in < 100 {
		t.Errorf("%d out, %d in order", out, in)
	}
}

// A first gap read before a round, with the string then, still tells the nut; the saddle is told by the gap read after it. Here both lines are drawn by
// themselves: through the first gap and the old gap over a board bent by 0.2 mm, then from that nut to the new gap.
func TestAFirstGapReadBeforeARoundStaysUsableAfterIt(t *testing.T) {
	const scale, first, old, now = 648.0, 0.55, 2.60, 2.25
	exact := func(course int, mm string) Read {
		return Read{String: course, Fret: 12, Way: ByMarks, Low: Typed{mm, MM}, High: Typed{mm + "0001", MM}}
	}
	relief, nut := reliefRead(flatTop.Instrument, 0, "0.20", "0.2000001"), firstRead(0, "0.55", "0.5500001")
	facts := append(append([]Fact{}, toMeasure...), Answered{AskStrings, StringsStay}, exact(0, "2.60"), exact(5, "2.20"), relief, nut, Did{Measure}, Answered{AskBuzz, BuzzNone},
		Chosen{Bass: Typed{"2.20", MM}, Treble: Typed{"1.80", MM}, Own: true})
	facts = append(append(facts, toAgain[len(toPlan):]...), exact(0, "2.25"), exact(5, "1.85"))
	after := must(t, Record{}, facts...)
	again := must(t, after, Judged{Again})

	x := func(n int) float64 { return scale * (1 - math.Pow(2, -float64(n)/12)) }
	chord := x(14) - x(1)
	bow := func(n int) float64 { // how far a fret lies under the chord, per millimetre of relief
		if n > 14 {
			return -4 * (x(n) - x(14)) / chord
		}
		return 4 * (x(n) - x(1)) * (x(14) - x(n)) / (chord * chord)
	}
	r := 0.20 / bow(6)
	slope := (old - r*bow(12) - first) / (x(12) - x(1))
	atNut := first - slope*x(1)
	atSaddle := atNut + (now-r*bow(12)-atNut)*scale/x(12)
	for _, c := range []struct {
		name  string
		rec   Record
		after bool
	}{{"with the strings back on", after, true}, {"in the next round", again, false}} {
		path, measured, err := c.rec.Path(0, c.after)
		if err != nil || !measured.First || !measured.Relief {
			t.Fatalf("%s: %+v, %v", c.name, measured, err)
		}
		for held := range 13 {
			for fret := held + 1; fret <= 19; fret++ {
				from, at := atNut, 0.0
				if held > 0 {
					from, at = -r*bow(held), x(held)
				}
				want := from + (atSaddle-from)*(x(fret)-at)/(scale-at) + r*bow(fret)
				got, err := path.Clearance(fret, held)
				if err != nil {
					t.Fatal(err)
				}
				near2(t, fmt.Sprintf("%s, held at %d, over fret %d", c.name, held, fret), got, geometry.Exactly(geometry.Length(want)), 1e-5)
			}
		}
	}
	was, _, err := after.Path(0, false)
	if err != nil {
		t.Fatal(err)
	}
	gap, _ := was.Clearance(12, 0)
	near2(t, "the gap before", gap, geometry.Exactly(old), 1e-5)
}

// A turn that an earlier job counted counts on.
func TestTurnsOfEarlierJobsCountOn(t *testing.T) {
	i := flatTop.Instrument
	i.AsSet = &AsSet{Rod: []RodTurn{{Eighths: 2, Before: reliefRead(i, 0, "0.50", "0.55"), After: reliefRead(i, 0, "0.20", "0.25")}}}
	r := must(t, Record{}, Began{Method: SandUnderside, Instrument: i, Kit: flatTop.Kit}, Answered{AskSaddle, SaddleLoose})
	each, ok := r.PerEighth()
	// A reading there shows 0.997506 of the relief: (0.20 − 0.55)/0.997506/2 and (0.25 − 0.50)/0.997506/2.
	near2(t, "an eighth", each, geometry.Interval{Low: -0.175437, High: -0.125312}, 1e-6)
	r = must(t, r, reliefRead(i, 0, "0.20", "0.25"), Adjusted{Relief, -1}, reliefRead(i, 0, "0.30", "0.35"))
	each, ok = r.PerEighth()
	// Loosened by one: (0.30 − 0.25)/0.997506 to (0.35 − 0.20)/0.997506, each the other way round for tightening.
	near2(t, "an eighth by both", each, geometry.Interval{Low: -0.175437, High: -0.050125}, 1e-6)
	if n := len(r.RodTurns()); !ok || n != 2 {
		t.Errorf("%d turns, want 2", n)
	}
}
