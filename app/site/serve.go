package site

import (
	"compress/gzip"
	"net/http"
	"slices"
	"strconv"
	"strings"
	"sync"
)

// Handler serves a site the way a host should: with its policy as headers, and every file checked by its hash before it is sent again.
// Files are compressed in the background; until one is ready it goes out as it is.
func Handler(s Site) http.Handler {
	h := &handler{site: s, small: map[string]*sync.Map{}}
	for _, encoding := range encodings {
		h.small[encoding.name] = &sync.Map{}
	}
	go h.compress()
	return h
}

type handler struct {
	site  Site
	small map[string]*sync.Map // by encoding: address -> []byte
}

// quickBrotli takes some seconds for the program, where the best takes half a minute for an eighth less.
const quickBrotli = 5

// encodings are those that a browser may take, the smallest first.
var encodings = []struct {
	name  string
	small func(body []byte) []byte
}{
	{"br", func(body []byte) []byte { return brotlied(body, quickBrotli) }},
	{"gzip", func(body []byte) []byte { return gzipped(body, gzip.DefaultCompression) }},
}

func (h *handler) compress() {
	for _, encoding := range slices.Backward(encodings) { // gzip is ready soonest
		for address, file := range h.site.Files {
			if file.Type == "image/png" {
				continue
			}
			if small := encoding.small(file.Body); len(small) < len(file.Body) {
				h.small[encoding.name].Store(address, small)
			}
		}
	}
}

// smallest is a file as small as the browser may be given it by now.
func (h *handler) smallest(address, accepted string) (body []byte, encoding string) {
	for _, encoding := range encodings {
		if small, ready := h.small[encoding.name].Load(address); ready && accepts(accepted, encoding.name) {
			return small.([]byte), encoding.name
		}
	}
	return h.site.Files[address].Body, ""
}

// accepts tells whether an Accept-Encoding header names an encoding, and not to refuse it (RFC 9110, 12.5.3).
func accepts(header, encoding string) bool {
	for part := range strings.SplitSeq(header, ",") {
		name, weight, _ := strings.Cut(part, ";")
		if strings.EqualFold(strings.TrimSpace(name), encoding) {
			q, err := strconv.ParseFloat(strings.TrimPrefix(strings.TrimSpace(weight), "q="), 64)
			return err != nil || q > 0
		}
	}
	return false
}

// headers go with every answer. A phone needs none of the sensors and payment ways that a page might ask for, only the lit screen,
// and the camera for whoever taps to read a code.
var headers = map[string]string{
	"Content-Security-Policy":           Policy + "; frame-ancestors 'none'",
	"X-Content-Type-Options":            "nosniff",
	"X-Frame-Options":                   "DENY",
	"X-Permitted-Cross-Domain-Policies": "none",
	"Referrer-Policy":                   "no-referrer",
	"Cross-Origin-Opener-Policy":        "same-origin",
	"Cross-Origin-Resource-Policy":      "same-origin",
	"Cache-Control":                     "no-cache",
	"Permissions-Policy": "accelerometer=(), camera=(self), display-capture=(), geolocation=(), gyroscope=(), hid=(), magnetometer=(), " +
		"microphone=(), midi=(), payment=(), serial=(), usb=(), screen-wake-lock=(self)",
}

func (h *handler) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	for name, value := range headers {
		w.Header().Set(name, value)
	}
	if r.TLS != nil { // over a plain connection it would mean nothing
		w.Header().Set("Strict-Transport-Security", "max-age=31536000")
	}
	if r.Method != http.MethodGet && r.Method != http.MethodHead {
		w.Header().Set("Allow", "GET, HEAD")
		http.Error(w, http.StatusText(http.StatusMethodNotAllowed), http.StatusMethodNotAllowed)
		return
	}
	address, inside := strings.CutPrefix(r.URL.Path, h.site.Prefix)
	if !inside {
		http.NotFound(w, r)
		return
	}
	file, found := h.site.Files[address]
	if !found {
		if _, page := h.site.Files[address+"/"]; page {
			to := *r.URL
			to.Path += "/"
			http.Redirect(w, r, to.RequestURI(), http.StatusMovedPermanently)
			return
		}
		http.NotFound(w, r)
		return
	}
	// Weak, as the same tag stands for the file compressed and not.
	tag := `W/"` + file.Hash[:32] + `"`
	w.Header().Set("ETag", tag)
	w.Header().Set("Vary", "Accept-Encoding")
	if r.Header.Get("If-None-Match") == tag {
		w.WriteHeader(http.StatusNotModified)
		return
	}
	body, encoding := h.smallest(address, r.Header.Get("Accept-Encoding"))
	if encoding != "" {
		w.Header().Set("Content-Encoding", encoding)
	}
	w.Header().Set("Content-Type", file.Type)
	w.Header().Set("Content-Length", strconv.Itoa(len(body)))
	if r.Method == http.MethodGet {
		w.Write(body) // an error here is the browser going away
	}
}
