package view

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"gapwright/app/job"
)

// belongs is what is said of whose an instrument is and what it is found by, and whether it is on the Bench.
func (a *App) belongs(job.Instrument) app.UI { return elem("div") }
