package geometry

import (
	"math"
	"sort"
)

// GritStandard tells by which standard a paper's number was given. It names it for good: it may stand in saved records.
type GritStandard string

// The standards. Up to about 220 the same number means nearly the same paper; above, the one with the P is coarser.
const (
	AnyGrit GritStandard = ""     // not known: a size is then whatever either standard makes of the number
	FEPA    GritStandard = "fepa" // P in front of the number: ISO 6344
	CAMI    GritStandard = "cami" // no P, mostly American: ANSI B74.18
)

// GritStandards lists what a paper's number can go by.
func GritStandards() []GritStandard { return []GritStandard{AnyGrit, FEPA, CAMI} }

// Grit is a sanding paper.
type Grit struct {
	Standard GritStandard
	Number   int
}

// grade is one number with the mean sizes of its grains in micrometres, the least and the most that the sources give; zero where a
// standard has no such number, or none was found.
type grade struct {
	number     int
	fepa, cami [2]float64
}

// The standards themselves could not be read: these come from tables that quote them and from memory, and testdata/grits.csv says of each
// value from where. CAMI 800 and 1200 are from memory alone.
var grades = [...]grade{
	{40, [2]float64{425, 425}, [2]float64{428, 430}},
	{50, [2]float64{336, 336}, [2]float64{350, 351}},
	{60, [2]float64{269, 270}, [2]float64{268, 270}},
	{80, [2]float64{200, 201}, [2]float64{190, 192}},
	{100, [2]float64{162, 162}, [2]float64{140, 141}},
	{120, [2]float64{125, 125}, [2]float64{115, 116}},
	{150, [2]float64{100, 100}, [2]float64{92, 93}},
	{180, [2]float64{82, 82}, [2]float64{78, 82}},
	{220, [2]float64{68, 68}, [2]float64{66, 68}},
	{240, [2]float64{58.4, 60}, [2]float64{52, 53}},
	{280, [2]float64{52, 52.2}, [2]float64{42, 44}},
	{320, [2]float64{46, 46.2}, [2]float64{35, 36}},
	{360, [2]float64{40, 40.5}, [2]float64{28, 28}},
	{400, [2]float64{35, 35}, [2]float64{22, 23.6}},
	{500, [2]float64{30, 30.2}, [2]float64{18, 19.7}},
	{600, [2]float64{25.75, 26}, [2]float64{15, 16}},
	{800, [2]float64{21.8, 22}, [2]float64{12.2, 12.2}},
	{1000, [2]float64{18, 18.3}, [2]float64{9.2, 10.3}},
	{1200, [2]float64{15, 15.3}, [2]float64{6.5, 6.5}},
	{1500, [2]float64{12.6, 13}, [2]float64{}},
	{2000, [2]float64{10, 10.3}, [2]float64{}},
	{2500, [2]float64{8, 8.4}, [2]float64{}},
}

// GritNumbers lists the numbers that a standard has here, coarse to fine; for AnyGrit those that either has.
func GritNumbers(standard GritStandard) []int {
	var numbers []int
	for _, g := range grades {
		if _, ok := (Grit{standard, g.number}).Size(); ok {
			numbers = append(numbers, g.number)
		}
	}
	return numbers
}

// Size is the mean size of the paper's grains, from the least to the most that the sources give for it: a few hundredths apart for FEPA,
// up to an eighth for the fine CAMI numbers. Where the standard is not known it reaches over both. ok is false for a number that the
// standard does not have.
//
// FEPA lays down how the sizes are spread, CAMI their average: so the size of a P number is the middle of its spread. Source:
// testdata/grits.csv.
func (g Grit) Size() (size Interval, ok bool) {
	for _, line := range grades {
		if line.number != g.Number {
			continue
		}
		for _, s := range []struct {
			standard GritStandard
			size     [2]float64
		}{{FEPA, line.fepa}, {CAMI, line.cami}} {
			if s.size[0] == 0 || g.Standard != AnyGrit && g.Standard != s.standard {
				continue
			}
			found := Interval{Length(s.size[0]), Length(s.size[1])}.Times(1e-3)
			if ok {
				found = found.Hull(size)
			}
			size, ok = found, true
		}
	}
	return size, ok
}

// alike is how far apart, as a ratio, two papers may be and still do the same work: half of the step between neighbouring numbers, which
// is about a quarter (common practice, no source).
const alike = 1.12

// ratio is how much coarser the first paper is than the second, by the middles of their sizes.
func ratio(coarse, fine Interval) float64 { return float64(coarse.Middle() / fine.Middle()) }

// SameNumber tells whether a number means the same paper by both standards, to within half of the usual step between neighbours: 60 to
// 220 except 100, which differs by a sixth. ok is false where one of the standards has no such number.
func SameNumber(number int) (same, ok bool) {
	fepa, ok1 := Grit{FEPA, number}.Size()
	cami, ok2 := Grit{CAMI, number}.Size()
	if !ok1 || !ok2 {
		return false, false
	}
	r := ratio(fepa, cami)
	return r < alike && r > 1/alike, true
}

// As is the paper of another standard that is nearest in size: P400 as CAMI is 320, P800 400, P1200 600. ok is false for a paper whose
// number or standard is not known.
func (g Grit) As(standard GritStandard) (Grit, bool) {
	size, ok := g.Size()
	if !ok || g.Standard == AnyGrit || standard == AnyGrit {
		return Grit{}, false
	}
	return nearestGrit(standard, float64(size.Middle())), true
}

// nearestGrit is the paper nearest in size, by ratio.
func nearestGrit(standard GritStandard, size float64) Grit {
	best, off := Grit{Standard: standard}, math.Inf(1)
	for _, g := range grades {
		if s, ok := (Grit{standard, g.number}).Size(); ok {
			if d := math.Abs(math.Log(float64(s.Middle()) / size)); d < off {
				best.Number, off = g.number, d
			}
		}
	}
	return best
}

// The papers that a saddle is usually finished with: its underside no finer than makes good contact, its top until a string slides over
// it (common practice, no source).
var (
	UndersideFinish = Grit{FEPA, 400}
	TopFinish       = Grit{FEPA, 1200}
)

const (
	widestStep           = 2.0        // a paper takes out the scratches of one up to twice as coarse (common practice, no source)
	coarsestGrain Length = 210 * 1e-3 // what is coarser than P80 has no place on a saddle (common practice, no source)
)

// PaperUse says what comes of a paper that is to hand.
type PaperUse uint8

// The uses.
const (
	PaperUsed      PaperUse = iota
	PaperTooClose           // so near to one that is used that it can be left out
	PaperTooFine            // finer than what the work is finished with
	PaperTooCoarse          // coarser than a saddle is cut with
	PaperUnknown            // its standard has no such number
)

// PaperUses lists every use, so that tests can ask for a word for each.
func PaperUses() []PaperUse {
	return []PaperUse{PaperUsed, PaperTooClose, PaperTooFine, PaperTooCoarse, PaperUnknown}
}

// Paper is one of the papers that are to hand.
type Paper struct {
	Grit
	Use PaperUse
	// Wide: more than twice as fine as the paper used before it, so it takes long to get that one's scratches out. Between is then the
	// paper of the same standard (FEPA where that is not known) that would stand half-way.
	Wide    bool
	Between Grit
}

// Papers puts papers that are to hand in order, coarse to fine, each once, up to the wanted finish: the fewest of which each takes out
// the scratches of the one before, which it does up to half that one's grain (common practice, no source, as is everything in this
// order; grains smaller by 1.5 to 2 from paper to paper are usual). Of orders with as few papers it is the one with the most even steps. Where no
// paper stands near enough the wide step is kept and marked. The last paper used is the nearest to the finish; rough is true when even
// that is coarser than the finish by more than the usual step between neighbours. Papers of an unknown number come last.
func Papers(have []Grit, finish Grit) (papers []Paper, rough bool) {
	wanted, known := finish.Size()
	if !known {
		wanted, _ = UndersideFinish.Size()
	}
	sizes := map[Grit]Interval{}
	var unknown []Paper
	for _, g := range have {
		if _, seen := sizes[g]; seen {
			continue
		}
		size, ok := g.Size()
		sizes[g] = size
		if ok {
			papers = append(papers, Paper{Grit: g, Use: PaperTooClose})
		} else {
			unknown = append(unknown, Paper{Grit: g, Use: PaperUnknown})
		}
	}
	sort.SliceStable(papers, func(i, j int) bool { // smaller on a phone than a sort of its own type
		a, b := papers[i].Grit, papers[j].Grit
		if sizes[a].Middle() != sizes[b].Middle() {
			return sizes[a].Middle() > sizes[b].Middle()
		}
		return a.Standard < b.Standard
	})
	n := len(papers)
	if n == 0 {
		return unknown, true
	}
	at := func(i int) Interval { return sizes[papers[i].Grit] }
	first := 0
	for first < n-1 && at(first).Middle() > coarsestGrain {
		papers[first].Use = PaperTooCoarse
		first++
	}
	off := func(i int) float64 { return math.Abs(math.Log(ratio(at(i), wanted))) }
	last := first
	for i := first; i < n; i++ {
		if off(i) < off(last) {
			last = i
		}
	}
	for i := last + 1; i < n; i++ {
		papers[i].Use = PaperTooFine
	}

	ways := make([]way, n)
	for i := first + 1; i <= last; i++ {
		ways[i].papers = math.MaxInt
		for from := first; from < i; from++ {
			if w := ways[from].step(from, ratio(at(from), at(i))); w.better(ways[i]) {
				ways[i] = w
			}
		}
	}
	for i := last; ; i = ways[i].from {
		papers[i].Use = PaperUsed
		if i == first {
			break
		}
		from := ways[i].from
		if r := ratio(at(from), at(i)); r > widestStep {
			papers[i].Wide = true
			papers[i].Between = between(papers[i].Grit, at(from), at(i))
		}
	}
	return append(papers, unknown...), ratio(at(last), wanted) > 1.25
}

// between is a paper half-way between two, on the ladder of the finer one.
func between(fine Grit, coarser, finer Interval) Grit {
	standard := fine.Standard
	if standard == AnyGrit {
		standard = FEPA
	}
	return nearestGrit(standard, math.Sqrt(float64(coarser.Middle()*finer.Middle())))
}

// way is the best order that ends at a paper: how far its steps are too wide, how many papers it takes, how uneven they are.
type way struct {
	wide, uneven float64
	papers       int
	from         int
}

func (w way) step(from int, r float64) way {
	w.from = from
	w.papers++
	if r > widestStep {
		w.wide += math.Log(r / widestStep)
	}
	w.uneven += math.Log(r) * math.Log(r)
	return w
}

func (w way) better(o way) bool {
	const same = 1e-9
	switch {
	case o.papers == math.MaxInt:
		return true
	case w.wide < o.wide-same, w.wide > o.wide+same:
		return w.wide < o.wide
	case w.papers != o.papers:
		return w.papers < o.papers
	}
	return w.uneven < o.uneven-same
}

// Bounds of the smoothing allowance: less cannot be seen with a caliper, more would be another round (common practice, no source).
const (
	LeastSmoothing Length = 0.05
	MostSmoothing  Length = 0.15
)

// smoothedGrain is the paper for which Smoothing was found right: P150, which the guess for an unknown paper is also made for.
const smoothedGrain Length = 100 * 1e-3

// SmoothingFor is what the fine paper may take off at the saddle to get out the scratches that the paper before it left: Smoothing
// behind P150, and in proportion to the grain behind any other, never under 0.05 nor over 0.15 mm, rounded up to a hundredth. It takes
// the coarser end of a size that is not known well; Smoothing for a paper whose number is not known.
//
// That scratches are as deep as the grain is large is a guess at the safe side, and so is every number here: common practice, no source.
func SmoothingFor(coarse Grit) Length {
	size, ok := coarse.Size()
	if !ok {
		return Smoothing
	}
	return min(max(Smoothing*size.High/smoothedGrain, LeastSmoothing), MostSmoothing).RoundUp(Millimetre / 100)
}

// StrokeGuess is StrokeGuess for the P number nearest in size; where the standard is not known, what either can take off. From memory.
func (g Grit) StrokeGuess() Interval {
	if _, ok := g.Size(); !ok {
		return StrokeGuess(g.Number)
	}
	switch g.Standard {
	case CAMI:
		p, _ := g.As(FEPA)
		return StrokeGuess(p.Number)
	case AnyGrit:
		return StrokeGuess(g.Number).Hull(Grit{CAMI, g.Number}.StrokeGuess())
	}
	return StrokeGuess(g.Number)
}
