package view

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"gapwright/app/draw"
	"gapwright/app/job"
	"gapwright/app/words"
)

// stripPlan shows what this round may lay under the saddle, or why nothing should.
func (a *App) stripPlan(r job.Record) (string, []app.UI) {
	if r.Stands[0] == nil && len(r.Rounds) == 1 || a.picked["stand"] == 1 {
		return "stand", a.stand(r)
	}
	plan, err := r.StripPlan()
	if err != nil || a.picked["rechoose"] == 1 {
		return a.rechoose(r)
	}
	if picked := a.picked["reread"]; picked > 0 {
		return "finer-" + words.Number(picked), a.finer(r, picked-1)
	}
	if plan.Outcome == job.StripGo && (a.picked["strips"] == 1 || a.picked["strips"] == 0 && r.Kit.Strips == [job.MostKinds]job.Strip{}) {
		return a.strips(r, plan)
	}
	reader := a.reader()
	head := []app.UI{title(words.StripPlanTitle(plan.Outcome))}
	other := a.otherHeights()
	said := reader.StripLead(plan, r.Kit)
	switch plan.Outcome {
	case job.StripGo:
		head = append(head, a.ends(r.Instrument, words.SideTitle, func(side int) string { return reader.Thick(plan.Thick[side]) }), lead(said), soft(reader.Then(plan)))
		head = append(head, a.split(r))
		if plan.Leans() {
			head = append(head, notice("caution", words.MayLean()))
		}
		act := draw.LayStrip
		if plan.Laying.Strip.Leaves > 0 {
			act = draw.LayStepped
		}
		head = append(head, elem("div").Class("plan-sheet").Body(picture(draw.ActPicture(act, r.Instrument.Sides()[1] == int(plan.Laying.Side), "", ""))), a.trouble(),
			foot(a.button("main", words.FollowPile(), func(app.Context) { a.tell(job.Did{Step: job.MakePlan}) }),
				a.button("quiet", words.OtherStrips(), func(app.Context) { a.picked["strips"] = 1 }), other, a.keepIt("quiet")))
	case job.StripCannotTell:
		head = append(head, lead(said), a.trouble(), foot(a.readFiner("main", plan.Unclear()), other, a.keepIt("quiet")))
	case job.StripThere:
		head = append(head, lead(said), a.trouble(), foot(a.keepIt("main"), other, a.readFiner("quiet", plan.Unclear())))
	default:
		head = append(head, notice("stop", said), a.trouble(), foot(a.keepIt("main"), other, a.readFiner("quiet", plan.Unclear())))
	}
	lines, told := []app.UI{a.trusted(r)}, []string{said}
	for _, s := range plan.Strings {
		told = append(told, reader.AfterRound(r.Instrument, s)+", "+reader.WantedHeight(s.Target))
		lines = append(lines, elem("p").Text(told[len(told)-1]))
	}
	for side, on := range plan.Stands {
		if plan.Stood[side] {
			lines = append(lines, elem("p").Text(reader.StandsOn(side, on)))
		}
	}
	if plan.Outcome == job.StripGo {
		lines = append(lines, a.sharePlan(r, told...))
	}
	return "strip-" + string(plan.Outcome), append(head, fold(words.Numbers(), lines...), a.how(words.StepHow(r.Method, job.MakePlan), nil, said))
}

// strips asks what there is to lay, up to four kinds.
func (a *App) strips(r job.Record, plan job.StripPlan) (string, []app.UI) {
	reader, kit, unit := a.reader(), r.Kit, string(r.Kit.Unit)
	var rows []app.UI
	for n, s := range kit.Strips {
		if s != (job.Strip{}) {
			text := reader.StripThick(s)
			rows = append(rows, elem("div").Class("row").Body(elem("span").Class("row-name").Text(words.StripCount(s)), elem("span").Class("row-value").Text(text),
				a.button("quiet small", words.DropStrip(), func(app.Context) { a.keepKit(kit.WithoutStrip(n)); a.picked["strips"] = 1 }).Aria("label", words.DropStrip()+": "+text)))
		}
	}
	add := func() bool {
		clear(a.problem)
		count, ok := 0, true
		if text := a.typed["strip-count"]; text != "" {
			count, ok = wholeNumber(text)
		}
		s := job.Strip{Thick: job.Typed{Text: a.typed["strip"], Unit: kit.Unit}, Ten: a.picked["ten"] == 1, Count: count}
		if err := s.Check(); err != nil {
			a.wrong("strip", words.LeafSize, err)
		}
		if !ok {
			a.problem["strip-count"] = words.WholeNumber()
		}
		more, room := kit.WithStrip(s)
		if len(a.problem) > 0 || !room {
			return false
		}
		delete(a.typed, "strip")
		delete(a.typed, "strip-count")
		a.picked["strips"] = 1
		a.keepKit(more)
		return a.problem[""] == ""
	}
	done := func(app.Context) {
		if a.typed["strip"] == "" && len(rows) > 0 || add() {
			a.picked["strips"] = 2
		}
	}
	q := reader.StripsAsk(plan)
	body := []app.UI{title(q.Title), lead(q.Lead), elem("div").Class("rows").Body(rows...), a.trouble()}
	var others []app.UI
	if len(rows) < job.MostKinds {
		chip := func(ten int, label string) app.UI {
			return a.chip("ten", label, a.picked["ten"] == ten, func(app.Context) { a.picked["ten"] = ten })
		}
		body = append(body, elem("div").Class("fields two").Body(
			a.field("strip", words.ThicknessLabel(), unit, "strip-count", nil), a.field("strip-count", words.HowManyLabel(), "", "", done)),
			elem("div").Class("chips").Role("group").Aria("label", words.ThicknessLabel()).Body(chip(0, words.OfOne()), chip(1, words.OfTen())))
		others = append(others, a.button("quiet", words.AddStrip(), func(app.Context) { add() }))
	}
	if len(rows) == 0 {
		others = append(others, a.button("quiet", words.IDontKnow(), func(app.Context) { a.picked["strips"] = 2; clear(a.problem) }))
	}
	return "strips-" + words.Number(len(rows)), append(body, foot(a.button("main", words.FindPile(), done), others...), a.more(words.More(), q.More))
}

// lay is the laying in, with the slot's depth asked for before where the saddle's stand was measured.
func (a *App) lay(r job.Record) (string, []app.UI) {
	reader, unit := a.reader(), r.Kit.Unit
	plan, err := r.StripPlan()
	if err != nil {
		return "lay", []app.UI{title(words.StepName(job.Lay)), notice("stop", reader.Error(err))}
	}
	if facts, ask := r.SeatDepth(job.Typed{Text: a.typed["slot"], Unit: unit}); ask && a.picked["slot"] == 0 {
		q := words.SeatDepthAsk()
		deep := func(app.Context) {
			if a.lengths(unit, words.HeightSize, "slot") && !a.tellAt("slot", append(facts, job.Did{Step: job.MakePlan})...) {
				a.tellAt("slot", facts...) // then the plan says what stands in the way
			}
		}
		return "slot", []app.UI{title(q.Title), lead(q.Lead), a.trouble(), a.field("slot", words.SeatDepthLabel(), string(unit), "", deep),
			foot(a.button("main", words.GoOn(), deep), a.button("quiet", words.IDontKnow(), func(app.Context) { a.picked["slot"] = 1; clear(a.problem) })), a.more(words.More(), q.More)}
	}
	q := reader.LayAsk(plan, r.Kit)
	body := []app.UI{title(q.Title), lead(q.Lead)}
	under, _ := r.Answer(job.AskUnder)
	if text := words.LayCaution(under); text != "" {
		body = append(body, notice("caution", text))
	}
	if plan.Known {
		a.laid(r.Kit.LaidAs(plan.Thick[0], plan.Thick[1]))
	}
	return "lay-" + string(under), append(append(body, a.trouble()), append(a.stripIn(unit, words.LaidAt, words.LaidIn(),
		a.button("quiet", words.NotMeasured(), func(app.Context) { a.tell(job.Shimmed{}) })), a.how(words.StepHow(r.Method, job.Lay), q.More, q.Lead))...)
}

// laid fills the fields of what goes in, once.
func (a *App) laid(s job.Shimmed) {
	if a.picked["laid"] == 0 {
		a.picked["laid"], a.typed["shim-0"], a.typed["shim-1"] = 1, s.Bass.Text, s.Treble.Text
	}
}

// stripIn asks how thick what went in is at both ends; nothing typed is not known.
func (a *App) stripIn(unit job.Unit, at func(side int) string, label string, other app.UI) []app.UI {
	in := func(app.Context) {
		for _, id := range []string{"shim-0", "shim-1"} {
			if a.typed[id] != "" && !a.lengths(unit, words.LeafSize, id) {
				return
			}
		}
		a.tellAt("shim-1", job.Shimmed{Bass: job.Typed{Text: a.typed["shim-0"], Unit: unit}, Treble: job.Typed{Text: a.typed["shim-1"], Unit: unit}})
	}
	return []app.UI{elem("div").Class("fields two").Body(a.field("shim-0", at(0), string(unit), "shim-1", nil), a.field("shim-1", at(1), string(unit), "", in)),
		foot(a.button("main", label, in), other)}
}
