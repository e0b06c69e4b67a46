package site

import (
	"encoding/json"
	"strings"
	"testing"
	"unicode/utf8"
)

// A tap on the home screen leads to a page and shows a picture that the device has, without a network too.
func TestShortcutsLeadToPagesOfTheSite(t *testing.T) {
	for _, prefix := range []string{"", "/folder"} {
		s := build(t, Options{Prefix: prefix})
		var m struct {
			Shortcuts []struct {
				Name  string
				Short string `json:"short_name"`
				URL   string
				Icons []struct{ Src string }
			}
		}
		if err := json.Unmarshal(s.Files["/manifest.webmanifest"].Body, &m); err != nil {
			t.Fatal(err)
		}
		var leads []string
		for _, c := range m.Shortcuts {
			page, inside := strings.CutPrefix(c.URL, prefix)
			if _, is := s.Files[page]; !is || !inside || !strings.HasSuffix(page, "/") || c.Name == "" || c.Short == "" || utf8.RuneCountInString(c.Short) > 12 {
				t.Errorf("%q: %+v", prefix, c)
			}
			if len(c.Icons) == 0 {
				t.Errorf("%s has no picture", c.Name)
			}
			for _, icon := range c.Icons {
				if src, inside := strings.CutPrefix(icon.Src, prefix); !inside || len(s.Files[src].Body) == 0 {
					t.Errorf("%s shows %s", c.Name, icon.Src)
				}
			}
			leads = append(leads, page)
		}
		if got := strings.Join(leads, " "); got != "/check/ /job/" {
			t.Errorf("%q: the shortcuts lead to %s", prefix, got)
		}
	}
}
