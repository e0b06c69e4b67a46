//go:build !wasm

package main

import (
	"log"
	"net/http"
	"os"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// serve hands the app out as go-app does by itself, with its own worker, script and page, at the address that is given; the program and an icon
// lie in the folder web.
func serve() {
	log.Fatal(http.ListenAndServe(os.Args[1], &app.Handler{Name: "Least", Icon: app.Icon{Default: "/web/icon.png", Large: "/web/icon.png", Maskable: "/web/icon.png", SVG: "/web/icon.png"}}))
}
