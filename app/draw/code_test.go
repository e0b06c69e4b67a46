package draw

import (
	"image"
	"image/color"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/qrcode"
	"github.com/makiuchi-d/gozxing/qrcode/decoder"
	"github.com/makiuchi-d/gozxing/qrcode/encoder"
)

// rowsOf makes a code of a text with another program's encoder, in a version and at a level.
func rowsOf(t testing.TB, text string, version int, level decoder.ErrorCorrectionLevel) string {
	t.Helper()
	code, err := encoder.Encoder_encode(text, level, map[gozxing.EncodeHintType]any{gozxing.EncodeHintType_QR_VERSION: version})
	if err != nil {
		t.Fatal(err)
	}
	m := code.GetMatrix()
	var rows []string
	for y := range m.GetHeight() {
		var row strings.Builder
		for x := range m.GetWidth() {
			row.WriteString(strconv.Itoa(int(m.Get(x, y))))
		}
		rows = append(rows, row.String())
	}
	return strings.Join(rows, "/")
}

const exampleCode = "GAPWRIGHT1*A*MANDOLIN+J0P3PGZ6"

// exampleRows is the code of that text in version 2 at level M, as web/later/code.js draws it.
var exampleRows = strings.Join([]string{
	"1111111011100011101111111",
	"1000001000011110001000001",
	"1011101001010101001011101",
	"1011101010100000001011101",
	"1011101010110011001011101",
	"1000001011100001001000001",
	"1111111010101010101111111",
	"0000000010001100100000000",
	"1000101110011011111111001",
	"0110100010111000101000101",
	"1001111001001000100110010",
	"0001100000111101010011100",
	"0100001001101011010001100",
	"1111000011000100000101000",
	"0001011000000011001001111",
	"0011010010101000010110100",
	"1100101111010110111111010",
	"0000000011101010100011000",
	"1111111011011111101010010",
	"1000001000110101100011101",
	"1011101011101101111110010",
	"1011101000100111100011101",
	"1011101001000000111110110",
	"1000001001101010100011111",
	"1111111010010110000101001",
}, "/")

// inked fills the upright areas of a written picture of a code, scale pixels to the unit: the only things in it that are dark.
func inked(t testing.TB, svg string, scale int) *image.Gray {
	t.Helper()
	box := regexp.MustCompile(`viewBox="0 0 (\d+) (\d+)"`).FindStringSubmatch(svg)
	path := regexp.MustCompile(`<path class="p-code-dark" d="([^"]*)">`).FindAllStringSubmatch(svg, -1)
	if box == nil || len(path) != 1 || !strings.Contains(svg, `<rect class="p-code-paper" x="0" y="0" width="`+box[1]+`" height="`+box[2]+`"`) {
		t.Fatalf("no code in %.300s", svg)
	}
	wide, _ := strconv.Atoi(box[1])
	tall, _ := strconv.Atoi(box[2])
	img := image.NewGray(image.Rect(0, 0, wide*scale, tall*scale))
	for i := range img.Pix {
		img.Pix[i] = 255
	}
	area := regexp.MustCompile(`^M(\d+) (\d+)L(\d+) (\d+)L(\d+) (\d+)L(\d+) (\d+)$`)
	for piece := range strings.SplitSeq(strings.TrimSuffix(path[0][1], "Z"), "Z") {
		m := area.FindStringSubmatch(piece)
		if m == nil {
			t.Fatalf("not an upright area: %q", piece)
		}
		var v [8]int
		for i := range v {
			v[i], _ = strconv.Atoi(m[i+1])
		}
		if v[0] != v[6] || v[1] != v[3] || v[2] != v[4] || v[5] != v[7] || v[0] >= v[2] || v[1] >= v[5] {
			t.Fatalf("not an upright area: %v", v)
		}
		for y := v[1] * scale; y < v[5]*scale; y++ {
			for x := v[0] * scale; x < v[2]*scale; x++ {
				img.SetGray(x, y, color.Gray{})
			}
		}
	}
	return img
}

func readFrom(img image.Image) (string, error) {
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

// An independent reader reads the golden picture and those of the least and the largest symbol, at the size of a phone's screen.
func TestADrawnCodeIsRead(t *testing.T) {
	golden, err := os.ReadFile(filepath.Join(pictures, "code.svg"))
	if err != nil {
		t.Fatal(err)
	}
	if got, err := readFrom(inked(t, string(golden), 4)); err != nil || got != exampleCode {
		t.Errorf("the golden picture reads %q, %v", got, err)
	}
	for _, row := range []struct {
		signs, version int
		level          decoder.ErrorCorrectionLevel
		side           float64
	}{
		{20, 1, decoder.ErrorCorrectionLevel_M, 29},
		{483, 13, decoder.ErrorCorrectionLevel_M, 77}, // ISO/IEC 18004, table 7
		{619, 13, decoder.ErrorCorrectionLevel_L, 77},
	} {
		text := strings.Repeat("GAPWRIGHT 0123456789 $%*+-./:", 22)[:row.signs]
		scene := CodePicture("t", "", rowsOf(t, text, row.version, row.level))
		if scene.Width != row.side || scene.Height != row.side {
			t.Errorf("version %d is %g × %g with its margin, want %g", row.version, scene.Width, scene.Height, row.side)
		}
		if got, err := readFrom(inked(t, SVG(scene), 4)); err != nil || got != text {
			t.Errorf("version %d, level %v: read %q, %v", row.version, row.level, got, err)
		}
	}
}

// The picture is read when the phone is held askew: turned by any angle, and further away at one side.
func TestADrawnCodeIsReadAskew(t *testing.T) {
	flat := inked(t, SVG(CodePicture("t", "", rowsOf(t, exampleCode, 2, decoder.ErrorCorrectionLevel_M))), 8)
	const side = 400
	for _, turn := range []float64{0, 0.2, 0.7, 1.6, 2.4, 3.1} {
		for _, lean := range []float64{0, 0.0004, -0.0006} {
			img := image.NewGray(image.Rect(0, 0, side, side))
			size := float64(flat.Bounds().Dx())
			for y := range side {
				for x := range side {
					u, v := float64(x)-side/2, float64(y)-side/2
					depth := 1 + lean*u
					u, v = u*depth*1.1, v*depth*1.1
					sx, sy := size/2+u*math.Cos(turn)+v*math.Sin(turn), size/2-u*math.Sin(turn)+v*math.Cos(turn)
					img.SetGray(x, y, color.Gray{Y: 200})
					if image.Pt(int(math.Floor(sx)), int(math.Floor(sy))).In(flat.Bounds()) {
						img.SetGray(x, y, flat.GrayAt(int(sx), int(sy)))
					}
				}
			}
			if got, err := readFrom(img); err != nil || got != exampleCode {
				t.Errorf("turned by %g, leaning %g: %q, %v", turn, lean, got, err)
			}
		}
	}
}

// A picture without a code yet, or of something that is none, is light paper.
func TestACodeThatIsNotThereYetIsPaper(t *testing.T) {
	for _, rows := range []string{"", "x", "/", "000/000/000"} {
		scene := CodePicture("t", "", rows)
		if len(scene.Shapes) != 2 || len(scene.Shapes[1].Points) != 0 || scene.Width < 9 {
			t.Errorf("%q: %+v", rows, scene)
		}
	}
}
