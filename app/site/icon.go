package site

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"strings"
)

// The colours of the frame around the app: the icon, the home screen and the bar above the page. They are those of web/css/tokens.css.
var (
	paper    = color.RGBA{0xf4, 0xed, 0xe0, 0xff}
	graphite = color.RGBA{0x22, 0x25, 0x2a, 0xff}
	accent   = color.RGBA{0x9a, 0x42, 0x10, 0xff}
	night    = color.RGBA{0x19, 0x17, 0x14, 0xff}
)

// A bar is an upright rectangle of the icon, in 64ths of its side.
type bar struct {
	x, y, w, h int
	ink        color.RGBA
}

// icon is a rule on its end on the fret tops, a string passing behind it, and the gap under the string.
func icon() []bar {
	bars := []bar{
		{-8, -8, 80, 80, paper},   // beyond the edges, where the icon is drawn smaller
		{10, 44, 44, 3, graphite}, // fret tops
		{8, 27, 48, 2, graphite},  // string
		{45, 29, 4, 15, accent},   // gap
		{22, 12, 16, 32, graphite},
		{24, 14, 12, 30, paper},
	}
	for y := 17; y < 44; y += 3 { // the rule's marks
		w := 4
		if (y-17)%9 == 0 {
			w = 7
		}
		bars = append(bars, bar{24, y, w, 1, graphite})
	}
	return bars
}

// Where nobody cuts anything away, the icon is drawn larger; where a home screen cuts it to a shape of its own, all of it lies within the circle of 40 %
// of the side that is never cut into.
const larger, within = 1.25, 0.9375

// An iconFile is the icon as a file of the site. With mono it is a stencil, opaque where ink lies: a system paints it in a colour of its own.
type iconFile struct {
	address, purpose string
	side             int // in pixels
	zoom             float64
	mono             bool
}

// iconFiles lists the pictures; a purpose is what the manifest says of it, "" for what is not in there.
func iconFiles() []iconFile {
	return []iconFile{
		{"/icon-192.png", "any", 192, larger, false},
		{"/icon-512.png", "any", 512, larger, false},
		{"/icon-maskable-192.png", "maskable", 192, within, false},
		{"/icon-maskable-512.png", "maskable", 512, within, false},
		{"/icon-monochrome-192.png", "monochrome", 192, within, true},
		{"/icon-monochrome-512.png", "monochrome", 512, within, true},
		{"/apple-touch-icon.png", "", 180, larger, false},
	}
}

func hexColour(c color.RGBA) string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }

// iconSVG draws the icon as lines of an SVG file.
func iconSVG() []byte {
	var b strings.Builder
	edge := 32 - 32/larger
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="%g %g %g %g">`+"\n", edge, edge, 64/larger, 64/larger)
	for _, r := range icon() {
		fmt.Fprintf(&b, `<rect x="%d" y="%d" width="%d" height="%d" fill="%s"/>`+"\n", r.x, r.y, r.w, r.h, hexColour(r.ink))
	}
	b.WriteString("</svg>\n")
	return []byte(b.String())
}

// png draws the icon as a PNG file.
func (f iconFile) png() []byte {
	picture := image.NewRGBA(image.Rect(0, 0, f.side, f.side))
	for _, r := range icon() {
		ink := r.ink
		if f.mono {
			ink = color.RGBA{A: 0xff}
			if r.ink == paper {
				ink = color.RGBA{}
			}
		}
		x0, x1 := f.at(r.x), f.at(r.x+r.w)
		y0, y1 := f.at(r.y), f.at(r.y+r.h)
		for y := max(0, int(y0)); y < f.side && float64(y) < y1; y++ {
			for x := max(0, int(x0)); x < f.side && float64(x) < x1; x++ {
				// A pixel that an edge runs through takes of the ink as much as lies in it.
				part := (min(x1, float64(x+1)) - max(x0, float64(x))) * (min(y1, float64(y+1)) - max(y0, float64(y)))
				blend := func(was, ink uint8) uint8 { return uint8(float64(was) + part*(float64(ink)-float64(was)) + 0.5) }
				was := picture.RGBAAt(x, y)
				picture.SetRGBA(x, y, color.RGBA{blend(was.R, ink.R), blend(was.G, ink.G), blend(was.B, ink.B), blend(was.A, ink.A)})
			}
		}
	}
	var b bytes.Buffer
	if err := png.Encode(&b, picture); err != nil {
		panic(err) // a picture in memory of a fixed size cannot fail
	}
	return b.Bytes()
}

// at is where one of the 64ths lies, in pixels.
func (f iconFile) at(n int) float64 { return ((float64(n)-32)*f.zoom + 32) * float64(f.side) / 64 }
