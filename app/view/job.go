package view

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"gapwright/app/draw"
	"gapwright/app/job"
	"gapwright/app/store"
	"gapwright/app/words"
)

// jobScreen shows the job that the address names, at the step that its facts say.
func (a *App) jobScreen() (string, []app.UI) {
	r, ok := a.desk.Job(a.id)
	if !ok {
		return a.elsewhere()
	}
	if r.Method == job.QuickCheck && r.Ended != job.Away {
		return a.quickCheck(r)
	}
	step := r.StepAt(now())
	a.sanding = step == job.Sand
	sub, body := a.stepScreen(r, step)
	body = a.pictured(r, step, sub, body)
	top := []app.UI{a.where(r, step)}
	if a.told {
		top = append(top, notice("note", words.OpenInOther()))
	}
	return "job/" + a.id + "/" + words.Number(len(r.Rounds)) + "/" + string(step) + "/" + sub, append(append(top, body...), a.jobMenu(r, step))
}

// elsewhere shows a job that is not at hand: finished ones are fetched from the journal, and one of a newer version is left alone.
func (a *App) elsewhere() (string, []app.UI) {
	if r := a.fetched[a.id]; r != nil {
		return "record/" + a.id, a.finished(*r)
	}
	_, outcome := a.desk.Get(store.KindJob + "/" + a.id)
	if outcome == store.Newer {
		return "newer/" + a.id, []app.UI{title(words.NothingHere()), notice("caution", words.NewerDocument()), foot(a.toBench("main", words.BenchName()))}
	}
	if outcome == store.Unreachable || !a.desk.Settled() {
		return "fetching/" + a.id, []app.UI{title(words.LoadingJob()), elem("div").Body(&fetch{ID: a.id, Desk: a.desk, Keep: a.keepFetched})}
	}
	return a.nothing()
}

func (a *App) keepFetched(r job.Record) { a.fetched[r.ID] = &r }

// fetch asks for a finished job once, when it is mounted.
type fetch struct {
	app.Compo
	ID   string
	Desk *store.Desk
	Keep func(job.Record)
}

// OnMount asks.
func (f *fetch) OnMount(ctx app.Context) {
	f.Desk.Fetch(f.ID, func(r job.Record, ok bool) {
		if ok {
			f.Keep(r)
			ctx.Dispatch(func(app.Context) {})
		}
	})
}

// Render draws nothing.
func (f *fetch) Render() app.UI { return elem("span") }

// where tells the instrument, the round and the step, with the drawn neck.
func (a *App) where(r job.Record, step job.Step) app.UI {
	steps := job.Steps(r.Method)
	n := len(steps)
	for i, s := range steps {
		if s == step {
			n = i
		}
	}
	said := words.StepName(step)
	if r.Ended == job.Away { // put away is not done
		n, said = -1, words.PutAwayTitle()
	}
	if n >= 0 && n < len(steps) {
		said = words.StepOf(n+1, step)
	}
	if len(r.Rounds) > 1 && r.Ended != job.Away {
		said = words.Rounds(len(r.Rounds)) + ", " + words.StepName(step)
	}
	return elem("div").Class("where").Body(
		elem("p").Class("where-line").Body(elem("strong").Text(words.Instrument(r.Instrument)), elem("span").Text(said)),
		picture(draw.NeckProgress("", "", len(steps), n, len(r.Rounds))),
	)
}

// stopsAt tells whether the answer to a step's question stops the work.
func stopsAt(r job.Record, step job.Step) (q job.Question, answer job.Answer, stops bool) {
	q, asks := r.Method.Asks(step)
	answer, answered := r.Answer(q)
	return q, answer, asks && step != job.Measure && answered && q.Stops(answer)
}

func (a *App) stepScreen(r job.Record, step job.Step) (string, []app.UI) {
	if q, answer, stops := stopsAt(r, step); stops && a.picked["again"] == 1 {
		return "ask", a.question(r, q, job.Did{Step: step})
	} else if stops {
		return "stop-" + string(answer), a.stopped(r, q, answer)
	}
	if q, asks := r.Method.Asks(step); asks && step != job.Measure {
		_, answered := r.Answer(q)
		if !answered && (step == job.BeforeYouStart || step == job.Choose || step == job.MakePlan) { // the others ask in their own way
			return "ask", a.question(r, q)
		}
	}
	switch step {
	case job.Measure:
		return a.measure(r, false)
	case job.Diagnose:
		if n := a.picked["survey"]; n > 0 {
			return a.survey(r, r.Instrument.Places()[n-1], false)
		}
		return a.diagnose(r)
	case job.Choose:
		if a.picked["listen"] == 1 {
			return "listen", a.listen(r)
		}
		return "choose", a.choose(r)
	case job.MakePlan:
		switch r.Method {
		case job.RaiseByStrip:
			return a.stripPlan(r)
		case job.NewSaddle:
			return a.blankPlan(r)
		case job.ByScrews, job.ByPosts:
			return a.turnPlan(r)
		}
		return a.plan(r)
	case job.Lay:
		return a.lay(r)
	case job.MakeSaddle:
		return a.makeSaddle(r)
	case job.Turn:
		return a.turn(r)
	case job.FixNut:
		return a.fixNut(r)
	case job.FixRelief:
		return a.fixRelief(r)
	case job.TakeOut, job.Seat, job.StringUp:
		q, _ := r.Method.Asks(step)
		return "ask", a.question(r, q, job.Did{Step: step})
	case job.Mark:
		return a.mark(r)
	case job.Sand:
		return a.sand(r)
	case job.Smooth:
		return "smooth", a.smooth(r)
	case job.MeasureAgain:
		return a.measure(r, true)
	case job.Save:
		return "save", a.save(r)
	case job.Finished:
		return "finished", a.finished(r)
	}
	return "ask", nil
}

// question shows a step's question; an answer that lets the work go on also gives the facts in then.
func (a *App) question(r job.Record, q job.Question, then ...job.Fact) []app.UI {
	var answers []app.UI
	var said []string
	for _, answer := range q.Answers() {
		if !r.Kit.Follows(answer) || !r.Method.Minds(answer) {
			continue
		}
		said = append(said, words.Answer(q, answer))
		answers = append(answers, a.choice(answerPicture(r.Method, q, answer), words.Answer(q, answer), "", false, func(ctx app.Context) {
			facts := []job.Fact{job.Answered{Question: q, Answer: answer}}
			if !q.Stops(answer) {
				facts = append(facts, then...)
			}
			a.tell(facts...)
		}))
	}
	ask := words.Question(q, r.Kit)
	class := "choices"
	if len(answers) > fewAnswers {
		class = "choices pairs"
	}
	body := a.asking(ask, class, a.how(words.QuestionHow(r.Method, q), ask.More, append(said, ask.Title, ask.Lead)...), answers...)
	cautions := a.cautions(r, map[job.Question]job.Question{job.AskUnder: job.AskSaddle, job.AskStrung: job.AskStrings, job.AskFollow: job.AskUnder, job.AskWayUp: job.AskScrews}[q])
	if text := words.StepCaution(q.Step()); text != "" && !(q == job.AskBuzz && r.ReliefKnown()) {
		cautions = append(cautions, notice("caution", text))
	}
	return append(body[:2:2], append(cautions, body[2:]...)...)
}

// cautions are what earlier answers ask to keep in mind at this step.
func (a *App) cautions(r job.Record, questions ...job.Question) []app.UI {
	var all []app.UI
	for _, q := range questions {
		if answer, ok := r.Answer(q); ok {
			if text := words.Caution(q, answer); text != "" {
				all = append(all, notice("caution", text))
			}
		}
	}
	return all
}

// stopped shows what stands in the way: the job can be put away until it is put right, and then leads back to the question.
func (a *App) stopped(r job.Record, q job.Question, answer job.Answer) []app.UI {
	name, text, _ := words.Stop(q, answer)
	if q == job.AskSeat { // it is put right here and now, and then looked at again
		kind := "stop"
		if answer == job.SeatUnsure { // nothing is wrong yet
			kind = "caution"
		}
		return []app.UI{title(name), notice(kind, text), a.trouble(), foot(a.button("main", words.AnswerAgain(), func(app.Context) { a.picked["again"] = 1 }))}
	}
	var back []app.UI
	for _, other := range q.Answers() {
		if !q.Stops(other) {
			back = append(back, a.choice(answerPicture(r.Method, q, other), words.Answer(q, other), "", false, func(ctx app.Context) {
				facts := []job.Fact{job.Answered{Question: q, Answer: other}}
				if step := q.Step(); step == job.TakeOut {
					facts = append(facts, job.Did{Step: step})
				}
				a.tell(facts...)
			}))
		}
	}
	away := func(class string) app.UI {
		return a.button(class, words.PutAway(), func(app.Context) { a.tell(job.PutAway{}) })
	}
	ways := foot(away("main"))
	if q == job.AskBuzz { // that can be gone into here
		ways = foot(elem("a").Class("button main").Attr("href", Link(a.prefix, Buzz, r.Instrument.ID)).Text(words.BuzzName()), away("quiet"))
	}
	return []app.UI{title(name), notice("stop", text), a.trouble(), ways,
		fold(words.AnswerAgain(), append([]app.UI{elem("div").Class("choices").Body(back...)}, withTerms(nil, nil, name, text)...)...)}
}

// jobMenu holds what can be done at any step: undo, a note, strings changed, putting the job away.
func (a *App) jobMenu(r job.Record, step job.Step) app.UI {
	if step == job.Finished && r.Ended == job.AsSaved {
		return elem("div")
	}
	return elem("div").Class("menu").Body(a.folded(words.JobMenu(), func() []app.UI { return a.jobItems(r, step) }))
}

func (a *App) jobItems(r job.Record, step job.Step) (items []app.UI) {
	if sequence, fact, ok := r.Undoable(); ok || r.Ended == job.Open && (r.Current().MaterialGone() || r.SlotFiled()) { // what cannot be undone is told why at a tap
		items = append(items, a.button("quiet undo", a.reader().UndoOf(r.Instrument, fact), func(app.Context) {
			listening := a.picked["listen"]
			if a.tell(job.Undone{Sequence: sequence}) {
				a.picked["listen"] = listening // what was heard is taken back where it was heard
			}
		}))
	}
	if r.Ended == job.Open {
		if r.Method != job.QuickCheck && (step == job.Choose || step == job.MakePlan || step == job.Measure || step == job.MeasureAgain || step == job.FixNut || step == job.FixRelief) {
			items = append(items, a.button("quiet", words.ChangedStrings(), func(app.Context) { a.tell(job.Strung{}) }), soft(words.ChangedStringsMore()))
		}
		if step == job.MeasureAgain {
			items = append(items, a.button("quiet", words.SkipMeasure(), func(app.Context) { a.tell(job.Skipped{Step: step}) }), soft(words.Skip(step)))
		}
		items = append(items,
			a.textField("note", words.NoteLabel()),
			a.button("quiet", words.AddNote(), func(app.Context) {
				if a.typed["note"] != "" {
					a.tell(job.Noted{Text: a.typed["note"]})
				}
			}))
		if q, _, stops := stopsAt(r, step); !r.Over() && (!stops || q == job.AskSeat) { // other stops offer it themselves
			items = append(items, a.button("quiet", words.PutAway(), func(app.Context) { a.tell(job.PutAway{}) }), soft(words.PutAwayMore()))
		}
	}
	items = append(items, elem("a").Class("button quiet").Attr("href", Link(a.prefix, Learn, words.WordsPage)).Text(words.GlossaryTitle()))
	return append(items, a.story(r))
}

func (a *App) textField(id, label string) app.UI {
	problem := a.problem[id]
	return elem("div").Class("field").Body(
		elem("label").Attr("for", id).Text(label),
		app.Input().ID(id).Type("text").Value(a.typed[id]).MaxLength(200).Aria("invalid", problem != "").Aria("describedby", id+"-problem").
			OnInput(a.typing(id), app.EventScope(id)),
		elem("p").Class("problem").ID(id+"-problem").Hidden(problem == "").Text(problem))
}
