package words

import (
	"strings"

	"gapwright/app/job"
	"gapwright/geometry"
)

// The page of the strings.
func StringsTitle() string     { return "Strings" }
func StringsLead() string      { return "As the packet says. What you don’t know stays empty." }
func TuningLabel() string      { return "Tuning" }
func OtherTuning() string      { return "Any other tuning" }
func SemitoneLower() string    { return "a semitone lower" }
func SemitoneHigher() string   { return "a semitone higher" }
func CapoLabel() string        { return "Capo" }
func CapoLower() string        { return "a fret lower" }
func CapoHigher() string       { return "a fret higher" }
func DiametersLabel() string   { return "Diameters, treble string first" }
func PublishedLabel() string   { return "A set as published, by its pull" }
func OwnSet() string           { return "Other strings" }
func WeightsLabel() string     { return "Weights from the packet" }
func GramsPerMetre() string    { return "g/m" }
func TogetherLabel() string    { return "All strings together" }
func SidewaysLabel() string    { return "How stiff they are sideways" }
func BodyLabel() string        { return "Body meets the neck at fret" }
func LastFretLabel() string    { return "Last fret" }
func RadiusLabel() string      { return "Radius of the board" }
func StringsAreNew() string    { return "New on the instrument" }
func StringsCorrected() string { return "I only corrected the numbers" }
func StringsAreNewNote() string {
	return "Readings of open jobs no longer count."
}

// Tuning names a tuning.
func Tuning(c job.TuningChoice) string {
	switch c {
	case job.TuningSemitoneLower:
		return "All a semitone lower"
	case job.TuningToneLower:
		return "All a tone lower"
	case job.TuningLowestToneLower:
		return "Lowest a tone lower"
	}
	return "Usual"
}

var notes = [...]string{"C", "C♯", "D", "D♯", "E", "F", "F♯", "G", "G♯", "A", "A♯", "B"}

// Note names a note, whatever its octave: F♯.
func Note(t geometry.Tone) string { return notes[(t%12+12)%12] }

// NoteInOctave names a note with its octave, C4 being the middle one: F♯3.
func NoteInOctave(t geometry.Tone) string { return Note(t) + Number(int(t)/12-1) }

// Notes names the notes of a tuning.
func Notes(tones []geometry.Tone) string {
	names := make([]string, len(tones))
	for n, t := range tones {
		names[n] = Note(t)
	}
	return strings.Join(names, " ")
}

// Capo says where a capo stands.
func Capo(fret int) string {
	if fret == 0 {
		return "none"
	}
	return Fret(fret)
}

// StringName names one string by its course and note, the second of a pair as such.
func StringName(i job.Instrument, course, second int) string {
	name := CourseTitle(i, course)
	switch {
	case second > 0 && course < geometry.OctavePairs(i.Kind().ID):
		name += ", octave"
	case second > 0:
		name += ", second"
	}
	if tones := i.Tones(); course < len(tones) {
		name += ", " + Note(tones[course])
	}
	return name
}

// Make names how a string is made.
func Make(m job.Make) string {
	switch m {
	case job.PlainSteel:
		return "Plain"
	case job.WoundSteel:
		return "Wound"
	case job.PlainNylon:
		return "Plain nylon"
	case job.WoundNylon:
		return "Wound nylon"
	}
	return ""
}

// Published names a published set of strings.
func Published(id geometry.NylonSetID) string {
	switch id {
	case geometry.NylonLight:
		return "Light"
	case geometry.NylonNormal:
		return "Normal"
	case geometry.NylonHard:
		return "Hard"
	}
	return ""
}

// WeightSource says where a string's weight comes from.
func WeightSource(from geometry.WeightSource) string {
	switch from {
	case geometry.FromDiameter:
		return "from its diameter"
	case geometry.Typed:
		return "as typed"
	case geometry.Published:
		return "as published"
	}
	return "not known"
}

// newtons says a tension in whole newtons.
func newtons(t geometry.Tension) string { return decimal(float64(t), 0) + "\u00a0N" }

// Pull says how hard one string pulls, and how that is known.
func Pull(p job.Pull) string {
	if !p.Known {
		return "Pull " + WeightSource(geometry.WeightUnknown)
	}
	weight := ""
	if p.From != geometry.Typed { // what was typed stands in its field
		grams, digits := float64(p.Weight)*1000, 3
		if grams >= 1 {
			digits = 2
		}
		weight = decimal(grams, digits) + unit(GramsPerMetre()) + " "
	}
	return newtons(p.Tension) + ", " + weight + WeightSource(p.From)
}

// kilogram is the weight of a kilogram on the scales (standard gravity, 9.80665 N, exact).
const kilogram geometry.Tension = 9.80665

// Together says how hard all strings pull: in newtons, and as what hangs on a scale.
func (r Reader) Together(total geometry.Tension, whole bool) string {
	if !whole {
		return "Not known yet"
	}
	per, unit := kilogram, "\u00a0kg"
	if r.Unit == job.Inch {
		per, unit = geometry.PoundForce, "\u00a0lb"
	}
	return newtons(total) + ", about " + decimal(float64(total/per), 0) + unit
}

// Missing says what the total lacks.
func Missing(whole bool) string {
	if whole {
		return ""
	}
	return "Only a plain steel string tells its weight by its diameter. For the others type it from the packet."
}

// Sideways says how hard a course's first string resists being pulled across.
func (r Reader) Sideways(i job.Instrument, course int) string {
	stiff, ok := i.Stiff(course)
	if !ok {
		return CourseTitle(i, course) + ": " + WeightSource(geometry.WeightUnknown)
	}
	if r.Unit == job.Inch { // a tenth of an inch is 2.54 mm
		return CourseTitle(i, course) + ": " + decimal(2.54*stiff, 1) + "\u00a0N moves it 0.1\u00a0in"
	}
	return CourseTitle(i, course) + ": " + decimal(stiff, 1) + "\u00a0N moves it 1\u00a0mm"
}

// SidewaysMore says where that is.
func SidewaysMore() string { return "Where strings are usually plucked, by the force of a finger." }

// StringsLine tells in short what is known of the strings.
func (r Reader) StringsLine(i job.Instrument) string {
	if i.Set == nil {
		return "Not said yet"
	}
	line := Notes(i.Tones())
	if i.Capo() > 0 {
		line += ", capo at " + Fret(i.Capo())
	}
	if _, total, whole := i.Pulls(); whole {
		line += ", " + newtons(total)
	}
	return line
}

// NewStrings asks whether the strings changed or only what is written of them; percent is by how much they pull harder, where that is known.
func NewStrings(percent float64, known bool) Ask {
	lead := "Another gauge or tuning moves relief and height. Measure both again."
	share := decimal(max(percent, -percent), 0)
	switch {
	case !known || share == "0":
	case percent > 0:
		lead += " The strings now pull " + share + "\u00a0% harder."
	default:
		lead += " The strings now pull " + share + "\u00a0% less."
	}
	return Ask{Title: "Is the instrument changed?", Lead: lead}
}

// NumberOrNone says a whole number; nothing for 0, which stands for what is usual.
func NumberOrNone(n int) string {
	if n == 0 {
		return ""
	}
	return Number(n)
}
