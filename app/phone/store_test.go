package phone

import (
	"fmt"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
)

// keeperProgram is app/store's tests compiled for the browser; one of them puts a keeper into the page and stays.
var keeperProgram = sync.OnceValues(func() (string, error) {
	folder, err := os.MkdirTemp("", "store")
	if err != nil {
		return "", err
	}
	name := filepath.Join(folder, "store.wasm")
	build := exec.Command("go", "test", "-c", "-o", name, "./app/store")
	build.Dir = Root()
	build.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	if out, err := build.CombinedOutput(); err != nil {
		return "", fmt.Errorf("compiling: %w\n%s", err, out)
	}
	return name, nil
})

// keeperPage serves a bare page with web/journal.js under the app's strict policy, and opens it.
func keeperPage(t *testing.T) *Phone {
	t.Helper()
	file, err := keeperProgram()
	if err != nil {
		t.Fatal(err)
	}
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		t.Fatal(err)
	}
	mux := http.NewServeMux()
	mux.HandleFunc("GET /{$}", func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Security-Policy", "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; img-src data:")
		fmt.Fprint(w, `<!doctype html><title>Store</title><link rel="icon" href="data:,"><script src="/wasm_exec.js"></script><script src="/journal.js"></script>`)
	})
	for address, name := range map[string]string{
		"/wasm_exec.js": filepath.Join(strings.TrimSpace(string(root)), "lib", "wasm", "wasm_exec.js"),
		"/journal.js":   filepath.Join(Root(), "web", "journal.js"),
		"/program.wasm": file,
	} {
		mux.HandleFunc("GET "+address, func(w http.ResponseWriter, r *http.Request) { http.ServeFile(w, r, name) })
	}
	host := ServeHandler(t, "", mux)
	p := New(t, Small)
	p.home = host.URL()
	p.Load("/")
	return p
}

// run starts the program in the page, without waiting for its end.
func run(p *Phone, test, page string) {
	p.t.Helper()
	p.JS(fmt.Sprintf(`(async () => {
		const go = new Go();
		go.argv = ["store", "-test.run=^%s$", "-test.v", "-test.timeout=0"];
		if (%q) go.env = {PAGE: %q};
		const {instance} = await WebAssembly.instantiateStreaming(fetch("/program.wasm"), go.importObject);
		window.code = undefined;
		window.said = [];
		console.log = line => said.push(line);
		go.exit = code => { window.code = code; };
		go.run(instance);
	})()`, test, page, page))
}

var opened = 0

// openKeeper puts a keeper into the page and waits until it has compared its two stores.
func openKeeper(p *Phone) {
	p.t.Helper()
	opened++
	run(p, "TestPage", fmt.Sprint("page", opened))
	p.Wait("the keeper to settle", "typeof keeper === 'object' && keeper.settled()")
}

// again loads the page anew, as a reload or a new visit does.
func again(p *Phone) {
	p.t.Helper()
	p.Load("/")
	openKeeper(p)
}

// add puts a fact and reports what the keeper said of it.
func add(p *Phone, key, fact string) any {
	p.t.Helper()
	return p.JS(fmt.Sprintf("new Promise(told => keeper.add(%q, %q, told))", key, fact))
}

func wantJS(p *Phone, expression string, want any) {
	p.t.Helper()
	if got := p.JS(expression); got != want {
		p.t.Errorf("%s = %v, want %v", expression, got, want)
	}
}

func TestStoreKeepsItsContractInTheBrowser(t *testing.T) {
	p := keeperPage(t)
	run(p, "TestBrowserKeepsTheContract", "")
	p.Wait("the tests to end", "window.code !== undefined")
	if said := fmt.Sprint(p.JS(`said.join("\n")`)); p.JS("code") != 0.0 || !strings.Contains(said, "--- PASS: TestBrowserKeepsTheContract") {
		t.Errorf("in the browser: exit %v\n%s", p.JS("code"), said)
	}
}

func TestSavedSurvivesAKill(t *testing.T) {
	t.Parallel()
	p := keeperPage(t)
	openKeeper(p)
	want := []string{}
	for kill := range 5 {
		for i := range 3 {
			fact := fmt.Sprint("f", kill, i)
			if add(p, "job/a", fact) != true {
				t.Fatalf("%s was not saved: %v", fact, p.JS("keeper.state()"))
			}
			want = append(want, `"`+fact+`"`)
		}
		p.Kill()
		again(p)
		wantJS(p, `keeper.get("job/a")`, "["+strings.Join(want, ",")+"]")
		wantJS(p, "keeper.state()", "saved ")
	}
}

func TestTwoTabsDoNotUndoEachOther(t *testing.T) {
	t.Parallel()
	p := keeperPage(t)
	openKeeper(p)
	q := p.Another()
	q.Load("/")
	openKeeper(q)
	if add(p, "job/a", "first") != true {
		t.Error("not saved")
	}
	q.Wait("the other tab to hear of it", `keeper.get("job/a") === '["first"]'`)
	// Both at once, several times: neither waits for the other.
	for i := range 5 {
		for tab, name := range map[*Phone]string{p: "p", q: "q"} {
			tab.JS(fmt.Sprintf(`void keeper.add("job/a", "%s%d", () => {})`, name, i))
		}
	}
	for _, tab := range []*Phone{p, q} {
		tab.Wait("all facts of both tabs", `(() => {
			const all = JSON.parse(keeper.get("job/a"));
			return all.length === 11 && ["p", "q"].every(tab => [0, 1, 2, 3, 4].every(i => all.includes(tab + i)));
		})()`)
		tab.Wait("saved", `keeper.state() === "saved "`)
	}
}

func TestClearedAndSpoiltStoresAreRestored(t *testing.T) {
	t.Parallel()
	p := keeperPage(t)
	openKeeper(p)
	add(p, "job/a", "kept")
	add(p, "job/done", "long ago")
	p.JS(`void keeper.finish("job/done")`)
	p.Wait("the finished job to leave local storage", `keeper.state() === "saved " && localStorage.getItem("gapwright/job/done") === null`)

	p.JS("void localStorage.clear()")
	again(p)
	wantJS(p, `keeper.get("job/a")`, `["kept"]`)
	wantJS(p, `localStorage.getItem("gapwright/job/a").endsWith('"body":["kept"]}')`, true)
	wantJS(p, `keeper.keys("job")`, "[job/a job/done]")

	p.JS(`void localStorage.setItem("gapwright/job/a", localStorage.getItem("gapwright/job/a").slice(0, 50))`)
	again(p)
	wantJS(p, `keeper.get("job/a")`, `["kept"]`)
	wantJS(p, "keeper.reports()", 1.0)
	p.Wait("the damaged text to be set aside", `gapwrightJournal.heads().then(all => all.kept.length === 1 && all.kept[0].startsWith("aside/job/a/"))`)

	const drop = `new Promise(done => { const asked = indexedDB.deleteDatabase("gapwright"); asked.onsuccess = () => done(true); })`
	wantJS(p, drop, true) // under an open page, which makes way
	if add(p, "job/a", "more") != true {
		t.Errorf("after the journal was deleted: %v", p.JS("keeper.state()"))
	}
	wantJS(p, drop, true)
	again(p)
	p.Wait("the journal to be written anew", `gapwrightJournal.read("job/a").then(found => found.head !== null && found.head.text.endsWith('"body":["kept","more"]}'))`)
	wantJS(p, "keeper.state()", "saved ")
}

func TestBlockedFullAndSilentStoresAreTold(t *testing.T) {
	t.Parallel()
	p := keeperPage(t)
	p.JS(`void (IDBFactory.prototype.open = () => { throw new DOMException("not here", "SecurityError"); })`)
	openKeeper(p)
	if add(p, "job/a", "local only") != false {
		t.Error("saved without a journal")
	}
	wantJS(p, "keeper.state()", "not saved blocked")
	again(p)
	wantJS(p, `keeper.get("job/a")`, `["local only"]`)
	p.Wait("saved", `keeper.state() === "saved "`)

	p.JS(`void (Storage.prototype.setItem = () => { throw new DOMException("no room", "QuotaExceededError"); })`)
	if add(p, "job/a", "journal only") != true {
		t.Error("not saved although the journal works")
	}
	again(p)
	wantJS(p, `keeper.get("job/a")`, `["local only","journal only"]`)

	p.Load("/")
	p.JS(`void (window.ask = IDBFactory.prototype.open, IDBFactory.prototype.open = () => ({}))`) // asks and never hears
	opened++
	run(p, "TestPage", fmt.Sprint("page", opened))
	p.Wait("the keeper", "typeof keeper === 'object'")
	if add(p, "job/a", "unheard") != false {
		t.Error("saved by a journal that never answers")
	}
	wantJS(p, "keeper.state()", "not saved no answer")
	again(p)
	wantJS(p, `keeper.get("job/a")`, `["local only","journal only","unheard"]`)
	p.Wait("saved", `keeper.state() === "saved "`)
}
