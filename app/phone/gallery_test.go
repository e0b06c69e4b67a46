package phone

import (
	"encoding/json"
	"flag"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"gapwright/app/job"
	"gapwright/app/store"
	"gapwright/app/view"
	"gapwright/app/words"
	"gapwright/geometry"
)

var (
	pictures = flag.Bool("pictures", false, "keep a picture of every screen at both sizes, light and dark; otherwise one each")
	onlyOf   = flag.String("of", "", "look only at the screens whose name has this in it")
)

// A shown screen is a place in the app, and what is on the device for it.
type shown struct {
	name  string
	place view.Place
	id    string
	shelf shelf
}

// jobStates asks app/job for a job in each of the states that there are.
func jobStates() (all []jobState, err error) {
	file := filepath.Join(Root(), "build", "states.json")
	if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
		return nil, err
	}
	made := exec.Command("go", "test", "./app/job", "-count=1", "-run", "^TestSomeJobIsInEveryState$", "-states", file)
	made.Dir = Root()
	if said, err := made.CombinedOutput(); err != nil {
		return nil, fmt.Errorf("making the states: %w\n%s", err, said)
	}
	text, err := os.ReadFile(file)
	if err != nil {
		return nil, err
	}
	if err := json.Unmarshal(text, &all); err != nil {
		return nil, err
	}
	for n := range all {
		all[n].settle(n)
	}
	return all, nil
}

type jobState struct {
	Name   string
	Shows  []string
	Events []job.Event
}

// settle gives the job and its instrument ids of their own and moves all of it to just now, so that nothing is stale that was not.
func (s *jobState) settle(n int) {
	shift := time.Since(s.Events[len(s.Events)-1].At) - time.Minute
	for i := range s.Events {
		e := &s.Events[i]
		e.Job, e.At = "s"+strconv.Itoa(n), e.At.Add(shift)
		own := func(i *job.Instrument) { i.ID, i.Name = "of-s"+strconv.Itoa(n), "Bench piece "+strconv.Itoa(n+1) }
		switch f := e.Fact.(type) {
		case job.Began:
			own(&f.Instrument)
			e.Fact = f
		case job.Described:
			own(&f.Instrument)
			e.Fact = f
		}
	}
}

func (s jobState) shelf() shelf {
	r, err := job.Replay(s.Events)
	if err != nil {
		panic(err)
	}
	shelf := shelf{Local: map[string]string{}}
	shelf.keep(store.KindInstrument+"/"+r.Instrument.ID, store.KindInstrument, 1, false, r.Instrument)
	shelf.keep(store.KindJob+"/"+r.ID, store.KindJob, 1, r.Ended != job.Open || r.Over(), store.JobBody{Events: r.Events})
	return shelf
}

// put lays a shelf into the stores of the page that is open.
func (w *Walk) put(s shelf) {
	w.t.Helper()
	if len(s.Heads) == 0 {
		return
	}
	text, err := json.Marshal(s)
	if err != nil {
		w.t.Fatal(err)
	}
	w.JS(fmt.Sprintf(`(async all => {
		const base = await new Promise((yes, no) => { const asked = indexedDB.open("gapwright"); asked.onsuccess = () => yes(asked.result); asked.onerror = () => no(asked.error) });
		for (const [name, text] of Object.entries(all.local)) localStorage.setItem(name, text);
		const t = base.transaction(["heads", "past"], "readwrite");
		for (const [key, head] of all.heads) t.objectStore("heads").put(head, key);
		for (const [key, text] of all.past) t.objectStore("past").put(text, key);
		await new Promise((yes, no) => { t.oncomplete = yes; t.onabort = () => no(t.error) });
		base.close();
		return true;
	})(%s)`, text))
}

// at goes to a place without loading the page again, and waits until its screen is drawn.
func (w *Walk) at(place view.Place, id string) {
	w.t.Helper()
	w.JS(fmt.Sprintf(`(() => { history.pushState({}, "", %q); dispatchEvent(new PopStateEvent("popstate", { state: {} })); return true })()`, view.Link("", place, id)))
	if id == "" {
		w.JS("new Promise(yes => setTimeout(() => yes(true), 150))") // nothing tells this screen from the one before
		return
	}
	w.Wait("the place "+string(place)+" of "+id, fmt.Sprintf(`location.pathname === %q && screenKey().split("/").includes(%q) && !screenKey().startsWith("fetching/")`, string(place), id))
}

const screenKeyOf = `window.screenKey = () => document.getElementById("screen").dataset.screen`

// kinds lists the kinds of screens that the view can draw, from its own code: the beginnings of the keys that its functions return.
func kinds() (all []string, err error) {
	files, err := filepath.Glob(filepath.Join(Root(), "app", "view", "*.go"))
	if err != nil || len(files) == 0 {
		return nil, fmt.Errorf("no code of the view: %w", err)
	}
	for _, file := range files {
		f, err := parser.ParseFile(token.NewFileSet(), file, nil, 0)
		if err != nil {
			return nil, err
		}
		for _, d := range f.Decls {
			fn, ok := d.(*ast.FuncDecl)
			if !ok || fn.Type.Results == nil || !drawsScreen(fn.Type.Results.List) {
				continue
			}
			ast.Inspect(fn.Body, func(n ast.Node) bool {
				if _, inner := n.(*ast.FuncLit); inner {
					return false
				}
				r, ok := n.(*ast.ReturnStmt)
				if !ok || len(r.Results) < 2 {
					return true
				}
				if key := firstText(r.Results[0]); key != "" && !slices.Contains(all, key) {
					all = append(all, key)
				}
				return true
			})
		}
	}
	slices.Sort(all)
	return all, nil
}

// drawsScreen tells whether a function returns a key and what is drawn.
func drawsScreen(results []*ast.Field) bool {
	var names []string
	for _, field := range results {
		for range max(1, len(field.Names)) {
			switch x := field.Type.(type) {
			case *ast.Ident:
				names = append(names, x.Name)
			case *ast.ArrayType:
				names = append(names, "list")
			}
		}
	}
	return len(names) >= 2 && names[0] == "string" && names[1] == "list"
}

// firstText is the text that an expression of joined texts begins with.
func firstText(e ast.Expr) string {
	switch x := e.(type) {
	case *ast.BinaryExpr:
		return firstText(x.X)
	case *ast.BasicLit:
		s, _ := strconv.Unquote(x.Value)
		return s
	}
	return ""
}

// gallery is what was looked at so far.
type gallery struct {
	sync.Mutex
	looks map[string]bool
}

// Every screen that a job, an instrument or a device can bring about is fit for everybody: on both phones and on the narrowest, upright and lying,
// by day and by night, with nothing in its fields and with nonsense in them.
func TestEveryScreenInEveryState(t *testing.T) {
	t.Parallel()
	all, device, err := everyState()
	if err != nil {
		t.Fatal(err)
	}
	all = slices.DeleteFunc(all, func(s shown) bool { return !strings.Contains(s.name, *onlyOf) })
	seen := &gallery{looks: map[string]bool{}}
	const hands = 2
	for hand := range hands {
		t.Run(strconv.Itoa(hand+1), func(t *testing.T) {
			t.Parallel()
			w := StartWalk(t, "state", Small)
			w.put(device)
			for n := hand; n < len(all); n += hands {
				w.put(all[n].shelf)
			}
			w.Reload()
			w.WaitSaved()
			w.run(screenKeyOf)
			for n := hand; n < len(all); n += hands {
				w.at(all[n].place, all[n].id)
				if seen.look(w, all[n].name) {
					seen.nonsense(w, all[n].name)
				}
			}
			if hand == 0 && *onlyOf == "" {
				seen.atATap(w, all)
			}
		})
	}
}

// atATap looks at what no job and no place is in by itself.
func (g *gallery) atATap(w *Walk, all []shown) {
	w.t.Helper()
	w.at(view.Kit, "")
	w.Tap(words.Change() + ": " + words.RuleRow())
	w.Waiting(words.RuleQuestion().Title)
	w.Tap(words.IDontKnow())
	w.Waiting(words.CountSpaces().Title)
	g.look(w, "kit count")
	w.at(view.Bench, "")
	w.at(view.Kit, "")
	w.Tap(words.Change() + ": " + words.ZeroRow())
	w.Waiting(words.ZeroQuestion().Title)
	w.Tap(words.Zero(job.ZeroInside))
	w.Waiting(words.ZeroDistance(job.ZeroInside).Title)
	g.look(w, "kit distance")
	at := slices.IndexFunc(all, func(s shown) bool { return s.name == "finding 1 1" })
	w.at(view.Job, all[at].id)
	w.Tap(words.OtherHeights())
	w.Wait("other heights", `screenKey().endsWith("/rechoose")`)
	g.look(w, "other heights")
}

// everyState lists a job in every state, and every place with nothing there, with what is not there, with little and with much; and what must be on the
// device for the places.
func everyState() (all []shown, device shelf, err error) {
	states, err := jobStates()
	if err != nil {
		return nil, device, err
	}
	for _, s := range states {
		all = append(all, shown{s.Shows[0], view.Job, s.Events[0].Job, s.shelf()})
	}
	bare := job.Instrument{ID: "bare", Name: "Nothing known", Family: geometry.SolidBody}
	device = much{instruments: 1, jobs: 3}.shelf(0, 1)
	device.keep(store.KindInstrument+"/"+bare.ID, store.KindInstrument, 1, false, bare)
	for _, place := range view.Places() {
		of := []string{"", "nowhere", "bare", "i0"}
		switch place {
		case view.Bench, view.Kit, view.About, view.Learn: // not of an instrument
			of = of[:1]
		case view.Check: // what it does not know leads to the list
			of = []string{"", "bare", "i0"}
		case view.Job, view.Letter: // of a job
			of = []string{"", "nowhere", jobID(0, 0)}
		}
		for _, id := range of {
			all = append(all, shown{"place " + strings.Trim(string(place), "/") + " " + id, place, id, shelf{}})
		}
	}
	for _, page := range words.Learn() {
		all = append(all, shown{"place learn " + page.ID, view.Learn, page.ID, shelf{}})
	}
	return all, device, nil
}

// look looks at the screen that is shown as everybody may have it before them; fresh is false where one that reads the same was looked at before.
func (g *gallery) look(w *Walk, name string) (fresh bool) {
	w.t.Helper()
	w.noteKind()
	key, text := kindOf(w.JS("screenKey()").(string)), w.firstView()
	looks := key + " " + digits.ReplaceAllString(text, "")
	g.Lock()
	fresh = !g.looks[looks]
	g.looks[looks] = true
	g.Unlock()
	if !fresh && !*pictures {
		return false
	}
	// A record holds what somebody wrote, a step does not.
	if n := countWords(text); n > MostWords && !strings.HasSuffix(key, "/finished") && w.JS(`document.querySelector(".where, #screen .choices") !== null`) == true {
		w.t.Errorf("%s: %s has %d words in its first view, at most %d are wanted: %s", name, w.heading(), n, MostWords, text)
	}
	if w.JS(`document.querySelector(".where") !== null && document.querySelector("#screen > svg, #screen :not(.where) svg") === null`) == true {
		w.t.Errorf("%s: %s has no picture", name, w.heading())
	}
	for _, m := range []Model{Small, Tall.InTheDark(), Tall, Small.InTheDark()} {
		if !*pictures && (m.Width == Tall.Width) != m.Dark {
			continue
		}
		w.model = m
		w.dress()
		if (m.Width == Tall.Width) == m.Dark {
			w.CheckAccessible()
			w.CheckFits()
		}
		if m == Small && strings.HasPrefix(key, "job/") {
			w.CheckAnswersInView()
		}
		if *pictures || m == Small {
			w.Screenshot(fmt.Sprintf("state %d %s %s %s", m.Width, map[bool]string{true: "dark", false: "light"}[m.Dark], slug(name), slug(key)))
		}
	}
	for _, size := range [][2]int64{{Narrowest, 640}, {640, 360}} {
		w.do("turning the phone", chromedp.EmulateViewport(size[0], size[1], chromedp.EmulateMobile, chromedp.EmulateTouch))
		w.CheckFits()
	}
	w.model = Small
	w.dress()
	w.JS(`document.documentElement.style.fontSize = "200%"`) // the reader's own text size
	w.CheckFits()
	w.JS(`document.documentElement.style.fontSize = ""`)
	return fresh
}

// nonsense fills every field of the screen with what is no answer, presses the main button, and looks at what is said.
func (g *gallery) nonsense(w *Walk, name string) {
	w.t.Helper()
	pressed := w.JS(`(() => {
		const fields = [...document.querySelectorAll("#screen input[type=text]")].filter(f => f.checkVisibility());
		const main = document.querySelector("#screen .foot .button.main");
		if (fields.length === 0 || main === null) return false;
		for (const f of fields) { f.value = "x,y"; f.dispatchEvent(new Event("input", { bubbles: true })) }
		main.click();
		return true;
	})()`)
	if pressed != true {
		return
	}
	w.JS("new Promise(yes => setTimeout(() => yes(true), 60))")
	if w.JS(`[...document.querySelectorAll("#screen .problem")].some(p => p.checkVisibility())`) != true {
		return // it asks for nothing that can be wrong
	}
	for _, field := range w.JS(`[...document.querySelectorAll("#screen .problem")].filter(p => p.checkVisibility() && p.textContent.trim() === "").map(p => p.id)`).([]any) {
		w.t.Errorf("%s: nothing is said beside %v", name, field)
	}
	if w.JS(`[...document.querySelectorAll("#screen input[type=text]")].some(f => f.checkVisibility() && f.value !== "x,y")`) == true {
		w.t.Errorf("%s: what was typed is lost", name)
	}
	if w.JS(`(() => {
		const says = [...document.querySelectorAll("#screen .problem")].find(p => p.checkVisibility()), foot = document.querySelector("#screen .foot").getBoundingClientRect();
		const box = says.getBoundingClientRect();
		return box.top >= 0 && box.bottom <= innerHeight && (box.bottom <= foot.top || box.top >= foot.bottom);
	})()`) != true {
		w.t.Errorf("%s: what is wrong stands outside of the screen or under the main button", name)
	}
	g.look(w, name+" nonsense")
}

var digits = regexp.MustCompile(`[0-9]+`)

// passing are the kinds of screens that no test can stop at, and why.
var passing = map[string]string{
	"fetching/":     "gone when the journal has answered",
	"copy-busy":     "gone when the file is read",
	"waiting":       "gone when the first stroke may be made",
	"record/":       "drawn as the record of a job at hand",
	"newer/":        "the same sentence as at an address with nothing, with a caution",
	"zero-distance": "kit-zero-distance, asked in a job",
	"sand":          "only where what was entered cannot be worked with, which is refused before",
	"no-plan":       "only where what was entered cannot be worked with, which is refused before",
}

// unseen lists the kinds of screens that the view can draw and that nobody looked at.
func unseen() (all []string, err error) {
	kinds, err := kinds()
	for _, kind := range kinds {
		_, found := passing[kind]
		kindsSeen.Range(func(key, _ any) bool {
			found = found || strings.HasPrefix(key.(string), kind) || strings.HasPrefix(strings.TrimPrefix(key.(string), "job/"), kind)
			return !found
		})
		if !found {
			all = append(all, kind)
		}
	}
	return all, err
}
