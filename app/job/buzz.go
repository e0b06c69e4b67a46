package job

import (
	"slices"

	"gapwright/geometry"
)

// Where it buzzes, and what then is the likely cause. Nothing here is kept: the answers hold as long as somebody asks.

// Buzz is where it buzzes: an answer, from 0, to each of three questions: on which strings, where on them, since when.
type Buzz [3]int

// BuzzAnswers is how many answers each of the questions has.
var BuzzAnswers = [3]int{3, 6, 6}

// The answers.
const (
	BuzzOne, BuzzFew, BuzzAll = 0, 1, 2 // strings; a few are neighbours

	BuzzOpen, BuzzFirstFrets, BuzzMiddle, BuzzUpper, BuzzEverywhere, BuzzOneFret = 0, 1, 2, 3, 4, 5 // frets 1 to 4, 5 to 11, 12 and up

	SinceSetting, SinceWeather, SinceStrings, SinceSuddenly, SinceAlways, SinceUnsure = 0, 1, 2, 3, 4, 5
)

// BuzzCause is what may make a string buzz.
type BuzzCause uint8

// The causes, the cheapest to check first.
const (
	CauseHard   BuzzCause = iota // it is played harder than it is set for
	CauseSeat                    // a string out of its notch, a saddle that is not down
	CauseString                  // worn, kinked, or of another gauge
	CauseLoose                   // a part that rattles with the note
	CauseSeason                  // the neck moved with the air
	CauseFlat                    // too little relief
	CauseLow                     // strings too low at the saddle
	CauseNut                     // a slot that is too low
	CauseFret                    // one that is high, worn or loose
	CauseBowed                   // too much relief
)

// BuzzCauses lists them.
func BuzzCauses() []BuzzCause {
	return []BuzzCause{CauseHard, CauseSeat, CauseString, CauseLoose, CauseSeason, CauseFlat, CauseLow, CauseNut, CauseFret, CauseBowed}
}

// buzzWeights is how much each answer speaks for each cause, a digit an answer (common practice, no source). A 0 in where it buzzes rules the cause out.
var buzzWeights = [...][3]string{
	//           strings, where, since when
	CauseHard:   {"002", "111130", "000021"},
	CauseSeat:   {"211", "211120", "414101"},
	CauseString: {"301", "111121", "004201"},
	CauseLoose:  {"111", "211122", "111401"},
	CauseSeason: {"003", "132120", "050302"},
	CauseFlat:   {"013", "152020", "231021"},
	CauseLow:    {"123", "013450", "421021"},
	CauseNut:    {"221", "500000", "201031"},
	CauseFret:   {"232", "124416", "110231"},
	CauseBowed:  {"012", "002310", "121011"},
}

// buzzParts is what of the neck a cause shows in, and how it then stands to what is usual.
var buzzParts = map[BuzzCause]geometry.PartFound{
	CauseFlat:  {PartReading: geometry.PartReading{Part: geometry.PartRelief}, Standing: geometry.Below},
	CauseLow:   {PartReading: geometry.PartReading{Part: geometry.PartSaddle}, Standing: geometry.Below},
	CauseNut:   {PartReading: geometry.PartReading{Part: geometry.PartNut}, Standing: geometry.Below},
	CauseBowed: {PartReading: geometry.PartReading{Part: geometry.PartRelief}, Standing: geometry.Above},
}

// InACheck tells whether a cause shows in what a quick check reads: relief, and the height at fret 12.
func (c BuzzCause) InACheck() bool {
	return c == CauseSeason || c == CauseFlat || c == CauseLow || c == CauseBowed
}

// What was read counts as much as a good answer, and for a cause a little less than against it (common practice, no source).
const (
	readFor     = 3
	readAgainst = -4
)

// Suspect is a likely cause with what was read that speaks of it.
type Suspect struct {
	Cause  BuzzCause
	For    bool                 // the reading speaks for it; otherwise against it
	Read   []geometry.PartFound // empty: nothing was read, or it tells nothing
	weight int
}

// Suspects are the likely causes, the likeliest first and of two alike the one that is cheaper to check; at least one. What was found of the neck brings
// a cause up or down and never takes it away: a slot between the outer ones is as likely with both of these as usual. Answers that are none are
// taken as the nearest.
func (b Buzz) Suspects(found []geometry.PartFound) (all []Suspect) {
	for cause, weights := range buzzWeights {
		s := Suspect{Cause: BuzzCause(cause)}
		for n, each := range weights {
			w := int(each[min(max(0, b[n]), len(each)-1)] - '0')
			if s.weight += w; n == 1 && w == 0 {
				s.weight = -1
				break
			}
		}
		if s.weight < 0 {
			continue
		}
		s.read(found)
		all = append(all, s)
	}
	slices.SortStableFunc(all, func(a, b Suspect) int { return b.weight - a.weight })
	return all
}

// read weighs what was found: one side that is out speaks for a cause; against it speaks only what is known not to be out, on both sides where there are two.
func (s *Suspect) read(found []geometry.PartFound) {
	sign, shows := buzzParts[s.Cause]
	if !shows {
		return
	}
	var against []geometry.PartFound
	for _, f := range found {
		switch {
		case f.Part != sign.Part || f.Standing == geometry.Unstated || f.Standing == geometry.Unclear:
		case f.Standing == sign.Standing:
			s.Read = append(s.Read, f)
		default:
			against = append(against, f)
		}
	}
	switch {
	case len(s.Read) > 0:
		s.For = true
		s.weight += readFor
	case len(against) == 2 || len(against) == 1 && sign.Part == geometry.PartRelief:
		s.Read = against
		s.weight += readAgainst
	}
}

// FoundOn is how the parts of an instrument stand to what is usual, as last read: in the job under way on it, or else as it was set.
func FoundOn(jobs []Record, i Instrument) []geometry.PartFound {
	if r, ok := OpenOn(jobs, i.ID); ok {
		if found := r.stated(); len(found) > 0 {
			return found
		}
	}
	if i.AsSet == nil {
		return nil
	}
	facts := []Fact{Began{Method: QuickCheck, Instrument: i.ToCheck()}}
	if !i.AsSet.Moved {
		for _, read := range i.AsSet.Readings {
			facts = append(facts, read)
		}
	}
	for _, read := range i.AsSet.Neck {
		facts = append(facts, read)
	}
	var r Record
	for _, f := range facts {
		if next, err := r.Apply(Event{Job: "as set", Sequence: len(r.Events) + 1, At: i.AsSet.At, Fact: f}); err == nil {
			r = next // what cannot be, as the profile is now, is left out
		}
	}
	return r.stated()
}

// stated is the diagnosis without what was not read.
func (r Record) stated() []geometry.PartFound {
	found, _ := r.Diagnosis()
	return slices.DeleteFunc(found, func(f geometry.PartFound) bool { return f.Standing == geometry.Unstated })
}
