package words

import (
	"strings"

	"gapwright/app/job"
	"gapwright/geometry"
)

// The readings of an instrument as a table of comma-separated values (RFC 4180).

// TableButton is the button of the table, TableFile the name of its file, and the others what stands in its way.
func TableButton() string { return "Readings as a table" }
func TableFile() string   { return "gapwright-readings.csv" }
func TableEmpty() string  { return "Nothing has been read on this instrument yet." }
func TableHoles() string {
	return "Some of this instrument’s jobs could not be read; the table has the others."
}

// tableHead names the columns.
func (r Reader) tableHead() []string {
	unit := " " + r.UnitName()
	return []string{"date", "job", "work", "instrument", "reading", "string (1 is treble)", "fret", "held at", "and at", "read by", "low" + unit, "high" + unit,
		"low as typed", "high as typed", "count", "ten together as typed", "rule end to zero as typed", "replaces", "humidity %", "temperature"}
}

// Table writes every reading of the jobs that stands, one a line, in their order; ok is false where there is none. Dates are of ISO 8601, in
// universal time; ranges in the reader's unit, as finely as a caliper or feelers tell them. It begins with the mark by which spreadsheets know
// that letters are written in UTF-8.
func (r Reader) Table(jobs []job.Record) (text string, ok bool) {
	var b strings.Builder
	b.WriteString("\ufeff")
	tableLine(&b, r.tableHead())
	for _, j := range jobs {
		kept := j.Kept()
		var air job.Aired
		for _, e := range kept {
			if f, is := e.Fact.(job.Aired); is {
				air = f
			}
		}
		for _, e := range kept {
			var read job.Read
			what, to, gap := "", 0, geometry.Interval{}
			err := geometry.ErrNoReading
			switch f := e.Fact.(type) {
			case job.Read:
				read, what = f, "height"
				gap, err = f.Interval()
			case job.Surveyed:
				read, what, to = f.Read, tableFeature(f.Feature), f.To
				gap, err = f.Interval()
			default:
				continue
			}
			if err != nil {
				continue
			}
			ok = true
			gap = gap.Outward(r.fine())
			cell := []string{e.At.UTC().Format("2006-01-02T15:04:05Z"), j.ID, tableWork(j.Method), Instrument(j.Instrument), what,
				Number(j.Instrument.Last() - read.String + 1), Number(read.Fret), NumberOrNone(read.Held), NumberOrNone(to), tableWay(read.Way),
				r.fineBare(gap.Low), r.fineBare(gap.High), tableTyped(read.Low), tableTyped(read.High), NumberOrNone(read.Count), tableTyped(read.TenThick),
				tableTyped(read.End), "", NumberOrNone(air.Humidity), ""}
			if read.EndCut {
				cell[16] += " cut off"
			}
			if read.Replaces {
				cell[17] = "yes"
			}
			if air.Temperature != "" {
				cell[19] = air.Temperature + " " + string(air.Scale)
			}
			for _, free := range []int{1, 3, 12, 13, 15, 16, 19} {
				cell[free] = harmless(cell[free])
			}
			tableLine(&b, cell)
		}
	}
	return b.String(), ok
}

// fineBare is a length as finely as feelers tell it, without its unit and with a point, whatever the language.
func (r Reader) fineBare(l geometry.Length) string {
	if r.Unit == job.Inch {
		return l.Inches(r.fine())
	}
	return l.Millimetres(r.fine())
}

func tableFeature(f job.Feature) string {
	switch f {
	case job.Relief:
		return "relief"
	case job.FirstPressed:
		return "fret 1 pressed"
	}
	return "fret 1 open"
}

func tableWork(m job.Method) string {
	switch m {
	case job.RaiseByStrip:
		return "strip under the saddle"
	case job.NewSaddle:
		return "new saddle"
	case job.ByScrews:
		return "screws"
	case job.ByPosts:
		return "posts"
	case job.NutSlots:
		return "nut slots"
	case job.SetRelief:
		return "relief"
	case job.QuickCheck:
		return "check"
	}
	return "sanding"
}

func tableWay(w job.Way) string { return lower(Way(w)) }

// tableTyped is a length as it was typed, with its unit, by which a spreadsheet sees that 6/64 is no date.
func tableTyped(t job.Typed) string {
	if !unitless(t) {
		return t.Text
	}
	if !t.Given() {
		return ""
	}
	if t.Unit == job.Inch {
		return t.Text + " in"
	}
	return t.Text + " mm"
}

// harmless keeps a spreadsheet from working out a text that somebody typed.
func harmless(text string) string {
	if text != "" && strings.Contains("=+-@\t\r\n", text[:1]) {
		return "'" + text
	}
	return text
}

// tableLine writes one line; a cell with a comma, a quotation mark or a break is quoted.
func tableLine(b *strings.Builder, cells []string) {
	for n, cell := range cells {
		if n > 0 {
			b.WriteByte(',')
		}
		if strings.ContainsAny(cell, ",\"\r\n") {
			cell = `"` + strings.ReplaceAll(cell, `"`, `""`) + `"`
		}
		b.WriteString(cell)
	}
	b.WriteString("\r\n")
}
