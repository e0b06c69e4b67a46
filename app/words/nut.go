package words

import (
	"gapwright/app/job"
	"gapwright/geometry"
)

// What the slots of the nut and the rod of the neck ask and say.

// SlotsTitle heads the list of slots, SlotsLead says how it goes.
func SlotsTitle() string { return "The nut, slot by slot" }
func AllSlots() string   { return "All slots" }

// SlotSays says of a slot what its reading says.
func SlotSays(s job.SlotState) string {
	switch s {
	case job.SlotUnread:
		return "not read"
	case job.SlotAgain:
		return "filed: read again"
	case job.SlotHigh:
		return "high"
	case job.SlotThere:
		return "all right"
	case job.SlotLow:
		return "too low: do not file"
	case job.SlotUnclear:
		return "can’t tell"
	}
	return ""
}

// SlotTitle heads one slot.
func SlotTitle(i job.Instrument, s job.NutSlot) string {
	name := CourseTitle(i, s.Course)
	switch s.State {
	case job.SlotHigh:
		return name + ": file at most"
	case job.SlotThere:
		return name + ": leave it"
	case job.SlotLow:
		return name + ": stop"
	}
	return name + ": this cannot tell"
}

// SlotLead says what that means.
func (r Reader) SlotLead(s job.NutSlot) string {
	switch s.State {
	case job.SlotHigh:
		lead := "Fret 12 comes down by "
		if s.HalfWay {
			lead = "This is half. Fret 12 comes down by "
		}
		return lead + r.fineSpan(s.At12) + "."
	case job.SlotThere:
		return r.hundredth(s.Read) + " at fret 1. As wanted, or as near as a file gets."
	case job.SlotLow:
		return "Do not file this slot: " + r.hundredth(s.Read) + " is too low. A qualified repairer fills it, or fits another nut."
	}
	return "Read " + r.hundredth(s.Read) + ". Read again with thinner leaves, the string pressed."
}

// FileCaution stands where a slot is filed; where fret 12 would end too low it says that instead.
func FileCaution(under bool) string {
	if under {
		return "Fret 12 may end too low: raise the bridge first."
	}
	return "String aside, file tilted to the headstock. Dust: mask on."
}

// FileMore says more of filing.
func FileMore() []string {
	return []string{
		"Slacken the string and lay it beside its slot. The file must be as wide as the string: a wider slot rattles, a narrower one pinches.",
		"Tilt the file down to the headstock, so that the string rests on the slot’s front edge, right at the frets. A slot that is flat or tilted the other way buzzes.",
		"A few strokes at a time.",
		"Dust of bone, shell and plastics harms lungs: wear a mask that seals, and wipe up wet.",
		"Relief first: it moves the gap at fret 1 as well.",
	}
}

// SlotNumbers are the lines behind a slot's advice.
func (r Reader) SlotNumbers(s job.NutSlot) []string {
	lines := []string{"Read " + r.hundredth(s.Read) + ", " + FirstWay(s.Feature) + "; usual " + r.hundredth(s.Usual)}
	if s.State != job.SlotHigh {
		return lines
	}
	return append(lines, "In all "+r.fineSpan(s.Whole)+" deeper, over one or more filings",
		"After this one "+r.fineSpan(s.Leaves)+" at fret 1",
		"An open gap falls by about as much as the slot is filed, a pressed one by about half of that. So the two are never compared.")
}

// FirstWay names how the gap at fret 1 is read.
func FirstWay(f job.Feature) string {
	if f == job.FirstPressed {
		return "pressed"
	}
	return "open"
}

// FirstWayLabel names the row of the two.
func FirstWayLabel() string { return "How the string is read" }

// SlotFiled says that a slot is to be read again.
func SlotFiled() string { return "Filed. Tune up, then read again." }

// The controls of a slot.
func WantedFirst() string { return "Wanted, fret 1" }
func FiledIt() string     { return "Filed: read again" }
func SlotsDone() string   { return "The nut is done" }
func NextSlot(i job.Instrument, s job.NutSlot) string {
	if s.State == job.SlotHigh {
		if s.Course == 0 || s.Course == i.Last() {
			return "Deepen the " + Course(i, s.Course) + " slot"
		}
		return "Deepen the slot of " + Course(i, s.Course)
	}
	return "Read " + theString(i, s.Course)
}

// fineSpan is a range as finely as feelers tell it, widened so that nothing it allows is lost.
func (r Reader) fineSpan(i geometry.Interval) string { return r.hundredth(i.Outward(r.fine())) }

// Fine says a length as finely as feelers tell it.
func (r Reader) Fine(l geometry.Length) string { return r.hundredth(geometry.Exactly(l)) }

// PileTitle opens the pile that stops a file, and what it asks for.
func PileTitle() string { return "A pile as stop" }
func PileLead() string {
	return "Leaves on the board against the nut stop the file. Which is the thinnest pile there that lifts the string?"
}
func LiftsLabel() string  { return "Thinnest that lifts it" }
func PilePicture() string { return "Leaves lie on the board against the nut; the file rests on them" }
func PileWearing() string {
	return "A file wears what it rubs on: lay no good feelers, and press lightly."
}
func PressPicture() string { return "A string pressed behind fret 3, a feeler under it over fret 1" }
func PressLabel() string   { return "press" }
func PileLabel() string    { return "pile" }
func LeafLabel() string    { return "feeler or card" }

// PileStop says how thick the pile must be, and what of what is to hand makes it.
func (r Reader) PileStop(k job.Kit, p job.SlotPile) string {
	text := "Lay at least " + r.Fine(p.Need) + "."
	if p.Known {
		text += " " + r.ToHand(k, p.Pile)
	}
	return text
}

// ReliefTitle heads the relief as it was read.
func ReliefTitle(s geometry.Standing) string {
	switch s {
	case geometry.Above:
		return "Too much relief"
	case geometry.Below:
		return "Too little relief"
	case geometry.Usual:
		return "Relief is as usual"
	}
	return "Relief may be as usual"
}

// ReliefLead says what was read, and what setting it does.
func (r Reader) ReliefLead(f geometry.PartFound) string {
	if f.Standing == geometry.Above || f.Standing == geometry.Below {
		return r.DiagnoseLead(f)
	}
	return capital(r.signed(f.Read)) + "; usual " + r.Span(f.Usual) + "."
}

// Settle asks to wait before a neck is read again.
func Settle() string { return "Tune up, wait some minutes, tune again." }

// EighthsLabel labels the stepper of the rod, RodTurn says its value.
func EighthsLabel() string { return "Eighth-turns" }
func RodTurn(n int) string {
	switch {
	case n > 0:
		return Number(n) + " tighter"
	case n < 0:
		return Number(-n) + " looser"
	}
	return "none"
}
func Looser() string  { return "looser" }
func Tighter() string { return "tighter" }

// EnoughToday is said when no more may be turned.
func EnoughToday() string {
	return "Half a turn today: let the neck settle overnight."
}

// RodMissing says what can be done where nothing is turned.
func RodMissing(unsure bool) string {
	if unsure {
		return "Turn nothing until you know of a rod whose key fits."
	}
	return "No rod: a qualified repairer changes the bow. Here it is measured."
}
func RodFound() string { return "There is one, and the key fits" }
func KeepNeck() string { return "Good: keep it" }

// ToTwelve says what a change of the neck did at fret 12.
func (r Reader) ToTwelve(moved geometry.Interval) string {
	switch {
	case moved.High <= 0:
		return "Expect fret 12 lower by " + r.Span(moved.Times(-1)) + "."
	case moved.Low >= 0:
		return "Expect fret 12 higher by " + r.Span(moved) + "."
	}
	return "Fret 12 will hardly have moved."
}

// NeckRead says how a place of the neck reads now, for a row of the record.
func (r Reader) NeckRead(n job.NeckRead) string { return r.signed(n.Now) }

// NeckWas says how a place of the neck was read before, for a row of the record.
func (r Reader) NeckWas(n job.NeckRead) string {
	text := ""
	if n.Feature != job.Relief {
		text = "string " + FirstWay(n.Feature)
	}
	if !n.Changed {
		return text
	}
	if text != "" {
		text += ", "
	}
	return text + "was " + r.signed(n.Was)
}

// NeckSaved says what is kept of a job on the neck, before and after it is; still says that it reads as before.
func NeckSaved(moved, still bool) string {
	switch {
	case still:
		return "The relief reads as before. Fret 12 will hardly have moved. To be sure: “" + CheckName() + "” on its page."
	case moved:
		return "Fret 12 moved with it: “" + CheckName() + "” on its page."
	}
	return "Nothing was changed; the readings are kept."
}

// moved says of an as-set height that the neck was changed since.
func moved(i job.Instrument) string {
	if i.AsSet.Moved {
		return ", before the neck was changed"
	}
	return ""
}
