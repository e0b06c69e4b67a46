package phone

import (
	"fmt"
	"testing"

	"gapwright/app/job"
	"gapwright/app/view"
	"gapwright/app/words"
)

// Somebody who reads before they begin: from About through the four short pages, moving the string of the example, in millimetres and in inches.
// What is moved where is worked out in TestEachOfThreeMovesTheOthersByStraightLines.
func TestLearnBeforeTheWork(t *testing.T) {
	t.Parallel()
	w := StartWalk(t, "learn", Small)
	pages := words.Learn()
	down := func(part int) string { return words.MovedPart(part) + ": " + words.Lower() }
	up := func(part int) string { return words.MovedPart(part) + ": " + words.Higher() }
	drawn := func(want string) {
		t.Helper()
		w.Wait(want, fmt.Sprintf(`[...document.querySelectorAll("#screen svg text")].map(e => e.textContent).join(" ").replace(/\s+/g, " ") === %q`, want+" drawn 40 × too tall"))
	}

	w.Go(view.About)
	w.Says(words.LearnName())
	w.Tap(pages[0].Title)
	w.On(pages[0].Title)
	w.Says(pages[0].Lead, "Least room: held at fret 1, over fret 4. Enough for a light touch.", "Relief − 0.20\u00a0mm")
	drawn("fret 1 0.60 mm fret 12 2.40 mm")
	w.Tap(down(job.MoveNut))
	w.Sees("Nut 0.10\u00a0mm lower. Fret 1: 0.10\u00a0mm lower. Fret 12: 0.05\u00a0mm lower.")
	w.Look()
	for range 3 {
		w.Tap(down(job.MoveNut))
	}
	w.Sees("Nut − 0.40 lower")
	w.Says("Least room: open string, over fret 1. Will buzz.")
	drawn("fret 1 0.20 mm fret 12 2.20 mm") // 0.60 − 4·0.09439, 2.40 − 4·0.05
	w.Tap(down(job.MoveNut))
	w.Sees(words.AsFar(job.MoveNut))
	w.Look()
	w.Tap(words.AsUsualAgain())
	drawn("fret 1 0.60 mm fret 12 2.40 mm")
	w.Says(pages[0].Lead)
	w.Tap(up(job.MoveRelief))
	w.Sees("Relief 0.10\u00a0mm more. Fret 1: 0.05\u00a0mm higher. Fret 12: 0.25\u00a0mm higher.")
	w.Says("Relief − 0.30\u00a0mm")
	w.Tap(down(job.MoveSaddle))
	w.Sees("Saddle 0.20\u00a0mm lower. Fret 1: hardly moves. Fret 12: 0.10\u00a0mm lower.")
	drawn("fret 1 0.65 mm fret 12 2.55 mm") // 0.60 + 0.06737 − 0.01123, 2.40 + 0.24279 − 0.10
	if got, want := w.JS(`document.querySelector("#learn-desc").textContent`).(string), "Nut as usual, relief 0.30\u00a0mm, saddle 0.20 lower. Gap at fret 1 0.65\u00a0mm, at fret 12 2.55\u00a0mm. "; len(got) < len(want) || got[:len(want)] != want {
		t.Errorf("the picture is told as %q, want %q first", got, want)
	}
	w.Tap(words.More())
	w.LookInto()

	w.Tap(words.NextPage())
	w.On(pages[1].Title)
	w.Tap(words.NextPage())
	w.On(pages[2].Title)
	w.Tap(words.NextPage())
	w.On(pages[3].Title)
	first := pages[3].Parts[0].Lines[0]
	w.SeesNot(first[1])
	w.Tap(first[0])
	w.Says(first[1])
	w.LookInto()
	w.Tap(words.AllPages())
	w.On(words.LearnName())

	// In inches, and after a reload of the page itself with no network.
	w.Go(view.Kit)
	w.Tap(words.Inches())
	w.WaitSaved()
	w.Open(string(view.Learn) + "?id=" + pages[0].ID)
	w.Waiting(pages[0].Title)
	w.Tap(up(job.MoveSaddle))
	w.Sees("Saddle 0.008\u00a0in higher. Fret 1: hardly moves. Fret 12: 0.004\u00a0in higher.")
	w.SeesNot("mm")
	w.Look()

	// From a step of a job, and back to it.
	w.Open("/")
	w.Tap(words.TryExample())
	w.Wait("a step of the example", `document.querySelector(".where") !== null`)
	step := w.JS(`document.querySelector("main h1").textContent`).(string)
	w.Tap(words.JobMenu())
	w.Tap(words.GlossaryTitle())
	w.Waiting(words.GlossaryTitle())
	w.Back()
	w.Waiting(step)
}
