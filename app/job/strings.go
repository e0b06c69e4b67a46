package job

import (
	"errors"
	"slices"
	"strconv"
	"strings"

	"gapwright/geometry"
)

// Stringing is the set that is on, as told: nothing in it must be known.
type Stringing struct {
	Published geometry.NylonSetID `json:"published,omitzero"` // a published set of six nylon strings; then Gauges is empty
	Tuning    []geometry.Tone     `json:"tuning,omitempty"`   // of the courses, bass to treble, without the capo; empty: the usual one
	Capo      int                 `json:"capo,omitzero"`      // the fret it stands at; 0: none
	Gauges    []Gauge             `json:"gauges,omitempty"`   // of every string, course by course from the bass side; empty: not known
}

// Make is how a string is made, as it stands in records.
type Make string

// The makes. Only of plain steel does the diameter tell the weight.
const (
	MakeUnknown Make = ""
	PlainSteel  Make = "plain-steel"
	WoundSteel  Make = "wound-steel"
	PlainNylon  Make = "plain-nylon"
	WoundNylon  Make = "wound-nylon"
)

// Makes lists the makes that can be said.
func Makes() []Make { return []Make{PlainSteel, WoundSteel, PlainNylon, WoundNylon} }

// MakesFor lists the makes that a family's strings can have, plain first (from memory).
func MakesFor(id geometry.FamilyID) []Make {
	switch id {
	case geometry.Nylon, geometry.UkuleleSmall, geometry.UkuleleTenor, geometry.UkuleleBaritone:
		return []Make{PlainNylon, WoundNylon}
	}
	return []Make{PlainSteel, WoundSteel}
}

// PublishedFor lists the published sets that fit a family: nylon strings on a guitar of six.
func PublishedFor(id geometry.FamilyID) []geometry.NylonSetID {
	if id != geometry.Nylon {
		return nil
	}
	var ids []geometry.NylonSetID
	for _, s := range geometry.NylonSets() {
		ids = append(ids, s.ID)
	}
	return ids
}

// Gauge is one string as its packet tells it.
type Gauge struct {
	Make     Make   `json:"make,omitzero"`
	Diameter Typed  `json:"diameter,omitzero"`
	Weight   string `json:"weight,omitzero"` // grams per metre, as typed
}

// Refusals of strings.
var (
	ErrSet      = errors.New("a set that is not this family's")
	ErrWeight   = errors.New("not a weight per length")
	ErrNoWeight = errors.New("what this string weighs is not known")
)

// StringRefusals lists the refusals of strings, so that tests can ask for a sentence for each.
func StringRefusals() []error { return []error{ErrSet, ErrWeight, ErrNoWeight} }

// highestCapo is the highest fret at which a capo is told (common practice, no source).
const highestCapo = 12

// Diameters of strings, as geometry takes them.
const (
	thinnest geometry.Length = 0.1
	thickest geometry.Length = 3
)

// Check tells whether a set can be that of a family's instrument; no set always can. Errors: ErrSet, ErrWeight, *geometry.RangeError,
// *geometry.ParseError.
func (s *Stringing) Check(f geometry.Family) error {
	if s == nil {
		return nil
	}
	if n := len(s.Tuning); n != 0 && n != f.Courses {
		return ErrSet
	}
	if s.Capo < 0 || s.Capo > highestCapo {
		return &geometry.RangeError{Quantity: geometry.QuantityFret, Got: float64(s.Capo), Max: highestCapo}
	}
	for course, tone := range s.Tuning {
		for second := range f.PerCourse {
			if _, err := (tone + octave(f.ID, course, second)).Frequency(geometry.ConcertPitch); err != nil {
				return err
			}
		}
	}
	if s.Published != "" {
		if _, ok := publishedSet(s.Published); !ok || f.Courses != 6 || f.PerCourse != 1 || len(s.Gauges) > 0 {
			return ErrSet
		}
	}
	if n := len(s.Gauges); n != 0 && n != f.Courses*f.PerCourse {
		return ErrSet
	}
	for _, g := range s.Gauges {
		if err := g.Check(); err != nil {
			return err
		}
	}
	return nil
}

// Check tells whether a string can be: a known make or none, 0.1 to 3 mm thick, as heavy as geometry takes it. What was not said is
// right. Errors: ErrSet, ErrWeight, *geometry.RangeError, *geometry.ParseError.
func (g Gauge) Check() error {
	if g.Make != MakeUnknown && !slices.Contains(Makes(), g.Make) {
		return ErrSet
	}
	if err := (limit{g.Diameter, geometry.QuantityDiameter, thinnest, thickest}).check(); err != nil {
		return err
	}
	if g.Weight == "" {
		return nil
	}
	weight, err := g.weight()
	if err != nil {
		return err
	}
	// Any scale and pitch will do to ask whether geometry takes the weight.
	_, err = geometry.Strung{Scale: 650, Pitch: geometry.ConcertPitch, Weight: weight}.Tension()
	return err
}

// weight reads the weight per length: digits with a decimal point or comma.
func (g Gauge) weight() (geometry.UnitWeight, error) {
	text := strings.Replace(strings.TrimSpace(g.Weight), ",", ".", 1)
	if strings.Trim(text, "0123456789.") != "" {
		return 0, ErrWeight
	}
	grams, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return 0, ErrWeight
	}
	return geometry.UnitWeight(grams / 1000), nil
}

// octave is how many semitones a string of a course stands above the course's tone.
func octave(id geometry.FamilyID, course, second int) geometry.Tone {
	if second > 0 && course < geometry.OctavePairs(id) {
		return 12
	}
	return 0
}

func publishedSet(id geometry.NylonSetID) (geometry.NylonSet, bool) {
	for _, s := range geometry.NylonSets() {
		if s.ID == id {
			return s, true
		}
	}
	return geometry.NylonSet{}, false
}

// set is what was said of the strings, or that nothing was.
func (i Instrument) set() Stringing {
	if i.Set == nil {
		return Stringing{}
	}
	return *i.Set
}

// with is the instrument with another set; one of which nothing is said is none. The instrument it came from is left as it is.
func (i Instrument) with(s Stringing) Instrument {
	i.Set = &s
	if s.Published == "" && len(s.Tuning) == 0 && s.Capo == 0 && len(s.Gauges) == 0 {
		i.Set = nil
	}
	return i
}

// Tones are the notes of the courses, bass to treble, without the capo: as said, or as usual.
func (i Instrument) Tones() []geometry.Tone {
	usual := geometry.UsualTuning(i.Kind().ID)
	if i.Set != nil && len(i.Set.Tuning) == len(usual) {
		return slices.Clone(i.Set.Tuning)
	}
	return usual
}

// Capo is the fret at which a capo stands; 0: none.
func (i Instrument) Capo() int { return i.set().Capo }

// WithTuning is the instrument tuned so; the usual tuning is not written down.
func (i Instrument) WithTuning(tones []geometry.Tone) Instrument {
	s := i.set()
	s.Tuning = slices.Clone(tones)
	if slices.Equal(tones, geometry.UsualTuning(i.Kind().ID)) {
		s.Tuning = nil
	}
	return i.with(s)
}

// WithCapo is the instrument with a capo at a fret; 0: none. What is no such fret is the nearest one.
func (i Instrument) WithCapo(fret int) Instrument {
	s := i.set()
	s.Capo = min(max(0, fret), highestCapo)
	return i.with(s)
}

// WithCourse is the instrument with one course tuned by semitones up or down; where there is no such note, as it was.
func (i Instrument) WithCourse(course, semitones int) Instrument {
	tones := i.Tones()
	if course < 0 || course >= len(tones) {
		return i
	}
	tones[course] += geometry.Tone(semitones)
	if (&Stringing{Tuning: tones}).Check(i.Kind()) != nil {
		return i
	}
	return i.WithTuning(tones)
}

// WithGauges is the instrument with these strings, course by course from the bass side; where nothing is said of any, with none.
func (i Instrument) WithGauges(gauges []Gauge) Instrument {
	s := i.set()
	s.Published, s.Gauges = "", slices.Clone(gauges)
	if !slices.ContainsFunc(gauges, func(g Gauge) bool { return g != Gauge{} }) {
		s.Gauges = nil
	}
	return i.with(s)
}

// WithPublished is the instrument with a published set.
func (i Instrument) WithPublished(id geometry.NylonSetID) Instrument {
	s := i.set()
	s.Published, s.Gauges = id, nil
	return i.with(s)
}

// Gauges is what was said of every string, course by course from the bass side, as many as there are strings.
func (i Instrument) Gauges() []Gauge {
	f := i.Kind()
	all := make([]Gauge, f.Courses*f.PerCourse)
	copy(all, i.set().Gauges)
	return all
}

// TuningChoice is one of the few tunings that can be chosen by name.
type TuningChoice uint8

// The tunings.
const (
	TuningUsual TuningChoice = iota
	TuningSemitoneLower
	TuningToneLower
	TuningLowestToneLower // the bass-most course alone
)

// TuningChoices lists the tunings that can be chosen for a family: its lowest course can be lowered alone where that is its bass-most.
func TuningChoices(id geometry.FamilyID) []TuningChoice {
	choices := []TuningChoice{TuningUsual, TuningSemitoneLower, TuningToneLower}
	if usual := geometry.UsualTuning(id); len(usual) > 0 && usual[0] == slices.Min(usual) {
		choices = append(choices, TuningLowestToneLower)
	}
	return choices
}

// Tones are the notes of a family's courses in this tuning, bass to treble.
func (c TuningChoice) Tones(id geometry.FamilyID) []geometry.Tone {
	tones := geometry.UsualTuning(id)
	switch c {
	case TuningLowestToneLower:
		return geometry.Drop(tones, 2)
	case TuningSemitoneLower, TuningToneLower:
		for course := range tones {
			tones[course] -= geometry.Tone(c)
		}
	}
	return tones
}

// Tuned tells whether the instrument is tuned so.
func (i Instrument) Tuned(c TuningChoice) bool { return slices.Equal(i.Tones(), c.Tones(i.Kind().ID)) }

// StrungAt is one string at its pitch without the capo, which leaves the tension as it is: the first or second (0 or 1) of a course,
// the second of an octave pair an octave up. Its weight is the typed one, else that of its diameter if it is plain steel, else that of
// the published set. Errors: *Refusal for no such string, ErrNoWeight, those of Gauge.Check and *geometry.RangeError.
func (i Instrument) StrungAt(course, second int) (geometry.Strung, error) {
	f, tones := i.Kind(), i.Tones()
	if course < 0 || course >= len(tones) || second < 0 || second >= f.PerCourse {
		return geometry.Strung{}, &Refusal{Kind: RefusedString, String: course}
	}
	pitch, err := (tones[course] + octave(f.ID, course, second)).Frequency(geometry.ConcertPitch)
	if err != nil {
		return geometry.Strung{}, err
	}
	if set, ok := publishedSet(i.set().Published); ok && len(tones) == len(set.Strings) {
		return set.Strings[len(set.Strings)-1-course].Strung(i.ScaleOf(course), pitch) // treble first
	}
	return i.Gauges()[course*f.PerCourse+second].strung(i.ScaleOf(course), pitch)
}

// strung is the string at a pitch.
func (g Gauge) strung(scale geometry.Length, pitch geometry.Frequency) (geometry.Strung, error) {
	if err := g.Check(); err != nil {
		return geometry.Strung{}, err
	}
	s := geometry.Strung{Scale: scale, Pitch: pitch}
	if g.Make == PlainSteel && g.Diameter.Given() {
		var err error
		if s, err = geometry.PlainSteel(g.Diameter.LengthOr(0), scale, pitch); err != nil || g.Weight == "" {
			return s, err
		}
	}
	if g.Weight == "" {
		return s, ErrNoWeight
	}
	weight, err := g.weight()
	if s.From == geometry.FromDiameter { // κ = A·E/T: A·E is the diameter's, T goes as the weight
		share := float64(s.Weight / weight)
		s.Stretch = geometry.Band{Low: s.Stretch.Low * share, High: s.Stretch.High * share}
	}
	s.Weight, s.From = weight, geometry.Typed
	return s, err
}

// Pull is how hard one string pulls.
type Pull struct {
	Course, Second int // the second string of a pair is 1
	Tension        geometry.Tension
	Weight         geometry.UnitWeight
	From           geometry.WeightSource
	Known          bool
}

// Pulls is how hard every string pulls, course by course from the bass side, and all of them together; whole tells whether every one
// is known, otherwise the total is of those that are.
func (i Instrument) Pulls() (all []Pull, total geometry.Tension, whole bool) {
	f := i.Kind()
	whole = true
	for n := range f.Courses * f.PerCourse {
		p := Pull{Course: n / f.PerCourse, Second: n % f.PerCourse}
		s, err := i.StrungAt(p.Course, p.Second)
		if err == nil {
			p.Tension, err = s.Tension()
		}
		if p.Known = err == nil; p.Known {
			p.Weight, p.From = s.Weight, s.From
			total += p.Tension
		}
		whole = whole && p.Known
		all = append(all, p)
	}
	return all, total, whole
}

// Stiff is how hard a course's first string resists being pulled across where strings are usually plucked, in newtons per millimetre;
// ok is false where its weight is not known.
func (i Instrument) Stiff(course int) (newtonsPerMillimetre float64, ok bool) {
	s, err := i.StrungAt(course, 0)
	if err != nil {
		return 0, false
	}
	perMetre, err := s.Sideways(geometry.UsualPluck * s.Scale)
	return perMetre / 1000, err == nil
}

// PullChange is by how much the strings of next pull harder than those of old, in percent of these: negative for less. ok is false
// where not every string of both is known.
func PullChange(old, next Instrument) (percent float64, ok bool) {
	_, before, whole := old.Pulls()
	_, after, wholly := next.Pulls()
	if !whole || !wholly {
		return 0, false
	}
	return 100 * (float64(after/before) - 1), true
}

// Differs tells whether the strings are said to be others than before: another published set, another make, diameter or weight of some
// string. What was not said before, or is said no longer, is no difference; nor is another way of writing it.
func (s *Stringing) Differs(old *Stringing) bool {
	if s == nil || old == nil {
		return false
	}
	if s.Published != old.Published {
		said := func(s *Stringing) bool { return s.Published != "" || len(s.Gauges) > 0 }
		return said(s) && said(old)
	}
	for n := range min(len(s.Gauges), len(old.Gauges)) {
		if s.Gauges[n].differs(old.Gauges[n]) {
			return true
		}
	}
	return false
}

func (g Gauge) differs(old Gauge) bool {
	weight := func(g Gauge) float64 {
		w, _ := g.weight() // 0 when none was typed
		return float64(w)
	}
	return g.Make != old.Make && g.Make != MakeUnknown && old.Make != MakeUnknown ||
		differ(float64(g.Diameter.LengthOr(0)), float64(old.Diameter.LengthOr(0))) || differ(weight(g), weight(old))
}

// differ tells whether two numbers, both said (above zero), are not the same but for rounding.
func differ(a, b float64) bool {
	return a > 0 && b > 0 && max(a, b)/min(a, b) > 1+1e-9
}

// Retuned tells whether tuning or capo are others than before.
func (i Instrument) Retuned(old Instrument) bool {
	return i.Capo() != old.Capo() || !slices.Equal(i.Tones(), old.Tones())
}

// Shown is the length as it is typed by somebody who measures in unit: as it is where it means the same there, otherwise with its own
// unit behind it.
func (t Typed) Shown(unit Unit) string {
	own, err := t.Length()
	same, err2 := Typed{Text: t.Text, Unit: unit}.Length()
	if !t.Given() || err != nil || err2 == nil && own == same {
		return t.Text
	}
	if t.Unit == Inch {
		return t.Text + " " + string(Inch)
	}
	return t.Text + " " + string(MM)
}
