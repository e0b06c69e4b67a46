// Package view draws the screens. It draws what the other packages say and turns taps into events; it computes nothing.
package view

import "github.com/maxence-charriere/go-app/v10/pkg/app"

// App is the whole of what is on the screen: one component, whatever the address.
type App struct {
	app.Compo
}

// New returns the root component of the app.
func New() app.Composer { return &App{} }

// Render draws the screen.
func (a *App) Render() app.UI {
	return app.Main().Body(app.H1().Text("Gapwright"))
}
