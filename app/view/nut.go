package view

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"gapwright/app/draw"
	"gapwright/app/job"
	"gapwright/app/words"
	"gapwright/geometry"
)

// fixNut goes through the slots string by string: read, what that means, filed, read again.
func (a *App) fixNut(r job.Record) (string, []app.UI) {
	if n := a.picked["nut"]; n > 0 {
		s := r.NutSlot(n-1, a.picked["wanted"])
		if a.picked["survey"] == 1 || s.State == job.SlotUnread || s.State == job.SlotAgain {
			return a.readSlot(r, s)
		}
		return a.nutSlot(r, s)
	}
	var slots []app.UI
	for _, s := range r.NutSlots() {
		slots = append(slots, a.choice(app.Text(slotSign(s.State)), words.CourseTitle(r.Instrument, s.Course), words.SlotSays(s.State), false, a.toSlot(s.Course)))
	}
	main, others := a.onward(r, -1)
	return "slots", []app.UI{title(words.SlotsTitle()), a.trouble(), elem("div").Class("choices tight signs").Body(slots...), foot(main, others...)}
}

// slotSign tells a slot's state by shape.
func slotSign(s job.SlotState) string {
	switch s {
	case job.SlotUnread:
		return "○"
	case job.SlotAgain:
		return "↻"
	case job.SlotHigh:
		return sign("caution")
	case job.SlotThere:
		return sign("done")
	case job.SlotLow:
		return sign("stop")
	}
	return "?"
}

func (a *App) toSlot(course int) func(app.Context) {
	return func(app.Context) {
		clear(a.picked)
		clear(a.problem)
		clear(a.typed)
		a.picked["nut"] = course + 1
	}
}

// onward goes on to another slot than that of the course but; once all are done, or where the rest is left as it is, to the end.
func (a *App) onward(r job.Record, but int) (app.UI, []app.UI) {
	done := func(class string) app.UI {
		return a.button(class, words.SlotsDone(), func(app.Context) { a.tell(job.Did{Step: job.FixNut}) })
	}
	s, more := r.NextSlot(but)
	if !more {
		return done("main"), nil
	}
	var others []app.UI
	if r.SlotsRead() {
		others = []app.UI{done("quiet")}
	}
	return a.button("main", words.NextSlot(r.Instrument, s), a.toSlot(s.Course)), others
}

// readSlot reads the gap at fret 1 of a course, open or pressed.
func (a *App) readSlot(r job.Record, s job.NutSlot) (string, []app.UI) {
	if n := a.picked["pressed"]; n > 0 {
		s.Feature = firstWays[n-1]
	}
	var ways []app.UI
	for n, way := range firstWays {
		ways = append(ways, a.chip("pressed", words.FirstWay(way), way == s.Feature, func(app.Context) { a.picked["pressed"] = n + 1; clear(a.problem) }))
	}
	above := []app.UI{elem("div").Class("chips").Role("group").Aria("label", words.FirstWayLabel()).Body(ways...)}
	if s.State == job.SlotAgain {
		above = append(above, notice("note", words.SlotFiled()))
	}
	return a.survey(r, job.Place{Feature: s.Feature, Course: s.Course}, false, above...)
}

var firstWays = [...]job.Feature{job.FirstPressed, job.FirstFret}

// nutSlot is what the reading of a slot means, and how deep a file may go.
func (a *App) nutSlot(r job.Record, s job.NutSlot) (string, []app.UI) {
	reader := a.reader()
	all := a.button("quiet", words.AllSlots(), func(app.Context) { clear(a.picked) })
	again := app.UI(a.button("quiet", words.ReadAgainFirst(), func(app.Context) { a.picked["survey"] = 1 }))
	numbers := func() app.UI {
		var lines []app.UI
		for _, line := range reader.SlotNumbers(s) {
			lines = append(lines, elem("p").Text(line))
		}
		return fold(words.Numbers(), lines...)
	}()
	body := []app.UI{title(words.SlotTitle(r.Instrument, s))}
	said := reader.SlotLead(s)
	switch s.State {
	case job.SlotHigh:
		body = append(body, elem("p").Class("end-number").Text(reader.Fine(s.Stop)), lead(said), notice("caution", words.FileCaution(s.Under)))
	case job.SlotLow:
		body = append(body, notice("stop", said))
	case job.SlotThere:
		body = append(body, notice("done", said))
	default:
		body = append(body, lead(said))
	}
	if s.State == job.SlotHigh || s.State == job.SlotThere {
		nudge := func(by int) func(app.Context) {
			return func(app.Context) { a.picked["wanted"] = r.Nudge(s.Course, a.picked["wanted"]+by) }
		}
		body = append(body, a.stepper("wanted", words.WantedFirst(), reader.Fine(s.Wanted), words.Lower(), words.Higher(), nudge(-1), nudge(1)))
	}
	body = append(body, a.trouble())
	if s.State == job.SlotHigh {
		return "slot-high-" + words.Number(s.Course), append(body, foot(a.button("main", words.FiledIt(), func(app.Context) {
			if a.tell(r.FileSlot(s)) {
				a.picked["nut"] = s.Course + 1
			}
		}), again, all), a.pile(r, s), numbers, a.how(words.StepHow(r.Method, job.FixNut), words.FileMore(), said))
	}
	main, others := a.onward(r, s.Course)
	if s.State == job.SlotUnclear {
		main, others = a.button("main", words.FinerReading(), func(app.Context) { a.picked["survey"], a.picked["pressed"] = 1, 1 }), nil
		again = elem("div")
	}
	return "slot-" + string(s.State) + "-" + words.Number(s.Course), append(body, foot(main, append(others, again, all)...), numbers)
}

// pile works out the leaves that stop the file.
func (a *App) pile(r job.Record, s job.NutSlot) app.UI {
	reader := a.reader()
	lifts := job.Typed{Text: a.typed["lifts"], Unit: r.Kit.Unit}
	find := func(app.Context) {
		clear(a.problem)
		a.picked["pile"] = 1
		if _, err := r.SlotPile(s, lifts); err != nil {
			a.wrong("lifts", words.LeafSize, err)
		}
	}
	found := elem("p").Class("lead").Role("status")
	if p, err := r.SlotPile(s, lifts); err == nil && a.picked["pile"] == 1 {
		found = found.Text(reader.PileStop(r.Kit, p))
	}
	return fold(words.PileTitle(), elem("div").Class("act").Body(picture(draw.ActPicture(draw.FileStop, r.Instrument.LeftHanded, words.PilePicture(), "", words.PileLabel()))),
		elem("p").Text(words.PileLead()), a.field("lifts", words.LiftsLabel(), reader.UnitName(), "", find), a.button("quiet", words.FindPile(), find), found,
		soft(words.PileWearing()))
}

// fixRelief reads the relief, turns the rod by eighths, and reads again.
func (a *App) fixRelief(r job.Record) (string, []app.UI) {
	found, read := r.ReliefFound()
	if !read || a.picked["survey"] == 1 {
		var above []app.UI
		if r.NeckMoved() && !read {
			above = []app.UI{notice("note", words.Settle())}
		}
		return a.survey(r, job.Place{Feature: job.Relief}, false, above...)
	}
	reader := a.reader()
	body := []app.UI{title(words.ReliefTitle(found.Standing)), lead(reader.ReliefLead(found))}
	looser, tighter := r.TurnsLeft(now())
	n := r.TurnAdvised(now())
	out := found.Standing == geometry.Above || found.Standing == geometry.Below
	enough := out && n == 0
	if picked, changed := a.picked["eighths"]; changed {
		n = picked
	}
	rod, _ := r.Answer(job.AskRod)
	moved := app.UI(elem("div"))
	for _, p := range r.NeckReads() {
		if p.Feature == job.Relief && p.Changed {
			moved = soft(reader.ToTwelve(p.At12))
		}
	}
	again := a.button("quiet", words.ReadAgainFirst(), func(app.Context) { a.picked["survey"] = 1 })
	keep := words.KeepAsItIs()
	if found.Standing == geometry.Usual {
		keep = words.KeepNeck()
	}
	end := func(class string) app.UI {
		return a.button(class, keep, func(app.Context) { a.tell(job.Did{Step: job.FixRelief}) })
	}
	main, others := end("main"), []app.UI{again}
	switch {
	case !r.CanTurn():
		body = append(body, notice("caution", words.RodMissing(rod == job.RodUnsure)), moved)
		if rod == job.RodUnsure {
			others = append(others, a.button("quiet", words.RodFound(), func(app.Context) { a.tell(job.Answered{Question: job.AskRod, Answer: job.RodTurns}) }))
		}
	case enough:
		body = append(body, notice("caution", words.EnoughToday()), moved)
	default:
		step := func(by int) func(app.Context) {
			return func(app.Context) { a.picked["eighths"] = min(max(looser, n+by), tighter) }
		}
		if n != 0 {
			moved = elem("div")
			if each, known := r.PerEighth(); known {
				moved = soft(reader.Learned(each))
			}
			found.Standing = geometry.Above
			if n < 0 {
				found.Standing = geometry.Below
			}
			body = append(body, notice("caution", words.Advice(found)))
			main, others = a.button("main", words.TurnedIt(), func(app.Context) { a.adjusted(job.Relief, n) }), []app.UI{end("quiet"), again}
		}
		body = append(body, moved, a.stepper("eighths", words.EighthsLabel(), words.RodTurn(n), words.Looser(), words.Tighter(), step(-1), step(1)))
	}
	why := append(howLines(words.StepHow(r.Method, job.FixRelief), words.AdviceMore(geometry.PartRelief)[:2]), a.button("quiet", words.SetByOther(), func(app.Context) { a.adjusted(job.Relief, 0) }))
	return "relief", append(body, a.trouble(), foot(main, others...), fold(words.More(), why...))
}

// neckRead lists what a job on the neck found and left: rows for relief and outer strings, the others folded.
func (a *App) neckRead(r job.Record) (rows, folded []app.UI) {
	var between, moved []app.UI
	for _, n := range r.NeckReads() {
		name := words.Feature(job.Relief)
		if n.Feature != job.Relief {
			name = words.CourseTitle(r.Instrument, n.Course)
		}
		row := elem("div").Class("row").Body(elem("span").Class("row-name").Text(name), elem("span").Class("row-value").Text(a.reader().NeckRead(n)),
			elem("span").Class("row-note").Text(a.reader().NeckWas(n)))
		if n.Feature != job.Relief && n.Course > 0 && n.Course < r.Instrument.Last() {
			between = append(between, row)
		} else {
			rows = append(rows, row)
		}
		if n.Changed {
			moved = append(moved, elem("p").Text(name+": "+a.reader().ToTwelve(n.At12)))
		}
	}
	if len(between) > 0 {
		folded = append(folded, fold(words.OtherStrings(), elem("div").Class("rows").Body(between...)))
	}
	if len(moved) > 0 {
		folded = append(folded, fold(words.Numbers(), moved...))
	}
	return rows, folded
}
