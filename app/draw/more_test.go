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
		long := "hold it low, with fingertips here"
		labels := map[Act][]string{StandRule: {"12", "eye level here"}, MeasureAgain: {"12", "2.25 to 2.50", "2.00 mm"},
			MarkSides: {"B", "bass end marked here", "the front face marked"}, SandLow: {long, long},
			ReliefHeld: {"feeler 0.20", "hold fret 1", "hold fret 14"}, FirstGap: {"paper strips"}, FirstPressed: {"feeler 0.20", "press at fret 3"}, FileStop: {"pile of 1.35 mm"}}[a]
		add("act-"+string(a), ActPicture(a, false, string(a), "", labels...))
	}
	add("act-relief-held-mirrored", ActPicture(ReliefHeld, true, "t", "", "feeler 0.20", "hold fret 1", "hold fret 14"))
	add("act-first-pressed-mirrored", ActPicture(FirstPressed, true, "t", "", "feeler 0.20", "press at fret 3"))
	add("act-mark-sides-mirrored", ActPicture(MarkSides, true, "t", "", "B", "bass end marked here", "the front face marked"))
	list = append(list, letters()...)
	list = append(list, learns()...)
	list = append(list, buzzes()...)
	return append(append(list, rooms()...), histories()...)
}
