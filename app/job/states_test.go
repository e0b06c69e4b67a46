package job

import (
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"gapwright/geometry"
)

var statesTo = flag.String("states", "", "a file that gets the events of one job for each state that a screen may have to show")

// A shownState is a job in a state of its own, and what it shows that no state before it in the list does.
type shownState struct {
	Name   string
	Shows  []string
	Events []Event
}

// shows lists what a screen of the record has to show, as names of what is asked for by wanted.
func (r Record) shows() (all []string) {
	step := r.Step()
	at := string(r.Method) + "/" + string(step)
	add := func(parts ...string) { all = append(all, strings.Join(parts, " ")) }
	add(at)
	for _, q := range Questions() {
		answer, answered := r.Answer(q)
		if asked, here := r.Method.Asks(step); here && asked == q {
			switch {
			case !answered:
				add(at, "asks", string(q))
				return all
			case q.Stops(answer):
				add(at, "stops at", string(q), string(answer))
				return all
			}
		}
		if answered && r.Method.Has(q.Step()) {
			add(string(r.Method), "knows", string(q), string(answer))
		}
	}
	switch step {
	case Measure, MeasureAgain:
		add(at, fmt.Sprint("read ", min(2, len(r.Measured(step == MeasureAgain)))))
		if r.Method == QuickCheck {
			if c, ok := r.Check(); ok {
				add("check", fmt.Sprint(c.Answer))
			}
			return all
		}
		if step == MeasureAgain {
			for _, c := range r.Compare() {
				add("verdict", verdictNames[c.Verdict])
			}
			add(at, "likely", string(r.Likely()))
		}
	case Diagnose:
		if f, out := r.NeckOut(); out {
			add("out", partNames[f.Part], standingNames[f.Standing])
		}
	case MakePlan:
		switch r.Method {
		case SandUnderside:
			if p, err := r.Plan(); err == nil {
				add("plan", string(p.Outcome))
				for _, f := range p.Findings {
					add("finding", fmt.Sprint(f.Kind), fmt.Sprint(f.Severity))
				}
			}
		case RaiseByStrip:
			if p, err := r.StripPlan(); err == nil {
				add("strip", string(p.Outcome))
			}
		case ByScrews, ByPosts:
			if p, err := r.TurnPlan(); err == nil {
				add("turn", string(r.Method), string(p.Outcome))
			}
		}
	case Sand:
		follow, _ := r.Answer(AskFollow)
		if c, err := r.Coach(); err == nil && c.Ready {
			add("coach", string(follow), coachNames[c.Verdict])
		}
	case MakeSaddle:
		for _, part := range geometry.BlankSteps() {
			if !slices.Contains(r.Current().Made, part) {
				add("makes", string(part))
				break
			}
		}
	case FixNut:
		for _, s := range r.NutSlots() {
			add("slot", string(s.State))
		}
	case FixRelief:
		if f, ok := r.ReliefFound(); ok {
			add("relief", standingNames[f.Standing])
		}
	case Finished:
		add("ended", string(r.Ended))
	}
	if len(r.Rounds) > 1 && (step == MakePlan || step == MeasureAgain) {
		add(at, "in a later round")
	}
	return all
}

// wanted lists what some state must show, made from the lists that the rest of the program goes by.
func wanted() (all []string) {
	add := func(parts ...string) { all = append(all, strings.Join(parts, " ")) }
	for _, m := range append(Methods(), QuickCheck) {
		for _, s := range Steps(m) {
			at := string(m) + "/" + string(s)
			add(at)
			q, asks := m.Asks(s)
			if !asks {
				continue
			}
			add(at, "asks", string(q))
			for _, a := range q.Answers() {
				switch {
				case !m.Minds(a):
				case q.Stops(a):
					add(at, "stops at", string(q), string(a))
				default:
					add(string(m), "knows", string(q), string(a))
				}
			}
		}
	}
	for _, a := range CheckAnswers() {
		add("check", fmt.Sprint(a))
	}
	for _, v := range geometry.Verdicts() {
		add("verdict", verdictNames[v])
	}
	for _, p := range geometry.Parts() {
		for _, s := range []geometry.Standing{geometry.Above, geometry.Below} {
			add("out", partNames[p], standingNames[s])
		}
	}
	for _, o := range PlanOutcomes() {
		add("plan", string(o))
	}
	for _, o := range StripOutcomes() {
		add("strip", string(o))
	}
	for _, o := range TurnOutcomes() {
		add("turn", string(ByScrews), string(o))
	}
	for _, k := range geometry.FindingKinds() {
		add("finding", fmt.Sprint(k), "*")
	}
	for _, v := range geometry.CoachVerdicts() {
		add("coach", "*", coachNames[v])
	}
	for _, p := range geometry.BlankSteps() {
		add("makes", string(p))
	}
	for _, s := range SlotStates() {
		add("slot", string(s))
	}
	for _, s := range geometry.Standings() {
		add("relief", standingNames[s])
	}
	for _, e := range []Ending{AsSaved, Away} {
		add("ended", string(e))
	}
	return all
}

// never lists what cannot be, and why.
var never = map[string]string{
	"out saddle above": "a saddle that is too high is what the job is about",
	"out saddle below": "a saddle that is too low is what the job is about",
	"relief unstated":  "before a reading nothing is said",
}

// matches tells whether a name is the wanted one; "*" stands for any word.
func matches(want, name string) bool {
	w, n := strings.Fields(want), strings.Fields(name)
	if len(w) != len(n) {
		return false
	}
	for i := range w {
		if w[i] != "*" && w[i] != n[i] {
			return false
		}
	}
	return true
}

// states goes through every whole job, and from each question on to each of its answers, and keeps the records that show something new.
func states(t *testing.T) (all []shownState) {
	t.Helper()
	seen := map[string]bool{}
	keep := func(r Record, from string) {
		var fresh []string
		for _, name := range r.shows() {
			if !seen[name] {
				fresh = append(fresh, name)
				seen[name] = true
			}
		}
		if len(fresh) > 0 {
			all = append(all, shownState{Name: from, Shows: fresh, Events: r.Events})
		}
	}
	files, err := filepath.Glob("../../testdata/jobs/*.txt")
	if err != nil || len(files) == 0 {
		t.Fatalf("no job scripts found: %v", err)
	}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		name := strings.TrimSuffix(filepath.Base(file), ".txt")
		s := script{now: noon}
		for n, line := range strings.Split(string(text), "\n") {
			line, _, _ = strings.Cut(line, "#")
			words := strings.Fields(line)
			if len(words) == 0 || line[0] == ' ' || line[0] == '\t' {
				continue
			}
			before := len(s.record.Events)
			if err := s.step(words); err != nil {
				t.Fatalf("%s:%d: %v", name, n+1, err)
			}
			if len(s.record.Events) == before && words[0] != "began" {
				continue
			}
			keep(s.record, fmt.Sprintf("%s %d", name, n+1))
			q, asks := s.record.Method.Asks(s.record.Step())
			if _, answered := s.record.Answer(q); !asks || answered {
				continue
			}
			for _, a := range q.Answers() {
				if !s.record.Kit.Follows(a) || !s.record.Method.Minds(a) {
					continue
				}
				r, err := s.record.Apply(Event{Job: "j", Sequence: len(s.record.Events) + 1, Writer: "w", At: s.now, Fact: Answered{q, a}})
				var refusal *Refusal
				if errors.As(err, &refusal) {
					continue // to be read first
				}
				if err != nil {
					t.Fatal(err)
				}
				keep(r, fmt.Sprintf("%s %d %s", name, n+1, a))
			}
		}
	}
	return all
}

// Every step, question, stop, finding, plan, verdict and piece of advice is shown by some state, so that a list of states forgets none.
func TestSomeJobIsInEveryState(t *testing.T) {
	all := states(t)
	for _, want := range wanted() {
		found := slices.ContainsFunc(all, func(s shownState) bool {
			return slices.ContainsFunc(s.Shows, func(name string) bool { return matches(want, name) })
		})
		why, cannot := never[want]
		switch {
		case cannot && found:
			t.Errorf("%q is shown, although %s", want, why)
		case !cannot && !found:
			t.Errorf("no job shows %q", want)
		}
	}
	t.Logf("%d states show all %d", len(all), len(wanted()))
	if *statesTo == "" {
		return
	}
	text, err := json.Marshal(all)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(*statesTo, text, 0o644); err != nil {
		t.Fatal(err)
	}
}
