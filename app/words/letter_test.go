package words_test

import (
	"regexp"
	"strings"
	"testing"
	"time"

	"gapwright/app/job"
	"gapwright/app/words"
	"gapwright/geometry"
)

// told is a job of these facts, one a minute from noon on 4 March 2026.
func told(t *testing.T, facts ...job.Fact) job.Record {
	t.Helper()
	var r job.Record
	at := time.Date(2026, 3, 4, 12, 0, 0, 0, time.UTC)
	for n, f := range facts {
		at = at.Add(time.Minute)
		next, err := r.Apply(job.Event{Job: "j1", Sequence: n + 1, Writer: "w", At: at, Fact: f})
		if err != nil {
			t.Fatalf("fact %d, %+v: %v", n+1, f, err)
		}
		r = next
	}
	return r
}

func mm(text string) job.Typed { return job.Typed{Text: text, Unit: job.MM} }
func in(text string) job.Typed { return job.Typed{Text: text, Unit: job.Inch} }

func marks(course int, low, high job.Typed) job.Read {
	return job.Read{String: course, Fret: 12, Way: job.ByMarks, Low: low, High: high}
}

// between is a reading of the neck by feelers.
func between(i job.Instrument, p job.Place, low, high job.Typed) job.Surveyed {
	s := i.Survey(p)
	s.Way, s.Low, s.High = job.ByFeeler, low, high
	return s
}

func answers(pairs ...any) (facts []job.Fact) {
	for n := 0; n < len(pairs); n += 2 {
		facts = append(facts, job.Answered{Question: pairs[n].(job.Question), Answer: pairs[n+1].(job.Answer)})
	}
	return facts
}

var flatTop = job.Instrument{ID: "i", Family: geometry.FlatTop6, Name: "The brown one", Owner: "Ada Quill"}

var quarters = job.Kit{Unit: job.MM, Marks: job.EveryQuarter, Zero: job.ZeroAtEnd}

// measured is the way to a plan for the saddle.
func measured(m job.Method, i job.Instrument, kit job.Kit, gaps [2][2]job.Typed, wanted [2]job.Typed) []job.Fact {
	facts := []job.Fact{job.Began{Method: m, Instrument: i, Kit: kit}}
	facts = append(facts, answers(job.AskSaddle, job.SaddleLoose)...)
	facts = append(facts, marks(0, gaps[0][0], gaps[0][1]), marks(i.Last(), gaps[1][0], gaps[1][1]))
	facts = append(facts, answers(job.AskStrings, job.StringsStay)...)
	facts = append(facts, job.Did{Step: job.Measure}, job.Chosen{Bass: wanted[0], Treble: wanted[1]})
	if m == job.SandUnderside {
		facts = append(facts, answers(job.AskBuzz, job.BuzzNone, job.AskRoom, job.RoomFine)...)
	}
	return append(facts, job.Did{Step: job.MakePlan})
}

// A saddle whose drawn line of 0.45 and 0.15 was touched, give or take 0.1, after which the bass read a quarter lower.
func sanded(t *testing.T) job.Record {
	facts := measured(job.SandUnderside, flatTop, quarters, [2][2]job.Typed{{mm("2.75"), mm("3.00")}, {mm("2.00"), mm("2.25")}}, [2]job.Typed{mm("2.30"), mm("1.80")})
	facts = append(facts, answers(job.AskUnder, job.UnderClear)...)
	facts = append(facts, job.Did{Step: job.TakeOut})
	facts = append(facts, answers(job.AskFollow, job.FollowPencil)...)
	facts = append(facts, job.Did{Step: job.Mark}, job.Looked{Strokes: 20, Bass: job.Touched, Middle: job.Touched, Treble: job.Touched},
		job.Did{Step: job.Sand}, job.Skipped{Step: job.Smooth})
	facts = append(facts, answers(job.AskSeat, job.SeatFlat)...)
	facts = append(facts, job.Did{Step: job.Seat})
	facts = append(facts, answers(job.AskStrung, job.StrungSame)...)
	facts = append(facts, job.Did{Step: job.StringUp}, job.Aired{Humidity: 45, Temperature: "21,5", Scale: job.Celsius},
		marks(0, mm("2.50"), mm("2.75")), marks(5, mm("2.00"), mm("2.25")), job.Judged{Outcome: job.Keep}, job.Saved{})
	return told(t, facts...)
}

// A saddle on a strip of 0.040 in, read in 64ths.
func raised(t *testing.T) job.Record {
	i := job.Instrument{ID: "i", Family: geometry.Nylon, Set: &job.Stringing{Published: geometry.NylonNormal}}
	kit := job.Kit{Unit: job.Inch, Marks: job.Every64th, Zero: job.ZeroAtEnd, Strips: [job.MostKinds]job.Strip{{Thick: in("0.020")}}}
	facts := measured(job.RaiseByStrip, i, kit, [2][2]job.Typed{{in("8/64"), in("9/64")}, {in("6/64"), in("7/64")}}, [2]job.Typed{in("0.144"), in("0.112")})
	facts = append(facts, answers(job.AskUnder, job.UnderClear)...)
	facts = append(facts, job.Did{Step: job.TakeOut}, job.Shimmed{Bass: in("0.040"), Treble: in("0.040")})
	facts = append(facts, answers(job.AskSeat, job.SeatFlat)...)
	facts = append(facts, job.Did{Step: job.Seat})
	facts = append(facts, answers(job.AskStrung, job.StrungAlike)...)
	facts = append(facts, job.Did{Step: job.StringUp}, marks(0, in("9/64"), in("10/64")), marks(5, in("7/64"), in("8/64")), job.Judged{Outcome: job.Keep}, job.Saved{})
	return told(t, facts...)
}

func turnedScrews(t *testing.T) job.Record {
	i := job.Instrument{ID: "i", Family: geometry.Bass, Bridge: job.BridgeScrews, Turns: job.Hardware{Thread: "m3"}}
	i.Set = &job.Stringing{Gauges: []job.Gauge{{Diameter: in("0.105")}, {Diameter: in("0.085")}, {}, {Diameter: mm("1.14")}}}
	facts := []job.Fact{job.Began{Method: job.ByScrews, Instrument: i, Kit: quarters}}
	facts = append(facts, answers(job.AskScrews, job.ScrewsFree)...)
	facts = append(facts, marks(0, mm("2.75"), mm("3.00")), marks(3, mm("2.25"), mm("2.50")))
	facts = append(facts, answers(job.AskStrings, job.StringsStay)...)
	facts = append(facts, job.Did{Step: job.Measure}, job.Chosen{Bass: mm("2.40"), Treble: mm("1.90")}, job.Did{Step: job.MakePlan})
	facts = append(facts, answers(job.AskWayUp, job.WayClockwise)...)
	facts = append(facts, job.Screwed{Eighths: []int{-15, -15, 0, -4}}, marks(0, mm("2.25"), mm("2.50")), marks(3, mm("2.00"), mm("2.25")),
		job.Judged{Outcome: job.Keep}, job.Saved{})
	return told(t, facts...)
}

func deepened(t *testing.T) job.Record {
	bass, treble := job.Place{Feature: job.FirstPressed}, job.Place{Feature: job.FirstPressed, Course: 5}
	facts := []job.Fact{job.Began{Method: job.NutSlots, Instrument: flatTop, Kit: quarters}}
	facts = append(facts, answers(job.AskNut, job.NutFiles)...)
	return told(t, append(facts, between(flatTop, bass, mm("0.30"), mm("0.35")), job.Filed{String: 0}, between(flatTop, bass, mm("0.20"), mm("0.22")),
		between(flatTop, treble, mm("0.10"), mm("0.12")), job.Did{Step: job.FixNut}, job.Saved{})...)
}

func straightened(t *testing.T) job.Record { return relieved(t, mm("0.20"), mm("0.25")) }

// turnedInVain is a rod whose turns show nothing.
func turnedInVain(t *testing.T) job.Record { return relieved(t, mm("0.50"), mm("0.55")) }

// relieved is a relief of 0.50 to 0.55 after three eighths of a turn.
func relieved(t *testing.T, low, high job.Typed) job.Record {
	relief := job.Place{Feature: job.Relief}
	facts := []job.Fact{job.Began{Method: job.SetRelief, Instrument: flatTop, Kit: quarters}}
	facts = append(facts, answers(job.AskRod, job.RodTurns)...)
	return told(t, append(facts, between(flatTop, relief, mm("0.50"), mm("0.55")), job.Adjusted{Feature: job.Relief, Eighths: 3}, between(flatTop, relief, low, high),
		job.Did{Step: job.FixRelief}, job.Saved{})...)
}

// The same guitar a month later: as set by the job that sanded it, and read a mark higher at the bass.
func checked(t *testing.T) job.Record {
	i := flatTop
	i.AsSet = sanded(t).Baseline()
	return told(t, job.Began{Method: job.QuickCheck, Instrument: i, Kit: quarters}, marks(0, mm("3.00"), mm("3.25")), marks(5, mm("2.00"), mm("2.25")))
}

func putAway(t *testing.T) job.Record {
	facts := measured(job.SandUnderside, flatTop, quarters, [2][2]job.Typed{{mm("2.75"), mm("3.00")}, {mm("2.00"), mm("2.25")}}, [2]job.Typed{mm("2.30"), mm("1.80")})
	facts = append(facts, answers(job.AskUnder, job.UnderClear)...)
	facts = append(facts, job.Did{Step: job.TakeOut})
	facts = append(facts, answers(job.AskFollow, job.FollowPencil)...)
	return told(t, append(facts, job.Did{Step: job.Mark}, job.Looked{Strokes: 5, Bass: job.Clear, Middle: job.Clear, Treble: job.Touched}, job.PutAway{})...)
}

const (
	always = `
When to look again
When the season turns, or the heating comes on. Also when strings of another gauge or tuning go on.

What to watch for
A new buzz, a string gone quiet, a crack, or a part that lifts: show it to a qualified repairer.
`
	settled = `
When to look again
In a few weeks, when all has settled. When the season turns, or the heating comes on. Also when strings of another gauge or tuning go on.

What to watch for
A new buzz, a string gone quiet, a crack, or a part that lifts: show it to a qualified repairer.
`
)

func TestLettersToTheOwner(t *testing.T) {
	for _, c := range []struct {
		name    string
		job     func(*testing.T) job.Record
		unit    job.Unit
		closing []string
		want    string
	}{
		{"sanded", sanded, job.MM, []string{"", "R. Quill"}, `The brown one
For Ada Quill
4 Mar 2026

The saddle is the part of the bridge that carries the strings. It was sanded from below to lower them.

What was done
0.35 to 0.55 mm came off at the bass end, 0.05 to 0.25 mm at the treble end.

How high the strings are at fret 12
Bass string: before 2.75 to 3.00 mm, now 2.50 to 2.75 mm
Treble string: before 2.00 to 2.25 mm, now 2.00 to 2.25 mm
From the top of the fret to the open string. A reading is a range: the string is somewhere in it.
Wanted: 2.30 / 1.80 mm, which the readings do not prove.

Strings and room
The same strings went back on.
Air in the room: 45 % humidity, 21.5 °C.
` + settled + `
R. Quill
`},
		// The same job for somebody who measures in inches: 2.75 is 0.1083, 0.35 is 0.0138 and 0.55 is 0.0217, 0.05 is 0.00197; 45 % stays.
		{"sanded, in inches", sanded, job.Inch, nil, `The brown one
For Ada Quill
4 Mar 2026

The saddle is the part of the bridge that carries the strings. It was sanded from below to lower them.

What was done
0.013 to 0.022 in came off at the bass end, 0.001 to 0.010 in at the treble end.

How high the strings are at fret 12
Bass string: before 0.108 to 0.119 in, now 0.098 to 0.109 in
Treble string: before 0.078 to 0.089 in, now 0.078 to 0.089 in
From the top of the fret to the open string. A reading is a range: the string is somewhere in it.
Wanted: 0.091 / 0.071 in, which the readings do not prove.

Strings and room
The same strings went back on.
Air in the room: 45 % humidity, 21.5 °C.
` + settled},
		{"raised", raised, job.Inch, []string{"See you in spring.", ""}, `Nylon-string
4 Mar 2026

The saddle is the part of the bridge that carries the strings. A strip was laid under it to raise them.

What was done
A strip of 0.040 in went under the saddle.

How high the strings are at fret 12
Bass string: before 8/64 to 9/64 in, now 9/64 to 10/64 in
Treble string: before 6/64 to 7/64 in, now 7/64 to 8/64 in
From the top of the fret to the open string. A reading is a range: the string is somewhere in it.
Wanted: 0.144 / 0.112 in, which the readings do not prove.

Strings and room
New strings of the same gauge went on.
Tuned to E A D G B E.
A set as published, normal pull.
` + settled + `
See you in spring.
`},
		// 0.105 in is 2.667 mm, 0.085 in is 2.159.
		{"screws", turnedScrews, job.MM, nil, `Bass
4 Mar 2026

The height of the strings was set at the bridge, by the screws at each string.

What was done
Bass string: 1⅞ turns down; string 3: 1⅞ turns down; treble string: ½ turn down.

How high the strings are at fret 12
Bass string: before 2.75 to 3.00 mm, now 2.25 to 2.50 mm
Treble string: before 2.25 to 2.50 mm, now 2.00 to 2.25 mm
From the top of the fret to the open string. A reading is a range: the string is somewhere in it.
Wanted: 2.40 / 1.90 mm, which the readings do not prove.

Strings and room
Tuned to E A D G.
Diameters, treble first: 1.14, ?, 2.16, 2.67 mm.
` + settled},
		{"nut slots", deepened, job.MM, nil, `The brown one
For Ada Quill
4 Mar 2026

The nut, the part that carries the strings at the head of the neck, was filed.

What was done
Nut slots deepened: bass.

The neck
Fret 1, pressed, bass: before 0.30 to 0.35 mm, now 0.20 to 0.22 mm
Fret 1, pressed, treble: now 0.10 to 0.12 mm
The gap at fret 1 tells how high the nut is.
The height at fret 12 has moved with it and was not read in this job.
` + settled},
		{"relief", straightened, job.MM, nil, `The brown one
For Ada Quill
4 Mar 2026

The bow of the neck under the strings was set.

What was done
The truss rod was tightened by ⅜ turn.

The neck
Relief: before 0.50 to 0.55 mm, now 0.20 to 0.25 mm
Relief is the slight bow of the neck.
The height at fret 12 has moved with it and was not read in this job.
` + settled},
		{"relief as before", turnedInVain, job.MM, nil, `The brown one
For Ada Quill
4 Mar 2026

The bow of the neck under the strings was set.

What was done
The truss rod was tightened by ⅜ turn.

The neck
Relief: before 0.50 to 0.55 mm, now 0.50 to 0.55 mm
Relief is the slight bow of the neck.
The relief reads as before. The height at fret 12 was not read in this job.
` + settled},
		{"check", checked, job.MM, nil, `The brown one
For Ada Quill
4 Mar 2026

The height of the strings was checked. Nothing was changed.

How high the strings are at fret 12
Bass string: as set 2.50 to 2.75 mm, now 3.00 to 3.25 mm
Treble string: as set 2.00 to 2.25 mm, now 2.00 to 2.25 mm
From the top of the fret to the open string. A reading is a range: the string is somewhere in it.
The bass side is higher than it was set; the treble side has not moved, as far as these readings tell.
It was set on 4 Mar 2026.
` + always},
		// The bass line of 0.45 is clear: at most 0.1 more is gone; the treble one of 0.15 is touched.
		{"put away", putAway, job.MM, nil, `The brown one
For Ada Quill
4 Mar 2026

The saddle is the part of the bridge that carries the strings. It was sanded from below to lower them. The job was put away before its end. It was not strung up again, as far as is recorded.

What was done
At most 0.55 mm came off at the bass end, 0.05 to 0.25 mm at the treble end.

How high the strings are at fret 12
Bass string: before 2.75 to 3.00 mm, now not read
Treble string: before 2.00 to 2.25 mm, now not read
From the top of the fret to the open string. A reading is a range: the string is somewhere in it.

Strings and room
Air in the room: 40 to 60 % humidity.
` + settled},
	} {
		l, none := c.job(t).Letter()
		if none != "" {
			t.Errorf("%s: no letter: %s", c.name, none)
			continue
		}
		if got := (words.Reader{Unit: c.unit}).Letter(l, c.closing...).Plain(); strings.ReplaceAll(got, "\u00a0", " ") != c.want {
			t.Errorf("%s:\n%s\nwant:\n%s", c.name, got, c.want)
		}
	}
}

func TestNobodyReadsTheOtherUnitInALetter(t *testing.T) {
	for unit, r := range readers {
		foreign := regexp.MustCompile(`\d[ \x{a0}]?mm\b|millimetre`)
		if unit == job.MM {
			foreign = regexp.MustCompile(`\d[ \x{a0}]?(in|thou)\b|\d"|inch|/64`)
		}
		for _, record := range []job.Record{sanded(t), raised(t), turnedScrews(t), deepened(t), straightened(t), checked(t), putAway(t)} {
			l, _ := record.Letter()
			if text := r.Letter(l).Plain(); foreign.MatchString(text) {
				t.Errorf("%s reads %q in\n%s", unit, foreign.FindString(text), text)
			}
		}
	}
}

// What a check can find, each way: a rule in quarters set 2.50 to 2.75 and 2.00 to 2.25.
func TestALetterSaysWhatACheckFound(t *testing.T) {
	base := sanded(t).Baseline()
	for _, c := range []struct {
		bass, treble [2]string
		set          *job.AsSet
		want         string
	}{
		{[2]string{"2.50", "2.75"}, [2]string{"2.00", "2.25"}, base, "Nothing has moved, as far as these readings tell."},
		{[2]string{"2.00", "2.25"}, [2]string{"2.25", "2.50"}, base, "The bass side is lower than it was set; the treble side may have moved: these readings cannot tell."},
		{[2]string{"2.50", "2.75"}, [2]string{"2.00", "2.25"}, nil, "There is nothing of before to compare with."},
	} {
		i := flatTop
		i.AsSet = c.set
		r := told(t, job.Began{Method: job.QuickCheck, Instrument: i, Kit: quarters}, marks(0, mm(c.bass[0]), mm(c.bass[1])), marks(5, mm(c.treble[0]), mm(c.treble[1])))
		l, none := r.Letter()
		if text := (words.Reader{Unit: job.MM}).Letter(l).Plain(); none != "" || !strings.Contains(text, c.want+"\n") {
			t.Errorf("%q does not say %q", text, c.want)
		}
	}
}

func TestALetterThatIsNoneSaysWhy(t *testing.T) {
	for _, n := range []job.NoLetter{job.LetterNotYet, job.LetterNothing} {
		if text := words.NoLetter(n); len(text) < 30 || !strings.HasSuffix(text, ".") {
			t.Errorf("%s: %q", n, text)
		}
	}
	if words.NoLetter(job.LetterNotYet) == words.NoLetter(job.LetterNothing) {
		t.Error("both reasons read the same")
	}
}
