package words

import (
	"time"

	"gapwright/app/job"
	"gapwright/geometry"
)

// The quick check before a show.

// CheckName names the place.
func CheckName() string { return "Check it now" }

// CheckShort names it where there is little room, and ResumeName the way back to the job that was worked on last.
func CheckShort() string { return "Check" }
func ResumeName() string { return "Continue job" }

// CheckWhich asks which instrument is to be checked.
func CheckWhich() string        { return "Check which one?" }
func CheckOthers() string       { return "Not set yet" }
func CheckNothing() string      { return "Nothing to check yet" }
func CheckNothingMore() string  { return "Tell the Bench first what you have." }
func AnotherInstrument() string { return "Another instrument" }

// CheckDone and the others are the buttons of an answer.
func CheckDone() string   { return "Done" }
func ReliefToo() string   { return "Relief too" }
func StartAJob() string   { return "Start a job" }
func WhatIsSafe() string  { return "Safe now" }
func AsSetLabel() string  { return "as set" }
func NowIs() string       { return "now" }
func UsualLabel() string  { return "usual" }
func SetNotHere() string  { return "Not set yet" }
func CheckedBars() string { return "The strings as set and now" }

// SetAge says when an instrument was set.
func SetAge(i job.Instrument, now time.Time) string {
	if !i.HasBaseline() {
		return SetNotHere()
	}
	return "Set " + Age(now.Sub(i.AsSet.At))
}

// CheckedOn says when a check was made.
func CheckedOn(at time.Time) string { return "Checked " + Day(at) }

// AsSet says what a course was as set: as it was read where it was read once.
func (r Reader) AsSet(i job.Instrument, course int) string {
	if i.AsSet == nil {
		return ""
	}
	all, err := i.AsSet.Interval(course)
	if err != nil {
		return ""
	}
	return r.asSet(i, course, all)
}

// SameMarks is the button for a string that lies where it was as set.
func SameMarks(lit, dark job.Typed) string {
	return "Same: " + upTo(marked(lit.Text), marked(dark.Text)) + unit(Reader{Unit: lit.Unit}.UnitName())
}

// SameRead is that button for what is typed, as it stands in the fields.
func (r Reader) SameRead(read job.Read) string {
	switch read.Way {
	case job.ByCaliper:
		return "Same: " + r.Typed(read.Low)
	case job.ByCards:
		return "Same: " + plural(read.Count, "card", "cards")
	}
	return "Same: " + r.Reading(read)
}

// CheckTitle says what a check found.
func CheckTitle(c job.Check) string {
	switch c.Answer {
	case job.CheckSame:
		return "As it was set"
	case job.CheckUntold:
		return "This reading cannot tell"
	case job.CheckNoBaseline:
		return "Compared with what is usual"
	}
	bass, treble := c.Strings[0].Told, c.Strings[1].Told
	switch {
	case bass == treble && bass == geometry.Higher:
		return "Higher than it was set"
	case bass == treble:
		return "Lower than it was set"
	case bass == geometry.Higher && treble == geometry.Lower:
		return "Bass higher, treble lower"
	case bass == geometry.Lower && treble == geometry.Higher:
		return "Bass lower, treble higher"
	case bass == geometry.Higher:
		return "Bass side is higher"
	case bass == geometry.Lower:
		return "Bass side is lower"
	case treble == geometry.Higher:
		return "Treble side is higher"
	}
	return "Treble side is lower"
}

// CheckLead says what to do about it now, in a line.
func (r Reader) CheckLead(c job.Check, i job.Instrument, kit job.Kit) string {
	switch c.Answer {
	case job.CheckSame:
		if kit.RuleStep() > 0 {
			return "Within " + r.Up(c.Most()) + ", as near as your rule tells. Tune, and play."
		}
		return "Within " + r.Up(c.Most()) + ", as near as this tells. Tune, and play."
	case job.CheckUntold:
		if !c.Finer {
			return "It was set by too coarse a reading."
		}
		return "It may lie up to " + r.Up(c.Most()) + " off. " + finerWay(kit) + " could tell."
	case job.CheckNoBaseline:
		return "A finished job leaves heights of its own to compare with."
	}
	bass, treble := c.Strings[0].Told, c.Strings[1].Told
	switch {
	case bass != treble && oneByOne(i):
		return "Look at that side: has a screw or post sunk?"
	case bass != treble:
		return "Look at the saddle: level, and fully down?"
	case bass == geometry.Higher:
		return "Tune and let it settle: stiffer, but no harm."
	}
	return "Tune up first: slack strings lie lower. Then listen for buzz."
}

// CheckFirst is what stands before everything else that is said of the answer, and how gravely; empty for most.
func CheckFirst(c job.Check) (kind, text string) {
	switch {
	case c.Sudden && c.Strings[0].Told != c.Strings[1].Told:
		return "stop", "A cracked saddle, a lifting bridge? Slacken the strings."
	case c.Sudden && c.Strings[0].Told == geometry.Higher:
		return "stop", "A lifting bridge, a crack? Slacken the strings."
	case c.Sudden:
		return "stop", "A crack, a loose neck? Slacken the strings."
	case c.Restrung && c.Rebent:
		return "caution", "Other strings, and neck work, since it was set."
	case c.Restrung:
		return "caution", "Other strings or tuning than it was set with."
	case c.Rebent:
		return "caution", "Nut or relief changed since it was set."
	}
	return "", ""
}

// finerWay is the first finer way that is to hand, or may be.
func finerWay(kit job.Kit) string {
	switch kit.Ways()[0] {
	case job.ByCards:
		return "A stack of cards"
	case job.ByCaliper:
		return "A caliper"
	}
	return "Feelers"
}

// oneByOne tells whether something turns at the bridge, which can be turned back.
func oneByOne(i job.Instrument) bool {
	return i.Holds() == job.BridgeScrews || i.Holds() == job.BridgePosts
}

// movedBy says by how much a string moved: finer where the least would come out as nothing.
func (r Reader) movedBy(low, high geometry.Length) string {
	i := geometry.Interval{Low: low, High: high}
	if low.RoundDown(r.step()) > 0 {
		return r.Span(i)
	}
	return r.hundredth(i.Outward(r.fine()))
}

// Sided says what was read of a string as set and now, side by side, the unit once where it is the same.
func (r Reader) Sided(was, is string) string {
	return r.bared(was, is) + " → " + is
}

// SinceNote says how a string stands to what it was.
func (r Reader) SinceNote(s job.Since) string {
	switch s.Told {
	case geometry.Higher:
		return "higher by " + r.movedBy(s.Least(), s.Most())
	case geometry.Lower:
		return "lower by " + r.movedBy(s.Least(), s.Most())
	case geometry.Untold:
		return "cannot tell: " + r.offBy(s.Change)
	}
	return "as set"
}

// offBy says how far a string may lie off, either way.
func (r Reader) offBy(change geometry.Interval) string {
	switch {
	case change.Low >= -geometry.Millimetre/1000:
		return "up to " + r.Up(change.High) + " higher"
	case change.High <= geometry.Millimetre/1000:
		return "up to " + r.Up(-change.Low) + " lower"
	}
	return r.Up(-change.Low) + " lower to " + r.Up(change.High) + " higher"
}

// ReliefSince says how the relief stands to what it was.
func (r Reader) ReliefSince(s job.Since) string {
	by := geometry.Interval{Low: s.Least(), High: s.Most()}.Outward(r.fine())
	switch s.Told {
	case geometry.Higher:
		return "more by " + r.hundredth(by)
	case geometry.Lower:
		return "less by " + r.hundredth(by)
	case geometry.Untold:
		return "cannot tell"
	}
	return "as set"
}

// Relief says a relief.
func (r Reader) Relief(i geometry.Interval) string { return r.signed(i) }

// UsualNote says how a string stands to what is usual.
func (r Reader) UsualNote(usual geometry.Interval, s geometry.Standing) string {
	said := r.Span(usual)
	switch s {
	case geometry.Above:
		return "higher than usual: " + said
	case geometry.Below:
		return "lower than usual: " + said
	case geometry.Usual:
		return "usual: " + said
	}
	return "perhaps usual: " + said
}

// CheckPictureText describes the picture for those who do not see it.
func (r Reader) CheckPictureText(c job.Check) string {
	if c.Answer == job.CheckNoBaseline {
		return CheckTitle(c)
	}
	return "Bass string " + r.SinceNote(c.Strings[0]) + "; treble string " + r.SinceNote(c.Strings[1])
}

// SafeNow lists what may be done minutes before a show.
func (r Reader) SafeNow(c job.Check, i job.Instrument, kit job.Kit) []string {
	lines := []string{"Tune to pitch, wait five minutes, tune again. Keep it in its case until you play, away from heaters, lights and open doors."}
	if kind, _ := CheckFirst(c); kind != "" && c.Answer == job.CheckMoved {
		lines = append([]string{r.CheckLead(c, i, kit)}, lines...)
	}
	bass, treble := c.Strings[0].Told, c.Strings[1].Told
	turns := "What turns at the bridge can be turned back: an eighth of a turn, counted, then read again."
	switch {
	case c.Answer == job.CheckSame && c.Most() > geometry.DoneWidth:
		lines = append(lines, "As much as that can be felt. "+finerWay(kit)+" would tell more.")
	case c.Answer == job.CheckSame:
	case c.Answer == job.CheckUntold:
		lines = append(lines, "Play every string at every fret. What sounds and feels as it did is good enough for tonight.")
	case c.Answer == job.CheckNoBaseline:
		lines = append(lines, "Play every string at every fret, as hard as you ever do. Clean and easy? Leave it.")
	case bass != treble:
		lines = append(lines, "Slacken that side. See that each string lies in its notch, and that the saddle stands down in its slot. Tune up, and read again.")
	case bass == geometry.Higher:
		lines = append(lines, "Damp air and more bow lift strings. A case kept at 40 to 60\u00a0% brings that back, in days.",
			"Too stiff? Tune every string a half step down and put a capo at fret 1.")
	default:
		lines = append(lines, "Dry air and a straighter neck lower strings. A case kept at 40 to 60\u00a0% brings that back, in days.",
			"Buzzing? Play lighter, and leave the rest for the bench.")
	}
	switch {
	case !c.Relief.OK:
	case c.Relief.Told == geometry.Higher:
		lines = append(lines, "The neck has more bow than it had: that alone lifts strings.")
	case c.Relief.Told == geometry.Lower:
		lines = append(lines, "The neck is straighter than it was: that alone lowers strings.")
	case c.Relief.Told == geometry.Unchanged && c.Answer == job.CheckMoved:
		lines = append(lines, "The neck is bent as it was: look at the top and the saddle.")
	}
	if c.Answer == job.CheckMoved && oneByOne(i) {
		lines = append(lines, turns)
	}
	if c.Rebent {
		lines = append(lines, "Nut or relief were changed after these heights were read: part of the difference may be that.")
	}
	if c.Restrung {
		lines = append(lines, "Other strings pull differently: this may compare two sets, not two days.")
	}
	return lines
}

// WaitsTitle and the lines below it tell what is not done before a show.
func WaitsTitle() string { return "Waits for the bench" }
func Waits() []string {
	return []string{
		"Sanding and nut files: what comes off stays off.",
		"Strips, another saddle, new strings: they need hours to settle.",
		"The truss rod, unless you know this one: an eighth of a turn at most, then tune and read again.",
	}
}

// BuzzTitle and the lines below it are the checks for a buzz and for a string that jumped out.
func BuzzTitle() string { return "A buzz, or a string out of place" }
func BuzzChecks() []string {
	return []string{
		"While it buzzes, touch string ends, tuner nuts, strap buttons and pickup rings, one by one. The loose one goes quiet.",
		"One string only? See that it lies in nut slot and saddle, at pitch, not kinked.",
		"A string that jumped out: slacken it, lay it in nut slot and saddle, hold it down at fret 1, tune up slowly. Eyes away.",
	}
}

// CheckStop is when nothing is played any more.
func CheckStop() string {
	return "A crack, a bridge that lifts, a saddle that leans, or a loose part? Slacken the strings, play another one, and see a qualified repairer."
}
