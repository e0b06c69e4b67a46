package job

import (
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"gapwright/geometry"
)

// The job scripts in testdata/jobs are whole jobs as text. A line at the left margin is one fact and ends in what it leads to:
//
//	did plan => take-out            the step that follows
//	did plan => refused stale       or the kind of its refusal
//
// An indented line below it states a number in millimetres, worked out by hand, or a name. '#' begins a comment. Lengths in facts are as
// typed, in the unit of the kit unless they say another. 'wait 26h' lets time pass. There is no way to rewrite the numbers from a run.
func TestJobScripts(t *testing.T) {
	files, err := filepath.Glob("../../testdata/jobs/*.txt")
	if err != nil || len(files) == 0 {
		t.Fatalf("no job scripts found: %v", err)
	}
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".txt"), func(t *testing.T) {
			text, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			s := script{now: noon}
			facts := 0
			for n, line := range strings.Split(string(text), "\n") {
				line, _, _ = strings.Cut(line, "#")
				words := strings.Fields(line)
				if len(words) == 0 {
					continue
				}
				var err error
				if strings.HasPrefix(line, " ") || strings.HasPrefix(line, "\t") {
					err = s.check(words)
				} else {
					facts++
					err = s.step(words)
				}
				if err != nil {
					t.Fatalf("%s:%d: %s: %v", filepath.Base(file), n+1, strings.TrimSpace(line), err)
				}
			}
			if facts == 0 {
				t.Fatal("a script without a single fact")
			}
			if again, err := Replay(s.record.Events); err != nil || again.Step() != s.record.Step() {
				t.Errorf("read again from its events: step %s, %v", again.Step(), err)
			}
		})
	}
}

type script struct {
	record Record
	now    time.Time
}

// step applies one fact and looks at what it led to.
func (s *script) step(words []string) error {
	if words[0] == "wait" {
		d, err := time.ParseDuration(words[1])
		s.now = s.now.Add(d)
		return err
	}
	arrow := len(words) - 1
	for arrow > 0 && words[arrow] != "=>" {
		arrow--
	}
	if arrow == 0 {
		return errors.New("does not say what it leads to")
	}
	want := strings.Join(words[arrow+1:], " ")
	if words[0] == "began" && s.record.Over() { // the next job on the same instrument, as the last one left it
		next := s.record.Instrument
		if base := s.record.Baseline(); base != nil {
			next.AsSet = base
		}
		s.record = Record{state: state{Instrument: next, Kit: s.record.Kit}}
	}
	fact, err := s.fact(words[:arrow])
	if err != nil {
		return err
	}
	s.now = s.now.Add(time.Minute)
	next, err := s.record.Apply(Event{Job: "j", Sequence: len(s.record.Events) + 1, Writer: "w", At: s.now, Fact: fact})
	got := string(next.Step())
	var refusal *Refusal
	if errors.As(err, &refusal) {
		got = "refused " + string(refusal.Kind)
	}
	if got != want {
		return fmt.Errorf("leads to %q (%v), want %q", got, err, want)
	}
	s.record = next
	return nil
}

// settings reads key=value words; a bare word is a key that is set.
func settings(words []string) map[string]string {
	set := map[string]string{}
	for _, w := range words {
		key, value, _ := strings.Cut(w, "=")
		set[key] = value
	}
	return set
}

func (s *script) typed(text string) Typed {
	if text == "" || text == "-" {
		return Typed{}
	}
	return Typed{strings.ReplaceAll(text, "_", " "), s.record.Kit.Unit}
}

func (s *script) kit(set map[string]string) Kit {
	kit := s.record.Kit
	for key, value := range set {
		switch key {
		case "unit":
			kit.Unit = Unit(value)
		case "rule":
			kit.Marks = Marks(value)
		case "zero":
			kit.Zero = Zero(value)
		case "caliper":
			kit.Caliper = Has(value)
		case "papers":
			kit.Papers = strings.ReplaceAll(value, "_", " ")
		case "grit":
			kit.Grit, _ = strconv.Atoi(value)
		case "strips":
			kit.Strips = strips(value, kit.Unit)
		}
	}
	if value, given := set["zero-at"]; given {
		kit.ZeroDist = Typed{value, kit.Unit}
	}
	return kit
}

func (s *script) profile(set map[string]string) Instrument {
	profile := s.record.Instrument
	for key, value := range set {
		switch key {
		case "name":
			profile.Name = value
		case "fret":
			profile.Fret, _ = strconv.Atoi(value)
		case "body":
			profile.Body, _ = strconv.Atoi(value)
		case "frets":
			profile.Frets, _ = strconv.Atoi(value)
		case "held":
			profile.Held, _ = strconv.Atoi(value)
		case "scale":
			profile.Scale = Typed{value, MM}
		case "treble-scale":
			profile.Treble = Typed{}
			if value != "-" {
				profile.Treble = Typed{value, MM}
			}
		case "setback":
			profile.Setback = Typed{value, MM}
		case "saddle":
			profile.Saddle = Typed{value, MM}
		case "spread":
			profile.Spread = Typed{value, MM}
		case "radius":
			profile.Radius = Typed{value, MM}
		case "thread":
			profile.Turns.Thread = geometry.ThreadID(value)
		case "turned":
			profile.Turns.Turned, _ = strconv.Atoi(value)
		case "moved":
			profile.Turns.Moved = Typed{value, MM}
		case "give":
			profile.Turns.Give = Typed{value, MM}
		case "screws":
			profile.Turns.Screws, _ = strconv.Atoi(value)
		case "apart":
			profile.Turns.Apart = Typed{value, MM}
		case "behind":
			profile.Turns.Behind = Typed{value, MM}
		case "rest":
			profile.Turns.Rest = Typed{value, MM}
		case "gap-bass", "gap-treble", "relief", "first-bass", "first-treble", "floor", "beginner": // what is usual of it: low and high, or bass and treble; '-': the family's
			part := map[string]WontPart{"gap": WontGap, "relief": WontRelief, "first": WontFirst, "floor": WontFloor, "beginner": WontBeginner}
			name, side, _ := strings.Cut(key, "-")
			fields := part[name].Fields()
			if side == "treble" {
				fields = fields[2:]
			}
			for n, text := range strings.Split(value, "..") {
				typed := Typed{}
				if text != "-" {
					typed = Typed{text, MM}
				}
				profile = profile.WithWont(fields[n], typed)
			}
		}
	}
	return profile
}

func (s *script) fact(words []string) (fact Fact, err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("too few words: %v", p)
		}
	}()
	word := func(n int) string { return words[n] }
	number := func(n int) int {
		i, e := strconv.Atoi(words[n])
		err = errors.Join(err, e)
		return i
	}
	read := func(way Way, rest int) Read {
		set := settings(words[rest:])
		read := Read{String: number(1), Fret: s.record.Instrument.ReadFret(), Held: s.record.Instrument.Held, Way: way}
		_, read.Replaces = set["replaces"]
		if fret, given := set["fret"]; given {
			read.Fret, _ = strconv.Atoi(fret)
		}
		return read
	}
	switch words[0] {
	case "began":
		set := settings(words[2:])
		profile := s.profile(set)
		profile.ID, profile.Family = "i", geometry.FamilyID(word(1))
		method := SandUnderside
		if m, given := set["method"]; given {
			method = Method(m)
		}
		if method == QuickCheck {
			profile = profile.ToCheck()
		}
		return Began{Method: method, Instrument: profile, Kit: s.kit(set)}, err
	case "equipped":
		return Equipped{s.kit(settings(words[1:]))}, err
	case "described":
		return Described{s.profile(settings(words[1:]))}, err
	case "answered":
		return Answered{Question(word(1)), Answer(word(2))}, err
	case "marks":
		r, kit := read(ByMarks, 4), s.record.Kit
		r.Low, r.High, r.End, r.EndGive, r.EndCut = s.typed(word(2)), s.typed(word(3)), kit.end(), kit.endGive(), kit.Zero == ZeroCutOff
		return r, err
	case "caliper":
		r := read(ByCaliper, 3)
		r.Low = s.typed(word(2))
		return r, err
	case "feeler":
		r := read(ByFeeler, 4)
		r.Low, r.High = s.typed(word(2)), s.typed(word(3))
		return r, err
	case "cards":
		r := read(ByCards, 4)
		r.Count, r.TenThick = number(2), s.typed(word(3))
		return r, err
	case "relief": // by feelers, at the usual place unless it says another
		r, set := read(ByFeeler, 4), settings(words[4:])
		place := func(key string, usual int) int {
			if value, given := set[key]; given {
				usual, _ = strconv.Atoi(value)
			}
			return usual
		}
		held, at, to := s.record.Instrument.ReliefPlace()
		r.Low, r.High, r.Held, r.Fret = s.typed(word(2)), s.typed(word(3)), place("from", held), place("at", at)
		return Surveyed{Feature: Relief, Read: r, To: place("to", to)}, err
	case "first":
		r := read(ByFeeler, 4)
		r.Low, r.High, r.Fret, r.Held = s.typed(word(2)), s.typed(word(3)), 1, 0
		return Surveyed{Feature: FirstFret, Read: r}, err
	case "pressed": // between frets 2 and 3, read at fret 1
		r := read(ByFeeler, 4)
		r.Low, r.High, r.Fret, r.Held = s.typed(word(2)), s.typed(word(3)), 1, 0
		return Surveyed{Feature: FirstPressed, Read: r, To: 3}, err
	case "filed":
		return Filed{number(1), s.typed(settings(words[2:])["wanted"])}, err
	case "listened":
		if word(2) == "everywhere" {
			return Listened{String: number(1), Everywhere: true}, err
		}
		return Listened{String: number(1), Stop: number(2), Buzzed: word(3) == "buzzed"}, err
	case "adjusted":
		return Adjusted{Feature: Feature(word(1)), Eighths: number(2)}, err
	case "made":
		_, open := settings(words[2:])["open"]
		return Made{Part: geometry.BlankStep(word(1)), Open: open}, err
	case "left-alone":
		return LeftAlone{Feature(word(1))}, err
	case "strung":
		return Strung{Strings: word(1), Tuning: word(2)}, err
	case "stood":
		side := map[string]int{"bass": 0, "treble": 1}[word(1)]
		set := settings(words[3:])
		return Stood{Side: side, Exposure: s.typed(word(2)), Give: s.typed(set["give"]), Behind: s.typed(set["behind"]), Depth: s.typed(set["depth"])}, err
	case "slotted": // length, width and depth, '-' for what nobody measured
		set := settings(words[4:])
		return Slotted{Length: s.typed(word(1)), Width: s.typed(word(2)), Depth: s.typed(word(3)), Across: Rounded(set["across"]), Bass: s.typed(set["bass"]),
			Treble: s.typed(set["treble"]), Give: s.typed(set["give"])}, err
	case "chosen":
		_, own := settings(words[3:])["own"]
		return Chosen{Bass: s.typed(word(1)), Treble: s.typed(word(2)), Own: own}, err
	case "did":
		return Did{Step(word(1))}, err
	case "skipped":
		return Skipped{Step(word(1))}, err
	case "checked":
		set := settings(words[4:])
		_, replaces := set["replaces"]
		return Checked{Strokes: number(1), Bass: s.typed(word(2)), Treble: s.typed(word(3)), Accuracy: s.typed(set["accuracy"]), Replaces: replaces}, err
	case "looked":
		return Looked{Strokes: number(1), Bass: Line(word(2)), Middle: Line(word(3)), Treble: Line(word(4))}, err
	case "judged":
		return Judged{Outcome(word(1))}, err
	case "screwed": // in eighths of a turn, up above zero
		var f Screwed
		for n := range words[1:] {
			f.Eighths = append(f.Eighths, number(n+1))
		}
		return f, err
	case "shimmed":
		return Shimmed{Bass: s.typed(word(1)), Treble: s.typed(word(2))}, err
	case "noted":
		return Noted{strings.Join(words[1:], " ")}, err
	case "saved":
		return Saved{}, err
	case "put-away":
		return PutAway{}, err
	case "undone":
		if word(1) == "last" {
			sequence, _, _ := s.record.Undoable()
			return Undone{sequence}, err
		}
		return Undone{number(1)}, err
	}
	return nil, errors.New("unknown fact")
}

var partNames = map[geometry.Part]string{geometry.PartRelief: "relief", geometry.PartNut: "nut", geometry.PartSaddle: "saddle"}

var standingNames = map[geometry.Standing]string{geometry.Usual: "usual", geometry.Above: "above", geometry.Below: "below", geometry.Unclear: "unclear",
	geometry.Unstated: "unstated"}

var verdictNames = map[geometry.Verdict]string{geometry.Reached: "reached", geometry.StillHigh: "still-high", geometry.TooLow: "too-low",
	geometry.CannotTell: "cannot-tell"}

var coachNames = map[geometry.CoachVerdict]string{geometry.KeepLevel: "keep-level", geometry.FavourBass: "favour-bass",
	geometry.FavourTreble: "favour-treble", geometry.AtLine: "at-line", geometry.PastLine: "past-line", geometry.Hollow: "hollow",
	geometry.Rounded: "rounded"}

// near is how far a number of a script may be from the one worked out: they are written to a hundredth of a thousandth at the most.
const near = 6e-6

func same3(got geometry.Length, want string) error {
	w, err := strconv.ParseFloat(want, 64)
	if err != nil {
		return err
	}
	decimals := len(want) - strings.IndexByte(want+".", '.') - 1
	if math.Abs(float64(got)-w) > max(near, 0.51*math.Pow(10, -float64(max(2, decimals)))) || decimals < 2 {
		return fmt.Errorf("got %.6f, want %s (at least two decimals)", float64(got), want)
	}
	return nil
}

func sameRange(got geometry.Interval, want string) error {
	low, high, ok := strings.Cut(want, "..")
	if !ok {
		return errors.New("not a range")
	}
	return errors.Join(same3(got.Low, low), same3(got.High, high))
}

func sameWord(got, want string) error {
	if got != want {
		return fmt.Errorf("got %s", got)
	}
	return nil
}

// check compares one number or name of the record with the script's.
func (s *script) check(words []string) (err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("%v", p)
		}
	}()
	r := s.record
	switch words[0] {
	case "round":
		return sameWord(strconv.Itoa(r.Current().Number), words[1])
	case "now": // the step when today is taken into account
		return sameWord(string(r.StepAt(s.now)), words[1])
	case "undoable":
		_, _, ok := r.Undoable()
		return sameWord(map[bool]string{true: "yes", false: "no"}[ok], words[1])
	case "made": // parts of a new saddle
		var parts []string
		for _, p := range s.record.Current().Made {
			parts = append(parts, string(p))
		}
		return sameWord(strings.Join(parts, " "), strings.Join(words[1:], " "))
	case "gone":
		return sameWord(map[bool]string{true: "yes", false: "no"}[r.Current().MaterialGone()], words[1])
	case "strokes":
		return sameWord(strconv.Itoa(r.Current().Strokes()), words[1])
	case "removed":
		return sameRange(r.Current().removed()[side(words[1])], words[2])
	case "read":
		i, err := r.After(course(words[1]))
		return errors.Join(err, sameRange(i, words[2]))
	case "before":
		i, err := r.Before(course(words[1]))
		return errors.Join(err, sameRange(i, words[2]))
	case "shortfall":
		return sameRange(r.Shortfall(course(words[1])), words[2])
	case "lowest":
		l, ok := r.LowestGap(course(words[1]))
		if !ok {
			return errors.New("not known")
		}
		return same3(l, words[2])
	case "baseline":
		got := "none"
		if b := r.Baseline(); b != nil {
			got = map[bool]string{true: "proven", false: "unproven"}[b.Proven] + fmt.Sprintf(" %d", len(b.Readings))
		}
		return sameWord(got, strings.Join(words[1:], " "))
	case "predicted", "both", "verdict", "meets":
		for _, c := range r.Compare() {
			if c.Course != course(words[1]) {
				continue
			}
			switch words[0] {
			case "predicted":
				return sameRange(c.Predicted, words[2])
			case "both":
				return sameRange(c.Both, words[2])
			case "verdict":
				return sameWord(verdictNames[c.Verdict], words[2])
			}
			got := map[bool]string{true: "yes", false: "no"}[c.Meets]
			if !c.Compares {
				got = "not-compared"
			}
			return sameWord(got, words[2])
		}
		return errors.New("not read again")
	case "coach":
		c, err := r.Coach()
		if err != nil {
			return err
		}
		if !c.Ready {
			return sameWord("not-ready", words[1])
		}
		if len(words) > 2 { // how many strokes is geometry's to say and to hold; here only where there is a reason of the job's own
			return sameWord(coachNames[c.Verdict]+" "+strconv.Itoa(c.Strokes), strings.Join(words[1:], " "))
		}
		return sameWord(coachNames[c.Verdict], words[1])
	case "stop-at": // the caliper's reading at which to stop
		c, err := r.Coach()
		return errors.Join(err, same3(c.TargetBass, words[1]), same3(c.TargetTreble, words[2]))
	case "survey":
		i, err := r.Surveys(Feature(words[1]), course(words[2]))
		if errors.Is(err, geometry.ErrNoReading) {
			return sameWord("not-read", words[3])
		}
		return errors.Join(err, sameRange(i, words[3]))
	case "out", "moves": // what is put right first, how far it is out, and what that does to the gap at fret 12
		f, out := r.NeckOut()
		if !out {
			return sameWord("none", words[1])
		}
		if words[0] == "moves" {
			return sameRange(f.Moves, words[1])
		}
		return errors.Join(sameWord(partNames[f.Part]+" "+standingNames[f.Standing]+" "+[]string{"bass", "treble"}[f.Side], strings.Join(words[1:4], " ")),
			sameRange(f.Out, words[4]))
	case "found": // every part in order, as it stands
		all, err := r.Diagnosis()
		var got []string
		for _, f := range all {
			got = append(got, partNames[f.Part]+"-"+standingNames[f.Standing])
		}
		return errors.Join(err, sameWord(strings.Join(got, " "), strings.Join(words[1:], " ")))
	case "slot": // of a course: its state, and where it may be filed, how deep at most this time
		slot := r.NutSlot(course(words[1]), 0)
		if slot.State != SlotHigh {
			return sameWord(string(slot.State), words[2])
		}
		return errors.Join(sameWord(string(slot.State), words[2]), same3(slot.Stop, words[3]))
	case "slot-wanted":
		return same3(r.NutSlot(course(words[1]), 0).Wanted, words[2])
	case "slot-usual":
		return sameRange(r.NutSlot(course(words[1]), 0).Usual, words[2])
	case "slot-leaves":
		return sameRange(r.NutSlot(course(words[1]), 0).Leaves, words[2])
	case "slot-at-12":
		return sameRange(r.NutSlot(course(words[1]), 0).At12, words[2])
	case "slot-under":
		return sameWord(map[bool]string{true: "yes", false: "no"}[r.NutSlot(course(words[1]), 0).Under], words[2])
	case "next-slot":
		slot, ok := r.NextSlot(-1)
		if !ok {
			return sameWord("none", words[1])
		}
		return sameWord(strconv.Itoa(slot.Course), words[1])
	case "changed": // what a place of the neck was and is, and what that did at fret 12
		for _, n := range r.NeckReads() {
			if string(n.Feature) == words[1] && n.Course == course(words[2]) {
				if !n.Changed {
					return errors.Join(sameWord("not-changed", words[3]), sameRange(n.Now, words[4]))
				}
				return errors.Join(sameRange(n.Was, words[3]), sameRange(n.Now, words[4]), sameRange(n.At12, words[5]))
			}
		}
		return sameWord("not-read", words[3])
	case "turn": // how many eighths are advised, and how far the rod may be turned each way
		looser, tighter := r.TurnsLeft(s.now)
		return sameWord(fmt.Sprint(r.TurnAdvised(s.now), looser, tighter), strings.Join(words[1:], " "))
	case "per-eighth":
		i, ok := r.PerEighth()
		if !ok {
			return sameWord("not-known", words[1])
		}
		return sameRange(i, words[1])
	case "room": // of a course, now or after the strings went back on, at a stop; and the fret it touches first
		rooms, _, err := r.Rooms(course(words[1]), words[2] == "after", MixedPlayer)
		if err != nil {
			return err
		}
		room := rooms.All[course(words[3])]
		return errors.Join(sameRange(room.Free, words[4]), sameWord(strconv.Itoa(room.First), words[5]))
	case "touch":
		touch, err := r.OwnTouch(geometry.Side(side(words[1])))
		switch {
		case errors.Is(err, geometry.ErrTouch):
			return sameWord("contradiction", words[2])
		case errors.Is(err, geometry.ErrNoReading):
			return sameWord("not-known", words[2])
		}
		return errors.Join(err, sameRange(touch.Needs, words[2]))
	case "suits": // the lowest height that suits the person's own touch, and the stop and fret that decide it
		x, err := r.Explore(OwnPlayer)
		if err != nil {
			return err
		}
		seen, err := x.Side(side(words[1]), 2)
		if err != nil || !seen.Suited {
			return errors.Join(err, sameWord("not-known", words[2]))
		}
		return errors.Join(sameRange(seen.Suits.Gap, words[2]), sameWord(fmt.Sprint(seen.Suits.Stop, " ", seen.Suits.First), strings.Join(words[3:], " ")))
	case "crown", "seat": // whether the saddle's top follows the board and by how much it misses; by how much one seat stands high
		c, courses, err := r.Crown(false)
		if err != nil {
			return sameWord("not-known", words[1])
		}
		if words[0] == "seat" {
			for i, other := range courses {
				if other == course(words[1]) {
					return sameRange(c.High[i], words[2])
				}
			}
			return errors.New("not read")
		}
		if c.Follows {
			return sameWord("follows", words[1])
		}
		return errors.Join(sameWord("out", words[1]), same3(c.Out, words[2]))
	case "over":
		return sameWord(map[bool]string{true: "yes", false: "no"}[r.Over()], words[1])
	case "check":
		return s.quickCheck(words[1:])
	case "likely":
		return sameWord(string(r.Likely()), words[1])
	case "strip": // what goes under the saddle
		return s.strip(words[1:])
	case "screw": // what is to be turned
		return s.turning(words[1:])
	case "new": // the saddle to be made
		return s.newSaddle(words[1:])
	case "marked":
		line, ok := r.DrawnLine()
		if !ok {
			return errors.New("no line")
		}
		return errors.Join(same3(line.Bass, words[1]), same3(line.Treble, words[2]))
	}
	p, err := r.Plan()
	if err != nil {
		return err
	}
	switch words[0] {
	case "plan":
		return sameWord(string(p.Outcome), words[1])
	case "half-way":
		return sameWord(map[bool]string{true: "yes", false: "no"}[p.HalfWay], words[1])
	case "drawn":
		return errors.Join(same3(p.Drawn.Bass, words[1]), same3(p.Drawn.Treble, words[2]))
	case "stop":
		return errors.Join(same3(p.Stop.Line.Bass, words[1]), same3(p.Stop.Line.Treble, words[2]))
	case "smooth":
		return errors.Join(same3(p.Stop.SmoothBass, words[1]), same3(p.Stop.SmoothTreble, words[2]))
	case "whole":
		switch words[1] {
		case "bass":
			return sameRange(p.Whole.Bass, words[2])
		case "treble":
			return sameRange(p.Whole.Treble, words[2])
		}
		return sameRange(planned(p, words[1]).Whole, words[2])
	case "after":
		return sameRange(planned(p, words[1]).After, words[2])
	case "floor":
		return same3(planned(p, words[1]).Floor, words[2])
	case "leverage":
		return same3(geometry.Length(planned(p, words[1]).Leverage), words[2])
	case "held-by":
		return errors.Join(sameWord(strconv.Itoa(p.HeldBy), words[1]), same3(p.HeldTarget, words[2]),
			sameWord(map[bool]string{true: "helps", false: "does-not-help"}[p.HeldHelps], words[3]))
	case "left":
		return sameRange(p.Left[side(words[1])].AfterRound, words[2])
	case "room-after-round": // of a course at a stop, once this plan's round is done; and the fret it touches first
		rooms, err := r.RoomsAfter(p, course(words[1]), MixedPlayer)
		if err != nil {
			return err
		}
		room := rooms.All[course(words[2])]
		return errors.Join(sameRange(room.Free, words[3]), sameWord(strconv.Itoa(room.First), words[4]))
	case "leaves":
		return same3(planned(p, words[1]).Leaves, words[2])
	case "finding":
		var got []string
		for _, f := range p.Findings {
			got = append(got, fmt.Sprintf("%d/%d/%d", f.Kind, f.Severity, f.Side))
		}
		return sameWord(strings.Join(got, " "), strings.Join(words[1:], " "))
	}
	return errors.New("unknown check")
}

func planned(p Plan, word string) PlannedString {
	for _, s := range p.Strings {
		if s.Course == course(word) {
			return s
		}
	}
	panic("course " + word + " is not in the plan")
}

func course(word string) int {
	n, err := strconv.Atoi(word)
	if err != nil {
		panic(err)
	}
	return n
}

func side(word string) int { return map[string]int{"bass": 0, "treble": 1}[word] }
