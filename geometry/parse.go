package geometry

import (
	"strconv"
	"strings"
)

// ParseKind says what was wrong with a typed length.
type ParseKind uint8

// The ways in which a typed length can be refused. Each has a sentence of its own for people.
const (
	ParseEmpty       ParseKind = iota // nothing typed
	ParseNotANumber                   // letters, hexadecimal, NaN, infinity
	ParseNegative                     // a minus sign
	ParseExponent                     // 1e3
	ParseTwoMarks                     // 1,234.5
	ParseFraction                     // a fraction that no rule has: 1/0, 2/7, 5/64 mm
	ParseAmbiguous                    // a bare 1/2 from somebody who measures in millimetres
	ParseUnknownUnit                  // 2.5 cubits
	ParseTooLong                      // more than anyone would type
)

// ParseKinds lists every kind, so that tests can ask for a sentence for each.
func ParseKinds() []ParseKind {
	return []ParseKind{ParseEmpty, ParseNotANumber, ParseNegative, ParseExponent, ParseTwoMarks, ParseFraction, ParseAmbiguous,
		ParseUnknownUnit, ParseTooLong}
}

var parseKindNames = [...]string{"nothing typed", "not a number", "negative", "an exponent", "two decimal marks", "not a fraction of a rule",
	"a bare half or quarter", "unknown unit", "too long"}

// ParseError reports text that is not a length.
type ParseError struct {
	Text string
	Kind ParseKind
}

func (e *ParseError) Error() string {
	name := "refused"
	if int(e.Kind) < len(parseKindNames) {
		name = parseKindNames[e.Kind]
	}
	return "length " + strconv.Quote(e.Text) + ": " + name
}

const longestLength = 24 // characters; "1 3/4 millimetres" has 17

var unitWords = map[string]Length{
	"mm": Millimetre, "millimetre": Millimetre, "millimetres": Millimetre, "millimeter": Millimetre, "millimeters": Millimetre,
	"in": Inch, "inch": Inch, "inches": Inch, `"`: Inch, "''": Inch, "in.": Inch, "′′": Inch,
	"thou": Thousandth, "thousandth": Thousandth, "thousandths": Thousandth,
}

var typedSigns = strings.NewReplacer("\u00a0", " ", "\u202f", " ", "\u2009", " ", "\t", " ", "″", `"`, "”", `"`, "“", `"`, "⁄", "/", "−", "-", "–", "-", "‘", "'",
	"’", "'")

// ParseLength reads a length as people type it: 2.25, 2,25, 2.25 mm, .089", 0.089 in, 89 thou, 5/64, 5/64", 1 3/4 in. A bare number takes
// the person's unit; a bare fraction of eighths or finer is of an inch whatever the unit, since no rule has eighths of a millimetre, and one
// that says it is of a millimetre or a thousandth is refused.
// It refuses anything else with a *ParseError. It says nothing of whether the length is sensible: that depends on what it measures.
func ParseLength(text string, bare Unit) (Length, error) {
	refuse := func(k ParseKind) (Length, error) { return 0, &ParseError{Text: text, Kind: k} }
	if len(text) > 4*longestLength {
		text = text[:4*longestLength]
		return refuse(ParseTooLong)
	}
	s := strings.ToLower(strings.TrimSpace(typedSigns.Replace(text)))
	if s == "" {
		return refuse(ParseEmpty)
	}
	if len([]rune(s)) > longestLength {
		return refuse(ParseTooLong)
	}
	if s[0] == '-' {
		return refuse(ParseNegative)
	}
	end := strings.IndexFunc(s, func(r rune) bool { return !strings.ContainsRune("0123456789., /", r) })
	if end < 0 {
		end = len(s)
	}
	number, unitText := strings.TrimSpace(s[:end]), strings.TrimSpace(s[end:])
	if number == "" {
		return refuse(ParseNotANumber)
	}
	if exponent, found := strings.CutPrefix(unitText, "e"); found && strings.IndexAny(exponent, "+-0123456789") == 0 {
		return refuse(ParseExponent)
	}
	scale, known := Length(0), unitText == ""
	if !known {
		if scale, known = unitWords[unitText]; !known {
			if unitText[0] == 'x' || strings.ContainsAny(unitText, "0123456789_-+") {
				return refuse(ParseNotANumber)
			}
			return refuse(ParseUnknownUnit)
		}
	}
	value, denominator, kind := parseNumber(number)
	if kind != parsed {
		return refuse(kind)
	}
	if unitText != "" && scale != Inch && denominator >= 8 {
		return refuse(ParseFraction)
	}
	if scale == 0 {
		switch {
		case bare == UnitInch, denominator >= 8:
			scale = Inch
		case denominator > 1:
			return refuse(ParseAmbiguous)
		default:
			scale = Millimetre
		}
	}
	return Length(value) * scale, nil
}

const parsed ParseKind = 255

var closeSlash = strings.NewReplacer(" / ", "/", " /", "/", "/ ", "/")

// parseNumber reads 2, 2.25, 2,25, .5, 5/64 or 1 3/4 and gives the denominator, 1 when there is none.
func parseNumber(s string) (value float64, denominator int, kind ParseKind) {
	s = closeSlash.Replace(strings.Join(strings.Fields(s), " "))
	whole, fraction, mixed := "", s, false
	if before, after, found := strings.Cut(s, " "); found {
		whole, fraction, mixed = before, after, true
	}
	if top, bottom, found := strings.Cut(fraction, "/"); found {
		n, okN := digits(top)
		d, okD := digits(bottom)
		if !okN || !okD {
			return 0, 0, ParseNotANumber
		}
		if d < 2 || d > 128 || d&(d-1) != 0 {
			return 0, 0, ParseFraction
		}
		value = float64(n) / float64(d)
		if mixed {
			w, ok := digits(whole)
			if !ok || n >= d {
				return 0, 0, ParseFraction
			}
			value += float64(w)
		}
		return value, d, parsed
	}
	if mixed {
		return 0, 0, ParseNotANumber
	}
	if strings.Count(s, ".")+strings.Count(s, ",") > 1 {
		return 0, 0, ParseTwoMarks
	}
	plain := strings.Replace(s, ",", ".", 1)
	if strings.Trim(plain, ".") == "" {
		return 0, 0, ParseNotANumber
	}
	value, err := strconv.ParseFloat(plain, 64)
	if err != nil || !isFinite(value) {
		return 0, 0, ParseNotANumber
	}
	return value, 1, parsed
}

// digits reads a plain whole number of at most six digits.
func digits(s string) (int, bool) {
	if s == "" || len(s) > 6 || strings.Trim(s, "0123456789") != "" {
		return 0, false
	}
	n, err := strconv.Atoi(s)
	return n, err == nil
}
