package view

import (
	"slices"
	"time"

	"github.com/google/uuid"
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"gapwright/app/draw"
	"gapwright/app/job"
	"gapwright/app/store"
	"gapwright/app/words"
	"gapwright/geometry"
)

// benchScreen lists what is under way and what there is; with nothing there, it asks what it is to be.
func (a *App) benchScreen() (string, []app.UI) {
	instruments, open := a.desk.Instruments(), a.desk.Jobs()
	if len(instruments) == 0 && len(open) == 0 && a.picked["else"] == 0 {
		all := a.keptWarnings()
		top := elem("div").Class("cards").Hidden(len(all) == 0).Body(all...)
		return "first", append(append([]app.UI{top}, a.families()...), a.exampleButton(), fold(words.FromElsewhere(), a.restoreLink(), a.receiveLink()), a.footing())
	}
	if a.picked["else"] == 1 {
		return "else", a.somethingElse()
	}
	if a.picked["kept"] == 1 {
		if key, body, there := a.keptScreen(); there {
			return key, body
		}
	}
	long := len(instruments) >= manyInstruments
	if !long {
		a.search.query = ""
	}
	cards := "cards"
	if long {
		cards = "cards many"
	}
	example := slices.ContainsFunc(instruments, func(i job.Instrument) bool { return i.Example })
	bench, archive := job.Shelved(instruments)
	found, older := words.FindIn(bench, a.search.query), words.FindIn(archive, a.search.query)
	return "bench", []app.UI{
		elem("h1").ID("title").Class("unseen").TabIndex(-1).Text(words.BenchName()),
		a.warned(),
		a.finder(!long, words.Found(a.search.query, len(found), len(bench), len(older))),
		a.allUnderWay(open, instruments),
		a.listHead(words.Instruments(), len(open) == 0),
		elem("div").Class(cards).Body(a.listed(found, open, &a.search.pages)...),
		a.archived(older, open),
		a.receiveLink(),
		elem("div").Class("menu").Hidden(example || long).Body(a.exampleButton()),
		a.reminder(),
		a.footing(),
	}
}

// allUnderWay are the jobs under way, of what is searched for.
func (a *App) allUnderWay(open []job.Record, instruments []job.Instrument) app.UI {
	var cards []app.UI
	for _, r := range open {
		i := r.Instrument
		if at := slices.IndexFunc(instruments, func(is job.Instrument) bool { return is.ID == i.ID }); at >= 0 {
			i = instruments[at]
		}
		if words.Finds(i, a.search.query) {
			cards = append(cards, a.underWay(r, words.InstrumentAndOwner(i)))
		}
	}
	return elem("div").Class("cards").Hidden(len(open) == 0).Body(append([]app.UI{a.listHead(words.OpenJobs(), true)}, cards...)...)
}

// listHead is over a list of the Bench; over the first of them a new instrument can be added, however long it is.
func (a *App) listHead(text string, first bool) app.UI {
	return elem("div").Class("list-head").Body(elem("h2").Text(text),
		elem("a").Class("button quiet small").Attr("href", Link(a.prefix, Instrument, "")).Hidden(!first).Text(words.AddInstrument()))
}

// warned shows the first of the warnings and folds the others, so that the Bench stays in sight.
func (a *App) warned() app.UI {
	const first = 2
	all := a.warnings()
	if len(all) > first {
		all = append(all[:first:first], fold(words.MoreNotes(), all[first:]...))
	}
	return elem("div").Class("cards").Hidden(len(all) == 0).Body(all...)
}

// underWay leads to a job that is under way.
func (a *App) underWay(r job.Record, name string) app.UI {
	return elem("a").Class("card card-open").Attr("href", Link(a.prefix, Job, r.ID)).Body(
		elem("strong").Text(name),
		elem("span").Class("card-step").Text(words.JobLine(r, r.StepAt(now()))),
		elem("span").Class("soft").Text(words.When(r.Last, now())))
}

// warnings tell what the store found that was not as it should be, and offer what can be done.
func (a *App) warnings() []app.UI {
	var body []app.UI
	if a.problem[""] != "" {
		body = append(body, notice("caution", a.problem[""]))
	}
	body = append(body, a.keptWarnings()...)
	if a.canChange() && len(a.desk.Jobs()) == 0 {
		body = append(body, a.offer(words.NewVersion()))
	}
	return body
}

// canChange reports whether a newer version waits and could be taken up now: everything is saved, and nothing was begun that is kept nowhere.
func (a *App) canChange() bool {
	for id, d := range a.drafts {
		if r, ok := a.desk.Job(id); ok && d.events == len(r.Events) && len(d.typed)+len(d.picked) > 0 {
			return false
		}
	}
	state := a.desk.State()
	return a.newer && (state.Mark == store.Saved || state.Why == store.Conflict) // of two versions both are kept
}

// offer asks whether a newer version is to be used. The Bench asks while no job is under way, About whenever somebody goes there; a job never asks.
func (a *App) offer(text string) app.UI {
	return elem("div").Class("warning").Body(notice("note", text),
		a.button("quiet", words.UseNewVersion(), func(app.Context) { a.useNewVersion() }))
}

// footing says whether the app works without a network, and where a newer version can be had that nobody is asked about now.
func (a *App) footing() app.UI {
	text := words.Offline(a.offline)
	if a.place == Bench && a.canChange() && len(a.desk.Jobs()) > 0 {
		text += ". " + words.NewerWaits()
	}
	return elem("p").Class("soft footing").Role("status").ID("offline").Text(text)
}

func (a *App) exampleButton() app.UI {
	return a.button("quiet", words.TryExample(), func(ctx app.Context) {
		i, events := job.Example(uuid.NewString(), uuid.NewString(), uuid.NewString(), words.ExampleName(), now().UTC().Truncate(time.Millisecond))
		if _, err := a.desk.PutInstrument(i); err != nil {
			a.problem[""] = a.reader().Error(err)
			return
		}
		if err := a.desk.Adopt(events); err != nil {
			a.problem[""] = a.reader().Error(err)
			return
		}
		a.goTo(ctx, Job, events[0].Job)
	})
}

// families asks what it is that is set up.
func (a *App) families() []app.UI {
	var answers []app.UI
	for _, f := range geometry.Families() {
		answers = append(answers, a.choice(picture(draw.FamilyPicture(f.ID, "", "")), words.Family(f.ID), "", false, func(ctx app.Context) {
			a.setUp(ctx, job.Instrument{Family: f.ID})
		}))
	}
	answers = append(answers, a.choice(picture(draw.FamilyPicture("", "", "")), words.SomethingElse(), "", false, func(app.Context) { a.picked["else"] = 1 }))
	q := words.FamilyQuestion()
	return []app.UI{title(q.Title), lead(q.Lead), a.trouble(), elem("div").Class("choices grid").Body(answers...)}
}

func (a *App) somethingElse() []app.UI {
	return []app.UI{title(words.SomethingElseTitle()), lead(words.SomethingElseText()), a.more(words.More(), words.SomethingElseMore()),
		foot(a.button("main", words.Back(), func(app.Context) { delete(a.picked, "else") }))}
}

// begin opens a job on an instrument and goes there.
func (a *App) begin(ctx app.Context, m job.Method, i job.Instrument) {
	id, err := a.desk.Begin(m, i)
	if err != nil {
		a.problem[""] = a.reader().Error(err)
		return
	}
	a.goTo(ctx, Job, id)
}
