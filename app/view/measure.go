package view

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"gapwright/app/draw"
	"gapwright/app/job"
	"gapwright/app/words"
	"gapwright/geometry"
)

// measure shows the reading of the strings, before the work or with the strings back on, one string at a time or all on one page.
func (a *App) measure(r job.Record, again bool) (string, []app.UI) {
	if key, body, open := a.rule(r); open {
		return key, body
	}
	if r.Kit.Short && r.Kit.RuleStep() > 0 && a.slowly != a.id && !(again && a.read(r, again)) {
		return "short", a.settling(r, a.short(r, again))
	}
	if a.picked["radius"] == 1 {
		return a.radius(r)
	}
	if n := a.picked["survey"]; n > 0 {
		return a.survey(r, r.Instrument.Places()[n-1], false)
	}
	course, reread := a.next(r, again)
	if course < 0 && a.picked["listen"] == 1 {
		return "listen", a.listen(r)
	}
	if p, due := r.Due(); due && course < 0 && a.undue != a.id {
		return a.survey(r, p, true)
	}
	switch {
	case course < 0 && again:
		return a.verdict(r)
	case course < 0:
		return "review", a.review(r)
	}
	key := words.Number(course) + "-" + words.Number(len(r.Readings(course, again)))
	if a.picked["way"] > 0 || r.Kit.RuleStep() == 0 {
		return key + "-way", a.settling(r, a.otherWay(r, course, again, reread))
	}
	return key, a.settling(r, a.byRule(r, course, again, reread))
}

// read tells whether both outer strings are read and not stale.
func (a *App) read(r job.Record, again bool) bool {
	course, _ := a.next(r, again)
	return course < 0
}

// next is the string to read now: the one picked for another reading, or the first outer one without; −1 when there is none.
func (a *App) next(r job.Record, again bool) (course int, reread bool) {
	if picked := a.picked["reread"]; picked > 0 {
		return picked - 1, true
	}
	if a.staleNow(r, again) {
		return a.stalest(r, again), true
	}
	for _, c := range []int{0, r.Instrument.Last()} {
		if len(r.Readings(c, again)) == 0 {
			return c, false
		}
	}
	if a.between == a.id {
		for c := range r.Instrument.Kind().Courses {
			if len(r.Readings(c, again)) == 0 {
				return c, false
			}
		}
	}
	return -1, false
}

func (a *App) staleNow(r job.Record, again bool) bool {
	if again {
		return r.StaleAfter(now())
	}
	return r.Stale(now())
}

// stalest is the first string whose readings are too old.
func (a *App) stalest(r job.Record, again bool) int {
	for _, c := range r.Measured(again) {
		if r.StaleCourse(c, again, now()) {
			return c
		}
	}
	return 0
}

// rule asks what the rule is like, the first time that it is used; open is false when that is known.
func (a *App) rule(r job.Record) (key string, body []app.UI, open bool) {
	kit := r.Kit
	equip := func(kit job.Kit) {
		clear(a.picked)
		a.keepKit(kit)
	}
	switch {
	case kit.Marks == job.MarksUnknown && a.picked["count"] == 1:
		return "rule-count", a.spaces(kit, equip), true
	case kit.Marks == job.MarksUnknown:
		return "rule", a.ruleChoice(kit, equip), true
	case kit.Marks != job.NoRule && kit.Zero == job.ZeroNotAsked:
		if z := a.picked["zero"]; z > 0 {
			return "zero-distance", a.zeroDistance(kit, job.Zeros()[z-1], equip), true
		}
		return "zero", a.zeroChoice(kit, equip), true
	}
	return "", nil, false
}

func (a *App) ruleChoice(kit job.Kit, keep func(job.Kit)) []app.UI {
	var answers []app.UI
	for _, m := range append(job.AllMarks(), job.NoRule) {
		answers = append(answers, a.choice(marksPicture(m), words.Marks(m), "", kit.Marks == m, func(app.Context) { keep(kit.WithMarks(m)) }))
	}
	answers = append(answers, a.choice(app.Text(""), words.IDontKnow(), "", false, func(app.Context) { a.picked["count"] = 1 }))
	return a.ask(words.RuleQuestion(), answers...)
}

// spaces finds out how the rule is marked by counting.
func (a *App) spaces(kit job.Kit, keep func(job.Kit)) []app.UI {
	var answers []app.UI
	for _, m := range job.AllMarks() {
		answers = append(answers, a.choice(marksPicture(m), words.Spaces(m.Spaces()), words.Marks(m), false, func(app.Context) { keep(kit.WithMarks(m)) }))
	}
	answers = append(answers, a.choice(app.Text(""), words.OtherCount(), words.Marks(job.NoRule), false, func(app.Context) { keep(kit.WithMarks(job.NoRule)) }))
	return append(a.ask(words.CountSpaces(), answers...), a.button("quiet", words.Back(), func(app.Context) { delete(a.picked, "count") }))
}

func (a *App) zeroChoice(kit job.Kit, keep func(job.Kit)) []app.UI {
	var answers []app.UI
	for i, z := range job.Zeros() {
		answers = append(answers, a.choice(zeroPicture(z), words.Zero(z), "", kit.Zero == z, func(app.Context) {
			if z == job.ZeroInside || z == job.ZeroCutOff {
				a.picked["zero"] = i + 1
				return
			}
			kit.Zero, kit.ZeroDist = z, job.Typed{}
			keep(kit)
		}))
	}
	return a.ask(words.ZeroQuestion(), answers...)
}

func (a *App) zeroDistance(kit job.Kit, z job.Zero, keep func(job.Kit)) []app.UI {
	q := words.ZeroDistance(z)
	done := func(app.Context) {
		kit.Zero, kit.ZeroDist = z, job.Typed{Text: a.typed["zero-distance"], Unit: kit.Unit}
		if err := kit.Check(); err != nil {
			a.problem["zero-distance"] = a.reader().Error(err)
			return
		}
		delete(a.picked, "zero")
		keep(kit)
	}
	return []app.UI{title(q.Title), lead(q.Lead), elem("div").Class("act").Body(zeroPicture(z)),
		a.field("zero-distance", words.Distance(), string(kit.Unit), "", done),
		foot(a.button("main", words.GoOn(), done), a.button("quiet", words.Back(), func(app.Context) { delete(a.picked, "zero") }))}
}

// windowMarks is how many marks of the rule are drawn at a time.
const windowMarks = 5

// byRule is the rule on end: tap the highest mark that shows light.
func (a *App) byRule(r job.Record, course int, again, reread bool) []app.UI {
	kit := r.Kit
	if _, started := a.picked["lit"]; !started {
		a.picked["lit"] = r.LikelyMark(course, again)
		a.picked["first"] = max(0, a.picked["lit"]-1)
	}
	lit, first := a.picked["lit"], a.picked["first"]
	move := func(by int) func(app.Context) {
		return func(app.Context) {
			a.picked["lit"] = max(0, min(kit.HighestMark(), a.picked["lit"]+by))
			a.picked["first"] = kit.Window(a.picked["lit"], a.picked["first"], windowMarks)
		}
	}
	labels := make([]string, windowMarks)
	for i := range labels {
		labels[i] = words.MarkLabel(kit.Mark(first + i))
	}
	scene := draw.RuleReading(draw.Reading{
		Title: words.RulePicture(), Desc: words.RulePictureText(kit.Mark(lit), kit.Mark(lit+1)),
		First: first, Marks: labels, Lit: lit, End: ruleEnd(kit.Zero), Fret: words.Number(r.Instrument.ReadFret()), LeftHanded: r.Instrument.LeftHanded, Light: words.LightHere(), NoLight: words.NoLightHere(),
	})
	body := []app.UI{title(words.ReadTitle(r.Instrument, course, again)), lead(words.ReadLead(r.Instrument))}
	switch {
	case a.staleNow(r, again):
		body = append(body, notice("caution", words.TooOld()))
	case reread && r.Method != job.QuickCheck:
		body[1] = lead(words.ReadTwice())
	}
	body = append(body, a.trouble(),
		elem("div").Class("reading").Body(
			a.moving(scene, func(mark int) {
				a.picked["lit"] = min(mark, kit.HighestMark())
				a.picked["first"] = kit.Window(mark, first, windowMarks)
			}),
		))
	take := func(replaces bool) func(app.Context) {
		return func(app.Context) {
			reading := job.ReadByMarks(kit, r.Instrument, course, a.picked["lit"])
			reading.Replaces = replaces
			a.tell(reading)
		}
	}
	down := a.button("step-button", "−", move(-1)).Aria("label", words.OneMarkDown())
	up := a.button("step-button", "+", move(1)).Aria("label", words.OneMarkUp())
	label := words.MarkSeen(kit.Mark(lit), kit.Mark(lit+1))
	if r.AtAsSet(course, lit) {
		label = words.SameMarks(kit.Mark(lit), kit.Mark(lit+1))
	}
	return append(body, a.takeFoot(r, course, again, reread, label, take, down, up),
		elem("div").Class("menu").Body(a.belowRule(kit), a.button("quiet", words.OtherWays(), func(app.Context) { a.picked["way"] = 1 })),
		a.howToRead(r, again))
}

// belowRule is for a rule whose blank reaches above the string: it cannot be used there.
func (a *App) belowRule(kit job.Kit) app.UI {
	if kit.Zero != job.ZeroInside {
		return elem("div")
	}
	return a.button("quiet", words.NoMarkLight(), func(app.Context) {
		a.picked["way"] = 1
		a.problem[""] = a.reader().Error(geometry.ErrBelowRule)
	})
}

// takeFoot is the main button that takes a reading, between the two that move it by one mark where there are marks. A further reading of a
// string either confirms the first or corrects it; in a check it takes its place.
func (a *App) takeFoot(r job.Record, course int, again, reread bool, label string, take func(replaces bool) func(app.Context), steps ...app.UI) app.UI {
	stale := a.staleNow(r, again)
	replaces := reread && (stale || r.Method == job.QuickCheck)
	var others []app.UI
	if reread && !replaces {
		others = append(others, a.button("quiet", words.ReplaceIt(), take(true)))
	}
	if reread && !stale {
		others = append(others, a.button("quiet", words.Back(), func(app.Context) {
			delete(a.picked, "reread")
			delete(a.picked, "then")
			clear(a.problem)
		}))
	}
	main := app.UI(a.button("main", label, take(replaces)))
	if len(steps) == 2 {
		main = elem("div").Class("foot-line").Body(steps[0], main, steps[1])
	}
	return foot(main, others...)
}

// otherWay reads by caliper, feelers or cards, in the person's unit.
func (a *App) otherWay(r job.Record, course int, again, reread bool) []app.UI {
	ways := r.Kit.Ways()
	way := ways[min(max(0, a.picked["way"]-1), len(ways)-1)]
	unit := string(r.Kit.Unit)
	var chips []app.UI
	for i, w := range ways {
		chips = append(chips, a.chip("way", words.Way(w), w == way, func(app.Context) { a.picked["way"] = i + 1; clear(a.problem) }))
	}
	typed := func(id string) job.Typed { return job.Typed{Text: a.typed[id], Unit: r.Kit.Unit} }
	take := func(replaces bool) func(app.Context) {
		return func(app.Context) {
			reading := job.Read{String: course, Fret: r.Instrument.ReadFret(), Held: r.Instrument.Held, Way: way, Replaces: replaces}
			fields := []string{"value"}
			switch way {
			case job.ByFeeler:
				fields, reading.Low, reading.High = []string{"fits", "next"}, typed("fits"), typed("next")
			case job.ByCards:
				count, ok := wholeNumber(a.typed["cards"])
				if !ok {
					clear(a.problem)
					a.problem["cards"] = words.WholeNumber()
					return
				}
				fields, reading.Count, reading.TenThick = []string{"ten"}, count, typed("ten")
			case job.ByCaliper:
				reading.Low = typed("value")
			}
			if a.lengths(r.Kit.Unit, words.GapSize, fields...) {
				a.tellAt(fields[len(fields)-1], reading)
			}
		}
	}
	first, label := take(reread && r.Method == job.QuickCheck), a.asSetFields(r, course, way)
	var fields []app.UI
	switch way {
	case job.ByFeeler:
		fields = []app.UI{a.field("fits", words.FitsLabel(), unit, "next", nil), a.field("next", words.NextLabel(), unit, "", first)}
	case job.ByCards:
		fields = []app.UI{a.field("cards", words.CardsLabel(), "", "ten", nil), a.field("ten", words.TenCardsLabel(), unit, "", first)}
	case job.ByCaliper:
		fields = []app.UI{a.field("value", words.ValueLabel(), unit, "", first)}
	}
	body := []app.UI{title(words.ReadTitle(r.Instrument, course, again)),
		elem("div").Class("chips").Role("group").Aria("label", words.OtherWays()).Body(chips...), lead(words.WayLead(way)), a.trouble(),
		elem("div").Class("fields").Body(fields...), a.takeFoot(r, course, again, reread, label, take)}
	if r.Kit.RuleStep() > 0 {
		body = append(body, elem("div").Class("menu").Body(a.button("quiet", words.UseTheRule(), func(app.Context) { delete(a.picked, "way"); clear(a.problem) })))
	}
	return append(body, a.howToRead(r, again))
}

// howToRead is what stands behind every reading of a height.
func (a *App) howToRead(r job.Record, again bool) app.UI {
	step := job.Measure
	if again {
		step = job.MeasureAgain
	}
	return a.how(words.StepHow(r.Method, step), words.ReadMore(), words.ReadLead(r.Instrument))
}

// chip is one of a few small choices in a row.
func (a *App) chip(group, label string, chosen bool, do func(app.Context)) app.UI {
	class := "chip"
	if chosen {
		class += " chosen"
	}
	return app.Button().Type("button").Class(class).Aria("pressed", pressed(chosen)).Text(label).Attr(tapMark, a.tap(do))
}

func pressed(on bool) string {
	if on {
		return "true"
	}
	return "false"
}

// review shows what was read, and asks whether the strings stay: the answer goes on.
func (a *App) review(r job.Record) []app.UI {
	answers := a.stringsAnswers(r)
	stop, _ := r.Answer(job.AskStrings)
	body := []app.UI{title(words.MeasuredTitle()),
		elem("div").Class("rows").Body(a.readingRow(r, 0), a.readingRow(r, r.Instrument.Last())), a.trouble()}
	q := words.Question(job.AskStrings, r.Kit)
	var why []string
	if taken := r.Readings(0, false); len(taken) > 0 && taken[0].Read.End.LengthOr(0) > 0 && !taken[0].Read.EndCut {
		why = append(why, a.reader().BlankCounted(taken[0].Read.End))
	}
	crown, out := a.crown(r)
	if job.AskStrings.Stops(stop) { // one notice at a time: these readings end nothing, however wide they are
		name, _, _ := words.Stop(job.AskStrings, stop)
		body = append(body, notice("stop", name))
	} else if out {
		body, why = append(body, notice("caution", crown)), append(why, words.CrownMore())
	} else if r.TooWide(0, false) || r.TooWide(r.Instrument.Last(), false) {
		body = append(body, notice("note", words.TooWide()))
	}
	return append(body, elem("h2").Text(q.Title), elem("div").Class("choices tight").Body(answers...), a.neckRows(r), a.how(words.QuestionHow(r.Method, job.AskStrings), why, q.Title))
}

func (a *App) stringsAnswers(job.Record) []app.UI {
	var answers []app.UI
	for _, answer := range job.AskStrings.Answers() {
		answers = append(answers, a.choice(app.Text(""), words.Answer(job.AskStrings, answer), "", false, func(app.Context) {
			facts := []job.Fact{job.Answered{Question: job.AskStrings, Answer: answer}}
			if !job.AskStrings.Stops(answer) {
				facts = append(facts, job.Did{Step: job.Measure})
			}
			a.tell(facts...)
		}))
	}
	return answers
}

// said is what a string's standing readings tell: one as it was read, several as what they allow together.
func (a *App) said(r job.Record, course int, again bool) string {
	if taken := r.Readings(course, again); len(taken) == 1 {
		return a.reader().Reading(taken[0].Read)
	}
	return a.reader().Span(r.Standing(course, again))
}

// readingRow is what was read of a string before the work, with a way to read it again.
func (a *App) readingRow(r job.Record, course int) app.UI {
	name := words.CourseTitle(r.Instrument, course)
	return elem("div").Class("row").Body(
		elem("span").Class("row-name").Text(name),
		elem("span").Class("row-value").Text(a.said(r, course, false)),
		a.button("quiet small", words.ReadAgain(), func(app.Context) { a.picked["reread"] = course + 1 }).Aria("label", words.ReadAgain()+": "+name))
}

// short is every reading on one page: type the lit mark, Enter moves on.
func (a *App) short(r job.Record, again bool) []app.UI {
	last := r.Instrument.Last()
	id := func(course int) string { return "read-" + words.Number(course) }
	done := func(app.Context) {
		clear(a.problem)
		var facts []job.Fact
		for course := range r.Instrument.Kind().Courses {
			text := a.typed[id(course)]
			if text == "" && (len(r.Readings(course, again)) > 0 || course != 0 && course != last) {
				continue
			}
			n, err := r.Kit.MarkAt(text)
			if err != nil {
				a.problem[id(course)] = a.reader().MarkError(err, r.Kit)
				continue
			}
			reading := job.ReadByMarks(r.Kit, r.Instrument, course, n)
			reading.Replaces = len(r.Readings(course, again)) > 0
			facts = append(facts, reading)
		}
		if len(a.problem) > 0 {
			return
		}
		if !again {
			if answer, ok := r.Answer(job.AskStrings); !ok || job.AskStrings.Stops(answer) {
				facts = append(facts, job.Answered{Question: job.AskStrings, Answer: job.StringsStay})
			}
			facts = append(facts, job.Did{Step: job.Measure})
		}
		a.tell(facts...)
	}
	field := func(course, next int) app.UI {
		to := ""
		if next >= 0 {
			to = id(next)
		}
		return a.field(id(course), words.CourseTitle(r.Instrument, course)+", "+words.LitMark(), words.MarkUnit(r.Kit), to, done)
	}
	var between []app.UI
	for course := 1; course < last; course++ {
		between = append(between, field(course, course+1))
	}
	body := []app.UI{title(words.ShortTitle(r.Instrument, again)), lead(words.ShortFormLead()), a.trouble(),
		elem("div").Class("fields").Body(field(0, last), field(last, -1)), fold(words.BetweenStrings(), between...)}
	main := words.TakeReadings()
	if !again {
		main = words.TakeAndStay()
	}
	return append(body, foot(a.button("main", main, done), a.button("quiet", words.OneByOne(), func(app.Context) { a.slowly = a.id })),
		a.howToRead(r, again))
}

// verdict compares the new readings with what was expected and asks what to make of them.
func (a *App) verdict(r job.Record) (string, []app.UI) {
	reader := a.reader()
	compared := r.Compare()
	judge := func(o job.Outcome) func(app.Context) { return func(app.Context) { a.tell(job.Judged{Outcome: o}) } }
	if r.Current().Outcome == job.TooMuch {
		return "shim", a.shim(r)
	}
	var rows, expected, between []app.UI
	for _, c := range compared {
		to := &rows
		if c.Course > 0 && c.Course < r.Instrument.Last() {
			to = &between
		}
		*to = append(*to, elem("div").Class("row verdict-"+verdictClass(c.Verdict)).Body(
			elem("span").Class("row-name").Text(words.CourseTitle(r.Instrument, c.Course)),
			elem("span").Class("row-value").Text(a.said(r, c.Course, true)),
			elem("span").Class("row-note").Text(reader.WantedHeight(c.Target)+", "+words.Verdict(c.Verdict)),
			a.button("quiet small", words.ReadAgain(), func(app.Context) { a.picked["reread"] = c.Course + 1 }).Aria("label", words.ReadAgain()+": "+words.CourseTitle(r.Instrument, c.Course)),
		))
		expected = append(expected, elem("p").Text(reader.ComparedMore(r.Instrument, c)))
	}
	if decides, ok := job.Decides(compared); ok { // a string between the outer two says what neither of these does
		rows = append(rows, elem("div").Class("row verdict-"+verdictClass(decides.Verdict)).Body(elem("span").Class("row-name").Text(words.CourseTitle(r.Instrument, decides.Course)),
			elem("span").Class("row-note").Text(words.Verdict(decides.Verdict))))
	}
	if len(between) > 0 {
		expected = append([]app.UI{elem("div").Class("rows").Body(between...)}, expected...)
	}
	keep := words.KeepButton(r.Method, compared)
	buttons := map[job.Outcome]app.UI{
		job.Done:    a.button("quiet", words.DoneButton(), judge(job.Done)),
		job.Again:   a.button("quiet", words.AgainButton(), judge(job.Again)),
		job.TooMuch: a.button("quiet", words.TooMuchButton(), judge(job.TooMuch)),
		job.Keep:    a.button("quiet", keep, judge(job.Keep)),
	}
	labels := map[job.Outcome]string{job.Done: words.DoneButton(), job.Again: words.AgainButton(), job.TooMuch: words.TooMuchButton(), job.Keep: keep}
	best := r.Likely()
	offered := func(but job.Outcome) (others []app.UI) {
		for _, o := range []job.Outcome{job.Again, job.Keep, job.TooMuch} {
			if o != but && r.Offers(o) && !(o == job.Keep && but == job.Done) { // Done keeps it as well, and says more
				others = append(others, buttons[o])
			}
		}
		return others
	}
	if c, odd := job.DoesNotFit(compared); odd {
		again := a.button("main", words.ReadAgain(), func(app.Context) { a.picked["reread"] = c.Course + 1 })
		return "odd", []app.UI{title(words.DoesNotFit()), lead(reader.Expected(r.Instrument, c)), a.trouble(), elem("div").Class("rows").Body(rows...),
			foot(again, offered("")...), fold(words.Numbers(), expected...)}
	}
	return "verdict", []app.UI{title(words.VerdictTitle(compared)), lead(words.PlayOrSand(r.Method, compared)), a.trouble(), elem("div").Class("rows").Body(rows...),
		foot(a.button("main", labels[best], judge(best)), offered(best)...), a.roomNow(r), fold(words.Numbers(), expected...)}
}

func verdictClass(v geometry.Verdict) string {
	switch v {
	case geometry.Reached:
		return "reached"
	case geometry.StillHigh:
		return "high"
	case geometry.TooLow:
		return "low"
	}
	return "unclear"
}

// shim says how to put height back for now.
func (a *App) shim(r job.Record) []app.UI {
	q := a.reader().ShimAsk(r.Missing(), r.MuchMissing())
	how := lead(q.Lead)
	if r.MuchMissing() {
		how = notice("stop", q.Lead)
	} else if pile, ok := r.Kit.Pile(r.Missing().High); ok {
		how = lead(q.Lead + " " + a.reader().ToHand(r.Kit, pile))
		a.laid(r.Kit.LaidAs(pile.Thickness.High, pile.Thickness.High))
	}
	return append(append([]app.UI{title(q.Title), how, a.trouble()}, a.stripIn(r.Kit.Unit, words.ShimAt, words.Shimmed(),
		a.keepIt("quiet"))...), a.more(words.More(), q.More))
}
