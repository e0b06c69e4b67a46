package phone

import (
	"errors"
	"fmt"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"sync"
	"testing"

	"gapwright/app/lean"
	"gapwright/app/site"
)

// A Host hands out a site on a port of its own, and can be taken off the network and put back at the same address.
type Host struct {
	t      testing.TB
	port   string
	prefix string

	mu      sync.Mutex
	handler http.Handler
	server  *http.Server
}

// Serve puts a site on a new host.
func Serve(t testing.TB, s site.Site) *Host {
	t.Helper()
	return ServeHandler(t, s.Prefix, site.Handler(s))
}

// ServeHandler puts any handler on a new host, for a site below the prefix.
func ServeHandler(t testing.TB, prefix string, handler http.Handler) *Host {
	t.Helper()
	h := &Host{t: t, prefix: prefix, port: "0", handler: handler}
	h.Start()
	t.Cleanup(h.Stop)
	return h
}

// URL is the address of the site, without a slash at the end.
func (h *Host) URL() string { return "http://127.0.0.1:" + h.port + h.prefix }

// Publish puts another site in the place of the one that is served.
func (h *Host) Publish(s site.Site) { h.PublishHandler(site.Handler(s)) }

// PublishHandler puts another handler in the place of the one that serves.
func (h *Host) PublishHandler(handler http.Handler) {
	h.mu.Lock()
	defer h.mu.Unlock()
	h.handler = handler
}

func (h *Host) serve(w http.ResponseWriter, r *http.Request) {
	h.mu.Lock()
	handler := h.handler
	h.mu.Unlock()
	handler.ServeHTTP(w, r)
}

// Start puts the host on the network.
func (h *Host) Start() {
	h.t.Helper()
	if err := h.listen(); err != nil {
		h.t.Fatal(err)
	}
}

func (h *Host) listen() error {
	listener, err := net.Listen("tcp", "127.0.0.1:"+h.port)
	if err != nil {
		return err
	}
	_, h.port, _ = net.SplitHostPort(listener.Addr().String())
	h.server = &http.Server{Handler: http.HandlerFunc(h.serve)}
	go h.server.Serve(listener)
	return nil
}

// Stop takes the host off the network at once: it listens no more and every connection is cut.
func (h *Host) Stop() { h.server.Close() }

// Root is the folder of the module.
func Root() string {
	_, file, _, _ := runtime.Caller(0)
	return filepath.Join(filepath.Dir(file), "..", "..")
}

// Program builds cmd/gapwright for the browser, as `make program` does, and returns it. Tags are build tags, for programs that are only for tests.
func Program(tags string) ([]byte, error) {
	out := filepath.Join(Root(), "build", "test", "app"+tags+".wasm")
	build := exec.Command("go", "build", "-trimpath", "-ldflags=-s -w", "-gcflags=gapwright/...=-l", "-tags="+tags, "-o", out+".linked", "./cmd/gapwright")
	build.Dir = Root()
	build.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	if said, err := build.CombinedOutput(); err != nil {
		return nil, fmt.Errorf("building the program: %w\n%s", err, said)
	}
	linked, err := os.ReadFile(out + ".linked")
	if err != nil {
		return nil, err
	}
	wasm, err := lean.Program(linked)
	if errors.Is(err, lean.ErrOtherGo) {
		wasm, err = linked, nil
	}
	if err != nil {
		return nil, err
	}
	return wasm, os.WriteFile(out, wasm, 0o644)
}

var program = sync.OnceValues(func() ([]byte, error) { return Program("") })

// Site is the app as it is now, for the root of a host; the program is built once.
func Site(t testing.TB) site.Site { return SiteAt(t, site.Options{}) }

// SiteAt is the app as it is now with other options; an empty program means the one that is built here.
func SiteAt(t testing.TB, o site.Options) site.Site {
	t.Helper()
	if o.Wasm == nil {
		wasm, err := program()
		if err != nil {
			t.Fatal(err)
		}
		o.Wasm = wasm
	}
	s, err := site.Build(o)
	if err != nil {
		t.Fatal(err)
	}
	return s
}
