package phone

import (
	"strings"
	"testing"

	"gapwright/app/job"
	"gapwright/app/view"
	"gapwright/app/words"
	"gapwright/geometry"
)

// aired opens the fields of the air and types what was read of it.
func (w *Walk) aired(humidity, temperature string) {
	w.t.Helper()
	w.Tap("#air summary")
	w.Type("#humidity", humidity)
	w.Type("#temperature", temperature)
}

// A solid body with two M3 screws at each string is set twice: bass from 2.25 to 2.50 down to 1.75 to 2.00, treble from 1.50 to 1.75 down to 1.25 to 1.50, then
// left as it is; a third job is put away and taken up again. Its history has them all. Foretold of the first: 2¼ and ¾ of a turn of 0.5, give or take
// half an eighth, are 0.547 to 0.578 and 0.172 to 0.203 at fret 12: 1.67 to 1.95 and 1.30 to 1.58, which both readings meet.
func TestTheHistoryOfAnInstrument(t *testing.T) {
	t.Parallel()
	w := StartWalk(t, "history", Small)
	i := job.Instrument{Family: geometry.SolidBody}
	w.turnable(i.Family, job.BridgeScrews, job.ByScrews)
	w.Tap(words.Answer(job.AskScrews, job.ScrewsFree))
	w.rule(job.EveryQuarter)
	w.forbid = notInch
	read := func(again bool, bass, treble geometry.Length) {
		w.Waiting(words.ReadTitle(i, 0, again))
		w.toMark(bass, bass+0.25)
		w.Waiting(words.ReadTitle(i, 5, again))
		w.toMark(treble, treble+0.25)
	}
	wish := func() {
		w.Waiting(words.MeasuredTitle())
		w.Tap(words.Answer(job.AskStrings, job.StringsStay))
		w.Waiting(words.ChooseTitle())
		w.Tap(mm.AimFor(mark("1.80"), mark("1.45")))
	}
	read(false, 2.25, 1.50)
	wish()
	w.Waiting(mm.ThreadAsk(job.ByScrews, nil).Title)
	w.Tap("2")
	w.Tap("M3")
	w.Waiting(words.TurnPlanTitle(job.TurnGo))
	if text := w.JS(`document.getElementById("trust").hidden`); text != true {
		t.Error("nothing was foretold of this instrument yet")
	}
	w.Tap(words.FollowTurns())
	w.Waiting(words.Question(job.AskWayUp, job.Kit{}).Title)
	w.Tap(words.Answer(job.AskWayUp, job.WayUnsure))
	w.Waiting(words.TurnTitle(job.ByScrews))
	w.Tap(words.TurnedAsShown())
	read(true, 1.75, 1.25)
	w.Waiting("There: as wanted")
	w.Tap(words.DoneButton())

	// The air in the room: what cannot be is said beside its field, and nothing typed is lost.
	w.On(words.SaveTitle())
	w.aired("145", "70")
	w.Tap(words.SaveButton())
	w.Wait("what is wrong with both", `document.getElementById("humidity-problem").checkVisibility() && document.getElementById("temperature-problem").checkVisibility()`)
	for field, quantity := range map[string]geometry.Quantity{"humidity": geometry.QuantityHumidity, "temperature": geometry.QuantityCelsius} {
		if got, want := w.Said(field), mm.Error(&geometry.RangeError{Quantity: quantity}); got != want {
			t.Errorf("%s: %q, want %q", field, got, want)
		}
	}
	w.Holds("humidity", "145")
	w.LookInto()
	w.Tap(words.DegreesName(job.Fahrenheit))
	w.Type("#humidity", "45 %")
	w.Tap(words.KeepAir())
	w.Sees(words.AirTitle(job.Aired{Humidity: 45, Temperature: "70", Scale: job.Fahrenheit}, true))
	w.Tap(words.SaveButton())
	w.On(words.FinishedTitle())
	w.Says("45\u00a0%, 70\u00a0°F")
	w.WaitSaved()
	w.Tap("#screen .button.main")

	// The next time it is known how well that came true.
	again := words.NewJob() + ": " + words.Family(i.Family)
	w.Tap(again)
	w.Tap(work(job.ByScrews))
	w.answer(job.AskScrews, job.ScrewsFree)
	read(false, 1.75, 1.25)
	wish()
	w.Waiting(words.TurnPlanTitle(job.TurnGo))
	w.Tap(words.Numbers())
	w.Sees(words.TrustPlan(mm, job.Trust{Times: 2, Agreed: 2}))
	w.LookInto()
	w.Tap(words.KeepAsItIs())
	w.Waiting(words.SaveTitle())
	w.Tap(words.SaveButton())
	w.Waiting(words.FinishedTitle())
	w.WaitSaved()
	w.Tap("#screen .button.main")
	w.Tap(again)
	w.Tap(work(job.ByScrews))
	w.Waiting(words.Question(job.AskScrews, job.Kit{}).Title)
	w.putAway()
	w.WaitSaved()

	w.Tap(words.Family(i.Family))
	w.Tap(words.HistoryName())
	history := words.HistoryName() + ": " + words.Family(i.Family)
	w.On(history)
	w.Says(words.HistoryLead(make([]job.Entry, 3)), "Bass 1.75 to 2.00\u00a0mm, was 2.25 to 2.50\u00a0mm", "Treble 1.25 to 1.50\u00a0mm, was 1.50 to 1.75\u00a0mm", "45\u00a0%, 70\u00a0°F")
	shown := w.JS(`document.querySelector("main svg desc").textContent`).(string)
	for _, text := range []string{"screws: Bass 1.75 to 2.00\u00a0mm, was 2.25 to 2.50\u00a0mm; Treble 1.25 to 1.50\u00a0mm, was 1.50 to 1.75\u00a0mm", "screws: Bass 1.75 to 2.00\u00a0mm; Treble 1.25 to 1.50\u00a0mm"} {
		if !strings.Contains(shown, text) {
			t.Errorf("the picture does not tell %q, it tells %s", text, shown)
		}
	}
	if n := w.JS(`document.querySelectorAll("main svg .p-was-found").length + " " + document.querySelectorAll("main svg .p-was-left").length`); n != "5 4" { // two keys; 4 found, 2 left and the air
		t.Errorf("%v bars as found and as left", n)
	}
	w.Tap(words.DriftTitle())
	w.Says(words.Trust(mm, job.Trust{Times: 2, Agreed: 2}), mm.Drift(i, [2]geometry.Drift{})[0])
	w.LookInto()

	// One opens; what was put away is taken up again.
	w.Tap("#screen .card:last-of-type .card-name")
	w.Waiting(words.FinishedTitle())
	w.Says("45\u00a0%, 70\u00a0°F")
	w.run("history.back()")
	w.Waiting(history)
	w.Tap("#screen .card .button")
	w.Waiting(words.Question(job.AskScrews, job.Kit{}).Title)
	w.WaitSaved()
	w.Go(view.Bench)
	w.Sees(words.OpenJobs())
}
