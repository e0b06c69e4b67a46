package words

import (
	"gapwright/app/job"
	"gapwright/geometry"
)

// LearnPage is one of the short pages of Learn.
type LearnPage struct {
	ID, Title, Lead string
	Kind            LearnKind
	Parts           []LearnPart
}

// LearnKind is how a page is laid out.
type LearnKind uint8

// The kinds.
const (
	LearnLists   LearnKind = iota
	LearnOrder             // a list in order
	LearnPicture           // a picture to try; its lines are folded
	LearnTerms             // words, each explained at a tap
)

// LearnPart is some of a page's lines: what each is of, and what is said of it.
type LearnPart struct {
	Head  string
	Lines [][2]string
}

// LearnName names the place; LearnLead says what is there.
func LearnName() string { return "Learn" }
func LearnLead() string { return "Four short pages, for a quiet minute before the work." }

// WordsPage is the page of the trade's words.
const WordsPage = "words"

// GlossaryTitle names it.
func GlossaryTitle() string { return "Words of the trade" }

// Learn lists the pages, in the order in which they are best read.
func Learn() []LearnPage {
	return []LearnPage{
		{"height", "Height, relief and nut", "Change one, and watch the others.", LearnPicture, []LearnPart{{"", [][2]string{
			{"Relief.", "It is the slight bend of the neck. It moves everything, so it is set first."},
			{"Nut.", "It rules the low frets. Half of what it moves still shows at fret 12."},
			{"Saddle.", "It rules the high frets. At fret 12 you get half of what you take off; at fret 1 almost none."},
			{"So", "put right what is out, in this order, and read again after each. A saddle cannot mend a bent neck or a high nut."},
			{"The dashed line", "is the string before you moved anything. The mark shows where a plucked string would touch first."},
			{"This", "is the bass string of a usual six-string guitar. Its neck bends evenly; a real one may move the strings less."},
		}}}},
		{"order", "What to measure, in order", "Tune it, and hold it as you play. Each reading helps you to judge the next.", LearnOrder, []LearnPart{{"", [][2]string{
			{"Strings.", "Fit the ones you will keep. Other strings pull harder or less, and the neck follows."},
			{"Fret 12, both outer strings.", "This is the height that your hand feels."},
			{"Relief.", "A bent neck lifts the strings, and the saddle gets the blame."},
			{"Fret 1, string open.", "This shows whether the nut is too high."},
			{"The strings between.", "They show whether the saddle’s curve fits the board."},
			{"The saddle, above the bridge.", "This shows how much it can lose."},
			{"Buzz.", "Play each string at each fret. Heights alone do not tell you."},
			{"All again, after each change.", "Each part moves the others, so old readings no longer hold."},
		}}}},
		{"never", "What cannot be undone", "What is cut away stays away. Take less, and measure more often.", LearnLists, []LearnPart{
			{"Gone for good", [][2]string{
				{"A sanded saddle.", "Only a strip under it, or a new one, brings height back."},
				{"A filed nut slot.", "Too deep, it buzzes: it must be filled, or the nut made new."},
				{"A filed fret.", "That is work for a repairer from the start."},
			}},
			{"Can be put back", [][2]string{
				{"Screws and posts.", "Count the turns, and turn them back."},
				{"A truss rod.", "Turn it an eighth at a time, and never by force."},
				{"A strip under the saddle.", "Take it out again."},
			}},
			{"Stop, and see a qualified repairer", [][2]string{
				{"A crack,", "or a seam that opens."},
				{"A bridge", "that lifts: a sheet of paper slides under its edge."},
				{"A top", "that sinks or swells near the bridge."},
				{"A neck", "that twists, or moves at its joint."},
				{"A rod", "that is stuck, or turns and does nothing."},
				{"A fret", "that is loose, or stands high."},
				{"A nut or saddle", "that is glued in."},
				{"Anything", "that you would have to force."},
			}},
		}},
		{WordsPage, GlossaryTitle(), "Tap a word to see what it means.", LearnTerms, []LearnPart{{"", Glossary()}}},
	}
}

// MovedPart names what can be moved in the picture.
func MovedPart(part int) string { return [3]string{"Nut", "Relief", "Saddle"}[part] }

// MovedTo says where a part stands now, in a few letters.
func (r Reader) MovedTo(part int, l job.Lesson) string {
	switch by := l.Moved[part]; {
	case part == job.MoveRelief:
		return r.Length(l.Relief)
	case by == 0:
		return "as usual"
	default:
		return higher(by, r.Bare)
	}
}

// higher says a change of height: 0.10 mm lower.
func higher(change geometry.Length, say func(geometry.Length) string) string {
	if change < 0 {
		return say(-change) + " lower"
	}
	return say(change) + " higher"
}

// shift says what a gap did: 0.05 mm lower, or that it hardly moved.
func (r Reader) shift(before, now geometry.Length) string {
	change := (now - before).RoundTo(r.step())
	if change == 0 {
		return "hardly moves"
	}
	return higher(change, r.Length)
}

// MovedLine says what a step at one part did to the two gaps.
func (r Reader) MovedLine(part int, before, now job.Lesson) string {
	by := now.Moved[part] - before.Moved[part]
	what := higher(by, r.Length)
	switch {
	case part == job.MoveRelief && by < 0:
		what = r.Length(-by) + " less"
	case part == job.MoveRelief:
		what = r.Length(by) + " more"
	}
	return MovedPart(part) + " " + what + ". Fret 1: " + r.shift(before.First, now.First) + ". Fret 12: " + r.shift(before.Twelfth, now.Twelfth) + "."
}

// AsFar says that a part goes no further.
func AsFar(part int) string { return MovedPart(part) + ": this picture goes no further." }

// LeastLine says where there is least room.
func LeastLine(l job.Lesson) string {
	least, held := l.Least(), "open string"
	if least.Stop > 0 {
		held = "held at fret " + Number(least.Stop)
	}
	return "Least room: " + held + ", over fret " + Number(least.First) + ". " + [...]string{"", "Enough for a light touch.", "May buzz.", "Will buzz."}[l.Worst]
}

// LearnPictureName names the picture; LearnPictureText says the same as it.
func LearnPictureName() string { return "One string from the side" }
func (r Reader) LearnPictureText(l job.Lesson) string {
	return "Nut " + r.MovedTo(job.MoveNut, l) + ", relief " + r.MovedTo(job.MoveRelief, l) + ", saddle " + r.MovedTo(job.MoveSaddle, l) +
		". Gap at fret 1 " + r.Length(l.First) + ", at fret 12 " + r.Length(l.Twelfth) + ". " + LeastLine(l)
}

// The buttons of the pages.
func NextPage() string     { return "Next page" }
func AllPages() string     { return "All four pages" }
func AsUsualAgain() string { return "As it was" }
