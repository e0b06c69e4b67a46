package words

// CodeName names the place.
func CodeName() string { return "Hand to another phone" }

// ReceiveName names the reader of what another phone shows.
func ReceiveName() string { return "Take over from another phone" }
