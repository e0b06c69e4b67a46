package geometry

import "math"

// DriftPoint is one gap and the relative humidity of the air, in percent, in which it was read. Only readings with the same Setting belong
// together: whatever was done to the instrument between two of them is no drift.
type DriftPoint struct {
	Setting  int
	Humidity float64
	Gap      Interval
}

// DriftVerdict is what an instrument's own readings say of its gap and the air.
type DriftVerdict uint8

// The verdicts.
const (
	DriftTooFew   DriftVerdict = iota // fewer than four readings that can be compared
	DriftSameAir                      // the humidity hardly varied
	DriftCannotBe                     // what moved, if anything did, is within what the readings leave open
	DriftHigher                       // the gap is larger in damp air
	DriftLower                        // the gap is smaller in damp air
)

// DriftVerdicts lists the verdicts, so that tests can ask for a sentence for each.
func DriftVerdicts() []DriftVerdict {
	return []DriftVerdict{DriftTooFew, DriftSameAir, DriftCannotBe, DriftHigher, DriftLower}
}

// Drift is how a gap goes with the air.
type Drift struct {
	Verdict  DriftVerdict
	Readings int     // that can be compared with another of the same setting
	Dry      float64 // the driest and the dampest air among them, in percent
	Damp     float64
	PerTen   Interval // by how much the gap changes for ten percent more humidity, at about 95 % confidence; only with DriftHigher and DriftLower
}

// LeastDriftReadings is how many readings a trend needs at least, and LeastDriftAir by how many percent the humidity must differ within one
// setting: household hygrometers are off by some percent each (common practice, no source).
const (
	LeastDriftReadings = 4
	LeastDriftAir      = 10.0
)

// DriftOf looks for a trend of the gap with the humidity: a straight line of one slope for all settings and of any height for each, by least
// squares through the middles. What the slope may be off by is the larger of two: what the readings' own intervals leave open (JCGM 100:2008,
// 4.3.7 and 5.1.2, with k = 2), and what the middles scatter about the line (G.3, Student's t for the freedom that is left). No trend is claimed
// from fewer than LeastDriftReadings, from air that hardly varied, where the slope is not different from nothing, or where one height for each
// setting lies in all of its readings. Errors: *RangeError for humidity outside DriestAir to DampestAir or a gap outside 0 to LargestGap.
func DriftOf(points []DriftPoint) (Drift, error) {
	count := map[int]int{}
	for _, p := range points {
		if err := within(QuantityHumidity, p.Humidity, DriestAir, DampestAir); err != nil {
			return Drift{}, err
		}
		if err := reading(QuantityGap, p.Gap, 0, LargestGap); err != nil {
			return Drift{}, err
		}
		count[p.Setting]++
	}
	var paired []DriftPoint
	for _, p := range points {
		if count[p.Setting] > 1 {
			paired = append(paired, p)
		}
	}
	d := Drift{Readings: len(paired)}
	air, still := 0.0, true
	for i, p := range paired {
		if i == 0 {
			d.Dry, d.Damp = p.Humidity, p.Humidity
		}
		d.Dry, d.Damp = min(d.Dry, p.Humidity), max(d.Damp, p.Humidity)
		for _, q := range paired[:i] {
			if p.Setting == q.Setting {
				_, meet := p.Gap.Meet(q.Gap) // intervals of which every two meet have a height in common
				air, still = max(air, math.Abs(p.Humidity-q.Humidity)), still && meet
			}
		}
	}
	slope := slopeOf(paired)
	switch {
	case len(paired) < LeastDriftReadings || slope.freedom < 2:
		return d, nil
	case air < LeastDriftAir:
		d.Verdict = DriftSameAir
		return d, nil
	}
	d.Verdict = DriftCannotBe
	give := max(2*slope.read, student95(slope.freedom)*slope.scatter)
	if still || math.Abs(slope.slope) <= give {
		return d, nil
	}
	d.Verdict = DriftHigher
	if slope.slope < 0 {
		d.Verdict = DriftLower
	}
	d.PerTen = Interval{Length(slope.slope - give), Length(slope.slope + give)}.Times(10)
	return d, nil
}

// fittedSlope is a common slope, in millimetres a percent, and its standard uncertainty: what the readings' widths make of it and what the scatter of
// their middles does.
type fittedSlope struct {
	slope, read, scatter float64
	freedom              int
}

// slopeOf fits one slope to all settings. Where no humidity differs within a setting it is zero.
func slopeOf(points []DriftPoint) fittedSlope {
	type mean struct{ n, x, y float64 }
	means := map[int]mean{}
	for _, p := range points {
		m := means[p.Setting]
		means[p.Setting] = mean{m.n + 1, m.x + p.Humidity, m.y + float64(p.Gap.Middle())}
	}
	across := func(p DriftPoint) (x, y float64) {
		m := means[p.Setting]
		return p.Humidity - m.x/m.n, float64(p.Gap.Middle()) - m.y/m.n
	}
	sxx, sxy := 0.0, 0.0
	for _, p := range points {
		x, y := across(p)
		sxx, sxy = sxx+x*x, sxy+x*y
	}
	f := fittedSlope{freedom: len(points) - len(means) - 1}
	if sxx < 1e-9 {
		return f
	}
	f.slope = sxy / sxx
	left := 0.0
	for _, p := range points {
		x, y := across(p)
		left += (y - f.slope*x) * (y - f.slope*x)
		u := x / sxx * float64(p.Gap.StandardUncertainty())
		f.read += u * u
	}
	f.read = math.Sqrt(f.read)
	if f.freedom > 0 {
		f.scatter = math.Sqrt(left / float64(f.freedom) / sxx)
	}
	return f
}

// student95 is Student's t for a confidence of 95 % and 1 or more degrees of freedom: between the rows of the table the larger value. Source:
// JCGM 100:2008, table G.2.
func student95(freedom int) float64 {
	t := math.Inf(1)
	for _, row := range student {
		if freedom >= row.freedom {
			t = row.t
		}
	}
	return t
}

var student = [...]struct {
	freedom int
	t       float64
}{{1, 12.71}, {2, 4.30}, {3, 3.18}, {4, 2.78}, {5, 2.57}, {6, 2.45}, {7, 2.36}, {8, 2.31}, {9, 2.26}, {10, 2.23}, {12, 2.18}, {15, 2.13}, {20, 2.09}, {25, 2.06},
	{30, 2.04}, {40, 2.02}}
