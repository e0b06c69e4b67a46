package view

import (
	"errors"
	"maps"
	"strconv"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"gapwright/app/job"
	"gapwright/app/words"
	"gapwright/geometry"
)

// instrumentScreen shows one instrument, or asks what a new one is.
func (a *App) instrumentScreen() (string, []app.UI) {
	if a.id == "" {
		if a.picked["else"] == 1 {
			return "else", a.somethingElse()
		}
		return "new", a.families()
	}
	i, ok := a.desk.Instrument(a.id)
	if !ok {
		return a.nothing()
	}
	switch {
	case a.picked["strings"] > 0:
		return a.stringsScreen(i)
	case a.picked["turns"] > 0:
		return a.turnsScreen(i)
	}
	body := []app.UI{title(words.Instrument(i)), lead(a.reader().AsSetLine(i)), a.inArchive(i)}
	for _, r := range a.desk.Jobs() {
		if r.Instrument.ID == i.ID {
			body = append(body, a.underWay(r, words.OpenJobs()))
		}
	}
	remove := words.Remove()
	if i.Example {
		remove = words.RemoveExample()
	}
	return "instrument/" + a.id, append(body, a.trouble(),
		foot(a.button("main", words.NewJob(), func(ctx app.Context) { a.setUp(ctx, i) })),
		elem("nav").Class("links").Aria("label", words.Instrument(i)).Body(a.links(i)...),
		a.profile(i),
		a.archive(i),
		elem("div").Class("menu").Body(fold(remove, soft(words.RemoveMore()), a.button("quiet", words.RemoveSure(), func(ctx app.Context) {
			if err := a.desk.RemoveInstrument(i.ID); err != nil {
				a.problem[""] = a.reader().Error(err)
				return
			}
			a.goTo(ctx, Bench, "")
		}))))
}

// links lead to what else there is of an instrument.
func (a *App) links(i job.Instrument) (all []app.UI) {
	all = append(all, a.button("quiet", words.OtherWork(), func(app.Context) { a.start = i }))
	to := func(p Place, name string) {
		all = append(all, elem("a").Class("button quiet").Attr("href", Link(a.prefix, p, i.ID)).Text(name))
	}
	if i.AsSet != nil {
		to(Check, words.CheckName())
	}
	to(History, words.HistoryName())
	to(Buzz, words.BuzzName())
	to(Code, words.CodeName())
	to(Copy, words.CopyName())
	return append(all, a.csvButton(i.ID))
}

// profile is what may be said of an instrument; whatever is left empty is what is usual for its kind.
func (a *App) profile(i job.Instrument) app.UI {
	unit := a.reader().UnitName()
	usual := i.Kind()
	if _, started := a.typed["name"]; !started {
		a.typed["name"], a.typed["owner"], a.typed["tags"] = i.Name, i.Owner, i.Tags
		a.typed["fret"], a.typed["held"] = words.Number(i.ReadFret()), words.Number(i.Held)
		a.typed["body"], a.typed["last"] = words.NumberOrNone(i.Body), words.NumberOrNone(i.Frets)
		a.typed["scale"], a.typed["setback"], a.typed["saddle"], a.typed["spread"] = i.Scale.Text, i.Setback.Text, i.Saddle.Text, i.Spread.Text
		a.typed["radius"], a.typed["treble"] = i.Radius.Text, i.Treble.Text
	}
	keep := func(app.Context) {
		clear(a.problem)
		next := i
		next.Name = a.typed["name"]
		next = a.belonging(next)
		for id, number := range map[string]*int{"fret": &next.Fret, "held": &next.Held, "body": &next.Body, "last": &next.Frets} {
			if *number = 0; a.typed[id] == "" && (id == "body" || id == "last") { // what is usual
				continue
			}
			n, err := strconv.Atoi(a.typed[id])
			if err != nil {
				a.problem[id] = words.WholeNumber()
				continue
			}
			*number = n
		}
		for id, typed := range map[string]*job.Typed{"scale": &next.Scale, "setback": &next.Setback, "saddle": &next.Saddle, "spread": &next.Spread,
			"radius": &next.Radius, "treble": &next.Treble} {
			if a.typed[id] == typed.Text { // untouched: it keeps the unit that it was typed in
				continue
			}
			*typed = job.Typed{}
			if a.typed[id] != "" {
				*typed = job.Typed{Text: a.typed[id], Unit: a.reader().Unit}
				if _, err := typed.Length(); err != nil {
					a.problem[id] = a.reader().Error(err)
				}
			}
		}
		if !a.labelled(next) || len(a.problem) > 0 {
			return
		}
		if err := next.Check(); err != nil {
			a.problem[profileField(err)] = a.reader().Error(err)
			return
		}
		a.keepProfile(next)
	}
	reader := a.reader()
	say := func(label, common string) string { return label + " (" + common + ")" }
	saddle := words.SaddleLabel()
	if usual.SaddleLength > 0 {
		saddle = say(saddle, reader.About(usual.SaddleLength))
	}
	return fold(words.AboutInstrument(),
		a.textField("name", words.NameLabel()),
		a.stringsRow(i),
		a.bridgeRow(i),
		a.turnsRow(i),
		a.belongs(i),
		a.wont(i),
		soft(words.UsualHere()),
		a.field("scale", say(words.ScaleLabel(), reader.About(usual.Scale)), unit, "treble", nil),
		a.field("treble", words.TrebleLabel(), unit, "setback", nil),
		a.field("setback", words.SetbackLabel(), unit, "saddle", nil),
		a.field("saddle", saddle, unit, "spread", nil),
		a.field("spread", say(words.SpreadLabel(), reader.About(usual.SaddleSpread)), unit, "body", nil),
		a.field("body", say(words.BodyLabel(), words.Number(usual.Body)), "", "last", nil),
		a.field("last", say(words.LastFretLabel(), words.Number(job.Instrument{Family: usual.ID}.LastFret())), "", "radius", nil),
		a.field("radius", words.RadiusLabel(), unit, "fret", nil),
		a.field("fret", words.FretLabel(), "", "held", nil),
		a.field("held", words.HeldLabel(), "", "", keep),
		soft(words.HeldUsual()),
		a.toggle("left", words.LeftHanded(), i.LeftHanded, func(_ app.Context, on bool) { i.LeftHanded = on; a.keepProfile(i) }),
		a.button("quiet", words.Keep(), keep))
}

// profileField is the field beside which is said what is wrong with a profile; "" for the page as a whole.
func profileField(err error) string {
	var out *geometry.RangeError
	if errors.As(err, &out) {
		switch out.Quantity {
		case geometry.QuantityScale:
			return "scale"
		case geometry.QuantitySetback:
			return "setback"
		case geometry.QuantitySaddle:
			return "saddle"
		case geometry.QuantityFret:
			return "fret"
		case geometry.QuantityHeld:
			return "held"
		case geometry.QuantityBody:
			return "body"
		case geometry.QuantityLastFret:
			return "last"
		case geometry.QuantityRadius:
			return "radius"
		}
	}
	return ""
}

// keepProfile keeps a profile, and tells the jobs under way on it.
func (a *App) keepProfile(i job.Instrument) {
	if a.putProfile(i) {
		maps.DeleteFunc(a.typed, func(field, _ string) bool { return !strings.HasPrefix(field, wontField) }) // what is usual has its own button
	}
}

// putProfile keeps a profile, and tells the jobs under way on it, with what else is to be told them. Where that belongs to another step the
// job is told of the profile alone: while the saddle is out, and it asks later which strings went back on, or when it has measured all. What
// cannot be kept is said.
func (a *App) putProfile(i job.Instrument, then ...job.Fact) bool {
	failed := func(err error) bool {
		if err != nil {
			a.problem[""] = a.reader().Error(err)
		}
		return err != nil
	}
	if _, err := a.desk.PutInstrument(i); failed(err) {
		return false
	}
	kept := true
	for _, r := range a.desk.Jobs() {
		if r.Instrument.ID != i.ID || r.Method == job.QuickCheck { // a check keeps what it began with
			continue
		}
		err := a.desk.Record(r.ID, append([]job.Fact{job.Described{Instrument: i}}, then...)...)
		var refusal *job.Refusal
		if errors.As(err, &refusal) && refusal.Kind == job.RefusedNotYet {
			err = a.desk.Record(r.ID, job.Described{Instrument: i})
		}
		kept = !failed(err) && kept
	}
	return kept
}

// kitScreen shows what is to hand.
func (a *App) kitScreen() (string, []app.UI) {
	kit, _ := a.desk.Kit()
	keep := func(next job.Kit) {
		clear(a.picked)
		a.keepKit(next)
	}
	switch {
	case a.picked["count"] == 1:
		return "kit-count", a.spaces(kit, keep)
	case a.picked["marks"] == 1:
		return "kit-rule", a.ruleChoice(kit, keep)
	case a.picked["zero"] > 0:
		return "kit-zero-distance", a.zeroDistance(kit, job.Zeros()[a.picked["zero"]-1], keep)
	case a.picked["ends"] == 1:
		return "kit-zero", a.zeroChoice(kit, keep)
	}
	row := func(name, value, pick string) app.UI {
		return a.changeRow(name, value, func(app.Context) { a.picked[pick] = 1 })
	}
	has := func(name, label string, now job.Has, set func(*job.Kit, job.Has)) app.UI {
		return a.toggle(name, label, now == job.Yes, func(_ app.Context, on bool) {
			answer := job.No
			if on {
				answer = job.Yes
			}
			next := kit
			set(&next, answer)
			a.keepKit(next)
		})
	}
	unit := func(u job.Unit, label string) app.UI {
		return a.chip("unit", label, kit.Unit == u || kit.Unit == "" && u == job.MM, func(app.Context) { next := kit; next.Unit = u; a.keepKit(next) })
	}
	if _, started := a.typed["grit"]; !started {
		a.typed["grit"] = kit.Papers
		if kit.Papers == "" && kit.Grit > 0 {
			a.typed["grit"] = words.Paper(kit.Grit)
		}
	}
	keepPapers := func(app.Context) {
		next := kit
		next.Papers = a.typed["grit"] // nothing: not known is an answer too
		if _, ok := next.Grits(); !ok {
			a.problem["grit"] = words.GritNumber()
			return
		}
		clear(a.problem)
		a.keepKit(next)
	}
	papers, rough := kit.Order()
	body := []app.UI{title(words.KitTitle()), lead(words.KitLead()), a.trouble(),
		elem("div").Class("rows").Body(row(words.RuleRow(), words.Marks(kit.Marks), "marks"), row(words.ZeroRow(), words.Zero(kit.Zero), "ends")),
		elem("div").Class("look").Role("group").Aria("label", words.UnitLabel()).Body(elem("span").Class("look-place").Text(words.UnitLabel()),
			elem("div").Class("chips").Body(unit(job.MM, words.Millimetres()), unit(job.Inch, words.Inches()))),
		has("caliper", words.HasCaliper(), kit.Caliper, func(k *job.Kit, h job.Has) { k.Caliper = h }),
		has("feelers", words.HasFeelers(), kit.Feelers, func(k *job.Kit, h job.Has) { k.Feelers = h }),
		has("cards", words.HasCards(), kit.Cards, func(k *job.Kit, h job.Has) { k.Cards = h }),
		a.toggle("short", words.ShortForm(), kit.Short, func(_ app.Context, on bool) { next := kit; next.Short = on; a.keepKit(next) }),
		a.soundSwitch(),
		a.field("grit", words.GritLabel(), "", "", keepPapers), a.button("quiet", words.Keep(), keepPapers)}
	if papers != nil {
		body = append(body, a.more(words.PapersTitle(papers), words.PaperLines(papers, rough)))
	}
	return "kit", body
}

// keepKit keeps the kit, and tells the jobs under way.
func (a *App) keepKit(kit job.Kit) {
	now, _ := a.desk.Kit()
	kit.Card = now.Card // this device's, whatever a job knows of it
	if err := a.desk.SetKit(kit); err != nil {
		a.problem[""] = a.reader().Error(err)
		return
	}
	for _, r := range a.desk.Jobs() {
		if r.Kit != kit {
			if err := a.desk.Record(r.ID, job.Equipped{Kit: kit}); err != nil {
				a.problem[""] = a.reader().Error(err)
			}
		}
	}
}

// aboutScreen says what the app is and how to keep it, and leads to what there is to learn.
func (a *App) aboutScreen() []app.UI {
	body := []app.UI{title(words.AboutTitle())}
	if a.canChange() {
		body = append(body, a.offer(words.NewVersion()+" "+words.NewVersionJobs()))
	}
	for _, line := range words.AboutLines() {
		body = append(body, elem("p").Text(line))
	}
	body = append(body, a.footing(), elem("a").Class("button quiet").Attr("href", Link(a.prefix, Copy, "")).Text(words.CopyName()))
	return append(body, elem("h2").Text(words.LearnName()), a.learnLinks())
}
