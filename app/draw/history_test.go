package draw

import (
	"math"
	"strings"
	"testing"
	"time"
)

var firstDay = time.Date(2024, 2, 3, 15, 0, 0, 0, time.UTC)

func days(n float64) time.Time { return firstDay.Add(time.Duration(n * 24 * float64(time.Hour))) }

// exampleHistory is two jobs and three checks of our own invention.
func exampleHistory() History {
	bar := func(day, low, high float64, left bool) HistoryBar { return HistoryBar{days(day), low, high, left} }
	return History{Title: "Over time", Desc: "Bass 2.00 to 2.25", From: days(0), To: days(800), Ends: [2]string{"3 Feb 2024", "13 Apr 2026"},
		Keys: [3]string{"found", "left", "as set"}, Ticks: []HistoryTick{{days(332), "2025"}, {days(697), "2026"}},
		Lanes: []HistoryLane{
			{Name: "Bass string, fret 12, mm", Least: 0.3, Marks: []HistoryMark{{2, "2.00"}, {2.5, "2.50"}, {3, "3.00"}}, Set: &HistoryBar{At: days(500), Low: 2, High: 2.25},
				Bars: []HistoryBar{bar(0, 2.75, 3, false), bar(0.2, 2.25, 2.5, true), bar(160, 2.5, 2.75, false), bar(500, 2.25, 2.5, false), bar(500.1, 2, 2.25, true), bar(640, 2.1, 2.16, false), bar(800, 2, 2.25, false)}},
			{Name: "Treble string, fret 12, mm", Least: 0.3, Marks: []HistoryMark{{1.5, "1.50"}, {2, "2.00"}}, Set: &HistoryBar{At: days(500), Low: 1.5, High: 1.75},
				Bars: []HistoryBar{bar(0, 2, 2.25, false), bar(0.2, 1.75, 2, true), bar(160, 1.75, 2, false), bar(500, 1.75, 2, false), bar(500.1, 1.5, 1.75, true), bar(800, 1.5, 1.75, false)}},
			{Name: "Relief, mm", Least: 0.2, Marks: []HistoryMark{{0.1, "0.10"}, {0.2, "0.20"}}, Bars: []HistoryBar{bar(500.1, 0.1, 0.15, true), bar(800, 0.15, 0.2, false)}},
			{Name: "Humidity, %", Least: 20, Marks: []HistoryMark{{40, "40"}, {60, "60"}}, Bars: []HistoryBar{bar(0.2, 38, 38, true), bar(160, 61, 61, false), bar(500.1, 47, 47, true), bar(800, 40, 40, false)}},
		}}
}

func histories() []named {
	var list []named
	add := func(name string, h History) { list = append(list, named{name, HistoryPicture(h)}) }
	add("history", exampleHistory())
	one := exampleHistory()
	one.To, one.Ends[1], one.Ticks = one.From, "", nil
	one.Lanes = []HistoryLane{{Name: "Bass string, fret 12, in", Least: 0.3, Marks: []HistoryMark{{2.032, "0.080"}, {2.286, "0.090"}}, Bars: []HistoryBar{{days(0), 1.984, 2.381, true}}}}
	add("history-one", one)
	many := exampleHistory()
	many.Lanes = many.Lanes[:2]
	many.Ticks = nil
	for n := range 30 {
		many.Ticks = append(many.Ticks, HistoryTick{days(30 * float64(n)), "Mar"})
	}
	for i := range many.Lanes {
		many.Lanes[i].Bars = nil
		for n := range 40 {
			low := 2 + 0.3*math.Sin(float64(n)/5) + float64(i)
			many.Lanes[i].Bars = append(many.Lanes[i].Bars, HistoryBar{days(20 * float64(n)), low, low + 0.06 + 0.1*float64(n%3), n%4 == 1})
		}
		many.Lanes[i].Set = &HistoryBar{At: days(740), Low: 2 + float64(i), High: 2.2 + float64(i)}
		many.Lanes[i].Marks = nil
		for v := 1.0; v < 4; v += 0.05 {
			many.Lanes[i].Marks = append(many.Lanes[i].Marks, HistoryMark{v, "-0.00"})
		}
	}
	add("history-forty", many)
	wild := exampleHistory()
	wild.Lanes[0].Bars = []HistoryBar{{days(-5000), math.NaN(), 1e9, false}, {days(9000), -1e9, math.Inf(1), true}, {days(3), 4, 2, true}}
	wild.Lanes[1].Least, wild.Lanes[1].Bars, wild.Lanes[1].Set = math.NaN(), nil, nil
	wild.Lanes[2].Name = strings.Repeat("x", 26)
	wild.Lanes[3].Bars = []HistoryBar{{days(400), 100, 100, false}, {days(400), 1, 1, true}}
	wild.Ends, wild.Keys = [2]string{"30 Sep 2024", "30 Nov 2026"}, [3]string{"xxxxxxxxx", "xxxxxxxxx", "xxxxxxxxx"}
	wild.From, wild.To = days(10), days(5)
	add("history-wild", wild)
	add("history-nothing", History{})
	return list
}

func bars(s Scene, role Role, lane int) (all []Shape) {
	top := float64(lane) * (historyName + historyTall + historyApart)
	for _, shape := range s.Shapes {
		if shape.Role == role && shape.Points[0].Y >= top && shape.Points[0].Y < top+historyName+historyTall {
			all = append(all, shape)
		}
	}
	return all
}

// 800 days are 242 units, from 63 to 305: day 160 is at 63 + 48.4, and a bar as found ends half a unit before its time.
func TestTimeIsTrue(t *testing.T) {
	found := bars(HistoryPicture(exampleHistory()), WasFound, 0)
	for i, want := range []float64{63, 111.4, 214.25, 256.6, 305} {
		if got := found[i].Points[1].X + 0.5; math.Abs(got-want) > 1e-9 {
			t.Errorf("bar %d is at %.3f, want %.3f", i, got, want)
		}
	}
}

// The bass lane shows 2.00 to 3.00 and 8 % more on both sides, 1.16 mm over 56 units: a quarter of a millimetre is 12.069 units, and 2.00 lies 0.08 mm,
// 3.862 units, over the bottom.
func TestABarIsAllThatTheReadingAllows(t *testing.T) {
	s := HistoryPicture(exampleHistory())
	if low, high := HistoryRange(exampleHistory().Lanes[0]); math.Abs(low-1.92) > 1e-9 || math.Abs(high-3.08) > 1e-9 {
		t.Errorf("%v to %v", low, high)
	}
	last := bars(s, WasFound, 0)[4]
	if high := last.Points[1].Y - last.Points[0].Y; math.Abs(high-12.069) > 1e-3 {
		t.Errorf("a quarter of a millimetre is %.3f high", high)
	}
	if at := historyName + historyTall - last.Points[1].Y; math.Abs(at-3.862) > 1e-3 {
		t.Errorf("its foot is %.3f over the bottom", at)
	}
	thin := bars(s, WasFound, 3)[0] // a humidity is one number, and still to be seen
	if high := thin.Points[1].Y - thin.Points[0].Y; high != leastBar {
		t.Errorf("%v high", high)
	}
}

func TestFoundAndLeftAreToldApartByShapeAndPlace(t *testing.T) {
	s := HistoryPicture(exampleHistory())
	found, left := bars(s, WasFound, 0)[0], bars(s, WasLeft, 0)[0]
	if found.Points[1].X >= left.Points[0].X {
		t.Errorf("found ends at %v, left begins at %v", found.Points[1].X, left.Points[0].X)
	}
	if n := len(bars(s, WasFound, 0)) + len(bars(s, WasLeft, 0)); n != 7 {
		t.Errorf("%d bars, want 7", n)
	}
}

func BenchmarkHistoryPicture(b *testing.B) {
	h := exampleHistory()
	for b.Loop() {
		SVG(HistoryPicture(h))
	}
}
