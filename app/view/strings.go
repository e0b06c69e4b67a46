package view

import (
	"slices"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"gapwright/app/job"
	"gapwright/app/words"
	"gapwright/geometry"
)

// What is chosen on the page of the strings and not kept yet stands in App.picked and App.typed, by course or by string.
func toneField(course int) string { return "tone-" + words.Number(course) }
func makeField(n int) string      { return "make-" + words.Number(n) }
func gaugeField(n int) string     { return "gauge-" + words.Number(n) }
func weightField(n int) string    { return "weight-" + words.Number(n) }

// stringsRow leads to the page of the strings.
func (a *App) stringsRow(i job.Instrument) app.UI {
	return elem("div").Class("rows").Body(a.changeRow(words.StringsTitle(), a.reader().StringsLine(i), func(app.Context) {
		clear(a.problem)
		a.picked["strings"] = 1
		a.pickStrings(i)
	}))
}

// pickStrings fills the page with what was said of the strings.
func (a *App) pickStrings(i job.Instrument) {
	a.pickTuning(i)
	a.picked["published"] = 0
	if i.Set != nil {
		a.picked["published"] = 1 + slices.Index(job.PublishedFor(i.Kind().ID), i.Set.Published)
	}
	for n, g := range i.Gauges() {
		a.typed[gaugeField(n)], a.typed[weightField(n)] = g.Diameter.Shown(a.reader().Unit), g.Weight
		a.picked[makeField(n)] = 1 + slices.Index(job.Makes(), g.Make)
	}
}

func (a *App) pickTuning(i job.Instrument) {
	a.picked["capo"] = i.Capo()
	for course, tone := range i.Tones() {
		a.picked[toneField(course)] = int(tone)
	}
}

// leaveStrings goes back to the instrument's page and leaves nothing behind.
func (a *App) leaveStrings(i job.Instrument) {
	for n := range i.Gauges() {
		delete(a.typed, gaugeField(n))
		delete(a.typed, weightField(n))
	}
	clear(a.picked)
	clear(a.problem)
}

// strungAs is the instrument with what stands on the page.
func (a *App) strungAs(i job.Instrument) job.Instrument {
	tones := i.Tones()
	for course := range tones {
		tones[course] = geometry.Tone(a.picked[toneField(course)])
	}
	next := i.WithTuning(tones).WithCapo(a.picked["capo"])
	if set := a.picked["published"]; set > 0 {
		return next.WithPublished(job.PublishedFor(i.Kind().ID)[set-1])
	}
	gauges := i.Gauges()
	for n := range gauges {
		gauges[n] = job.Gauge{Weight: a.typed[weightField(n)]}
		if made := a.picked[makeField(n)]; made > 0 {
			gauges[n].Make = job.Makes()[made-1]
		}
		if text := a.typed[gaugeField(n)]; text != "" {
			gauges[n].Diameter = job.Typed{Text: text, Unit: a.reader().Unit}
		}
	}
	return next.WithGauges(gauges)
}

// stringsScreen says which strings are on, how they are tuned and how hard they pull.
func (a *App) stringsScreen(i job.Instrument) (string, []app.UI) {
	next := a.strungAs(i)
	if a.picked["strings"] == 2 {
		return "strings-new/" + i.ID, a.newStrings(i, next)
	}
	keep := func(ctx app.Context) {
		if !a.stringsCanBe(ctx, next) {
			return
		}
		if next.Set.Differs(i.Set) || next.Retuned(i) {
			a.picked["strings"] = 2
			return
		}
		a.keepStrings(next)
	}
	_, total, whole := next.Pulls()
	body := []app.UI{title(words.StringsTitle()), lead(words.StringsLead()), a.trouble()}
	body = append(body, a.tuning(next)...)
	body = append(body, a.gauges(next, keep)...)
	return "strings/" + i.ID, append(body,
		elem("div").Class("rows").Body(elem("div").Class("row").Body(
			elem("span").Class("row-name").Text(words.TogetherLabel()), elem("span").Class("row-value").Text(a.reader().Together(total, whole)),
			elem("span").Class("row-note").Hidden(whole).Text(words.Missing(whole)))),
		fold(words.SidewaysLabel(), append([]app.UI{soft(words.SidewaysMore())}, a.sideways(next)...)...),
		foot(a.button("main", words.Keep(), keep), a.button("quiet", words.Back(), func(app.Context) { a.leaveStrings(i) })))
}

// tuning is how the strings are tuned: by name, string by string, and the capo.
func (a *App) tuning(i job.Instrument) []app.UI {
	var chips, courses []app.UI
	for _, c := range job.TuningChoices(i.Kind().ID) {
		chips = append(chips, a.chip("tuning", words.Tuning(c), i.Tuned(c), func(app.Context) { a.pickTuning(i.WithTuning(c.Tones(i.Kind().ID))) }))
	}
	for course, tone := range i.Tones() {
		courses = append(courses, a.stepper(toneField(course), words.CourseTitle(i, course), words.NoteInOctave(tone), words.SemitoneLower(), words.SemitoneHigher(),
			func(app.Context) { a.pickTuning(i.WithCourse(course, -1)) }, func(app.Context) { a.pickTuning(i.WithCourse(course, 1)) }))
	}
	return []app.UI{elem("h2").Text(words.TuningLabel()),
		elem("div").Class("chips").Role("group").Aria("label", words.TuningLabel()).Body(chips...),
		elem("p").Class("row-value").Text(words.Notes(i.Tones())),
		fold(words.OtherTuning(), courses...),
		a.stepper("capo", words.CapoLabel(), words.Capo(i.Capo()), words.CapoLower(), words.CapoHigher(),
			func(app.Context) { a.pickTuning(i.WithCapo(i.Capo() - 1)) }, func(app.Context) { a.pickTuning(i.WithCapo(i.Capo() + 1)) })}
}

// gauges is what the packet says of every string, or which published set it is, and how hard each pulls.
func (a *App) gauges(i job.Instrument, keep func(app.Context)) []app.UI {
	chosen := a.picked["published"]
	published, wrong := chosen > 0, false
	var sets []app.UI
	for n, id := range job.PublishedFor(i.Kind().ID) {
		sets = append(sets, a.chip("set", words.Published(id), chosen == 1+n, func(app.Context) { a.picked["published"] = 1 + n }))
	}
	none := len(sets) == 0
	sets = append(sets, a.chip("set", words.OwnSet(), !published, func(app.Context) { a.picked["published"] = 0 }))
	pulls, _, _ := i.Pulls()
	var rows, weights []app.UI
	for n := len(pulls) - 1; n >= 0; n-- { // treble first, as packets have them
		p := pulls[n]
		name, gauge, weight, done := words.StringName(i, p.Course, p.Second), "", "", keep
		if n > 0 {
			gauge, weight, done = gaugeField(n-1), weightField(n-1), nil
		}
		rows = append(rows, elem("div").Class("row-line").Body(
			elem("div").Class("fields").Body(
				elem("div").Class("fields").Hidden(published).Body(a.field(gaugeField(n), name, a.reader().UnitName(), gauge, done), a.makes(i, n, name)),
				elem("div").Body(elem("p").Hidden(!published).Text(name), soft(words.Pull(p))))))
		weights = append(weights, a.field(weightField(n), name, words.GramsPerMetre(), weight, done))
		wrong = wrong || a.problem[weightField(n)] != ""
	}
	return []app.UI{
		elem("div").Class("fields").Hidden(none).Body(elem("h2").Text(words.PublishedLabel()),
			elem("div").Class("chips").Role("group").Aria("label", words.PublishedLabel()).Body(sets...)),
		elem("h2").Hidden(published).Text(words.DiametersLabel()),
		elem("div").Class("rows").Body(rows...),
		elem("details").Class("more").Hidden(published).Attr("open", wrong).Body(append([]app.UI{elem("summary").Text(words.WeightsLabel())}, weights...)...),
	}
}

// makes is how one string is made; a second tap takes it back.
func (a *App) makes(i job.Instrument, n int, name string) app.UI {
	var chips []app.UI
	for _, m := range job.MakesFor(i.Kind().ID) {
		made := 1 + slices.Index(job.Makes(), m)
		chosen := a.picked[makeField(n)] == made
		chips = append(chips, a.chip(makeField(n), words.Make(m), chosen, func(app.Context) {
			a.picked[makeField(n)] = made
			if chosen {
				a.picked[makeField(n)] = 0
			}
		}))
	}
	return elem("div").Class("chips").Role("group").Aria("label", name).Body(chips...)
}

// sideways is how stiff every course is sideways.
func (a *App) sideways(i job.Instrument) []app.UI {
	var lines []app.UI
	for course := range i.Tones() {
		lines = append(lines, elem("p").Text(a.reader().Sideways(i, course)))
	}
	return lines
}

// stringsCanBe tells whether such strings can be; what is wrong is said beside each field, and the first of these is gone to.
func (a *App) stringsCanBe(ctx app.Context, i job.Instrument) bool {
	clear(a.problem)
	first := ""
	wrong := func(field string, err error) {
		if err == nil {
			return
		}
		a.problem[field] = a.reader().Error(err)
		if first == "" {
			first = field
		}
	}
	gauges := i.Gauges()
	for n := len(gauges) - 1; n >= 0; n-- {
		wrong(gaugeField(n), job.Gauge{Diameter: gauges[n].Diameter}.Check())
		wrong(weightField(n), job.Gauge{Weight: gauges[n].Weight}.Check())
	}
	if first == "" {
		wrong("", i.Set.Check(i.Kind()))
	}
	ctx.Defer(func(app.Context) { focusOn(first) })
	return len(a.problem) == 0
}

// newStrings asks whether the instrument changed or only what is written of it.
func (a *App) newStrings(i, next job.Instrument) []app.UI {
	answer := func(label, note string, then ...job.Fact) app.UI {
		return a.choice(app.Text(""), label, note, false, func(app.Context) { a.keepStrings(next, then...) })
	}
	return append(a.ask(words.NewStrings(job.PullChange(i, next)),
		answer(words.StringsAreNew(), words.StringsAreNewNote(), job.Strung{}), answer(words.StringsCorrected(), "")),
		a.button("quiet", words.Back(), func(app.Context) { a.picked["strings"] = 1 }))
}

// keepStrings keeps what stands on the page and goes back to the instrument's.
func (a *App) keepStrings(next job.Instrument, then ...job.Fact) {
	clear(a.problem)
	if a.putProfile(next, then...) {
		a.leaveStrings(next)
	}
}
