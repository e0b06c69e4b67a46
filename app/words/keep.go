package words

import (
	"encoding/json"

	"gapwright/app/job"
	"gapwright/app/store"
)

// What is said of how safe everything is, and of what the store set aside.

// Unsaved says what to do about what is not saved, in which local storage may have it all the same.
func Unsaved(s store.State) string {
	switch s.Why {
	case store.Full:
		return "No room is left on this device. Keep this page open, free some room, then try again; or save a file."
	case store.Blocked:
		if s.Local {
			return "This browser keeps it only loosely: a crash may lose it. Save a file before you leave, or use an ordinary, up-to-date window."
		}
		return "This browser lets the app keep nothing. Perhaps the window is private. Save a file before you close it, or use an ordinary window."
	case store.Conflict:
		return "Another window changed the same thing. Both are kept; say which holds."
	case store.NoAnswer:
		return "The device does not answer. Keep this page open and try again; if that does not help, save a file."
	}
	return "It could not be kept. Keep this page open and try again, or save a file."
}

// SeeWhy is what a tap on the mark leads to.
func SeeWhy() string { return "see why" }

// KeepsNothing says, before anything is entered, that the browser forbids the app to keep it.
func KeepsNothing() string { return "This browser lets the app keep nothing." }
func KeepsLoosely() string { return "This browser may lose what you enter." }
func KeepsHow() string     { return "What to do" }
func KeepsMore() []string {
	return []string{"A private window, a setting against sites that store, or an old browser may be why. Open the app in an ordinary, up-to-date window.",
		"All of it works here too, as long as the page stays open. Save a backup before you close it."}
}

// KeepNotice tells once that a site that is not used may be cleared.
func KeepNotice() string {
	return "Your records are on this device alone. Phones may clear sites that nobody used for weeks, unless they are on the home screen."
}
func KeepHow() string { return "How to keep them" }
func KeepMore() []string {
	return []string{
		"Open the browser’s menu, or Share on some phones, and choose Add to Home screen or Install.",
		"Save a backup now and then, and keep the file somewhere else.",
		"A private window forgets all when you close it.",
	}
}
func Understood() string { return "Understood" }

// What was set aside, and what parted.
func SetAside(n int) string {
	return plural(n, "stored text", "stored texts") + " could not be read and " + isAre(n) + " kept aside. Nothing was written over."
}
func PartedLine(n int) string {
	return plural(n, "thing was", "things were") + " changed in two places. Both versions are kept."
}
func LookAside() string   { return "Look at what was kept" }
func ChooseOne() string   { return "Choose which holds" }
func AsideTitle() string  { return "What could not be read" }
func AsideSave() string   { return "Save it to a file" }
func AsideFile() string   { return "gapwright-set-aside.json" }
func AsideDelete() string { return "Delete it" }
func AsideSure() string   { return "Delete it for good" }
func AsideLead() string {
	return "It is kept as it was found; the app does not use it. A file of it may help somebody who knows its format."
}

// AsideName names what a text was kept of.
func AsideName(kind, name string) string {
	switch kind {
	case store.KindKit:
		return "Your kit"
	case store.KindInstrument:
		if name != "" {
			return "The instrument " + name
		}
		return "An instrument"
	case store.KindJob:
		if name != "" {
			return "A job on " + name
		}
		return "A job"
	case store.KindHistory:
		return "A list of jobs"
	}
	return "Something unknown"
}

// AsideSize says how long a text is, and AsideNote what is the matter with it and whether there is another copy.
func AsideSize(characters int) string { return plural(characters, "character", "characters") }
func AsideNote(outcome store.Outcome, whole bool) string {
	note := "Damaged."
	switch outcome {
	case store.Foreign:
		note = "Not written by this app."
	case store.Unreachable:
		return "The device does not answer just now."
	}
	if whole {
		return note + " A whole copy is in use."
	}
	return note + " No whole copy was found."
}

// PartedTitle asks of two versions of one thing.
func PartedTitle() string { return "Which one holds?" }

// PartedLead says of what there are two, and why.
func PartedLead(kind, name string) string {
	return AsideName(kind, name) + " was changed in two places."
}
func PartedMore() []string {
	return []string{
		"The other place is a second window, or a backup. What only one of them changed is in both versions. What is listed was changed in both.",
		"The version that you do not take is deleted. A backup made before holds both.",
	}
}
func PartedLeave() string  { return "Leave it as it is" }
func PartedTake() string   { return "Take the other version" }
func PartedSecond() string { return "Keep the other as a second instrument" }
func PartedOther() string  { return "Other version: " }
func PartedUnread() string { return "The other version cannot be read any more." }
func PartedNewer() string {
	return "A newer version of the app wrote it. Reload to get that version, then choose."
}
func PartedReading() string { return "Reading both…" }
func PartedAlike() string   { return "They say the same by now." }
func PartedFailed() string {
	return "That could not be kept just now, so both are still there. Try again."
}

// SecondName names the second instrument.
func SecondName(name string) string { return name + " (other version)" }

// A Difference is what two versions say of one thing.
type Difference struct{ Of, Here, Other string }

type differences []Difference

func (d *differences) add(of, here, other string) {
	if here != other {
		*d = append(*d, Difference{of, orNothing(here), orNothing(other)})
	}
}

// whole adds what is too long to be told: that it is not the same.
func (d *differences) whole(of string, here, other any) {
	x, _ := json.Marshal(here)
	y, _ := json.Marshal(other)
	if string(x) != string(y) {
		*d = append(*d, Difference{of, "As it stands", "Set in another way"})
	}
}

func orNothing(s string) string {
	if s == "" {
		return "Not said"
	}
	return s
}

func isAre(n int) string { return form(n, "is", "are") }

func yesNo(on bool) string {
	if on {
		return "Yes"
	}
	return "No"
}

// given says a length that may not be given.
func (r Reader) given(t job.Typed) string {
	if !t.Given() {
		return ""
	}
	return r.Typed(t)
}

// Profiles tells in what two versions of an instrument differ.
func (r Reader) Profiles(here, other job.Instrument) []Difference {
	var d differences
	d.add(NameLabel(), here.Name, other.Name)
	d.add("Kind", Family(here.Family), Family(other.Family))
	d.add(OwnerLabel(), here.Owner, other.Owner)
	d.add("Tags", here.Tags, other.Tags)
	d.add(LeftHanded(), yesNo(here.LeftHanded), yesNo(other.LeftHanded))
	d.add(BridgeRow(), Bridge(here.Holds()), Bridge(other.Holds()))
	d.add(ScaleLabel(), r.given(here.Scale), r.given(other.Scale))
	d.add(TrebleLabel(), r.given(here.Treble), r.given(other.Treble))
	d.add(SetbackLabel(), r.given(here.Setback), r.given(other.Setback))
	d.add(SaddleLabel(), r.given(here.Saddle), r.given(other.Saddle))
	d.add(SpreadLabel(), r.given(here.Spread), r.given(other.Spread))
	d.add(FretLabel(), Number(here.ReadFret()), Number(other.ReadFret()))
	d.add(HeldLabel(), Number(here.Held), Number(other.Held))
	d.add(BodyLabel(), NumberOrNone(here.Body), NumberOrNone(other.Body))
	d.add(LastFretLabel(), NumberOrNone(here.Frets), NumberOrNone(other.Frets))
	d.add(RadiusLabel(), r.given(here.Radius), r.given(other.Radius))
	d.whole("Screws or posts", here.Turns, other.Turns)
	if a, b := r.StringsLine(here), r.StringsLine(other); a != b {
		d.add("Strings", a, b)
	} else {
		d.whole("Strings", here.Set, other.Set)
	}
	d.whole("What is usual of it", here.Wont, other.Wont)
	d.add("In the archive", yesNo(here.Archived), yesNo(other.Archived))
	if a, b := r.AsSetLine(here), r.AsSetLine(other); a != b {
		d.add("Heights", a, b)
	} else {
		d.whole("Heights", here.AsSet, other.AsSet)
	}
	return d
}

// Kits tells in what two versions of a kit differ.
func (r Reader) Kits(here, other job.Kit) []Difference {
	var d differences
	unit := func(k job.Kit) string {
		if k.Unit == job.Inch {
			return Inches()
		}
		return Millimetres()
	}
	d.add(UnitLabel(), unit(here), unit(other))
	d.add(RuleRow(), Marks(here.Marks), Marks(other.Marks))
	d.add(ZeroRow(), Zero(here.Zero), Zero(other.Zero))
	d.add(Distance(), r.given(here.ZeroDist), r.given(other.ZeroDist))
	d.add(HasCaliper(), yesNo(here.Caliper == job.Yes), yesNo(other.Caliper == job.Yes))
	d.add(HasFeelers(), yesNo(here.Feelers == job.Yes), yesNo(other.Feelers == job.Yes))
	d.add(HasCards(), yesNo(here.Cards == job.Yes), yesNo(other.Cards == job.Yes))
	papers := func(k job.Kit) string {
		if k.Papers == "" && k.Grit > 0 {
			return Paper(k.Grit)
		}
		return k.Papers
	}
	d.add("Sanding papers", papers(here), papers(other))
	d.add("Short form", yesNo(here.Short), yesNo(other.Short))
	d.whole("Strips", here.Strips, other.Strips)
	d.whole("Life size on this screen", here.Card, other.Card)
	return d
}

// Jobs tells in what two versions of a job differ.
func Jobs(here, other job.Record) []Difference {
	var d differences
	d.add("Step", StepName(here.Step()), StepName(other.Step()))
	d.add("Entries", Number(len(here.Events)), Number(len(other.Events)))
	d.add("Last entry", Day(here.Last), Day(other.Last))
	return d
}
