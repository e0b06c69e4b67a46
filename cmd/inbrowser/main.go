// Inbrowser runs a Go program that was compiled to WebAssembly in Chromium, with its output here and the files of this computer to
// read: `GOOS=js GOARCH=wasm go test -exec inbrowser ./geometry`. So the tests run in the engine that the app runs in.
package main

import (
	_ "embed"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"

	"github.com/chromedp/chromedp"

	"gapwright/app/phone"
)

//go:embed run.js
var script []byte

func main() {
	if len(os.Args) < 2 {
		fmt.Fprintln(os.Stderr, "usage: inbrowser program.wasm [arguments]")
		os.Exit(2)
	}
	code, err := run(os.Args[1], os.Args[2:])
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	os.Exit(code)
}

func run(program string, arguments []string) (int, error) {
	folder, err := os.Getwd()
	if err != nil {
		return 0, err
	}
	// What go test would write to keep its cache cannot be written from there.
	var kept []string
	for _, argument := range arguments {
		if !strings.HasPrefix(argument, "-test.testlogfile=") {
			kept = append(kept, argument)
		}
	}
	ended := make(chan int, 1)
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return 0, err
	}
	go http.Serve(listener, routes(program, folder, kept, ended))

	profile, err := os.MkdirTemp("", "inbrowser")
	if err != nil {
		return 0, err
	}
	defer os.RemoveAll(profile)
	tab, stop, err := phone.Browser(profile, func(any) {})
	if err != nil {
		return 0, err
	}
	defer stop()
	if err := chromedp.Do(tab, chromedp.Navigate("http://"+listener.Addr().String()+"/")); err != nil {
		return 0, err
	}
	select {
	case code := <-ended:
		return code, nil
	case <-tab.Done():
		return 0, tab.Err()
	}
}

func routes(program, folder string, arguments []string, ended chan<- int) http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /{$}", func(w http.ResponseWriter, r *http.Request) {
		io.WriteString(w, "<!doctype html><title>Tests</title><link rel=icon href=data:,><script src=/run.js></script>")
	})
	mux.HandleFunc("GET /run.js", func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Content-Type", "text/javascript; charset=utf-8")
		w.Write(script)
	})
	mux.HandleFunc("GET /wasm_exec.js", func(w http.ResponseWriter, r *http.Request) {
		http.ServeFile(w, r, filepath.Join(goroot(), "lib", "wasm", "wasm_exec.js"))
	})
	mux.HandleFunc("GET /program.wasm", func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Content-Type", "application/wasm")
		http.ServeFile(w, r, program)
	})
	mux.HandleFunc("GET /task", func(w http.ResponseWriter, r *http.Request) {
		json.NewEncoder(w).Encode(map[string]any{"folder": folder, "args": append([]string{}, arguments...)})
	})
	mux.HandleFunc("GET /stat", func(w http.ResponseWriter, r *http.Request) {
		info, err := os.Stat(r.FormValue("path"))
		if err != nil {
			http.Error(w, err.Error(), http.StatusNotFound)
			return
		}
		json.NewEncoder(w).Encode(map[string]any{"size": info.Size(), "folder": info.IsDir()})
	})
	mux.HandleFunc("GET /list", func(w http.ResponseWriter, r *http.Request) {
		entries, err := os.ReadDir(r.FormValue("path"))
		if err != nil {
			http.Error(w, err.Error(), http.StatusNotFound)
			return
		}
		names := []string{}
		for _, entry := range entries {
			names = append(names, entry.Name())
		}
		json.NewEncoder(w).Encode(names)
	})
	mux.HandleFunc("GET /read", func(w http.ResponseWriter, r *http.Request) {
		body, err := os.ReadFile(r.FormValue("path"))
		if err != nil {
			http.Error(w, err.Error(), http.StatusNotFound)
			return
		}
		w.Header().Set("Content-Type", "application/octet-stream")
		w.Write(body)
	})
	mux.HandleFunc("POST /write", func(w http.ResponseWriter, r *http.Request) { io.Copy(os.Stdout, r.Body) })
	mux.HandleFunc("POST /exit", func(w http.ResponseWriter, r *http.Request) {
		text, _ := io.ReadAll(r.Body)
		code, err := strconv.Atoi(string(text))
		if err != nil {
			code = 1
		}
		ended <- code
	})
	return mux
}

// goroot is the folder of the Go that built the program: go test says it, runtime knows it otherwise.
func goroot() string {
	if root := os.Getenv("GOROOT"); root != "" {
		return root
	}
	return runtime.GOROOT()
}
