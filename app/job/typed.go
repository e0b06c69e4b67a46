package job

import "gapwright/geometry"

// Unit is what a person measures in, as it stands in records.
type Unit string

// The two units.
const (
	MM   Unit = "mm"
	Inch Unit = "in"
)

// Geometry gives the unit that a bare number takes.
func (u Unit) Geometry() geometry.Unit {
	if u == Inch {
		return geometry.UnitInch
	}
	return geometry.UnitMillimetre
}

// Typed is a length as somebody typed or read it: the digits and the unit they were meant in. It is kept as it came, so that a record
// shows what was entered and no digit is lost by a change of unit.
type Typed struct {
	Text string `json:"text"`
	Unit Unit   `json:"unit"`
}

// Given tells whether anything was typed at all; nothing typed is not zero.
func (t Typed) Given() bool { return t.Text != "" }

// Length reads it. Errors are geometry's: *geometry.ParseError.
func (t Typed) Length() (geometry.Length, error) {
	if t.Unit != MM && t.Unit != Inch && t.Unit != "" { // from a newer version, or damaged: never guessed
		return 0, &geometry.ParseError{Text: t.Text + " " + string(t.Unit), Kind: geometry.ParseUnknownUnit}
	}
	return geometry.ParseLength(t.Text, t.Unit.Geometry())
}

// LengthOr reads it, or gives fallback when nothing readable was typed.
func (t Typed) LengthOr(fallback geometry.Length) geometry.Length {
	if !t.Given() {
		return fallback
	}
	l, err := t.Length()
	if err != nil {
		return fallback
	}
	return l
}

// Write gives l as somebody would type it in unit, rounded to step.
func Write(l geometry.Length, unit Unit, step geometry.Length) Typed {
	if unit == Inch {
		return Typed{Text: l.Inches(step), Unit: Inch}
	}
	return Typed{Text: l.Millimetres(step), Unit: MM}
}
