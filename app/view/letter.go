package view

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"gapwright/app/words"
)

func (a *App) letterScreen() (string, []app.UI) {
	return "letter/" + a.id, []app.UI{title(words.LetterName())}
}
