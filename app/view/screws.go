package view

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"gapwright/app/job"
)

func (a *App) turnPlan(r job.Record) (string, []app.UI) { return "turnPlan", nil }

func (a *App) turn(r job.Record) (string, []app.UI) { return "turn", nil }
