package words

// HistoryName names the place.
func HistoryName() string { return "History" }
