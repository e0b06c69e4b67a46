package job

import (
	"errors"
	"time"

	"gapwright/geometry"
)

// Instrument is a profile: what it is, and how it was last set. Lengths that nobody gave fall back to what is usual for the family.
type Instrument struct {
	ID         string            `json:"id"`
	Name       string            `json:"name,omitzero"` // as the person calls it; empty: by its family
	Family     geometry.FamilyID `json:"family"`
	LeftHanded bool              `json:"leftHanded,omitzero"`
	Bridge     Bridge            `json:"bridge,omitzero"` // what holds the strings up; not asked yet: what the family usually has
	Scale      Typed             `json:"scale,omitzero"`
	Treble     Typed             `json:"trebleScale,omitzero"` // of the treble-most course, where it is another; those between share it out evenly
	Setback    Typed             `json:"setback,omitzero"`
	Saddle     Typed             `json:"saddle,omitzero"`   // the saddle's length
	Spread     Typed             `json:"spread,omitzero"`   // between the outer strings at the saddle
	Fret       int               `json:"fret,omitzero"`     // where the gap is read; 0 means 12
	Held       int               `json:"held,omitzero"`     // where the string is held down meanwhile; 0: open
	Body       int               `json:"body,omitzero"`     // the fret at which the neck meets the body; 0: what is usual
	Frets      int               `json:"frets,omitzero"`    // the last fret; 0: what is usual
	Radius     Typed             `json:"radius,omitzero"`   // of the board, across
	Turns      Hardware          `json:"turns,omitzero"`    // what turns at the bridge, as far as somebody said
	Set        *Stringing        `json:"strings,omitempty"` // the strings that are on, as far as somebody said
	Owner      string            `json:"owner,omitzero"`    // whose it is, where that is not the person with the app
	Tags       string            `json:"tags,omitzero"`     // words to find it again by, as typed
	Archived   bool              `json:"archived,omitzero"` // not on the Bench any more
	Wont       *Wont             `json:"usual,omitempty"`   // what is usual of this one, where it is not what is usual for its family
	Example    bool              `json:"example,omitzero"`
	AsSet      *AsSet            `json:"asSet,omitempty"`
	Checked    time.Time         `json:"checked,omitzero"` // when it was last looked at in a quick check
}

// AsSet is the baseline that a finished job leaves: the last readings, as they were read.
type AsSet struct {
	Job      string      `json:"job"`
	At       time.Time   `json:"at"`
	Readings []Read      `json:"readings"`
	Proven   bool        `json:"proven"`         // every wanted height lay inside a reading narrow enough to tell
	Moved    bool        `json:"moved,omitzero"` // nut or relief were changed after these readings: the gaps are no longer what they say
	Neck     []Surveyed  `json:"neck,omitempty"`
	Rod      []RodTurn   `json:"rod,omitempty"`     // every counted turn of the truss rod so far
	Touch    []KeptTouch `json:"touch,omitempty"`   // how much room the person's playing was found to need
	Air      *Aired      `json:"air,omitempty"`     // of the room in which it was read
	Set      *Stringing  `json:"strings,omitempty"` // the strings that were on, as far as somebody said
}

// Kind is the instrument's family, with what is usual of this one put over what is usual for all; an unknown one is taken as the six-string flat-top,
// whose floors are middling.
func (i Instrument) Kind() geometry.Family {
	f, ok := geometry.FamilyOf(i.Family)
	if !ok {
		f, _ = geometry.FamilyOf(geometry.FlatTop6)
	}
	return i.Wont.over(f)
}

// ReadFret is the fret at which the gap is read.
func (i Instrument) ReadFret() int {
	if i.Fret == 0 {
		return 12
	}
	return i.Fret
}

// Last is the number of the treble-most course; the bass-most is 0.
func (i Instrument) Last() int { return i.Kind().Courses - 1 }

// Leverage is λ of the bass-most course at a fret and condition.
func (i Instrument) Leverage(fret, held int) (float64, error) {
	return geometry.Leverage(i.ScaleOf(0), i.Setback.LengthOr(0), fret, held)
}

// Lever is λ of a course where this instrument is read.
func (i Instrument) Lever(course int) (float64, error) {
	return geometry.Leverage(i.ScaleOf(course), i.Setback.LengthOr(0), i.ReadFret(), i.Held)
}

// Offset is the place of a course across the saddle, courses being evenly spread.
func (i Instrument) Offset(course int) geometry.Length {
	spread := i.Spread.LengthOr(i.Kind().SaddleSpread)
	return spread * (geometry.Length(course)/geometry.Length(max(1, i.Last())) - 0.5)
}

// saddleLength is how long the saddle is; where a family usually has none it is as long as the strings are apart.
func (i Instrument) saddleLength() geometry.Length {
	usual, spread := i.Kind().SaddleLength, i.Spread.LengthOr(i.Kind().SaddleSpread)
	if usual == 0 {
		usual = spread
	}
	return i.Saddle.LengthOr(usual)
}

// Ends are the saddle's ends, centred on the strings.
func (i Instrument) Ends() geometry.Ends {
	half := max(i.saddleLength(), i.Spread.LengthOr(i.Kind().SaddleSpread)) / 2
	return geometry.Ends{Bass: -half, Treble: half}
}

// between gives a course's share of a pair of bass and treble values.
func (i Instrument) between(pair [2]geometry.Length, course int) geometry.Length {
	t := geometry.Length(course) / geometry.Length(max(1, i.Last()))
	return pair[0]*(1-t) + pair[1]*t
}

// Floor is the height under which a course is not taken: the family's own floor for people who know their touch, the beginner's otherwise.
// It belongs to fret 12 and an open string; at another fret it is carried along the straight string by leverage.
func (i Instrument) Floor(course int, own bool) geometry.Length {
	f := i.Kind().BeginnersFloor
	if own {
		f = i.Kind().Floor
	}
	return i.atReadFret(i.between(f, course), course)
}

// Usual is the usual range of a course's height at the instrument's own reading place.
func (i Instrument) Usual(course int) geometry.Interval {
	g := i.Kind().Gap
	return geometry.Interval{
		Low:  i.atReadFret(i.between([2]geometry.Length{g[0].Low, g[1].Low}, course), course),
		High: i.atReadFret(i.between([2]geometry.Length{g[0].High, g[1].High}, course), course),
	}
}

// atReadFret carries an open height at fret 12 to where this instrument is read: along the straight line from the usual nut height through it.
// The nut height over the first fret is the family's usual one, which is why a carried height is a guide and not a measurement.
func (i Instrument) atReadFret(at12 geometry.Length, course int) geometry.Length {
	fret, held := i.ReadFret(), i.Held
	if fret == 12 && held == 0 {
		return at12
	}
	f := i.Kind()
	first := i.between([2]geometry.Length{f.FirstFret[0].Middle(), f.FirstFret[1].Middle()}, course)
	scale := i.ScaleOf(course)
	d1, err1 := geometry.FretDistance(scale, 1)
	d12, err2 := geometry.FretDistance(scale, 12)
	d, err3 := geometry.FretDistance(scale, fret)
	dHeld, err4 := geometry.FretDistance(scale, held)
	if err1 != nil || err2 != nil || err3 != nil || err4 != nil {
		return at12
	}
	slope := (at12 - first) / (d12 - d1)
	if held == 0 {
		return max(0, at12+slope*(d-d12))
	}
	end := scale + i.Setback.LengthOr(0)
	saddle := at12 + slope*(end-d12)
	return max(0, saddle*(d-dHeld)/(end-dHeld))
}

// ErrFamily refuses a profile of a family that this version does not know.
var ErrFamily = errors.New("unknown family")

// usualFrets is how many frets are looked at where nobody counted them (common practice, no source).
const usualFrets = 19

// Joint is the fret at which the neck meets the body.
func (i Instrument) Joint() int {
	if i.Body != 0 {
		return i.Body
	}
	return i.Kind().Body
}

// LastFret is the highest fret: as counted, or as many as are usual or are read.
func (i Instrument) LastFret() int {
	if i.Frets != 0 {
		return i.Frets
	}
	return max(usualFrets, i.Joint(), i.ReadFret())
}

// Neck is what the bass-most string lies over, from the side. What it says of relief holds for all of them: scales differ by a factor.
func (i Instrument) Neck() geometry.Neck { return i.NeckOf(0) }

// NeckOf is what a course lies over, from the side.
func (i Instrument) NeckOf(course int) geometry.Neck {
	return geometry.Neck{Scale: i.ScaleOf(course), Setback: i.Setback.LengthOr(0), Body: i.Joint(), Frets: i.LastFret()}
}

// lengths is everything in a profile that a plan rests on, apart from where the gap is read.
func (i Instrument) lengths() [5]Typed {
	return [5]Typed{i.Scale, i.Treble, i.Setback, i.Saddle, i.Spread}
}

// Check tells whether a profile can be worked with: its lengths readable and in range.
func (i Instrument) Check() error {
	if _, ok := geometry.FamilyOf(i.Family); !ok {
		return ErrFamily
	}
	for _, t := range []limit{
		{i.Scale, geometry.QuantityScale, geometry.ShortestScale, geometry.LongestScale},
		{i.Treble, geometry.QuantityScale, geometry.ShortestScale, geometry.LongestScale},
		{i.Setback, geometry.QuantitySetback, 0, 20},
		{i.Saddle, geometry.QuantitySaddle, 20, 150},
		{i.Spread, geometry.QuantitySaddle, 10, 140},
	} {
		if err := t.check(); err != nil {
			return err
		}
	}
	saddle, spread := i.saddleLength(), i.Spread.LengthOr(i.Kind().SaddleSpread)
	if saddle < spread {
		return &geometry.RangeError{Quantity: geometry.QuantitySaddle, Got: float64(saddle), Min: float64(spread), Max: 150}
	}
	if err := (limit{i.Radius, geometry.QuantityRadius, 50, 5000}).check(); err != nil {
		return err
	}
	for _, course := range []int{0, i.Last()} {
		if _, err := i.Lever(course); err != nil {
			return err
		}
		if _, err := i.NeckOf(course).Top(1, 0); err != nil {
			return err
		}
	}
	if least := max(12, i.Joint(), i.ReadFret()); i.LastFret() < least {
		return &geometry.RangeError{Quantity: geometry.QuantityLastFret, Got: float64(i.LastFret()), Min: float64(least), Max: geometry.LargestFret}
	}
	if err := i.Turns.Check(); err != nil {
		return err
	}
	if err := i.checkWont(); err != nil {
		return err
	}
	return i.Set.Check(i.Kind())
}

// ScaleLength is the scale length as given, or what is usual; with two of them that of the bass side.
func (i Instrument) ScaleLength() geometry.Length { return i.Scale.LengthOr(i.Kind().Scale) }

// ScaleOf is the scale length of a course.
func (i Instrument) ScaleOf(course int) geometry.Length {
	bass := i.ScaleLength()
	if !i.Treble.Given() {
		return bass
	}
	return i.between([2]geometry.Length{bass, i.Treble.LengthOr(bass)}, course)
}

// UsualNut is about how high a course stands over the fret tops at the nut, for a picture: the usual gap at fret 1, which is a little less.
func (i Instrument) UsualNut(course int) geometry.Length {
	f := i.Kind().FirstFret
	return i.between([2]geometry.Length{f[0].Middle(), f[1].Middle()}, course)
}

// Sides are the saddle's ends as they lie from left to right when the strings run away from the player: bass first, treble first for the
// left-handed.
func (i Instrument) Sides() []int {
	if i.LeftHanded {
		return []int{1, 0}
	}
	return []int{0, 1}
}

// OpenOn is the job under way on an instrument, the first in the list; a check that nobody finished is in the way of none.
func OpenOn(jobs []Record, instrument string) (Record, bool) {
	for _, r := range jobs {
		if r.Instrument.ID == instrument && r.Method != QuickCheck {
			return r, true
		}
	}
	return Record{}, false
}
