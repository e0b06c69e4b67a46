// Serve hands the app to a browser on this computer.
package main

import (
	"cmp"
	"flag"
	"fmt"
	"log"
	"net"
	"net/http"
	"os"
	"time"

	"gapwright/app/site"
)

func main() {
	log.SetFlags(0)
	wasm := flag.String("wasm", "build/app.wasm", "the program, built from cmd/gapwright")
	prefix := flag.String("prefix", "", "the folder to serve below, such as /folder")
	host := flag.String("host", "127.0.0.1", "the address to listen on; other devices need HTTPS to keep the app offline")
	flag.Parse()

	program, err := os.ReadFile(*wasm)
	if err != nil {
		log.Fatal(err)
	}
	built, err := site.Build(site.Options{Wasm: program, Prefix: *prefix})
	if err != nil {
		log.Fatal(err)
	}
	listener, err := net.Listen("tcp", net.JoinHostPort(*host, cmp.Or(os.Getenv("PORT"), "8080")))
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("Gapwright %s is at http://%s%s/ (Ctrl+C ends it)\n", built.Version, listener.Addr(), built.Prefix)
	server := http.Server{Handler: site.Handler(built), ReadHeaderTimeout: 10 * time.Second}
	log.Fatal(server.Serve(listener))
}
