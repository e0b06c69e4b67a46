package words

import (
	"errors"
	"strings"

	"gapwright/app/job"
	"gapwright/geometry"
)

// ReadTitle heads the reading of one string.
func ReadTitle(i job.Instrument, course int, again bool) string {
	title := CourseTitle(i, course) + ", " + Fret(i.ReadFret())
	if again {
		title += ", again"
	}
	return title
}

// ReadLead says how to read with a rule.
func ReadLead(i job.Instrument) string {
	held := "In tune, string open."
	if i.Held > 0 {
		held = "In tune, string held down at " + Fret(i.Held) + "."
	}
	return held + " Stand the rule on the fret beside it. Tap the highest mark with light under the string."
}

// ReadMore says more of how to read.
func ReadMore() []string {
	return []string{
		"Hold the instrument as you play it. Or lay it on its back, with only the body supported: a pressed neck reads wrong.",
		"The rule stands upright, and touches the fret and not the wood.",
		"The truth lies between the two marks. Do not guess a finer number.",
		"If fret 12 is loose or worn, the reading is false. Listen if frets 11, 12 and 13 all sound clean.",
	}
}

// MarkSeen says a reading on the main button: light at 2.25, none at 2.50.
func MarkSeen(lit, dark job.Typed) string {
	return "Light at " + marked(lit.Text) + ", none at " + marked(dark.Text) + unit(Reader{Unit: lit.Unit}.UnitName())
}

// The rule control's small words.
func LightHere() string   { return "light" }
func NoLightHere() string { return "no light" }
func Higher() string      { return "Higher" }
func Lower() string       { return "Lower" }
func OneMarkUp() string   { return "One mark higher" }
func OneMarkDown() string { return "One mark lower" }
func OtherWays() string   { return "No rule to hand?" }
func UseTheRule() string  { return "Use the rule" }
func ReadButton() string  { return "Take this reading" }
func RulePicture() string { return "The rule on end under the string" }
func NoMarkLight() string { return "No mark shows light" }
func ReadAgain() string   { return "Read again" }
func GoOn() string        { return "Go on" }
func Back() string        { return "Back" }
func Undo() string        { return "Undo" }
func More() string        { return "How, and why" }
func Numbers() string     { return "The numbers" }
func IDontKnow() string   { return "I don’t know" }
func ReadTwice() string   { return "A second reading: it must agree with the first." }
func ReplaceIt() string   { return "The first was wrong" }

// RulePictureText describes the control for those who do not see it.
func RulePictureText(lit, dark job.Typed) string {
	return "A rule stands on the fret. Marks up to " + marked(lit.Text) + " show light under the string; " + marked(dark.Text) + " shows none."
}

// Way names a way of reading.
func Way(w job.Way) string {
	switch w {
	case job.ByMarks:
		return "A rule"
	case job.ByCaliper:
		return "Caliper"
	case job.ByFeeler:
		return "Feelers"
	case job.ByCards:
		return "Cards"
	}
	return ""
}

// WayLead says how to read in a way other than by rule.
func WayLead(w job.Way) string {
	switch w {
	case job.ByCaliper:
		return "Stand the depth rod on the fret and bring it up until it just meets the string."
	case job.ByFeeler:
		return "Slide leaves between fret and string. One fits when the string does not move at all."
	case job.ByCards:
		return "Stack equal cards under the string until one more would move it. Measure ten together."
	}
	return ""
}

// The labels of the typed readings.
func FitsLabel() string     { return "Fits" }
func NextLabel() string     { return "Next, too thick" }
func ValueLabel() string    { return "Caliper reads" }
func CardsLabel() string    { return "Cards that fit" }
func TenCardsLabel() string { return "Ten cards measure" }

// RuleQuestion asks how the rule is marked.
func RuleQuestion() Ask {
	return Ask{Title: "How is your rule marked?", Lead: "Look at the finest marks near its end.", More: []string{
		"Not sure? Choose the last answer: counting the spaces between two numbers tells.",
		"A coarse rule can start a job but not end it. The app says when you need a finer one.",
	}}
}

// ZeroQuestion asks where the rule's zero lies.
func ZeroQuestion() Ask {
	return Ask{Title: "Where is its zero?", Lead: "Hold the end you will stand on the fret against something flat.", More: []string{
		"Many rules have a blank bit before the first mark. It adds to every reading, so it must be known.",
		"If you don’t know, each reading is less sure, by about half a mark. That is often too much to plan a cut.",
	}}
}

// ZeroDistance asks for the distance from end to zero.
func ZeroDistance(z job.Zero) Ask {
	if z == job.ZeroCutOff {
		return Ask{Title: "How much is missing?", Lead: "Measure from the rule’s end to its first whole mark, and take that from what the mark says."}
	}
	return Ask{Title: "How far is zero from the end?", Lead: "Measure from the rule’s end to its zero mark."}
}

// Distance labels that field.
func Distance() string { return "From end to zero" }

// MeasuredTitle heads the review of the readings.
func MeasuredTitle() string { return "Your readings" }

// BlankCounted says that the blank before a rule's zero is in the reading.
func (r Reader) BlankCounted(end job.Typed) string {
	return "Blank of " + r.Typed(end) + " counted in."
}

// TooOld says that the readings must be taken again.
func TooOld() string {
	return "These readings are from more than a day ago. Wood moves; read again before anything comes off."
}

// ChangedStrings is the button for other strings or another tuning, and what it does.
func ChangedStrings() string { return "Strings or tuning changed" }
func ChangedStringsMore() string {
	return "Readings taken before that no longer count, and are asked for again."
}

// ChooseTitle heads the choice of heights.
func ChooseTitle() string { return "How high?" }

// Heights says a pair of heights, bass first.
func (r Reader) Heights(bass, treble job.Typed) string {
	return r.sides(r.Typed(bass), r.Typed(treble))
}

// sides says the same of both outer strings, the unit once where it is the same.
func (r Reader) sides(bass, treble string) string {
	return "bass " + r.bared(bass, treble) + ", treble " + treble
}

// AimFor is the main button of the choice.
func (r Reader) AimFor(bass, treble job.Typed) string {
	return capital(r.Heights(bass, treble))
}

// ChooseLead compares what is with what is usual.
func (r Reader) ChooseLead(now string, usual geometry.Interval) string {
	return "Bass now " + now + ", usual " + r.Span(usual) + "."
}

// ChooseMore explains the floors.
func ChooseMore(m job.Method) []string {
	floor := "The floor is the least the app plans for. The beginner’s floor is a little higher"
	if m == job.SandUnderside {
		floor += ", and the first round then stops half-way: you measure, play, and decide"
	}
	return []string{
		"Usual heights are workshop habit, not a standard. A strong attack needs room; a light touch gets by with less.",
		floor + ".",
	}
}

// OwnFloor is the switch for people who know their touch.
func OwnFloor() string { return "I know my touch: allow less" }

// LowestOfSaddle tells the lowest height that the saddle allows.
func (r Reader) LowestOfSaddle(l geometry.Length, i job.Instrument, course int) string {
	return "This saddle allows no less than " + r.Up(l) + " at the " + Course(i, course) + "."
}

// StandQuestion asks how far the saddle stands up.
func StandQuestion() Ask {
	return Ask{Title: "How far does the saddle stand up?", Lead: "From the wood in front of it to its top, under each outer string.", More: []string{
		"What is left standing bends the strings over the saddle. With too little, the strings sound weak and slip. With these two numbers the app warns you in time.",
		"A quick reading with the rule is good enough. Without it the app cannot warn you: that is all you lose.",
	}}
}

// PlanTitle heads the plan.
func PlanTitle(o job.PlanOutcome, round int) string {
	switch o {
	case job.PlanGo:
		return "Take off at most"
	case job.PlanThere:
		return "It is there already"
	case job.PlanClose:
		return "As near as sanding gets"
	case job.PlanCannotTell:
		return "This reading cannot tell"
	case job.PlanHeldBack:
		return "The other side comes down too"
	case job.PlanTooLow:
		return "Stop: too little saddle"
	}
	return ""
}

// PlanLead says what the plan means.
func (r Reader) PlanLead(p job.Plan, i job.Instrument, kit job.Kit) string {
	switch p.Outcome {
	case job.PlanGo:
		if p.HalfWay {
			return "This is half of it. Then measure."
		}
		return noneTooLow
	case job.PlanThere:
		return "Both strings are at the wanted height or under it, as far as these readings go. Nothing should come off."
	case job.PlanClose:
		return "What is left is less than the fine paper alone takes. Leave it."
	case job.PlanCannotTell:
		return CourseTitle(i, p.Unclear()) + ": this reading is too wide to cut by. Read it more finely: " + finerMeans(kit) + "."
	case job.PlanHeldBack:
		if p.HeldBy != 0 && p.HeldBy != i.Last() {
			return CourseTitle(i, p.HeldBy) + " stands lower than its neighbours. Leave it, wish for lower heights, or have the saddle’s top shaped."
		}
		if p.HeldHelps {
			return "A straight underside lowers the other side a little too. Is " + r.Length(p.HeldTarget) + " all right at the " + Course(i, p.HeldBy) + "?"
		}
		return "A straight underside would take the " + Course(i, p.HeldBy) + " under its floor. Leave it, or raise that end with a strip."
	case job.PlanTooLow:
		return "The strings would hardly press on it. See a qualified repairer."
	}
	return ""
}

// noneTooLow is what each plan is made for.
const noneTooLow = "This way no string ends too low."

// WholeCut tells the whole cut as the range it is.
func (r Reader) WholeCut(side int, i geometry.Interval) string {
	return SideTitle(side) + ": " + r.Span(i) + " in all, over one or more rounds"
}

// AfterRound tells where a string will be after the round.
func (r Reader) AfterRound(i job.Instrument, p job.PlannedString) string {
	return CourseTitle(i, p.Course) + ": now " + r.Span(p.Reading) + ", after this round " + r.Span(p.After)
}

// WantedHeight tells the wish.
func (r Reader) WantedHeight(l geometry.Length) string { return "wanted " + r.Length(l) }

// FineOnly says that an end gets fine paper alone.
func FineOnly(side int) string {
	return "At the " + Side(side) + " nothing but a few strokes of fine paper."
}

// Leaves says what a straight cut cannot do.
func (r Reader) Leaves(l geometry.Length) string {
	return "A straight underside cannot give every string its height. A strip of up to " + r.Length(l) + " under the low end would."
}

// Finding says what was found about the saddle that will be left.
func (r Reader) Finding(f geometry.Finding) string {
	end := Side(int(f.Side))
	switch f.Kind {
	case geometry.ExposureTooLow:
		if f.Severity == geometry.Refuse {
			return SideTitle(int(f.Side)) + ": " + r.Down(f.Length) + " would stand up; " + r.Length(geometry.ExposureStop) + " is the least."
		}
		return SideTitle(int(f.Side)) + " may end at " + r.Down(f.Length) + "; " + r.Length(geometry.ExposureGood) + " or more is good."
	case geometry.BreakTooShallow:
		return SideTitle(int(f.Side)) + ": strings press weakly at " + Angle(f.Angle) + "; good: 20°."
	case geometry.LeanRisk:
		return "At the " + end + " more saddle stands up than sits in the slot. Watch that it does not lean."
	}
	return ""
}

// NotEvery says it in short, where Leaves tells more.
func NotEvery() string { return "Not every string gets its height." }

// TooWide says that a reading can begin a job but not end it.
func TooWide() string {
	return "Too wide to prove the end."
}

// TooSmallToSee says that the rule cannot show what the round will do.
func TooSmallToSee() string { return "Your rule could hardly show this." }

// Blind asks for the saddle's stand before a deep cut.
func Blind() string {
	return "That is a lot: measure the saddle first."
}

// MeasureStand is the button for it.
func MeasureStand() string { return "Measure the saddle" }

// FollowPlan is the main button of a plan that goes.
func FollowPlan() string   { return "I’ll stop at this line" }
func OtherHeights() string { return "Other heights" }
func FinerReading() string { return "Read more finely" }
func KeepAsItIs() string   { return "Leave it as it is" }

// AcceptTarget is the button that accepts the height that a straight underside asks for.
func (r Reader) AcceptTarget(l geometry.Length) string { return "Yes, " + r.Length(l) }

func SaddlePicture() string  { return "The saddle from the front, with the line to stop at" }
func EdgeCounts() string     { return "this edge counts" }
func Magnified(n int) string { return "drawn " + Number(n) + " × as deep" }

// SaddlePictureText describes the picture of the cut.
func (r Reader) SaddlePictureText(bass, treble geometry.Length) string {
	return "A straight line along the underside: " + r.Length(bass) + " up at the bass end, " + r.Length(treble) + " up at the treble end. What is below it comes off."
}

// MarkTitle heads the marking.
func MarkTitle() string { return "Mark the saddle" }

// MarkLead says how to mark for what will be followed.
func (r Reader) MarkLead(follow job.Answer, bass, treble geometry.Length) string {
	switch follow {
	case job.FollowCaliper:
		return "Write B on the bass side of the front. Put a dot near each end: the caliper always goes there."
	case job.FollowKnife:
		return "Write B on the bass side. From the underside, at the very ends, score a straight line: " + r.upAt(bass, "bass") + ", " + r.upAt(treble, "treble") + "."
	case job.FollowCards:
		return "Write B on the bass side. Stack cards beside it up to the line: " + r.upAt(bass, "bass") + ", " + r.upAt(treble, "treble") + ". Score along the top card."
	}
	return "Write B on the bass side. From the underside, at the very ends, draw a straight line: " + r.upAt(bass, "bass") + ", " + r.upAt(treble, "treble") + ". Its lower edge counts."
}

// upAt says how far up a line is at an end; where it is too low to be drawn it runs out at the corner.
func (r Reader) upAt(l geometry.Length, end string) string {
	if low, _ := job.RunsOut(geometry.Line{Bass: l}); low {
		return "the corner at " + end
	}
	return r.Length(l) + " at " + end
}

// CutNumber says a cut at an end in large.
func (r Reader) CutNumber(l geometry.Length) string {
	if l.RoundDown(r.step()) <= 0 {
		return "nothing"
	}
	return r.Down(l)
}

// MarkMoved says where a corrected line lies, from the line that is on the saddle: its underside is no longer where it was.
func (r Reader) MarkMoved(bass, treble geometry.Length) string {
	return "The plan has changed. Draw a new line, measured from the old one: " + r.moved(bass) + " at bass, " + r.moved(treble) + " at treble."
}

func (r Reader) moved(l geometry.Length) string {
	switch {
	case l.RoundTo(r.step()) == 0:
		return "where it was"
	case l < 0:
		return r.Length(-l) + " lower"
	}
	return r.Length(l) + " higher"
}

// Misread is the button for a height that was read wrongly before.
func Misread() string { return "Last one misread" }

// Replaced says that another window has taken up a newer version.
func Replaced() string {
	return "Another window has a newer version. Reload when you are ready: all is kept."
}

// MarkMore says more.
func MarkMore() []string {
	return []string{
		"The lower edge of the line counts: once the paper touches it, you are there.",
		"Mark which side faces the strings’ ends too. A saddle that is turned round has its top sloping the wrong way.",
	}
}

// Marked is the main button.
func Marked() string { return "Marked" }

// SandTitle says what to do next while sanding.
func SandTitle(c job.Coach, uneven bool) string {
	if !c.Ready {
		return "Measure before the first stroke"
	}
	switch c.Verdict {
	case geometry.AtLine:
		if uneven {
			return "Stop: one end is there"
		}
		return "Stop: you are there"
	case geometry.PastLine:
		return "Stop: past the line"
	}
	if c.ByCaliper {
		return Strokes(c.Strokes) + ", then measure"
	}
	return Strokes(c.Strokes) + ", then look"
}

// SandLead says how. Uneven: the round ends although one end has some left.
func (r Reader) SandLead(c job.Coach, uneven bool) string {
	if !c.Ready {
		return "Caliper at the two dots, from the underside to the top."
	}
	switch c.Verdict {
	case geometry.KeepLevel:
		return "Hold it upright, press evenly."
	case geometry.FavourBass:
		return "Press the bass end more."
	case geometry.FavourTreble:
		return "Press the treble end more."
	case geometry.Hollow:
		return "Tape the paper down flat."
	case geometry.Rounded:
		return "Hold lower, press both ends."
	case geometry.AtLine:
		if uneven {
			return "One end has given all it may. Leave the rest to the next round, or let that end hang over the paper’s edge and sand only the other."
		}
		return "The line is reached. Leave the rest to fine paper and the next measuring."
	case geometry.PastLine:
		return "More came off than planned. Sand no further. String up and measure: it may be right, and a strip can put height back."
	}
	return ""
}

// SandMore says more, with the dust caution.
func SandMore(grit int) []string {
	return []string{
		"Dust of bone, shell and plastics harms lungs: wear a mask that seals, or sand wet, and wipe up wet. Not where food is made.",
		"One stroke is the paper’s length, one way. Hold the saddle between the fingertips of both hands.",
		"Turn it end for end now and then: every hand presses more on one side.",
		"If one end is there, let it hang over the edge of the paper. Then a few strokes sand only the other.",
		"A middle that stays behind: the paper bends or the hand rolls. Check that the base is flat. A middle that runs ahead: hold lower and press on both ends.",
	}
}

// CheckLabels label the caliper's two fields.
func HeightAt(side int) string { return SideTitle(side) + ", height" }
func StrokesDone() string      { return "Strokes done" }
func RecordCheck() string      { return "Record this check" }
func RecordStart() string      { return "Record these heights" }
func StopSanding() string      { return "Stop here" }
func StopHere() string         { return "Go on: put it back" }
func FewerStrokes() string     { return "One stroke fewer" }
func MoreStrokes() string      { return "One stroke more" }

// StopAt labels the height at an end with the one to stop at.
func (r Reader) StopAt(side int, target geometry.Length) string {
	return SideTitle(side) + ", stop at " + r.digits(target.RoundUp(r.fine()), r.fine())
}

// ShortTitle heads the short form.
func ShortTitle(i job.Instrument, again bool) string {
	title := "Outer strings, " + Fret(i.ReadFret())
	if again {
		title += ", again"
	}
	return title
}

// LookQuestion asks how the line looks.
func LookQuestion() string { return "How is the line?" }

// Line words what can be seen of the line.
func Line(l job.Line) string {
	switch l {
	case job.Clear:
		return "clear"
	case job.Touched:
		return "touched"
	case job.Gone:
		return "gone"
	}
	return ""
}

// Place names where along the line.
func Place(n int) string {
	switch n {
	case 0:
		return "Bass"
	case 1:
		return "Middle"
	}
	return "Treble"
}

// SmoothAsk is the smoothing step.
func (r Reader) SmoothAsk(c job.Coach, halfWay bool) Ask {
	if c.Verdict == geometry.PastLine {
		return Ask{Title: "Do not smooth now", Lead: "More came off than planned. Put it back and measure first.", More: smoothMore}
	}
	if halfWay {
		return Ask{Title: "Smooth later", Lead: "Another round is likely. Smooth only in the last one, so that no height is spent twice.", More: smoothMore}
	}
	if c.SmoothBass.RoundDown(r.step()) <= 0 && c.SmoothTreble.RoundDown(r.step()) <= 0 {
		return Ask{Title: "No smoothing left", Lead: "Nothing more is sure to be free at either end. Leave the marks, or give it one stroke on the finest paper.", More: smoothMore}
	}
	return Ask{Title: "Smooth the underside",
		Lead: "Is this the last round? Then a few strokes on fine paper, P400 or so, and at bass no more than " + r.Down(c.SmoothBass) + ", at treble " + r.Down(c.SmoothTreble) + ".",
		More: smoothMore}
}

var smoothMore = []string{
	"Try it against a straight edge. A saddle that rocks loses tone and, over a pickup, strings.",
	"Do not round the edges.",
}

func Smoothed() string    { return "I smoothed it" }
func SkipForNow() string  { return "Leave it rough" }
func SkipMeasure() string { return "Don’t measure" }
func AnswerAgain() string { return "Answer again" }

// VerdictTitle heads the comparison after the work.
func VerdictTitle(all []job.Compared) string {
	worst := geometry.Reached
	for _, c := range all {
		if c.Verdict == geometry.TooLow {
			return "Lower than wanted"
		}
		if c.Verdict == geometry.StillHigh {
			worst = geometry.StillHigh
		}
		if c.Verdict == geometry.CannotTell && worst == geometry.Reached {
			worst = geometry.CannotTell
		}
	}
	switch worst {
	case geometry.StillHigh:
		return "Still higher than wanted"
	case geometry.CannotTell:
		return "Near, but this cannot prove it"
	}
	return "There: as wanted"
}

// DoesNotFit heads a reading that does not meet what was to be expected.
func DoesNotFit() string { return "This reading does not fit" }

// Expected says what was to be expected of it.
func (r Reader) Expected(i job.Instrument, c job.Compared) string {
	return CourseTitle(i, c.Course) + ": expected " + r.Span(c.Predicted) + ". Read again."
}

// Verdict says what a reading shows of a wish.
func Verdict(v geometry.Verdict) string {
	switch v {
	case geometry.Reached:
		return "as wanted"
	case geometry.StillHigh:
		return "still high"
	case geometry.TooLow:
		return "too low"
	case geometry.CannotTell:
		return "cannot tell"
	}
	return ""
}

// ComparedMore tells what was expected of it.
func (r Reader) ComparedMore(i job.Instrument, c job.Compared) string {
	switch {
	case !c.Compares:
		return CourseTitle(i, c.Course) + ": nothing to compare with, since strings, strips or the saddle have changed."
	case !c.Meets:
		return CourseTitle(i, c.Course) + ": expected " + r.Span(c.Predicted) + ". Something else moved too: the seat, the neck, strings or tuning."
	}
	return CourseTitle(i, c.Course) + ": expected " + r.Span(c.Predicted) + ", and the two agree at " + r.Span(c.Both) + "."
}

// PlayIt asks to listen before judging.
func PlayIt() string { return "Play everywhere, then decide." }

// The buttons after measuring.
func DoneButton() string  { return "Done: keep it" }
func AgainButton() string { return "Another round" }

// KeepButton keeps what was reached without saying that it is as wanted. A new saddle that is too high is left so on purpose.
func KeepButton(m job.Method, all []job.Compared) string {
	if sandNext(m, all) {
		return "Keep it: sand next"
	}
	return KeepAsItIs()
}

func TooMuchButton() string { return "I took too much" }

// ShimAsk says how to raise it safely by a strip, for now.
func (r Reader) ShimAsk(missing geometry.Interval, much bool) Ask {
	lead := "One even strip under the whole saddle puts height back at both ends."
	switch {
	case much:
		lead = "Too much is missing for a strip: " + r.Span(missing) + ". The saddle must be replaced. See a qualified repairer."
	case missing.High > 0:
		lead = "One even strip under the whole saddle, " + r.Span(missing) + " thick. It lifts both ends."
	}
	return Ask{Title: "Put height back", Lead: lead, More: []string{
		"Use a hard and even strip that fills the whole floor of the slot. Veneer of hard wood or bone will do, or stiff card for a trial. Never lay it under one end alone: the saddle could break.",
		"Slacken the strings and lift the saddle. Lay the strip in and seat it. Tune up, let it settle, and measure again.",
		"Over a pickup strip a shim costs tone and balance: a new saddle is the honest repair. The same when more than " + r.Length(job.ThickestStrip) + " is missing. A qualified repairer makes one.",
	}}
}

func Shimmed() string        { return "A strip is in: measure again" }
func ShimAt(side int) string { return "Strip, " + Side(side) }
func SaveTitle() string      { return "Save how it is set" }
func SaveButton() string     { return "Save as set" }
func SaveWaits() string      { return "Waiting until it is safely stored…" }
func FinishedTitle() string  { return "Saved as set" }
func PutAwayTitle() string   { return "Put away" }
func PutAway() string        { return "Put this job away" }
func PutAwayMore() string    { return "What was entered is kept. Nothing counts as set by it." }
func NoteLabel() string      { return "A note for the record" }
func AddNote() string        { return "Add the note" }
func NewJob() string         { return "Set the height" }
func Proven(proven bool) string {
	if proven {
		return "Shown by the readings to be as wanted."
	}
	return "Kept as it is; the readings do not prove the wanted height."
}

// SaveLead tells what will be kept.
func (r Reader) SaveLead(readings int) string {
	if readings == 0 {
		return "Nothing was read after the work, so only the story of the job is kept."
	}
	return "These readings are what you compare with next time."
}

// JobMenu names what can be done at any step.
func JobMenu() string { return "Undo and more" }

// The short form's buttons.
func TakeAndStay() string { return "Take these; the strings stay on" }
func OneByOne() string    { return "One at a time" }

// MarkUnit is what the number of a mark counts.
func MarkUnit(k job.Kit) string {
	switch k.Marks {
	case job.Every64th:
		return "/64\u00a0in"
	case job.Every32nd:
		return "/32\u00a0in"
	}
	return string(k.Unit)
}

// MarkError says what is wrong with a typed mark.
func (r Reader) MarkError(err error, k job.Kit) string {
	if errors.Is(err, job.ErrNotAMark) {
		return NotAMark(k)
	}
	return r.Error(err)
}

// RecordLook is the main button of a look at the line.
func RecordLook(strokes int) string { return "Record " + Strokes(strokes) }
func FollowOther() string           { return "Watch something else" }

// LeftStanding tells what will stand at an end.
func (r Reader) LeftStanding(side int, l geometry.LeftStanding) string {
	return "Saddle left standing, " + Side(side) + ": " + r.Span(l.AfterRound) + " after this round, " + r.Span(l.AfterWhole) + " after the whole cut"
}

// WasBefore tells what a string was before the first round.
func (r Reader) WasBefore(c job.Compared) string {
	if c.Before.High == 0 {
		return ""
	}
	return "was " + r.Span(c.Before)
}

// The side view's labels.
func SidePicture() string                             { return "The bass string from the side" }
func NowLabel(r Reader, p job.PlannedString) string   { return "now " + r.Span(p.Reading) }
func AfterLabel(r Reader, p job.PlannedString) string { return "after " + r.Span(p.After) }
func Taller(times int) string                         { return "drawn " + Number(times) + " × too tall" }

// finerMeans lists what can read more finely than the rule, as far as it is to hand.
func finerMeans(kit job.Kit) string {
	var means []string
	add := func(has job.Has, name string) {
		if has != job.No {
			means = append(means, name)
		}
	}
	add(kit.Feelers, "feelers")
	add(kit.Cards, "cards")
	add(kit.Caliper, "a caliper")
	if means == nil {
		return "with a rule that has closer marks, or borrowed feelers"
	}
	return strings.Join(means, ", ")
}

// Paper is the row of sanding papers, with what it is for.
func PaperTitle(grit int) string {
	if grit == 0 {
		return "Paper"
	}
	return "Paper: " + Paper(grit)
}

func PaperMore() string {
	return "Coarse paper takes more with each stroke, so the first checks come sooner."
}
func Paper(grit int) string { return "P" + Number(grit) }
func WithoutStrip() string  { return "Put it back, then measure" }
func CountSpaces() Ask {
	return Ask{Title: "Count the spaces", Lead: "How many spaces are there from 1 to 2?"}
}
func Spaces(n int) string { return plural(n, "space", "spaces") }
func OtherCount() string  { return "Another number" }

// LookAll is the main button until every place was looked at.
func LookAll() string { return "Look first" }

// WrongTap takes back a look that was not so.
func WrongTap() string { return "That was a wrong tap" }

// OtherEndOnly is the button for sanding on at the end that has some left.
func OtherEndOnly() string { return "Sand the other end only" }

// OverTheEdge says how to spare an end that is there.
func OverTheEdge() string {
	return "Let the end that is there hang over the paper’s edge. Two or three strokes."
}

// LookAgain asks for the look that was tapped wrongly.
func LookAgain() string { return "Tap what you really see. The strokes stay as they were." }

// An old strip under the saddle.
func StripTitle() string { return "Take the strip out first" }
func KeepStrip() string  { return "Keep the strip, go on" }

// GoOnWith names the job that an instrument has under way.
func GoOnWith(step string) string { return "Go on: " + step }
