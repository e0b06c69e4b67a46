package draw

import (
	"reflect"
	"testing"
)

// What Changed lists, written into the nodes of the old drawing, makes the nodes of the new one, and nothing in it is idle.
func TestChangedLeadsFromOneDrawingToTheOther(t *testing.T) {
	was := exampleExplore()
	for name, change := range map[string]func(e *Explore){
		"nothing":   func(*Explore) {},
		"wished":    func(e *Explore) { e.Strings[0].Wanted -= 0.3; e.Strings[0].Value = "2.05 mm" },
		"held":      func(e *Explore) { e.Strings[1].Chosen = true },
		"described": func(e *Explore) { e.Desc = "Another" },
		"room":      func(e *Explore) { e.Strings[0].Room = RoomTouches; e.Strings[0].First = 9 },
		"no room":   func(e *Explore) { e.Strings[0].First = 0 },
		"as it is":  func(e *Explore) { e.Strings[0].Wanted = float64(e.Strings[0].Now.High) },
		"everything": func(e *Explore) {
			e.Strings[0], e.Strings[1] = e.Strings[1], e.Strings[0]
			e.Title, e.Exaggerated = "Other", "drawn"
		},
	} {
		now := exampleExplore()
		change(&now)
		old, scene := ExplorePicture(was), ExplorePicture(now)
		changes, ok := Changed(old, scene)
		if !ok {
			t.Errorf("%s: said to be of another build", name)
			continue
		}
		nodes, want := Nodes(old), Nodes(scene)
		for _, c := range changes {
			value := &nodes[c.Node].Text
			for k := range nodes[c.Node].Attr {
				if attr := &nodes[c.Node].Attr[k]; c.Name != "" && attr[0] == c.Name {
					value = &attr[1]
				}
			}
			if *value == c.Value {
				t.Errorf("%s: %+v changes nothing", name, c)
			}
			*value = c.Value
		}
		if !reflect.DeepEqual(nodes, want) {
			t.Errorf("%s: %d changes lead elsewhere", name, len(changes))
		}
		if (len(changes) == 0) != (name == "nothing") {
			t.Errorf("%s: %d changes", name, len(changes))
		}
	}
}

func TestDrawingsOfAnotherBuildAreNotChangedInPlace(t *testing.T) {
	was := exampleExplore()
	for name, change := range map[string]func(s *Scene){
		"one more":       func(s *Scene) { s.Shapes = append(s.Shapes, s.Shapes[0]) },
		"another kind":   func(s *Scene) { s.Shapes[0].Kind = Polyline },
		"no title":       func(s *Scene) { s.Title = "" },
		"no description": func(s *Scene) { s.Desc = "" },
	} {
		old, now := ExplorePicture(was), ExplorePicture(was)
		change(&now)
		if _, ok := Changed(old, now); ok {
			t.Errorf("%s: changed in place", name)
		}
	}
}

// What a frame of a drag draws: the picture, and the elements that differ from the last one.
func BenchmarkChanged(b *testing.B) {
	e := exampleExplore()
	old := ExplorePicture(e)
	wanted := e.Strings[0].Wanted
	b.ReportAllocs()
	for n := 0; b.Loop(); n++ {
		e.Strings[0].Wanted = wanted + float64(n%20)/100
		now := ExplorePicture(e)
		if _, ok := Changed(old, now); !ok {
			b.Fatal("of another build")
		}
		old = now
	}
}
