// Package words holds every sentence a person reads: steps, cautions, errors with what to do next, the glossary, and how numbers are said.
//
// The voice: short plain sentences, the trade's own words, what to do before why. A refusal says what is wrong and what would be right.
// Numbers are said in the person's own unit and never with more digits than the reading has. Another language would be another set of these
// functions.
package words
