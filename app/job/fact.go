package job

import (
	"encoding/json"
	"time"

	"gapwright/geometry"
)

// Event is one entry of a job's list. Everything that varies from outside arrives in it.
type Event struct {
	Job      string
	Sequence int       // from 1, without gaps
	Writer   string    // which copy of the app wrote it
	At       time.Time // as told by the device; only ages are taken from it, never an order
	Fact     Fact
}

// Fact is what happened. The kinds are closed: only this package has them.
type Fact interface{ kind() string }

// Way is how a gap was read.
type Way string

// The ways.
const (
	ByMarks   Way = "marks"   // a rule on end: light at one mark, none at the next
	ByCaliper Way = "caliper" // the caliper's depth rod or a wedge measured by it
	ByFeeler  Way = "feeler"  // what just fits
	ByCards   Way = "cards"   // a stack of equal cards
)

// Ways lists the ways.
func Ways() []Way { return []Way{ByMarks, ByFeeler, ByCards, ByCaliper} }

// Outcome is what a person makes of the new readings.
type Outcome string

// The outcomes.
const (
	Done    Outcome = "done"     // the wanted height is reached
	Again   Outcome = "again"    // another round
	TooMuch Outcome = "too-much" // lower than wanted
	Keep    Outcome = "keep"     // as it is, whether proven or not
)

// Outcomes lists the outcomes.
func Outcomes() []Outcome { return []Outcome{Done, Again, TooMuch, Keep} }

// The facts.
type (
	// Began opens a job: on which instrument, with what kit, by which method.
	Began struct {
		Method     Method     `json:"method"`
		Instrument Instrument `json:"instrument"`
		Kit        Kit        `json:"kit"`
	}
	// Equipped says what is to hand from now on.
	Equipped struct {
		Kit Kit `json:"kit"`
	}
	// Described says what is now known of the instrument.
	Described struct {
		Instrument Instrument `json:"instrument"`
	}
	// Answered names what is seen.
	Answered struct {
		Question Question `json:"question"`
		Answer   Answer   `json:"answer"`
	}
	// Read is one reading of one gap, as it was read.
	Read struct {
		String   int   `json:"string"` // course, 0 on the bass side
		Fret     int   `json:"fret"`
		Held     int   `json:"held,omitzero"`
		Way      Way   `json:"way"`
		Low      Typed `json:"low,omitzero"`      // the mark that shows light; what fits; the caliper's number
		High     Typed `json:"high,omitzero"`     // the mark that shows none; what does not fit; nothing for caliper and cards
		Count    int   `json:"count,omitzero"`    // cards that fit
		TenThick Typed `json:"tenThick,omitzero"` // ten of those cards
		End      Typed `json:"end,omitzero"`      // from the rule's end to its zero, nothing: the zero is at the end
		EndGive  Typed `json:"endGive,omitzero"`  // how far that may be off
		EndCut   bool  `json:"endCut,omitzero"`   // the rule was cut off past its zero: the distance is taken off, not added
		Replaces bool  `json:"replaces,omitzero"` // the earlier readings of this string were wrong
	}
	// Surveyed is one reading of what the string's path is made from besides its gap, as it was read.
	Surveyed struct {
		Feature Feature `json:"feature"`
		Read            // FirstFret: open, at fret 1. Relief: under that string, held down at Held and To, read at Fret between
		To      int     `json:"to,omitzero"`
	}
	// Listened is what was heard of one string, played as hard as the person ever does.
	Listened struct {
		String     int  `json:"string"`
		Stop       int  `json:"stop,omitzero"` // the fret it was stopped at, 0: open
		Buzzed     bool `json:"buzzed,omitzero"`
		Everywhere bool `json:"everywhere,omitzero"` // clean at every stop; then Stop is nothing
	}
	// Adjusted says that the neck was changed: readings before it no longer hold. Eighths counts eighths of a turn of a truss rod, tightened above
	// zero; 0: not counted, or no rod.
	Adjusted struct {
		Feature Feature `json:"feature"`
		Eighths int     `json:"eighths,omitzero"`
	}
	// Screwed says how far every screw, post or wheel was turned, in eighths of a turn, up above zero: with screws one number a course (both screws
	// of a saddle alike), with posts bass and treble side.
	Screwed struct {
		Eighths []int `json:"eighths"`
	}
	// Filed says that the nut slot of a course was deepened, and towards which gap at fret 1 (nothing: the usual one): what was read of it no longer
	// holds.
	Filed struct {
		String int   `json:"string"`
		Wanted Typed `json:"wanted,omitzero"`
	}
	// Slotted says, for a new saddle, what the slot measures, what the board above it is like across, and how high the old saddle is in all, from its
	// underside to its top under the two outer strings. Each length is give or take Give; nothing typed: not known. A later one takes the place of an
	// earlier one.
	Slotted struct {
		Length Typed   `json:"length,omitzero"`
		Width  Typed   `json:"width,omitzero"`
		Depth  Typed   `json:"depth,omitzero"`
		Across Rounded `json:"across,omitzero"`
		Bass   Typed   `json:"bass,omitzero"`
		Treble Typed   `json:"treble,omitzero"`
		Give   Typed   `json:"give,omitzero"`
	}
	// Made says that a part of making a new saddle is done, or with Open that it is not after all.
	Made struct {
		Part geometry.BlankStep `json:"part"`
		Open bool               `json:"open,omitzero"`
	}
	// LeftAlone says that a relief or a nut that is out stays as it is, and the work goes on.
	LeftAlone struct {
		Feature Feature `json:"feature"`
	}
	// Aired says what the air in the room is like where the instrument is read.
	Aired struct {
		Humidity    int     `json:"humidity,omitzero"`    // relative, in whole percent; 0: not read
		Temperature string  `json:"temperature,omitzero"` // as typed, in that scale; "": not read
		Scale       Degrees `json:"scale,omitzero"`
	}
	// Strung says that strings or tuning are not what they were; readings before it no longer hold.
	Strung struct {
		Strings string `json:"strings"`
		Tuning  string `json:"tuning"`
	}
	// Stood says, before a round's first stroke, how far the saddle stands over the top at one end, give or take Give, and what is known of its seat.
	Stood struct {
		Side     int   `json:"side"` // 0 bass, 1 treble
		Exposure Typed `json:"exposure,omitzero"`
		Give     Typed `json:"give,omitzero"`
		Behind   Typed `json:"behind,omitzero"`
		Depth    Typed `json:"depth,omitzero"`
	}
	// Chosen says what height is wanted for the bass-most and treble-most course; those between share it out evenly.
	Chosen struct {
		Bass   Typed  `json:"bass,omitzero"`
		Treble Typed  `json:"treble,omitzero"`
		Own    bool   `json:"own,omitzero"` // the person knows their touch: their own floor, not the beginner's
		For    Player `json:"for,omitzero"` // whose touch it was looked at for
	}
	// Did says that a step is done.
	Did struct {
		Step Step `json:"step"`
	}
	// Skipped says that a step is left out.
	Skipped struct {
		Step Step `json:"step"`
	}
	// Checked is a caliper check: strokes since the last one (none before the first stroke) and the heights at the two marked points.
	Checked struct {
		Strokes  int   `json:"strokes"`
		Bass     Typed `json:"bass,omitzero"`
		Treble   Typed `json:"treble,omitzero"`
		Accuracy Typed `json:"accuracy,omitzero"`
		Replaces bool  `json:"replaces,omitzero"` // the heights of the check before were misread; its strokes stand
	}
	// Looked is a look at the drawn line: strokes since the last one, and how the line looks at bass end, middle and treble end.
	Looked struct {
		Strokes int  `json:"strokes"`
		Bass    Line `json:"bass"`
		Middle  Line `json:"middle"`
		Treble  Line `json:"treble"`
	}
	// Judged says what the person makes of the new readings.
	Judged struct {
		Outcome Outcome `json:"outcome"`
	}
	// Shimmed says that strips went under the saddle, this thick at the bass and treble end; nothing typed: not known.
	Shimmed struct {
		Bass   Typed `json:"bass,omitzero"`
		Treble Typed `json:"treble,omitzero"`
	}
	// Noted is a remark for the record.
	Noted struct {
		Text string `json:"text"`
	}
	// Saved ends the job and leaves a baseline.
	Saved struct{}
	// PutAway ends the job without one.
	PutAway struct{}
	// Undone takes back the fact with that sequence number.
	Undone struct {
		Sequence int `json:"sequence"`
	}
)

// Line is how a drawn line looks, as it stands in records.
type Line string

// What can be seen of it.
const (
	Clear   Line = "clear"
	Touched Line = "touched"
	Gone    Line = "gone"
)

// Lines lists what can be seen of a line.
func Lines() []Line { return []Line{Clear, Touched, Gone} }

func (l Line) geometry() (geometry.LineSeen, bool) {
	switch l {
	case Clear:
		return geometry.LineClear, true
	case Touched:
		return geometry.LineTouched, true
	case Gone:
		return geometry.LineGone, true
	}
	return 0, false
}

func (Began) kind() string     { return "began" }
func (Equipped) kind() string  { return "equipped" }
func (Described) kind() string { return "described" }
func (Answered) kind() string  { return "answered" }
func (Read) kind() string      { return "read" }
func (Surveyed) kind() string  { return "surveyed" }
func (Listened) kind() string  { return "listened" }
func (Adjusted) kind() string  { return "adjusted" }
func (Screwed) kind() string   { return "screwed" }
func (Filed) kind() string     { return "filed" }
func (Slotted) kind() string   { return "slotted" }
func (Made) kind() string      { return "made" }
func (LeftAlone) kind() string { return "left-alone" }
func (Aired) kind() string     { return "aired" }
func (Strung) kind() string    { return "strung" }
func (Stood) kind() string     { return "stood" }
func (Chosen) kind() string    { return "chosen" }
func (Did) kind() string       { return "did" }
func (Skipped) kind() string   { return "skipped" }
func (Checked) kind() string   { return "checked" }
func (Looked) kind() string    { return "looked" }
func (Judged) kind() string    { return "judged" }
func (Shimmed) kind() string   { return "shimmed" }
func (Noted) kind() string     { return "noted" }
func (Saved) kind() string     { return "saved" }
func (PutAway) kind() string   { return "put-away" }
func (Undone) kind() string    { return "undone" }

// writtenEvent is an event as documents keep it.
type writtenEvent struct {
	Job      string          `json:"job"`
	Sequence int             `json:"seq"`
	Writer   string          `json:"by"`
	At       time.Time       `json:"at"`
	Kind     string          `json:"fact"`
	What     json.RawMessage `json:"what"`
}

// MarshalJSON writes the event with the name of its fact.
func (e Event) MarshalJSON() ([]byte, error) {
	kind := ""
	if e.Fact != nil {
		kind = e.Fact.kind()
	}
	what, err := json.Marshal(e.Fact)
	if err != nil {
		return nil, err
	}
	return json.Marshal(writtenEvent{e.Job, e.Sequence, e.Writer, e.At, kind, what})
}

// UnmarshalJSON reads an event back. A fact that this version does not know gives a *Refusal of kind RefusedUnknown.
func (e *Event) UnmarshalJSON(data []byte) error {
	var w writtenEvent
	if err := json.Unmarshal(data, &w); err != nil {
		return err
	}
	fact, err := readFact(w.Kind, w.What)
	if err != nil {
		return err
	}
	*e = Event{w.Job, w.Sequence, w.Writer, w.At, fact}
	return nil
}

func readFact(kind string, what []byte) (Fact, error) {
	switch kind {
	case "began":
		return readAs[Began](what)
	case "equipped":
		return readAs[Equipped](what)
	case "described":
		return readAs[Described](what)
	case "answered":
		return readAs[Answered](what)
	case "read":
		return readAs[Read](what)
	case "surveyed":
		return readAs[Surveyed](what)
	case "listened":
		return readAs[Listened](what)
	case "adjusted":
		return readAs[Adjusted](what)
	case "screwed":
		return readAs[Screwed](what)
	case "filed":
		return readAs[Filed](what)
	case "slotted":
		return readAs[Slotted](what)
	case "made":
		return readAs[Made](what)
	case "left-alone":
		return readAs[LeftAlone](what)
	case "aired":
		return readAs[Aired](what)
	case "strung":
		return readAs[Strung](what)
	case "stood":
		return readAs[Stood](what)
	case "chosen":
		return readAs[Chosen](what)
	case "did":
		return readAs[Did](what)
	case "skipped":
		return readAs[Skipped](what)
	case "checked":
		return readAs[Checked](what)
	case "looked":
		return readAs[Looked](what)
	case "judged":
		return readAs[Judged](what)
	case "shimmed":
		return readAs[Shimmed](what)
	case "noted":
		return readAs[Noted](what)
	case "saved":
		return readAs[Saved](what)
	case "put-away":
		return readAs[PutAway](what)
	case "undone":
		return readAs[Undone](what)
	}
	return nil, &Refusal{Kind: RefusedUnknown, String: -1}
}

func readAs[F Fact](what []byte) (Fact, error) {
	var f F
	err := json.Unmarshal(what, &f)
	return f, err
}

// ReadByMarks is a rule's reading of a course with the kit's rule: light shows at the n-th mark and none at the next.
func ReadByMarks(kit Kit, instrument Instrument, course, n int) Read {
	return Read{String: course, Fret: instrument.ReadFret(), Held: instrument.Held, Way: ByMarks, Low: kit.Mark(n), High: kit.Mark(n + 1),
		End: kit.end(), EndGive: kit.endGive(), EndCut: kit.Zero == ZeroCutOff}
}

// Interval is what the reading allows the gap to be. Errors are geometry's.
func (r Read) Interval() (geometry.Interval, error) {
	switch r.Way {
	case ByMarks:
		low, high, err := lengths(r.Low, r.High)
		if err != nil {
			return geometry.Interval{}, err
		}
		marks, err := geometry.TwoMarks(low, high)
		if err != nil || !r.End.Given() && !r.EndGive.Given() && !r.EndCut { // the zero is at the end
			return marks, err
		}
		end, give, err := lengths(r.End, r.EndGive)
		if err != nil {
			return geometry.Interval{}, err
		}
		return geometry.OnRuleEnd(marks, ruleEnd(end, give, r.EndCut))
	case ByCaliper:
		value, err := r.Low.Length()
		if err != nil {
			return geometry.Interval{}, err
		}
		return geometry.Caliper(value, geometry.CaliperAccuracy)
	case ByFeeler:
		fits, next, err := lengths(r.Low, r.High)
		if err != nil {
			return geometry.Interval{}, err
		}
		return geometry.JustFits(fits, next)
	case ByCards:
		ten, err := r.TenThick.Length()
		if err != nil {
			return geometry.Interval{}, err
		}
		return geometry.Cards(r.Count, geometry.Interval{Low: ten - geometry.CaliperAccuracy, High: ten + geometry.CaliperAccuracy})
	}
	return geometry.Interval{}, geometry.ErrNoReading
}

func lengths(a, b Typed) (geometry.Length, geometry.Length, error) {
	first, err := a.Length()
	if err != nil {
		return 0, 0, err
	}
	second, err := b.Length()
	return first, second, err
}
