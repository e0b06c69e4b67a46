package view

import (
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// start is what the page's own script gives to Go; undefined on the server and in tests without a browser.
func start() (app.Value, bool) {
	if app.IsServer {
		return nil, false
	}
	v := app.Window().Get("gapwright")
	return v, v != nil && v.Truthy()
}

// watch follows what the page's script has to tell: whether everything is on the device, and whether a newer version waits.
func (a *App) watch(ctx app.Context) {
	page, ok := start()
	if !ok {
		return
	}
	page.Call("onOffline", app.FuncOf(func(_ app.Value, args []app.Value) any {
		if len(args) > 0 {
			state := args[0].String()
			ctx.Dispatch(func(app.Context) { a.offline = state })
		}
		return nil
	}))
	page.Call("onWaiting", app.FuncOf(func(app.Value, []app.Value) any {
		ctx.Dispatch(func(app.Context) { a.newer = true })
		return nil
	}))
	page.Call("onReplaced", app.FuncOf(func(app.Value, []app.Value) any {
		ctx.Dispatch(func(app.Context) { a.newer, a.replaced = false, true })
		return nil
	}))
}

// keepAwake asks the browser to leave the screen on, or no longer to.
func (a *App) keepAwake(on bool) {
	if on == a.awake {
		return
	}
	a.awake = on
	if page, ok := start(); ok {
		page.Call("keepAwake", on)
	}
}

func (a *App) useNewVersion() {
	if page, ok := start(); ok {
		page.Call("useNew")
	}
}

// toTop shows the new screen from its top and tells it to those who listen instead of looking.
func toTop() {
	if app.IsServer {
		return
	}
	app.Window().Call("scrollTo", 0, 0)
	title := app.Window().GetElementByID("title")
	if title != nil && title.Truthy() {
		title.Call("focus", map[string]any{"preventScroll": true})
	}
}

// toProblem brings the first field with something wrong in it before the eyes, with what is said of it.
func toProblem() {
	if app.IsServer {
		return
	}
	field := app.Window().Get("document").Call("querySelector", "#screen [aria-invalid=true]")
	if field.Truthy() {
		field.Call("scrollIntoView", map[string]any{"block": "center"})
	}
}

// readdress changes the address that is shown, without going anywhere.
func readdress(link string) {
	if app.IsServer {
		return
	}
	app.Window().Get("history").Call("replaceState", nil, "", link)
}

// focusOn moves to a field.
func focusOn(id string) {
	if app.IsServer {
		return
	}
	if field := app.Window().GetElementByID(id); field != nil && field.Truthy() {
		field.Call("focus")
	}
}

// setText changes what stands in a field.
func setText(id, text string) {
	if app.IsServer {
		return
	}
	if field := app.Window().GetElementByID(id); field != nil && field.Truthy() {
		field.Set("value", text)
	}
}

// download hands the person a file of that type, made of the parts.
func download(name, kind string, parts ...any) {
	window := app.Window()
	address := window.Get("URL").Call("createObjectURL", window.Get("Blob").New(parts, map[string]any{"type": kind}))
	link := window.Get("document").Call("createElement", "a")
	link.Set("href", address)
	link.Set("download", name)
	link.Call("click")
	time.AfterFunc(time.Minute, func() { window.Get("URL").Call("revokeObjectURL", address) }) // some fetch it late
}

// canShare tells whether the system takes what a page hands it.
func canShare() bool {
	return !app.IsServer && app.Window().Get("navigator").Get("share").Truthy()
}

// share hands out a text with the drawings that are found in the page, the text written under them if it shall be, and tells how that went: as
// web/share.js answers.
func share(ctx app.Context, title, text, from, name string, write bool, tell func(how string)) {
	var done app.Func
	done = app.FuncOf(func(_ app.Value, args []app.Value) any {
		done.Release()
		how := ""
		if len(args) > 0 {
			how = args[0].String()
		}
		ctx.Dispatch(func(app.Context) { tell(how) })
		return nil
	})
	app.Window().Call("gapwrightShare", title, text, from, name, write).Call("then", done)
}

// screenPixels are how many of the screen's own pixels one of the page's takes, and how many of the page's lie across the window.
func screenPixels() (ratio, wide float64) {
	if app.IsServer {
		return 1, 0
	}
	return app.Window().Get("devicePixelRatio").Float(), app.Window().Get("innerWidth").Float()
}
