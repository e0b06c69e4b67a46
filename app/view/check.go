package view

import (
	"slices"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"gapwright/app/draw"
	"gapwright/app/job"
	"gapwright/app/words"
	"gapwright/geometry"
)

// mostToCheck is how many instruments a quick check lists; the Bench has them all.
const mostToCheck = 12

// checkScreen is the way in to a quick check: straight to the first reading where it is plain of which instrument. Nothing is written before that is taken.
func (a *App) checkScreen() (string, []app.UI) {
	i, ok := a.toCheck()
	if !ok || a.picked["list"] == 1 {
		return "check", a.checkList()
	}
	kit, _ := a.desk.Kit()
	r, err := job.Record{}.Apply(job.Event{Job: i.ID, Sequence: 1, At: now(), Fact: job.Began{Method: job.QuickCheck, Instrument: i.ToCheck(), Kit: kit}})
	if err != nil {
		return "check/" + i.ID, []app.UI{title(words.Instrument(i)), notice("stop", a.reader().Error(err))}
	}
	sub, body := a.checkReading(r, 0, false)
	body = append([]app.UI{a.checked(r)}, body...)
	if set, others := job.ToCheckFirst(a.desk.Instruments()); len(set)+len(others) > 1 {
		other := app.UI(elem("a").Class("button quiet").Attr("href", Link(a.prefix, Check, "")).Text(words.AnotherInstrument()))
		if a.id == "" {
			other = a.button("quiet", words.AnotherInstrument(), func(app.Context) { a.picked["list"] = 1 })
		}
		body = append(body, elem("div").Class("menu").Body(other))
	}
	return "check/" + i.ID + "/" + sub, body
}

// toCheck is the instrument that is checked: the one that the address names, or the only one that can be meant.
func (a *App) toCheck() (job.Instrument, bool) {
	if a.id != "" {
		return a.desk.Instrument(a.id)
	}
	set, others := job.ToCheckFirst(a.desk.Instruments())
	switch {
	case len(set) == 1:
		return set[0], true
	case len(set) == 0 && len(others) == 1:
		return others[0], true
	}
	return job.Instrument{}, false
}

// checkList asks which instrument, those with heights as set first.
func (a *App) checkList() []app.UI {
	set, others := job.ToCheckFirst(a.desk.Instruments())
	bench := a.toBench("quiet", words.BenchName())
	if len(set)+len(others) == 0 {
		return []app.UI{title(words.CheckNothing()), lead(words.CheckNothingMore()), foot(bench.Class("button main"))}
	}
	body := []app.UI{title(words.CheckWhich())}
	list := func(all []job.Instrument) {
		for _, i := range all {
			body = append(body, elem("a").Class("card").Attr("href", Link(a.prefix, Check, i.ID)).Body(
				elem("strong").Text(words.Instrument(i)), elem("span").Class("soft").Text(words.SetAge(i, now()))))
		}
	}
	list(set[:min(len(set), mostToCheck)])
	list(others[:min(len(others), max(0, mostToCheck-len(set)))])
	return append(body, bench)
}

// resume leads from an address that names no job to the one under way: the check that was begun on this instrument, or the job worked on last.
func (a *App) resume() {
	if a.desk == nil {
		return // a page that a host hands out
	}
	jobs := a.desk.Jobs()
	switch {
	case a.place == Check:
		if i, ok := a.toCheck(); ok {
			if r, under := job.CheckOn(jobs, i, now()); under {
				a.settleOn(r.ID)
			}
		}
	case a.place == Job && a.id == "" && len(jobs) > 0:
		a.settleOn(jobs[0].ID)
	case a.place == Job && a.id == "":
		a.place = Bench
		readdress(Link(a.prefix, Bench, ""))
	}
}

// settleOn shows a job under its own address, so that going back or loading again finds it.
func (a *App) settleOn(id string) {
	a.place, a.id = Job, id
	readdress(Link(a.prefix, Job, id))
}

// beginCheck begins a check with its first reading. Half a check that it takes the place of is put away.
func (a *App) beginCheck(field string, facts []job.Fact) bool {
	i, ok := a.toCheck()
	if !ok {
		return false
	}
	id, err := a.desk.Begin(job.QuickCheck, i.ToCheck(), facts...)
	for _, r := range a.desk.Jobs() {
		if err == nil && r.Method == job.QuickCheck && r.Instrument.ID == i.ID && r.ID != id {
			err = a.desk.Record(r.ID, job.PutAway{})
		}
	}
	if err != nil {
		a.problem[field] = a.reader().Error(err)
		return false
	}
	a.settleOn(id)
	return true
}

// checked tells which instrument is checked, and when it was set.
func (a *App) checked(r job.Record) app.UI {
	said := words.SetAge(r.Instrument, now())
	if r.Over() && r.Stale(now()) {
		said = words.CheckedOn(r.Last)
	}
	return elem("div").Class("where").Body(elem("p").Class("where-line").Body(elem("strong").Text(words.Instrument(r.Instrument)), elem("span").Text(said)))
}

// quickCheck shows a check that was begun: what is still to be read, and then the answer.
func (a *App) quickCheck(r job.Record) (string, []app.UI) {
	sub, body := "answer", []app.UI(nil)
	course, reread := 0, false
	if !r.Over() || a.picked["reread"] > 0 {
		course, reread = a.next(r, false)
	} else {
		course = -1
	}
	switch {
	case a.picked["survey"] > 0:
		sub, body = a.survey(r, job.Place{Feature: job.Relief}, false)
	case course >= 0:
		sub, body = a.checkReading(r, course, reread)
	default:
		body = a.checkAnswer(r)
	}
	top := []app.UI{a.checked(r)}
	if a.told {
		top = append(top, notice("note", words.OpenInOther()))
	}
	return "job/" + r.ID + "/" + sub, append(append(top, body...), a.jobMenu(r, job.Measure))
}

// checkReading is the reading of a string: the control opens where the string was as set, whatever it is read with.
func (a *App) checkReading(r job.Record, course int, reread bool) (string, []app.UI) {
	if key, body, open := a.rule(r); open {
		return key, body
	}
	key := words.Number(course)
	if r.Kit.RuleStep() == 0 && a.picked["way"] == 0 {
		a.picked["way"] = 1 + max(0, slices.IndexFunc(r.Kit.Ways(), func(w job.Way) bool {
			_, so := r.Instrument.AsSetRead(course, w)
			return so
		}))
	}
	if a.picked["way"] > 0 {
		return key + "-way", a.otherWay(r, course, false, reread)
	}
	return key, a.byRule(r, course, false, reread)
}

// asSetFields begins the fields of a way with what was read so when it was set, once, and names the button that takes what stands in them.
func (a *App) asSetFields(r job.Record, course int, way job.Way) (label string) {
	label = words.ReadButton()
	read, ok := r.Instrument.AsSetRead(course, way)
	if r.Method != job.QuickCheck || !ok {
		return label
	}
	fields := map[string]string{"value": read.Low.Text, "fits": read.Low.Text, "next": read.High.Text, "ten": read.TenThick.Text, "cards": words.Number(read.Count)}
	if once := "filled-" + string(way); a.picked[once] == 0 && read.In(r.Kit.Unit) {
		a.picked[once] = 1
		for field, text := range fields {
			a.typed[field] = text
		}
	}
	for _, field := range wayFields[way] {
		if a.typed[field] != fields[field] {
			return label
		}
	}
	return a.reader().SameRead(read)
}

// wayFields are the fields of the ways of reading that are typed.
var wayFields = map[job.Way][]string{job.ByCaliper: {"value"}, job.ByFeeler: {"fits", "next"}, job.ByCards: {"cards", "ten"}}

// checkAnswer compares, and says what is safe now and what waits.
func (a *App) checkAnswer(r job.Record) []app.UI {
	c, _ := r.Check()
	reader := a.reader()
	body := []app.UI{title(words.CheckTitle(c))}
	if kind, text := words.CheckFirst(c); kind != "" {
		body = append(body, notice(kind, text))
	} else {
		body = append(body, lead(reader.CheckLead(c, r.Instrument, r.Kit)))
	}
	var rows []app.UI
	row := func(name, value, note, class string) {
		rows = append(rows, elem("div").Class("row verdict-"+class).Body(elem("span").Class("row-name").Text(name),
			elem("span").Class("row-value row-wide").Text(value), elem("span").Class("row-note").Text(note)))
	}
	for side, course := range []int{0, r.Instrument.Last()} {
		s, name := c.Strings[side], words.CourseTitle(r.Instrument, course)
		if c.Answer == job.CheckNoBaseline {
			row(name, a.said(r, course, false), reader.UsualNote(r.Instrument.Usual(course), c.Standing[side]), standingClass(c.Standing[side]))
			continue
		}
		row(name, reader.Sided(reader.AsSet(r.Instrument, course), a.said(r, course, false)), reader.SinceNote(s), changeClass(s.Told))
	}
	if c.Relief.OK {
		row(words.Feature(job.Relief), reader.Sided(reader.Relief(c.Relief.Was), reader.Relief(c.Relief.Is)), reader.ReliefSince(c.Relief), changeClass(c.Relief.Told))
	} else if s, ok := r.LastSurvey(job.Place{Feature: job.Relief}); ok {
		row(words.Feature(job.Relief), reader.Survey(s), "", "unclear")
	}
	var others []app.UI
	if !r.Stale(now()) {
		others = append(others, a.button("quiet", words.ReadAgain(), func(app.Context) { a.picked["reread"], a.picked["then"] = 1, r.Instrument.Last()+1 }))
		if !r.ReliefKnown() {
			others = append(others, a.button("quiet", words.ReliefToo(), func(app.Context) { a.toSurvey(0) }))
		}
	}
	if i, ok := a.desk.Instrument(r.Instrument.ID); ok {
		others = append(others, a.button("quiet", words.StartAJob(), func(app.Context) { a.start = i }))
	}
	return append(body, a.checkPicture(r, c), elem("div").Class("rows").Body(rows...), a.trouble(),
		foot(a.toBench("main", words.CheckDone()), others...),
		a.safeNow(r, c))
}

// safeNow is what may be done minutes before a show, what waits, and when to stop.
func (a *App) safeNow(r job.Record, c job.Check) app.UI {
	var all []app.UI
	say := func(title string, lines []string) {
		if title != "" {
			all = append(all, elem("h2").Text(title))
		}
		for _, line := range lines {
			all = append(all, elem("p").Text(line))
		}
	}
	say("", a.reader().SafeNow(c, r.Instrument, r.Kit))
	say(words.WaitsTitle(), words.Waits())
	say(words.BuzzTitle(), words.BuzzChecks())
	return fold(words.WhatIsSafe(), append(all, notice("stop", words.CheckStop()), a.air(r))...)
}

// checkPicture draws both strings as set and now; without a baseline, what is usual and now.
func (a *App) checkPicture(r job.Record, c job.Check) app.UI {
	s := draw.Check{Title: words.CheckedBars(), Desc: a.reader().CheckPictureText(c), LeftHanded: r.Instrument.LeftHanded, WasLabel: words.AsSetLabel(), IsLabel: words.NowIs()}
	if c.Answer == job.CheckNoBaseline {
		s.WasLabel = words.UsualLabel()
	}
	for side, course := range []int{0, r.Instrument.Last()} {
		s.Names[side], s.Was[side], s.Is[side] = words.CourseTitle(r.Instrument, course), c.Strings[side].Was, c.Strings[side].Is
		if c.Answer == job.CheckNoBaseline {
			s.Was[side] = r.Instrument.Usual(course)
		}
	}
	s.Note = words.HeightsNote(draw.CheckBroken(s))
	return picture(draw.CheckPicture(s))
}

func changeClass(c geometry.Change) string {
	switch c {
	case geometry.Higher:
		return "high"
	case geometry.Lower:
		return "low"
	case geometry.Untold:
		return "unclear"
	}
	return "reached"
}

func standingClass(s geometry.Standing) string {
	switch s {
	case geometry.Above:
		return "high"
	case geometry.Below:
		return "low"
	case geometry.Usual:
		return "reached"
	}
	return "unclear"
}
