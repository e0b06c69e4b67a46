package words

// CheckName names the place.
func CheckName() string { return "Check it now" }
