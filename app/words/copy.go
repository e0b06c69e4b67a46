package words

// CopyName names the place.
func CopyName() string { return "Backup" }
