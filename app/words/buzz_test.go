package words_test

import (
	"strings"
	"testing"
	"unicode"

	"gapwright/app/job"
	"gapwright/app/words"
	"gapwright/geometry"
)

func everyBuzz(do func(job.Buzz)) {
	for n := range job.BuzzAnswers[0] * job.BuzzAnswers[1] * job.BuzzAnswers[2] {
		do(job.Buzz{n % 3, n / 3 % 6, n / 18})
	}
}

// Every cause says how it is confirmed and what to do, and what cannot be done at home where to stop.
func TestEveryCauseOfABuzzHasACheckAndARemedy(t *testing.T) {
	seen := map[string]bool{}
	for _, c := range job.BuzzCauses() {
		told := words.BuzzCause(c)
		if len(told.Name) < 5 || seen[told.Name] || seen[told.Check] || !strings.HasSuffix(told.Check, "?") && !strings.HasSuffix(told.Check, ".") {
			t.Errorf("cause %d: %+v", c, told)
		}
		seen[told.Name], seen[told.Check] = true, true
		if len(told.Remedy) == 0 {
			t.Errorf("%s: no remedy", told.Name)
		}
		for _, line := range told.Remedy {
			if !strings.HasSuffix(line, ".") {
				t.Errorf("%s: %q is no sentence", told.Name, line)
			}
		}
		home := c == job.CauseHard || c == job.CauseString || c == job.CauseLow // what can be put back
		if !home && !strings.Contains(strings.Join(told.Remedy, " "), "qualified repairer") {
			t.Errorf("%s does not say when to stop", told.Name)
		}
	}
	for n, answers := range job.BuzzAnswers {
		if q := words.BuzzQuestion(n); q.Title == "" || q.Lead == "" || len(q.More) == 0 {
			t.Errorf("question %d: %+v", n, q)
		}
		for answer := range answers {
			if label := words.BuzzAnswer(n, answer); label == "" || seen[label] {
				t.Errorf("question %d, answer %d: %q", n, answer, label)
			} else {
				seen[label] = true
			}
		}
	}
	everyBuzz(func(b job.Buzz) {
		if said := words.BuzzSaid(b); strings.Count(said, ",") < 1 {
			t.Errorf("%v: %q", b, said)
		}
	})
}

// The first view of an answer: heading, warning, check, what was read, and the names of the causes to follow.
func TestAnAnswerIsShort(t *testing.T) {
	guitar := job.Instrument{Family: geometry.FlatTop6}
	found := []geometry.PartFound{}
	for _, p := range geometry.Parts() {
		for _, side := range []geometry.Side{geometry.BassSide, geometry.TrebleSide} {
			found = append(found, geometry.PartFound{PartReading: geometry.PartReading{Part: p, Side: side, Read: geometry.Interval{Low: .04, High: .09},
				Usual: geometry.Interval{Low: .1, High: .3}}, Standing: geometry.Below})
		}
	}
	letters := func(text string) (n int) {
		for _, word := range strings.Fields(text) {
			if strings.ContainsFunc(word, unicode.IsLetter) && strings.Trim(word, "().,") != "mm" {
				n++
			}
		}
		return n
	}
	everyBuzz(func(b job.Buzz) {
		for _, read := range [][]geometry.PartFound{nil, found} {
			all := b.Suspects(read)
			told := words.BuzzCause(all[0].Cause)
			said := []string{words.BuzzNumbered(1, all[0].Cause), told.Check, readers[job.MM].BuzzRead(guitar, all[0]), words.BuzzIfSo(), words.BuzzStopWhen(), words.CheckDone(), words.Back()}
			for n := 1; n < min(4, len(all)); n++ {
				said = append(said, words.BuzzNumbered(n+1, all[n].Cause))
			}
			if len(all) > 4 {
				said = append(said, words.BuzzLess())
			}
			if b[2] == job.SinceSuddenly {
				said = append(said, words.BuzzSudden())
			}
			if n := letters(strings.Join(said, " ")); n > 45 {
				t.Errorf("%v: %d words: %q", b, n, said)
			}
		}
	})
}

// Relief of 0.05 to 0.10 mm where 0.10 to 0.30 is usual is told as read, in the person's own unit: 0.05 mm is 0.0020 in and 0.08 mm 0.0031 in to the
// nearest; what is usual goes outwards, 0.0039 in down and 0.0118 in up.
func TestWhatWasReadOfABuzz(t *testing.T) {
	guitar := job.Instrument{Family: geometry.FlatTop6}
	part := func(p geometry.Part, side geometry.Side, read, usual geometry.Interval) job.Suspect {
		return job.Suspect{Read: []geometry.PartFound{{PartReading: geometry.PartReading{Part: p, Side: side, Read: read, Usual: usual}, Standing: geometry.Compare(read, usual)}}}
	}
	flat := part(geometry.PartRelief, 0, geometry.Interval{Low: .05, High: .08}, geometry.Interval{Low: .1, High: .3})
	flat.For = true
	nut := part(geometry.PartNut, 1, geometry.Interval{Low: .4, High: .45}, geometry.Interval{Low: .35, High: .5})
	for _, c := range []struct {
		s    job.Suspect
		unit job.Unit
		want string
	}{
		{flat, job.MM, "For it: relief 0.05 to 0.08\u00a0mm, less than usual (0.10 to 0.30\u00a0mm)"},
		{flat, job.Inch, "For it: relief 0.002 to 0.003\u00a0in, less than usual (0.003 to 0.012\u00a0in)"},
		{nut, job.MM, "Against it: fret 1, treble 0.40 to 0.45\u00a0mm, usual (0.35 to 0.50\u00a0mm)"},
		{job.Suspect{}, job.MM, ""},
	} {
		if got := readers[c.unit].BuzzRead(guitar, c.s); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}
