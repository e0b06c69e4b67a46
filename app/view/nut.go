package view

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"gapwright/app/job"
)

func (a *App) fixNut(r job.Record) (string, []app.UI) { return "fixNut", nil }

func (a *App) fixRelief(r job.Record) (string, []app.UI) { return "fixRelief", nil }
