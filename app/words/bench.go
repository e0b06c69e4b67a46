package words

import (
	"time"

	"gapwright/app/job"
	"gapwright/app/store"
	"gapwright/geometry"
)

// The places' names.
func BenchName() string { return "Bench" }
func KitName() string   { return "Kit" }
func AboutName() string { return "About" }

// Opening is what stands on a page before the app itself runs.
func Opening() string { return "Opening your bench…" }

// FamilyQuestion is the first thing asked.
func FamilyQuestion() Ask {
	return Ask{Title: "What are you setting up?", Lead: "Choose the nearest. Nothing leaves this device."}
}

// SomethingElse is the last of its answers, with what it leads to.
func SomethingElse() string      { return "Other, or not sure" }
func SomethingElseTitle() string { return "None of these?" }
func SomethingElseText() string {
	return "The app knows no usual heights for it. Where strings run over frets, choose what has as many strings and is nearest in size. What is usual can be changed later."
}
func SomethingElseMore() []string {
	return []string{"The number of strings, or of pairs, counts first, then the length from nut to bridge. Scale, frets and spacing are typed in under About this instrument; which height is wanted is yours to say.",
		"If it has no frets, nothing here is meant for it. A qualified repairer knows its usual heights."}
}

// AddInstrument, Example and the other buttons of the Bench.
func AddInstrument() string   { return "Add an instrument" }
func TryExample() string      { return "A worked example" }
func ExampleName() string     { return "Example: the porch guitar" }
func RemoveExample() string   { return "Remove the example" }
func Remove() string          { return "Remove this instrument" }
func RemoveSure() string      { return "Remove it with all its jobs" }
func RemoveMore() string      { return "Its heights, its history and its open jobs go with it." }
func OpenJobs() string        { return "Under way" }
func Instruments() string     { return "Instruments" }
func AboutInstrument() string { return "About this instrument" }
func Keep() string            { return "Keep" }
func NothingHere() string     { return "Nothing is here" }
func NothingHereMore() string {
	return "This address names something that is not on this device. Go back to the Bench."
}
func NewerDocument() string {
	return "A newer version of the app wrote this. It is kept untouched; reload to get that version."
}
func LoadingJob() string { return "Fetching this job…" }

// JobLine tells where an open job stands.
func JobLine(r job.Record, step job.Step) string {
	if r.Method == job.QuickCheck {
		return CheckShort()
	}
	line := StepName(step)
	if len(r.Rounds) > 1 {
		line = Rounds(len(r.Rounds)) + ", " + line
	}
	return line
}

// AsSetLine tells a baseline.
func (r Reader) AsSetLine(i job.Instrument) string {
	if i.AsSet == nil {
		return "Not set yet"
	}
	bass, err := i.AsSet.Interval(0)
	treble, err2 := i.AsSet.Interval(i.Last())
	if err != nil || err2 != nil {
		return "As set on " + Day(i.AsSet.At) + moved(i)
	}
	return "As set " + Day(i.AsSet.At) + ": " + r.asSet(i, 0, bass) + " bass, " + r.asSet(i, i.Last(), treble) + " treble" + moved(i)
}

// asSet says a course's baseline: as it was read where it was read once.
func (r Reader) asSet(i job.Instrument, course int, all geometry.Interval) string {
	var reads []job.Read
	for _, read := range i.AsSet.Readings {
		if read.String == course {
			reads = append(reads, read)
		}
	}
	if len(reads) == 1 {
		return r.Reading(reads[0])
	}
	return r.Span(all)
}

// Mark says how safe what was entered is.
func Mark(s store.State) string {
	switch s.Mark {
	case store.Saved:
		return "Saved"
	case store.Saving:
		return "Saving…"
	}
	if s.Why == store.Conflict { // both are kept
		return "Two versions"
	}
	return "Not saved"
}

func TryAgain() string    { return "Try again" }
func GoOnUnsaved() string { return "Go on without" }
func SaveAFile() string   { return "Save everything to a file" }
func OpenInOther() string { return "Changed in another window; shown as it is now." }

// Offline says whether the app works without a network.
func Offline(state string) string {
	switch state {
	case "ready":
		return "Ready offline"
	case "cannot":
		return "Needs a network: this browser keeps no pages"
	}
	return "Storing for offline…"
}

// NewVersion offers a newer version; NewerWaits says where it is offered while jobs are under way.
func NewVersion() string     { return "A newer version is on this device." }
func NewVersionJobs() string { return "Jobs under way go on in it where they stand." }
func NewerWaits() string     { return "A newer version waits under About." }
func UseNewVersion() string  { return "Use it now" }

// The Kit.
func KitTitle() string       { return "What you have to hand" }
func KitLead() string        { return "Every instruction is worded for it." }
func RuleRow() string        { return "Rule" }
func ZeroRow() string        { return "Its zero" }
func Change() string         { return "Change" }
func HasCaliper() string     { return "A caliper" }
func HasFeelers() string     { return "Feelers or drill shanks" }
func HasCards() string       { return "A pack of equal cards" }
func GritLabel() string      { return "Sanding papers, as printed: P150 P240, or 150" }
func UnitLabel() string      { return "Unit" }
func Millimetres() string    { return "Millimetres" }
func Inches() string         { return "Inches" }
func ShortForm() string      { return "Short form: all readings on one page" }
func ShortFormLead() string  { return "Type the highest mark that shows light. Enter moves on." }
func TakeReadings() string   { return "Take these readings" }
func BetweenStrings() string { return "The strings between" }
func GritNumber() string     { return "Type the numbers as printed on the paper, such as P150 P240." }
func LitMark() string        { return "highest mark with light" }
func NotAMark(k job.Kit) string {
	return "Your rule has no mark there. The nearest are " + MarkLabel(k.Mark(1)) + ", " + MarkLabel(k.Mark(2)) + ", " + MarkLabel(k.Mark(3)) + " and so on."
}

// The instrument's own page.
func NameLabel() string    { return "What you call it" }
func FretLabel() string    { return "Read at fret" }
func HeldLabel() string    { return "Held down at fret (0: open)" }
func ScaleLabel() string   { return "Scale length" }
func TrebleLabel() string  { return "Treble side’s scale, if another" }
func SetbackLabel() string { return "Saddle setback" }
func SaddleLabel() string  { return "Saddle length" }
func SpreadLabel() string  { return "Outer strings apart, at the saddle" }
func LeftHanded() string   { return "Left-handed" }
func UsualHere() string    { return "Empty: what is usual for its kind." }
func HeldUsual() string {
	return "Wanted heights are for that fret, held like that; they are not open heights at fret 12."
}
func WholeNumber() string { return "Type a whole number, such as 12." }

// About.
func AboutTitle() string { return "About Gapwright" }
func AboutLines() []string {
	return []string{
		"It measures string height with you, and works out how much of the saddle may come off. It stays with you while you sand, and keeps the result. It works without a network, and nothing ever leaves this device.",
		"To keep it on a phone: open the browser’s menu and choose Add to Home screen. Pages that are not there may be cleared by the phone when they are not used for weeks.",
		"It plans for the worst case of what your tools can tell. It cannot see cracks, glue or a bad fret. When something looks wrong, stop and see a qualified repairer.",
	}
}

// When says when a job was worked on.
func When(at, now time.Time) string { return Age(now.Sub(at)) }
