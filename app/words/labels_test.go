package words_test

import (
	"flag"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

var rewriteLabels = flag.Bool("labels", false, "rewrite the list of labels")

// labels are the names, headings and buttons of the app: texts of six words at most that begin as one and do not end as a sentence.
func labels(t *testing.T) (all []string) {
	begins, ends := regexp.MustCompile(`^([“A-Z]|\d+[^-\d])`), regexp.MustCompile(`[.,]\s*$`)
	for _, s := range everythingSaid(t) {
		if len(word.FindAllString(s.text, -1)) <= 6 && begins.MatchString(s.text) && !ends.MatchString(s.text) {
			all = append(all, strings.TrimSpace(s.text))
		}
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// Each new label is read by somebody who asks: are these the trade's own words or ours, and nobody else's name?
func TestLabelsAreThoseThatSomebodyHasRead(t *testing.T) {
	file := filepath.Join("..", "..", "testdata", "words", "labels.txt")
	got := strings.Join(labels(t), "\n") + "\n"
	if *rewriteLabels {
		if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		had := strings.Split(string(want), "\n")
		for _, l := range strings.Split(got, "\n") {
			if !slices.Contains(had, l) {
				t.Errorf("nobody has read %q", l)
			}
		}
		t.Error("the list of labels has changed: go test ./app/words -run Labels -labels, then read the difference")
	}
}

// ours are the names that are ours alone.
var ours = []string{"Bench", "Kit", "Headroom", "Round", "As set", "Gapwright"}

// mayBeLarge are words with a capital inside a sentence, and why.
var mayBeLarge = map[string]string{
	"I": "the person", "A": "a quoted label", "B": "the letter on the saddle", "N": "newton", "P": "of a paper", "P150": "a paper", "P240": "a paper", "P400": "a paper", "MB": "a unit",
	"Flat": "begins a sentence", "No": "begins a sentence", "Setting": "begins a sentence", "Stand": "begins a sentence",
	"About": "a label of ours", "Saved": "a label of ours", "Add": "a browser’s menu", "Home": "a browser’s menu", "Install": "a browser’s menu", "Share": "a browser’s menu",
	"JavaScript": "a standard", "WebAssembly": "a standard", "PDF": "a standard",
}

func TestNoNameButOurOwnIsSaid(t *testing.T) {
	signs := regexp.MustCompile(`[™®©℠]|\b(Inc|Ltd|GmbH|LLC|Co)\b`)
	inside := regexp.MustCompile(`[^.?!:“(\s] [“"]?([A-Z][A-Za-z’0-9♯]*)`)
	seen := map[string]bool{}
	for _, s := range everythingSaid(t) {
		if found := signs.FindString(s.text); found != "" {
			t.Errorf("%s, %s has %q: %q", s.file, s.by, found, s.text)
		}
		for _, m := range inside.FindAllStringSubmatch(s.text, -1) {
			if _, known := mayBeLarge[m[1]]; !known && !slices.Contains(ours, m[1]) {
				t.Errorf("%s, %s names %q: %q", s.file, s.by, m[1], s.text)
			}
		}
		for _, name := range ours {
			seen[name] = seen[name] || strings.Contains(s.text, name)
		}
	}
	for _, name := range ours {
		if !seen[name] {
			t.Errorf("%s is ours and never said", name)
		}
	}
}
