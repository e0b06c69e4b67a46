package words

import (
	"errors"
	"strings"

	"gapwright/app/job"
)

// CodeName names the place.
func CodeName() string { return "Hand to another phone" }

// ReceiveName names the reader of what another phone shows.
func ReceiveName() string { return "Take over from another phone" }

// FromElsewhere heads what leads to what is on another phone.
func FromElsewhere() string { return "Another phone?" }

// The code of an instrument.
func CodeLead() string {
	return "On the other phone, open the app, tap " + ReceiveName() + ", and hold it over this."
}
func CodeBright() string  { return "Turn this screen to its brightest." }
func CodePicture() string { return "The code" }
func CodeDone() string    { return "Done" }
func CodeNotDrawn() string {
	return "The code could not be drawn. Reload this page and open it once more."
}

// CodePictureText describes the code for those who do not see it.
func (r Reader) CodePictureText(i job.Instrument) string {
	return "A square of dark and light fields to be read by a camera. In it: " + Instrument(i) + ". " + r.AsSetLine(i) + "."
}

// CodeWithout says what of the instrument had no room in its code; nothing when all had.
func CodeWithout(parts []job.CodePart) string {
	if len(parts) == 0 {
		return ""
	}
	var names []string
	for _, p := range parts {
		names = append(names, codePart(p))
	}
	return "No room was left for: " + strings.Join(names, "; ") + "."
}

func codePart(p job.CodePart) string {
	switch p {
	case job.CodeBetween:
		return "readings of the strings between the outer two"
	case job.CodeRepeats:
		return "second readings of one place"
	case job.CodeStrings:
		return "the strings and their tuning"
	case job.CodeOwner:
		return "whose it is"
	case job.CodeTurns:
		return "what turns at the bridge"
	case job.CodeUsual:
		return "what is usual of this one"
	case job.CodeNeck:
		return "relief and nut"
	case job.CodeName:
		return "the end of its name"
	}
	return ""
}

// CodeMore says what is in a code and what is not.
func CodeMore() []string {
	return []string{
		"The numbers are in the picture itself: it works without a network, and nothing is sent. A photo or a printed copy of it can be read as well.",
		"In it are the profile and the numbers as set, as they were read. Whoever reads it also learns whose the instrument is, if you wrote that down.",
		"Not in it are jobs and history, tags, counted turns of the truss rod, and how hard you play. A backup has all of them.",
	}
}

// The reader of codes.
func ReceiveLead() string {
	return "On the phone that has the instrument, open it and tap " + CodeName() + "."
}
func ReceivePic() string    { return "One phone shows a code, the other looks at it" }
func OpenCamera() string    { return "Open the camera" }
func CloseCamera() string   { return "Close the camera" }
func CameraPicture() string { return "What the camera sees" }
func CameraLead() string    { return "Bring the whole code into view and hold still." }
func FromPicture() string   { return "Read it from a picture" }
func ReceiveMore() []string {
	return []string{
		"The camera is used only while this page shows it. Nothing is kept of what it sees, and nothing is sent.",
		"No camera? Take a screenshot or a photo of the code, bring it to this phone, and choose it under " + FromPicture() + ".",
		"It does not read? Make the other screen brighter, avoid reflections, and come nearer until the code fills the view.",
	}
}

// CodeFailed says why no code was read and what to do, by what the reader of codes answers; a fail that is not known is one of the reader itself.
func CodeFailed(fail string) string {
	switch fail {
	case "stopped":
		return ""
	case "refused":
		return "The camera was refused. Allow it for this page in the browser’s settings, or read the code from a picture."
	case "missing":
		return "No camera can be used here. Take a photo of the code and read it from that picture."
	case "busy":
		return "The camera did not start. Close what else may be using it and try again, or read the code from a picture."
	case "unreadable":
		return "That file could not be opened as a picture. Choose a photo or a screenshot of the code."
	case "none":
		return "No code was found in that picture. Take it straight from the front, sharp, with the whole code in it."
	}
	return "The reader could not be fetched. Reload this page and try again."
}

// CodeRefused says why a text that was read is not taken, and what to do; or why there is none.
func CodeRefused(err error) string {
	switch {
	case errors.Is(err, job.ErrCodeForeign):
		return "That is another kind of code. Read the one that the app shows under " + CodeName() + "."
	case errors.Is(err, job.ErrCodeLater):
		return "A newer version of the app made that code. Get that version on this phone, then read it again."
	case errors.Is(err, job.ErrCodeLong):
		return "There is more to say of this instrument than one code can hold. Hand over a backup of it instead."
	}
	return "That code is damaged, and nothing was taken from it. Have it shown afresh and read it again."
}

// What was read.
func AddIt() string       { return "Add it" }
func AddBeside() string   { return "Add it beside yours" }
func TakeNumbers() string { return "Take its numbers" }
func ReadAnother() string { return "Read another code" }
func TakeMeans() string {
	return TakeNumbers() + ": they replace yours. Your jobs, history and tags stay."
}

// ReceivedRows tells what of an instrument was read, besides its heights: pairs of name and value.
func (r Reader) ReceivedRows(i job.Instrument) (rows [][2]string) {
	rows = append(rows, [2]string{"Kind", Family(i.Kind().ID)})
	if i.Owner != "" {
		rows = append(rows, [2]string{"Owner", i.Owner})
	}
	if i.Scale.Given() {
		rows = append(rows, [2]string{ScaleLabel(), r.Typed(i.Scale)})
	}
	if i.AsSet == nil {
		return rows
	}
	for _, s := range i.AsSet.Neck {
		if s.String == 0 || s.String == i.Last() {
			rows = append(rows, [2]string{PlaceName(i, job.Place{Feature: s.Feature, Course: s.String}), r.Survey(s)})
		}
	}
	return rows
}

// OpenYours leads to the instrument that is here already.
func OpenYours() string { return "Open yours" }

// CodeBeside compares what was read with the same instrument here, by the day on which each was set.
func CodeBeside(mine, read job.Instrument) string {
	have := "You have this instrument already. "
	switch mine.Against(read) {
	case job.CodeSame:
		return have + "Both were set at the same time."
	case job.CodeNewer:
		return have + "Its numbers are newer than yours" + days(mine, read)
	case job.CodeOlder:
		return have + "Its numbers are older than yours" + days(mine, read)
	}
	if mine.AsSet == nil {
		return have + "Yours has not been set yet."
	}
	return have + "The one that was read has not been set yet."
}

// days tells when each was set, where that is not the same day.
func days(mine, read job.Instrument) string {
	here, there := Day(mine.AsSet.At), Day(read.AsSet.At)
	if here == there {
		return ", of the same day."
	}
	return ": " + there + ", yours " + here + "."
}
