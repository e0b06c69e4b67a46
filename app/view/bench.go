package view

import (
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
		return "first", append(a.families(), a.exampleButton(), a.footing())
	}
	if a.picked["else"] == 1 {
		return "else", a.somethingElse()
	}
	reader := a.reader()
	body := []app.UI{elem("h1").ID("title").Class("unseen").TabIndex(-1).Text(words.BenchName())}
	body = append(body, a.warnings()...)
	if len(open) > 0 {
		body = append(body, elem("h2").Text(words.OpenJobs()))
		for _, r := range open {
			body = append(body, a.underWay(r, words.Instrument(r.Instrument)))
		}
	}
	if len(instruments) > 0 {
		body = append(body, elem("h2").Text(words.Instruments()))
	}
	example := false
	for _, i := range instruments {
		example = example || i.Example
		next := app.UI(a.button("small", words.NewJob(), func(ctx app.Context) { a.setUp(ctx, i) }).Aria("label", words.NewJob()+": "+words.Instrument(i)))
		if r, under := job.OpenOn(open, i.ID); under {
			label := words.GoOnWith(words.StepName(r.StepAt(now())))
			next = elem("a").Class("button small").Attr("href", Link(a.prefix, Job, r.ID)).Aria("label", words.Instrument(i)+", "+label).Text(label)
		}
		body = append(body, elem("div").Class("card").Body(
			elem("a").Class("card-name").Attr("href", Link(a.prefix, Instrument, i.ID)).Text(words.Instrument(i)),
			elem("span").Class("soft").Text(reader.AsSetLine(i)),
			next))
	}
	body = append(body, elem("a").Class("button quiet").Attr("href", Link(a.prefix, Instrument, "")).Text(words.AddInstrument()),
		elem("a").Class("button quiet").Attr("href", Link(a.prefix, Code, "")).Text(words.ReceiveName()))
	if !example {
		body = append(body, a.exampleButton())
	}
	return "bench", append(body, a.footing())
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
	if state := a.desk.State(); state.Mark == store.NotSaved {
		body = append(body, notice("caution", words.MarkWhy(state.Why)), a.button("quiet", words.TryAgain(), func(app.Context) { a.desk.Retry() }))
	}
	damaged := 0
	for _, r := range a.desk.Reports() {
		if r.Outcome == store.Damaged || r.Outcome == store.Foreign {
			damaged++
		}
	}
	if damaged > 0 {
		body = append(body, notice("caution", words.SetAside(damaged)))
	}
	if n := len(a.desk.Parted()); n > 0 {
		body = append(body, notice("caution", words.PartedLine(n)))
	}
	if a.newer && len(a.desk.Jobs()) == 0 {
		body = append(body, notice("note", words.NewVersion()), a.button("quiet", words.UseNewVersion(), func(app.Context) { a.useNewVersion() }))
	}
	return body
}

// footing says whether the app works without a network.
func (a *App) footing() app.UI {
	return elem("p").Class("soft footing").Role("status").ID("offline").Text(words.Offline(a.offline))
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
	return []app.UI{title(words.SomethingElseTitle()), lead(words.SomethingElseText()), more(words.More(), words.SomethingElseMore()),
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
