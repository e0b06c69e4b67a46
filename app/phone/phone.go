// Package phone is a phone in a test's hand: a real browser with its own profile, a phone's screen and a finger, and a host that
// can be taken off the network. What goes wrong on the page without being looked at (an error in the console, a breach of the
// content policy, an exception, a request to anywhere else) fails the test at its end.
package phone

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"
)

// Patience is how long anything is waited for: long enough for a busy computer, short enough to see what went wrong.
var Patience = 20 * time.Second

// A Model is the kind of phone.
type Model struct {
	Width, Height int64 // of the screen, in CSS pixels
	Dark          bool  // prefers a dark screen
	Engine        Engine
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

	driver driver
	tab    context.Context // of Chromium, for what no other can do

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

func (p *Phone) start() {
	p.t.Helper()
	begin := map[Engine]func() error{Blink: p.startChromium, Gecko: p.startFirefox, WebKit: p.startWebKit}[p.model.Engine]
	if err := begin(); err != nil {
		p.t.Fatal(err)
	}
	p.dress()
}

func (p *Phone) stop() { p.driver.stop() }

// dress gives the page the phone's screen, finger and colours.
func (p *Phone) dress() {
	p.t.Helper()
	p.widen(p.model.Width)
}

// widen gives the page a screen of that width.
func (p *Phone) widen(width int64) {
	p.t.Helper()
	p.must("setting the screen", p.driver.screen(width, p.model.Height, p.model.Dark))
}

// must ends the test when something could not be done.
func (p *Phone) must(what string, err error) {
	p.t.Helper()
	if err != nil {
		p.t.Fatalf("%s: %v", what, err)
	}
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
	p.must("killing the browser", p.driver.kill())
}

// ---- what the page says without being asked ----

func (p *Phone) complain(complaint string) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.complaints = append(p.complaints, complaint)
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
	p.must("opening "+place, p.driver.open(p.home+place))
}

// Reload loads the page again, as a finger pulling it down does, and waits until the app runs.
func (p *Phone) Reload() {
	p.t.Helper()
	p.must("reloading", p.driver.reload())
	p.WaitRunning()
}

// Back goes one page back.
func (p *Phone) Back() {
	p.t.Helper()
	p.run("history.back()")
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

func (p *Phone) evaluate(expression string) (any, error) { return p.driver.evaluate(expression) }

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
	node       node
}

// Controls lists what can be reached on the page, in its order. Only Chromium tells.
func (p *Phone) Controls() []Control {
	p.t.Helper()
	controls, err := p.driver.(*chromium).controls()
	p.must("reading the controls", err)
	return controls
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

// spaced is a text with one ordinary space where any white space is, as names are compared.
func spaced(text string) string { return strings.Join(strings.Fields(text), " ") }

// find waits for the one control that goes by the name, or else for the one element of a CSS selector that starts with ., # or [.
func (p *Phone) find(name string) node {
	p.t.Helper()
	name = spaced(name)
	var one node
	p.until(fmt.Sprintf("one control that can be used, named %q", name), func() (bool, string) {
		var found []node
		var among string
		var err error
		if strings.ContainsAny(name[:1], ".#[") {
			found, err = p.driver.query(name)
		} else {
			found, among, err = p.driver.named(name)
		}
		if err == nil && len(found) == 1 {
			one = found[0]
			return true, ""
		}
		return false, fmt.Sprintf("%d of that name among %s, %v", len(found), among, err)
	})
	return one
}

// Tap touches the middle of a control, given by its accessible name or by a CSS selector. It fails when something else lies there.
func (p *Phone) Tap(name string) {
	p.t.Helper()
	node := p.find(name)
	x, y := p.middle(name, node)
	p.must("tapping "+name, p.driver.tap(x, y))
	if tag, err := p.driver.call("function() { return this.isConnected ? this.tagName : '' }", node); err == nil && tag == "SUMMARY" {
		p.Wait("what is folded under "+name, foldsDrawn)
	}
}

// foldsDrawn tells that everything that is open has what is folded in it: some of it is drawn when it is first opened.
const foldsDrawn = `[...document.querySelectorAll("details[open][data-fold]")].every(d => d.children.length > 1)`

// middle brings the node into view and returns where a finger would touch it.
func (p *Phone) middle(name string, node node) (x, y float64) {
	p.t.Helper()
	p.until(fmt.Sprintf("%q lying open to a finger", name), func() (bool, string) {
		where, err := p.driver.call(`function() {
			const target = this.labels && this.getClientRects().length === 0 ? this.labels[0] : this;
			target.scrollIntoView({ block: "center", behavior: "instant" });
			const box = target.getBoundingClientRect(), x = box.x + box.width / 2, y = box.y + box.height / 2;
			const hit = document.elementFromPoint(x, y), label = this.labels && this.labels[0];
			const open = hit !== null && (target.contains(hit) || hit.contains(target) && hit !== document.body && hit !== document.documentElement ||
				label && label.contains(hit));
			return JSON.stringify({ x, y, open: Boolean(open), hit: hit ? hit.outerHTML.slice(0, 200) : "nothing" });
		}`, node)
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
		p.Press("Delete")
		return
	}
	p.must("typing into "+field, p.driver.write(text))
}

// Press presses a key: one of Enter, Tab, Shift+Tab, Escape, Space, Backspace, Delete, Home, End, PageUp, PageDown, the arrows, or a letter.
func (p *Phone) Press(key string) {
	p.t.Helper()
	name, shift := strings.CutPrefix(key, "Shift+")
	if _, special := keys[name]; !special && len([]rune(name)) != 1 {
		p.t.Fatalf("there is no key %q", key)
	}
	p.must("pressing "+key, p.driver.press(name, shift))
}

// TabTo presses Tab until the control of that name has the keyboard; it fails when the keyboard cannot get there.
func (p *Phone) TabTo(name string) {
	p.t.Helper()
	var passed []string
	for range 200 {
		if c, ok := p.Focused(); ok {
			if c.Name == spaced(name) {
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
	p.must("dragging on "+selector, p.driver.drag(fx, fy, tx, ty))
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
	picture, err := p.driver.picture()
	if err != nil {
		return err
	}
	folder := filepath.Join(Root(), "build", "screens")
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return err
	}
	name = strings.NewReplacer("/", "-", " ", "-").Replace(name)
	return os.WriteFile(filepath.Join(folder, name+".png"), picture, 0o644)
}
