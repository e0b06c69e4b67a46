package view

import (
	"time"

	"gapwright/app/job"
	"gapwright/app/store"
	"gapwright/app/words"
)

// A browser translates a function when it is first called, and the first tap on each step would wait for that. So a thread beside the page rehearses a
// whole job with the same compiled program, in memory, for nobody to see.

// Rehearse goes through the worked example and ends.
func Rehearse() {
	for r := newRehearsal(); r.next(); {
	}
}

// rehearsal is an app of its own with the worked example in it.
type rehearsal struct {
	app   *App
	parts []func()
}

func newRehearsal() *rehearsal {
	const id = "rehearsal"
	r := &rehearsal{app: &App{place: Job, id: id, typed: map[string]string{}, picked: map[string]int{}, problem: map[string]string{}, drafts: map[string]draft{},
		unfolded: map[string]bool{words.More(): true, words.JobMenu(): true}, settles: map[string]int64{}, fetched: map[string]*job.Record{}, kept: map[string]keptText{}}}
	r.app.desk = store.NewDesk(store.NewDevice().Tab(), store.Options{NewID: func() string { return id }})
	r.app.desk.Reconcile()
	instrument, events := job.Example(id, id, id, words.ExampleName(), now().UTC().Truncate(time.Second))
	screen := func() { r.app.show() }
	fact := func(f job.Fact) {
		// A fact that is refused ends nothing: what comes after it is rehearsed less well.
		r.parts = append(r.parts, func() { r.app.desk.Record(id, f) }, screen)
	}
	r.parts = append(r.parts, func() { r.app.desk.PutInstrument(instrument) })
	for _, e := range events {
		fact(e.Fact)
	}
	for _, f := range restOfExample(events) {
		fact(f)
	}
	for _, p := range []Place{Bench, Instrument, History} {
		r.parts = append(r.parts, func() { r.app.place = p }, screen)
	}
	return r
}

// restOfExample takes the worked example to its end; what is read and seen in it is invented.
func restOfExample(events []job.Event) []job.Fact {
	began := events[0].Fact.(job.Began)
	mm := func(text string) job.Typed { return job.Typed{Text: text, Unit: job.MM} }
	look := func(strokes int, line job.Line) job.Fact {
		return job.Looked{Strokes: strokes, Bass: line, Middle: line, Treble: line}
	}
	again := func(course, mark int) job.Fact {
		return job.ReadByMarks(began.Kit, began.Instrument, course, mark)
	}
	return []job.Fact{
		job.Answered{Question: job.AskRoom, Answer: job.RoomFine}, job.Stood{Side: 0, Exposure: mm("4.5")}, job.Stood{Side: 1, Exposure: mm("4")}, job.Did{Step: job.MakePlan},
		job.Answered{Question: job.AskUnder, Answer: job.UnderClear}, job.Did{Step: job.TakeOut},
		job.Answered{Question: job.AskFollow, Answer: job.FollowPencil}, job.Did{Step: job.Mark},
		look(10, job.Clear), look(4, job.Touched), job.Did{Step: job.Sand}, job.Skipped{Step: job.Smooth},
		job.Answered{Question: job.AskSeat, Answer: job.SeatFlat}, job.Did{Step: job.Seat}, job.Answered{Question: job.AskStrung, Answer: job.StrungSame}, job.Did{Step: job.StringUp},
		again(0, 10), again(5, 8), job.Judged{Outcome: job.Keep}, job.Saved{},
	}
}

// next does the next part of the rehearsal; false when there is none.
func (r *rehearsal) next() bool {
	if len(r.parts) == 0 {
		return false
	}
	r.parts[0]()
	r.parts = r.parts[1:]
	return true
}
