package words

import (
	"strings"

	"gapwright/app/job"
	"gapwright/geometry"
)

// LetterName names the place.
func LetterName() string { return "Letter for the owner" }

// The letter's screen.
func LetterLead() string      { return "Look it over, then hand it on." }
func PrintLetter() string     { return "Print or save as PDF" }
func ShareLetter() string     { return "Share" }
func CopyLetter() string      { return "Copy the text" }
func LetterCopied() string    { return "Copied: paste it into a message." }
func LetterStays() string     { return "This browser lets no page share or copy. Print it instead." }
func LetterUnprinted() string { return "This browser prints no page. Hand on the text instead." }
func SignLetter() string      { return "Add a line and your name" }
func ClosingLabel() string    { return "A line of your own" }
func SignatureLabel() string  { return "Your name" }
func SignLetterMore() string  { return "Neither is stored." }

// LetterFile is the name of the picture that goes with it.
func LetterFile() string { return "letter" }

// NoLetter says why a job has no letter.
func NoLetter(n job.NoLetter) string {
	if n == job.LetterNotYet {
		return "This job is under way. Its letter is written when it is over."
	}
	return "Nothing was read and nothing was done in this job, so there is nothing to tell."
}

// Letter is what a letter says.
type Letter struct {
	Title   string
	For     string // whom; may be empty
	Day     string
	Opening string
	Parts   []LetterPart
	Closing []string
}

// LetterPart is a stretch of a letter under a heading.
type LetterPart struct {
	Heading string
	Columns [2]string   // over the readings
	Rows    [][3]string // a place, what it was, what it is
	Lines   []string
}

// Letter words a letter, in the reader's unit, with what its writer adds at the end.
func (r Reader) Letter(l job.Letter, closing ...string) Letter {
	text := Letter{Title: Instrument(l.Instrument), Day: Day(l.Day), Opening: letterOpening(l)}
	if l.Instrument.Owner != "" {
		text.For = "For " + l.Instrument.Owner
	}
	add := func(p LetterPart) {
		if len(p.Rows) > 0 || len(p.Lines) > 0 {
			text.Parts = append(text.Parts, p)
		}
	}
	add(LetterPart{Heading: "What was done", Lines: r.letterWork(l)})
	add(r.letterGaps(l))
	add(r.letterNeck(l))
	add(LetterPart{Heading: "Strings and room", Lines: r.letterRoom(l)})
	add(LetterPart{Heading: "When to look again", Lines: []string{letterAgain(l)}})
	add(LetterPart{Heading: "What to watch for", Lines: []string{"A new buzz, a string gone quiet, a crack, or a part that lifts: show it to a qualified repairer."}})
	for _, line := range closing {
		if line != "" {
			text.Closing = append(text.Closing, line)
		}
	}
	return text
}

// Plain is the letter as text alone.
func (l Letter) Plain() string {
	var b strings.Builder
	line := func(text string) {
		if text != "" {
			b.WriteString(text + "\n")
		}
	}
	line(l.Title)
	line(l.For)
	line(l.Day)
	line("\n" + l.Opening)
	for _, p := range l.Parts {
		line("\n" + p.Heading)
		for _, row := range p.Rows {
			said := row[0] + ": "
			if row[1] != "" {
				said += lower(p.Columns[0]) + " " + row[1] + ", "
			}
			line(said + lower(p.Columns[1]) + " " + row[2])
		}
		for _, text := range p.Lines {
			line(text)
		}
	}
	for n, text := range l.Closing {
		if n == 0 {
			text = "\n" + text
		}
		line(text)
	}
	return b.String()
}

// lower is a heading in the middle of a line.
func lower(text string) string {
	if text == "" {
		return ""
	}
	return strings.ToLower(text[:1]) + text[1:]
}

// letterOpening says in a sentence or two what it was about.
func letterOpening(l job.Letter) string {
	text := ""
	switch w := l.Done; {
	case l.Method == job.QuickCheck:
		text = "The height of the strings was checked. Nothing was changed."
	case w.Nothing():
		text = "The instrument was measured. Nothing was changed."
	case l.Method == job.NutSlots && len(w.Filed) > 0:
		text = "The nut, the part that carries the strings at the head of the neck, was filed."
	case l.Method == job.NutSlots || l.Method == job.SetRelief:
		text = "The bow of the neck under the strings was set."
	case w.Made:
		text = "A new saddle was made: the part of the bridge that carries the strings."
	case w.Sanded:
		text = "The saddle is the part of the bridge that carries the strings. It was sanded from below to lower them."
	case l.Method == job.RaiseByStrip && len(w.Laid) > 0:
		text = "The saddle is the part of the bridge that carries the strings. A strip was laid under it to raise them."
	case l.Method == job.ByScrews && len(w.Turned) > 0:
		text = "The height of the strings was set at the bridge, by the screws at each string."
	case l.Method == job.ByPosts && len(w.Turned) > 0:
		text = "The height of the strings was set at the bridge, by the two posts under it."
	default:
		text = "The instrument was measured, and the neck set."
	}
	if !l.Away {
		return text
	}
	text += " The job was put away before its end."
	if l.Out {
		text += " It was not strung up again, as far as is recorded."
	}
	return text
}

// letterWork tells what was done, as far as it was counted or measured.
func (r Reader) letterWork(l job.Letter) (lines []string) {
	w := l.Done
	if w.Sanded {
		text := ""
		if w.Rounds > 1 {
			text = "In " + Number(w.Rounds) + " rounds "
		}
		for side, off := range w.Off {
			if side > 0 {
				text += ", "
			}
			if off.Low.RoundDown(r.step()) <= 0 {
				text += "at most " + r.Up(off.High)
			} else {
				text += r.Span(off)
			}
			if side == 0 {
				text += " came off"
			}
			text += " at the " + Side(side)
		}
		lines = append(lines, upper(text)+".")
	}
	if w.Smoothed {
		lines = append(lines, "The underside was smoothed with fine paper.")
	}
	for _, s := range w.Laid {
		switch {
		case !s.Bass.Given() || !s.Treble.Given():
			lines = append(lines, "A strip went under the saddle; how thick was not measured.")
		case s.Bass == s.Treble:
			lines = append(lines, "A strip of "+r.Typed(s.Bass)+" went under the saddle.")
		default:
			lines = append(lines, "Strips went under the saddle, "+r.Typed(s.Bass)+" at the bass end, "+r.Typed(s.Treble)+" at the treble end.")
		}
	}
	if text := letterTurned(l); text != "" {
		lines = append(lines, text)
	}
	if len(w.Filed) > 0 {
		names := make([]string, len(w.Filed))
		for n, course := range w.Filed {
			names[n] = Course(l.Instrument, course)
		}
		lines = append(lines, "Nut slots deepened: "+strings.Join(names, ", ")+".")
	}
	switch {
	case w.Rod > 0:
		lines = append(lines, "The truss rod was tightened by "+turns(w.Rod)+".")
	case w.Rod < 0:
		lines = append(lines, "The truss rod was loosened by "+turns(-w.Rod)+".")
	case w.Relief:
		lines = append(lines, "The bow of the neck was changed.")
	}
	if w.Nut {
		lines = append(lines, "The nut was worked on.")
	}
	return lines
}

// letterTurned tells how far each thing at the bridge was turned in all.
func letterTurned(l job.Letter) string {
	var all []string
	for n, eighths := range l.Done.Turned {
		if eighths != 0 {
			all = append(all, lower(Thing(l.Instrument, l.Method, n))+": "+Eighths(eighths))
		}
	}
	switch {
	case len(l.Done.Turned) == 0:
		return ""
	case len(all) == 0:
		return "What was turned was turned back."
	}
	return upper(strings.Join(all, "; ")) + "."
}

// upper is a sentence's beginning.
func upper(text string) string { return strings.ToUpper(text[:1]) + text[1:] }

// letterRead says a reading of a gap: as it was read, where that was once.
func (r Reader) letterRead(read job.LetterRead) string {
	switch {
	case !read.Known:
		return "not read"
	case read.Once != nil:
		return r.Reading(*read.Once)
	}
	return r.Span(read.Range)
}

// LetterRow says what a place was and is; what it was is empty where that was read once only.
func (r Reader) LetterRow(row job.LetterRow) (was, now string) {
	say := r.letterRead
	if row.Feature != "" {
		say = func(read job.LetterRead) string {
			if !read.Known {
				return "not read"
			}
			return r.signed(read.Range)
		}
	}
	if row.Was.Known {
		was = say(row.Was)
	}
	return was, say(row.Now)
}

func (r Reader) letterRows(l job.Letter, rows []job.LetterRow) (said [][3]string) {
	for _, row := range rows {
		name := PlaceName(l.Instrument, row.Place)
		if row.Feature == "" {
			name = CourseTitle(l.Instrument, row.Course)
		}
		was, now := r.LetterRow(row)
		said = append(said, [3]string{name, was, now})
	}
	return said
}

// LetterColumns head what a place was and is.
func LetterColumns(l job.Letter) [2]string {
	if l.Check != nil {
		return [2]string{"As set", "Now"}
	}
	return [2]string{"Before", "Now"}
}

// letterGaps tells how high the strings were and are.
func (r Reader) letterGaps(l job.Letter) LetterPart {
	p := LetterPart{Heading: "How high the strings are at " + Fret(l.Instrument.ReadFret()), Columns: LetterColumns(l), Rows: r.letterRows(l, l.Gaps)}
	if len(p.Rows) == 0 {
		return p
	}
	how := "From the top of the fret to the open string."
	if l.Instrument.Held > 0 {
		how = "From the top of the fret to the string, held down at " + Fret(l.Instrument.Held) + "."
	}
	p.Lines = append(p.Lines, how+" A reading is a range: the string is somewhere in it.")
	if l.Check != nil {
		p.Lines = append(p.Lines, letterFound(*l.Check))
		if l.Instrument.HasBaseline() {
			p.Lines = append(p.Lines, "It was set on "+Day(l.Instrument.AsSet.At)+moved(l.Instrument)+".")
		}
		if l.Check.Restrung {
			p.Lines = append(p.Lines, "Strings or tuning are not those it was set with.")
		}
	}
	if l.Wanted != nil {
		line := "Wanted: " + r.heightsOf(*l.Wanted)
		if l.Proven {
			line += ", and the readings show it."
		} else {
			line += ", which the readings do not prove."
		}
		p.Lines = append(p.Lines, line)
	}
	if l.Parted {
		p.Lines = append(p.Lines, "Strings or tuning were changed in between: part of the difference is from that.")
	}
	return p
}

// letterFound says what a check found.
func letterFound(c job.Check) string {
	switch c.Answer {
	case job.CheckNoBaseline:
		return "There is nothing of before to compare with."
	case job.CheckSame:
		return "Nothing has moved, as far as these readings tell."
	}
	var all []string
	for side, s := range c.Strings {
		name := []string{"the bass side ", "the treble side "}[side]
		switch s.Told {
		case geometry.Higher:
			all = append(all, name+"is higher than it was set")
		case geometry.Lower:
			all = append(all, name+"is lower than it was set")
		case geometry.Untold:
			all = append(all, name+"may have moved: these readings cannot tell")
		default:
			all = append(all, name+"has not moved, as far as these readings tell")
		}
	}
	return upper(strings.Join(all, "; ")) + "."
}

// heightsOf says a wish, bass first.
func (r Reader) heightsOf(c job.Chosen) string {
	bass := marked(c.Bass.Text)
	if c.Bass.Unit != r.Unit {
		bass = r.TargetBare(c.Bass)
	}
	return bass + " / " + r.Typed(c.Treble)
}

// letterNeck tells of relief and nut.
func (r Reader) letterNeck(l job.Letter) LetterPart {
	p := LetterPart{Heading: "The neck", Columns: LetterColumns(l), Rows: r.letterRows(l, l.Neck)}
	relief, first := false, false
	for _, row := range l.Neck {
		relief, first = relief || row.Feature == job.Relief, first || row.Feature != job.Relief
	}
	text := ""
	if relief {
		text = "Relief is the slight bow of the neck. "
	}
	if first {
		text += "The gap at fret 1 tells how high the nut is."
	}
	if text != "" {
		p.Lines = append(p.Lines, strings.TrimSpace(text))
	}
	if l.Parted && len(l.Gaps) == 0 && len(p.Rows) > 0 {
		p.Lines = append(p.Lines, "Strings or tuning were changed in between: part of the difference is from that.")
	}
	switch {
	case l.Method.Has(job.Measure) || l.Done.Nothing():
	case l.Still:
		p.Lines = append(p.Lines, "The relief reads as before. The height at fret 12 was not read in this job.")
	default:
		p.Lines = append(p.Lines, "The height at fret 12 has moved with it and was not read in this job.")
	}
	return p
}

// letterRoom tells of the strings and of the air.
func (r Reader) letterRoom(l job.Letter) (lines []string) {
	switch l.Strung {
	case job.StrungSame:
		lines = append(lines, "The same strings went back on.")
	case job.StrungAlike:
		lines = append(lines, "New strings of the same gauge went on.")
	case job.StrungOther:
		lines = append(lines, "Strings of another gauge went on.")
	}
	if i := l.Instrument; i.Set != nil {
		line := "Tuned to " + Notes(i.Tones())
		if i.Capo() > 0 {
			line += ", capo at " + Fret(i.Capo())
		}
		lines = append(lines, line+".")
		if text := r.letterGauges(i); text != "" {
			lines = append(lines, text)
		}
	}
	if text := letterAir(l); text != "" {
		lines = append(lines, text)
	}
	return lines
}

// letterGauges lists the strings' diameters as packets do, treble string first; empty where none is known.
func (r Reader) letterGauges(i job.Instrument) string {
	if i.Set.Published != "" {
		return "A set as published, " + lower(Published(i.Set.Published)) + " pull."
	}
	var all []string
	known := false
	gauges := i.Gauges()
	for n := len(gauges) - 1; n >= 0; n-- {
		said := "?"
		if d := gauges[n].Diameter; d.Given() {
			known, said = true, marked(d.Text)
			if d.Unit != r.Unit || !unitless(d) {
				said = r.digits(d.LengthOr(0), r.fine())
			}
		}
		all = append(all, said)
	}
	if !known {
		return ""
	}
	return "Diameters, treble first: " + strings.Join(all, ", ") + unit(r.UnitName()) + "."
}

// letterAir tells what was read or said of the air.
func letterAir(l job.Letter) string {
	if a := l.Air; a != nil && (a.Humidity > 0 || a.Temperature != "") {
		var all []string
		if a.Humidity > 0 {
			all = append(all, Number(a.Humidity)+"\u00a0% humidity")
		}
		if a.Temperature != "" {
			all = append(all, marked(strings.Replace(a.Temperature, ",", ".", 1))+" °"+string(a.Scale))
		}
		return "Air in the room: " + strings.Join(all, ", ") + "."
	}
	switch l.Room {
	case job.RoomFine:
		return "Air in the room: 40 to 60\u00a0% humidity."
	case job.RoomWet:
		return "Air in the room: damp, over 60\u00a0% humidity."
	case job.RoomDry:
		return "Air in the room: dry, under 40\u00a0% humidity."
	}
	return ""
}

// letterAgain says when to look again (common practice, no source).
func letterAgain(l job.Letter) string {
	text := "When the season turns, or the heating comes on. Also when strings of another gauge or tuning go on."
	if l.Done.Nothing() {
		return text
	}
	return "In a few weeks, when all has settled. " + text
}

// LetterPicture names a picture of a letter; LetterWas and LetterNow label what is in it.
func LetterPicture(l job.Letter, row job.LetterRow) string {
	if row.Feature == "" {
		return CourseTitle(l.Instrument, row.Course) + " from the side"
	}
	if row.Feature == job.Relief {
		return "The bow of the neck"
	}
	return CourseTitle(l.Instrument, row.Course) + " at the nut"
}
func LetterWas(l job.Letter, was string) string { return lower(LetterColumns(l)[0]) + " " + was }
func LetterNow(now string) string               { return "now " + now }
