// Package app_test holds the rules of the house: which room may know which, and what may not stand where.
package app_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

const module = "gapwright/"

// packages parses every Go file that is not a test, by folder.
func packages(t *testing.T) map[string][]*ast.File {
	t.Helper()
	found := map[string][]*ast.File{}
	for _, root := range []string{"../geometry", "../app", "../cmd", "../web"} {
		err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
				return err
			}
			f, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.ParseComments)
			if err != nil {
				return err
			}
			folder := strings.TrimPrefix(filepath.ToSlash(filepath.Dir(path)), "../")
			found[folder] = append(found[folder], f)
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if len(found) < 8 {
		t.Fatalf("found only %d packages", len(found))
	}
	return found
}

func TestEveryRoomKnowsOnlyWhatItMay(t *testing.T) {
	may := map[string][]string{ // of this module; the standard library is always allowed
		"geometry":  {},
		"app/job":   {"geometry"},
		"app/draw":  {"geometry"},
		"app/lean":  {},
		"app/words": {"geometry", "app/job", "app/store"},
		"app/store": {"geometry", "app/job"},
		"app/view":  {"geometry", "app/job", "app/draw", "app/words", "app/store"},
	}
	outside := map[string][]string{"app/view": {"github.com/maxence-charriere/go-app/v10/pkg/app", "github.com/google/uuid"}}
	for folder, files := range packages(t) {
		rooms, ruled := may[folder]
		if !ruled {
			continue
		}
		for _, f := range files {
			for _, spec := range f.Imports {
				path, _ := strconv.Unquote(spec.Path.Value)
				switch {
				case strings.HasPrefix(path, module):
					if !contains(rooms, strings.TrimPrefix(path, module)) {
						t.Errorf("%s imports %s", folder, path)
					}
				case strings.Contains(strings.Split(path, "/")[0], "."):
					if !contains(outside[folder], path) {
						t.Errorf("%s imports %s", folder, path)
					}
				case path == "math" && folder == "app/view":
					t.Errorf("%s computes: it imports %s", folder, path)
				}
			}
		}
	}
}

func TestEveryPackageSaysWhatItIs(t *testing.T) {
	for folder, files := range packages(t) {
		said := false
		for _, f := range files {
			said = said || f.Doc != nil && len(f.Doc.Text()) > 20
		}
		if !said {
			t.Errorf("%s has no doc comment", folder)
		}
	}
}

// A sentence begins with a capital and has at least two words, or has four words and more.
var sentence = regexp.MustCompile(`^[A-Z][a-z’']* [a-z]|^\S*[A-Za-z]+( [A-Za-z’']+){3,}`)

func TestSentencesStandInWordsAlone(t *testing.T) {
	for folder, files := range packages(t) {
		if folder != "app/view" && folder != "app/draw" && folder != "cmd/gapwright" {
			continue
		}
		for _, f := range files {
			ast.Inspect(f, func(n ast.Node) bool {
				lit, ok := n.(*ast.BasicLit)
				if !ok || lit.Kind != token.STRING {
					return true
				}
				if text, err := strconv.Unquote(lit.Value); err == nil && sentence.MatchString(text) {
					t.Errorf("%s: a sentence outside app/words: %q", folder, text)
				}
				return true
			})
		}
	}
}

func TestTheRuleForSentencesFindsThem(t *testing.T) {
	for text, want := range map[string]bool{"Take off at most": true, "press the ends in turn": true, "button quiet small": false, "step-button": false,
		"0 0 320 180": false, "Reload": false} {
		if sentence.MatchString(text) != want {
			t.Errorf("%q counts as a sentence: %v, want %v", text, !want, want)
		}
	}
}

// Script may not speak either, and nothing in the browser's files may name another host.
func TestBrowserFilesNameNoHostAndSpeakNoSentences(t *testing.T) {
	files, err := filepath.Glob("../web/*.js")
	later, err2 := filepath.Glob("../web/later/*.js")
	if files = append(files, later...); err != nil || err2 != nil || len(later) == 0 {
		t.Fatalf("no scripts found: %v, %v", err, err2)
	}
	styles, _ := filepath.Glob("../web/css/*.css")
	quoted := regexp.MustCompile(`"[A-Z][a-z]+ [a-z][^"]*"`)
	for _, path := range append(files, styles...) {
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if m := regexp.MustCompile(`https?://[^\s"')]+`).FindString(string(data)); m != "" {
			t.Errorf("%s names a host: %s", path, m)
		}
		if strings.HasSuffix(path, ".js") {
			if m := quoted.FindString(string(data)); m != "" {
				t.Errorf("%s speaks: %s", path, m)
			}
		}
	}
}

// Literal colours stand in one file, so that light and dark are decided in one place.
func TestColoursStandInTokensAlone(t *testing.T) {
	styles, err := filepath.Glob("../web/css/*.css")
	if err != nil || len(styles) < 4 {
		t.Fatalf("found %d style files: %v", len(styles), err)
	}
	colour := regexp.MustCompile(`#[0-9a-fA-F]{3,8}\b|\brgba?\(|\bhsla?\(`)
	for _, path := range styles {
		if strings.HasSuffix(path, "tokens.css") {
			continue
		}
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if m := colour.FindString(string(data)); m != "" {
			t.Errorf("%s has a colour of its own: %s", path, m)
		}
	}
}

func contains(list []string, s string) bool {
	for _, each := range list {
		if each == s {
			return true
		}
	}
	return false
}
