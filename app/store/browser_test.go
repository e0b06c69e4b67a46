//go:build js && wasm

package store

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
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
	_, texts := s.Texts()
	for i, err := range []error{names, text, texts, s.SetText("kit", "x"), s.RemoveText("kit")} {
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
	s.Newest([]string{"kit"}, func(_ []Head, err error) { hear(err) })
	s.Commit(Commit{}, func(_ bool, _ *Head, err error) { hear(err) })
	s.Keep("aside/kit/1", "x", hear)
	s.Forget("aside/kit/1", hear)
	s.All(func(_ []Text, err error) { hear(err) })
	s.Persist(func(_ bool, err error) { hear(err) })
	s.Watch(func(string) {})
	if blocked != 8 {
		t.Errorf("%d of 8 journal calls without a script ended in ErrBlocked", blocked)
	}
}

// TestPage is no test by itself: in a page that asks for it, it puts a keeper into window.keeper and stays, so that the browser tests can
// open it in several tabs, kill the browser and spoil its stores.
func TestPage(t *testing.T) {
	if os.Getenv("PAGE") == "" {
		t.Skip("only for a page of the browser tests")
	}
	k := Open(Browser(), Options{Build: "test", Writer: os.Getenv("PAGE"), NewID: func() string { return os.Getenv("PAGE") }, Kinds: (&world{}).kinds()})
	function := func(f func(args []js.Value) any) js.Func {
		return js.FuncOf(func(_ js.Value, args []js.Value) any { return f(args) })
	}
	state := func() any {
		s := k.State()
		return fmt.Sprint([]string{"saved", "saving", "not saved"}[s.Mark], " ", []string{"", "full", "blocked", "conflict", "no answer", "other"}[s.Why])
	}
	js.Global().Set("keeper", map[string]any{
		"settled": function(func([]js.Value) any { return k.Settled() }),
		"state":   function(func([]js.Value) any { return state() }),
		"reports": function(func([]js.Value) any { return len(k.Reports()) }),
		"keys":    function(func(args []js.Value) any { return fmt.Sprint(k.Keys(args[0].String())) }),
		"finish":  function(func(args []js.Value) any { return k.Finish(args[0].String()) == nil }),
		"retry":   function(func([]js.Value) any { k.Retry(); return nil }),
		"get": function(func(args []js.Value) any {
			d, _ := k.Get(args[0].String())
			return string(d.Body)
		}),
		// add puts one more fact into a job and calls back when it is saved or not.
		"add": function(func(args []js.Value) any {
			key, fact, tell := args[0].String(), args[1].String(), args[2]
			list, _ := facts(k, key)
			body, _ := json.Marshal(append(list, fact))
			if err := k.Put(key, "job", body); err != nil {
				t.Error(err)
			}
			k.WhenSaved(key, func(ok bool) { tell.Invoke(ok) })
			return nil
		}),
	})
	k.Reconcile()
	select {}
}
