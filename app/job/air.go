package job

// Degrees is a scale of temperature.
type Degrees string

// The two scales.
const (
	Celsius    Degrees = "C"
	Fahrenheit Degrees = "F"
)
