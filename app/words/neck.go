package words

import (
	"math"
	"strings"

	"gapwright/app/job"
	"gapwright/geometry"
)

// Feature names what of the neck is read.
func Feature(f job.Feature) string {
	switch f {
	case job.Relief:
		return "Relief"
	case job.FirstPressed:
		return "Fret 1, pressed"
	}
	return "Fret 1"
}

// PlaceName names a reading of the neck.
func PlaceName(i job.Instrument, p job.Place) string {
	if p.Feature == job.Relief {
		return Feature(p.Feature)
	}
	return Feature(p.Feature) + ", " + Course(i, p.Course)
}

// NeckTitle opens what more can be measured.
func NeckTitle() string { return "The neck" }

// Buys says what a reading of the neck is good for.
func Buys(p job.Place) string {
	if p.Feature == job.Relief {
		return "Shows whether a bent neck, not the saddle, holds the strings up."
	}
	return "Shows whether the nut is too high or too low."
}

// RadiusBuys says what the radius of the board is good for, the rest how it is found.
func RadiusBuys() string { return "Shapes a new saddle’s top. No cut rests on it." }
func RadiusLead() string { return "Lay radius gauges across the frets. Which one shows no light?" }
func RadiusMore() []string {
	return []string{
		"A radius gauge is a template with a curved edge. The smaller the radius, the rounder the board.",
		"Leave it empty when you don’t know it or the board is flat. What you see here rests on your readings, not on the radius.",
	}
}

// OtherStrings is the button that reads the strings between, and what that buys.
func OtherStrings() string { return "The strings between" }
func OtherStringsBuy() string {
	return "Shows whether the saddle’s top follows the board."
}

// MeasureIt is the button for a reading that was not taken yet.
func MeasureIt() string { return "Measure" }

// SurveyTitle heads a reading of the neck.
func SurveyTitle(i job.Instrument, p job.Place) string {
	if p.Feature == job.Relief {
		return "Relief, bass string"
	}
	return CourseTitle(i, p.Course) + ", fret 1"
}

// SurveyLead says where the string is held and read.
func SurveyLead(s job.Surveyed) string {
	if s.Feature == job.Relief {
		return "Hold it down at frets " + Number(s.Held) + " and " + Number(s.To) + ". What just fits at fret " + Number(s.Fret) + "?"
	}
	if s.Feature == job.FirstPressed {
		return "Press it down between frets 2 and " + Number(s.To) + ". What just fits over fret 1?"
	}
	return "String open. What just fits under it at fret 1?"
}

// SurveyMore says more of it.
func (r Reader) SurveyMore(f job.Feature) []string {
	fits := "It just fits when the string does not move at all. Thin feelers bend: slide them in straight. Ordinary printing paper is about " + r.hundredth(geometry.Exactly(geometry.Millimetre/10)) + " a sheet; measure ten together to know."
	if f == job.Relief {
		return []string{
			"Relief is how much the neck is bent under the strings’ pull. The string, held down at both ends, is the straightedge.",
			"A clamp or a capo at fret 1 leaves a hand free. Keep the instrument in playing position, in tune.",
			fits,
		}
	}
	if f == job.FirstPressed {
		return []string{
			"Pressed there, the string lies on fret 2 and runs straight to the nut. So the gap over fret 1 tells of the slot alone, and nothing of the saddle. Press firmly enough to touch fret 2.",
			"It is about a quarter of the open gap, and never compared with it.",
			fits,
		}
	}
	return []string{
		"The gap over fret 1 tells how deep the nut’s slot is. Too high makes the first frets hard to press and sharp; too low makes the open string buzz. No saddle cures either.",
		fits,
	}
}

// NothingFits is the button for a gap under which not even the thinnest goes, and the label of the field for that one.
func NothingFits() string   { return "Not even the thinnest fits" }
func SomethingFits() string { return "Something fits" }
func ThinnestLabel() string {
	return "Thinnest you have"
}

// SurveyPicture names the picture of how a feature is read.
func SurveyPicture(f job.Feature) string {
	if f == job.FirstPressed {
		return PressPicture()
	}
	if f == job.Relief {
		return "A string held down at two frets, a feeler under it half-way"
	}
	return "An open string over fret 1, a feeler between them"
}

// Standing says how a reading stands to what is usual.
func Standing(s geometry.Standing) string {
	switch s {
	case geometry.Usual:
		return "usual"
	case geometry.Above:
		return "more than usual"
	case geometry.Below:
		return "less than usual"
	case geometry.Unclear:
		return "may be usual"
	}
	return "not measured"
}

// Part names what sets a string's height.
func Part(f geometry.PartFound, i job.Instrument) string {
	switch f.Part {
	case geometry.PartRelief:
		return "Relief"
	case geometry.PartNut:
		return "Nut, " + Side(int(f.Side)) + " (gap at fret 1)"
	}
	return "Saddle, " + Side(int(f.Side)) + " (gap at fret 12)"
}

// PartLine says what was read of a part and what is usual.
func (r Reader) PartLine(f geometry.PartFound) string {
	if f.Standing == geometry.Unstated {
		return Standing(f.Standing)
	}
	return r.signed(f.Read) + ", " + Standing(f.Standing) + " (" + r.Span(f.Usual) + ")"
}

// hundredth says a range as feelers tell it, to the nearest hundredth of a millimetre or thousandth of an inch.
func (r Reader) hundredth(i geometry.Interval) string {
	low, high := r.digits(i.Low, r.fine()), r.digits(i.High, r.fine())
	if low == high {
		return low + unit(r.UnitName())
	}
	return upTo(low, high) + unit(r.UnitName())
}

// signed says a range that may reach below zero.
func (r Reader) signed(i geometry.Interval) string {
	if i.Low > 0 || i.Low == i.High {
		return r.hundredth(i)
	}
	if i.High <= 0 {
		return "bent back by " + r.hundredth(i.Times(-1))
	}
	return "under " + r.digits(i.High, r.fine()) + unit(r.UnitName())
}

// DiagnoseTitle heads what comes before the saddle.
func DiagnoseTitle(f geometry.PartFound) string {
	switch {
	case f.Part == geometry.PartRelief && f.Standing == geometry.Above:
		return "Neck first: too much relief"
	case f.Part == geometry.PartRelief:
		return "Neck first: too little relief"
	case f.Standing == geometry.Above:
		return "Nut first: too high"
	}
	return "Nut first: too low"
}

// DiagnoseLead says what was found and what putting it right does to the height.
func (r Reader) DiagnoseLead(f geometry.PartFound) string {
	lead := capital(r.signed(f.Read)) + "; usual " + r.Span(f.Usual) + "."
	moves, way := f.Moves, " raises"
	if moves.High <= 0 {
		moves, way = moves.Times(-1), " lowers"
	}
	if moves.Low < 0 {
		return lead
	}
	if f.Read.Low < 0 && f.Read.High > 0 { // how far it is out is not known, so neither is how far this goes
		return lead + " Setting it" + way + " fret 12."
	}
	return lead + " Setting it" + way + " fret 12 by " + r.Span(moves) + "."
}

// Advice says what to do about a part that is out, and when to stop. An unknown rod is never forced and no figure for its turns is given.
func Advice(f geometry.PartFound) string {
	switch {
	case f.Part == geometry.PartRelief && f.Standing == geometry.Above:
		return "Tighten at pitch. Turns hard? Stop: ask a qualified repairer."
	case f.Part == geometry.PartRelief:
		return "Loosen at pitch. Spins freely? Stop: ask a qualified repairer."
	case f.Standing == geometry.Above:
		return "Sanding the saddle does not cure it. Have the slots deepened by a qualified repairer."
	}
	return "No saddle cures it. Have the nut raised by a qualified repairer."
}

// AdviceMore says more.
func AdviceMore(p geometry.Part) []string {
	if p == geometry.PartRelief {
		return []string{
			"The truss rod is turned with the strings at pitch. First find out that there is one: many nylon-string guitars and ukuleles have none. Use the key that fits it exactly.",
			"Seen from the end where the key goes, clockwise tightens on most. One trial turn and a reading tell which way yours goes.",
			"Turn an eighth. Tune up, wait some minutes, read the relief again. Never turn more than half a turn in a day. A rod that does nothing, sticks, creaks or spins is work for a qualified repairer.",
			"Both fret 1 and fret 12 are read again before any saddle is cut.",
		}
	}
	return []string{
		"Slots need files as wide as the strings, and a slot that is too deep cannot be filled in a minute. Who has the files finds it as a job of its own.",
		"A nut that is only a little high can wait until the saddle is done. Later it lowers fret 12 too, by about half as much as fret 1.",
	}
}

// Learned says what an eighth of a turn did on this very instrument.
func (r Reader) Learned(each geometry.Interval) string {
	switch {
	case each.High <= 0:
		return "An eighth here: " + r.hundredth(each.Times(-1)) + "."
	case each.Low >= 0: // it turns the other way
		return "Tightening adds relief here."
	}
	return "An eighth shows nothing."
}

// The controls of the diagnosis.
func TurnedIt() string       { return "Turned: measure again" }
func SetByOther() string     { return "A repairer set it" }
func NutWasDone() string     { return "Done: measure again" }
func LeaveNeck() string      { return "Leave it, go on" }
func NeckReadings() string   { return "All readings" }
func ReadAgainFirst() string { return "Read it again" }

// DueLead says that a reading must be taken anew.
func DueLead() string { return "The neck was changed: read again." }

// LeaveOut is the button that goes on without it.
func LeaveOut() string { return "Leave it out" }

// Survey says a reading of the neck.
func (r Reader) Survey(s job.Surveyed) string {
	i, err := s.Interval()
	if err != nil {
		return ""
	}
	return r.signed(i)
}

// CrownLine says how the saddle's top follows the board; out is false when it does as far as the readings tell.
func (r Reader) CrownLine(i job.Instrument, c geometry.Crown, courses []int) (text string, out bool) {
	if c.Follows {
		return "The saddle’s top follows the board, as far as these readings tell.", false
	}
	worst, most := 0, geometry.Interval{}
	for k, h := range c.High {
		if max(h.High, -h.Low) > max(most.High, -most.Low) {
			worst, most = k, h
		}
	}
	if most.High <= 0 || -most.Low > most.High {
		return "Saddle " + r.Span(most.Times(-1).AtLeast(0)) + " low under " + theCourse(i, courses[worst]) + ": see a repairer first.", true
	}
	return "Saddle " + r.Span(most.AtLeast(0)) + " high under " + theCourse(i, courses[worst]) + ": shape its top first.", true
}

// CrownMore says why that comes first.
func CrownMore() string {
	return "A straight cut takes the same line off under all strings. So it cannot cure one that stands out of line."
}

func theCourse(i job.Instrument, course int) string {
	if course == 0 || course == i.Last() {
		return "the " + Course(i, course)
	}
	return Course(i, course)
}

// theString names a course within a sentence: the bass string, string 5.
func theString(i job.Instrument, course int) string {
	if course == 0 || course == i.Last() {
		return "the " + Course(i, course) + " string"
	}
	return Course(i, course)
}

// Player names whose playing a height is measured against.
func Player(p job.Player) string {
	switch p {
	case job.LightPlayer:
		return "Light"
	case job.MixedPlayer:
		return "Mixed"
	case job.HardPlayer:
		return "Strong"
	}
	return "My own"
}

// PlayersLabel names the row of them.
func PlayersLabel() string { return "Whose touch" }

// Chance says whether there is room, for a key or a line.
func Chance(c job.Chance) string {
	switch c {
	case job.RoomEnough:
		return "enough room"
	case job.RoomPerhaps:
		return "may buzz"
	case job.RoomLacking:
		return "will buzz"
	}
	return "not known"
}

// RoomLine says whether a wish leaves room, in a sentence; for whom stands beside it.
func RoomLine(i job.Instrument, seen [2]job.Seen) string {
	var where []string // both strings where both are as short of room
	for _, s := range seen {
		if s.Rooms.Worst == job.Worst(seen) {
			at := "open"
			if stop := s.Least().Stop; stop > 0 {
				at = Fret(stop)
			}
			where = append(where, Course(i, s.Course)+" "+at)
		}
	}
	switch job.Worst(seen) {
	case job.RoomEnough:
		return "Room enough everywhere."
	case job.RoomPerhaps:
		return "May buzz: " + strings.Join(where, ", ") + "."
	case job.RoomLacking:
		return "Will buzz: " + strings.Join(where, ", ") + "."
	}
	return "Tell how it sounds now."
}

func touchOf(p job.Player) string {
	switch p {
	case job.LightPlayer:
		return "a light touch"
	case job.MixedPlayer:
		return "a mixed touch"
	case job.HardPlayer:
		return "a strong attack"
	}
	return "your touch"
}

// StoppedAt says where a string is stopped.
func StoppedAt(stop int) string {
	if stop == 0 {
		return "open"
	}
	return "at fret " + Number(stop)
}

// OffLine says what comes off the saddle in all at both strings, or how far it moves there, bass first.
func (r Reader) OffLine(seen [2]job.Seen) string {
	if seen[0].Raises {
		way, far := r.sinks(seen[0].Off)
		other, farther := r.sinks(seen[1].Off)
		if way == other && way != "" {
			return capital(strings.TrimSpace(way)) + ": " + r.sides(far, farther+unit(r.UnitName()))
		}
		return capital(r.sides(way+far, other+farther+unit(r.UnitName())))
	}
	return "Off: " + r.sides(r.off(seen[0].Off), r.off(seen[1].Off)+unit(r.UnitName()))
}

func (r Reader) off(i geometry.Interval) string {
	if i.High < r.step()/2 {
		return "0"
	}
	o := i.Outward(r.step())
	return tight(r.Bare(o.Low), r.Bare(o.High))
}

// sinks says how far down or up something goes.
func (r Reader) sinks(down geometry.Interval) (way, far string) {
	low, high := r.off(down.AtLeast(0)), r.off(down.Times(-1).AtLeast(0))
	switch {
	case low == high: // neither
		return "", "0"
	case high == "0":
		return "down ", low
	case low == "0":
		return "up ", high
	}
	return "", "up " + r.Bare(-down.Low) + " or down " + r.Bare(down.High)
}

// ExplorePicture names the picture of the choice.
func ExplorePicture() string { return "Both strings from the side, with a grip each" }

// ExploreText describes it.
func (r Reader) ExploreText(i job.Instrument, seen [2]job.Seen) string {
	say := func(s job.Seen) string {
		return CourseTitle(i, s.Course) + " " + r.Length(s.Height) + ", " + Chance(s.Rooms.Worst) + ", first touches fret " + Number(s.Least().First)
	}
	return say(seen[0]) + ". " + say(seen[1]) + ". Drag a grip up or down, or use the buttons below."
}

// OffMore says what that line is.
func OffMore(m job.Method) string {
	if m.Raises() {
		return "Down or up: how far the saddle sinks or rises under the bass and the treble string. The range is what your readings leave open."
	}
	return "Off: what comes off the saddle in all, under the bass and the treble string. The range is what your readings leave open."
}

// CourseShort names a course beside its line.
func CourseShort(i job.Instrument, course int) string {
	switch course {
	case 0:
		return "Bass"
	case i.Last():
		return "Treble"
	}
	return Number(i.Last() - course + 1)
}

// Grip says a height beside its grip.
func (r Reader) Grip(l geometry.Length) string { return r.Length(l) }

// AsUsual says what a look at the strings rests on; empty when all of it was measured.
func AsUsual(m job.Measured) string {
	switch {
	case !m.Relief && !m.First:
		return "Relief and fret 1 are taken as usual. Measure them and this gets surer."
	case !m.Relief:
		return "The relief is taken as usual. Measure it and this gets surer."
	case !m.First:
		return "The gap at fret 1 is taken as usual. Measure it and this gets surer."
	}
	return ""
}

// FretByFret opens the headroom on the drawn neck.
func FretByFret() string { return "Fret by fret" }

// RoomKeys are the words of the picture's key: enough, perhaps, lacking.
func RoomKeys() [3]string { return [3]string{"enough room", "may buzz", "will buzz"} }

// When a look at the neck is of.
func NowChip() string    { return "Now" }
func WantedChip() string { return "Wanted" }
func RoundChip() string  { return "After this round" }
func MomentLabel() string {
	return "Which height"
}

// RoomPicture names the drawn neck with the headroom.
func RoomPicture() string { return "The neck, with the room at every stop" }

// RunLine says neighbouring stops in a line: Bass string, open to fret 3: may buzz, first on fret 4.
func RunLine(i job.Instrument, course int, run job.Run) string {
	where := "open"
	switch {
	case run.From == run.To && run.From > 0:
		where = "fret " + Number(run.From)
	case run.From == 0 && run.To > 0:
		where = "open to fret " + Number(run.To)
	case run.From > 0:
		where = "frets " + upTo(Number(run.From), Number(run.To))
	}
	touches := ", first on fret "
	switch run.Chance {
	case job.RoomEnough:
		touches = ", least over fret "
	case job.ChanceNotKnown:
		touches = ", least room over fret "
	}
	return CourseTitle(i, course) + ", " + where + ": " + Chance(run.Chance) + touches + Number(run.First)
}

// LeastRoom says the least room of a string.
func (r Reader) LeastRoom(i job.Instrument, course int, h geometry.Headroom) string {
	return CourseTitle(i, course) + ": least room " + StoppedAt(h.Stop) + ", " + r.Span(h.Free.AtLeast(0)) + "; would touch fret " + Number(h.First) + " first"
}

// LowestLine names the lowest height that suits a player.
func (r Reader) LowestLine(i job.Instrument, course int, p job.Player, s geometry.Suits) string {
	where := CourseTitle(i, course) + ": "
	if s.Beyond {
		return where + "no height at the saddle is sure to do for " + touchOf(p) + "; " + StoppedAt(s.Stop) + " decides it"
	}
	line := where + "lowest for " + touchOf(p) + " " + r.Span(s.Gap)
	if s.Stop == 0 {
		line += "; the open string decides it, so look at the nut"
	}
	return line
}

// LeftLine says what is left standing.
func (r Reader) LeftLine(i job.Instrument, s job.Seen) string {
	return CourseTitle(i, s.Course) + ": saddle left standing " + r.Span(s.Left)
}

// SharpLine says how sharp a string sounds at fret 12 before and after a change of its height, and what the change does.
func (r Reader) SharpLine(i job.Instrument, s job.Seen) string {
	return CourseTitle(i, s.Course) + ", fret 12: by its height and stretch now " + cents(s.Before) + ", then " + cents(s.Sharp) + "; this change " + cents(s.Change)
}

// cents says a range of cents in whole ones, outward.
func cents(c geometry.CentsRange) string {
	low, high := int(math.Floor(float64(c.Low)+0.05)), int(math.Ceil(float64(c.High)-0.05))
	if low == high {
		return signedNumber(low) + " cents"
	}
	return upTo(signedNumber(low), signedNumber(high)) + " cents"
}

// SharpUnknown says why no cents are told.
func SharpUnknown() string {
	return "Pitch: say on the instrument’s page what strings are on. Of wound steel strings no stretch is published, so nothing is told of theirs."
}

// RoomMore says what the model is and leaves out.
func RoomMore() []string {
	return []string{
		"Pull a string straight up or down where it is plucked, and let it go. Room is how far you can pull before it touches a fret. It is a safe guess for an ideal string; real ones get away with more.",
		"Worn frets, a pull along the board, a stiff string: all these are left out. So is each buzz that is not a string on a fret. Light, mixed and strong are workshop habit, not a measure of you.",
		"What you hear yourself is surer. Every test narrows what your touch needs.",
	}
}

// The buzz test.
func ListenButton() string { return "Test your own touch" }
func ListenTitle() string  { return "Play and listen" }
func ListenLead(i job.Instrument, course, stop int) string {
	return CourseTitle(i, course) + ", " + StoppedAt(stop) + ": play as hard as ever."
}
func ListenStop() string      { return "Stopped at fret" }
func SoundsClean() string     { return "Clean" }
func SoundsBuzz() string      { return "It buzzes" }
func CleanEverywhere() string { return "Clean everywhere" }
func LowerFret() string       { return "one lower" }
func HigherFret() string      { return "one higher" }
func ListenDone() string      { return "That’s all" }

// HeardLine says what was heard.
func HeardLine(f job.Listened) string {
	switch {
	case f.Everywhere:
		return "clean at every fret"
	case f.Buzzed:
		return StoppedAt(f.Stop) + ": buzzes"
	}
	return StoppedAt(f.Stop) + ": clean"
}

// TouchLine says what is known of the person's touch at a side.
func (r Reader) TouchLine(side int, t geometry.Touch) string {
	name := SideTitle(side) + ": "
	switch {
	case t.Buzzed && t.Clean:
		return name + "your touch needs " + r.Span(t.Needs) + " of room"
	case t.Buzzed:
		return name + "your touch needs more than " + r.Down(t.Needs.Low) + " of room"
	}
	return name + "your touch needs no more than " + r.Up(t.Needs.High) + " of room"
}

// TouchOdd says that what was heard does not fit together.
func TouchOdd() string {
	return "These do not agree: look for a high fret or loose part."
}

// TouchOddMore says why.
func TouchOddMore() string {
	return "It buzzed where there was more room than where it was clean, so height is not the cause there."
}

// HeardTitle opens what was heard.
func HeardTitle(times int) string { return "Heard: " + Number(times) }

// RoomFor says for whom the shapes are.
func RoomFor(p job.Player) string {
	return "For " + touchOf(p) + ", plucked where most play. Ringed: the least room, and the fret it touches first."
}

// WaysLabel names the row of ways to read.
func WaysLabel() string { return "What you slide in" }

// StopValue says a stop in a stepper.
func StopValue(stop int) string {
	if stop == 0 {
		return "open"
	}
	return Number(stop)
}
