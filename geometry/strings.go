package geometry

import "math"

// Tension is newtons.
type Tension float64

// PoundForce is one pound-force: 0.45359237 kg (yard and pound agreement of 1 July 1959) × 9.80665 m/s².
const PoundForce Tension = 0.45359237 * 9.80665

// UnitWeight is a string's mass per length in kilograms per metre.
type UnitWeight float64

// WeightSource tells where a string's weight per length comes from.
type WeightSource uint8

// Where from.
const (
	WeightUnknown WeightSource = iota
	FromDiameter               // worked out from diameter and density: plain steel only
	Typed                      // what the string's maker prints or the person weighed
	Published                  // from a paper: see NylonSets
)

// WeightSources lists every source, so that tests can ask for a word for each.
func WeightSources() []WeightSource {
	return []WeightSource{WeightUnknown, FromDiameter, Typed, Published}
}

// Density is kilograms per cubic metre, Modulus (of elasticity) pascals.
type (
	Density float64
	Modulus float64
)

// Plain string steel. Density: 7800 to 7900 in what could be read (a material page on music wire, handbooks, a textbook); 7850 is the
// middle. Modulus: 190 GPa on the material page for music wire ASTM A228, 203 to 207 GPa in spring handbooks (from memory): carried as
// a band.
const (
	SteelDensity     Density = 7850
	SteelModulusLow  Modulus = 190e9
	SteelModulusHigh Modulus = 207e9
)

// Strung is one string brought up to pitch.
type Strung struct {
	Scale  Length    // 200 to 1200 mm
	Pitch  Frequency // open, 10 to 5000 Hz
	Weight UnitWeight
	From   WeightSource
	// Stretch is the factor κ by which tension rises with strain: κ = A·E/T, 1 to 10 000. Zero: not known, then nothing is told of its
	// pitch when stopped.
	Stretch Band
	// Stiff is the radius of what resists bending: of a plain string its own, of a wound steel one the core's. Zero: not known,
	// stiffness left out.
	Stiff Length
}

const (
	leastWeight UnitWeight = 1e-5
	mostWeight  UnitWeight = 0.1
	mostStretch            = 10000
)

func (s Strung) check() error {
	err := within(QuantityScale, float64(s.Scale), float64(ShortestScale), float64(LongestScale))
	if err == nil {
		err = within(QuantityFrequency, float64(s.Pitch), lowestPitch, highestPitch)
	}
	if err == nil {
		err = within(QuantityUnitWeight, float64(s.Weight), float64(leastWeight), float64(mostWeight))
	}
	return err
}

// RoundWeight is the weight per length of a plain round string, 0.1 to 3 mm thick, of a density of 500 to 20 000 kg/m³: ρπD²/4. Errors:
// *RangeError.
//
// Nylon and its like weigh up to 15 % less than this gives for their printed diameter (NylonSets against 1070 kg/m³ and more): take their
// weight as typed or published.
func RoundWeight(diameter Length, density Density) (UnitWeight, error) {
	err := within(QuantityDiameter, float64(diameter), 0.1, 3)
	if err == nil {
		err = within(QuantityDensity, float64(density), 500, 20000)
	}
	if err != nil {
		return 0, err
	}
	d := float64(diameter) / 1000
	return UnitWeight(float64(density) * math.Pi * d * d / 4), nil
}

// PlainSteel is a plain steel string of the given diameter at pitch: weight, stretch and stiffness from the diameter. Errors:
// *RangeError.
func PlainSteel(diameter, scale Length, pitch Frequency) (Strung, error) {
	weight, err := RoundWeight(diameter, SteelDensity)
	if err != nil {
		return Strung{}, err
	}
	s := Strung{Scale: scale, Pitch: pitch, Weight: weight, From: FromDiameter, Stiff: diameter / 2}
	if err := s.check(); err != nil {
		return Strung{}, err
	}
	low, err := RoundStretch(SteelModulusLow, SteelDensity, scale, pitch)
	if err != nil {
		return Strung{}, err
	}
	s.Stretch = Band{low, low * float64(SteelModulusHigh/SteelModulusLow)}
	return s, nil
}

// Tension is (2·L·f)²·μ. Errors: *RangeError, also for a weight per length that is not known. Source: a string without stiffness, any
// textbook.
func (s Strung) Tension() (Tension, error) {
	if err := s.check(); err != nil {
		return 0, err
	}
	v := 2 * float64(s.Scale) / 1000 * float64(s.Pitch)
	return Tension(v * v * float64(s.Weight)), nil
}

// TotalTension is the tension of all strings together, up to twelve. Errors: ErrTooMany, and those of the first string whose own is not
// known.
func TotalTension(strings []Strung) (Tension, error) {
	if len(strings) > mostStrings {
		return 0, ErrTooMany
	}
	total := Tension(0)
	for _, s := range strings {
		t, err := s.Tension()
		if err != nil {
			return 0, err
		}
		total += t
	}
	return total, nil
}

// Sideways is how hard the open string resists being pulled across at a distance from the saddle of more than 0 and less than the
// scale, in newtons per metre: T·L/(p(L − p)). A force F displaces it by F over this. Errors: *RangeError. Source: statics of a string
// without stiffness.
func (s Strung) Sideways(at Length) (newtonsPerMetre float64, err error) {
	t, err := s.Tension()
	if err != nil {
		return 0, err
	}
	if !(at > 0 && at < s.Scale) {
		return 0, &RangeError{QuantityPluckAt, float64(at), 0, float64(s.Scale)}
	}
	return 1000 * float64(t) * float64(s.Scale/(at*(s.Scale-at))), nil
}

// Bend is the frequency of the string when what sounds of it, 10 mm to the scale, is pushed sideways at one end, 0 to 50 mm: f = √((EA
// + cos θ·(T − EA))/μ)/2l, tan θ = sideways/l, EA = κ·T. Given at both ends of what is known of the stretch. Errors: ErrNoStretch,
// *RangeError.
//
// Source: tension T + EA(1/cos θ − 1), mass per length μ·cos θ, length l/cos θ (derived); the form that Grimes, PLoS ONE 9 (2014)
// e102088, is known for (from memory).
func (s Strung) Bend(sounding, sideways Length) (low, high Frequency, err error) {
	t, err := s.Tension()
	if err == nil {
		err = within(QuantityLength, float64(sounding), 10, float64(s.Scale))
	}
	if err == nil {
		err = within(QuantitySideways, float64(sideways), 0, 50)
	}
	if err == nil {
		err = s.stretchKnown()
	}
	if err != nil {
		return 0, 0, err
	}
	cos := math.Cos(math.Atan2(float64(sideways), float64(sounding)))
	bent := func(kappa float64) Frequency {
		ea := kappa * float64(t)
		return Frequency(math.Sqrt((ea+cos*(float64(t)-ea))/float64(s.Weight)) / (2 * float64(sounding) / 1000))
	}
	return bent(s.Stretch.Low), bent(s.Stretch.High), nil
}

func (s Strung) stretchKnown() error {
	if s.Stretch == (Band{}) {
		return ErrNoStretch
	}
	if err := within(QuantityStretch, s.Stretch.Low, 1, mostStretch); err != nil {
		return err
	}
	return within(QuantityStretch, s.Stretch.High, s.Stretch.Low, mostStretch)
}

// RoundStretch is the factor κ of a plain string: E/(ρ·(2Lf)²), whatever its diameter; the modulus 0.5 to 500 GPa. Errors: *RangeError,
// also for a factor beyond 1 to 10 000. Source: κ = A·E/T with T = (2Lf)²·ρA. Not for nylon: its modulus depends on tension, age and
// speed.
func RoundStretch(modulus Modulus, density Density, scale Length, pitch Frequency) (float64, error) {
	err := within(QuantityModulus, float64(modulus), 0.5e9, 500e9)
	if err == nil {
		err = within(QuantityDensity, float64(density), 500, 20000)
	}
	if err == nil {
		err = within(QuantityScale, float64(scale), float64(ShortestScale), float64(LongestScale))
	}
	if err == nil {
		err = within(QuantityFrequency, float64(pitch), lowestPitch, highestPitch)
	}
	if err != nil {
		return 0, err
	}
	v := 2 * float64(scale) / 1000 * float64(pitch)
	kappa := float64(modulus) / (float64(density) * v * v)
	return kappa, within(QuantityStretch, kappa, 1, mostStretch)
}

// MeasuredStretch is the factor κ = 2R + 1 of a string whose frequency was measured to rise by R = (L/f)·df/dL, 0 to 1000, as it was
// stretched by length. Errors: *RangeError. Source: Anderson and Beausoleil, J. Acoust. Soc. Am. 156 (2024) 683.
func MeasuredStretch(r float64) (float64, error) {
	if err := within(QuantityStretch, r, 0, 1000); err != nil {
		return 0, err
	}
	return 2*r + 1, nil
}
