package job

import (
	"errors"
	"hash/crc32"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode/utf16"

	"gapwright/geometry"
)

// An instrument as a short text that a picture of squares can hold, so that it goes to another phone through the air alone.
//
// The text is GAPWRIGHT, the layout's number, fields that each end with *, and seven letters or digits: the CRC-32 (IEEE 802.3) of all before
// them, in base 36. It has none but the 45 signs that ISO/IEC 18004 packs into 5.5 bits each: the digits, capitals, space and $%*+-./:
// In a field a small letter stands as its capital, a capital as $ and itself, a comma, a double quote or an apostrophe as $. $/ $- and
// anything else as % and four hexadecimal digits of UTF-16. Three and more field ends in a row are + and their number in base 36.
// Name, number and checksum stay where they are in every later layout.

const (
	codeMark   = "GAPWRIGHT"
	codeLayout = 1

	// MostCode is the longest text, in signs. ISO/IEC 18004, table 7: a symbol of version 13 holds 619 of these signs at level L and 483 at level
	// M; it is 69 modules wide and 77 with its margin, so that each is 4 pixels on a screen of 320.
	MostCode = 619

	codeSum      = 7    // signs of the checksum: 36^7 is more than 2^32
	mostCodeRead = 4296 // what the largest symbol holds
	mostCodeList = 99
)

// Refusals of a text that should be an instrument's.
var (
	ErrCodeForeign = errors.New("not a text of this program")
	ErrCodeDamaged = errors.New("a damaged text")
	ErrCodeLater   = errors.New("a text of a later version")
	ErrCodeLong    = errors.New("more than a text of this kind can hold")
)

// CodeRefusals lists them, so that tests can ask for a sentence for each.
func CodeRefusals() []error {
	return []error{ErrCodeForeign, ErrCodeDamaged, ErrCodeLater, ErrCodeLong}
}

// CodePart is what of an instrument may be left out of its text.
type CodePart uint8

// The parts, in the order in which they are left out.
const (
	CodeBetween CodePart = iota // readings of the strings between the outer ones
	CodeRepeats                 // all but the last reading of a place
	CodeStrings                 // the set that is on, and its tuning
	CodeOwner
	CodeTurns // what turns at the bridge
	CodeUsual // what is usual of this one
	CodeNeck  // relief and nut
	CodeName  // the end of a long name
)

// CodeParts lists them in that order.
func CodeParts() []CodePart {
	return []CodePart{CodeBetween, CodeRepeats, CodeStrings, CodeOwner, CodeTurns, CodeUsual, CodeNeck, CodeName}
}

// Code writes an instrument with its as-set numbers as a text of at most MostCode signs, and tells what had to be left out of it. What is never
// in it: tags, whether it is put away, the turns of its truss rod, the person's touch, its checks and its jobs. Errors: ErrCodeLong.
func (i Instrument) Code() (text string, without []CodePart, err error) {
	i = i.forCode()
	for _, part := range CodeParts() {
		if text = writeCode(i); len(text) <= MostCode {
			return text, without, nil
		}
		less := i.withoutPart(part)
		if shorter := writeCode(less); len(shorter) < len(text) {
			i, without = less, append(without, part)
		}
	}
	if text = writeCode(i); len(text) > MostCode {
		return "", nil, ErrCodeLong
	}
	return text, without, nil
}

// forCode is the instrument without what is never handed over.
func (i Instrument) forCode() Instrument {
	i.Tags, i.Archived, i.Example, i.Checked = "", false, false, time.Time{}
	if i.AsSet != nil {
		set := *i.AsSet
		set.Job, set.Rod, set.Touch = "", nil, nil
		i.AsSet = &set
	}
	return i
}

// withoutPart is the instrument without a part; the instrument it came from is left as it is.
func (i Instrument) withoutPart(part CodePart) Instrument {
	var set AsSet
	if i.AsSet != nil {
		set = *i.AsSet
		i.AsSet = &set
	}
	switch part {
	case CodeBetween:
		set.keep(func(p Place, _ bool) bool { return p.Course == 0 || p.Course == i.Last() })
	case CodeRepeats:
		set.keep(func(_ Place, again bool) bool { return !again })
	case CodeStrings:
		i.Set, set.Set = nil, nil
	case CodeOwner:
		i.Owner = ""
	case CodeTurns:
		i.Turns = Hardware{}
	case CodeUsual:
		i.Wont = nil
	case CodeNeck:
		set.Neck = nil
	case CodeName:
		name := []rune(i.Name)
		for over := 1; len(name) > 0 && over > 0; over = len(writeCode(i)) - MostCode {
			name = name[:max(0, len(name)-(over+9)/10)] // a letter takes ten signs at most
			i.Name = strings.TrimSpace(string(name))
		}
	}
	return i
}

// keep leaves the readings that which says, asked by the place (a gap has no feature) and whether the same is read again later.
func (a *AsSet) keep(which func(p Place, again bool) bool) {
	gaps, neck := make([]Place, len(a.Readings)), make([]Place, len(a.Neck))
	for n, r := range a.Readings {
		gaps[n] = Place{Course: r.String}
	}
	for n, s := range a.Neck {
		neck[n] = Place{s.Feature, s.String}
	}
	was := *a
	a.Readings, a.Neck = nil, nil
	for n, r := range was.Readings {
		if which(gaps[n], slices.Contains(gaps[n+1:], gaps[n])) {
			a.Readings = append(a.Readings, r)
		}
	}
	for n, s := range was.Neck {
		if which(neck[n], slices.Contains(neck[n+1:], neck[n])) {
			a.Neck = append(a.Neck, s)
		}
	}
}

func writeCode(i Instrument) string {
	var c codec
	c.instrument(&i)
	text := codeMark + strconv.Itoa(codeLayout) + "*" + squeeze(string(c.out))
	return text + sumOf(text)
}

func sumOf(text string) string {
	sum := strings.ToUpper(strconv.FormatUint(uint64(crc32.ChecksumIEEE([]byte(text))), 36))
	return "0000000"[len(sum):] + sum
}

// ReadCode reads an instrument's text. Nothing but what Code writes is taken, and nothing that cannot be worked with. Errors: ErrCodeForeign,
// ErrCodeDamaged, ErrCodeLater.
func ReadCode(text string) (Instrument, error) {
	rest, ours := strings.CutPrefix(text, codeMark)
	if !ours {
		return Instrument{}, ErrCodeForeign
	}
	layout, _, ended := strings.Cut(rest, "*")
	number, err := strconv.Atoi(layout)
	if end := len(text) - codeSum; err != nil || !ended || len(text) > mostCodeRead || end < len(codeMark) || sumOf(text[:end]) != text[end:] {
		return Instrument{}, ErrCodeDamaged
	}
	if number > codeLayout {
		return Instrument{}, ErrCodeLater
	}
	body := text[len(codeMark)+len(layout)+1 : len(text)-codeSum]
	c := codec{reading: true, in: strings.Split(stretch(body), "*")}
	var i Instrument
	c.instrument(&i)
	if c.bad || number != codeLayout || len(c.in) != 1 || c.in[0] != "" {
		return Instrument{}, ErrCodeDamaged
	}
	if err := i.checkCode(); errors.Is(err, ErrFamily) {
		return Instrument{}, ErrCodeLater
	} else if err != nil {
		return Instrument{}, ErrCodeDamaged
	}
	return i, nil
}

// checkCode tells whether what was read can be worked with: whoever made the text may not have been this program.
func (i Instrument) checkCode() error {
	if err := i.Check(); err != nil {
		return err
	}
	if strings.Trim(i.ID, "-0123456789abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ") != "" || len(i.ID) > 64 {
		return ErrCodeDamaged
	}
	if i.Bridge != BridgeNotAsked && !slices.Contains(Bridges(), i.Bridge) {
		return ErrCodeDamaged
	}
	if i.AsSet == nil {
		return nil
	}
	for _, r := range i.AsSet.Readings {
		if _, err := r.Interval(); err != nil || !i.canBe(r) {
			return ErrCodeDamaged
		}
	}
	for _, s := range i.AsSet.Neck {
		if _, err := s.Interval(); err != nil || !i.canBe(s.Read) || !s.Feature.known() && s.Feature != FirstPressed ||
			s.To < 0 || s.To > geometry.LargestFret {
			return ErrCodeDamaged
		}
	}
	if i.AsSet.Air != nil {
		if err := i.AsSet.Air.Check(); err != nil {
			return err
		}
	}
	return i.AsSet.Set.Check(i.Kind())
}

// canBe tells whether a reading is of a string and a fret that there are.
func (i Instrument) canBe(r Read) bool {
	return r.String >= 0 && r.String <= i.Last() && r.Fret >= 1 && r.Fret <= geometry.LargestFret && r.Held >= 0 && r.Held < r.Fret
}

// Taking is the instrument with what another copy of it says: its profile and its as-set numbers. What that copy does not say stays, and so does
// what is never handed over; of another family nothing else stays.
func (i Instrument) Taking(from Instrument) Instrument {
	next := from
	next.ID, next.Tags, next.Archived, next.Example, next.Checked = i.ID, i.Tags, i.Archived, i.Example, i.Checked
	if from.Family != i.Family {
		return next
	}
	if next.Name == "" {
		next.Name = i.Name
	}
	if next.Owner == "" {
		next.Owner = i.Owner
	}
	if next.Bridge == BridgeNotAsked {
		next.Bridge = i.Bridge
	}
	own := i
	theirs, mine := next.codeLengths(), own.codeLengths()
	for n, t := range theirs {
		if !t.Given() {
			*t = *mine[n]
		}
	}
	if next.Body == 0 {
		next.Body = i.Body
	}
	if next.Frets == 0 {
		next.Frets = i.Frets
	}
	if next.Turns == (Hardware{}) {
		next.Turns = i.Turns
	}
	if next.Wont == nil {
		next.Wont = i.Wont
	}
	if next.Set == nil {
		next.Set = i.Set
	}
	if i.AsSet != nil {
		set := *i.AsSet
		if from.AsSet != nil {
			set = *from.AsSet
			set.Rod, set.Touch = i.AsSet.Rod, i.AsSet.Touch
		}
		next.AsSet = &set
	}
	return next
}

// codeLengths are the lengths of a profile in the order of layout 1.
func (i *Instrument) codeLengths() []*Typed {
	return []*Typed{&i.Scale, &i.Treble, &i.Setback, &i.Saddle, &i.Spread, &i.Radius}
}

// ReadIn is the unit in which an instrument was measured: that of its first reading, or else of its scale; millimetres where neither tells.
func (i Instrument) ReadIn() Unit {
	unit := i.Scale.Unit
	if i.AsSet != nil && len(i.AsSet.Readings) > 0 {
		unit = i.AsSet.Readings[0].Low.Unit
	}
	if unit == Inch {
		return Inch
	}
	return MM
}

// CodeAge is how the numbers of another copy of an instrument stand to those that are here.
type CodeAge uint8

// What they can be.
const (
	CodeOther CodeAge = iota // one of the two was never set: no telling
	CodeSame                 // set at the same moment
	CodeNewer
	CodeOlder
)

// Against tells how another copy's numbers stand to this one's, by when each was set: for the person to decide, as clocks may be wrong.
func (i Instrument) Against(other Instrument) CodeAge {
	switch {
	case i.AsSet == nil || other.AsSet == nil:
		return CodeOther
	case other.AsSet.At.Equal(i.AsSet.At):
		return CodeSame
	case other.AsSet.At.After(i.AsSet.At):
		return CodeNewer
	}
	return CodeOlder
}

// codec writes or reads the fields of a text: the layout stands once, for both ways.
type codec struct {
	reading bool
	out     []byte
	in      []string
	bad     bool // what is read is no such text
}

// The layout, number 1. It is never changed; what comes later has another number.
func (c *codec) instrument(i *Instrument) {
	text(c, &i.ID)
	text(c, &i.Family)
	text(c, &i.Name)
	text(c, &i.Owner)
	c.flag(&i.LeftHanded)
	text(c, &i.Bridge)
	c.typed(i.codeLengths()...)
	c.numbers(&i.Fret, &i.Held, &i.Body, &i.Frets)
	if c.has(i.Turns != Hardware{}) {
		text(c, &i.Turns.Thread)
		c.numbers(&i.Turns.Turned, &i.Turns.Screws)
		c.typed(&i.Turns.Moved, &i.Turns.Give, &i.Turns.Apart, &i.Turns.Behind, &i.Turns.Rest)
	}
	if c.has(i.Wont != nil) {
		i.Wont = either(i.Wont)
		for _, p := range codeWont {
			for _, f := range p.Fields() {
				c.typed(i.Wont.at(f))
			}
		}
	}
	if c.has(i.Set != nil) {
		i.Set = either(i.Set)
		c.set(i.Set)
	}
	if c.has(i.AsSet != nil) {
		i.AsSet = either(i.AsSet)
		c.asSet(i.AsSet, i.Set)
	}
}

// codeWont is the order of what is usual in layout 1.
var codeWont = []WontPart{WontGap, WontRelief, WontFirst, WontFloor, WontBeginner}

// either is what is written, or room for what is read.
func either[T any](it *T) *T {
	if it == nil {
		return new(T)
	}
	return it
}

func (c *codec) set(s *Stringing) {
	text(c, &s.Published)
	c.numbers(&s.Capo)
	for n := range list(c, &s.Tuning) {
		tone := int(s.Tuning[n])
		c.numbers(&tone)
		s.Tuning[n] = geometry.Tone(tone)
	}
	for n := range list(c, &s.Gauges) {
		g := &s.Gauges[n]
		word(c, &g.Make)
		c.typed(&g.Diameter)
		text(c, &g.Weight)
	}
}

// asSet is a baseline; the strings that were on then are mostly those that are on now, and are not written twice.
func (c *codec) asSet(a *AsSet, now *Stringing) {
	same := now != nil && a.Set != nil && setText(now) == setText(a.Set)
	if c.flag(&same); same {
		a.Set = now
		c.expect(now != nil)
	} else if c.has(a.Set != nil) {
		a.Set = either(a.Set)
		c.set(a.Set)
	}
	c.time(&a.At)
	c.flag(&a.Proven)
	c.flag(&a.Moved)
	for n := range list(c, &a.Readings) {
		c.read(&a.Readings[n])
	}
	for n := range list(c, &a.Neck) {
		s := &a.Neck[n]
		word(c, &s.Feature)
		c.read(&s.Read)
		c.numbers(&s.To)
	}
	if c.has(a.Air != nil) {
		a.Air = either(a.Air)
		c.numbers(&a.Air.Humidity)
		text(c, &a.Air.Temperature)
		text(c, &a.Air.Scale)
	}
}

func setText(s *Stringing) string {
	var c codec
	c.set(s)
	return string(c.out)
}

func (c *codec) read(r *Read) {
	c.numbers(&r.String, &r.Fret)
	word(c, &r.Way)
	c.typed(&r.Low, &r.High)
	c.numbers(&r.Held, &r.Count)
	c.typed(&r.TenThick, &r.End, &r.EndGive)
	c.flag(&r.EndCut)
	c.flag(&r.Replaces)
}

// write adds a field.
func (c *codec) write(field string) { c.out = append(append(c.out, field...), '*') }

// next is the field that is read.
func (c *codec) next() (field string) {
	if len(c.in) < 2 { // what stands behind the last * is no field
		c.bad = true
		return ""
	}
	field, c.in = c.in[0], c.in[1:]
	return field
}

// expect notes when what was read cannot be.
func (c *codec) expect(ok bool) { c.bad = c.bad || !ok }

func text[T ~string](c *codec, s *T) {
	if !c.reading {
		c.write(escaped(string(*s)))
		return
	}
	read, ok := unescaped(c.next())
	c.expect(ok)
	*s = T(read)
}

// codeWords are the words of records that layout 1 shortens.
var codeWords = [][2]string{{string(ByMarks), "m"}, {string(ByCaliper), "c"}, {string(ByFeeler), "f"}, {string(ByCards), "s"}, {string(Relief), "r"},
	{string(FirstFret), "n"}, {string(FirstPressed), "p"}, {string(PlainSteel), "ps"}, {string(WoundSteel), "ws"}, {string(PlainNylon), "pn"},
	{string(WoundNylon), "wn"}}

// word is text for one of the words of records.
func word[T ~string](c *codec, s *T) {
	exchanged := func(from, to int) T {
		for _, pair := range codeWords {
			if pair[from] == string(*s) {
				return T(pair[to])
			}
		}
		return *s
	}
	if !c.reading {
		short := exchanged(0, 1)
		text(c, &short)
		return
	}
	text(c, s)
	*s = exchanged(1, 0)
}

func (c *codec) flag(on *bool) {
	if !c.reading {
		if *on {
			c.write("1")
		} else {
			c.write("")
		}
		return
	}
	read := c.next()
	c.expect(read == "" || read == "1")
	*on = read == "1"
}

// has is whether a group of fields follows.
func (c *codec) has(group bool) bool {
	c.flag(&group)
	return group && !c.bad
}

func (c *codec) numbers(all ...*int) {
	for _, n := range all {
		if !c.reading {
			c.write(strings.TrimPrefix(strconv.Itoa(*n), "0"))
			continue
		}
		*n = 0
		if read := c.next(); read != "" {
			var err error
			*n, err = strconv.Atoi(read)
			c.expect(err == nil && *n != 0 && strconv.Itoa(*n) == read && *n >= -9999 && *n <= 9999)
		}
	}
}

// typed is a letter for the unit (N: none), then the text; nothing where nothing was typed.
func (c *codec) typed(all ...*Typed) {
	for _, t := range all {
		if !c.reading {
			unit := "N"
			switch {
			case *t == Typed{}:
				unit = ""
			case t.Unit == MM:
				unit = "M"
			case t.Unit == Inch:
				unit = "I"
			}
			c.write(unit + escaped(t.Text))
			continue
		}
		*t = Typed{}
		read := c.next()
		if read == "" {
			continue
		}
		var ok bool
		t.Text, ok = unescaped(read[1:])
		switch read[0] {
		case 'M':
			t.Unit = MM
		case 'I':
			t.Unit = Inch
		default:
			ok = ok && read[0] == 'N' && t.Text != ""
		}
		c.expect(ok)
	}
}

// year10000 is its first moment in thousandths of a second: documents hold no later ones.
const year10000 = 253402300800000

// time is a moment in thousandths of a second, in base 36.
func (c *codec) time(at *time.Time) {
	if !c.reading {
		if at.IsZero() {
			c.write("")
		} else {
			c.write(strings.ToUpper(strconv.FormatInt(at.UnixMilli(), 36)))
		}
		return
	}
	*at = time.Time{}
	if read := c.next(); read != "" {
		n, err := strconv.ParseInt(read, 36, 64)
		c.expect(err == nil && n >= 0 && n < year10000)
		*at = time.UnixMilli(n).UTC()
	}
}

// list is a list's length and, when it is read, makes room for it.
func list[T any](c *codec, all *[]T) int {
	n := len(*all)
	c.numbers(&n)
	if !c.reading {
		return n
	}
	*all = nil
	if c.expect(n >= 0 && n <= mostCodeList); c.bad {
		return 0
	}
	if n > 0 {
		*all = make([]T, n)
	}
	return n
}

// asThemselves are the signs that a field may hold as they are, besides small letters; swapped and their stand-ins are those that $ marks.
const (
	asThemselves = "0123456789 -./:"
	swapped      = ",\"'"
	standIns     = "./-"
)

func escaped(text string) string {
	var b []byte
	for _, r := range text {
		switch at := strings.IndexRune(swapped, r); {
		case r >= 'a' && r <= 'z':
			b = append(b, byte(r)-'a'+'A')
		case r >= 'A' && r <= 'Z':
			b = append(b, '$', byte(r))
		case at >= 0:
			b = append(b, '$', standIns[at])
		case strings.ContainsRune(asThemselves, r):
			b = append(b, byte(r))
		default:
			for _, unit := range utf16.AppendRune(nil, r) {
				hex := strings.ToUpper(strconv.FormatUint(uint64(unit)+0x10000, 16))
				b = append(append(b, '%'), hex[1:]...)
			}
		}
	}
	return string(b)
}

func unescaped(field string) (text string, ok bool) {
	var units []uint16
	for n := 0; n < len(field); n++ {
		sign := field[n]
		switch {
		case sign >= 'A' && sign <= 'Z':
			sign += 'a' - 'A'
		case strings.IndexByte(asThemselves, sign) >= 0:
		case sign == '$' && n+1 < len(field):
			n++
			sign = field[n]
			if at := strings.IndexByte(standIns, sign); at >= 0 {
				sign = swapped[at]
			}
		case sign == '%' && n+4 < len(field):
			unit, err := strconv.ParseUint(field[n+1:n+5], 16, 16)
			if err != nil {
				return "", false
			}
			units = append(units, uint16(unit))
			n += 4
			continue
		default:
			return "", false
		}
		units = append(units, uint16(sign))
	}
	text = string(utf16.Decode(units))
	return text, escaped(text) == field // one text is written in one way
}

// squeeze writes three and more field ends in a row as + and how many, 35 at most; stretch writes them out again.
func squeeze(fields string) string {
	var b strings.Builder
	for fields != "" {
		run := len(fields) - len(strings.TrimLeft(fields, "*"))
		switch run = min(run, 35); {
		case run > 2:
			b.WriteString("+" + strings.ToUpper(strconv.FormatInt(int64(run), 36)))
		default:
			run = max(1, run)
			b.WriteString(fields[:run])
		}
		fields = fields[run:]
	}
	return b.String()
}

const fieldEnds = "***********************************" // 35

func stretch(fields string) string {
	var b strings.Builder
	for {
		plain, rest, more := strings.Cut(fields, "+")
		b.WriteString(plain)
		if !more {
			return b.String()
		}
		if rest == "" {
			return "+" // no field can hold it
		}
		run, err := strconv.ParseUint(rest[:1], 36, 8)
		if err != nil {
			return "+"
		}
		b.WriteString(fieldEnds[:run])
		fields = rest[1:]
	}
}
