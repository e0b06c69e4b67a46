package words_test

import (
	"errors"
	"regexp"
	"strings"
	"testing"

	"gapwright/app/job"
	"gapwright/app/words"
	"gapwright/geometry"
)

func TestTurningIsSaid(t *testing.T) {
	for _, o := range job.TurnOutcomes() {
		if words.TurnPlanTitle(o) == "" || words.TurnPlanLead(o, false) == "" {
			t.Errorf("turning that is %s is not told", o)
		}
	}
	for _, c := range []struct {
		n    int
		way  job.Answer
		want string
	}{
		{0, job.WayClockwise, "none"},
		{6, job.WayClockwise, "¾ up ↻"},
		{-6, job.WayClockwise, "¾ down ↺"},
		{6, job.WayCounter, "¾ up ↺"},
		{-8, job.WayCounter, "1 down ↻"},
		{-19, job.WayUnsure, "2⅜ down"},
	} {
		if got := words.TurnBy(c.n, c.way); got != c.want {
			t.Errorf("%d eighths, %s: %q, want %q", c.n, c.way, got, c.want)
		}
	}
}

func TestWhatMovesAtTheSaddleIsSaidWithItsWay(t *testing.T) {
	for _, c := range []struct {
		bass, treble geometry.Interval
		want         string
	}{
		{geometry.Interval{Low: 0.5, High: 0.7}, geometry.Interval{Low: -0.3, High: -0.1}, "Bass down 0.50–0.70, treble up 0.10–0.30\u00a0mm"},
		{geometry.Interval{Low: 0.5, High: 0.7}, geometry.Interval{Low: 0.1, High: 0.3}, "Down: bass 0.50–0.70, treble 0.10–0.30\u00a0mm"},
		{geometry.Interval{Low: -0.1, High: 0.2}, geometry.Interval{}, "Bass up 0.10 or down 0.20, treble 0\u00a0mm"},
	} {
		if got := readers[job.MM].OffLine([2]job.Seen{{Off: c.bass, Raises: true}, {Off: c.treble, Raises: true}}); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

// Whatever is refused of threads, turns and posts has its sentence, in the person's unit.
func TestRefusedTurningSaysWhatWouldBeRight(t *testing.T) {
	for unit, r := range readers {
		foreign := regexp.MustCompile(`\d[ \x{a0}]?mm\b|millimetre`)
		if unit == job.MM {
			foreign = regexp.MustCompile(`\d[ \x{a0}]?(in|thou)\b|\d"|inch`)
		}
		general := r.Error(&geometry.RangeError{Quantity: "no such quantity", Got: 9, Min: 1, Max: 2})
		said := append(r.ThreadAsk(job.ByScrews, geometry.Threads()).More, r.ApartLabel(74), r.Tried(geometry.Interval{Low: 0.3, High: 0.5}),
			strings.Join(append(words.TurnMore(job.ByPosts), words.TurnMore(job.ByScrews)...), " "))
		for _, q := range []geometry.Quantity{geometry.QuantityPitch, geometry.QuantityTurns, geometry.QuantityPosts, geometry.QuantityLever} {
			s := r.Error(&geometry.RangeError{Quantity: q, Got: 9, Min: 1, Max: 2})
			if s == general || len(s) < 20 {
				t.Errorf("%s has no sentence: %q", q, s)
			}
			said = append(said, s)
		}
		if s := r.Error(geometry.ErrNoPitch); s == r.Error(errors.New("anything")) {
			t.Error("a screw that did not move has no sentence")
		}
		for _, s := range said {
			if foreign.MatchString(s) {
				t.Errorf("%s reads %q", unit, s)
			}
		}
	}
	for _, a := range job.AskScrews.Answers() {
		if needs := a == job.ScrewsFloating || a == job.ScrewsVibrato || a == job.ScrewsUnsure; needs != (words.Caution(job.AskScrews, a) != "") {
			t.Errorf("%s: caution %q", a, words.Caution(job.AskScrews, a))
		}
	}
}
