package job

import (
	"os"
	"slices"
	"strings"
	"testing"
)

// written is the letter of a whole job in testdata/jobs, and then of what else is told.
func written(t *testing.T, name string, then ...string) (Letter, NoLetter) {
	t.Helper()
	text, err := os.ReadFile("../../testdata/jobs/" + name + ".txt")
	if err != nil {
		t.Fatal(err)
	}
	s := script{now: noon}
	for _, line := range append(strings.Split(string(text), "\n"), then...) {
		line, _, _ = strings.Cut(line, "#")
		if words := strings.Fields(line); len(words) > 0 && line == strings.TrimLeft(line, " \t") {
			if err := s.step(words); err != nil {
				t.Fatalf("%s: %v", line, err)
			}
		}
	}
	return s.record.Letter()
}

// row finds a place in a letter.
func (l Letter) row(feature Feature, course int) (LetterRow, bool) {
	for _, row := range append(l.Gaps[:len(l.Gaps):len(l.Gaps)], l.Neck...) {
		if row.Place == (Place{feature, course}) {
			return row, true
		}
	}
	return LetterRow{}, false
}

func TestALetterTellsWhatAJobFoundAndLeft(t *testing.T) {
	none := "-"
	for _, c := range []struct {
		job      string
		feature  Feature
		course   int
		was, now string
	}{
		{"mm-pencil-two-rounds", "", 0, "2.75..3.00", "2.25..2.50"}, // the first reading of the first round, the last of the second
		{"mm-pencil-two-rounds", "", 5, "2.00..2.25", "1.75..2.00"},
		{"already-there", "", 0, none, "3.50..3.75"},         // read once, nothing done
		{"screws-two", "", 0, "1.20..1.25", "1.70..1.75"},    // before the trial turn, not after it
		{"posts-archtop", "", 5, "2.05..2.11", "1.59..1.65"}, // by caliper: 2.08 and 1.62, give or take 0.03
		{"screws-bass", "", 1, "2.778125..3.175", none},      // 7/64 to 8/64; not read again
		{"no-proof", "", 0, "3.561..3.935", none},            // eleven cards of 0.324 to 0.328; the measuring was left out
		{"relief-first", "", 0, "2.90..2.95", "2.20..2.25"},  // before the rod was turned
		{"relief-first", Relief, 0, "0.501..0.551", "0.200..0.251"},
		{"nut-slots-open", FirstFret, 0, "0.80..0.85", "0.62..0.66"},
		{"nut-slots-open", FirstFret, 1, none, "0.52..0.56"}, // as usual, and left
		{"nut-slots-pressed", FirstFret, 0, "0.90..0.95", none},
		{"nut-slots-pressed", FirstPressed, 0, "0.30..0.33", "0.17..0.20"},
		{"what-was-heard", FirstFret, 0, "0.55..0.60", none}, // over the saddle as it was
		{"check-same-and-moved", "", 0, "2.25..2.50", "2.50..2.75"},
	} {
		l, why := written(t, c.job)
		row, ok := l.row(c.feature, c.course)
		if why != "" || !ok {
			t.Errorf("%s: no row %s %d (%s)", c.job, c.feature, c.course, why)
			continue
		}
		for _, side := range []struct {
			read LetterRead
			want string
		}{{row.Was, c.was}, {row.Now, c.now}} {
			if side.read.Known != (side.want != none) {
				t.Errorf("%s, %s %d: known is %v, want %s", c.job, c.feature, c.course, side.read.Known, side.want)
			} else if side.read.Known {
				if err := sameRange(side.read.Range, side.want); err != nil {
					t.Errorf("%s, %s %d: %v", c.job, c.feature, c.course, err)
				}
			}
		}
	}
}

func TestALetterAddsUpTheRounds(t *testing.T) {
	l, _ := written(t, "mm-pencil-two-rounds")
	w := l.Done
	// 0.35 to 0.55 and 0.20 to 0.50 at the bass end, 0.05 to 0.25 and 0.20 to 0.50 at the treble end.
	if w.Rounds != 2 || !w.Sanded || !w.Smoothed || sameRange(w.Off[0], "0.55..1.05") != nil || sameRange(w.Off[1], "0.25..0.75") != nil || !l.Proven || l.Parted {
		t.Errorf("%+v", l)
	}
	if l, _ := written(t, "screws-two"); !slices.Equal(l.Done.Turned, []int{8 + 11, 8, 5, 1, -2, -5}) {
		t.Errorf("turned %v", l.Done.Turned)
	}
	if l, _ := written(t, "strip-even"); len(l.Done.Laid) != 1 || l.Done.Laid[0] != (Shimmed{Typed{"1.05", MM}, Typed{"1.05", MM}}) || l.Strung != StrungSame {
		t.Errorf("laid %+v", l)
	}
	if l, _ := written(t, "relief-two-turns"); l.Done.Rod != 3 || !l.Done.Relief || l.Wanted != nil {
		t.Errorf("the rod %+v", l)
	}
	if l, _ := written(t, "age-and-strings"); !l.Parted || l.Strung != StrungOther || l.Proven {
		t.Errorf("other strings %+v", l)
	}
	if l, _ := written(t, "already-there"); !l.Done.Nothing() || !l.Proven || l.Room != RoomFine {
		t.Errorf("nothing done %+v", l)
	}
	if l, _ := written(t, "check-same-and-moved"); l.Check == nil || l.Check.Answer != CheckUntold || l.Away || !l.Done.Nothing() {
		t.Errorf("a check %+v", l)
	}
}

// A job that is put away tells what was done until then, and not what was read before as if it still held.
func TestALetterOfAJobThatWasPutAway(t *testing.T) {
	s := script{now: noon}
	put := func(lines ...string) {
		t.Helper()
		for _, line := range lines {
			if err := s.step(strings.Fields(line)); err != nil {
				t.Fatalf("%s: %v", line, err)
			}
		}
	}
	put("began flat-top-6 unit=mm rule=mm-1/4 zero=at-end => before-you-start")
	if _, why := s.record.Letter(); why != LetterNotYet {
		t.Errorf("under way: %q", why)
	}
	away := func() (Letter, NoLetter) {
		t.Helper()
		r, err := s.record.Apply(Event{Job: "j", Sequence: len(s.record.Events) + 1, Writer: "w", At: s.now, Fact: PutAway{}})
		if err != nil {
			t.Fatal(err)
		}
		return r.Letter()
	}
	if _, why := away(); why != LetterNothing {
		t.Errorf("nothing read: %q", why)
	}
	put("answered saddle loose => measure", "marks 0 2.75 3.00 => measure", "marks 5 2.00 2.25 => measure", "answered strings stay => measure",
		"did measure => choose", "chosen 2.30 1.80 => choose", "answered buzz none => plan", "answered room fine => plan", "did plan => take-out",
		"answered under clear => take-out", "did take-out => mark")
	l, why := away()
	if row, _ := l.row("", 0); why != "" || !l.Away || !l.Out || row.Was.Known || !row.Now.Known || !l.Done.Nothing() {
		t.Errorf("with the saddle out: %q %+v", why, l)
	}
	put("answered follow pencil => mark", "did mark => sand", "looked 2 clear clear clear => sand")
	l, _ = away()
	// 0.45 and 0.15 were drawn, and the lines are clear: up to 0.1 more.
	if row, _ := l.row("", 0); !row.Was.Known || row.Now.Known || !l.Out || l.Strung != "" || l.Wanted != nil ||
		sameRange(l.Done.Off[0], "0.00..0.55") != nil || sameRange(l.Done.Off[1], "0.00..0.25") != nil {
		t.Errorf("in the middle of sanding: %+v", l)
	}
}

// Whatever is told of a job, its letter tells something or says why not, and what it says is now is what the instrument keeps as set.
func TestEveryLetterIsTrueToItsJob(t *testing.T) {
	letters, saved := 0, 0
	for seed := range uint64(walks / 3) {
		walk(t, seed, 120, int(seed%4)*30+5, func(before, after Record, e Event, err error) {
			l, why := after.Letter()
			if after.Ended == Open {
				if why != LetterNotYet {
					t.Fatalf("seed %d: a letter of a job under way", seed)
				}
				r, err := after.Apply(Event{Job: "j", Sequence: len(after.Events) + 1, Writer: "w", At: after.Last, Fact: PutAway{}})
				if err != nil {
					return
				}
				l, why = r.Letter()
			}
			if why == "" {
				letters++
			}
			rows := append(l.Gaps[:len(l.Gaps):len(l.Gaps)], l.Neck...)
			if why == LetterNothing != (len(rows) == 0 && l.Done.Nothing()) || len(l.Shown()) > 2 {
				t.Fatalf("seed %d: %q of %+v", seed, why, l)
			}
			for _, row := range rows {
				if !row.Was.Known && !row.Now.Known || !row.Was.Range.Valid() || !row.Now.Range.Valid() {
					t.Fatalf("seed %d: %+v", seed, row)
				}
			}
			if base := after.Baseline(); base != nil {
				saved++
				for _, row := range l.Gaps {
					set, err := base.Interval(row.Course)
					if (err == nil) != row.Now.Known || err == nil && set != row.Now.Range {
						t.Fatalf("seed %d: set as %v, %v, and the letter says %+v", seed, set, err, row)
					}
				}
			}
		})
	}
	if letters < 1000 || saved < 10 {
		t.Errorf("only %d letters, %d of them of saved jobs", letters, saved)
	}
}
