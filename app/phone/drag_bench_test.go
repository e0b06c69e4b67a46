package phone

import (
	"context"
	"fmt"
	"slices"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"gapwright/app/job"
	"gapwright/app/words"
	"gapwright/geometry"
)

// What a drag in Choose may take, and how it is tried.
const (
	dragBudget = 8.0 // milliseconds of Go and DOM work a step, the median, on a processor four times slower
	dragSlow   = 4
	dragSteps  = 400
)

// stopwatch times what the app does in each frame of a drag, from outside: it is in the page before the app starts. A frame begins with its first
// pointermove. work is the time within the app's own listeners of pointermove and of requestAnimationFrame: all of Go, and the DOM as Go changes it.
// whole is from the frame's first listener until the main thread is free for the next message: with style, layout and paint as well.
const stopwatch = `(() => {
	const now = () => performance.now(), frames = [];
	let work = 0, began = 0, changes = 0;
	const timed = f => function (...given) {
		const at = now();
		began ||= at;
		try { return f.apply(this, given) } finally { work += now() - at }
	};

	const add = EventTarget.prototype.addEventListener, remove = EventTarget.prototype.removeEventListener, listeners = new WeakMap();
	EventTarget.prototype.addEventListener = function (type, f, ...rest) {
		if (type === "pointermove") {
			listeners.set(f, timed(f));
			f = listeners.get(f);
		}
		return add.call(this, type, f, ...rest);
	};
	EventTarget.prototype.removeEventListener = function (type, f, ...rest) {
		return remove.call(this, type, type === "pointermove" && listeners.get(f) || f, ...rest);
	};

	const { port1, port2 } = new MessageChannel();
	port1.onmessage = ({ data: frame }) => { frame = frames[frame]; if (frame) frame.whole = now() - frame.began };
	const request = requestAnimationFrame;
	window.requestAnimationFrame = f => request(at => {
		timed(f)(at);
		frames.push({ began, work, changes });
		work = began = changes = 0;
		port2.postMessage(frames.length - 1);
	});

	const setAttribute = Element.prototype.setAttribute, text = Object.getOwnPropertyDescriptor(Node.prototype, "nodeValue");
	Element.prototype.setAttribute = function (...given) { changes++; return setAttribute.apply(this, given) };
	Object.defineProperty(Node.prototype, "nodeValue", { ...text, set(value) { changes++; text.set.call(this, value) } });

	let tapped = 0;
	add.call(window, "click", () => { tapped = now() }, true);
	window.stopwatch = {
		start() { frames.length = work = began = changes = 0 },
		frames() { return frames },
		opening(title) { // resolves to the time from the tap to the first paint with that title
			return new Promise(done => new MutationObserver((_, observer) => {
				const h = document.querySelector("main h1");
				if (!h || h.textContent !== title) return;
				observer.disconnect();
				request(() => { const { port1, port2 } = new MessageChannel(); port1.onmessage = () => done(now() - tapped); port2.postMessage(0) });
			}).observe(document.body, { childList: true, subtree: true, characterData: true }));
		},
	};
})()`

// A dragged is what was timed of one drag. Times in milliseconds.
type dragged struct {
	work, whole, changes []float64 // of every step, smallest first
	idle                 int       // steps that changed nothing; they are left out
	perSecond            float64
}

// BenchmarkDrag drags the bass string's grip up and down, on a guitar of which everything is known that can be computed with, and prints what a step takes
// beside its budget.
func BenchmarkDrag(b *testing.B) {
	w := StartWalk(b, "drag", Small)
	w.Tap(words.Family(geometry.FlatTop6))
	w.answer(job.AskSaddle, job.SaddleLoose)
	w.rule(job.EveryQuarter)
	w.reading(0, false, 1, mark("2.75"), mark("3.00"))
	w.reading(5, false, 0, mark("2.00"), mark("2.25"))
	w.Waiting(words.MeasuredTitle())
	place := w.Place()
	w.strings(words.Family(geometry.FlatTop6))
	w.Type("#gauge-5", "0.012 in")
	w.makes("Treble string, E", 1)
	w.Type("#gauge-0", "0.053 in")
	w.makes("Bass string, E", 1)
	w.Tap(words.Keep())
	w.WaitSaved()
	w.Open(place)
	for n, read := range [][2]string{{"0.15", "0.20"}, {"0.55", "0.60"}, {"0.40", "0.45"}} {
		w.Waiting(words.MeasuredTitle())
		w.Tap(words.NeckTitle())
		w.Tap(words.MeasureIt() + ": " + words.PlaceName(guitar, guitar.Places()[n]))
		w.Type("#fits", read[0])
		w.Type("#next", read[1])
		w.Tap(words.ReadButton())
	}
	w.Waiting(words.MeasuredTitle())
	w.Tap(words.Answer(job.AskStrings, job.StringsStay))
	w.Waiting(words.Question(job.AskBuzz, job.Kit{}).Title)
	w.WaitSaved()
	w.do("bringing a stopwatch", command(page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: stopwatch}))
	w.Reload()
	w.Waiting(words.Question(job.AskBuzz, job.Kit{}).Title)

	w.slower(dragSlow)
	w.JS(fmt.Sprintf("(window.opening = stopwatch.opening(%q), true)", words.ChooseTitle()))
	w.Tap(words.Answer(job.AskBuzz, job.BuzzNone))
	opening := w.JS("window.opening").(float64)
	slow := w.drag(dragSteps)
	w.slower(1)
	fast := w.drag(dragSteps)

	b.ReportMetric(0, "ns/op") // the walk's own time means nothing
	fmt.Printf("\nDragging a grip in Choose for %d steps; Go and DOM is what the app does in its listeners of the finger and of the frame.\n", dragSteps)
	fmt.Printf("  %-50s %10s %10s\n", "", fmt.Sprintf("%d × slower", dragSlow), "as it is")
	row := func(name string, decimals int, of func(dragged) float64, note string) {
		fmt.Printf("  %-50s %10.*f %10.*f%s\n", name, decimals, of(slow), decimals, of(fast), note)
	}
	Budget("Go and DOM in a step of a drag in Choose", dragBudget, " ms", 2, slow.work...)
	row("Go and DOM in a step, median, ms", 2, func(d dragged) float64 { return at(d.work, 0.5) }, "")
	row(fmt.Sprintf("ratio to the budget of %.0f ms", dragBudget), 3, func(d dragged) float64 { return at(d.work, 0.5) / dragBudget }, "   (goal: at most 1)")
	row("Go and DOM in a step, 95 of 100 at most, ms", 2, func(d dragged) float64 { return at(d.work, 0.95) }, "")
	row("with style, layout and paint, median, ms", 2, func(d dragged) float64 { return at(d.whole, 0.5) }, "")
	row("with style, layout and paint, 95 of 100, ms", 2, func(d dragged) float64 { return at(d.whole, 0.95) }, "")
	row("frames a second", 1, func(d dragged) float64 { return d.perSecond }, "")
	row("attributes and texts written in a step, median", 0, func(d dragged) float64 { return at(d.changes, 0.5) }, "")
	row("steps that changed nothing, left out", 0, func(d dragged) float64 { return float64(d.idle) }, "")
	fmt.Printf("  %-50s %10.0f\n\n", "the screen opens, from tap to paint, ms", opening)
}

// at is the value under which that part of them lies.
func at(sorted []float64, part float64) float64 {
	if len(sorted) == 0 {
		return 0
	}
	return sorted[int(part*float64(len(sorted)-1))]
}

// command is one command to the browser as something to do.
func command[P, R any](c cdp.Command[P, R], params P) chromedp.Action[chromedp.Void] {
	return chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		_, err := cdp.Call(ctx, t, c, params)
		return err
	})
}

// slower makes the phone's processor that many times slower.
func (w *Walk) slower(times float64) {
	w.t.Helper()
	w.do("slowing the processor", command(emulation.SetCPUThrottlingRate, emulation.SetCPUThrottlingRateParams{Rate: times}))
}

// drag moves a finger on the bass grip by a pixel at a time, up and down within what may be wished for, sixty times a second.
func (w *Walk) drag(steps int) dragged {
	w.t.Helper()
	const grip = ".exploring .p-drag"
	w.JS(fmt.Sprintf(`(document.querySelector(%q).scrollIntoView({ block: "center", behavior: "instant" }), true)`, grip))
	box := w.JS(fmt.Sprintf(`(() => { const b = document.querySelector(%q).getBoundingClientRect(); return [b.x + b.width / 2, b.y + b.height / 2] })()`, grip)).([]any)
	x, y := box[0].(float64), box[1].(float64)
	touch := func(kind input.DispatchTouchEventType, points ...*input.TouchPoint) {
		w.do("moving a finger", command(input.DispatchTouchEvent, input.DispatchTouchEventParams{Type: kind, TouchPoints: append([]*input.TouchPoint{}, points...)}))
	}
	touch(input.DispatchTouchEventTypeTouchStart, &input.TouchPoint{X: x, Y: y})
	for n := range 10 { // far enough to be a drag, and back
		touch(input.DispatchTouchEventTypeTouchMove, &input.TouchPoint{X: x, Y: y + 5*float64(min(n, 9-n))})
	}
	w.JS("(stopwatch.start(), true)")
	beat := time.NewTicker(time.Second / 60)
	defer beat.Stop()
	for n := range steps {
		<-beat.C
		touch(input.DispatchTouchEventTypeTouchMove, &input.TouchPoint{X: x, Y: y + [...]float64{1, 2, 3, 2, 1, 0, -1, -2, -3, -2, -1, 0}[n%12]})
	}
	frames := w.JS("new Promise(done => setTimeout(() => done(stopwatch.frames()), 200))").([]any)
	touch(input.DispatchTouchEventTypeTouchEnd)

	var d dragged
	of := func(frame any, name string) float64 { return frame.(map[string]any)[name].(float64) }
	for _, f := range frames {
		if of(f, "changes") == 0 {
			d.idle++
			continue
		}
		d.work, d.whole, d.changes = append(d.work, of(f, "work")), append(d.whole, of(f, "whole")), append(d.changes, of(f, "changes"))
	}
	if n := len(frames); n > 1 {
		d.perSecond = float64(n-1) * 1000 / (of(frames[n-1], "began") - of(frames[0], "began"))
	}
	if len(d.work) < steps/2 {
		w.t.Fatalf("only %d of %d frames changed anything", len(d.work), len(frames))
	}
	for _, all := range [][]float64{d.work, d.whole, d.changes} {
		slices.Sort(all)
	}
	return d
}
