package phone

import (
	"bytes"
	"compress/zlib"
	"context"
	"fmt"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"gapwright/app/job"
	"gapwright/app/words"
	"gapwright/geometry"
)

// begin goes from the first screen to the first question of a method, on an instrument of that family.
func (w *Walk) begin(i job.Instrument, m job.Method) {
	w.t.Helper()
	w.Waiting(words.FamilyQuestion().Title)
	w.Tap(words.Family(i.Family))
	w.Waiting(words.Question(job.AskSaddle, job.Kit{}).Title)
	w.Open("/")
	w.Tap(".card-name")
	w.Tap(words.OtherWork())
	w.On(words.WorkQuestion(job.BridgeSlot).Title)
	label, note := words.Work(m)
	w.Tap(label + " " + note)
}

// fields types into fields, in order.
func (w *Walk) fields(texts ...string) {
	w.t.Helper()
	for n := 0; n < len(texts); n += 2 {
		w.Type("#"+texts[n], texts[n+1])
	}
	w.Tap(words.GoOn())
}

// A six-string whose strings are too low gets another saddle. Bass 1.50 to 1.75 and treble 1.25 to 1.50 by a rule in quarter millimetres, wanted 2.40 and
// 1.85: up by (2.40 − 1.75) × 2 = 1.30 to 1.80, and by 0.70 to 1.20. The old one stands 4.5 and 4.0 over the wood in a slot 8.5 deep, each give or take
// 0.13: 12.74 to 13.26 and 12.24 to 12.76 in all. So 14.04 to 15.06 and 12.94 to 13.96, and 0.10 on top for the fine paper.
func TestANewSaddle(t *testing.T) {
	t.Parallel()
	w := StartWalk(t, "new-saddle", Small)
	w.begin(guitar, job.NewSaddle)
	w.answer(job.AskSaddle, job.SaddleLoose)
	w.rule(job.EveryQuarter)
	for _, gap := range []struct {
		course   int
		low, top geometry.Length
	}{{0, 1.50, 1.75}, {5, 1.25, 1.50}} {
		w.On(words.ReadTitle(guitar, gap.course, false))
		w.toMark(gap.low, gap.top)
	}
	w.On(words.MeasuredTitle())
	w.Tap(words.Answer(job.AskStrings, job.StringsStay))
	w.On(words.ChooseTitle())
	w.Tap("#aim")
	w.answer(job.AskRoom, job.RoomFine)

	w.On(words.SlotAsk().Title)
	w.refused("slot-length", "wide", wrongOf(words.LengthSize, "wide", false))
	w.Type("#slot-length", "7.2")
	w.Tap(words.GoOn())
	w.saidBeside("slot-length", "7.2", mm.Error(&geometry.RangeError{Quantity: geometry.QuantitySaddle, Got: 7.2, Min: 20, Max: 150}))
	w.fields("slot-length", "72", "slot-width", "3", "slot-depth", "8.5")
	w.On(words.AcrossAsk().Title)
	w.refused("radius", "", wrongOf(words.RadiusSize, "", false))
	w.fields("radius", "400")

	// Not known is an answer, and no plan.
	w.On(words.OldAsk(false).Title)
	w.Tap(words.IDontKnow())
	w.On(words.BlankTitle(job.Making{}))
	w.Read(words.Numbers(), mm.BlankAcross(job.Making{Shaped: true, NewSaddle: geometry.NewSaddle{Radius: 400}}), words.AsUsual(job.Measured{Relief: true}))
	w.Tap(words.MeasureOld())
	w.On(words.OldAsk(false).Title)
	w.Tap(words.InAll())
	w.Sees(words.OldAsk(true).Lead)
	w.Look()
	w.Tap(words.OverTheWood())
	w.Sees(words.OldAsk(false).Lead)
	w.Type("#old-0", "4.5")
	w.refused("old-1", "40", mm.Error(&geometry.RangeError{Quantity: geometry.QuantityExposure, Got: 40, Min: 0, Max: 18}))
	w.fields("old-1", "4")
	made := job.Making{NewSaddle: geometry.NewSaddle{Known: true}, Whole: true}
	w.On(words.BlankTitle(made))
	w.ends("15.20\u00a0mm", "14.10\u00a0mm")
	w.Says(mm.BlankLead(made))
	w.Tap(words.Numbers())
	w.Says("14.00 to 15.10\u00a0mm", "12.90 to 14.00\u00a0mm", mm.BlankLength(geometry.Interval{High: 71.77})) // 72 - 0.13 - 0.10
	w.LookInto()
	w.Tap(words.Numbers())
	w.Read(words.BlankOrder(), words.BlankStep(geometry.BlankThickness), words.BlankStep(geometry.BlankPolish))
	w.WaitSaved()
	w.Reload()
	w.Waiting(words.BlankTitle(made))
	w.Tap(words.FollowBlank())
	w.answer(job.AskUnder, job.UnderShim)

	// The saddle is out: the order of work, part by part.
	w.On(words.StripCounts().Title)
	w.Tap(words.StripBack())
	w.On(words.MakeTitle())
	w.Says(words.StepCaution(job.Sand), mm.BlankDo(geometry.BlankThickness, job.Making{Fits: true, NewSaddle: geometry.NewSaddle{Thickness: geometry.Interval{High: 3.125}}}))
	w.Tap(words.BlankStep(geometry.BlankThickness))
	w.Sees(mm.BlankDo(geometry.BlankLength, job.Making{Sized: true, NewSaddle: geometry.NewSaddle{Length: geometry.Interval{High: 71.77}}}))
	w.Tap(words.BlankStep(geometry.BlankLength))
	w.Sees(mm.BlankDo(geometry.BlankUnderside, job.Making{}))
	w.Look()
	w.WaitSaved()
	w.Reload() // a phone that was locked for long: no tick is lost
	w.Sees(mm.BlankDo(geometry.BlankUnderside, job.Making{}))
	w.Tap(words.BlankStep(geometry.BlankLength))
	w.Sees(mm.BlankDo(geometry.BlankLength, job.Making{Sized: true, NewSaddle: geometry.NewSaddle{Length: geometry.Interval{High: 71.77}}}))

	w.drawing()

	w.Tap(words.Back())
	w.Waiting(words.MakeTitle())
	w.Tap(words.Made())
	w.back()
	// Proud by a mark: kept, and then lowered by a job of its own.
	for _, gap := range []struct {
		course   int
		low, top geometry.Length
	}{{0, 2.75, 3.00}, {5, 2.00, 2.25}} {
		w.On(words.ReadTitle(guitar, gap.course, true))
		w.toMark(gap.low, gap.top)
	}
	w.On("Still higher than wanted")
	w.Says(words.PlayOrSand(job.NewSaddle, []job.Compared{{Verdict: geometry.StillHigh}}))
	w.Read(words.Numbers(), mm.ComparedMore(guitar, job.Compared{Course: 0}))
	w.Tap("#screen .button.main") // kept as it is
	w.On(words.SaveTitle())
	w.Tap(words.SaveButton())
	w.On(words.FinishedTitle())
	w.Read(words.StoryTitle(), mm.Fact(guitar, job.Slotted{Length: mark("72"), Width: mark("3"), Depth: mark("8.5"), Across: job.AcrossRadius}))
}

// drawing looks at the drawing in life size: the screen is measured with a card, and the paper by what the browser prints.
func (w *Walk) drawing() {
	w.t.Helper()
	w.Tap(words.LifeSize())
	w.On(words.LifeTitle())
	w.Says(words.LifeLead(false, false))
	w.Tap(words.FitCard())
	w.On(words.CardTitle())
	side := func() (wide, high float64) {
		w.t.Helper()
		box := w.JS(`(() => { const b = document.querySelector(".card-room rect").getBoundingClientRect(); return [b.width, b.height] })()`).([]any)
		return box[0].(float64), box[1].(float64)
	}
	// The outline begins at 1200 quarters of a pixel, 300 pixels; a hair is one quarter; the slider goes where the finger does.
	near := func(what string, got, want, give float64) {
		w.t.Helper()
		if math.Abs(got-want) > give {
			w.t.Errorf("%s: %.4f, want %.4f", what, got, want)
		}
	}
	wide, high := side()
	near("the outline at first", wide, 300, 0.02)
	near("its long side", high, 300*85.60/53.98, 0.02)
	w.Tap(words.CardLarger())
	w.Wait("a hair more", `document.getElementById("card-size").value === "1201"`)
	w.Tap(words.CardSmaller())
	w.Tap(words.CardSmaller())
	w.Wait("a hair less", `document.getElementById("card-size").value === "1199"`)
	w.Drag("#card-size", 0.5, 0.5, 0.6, 0.5)
	w.Wait("the slider under the finger", `document.getElementById("card-size").value > 1250`)
	quarters := w.JS(`Number(document.getElementById("card-size").value)`).(float64)
	wide, _ = side()
	near("the outline under the finger", wide, quarters/4, 0.02)
	w.Tap(words.CardFits())
	w.Waiting(words.LifeTitle())
	w.Wait("the drawing on the screen", `document.querySelector(".life-room svg") !== null`)
	w.Look()
	w.Says(words.LifeLead(true, true), mm.CheckLine(50))

	// 50 mm of the check line, by the card of 53.98.
	perMM := quarters / 4 / 53.98
	drawn := w.JS(`Math.max(...[...document.querySelectorAll(".life-room path")].map(p => p.getBoundingClientRect().width).filter(x => x < ` + fmt.Sprint(60*perMM) + `))`).(float64)
	near("the check line on the screen", drawn, 50*perMM, 0.3)
	w.WaitSaved()
	w.Reload()                   // it is kept
	w.Waiting(words.MakeTitle()) // and what was ticked: the old strip is not asked for again
	w.Tap(words.LifeSize())
	w.Wait("the drawing on the screen", `document.querySelector(".life-room svg") !== null`)

	w.JS(`window.print = () => { window.printed = true }`)
	w.Tap(words.PrintIt())
	w.Wait("the browser asked to print", `window.printed === true`)
	w.media("print")
	paper := w.JS(`document.body.innerText`).(string)
	w.Screenshot(w.name + " paper")
	w.media("")
	for _, text := range []string{mm.PaperCheck(100), mm.CheckLine(100), words.PaperHeights(job.Making{Whole: true, NewSaddle: geometry.NewSaddle{Known: true}}), "15.20", "14.10"} {
		if !strings.Contains(paper, text) {
			w.t.Errorf("the paper does not say %q, it says %q", text, paper)
		}
	}
	for _, text := range []string{words.PrintIt(), words.BenchName(), words.JobMenu(), words.LifeTitle(), mm.CheckLine(50)} {
		if strings.Contains(paper, text) {
			w.t.Errorf("the paper says %q", text)
		}
	}

	// On paper: the check line of 100 mm, and the saddle's length of 71.77.
	pages, lines := w.printed()
	if pages != 1 {
		w.t.Errorf("%d pages", pages)
	}
	for _, want := range []float64{100, 71.77} {
		found := 0
		for _, points := range lines {
			if got := points * 25.4 / 72; math.Abs(got-want) < 1 {
				found++
				near("a line on paper, mm", got, want, 0.2)
				w.t.Logf("on paper %.3f mm for %.3f", got, want)
			}
		}
		if found == 0 {
			w.t.Errorf("no line of about %v mm among %v points", want, lines)
		}
	}
}

// media shows the page as it is printed ("print"), or as it is again.
func (w *Walk) media(name string) {
	w.t.Helper()
	w.do("setting the medium", chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		_, err := cdp.Call(ctx, t, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: name})
		return err
	}))
	if name == "" {
		w.dress()
	}
}

// printed prints the page at 100 % and gives the number of pages and the lengths of the level lines on it, in points.
func (w *Walk) printed() (pages int, level []float64) {
	w.t.Helper()
	ctx, cancel := context.WithTimeout(w.tab, Patience)
	defer cancel()
	result, err := chromedp.Call(ctx, page.PrintToPDF, page.PrintToPDFParams{Scale: 1, PaperWidth: 210 / 25.4, PaperHeight: 297 / 25.4})
	if err != nil {
		w.t.Fatal(err)
	}
	pages, level, err = levelLines(result.Data)
	if err != nil {
		w.t.Fatal(err)
	}
	return pages, level
}

// levelLines reads a PDF as Chromium writes it: the lengths, in points, of the level parts of every path that is stroked on its pages.
func levelLines(pdf []byte) (pages int, level []float64, err error) {
	for _, m := range regexp.MustCompile(`/Contents (\d+) 0 R`).FindAllSubmatch(pdf, -1) {
		pages++
		object := bytes.Index(pdf, []byte("\n"+string(m[1])+" 0 obj"))
		if object < 0 {
			return pages, nil, fmt.Errorf("object %s is not there", m[1])
		}
		start := object + bytes.Index(pdf[object:], []byte("stream")) + len("stream")
		flate, err := zlib.NewReader(bytes.NewReader(bytes.TrimLeft(pdf[start:start+2], "\r\n")))
		if err != nil { // a line end of one or two characters comes first
			flate, err = zlib.NewReader(bytes.NewReader(bytes.TrimLeft(pdf[start:], "\r\n")))
		}
		if err != nil {
			return pages, nil, err
		}
		content, err := io.ReadAll(flate)
		if err != nil && err != io.ErrUnexpectedEOF {
			return pages, nil, err
		}
		level = append(level, strokedLevel(string(content))...)
	}
	return pages, level, nil
}

// strokedLevel follows the operators of a page's content: the matrix, saved and brought back, and the paths that are stroked.
func strokedLevel(content string) (level []float64) {
	type matrix [6]float64
	at := matrix{1, 0, 0, 1, 0, 0}
	var saved []matrix
	var numbers, path []float64
	var x, y float64
	place := func() (float64, float64) {
		n := len(numbers)
		a, b := numbers[n-2], numbers[n-1]
		return a*at[0] + b*at[2] + at[4], a*at[1] + b*at[3] + at[5]
	}
	for _, word := range strings.Fields(content) {
		if n, err := strconv.ParseFloat(word, 64); err == nil {
			numbers = append(numbers, n)
			continue
		}
		n := len(numbers)
		switch {
		case word == "q":
			saved = append(saved, at)
		case word == "Q" && len(saved) > 0:
			at, saved = saved[len(saved)-1], saved[:len(saved)-1]
		case word == "cm" && n >= 6:
			m := numbers[n-6:]
			at = matrix{m[0]*at[0] + m[1]*at[2], m[0]*at[1] + m[1]*at[3], m[2]*at[0] + m[3]*at[2], m[2]*at[1] + m[3]*at[3],
				m[4]*at[0] + m[5]*at[2] + at[4], m[4]*at[1] + m[5]*at[3] + at[5]}
		case word == "m" && n >= 2:
			x, y = place()
		case word == "l" && n >= 2:
			u, v := place()
			if math.Abs(v-y) < 0.01 {
				path = append(path, math.Abs(u-x))
			}
			x, y = u, v
		case word == "S" || word == "s":
			level = append(level, path...)
			path = nil
		case word == "f" || word == "n" || word == "f*":
			path = nil
		}
		numbers = numbers[:0]
	}
	return level
}

// A level line of 100 units under a scale of three quarters, then of a half, and one that is only filled.
func TestThePaperIsReadRight(t *testing.T) {
	got := strokedLevel("q .75 0 0 -.75 10 800 cm q 2 0 0 2 5 5 cm 0 0 m 100 0 l S Q 1 1 m 101 1 l 101 9 l S Q q .5 0 0 .5 0 0 cm 0 0 m 100 0 l f 0 4 m 100 4 l S Q")
	want := []float64{150, 75, 50} // 100 × 2 × 0.75, 100 × 0.75, 100 × 0.5
	if fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("%v, want %v", got, want)
	}
}

// Somebody left-handed who measures in inches makes one for a nylon-string guitar with a flat board, without ever reading a millimetre: the slot is not
// measured, heights count from the wood, and later from the old saddle in the hand.
func TestANewSaddleLeftHandedInInches(t *testing.T) {
	t.Parallel()
	nylon := job.Instrument{Family: geometry.Nylon}
	w := StartWalk(t, "new-saddle-inch", Tall.InTheDark())
	w.Open("/kit/")
	w.Tap(words.Inches())
	w.WaitSaved()
	w.Open("/")
	w.begin(nylon, job.NewSaddle)
	place := w.Place()
	w.Open("/")
	w.Tap(".card-name")
	w.Tap(words.AboutInstrument())
	w.Tap(words.LeftHanded())
	w.WaitSaved()
	w.Open(place)
	w.answer(job.AskSaddle, job.SaddleLoose)
	w.rule(job.Every64th)
	w.forbid = notMM
	w.gaps(nylon)
	w.Tap(words.Answer(job.AskStrings, job.StringsStay))
	w.Waiting(words.ChooseTitle())
	w.Tap("#aim")
	w.answer(job.AskRoom, job.RoomFine)
	w.On(words.SlotAsk().Title)
	w.Tap(words.IDontKnow())
	w.On(words.AcrossAsk().Title)
	w.Tap(words.FlatBoard())
	w.On(words.OldAsk(false).Title)
	w.fields("old-0", "3/16", "old-1", "11/64")
	over := job.Making{NewSaddle: geometry.NewSaddle{Known: true}}
	w.On(words.BlankTitle(over))
	w.Says(inch.BlankLead(over))
	w.Tap(words.Numbers())
	w.LookInto()
	w.Tap(words.MeasureSlot())
	w.On(words.SlotAsk().Title)
	w.Holds("slot-depth", "")
	w.fields("slot-width", "0.125")
	w.Waiting(words.BlankTitle(over))
	w.Read(words.Numbers(), "Thickness")
	w.Tap(words.FollowBlank())
	w.answer(job.AskUnder, job.UnderClear)
	w.On(words.MakeTitle())
	w.Tap(words.MeasureOld())
	w.On(words.OldAsk(true).Title)
	w.Type("#old-0", "0.5")
	w.refused("old-1", "50", inch.Error(&geometry.RangeError{Quantity: geometry.QuantityHeight, Got: 1270, Min: 2, Max: 40}))
	w.fields("old-1", "0.47")
	w.On(words.MakeTitle())
	for _, s := range geometry.BlankSteps() {
		w.Look()
		w.Tap(words.BlankStep(s))
	}
	w.Sees(words.MakeReady())
	w.Tap(words.LifeSize())
	w.Waiting(words.LifeTitle())
	w.Tap(words.FitCard())
	w.On(words.CardTitle())
	w.Tap(words.CardFits())
	w.On(words.LifeTitle())
	w.Wait("the drawing on the screen", `document.querySelector(".life-room svg") !== null`)
	w.Tap(words.More())
	w.LookInto()
	if got := w.JS(`[...document.querySelectorAll(".life-room text")].slice(0, 2).map(e => e.textContent).join(", ")`); got != words.SideTitle(1)+", "+words.SideTitle(0) {
		t.Errorf("from left to right: %s", got)
	}
	w.media("print")
	paper := w.JS(`document.body.innerText`).(string)
	w.Screenshot(w.name + " paper")
	ink := w.JS(`getComputedStyle(document.querySelector(".paper p")).color`)
	w.media("")
	if notMM.MatchString(paper) || !strings.Contains(paper, inch.PaperCheck(100)) || !strings.Contains(paper, words.LengthUnknown()) {
		t.Errorf("the paper says %q", paper)
	}
	if ink != "rgb(34, 37, 42)" { // the light ink, whatever the screen is like
		t.Errorf("the paper is written in %v", ink)
	}
	_, lines := w.printed()
	found := false
	for _, points := range lines {
		if got := points * 25.4 / 72; math.Abs(got-100) < 1 {
			found = math.Abs(got-100) < 0.2
		}
	}
	if !found {
		t.Errorf("no line of 3.937 in among %v points", lines)
	}
}
