package phone

import (
	"encoding/json"
	"fmt"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"time"
)

// An Engine is what draws and runs a browser's pages.
type Engine int

// The engines, each with the browser in which it is tried. WebKit is WebKitGTK's, on this computer's own kind of system: a phone by its maker was not
// to be had, so nothing here shows that the app runs on one.
const (
	Blink Engine = iota
	Gecko
	WebKit
)

// Engines lists them.
func Engines() []Engine { return []Engine{Blink, Gecko, WebKit} }

// String is the name of the engine's browser.
func (e Engine) String() string { return [...]string{"Chromium", "Firefox", "WebKitGTK"}[e] }

// Packages are Debian's packages that hold the browser and what it needs to be driven.
func (e Engine) Packages() []string {
	return [...][]string{{"chromium", "fonts-dejavu-core"}, {"firefox-esr", "fonts-dejavu-core"},
		{"webkit2gtk-driver", "xvfb", "python3-gi", "gir1.2-webkit2-4.1", "fonts-dejavu-core"}}[e]
}

// Version asks the browser for its version. Where that fails, something is missing.
func (e Engine) Version() (string, error) {
	command := [...][]string{{Chromium(), "--version"}, {firefoxPath(), "--version"}, {python, "-c", webkitBrowser, "version"}}[e]
	if e == WebKit {
		for _, needed := range []string{webkitDriver, "Xvfb"} {
			if _, err := exec.LookPath(needed); err != nil {
				return "", err
			}
		}
	}
	said, err := exec.Command(command[0], command[1:]...).Output()
	if err != nil {
		return "", fmt.Errorf("%s: %w", e, err)
	}
	return strings.TrimSpace(string(said)), nil
}

// Wanted reports whether the engine is to be tried: Chromium always, the others where ENGINES is all.
func (e Engine) Wanted() bool { return e == Blink || os.Getenv("ENGINES") == "all" }

// In is the same phone with another engine.
func (m Model) In(e Engine) Model { m.Engine = e; return m }

// A node is an element of the page, as its driver knows it.
type node any

// A driver holds a browser with one page. It is told where to go and what a hand does, and hands on what the page complains about.
type driver interface {
	open(address string) error
	reload() error
	// evaluate gives the value of an expression as JSON has it; a promise is waited for.
	evaluate(expression string) (any, error)
	// call gives the text that a function of the page returns for an element, its this.
	call(function string, on node) (string, error)
	// named gives the controls that have that accessible name and can be used, and says what there is besides.
	named(name string) (found []node, among string, err error)
	query(selector string) ([]node, error)
	tap(x, y float64) error
	drag(fromX, fromY, toX, toY float64) error
	// press presses one of the keys in keys, or types one letter.
	press(key string, shift bool) error
	write(text string) error
	screen(width, height int64, dark bool) error
	picture() ([]byte, error)
	// stop ends the browser in good order; its profile stays. kill ends it, and all it has started, at once.
	stop()
	kill() error
}

// elsewhere reports whether an address lies outside of this computer.
func elsewhere(address string) bool {
	u, err := url.Parse(address)
	return err != nil || u.Hostname() != "127.0.0.1" && !slices.Contains([]string{"data", "blob", "about"}, u.Scheme)
}

// killAll ends a process and every one that comes from it.
func killAll(pid int) error {
	for _, child := range children(pid) {
		syscall.Kill(child, syscall.SIGKILL)
	}
	return syscall.Kill(pid, syscall.SIGKILL)
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

// end waits until a process has ended by itself, and ends it when it takes too long.
func end(ended <-chan struct{}, pid int) {
	select {
	case <-ended:
	case <-time.After(10 * time.Second):
		killAll(pid)
		<-ended
	}
}

// ---- what both kinds of WebDriver have in common ----

// asJSON makes an expression whose value, waited for, is a text that fromJSON reads.
func asJSON(expression string) string {
	return "Promise.resolve(" + expression + ").then(value => JSON.stringify({ value }))"
}

func fromJSON(text string) (any, error) {
	var answer struct{ Value any }
	err := json.Unmarshal([]byte(text), &answer)
	return answer.Value, err
}

// controlSelector finds what a finger has business with and what can be used.
const controlSelector = `:is(button, a[href], input, select, textarea, summary, [role="button"], [role="slider"]):not(:disabled, [aria-disabled="true"])`

// namesExpression tells what the controls of a page seem to be called, for somebody who looks for one that is not there.
var namesExpression = fmt.Sprintf(`[...document.querySelectorAll(%q)].filter(e => e.checkVisibility()).map(e =>
	(e.ariaLabel || e.textContent || e.labels && e.labels[0] && e.labels[0].textContent || e.id).trim().replace(/\s+/g, " ")).join(" | ")`, controlSelector)

// pointer are the actions of a mouse: the app hears of a click, whoever made it.
func pointer(steps ...map[string]any) []any {
	return []any{map[string]any{"type": "pointer", "id": "finger", "parameters": map[string]any{"pointerType": "mouse"}, "actions": steps}}
}

func moveTo(x, y float64, milliseconds int) map[string]any {
	return map[string]any{"type": "pointerMove", "x": int(x + 0.5), "y": int(y + 0.5), "duration": milliseconds}
}

var (
	down = map[string]any{"type": "pointerDown", "button": 0}
	up   = map[string]any{"type": "pointerUp", "button": 0}
)

func tapActions(x, y float64) []any { return pointer(moveTo(x, y, 0), down, up) }

func dragActions(fromX, fromY, toX, toY float64) []any {
	steps := []map[string]any{moveTo(fromX, fromY, 0), down}
	for i := 1.0; i <= 10; i++ {
		steps = append(steps, moveTo(fromX+(toX-fromX)*i/10, fromY+(toY-fromY)*i/10, 10))
	}
	return pointer(append(steps, up)...)
}

// keyCodes are WebDriver's signs for the keys that have no letter.
var keyCodes = map[string]string{
	"Enter": "\uE007", "Tab": "\uE004", "Escape": "\uE00C", "Space": " ", "Backspace": "\uE003", "Delete": "\uE017",
	"ArrowLeft": "\uE012", "ArrowRight": "\uE014", "ArrowUp": "\uE013", "ArrowDown": "\uE015",
	"Home": "\uE011", "End": "\uE010", "PageUp": "\uE00E", "PageDown": "\uE00F",
}

func keyActions(text string, shift bool) []any {
	var steps []map[string]any
	step := func(kind, key string) { steps = append(steps, map[string]any{"type": kind, "value": key}) }
	if shift {
		step("keyDown", "\uE008")
	}
	for _, key := range text {
		step("keyDown", string(key))
		step("keyUp", string(key))
	}
	if shift {
		step("keyUp", "\uE008")
	}
	return []any{map[string]any{"type": "key", "id": "keys", "actions": steps}}
}

// code is the sign of a key, or the letter that it is.
func code(key string) string {
	if special, found := keyCodes[key]; found {
		return special
	}
	return key
}
