package job

import (
	"errors"
	"slices"
	"strconv"
	"strings"
	"time"

	"gapwright/geometry"
)

// Degrees is a scale of temperature.
type Degrees string

// The two scales.
const (
	Celsius    Degrees = "C"
	Fahrenheit Degrees = "F"
)

// Scales lists them.
func Scales() []Degrees { return []Degrees{Celsius, Fahrenheit} }

// Refusals of air.
var (
	ErrHumidity    = errors.New("not a humidity in whole percent")
	ErrTemperature = errors.New("not a temperature in one of the two scales")
)

// AirRefusals lists the refusals of air, so that tests can ask for a sentence for each.
func AirRefusals() []error { return []error{ErrHumidity, ErrTemperature} }

// HumidityOf reads a relative humidity as it was typed, in whole percent; nothing typed is 0: not read. Errors: ErrHumidity, *geometry.RangeError.
func HumidityOf(text string) (int, error) {
	text = strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(text), "%"))
	if text == "" {
		return 0, nil
	}
	n, err := strconv.Atoi(text)
	if err != nil {
		return 0, ErrHumidity
	}
	return n, geometry.CheckAir(float64(n), geometry.RoomTemperature)
}

// Given tells whether anything was read at all.
func (f Aired) Given() bool { return f.Humidity != 0 || f.Temperature != "" }

// Degrees is the temperature in its own scale; zero when it was not read. Error: ErrTemperature.
func (f Aired) Degrees() (float64, error) {
	text := strings.TrimSpace(f.Temperature)
	if text == "" {
		return 0, nil
	}
	digits := strings.Replace(strings.Replace(text, ",", ".", 1), "−", "-", 1)
	if strings.Trim(digits, "-+.0123456789") != "" || len(digits) > 8 { // neither an exponent nor what is no number
		return 0, ErrTemperature
	}
	d, err := strconv.ParseFloat(digits, 64)
	if err != nil || f.Scale != Celsius && f.Scale != Fahrenheit {
		return 0, ErrTemperature
	}
	return d, nil
}

// Celsius is the temperature in degrees Celsius; ok is false when it was not read.
func (f Aired) Celsius() (celsius float64, ok bool) {
	d, err := f.Degrees()
	if f.Scale == Fahrenheit {
		d = (d - 32) / 1.8
	}
	return d, err == nil && strings.TrimSpace(f.Temperature) != ""
}

// Check tells whether the air of a room can be like that. Errors: ErrTemperature, *geometry.RangeError with the limits in the scale that was used.
func (f Aired) Check() error {
	if f.Humidity != 0 {
		if err := geometry.CheckAir(float64(f.Humidity), geometry.RoomTemperature); err != nil {
			return err
		}
	}
	d, err := f.Degrees()
	if err != nil {
		return err
	}
	celsius, read := f.Celsius()
	if !read || geometry.CheckAir(geometry.DampestAir, celsius) == nil {
		return nil
	}
	out := &geometry.RangeError{Quantity: geometry.QuantityCelsius, Got: d, Min: geometry.ColdestAir, Max: geometry.WarmestAir}
	if f.Scale == Fahrenheit {
		out.Quantity, out.Min, out.Max = geometry.QuantityFahrenheit, 32+1.8*geometry.ColdestAir, 32+1.8*geometry.WarmestAir
	}
	return out
}

// WoodMoisture is the moisture towards which wood goes in that air, in percent; at the usual temperature of a room where none was read. ok is
// false without a humidity.
func (f Aired) WoodMoisture() (percent float64, ok bool) {
	celsius, read := f.Celsius()
	if !read {
		celsius = geometry.RoomTemperature
	}
	percent, err := geometry.WoodMoisture(float64(f.Humidity), celsius)
	return percent, f.Humidity != 0 && err == nil
}

// Room is what was last said of the air in the room; ok is false when nothing was, or it was taken back.
func (r Record) Room() (air Aired, ok bool) {
	return r.air, r.air.Given()
}

// airOf is the air of a reading taken at that time: what was said within a day of it; nil when nothing was.
func (s *state) airOf(read time.Time) *Aired {
	if !s.air.Given() || between(s.airAt, read) > TooOld {
		return nil
	}
	air := s.air
	return &air
}

// UsualDegrees is the scale in which the air was last read on this instrument, or the one that goes with the person's unit.
func (r Record) UsualDegrees() Degrees {
	if slices.Contains(Scales(), r.air.Scale) {
		return r.air.Scale
	}
	if set := r.Instrument.AsSet; set != nil && set.Air != nil && slices.Contains(Scales(), set.Air.Scale) {
		return set.Air.Scale
	}
	if r.Kit.Unit == Inch {
		return Fahrenheit
	}
	return Celsius
}
