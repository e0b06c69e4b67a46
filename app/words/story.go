package words

import "gapwright/app/job"

// Fact tells one fact of a job in a line, for the record; empty for what needs no telling.
func (r Reader) Fact(i job.Instrument, fact job.Fact) string {
	switch f := fact.(type) {
	case job.Began:
		return "Job begun: " + Instrument(f.Instrument)
	case job.Equipped:
		if f.Kit.Zero == job.ZeroNotAsked {
			return "Rule: " + Marks(f.Kit.Marks)
		}
		return "Rule: " + Marks(f.Kit.Marks) + ", its zero: " + Zero(f.Kit.Zero) + r.stripList(f.Kit)
	case job.Described:
		return "Instrument details changed"
	case job.Answered:
		return questionName(f.Question) + ": " + Answer(f.Question, f.Answer)
	case job.Read:
		return CourseTitle(i, f.String) + " read: " + r.Reading(f)
	case job.Surveyed:
		return PlaceName(i, job.Place{Feature: f.Feature, Course: f.String}) + " read: " + r.Survey(f)
	case job.Listened:
		return CourseTitle(i, f.String) + " heard " + HeardLine(f)
	case job.Adjusted:
		if f.Eighths != 0 {
			return Feature(f.Feature) + " changed: " + plural(max(f.Eighths, -f.Eighths), "eighth", "eighths") + " " + map[bool]string{true: "tightened", false: "loosened"}[f.Eighths > 0]
		}
		return Feature(f.Feature) + " changed"
	case job.Screwed:
		return r.screwed(i, f)
	case job.Filed:
		text := CourseTitle(i, f.String) + ": nut slot filed"
		if f.Wanted.Given() {
			text += ", for " + r.Fine(f.Wanted.LengthOr(0)) + " at fret 1"
		}
		return text
	case job.Made:
		if f.Open {
			return BlankStep(f.Part) + " of the saddle: not done yet"
		}
		return BlankStep(f.Part) + " of the saddle: done"
	case job.Aired:
		if !f.Given() {
			return airTitle() + ": not measured"
		}
		return AirTitle(f, true)
	case job.LeftAlone:
		return Feature(f.Feature) + " left as it is"
	case job.Strung:
		return "Strings or tuning changed"
	case job.Stood:
		if !f.Exposure.Given() {
			return SideTitle(f.Side) + " of the saddle: not measured"
		}
		return SideTitle(f.Side) + " of the saddle stands " + r.Typed(f.Exposure)
	case job.Slotted:
		return r.slotted(f)
	case job.Chosen:
		return "Wanted: " + r.Heights(f.Bass, f.Treble)
	case job.Did:
		return "Done: " + StepName(f.Step)
	case job.Skipped:
		return "Left out: " + StepName(f.Step)
	case job.Checked:
		return Strokes(f.Strokes) + "; saddle " + r.Typed(f.Bass) + " bass, " + r.Typed(f.Treble) + " treble"
	case job.Looked:
		return Strokes(f.Strokes) + "; line " + Line(f.Bass) + ", " + Line(f.Middle) + ", " + Line(f.Treble)
	case job.Judged:
		switch f.Outcome {
		case job.Done:
			return "Judged: as wanted"
		case job.Again:
			return "Judged: another round"
		case job.TooMuch:
			return "Judged: too low"
		}
		return "Left as it is"
	case job.Shimmed:
		if !f.Bass.Given() && !f.Treble.Given() {
			return "A strip went under the saddle"
		}
		return "A strip went under the saddle, " + r.Typed(f.Bass) + " bass, " + r.Typed(f.Treble) + " treble"
	case job.Noted:
		return "Note: " + f.Text
	case job.Saved:
		return "Saved as set"
	case job.PutAway:
		return "Put away"
	case job.Undone:
		return "Undone: entry " + Number(f.Sequence)
	}
	return ""
}

// questionName names a question in a record.
func questionName(q job.Question) string {
	switch q {
	case job.AskSaddle:
		return "Saddle"
	case job.AskStrings:
		return "These strings stay on"
	case job.AskBuzz:
		return "Buzz"
	case job.AskRoom:
		return "Air in the room"
	case job.AskUnder:
		return "Under the saddle"
	case job.AskFollow:
		return "Watched while sanding"
	case job.AskSeat:
		return "Seat"
	case job.AskStrung:
		return "Strings back on"
	case job.AskScrews:
		return "Screws"
	case job.AskWayUp:
		return "Way of turning that lifts"
	case job.AskNut:
		return "Nut"
	case job.AskRod:
		return "Truss rod"
	}
	return ""
}

// StoryTitle heads the list of all that was entered.
func StoryTitle() string { return "All that was entered" }

// BladeCaution stands where a line is scored.
func BladeCaution() string { return "Saddle on the table. Cut away from your fingers." }

// UndoOf names what undo takes back.
func (r Reader) UndoOf(i job.Instrument, fact job.Fact) string {
	what := r.Fact(i, fact)
	if what == "" {
		return Undo()
	}
	return Undo() + ": " + what
}

// StepCaution is the caution that stands at a step where harm could come, whatever was answered; empty where there is none.
func StepCaution(s job.Step) string {
	switch s {
	case job.TakeOut, job.StringUp:
		return "String ends whip: mind your eyes."
	case job.Choose:
		return "A bowed neck lifts strings too. Have relief set first."
	case job.Sand:
		return "Dust harms: mask, or wet sanding."
	case job.Turn:
		return TurnCaution()
	}
	return ""
}
