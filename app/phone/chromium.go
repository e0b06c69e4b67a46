package phone

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"slices"
	"strings"
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

// chromium drives a tab of Chromium by its own protocol.
type chromium struct {
	tab   context.Context
	close func()
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

// startChromium starts one for the phone.
func (p *Phone) startChromium() error {
	var flags []chromedp.ExecAllocatorOption
	if _, measured := p.t.(*testing.B); !measured { // compiling the program a second time, better, pays for nobody who looks at a few screens
		flags = append(flags, chromedp.Flag("js-flags", "--liftoff-only"))
	}
	if p.model.Camera != "" {
		flags = append(flags, chromedp.Flag("use-fake-device-for-media-stream", true), chromedp.Flag("use-fake-ui-for-media-stream", true),
			chromedp.Flag("use-file-for-fake-video-capture", p.model.Camera))
	}
	tab, stop, err := Browser(p.profile, p.hear, flags...)
	if err != nil {
		return err
	}
	p.tab, p.driver = tab, &chromium{tab, stop}
	return nil
}

// Another opens a second tab in the same browser, which is Chromium, at the same host. It closes with the test, or when the first one restarts.
func (p *Phone) Another() *Phone {
	p.t.Helper()
	q := &Phone{t: p.t, model: p.model, profile: p.profile, home: p.home}
	tab, cancel := chromedp.NewContext(p.tab, chromedp.WithListener(q.hear))
	if err := chromedp.Do(tab); err != nil {
		p.t.Fatal(err)
	}
	q.tab, q.driver = tab, &chromium{tab, cancel}
	q.dress()
	p.t.Cleanup(func() {
		cancel()
		for _, complaint := range q.Complaints() {
			p.t.Error("the other tab complained: " + complaint)
		}
	})
	return q
}

// do does with the tab what only Chromium can do.
func (p *Phone) do(what string, actions ...chromedp.Action[chromedp.Void]) {
	p.t.Helper()
	ctx, cancel := context.WithTimeout(p.tab, Patience)
	defer cancel()
	if err := chromedp.Do(ctx, actions...); err != nil {
		p.t.Fatalf("%s: %v", what, err)
	}
}

func (p *Phone) hear(event any) {
	switch e := event.(type) {
	case *runtime.EventExceptionThrown:
		text := e.ExceptionDetails.Text
		if x := e.ExceptionDetails.Exception; x != nil {
			text += " " + x.Description
		}
		p.complain("exception: " + text)
	case *runtime.EventConsoleAPICalled:
		if e.Type == runtime.ConsoleAPICalledTypeInfo && len(e.Args) > 0 {
			var line string
			json.Unmarshal(e.Args[0].Value, &line) // what is no text says nothing
			p.mu.Lock()
			p.said = append(p.said, line)
			p.mu.Unlock()
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
		p.complain("console: " + strings.Join(parts, " "))
	case *log.EventEntryAdded:
		if e.Entry.Level == log.EntryLevelError {
			p.complain(fmt.Sprintf("%s: %s %s", e.Entry.Source, e.Entry.Text, e.Entry.URL))
		}
	case *network.EventRequestWillBeSent:
		if elsewhere(e.Request.URL) {
			p.complain("a request elsewhere: " + e.Request.URL)
		}
	}
}

func (c *chromium) do(actions ...chromedp.Action[chromedp.Void]) error {
	ctx, cancel := context.WithTimeout(c.tab, Patience)
	defer cancel()
	return chromedp.Do(ctx, actions...)
}

func (c *chromium) open(address string) error { return c.do(chromedp.Navigate(address)) }

func (c *chromium) reload() error { return c.do(chromedp.Reload()) }

func (c *chromium) evaluate(expression string) (any, error) {
	ctx, cancel := context.WithTimeout(c.tab, Patience)
	defer cancel()
	text, err := chromedp.Run(ctx, chromedp.Evaluate[string](asJSON(expression), chromedp.EvalAwaitPromise))
	if err != nil {
		return nil, err
	}
	return fromJSON(text)
}

func (c *chromium) call(function string, on node) (string, error) {
	ctx, cancel := context.WithTimeout(c.tab, Patience)
	defer cancel()
	object, err := chromedp.Call(ctx, dom.ResolveNode, dom.ResolveNodeParams{BackendNodeID: on.(cdp.BackendNodeID)})
	if err != nil {
		return "", err
	}
	return chromedp.Run(ctx, chromedp.CallFunctionOn[string](function, func(params *runtime.CallFunctionOnParams) { params.ObjectID = object.Object.ObjectID }))
}

// roles are those a finger has business with.
var roles = []string{"button", "link", "textbox", "searchbox", "spinbutton", "checkbox", "radio", "switch", "slider", "combobox", "listbox", "option",
	"tab", "menuitem", "menuitemradio", "menuitemcheckbox", "DisclosureTriangle"}

func (c *chromium) controls() ([]Control, error) {
	ctx, cancel := context.WithTimeout(c.tab, Patience)
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

func (c *chromium) named(name string) (found []node, among string, err error) {
	controls, err := c.controls()
	var all []string
	for _, control := range controls {
		all = append(all, control.Role+" "+control.Name)
		if control.Name == name && !control.Disabled {
			found = append(found, control.node)
		}
	}
	return found, fmt.Sprintf("%q", all), err
}

func (c *chromium) query(selector string) ([]node, error) {
	ctx, cancel := context.WithTimeout(c.tab, Patience)
	defer cancel()
	nodes, err := chromedp.Run(ctx, chromedp.Nodes(chromedp.CSSAll(selector), chromedp.AtLeast(0)))
	ids := make([]node, len(nodes))
	for i, n := range nodes {
		ids[i] = n.BackendNodeID
	}
	return ids, err
}

func (c *chromium) tap(x, y float64) error { return c.do(chromedp.TapXY(x, y)) }

func (c *chromium) drag(fromX, fromY, toX, toY float64) error {
	return c.do(chromedp.DragAndDropXY(fromX, fromY, toX, toY, 10))
}

// keys are the keys that have no letter.
var keys = map[string]string{
	"Enter": kb.Enter, "Tab": kb.Tab, "Escape": kb.Escape, "Space": " ", "Backspace": kb.Backspace, "Delete": kb.Delete,
	"ArrowLeft": kb.ArrowLeft, "ArrowRight": kb.ArrowRight, "ArrowUp": kb.ArrowUp, "ArrowDown": kb.ArrowDown,
	"Home": kb.Home, "End": kb.End, "PageUp": kb.PageUp, "PageDown": kb.PageDown,
}

func (c *chromium) press(key string, shift bool) error {
	var options []chromedp.KeyOption
	if shift {
		options = append(options, chromedp.KeyModifiers(chromedp.ModifierShift))
	}
	if special, found := keys[key]; found {
		key = special
	}
	return c.do(chromedp.KeyEvent(key, options...))
}

func (c *chromium) write(text string) error { return c.do(chromedp.KeyEvent(text)) }

func (c *chromium) screen(width, height int64, dark bool) error {
	scheme := "light"
	if dark {
		scheme = "dark"
	}
	return c.do(
		chromedp.EmulateViewport(width, height, chromedp.EmulateMobile, chromedp.EmulateTouch),
		chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
			_, err := cdp.Call(ctx, t, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
				Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}},
			})
			return err
		}),
	)
}

func (c *chromium) picture() ([]byte, error) {
	ctx, cancel := context.WithTimeout(c.tab, Patience)
	defer cancel()
	picture, err := chromedp.Call(ctx, page.CaptureScreenshot, page.CaptureScreenshotParams{Format: page.CaptureScreenshotFormatPng})
	if err != nil {
		return nil, err
	}
	return picture.Data, nil
}

func (c *chromium) stop() { c.close() }

func (c *chromium) kill() error { return killAll(chromedp.FromContext(c.tab).Browser.Process().Pid) }
