package job

import "slices"

// Method is a way a height is set. It stands in records for good.
type Method string

// The methods.
const (
	SandUnderside Method = "sand-underside" // lower a loose saddle by sanding its underside
	RaiseByStrip  Method = "strip"          // raise a loose saddle by strips under it
	NewSaddle     Method = "new-saddle"     // make a saddle from a blank
	ByScrews      Method = "screws"         // one or two screws at each string
	ByPosts       Method = "posts"          // two posts, screws or wheels under a bridge
	NutSlots      Method = "nut-slots"      // deepen the slots of the nut
	SetRelief     Method = "relief"         // set the bow of the neck, where it can be set
	QuickCheck    Method = "check"          // read and compare with the heights as set; nothing is changed
)

// Methods lists the ways a height is set; a quick check sets none.
func Methods() []Method {
	return []Method{SandUnderside, RaiseByStrip, NewSaddle, ByScrews, ByPosts, NutSlots, SetRelief}
}

// Step is where in the work a person is. It is worked out from the facts, never stored.
type Step string

// The steps of all methods, in the order in which they come.
const (
	BeforeYouStart Step = "before-you-start"
	FixRelief      Step = "set-relief" // read and turned until it is right
	FixNut         Step = "set-nut"    // read and filed, string by string
	Measure        Step = "measure"
	Diagnose       Step = "diagnose" // only where the relief or the nut is out
	Choose         Step = "choose"
	MakePlan       Step = "plan"
	TakeOut        Step = "take-out"
	Lay            Step = "lay-strips"
	MakeSaddle     Step = "make-saddle"
	Turn           Step = "turn" // screws, posts or wheels
	Mark           Step = "mark"
	Sand           Step = "sand"
	Smooth         Step = "smooth"
	Seat           Step = "seat"
	StringUp       Step = "string-up"
	MeasureAgain   Step = "measure-again"
	Save           Step = "save"
	Finished       Step = "finished" // after the last one
)

var stepOrder = []Step{BeforeYouStart, FixRelief, FixNut, Measure, Diagnose, Choose, MakePlan, TakeOut, Lay, MakeSaddle, Turn, Mark, Sand, Smooth,
	Seat, StringUp, MeasureAgain, Save}

// AllSteps lists the steps of all methods, in order.
func AllSteps() []Step { return append([]Step(nil), stepOrder...) }

// way is what makes a method different from the others.
type way struct {
	steps          []Step
	work           Step // the last step at which the height is changed; none in a check
	lowers, raises bool
}

var ways = map[Method]way{
	SandUnderside: {[]Step{BeforeYouStart, Measure, Diagnose, Choose, MakePlan, TakeOut, Mark, Sand, Smooth, Seat, StringUp, MeasureAgain, Save}, Sand, true, false},
	RaiseByStrip:  {[]Step{BeforeYouStart, Measure, Diagnose, Choose, MakePlan, TakeOut, Lay, Seat, StringUp, MeasureAgain, Save}, Lay, false, true},
	NewSaddle:     {[]Step{BeforeYouStart, Measure, Diagnose, Choose, MakePlan, TakeOut, MakeSaddle, Seat, StringUp, MeasureAgain, Save}, MakeSaddle, true, true},
	ByScrews:      {[]Step{BeforeYouStart, Measure, Diagnose, Choose, MakePlan, Turn, MeasureAgain, Save}, Turn, true, true},
	ByPosts:       {[]Step{BeforeYouStart, Measure, Diagnose, Choose, MakePlan, Turn, MeasureAgain, Save}, Turn, true, true},
	NutSlots:      {[]Step{BeforeYouStart, FixNut, Save}, FixNut, true, false},
	SetRelief:     {[]Step{BeforeYouStart, FixRelief, Save}, FixRelief, true, true},
	QuickCheck:    {[]Step{Measure}, "", false, false},
}

// Steps lists the steps of a method, in order.
func Steps(m Method) []Step { return append([]Step(nil), ways[m].steps...) }

// Lowers and Raises tell which way a method can move the strings.
func (m Method) Lowers() bool { return ways[m].lowers }

// Raises tells whether a method can raise the strings.
func (m Method) Raises() bool { return ways[m].raises }

// Has tells whether a method has that step.
func (m Method) Has(s Step) bool { return slices.Contains(ways[m].steps, s) }

// order is a step's place; Finished comes last.
func (s Step) order() int {
	if i := slices.Index(stepOrder, s); i >= 0 {
		return i
	}
	return len(stepOrder)
}

// MaySkip tells whether a step can be left out without harm.
func (s Step) MaySkip() bool { return s == Smooth || s == MeasureAgain }

// Question is something a step asks to be named before it goes on: at most one per step, answered by what is seen.
type Question string

// The questions.
const (
	AskSaddle  Question = "saddle"  // before you start: what is the saddle like?
	AskStrings Question = "strings" // measure: do these strings stay on?
	AskBuzz    Question = "buzz"    // choose: does it buzz now?
	AskRoom    Question = "room"    // plan: how is the air in the room?
	AskUnder   Question = "under"   // take out: what is under the saddle?
	AskFollow  Question = "follow"  // mark: what will be followed while sanding?
	AskSeat    Question = "seat"    // seat: how does it stand?
	AskStrung  Question = "strung"  // string up: which strings went back on?
	AskScrews  Question = "screws"  // before you start, screws and posts: what are they like?
	AskWayUp   Question = "way-up"  // turn: which way of turning lifts the string?
	AskNut     Question = "nut"     // before you start, nut slots: what is the nut like, and what is to hand?
	AskRod     Question = "rod"     // before you start, relief: is there a rod that can be turned?
)

// Questions lists every question, in the order of the steps.
func Questions() []Question {
	return []Question{AskSaddle, AskStrings, AskBuzz, AskRoom, AskUnder, AskFollow, AskSeat, AskStrung, AskScrews, AskWayUp, AskNut, AskRod}
}

// Answer is what was named.
type Answer string

// The answers.
const (
	SaddleLoose    Answer = "loose"
	SaddleGlued    Answer = "glued"
	SaddleUnsure   Answer = "unsure"
	SaddleStepped  Answer = "stepped"  // its top stands further forward under some strings than under others
	SaddleSplit    Answer = "split"    // two pieces that stand side by side
	SaddleThrough  Answer = "through"  // its slot is open at both ends
	SaddleLow      Answer = "low"      // hardly stands out of the bridge
	SaddleDamage   Answer = "damage"   // a crack, a lifting bridge or top, a loose nut
	SaddlePrecious Answer = "precious" // valuable, old, or under warranty
	StringsStay    Answer = "stay"
	StringsGo      Answer = "other-gauge-soon"
	StringsUnsure  Answer = "unsure"
	BuzzNone       Answer = "none"
	BuzzHeard      Answer = "buzzes"
	BuzzUnsure     Answer = "unsure"
	RoomFine       Answer = "fine" // 40 to 60 % relative humidity
	RoomWet        Answer = "wet"
	RoomDry        Answer = "dry"
	RoomUnsure     Answer = "unsure"
	UnderClear     Answer = "clear"
	UnderPickup    Answer = "pickup"
	UnderShim      Answer = "shim"
	UnderStuck     Answer = "stuck"
	FollowCaliper  Answer = "caliper"
	FollowPencil   Answer = "pencil"
	FollowKnife    Answer = "knife"
	FollowCards    Answer = "cards"
	SeatFlat       Answer = "flat"
	SeatRocks      Answer = "rocks"
	SeatLeans      Answer = "leans"
	StrungSame     Answer = "same"
	StrungAlike    Answer = "new-same-gauge"
	StrungOther    Answer = "other-gauge"
	ScrewsFree     Answer = "free"     // they turn, their heads are whole, the bridge is fixed to the body
	ScrewsFloating Answer = "floating" // the strings alone hold the bridge in its place
	ScrewsVibrato  Answer = "vibrato"  // a bridge that rocks on springs
	ScrewsStuck    Answer = "stuck"
	ScrewsUnsure   Answer = "unsure"
	WayClockwise   Answer = "clockwise" // lifts, seen from the end where the key goes
	WayCounter     Answer = "counter"
	WayUnsure      Answer = "unsure"
	NutFiles       Answer = "files" // the nut is sound, and files as wide as the strings are to hand
	NutNoFiles     Answer = "no-files"
	NutLow         Answer = "worn" // slots worn too low, cracked, or a loose nut
	NutUnsure      Answer = "unsure"
	RodTurns       Answer = "rod"
	RodNone        Answer = "none"
	RodStuck       Answer = "stuck"
	RodUnsure      Answer = "unsure"
	UnderUnsure    Answer = "unsure"
	SeatUnsure     Answer = "unsure"
	StrungUnsure   Answer = "unsure" // taken as another gauge: nothing is compared
)

type asked struct {
	question Question
	step     Step
	answers  []Answer
	stops    []Answer // answers with which the step does not go on
	methods  []Method // that ask it; nil: every method that has the step
}

var looseSaddles = []Method{SandUnderside, RaiseByStrip, NewSaddle}

var questions = []asked{
	{AskSaddle, BeforeYouStart, []Answer{SaddleLoose, SaddleStepped, SaddleSplit, SaddleThrough, SaddleLow, SaddleGlued, SaddleDamage, SaddlePrecious, SaddleUnsure},
		[]Answer{SaddleLow, SaddleGlued, SaddleDamage, SaddlePrecious}, looseSaddles},
	{AskStrings, Measure, []Answer{StringsStay, StringsGo, StringsUnsure}, []Answer{StringsGo}, []Method{SandUnderside, RaiseByStrip, NewSaddle, ByScrews, ByPosts}},
	{AskBuzz, Choose, []Answer{BuzzNone, BuzzHeard, BuzzUnsure}, []Answer{BuzzHeard}, []Method{SandUnderside}}, // what can be put back, or only raises, may be tried
	{AskRoom, MakePlan, []Answer{RoomFine, RoomWet, RoomDry, RoomUnsure}, []Answer{RoomWet, RoomDry}, []Method{SandUnderside, NewSaddle}},
	{AskUnder, TakeOut, []Answer{UnderClear, UnderPickup, UnderShim, UnderStuck, UnderUnsure}, []Answer{UnderStuck}, nil},
	{AskFollow, Mark, []Answer{FollowCaliper, FollowPencil, FollowKnife, FollowCards}, nil, nil},
	{AskSeat, Seat, []Answer{SeatFlat, SeatRocks, SeatLeans, SeatUnsure}, []Answer{SeatRocks, SeatLeans, SeatUnsure}, nil},
	{AskStrung, StringUp, []Answer{StrungSame, StrungAlike, StrungOther, StrungUnsure}, nil, nil},
	{AskScrews, BeforeYouStart, []Answer{ScrewsFree, ScrewsFloating, ScrewsVibrato, ScrewsStuck, SaddleDamage, SaddlePrecious, ScrewsUnsure},
		[]Answer{ScrewsStuck, SaddleDamage, SaddlePrecious}, []Method{ByScrews, ByPosts}},
	{AskWayUp, Turn, []Answer{WayClockwise, WayCounter, WayUnsure}, nil, nil},
	{AskNut, BeforeYouStart, []Answer{NutFiles, NutNoFiles, NutLow, NutUnsure}, []Answer{NutNoFiles, NutLow, NutUnsure}, []Method{NutSlots}},
	{AskRod, BeforeYouStart, []Answer{RodTurns, RodNone, RodStuck, RodUnsure}, []Answer{RodStuck}, []Method{SetRelief}},
}

// Asks is the question that a step asks in a method; ok is false when it asks none.
func (m Method) Asks(s Step) (Question, bool) {
	for _, a := range questions {
		if a.step == s && m.Has(s) && (a.methods == nil || slices.Contains(a.methods, m)) {
			return a.question, true
		}
	}
	return "", false
}

func (q Question) find() (asked, bool) {
	for _, a := range questions {
		if a.question == q {
			return a, true
		}
	}
	return asked{}, false
}

// Answers lists what can be named: the commonest first, not knowing last.
func (q Question) Answers() []Answer {
	a, _ := q.find()
	return append([]Answer(nil), a.answers...)
}

// Step is the step that asks the question.
func (q Question) Step() Step {
	a, _ := q.find()
	return a.step
}

// Stops tells whether that answer means: do not go on.
func (q Question) Stops(answer Answer) bool {
	a, _ := q.find()
	for _, s := range a.stops {
		if s == answer {
			return true
		}
	}
	return false
}

func (q Question) allows(answer Answer) bool {
	a, _ := q.find()
	for _, s := range a.answers {
		if s == answer {
			return true
		}
	}
	return false
}

// PerRound tells whether the question is asked anew in every round: what was true before the saddle came out need not be true afterwards.
func (q Question) PerRound() bool {
	return q == AskUnder || q == AskFollow || q == AskSeat || q == AskStrung
}
