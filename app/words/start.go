package words

import (
	"gapwright/app/job"
	"gapwright/geometry"
)

// What it is, what holds its strings up, and what is to be done with it.

// BridgeQuestion asks what the strings rest on.
func BridgeQuestion() Ask {
	return Ask{
		Title: "What holds the strings up at the bridge?",
		Lead:  "Look where the strings end, over the body.",
		More: []string{
			"A strip of bone or plastic under all strings is a saddle. A slot that ends inside the bridge mostly holds it loosely. Varnish over its edge, or ends that show, mostly mean glue.",
			"Screws: a small piece under every string, with one or two screws that have a head for a key.",
			"Posts: the whole bridge stands on two, one at each side, with a wheel or a head to turn. Many of these are held by the strings alone.",
		},
	}
}

// Bridge names an answer.
func Bridge(b job.Bridge) string {
	switch b {
	case job.BridgeSlot:
		return "A loose strip in a slot"
	case job.BridgeFixed:
		return "A strip, glued or open-ended"
	case job.BridgeScrews:
		return "Screws at each string"
	case job.BridgePosts:
		return "Two posts or wheels"
	case job.BridgeUnsure:
		return "I can’t tell"
	}
	return "Not asked yet"
}

// WorkQuestion asks what is to be done; what stands in the way at the bridge is said first.
func WorkQuestion(b job.Bridge) Ask {
	q := Ask{Title: "What is it to be?"}
	switch b {
	case job.BridgeFixed:
		q.Lead = "A fixed saddle is work for a qualified repairer. What else can be done:"
		q.More = []string{"With slack strings, does it lift out by hand? Then it is a loose one, whatever its slot looks like. Look again, and say so. Never pull or lever."}
	case job.BridgeUnsure:
		q.Lead = "The bridge stays as it is until it is known. What else can be done:"
	}
	return q
}

// Work names what a method does, with a note of how.
func Work(m job.Method) (label, note string) {
	switch m {
	case job.SandUnderside:
		return "Lower the strings", "Sand the saddle"
	case job.RaiseByStrip:
		return "Raise the strings", "A strip underneath"
	case job.NewSaddle:
		return "A new saddle", "From a blank"
	case job.ByScrews:
		return "Set the height", "By screws"
	case job.ByPosts:
		return "Set the height", "By posts or wheels"
	case job.NutSlots:
		return "Deepen nut slots", "High at fret 1"
	case job.SetRelief:
		return "Set the relief", "The neck’s bow"
	}
	return "", ""
}

func OtherWork() string   { return "Another kind of work" }
func BridgeAgain() string { return "Look at the bridge again" }
func BridgeRow() string   { return "At the bridge" }

// SplitCaution is for a saddle in two pieces, where it is marked.
func SplitCaution() string {
	return "Tape both to a straight stick, as they stood, undersides level. Sand them as one."
}

// SplitPlan says in the plan what a saddle in two pieces changes.
func SplitPlan(m job.Method) string {
	switch m {
	case job.RaiseByStrip:
		return "Two pieces: one even pile under both."
	case job.NewSaddle:
		return "Two pieces: each is made to its part of this."
	}
	return "Two pieces: sanded as one."
}

// PaperNumber is what is printed on a paper.
func PaperNumber(g geometry.Grit) string {
	if g.Standard == geometry.FEPA {
		return "P" + Number(g.Number)
	}
	return Number(g.Number)
}

// PaperUse says why a paper is left out; empty for one that is used.
func PaperUse(u geometry.PaperUse) string {
	switch u {
	case geometry.PaperTooClose:
		return "so near to another that it can be left out"
	case geometry.PaperTooFine:
		return "finer than an underside wants"
	case geometry.PaperTooCoarse:
		return "too coarse for a saddle"
	case geometry.PaperUnknown:
		return "no such number is known"
	}
	return ""
}

// PapersTitle is the order of the papers to hand.
func PapersTitle(papers []geometry.Paper) string {
	text := "Paper"
	for _, p := range papers {
		if p.Use == geometry.PaperUsed {
			if text == "Paper" {
				text += ":"
			} else {
				text += ", then"
			}
			text += " " + PaperNumber(p.Grit)
		}
	}
	return text
}

// PaperLines say what is to know of them.
func PaperLines(papers []geometry.Paper, rough bool) []string {
	lines := []string{"The first up to the line, the others to smooth. The plan leaves room for them."}
	for _, p := range papers {
		if use := PaperUse(p.Use); use != "" {
			lines = append(lines, PaperNumber(p.Grit)+": "+use+".")
		}
		if p.Wide {
			line := PaperNumber(p.Grit) + " is a wide step and takes long"
			if p.Between.Number != 0 {
				line += "; " + PaperNumber(p.Between) + " before it would help"
			}
			lines = append(lines, line+".")
		}
	}
	if rough {
		lines = append(lines, "None is fine enough to finish with: "+PaperNumber(geometry.UndersideFinish)+" or "+
			PaperNumber(geometry.Grit{Standard: geometry.CAMI, Number: 320})+" would be.")
	}
	return lines
}
