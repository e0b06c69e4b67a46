// Size tells how large the program is, as it is and compressed for the wire, beside the smallest that go-app can make: first as each is
// handed out, then with both linked alone and with both made lean.
package main

import (
	"fmt"
	"log"
	"os"
	"sync"

	"gapwright/app/lean"
	"gapwright/app/site"
)

// goal is how much larger than the smallest the program may become on the wire.
const goal = 1.35

type size struct{ raw, small int }

func main() {
	log.SetFlags(0)
	if len(os.Args) != 3 {
		log.Fatal("usage: size least.wasm linked.wasm, both as Go links them")
	}
	var linked, made [2]size
	var work sync.WaitGroup
	for i, name := range os.Args[1:] {
		body, err := os.ReadFile(name)
		if err != nil {
			log.Fatal(err)
		}
		program, err := lean.Program(body)
		if err != nil {
			log.Fatalf("%s: %v", name, err)
		}
		work.Go(func() { linked[i] = measure(body) })
		work.Go(func() { made[i] = measure(program) })
	}
	work.Wait()
	fmt.Printf("%-24s %12s %12s\n", "", "raw", "brotli-11")
	for i, name := range []string{"least", "ours"} {
		fmt.Printf("%-24s %12d %12d\n", name+", linked", linked[i].raw, linked[i].small)
		fmt.Printf("%-24s %12d %12d\n", name+", lean", made[i].raw, made[i].small)
	}
	tell("as each is handed out", made[1], linked[0], fmt.Sprintf("   (goal: at most %.2f, compressed)", goal))
	tell("both linked alone", linked[1], linked[0], "")
	tell("both lean", made[1], made[0], "")
}

func tell(how string, ours, least size, remark string) {
	fmt.Printf("%-24s %12.3f %12.3f%s\n", how, float64(ours.raw)/float64(least.raw), float64(ours.small)/float64(least.small), remark)
}

func measure(body []byte) size { return size{len(body), len(site.Brotli(body))} }
