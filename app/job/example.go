package job

import (
	"time"

	"gapwright/geometry"
)

// Example is a worked example of our own invention: an instrument and a job on it in the middle of its work, built by the same machine as any
// other. The ids and the time come from outside; the name is given by whoever shows it.
func Example(instrument, job, writer, name string, at time.Time) (Instrument, []Event) {
	profile := Instrument{ID: instrument, Name: name, Family: geometry.FlatTop6, Example: true}
	kit := Kit{Unit: MM, Marks: EveryQuarter, Zero: ZeroAtEnd}
	facts := []Fact{ // invented
		Began{Method: SandUnderside, Instrument: profile, Kit: kit},
		Answered{AskSaddle, SaddleLoose},
		ReadByMarks(kit, profile, 0, 11),
		ReadByMarks(kit, profile, 5, 8),
		Answered{AskStrings, StringsStay},
		Did{Measure},
		Answered{AskBuzz, BuzzNone},
		Chosen{Bass: Typed{"2.30", MM}, Treble: Typed{"1.80", MM}},
	}
	var r Record
	for i, f := range facts {
		next, err := r.Apply(Event{Job: job, Sequence: i + 1, Writer: writer, At: at.Add(time.Duration(i) * time.Second), Fact: f})
		if err != nil {
			panic("the worked example does not work: " + err.Error()) // held by a test
		}
		r = next
	}
	return profile, r.Events
}
