package draw

import (
	"encoding/xml"
	"errors"
	"io"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"gapwright/geometry"
)

// parallel is a saddle for strings that run parallel over a board of 16 in, 9 mm under the outer ones, in a slot of 72 × 2.5 mm.
func parallel(t *testing.T, known bool, places ...geometry.Length) geometry.NewSaddle {
	t.Helper()
	b := geometry.Blank{Neck: geometry.Neck{Scale: 650, Body: 14, Frets: 20}, Camber: geometry.Camber{Nut: 16 * geometry.Inch},
		Slot: geometry.Slot{Length: geometry.Exactly(72), Width: geometry.Exactly(2.5)}}
	for _, u := range places {
		s := geometry.BlankString{Seat: geometry.Seat{Nut: u, Saddle: u, First: geometry.Exactly(0.5), Twelfth: 2}}
		if known {
			s.Gap, s.Old = geometry.Exactly(2), geometry.Exactly(9-board(t, u)+board(t, places[0]))
		}
		b.Strings = append(b.Strings, s)
	}
	s, err := geometry.FromBlank(b)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func board(t *testing.T, u geometry.Length) geometry.Length {
	drop, err := geometry.Camber{Nut: 16 * geometry.Inch}.Drop(650, u)
	if err != nil {
		t.Fatal(err)
	}
	return drop
}

func exampleNewSaddle(t *testing.T) NewSaddle {
	return NewSaddle{Title: "A new saddle", Desc: "in life size", Saddle: parallel(t, true, -26, -15.6, -5.2, 5.2, 15.6, 26), Depth: 5,
		Sides: [2]string{"bass", "treble"}, Heights: []string{"9.00", "9.53", "9.80", "9.80", "9.53", "9.00"}, Ends: [2]string{"8.24 mm", "8.24 mm"},
		Length: "71.60 to 71.90 mm", Thickness: "2.45 to 2.50 mm", Check: "This line is 100 mm long"}
}

// lifeSizes is every picture in life size, as it usually is and at its extremes.
func lifeSizes(t *testing.T) []named {
	var list []named
	add := func(name string, s Scene) { list = append(list, named{name, s}) }
	n := exampleNewSaddle(t)
	add("saddle", LifeSize(n))
	n.Room, n.Check = 67, "This line is 50 mm long"
	n.Saddle = parallel(t, true, -26, -14, 0, 20)
	n.Heights, n.Ends = []string{"9.00", "9.60", "9.83", "9.34"}, [2]string{"8.24 mm", "8.50 mm"}
	add("saddle-narrow", LifeSize(n))
	n.LeftHanded, n.Ends, n.Sides = true, [2]string{"0.331 in", "0.335 in"}, [2]string{"thick string", "thin string"}
	add("saddle-left", LifeSize(n))
	n = exampleNewSaddle(t)
	var pairs []geometry.Length
	n.Heights = nil
	for _, u := range []geometry.Length{-26, -15.6, -5.2, 5.2, 15.6, 26} {
		pairs = append(pairs, u-1.1, u+1.1)
		n.Heights = append(n.Heights, "9.53", "9.55")
	}
	n.Saddle, n.Check = parallel(t, true, pairs...), "This line must measure one hundred millim."
	add("saddle-twelve", LifeSize(n))
	n.Room, n.Check = 67, "This line is 50 mm long"
	add("saddle-twelve-narrow", LifeSize(n))
	n = exampleNewSaddle(t)
	n.Saddle, n.Depth, n.Ends, n.Heights = parallel(t, false, -26, -15.6, -5.2, 5.2, 15.6, 26), 0, [2]string{}, []string{"0", "0.53", "0.80", "0.80", "0.53", "0"}
	add("saddle-shape", LifeSize(n))
	n.Saddle, n.Heights = geometry.NewSaddle{}, nil
	add("saddle-nothing", LifeSize(n))
	add("card", CardOutline(false, "Lay a card on this", "A card", ""))
	add("card-upright", CardOutline(true, "Lay a card on this", "A card", ""))
	return list
}

const lifePictures = "../../testdata/lifesize"

func TestLifeSizesAreAsTheyWere(t *testing.T) {
	known := map[string]bool{}
	for _, p := range lifeSizes(t) {
		known[p.name+".svg"] = true
		path := filepath.Join(lifePictures, p.name+".svg")
		got := Print(p.scene)
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
		dec := xml.NewDecoder(strings.NewReader(got))
		for {
			if _, err := dec.Token(); errors.Is(err, io.EOF) {
				break
			} else if err != nil {
				t.Fatalf("%s: not XML: %v", p.name, err)
			}
		}
	}
	files, err := os.ReadDir(lifePictures)
	if err != nil || len(files) != len(known) {
		t.Errorf("%d files for %d pictures, %v", len(files), len(known), err)
	}
	for _, f := range files {
		if !known[f.Name()] {
			t.Errorf("nothing draws %s", f.Name())
		}
	}
}

func TestLifeSizesFit(t *testing.T) {
	for _, p := range lifeSizes(t) {
		for i, s := range p.scene.Shapes {
			points := s.Points
			if s.Kind == Text {
				x0, y0, x1, y1 := extent(s)
				points = []Point{{x0, y0}, {x1, y1}}
				if s.Size < 2 {
					t.Errorf("%s: %q is only %.1f mm high", p.name, s.Text, s.Size)
				}
				for _, o := range p.scene.Shapes[:i] {
					if o.Kind != Text {
						continue
					}
					a0, b0, a1, b1 := extent(o)
					if x0 < a1 && a0 < x1 && y0 < b1 && b0 < y1 {
						t.Errorf("%s: %q lies over %q", p.name, s.Text, o.Text)
					}
				}
			}
			for _, q := range points {
				if !(q.X >= 0 && q.Y >= 0 && q.X <= p.scene.Width && q.Y <= p.scene.Height) {
					t.Errorf("%s: %s %q at %.2f, %.2f is outside %.2f × %.2f", p.name, s.Role, s.Text, q.X, q.Y, p.scene.Width, p.scene.Height)
				}
			}
			if s.Kind == Arrow || s.Kind == Dimension || s.Kind == Sweep {
				t.Errorf("%s: an arrow's head is made for pictures 320 wide", p.name)
			}
		}
	}
}

// The saddle, its strings and the line to check by are as long in drawing units as they are in millimetres, and the picture is as wide on paper as
// its box.
func TestLifeSizeIsLifeSize(t *testing.T) {
	n := exampleNewSaddle(t)
	s := LifeSize(n)
	var outline, underside, check Shape
	var seats []Shape
	for _, shape := range s.Shapes {
		switch {
		case shape.Kind == Polyline && shape.Role == Outline && len(shape.Points) > 50:
			outline = shape
		case shape.Kind == Polyline && shape.Role == Outline && len(shape.Points) == 2 && shape.Points[0].Y == shape.Points[1].Y:
			underside = shape
		case shape.Kind == Strokes && shape.Role == Outline:
			check = shape // the last of them
		case shape.Kind == Polyline && shape.Role == Fine:
			seats = append(seats, shape)
		}
	}
	near := func(what string, got, want float64) {
		t.Helper()
		if !(math.Abs(got-want) <= 0.005) {
			t.Errorf("%s: %.4f mm, want %.4f", what, got, want)
		}
	}
	near("underside", underside.Points[1].X-underside.Points[0].X, 71.9) // 72 − 0.1
	foot := underside.Points[0].Y
	near("the middle of the top", foot-outline.Points[30].Y, 9.832546) // 9 and the drop of 16 in at 26 mm, 0.832546
	near("its end", foot-outline.Points[0].Y, 8.239353)                // 35.95 mm: 35.95²/(406.4 + √(406.4² − 35.95²)) = 1.593193
	near("between the outer strings", seats[5].Points[2].X-seats[0].Points[2].X, 52)
	near("check line", check.Points[1].X-check.Points[0].X, 100)
	near("from tick to tick", check.Points[4].X-check.Points[2].X, 100)
	for want, room := range map[float64]float64{100: 0, 50: 67} {
		if CheckLine(room) != want {
			t.Errorf("on %v mm the line is %v", room, CheckLine(room))
		}
	}
	if CheckLine(108) != 100 || CheckLine(107.9) != 50 {
		t.Error("the longer line needs 100 mm and the edges")
	}
	sizes := regexp.MustCompile(`class="life" width="([0-9.]+)(mm)?" height="([0-9.]+)(mm)?" viewBox="0 0 ([0-9.]+) ([0-9.]+)"`)
	if m := sizes.FindStringSubmatch(Print(s)); m == nil || m[1] != m[5] || m[3] != m[6] || m[2] != "mm" || m[4] != "mm" || m[1] != "108" {
		t.Errorf("on paper: %v", m) // 100 and 4 at each side
	}
	if m := sizes.FindStringSubmatch(OnScreen(s, 14.4217)); m == nil || m[1] != "1557.54" || m[2] != "" { // 108 × 14.4217
		t.Errorf("on a screen: %v", m)
	}
}

func TestLifeSizeMirrored(t *testing.T) {
	n := exampleNewSaddle(t)
	n.Saddle = parallel(t, true, -26, -14, 0, 20)
	right := LifeSize(n)
	n.LeftHanded = true
	left := LifeSize(n)
	if len(left.Shapes) != len(right.Shapes) || left.Height != right.Height {
		t.Fatal("another picture")
	}
	mirrored := 0
	for i, s := range right.Shapes {
		if s.Role != Fine {
			continue
		}
		for k, q := range s.Points {
			m := left.Shapes[i].Points[k]
			if math.Abs(m.X-(right.Width-q.X)) > 1e-9 || math.Abs(m.Y-q.Y) > 1e-9 {
				t.Errorf("%v, want the mirror of %v", m, q)
			}
			mirrored++
		}
	}
	if mirrored != 12 {
		t.Errorf("%d points, want three of each string", mirrored)
	}
}

func TestACardIsACard(t *testing.T) {
	for upright, want := range map[bool][2]float64{false: {85.60, 53.98}, true: {53.98, 85.60}} {
		s := CardOutline(upright, "", "", "")
		p := s.Shapes[0].Points
		if math.Abs(p[1].X-p[0].X-want[0]) > 1e-9 || math.Abs(p[1].Y-p[0].Y-want[1]) > 1e-9 || math.Abs(s.Shapes[0].R-3.18) > 1e-9 || len(s.Shapes) != 1 {
			t.Errorf("upright %v: %v, corners %v", upright, p, s.Shapes[0].R)
		}
	}
}
