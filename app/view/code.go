package view

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"gapwright/app/draw"
	"gapwright/app/job"
	"gapwright/app/words"
)

// codeScreen shows an instrument as a code for another phone; without one it reads such a code.
func (a *App) codeScreen() (string, []app.UI) {
	if a.id == "" {
		if read, err := job.ReadCode(a.typed["code"]); err == nil {
			return "code/read", a.received(read)
		}
		return "code/", a.codeReader()
	}
	i, ok := a.desk.Instrument(a.id)
	if !ok {
		return a.nothing()
	}
	done := foot(elem("a").Class("button main").Attr("href", Link(a.prefix, Instrument, i.ID)).Text(words.CodeDone()))
	text, without, err := i.Code()
	if err != nil {
		return "code/" + a.id, []app.UI{title(words.CodeName()), notice("caution", words.CodeRefused(err)), done}
	}
	a.sanding = true // a screen that goes dark cannot be read
	left := words.CodeWithout(without)
	return "code/" + a.id, []app.UI{title(words.CodeName()), lead(words.CodeLead()),
		&codePicture{Text: text, Title: words.CodePicture(), Desc: a.reader().CodePictureText(i)},
		soft(words.CodeBright()),
		elem("div").Hidden(left == "").Body(notice("note", left)),
		a.more(words.More(), words.CodeMore()),
		done}
}

// receiveLink leads to the reader of codes.
func (a *App) receiveLink() app.UI {
	return elem("a").Class("button quiet").Attr("href", Link(a.prefix, Code, "")).Text(words.ReceiveName())
}

// codePicture is the code of a text. It is drawn by a script that is fetched when it is needed.
type codePicture struct {
	app.Compo
	Text, Title, Desc string
	asked, rows       string
	failed            bool
}

// OnMount draws it.
func (c *codePicture) OnMount(ctx app.Context) { c.ask(ctx) }

// OnUpdate draws another one when the text is another.
func (c *codePicture) OnUpdate(ctx app.Context) { c.ask(ctx) }

func (c *codePicture) ask(ctx app.Context) {
	page, ok := start()
	if !ok || c.asked == c.Text {
		return
	}
	asked := c.Text
	c.asked, c.rows = asked, ""
	page.Call("later", "code.js", "drawn", asked).Then(func(rows app.Value) {
		ctx.Dispatch(func(app.Context) {
			if c.asked != asked {
				return
			}
			if c.failed = !rows.Truthy(); !c.failed {
				c.rows = rows.String()
			}
		})
	})
}

// Render draws the code, or says that there is none.
func (c *codePicture) Render() app.UI {
	return elem("div").Class("code").Body(
		elem("p").Class("problem").Role("alert").Hidden(!c.failed).Text(words.CodeNotDrawn()),
		elem("div").Hidden(c.failed).Body(picture(draw.CodePicture(c.Title, c.Desc, c.rows))))
}

// finder is the id of what shows the camera's picture, codeFile that of the field for a picture.
const finder, codeFile = "finder", "code-file"

// codeReader reads a code by the camera, which is asked for at a tap, or from a picture.
func (a *App) codeReader() []app.UI {
	looking := a.picked["camera"] == 1
	a.sanding = looking
	said, name := words.ReceiveLead(), words.OpenCamera()
	if looking {
		said, name = words.CameraLead(), words.CloseCamera()
	}
	return []app.UI{title(words.ReceiveName()), lead(said), a.trouble(),
		elem("div").Class("code").Hidden(looking).Body(picture(draw.HandOver(words.ReceivePic(), ""))),
		elem("video").ID(finder).Class("finder").Attr("playsinline", true).Attr("muted", true).Aria("label", words.CameraPicture()).Hidden(!looking),
		a.more(words.More(), words.ReceiveMore()),
		foot(a.button("main", name, func(ctx app.Context) {
			clear(a.problem)
			if looking { // the camera goes off when its picture is hidden
				delete(a.picked, "camera")
				return
			}
			a.picked["camera"] = 1
			a.readCode(ctx, "camera", finder)
		}), elem("label").Class("button quiet file").Body(
			elem("span").Text(words.FromPicture()),
			app.Input().Type("file").ID(codeFile).Accept("image/*").OnChange(func(ctx app.Context, _ app.Event) {
				clear(a.problem)
				a.readCode(ctx, "picture", codeFile)
			}, a.scope("code-file"))))}
}

// readCode has a code read by the page's own script, and takes what it answers: what was read, or why nothing was.
func (a *App) readCode(ctx app.Context, by, id string) {
	page, ok := start()
	if !ok {
		return
	}
	page.Call("later", "code.js", by, id).Then(func(answer app.Value) {
		ctx.Dispatch(func(app.Context) {
			if a.place != Code || a.id != "" {
				return // the person has gone on
			}
			delete(a.picked, "camera")
			if !answer.Truthy() {
				a.problem[""] = words.CodeFailed("")
				return
			}
			if fail := answer.Get("fail"); fail.Truthy() {
				a.problem[""] = words.CodeFailed(fail.String())
				return
			}
			text := answer.Get("text").String()
			if _, err := job.ReadCode(text); err != nil {
				a.problem[""] = words.CodeRefused(err)
				return
			}
			a.typed["code"] = text
		})
	})
}

// deed is what can be done, as its button says it.
type deed struct {
	name string
	do   func(ctx app.Context)
}

// received says what was read and asks what is to be done with it: nothing that is here is replaced unasked.
func (a *App) received(read job.Instrument) []app.UI {
	reader := a.reader()
	if _, said := a.desk.Kit(); !said {
		reader.Unit = read.ReadIn()
	}
	var rows []app.UI
	for _, row := range reader.ReceivedRows(read) {
		rows = append(rows, elem("div").Class("row row-two").Body(elem("span").Class("row-name").Text(row[0]), elem("span").Class("row-value").Text(row[1])))
	}
	numbers := app.UI(elem("div").Class("rows").Body(rows...))
	compared := ""
	deeds := []deed{{words.AddIt(), func(ctx app.Context) { a.takeOver(ctx, read) }}}
	if mine, here := a.desk.Instrument(read.ID); here {
		compared = words.CodeBeside(mine, read)
		numbers = fold(words.Numbers(), numbers)
		deeds = a.besides(mine, read)
	}
	deeds = append(deeds, deed{words.ReadAnother(), func(app.Context) { clear(a.typed); clear(a.problem) }})
	buttons := make([]app.UI, len(deeds))
	for n, d := range deeds {
		class := "quiet"
		if n == 0 {
			class = "main"
		}
		buttons[n] = a.button(class, d.name, d.do)
	}
	return []app.UI{title(words.Instrument(read)), lead(reader.AsSetLine(read)), a.trouble(),
		elem("div").Hidden(compared == "").Body(notice("note", compared)),
		elem("p").Class("soft").Hidden(compared == "").Text(words.TakeMeans()), numbers, foot(buttons[0], buttons[1:]...)}
}

// besides is what can be done with another copy of an instrument that is here, the likeliest first.
func (a *App) besides(mine, read job.Instrument) []deed {
	yours := deed{words.OpenYours(), func(ctx app.Context) { a.goTo(ctx, Instrument, mine.ID) }}
	take := deed{words.TakeNumbers(), func(ctx app.Context) {
		next := mine.Taking(read)
		if err := next.Check(); err != nil {
			a.problem[""] = a.reader().Error(err)
		} else if a.putProfile(next) {
			a.goTo(ctx, Instrument, next.ID)
		}
	}}
	beside := deed{words.AddBeside(), func(ctx app.Context) {
		other := read
		other.ID = ""
		a.takeOver(ctx, other)
	}}
	switch mine.Against(read) {
	case job.CodeSame:
		return []deed{yours, take, beside}
	case job.CodeNewer:
		return []deed{take, beside}
	}
	return []deed{beside, take}
}

// takeOver keeps what was read and goes there.
func (a *App) takeOver(ctx app.Context, read job.Instrument) {
	kept, err := a.desk.PutInstrument(read)
	if err != nil {
		a.problem[""] = a.reader().Error(err)
		return
	}
	a.goTo(ctx, Instrument, kept.ID)
}
