package phone

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"gapwright/app/job"
	"gapwright/app/words"
)

const (
	tapBudget = 50.0 // milliseconds from a tap until the next step is painted, the median, on a processor four times slower
	tapSlow   = 4
)

// tapClock times, from outside, each tap: from the moment the finger lifts, as the browser has it, until the frame is painted that shows the next
// step, which is another screen, or else the first change.
const tapClock = `(() => {
	const taps = [], screen = () => document.getElementById("screen");
	let tap = null;
	const painted = done => requestAnimationFrame(() => { const { port1, port2 } = new MessageChannel(); port1.onmessage = () => done(performance.now()); port2.postMessage(0) });
	addEventListener("click", e => {
		const what = e.target.closest("button, a, label, summary");
		tap = { name: what ? what.textContent : "", at: e.timeStamp, before: screen(), changed: false, stepped: false };
		taps.push({ name: tap.name, change: 0, step: 0 });
	}, true);
	new MutationObserver(() => {
		if (!tap) return;
		const at = tap.at, told = taps[taps.length - 1];
		if (!tap.changed) painted(now => { told.change = now - at });
		tap.changed = true;
		if (!tap.stepped && screen() !== tap.before) {
			tap.stepped = true;
			painted(now => { told.step = now - at });
		}
	}).observe(document, { childList: true, subtree: true, attributes: true, characterData: true });
	window.taps = () => taps;
})()`

// BenchmarkTap goes through a whole job, one round of sanding with everything before and after it, and prints what its taps take.
func BenchmarkTap(b *testing.B) {
	w := StartWalk(b, "tap", Small)
	w.hurried = true
	w.do("bringing a clock", command(page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: tapClock}))
	w.Reload()
	w.Waiting(words.FamilyQuestion().Title)
	w.slower(tapSlow)
	w.measured(job.EveryQuarter, 1, [2]job.Typed{mark("2.75"), mark("3.00")}, 0, [2]job.Typed{mark("2.00"), mark("2.25")})
	w.Tap(words.Answer(job.AskStrings, job.StringsStay))
	w.answer(job.AskBuzz, job.BuzzNone)
	w.choose(2, 1, mm.AimFor(mark("2.30"), mark("1.80")))
	w.answer(job.AskRoom, job.RoomFine)
	w.stands("4.5", "4")
	w.On(words.PlanTitle(job.PlanGo, 1))
	w.marked(job.FollowPencil)
	w.looks(2, 0, job.Clear, job.Clear, job.Clear)
	w.looks(1, 0, job.Clear, job.Clear, job.Clear)
	w.looks(1, 0, job.Touched, job.Touched, job.Touched)
	w.On("Stop: you are there")
	w.Tap(words.StopHere())
	w.On("Smooth later")
	w.Tap(words.SkipForNow())
	w.back()
	w.reading(0, true, 0, mark("2.50"), mark("2.75"))
	w.reading(5, true, 0, mark("2.00"), mark("2.25"))
	w.On("Still higher than wanted")
	w.Tap(words.Numbers())
	all := w.JS("new Promise(yes => setTimeout(() => yes(taps()), 2000))").([]any)

	// What a tap takes where there is nothing to do tells how busy the computer is.
	w.do("opening a bare page", chromedp.Navigate(`data:text/html,<!doctype html><button onclick="this.nextSibling.textContent=Date.now()">Tap</button><p>0</p>`))
	for range *times {
		w.Tap("Tap")
	}
	var bare []float64
	for _, each := range w.JS("new Promise(yes => setTimeout(() => yes(taps()), 2000))").([]any) {
		bare = append(bare, each.(map[string]any)["change"].(float64))
	}
	slices.Sort(bare)

	b.ReportMetric(0, "ns/op") // the walk's own time means nothing
	type tap struct {
		name string
		ms   float64
	}
	var steps, others []tap
	for _, each := range all {
		t := each.(map[string]any)
		step, change := t["step"].(float64), t["change"].(float64)
		switch {
		case step > 0:
			steps = append(steps, tap{t["name"].(string), step})
		case change > 0: // a tap on what is chosen already changes nothing
			others = append(others, tap{t["name"].(string), change})
		}
	}
	took := func(taps []tap) (all []float64) {
		for _, t := range taps {
			all = append(all, t.ms)
		}
		return all
	}
	slices.SortFunc(steps, func(a, b tap) int { return int(1000 * (b.ms - a.ms)) })
	fmt.Printf("\nA whole job, processor %d × slower: %d taps that lead to another screen, %d others. The slowest steps, ms:\n", tapSlow, len(steps), len(others))
	for _, t := range steps[:min(5, len(steps))] {
		fmt.Printf("  %6.0f  %.60s\n", t.ms, strings.Join(strings.Fields(t.name), " "))
	}
	fmt.Printf("  %6.0f  a tap on a bare page that changes one text, median of %d\n", at(bare, 0.5), len(bare))
	Budget("tap until the next step is painted", tapBudget, " ms", 0, took(steps)...)
	Budget("tap until a change on the same screen is painted", tapBudget, " ms", 0, took(others)...)
}
