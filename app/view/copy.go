package view

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"gapwright/app/draw"
	"gapwright/app/store"
	"gapwright/app/words"
)

// copying is what is under way on the place Copy.
type copying struct {
	doing   string          // what is done just now, in words; "" for nothing
	part    float64         // of it, 0 to 1
	size    float64         // of the file
	found   *store.Restore  // a file that was read and not restored yet
	told    *store.Restored // of a restore that has ended
	failed  string          // why not to its end
	undone  string          // what taking back has done
	saved   string          // what is said of the file that was saved
	kind    string          // and how
	last    store.Restored  // the restore that can be taken back
	undoing bool            // there is one
	asked   bool            // it was asked for
}

// copyScreen saves a backup, restores one and takes that back. Nothing is written before the person has seen what would be.
func (a *App) copyScreen() (string, []app.UI) {
	c := &a.copying
	switch {
	case c.doing != "":
		return "copy-busy", []app.UI{title(c.doing),
			elem("progress").Aria("label", c.doing).Attr("value", c.part).Attr("max", 1)}
	case c.found != nil:
		return "copy-found", a.foundScreen(c.found)
	case c.told != nil:
		return "copy-told", a.restoredScreen(*c.told)
	case c.undone != "":
		return "copy-undone", []app.UI{title(words.UndoneTitle()), lead(c.undone), foot(a.toBench("main", words.DoneRestoring()))}
	}
	if !c.asked && a.desk.Settled() {
		c.asked = true
		a.desk.LastRestore(func(last store.Restored, ok bool) { c.last, c.undoing = last, ok })
	}
	of := ""
	if i, ok := a.desk.Instrument(a.id); ok {
		of = words.Instrument(i)
	} else if a.id != "" {
		return a.nothing()
	}
	last := ""
	if at, jobs, ok := a.desk.SinceBackup(); ok && of == "" && c.saved == "" {
		last = words.LastBackup(at, jobs)
	}
	return "copy/" + a.id, []app.UI{title(words.CopyTitle(of)), lead(words.CopyLead(of != "")), still(draw.ToFile), a.trouble(),
		elem("div").Class("cards").Role("status").Hidden(c.saved == "").Body(notice(c.kind, c.saved)),
		elem("p").Class("soft").Hidden(last == "").Text(last),
		elem("div").Class("warning").Hidden(!c.undoing).Body(
			fold(words.UndoRestore(), soft(words.LastRestore(c.last)), soft(words.UndoRestoreMore()),
				a.button("", words.UndoRestoreSure(), a.undoRestore))),
		a.more(words.More(), words.CopyMore()),
		foot(a.button("main", words.SaveBackup(), func(ctx app.Context) { a.saveBackup(of) }), a.chooseFile())}
}

// chooseFile is a button that opens the system's own list of files.
func (a *App) chooseFile() app.UI {
	return elem("label").Class("button quiet file").Body(
		elem("span").Text(words.RestoreFrom()),
		app.Input().Type("file").ID("file").OnChange(func(ctx app.Context, e app.Event) {
			files := ctx.JSSrc().Get("files")
			if !files.Truthy() || files.Get("length").Int() == 0 {
				return
			}
			file := files.Index(0)
			a.readBackup(file)
			ctx.JSSrc().Set("value", "") // the same file may be chosen again
		}, a.scope("file")))
}

// saveBackup hands out a file. Its pieces leave the program one by one.
func (a *App) saveBackup(of string) {
	blob := app.Window().Get("Blob")
	pieces := []any{""}
	clear(a.problem)
	c := &a.copying
	c.doing, c.saved = words.SavingBackup(), ""
	a.desk.Backup(a.id, func(piece string) { pieces = append(pieces, blob.New([]any{piece})) }, func(made store.Backup) {
		pieces[0] = made.First
		download(words.BackupFile(of, made.Made), "text/plain", append(pieces, made.Last)...)
		c.doing, c.saved, c.kind = "", words.BackupSaved(), "done"
		if !made.Whole {
			c.saved, c.kind = words.BackupNotWhole(), "caution"
		} else if made.Instrument == "" {
			a.desk.RememberBackup(made.Made)
		}
	})
}

// pieces gives a file of the browser's piece by piece.
func pieces(file app.Value) store.Source {
	const size = 1 << 20
	return func(from int64, give func([]byte, error)) {
		var yes, no app.Func
		release := func() { yes.Release(); no.Release() }
		yes = app.FuncOf(func(_ app.Value, args []app.Value) any {
			release()
			bytes := app.Window().Get("Uint8Array").New(args[0])
			piece := make([]byte, bytes.Get("length").Int())
			app.CopyBytesToGo(piece, bytes)
			give(piece, nil)
			return nil
		})
		no = app.FuncOf(func(app.Value, []app.Value) any {
			release()
			give(nil, store.ErrBlocked)
			return nil
		})
		file.Call("slice", float64(from), float64(from+size)).Call("arrayBuffer").Call("then", yes, no)
	}
}

// readBackup compares a file with what is here.
func (a *App) readBackup(file app.Value) {
	clear(a.problem)
	c := &a.copying
	size := file.Get("size").Float()
	if size > store.BackupLimit {
		a.problem[""] = words.RestoreError(store.ErrTooLarge)
		return
	}
	c.doing, c.part, c.saved = words.ReadingFile(), 0, ""
	a.desk.ReadBackup(pieces(file), func(read int64) { c.part = float64(read) / max(size, 1) }, func(found *store.Restore, err error) {
		c.doing, c.found = "", found
		if err != nil {
			a.problem[""] = words.RestoreError(err)
		}
		c.size = size
	})
}

// foundScreen says what a backup would do, and does it at a tap.
func (a *App) foundScreen(r *store.Restore) []app.UI {
	var changed, out, same []app.UI
	row := func(name, line string, to *[]app.UI) {
		*to = append(*to, elem("div").Class("row-line").Body(elem("div").Class("row-value").Text(name), elem("div").Class("row-note").Text(line)))
	}
	for _, p := range r.Parts {
		switch {
		case p.Changes():
			row(words.RestorePart(p), words.RestoreStands(p), &changed)
		case p.Pressing() >= store.Busy:
			row(words.RestorePart(p), words.RestoreStands(p), &out)
		default:
			row(words.RestorePart(p), words.RestoreStands(p), &same)
		}
	}
	if line := words.RestoreKit(r.Kit); line != "" {
		to := &same
		switch {
		case r.Kit.Writes():
			to = &changed
		case r.Kit >= store.Busy:
			to = &out
		}
		row(words.KitTitle(), line, to)
	}
	damage := words.RestoreDamage(r)
	body := []app.UI{title(words.RestoreTitle()), lead(words.RestoreLead(r)),
		elem("div").Class("cards").Hidden(damage == "").Body(notice("caution", damage)),
	}
	list := func(rows []app.UI) {
		shown := min(len(rows), shownParts)
		body = append(body, elem("div").Class("rows").Body(rows[:shown]...))
		if len(rows) > shown {
			body = append(body, fold(words.RestoreAll(len(rows)-shown), elem("div").Class("rows").Body(rows[shown:]...)))
		}
	}
	list(changed)
	if len(out) > 0 {
		body = append(body, elem("h2").Text(words.RestoreOthers()))
		list(out)
	}
	if len(same) > 0 {
		body = append(body, fold(words.RestoreSame(len(same)), elem("div").Class("rows").Body(same...)))
	}
	leave := func(app.Context) { a.copying = copying{} }
	if r.Changes == 0 {
		return append(body, foot(a.button("main", words.Back(), leave)))
	}
	return append(body, foot(a.button("main", words.RestoreNow(), func(app.Context) { a.restore(r) }), a.button("quiet", words.RestoreNot(), leave)))
}

// shownParts is how many instruments are listed before the rest is folded.
const shownParts = 12

func (a *App) restore(r *store.Restore) {
	c := &a.copying
	c.found, c.doing, c.part = nil, words.Restoring(), 0
	a.desk.Restore(r, func(read int64) { c.part = float64(read) / max(c.size, 1) }, func(told store.Restored, err error) {
		*c = copying{told: &told}
		a.forgetRead()
		if err != nil {
			c.failed = words.RestoreError(err)
		}
	})
}

// restoredScreen tells what a restore has done, and takes it back at a tap.
func (a *App) restoredScreen(told store.Restored) []app.UI {
	failed := a.copying.failed
	heading := words.RestoredTitle()
	if failed != "" {
		heading = words.RestoreHalf()
	}
	return []app.UI{title(heading), lead(words.RestoredLine(told)),
		elem("div").Class("cards").Hidden(failed == "").Body(notice("caution", failed)),
		elem("div").Class("foot-all").Body(
			elem("div").Class("foot").Body(a.toBench("main", words.DoneRestoring())),
			elem("div").Class("foot-others").Hidden(told.Written+told.Beside == 0).Body(a.button("quiet", words.UndoRestore(), a.undoRestore)))}
}

// undoRestore puts back what was there before the last restore.
func (a *App) undoRestore(app.Context) {
	c := &a.copying
	*c = copying{doing: words.TakingBack()}
	a.desk.UndoRestore(func(undone, stayed int, err error) {
		*c = copying{undone: words.UndoneLine(undone, stayed)}
		a.forgetRead()
		if err != nil {
			c.undone = ""
			a.problem[""] = words.RestoreError(err)
		}
	})
}

// forgetRead lets what was read of finished jobs be read anew.
func (a *App) forgetRead() {
	clear(a.fetched)
	clear(a.pasts)
}

// reminder is a quiet line when there is something worth a backup.
func (a *App) reminder() app.UI {
	at, jobs, due := a.desk.BackupDue()
	return elem("a").Class("button quiet small").Attr("href", Link(a.prefix, Copy, "")).Hidden(!due).Text(words.BackupDue(at, jobs))
}

// restoreLink is for a device on which nothing is yet.
func (a *App) restoreLink() app.UI {
	return elem("a").Class("button quiet").Attr("href", Link(a.prefix, Copy, "")).Text(words.RestoreHere())
}

// leaveCopy forgets what was begun there, unless it is under way.
func (a *App) leaveCopy() {
	if a.copying.doing == "" {
		a.copying = copying{}
	}
}
