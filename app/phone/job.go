package phone

import (
	"fmt"
	"hash/fnv"
	"math"
	"regexp"
	"strings"
	"sync"
	"testing"
	"unicode"

	"gapwright/app/view"
)

// A Walk is a person on their way through the app. Every screen that they stop at is looked at: whether everybody can use it, whether it fits,
// and whether it can be read with dusty hands.
type Walk struct {
	*Phone
	host    *Host
	name    string
	screens int
	taps    int
	words   int             // how many words were read
	known   map[string]bool // the lines that were read
	forbid  *regexp.Regexp  // what no screen may say from here on
	hurried bool            // its screens are not looked at
}

// MostWords is how many words a step's first view may have; places that list what there is are no steps.
const MostWords = 45

// Narrowest is the narrowest screen, in CSS pixels, on which nothing may stick out: 1280 pixels magnified fourfold.
const Narrowest = 320

// StartWalk opens the app on a phone on which it lies whole and nothing else, with the network gone for good.
func StartWalk(t testing.TB, name string, model Model) *Walk {
	t.Helper()
	if model.Engine != Blink {
		return install(t, name, model)
	}
	whole, err := installed()
	if err != nil {
		t.Fatal(err)
	}
	w := &Walk{Phone: newPhone(t, model, whole.profile), name: name}
	w.home = whole.home
	w.Expect("net::ERR_CONNECTION_REFUSED") // the browser looks for a newer worker
	w.Open("/")
	return w
}

// install is StartWalk where there is no copy to begin with: the app is opened for the first time, and then the network goes.
func install(t testing.TB, name string, model Model) *Walk {
	t.Helper()
	host := Serve(t, Site(t))
	w := &Walk{Phone: New(t, model), name: fmt.Sprintf("%s %s", model.Engine, name), host: host}
	w.Visit(host)
	w.WaitReadyOffline()
	host.Stop()
	w.Restart()
	w.Open("/")
	return w
}

// On waits for the screen with that heading and looks at it.
func (w *Walk) On(title string) {
	w.t.Helper()
	w.Waiting(title)
	w.Look()
}

// Waiting waits for the screen with that heading.
func (w *Walk) Waiting(title string) {
	w.t.Helper()
	w.Wait(fmt.Sprintf("the screen %q", title), fmt.Sprintf(`(() => { const h = document.querySelector("main h1"); return h !== null && h.textContent === %q })()`, title))
}

// Meets waits for the screen with that heading and reads its first view: each line that did not stand on a screen before it.
func (w *Walk) Meets(title string) {
	w.t.Helper()
	w.Waiting(title)
	if w.known == nil {
		w.known = map[string]bool{}
	}
	for _, line := range w.firstLines() {
		if !w.known[line] {
			w.known[line] = true
			w.words += countWords(line)
		}
	}
}

// Touch is a tap that is counted.
func (w *Walk) Touch(name string) {
	w.t.Helper()
	w.Tap(name)
	w.taps++
}

// WaitSaved waits until the app says that everything is kept for good.
func (w *Walk) WaitSaved() {
	w.t.Helper()
	w.Wait("everything saved", `document.querySelector(".mark-saved") !== null`)
}

// Read opens what is folded under a heading, reports every line that is not in it, and folds it again.
func (w *Walk) Read(summary string, lines ...string) {
	w.t.Helper()
	w.Tap(summary)
	w.Says(lines...)
	w.Tap(summary)
}

// Says reports every one of the texts that the screen does not show now.
func (w *Walk) Says(texts ...string) {
	w.t.Helper()
	page := strings.Join(strings.Fields(w.Text()), " ")
	for _, text := range texts {
		if !strings.Contains(page, strings.Join(strings.Fields(text), " ")) {
			w.t.Errorf("%s does not say %q, it says: %s", w.heading(), text, page)
		}
	}
}

// Said is the text that stands beside a field as what is wrong with it, by the field's id; "" when there is none.
func (w *Walk) Said(field string) string {
	w.t.Helper()
	said := w.JS(fmt.Sprintf(`(() => {
		const e = document.getElementById(%q), by = (e.getAttribute("aria-describedby") || "").split(" ").map(id => document.getElementById(id)).filter(Boolean);
		const shown = by.filter(b => b.getClientRects().length > 0).map(b => b.textContent).join(" ");
		return (e.getAttribute("aria-invalid") === "true") === (shown !== "") ? shown : "aria-invalid does not fit: " + shown;
	})()`, field))
	return said.(string)
}

// Holds fails when the field does not hold that text.
func (w *Walk) Holds(field, text string) {
	w.t.Helper()
	if got := w.JS(fmt.Sprintf("document.getElementById(%q).value", field)); got != text {
		w.t.Errorf("the field %s holds %q, want %q", field, got, text)
	}
}

// Go opens one of the app's places by its address.
func (w *Walk) Go(place view.Place) {
	w.t.Helper()
	w.Open(string(place))
}

// ---- looking at a screen ----

// looked holds the screens that were looked at, by what they read and on which phone, so that none is looked at twice.
var looked sync.Map

// lookedInto holds the kinds of screens that were looked at closely, by engine.
var lookedInto sync.Map

// Look looks at the screen as it is now.
func (w *Walk) Look() {
	w.t.Helper()
	w.look(MostWords)
}

// LookInto looks at the screen with something unfolded, which is as long as it is.
func (w *Walk) LookInto() {
	w.t.Helper()
	w.look(math.MaxInt)
}

func (w *Walk) look(most int) {
	w.t.Helper()
	if w.hurried {
		return
	}
	if w.forbid != nil {
		if found := w.forbid.FindString(w.allText()); found != "" {
			w.t.Errorf("%s says %q", w.heading(), found)
		}
	}
	kind := w.noteKind()
	text := w.firstView()
	sum := fnv.New64a()
	fmt.Fprint(sum, w.model, strings.Map(func(c rune) rune {
		if unicode.IsDigit(c) {
			return -1
		}
		return c
	}, text))
	if _, before := looked.LoadOrStore(sum.Sum64(), true); before {
		return
	}
	if n := countWords(text); n > most && w.JS(`document.querySelector(".where, #screen .choices") !== null`) == true {
		w.t.Errorf("%s has %d words in its first view, at most %d are wanted: %s", w.heading(), n, most, text)
	}
	w.CheckFits()
	w.screens++
	if _, before := lookedInto.LoadOrStore(fmt.Sprint(w.model.Engine, kind, most), true); before {
		return // every state of it has its turn in TestEveryScreenInEveryState
	}
	w.CheckAccessible()
	w.Screenshot(fmt.Sprintf("%s %02d %s", w.name, w.screens, slug(w.heading())))
	w.widen(Narrowest)
	w.CheckFits()
	w.dress()
}

// allText is everything on the screen, also what is folded.
func (w *Walk) allText() string {
	w.t.Helper()
	w.JS(`document.querySelectorAll("details[data-fold]:not([open])").forEach(d => { d.open = true; d.dataset.looked = "" })`)
	w.Wait("everything unfolded", foldsDrawn)
	return w.JS(`(() => {
		const text = document.querySelector("main").textContent;
		for (const d of document.querySelectorAll("details[data-looked]")) { d.open = false; delete d.dataset.looked }
		return text;
	})()`).(string)
}

// ids is what of a screen's key names a job or an instrument, and a job's round and step.
var ids = regexp.MustCompile(`^([a-z-]+)/[^/]*(/[0-9]+/[a-z-]+/)?`)

// kindsSeen holds the kinds of screens that anybody looked at.
var kindsSeen sync.Map

// noteKind remembers the kind of the screen that is shown.
func (w *Walk) noteKind() (kind string) {
	if key, ok := w.JS(`document.getElementById("screen")?.dataset.screen ?? ""`).(string); ok {
		kind = kindOf(key)
		kindsSeen.Store(kind, true)
		kindsSeen.Store(key, true)
	}
	return kind
}

// kindOf is a screen's key without what is different for every job.
func kindOf(key string) string { return ids.ReplaceAllString(key, "$1/") }

// heading is the screen's heading and where in the job it stands.
func (w *Walk) heading() string {
	w.t.Helper()
	return w.JS(`[...document.querySelectorAll(".where-line span, main h1")].map(e => e.textContent).join(", ")`).(string)
}

// firstView is what can be read on the screen without a tap: not the line that names instrument and step, not
// the pictures, not what is folded, nor what is said of what was typed.
func (w *Walk) firstView() string {
	w.t.Helper()
	return strings.Join(w.firstLines(), " ")
}

// firstLines are the pieces of text in the first view.
func (w *Walk) firstLines() (lines []string) {
	w.t.Helper()
	for _, line := range w.JS(`(() => {
		const main = document.querySelector("main"), read = [], walker = document.createTreeWalker(main, NodeFilter.SHOW_TEXT);
		while (walker.nextNode()) {
			const e = walker.currentNode.parentElement;
			if (!e.closest("svg, .where, .problem") && e.checkVisibility({ visibilityProperty: true })) read.push(walker.currentNode.data.replace(/\s+/g, " ").trim());
		}
		return read.filter(line => line !== "");
	})()`).([]any) {
		lines = append(lines, line.(string))
	}
	return lines
}

// countWords counts the words of a text. Numbers, signs and the unit behind a number are none.
func countWords(text string) int {
	n, number := 0, false
	for _, word := range strings.Fields(text) {
		word = strings.TrimFunc(word, func(c rune) bool { return !unicode.IsLetter(c) && !unicode.IsDigit(c) })
		digit := strings.ContainsFunc(word, unicode.IsDigit)
		if strings.ContainsFunc(word, unicode.IsLetter) && !digit && word != "mm" && !(word == "in" && number) {
			n++
		}
		number = digit
	}
	return n
}

func slug(text string) string {
	return strings.Trim(regexp.MustCompile(`[^a-z0-9]+`).ReplaceAllString(strings.ToLower(text), "-"), "-")
}
