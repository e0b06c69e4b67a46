package main

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"strings"
)

// A tally counts tests. A test that only holds others is not one itself, unless it fails and none of the others did.
type tally struct{ passed, failed, skipped int }

func (t *tally) add(o tally) {
	t.passed += o.passed
	t.failed += o.failed
	t.skipped += o.skipped
}

// event is one line of `go test -json`.
type event struct {
	Action, Package, ImportPath, Test, Output string
	Elapsed                                   float64
}

// read follows the output of `go test -json`, tells a line per package and everything that a failed test said, and counts.
// A package that fails without a failed test (it did not build, it ran out of time) is one failed test.
func read(from io.Reader, to io.Writer) tally {
	type pack struct {
		outcome map[string]string           // of each test
		said    map[string]*strings.Builder // by each test; "" is the package itself
	}
	packages := make(map[string]*pack)
	var total tally
	lines := bufio.NewReader(from)
	for {
		line, err := lines.ReadBytes('\n')
		if len(line) > 0 {
			var e event
			if json.Unmarshal(line, &e) != nil || e.Action == "" {
				to.Write(line) // the go command itself has something to say
			} else if e.Action == "build-output" {
				io.WriteString(to, e.Output)
			} else if e.Package != "" {
				p := packages[e.Package]
				if p == nil {
					p = &pack{make(map[string]string), make(map[string]*strings.Builder)}
					packages[e.Package] = p
				}
				switch {
				case e.Action == "output":
					if p.said[e.Test] == nil {
						p.said[e.Test] = new(strings.Builder)
					}
					p.said[e.Test].WriteString(e.Output)
				case e.Test != "" && (e.Action == "pass" || e.Action == "fail" || e.Action == "skip"):
					p.outcome[e.Test] = e.Action
					if e.Action != "fail" {
						delete(p.said, e.Test)
					} else if said := p.said[e.Test]; said != nil {
						fmt.Fprintf(to, "%s", said)
					}
				case e.Action == "pass" || e.Action == "fail" || e.Action == "skip":
					count := leaves(p.outcome)
					if e.Action == "fail" && count.failed == 0 {
						count.failed = 1
						for test, said := range p.said { // whatever was going on when it ended
							if p.outcome[test] == "" {
								fmt.Fprintf(to, "%s", said)
							}
						}
					}
					if count != (tally{}) {
						fmt.Fprintf(to, "  %-24s %5d passed, %d failed, %d skipped  %.1f s\n", e.Package, count.passed, count.failed, count.skipped, e.Elapsed)
					}
					total.add(count)
					delete(packages, e.Package)
				}
			}
		}
		if err != nil {
			break
		}
	}
	for name := range packages { // begun and never ended
		fmt.Fprintf(to, "  %s did not end\n", name)
		total.failed++
	}
	return total
}

// leaves counts the outcomes of one package.
func leaves(outcome map[string]string) tally {
	holds := make(map[string]bool)      // tests that hold others
	heldFailed := make(map[string]bool) // and one of those failed
	for test, result := range outcome {
		for {
			slash := strings.LastIndexByte(test, '/')
			if slash < 0 {
				break
			}
			test = test[:slash]
			holds[test] = true
			heldFailed[test] = heldFailed[test] || result == "fail"
		}
	}
	var t tally
	for test, result := range outcome {
		switch {
		case holds[test] && (result != "fail" || heldFailed[test]):
		case result == "pass":
			t.passed++
		case result == "fail":
			t.failed++
		case result == "skip":
			t.skipped++
		}
	}
	return t
}
