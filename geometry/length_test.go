package geometry_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	. "gapwright/geometry"
)

func TestParseLengthTakesWhatPeopleType(t *testing.T) {
	for _, c := range []struct {
		text string
		bare Unit
		want Length // worked: 1 in = 25.4 mm
	}{
		{"2.25", UnitMillimetre, 2.25}, {"2,25", UnitMillimetre, 2.25}, {" 2.25 mm ", UnitMillimetre, 2.25}, {"2.25MM", UnitInch, 2.25},
		{`.089"`, UnitMillimetre, 2.2606}, {"0.089 in", UnitMillimetre, 2.2606}, {".089", UnitInch, 2.2606}, {"89 thou", UnitMillimetre, 2.2606},
		{"0,089 in", UnitMillimetre, 2.2606}, {"5/64", UnitMillimetre, 1.984375}, {"5/64", UnitInch, 1.984375}, {`5/64"`, UnitMillimetre, 1.984375},
		{"5 / 64 in", UnitMillimetre, 1.984375}, {"5⁄64″", UnitMillimetre, 1.984375}, {"5/64''", UnitMillimetre, 1.984375},
		{"5/64′′", UnitMillimetre, 1.984375}, {"1 3/4 in", UnitMillimetre, 44.45}, {"1 3/4", UnitInch, 44.45}, {"1 3/8", UnitMillimetre, 34.925},
		{"1/2", UnitInch, 12.7}, {"1/2 mm", UnitMillimetre, 0.5}, {"0", UnitMillimetre, 0}, {"2.", UnitMillimetre, 2},
		{"2.25\u00a0mm", UnitMillimetre, 2.25}, {"25", UnitMillimetre, 25}, {"1 3/4 millimetres", UnitInch, 1.75}, {"1/2 thou", UnitInch, 0.0127},
	} {
		got, err := ParseLength(c.text, c.bare)
		if err != nil {
			t.Errorf("ParseLength(%q): %v", c.text, err)
			continue
		}
		near(t, "ParseLength("+c.text+")", got, c.want, 1e-12)
	}
}

func TestParseLengthRefusesTheRest(t *testing.T) {
	seen := map[ParseKind]bool{}
	for _, c := range []struct {
		text string
		want ParseKind
	}{
		{"", ParseEmpty}, {"   ", ParseEmpty}, {"\t\u00a0", ParseEmpty},
		{"abc", ParseNotANumber}, {"mm", ParseNotANumber}, {"NaN", ParseNotANumber}, {"Inf", ParseNotANumber}, {"+Inf", ParseNotANumber},
		{"0x10", ParseNotANumber}, {"0x1p-2", ParseNotANumber}, {"1_000", ParseNotANumber}, {"1 000", ParseNotANumber}, {".", ParseNotANumber},
		{",", ParseNotANumber}, {"/", ParseNotANumber}, {"5/", ParseNotANumber}, {"/64", ParseNotANumber}, {"5/64/2", ParseNotANumber},
		{"2 .5", ParseNotANumber}, {"5.0/64", ParseNotANumber}, {"5 mm 3", ParseNotANumber}, {"2-3", ParseNotANumber}, {"٢", ParseNotANumber},
		{"-1", ParseNegative}, {"−1", ParseNegative}, {"–1 mm", ParseNegative},
		{"1e3", ParseExponent}, {"1E-3", ParseExponent}, {"1e+3 mm", ParseExponent}, {"2.5e1", ParseExponent},
		{"1,234.5", ParseTwoMarks}, {"1.2.3", ParseTwoMarks}, {"2,,5", ParseTwoMarks},
		{"1/0", ParseFraction}, {"2/7", ParseFraction}, {"1/256", ParseFraction}, {"1 9/8", ParseFraction}, {"1.5 1/2", ParseFraction},
		{"5/64 mm", ParseFraction}, {"1/8 thou", ParseFraction},
		{"1/2", ParseAmbiguous}, {"2 1/4", ParseAmbiguous},
		{"2.5 cubits", ParseUnknownUnit}, {"2'", ParseUnknownUnit}, {"2 cm", ParseUnknownUnit}, {"2e", ParseUnknownUnit},
		{strings.Repeat("1", 25), ParseTooLong}, {strings.Repeat("é", 500), ParseTooLong}, {"2.25" + strings.Repeat(" ", 200), ParseTooLong},
	} {
		got, err := ParseLength(c.text, UnitMillimetre)
		var p *ParseError
		if !errors.As(err, &p) || p.Kind != c.want {
			t.Errorf("ParseLength(%q) = %v, %v; want kind %d", c.text, got, err, c.want)
			continue
		}
		if got != 0 || p.Error() == "" {
			t.Errorf("ParseLength(%q): a refusal carries no length and has a text", c.text)
		}
		seen[p.Kind] = true
	}
	for _, k := range ParseKinds() {
		if !seen[k] {
			t.Errorf("no text is refused as kind %d", k)
		}
	}
	if (&ParseError{Kind: 200}).Error() == "" {
		t.Error("an unknown kind must still have a text")
	}
}

func TestFormat(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{Length(2.25).Millimetres(0.05), "2.25"}, {Length(2.2749).Millimetres(0.05), "2.25"}, {Length(2.275).Millimetres(0.05), "2.30"},
		{Length(2.25).Millimetres(1), "2"}, {Length(2.5).Millimetres(1), "3"}, {Length(0.3).Millimetres(0.1), "0.3"},
		{Length(0.1 + 0.2).RoundUp(0.1).Millimetres(0.1), "0.3"}, {Length(-0.001).Millimetres(0.01), "0.00"}, {Length(-0.3).Millimetres(0.1), "-0.3"},
		{Length(1.505).Millimetres(0.001), "1.505"}, {Length(2.2606).Inches(Thousandth), "0.089"}, {Length(2.2606).Thousandths(), "89"},
		{Length(2.0).Thousandths(), "79"}, {Length(2.5).Thousandths(), "98"}, // 78.7402 and 98.4252 thousandths
		{SixtyFourth.Inches(SixtyFourth), "0.015625"}, {Length(3 * Inch / 32).Inches(Inch / 32), "0.09375"}, {Inch.Inches(Inch / 100), "1.00"},
		{Length(0).Millimetres(0), "0.000000"},
	} {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
	near(t, "2.0 mm in thousandths", Length(2.0)/Thousandth, 78.7402, 0.00005)
	near(t, "2.5 mm in thousandths", Length(2.5)/Thousandth, 98.4252, 0.00005)
}

func TestNearestSixtyFourthSaysWhatIsLeftOver(t *testing.T) {
	for _, c := range []struct {
		l                  Length
		inches, num, denom int
		remainder          Length
	}{
		{2.0, 0, 5, 64, 0.015625},      // 5/64 = 1.984375
		{2.5, 0, 3, 32, 0.118750},      // 6/64 = 2.381250
		{2.6, 0, 7, 64, -0.178125},     // 7/64 = 2.778125
		{25.4, 1, 0, 1, 0},             // one inch
		{44.45, 1, 3, 4, 0},            // 1 3/4
		{0, 0, 0, 1, 0},                //
		{-1, 0, 0, 1, -1},              // not for lengths below zero
		{1e9, 0, 0, 1, 1e9},            // nor for what no rule measures
		{0.198, 0, 0, 1, 0.198},        // under half of a 64th, 0.1984375
		{0.1985, 0, 1, 64, -0.1983750}, // over it: 0.396875 − 0.1985
	} {
		i, n, d, r := c.l.NearestSixtyFourth()
		if i != c.inches || n != c.num || d != c.denom {
			t.Errorf("%v: %d %d/%d, want %d %d/%d", c.l, i, n, d, c.inches, c.num, c.denom)
		}
		near(t, "remainder", r, c.remainder, 1e-9)
	}
}

func TestRoundingKeepsToItsSide(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for range 20000 {
		l := Length(rng.Float64() * 20)
		for _, step := range []Length{0.01, 0.05, 0.25, 1, Thousandth, SixtyFourth} {
			down, up, to := l.RoundDown(step), l.RoundUp(step), l.RoundTo(step)
			if down > l+1e-8 || up < l-1e-8 || up-down > step*1.0001 || to != down && to != up {
				t.Fatalf("%v by %v: down %v, to %v, up %v", l, step, down, to, up)
			}
			if math.Abs(float64(down.RoundDown(step)-down)) > 1e-12 || math.Abs(float64(up.RoundUp(step)-up)) > 1e-12 {
				t.Fatalf("%v by %v: rounding twice moves it", l, step)
			}
		}
	}
	for _, step := range []Length{0, -1, Length(math.NaN()), Length(math.Inf(1))} {
		if l := Length(2.345); l.RoundTo(step) != l || l.RoundDown(step) != l || l.RoundUp(step) != l {
			t.Errorf("a step of %v must leave a length alone", step)
		}
	}
	if Length(math.NaN()).Finite() || Length(math.Inf(-1)).Finite() || !Length(1).Finite() {
		t.Error("Finite")
	}
}

func TestParseAndFormatComeBack(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	for range 5000 {
		for _, step := range []Length{0.01, 0.05, 0.25, 0.5, 1} {
			l := Length(rng.IntN(1500)) * step
			near(t, "mm", must(ParseLength(l.Millimetres(step), UnitMillimetre)), l, 1e-9)
			near(t, "mm, comma", must(ParseLength(strings.Replace(l.Millimetres(step), ".", ",", 1), UnitMillimetre)), l, 1e-9)
		}
		for _, step := range []Length{Thousandth, Inch / 100, SixtyFourth, Inch / 32} {
			l := Length(rng.IntN(60)) * step
			near(t, "in", must(ParseLength(l.Inches(step), UnitInch)), l, 1e-9)
		}
		l := Length(rng.IntN(40)) * SixtyFourth
		i, n, d, r := l.NearestSixtyFourth()
		text := strconv.Itoa(i)
		if n > 0 {
			text = strconv.Itoa(n) + "/" + strconv.Itoa(d)
			if i > 0 {
				text = strconv.Itoa(i) + " " + text
			}
		}
		near(t, "64ths "+text, must(ParseLength(text, UnitInch))+r, l, 1e-9)
	}
}

func FuzzParseLength(f *testing.F) {
	for _, s := range []string{"", "2.25", "2,25", "2.25 mm", `.089"`, "0.089 in", "89 thou", "5/64", `5/64"`, "1 3/4 in", "1e3", "-1", "25", "0x1p4",
		"NaN", "1/0", "9999999/64", "1 1 1", "\xff\xfe2", "2\u00a0mm", "′′", "e", "1e", "..", "1/-2", "İ", strings.Repeat("9", 24), "5 / 64 in"} {
		f.Add(s, true)
		f.Add(s, false)
	}
	f.Fuzz(func(t *testing.T, text string, inch bool) {
		unit := UnitMillimetre
		if inch {
			unit = UnitInch
		}
		l, err := ParseLength(text, unit)
		if err != nil {
			var p *ParseError
			if !errors.As(err, &p) || int(p.Kind) >= len(ParseKinds()) || p.Error() == "" || l != 0 {
				t.Fatalf("ParseLength(%q) = %v, %v", text, l, err)
			}
			return
		}
		if !l.Finite() || l < 0 {
			t.Fatalf("ParseLength(%q) = %v with no error", text, l)
		}
		if !strings.ContainsAny(text, "0123456789") {
			t.Fatalf("ParseLength(%q) = %v from no digit", text, l)
		}
		if l < 10000 { // what was read can be written and read again
			if again, err := ParseLength(l.Millimetres(1e-6), UnitMillimetre); err != nil || math.Abs(float64(again-l)) > 1e-6 {
				t.Fatalf("ParseLength(%q) = %v, written and read again %v, %v", text, l, again, err)
			}
		}
	})
}
