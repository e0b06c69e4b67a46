package words

import "gapwright/app/job"

// What the ways of setting a height ask and say each for themselves.

func wayQuestion(q job.Question) Ask {
	switch q {
	case job.AskScrews:
		return Ask{
			Title: "Look at the bridge first",
			Lead:  "Try the key without force.",
			More: []string{
				"A bridge that only the strings hold in place moves when they come off. Mark where it stands. Loosen one string at a time.",
				"A bridge that rocks on springs moves all strings with each turn. Block it first.",
			},
		}
	case job.AskWayUp:
		return Ask{
			Title: "Which way lifts the string?",
			Lead:  "Give one of them half a turn, watch, and turn it back.",
		}
	case job.AskNut:
		return Ask{
			Title: "Look at the nut first",
			Lead:  "Slots are cut with files as wide as the strings.",
			More:  []string{"A nut that is cracked, or so low that open strings buzz, has to be made new."},
		}
	case job.AskRod:
		return Ask{
			Title: "Is there a rod to turn?",
			Lead:  "Look for a nut or a socket at the headstock or inside the body.",
			More:  []string{"If such a neck is bent too far, see a qualified repairer."},
		}
	}
	return Ask{}
}

func wayAnswer(q job.Question, a job.Answer) string {
	switch q {
	case job.AskScrews:
		switch a {
		case job.ScrewsFree:
			return "They turn freely"
		case job.ScrewsFloating:
			return "Strings alone hold it"
		case job.ScrewsVibrato:
			return "It rocks on springs"
		case job.ScrewsUnsure:
			return "I can’t tell"
		case job.ScrewsStuck:
			return "Stuck, rusty or rounded"
		case job.SaddleDamage:
			return "A crack or a lifting part"
		case job.SaddlePrecious:
			return "Old, valuable or under warranty"
		}
	case job.AskWayUp:
		switch a {
		case job.WayClockwise:
			return "Clockwise lifts"
		case job.WayCounter:
			return "Counter-clockwise lifts"
		case job.WayUnsure:
			return "I don’t know yet"
		}
	case job.AskNut:
		switch a {
		case job.NutFiles:
			return "Sound, and I have the files"
		case job.NutNoFiles:
			return "Sound, but no such files"
		case job.NutLow:
			return "Worn, cracked or loose"
		case job.NutUnsure:
			return "I can’t tell"
		}
	case job.AskRod:
		switch a {
		case job.RodTurns:
			return "Yes, and the key fits"
		case job.RodUnsure:
			return "I can’t tell"
		case job.RodNone:
			return "No"
		case job.RodStuck:
			return "Yes, but it will not turn"
		}
	}
	return ""
}

func wayStop(q job.Question, a job.Answer) (title, text string, ok bool) {
	switch q {
	case job.AskScrews:
		switch a {
		case job.SaddlePrecious:
			return "Stop: ask first", "A turn can be taken back, but a slipped key, a scratch or a moved bridge may cost value or warranty. Have a qualified repairer set it.", true
		case job.ScrewsStuck:
			return "Stop: do not force it", "A rounded head or a broken thread costs more than this job. Let a qualified repairer free or replace it.", true
		}
	case job.AskNut:
		switch a {
		case job.NutNoFiles:
			return "Stop: the wrong tool ruins a slot", "A slot cut too wide or with a knife buzzes for good. Borrow files as wide as the strings, or let a qualified repairer do it.", true
		case job.NutLow, job.NutUnsure:
			return "Stop: have the nut looked at", "Filing makes a worn or loose nut worse. A qualified repairer fills the slots or fits another nut.", true
		}
	case job.AskRod:
		switch a {
		case job.RodStuck:
			return "Stop: do not force it", "A rod that is forced can break, and then the whole neck must be replaced. Let a qualified repairer look at it.", true
		}
	}
	return "", "", false
}

// screwed tells how far everything was turned.
func (r Reader) screwed(i job.Instrument, f job.Screwed) string {
	text := "Turned: "
	for n, eighths := range f.Eighths {
		if n > 0 {
			text += ", "
		}
		text += Eighths(eighths)
	}
	return text
}

// Eighths says eighths of a turn, up or down.
func Eighths(n int) string {
	switch {
	case n == 0:
		return "none"
	case n > 0:
		return turns(n) + " up"
	}
	return turns(-n) + " down"
}
