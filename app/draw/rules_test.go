package draw

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"gapwright/geometry"
)

var numbers = regexp.MustCompile(`-?[0-9.]+`)

// extent is the room of a label, from the top of its letters to under its baseline.
func extent(s Shape) (x0, y0, x1, y1 float64) {
	w := wide(s.Text, s.Size)
	x0 = s.Points[0].X
	switch s.Anchor {
	case Middle:
		x0 -= w / 2
	case End:
		x0 -= w
	}
	return x0, s.Points[0].Y - 0.75*s.Size, x0 + w, s.Points[0].Y + 0.2*s.Size
}

// leastLetter is how small letters may be: 14 units where 320 are the width of the screen, which is 12.6 pixels on a screen of 320 with its margins; in a picture
// to choose from, 64 pixels wide, 20.6 units are 11 pixels.
func leastLetter(s Scene) float64 {
	if s.Width == smallWide {
		return 20.6
	}
	return 14
}

// faults are the rules that a picture breaks: everything inside its box, every number a number, no label over another, no letter too small.
func faults(scene Scene) (all []string) {
	say := func(format string, with ...any) { all = append(all, fmt.Sprintf(format, with...)) }
	inside := func(x, y float64, what string) {
		if !(x >= -0.5 && y >= -0.5 && x <= scene.Width+0.5 && y <= scene.Height+0.5) {
			say("%s at %.1f, %.1f is outside %.0f × %.0f", what, x, y, scene.Width, scene.Height)
		}
	}
	nodes := Nodes(scene)
	for i, n := range nodes[len(nodes)-len(scene.Shapes):] {
		s := scene.Shapes[i]
		what := string(s.Role) + " " + s.Text
		if s.Role == Nothing || s.Role == Target {
			continue
		}
		for _, a := range n.Attr {
			if strings.Contains(a[1], "NaN") || strings.Contains(a[1], "Inf") {
				say("%s has %s=%s", what, a[0], a[1])
			}
			if a[0] == "d" {
				xy := numbers.FindAllString(a[1], -1)
				for k := 0; k+1 < len(xy); k += 2 {
					x, _ := strconv.ParseFloat(xy[k], 64)
					y, _ := strconv.ParseFloat(xy[k+1], 64)
					inside(x, y, what)
				}
			}
		}
		switch s.Kind {
		case Circle:
			inside(s.Points[0].X-s.R, s.Points[0].Y-s.R, what)
			inside(s.Points[0].X+s.R, s.Points[0].Y+s.R, what)
		case Rect:
			inside(s.Points[0].X, s.Points[0].Y, what)
			inside(s.Points[1].X, s.Points[1].Y, what)
		case Text:
			if s.Text == "" {
				continue
			}
			x0, y0, x1, y1 := extent(s)
			inside(x0, y0, what)
			inside(x1, y1, what)
			if s.Size < leastLetter(scene) {
				say("%q is set in %.1f units, want %.1f at least", s.Text, s.Size, leastLetter(scene))
			}
			for _, b := range scene.Shapes[:i] {
				if b.Kind != Text || b.Text == "" || b.Role == Nothing {
					continue
				}
				if bx0, by0, bx1, by1 := extent(b); x0 < bx1 && bx0 < x1 && y0 < by1 && by0 < y1 {
					say("%q lies over %q", s.Text, b.Text)
				}
			}
		}
	}
	return all
}

func TestEveryPictureKeepsTheRules(t *testing.T) {
	list := append(all(), extremes()...)
	if len(list) < 500 {
		t.Errorf("only %d pictures", len(list))
	}
	for _, p := range list {
		for _, fault := range faults(p.scene) {
			t.Errorf("%s: %s", p.name, fault)
		}
	}
}

// The checks themselves find what they look for.
func TestTheRulesFindFaults(t *testing.T) {
	for want, draw := range map[string]func(p *pen){
		"outside":      func(p *pen) { p.dot(WireEnd, 318, 50, 3) },
		"NaN":          func(p *pen) { p.line(Wire, 4, math.NaN(), 9, 9) },
		"lies over":    func(p *pen) { p.text(Label, 50, 40, Start, 90, 1, "one"); p.text(Label, 60, 45, Start, 90, 1, "two") },
		"units, want":  func(p *pen) { p.text(Label, 50, 40, Start, 40, 1, "far too long") },
		"is outside 3": func(p *pen) { p.text(Label, 300, 40, Start, 90, 1, "wide") },
	} {
		p := sheet("t", "t", "", 320, 100)
		draw(p)
		if got := strings.Join(faults(p.Scene), "; "); !strings.Contains(got, want) {
			t.Errorf("%q is not found: %q", want, got)
		}
	}
}

// The same values draw the same picture, and what is drawn of one does not stay for the next.
func TestPicturesAreTheSameEveryTime(t *testing.T) {
	again := append(all(), extremes()...)
	for i, p := range append(all(), extremes()...) {
		if SVG(p.scene) != SVG(again[i].scene) {
			t.Errorf("%s is another picture the second time", p.name)
		}
	}
}

// What the labels of a step's picture say, its description says, and in the same order.
func TestDescriptionsSayWhatLabelsSay(t *testing.T) {
	for _, a := range Acts() {
		labels, from := actLabels[a], 0
		scene := ActPicture(a, false, "t", "", labels...)
		for _, l := range labels {
			at := strings.Index(scene.Desc[from:], l)
			if at < 0 {
				t.Errorf("%s: %q is not in %q", a, l, scene.Desc)
				continue
			}
			from += at
		}
		drawn := ""
		for _, s := range scene.Shapes {
			if s.Kind == Text {
				drawn += s.Text + " " // a label may stand in two lines
			}
		}
		for _, l := range labels {
			if !strings.Contains(drawn, l) {
				t.Errorf("%s: the label %q is not drawn", a, l)
			}
		}
		for _, s := range ActPicture(a, true, "t", "").Shapes {
			if s.Kind == Text {
				t.Errorf("%s: without labels it says %q", a, s.Text)
			}
		}
		if scene.Height > actTall {
			t.Errorf("%s is %.0f high, more than %.0f", a, scene.Height, actTall)
		}
	}
}

// extremes is every constructor with all that its values can be: the widest and the narrowest instrument, 1 to 12 strings, the longest numbers in both units and
// the longest words, both hands.
func extremes() []named {
	var list []named
	add := func(s Scene, name string, with ...any) {
		list = append(list, named{name + " " + fmt.Sprint(with...), s})
	}
	exactly := func(mm float64) geometry.Interval {
		return geometry.Interval{Low: geometry.Length(mm), High: geometry.Length(mm)}
	}
	cuts, gaps, scales := []float64{0, 0.05, 0.4, 6}, []float64{0.3, 2.25, 6}, []float64{330, 648, 863.6} // ukulele, guitar, a bass of 34 in
	spans := []string{"6.00 to 6.25 mm", "0.236 to 0.246 in"}
	for _, left := range []bool{false, true} {
		for _, number := range []string{"6.00 mm", "0.236 in", "nothing here"} {
			for _, length := range []float64{35, 72, 120} {
				for _, bass := range cuts {
					for _, treble := range cuts {
						s := Saddle{Title: "t", Length: length, Height: 9, Rise: 1.5, Cut: [2]float64{bass, treble}, LeftHanded: left, Ends: [2]string{"Bass end", "Treble end"},
							Numbers: [2]string{number, number}, PencilWidth: 0.4, PencilCaption: "this edge counts"}
						if zoom := SaddleZoom(length, s.Cut); zoom > 1 {
							s.Zoom = fmt.Sprint("drawn ", zoom, " × as deep")
						}
						for n := range 12 {
							s.Strings = append(s.Strings, (float64(n)-5.5)*length/13)
						}
						add(SaddleCut(s), "saddle", left, number, length, bass, treble)
					}
				}
			}
		}
		for _, span := range spans {
			for _, scale := range scales {
				for _, gap := range gaps {
					s := Side{Title: "t", Scale: scale, Fret: 12, Nut: 1, Now: exactly(gap), After: exactly(gap / 2), NowLabel: "now " + span, AfterLabel: "after " + span, FretLabel: "12"}
					s.Exaggerated = fmt.Sprint("drawn ", SideTimes(s), " × too tall")
					scene := StringSide(s)
					if left {
						scene = Mirrored(scene)
					}
					add(scene, "side", left, span, scale, gap)
					l := exampleLearn(gap / 6)
					l.Length, l.Gaps = scale, [2]string{span[:7], span[:7]}
					for i := range l.Frets {
						l.Frets[i] *= scale / 648
					}
					add(LearnPicture(l), "learn", left, span, scale, gap)
				}
			}
		}
		for _, was := range append([]float64{0}, gaps...) {
			for _, is := range gaps {
				c := exampleCheck()
				c.LeftHanded, c.Was, c.Is = left, [2]geometry.Interval{exactly(was), exactly(was)}, [2]geometry.Interval{exactly(is), exactly(0.3)}
				add(CheckPicture(c), "check", left, was, is)
			}
		}
		for n := 1; n <= 12; n++ {
			over := numbered(OuterFirst(n))
			moves := make([]int, n)
			for i := range moves {
				moves[i] = i%3 - 1
			}
			for on := OnSaddle; on <= OnNut; on++ {
				a := Across{Title: "t", On: on, Strings: n, LeftHanded: left, Over: over, Moves: moves, At: n, Ends: [2]string{"bass", "treble"}, Note: "saddle in its slot"}
				if on == OnPosts {
					a.Over = []string{"12¾", "¼"}
				}
				add(AcrossPicture(a), "across", left, n, on)
				a.Ends, a.Note = [2]string{}, "outer strings first, then inwards"
				add(AcrossPicture(a), "across with a note", left, n, on)
			}
		}
		for _, a := range Acts() {
			for _, labels := range [][]string{nil, actLabels[a]} {
				add(ActPicture(a, left, "t", "", labels...), "act", a, left, len(labels))
			}
		}
		for _, step := range []struct{ marks []string }{{[]string{"5.75", "6.00", "6.25", "6.50", "6.75"}}, {[]string{"15/64", "16/64", "17/64", "18/64", "19/64"}}, {[]string{"0", "0.25", "0.5", "0.75", "1"}}} {
			for lit := -2; lit < 6; lit++ {
				for end := EndIsZero; end <= EndNotKnown; end++ {
					add(RuleReading(Reading{Title: "t", First: 0, Marks: step.marks, Lit: lit, End: end, Fret: "12", LeftHanded: left, Light: "light", NoLight: "no light"}), "reading", left, lit, end)
				}
			}
		}
	}
	for steps := 1; steps <= 14; steps++ {
		for current := -1; current <= steps; current++ {
			add(NeckProgress("t", "", steps, current, current+2), "progress", steps, current)
		}
	}
	return list
}

// Whatever is handed in, a saddle's picture keeps the rules.
func FuzzSaddleCut(f *testing.F) {
	f.Add(72.0, 9.0, 1.5, 0.4, 0.25, 6, false, "0.40 mm")
	f.Add(math.NaN(), math.Inf(1), -4.0, 900.0, math.Inf(-1), 12, true, "63/64 in and 0.004 in")
	f.Fuzz(func(t *testing.T, length, height, rise, bass, treble float64, strings int, left bool, number string) {
		s := Saddle{Title: "t", Length: length, Height: height, Rise: rise, Cut: [2]float64{bass, treble}, LeftHanded: left, Ends: [2]string{"Bass end", "Treble end"},
			Numbers: [2]string{"0.40 mm", clipped(number, 10)}, Zoom: "drawn 20 × as deep", PencilWidth: 0.4, PencilCaption: "this edge counts"}
		for n := range min(max(strings, 0), 12) {
			s.Strings = append(s.Strings, length*(float64(n)/11-0.5))
		}
		for _, fault := range faults(SaddleCut(s)) {
			t.Error(fault)
		}
	})
}

// Whatever is handed in, the strings lie side by side as the rules want it.
func FuzzAcross(f *testing.F) {
	f.Add(6, 1, 3, -1, false, "outer strings first")
	f.Add(-7, 250, 99, 5, true, "")
	f.Fuzz(func(t *testing.T, n, on, at, move int, left bool, note string) {
		a := Across{Title: "t", On: Holder(min(max(on, 0), 3)), Strings: n, LeftHanded: left, Over: numbered(OuterFirst(min(max(n, 0), 12))), Moves: []int{move, -move, 0}, At: at, Note: clipped(note, 18)}
		if a.On == OnPosts {
			a.Over = []string{"12¾ down", "¼ up"}
		}
		for _, fault := range faults(AcrossPicture(a)) {
			t.Error(fault)
		}
	})
}

// clipped is a text as long as a label may be, without signs that nobody prints.
func clipped(s string, most int) string {
	r := []rune(strings.ToValidUTF8(strings.Join(strings.Fields(s), " "), ""))
	return strings.TrimSpace(string(r[:min(len(r), most)]))
}
