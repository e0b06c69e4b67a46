// Least is the smallest app that go-app can make, one heading: what is larger or slower than this is ours.
package main

import "github.com/maxence-charriere/go-app/v10/pkg/app"

type heading struct{ app.Compo }

func (h *heading) Render() app.UI { return app.H1().Text("Least") }

func main() {
	app.Route("/", func() app.Composer { return &heading{} })
	app.RunWhenOnBrowser()
	serve()
}
