package phone

import (
	"fmt"
	"slices"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/performance"
)

// The full bench that must be as quick as an empty one, and how that is tried.
var full = much{instruments: 500, jobs: 20, open: 5}

const (
	manyBudget = 1.5 // times what an empty bench takes
	manySlow   = 4
)

// opened tells, from outside, when the first screen of the app was painted, and what kept the main thread busy after it. It is in the page before
// anything else.
const openedClock = `(() => {
	const tasks = [];
	let painted = 0;
	try { new PerformanceObserver(list => { for (const e of list.getEntries()) tasks.push({ from: e.startTime, to: e.startTime + e.duration }) }).observe({ type: "longtask", buffered: true }) } catch { }
	const there = () => {
		const bar = document.getElementById("loading");
		return bar !== null && bar.hidden && document.querySelector("#screen .choice, #screen .card") !== null;
	};
	const look = new MutationObserver(() => {
		if (!there()) return;
		look.disconnect();
		requestAnimationFrame(() => { const { port1, port2 } = new MessageChannel(); port1.onmessage = () => { painted = performance.now() }; port2.postMessage(0) });
	});
	look.observe(document, { childList: true, subtree: true, attributes: true });
	window.openedClock = {
		painted: () => painted,
		// calm is when the last task ended that took longer than a twentieth of a second; 0 until there was none for a while.
		calm: () => {
			const last = Math.max(painted, tasks.length ? tasks[tasks.length - 1].to : 0);
			return painted && document.querySelector(".mark-saved") && performance.now() - last > 1500 ? last : 0;
		},
		blocked: () => tasks.filter(t => t.from >= painted).reduce((sum, t) => sum + t.to - t.from, 0),
	};
})()`

// BenchmarkBench opens the Bench on a phone that holds much and on one that holds nothing, in turn, and prints the ratio beside its budget.
func BenchmarkBench(b *testing.B) {
	walks := []*Walk{}
	for _, m := range []much{{}, full} {
		w := &Walk{Phone: New(b, Small), name: "bench"}
		m.walk(w)
		w.do("bringing a clock", command(page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: openedClock}))
		w.Reload()
		walks = append(walks, w)
	}
	var painted, calm, blocked, first, all [2][]float64
	for range *times {
		for n, w := range walks {
			w.slower(manySlow)
			w.do("asking for the processor's time", command(performance.Disable, cdp.Empty{}),
				command(performance.Enable, performance.EnableParams{TimeDomain: performance.EnableTimeDomainThreadTicks}))
			w.Load("/")
			w.Wait("the first screen", "openedClock.painted() > 0")
			first[n] = append(first[n], w.ownWork())
			for range 5 { // a slow processor that others use as well may need more than one patience
				if w.JS(`new Promise(yes => { const end = Date.now() + 15000, look = () => openedClock.calm() || Date.now() > end ? yes(openedClock.calm()) : setTimeout(look, 100); look() })`) != 0.0 {
					break
				}
			}
			all[n] = append(all[n], w.ownWork())
			calm[n] = append(calm[n], w.JS("openedClock.calm()").(float64))
			painted[n] = append(painted[n], w.JS("openedClock.painted()").(float64))
			blocked[n] = append(blocked[n], w.JS("openedClock.blocked()").(float64))
			w.slower(1)
		}
	}
	b.ReportMetric(0, "ns/op") // the walks' own time means nothing
	fmt.Printf("\nThe Bench with %d instruments of %d jobs each beside an empty one, processor %d × slower, medians of %d in turn, ms from the navigation.\n",
		full.instruments, full.jobs, manySlow, *times)
	fmt.Printf("  %-50s %10s %10s %10s\n", "", "empty", "full", "ratio")
	row := func(name string, times [2][]float64, note string) {
		slices.Sort(times[0])
		slices.Sort(times[1])
		empty, many := at(times[0], 0.5), at(times[1], 0.5)
		fmt.Printf("  %-50s %10.0f %10.0f %10.2f%s\n", name, empty, many, many/empty, note)
	}
	var ratios []float64
	for n := range painted[0] {
		ratios = append(ratios, painted[1][n]/painted[0][n])
	}
	Budget(fmt.Sprintf("the Bench with %d instruments of %d jobs until usable, to an empty one", full.instruments, full.jobs), manyBudget, "", 2, ratios...)
	row("the first screen is painted, a tap would be taken", painted, fmt.Sprintf("   (goal: at most %.1f)", manyBudget))
	row("the page's own work until then", first, "")
	row("the page's own work until all is compared", all, "")
	row("nothing takes longer than 50 ms any more", calm, "")
	row("tasks of more than 50 ms after the first screen", blocked, "")
}
