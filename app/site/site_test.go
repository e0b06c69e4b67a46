package site

import (
	"bytes"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"strings"
	"testing"

	"gapwright/app/view"
	"gapwright/web"
)

// A program that is not run needs no more than its first bytes.
var wasm = []byte("\x00asm\x01\x00\x00\x00")

func build(t *testing.T, o Options) Site {
	t.Helper()
	if o.Wasm == nil {
		o.Wasm = wasm
	}
	s, err := Build(o)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestTheSameAppGivesTheSameFiles(t *testing.T) {
	first := build(t, Options{})
	for range 20 { // go-app writes attributes in the random order of a map
		again := build(t, Options{})
		if again.Version != first.Version {
			t.Fatalf("built twice: versions %s and %s", first.Version, again.Version)
		}
		for _, address := range first.Addresses() {
			if first.Files[address].Hash != again.Files[address].Hash {
				t.Errorf("built twice: %s differs:\n%s\n%s", address, first.Files[address].Body, again.Files[address].Body)
			}
		}
	}
}

func TestAnyChangeIsANewVersion(t *testing.T) {
	first := build(t, Options{}).Version
	for what, o := range map[string]Options{
		"another program": {Wasm: append(bytes.Clone(wasm), 0)},
		"another folder":  {Prefix: "/folder"},
		"policy in pages": {PolicyInPage: true},
	} {
		if other := build(t, o).Version; other == first {
			t.Errorf("%s: version %s again", what, other)
		}
	}
}

func TestEveryPlaceIsAPage(t *testing.T) {
	s := build(t, Options{})
	for _, place := range view.Places() {
		file, found := s.Files[string(place)]
		if !found || !strings.HasPrefix(file.Type, "text/html") {
			t.Errorf("%s: found %t, type %q", place, found, file.Type)
		}
		for _, want := range []string{"<main", "<h1", `id="stopped"`, `src="/app.js"`, `href="/app.css"`} {
			if !bytes.Contains(file.Body, []byte(want)) {
				t.Errorf("%s: no %s in\n%s", place, want, file.Body)
			}
		}
	}
}

func TestTheWorkerKeepsEveryFileButItself(t *testing.T) {
	s := build(t, Options{Prefix: "/folder"})
	worker := string(s.Files[Worker].Body)
	for address, file := range s.Files {
		entry := `"/folder` + address + `":["` + file.Hash + `"`
		if got, want := strings.Contains(worker, entry), address != Worker && !strings.HasPrefix(address, Pictures); got != want {
			t.Errorf("%s in the worker's table: %t, want %t", address, got, want)
		}
	}
}

// What lies in the folder for later is on the device with all else, and costs no page anything before it is asked for.
func TestWhatIsForLaterIsStoredAndNamedByNoPage(t *testing.T) {
	s := build(t, Options{Prefix: "/folder"})
	worker := string(s.Files[Worker].Body)
	for _, address := range []string{"/web/later/code.js", "/web/later/qr/qr.min.js", "/web/later/qr/LICENSE.txt"} {
		file, found := s.Files[address]
		if !found || !strings.Contains(worker, `"/folder`+address+`":["`+file.Hash+`"`) {
			t.Errorf("%s: in the site %t, and not in the worker's table", address, found)
		}
	}
	for _, place := range view.Places() {
		if page := s.Files[string(place)].Body; bytes.Contains(page, []byte("/later/")) {
			t.Errorf("%s names what is for later:\n%s", place, page)
		}
	}
}

// Each style sheet and each script is in the one file of its kind, and in its order.
func TestOneFileOfStylesAndOneOfScripts(t *testing.T) {
	s := build(t, Options{})
	for address, marks := range map[string][]string{
		Start:  {"globalThis.Go = class", "gapwrightJournal = {", "globalThis.gapwright = {"}, // wasm_exec.js, journal.js, start.js
		Styles: {"--paper:", ".bar-link", "@media print", "#boot [hidden]"},                   // tokens, layout, print, boot
	} {
		body, from := string(s.Files[address].Body), 0
		for _, mark := range marks {
			at := strings.Index(body[from:], mark)
			if at < 0 {
				t.Fatalf("%s: no %q where it should come", address, mark)
			}
			from += at
		}
	}
	sheets, err := fs.Glob(web.Files, "css/*.css")
	if err != nil || len(sheets) < 5 {
		t.Fatalf("style sheets: %q, %v", sheets, err)
	}
	for _, name := range append(sheets, "boot.css", "journal.js", "share.js") {
		body, err := fs.ReadFile(web.Files, name)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Contains(s.Files[Start].Body, body) && !bytes.Contains(s.Files[Styles].Body, body) {
			t.Errorf("%s is in neither of the two", name)
		}
	}
}

func TestNothingIsElsewhere(t *testing.T) {
	// A name space is a name, not a place; wasm_exec.js names its own documentation in a comment, a licence its author.
	names := regexp.MustCompile(`http://www\.w3\.org/2000/svg|https://(github\.com/golang|go\.dev|golang\.org|paulmillr\.com)\S*`)
	remote := regexp.MustCompile(`https?://|url\(\s*["']?//|(src|href)="//`)
	for _, o := range []Options{{}, {Prefix: "/folder", PolicyInPage: true}} {
		s := build(t, o)
		for address, file := range s.Files {
			if at := remote.FindIndex(names.ReplaceAll(file.Body, nil)); at != nil {
				t.Errorf("%s names an address elsewhere: %.80q", address, names.ReplaceAll(file.Body, nil)[at[0]:])
			}
		}
	}
}

func TestPagesHaveNoScriptOrStyleOfTheirOwn(t *testing.T) {
	inline := regexp.MustCompile(`<script[^>]*>[^<]|<style|\sstyle=|\son[a-z]+=`)
	s := build(t, Options{})
	for _, place := range view.Places() {
		if found := inline.Find(s.Files[string(place)].Body); found != nil {
			t.Errorf("%s has %q: the content policy forbids it", place, found)
		}
	}
}

func TestEveryAddressInAPageIsAFileBelowThePrefix(t *testing.T) {
	s := build(t, Options{Prefix: "/folder"})
	named := regexp.MustCompile(`(?:src|href)="([^"?#]*)`)
	for _, place := range view.Places() {
		for _, match := range named.FindAllSubmatch(s.Files[string(place)].Body, -1) {
			address, below := strings.CutPrefix(string(match[1]), "/folder")
			if _, found := s.Files[address]; !below || !found {
				t.Errorf("%s names %q, which is no file of the site", place, match[1])
			}
		}
	}
}

func TestThePolicyIsInThePageWhenAsked(t *testing.T) {
	for _, asked := range []bool{false, true} {
		page := string(build(t, Options{PolicyInPage: asked}).Files[Shell].Body)
		if got := strings.Contains(page, `http-equiv="Content-Security-Policy"`); got != asked {
			t.Errorf("policy in the page: %t, want %t", got, asked)
		}
	}
}

func TestTheLoaderIsTheOneOfThisGo(t *testing.T) {
	want, err := os.ReadFile(filepath.Join(runtime.GOROOT(), "lib", "wasm", "wasm_exec.js"))
	if err != nil {
		t.Skip("this Go came without its wasm_exec.js: ", err)
	}
	if !bytes.HasPrefix(build(t, Options{}).Files[Start].Body, want) {
		t.Errorf("wasm_exec.js is not the one of %s: the program would not start", runtime.Version())
	}
}

func TestBadPrefixesAreRefused(t *testing.T) {
	for _, prefix := range []string{"/", "folder", "/folder/", "/a//b", "/../b"} {
		if _, err := Build(Options{Wasm: wasm, Prefix: prefix}); err == nil {
			t.Errorf("prefix %q was taken", prefix)
		}
	}
	if _, err := Build(Options{}); err == nil {
		t.Error("a site without a program was built")
	}
}

func TestScriptsHoldNoSentences(t *testing.T) {
	// Three words in a row in quotes are a sentence; "use strict" and names are not.
	sentence := regexp.MustCompile("[\"'`][A-Za-z][a-z]+ [a-z]+ [a-z]+[^\"'`]*[\"'`]")
	scripts, err := fs.Glob(web.Files, "*.js")
	more, err2 := fs.Glob(web.Files, "later/*.js")
	if scripts = append(scripts, more...); err != nil || err2 != nil || len(more) == 0 {
		t.Fatalf("scripts: %q, %v", scripts, err)
	}
	for _, name := range scripts {
		text, err := fs.ReadFile(web.Files, name)
		if err != nil {
			t.Fatal(err)
		}
		for _, line := range strings.Split(string(text), "\n") {
			code, _, _ := strings.Cut(line, "// ")
			if found := sentence.FindString(code); found != "" && !strings.Contains(code, "new Error(") {
				t.Errorf("web/%s: %s belongs in app/words", name, found)
			}
		}
	}
}
