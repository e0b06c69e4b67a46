//go:build js && wasm

// Gapwright is the program that runs in the browser.
package main

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"gapwright/app/view"
)

func main() {
	// One component answers every address and reads the place from it: a route per place would only repeat view.Places.
	app.RouteWithRegexp("^/", view.New)
	app.RunWhenOnBrowser()
}
