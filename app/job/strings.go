package job

import "gapwright/geometry"

// Stringing is the set that is on, as told: nothing in it must be known.
type Stringing struct {
	Published geometry.NylonSetID `json:"published,omitzero"` // a published set of six nylon strings; then Gauges is empty
	Tuning    []geometry.Tone     `json:"tuning,omitempty"`   // of the courses, bass to treble, without the capo; empty: the usual one
	Capo      int                 `json:"capo,omitzero"`      // the fret it stands at; 0: none
	Gauges    []Gauge             `json:"gauges,omitempty"`   // of every string, course by course from the bass side; empty: not known
}

// Make is how a string is made, as it stands in records.
type Make string

// The makes. Only of plain steel does the diameter tell the weight.
const (
	MakeUnknown Make = ""
	PlainSteel  Make = "plain-steel"
	WoundSteel  Make = "wound-steel"
	PlainNylon  Make = "plain-nylon"
	WoundNylon  Make = "wound-nylon"
)

// Makes lists the makes that can be said.
func Makes() []Make { return []Make{PlainSteel, WoundSteel, PlainNylon, WoundNylon} }

// Gauge is one string as its packet tells it.
type Gauge struct {
	Make     Make   `json:"make,omitzero"`
	Diameter Typed  `json:"diameter,omitzero"`
	Weight   string `json:"weight,omitzero"` // grams per metre, as typed
}

// Check tells whether a set can be that of a family's instrument. Errors: geometry's.
func (s *Stringing) Check(geometry.Family) error { return nil }
