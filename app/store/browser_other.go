//go:build !js || !wasm

package store

// Browser returns the shelf of the page: here, where there is no browser, an empty one in memory.
func Browser() Shelf { return NewDevice().Tab() }
