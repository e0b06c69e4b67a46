package geometry

import "math"

// Angle is radians.
type Angle float64

// Degrees writes the angle in degrees.
func (a Angle) Degrees() float64 { return float64(a) * 180 / math.Pi }

// BreakAngle is how steeply the string bends over the saddle: atan(exposure / distance), the distance being measured along the top from the
// saddle to where the string really leaves (hole, slot or ramp), 1 to 60 mm. Source: plane geometry; strings lie flat on the way.
func BreakAngle(exposure, distance Length) (Angle, error) {
	if err := within(QuantityExposure, float64(exposure), 0, 20); err != nil {
		return 0, err
	}
	if err := within(QuantityDistance, float64(distance), 1, 60); err != nil {
		return 0, err
	}
	return breakAngle(exposure, distance), nil
}

func breakAngle(exposure, distance Length) Angle {
	return Angle(math.Atan2(float64(exposure), float64(distance)))
}

const (
	degree          = math.Pi / 180
	angleHair Angle = 1e-9 // below which two angles are the same
)
