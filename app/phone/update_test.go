package phone

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"maps"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"gapwright/app/job"
	"gapwright/app/site"
	"gapwright/app/store"
	"gapwright/app/view"
	"gapwright/app/words"
	"gapwright/geometry"
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

var every = flag.Bool("every", false, "hand out every file wrongly in every way, also those that are alike")

// wrongly are the ways in which a host hands out a file wrongly. Each is given the right file; elsewhere is an address of another origin.
func wrongly(elsewhere string) map[string]func(w http.ResponseWriter, r *http.Request, file site.File) {
	return map[string]func(w http.ResponseWriter, r *http.Request, file site.File){
		"the line breaks": func(w http.ResponseWriter, r *http.Request, file site.File) {
			w.Header().Set("Content-Length", fmt.Sprint(len(file.Body)))
			w.Write(file.Body[:len(file.Body)/2])
			w.(http.Flusher).Flush()
			panic(http.ErrAbortHandler)
		},
		"half of it, called whole": func(w http.ResponseWriter, r *http.Request, file site.File) {
			w.Header().Set("Content-Length", fmt.Sprint(len(file.Body)/2))
			w.Write(file.Body[:len(file.Body)/2])
		},
		"a byte is another": func(w http.ResponseWriter, r *http.Request, file site.File) {
			body := bytes.Clone(file.Body)
			body[len(body)/2] ^= 1
			w.Write(body)
		},
		"a page to sign in": func(w http.ResponseWriter, r *http.Request, file site.File) {
			w.Header().Set("Content-Type", "text/html")
			io.WriteString(w, "<!doctype html><title>Sign in</title><p>Sign in to this network")
		},
		"an error of the host": func(w http.ResponseWriter, r *http.Request, file site.File) {
			w.WriteHeader(http.StatusInternalServerError)
		},
		"sent elsewhere": func(w http.ResponseWriter, r *http.Request, file site.File) {
			http.Redirect(w, r, elsewhere+r.URL.Path, http.StatusFound)
		},
	}
}

// Every file of a new version, the worker among them, is handed out wrongly in turn (-every: each in every way), and in the end the host dies while it
// hands it out. What was there before goes on without a network each time, and when the host is well again the new version comes as if nothing had been.
func TestNoFileOfANewVersionCanHurtTheOldOne(t *testing.T) {
	t.Parallel()
	first, second := Site(t), later(t, 'b')
	var asked atomic.Int64 // of the origin elsewhere, which would let anybody have anything
	other := ServeHandler(t, "", http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		asked.Add(1)
		w.Header().Set("Access-Control-Allow-Origin", "*")
		site.Handler(second).ServeHTTP(w, r)
	}))
	host := Serve(t, first)
	p := New(t, Small)
	p.Expect("net::ERR_CONNECTION_REFUSED")
	p.Visit(host)
	p.WaitReadyOffline()

	whole, tried := site.Handler(second), 0
	try := func(address, how string, with func(w http.ResponseWriter, r *http.Request, file site.File)) {
		met := make(chan bool, 100)
		host.PublishHandler(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
			if r.URL.Path != address {
				whole.ServeHTTP(w, r)
				return
			}
			met <- true
			w.Header().Set("Content-Type", second.Files[address].Type)
			with(w, r, second.Files[address])
		}))
		p.look()
		if tried++; len(met) == 0 {
			t.Errorf("%s, %s: it was never asked for", address, how)
		}
		if p.JS("gapwright.waiting()") != false {
			t.Errorf("%s, %s: the new version waits to be used", address, how)
		}
	}
	// In the order in which the worker fetches them: what has arrived is not asked for again.
	files := slices.DeleteFunc(second.Addresses(), func(address string) bool { return strings.HasPrefix(address, site.Pictures) })
	ways := wrongly(other.URL())
	names := slices.Sorted(maps.Keys(ways))
	for n, address := range files {
		for turn, how := range names {
			if address == site.Worker && how == "a byte is another" {
				continue // the browser alone can tell: that is what HTTPS is for
			}
			// Pages and icons are fetched as each other is: each has a byte changed, and of the other ways one after the other.
			if page := strings.HasSuffix(address, "/") && address != "/" || strings.HasSuffix(address, ".png"); page && how != "a byte is another" && n%len(names) != turn && !*every {
				continue
			}
			try(address, how, ways[how])
		}
		try(address, "the host dies", func(w http.ResponseWriter, r *http.Request, file site.File) {
			w.Write(file.Body[:len(file.Body)/2])
			w.(http.Flusher).Flush()
			host.Stop()
		})
		p.Reload()
		if got := p.version(); got != first.Version {
			t.Fatalf("%s: version %s, want %s", address, got, first.Version)
		}
		p.WaitReadyOffline() // whole, and without a host
		host.Start()
	}
	t.Logf("%d files, %d faults", len(files), tried)
	if asked.Load() != 0 {
		t.Errorf("%d requests went elsewhere", asked.Load())
	}

	host.Publish(second)
	p.look()
	p.Wait("the new version waiting", "gapwright.waiting()")
	host.Stop()
	p.Kill()
	p.placesOpen(first.Version, "")
	p.Wait("the new version still waiting", "gapwright.waiting()")
	p.JS("(gapwright.useNew(), true)")
	p.waitVersion(second)
	p.WaitReadyOffline()
	p.Open("/kit/")
}

func (p *Phone) waitVersion(s site.Site) {
	p.t.Helper()
	p.Wait("version "+s.Version, fmt.Sprintf(`goappGetenv("GOAPP_VERSION") === %q && document.getElementById("loading").hidden`, s.Version))
}

// A line that only drips is given up; a host that says of everything that nothing has changed is asked again; a first visit that broke off goes on.
func TestSlowAndForgetfulHosts(t *testing.T) {
	t.Parallel()
	first, second := Site(t), later(t, 'b')
	host := Serve(t, first)
	broken := instead("/kit/", cutOff, site.Handler(first)) // on the first visit
	host.PublishHandler(broken)
	p := New(t, Small)
	p.Expect("net::ERR_")
	p.Visit(host)
	p.Wait("the worker given up", "navigator.serviceWorker.getRegistration().then(r => r === undefined)")
	host.Publish(first)
	p.JS(`(dispatchEvent(new Event("online")), true)`)
	p.WaitReadyOffline()

	hasty := SiteAt(t, site.Options{Wasm: append(bytes.Clone(first.Files[site.Wasm].Body), 0, 2, 1, 'c'), Patience: 300 * time.Millisecond})
	for _, address := range []string{"/", site.Start} {
		gone := make(chan bool)
		host.PublishHandler(instead(address, func(w http.ResponseWriter, r *http.Request) {
			for {
				if _, err := w.Write([]byte(" ")); err != nil || r.Context().Err() != nil {
					close(gone)
					return
				}
				w.(http.Flusher).Flush()
				time.Sleep(20 * time.Millisecond)
			}
		}, site.Handler(hasty)))
		p.look()
		<-gone
		if p.JS("gapwright.waiting()") != false || p.JS("gapwright.offline()") != "ready" {
			t.Errorf("%s dripped: waiting %v, offline %v", address, p.JS("gapwright.waiting()"), p.JS("gapwright.offline()"))
		}
	}

	forgetful := site.Handler(second)
	host.PublishHandler(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.Header.Get("If-None-Match") != "" && r.URL.Path != site.Worker {
			w.WriteHeader(http.StatusNotModified)
			return
		}
		forgetful.ServeHTTP(w, r)
	}))
	p.look()
	p.Wait("the new version waiting", "gapwright.waiting()")
	if got := p.version(); got != first.Version {
		t.Errorf("version %s, want %s until somebody asks", got, first.Version)
	}
}

// A job is open in two windows when a new version comes. Nobody is asked in the job, not after a reload, nor when the phone has ended every page; where
// it is asked for, the other window says so and has all of it saved. Back to the older version goes the same way, and leaves alone what a later one wrote.
func TestANewVersionIsTakenUpWhenSomebodyAsksForIt(t *testing.T) {
	t.Parallel()
	first, second := Site(t), later(t, 'b')
	w := walkOn(t, "update", Small)
	w.Expect("net::ERR_CONNECTION_REFUSED")
	w.WaitReadyOffline()
	w.Tap(words.Family(geometry.FlatTop6))
	w.Waiting(words.Question(job.AskSaddle, job.Kit{}).Title)
	inJob := w.Place()
	w.Tap(words.Answer(job.AskSaddle, job.SaddleStepped))
	w.Waiting(words.RuleQuestion().Title)
	w.WaitSaved()

	w.host.Publish(second)
	w.newVersion()
	w.SeesNot(words.UseNewVersion())
	w.Reload()
	w.Waiting(words.RuleQuestion().Title)
	w.Restart()
	w.Open(inJob)
	w.Waiting(words.RuleQuestion().Title)
	wantJS(w.Phone, `navigator.serviceWorker.getRegistration().then(r => r.waiting === null)`, true) // its worker is in charge, and hands out the old version
	w.Wait("the page knowing of the new version", "gapwright.waiting()")
	w.SeesNot(words.UseNewVersion())
	if got := w.version(); got != first.Version {
		t.Fatalf("version %s was taken up unasked", got)
	}
	w.host.Stop()
	w.WaitReadyOffline()
	w.Open("/")
	w.Sees(words.NewerWaits())
	w.SeesNot(words.UseNewVersion())
	other := w.Another()
	other.Open(inJob)
	w.Tap(words.AboutName())
	w.Sees(words.NewVersionJobs())
	w.Look()
	w.Tap(words.UseNewVersion())
	w.waitVersion(second)
	other.Sees(words.Replaced())
	wantJS(other, `document.querySelector(".mark-saved") !== null`, true)
	if got := other.version(); got != first.Version {
		t.Errorf("the other window was given version %s without being asked, want %s until it reloads", got, first.Version)
	}
	other.Reload()
	if got := other.version(); got != second.Version {
		t.Errorf("the other window reloaded: version %s, want %s", got, second.Version)
	}
	other.Sees(words.RuleQuestion().Title)                            // the old job, where it stood
	wantJS(w.Phone, `caches.keys().then(names => names.length)`, 2.0) // the version, and which it is

	// The host goes back to the older version. What a later one wrote stays as it is, byte for byte, and the newer version may come again.
	w.Open(inJob)
	w.putAway()
	key := store.KindInstrument + "/later"
	body, _ := json.Marshal(job.Instrument{ID: "later", Name: "Later guitar", Family: geometry.FlatTop6})
	doc, text, err := store.Encode(store.Document{Key: key, Kind: store.KindInstrument, Version: 99, Sequence: 7, Writer: "w", Body: body})
	if err != nil {
		t.Fatal(err)
	}
	w.JS(fmt.Sprintf("localStorage.setItem(%q, %q)", store.Prefix+key, text))
	w.JS(fmt.Sprintf("gapwrightJournal.commit({key: %q, expect: '', sequence: 7, sum: %q, line: [], finished: false, text: %q})", key, doc.Sum, text))
	w.host.Start()
	for _, back := range []site.Site{first, second} {
		w.host.Publish(back)
		w.Open("/")
		w.newVersion()
		w.Sees(words.NewVersion())
		w.Look()
		w.Tap(words.UseNewVersion())
		w.waitVersion(back)
		w.Sees(words.Instruments())
		w.Open("/instrument/?id=later")
		w.WaitSaved()
		wantJS(w.Phone, fmt.Sprintf("localStorage.getItem(%q)", store.Prefix+key), text)
		wantJS(w.Phone, fmt.Sprintf("gapwrightJournal.read(%q).then(found => found.head.text)", key), text)
	}
}

// newVersion looks for one and waits until it is here.
func (w *Walk) newVersion() {
	w.t.Helper()
	w.Phone.look()
	w.Wait("the new version waiting", "gapwright.waiting()")
}

func TestTheFirstVisitIsNotTakenForANewVersion(t *testing.T) {
	t.Parallel()
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
	t.Parallel()
	p := New(t, Small)
	p.Visit(Serve(t, Site(t)))
	for _, on := range []bool{true, true, false, true, false} {
		if got := p.JS(fmt.Sprintf("gapwright.keepAwake(%t)", on)); got != on {
			t.Errorf("keepAwake(%t) = %v", on, got)
		}
	}
}

func TestTheWorkerKeepsNothingThatIsNotInItsList(t *testing.T) {
	t.Parallel()
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
		if address != site.Worker && !strings.HasPrefix(address, site.Pictures) {
			want = append(want, address)
		}
	}
	slices.SortFunc(got, func(a, b any) int { return bytes.Compare([]byte(a.(string)), []byte(b.(string))) })
	if !slices.Equal(got, want) {
		t.Errorf("kept: %v\nwant: %v", got, want)
	}
}

func TestWhatTheBrowserThrewAwayIsMended(t *testing.T) {
	t.Parallel()
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
	t.Parallel()
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
	t.Parallel()
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
	t.Parallel()
	if _, err := program(); err != nil {
		t.Fatal(err)
	}
	folder := filepath.Join(t.TempDir(), "site")
	write := exec.Command("go", "run", "./cmd/site", "-quick", "-wasm", "build/test/app.wasm", "-prefix", "/some/folder", "-out", folder)
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
