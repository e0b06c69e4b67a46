package words

import (
	"gapwright/app/job"
	"gapwright/geometry"
)

// Family names a family.
func Family(id geometry.FamilyID) string {
	switch id {
	case geometry.FlatTop6:
		return "Six-string flat\u2011top" // not parted at its hyphen
	case geometry.FlatTop12:
		return "Twelve-string flat\u2011top"
	case geometry.Nylon:
		return "Nylon-string"
	case geometry.UkuleleSmall:
		return "Small ukulele"
	case geometry.UkuleleTenor:
		return "Tenor ukulele"
	case geometry.UkuleleBaritone:
		return "Baritone ukulele"
	case geometry.TenorGuitar:
		return "Tenor guitar"
	case geometry.BaritoneGuitar:
		return "Baritone guitar"
	case geometry.Archtop:
		return "Archtop"
	case geometry.SolidBody:
		return "Solid-body"
	case geometry.Bass:
		return "Bass"
	case geometry.Bass5:
		return "Five-string bass"
	case geometry.Mandolin:
		return "Mandolin"
	}
	return ""
}

// Instrument names an instrument: as the person calls it, or by its family.
func Instrument(i job.Instrument) string {
	if i.Name != "" {
		return i.Name
	}
	return Family(i.Kind().ID)
}

// Course names a course by its side when it is an outer one, by its number otherwise; strings are counted from the treble side, as
// players do.
func Course(i job.Instrument, course int) string {
	switch course {
	case 0:
		return "bass"
	case i.Last():
		return "treble"
	}
	return "string " + Number(i.Last()-course+1)
}

// CourseTitle is Course at the start of a line.
func CourseTitle(i job.Instrument, course int) string {
	switch course {
	case 0:
		return "Bass string"
	case i.Last():
		return "Treble string"
	}
	return "String " + Number(i.Last()-course+1)
}

// Side names an end of the saddle.
func Side(side int) string {
	if side == 0 {
		return "bass end"
	}
	return "treble end"
}

// SideTitle is Side at the start of a line.
func SideTitle(side int) string {
	if side == 0 {
		return "Bass end"
	}
	return "Treble end"
}

// Marks names a rule.
func Marks(m job.Marks) string {
	switch m {
	case job.EveryMM:
		return "Every millimetre"
	case job.EveryHalfMM:
		return "Every half millimetre"
	case job.EveryQuarter:
		return "Every quarter millimetre"
	case job.Every32nd:
		return "32nds of an inch"
	case job.Every64th:
		return "64ths of an inch"
	case job.EveryHundreth:
		return "Hundredths of an inch"
	case job.NoRule:
		return "No rule"
	}
	return "Not said yet"
}

// Zero names where a rule's zero lies.
func Zero(z job.Zero) string {
	switch z {
	case job.ZeroAtEnd:
		return "At the very end"
	case job.ZeroInside:
		return "After a blank bit"
	case job.ZeroCutOff:
		return "Worn or cut away"
	case job.ZeroUnknown:
		return "I don’t know"
	}
	return "Not said yet"
}
