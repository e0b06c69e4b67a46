//go:build js && wasm

// Gapwright is the program that runs in the browser.
package main

import (
	"runtime/debug"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"gapwright/app/view"
)

func main() {
	// The names of functions are not in the program that is sent (app/lean): a trace says by numbers where it was, for lean -trace to read.
	debug.SetTraceback("system")
	debug.SetGCPercent(300) // a tap waits for the collector, and there is room
	// One component answers every address and reads the place from it: a route per place would only repeat view.Places.
	app.RouteWithRegexp("^/", view.New)
	app.RunWhenOnBrowser()
}
