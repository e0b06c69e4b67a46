package phone

import "testing"

// Every walk counts the words of every screen that it passes; this holds the counting itself.
func TestCountingWords(t *testing.T) {
	for text, want := range map[string]int{
		"":                                        0,
		"Take off at most 0.45\u00a0mm":           4,
		"A strip in a slot":                       5,
		"stop at 0.362\u00a0in, or fret 12":       4,
		"Light at 2.75, none at 3.00\u00a0mm":     4, // light, at, none, at
		"▲ Wait – don’t! ● − 2 +":                 2,
		"7/64 to 8/64\u00a0in. In tune":           3,
		"P400 or so, 40 to 60\u00a0%":             3,
		"Half-way, for a first time.":             5,
		"Millimetres mm in":                       2,
		"over one or more rounds (fret 12: open)": 7,
	} {
		if got := countWords(text); got != want {
			t.Errorf("%q has %d words, want %d", text, got, want)
		}
	}
}

// A screen with too many words is found, and what is folded, drawn or in the line above it is not counted.
func TestWordsOfAScreenAreCounted(t *testing.T) {
	t.Parallel()
	w := StartWalk(t, "words", Small)
	w.JS(`document.body.innerHTML = '<main><div class="where"><p>not counted</p></div><h1>One</h1><svg><text>no</text></svg><p hidden>no</p>' +
		'<details><summary>two</summary><p>no no</p></details><button>three 4 mm</button></main>'`)
	if got := w.firstView(); got != "One two three 4 mm" {
		t.Errorf("the first view is %q", got)
	}
	if n := countWords(w.firstView()); n != 3 {
		t.Errorf("it has %d words, want 3", n)
	}
}
