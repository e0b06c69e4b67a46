package site

import (
	"bytes"
	"cmp"
	"errors"
	"html/template"
	"slices"
	"strings"

	"golang.org/x/net/html"

	"gapwright/app/words"
	"gapwright/web"
)

// frame is what every page has around what the app renders.
type frame struct {
	Prefix, Policy, Styles, Script string
}

var pageTemplate = template.Must(template.ParseFS(web.Files, "page.html"))

// page takes the title and the root element out of a page that go-app rendered and puts them into our own frame: go-app's own head
// names addresses of a domain that there is not, and its loader covers the page.
func (f frame) page(rendered []byte) ([]byte, error) {
	title, root, err := parts(rendered)
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	err = pageTemplate.Execute(&b, struct {
		frame
		Title                                                     string
		Root                                                      template.HTML // rendered and escaped already
		Lang, Direction, Description, Light, Dark                 string
		Loading, Stopped, LoadFailed, CannotRun, NoScript, Reload string
	}{
		f, title, root,
		words.Language(), words.Direction(), words.AppDescription(), hexColour(paper), hexColour(night),
		words.Loading(), words.Stopped(), words.LoadFailed(), words.CannotRun(), words.NoScript(), words.Reload(),
	})
	return b.Bytes(), err
}

// parts returns the title of a page and what is in its body besides go-app's loader. Attributes come out in the order of their names:
// go-app writes them in a different order each time, and the same app must always give the same files.
func parts(rendered []byte) (title string, root template.HTML, err error) {
	document, err := html.Parse(bytes.NewReader(rendered))
	if err != nil {
		return "", "", err
	}
	var body *html.Node
	for node := range document.Descendants() {
		if node.Type != html.ElementNode {
			continue
		}
		slices.SortFunc(node.Attr, func(a, b html.Attribute) int { return cmp.Compare(a.Key, b.Key) })
		switch {
		case node.Data == "title" && node.FirstChild != nil && title == "":
			title = node.FirstChild.Data
		case node.Data == "body":
			body = node
		}
	}
	if body == nil {
		return "", "", errors.New("the app rendered a page without a body")
	}
	var b strings.Builder
	for node := range body.ChildNodes() {
		if slices.Contains(node.Attr, html.Attribute{Key: "id", Val: "app-wasm-loader"}) {
			continue
		}
		if err := html.Render(&b, node); err != nil {
			return "", "", err
		}
	}
	return title, template.HTML(strings.TrimSpace(b.String())), nil
}
