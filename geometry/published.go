package geometry

// PublishedString is one string as a paper gives it.
type PublishedString struct {
	Tone    Tone
	Radius  Length     // outer, as its maker states it
	Weight  UnitWeight // as its maker states it
	Stretch float64    // κ = 2R + 1 with R as measured
}

// NylonSet is a set of six nylon strings, treble first.
type NylonSet struct {
	ID      NylonSetID
	Strings [6]PublishedString
}

// NylonSetID names a set for good: it may stand in saved records.
type NylonSetID string

// The sets, by how hard they pull.
const (
	NylonLight  NylonSetID = "nylon-light"
	NylonNormal NylonSetID = "nylon-normal"
	NylonHard   NylonSetID = "nylon-hard"
)

// NylonSets lists nylon sets with plain trebles and wound basses for a 650 mm scale. Weights and radii are those that Anderson and
// Beausoleil, J. Acoust. Soc. Am. 156 (2024) 683, quote in their table of string sets, κ what they measured; no wound steel string was
// found published like this.
func NylonSets() []NylonSet {
	g := func(tone Tone, radius Length, gramsPerMetre, stretch float64) PublishedString {
		return PublishedString{tone, radius, UnitWeight(gramsPerMetre / 1000), stretch}
	}
	return []NylonSet{
		{NylonLight, [6]PublishedString{g(64, 0.349, 0.361, 76.6), g(59, 0.403, 0.487, 86.2), g(55, 0.504, 0.808, 111.1), g(50, 0.356, 1.822, 63.7),
			g(45, 0.419, 2.741, 53.2), g(40, 0.533, 5.158, 57.9)}},
		{NylonNormal, [6]PublishedString{g(64, 0.356, 0.374, 48.2), g(59, 0.409, 0.505, 48.7), g(55, 0.512, 0.836, 58.6), g(50, 0.368, 1.920, 46.0),
			g(45, 0.445, 3.289, 48.7), g(40, 0.546, 5.470, 58.2)}},
		{NylonHard, [6]PublishedString{g(64, 0.362, 0.386, 47.9), g(59, 0.415, 0.522, 53.5), g(55, 0.521, 0.856, 57.5), g(50, 0.381, 2.007, 46.4),
			g(45, 0.457, 3.486, 49.0), g(40, 0.559, 5.666, 51.9)}},
	}
}

// Strung is the published string at a pitch on a scale. κ falls with tension, so it is carried over from the tuning and scale at which
// it was measured (650 mm, its own tone, A4 at 440 Hz): κ·T is the string's own. Errors: *RangeError.
func (p PublishedString) Strung(scale Length, pitch Frequency) (Strung, error) {
	s := Strung{Scale: scale, Pitch: pitch, Weight: p.Weight, From: Published, Stiff: p.Radius}
	t, err := s.Tension()
	if err != nil {
		return Strung{}, err
	}
	own, err := p.Tone.Frequency(ConcertPitch)
	if err != nil {
		return Strung{}, err
	}
	then, err := Strung{Scale: 650, Pitch: own, Weight: p.Weight}.Tension()
	if err != nil {
		return Strung{}, err
	}
	kappa := p.Stretch * float64(then/t)
	s.Stretch = Band{kappa, kappa}
	return s, s.stretchKnown()
}
