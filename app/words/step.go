package words

import "gapwright/app/job"

// StepName is a step's short name.
func StepName(s job.Step) string {
	switch s {
	case job.BeforeYouStart:
		return "Before you start"
	case job.Measure:
		return "Measure"
	case job.Diagnose:
		return "Neck and nut"
	case job.FixRelief:
		return "Relief"
	case job.FixNut:
		return "Nut"
	case job.Lay:
		return "Lay the strips"
	case job.MakeSaddle:
		return "Make the saddle"
	case job.Turn:
		return "Turn"
	case job.Choose:
		return "Choose"
	case job.MakePlan:
		return "Plan"
	case job.TakeOut:
		return "Take out"
	case job.Mark:
		return "Mark"
	case job.Sand:
		return "Sand"
	case job.Smooth:
		return "Smooth"
	case job.Seat:
		return "Seat"
	case job.StringUp:
		return "String up"
	case job.MeasureAgain:
		return "Measure again"
	case job.Save:
		return "Save"
	}
	return "Finished"
}

// StepOf says where in the job a step is; the drawn neck shows how many there are.
func StepOf(n int, s job.Step) string { return "Step " + Number(n) + ": " + StepName(s) }

// Ask is a question with its answers' labels. Lead stands above the answers; More is shown at a tap.
type Ask struct {
	Title string
	Lead  string
	More  []string
}

// Question words a question.
func Question(q job.Question, kit job.Kit) Ask {
	switch q {
	case job.AskSaddle:
		return Ask{
			Title: "Look at the saddle first",
			Lead:  "What do you see?",
			More: []string{
				"A saddle in a slot that is open at both ends, or under varnish, is often glued. Do not force it.",
				"A stepped top stands further forward under some strings, so that each is in tune. Work from below leaves it as it is.",
				"Two pieces are worked as one. To sand them, tape them level to a straight stick. To raise them, lay one even pile. A new saddle is made in two parts from one drawing.",
			},
		}
	case job.AskStrings:
		return Ask{
			Title: "Will these strings stay on?",
			Lead:  "Another gauge pulls more or less, and moves the height.",
		}
	case job.AskBuzz:
		return Ask{
			Title: "Does it buzz now?",
			Lead:  "Play each string open and at every fret, as hard as you ever do.",
		}
	case job.AskRoom:
		return Ask{
			Title: "How is the air in the room?",
			Lead:  "Damp swells wood, dryness shrinks it, and the strings move.",
		}
	case job.AskUnder:
		return Ask{
			Title: "Take the saddle out",
			Lead:  "Slacken evenly. Lift it straight up by hand. What is underneath?",
			More: []string{
				"Keep the string ends away from your eyes.",
				"Look before you wipe: there may be an old shim, a pickup strip or dirt.",
			},
		}
	case job.AskFollow:
		return Ask{
			Title: "What will you watch while sanding?",
			Lead:  "Something must tell you when to stop.",
			More: []string{
				"A caliper is the surest: it reads the height that is left.",
				"A pencil line is wide, so its lower edge counts. A knife line is finer.",
				"Cards: lay the saddle beside a stack as thick as the cut. Slide a blade along the top card, and you have a straight line.",
			},
		}
	case job.AskSeat:
		return Ask{
			Title: "Seat the saddle",
			Lead:  "Brush out the slot, set it in, press each end in turn. How does it stand?",
			More: []string{
				"Over a pickup strip the whole underside must touch, or a string goes quiet.",
				"Two pieces: each by itself, at both of its ends.",
			},
		}
	case job.AskStrung:
		return Ask{
			Title: "String it up",
			Lead:  stringUpLead,
			More: []string{
				"Read again until two readings agree.",
				"Use the same strings and the same tuning, or the new height says nothing about the work.",
			},
		}
	}
	return wayQuestion(q)
}

const stringUpLead = "Tune to pitch, let it settle, and tune again. Which strings are on now?"

// Answer words an answer.
func Answer(q job.Question, a job.Answer) string {
	switch q {
	case job.AskSaddle:
		switch a {
		case job.SaddleLoose:
			return "Loose in its slot"
		case job.SaddleUnsure:
			return "I can’t tell"
		case job.SaddleStepped:
			return "Stepped top"
		case job.SaddleSplit:
			return "Two pieces"
		case job.SaddleThrough:
			return "Open-ended slot"
		case job.SaddleLow:
			return "Hardly stands out"
		case job.SaddleGlued:
			return "Glued or fixed"
		case job.SaddleDamage:
			return "Cracked or lifting"
		case job.SaddlePrecious:
			return "Old, valuable or under warranty"
		}
	case job.AskStrings:
		switch a {
		case job.StringsStay:
			return "Yes, these stay"
		case job.StringsGo:
			return "No, another gauge soon"
		case job.StringsUnsure:
			return "I don’t know"
		}
	case job.AskBuzz:
		switch a {
		case job.BuzzNone:
			return "No buzz anywhere"
		case job.BuzzHeard:
			return "It buzzes"
		case job.BuzzUnsure:
			return "I don’t know"
		}
	case job.AskRoom:
		switch a {
		case job.RoomFine:
			return "Ordinary: 40 to 60\u00a0%"
		case job.RoomWet:
			return "Damp: over 60\u00a0%"
		case job.RoomDry:
			return "Dry: under 40\u00a0%"
		case job.RoomUnsure:
			return "I don’t know"
		}
	case job.AskUnder:
		switch a {
		case job.UnderClear:
			return "A bare slot"
		case job.UnderPickup:
			return "A wire or pickup strip"
		case job.UnderShim:
			return "An old strip"
		case job.UnderUnsure:
			return "I can’t tell"
		case job.UnderStuck:
			return "It won’t come out"
		}
	case job.AskFollow:
		switch a {
		case job.FollowCaliper:
			return "A caliper"
		case job.FollowPencil:
			return "A pencil line"
		case job.FollowKnife:
			return "A knife line"
		case job.FollowCards:
			return "A stack of cards"
		}
	case job.AskSeat:
		switch a {
		case job.SeatFlat:
			return "Firm and flat"
		case job.SeatRocks:
			return "It rocks"
		case job.SeatLeans:
			return "It leans or wobbles"
		case job.SeatUnsure:
			return "I can’t tell"
		}
	case job.AskStrung:
		switch a {
		case job.StrungSame:
			return "The same strings"
		case job.StrungAlike:
			return "New, same gauge"
		case job.StrungOther:
			return "Another gauge"
		case job.StrungUnsure:
			return "I don’t know"
		}
	}
	return wayAnswer(q, a)
}

// Stop says why an answer stops the work and what to do instead. ok is false for answers that do not stop it.
func Stop(q job.Question, a job.Answer) (title, text string, ok bool) {
	if !q.Stops(a) {
		return "", "", false
	}
	if title, text, ok := wayStop(q, a); ok {
		return title, text, true
	}
	if q == job.AskSeat && a == job.SeatUnsure {
		return "Look once more", "Stand the saddle on glass, underside down, and press one end, then the other. A click is rocking; light under it shows where. In the slot it should need a gentle push and stand straight.", true
	}
	switch a {
	case job.SaddleLow:
		return "Stop: nothing to take off", "A saddle this low hardly presses on the top. Strings that are still too high mean that the neck has moved: a qualified repairer sets its angle.", true
	case job.SaddleGlued:
		return "Stop: not this way", "A glued saddle breaks, or takes wood with it, when it is pulled. A qualified repairer frees it with heat.", true
	case job.SaddleDamage:
		return "Stop: the damage comes first", "String height is not what is wrong here, and the pull of the strings makes it worse. Slacken the strings and show it to a qualified repairer.", true
	case job.SaddlePrecious:
		return "Stop: ask first", "Any change may cost value or warranty; what comes off stays off. Have a qualified repairer fit a second saddle; keep the old one. The law protects ivory and some shell.", true
	case job.StringsGo:
		return "Fit the new strings first", "Their pull changes the neck and the height. Put the new set on, let it settle at pitch, and measure then.", true
	case job.BuzzHeard:
		return "Find the buzz first", "Lowering makes every buzz worse. Three questions lead to the likely cause, or ask a qualified repairer. Come back when it is quiet.", true
	case job.RoomWet:
		return "Wait for drier air", "Damp swells the top and lifts the strings. Cut now, and they are too low when it dries. Keep it in 40 to 60\u00a0% for some days, then measure again.", true
	case job.RoomDry:
		return "Wait for damper air", "Dry air sinks the top and lowers the strings. They rise again by themselves. Keep it in 40 to 60\u00a0% for some days, then measure again.", true
	case job.UnderStuck:
		return "Stop: do not force it", "It may be glued. Pulling harder breaks the saddle or tears the bridge. Tune up again and let a qualified repairer free it.", true
	case job.SeatRocks:
		return "Make it flat first", "Lift it out. Find what is not flat: dirt, a strip, the underside. Rub that on fine paper over something flat, two strokes at a time. Each on the underside lowers the strings.", true
	case job.SeatLeans:
		return "Stop: it does not stand firm", "A leaning saddle makes every height false and can split the bridge. It needs a thicker saddle, not a deeper cut. See a qualified repairer.", true
	}
	return "", "", false
}

// Caution is what must be read with an answer that lets the work go on; empty for most.
func Caution(q job.Question, a job.Answer) string {
	switch {
	case q == job.AskSaddle && a == job.SaddleUnsure:
		return "If it will not lift by hand, stop here."
	case q == job.AskSaddle && a == job.SaddleThrough:
		return "Often glued: if it will not lift, stop here."
	case q == job.AskSaddle && a == job.SaddleStepped:
		return "Mark which way it faces. Its top stays untouched."
	case q == job.AskSaddle && a == job.SaddleSplit:
		return "Mark which piece is which, and its front."
	case q == job.AskStrings && a == job.StringsUnsure:
		return "A change of gauge later means measuring again first."
	case q == job.AskBuzz && a == job.BuzzUnsure:
		return "Buzz not known: listen after this round."
	case q == job.AskRoom && a == job.RoomUnsure:
		return "Air not known: a season could undo this cut."
	case q == job.AskStrung && a != job.StrungSame && a != job.StrungAlike:
		return "Another gauge moves the height by itself. This reading will not show what the work did."
	case q == job.AskUnder && a == job.UnderUnsure:
		return "Take it as a pickup: pull at nothing. The underside must end up dead flat."
	case q == job.AskUnder && a == job.UnderPickup:
		return "Leave the wire where it is. The underside must end up dead flat, or a string goes quiet."
	case q == job.AskUnder && a == job.UnderShim:
		return "Somebody raised it before. Without the strip it may already be low enough. Put the saddle back without it and measure."
	case q == job.AskScrews:
		return screwsCaution(a)
	}
	return ""
}

// Skip says what is lost by leaving a step out.
func Skip(s job.Step) string {
	switch s {
	case job.Smooth:
		return "Rough marks stay on the underside. That does no harm before another round."
	case job.MeasureAgain:
		return "Then nothing proves the new height, and there is nothing to compare with next time."
	}
	return ""
}
