package phone

import (
	"flag"
	"fmt"
	"io"
	"net/http"
	"os"
	"strings"
	"testing"

	"gapwright/app/site"
	"gapwright/app/view"
)

func TestMain(m *testing.M) {
	flag.Parse()
	if Chromium() == "" {
		fmt.Fprintln(os.Stderr, "no Chromium found: install one, or name it in CHROMIUM")
		if flag.Lookup("test.bench").Value.String() != "" { // what is only measured may be left out
			fmt.Fprintln(os.Stderr, "the drag is not measured")
			os.Exit(0)
		}
		os.Exit(1)
	}
	if _, err := program(); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	code := m.Run()
	tellBudgets()
	if everything := flag.Lookup("test.run").Value.String() == "" && flag.Lookup("test.bench").Value.String() == ""; everything {
		missed, err := unseen()
		for _, kind := range missed {
			fmt.Fprintf(os.Stderr, "nobody looked at the screen %q\n", kind)
		}
		if err != nil || len(missed) > 0 {
			fmt.Fprintln(os.Stderr, "not every screen was looked at", err)
			code = 1
		}
	}
	os.RemoveAll(installedIn)
	os.Exit(code)
}

// models are the screens that every place is looked at on.
var models = map[string]Model{
	"small": Small, "tall in the dark": Tall.InTheDark(),
}

func TestEveryPlaceIsFitForPeople(t *testing.T) {
	t.Parallel()
	host := Serve(t, Site(t))
	for name, model := range models {
		t.Run(name, func(t *testing.T) {
			p := New(t, model)
			p.Visit(host)
			for _, place := range view.Places() {
				p.Open(string(place))
				p.CheckAccessible()
				p.CheckFits()
				if model == Small {
					p.CheckKeyboard()
				}
				p.Screenshot(fmt.Sprintf("place %s %s", strings.Trim(string(place), "/"), name))
			}
		})
	}
}

func TestTheHostSendsItsPolicy(t *testing.T) {
	host := Serve(t, Site(t))
	for _, address := range []string{"/", "/job/", site.Start, site.Wasm, "/nowhere"} {
		answer, err := http.Get(host.URL() + address)
		if err != nil {
			t.Fatal(err)
		}
		answer.Body.Close()
		for name, want := range map[string]string{
			"Content-Security-Policy":    "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'",
			"X-Content-Type-Options":     "nosniff",
			"Referrer-Policy":            "no-referrer",
			"Permissions-Policy":         "camera=(self)",
			"Cross-Origin-Opener-Policy": "same-origin",
			"Cache-Control":              "no-cache",
		} {
			if got := answer.Header.Get(name); !strings.Contains(got, want) {
				t.Errorf("%s: %s = %q, want %q in it", address, name, got, want)
			}
		}
	}
}

func TestAFaultInGoIsSaid(t *testing.T) {
	t.Parallel()
	wasm, err := Program("crash")
	if err != nil {
		t.Fatal(err)
	}
	p := New(t, Small)
	p.Visit(Serve(t, SiteAt(t, site.Options{Wasm: wasm})))
	if p.Shown("#stopped") {
		t.Fatal("the app is said to have stopped before it has")
	}
	p.Expect("Go program has already exited") // what a tap or a timer that comes too late says
	p.JS("crash()")
	p.Wait("the notice that the app has stopped", `document.getElementById("stopped").getClientRects().length > 0`)
	p.CheckAccessible()
	p.CheckFits()
	p.Screenshot("stopped")
	if c, ok := p.Focused(); !ok || c.Name != "Reload" {
		t.Errorf("the keyboard is at %+v, want the button Reload", c)
	}
	p.Press("Enter")
	p.WaitRunning()
	if p.Shown("#stopped") {
		t.Error("after reloading the app is still said to have stopped")
	}
}

func TestAProgramThatDoesNotArriveIsSaid(t *testing.T) {
	whole := site.Handler(Site(t))
	for name, wasm := range map[string]http.HandlerFunc{
		"error of the host": func(w http.ResponseWriter, r *http.Request) { http.Error(w, "no", http.StatusInternalServerError) },
		"cut off":           cutOff,
		"not a program":     func(w http.ResponseWriter, r *http.Request) { io.WriteString(w, "<p>Sign in to this network") },
	} {
		t.Run(name, func(t *testing.T) {
			p := New(t, Small)
			p.Expect("console: Error: TypeError")
			p.Expect("console: Error: /web/app.wasm: 500")
			p.Expect("console: Error: CompileError")
			p.Expect("/web/app.wasm")
			p.home = ServeHandler(t, "", instead(site.Wasm, wasm, whole)).URL()
			p.Load("/")
			p.Wait("the notice that the app did not load", `document.getElementById("load-failed").getClientRects().length > 0`)
			p.CheckAccessible()
			p.Screenshot("load failed")
		})
	}
}

func TestABrowserThatCannotRunTheAppIsSaid(t *testing.T) {
	t.Parallel()
	whole := site.Handler(Site(t))
	p := New(t, Small)
	p.Expect("'wasm-unsafe-eval'")
	p.home = ServeHandler(t, "", http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		whole.ServeHTTP(strict{w}, r)
	})).URL()
	p.Load("/")
	p.Wait("the notice that this browser cannot run the app", `document.getElementById("cannot-run").getClientRects().length > 0`)
	p.CheckAccessible()
	p.Screenshot("cannot run")
}

// strict forbids WebAssembly.
type strict struct{ http.ResponseWriter }

func (s strict) WriteHeader(code int) {
	s.Header().Set("Content-Security-Policy", "default-src 'self'")
	s.ResponseWriter.WriteHeader(code)
}

func (s strict) Write(b []byte) (int, error) {
	s.Header().Set("Content-Security-Policy", "default-src 'self'")
	return s.ResponseWriter.Write(b)
}

// instead answers one address in another way.
func instead(address string, with http.HandlerFunc, otherwise http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.URL.Path == address {
			w.Header().Set("Content-Type", "application/wasm")
			with(w, r)
			return
		}
		otherwise.ServeHTTP(w, r)
	})
}

// cutOff begins an answer and breaks the connection.
func cutOff(w http.ResponseWriter, r *http.Request) {
	w.Header().Set("Content-Length", "7000000")
	w.Write(make([]byte, 100000))
	w.(http.Flusher).Flush()
	panic(http.ErrAbortHandler)
}

// A page with every fault that the phone looks for: if these tests cannot fail, the others cannot either.
func TestThePhoneFindsFaults(t *testing.T) {
	host := ServeHandler(t, "", http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.URL.Path == "/script.js" {
			io.WriteString(w, `console.error("a word in the console"); setTimeout(() => { throw new Error("an exception") })`)
			return
		}
		w.Header().Set("Content-Security-Policy", site.Policy+"; img-src *")
		w.Header().Set("Content-Type", "text/html")
		io.WriteString(w, `<!doctype html><html lang="en"><title>Faults</title><main><h1>Faults</h1>
			<script>document.title = "inline"</script><script src="/script.js"></script>
			<link rel="stylesheet" href="https://elsewhere.invalid/style.css">
			<div role="button">unreachable</div><button id="tiny">x</button><img src="data:,"><p id="wide"></p></main>`)
	}))
	seen := &recorder{TB: t}
	p := New(t, Small)
	p.t = seen
	p.home = host.URL()
	p.Load("/")
	p.CheckAccessible()
	p.CheckKeyboard()
	p.CheckFits()
	p.t = t
	p.Wait("the exception", "document.readyState === 'complete'")
	p.until("all complaints", func() (bool, string) {
		said := strings.Join(p.Complaints(), "\n")
		for _, want := range []string{"a word in the console", "an exception", "a request elsewhere: https://elsewhere.invalid/style.css", "inline script"} {
			if !strings.Contains(said, want) {
				return false, want + " is not in " + said
			}
		}
		return true, ""
	})
	p.Expect("") // all of them
	said := strings.Join(seen.errors, "\n")
	for _, want := range []string{"image-alt", "does not reach button unreachable", "only "} {
		if !strings.Contains(said, want) {
			t.Errorf("%q was not found; what was:\n%s", want, said)
		}
	}
}

// recorder takes errors as a test would and keeps them.
type recorder struct {
	testing.TB
	errors []string
}

func (r *recorder) Errorf(format string, args ...any) {
	r.errors = append(r.errors, fmt.Sprintf(format, args...))
}
