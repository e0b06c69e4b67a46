package view

import (
	"errors"
	"slices"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"gapwright/app/draw"
	"gapwright/app/job"
	"gapwright/app/words"
	"gapwright/geometry"
)

// blankPlan asks what a new saddle is made from, and says how high it is made at least.
func (a *App) blankPlan(r job.Record) (string, []app.UI) {
	slot, said := r.Slot()
	switch {
	case a.picked["rechoose"] == 1:
		return a.rechoose(r)
	case !said || a.picked["slot"] == 1:
		return "slot", a.slot(r, slot)
	case slot.Across == "" || a.picked["across"] == 1:
		return "across", a.across(r, slot)
	case !r.OldAsked() || a.picked["old"] == 1:
		return a.old(r, slot, a.picked["all"] == 1)
	}
	reader := a.reader()
	m, err := r.Making()
	if err != nil {
		return "no-plan", []app.UI{title(words.BlankTitle(m)), notice("stop", reader.Error(err)), a.remeasure()}
	}
	other, keep := a.otherHeights(), a.keepIt("quiet")
	if !m.Ready() {
		how := lead(reader.BlankLead(m))
		if m.TooLow() {
			how = notice("stop", reader.BlankLead(m))
		}
		return "not-ready", []app.UI{title(words.BlankTitle(m)), how, a.trouble(),
			foot(a.button("main", words.MeasureOld(), func(app.Context) { a.picked["old"] = 1 }), other, keep), a.blankNumbers(r, m)}
	}
	last := r.Instrument.Last()
	ends := a.ends(r.Instrument, func(side int) string { return words.CourseTitle(r.Instrument, side*last) }, func(side int) string { return reader.Up(m.Strings[side*last].Stop) })
	body := []app.UI{title(words.BlankTitle(m)), ends, lead(reader.BlankLead(m)), a.split(r)}
	for _, f := range (job.Plan{Findings: m.Found}).Told() {
		if f.Severity != geometry.Note {
			body = append(body, notice(severityClass(f.Severity), reader.Finding(f)))
		}
	}
	return "blank", append(body, a.trouble(), a.blankPicture(r, m),
		foot(a.button("main", words.FollowBlank(), func(app.Context) { a.tell(job.Did{Step: job.MakePlan}) }), other, keep), a.blankNumbers(r, m), a.blankOrder(m),
		a.how(words.StepHow(r.Method, job.MakePlan), nil, reader.BlankLead(m)))
}

// back leaves what was picked.
func (a *App) back(pick string) app.UI {
	return a.button("quiet", words.Back(), func(app.Context) { delete(a.picked, pick); clear(a.problem) })
}

// remeasure leads back to what was asked.
func (a *App) remeasure() app.UI {
	again := func(label, pick string) app.UI {
		return a.button("quiet", label, func(app.Context) { a.picked[pick] = 1; clear(a.typed) })
	}
	return elem("div").Class("menu").Body(again(words.MeasureSlot(), "slot"), again(words.MeasureAcross(), "across"), again(words.MeasureOld(), "old"))
}

// given is a field with what was typed before.
func (a *App) given(t job.Typed, id, label, unit, next string, done func(app.Context)) app.UI {
	if _, started := a.typed[id]; !started {
		a.typed[id] = t.Text
	}
	return a.field(id, label, unit, next, done)
}

// form asks for lengths.
func (a *App) form(q words.Ask, before app.UI, fields []app.UI, done func(app.Context), others ...app.UI) []app.UI {
	return []app.UI{title(q.Title), before, lead(q.Lead), a.trouble(), elem("div").Class("fields two").Body(fields...),
		foot(a.button("main", words.GoOn(), done), others...), a.more(words.More(), q.More)}
}

// take reads a field; an empty one is not known, an untouched one keeps the unit that it was typed in.
func (a *App) take(id string, t *job.Typed, unit job.Unit, size words.Size) {
	if text := a.typed[id]; text != t.Text {
		*t = job.Typed{}
		if text != "" {
			*t = job.Typed{Text: text, Unit: unit}
			if _, err := t.Length(); err != nil {
				a.wrong(id, size, err)
			}
		}
	}
}

// slot asks what the slot measures.
func (a *App) slot(r job.Record, s job.Slotted) []app.UI {
	q, unit := words.SlotAsk(), r.Kit.Unit
	say := func(app.Context) {
		clear(a.problem)
		next := s
		a.take("slot-length", &next.Length, unit, words.LengthSize)
		a.take("slot-width", &next.Width, unit, words.GapSize)
		a.take("slot-depth", &next.Depth, unit, words.HeightSize)
		next.Give = r.Kit.StandGive()
		if len(a.problem) == 0 {
			a.tellAt(blankField(next), next)
		}
	}
	name := string(unit)
	return a.form(q, elem("div").Hidden(true), []app.UI{a.given(s.Length, "slot-length", words.SlotLength(), name, "slot-width", nil),
		a.given(s.Width, "slot-width", words.SlotWidth(), name, "slot-depth", nil), a.given(s.Depth, "slot-depth", words.SlotDepth(), name, "", say)}, say,
		a.button("quiet", words.IDontKnow(), func(app.Context) {
			s.Length, s.Width, s.Depth = job.Typed{}, job.Typed{}, job.Typed{}
			a.tell(s)
		}))
}

// blankField is the field beside which is said what is wrong with what was measured.
func blankField(s job.Slotted) string {
	var out *geometry.RangeError
	if errors.As(s.Check(), &out) {
		switch out.Quantity {
		case geometry.QuantitySaddle:
			return "slot-length"
		case geometry.QuantitySlot:
			return "slot-width"
		case geometry.QuantityDepth:
			return "slot-depth"
		}
		if s.Treble = (job.Typed{}); s.Check() != nil {
			return "old-0"
		}
		return "old-1"
	}
	return ""
}

// across asks how round the board is, and how far apart the strings are over the saddle.
func (a *App) across(r job.Record, s job.Slotted) []app.UI {
	q, unit, i := words.AcrossAsk(), r.Kit.Unit, r.Instrument
	say := func(across job.Rounded) func(app.Context) {
		return func(app.Context) {
			clear(a.problem)
			next := i
			a.take("spread", &next.Spread, unit, words.LengthSize)
			if across == job.AcrossRadius {
				if a.take("radius", &next.Radius, unit, words.RadiusSize); !next.Radius.Given() {
					_, err := next.Radius.Length()
					a.wrong("radius", words.RadiusSize, err)
				}
			}
			if err := next.Check(); err != nil && len(a.problem) == 0 {
				field := profileField(err)
				if field != "radius" {
					field = "spread"
				}
				a.problem[field] = a.reader().Error(err)
			}
			if len(a.problem) > 0 {
				return
			}
			s.Across = across
			if next == i {
				a.tell(s)
				return
			}
			a.tell(job.Described{Instrument: next}, s)
		}
	}
	round := say(job.AcrossRadius)
	return a.form(q, elem("div").Hidden(true), []app.UI{a.given(i.Radius, "radius", words.RadiusLabel(), string(unit), "spread", nil),
		a.given(i.Spread, "spread", words.SpreadLabel()+" ("+a.reader().About(i.Kind().SaddleSpread)+")", string(unit), "", round)}, round,
		a.button("quiet", words.FlatBoard(), say(job.AcrossFlat)), a.button("quiet", words.IDontKnow(), say(job.AcrossUnknown)))
}

// old asks how high the old saddle is: over the wood, or in all.
func (a *App) old(r job.Record, s job.Slotted, all bool) (string, []app.UI) {
	out := r.Step() == job.MakeSaddle // then only in all: nothing stands over the wood any more
	all = all || out
	q, unit := words.OldAsk(all), r.Kit.Unit
	var before [2]job.Typed
	size := words.StandSize
	if all {
		size = words.HeightSize
		before = [2]job.Typed{s.Bass, s.Treble}
	}
	say := func(app.Context) {
		if !a.lengths(unit, size, "old-0", "old-1") {
			return
		}
		next := s
		next.Give = r.Kit.StandGive()
		if all {
			a.take("old-0", &next.Bass, unit, size)
			a.take("old-1", &next.Treble, unit, size)
			a.tellAt(blankField(next), next)
			return
		}
		next.Bass, next.Treble = job.Typed{}, job.Typed{} // heights in all would go before
		facts := []job.Fact{next}
		for side := range 2 {
			id := "old-" + words.Number(side)
			stood := job.Stood{Side: side, Exposure: job.Typed{Text: a.typed[id], Unit: unit}, Give: next.Give}
			if err := stood.Check(); err != nil {
				a.problem[id] = a.reader().Error(err)
			}
			facts = append(facts, stood)
		}
		if len(a.problem) == 0 {
			a.tell(facts...)
		}
	}
	way := func(label string, on int) app.UI {
		return a.chip("old", label, all == (on == 1), func(app.Context) {
			a.picked["all"], a.picked["old"] = on, 1
			delete(a.typed, "old-0")
			delete(a.typed, "old-1")
			clear(a.problem)
		})
	}
	key, leave := "old-over", a.button("quiet", words.IDontKnow(), func(app.Context) { a.tell(job.Stood{Side: 0}, job.Stood{Side: 1}) })
	if all {
		key = "old-all"
	}
	if out || r.OldAsked() {
		leave = a.button("quiet", words.Back(), func(app.Context) { delete(a.picked, "old"); clear(a.problem) })
	}
	return key, a.form(q, elem("div").Class("chips").Role("group").Aria("label", q.Title).Hidden(out).Body(way(words.OverTheWood(), 0), way(words.InAll(), 1)),
		[]app.UI{a.given(before[0], "old-0", words.CourseTitle(r.Instrument, 0), string(unit), "old-1", nil),
			a.given(before[1], "old-1", words.CourseTitle(r.Instrument, r.Instrument.Last()), string(unit), "", say)}, say, leave)
}

// blankPicture is the new saddle from the front, where its whole shape is known.
func (a *App) blankPicture(r job.Record, m job.Making) app.UI {
	if !m.Shaped {
		return elem("div")
	}
	reader := a.reader()
	low, rise := m.Front()
	s := draw.Saddle{Title: words.BlankPicture(), Length: float64(m.Length.High), Height: float64(low), Rise: float64(rise),
		LeftHanded: r.Instrument.LeftHanded, Ends: [2]string{words.SideTitle(0), words.SideTitle(1)}, Numbers: [2]string{reader.Up(m.Ends[0].Stop), reader.Up(m.Ends[1].Stop)}}
	for _, c := range m.Strings {
		s.Strings = append(s.Strings, float64(c.At))
	}
	s.Desc = words.EndsText(s.Numbers)
	return elem("div").Class("plan-sheet").Body(picture(draw.SaddleCut(s)))
}

// blankNumbers are the numbers behind the plan.
func (a *App) blankNumbers(r job.Record, m job.Making) app.UI {
	reader := a.reader()
	var lines []app.UI
	var told []string
	say := func(text string) {
		lines, told = append(lines, elem("p").Text(text)), append(told, text)
	}
	for course, c := range m.Strings {
		name := words.CourseTitle(r.Instrument, course)
		switch {
		case !m.Shaped && (!m.Known || course > 0 && course < r.Instrument.Last()):
		case m.Known:
			say(reader.BlankHeight(name, c))
		default:
			say(reader.BlankAbove(name, c))
		}
	}
	for side, c := range m.Ends {
		if m.Known && m.Shaped {
			say(reader.BlankEnd(side, c))
		}
		if m.Standing && m.Whole {
			say(reader.BlankStands(words.CourseTitle(r.Instrument, side*r.Instrument.Last()), m.Exposure[side]))
		}
	}
	if m.Sized {
		say(reader.BlankLength(m.Length))
	}
	if m.Fits {
		say(reader.BlankThickness(m.Thickness))
	}
	say(reader.BlankAcross(m))
	if m.Shaped && !m.First {
		say(words.AsUsual(job.Measured{Relief: true}))
	}
	for _, f := range (job.Plan{Findings: m.Found}).Told() {
		if f.Severity == geometry.Note {
			say(reader.Finding(f))
		}
	}
	if m.Ready() {
		lines = append(lines, a.sharePlan(r, told...))
	}
	return fold(words.Numbers(), append(lines, a.remeasure())...)
}

// blankOrder is the order of work, to read beforehand.
func (a *App) blankOrder(m job.Making) app.UI {
	var lines []app.UI
	for _, s := range geometry.BlankSteps() {
		lines = append(lines, elem("li").Text(words.BlankStep(s)+": "+a.reader().BlankDo(s, m)))
	}
	return fold(words.BlankOrder(), elem("ol").Class("story").Body(lines...))
}

// makeSaddle is the order of work as a checklist; what it says is how the first open part is done.
func (a *App) makeSaddle(r job.Record) (string, []app.UI) {
	slot, _ := r.Slot()
	m, err := r.Making()
	made := r.Current().Made
	switch {
	case err != nil:
		return "no-plan", []app.UI{title(words.MakeTitle()), notice("stop", a.reader().Error(err))}
	case a.picked["card"] > 0:
		return "card", a.card()
	case a.picked["drawing"] == 1:
		return "drawing", a.lifeSize(r, m)
	case a.picked["old"] == 1:
		return a.old(r, slot, true)
	}
	if under, _ := r.Answer(job.AskUnder); under == job.UnderShim && a.picked["strip"] == 0 && len(made) == 0 {
		q := words.StripCounts()
		return "strip", []app.UI{title(q.Title), lead(q.Lead), a.trouble(), foot(a.button("main", words.MeasureOld(), func(app.Context) { a.picked["old"], a.picked["strip"] = 1, 1 }),
			a.button("quiet", words.StripBack(), func(app.Context) { a.picked["strip"] = 1 })), a.more(words.More(), q.More)}
	}
	now, finish := words.MakeReady(), "main"
	var parts []app.UI
	for _, s := range geometry.BlankSteps() {
		done := slices.Contains(made, s)
		part := elem("div")
		if !done && now == words.MakeReady() {
			now, finish = a.reader().BlankDo(s, m), "main waits"
			part = part.Class("now").Aria("current", "step")
		}
		parts = append(parts, part.Body(a.toggle("part-"+string(s), words.BlankStep(s), done, func(_ app.Context, on bool) {
			note, strip := a.typed["note"], a.picked["strip"]
			if a.tell(job.Made{Part: s, Open: !on}) {
				a.typed["note"], a.picked["strip"] = note, strip // a tick ends nothing that was begun beside it
			}
		})))
	}
	body := []app.UI{title(words.MakeTitle()), lead(now), notice("caution", words.StepCaution(job.Sand))}
	others := []app.UI{a.button("quiet", words.LifeSize(), func(app.Context) { a.picked["drawing"] = 1 })}
	if !m.Whole {
		others = append(others, a.button("quiet", words.MeasureOld(), func(app.Context) { a.picked["old"] = 1 }))
	}
	return "make", append(body, a.trouble(), elem("div").Class("parts").Body(parts...),
		foot(a.button(finish, words.Made(), func(app.Context) { a.tell(job.Did{Step: job.MakeSaddle}) }), others...),
		a.blankNumbers(r, m), a.how(words.StepHow(r.Method, job.MakeSaddle), words.MakeMore(), now))
}

// lifeSize is the drawing in life size: on this screen once a card was fitted to it, and on paper.
func (a *App) lifeSize(r job.Record, m job.Making) []app.UI {
	reader := a.reader()
	n := draw.NewSaddle{Saddle: m.NewSaddle, Depth: float64(r.Depth(m)), LeftHanded: r.Instrument.LeftHanded, Sides: [2]string{words.SideTitle(0), words.SideTitle(1)},
		Check: reader.CheckLine(draw.CheckLine(0))}
	for _, c := range m.Strings {
		height := c.Stop.RoundUp(r.Kit.SmallStep())
		if !m.Known {
			height = c.Above
		}
		n.Heights = append(n.Heights, reader.Bare(height))
	}
	if m.Known {
		n.Ends = [2]string{reader.Up(m.Ends[0].Stop), reader.Up(m.Ends[1].Stop)}
	}
	if n.Length = words.LengthUnknown(); m.Sized {
		n.Length = reader.Span(m.Length)
	}
	if n.Thickness = words.ThicknessUnknown(); m.Fits {
		n.Thickness = reader.Span(m.Thickness)
	}
	paper := elem("div").Class("paper").Body(elem("p").Body(elem("strong").Text(words.Instrument(r.Instrument))), elem("p").Text(reader.PaperCheck(draw.CheckLine(0))),
		app.Raw(draw.Print(draw.LifeSize(n))), elem("p").Text(words.PaperHeights(m)))
	ratio, wide := screenPixels()
	kit, _ := a.desk.Kit()
	quarters, fitted := kit.Quarters(ratio)
	screen := job.CardScreen(quarters)
	var shown app.UI = elem("div")
	fit, off, narrow := words.FitCard(), geometry.Length(0), false
	if fitted {
		n.Room = job.Across(screen, wide)
		n.Check = reader.CheckLine(draw.CheckLine(n.Room))
		n.Title, n.Desc = words.LifePicture(), words.LifeText()
		scene := draw.LifeSize(n)
		narrow = scene.Width > n.Room
		shown = elem("div").Class("life-room").TabIndex(0).Role("region").Aria("label", words.LifePicture()).Body(app.Raw(draw.OnScreen(scene, screen.PerMM)))
		fit, off = words.FitCardAgain(), screen.OffOver(m.Length.High)
	}
	return []app.UI{title(words.LifeTitle()), lead(words.LifeLead(fitted, narrow)), shown,
		foot(a.button("main", words.PrintIt(), func(app.Context) { app.Window().Call("print") }),
			a.button("quiet", fit, func(app.Context) { a.picked["card"] = quarters }), a.back("drawing")),
		a.more(words.More(), reader.LifeMore(off)), paper}
}

// card fits the outline of a card to one that lies on the glass.
func (a *App) card() []app.UI {
	quarters := a.picked["card"]
	move := func(by int) func(app.Context) {
		return func(app.Context) { a.picked["card"] = min(max(job.LeastCard, quarters+by), job.MostCard) }
	}
	fits := func(app.Context) {
		ratio, _ := screenPixels()
		kit, _ := a.desk.Kit()
		if err := a.desk.SetKit(kit.WithCard(quarters, ratio)); err != nil {
			a.problem[""] = a.reader().Error(err)
			return
		}
		delete(a.picked, "card")
	}
	outline := draw.OnScreen(draw.CardOutline(true, words.CardLabel(), words.CardPicture(), ""), job.CardScreen(quarters).PerMM)
	pull := app.Input().Type("range").Class("pull").ID("card-size").Aria("label", words.CardSize()).Attr("min", job.LeastCard).Attr("max", job.MostCard).Attr("step", 1).
		Value(quarters).OnInput(func(ctx app.Context, _ app.Event) {
		if n, ok := wholeNumber(ctx.JSSrc().Get("value").String()); ok {
			a.picked["card"] = n
		}
	}, a.scope("pull", "card"))
	return []app.UI{title(words.CardTitle()), lead(words.CardLead()), a.trouble(), elem("div").Class("life-room card-room").Body(app.Raw(outline)),
		elem("div").Class("foot").Body(pull, elem("div").Class("foot-line").Body(
			a.button("step-button", "−", move(-1)).Aria("label", words.CardSmaller()),
			a.button("main", words.CardFits(), fits),
			a.button("step-button", "+", move(1)).Aria("label", words.CardLarger()))),
		elem("div").Class("menu").Body(a.back("card")), a.more(words.More(), words.CardMore())}
}
