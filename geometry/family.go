package geometry

// Family is a kind of instrument with what is usual for it. Every number is common practice, no source, unless it says otherwise, and all
// of them can be changed by the person. Pairs are bass string, treble string; heights are millimetres on open strings. A scale that is
// longer on the bass side than on the treble side can be had in any family: it is the instrument's own, not a family.
type Family struct {
	ID             FamilyID
	Courses        int         // strings or pairs of strings, bass to treble
	PerCourse      int         // strings in a course
	Scale          Length      // from memory
	SaddleSpread   Length      // between the outer strings at the saddle; from memory
	SaddleLength   Length      // from memory
	Body           int         // the fret at which the neck meets the body; from memory
	Gap            [2]Interval // at fret 12
	Relief         Interval
	FirstFret      [2]Interval
	Floor          [2]Length // for people who know their touch
	BeginnersFloor [2]Length // for everyone else
	DropIn         bool      // usually has a loose saddle in a slot
}

// LowB is how much higher than the family's bass string a bass with five strings carries its lowest one, gap and floors alike (common practice,
// no source).
const LowB Length = 0.2

// FamilyID names a family for good: it stands in saved records.
type FamilyID string

// The families.
const (
	FlatTop6        FamilyID = "flat-top-6"
	FlatTop12       FamilyID = "flat-top-12"
	Nylon           FamilyID = "nylon"
	Archtop         FamilyID = "archtop"
	SolidBody       FamilyID = "solid-body"
	Bass            FamilyID = "bass"
	Bass5           FamilyID = "bass-5"
	UkuleleSmall    FamilyID = "ukulele-soprano-concert"
	UkuleleTenor    FamilyID = "ukulele-tenor"
	UkuleleBaritone FamilyID = "ukulele-baritone"
	Mandolin        FamilyID = "mandolin"
	TenorGuitar     FamilyID = "tenor-guitar"
	BaritoneGuitar  FamilyID = "baritone-guitar"
)

func pair(bassLow, bassHigh, trebleLow, trebleHigh Length) [2]Interval {
	return [2]Interval{{bassLow, bassHigh}, {trebleLow, trebleHigh}}
}

var families = [...]Family{
	{FlatTop6, 6, 1, 648, 54, 72, 14, pair(2.2, 2.6, 1.7, 2.0), Interval{.10, .30}, pair(.50, .70, .35, .50), [2]Length{1.8, 1.4}, [2]Length{2.0, 1.6}, true},
	{FlatTop12, 6, 2, 648, 54, 72, 14, pair(2.0, 2.4, 1.6, 1.9), Interval{.10, .25}, pair(.45, .65, .30, .45), [2]Length{1.8, 1.4}, [2]Length{2.0, 1.6}, true},
	{Nylon, 6, 1, 650, 58, 80, 12, pair(3.5, 4.0, 2.8, 3.2), Interval{.05, .30}, pair(.70, .90, .50, .75), [2]Length{3.0, 2.4}, [2]Length{3.4, 2.7}, true},
	{Archtop, 6, 1, 630, 52, 0, 14, pair(1.8, 2.3, 1.4, 1.8), Interval{.10, .25}, pair(.40, .60, .30, .45), [2]Length{1.6, 1.2}, [2]Length{1.8, 1.5}, false},
	{SolidBody, 6, 1, 648, 52, 0, 16, pair(1.6, 2.0, 1.3, 1.6), Interval{.10, .25}, pair(.35, .55, .25, .40), [2]Length{1.2, 1.0}, [2]Length{1.5, 1.3}, false},
	{Bass, 4, 1, 864, 57, 70, 16, pair(2.2, 2.8, 1.7, 2.2), Interval{.20, .40}, pair(.50, .80, .40, .60), [2]Length{1.7, 1.4}, [2]Length{2.0, 1.7}, false},
	{Bass5, 5, 1, 864, 72, 86, 16, pair(2.2+LowB, 2.8+LowB, 1.7, 2.2), Interval{.20, .40}, pair(.50, .80, .40, .60), [2]Length{1.7 + LowB, 1.4}, [2]Length{2.0 + LowB, 1.7}, false},
	{UkuleleSmall, 4, 1, 365, 41, 60, 12, pair(2.2, 2.6, 2.2, 2.6), Interval{0, .20}, pair(.40, .60, .40, .60), [2]Length{1.9, 1.9}, [2]Length{2.2, 2.2}, true},
	{UkuleleTenor, 4, 1, 432, 42, 62, 14, pair(2.4, 2.8, 2.4, 2.8), Interval{0, .20}, pair(.40, .60, .40, .60), [2]Length{1.9, 1.9}, [2]Length{2.2, 2.2}, true},
	{UkuleleBaritone, 4, 1, 510, 42, 62, 14, pair(2.5, 3.0, 2.5, 3.0), Interval{0, .20}, pair(.40, .60, .40, .60), [2]Length{1.9, 1.9}, [2]Length{2.2, 2.2}, true},
	{Mandolin, 4, 2, 350, 40, 0, 15, pair(1.6, 1.9, 1.3, 1.6), Interval{0, .12}, pair(.30, .45, .20, .35), [2]Length{1.3, 1.1}, [2]Length{1.5, 1.3}, false},
	{TenorGuitar, 4, 1, 584, 40, 60, 14, pair(2.0, 2.4, 1.6, 2.0), Interval{.10, .35}, pair(.45, .75, .35, .55), [2]Length{1.7, 1.4}, [2]Length{2.0, 1.6}, true},
	{BaritoneGuitar, 6, 1, 685, 54, 74, 14, pair(2.4, 2.9, 1.9, 2.3), Interval{.10, .35}, pair(.45, .75, .35, .55), [2]Length{2.0, 1.6}, [2]Length{2.3, 1.9}, true},
}

// Families lists every family.
func Families() []Family { return append([]Family(nil), families[:]...) }

// FamilyOf finds a family by its name for good.
func FamilyOf(id FamilyID) (Family, bool) {
	for _, f := range families {
		if f.ID == id {
			return f, true
		}
	}
	return Family{}, false
}
