package view

import (
	"errors"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"gapwright/app/job"
	"gapwright/app/words"
)

// Where the Bench becomes long.
const (
	manyInstruments = 8  // from that many on there is a place to search
	pageful         = 30 // are shown at a time
)

// search is what the Bench is searched for and how many more pages of it are shown. It stays while somebody looks at what was found.
type search struct {
	query        string
	pages, older int  // of what is on the Bench, and of what is in the archive
	archive      bool // it is open
}

// finder is the place to search. It is always there, so that nothing below it is drawn anew; hidden where there is little to find.
func (a *App) finder(hidden bool, said string) app.UI {
	const id = "find"
	return elem("div").Class("find").Role("search").Hidden(hidden).Body(
		elem("div").Class("field").Body(
			elem("label").Attr("for", id).Text(words.FindLabel()),
			elem("div").Class("field-line").Body(
				app.Input().ID(id).Type("text").Attr("inputmode", "search").Attr("enterkeyhint", "search").AutoComplete(false).
					Attr("autocapitalize", "none").Attr("spellcheck", "false").Aria("describedby", id+"-said").Value(a.search.query).
					OnInput(func(ctx app.Context, _ app.Event) {
						a.search = search{query: ctx.JSSrc().Get("value").String(), archive: a.search.archive}
					}, a.scope("input", id)).
					OnKeyDown(func(ctx app.Context, e app.Event) {
						if e.Get("key").String() == "Enter" { // what was found is looked at without a keyboard over it
							e.PreventDefault()
							ctx.JSSrc().Call("blur")
						}
					}, a.scope("enter", id)),
				a.button("quiet", words.FindClear(), func(app.Context) {
					a.search = search{}
					setText(id, "")
					focusOn(id)
				}).Hidden(a.search.query == ""))),
		elem("p").Class("soft").ID(id+"-said").Role("status").Text(said))
}

// listed draws the first pages of a list of instruments, and what leads to more.
func (a *App) listed(all []job.Instrument, open []job.Record, pages *int) (cards []app.UI) {
	first, more := job.Pages(len(all), pageful, *pages)
	reader := a.reader()
	for _, i := range all[:first] {
		cards = append(cards, a.instrumentCard(i, open, reader))
	}
	if more > 0 {
		cards = append(cards, a.button("quiet", words.ShowMore(more), func(app.Context) { *pages++ }))
	}
	return cards
}

// instrumentCard is an instrument in a list: it leads to its page, and to the job under way on it or to a new one.
func (a *App) instrumentCard(i job.Instrument, open []job.Record, reader words.Reader) app.UI {
	name := words.Instrument(i)
	next := app.UI(a.button("small", words.NewJob(), func(ctx app.Context) { a.setUp(ctx, i) }).Aria("label", words.NewJob()+": "+name))
	if r, under := job.OpenOn(open, i.ID); under {
		label := words.GoOnWith(words.StepName(r.StepAt(now())))
		next = elem("a").Class("button small").Attr("href", Link(a.prefix, Job, r.ID)).Aria("label", name+", "+label).Text(label)
	}
	belongs := words.Belongs(i)
	return elem("div").Class("card").Body(
		elem("a").Class("card-name").Attr("href", Link(a.prefix, Instrument, i.ID)).Text(name),
		elem("span").Class("card-owner").Hidden(belongs == "").Text(belongs),
		elem("span").Class("soft").Text(reader.AsSetLine(i)),
		elem("div").Class("card-next").Body(next,
			elem("a").Class("button quiet small").Attr("href", Link(a.prefix, Check, i.ID)).Aria("label", words.CheckShort()+": "+name).Hidden(!i.HasBaseline()).Text(words.CheckShort())))
}

// archived folds away what is in the archive, and draws it when it is opened.
func (a *App) archived(all []job.Instrument, open []job.Record) app.UI {
	head := app.Button().Type("button").Class("unfold").Aria("expanded", pressed(a.search.archive)).Text(words.Archive(len(all))).
		Attr(tapMark, a.tap(func(app.Context) { a.search.archive = !a.search.archive }))
	body := elem("div").Class("cards many")
	if a.search.archive {
		body = body.Body(a.listed(all, open, &a.search.older)...)
	}
	return elem("div").Class("more").Hidden(len(all) == 0).Body(head, body)
}

// belongs is what is said of whose an instrument is and what it is found by. It has a button of its own: much stands below it.
func (a *App) belongs(i job.Instrument) app.UI {
	return elem("div").Class("fields").Body(a.textField("owner", words.OwnerLabel()), a.textField("tags", words.TagsLabel()),
		a.button("quiet", words.KeepBelongs(), func(app.Context) {
			clear(a.problem)
			if next := a.belonging(i); a.labelled(next) {
				a.putProfile(next)
			}
		}))
}

// belonging is an instrument with what is typed of whose it is and what it is found by.
func (a *App) belonging(i job.Instrument) job.Instrument {
	i.Owner, i.Tags = strings.TrimSpace(a.typed["owner"]), strings.TrimSpace(a.typed["tags"])
	return i
}

// labelled tells whether that has room, and says beside the field what has not.
func (a *App) labelled(i job.Instrument) bool {
	var long *job.TooLong
	if !errors.As(i.CheckLabels(), &long) {
		return true
	}
	a.problem[long.Field] = words.TooLong(long.Most)
	focusOn(long.Field)
	return false
}

// archive offers to put an instrument into the archive.
func (a *App) archive(i job.Instrument) app.UI {
	if i.Archived {
		return elem("div")
	}
	body := []app.UI{soft(words.IntoArchiveMore()), a.button("quiet", words.IntoArchive(), a.put(i, true))}
	if _, under := job.OpenOn(a.desk.Jobs(), i.ID); under {
		body = append([]app.UI{notice("caution", words.ArchivedWithJob())}, body...)
	}
	return elem("div").Body(fold(words.IntoArchiveTitle(), body...))
}

// inArchive says of an instrument that it is in the archive, and takes it out.
func (a *App) inArchive(i job.Instrument) app.UI {
	if !i.Archived {
		return elem("div").Hidden(true)
	}
	return elem("div").Body(notice("note", words.InArchive()), a.button("quiet small", words.OutOfArchive(), a.put(i, false)))
}

// put moves an instrument into the archive or out of it.
func (a *App) put(i job.Instrument, archived bool) func(app.Context) {
	return func(app.Context) {
		clear(a.problem)
		i.Archived = archived
		a.putProfile(i)
	}
}
