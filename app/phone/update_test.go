package phone

import (
	"bytes"
	"fmt"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"testing"

	"gapwright/app/site"
	"gapwright/app/view"
)

// later is the app with a program that differs in nothing but its bytes: a section of WebAssembly that nobody reads is added.
func later(t testing.TB, mark byte) site.Site {
	t.Helper()
	wasm, err := program()
	if err != nil {
		t.Fatal(err)
	}
	return SiteAt(t, site.Options{Wasm: append(bytes.Clone(wasm), 0, 2, 1, mark)})
}

func (p *Phone) version() string {
	p.t.Helper()
	return p.JS(`goappGetenv("GOAPP_VERSION")`).(string)
}

// look makes the browser look for a newer version now, and waits until it has taken it or given it up.
func (p *Phone) look() {
	p.t.Helper()
	p.JS(`navigator.serviceWorker.getRegistration().then(r => r.update().then(() => new Promise(done => {
		const worker = r.installing;
		if (!worker) return done();
		worker.addEventListener("statechange", () => { if (worker.state !== "installing") done(); });
	}), () => {})).then(() => true)`)
}

// everyPlaceOpens opens every address, with and without a query, and reloads it there.
func (p *Phone) everyPlaceOpens(version string) {
	p.t.Helper()
	p.placesOpen(version, "")
	p.placesOpen(version, "?id=x")
}

// placesOpen opens every address with the query; where there is one, it reloads it as well.
func (p *Phone) placesOpen(version, query string) {
	p.t.Helper()
	for _, place := range view.Places() {
		p.Open(string(place) + query)
		if query != "" {
			p.Reload()
		}
		want := string(place) + query
		if want == string(view.Job) { // without a job it leads to the newest one; there is none
			want = string(view.Bench)
		}
		if got := p.Place(); got != want {
			p.t.Errorf("opened %s%s, the address is %s", place, query, got)
		}
		if !p.Shown("main h1") {
			p.t.Errorf("%s%s: no heading is shown", place, query)
		}
		if got := p.version(); got != version {
			p.t.Errorf("%s%s: version %s, want %s", place, query, got, version)
		}
	}
}

func TestAnUpdateThatFailsHalfWayLeavesTheOldVersionWorking(t *testing.T) {
	first, second := Site(t), later(t, 'b')
	for name, wasm := range map[string]http.HandlerFunc{
		"connection reset": cutOff,
		"cut short": func(w http.ResponseWriter, r *http.Request) { // in pieces, so that no length gives it away
			w.(http.Flusher).Flush()
			w.Write(second.Files[site.Wasm].Body[:1000000])
		},
		"error of the host": func(w http.ResponseWriter, r *http.Request) { http.Error(w, "no", http.StatusInternalServerError) },
		"wrong bytes": func(w http.ResponseWriter, r *http.Request) {
			wrong := bytes.Clone(second.Files[site.Wasm].Body)
			wrong[len(wrong)/2] ^= 1
			w.Write(wrong)
		},
	} {
		t.Run(name, func(t *testing.T) {
			host := Serve(t, first)
			p := New(t, Small)
			p.Expect("net::ERR_CONNECTION_REFUSED")
			p.Visit(host)
			p.WaitReadyOffline()

			host.PublishHandler(instead(site.Wasm, wasm, site.Handler(second)))
			p.look()
			p.Reload()
			if got := p.version(); got != first.Version {
				t.Errorf("after the failed update: version %s, want %s", got, first.Version)
			}
			if p.JS("gapwright.waiting()") != false {
				t.Error("the failed version waits to be used")
			}
			host.Stop()
			p.Restart()
			p.placesOpen(first.Version, "")
			p.WaitReadyOffline()
		})
	}
}

func TestANewVersionWaitsUntilItIsAskedFor(t *testing.T) {
	first, second := Site(t), later(t, 'b')
	host := Serve(t, first)
	p := New(t, Small)
	p.Expect("net::ERR_CONNECTION_REFUSED")
	p.Visit(host)
	p.WaitReadyOffline()
	p.JS(`(window.told = 0, gapwright.onWaiting(() => { told++ }))`)

	host.Publish(second)
	p.look()
	p.Wait("the new version waiting", "gapwright.waiting()")
	p.Wait("the page told", "told > 0")
	p.Reload()
	if got := p.version(); got != first.Version {
		t.Errorf("reloaded without asking: version %s, want still %s", got, first.Version)
	}

	p.JS("(gapwright.useNew(), true)")
	p.Wait("the new version", fmt.Sprintf(`goappGetenv("GOAPP_VERSION") === %q`, second.Version))
	p.WaitRunning()
	p.WaitReadyOffline()
	if p.JS("gapwright.waiting()") != false {
		t.Error("the new version is in use and still waits")
	}
	if got := p.JS("caches.keys().then(names => names.length)"); got != 1.0 {
		t.Errorf("%v versions are kept, want the new one alone", got)
	}
	host.Stop()
	p.placesOpen(second.Version, "")
}

func TestAnotherTabIsToldThatANewVersionWasTakenUp(t *testing.T) {
	first, second := Site(t), later(t, 'b')
	host := Serve(t, first)
	p := New(t, Small)
	p.Visit(host)
	p.WaitReadyOffline()
	other := p.Another()
	other.Open("/job/")
	other.JS(`(window.replaced = 0, gapwright.onReplaced(() => { replaced++ }))`)

	host.Publish(second)
	p.look()
	p.Wait("the new version waiting", "gapwright.waiting()")
	p.JS("(gapwright.useNew(), true)")
	other.Wait("the other tab told", "replaced === 1")
	if got := other.version(); got != first.Version {
		t.Errorf("the other tab was given version %s without being asked, want %s until it reloads", got, first.Version)
	}
	other.Reload()
	if got := other.version(); got != second.Version {
		t.Errorf("the other tab reloaded: version %s, want %s", got, second.Version)
	}
}

func TestTheFirstVisitIsNotTakenForANewVersion(t *testing.T) {
	host := Serve(t, Site(t))
	p := New(t, Small)
	p.Visit(host)
	p.JS(`(window.replaced = 0, gapwright.onReplaced(() => { replaced++ }))`)
	p.WaitReadyOffline()
	if p.JS("replaced") != 0.0 || p.JS("gapwright.waiting()") != false {
		t.Errorf("on the first visit: %v versions taken up, waiting %v", p.JS("replaced"), p.JS("gapwright.waiting()"))
	}
}

func TestTheScreenStaysOnWhileItIsAskedTo(t *testing.T) {
	p := New(t, Small)
	p.Visit(Serve(t, Site(t)))
	for _, on := range []bool{true, true, false, true, false} {
		if got := p.JS(fmt.Sprintf("gapwright.keepAwake(%t)", on)); got != on {
			t.Errorf("keepAwake(%t) = %v", on, got)
		}
	}
}

func TestTheWorkerKeepsNothingThatIsNotInItsList(t *testing.T) {
	s := Site(t)
	host := Serve(t, s)
	p := New(t, Small)
	p.Expect("404")
	p.Visit(host)
	p.WaitReadyOffline()
	p.JS(`Promise.all(["/nowhere", "/web/app.wasm?id=x"].map(a => fetch(a))).then(() => true)`)
	got := p.JS(`caches.keys().then(names => caches.open(names[0])).then(c => c.keys()).then(all => all.map(r => new URL(r.url).pathname + new URL(r.url).search))`).([]any)
	var want []any
	for _, address := range s.Addresses() {
		if address != site.Worker {
			want = append(want, address)
		}
	}
	slices.SortFunc(got, func(a, b any) int { return bytes.Compare([]byte(a.(string)), []byte(b.(string))) })
	if !slices.Equal(got, want) {
		t.Errorf("kept: %v\nwant: %v", got, want)
	}
}

func TestWhatTheBrowserThrewAwayIsMended(t *testing.T) {
	s := Site(t)
	host := Serve(t, s)
	p := New(t, Small)
	p.Expect("net::ERR_CONNECTION_REFUSED")
	p.Visit(host)
	p.WaitReadyOffline()
	throwAway := fmt.Sprintf(`caches.keys().then(names => caches.open(names[0])).then(c => c.delete(%q))`, site.Wasm)
	p.JS(throwAway)
	host.Stop()
	if got := p.JS("gapwright.offline()"); got != "not yet" {
		t.Errorf("without the program and without a network: %q, want %q", got, "not yet")
	}
	host.Start()
	p.WaitReadyOffline()
	host.Stop()
	p.placesOpen(s.Version, "")
}

func TestAKilledBrowserOpensWithoutANetwork(t *testing.T) {
	s := Site(t)
	host := Serve(t, s)
	p := New(t, Small)
	p.Expect("net::ERR_CONNECTION_REFUSED")
	p.Visit(host)
	p.WaitReadyOffline()
	host.Stop()
	p.Kill()
	p.placesOpen(s.Version, "")
}

func TestAnUnknownAddressShowsTheAppWithoutANetwork(t *testing.T) {
	host := Serve(t, Site(t))
	p := New(t, Small)
	p.Expect("net::ERR_CONNECTION_REFUSED")
	p.Visit(host)
	p.WaitReadyOffline()
	host.Stop()
	p.Open("/nowhere?id=x")
	if !p.Shown("main h1") {
		t.Error("no heading is shown")
	}
}

// The static site as make site writes it, in a folder of a host that knows nothing but files.
func TestTheStaticSiteWorksFromAFolderWithoutANetwork(t *testing.T) {
	if _, err := program(); err != nil {
		t.Fatal(err)
	}
	folder := filepath.Join(t.TempDir(), "site")
	write := exec.Command("go", "run", "./cmd/site", "-wasm", "build/test/app.wasm", "-prefix", "/some/folder", "-out", folder)
	write.Dir = Root()
	if said, err := write.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, said)
	}
	for _, name := range []string{"index.html", "job/index.html", "web/app.wasm.br", "web/app.wasm.gz", "404.html", "worker.js"} {
		if _, err := os.Stat(filepath.Join(folder, name)); err != nil {
			t.Error(err)
		}
	}
	files := http.StripPrefix("/some/folder", http.FileServer(http.Dir(folder)))
	host := ServeHandler(t, "/some/folder", http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		files.ServeHTTP(w, r)
	}))
	p := New(t, Small)
	p.Expect("net::ERR_CONNECTION_REFUSED")
	p.Visit(host)
	p.CheckAccessible()
	p.WaitReadyOffline()
	if scope := p.JS("navigator.serviceWorker.ready.then(r => new URL(r.scope).pathname)"); scope != "/some/folder/" {
		t.Errorf("the worker's scope is %v", scope)
	}
	version := p.version()
	host.Stop()
	p.everyPlaceOpens(version)
	p.Restart()
	p.placesOpen(version, "")
}
