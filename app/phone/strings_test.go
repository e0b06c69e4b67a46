package phone

import (
	"testing"

	"gapwright/app/job"
	"gapwright/app/words"
	"gapwright/geometry"
)

// strings opens the page of the strings of an instrument, by the Bench.
func (w *Walk) strings(name string) {
	w.t.Helper()
	w.Open("/")
	w.Tap(name)
	w.Waiting(name)
	w.Tap(words.AboutInstrument())
	w.Look()
	w.Tap(words.Change() + ": " + words.StringsTitle())
	w.On(words.StringsTitle())
}

// pulls fails unless the strings are said to pull like this, treble first.
func (w *Walk) pulls(want ...string) {
	w.t.Helper()
	for n, text := range want {
		w.Wait("the pull "+text, `document.querySelectorAll("main .row-line .soft")[`+words.Number(n)+`].textContent === "`+text+`"`)
	}
}

// A flat-top on 648 mm, by somebody who measures in inches. .012 in at E4 pulls 104.5313 N and .016 in at B3 104.2955 (both in the table of steel strings);
// of the typed weights (2Lf)²μ gives G3 64522.63·0.0013 = 83.8794, D3 36212.10·0.0022 = 79.6666, A2 20323.35·0.0040 = 81.2934, E2 11406.10·0.00547 =
// 62.3913: together 516.0575 N, 116.01 pounds of 4.448222 N.
func TestStrings(t *testing.T) {
	t.Parallel()
	w := StartWalk(t, "strings", Small)
	w.Open("/kit/")
	w.Tap(words.Inches())
	w.WaitSaved()
	w.Open("/")
	w.Tap(words.Family(geometry.FlatTop6))
	w.answer(job.AskSaddle, job.SaddleLoose)
	w.rule(job.Every64th)
	for _, course := range []int{0, 5} {
		w.Waiting(words.ReadTitle(guitar, course, false))
		w.Tap("#screen .button.main")
	}
	w.Waiting(words.MeasuredTitle())
	place := w.Place()

	guitar := words.Family(geometry.FlatTop6)
	w.strings(guitar)
	w.rows(words.TogetherLabel() + "; Not known yet; " + words.Missing(false))
	w.Type("#gauge-5", ".012")
	w.Press("Enter")
	w.focused("gauge-4")
	w.here(".016")
	w.makes("Treble string, E", 1)
	w.makes("String 2, B", 1)
	for _, name := range []string{"String 3, G", "String 4, D", "String 5, A", "Bass string, E"} {
		w.makes(name, 2)
	}
	w.pulls("105\u00a0N, 0.573\u00a0g/m from its diameter", "104\u00a0N, 1.02\u00a0g/m from its diameter", "Pull not known")
	w.Look()

	// What cannot be is said beside its field, and nothing is lost.
	w.Type("#gauge-3", "24")
	w.Tap(words.Keep())
	w.saidBeside("gauge-3", "24", "A string is between 0.004\u00a0in and 0.118\u00a0in thick. For thousandths, add thou: 12 thou.")
	w.focused("gauge-3")
	w.Holds("gauge-5", ".012")
	w.Type("#gauge-3", "24 thou")
	w.Tap(words.WeightsLabel())
	w.Type("#weight-3", "heavy")
	w.Tap(words.WeightsLabel())
	w.Tap(words.Keep())
	w.saidBeside("weight-3", "heavy", "Type grams per metre as the packet prints them, such as 0.57 or 5,47.")
	w.Type("#weight-3", "1.3")
	w.Press("Enter")
	w.focused("weight-2")
	w.here("2,2")
	w.Type("#weight-1", "4")
	w.Type("#weight-0", "5.47")
	w.pulls("105\u00a0N, 0.573\u00a0g/m from its diameter", "104\u00a0N, 1.02\u00a0g/m from its diameter", "84\u00a0N, as typed", "80\u00a0N, as typed", "81\u00a0N, as typed", "62\u00a0N, as typed")
	w.rows(words.TogetherLabel() + "; 516\u00a0N, about 116\u00a0lb; ")
	w.Tap(words.SidewaysLabel())
	w.Says("Treble string: 3.0\u00a0N moves it 0.1\u00a0in") // 104.5313/87.0912 = 1.20025 N/mm
	w.Look()
	w.Tap(words.Keep())

	// Nothing was said before: nothing is asked, and the readings stand.
	w.Waiting(guitar)
	w.Tap(words.AboutInstrument())
	w.rows(words.StringsTitle()+"; E A D G B E, 516\u00a0N", words.BridgeRow()+"; "+words.Bridge(job.BridgeSlot))
	w.Open(place)
	w.Waiting(words.MeasuredTitle())

	// Lowest a tone lower: E2 falls to 2^(−4/12) of it, 49.52 N; together 503.1862, 2.49 % less.
	w.strings(guitar)
	w.Holds("gauge-3", "24 thou")
	w.Tap(words.Tuning(job.TuningLowestToneLower))
	w.Sees("D A D G B E")
	w.Sees("50\u00a0N, as typed")
	w.rows(words.TogetherLabel() + "; 503\u00a0N, about 113\u00a0lb; ")
	w.Tap(words.Keep())
	w.On(words.NewStrings(-2.49, true).Title)
	w.Says("The strings now pull 2\u00a0% less.")
	w.Tap(words.Back())
	w.Waiting(words.StringsTitle())
	w.Tap(words.Keep())
	w.Tap(words.StringsCorrected())
	w.Waiting(guitar)
	w.Open(place)
	w.Waiting(words.MeasuredTitle())

	// A thicker treble, (13/12)² of 104.5313: 122.6791 N, 3.6 % more of all. It is on the instrument: read again.
	w.strings(guitar)
	w.Type("#gauge-5", ".013")
	w.Tap(words.Keep())
	w.On(words.NewStrings(3.6, true).Title)
	w.Says(words.NewStrings(3.6, true).Lead, "4\u00a0% harder")
	w.Tap(words.StringsAreNew() + " " + words.StringsAreNewNote())
	w.Waiting(guitar)
	w.WaitSaved()
	w.Open(place)
	w.Waiting(words.ReadTitle(job.Instrument{Family: geometry.FlatTop6}, 0, false))
}

// makes says that a string is of the first or second make.
func (w *Walk) makes(name string, which int) {
	w.t.Helper()
	w.Tap(`[aria-label="` + name + `"] .chip:nth-child(` + words.Number(which) + `)`)
}

// Nylon strings as published, normal pull on 650 mm: 68.68, 52.04, 54.27, 69.96, 67.26 and 62.78 N, together 374.985 N or 38.24 kilograms' weight.
func TestStringsAsPublished(t *testing.T) {
	t.Parallel()
	w := StartWalk(t, "strings-published", Tall.InTheDark())
	w.Tap(words.Family(geometry.Nylon))
	w.Waiting(words.Question(job.AskSaddle, job.Kit{}).Title)
	w.strings(words.Family(geometry.Nylon))
	w.Tap(words.Published(geometry.NylonNormal))
	w.pulls("69\u00a0N, 0.374\u00a0g/m as published", "52\u00a0N, 0.505\u00a0g/m as published", "54\u00a0N, 0.836\u00a0g/m as published", "70\u00a0N, 1.92\u00a0g/m as published", "67\u00a0N, 3.29\u00a0g/m as published",
		"63\u00a0N, 5.47\u00a0g/m as published")
	w.rows(words.TogetherLabel() + "; 375\u00a0N, about 38\u00a0kg; ")
	w.Look()

	// Any other tuning, string by string, and a capo, which leaves the pull as it is: the bass at F2, 2^(2/12) of 62.78, is 70.47 N.
	w.Tap(words.OtherTuning())
	w.Tap("Bass string: " + words.SemitoneHigher())
	w.Sees("F2")
	w.Tap(words.CapoLabel() + ": " + words.CapoHigher())
	w.Sees(words.Capo(1))
	w.Sees("70\u00a0N, 5.47\u00a0g/m as published")
	w.rows(words.TogetherLabel() + "; 383\u00a0N, about 39\u00a0kg; ") // 374.985 − 62.777 + 70.465 = 382.673
	w.Look()
	w.Tap(words.Keep())
	w.On(words.NewStrings(0, false).Title)
	w.Tap(words.StringsCorrected())
	w.Waiting(words.Family(geometry.Nylon))
	w.Tap(words.AboutInstrument())
	w.rows(words.StringsTitle()+"; F A D G B E, capo at fret 1, 383\u00a0N", words.BridgeRow()+"; "+words.Bridge(job.BridgeSlot))

	// The board: what no neck has is said beside its field.
	for _, bad := range [][3]string{
		{"body", "4", "No neck meets the body there. Choose a fret from 5 to 36."},
		{"last", "11", "The last fret is where the neck meets the body or beyond, 36 at most."},
		{"last", "many", words.WholeNumber()},
		{"radius", "3", "A board’s radius lies between 50\u00a0mm and 5000\u00a0mm."},
	} {
		w.Type("#"+bad[0], bad[1])
		w.Tap(words.Keep())
		w.saidBeside(bad[0], bad[1], bad[2])
		w.Type("#"+bad[0], "")
	}
	w.Type("#body", "12")
	w.Type("#last", "19")
	w.Type("#radius", "400")
	w.Tap(words.Keep())
	w.WaitSaved()
	w.Reload()
	w.Tap(words.AboutInstrument())
	w.Holds("body", "12")
	w.Holds("radius", "400")
}

// Twelve strings fit the page as well.
func TestStringsOfTwelve(t *testing.T) {
	t.Parallel()
	w := StartWalk(t, "strings-twelve", Small.InTheDark())
	w.Tap(words.Family(geometry.FlatTop12))
	w.Waiting(words.Question(job.AskSaddle, job.Kit{}).Title)
	w.strings(words.Family(geometry.FlatTop12))
	w.Type("#gauge-1", "0.3048")
	w.makes("Bass string, octave, E", 1)
	w.Sees("26\u00a0N, 0.573\u00a0g/m from its diameter") // .012 in at E3 pulls a quarter of 104.5313
	w.Look()
}
