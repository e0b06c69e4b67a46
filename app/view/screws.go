package view

import (
	"errors"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"gapwright/app/job"
	"gapwright/app/words"
	"gapwright/geometry"
)

// turnPlan shows what this round is to turn, or why nothing should be; before that, what a turn does.
func (a *App) turnPlan(r job.Record) (string, []app.UI) {
	plan, err := r.TurnPlan()
	if err != nil || a.picked["rechoose"] == 1 {
		return a.rechoose(r)
	}
	switch {
	case a.picked["reread"] > 0:
		return "finer-" + words.Number(a.picked["reread"]), a.finer(r, a.picked["reread"]-1)
	case a.picked["trial"] > 0:
		return "trial", a.trial(r)
	case plan.Outcome == job.TurnThread || a.picked["thread"] == 1:
		return a.thread(r, plan.Outcome != job.TurnThread)
	}
	reader := a.reader()
	said := words.TurnPlanLead(plan.Outcome, plan.Follows)
	body := []app.UI{title(words.TurnPlanTitle(plan.Outcome)), lead(said)}
	numbers, after := []app.UI{a.trusted(r)}, []string(nil)
	for _, s := range plan.Strings {
		if s.Read {
			after = append(after, reader.AfterTurn(r.Instrument, s))
			numbers = append(numbers, elem("p").Text(after[len(after)-1]))
		}
	}
	if plan.Follows {
		numbers = append(numbers, elem("p").Text(words.NotRead()))
	}
	other := a.otherHeights()
	thread := a.button("quiet", words.WhichThread(), func(app.Context) { a.picked["thread"] = 1 })
	if plan.Outcome == job.TurnTooFar {
		body[1] = notice("stop", said)
	}
	if plan.Outcome != job.TurnGo {
		return "turn-" + string(plan.Outcome), append(body, a.trouble(), foot(a.keepIt("main"), other, thread), fold(words.Numbers(), numbers...))
	}
	var rows []app.UI
	var told []string
	for n, eighths := range plan.Turns {
		told = append(told, words.TurnLine(r.Instrument, r.Method, n, eighths))
		rows = append(rows, elem("div").Class("row row-two").Body(elem("span").Class("row-name").Text(words.Thing(r.Instrument, r.Method, n)),
			elem("span").Class("row-value").Text(words.Eighths(eighths))))
	}
	return "turns", append(body, elem("div").Class("rows").Body(rows...), a.trouble(),
		foot(a.button("main", words.FollowTurns(), func(app.Context) { a.tell(job.Did{Step: job.MakePlan}) }), other, thread), fold(words.Numbers(), append(numbers, a.sharePlan(r, append(told, after...)...), a.keepIt("quiet"))...),
		a.how(words.StepHow(r.Method, job.MakePlan), nil, said))
}

// hardware keeps what turns at the bridge with the instrument.
func (a *App) hardware(r job.Record, h job.Hardware, field string) {
	clear(a.problem)
	if n := a.picked["screws"]; n > 0 {
		h.Screws = n
	}
	if err := h.Check(); err != nil {
		a.problem[field] = a.reader().Error(err)
		return
	}
	i, ok := a.desk.Instrument(r.Instrument.ID)
	if !ok {
		i = r.Instrument
	}
	i.Turns = h
	if a.putProfile(i) {
		for _, field := range []string{"turns", "moved", "apart", "behind", "rest"} {
			delete(a.typed, field)
		}
		clear(a.picked)
	}
}

// turnsRow says what turns at the bridge, where anything does, and leads to it.
func (a *App) turnsRow(i job.Instrument) app.UI {
	var rows []app.UI
	if m, turns := turning(i); turns {
		rows = append(rows, a.changeRow(words.TurnsRow(m), a.reader().Turns(m, i.Turns), func(app.Context) { a.picked["turns"] = 1 }))
	}
	return elem("div").Class("rows").Body(rows...)
}

// turnsScreen is what turns at the bridge of an instrument, to be changed with no job under way.
func (a *App) turnsScreen(i job.Instrument) (string, []app.UI) {
	var r job.Record
	r.Instrument = i
	r.Method, _ = turning(i)
	r.Kit, _ = a.desk.Kit()
	_, body := a.thread(r, true)
	return "turns/" + i.ID, body
}

// turning is how the height is set where something turns.
func turning(i job.Instrument) (m job.Method, turns bool) {
	for _, m := range i.Methods() {
		if m.Has(job.Turn) {
			return m, true
		}
	}
	return "", false
}

// thread asks what a turn does: by the thread's name, by measuring, or by a trial turn, which shows which threads it can be.
func (a *App) thread(r job.Record, known bool) (string, []app.UI) {
	reader, unit, h := a.reader(), r.Kit.Unit, r.Instrument.Turns
	threads := r.Fitting()
	q := reader.ThreadAsk(r.Method, threads)
	seen, err := r.Tried()
	tried := err == nil
	key, say := "thread", lead(q.Lead)
	switch pitch, errPitch := seen.Pitch(); {
	case tried && errPitch == nil:
		key, say = "tried", lead(reader.Tried(pitch))
	case !known && !errors.Is(err, geometry.ErrNoReading):
		key, say = "untold", notice("caution", reader.Error(err))
	}
	var chips []app.UI
	for _, t := range threads {
		chips = append(chips, a.chip("thread", t.Name, t.ID == h.Thread, func(app.Context) {
			next := h
			next.Thread, next.Turned, next.Moved, next.Give = t.ID, 0, job.Typed{}, job.Typed{}
			a.hardware(r, next, "")
		}))
	}
	body := []app.UI{title(q.Title), say, elem("div").Class("chips three").Role("group").Aria("label", words.ThreadLabel()).Body(chips...)}
	measured := func(app.Context) {
		if !a.lengths(unit, words.GapSize, "moved") {
			return
		}
		n, ok := wholeNumber(a.typed["turns"])
		if !ok || n == 0 {
			a.problem["turns"] = words.WholeNumber()
			return
		}
		next := h
		next.Thread, next.Turned, next.Moved, next.Give = "", n*int(geometry.PerTurn), job.Typed{Text: a.typed["moved"], Unit: unit}, r.Kit.StandGive()
		a.hardware(r, next, "moved")
	}
	if r.Method == job.ByScrews {
		var each []app.UI
		for n := 1; n <= 2; n++ {
			each = append(each, a.chip("screws", words.Number(n), a.picked["screws"] == n || a.picked["screws"] == 0 && h.Screws == n, func(app.Context) { a.picked["screws"] = n }))
		}
		body = append(body, elem("div").Class("look").Role("group").Aria("label", words.ScrewsEachLabel()).Body(
			elem("span").Class("look-place").Text(words.ScrewsEachLabel()), elem("div").Class("chips").Body(each...)))
	}
	try := func(label string) app.UI {
		return a.button("quiet", label, func(app.Context) { a.picked["trial"] = 1 })
	}
	main := try(words.IDontKnow())
	var others []app.UI
	if r.ID == "" { // of an instrument, with no job to try it in
		main = a.button("main", words.Keep(), func(app.Context) { a.hardware(r, h, "") })
		others = append(others, a.button("quiet", words.IDontKnow(), func(app.Context) {
			next := h
			next.Thread, next.Turned, next.Moved, next.Give = "", 0, job.Typed{}, job.Typed{}
			a.hardware(r, next, "")
		}), a.back("turns"))
	} else if tried {
		main = a.button("main", words.UseThat(), func(app.Context) {
			next := h
			next.Thread, next.Turned, next.Moved, next.Give = "", seen.Turned, seen.Moved, seen.Give
			a.hardware(r, next, "")
		})
		others = append(others, try(words.TryTurn()))
	}
	if known && r.ID != "" {
		others = append(others, a.back("thread"))
	}
	body = append(body, a.trouble(), foot(main, others...), fold(words.IMeasuredIt(), elem("div").Class("fields two").Body(
		a.field("turns", words.TurnsLabel(), "", "moved", nil), a.field("moved", words.MovedLabel(), string(unit), "", measured)),
		a.button("quiet", words.Keep(), measured)))
	if r.Method == job.ByPosts {
		body = append(body, a.posts(r))
	}
	return key, append(body, a.more(words.More(), q.More))
}

// posts asks where the posts stand; what is left empty is what is usual.
func (a *App) posts(r job.Record) app.UI {
	reader, unit, h := a.reader(), r.Kit.Unit, r.Instrument.Turns
	fields := []string{"apart", "behind", "rest"}
	if _, started := a.typed["apart"]; !started {
		a.typed["apart"], a.typed["behind"], a.typed["rest"] = h.Apart.Text, h.Behind.Text, h.Rest.Text
	}
	keep := func(app.Context) {
		clear(a.problem)
		next := h
		for n, typed := range []*job.Typed{&next.Apart, &next.Behind, &next.Rest} {
			if text := a.typed[fields[n]]; text == "" {
				*typed = job.Typed{}
			} else if text != typed.Text { // untouched it keeps the unit that it was typed in
				*typed = job.Typed{Text: text, Unit: unit}
			}
			var alone job.Hardware
			*[]*job.Typed{&alone.Apart, &alone.Behind, &alone.Rest}[n] = *typed
			if err := alone.Check(); err != nil {
				a.problem[fields[n]] = reader.Error(err)
			}
		}
		if len(a.problem) == 0 {
			a.hardware(r, next, "rest")
		}
	}
	usual := r.Instrument
	usual.Turns.Apart = job.Typed{}
	return fold(words.PostsTitle(), a.field("apart", reader.ApartLabel(usual.Apart()), string(unit), "behind", nil),
		a.field("behind", words.BehindLabel(), string(unit), "rest", nil), a.field("rest", words.RestLabel(), string(unit), "", keep), soft(words.PostsMore()),
		a.button("quiet", words.Keep(), keep))
}

// trial asks for whole turns of one string's screws, or of both posts, and a reading after them.
func (a *App) trial(r job.Record) []app.UI {
	q, n := words.TrialAsk(r.Method), a.picked["trial"]
	by := func(by int) func(app.Context) {
		return func(app.Context) { a.picked["trial"] = min(max(1, n+by), job.MostTrial) }
	}
	body := append([]app.UI{title(q.Title), lead(q.Lead), notice("caution", words.TurnCaution())}, a.cautions(r, job.AskScrews)...)
	return append(body, a.stepper("trial", words.TurnsUpLabel(), words.Number(n), words.OneTurnFewer(), words.OneTurnMore(), by(-1), by(1)), a.trouble(),
		foot(a.button("main", words.TurnedReadAgain(), func(app.Context) { a.tell(r.Trial(n * int(geometry.PerTurn))) }),
			a.button("quiet", words.Back(), func(app.Context) { delete(a.picked, "trial") })), a.more(words.More(), q.More))
}

// turn is the turning: what was planned stands there, and can be corrected to what was done.
func (a *App) turn(r job.Record) (string, []app.UI) {
	way, answered := r.Answer(job.AskWayUp)
	if !answered || a.picked["way-up"] == 1 {
		return "ask", a.question(r, job.AskWayUp)
	}
	plan, err := r.TurnPlan()
	if err != nil {
		return "turn", []app.UI{title(words.TurnTitle(r.Method)), notice("stop", a.reader().Error(err))}
	}
	var cautions []app.UI
	if plan.Raises {
		cautions = append(cautions, notice("caution", words.TurnCaution()))
	}
	cautions = append(cautions, a.cautions(r, job.AskScrews)...)
	body := append([]app.UI{title(words.TurnTitle(r.Method)), lead(words.TurnLead(r.Method, way))}, cautions...)
	turned := append([]int(nil), plan.Turns...)
	var steppers []app.UI
	var moving []int // what is to be turned at all
	for _, n := range plan.Order {
		name := "turn-" + words.Number(n)
		turned[n] += a.picked[name]
		if turned[n] != 0 {
			moving = append(moving, n)
		}
		by := func(by int) func(app.Context) { return func(app.Context) { a.picked[name] += by } }
		steppers = append(steppers, a.stepWith([2]string{"↓", "↑"}, name, words.Thing(r.Instrument, r.Method, n), words.TurnBy(turned[n], way), words.AnEighthDown(), words.AnEighthUp(), by(-1), by(1)))
	}
	done := func(app.Context) { a.tell(job.Screwed{Eighths: turned}) }
	if a.big && len(moving) > 0 {
		return a.bigTurn(r, moving, turned, way, cautions, done)
	}
	return "turn", append(body, elem("div").Class("turning").Body(steppers...), a.trouble(), foot(a.button("main", words.TurnedAsShown(), done),
		a.button("quiet", words.WhichWay(), func(app.Context) { a.picked["way-up"] = 1 }), a.bigButton()), a.how(words.StepHow(r.Method, job.Turn), words.TurnMore(r.Method)))
}
