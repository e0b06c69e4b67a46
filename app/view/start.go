package view

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"gapwright/app/draw"
	"gapwright/app/job"
	"gapwright/app/words"
)

// setUp is the way in to an instrument: a family whose saddle is usually loose goes straight to the usual job, whose first question is of it; of
// the others it is asked first what holds the strings up.
func (a *App) setUp(ctx app.Context, i job.Instrument) {
	if i.Holds() != job.BridgeSlot {
		a.start = i
		return
	}
	if a.putNew(&i) {
		a.begin(ctx, job.SandUnderside, i)
	}
}

// putNew keeps an instrument that may be new; what cannot be kept is said.
func (a *App) putNew(i *job.Instrument) bool {
	kept, err := a.desk.PutInstrument(*i)
	if err != nil {
		a.problem[""] = a.reader().Error(err)
		return false
	}
	*i = kept
	return true
}

// starting asks what holds the strings up, once, and then what is to be done. It is what a.start is for.
func (a *App) starting() (string, []app.UI) {
	i := a.start
	back := a.button("quiet", words.Back(), func(app.Context) {
		a.start = job.Instrument{}
		delete(a.picked, "bridge")
	})
	if i.Holds() == job.BridgeNotAsked || a.picked["bridge"] == 1 {
		var answers []app.UI
		for _, b := range job.Bridges() {
			answers = append(answers, a.choice(picture(draw.ThingPicture(bridgeThing(b), "", "")), words.Bridge(b), "", false, func(app.Context) {
				clear(a.problem)
				next := i
				next.Bridge = b
				if i.ID != "" && a.putProfile(next) || i.ID == "" && a.putNew(&next) {
					a.start = next
					delete(a.picked, "bridge")
				}
			}))
		}
		return "bridge", append(a.ask(words.BridgeQuestion(), answers...), back)
	}
	var answers []app.UI
	for _, m := range i.Methods() {
		label, note := words.Work(m)
		answers = append(answers, a.choice(picture(draw.ThingPicture(workThing(m), "", "")), label, note, false, func(ctx app.Context) { a.begin(ctx, m, i) }))
	}
	q := words.WorkQuestion(i.Holds())
	if q.Lead == "" {
		q.Lead = words.Instrument(i)
	}
	body := a.ask(q, answers...)
	if h := i.Holds(); h == job.BridgeFixed || h == job.BridgeUnsure {
		body = append(body, a.button("quiet", words.BridgeAgain(), a.lookAgain(i)))
	}
	return "work", append(body, back)
}

// lookAgain asks anew what holds the strings up; until it is answered what was said stands.
func (a *App) lookAgain(i job.Instrument) func(app.Context) {
	return func(app.Context) {
		clear(a.problem)
		a.start, a.picked["bridge"] = i, 1
	}
}

// bridgeRow says what holds the strings up, and leads to the question.
func (a *App) bridgeRow(i job.Instrument) app.UI {
	return elem("div").Class("rows").Body(a.changeRow(words.BridgeRow(), words.Bridge(i.Holds()), a.lookAgain(i)))
}

// split says in a plan what a saddle in two pieces changes.
func (a *App) split(r job.Record) app.UI {
	if !r.Split() {
		return elem("div").Hidden(true)
	}
	return notice("note", words.SplitPlan(r.Method))
}

// bridgeThing is the picture of what holds the strings up.
func bridgeThing(b job.Bridge) draw.Thing {
	switch b {
	case job.BridgeSlot:
		return draw.SaddleLoose
	case job.BridgeFixed:
		return draw.SaddleThrough
	case job.BridgeScrews:
		return draw.BridgeScrews
	case job.BridgePosts:
		return draw.BridgePosts
	}
	return draw.SaddleUnsure
}

// workThing is the picture of what a method does.
func workThing(m job.Method) draw.Thing {
	switch m {
	case job.RaiseByStrip:
		return draw.UnderShim
	case job.NewSaddle:
		return draw.WorkBlank
	case job.ByScrews:
		return draw.BridgeScrews
	case job.ByPosts:
		return draw.BridgePosts
	case job.NutSlots:
		return draw.WorkNut
	case job.SetRelief:
		return draw.WorkRelief
	}
	return draw.SaddleLoose
}
