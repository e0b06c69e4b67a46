package lean

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
)

// The sections of a WebAssembly module that are looked into here.
const (
	sectionCustom   = 0
	sectionType     = 1
	sectionImport   = 2
	sectionFunction = 3
	sectionStart    = 8
	sectionElement  = 9
	sectionCode     = 10
	sectionData     = 11
)

var magic = []byte("\x00asm\x01\x00\x00\x00")

// A section is one part of a module, as it lies in the file.
type section struct {
	id   byte
	body []byte
}

var errTorn = errors.New("the module ends too early")

// sections takes a module apart.
func sections(module []byte) ([]section, error) {
	rest, ok := bytes.CutPrefix(module, magic)
	if !ok {
		return nil, errors.New("this is no WebAssembly module")
	}
	var found []section
	r := reader{rest: rest}
	for len(r.rest) > 0 {
		id := r.byte()
		found = append(found, section{id, r.take(r.uint())})
	}
	return found, r.err()
}

// join puts a module together again.
func join(parts []section) []byte {
	out := bytes.Clone(magic)
	for _, s := range parts {
		out = append(out, s.id)
		out = binary.AppendUvarint(out, uint64(len(s.body)))
		out = append(out, s.body...)
	}
	return out
}

// A reader reads the numbers of a module; what is missing is zero, and told by err.
type reader struct {
	rest []byte
	torn bool
}

func (r *reader) err() error {
	if r.torn {
		return errTorn
	}
	return nil
}

func (r *reader) take(n uint64) []byte {
	if n > uint64(len(r.rest)) {
		r.torn, r.rest = true, nil
		return nil
	}
	taken := r.rest[:n:n]
	r.rest = r.rest[n:]
	return taken
}

func (r *reader) byte() byte {
	if b := r.take(1); len(b) == 1 {
		return b[0]
	}
	return 0
}

func (r *reader) uint() uint64 {
	v, n := binary.Uvarint(r.rest)
	if n <= 0 {
		r.torn, r.rest = true, nil
		return 0
	}
	r.rest = r.rest[n:]
	return v
}

// sint reads a number that may be negative (signed LEB128, which is not encoding/binary's own).
func (r *reader) sint() int64 {
	var v int64
	for shift := uint(0); shift < 64; shift += 7 {
		b := r.byte()
		v |= int64(b&0x7f) << shift
		if b&0x80 == 0 {
			if b&0x40 != 0 && shift+7 < 64 {
				v |= -1 << (shift + 7)
			}
			return v
		}
	}
	r.torn = true
	return 0
}

func appendSint(out []byte, v int64) []byte {
	for {
		b := byte(v & 0x7f)
		v >>= 7
		if v == 0 && b&0x40 == 0 || v == -1 && b&0x40 != 0 {
			return append(out, b)
		}
		out = append(out, b|0x80)
	}
}

// WebAssembly's words that are written or expected here.
const (
	opEnd      = 0x0b
	opCall     = 0x10
	opI32Const = 0x41
)

// mostMemory bounds what a damaged module can make us set aside.
const mostMemory = 1 << 28

// memory is what the data segments make of the program's memory: byte i lies at address i.
func memory(data []byte) ([]byte, error) {
	var image []byte
	r := reader{rest: data}
	for n := r.uint(); n > 0 && !r.torn; n-- {
		if kind, op := r.uint(), r.byte(); kind != 0 || op != opI32Const {
			return nil, errors.New("a data segment that does not lie at a fixed place")
		}
		at := r.sint()
		if end := r.byte(); end != opEnd {
			return nil, errors.New("a data segment whose place is computed")
		}
		body := r.take(r.uint())
		if at < 0 || at+int64(len(body)) > mostMemory {
			return nil, fmt.Errorf("a data segment at %d", at)
		}
		if missing := int(at) + len(body) - len(image); missing > 0 {
			image = append(image, make([]byte, missing)...)
		}
		copy(image[at:], body)
	}
	return image, r.err()
}

// gap is how many zero bytes are left out between two data segments: fewer cost less than another segment does, once they are compressed.
const gap = 256

// segments is the data section for a memory: one segment for each stretch between long gaps of zeros.
func segments(image []byte) []byte {
	var body []byte
	count := uint64(0)
	for at := 0; ; {
		for at < len(image) && image[at] == 0 {
			at++
		}
		if at == len(image) {
			break
		}
		end, zeros := at, 0
		for i := at; i < len(image) && zeros < gap; i++ {
			zeros++
			if image[i] != 0 {
				end, zeros = i+1, 0
			}
		}
		body = append(body, 0, opI32Const)
		body = appendSint(body, int64(at))
		body = append(body, opEnd)
		body = binary.AppendUvarint(body, uint64(end-at))
		body = append(body, image[at:end]...)
		count++
		at = end
	}
	return append(binary.AppendUvarint(nil, count), body...)
}
