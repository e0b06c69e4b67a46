package lean

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

// place is how a trace names a place in the program: the function's number in the upper part, the place in it in the lower.
var place = regexp.MustCompile(`\bpc=0x([0-9a-f]+)`)

// Explain writes behind each place in a trace of a lean program which function it is in, and which line. It takes that from the linked
// program, which must be built from the same sources by the same Go.
func Explain(linked []byte, trace string) (string, error) {
	m, err := linkedMemory(linked)
	if err != nil {
		return "", err
	}
	t, err := find(m)
	if err != nil {
		return "", err
	}
	return place.ReplaceAllStringFunc(trace, func(found string) string {
		pc, err := strconv.ParseUint(strings.TrimPrefix(found, "pc=0x"), 16, 64)
		if function := int(pc>>16) - firstFunction; err == nil && function >= 0 && function < t.nfunc {
			return found + " " + t.where(function, int(pc&0xffff))
		}
		return found
	}), nil
}

// where names a function, and the line of a call from which it will go on at the place.
func (t tables) where(function, place int) string {
	f := t.function(function)
	name := t.m.text(t.names.from + int(t.m.u32(f+fieldName)))
	p := newPlaces(t.m[t.places.from:t.places.to])
	file, line := p.at(t.m.u32(f+fieldFile), max(0, place-1)), p.at(t.m.u32(f+fieldLine), max(0, place-1))
	if file < 0 || line < 0 {
		return name
	}
	offset := t.m.u32(t.units.from + 4*(int(t.m.u32(f+fieldUnit))+file))
	return fmt.Sprintf("%s %s:%d", name, t.m.text(t.files.from+int(offset)), line)
}

func linkedMemory(linked []byte) (image, error) {
	parts, err := sections(linked)
	if err != nil {
		return nil, err
	}
	for _, s := range parts {
		if s.id == sectionData {
			return memory(s.body)
		}
	}
	return nil, nil
}
