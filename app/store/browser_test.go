//go:build js && wasm

package store

import (
	"errors"
	"syscall/js"
	"testing"
)

// In a page with web/journal.js the browser's shelf keeps the contract; without it, every call ends in ErrBlocked and none panics.
func TestBrowserKeepsTheContract(t *testing.T) {
	if js.Global().Get("gapwrightJournal").Truthy() {
		contract(t, Browser(), Browser())
		return
	}
	s := Browser()
	_, names := s.Names()
	_, text := s.Text("kit")
	for i, err := range []error{names, text, s.SetText("kit", "x"), s.RemoveText("kit")} {
		if !errors.Is(err, ErrBlocked) {
			t.Errorf("local call %d without a script: %v", i, err)
		}
	}
	blocked := 0
	hear := func(err error) {
		if errors.Is(err, ErrBlocked) {
			blocked++
		}
	}
	s.Heads(func(_ []Head, _ []string, err error) { hear(err) })
	s.Read("kit", func(_ *Head, _ []string, err error) { hear(err) })
	s.Commit(Commit{}, func(_ bool, _ *Head, err error) { hear(err) })
	s.Keep("aside/kit/1", "x", hear)
	s.Forget("aside/kit/1", hear)
	s.All(func(_ []Text, err error) { hear(err) })
	s.Persist(func(_ bool, err error) { hear(err) })
	s.Watch(func(string) {})
	if blocked != 7 {
		t.Errorf("%d of 7 journal calls without a script ended in ErrBlocked", blocked)
	}
}
