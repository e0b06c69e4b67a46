package job

import (
	"errors"
	"strconv"
	"strings"
	"testing"

	"gapwright/geometry"
)

// newSaddle compares one number of the saddle that is to be made with a script's.
func (s *script) newSaddle(words []string) error {
	m, err := s.record.Making()
	if err != nil {
		return err
	}
	switch words[0] {
	case "told": // from where heights count, and what else of it is told
		from := "over-the-wood"
		switch {
		case !m.Known:
			from = "nothing"
		case m.Whole:
			from = "in-all"
		}
		told := []string{from}
		for _, t := range []struct {
			is   bool
			name string
		}{{m.Standing, "stand"}, {m.Sized, "length"}, {m.Fits, "thickness"}, {m.Shaped, "crown"}, {m.Ready(), "ready"}, {m.TooLow(), "too-low"}} {
			if t.is {
				told = append(told, t.name)
			}
		}
		return sameWord(strings.Join(told, " "), strings.Join(words[1:], " "))
	case "height":
		return sameRange(m.Strings[course(words[1])].Height, words[2])
	case "no-lower":
		return same3(m.Strings[course(words[1])].Stop, words[2])
	case "rise":
		return same3(m.Rise[course(words[1])], words[2])
	case "end":
		return sameRange(m.Ends[side(words[1])].Height, words[2])
	case "stands":
		return sameRange(m.Exposure[side(words[1])], words[2])
	case "length":
		return sameRange(m.Length, words[1])
	case "thickness":
		return sameRange(m.Thickness, words[1])
	case "found":
		var got []string
		for _, f := range m.Found {
			got = append(got, strconv.Itoa(int(f.Kind))+"/"+strconv.Itoa(int(f.Severity))+"/"+strconv.Itoa(int(f.Side)))
		}
		return sameWord(strings.Join(got, " "), strings.Join(words[1:], " "))
	}
	return errors.New("unknown check of a new saddle")
}

// making is a job that is at its plan, with 2.25 to 2.50 and 1.75 to 2.00 read and 2.00 and 1.60 wanted.
func making(t *testing.T, more ...Fact) Record {
	t.Helper()
	mm := func(text string) Typed { return Typed{text, MM} }
	kit := Kit{Unit: MM, Marks: EveryQuarter, Zero: ZeroAtEnd}
	i := Instrument{ID: "i", Family: geometry.FlatTop6}
	facts := []Fact{Began{Method: NewSaddle, Instrument: i, Kit: kit}, Answered{AskSaddle, SaddleLoose}, ReadByMarks(kit, i, 0, 9), ReadByMarks(kit, i, 5, 7),
		Answered{AskStrings, StringsStay}, Did{Measure}, Chosen{Bass: mm("2.00"), Treble: mm("1.60")}, Answered{AskRoom, RoomFine}}
	r, err := apply(Record{}, append(facts, more...)...)
	if err != nil {
		t.Fatal(err)
	}
	return r
}
