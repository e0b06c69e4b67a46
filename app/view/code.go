package view

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"gapwright/app/words"
)

func (a *App) codeScreen() (string, []app.UI) {
	return "code/" + a.id, []app.UI{title(words.CodeName())}
}
