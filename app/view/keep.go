package view

import (
	"encoding/json"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"gapwright/app/job"
	"gapwright/app/store"
	"gapwright/app/words"
)

// What is remembered as told: that the browser was asked not to clear what is here, and that the person knows that it may.
const (
	toldAsked = "asked"
	toldKeep  = "keep"
)

// keptText is what the store keeps under a name beside the documents.
type keptText struct {
	doc     store.Document
	outcome store.Outcome
	text    string
	read    bool
}

// seeToKeeping asks the browser, once, not to clear what is here: when a job is done, or somebody comes back to the Bench with an instrument of their
// own, so that a browser which puts the question to the person does so when there is something to lose.
func (a *App) seeToKeeping() {
	if !a.desk.Settled() || a.desk.Told(toldAsked) || a.desk.State().Mark == store.NotSaved {
		return
	}
	for _, i := range a.desk.Instruments() {
		if i.Example {
			continue
		}
		a.desk.Tell(toldAsked)
		a.desk.Persist(func(granted bool) {
			if granted {
				a.desk.Tell(toldKeep)
			}
		})
		return
	}
}

// mayBeCleared reports whether the person is still to be told that a phone may clear what is here.
func (a *App) mayBeCleared() bool {
	return a.desk.Told(toldAsked) && !a.desk.Told(toldKeep) && !onHomeScreen()
}

// onHomeScreen reports whether the app was opened as one that is kept on the home screen.
func onHomeScreen() bool {
	if app.IsServer {
		return false
	}
	return app.Window().Get("navigator").Get("standalone").Truthy() || app.Window().Call("matchMedia", "(display-mode: standalone)").Get("matches").Bool()
}

// keptWarnings tell what is not saved, what was set aside, what parted, and that phones clear what is not used; each with what can be done.
func (a *App) keptWarnings() []app.UI {
	var all []app.UI
	warn := func(kind, text string, doing ...app.UI) {
		all = append(all, elem("div").Class("warning").Body(append([]app.UI{notice(kind, text)}, doing...)...))
	}
	backup := func(name string) app.UI {
		return elem("a").Class("button quiet").Attr("href", Link(a.prefix, Copy, "")).Text(name)
	}
	look := func(label string) app.UI {
		return a.button("quiet", label, func(app.Context) { a.picked["kept"] = 1 })
	}
	state := a.desk.State()
	if state.Mark == store.NotSaved && state.Why != store.Conflict {
		warn("caution", words.Unsaved(state), a.button("quiet", words.TryAgain(), func(app.Context) { a.desk.Retry() }), backup(words.SaveAFile()))
	} else if homes := a.desk.Homes(); homes.Journal == store.Blocked {
		says := words.KeepsNothing()
		if homes.Local == store.None {
			says = words.KeepsLoosely()
		}
		warn("caution", says, a.more(words.KeepsHow(), words.KeepsMore()))
	}
	if n := len(a.desk.Parted()); n > 0 {
		warn("caution", words.PartedLine(n), look(words.ChooseOne()))
	}
	if n := len(a.desk.Aside()); n > 0 {
		warn("caution", words.SetAside(n), look(words.LookAside()))
	}
	if state.Mark != store.NotSaved && a.mayBeCleared() { // one trouble at a time
		warn("note", words.KeepNotice(), a.more(words.KeepHow(), words.KeepMore()), backup(words.CopyName()),
			a.button("quiet", words.Understood(), func(app.Context) { a.desk.Tell(toldKeep) }))
	}
	return all
}

// keptScreen lets the person choose between two versions of a thing, one thing at a time, and then shows what was set aside. ok is false when there
// is nothing of either.
func (a *App) keptScreen() (key string, body []app.UI, ok bool) {
	if all := a.desk.Parted(); len(all) > 0 {
		key, body = a.partedScreen(all[0])
		return key, body, true
	}
	if names := a.desk.Aside(); len(names) > 0 {
		return "aside", a.asideScreen(names), true
	}
	delete(a.picked, "kept")
	return "", nil, false
}

// keptAs gives what is kept under a name, read once.
func (a *App) keptAs(name string) keptText {
	if k, asked := a.kept[name]; asked {
		return k
	}
	if a.kept == nil {
		a.kept = map[string]keptText{}
	}
	a.kept[name] = keptText{}
	a.desk.Kept(name, func(doc store.Document, outcome store.Outcome, text string) {
		a.kept[name] = keptText{doc, outcome, text, true}
	})
	return a.kept[name]
}

// nameOf is what the thing with that key is called here, "" when it is not known.
func (a *App) nameOf(key, kind string) string {
	if key == kind {
		return ""
	}
	id := key[len(kind)+1:]
	switch kind {
	case store.KindInstrument:
		if i, ok := a.desk.Instrument(id); ok {
			return words.Instrument(i)
		}
	case store.KindJob:
		if r, ok := a.desk.Job(id); ok {
			return words.Instrument(r.Instrument)
		}
	}
	return ""
}

// partedScreen shows in what two versions of one thing differ, and asks which holds.
func (a *App) partedScreen(p store.Parted) (string, []app.UI) {
	key, kind := a.desk.KeyOf(p.Kept)
	name := a.nameOf(key, kind)
	here, outcome := a.desk.Get(key)
	other := a.keptAs(p.Kept)
	done := func(ok bool) {
		if !ok {
			a.problem[""] = words.PartedFailed()
		}
	}
	do := func(class, label string, deed func() error) app.UI {
		return a.button(class, label, func(app.Context) {
			clear(a.problem)
			if err := deed(); err != nil {
				a.problem[""] = a.reader().Error(err)
			}
		})
	}
	leave := func(label string) app.UI {
		return do("main", label, func() error { a.desk.Forget(p.Kept, done); return nil })
	}
	screen := func(state string, body ...app.UI) (string, []app.UI) {
		return "parted-" + state + "/" + p.Kept, append([]app.UI{title(words.PartedTitle()), lead(words.PartedLead(kind, name)), a.trouble()}, body...)
	}
	switch {
	case !other.read:
		return screen("reading", soft(words.PartedReading()), a.backFromKept("quiet"))
	case other.outcome == store.Newer || outcome == store.Newer:
		return screen("newer", notice("note", words.PartedNewer()), foot(a.backFromKept("main")))
	case other.outcome == store.Unreachable || outcome == store.Unreachable:
		return screen("silent", notice("caution", words.Unsaved(store.State{Why: store.NoAnswer})), foot(do("main", words.TryAgain(), func() error {
			delete(a.kept, p.Kept)
			a.desk.Retry()
			return nil
		}), a.backFromKept("quiet")))
	case !readable(other.outcome):
		return screen("unread", notice("caution", words.PartedUnread()), foot(leave(words.PartedLeave()), a.backFromKept("quiet")))
	}
	differ := a.differences(kind, here, other.doc)
	if len(differ) == 0 {
		return screen("alike", soft(words.PartedAlike()), foot(leave(words.GoOn()), a.backFromKept("quiet")))
	}
	others := []app.UI{do("quiet", words.PartedTake(), func() error { return a.desk.TakeOther(p, other.doc, done) })}
	if kind == store.KindInstrument {
		others = append(others, do("quiet", words.PartedSecond(), func() error {
			return a.desk.SecondInstrument(p, other.doc, words.SecondName(name), done)
		}))
	}
	var rows []app.UI
	for _, each := range differ {
		rows = append(rows, elem("div").Class("row").Body(elem("span").Class("row-name").Text(each.Of), elem("span").Class("row-value").Text(each.Here),
			elem("span").Class("row-note").Text(words.PartedOther()+each.Other)))
	}
	return screen("choose", elem("div").Class("rows").Body(rows...), a.more(words.More(), words.PartedMore()),
		foot(leave(words.PartedLeave()), append(others, a.backFromKept("quiet"))...))
}

func readable(o store.Outcome) bool { return o == store.Fine || o == store.Migrated }

// differences tells in what two versions of one thing differ; what cannot be read is nothing.
func (a *App) differences(kind string, here, other store.Document) []words.Difference {
	switch kind {
	case store.KindKit:
		var x, y job.Kit
		json.Unmarshal(here.Body, &x)
		json.Unmarshal(other.Body, &y)
		return a.reader().Kits(x, y)
	case store.KindInstrument:
		var x, y job.Instrument
		json.Unmarshal(here.Body, &x)
		json.Unmarshal(other.Body, &y)
		return a.reader().Profiles(x, y)
	case store.KindJob:
		return words.Jobs(store.RecordOf(here), store.RecordOf(other))
	}
	return nil
}

// asideScreen lists what could not be read, hands it out as a file, and deletes it when the person says so twice.
func (a *App) asideScreen(names []string) []app.UI {
	var rows []app.UI
	var texts []store.Text
	for _, name := range names {
		key, kind := a.desk.KeyOf(name)
		k := a.keptAs(name)
		if k.read && k.text != "" {
			texts = append(texts, store.Text{Home: "journal", Name: name, Text: k.text})
		}
		_, outcome := a.desk.Get(key)
		whole := readable(outcome) || a.desk.Finished(key)
		rows = append(rows, elem("div").Class("row").Body(elem("span").Class("row-name").Text(words.AsideName(kind, a.nameOf(key, kind))),
			elem("span").Class("row-value").Text(words.AsideSize(len([]rune(k.text)))), elem("span").Class("row-note").Text(words.AsideNote(k.outcome, whole))))
	}
	drop := a.button("quiet", words.AsideDelete(), func(app.Context) { a.picked["drop"] = 1 })
	if a.picked["drop"] == 1 {
		drop = a.button("quiet", words.AsideSure(), func(app.Context) {
			delete(a.picked, "drop")
			clear(a.problem)
			for _, name := range names {
				a.desk.Forget(name, func(ok bool) {
					if !ok {
						a.problem[""] = words.PartedFailed()
					}
				})
			}
		})
	}
	return []app.UI{title(words.AsideTitle()), lead(words.AsideLead()), a.trouble(), elem("div").Class("rows").Body(rows...),
		foot(a.button("main", words.AsideSave(), func(app.Context) {
			if data, err := json.Marshal(texts); err == nil {
				download(words.AsideFile(), "application/json", string(data))
			}
		}), drop, a.backFromKept("quiet"))}
}

// backFromKept leads back to the Bench.
func (a *App) backFromKept(class string) app.UI {
	return a.button(class, words.Back(), func(app.Context) {
		clear(a.problem)
		delete(a.picked, "kept")
		delete(a.picked, "drop")
	})
}
