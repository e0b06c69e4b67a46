package draw

import "slices"

// ExploreDrag is how many millimetres a string rises at the saddle when its grip is dragged down by so many pixels, the picture being so many
// pixels wide: below zero when it goes down.
func ExploreDrag(e Explore, pixels, wide float64) float64 {
	return -within(pixels, -5000, 5000) * 320 / within(wide, 1, 1e5) * ExploreRise(e)
}

// Change is one attribute of an element, or with no name its text.
type Change struct {
	Node        int
	Name, Value string
}

// Changed lists the attributes and the texts in which two drawings of one picture differ, by the places of the elements in Nodes. They must have
// the same elements with the same attributes in the same order; ok is false when they have not. Only the shapes that differ are written: in a
// drag most are as they were.
func Changed(old, now Scene) (changes []Change, ok bool) {
	if len(old.Shapes) != len(now.Shapes) {
		return nil, false
	}
	same := func(at int, old, now Node) bool { // in its elements and attributes
		if old.Tag != now.Tag || len(old.Attr) != len(now.Attr) {
			return false
		}
		for k, attr := range now.Attr {
			if old.Attr[k] != attr {
				changes = append(changes, Change{Node: at, Name: attr[0], Value: attr[1]})
			}
		}
		if old.Text != now.Text {
			changes = append(changes, Change{Node: at, Value: now.Text})
		}
		return true
	}
	before, head := Nodes(old.bare()), Nodes(now.bare())
	if len(before) != len(head) {
		return nil, false
	}
	for i := range head {
		if !same(i, before[i], head[i]) {
			return nil, false
		}
	}
	for i := range now.Shapes {
		if was, is := &old.Shapes[i], &now.Shapes[i]; !was.equal(is) && !same(len(head)+i, was.node(), is.node()) {
			return nil, false
		}
	}
	return changes, true
}

// bare is the scene without its shapes.
func (s Scene) bare() Scene {
	s.Shapes = nil
	return s
}

func (s *Shape) equal(o *Shape) bool {
	return s.Kind == o.Kind && s.Role == o.Role && s.R == o.R && s.Text == o.Text && s.Anchor == o.Anchor && s.Size == o.Size && s.Tap == o.Tap &&
		slices.Equal(s.Points, o.Points)
}
