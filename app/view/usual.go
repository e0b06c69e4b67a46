package view

import (
	"errors"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"gapwright/app/job"
	"gapwright/app/words"
)

// wont is what is usual of an instrument, to be changed: beside each number what is usual for its family, and a caution at floors that are lower.
func (a *App) wont(i job.Instrument) app.UI {
	reader, draft := a.reader(), a.wontDraft(i)
	keep := func(app.Context) { a.keepWont(a.wontDraft(i)) }
	body := []app.UI{soft(words.WontLead())}
	for _, p := range job.WontParts() {
		var row []app.UI
		fields, under := p.Fields(), false
		for n, f := range fields {
			next, done := "", keep
			if n+1 < len(fields) {
				next, done = wontID(fields[n+1]), nil
			}
			row = append(row, a.given(i.Wonted(f), wontID(f), reader.WontLabel(f, i.FamilyWont(f)), reader.UnitName(), next, done))
			under = under || draft.Under(f)
		}
		name := words.WontPart(p)
		body = append(body, elem("div").Class("group").Role("group").Aria("label", name).Body(elem("p").Class("look-place").Text(name),
			elem("div").Class("fields two").Body(row...), elem("div").Hidden(!under).Body(notice("caution", words.WontUnder()))))
	}
	return fold(words.WontTitle(i.Wont != nil), append(body, a.button("quiet", words.Keep(), keep).Aria("label", words.KeepWont()))...)
}

// wontDraft is the instrument with what stands in the fields; what is untouched keeps the unit that it was typed in.
func (a *App) wontDraft(i job.Instrument) job.Instrument {
	draft := i
	for _, p := range job.WontParts() {
		for _, f := range p.Fields() {
			text, started := a.typed[wontID(f)]
			switch {
			case !started || text == i.Wonted(f).Text:
			case text == "":
				draft = draft.WithWont(f, job.Typed{})
			default:
				draft = draft.WithWont(f, job.Typed{Text: text, Unit: a.reader().Unit})
			}
		}
	}
	return draft
}

func (a *App) keepWont(i job.Instrument) {
	clear(a.problem)
	for _, p := range job.WontParts() {
		for _, f := range p.Fields() {
			if t := i.Wonted(f); t.Given() {
				if _, err := t.Length(); err != nil {
					a.problem[wontID(f)] = a.reader().Error(err)
				}
			}
		}
	}
	var wrong *job.WontError
	switch err := i.Check(); {
	case len(a.problem) > 0:
	case errors.As(err, &wrong):
		a.problem[wontID(wrong.Field)] = a.reader().Error(err)
	case err != nil:
		a.problem[profileField(err)] = a.reader().Error(err)
	default:
		a.putProfile(i)
	}
}

// wontField begins the names of these fields.
const wontField = "wont-"

// wontID is the field of a number.
func wontID(f job.WontField) string {
	id := wontField + words.Number(int(f.Part)) + "-" + words.Number(f.Side)
	if f.High {
		id += "-to"
	}
	return id
}
