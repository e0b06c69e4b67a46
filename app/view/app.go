// Package view draws the screens. It draws what the other packages say and turns taps into events; it computes nothing.
package view

import (
	"strings"
	"time"

	"github.com/google/uuid"
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"gapwright/app/job"
	"gapwright/app/store"
	"gapwright/app/words"
)

// Build names this build of the program; the linker sets it to the hash of what it was made from.
var Build = "dev"

// App is the whole of what is on the screen: one component, whatever the address.
type App struct {
	app.Compo
	desk     *store.Desk
	place    Place
	id       string
	prefix   string
	typed    map[string]string // what stands in the fields, as typed, by field
	picked   map[string]int    // what is chosen on the screen and not yet a fact, by control
	problem  map[string]string // what is wrong, by field; "" for the screen as a whole
	drafts   map[string]draft  // what was begun in other jobs, by job
	fetched  map[string]*job.Record
	kept     map[string]keptText // what the store keeps beside the documents, as far as it was looked at, by name
	pasts    map[string]past     // histories as they were last read, by instrument
	search   search              // what the Bench is searched for
	start    job.Instrument      // of which it is asked what is to be done; with an unknown family nothing is asked
	offline  string
	newer    bool   // a newer version waits on this device
	replaced bool   // another window has taken it up
	slowly   string // the job in which somebody with the short form reads one string at a time
	between  string // the job in which the strings between the outer ones are read too
	undue    string // the job in which what a change of the neck made void is not read again
	told     bool   // the person was told that another window changed what is shown
	atHand   bool   // the job was at hand when the person came: one that is fetched from the journal was changed by nobody
	sanding  bool   // the screen that is shown must stay on
	awake    bool   // the browser was asked for that
	opened   bool   // what is stored was compared once: what changes from now on was changed elsewhere
	copying  copying
	signed   string // who writes letters, as last typed
	drawn    int    // how often the screen was drawn
	shown    string // the key of the screen as it was last drawn
	taps     []func(ctx app.Context)
	unfolded map[string]bool  // what is drawn of what is folded on this screen, by name
	redraw   func()           // draws the screen, from anywhere
	big      bool             // what counts is shown in big numbers, where there are any
	settles  map[string]int64 // when strings are expected to have settled, in Unix milliseconds, by job; 0: nobody waits
}

// New returns the root component of the app.
func New() app.Composer { return &App{} }

// OnPreRender names the page that a host hands out.
func (a *App) OnPreRender(ctx app.Context) { ctx.Page().SetTitle(words.AppName()) }

// OnMount opens the documents: what local storage holds is on the first screen, the journal is compared after it.
func (a *App) OnMount(ctx app.Context) {
	a.typed, a.picked, a.problem = map[string]string{}, map[string]int{}, map[string]string{}
	a.drafts, a.fetched = map[string]draft{}, map[string]*job.Record{}
	a.unfolded = map[string]bool{}
	a.redraw, a.settles = func() { ctx.Dispatch(nil) }, map[string]int64{}
	a.prefix = strings.TrimSuffix(app.Getenv("GOAPP_ROOT_PREFIX"), "/")
	a.desk = store.NewDesk(store.Browser(), store.Options{
		Now:   time.Now,
		NewID: uuid.NewString,
		Build: Build,
		Post:  func(f func()) { ctx.Dispatch(func(app.Context) { f() }) },
		After: func(wait time.Duration, f func()) { time.AfterFunc(wait, f) },
	})
	a.desk.OnChange(func() {
		ctx.Dispatch(func(app.Context) { a.opened = a.opened || a.desk.Settled() }) // when all of it is compared
	})
	a.desk.OnMoved(func(key string) {
		if key == store.KindJob+"/"+a.id && a.opened && a.atHand {
			a.told = true
		}
		ctx.Update()
	})
	a.desk.Reconcile()
	a.desk.ReadLastBackup()
	a.watch(ctx)
	a.hear(ctx)
}

// OnNav reads the place from the address.
func (a *App) OnNav(ctx app.Context) {
	a.leave()
	at := ctx.Page().URL()
	a.place, a.id = PlaceOf(at.Path, a.prefix), at.Query().Get("id")
	a.told, a.start = false, job.Instrument{}
	clear(a.problem)
	a.leaveCopy()
	a.resume()
	a.come()
	if a.place == Bench && a.desk != nil {
		a.seeToKeeping()
	}
}

// draft is what was begun on the screen of a job and not told yet.
type draft struct {
	typed  map[string]string
	picked map[string]int
	events int // of the job: once it has gone on, its draft is of a screen that is no more
}

// leave keeps the draft of the job that was open, so that somebody who comes back to it is exactly where they were.
func (a *App) leave() {
	if a.desk == nil {
		return // a page that a host hands out
	}
	if r, ok := a.desk.Job(a.id); ok && a.place == Job {
		a.drafts[a.id] = draft{a.typed, a.picked, len(r.Events)}
	}
	a.typed, a.picked = map[string]string{}, map[string]int{}
}

// come takes up the draft of the job that is open now.
func (a *App) come() {
	if a.desk == nil {
		return
	}
	r, ok := a.desk.Job(a.id)
	a.atHand = ok
	if d, kept := a.drafts[a.id]; ok && kept && a.place == Job && d.events == len(r.Events) {
		a.typed, a.picked = d.typed, d.picked
	}
}

// Render draws the screen.
func (a *App) Render() app.UI {
	if a.desk == nil {
		return elem("div").Class("app").Body(
			elem("header").Class("bar").Body(elem("strong").Class("brand").Text(words.AppName())),
			elem("main").Class("screen").Body(
				elem("h1").Text(words.AppName()),
				elem("p").Class("lead").Text(words.AppDescription()),
				elem("p").Class("soft").Text(words.Opening()),
			),
		)
	}
	a.drawn++
	key, body := a.show()
	if key != a.shown && len(a.unfolded) > 0 { // on another screen everything is folded
		clear(a.unfolded)
		key, body = a.show()
	}
	a.shown = key
	a.keepAwake(a.sanding)
	return elem("div").Class("app").Body(
		a.bar(),
		elem("p").Class("notice notice-note").Hidden(!a.replaced).Text(words.Replaced()),
		&screen{Key: key, Body: body},
	)
}

// show picks the screen for the place.
func (a *App) show() (key string, body []app.UI) {
	a.sanding, a.taps = false, nil
	if a.start.Family != "" {
		return a.starting()
	}
	switch a.place {
	case Job:
		return a.jobScreen()
	case Instrument:
		return a.instrumentScreen()
	case Kit:
		return a.kitScreen()
	case About:
		return "about", a.aboutScreen()
	case Check:
		return a.checkScreen()
	case History:
		return a.historyScreen()
	case Letter:
		return a.letterScreen()
	case Code:
		return a.codeScreen()
	case Copy:
		return a.copyScreen()
	case Buzz:
		return a.buzzScreen()
	case Learn:
		return a.learnScreen()
	}
	return a.benchScreen()
}

// bar is the line at the top: where one is, the way back, and how safe everything is.
func (a *App) bar() app.UI {
	state := a.desk.State()
	link := func(p Place, name string) app.UI {
		current := ""
		if a.place == p {
			current = "page"
		}
		return elem("a").Class("bar-link").Attr("href", Link(a.prefix, p, "")).Attr("aria-current", current).Text(name)
	}
	return elem("header").Class("bar").Body(
		elem("nav").Class("bar-links").Aria("label", words.AppName()).Body(
			link(Bench, words.BenchName()), link(Kit, words.KitName()), link(About, words.AboutName())),
		a.safety(state),
	)
}

// safety says how safe everything is; where it is not, it leads to the Bench, which says why.
func (a *App) safety(state store.State) app.UI {
	mark := elem("span").Class("mark mark-" + markClass(state.Mark)).Role("status").Text(words.Mark(state))
	if state.Mark != store.NotSaved {
		return mark
	}
	return elem("a").Class("bar-link").Attr("href", Link(a.prefix, Bench, "")).Aria("label", words.Mark(state)+", "+words.SeeWhy()).Body(mark)
}

func markClass(m store.Mark) string {
	switch m {
	case store.Saved:
		return "saved"
	case store.Saving:
		return "saving"
	}
	return "unsaved"
}

// reader is the person who reads: their unit.
func (a *App) reader() words.Reader {
	kit, _ := a.desk.Kit()
	return words.Reader{Unit: kit.Unit}
}

// screen is one screen of the app. It is known by its key: another key is another screen, mounted afresh, so that no text, no open detail
// and no handler of the one before stays behind.
type screen struct {
	app.Compo
	Key  string
	Body []app.UI
}

// CompoID tells screens apart.
func (s *screen) CompoID() string { return s.Key }

// OnMount brings the reader to the top of the new screen.
func (s *screen) OnMount(ctx app.Context) { ctx.Defer(func(app.Context) { toTop() }) }

// Render draws what it was given.
func (s *screen) Render() app.UI {
	return elem("main").Class("screen").ID("screen").Attr("data-screen", s.Key).Body(s.Body...)
}

// tell gives facts to the job that is open. What it refuses is said on the screen, and nothing entered is lost.
func (a *App) tell(facts ...job.Fact) bool { return a.tellAt("", facts...) }

// tellAt is tell with the field where a refusal is to be said.
func (a *App) tellAt(field string, facts ...job.Fact) bool {
	clear(a.problem)
	before := a.far()
	if a.place == Check {
		if !a.beginCheck(field, facts) {
			return false
		}
	} else if err := a.desk.Record(a.id, facts...); err != nil {
		a.problem[field] = a.reader().Error(err)
		return false
	}
	then := a.picked["then"]
	clear(a.typed)
	clear(a.picked)
	if then > 0 { // of two strings that are read again this is the other
		a.picked["reread"] = then
	}
	a.told = false
	a.feel(before, facts)
	return true
}

func (a *App) goTo(ctx app.Context, p Place, id string) { ctx.Navigate(Link(a.prefix, p, id)) }

// lengths tells whether the fields hold lengths, and says beside each what is wrong with it; size is about how large these are.
func (a *App) lengths(unit job.Unit, size words.Size, fields ...string) bool {
	clear(a.problem)
	for _, field := range fields {
		if _, err := (job.Typed{Text: a.typed[field], Unit: unit}).Length(); err != nil {
			a.wrong(field, size, err)
		}
	}
	return len(a.problem) == 0
}

// wrong says beside a field what is wrong with what was typed there.
func (a *App) wrong(field string, size words.Size, err error) {
	a.problem[field] = a.reader().FieldError(err, size, len(a.problem) > 0)
}
