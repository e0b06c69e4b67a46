package view

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"gapwright/app/words"
)

func (a *App) copyScreen() (string, []app.UI) {
	return "copy/" + a.id, []app.UI{title(words.CopyName())}
}
