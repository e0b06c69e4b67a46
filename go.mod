module gapwright

go 1.26.8

require (
	github.com/google/uuid v1.6.0 // indirect
	github.com/maxence-charriere/go-app/v10 v10.1.11 // indirect
)
