package words_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"gapwright/app/job"
	"gapwright/app/words"
	"gapwright/geometry"
)

// checks are all that a check can find: every answer, and every pair of changes, at every kind of bridge, with the neck and the strings as they were or not.
func checks(each func(c job.Check, i job.Instrument)) {
	change := map[geometry.Change]geometry.Interval{geometry.Unchanged: {Low: -0.25, High: 0.25}, geometry.Higher: {Low: 0.25, High: 0.75},
		geometry.Lower: {Low: -1.25, High: -0.75}, geometry.Untold: {Low: 0, High: 0.5}}
	since := func(told geometry.Change) job.Since {
		return job.Since{Was: geometry.Interval{Low: 2, High: 2.25}, Is: geometry.Interval{Low: 2, High: 2.25}, Change: change[told], Told: told, OK: true}
	}
	for _, answer := range job.CheckAnswers() {
		for _, bass := range geometry.Changes() {
			for _, treble := range geometry.Changes() {
				moved := slices.ContainsFunc([]geometry.Change{bass, treble}, func(c geometry.Change) bool { return c == geometry.Higher || c == geometry.Lower })
				if moved != (answer == job.CheckMoved) {
					continue
				}
				for _, bridge := range job.Bridges() {
					for n := range 16 {
						c := job.Check{Answer: answer, Strings: [2]job.Since{since(bass), since(treble)}, Rebent: n&1 > 0, Restrung: n&2 > 0, Sudden: n&4 > 0, Finer: n&8 > 0,
							Relief: since(treble), Age: 20 * 24 * time.Hour}
						each(c, job.Instrument{Family: geometry.FlatTop6, Bridge: bridge})
					}
				}
			}
		}
	}
}

func TestEveryAnswerOfACheckIsSaid(t *testing.T) {
	kits := []job.Kit{{Unit: job.MM, Marks: job.EveryQuarter}, {Unit: job.Inch, Marks: job.Every64th, Cards: job.Yes}, {Unit: job.MM, Marks: job.NoRule, Caliper: job.Yes}}
	titles := map[string]bool{}
	checks(func(c job.Check, i job.Instrument) {
		titles[words.CheckTitle(c)] = true
		for _, kit := range kits {
			r := words.Reader{Unit: kit.Unit}
			lead := r.CheckLead(c, i, kit)
			_, first := words.CheckFirst(c)
			if lead == "" || len(strings.Fields(lead)) > 14 || len(strings.Fields(first)) > 11 || len(strings.Fields(words.CheckTitle(c))) > 5 {
				t.Errorf("%+v: %q, %q, %q", c, words.CheckTitle(c), lead, first)
			}
			said := append(r.SafeNow(c, i, kit), lead, r.CheckPictureText(c), r.SinceNote(c.Strings[0]), r.SinceNote(c.Strings[1]), r.ReliefSince(c.Relief))
			foreign := regexp.MustCompile(`\d[ \x{a0}]?mm\b|millimetre`)
			if kit.Unit == job.MM {
				foreign = regexp.MustCompile(`\d[ \x{a0}]?(in|thou)\b|\d"|inch`)
			}
			for _, s := range said {
				if s == "" || foreign.MatchString(s) || strings.Contains(s, "0.00 to") || strings.Contains(s, "0.000 to") {
					t.Errorf("%s, %+v: %q", kit.Unit, c, s)
				}
			}
			if turn := strings.Contains(strings.Join(said, " "), "eighth of a turn"); turn && i.Holds() != job.BridgeScrews && i.Holds() != job.BridgePosts {
				t.Errorf("a bridge of kind %q is told to turn something: %q", i.Bridge, said)
			}
		}
	})
	if len(titles) != 3+8 {
		t.Errorf("%d titles: %v", len(titles), titles)
	}
	stops := strings.Join(append(words.Waits(), words.CheckStop()), " ")
	for _, must := range []string{"Sanding", "truss rod", "bridge that lifts", "qualified repairer"} {
		if !strings.Contains(stops, must) {
			t.Errorf("nothing is said of %s: %s", must, stops)
		}
	}
}

// A caliper tells a twentieth that a rule does not: what would come out as nothing is said finer, and never as nothing.
func TestHowFarAStringMovedIsSaidAsReadingsAllow(t *testing.T) {
	told := func(low, high geometry.Length) job.Since {
		s := job.Since{Change: geometry.Interval{Low: low, High: high}, Told: geometry.Higher, OK: true}
		if high < 0 {
			s.Told = geometry.Lower
		}
		return s
	}
	mm, in := readers[job.MM], readers[job.Inch]
	for _, c := range []struct{ got, want string }{
		{mm.SinceNote(told(0.25, 0.75)), "higher by 0.25 to 0.75\u00a0mm"},
		{mm.SinceNote(told(-0.75, -0.25)), "lower by 0.25 to 0.75\u00a0mm"},
		{mm.SinceNote(told(0.04, 0.16)), "higher by 0.04 to 0.16\u00a0mm"},
		{in.SinceNote(told(0.396875, 1.190625)), "higher by 0.015 to 0.047\u00a0in"}, // 1/64 and 3/64, outward
		{mm.SinceNote(job.Since{Told: geometry.Untold, Change: geometry.Interval{Low: 0, High: 0.5}}), "cannot tell: up to 0.50\u00a0mm higher"},
		{mm.SinceNote(job.Since{Told: geometry.Untold, Change: geometry.Interval{Low: -0.5, High: 0}}), "cannot tell: up to 0.50\u00a0mm lower"},
		{mm.SinceNote(job.Since{Told: geometry.Untold, Change: geometry.Interval{Low: -0.51, High: 0.74}}), "cannot tell: 0.55\u00a0mm lower to 0.75\u00a0mm higher"},
		{in.SinceNote(job.Since{Told: geometry.Untold, Change: geometry.Interval{Low: -0.396875, High: 0.79375}}), "cannot tell: 0.016\u00a0in lower to 0.032\u00a0in higher"},
		{mm.ReliefSince(told(0.15, 0.25)), "more by 0.15 to 0.25\u00a0mm"},
		{mm.Sided("2.25 to 2.50\u00a0mm", "2.25 to 2.50\u00a0mm"), "2.25 to 2.50 → 2.25 to 2.50\u00a0mm"},
		{words.SameMarks(job.Typed{Text: "6/64", Unit: job.Inch}, job.Typed{Text: "7/64", Unit: job.Inch}), "Same: 6/64 to 7/64\u00a0in"},
		{mm.SameRead(job.Read{Way: job.ByCaliper, Low: job.Typed{Text: "2.40", Unit: job.MM}}), "Same: 2.40\u00a0mm"},
		{mm.SameRead(job.Read{Way: job.ByCards, Count: 8}), "Same: 8 cards"},
		{mm.UsualNote(geometry.Interval{Low: 2.2, High: 2.6}, geometry.Above), "higher than usual: 2.20 to 2.60\u00a0mm"},
		{mm.CheckLead(job.Check{Answer: job.CheckUntold, Finer: true, Strings: [2]job.Since{{Change: geometry.Interval{High: 0.5}}}}, job.Instrument{}, job.Kit{Feelers: job.No, Cards: job.Yes}),
			"It may lie up to 0.50\u00a0mm off. A stack of cards could tell."},
	} {
		if c.got != c.want {
			t.Errorf("said %q, want %q", c.got, c.want)
		}
	}
}
