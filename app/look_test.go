package app_test

import (
	"go/ast"
	"os"
	"regexp"
	"strings"
	"testing"
)

// The page about the look names every token there is and none that is not; so does it with the components that it says make a screen.
func TestThePageAboutTheLookIsTrue(t *testing.T) {
	read := func(name string) string {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		return string(text)
	}
	_, page, found := strings.Cut(read("../DEVELOPERS.md"), "### The look, on one page")
	page, _, ends := strings.Cut(page, "\n### ")
	if !found || !ends {
		t.Fatal("DEVELOPERS.md has no page about the look")
	}
	tokens := map[string]bool{}
	for _, m := range regexp.MustCompile(`(?m)^ *(--[a-z0-9-]+):`).FindAllStringSubmatch(read("../web/css/tokens.css"), -1) {
		tokens[m[1]] = true
	}
	said := map[string]bool{}
	for _, m := range regexp.MustCompile("`(--[a-z0-9-]+)`").FindAllStringSubmatch(page, -1) {
		said[m[1]] = true
		if !tokens[m[1]] {
			t.Errorf("the page names %s, which is no token", m[1])
		}
	}
	for _, between := range []string{"--space-2", "--space-3", "--space-4"} { // "--space-1 to --space-5"
		said[between] = true
	}
	for token := range tokens {
		if !said[token] {
			t.Errorf("the page does not name %s", token)
		}
	}
	if len(tokens) < 20 {
		t.Errorf("only %d tokens found", len(tokens))
	}
	var made strings.Builder
	for name, files := range packages(t) {
		if name != "app/view" {
			continue
		}
		for _, f := range files {
			for _, d := range f.Decls {
				made.WriteString(declared(d) + " ")
			}
		}
	}
	for _, m := range regexp.MustCompile("`(?:App\\.)?([a-z][A-Za-z]+)`").FindAllStringSubmatch(page, -1) {
		if m[1] != "go" && !strings.Contains(" "+made.String(), " "+m[1]+" ") {
			t.Errorf("the page names %s, which makes nothing on a screen", m[1])
		}
	}
}

// declared is the name of a function, "" of anything else.
func declared(d ast.Decl) string {
	if f, ok := d.(*ast.FuncDecl); ok {
		return f.Name.Name
	}
	return ""
}
