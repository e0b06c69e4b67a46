package view

import (
	"strconv"
	"strings"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"gapwright/app/job"
	"gapwright/app/words"
	"gapwright/geometry"
)

// The small helps beside a step. None of them is the only sign of anything.

// ---- what is felt and heard ----

// cue is felt, and when it is loud heard as well where the person wants that.
func cue(loud bool) {
	if page, ok := start(); ok {
		page.Call("cue", loud)
	}
}

// kept is what this page remembers under a name, "" for nothing; put remembers it.
func kept(name string) string {
	if page, ok := start(); ok {
		return page.Call("kept", name).String()
	}
	return ""
}

func put(name, text string) {
	if page, ok := start(); ok {
		page.Call("put", name, text)
	}
}

// far is how far the job that is open has come; 0 where none is.
func (a *App) far() int {
	r, ok := a.desk.Job(a.id)
	if !ok {
		return 0
	}
	return r.Far()
}

// feel tells the hand that the facts which were just told ended a step, or that the coach says stop.
func (a *App) feel(before int, facts []job.Fact) {
	r, ok := a.desk.Job(a.id)
	if !ok {
		return
	}
	if !r.Settles() {
		a.settle(0)
	}
	for _, fact := range facts {
		switch fact.(type) {
		case job.Looked, job.Checked:
			if coach, err := r.Coach(); err == nil && coach.Stops() {
				cue(true)
				return
			}
		}
	}
	if r.Far() > before {
		cue(false)
	}
}

// soundSwitch lets the sound be heard, and lets it be heard once at the switch.
func (a *App) soundSwitch() app.UI {
	return a.toggle("sound", words.SoundSwitch(), kept("sound") != "", func(_ app.Context, on bool) {
		text := ""
		if on {
			text = "on"
		}
		put("sound", text)
		if on {
			cue(true)
		}
	})
}

// ---- big numbers ----

// bigButton leads to the big numbers, which then stay until the usual screen is asked for.
func (a *App) bigButton() app.UI {
	return a.button("quiet", words.BigNumbers(), func(app.Context) {
		a.big = true
		delete(a.picked, "counted")
	})
}

func (a *App) usualSize() app.UI {
	return a.button("quiet", words.UsualSize(), func(app.Context) { a.big = false })
}

// bigTitle heads a screen with a number that is read from a metre away.
func bigTitle(name, number, rest string) app.UI {
	class := "big-number"
	if len([]rune(number)) > 2 {
		class += " big-long"
	}
	return elem("h1").ID("title").TabIndex(-1).Class("big").Body(elem("span").Class("big-rest").Hidden(name == "").Text(name),
		elem("span").Class(class).Text(number), elem("span").Class("big-rest").Text(rest))
}

// bigSand shows the strokes to go, and with a caliper the height to stop at. They are told on the usual screen, after which the next number is big again.
func (a *App) bigSand(coach job.Coach) []app.UI {
	reader := a.reader()
	number, rest := words.BigStrokes(coach)
	body := []app.UI{bigTitle("", number, rest), lead(reader.SandLead(coach, false))}
	if coach.ByCaliper {
		for side, target := range []geometry.Length{coach.TargetBass, coach.TargetTreble} {
			body = append(body, elem("div").Class("big-end").Body(elem("span").Text(words.StopName(side)), elem("span").Class("big-target").Text(reader.StopNumber(target))))
		}
	}
	return append(body, notice("caution", words.StepCaution(job.Sand)),
		foot(a.button("main", words.BigDone(coach.ByCaliper), func(app.Context) { a.picked["counted"] = 1 }), a.usualSize()))
}

// bigTurn shows one thing after the other, in their order; done tells of all of them.
func (a *App) bigTurn(r job.Record, order, turned []int, way job.Answer, cautions []app.UI, done func(app.Context)) (string, []app.UI) {
	a.sanding = true // the screen stays on
	at := min(a.picked["at"], len(order)-1)
	n := order[at]
	number, rest := words.BigTurn(turned[n], way)
	main, others := a.button("main", words.NextTurn(), func(app.Context) { a.picked["at"]++ }), []app.UI{a.usualSize()}
	if at == len(order)-1 {
		main = a.button("main", words.TurnedAsShown(), done)
	}
	if at > 0 {
		others = append(others, a.button("quiet", words.Back(), func(app.Context) { a.picked["at"]-- }))
	}
	body := append([]app.UI{bigTitle(words.Thing(r.Instrument, r.Method, n)+" ", number, rest), soft(words.OneOf(at+1, len(order)))}, cautions...)
	return "big-" + words.Number(at), append(body, a.trouble(), foot(main, others...))
}

// ---- the timer while strings settle ----

// settling puts into a screen a reminder for strings that settle in minutes: an offer below what the step asks for, the countdown under the lead once it
// was asked for, and there the word that time is up.
func (a *App) settling(r job.Record, body []app.UI) []app.UI {
	line, offer := elem("div").Class("settling"), app.UI(elem("div").Hidden(true))
	at, foot := body[:2:2], len(body)-1
	if !r.Settles() {
		line = line.Hidden(true)
	} else {
		ends, known := a.settles[r.ID]
		if !known { // asked for before the page was loaded
			ends, _ = strconv.ParseInt(kept("settle."+r.ID), 10, 64)
			a.settles[r.ID] = ends
			a.countDown(r.ID, ends)
		}
		wait := func(ends int64) func(app.Context) {
			return func(app.Context) {
				a.settle(ends)
				cue(false)
			}
		}
		left := job.SettlingLeft(ends, now().UnixMilli())
		line = line.Hidden(ends == 0).Body(
			elem("span").Role("timer").ID("settling").Hidden(left == 0).Text(words.SettlingLeft(left)),
			elem("span").Role("status").Hidden(left > 0).Text(words.SettleOver()),
			a.button("quiet small", words.DropShort(), wait(0)).Aria("label", words.DropTimer()).Hidden(left == 0))
		offer = a.button("quiet", words.RemindMe(), wait(now().Add(job.SettleTime).UnixMilli())).Hidden(ends > 0)
	}
	return append(append(append(at, line), body[2:foot]...), offer, body[foot])
}

// settle begins the wait of the job that is open, or at 0 ends it.
func (a *App) settle(ends int64) {
	name, text := "settle."+a.id, ""
	if ends > 0 {
		text = strconv.FormatInt(ends, 10)
	}
	if text == kept(name) {
		return
	}
	a.settles[a.id] = ends
	put(name, text)
	a.countDown(a.id, ends)
}

// countDown follows a wait to its end, wherever in the app the person is. Each second it writes what is left, without drawing the screen anew.
func (a *App) countDown(id string, ends int64) {
	left := job.SettlingLeft(ends, now().UnixMilli())
	if app.IsServer || left == 0 {
		return
	}
	time.AfterFunc(min(left, time.Second), func() {
		switch left := job.SettlingLeft(ends, now().UnixMilli()); {
		case a.settles[id] != ends: // stopped, or begun again
			return
		case left == 0:
			cue(true)
			a.redraw()
			return
		case a.place == Job && a.id == id:
			if line := app.Window().GetElementByID("settling"); line != nil && line.Truthy() {
				line.Get("firstChild").Set("data", words.SettlingLeft(left))
			}
		}
		a.countDown(id, ends)
	})
}

// ---- a plan that is handed on ----

// sharePlan hands out a plan as others read it: its pictures, and its numbers line by line.
func (a *App) sharePlan(r job.Record, lines ...string) app.UI {
	name := words.PlanHead(r.Instrument, len(r.Rounds))
	text := strings.Join(append([]string{name}, lines...), "\n")
	told := map[int]string{1: words.PlanSaved(), 2: words.PlanCopied(), 3: words.PlanStays()}[a.picked["handed"]]
	return elem("div").Body(a.button("quiet", words.SharePlan(), func(ctx app.Context) {
		share(ctx, name, text, ".plan-sheet, .act", words.PlanFile(), true, func(how string) {
			a.picked["handed"] = map[string]int{"saved": 1, "copied": 2, "failed": 3}[how]
		})
	}), elem("p").Class("soft").Role("status").Text(told))
}
