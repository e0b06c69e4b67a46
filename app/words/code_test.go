package words

import (
	"errors"
	"strings"
	"testing"
	"time"

	"gapwright/app/job"
	"gapwright/geometry"
)

// Every way in which handing over can fail has its own sentence, which says what to do.
func TestEveryRefusalOfACodeHasASentence(t *testing.T) {
	said := map[string]string{}
	once := func(what, text string) {
		t.Helper()
		if len(text) < 30 || !strings.HasSuffix(text, ".") || said[text] != "" {
			t.Errorf("%s: %q, said before of %q", what, text, said[text])
		}
		said[text] = what
	}
	for _, err := range job.CodeRefusals() {
		once(err.Error(), CodeRefused(err))
	}
	for _, fail := range []string{"refused", "missing", "busy", "unreadable", "none", "anything else"} {
		once(fail, CodeFailed(fail))
	}
	if got := CodeFailed("stopped"); got != "" {
		t.Errorf("a camera that was closed is spoken of: %q", got)
	}
	if got := CodeRefused(errors.New("x")); got != CodeRefused(job.ErrCodeDamaged) {
		t.Errorf("anything else is %q", got)
	}
}

func TestWhatHadNoRoomIsNamed(t *testing.T) {
	if got := CodeWithout(nil); got != "" {
		t.Errorf("all in, and yet: %q", got)
	}
	if got, want := CodeWithout([]job.CodePart{job.CodeStrings, job.CodeOwner}), "No room was left for: the strings and their tuning; whose it is."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	for _, part := range job.CodeParts() {
		if codePart(part) == "" {
			t.Errorf("part %d has no name", part)
		}
	}
}

func TestWhatWasReadIsCompared(t *testing.T) {
	at := time.Date(2026, 5, 3, 16, 20, 0, 0, time.UTC)
	set := func(at time.Time) job.Instrument {
		return job.Instrument{Family: geometry.FlatTop6, AsSet: &job.AsSet{At: at}}
	}
	for _, row := range []struct {
		mine, read job.Instrument
		want       string
	}{
		{set(at), set(at), "Both were set at the same time."},
		{set(at), set(at.AddDate(0, 0, 4)), "Its numbers are newer than yours: 7 May 2026, yours 3 May 2026."},
		{set(at), set(at.AddDate(0, -1, 0)), "Its numbers are older than yours: 3 Apr 2026, yours 3 May 2026."},
		{set(at), set(at.Add(time.Hour)), "Its numbers are newer than yours, of the same day."},
		{job.Instrument{}, set(at), "Yours has not been set yet."},
		{set(at), job.Instrument{}, "The one that was read has not been set yet."},
	} {
		if got := CodeBeside(row.mine, row.read); got != "You have this instrument already. "+row.want {
			t.Errorf("%q, want %q", got, row.want)
		}
	}
}

func TestWhatWasReadIsSaid(t *testing.T) {
	feeler := func(f job.Feature, course int, low, high string) job.Surveyed {
		return job.Surveyed{Feature: f, Read: job.Read{String: course, Fret: 1, Way: job.ByFeeler, Low: job.Typed{Text: low, Unit: job.MM}, High: job.Typed{Text: high, Unit: job.MM}}}
	}
	i := job.Instrument{Family: geometry.Nylon, Owner: "Ann", Scale: job.Typed{Text: "650", Unit: job.MM}, AsSet: &job.AsSet{Neck: []job.Surveyed{
		feeler(job.Relief, 0, "0.20", "0.25"), feeler(job.FirstFret, 2, "0.60", "0.65"), feeler(job.FirstPressed, 5, "0.10", "0.15")}}}
	var got []string
	for _, row := range (Reader{Unit: job.MM}).ReceivedRows(i) {
		got = append(got, row[0]+": "+row[1])
	}
	want := "Kind: Nylon-string; Owner: Ann; Scale length: 650\u00a0mm; Relief: 0.20 to 0.25\u00a0mm; Fret 1, pressed, treble: 0.10 to 0.15\u00a0mm"
	if text := strings.Join(got, "; "); text != want {
		t.Errorf("%s\nwant %s", text, want)
	}
}
