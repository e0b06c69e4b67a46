package draw

// Mirrored is a scene as a mirror shows it, its letters still to be read: a left-handed instrument from the side has its head on the right.
func Mirrored(s Scene) Scene {
	shapes := make([]Shape, len(s.Shapes))
	for n, shape := range s.Shapes {
		points := make([]Point, len(shape.Points))
		for i, p := range shape.Points {
			points[i] = Point{s.Width - p.X, p.Y}
		}
		if shape.Kind == Rect { // the corner on the left comes first
			points[0].X, points[1].X = points[1].X, points[0].X
		}
		switch shape.Anchor {
		case Start:
			shape.Anchor = End
		case End:
			shape.Anchor = Start
		}
		shape.Points = points
		shapes[n] = shape
	}
	s.Shapes = shapes
	return s
}

// Handed is a scene as it is, or in a mirror for a left-handed instrument.
func Handed(s Scene, left bool) Scene {
	if left {
		return Mirrored(s)
	}
	return s
}
