package phone

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"hash/crc32"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/dom"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/qrcode"
	"github.com/makiuchi-d/gozxing/qrcode/decoder"
	"github.com/makiuchi-d/gozxing/qrcode/encoder"

	"gapwright/app/job"
	"gapwright/app/store"
	"gapwright/app/view"
	"gapwright/app/words"
	"gapwright/geometry"
)

// handed is an instrument as somebody who does this daily hands it over.
func handed() job.Instrument {
	rule := func(course int, low, high string) job.Read {
		return job.Read{String: course, Fret: 12, Way: job.ByMarks, Low: mark(low), High: mark(high)}
	}
	relief := job.Surveyed{Feature: job.Relief, To: 14, Read: job.Read{Held: 1, Fret: 7, Way: job.ByFeeler, Low: mark("0.20"), High: mark("0.25")}}
	return job.Instrument{ID: "5f0c1d2e-3b4a-4c5d-8e6f-708192a3b4c5", Name: "Porch guitar", Owner: "Ann, second floor", Family: geometry.FlatTop6, Scale: mark("648"),
		AsSet: &job.AsSet{At: time.Date(2026, 5, 3, 16, 20, 5, 0, time.UTC), Proven: true,
			Readings: []job.Read{rule(0, "2.25", "2.50"), rule(5, "1.75", "2.00")}, Neck: []job.Surveyed{relief}}}
}

// holdsInstrument is what the phone keeps of an instrument.
func (w *Walk) holdsInstrument(id string) job.Instrument {
	w.t.Helper()
	key := store.KindInstrument + "/" + id
	text, _ := w.JS(fmt.Sprintf("localStorage.getItem(%q)", store.Prefix+key)).(string)
	doc, outcome := store.JobKinds().Decode(key, text)
	var i job.Instrument
	if err := json.Unmarshal(doc.Body, &i); outcome != store.Fine || err != nil {
		w.t.Fatalf("%s is stored as %v, %v: %.200s", key, outcome, err, text)
	}
	return i
}

// putInstrument puts an instrument on the phone as if it had always been there.
func (w *Walk) putInstrument(i job.Instrument) {
	w.t.Helper()
	body, err := json.Marshal(i)
	if err != nil {
		w.t.Fatal(err)
	}
	key := store.KindInstrument + "/" + i.ID
	_, text, err := store.Encode(store.Document{Key: key, Kind: store.KindInstrument, Version: store.JobKinds()[store.KindInstrument].Version(), Sequence: 1, Writer: "w", Body: body})
	if err != nil {
		w.t.Fatal(err)
	}
	w.JS(fmt.Sprintf("localStorage.setItem(%q, %q)", store.Prefix+key, text))
	w.Reload()
}

func codeOf(t testing.TB, i job.Instrument) string {
	t.Helper()
	text, _, err := i.Code()
	if err != nil {
		t.Fatal(err)
	}
	return text
}

// another program's code of a text, so many pixels to the module.
func codeImage(t testing.TB, text string, scale int) *image.Gray {
	t.Helper()
	code, err := encoder.Encoder_encode(text, decoder.ErrorCorrectionLevel_M, nil)
	if err != nil {
		t.Fatal(err)
	}
	m := code.GetMatrix()
	side := (m.GetWidth() + 8) * scale
	img := image.NewGray(image.Rect(0, 0, side, side))
	for y := range side {
		for x := range side {
			img.SetGray(x, y, color.Gray{Y: 255})
			mx, my := x/scale-4, y/scale-4
			if mx >= 0 && my >= 0 && mx < m.GetWidth() && my < m.GetHeight() && m.Get(mx, my) == 1 {
				img.SetGray(x, y, color.Gray{})
			}
		}
	}
	return img
}

func pngOf(t testing.TB, img image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// readsCode gives a file to the reader of codes.
func (w *Walk) readsCode(data []byte) {
	w.t.Helper()
	file := filepath.Join(w.t.(*testing.T).TempDir(), "code.png")
	if err := os.WriteFile(file, data, 0o600); err != nil {
		w.t.Fatal(err)
	}
	ctx, cancel := context.WithTimeout(w.tab, Patience)
	defer cancel()
	if _, err := chromedp.Call(ctx, dom.SetFileInputFiles, dom.SetFileInputFilesParams{Files: []string{file}, BackendNodeID: w.find("#code-file").(cdp.BackendNodeID)}); err != nil {
		w.t.Fatal(err)
	}
}

// shot is what the screen shows now.
func (w *Walk) shot() []byte {
	w.t.Helper()
	ctx, cancel := context.WithTimeout(w.tab, Patience)
	defer cancel()
	picture, err := chromedp.Call(ctx, page.CaptureScreenshot, page.CaptureScreenshotParams{Format: page.CaptureScreenshotFormatPng})
	if err != nil {
		w.t.Fatal(err)
	}
	return picture.Data
}

// readIn is what another program reads in a picture.
func readIn(data []byte) (string, error) {
	img, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		return "", err
	}
	bitmap, err := gozxing.NewBinaryBitmapFromImage(img)
	if err != nil {
		return "", err
	}
	found, err := qrcode.NewQRCodeReader().Decode(bitmap, map[gozxing.DecodeHintType]any{gozxing.DecodeHintType_TRY_HARDER: true})
	if err != nil {
		return "", err
	}
	return found.GetText(), nil
}

const drawnCode = `document.querySelector(".code .p-code-dark") !== null && document.querySelector(".code .p-code-dark").getAttribute("d") !== ""`

// From phone to phone without a network: the code on one screen, in the dark, is read by another program, and by a second, empty phone from a picture of
// that screen; what is kept there is what was handed over. What cannot be taken is said, and nothing that is there is replaced unasked.
func TestAnInstrumentGoesToAnotherPhone(t *testing.T) {
	t.Parallel()
	i := handed()
	a := StartWalk(t, "code shown", Small.InTheDark())
	a.putInstrument(i)
	a.Open(view.Link("", view.Instrument, i.ID))
	a.Tap(words.CodeName())
	a.Waiting(words.CodeName())
	a.Wait("the code", drawnCode)
	a.Look()
	a.Open(view.Link("", view.Code, i.ID))
	a.Wait("the code", drawnCode)
	shown := a.shot()
	if got, err := readIn(shown); err != nil || got != codeOf(t, i) {
		t.Errorf("on the screen another program reads %q, %v", got, err)
	}

	// The fullest code on the narrowest screen: its modules are 4 pixels and more, and what is left out is said.
	full := i
	full.ID, full.Name, full.Set = "full", strings.Repeat("The guitar of the band’s second van ", 30), &job.Stringing{Capo: 2}
	a.putInstrument(full)
	a.Open(view.Link("", view.Code, full.ID))
	a.Wait("the code", drawnCode)
	a.Says(words.CodeWithout([]job.CodePart{job.CodeStrings, job.CodeOwner, job.CodeNeck, job.CodeName}))
	a.do("making the screen narrow", chromedp.EmulateViewport(Narrowest, 640, chromedp.EmulateMobile, chromedp.EmulateTouch))
	if got := a.JS(`(() => { const s = document.querySelector(".code svg"); return s.getBoundingClientRect().width / s.viewBox.baseVal.width })()`).(float64); got < 4 {
		t.Errorf("a module is %.2f pixels wide on a screen of %d", got, Narrowest)
	}
	a.dress()
	a.Look()
	if got, err := readIn(a.shot()); err != nil || got != codeOf(t, full) {
		t.Errorf("of the fullest code another program reads %q, %v", got, err)
	}

	b := StartWalk(t, "code read", Small)
	b.Tap(words.FromElsewhere())
	b.Tap(words.ReceiveName())
	b.On(words.ReceiveName())
	if got := b.JS(`performance.getEntriesByType("resource").filter(e => e.name.includes("/later/")).length`); got != 0.0 {
		t.Errorf("%v scripts were fetched before anybody asked for them", got)
	}
	for name, row := range map[string]struct {
		file []byte
		want string
	}{
		"no picture":             {[]byte("nothing"), words.CodeFailed("unreadable")},
		"a picture without code": {pngOf(t, image.NewGray(image.Rect(0, 0, 300, 200))), words.CodeFailed("none")},
		"another code":           {pngOf(t, codeImage(t, "gopher", 5)), words.CodeRefused(job.ErrCodeForeign)},
		"a damaged code":         {pngOf(t, codeImage(t, strings.Replace(codeOf(t, i), "M2.25", "M2.15", 1), 5)), words.CodeRefused(job.ErrCodeDamaged)},
		"a later version":        {pngOf(t, codeImage(t, signedCode("GAPWRIGHT2*A*"), 5)), words.CodeRefused(job.ErrCodeLater)},
	} {
		b.readsCode(row.file)
		b.Sees(row.want)
		if name == "no picture" {
			b.Look()
		}
	}
	b.readsCode(shown)
	b.On(i.Name)
	b.SeesNot(words.CodeRefused(job.ErrCodeForeign))
	b.Tap(words.AddIt())
	b.On(i.Name)
	b.WaitSaved()
	if got := b.holdsInstrument(i.ID); !reflect.DeepEqual(got, i) {
		t.Errorf("kept is %+v, want %+v", got, i)
	}

	// The same once more: it is known, and nothing has to be done.
	b.Go(view.Code)
	b.readsCode(shown)
	b.Waiting(i.Name)
	b.Says(words.CodeBeside(i, i))
	b.Tap(words.OpenYours())
	b.Waiting(i.Name)

	// Newer numbers take the place of those that are here, at a tap; older ones may stand beside them.
	newer := handed()
	newer.AsSet.At = newer.AsSet.At.AddDate(0, 0, 4)
	newer.AsSet.Readings[0].Low, newer.AsSet.Readings[0].High = mark("2.00"), mark("2.25")
	newer.Owner = ""
	b.Go(view.Code)
	b.readsCode(pngOf(t, codeImage(t, codeOf(t, newer), 4)))
	b.On(i.Name)
	b.Says(words.CodeBeside(i, newer), words.TakeMeans())
	b.Tap(words.TakeNumbers())
	b.Sees("2.00 to 2.25\u00a0mm bass")
	b.WaitSaved()
	newer.Owner = i.Owner // what the code does not say stays
	if got := b.holdsInstrument(i.ID); !reflect.DeepEqual(got, newer) {
		t.Errorf("kept is %+v, want %+v", got, newer)
	}
	b.Go(view.Code)
	b.readsCode(shown)
	b.Waiting(i.Name)
	b.Says(words.CodeBeside(newer, i))
	b.Tap(words.AddBeside())
	b.Sees("2.25 to 2.50\u00a0mm bass")
	if b.Place() == view.Link("", view.Instrument, i.ID) {
		t.Error("what was to stand beside is the same")
	}
	b.WaitSaved()
	if got := b.holdsInstrument(i.ID); !reflect.DeepEqual(got, newer) {
		t.Errorf("what was here is %+v, want %+v", got, newer)
	}
}

// signedCode ends a text with its checksum, as job.Code describes it.
func signedCode(text string) string {
	sum := strings.ToUpper(strconv.FormatUint(uint64(crc32.ChecksumIEEE([]byte(text))), 36))
	return text + strings.Repeat("0", 7-len(sum)) + sum
}

// sees writes what the camera sees: so many frames of one picture, in the YUV4MPEG2 form of a raw film.
func sees(t testing.TB, file string, img *image.Gray) {
	t.Helper()
	size := img.Bounds().Size()
	var b bytes.Buffer
	fmt.Fprintf(&b, "YUV4MPEG2 W%d H%d F10:1 Ip A1:1 C420\n", size.X, size.Y)
	for range 3 {
		b.WriteString("FRAME\n")
		b.Write(img.Pix)
		b.Write(bytes.Repeat([]byte{128}, size.X*size.Y/2))
	}
	if err := os.WriteFile(file, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
}

// askew is a picture held by a hand: turned, further away at one side, on a table, a little dark.
func askew(flat *image.Gray, width, height int) *image.Gray {
	img := image.NewGray(image.Rect(0, 0, width, height))
	size := float64(flat.Bounds().Dx())
	const turn = 0.3
	for y := range height {
		for x := range width {
			u, v := float64(x-width/2), float64(y-height/2)
			depth := (1 + 0.0004*u) * size / float64(height) * 1.2
			u, v = u*depth, v*depth
			at := image.Pt(int(math.Floor(size/2+u*math.Cos(turn)+v*math.Sin(turn))), int(math.Floor(size/2-u*math.Sin(turn)+v*math.Cos(turn))))
			shade := uint8(150)
			if at.In(flat.Bounds()) {
				shade = 40 + flat.GrayAt(at.X, at.Y).Y/4*3/2
			}
			img.SetGray(x, y, color.Gray{Y: shade})
		}
	}
	return img
}

// The camera is asked for at a tap, is off as soon as its picture is gone, and reads a code that is held askew. Where there is none, or it is refused,
// that is said, and the way without it stays.
func TestACodeIsReadByTheCamera(t *testing.T) {
	t.Parallel()
	film := filepath.Join(t.TempDir(), "film.y4m")
	table := image.NewGray(image.Rect(0, 0, 640, 480))
	sees(t, film, table)
	model := Tall
	model.Camera = film
	w := &Walk{Phone: New(t, model), host: Serve(t, Site(t)), name: "camera"}
	w.Visit(w.host)
	w.Go(view.Code)
	w.On(words.ReceiveName())

	const track = `(window.track = document.getElementById("finder").srcObject?.getVideoTracks()[0] ?? window.track)`
	runs := func() {
		t.Helper()
		w.Tap(words.OpenCamera())
		w.Wait("a picture from the camera", `document.getElementById("finder").videoWidth > 0`)
		w.Wait("the camera", track+`.readyState === "live"`)
	}
	off := func(after string) {
		t.Helper()
		w.Wait("the camera off after "+after, `window.track.readyState === "ended"`)
	}
	runs()
	w.Sees(words.CameraLead())
	w.Look()
	w.Tap(words.CloseCamera())
	off("a tap")
	w.Sees(words.OpenCamera())
	runs()
	w.Tap(words.BenchName())
	off("going elsewhere")

	i := handed()
	sees(t, film, askew(codeImage(t, codeOf(t, i), 8), 640, 480))
	w.Go(view.Code)
	w.Tap(words.OpenCamera())
	w.On(i.Name)
	w.Tap(words.AddIt())
	w.WaitSaved()
	if got := w.holdsInstrument(i.ID); !reflect.DeepEqual(got, i) {
		t.Errorf("kept is %+v, want %+v", got, i)
	}

	w.Go(view.Code)
	for name, fail := range map[string]string{"NotAllowedError": "refused", "NotFoundError": "missing", "NotReadableError": "busy"} {
		w.JS(fmt.Sprintf(`(() => { navigator.mediaDevices.getUserMedia = () => Promise.reject(new DOMException("", %q)); return 0 })()`, name))
		w.Tap(words.OpenCamera())
		w.Sees(words.CodeFailed(fail))
	}
	w.Look()
	drawsAsPrinted(t, w.Phone)
}

// drawsAsPrinted draws the worked example of ISO/IEC 18004, annex I: 01234567 in version 1-M has these sixteen codewords of data and ten of error
// correction. They are read out of the symbol here: its mask taken off, its columns gone through in pairs from the right, up and down in turn.
func drawsAsPrinted(t *testing.T, p *Phone) {
	t.Helper()
	rows := strings.Split(p.JS(`import("/web/later/qr/qr.min.js").then(m => m.encodeQR("01234567", "raw", { ecc: "medium", encoding: "numeric", border: 1 })
		.slice(1, -1).map(row => row.slice(1, -1).map(Number).join("")).join("/"))`).(string), "/")
	if len(rows) != 21 || len(rows[0]) != 21 {
		t.Fatalf("%d rows: %q", len(rows), rows)
	}
	dark := func(x, y int) int { return int(rows[y][x] - '0') }
	format := 0
	for x := range 5 { // level and mask, under the first five bits of the pattern 10101…
		format = format<<1 | dark(x, 8)
	}
	format ^= 0b10101
	if level := format >> 3; level != 0 {
		t.Errorf("level %02b, want 00, which is M", level)
	}
	masks := []func(i, j int) bool{ // row i, column j: table 10
		func(i, j int) bool { return (i+j)%2 == 0 }, func(i, j int) bool { return i%2 == 0 }, func(i, j int) bool { return j%3 == 0 },
		func(i, j int) bool { return (i+j)%3 == 0 }, func(i, j int) bool { return (i/2+j/3)%2 == 0 }, func(i, j int) bool { return i*j%2+i*j%3 == 0 },
		func(i, j int) bool { return (i*j%2+i*j%3)%2 == 0 }, func(i, j int) bool { return ((i+j)%2+i*j%3)%2 == 0 },
	}
	masked := masks[format&7]
	var bits []int
	up := true
	for x := 20; x > 0; x -= 2 {
		if x == 6 { // the column of the timing pattern
			x--
		}
		for n := range 21 {
			y := n
			if up {
				y = 20 - n
			}
			for _, x := range []int{x, x - 1} {
				if y == 6 || y < 9 && (x < 9 || x > 12) || y > 12 && x < 9 {
					continue
				}
				bit := dark(x, y)
				if masked(y, x) {
					bit ^= 1
				}
				bits = append(bits, bit)
			}
		}
		up = !up
	}
	var printed []byte
	for n := 0; n+8 <= len(bits); n += 8 {
		var b byte
		for _, bit := range bits[n : n+8] {
			b = b<<1 | byte(bit)
		}
		printed = append(printed, b)
	}
	want := []byte{0x10, 0x20, 0x0C, 0x56, 0x61, 0x80, 0xEC, 0x11, 0xEC, 0x11, 0xEC, 0x11, 0xEC, 0x11, 0xEC, 0x11,
		0xA5, 0x24, 0xD4, 0xC1, 0xED, 0x36, 0xC7, 0x87, 0x2C, 0x55}
	if !slices.Equal(printed, want) {
		t.Errorf("% X, want % X", printed, want)
	}
}
