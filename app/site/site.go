// Package site assembles every file that a browser is given: the pages of each place, the app's script, its worker, its manifest and
// icons, the styles and the program itself. The local server and the static site are two ways to hand out the same files.
//
// It belongs to the server side and is never part of the program that a phone runs.
package site

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"image/png"
	"io/fs"
	"maps"
	"net/http"
	"net/http/httptest"
	"path"
	"slices"
	"strings"
	"sync"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"gapwright/app/view"
	"gapwright/app/words"
	"gapwright/web"
)

// The addresses, below the prefix, of the files that have a part to play.
const (
	Wasm   = "/web/app.wasm"
	Worker = "/worker.js"
	Start  = "/app.js"  // all scripts of a page, the one that starts the program last
	Styles = "/app.css" // all its styles

	Compiler = "/compile.js"      // the thread that compiles the program
	Shell    = string(view.Bench) // the page that answers an address nobody knows
)

// Policy is the content security policy of every page: nothing comes from elsewhere and nothing goes there.
const Policy = "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' data: blob:; " +
	"connect-src 'self'; worker-src 'self'; object-src 'none'; base-uri 'none'; form-action 'none'"

// Options say what to assemble.
type Options struct {
	Wasm []byte // the program, built from cmd/gapwright

	// Prefix is the folder on the host that the site is served from: "" for the root, else "/folder" without a slash at the end.
	Prefix string

	// Patience is how long the worker waits for each 1.2 MB of a file that have begun, so that a very slow line has its time; 0 means a minute.
	Patience time.Duration

	// PolicyInPage writes the content security policy into each page, for hosts that send no headers of ours.
	PolicyInPage bool
}

// A File is one answer of the site.
type File struct {
	Body []byte
	Type string // media type
	Hash string // SHA-256 of Body in hex
}

// A Site is every file, by its address below the prefix; an address that ends in a slash is a page.
type Site struct {
	Prefix  string
	Version string // a hash of everything in it
	Files   map[string]File
}

// Addresses lists the addresses of the site in order.
func (s Site) Addresses() []string {
	addresses := make([]string, 0, len(s.Files))
	for address := range s.Files {
		addresses = append(addresses, address)
	}
	slices.Sort(addresses)
	return addresses
}

func (s Site) add(address, mediaType string, body []byte) {
	sum := sha256.Sum256(body)
	s.Files[address] = File{Body: body, Type: mediaType, Hash: hex.EncodeToString(sum[:])}
}

// hash is one value for all files so far.
func (s Site) hash() string {
	h := sha256.New()
	for _, address := range s.Addresses() {
		fmt.Fprintf(h, "%s %s %s\n", address, s.Files[address].Type, s.Files[address].Hash)
	}
	return hex.EncodeToString(h.Sum(nil))[:16]
}

// building keeps two builds apart: go-app hands a prerender its settings through the environment of the process.
var (
	building sync.Mutex
	routed   sync.Once
)

// Build assembles the site. It fails when the prefix is not a folder, when there is no program, or when a page cannot be rendered.
func Build(o Options) (Site, error) {
	if len(o.Wasm) == 0 {
		return Site{}, errors.New("the program is empty: build cmd/gapwright first")
	}
	if o.Prefix != "" && (!strings.HasPrefix(o.Prefix, "/") || path.Clean(o.Prefix) != o.Prefix || o.Prefix == "/") {
		return Site{}, fmt.Errorf("prefix %q: want nothing, or a folder such as /folder", o.Prefix)
	}
	building.Lock()
	defer building.Unlock()
	// One component answers every address and reads the place from it, here as in the program.
	routed.Do(func() { app.RouteWithRegexp("^/", view.New) })

	// Once without the version, to find the version; then with it.
	draft, err := assemble(o, "")
	if err != nil {
		return Site{}, err
	}
	return assemble(o, draft.hash())
}

func assemble(o Options, version string) (Site, error) {
	s := Site{Prefix: o.Prefix, Version: version, Files: make(map[string]File)}
	s.add(Wasm, "application/wasm", o.Wasm)
	s.add("/icon.svg", "image/svg+xml", iconSVG())
	for _, f := range iconFiles() {
		s.add(f.address, "image/png", f.png())
	}
	styles, scripts, err := s.addWeb(web.Files)
	if err != nil {
		return Site{}, err
	}
	shown, err := s.shown()
	if err != nil {
		return Site{}, err
	}
	s.add("/manifest.webmanifest", "application/manifest+json", manifest(o.Prefix, shown))

	env := map[string]string{
		"GOAPP_VERSION":              version,
		"GOAPP_ROOT_PREFIX":          o.Prefix,
		"GOAPP_STATIC_RESOURCES_URL": o.Prefix + "/web",
		"GOAPP_INTERNAL_URLS":        "[]",
	}
	start, err := fill("start.js", map[string]any{"config": map[string]any{
		"env":        env,
		"wasm":       o.Prefix + Wasm,
		"wasmLength": len(o.Wasm),
		"compiler":   o.Prefix + Compiler,
		"worker":     o.Prefix + Worker,
		"scope":      o.Prefix + "/",
	}})
	if err != nil {
		return Site{}, err
	}
	ask := asker(&app.Handler{
		Name:      words.AppName(),
		Title:     words.AppName(),
		Lang:      words.Language(),
		Icon:      app.Icon{Default: "/icon-192.png", Large: "/icon-512.png", Maskable: "/icon-512.png", SVG: "/icon.svg"},
		Version:   "v" + version,
		Resources: resources{prefix: o.Prefix},
	})
	loader, err := ask("/wasm_exec.js")
	if err != nil {
		return Site{}, err
	}
	// One file of each: on a slow line every further one is a round trip, and from the device a question to the worker.
	s.add(Start, mediaTypes[".js"], bytes.Join(slices.Concat([][]byte{loader}, scripts, [][]byte{start}), []byte("\n")))
	compiler, err := fs.ReadFile(web.Files, "compile.js")
	if err != nil {
		return Site{}, err
	}
	s.add(Compiler, mediaTypes[".js"], bytes.Join([][]byte{loader, compiler}, []byte("\n")))
	s.add(Styles, mediaTypes[".css"], bytes.Join(styles, []byte("\n")))

	frame := frame{Prefix: o.Prefix, Styles: Styles, Script: Start}
	if o.PolicyInPage {
		frame.Policy = Policy
	}
	for _, place := range view.Places() {
		rendered, err := ask(string(place))
		if err != nil {
			return Site{}, err
		}
		page, err := frame.page(rendered)
		if err != nil {
			return Site{}, fmt.Errorf("page %s: %w", place, err)
		}
		s.add(string(place), "text/html; charset=utf-8", page)
	}

	table := make(map[string][3]any)
	for address, file := range s.Files {
		if strings.HasPrefix(address, Pictures) {
			continue
		}
		table[o.Prefix+address] = [3]any{file.Hash, len(file.Body), file.Type}
	}
	worker, err := fill("worker.js", map[string]any{"version": version, "scope": o.Prefix + "/", "files": table,
		"patience": cmp.Or(o.Patience, time.Minute).Milliseconds()})
	if err != nil {
		return Site{}, err
	}
	s.add(Worker, "text/javascript; charset=utf-8", worker)
	return s, nil
}

// pieces are the files in the web folder that are filled in or joined to others, not handed out as they are.
var pieces = []string{"page.html", "start.js", "worker.js", "compile.js"}

// styleOrder is the order of the cascade; a style sheet that is not named comes after them.
var styleOrder = []string{"tokens", "base", "layout", "steps", "forms", "pictures", "print", "boot"}

// mediaTypes are those of what may lie in the web folder: a table of our own, as a computer's own differs from the next one's.
var mediaTypes = map[string]string{
	".css": "text/css; charset=utf-8",
	".js":  "text/javascript; charset=utf-8",
	".png": "image/png",
	".svg": "image/svg+xml",
	".txt": "text/plain; charset=utf-8",
}

// later is the folder of what is stored with everything else, but named by no page: it is fetched when it is asked for.
const later = "later/"

// addWeb adds the web folder, but its style sheets and scripts: those it returns, in the order in which they count.
func (s Site) addWeb(files fs.FS) (styles, scripts [][]byte, err error) {
	sheets := make(map[string][]byte)
	err = fs.WalkDir(files, ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || slices.Contains(pieces, name) || path.Ext(name) == ".go" {
			return err
		}
		mediaType, known := mediaTypes[path.Ext(name)]
		if !known {
			return fmt.Errorf("web/%s: no media type is known for it", name)
		}
		body, err := fs.ReadFile(files, name)
		if err != nil {
			return err
		}
		switch {
		case path.Ext(name) == ".css":
			sheets[strings.TrimSuffix(path.Base(name), ".css")] = body
		case path.Ext(name) == ".js" && !strings.HasPrefix(name, later):
			scripts = append(scripts, body)
		default:
			s.add("/web/"+name, mediaType, body)
		}
		return nil
	})
	names := slices.Sorted(maps.Keys(sheets))
	rank := func(name string) int {
		if i := slices.Index(styleOrder, name); i >= 0 {
			return i
		}
		return len(styleOrder)
	}
	slices.SortStableFunc(names, func(a, b string) int { return rank(a) - rank(b) })
	for _, name := range names {
		styles = append(styles, sheets[name])
	}
	return styles, scripts, err
}

// fill writes values, as JSON, into the places {{name}} of a script in the web folder; each must be there exactly once.
func fill(name string, values map[string]any) ([]byte, error) {
	text, err := fs.ReadFile(web.Files, name)
	if err != nil {
		return nil, err
	}
	for key, value := range values {
		place := []byte("{{" + key + "}}")
		if n := bytes.Count(text, place); n != 1 {
			return nil, fmt.Errorf("web/%s: %s is there %d times, want once", name, place, n)
		}
		as, err := json.Marshal(value)
		if err != nil {
			return nil, err
		}
		text = bytes.Replace(text, place, as, 1)
	}
	return text, nil
}

// asker asks a go-app handler for addresses, as a browser would.
func asker(handler *app.Handler) func(address string) ([]byte, error) {
	return func(address string) ([]byte, error) {
		answer := httptest.NewRecorder()
		handler.ServeHTTP(answer, httptest.NewRequest(http.MethodGet, address, nil))
		if answer.Code != http.StatusOK {
			return nil, fmt.Errorf("%s: the app answers %d", address, answer.Code)
		}
		return answer.Body.Bytes(), nil
	}
}

// resources resolves addresses as the program does in the browser: only the web folder gets the prefix. Links are built with it already.
type resources struct{ prefix string }

func (r resources) Resolve(address string) string {
	switch {
	case address == "/" || address == "":
		return r.prefix + "/"
	case address == "/web" || strings.HasPrefix(address, "/web/"):
		return r.prefix + address
	default:
		return address
	}
}

// Pictures lie in the folder of what a browser shows to whoever thinks of installing the app; no device keeps them.
const Pictures = "/web/shown/"

// screenshot is a picture of the app as the manifest names it.
type screenshot struct {
	Src        string `json:"src"`
	Type       string `json:"type"`
	Sizes      string `json:"sizes"`
	FormFactor string `json:"form_factor"`
	Label      string `json:"label"`
}

// shown lists the pictures of the app, in the order of their names.
func (s Site) shown() (all []screenshot, err error) {
	for _, address := range s.Addresses() {
		name, is := strings.CutPrefix(address, Pictures)
		if !is {
			continue
		}
		size, err := png.DecodeConfig(bytes.NewReader(s.Files[address].Body))
		if err != nil {
			return nil, fmt.Errorf("%s: %w", address, err)
		}
		all = append(all, screenshot{s.Prefix + address, "image/png", fmt.Sprintf("%dx%d", size.Width, size.Height), "narrow",
			words.Pictured(strings.TrimSuffix(name, ".png"))})
	}
	return all, nil
}

// manifest is what a phone needs to put the app on its home screen.
func manifest(prefix string, shown []screenshot) []byte {
	type icon struct {
		Src     string `json:"src"`
		Type    string `json:"type"`
		Sizes   string `json:"sizes"`
		Purpose string `json:"purpose,omitempty"`
	}
	type shortcut struct {
		Name  string `json:"name"`
		Short string `json:"short_name"`
		URL   string `json:"url"`
		Icons []icon `json:"icons"`
	}
	icons := []icon{{prefix + "/icon.svg", "image/svg+xml", "any", "any"}}
	for _, f := range iconFiles() {
		if f.purpose != "" {
			icons = append(icons, icon{prefix + f.address, "image/png", fmt.Sprintf("%dx%d", f.side, f.side), f.purpose})
		}
	}
	small := []icon{{prefix + "/icon-192.png", "image/png", "192x192", "any"}}
	body, err := json.MarshalIndent(map[string]any{
		"id":               prefix + "/",
		"name":             words.AppName(),
		"short_name":       words.AppName(),
		"description":      words.AppDescription(),
		"lang":             words.Language(),
		"dir":              "ltr",
		"categories":       []string{"music", "utilities"},
		"scope":            prefix + "/",
		"start_url":        prefix + "/",
		"display":          "standalone",
		"background_color": hexColour(paper),
		"theme_color":      hexColour(paper),
		"icons":            icons,
		"screenshots":      shown,
		"shortcuts": []shortcut{
			{words.CheckName(), words.CheckShort(), view.Link(prefix, view.Check, ""), small},
			{words.ResumeName(), words.ResumeName(), view.Link(prefix, view.Job, ""), small},
		},
	}, "", "  ")
	if err != nil {
		panic(err) // plain strings always encode
	}
	return body
}
