package words

import "gapwright/app/job"

// Fact tells one fact of a job in a line, for the record; empty for what needs no telling.
func (r Reader) Fact(i job.Instrument, fact job.Fact) string {
	switch f := fact.(type) {
	case job.Began:
		return "Job begun: " + Instrument(f.Instrument)
	case job.Equipped:
		return "Rule: " + Marks(f.Kit.Marks) + ", zero: " + Zero(f.Kit.Zero)
	case job.Described:
		return "Instrument described anew"
	case job.Answered:
		return Question(f.Question, job.Kit{}).Title + " " + Answer(f.Question, f.Answer)
	case job.Read:
		return CourseTitle(i, f.String) + " read: " + r.Reading(f)
	case job.Strung:
		return "Strings or tuning changed"
	case job.Stood:
		if !f.Exposure.Given() {
			return SideTitle(f.Side) + " of the saddle: not measured"
		}
		return SideTitle(f.Side) + " of the saddle stands " + r.Typed(f.Exposure)
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

// StoryTitle heads the list of all that was entered.
func StoryTitle() string { return "All that was entered" }

// StepCaution is the caution that stands at a step where harm could come, whatever was answered; empty where there is none.
func StepCaution(s job.Step) string {
	switch s {
	case job.TakeOut, job.StringUp:
		return "String ends whip: mind your eyes."
	}
	return ""
}
