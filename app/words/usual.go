package words

import (
	"errors"

	"gapwright/app/job"
	"gapwright/geometry"
)

// What is usual of one instrument.

// WontTitle heads it; own: something is usual of this one that is not for its kind.
func WontTitle(own bool) string {
	if own {
		return "What is usual of it: its own"
	}
	return "What is usual of it"
}

// KeepWont names the button that keeps it, beside the one that keeps the rest.
func KeepWont() string { return Keep() + ": " + WontTitle(false) }

// WontLead says what the fields are for.
func WontLead() string {
	return "For open strings. Empty: what is usual for its kind, in brackets."
}

// WontPart names a group of fields.
func WontPart(p job.WontPart) string {
	switch p {
	case job.WontGap:
		return "Gap at fret 12"
	case job.WontRelief:
		return "Relief"
	case job.WontFirst:
		return "Gap at fret 1"
	case job.WontFloor:
		return "Floor for somebody who knows their touch"
	case job.WontBeginner:
		return "Floor for everybody else"
	}
	return ""
}

// WontLabel labels a field, with what is usual for the family.
func (r Reader) WontLabel(f job.WontField, family geometry.Length) string {
	name := "Bass"
	if f.Side == 1 {
		name = "Treble"
	}
	end := "from"
	if f.High {
		end = "to"
	}
	switch f.Part {
	case job.WontRelief:
		name = "From"
		if f.High {
			name = "To"
		}
	case job.WontGap, job.WontFirst:
		name += ", " + end
	}
	return name + " (" + r.digits(family, r.fine()) + ")"
}

// WontUnder is the caution at a floor that lies lower than the family's.
func WontUnder() string {
	return "Lower than is usual: strings are likely to buzz. Only where they were tried that low, played hard."
}

// wont says what of what is usual cannot be, and what could.
func (r Reader) wont(e *job.WontError) string {
	var out *geometry.RangeError
	than := r.digits(e.Than, r.fine()) + unit(r.UnitName())
	switch {
	case errors.As(e.Cause, &out):
		name := "A usual gap"
		switch e.Field.Part {
		case job.WontRelief:
			name = "A usual relief"
		case job.WontFirst:
			name = "A usual gap at fret 1"
		case job.WontFloor, job.WontBeginner:
			name = "A floor"
		}
		return name + " lies between " + r.Bare(geometry.Length(out.Min).RoundUp(r.step())) + " and " + r.Down(geometry.Length(out.Max)) + "."
	case e.Cause != nil:
		return r.Error(e.Cause)
	}
	way := "Not under "
	if e.Over {
		way = "Not over "
	}
	return way + wontName(e.Other) + ", " + than + ". Change one of the two."
}

// wontName names the number that another must not pass.
func wontName(f job.WontField) string {
	switch f.Part {
	case job.WontFloor:
		return "the lower floor"
	case job.WontBeginner:
		return "the floor for everybody else"
	case job.WontGap:
		if f.High {
			return "the upper end of the usual gap"
		}
		return "the lower end of the usual gap"
	}
	if f.High {
		return "the upper end"
	}
	return "the lower end"
}
