package job

import (
	"errors"
	"math"
	"slices"
	"testing"

	"gapwright/geometry"
)

func strung(t *testing.T, i Instrument, course, second int) (geometry.Strung, geometry.Tension) {
	t.Helper()
	s, err := i.StrungAt(course, second)
	if err != nil {
		t.Fatal(err)
	}
	pull, err := s.Tension()
	if err != nil {
		t.Fatal(err)
	}
	return s, pull
}

// agrees fails unless got is want, give or take.
func agrees(t *testing.T, what string, got, want, give float64) {
	t.Helper()
	if !(math.Abs(got-want) <= give) {
		t.Errorf("%s = %.7g, want %.7g, give or take %.1g", what, got, want, give)
	}
}

// six gives a six-string guitar of 648 mm these strings, bass to treble.
func six(gauges ...Gauge) Instrument { return Instrument{Family: geometry.FlatTop6}.WithGauges(gauges) }

func plain(inches string) Gauge {
	return Gauge{Make: PlainSteel, Diameter: Typed{Text: inches, Unit: Inch}}
}
func wound(gramsPerMetre string) Gauge { return Gauge{Make: WoundSteel, Weight: gramsPerMetre} }

// .012 in is 0.3048 mm: μ = 7850·π·0.0003048²/4 = 0.000572782 kg/m. E4 is 329.627557 Hz: 2Lf = 2·0.648·329.627557 = 427.197314 m/s, its square
// 182497.545; T = 182497.545·0.000572782 = 104.5313 N. Where it is usually plucked, T/(0.16·0.84·648 mm) = 104.5313/87.0912 = 1.20025 N/mm.
func TestPlainSteelIsTakenFromItsDiameter(t *testing.T) {
	i := six(Gauge{}, Gauge{}, Gauge{}, Gauge{}, Gauge{}, plain(".012"))
	s, pull := strung(t, i, 5, 0)
	agrees(t, "tension", float64(pull), 104.5313, 5e-5)
	if s.From != geometry.FromDiameter || s.Stiff != 0.1524 || s.Stretch.Low >= s.Stretch.High {
		t.Errorf("%+v", s)
	}
	stiff, ok := i.Stiff(5)
	agrees(t, "sideways", stiff, 1.20025, 5e-6)
	if _, unknown := i.Stiff(0); !ok || unknown {
		t.Errorf("sideways known: treble %v, bass %v", ok, unknown)
	}
	if _, err := i.StrungAt(0, 0); !errors.Is(err, ErrNoWeight) {
		t.Errorf("a string of which nothing is said: %v", err)
	}
	var refusal *Refusal
	for _, at := range [][2]int{{-1, 0}, {6, 0}, {0, 1}, {0, -1}} {
		if _, err := i.StrungAt(at[0], at[1]); !errors.As(err, &refusal) || refusal.Kind != RefusedString {
			t.Errorf("string %v: %v", at, err)
		}
	}
}

// The packet says 0.6 g/m: T = 182497.545·0.0006 = 109.4985 N. κ = A·E/T with A = π·0.3048²/4 = 0.0729659 mm²: 0.0729659·190000/109.4985 = 126.609.
func TestATypedWeightWinsAndTheDiameterKeepsTheStretch(t *testing.T) {
	g := plain(".012")
	g.Weight = "0,6"
	s, pull := strung(t, six(g, g, g, g, g, g), 5, 0)
	agrees(t, "tension", float64(pull), 109.4985, 5e-5)
	agrees(t, "stretch", s.Stretch.Low, 126.609, 5e-4)
	if s.From != geometry.Typed || s.Stiff != 0.1524 {
		t.Errorf("%+v", s)
	}
}

// E2 is 82.406889 Hz: (2·0.648·82.406889)² = 11406.096; times 0.00547 kg/m is 62.3913 N. A tone lower: 2^(−4/12) = 0.793701 of it, 49.5200 N.
func TestTuningChangesTheTensionAndACapoDoesNot(t *testing.T) {
	i := six(wound("5.47"), Gauge{}, Gauge{}, Gauge{}, Gauge{}, Gauge{})
	_, pull := strung(t, i, 0, 0)
	agrees(t, "E2", float64(pull), 62.3913, 5e-5)
	low := i.WithTuning(TuningLowestToneLower.Tones(geometry.FlatTop6))
	_, pull = strung(t, low, 0, 0)
	agrees(t, "D2", float64(pull), 49.5200, 5e-5)
	if want := []geometry.Tone{38, 45, 50, 55, 59, 64}; !slices.Equal(low.Tones(), want) || !low.Tuned(TuningLowestToneLower) || low.Tuned(TuningUsual) {
		t.Errorf("tones %v, want %v", low.Tones(), want)
	}
	if want := []geometry.Tone{39, 44, 49, 54, 58, 63}; !slices.Equal(TuningSemitoneLower.Tones(geometry.FlatTop6), want) {
		t.Errorf("all a semitone lower: %v, want %v", TuningSemitoneLower.Tones(geometry.FlatTop6), want)
	}
	capo := i.WithCapo(3)
	_, pull = strung(t, capo, 0, 0)
	agrees(t, "with a capo", float64(pull), 62.3913, 5e-5)
	if !low.Retuned(i) || !capo.Retuned(i) || i.Retuned(i) || low.Set.Differs(i.Set) || i.Set.Tuning != nil {
		t.Error("retuned, or other strings: told wrongly")
	}
	back := low.WithCourse(0, 2)
	if back.Set.Tuning != nil || back.Retuned(i) {
		t.Errorf("the usual tuning is written down: %v", back.Set.Tuning)
	}
	if none := (Instrument{Family: geometry.FlatTop6}).WithCapo(20).WithCapo(-1); none.Set != nil {
		t.Errorf("nothing said is kept as %+v", none.Set)
	}
	bottom := i
	for range 40 { // 40 − 9 = 31 semitones down to the lowest note
		bottom = bottom.WithCourse(0, -1)
	}
	if bottom.Tones()[0] != 9 || bottom.Check() != nil {
		t.Errorf("lowest note %d, %v", bottom.Tones()[0], bottom.Check())
	}
}

// On 12 strings the second of the four bass pairs is an octave up: a plain .012 at E3 pulls a quarter of what it does at E4, 26.1328 N. The B pair is alike:
// .016 at B3 pulls 104.2955 N (in the table of steel strings).
func TestTwelveStringsHaveOctavePairs(t *testing.T) {
	gauges := make([]Gauge, 12)
	gauges[1], gauges[8], gauges[9] = plain(".012"), plain(".016"), plain(".016")
	i := Instrument{Family: geometry.FlatTop12}.WithGauges(gauges)
	if err := i.Check(); err != nil {
		t.Fatal(err)
	}
	_, pull := strung(t, i, 0, 1)
	agrees(t, "octave of the bass course", float64(pull), 26.1328, 5e-5)
	for second := range 2 {
		_, pull = strung(t, i, 4, second)
		agrees(t, "B pair", float64(pull), 104.2955, 5e-5)
	}
	all, total, whole := i.Pulls()
	agrees(t, "total", float64(total), 234.7239, 5e-5) // 26.1328 + 2·104.2955
	if whole || len(all) != 12 || all[0].Known || !all[1].Known || all[9].Course != 4 || all[9].Second != 1 {
		t.Errorf("%v %+v", whole, all)
	}
}

// E1 is 41.203444 Hz on 34 in: (2·0.8636·41.203444)² = 5064.683; times 0.0175 kg/m is 88.6320 N. A1 is 55 Hz: 94.996² = 9024.240; times
// 0.0098 is 88.4376. D2 and G2, 73.416192 and 97.998859 Hz: 16079.368·0.0055 = 88.4365 and 28650.176·0.0031 = 88.8155; together 354.3216 N.
func TestALongBassWithTypedWeights(t *testing.T) {
	i := Instrument{Family: geometry.Bass, Scale: Typed{Text: "34", Unit: Inch}}.WithGauges([]Gauge{wound("17.5"), wound("9.8"), wound("5,5"), wound("3.1")})
	if err := i.Check(); err != nil {
		t.Fatal(err)
	}
	all, total, whole := i.Pulls()
	agrees(t, "E1", float64(all[0].Tension), 88.6320, 5e-5)
	agrees(t, "A1", float64(all[1].Tension), 88.4376, 5e-5)
	if !whole || all[3].From != geometry.Typed {
		t.Errorf("%v %+v", whole, all)
	}
	agrees(t, "total", float64(total), 354.3216, 2e-4)
}

// The published set of normal pull on 650 mm, as computed from the paper's weights: 62.7771 + 67.2568 + 69.9571 + 54.2744 + 52.0435 + 68.6761 = 374.9850 N.
func TestAPublishedSetOfNylon(t *testing.T) {
	i := Instrument{Family: geometry.Nylon}.WithPublished(geometry.NylonNormal)
	if err := i.Check(); err != nil {
		t.Fatal(err)
	}
	all, total, whole := i.Pulls()
	agrees(t, "bass", float64(all[0].Tension), 62.7771, 5e-5)
	agrees(t, "treble", float64(all[5].Tension), 68.6761, 5e-5)
	agrees(t, "total", float64(total), 374.9850, 4e-4)
	if !whole || all[0].From != geometry.Published || len(PublishedFor(geometry.Nylon)) != 3 || PublishedFor(geometry.FlatTop6) != nil {
		t.Errorf("%v %+v", whole, all)
	}
}

func TestWhatNoSetCanBeIsRefused(t *testing.T) {
	guitar, _ := geometry.FamilyOf(geometry.FlatTop6)
	twelve, _ := geometry.FamilyOf(geometry.FlatTop12)
	bass, _ := geometry.FamilyOf(geometry.Bass)
	one := func(g Gauge) *Stringing { return &Stringing{Gauges: []Gauge{{}, {}, {}, {}, {}, g}} }
	mm := func(text string) Gauge { return Gauge{Diameter: Typed{Text: text, Unit: MM}} }
	for name, c := range map[string]struct {
		set  *Stringing
		of   geometry.Family
		want error
		what geometry.Quantity
	}{
		"a tuning too short":        {&Stringing{Tuning: []geometry.Tone{40}}, guitar, ErrSet, ""},
		"a note too low":            {&Stringing{Tuning: []geometry.Tone{8, 45, 50, 55, 59, 64}}, guitar, nil, geometry.QuantityNote},
		"an octave too high":        {&Stringing{Tuning: []geometry.Tone{97, 45, 50, 55, 59, 64}}, twelve, nil, geometry.QuantityNote},
		"a capo too high":           {&Stringing{Capo: 13}, guitar, nil, geometry.QuantityFret},
		"a capo below the nut":      {&Stringing{Capo: -1}, guitar, nil, geometry.QuantityFret},
		"too few strings":           {&Stringing{Gauges: []Gauge{{}}}, guitar, ErrSet, ""},
		"six strings for twelve":    {one(Gauge{}), twelve, ErrSet, ""},
		"a make of a later version": {one(Gauge{Make: "silk"}), guitar, ErrSet, ""},
		"too thin":                  {one(mm("0.09")), guitar, nil, geometry.QuantityDiameter},
		"too thick":                 {one(mm("3.1")), guitar, nil, geometry.QuantityDiameter},
		"thousandths as inches":     {one(plain("12")), guitar, nil, geometry.QuantityDiameter},
		"not a weight":              {one(Gauge{Weight: "much"}), guitar, ErrWeight, ""},
		"two decimal marks":         {one(Gauge{Weight: "1,2.3"}), guitar, ErrWeight, ""},
		"an exponent":               {one(Gauge{Weight: "1e1"}), guitar, ErrWeight, ""},
		"below zero":                {one(Gauge{Weight: "-1"}), guitar, ErrWeight, ""},
		"blank":                     {one(Gauge{Weight: " "}), guitar, ErrWeight, ""},
		"too light":                 {one(Gauge{Weight: "0.009"}), guitar, nil, geometry.QuantityUnitWeight},
		"too heavy":                 {one(Gauge{Weight: "101"}), guitar, nil, geometry.QuantityUnitWeight},
		"six on a bass":             {&Stringing{Published: geometry.NylonHard}, bass, ErrSet, ""},
		"six on twelve":             {&Stringing{Published: geometry.NylonHard}, twelve, ErrSet, ""},
		"an unknown set":            {&Stringing{Published: "nylon-none"}, guitar, ErrSet, ""},
		"a set and gauges":          {&Stringing{Published: geometry.NylonHard, Gauges: one(Gauge{}).Gauges}, guitar, ErrSet, ""},
	} {
		err := c.set.Check(c.of)
		var out *geometry.RangeError
		if c.want != nil && !errors.Is(err, c.want) || c.want == nil && (!errors.As(err, &out) || out.Quantity != c.what) {
			t.Errorf("%s: %v", name, err)
		}
	}
	var parse *geometry.ParseError
	if err := one(mm("thin")).Check(guitar); !errors.As(err, &parse) {
		t.Errorf("no number: %v", err)
	}
	for name, set := range map[string]*Stringing{"nothing said": nil, "empty": {}, "the thinnest": one(mm("0.1")), "the thickest": one(mm("3")),
		"the lightest": one(Gauge{Weight: "0.01"}), "the heaviest": one(Gauge{Weight: " 100 "}), "published": {Published: geometry.NylonLight, Capo: 12}} {
		if err := set.Check(guitar); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	if six(plain("12")).Check() == nil {
		t.Error("a profile with an impossible string is taken")
	}
}

// With every diameter a thousandth more, (13/12)² = 1.173611: 17.3611 % more pull.
func TestOtherStringsAreToldFromCorrectedOnes(t *testing.T) {
	all := func(g Gauge) Instrument { return six(g, g, g, g, g, g) }
	twelve, thirteen := all(plain(".012")), all(plain(".013"))
	percent, ok := PullChange(twelve, thirteen)
	agrees(t, "change", percent, 17.3611, 5e-5)
	if _, unknown := PullChange(Instrument{Family: geometry.FlatTop6}, thirteen); !ok || unknown {
		t.Errorf("change known: %v, from nothing: %v", ok, unknown)
	}
	weighed := plain(".012")
	weighed.Weight = "0.57"
	heavier := weighed
	heavier.Weight = "0,58"
	nylon := Instrument{Family: geometry.Nylon}
	for name, c := range map[string]struct {
		old, next Instrument
		want      bool
	}{
		"another gauge":            {twelve, thirteen, true},
		"another make":             {twelve, all(Gauge{Make: WoundSteel, Diameter: Typed{Text: ".012", Unit: Inch}}), true},
		"another weight":           {all(weighed), all(heavier), true},
		"another published set":    {nylon.WithPublished(geometry.NylonLight), nylon.WithPublished(geometry.NylonHard), true},
		"published, then gauges":   {nylon.WithPublished(geometry.NylonLight), nylon.WithGauges([]Gauge{{Make: PlainNylon}, {}, {}, {}, {}, {}}), true},
		"the same":                 {twelve, twelve, false},
		"written otherwise":        {twelve, all(Gauge{Make: PlainSteel, Diameter: Typed{Text: "0,3048 mm", Unit: MM}}), false},
		"a weight said as well":    {twelve, all(weighed), false},
		"first said":               {Instrument{Family: geometry.FlatTop6}, twelve, false},
		"published, said no more":  {nylon.WithPublished(geometry.NylonLight), nylon, false},
		"only the tuning was said": {Instrument{Family: geometry.FlatTop6}.WithCapo(2), twelve, false},
	} {
		if got := c.next.Set.Differs(c.old.Set); got != c.want {
			t.Errorf("%s: differs %v, want %v", name, got, c.want)
		}
	}
}

func TestALengthIsShownAsItIsTypedInTheOtherUnit(t *testing.T) {
	for _, c := range []struct {
		typed Typed
		unit  Unit
		want  string
	}{
		{Typed{".012", Inch}, Inch, ".012"}, {Typed{".012", Inch}, MM, ".012 in"}, {Typed{"12 thou", Inch}, MM, "12 thou"}, {Typed{"0.3", MM}, Inch, "0.3 mm"},
		{Typed{"0.3", ""}, Inch, "0.3 mm"}, {Typed{"0.3", MM}, "", "0.3"}, {Typed{}, MM, ""}, {Typed{"x", Inch}, MM, "x"},
	} {
		got := c.typed.Shown(c.unit)
		if got != c.want {
			t.Errorf("%+v in %q: %q, want %q", c.typed, c.unit, got, c.want)
		}
	}
}

// Whatever is chosen by name fits its family, and nothing that can be asked of a family's strings fails.
func TestEveryFamilyCanBeStrung(t *testing.T) {
	for _, f := range geometry.Families() {
		i := Instrument{Family: f.ID}
		for _, c := range TuningChoices(f.ID) {
			next := i.WithTuning(c.Tones(f.ID))
			if err := next.Set.Check(f); err != nil || !next.Tuned(c) || (next.Set == nil) != (c == TuningUsual) {
				t.Errorf("%s, tuning %d: %v, %+v", f.ID, c, err, next.Set)
			}
		}
		gauges := make([]Gauge, f.Courses*f.PerCourse)
		for n := range gauges {
			gauges[n] = Gauge{Make: MakesFor(f.ID)[0], Weight: "1"}
		}
		next := i.WithGauges(gauges)
		if _, _, whole := next.Pulls(); !whole || next.Set.Check(f) != nil {
			t.Errorf("%s: whole %v, %v", f.ID, whole, next.Set.Check(f))
		}
		if all, _, whole := i.Pulls(); whole || len(all) != len(gauges) || len(i.Gauges()) != len(gauges) {
			t.Errorf("%s: %d strings, known %v", f.ID, len(all), whole)
		}
	}
	reentrant := TuningChoices(geometry.UkuleleTenor)
	if slices.Contains(reentrant, TuningLowestToneLower) {
		t.Error("the fourth string of a re-entrant tuning is not its lowest")
	}
}
