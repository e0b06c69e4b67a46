package geometry

// The quantities of the air in a room.
const (
	QuantityHumidity   Quantity = "relative humidity"
	QuantityCelsius    Quantity = "temperature in degrees Celsius"
	QuantityFahrenheit Quantity = "temperature in degrees Fahrenheit"
)

// AirQuantities lists the quantities of the air, so that tests can ask for a name for each.
func AirQuantities() []Quantity {
	return []Quantity{QuantityHumidity, QuantityCelsius, QuantityFahrenheit}
}

// The air in which anybody sets up an instrument, in percent and degrees Celsius (common practice, no source).
const (
	DriestAir  = 1.0
	DampestAir = 100.0
	ColdestAir = -10.0
	WarmestAir = 50.0
)

// RoomTemperature is taken where nobody read the thermometer, in degrees Celsius: ten degrees change the moisture of wood by less than three
// percent of humidity do (common practice, no source).
const RoomTemperature = 20.0

// CheckAir tells whether air can be like that: humidity in percent, temperature in degrees Celsius. Error: *RangeError.
func CheckAir(humidity, celsius float64) error {
	if err := within(QuantityHumidity, humidity, DriestAir, DampestAir); err != nil {
		return err
	}
	return within(QuantityCelsius, celsius, ColdestAir, WarmestAir)
}

// WoodMoisture is the moisture, in percent of the dry wood's weight, towards which wood goes in air of that relative humidity (percent) and
// temperature (degrees Celsius). It takes days to weeks to get there, so it says where the wood is going, not where it is. Source: Hailwood and
// Horrobin 1946 with the constants of W. T. Simpson, Research Note FPL-RN-0268, Forest Products Laboratory, 1998, which holds for wood of any
// kind about as well. Error: *RangeError.
func WoodMoisture(humidity, celsius float64) (float64, error) {
	if err := CheckAir(humidity, celsius); err != nil {
		return 0, err
	}
	t := celsius
	w := 349 + 1.29*t + 0.0135*t*t
	k := 0.805 + 0.000736*t - 0.00000273*t*t
	k1 := 6.27 - 0.00938*t - 0.000303*t*t
	k2 := 1.91 + 0.0407*t - 0.000293*t*t
	kh := k * humidity / 100
	return 1800 / w * (kh/(1-kh) + (k1*kh+2*k1*k2*kh*kh)/(1+k1*kh+k1*k2*kh*kh)), nil
}
