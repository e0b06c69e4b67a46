package view

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"gapwright/app/draw"
	"gapwright/app/job"
	"gapwright/app/store"
	"gapwright/app/words"
	"gapwright/geometry"
)

// plan shows what this round may take off, or why nothing may.
func (a *App) plan(r job.Record) (string, []app.UI) {
	if r.Stands[0] == nil && len(r.Rounds) == 1 || a.picked["stand"] == 1 {
		return "stand", a.stand(r)
	}
	reader := a.reader()
	plan, err := r.Plan()
	if err != nil || a.picked["rechoose"] == 1 {
		return a.rechoose(r)
	}
	keep, other := a.keepIt("quiet"), a.otherHeights()
	if picked := a.picked["reread"]; picked > 0 {
		return "finer-" + words.Number(picked), a.finer(r, picked-1)
	}
	head := []app.UI{title(words.PlanTitle(plan.Outcome, len(r.Rounds)))}
	switch plan.Outcome {
	case job.PlanGo:
		head = append(head, a.ends(r.Instrument, words.SideTitle, func(side int) string { return reader.CutNumber(plan.At(side)) }), lead(reader.PlanLead(plan, r.Instrument, r.Kit)))
	case job.PlanTooLow:
		head = append(head, notice("stop", reader.PlanLead(plan, r.Instrument, r.Kit)))
	default:
		head = append(head, lead(reader.PlanLead(plan, r.Instrument, r.Kit)))
	}
	var notes []app.UI // the first is in the first view, the others stand with the numbers
	for _, f := range plan.Told() {
		if plan.Outcome == job.PlanGo && f.Severity != geometry.Note || plan.Outcome == job.PlanTooLow && f.Severity == geometry.Refuse {
			notes = append(notes, notice(severityClass(f.Severity), reader.Finding(f)))
		}
	}
	if plan.Outcome == job.PlanGo {
		if plan.Blind() {
			notes = append(notes, elem("div").Body(notice("caution", words.Blind()), a.button("quiet", words.MeasureStand(), func(app.Context) { a.picked["stand"] = 1 })))
		}
		if r.Split() {
			notes = append(notes, a.split(r))
		}
		if r.Invisible(plan) {
			notes = append(notes, notice("note", words.TooSmallToSee()))
		}
		if plan.Shim > 0 {
			notes = append(notes, notice("note", words.NotEvery()), elem("p").Text(reader.Leaves(plan.Shim)))
		}
	}
	shown := min(1, len(notes))
	head = append(append(head, notes[:shown]...), a.trouble())
	numbers := a.planNumbers(r, plan, notes[shown:])
	howPlan := a.how(words.StepHow(r.Method, job.MakePlan), nil, reader.PlanLead(plan, r.Instrument, r.Kit))
	switch plan.Outcome {
	case job.PlanGo:
		return "plan", append(head, elem("div").Class("plan-sheet").Body(a.saddle(r, plan)), foot(a.button("main", words.FollowPlan(), func(app.Context) { a.tell(job.Did{Step: job.MakePlan}) }), other, keep),
			a.room("after-round", r, r.Player(), []moment{
				{words.RoundChip(), func() []job.Row { return r.RowsAfter(plan, r.Player()) }},
				{words.NowChip(), func() []job.Row { return r.Rows(false, r.Player()) }},
			}), numbers, howPlan)
	case job.PlanCannotTell:
		return "cannot-tell", append(head, foot(a.readFiner("main", plan.Unclear()), other, keep), numbers, howPlan)
	case job.PlanHeldBack:
		if plan.HeldHelps {
			wish := r.Held(plan)
			return "held-back", append(head, foot(a.button("main", reader.AcceptTarget(plan.HeldTarget), func(app.Context) { a.tell(wish) }), other, keep), numbers, howPlan)
		}
	}
	return "no-cut", append(head, foot(a.keepIt("main"), other, a.readFiner("quiet", plan.Unclear())), numbers, howPlan)
}

func severityClass(s geometry.Severity) string {
	switch s {
	case geometry.Refuse:
		return "stop"
	case geometry.Caution:
		return "caution"
	}
	return "note"
}

// finer reads one string again by a finer way, in place of the rule's reading.
func (a *App) finer(r job.Record, course int) []app.UI {
	return a.otherWay(r, course, false, true)
}

// What every plan offers: other heights, a finer reading, leaving it as it is; and a number at each end.

func (a *App) rechoose(r job.Record) (string, []app.UI) {
	return "rechoose", append(a.choose(r), a.back("rechoose"))
}

func (a *App) otherHeights() app.UI {
	return a.button("quiet", words.OtherHeights(), func(app.Context) { a.picked["rechoose"] = 1 })
}

func (a *App) readFiner(class string, course int) app.UI {
	return a.button(class, words.FinerReading(), func(app.Context) { a.picked["reread"], a.picked["way"] = course+1, 1 })
}

func (a *App) keepIt(class string) app.UI {
	return a.button(class, words.KeepAsItIs(), func(app.Context) { a.tell(job.Judged{Outcome: job.Keep}) })
}

func (a *App) ends(i job.Instrument, name, number func(side int) string) app.UI {
	var ends []app.UI
	for _, side := range i.Sides() {
		ends = append(ends, elem("div").Class("end").Body(elem("span").Class("end-number").Text(number(side)), elem("span").Class("end-name").Text(name(side))))
	}
	return elem("div").Class("ends").Body(ends...)
}

func (a *App) planNumbers(r job.Record, plan job.Plan, notes []app.UI) app.UI {
	reader := a.reader()
	lines := append(notes, a.trusted(r))
	for _, p := range plan.Strings {
		lines = append(lines, elem("p").Text(reader.AfterRound(r.Instrument, p)+", "+reader.WantedHeight(p.Target)))
	}
	for _, f := range plan.Told() {
		if f.Severity == geometry.Note {
			lines = append(lines, elem("p").Text(reader.Finding(f)))
		}
	}
	if plan.Outcome == job.PlanGo {
		lines = append(lines, elem("p").Text(reader.WholeCut(0, plan.Whole.Bass)), elem("p").Text(reader.WholeCut(1, plan.Whole.Treble)))
		for side, fine := range []bool{plan.Stop.FineBass, plan.Stop.FineTreble} {
			if fine {
				lines = append(lines, elem("p").Text(words.FineOnly(side)))
			}
		}
		if s, ok := a.sideView(r, plan); ok {
			lines = append(lines, picture(s))
		}
	}
	for side, known := range plan.LeftKnow {
		if known {
			lines = append(lines, elem("p").Text(reader.LeftStanding(side, plan.Left[side])))
		}
	}
	if plan.Outcome == job.PlanGo {
		lines = append(lines, a.sharePlan(r, reader.PlanLines(r.Instrument, len(r.Rounds), plan)...))
	}
	return fold(words.Numbers(), lines...)
}

// stand asks how far the saddle stands up, once, before the first plan.
func (a *App) stand(r job.Record) []app.UI {
	q := words.StandQuestion()
	unit := r.Kit.Unit
	say := func(given bool) func(app.Context) {
		return func(app.Context) {
			clear(a.problem)
			facts := make([]job.Fact, 0, 2)
			for side := range 2 {
				s := job.Stood{Side: side}
				if given {
					id := "stand-" + words.Number(side)
					s.Exposure, s.Give = job.Typed{Text: a.typed[id], Unit: unit}, r.Kit.StandGive()
					if _, err := s.Exposure.Length(); err != nil {
						a.wrong(id, words.StandSize, err)
						continue
					}
					if err := s.Check(); err != nil {
						a.problem[id] = a.reader().Error(err)
						continue
					}
				}
				facts = append(facts, s)
			}
			if len(a.problem) == 0 {
				a.tell(facts...)
			}
		}
	}
	return append(append([]app.UI{title(q.Title), lead(q.Lead)}, a.cautions(r, job.AskRoom)...), a.trouble(),
		elem("div").Class("fields two").Body(
			a.field("stand-0", words.SideTitle(0), string(unit), "stand-1", nil),
			a.field("stand-1", words.SideTitle(1), string(unit), "", say(true))),
		foot(a.button("main", words.GoOn(), say(true)), a.button("quiet", words.IDontKnow(), say(false))), a.more(words.More(), q.More))
}

// mark asks what will be followed and shows what to draw for it.
func (a *App) mark(r job.Record) (string, []app.UI) {
	follow, ok := r.Answer(job.AskFollow)
	if !ok || a.picked["refollow"] == 1 {
		under, _ := r.Answer(job.AskUnder)
		if _, can := r.BackToMeasuring(); can && under == job.UnderShim && a.picked["strip"] == 0 {
			return "strip", []app.UI{title(words.StripTitle()), lead(words.Caution(job.AskUnder, under)), a.trouble(),
				foot(a.withoutStrip(r), a.button("quiet", words.KeepStrip(), func(app.Context) { a.picked["strip"] = 1 }))}
		}
		return "ask", a.question(r, job.AskFollow)
	}
	plan, err := r.Plan()
	if err != nil {
		return "mark", []app.UI{title(words.MarkTitle()), notice("stop", a.reader().Error(err))}
	}
	said := a.reader().MarkLead(follow, plan.Drawn.Bass, plan.Drawn.Treble)
	if bass, treble, moved := r.LineMoves(); moved && follow != job.FollowCaliper {
		said = a.reader().MarkMoved(bass, treble)
	}
	head := append([]app.UI{title(words.MarkTitle()), lead(said)}, a.cautions(r, job.AskUnder)...)
	if saddle, _ := r.Answer(job.AskSaddle); saddle == job.SaddleSplit {
		head = append(head, notice("caution", words.SplitCaution()))
	}
	if follow == job.FollowKnife || follow == job.FollowCards {
		head = append(head, notice("caution", words.BladeCaution()))
	}
	return "mark-" + string(follow), append(head, a.trouble(),
		a.saddle(r, plan),
		foot(a.button("main", words.Marked(), func(app.Context) { a.tell(job.Did{Step: job.Mark}) }),
			a.button("quiet", words.FollowOther(), func(app.Context) { a.picked["refollow"] = 1 })),
		a.how(words.StepHow(r.Method, job.Mark), words.MarkMore(), said))
}

// withoutStrip goes back to measuring: an old strip that is left out may be all that is needed.
func (a *App) withoutStrip(r job.Record) app.UI {
	return a.button("main", words.WithoutStrip(), func(app.Context) {
		if facts, ok := r.BackToMeasuring(); ok {
			a.tell(facts...)
		}
	})
}

// papers is the row of sanding papers: how coarse it is decides how soon to check.
func (a *App) papers(r job.Record) app.UI {
	if papers, rough := r.Kit.Order(); papers != nil {
		return a.more(words.PapersTitle(papers), words.PaperLines(papers, rough))
	}
	var chips []app.UI
	for _, grit := range job.Papers() {
		chips = append(chips, a.chip("paper", words.Paper(grit), r.Kit.Grit == grit, func(app.Context) {
			kit := r.Kit
			kit.Grit = grit
			a.keepKit(kit)
		}))
	}
	return fold(words.PaperTitle(r.Kit.Grit), elem("div").Class("chips").Body(chips...), soft(words.PaperMore()))
}

// sand coaches: so many strokes, then a check. The first stroke waits until everything before it is safely stored.
func (a *App) sand(r job.Record) (string, []app.UI) {
	state := a.desk.JobState(a.id)
	round := r.Current()
	if len(round.Work) == 0 && state.Mark != store.Saved && a.picked["unsaved"] == 0 {
		return "waiting", a.waiting(state)
	}
	coach, err := r.Coach()
	reader, uneven := a.reader(), r.Uneven(coach)
	if err != nil {
		return "sand", []app.UI{title(words.SandTitle(coach, false)), notice("stop", reader.Error(err)), a.stopButton("main")}
	}
	head := []app.UI{title(words.SandTitle(coach, uneven)), lead(reader.SandLead(coach, uneven))}
	if coach.Verdict == geometry.AtLine || coach.Verdict == geometry.PastLine {
		kind := "done"
		if coach.Verdict == geometry.PastLine {
			kind = "stop"
		}
		head[1] = notice(kind, reader.SandLead(coach, uneven))
		var others []app.UI
		switch {
		case coach.Verdict == geometry.AtLine && uneven:
			others = append(others, a.button("quiet", words.OtherEndOnly(), func(app.Context) { a.picked["onward"], a.picked["strokes"] = 1, job.EdgeStrokes }))
		case coach.Verdict == geometry.PastLine && !coach.ByCaliper:
			others = append(others, a.button("quiet", words.WrongTap(), func(app.Context) { a.picked["onward"], a.picked["strokes"] = 1, 0 }))
		}
		if a.picked["onward"] == 0 {
			return "there", append(head, a.trouble(), foot(a.button("main", words.StopHere(), func(app.Context) { a.tell(job.Did{Step: job.Sand}) }), others...),
				a.how(words.StepHow(r.Method, job.Sand), words.SandMore(r.Kit.Grit)))
		}
		head = []app.UI{title(words.LookQuestion()), lead(words.LookAgain())}
		if coach.Verdict == geometry.AtLine {
			head = []app.UI{title(words.OtherEndOnly()), lead(words.OverTheEdge())}
		}
	}
	if a.big && coach.Ready && !coach.Stops() && a.picked["counted"] == 0 {
		return "big-" + words.Number(len(round.Work)), a.bigSand(coach)
	}
	head = append(head, notice("caution", words.StepCaution(job.Sand)))
	strokes := coach.Strokes
	if n, changed := a.picked["strokes"]; changed {
		strokes = n
	}
	change := func(by int) func(app.Context) {
		return func(app.Context) { a.picked["strokes"] = max(0, strokes+by) }
	}
	count := a.stepper("strokes", words.StrokesDone(), words.Number(strokes), words.FewerStrokes(), words.MoreStrokes(), change(-1), change(1))
	if coach.ByCaliper {
		if !coach.Ready {
			strokes = 0
		}
		return "caliper-" + words.Number(len(round.Work)), append(head, a.byCaliper(r, coach, strokes, count)...)
	}
	return "line-" + words.Number(len(round.Work)), append(head, a.byLine(r, strokes, count)...)
}

func (a *App) waiting(state store.State) []app.UI {
	body := []app.UI{title(words.SaveWaits())}
	if state.Mark == store.NotSaved {
		body = []app.UI{title(words.Mark(state)), notice("caution", words.Unsaved(state)),
			foot(a.button("main", words.TryAgain(), func(app.Context) { a.desk.Retry() }),
				a.button("quiet", words.GoOnUnsaved(), func(app.Context) { a.picked["unsaved"] = 1 }))}
	}
	return body
}

func (a *App) stopButton(class string) app.UI {
	return a.button(class, words.StopSanding(), func(app.Context) { a.tell(job.Did{Step: job.Sand}) })
}

func (a *App) byCaliper(r job.Record, coach job.Coach, strokes int, count app.UI) []app.UI {
	unit := r.Kit.Unit
	check := func(replaces bool) func(app.Context) {
		return func(app.Context) {
			if !a.lengths(unit, words.HeightSize, "height-0", "height-1") {
				return
			}
			a.tellAt("height-1", job.Checked{Strokes: strokes, Replaces: replaces, Bass: job.Typed{Text: a.typed["height-0"], Unit: unit}, Treble: job.Typed{Text: a.typed["height-1"], Unit: unit}})
		}
	}
	record := check(false)
	others := []app.UI{a.stopButton("quiet")}
	if a.problem["height-1"] != "" && len(r.Current().Work) > 0 {
		others = append(others, a.button("quiet", words.Misread(), check(true)))
	}
	var body []app.UI
	label, bass, treble := words.RecordStart(), words.HeightAt(0), words.HeightAt(1)
	if coach.Ready {
		label, bass, treble = words.RecordCheck(), a.reader().StopAt(0, coach.TargetBass), a.reader().StopAt(1, coach.TargetTreble)
		body, others = append(body, count), append(others, a.bigButton())
	}
	return append(body, a.trouble(), elem("div").Class("fields two").Body(
		a.field("height-0", bass, string(unit), "height-1", nil), a.field("height-1", treble, string(unit), "", record)),
		foot(a.button("main", label, record), others...), a.how(words.StepHow(r.Method, job.Sand), words.SandMore(r.Kit.Grit)), a.papers(r))
}

func (a *App) byLine(r job.Record, strokes int, count app.UI) []app.UI {
	lines := job.Lines()
	rows := make([]app.UI, 3)
	for place := range rows {
		key := "look-" + words.Number(place)
		var chips []app.UI
		for i, l := range lines {
			chips = append(chips, a.chip(key, words.Line(l), a.picked[key] == i+1, func(app.Context) { a.picked[key] = i + 1 }))
		}
		rows[place] = elem("div").Class("look").Role("group").Aria("label", words.Place(place)).Body(elem("span").Class("look-place").Text(words.Place(place)), elem("div").Class("chips").Body(chips...))
	}
	seen := func(place string) int { return a.picked["look-"+place] }
	main := a.button("main", words.LookAll(), func(app.Context) {}).Disabled(true)
	if seen("0") > 0 && seen("1") > 0 && seen("2") > 0 {
		main = a.button("main", words.RecordLook(strokes), func(app.Context) {
			a.tell(job.Looked{Strokes: strokes, Bass: lines[seen("0")-1], Middle: lines[seen("1")-1], Treble: lines[seen("2")-1]})
		})
	}
	return []app.UI{count, lookKey(), elem("div").Class("looks").Body(rows...), a.trouble(),
		foot(main, a.stopButton("quiet"), a.bigButton()), a.how(words.StepHow(r.Method, job.Sand), words.SandMore(r.Kit.Grit)), a.papers(r)}
}

// smooth is fine paper, in the last round only.
func (a *App) smooth(r job.Record) []app.UI {
	coach, _ := r.Coach()
	plan, _ := r.Plan()
	q := a.reader().SmoothAsk(coach, plan.HalfWay)
	did := func(app.Context) { a.tell(job.Did{Step: job.Smooth}) }
	skip := func(app.Context) { a.tell(job.Skipped{Step: job.Smooth}) }
	main, other := a.button("main", words.Smoothed(), did), a.button("quiet", words.SkipForNow(), skip)
	shown := draw.SmoothFoot
	if plan.HalfWay {
		shown = draw.PutBack
		main, other = a.button("main", words.SkipForNow(), skip), a.button("quiet", words.Smoothed(), did)
	}
	return []app.UI{title(q.Title), lead(q.Lead), picture(draw.ActPicture(shown, r.Instrument.LeftHanded, "", "")), a.trouble(), foot(main, other), a.how(words.StepHow(r.Method, job.Smooth), append(q.More[:len(q.More):len(q.More)], words.Skip(job.Smooth)), q.Lead), a.papers(r)}
}

// save ends the job.
func (a *App) save(r job.Record) []app.UI {
	said := a.reader().SaveLead(len(r.Final()))
	if !r.Method.Has(job.Measure) {
		said = words.NeckSaved(r.NeckMoved(), r.NeckStill())
	}
	return []app.UI{title(words.SaveTitle()), lead(said), a.summary(r), a.trouble(), a.air(r),
		foot(a.button("main", words.SaveButton(), func(app.Context) {
			facts, ok := a.airFacts(r)
			if ok && a.tell(append(facts, job.Saved{})...) { // now there is something worth keeping for long: ask the browser not to clear it by itself
				a.seeToKeeping()
			}
		})), a.how(words.StepHow(r.Method, job.Save), nil, said)}
}

// finished shows the record, and says that it is saved only when it is.
func (a *App) finished(r job.Record) []app.UI {
	letter := elem("a").Class("button quiet").Attr("href", Link(a.prefix, Letter, r.ID)).Text(words.LetterName())
	if _, none := r.Letter(); none != "" {
		letter = letter.Hidden(true)
	}
	if r.Ended == job.Away {
		return []app.UI{title(words.PutAwayTitle()), lead(words.PutAwayMore()), a.summary(r),
			a.trouble(), foot(a.toBench("main", words.BenchName()), a.takeUp(r.ID, ""), letter)}
	}
	state := a.desk.JobState(r.ID)
	if state.Mark != store.Saved {
		return append(a.waiting(state), a.summary(r))
	}
	said := words.Proven(r.Current().Outcome == job.Done)
	if !r.Method.Has(job.Measure) {
		said = words.NeckSaved(r.NeckMoved(), r.NeckStill())
	}
	ways := foot(a.toBench("main", words.BenchName()), letter)
	if i, ok := a.desk.Instrument(r.Instrument.ID); ok && r.NeckMoved() { // what that did to the height is read in the next job
		ways = foot(a.button("main", words.NewJob(), func(ctx app.Context) { a.setUp(ctx, i) }), a.toBench("quiet", words.BenchName()), letter)
	}
	return []app.UI{title(words.FinishedTitle()), lead(said), a.summary(r), ways, a.story(r)}
}

// story lists all that was entered, as it was entered.
func (a *App) story(r job.Record) app.UI {
	reader := a.reader()
	var lines []app.UI
	for _, e := range r.Events {
		lines = append(lines, elem("li").Text(reader.Fact(r.Instrument, e.Fact)))
	}
	return fold(words.StoryTitle(), elem("ol").Class("story").Body(lines...))
}

// final is a course's last reading: as it was read where it was read once.
func (a *App) final(r job.Record, c job.Compared) string {
	if len(r.Readings(c.Course, true)) > 0 {
		return a.said(r, c.Course, true)
	}
	return a.reader().Span(c.Read)
}

// summary tells what the job found and left.
func (a *App) summary(r job.Record) app.UI {
	reader := a.reader()
	var rows, folded []app.UI
	for _, c := range r.Final() {
		rows = append(rows, elem("div").Class("row").Body(
			elem("span").Class("row-name").Text(words.CourseTitle(r.Instrument, c.Course)),
			elem("span").Class("row-value").Text(a.final(r, c)),
			elem("span").Class("row-note").Text(reader.WasBefore(c))))
	}
	if !r.Method.Has(job.Measure) {
		rows, folded = a.neckRead(r)
	}
	if room, said := r.Room(); said && r.Ended != job.Open {
		rows = append(rows, elem("p").Class("row-line").Text(words.AirTitle(room, true)))
	}
	for _, n := range r.Notes {
		rows = append(rows, elem("p").Class("row-line").Text(n))
	}
	return elem("div").Body(append([]app.UI{elem("div").Class("rows").Body(rows...)}, folded...)...)
}
