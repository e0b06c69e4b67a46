package words

// All of this language that is no sentence: how numbers, counts, ranges, lists and dates are said. Another language would be another file like this one.

import (
	"strconv"
	"strings"
	"time"

	"gapwright/app/job"
	"gapwright/geometry"
)

// Reader is the person who reads: the unit they measure in.
type Reader struct {
	Unit job.Unit
}

// decimalMark is the mark between whole and part in this language.
const decimalMark = "."

// grouping stands between the thousands of a number of five digits or more: a narrow space that does not break (ISO 80000-1, 7.3.1).
const grouping = "\u202f"

// Direction is the way in which the language is written, as a page names it.
func Direction() string { return "ltr" }

// Number says a whole number, for an id as well: without grouping.
func Number(n int) string { return strconv.Itoa(n) }

// Large says a whole number that may be large.
func Large(n int) string {
	s := Number(n)
	if n < 10000 {
		return s
	}
	for i := len(s) - 3; i > 0; i -= 3 {
		s = s[:i] + grouping + s[i:]
	}
	return s
}

// form picks the form that a count takes, in the order of the categories of CLDR that this language has: one, other.
func form(n int, one, other string) string {
	if n == 1 {
		return one
	}
	return other
}

// plural says n of a thing: 1 stroke, 2 strokes.
func plural(n int, one, other string) string { return Large(n) + " " + form(n, one, other) }

// decimal says a number with so many digits behind the mark.
func decimal(n float64, digits int) string { return marked(strconv.FormatFloat(n, 'f', digits, 64)) }

func marked(digits string) string { return strings.Replace(digits, ".", decimalMark, 1) }

// unit puts a unit behind a number: the two are not parted at the end of a line.
func unit(name string) string { return "\u00a0" + name }

// capital begins a sentence with what is said elsewhere within one.
func capital(text string) string { return strings.ToUpper(text[:1]) + text[1:] }

// upTo says a range: 2.25 to 2.50.
func upTo(low, high string) string { return low + " to " + high }

// tight is upTo where two ranges must stand in one line: 2.25–2.50.
func tight(low, high string) string { return low + "–" + high }

// listed says things one after another: a, b and c.
func listed(all ...string) string {
	last := len(all) - 1
	if last < 1 {
		return strings.Join(all, "")
	}
	return strings.Join(all[:last], ", ") + " and " + all[last]
}

// signedNumber says a whole number with its sign: +3, −3, 0.
func signedNumber(n int) string {
	switch {
	case n > 0:
		return "+" + Number(n)
	case n < 0:
		return "−" + Number(-n)
	}
	return "0"
}

var months = [...]string{"Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"}

func month(t time.Time) string { return months[t.Month()-1] }

// Day says a date.
func Day(t time.Time) string {
	return Number(t.Day()) + " " + month(t) + " " + Number(t.Year())
}

// Age says how long ago something was, in whole units.
func Age(d time.Duration) string {
	if d < 0 {
		d = -d
	}
	switch {
	case d < 2*time.Minute:
		return "just now"
	case d < 2*time.Hour:
		return plural(int(d/time.Minute), "minute", "minutes") + " ago"
	case d < 48*time.Hour:
		return plural(int(d/time.Hour), "hour", "hours") + " ago"
	}
	return plural(int(d/(24*time.Hour)), "day", "days") + " ago"
}

var eighthParts = [...]string{"", "⅛", "¼", "⅜", "½", "⅝", "¾", "⅞"}

// turns says eighths of a turn as whole turns and a fraction.
func turns(n int) string {
	whole, rest := n/8, eighthParts[n%8]
	switch {
	case n == 8:
		return "1 turn"
	case whole == 0:
		return rest + " turn"
	}
	return Number(whole) + rest + " turns"
}

// UnitName is the short name of the person's unit.
func (r Reader) UnitName() string {
	if r.Unit == job.Inch {
		return "in"
	}
	return "mm"
}

// bared is a length without its unit where what follows has the same.
func (r Reader) bared(text, next string) string {
	if name := unit(r.UnitName()); strings.HasSuffix(next, name) {
		return strings.TrimSuffix(text, name)
	}
	return text
}

// step is how finely a worked-out length is said: 0.05 mm or a thousandth of an inch. No rule reading supports more.
func (r Reader) step() geometry.Length {
	if r.Unit == job.Inch {
		return geometry.Thousandth
	}
	return geometry.Millimetre / 20
}

func (r Reader) digits(l, step geometry.Length) string {
	if r.Unit == job.Inch {
		return marked(l.Inches(step))
	}
	return marked(l.Millimetres(step))
}

// Bare says a length without its unit, to the reader's ordinary step.
func (r Reader) Bare(l geometry.Length) string { return r.digits(l, r.step()) }

// Length says a length: 0.40 mm, 0.016 in.
func (r Reader) Length(l geometry.Length) string { return r.Bare(l) + unit(r.UnitName()) }

// fine is how finely a caliper is read: no caliper can be trusted with more.
func (r Reader) fine() geometry.Length {
	if r.Unit == job.Inch {
		return geometry.Thousandth
	}
	return geometry.Millimetre / 100
}

// About says a length to a millimetre or a tenth of an inch: for what is only usual.
func (r Reader) About(l geometry.Length) string {
	if r.Unit == job.Inch {
		return r.digits(l, geometry.Inch/10) + "\u00a0in"
	}
	return r.digits(l, geometry.Millimetre) + "\u00a0mm"
}

// Down says a length that must not be exceeded: rounded down.
func (r Reader) Down(l geometry.Length) string { return r.Length(l.RoundDown(r.step())) }

// Up says a length that must not be undercut: rounded up.
func (r Reader) Up(l geometry.Length) string { return r.Length(l.RoundUp(r.step())) }

// Span says a range, widened to whole steps so that nothing it allows is lost: 2.25 to 2.50 mm.
func (r Reader) Span(i geometry.Interval) string {
	o := i.Outward(r.step())
	low, high := r.Bare(o.Low), r.Bare(o.High)
	if low == high {
		return low + unit(r.UnitName())
	}
	return upTo(low, high) + unit(r.UnitName())
}

// Typed says a length as it was typed or read; in another unit than the reader's it is converted.
func (r Reader) Typed(t job.Typed) string {
	if own := t.Unit == r.Unit || t.Unit == job.MM && r.Unit == ""; !own || !unitless(t) { // who said no unit reads millimetres
		l, err := t.Length()
		if err != nil {
			return t.Text
		}
		return r.Length(l)
	}
	return marked(t.Text) + unit(r.UnitName())
}

// unitless tells whether a length was typed as a number alone: .012 in says its own unit, which need not be the reader's.
func unitless(t job.Typed) bool {
	return strings.Trim(t.Text, "0123456789.,/-+ ½¼¾⅛⅜⅝⅞") == ""
}

// Target says a wished height.
func (r Reader) Target(t job.Typed) string { return r.Typed(t) }

// TargetBare is Target without its unit.
func (r Reader) TargetBare(t job.Typed) string { return r.Bare(t.LengthOr(0)) }

// Reading says a reading as it was read where the unit is the reader's own: 6/64 to 7/64 in.
func (r Reader) Reading(read job.Read) string {
	i, err := read.Interval()
	if err != nil {
		return ""
	}
	if read.Way == job.ByMarks && !read.End.Given() && read.Low.Unit == r.Unit {
		return upTo(marked(read.Low.Text), marked(read.High.Text)) + unit(r.UnitName())
	}
	return r.Span(i)
}

// MarkLabel is a mark of the rule as it stands beside it: the number alone.
func MarkLabel(t job.Typed) string { return marked(t.Text) }

// Angle says an angle in whole degrees.
func Angle(a geometry.Angle) string { return Number(int(a.Degrees()+0.5)) + "°" }

// Strokes says how many strokes.
func Strokes(n int) string { return plural(n, "stroke", "strokes") }

// Fret says a fret.
func Fret(n int) string { return "fret " + Number(n) }

// Rounds says which round it is.
func Rounds(n int) string { return "Round " + Number(n) }
