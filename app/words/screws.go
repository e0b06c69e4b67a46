package words

import (
	"gapwright/app/job"
	"gapwright/geometry"
)

// What setting heights by screws, posts and wheels says.

// ThreadAsk asks what thread is turned.
func (r Reader) ThreadAsk(m job.Method, threads []geometry.Thread) Ask {
	q := Ask{Title: "Which thread is it?", Lead: "It says how far a turn moves the string.", More: []string{
		"Or measure it: count turns, and measure how far it moved. Ten turns tell ten times as well as one.",
		"Don’t know? A trial turn, with a reading before and after, tells too.",
	}}
	if m == job.ByPosts {
		q.Lead = "It says how far a turn moves the bridge."
	}
	for _, t := range threads {
		q.More = append(q.More, t.Name+": "+r.digits(t.Pitch, r.fine())+unit(r.UnitName())+" a turn")
	}
	return q
}

// Tried says what a trial turn showed.
func (r Reader) Tried(pitch geometry.Interval) string {
	return "A turn moved it " + r.hundredth(pitch) + ". These fit:"
}

func ThreadLabel() string     { return "Thread" }
func ScrewsEachLabel() string { return "Screws at each string" }
func IMeasuredIt() string     { return "I measured it" }
func TurnsLabel() string      { return "Whole turns" }
func MovedLabel() string      { return "They moved it by" }
func UseThat() string         { return "Use what it showed" }
func TryTurn() string         { return "Try a turn" }
func WhichThread() string     { return "Another thread" }
func PostsTitle() string      { return "Where the posts stand" }
func BehindLabel() string     { return "Strings sit behind them by" }
func RestLabel() string       { return "Plate rests behind them by" }

// TurnsRow names what turns at the bridge.
func TurnsRow(m job.Method) string {
	if m == job.ByPosts {
		return "Posts"
	}
	return "Screws"
}

// Turns says what is known of it.
func (r Reader) Turns(m job.Method, h job.Hardware) string {
	said := "Thread not known"
	if t, ok := geometry.ThreadOf(h.Thread); ok {
		said = t.Name
	} else if pitch, err := h.Pitch(); err == nil {
		said = r.hundredth(pitch) + " a turn"
	}
	if m == job.ByScrews && h.Screws > 0 {
		said += ", " + Number(h.Screws) + " at each string"
	}
	return said
}

// ApartLabel labels how far apart the posts stand, with what is usual.
func (r Reader) ApartLabel(usual geometry.Length) string {
	return "Between the posts (" + r.About(usual) + ")"
}

// PostsMore says what the places of the posts are good for.
func PostsMore() string {
	return "From middle to middle. The last two are for a plate that tilts on its posts. They tell where the strings sit, and where it lies on the body."
}

// TrialAsk asks for a trial turn.
func TrialAsk(m job.Method) Ask {
	q := Ask{Title: TryTurn(), Lead: "At the bass string, so that it rises. Tune, then read that string again.", More: []string{
		"More turns tell more: with a coarse rule turn two or three.",
		"It counts as it is read: nothing has to be turned back.",
	}}
	if m == job.ByPosts {
		q.Lead = "At both posts alike, so that the strings rise. Tune, then read again."
	}
	return q
}

// The controls of a trial turn and of the turning.
func TurnsUpLabel() string    { return "Turns up" }
func OneTurnFewer() string    { return "one fewer" }
func OneTurnMore() string     { return "one more" }
func TurnedReadAgain() string { return "Turned: read again" }
func WhichWay() string        { return "Which way?" }
func TurnedAsShown() string   { return "Turned as shown" }
func AnEighthDown() string    { return "an eighth down" }
func AnEighthUp() string      { return "an eighth up" }
func FollowTurns() string     { return "I’ll turn these" }
func TurnCaution() string     { return "Slacken before raising." }

// TurnPlanTitle heads the plan.
func TurnPlanTitle(o job.TurnOutcome) string {
	switch o {
	case job.TurnGo:
		return "What to turn"
	case job.TurnThere:
		return "Nothing to turn"
	case job.TurnThread:
		return "Which thread is it?"
	case job.TurnTooFar:
		return "Stop: too far to turn"
	}
	return ""
}

// TurnPlanLead says what the plan means. Follows: strings that were not read keep their place beside the outer two.
func TurnPlanLead(o job.TurnOutcome, follows bool) string {
	switch o {
	case job.TurnGo:
		if follows {
			return "Strings not read follow the outer two."
		}
		return noneTooLow
	case job.TurnThere:
		return "Every string is as near its wanted height as an eighth of a turn gets."
	case job.TurnThread:
		return "It says how far a turn moves the string."
	case job.TurnTooFar:
		return "More than ten turns: nothing should need that. Check the thread. If it is right, the neck’s angle is not: see a qualified repairer."
	}
	return ""
}

// Thing names what is turned: a string's screws, or a post.
func Thing(i job.Instrument, m job.Method, n int) string {
	if m == job.ByPosts {
		return []string{"Bass post", "Treble post"}[n]
	}
	return CourseTitle(i, n)
}

// AfterTurn tells where a string will be.
func (r Reader) AfterTurn(i job.Instrument, s job.TurnedString) string {
	return CourseTitle(i, s.Course) + ": now " + r.Span(s.Gap) + ", then " + r.Span(s.After) + ", " + r.WantedHeight(s.Target)
}

// NotRead says what strings are taken for that were not read.
func NotRead() string {
	return "Strings that were not read are taken to stand between the outer two, as the board’s curve has them. Read them to be sure."
}

// TurnTitle heads the turning.
func TurnTitle(m job.Method) string {
	if m == job.ByPosts {
		return "Half a turn at a time"
	}
	return "One string at a time"
}

// TurnLead says which way, and in which order.
func TurnLead(m job.Method, way job.Answer) string {
	lead := ""
	if m == job.ByScrews {
		lead = "In this order. "
	}
	switch way {
	case job.WayClockwise:
		return lead + "Clockwise ↻ is up."
	case job.WayCounter:
		return lead + "Clockwise ↻ is down."
	}
	return lead + "Watch the first half turn: which way?"
}

// TurnBy says eighths of a turn beside what is turned, with the way of the key where that is known: ¾ down ↺.
func TurnBy(n int, way job.Answer) string {
	if n == 0 {
		return Eighths(0)
	}
	text := Number(max(n, -n) / 8)
	if n > -8 && n < 8 {
		text = ""
	}
	text += eighthParts[max(n, -n)%8]
	up := n > 0
	if up {
		text += " up"
	} else {
		text += " down"
	}
	switch {
	case way == job.WayUnsure || way == "":
		return text
	case up == (way == job.WayClockwise):
		return text + " ↻"
	}
	return text + " ↺"
}

// TurnLine says what is turned and by how much, as others read it.
func TurnLine(i job.Instrument, m job.Method, n, eighths int) string {
	return Thing(i, m, n) + ": " + TurnBy(eighths, "")
}

// TurnMore says more of how to turn.
func TurnMore(m job.Method) []string {
	if m == job.ByPosts {
		return []string{
			"Draw round the bridge’s feet with a soft pencil, or lay tape beside them.",
			"Count from where the thread bites.",
			"A bridge that rocks on springs: wedge it so that it cannot move. Turn, tune, take the wedge out, and tune again until it stays.",
			tuneOctaves,
		}
	}
	return []string{
		"On its way down a string may stay at pitch.",
		"Two screws at one string: the same turns at both, so that the saddle stands as level as before.",
		"Clockwise is seen from the end where the key goes. Push the key home, and count from where the thread bites.",
		"A saddle that lies on its plate is at its end too.",
		tuneOctaves,
	}
}

const tuneOctaves = "Set the intonation once the height is proved: it moves the octave at fret 12. Then look at the pickups’ distance."

// screwsCaution is what must be read with what was seen of a bridge; empty for most.
func screwsCaution(a job.Answer) string {
	switch a {
	case job.ScrewsFloating:
		return "Mark where the bridge stands. Never loosen all strings."
	case job.ScrewsVibrato:
		return "Wedge the bridge first, so that it cannot rock."
	case job.ScrewsUnsure:
		return "Needs force? Stop: see a repairer."
	}
	return ""
}
