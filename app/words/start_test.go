package words_test

import (
	"strings"
	"testing"

	"gapwright/app/job"
	"gapwright/app/words"
	"gapwright/geometry"
)

func TestBridgesAndWorkAreNamed(t *testing.T) {
	for _, b := range job.Bridges() {
		if words.Bridge(b) == words.Bridge(job.BridgeNotAsked) || words.WorkQuestion(b).Title == "" {
			t.Errorf("%s has no name", b)
		}
	}
	for _, m := range job.Methods() {
		label, note := words.Work(m)
		if n := len(strings.Fields(label)); n == 0 || n > 6 || note == "" {
			t.Errorf("%s: %q, %q", m, label, note)
		}
	}
	for _, u := range geometry.PaperUses() {
		if (words.PaperUse(u) == "") != (u == geometry.PaperUsed) {
			t.Errorf("paper use %d: %q", u, words.PaperUse(u))
		}
	}
}

// P120 125, P180 82, P220 68, P400 35 micrometres: 125 to 68 and 68 to 35 are less than twice. 80 to 400 without a P, 191 to 23, is more than twice: half-way is 66, 220.
func TestPapersInOrder(t *testing.T) {
	papers, rough := job.Kit{Papers: "P400 P120 P180 P220"}.Order()
	if got := words.PapersTitle(papers); got != "Paper: P120, then P220, then P400" || rough {
		t.Errorf("%q, %v", got, rough)
	}
	papers, rough = job.Kit{Papers: "80 400 7"}.Order()
	lines := strings.Join(words.PaperLines(papers, rough), " ")
	for _, want := range []string{"400 is a wide step and takes long; 220 before it would help.", "7: no such number is known."} {
		if !strings.Contains(lines, want) {
			t.Errorf("%q is not in %q", want, lines)
		}
	}
	papers, rough = job.Kit{Papers: "P150"}.Order()
	if lines := words.PaperLines(papers, rough); !strings.Contains(lines[len(lines)-1], "P400 or 320") {
		t.Errorf("%q", lines)
	}
}
