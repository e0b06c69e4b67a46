package draw

// RuleEnd is what the lower end of a rule looks like.
type RuleEnd uint8

// The ends.
const (
	EndIsZero   RuleEnd = iota // the zero is the very end
	EndBlank                   // blank metal before the zero
	EndCut                     // cut off or worn past the zero
	EndNotKnown                // the person does not know
)

// Reading is a rule standing on its end on a fret, and what shows light at which mark.
type Reading struct {
	Title, Desc    string
	First          int      // the lowest mark that is shown, counted from the zero
	Marks          []string // their labels from the lowest up, empty for a mark without one; four to seven of them
	Lit            int      // light shows up to this mark, and at the next one none; a number outside First−1 … last−1: nothing is chosen yet
	End            RuleEnd
	Fret           string // where the rule stands: the fret's number, for a small neck from the side in five rows and more; empty: no neck
	LeftHanded     bool   // its nut on the right
	Light, NoLight string // what the two marks show, for the side of the picture: at most two words of 9 letters
}

// rowHeight makes every mark a target of 48 pixels in a picture 340 pixels wide.
const rowHeight = 45.5

// RuleReading draws it as seen along the neck: the string is cut across, and stands before the rule. Every mark can be tapped: Tap is the
// mark's number, counted from the zero, plus one. The nodes are the same for any Lit, in number and order: only their values change.
func RuleReading(r Reading) Scene {
	const left, right, shine, legend = 12.0, 176.0, 206.0, 216.0 // the rule's edges, the end of the light, the words beside it
	n := len(r.Marks)
	foot := 28 + rowHeight*float64(n)
	p := sheet("reading", r.Title, r.Desc, 320, foot+34)
	lowest := foot - 28.0
	if r.First == 0 && r.End == EndIsZero {
		lowest = foot
	}
	at := func(mark float64) float64 { return lowest - rowHeight*(mark-float64(r.First)) }
	last := r.First + n - 1
	chosen := r.Lit >= r.First-1 && r.Lit < last
	lit := float64(r.Lit)
	if !chosen {
		lit = float64(r.First)
	}
	under := min(at(lit+0.5), foot-4) // the underside of the string

	p.rect(Board, 4, foot+14, 312, 16, 2)
	p.rect(Metal, 4, foot, 312, 14, 6)
	p.rect(shown(chosen, Light), right, under, shine-right, foot-under, 0)
	top := 4.0
	switch {
	case r.First == 0 && r.End == EndCut: // worn: no straight end
		p.area(Rule, left, top, right, top, right, foot, 148, foot-5, 120, foot-1, 92, foot-6, 64, foot-1, 36, foot-5, left, foot)
	default:
		p.rect(Rule, left, top, right-left, foot-top, 0)
	}
	if r.First > 0 { // the marks below are left out: a break in the rule
		y := foot - 13
		p.rect(Gap, left-2, y, right-left+4, 7, 0)
		p.curve(Fine, left-4, y, 53, y-4, 94, y, 135, y+4, right+4, y)
		p.curve(Fine, left-4, y+7, 53, y+3, 94, y+7, 135, y+11, right+4, y+7)
	}
	p.rect(shown(chosen && r.Lit >= r.First, Chosen), 3, at(lit)-rowHeight/2, 314, rowHeight, 6)
	for i, label := range r.Marks {
		mark := r.First + i
		y, role, end, start := at(float64(mark)), Mark, right, 138.0
		switch {
		case mark == 0 && r.End == EndCut:
			role = Nothing
		case chosen && mark <= r.Lit:
			role, end = Lit, shine
		case chosen:
			role = Unlit
		}
		if label == "" {
			start = 152
		}
		p.line(role, start, y, end, y)
		text := p.add(Text, Label, []float64{left + 14, min(y+6, foot-5)})
		text.Text, text.Anchor, text.Size = label, Start, 17
		if chosen && mark == r.Lit {
			text.Role = Value
		}
	}
	p.dot(shown(chosen, WireEnd), right+6, under-30, 30)
	p.dot(shown(chosen, Fine), right+6, under-30, 15)
	for i, words := range []string{r.Light, r.NoLight} {
		y := min(at(lit+float64(i)), foot-4)
		lines := append(wrapped(words, labelSize, 320-legend-4, 2), "", "")[:2]
		if lines[1] == "" {
			y += 5
		} else {
			y -= 4
		}
		for k, l := range lines {
			role := shown(chosen && r.Lit+i >= r.First, Label)
			t := p.add(Text, role, []float64{legend + 4, y + float64(k)*labelSize*leading})
			t.Text, t.Anchor, t.Size = l, Start, min(labelSize, labelSize*(320-legend-6)/max(wide(l, labelSize), 1))
		}
	}
	if r.Fret != "" && n >= 5 {
		y := 10.0 // where the two words are not
		if chosen && r.Lit > r.First+1 {
			y = foot - 84
		}
		p.standing(r, y)
	}
	for i := range r.Marks {
		y := at(float64(r.First + i))
		p.rect(Target, 0, y-rowHeight/2, 320, rowHeight, 0).Tap = r.First + i + 1
	}
	return p.Scene
}

// standing is the same rule from the side, small: on its fret, and the eye that looks under the string.
func (p *pen) standing(r Reading, y float64) {
	from := len(p.Shapes)
	p.shapes(`rect board 222 52 94 7 1; strokes outline 240 52 240 49 264 52 264 49 286 52 286 49 306 52 306 49; rect rule 279 6 14 40 0;
		strokes mark 288 12 293 12 288 18 293 18 288 24 293 24 288 30 293 30 288 36 293 36 288 42 293 42; line string 222 40 316 36; line hint 252 44 277 44;
		curve outline 228 44 236 39 247 37; curve outline 228 44 236 48 246 49; dot string-end 245 43 2.5; text label 0 middle 286 76 40 1`, []string{r.Fret})
	for i := range p.Shapes[from:] {
		for k := range p.Shapes[from+i].Points {
			q := &p.Shapes[from+i].Points[k]
			if q.Y += y; r.LeftHanded {
				q.X = 538 - q.X
			}
		}
		if s := &p.Shapes[from+i]; r.LeftHanded && s.Kind == Rect {
			s.Points[0].X, s.Points[1].X = s.Points[1].X, s.Points[0].X
		}
	}
}
