package lean

import (
	"encoding/binary"
	"errors"
	"slices"
)

// Part of the tables says nothing new: the number of each function, how far each record is from the first, and which function each
// stretch of places belongs to. That part, a fifth of the whole program, is not sent: a function that runs before anything else writes it.

const (
	stretches   = 16 // how many lines each function has in the table that leads from a place to it
	stretchSize = 20 // the number of the function, and sixteen bytes of 0: no second one begins in the stretch
)

// regular checks that the table from place to function is as it can be written from nothing.
func (t tables) regular() error {
	for i := range t.stretches() {
		at := t.find + stretchSize*i
		if int(t.m.u32(at)) != i/stretches {
			return errors.New("a place that leads to another function than its number says")
		}
		for _, b := range t.m[at+4 : min(at+stretchSize, t.end)] {
			if b != 0 {
				return errors.New("a place that leads to two functions")
			}
		}
	}
	return nil
}

func (t tables) stretches() int { return (t.end - t.find + stretchSize - 1) / stretchSize }

// records is where the first record of a function lies once the tables are stripped.
func (t tables) records() int { return t.funcs.from + 8*t.nfunc + 4 }

// forget blanks what writer writes.
func (t tables) forget() {
	for i := range t.nfunc {
		t.m.set(t.function(i), 0)
	}
	t.m.blank(span{t.funcs.from, t.funcs.from + 8*t.nfunc})
	t.m.blank(span{t.find, t.end})
}

// writer is the body of a function that writes it all again.
func (t tables) writer() []byte {
	const (
		i = 0 // a number that counts
		p = 1 // the address of a record

		void                                 = 0x40
		loop, brIf                           = 0x03, 0x0d
		get, set, tee                        = 0x20, 0x21, 0x22
		load, load8, store                   = 0x28, 0x2d, 0x36
		less, add, sub, mul, shiftRight, i32 = 0x49, 0x6a, 0x6b, 0x6c, 0x76, 0x7f
	)
	number := func(v int) []byte { return appendSint([]byte{opI32Const}, int64(v)) }
	field := func(op byte, align byte, offset int) []byte {
		return binary.AppendUvarint([]byte{op, align}, uint64(offset))
	}
	next := func(end int) []byte { // counts on, and back to the loop's begin until the end
		return slices.Concat([]byte{get, i}, number(1), []byte{add, tee, i}, number(end), []byte{less, brIf, 0, opEnd})
	}
	return slices.Concat(
		[]byte{1, 2, i32}, // two numbers of its own, both 0
		number(t.records()), []byte{set, p},
		[]byte{loop, void},
		// line i: the number of the function, and how far its record is from the first line
		[]byte{get, i}, number(8), []byte{mul, get, i}, number(firstFunction), []byte{add}, field(store, 2, t.funcs.from),
		[]byte{get, i}, number(8), []byte{mul, get, p}, number(t.funcs.from), []byte{sub}, field(store, 2, t.funcs.from+4),
		// the record: the number again
		[]byte{get, p, get, i}, number(firstFunction), []byte{add}, field(store, 2, 0),
		// the next record begins after all the tables of this one
		[]byte{get, p, get, p}, field(load, 2, fieldPlaces), []byte{get, p}, field(load8, 0, fieldTables), []byte{add}, number(4), []byte{mul},
		number(funcSize), []byte{add, add, set, p},
		next(t.nfunc),

		number(0), []byte{set, i},
		[]byte{loop, void},
		[]byte{get, i}, number(stretchSize), []byte{mul, get, i}, number(4), []byte{shiftRight}, field(store, 2, t.find),
		next(t.stretches()),
		[]byte{opEnd},
	)
}

// withStart adds a function that takes and returns nothing, and has it run before anything else.
func withStart(parts []section, body []byte) ([]section, error) {
	var out []section
	var kind, number uint64
	for _, s := range parts {
		r := reader{rest: s.body}
		n := r.uint()
		more := func(entry []byte) section {
			return section{s.id, slices.Concat(binary.AppendUvarint(nil, n+1), r.rest, entry)}
		}
		switch s.id {
		case sectionType:
			kind = n
			s = more([]byte{0x60, 0, 0})
		case sectionImport:
			number += n // nothing but functions comes from outside
		case sectionFunction:
			number += n
			s = more(binary.AppendUvarint(nil, kind))
		case sectionCode:
			s = more(append(binary.AppendUvarint(nil, uint64(len(body))), body...))
		case sectionStart:
			return nil, errors.New("something runs before anything else already")
		case sectionElement:
			out = append(out, section{sectionStart, binary.AppendUvarint(nil, number)})
		}
		if r.torn {
			return nil, errTorn
		}
		out = append(out, s)
	}
	return out, nil
}
