package words

import (
	"strings"
	"time"

	"gapwright/app/job"
	"gapwright/geometry"
)

// The small helps beside a step: big numbers, a timer, a sound, a plan that is handed on.

// The controls of the big numbers.
func BigNumbers() string { return "Big numbers" }
func UsualSize() string  { return "Usual size" }
func NextTurn() string   { return "Turned: next" }

// BigDone is the main button under the number of strokes.
func BigDone(byCaliper bool) string {
	if byCaliper {
		return "Done: measure"
	}
	return "Done: look"
}

// BigStrokes is SandTitle while there is more to sand: the number, and what stands behind it.
func BigStrokes(c job.Coach) (number, rest string) { return apart(SandTitle(c, false)) }

// BigTurn is TurnBy: the number of turns, and which way.
func BigTurn(eighths int, way job.Answer) (number, rest string) { return apart(TurnBy(eighths, way)) }

// apart takes the number from the front of a text; together they read as before.
func apart(text string) (number, rest string) {
	number, rest, found := strings.Cut(text, " ")
	if found {
		rest = " " + rest
	}
	return number, rest
}

// OneOf says which of several things it is.
func OneOf(n, of int) string { return Number(n) + " of " + Number(of) }

// StopName and StopNumber are StopAt in two parts.
func StopName(side int) string { return SideTitle(side) + ", stop at" }
func (r Reader) StopNumber(target geometry.Length) string {
	return r.digits(target.RoundUp(r.fine()), r.fine())
}

// The timer while strings settle. The screen says much already: two words each.
func RemindMe() string   { return "Settling: " + Number(int(job.SettleTime/time.Minute)) + "-min timer" }
func DropShort() string  { return "Stop" }
func DropTimer() string  { return "Stop the timer" }
func SettleOver() string { return "0:00 – tune again" }

// SettlingLeft says what is left of the wait, in minutes and seconds.
func SettlingLeft(left time.Duration) string {
	seconds := Number(int(left / time.Second % 60))
	if len(seconds) < 2 {
		seconds = "0" + seconds
	}
	return "Settling: " + Number(int(left/time.Minute)) + ":" + seconds
}

// SoundSwitch is the switch of the sound.
func SoundSwitch() string { return "A sound for “stop” and “time is up”" }

// The controls of a plan that is handed on.
func SharePlan() string  { return "Share this plan" }
func PlanFile() string   { return "plan" }
func PlanSaved() string  { return "Saved as a picture." }
func PlanCopied() string { return "Copied as text." }
func PlanStays() string  { return "It cannot be handed on from here." }

// PlanHead heads a plan as others read it.
func PlanHead(i job.Instrument, round int) string {
	return Instrument(i) + ", " + strings.ToLower(Rounds(round))
}

// PlanLines are a cut's numbers as others read them.
func (r Reader) PlanLines(i job.Instrument, round int, p job.Plan) (lines []string) {
	for _, side := range i.Sides() {
		lines = append(lines, PlanTitle(p.Outcome, round)+", "+Side(side)+": "+r.CutNumber(p.At(side)))
	}
	for _, s := range p.Strings {
		lines = append(lines, r.AfterRound(i, s)+", "+r.WantedHeight(s.Target))
	}
	return lines
}
