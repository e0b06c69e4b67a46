// Package job is a person's work as a pure machine: facts go in, a record comes out.
//
// A job is the list of its events. Each event carries one fact (read, chosen, checked, done) with the text as typed and its unit, the job,
// a sequence number, a writer and the time; nothing here asks a clock, a store or a screen. Results are never stored: the step, the plan
// and the coach's advice are worked out from the facts whenever somebody asks, so a later version may know more steps and still read
// every old job. The list only grows. Undo is a fact too, and no fact ever pretends that material came back.
package job
