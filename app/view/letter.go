package view

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"gapwright/app/draw"
	"gapwright/app/job"
	"gapwright/app/words"
)

// letterScreen is what is handed to the owner of the instrument after a job: as it will be on paper.
func (a *App) letterScreen() (string, []app.UI) {
	r, ok := a.desk.Job(a.id)
	if fetched := a.fetched[a.id]; !ok && fetched != nil {
		r, ok = *fetched, true
	}
	if !ok {
		return a.elsewhere()
	}
	l, none := r.Letter()
	if none != "" {
		return "no-letter/" + a.id, []app.UI{title(words.LetterName()), lead(words.NoLetter(none)),
			foot(elem("a").Class("button main").Attr("href", Link(a.prefix, Job, a.id)).Text(words.Instrument(r.Instrument)))}
	}
	if i, known := a.desk.Instrument(r.Instrument.ID); known { // whose it is and what it is called now
		l.Instrument.Owner, l.Instrument.Name = i.Owner, i.Name
	}
	if _, begun := a.typed["signed"]; !begun {
		a.typed["signed"] = a.signed
	}
	a.signed = a.typed["signed"]
	text := a.reader().Letter(l, a.typed["closing"], a.signed)
	told := map[int]string{1: words.LetterCopied(), 2: words.LetterStays(), 3: words.LetterUnprinted()}[a.picked["handed"]]
	hand := words.CopyLetter()
	if canShare() {
		hand = words.ShareLetter()
	}
	return "letter/" + a.id, []app.UI{title(words.LetterName()), lead(words.LetterLead()),
		fold(words.SignLetter(), a.textField("closing", words.ClosingLabel()), a.textField("signed", words.SignatureLabel()), soft(words.SignLetterMore())),
		a.letterSheet(l, text),
		elem("p").Class("notice notice-note").Role("status").Hidden(told == "").Text(told),
		elem("div").Class("foot-all").Body(elem("div").Class("foot foot-pair").Body(
			a.button("main", words.PrintLetter(), func(app.Context) {
				if app.Window().Get("print").Truthy() {
					app.Window().Call("print")
				} else {
					a.picked["handed"] = 3
				}
			}),
			a.button("quiet", hand, func(ctx app.Context) {
				share(ctx, text.Title, text.Plain(), ".letter", words.LetterFile(), false, func(how string) {
					a.picked["handed"] = map[string]int{"copied": 1, "failed": 2}[how]
				})
			})))}
}

// letterSheet is the letter itself.
func (a *App) letterSheet(l job.Letter, text words.Letter) app.UI {
	body := []app.UI{
		elem("div").Class("letter-head").Body(elem("h2").Text(text.Title), elem("p").Text(text.For), elem("p").Text(text.Day)),
		elem("p").Text(text.Opening),
		elem("div").Class("letter-pictures").Body(a.letterPictures(l)...),
	}
	for _, p := range text.Parts {
		part := []app.UI{elem("h3").Text(p.Heading)}
		if len(p.Rows) > 0 {
			rows := []app.UI{elem("tr").Body(elem("td"), elem("th").Attr("scope", "col").Text(p.Columns[0]), elem("th").Attr("scope", "col").Text(p.Columns[1]))}
			for _, row := range p.Rows {
				rows = append(rows, elem("tr").Body(elem("th").Attr("scope", "row").Text(row[0]), elem("td").Text(row[1]), elem("td").Text(row[2])))
			}
			part = append(part, elem("table").Body(elem("tbody").Body(rows...)))
		}
		for _, line := range p.Lines {
			part = append(part, elem("p").Text(line))
		}
		body = append(body, elem("section").Body(part...))
	}
	var closing []app.UI
	for _, line := range text.Closing {
		closing = append(closing, elem("p").Text(line))
	}
	return elem("article").Class("letter").Aria("label", text.Title).Body(append(body, elem("div").Class("letter-closing").Body(closing...))...)
}

// letterPictures are drawings made from the readings.
func (a *App) letterPictures(l job.Letter) []app.UI {
	i, reader := l.Instrument, a.reader()
	var parts []draw.LetterPart
	for n, row := range l.Shown() {
		p := draw.LetterPart{ID: "letter-" + words.Number(n), Title: words.LetterPicture(l, row), Name: words.LetterPicture(l, row), Scale: float64(i.ScaleOf(row.Course)),
			Fret: i.ReadFret(), Held: i.Held, Nut: float64(i.UsualNut(row.Course)), Twelfth: float64(i.Usual(row.Course).Middle())}
		switch row.Feature {
		case job.Relief:
			p.Kind = draw.LetterRelief
			p.Held, p.Fret, p.To = i.ReliefPlace()
		case job.FirstFret:
			p.Kind, p.Fret, p.Held = draw.LetterFirst, 1, 0
		case job.FirstPressed:
			p.Kind, p.Fret, p.Held = draw.LetterPressed, 1, 0
		}
		was, now := reader.LetterRow(row)
		p.FretLabel, p.Desc = words.Fret(p.Fret), words.LetterNow(now)
		if row.Was.Known {
			p.Was, p.WasLabel = &row.Was.Range, words.LetterWas(l, was)
			p.Desc = p.WasLabel + ", " + p.Desc
		}
		if row.Now.Known {
			p.Now, p.NowLabel = &row.Now.Range, words.LetterNow(now)
		}
		parts = append(parts, p)
	}
	var all []app.UI
	times := draw.LetterTimes(parts)
	for _, p := range parts {
		p.Times, p.Exaggerated = times, words.Taller(times)
		scene := draw.LetterPicture(p)
		if i.LeftHanded {
			scene = draw.Mirrored(scene)
		}
		all = append(all, picture(scene))
	}
	return all
}

// csvButton hands out every reading of an instrument as a table.
func (a *App) csvButton(instrument string) app.UI {
	return a.button("quiet", words.TableButton(), func(ctx app.Context) {
		clear(a.problem)
		a.desk.History(instrument, func(jobs []job.Record, whole bool) {
			for _, r := range a.desk.Jobs() {
				if r.Instrument.ID == instrument {
					jobs = append(jobs, r)
				}
			}
			text, some := a.reader().Table(jobs)
			if !whole {
				a.problem[""] = words.TableHoles()
			}
			if some {
				download(words.TableFile(), "text/csv;charset=utf-8", text)
			} else if whole {
				a.problem[""] = words.TableEmpty()
			}
			ctx.Dispatch(func(app.Context) {})
		})
	})
}
