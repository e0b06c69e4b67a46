package phone

import (
	"bytes"
	"context"
	"crypto/sha256"
	"fmt"
	"net"
	"net/http"
	"net/http/httptest"
	"net/http/httputil"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/performance"
	"github.com/chromedp/chromedp"

	"gapwright/app/site"
)

// What a start may take, as a ratio to the least go-app, and how it is tried.
const (
	warmBudget  = 1.25
	firstBudget = 1.3
	startSlow   = 4
	sizeBudget  = 1.35
)

// startClock tells, from outside, when a page could be read and when it could be used: the program has drawn, no loader lies over it or runs, and
// the frame is painted. It is in the page before anything else. Times are milliseconds from the navigation.
const startClock = `(() => {
	const at = { readable: 0, bar: 0, compiled: 0, drawn: 0, usable: 0 };
	const painted = done => requestAnimationFrame(() => { const { port1, port2 } = new MessageChannel(); port1.onmessage = () => done(performance.now()); port2.postMessage(0) });
	const open = e => { if (!e) return false; const b = e.getBoundingClientRect(), hit = document.elementFromPoint(b.x + b.width / 2, b.y + b.height / 2); return e === hit || e.contains(hit) };
	new PerformanceObserver(list => {
		for (const e of list.getEntries()) if (e.name === "first-contentful-paint" && open(document.querySelector("h1")) && (!document.querySelector("main") || open(document.querySelector(".lead")))) at.readable = e.startTime;
	}).observe({ type: "paint", buffered: true });
	for (const name of ["instantiateStreaming", "instantiate"]) { // wherever the program was compiled, here it is made ready to run
		const real = WebAssembly[name];
		WebAssembly[name] = (...given) => {
			const made = real.apply(WebAssembly, given);
			made.then(() => { at.compiled = performance.now() }, () => { });
			return made;
		};
	}
	const look = new MutationObserver(() => {
		const bar = document.getElementById("loading");
		if (bar && bar.value > 0 && bar.value < 1) at.bar ||= performance.now();
		if (document.getElementById("app-wasm-loader") || bar && !bar.hidden) return;
		const title = document.querySelector("h1");
		if (!document.querySelector("#screen .choice, #screen .card") && !(title && title.textContent === "Least" && document.readyState !== "loading")) return;
		at.drawn = performance.now();
		look.disconnect();
		painted(now => { at.usable = now });
	});
	look.observe(document, { childList: true, subtree: true, attributes: true });
	window.startClock = () => [at.readable, at.bar, at.compiled, at.drawn, at.usable];
})()`

// A started is when what happened in one start, in the order of startClock.
type started [6]float64

const (
	readable = iota
	moving
	compiled
	drawn
	usable
	own // what the page's main thread did until then, whatever else the computer did
)

// A contestant is a site that is started, and what was timed of it. The browser slows a page's main thread alone: what a page has done elsewhere it
// gets at full speed, and so a start in which nothing is slowed is timed too.
type contestant struct {
	name              string
	handler           http.Handler
	warm, even, first []started
}

// contestants are the app and the least go-app, the latter as go-app hands it out by itself and in our own frame; all of them compressed for the wire
// as far as they can be.
func contestants(b *testing.B) []*contestant {
	least := buildLeast(b)
	framed := SiteAt(b, site.Options{Wasm: least})
	return []*contestant{
		{name: "ours", handler: squeezed(site.Handler(Site(b)))},
		{name: "least", handler: squeezed(leastHandler(b, least))},
		{name: "least, our frame", handler: squeezed(site.Handler(framed))},
	}
}

// buildLeast builds testdata/least for the browser, as cmd/gapwright is built.
func buildLeast(b *testing.B) []byte {
	out := filepath.Join(Root(), "build", "test", "least.wasm")
	goBuild(b, out, "GOOS=js", "GOARCH=wasm")
	body, err := os.ReadFile(out)
	if err != nil {
		b.Fatal(err)
	}
	return body
}

func goBuild(b *testing.B, out string, env ...string) {
	build := exec.Command("go", "build", "-trimpath", "-ldflags=-s -w", "-gcflags=gapwright/...=-l", "-o", out, "./testdata/least")
	build.Dir, build.Env = Root(), append(os.Environ(), env...)
	if said, err := build.CombinedOutput(); err != nil {
		b.Fatalf("building the least app: %v\n%s", err, said)
	}
}

// leastHandler runs the least app's own server and hands on what it says.
func leastHandler(b *testing.B, wasm []byte) http.Handler {
	folder := b.TempDir()
	server := filepath.Join(folder, "least")
	goBuild(b, server)
	if err := os.Mkdir(filepath.Join(folder, "web"), 0o755); err != nil {
		b.Fatal(err)
	}
	for name, body := range map[string][]byte{"app.wasm": wasm, "icon.png": Site(b).Files["/icon-192.png"].Body} {
		if err := os.WriteFile(filepath.Join(folder, "web", name), body, 0o644); err != nil {
			b.Fatal(err)
		}
	}
	free, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		b.Fatal(err)
	}
	address := free.Addr().String()
	free.Close()
	run := exec.Command(server, address)
	run.Dir = folder
	if err := run.Start(); err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() { run.Process.Kill(); run.Wait() })
	for range 100 {
		if conn, err := net.Dial("tcp", address); err == nil {
			conn.Close()
			break
		}
		time.Sleep(50 * time.Millisecond)
	}
	return httputil.NewSingleHostReverseProxy(&url.URL{Scheme: "http", Host: address})
}

// squeezed sends everything of a handler that gets smaller by it in brotli, as small as that can make it, worked out once.
func squeezed(inner http.Handler) http.Handler {
	var mu sync.Mutex
	small := map[string][]byte{}
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		r = r.Clone(r.Context())
		r.Header.Del("Accept-Encoding")
		answer := httptest.NewRecorder()
		inner.ServeHTTP(answer, r)
		body := answer.Body.Bytes()
		if answer.Code == http.StatusOK && !strings.HasPrefix(answer.Header().Get("Content-Type"), "image/png") {
			mu.Lock()
			squeeze, done := small[r.URL.Path]
			if !done {
				squeeze = brotlied(body)
				small[r.URL.Path] = squeeze
			}
			mu.Unlock()
			if len(squeeze) < len(body) {
				body = squeeze
				answer.Header().Set("Content-Encoding", "br")
			}
			answer.Header().Set("Content-Length", fmt.Sprint(len(body)))
		}
		for name, values := range answer.Header() {
			w.Header()[name] = values
		}
		w.WriteHeader(answer.Code)
		w.Write(body)
	})
}

// brotlied takes half a minute for a program: what was made once is kept beside the programs, by the hash of what it was made from.
func brotlied(body []byte) []byte {
	name := filepath.Join(Root(), "build", "test", fmt.Sprintf("%x.br", sha256.Sum256(body)))
	if kept, err := os.ReadFile(name); err == nil {
		return kept
	}
	small := site.Brotli(body)
	if len(body) > 1<<20 {
		os.WriteFile(name, small, 0o644) // without it, it is only slower
	}
	return small
}

// ---- a slow link ----

// A link is the way between a host and its phones, shared by all connections: each byte waits its turn and then travels half the round trip. A new
// connection waits one round trip more. These are the values of Lighthouse's slow 4G.
type link struct {
	trip     time.Duration
	down, up float64 // bytes a second

	mu               sync.Mutex
	downFree, upFree time.Time
}

func slow4G() *link { return &link{trip: 150 * time.Millisecond, down: 1.6e6 / 8, up: 0.75e6 / 8} }

// turn takes the next turn for so many bytes and tells when the last of them is through.
func (l *link) turn(free *time.Time, bytes int, rate float64) time.Time {
	l.mu.Lock()
	defer l.mu.Unlock()
	if now := time.Now(); free.Before(now) {
		*free = now
	}
	*free = free.Add(time.Duration(float64(bytes) / rate * float64(time.Second)))
	return *free
}

type linkListener struct {
	net.Listener
	link *link
}

func (l linkListener) Accept() (net.Conn, error) {
	inner, err := l.Listener.Accept()
	if err != nil {
		return nil, err
	}
	c := &linkConn{Conn: inner, link: l.link, opened: time.Now().Add(l.link.trip), sent: make(chan parcel, 1<<16), over: make(chan struct{})}
	go c.deliver()
	return c, nil
}

type parcel struct {
	at   time.Time
	body []byte
}

type linkConn struct {
	net.Conn
	link   *link
	opened time.Time
	sent   chan parcel
	over   chan struct{}
	once   sync.Once
}

func (c *linkConn) Read(b []byte) (int, error) {
	n, err := c.Conn.Read(b)
	at := c.link.turn(&c.link.upFree, n, c.link.up).Add(c.link.trip / 2)
	time.Sleep(max(time.Until(at), time.Until(c.opened.Add(c.link.trip/2))))
	return n, err
}

func (c *linkConn) Write(b []byte) (int, error) {
	for part := range slices.Chunk(b, 2800) {
		through := c.link.turn(&c.link.downFree, len(part), c.link.down)
		select {
		case c.sent <- parcel{through.Add(c.link.trip / 2), bytes.Clone(part)}:
		case <-c.over:
			return 0, net.ErrClosed
		}
		time.Sleep(time.Until(through))
	}
	return len(b), nil
}

func (c *linkConn) deliver() {
	for {
		select {
		case p := <-c.sent:
			time.Sleep(time.Until(p.at))
			if _, err := c.Conn.Write(p.body); err != nil {
				return // the browser has gone away
			}
		case <-c.over:
			return
		}
	}
}

func (c *linkConn) Close() error {
	c.once.Do(func() { close(c.over) })
	return c.Conn.Close()
}

// over puts a handler behind a link, nil for none, on a port of its own.
func over(b *testing.B, l *link, handler http.Handler) (home string, stop func()) {
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		b.Fatal(err)
	}
	server := &http.Server{Handler: handler}
	home = "http://" + listener.Addr().String()
	if l != nil {
		listener = linkListener{listener, l}
	}
	go server.Serve(listener)
	return home, func() { server.Close() }
}

// ---- the starts ----

// start opens the first page of a browser that was just switched on, and waits until it can be used.
func (c *contestant) start(p *Phone, slow int) started {
	p.t.Helper()
	p.do("bringing a clock", command(page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: startClock}))
	(&Walk{Phone: p}).slower(float64(slow))
	p.do("asking for the processor's time", command(performance.Enable, performance.EnableParams{TimeDomain: performance.EnableTimeDomainThreadTicks}))
	p.Load("/")
	p.Wait(c.name+" to be usable", "startClock()[4] > 0")
	var s started
	for n, value := range p.JS("startClock()").([]any) {
		s[n] = value.(float64)
	}
	s[own] = p.ownWork()
	return s
}

// ownWork is the processor's time that the page's main thread has had, in milliseconds; it must have been asked for before.
func (p *Phone) ownWork() float64 {
	p.t.Helper()
	ctx, cancel := context.WithTimeout(p.tab, Patience)
	defer cancel()
	all, err := chromedp.Call(ctx, performance.GetMetrics, cdp.Empty{})
	if err != nil {
		p.t.Fatal(err)
	}
	for _, m := range all.Metrics {
		if m.Name == "TaskDuration" {
			return 1000 * m.Value
		}
	}
	p.t.Fatal("the browser does not tell what its tasks took")
	return 0
}

// forget switches on a phone that is off, with an empty profile.
func (p *Phone) forget() {
	p.t.Helper()
	if err := os.RemoveAll(p.profile); err != nil {
		p.t.Fatal(err)
	}
	p.start()
}

// BenchmarkStart starts the app and the least go-app in turn: for the first time over a slow link, then from the device alone, with the host gone for good.
func BenchmarkStart(b *testing.B) {
	all := contestants(b)
	for _, c := range all { // what is compressed is compressed before anything is timed
		c.handler.ServeHTTP(httptest.NewRecorder(), httptest.NewRequest(http.MethodGet, "/web/app.wasm", nil))
	}
	phones := map[*contestant]*Phone{}
	for _, c := range all {
		p := New(b, Small)
		p.Expect("net::ERR_CONNECTION_REFUSED") // the browser looks for a newer worker
		p.Expect("An unknown error occurred when fetching the script")
		phones[c] = p
		p.stop()
	}
	for range *times {
		for _, c := range all {
			p := phones[c]
			p.forget()
			home, stop := over(b, slow4G(), c.handler)
			p.home = home
			c.first = append(c.first, c.start(p, startSlow))
			stop()
			p.stop()
		}
	}
	for _, c := range all {
		p := phones[c]
		p.forget()
		home, stop := over(b, nil, c.handler)
		p.home = home
		p.Load("/")
		p.Wait("the worker having everything", `(async () => {
			const r = await navigator.serviceWorker.getRegistration();
			return Boolean(r && r.active && navigator.serviceWorker.controller && await caches.match("/web/app.wasm") && (!globalThis.gapwright || await gapwright.offline() === "ready"));
		})()`)
		stop()
		p.stop()
	}
	for range *times {
		for _, c := range all {
			p := phones[c]
			p.start()
			c.warm = append(c.warm, c.start(p, startSlow))
			p.stop()
			p.start()
			c.even = append(c.even, c.start(p, 1))
			p.stop()
		}
	}
	for _, p := range phones {
		p.start() // it is switched off at the end
	}

	b.ReportMetric(0, "ns/op") // the walks' own time means nothing
	Budget("program in brotli, to the least as Go links it", sizeBudget, "", 2,
		float64(len(brotlied(Site(b).Files[site.Wasm].Body)))/float64(len(brotlied(buildLeast(b)))))
	of := func(starts []started, what int) (times []float64) {
		for _, s := range starts {
			times = append(times, s[what])
		}
		return times
	}
	table := func(title string, slow int, starts func(*contestant) []started) {
		fmt.Printf("\n%s, main thread %d × slower, medians of %d in turn (and quartiles), ms from the navigation.\n", title, slow, *times)
		fmt.Printf("  %-34s", "")
		for _, c := range all {
			fmt.Printf(" %26s", c.name)
		}
		fmt.Println()
		for _, row := range []struct {
			name string
			what int
		}{{"prerendered text is painted", readable}, {"progress begins to move", moving}, {"the program is here and compiled", compiled}, {"drawn", drawn}, {"usable", usable}, {"work of the page's main thread", own}} {
			fmt.Printf("  %-34s", row.name)
			for _, c := range all {
				got := slices.Sorted(slices.Values(of(starts(c), row.what)))
				fmt.Printf(" %26s", fmt.Sprintf("%.0f (%.0f to %.0f)", at(got, 0.5), at(got, 0.25), at(got, 0.75)))
			}
			fmt.Println()
		}
	}
	first, warm := func(c *contestant) []started { return c.first }, func(c *contestant) []started { return c.warm }
	even := func(c *contestant) []started { return c.even }
	table("The first visit over a slow link (150 ms, 1.6 Mbit/s down, 0.75 up: Lighthouse's slow 4G)", startSlow, first)
	table("A start from the device, browser newly opened, host gone", startSlow, warm)
	table("The same", 1, even)
	ratios := func(ours, other []started) (all []float64) { // of the two that came one after the other
		for n := range ours {
			all = append(all, ours[n][usable]/other[n][usable])
		}
		return all
	}
	for _, least := range all[1:] {
		Budget("warm start offline until usable, to the "+least.name, warmBudget, "", 2, ratios(all[0].warm, least.warm)...)
		Budget("the same with nothing slowed, to the "+least.name, warmBudget, "", 2, ratios(all[0].even, least.even)...)
		Budget("first visit, slow 4G, until usable, to the "+least.name, firstBudget, "", 2, ratios(all[0].first, least.first)...)
	}
	var early []float64
	for _, s := range all[0].first {
		if s[readable] == 0 {
			b.Error("the prerendered heading and its text were not painted at first")
		}
		early = append(early, s[readable]/s[compiled])
	}
	Budget("prerendered text painted, as a part of the wait for the program", 1, "", 2, early...)
}
