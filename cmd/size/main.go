// Size tells how large a program is, as it is and compressed for the wire, beside the smallest that there can be.
package main

import (
	"bytes"
	"fmt"
	"log"
	"os"
	"sync"

	"github.com/andybalholm/brotli"
)

// goal is how much larger than the smallest the program may become, raw or compressed.
const goal = 1.35

func main() {
	log.SetFlags(0)
	if len(os.Args) != 3 {
		log.Fatal("usage: size least.wasm app.wasm")
	}
	var raw, small [2]int
	var work sync.WaitGroup
	for i, name := range os.Args[1:] {
		body, err := os.ReadFile(name)
		if err != nil {
			log.Fatal(err)
		}
		raw[i] = len(body)
		work.Go(func() {
			var b bytes.Buffer
			w := brotli.NewWriterLevel(&b, brotli.BestCompression)
			w.Write(body) // a bytes.Buffer takes everything
			w.Close()
			small[i] = b.Len()
		})
	}
	work.Wait()
	fmt.Printf("%-8s %12s %12s\n", "", "raw", "brotli-11")
	fmt.Printf("%-8s %12d %12d\n", "least", raw[0], small[0])
	fmt.Printf("%-8s %12d %12d\n", "ours", raw[1], small[1])
	fmt.Printf("%-8s %12.3f %12.3f   (goal: at most %.2f)\n", "ratio", ratio(raw), ratio(small), goal)
}

func ratio(sizes [2]int) float64 { return float64(sizes[1]) / float64(sizes[0]) }
