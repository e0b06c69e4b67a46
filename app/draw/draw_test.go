package draw

import (
	"encoding/xml"
	"errors"
	"flag"
	"io"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"gapwright/geometry"
)

var update = flag.Bool("update", false, "rewrite the golden pictures")

const pictures = "../../testdata/pictures"

func exampleReading() Reading {
	return Reading{Title: "Reading 2.25", Desc: "Light at 2.25, none at 2.50", First: 7, Marks: []string{"", "2", "2.25", "2.5", "2.75", "3"}, Lit: 9,
		Light: "light", NoLight: "no light"}
}

func exampleSaddle() Saddle {
	return Saddle{Title: "The line", Desc: "0.40 at the bass end", Length: 72, Height: 9, Rise: 1.6, Cut: [2]float64{0.4, 0.25},
		Strings: []float64{-27, -16.2, -5.4, 5.4, 16.2, 27}, Ends: [2]string{"bass", "treble"}, Numbers: [2]string{"0.40 mm", "0.25 mm"},
		Zoom: "ends ×20", Letter: "B", PencilWidth: 0.4, PencilCaption: "Sand to the lower edge of the line"}
}

func exampleSide() Side {
	return Side{Title: "The string", Desc: "now and after", Scale: 648, Fret: 12, Nut: 0.5, Now: geometry.Interval{Low: 2.25, High: 2.5},
		After: geometry.Interval{Low: 2.0, High: 2.3}, NowLabel: "now 2.25 to 2.50", AfterLabel: "after 2.00 to 2.30", FretLabel: "12",
		Exaggerated: "20 times taller than it is"}
}

func exampleCheck() Check {
	return Check{Title: "As set and now", Desc: "nothing moved", Was: [2]geometry.Interval{{Low: 2.25, High: 2.5}, {Low: 1.75, High: 2}},
		Is: [2]geometry.Interval{{Low: 2.25, High: 2.5}, {Low: 1.5, High: 1.75}}, Names: [2]string{"Bass string", "Treble string"}, WasLabel: "as set", IsLabel: "now", Note: "heights to scale"}
}

type named struct {
	name  string
	scene Scene
}

// all is every picture, as it usually is and at its extremes.
func all() []named {
	var list []named
	add := func(name string, s Scene) { list = append(list, named{name, s}) }

	r := exampleReading()
	add("reading", RuleReading(r))
	r.Marks, r.Fret = []string{"", "2", "2.25", "2.5", "2.75"}, "12"
	add("reading-neck", RuleReading(r))
	r.Lit, r.LeftHanded = 8, true
	add("reading-neck-left", RuleReading(r))
	r = exampleReading()
	r.Lit = 1000
	add("reading-not-chosen", RuleReading(r))
	r = Reading{Title: "t", First: 0, Marks: []string{"0", "1/64", "2/64", "3/64", "4/64", "5/64", "6/64"}, Lit: 3, Light: "light shows", NoLight: "no light"}
	add("reading-64ths", RuleReading(r))
	r.End = EndBlank
	add("reading-blank", RuleReading(r))
	r.Lit = -1
	add("reading-none", RuleReading(r))
	r.End, r.Lit, r.Marks[0] = EndCut, 1, ""
	add("reading-cut-off", RuleReading(r))

	r = Reading{Title: "t", First: 7, Marks: []string{"0.07 in", "0.08 in", "0.09 in", "0.10 in"}, Lit: 6, Light: "brightness seen", NoLight: "brightness gone"}
	add("reading-long-labels", RuleReading(r))
	r.Lit, r.First = 9, 7
	add("reading-top", RuleReading(r))

	s := exampleSaddle()
	add("saddle", SaddleCut(s))
	s.LeftHanded, s.PencilWidth, s.PencilCaption = true, 0, ""
	add("saddle-left", SaddleCut(s))
	s.LeftHanded, s.Beside = false, CardsThere
	add("saddle-cards", SaddleCut(s))
	s.Beside = KnifeThere
	add("saddle-knife", SaddleCut(s))
	s.Beside, s.Dots, s.LeftHanded = NoTool, true, true
	add("saddle-dots-left", SaddleCut(s))
	s.Cut, s.Numbers, s.Height = [2]float64{0, 0.05}, [2]string{"nothing here", "63/64 in and 0.004 in"}, 0
	add("saddle-least", SaddleCut(s))
	s.Cut, s.Height, s.Numbers, s.Ends = [2]float64{5, 4}, 9, [2]string{"5.00 mm", "4.00 mm"}, [2]string{"thickest string", "thinnest string"}
	add("saddle-most", SaddleCut(s))

	d := exampleSide()
	add("side", StringSide(d))
	d.Scale, d.Now, d.After, d.Fret, d.FretLabel = 365, geometry.Interval{Low: 14, High: 15}, geometry.Interval{Low: 0, High: 1}, 17, "17"
	add("side-extreme", StringSide(d))
	d.Scale, d.Fret, d.Nut = 1200, 5, 2
	add("side-long", StringSide(d))

	c := exampleCheck()
	add("check", CheckPicture(c))
	c.Is = [2]geometry.Interval{{Low: 2.75, High: 3}, {Low: 1.75, High: 2}}
	c.LeftHanded = true
	add("check-left", CheckPicture(c))
	c.Is, c.Was[0], c.Was[1] = [2]geometry.Interval{{Low: 15, High: 15}, {Low: 0, High: 0.01}}, geometry.Interval{Low: 0, High: 0.3}, geometry.Interval{Low: 12, High: 14}
	add("check-extreme", CheckPicture(c))
	c = exampleCheck()
	c.Was = [2]geometry.Interval{}
	add("check-alone", CheckPicture(c))

	add("neck-begin", NeckProgress("Step 1 of 12", "", 12, 0, 0))
	add("neck", NeckProgress("Step 7 of 12", "", 12, 6, 2))
	add("neck-end", NeckProgress("All done", "", 12, 12, 40))
	return append(list, more()...)
}

func TestPicturesAreAsTheyWere(t *testing.T) {
	for _, p := range all() {
		path := filepath.Join(pictures, p.name+".svg")
		got := SVG(p.scene)
		if *update {
			if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if got != string(want) {
			t.Errorf("%s.svg is not what the golden picture is; look at it, then go test ./app/draw -update", p.name)
		}
	}
}

func TestEveryGoldenPictureIsStillDrawn(t *testing.T) {
	known := map[string]bool{}
	for _, p := range all() {
		if known[p.name] {
			t.Errorf("two pictures are called %s", p.name)
		}
		known[p.name] = true
	}
	files, err := filepath.Glob(filepath.Join(pictures, "*.svg"))
	if err != nil || len(files) < 60 {
		t.Fatalf("%d golden pictures, want 60 at least (%v)", len(files), err)
	}
	for _, f := range files {
		if name := strings.TrimSuffix(filepath.Base(f), ".svg"); !known[name] {
			t.Errorf("nothing draws %s", f)
		}
	}
}

func TestBothWritersWriteTheSame(t *testing.T) {
	for _, p := range all() {
		nodes := Nodes(p.scene)
		dec := xml.NewDecoder(strings.NewReader(SVG(p.scene)))
		i := -1
		for {
			token, err := dec.Token()
			if errors.Is(err, io.EOF) {
				break
			}
			if err != nil {
				t.Fatalf("%s: not XML: %v", p.name, err)
			}
			switch e := token.(type) {
			case xml.StartElement:
				i++
				if i >= len(nodes) {
					t.Fatalf("%s: more elements than the %d nodes", p.name, len(nodes))
				}
				want := nodes[i].Attr
				if i == 0 {
					want = append([][2]string{{"xmlns", "http://www.w3.org/2000/svg"}}, want...)
				}
				if e.Name.Local != nodes[i].Tag || len(e.Attr) != len(want) {
					t.Fatalf("%s: element %d is %s with %d attributes, want %s with %d", p.name, i, e.Name.Local, len(e.Attr), nodes[i].Tag, len(want))
				}
				for k, a := range e.Attr {
					if a.Name.Local != want[k][0] || a.Value != want[k][1] {
						t.Errorf("%s: element %d has %s=%q, want %s=%q", p.name, i, a.Name.Local, a.Value, want[k][0], want[k][1])
					}
				}
			case xml.CharData:
				if text := strings.TrimSpace(string(e)); i > 0 && text != "" && text != strings.TrimSpace(nodes[i].Text) {
					t.Errorf("%s: element %d says %q, want %q", p.name, i, text, nodes[i].Text)
				}
			}
		}
		if i+1 != len(nodes) {
			t.Errorf("%s: %d elements, want %d", p.name, i+1, len(nodes))
		}
	}
}

func TestTextIsEscaped(t *testing.T) {
	s := exampleSaddle()
	s.Title, s.Ends[0] = `<b> & "c"`, "a<b"
	if got := SVG(SaddleCut(s)); !strings.Contains(got, "&lt;b&gt; &amp; &quot;c&quot;</title>") || !strings.Contains(got, ">a&lt;b</text>") {
		t.Errorf("not escaped: %s", got)
	}
}

func TestEveryRoleHasAClass(t *testing.T) {
	css, err := os.ReadFile("../../web/css/pictures.css")
	if err != nil {
		t.Fatal(err)
	}
	used := map[Role]bool{}
	for _, p := range all() {
		for _, s := range p.scene.Shapes {
			used[s.Role] = true
		}
	}
	listed := map[Role]bool{}
	for _, r := range Roles() {
		listed[r] = true
		if !regexp.MustCompile(`\.` + r.Class() + `[ ,{]`).Match(css) {
			t.Errorf("no class %s in pictures.css", r.Class())
		}
		if !used[r] {
			t.Errorf("no picture uses the role %s", r)
		}
	}
	for r := range used {
		if !listed[r] {
			t.Errorf("the role %s is not listed", r)
		}
	}
	for _, c := range regexp.MustCompile(`\.p-([a-z-]+)`).FindAllSubmatch(css, -1) {
		if !listed[Role(c[1])] {
			t.Errorf("pictures.css has a class for %s, which is no role", c[1])
		}
	}
	if m := regexp.MustCompile(`#[0-9a-fA-F]{3,8}\b|rgb|hsl`).Find(css); m != nil {
		t.Errorf("pictures.css has a colour of its own: %s", m)
	}
}

func TestReadingChangesInPlace(t *testing.T) {
	r := exampleReading()
	r.First, r.Marks, r.Fret = 0, []string{"0", "1", "2", "3", "4", "5", "6"}, "24"
	for _, end := range []RuleEnd{EndIsZero, EndBlank, EndCut, EndNotKnown} {
		r.End = end
		var first []Node
		for lit := -2; lit <= 7; lit++ {
			r.Lit = lit
			nodes := Nodes(RuleReading(r))
			if first == nil {
				first = nodes
			}
			if len(nodes) != len(first) || len(nodes) >= 80 {
				t.Fatalf("lit %d: %d nodes, want %d and fewer than 80", lit, len(nodes), len(first))
			}
			for i, n := range nodes {
				if n.Tag != first[i].Tag || n.Tap != first[i].Tap || len(n.Attr) != len(first[i].Attr) {
					t.Errorf("lit %d: node %d is %s, was %s", lit, i, n.Tag, first[i].Tag)
				}
			}
		}
	}
}

func TestEveryMarkCanBeTapped(t *testing.T) {
	var rows []Shape
	scene := RuleReading(exampleReading())
	for _, s := range scene.Shapes {
		if s.Tap > 0 {
			rows = append(rows, s)
		}
	}
	if len(rows) != 6 {
		t.Fatalf("%d targets, want one for each of 6 marks", len(rows))
	}
	for i, s := range rows {
		high := (s.Points[1].Y - s.Points[0].Y) * 340 / scene.Width
		if s.Tap != 7+i+1 || high < 48 {
			t.Errorf("target %d taps %d, %.1f pixels high; want %d and 48 at least", i, s.Tap, high, 7+i+1)
		}
		if i > 0 && math.Abs(rows[i-1].Points[0].Y-s.Points[1].Y) > 1e-9 {
			t.Errorf("target %d does not join the one below", i)
		}
	}
}

func shapeOf(s Scene, role Role, which int) Shape {
	for _, shape := range s.Shapes {
		if shape.Role == role {
			if which == 0 {
				return shape
			}
			which--
		}
	}
	return Shape{}
}

func TestStringStandsBetweenTheTwoMarks(t *testing.T) {
	scene := RuleReading(exampleReading())
	wire := shapeOf(scene, WireEnd, 0)
	under := wire.Points[0].Y + wire.R
	lit, dark := shapeOf(scene, Lit, 2).Points[0].Y, shapeOf(scene, Unlit, 0).Points[0].Y // the marks 9 and 10
	if !(under < lit && under > dark) || wire.Points[0].Y-wire.R > dark {
		t.Errorf("underside at %.1f, want between the lit mark %.1f and the dark one %.1f, which it covers", under, lit, dark)
	}
}

func TestSaddleIsTrueToScale(t *testing.T) {
	s := exampleSaddle()
	line := shapeOf(SaddleCut(s), StopLine, 0) // 72 mm are 280 units: 0.40 mm are 1.56, 0.25 mm are 0.97
	rise := line.Points[1].Y - line.Points[0].Y
	if want := 0.15 * 280 / 72; math.Abs(rise-want) > 0.01 {
		t.Errorf("the line falls by %.3f towards the treble, want %.3f", rise, want)
	}
	if got := SaddleZoom(72, s.Cut); got != 20 { // 1.56 × 20 = 31 units, × 40 would be 62 and more than the 44 there are
		t.Errorf("magnified %d times, want 20", got)
	}
	s.LeftHanded = true
	mirrored := shapeOf(SaddleCut(s), StopLine, 0)
	if got := mirrored.Points[0].Y - mirrored.Points[1].Y; math.Abs(got-rise) > 1e-9 {
		t.Errorf("left-handed the line falls by %.3f, want the mirror image, %.3f", got, rise)
	}
}

// A quarter of a millimetre is told at arm's length, and the picture says when it does not begin at the fret.
func TestBarsTellWhatDiffers(t *testing.T) {
	c := exampleCheck() // 1.5 to 2.5 mm on 54 units, 0.45 of that left below: 54/1.45 = 37.2 a millimetre
	scene := CheckPicture(c)
	was, is := shapeOf(scene, Now, 1), shapeOf(scene, After, 1) // the treble: 1.75 to 2, and 1.5 to 1.75
	if got := is.Points[0].Y - was.Points[0].Y; math.Abs(got-9.31) > 0.01 {
		t.Errorf("0.25 mm are drawn %.2f high, want 9.31", got)
	}
	if !CheckBroken(c) {
		t.Error("the foot is left out and that is not said")
	}
	c.Is[1] = geometry.Interval{Low: 0.2, High: 0.4}
	if CheckBroken(c) {
		t.Error("from 0.2 mm on there is no foot to leave out")
	}
}

func TestNeckIsSpacedAsFretsAre(t *testing.T) {
	frame := shapeOf(NeckProgress("", "", 12, 0, 0), StepNow, 0)
	next := shapeOf(NeckProgress("", "", 12, 1, 0), StepNow, 0)
	ratio := (next.Points[1].X - next.Points[0].X) / (frame.Points[1].X - frame.Points[0].X)
	if math.Abs(ratio-0.943874) > 1e-5 { // 2^(−1/12) = 0.943874
		t.Errorf("the second space is %.6f of the first, want 0.943874", ratio)
	}
	scene := NeckProgress("", "", 12, 5, 3)
	dots, rounds := 0, 0
	for _, s := range scene.Shapes {
		switch s.Role {
		case StepDone:
			dots++
		case Round:
			rounds++
		}
	}
	if dots != 5 || rounds != 3 {
		t.Errorf("%d inlays and %d rounds, want 5 and 3", dots, rounds)
	}
}

func TestSideCarriesTheGapToTheSaddle(t *testing.T) {
	if got := atSaddle(2.5, 0.5, 0.5); got != 4.5 { // 0.5 + (2.5 − 0.5)/0.5
		t.Errorf("atSaddle(2.5, 0.5, 0.5) = %v, want 4.5", got)
	}
	if got := SideTimes(exampleSide()); got != 30 { // 4.5 mm × 284/648 = 1.97 units: × 30 = 59, × 40 = 79 and more than the 78 there are
		t.Errorf("drawn %d times taller, want 30", got)
	}
}

func BenchmarkRuleReading(b *testing.B) {
	r := exampleReading()
	for b.Loop() {
		Nodes(RuleReading(r))
	}
}

func TestNumbersAreShort(t *testing.T) {
	for x, want := range map[float64]string{0: "0", -0.004: "0", 0.05: "0.05", -0.5: "-0.5", 12: "12", 7.126: "7.13", -3.999: "-4", 100.1: "100.1", 1e15: "1000000000000000.00"} {
		if got := number(x); got != want {
			t.Errorf("number(%v) = %q, want %q", x, got, want)
		}
	}
}
