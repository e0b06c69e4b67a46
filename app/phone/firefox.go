package phone

import (
	"bufio"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"time"

	"golang.org/x/net/websocket"
)

// firefoxPath is the Firefox to use: the one that FIREFOX names, or the first that is installed.
func firefoxPath() string {
	for _, name := range []string{os.Getenv("FIREFOX"), "firefox-esr", "firefox"} {
		if found, err := exec.LookPath(name); err == nil && name != "" {
			return found
		}
	}
	return "firefox"
}

// firefox drives a page of Firefox by WebDriver BiDi.
type firefox struct {
	process *exec.Cmd
	ended   <-chan struct{}
	socket  *websocket.Conn
	page    string // its browsing context
	hear    func(complaint string)

	mu      sync.Mutex
	asked   int
	waiting map[int]chan bidiMessage
}

// bidiMessage is what comes from the browser: the answer to a command, or an event.
type bidiMessage struct {
	Type    string
	ID      int
	Method  string
	Params  json.RawMessage
	Result  json.RawMessage
	Error   string
	Message string
}

// firefoxSettings keep it from asking a person or the network anything, and let a mouse be what a finger is.
const firefoxSettings = `user_pref("browser.shell.checkDefaultBrowser", false);
user_pref("browser.sessionstore.resume_from_crash", false);
user_pref("toolkit.startup.max_resumed_crashes", -1);
user_pref("datareporting.policy.dataSubmissionEnabled", false);
user_pref("network.captive-portal-service.enabled", false);
user_pref("network.connectivity-service.enabled", false);
user_pref("ui.useOverlayScrollbars", 1);
user_pref("layout.css.prefers-color-scheme.content-override", %d);
`

// preload makes Firefox, which keeps breaches of the policy to itself, say them in its console.
const preload = `() => document.addEventListener("securitypolicyviolation", e => console.error("content policy", e.violatedDirective, e.blockedURI))`

func (p *Phone) startFirefox() (err error) {
	scheme := 1
	if p.model.Dark {
		scheme = 0
	}
	if err := os.WriteFile(filepath.Join(p.profile, "user.js"), []byte(fmt.Sprintf(firefoxSettings, scheme)), 0o644); err != nil {
		return err
	}
	f := &firefox{hear: p.complain, waiting: make(map[int]chan bidiMessage)}
	const origin = "http://127.0.0.1"
	f.process = exec.Command(firefoxPath(), "--headless", "--no-remote", "--profile", p.profile, "--remote-debugging-port=0", "--remote-allow-origins="+origin)
	f.process.Env = append(os.Environ(), "HOME="+p.profile, "MOZ_CRASHREPORTER_DISABLE=1")
	said, err := f.process.StderrPipe()
	if err == nil {
		err = f.process.Start()
	}
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			f.kill()
		}
	}()
	address := make(chan string, 1)
	ended := make(chan struct{})
	f.ended = ended
	go func() {
		for lines := bufio.NewScanner(said); lines.Scan(); {
			if _, after, found := strings.Cut(lines.Text(), "WebDriver BiDi listening on "); found {
				address <- after
			}
		}
		f.process.Wait()
		close(ended)
	}()
	select {
	case at := <-address:
		f.socket, err = websocket.Dial(at+"/session", "", origin)
	case <-time.After(3 * Patience):
		err = fmt.Errorf("Firefox does not say where it listens")
	}
	if err != nil {
		return err
	}
	go f.listen()
	p.driver = f
	var tree struct{ Contexts []struct{ Context string } }
	for _, command := range []struct {
		method string
		params map[string]any
		into   any
	}{
		{"session.new", map[string]any{"capabilities": map[string]any{}}, nil},
		{"session.subscribe", map[string]any{"events": []string{"log.entryAdded", "network.beforeRequestSent"}}, nil},
		{"script.addPreloadScript", map[string]any{"functionDeclaration": preload}, nil},
		{"browsingContext.getTree", map[string]any{}, &tree},
	} {
		if err := f.ask(command.method, command.params, command.into); err != nil {
			return err
		}
	}
	if len(tree.Contexts) != 1 {
		return fmt.Errorf("Firefox begins with %d pages", len(tree.Contexts))
	}
	f.page = tree.Contexts[0].Context
	return nil
}

// listen hands answers to those who wait for them, and complaints to the phone.
func (f *firefox) listen() {
	for {
		var m bidiMessage
		if err := websocket.JSON.Receive(f.socket, &m); err != nil {
			f.mu.Lock()
			for _, one := range f.waiting {
				close(one)
			}
			f.waiting = nil
			f.mu.Unlock()
			return
		}
		switch {
		case m.Type != "event":
			f.mu.Lock()
			one := f.waiting[m.ID]
			delete(f.waiting, m.ID)
			f.mu.Unlock()
			if one != nil {
				one <- m
			}
		case m.Method == "log.entryAdded":
			var entry struct{ Level, Text, Type string }
			if json.Unmarshal(m.Params, &entry) == nil && entry.Level == "error" {
				f.hear(entry.Type + ": " + entry.Text)
			}
		case m.Method == "network.beforeRequestSent":
			var sent struct {
				Context string
				Request struct{ URL string }
			}
			if json.Unmarshal(m.Params, &sent) == nil && sent.Context == f.page && elsewhere(sent.Request.URL) {
				f.hear("a request elsewhere: " + sent.Request.URL)
			}
		}
	}
}

// ask sends a command and waits for its result, which is put where into points.
func (f *firefox) ask(method string, params map[string]any, into any) error {
	answer := make(chan bidiMessage, 1)
	f.mu.Lock()
	if f.waiting == nil {
		f.mu.Unlock()
		return fmt.Errorf("%s: Firefox has ended", method)
	}
	f.asked++
	id := f.asked
	f.waiting[id] = answer
	f.mu.Unlock()
	if err := websocket.JSON.Send(f.socket, map[string]any{"id": id, "method": method, "params": params}); err != nil {
		return fmt.Errorf("%s: %w", method, err)
	}
	patience := Patience
	if method == "session.new" { // it waits until all of the browser has started
		patience *= 3
	}
	select {
	case m, there := <-answer:
		if !there {
			return fmt.Errorf("%s: Firefox has ended", method)
		}
		if m.Error != "" {
			return fmt.Errorf("%s: %s: %s", method, m.Error, m.Message)
		}
		if into == nil {
			return nil
		}
		return json.Unmarshal(m.Result, into)
	case <-time.After(patience):
		return fmt.Errorf("%s: no answer", method)
	}
}

// here is a command that concerns the page.
func (f *firefox) here(method string, params map[string]any, into any) error {
	params["context"] = f.page
	return f.ask(method, params, into)
}

func (f *firefox) open(address string) error {
	return f.here("browsingContext.navigate", map[string]any{"url": address, "wait": "complete"}, nil)
}

func (f *firefox) reload() error {
	return f.here("browsingContext.reload", map[string]any{"wait": "complete"}, nil)
}

// script runs script.evaluate or script.callFunction, whose value is a text.
func (f *firefox) script(method string, params map[string]any) (string, error) {
	params["target"] = map[string]any{"context": f.page}
	params["awaitPromise"] = true
	var answer struct {
		Result           struct{ Value json.RawMessage }
		ExceptionDetails *struct{ Text string }
	}
	if err := f.ask(method, params, &answer); err != nil {
		return "", err
	}
	if answer.ExceptionDetails != nil {
		return "", fmt.Errorf("%s", answer.ExceptionDetails.Text)
	}
	var text string
	err := json.Unmarshal(answer.Result.Value, &text)
	return text, err
}

func (f *firefox) evaluate(expression string) (any, error) {
	text, err := f.script("script.evaluate", map[string]any{"expression": asJSON(expression)})
	if err != nil {
		return nil, err
	}
	return fromJSON(text)
}

func (f *firefox) call(function string, on node) (string, error) {
	return f.script("script.callFunction", map[string]any{"functionDeclaration": function, "this": map[string]any{"sharedId": on}})
}

func (f *firefox) locate(kind string, value any) ([]node, error) {
	var found struct{ Nodes []struct{ SharedID string } }
	err := f.here("browsingContext.locateNodes", map[string]any{"locator": map[string]any{"type": kind, "value": value}}, &found)
	var nodes []node
	for _, n := range found.Nodes {
		nodes = append(nodes, n.SharedID)
	}
	return nodes, err
}

func (f *firefox) named(name string) (found []node, among string, err error) {
	controls, err := f.locate("css", controlSelector)
	if err != nil {
		return nil, "", err
	}
	is := make(map[node]bool)
	for _, n := range controls {
		is[n] = true
	}
	written := name // with the spaces that the page has in it
	if as, err := f.evaluate(fmt.Sprintf(`[...document.querySelectorAll(%q)].map(e => (e.ariaLabel || e.textContent).trim().replace(/[ \t\n]+/g, " ")).find(n => n.replace(/\s+/g, " ") === %q) ?? ""`,
		controlSelector, name)); err == nil && as != "" {
		written = fmt.Sprint(as)
	}
	named, err := f.locate("accessibility", map[string]any{"name": written})
	for _, n := range named {
		if is[n] {
			found = append(found, n)
		}
	}
	if len(found) != 1 {
		seen, _ := f.evaluate(namesExpression)
		among = fmt.Sprint(seen)
	}
	return found, among, err
}

func (f *firefox) query(selector string) ([]node, error) { return f.locate("css", selector) }

func (f *firefox) perform(actions []any) error {
	return f.here("input.performActions", map[string]any{"actions": actions}, nil)
}

func (f *firefox) tap(x, y float64) error { return f.perform(tapActions(x, y)) }

func (f *firefox) drag(fromX, fromY, toX, toY float64) error {
	return f.perform(dragActions(fromX, fromY, toX, toY))
}

func (f *firefox) press(key string, shift bool) error { return f.perform(keyActions(code(key), shift)) }

func (f *firefox) write(text string) error { return f.perform(keyActions(text, false)) }

// screen cannot change between light and dark: that is settled at the start.
func (f *firefox) screen(width, height int64, dark bool) error {
	return f.here("browsingContext.setViewport", map[string]any{"viewport": map[string]any{"width": width, "height": height}}, nil)
}

func (f *firefox) picture() ([]byte, error) {
	var picture struct{ Data string }
	if err := f.here("browsingContext.captureScreenshot", map[string]any{}, &picture); err != nil {
		return nil, err
	}
	return base64.StdEncoding.DecodeString(picture.Data)
}

func (f *firefox) stop() {
	f.ask("browser.close", map[string]any{}, nil) // one that was killed has nothing to say
	end(f.ended, f.process.Process.Pid)
	f.socket.Close()
}

func (f *firefox) kill() error {
	err := killAll(f.process.Process.Pid)
	<-f.ended
	return err
}
