//go:build js && wasm

// Gapwright is the program that runs in the browser.
package main

import (
	"runtime/debug"
	"strings"
	"syscall/js"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"gapwright/app/view"
)

func main() {
	// The names of functions are not in the program that is sent (app/lean): a trace says by numbers where it was, for lean -trace to read.
	debug.SetTraceback("system")
	if js.Global().Get("document").IsUndefined() { // the thread beside the page
		view.Rehearse()
		return
	}
	debug.SetGCPercent(300) // our own choice, no source: a tap waits for the collector, and there is room
	// One component answers every address and reads the place from it; this page's own may be one that nobody knows. A pattern for all of them would
	// have to be worked out before anything is drawn.
	here := "/" + strings.TrimPrefix(strings.TrimPrefix(app.Window().URL().Path, app.Getenv("GOAPP_ROOT_PREFIX")), "/")
	for _, place := range append(view.Places(), view.Place(here)) {
		app.Route(string(place), view.New)
	}
	app.RunWhenOnBrowser()
}
