package job

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"gapwright/geometry"
)

// Every family has a whole job in testdata/jobs, by its usual method.
func TestEveryFamilyHasAWholeJob(t *testing.T) {
	usual := map[geometry.FamilyID]Bridge{geometry.Archtop: BridgePosts, geometry.SolidBody: BridgeScrews, geometry.Bass: BridgeScrews,
		geometry.Bass5: BridgeScrews, geometry.Mandolin: BridgePosts}
	files, _ := filepath.Glob("../../testdata/jobs/*.txt")
	whole := map[string]bool{}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		for _, line := range strings.Split(string(text), "\n") {
			words := strings.Fields(line)
			if len(words) < 3 || words[0] != "began" || !strings.Contains(string(text), "=> finished") {
				continue
			}
			method, given := strings.CutPrefix(words[2], "method=")
			if !given {
				method = string(SandUnderside)
			}
			whole[words[1]+" by "+method] = true
		}
	}
	for _, f := range geometry.Families() {
		i := Instrument{Family: f.ID, Bridge: usual[f.ID]}
		if i.Holds() == BridgeNotAsked {
			t.Errorf("nothing usual is known of %s", f.ID)
		}
		if name := string(f.ID) + " by " + string(i.Methods()[0]); !whole[name] {
			t.Errorf("no whole job of %s", name)
		}
	}
}

func TestMethodsFitTheBridge(t *testing.T) {
	for _, c := range []struct {
		i    Instrument
		want []Method
	}{
		{Instrument{Family: geometry.FlatTop6}, []Method{SandUnderside, RaiseByStrip, NewSaddle, NutSlots, SetRelief}}, // as its family usually is
		{Instrument{Family: geometry.FlatTop6, Bridge: BridgeFixed}, []Method{NutSlots, SetRelief}},
		{Instrument{Family: geometry.FlatTop6, Bridge: BridgeUnsure}, []Method{NutSlots, SetRelief}},
		{Instrument{Family: geometry.SolidBody}, []Method{NutSlots, SetRelief}}, // not asked yet
		{Instrument{Family: geometry.SolidBody, Bridge: BridgePosts}, []Method{ByPosts, NutSlots, SetRelief}},
		{Instrument{Family: geometry.Bass5, Bridge: BridgeScrews}, []Method{ByScrews, NutSlots, SetRelief}},
		{Instrument{Family: geometry.Bass, Bridge: BridgeSlot}, []Method{SandUnderside, RaiseByStrip, NewSaddle, NutSlots, SetRelief}},
		{Instrument{Family: geometry.UkuleleTenor}, []Method{SandUnderside, RaiseByStrip, NewSaddle, NutSlots}},
	} {
		if got := c.i.Methods(); !slices.Equal(got, c.want) {
			t.Errorf("%s with %q: %v, want %v", c.i.Family, c.i.Bridge, got, c.want)
		}
	}
}

// Every family can begin every method that its instruments may have, whatever holds the strings up.
func TestEveryFamilyBeginsWhatFitsIt(t *testing.T) {
	for _, f := range geometry.Families() {
		for _, b := range append(Bridges(), BridgeNotAsked) {
			i := Instrument{ID: "i", Family: f.ID, Bridge: b}
			for _, m := range i.Methods() {
				r := must(t, Record{}, Began{Method: m, Instrument: i, Kit: Kit{Unit: MM}})
				if r.Step() != BeforeYouStart {
					t.Errorf("%s, %s, %s: begins at %s", f.ID, b, m, r.Step())
				}
			}
		}
	}
}

// A saddle that hardly stands out stops sanding; the methods that raise do not mind it.
func TestALowSaddleStopsSandingAlone(t *testing.T) {
	if !AskSaddle.Stops(SaddleLow) || !SandUnderside.Minds(SaddleLow) || RaiseByStrip.Minds(SaddleLow) || NewSaddle.Minds(SaddleLow) {
		t.Error("a low saddle is not minded where it matters, or where it does not")
	}
	for _, a := range []Answer{SaddleStepped, SaddleSplit, SaddleThrough} {
		if AskSaddle.Stops(a) || !AskSaddle.allows(a) {
			t.Errorf("%s stops", a)
		}
	}
}

func TestPapersAreReadAsPrinted(t *testing.T) {
	p, c := func(n int) geometry.Grit { return geometry.Grit{Standard: geometry.FEPA, Number: n} }, func(n int) geometry.Grit { return geometry.Grit{Standard: geometry.CAMI, Number: n} }
	for _, test := range []struct {
		text string
		want []geometry.Grit
		ok   bool
	}{
		{"", nil, true},
		{"P150 P240, 400", []geometry.Grit{p(150), p(240), c(400)}, true},
		{"p80;120/220", []geometry.Grit{p(80), c(120), c(220)}, true},
		{"fine", nil, false},
		{"P", nil, false},
		{"0", nil, false},
		{"-80", nil, false},
		{"5001", nil, false},
	} {
		if got, ok := (Kit{Papers: test.text}).Grits(); ok != test.ok || !slices.Equal(got, test.want) {
			t.Errorf("%q: %v %v, want %v %v", test.text, got, ok, test.want, test.ok)
		}
	}
	for text, want := range map[string]geometry.Length{ // 0.10 x the coarsest's grain over that of P150
		"":                0.10,
		"P150 P400":       0.10,
		"P400 P240":       0.06, // 60 micrometres at the most
		"P80 P180 P400":   0.15, // 0.201, the most
		"P40 P120 P400":   0.13, // P40 is too coarse; 0.125
		"P400":            0.05, // 0.035, the least
		"no paper at all": 0.10,
	} {
		if got := (Kit{Papers: text}).Smoothing(); got != want {
			t.Errorf("%q leaves %.3f, want %.3f", text, float64(got), float64(want))
		}
	}
}

// A plan of an older job comes out as it always did: a kit that says one paper by its number alone keeps a tenth back.
func TestOlderKitsKeepTheirAllowance(t *testing.T) {
	for _, grit := range []int{0, 80, 150, 400} {
		if k := (Kit{Grit: grit}); k.Smoothing() != geometry.Smoothing || k.strokeGuess() != geometry.StrokeGuess(grit) {
			t.Errorf("grit %d: %v, %v", grit, k.Smoothing(), k.strokeGuess())
		}
	}
}

// With one scale nothing differs from string to string; with two, each path lies over its own.
func TestEachStringHasItsScale(t *testing.T) {
	one := Instrument{Family: geometry.FlatTop6}
	two := Instrument{Family: geometry.FlatTop6, Scale: Typed{"686", MM}, Treble: Typed{"648", MM}}
	for course, want := range []geometry.Length{686, 678.4, 670.8, 663.2, 655.6, 648} {
		if got := two.ScaleOf(course); abs(got-want) > 1e-9 || abs(two.NeckOf(course).Scale-want) > 1e-9 {
			t.Errorf("course %d has %.3f, want %.3f", course, float64(got), float64(want))
		}
		if one.ScaleOf(course) != 648 || one.NeckOf(course) != one.Neck() {
			t.Errorf("course %d of one scale: %v", course, one.ScaleOf(course))
		}
	}
	kit := Kit{Unit: MM, Marks: EveryQuarter, Zero: ZeroAtEnd}
	r := must(t, Record{}, Began{Method: SandUnderside, Instrument: Instrument{ID: "i", Family: two.Family, Scale: two.Scale, Treble: two.Treble}, Kit: kit}, Answered{AskSaddle, SaddleLoose},
		ReadByMarks(kit, one, 0, 11), ReadByMarks(kit, one, 5, 8))
	for course, want := range map[int]geometry.Length{0: 686, 5: 648} {
		path, _, err := r.Path(course, false)
		if err != nil || path.Neck().Scale != want {
			t.Errorf("course %d lies over %v, %v", course, path.Neck().Scale, err)
		}
	}
}
