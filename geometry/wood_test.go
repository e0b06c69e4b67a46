package geometry_test

import (
	"math"
	"slices"
	"testing"

	. "gapwright/geometry"
)

func TestWoodMoistureFollowsTheTable(t *testing.T) {
	for _, row := range table(t, "wood-moisture", 152) {
		f, humidity, want := number(t, row[0]), number(t, row[1]), number(t, row[2])
		got, err := WoodMoisture(humidity, (f-32)/1.8)
		if err != nil || math.Abs(got-want) > 0.055 {
			t.Errorf("%g %% at %g °F: %.3f, want %g (%v)", humidity, f, got, want, err)
		}
	}
}

// The formula by hand at 20 °C and 50 %: W = 349 + 25.8 + 5.4 = 380.2, K = 0.805 + 0.01472 − 0.001092 = 0.818628, K1 = 6.27 − 0.1876 − 0.1212 =
// 5.9612, K2 = 1.91 + 0.814 − 0.1172 = 2.6068; Kh = 0.409314: 0.692951 + (2.440003 + 5.207037)/(1 + 2.440003 + 2.603518) = 0.692951 + 1.265328;
// times 1800/380.2 = 4.734350: 9.2712.
func TestWoodMoistureByHand(t *testing.T) {
	if got, err := WoodMoisture(50, 20); err != nil || math.Abs(got-9.2711) > 1e-3 {
		t.Errorf("%v %v", got, err)
	}
}

func TestDamperAirIsDamperWood(t *testing.T) {
	for c := ColdestAir; c <= WarmestAir; c += 5 {
		last := 0.0
		for h := DriestAir; h <= DampestAir; h++ {
			m, err := WoodMoisture(h, c)
			if err != nil || m <= last || m > 30 {
				t.Fatalf("%g %% at %g: %g after %g, %v", h, c, m, last, err)
			}
			last = m
		}
	}
}

func TestAirThatCannotBe(t *testing.T) {
	for _, c := range []struct {
		h, t float64
		q    Quantity
	}{{0, 20, QuantityHumidity}, {101, 20, QuantityHumidity}, {math.NaN(), 20, QuantityHumidity}, {50, -11, QuantityCelsius}, {50, 51, QuantityCelsius},
		{50, math.Inf(1), QuantityCelsius}} {
		_, err := WoodMoisture(c.h, c.t)
		refused(t, "air", err, c.q)
	}
	seen := map[Quantity]bool{}
	for _, q := range slices.Concat(Quantities(), NeckQuantities(), WayQuantities(), AirQuantities()) {
		if q == "" || seen[q] {
			t.Errorf("%q twice", q)
		}
		seen[q] = true
	}
}
