package job

import "fmt"

// RefusalKind says why a fact was not taken.
type RefusalKind string

// The reasons. Each has a sentence for people.
const (
	RefusedEnded        RefusalKind = "ended"          // the job is finished
	RefusedNotBegun     RefusalKind = "not-begun"      // the first fact must begin the job
	RefusedBegunTwice   RefusalKind = "begun-twice"    //
	RefusedSequence     RefusalKind = "sequence"       // not the next number, or another job's event
	RefusedNotYet       RefusalKind = "not-yet"        // a later step's fact
	RefusedStopped      RefusalKind = "stopped"        // something seen says: stop
	RefusedStale        RefusalKind = "stale"          // the readings are too old or from other strings or tuning
	RefusedNothingToCut RefusalKind = "nothing-to-cut" //
	RefusedMaterialGone RefusalKind = "material-gone"  // undo cannot put back what was sanded off
	RefusedNoUndo       RefusalKind = "no-undo"        // nothing that can be undone, or not the last thing
	RefusedString       RefusalKind = "no-such-string"
	RefusedReading      RefusalKind = "bad-reading" // Cause says what is wrong with it
	RefusedContradicts  RefusalKind = "contradicts" // repeats that share nothing
	RefusedTargetHigh   RefusalKind = "target-above-gap"
	RefusedTargetFloor  RefusalKind = "target-under-floor"
	RefusedTargetText   RefusalKind = "bad-target"
	RefusedUnproven     RefusalKind = "not-proven" // the reading cannot show that the height is reached
	RefusedSkip         RefusalKind = "no-skip"
	RefusedAnswer       RefusalKind = "no-such-answer"
	RefusedUnanswered   RefusalKind = "unanswered" // a question of this step is still open
	RefusedCheck        RefusalKind = "bad-check"
	RefusedPlace        RefusalKind = "other-place" // a reading at another fret or condition than the instrument's
	RefusedProfile      RefusalKind = "bad-profile"
	RefusedUnknown      RefusalKind = "unknown-fact" // a fact that only a newer version understands
)

// RefusalKinds lists every kind, so that tests can ask for a sentence for each.
func RefusalKinds() []RefusalKind {
	return []RefusalKind{RefusedEnded, RefusedNotBegun, RefusedBegunTwice, RefusedSequence, RefusedNotYet, RefusedStopped, RefusedStale,
		RefusedNothingToCut, RefusedMaterialGone, RefusedNoUndo, RefusedString, RefusedReading, RefusedContradicts, RefusedTargetHigh,
		RefusedTargetFloor, RefusedTargetText, RefusedUnproven, RefusedSkip, RefusedAnswer, RefusedUnanswered, RefusedCheck, RefusedPlace,
		RefusedProfile, RefusedUnknown}
}

// Refusal is the typed answer to a fact that cannot be taken. The record stays as it was. String is the course it concerns, −1 when none.
type Refusal struct {
	Kind   RefusalKind
	Step   Step
	String int
	Cause  error
}

func (r *Refusal) Error() string {
	if r.Cause != nil {
		return fmt.Sprintf("%s at %s: %v", r.Kind, r.Step, r.Cause)
	}
	return fmt.Sprintf("%s at %s", r.Kind, r.Step)
}

func (r *Refusal) Unwrap() error { return r.Cause }
