package draw

import (
	"math"
	"time"
)

// HistoryBar is what was read once: all that the reading allows.
type HistoryBar struct {
	At        time.Time
	Low, High float64
	Left      bool // as it was left after work; otherwise as it was found
}

// HistoryMark is a value with its label, at the left of a lane.
type HistoryMark struct {
	Value float64
	Label string // 5 letters
}

// HistoryLane is one thing over time. Values in millimetres or percent, none beyond ±1000.
type HistoryLane struct {
	Name  string // 26 letters
	Bars  []HistoryBar
	Least float64 // so much is shown from bottom to top at least
	Marks []HistoryMark
	Set   *HistoryBar // how it was last set, from then on; nil: nothing to show
}

// HistoryTick is a day on the axis.
type HistoryTick struct {
	At    time.Time
	Label string
}

// History is an instrument's readings over time.
type History struct {
	Title, Desc string
	From, To    time.Time // the first and the last reading
	Lanes       []HistoryLane
	Ends        [2]string     // the labels of From and To, 11 letters each; with one time only the first is set
	Ticks       []HistoryTick // between; a label that has no room is left out
	Keys        [3]string     // as found, as left, as it was last set: 9 letters each
}

const (
	historyLeft  = 54.0 // where the lanes begin
	historyRight = 314.0
	historyEdge  = 9.0  // from there to the first reading
	historyName  = 20.0 // the row of a lane's name
	historyTall  = 56.0 // what is drawn of a lane
	historyApart = 8.0
	historyAxis  = 26.0
	historyKeys  = 24.0
	leastBar     = 3.0 // the height of a reading that leaves hardly anything open
)

// HistoryRange is what a lane shows from bottom to top.
func HistoryRange(l HistoryLane) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	see := func(b HistoryBar) {
		low, high = min(low, within(b.Low, -1000, 1000)), max(high, within(b.High, -1000, 1000))
	}
	for _, b := range l.Bars {
		see(b)
	}
	if l.Set != nil {
		see(*l.Set)
	}
	if low > high {
		low, high = 0, 0
	}
	tall := max((high-low)*1.16, within(l.Least, 0.01, 1000))
	middle := (low + high) / 2
	return middle - tall/2, middle + tall/2
}

// HistoryPicture draws the lanes one under the other over one axis of time, whose distances are true. A reading is a bar as high as what it allows:
// hollow as it was found, filled as it was left.
func HistoryPicture(h History) Scene {
	lane := historyName + historyTall + historyApart
	foot := float64(len(h.Lanes)) * lane
	p := sheet("history", h.Title, h.Desc, 320, foot+historyAxis+historyKeys)
	long := h.To.Sub(h.From).Seconds()
	x := func(at time.Time) float64 {
		if long <= 0 {
			return (historyLeft + historyRight) / 2
		}
		const first, last = historyLeft + historyEdge, historyRight - historyEdge
		return within(first+(last-first)*at.Sub(h.From).Seconds()/long, first, last)
	}
	set := false
	for i, l := range h.Lanes {
		p.historyLane(l, lane*float64(i), x)
		set = set || l.Set != nil
	}
	p.line(Fine, historyLeft, foot, historyRight, foot)
	p.historyAxis(h, foot, x)
	p.historyKeys(h, foot+historyAxis, set)
	return p.Scene
}

func (p *pen) historyLane(l HistoryLane, top float64, x func(time.Time) float64) {
	low, high := HistoryRange(l)
	bottom := top + historyName + historyTall
	y := func(v float64) float64 { return bottom - (within(v, low, high)-low)/(high-low)*historyTall }
	p.text(Label, historyLeft, top+15, Start, historyRight-historyLeft, 1, l.Name)
	last := math.Inf(1)
	for _, m := range l.Marks { // from the bottom up
		at := y(m.Value)
		if m.Value < low || m.Value > high || last-at < 19 {
			continue
		}
		last = at
		p.line(Lines, historyLeft, at, historyRight, at)
		p.text(Label, historyLeft-5, at+5, End, historyLeft-7, 1, m.Label)
	}
	p.line(Lines, historyLeft, bottom, historyRight, bottom)
	if l.Set != nil {
		from := x(l.Set.At)
		for _, v := range []float64{l.Set.Low, l.Set.High} {
			p.line(SetLine, from, y(v), historyRight, y(v))
		}
	}
	wide := 6.0
	if len(l.Bars) > 12 {
		wide = 4
	}
	if len(l.Bars) > 40 {
		wide = 3
	}
	for _, b := range l.Bars {
		from, to := y(b.High), y(b.Low)
		if to-from < leastBar {
			middle := within((from+to)/2, top+historyName+leastBar/2, bottom-leastBar/2)
			from, to = middle-leastBar/2, middle+leastBar/2
		}
		role, at := WasFound, x(b.At)-wide-0.5
		if b.Left {
			role, at = WasLeft, x(b.At)+0.5
		}
		p.rect(role, at, from, wide, to-from, 1)
	}
}

// historyAxis puts the ends' labels, and between them what has room.
func (p *pen) historyAxis(h History, y float64, x func(time.Time) float64) {
	base := y + 20
	if h.Ends[1] == "" {
		at := x(h.From)
		p.line(Fine, at, y, at, y+4)
		p.text(Label, at, base, Middle, historyRight-historyLeft, 1, h.Ends[0])
		return
	}
	p.text(Label, historyLeft, base, Start, 104, 1, h.Ends[0])
	p.text(Label, historyRight, base, End, 104, 1, h.Ends[1])
	free, end := historyLeft+fitted(h.Ends[0], labelSize, 104)+6, historyRight-fitted(h.Ends[1], labelSize, 104)-6
	for _, t := range h.Ticks {
		if t.At.Before(h.From) || t.At.After(h.To) {
			continue
		}
		at, half := x(t.At), wide(t.Label, labelSize)/2
		p.line(Fine, at, y, at, y+4)
		if at-half >= free && at+half <= end {
			p.text(Label, at, base, Middle, 2*half, 1, t.Label)
			free = at + half + 6
		}
	}
}

func (p *pen) historyKeys(h History, top float64, set bool) {
	const apart = 104.0
	for i, key := range h.Keys {
		at := 6 + apart*float64(i)
		switch i {
		case 0:
			p.rect(WasFound, at+3, top+4, 6, 14, 1)
		case 1:
			p.rect(WasLeft, at+3, top+4, 6, 14, 1)
		case 2:
			if !set {
				return
			}
			p.line(SetLine, at, top+8, at+14, top+8)
			p.line(SetLine, at, top+15, at+14, top+15)
		}
		p.text(Label, at+19, top+16, Start, apart-20, 1, key)
	}
}
