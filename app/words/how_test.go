package words_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"gapwright/app/job"
	"gapwright/app/words"
	"gapwright/geometry"
)

// stepMore is what stands behind the four sentences of a step, as the screens put it there.
func stepMore(m job.Method, s job.Step) []string {
	mm := words.Reader{Unit: job.MM}
	switch s {
	case job.FixRelief:
		return append(mm.SurveyMore(job.Relief), words.AdviceMore(geometry.PartRelief)[:2]...)
	case job.FixNut:
		return slices.Concat(mm.SurveyMore(job.FirstFret), mm.SurveyMore(job.FirstPressed)[:2], words.FileMore())
	case job.Measure, job.MeasureAgain:
		return words.ReadMore()
	case job.Diagnose:
		return append(words.AdviceMore(geometry.PartRelief), words.AdviceMore(geometry.PartNut)...)
	case job.Choose:
		return slices.Concat([]string{words.OffMore(m)}, words.ChooseMore(m), words.RoomMore())
	case job.Lay:
		return mm.LayAsk(job.StripPlan{}, job.Kit{}).More
	case job.MakeSaddle:
		return words.MakeMore()
	case job.Turn:
		return words.TurnMore(m)
	case job.Mark:
		return words.MarkMore()
	case job.Sand:
		return words.SandMore(80)
	case job.Smooth:
		return append(mm.SmoothAsk(job.Coach{}, true).More[:2:2], words.Skip(s))
	}
	return nil
}

// Every step of every method, and every question, says what to do, why, how it is seen to be right and what to do if not: each in short sentences
// of its own, none said twice on a screen.
func TestEveryStepSaysWhatToDoWhyWhenItIsRightAndWhatIfNot(t *testing.T) {
	owner, checked := map[string]string{}, 0
	check := func(m job.Method, of string, h words.How, around ...string) {
		checked++
		seen := map[string]bool{}
		for _, text := range around {
			for _, s := range sentences(text) {
				seen[s] = true
			}
		}
		for _, l := range h.Lines() {
			if len(word.FindAllString(l[1], -1)) < 4 || !strings.HasSuffix(l[1], ".") {
				t.Errorf("%s, %s, %s: %q", m, of, l[0], l[1])
			}
			for _, s := range sentences(l[1]) {
				if seen[s] {
					t.Errorf("%s, %s says twice: %q", m, of, s)
				}
				seen[s] = true
				if other, taken := owner[s]; taken && other != of {
					t.Errorf("%s says the same as %s: %q", of, other, s)
				}
				owner[s] = of
			}
			if n := len(word.FindAllString(l[1], -1)); n > 24 {
				t.Errorf("%s, %s, %s has %d words, want 24 at most: %q", m, of, l[0], n, l[1])
			}
		}
		whole := h.Do + " " + h.Why + " " + h.Right + " " + h.IfNot
		if g := grade(whole); g > 6 {
			t.Errorf("%s, %s reads at grade %.1f, want 6 at most", m, of, g)
		}
	}
	for _, m := range append(job.Methods(), job.QuickCheck) {
		for _, s := range job.Steps(m) {
			around := stepMore(m, s)
			if q, asks := m.Asks(s); asks {
				ask := words.Question(q, job.Kit{})
				around = append(around, append(ask.More, ask.Title, ask.Lead)...)
				check(m, string(q.Step())+"/"+string(q), words.QuestionHow(m, q), append(ask.More, ask.Title, ask.Lead)...)
				if words.QuestionHow(m, q) == words.StepHow(m, s) {
					continue
				}
			}
			check(m, string(s), words.StepHow(m, s), around...)
		}
	}
	if checked < 60 { // 13 + 11 + 11 + 8 + 8 + 3 + 3 + 1 steps, and questions
		t.Errorf("only %d were checked", checked)
	}
}

// How a word of the trade is said, and under which name the glossary has it. Kept by hand, apart from the app's own table.
var tradeWords = map[string]string{
	`as-set|as set\b`: "As set", `bridges?`: "Bridge", `calipers?`: "Caliper", `capo`: "Capo", `cents`: "Cents",
	`feelers?`: "Feeler", `beginner’s floor`: "Floor", `frets?`: "Fret", `gauge`: "Gauge", `hygrometer`: "Hygrometer",
	`intonation`: "Intonation", `nuts?`: "Nut", `octaves?`: "Octave", `pickups?`: "Pickup", `pitch`: "Pitch", `radius`: "Radius", `relief`: "Relief",
	`(first|this|last|next|another) round`: "Round", `saddles?`: "Saddle", `scale length`: "Scale length", `setback`: "Setback", `settles?`: "Settle",
	`shims?|strips?`: "Strip, or shim", `slots?`: "Slot", `threads?`: "Thread", `rods?`: "Truss rod", `the board|boards`: "Board", `room enough|least room`: "Headroom",
	`bass|treble`: "Bass and treble", `braces?`: "Brace", `(fine|finest|coarse) paper`: "Grit", `headstock`: "Headstock", `open strings?`: "Open string",
	`wound`: "Wound string",
}

// Each word of the trade is explained wherever it is said, and each that is explained is said somewhere.
func TestWordsOfTheTradeAreExplainedWhereTheyAreSaid(t *testing.T) {
	used, everything := map[string]bool{}, everythingSaid(t)
	for way, name := range tradeWords {
		is := regexp.MustCompile(`(?i)(^|[^a-z])(` + way + `)($|[^a-z])`)
		for _, s := range everything {
			if s.file == "terms.go" || !is.MatchString(s.text) {
				continue
			}
			used[name] = true
			if !slices.ContainsFunc(words.Terms(s.text), func(term [2]string) bool { return term[0] == name }) {
				t.Errorf("%s, %s says %q and does not explain it: %q", s.file, s.by, is.FindString(s.text), s.text)
			}
		}
	}
	heard := []string{"Action", "Blank", "Break angle", "Course", "Crown"} // outside, or said in another way
	last := ""
	for _, g := range words.Glossary() {
		if !used[g[0]] && !slices.Contains(heard, g[0]) {
			t.Errorf("%s is explained and never said", g[0])
		}
		if strings.ToLower(g[0]) < last {
			t.Errorf("%s stands after %s", g[0], last)
		}
		last = strings.ToLower(g[0])
	}
	for text, want := range map[string]string{
		"The saddle’s underside.":       "Saddle",
		"Strings at pitch, then settle": "Pitch, Settle",
		"Stripped, and a doughnut.":     "",
		"Of course, all round the edge": "",
		"Two nuts":                      "Nut",
	} {
		var got []string
		for _, term := range words.Terms(text) {
			got = append(got, term[0])
		}
		if strings.Join(got, ", ") != want {
			t.Errorf("%q explains %q, want %q", text, strings.Join(got, ", "), want)
		}
	}
}
