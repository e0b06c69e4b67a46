package draw

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

// Changed lists the attributes and the texts in which two drawings of one picture differ. They must have the same elements with the same
// attributes in the same order; ok is false when they have not.
func Changed(old, now []Node) (changes []Change, ok bool) {
	if len(old) != len(now) {
		return nil, false
	}
	for i := range now {
		if old[i].Tag != now[i].Tag || len(old[i].Attr) != len(now[i].Attr) {
			return nil, false
		}
		for k, attr := range now[i].Attr {
			if old[i].Attr[k] != attr {
				changes = append(changes, Change{Node: i, Name: attr[0], Value: attr[1]})
			}
		}
		if old[i].Text != now[i].Text {
			changes = append(changes, Change{Node: i, Value: now[i].Text})
		}
	}
	return changes, true
}
