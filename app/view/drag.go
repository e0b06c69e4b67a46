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
	app      *App
	reader   words.Reader // asked for once: it lies in the records
	i        job.Instrument
	choice   choice
	pull     job.Drag
	side     int
	picture  draw.Explore
	scene    draw.Scene // as it stands on the screen
	svg      app.Value
	children app.Value
	elements map[int]app.Value // of the scene, as far as they were changed
	lines    map[string]*line
	wide     float64
	from     float64 // where the finger began
	at       float64 // where it is
	waiting  bool    // for a frame
	drawn    bool
	lifted   bool
	steps    int
	frame    app.Func
}

// drag begins when a finger or a mouse goes down on a grip. The choice is worked out anew: a finger that was lifted just before may have changed it
// without the component having been drawn since.
func (a *App) drag(ctx app.Context, event app.Event, r job.Record, side int) {
	c, err := a.chosen(r)
	if err != nil {
		return
	}
	picture := a.explored(r.Instrument, c.x, c.seen, 0)
	target := ctx.JSSrc()
	event.PreventDefault()
	y := event.Get("clientY").Float()
	g := &grip{app: a, reader: a.reader(), i: r.Instrument, choice: c, pull: c.x.Drag(c.wish, side), side: side, picture: picture, scene: draw.ExplorePicture(picture), svg: target.Get("ownerSVGElement"),
		elements: map[int]app.Value{}, lines: map[string]*line{}, from: y, at: y}
	g.children = g.svg.Get("children")
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
		a.picked[sideNames[side]] += g.steps
		ctx.Dispatch(func(app.Context) {
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
	steps, height, wish := g.pull.To(geometry.Length(draw.ExploreDrag(g.picture, g.at-g.from, g.wide)))
	if g.drawn && !g.lifted && steps == g.steps {
		return
	}
	seen := g.choice.seen
	var err error
	if seen[g.side], err = g.choice.x.Side(g.side, height); err != nil {
		return
	}
	if g.lifted {
		g.picture = g.app.explored(g.i, g.choice.x, seen, 0)
	} else { // the other string and the description stay
		s := &g.picture.Strings[g.side]
		s.Wanted, s.First, s.Room, s.Value, s.Chosen = seen[g.side].AtSaddle(), seen[g.side].Least().First, room(seen[g.side].Rooms.Worst), g.reader.Grip(seen[g.side].Height), true
		s.Sign = words.RoomSign(seen[g.side].Rooms.Worst, s.First)
	}
	scene := draw.ExplorePicture(g.picture)
	changes, ok := draw.Changed(g.scene, scene)
	if !ok {
		return
	}
	for _, c := range changes {
		e := g.element(c.Node)
		if c.Name == "" {
			if text := e.Get("firstChild"); text.Truthy() {
				text.Set("nodeValue", c.Value)
			}
		} else {
			e.Call("setAttribute", c.Name, c.Value)
		}
	}
	g.scene, g.steps, g.drawn = scene, steps, true
	g.say("room-line", words.RoomLine(g.i, seen))
	g.say("off-line", g.reader.OffLine(seen))
	g.say("aim", g.reader.AimFor(wish.Bass, wish.Treble))
	g.say(sideNames[g.side]+"-value", g.reader.Bare(height))
}

// element is the element of a node of the picture.
func (g *grip) element(node int) app.Value {
	if node == 0 {
		return g.svg
	}
	e, found := g.elements[node]
	if !found {
		e = g.children.Index(node - 1)
		g.elements[node] = e
	}
	return e
}

// line is a text on the screen that follows the finger.
type line struct {
	node app.Value // nil for an element without a text
	text string
}

// say changes the text of an element whose text is its only child.
func (g *grip) say(id, text string) {
	l, found := g.lines[id]
	if !found {
		l = &line{}
		g.lines[id] = l
		if e := app.Window().GetElementByID(id); e.Truthy() && e.Get("firstChild").Truthy() {
			l.node = e.Get("firstChild")
			l.text = l.node.Get("nodeValue").String()
		}
	}
	if l.node != nil && l.text != text {
		l.node.Set("nodeValue", text)
		l.text = text
	}
}
