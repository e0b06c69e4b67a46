package geometry

import "math"

// Frequency is hertz.
type Frequency float64

// Cents is a hundredth of an equal-tempered semitone: 1200·log2 of a ratio of frequencies.
type Cents float64

// Band is every value of a plain number between Low and High, both included.
type Band struct{ Low, High float64 }

// ConcertPitch is A4 (ISO 16, from what quotes it).
const ConcertPitch Frequency = 440

// What can be a string's pitch: from below the lowest basses to above the highest small instruments (common practice, no source).
const (
	lowestNote     = 9    // A0 less an octave
	highestNote    = 108  // C8
	lowestPitch    = 10   // hertz
	highestPitch   = 5000 // hertz
	lowestConcert  = 380
	highestConcert = 500
)

// Tone is a note of equal temperament by its MIDI number: 69 is A4, 60 is C4, one for every semitone.
type Tone int

// Frequency of a note (9 to 108) when A4 is at concert (380 to 500 Hz): concert·2^((note − 69)/12). Errors: *RangeError. Source: equal
// temperament.
func (n Tone) Frequency(concert Frequency) (Frequency, error) {
	err := within(QuantityNote, float64(n), lowestNote, highestNote)
	if err == nil {
		err = within(QuantityFrequency, float64(concert), lowestConcert, highestConcert)
	}
	if err != nil {
		return 0, err
	}
	return concert * Frequency(math.Exp2(float64(n-69)/12)), nil
}

// CentsFrom is how far f lies above another frequency (both above zero; otherwise 0): 1200·log2(f/from). Source: definition.
func (f Frequency) CentsFrom(from Frequency) Cents {
	if !(f > 0 && from > 0) || math.IsInf(float64(f), 0) || math.IsInf(float64(from), 0) {
		return 0
	}
	return Cents(1200 * math.Log2(float64(f/from)))
}

// Capo is the frequency of an open string of frequency f with a capo at a fret, 0 to 36: f·2^(fret/12). The string's tension stays what
// it was. Errors: *RangeError.
func (f Frequency) Capo(fret int) (Frequency, error) {
	err := within(QuantityFrequency, float64(f), lowestPitch, highestPitch)
	if err == nil {
		err = within(QuantityFret, float64(fret), 0, LargestFret)
	}
	if err != nil {
		return 0, err
	}
	return f * Frequency(math.Exp2(float64(fret)/12)), nil
}

// UsualTuning is the notes of a family's courses, bass to treble, in its usual tuning; nil for no such family. For pairs tuned an
// octave apart it gives the lower string: see OctavePairs. From memory; the notes of guitar, bass, mandolin and small
// ukulele also stand in public tables.
func UsualTuning(id FamilyID) []Tone {
	switch id {
	case FlatTop6, FlatTop12, Nylon, Archtop, SolidBody:
		return []Tone{40, 45, 50, 55, 59, 64} // E2 A2 D3 G3 B3 E4
	case Bass:
		return []Tone{28, 33, 38, 43} // E1 A1 D2 G2
	case Bass5:
		return []Tone{23, 28, 33, 38, 43} // B0 below these
	case UkuleleSmall, UkuleleTenor:
		return []Tone{67, 60, 64, 69} // G4 C4 E4 A4, re-entrant
	case UkuleleBaritone:
		return []Tone{50, 55, 59, 64} // D3 G3 B3 E4
	case Mandolin:
		return []Tone{55, 62, 69, 76} // G3 D4 A4 E5
	case TenorGuitar:
		return []Tone{48, 55, 62, 69} // C3 G3 D4 A4
	case BaritoneGuitar:
		return []Tone{35, 40, 45, 50, 54, 59} // B1 E2 A2 D3 F#3 B3
	}
	return nil
}

// OctavePairs is how many of a family's courses, from the bass side, have a second string tuned an octave up; in the others the second
// is tuned alike. From memory.
func OctavePairs(id FamilyID) int {
	if id == FlatTop12 {
		return 4
	}
	return 0
}

// Drop is a tuning with its first course, on the bass side, lowered by semitones; the tuning it came from is left as it is.
func Drop(tuning []Tone, semitones int) []Tone {
	lowered := append([]Tone(nil), tuning...)
	if len(lowered) > 0 {
		lowered[0] -= Tone(semitones)
	}
	return lowered
}
