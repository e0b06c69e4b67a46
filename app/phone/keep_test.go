package phone

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/storage"
	"github.com/chromedp/chromedp"

	"gapwright/app/job"
	"gapwright/app/store"
	"gapwright/app/view"
	"gapwright/app/words"
	"gapwright/geometry"
)

// walkOn is a walk on a phone whose host stays on the network.
func walkOn(t *testing.T, name string, model Model) *Walk {
	t.Helper()
	w := &Walk{Phone: New(t, model), host: Serve(t, Site(t)), name: name}
	w.Visit(w.host)
	return w
}

// written is a first revision of a document as the stores hold it.
func written(t *testing.T, key, kind string, sequence uint64, body any) (doc store.Document, text string) {
	t.Helper()
	data, err := json.Marshal(body)
	if err == nil {
		doc, text, err = store.Encode(store.Document{Key: key, Kind: kind, Version: store.JobKinds()[kind].Version(), Sequence: sequence, Writer: "w", Body: data})
	}
	if err != nil {
		t.Fatal(err)
	}
	return doc, text
}

// parts lays one version of an instrument into local storage and another one, of which neither comes from the other, into the journal.
func (w *Walk) parts(t *testing.T, local, journal job.Instrument) {
	t.Helper()
	key := store.KindInstrument + "/" + local.ID
	_, text := written(t, key, store.KindInstrument, 2, local)
	w.JS(fmt.Sprintf("localStorage.setItem(%q, %q)", store.Prefix+key, text))
	doc, text := written(t, key, store.KindInstrument, 3, journal)
	w.JS(fmt.Sprintf("gapwrightJournal.commit({key: %q, expect: '', sequence: 3, sum: %q, line: [], finished: false, text: %q})", key, doc.Sum, text))
}

// What parted is shown and chosen, what could not be read is shown, handed out and deleted, and a person is told once that phones clear what is not used.
func TestWhatTheStoreKeptBesideIsShownAndChosen(t *testing.T) {
	t.Parallel()
	w := walkOn(t, "kept", Small)
	hall := job.Instrument{ID: "hall", Name: "Hall guitar", Family: geometry.FlatTop6, Scale: mark("648"), Tags: "rental"}
	porch := hall
	porch.Name, porch.Scale, porch.Tags = "Porch guitar", mark("650"), ""
	uke := job.Instrument{ID: "uke", Name: "Blue uke", Family: geometry.UkuleleTenor}
	other := uke
	other.Name = "Green uke"
	w.parts(t, porch, hall)
	w.parts(t, other, uke)
	w.JS(fmt.Sprintf("localStorage.setItem(%q, 'torn by somebody')", store.Prefix+"job/lost"))
	w.Go(view.Bench)
	w.Sees(words.PartedLine(2))
	w.Sees(words.SetAside(1))
	w.Look()

	w.Tap(words.ChooseOne())
	w.Sees(words.PartedLead(store.KindInstrument, "Hall guitar"))
	w.Wait("both to be read", `document.querySelector("main .rows") !== null`)
	w.rows(words.NameLabel()+"; Hall guitar; "+words.PartedOther()+"Porch guitar", words.ScaleLabel()+"; 648\u00a0mm; "+words.PartedOther()+"650\u00a0mm")
	w.Look()
	w.Tap(words.PartedSecond())
	w.Sees(words.PartedLead(store.KindInstrument, "Blue uke"))
	w.Tap(words.PartedTake())

	w.On(words.AsideTitle())
	w.Says(words.AsideName(store.KindJob, ""), words.AsideSize(len("torn by somebody")), words.AsideNote(store.Foreign, false))
	w.Tap(words.AsideSave())
	w.Tap(words.Back())
	w.Sees(words.SetAside(1))
	w.SeesNot(words.PartedLine(1))
	w.Tap(words.LookAside())
	w.Tap(words.AsideDelete())
	w.Tap(words.AsideSure())
	w.Waiting(words.BenchName())
	wantJS(w.Phone, `gapwrightJournal.text("job/lost").value`, "")
	wantJS(w.Phone, `gapwrightJournal.heads().then(all => all.kept.filter(name => !name.startsWith("told/")).join(" "))`, "")
	w.WaitSaved()
	w.Go(view.Bench) // and all of it is so on the next visit
	w.WaitSaved()
	for _, name := range []string{"Hall guitar", words.SecondName("Hall guitar"), "Green uke"} {
		w.Sees(name)
	}
	for _, gone := range []string{"Blue uke", words.SetAside(1), words.PartedLine(1), words.KeepNotice()} {
		w.SeesNot(gone)
	}

	w.Tap(words.KitName())
	w.Waiting(words.KitTitle())
	w.Tap(words.BenchName()) // coming back, with instruments of one's own
	w.Sees(words.KeepNotice())
	w.Look()
	w.Tap(words.Understood())
	w.Wait("the notice to go", fmt.Sprintf("!document.body.innerText.includes(%q)", words.KeepNotice()))
	w.JS("localStorage.clear()") // the journal remembers it too
	w.Go(view.Bench)
	w.Wait("everything compared", "document.querySelector('.mark-saved') !== null && document.querySelectorAll('.card').length === 3")
	w.Tap(words.KitName())
	w.Waiting(words.KitTitle())
	w.Tap(words.BenchName())
	w.Waiting(words.BenchName())
	w.SeesNot(words.KeepNotice())
}

// before runs a script in every page before the page's own, until it is taken away.
func (w *Walk) before(script string) (away func()) {
	w.t.Helper()
	added, err := chromedp.Call(w.tab, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: script})
	if err != nil {
		w.t.Fatal(err)
	}
	return func() {
		if _, err := chromedp.Call(w.tab, page.RemoveScriptToEvaluateOnNewDocument, page.RemoveScriptToEvaluateOnNewDocumentParams{Identifier: added.Identifier}); err != nil {
			w.t.Fatal(err)
		}
	}
}

// quota gives the site that much room in the journal, 0 for as usual.
func (w *Walk) quota(bytes float64) {
	w.t.Helper()
	params := storage.OverrideQuotaForOriginParams{Origin: w.host.URL()}
	if bytes > 0 {
		params.QuotaSize = &bytes
	}
	if _, err := chromedp.Call(w.tab, storage.OverrideQuotaForOrigin, params); err != nil {
		w.t.Fatal(err)
	}
}

const (
	noJournal = `Object.defineProperty(window, "indexedDB", {configurable: true, get() { throw new DOMException("not here", "SecurityError"); }});`
	noLocal   = `Object.defineProperty(window, "localStorage", {configurable: true, get() { throw new DOMException("not here", "SecurityError"); }});`
	silence   = `IDBFactory.prototype.open = () => ({});`
)

// With stores that are blocked, silent or full the app runs, says what is the matter and what to do, has a file to save, and goes on by itself when
// they work again.
func TestStoresThatDoNotWorkAreToldInTheApp(t *testing.T) {
	t.Parallel()
	w := walkOn(t, "stores", Small)
	unsaved := func(why store.Why, local bool) {
		t.Helper()
		w.Sees(words.Unsaved(store.State{Mark: store.NotSaved, Why: why, Local: local}))
		w.Look()
	}
	begin := func() {
		w.Waiting(words.FamilyQuestion().Title)
		t.Helper()
		w.Tap(words.Family(geometry.FlatTop6))
		w.Waiting(words.Question(job.AskSaddle, job.Kit{}).Title)
		w.Wait("the mark", `document.querySelector(".mark-unsaved") !== null`)
	}
	allow := w.before(noJournal + noLocal)
	w.Go(view.Bench)
	w.Sees(words.KeepsNothing()) // before anything is entered
	w.LookInto()
	begin()
	w.Tap(words.Mark(store.State{Mark: store.NotSaved}) + ", " + words.SeeWhy())
	unsaved(store.Blocked, false)
	w.Tap(words.SaveAFile())
	w.Waiting(words.CopyName())
	allow()

	allow = w.before(noJournal)
	w.Go(view.Bench)
	begin()
	w.Tap(words.Mark(store.State{Mark: store.NotSaved}) + ", " + words.SeeWhy())
	unsaved(store.Blocked, true)
	allow()
	w.Go(view.Bench) // the browser thinks better of it
	w.WaitSaved()

	allow = w.before(silence)
	w.Go(view.Bench)
	unsaved(store.NoAnswer, true)
	allow()
	w.Go(view.Bench)
	w.WaitSaved()

	w.JS(`(() => { // as full as another program could make it
		localStorage.setItem("another program", "x".repeat(5_000_000));
		for (let n = 100_000; n >= 1; n = Math.floor(n / 2)) try {
			for (;;) localStorage.setItem("more of it", (localStorage.getItem("more of it") || "") + "x".repeat(n));
		} catch { }
	})()`)
	w.quota(1)
	w.Tap(words.AddInstrument())
	begin()
	w.Tap(words.Mark(store.State{Mark: store.NotSaved}) + ", " + words.SeeWhy())
	unsaved(store.Full, false)
	if n := strings.Count(w.Text(), words.Family(geometry.FlatTop6)); n < 2 {
		t.Errorf("the instrument that found no room is not on the Bench: %s", w.Text())
	}
	w.quota(0)
	w.JS(`localStorage.removeItem("another program")`)
	w.Tap(words.TryAgain())
	w.WaitSaved()
}
