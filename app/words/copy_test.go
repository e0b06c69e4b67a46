package words_test

import (
	"strings"
	"testing"
	"time"

	"gapwright/app/job"
	"gapwright/app/store"
	"gapwright/app/words"
)

// Every standing has words of its own, for an instrument and for jobs.
func TestEveryStandingIsToldApart(t *testing.T) {
	seen := map[string]store.Standing{}
	for s := store.Same; s <= store.Later; s++ {
		p := store.Part{Standing: s}
		var q store.Part
		q.Jobs[s] = 2
		for _, said := range []string{words.RestoreStands(p), words.RestoreStands(q)} {
			if before, twice := seen[said]; twice || len(said) < 4 {
				t.Errorf("standing %d is told as %d: %q", s, before, said)
			}
			seen[said] = s
		}
	}
	p := store.Part{Standing: store.New}
	p.Jobs[store.New], p.Jobs[store.Same] = 1, 3
	if got, want := words.RestoreStands(p), "New, with 1 job; 3 jobs the same."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

func TestNamesOfPartsAreShortAndNeverEmpty(t *testing.T) {
	for _, c := range []struct {
		i    job.Instrument
		want string
	}{
		{job.Instrument{ID: "x", Name: "Old box"}, "Old box"},
		{job.Instrument{ID: "x", Family: "nylon"}, words.Family("nylon")},
		{job.Instrument{ID: "x"}, "An instrument without a name"},
		{job.Instrument{}, "Jobs of an unknown instrument"},
		{job.Instrument{ID: "x", Name: strings.Repeat("ß", 50)}, strings.Repeat("ß", 40) + "…"},
	} {
		if got := words.RestorePart(store.Part{Instrument: c.i}); got != c.want || got == "" {
			t.Errorf("%+v is %q, want %q", c.i, got, c.want)
		}
	}
}

func TestBackupFilesAreNamedForAnySystem(t *testing.T) {
	at := time.Date(2026, 2, 3, 12, 0, 0, 0, time.Local)
	for of, want := range map[string]string{
		"":                     "gapwright-backup-2026-02-03.txt",
		"Porch guitar":         "gapwright-porch-guitar-2026-02-03.txt",
		"../../etc":            "gapwright-etc-2026-02-03.txt",
		"ÄÖÜ":                  "gapwright-backup-2026-02-03.txt",
		"CON: <a|b>?*\\\"\x00": "gapwright-con---a-b-2026-02-03.txt",
	} {
		if got := words.BackupFile(of, at); got != want {
			t.Errorf("%q is called %q, want %q", of, got, want)
		}
	}
}

func TestEveryReasonWhyAFileIsNotRestoredHasASentence(t *testing.T) {
	seen := map[string]bool{}
	for _, err := range []error{store.ErrNoBackup, store.ErrNewerBackup, store.ErrTooLarge, store.ErrBusy, store.ErrFull, store.ErrBlocked, store.ErrKey} {
		said := words.RestoreError(err)
		if seen[said] || !strings.HasSuffix(said, ".") || len(said) < 40 {
			t.Errorf("%v: %q", err, said)
		}
		seen[said] = true
	}
}

func TestTheReminderCounts(t *testing.T) {
	at := time.Date(2026, 2, 3, 12, 0, 0, 0, time.UTC)
	for _, c := range []struct{ got, want string }{
		{words.BackupDue(at, 3), "3 jobs since the last backup"},
		{words.BackupDue(at, 1), "1 job since the last backup"},
		{words.BackupDue(time.Time{}, 4), "4 finished jobs, and no backup yet"},
		{words.LastBackup(time.Time{}, 4), "No backup was saved yet."},
		{words.LastBackup(at, 0), "Last saved on 3 Feb 2026."},
		{words.LastBackup(at, 2), "Last saved on 3 Feb 2026, before 2 more jobs were finished."},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
}
