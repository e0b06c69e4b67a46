package store

import (
	"errors"
	"slices"
	"strings"
	"testing"
	"time"
)

// contract is what every shelf promises. a and b are two pages on one origin, or the same one twice.
func contract(t *testing.T, a, b Shelf) {
	t.Helper()
	unique := time.Now().Format("150405-000000000")
	key := "job/" + strings.ReplaceAll(unique, ".", "-")

	// Local storage.
	if text, err := a.Text(key); text != "" || err != nil {
		t.Fatalf("Text of what is not there = %q, %v", text, err)
	}
	if err := a.SetText(key, "~1 über 𝄞 <&>"); err != nil {
		t.Fatal(err)
	}
	if text, err := b.Text(key); text != "~1 über 𝄞 <&>" || err != nil {
		t.Errorf("the other page reads %q, %v", text, err)
	}
	if texts, err := b.Texts(); texts[key] != "~1 über 𝄞 <&>" || err != nil {
		t.Errorf("Texts = %q, %v", texts, err)
	}
	check(t, a.SetText(key, "~1 a sign \x00 that stands between"))
	check(t, a.SetText(key+"-2", "~1"))
	if texts, err := b.Texts(); texts[key] != "~1 a sign \x00 that stands between" || texts[key+"-2"] != "~1" || err != nil {
		t.Errorf("Texts = %q, %v", texts, err)
	}
	check(t, a.RemoveText(key+"-2"))
	check(t, a.SetText(key, "~1 über 𝄞 <&>"))
	if names, err := b.Names(); !slices.Contains(names, key) || err != nil {
		t.Errorf("Names = %q, %v, without %s", names, err, key)
	}
	if err := a.SetText(key, strings.Repeat("x", LocalLimit)); !errors.Is(err, ErrFull) {
		t.Errorf("a text as long as the limit, its name not counted: %v, want ErrFull", err)
	}
	if text, _ := a.Text(key); text != "~1 über 𝄞 <&>" {
		t.Errorf("after a refused write there is %.40q", text)
	}
	if err := a.RemoveText(key); err != nil {
		t.Error(err)
	}
	if err := a.RemoveText(key); err != nil {
		t.Error("removing what is not there:", err)
	}
	if names, _ := a.Names(); slices.Contains(names, key) {
		t.Error("removed name is still listed")
	}

	// The journal: compare and set.
	commit := func(s Shelf, c Commit) (conflict bool, head *Head) {
		t.Helper()
		wait(t, func(done func()) {
			s.Commit(c, func(its bool, at *Head, err error) {
				if err != nil {
					t.Errorf("commit of %s: %v", c.Sum, err)
				}
				conflict, head = its, at
				done()
			})
		})
		return conflict, head
	}
	read := func(s Shelf, key string) (head *Head, past []string) {
		t.Helper()
		wait(t, func(done func()) {
			s.Read(key, func(its *Head, texts []string, err error) {
				if err != nil {
					t.Error("read:", err)
				}
				head, past = its, texts
				done()
			})
		})
		return head, past
	}
	if head, past := read(a, key); head != nil || len(past) != 0 {
		t.Errorf("Read of what is not there = %v, %q", head, past)
	}
	if conflict, head := commit(a, Commit{Key: key, Expect: "none", Sequence: 1, Sum: "s1", Text: "t1"}); !conflict || head != nil {
		t.Errorf("commit that expects a head where there is none: %v, %v", conflict, head)
	}
	first := Commit{Key: key, Sequence: 1, Sum: "s1", Text: "t1 𝄞"}
	if conflict, _ := commit(a, first); conflict {
		t.Fatal("first commit refused")
	}
	if conflict, _ := commit(b, first); conflict {
		t.Error("the same commit again is a conflict")
	}
	conflict, head := commit(b, Commit{Key: key, Sequence: 1, Sum: "other", Text: "t"})
	if !conflict || head == nil || head.Sum != "s1" || head.Text != "t1 𝄞" || head.Sequence != 1 || head.Key != key {
		t.Errorf("commit that expects none: conflict %v, head %+v", conflict, head)
	}
	if conflict, _ := commit(b, Commit{Key: key, Expect: "s1", Sequence: 3, Sum: "s3", Line: []string{"s2", "s1", ""}, Text: "t3"}); conflict {
		t.Error("commit over the expected head refused")
	}
	if conflict, _ := commit(a, Commit{Key: key, Expect: "s3", Sequence: 10, Sum: "s10", Text: "t10"}); conflict {
		t.Error("commit over the expected head refused")
	}
	// Heads leaves out a text that local storage holds as well, and only that.
	for local, want := range map[string]Head{"t3": {Text: "t10"}, "t10": {Same: true}} {
		check(t, a.SetText(key, local))
		wait(t, func(done func()) {
			b.Heads(func(heads []Head, _ []string, err error) {
				check(t, err)
				i := slices.IndexFunc(heads, func(h Head) bool { return h.Key == key })
				if i < 0 || heads[i].Sum != "s10" || heads[i].Sequence != 10 || heads[i].Finished || heads[i].Text != want.Text || heads[i].Same != want.Same ||
					!slices.Equal(heads[i].Line, []string{"s1", "s2", "s3"}) {
					t.Errorf("beside %q in local storage heads = %+v", local, heads)
				}
				done()
			})
		})
	}
	check(t, a.RemoveText(key))
	commit(a, Commit{Key: key, Expect: "s10", Sequence: 11, Sum: "s11", Text: "t11", Finished: true})
	head, past := read(b, key)
	if head == nil || head.Sum != "s11" || head.Text != "t11" || !head.Finished || !slices.Equal(head.Line, []string{"s1", "s2", "s3", "s10"}) {
		t.Errorf("head = %+v", head)
	}
	if !slices.Equal(past, []string{"t11", "t10", "t3"}) {
		t.Errorf("past = %q, want the last three, newest first", past)
	}

	// Kept texts: never pruned, and listed.
	name := "aside/" + key + "/0123456789abcdef"
	for range 2 {
		wait(t, func(done func()) { a.Keep(name, "torn", func(err error) { check(t, err); done() }) })
	}
	wait(t, func(done func()) {
		b.Heads(func(heads []Head, kept []string, err error) {
			check(t, err)
			if !slices.Contains(kept, name) {
				t.Errorf("kept = %q, without %s", kept, name)
			}
			i := slices.IndexFunc(heads, func(h Head) bool { return h.Key == key })
			if i < 0 || heads[i].Sum != "s11" || heads[i].Sequence != 11 || heads[i].Text != "" || len(heads[i].Line) != 0 || !heads[i].Finished {
				t.Errorf("heads = %+v: want %s finished, without its text and line", heads, key)
			}
			done()
		})
	})
	if head, past := read(b, name); head != nil || !slices.Equal(past, []string{"torn"}) {
		t.Errorf("kept text reads %v, %q", head, past)
	}
	wait(t, func(done func()) {
		b.Newest([]string{name, key, "kit/none"}, func(heads []Head, err error) {
			check(t, err)
			if len(heads) != 3 || heads[0].Key != name || heads[0].Text != "torn" || heads[0].Sum != "" || heads[2].Key != "kit/none" || heads[2].Text != "" {
				t.Errorf("Newest = %+v", heads)
			} else if h := heads[1]; h.Key != key || h.Text != "t11" || h.Sum != "s11" || h.Sequence != 11 || !h.Finished || len(h.Line) != 4 {
				t.Errorf("Newest = %+v", h)
			}
			done()
		})
	})
	wait(t, func(done func()) { b.Newest(nil, func(_ []Head, err error) { check(t, err); done() }) })
	wait(t, func(done func()) {
		a.All(func(texts []Text, err error) {
			check(t, err)
			for _, want := range []Text{{"journal", key, "t11"}, {"journal", key, "t3"}, {"journal", name, "torn"}} {
				if !slices.Contains(texts, want) {
					t.Errorf("All lacks %v", want)
				}
			}
			done()
		})
	})
	wait(t, func(done func()) { a.Forget(name, func(err error) { check(t, err); done() }) })
	if _, past := read(a, name); len(past) != 0 {
		t.Errorf("forgotten text reads %q", past)
	}
	long := key + "long"
	var sums []string
	for i := range LineLimit + 10 {
		sums = append(sums, "a"+strings.Repeat("b", i))
	}
	commit(a, Commit{Key: long, Sequence: 1, Sum: "z", Line: sums, Text: "t"})
	if head, _ := read(a, long); head == nil || len(head.Line) != LineLimit || head.Line[LineLimit-1] != sums[len(sums)-1] {
		t.Errorf("a long line is not cut to the newest %d", LineLimit)
	}
	wait(t, func(done func()) { a.Persist(func(bool, error) { done() }) }) // granted or not: it answers
}

func check(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Error(err)
	}
}

// wait runs something that answers later, and fails when it never does.
func wait(t *testing.T, run func(done func())) {
	t.Helper()
	answered := make(chan struct{}, 1)
	run(func() { answered <- struct{}{} })
	select {
	case <-answered:
	case <-time.After(5 * time.Second):
		t.Fatal("no answer")
	}
}

func TestMemoryKeepsTheContract(t *testing.T) {
	d := NewDevice()
	contract(t, d.Tab(), d.Tab())
}
