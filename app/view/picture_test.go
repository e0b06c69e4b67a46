package view

import (
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"gapwright/app/draw"
	"gapwright/app/job"
	"gapwright/app/store"
	"gapwright/app/words"
	"gapwright/geometry"
)

// stepKeys are the keys of the screens of every step that have no picture of their own.
var stepKeys = map[job.Step]string{
	job.BeforeYouStart: "ask", job.Measure: "rule rule-count zero zero-distance short 0-0-way review listen", job.Diagnose: "relief first-fret", job.Choose: "ask listen",
	job.MakePlan: "ask stand finer-0 cannot-tell held-back no-cut strips-0 strip-there strip-too-low slot across old-over old-all not-ready no-plan thread tried untold trial turns turn-there",
	job.TakeOut:  "ask", job.Lay: "lay slot lay-clear", job.MakeSaddle: "make strip no-plan old-all", job.Turn: "ask turn", job.FixNut: "slots slot-high-0 slot-there-5", job.FixRelief: "relief",
	job.Mark: "ask strip mark", job.Sand: "sand waiting line-0 caliper-1 there", job.Seat: "ask", job.StringUp: "ask", job.MeasureAgain: "0-1-way verdict odd shim short listen", job.Save: "save", job.Finished: "finished",
}

var figure = regexp.MustCompile(`[0-9]+[./][0-9]+`)

// Every screen of every step of every method has a picture with a name, whatever the instrument and the hand, and what it says in figures its description says.
func TestEveryScreenOfAStepHasAPicture(t *testing.T) {
	ids := 0
	desk := store.NewDesk(store.NewDevice().Tab(), store.Options{Writer: "w", NewID: func() string { ids++; return strconv.Itoa(ids) }})
	seen := 0
	for _, family := range []geometry.FamilyID{geometry.FlatTop12, geometry.Bass, geometry.UkuleleSmall} {
		for _, m := range job.Methods() {
			for _, left := range []bool{false, true} {
				i := job.Instrument{ID: "i", Family: family, LeftHanded: left}
				r, err := job.Replay([]job.Event{{Job: "j", Sequence: 1, Writer: "w", At: time.Now(), Fact: job.Began{Method: m, Instrument: i, Kit: job.Kit{Marks: job.EveryQuarter}}}})
				if err != nil {
					t.Fatal(err)
				}
				a := &App{desk: desk, picked: map[string]int{"trial": 2}}
				for _, step := range append(job.Steps(m), job.Finished) {
					keys := strings.Fields(stepKeys[step])
					if q, asks := m.Asks(step); asks {
						for _, answer := range q.Answers() {
							if q.Stops(answer) && step != job.Measure {
								keys = append(keys, "stop-"+string(answer))
							}
						}
					}
					for _, key := range keys {
						seen++
						s, ok := a.stepScene(r, step, key)
						if step == job.Smooth {
							continue
						}
						if !ok || s.Title == "" || len(s.Shapes) < 3 {
							t.Errorf("%s, %s, %s: shown %v, named %q, %d shapes", m, step, key, ok, s.Title, len(s.Shapes))
							continue
						}
						for _, shape := range s.Shapes {
							for _, number := range figure.FindAllString(shape.Text, -1) {
								if !strings.Contains(s.Title+s.Desc, number) {
									t.Errorf("%s, %s, %s: the picture says %s, and its description %q does not", m, step, key, number, s.Desc)
								}
							}
						}
					}
				}
			}
		}
	}
	if seen < 500 {
		t.Errorf("only %d screens", seen)
	}
}

// Every act has a name of its own.
func TestEveryActIsNamed(t *testing.T) {
	names := map[string]bool{}
	for _, act := range draw.Acts() {
		name := words.ActTitle(string(act))
		if name == "" || names[name] {
			t.Errorf("%s is called %q", act, name)
		}
		names[name] = true
	}
}
