package geometry_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	. "gapwright/geometry"
)

// Every published value lies in the range that is given, and both ends of each range are published values.
func TestGritSizesAreThoseOfTheTables(t *testing.T) {
	published := map[Grit][]Length{}
	for _, row := range table(t, "grits", 80) {
		g := Grit{GritStandard(row[0]), int(number(t, row[1]))}
		published[g] = append(published[g], Length(number(t, row[2]))/1000)
	}
	known := 0
	for _, standard := range []GritStandard{FEPA, CAMI} {
		last := Length(math.Inf(1))
		for _, n := range GritNumbers(standard) {
			known++
			g := Grit{standard, n}
			size, ok := g.Size()
			if !ok || len(published[g]) == 0 {
				t.Fatalf("%v: %v", g, size)
			}
			low, high := Length(math.Inf(1)), Length(0)
			for _, p := range published[g] {
				low, high = min(low, p), max(high, p)
			}
			nearInterval(t, "size", size, Interval{Low: low, High: high}, 1e-12)
			if size.High >= last { // the ranges do not even touch: sizes fall strictly
				t.Errorf("%v: up to %v, and the number before from %v", g, size.High, last)
			}
			last = size.Low
			if most := map[GritStandard]Length{FEPA: 1.051, CAMI: 1.123}[standard]; n < 2500 && size.High > most*size.Low {
				t.Errorf("%v: %v is wider than the sources differ", g, size)
			}
		}
	}
	if known != len(published) {
		t.Errorf("%d papers are known, %d published", known, len(published))
	}
	for _, g := range []Grit{{FEPA, 250}, {CAMI, 1500}, {FEPA, 0}, {FEPA, -1}, {"other", 400}} {
		if size, ok := g.Size(); ok || size != (Interval{}) {
			t.Errorf("%v is no paper, and has %v", g, size)
		}
	}
	both, _ := Grit{AnyGrit, 400}.Size() // CAMI 22 to 23.6, P 35
	nearInterval(t, "400 of either standard", both, Interval{Low: 0.022, High: 0.035}, 1e-12)
}

func TestTheStandardsPartAbove220(t *testing.T) {
	for _, n := range []int{240, 280, 320, 360, 400, 500, 600, 800, 1000, 1200} {
		p, _ := Grit{FEPA, n}.Size()
		c, _ := Grit{CAMI, n}.Size()
		same, ok := SameNumber(n)
		if !(p.Low > c.High) || same || !ok {
			t.Errorf("P%d %v, CAMI %d %v, same %v", n, p, n, c, same)
		}
	}
	for n, want := range map[int]bool{60: true, 80: true, 100: false, 120: true, 150: true, 180: true, 220: true} { // 162/140.5 = 1.153
		if same, ok := SameNumber(n); same != want || !ok {
			t.Errorf("%d: same %v", n, same)
		}
	}
	if _, ok := SameNumber(1500); ok {
		t.Error("CAMI has no 1500 here")
	}
	p, _ := Grit{FEPA, 400}.Size()
	near(t, "P400 over CAMI 400 as one source has it", float64(p.Middle())/0.0236, 1.48305, 5e-6)
	a, _ := Grit{FEPA, 120}.Size()
	near(t, "P120 over P240 as remembered", float64(a.Middle())/0.0585, 2.13675, 5e-6)
}

func TestPapersAcrossTheStandards(t *testing.T) {
	for p, c := range map[int]int{60: 60, 180: 180, 220: 220, 400: 320, 800: 400, 1000: 500, 1200: 600} { // source b of the table
		if got, ok := (Grit{FEPA, p}).As(CAMI); !ok || got != (Grit{CAMI, c}) {
			t.Errorf("P%d is %v, want CAMI %d", p, got, c)
		}
		if got, ok := (Grit{CAMI, c}).As(FEPA); !ok || got != (Grit{FEPA, p}) {
			t.Errorf("CAMI %d is %v, want P%d", c, got, p)
		}
	}
	for _, g := range []Grit{{AnyGrit, 400}, {FEPA, 401}} {
		if _, ok := g.As(CAMI); ok {
			t.Errorf("%v is nothing by the other standard", g)
		}
	}
	if _, ok := (Grit{FEPA, 400}).As(AnyGrit); ok {
		t.Error("not knowing is no standard")
	}
}

func papersOf(numbers ...int) []Grit {
	var grits []Grit
	for _, n := range numbers {
		grits = append(grits, Grit{FEPA, n})
	}
	return grits
}

func used(papers []Paper) (numbers []int, wide int) {
	for _, u := range papers {
		if u.Use == PaperUsed {
			numbers = append(numbers, u.Number)
		}
		if u.Wide {
			wide++
		}
	}
	return numbers, wide
}

func TestPapersInOrder(t *testing.T) {
	for _, c := range []struct {
		have   []Grit
		finish Grit
		want   []int
		wide   int
		rough  bool
		why    string
	}{
		{papersOf(400, 220, 120), UndersideFinish, []int{120, 220, 400}, 0, false, "125 → 68 → 35: 1.84 and 1.94"},
		{papersOf(80, 120, 150, 220, 320, 400), UndersideFinish, []int{80, 120, 220, 400}, 0, false, "200.5 → 125 → 68 → 35; 80 to 150 would be 2.005"},
		{papersOf(240, 400, 500, 600), Grit{FEPA, 600}, []int{240, 400, 600}, 0, false, "59.2 → 35 → 25.9 is 1.69 and 1.35, by 500 1.97 and 1.16: less even"},
		{papersOf(80, 400), UndersideFinish, []int{80, 400}, 1, false, "200.5 → 35 is 5.7"},
		{papersOf(120, 150), UndersideFinish, []int{120, 150}, 0, true, "100 is far from 35"},
		{papersOf(400, 800, 120, 1200), UndersideFinish, []int{120, 400}, 1, false, "beyond P400 is too fine here"},
		{papersOf(220), UndersideFinish, []int{220}, 0, true, "the only one"},
		{papersOf(40), UndersideFinish, []int{40}, 0, true, "the only one, however coarse"},
		{papersOf(40, 120, 120, 220, 400), UndersideFinish, []int{120, 220, 400}, 0, false, "P40 has no place on a saddle; twice the same is once"},
		{[]Grit{{CAMI, 400}, {FEPA, 400}}, Grit{CAMI, 400}, []int{400, 400}, 0, false, "the same number twice, 35 → 22.8"},
		{papersOf(400), Grit{FEPA, 1}, []int{400}, 0, false, "an unknown finish is the underside's"},
	} {
		papers, rough := Papers(c.have, c.finish)
		got, wide := used(papers)
		if len(got) != len(c.want) || wide != c.wide || rough != c.rough {
			t.Errorf("%v: %v, %d wide, rough %v; want %v, %d, %v: %s", c.have, got, wide, rough, c.want, c.wide, c.rough, c.why)
			continue
		}
		for i := range got {
			if got[i] != c.want[i] {
				t.Errorf("%v: %v, want %v: %s", c.have, got, c.want, c.why)
			}
		}
	}
	papers, _ := Papers([]Grit{{FEPA, 80}, {FEPA, 400}, {FEPA, 333}, {FEPA, 2000}, {FEPA, 40}}, UndersideFinish)
	uses := map[int]PaperUse{}
	for _, u := range papers {
		uses[u.Number] = u.Use
		if u.Number == 400 && u.Between != (Grit{FEPA, 180}) { // √(200.5 × 35) = 83.8: P180, 82
			t.Errorf("between P80 and P400: %v", u.Between)
		}
	}
	if uses[40] != PaperTooCoarse || uses[333] != PaperUnknown || uses[2000] != PaperTooFine || len(papers) != 5 {
		t.Errorf("%v", papers)
	}
	papers, _ = Papers([]Grit{{FEPA, 80}, {AnyGrit, 400}}, UndersideFinish) // 22 to 35: √(200.5 × 28.5) = 75.6, P180 rather than P220
	if last := papers[1]; !last.Wide || last.Between != (Grit{FEPA, 180}) {
		t.Errorf("%+v", last)
	}
	// whatever two papers are more than a double step apart, a paper stands between them
	for _, coarse := range GritNumbers(FEPA) {
		for _, fine := range GritNumbers(CAMI) {
			papers, _ := Papers([]Grit{{FEPA, coarse}, {CAMI, fine}}, Grit{CAMI, fine})
			between, known := papers[1].Between.Size()
			a, _ := papers[0].Size()
			b, _ := papers[1].Size()
			if papers[1].Wide != known || known && !(between.Middle() < a.Middle() && between.Middle() > b.Middle()) {
				t.Errorf("%v between %v and %v", papers[1].Between, papers[0].Grit, papers[1].Grit)
			}
		}
	}
	if papers, rough := Papers(nil, UndersideFinish); len(papers) != 0 || !rough {
		t.Error("something from nothing")
	}
	if len(PaperUses()) != 5 || len(GritStandards()) != 3 {
		t.Error("a list has another length")
	}
}

// No order with as few wide steps has fewer papers: tried against every choice of papers.
func TestNoBetterOrderOfPapersExists(t *testing.T) {
	for _, seed := range seeds {
		rng := rand.New(rand.NewPCG(seed, 71))
		all := GritNumbers(FEPA)
		for range 200 {
			var have []Grit
			for _, n := range all {
				if n >= 80 && n <= 1200 && rng.IntN(3) > 0 {
					have = append(have, Grit{FEPA, n})
				}
			}
			papers, _ := Papers(have, TopFinish)
			got, _ := used(papers)
			cost := func(numbers []int) (wide float64, count int) {
				for i := range numbers[1:] {
					a, _ := Grit{FEPA, numbers[i]}.Size()
					b, _ := Grit{FEPA, numbers[i+1]}.Size()
					wide += max(0, math.Log(float64(a.Middle()/b.Middle())/2))
				}
				return wide, len(numbers)
			}
			if len(have) == 0 {
				continue
			}
			wide, count := cost(got)
			n := len(have)
			for choice := range 1 << max(0, n-2) {
				order := []int{have[0].Number}
				for i := 1; i < n-1; i++ {
					if choice>>(i-1)&1 == 1 {
						order = append(order, have[i].Number)
					}
				}
				if n > 1 {
					order = append(order, have[n-1].Number)
				}
				if w, c := cost(order); w < wide-1e-9 || w < wide+1e-9 && c < count {
					t.Fatalf("seed %d: %v is better than %v", seed, order, got)
				}
			}
		}
	}
}

func TestSmoothingFollowsThePaper(t *testing.T) {
	for _, c := range []struct {
		g    Grit
		want Length
		why  string
	}{
		{Grit{FEPA, 150}, 0.10, "as it always was"},
		{Grit{FEPA, 120}, 0.13, "125 of 100: 0.125"},
		{Grit{FEPA, 80}, 0.15, "201 of 100 is 0.201, and no more than 0.15"},
		{Grit{FEPA, 220}, 0.07, "0.068"},
		{Grit{FEPA, 320}, 0.05, "0.046, and no less than 0.05"},
		{Grit{CAMI, 150}, 0.10, "93 of 100: 0.093"},
		{Grit{AnyGrit, 100}, 0.15, "140 to 162: the coarser"},
		{Grit{}, 0.10, "not known"},
		{Grit{FEPA, 99}, 0.10, "no such number"},
	} {
		near(t, c.why, SmoothingFor(c.g), c.want, 1e-12)
	}
	for _, standard := range GritStandards() {
		last := MostSmoothing
		for _, n := range GritNumbers(standard) {
			s := SmoothingFor(Grit{standard, n})
			if s > last || s < LeastSmoothing {
				t.Errorf("%v %d: %v after %v", standard, n, s, last)
			}
			last = s
		}
	}
}

func TestStrokeGuessKnowsTheStandard(t *testing.T) {
	for _, n := range []int{0, 80, 150, 333, 400, 2000} {
		if got := (Grit{FEPA, n}).StrokeGuess(); got != StrokeGuess(n) {
			t.Errorf("P%d: %v", n, got)
		}
	}
	if got := (Grit{CAMI, 320}).StrokeGuess(); got != StrokeGuess(400) { // CAMI 320 is P400
		t.Errorf("CAMI 320: %v", got)
	}
	both := StrokeGuess(320).Hull(StrokeGuess(400))
	if got := (Grit{AnyGrit, 320}).StrokeGuess(); got != both || (Grit{}).StrokeGuess() != StrokeGuess(0) {
		t.Errorf("320 of either: %v, want %v", got, both)
	}
}

func ExamplePapers() {
	// grains of 125, 100, 68 and 35 micrometres: 125/68 and 68/35 are both under two, so P150 can be left out
	papers, _ := Papers([]Grit{{FEPA, 400}, {FEPA, 150}, {FEPA, 120}, {FEPA, 220}}, UndersideFinish)
	for _, p := range papers {
		fmt.Println(p.Number, p.Use == PaperUsed)
	}
	// Output:
	// 120 true
	// 150 false
	// 220 true
	// 400 true
}
