package view

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"gapwright/app/job"
)

func (a *App) blankPlan(r job.Record) (string, []app.UI) { return "blankPlan", nil }

func (a *App) makeSaddle(r job.Record) (string, []app.UI) { return "makeSaddle", nil }
