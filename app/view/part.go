package view

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"gapwright/app/draw"
	"gapwright/app/words"
)

// The parts that screens are made of.

// title heads a screen. It can be given the focus, so that a new screen is announced.
func title(text string) app.UI { return elem("h1").ID("title").TabIndex(-1).Text(text) }

func lead(text string) app.UI { return elem("p").Class("lead").Text(text) }

func soft(text string) app.UI { return elem("p").Class("soft").Text(text) }

// button is a tap target with a label.
func (a *App) button(class, label string, do func(ctx app.Context)) app.HTMLButton {
	return app.Button().Type("button").Class("button "+class).Text(label).Attr(tapMark, a.tap(do))
}

// scope names a handler in the screen as it was last drawn: handlers are otherwise told apart by their code alone, and one would act on what was
// true when the control was first drawn.
func (a *App) scope(parts ...any) app.EventOption {
	return app.EventScope(append([]any{a.drawn}, parts...)...)
}

// foot holds the one main button of a screen in the thumb's reach and, after it, what else can be done.
func foot(main app.UI, others ...app.UI) app.UI {
	return elem("div").Class("foot-all").Body(elem("div").Class("foot").Body(main), elem("div").Class("foot-others").Body(others...))
}

// choice is one of several answers: a wide button with a picture before its label.
func (a *App) choice(picture app.UI, label, note string, chosen bool, do func(ctx app.Context)) app.UI {
	b := app.Button().Type("button").Class("choice").Attr(tapMark, a.tap(do))
	if chosen {
		b = b.Class("choice chosen").Aria("pressed", "true")
	}
	var text []app.UI
	text = append(text, elem("span").Class("choice-label").Text(label))
	if note != "" {
		text = append(text, elem("span").Class("choice-note").Text(note))
	}
	return b.Body(elem("span").Class("choice-picture").Aria("hidden", "true").Body(picture), elem("span").Class("choice-text").Body(text...))
}

// more is a fold of lines.
func (a *App) more(summary string, lines []string) app.UI {
	if len(lines) == 0 {
		return elem("div")
	}
	return a.folded(summary, func() []app.UI { return withTerms(nil, lines) })
}

// how is what is read at a tap on a step: the four sentences, what else is to know, and the words of the trade in it and in what was said above.
func (a *App) how(h words.How, lines []string, said ...string) app.UI {
	return a.folded(words.More(), func() []app.UI { return howLines(h, lines, said...) })
}

func howLines(h words.How, lines []string, said ...string) []app.UI {
	var body []app.UI
	for _, l := range h.Lines() {
		body, said = append(body, elem("p").Class("how").Body(elem("strong").Text(l[0]), elem("span").Text(l[1]))), append(said, l[1])
	}
	return withTerms(body, lines, said...)
}

// withTerms puts lines behind a body and, behind them, each word of the trade in them, explained at a tap.
func withTerms(body []app.UI, lines []string, said ...string) []app.UI {
	for _, l := range lines {
		body = append(body, elem("p").Text(l))
	}
	terms := words.Terms(append(said, lines...)...)
	if len(terms) > 0 {
		body = append(body, elem("p").Class("soft").Text(words.TermsTitle()))
	}
	for _, t := range terms {
		body = append(body, fold(t[0], elem("p").Text(t[1])))
	}
	return body
}

// folded is a fold whose body is drawn when it is first opened: most are never opened.
func (a *App) folded(summary string, body func() []app.UI) app.UI {
	all := []app.UI{elem("summary").Text(summary)}
	if a.unfolded[summary] {
		all = append(all, body()...)
	}
	return elem("details").Class("more").Attr(foldMark, summary).Body(all...)
}

// fold holds what is read at a tap.
func fold(summary string, body ...app.UI) app.UI {
	return elem("details").Class("more").Body(append([]app.UI{elem("summary").Text(summary)}, body...)...)
}

// trouble says what is wrong with the screen as a whole. Its place is always kept, so that nothing below it is drawn anew.
func (a *App) trouble() app.UI {
	text := a.problem[""]
	return elem("p").Class("problem").Role("alert").Hidden(text == "").Text(text)
}

// notice is a caution or a remark: its kind is told by shape and word, not by colour alone.
func notice(kind, text string) app.UI {
	return elem("p").Class("notice notice-"+kind).Body(elem("span").Class("notice-sign").Aria("hidden", "true").Text(sign(kind)), elem("span").Text(text))
}

func sign(kind string) string {
	switch kind {
	case "stop":
		return "■"
	case "caution":
		return "▲"
	case "done":
		return "✓"
	}
	return "●"
}

// field is a labelled place to type a length or a number. What is typed stays as it is; what is wrong with it is said under it.
func (a *App) field(id, label, unit string, next string, done func(ctx app.Context)) app.UI {
	mode := "decimal"
	if unit == "in" || id == "grit" {
		mode = "text" // fractions need a slash, papers a letter
	}
	problem := a.problem[id]
	return elem("div").Class("field").Body(
		elem("label").Attr("for", id).Text(label),
		elem("div").Class("field-line").Body(
			app.Input().ID(id).Type("text").Attr("inputmode", mode).AutoComplete(false).Attr("enterkeyhint", "next").
				Value(a.typed[id]).Aria("invalid", problem != "").Aria("describedby", id+"-problem").
				OnInput(a.typing(id), app.EventScope(id)).
				OnKeyDown(func(ctx app.Context, e app.Event) {
					if e.Get("key").String() != "Enter" {
						return
					}
					e.PreventDefault()
					if next != "" {
						focusOn(next)
					} else if done != nil {
						done(ctx)
					}
				}, a.scope("enter", id)),
			elem("span").Class("field-unit").Text(unit),
		),
		elem("p").Class("problem").ID(id+"-problem").Hidden(problem == "").Text(problem),
	)
}

// typing keeps what is typed into a field, as it is.
func (a *App) typing(id string) app.EventHandler {
	return func(ctx app.Context, _ app.Event) { a.typed[id] = ctx.JSSrc().Get("value").String() }
}

// stepper picks a number by two buttons: for a thumb, with no keyboard over half the screen.
func (a *App) stepper(name, label, value, down, up string, less, greater func(ctx app.Context)) app.UI {
	return a.stepWith([2]string{"−", "+"}, name, label, value, down, up, less, greater)
}

// stepWith is a stepper with signs of its own on its buttons: less and more say nothing of a way.
func (a *App) stepWith(signs [2]string, name, label, value, down, up string, less, greater func(ctx app.Context)) app.UI {
	return elem("div").Class("stepper").Role("group").Aria("label", label).Body(
		elem("span").Class("stepper-label").Text(label),
		app.Button().Type("button").Class("button step-button").Aria("label", label+": "+down).Text(signs[0]).Attr(tapMark, a.tap(less)),
		elem("output").Class("stepper-value").ID(name+"-value").Text(value),
		app.Button().Type("button").Class("button step-button").Aria("label", label+": "+up).Text(signs[1]).Attr(tapMark, a.tap(greater)),
	)
}

// nudger is a stepper in half the width, for a number that is seen elsewhere as well.
func (a *App) nudger(name, label, value, down, up string, less, greater func(ctx app.Context)) app.UI {
	return elem("div").Class("nudger").Role("group").Aria("label", label).Body(
		app.Button().Type("button").Class("button step-button").Aria("label", label+": "+down).Text("−").Attr(tapMark, a.tap(less)),
		elem("span").Class("nudger-middle").Body(elem("span").Class("nudger-name").Text(label), elem("output").Class("nudger-value").ID(name+"-value").Text(value)),
		app.Button().Type("button").Class("button step-button").Aria("label", label+": "+up).Text("+").Attr(tapMark, a.tap(greater)),
	)
}

// changeRow is a line of a list: what is known, and a way to change it.
func (a *App) changeRow(name, value string, change func(ctx app.Context)) app.UI {
	return elem("div").Class("row").Body(elem("span").Class("row-name").Text(name), elem("span").Class("row-value").Text(value),
		a.button("quiet small", words.Change(), change).Aria("label", words.Change()+": "+name))
}

// toggle is a switch with a sentence.
func (a *App) toggle(name, label string, on bool, set func(ctx app.Context, on bool)) app.UI {
	return elem("label").Class("toggle").Body(
		app.Input().Type("checkbox").ID(name).Checked(on).OnChange(func(ctx app.Context, _ app.Event) {
			set(ctx, ctx.JSSrc().Get("checked").Bool())
		}, a.scope("toggle", name, on)),
		elem("span").Text(label),
	)
}

// ask draws a question with its answers.
func (a *App) ask(q words.Ask, answers ...app.UI) []app.UI {
	return a.asking(q, "choices", a.more(words.More(), q.More), answers...)
}

// asking is ask with what is folded under it, and how the answers stand.
func (a *App) asking(q words.Ask, class string, folded app.UI, answers ...app.UI) []app.UI {
	return []app.UI{title(q.Title), lead(q.Lead), a.trouble(), elem("div").Class(class).Body(answers...), folded}
}

// fewAnswers is how many stand under each other on a low screen; more stand in pairs.
const fewAnswers = 3

// nothing is shown where an address names what is not on this device: it leads back.
func (a *App) nothing() (string, []app.UI) {
	return "nothing/" + a.id, []app.UI{title(words.NothingHere()), lead(words.NothingHereMore()), still(draw.EmptyBench), foot(a.toBench("main", words.BenchName()))}
}

// toBench leads to the Bench.
func (a *App) toBench(class, label string) app.HTMLElem {
	return elem("a").Class("button "+class).Attr("href", Link(a.prefix, Bench, "")).Text(label)
}

// elem is an element by its tag. One type for most of them keeps the program small: each of go-app's own carries a hundred methods.
func elem(tag string) app.HTMLElem { return app.Elem(tag) }
