// Site writes the app as a folder of files for any static host.
package main

import (
	"flag"
	"fmt"
	"log"
	"os"
	"strings"

	"gapwright/app/site"
)

func main() {
	log.SetFlags(0)
	wasm := flag.String("wasm", "build/app.wasm", "the program, built from cmd/gapwright")
	prefix := flag.String("prefix", "", "the folder on the host that the site is served from, such as /folder")
	out := flag.String("out", "build/site", "the folder to write to")
	quick := flag.Bool("quick", false, "compress in a moment and not as small, for trying the site out")
	flag.Parse()

	program, err := os.ReadFile(*wasm)
	if err != nil {
		log.Fatal(err)
	}
	built, err := site.Build(site.Options{Wasm: program, Prefix: strings.TrimSuffix(*prefix, "/"), PolicyInPage: true})
	if err != nil {
		log.Fatal(err)
	}
	if err := site.Write(built, *out, *quick); err != nil {
		log.Fatal(err)
	}
	fmt.Printf("version %s is in %s, for %s/ on a host\n", built.Version, *out, built.Prefix)
}
