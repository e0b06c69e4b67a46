package draw

import (
	"testing"

	"gapwright/geometry"
)

func span(low, high geometry.Length) *geometry.Interval {
	return &geometry.Interval{Low: low, High: high}
}

func exampleLetter() LetterPart {
	return LetterPart{ID: "letter-0", Title: "Bass string", Desc: "before and now", Name: "Bass string from the side", Scale: 648, Fret: 12, Nut: 0.5, Twelfth: 2.4,
		Was: span(2.75, 3), Now: span(2.25, 2.5), WasLabel: "before 2.75 to 3.00 mm", NowLabel: "now 2.25 to 2.50 mm", FretLabel: "fret 12",
		Exaggerated: "drawn 30 × too tall"}
}

// letters is the pictures of a letter, each kind and at its extremes.
func letters() (list []named) {
	add := func(name string, l LetterPart) {
		l.Times = LetterTimes([]LetterPart{l})
		list = append(list, named{"letter-" + name, LetterPicture(l)})
	}
	l := exampleLetter()
	add("string", l)
	l.Was = nil
	add("now-alone", l)
	l = exampleLetter()
	l.Now, l.Held, l.Fret = nil, 3, 15
	add("held", l)
	l = exampleLetter()
	l.Was, l.Now, l.Scale, l.Fret, l.Nut = span(0, 0), span(14, 15), 200, 1, 3
	l.WasLabel, l.NowLabel, l.Exaggerated = "as set 0.000 to 0.001 in, one", "now 0.551 to 0.591 in, or two", "drawn 200 times taller than long"
	add("extreme", l)
	l = exampleLetter()
	l.Kind, l.Fret, l.Was, l.Now, l.FretLabel = LetterFirst, 1, span(0.85, 0.9), span(0.6, 0.65), "fret 1"
	add("first", l)
	l.Kind, l.Was, l.Now = LetterPressed, span(0.3, 0.35), span(0.15, 0.2)
	add("pressed", l)
	l.Kind, l.Held, l.Fret, l.To, l.Was, l.Now, l.FretLabel = LetterRelief, 1, 7, 14, span(0.45, 0.5), span(0.2, 0.25), "fret 7"
	add("relief", l)
	l.Was, l.Now = span(-0.5, 0.05), nil
	add("bent-back", l)
	return list
}

// A gap of 3.00 at fret 12 with 0.50 at the nut stands at 5.50 over the saddle: 5.50 × 284/648 is 2.41 units, 25 times of which are 60.3 and 30
// times 72.3, where there is room for 62.
func TestALetterIsDrawnAsTallAsFits(t *testing.T) {
	l := exampleLetter()
	if got := LetterTimes([]LetterPart{l}); got != 25 {
		t.Errorf("drawn %d times too tall, want 25", got)
	}
	small := l
	small.Was, small.Now = nil, span(1, 1.1) // 1.70 at the saddle: 0.745 units, 50 times of which are 37.3, 100 times 74.5
	if got := LetterTimes([]LetterPart{small}); got != 50 {
		t.Errorf("drawn %d times too tall, want 50", got)
	}
	if got := LetterTimes([]LetterPart{small, l}); got != 25 {
		t.Errorf("two strings are drawn %d times too tall, want 25 for both", got)
	}
}
