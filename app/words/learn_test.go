package words_test

import (
	"regexp"
	"strings"
	"testing"

	"gapwright/app/job"
	"gapwright/app/words"
)

// read is all that a page of Learn says.
func read(p words.LearnPage) string {
	said := []string{p.Title + ".", p.Lead}
	for _, part := range p.Parts {
		if part.Head != "" {
			said = append(said, part.Head+".")
		}
		for _, l := range part.Lines {
			end := " "
			if p.Kind == words.LearnTerms {
				end = ". "
			}
			said = append(said, l[0]+end+l[1])
		}
	}
	return strings.Join(said, " ")
}

var (
	word     = regexp.MustCompile(`[A-Za-z]+(’[a-z]+)?`)
	ends     = regexp.MustCompile(`[.?!:;]+(\s|$)`)
	syllable = regexp.MustCompile(`[aeiouy]+`)
	silent   = regexp.MustCompile(`[^aeiouyl]e$|[aeiouy]le$|[^aeiouytd]ed$|[^aeiouyscgxz]es$`)
)

// syllables counts groups of vowels, less an e at the end that is not heard: a careful guess.
func syllables(w string) int {
	w = strings.ToLower(w)
	n := len(syllable.FindAllString(w, -1))
	if silent.MatchString(w) {
		n--
	}
	return max(n, 1)
}

// ease is Flesch's reading ease, 206.835 − 1.015·words/sentences − 84.6·syllables/words (R. Flesch, A new readability yardstick, 1948), and how many
// words a sentence has.
func ease(text string) (score, long float64) {
	all := word.FindAllString(text, -1)
	n := 0
	for _, w := range all {
		n += syllables(w)
	}
	long = float64(len(all)) / float64(len(ends.FindAllString(text, -1)))
	return 206.835 - 1.015*long - 84.6*float64(n)/float64(len(all)), long
}

func TestReadingEaseTellsPlainFromHeavy(t *testing.T) {
	for w, want := range map[string]int{"string": 1, "saddle": 2, "nut": 1, "repairer": 3, "filed": 1, "undone": 2, "intonation": 4, "headroom": 2, "height": 1, "scale": 1, "pieces": 2} {
		if got := syllables(w); got != want {
			t.Errorf("%s has %d syllables, want %d", w, got, want)
		}
	}
	// Six words of one syllable in one sentence: 206.835 − 6.09 − 84.6 = 116.145.
	if score, long := ease("The cat sat on the mat."); score < 116.14 || score > 116.15 || long != 6 {
		t.Errorf("plain words: %.3f with %.1f words a sentence, want 116.145 and 6", score, long)
	}
	if score, _ := ease("Compensatory intonation irregularities necessitate professional reconsideration."); score > 0 {
		t.Errorf("heavy words count as %.1f", score)
	}
}

func TestPagesOfLearnAreShortAndPlain(t *testing.T) {
	for _, p := range words.Learn() {
		score, long := ease(read(p))
		t.Logf("%s: ease %.0f, %.1f words a sentence, %d words", p.ID, score, long, len(word.FindAllString(read(p), -1)))
		if score < 60 || long > 20 {
			t.Errorf("%s: reading ease %.0f with %.1f words a sentence, want 60 at least and 20 at most", p.ID, score, long)
		}
		if p.Kind != words.LearnTerms {
			if n := len(word.FindAllString(read(p), -1)); n > 200 {
				t.Errorf("%s has %d words, want 200 at most", p.ID, n)
			}
			continue
		}
		for _, l := range p.Parts[0].Lines { // each at a tap
			if n := len(word.FindAllString(l[0]+" "+l[1], -1)); n > 26 {
				t.Errorf("%s has %d words, want 26 at most", l[0], n)
			}
		}
	}
}

func TestWhatAStepDidIsSaidInThePersonsUnit(t *testing.T) {
	for _, c := range []struct {
		unit     job.Unit
		from, to job.Moves
		part     int
		want     string
	}{ // 0.09439 and 0.05; 0.06737 and 0.24279; 0.01123 and 0.10; in inches 0.0037 and 0.002
		{job.MM, job.Moves{}, job.Moves{-1, 0, 0}, job.MoveNut, "Nut 0.10\u00a0mm lower. Fret 1: 0.10\u00a0mm lower. Fret 12: 0.05\u00a0mm lower."},
		{job.MM, job.Moves{}, job.Moves{0, 1, 0}, job.MoveRelief, "Relief 0.10\u00a0mm more. Fret 1: 0.05\u00a0mm higher. Fret 12: 0.25\u00a0mm higher."},
		{job.MM, job.Moves{0, 1, 2}, job.Moves{0, 0, 2}, job.MoveRelief, "Relief 0.10\u00a0mm less. Fret 1: 0.05\u00a0mm lower. Fret 12: 0.25\u00a0mm lower."},
		{job.MM, job.Moves{-2, 3, -3}, job.Moves{-2, 3, -4}, job.MoveSaddle, "Saddle 0.20\u00a0mm lower. Fret 1: hardly moves. Fret 12: 0.10\u00a0mm lower."},
		{job.Inch, job.Moves{}, job.Moves{1, 0, 0}, job.MoveNut, "Nut 0.004\u00a0in higher. Fret 1: 0.004\u00a0in higher. Fret 12: 0.002\u00a0in higher."},
	} {
		r := words.Reader{Unit: c.unit}
		before, err := job.Learn(c.from, c.unit)
		now, err2 := job.Learn(c.to, c.unit)
		if err != nil || err2 != nil {
			t.Fatal(err, err2)
		}
		if got := r.MovedLine(c.part, before, now); got != c.want {
			t.Errorf("said %q, want %q", got, c.want)
		}
	}
	for unit, want := range map[job.Unit]string{
		job.MM:   "Nut as usual, relief 0.20\u00a0mm, saddle as usual. Gap at fret 1 0.60\u00a0mm, at fret 12 2.40\u00a0mm. Least room: held at fret 1, over fret 4. Enough for a light touch.",
		job.Inch: "Nut as usual, relief 0.008\u00a0in, saddle as usual. Gap at fret 1 0.024\u00a0in, at fret 12 0.094\u00a0in. Least room: held at fret 1, over fret 4. Enough for a light touch.",
	} {
		l, err := job.Learn(job.Moves{}, unit)
		if got := (words.Reader{Unit: unit}).LearnPictureText(l); err != nil || got != want {
			t.Errorf("%s: %q, want %q (%v)", unit, got, want, err)
		}
	}
}
