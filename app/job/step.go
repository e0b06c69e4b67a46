package job

// Method is a way a height is set. It stands in records from the first version on.
type Method string

// SandUnderside lowers a loose saddle by sanding its underside.
const SandUnderside Method = "sand-underside"

// Step is where in the work a person is. It is worked out from the facts, never stored.
type Step string

// The steps of sanding a loose saddle from below, in order.
const (
	BeforeYouStart Step = "before-you-start"
	Measure        Step = "measure"
	Diagnose       Step = "diagnose" // only where the relief or the nut is out
	Choose         Step = "choose"
	MakePlan       Step = "plan"
	TakeOut        Step = "take-out"
	Mark           Step = "mark"
	Sand           Step = "sand"
	Smooth         Step = "smooth"
	Seat           Step = "seat"
	StringUp       Step = "string-up"
	MeasureAgain   Step = "measure-again"
	Save           Step = "save"
	Finished       Step = "finished" // after the last one
)

var sandingSteps = []Step{BeforeYouStart, Measure, Diagnose, Choose, MakePlan, TakeOut, Mark, Sand, Smooth, Seat, StringUp, MeasureAgain, Save}

// Steps lists the steps of a method, in order.
func Steps(Method) []Step { return append([]Step(nil), sandingSteps...) }

// order is a step's place; Finished comes last.
func (s Step) order() int {
	for i, other := range sandingSteps {
		if s == other {
			return i
		}
	}
	return len(sandingSteps)
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
)

// Questions lists every question, in the order of the steps.
func Questions() []Question {
	return []Question{AskSaddle, AskStrings, AskBuzz, AskRoom, AskUnder, AskFollow, AskSeat, AskStrung}
}

// Answer is what was named.
type Answer string

// The answers.
const (
	SaddleLoose    Answer = "loose"
	SaddleGlued    Answer = "glued"
	SaddleUnsure   Answer = "unsure"
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
	UnderUnsure    Answer = "unsure"
	SeatUnsure     Answer = "unsure"
	StrungUnsure   Answer = "unsure" // taken as another gauge: nothing is compared
)

type asked struct {
	question Question
	step     Step
	answers  []Answer
	stops    []Answer // answers with which the step does not go on
}

var questions = []asked{
	{AskSaddle, BeforeYouStart, []Answer{SaddleLoose, SaddleUnsure, SaddleGlued, SaddleDamage, SaddlePrecious}, []Answer{SaddleGlued, SaddleDamage, SaddlePrecious}},
	{AskStrings, Measure, []Answer{StringsStay, StringsGo, StringsUnsure}, []Answer{StringsGo}},
	{AskBuzz, Choose, []Answer{BuzzNone, BuzzHeard, BuzzUnsure}, []Answer{BuzzHeard}},
	{AskRoom, MakePlan, []Answer{RoomFine, RoomWet, RoomDry, RoomUnsure}, []Answer{RoomWet, RoomDry}},
	{AskUnder, TakeOut, []Answer{UnderClear, UnderPickup, UnderShim, UnderUnsure, UnderStuck}, []Answer{UnderStuck}},
	{AskFollow, Mark, []Answer{FollowCaliper, FollowPencil, FollowKnife, FollowCards}, nil},
	{AskSeat, Seat, []Answer{SeatFlat, SeatRocks, SeatLeans, SeatUnsure}, []Answer{SeatRocks, SeatLeans, SeatUnsure}},
	{AskStrung, StringUp, []Answer{StrungSame, StrungAlike, StrungOther, StrungUnsure}, nil},
}

// Asks is the question that a step asks; ok is false when it asks none.
func (s Step) Asks() (Question, bool) {
	for _, a := range questions {
		if a.step == s {
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

// Answers lists what can be named, the commonest first.
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
