package phone

import (
	"encoding/json"
	"flag"
	"fmt"
	"math/rand"
	"slices"
	"strings"
	"testing"
	"time"

	"gapwright/app/job"
	"gapwright/app/view"
	"gapwright/app/words"
	"gapwright/geometry"
)

var kills = flag.Int("kills", 3, "how often the browser is killed in the middle of saving")

func init() {
	flag.DurationVar(&Patience, "patience", Patience, "how long anything is waited for; longer where much else runs beside the browser")
}

// hand is a script that adds notes to the job that is open, as fast as the app takes them: the note number n of a page says its prefix, n and a full stop. It
// writes to the console which notes were tapped, and, once the mark has said Saved for two frames with nothing tapped meanwhile, up to which
// number all are saved. Notes are facts like any other, each of them known by its text.
const hand = `(() => {
	const frame = () => new Promise(requestAnimationFrame), soon = ms => new Promise(done => setTimeout(done, ms));
	const add = text => {
		const field = document.getElementById("note");
		field.value = text;
		field.dispatchEvent(new Event("input", {bubbles: true}));
		[...document.querySelectorAll(".menu button")].find(button => button.textContent === %q).click();
	};
	const shown = text => document.querySelector(".menu").textContent.includes(text);
	const saved = () => document.querySelector(".mark-saved") !== null;
	const until = async done => { while (!done()) await soon(1); };
	window.hand = {
		add, shown, until,
		async notes(prefix, from, to) {
			for (let n = from; n < to; n++) {
				console.info("tap " + n);
				add(prefix + n + ".");
				await until(() => shown(prefix + n + "."));
				if (Math.random() < 0.25) await soon(Math.random() * 40);
			}
			for (let frames = 0; frames < 2;) {
				await frame();
				frames = saved() ? frames + 1 : 0;
			}
			console.info("saved " + (to - 1));
		},
		async bursts(prefix, from) {
			for (let n = from; ;) {
				const to = n + 1 + Math.floor(Math.random() * 6);
				await this.notes(prefix, n, to);
				n = to;
			}
		},
	};
	return true;
})()`

// takeNotes opens a job under the hand of a script, and waits until all that is there is saved.
func takeNotes(p *Phone) {
	p.t.Helper()
	p.Wait("the menu of the job", `(() => {
		for (const d of document.querySelectorAll(".menu details")) d.open = true;
		return document.getElementById("note") !== null && document.querySelector(".mark-saved") !== null;
	})()`)
	p.JS(fmt.Sprintf(hand, words.AddNote()))
}

// newJob leads from the first screen into a job, with everything on the device, and returns its address.
func newJob(p *Phone, h *Host) string {
	p.t.Helper()
	p.Visit(h)
	p.Tap(words.Family(geometry.FlatTop6))
	p.Wait("the first question", fmt.Sprintf(`document.querySelector("main h1").textContent === %q`, words.Question(job.AskSaddle, job.Kit{}).Title))
	return p.Place()
}

// notes reads the notes of the job that is open from a home of its document, in order, those that could not be joined behind the others.
func notes(p *Phone, home string) []string {
	p.t.Helper()
	key := "job/" + strings.TrimPrefix(p.Place(), view.Link("", view.Job, "")+"?id=")
	read := fmt.Sprintf(`gapwrightJournal.text(%q).value`, key)
	if home == "journal" {
		read = fmt.Sprintf(`gapwrightJournal.read(%q).then(found => found.head.text)`, key)
	}
	text := p.JS(read).(string)
	parts := strings.SplitN(text, " ", 4)
	if len(parts) != 4 {
		p.t.Fatalf("the %s holds of %s only %q", home, key, text)
	}
	var doc struct {
		Body struct {
			Events, Left []struct {
				Fact string
				What struct{ Text string }
			}
		}
	}
	if err := json.Unmarshal([]byte(parts[3]), &doc); err != nil {
		p.t.Fatal(err)
	}
	var all []string
	for _, e := range append(doc.Body.Events, doc.Body.Left...) {
		if e.Fact == "noted" {
			all = append(all, e.What.Text)
		}
	}
	return all
}

// told finds the last number that the page said with a word, -1 for none.
func told(said []string, word string) int {
	last := -1
	for _, line := range said {
		var n int
		if _, err := fmt.Sscanf(line, word+" %d", &n); err == nil {
			last = n
		}
	}
	return last
}

// The browser and all its processes are killed at any moment while somebody taps as fast as the app takes it: whatever the mark had called saved is
// there afterwards, and what was tapped is there without a gap, so that at most the last taps are missing.
func TestWhatTheMarkCalledSavedSurvivesAKill(t *testing.T) {
	t.Parallel()
	p, h := New(t, Small), Serve(t, Site(t))
	p.Expect("net::ERR_") // what was under way when the browser died
	place := newJob(p, h)
	p.WaitReadyOffline()
	seed := time.Now().UnixNano()
	r := rand.New(rand.NewSource(seed))
	var have, lost []int
	saved, missing := 0, 0
	next := 0
	for kill := range *kills {
		takeNotes(p)
		before := len(p.Said())
		p.JS(fmt.Sprintf(`void hand.bursts("note ", %d)`, next))
		time.Sleep(300*time.Millisecond + time.Duration(r.Intn(1500))*time.Millisecond)
		p.cut()
		said := p.Said()[before:]
		p.stop()
		p.start()
		p.Open(place)
		p.Wait("what was kept to be compared", `document.querySelector(".mark-saved") !== null`)
		found := notes(p, "journal")
		for n, note := range found {
			if want := fmt.Sprint("note ", n, "."); note != want {
				t.Fatalf("seed %d, kill %d: note %d is %q, want %q", seed, kill, n, note, want)
			}
		}
		if local := notes(p, "local"); !slices.Equal(local, found) {
			t.Errorf("seed %d, kill %d: local storage has %d notes, the journal %d", seed, kill, len(local), len(found))
		}
		if sure := told(said, "saved"); sure >= 0 {
			saved += sure + 1 - next
			if len(found) <= sure {
				missing += sure + 1 - len(found)
				t.Errorf("seed %d, kill %d: called saved up to note %d, and there are %d", seed, kill, sure, len(found))
			}
		}
		if last := told(said, "tap"); last >= 0 {
			lost = append(lost, max(0, last+1-len(found)))
			have = append(have, last+1-next)
		}
		next = len(found)
	}
	taps, gone := 0, 0
	for i := range have {
		taps += have[i]
		gone += lost[i]
	}
	slices.Sort(lost)
	if saved == 0 || taps <= *kills {
		t.Fatalf("only %d taps and %d called saved in %d kills: nothing was tried", taps, saved, *kills)
	}
	t.Logf("kills of a browser: tried %d, taps %d, of them called saved before the kill %d, of those lost after saved %d; not yet saved and lost: %d, at one kill at most %d, in the middle %d",
		*kills, taps, saved, missing, gone, lost[len(lost)-1], lost[len(lost)/2])
}

// Two tabs on one job, tapping in turn and both at once: each ends with everything that was tapped in either.
func TestTwoTabsOnOneJobEndWithTheUnion(t *testing.T) {
	t.Parallel()
	p, h := New(t, Small), Serve(t, Site(t))
	place := newJob(p, h)
	p.Wait("saved", `document.querySelector(".mark-saved") !== null`)
	q := p.Another()
	q.Open(place)
	takeNotes(p)
	takeNotes(q)
	var want []string
	for n := range 3 { // in turn, each seeing what the other did
		for name, tabs := range map[string][2]*Phone{"first ": {p, q}, "second ": {q, p}} {
			note := fmt.Sprint(name, n, ".")
			tabs[0].JS(fmt.Sprintf(`void hand.add(%q)`, note))
			tabs[1].Wait("the other tab's note", fmt.Sprintf(`hand.shown(%q)`, note))
			want = append(want, note)
		}
	}
	for name, tab := range map[string]*Phone{"left ": p, "right ": q} { // both at once
		tab.JS(fmt.Sprintf(`void hand.notes(%q, 0, 6)`, name))
		for n := range 6 {
			want = append(want, fmt.Sprint(name, n, "."))
		}
	}
	slices.Sort(want)
	for name, tab := range map[string]*Phone{"the first": p, "the second": q} {
		tab.Wait("all notes of both tabs", fmt.Sprintf(`%q.split("|").every(note => hand.shown(note)) && document.querySelector(".mark-saved") !== null`, strings.Join(want, "|")))
		got := notes(tab, "journal")
		slices.Sort(got)
		if !slices.Equal(got, want) {
			t.Errorf("%s tab ends with %q, want %q", name, got, want)
		}
		if said := tab.Text(); strings.Contains(said, words.PartedLine(1)) {
			t.Errorf("%s tab says that something parted: %s", name, said)
		}
	}
}
