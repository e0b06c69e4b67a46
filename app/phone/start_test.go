package phone

import (
	"strings"
	"testing"

	"gapwright/app/job"
	"gapwright/app/view"
	"gapwright/app/words"
	"gapwright/geometry"
)

// work is the name of a choice of what is to be done.
func work(m job.Method) string {
	label, note := words.Work(m)
	return label + " " + note
}

// putAway puts the job away that is open and goes back to the Bench.
func (w *Walk) putAway() {
	w.t.Helper()
	w.Tap(words.JobMenu())
	w.Tap(words.PutAway())
	w.Waiting(words.PutAwayTitle())
	w.Tap("#screen .button.main")
	w.Sees(words.Instruments())
}

// Three families on their way in. A flat-top goes straight to the usual job, the others are asked once what holds their strings up, and then what
// is to be done.
func TestTheWayIn(t *testing.T) {
	t.Parallel()
	w := StartWalk(t, "start", Small)
	w.On(words.FamilyQuestion().Title)
	for _, f := range geometry.Families() {
		w.Sees(words.Family(f.ID))
	}

	// One tap for the family, one for the saddle.
	w.Tap(words.Family(geometry.FlatTop6))
	w.On(words.Question(job.AskSaddle, job.Kit{}).Title)
	w.Tap(words.Answer(job.AskSaddle, job.SaddleLow))
	title, text, _ := words.Stop(job.AskSaddle, job.SaddleLow)
	w.On(title)
	w.Says(text)
	w.putAway()

	// Known: one tap from the Bench to the usual job.
	w.taps = 0
	w.Touch(words.NewJob() + ": " + words.Family(geometry.FlatTop6))
	w.Waiting(words.Question(job.AskSaddle, job.Kit{}).Title)
	if w.taps != 1 {
		t.Errorf("%d taps", w.taps)
	}
	w.Tap(words.Answer(job.AskSaddle, job.SaddleStepped))
	w.Waiting(words.RuleQuestion().Title)
	w.putAway()

	// From its own page what else can be done with it.
	w.Tap(words.Family(geometry.FlatTop6))
	w.Tap(words.OtherWork())
	w.On(words.WorkQuestion(job.BridgeSlot).Title)
	for _, m := range (job.Instrument{Family: geometry.FlatTop6}).Methods() {
		w.Says(work(m))
	}
	w.Tap(work(job.RaiseByStrip))
	w.On(words.Question(job.AskSaddle, job.Kit{}).Title)
	if strings.Contains(w.Text(), words.Answer(job.AskSaddle, job.SaddleLow)) {
		t.Error("a low saddle is in the way of raising it")
	}
	w.putAway()

	// A solid body with screws.
	w.Tap(words.AddInstrument())
	w.On(words.FamilyQuestion().Title)
	w.Tap(words.Family(geometry.SolidBody))
	w.On(words.BridgeQuestion().Title)
	w.Read(words.More(), words.BridgeQuestion().More...)
	w.Tap(words.Bridge(job.BridgeScrews))
	w.On(words.WorkQuestion(job.BridgeScrews).Title)
	w.Tap(work(job.ByScrews))
	w.Waiting(words.Question(job.AskScrews, job.Kit{}).Title)
	w.putAway()
	w.Tap(words.NewJob() + ": " + words.Family(geometry.SolidBody)) // what holds the strings up is known now
	w.On(words.WorkQuestion(job.BridgeScrews).Title)
	w.Tap(words.Back())
	w.Sees(words.Instruments())

	// A mandolin of which it is not known at first.
	w.Tap(words.AddInstrument())
	w.Tap(words.Family(geometry.Mandolin))
	w.Waiting(words.BridgeQuestion().Title)
	w.Tap(words.Back()) // a slip: nothing of it stays
	w.On(words.FamilyQuestion().Title)
	w.Tap(words.Family(geometry.Mandolin))
	w.Tap(words.Bridge(job.BridgeUnsure))
	w.On(words.WorkQuestion(job.BridgeUnsure).Title)
	w.Says(words.WorkQuestion(job.BridgeUnsure).Lead)
	w.Tap(words.BridgeAgain())
	w.Waiting(words.BridgeQuestion().Title)
	w.Tap(words.Bridge(job.BridgeFixed))
	w.On(words.WorkQuestion(job.BridgeFixed).Title)
	w.Says(words.WorkQuestion(job.BridgeFixed).Lead)
	w.Tap(words.BridgeAgain())
	w.Tap(words.Bridge(job.BridgePosts))
	w.Waiting(words.WorkQuestion(job.BridgePosts).Title)
	w.Says(work(job.ByPosts))
	w.Tap(work(job.SetRelief))
	w.On(words.Question(job.AskRod, job.Kit{}).Title)
	w.putAway()
	if n := strings.Count(w.Text(), words.Family(geometry.Mandolin)); n != 1 {
		t.Errorf("%d mandolins on the Bench", n)
	}
}

// What the profile says of bridge and scales can be changed; papers are typed as they are printed.
func TestBridgeScalesAndPapers(t *testing.T) {
	t.Parallel()
	w := StartWalk(t, "start-profile", Tall.InTheDark())
	w.Waiting(words.FamilyQuestion().Title)
	w.Tap(words.Family(geometry.Bass5))
	w.Tap(words.Bridge(job.BridgeScrews))
	w.Tap(work(job.NutSlots))
	w.Waiting(words.Question(job.AskNut, job.Kit{}).Title)
	w.putAway()
	w.Tap(words.Family(geometry.Bass5))
	w.Waiting(words.Family(geometry.Bass5))
	w.Tap(words.AboutInstrument())
	w.Says(words.BridgeRow() + " " + words.Bridge(job.BridgeScrews))
	w.Tap(words.Change() + ": " + words.BridgeRow())
	w.Waiting(words.BridgeQuestion().Title)
	w.Tap(words.Bridge(job.BridgeSlot))
	w.On(words.WorkQuestion(job.BridgeSlot).Title)
	w.Says(work(job.SandUnderside))
	w.Tap(words.Back())
	w.Waiting(words.Family(geometry.Bass5))
	w.Tap(words.AboutInstrument())
	w.Says(words.Bridge(job.BridgeSlot))
	w.Type("#scale", "889")
	w.Type("#treble", "8")
	w.Tap(words.Keep())
	w.Wait("what is wrong with it", `document.querySelector("#treble-problem:not([hidden])") !== null || document.querySelector("#scale-problem:not([hidden])") !== null`)
	w.Type("#treble", "838")
	w.Tap(words.Keep())
	w.WaitSaved()
	w.Reload()
	w.Tap(words.AboutInstrument())
	w.Holds("scale", "889")
	w.Holds("treble", "838")
	w.LookInto()

	w.Go(view.Kit)
	w.On(words.KitTitle())
	w.Type("#grit", "coarse")
	w.Press("Enter")
	w.Wait("what is wrong with it", `document.querySelector("#grit-problem:not([hidden])") !== null`)
	if got := w.Said("grit"); got != words.GritNumber() {
		t.Errorf("says %q", got)
	}
	w.Type("#grit", "P120 P180 P220 P400")
	w.Press("Enter")
	w.Sees("Paper: P120, then P220, then P400")
	w.Read("Paper: P120, then P220, then P400", "P180: so near to another that it can be left out.")
	w.Look()
}
