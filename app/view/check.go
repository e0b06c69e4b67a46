package view

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"gapwright/app/words"
)

func (a *App) checkScreen() (string, []app.UI) {
	return "check/" + a.id, []app.UI{title(words.CheckName())}
}
