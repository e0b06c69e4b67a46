package geometry

// Part is what sets a string's height.
type Part uint8

// The parts, in the order in which they are put right: each changes what is read of the later ones.
const (
	PartRelief Part = iota
	PartNut
	PartSaddle
)

// Parts lists every part, so that tests can ask for a name for each.
func Parts() []Part { return []Part{PartRelief, PartNut, PartSaddle} }

// Standing is how a reading compares with what is usual.
type Standing uint8

// What can be said.
const (
	Usual    Standing = iota // the whole reading lies within what is usual
	Above                    // the whole reading lies above it
	Below                    // the whole reading lies below it
	Unclear                  // the reading is partly within and partly out, or spans it
	Unstated                 // not measured
)

// Standings lists every standing, so that tests can ask for a sentence for each.
func Standings() []Standing { return []Standing{Usual, Above, Below, Unclear, Unstated} }

// Compare tells how a reading stands to what is usual. Either not a range (not finite, wrong way round) is Unstated.
func Compare(read, usual Interval) Standing {
	switch {
	case !read.Valid() || !usual.Valid():
		return Unstated
	case read.Low > usual.High+hair:
		return Above
	case read.High < usual.Low-hair:
		return Below
	case read.Low >= usual.Low-hair && read.High <= usual.High+hair:
		return Usual
	}
	return Unclear
}

// PartReading is what was read of one part and what is usual for it: the relief (converted by Neck.Relief; its side is left as it is),
// the open gap at fret 1 for the nut, the open gap at fret 12 for the saddle. What was not measured is left out.
type PartReading struct {
	Part        Part
	Side        Side
	Read, Usual Interval
}

// PartFound is how one part stands.
type PartFound struct {
	PartReading
	Standing Standing
	Out      Interval // Above or Below: how far the reading lies beyond the nearer end of what is usual; always above zero
	// Moves is what it does to the open gap at fret 12 to bring the part just inside what is usual, everything else left alone: for
	// relief the usual range from a bend at mid-neck to an even one, for the nut by similar triangles, for the saddle the gap itself.
	// Above zero: higher. Nothing when it is not out.
	Moves Interval
	// First is true for what is out with nothing before it out: this is done first. Provisional is true for all that comes after
	// something that is out or unclear or not measured: it is looked at again then.
	First, Provisional bool
}

// Diagnose puts what was read into the order relief, nut, saddle, bass side before treble side, and tells which part is out, by how
// much, and what doing it first does. What comes later is judged as it was read: relief moves the gap at fret 1 too (by 0.31 to 0.67 of
// itself with the joint at fret 14, see Neck.ReliefMoves), and a nut the gap at fret 12. A part of which nothing was read is added as
// Unstated, with the bass side. It never offers the saddle first while relief or nut is known to be out. Errors: *RangeError.
func Diagnose(neck Neck, readings []PartReading) ([]PartFound, error) {
	b, err := neck.board()
	if err != nil {
		return nil, err
	}
	if err := within(QuantityLastFret, float64(neck.Frets), 12, LargestFret); err != nil {
		return nil, err
	}
	even, midNeck := b.reliefMoves(12, 0)
	nutShare := (b.saddle - b.x[12]) / (b.saddle - b.x[1])
	var found []PartFound
	settled, first := true, true // nothing earlier leaves a question; nothing earlier is out
	for _, part := range Parts() {
		var stated, questioned, out bool
		for _, side := range []Side{BassSide, TrebleSide} {
			for _, r := range readings {
				if r.Part != part || r.Side != side {
					continue
				}
				q, low, high := QuantityGap, Length(0), LargestGap
				if part == PartRelief {
					q, low, high = QuantityRelief, LeastRelief, MostRelief
				}
				for _, i := range []Interval{r.Read, r.Usual} {
					if err := reading(q, i, low, high); err != nil {
						return nil, err
					}
				}
				f := PartFound{PartReading: r, Standing: Compare(r.Read, r.Usual), Provisional: !settled}
				var change Interval // of the reading, to bring it just inside
				switch f.Standing {
				case Above:
					f.Out = r.Read.Shifted(-r.Usual.High)
					change = f.Out.Times(-1)
				case Below:
					change = Exactly(r.Usual.Low).Minus(r.Read)
					f.Out = change
				}
				switch part {
				case PartRelief:
					f.Moves = change.Times(even).Hull(change.Times(midNeck))
				case PartNut:
					f.Moves = change.Times(nutShare)
				case PartSaddle:
					f.Moves = change
				}
				stated = true
				questioned = questioned || f.Standing != Usual
				if f.Standing == Above || f.Standing == Below {
					f.First = first
					out = true
				}
				found = append(found, f)
			}
		}
		if !stated {
			found = append(found, PartFound{PartReading: PartReading{Part: part}, Standing: Unstated, Provisional: !settled})
		}
		settled = settled && stated && !questioned
		first = first && !out
	}
	return found, nil
}
