package words

import "gapwright/app/job"

// slotted tells what was measured for a new saddle.
func (r Reader) slotted(f job.Slotted) string {
	line := "Slot"
	for _, part := range []struct {
		typed job.Typed
		name  string
	}{{f.Length, "long"}, {f.Width, "wide"}, {f.Depth, "deep"}} {
		if part.typed.Given() {
			line += ", " + r.Typed(part.typed) + " " + part.name
		}
	}
	if line == "Slot" {
		line += ": not measured"
	}
	if f.Across != "" {
		line += "; board: " + Across(f.Across)
	}
	if f.Bass.Given() || f.Treble.Given() {
		line += "; old saddle " + r.Typed(f.Bass) + " bass, " + r.Typed(f.Treble) + " treble, in all"
	}
	return line
}

// Across names what the board is like across.
func Across(a job.Rounded) string {
	switch a {
	case job.AcrossFlat:
		return "flat"
	case job.AcrossRadius:
		return "round"
	}
	return "not known"
}
