package words

import (
	"strings"
	"time"

	"gapwright/app/job"
	"gapwright/geometry"
)

// HistoryName names the place.
func HistoryName() string { return "History" }

// The air in the room.
func HumidityLabel() string            { return "Humidity" }
func TemperatureLabel() string         { return "Temperature" }
func DegreesName(d job.Degrees) string { return "°" + string(d) }
func DegreesLabel() string             { return "Degrees" }
func KeepAir() string                  { return "Keep the air" }
func airTitle() string                 { return "Air in the room" }
func AirMore() string {
	return "Wood moves with the damp in the air, and strings with it. With the humidity the history can tell weather from work."
}

// AirFields is what stands under the fields.
func AirFields() string { return "Left empty: not measured. " + AirMore() }

// AirTitle heads the air's fields with what is known of it.
func AirTitle(a job.Aired, said bool) string {
	if !said {
		return airTitle() + "?"
	}
	return airTitle() + ": " + Air(a)
}

// Air says what was read of the air; empty when nothing was.
func Air(a job.Aired) string {
	var all []string
	if a.Humidity != 0 {
		all = append(all, Number(a.Humidity)+"\u00a0%")
	}
	if t := strings.TrimSpace(a.Temperature); t != "" {
		all = append(all, marked(strings.Replace(t, ",", ".", 1))+unit(DegreesName(a.Scale)))
	}
	return strings.Join(all, ", ")
}

// HistoryLoading stands until the journal has answered.
func HistoryLoading() string { return "Fetching what was…" }

// HistoryLead says how much there is.
func HistoryLead(entries []job.Entry) string {
	if len(entries) == 0 {
		return "Nothing is over yet. Every finished job and check is kept here."
	}
	checks := 0
	for _, e := range entries {
		if e.Method == job.QuickCheck {
			checks++
		}
	}
	var all []string
	if n := len(entries) - checks; n > 0 {
		all = append(all, plural(n, "job", "jobs"))
	}
	if checks > 0 {
		all = append(all, plural(checks, "check", "checks"))
	}
	return strings.Join(all, ", ") + ", the newest first."
}

// NotWhole says that something of a history could not be read.
func NotWhole() string { return "Some of it could not be read now. It is kept; try again later." }

// ElsewhereRead says how many readings are of another place.
func ElsewhereRead(n int, i job.Instrument) string {
	return plural(n, "entry was", "entries were") + " not read at " + readAt(i) + " and cannot be compared."
}

func readAt(i job.Instrument) string {
	if i.Held > 0 {
		return Fret(i.ReadFret()) + " held at " + Number(i.Held)
	}
	return Fret(i.ReadFret())
}

// EntryName says when and what an entry was.
func EntryName(e job.Entry) string {
	if e.Ended == job.Away {
		return Day(e.At) + ": " + entryWork(e) + ", put away"
	}
	return Day(e.At) + ": " + entryWork(e)
}

func entryWork(e job.Entry) string {
	switch e.Method {
	case job.SandUnderside:
		if e.Ended == job.Away { // nobody knows how far that came
			return "saddle"
		}
	case job.QuickCheck:
		return "check"
	case job.RaiseByStrip:
		return "strip under the saddle"
	case job.NewSaddle:
		return "new saddle"
	case job.ByScrews:
		return "screws"
	case job.ByPosts:
		return "posts or wheels"
	case job.NutSlots:
		return "nut slots"
	case job.SetRelief:
		return "relief"
	}
	return "saddle sanded"
}

// Entry tells what an entry's readings were: one line for each thing that was read.
func (r Reader) Entry(i job.Instrument, e job.Entry) (lines []string) {
	for side, course := range []int{0, i.Last()} {
		if text := r.entryGap(e, side); text != "" {
			lines = append(lines, CourseShort(i, course)+" "+text)
		}
	}
	if e.ReliefRead {
		lines = append(lines, "Relief "+r.signed(e.Relief))
	}
	if e.Air != nil {
		lines = append(lines, airTitle()+" "+Air(*e.Air))
	}
	if e.OtherSet && e.Set != nil {
		if gauges := r.entryGauges(e.Set); gauges != "" {
			lines = append(lines, "Other strings, "+gauges)
		}
	}
	return lines
}

func (r Reader) entryGap(e job.Entry, side int) string {
	found, left := e.Found[side], e.Left[side]
	switch {
	case found.Known && left.Known:
		return r.lookedAt(left) + ", was " + r.lookedAt(found)
	case left.Known:
		return r.lookedAt(left)
	case found.Known && e.Changed:
		return "was " + r.lookedAt(found)
	case found.Known:
		return r.lookedAt(found)
	}
	return ""
}

// lookedAt says a reading, as it was read where that was once.
func (r Reader) lookedAt(read job.LetterRead) string {
	if read.Once != nil {
		if text := r.Reading(*read.Once); text != "" {
			return text
		}
	}
	return r.Span(read.Range)
}

// entryGauges is the thinnest and the thickest string that somebody named.
func (r Reader) entryGauges(s *job.Stringing) string {
	if s.Published != "" {
		return Published(s.Published)
	}
	var thin, thick *job.Typed
	for n := range s.Gauges {
		d := &s.Gauges[n].Diameter
		l := d.LengthOr(0)
		if l == 0 {
			continue
		}
		if thin == nil || l < thin.LengthOr(0) {
			thin = d
		}
		if thick == nil || l > thick.LengthOr(0) {
			thick = d
		}
	}
	if thin == nil {
		return ""
	}
	return r.hundredth(geometry.Interval{Low: thin.LengthOr(0), High: thick.LengthOr(0)}) + " thick"
}

// Older heads the entries that are folded away.
func Older(n int) string { return plural(n, "older entry", "older entries") }

// TakeUp opens a job again that was put away.
func TakeUp() string { return "Take it up again" }

// NotTakenUp says that it could not be.
func NotTakenUp() string { return "This job cannot be taken up again. It stays as it was put away." }

// The chart.
func HistoryPicture() string { return "Readings over time" }

// HistoryKeys name what its shapes stand for.
func HistoryKeys() [3]string { return [3]string{"found", "left", "as set"} }

// GapLane names the lane of an outer string.
func (r Reader) GapLane(i job.Instrument, course int) string {
	return CourseShort(i, course) + ", " + readAt(i) + ", " + r.UnitName()
}
func (r Reader) ReliefLane() string { return "Relief, " + r.UnitName() }
func HumidityLane() string          { return "Humidity, %" }

// HistoryText tells the chart's numbers to those who do not see it, oldest first.
func (r Reader) HistoryText(i job.Instrument, entries []job.Entry) string {
	var all []string
	for _, e := range entries {
		if lines := r.Entry(i, e); len(lines) > 0 {
			all = append(all, EntryName(e)+": "+strings.Join(lines, "; "))
		}
	}
	return strings.Join(all, ". ") + "."
}

// ScaleMark is a value on a scale with its label.
type ScaleMark struct {
	At   float64
	Text string
}

// marks are the round values between two, three at most.
func marks(low, high, unit float64, steps []float64, text func(n float64) string) (all []ScaleMark) {
	for _, step := range steps {
		all = nil
		from := int(low / (step * unit))
		for n := from - 1; float64(n)*step*unit <= high; n++ {
			if at := float64(n) * step * unit; at >= low {
				all = append(all, ScaleMark{at, text(float64(n) * step)})
			}
		}
		if len(all) <= 3 {
			break
		}
	}
	return all
}

// Scale is what stands beside a scale of lengths from low to high.
func (r Reader) Scale(low, high float64) []ScaleMark {
	if r.Unit == job.Inch {
		return marks(low, high, 25.4, []float64{0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5}, func(n float64) string { return decimal(n, 3) })
	}
	return marks(low, high, 1, []float64{0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10}, func(n float64) string { return decimal(n, 2) })
}

// PercentScale is what stands beside a scale of percent.
func PercentScale(low, high float64) []ScaleMark {
	return marks(low, high, 1, []float64{10, 20, 50, 100}, func(n float64) string { return Number(int(n)) })
}

// DayMark is a day on an axis with its label.
type DayMark struct {
	At   time.Time
	Text string
}

// Between are the days worth marking between two: the first of every year, or of every month where it is less than a year and a half.
func Between(from, to time.Time) (all []DayMark) {
	long := to.Sub(from)
	if long < 45*24*time.Hour || long > 60*366*24*time.Hour {
		return nil
	}
	years := long > 550*24*time.Hour
	for at := time.Date(from.Year(), 1, 1, 0, 0, 0, 0, from.Location()); !at.After(to); {
		if !at.Before(from) {
			text := month(at)
			if years || at.Month() == time.January {
				text = Number(at.Year())
			}
			all = append(all, DayMark{at, text})
		}
		if years {
			at = at.AddDate(1, 0, 0)
		} else {
			at = at.AddDate(0, 1, 0)
		}
	}
	return all
}

// DriftTitle heads what the records say of the air.
func DriftTitle() string { return "Weather and wood" }

// Drift tells what an instrument's own readings say of its outer strings and the air.
func (r Reader) Drift(i job.Instrument, drifts [2]geometry.Drift) (lines []string) {
	bass, treble := r.drift(drifts[0]), r.drift(drifts[1])
	if bass == treble && drifts[0].PerTen == (geometry.Interval{}) {
		lines = []string{strings.ToUpper(bass[:1]) + bass[1:]}
	} else {
		lines = []string{CourseTitle(i, 0) + ": " + bass, CourseTitle(i, i.Last()) + ": " + treble}
	}
	either := func(v geometry.DriftVerdict) bool { return drifts[0].Verdict == v || drifts[1].Verdict == v }
	switch higher, lower := either(geometry.DriftHigher), either(geometry.DriftLower); {
	case higher && !lower:
		lines = append(lines, "So expect it higher in damp seasons and lower where rooms are heated.")
	case lower && !higher:
		lines = append(lines, "So expect it lower in damp seasons and higher where rooms are heated.")
	}
	return lines
}

func (r Reader) drift(d geometry.Drift) string {
	dry, damp := Number(int(d.Dry+0.5)), Number(int(d.Damp+0.5))+"\u00a0%"
	switch d.Verdict {
	case geometry.DriftHigher:
		return r.tenUp(d.PerTen) + " higher for every 10\u00a0% more humidity, by " + Number(d.Readings) + " readings between " + dry + " and " + damp + "."
	case geometry.DriftLower:
		return r.tenUp(d.PerTen.Times(-1)) + " lower for every 10\u00a0% more humidity, by " + Number(d.Readings) + " readings between " + dry + " and " + damp + "."
	case geometry.DriftSameAir:
		return "humidity hardly varied so far, " + upTo(dry, damp) + ", so nothing can be said of its part."
	case geometry.DriftCannotBe:
		return "no trend with humidity that these " + Number(d.Readings) + " readings could tell."
	}
	return "a trend with humidity needs at least " + Number(geometry.LeastDriftReadings) + " readings of one setting, with the humidity read."
}

// tenUp says a range; one that begins under the smallest step only by its end.
func (r Reader) tenUp(i geometry.Interval) string {
	if i.Low.RoundDown(r.step()) <= 0 {
		return "up to " + r.Up(i.High)
	}
	return r.Span(i)
}

// Wood tells towards which moisture the air took the wood, at the last setting and at the newest reading; empty where it is not known.
func Wood(set, now *job.Aired) string {
	if now == nil {
		return ""
	}
	at, known := now.WoodMoisture()
	if !known {
		return ""
	}
	text := "The air of the newest reading takes wood towards " + percent(at) + " moisture"
	if set != nil && *set != *now {
		if before, known := set.WoodMoisture(); known {
			text += "; that of the last setting, towards " + percent(before)
			if percent(at) == percent(before) {
				text = "The air takes wood towards " + percent(at) + " moisture, as when it was last set"
			}
		}
	}
	return text + ". It follows within days to weeks."
}

func percent(x float64) string { return Number(int(x+0.5)) + "\u00a0%" }

// Trust tells how well what was foretold came true; empty where nothing was foretold yet.
func Trust(r Reader, t job.Trust) string {
	if t.Times == 0 {
		return ""
	}
	if t.Agreed == t.Times {
		if t.Times == 1 {
			return "The one new height so far agreed with what was foretold."
		}
		if t.Times == 2 {
			return "Both new heights so far agreed with what was foretold."
		}
		return "All " + Number(t.Times) + " new heights so far agreed with what was foretold."
	}
	text := Number(t.Agreed) + " of " + Number(t.Times) + " new heights agreed with what was foretold"
	if t.Under > 0 {
		text += "; " + often(t.Under) + " it was lower, by " + r.least(t.MostUnder)
	}
	if t.Over > 0 {
		text += "; " + often(t.Over) + " it was higher, by " + r.least(t.MostOver)
	}
	return text + "."
}

func often(n int) string {
	if n == 1 {
		return "once"
	}
	return Number(n) + " times"
}

// least says by how much at least a reading missed; less than a step is a step's part.
func (r Reader) least(l geometry.Length) string {
	if l.RoundDown(r.step()) <= 0 {
		return "less than " + r.Length(r.step())
	}
	return "at least " + r.Down(l)
}

// TrustPlan is Trust where the next round is planned, with what to do about it.
func TrustPlan(r Reader, t job.Trust) string {
	text := Trust(r, t)
	if text == "" {
		return ""
	}
	text = "On this instrument: " + strings.ToLower(text[:1]) + text[1:]
	if t.Under > 0 {
		text += " It may end lower again: stop a little early and measure."
	}
	return text
}
