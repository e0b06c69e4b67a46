// Lean makes the linked program smaller for its way to a browser. With -trace it reads a trace that such a program has printed, and
// says what is where in it.
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"log"
	"os"

	"gapwright/app/lean"
)

func main() {
	log.SetFlags(0)
	trace := flag.Bool("trace", false, "read a trace and write it with the names of functions and lines")
	flag.Usage = func() {
		fmt.Fprint(os.Stderr, "lean linked.wasm program.wasm\nlean -trace linked.wasm < trace.txt\n")
		flag.PrintDefaults()
	}
	flag.Parse()
	if *trace && flag.NArg() != 1 || !*trace && flag.NArg() != 2 {
		flag.Usage()
		os.Exit(2)
	}
	linked, err := os.ReadFile(flag.Arg(0))
	if err != nil {
		log.Fatal(err)
	}
	if *trace {
		said, err := io.ReadAll(os.Stdin)
		if err != nil {
			log.Fatal(err)
		}
		told, err := lean.Explain(linked, string(said))
		if err != nil {
			log.Fatalf("%s: %v", flag.Arg(0), err)
		}
		fmt.Print(told)
		return
	}
	program, err := lean.Program(linked)
	if errors.Is(err, lean.ErrOtherGo) {
		log.Printf("%s: %v; it is handed on as it is, and is larger", flag.Arg(0), err)
		program, err = linked, nil
	}
	if err != nil {
		log.Fatalf("%s: %v", flag.Arg(0), err)
	}
	if err := os.WriteFile(flag.Arg(1), program, 0o644); err != nil {
		log.Fatal(err)
	}
}
