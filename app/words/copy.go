package words

import (
	"errors"
	"strings"
	"time"

	"gapwright/app/job"
	"gapwright/app/store"
)

// Backup and restore.

// CopyName names the place.
func CopyName() string { return "Backup" }

// CopyTitle heads it: of everything, or of one instrument.
func CopyTitle(of string) string {
	if of != "" {
		return "Backup of " + short(of)
	}
	return CopyName()
}

// CopyLead says what a backup is.
func CopyLead(one bool) string {
	if one {
		return "One file with this instrument, its jobs and its history. Keep it, or take it to another device."
	}
	return "One file with everything that is on this device. Keep it somewhere else."
}

// LastBackup tells when the last one was made, and what is not in it.
func LastBackup(at time.Time, jobs int) string {
	if at.IsZero() {
		return "No backup was saved yet."
	}
	line := "Last saved on " + Day(at.Local())
	if jobs > 0 {
		line += ", before " + plural(jobs, "more job was", "more jobs were") + " finished"
	}
	return line + "."
}

// BackupDue is the quiet reminder on the Bench.
func BackupDue(at time.Time, jobs int) string {
	if at.IsZero() {
		return plural(jobs, "finished job", "finished jobs") + ", and no backup yet"
	}
	return plural(jobs, "job", "jobs") + " since the last backup"
}

func SaveBackup() string   { return "Save a backup" }
func SavingBackup() string { return "Gathering everything…" }
func BackupSaved() string {
	return "The file was handed to your browser. See that it is where you keep such files."
}
func RestoreFrom() string     { return "Restore from a file" }
func RestoreHere() string     { return "Restore from a backup" }
func ReadingFile() string     { return "Reading the file…" }
func Restoring() string       { return "Restoring…" }
func TakingBack() string      { return "Putting back what was there…" }
func RestoreTitle() string    { return "What this backup would do" }
func RestoreNow() string      { return "Restore" }
func RestoreNot() string      { return "Leave all as it is" }
func RestoredTitle() string   { return "Restored" }
func RestoreHalf() string     { return "Not all was restored" }
func UndoRestore() string     { return "Undo this restore" }
func UndoRestoreSure() string { return "Undo it" }
func UndoneTitle() string     { return "As it was before" }
func DoneRestoring() string   { return "Go to the Bench" }
func RestoreAll(n int) string { return "And " + Number(n) + " more" }
func RestoreOthers() string   { return "Left out" }
func BackupNotWhole() string {
	return "Not everything could be read just now, so the file lacks something. Save another one later."
}

// CopyMore explains.
func CopyMore() []string {
	return []string{
		"A backup holds instruments, jobs, histories and what you have to hand. It is plain text, one line for each; a damaged line spoils nothing but itself.",
		"Save one after work that you would not like to do again, and before a device goes out of your hands. Send it to yourself, or put it on another device.",
		"Restoring shows first what it would do. It joins what was worked on in two places, takes nothing away, and can be undone.",
		"The file is not locked: whoever has it can read it.",
	}
}

// BackupFile names the file, by the day and by the instrument it is of.
func BackupFile(of string, at time.Time) string {
	name := strings.Map(func(c rune) rune {
		switch {
		case c >= 'a' && c <= 'z', c >= '0' && c <= '9':
			return c
		case c >= 'A' && c <= 'Z':
			return c + 'a' - 'A'
		}
		return '-'
	}, strings.TrimSpace(short(of)))
	if name = strings.Trim(name, "-"); name == "" {
		name = "backup"
	}
	return "gapwright-" + name + "-" + at.Local().Format("2006-01-02") + ".txt"
}

// short keeps a name from filling the screen.
func short(name string) string {
	const most = 40
	if letters := []rune(name); len(letters) > most {
		return string(letters[:most]) + "…"
	}
	return name
}

// RestoreLead says of when the backup is and what it would bring.
func RestoreLead(r *store.Restore) string {
	said := ""
	if !r.Made.IsZero() {
		said = "Saved on " + Day(r.Made.Local()) + ". "
	}
	switch {
	case r.Changes == 0 && (r.Damaged > 0 || r.Torn):
		return said + "Nothing of what can be read is missing here."
	case r.Changes == 0:
		return said + "Nothing in it is missing here."
	}
	return said + "Nothing is changed yet, and a restore can be undone."
}

// RestoreDamage says what is the matter with the file, "" when nothing is.
func RestoreDamage(r *store.Restore) string {
	switch {
	case r.Damaged > 0:
		return "The file is damaged: " + plural(r.Damaged, "line", "lines") + " cannot be read. The rest is whole."
	case r.Torn:
		return "The file is torn or was changed: its end is missing or does not fit. What is left is whole."
	}
	return ""
}

// RestorePart names a part of a backup.
func RestorePart(p store.Part) string {
	if p.Instrument.ID == "" {
		return "Jobs of an unknown instrument"
	}
	return partName(p.Instrument)
}

func partName(i job.Instrument) string {
	if i.Name == "" && Family(i.Family) == "" {
		return "An instrument without a name"
	}
	return short(Instrument(i))
}

// RestoreStands says what would happen to an instrument and its jobs.
func RestoreStands(p store.Part) string {
	var said []string
	if n := p.Jobs[store.New]; p.Standing == store.New && n > 0 {
		said, p.Standing, p.Jobs[store.New] = append(said, "New, with "+plural(n, "job", "jobs")), store.Nothing, 0
	}
	switch p.Standing {
	case store.Same:
		said = append(said, "The same here")
	case store.NewerHere:
		said = append(said, "Newer here: stays as it is")
	case store.New:
		said = append(said, "New")
	case store.Back:
		said = append(said, "Removed here: comes back")
	case store.NewerThere:
		said = append(said, "Newer in the file: taken over")
	case store.Both:
		said = append(said, "Changed in both: joined, and you choose where they differ")
	case store.Busy:
		said = append(said, "Not saved here yet: left alone")
	case store.Unread:
		said = append(said, "Cannot be read or cannot be right: left out")
	case store.Later:
		said = append(said, "From a newer version of the app: left out")
	}
	for _, each := range []struct {
		of        store.Standing
		one, many string
	}{
		{store.New, "new job", "new jobs"},
		{store.Back, "removed job comes back", "removed jobs come back"},
		{store.NewerThere, "job goes on in the file", "jobs go on in the file"},
		{store.Both, "job is joined from both", "jobs are joined from both"},
		{store.NewerHere, "job went on here", "jobs went on here"},
		{store.Same, "job the same", "jobs the same"},
		{store.Busy, "job not saved here yet", "jobs not saved here yet"},
		{store.Unread, "job cannot be read", "jobs cannot be read"},
		{store.Later, "job from a newer version of the app", "jobs from a newer version of the app"},
	} {
		if n := p.Jobs[each.of]; n > 0 {
			said = append(said, plural(n, each.one, each.many))
		}
	}
	return strings.Join(said, "; ") + "."
}

// RestoreKit says what would happen to the kit, "" for nothing.
func RestoreKit(s store.Standing) string {
	part := store.Part{Standing: s}
	if s == store.Nothing {
		return ""
	}
	return RestoreStands(part)
}

// RestoreSame says how many things nothing would happen to.
func RestoreSame(n int) string { return "Stays as it is here: " + Number(n) }

// RestoredLine says what a restore has done.
func RestoredLine(r store.Restored) string {
	var all []string
	if r.Instruments > 0 {
		all = append(all, plural(r.Instruments, "instrument", "instruments"))
	}
	if r.Jobs > 0 {
		all = append(all, plural(r.Jobs, "job", "jobs"))
	}
	line := listed(all...) + " brought in."
	switch {
	case r.Written == 0:
		line = "Nothing was changed."
	case len(all) == 0:
		line = plural(r.Written, "list or setting", "lists or settings") + " brought in."
	}
	if r.Beside > 0 {
		line += " " + plural(r.Beside, "thing was", "things were") + " changed in both places: the Bench asks which holds."
	}
	if r.Left > 0 {
		line += " " + plural(r.Left, "thing", "things") + " changed meanwhile and stayed. Restore once more."
	}
	return line
}

// LastRestore tells of the restore that can be taken back.
func LastRestore(r store.Restored) string {
	line := "Restored on " + Day(r.At.Local())
	if !r.Made.IsZero() {
		line += " from the backup of " + Day(r.Made.Local())
	}
	return line + "."
}

// UndoRestoreMore says what taking a restore back does.
func UndoRestoreMore() string {
	return "What came with it is removed, and what it changed is set back. What you changed since then stays."
}

// UndoneLine says what taking back has done.
func UndoneLine(undone, stayed int) string {
	line := plural(undone, "change was", "changes were") + " taken back."
	if stayed > 0 {
		line += " " + plural(stayed, "thing", "things") + " changed since the restore and stayed."
	}
	return line
}

// RestoreError says why a file cannot be restored, or not to its end.
func RestoreError(err error) string {
	switch {
	case errors.Is(err, store.ErrNoBackup):
		return "This file is no backup of this app. Choose one whose name begins with gapwright."
	case errors.Is(err, store.ErrNewerBackup):
		return "A newer version of the app wrote this backup. Reload to get that version, then restore."
	case errors.Is(err, store.ErrTooLarge):
		return "This file is larger than any backup: 200 MB or 100 000 things at most. Choose another one."
	case errors.Is(err, store.ErrBusy):
		return "Something here is not saved yet. Wait until it says Saved at the top, then choose the file again."
	case errors.Is(err, store.ErrFull):
		return "There is no room left on this device. Free some, then restore once more; what is in already stays."
	case errors.Is(err, store.ErrBlocked):
		return "The browser does not let the app read or write here. Choose the file again in an ordinary window."
	}
	return "That was interrupted. Nothing that was here is lost. Choose the file again to go on."
}
