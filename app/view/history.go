package view

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"gapwright/app/words"
)

func (a *App) historyScreen() (string, []app.UI) {
	return "history/" + a.id, []app.UI{title(words.HistoryName())}
}
