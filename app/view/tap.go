package view

import (
	"strconv"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// A control carries the number of what a tap on it does, and one listener finds it by that: a listener for each control, made anew with every
// drawing, took longer than drawing it. The deeds are those of the screen as it was last drawn, so that no tap acts on what was true before.

const (
	tapMark  = "data-tap"  // the number of a deed, on a control
	foldMark = "data-fold" // the name of what is folded, on its details
)

// tap takes what a tap does and returns the mark for the control.
func (a *App) tap(do func(ctx app.Context)) string {
	a.taps = append(a.taps, do)
	return strconv.Itoa(len(a.taps) - 1)
}

// tapped finds what a tap on an element, or on what it lies in, does. It is asked at once, before anything is drawn anew.
func (a *App) tapped(target app.Value) func(ctx app.Context) {
	control := target.Call("closest", "["+tapMark+"]")
	if !control.Truthy() {
		return nil
	}
	n, err := strconv.Atoi(control.Call("getAttribute", tapMark).String())
	if err != nil || n >= len(a.taps) {
		return nil
	}
	return a.taps[n]
}

// hear begins to hear taps, and what is unfolded.
func (a *App) hear(ctx app.Context) {
	if app.IsServer {
		return
	}
	document := app.Window().Get("document")
	document.Call("addEventListener", "click", app.FuncOf(func(_ app.Value, args []app.Value) any {
		if do := a.tapped(args[0].Get("target")); do != nil {
			ctx.Dispatch(func(ctx app.Context) {
				if do(ctx); len(a.problem) > 0 {
					ctx.Defer(func(app.Context) { toProblem() })
				}
			})
		}
		return nil
	}))
	document.Call("addEventListener", "toggle", app.FuncOf(func(_ app.Value, args []app.Value) any {
		details := args[0].Get("target")
		if details.Get("open").Truthy() && details.Call("hasAttribute", foldMark).Bool() {
			name := details.Call("getAttribute", foldMark).String()
			ctx.Dispatch(func(app.Context) { a.unfolded[name] = true })
		}
		return nil
	}), true) // it does not rise
}
