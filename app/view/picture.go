package view

import (
	"strconv"
	"strings"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"gapwright/app/draw"
	"gapwright/app/job"
	"gapwright/app/words"
	"gapwright/geometry"
)

// picture draws a still scene.
func picture(s draw.Scene) app.UI { return app.Raw(draw.SVG(s)) }

// moving draws a scene whose elements stay and change in place, with what a tap on it chooses: the number of the mark.
func (a *App) moving(s draw.Scene, tap func(mark int)) app.UI {
	nodes := draw.Nodes(s)
	children := make([]app.UI, 0, len(nodes)-1)
	for _, n := range nodes[1:] {
		e := element(n)
		if n.Tap > 0 {
			mark := n.Tap - 1
			e = e.Attr(tapMark, a.tap(func(app.Context) { tap(mark) }))
		}
		children = append(children, e)
	}
	return element(nodes[0]).Body(children...)
}

func element(n draw.Node) app.HTMLElem {
	e := app.Elem(n.Tag).XMLNS("http://www.w3.org/2000/svg")
	for _, attr := range n.Attr {
		e = e.Attr(attr[0], attr[1])
	}
	if n.Text != "" {
		e = e.Text(n.Text)
	}
	return e
}

// thing is what an answer is about. The bridge in the picture is the one that is worked on: screws and posts share their question.
func thing(m job.Method, q job.Question, answer job.Answer) draw.Thing {
	if m == job.ByPosts && q == job.AskScrews && (answer == job.SaddleDamage || answer == job.SaddlePrecious) {
		return draw.Thing("posts-" + string(answer))
	}
	return draw.Thing(string(q) + "-" + string(answer))
}

// answerPicture is what an answer looks like, where it looks like anything.
func answerPicture(m job.Method, q job.Question, answer job.Answer) app.UI {
	t := thing(m, q, answer)
	for _, known := range draw.Things() {
		if known == t {
			return picture(draw.ThingPicture(t, "", ""))
		}
	}
	return app.Text("")
}

func marksPicture(m job.Marks) app.UI {
	if m == job.NoRule {
		return app.Text("")
	}
	kit := job.Kit{Marks: m}
	return picture(draw.RuleMarks(float64(kit.RuleStep()), kit.LongMark(), "", "", ""))
}

func zeroPicture(z job.Zero) app.UI { return picture(draw.RuleZero(ruleEnd(z), "0", "1", "", "")) }

func ruleEnd(z job.Zero) draw.RuleEnd {
	switch z {
	case job.ZeroInside:
		return draw.EndBlank
	case job.ZeroCutOff:
		return draw.EndCut
	case job.ZeroUnknown:
		return draw.EndNotKnown
	}
	return draw.EndIsZero
}

// crownRise is about how much higher a saddle stands in its middle than at its ends, in millimetres (from memory; only the picture uses it).
const crownRise = 1.5

// saddle is the picture of the cut: true proportion, the line, and the numbers at both ends.
func (a *App) saddle(r job.Record, plan job.Plan) app.UI {
	reader := a.reader()
	ends := plan.Drawn.Ends
	length := float64(ends.Treble - ends.Bass)
	cut := [2]float64{float64(plan.Drawn.Bass), float64(plan.Drawn.Treble)}
	s := draw.Saddle{
		Title: words.SaddlePicture(), Desc: reader.SaddlePictureText(plan.Drawn.Bass, plan.Drawn.Treble),
		Length: length, Rise: crownRise, Cut: cut, LeftHanded: r.Instrument.LeftHanded,
		Ends:    [2]string{words.SideTitle(0), words.SideTitle(1)},
		Numbers: [2]string{reader.Down(plan.Drawn.Bass), reader.Down(plan.Drawn.Treble)},
		Zoom:    words.Magnified(draw.SaddleZoom(length, cut)),
	}
	for _, p := range plan.Strings {
		s.Strings = append(s.Strings, float64(p.Offset))
	}
	if follow, answered := r.Answer(job.AskFollow); answered {
		s.Letter = words.MarkLabels()[0]
		switch follow {
		case job.FollowPencil:
			s.PencilWidth, s.PencilCaption = float64(geometry.PencilWidth.Middle()), words.EdgeCounts()
		case job.FollowCaliper:
			s.Dots = true
		case job.FollowKnife:
			s.Beside = draw.KnifeThere
		case job.FollowCards:
			s.Beside = draw.CardsThere
		}
	}
	return picture(draw.SaddleCut(s))
}

// sideView is the bass string from the side, now and after the round.
func (a *App) sideView(r job.Record, plan job.Plan) (draw.Scene, bool) {
	if len(plan.Strings) == 0 || r.Instrument.Held > 0 {
		return draw.Scene{}, false
	}
	reader, p := a.reader(), plan.Strings[0]
	s := draw.Side{
		Title: words.SidePicture(), Desc: reader.AfterRound(r.Instrument, p), Scale: float64(r.Instrument.ScaleLength()), Fret: r.Instrument.ReadFret(),
		Nut: float64(r.Instrument.UsualNut(0)), Now: p.Reading, After: p.After,
		NowLabel: words.NowLabel(reader, p), AfterLabel: words.AfterLabel(reader, p), FretLabel: words.Number(r.Instrument.ReadFret()),
	}
	s.Exaggerated = words.Taller(draw.SideTimes(s))
	if r.Instrument.LeftHanded {
		return draw.Mirrored(draw.StringSide(s)), true
	}
	return draw.StringSide(s), true
}

func now() time.Time { return time.Now() }

// wholeNumber reads a count as typed.
func wholeNumber(text string) (int, bool) {
	n, err := strconv.Atoi(strings.TrimSpace(text))
	return n, err == nil && n >= 0
}
