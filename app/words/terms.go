package words

import "strings"

// terms are the words of the trade, in the order of the alphabet: the name, what it means, and how it is said (no way: as its name is).
var terms = [...][3]string{
	{"Action", "How high the strings stand over the frets. Here it is the gap from the top of a fret to the underside of a string.", "string height"},
	{"As set", "The heights at the end of a finished job. Later readings are held against them.", "as set|as-set"},
	{"Bass and treble", "The two sides of the strings: bass is that of the thick ones, treble that of the thin ones.", "bass|treble"},
	{"Blank", "A plain piece of bone or the like. A new saddle is made from it.", "from a blank|new blank|the blank on"},
	{"Board", "The part of the neck that the frets sit in.", "the board|boards|flat board|board’s"},
	{"Brace", "A strip of wood that is glued to the inside of the body and makes it stiff.", "brace"},
	{"Break angle", "How steeply a string bends down behind the saddle. Too flat, and it may buzz or slip.", "break angle|bend down|bear down|bends the strings"},
	{"Bridge", "The part on the body that holds the saddle, or that the strings rest on.", ""},
	{"Caliper", "A sliding gauge that reads small lengths. It also has a rod for depths.", ""},
	{"Capo", "A clamp that holds all strings down at a fret.", ""},
	{"Cents", "Hundredths of a half step. They tell how far a note is out of tune.", ""},
	{"Course", "One string, or a pair that is played as one.", "courses|per course|in courses"},
	{"Crown", "The curve of the saddle’s top. It should follow the curve of the board.", "saddle’s top|top’s curve|curve of the old saddle"},
	{"Feeler", "A thin strip of known thickness. Slid into a gap, it tells how wide the gap is.", ""},
	{"Floor", "The least height that the app plans for. Under it a string is likely to buzz.", "its floor.|beginner’s floor|the floor is|under its floor"},
	{"Fret", "A metal bar across the board. A string is pressed down just behind it.", ""},
	{"Gauge", "How thick a string is. A thicker one pulls harder at the same pitch.", "gauge"},
	{"Grit", "How coarse a sanding paper is: the greater its number, the finer it is. A P before it tells by which standard.", "grit|fine paper|finest paper|coarse paper"},
	{"Headroom", "How far a plucked string can swing before it touches a fret.", "room enough|enough room|least room"},
	{"Headstock", "The far end of the neck, where the strings are tuned.", ""},
	{"Hygrometer", "A dial that shows how damp the air is, in percent.", ""},
	{"Intonation", "Whether notes up the neck are in tune with the open string.", ""},
	{"Nut", "The slotted piece at the head end. Its slots hold the strings up at the low frets.", ""},
	{"Octave", "The same note, higher: at fret 12 a string sounds an octave above its open note.", ""},
	{"Open string", "A string that sounds at its full length, with no finger on it.", "open string|string open|open gap|each string open"},
	{"Pickup", "The part that turns the sound into a signal. It may lie under the saddle as a strip or a wire.", ""},
	{"Pitch", "The note that a string is tuned to. At pitch means in tune, at full pull.", ""},
	{"Radius", "How round the board is across. A small number is very round, a large one almost flat.", ""},
	{"Relief", "The slight forward bend of the neck. It gives the strings room to swing.", "relief|bent neck|bowed neck|neck’s bow|the bow"},
	{"Round", "Once through a job: take out, sand, put back, and measure.", "this round|another round|first round|last round|next round|more rounds"},
	{"Saddle", "The strip that the strings cross at the bridge. Sanding its underside lowers them all.", ""},
	{"Scale length", "Twice the way from the nut to fret 12. Every fret has its place by it.", ""},
	{"Setback", "How far the saddle stands behind the scale length. It helps the notes up the neck to be in tune.", ""},
	{"Settle", "To come to rest after a change. Steel strings need minutes, nylon and a neck up to a day.", "settle|settles|settling"},
	{"Slot", "A narrow groove. One in the bridge holds the saddle, those in the nut guide the strings.", ""},
	{"Strip, or shim", "A thin piece under the saddle. It lifts the strings, and can be taken out again.", "strip|shim"},
	{"Thread", "The groove round a screw. How steep it is tells how far one turn moves a string.", ""},
	{"Truss rod", "A rod inside the neck. It sets the relief, an eighth of a turn at a time.", "rod"},
	{"Wound string", "A string with wire wrapped round its core. A plain one is a single wire.", "wound"},
}

// Glossary explains the trade's words.
func Glossary() [][2]string { return told(func(string, string) bool { return true }) }

// Terms explains the trade's words that are in some texts.
func Terms(texts ...string) [][2]string {
	said := strings.ToLower(strings.Join(texts, "\n"))
	return told(func(name, ways string) bool {
		if ways == "" {
			ways = strings.ToLower(name)
		}
		for _, way := range strings.Split(ways, "|") {
			if saysWord(said, way) {
				return true
			}
		}
		return false
	})
}

func told(is func(name, ways string) bool) (all [][2]string) {
	for _, t := range terms {
		if is(t[0], t[2]) {
			all = append(all, [2]string{t[0], t[1]})
		}
	}
	return all
}

// saysWord tells whether a word, or several of one, is said, and not only a part of another word.
func saysWord(said, word string) bool {
	for {
		before, after, found := strings.Cut(said, word)
		if !found {
			return false
		}
		rest := strings.TrimPrefix(after, "s")
		if (before == "" || !letter(before[len(before)-1])) && (rest == "" || !letter(rest[0])) {
			return true
		}
		said = after
	}
}

func letter(b byte) bool { return b >= 'a' && b <= 'z' }

// TermsTitle heads the words that a screen uses.
func TermsTitle() string { return "Words used here" }
