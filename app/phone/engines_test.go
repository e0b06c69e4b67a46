package phone

import (
	"fmt"
	"io"
	"net/http"
	"strings"
	"testing"
	"time"

	"gapwright/app/site"
	"gapwright/app/words"
)

// The main job in the engines beside Chromium's, from the first visit over a network that then goes for good: the browser is closed and opened again, it
// is killed in the middle, every screen is looked at; then the network is back and brings a newer version.
func TestOtherEngines(t *testing.T) {
	for _, engine := range Engines() {
		if engine == Blink {
			continue
		}
		t.Run(engine.String(), func(t *testing.T) {
			t.Parallel()
			if !engine.Wanted() {
				t.Skip("make test ENGINES=all tries it")
			}
			w := wholeJobInMillimetres(t, Tall.In(engine))

			next := later(t, 'e')
			w.host.Publish(next)
			w.host.Start()
			w.Phone.look()
			w.Sees(words.NewVersion())
			w.Tap(words.UseNewVersion())
			w.Wait("the new version", fmt.Sprintf(`goappGetenv("GOAPP_VERSION") === %q`, next.Version))
			w.WaitRunning()
			w.WaitReadyOffline()
			w.host.Stop()
			w.Reload()
			w.Sees("As set " + words.Day(time.Now()) + ": 2.25 to 2.50\u00a0mm bass, 1.75 to 2.00\u00a0mm treble")
			w.hearsFaults()
		})
	}
}

// hearsFaults opens a page with every fault that a page is listened to for: were they not heard here, the silence before would mean nothing.
func (w *Walk) hearsFaults() {
	w.t.Helper()
	for _, complaint := range w.Complaints() {
		w.t.Error("the page complained: " + complaint)
	}
	w.Expect("") // all of what comes now
	w.home = ServeHandler(w.t, "", http.HandlerFunc(func(out http.ResponseWriter, r *http.Request) {
		if r.URL.Path == "/script.js" {
			io.WriteString(out, `console.error("a word in the console"); setTimeout(() => { throw new Error("an exception") })`)
			return
		}
		out.Header().Set("Content-Security-Policy", site.Policy)
		out.Header().Set("Content-Type", "text/html")
		io.WriteString(out, `<!doctype html><html lang="en"><title>Faults</title><script>document.title = "inline"</script>
			<script src="/script.js"></script><link rel="stylesheet" href="https://elsewhere.invalid/style.css">`)
	})).URL()
	w.Load("/")
	inline := map[Engine]string{Gecko: "script-src-elem inline", WebKit: "Refused to execute a script"}[w.model.Engine]
	w.until("all faults heard", func() (bool, string) {
		w.mu.Lock()
		said := strings.Join(w.complaints, "\n")
		w.mu.Unlock()
		for _, want := range []string{"a word in the console", "an exception", "elsewhere.invalid/style.css", inline} {
			if !strings.Contains(said, want) {
				return false, want + " is not in " + said
			}
		}
		return true, ""
	})
}

// dragsAndStepsBack drags the grip of the bass down, and steps back to where it was.
func (w *Walk) dragsAndStepsBack(bass string) {
	w.t.Helper()
	w.Waiting(words.ChooseTitle())
	at := w.JS(`(() => {
		document.querySelector(".exploring").scrollIntoView({ block: "center", behavior: "instant" });
		const b = document.querySelector(".exploring .p-drag").getBoundingClientRect();
		return [b.x + b.width / 2, b.y + b.height / 2];
	})()`).([]any)
	x, y := at[0].(float64), at[1].(float64)
	w.must("dragging the grip", w.driver.drag(x, y, x, y+12))
	w.atRest()
	w.until("a lower wish", func() (bool, string) {
		b, _ := w.wished()
		return b < bass, b
	})
	for range 30 {
		before, _ := w.wished()
		if before == bass {
			return
		}
		w.Tap(higher(guitar, 0))
		w.until("a higher wish", func() (bool, string) {
			now, _ := w.wished()
			return now > before, now
		})
	}
	w.t.Fatal("the wish does not come back by steps")
}
