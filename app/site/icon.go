package site

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"strings"
)

// The colours of the frame around the app: the icon, the home screen and the bar above the page.
var (
	paper    = color.RGBA{0xf4, 0xef, 0xe4, 0xff}
	graphite = color.RGBA{0x2b, 0x2a, 0x28, 0xff}
	accent   = color.RGBA{0xb4, 0x53, 0x2a, 0xff}
	night    = color.RGBA{0x1d, 0x1c, 0x1a, 0xff}
)

// A bar is an upright rectangle of the icon, in 64ths of its side, so that it falls on whole pixels at 64, 192 and 512.
type bar struct {
	x, y, w, h int
	ink        color.RGBA
}

// icon is a rule on its end on the fret tops, a string passing behind it, and the gap under the string. All that matters lies inside
// the circle of 40 % of the side that a home screen never cuts away.
func icon() []bar {
	bars := []bar{
		{0, 0, 64, 64, paper},
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

func hexColour(c color.RGBA) string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }

// iconSVG draws the icon as lines of an SVG file.
func iconSVG() []byte {
	var b strings.Builder
	b.WriteString(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 64 64">` + "\n")
	for _, r := range icon() {
		fmt.Fprintf(&b, `<rect x="%d" y="%d" width="%d" height="%d" fill="%s"/>`+"\n", r.x, r.y, r.w, r.h, hexColour(r.ink))
	}
	b.WriteString("</svg>\n")
	return []byte(b.String())
}

// iconPNG draws the icon as a PNG file with the given side in pixels, a multiple of 64.
func iconPNG(side int) []byte {
	picture := image.NewPaletted(image.Rect(0, 0, side, side), color.Palette{paper, graphite, accent})
	step := side / 64
	for _, r := range icon() {
		where := image.Rect(r.x*step, r.y*step, (r.x+r.w)*step, (r.y+r.h)*step)
		draw.Draw(picture, where, image.NewUniform(r.ink), image.Point{}, draw.Src)
	}
	var b bytes.Buffer
	if err := png.Encode(&b, picture); err != nil {
		panic(err) // a picture in memory of a fixed size cannot fail
	}
	return b.Bytes()
}
