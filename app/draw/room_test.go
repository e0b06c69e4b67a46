package draw

import (
	"math"
	"slices"
	"strings"
	"testing"

	"gapwright/geometry"
)

// bowed is a string of a neck whose body joint is at the given fret, with so much relief: between fret 1 and the joint the frets' tops
// lie at −4r(x−x1)(xj−x)/(xj−x1)², beyond it on the tangent.
func bowed(name string, length float64, joint, frets int, relief float64) Explored {
	s := Explored{Name: name, Length: length}
	at := func(n int) float64 { return length * (1 - math.Exp2(-float64(n)/12)) }
	x1, xj := at(1), at(joint)
	for n := range frets {
		x := at(n + 1)
		top := 4 * relief * (x - xj) / (xj - x1)
		if x <= xj {
			top *= (x - x1) / (xj - x1)
		}
		s.Frets, s.Tops = append(s.Frets, x), append(s.Tops, top)
	}
	return s
}

func explored(length float64, joint, frets int, relief float64) Explore {
	e := Explore{Title: "How high", Desc: "Bass 2.30 mm, treble 1.75 mm", Exaggerated: "drawn 35 × too tall"}
	bass, treble := bowed("Bass", length, joint, frets, relief), bowed("Treble", length, joint, frets, relief)
	bass.Nut, bass.Now, bass.Wanted, bass.First, bass.Room, bass.Value = 0.62, geometry.Interval{Low: 4.2, High: 4.7}, 4.0, 13, RoomMay, "2.30 mm"
	treble.Nut, treble.Now, treble.Wanted = 0.45, geometry.Interval{Low: 3.0, High: 3.4}, 3.0
	treble.First, treble.Room, treble.Value = 20, RoomClear, "1.75 mm"
	bass.Sign, treble.Sign = [2]string{"may hit", "fret 13"}, [2]string{"clears", "fret 20"}
	e.Strings = [2]Explored{bass, treble}
	return e
}

func exampleExplore() Explore { return explored(648, 14, 20, 0.2) }

func roomRow(name string, frets int, may, touches []int) RoomRow {
	r := RoomRow{Name: name}
	for n := range frets + 1 {
		room := RoomClear
		switch {
		case slices.Contains(touches, n):
			room = RoomTouches
		case slices.Contains(may, n):
			room = RoomMay
		}
		r.Rooms = append(r.Rooms, room)
	}
	return r
}

func exampleRoomNeck() RoomNeck {
	return RoomNeck{Title: "Room", Desc: "Bass may touch at 3 to 6", Row: -1, Keys: [3]string{"clear", "may touch", "touches"},
		Rows: []RoomRow{roomRow("Bass", 20, []int{3, 4, 5, 6, 9}, []int{7, 8}), roomRow("Treble", 20, []int{1, 2}, nil)}}
}

// rooms is the pictures of the room over the frets.
func rooms() []named {
	var list []named
	add := func(name string, s Scene) { list = append(list, named{name, s}) }

	e := exampleExplore()
	add("explore", ExplorePicture(e))
	e.Strings[0].Chosen, e.Strings[0].Wanted, e.Strings[0].First, e.Strings[0].Room, e.Strings[0].Value = true, 3.1, 2, RoomTouches, "1.85 mm"
	e.Strings[0].Sign = [2]string{"touches", "fret 2"}
	e.Strings[1].Wanted, e.Strings[1].Value = 3.8, "2.15 mm"
	add("explore-held", ExplorePicture(e))
	e = explored(863.6, 16, 24, 0.3) // a 34-inch bass
	e.Strings[0].Nut, e.Strings[0].Now, e.Strings[0].Wanted = 0.8, geometry.Interval{Low: 5.4, High: 6}, 4.6
	e.Strings[1].Room, e.Strings[1].Name, e.Strings[1].Value = RoomNotKnown, "thinnest one", "63/64 + .004"
	add("explore-bass", ExplorePicture(e))
	e = explored(365, 12, 12, 0.05)
	e.Strings[1].Wanted, e.Strings[1].First = 40, 0
	e.Strings[0].Wanted, e.Strings[0].First, e.Strings[0].Room = -3, 12, RoomTouches
	e.Exaggerated = strings.Repeat("x", 32)
	add("explore-short", ExplorePicture(e))
	e.Strings[0], e.Strings[1].Frets, e.Strings[1].Length = Explored{First: 3}, nil, math.NaN()
	e.Exaggerated = ""
	add("explore-nothing", ExplorePicture(e))

	n := exampleRoomNeck()
	add("rooms", RoomNeckPicture(n))
	n.Row, n.Rows[0].Stop, n.Rows[0].First = 0, 7, 12
	add("rooms-pointed", RoomNeckPicture(n))
	n.LeftHanded, n.Row, n.Rows[1].First = true, 1, 2
	add("rooms-left", RoomNeckPicture(n))
	n.Rows = nil
	for i, name := range strings.Fields("E A D G B lettersE") {
		n.Rows = append(n.Rows, roomRow(name, 24-2*i, []int{3, 4, 13}, []int{2 + i}))
	}
	for i := range n.Rows { // the fourth row has 18 frets, so the stop is not known
		n.Rows[i].Stop, n.Rows[i].First = [...]int{2, 3, 0, 20, 12, 7}[i], [...]int{3, 7, 2, 21, 24, 19}[i]
	}
	n.LeftHanded, n.Row = false, 4
	n.Keys = [3]string{"clears all frets", "may touch a fret", "touches one fret"}
	add("rooms-six", RoomNeckPicture(n))
	add("rooms-nothing", RoomNeckPicture(RoomNeck{}))
	return list
}

func TestExploringChangesInPlace(t *testing.T) {
	for _, e := range []Explore{exampleExplore(), explored(863.6, 16, 24, 0.3), {}} {
		e.Title, e.Desc = "t", "d"
		first := Nodes(ExplorePicture(e))
		if len(first) >= 80 {
			t.Errorf("%d nodes, want fewer than 80", len(first))
		}
		for _, wanted := range []float64{-5, 0, 2.99, 4, 4.3, 4.69, 6, 99, math.NaN()} {
			for _, fret := range []int{-1, 0, 1, 20, 30} {
				for _, room := range Rooms() {
					for _, value := range []string{"", "2.30 mm", "a long value here"} {
						for i := range e.Strings {
							e.Strings[i].Wanted, e.Strings[i].First, e.Strings[i].Room, e.Strings[i].Value = wanted, fret, room, value
							e.Strings[i].Chosen = !e.Strings[i].Chosen && i == fret%2
						}
						nodes := Nodes(ExplorePicture(e))
						if len(nodes) != len(first) {
							t.Fatalf("wanted %v, fret %d, room %d: %d nodes, were %d", wanted, fret, room, len(nodes), len(first))
						}
						for k, n := range nodes {
							if n.Tag != first[k].Tag || n.Tap != first[k].Tap || len(n.Attr) != len(first[k].Attr) {
								t.Fatalf("wanted %v, fret %d, room %d: node %d is %s, was %s", wanted, fret, room, k, n.Tag, first[k].Tag)
							}
							for a, attr := range n.Attr {
								if attr[0] != first[k].Attr[a][0] || attr[1] == "" || strings.Contains(attr[1], "NaN") {
									t.Fatalf("wanted %v, fret %d, room %d: node %d has %s=%q", wanted, fret, room, k, attr[0], attr[1])
								}
							}
						}
					}
				}
			}
		}
	}
}

func TestExploringIsTrueToItself(t *testing.T) {
	e := exampleExplore()
	// 242 units for 648 mm; 4.7 mm and an eighth more, and 0.2 mm under the chord, take (5.2875 + 0.2)·0.37346 = 2.049 units, × 30 = 61.5;
	// × 35 = 71.7 would be more than the 95 − 16 − 17 = 62 there are
	if got := ExploreTimes(e); got != 30 {
		t.Errorf("drawn %d times taller, want 30", got)
	}
	rise := ExploreRise(e)
	if want := 648.0 / 242 / 30; math.Abs(rise-want) > 1e-12 {
		t.Errorf("a unit is %.6f mm, want %.6f", rise, want)
	}
	for i := range e.Strings {
		before := shapeOf(ExplorePicture(e), StopLine, i).Points
		grip := shapeOf(ExplorePicture(e), Grip, i).Points[0]
		if end := before[len(before)-1]; grip.Y != end.Y || grip.X <= end.X {
			t.Errorf("string %d: the grip is at %v, the string ends at %v", i, grip, end)
		}
		moved := e
		moved.Strings[i].Wanted -= rise
		after := shapeOf(ExplorePicture(moved), StopLine, i).Points
		if got := after[len(after)-1].Y - before[len(before)-1].Y; math.Abs(got-1) > 1e-9 {
			t.Errorf("string %d: one rise lower ends %.6f units lower, want 1", i, got)
		}
		other := shapeOf(ExplorePicture(moved), StopLine, 1-i).Points
		if was := shapeOf(ExplorePicture(e), StopLine, 1-i).Points; !slices.Equal(other, was) {
			t.Errorf("string %d moves with the other", 1-i)
		}
	}
	for _, wanted := range []float64{-3, 0, 2, 9, math.Inf(1)} {
		moved := e
		moved.Strings[0].Wanted, moved.Strings[1].Wanted = wanted, wanted
		if ExploreTimes(moved) != 30 || ExploreRise(moved) != rise {
			t.Errorf("wished %v the picture is drawn to another scale", wanted)
		}
	}
	if got := ExploreRise(Explore{}); !(got > 0) || math.IsInf(got, 0) {
		t.Errorf("nothing given: a unit is %v mm", got)
	}
}

// The relief is drawn as much taller as the string is: fret 7 of the example lies 0.2·4·(x7−x1)(x14−x7)/(x14−x1)² under fret 1.
func TestExploringShowsTheRelief(t *testing.T) {
	e := exampleExplore()
	frets := shapeOf(ExplorePicture(e), Outline, 0).Points // foot and top of each
	fall := frets[2*6+1].Y - frets[1].Y
	if want := -e.Strings[0].Tops[6] / ExploreRise(e); math.Abs(fall-want) > 1e-9 || fall < 2 {
		t.Errorf("fret 7 lies %.3f units under fret 1, want %.3f and 2 at least", fall, want)
	}
}

func TestGripsCanBeTakenHoldOf(t *testing.T) {
	e := exampleExplore()
	for _, pair := range [][2]float64{{4, 3}, {-9, 99}, {99, -9}, {0, 0}, {math.NaN(), 4}} {
		e.Strings[0].Wanted, e.Strings[1].Wanted = pair[0], pair[1]
		scene := ExplorePicture(e)
		if scene.Height > 240 {
			t.Fatalf("%.0f units high, want 240 at most", scene.Height)
		}
		bass, treble := shapeOf(scene, Drag, 0), shapeOf(scene, Drag, 1)
		if bass.Tap != BassGrip || treble.Tap != TrebleGrip {
			t.Errorf("the grips tap %d and %d, want 1 and 2", bass.Tap, treble.Tap)
		}
		for i, g := range []Shape{bass, treble} {
			a, b, seen := g.Points[0], g.Points[1], shapeOf(scene, Grip, i)
			if b.X-a.X < 48 || b.Y-a.Y < 48 || a.X < 0 || a.Y < 0 || b.X > scene.Width || b.Y > scene.Height {
				t.Errorf("wished %v: grip %d takes from %v to %v, want 48 × 48 at least and inside", pair, i, a, b)
			}
			for _, q := range seen.Points {
				if q.X < a.X || q.X > b.X || q.Y < a.Y || q.Y > b.Y {
					t.Errorf("wished %v: grip %d is seen at %v, outside its target", pair, i, q)
				}
			}
		}
		if bass.Points[1].Y > treble.Points[0].Y {
			t.Errorf("wished %v: the grips overlap", pair)
		}
	}
}

// roomsIn counts the seen shapes of the rooms.
func roomsIn(shapes []Shape) map[Role]int {
	seen := map[Role]int{}
	for _, s := range shapes {
		switch s.Role {
		case RoomRing, RoomHalf, RoomFull, RoomCross, RoomDash:
			seen[s.Role]++
		}
	}
	return seen
}

func TestRoomsAreToldApartByShape(t *testing.T) {
	known := map[string]Room{}
	for _, r := range Rooms() {
		var p, every pen
		p.room(r, 10, 10, 4.5, false)
		every.room(r, 10, 10, 4.5, true)
		a, b := roomsIn(p.Shapes), roomsIn(every.Shapes)
		form := ""
		for _, s := range p.Shapes {
			form += string(rune('a'+s.Kind)) + string(rune('0'+len(s.Points)))
		}
		if was, twice := known[form]; twice || form == "" {
			t.Errorf("rooms %d and %d are drawn alike", r, was)
		}
		known[form] = r
		for role, n := range a {
			if b[role] != n {
				t.Errorf("room %d: %s is seen %d times among all and %d times alone", r, role, b[role], n)
			}
		}
		if len(a) != len(b) {
			t.Errorf("room %d: others are seen too", r)
		}
	}
}

func TestNeckHasARoomInEverySpace(t *testing.T) {
	n := exampleRoomNeck()
	seen := roomsIn(RoomNeckPicture(n).Shapes)
	// 2 × 21 places and a key of three: 7 may and 1 in the key, 2 touch and 1 in the key, all others are clear; a ring also goes round a half
	if seen[RoomHalf] != 8 || seen[RoomFull] != 3 || seen[RoomRing] != 42-2+2 || seen[RoomDash] != 0 {
		t.Errorf("seen %v", seen)
	}
	n.Rows[1].Rooms = n.Rows[1].Rooms[:11] // 10 frets are not known
	if seen := roomsIn(RoomNeckPicture(n).Shapes); seen[RoomDash] != 10 {
		t.Errorf("%d not known, want 10", seen[RoomDash])
	}
	if tall, rows := RoomNeckPicture(n).Height, 2.0; tall > 60+34*rows+20 {
		t.Errorf("%.0f units high", tall)
	}
}

// On the lap the bass string is nearest; a left-handed instrument is the other's mirror image, and its key still reads from left to right.
func TestNeckLiesAsOnTheLap(t *testing.T) {
	n := exampleRoomNeck()
	find := func(n RoomNeck, text string) Point {
		for _, s := range RoomNeckPicture(n).Shapes {
			if s.Text == text {
				return s.Points[0]
			}
		}
		return Point{math.NaN(), math.NaN()}
	}
	right, key := map[string]Point{}, find(n, "clear")
	for _, text := range []string{"Bass", "Treble", "3", "12"} {
		right[text] = find(n, text)
	}
	if !(right["Bass"].Y > right["Treble"].Y && right["3"].X < right["12"].X) {
		t.Errorf("%v", right)
	}
	n.LeftHanded = true
	for text, at := range right {
		if got := find(n, text); math.Abs(got.X-(320-at.X)) > 1e-9 || got.Y != at.Y {
			t.Errorf("left-handed %q is at %v, right-handed at %v", text, got, at)
		}
	}
	if find(n, "clear") != key {
		t.Error("the key has moved")
	}
	e := exampleExplore()
	grip := shapeOf(ExplorePicture(e), Grip, 0).Points[0]
	e.LeftHanded = true
	if got := shapeOf(ExplorePicture(e), Grip, 0).Points[0]; got.X != 320-grip.X || got.Y != grip.Y {
		t.Errorf("a left-handed grip at %v, a right-handed at %v", got, grip)
	}
}

// Every string shows where it has the least room and the fret that is touched first from there, also beyond the highest stop; one has an arrow.
func TestFirstTouchIsShownForEveryString(t *testing.T) {
	n := exampleRoomNeck()
	n.Rows[0].Stop, n.Rows[0].First, n.Rows[1].Stop, n.Rows[1].First = 7, 12, 20, 23
	for row, y := range []float64{51, 27} { // the lanes are 24 high and begin at 15, bass nearest
		n.Row = row
		scene := RoomNeckPicture(n)
		var frames, frets, arrows []Shape
		for _, s := range scene.Shapes {
			switch {
			case s.Role == StepNow:
				frames = append(frames, s)
			case s.Role == Move && s.Kind == Sweep:
				arrows = append(arrows, s)
			case s.Role == Move:
				frets = append(frets, s)
			}
		}
		if len(frames) != 2 || len(frets) != 2 || len(arrows) != 1 {
			t.Fatalf("%d frames, %d frets, %d arrows", len(frames), len(frets), len(arrows))
		}
		arrow := arrows[0].Points
		if to := arrow[len(arrow)-1]; frames[row].Points[0].Y != y || arrow[0].X != frames[row].Points[0].X || to.X != frets[row].Points[0].X {
			t.Errorf("framed at %v, the arrow goes from %v to %v, the fret is at %v", frames[row].Points[0], arrow[0], to, frets[row].Points[0])
		}
	}
	for _, none := range [][2]int{{0, 0}, {12, 7}, {7, 25}, {-1, 3}} {
		n.Rows[0].Stop, n.Rows[0].First, n.Rows[1].Stop, n.Rows[1].First = none[0], none[1], 0, 0
		if shapeOf(RoomNeckPicture(n), StepNow, 0).Kind == Circle {
			t.Errorf("%v is pointed out, and there is no such stop", none)
		}
	}
}

func BenchmarkExplorePicture(b *testing.B) {
	e := exampleExplore()
	for b.Loop() {
		Nodes(ExplorePicture(e))
	}
}
