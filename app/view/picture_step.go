package view

import (
	"slices"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"gapwright/app/draw"
	"gapwright/app/job"
	"gapwright/app/words"
	"gapwright/geometry"
)

// Every screen of a step has a picture. Some draw their own, which is what they are about: the rule, the heights to choose, the cut. For all others it
// stands here, made from the instrument and the numbers of the job, and comes right after the sentence that it explains.

// ownPicture lists the screens that draw their own, by how their keys begin.
var ownPicture = map[job.Step]string{
	job.Diagnose: "survey-", job.Choose: "choose", job.MakePlan: "plan strip-go rechoose blank", job.Mark: "mark-", job.MakeSaddle: "card drawing",
	job.FixNut: "survey-", job.FixRelief: "survey-", job.Smooth: "smooth", job.Measure: "survey-", job.MeasureAgain: "survey-",
}

// is tells whether a screen's key begins with one of the words.
func is(key, words string) bool {
	for _, w := range strings.Fields(words) {
		if strings.HasPrefix(key, w) {
			return true
		}
	}
	return false
}

// pictured puts a step's picture behind the title and the sentence under it.
func (a *App) pictured(r job.Record, step job.Step, key string, body []app.UI) []app.UI {
	scene, ok := a.stepScene(r, step, key)
	if !ok || len(body) < 2 {
		return body
	}
	return append(append(append(make([]app.UI, 0, len(body)+1), body[:2]...), elem("div").Class("act").Body(picture(scene))), body[2:]...)
}

// stepScene is the picture of a step's screen, known by its key; ok is false for a screen that draws its own, or that is numbers to be read from afar.
func (a *App) stepScene(r job.Record, step job.Step, key string) (s draw.Scene, ok bool) {
	if is(key, ownPicture[step]) || is(key, "big") {
		return s, false
	}
	i, reader := r.Instrument, a.reader()
	left, fret := i.LeftHanded, words.Number(i.ReadFret())
	act := func(act draw.Act, labels ...string) (draw.Scene, bool) {
		return draw.ActPicture(act, left, words.ActTitle(string(act)), "", labels...), true
	}
	across := func(c draw.Across) (draw.Scene, bool) {
		c.Strings, c.LeftHanded = i.Kind().Courses, left
		return draw.AcrossPicture(c), true
	}
	turned := draw.ScrewKey // what is turned here
	if r.Method == job.ByPosts {
		turned = draw.PostWheel
	}
	if answer, stops := strings.CutPrefix(key, "stop-"); stops {
		q, _ := r.Method.Asks(step)
		switch q {
		case job.AskRoom:
			air := draw.AirDamp
			if job.Answer(answer) == job.RoomDry {
				air = draw.AirDry
			}
			return act(air, append(words.AirLabels(), words.NowIs())...)
		case job.AskBuzz:
			return act(draw.PlayEvery, words.PlayLabel(), words.NotToScale())
		}
		if answer == string(job.SeatUnsure) && q == job.AskSeat {
			return act(draw.Checks, words.CheckLabels()...)
		}
		return draw.ThingPicture(thing(r.Method, q, job.Answer(answer)), words.Answer(q, job.Answer(answer)), ""), true
	}
	switch way := a.wayOf(r); {
	case step != job.MakePlan && step != job.Measure && step != job.MeasureAgain || !is(key, "finer") && !strings.HasSuffix(key, "-way"):
	case way == job.ByCaliper:
		return act(draw.GapCaliper, fret, words.RodLabel(), words.NotToScale())
	default:
		return act(draw.GapLeaf, fret, words.LeafLabel(), words.NotToScale())
	}
	switch step {
	case job.BeforeYouStart:
		switch q, _ := r.Method.Asks(step); q {
		case job.AskScrews:
			return a.turnsScene(r, words.Sided(), nil)
		case job.AskNut:
			return across(draw.Across{Title: words.NutPicture(), On: draw.OnNut, Ends: words.Sided()})
		case job.AskRod:
			return a.bow(r, geometry.PartFound{}, false, 0, words.RodLook())
		}
		return across(draw.Across{Title: words.BridgePicture(), Ends: words.Sided(), Note: words.SlotInBridge()})
	case job.Measure, job.MeasureAgain:
		switch {
		case is(key, "rule zero short"):
			return act(draw.StandRule, fret, words.EyeHere(), words.NotToScale())
		case is(key, "listen"):
			return act(draw.PlayEvery, words.StopValue(a.picked["listen-at"]), words.NotToScale())
		case key == "across":
			return act(draw.AcrossBoard, words.AcrossLabels()[:1]...)
		case key == "review":
			return a.bars(r, "", nil)
		case key == "shim":
			return act(draw.LayStrip)
		case is(key, "verdict odd"):
			return a.wanted(r)
		}
	case job.Diagnose:
		if f, _ := r.NeckOut(); f.Part == geometry.PartRelief {
			return a.bow(r, f, true, job.FirstTurn(f), "")
		}
		return act(draw.FirstGap, words.LeafLabel(), words.NotToScale())
	case job.Choose:
		return act(draw.PlayEvery, words.PlayLabel(), words.NotToScale())
	case job.MakePlan:
		switch {
		case key == "ask":
			return act(draw.Air, words.AirLabels()...)
		case is(key, "stand old-over"):
			return act(draw.StandUp, words.StandLabels()...)
		case is(key, "strip-too-shallow"):
			return act(draw.SlotFull)
		case key == "no-cut":
			if plan, err := r.Plan(); err == nil && plan.Outcome == job.PlanTooLow {
				return draw.ThingPicture(draw.SaddleLow, words.Answer(job.AskSaddle, job.SaddleLow), ""), true
			}
		case is(key, "strips"):
			return act(draw.LayStrip)
		case key == "slot":
			return act(draw.SlotAbove, words.SlotLabels()...)
		case key == "across":
			return act(draw.AcrossBoard, words.AcrossLabels()...)
		case is(key, "old-all not-ready no-plan"):
			return act(draw.WholeSaddle, words.HeightLabels()...)
		case is(key, "thread tried untold"):
			return act(turned, words.OneTurn()...)
		case key == "trial":
			return act(turned, words.TrialTurn(a.picked["trial"])...)
		case key == "turns":
			if plan, err := r.TurnPlan(); err == nil {
				return a.turnsScene(r, [2]string{}, plan.Turns)
			}
		}
		return a.wanted(r)
	case job.TakeOut:
		return act(draw.TakeOut)
	case job.Lay:
		if key == "slot" {
			return act(draw.SlotDeep, words.DepthLabel())
		}
		plan, err := r.StripPlan()
		lay := draw.LayStrip
		if plan.Laying.Strip.Leaves > 0 {
			lay = draw.LayStepped
		}
		if err != nil || !plan.Known {
			return act(lay)
		}
		ends := []string{reader.Under(0, plan.Thick[0]), reader.Under(1, plan.Thick[1])}
		short := i.Sides()[1] == int(plan.Laying.Side)
		if short != left && lay == draw.LayStepped { // the short strip lies at the other end: so do the numbers
			ends[0], ends[1] = ends[1], ends[0]
		}
		if lay == draw.LayStrip {
			short = left
		}
		return draw.ActPicture(lay, short, words.ActTitle(string(lay)), "", ends...), true
	case job.MakeSaddle:
		if key == "strip" {
			return act(draw.LayStrip)
		}
		m, err := r.Making()
		hand, made := geometry.BlankPolish, r.Current().Made // the part in hand
		for _, part := range slices.Backward(geometry.BlankSteps()) {
			if !slices.Contains(made, part) {
				hand = part
			}
		}
		if key == "make" && err == nil && hand != geometry.BlankHeight {
			var size []string
			switch {
			case hand == geometry.BlankThickness && m.Fits:
				size = []string{reader.Up(m.Thickness.High)}
			case hand == geometry.BlankLength && m.Sized:
				size = []string{reader.Down(m.Length.High)}
			}
			return act(draw.Act("make-"+string(hand)), size...)
		}
		labels := words.HeightLabels()
		if err == nil && m.Whole && m.Ready() {
			labels = []string{reader.Up(m.Strings[0].Stop), reader.Up(m.Strings[i.Last()].Stop)}
		}
		return act(draw.WholeSaddle, labels...)
	case job.Turn:
		if key == "ask" {
			return act(turned, words.HalfTurn()...)
		}
		if plan, err := r.TurnPlan(); err == nil {
			turns := append([]int(nil), plan.Turns...)
			for n := range turns {
				turns[n] += a.picked["turn-"+words.Number(n)]
			}
			return a.turnsScene(r, [2]string{}, turns, plan.Order...)
		}
		return a.turnsScene(r, words.Sided(), nil)
	case job.FixNut:
		slots := r.NutSlots()
		c := draw.Across{Title: words.NutPicture(), Desc: words.SlotsText(i, slots), On: draw.OnNut, At: a.picked["nut"]}
		for _, s := range slots {
			c.Over = append(c.Over, slotSign(s.State))
			c.Slots = append(c.Slots, slotDrawn(s.State))
			if s.State != job.SlotUnread {
				c.Note = words.SlotLine()
			}
		}
		return across(c)
	case job.FixRelief:
		found, read := r.ReliefFound()
		n := 0
		if r.CanTurn() && r.Ended == "" && step == job.FixRelief {
			if n = r.TurnAdvised(now()); a.picked["eighths"] != 0 {
				n = a.picked["eighths"]
			}
		}
		return a.bow(r, found, read, n, "")
	case job.Mark:
		if key == "strip" {
			return act(draw.LayStrip)
		}
		return act(draw.MarkSides, words.MarkLabels()...)
	case job.Sand:
		if key == "there" {
			return act(draw.Checks, words.CheckLabels()...)
		}
		switch coach, _ := r.Coach(); coach.Verdict {
		case geometry.FavourBass:
			return act(draw.SandPress, words.PressMore(0))
		case geometry.FavourTreble:
			return draw.ActPicture(draw.SandPress, !left, words.ActTitle(string(draw.SandPress)), "", words.PressMore(1)), true
		case geometry.Hollow:
			return act(draw.SandBends, words.BendLabels()...)
		case geometry.Rounded:
			return act(draw.SandRocks, words.RockLabels()...)
		}
		return act(draw.SandLow, words.SandLabels()...)
	case job.Seat:
		return act(draw.SeatTest)
	case job.StringUp:
		order := words.Ordered(draw.OuterFirst(i.Kind().Courses))
		return across(draw.Across{Title: words.OrderPicture(), Desc: words.OrderText(order), Over: order, Ends: words.Sided(), Note: words.OrderNote()})
	case job.Save, job.Finished:
		switch r.Method {
		case job.NutSlots:
			return a.stepScene(r, job.FixNut, "slots")
		case job.SetRelief:
			found, read := r.ReliefFound()
			return a.bow(r, found, read, 0, "")
		}
		if len(r.Final()) == 0 { // nothing was read
			return across(draw.Across{Title: words.BridgePicture(), Ends: words.Sided()})
		}
		before := [2]geometry.Interval{}
		for _, c := range r.Final() {
			if c.Course == 0 {
				before[0] = c.Before
			} else if c.Course == i.Last() {
				before[1] = c.Before
			}
		}
		return a.bars(r, words.BeforeBars(), &before)
	}
	return s, false
}

// still is a small picture for a place that is no step.
func still(a draw.Act) app.UI {
	return elem("div").Class("act").Body(picture(draw.ActPicture(a, false, words.ActTitle(string(a)), "")))
}

// lookKey asks how the line looks, and shows the three looks over the columns in which they are tapped.
func lookKey() app.UI {
	row := []app.UI{elem("h2").Text(words.LookQuestion())}
	for look := draw.LineClear; look <= draw.LineGone; look++ {
		row = append(row, picture(draw.LineLook(look, draw.MidSaddle, "", "")))
	}
	return elem("div").Class("look-key").Body(row...)
}

// wayOf is how a string is read where no rule is used.
func (a *App) wayOf(r job.Record) job.Way {
	ways := r.Kit.Ways()
	return ways[min(max(0, a.picked["way"]-1), len(ways)-1)]
}

// slotDrawn is how a slot is drawn by what was read of it.
func slotDrawn(s job.SlotState) draw.Slot {
	switch s {
	case job.SlotHigh:
		return draw.SlotHigh
	case job.SlotLow:
		return draw.SlotLow
	case job.SlotThere:
		return draw.SlotThere
	}
	return draw.SlotNotKnown
}

// turnsScene is what turns at the bridge, with the turns of each where they are known, and the order in which the strings' screws are turned.
func (a *App) turnsScene(r job.Record, ends [2]string, turns []int, order ...int) (draw.Scene, bool) {
	c := draw.Across{Title: words.ScrewsPicture(), On: draw.OnScrews, Strings: r.Instrument.Kind().Courses, LeftHanded: r.Instrument.LeftHanded, Ends: ends, Moves: turns}
	if r.Method == job.ByPosts {
		c.Title, c.On = words.PostsPicture(), draw.OnPosts
	} else if turns != nil {
		c.Heads[0] = words.TurnHeads()[0]
	}
	if r.Method != job.ByPosts && len(order) > 0 {
		places, place := make([]int, len(turns)), 0
		for _, n := range order {
			if turns[n] != 0 {
				place++
				places[n] = place
			}
		}
		c.Under, c.Heads = words.Ordered(places), words.TurnHeads()
	}
	for _, n := range turns {
		if c.On == draw.OnPosts {
			c.Over = append(c.Over, words.TurnsLong(n))
		} else {
			c.Over = append(c.Over, words.TurnShort(n))
		}
	}
	if turns != nil {
		c.Desc = words.TurnsText(r.Instrument, r.Method, turns)
	}
	return draw.AcrossPicture(c), true
}

// bow is the neck as its relief was read, and which way its rod is turned, if it is; look is said of its nut where that is only looked for.
func (a *App) bow(r job.Record, found geometry.PartFound, read bool, turn int, look string) (draw.Scene, bool) {
	s := r.Instrument.Survey(job.Place{Feature: job.Relief})
	b := draw.Bow{Title: words.BowPicture(), Length: float64(r.Instrument.ScaleLength()), From: s.Held, To: s.To, Known: read, Rod: r.CanTurn() || look != "", Turn: turn,
		LookLabel: look, Exaggerated: words.NotToScale(), LeftHanded: r.Instrument.LeftHanded}
	if turn != 0 {
		b.TurnLabel = words.OnMost(turn)
	}
	if read {
		b.Relief, b.Label = float64(found.Read.Middle()), a.reader().Bow(found.Read)
		if found.Read.High > 0 { // where not even the thinnest leaf fits, nothing says that it is bent back
			b.Relief = max(b.Relief, 0)
		}
		b.Exaggerated = words.Taller(draw.BowTimes(b))
	}
	b.Desc = words.BowText(b.Label, turn, b.Exaggerated)
	return draw.BowPicture(b), true
}

// wanted is how both outer strings stand to what is wanted.
func (a *App) wanted(r job.Record) (draw.Scene, bool) {
	wish, ok := r.Present()
	if !ok {
		return a.bars(r, "", nil)
	}
	return a.bars(r, words.WantedBars(), &[2]geometry.Interval{geometry.Exactly(wish.Bass.LengthOr(0)), geometry.Exactly(wish.Treble.LengthOr(0))})
}

// bars draws how high both outer strings are, beside what they were or shall be.
func (a *App) bars(r job.Record, label string, was *[2]geometry.Interval) (draw.Scene, bool) {
	c := draw.Check{Title: words.HeightsPicture(), LeftHanded: r.Instrument.LeftHanded, WasLabel: label, IsLabel: words.NowIs()}
	for side, course := range []int{0, r.Instrument.Last()} {
		c.Names[side] = words.CourseTitle(r.Instrument, course)
		if c.Is[side] = r.Standing(course, true); c.Is[side].High == 0 {
			c.Is[side] = r.Standing(course, false)
		}
	}
	if was != nil {
		c.Was = *was
	}
	c.Desc = a.reader().BarsText(c.Names, label, c.Was, c.Is)
	c.Note = words.HeightsNote(draw.CheckBroken(c))
	return draw.CheckPicture(c), true
}
