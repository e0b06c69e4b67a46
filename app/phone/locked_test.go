package phone

import (
	"encoding/json"
	"fmt"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"gapwright/app/job"
	"gapwright/app/site"
	"gapwright/app/store"
	"gapwright/app/view"
	"gapwright/app/words"
	"gapwright/geometry"
)

// hostile are texts that would do harm, or be shown as something else, if anybody took them for more than text. A page that lets one of them run or
// become markup has an element with data-harm, or calls harmed.
var hostile = []string{
	`<img src=x onerror="harmed()" data-harm>`,
	`"><svg onload=harmed() data-harm></svg><script data-harm>harmed()</script>`,
	`javascript:harmed()//{{.}}{{7*7}}${harmed()}`,
	"\u202e<b data-harm>right to left</b>\u2066\u200f",
	"bell\a, escape\x1b[31m, nothing\x00, next line\u0085, line\u2028</title></textarea><!--<p data-harm>",
	"=HYPERLINK(\"http://elsewhere.invalid\",\"x\")",
	"long " + strings.Repeat(`𝄞&lt;<i data-harm>`, 60) + " end",
}

// hostileDesk has an instrument for each of them, with a job that is open and one that is over.
func hostileDesk(t *testing.T) *store.Desk {
	t.Helper()
	d := madeDesk(t)
	must := func(err error) {
		if err != nil {
			t.Fatal(err)
		}
	}
	for n, text := range hostile {
		i, err := d.PutInstrument(job.Instrument{ID: fmt.Sprint("h", n), Name: text, Owner: text, Tags: text, Family: geometry.FlatTop6})
		must(err)
		for _, over := range []bool{false, true} {
			id := fmt.Sprintf("job-h%d-%t", n, over)
			_, events := job.Example(i.ID, id, "w", text, time.Date(2026, 2, 1+n, 9, 0, 0, 0, time.UTC))
			must(d.Adopt(events))
			must(d.Record(id, job.Noted{Text: text}))
			if over {
				must(d.Record(id, job.PutAway{}))
			}
		}
	}
	return d
}

// goTo goes to a place without loading the page again, and waits until another screen is drawn.
func (w *Walk) goTo(place view.Place, id string) {
	w.t.Helper()
	w.JS(fmt.Sprintf(`(() => {
		document.getElementById("screen").dataset.before = "";
		history.pushState({}, "", %q);
		dispatchEvent(new PopStateEvent("popstate", { state: {} }));
		return true;
	})()`, view.Link("", place, id)))
	w.Wait("the place "+string(place)+" of "+id, `document.querySelector("#screen:not([data-before]) :is(h1, h2)") !== null && document.querySelector(".brand") === null`)
}

// unharmed fails when a text has run or become markup on the screen that is shown, folded or not.
func (w *Walk) unharmed() {
	w.t.Helper()
	w.allText() // all of it is drawn from then on
	if found := w.JS(`(() => {
		const found = window.harm ? ["it ran"] : [];
		if (document.title !== ` + "`" + words.AppName() + "`" + `) found.push("title " + document.title);
		for (const e of document.querySelectorAll("*")) {
			if (e.hasAttribute("data-harm") || ["IFRAME", "OBJECT", "EMBED", "BASE", "FORM"].includes(e.tagName)) found.push(e.outerHTML);
			if (e.tagName === "SCRIPT" && !e.src.startsWith(location.origin + "/")) found.push(e.outerHTML);
			for (const a of e.attributes) {
				if (/^on/i.test(a.name) || /^(.*:)?(href|src|action|formaction|data)$/i.test(a.name) && /^\s*javascript:/i.test(a.value)) found.push(a.name + "=" + a.value);
			}
		}
		return found.join("\n");
	})()`); found != "" {
		w.t.Errorf("%s: %.500s", w.Place(), found)
	}
}

// shows fails when the screen has the text nowhere as it was typed.
func (w *Walk) shows(text string) {
	w.t.Helper()
	if !strings.Contains(w.allText(), text) {
		w.t.Errorf("%s does not show %.60q", w.Place(), text)
	}
}

// Whatever stands in a backup, in a code, in local storage: it is text, at every place, and in all that is handed out.
func TestNothingThatIsReadIsTakenForMarkup(t *testing.T) {
	t.Parallel()
	w := StartWalk(t, "hostile", Small)
	w.run(`window.harmed = () => { window.harm = true };
		window.handed = []; navigator.canShare = () => true; navigator.share = async what => { window.handed.push(what) };
		URL.createObjectURL = blob => { blob.text().then(text => window.table = text); return "#" }`)

	// Out of a backup.
	w.goTo(view.Copy, "")
	w.chooses(backupOf(t, hostileDesk(t)))
	w.Waiting(words.RestoreTitle())
	w.unharmed()
	for _, text := range hostile {
		w.shows(beginning(text))
	}
	w.Tap(words.RestoreNow())
	w.Waiting(words.RestoredTitle())
	w.unharmed()
	w.goTo(view.Bench, "")
	for _, text := range hostile {
		w.shows(text)
	}
	w.unharmed()
	visits := 2
	for n, text := range hostile {
		of := fmt.Sprint("h", n)
		for _, at := range []struct {
			place view.Place
			id    string
			shown bool
		}{
			{view.Instrument, of, true}, {view.History, of, true}, {view.Check, of, false}, {view.Buzz, of, false}, {view.Code, of, false}, {view.Copy, of, true},
			{view.Job, "job-" + of + "-false", true}, {view.Job, "job-" + of + "-true", true}, {view.Letter, "job-" + of + "-true", true},
		} {
			w.goTo(at.place, at.id)
			if at.place == view.Job && strings.HasSuffix(at.id, "true") || at.place == view.Letter || at.place == view.History {
				w.Wait("what is fetched", fmt.Sprintf(`document.querySelector("main h1").textContent !== %q && document.querySelector("main .lead")?.textContent !== %q`,
					words.LoadingJob(), words.HistoryLoading()))
			}
			if at.place == view.Copy {
				w.shows(beginning(text))
			} else if at.shown {
				w.shows(text)
			}
			w.unharmed()
			visits++
		}
	}
	for _, place := range view.Places() {
		w.goTo(place, string(place)+hostile[0]) // an address may say anything, too
		w.unharmed()
		visits++
	}
	t.Logf("%d texts, %d screens", len(hostile), visits)

	// What is handed out: the letter with its pictures, and the table, in which a cell is no formula.
	w.goTo(view.Letter, "job-h0-true")
	w.Wait("the letter", `document.querySelector(".letter") !== null`)
	w.Tap(words.ShareLetter())
	w.Wait("the letter handed out", "window.handed.length === 1")
	if got := w.JS("window.handed[0].text").(string); !strings.Contains(got, hostile[0]) {
		t.Errorf("the letter reads %s", got)
	}
	w.goTo(view.Instrument, "h5")
	w.Tap(words.TableButton())
	w.Wait("the table", "window.table !== undefined")
	if got, want := w.JS("window.table").(string), `"'=HYPERLINK(""http://elsewhere.invalid"",""x"")"`; !strings.Contains(got, want) {
		t.Errorf("the table has no %s:\n%s", want, got)
	}
	w.unharmed()

	// Out of a code.
	for n := range 3 {
		code, _, err := (job.Instrument{ID: fmt.Sprint("code-", n), Name: hostile[n], Owner: hostile[n], Family: geometry.FlatTop6}).Code()
		if err != nil {
			t.Fatal(err)
		}
		w.goTo(view.Kit, "")
		w.goTo(view.Code, "")
		w.run(fmt.Sprintf(`gapwright.later = () => Promise.resolve({ text: %q })`, code))
		w.readsCode([]byte("a picture"))
		w.Wait("what the code says", fmt.Sprintf(`document.querySelector("main h1").textContent !== %q`, words.ReceiveName()))
		w.shows(hostile[n])
		w.unharmed()
	}

	// Out of local storage, with keys, ids and numbers that are none.
	put := func(key, kind string, body any) {
		data, _ := json.Marshal(body)
		_, text, err := store.Encode(store.Document{Key: key, Kind: kind, Version: store.JobKinds()[kind].Version(), Sequence: 1, Writer: hostile[1], Build: hostile[0], Body: data})
		if err != nil {
			text = hostile[0] // such a key is none of ours
		}
		w.JS(fmt.Sprintf("localStorage.setItem(%s, %s)", quote(store.Prefix+key), quote(text)))
	}
	put(store.KindKit, store.KindKit, job.Kit{Unit: job.Unit(hostile[0]), Marks: job.EveryHalfMM, Zero: job.ZeroAtEnd})
	put(store.KindInstrument+"/l1", store.KindInstrument, job.Instrument{ID: "l1", Name: hostile[0], Family: geometry.FamilyID(hostile[1]), Scale: job.Typed{Text: hostile[0], Unit: job.Unit(hostile[1])}})
	put(store.KindInstrument+"/"+hostile[0], store.KindInstrument, job.Instrument{ID: hostile[0], Name: hostile[1], Family: geometry.FlatTop6})
	w.JS(fmt.Sprintf("localStorage.setItem(%s, %s)", quote(store.Prefix+hostile[1]), quote(hostile[2])))
	w.Reload()
	w.run(`window.harmed = () => { window.harm = true }`)
	w.unharmed()
	for _, place := range []view.Place{view.Instrument, view.History, view.Check, view.Kit, view.Copy} {
		w.goTo(place, "l1")
		w.unharmed()
	}
}

// beginning is as much of a name as a title shows.
func beginning(text string) string {
	all := []rune(text)
	return string(all[:min(24, len(all))])
}

func quote(text string) string {
	quoted, _ := json.Marshal(text)
	return string(quoted)
}

// Everything the host answers carries what a browser can be told: pages, files, what it does not know, what it does not do.
func TestEveryAnswerIsLockedDown(t *testing.T) {
	s := Site(t)
	h := site.Handler(s)
	want := map[string]string{
		"X-Content-Type-Options":       "nosniff",
		"X-Frame-Options":              "DENY",
		"Referrer-Policy":              "no-referrer",
		"Cross-Origin-Opener-Policy":   "same-origin",
		"Cross-Origin-Resource-Policy": "same-origin",
		"Cache-Control":                "no-cache",
		"Server":                       "",
		"X-Powered-By":                 "",
		"Strict-Transport-Security":    "", // means nothing without TLS
	}
	for _, method := range []string{http.MethodGet, http.MethodHead, http.MethodPost, http.MethodOptions} {
		for _, address := range append(s.Addresses(), "/nowhere", "/kit", "/../secret") {
			answer := httptest.NewRecorder()
			h.ServeHTTP(answer, httptest.NewRequest(method, "http://127.0.0.1"+address, nil))
			for name, value := range want {
				if got := answer.Header().Get(name); got != value {
					t.Errorf("%s %s: %s is %q, want %q", method, address, name, got, value)
				}
			}
			policy := "; " + answer.Header().Get("Content-Security-Policy") + ";"
			for _, part := range []string{"default-src 'self'", "script-src 'self' 'wasm-unsafe-eval'", "style-src 'self'", "img-src 'self' data: blob:", "connect-src 'self'",
				"object-src 'none'", "base-uri 'none'", "form-action 'none'", "frame-ancestors 'none'"} {
				if !strings.Contains(policy, "; "+part+";") {
					t.Errorf("%s %s: the policy is %q, want %s", method, address, policy, part)
				}
			}
			for _, hole := range []string{"unsafe-inline", "'unsafe-eval'", "*", "http"} {
				if strings.Contains(policy, hole) {
					t.Errorf("%s %s: the policy lets in %s: %q", method, address, hole, policy)
				}
			}
			for _, part := range []string{"geolocation=()", "microphone=()", "camera=(self)", "payment=()"} {
				if got := answer.Header().Get("Permissions-Policy"); !strings.Contains(got, part) {
					t.Errorf("%s %s: the permissions are %q, want %s", method, address, got, part)
				}
			}
		}
	}
	answer := httptest.NewRecorder()
	h.ServeHTTP(answer, httptest.NewRequest(http.MethodGet, "https://127.0.0.1/", nil)) // httptest says TLS for https
	if got := answer.Header().Get("Strict-Transport-Security"); !strings.HasPrefix(got, "max-age=") {
		t.Errorf("over TLS: %q", got)
	}
}
