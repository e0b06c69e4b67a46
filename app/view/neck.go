package view

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"gapwright/app/draw"
	"gapwright/app/job"
	"gapwright/app/words"
	"gapwright/geometry"
)

// neckRows offers what more can be measured, each with what it buys, and shows what was.
func (a *App) neckRows(r job.Record) app.UI {
	reader := a.reader()
	row := func(name, value, note, button string, do func(app.Context)) app.UI {
		return elem("div").Class("row").Body(
			elem("span").Class("row-name").Text(name), elem("span").Class("row-value").Text(value),
			elem("span").Class("row-note").Text(note),
			a.button("quiet small", button, do).Aria("label", button+": "+name))
	}
	var rows []app.UI
	for n, p := range r.Instrument.Places() {
		value, button := "", words.MeasureIt()
		if s, ok := r.LastSurvey(p); ok {
			value, button = reader.Survey(s), words.ReadAgain()
		}
		rows = append(rows, row(words.PlaceName(r.Instrument, p), value, words.Buys(p), button, func(app.Context) { a.toSurvey(n) }))
	}
	if r.Instrument.Last() > 1 && len(r.Measured(false)) < r.Instrument.Kind().Courses {
		rows = append(rows, row(words.OtherStrings(), "", words.OtherStringsBuy(), words.MeasureIt(), func(app.Context) { a.between = a.id }))
	}
	for _, course := range r.Measured(false) {
		if course > 0 && course < r.Instrument.Last() {
			rows = append(rows, a.readingRow(r, course))
		}
	}
	value, button := "", words.MeasureIt()
	if r.Instrument.Radius.Given() {
		value, button = reader.About(r.Instrument.Radius.LengthOr(0)), words.Change()
	}
	rows = append(rows, row(words.RadiusLabel(), value, words.RadiusBuys(), button, func(app.Context) {
		delete(a.typed, "radius")
		a.picked["radius"] = 1
	}))
	body := []app.UI{elem("div").Class("rows").Body(rows...)}
	if text, out := a.crown(r); text != "" && !out {
		body = append(body, soft(text))
	}
	if len(r.SurveyList()) > 0 {
		body = append(body, a.diagnosisLines(r)...)
	}
	return fold(words.NeckTitle(), body...)
}

// radius asks how round the board is across; an empty field says that nobody knows.
func (a *App) radius(r job.Record) (string, []app.UI) {
	next := r.Instrument
	keep := func(app.Context) {
		clear(a.problem)
		a.take("radius", &next.Radius, r.Kit.Unit, words.RadiusSize)
		if err := next.Check(); err != nil && len(a.problem) == 0 {
			a.problem["radius"] = a.reader().Error(err)
		}
		if len(a.problem) == 0 && a.putProfile(next) {
			delete(a.picked, "radius")
		}
	}
	return "across", []app.UI{title(words.RadiusLabel()), lead(words.RadiusLead()), a.trouble(),
		elem("div").Class("fields").Body(a.given(r.Instrument.Radius, "radius", words.RadiusLabel(), string(r.Kit.Unit), "", keep)),
		foot(a.button("main", words.Keep(), keep), a.button("quiet", words.Back(), func(app.Context) { delete(a.picked, "radius"); clear(a.problem) })),
		a.more(words.More(), words.RadiusMore())}
}

// crown tells whether the saddle's top follows the board; empty before enough strings were read. What is out of line comes before any cut.
func (a *App) crown(r job.Record) (text string, out bool) {
	crown, courses, err := r.Crown(false)
	if err != nil {
		return "", false
	}
	return a.reader().CrownLine(r.Instrument, crown, courses)
}

// toSurvey opens the reading of a place, with nothing typed yet.
func (a *App) toSurvey(place int) {
	a.picked["survey"] = place + 1
	for _, field := range []string{"fits", "next", "value", "cards", "ten"} {
		delete(a.typed, field)
	}
}

// adjusted tells that a part of the neck was changed: what that makes void is due, whatever was left out before.
func (a *App) adjusted(f job.Feature, eighths int) {
	a.undue = ""
	a.tell(job.Adjusted{Feature: f, Eighths: eighths})
}

// survey reads the relief or the gap at fret 1; above stands what is to be known or chosen before.
func (a *App) survey(r job.Record, p job.Place, due bool, above ...app.UI) (string, []app.UI) {
	ways := r.Kit.SurveyWays()
	way := ways[min(max(0, a.picked["way"]-1), len(ways)-1)]
	s := r.Instrument.Survey(p)
	unit := r.Kit.Unit
	thin := a.picked["thin"] == 1
	var chips []app.UI
	for i, w := range ways {
		chips = append(chips, a.chip("way", words.Way(w), w == way && !thin, func(app.Context) { a.picked["way"] = i + 1; delete(a.picked, "thin"); clear(a.problem) }))
	}
	typed := func(id string) job.Typed { return job.Typed{Text: a.typed[id], Unit: unit} }
	take := func(app.Context) {
		_, s.Replaces = r.LastSurvey(p)
		s.Way = way
		fields := []string{"fits", "next"}
		switch {
		case thin:
			s.Way, fields, s.High = job.ByFeeler, []string{"next"}, typed("next")
		case way == job.ByFeeler:
			s.Low, s.High = typed("fits"), typed("next")
		case way == job.ByCaliper:
			fields, s.Low = []string{"value"}, typed("value")
		default:
			count, ok := wholeNumber(a.typed["cards"])
			if !ok {
				clear(a.problem)
				a.problem["cards"] = words.WholeNumber()
				return
			}
			fields, s.Count, s.TenThick = []string{"ten"}, count, typed("ten")
		}
		size := words.LeafSize
		if s.Way == job.ByCards { // ten together
			size = words.GapSize
		}
		if a.lengths(unit, size, fields...) {
			slot, by := a.picked["nut"], a.picked["way"]
			if a.tellAt(fields[len(fields)-1], s) && slot > 0 {
				a.picked["nut"], a.picked["way"] = slot, by // what it means is said next
			}
		}
	}
	var fields []app.UI
	name := a.reader().UnitName()
	switch {
	case thin:
		fields = []app.UI{a.field("next", words.ThinnestLabel(), name, "", take)}
	case way == job.ByFeeler:
		fields = []app.UI{a.field("fits", words.FitsLabel(), name, "next", nil), a.field("next", words.NextLabel(), name, "", take)}
	case way == job.ByCaliper:
		fields = []app.UI{a.field("value", words.ValueLabel(), name, "", take)}
	default:
		fields = []app.UI{a.field("cards", words.CardsLabel(), "", "ten", nil), a.field("ten", words.TenCardsLabel(), name, "", take)}
	}
	lead1 := lead(words.SurveyLead(s))
	act, labels := draw.FirstGap, []string{words.LeafLabel()}
	switch p.Feature {
	case job.FirstPressed:
		act, labels = draw.FirstPressed, []string{words.LeafLabel(), words.PressLabel()}
	case job.Relief:
		act, labels = draw.ReliefHeld, []string{words.Fret(s.Fret), words.Fret(s.Held), words.Fret(s.To)}
	}
	body := append([]app.UI{title(words.SurveyTitle(r.Instrument, p)), lead1}, above...)
	leave := app.UI(a.button("quiet", words.Back(), func(app.Context) {
		for _, pick := range []string{"survey", "thin", "nut"} {
			delete(a.picked, pick)
		}
		clear(a.problem)
	}))
	if r.Method == job.SetRelief && a.picked["survey"] == 0 { // there is nothing to go back to
		leave = elem("div")
	}
	if due {
		body = append(body, notice("note", words.DueLead()))
		leave = a.button("quiet", words.LeaveOut(), func(app.Context) { a.undue = a.id; clear(a.problem) })
	}
	thinner := a.button("quiet", words.NothingFits(), func(app.Context) { a.picked["thin"] = 1; clear(a.problem) })
	if thin {
		thinner = a.button("quiet", words.SomethingFits(), func(app.Context) { delete(a.picked, "thin"); clear(a.problem) })
	}
	shown := elem("div").Class("act").Body(picture(draw.ActPicture(act, r.Instrument.LeftHanded, words.SurveyPicture(p.Feature), "", labels...)))
	if !r.Method.Has(job.Measure) && (len(r.SurveyList()) > 0 || r.NeckMoved()) { // the first reading has shown it
		shown.Hidden(true)
	}
	lines := a.reader().SurveyMore(p.Feature)
	folded := a.more(words.More(), lines)
	if step := r.StepAt(now()); step == job.FixRelief || step == job.FixNut {
		folded = a.how(words.StepHow(r.Method, step), lines)
	}
	body = append(body, shown,
		elem("div").Class("chips").Role("group").Aria("label", words.WaysLabel()).Body(chips...), a.trouble(),
		elem("div").Class("fields two").Body(fields...),
		foot(a.button("main", words.ReadButton(), take), thinner, leave),
		folded)
	key := "survey-" + string(p.Feature) + "-" + words.Number(p.Course) + "-" + string(way)
	if thin {
		key += "-thin"
	}
	return key, body
}

// diagnose is what comes before the saddle: the part that is out, what to do about it, and when to stop.
func (a *App) diagnose(r job.Record) (string, []app.UI) {
	reader := a.reader()
	found, _ := r.NeckOut()
	feature, _ := job.FeatureOf(found.Part)
	key := string(feature)
	body := []app.UI{title(words.DiagnoseTitle(found)), lead(reader.DiagnoseLead(found)), notice("caution", words.Advice(found))}
	var again app.UI = elem("div")
	for n, p := range r.Instrument.Places() {
		if p.Feature == feature && (feature == job.Relief || p.Course == int(found.Side)*r.Instrument.Last()) {
			again = a.button("quiet", words.ReadAgainFirst(), func(app.Context) { a.toSurvey(n) })
		}
	}
	leave := a.button("quiet", words.LeaveNeck(), func(app.Context) { a.tell(job.LeftAlone{Feature: feature}) })
	if found.Part == geometry.PartRelief {
		turn := job.FirstTurn(found)
		n := 1
		if picked, changed := a.picked["eighths"]; changed {
			n = picked
		}
		step := func(by int) func(app.Context) {
			return func(app.Context) { a.picked["eighths"] = min(max(1, n+by*turn), job.MostAtOnce) }
		}
		if each, ok := r.PerEighth(); ok {
			body = append(body, soft(reader.Learned(each)))
		}
		body = append(body, a.stepper("eighths", words.EighthsLabel(), words.RodTurn(n*turn), words.Looser(), words.Tighter(), step(-1), step(1)), a.trouble(),
			foot(a.button("main", words.TurnedIt(), func(app.Context) { a.adjusted(feature, n*turn) }),
				leave),
			a.diagnosis(r, again), fold(words.More(), append(howLines(words.StepHow(r.Method, job.Diagnose), words.AdviceMore(found.Part)),
				a.button("quiet", words.SetByOther(), func(app.Context) { a.adjusted(feature, 0) }))...))
		return key, body
	}
	return key, append(body, a.trouble(), foot(a.button("main", words.NutWasDone(), func(app.Context) { a.adjusted(feature, 0) }), leave),
		a.diagnosis(r, again), a.how(words.StepHow(r.Method, job.Diagnose), words.AdviceMore(found.Part), words.Advice(found)))
}

// diagnosis lists every part as it stands to what is usual, in the order in which they are put right.
func (a *App) diagnosis(r job.Record, others ...app.UI) app.UI {
	return fold(words.NeckReadings(), append(a.diagnosisLines(r), others...)...)
}

func (a *App) diagnosisLines(r job.Record) []app.UI {
	found, _ := r.Diagnosis()
	var lines []app.UI
	for _, f := range found {
		lines = append(lines, elem("p").Text(words.Part(f, r.Instrument)+": "+a.reader().PartLine(f)))
	}
	return lines
}

// listen takes down what a person hears: their own touch is surer than any habit.
func (a *App) listen(r job.Record) []app.UI {
	course := 0
	if a.picked["listen-to"] == 1 {
		course = r.Instrument.Last()
	}
	stop := a.picked["listen-at"]
	var strings []app.UI
	for side := range 2 {
		strings = append(strings, a.chip("listen-to", words.CourseTitle(r.Instrument, side*r.Instrument.Last()), a.picked["listen-to"] == side, func(app.Context) { a.picked["listen-to"], a.picked["listen-at"] = side, 0 }))
	}
	step := func(by int) func(app.Context) {
		return func(app.Context) { a.picked["listen-at"] = min(max(0, stop+by), r.Instrument.LastFret()-1) }
	}
	hear := func(f job.Listened) func(app.Context) {
		return func(app.Context) {
			f.String = course
			if !f.Everywhere {
				f.Stop = stop
			}
			to, at := a.picked["listen-to"], a.picked["listen-at"]
			if a.tell(f) {
				a.picked["listen"], a.picked["listen-to"], a.picked["listen-at"] = 1, to, at
			}
		}
	}
	var heard []app.UI
	for _, c := range []int{0, r.Instrument.Last()} {
		for _, f := range r.Heard(c) {
			heard = append(heard, elem("li").Text(words.CourseTitle(r.Instrument, c)+", "+words.HeardLine(f)))
		}
	}
	times, odd, why := len(heard), false, words.RoomMore()
	x, _ := r.Explore(job.OwnPlayer)
	for side := range 2 {
		touch, err := r.OwnTouch(geometry.Side(side))
		switch err {
		case nil:
			heard = append(heard, elem("li").Text(a.reader().TouchLine(side, touch)))
			if suits, known := x.Lowest(side); known {
				heard = append(heard, elem("li").Text(a.reader().LowestLine(r.Instrument, side*r.Instrument.Last(), job.OwnPlayer, suits)))
			}
		case geometry.ErrTouch:
			odd = true
		}
	}
	result := app.UI(elem("div"))
	if odd {
		result, why = notice("caution", words.TouchOdd()), append([]string{words.TouchOddMore()}, why...)
	}
	return []app.UI{title(words.ListenTitle()), lead(words.ListenLead(r.Instrument, course, stop)),
		elem("div").Class("chips").Role("group").Aria("label", words.ListenTitle()).Body(strings...),
		a.stepper("listen-at", words.ListenStop(), words.StopValue(stop), words.LowerFret(), words.HigherFret(), step(-1), step(1)), a.trouble(),
		elem("div").Class("chips three").Role("group").Aria("label", words.ListenLead(r.Instrument, course, stop)).Body( // in one row: all three above the thumb
			a.chip("heard", words.SoundsClean(), false, hear(job.Listened{})),
			a.chip("heard", words.SoundsBuzz(), false, hear(job.Listened{Buzzed: true})),
			a.chip("heard", words.CleanEverywhere(), false, hear(job.Listened{Everywhere: true}))),
		result, fold(words.HeardTitle(times), elem("ul").Class("runs").Body(heard...)),
		foot(a.button("main", words.ListenDone(), func(app.Context) { delete(a.picked, "listen") })),
		a.more(words.More(), why)}
}

// roomNow is the headroom with the strings back on, and the way to take down how it sounds.
func (a *App) roomNow(r job.Record) app.UI {
	return a.room("room-now", r, r.Player(), []moment{{words.NowChip(), func() []job.Row { return r.Rows(true, r.Player()) }}},
		a.button("quiet", words.ListenButton(), func(app.Context) { a.picked["listen"] = 1 }))
}
