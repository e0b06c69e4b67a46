package lean

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"slices"
	"strings"
)

// What follows is how Go 1.26 lays out the tables by which a program knows its own functions: runtime/symtab.go (pcHeader, moduledata),
// runtime/runtime2.go (_func), runtime/symtabinl.go (inlinedCall), internal/abi/symtab.go, and cmd/link/internal/ld/pcln.go, which writes
// them. Each place is checked against another before it is believed.
const (
	knownGo = "go1.26"

	firstFunction = 0x1000 // the number of the first function

	headerMagic = 0xfffffff1
	headerSize  = 72
	funcSize    = 44

	// Where the fields of a function's record lie.
	fieldName      = 4
	fieldSP        = 16
	fieldFile      = 20
	fieldLine      = 24
	fieldPlaces    = 28 // how many tables by place follow the record
	fieldUnit      = 32
	fieldStartLine = 36
	fieldID        = 40
	fieldTables    = 43 // how many other tables follow those

	// Tables by place: a number for each place in the function where it may be resumed.
	placeUnsafe  = 0 // where a signal may not stop it; a browser sends none
	placeInlined = 2
	placeArgs    = 3

	// Other tables.
	tableInlined = 3
	tableArgs    = 5
	tableWrapped = 7
	noTable      = ^uint32(0)

	inlinedSize = 16

	idWrapper = 23
)

// kept are the functions whose names the runtime asks for by name: two whose arguments the garbage collector finds in its own way, and
// the line that a trace draws between a panic and what ran because of it.
var kept = []string{"reflect.makeFuncStub", "reflect.methodValueCall", "runtime.gopanic"}

// All others share two names. The runtime asks whether a function is its own, and takes a method's name apart at its brackets.
const (
	anyRuntime = "runtime.?"
	anyOther   = "?.(*?).?"
)

// tables are the places in memory where those of the program lie.
type tables struct {
	m      image
	nfunc  int
	names  span
	units  span
	files  span
	places span
	funcs  span // begins with a line for each function: its number, and where in the span its record is
	find   int  // from here to the end is the table that leads from a place to a function
	end    int
	data   span // the other tables
}

// A span is from one address up to another.
type span struct{ from, to int }

func (s span) size() int { return s.to - s.from }

// An image is the program's memory as it is at the start.
type image []byte

func (m image) u32(at int) uint32       { return binary.LittleEndian.Uint32(m[at:]) }
func (m image) set(at int, v uint32)    { binary.LittleEndian.PutUint32(m[at:], v) }
func (m image) address(at int) int      { return int(binary.LittleEndian.Uint64(m[at:])) }
func (m image) blank(s span)            { clear(m[s.from:s.to]) }
func (m image) has(from, size int) bool { return from >= 0 && size >= 0 && from+size <= len(m) }

// text is the name that begins at an address.
func (m image) text(at int) string {
	end := bytes.IndexByte(m[at:], 0)
	return string(m[at : at+end])
}

var header = []byte{headerMagic & 0xff, 0xff, 0xff, 0xff, 0, 0, 1, 8}

// find looks for the tables: a header that says where they are, and the runtime's own record of them, which has to say the same.
func find(m image) (tables, error) {
	begin := bytes.Index(m, header)
	if begin < 0 || !m.has(begin, headerSize) {
		return tables{}, errors.New("no function tables")
	}
	if bytes.Contains(m[begin+1:], header) {
		return tables{}, errors.New("two headers of function tables")
	}
	t := tables{m: m, nfunc: m.address(begin + 8)}

	mark := binary.LittleEndian.AppendUint64(nil, uint64(begin))
	mark = binary.LittleEndian.AppendUint64(mark, uint64(begin+m.address(begin+32)))
	record := bytes.Index(m, mark)
	const fields = 8 + 6*24 + 23*8
	if record < 0 || !m.has(record, fields) {
		return tables{}, errors.New("the runtime has no record of its function tables")
	}
	slice := func(i, size int) span {
		at := record + 8 + 24*i
		from := m.address(at)
		return span{from, from + m.address(at+8)*size}
	}
	t.names, t.units, t.files, t.places, t.funcs = slice(0, 1), slice(1, 4), slice(2, 1), slice(3, 1), slice(4, 1)
	lines := slice(5, 8)
	single := func(i int) int { return m.address(record + 8 + 6*24 + 8*i) }
	t.find, t.end = single(0), single(22)
	t.data = span{single(21), t.find}

	order := []span{t.names, t.units, t.files, t.places, t.funcs, t.data, {t.find, t.end}}
	for i, s := range order {
		offset := 32 + 8*i
		switch {
		case s.size() < 0 || !m.has(s.from, s.size()):
			return tables{}, errors.New("a function table outside the memory")
		case i < 5 && s.from != begin+m.address(begin+offset):
			return tables{}, errors.New("header and record of the function tables differ")
		case i > 0 && s.from < order[i-1].to:
			return tables{}, errors.New("function tables that overlap")
		}
	}
	if lines.from != t.funcs.from || lines.size() != 8*(t.nfunc+1) || lines.to > t.funcs.to+8 {
		return tables{}, errors.New("another number of functions than the header says")
	}
	for i := range t.nfunc {
		if f := t.function(i); m.u32(t.funcs.from+8*i) != firstFunction+uint32(i) || m.u32(f) != firstFunction+uint32(i) || f+funcSize > t.funcs.to {
			return tables{}, fmt.Errorf("function %d is not where it should be", i)
		}
	}
	return t, t.regular()
}

// function is the address of a function's record.
func (t tables) function(i int) int { return t.funcs.from + int(t.m.u32(t.funcs.from+8*i+4)) }

// named is the number of the function with that name, or -1.
func (t tables) named(name string) int {
	for i := range t.nfunc {
		if t.m.text(t.names.from+int(t.m.u32(t.function(i)+fieldName))) == name {
			return i
		}
	}
	return -1
}

// strip takes out of the tables what only a printed trace needs: names, files and lines, arguments, and what was inlined where, except
// in functions where that decides whether a recover counts; recovers tells those. What is left lies closer together.
func (t tables) strip(recovers func(function int) bool) {
	m := t.m

	names := []byte{0}
	places := newPlaces(m[t.places.from:t.places.to])
	starts := map[string]uint32{}
	rename := func(offset uint32) uint32 {
		name := m.text(t.names.from + int(offset))
		switch {
		case slices.Contains(kept, name):
		case strings.HasPrefix(name, "runtime."):
			name = anyRuntime
		default:
			name = anyOther
		}
		start, known := starts[name]
		if !known {
			start = uint32(len(names))
			starts[name] = start
			names = append(append(names, name...), 0)
		}
		return start
	}

	records := make([]byte, 8*t.nfunc+4)
	all, needed := map[int]bool{}, map[int]bool{} // the other tables, by where they begin
	inlined := map[int]int{}                      // how many lines those of inlined calls have at least
	for i := range t.nfunc {
		f := t.function(i)
		record := image(bytes.Clone(m[f : f+funcSize]))
		record.set(fieldName, rename(record.u32(fieldName)))
		record.set(fieldSP, places.keep(record.u32(fieldSP)))
		for _, field := range []int{fieldFile, fieldLine, fieldUnit, fieldStartLine} {
			record.set(field, 0)
		}

		var byPlace, other []uint32
		at := f + funcSize
		for range m.u32(f + fieldPlaces) {
			byPlace = append(byPlace, m.u32(at))
			at += 4
		}
		for range m[f+fieldTables] {
			other = append(other, m.u32(at))
			at += 4
		}
		inlines := len(other) > tableInlined && other[tableInlined] != noTable
		keepInlined := inlines && (m[f+fieldID] == idWrapper || recovers(i))
		for j, offset := range byPlace {
			if j == placeUnsafe || j == placeArgs || j == placeInlined && !keepInlined {
				byPlace[j] = 0
				continue
			}
			byPlace[j] = places.keep(offset)
			if j == placeInlined {
				from := int(other[tableInlined])
				inlined[from] = max(inlined[from], 1+places.largest(offset))
			}
		}
		for j, offset := range other {
			if offset == noTable {
				continue
			}
			all[int(offset)] = true
			if j >= tableArgs && j <= tableWrapped || j == tableInlined && !keepInlined {
				other[j] = noTable
				continue
			}
			needed[int(offset)] = true
		}
		byPlace = trim(byPlace, 0)
		other = trim(other, noTable)
		record.set(fieldPlaces, uint32(len(byPlace)))
		record[fieldTables] = byte(len(other))

		image(records).set(8*i, firstFunction+uint32(i))
		image(records).set(8*i+4, uint32(len(records)))
		records = append(records, record...)
		for _, offset := range slices.Concat(byPlace, other) {
			records = binary.LittleEndian.AppendUint32(records, offset)
		}
	}
	image(records).set(8*t.nfunc, m.u32(t.funcs.from+8*t.nfunc))

	for from, lines := range inlined {
		for line := t.data.from + from; lines > 0; lines-- {
			m.set(line+4, rename(m.u32(line+4)))
			m.set(line+12, 0)
			line += inlinedSize
		}
	}
	begins := make([]int, 0, len(all))
	for begin := range all {
		begins = append(begins, begin)
	}
	slices.Sort(begins)
	for i, begin := range begins {
		if !needed[begin] {
			end := t.data.size()
			if i+1 < len(begins) {
				end = begins[i+1]
			}
			m.blank(span{t.data.from + begin, t.data.from + end})
		}
	}
	for _, part := range []struct {
		span
		body []byte
	}{{t.names, names}, {t.units, nil}, {t.files, nil}, {t.places, places.out}, {t.funcs, records}} {
		m.blank(part.span)
		copy(m[part.from:part.to], part.body)
	}
}

// trim takes what says nothing off the end.
func trim(list []uint32, nothing uint32) []uint32 {
	for len(list) > 0 && list[len(list)-1] == nothing {
		list = list[:len(list)-1]
	}
	return list
}

// places gathers the tables by place that are still needed.
type places struct {
	in, out []byte
	moved   map[uint32]uint32
}

func newPlaces(in []byte) *places { return &places{in, []byte{0}, map[uint32]uint32{0: 0}} }

// keep takes over the table at an offset and returns its new offset; 0 stands for none.
func (p *places) keep(offset uint32) uint32 {
	to, done := p.moved[offset]
	if !done {
		to = uint32(len(p.out))
		p.moved[offset] = to
		p.out = append(p.out, p.in[offset:p.read(offset, func(int, int) {})]...)
	}
	return to
}

// read tells each number of a table with the place up to which it holds, and returns where the table ends: pairs of a change and of how
// far it holds, until a change of none that is not the first.
func (p *places) read(offset uint32, tell func(value, until int)) int {
	at, value, until := int(offset), -1, 0
	for first := true; ; first = false {
		change, n := binary.Uvarint(p.in[at:])
		at += n
		if change == 0 && !first {
			return at
		}
		value += int(int32(-(change & 1) ^ change>>1))
		steps, n := binary.Uvarint(p.in[at:])
		at += n
		until += int(steps)
		tell(value, until)
	}
}

func (p *places) largest(offset uint32) int {
	most := -1
	if offset != 0 {
		p.read(offset, func(value, _ int) { most = max(most, value) })
	}
	return most
}

// at is the number that a table gives a place, or -1.
func (p *places) at(offset uint32, place int) int {
	found, from := -1, 0
	if offset != 0 {
		p.read(offset, func(value, until int) {
			if place >= from && place < until {
				found = value
			}
			from = until
		})
	}
	return found
}
