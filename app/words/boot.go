package words

// The sentences of the page around the app: what is read before Go runs, after it has stopped, and on the home screen.

// AppName is the name of the app, wherever it is shown.
func AppName() string { return "Gapwright" }

// AppDescription says in one sentence what the app is for.
func AppDescription() string {
	return "Set the string height of a fretted instrument. Measure the gap, work out the cut, sand safely, prove it and keep the record."
}

// Language is the language the sentences are written in, as a page names it.
func Language() string { return "en-GB" }

// Loading names the bar that is shown while the app is fetched.
func Loading() string { return "Loading" }

// Stopped is shown when the app has ended by itself through a fault of its own.
func Stopped() string {
	return "The app has stopped because of a fault of its own. What was marked saved is kept. Reload to go on where you were."
}

// LoadFailed is shown when the app did not arrive whole.
func LoadFailed() string {
	return "The app did not load whole. Look at the connection, then reload. Your records on this device are untouched."
}

// CannotRun is shown in a browser that is too old for the app.
func CannotRun() string {
	return "This browser cannot run the app: it has no WebAssembly, or blocks it. Update the browser, or use another one."
}

// NoScript is shown where script is switched off.
func NoScript() string {
	return "This app runs in the browser itself and needs JavaScript. Allow it for this page, then reload."
}

// Reload is the button that starts the app again.
func Reload() string { return "Reload" }

// Pictured says what a picture of the app shows, by its file's name; "" for one that nobody knows.
func Pictured(name string) string {
	return map[string]string{
		"1-measure": "Where to stand the rule, and which mark to read",
		"2-ask":     "One question at a time, each with its picture",
		"3-bench":   "The bench: jobs under way and instruments",
	}[name]
}
