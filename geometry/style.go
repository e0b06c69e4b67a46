package geometry

// Style is how hard somebody plays.
type Style uint8

// The styles, lightest first.
const (
	StyleLight Style = iota
	StyleMixed
	StyleHard
)

// Styles lists every style, so that tests can ask for a word for each.
func Styles() []Style { return []Style{StyleLight, StyleMixed, StyleHard} }

// UsualPluck is where a string is plucked as a rule, as a share of the scale from the saddle (common practice, no source).
const UsualPluck = 0.16

// styleStops are the stops that a style is judged at: the open string asks for the nut, and few play hard beyond fret 12 (common
// practice, no source).
const styleStops = 12

// lightestShare is how much less room the lightest players of a style need than its hardest (common practice, no source).
const lightestShare = 0.8

// StyleTouch is the room that a style needs on the outer string of one side of a family's instruments. Nobody has published it, and it
// has no sense outside this model: it is the room, at the worst of stops 1 to 12, that the family's usual first-fret gap and height
// give over the middle of its usual relief, when both are at the low end (light), in the middle (mixed) or at the high end (hard), each
// style reaching down to the one before it. So a usual height suits the usual style by definition, and a person's own buzz tests
// (TouchOf) are better than this. Common practice, no source. ok is false for no such family.
func StyleTouch(id FamilyID, side Side, style Style) (needs Interval, ok bool) {
	f, ok := FamilyOf(id)
	if !ok || side > TrebleSide || style > StyleHard {
		return Interval{}, false
	}
	neck := Neck{Scale: f.Scale, Body: f.Body, Frets: max(f.Body, usualFrets)}
	room := func(s Style) (Length, bool) {
		pick := func(i Interval) Interval { return Exactly(i.Low + i.Width()*Length(s)/2) }
		p, err := NewPath(neck, Exactly(f.Relief.Middle()), GapReading{Fret: 1, Gap: pick(f.FirstFret[side])}, GapReading{Fret: 12, Gap: pick(f.Gap[side])})
		if err != nil {
			return 0, false
		}
		least := MostTouch
		for stop := 1; stop <= styleStops; stop++ {
			h, err := p.Headroom(stop, UsualPluck*f.Scale)
			if err != nil {
				return 0, false
			}
			least = min(least, h.Free.Low)
		}
		return least, true
	}
	high, ok := room(style)
	if !ok {
		return Interval{}, false
	}
	low := lightestShare * high
	if style > StyleLight {
		low, ok = room(style - 1)
	}
	return Interval{min(low, high), high}, ok
}

// usualFrets is how many frets are looked at where nobody has counted them (common practice, no source).
const usualFrets = 19
