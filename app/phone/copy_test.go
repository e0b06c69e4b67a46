package phone

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/browser"
	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/dom"
	"github.com/chromedp/chromedp"

	"gapwright/app/job"
	"gapwright/app/store"
	"gapwright/app/view"
	"gapwright/app/words"
	"gapwright/geometry"
)

// harmful is a name that would do harm if it were taken for markup.
const harmful = `<img src=x onerror="document.title='harmed'"> & "𝄞"`

// madeDesk is a desk of our own in memory, on which everything is invented.
func madeDesk(t *testing.T) *store.Desk {
	t.Helper()
	ids, now := 0, time.Date(2026, 2, 3, 9, 0, 0, 0, time.UTC)
	d := store.NewDesk(store.NewDevice().Tab(), store.Options{Build: "test",
		Now:   func() time.Time { now = now.Add(time.Second); return now },
		NewID: func() string { ids++; return fmt.Sprint("made-", ids) }})
	d.Reconcile()
	return d
}

// furnish puts three instruments with open and finished jobs on a desk.
func furnish(t *testing.T, d *store.Desk) {
	t.Helper()
	must := func(err error) {
		if err != nil {
			t.Fatal(err)
		}
	}
	must(d.SetKit(job.Kit{Unit: job.MM, Marks: job.EveryHalfMM, Zero: job.ZeroAtEnd}))
	for n, name := range []string{"Porch guitar", harmful, "Old box"} {
		i, err := d.PutInstrument(job.Instrument{ID: fmt.Sprintf("i%d", n), Name: name, Family: geometry.FlatTop6})
		must(err)
		for k := range 3 {
			id := fmt.Sprintf("job-%d%d", n, k)
			_, events := job.Example(i.ID, id, "w", name, time.Date(2026, 2, 1+k, 9, 0, 0, 0, time.UTC))
			must(d.Adopt(events))
			if k > 0 || n > 0 {
				must(d.Record(id, job.PutAway{}))
			}
		}
	}
}

// backupOf is a backup of a desk.
func backupOf(t *testing.T, d *store.Desk) string {
	t.Helper()
	text := ""
	d.Backup("", func(piece string) { text += piece }, func(made store.Backup) { text = made.First + text + made.Last })
	if !strings.HasPrefix(text, "gapwright-backup 1 ") {
		t.Fatalf("no backup: %.100s", text)
	}
	return text
}

// chooses gives a file of that text to the button that asks for one.
func (w *Walk) chooses(text string) {
	w.t.Helper()
	file := filepath.Join(w.t.(*testing.T).TempDir(), "backup.txt")
	if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
		w.t.Fatal(err)
	}
	ctx, cancel := context.WithTimeout(w.tab, Patience)
	defer cancel()
	if _, err := chromedp.Call(ctx, dom.SetFileInputFiles, dom.SetFileInputFilesParams{Files: []string{file}, BackendNodeID: w.find(words.RestoreFrom()).(cdp.BackendNodeID)}); err != nil {
		w.t.Fatal(err)
	}
}

// saves touches the button and gives the text of the file that comes.
func (w *Walk) saves(button string) (name, text string) {
	w.t.Helper()
	folder := w.t.(*testing.T).TempDir()
	ctx, cancel := context.WithTimeout(w.tab, Patience)
	defer cancel()
	if _, err := chromedp.Call(ctx, browser.SetDownloadBehavior, browser.SetDownloadBehaviorParams{
		Behavior: browser.SetDownloadBehaviorBehaviorAllow, DownloadPath: folder}); err != nil {
		w.t.Fatal(err)
	}
	w.Tap(button)
	w.until("the file", func() (bool, string) {
		files, _ := os.ReadDir(folder)
		for _, f := range files {
			if strings.HasSuffix(f.Name(), ".crdownload") {
				continue // not whole yet
			}
			data, err := os.ReadFile(filepath.Join(folder, f.Name()))
			if name, text = f.Name(), string(data); err == nil && strings.Contains(text, "\nend ") {
				return true, ""
			}
		}
		return false, fmt.Sprint(files)
	})
	return name, text
}

// documentLines are a backup's lines of documents.
func documentLines(text string) string {
	_, rest, _ := strings.Cut(text, "\n")
	return rest
}

// stored is everything in both stores that is a document, by name: the texts, the heads' sums and their ancestors.
func (w *Walk) stored() map[string]any {
	w.t.Helper()
	text := w.JS(`(async () => {
		const all = {}, open = await new Promise(yes => { indexedDB.open("gapwright").onsuccess = event => yes(event.target.result); });
		const keys = await new Promise(yes => { open.transaction("heads").objectStore("heads").getAllKeys().onsuccess = event => yes(event.target.result); });
		open.close();
		for (const head of (await gapwrightJournal.newest(keys)).heads) all["journal " + head.key] = head;
		for (const name of gapwrightJournal.names().value) if (/^(kit|instrument|job|history)/.test(name)) all["local " + name] = gapwrightJournal.text(name).value;
		return JSON.stringify(all);
	})()`).(string)
	all := map[string]any{}
	if err := json.Unmarshal([]byte(text), &all); err != nil {
		w.t.Fatal(err)
	}
	return all
}

// alikeStores reports what one of two stores has and the other has not.
func alikeStores(t *testing.T, got, want map[string]any) {
	t.Helper()
	for name := range want {
		if g, w := fmt.Sprint(got[name]), fmt.Sprint(want[name]); g != w {
			t.Errorf("%s is\n%s\nwant\n%s", name, g, w)
		}
	}
	for name := range got {
		if want[name] == nil {
			t.Errorf("%s is there: %v", name, got[name])
		}
	}
}

// A backup goes from phone to phone: shown before it is taken in, the same in every byte after, and out again as the same file.
func TestABackupGoesFromPhoneToPhone(t *testing.T) {
	t.Parallel()
	d := madeDesk(t)
	furnish(t, d)
	first := backupOf(t, d)

	w := StartWalk(t, "copy", Small)
	w.Tap(words.FromElsewhere())
	w.Tap(words.RestoreHere())
	w.On(words.CopyTitle(""))
	w.Says(words.CopyLead(false), words.LastBackup(time.Time{}, 0))
	w.Tap(words.More())
	w.LookInto()
	w.CheckKeyboard()

	w.chooses("Dear player,\nplease find my strings.\n")
	w.alerted(words.RestoreError(store.ErrNoBackup))
	w.Look()
	w.chooses(first)
	w.On(words.RestoreTitle())
	w.Says("Saved on 3 Feb 2026. Nothing is changed yet, and a restore can be undone.", "Porch guitar", "New, with 3 jobs.", "Old box")
	w.Says(strings.TrimSpace(strings.ReplaceAll(harmful[:40], "\n", " ")))
	w.harmless()
	if n := len(w.stored()); n != 0 {
		t.Errorf("%d documents are written before anybody said so", n)
	}
	w.Tap(words.RestoreNot())
	w.On(words.CopyTitle(""))
	w.chooses(first)
	w.Waiting(words.RestoreTitle())
	w.Tap(words.RestoreNow())
	w.On(words.RestoredTitle())
	w.Says("3 instruments and 9 jobs brought in.")
	w.Tap(words.DoneRestoring())
	w.Wait("the Bench", `document.querySelectorAll(".card").length >= 4`)
	w.harmless()
	w.SeesNot(words.BackupDue(time.Time{}, 8)) // all of it is in a backup

	w.Go(view.Copy)
	w.On(words.CopyTitle(""))
	name, second := w.saves(words.SaveBackup())
	w.Sees(words.BackupSaved())
	w.Look()
	if want := "gapwright-backup-" + time.Now().Format("2006-01-02") + ".txt"; name != want {
		t.Errorf("the file is called %q, want %q", name, want)
	}
	if documentLines(second) != documentLines(first) {
		t.Errorf("the backup is another one:\n%s\nwant\n%s", second, first)
	}

	x := StartWalk(t, "copied", Tall.InTheDark())
	x.Go(view.Copy)
	x.chooses(second)
	x.On(words.RestoreTitle())
	x.Tap(words.RestoreNow())
	x.Waiting(words.RestoredTitle())
	x.Go(view.Bench)
	x.WaitSaved()
	alikeStores(t, x.stored(), w.stored())

	// Of one instrument there is its own file.
	x.Open(view.Link("", view.Copy, "i0"))
	x.On(words.CopyTitle("Porch guitar"))
	name, one := x.saves(words.SaveBackup())
	if !strings.HasPrefix(name, "gapwright-porch-guitar-") || strings.Count(one, "\n") != 2+1+1+3 || strings.Contains(one, "Old box") {
		t.Errorf("%s holds\n%s", name, one)
	}

	// Taken back after a reload: as empty as before.
	x.Go(view.Copy)
	x.Tap(words.UndoRestore())
	x.LookInto()
	x.Tap(words.UndoRestoreSure())
	x.On(words.UndoneTitle())
	x.Tap(words.DoneRestoring())
	x.On(words.FamilyQuestion().Title)
}

// harmless fails when something out of a file has become markup, or has run.
func (w *Walk) harmless() {
	w.t.Helper()
	wantJS(w.Phone, `document.title !== "harmed" && document.querySelector("main img, main script, main iframe") === null`, true)
}

// Two phones have worked on; and a file was spoilt on its way.
func TestABackupThatPartedAndOneThatIsDamaged(t *testing.T) {
	t.Parallel()
	d := madeDesk(t)
	furnish(t, d)
	w := StartWalk(t, "parted-copy", Tall)
	w.Go(view.Copy)
	w.chooses(backupOf(t, d))
	w.Waiting(words.RestoreTitle())
	w.Tap(words.RestoreNow())
	w.Waiting(words.RestoredTitle())

	// Here the porch guitar is called one thing, there another; there the old box has an owner, and here a job is gone.
	w.Open(view.Link("", view.Instrument, "i0"))
	w.Tap(words.AboutInstrument())
	w.Type(words.NameLabel(), "Named here")
	w.Tap(words.Keep())
	w.WaitSaved()
	here := w.stored()
	porch, _ := d.Instrument("i0")
	porch.Name = "Named there"
	box, _ := d.Instrument("i2")
	box.Owner = "A friend"
	for _, i := range []job.Instrument{porch, box} {
		if _, err := d.PutInstrument(i); err != nil {
			t.Fatal(err)
		}
	}
	theirs := backupOf(t, d)
	w.Go(view.Copy)
	w.chooses(theirs)
	w.On(words.RestoreTitle())
	w.Says("Named here", "Changed in both: joined, and you choose where they differ", "Old box", "Newer in the file: taken over; 3 jobs the same.")
	w.Tap(words.RestoreNow())
	w.On(words.RestoredTitle())
	w.Says("changed in both places")
	w.Tap(words.DoneRestoring())
	w.Sees("Named here")
	w.Sees(words.PartedLine(1))

	// After a flat battery it can still be taken back.
	w.Kill()
	w.Go(view.Copy)
	w.Tap(words.UndoRestore())
	w.Tap(words.UndoRestoreSure())
	w.Waiting(words.UndoneTitle())
	w.Tap(words.DoneRestoring())
	w.Sees("Named here")
	w.SeesNot(words.PartedLine(1))
	w.WaitSaved()
	body := func(all map[string]any, key string) string {
		_, b, _ := strings.Cut(fmt.Sprint(all[key]), `"body":`)
		return b
	}
	now := w.stored()
	for _, key := range []string{"local instrument/i0", "local instrument/i2", "local kit", "local job/job-00"} {
		if body(now, key) != body(here, key) || body(here, key) == "" {
			t.Errorf("%s is %q, was %q", key, body(now, key), body(here, key))
		}
	}

	// A damaged file: one line spoilt, the end torn off.
	spoilt := strings.Replace(theirs, `"name":"Old box"`, `"name":"Odd box"`, 1)
	w.Go(view.Copy)
	w.chooses(spoilt[:len(spoilt)-200])
	w.On(words.RestoreTitle())
	w.Says("The file is damaged: 2 lines cannot be read. The rest is whole.", words.RestoreOthers(), "Cannot be read or cannot be right: left out")
	w.Tap(words.Back())
	w.Waiting(words.CopyTitle(""))
}
