package view

import (
	"slices"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"gapwright/app/draw"
	"gapwright/app/job"
	"gapwright/app/words"
	"gapwright/geometry"
)

// choice is what stands on the screen of choosing and is not a fact yet.
type choice struct {
	x    job.Explorer
	base job.Chosen // from which the two nudges go
	wish job.Chosen
	seen [2]job.Seen
	own  bool
	had  bool // the base is what was chosen before
}

// chosen works out the choice as it stands.
func (a *App) chosen(r job.Record) (choice, error) {
	present, had := r.Present() // what was chosen before is where choosing again begins
	c := choice{own: a.picked["own"] == 1 || a.picked["own"] == 0 && present.Own}
	c.had = had && a.picked["player"] == 0 && present.Own == c.own
	player := r.Player()
	if n := a.picked["player"]; n > 0 {
		player = r.Players()[n-1]
	}
	var err error
	if c.x, err = r.Explore(player); err != nil {
		return c, err
	}
	c.base = c.x.Suggest(c.own)
	if c.had {
		c.base = present
	}
	c.wish = r.Nudged(c.base, a.picked["bass"], a.picked["treble"])
	c.seen, err = c.x.Both(c.wish)
	return c, err
}

// sideNames are the nudges of the two strings, bass first.
var sideNames = [2]string{"bass", "treble"}

// choose explores heights on one picture: each string can be dragged at its grip or moved by its buttons, and a touch suggests both.
func (a *App) choose(r job.Record) []app.UI {
	reader := a.reader()
	c, err := a.chosen(r)
	if err != nil {
		return []app.UI{title(words.ChooseTitle()), notice("stop", reader.Error(err))}
	}
	var players []app.UI
	for i, p := range r.Players() {
		players = append(players, a.chip("player", words.Player(p), p == c.x.Player && !c.had, func(app.Context) {
			a.picked["player"], a.picked["bass"], a.picked["treble"] = i+1, 0, 0
		}))
	}
	if !slices.Contains(r.Players(), job.OwnPlayer) { // the person's own touch is found by listening
		players = append(players, a.chip("player", words.Player(job.OwnPlayer), false, func(app.Context) { a.picked["listen"] = 1 }))
	}
	nudge := func(side, by int) func(app.Context) {
		return func(app.Context) {
			clear(a.problem)
			before := c.wish
			a.picked[sideNames[side]] += by
			if r.Nudged(c.base, a.picked["bass"], a.picked["treble"]) == before { // at its limit: the next tap the other way counts
				a.picked[sideNames[side]] -= by
				if by > 0 && !r.Method.Raises() { // what would raise it is another job
					a.problem[""] = a.reader().Error(&job.Refusal{Kind: job.RefusedTargetHigh})
				}
			}
		}
	}
	row := func(side int) app.UI {
		name := words.CourseShort(r.Instrument, side*r.Instrument.Last())
		return a.nudger(sideNames[side], name, reader.TargetBare([2]job.Typed{c.wish.Bass, c.wish.Treble}[side]), words.Lower(), words.Higher(), nudge(side, -1), nudge(side, 1))
	}
	body := []app.UI{title(words.ChooseTitle()),
		elem("p").Class("lead").ID("room-line").Text(words.RoomLine(r.Instrument, c.seen)),
		elem("p").Class("off").ID("off-line").Text(reader.OffLine(c.seen))}
	body = append(body, a.cautions(r, job.AskBuzz)...)
	body = append(body, a.exploring(r, c),
		elem("div").Class("nudgers").Body(row(0), row(1)),
		elem("div").Class("chips").Role("group").Aria("label", words.PlayersLabel()).Body(players...), a.trouble(),
		foot(a.button("main", reader.AimFor(c.wish.Bass, c.wish.Treble), func(app.Context) { a.tell(c.wish) }).ID("aim")))
	return append(body, a.room("fret-by-fret", r, c.x.Player, []moment{
		{words.WantedChip(), func() []job.Row { return c.x.Rows(c.seen) }},
		{words.NowChip(), func() []job.Row { return r.Rows(false, c.x.Player) }},
	}, a.button("quiet", words.ListenButton(), func(app.Context) { a.picked["listen"] = 1 })),
		a.chooseNumbers(r, c),
		a.toggle("own", words.OwnFloor(), c.own, func(_ app.Context, on bool) {
			a.picked["own"] = 2
			if on {
				a.picked["own"] = 1
			}
		}),
		a.how(words.StepHow(r.Method, job.Choose), append([]string{words.OffMore(r.Method)}, append(words.ChooseMore(r.Method), words.RoomMore()...)...)))
}

// chooseNumbers are the numbers behind the choice, on request.
func (a *App) chooseNumbers(r job.Record, c choice) app.UI {
	reader := a.reader()
	lines := []app.UI{elem("p").Text(reader.ChooseLead(a.said(r, 0, false), r.Instrument.Usual(0)))}
	say := func(text string) { lines = append(lines, elem("p").Text(text)) }
	sounds := false
	for side, s := range c.seen {
		if s.Suited {
			say(reader.LowestLine(r.Instrument, s.Course, c.x.Player, s.Suits))
		}
		say(reader.LeastRoom(r.Instrument, s.Course, s.Least()))
		if s.Stands {
			say(reader.LeftLine(r.Instrument, s))
		}
		if s.Sounds {
			say(reader.SharpLine(r.Instrument, s))
			sounds = true
		}
		if l, ok := r.LowestGap(s.Course); ok {
			say(reader.LowestOfSaddle(l, r.Instrument, s.Course))
		}
		if touch, err := r.OwnTouch(geometry.Side(side)); err == nil {
			say(reader.TouchLine(side, touch))
		}
	}
	if !sounds {
		say(words.SharpUnknown())
	}
	if text := words.AsUsual(c.x.Measured); text != "" {
		say(text)
	}
	if r.Instrument.ReadFret() != 12 || r.Instrument.Held != 0 {
		say(words.HeldUsual())
	}
	return fold(words.Numbers(), lines...)
}

// explored is the picture of a choice.
func (a *App) explored(i job.Instrument, x job.Explorer, seen [2]job.Seen, held int) draw.Explore {
	reader := a.reader()
	e := draw.Explore{Title: words.ExplorePicture(), Desc: reader.ExploreText(i, seen), LeftHanded: i.LeftHanded}
	for side, s := range seen {
		p := x.Profile(side)
		e.Strings[side] = draw.Explored{Name: words.CourseShort(i, s.Course), Frets: p.Frets, Tops: p.Tops, Length: p.Length, Nut: p.Nut, Now: p.Now,
			Wanted: s.AtSaddle(), First: s.Least().First, Room: room(s.Rooms.Worst), Sign: words.RoomSign(s.Rooms.Worst, s.Least().First), Value: reader.Grip(s.Height), Chosen: held == side+1}
	}
	e.Exaggerated = words.Taller(draw.ExploreTimes(e))
	return e
}

func room(c job.Chance) draw.Room {
	switch c {
	case job.RoomEnough:
		return draw.RoomClear
	case job.RoomPerhaps:
		return draw.RoomMay
	case job.RoomLacking:
		return draw.RoomTouches
	}
	return draw.RoomNotKnown
}

// exploring draws the picture whose grips can be dragged.
func (a *App) exploring(r job.Record, c choice) app.UI {
	nodes := draw.Nodes(draw.ExplorePicture(a.explored(r.Instrument, c.x, c.seen, 0)))
	children := make([]app.UI, 0, len(nodes)-1)
	for _, n := range nodes[1:] {
		e := element(n)
		if n.Tap > 0 {
			e = e.On("pointerdown", func(ctx app.Context, event app.Event) { a.drag(ctx, event, r, n.Tap-1) }, a.scope("grip", n.Tap))
		}
		children = append(children, e)
	}
	return elem("div").Class("exploring").Body(element(nodes[0]).Body(children...))
}

// moment is one of the heights whose headroom can be looked at.
type moment struct {
	name string
	rows func() []job.Row
}

// room shows the headroom on the drawn neck, by shape in each fret space and in words below it; folded, and worked out when it is opened.
func (a *App) room(id string, r job.Record, p job.Player, moments []moment, others ...app.UI) app.UI {
	open := a.picked[id] == 1
	head := app.Button().Type("button").Class("unfold").Aria("expanded", pressed(open)).Text(words.FretByFret()).
		Attr(tapMark, a.tap(func(app.Context) { a.picked[id] = 1 - a.picked[id] }))
	if !open {
		return elem("div").Class("more").Body(head)
	}
	at := min(a.picked["moment"], len(moments)-1)
	var chips []app.UI
	for i, m := range moments {
		chips = append(chips, a.chip("moment", m.name, i == at, func(app.Context) { a.picked["moment"] = i }))
	}
	rows := moments[at].rows()
	neck := draw.RoomNeck{Title: words.RoomPicture(), LeftHanded: r.Instrument.LeftHanded, Keys: words.RoomKeys(), Row: job.TightestRow(rows)}
	var lines []app.UI
	for _, row := range rows {
		shapes := make([]draw.Room, row.From(), row.From()+len(row.All)) // below a capo nothing is stopped
		for _, c := range row.Chances {
			shapes = append(shapes, room(c))
		}
		neck.Rows = append(neck.Rows, draw.RoomRow{Name: words.CourseShort(r.Instrument, row.Course), Rooms: shapes, Stop: row.Least().Stop, First: row.Least().First})
		for _, run := range row.Runs() {
			lines = append(lines, elem("li").Text(words.RunLine(r.Instrument, row.Course, run)))
		}
	}
	body := []app.UI{head}
	if len(moments) > 1 {
		body = append(body, elem("div").Class("chips").Role("group").Aria("label", words.MomentLabel()).Body(chips...))
	}
	body = append(body, soft(words.RoomFor(p)), picture(draw.RoomNeckPicture(neck)), elem("ul").Class("runs").Body(lines...))
	return elem("div").Class("more").Body(append(body, others...)...)
}
