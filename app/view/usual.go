package view

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"gapwright/app/job"
)

// wont is what is usual of an instrument, to be changed.
func (a *App) wont(job.Instrument) app.UI { return elem("div") }
