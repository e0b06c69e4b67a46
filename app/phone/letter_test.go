package phone

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"gapwright/app/job"
	"gapwright/app/view"
	"gapwright/app/words"
	"gapwright/geometry"
)

// paper prints the page on a sheet of that size, in millimetres, keeps it in build/screens for a person to look at, and gives the number of pages.
func (w *Walk) paper(name string, wide, high float64) int {
	w.t.Helper()
	ctx, cancel := context.WithTimeout(w.tab, Patience)
	defer cancel()
	result, err := chromedp.Call(ctx, page.PrintToPDF, page.PrintToPDFParams{Scale: 1, PaperWidth: wide / 25.4, PaperHeight: high / 25.4})
	if err != nil {
		w.t.Fatal(err)
	}
	folder := filepath.Join(Root(), "build", "screens")
	if err := os.MkdirAll(folder, 0o755); err != nil {
		w.t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(folder, name+".pdf"), result.Data, 0o644); err != nil {
		w.t.Fatal(err)
	}
	return len(regexp.MustCompile(`/Type\s*/Page\b[^s]`).FindAll(bytes.ReplaceAll(result.Data, []byte("\n"), []byte(" ")), -1))
}

// onPaper is what the page reads when it is printed.
func (w *Walk) onPaper() string {
	w.t.Helper()
	w.media("print")
	defer w.media("")
	return strings.Join(strings.Fields(w.Text()), " ")
}

// threadedM3 goes from the readings of a guitar with two M3 screws at each string, wanted at 1.80 and 1.45, to the first turn.
func (w *Walk) threadedM3() {
	w.t.Helper()
	w.Waiting(words.MeasuredTitle())
	w.Tap(words.Answer(job.AskStrings, job.StringsStay))
	w.Waiting(words.ChooseTitle())
	w.Tap(mm.AimFor(mark("1.80"), mark("1.45")))
	w.Waiting(mm.ThreadAsk(job.ByScrews, nil).Title)
	w.Tap("2")
	w.Tap("M3")
	w.Waiting(words.TurnPlanTitle(job.TurnGo))
	w.Tap(words.FollowTurns())
	w.Waiting(words.Question(job.AskWayUp, job.Kit{}).Title)
}

// A solid body with two M3 screws at each string: bass 2.25 to 2.50, treble 1.50 to 1.75; wanted 1.80 and 1.45. A turn is 0.25 at fret 12, so 2¼ and ¾ of
// a turn; the strings between lie 2, 1¾, 1¼ and 1 over theirs (0.495, 0.415, 0.335 and 0.255). The owner's letter is looked at, signed, printed and
// shared; the instrument's readings are handed out as a table.
func TestTheLetterToTheOwner(t *testing.T) {
	t.Parallel()
	w := StartWalk(t, "letter", Tall.InTheDark())
	i := job.Instrument{Family: geometry.SolidBody}
	w.turnable(i.Family, job.BridgeScrews, job.ByScrews)
	w.Tap(words.Answer(job.AskScrews, job.ScrewsFree))
	w.rule(job.EveryQuarter)
	w.forbid = notInch
	w.Waiting(words.ReadTitle(i, 0, false))
	w.toMark(2.25, 2.50)
	w.Waiting(words.ReadTitle(i, 5, false))
	w.toMark(1.50, 1.75)
	w.threadedM3()
	w.Tap(words.Answer(job.AskWayUp, job.WayUnsure))
	w.Waiting(words.TurnTitle(job.ByScrews))

	// Under way there is no letter.
	place := w.Place()
	id := place[strings.Index(place, "=")+1:]
	w.WaitSaved()
	w.Open(view.Link("", view.Letter, id))
	w.On(words.LetterName())
	w.Says(words.NoLetter(job.LetterNotYet))
	w.Open(place)
	w.Waiting(words.TurnTitle(job.ByScrews))
	w.Tap(words.TurnedAsShown())
	w.Waiting(words.ReadTitle(i, 0, true))
	w.Tap(words.MarkSeen(mark("1.75"), mark("2.00")))
	w.Waiting(words.ReadTitle(i, 5, true))
	w.Tap(words.MarkSeen(mark("1.25"), mark("1.50")))
	w.Waiting("There: as wanted")
	w.Tap(words.DoneButton())
	w.Waiting(words.SaveTitle())
	w.Tap(words.SaveButton())
	w.On(words.FinishedTitle())
	w.WaitSaved()
	w.Reload() // it lives in the journal alone now

	w.Tap(words.LetterName())
	w.On(words.LetterName())
	letter := []string{"Solid-body", "Bass string: 2¼ turns down; string 5: 2 turns down; string 4: 1⅝ turns down; string 3: 1⅜ turns down; string 2: 1 turn down; treble string: ¾ turn down.",
		"Bass string 2.25 to 2.50\u00a0mm 1.75 to 2.00\u00a0mm", "Treble string 1.50 to 1.75\u00a0mm 1.25 to 1.50\u00a0mm", "Wanted: 1.80 / 1.45\u00a0mm, and the readings show it.", words.Taller(30)}
	w.Says(letter...)
	w.Tap(words.SignLetter())
	w.Type("#closing", "Keep it in its case.")
	w.Type("#signed", "R. Quill")
	w.Sees("Keep it in its case. R. Quill")
	w.LookInto()
	w.Tap(words.SignLetter())

	// On paper there is the letter and nothing else, on one page of either size.
	w.run(`window.print = undefined`)
	w.Tap(words.PrintLetter())
	w.Sees(words.LetterUnprinted())
	w.run(`window.print = () => { window.printed = true }`)
	w.Tap(words.PrintLetter())
	w.Wait("the browser asked to print", `window.printed === true`)
	paper := w.onPaper()
	for _, text := range append(letter, "Keep it in its case. R. Quill") {
		if !strings.Contains(paper, spaced(text)) {
			t.Errorf("the paper does not say %q, it says %s", text, paper)
		}
	}
	for _, text := range []string{words.PrintLetter(), words.BenchName(), words.LetterName(), words.SignLetter(), words.LetterLead()} {
		if strings.Contains(paper, text) {
			t.Errorf("the paper says %q", text)
		}
	}
	if n := w.paper("letter-a4", 210, 297); n != 1 {
		t.Errorf("%d pages of A4", n)
	}
	if n := w.paper("letter-us", 8.5*25.4, 11*25.4); n != 1 {
		t.Errorf("%d pages of US letter", n)
	}

	// Where the system shares nothing the text is copied; where it does it gets text and picture.
	w.run(`Object.defineProperty(navigator, "clipboard", { configurable: true, value: { writeText: async text => { window.copied = text } } })`)
	w.Tap(words.CopyLetter())
	w.Sees(words.LetterCopied())
	copied := w.JS("window.copied").(string)
	w.run(`navigator.canShare = () => true; navigator.share = async data => { window.handed = data }`)
	w.Tap(words.SignLetter()) // drawn again
	w.Type("#closing", "Keep it in its case!")
	w.Tap(words.ShareLetter())
	w.Wait("the letter handed over", `window.handed !== undefined`)
	shared := w.JS("window.handed.text").(string)
	if strings.Replace(shared, "case!", "case.", 1) != copied || !strings.Contains(copied, "Bass string: before 2.25 to 2.50\u00a0mm, now 1.75 to 2.00\u00a0mm\n") {
		t.Errorf("copied was %q, shared was %q", copied, shared)
	}
	if got := w.JS(`window.handed.title + " " + window.handed.files.map(f => f.name + " " + f.type).join()`); got != "Solid-body letter.png image/png" {
		t.Errorf("handed over was %v", got)
	}
	// Two drawings of 320 × 192 with 12 round each, three times as fine: 1032 × 1260; what is drawn is neither empty nor black.
	looks := w.JS(`createImageBitmap(window.handed.files[0]).then(b => {
		const c = document.createElement("canvas"); c.width = b.width; c.height = b.height;
		const p = c.getContext("2d"); p.drawImage(b, 0, 0);
		const d = p.getImageData(0, 0, b.width, b.height).data; let white = 0, black = 0;
		for (let n = 0; n < d.length; n += 4) { if (d[n] > 250 && d[n+1] > 250 && d[n+2] > 250) white++; if (d[n] < 60 && d[n+1] < 60 && d[n+2] < 60) black++; }
		const all = d.length / 4; return [b.width, b.height, white / all > 0.5, black / all > 0.005 && black / all < 0.2].join(" ");
	})`)
	if looks != "1032 1260 true true" {
		t.Errorf("the picture handed over: %v", looks)
	}

	// As long as a letter gets: all strings, relief and every slot of the nut.
	w.run(`const table = document.querySelector(".letter tbody"), row = table.lastElementChild; for (let n = 0; n < 11; n++) table.append(row.cloneNode(true));
		const p = [...document.querySelectorAll(".letter section p")].pop(); for (let n = 0; n < 4; n++) p.after(p.cloneNode(true))`)
	if n := w.paper("letter-long", 8.5*25.4, 11*25.4); n != 1 {
		t.Errorf("a long letter has %d pages", n)
	}

	// The table of all readings, from the instrument's page.
	w.Tap(words.BenchName())
	w.Tap("#screen a.card-name")
	w.Waiting(words.Family(i.Family))
	w.run(`URL.createObjectURL = blob => { blob.text().then(text => window.table = text); return "#" }`)
	w.Tap(words.TableButton())
	w.Wait("the table", `window.table !== undefined`)
	table := strings.Split(w.JS("window.table").(string), "\r\n")
	if len(table) != 6 || !strings.HasSuffix(table[1], ",screws,Solid-body,height,6,12,,,a rule,2.25,2.50,2.25 mm,2.50 mm,,,,,,") {
		t.Errorf("the table: %q", table)
	}

	// Whose it is stands in the letter as soon as somebody says it.
	w.Tap(words.AboutInstrument())
	w.Type("#owner", "Ada Quill")
	w.Tap(words.KeepBelongs())
	w.WaitSaved()
	w.Open(view.Link("", view.Letter, id))
	w.Waiting(words.LetterName())
	w.Says("Solid-body For Ada Quill")
}
