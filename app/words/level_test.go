package words_test

import (
	"regexp"
	"strings"
	"testing"
)

var stop = regexp.MustCompile(`[.?!…]+[”’)]*(\s|$)|\n`)

// sentences splits a text at full stops, question marks and exclamation marks.
func sentences(text string) (all []string) {
	for _, s := range stop.Split(text, -1) {
		if s = strings.TrimSpace(s); s != "" {
			all = append(all, s)
		}
	}
	return all
}

// grade is the Flesch-Kincaid grade level, 0.39·words/sentences + 11.8·syllables/words − 15.59 (J. P. Kincaid, R. P. Fishburne, R. L. Rogers and
// B. S. Chissom, Derivation of new readability formulas for Navy enlisted personnel, 1975).
func grade(text string) float64 {
	all := word.FindAllString(text, -1)
	n := 0
	for _, w := range all {
		n += syllables(w)
	}
	return 0.39*float64(len(all))/float64(max(1, len(sentences(text)))) + 11.8*float64(n)/float64(len(all)) - 15.59
}

// The limits of what the app says: the words of a sentence, and the grade of a text of eight words or more. Labels are read as they are: a grade
// says nothing of two words.
const mostWords, mostGrade, excusedGrade, meanGrade = 22, 6, 9, 3

// What may be harder, and why.
var harder = map[string]string{
	"humidity":           "the air’s own word, of four syllables",
	"qualified repairer": "who is meant exactly so, six syllables in two words",
}

func TestEverySentenceIsShortAndPlain(t *testing.T) {
	longest, worst, all, texts, sum := 0, 0.0, 0, 0, 0.0
	for _, s := range everythingSaid(t) {
		for _, sentence := range sentences(s.text) {
			all++
			n := len(word.FindAllString(sentence, -1))
			longest = max(longest, n)
			if n > mostWords {
				t.Errorf("%s, %s: %d words, want %d at most: %q", s.file, s.by, n, mostWords, sentence)
			}
		}
		if len(word.FindAllString(s.text, -1)) < 8 {
			continue
		}
		g := grade(s.text)
		texts, sum = texts+1, sum+g
		excused := false
		for part := range harder {
			excused = excused || strings.Contains(strings.ToLower(s.text), part)
		}
		most := mostGrade
		if excused {
			most = excusedGrade
		}
		worst = max(worst, g)
		if g > float64(most) {
			t.Errorf("%s, %s: grade %.1f, want %d at most: %q", s.file, s.by, g, most, s.text)
		}
	}
	t.Logf("%d sentences, the longest has %d words; %d texts of a grade of %.1f on average, the hardest %.1f", all, longest, texts, sum/float64(texts), worst)
	if sum/float64(texts) > meanGrade || texts < 500 {
		t.Errorf("%d texts read at a grade of %.1f on average, want %d at most", texts, sum/float64(texts), meanGrade)
	}
}

func TestTheGradeTellsPlainFromHeavy(t *testing.T) {
	// Six words of one syllable in one sentence: 0.39·6 + 11.8 − 15.59 = −1.45.
	if g := grade("The cat sat on the mat."); g < -1.451 || g > -1.449 {
		t.Errorf("plain words are of grade %.3f, want -1.45", g)
	}
	if g := grade("Compensatory intonation irregularities necessitate professional reconsideration."); g < 25 {
		t.Errorf("heavy words are of grade %.1f", g)
	}
	if got := sentences("One. Two? Three: three; three … four!"); len(got) != 4 || got[2] != "Three: three; three" {
		t.Errorf("%q", got)
	}
}

// What nobody should read: shouting, haste, blame and the words of machines.
var unwanted = regexp.MustCompile(`!|\b[A-Z]{4,}\b|(?i)\b(a moment|please|simply|just click|obviously|invalid|illegal|fatal|failed|abort|null|parameters?|configure|utili[sz]e|oops|sorry|error code|database|cache|sync|metadata|user)\b`)

func TestNobodyIsShoutedAtOrBlamed(t *testing.T) {
	for _, s := range everythingSaid(t) {
		if found := unwanted.FindString(s.text); found != "" {
			t.Errorf("%s, %s says %q: %q", s.file, s.by, found, s.text)
		}
	}
}
