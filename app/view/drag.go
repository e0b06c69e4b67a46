package view

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"gapwright/app/draw"
	"gapwright/app/job"
	"gapwright/app/words"
	"gapwright/geometry"
)

// grip is a finger on a string of the choice. What it does is a draft: once a frame the preview is worked out and only what differs is written
// into the picture; the component is drawn anew when the finger lets go.
type grip struct {
	app     *App
	i       job.Instrument
	choice  choice
	side    int
	picture draw.Explore
	nodes   []draw.Node
	svg     app.Value
	wide    float64
	from    float64 // where the finger began
	at      float64 // where it is
	waiting bool    // for a frame
	lifted  bool
	steps   int
	frame   app.Func
}

// drag begins when a finger or a mouse goes down on a grip.
func (a *App) drag(ctx app.Context, event app.Event, i job.Instrument, c choice, side int, picture draw.Explore, nodes []draw.Node) {
	target := ctx.JSSrc()
	event.PreventDefault()
	y := event.Get("clientY").Float()
	g := &grip{app: a, i: i, choice: c, side: side, picture: picture, nodes: nodes, svg: target.Get("ownerSVGElement"), from: y, at: y}
	g.wide = g.svg.Call("getBoundingClientRect").Get("width").Float()
	var move, end app.Func
	g.frame = app.FuncOf(func(app.Value, []app.Value) any {
		g.waiting = false
		g.draw()
		return nil
	})
	move = app.FuncOf(func(_ app.Value, args []app.Value) any {
		g.at = args[0].Get("clientY").Float()
		if !g.waiting {
			g.waiting = true
			app.Window().Call("requestAnimationFrame", g.frame)
		}
		return nil
	})
	end = app.FuncOf(func(app.Value, []app.Value) any {
		target.Call("removeEventListener", "pointermove", move)
		target.Call("removeEventListener", "lostpointercapture", end)
		g.lifted = true
		g.draw() // as the component will draw it: it does not know what was changed behind its back
		ctx.Dispatch(func(app.Context) {
			a.picked[sideNames[side]] += g.steps
			move.Release()
			end.Release()
			if !g.waiting {
				g.frame.Release()
			}
		})
		return nil
	})
	target.Call("addEventListener", "pointermove", move)
	target.Call("addEventListener", "lostpointercapture", end) // whether it was lifted or taken away
	target.Call("setPointerCapture", event.Get("pointerId"))
}

// draw writes what the finger's place means into the screen.
func (g *grip) draw() {
	steps, wish := g.choice.x.Dragged(g.choice.wish, g.side, geometry.Length(draw.ExploreDrag(g.picture, g.at-g.from, g.wide)))
	seen := g.choice.seen
	var err error
	if seen[g.side], err = g.choice.x.Side(g.side, wish.Heights()[g.side]); err != nil {
		return
	}
	g.steps = steps
	held := g.side + 1
	if g.lifted {
		held = 0
	}
	g.picture = g.app.explored(g.i, g.choice.x, seen, held)
	nodes := draw.Nodes(draw.ExplorePicture(g.picture))
	changes, ok := draw.Changed(g.nodes, nodes)
	if !ok {
		return
	}
	elements := g.svg.Get("children")
	for _, c := range changes {
		e := g.svg
		if c.Node > 0 {
			e = elements.Index(c.Node - 1)
		}
		if c.Name == "" {
			say(e, c.Value)
		} else {
			e.Call("setAttribute", c.Name, c.Value)
		}
	}
	g.nodes = nodes
	reader := g.app.reader()
	sayAt("room-line", words.RoomLine(g.i, seen))
	sayAt("off-line", reader.OffLine(seen))
	sayAt("aim", reader.AimFor(wish.Bass, wish.Treble))
	sayAt(sideNames[g.side]+"-value", reader.TargetBare([2]job.Typed{wish.Bass, wish.Treble}[g.side]))
}

// say changes the text of an element whose text is its only child.
func say(e app.Value, text string) {
	if child := e.Get("firstChild"); child.Truthy() && child.Get("nodeValue").String() != text {
		child.Set("nodeValue", text)
	}
}

func sayAt(id, text string) {
	if e := app.Window().GetElementByID(id); e != nil && e.Truthy() {
		say(e, text)
	}
}
