package view

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"gapwright/app/draw"
	"gapwright/app/job"
	"gapwright/app/words"
)

// mostSuspects is how many causes stand by themselves; the others are folded together.
const mostSuspects = 4

// buzzPicked are the controls of the three questions: the answer counted from 1.
var buzzPicked = [...]string{"buzz-strings", "buzz-place", "buzz-since"}

// buzzScreen asks where it buzzes, one question a screen, and then tells the likely causes: of an instrument with what was read of it, or of any.
func (a *App) buzzScreen() (string, []app.UI) {
	i, known := a.desk.Instrument(a.id)
	if a.id != "" && !known {
		return a.nothing()
	}
	name, b, asked := words.BuzzName(), job.Buzz{}, 0
	if known {
		name = words.Instrument(i)
	}
	for asked < len(b) && a.picked[buzzPicked[asked]] > 0 {
		b[asked] = a.picked[buzzPicked[asked]] - 1
		asked++
	}
	back := a.button("quiet", words.Back(), func(app.Context) { delete(a.picked, buzzPicked[asked-1]) })
	said, body := "", []app.UI(nil)
	switch asked {
	case 0:
		body = a.buzzQuestion(i, b, asked)
	case len(b):
		said, body = words.BuzzSaid(b), a.suspects(i, b, back)
	default:
		body = append(a.buzzQuestion(i, b, asked), back)
	}
	where := elem("div").Class("where").Body(elem("p").Class("where-line").Body(elem("strong").Text(name), elem("span").Text(said)))
	return "buzz/" + a.id + "/" + words.Number(asked), append([]app.UI{where}, body...)
}

// buzzQuestion asks one of the three questions; the first two show on a neck what they mean.
func (a *App) buzzQuestion(i job.Instrument, b job.Buzz, n int) []app.UI {
	var answers []app.UI
	for answer := range job.BuzzAnswers[n] {
		shown := app.Text("")
		switch n {
		case 0:
			shown = picture(draw.Handed(draw.BuzzNeck(answer, -1, "", ""), i.LeftHanded))
		case 1:
			shown = picture(draw.Handed(draw.BuzzNeck(b[0], answer, "", ""), i.LeftHanded))
		}
		answers = append(answers, a.choice(shown, words.BuzzAnswer(n, answer), "", false, func(app.Context) { a.picked[buzzPicked[n]] = answer + 1 }))
	}
	return a.ask(words.BuzzQuestion(n), answers...)
}

// suspects tells the likely causes: the first with its check in view, the next ones folded, the least likely together.
func (a *App) suspects(i job.Instrument, b job.Buzz, back app.UI) []app.UI {
	all := b.Suspects(job.FoundOn(a.desk.Jobs(), i))
	first := all[0]
	read := func(s job.Suspect) app.UI {
		text := a.reader().BuzzRead(i, s)
		return elem("p").Class("soft").Hidden(text == "").Text(text)
	}
	remedy := func(s job.Suspect) (lines []app.UI) {
		for _, line := range words.BuzzCause(s.Cause).Remedy {
			lines = append(lines, elem("p").Text(line))
		}
		return append(lines, elem("a").Class("button quiet").Attr("href", Link(a.prefix, Check, i.ID)).Hidden(i.ID == "" || !s.Cause.InACheck()).Text(words.CheckName()))
	}
	body := []app.UI{title(words.BuzzNumbered(1, first.Cause))}
	if b[2] == job.SinceSuddenly {
		body = append(body, notice("stop", words.BuzzSudden()))
	}
	body = append(body, a.buzzCheck(i, b, first.Cause), lead(words.BuzzCause(first.Cause).Check), read(first), fold(words.BuzzIfSo(), remedy(first)...))
	var less []app.UI
	for n, s := range all[1:] {
		check := append([]app.UI{elem("p").Body(elem("strong").Text(words.BuzzCause(s.Cause).Check)), read(s)}, remedy(s)...)
		heading := words.BuzzNumbered(n+2, s.Cause)
		if n+1 < mostSuspects {
			body = append(body, fold(heading, check...))
		} else {
			less = append(append(less, elem("h2").Text(heading)), check...)
		}
	}
	if len(less) > 0 {
		body = append(body, fold(words.BuzzLess(), less...))
	}
	place := Bench
	if i.ID != "" {
		place = Instrument
	}
	return append(body, fold(words.BuzzStopWhen(), notice("stop", words.CheckStop())),
		foot(elem("a").Class("button main").Attr("href", Link(a.prefix, place, i.ID)).Text(words.CheckDone()), back))
}

// buzzCheck is the picture of how a cause is checked, or of where it buzzes.
func (a *App) buzzCheck(i job.Instrument, b job.Buzz, c job.BuzzCause) app.UI {
	act := func(act draw.Act, title string, labels ...string) app.UI {
		return elem("div").Class("act").Body(picture(draw.ActPicture(act, i.LeftHanded, title, "", labels...)))
	}
	switch c {
	case job.CauseFlat, job.CauseBowed:
		var labels []string
		if held, at, to := i.ReliefPlace(); i.ID != "" {
			labels = []string{words.Fret(at), words.Fret(held), words.Fret(to)}
		}
		return act(draw.ReliefHeld, words.SurveyPicture(job.Relief), labels...)
	case job.CauseNut:
		return act(draw.FirstPressed, words.SurveyPicture(job.FirstPressed), words.LeafLabel(), words.PressLabel())
	case job.CauseLow:
		return act(draw.StandRule, words.BuzzHeight(), words.Number(12))
	case job.CauseSeat:
		return act(draw.SeatTest, words.BuzzSeat())
	case job.CauseFret:
		return elem("div").Class("act").Body(picture(draw.FretRocker(words.RockerPicture(), "")))
	}
	return elem("div").Class("act").Body(picture(draw.Handed(draw.BuzzNeck(b[0], b[1], words.BuzzPicture(), words.BuzzSaid(b)), i.LeftHanded)))
}
