package draw

// RuleMarks is a piece of a rule, five times as large as it is on a phone, so that rules can be told apart by how close their marks stand. Step
// is the distance between two marks in millimetres; every long-th mark is longer, and every second of those longer still. The label may be empty.
func RuleMarks(step float64, long int, label, title, desc string) Scene {
	p := sheet("rule-"+number(step*100), title, desc, smallWide, smallTall)
	const x, room, scale = 4.0, 112.0, 20.0
	step = within(step, 0.2, 5)
	long = max(long, 1)
	p.rect(Rule, x, 8, room, 50, 1)
	for n := 0; ; n++ {
		at := x + 5 + float64(n)*step*scale
		if at > x+room-3 {
			break
		}
		tall := 13.0
		switch {
		case n%(2*long) == 0:
			tall = 32
		case n%long == 0:
			tall = 22
		}
		p.line(Mark, at, 9, at, 9+tall)
	}
	p.set(Label, smallWide/2, 82, Middle, smallLetter, 116, label)
	return p.Scene
}

// RuleZero is the lower end of a rule that stands on something flat, with the labels of its first two marks.
func RuleZero(end RuleEnd, zero, one, title, desc string) Scene {
	p := sheet("zero-"+string(rune('a'+end)), title, desc, smallWide, smallTall)
	const left, right, foot = 38.0, 82.0, 76.0
	y, apart := foot, 34.0
	switch end {
	case EndBlank:
		y = foot - 20
	case EndCut:
		y = foot + 12
	}
	p.rect(Board, 6, foot, 108, 9, 2)
	switch end {
	case EndCut:
		p.area(Rule, left, 4, right, 4, right, foot, 74, foot-4, 64, foot, 56, foot-5, 46, foot-1, left, foot-5)
	default:
		p.rect(Rule, left, 4, right-left, foot-4, 0)
	}
	for n := 0; n <= 8; n++ {
		at := y - float64(n)*apart/4
		if at < 7 || at > foot || end == EndNotKnown && at > foot-30 {
			continue
		}
		tall := 9.0
		if n%4 == 0 {
			tall = 17
		}
		if n%4 == 0 && end != EndNotKnown {
			p.set(Label, left+4, min(max(at+7, 21), foot-2), Start, smallLetter, 22, [3]string{zero, one}[n/4])
		}
		p.line(Mark, right-tall, at, right, at)
	}
	if end == EndNotKnown {
		p.query(60, foot-18, 24)
	}
	return p.Scene
}
