package view

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"gapwright/app/job"
)

func (a *App) stripPlan(r job.Record) (string, []app.UI) { return "stripPlan", nil }

func (a *App) lay(r job.Record) (string, []app.UI) { return "lay", nil }
