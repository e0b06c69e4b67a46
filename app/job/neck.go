package job

import (
	"slices"
	"time"

	"gapwright/geometry"
)

// What is known of the neck: relief, nut, and the path of each string that follows from them and its gap.

// Feature is what of the neck is read besides the gaps, as it stands in records.
type Feature string

// The features.
const (
	Relief    Feature = "relief"     // under a string held down at two frets
	FirstFret Feature = "first-fret" // the open string over fret 1: how high the nut is
	// FirstPressed is the gap at fret 1 with the string pressed down between frets 2 and 3: another thing than FirstFret, and never mixed with it. For the
	// same change of it a slot goes about twice as deep.
	FirstPressed Feature = "first-fret-pressed"
)

// Features lists them, in the order in which they are put right.
func Features() []Feature { return []Feature{Relief, FirstFret} }

func (f Feature) known() bool { return f == Relief || f == FirstFret }

// first tells whether a feature is a gap at fret 1, which ends with the slot that is filed.
func (f Feature) first() bool { return f == FirstFret || f == FirstPressed }

// mostEighths is more than anybody should turn a truss rod at one sitting (common practice, no source).
const mostEighths = 8

// MostAtOnce is how many eighths are turned at most before reading again (common practice, no source).
const MostAtOnce = 4

// mostUnseenBow is the back-bow that a string lying on the middle frets may hide: more is plain to see along the neck (common practice, no source).
const mostUnseenBow = geometry.Millimetre / 2

// neckTooOld is how long relief and nut count beside a later gap: they change more slowly than it (common practice, no source).
const neckTooOld = 7 * 24 * time.Hour

// surveyed is a reading of the neck with the strings and the saddle it was taken with.
type surveyed struct {
	Surveyed
	at       time.Time
	set      int
	saddle   int
	sequence int
}

// heard is what was heard, with the strings and the saddle as they were then.
type heard struct {
	Listened
	set    int
	saddle int
}

// turned is an adjustment: set is that of the readings before it, the next one that of those after.
type turned struct {
	Adjusted
	set    int
	saddle int
	at     time.Time
}

// saddleState counts how often the saddle was worked on: before the first round 0, with the strings back on after it 1, and so on.
func (s *state) saddleState() int {
	round := s.round()
	if round.strungUp(s.Method) {
		return round.Number
	}
	return round.Number - 1
}

// strungUp tells whether the strings are on and at pitch, so that something can be read or heard.
func (r *Record) strungUp(step Step) bool {
	return (step == MeasureAgain || step != BeforeYouStart && step.stringsOn()) && !r.state.round().apart()
}

// ReliefPlace is where relief is read: held down at fret 1 and at the body joint, read half-way.
func (i Instrument) ReliefPlace() (held, fret, to int) {
	return 1, geometry.MidFret(1, i.Joint()), i.Joint()
}

// Interval is what the reading allows. Where not even the thinnest goes in, a relief may also be a small back-bow.
func (s Surveyed) Interval() (geometry.Interval, error) {
	if s.Way != ByFeeler || s.Low.Given() {
		return s.Read.Interval()
	}
	thinnest, err := s.High.Length()
	if err == nil {
		_, err = geometry.JustFits(0, thinnest)
	}
	if err != nil {
		return geometry.Interval{}, err
	}
	i := geometry.Interval{High: thinnest}
	if s.Feature == Relief {
		i.Low = -mostUnseenBow
	}
	return i, nil
}

func (r *Record) takeSurvey(e Event, f Surveyed, step Step) error {
	refuse := func(k RefusalKind, cause error) error {
		return &Refusal{Kind: k, Step: step, String: f.String, Cause: cause}
	}
	if f.String < 0 || f.String > r.Instrument.Last() {
		return refuse(RefusedString, nil)
	}
	switch {
	case !f.Feature.known() && f.Feature != FirstPressed:
		return refuse(RefusedUnknown, nil)
	case f.Feature.first() && (f.Fret != 1 || f.Held != 0 || f.To != r.Instrument.Survey(Place{Feature: f.Feature}).To):
		return refuse(RefusedPlace, nil)
	case !r.strungUp(step):
		return refuse(RefusedNotYet, nil)
	}
	read, err := f.Interval()
	if err != nil {
		return refuse(RefusedReading, err)
	}
	if f.Feature == Relief {
		if _, err := r.Instrument.Neck().Relief(geometry.ReliefReading{From: f.Held, At: f.Fret, To: f.To, Depth: read}); err != nil {
			return refuse(RefusedReading, err)
		}
	}
	r.neck = append(r.neck, surveyed{f, e.At, r.set, r.saddleState(), e.Sequence})
	if _, _, err := r.surveys(f.Feature, f.String, r.set); err != nil {
		return refuse(RefusedContradicts, err)
	}
	return nil
}

func (r *Record) takeListening(e Event, f Listened, step Step) error {
	refuse := func(k RefusalKind, cause error) error {
		return &Refusal{Kind: k, Step: step, String: f.String, Cause: cause}
	}
	switch {
	case f.String < 0 || f.String > r.Instrument.Last():
		return refuse(RefusedString, nil)
	case f.Stop < 0 || f.Stop >= r.Instrument.LastFret() || f.Everywhere && (f.Buzzed || f.Stop != 0):
		return refuse(RefusedCheck, &geometry.RangeError{Quantity: geometry.QuantityFret, Got: float64(f.Stop), Min: 0, Max: float64(r.Instrument.LastFret() - 1)})
	case !r.strungUp(step):
		return refuse(RefusedNotYet, nil)
	}
	saddle := r.saddleState()
	if _, err := r.joint(r.gaps(saddle), f.String); err != nil { // what is heard means something only beside a height
		return refuse(RefusedReading, err)
	}
	r.heard = append(r.heard, heard{f, r.set, saddle})
	return nil
}

// gaps are the gap readings taken with the saddle in that state.
func (s *state) gaps(saddle int) []Taken {
	if saddle < len(s.Rounds) {
		return s.Rounds[saddle].Before
	}
	if saddle == len(s.Rounds) && saddle > 0 {
		return s.Rounds[saddle-1].After
	}
	return nil
}

// holds lists the readings of the neck that hold for a set of strings, in order: all that no later one of the same place replaces, is taken more
// than a week after, or, at fret 1, is taken over a saddle that was worked on since or a slot that was filed.
func (s *state) holds(set int) []surveyed {
	var kept []surveyed
	for i, t := range s.neck {
		if t.set == set && !(t.Feature.first() && t.sequence < s.filedAt(t.String)) && !slices.ContainsFunc(s.neck[i+1:], func(later surveyed) bool {
			return later.set == set && later.Feature == t.Feature && later.String == t.String &&
				(later.Replaces || between(later.at, t.at) > neckTooOld || t.Feature == FirstFret && later.saddle != t.saddle)
		}) {
			kept = append(kept, t)
		}
	}
	return kept
}

// surveys joins the readings of a feature at a course and set: what they allow, and with the saddle in which state they were taken. Relief comes
// out as relief, wherever it was held and read; a reading that the profile no longer allows counts no more. Errors: geometry.ErrNoReading,
// *geometry.ContradictionError.
func (s *state) surveys(feature Feature, course, set int) (geometry.Interval, int, error) {
	var all []geometry.Interval
	saddle, shift := 0, geometry.Length(0)
	if feature == Relief {
		shift = -geometry.LeastRelief // Repeats knows no back-bow
	}
	for _, t := range s.holds(set) {
		if t.Feature != feature || t.String != course {
			continue
		}
		read, err := t.Interval()
		if err == nil && feature == Relief {
			read, err = s.Instrument.Neck().Relief(geometry.ReliefReading{From: t.Held, At: t.Fret, To: t.To, Depth: read})
		}
		if err == nil {
			all, saddle = append(all, read.Shifted(shift)), t.saddle
		}
	}
	joint, err := geometry.Repeats(all, 0) // a feeler is no eye: two that agree do sharpen each other
	return joint.Shifted(-shift), saddle, err
}

// recent tells whether a feature of a course was read within a week of the newest gap of the same strings.
func (s *state) recent(feature Feature, course, set, saddle int) bool {
	for _, gap := range slices.Backward(s.gaps(saddle)) {
		if gap.set == set {
			return slices.ContainsFunc(s.holds(set), func(t surveyed) bool {
				return t.Feature == feature && t.String == course && between(t.at, gap.At) <= neckTooOld
			})
		}
	}
	return true
}

// gap is what the standing readings of a course allow with these strings and the saddle in that state, and where they were read.
func (s *state) gap(course, set, saddle int) (geometry.GapReading, error) {
	then, taken := *s, s.gaps(saddle)
	then.set = set
	gap, err := then.joint(taken, course)
	for _, t := range taken {
		if t.set == set {
			return geometry.GapReading{Fret: t.Read.Fret, Held: t.Read.Held, Gap: gap}, err
		}
	}
	return geometry.GapReading{}, geometry.ErrNoReading
}

// Surveys is what the standing readings of a feature at a course allow; for relief, of any course, the nearest first. Errors:
// geometry.ErrNoReading.
func (r Record) Surveys(feature Feature, course int) (geometry.Interval, error) {
	read, _, _, err := r.survey(feature, course, r.set, r.saddleState())
	return read, err
}

func (s *state) survey(feature Feature, course, set, saddle int) (read geometry.Interval, at, in int, err error) {
	courses := []int{course}
	if feature == Relief { // one neck lies under all strings
		for away := 1; away <= s.Instrument.Last(); away++ {
			courses = append(courses, course-away, course+away)
		}
	}
	for _, c := range courses {
		if read, in, err := s.surveys(feature, c, set); err == nil && s.recent(feature, c, set, saddle) {
			return read, c, in, nil
		}
	}
	return geometry.Interval{}, 0, 0, geometry.ErrNoReading
}

// SurveyList lists the standing readings of the neck, in order.
func (r Record) SurveyList() []Surveyed {
	var all []Surveyed
	for _, t := range r.holds(r.set) {
		all = append(all, t.Surveyed)
	}
	return all
}

// Measured says which features a path rests on by measurement; of the others what is usual for the family was taken.
type Measured struct{ Relief, First bool }

// Path is the string's path over its neck, as it is now: before the work, or with the strings back on. What of the neck was not read is taken
// as usual for the family, and the path is the wider for it. Errors: geometry.ErrNoReading while the gap is not read, *geometry.RangeError.
func (r Record) Path(course int, after bool) (geometry.Path, Measured, error) {
	saddle := r.state.round().Number - 1
	if after {
		saddle++
	}
	return r.path(course, r.set, saddle)
}

func (s *state) path(course, set, saddle int) (geometry.Path, Measured, error) {
	at, err := s.gap(course, set, saddle)
	if err != nil {
		return geometry.Path{}, Measured{}, err
	}
	kind, measured := s.Instrument.Kind(), Measured{Relief: true, First: true}
	relief, _, _, err := s.survey(Relief, course, set, saddle)
	if err != nil {
		relief, measured.Relief = kind.Relief, false
	}
	first, _, in, err := s.survey(FirstFret, course, set, saddle)
	line := at
	if err == nil && in != saddle { // read when the saddle was another: the line of that time, brought to the gap of this one
		line, err = s.gap(course, set, in)
	}
	if err != nil {
		measured.First, line = false, at
		first = geometry.Interval{
			Low:  s.Instrument.between([2]geometry.Length{kind.FirstFret[0].Low, kind.FirstFret[1].Low}, course),
			High: s.Instrument.between([2]geometry.Length{kind.FirstFret[0].High, kind.FirstFret[1].High}, course),
		}
	}
	path, err := geometry.NewPath(s.Instrument.NeckOf(course), relief, geometry.GapReading{Fret: 1, Gap: first}, line)
	if err == nil && measured.First && in != saddle {
		path, err = path.WithGap(at.Fret, at.Held, at.Gap)
	}
	return path, measured, err
}

// Diagnosis puts what was read of relief, nut and saddle into the order in which it is put right. Errors: *geometry.RangeError.
func (r Record) Diagnosis() ([]geometry.PartFound, error) {
	var readings []geometry.PartReading
	kind, last := r.Instrument.Kind(), r.Instrument.Last()
	saddle := r.saddleState()
	if relief, _, _, err := r.survey(Relief, 0, r.set, saddle); err == nil {
		readings = append(readings, geometry.PartReading{Part: geometry.PartRelief, Read: relief, Usual: kind.Relief})
	}
	for side, course := range []int{0, last} {
		if first, _, in, err := r.survey(FirstFret, course, r.set, saddle); err == nil && in == saddle {
			readings = append(readings, geometry.PartReading{Part: geometry.PartNut, Side: geometry.Side(side), Read: first, Usual: kind.FirstFret[side]})
		}
		gap, err := r.joint(r.gaps(saddle), course)
		if err != nil {
			continue
		}
		if r.Instrument.ReadFret() != 12 || r.Instrument.Held != 0 {
			path, _, err := r.path(course, r.set, saddle)
			if err != nil {
				continue
			}
			if gap, err = path.Clearance(12, 0); err != nil {
				continue
			}
		}
		readings = append(readings, geometry.PartReading{Part: geometry.PartSaddle, Side: geometry.Side(side), Read: gap.AtLeast(0), Usual: kind.Gap[side]})
	}
	return geometry.Diagnose(r.Instrument.Neck(), readings)
}

// What is out by no more than this can wait until the saddle is done (common practice, no source).
const (
	slightRelief geometry.Length = 0.05
	slightNut    geometry.Length = 0.1
)

// NeckOut is the part that is put right before any saddle is cut, unless it was left as it is on purpose: a relief that is out, or a nut that is out
// by more than a little.
func (r Record) NeckOut() (geometry.PartFound, bool) {
	if len(r.neck) == 0 {
		return geometry.PartFound{}, false
	}
	found, err := r.Diagnosis()
	if err != nil {
		return geometry.PartFound{}, false
	}
	for _, f := range found {
		feature, slight := Relief, slightRelief
		switch f.Part {
		case geometry.PartSaddle:
			return geometry.PartFound{}, false
		case geometry.PartNut:
			feature, slight = FirstFret, slightNut
		}
		set, alone := r.alone[feature]
		if (f.Standing == geometry.Above || f.Standing == geometry.Below) && f.Out.High > slight && !(alone && set == r.set) {
			return f, true
		}
	}
	return geometry.PartFound{}, false
}

// FeatureOf is the feature by which a part is read; ok is false for the saddle.
func FeatureOf(p geometry.Part) (Feature, bool) {
	switch p {
	case geometry.PartRelief:
		return Relief, true
	case geometry.PartNut:
		return FirstFret, true
	}
	return "", false
}

// RodTurn is what a counted turn of the truss rod did to the relief, by the readings before and after it.
type RodTurn struct {
	Eighths int      `json:"eighths"`
	Before  Surveyed `json:"before"`
	After   Surveyed `json:"after"`
}

// RodTurns lists the counted turns that have a relief reading on both sides: those of this job after what earlier jobs left.
func (r Record) RodTurns() []RodTurn {
	var all []RodTurn
	if r.Instrument.AsSet != nil {
		all = append(all, r.Instrument.AsSet.Rod...)
	}
	last := func(set int) (Surveyed, bool) {
		for _, t := range slices.Backward(r.neck) {
			if t.Feature == Relief && t.set == set {
				return t.Surveyed, true
			}
		}
		return Surveyed{}, false
	}
	for _, t := range r.turns {
		before, ok := last(t.set)
		after, too := last(t.set + 1)
		if t.Feature == Relief && t.Eighths != 0 && ok && too {
			all = append(all, RodTurn{t.Eighths, before, after})
		}
	}
	return all
}

// PerEighth is what an eighth of a turn tightened did to this instrument's relief, over all its counted turns: negative when it straightened
// the neck. ok is false before anything was counted. No figure is invented: necks differ too much.
func (r Record) PerEighth() (change geometry.Interval, ok bool) {
	neck := r.Instrument.Neck()
	relief := func(s Surveyed) (geometry.Interval, error) {
		depth, err := s.Interval()
		if err != nil {
			return depth, err
		}
		return neck.Relief(geometry.ReliefReading{From: s.Held, At: s.Fret, To: s.To, Depth: depth})
	}
	for _, t := range r.RodTurns() {
		before, err := relief(t.Before)
		after, errAfter := relief(t.After)
		if err != nil || errAfter != nil || t.Eighths == 0 {
			continue
		}
		each := after.Minus(before).Times(1 / float64(t.Eighths))
		if ok {
			each = change.Hull(each)
		}
		change, ok = each, true
	}
	return change, ok
}

// Crown tells whether the saddle's top follows the board, from all strings read. Errors: geometry.ErrFewStrings with fewer than three read.
func (r Record) Crown(after bool) (geometry.Crown, []int, error) {
	var strings []geometry.MeasuredString
	courses := r.Measured(after)
	wish, chosen := r.Present()
	bass, treble, err := lengths(wish.Bass, wish.Treble)
	for _, course := range courses {
		lever, errLever := r.Instrument.Lever(course)
		if errLever != nil {
			return geometry.Crown{}, nil, errLever
		}
		target := r.Instrument.between([2]geometry.Length{bass, treble}, course)
		if !chosen || err != nil {
			target = r.Instrument.atReadFret(r.Instrument.between([2]geometry.Length{r.Instrument.Kind().Gap[0].Middle(), r.Instrument.Kind().Gap[1].Middle()}, course), course)
		}
		gap := r.Standing(course, after)
		strings = append(strings, geometry.MeasuredString{Offset: r.Instrument.Offset(course), Gap: gap, Target: target, Leverage: lever})
	}
	crown, err := geometry.CrownOf(strings)
	return crown, courses, err
}

// Place is a reading of the neck that can be taken: relief under the bass-most string, the first fret under both outer ones.
type Place struct {
	Feature Feature
	Course  int
}

// Places lists them, in the order in which they are best taken.
func (i Instrument) Places() []Place {
	return []Place{{Relief, 0}, {FirstFret, 0}, {FirstFret, i.Last()}}
}

// Survey is an empty reading of a place: where it is held and read.
func (i Instrument) Survey(p Place) Surveyed {
	s := Surveyed{Feature: p.Feature, Read: Read{String: p.Course, Fret: 1}}
	switch p.Feature {
	case Relief:
		s.Held, s.Fret, s.To = i.ReliefPlace()
	case FirstPressed: // pressed down just behind it, the string lies on fret 2
		s.To = 3
	}
	return s
}

// Due is the first reading that an adjustment made void and that was not taken anew; ok is false when there is none.
func (r Record) Due() (Place, bool) {
	if len(r.turns) == 0 || r.turns[len(r.turns)-1].set != r.set-1 {
		return Place{}, false
	}
	for _, p := range r.Instrument.Places() {
		was := slices.ContainsFunc(r.neck, func(t surveyed) bool { return t.Feature == p.Feature && t.String == p.Course && t.set == r.set-1 })
		is := slices.ContainsFunc(r.neck, func(t surveyed) bool { return t.Feature == p.Feature && t.String == p.Course && t.set == r.set })
		if was && !is {
			return p, true
		}
	}
	return Place{}, false
}

// LastSurvey is the newest standing reading of a place, as it was read.
func (r Record) LastSurvey(p Place) (Surveyed, bool) {
	for _, t := range slices.Backward(r.holds(r.set)) {
		if t.Feature == p.Feature && t.String == p.Course {
			return t.Surveyed, true
		}
	}
	return Surveyed{}, false
}

// SurveyWays are the ways of reading the neck that the kit may have: what is too fine for a rule's marks needs something that is slid in.
func (k Kit) SurveyWays() []Way {
	return slices.DeleteFunc(k.Ways(), func(w Way) bool { return w == ByCaliper && len(k.Ways()) > 1 })
}

// FirstTurn is how many eighths a truss rod is turned at a time before the relief is read again (common practice, no source): tightened above zero.
func FirstTurn(f geometry.PartFound) int {
	if f.Standing == geometry.Below {
		return -1
	}
	return 1
}

// ReliefKnown tells whether the relief was read with these strings.
func (r Record) ReliefKnown() bool {
	_, err := r.Surveys(Relief, 0)
	return err == nil
}
