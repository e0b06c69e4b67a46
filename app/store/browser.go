//go:build js && wasm

package store

import (
	"encoding/json"
	"errors"
	"slices"
	"strconv"
	"strings"
	"syscall/js"
)

// Browser returns the shelf of the page. Where web/journal.js is missing, every call ends in ErrBlocked.
func Browser() Shelf { return page{} }

// page passes on to window.gapwrightJournal.
type page struct{}

// journal calls a function of web/journal.js. A missing script, a missing function and one that throws are all ErrBlocked.
func journal(name string, with ...any) (answer js.Value, err error) {
	defer func() {
		if recover() != nil {
			err = ErrBlocked
		}
	}()
	script := js.Global().Get("gapwrightJournal")
	if script.Type() != js.TypeObject || script.Get(name).Type() != js.TypeFunction {
		return js.Undefined(), ErrBlocked
	}
	return script.Call(name, with...), nil
}

// failure makes an error of {why, name}.
func failure(told js.Value) error {
	if told.Type() != js.TypeObject {
		return errors.New("the browser gave no reason")
	}
	switch why := told.Get("why"); {
	case why.Type() != js.TypeString:
	case why.String() == "full":
		return ErrFull
	case why.String() == "blocked":
		return ErrBlocked
	}
	if name := told.Get("name"); name.Type() == js.TypeString {
		return errors.New(name.String())
	}
	return errors.New("the browser gave no reason")
}

// local calls one of the functions that answer at once, with {ok, value} or {ok, why, name}.
func local(name string, with ...any) (js.Value, error) {
	answer, err := journal(name, with...)
	if err != nil {
		return js.Undefined(), err
	}
	if answer.Type() != js.TypeObject || !answer.Get("ok").Truthy() {
		return js.Undefined(), failure(answer)
	}
	return answer.Get("value"), nil
}

// later calls one of the functions that answer by promise. The answer comes as an A, read from its JSON; the two callbacks are released
// with it.
func later[A any](name string, done func(A, error), with ...any) {
	var none A
	promise, err := journal(name, with...)
	if err != nil || promise.Type() != js.TypeObject || promise.Get("then").Type() != js.TypeFunction {
		done(none, ErrBlocked)
		return
	}
	var yes, no js.Func
	release := func() { yes.Release(); no.Release() }
	yes = js.FuncOf(func(_ js.Value, args []js.Value) any {
		release()
		var answer A
		if len(args) == 0 || args[0].IsUndefined() {
			done(answer, nil)
			return nil
		}
		if long, ok := any(&answer).(interface{ take(js.Value) }); ok {
			long.take(args[0])
		}
		err := json.Unmarshal([]byte(js.Global().Get("JSON").Call("stringify", args[0]).String()), &answer)
		done(answer, err)
		return nil
	})
	no = js.FuncOf(func(_ js.Value, args []js.Value) any {
		release()
		if len(args) == 0 {
			done(none, failure(js.Undefined()))
			return nil
		}
		done(none, failure(args[0]))
		return nil
	})
	promise.Call("then", yes, no)
}

func (page) Names() ([]string, error) {
	found, err := local("names")
	if err != nil {
		return nil, err
	}
	names := make([]string, found.Length())
	for i := range names {
		names[i] = found.Index(i).String()
	}
	return names, nil
}

func (p page) Texts() (map[string]string, error) {
	found, err := local("texts")
	if err != nil {
		return nil, err
	}
	texts := map[string]string{}
	if found.Type() == js.TypeString {
		name, rest, more := strings.Cut(found.String(), "\x00")
		for more {
			texts[name], rest, more = strings.Cut(rest, "\x00")
			name, rest, more = strings.Cut(rest, "\x00")
		}
		return texts, nil
	}
	names, err := p.Names()
	for _, name := range names {
		if texts[name], err = p.Text(name); err != nil {
			break
		}
	}
	return texts, err
}

func (page) Text(name string) (string, error) {
	found, err := local("text", name)
	if err != nil {
		return "", err
	}
	return found.String(), nil
}

func (page) SetText(name, text string) error {
	_, err := local("setText", name, text, LocalLimit)
	return err
}

func (page) RemoveText(name string) error {
	_, err := local("removeText", name)
	return err
}

// headsFound is what the script tells of heads. The two lists may be very long, and are not worth the way through JSON.
type headsFound struct {
	Heads          []Head   `json:"heads"`
	Kept           []string `json:"kept"`
	finished, same string
}

func (f *headsFound) take(told js.Value) {
	for name, list := range map[string]*string{"finished": &f.finished, "same": &f.same} {
		*list = told.Get(name).String()
		told.Set(name, "")
	}
}

func (page) Heads(answer func([]Head, []string, error)) {
	later("heads", func(f headsFound, err error) {
		if err == nil {
			f.Heads = bareHeads(bareHeads(f.Heads, f.finished, Head{Finished: true}), f.same, Head{Same: true})
		}
		answer(f.Heads, f.Kept, err)
	})
}

// bareHeads adds heads that are told as lines of sequence, sum, ancestors and key.
func bareHeads(heads []Head, lines string, head Head) []Head {
	heads = slices.Grow(heads, strings.Count(lines, "\n"))
	for line := range strings.SplitSeq(lines, "\n") {
		sequence, rest, _ := strings.Cut(line, " ")
		sum, rest, _ := strings.Cut(rest, " ")
		ancestors, key, ours := strings.Cut(rest, " ")
		n, err := strconv.ParseUint(sequence, 10, 64)
		if !ours || err != nil {
			continue
		}
		head.Key, head.Sequence, head.Sum, head.Line = key, n, sum, nil
		if ancestors != "" {
			head.Line = strings.Split(ancestors, ",")
		}
		heads = append(heads, head)
	}
	return heads
}

func (page) Read(key string, answer func(*Head, []string, error)) {
	type found struct {
		Head *Head    `json:"head"`
		Past []string `json:"past"`
	}
	later("read", func(f found, err error) { answer(f.Head, f.Past, err) }, key)
}

func (page) Newest(keys []string, answer func([]Head, error)) {
	type found struct {
		Heads []Head `json:"heads"`
	}
	names := make([]any, len(keys))
	for i, key := range keys {
		names[i] = key
	}
	later("newest", func(f found, err error) { answer(f.Heads, err) }, names)
}

func (page) Commit(c Commit, answer func(bool, *Head, error)) {
	type found struct {
		Conflict bool  `json:"conflict"`
		Head     *Head `json:"head"`
	}
	line := make([]any, len(c.Line))
	for i, sum := range c.Line {
		line[i] = sum
	}
	later("commit", func(f found, err error) { answer(f.Conflict, f.Head, err) }, map[string]any{"key": c.Key, "expect": c.Expect,
		"sequence": float64(c.Sequence), "sum": c.Sum, "line": line, "finished": c.Finished, "text": c.Text})
}

func (page) Keep(name, text string, answer func(error)) {
	later("keep", func(_ struct{}, err error) { answer(err) }, name, text)
}

func (page) Forget(name string, answer func(error)) {
	later("forget", func(_ struct{}, err error) { answer(err) }, name)
}

func (page) All(answer func([]Text, error)) {
	type found struct {
		Texts []Text `json:"texts"`
	}
	later("all", func(f found, err error) { answer(f.Texts, err) })
}

func (page) Persist(answer func(bool, error)) {
	type found struct {
		Granted bool `json:"granted"`
	}
	later("persist", func(f found, err error) { answer(f.Granted, err) })
}

// Watch is called once for the life of the page, so its callback is never released. Without the script nobody can move anything.
func (page) Watch(moved func(string)) {
	told := js.FuncOf(func(_ js.Value, args []js.Value) any {
		if len(args) > 0 && args[0].Type() == js.TypeString {
			moved(args[0].String())
		}
		return nil
	})
	if _, err := journal("watch", told); err != nil {
		told.Release()
	}
}
