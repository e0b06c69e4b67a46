package site

import (
	"bytes"
	"compress/gzip"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/andybalholm/brotli"
)

func ask(h http.Handler, address string, header ...string) *http.Response {
	r := httptest.NewRequest(http.MethodGet, address, nil)
	for i := 0; i < len(header); i += 2 {
		r.Header.Set(header[i], header[i+1])
	}
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w.Result()
}

func TestAddressesAreAnswered(t *testing.T) {
	h := Handler(build(t, Options{Prefix: "/folder"}))
	for _, row := range []struct {
		address, location string
		code              int
	}{
		{"/folder/", "", 200},
		{"/folder/job/?id=x", "", 200},
		{"/folder", "/folder/", 301},
		{"/folder/job?id=x", "/folder/job/?id=x", 301},
		{"/folder/nowhere/", "", 404},
		{"/folderless/", "", 404},
		{"/", "", 404},
		{"/folder/web/web.go", "", 404},
		{"/folder/web/worker.js", "", 404}, // a template
	} {
		answer := ask(h, row.address)
		if answer.StatusCode != row.code || answer.Header.Get("Location") != row.location {
			t.Errorf("%s: %d %q, want %d %q", row.address, answer.StatusCode, answer.Header.Get("Location"), row.code, row.location)
		}
	}
}

func TestAFileThatIsThereAlreadyIsNotSentAgain(t *testing.T) {
	s := build(t, Options{})
	h := Handler(s)
	tag := ask(h, "/").Header.Get("ETag")
	if got := ask(h, "/", "If-None-Match", tag).StatusCode; got != http.StatusNotModified {
		t.Errorf("with its own tag: %d, want %d", got, http.StatusNotModified)
	}
	if got := ask(h, Start, "If-None-Match", tag).StatusCode; tag == "" || got != http.StatusOK {
		t.Errorf("another file with the tag %q of the first: %d, want %d", tag, got, http.StatusOK)
	}
}

func TestFilesAreCompressedWhenTheyAreReady(t *testing.T) {
	s := build(t, Options{})
	h := Handler(s)
	for accepted, want := range map[string]string{"gzip, br": "br", "br;q=0, gzip;q=0.5": "gzip", "gzip": "gzip"} {
		var answer *http.Response
		for end := time.Now().Add(10 * time.Second); time.Now().Before(end); time.Sleep(time.Millisecond) {
			if answer = ask(h, Start, "Accept-Encoding", accepted); answer.Header.Get("Content-Encoding") == want {
				break
			}
		}
		var reader io.Reader = brotli.NewReader(answer.Body)
		if want == "gzip" {
			var err error
			if reader, err = gzip.NewReader(answer.Body); err != nil {
				t.Fatalf("%q: not compressed after 10 s: %v", accepted, err)
			}
		}
		if body, err := io.ReadAll(reader); err != nil || !bytes.Equal(body, s.Files[Start].Body) {
			t.Errorf("%q: decompressed it is %d bytes (%v), want the %d of the file", accepted, len(body), err, len(s.Files[Start].Body))
		}
	}
	for _, accepted := range []string{"", "identity", "gzip;q=0", "brx"} {
		if got := ask(h, Start, "Accept-Encoding", accepted).Header.Get("Content-Encoding"); got != "" {
			t.Errorf("a browser that asked for %q got %q", accepted, got)
		}
	}
}

func TestAFolderThatHoldsSomethingElseIsKept(t *testing.T) {
	folder := t.TempDir()
	theirs := filepath.Join(folder, "letters.txt")
	if err := os.WriteFile(theirs, []byte("mine"), 0o600); err != nil {
		t.Fatal(err)
	}
	s := build(t, Options{PolicyInPage: true})
	if err := Write(s, folder, true); err == nil {
		t.Error("the site was written over something else")
	}
	if _, err := os.Stat(theirs); err != nil {
		t.Error(err)
	}
	fresh := filepath.Join(folder, "site")
	for range 2 { // a site may be written over a site
		if err := Write(s, fresh, true); err != nil {
			t.Error(err)
		}
	}
}

func TestNoServerIsShippedToAPhone(t *testing.T) {
	list := exec.Command("go", "list", "-deps", "gapwright/cmd/gapwright")
	list.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	out, err := list.Output()
	if err != nil {
		t.Fatal(err)
	}
	within := strings.Fields(string(out))
	if len(within) < 50 {
		t.Fatalf("only %d packages are listed", len(within))
	}
	for _, name := range within {
		for _, server := range []string{"gapwright/app/site", "gapwright/app/phone", "gapwright/web", "github.com/chromedp", "github.com/andybalholm", "golang.org/x/net/html", "testing"} {
			if name == server || strings.HasPrefix(name, server+"/") {
				t.Errorf("the program has %s in it", name)
			}
		}
	}
}
