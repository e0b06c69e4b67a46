package phone

import (
	"bufio"
	"bytes"
	_ "embed"
	"encoding/binary"
	"encoding/json"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"io"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"time"
)

// What WebKitGTK is driven with, as Debian's packages place it. Its own small browser forgets its profile while it is driven, and its window is wider than
// a phone: ours is a page and nothing else.
const (
	webkitDriver = "WebKitWebDriver"
	python       = "/usr/bin/python3"
)

//go:embed webkit.py
var webkitBrowser string

// webkit drives a page of WebKitGTK by WebDriver, on a screen that nobody sees.
type webkit struct {
	display, process *exec.Cmd
	session          string // its address
	frame            string // the folder in which Xvfb keeps what is on the screen
	width, height    int
}

func (p *Phone) startWebKit() (err error) {
	k := &webkit{frame: p.profile}
	p.driver = k
	defer func() {
		if err != nil {
			k.kill()
		}
	}()
	// Xvfb takes a free display and writes its number.
	numbers, number, err := os.Pipe()
	if err != nil {
		return err
	}
	k.display = exec.Command("Xvfb", "-displayfd", "3", "-screen", "0", "1024x1024x24", "-nolisten", "tcp", "-fbdir", p.profile)
	k.display.ExtraFiles = []*os.File{number}
	err = k.display.Start()
	number.Close()
	if err != nil {
		return err
	}
	var display int
	if _, err := fmt.Fscan(numbers, &display); err != nil {
		return fmt.Errorf("Xvfb: %w", err)
	}
	numbers.Close()

	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return err
	}
	_, port, _ := net.SplitHostPort(listener.Addr().String())
	listener.Close()
	said, says, err := os.Pipe()
	if err != nil {
		return err
	}
	// Line by line, since what the page says is written by a process that holds it back otherwise.
	k.process = exec.Command("stdbuf", "-oL", webkitDriver, "--port="+port)
	k.process.Stdout, k.process.Stderr = says, says
	k.process.Env = append(os.Environ(), fmt.Sprintf("DISPLAY=:%d", display), "HOME="+p.profile, "XDG_RUNTIME_DIR="+p.profile, "GTK_THEME=", "NO_AT_BRIDGE=1",
		"LIBGL_ALWAYS_SOFTWARE=1", "WEBKIT_DISABLE_DMABUF_RENDERER=1", "WEBKIT_DISABLE_SANDBOX_THIS_IS_DANGEROUS=1")
	err = k.process.Start()
	says.Close()
	if err != nil {
		return err
	}
	go func() {
		for lines := bufio.NewScanner(said); lines.Scan(); {
			if consoleError.MatchString(lines.Text()) {
				p.complain(lines.Text())
			}
		}
	}()
	script := filepath.Join(p.profile, "webkit.py")
	if err := os.WriteFile(script, []byte(webkitBrowser), 0o644); err != nil {
		return err
	}
	colours := "light"
	if p.model.Dark {
		colours = "dark"
	}
	k.session = "http://127.0.0.1:" + port + "/session"
	options := map[string]any{"binary": python, "args": []string{script, p.profile, fmt.Sprint(p.model.Width), fmt.Sprint(p.model.Height), colours}}
	wanted := map[string]any{"capabilities": map[string]any{"alwaysMatch": map[string]any{"webkitgtk:browserOptions": options}}}
	var begun struct{ SessionID string }
	for ending := time.Now().Add(3 * Patience); ; time.Sleep(50 * time.Millisecond) {
		if err = k.ask("POST", "", wanted, &begun); err == nil || time.Now().After(ending) {
			break
		}
	}
	k.session += "/" + begun.SessionID
	return err
}

// consoleError finds what a page says in its console as an error: its own word, an exception, a breach of the policy, what did not load.
var consoleError = regexp.MustCompile(`CONSOLE (\w+ )?ERROR`)

// ask sends a command and waits for its value, which is put where into points.
func (k *webkit) ask(method, command string, params any, into any) error {
	var body io.Reader
	if method == "POST" {
		text, err := json.Marshal(params)
		if err != nil {
			return err
		}
		body = bytes.NewReader(text)
	}
	request, err := http.NewRequest(method, k.session+command, body)
	if err != nil {
		return err
	}
	client := http.Client{Timeout: Patience}
	if command == "" { // a session begins when all of the browser has started
		client.Timeout *= 3
	}
	answer, err := client.Do(request)
	if err != nil {
		return err
	}
	defer answer.Body.Close()
	var told struct{ Value json.RawMessage }
	if err := json.NewDecoder(answer.Body).Decode(&told); err != nil {
		return fmt.Errorf("%s: %w", command, err)
	}
	if answer.StatusCode != http.StatusOK {
		return fmt.Errorf("%s: %s", command, told.Value)
	}
	if into == nil {
		return nil
	}
	return json.Unmarshal(told.Value, into)
}

func (k *webkit) open(address string) error {
	return k.ask("POST", "/url", map[string]any{"url": address}, nil)
}

func (k *webkit) reload() error { return k.ask("POST", "/refresh", map[string]any{}, nil) }

// script runs the body of a function that is given the elements; what it returns is waited for and put where into points.
func (k *webkit) script(body string, into any, elements ...node) error {
	given := []any{}
	for _, e := range elements {
		given = append(given, map[string]any{elementKey: e})
	}
	return k.ask("POST", "/execute/sync", map[string]any{"script": body, "args": given}, into)
}

// elementKey is WebDriver's mark of an element.
const elementKey = "element-6066-11e4-a52e-4f735466cecf"

func (k *webkit) evaluate(expression string) (any, error) {
	var text string
	if err := k.script("return "+asJSON(expression), &text); err != nil {
		return nil, err
	}
	return fromJSON(text)
}

func (k *webkit) call(function string, on node) (text string, err error) {
	err = k.script("return ("+function+").call(arguments[0])", &text, on)
	return text, err
}

func (k *webkit) elements(expression string) ([]node, error) {
	var found []map[string]string
	err := k.script("return "+expression, &found)
	var nodes []node
	for _, f := range found {
		nodes = append(nodes, f[elementKey])
	}
	return nodes, err
}

// named asks the engine for the names of those controls alone that have all words of it somewhere.
func (k *webkit) named(name string) (found []node, among string, err error) {
	controls, err := k.elements(fmt.Sprintf(`[...document.querySelectorAll(%q)].filter(e => {
		const by = [...(e.getAttribute("aria-labelledby") || "").split(" ").map(id => document.getElementById(id)), ...e.labels || [], e].filter(Boolean);
		const text = [e.ariaLabel, ...by.map(each => each.textContent)].join(" ");
		return e.checkVisibility({ visibilityProperty: true }) && %q.split(" ").every(word => text.includes(word));
	})`, controlSelector, name))
	if err != nil {
		return nil, "", err
	}
	for _, c := range controls {
		var label string
		if err := k.ask("GET", fmt.Sprintf("/element/%s/computedlabel", c), nil, &label); err != nil {
			return nil, "", err
		}
		label = strings.Join(strings.Fields(label), " ")
		if label == name {
			found = append(found, c)
		} else {
			among += label + " | "
		}
	}
	if len(controls) == 0 {
		seen, _ := k.evaluate(namesExpression)
		among = fmt.Sprint(seen)
	}
	return found, among, nil
}

func (k *webkit) query(selector string) ([]node, error) {
	return k.elements(fmt.Sprintf("[...document.querySelectorAll(%q)]", selector))
}

func (k *webkit) perform(actions []any) error {
	return k.ask("POST", "/actions", map[string]any{"actions": actions}, nil)
}

func (k *webkit) tap(x, y float64) error { return k.perform(tapActions(x, y)) }

func (k *webkit) drag(fromX, fromY, toX, toY float64) error {
	return k.perform(dragActions(fromX, fromY, toX, toY))
}

func (k *webkit) press(key string, shift bool) error { return k.perform(keyActions(code(key), shift)) }

func (k *webkit) write(text string) error { return k.perform(keyActions(text, false)) }

// screen cannot change between light and dark: that is settled at the start.
func (k *webkit) screen(width, height int64, dark bool) error {
	k.width, k.height = int(width), int(height)
	return k.ask("POST", "/window/rect", map[string]any{"x": 0, "y": 0, "width": width, "height": height}, nil)
}

// picture takes what lies on the screen: WebKitGTK's own pictures wait for something to move.
func (k *webkit) picture() ([]byte, error) {
	dump, err := os.ReadFile(filepath.Join(k.frame, "Xvfb_screen0"))
	if err != nil {
		return nil, err
	}
	// An X window dump: a header of numbers, the colours' names, and the pixels, four bytes each.
	number := func(i int) int { return int(binary.BigEndian.Uint32(dump[4*i:])) }
	line, first := number(12), number(0)+12*number(19)
	screen := image.NewRGBA(image.Rect(0, 0, k.width, k.height))
	for y := range k.height {
		for x := range k.width {
			pixel := dump[first+y*line+4*x:]
			screen.SetRGBA(x, y, color.RGBA{pixel[2], pixel[1], pixel[0], 255})
		}
	}
	var out bytes.Buffer
	err = png.Encode(&out, screen)
	return out.Bytes(), err
}

func (k *webkit) stop() {
	k.ask("DELETE", "", nil, nil) // one that was killed has nothing to say
	k.kill()
}

func (k *webkit) kill() error {
	for _, process := range []*exec.Cmd{k.process, k.display} {
		if process != nil && process.Process != nil {
			killAll(process.Process.Pid)
			process.Wait()
		}
	}
	return nil
}
