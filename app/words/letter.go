package words

// LetterName names the place.
func LetterName() string { return "Letter for the owner" }
