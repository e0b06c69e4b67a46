//go:build js && wasm && crash

package main

import "syscall/js"

// A program built with the tag crash ends at a word from the page, for the test of what is shown then.
func init() {
	js.Global().Set("crash", js.FuncOf(func(js.Value, []js.Value) any { panic("as asked") }))
}
