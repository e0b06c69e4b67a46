package job

import (
	"encoding/json"
	"errors"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"gapwright/geometry"
)

// signs are the 45 of the alphanumeric mode of ISO/IEC 18004, table 5.
const signs = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:"

// porch is an instrument as most people have one: a name, a rule in quarter millimetres, relief and nut read once.
func porch() Instrument {
	at := time.Date(2026, 5, 3, 16, 20, 5, 250e6, time.UTC)
	rule := func(course int, low, high string) Read {
		return Read{String: course, Fret: 12, Way: ByMarks, Low: Typed{low, MM}, High: Typed{high, MM}}
	}
	feeler := func(f Feature, course, held, fret, to int, low, high string) Surveyed {
		return Surveyed{Feature: f, To: to, Read: Read{String: course, Held: held, Fret: fret, Way: ByFeeler, Low: Typed{low, MM}, High: Typed{high, MM}}}
	}
	return Instrument{ID: "5f0c1d2e-3b4a-4c5d-8e6f-708192a3b4c5", Name: "Porch guitar", Family: geometry.FlatTop6, Scale: Typed{"648", MM}, Frets: 20,
		AsSet: &AsSet{At: at, Proven: true,
			Readings: []Read{rule(0, "2.25", "2.50"), rule(5, "1.75", "2.00")},
			Neck: []Surveyed{feeler(Relief, 0, 1, 7, 14, "0.20", "0.25"), feeler(FirstFret, 0, 0, 1, 0, "0.55", "0.60"),
				feeler(FirstFret, 5, 0, 1, 0, "0.40", "0.45")}}}
}

// fullest is an instrument of which everything is said that can be: twelve strings, all read twice, by people who type their units.
func fullest() Instrument {
	i := Instrument{ID: "5f0c1d2e-3b4a-4c5d-8e6f-708192a3b4c6", Name: "The old “Twelve”, Ἀθήνα, 十二弦", Owner: "O’Brien, second floor", Family: geometry.FlatTop12, LeftHanded: true,
		Bridge: BridgeSlot, Scale: Typed{"25 1/2 in", Inch}, Treble: Typed{"25 1/4 in", Inch}, Setback: Typed{"0.125 in", Inch}, Saddle: Typed{"80,5 mm", MM},
		Spread: Typed{"2 3/16 in", Inch}, Radius: Typed{"16 in", Inch}, Fret: 14, Held: 2, Body: 14, Frets: 21,
		Turns: Hardware{Turned: 6, Screws: 2, Moved: Typed{"0.35 mm", MM}, Give: Typed{"0.05 mm", MM}, Apart: Typed{"74,5 mm", MM}, Behind: Typed{"12,5 mm", MM}, Rest: Typed{"48 mm", MM}},
		Set:   &Stringing{Tuning: []geometry.Tone{38, 43, 48, 53, 57, 62}, Capo: 3},
		Wont: &Wont{Gap: [2]Span{{Typed{"2.05 mm", MM}, Typed{"2.45 mm", MM}}, {Typed{"1.65 mm", MM}, Typed{"1.95 mm", MM}}},
			Relief: Span{Typed{"0.12 mm", MM}, Typed{"0.24 mm", MM}},
			First:  [2]Span{{Typed{"0.46 mm", MM}, Typed{"0.64 mm", MM}}, {Typed{"0.31 mm", MM}, Typed{"0.44 mm", MM}}},
			Floor:  [2]Typed{{"1.85 mm", MM}, {"1.45 mm", MM}}, Beginner: [2]Typed{{"2.05 mm", MM}, {"1.65 mm", MM}}},
		AsSet: &AsSet{At: time.Date(2026, 11, 30, 23, 59, 59, 999e6, time.UTC), Proven: true, Moved: true,
			Air: &Aired{Humidity: 48, Temperature: "71,5", Scale: Fahrenheit}},
	}
	for range 12 {
		i.Set.Gauges = append(i.Set.Gauges, Gauge{Make: WoundSteel, Diameter: Typed{"0.0535 in", Inch}, Weight: "12,345"})
	}
	i.AsSet.Set = i.Set
	for course := range 6 {
		for range 2 {
			i.AsSet.Readings = append(i.AsSet.Readings, Read{String: course, Fret: 14, Held: 2, Way: ByMarks, Low: Typed{"5/64", Inch}, High: Typed{"6/64", Inch},
				End: Typed{"1/32 in", Inch}, EndGive: Typed{"0.1 mm", MM}, EndCut: true, Replaces: true})
			for _, f := range []Feature{Relief, FirstFret, FirstPressed} {
				i.AsSet.Neck = append(i.AsSet.Neck, Surveyed{Feature: f, To: 3,
					Read: Read{String: course, Fret: 1, Way: ByFeeler, Low: Typed{"0.014 in", Inch}, High: Typed{"0.016 in", Inch}}})
			}
		}
	}
	return i
}

func TestAnInstrumentIsTheSameOutOfItsText(t *testing.T) {
	bare := Instrument{ID: "a", Family: geometry.Mandolin}
	for _, i := range []Instrument{bare, porch()} {
		text, without, err := i.Code()
		if err != nil || len(without) > 0 {
			t.Fatalf("%s: %v, without %v", i.Name, err, without)
		}
		back, err := ReadCode(text)
		if err != nil || !reflect.DeepEqual(back, i) {
			t.Errorf("%s: %v\n%+v\n%+v", text, err, back, i)
		}
		t.Logf("%d signs: %s", len(text), text)
	}
}

// An instrument as most people have one goes into a symbol of version 11 at level M, which holds 366 signs (ISO/IEC 18004, table 7): on a screen of 320
// pixels its modules are 320/(61 + 8) = 4.6 pixels.
func TestAnOrdinaryInstrumentHasRoomToSpare(t *testing.T) {
	if text, _, err := porch().Code(); err != nil || len(text) > 366 {
		t.Errorf("%d signs, %v: %s", len(text), err, text)
	}
}

// The text has at most 700 bytes whatever is said of the instrument, and what is left out is told.
func TestTheFullestInstrumentFits(t *testing.T) {
	i := fullest()
	if err := i.Check(); err != nil {
		t.Fatal(err)
	}
	text, without, err := i.Code()
	if err != nil {
		t.Fatal(err)
	}
	if len(text) > 700 || len(text) > MostCode {
		t.Errorf("%d bytes", len(text))
	}
	if want := []CodePart{CodeBetween, CodeRepeats, CodeStrings, CodeOwner, CodeTurns, CodeUsual}; !slices.Equal(without, want) {
		t.Errorf("left out: %v, want %v (%d signs)", without, want, len(text))
	}
	want := i
	for _, part := range without {
		want = want.withoutPart(part)
	}
	if back, err := ReadCode(text); err != nil || !reflect.DeepEqual(back, want) {
		t.Errorf("%v\n%+v\n%+v", err, back, want)
	}
	if i.Set == nil || len(i.AsSet.Readings) != 12 || len(i.AsSet.Neck) != 36 {
		t.Error("the instrument itself was changed")
	}

	i.Name = strings.Repeat("Größe ", 200)
	text, without, err = i.Code()
	if err != nil || len(text) > 700 || !slices.Equal(without, CodeParts()) {
		t.Errorf("with a name without end: %d bytes, without %v, %v", len(text), without, err)
	}
	if back, err := ReadCode(text); err != nil || !strings.HasPrefix(i.Name, back.Name) || len(back.Name) < 40 || len(back.AsSet.Readings) != 2 {
		t.Errorf("with a name without end: %v, %+v", err, back)
	}

	for n := range i.AsSet.Readings { // what nobody types
		i.AsSet.Readings[n].Low.Text = strings.Repeat(" ", 300) + "5/64"
	}
	if text, _, err := i.Code(); !errors.Is(err, ErrCodeLong) || text != "" {
		t.Errorf("with endless lengths: %v, %d signs", err, len(text))
	}
}

// What Code leaves for good is named here: whoever adds a part to the profile or the baseline decides whether it is handed over.
func TestEveryPartIsHandedOverOrNamed(t *testing.T) {
	stays := []string{"Tags", "Archived", "Example", "Checked", "AsSet.Job", "AsSet.Rod", "AsSet.Touch"}
	back, err := ReadCode(mustCode(t, smallerFullest()))
	if err != nil {
		t.Fatal(err)
	}
	missing := unsaid("", reflect.ValueOf(back))
	for _, name := range missing {
		if !slices.Contains(stays, name) {
			t.Errorf("%s is neither handed over nor named as what stays", name)
		}
	}
	for _, name := range stays {
		if !slices.Contains(missing, name) {
			t.Errorf("%s is handed over", name)
		}
	}
}

// smallerFullest says everything at least once, and fits.
func smallerFullest() Instrument {
	i := fullest()
	i.Name, i.Owner, i.Tags, i.Archived, i.Example, i.Checked = "N", "O", "tag", true, true, i.AsSet.At
	set := Stringing{Published: "", Tuning: i.Set.Tuning, Capo: 2, Gauges: make([]Gauge, 12)}
	set.Gauges[0] = Gauge{Make: PlainSteel, Diameter: Typed{".012", Inch}, Weight: "0.57"}
	i.Set = &set
	i.AsSet.Set = &set
	i.AsSet.Job, i.AsSet.Rod, i.AsSet.Touch = "job", []RodTurn{{Eighths: 1}}, []KeptTouch{{Side: 1}}
	i.AsSet.Readings, i.AsSet.Neck = i.AsSet.Readings[11:], i.AsSet.Neck[:1]
	i.AsSet.Neck[0].Read.String = 5
	return i
}

// unsaid names the fields of a struct that are nothing, those in structs and pointers to them as well.
func unsaid(path string, v reflect.Value) (names []string) {
	for n := range v.NumField() {
		name, f := strings.TrimPrefix(path+"."+v.Type().Field(n).Name, "."), v.Field(n)
		switch f.Kind() {
		case reflect.Pointer:
			if !f.IsNil() {
				names = append(names, unsaid(name, f.Elem())...)
				continue
			}
		case reflect.Struct:
			if !f.IsZero() && f.Type() != reflect.TypeFor[time.Time]() && f.Type() != reflect.TypeFor[Typed]() && f.Type() != reflect.TypeFor[Hardware]() {
				names = append(names, unsaid(name, f)...)
				continue
			}
		}
		if f.IsZero() && name != "Set.Published" && name != "AsSet.Set.Published" {
			names = append(names, name)
		}
	}
	return names
}

func mustCode(t *testing.T, i Instrument) string {
	t.Helper()
	text, _, err := i.Code()
	if err != nil {
		t.Fatal(err)
	}
	return text
}

// Instruments of every family, with anything said of them or not: the text has none but the 45 signs and at most 700 bytes, and what is read
// is what was written, less what was said to be left out.
func TestAnyInstrumentIsTheSameOutOfItsText(t *testing.T) {
	chance := rand.New(rand.NewPCG(18, 4))
	left := map[CodePart]int{}
	for n := range 3000 {
		i := anyInstrument(chance)
		if err := i.Check(); err != nil {
			continue
		}
		left[CodeName+1]++
		text, without, err := i.Code()
		if err != nil {
			t.Fatalf("%d: %v of %+v", n, err, i)
		}
		if len(text) > 700 || strings.Trim(text, signs) != "" {
			t.Fatalf("%d: %d bytes: %s", n, len(text), text)
		}
		want := i.forCode()
		for _, part := range without {
			left[part]++
			want = want.withoutPart(part)
		}
		back, err := ReadCode(text)
		if err != nil || !reflect.DeepEqual(back, want) {
			t.Fatalf("%d: %v\n%s\n%s\n%s", n, err, text, inWords(back), inWords(want))
		}
		if again := mustCode(t, back); again != text {
			t.Fatalf("%d: written again\n%s\n%s", n, again, text)
		}
	}
	for _, part := range CodeParts()[:CodeTurns] {
		if left[part] == 0 {
			t.Errorf("part %d was never left out", part)
		}
	}
	if left[CodeName+1] < 1000 {
		t.Errorf("only %d instruments could be", left[CodeName+1])
	}
	t.Logf("instruments and what was left out: %v", left)
}

func inWords(i Instrument) string {
	b, _ := json.Marshal(i)
	return string(b)
}

// anyInstrument is one of which anything may be said.
func anyInstrument(c *rand.Rand) Instrument {
	full := c.IntN(3) == 0
	maybe := func() bool { return full || c.IntN(2) == 0 }
	letters := []rune("abcdefghijklmnopqrstuvwxyz ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789.,:;/*+-$%\"'’éßЖ弦🎸")
	word := func(most int) string {
		var b []rune
		if full {
			most *= 3
		}
		for range c.IntN(most) {
			b = append(b, letters[c.IntN(len(letters))])
		}
		return string(b)
	}
	length := func(low, high float64) (t Typed) {
		l := geometry.Length(low + c.Float64()*(high-low))
		switch c.IntN(5) {
		case 0:
			if full {
				t = Write(l, Inch, geometry.Thousandth)
				t.Text += " inch"
			}
		case 1:
			t = Write(l, Inch, geometry.Thousandth)
		case 2:
			t = Write(l, MM, geometry.Millimetre/100)
			t.Text = strings.Replace(t.Text, ".", ",", 1) + " mm"
		case 3:
			t = Write(l, MM, geometry.Millimetre/20)
			t.Unit = ""
		default:
			t = Write(l, MM, geometry.Millimetre/20)
		}
		return t
	}
	sure := func(low, high float64) Typed {
		for {
			if t := length(low, high); t.Given() {
				return t
			}
		}
	}
	families := geometry.Families()
	f := families[c.IntN(len(families))]
	i := Instrument{ID: "id-" + strings.Repeat("x", c.IntN(40)), Family: f.ID, Name: word(30), Owner: word(20), LeftHanded: maybe(), Tags: word(9),
		Scale: length(float64(f.Scale)*0.98, float64(f.Scale)*1.02), Setback: length(0, 3), Radius: length(200, 500), Saddle: length(75, 120), Spread: length(40, 60)}
	if maybe() {
		i.Bridge = Bridges()[c.IntN(len(Bridges()))]
		i.Fret, i.Frets, i.Body = 12+c.IntN(3), 19+c.IntN(5), 12+c.IntN(3)
		i.Treble = length(float64(f.Scale)*0.96, float64(f.Scale)*0.98)
	}
	if maybe() {
		i.Turns = Hardware{Turned: c.IntN(17) - 8, Screws: c.IntN(3), Moved: length(0.2, 1), Give: length(0.02, 0.06), Apart: length(60, 80), Behind: length(5, 12)}
	}
	if maybe() {
		i.Wont = &Wont{Relief: Span{length(0.05, 0.1), length(0.2, 0.3)}, Gap: [2]Span{{High: length(4, 5)}, {High: length(4, 5)}}}
	}
	if maybe() {
		i.Set = &Stringing{Capo: c.IntN(4)}
		if maybe() {
			for _, tone := range geometry.UsualTuning(f.ID) {
				i.Set.Tuning = append(i.Set.Tuning, tone-geometry.Tone(c.IntN(3)))
			}
		}
		if maybe() {
			for range f.Courses * f.PerCourse {
				g := Gauge{Make: append(Makes(), MakeUnknown)[c.IntN(5)], Diameter: length(0.2, 1.4)}
				if maybe() {
					g.Weight = []string{"0.57", "5,47", "12"}[c.IntN(3)]
				}
				i.Set.Gauges = append(i.Set.Gauges, g)
			}
		}
	}
	if c.IntN(4) == 0 {
		return i
	}
	i.AsSet = &AsSet{Job: "job", At: time.UnixMilli(1767225600000 + c.Int64N(1e11)).UTC(), Proven: maybe(), Moved: maybe()}
	if maybe() {
		i.AsSet.Set = i.Set
	} else if maybe() {
		i.AsSet.Set = &Stringing{Capo: 1 + c.IntN(4)}
	}
	if maybe() {
		i.AsSet.Air = &Aired{Humidity: 20 + c.IntN(60), Temperature: "21,5", Scale: Celsius}
	}
	read := func(course, fret int) Read {
		r := Read{String: course, Fret: fret, Replaces: c.IntN(9) == 0}
		switch c.IntN(4) {
		case 0:
			r.Way, r.Low, r.High = ByMarks, sure(1, 1.9), sure(2, 2.5)
			if maybe() {
				r.End, r.EndGive, r.EndCut = sure(0.1, 0.5), sure(0.05, 0.1), maybe()
			}
		case 1:
			r.Way, r.Low, r.High = ByFeeler, sure(1, 1.9), sure(2, 2.5)
		case 2:
			r.Way, r.Count, r.TenThick = ByCards, 1+c.IntN(9), sure(2, 5)
		default:
			r.Way, r.Low = ByCaliper, sure(1, 2.5)
		}
		return r
	}
	for course := range f.Courses {
		if course > 0 && course < f.Courses-1 && maybe() {
			continue
		}
		for range 1 + c.IntN(2) {
			i.AsSet.Readings = append(i.AsSet.Readings, read(course, i.ReadFret()))
		}
		if maybe() {
			i.AsSet.Neck = append(i.AsSet.Neck, Surveyed{Feature: []Feature{Relief, FirstFret, FirstPressed}[c.IntN(3)], Read: read(course, 1+c.IntN(9)), To: c.IntN(20)})
		}
	}
	return i
}

func TestTextsThatAreRefused(t *testing.T) {
	good := mustCode(t, porch())
	signed := func(text string) string { return text + sumOf(text) }
	body := good[:len(good)-codeSum]
	for name, row := range map[string]struct {
		text string
		want error
	}{
		"nothing":                    {"", ErrCodeForeign},
		"an address":                 {"gopher://somewhere.example", ErrCodeForeign},
		"small letters":              {strings.ToLower(good), ErrCodeForeign},
		"the name alone":             {"GAPWRIGHT", ErrCodeDamaged},
		"the name and a sum":         {signed("GAPWRIGHT"), ErrCodeDamaged},
		"no number":                  {signed("GAPWRIGHT*" + body[len("GAPWRIGHT1*"):]), ErrCodeDamaged},
		"layout 0":                   {signed(strings.Replace(body, "T1*", "T0*", 1)), ErrCodeDamaged},
		"layout 2":                   {signed(strings.Replace(body, "T1*", "T2*", 1)), ErrCodeLater},
		"layout 2, all else unlike":  {signed("GAPWRIGHT2*?"), ErrCodeLater},
		"a damaged number":           {strings.Replace(good, "T1*", "T2*", 1), ErrCodeDamaged},
		"no sum":                     {body, ErrCodeDamaged},
		"cut short":                  {good[:len(good)-1], ErrCodeDamaged},
		"a field more":               {signed(body + "1*"), ErrCodeDamaged},
		"a field less":               {signed(strings.TrimSuffix(body, "+A") + "+9"), ErrCodeDamaged},
		"a family that is not known": {signed(strings.Replace(body, "FLAT-TOP-6", "NOSE-FLUTE", 1)), ErrCodeLater},
		"no such string":             {signed(strings.Replace(body, "*12*M*M2.25", "7*12*M*M2.25", 1)), ErrCodeDamaged},
		"no such fret":               {signed(strings.Replace(body, "*12*M*M2.25", "*99*M*M2.25", 1)), ErrCodeDamaged},
		"no such way":                {signed(strings.Replace(body, "12*M*", "12*SMELL*", 1)), ErrCodeDamaged},
		"marks the wrong way round":  {signed(strings.Replace(body, "M2.25*M2.50", "M2.50*M2.25", 1)), ErrCodeDamaged},
		"a scale beyond belief":      {signed(strings.Replace(body, "M648", "M6480", 1)), ErrCodeDamaged},
		"a unit that is not known":   {signed(strings.Replace(body, "M648", "C648", 1)), ErrCodeDamaged},
		"a number that is none":      {signed(strings.Replace(body, "+920+", "+92X+", 1)), ErrCodeDamaged},
		"an endless number":          {signed(strings.Replace(body, "+920+", "+999999999999999999999+", 1)), ErrCodeDamaged},
		"a sign that marks nothing":  {signed(strings.Replace(body, "$PORCH", "PORCH$", 1)), ErrCodeDamaged},
		"half of a sign":             {signed(strings.Replace(body, "$PORCH", "%D800PORCH", 1)), ErrCodeDamaged},
		"an id with a slash":         {signed(strings.Replace(body, "5F0C", "5F/C", 1)), ErrCodeDamaged},
		"endless field ends":         {signed(body + strings.Repeat("+Z", 2000)), ErrCodeDamaged},
		"longer than any symbol":     {signed(body + strings.Repeat("A", 5000)), ErrCodeDamaged},
	} {
		if row.text == good || row.text == signed(body) {
			t.Errorf("%s: the text is the good one", name)
		}
		if got, err := ReadCode(row.text); !errors.Is(err, row.want) || !reflect.DeepEqual(got, Instrument{}) {
			t.Errorf("%s: %v, want %v; %+v", name, err, row.want, got)
		}
	}
}

// Every single sign that is lost, doubled or another one is found out.
func TestAnySingleDamageIsFound(t *testing.T) {
	good := mustCode(t, porch())
	for n := range good {
		damaged := []string{good[:n] + good[n+1:], good[:n] + good[n:n+1] + good[n:]}
		for _, sign := range signs {
			damaged = append(damaged, good[:n]+string(sign)+good[n+1:])
		}
		for _, text := range damaged {
			if _, err := ReadCode(text); err == nil && text != good {
				t.Fatalf("sign %d: taken although damaged: %s", n, text)
			}
		}
	}
}

// FuzzReadCode gives a text of its own making the right sum: it is refused, or it is an instrument that can be worked with and is written and read the
// same; never a panic.
func FuzzReadCode(f *testing.F) {
	for _, i := range []Instrument{{ID: "a", Family: geometry.Bass5}, porch(), smallerFullest()} {
		text, _, err := i.Code()
		if err != nil {
			f.Fatal(err)
		}
		f.Add(text[:len(text)-codeSum])
	}
	f.Add("GAPWRIGHT1*+Z+Z+Z+Z")
	f.Fuzz(func(t *testing.T, text string) {
		for _, text := range []string{text, text + sumOf(text)} {
			i, err := ReadCode(text)
			if err != nil {
				if !slices.Contains(CodeRefusals(), err) {
					t.Fatalf("%v is no refusal of a text", err)
				}
				continue
			}
			if err := i.Check(); err != nil {
				t.Fatalf("taken, but %v", err)
			}
			if _, err := json.Marshal(i); err != nil {
				t.Fatalf("taken, but cannot be kept: %v", err)
			}
			again, without, err := i.Code()
			if errors.Is(err, ErrCodeLong) || len(without) > 0 {
				continue // a longer text than is written
			}
			if back, err := ReadCode(again); err != nil || inWords(back) != inWords(i) {
				t.Fatalf("%v\n%s\n%s", err, inWords(back), inWords(i))
			}
		}
	})
}

// Released texts open for ever: testdata/codes holds, by layout, the text and the instrument that it is. What is there is never written again.
func TestReleasedTextsOpen(t *testing.T) {
	folder := filepath.Join("..", "..", "testdata", "codes")
	for name, i := range map[string]Instrument{"ordinary": porch(), "fullest": fullest(), "everything-once": smallerFullest(), "bare": {ID: "a", Family: geometry.Mandolin}} {
		path := filepath.Join(folder, "v1", name)
		if _, err := os.Stat(path + ".txt"); err == nil {
			continue
		}
		text := mustCode(t, i)
		back, err := ReadCode(text)
		if err != nil {
			t.Fatal(err)
		}
		if err := errors.Join(os.MkdirAll(filepath.Dir(path), 0o755), os.WriteFile(path+".txt", []byte(text), 0o644), os.WriteFile(path+".json", []byte(inWords(back)), 0o644)); err != nil {
			t.Fatal(err)
		}
		t.Errorf("%s was missing and is written: look at it", path)
	}
	texts, err := filepath.Glob(filepath.Join(folder, "v*", "*.txt"))
	if err != nil || len(texts) < 4 {
		t.Fatalf("found %d texts: %v", len(texts), err)
	}
	for _, path := range texts {
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		want, err := os.ReadFile(strings.TrimSuffix(path, ".txt") + ".json")
		if err != nil {
			t.Fatal(err)
		}
		if i, err := ReadCode(string(text)); err != nil || inWords(i) != string(want) {
			t.Errorf("%s: %v\n%s\n%s", path, err, inWords(i), want)
		}
	}
}

func TestTakingWhatAnotherCopySays(t *testing.T) {
	mine := porch()
	mine.Tags, mine.Owner, mine.Radius, mine.Set = "loft", "Ann", Typed{"400", MM}, &Stringing{Capo: 2}
	mine.AsSet.Rod = []RodTurn{{Eighths: 2}}
	theirs := porch()
	theirs.ID, theirs.Name, theirs.LeftHanded = "other", "Renamed", true
	theirs.AsSet.At = mine.AsSet.At.Add(time.Hour)
	theirs.AsSet.Readings[0].High.Text = "2.40"

	got := mine.Taking(theirs)
	want := theirs
	want.ID, want.Tags, want.Owner, want.Radius, want.Set = mine.ID, "loft", "Ann", Typed{"400", MM}, mine.Set
	set := *theirs.AsSet
	set.Rod = mine.AsSet.Rod
	want.AsSet = &set
	if !reflect.DeepEqual(got, want) {
		t.Errorf("%s\n%s", inWords(got), inWords(want))
	}
	if theirs.AsSet.Rod != nil {
		t.Error("what was read was changed")
	}

	theirs.AsSet = nil
	if got := mine.Taking(theirs); !reflect.DeepEqual(got.AsSet, mine.AsSet) {
		t.Error("a copy that was never set took the numbers away")
	}
	theirs.Family = geometry.Bass
	if got := mine.Taking(theirs); got.Set != nil || got.Radius.Given() || got.ID != mine.ID {
		t.Errorf("of another family: %s", inWords(got))
	}
}

func TestCopiesAreComparedByWhenTheyWereSet(t *testing.T) {
	mine := porch()
	for _, row := range []struct {
		later time.Duration
		want  CodeAge
	}{{0, CodeSame}, {time.Hour, CodeNewer}, {-time.Hour, CodeOlder}} {
		other := porch()
		other.AsSet.At = other.AsSet.At.Add(row.later)
		if got := mine.Against(other); got != row.want {
			t.Errorf("set %v later: %v, want %v", row.later, got, row.want)
		}
	}
	if got := mine.Against(Instrument{}); got != CodeOther {
		t.Errorf("never set: %v", got)
	}
	if got := (Instrument{}).Against(mine); got != CodeOther {
		t.Errorf("never set here: %v", got)
	}
}

func TestTheUnitThatACopyWasReadIn(t *testing.T) {
	inches := porch()
	inches.AsSet.Readings[0].Low.Unit = Inch
	for want, i := range map[Unit]Instrument{MM: porch(), Inch: inches} {
		if got := i.ReadIn(); got != want {
			t.Errorf("%v, want %v", got, want)
		}
	}
	if got := (Instrument{}).ReadIn(); got != MM {
		t.Errorf("of one that says nothing: %v", got)
	}
	if got := (Instrument{Scale: Typed{"25.5", Inch}}).ReadIn(); got != Inch {
		t.Errorf("of one that has a scale: %v", got)
	}
}
