package words

import (
	"gapwright/app/job"
	"gapwright/geometry"
)

// BuzzName names the place.
func BuzzName() string { return "Where does it buzz?" }

// The parts of the answer.
func BuzzIfSo() string      { return "If so" }
func BuzzLess() string      { return "Less likely" }
func BuzzStopWhen() string  { return "Stop when" }
func BuzzPicture() string   { return "A neck from above, with the places that buzz marked" }
func BuzzHeight() string    { return "A rule on fret 12, beside an open string" }
func BuzzSeat() string      { return "Two fingers press the ends of a saddle in turn" }
func RockerPicture() string { return "A straight edge that rocks on the middle one of three frets" }

// BuzzSudden stands before everything else where it came suddenly.
func BuzzSudden() string { return "A crack? Slacken the strings." }

// BuzzQuestion words one of the three questions.
func BuzzQuestion(n int) Ask {
	return [...]Ask{
		{"Which strings buzz?", "Play each alone, open and at every fret.", []string{
			"Play as hard as you ever do, in a quiet room. A buzz lasts with the note; a click when it starts is your pick or nail.",
			"Do you hear it only through an amplifier? Then first try another lead, and another amplifier.",
		}},
		{"Where on the neck?", "Where is your finger when it buzzes?", []string{
			"A string buzzes against a fret further on, between your finger and the bridge. Your finger tells more than your eye.",
		}},
		{"Since when?", "Think back to the last time it was clean.", []string{
			"What was done last is the first suspect. Heating, a dry winter, a damp summer and a journey all bend necks.",
		}},
	}[n]
}

// BuzzAnswer words an answer to it.
func BuzzAnswer(n, answer int) string {
	return [...][6]string{
		{"One", "A few neighbours", "All"},
		{"Open, not stopped", "Frets 1 to 4", "Frets 5 to 11", "Fret 12 and up", "Everywhere", "One fret only"},
		{"Since I set it", "Since the weather changed", "Since new strings", "Suddenly", "Always", "Not sure"},
	}[n][answer]
}

// BuzzSaid tells what was answered, in a line.
func BuzzSaid(b job.Buzz) string {
	return [...]string{"One string", "A few strings", "All strings"}[b[0]] +
		[...]string{", open", ", frets 1 to 4", ", frets 5 to 11", ", fret 12 and up", ", everywhere", ", one fret"}[b[1]]
}

// BuzzNumbered heads a cause by its place among the likely ones, from 1.
func BuzzNumbered(n int, c job.BuzzCause) string { return Number(n) + ". " + BuzzCause(c).Name }

// Cause is a cause of a buzz in words: the check that confirms it, and then what to do and when to stop.
type Cause struct {
	Name, Check string
	Remedy      []string
}

// BuzzCause words a cause (common practice, no source).
func BuzzCause(c job.BuzzCause) Cause {
	return [...]Cause{
		job.CauseHard: {"Hard playing", "Play the same notes half as hard. Clean now?", []string{
			"Then nothing is broken. Low strings ask for a light touch: play lighter, or have them set a little higher.",
		}},
		job.CauseSeat: {"Something not seated", "Does each string lie in its notches, and the saddle fully down?", []string{
			"Slacken it. Lay it in its notch at nut and saddle, and press the saddle straight down. Tune up and listen.",
			"A saddle that rocks, leans or is cracked: stop, and see a qualified repairer.",
		}},
		job.CauseString: {"A worn string", "Feel along the string for dents, kinks, rust. Is its gauge right?", []string{
			"Change that string for a new one of the gauge that was on before, and let it settle. New set just on? Let it settle for a day first.",
			"If the new one buzzes too, it was not the string: go on to the next cause.",
		}},
		job.CauseLoose: {"Something loose", "Touch tuners, string ends and screws while it buzzes. One goes quiet?", []string{
			"Snug that nut or screw by hand, never hard. Cut off string ends that touch something.",
			"Tap around the top with a fingertip. A dull rattle from inside is a brace or a seam: stop, and see a qualified repairer.",
		}},
		job.CauseSeason: {"Dry or damp air", "Is the room under 40\u00a0% or over 60\u00a0%? Measure the relief.", []string{
			"Turn and cut nothing yet. Keep it in its case at 40 to 60\u00a0%, at pitch, for some days, then listen again: wood comes back by itself.",
			"What is left then is set by the relief. A crack, or a bridge that lifts: stop, and see a qualified repairer.",
		}},
		job.CauseFlat: {"Too little relief", "Hold a string at fret 1 and the body: hardly any gap half-way?", []string{
			"Measure the relief. Less than usual: loosen the rod an eighth of a turn at pitch, wait, and measure again. Never more than half a turn in a day.",
			"No rod, or one that sticks, creaks or spins: stop, and see a qualified repairer.",
		}},
		job.CauseLow: {"Strings too low", "Measure the gap at fret 12. Less than usual?", []string{
			"Raise them by what can be put back: screws, posts, or a strip under the saddle. Take nothing off while it buzzes.",
			"Still buzzing at the usual height: it was not this. Put it back, and look further.",
		}},
		job.CauseNut: {"A low nut slot", "Press the string between frets 2 and 3: does it touch fret 1?", []string{
			"Slide a strip of paper into the slot, under the string. Quiet now? That proves it, and does for tonight.",
			"No saddle cures it. A qualified repairer fills the slot or makes another nut.",
		}},
		job.CauseFret: {"A high fret", "Lay a short straight edge over three frets: does it rock?", []string{
			"It rocks on the high one. Press the ends of that fret with a fingertip: one that moves is loose. A fret is pressed in, glued or levelled by a qualified repairer.",
			"File no fret, and raise no saddle to hide it. A board that rises towards the body is for the repairer too.",
		}},
		job.CauseBowed: {"Too much relief", "Hold a string at fret 1 and the body: a wide gap half-way?", []string{
			"Measure the relief. More than usual: tighten the rod an eighth of a turn at pitch, wait, and measure again. The strings come down with it.",
			"If the rod gets hard to turn, or does nothing, stop and see a qualified repairer.",
		}},
	}[c]
}

// BuzzRead says what was read that speaks of a cause; empty when nothing was.
func (r Reader) BuzzRead(i job.Instrument, s job.Suspect) string {
	if len(s.Read) == 0 {
		return ""
	}
	f := s.Read[0]
	said := "Against it: "
	if s.For {
		said = "For it: "
	}
	part, course := "relief", Course(i, int(f.Side)*i.Last())
	switch f.Part {
	case geometry.PartNut:
		part = "fret 1, " + course
	case geometry.PartSaddle:
		part = "fret 12, " + course
	}
	return said + part + " " + r.PartLine(f)
}
