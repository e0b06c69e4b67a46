package view

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"gapwright/app/draw"
	"gapwright/app/job"
	"gapwright/app/words"
)

// learnScreen is one of the short pages, or the list of them.
func (a *App) learnScreen() (string, []app.UI) {
	pages := words.Learn()
	for n, p := range pages {
		if p.ID != a.id {
			continue
		}
		body := []app.UI{title(p.Title)}
		if p.Kind == words.LearnPicture {
			body = append(body, a.lesson(p.Lead)...)
		} else {
			body = append(body, lead(p.Lead))
		}
		for _, part := range p.Parts {
			body = append(body, learnPart(p.Kind, part)...)
		}
		next, name := Link(a.prefix, Learn, ""), words.AllPages()
		if n+1 < len(pages) {
			next, name = Link(a.prefix, Learn, pages[n+1].ID), words.NextPage()
		}
		return "learn/" + p.ID, append(body, foot(elem("a").Class("button main").Attr("href", next).Text(name)))
	}
	return "learn", []app.UI{title(words.LearnName()), lead(words.LearnLead()), a.learnLinks()}
}

// learnLinks lead to the pages.
func (a *App) learnLinks() app.UI {
	var all []app.UI
	for _, p := range words.Learn() {
		all = append(all, elem("a").Class("card").Attr("href", Link(a.prefix, Learn, p.ID)).Body(elem("strong").Text(p.Title)))
	}
	return elem("nav").Class("menu").Aria("label", words.LearnName()).Body(all...)
}

// learnPart lays out some lines of a page.
func learnPart(kind words.LearnKind, part words.LearnPart) []app.UI {
	var lines []app.UI
	for _, l := range part.Lines {
		if kind == words.LearnTerms {
			lines = append(lines, fold(l[0], elem("p").Text(l[1])))
			continue
		}
		lines = append(lines, elem("li").Body(elem("strong").Text(l[0]+" "), elem("span").Text(l[1])))
	}
	switch kind {
	case words.LearnTerms:
		return []app.UI{elem("div").Body(lines...)}
	case words.LearnOrder:
		return []app.UI{elem("ol").Class("learn").Body(lines...)}
	case words.LearnPicture:
		return []app.UI{fold(words.More(), elem("ul").Class("learn").Body(lines...))}
	}
	return []app.UI{elem("h2").Text(part.Head), elem("ul").Class("learn").Body(lines...)}
}

// lesson is the picture to try: one string, and what nut, relief and saddle do to it.
func (a *App) lesson(said string) []app.UI {
	reader := a.reader()
	moves := job.Moves{a.picked["move-0"], a.picked["move-1"], a.picked["move-2"]}
	part := a.picked["part"]
	from, _ := moves.With(part, -a.picked["by"])
	var lessons [3]job.Lesson // as usual, before the last step, now
	for n, m := range [3]job.Moves{{}, from, moves} {
		var err error
		if lessons[n], err = job.Learn(m, reader.Unit); err != nil {
			return []app.UI{notice("stop", reader.Error(err))}
		}
	}
	usual, now := lessons[0], lessons[2]
	switch {
	case a.picked["end"] == 1:
		said = words.AsFar(part)
	case from != moves:
		said = reader.MovedLine(part, lessons[1], now)
	}
	ends := func(l job.Lesson) [2]float64 { return [2]float64{l.Profile.Nut, float64(l.Profile.Now.Low)} }
	p := now.Profile
	scene := draw.LearnPicture(draw.Learn{Title: words.LearnPictureName(), Desc: reader.LearnPictureText(now), Frets: p.Frets, Tops: p.Tops, Length: p.Length,
		Ends: ends(now), Before: ends(usual), First: now.Least().First, Room: room(now.Worst), Names: [2]string{words.Fret(1), words.Fret(12)},
		Gaps: [2]string{reader.Length(now.First), reader.Length(now.Twelfth)}, Exaggerated: words.Taller(draw.LearnTimes)})
	body := []app.UI{
		elem("p").Class("lead two-lines").Role("status").Text(said),
		picture(scene),
		elem("p").Class("off two-lines").Role("status").Text(words.LeastLine(now))}
	var steppers []app.UI
	for part := range moves {
		move := func(by int) func(app.Context) {
			return func(app.Context) {
				next, ok := moves.With(part, by)
				a.picked["part"], a.picked["by"], a.picked["end"] = part, by, 0
				if !ok {
					next, a.picked["by"], a.picked["end"] = moves, 0, 1
				}
				a.picked["move-"+words.Number(part)] = next[part]
			}
		}
		steppers = append(steppers, a.stepper("move-"+words.Number(part), words.MovedPart(part), reader.MovedTo(part, now), words.Lower(), words.Higher(), move(-1), move(1)))
	}
	return append(body, elem("div").Class("turning moving").Body(steppers...), a.button("quiet", words.AsUsualAgain(), func(app.Context) { clear(a.picked) }))
}
