package lean

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"
)

// linked is the smallest go-app, as Go links it.
var linked = sync.OnceValues(func() ([]byte, error) {
	folder, err := os.MkdirTemp("", "lean")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(folder)
	name := filepath.Join(folder, "least.wasm")
	build := exec.Command("go", "build", "-trimpath", "-ldflags=-s -w", "-o", name, "../../testdata/least")
	build.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	if said, err := build.CombinedOutput(); err != nil {
		os.Stderr.Write(said)
		return nil, err
	}
	return os.ReadFile(name)
})

// both is the program before and after, and the tables as they were.
func both(t *testing.T) (before, after map[byte][]byte, old tables) {
	t.Helper()
	was, err := linked()
	if err != nil {
		t.Fatal(err)
	}
	is, err := Program(was)
	if err != nil {
		t.Fatal(err)
	}
	parts := func(program []byte) map[byte][]byte {
		list, err := sections(program)
		if err != nil {
			t.Fatal(err)
		}
		found := map[byte][]byte{}
		for _, s := range list {
			found[s.id] = s.body
		}
		return found
	}
	before, after = parts(was), parts(is)
	m, err := memory(before[sectionData])
	if err != nil {
		t.Fatal(err)
	}
	if old, err = find(m); err != nil {
		t.Fatal(err)
	}
	return before, after, old
}

// started is the memory of the program after its start function has run, done here by hand.
func started(t *testing.T, data []byte, old tables) tables {
	t.Helper()
	m, err := memory(data)
	if err != nil {
		t.Fatal(err)
	}
	m = append(m, make([]byte, max(0, len(old.m)-len(m)))...)
	is := old
	is.m = m
	record := old.funcs.from + 8*old.nfunc + 4
	for i := range old.nfunc {
		binary.LittleEndian.PutUint32(m[record:], uint32(0x1000+i))
		binary.LittleEndian.PutUint32(m[old.funcs.from+8*i:], uint32(0x1000+i))
		binary.LittleEndian.PutUint32(m[old.funcs.from+8*i+4:], uint32(record-old.funcs.from))
		record += 44 + 4*int(binary.LittleEndian.Uint32(m[record+28:])) + 4*int(m[record+43])
	}
	for i := 0; old.find+20*i < old.end; i++ {
		binary.LittleEndian.PutUint32(m[old.find+20*i:], uint32(i/16))
	}
	return is
}

// at is the number that a table by place gives a place, as the runtime reads it: -1 where there is no table.
func at(t tables, offset uint32, place int) int {
	if offset == 0 {
		return -1
	}
	p := t.m[t.places.from+int(offset):]
	value, reached := int32(-1), 0
	for first := true; ; first = false {
		change, n := binary.Uvarint(p)
		if change == 0 && !first {
			return -1
		}
		if p = p[n:]; change&1 != 0 {
			value -= int32(change>>1) + 1
		} else {
			value += int32(change >> 1)
		}
		steps, n := binary.Uvarint(p)
		p = p[n:]
		if reached += int(steps); place < reached {
			return int(value)
		}
	}
}

// others are the tables of a function: those by place, and those that are not.
func others(t tables, i int) (byPlace, other []uint32) {
	f := t.function(i)
	for k := range int(t.m.u32(f + 28)) {
		byPlace = append(byPlace, t.m.u32(f+44+4*k))
	}
	for k := range int(t.m[f+43]) {
		other = append(other, t.m.u32(f+44+4*len(byPlace)+4*k))
	}
	return byPlace, other
}

func nth(list []uint32, i int, missing uint32) uint32 {
	if i < len(list) {
		return list[i]
	}
	return missing
}

// What the garbage collector, a growing stack, a deferred call and a recover ask of the tables is answered as before, at every place.
func TestTheRuntimeFindsWhatItNeeds(t *testing.T) {
	_, after, old := both(t)
	is := started(t, after[sectionData], old)
	all := map[int]bool{len(old.m[old.data.from:old.data.to]): true}
	for i := range old.nfunc {
		_, other := others(old, i)
		for _, offset := range other {
			if offset != noTable {
				all[int(offset)] = true
			}
		}
	}
	var begins []int
	for begin := range all {
		begins = append(begins, begin)
	}
	slices.Sort(begins)

	maps, stacks, inlined := 0, 0, 0
	for i := range old.nfunc {
		f, g := old.function(i), is.function(i)
		if !bytes.Equal(old.m[f:f+4], is.m[g:g+4]) || !bytes.Equal(old.m[f+8:f+16], is.m[g+8:g+16]) || !bytes.Equal(old.m[f+40:f+43], is.m[g+40:g+43]) {
			t.Fatalf("function %d has another number, size of arguments, deferred return or kind", i)
		}
		oldPlaces, oldOther := others(old, i)
		places, other := others(is, i)
		for place := 0; ; place++ {
			was, now := at(old, old.m.u32(f+16), place), at(is, is.m.u32(g+16), place)
			if was != now {
				t.Fatalf("function %d at %d: the stack is %d, was %d", i, place, now, was)
			}
			if was < 0 {
				break // the function has no more places
			}
			stacks++
			if was, now := at(old, nth(oldPlaces, 1, 0), place), at(is, nth(places, 1, 0), place); was != now {
				t.Fatalf("function %d at %d: pointers are those of %d, were of %d", i, place, now, was)
			}
			if nth(other, 3, noTable) != noTable {
				if was, now := at(old, nth(oldPlaces, 2, 0), place), at(is, nth(places, 2, 0), place); was != now {
					t.Fatalf("function %d at %d: inlined is %d, was %d", i, place, now, was)
				}
			}
		}
		for _, kind := range []int{0, 1, 2, 4} {
			was, now := nth(oldOther, kind, noTable), nth(other, kind, noTable)
			if was != now {
				t.Fatalf("function %d: table %d is at %d, was at %d", i, kind, now, was)
			}
			if was == noTable {
				continue
			}
			maps++
			next, _ := slices.BinarySearch(begins, int(was)+1)
			from, to := old.data.from+int(was), old.data.from+begins[next]
			if !bytes.Equal(old.m[from:to], is.m[from:to]) {
				t.Fatalf("function %d: table %d says something else", i, kind)
			}
		}
		if table := nth(other, 3, noTable); table != noTable {
			inlined++
			if table != oldOther[3] {
				t.Fatalf("function %d: what was inlined is looked for elsewhere", i)
			}
		}
	}
	if maps < old.nfunc || stacks < 10*old.nfunc || inlined < 10 {
		t.Errorf("only %d tables, %d places and %d functions with inlined calls were compared", maps, stacks, inlined)
	}
}

// The runtime asks for some functions by their names.
func TestNamesThatTheRuntimeAsksForStay(t *testing.T) {
	_, after, old := both(t)
	is := started(t, after[sectionData], old)
	exact := 0
	for i := range old.nfunc {
		name := func(of tables) string { return of.m.text(of.names.from + int(of.m.u32(of.function(i)+4))) }
		was, now := name(old), name(is)
		switch {
		case was == "reflect.makeFuncStub" || was == "reflect.methodValueCall":
			exact++
			if now != was {
				t.Errorf("%s is called %s", was, now)
			}
		case strings.HasPrefix(was, "runtime.") != strings.HasPrefix(now, "runtime."):
			t.Errorf("%s is called %s", was, now)
		case strings.Contains(was, ".(*") && !strings.HasPrefix(was, "runtime.") && !strings.Contains(now, ".(*"):
			t.Errorf("%s is called %s, from which no type and method can be read", was, now)
		}
	}
	if exact == 0 {
		t.Error("neither of the two names that reflection needs was found")
	}
}

// A trace tells numbers, and the linked program what they stand for.
func TestATraceIsExplained(t *testing.T) {
	_, _, old := both(t)
	program, err := linked()
	if err != nil {
		t.Fatal(err)
	}
	// The number of a function stands above the lowest 16 bits of the place; the first is 0x1000.
	panics := 0x1000 + old.named("runtime.gopanic")
	got, err := Explain(program, fmt.Sprintf("panic: as asked\n\t?:0 +0x5 fp=0x7 pc=0x%x0005\npc=0x1\n", panics))
	if err != nil {
		t.Fatal(err)
	}
	want := regexp.MustCompile(fmt.Sprintf(`^panic: as asked\n\t\?:0 \+0x5 fp=0x7 pc=0x%x0005 runtime\.gopanic \S+\.go:\d+\npc=0x1\n$`, panics))
	if !want.MatchString(got) {
		t.Errorf("told %q, want %s", got, want)
	}
	if _, err := Explain([]byte("no program"), ""); err == nil {
		t.Error("a trace was explained from no program")
	}
}

func TestAllElseIsAsItWas(t *testing.T) {
	before, after, old := both(t)
	is, err := memory(after[sectionData])
	if err != nil {
		t.Fatal(err)
	}
	is = append(is, make([]byte, max(0, len(old.m)-len(is)))...)
	if len(is) != len(old.m) {
		t.Fatalf("the memory has %d bytes, had %d", len(is), len(old.m))
	}
	if !bytes.Equal(is[:old.names.from], old.m[:old.names.from]) || !bytes.Equal(is[old.end:], old.m[old.end:]) {
		t.Error("memory outside the function tables has changed")
	}
	for _, id := range []byte{sectionImport, 4, 5, 6, 7, sectionElement} {
		if len(before[id]) == 0 || !bytes.Equal(before[id], after[id]) {
			t.Errorf("section %d has changed", id)
		}
	}
	was, err := bodies(before[sectionCode])
	if err != nil {
		t.Fatal(err)
	}
	now, err := bodies(after[sectionCode])
	if err != nil {
		t.Fatal(err)
	}
	if len(now) != len(was)+1 || !slices.EqualFunc(was, now[:len(was)], bytes.Equal) {
		t.Errorf("there are %d functions, were %d, or one has changed", len(now), len(was))
	}
	if len(after[sectionData])*2 > len(before[sectionData]) {
		t.Errorf("the data is %d bytes, was %d: less than half was taken out", len(after[sectionData]), len(before[sectionData]))
	}
}

func TestWhatIsNotUnderstoodIsRefused(t *testing.T) {
	good, err := linked()
	if err != nil {
		t.Fatal(err)
	}
	lean, err := Program(good)
	if err != nil {
		t.Fatal(err)
	}
	find := func(text string) int { return bytes.Index(good, []byte(text)) }
	spoilt := func(at int, with ...byte) []byte {
		if at < 0 {
			t.Fatal("there is nothing to spoil")
		}
		return slices.Concat(good[:at], with, good[at+len(with):])
	}
	table := find("\xf1\xff\xff\xff\x00\x00\x01\x08")
	for name, bad := range map[string][]byte{
		"nothing":              nil,
		"a page":               []byte("<p>Sign in to this network"),
		"what is lean already": lean,
		"one half":             good[:len(good)/2],
		"another Go":           bytes.ReplaceAll(good, []byte("go1.26"), []byte("go1.99")),
		"another header":       spoilt(table, 0xf2),
		"more functions":       spoilt(table+8, 0xff, 0xff),
		"names elsewhere":      spoilt(table+32, 0x50),
	} {
		if _, err := Program(bad); err == nil {
			t.Errorf("%s was taken", name)
		}
	}
}

// Whatever is spoilt, there is an answer: an error, or a program.
func TestASpoiltProgramStopsNothing(t *testing.T) {
	good, err := linked()
	if err != nil {
		t.Fatal(err)
	}
	random := rand.New(rand.NewPCG(7, 26))
	for range 8 {
		bad := bytes.Clone(good)
		for range 1 + random.IntN(2000) {
			bad[random.IntN(len(bad))] = byte(random.Uint32())
		}
		Program(bad)
		Program(good[:random.IntN(len(good))])
	}
}

func TestSegments(t *testing.T) {
	zeros := func(n int) []byte { return make([]byte, n) }
	for name, c := range map[string]struct {
		image []byte
		want  []byte
	}{
		"nothing":      {nil, []byte{0}},
		"zeros":        {zeros(1000), []byte{0}},
		"one":          {[]byte{0, 0, 7}, []byte{1, 0, 0x41, 2, 0x0b, 1, 7}},
		"a short gap":  {[]byte{7, 0, 8, 0}, []byte{1, 0, 0x41, 0, 0x0b, 3, 7, 0, 8}},
		"a long gap":   {slices.Concat([]byte{7}, zeros(300), []byte{8}), []byte{2, 0, 0x41, 0, 0x0b, 1, 7, 0, 0x41, 0xad, 0x02, 0x0b, 1, 8}}, // 301 = 2·128 + 45
		"64 is signed": {append(zeros(64), 9), []byte{1, 0, 0x41, 0xc0, 0x00, 0x0b, 1, 9}},
	} {
		got := segments(c.image)
		if !bytes.Equal(got, c.want) {
			t.Errorf("%s: % x, want % x", name, got, c.want)
		}
		back, err := memory(got)
		if err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if back = append(back, zeros(len(c.image)-len(back))...); !bytes.Equal(back, c.image) {
			t.Errorf("%s comes back as % x", name, back)
		}
	}
}
