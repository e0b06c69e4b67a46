package main

import (
	"strings"
	"testing"
)

func TestTally(t *testing.T) {
	for _, row := range []struct {
		name, events string
		want         tally
	}{
		{"nothing", "", tally{}},
		{"one of each", `{"Action":"pass","Package":"p","Test":"A"}
{"Action":"fail","Package":"p","Test":"B"}
{"Action":"skip","Package":"p","Test":"C"}
{"Action":"fail","Package":"p"}
`, tally{1, 1, 1}},
		{"a test that holds two is not a third", `{"Action":"pass","Package":"p","Test":"A/x"}
{"Action":"pass","Package":"p","Test":"A/y"}
{"Action":"pass","Package":"p","Test":"A"}
{"Action":"pass","Package":"p"}
`, tally{2, 0, 0}},
		{"a failure inside is counted once", `{"Action":"pass","Package":"p","Test":"A/x"}
{"Action":"fail","Package":"p","Test":"A/y/z"}
{"Action":"fail","Package":"p","Test":"A/y"}
{"Action":"fail","Package":"p","Test":"A"}
{"Action":"fail","Package":"p"}
`, tally{1, 1, 0}},
		{"a failure of its own is counted", `{"Action":"pass","Package":"p","Test":"A/x"}
{"Action":"fail","Package":"p","Test":"A"}
{"Action":"fail","Package":"p"}
`, tally{1, 1, 0}},
		{"names that only begin alike are apart", `{"Action":"pass","Package":"p","Test":"A"}
{"Action":"pass","Package":"p","Test":"AB/x"}
{"Action":"pass","Package":"p","Test":"AB"}
{"Action":"pass","Package":"p"}
`, tally{2, 0, 0}},
		{"a package that does not build is a failure", `{"ImportPath":"p","Action":"build-output","Output":"x.go:1: no\n"}
{"ImportPath":"p","Action":"build-fail"}
{"Action":"fail","Package":"p","FailedBuild":"p"}
`, tally{0, 1, 0}},
		{"a package that passed and then ran out of time is a failure", `{"Action":"pass","Package":"p","Test":"A"}
{"Action":"output","Package":"p","Test":"B","Output":"panic: test timed out\n"}
{"Action":"fail","Package":"p"}
`, tally{1, 1, 0}},
		{"a package that never ended is a failure", `{"Action":"pass","Package":"p","Test":"A"}
`, tally{0, 1, 0}},
		{"a package without tests is nothing", `{"Action":"skip","Package":"p"}
`, tally{}},
	} {
		t.Run(row.name, func(t *testing.T) {
			var said strings.Builder
			if got := read(strings.NewReader(row.events), &said); got != row.want {
				t.Errorf("read = %+v, want %+v; it said:\n%s", got, row.want, &said)
			}
		})
	}
}

func TestWhatFailedIsTold(t *testing.T) {
	var said strings.Builder
	read(strings.NewReader(`{"Action":"output","Package":"p","Test":"A","Output":"all is well\n"}
{"Action":"pass","Package":"p","Test":"A"}
{"Action":"output","Package":"p","Test":"B","Output":"want 1, got 2\n"}
{"Action":"fail","Package":"p","Test":"B"}
{"Action":"fail","Package":"p"}
`), &said)
	if !strings.Contains(said.String(), "want 1, got 2") || strings.Contains(said.String(), "all is well") {
		t.Errorf("it said:\n%s", &said)
	}
}
