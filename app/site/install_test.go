package site

import (
	"bytes"
	"encoding/json"
	"fmt"
	"image"
	_ "image/png"
	"math"
	"net/url"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"gapwright/app/words"
)

// picture decodes a picture of the site.
func picture(t *testing.T, s Site, address string) image.Image {
	t.Helper()
	p, kind, err := image.Decode(bytes.NewReader(s.Files[address].Body))
	if err != nil || kind != "png" {
		t.Fatalf("%s: %s, %v", address, kind, err)
	}
	return p
}

// Members, values and the checks are those of the W3C's Web Application Manifest and its supplement Manifest App Information.
func TestTheManifestSaysWhatAPhoneAsks(t *testing.T) {
	for _, prefix := range []string{"", "/folder"} {
		s := build(t, Options{Prefix: prefix})
		if got := s.Files["/manifest.webmanifest"].Type; got != "application/manifest+json" {
			t.Errorf("type %q", got)
		}
		type picture struct{ Src, Type, Sizes, Purpose, Label, Form_factor string }
		var m struct {
			ID, Name, Short_name, Description, Lang, Dir, Scope, Start_url, Display, Background_color, Theme_color string
			Categories                                                                                             []string
			Icons, Screenshots                                                                                     []picture
			Shortcuts                                                                                              []struct {
				Name, Short_name, URL string
				Icons                 []picture
			}
		}
		var members map[string]json.RawMessage
		decoder := json.NewDecoder(bytes.NewReader(s.Files["/manifest.webmanifest"].Body))
		decoder.DisallowUnknownFields()
		if err := decoder.Decode(&m); err != nil {
			t.Fatal(err) // a member that this test does not know, among others
		}
		if err := json.Unmarshal(s.Files["/manifest.webmanifest"].Body, &members); err != nil || len(members) != 15 {
			t.Errorf("%d members, %v: each should be looked at here", len(members), err)
		}
		if m.Name == "" || len([]rune(m.Short_name)) > 12 || m.Short_name == "" || len(m.Description) < 20 || m.Lang != words.Language() || m.Dir != "ltr" {
			t.Errorf("it is called %+v", m)
		}
		if m.Scope != prefix+"/" || !strings.HasPrefix(m.Start_url, m.Scope) || m.ID != m.Start_url || m.Display != "standalone" {
			t.Errorf("%q: scope %s, start %s, id %s, display %s", prefix, m.Scope, m.Start_url, m.ID, m.Display)
		}
		known := strings.Fields("books business education entertainment finance fitness food games government health kids lifestyle magazines medical music " +
			"navigation news personalization photo politics productivity security shopping social sports travel utilities weather") // as the W3C lists them
		for _, c := range m.Categories {
			if !slices.Contains(known, c) {
				t.Errorf("category %q", c)
			}
		}
		have := map[string]int{}
		for _, p := range append(slices.Clone(m.Icons), m.Screenshots...) {
			u, err := url.Parse(p.Src)
			file, found := s.Files[strings.TrimPrefix(p.Src, prefix)]
			if err != nil || u.Host != "" || !found || file.Type != p.Type {
				t.Errorf("%s: there %v, type %q, said to be %q", p.Src, found, file.Type, p.Type)
				continue
			}
			if p.Type == "image/png" {
				size, _, err := image.DecodeConfig(bytes.NewReader(file.Body))
				if got := fmt.Sprintf("%dx%d", size.Width, size.Height); err != nil || got != p.Sizes {
					t.Errorf("%s is %s, said to be %s", p.Src, got, p.Sizes)
				}
			}
			have[p.Purpose+" "+p.Sizes]++
		}
		for _, want := range []string{"any any", "any 192x192", "any 512x512", "maskable 192x192", "maskable 512x512", "monochrome 192x192", "monochrome 512x512"} {
			if have[want] != 1 {
				t.Errorf("%d icons for %s", have[want], want)
			}
		}
		if len(m.Screenshots) < 3 || len(m.Shortcuts) != 2 {
			t.Errorf("%d screenshots, %d shortcuts", len(m.Screenshots), len(m.Shortcuts))
		}
		for _, p := range m.Screenshots {
			var w, h float64
			fmt.Sscanf(p.Sizes, "%gx%g", &w, &h)
			// What browsers ask for: each side from 320 to 3840 pixels, the longer at most 2.3 times the shorter, all of one shape.
			if p.Form_factor != "narrow" || p.Label == "" || min(w, h) < 320 || max(w, h) > 3840 || max(w, h) > 2.3*min(w, h) || p.Sizes != m.Screenshots[0].Sizes || w >= h {
				t.Errorf("%+v", p)
			}
			if strings.Contains(string(s.Files[Worker].Body), p.Src) {
				t.Errorf("every device keeps %s", p.Src)
			}
		}
		tokens, err := os.ReadFile("../../web/css/tokens.css")
		if err != nil {
			t.Fatal(err)
		}
		papers := regexp.MustCompile(`--paper: (#[0-9a-f]{6})`).FindAllStringSubmatch(string(tokens), -1)
		if m.Theme_color != papers[0][1] || m.Background_color != papers[0][1] || hexColour(night) != papers[1][1] {
			t.Errorf("theme %s, background %s, in the dark %s; the app's paper is %s and %s", m.Theme_color, m.Background_color, hexColour(night), papers[0][1], papers[1][1])
		}
		for _, want := range []string{
			`<meta name="theme-color" media="(prefers-color-scheme: light)" content="` + papers[0][1] + `">`,
			`<meta name="theme-color" media="(prefers-color-scheme: dark)" content="` + papers[1][1] + `">`,
			`<link rel="apple-touch-icon" href="` + prefix + `/apple-touch-icon.png">`,
			`<link rel="manifest" href="` + prefix + `/manifest.webmanifest">`,
		} {
			if !strings.Contains(string(s.Files[Shell].Body), want) {
				t.Errorf("the page does not say %s", want)
			}
		}
	}
}

// A home screen may cut away all that is further than 40 % of the side from the middle (Web Application Manifest, section on masks), and it must find
// no hole. Of a stencil it takes the opacity alone.
func TestIconsCanBeCutToShape(t *testing.T) {
	s := build(t, Options{})
	for _, f := range iconFiles() {
		p, inked, open, far := picture(t, s, f.address), 0, 0, 0.0
		if p.Bounds() != image.Rect(0, 0, f.side, f.side) {
			t.Errorf("%s is %v", f.address, p.Bounds())
		}
		ground := p.At(0, 0)
		for y := range f.side {
			for x := range f.side {
				_, _, _, alpha := p.At(x, y).RGBA()
				if alpha != 0xffff {
					open++
				}
				if p.At(x, y) == ground {
					continue
				}
				inked++
				for _, corner := range [][2]int{{x, y}, {x + 1, y}, {x, y + 1}, {x + 1, y + 1}} {
					half := float64(f.side) / 2
					far = max(far, math.Hypot(float64(corner[0])-half, float64(corner[1])-half)/float64(f.side))
				}
			}
		}
		share := float64(inked) / float64(f.side*f.side)
		if share < 0.04 || share > 0.5 {
			t.Errorf("%s: %.0f %% of it is drawn on", f.address, 100*share)
		}
		if f.purpose != "any" && f.purpose != "" && far > 0.4 {
			t.Errorf("%s: drawn on as far as %.3f of the side from the middle, want 0.4 at most", f.address, far)
		}
		if _, _, _, a := ground.RGBA(); f.mono != (a == 0) || f.mono != (open > 0) {
			t.Errorf("%s: %d pixels are not opaque", f.address, open)
		}
	}
	if got, want := s.Files["/apple-touch-icon.png"].Hash, s.Files["/icon-192.png"].Hash; got == want {
		t.Error("the icon for Apple's home screen is not of its own size")
	}
}
