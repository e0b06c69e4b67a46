package words

import (
	"gapwright/app/job"
	"gapwright/geometry"
)

// What raising by strips says.

// Thick says a strip's thickness as finely as a caliper shows it, rounded up: what is thinner would not do.
func (r Reader) Thick(l geometry.Length) string {
	return r.digits(l.RoundUp(r.fine()), r.fine()) + unit(r.UnitName())
}

func (r Reader) thicks(p job.StripPlan) string {
	if p.Thick[0] == p.Thick[1] {
		return r.Thick(p.Thick[0])
	}
	return r.Thick(p.Thick[0]) + " at bass, " + r.Thick(p.Thick[1]) + " at treble"
}

// StripsAsk asks what there is to lay.
func (r Reader) StripsAsk(p job.StripPlan) Ask {
	return Ask{Title: "What can go under it?", Lead: "Wanted: " + r.thicks(p) + ".", More: []string{
		"Hard and even: hardwood veneer, bone, brass shim, stiff card for a trial. Measure what you have with a caliper, cards ten together. How many may stay empty when there are enough.",
		"The app looks for the pile that is sure to be enough, and no more than it must be. Six leaves are the most: thick piles give under the strings.",
		"Up to four kinds; they are kept with your kit.",
	}}
}

func ThicknessLabel() string { return "Thickness" }
func HowManyLabel() string   { return "How many" }
func OfOne() string          { return "of one" }
func OfTen() string          { return "ten together" }
func AddStrip() string       { return "Add another kind" }
func FindPile() string       { return "Work out the pile" }
func OtherStrips() string    { return "Other strips" }
func DropStrip() string      { return "Remove" }

// StripCount says how many of a kind there are.
func StripCount(s job.Strip) string {
	if s.Count == 0 {
		return "Enough"
	}
	return plural(s.Count, "leaf", "leaves")
}

// StripThick says how thick a kind is, as it was typed.
func (r Reader) StripThick(s job.Strip) string {
	if s.Ten {
		return r.Typed(s.Thick) + ", " + OfTen()
	}
	return r.Typed(s.Thick)
}

// stripList says all that is to hand to lay, behind what else is; empty when nothing was said of it.
func (r Reader) stripList(k job.Kit) (text string) {
	for _, s := range k.Strips {
		if s != (job.Strip{}) {
			text += "; strips: " + r.StripThick(s)
		}
	}
	return text
}

func (r Reader) pile(k job.Kit, pile geometry.Pile) string {
	var all []string
	for _, s := range k.Piled(pile) {
		all = append(all, Number(s.Count)+"\u00a0×\u00a0"+r.Thick(s.Each()))
	}
	return listed(all...)
}

// ToHand says the pile of what is to hand that puts height back.
func (r Reader) ToHand(k job.Kit, pile geometry.Pile) string {
	return "To hand: " + r.pile(k, pile) + "."
}

// Pile says what is laid.
func (r Reader) Pile(p job.StripPlan, k job.Kit) string {
	switch {
	case !p.Known && k.Strips == [job.MostKinds]job.Strip{}:
		return "Find a hard, even strip that thick, or a little thicker."
	case !p.Known:
		return "Nothing to hand makes that. Find a strip that thick, or a little thicker."
	case p.Laying.Strip.Leaves == 0:
		return r.pile(k, p.Laying.Even) + ", right across."
	}
	return r.pile(k, p.Laying.Even) + " right across. On it " + r.pile(k, p.Laying.Strip) + ", a third as long, " + Side(int(p.Laying.Side)) + "."
}

// StripPlanTitle heads the plan.
func StripPlanTitle(o job.StripOutcome) string {
	switch o {
	case job.StripGo:
		return "Lay under the saddle"
	case job.StripThere:
		return "Nothing to raise"
	case job.StripCannotTell:
		return PlanTitle(job.PlanCannotTell, 1)
	case job.StripTooMuch:
		return "Better a new saddle"
	case job.StripTooShallow:
		return "Stop: too little left in the slot"
	}
	return ""
}

// StripLead says what the plan means.
func (r Reader) StripLead(p job.StripPlan, kit job.Kit) string {
	switch p.Outcome {
	case job.StripGo:
		return r.Pile(p, kit)
	case job.StripThere:
		return "No string is under its wanted height, as far as these readings go. Strips only raise."
	case job.StripCannotTell:
		return "The wanted heights may be there already. Read more finely before anything goes in: " + finerMeans(kit) + "."
	case job.StripTooMuch:
		return "Up to " + r.Thick(max(p.Thick[0], p.Thick[1])) + " is missing: too much for a strip. " + newSaddle
	case job.StripTooShallow:
		return "It could split the bridge. " + newSaddle
	}
	return ""
}

const newSaddle = "It takes a new saddle: another job, or a qualified repairer."

// Then says where the strings will be.
func (r Reader) Then(p job.StripPlan) string {
	return "Then " + r.sides(r.Span(p.Strings[0].After), r.Span(p.Strings[len(p.Strings)-1].After))
}

// MayLean warns of a saddle of which more stands up than sits in the slot.
func MayLean() string { return "Much stands up: it may lean." }

// StandsOn tells what the strips do to an end of the saddle.
func (r Reader) StandsOn(side int, on geometry.OnShim) string {
	text := "Saddle standing up, " + Side(side) + ": " + r.Span(on.Exposure)
	if on.Depth.High > 0 {
		text += "; in the slot: " + r.Span(on.Depth)
	}
	return text
}

// FollowPile is the main button of a plan that goes.
func FollowPile() string { return "I’ll lay this" }

// SeatDepthAsk asks how deep the slot is.
func SeatDepthAsk() Ask {
	return Ask{Title: "How deep is the slot?", Lead: "From the bridge’s top down to where the saddle stands.", More: []string{
		"What goes under the saddle lifts it out of the slot. With too little left in it the strings tip it forward, and that splits bridges.",
		"Leave an old strip in while you measure, if it stays in.",
	}}
}

func SeatDepthLabel() string { return "Slot’s depth" }

// LayAsk says how to lay it.
func (r Reader) LayAsk(p job.StripPlan, kit job.Kit) Ask {
	return Ask{Title: "Lay it in", Lead: r.Pile(p, kit) + " Flat, slot-wide, dry, no glue.", More: []string{
		"Over a pickup a strip may damp some strings more than others. A dead or weak one means that it does not lie flat. A new saddle cures that.",
		"A short strip lies on top, flush with one end of the saddle. The saddle then stands on its inner edge and on the far end. Better still is one strip sanded to a wedge.",
		"Nothing is glued: it must come out again.",
		"What went in is not known? Say so: then the new reading has nothing to be compared with.",
	}}
}

// LaidAt labels how thick the pile is at an end.
func LaidAt(side int) string {
	if side == 0 {
		return "Pile, bass"
	}
	return "Pile, treble"
}

// LayCaution warns of what lies under the saddle; empty where nothing does.
func LayCaution(a job.Answer) string {
	switch a {
	case job.UnderPickup, job.UnderUnsure:
		return "Over a pickup: only hard, thin, right across. Better a new saddle."
	case job.UnderShim:
		return "Lay it on a hard old strip. Instead of a soft one, add its thickness."
	}
	return ""
}

func LaidIn() string      { return "It is in" }
func NotMeasured() string { return "In, but not measured" }
