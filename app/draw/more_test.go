package draw

import "gapwright/geometry"

// more is the pictures to choose from and those of the steps.
func more() []named {
	var list []named
	add := func(name string, s Scene) { list = append(list, named{name, s}) }
	for _, f := range geometry.Families() {
		add("family-"+string(f.ID), FamilyPicture(f.ID, "A kind", ""))
	}
	add("family-other", FamilyPicture("", "Something else", ""))
	add("hand-over", HandOver("Two phones", ""))
	add("code", CodePicture("The code", "of a mandolin", exampleRows))
	for _, r := range []struct {
		name  string
		step  float64
		long  int
		label string
	}{
		{"mm-1", 1, 5, "1 mm"}, {"mm-half", 0.5, 2, "1/2 mm"}, {"mm-quarter", 0.25, 2, "1/4 mm"},
		{"in-64", 25.4 / 64, 2, "1/64 in"}, {"in-32", 25.4 / 32, 2, "1/32 in"}, {"in-100", 0.254, 5, "1/100 in"},
	} {
		add("rule-"+r.name, RuleMarks(r.step, r.long, r.label, r.label, ""))
	}
	for end, name := range []string{"at-end", "blank", "cut-off", "not-known"} {
		add("zero-"+name, RuleZero(RuleEnd(end), "0", "1", name, ""))
	}
	for _, t := range Things() {
		add(string(t), ThingPicture(t, string(t), ""))
	}
	for look, name := range []string{"clear", "touched", "gone"} {
		for place, where := range []string{"left", "middle", "right"} {
			add("line-"+name+"-"+where, LineLook(Look(look), Place(place-1), name, ""))
		}
	}
	for _, a := range Acts() {
		add("act-"+string(a), ActPicture(a, false, string(a), "", actLabels[a]...))
		if left := ActPicture(a, true, string(a), "", actLabels[a]...); SVG(left) != SVG(ActPicture(a, false, string(a), "", actLabels[a]...)) {
			add("act-"+string(a)+"-mirrored", left)
		}
	}
	list = append(list, letters()...)
	list = append(list, learns()...)
	list = append(append(list, buzzes()...), acrosses()...)
	return append(append(append(list, rooms()...), histories()...), bows()...)
}

const rough = "not to scale"

// actLabels are labels as long as they may be.
var actLabels = map[Act][]string{
	StandRule: {"12", "eye level here", rough}, GapLeaf: {"24", "feeler or card", rough}, GapCaliper: {"12", "the depth rod", rough},
	MarkSides: {"B", "bass end: a letter to the left", "front: towards the tuning head"},
	StandUp:   {"1.984 in", "from the neck"}, SlotDeep: {"0.394 in to 0.402 in"}, SlotAbove: {"72.0 mm long", "3.15 mm wide", "how deep?"}, MakeThick: {"0.118 to 0.124 in"}, MakeLong: {"2.835 to 2.840 in"},
	AcrossBoard: {"the board: radius 16 in", "2 1/8 in apart"}, WholeSaddle: {"0.394 in", "0.354 in"},
	SandLow: {"one stroke: one length, one way"}, SandPress: {"press more at the treble end"}, SandRocks: {"flat", "a corner goes"}, SandBends: {"flat", "the paper bends"},
	Checks: {"no light", "square", "no rocking"}, LayStrip: {"bass 0.022 in", "treble 0.004 in"}, LayStepped: {"bass 0.55 mm", "treble 0.25 mm"}, PlayEvery: {"open, then every fret", rough}, Air: {"under 40 %", "40 to 60 %", "over 60 %"}, AirDry: {"under 40 %", "40 to 60 %", "over 60 %", "now"}, AirDamp: {"under 40 %", "40 to 60 %", "over 60 %", "now"},
	ScrewKey: {"1¼ down ↻ now", "string up"}, PostWheel: {"half a turn", "string up"}, ReliefHeld: {"feeler 0.20", "hold fret 1", "hold fret 14", rough},
	FirstGap: {"paper strips", rough}, FirstPressed: {"feeler 0.20", "press", rough}, FileStop: {"pile of 1.35 mm", rough},
}
