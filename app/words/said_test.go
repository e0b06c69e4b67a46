package words_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// said is a text that the app can say, as its source has it: where it is said, and "one" in the place of what is worked out.
type said struct{ file, by, text string }

// everythingSaid reads the sources of this package: every text, with its parts put together.
func everythingSaid(t *testing.T) (all []said) {
	t.Helper()
	files, err := filepath.Glob("*.go")
	if err != nil || len(files) < 20 {
		t.Fatalf("%d sources: %v", len(files), err)
	}
	var parsed []*ast.File
	known := map[string]string{} // constants
	set := token.NewFileSet()
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		f, err := parser.ParseFile(set, name, text, 0)
		if err != nil {
			t.Fatal(err)
		}
		parsed = append(parsed, f)
		ast.Inspect(f, func(n ast.Node) bool {
			if v, ok := n.(*ast.ValueSpec); ok && len(v.Names) == 1 && len(v.Values) == 1 {
				if lit, ok := v.Values[0].(*ast.BasicLit); ok && lit.Kind == token.STRING {
					known[v.Names[0].Name], _ = strconv.Unquote(lit.Value)
				}
			}
			return true
		})
	}
	for _, f := range parsed {
		file := filepath.Base(set.Position(f.Pos()).Filename)
		for _, d := range f.Decls {
			by := ""
			switch d := d.(type) {
			case *ast.FuncDecl:
				by = d.Name.Name
			case *ast.GenDecl:
				if d.Tok == token.IMPORT {
					continue
				}
			}
			ast.Inspect(d, func(n ast.Node) bool {
				e, ok := n.(ast.Expr)
				if !ok {
					return true
				}
				if text, whole := putTogether(e, known); whole {
					if strings.ContainsAny(text, "abcdefghijklmnopqrstuvwxyz") {
						all = append(all, said{file, by, text})
					}
					return false
				}
				return true
			})
		}
	}
	if len(all) < 1000 {
		t.Fatalf("only %d texts were found", len(all))
	}
	return all
}

// putTogether is the text of a literal or of a sum of texts; whole is false for any other expression.
func putTogether(e ast.Expr, known map[string]string) (text string, whole bool) {
	switch e := e.(type) {
	case *ast.BasicLit:
		if e.Kind == token.STRING {
			s, err := strconv.Unquote(e.Value)
			return s, err == nil
		}
	case *ast.BinaryExpr:
		if e.Op != token.ADD {
			return "", false
		}
		left, l := putTogether(e.X, known)
		right, r := putTogether(e.Y, known)
		if !l && !r {
			return "", false
		}
		for _, side := range []struct {
			e     ast.Expr
			text  *string
			known bool
		}{{e.X, &left, l}, {e.Y, &right, r}} {
			if side.known {
				continue
			}
			*side.text = "one"
			if id, ok := side.e.(*ast.Ident); ok && known[id.Name] != "" {
				*side.text = known[id.Name]
			}
		}
		if !l && right != "" && right[0] >= 'A' && right[0] <= 'Z' {
			left += ". " // what is worked out is a sentence of its own
		}
		return left + right, true
	case *ast.ParenExpr:
		return putTogether(e.X, known)
	}
	return "", false
}
