// Package web holds what the browser is given besides Go: styles, scripts, the worker and the page's frame.
package web

import "embed"

// Files is this folder as it was when the program was built.
//
//go:embed *
var Files embed.FS
