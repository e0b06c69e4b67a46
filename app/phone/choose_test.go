package phone

import (
	"fmt"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/input"

	"gapwright/app/job"
	"gapwright/app/words"
	"gapwright/geometry"
)

// A finger is on the screen until it is lifted or taken away.
type finger struct {
	w    *Walk
	x, y float64
}

// grip puts a finger on the grip of a string, bass 0 or treble 1.
func (w *Walk) grip(side int) *finger {
	w.t.Helper()
	w.JS(`(document.querySelector(".exploring").scrollIntoView({ block: "center", behavior: "instant" }), true)`)
	box := w.JS(fmt.Sprintf(`(() => { const b = document.querySelectorAll(".exploring .p-drag")[%d].getBoundingClientRect();
		return [b.x + b.width / 2, b.y + b.height / 2, b.width, b.height] })()`, side)).([]any)
	if wide, high := box[2].(float64), box[3].(float64); wide < 44 || high < 44 {
		w.t.Errorf("the target of grip %d is only %.0f x %.0f", side, wide, high)
	}
	f := &finger{w, box[0].(float64), box[1].(float64)}
	f.touch(input.DispatchTouchEventTypeTouchStart, true)
	return f
}

func (f *finger) touch(kind input.DispatchTouchEventType, on bool) {
	f.w.t.Helper()
	points := []*input.TouchPoint{}
	if on {
		points = append(points, &input.TouchPoint{X: f.x, Y: f.y})
	}
	f.w.do("moving a finger", command(input.DispatchTouchEvent, input.DispatchTouchEventParams{Type: kind, TouchPoints: points}))
}

// down moves the finger down by so many pixels, a few at a time.
func (f *finger) down(pixels float64) {
	f.w.t.Helper()
	for range 10 {
		f.y += pixels / 10
		f.touch(input.DispatchTouchEventTypeTouchMove, true)
	}
	f.w.settle()
}

// settle waits until what was touched is drawn.
func (w *Walk) settle() {
	w.t.Helper()
	w.JS(`new Promise(done => setTimeout(() => requestAnimationFrame(() => requestAnimationFrame(() => done(true))), 100))`)
}

// lift takes the finger off; taken means that the system took it away.
func (f *finger) lift(taken bool) {
	f.w.t.Helper()
	kind := input.DispatchTouchEventTypeTouchEnd
	if taken {
		kind = input.DispatchTouchEventTypeTouchCancel
	}
	f.touch(kind, false)
	f.w.atRest()
}

// atRest waits until no grip is drawn as held.
func (w *Walk) atRest() {
	w.t.Helper()
	w.Wait("the grips at rest", `document.querySelectorAll(".exploring .p-grip").length === 2 && document.querySelectorAll(".exploring .p-grip-held").length === 0`)
}

// wished is the wish as the two nudgers show it.
func (w *Walk) wished() (bass, treble string) {
	w.t.Helper()
	all := w.JS(`["bass", "treble"].map(side => document.getElementById(side + "-value").textContent)`).([]any)
	return all[0].(string), all[1].(string)
}

// wishes waits until the picture, the nudgers and the main button say these heights.
func (w *Walk) wishes(r words.Reader, bass, treble string) {
	w.t.Helper()
	w.until("the wish "+bass+" / "+treble, func() (bool, string) {
		b, t := w.wished()
		seen := w.screenWish()
		aim := r.AimFor(job.Typed{Text: bass, Unit: r.Unit}, job.Typed{Text: treble, Unit: r.Unit})
		return b == bass && t == treble && seen == w.drawnWish(r, bass, treble)+"; "+aim, b + " / " + t + "; " + seen
	})
}

// screenWish is what the picture and the main button say.
func (w *Walk) screenWish() string {
	w.t.Helper()
	return w.JS(`[...document.querySelectorAll(".exploring .p-number")].map(e => e.textContent).join(" ") + "; " + document.getElementById("aim").textContent`).(string)
}

func (w *Walk) drawnWish(r words.Reader, bass, treble string) string {
	w.t.Helper()
	said := ""
	for _, text := range []string{bass, treble} {
		height, err := job.Typed{Text: text, Unit: r.Unit}.Length()
		if err != nil {
			w.t.Fatal(err)
		}
		said += " " + r.Grip(height)
	}
	return said[1:]
}

// consistent waits until picture, nudgers and main button say the same.
func (w *Walk) consistent(r words.Reader) (bass, treble string) {
	w.t.Helper()
	w.until("picture, nudgers and main button saying the same", func() (bool, string) {
		bass, treble = w.wished()
		seen := w.screenWish()
		aim := r.AimFor(job.Typed{Text: bass, Unit: r.Unit}, job.Typed{Text: treble, Unit: r.Unit})
		return seen == w.drawnWish(r, bass, treble)+"; "+aim, bass + " / " + treble + "; " + seen
	})
	return bass, treble
}

// room is how the marked stop of a string is drawn: 1 enough, 2 perhaps, 3 lacking.
func (w *Walk) room(side int) int {
	w.t.Helper()
	return int(w.JS(fmt.Sprintf(`(() => {
		const all = document.querySelector(".exploring svg").getBoundingClientRect(), middle = all.y + all.height * 95 / 212;
		const here = role => [...document.querySelectorAll(".exploring .p-room-" + role)].some(e => {
			const b = e.getBoundingClientRect();
			return b.height > 0 && (b.y + b.height / 2 < middle) === (%d === 0);
		});
		return here("full") ? 3 : here("half") ? 2 : here("ring") ? 1 : 0;
	})()`, side)).(float64))
}

// chosen goes to the choice: bass 2.75 to 3.00, treble 2.00 to 2.25.
func (w *Walk) chosen() {
	w.t.Helper()
	w.measured(job.EveryQuarter, 1, [2]job.Typed{mark("2.75"), mark("3.00")}, 0, [2]job.Typed{mark("2.00"), mark("2.25")})
	w.Tap(words.Answer(job.AskStrings, job.StringsStay))
	w.answer(job.AskBuzz, job.BuzzNone)
	w.On(words.ChooseTitle())
	w.wishes(mm, "2.40", "1.85")
}

// A finger pulls the strings: every number follows while it is down, the page stays where it is, and what it leaves is what the buttons leave.
func TestDraggingAHeight(t *testing.T) {
	t.Parallel()
	w := StartWalk(t, "drag-height", Small)
	w.chosen()
	w.forbid = notInch
	w.JS("window.here = true")
	for side, most := range []string{"2.00", "1.60"} { // the beginner's floors
		bassWas, trebleWas := w.wished()
		f := w.grip(side)
		at := w.JS("scrollY")
		f.down(4)
		w.Wait("the height under the finger", fmt.Sprintf(`document.getElementById(%q).textContent < %q`, [2]string{"bass-value", "treble-value"}[side], [2]string{bassWas, trebleWas}[side]))
		w.consistent(mm)
		w.Wait("the grip drawn as held", `document.querySelectorAll(".exploring .p-grip-held").length === 1`)
		bass, treble := w.wished()
		if side == 0 && treble != trebleWas || side == 1 && bass != bassWas {
			t.Errorf("dragging one string moved the other: %s / %s", bass, treble)
		}
		f.down(2)
		f.down(-2)
		w.wishes(mm, bass, treble)
		if now := w.JS("scrollY"); now != at {
			t.Errorf("the page went from %v to %v under the finger", at, now)
		}
		f.lift(false)
		w.wishes(mm, bass, treble)

		// No further than the floor, and no higher than the reading.
		f = w.grip(side)
		f.down(200)
		want := [2]string{bass, treble}
		want[side] = most
		w.wishes(mm, want[0], want[1])
		f.lift(false)
		w.wishes(mm, want[0], want[1])
		f = w.grip(side)
		f.down(-300)
		want[side] = [2]string{"3.00", "2.25"}[side]
		w.wishes(mm, want[0], want[1])
		f.lift(false)
		w.Look()
		f = w.grip(side)
		f.down(300)
		want[side] = most
		w.wishes(mm, want[0], want[1])
		f.lift(false)
	}
	w.wishes(mm, "2.00", "1.60")

	// The buttons go on from there, step by step, and no further than the finger.
	w.Tap(lower(guitar, 0))
	w.wishes(mm, "2.00", "1.60")
	w.Tap(higher(guitar, 0))
	w.wishes(mm, "2.05", "1.60")
	w.Tap(higher(guitar, 5))
	w.wishes(mm, "2.05", "1.65")

	// A finger that is taken away leaves what it had reached, and the screen in one mind.
	f := w.grip(0)
	f.down(-8)
	w.Wait("the height under the finger", `document.getElementById("bass-value").textContent > "2.05"`)
	f.lift(true)
	w.consistent(mm)
	bass, _ := w.wished()
	if bass <= "2.05" {
		t.Errorf("the finger that was taken away left %s", bass)
	}
	// A touch that moves nothing changes nothing.
	f = w.grip(1)
	f.lift(false)
	w.wishes(mm, bass, "1.65")
	if w.JS("window.here") != true {
		t.Error("the page was loaded again")
	}
	w.Tap(mm.AimFor(mark(bass), mark("1.65")))
	w.answer(job.AskRoom, job.RoomFine)
	w.On(words.StandQuestion().Title)
	w.Tap(words.JobMenu())
	w.Read(words.StoryTitle(), mm.Heights(mark(bass), mark("1.65")))
}

// One tap on a touch suggests both heights; lower never says that there is more room than higher.
func TestTouchesAndRoom(t *testing.T) {
	t.Parallel()
	w := StartWalk(t, "touches", Tall.InTheDark())
	w.chosen()
	// Low end, middle and high end of the usual 2.20 to 2.60 and 1.70 to 2.00.
	for _, touch := range []struct {
		player       job.Player
		bass, treble string
	}{{job.LightPlayer, "2.20", "1.70"}, {job.HardPlayer, "2.60", "2.00"}, {job.MixedPlayer, "2.40", "1.85"}} {
		w.Tap(words.Player(touch.player))
		w.wishes(mm, touch.bass, touch.treble)
		w.Look()
		w.Tap(words.Numbers())
		for side, course := range []int{0, 5} {
			one := geometry.Exactly(1)
			known, _, _ := strings.Cut(mm.LowestLine(guitar, course, touch.player, geometry.Suits{Gap: one, Stop: 1}), mm.Span(one))
			beyond, _, _ := strings.Cut(mm.LowestLine(guitar, course, touch.player, geometry.Suits{Beyond: true}), words.StoppedAt(0))
			if page := w.Text(); !strings.Contains(page, known) && !strings.Contains(page, beyond) {
				t.Errorf("side %d: no lowest height for %s in: %s", side, touch.player, page)
			}
		}
		w.Says(words.SharpUnknown(), words.AsUsual(job.Measured{}))
		w.LookInto()
		w.Tap(words.Numbers())
	}

	// From the reading down to the floor, a twentieth of a millimetre at a time: 3.00 to 2.00 and 2.25 to 1.60, from 2.40 and 1.85.
	at := [2]int{240, 185}
	wishes := func() {
		w.wishes(mm, fmt.Sprintf("%.2f", float64(at[0])/100), fmt.Sprintf("%.2f", float64(at[1])/100))
	}
	for side, course := range []int{0, 5} {
		for at[side] < [2]int{300, 225}[side] {
			w.Tap(higher(guitar, course))
			at[side] += 5
		}
		w.Tap(higher(guitar, course)) // no higher
		worst := 0
		for {
			wishes()
			if now := w.room(side); now < worst || now == 0 {
				t.Errorf("side %d at %d: the room is drawn as %d, higher up it was %d", side, at[side], now, worst)
			} else {
				worst = now
			}
			if at[side] == [2]int{200, 160}[side] {
				break
			}
			w.Tap(lower(guitar, course))
			at[side] -= 5
		}
		w.Tap(lower(guitar, course)) // no lower
		wishes()
		if worst < 2 {
			t.Errorf("side %d: at the floor there is still room for certain", side)
		}
	}

	w.fretByFret(guitar)
	if w.JS(nutOnTheLeft) != true {
		t.Error("the nut is not drawn on the left")
	}
	wanted := w.runs()
	w.LookInto()
	w.Tap(words.NowChip())
	w.Wait("other shapes", fmt.Sprintf(`[...document.querySelectorAll(".runs li")].map(e => e.textContent).join("\n") !== %q`, wanted))
	w.shapes(guitar)
	w.LookInto()
	w.Tap(words.OwnFloor())
	w.Wait("one's own floor", `document.getElementById("own").checked`)
	w.settle()
	f := w.grip(0)
	f.down(200)
	f.lift(false)
	w.wishes(mm, "1.80", "1.60")
}

// runs are the lines under the drawn neck.
func (w *Walk) runs() string {
	w.t.Helper()
	return w.JS(`[...document.querySelectorAll(".runs li")].map(e => e.textContent).join("\n")`).(string)
}

// fretByFret opens the drawn neck and looks at its shapes.
func (w *Walk) fretByFret(i job.Instrument) {
	w.t.Helper()
	w.Tap(words.FretByFret())
	w.Wait("the drawn neck", `document.querySelector(".runs") !== null`)
	w.shapes(i)
}

// shapes fails unless both outer strings have one shape for the open string and every fret to the twelfth, and the words below tell the same.
func (w *Walk) shapes(i job.Instrument) {
	w.t.Helper()
	type run struct {
		course int
		job.Run
	}
	lines := make(map[string]run)
	for _, course := range []int{0, i.Last()} {
		for from := range 13 {
			for to := from; to <= 12; to++ {
				for _, chance := range job.Chances() {
					for first := range 25 {
						r := job.Run{From: from, To: to, Chance: chance, First: first}
						lines[words.RunLine(i, course, r)] = run{course, r}
					}
				}
			}
		}
	}
	told := map[job.Chance]int{}
	next := map[int]int{}
	for _, line := range strings.Split(w.runs(), "\n") {
		r, known := lines[line]
		if !known || r.From != next[r.course] {
			w.t.Errorf("the line %q does not go on from fret %d", line, next[r.course])
			return
		}
		next[r.course] = r.To + 1
		told[r.Chance] += r.To + 1 - r.From
	}
	if next[0] != 13 || next[i.Last()] != 13 {
		w.t.Errorf("the lines end at %v", next)
	}
	drawn := w.JS(`["ring", "half", "full", "dash"].map(role => document.querySelectorAll(".unfold ~ * .p-room-" + role + ", .unfold ~ svg .p-room-" + role).length)`).([]any)
	count := func(n int) int { return int(drawn[n].(float64)) }
	// The key has one of each, and half a ring has a ring around it.
	for chance, n := range map[job.Chance]int{job.RoomEnough: count(0) - count(1) - 1, job.RoomPerhaps: count(1) - 1, job.RoomLacking: count(2) - 1, job.ChanceNotKnown: count(3)} {
		if n != told[chance] {
			w.t.Errorf("%d shapes say %s, the words say %d", n, words.Chance(chance), told[chance])
		}
	}
}

// With a plain string on, the cents are told: for it alone.
func TestChoosingWithStrings(t *testing.T) {
	t.Parallel()
	w := StartWalk(t, "choose-strings", Small.InTheDark())
	w.reviewed(guitar, job.EveryQuarter)
	w.Waiting(words.MeasuredTitle())
	place := w.Place()
	w.strings(words.Family(geometry.FlatTop6))
	w.Type("#gauge-5", "0.012 in")
	w.makes("Treble string, E", 1)
	w.Tap(words.Keep())
	w.WaitSaved()
	w.Open(place)
	w.Waiting(words.MeasuredTitle())
	w.Tap(words.Answer(job.AskStrings, job.StringsStay))
	w.answer(job.AskBuzz, job.BuzzNone)
	w.Waiting(words.ChooseTitle())
	sharp := func(course int) string {
		line := mm.SharpLine(guitar, job.Seen{Course: course})
		return line[:strings.IndexByte(line, ':')]
	}
	w.Tap(words.Numbers())
	w.Says(sharp(5))
	w.SeesNot(sharp(0))
	w.SeesNot(words.SharpUnknown())
	w.LookInto()
}

// What is heard is taken down, contradicted and taken back; then one's own touch suggests heights.
func TestListening(t *testing.T) {
	t.Parallel()
	w := StartWalk(t, "listening", Tall)
	w.chosen()
	w.Tap(words.Player(job.OwnPlayer)) // nothing is known of it: play first
	w.On(words.ListenTitle())
	clean := job.Listened{Everywhere: true}
	w.Tap(words.CleanEverywhere())
	w.Sees(words.HeardTitle(1))
	w.Tap(words.CourseTitle(guitar, 5))
	w.Sees(words.ListenLead(guitar, 5, 0))
	w.Tap(words.CleanEverywhere())
	w.Sees(words.HeardTitle(2))
	w.Look()
	lowest := mm.LowestLine(guitar, 0, job.OwnPlayer, geometry.Suits{Gap: geometry.Exactly(1), Stop: 1})
	w.Read(words.HeardTitle(2), words.CourseTitle(guitar, 0)+", "+words.HeardLine(clean), words.CourseTitle(guitar, 5)+", "+words.HeardLine(clean),
		lowest[:strings.LastIndex(lowest, " 1")])
	w.Tap(words.ListenDone())
	w.On(words.ChooseTitle())
	w.Tap(words.Player(job.LightPlayer))
	w.wishes(mm, "2.20", "1.70")
	w.Tap(words.Player(job.OwnPlayer))
	w.Wait("heights for one's own touch", `document.getElementById("aim").textContent !== `+fmt.Sprintf("%q", mm.AimFor(mark("2.20"), mark("1.70"))))
	w.consistent(mm)
	w.Look()
	w.WaitSaved()
	w.Reload()
	w.Waiting(words.ChooseTitle())

	// It buzzes where there is more room than where it was clean: at least 1.34 mm at fret 14, and 1.22 mm at most at fret 1.
	w.Tap(words.FretByFret())
	w.Tap(words.ListenButton())
	w.Waiting(words.ListenTitle())
	w.SeesNot(words.TouchOdd())
	w.Tap(words.ListenStop() + ": " + words.HigherFret())
	w.Sees(words.ListenLead(guitar, 0, 1))
	w.Tap(words.ListenStop() + ": " + words.LowerFret())
	w.Sees(words.ListenLead(guitar, 0, 0))
	for range 14 {
		w.Tap(words.ListenStop() + ": " + words.HigherFret())
	}
	w.Sees(words.ListenLead(guitar, 0, 14))
	buzz := words.CourseTitle(guitar, 0) + ", " + words.HeardLine(job.Listened{Stop: 14, Buzzed: true})
	w.Tap(words.SoundsBuzz())
	w.Sees(words.HeardTitle(3))
	w.Sees(words.TouchOdd())
	w.Look()
	w.Read(words.HeardTitle(3), buzz)
	w.undo()
	w.Waiting(words.ListenTitle()) // and one can go on listening
	w.Sees(words.HeardTitle(2))
	w.SeesNot(words.TouchOdd())
	w.Tap(words.HeardTitle(2))
	w.SeesNot(buzz)
}
