// Package phone is a phone in a test's hand: a real Chromium with its own profile, a phone's screen and a finger, and a host that
// can be taken off the network. What goes wrong on the page without being looked at (an error in the console, a breach of the
// content policy, an exception, a request to anywhere else) fails the test at its end.
package phone

import (
	"context"
	"encoding/json"
	"fmt"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/accessibility"
	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/dom"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// Patience is how long anything is waited for: long enough for a busy computer, short enough to see what went wrong.
var Patience = 20 * time.Second

// A Model is the kind of phone.
type Model struct {
	Width, Height int64  // of the screen, in CSS pixels
	Dark          bool   // prefers a dark screen
	Camera        string // a file of frames that its camera sees (YUV4MPEG2), whoever asks being let; none: there is no camera
}

// The two screens that everything is tried on.
var (
	Small = Model{Width: 360, Height: 640}
	Tall  = Model{Width: 390, Height: 844}
)

// InTheDark is the same phone set to dark.
func (m Model) InTheDark() Model { m.Dark = true; return m }

// A Phone is one browser with one profile and one page.
type Phone struct {
	t       testing.TB
	model   Model
	profile string
	home    string // origin and prefix of the host, without a slash at the end

	tab  context.Context
	stop func()

	mu         sync.Mutex
	complaints []string
	expected   []string
	said       []string // what the page wrote to its console as information
}

// New starts a phone with an empty profile. It is switched off when the test ends.
func New(t testing.TB, model Model) *Phone {
	t.Helper()
	return newPhone(t, model, "")
}

// newPhone is New with a copy of a profile; "" for an empty one.
func newPhone(t testing.TB, model Model, from string) *Phone {
	t.Helper()
	profile, err := os.MkdirTemp("", "phone")
	if err == nil && from != "" {
		err = os.CopyFS(profile, os.DirFS(from))
	}
	if err != nil {
		t.Fatal(err)
	}
	p := &Phone{t: t, model: model, profile: profile}
	p.start()
	t.Cleanup(func() {
		if t.Failed() {
			p.screenshot("failed-" + t.Name())
		}
		p.stop()
		os.RemoveAll(profile)
		for _, complaint := range p.Complaints() {
			t.Error("the page complained: " + complaint)
		}
	})
	return p
}

// Chromium is the browser to use: the one that CHROMIUM names, or the first that is installed; "" when there is none.
func Chromium() string {
	for _, name := range []string{os.Getenv("CHROMIUM"), "chromium", "chromium-browser", "google-chrome-stable", "google-chrome", "chrome"} {
		if name == "" {
			continue
		}
		if found, err := exec.LookPath(name); err == nil {
			return found
		}
	}
	return ""
}

// Browser starts a Chromium that talks to nobody by itself, with the given profile folder, and opens a tab in it.
func Browser(profile string, listener func(event any), flags ...chromedp.ExecAllocatorOption) (tab context.Context, stop func(), err error) {
	path := Chromium()
	if path == "" {
		return nil, nil, fmt.Errorf("no Chromium found: install one, or name it in CHROMIUM")
	}
	options := append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(path),
		chromedp.UserDataDir(profile),
		chromedp.Flag("disable-gpu", true),
		chromedp.Flag("disable-quic", true),
		chromedp.Flag("disable-component-update", true),
		chromedp.Flag("host-resolver-rules", "MAP * ~NOTFOUND, EXCLUDE 127.0.0.1"),
	)
	options = append(options, flags...)
	if os.Geteuid() == 0 {
		options = append(options, chromedp.NoSandbox)
	}
	allocator, cancelAllocator := chromedp.NewExecAllocator(context.Background(), options...)
	tab, cancel := chromedp.NewContext(allocator, chromedp.WithListener(listener))
	stop = func() {
		closing, done := context.WithTimeout(tab, 10*time.Second)
		chromedp.Cancel(closing) // a browser that was killed before has nothing to say
		done()
		cancel()
		cancelAllocator()
	}
	if err := chromedp.Do(tab); err != nil {
		stop()
		return nil, nil, fmt.Errorf("starting %s: %w", path, err)
	}
	return tab, stop, nil
}

func (p *Phone) start() {
	p.t.Helper()
	var camera []chromedp.ExecAllocatorOption
	if p.model.Camera != "" {
		camera = append(camera, chromedp.Flag("use-fake-device-for-media-stream", true), chromedp.Flag("use-fake-ui-for-media-stream", true),
			chromedp.Flag("use-file-for-fake-video-capture", p.model.Camera))
	}
	tab, stop, err := Browser(p.profile, p.hear, camera...)
	if err != nil {
		p.t.Fatal(err)
	}
	p.tab, p.stop = tab, stop
	p.dress()
}

// dress gives the tab the phone's screen, finger and colours.
func (p *Phone) dress() {
	p.t.Helper()
	scheme := "light"
	if p.model.Dark {
		scheme = "dark"
	}
	p.do("setting the screen",
		chromedp.EmulateViewport(p.model.Width, p.model.Height, chromedp.EmulateMobile, chromedp.EmulateTouch),
		chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
			_, err := cdp.Call(ctx, t, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
				Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}},
			})
			return err
		}),
	)
}

// Another opens a second tab in the same browser, at the same host. It closes with the test, or when the first one restarts.
func (p *Phone) Another() *Phone {
	p.t.Helper()
	q := &Phone{t: p.t, model: p.model, profile: p.profile, home: p.home}
	tab, cancel := chromedp.NewContext(p.tab, chromedp.WithListener(q.hear))
	if err := chromedp.Do(tab); err != nil {
		p.t.Fatal(err)
	}
	q.tab, q.stop = tab, cancel
	q.dress()
	p.t.Cleanup(func() {
		cancel()
		for _, complaint := range q.Complaints() {
			p.t.Error("the other tab complained: " + complaint)
		}
	})
	return q
}

// Restart closes the browser in good order and opens it again with the same profile.
func (p *Phone) Restart() {
	p.t.Helper()
	p.stop()
	p.start()
}

// Kill ends the browser without a warning, as a flat battery does, and opens it again with the same profile.
func (p *Phone) Kill() {
	p.t.Helper()
	p.cut()
	p.stop()
	p.start()
}

// cut ends the browser and every process that it started, as far as the system tells which those are.
func (p *Phone) cut() {
	p.t.Helper()
	browser := chromedp.FromContext(p.tab).Browser.Process()
	all := append(children(browser.Pid), browser.Pid)
	for _, pid := range all {
		if process, err := os.FindProcess(pid); err == nil {
			err = process.Kill()
			if pid == browser.Pid && err != nil {
				p.t.Fatal(err)
			}
		}
	}
}

// children lists the processes that come from one, where there is a /proc to tell.
func children(of int) (all []int) {
	stats, _ := filepath.Glob("/proc/[0-9]*/stat")
	parent := map[int]int{}
	for _, name := range stats {
		text, err := os.ReadFile(name)
		if err != nil {
			continue // it has just ended
		}
		var pid, from int
		_, after, _ := strings.Cut(string(text), ") ") // the name before it may have any signs
		if _, err := fmt.Sscanf(after, "%1s %d", new(string), &from); err != nil {
			continue
		}
		fmt.Sscanf(filepath.Base(filepath.Dir(name)), "%d", &pid)
		parent[pid] = from
	}
	for pid := range parent {
		for up := parent[pid]; up > 1; up = parent[up] {
			if up == of {
				all = append(all, pid)
				break
			}
		}
	}
	return all
}

// ---- what the page says without being asked ----

func (p *Phone) hear(event any) {
	p.mu.Lock()
	defer p.mu.Unlock()
	switch e := event.(type) {
	case *runtime.EventExceptionThrown:
		text := e.ExceptionDetails.Text
		if x := e.ExceptionDetails.Exception; x != nil {
			text += " " + x.Description
		}
		p.complaints = append(p.complaints, "exception: "+text)
	case *runtime.EventConsoleAPICalled:
		if e.Type == runtime.ConsoleAPICalledTypeInfo && len(e.Args) > 0 {
			var line string
			json.Unmarshal(e.Args[0].Value, &line) // what is no text says nothing
			p.said = append(p.said, line)
		}
		if e.Type != runtime.ConsoleAPICalledTypeError && e.Type != runtime.ConsoleAPICalledTypeAssert {
			return
		}
		var parts []string
		for _, a := range e.Args {
			if a.Description != "" {
				parts = append(parts, a.Description)
			} else {
				parts = append(parts, string(a.Value))
			}
		}
		p.complaints = append(p.complaints, "console: "+strings.Join(parts, " "))
	case *log.EventEntryAdded:
		if e.Entry.Level == log.EntryLevelError {
			p.complaints = append(p.complaints, fmt.Sprintf("%s: %s %s", e.Entry.Source, e.Entry.Text, e.Entry.URL))
		}
	case *network.EventRequestWillBeSent:
		asked := e.Request.URL
		if u, err := url.Parse(asked); err != nil || u.Hostname() != "127.0.0.1" && u.Scheme != "data" && u.Scheme != "blob" && u.Scheme != "about" {
			p.complaints = append(p.complaints, "a request elsewhere: "+asked)
		}
	}
}

// Expect says that a complaint with this text in it belongs to what the test does; other complaints still fail it.
func (p *Phone) Expect(text string) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.expected = append(p.expected, text)
}

// Said lists what the page has written to its console as information so far.
func (p *Phone) Said() []string {
	p.mu.Lock()
	defer p.mu.Unlock()
	return slices.Clone(p.said)
}

// Complaints lists what the page complained about so far and what was not expected.
func (p *Phone) Complaints() []string {
	p.mu.Lock()
	defer p.mu.Unlock()
	return slices.DeleteFunc(slices.Clone(p.complaints), func(complaint string) bool {
		return slices.ContainsFunc(p.expected, func(text string) bool { return strings.Contains(complaint, text) })
	})
}

// ---- going places ----

// Visit makes the host the one that Open means, and opens its first page.
func (p *Phone) Visit(h *Host) {
	p.t.Helper()
	p.home = h.URL()
	p.Open("/")
}

// Open goes to a place of the app, such as "/job/?id=x", and waits until the app runs there.
func (p *Phone) Open(place string) {
	p.t.Helper()
	p.Load(place)
	p.WaitRunning()
}

// Load goes to a place of the app and waits for the page only.
func (p *Phone) Load(place string) {
	p.t.Helper()
	p.do("opening "+place, chromedp.Navigate(p.home+place))
}

// Reload loads the page again, as a finger pulling it down does, and waits until the app runs.
func (p *Phone) Reload() {
	p.t.Helper()
	p.do("reloading", chromedp.Reload())
	p.WaitRunning()
}

// Back goes one page back.
func (p *Phone) Back() {
	p.t.Helper()
	p.do("going back", chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		_, err := chromedp.Evaluate[chromedp.Void]("history.back()")(ctx, t)
		return err
	}))
}

// WaitRunning waits until the program has started and drawn its first screen.
func (p *Phone) WaitRunning() {
	p.t.Helper()
	p.Wait("the app running", `(() => { const bar = document.getElementById("loading"); return bar !== null && bar.hidden })()`)
	for _, notice := range []string{"stopped", "load-failed", "cannot-run"} {
		if p.Shown("#" + notice) {
			p.t.Fatalf("instead of the app there is the notice %q; complaints: %q", notice, p.Complaints())
		}
	}
}

// WaitReadyOffline waits until the app says of itself that it is whole on the device.
func (p *Phone) WaitReadyOffline() {
	p.t.Helper()
	p.Wait("the app ready offline", `gapwright.offline().then(state => state === "ready")`)
}

// Place is the address that is shown, without the host.
func (p *Phone) Place() string {
	p.t.Helper()
	return strings.TrimPrefix(p.JS("location.href").(string), p.home)
}

// ---- looking ----

// JS evaluates an expression in the page, waits for it when it is a promise, and returns its value as JSON has it.
func (p *Phone) JS(expression string) any {
	p.t.Helper()
	value, err := p.evaluate(expression)
	if err != nil {
		p.t.Fatalf("evaluating %s: %v", expression, err)
	}
	return value
}

func (p *Phone) evaluate(expression string) (any, error) {
	ctx, cancel := context.WithTimeout(p.tab, Patience)
	defer cancel()
	text, err := chromedp.Run(ctx, chromedp.Evaluate[string](
		"Promise.resolve("+expression+").then(value => JSON.stringify({ value }))", chromedp.EvalAwaitPromise))
	if err != nil {
		return nil, err
	}
	var answer struct{ Value any }
	err = json.Unmarshal([]byte(text), &answer)
	return answer.Value, err
}

// Wait waits until the expression is true; what says for what.
func (p *Phone) Wait(what, expression string) {
	p.t.Helper()
	p.until(what, func() (bool, string) {
		value, err := p.evaluate(expression)
		if err != nil {
			return false, err.Error() // the page may just be changing
		}
		return value == true, fmt.Sprint(value)
	})
}

// until tries again and again until done is true, and fails with the last thing that was seen.
func (p *Phone) until(what string, done func() (bool, string)) {
	p.t.Helper()
	var seen string
	for end := time.Now().Add(Patience); time.Now().Before(end); time.Sleep(30 * time.Millisecond) {
		var ok bool
		if ok, seen = done(); ok {
			return
		}
	}
	text, _ := p.evaluate("document.body ? document.body.innerText : ''")
	p.t.Fatalf("waited in vain for %s; last seen: %s\nthe page reads:\n%v\ncomplaints: %q", what, seen, text, p.Complaints())
}

// Text is what a person can read on the page.
func (p *Phone) Text() string {
	p.t.Helper()
	return p.JS("document.body.innerText").(string)
}

// Sees waits until the page shows the text, whatever the white space.
func (p *Phone) Sees(text string) {
	p.t.Helper()
	want := strings.Join(strings.Fields(text), " ")
	p.until(fmt.Sprintf("the text %q", text), func() (bool, string) {
		page, err := p.evaluate("document.body.innerText")
		if err != nil {
			return false, err.Error()
		}
		read, _ := page.(string)
		return strings.Contains(strings.Join(strings.Fields(read), " "), want), "other text"
	})
}

// SeesNot fails when the page shows the text now.
func (p *Phone) SeesNot(text string) {
	p.t.Helper()
	if strings.Contains(strings.Join(strings.Fields(p.Text()), " "), strings.Join(strings.Fields(text), " ")) {
		p.t.Fatalf("the page shows %q:\n%s", text, p.Text())
	}
}

// Shown reports whether the element of a CSS selector is there and takes up room.
func (p *Phone) Shown(selector string) bool {
	p.t.Helper()
	return p.JS(fmt.Sprintf(`(() => { const e = document.querySelector(%q); return e !== null && e.getClientRects().length > 0 })()`, selector)) == true
}

// A Control is something that a finger or a key can reach, as assistive technology hears of it.
type Control struct {
	Role, Name string
	Value      string
	Disabled   bool
	Focused    bool
	Checked    bool
	node       cdp.BackendNodeID
}

// roles are those a finger has business with.
var roles = []string{"button", "link", "textbox", "searchbox", "spinbutton", "checkbox", "radio", "switch", "slider", "combobox", "listbox", "option",
	"tab", "menuitem", "menuitemradio", "menuitemcheckbox", "DisclosureTriangle"}

// Controls lists what can be reached on the page, in its order.
func (p *Phone) Controls() []Control {
	p.t.Helper()
	controls, err := p.controls()
	if err != nil {
		p.t.Fatalf("reading the controls: %v", err)
	}
	return controls
}

func (p *Phone) controls() ([]Control, error) {
	ctx, cancel := context.WithTimeout(p.tab, Patience)
	defer cancel()
	tree, err := chromedp.Call(ctx, accessibility.GetFullAXTree, accessibility.GetFullAXTreeParams{})
	if err != nil {
		return nil, err
	}
	var controls []Control
	for _, node := range tree.Nodes {
		role := text(node.Role)
		if node.Ignored || !slices.Contains(roles, role) {
			continue
		}
		c := Control{Role: role, Name: strings.Join(strings.Fields(text(node.Name)), " "), Value: text(node.Value), node: node.BackendDOMNodeID}
		for _, property := range node.Properties {
			yes := property.Value != nil && text(property.Value) == "true"
			switch property.Name {
			case accessibility.PropertyNameDisabled:
				c.Disabled = yes
			case accessibility.PropertyNameFocused:
				c.Focused = yes
			case accessibility.PropertyNameChecked:
				c.Checked = yes
			}
		}
		controls = append(controls, c)
	}
	return controls, nil
}

func text(v *accessibility.Value) string {
	if v == nil || len(v.Value) == 0 {
		return ""
	}
	var s string
	if json.Unmarshal(v.Value, &s) == nil {
		return s
	}
	return string(v.Value)
}

// Focused is the control that has the keyboard, if there is one.
func (p *Phone) Focused() (Control, bool) {
	p.t.Helper()
	for _, c := range p.Controls() {
		if c.Focused {
			return c, true
		}
	}
	return Control{}, false
}

// ---- touching ----

// find waits for the one control that goes by the name, or else for the one element of a CSS selector that starts with ., # or [.
func (p *Phone) find(name string) cdp.BackendNodeID {
	p.t.Helper()
	var node cdp.BackendNodeID
	p.until(fmt.Sprintf("one control that can be used, named %q", name), func() (bool, string) {
		if strings.ContainsAny(name[:1], ".#[") {
			nodes, err := p.query(name)
			if err == nil && len(nodes) == 1 {
				node = nodes[0]
				return true, ""
			}
			return false, fmt.Sprintf("%d elements, %v", len(nodes), err)
		}
		controls, err := p.controls()
		if err != nil {
			return false, err.Error()
		}
		var named []string
		var match []Control
		for _, c := range controls {
			named = append(named, c.Role+" "+c.Name)
			if c.Name == name && !c.Disabled {
				match = append(match, c)
			}
		}
		if len(match) == 1 {
			node = match[0].node
		}
		return len(match) == 1, fmt.Sprintf("%d of that name among %q", len(match), named)
	})
	return node
}

func (p *Phone) query(selector string) ([]cdp.BackendNodeID, error) {
	ctx, cancel := context.WithTimeout(p.tab, Patience)
	defer cancel()
	nodes, err := chromedp.Run(ctx, chromedp.Nodes(chromedp.CSSAll(selector), chromedp.AtLeast(0)))
	ids := make([]cdp.BackendNodeID, len(nodes))
	for i, n := range nodes {
		ids[i] = n.BackendNodeID
	}
	return ids, err
}

// Tap touches the middle of a control, given by its accessible name or by a CSS selector. It fails when something else lies there.
func (p *Phone) Tap(name string) {
	p.t.Helper()
	node := p.find(name)
	x, y := p.middle(name, node)
	p.do("tapping "+name, chromedp.TapXY(x, y))
}

// middle brings the node into view and returns where a finger would touch it.
func (p *Phone) middle(name string, node cdp.BackendNodeID) (x, y float64) {
	p.t.Helper()
	p.until(fmt.Sprintf("%q lying open to a finger", name), func() (bool, string) {
		ctx, cancel := context.WithTimeout(p.tab, Patience)
		defer cancel()
		object, err := chromedp.Call(ctx, dom.ResolveNode, dom.ResolveNodeParams{BackendNodeID: node})
		if err != nil {
			return false, err.Error()
		}
		where, err := chromedp.Run(ctx, chromedp.CallFunctionOn[string](`function() {
			const target = this.labels && this.getClientRects().length === 0 ? this.labels[0] : this;
			target.scrollIntoView({ block: "center", behavior: "instant" });
			const box = target.getBoundingClientRect(), x = box.x + box.width / 2, y = box.y + box.height / 2;
			const hit = document.elementFromPoint(x, y), label = this.labels && this.labels[0];
			const open = hit !== null && (target.contains(hit) || hit.contains(target) && hit !== document.body && hit !== document.documentElement ||
				label && label.contains(hit));
			return JSON.stringify({ x, y, open: Boolean(open), hit: hit ? hit.outerHTML.slice(0, 200) : "nothing" });
		}`, func(params *runtime.CallFunctionOnParams) { params.ObjectID = object.Object.ObjectID }))
		if err != nil {
			return false, err.Error()
		}
		var at struct {
			X, Y float64
			Open bool
			Hit  string
		}
		if err := json.Unmarshal([]byte(where), &at); err != nil {
			return false, err.Error()
		}
		x, y = at.X, at.Y
		return at.Open, "under the finger: " + at.Hit
	})
	return x, y
}

// Type touches a field, selects what is in it and types over it.
func (p *Phone) Type(field, text string) {
	p.t.Helper()
	p.Tap(field)
	p.JS("document.activeElement.select && document.activeElement.select()")
	if text == "" {
		text = kb.Delete
	}
	p.do("typing into "+field, chromedp.KeyEvent(text))
}

// keys are the keys that have no letter.
var keys = map[string]string{
	"Enter": kb.Enter, "Tab": kb.Tab, "Escape": kb.Escape, "Space": " ", "Backspace": kb.Backspace, "Delete": kb.Delete,
	"ArrowLeft": kb.ArrowLeft, "ArrowRight": kb.ArrowRight, "ArrowUp": kb.ArrowUp, "ArrowDown": kb.ArrowDown,
	"Home": kb.Home, "End": kb.End, "PageUp": kb.PageUp, "PageDown": kb.PageDown,
}

// Press presses a key: one of Enter, Tab, Shift+Tab, Escape, Space, Backspace, Delete, Home, End, PageUp, PageDown, the arrows, or a letter.
func (p *Phone) Press(key string) {
	p.t.Helper()
	var options []chromedp.KeyOption
	if rest, shifted := strings.CutPrefix(key, "Shift+"); shifted {
		key = rest
		options = append(options, chromedp.KeyModifiers(chromedp.ModifierShift))
	}
	if special, found := keys[key]; found {
		key = special
	} else if len([]rune(key)) != 1 {
		p.t.Fatalf("there is no key %q", key)
	}
	p.do("pressing "+key, chromedp.KeyEvent(key, options...))
}

// TabTo presses Tab until the control of that name has the keyboard; it fails when the keyboard cannot get there.
func (p *Phone) TabTo(name string) {
	p.t.Helper()
	var passed []string
	for range 200 {
		if c, ok := p.Focused(); ok {
			if c.Name == name {
				return
			}
			passed = append(passed, c.Role+" "+c.Name)
		}
		p.Press("Tab")
	}
	p.t.Fatalf("the keyboard does not reach %q, only %q", name, slices.Compact(slices.Sorted(slices.Values(passed))))
}

// Drag moves a finger from one point to another of the element of a CSS selector, both in parts of its width and height, 0 to 1.
func (p *Phone) Drag(selector string, fromX, fromY, toX, toY float64) {
	p.t.Helper()
	p.middle(selector, p.find(selector))
	box := p.JS(fmt.Sprintf(`(() => { const b = document.querySelector(%q).getBoundingClientRect(); return [b.x, b.y, b.width, b.height] })()`, selector)).([]any)
	at := func(x, y float64) (float64, float64) {
		return box[0].(float64) + x*box[2].(float64), box[1].(float64) + y*box[3].(float64)
	}
	fx, fy := at(fromX, fromY)
	tx, ty := at(toX, toY)
	p.do("dragging on "+selector, chromedp.DragAndDropXY(fx, fy, tx, ty, 10))
}

func (p *Phone) do(what string, actions ...chromedp.Action[chromedp.Void]) {
	p.t.Helper()
	ctx, cancel := context.WithTimeout(p.tab, Patience)
	defer cancel()
	if err := chromedp.Do(ctx, actions...); err != nil {
		p.t.Fatalf("%s: %v", what, err)
	}
}

// ---- keeping what was seen ----

// Screenshot writes what the screen shows to build/screens, for a person to look at.
func (p *Phone) Screenshot(name string) {
	p.t.Helper()
	if err := p.screenshot(name); err != nil {
		p.t.Errorf("screenshot %s: %v", name, err)
	}
}

func (p *Phone) screenshot(name string) error {
	ctx, cancel := context.WithTimeout(p.tab, Patience)
	defer cancel()
	picture, err := chromedp.Call(ctx, page.CaptureScreenshot, page.CaptureScreenshotParams{Format: page.CaptureScreenshotFormatPng})
	if err != nil {
		return err
	}
	folder := filepath.Join(Root(), "build", "screens")
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return err
	}
	name = strings.NewReplacer("/", "-", " ", "-").Replace(name)
	return os.WriteFile(filepath.Join(folder, name+".png"), picture.Data, 0o644)
}
