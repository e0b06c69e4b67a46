package view

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"gapwright/app/draw"
	"gapwright/app/job"
	"gapwright/app/store"
	"gapwright/app/words"
	"gapwright/geometry"
)

// past is what an instrument's jobs and checks that are over say, oldest first.
type past struct {
	entries []job.Entry
	whole   bool
}

// recall asks for an instrument's history when it is mounted: the journal alone has it.
type recall struct {
	app.Compo
	ID   string
	Desk *store.Desk
	Keep func(string, past)
}

// OnMount asks.
func (r *recall) OnMount(ctx app.Context) {
	id := r.ID
	r.Desk.History(id, func(jobs []job.Record, whole bool) {
		r.Keep(id, past{job.Entries(jobs), whole})
		ctx.Dispatch(func(app.Context) {})
	})
}

// Render draws nothing.
func (r *recall) Render() app.UI { return elem("span") }

// recalling asks for a history afresh; what was known of it before stands in pasts meanwhile.
func (a *App) recalling(instrument string) app.UI {
	return elem("div").Hidden(true).Body(&recall{ID: instrument, Desk: a.desk, Keep: a.keepPast})
}

func (a *App) keepPast(id string, p past) {
	if a.pasts == nil {
		a.pasts = map[string]past{}
	}
	a.pasts[id] = p
}

// trusted says, where the next round is planned, how well what was foretold on this instrument came true.
func (a *App) trusted(r job.Record) app.UI {
	text := words.TrustPlan(a.reader(), job.TrustIn(a.pasts[r.Instrument.ID].entries, r.Method))
	return elem("div").Body(elem("p").Class("soft").ID("trust").Hidden(text == "").Text(text), a.recalling(r.Instrument.ID))
}

// entriesAtOnce is how many entries are listed before the others are folded away.
const entriesAtOnce = 6

func (a *App) historyScreen() (string, []app.UI) {
	i, ok := a.desk.Instrument(a.id)
	if !ok {
		return a.nothing()
	}
	key := "history/" + a.id
	if !a.desk.Settled() { // the journal is asked when it can be known what it has
		return key + "/wait", []app.UI{title(words.Instrument(i)), lead(words.HistoryLoading())}
	}
	p, known := a.pasts[a.id]
	head := []app.UI{title(words.HistoryName() + ": " + words.Instrument(i))}
	if !known {
		return key, append(head, lead(words.HistoryLoading()), a.recalling(a.id))
	}
	here, elsewhere := i.AtPlace(p.entries)
	body := append(head, lead(words.HistoryLead(p.entries)), a.recalling(a.id), a.trouble())
	if !p.whole {
		body = append(body, notice("caution", words.NotWhole()))
	}
	if h, ok := a.chart(i, here); ok {
		body = append(body, picture(draw.HistoryPicture(h)))
	}
	if elsewhere > 0 {
		body = append(body, notice("note", words.ElsewhereRead(elsewhere, i)))
	}
	if len(p.entries) > 0 {
		body = append(body, a.weather(i, here))
	}
	var newest, older []app.UI
	for n := range p.entries {
		row := a.entry(i, p.entries[len(p.entries)-1-n])
		if n < entriesAtOnce {
			newest = append(newest, row)
		} else {
			older = append(older, row)
		}
	}
	body = append(body, newest...)
	if len(older) > 0 {
		body = append(body, fold(words.Older(len(older)), older...))
	}
	return key, append(body, elem("a").Class("button quiet").Attr("href", Link(a.prefix, Instrument, i.ID)).Text(words.Back()))
}

// entry is a job or check that is over, with the way to its record and, where it was put away, back to work.
func (a *App) entry(i job.Instrument, e job.Entry) app.UI {
	lines := []app.UI{elem("a").Class("card-name").Attr("href", Link(a.prefix, Job, e.Job)).Text(words.EntryName(e))}
	for _, text := range a.reader().Entry(i, e) {
		lines = append(lines, elem("span").Class("soft").Text(text))
	}
	if e.Ended == job.Away {
		lines = append(lines, a.takeUp(e.Job, words.EntryName(e)))
	}
	return elem("div").Class("card").Body(lines...)
}

// takeUp is the way back into a job that was put away, which is named where there are several.
func (a *App) takeUp(id, name string) app.UI {
	b := a.button("quiet", words.TakeUp(), func(ctx app.Context) {
		a.desk.TakeUp(id, func(err error) {
			ctx.Dispatch(func(ctx app.Context) {
				if err != nil {
					a.problem[""] = words.NotTakenUp()
					return
				}
				delete(a.fetched, id)
				a.goTo(ctx, Job, id)
			})
		})
	})
	if name != "" {
		b = b.Aria("label", words.TakeUp()+", "+name)
	}
	return b
}

// weather says what the records tell of the air, and how well what was foretold came true.
func (a *App) weather(i job.Instrument, entries []job.Entry) app.UI {
	reader := a.reader()
	var lines []string
	if text := words.Trust(reader, job.TrustIn(entries, "")); text != "" {
		lines = append(lines, text)
	}
	var drifts [2]geometry.Drift
	for side := range drifts {
		drifts[side], _ = job.DriftOf(entries, side) // air and gaps were checked when they were taken
	}
	lines = append(lines, reader.Drift(i, drifts)...)
	if text := words.Wood(job.LastAir(entries)); text != "" {
		lines = append(lines, text)
	}
	return a.more(words.DriftTitle(), append(lines, words.AirMore()))
}

// chart is the drawn history; ok is false where nothing was read.
func (a *App) chart(i job.Instrument, entries []job.Entry) (draw.History, bool) {
	reader := a.reader()
	h := draw.History{Title: words.HistoryPicture(), Desc: reader.HistoryText(i, entries), Keys: words.HistoryKeys()}
	lane := func(name string, least float64, set *draw.HistoryBar, bars []draw.HistoryBar, scale func(low, high float64) []words.ScaleMark) {
		if len(bars) == 0 {
			return
		}
		l := draw.HistoryLane{Name: name, Bars: bars, Least: least, Set: set}
		for _, m := range scale(draw.HistoryRange(l)) {
			l.Marks = append(l.Marks, draw.HistoryMark{Value: m.At, Label: m.Text})
		}
		h.Lanes = append(h.Lanes, l)
	}
	bars := func(of func(e job.Entry) []job.Point) (all []draw.HistoryBar) {
		for _, e := range entries {
			for _, p := range of(e) {
				all = append(all, draw.HistoryBar{At: p.At, Low: p.Low, High: p.High, Left: p.Left})
			}
		}
		return all
	}
	for side, course := range []int{0, i.Last()} {
		var set *draw.HistoryBar
		if p, ok := i.SetPoint(side); ok {
			set = &draw.HistoryBar{At: p.At, Low: p.Low, High: p.High}
		}
		lane(reader.GapLane(i, course), job.LeastShown, set, bars(func(e job.Entry) []job.Point { return e.Gaps(side) }), reader.Scale)
	}
	lane(reader.ReliefLane(), job.LeastShown, nil, bars(job.Entry.Reliefs), reader.Scale)
	lane(words.HumidityLane(), job.LeastAirShown, nil, bars(job.Entry.Airs), words.PercentScale)
	from, to, ok := job.Stretch(entries)
	h.From, h.To = from, to
	h.Ends[0] = words.Day(from)
	if words.Day(to) != h.Ends[0] {
		h.Ends[1] = words.Day(to)
	} else {
		h.To = from
	}
	for _, d := range words.Between(from, to) {
		h.Ticks = append(h.Ticks, draw.HistoryTick{At: d.At, Label: d.Text})
	}
	return h, ok
}

// air is where the humidity and temperature of the room are said: one line, unfolded at a tap. What stands in its fields is told with the next
// facts by airFacts.
func (a *App) air(r job.Record) app.UI {
	room, said := r.Room()
	if _, started := a.typed["humidity"]; !started {
		a.typed["humidity"], a.typed["temperature"] = words.NumberOrNone(room.Humidity), room.Temperature
	}
	var chips []app.UI
	scale := a.airScale(r)
	for n, d := range job.Scales() {
		chips = append(chips, a.chip("degrees", words.DegreesName(d), d == scale, func(app.Context) { a.picked["degrees"] = n + 1 }))
	}
	details := elem("details").Class("more").ID("air").Body(
		elem("summary").Text(words.AirTitle(room, said)),
		elem("div").Class("fields two").Body(a.field("humidity", words.HumidityLabel(), "%", "temperature", nil),
			a.field("temperature", words.TemperatureLabel(), words.DegreesName(scale), "", nil)),
		elem("div").Class("chips").Role("group").Aria("label", words.DegreesLabel()).Body(chips...),
		a.button("quiet", words.KeepAir(), func(app.Context) {
			if facts, ok := a.airFacts(r); ok && len(facts) > 0 {
				a.tell(facts...)
			}
		}),
		soft(words.AirFields()))
	if a.problem["humidity"] != "" || a.problem["temperature"] != "" {
		details = details.Attr("open", true)
	}
	return details
}

// airScale is the scale that is chosen, was used before, or goes with the person's unit.
func (a *App) airScale(r job.Record) job.Degrees {
	if n := a.picked["degrees"]; n > 0 {
		return job.Scales()[n-1]
	}
	return r.UsualDegrees()
}

// airFacts are the facts that the air's fields hold and the record does not; ok is false when something in them cannot be, which is then said
// beside it.
func (a *App) airFacts(r job.Record) (facts []job.Fact, ok bool) {
	if _, started := a.typed["humidity"]; !started {
		return nil, true
	}
	delete(a.problem, "humidity")
	delete(a.problem, "temperature")
	air, room := job.Aired{}, job.Aired{}
	if said, is := r.Room(); is {
		room = said
	}
	var err error
	if air.Humidity, err = job.HumidityOf(a.typed["humidity"]); err != nil {
		a.problem["humidity"] = a.reader().Error(err)
	}
	if a.typed["temperature"] != "" {
		air.Temperature, air.Scale = a.typed["temperature"], a.airScale(r)
	}
	if err := (job.Aired{Temperature: air.Temperature, Scale: air.Scale}).Check(); err != nil {
		a.problem["temperature"] = a.reader().Error(err)
	}
	if a.problem["humidity"] != "" || a.problem["temperature"] != "" {
		return nil, false
	}
	if air == room {
		return nil, true
	}
	return []job.Fact{air}, true
}
