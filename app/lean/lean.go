// Package lean makes a program that Go has linked for the browser smaller on its way there, without changing what it does. It joins the
// thousands of pieces in which the linker hands over the program's memory, and takes out what only a printed trace would need: names of
// functions, lines of files, arguments. A panic's own message stays.
//
// It works on the linked file and belongs to the building: it is never part of the program.
package lean

import (
	"bytes"
	"errors"
	"fmt"
)

// ErrOtherGo means that another Go has linked the program than the one whose tables are known: it runs as it is, only larger on its way.
var ErrOtherGo = errors.New("not built by " + knownGo + ", whose function tables are known: see app/lean/tables.go")

// Program returns a linked program that does the same and is smaller when it is compressed. It knows the tables of one version of Go
// and refuses any other (ErrOtherGo), and whatever else is not as it expects.
func Program(linked []byte) (program []byte, err error) {
	// Where a table points outside the memory the search stops by an index out of range: that, too, is a file that is not understood.
	defer func() {
		if wrong := recover(); wrong != nil {
			program, err = nil, fmt.Errorf("the function tables make no sense: %v", wrong)
		}
	}()
	parts, err := sections(linked)
	if err != nil {
		return nil, err
	}
	var m image
	var calls callers
	var out []section
	known := false
	for _, s := range parts {
		switch s.id {
		case sectionCustom: // who made it
			known = known || bytes.Contains(s.body, []byte(knownGo))
			continue
		case sectionData:
			if m, err = memory(s.body); err != nil {
				return nil, err
			}
			continue
		case sectionImport:
			r := reader{rest: s.body}
			calls.imported = r.uint()
		case sectionCode:
			if calls.bodies, err = bodies(s.body); err != nil {
				return nil, err
			}
		}
		out = append(out, s)
	}
	if !known {
		return nil, ErrOtherGo
	}
	t, err := find(m)
	if err != nil {
		return nil, err
	}
	if t.nfunc != len(calls.bodies) {
		return nil, fmt.Errorf("%d functions have code and %d are in the tables", len(calls.bodies), t.nfunc)
	}
	t.strip(calls.of(t.named("runtime.gorecover")))
	t.forget()
	if out, err = withStart(out, t.writer()); err != nil {
		return nil, err
	}
	return join(append(out, section{sectionData, segments(m)})), nil
}

// callers finds out which functions call one of them.
type callers struct {
	imported uint64 // how many functions come from outside: they are numbered first
	bodies   [][]byte
}

// of tells of each function whether it may call the one with that number; now and then a number that looks like the call is taken for it.
func (c callers) of(callee int) func(function int) bool {
	if callee < 0 {
		return func(int) bool { return false }
	}
	call := appendSint([]byte{opCall}, int64(c.imported)+int64(callee))
	return func(function int) bool { return bytes.Contains(c.bodies[function], call) }
}

func bodies(code []byte) ([][]byte, error) {
	r := reader{rest: code}
	var found [][]byte
	for n := r.uint(); n > 0 && !r.torn; n-- {
		found = append(found, r.take(r.uint()))
	}
	return found, r.err()
}
