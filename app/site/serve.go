package site

import (
	"compress/gzip"
	"net/http"
	"strconv"
	"strings"
	"sync"
)

// Handler serves a site the way a host should: with its policy as headers, and every file checked by its hash before it is sent again.
// Files are compressed in the background; until one is ready it goes out as it is.
func Handler(s Site) http.Handler {
	h := &handler{site: s}
	go h.compress()
	return h
}

type handler struct {
	site    Site
	gzipped sync.Map // address -> []byte
}

func (h *handler) compress() {
	for address, file := range h.site.Files {
		if file.Type == "image/png" {
			continue
		}
		if small := gzipped(file.Body, gzip.DefaultCompression); len(small) < len(file.Body) {
			h.gzipped.Store(address, small)
		}
	}
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
	body := file.Body
	if strings.Contains(r.Header.Get("Accept-Encoding"), "gzip") {
		if small, ready := h.gzipped.Load(address); ready {
			body = small.([]byte)
			w.Header().Set("Content-Encoding", "gzip")
		}
	}
	w.Header().Set("Content-Type", file.Type)
	w.Header().Set("Content-Length", strconv.Itoa(len(body)))
	if r.Method == http.MethodGet {
		w.Write(body) // an error here is the browser going away
	}
}
