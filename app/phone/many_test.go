package phone

import (
	"encoding/json"
	"fmt"
	"net/http"
	"strconv"
	"testing"
	"time"

	"gapwright/app/job"
	"gapwright/app/site"
	"gapwright/app/store"
	"gapwright/app/view"
	"gapwright/app/words"
	"gapwright/geometry"
)

// A shelf is what a device is to hold before the app is first opened on it: the texts in local storage, and the journal's heads and texts as
// web/journal.js lays them out. Instruments and jobs are invented.
type shelf struct {
	Local map[string]string `json:"local"`
	Heads [][2]any          `json:"heads"` // key, head
	Past  [][2]any          `json:"past"`  // [key, sequence, sum], text
}

// much is a bench with that many instruments, each with its finished jobs; the first few have a job under way as well.
type much struct{ instruments, jobs, open int }

var owners = []string{"Ines Varga", "Søren Holt", "Zoë Quill", "Pip Marlow", "Ömer Tan", "The Lantern Hall", "Ada Brink", "José Lund"}

func (m much) instrument(n int) job.Instrument {
	families := geometry.Families()
	i := job.Instrument{ID: "i" + strconv.Itoa(n), Name: "Bench piece " + strconv.Itoa(n), Family: families[n%len(families)].ID, Owner: owners[n%len(owners)],
		Tags: []string{"rental", "school, blue case", "stage left", "needs a new nut"}[n%4]}
	kit := job.Kit{Unit: job.MM, Marks: job.EveryQuarter, Zero: job.ZeroAtEnd}
	at := time.Date(2026, 1, 1, 9, 0, 0, 0, time.UTC).Add(time.Duration(n) * 7 * time.Hour)
	if m.jobs > 0 {
		i.Scale, i.Setback, i.Saddle = job.Typed{Text: "645", Unit: job.MM}, job.Typed{Text: "2.5", Unit: job.MM}, job.Typed{Text: "72", Unit: job.MM}
		i.Set = &job.Stringing{}
		for range i.Kind().Courses * i.Kind().PerCourse {
			i.Set.Gauges = append(i.Set.Gauges, job.Gauge{Make: job.PlainSteel, Diameter: job.Typed{Text: "0.012", Unit: job.Inch}})
		}
		i.AsSet = &job.AsSet{Job: jobID(n, m.jobs-1), At: at, Proven: true,
			Readings: []job.Read{job.ReadByMarks(kit, i, 0, 9), job.ReadByMarks(kit, i, i.Last(), 7)}}
	}
	return i
}

func jobID(instrument, n int) string { return "j" + strconv.Itoa(instrument) + "-" + strconv.Itoa(n) }

// shelf writes all that down, from instrument number first on, at most that many of them.
func (m much) shelf(first, count int) shelf {
	s := shelf{Local: map[string]string{}}
	keep := s.keep
	if first == 0 {
		keep(store.KindKit, store.KindKit, 3, false, job.Kit{Unit: job.MM, Marks: job.EveryQuarter, Zero: job.ZeroAtEnd})
	}
	for n := first; n < min(first+count, m.instruments); n++ {
		i := m.instrument(n)
		keep(store.KindInstrument+"/"+i.ID, store.KindInstrument, 12, false, i)
		var history store.HistoryBody
		for j := range m.jobs {
			id := jobID(n, j)
			history.Jobs = append(history.Jobs, id)
			keep(store.KindJob+"/"+id, store.KindJob, 31, true, store.JobBody{Events: events(i, id, true)})
		}
		if m.jobs > 0 {
			keep(store.KindHistory+"/"+i.ID, store.KindHistory, m.jobs, true, history)
		}
		if n < m.open {
			id := jobID(n, m.jobs)
			keep(store.KindJob+"/"+id, store.KindJob, 30, false, store.JobBody{Events: events(i, id, false)})
		}
	}
	return s
}

// keep lays a document on the shelf, as if it had been saved that often.
func (s *shelf) keep(key, kind string, sequence int, finished bool, body any) {
	data, err := json.Marshal(body)
	if err != nil {
		panic(err)
	}
	line := make([]string, sequence-1)
	for n := range line {
		line[n] = fmt.Sprintf("%016x", uint64(n+1)*0x9e3779b97f4a7c15^uint64(len(key)))
	}
	doc := store.Document{Key: key, Kind: kind, Version: store.JobKinds()[kind].Version(), Build: "much", Writer: "w", Sequence: uint64(sequence), Finished: finished,
		Saved: time.Date(2026, 3, 1, 9, 0, 0, 0, time.UTC), Body: data}
	if len(line) > 0 {
		doc.Parent = line[len(line)-1]
	}
	doc, text, err := store.Encode(doc)
	if err != nil {
		panic(err)
	}
	if !finished {
		s.Local[store.Prefix+key] = text
	}
	s.Heads = append(s.Heads, [2]any{key, map[string]any{"sequence": sequence, "sum": doc.Sum, "finished": finished, "line": line}})
	s.Past = append(s.Past, [2]any{[]any{key, sequence, doc.Sum}, text})
}

// events are the facts of a job on an instrument: begun, talked about at length, and put away.
func events(i job.Instrument, id string, over bool) []job.Event {
	kit := job.Kit{Unit: job.MM, Marks: job.EveryQuarter, Zero: job.ZeroAtEnd}
	facts := []job.Fact{job.Began{Method: job.SandUnderside, Instrument: i, Kit: kit}}
	for n := range 27 {
		facts = append(facts, job.Noted{Text: "Strings were old, the saddle sat well in its slot; look again in spring. " + strconv.Itoa(n)})
	}
	if over {
		facts = append(facts, job.PutAway{})
	}
	all := make([]job.Event, len(facts))
	for n, f := range facts {
		all[n] = job.Event{Job: id, Sequence: n + 1, Writer: "w", At: time.Date(2026, 2, 1, 9, n, 0, 0, time.UTC), Fact: f}
	}
	return all
}

// holding serves the site and, under /shelf/, a bare page that fills the stores before the app is opened for the first time.
func (m much) holding(s site.Site) http.Handler {
	mux := http.NewServeMux()
	mux.Handle("/", site.Handler(s))
	mux.HandleFunc("GET /shelf/{$}", func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", "text/html")
		fmt.Fprint(w, `<!doctype html><title>Shelf</title><link rel="icon" href="data:,">`)
	})
	mux.HandleFunc("GET /shelf/{first}", func(w http.ResponseWriter, r *http.Request) {
		first, _ := strconv.Atoi(r.PathValue("first"))
		w.Header().Set("Content-Type", "application/json")
		json.NewEncoder(w).Encode(m.shelf(first, shelfful))
	})
	return mux
}

// shelfful is how many instruments are brought at a time.
const shelfful = 25

// fill puts that much into the stores of a phone on which the app was never opened.
func (m much) fill(p *Phone) {
	p.t.Helper()
	p.Load("/shelf/")
	p.JS(`new Promise((yes, no) => {
		const asked = indexedDB.open("gapwright", 1);
		asked.onupgradeneeded = () => { asked.result.createObjectStore("heads"); asked.result.createObjectStore("past") };
		asked.onsuccess = () => { window.shelf = asked.result; yes(true) };
		asked.onerror = () => no(asked.error);
	})`)
	for first := 0; first < m.instruments; first += shelfful {
		p.JS(fmt.Sprintf(`(async () => {
			const all = await (await fetch("/shelf/%d")).json();
			for (const [name, text] of Object.entries(all.local)) localStorage.setItem(name, text);
			const t = shelf.transaction(["heads", "past"], "readwrite");
			for (const [key, head] of all.heads) t.objectStore("heads").put(head, key);
			for (const [key, text] of all.past) t.objectStore("past").put(text, key);
			await new Promise((yes, no) => { t.oncomplete = yes; t.onabort = () => no(t.error) });
			return true;
		})()`, first))
	}
	p.JS("(shelf.close(), true)")
}

// walk brings a phone that far: that much is kept, the app is whole on the device, and there is no network.
func (m much) walk(w *Walk) {
	w.t.Helper()
	w.host = ServeHandler(w.t, "", m.holding(Site(w.t)))
	w.home = w.host.URL()
	m.fill(w.Phone)
	w.Open("/")
	w.WaitReadyOffline()
	w.WaitSaved()
	w.host.Stop()
	w.Expect("net::ERR_CONNECTION_REFUSED")
}

// A travelling tech with sixty instruments: finds, says whose they are, archives and takes out again, all without a network.
func TestManyInstruments(t *testing.T) {
	t.Parallel()
	w := &Walk{Phone: New(t, Small), name: "many"}
	much{instruments: 60, jobs: 2, open: 2}.walk(w)
	cards := func(want float64) {
		t.Helper()
		w.Wait(fmt.Sprint(want, " instruments listed"), fmt.Sprintf(`document.querySelectorAll("#screen .card > .card-name").length === %v`, want))
	}
	find := func(query string, found int) {
		t.Helper()
		w.Type("#find", query)
		w.Sees(words.Found(query, found, 60, 0))
	}
	w.On(words.BenchName())
	cards(30)
	if low := w.JS(`document.querySelector("#screen .card").getBoundingClientRect().bottom`).(float64); low > float64(Small.Height) {
		t.Errorf("the first job under way ends at %v, below the first screen", low)
	}
	w.Tap(words.ShowMore(30))
	cards(60)

	// Owners come round every eighth instrument, tags every fourth; capitals and accents make no difference, and every word must be there.
	find("VARGA", 8)
	cards(8)
	find("soren holt", 8)
	find("holt rental", 0)
	find("holt, blue", 8)
	w.Look()
	w.Press("Enter")
	w.Wait("the keyboard to go", `document.activeElement !== document.getElementById("find")`)
	find("no such thing", 0)
	w.LookInto()
	w.Tap(words.FindClear())
	w.Holds("find", "")
	cards(30)

	// Whose it is and its tags are text, never markup, and have an end.
	find("piece 37", 1)
	w.Tap("Bench piece 37")
	w.Waiting("Bench piece 37")
	w.Tap(words.AboutInstrument())
	w.Holds("owner", owners[5])
	w.Type("#owner", "An owner whose name is so long that nobody could read it on a phone")
	w.Tap(words.Keep())
	w.Wait("what is wrong with it", `document.getElementById("owner-problem").getClientRects().length > 0`)
	if said := w.Said("owner"); said != words.TooLong(job.MostOwner) {
		t.Errorf("of the owner is said %q", said)
	}
	w.Holds("owner", "An owner whose name is so long that nobody could read it on a phone")
	w.LookInto()
	w.Type("#owner", "Jürgen <b>Öst</b>")
	w.Type("#tags", "green case")
	w.Tap(words.KeepBelongs())
	w.WaitSaved()
	w.Go(view.Bench)
	find("oST green", 1)
	w.Sees("Jürgen <b>Öst</b> · green case")

	// The archive: away from the Bench, found by a search, and back. A job that is under way is spoken of first and stays.
	w.Go(view.Bench)
	w.Type("#find", "piece 1")
	w.Tap("Bench piece 1")
	w.Waiting("Bench piece 1")
	w.Tap(words.IntoArchiveTitle())
	w.Sees(words.ArchivedWithJob())
	w.LookInto()
	w.Tap(words.IntoArchive())
	w.Sees(words.InArchive())
	w.Look()
	w.WaitSaved()
	w.Tap(words.BenchName())
	w.Waiting(words.BenchName())
	w.Holds("find", "piece 1") // what was looked for is still there
	w.Type("#find", "piece 1 holt stage")
	w.Sees(words.Found("x", 0, 59, 0))
	w.Type("#find", "\"piece 1\" holt school")
	w.Tap(words.Archive(1))
	w.Sees("Bench piece 1")
	w.model = w.model.InTheDark()
	w.dress()
	w.Look()
	w.Reload()
	w.Sees(words.Archive(1))
	w.Says(words.OpenJobs())
	w.Tap(words.Archive(1))
	w.Tap("Bench piece 1")
	w.Waiting("Bench piece 1")
	w.Tap(words.OutOfArchive())
	w.Sees(words.IntoArchiveTitle())
	w.WaitSaved()
	w.Tap(words.BenchName())
	w.Waiting(words.BenchName())
	w.Wait("the archive to be gone", fmt.Sprintf(`!document.body.innerText.includes(%q)`, words.Archive(1)))
}
