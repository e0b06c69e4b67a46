// Package store keeps the documents of the app: the kit, the instruments and the jobs.
//
// There are two homes. Local storage is read and written at once, so the first screen has its data; a killed browser may lose its last
// ten seconds. The journal (IndexedDB) answers later and is strict: what it confirmed is there after a kill. Every change goes to both,
// and only the journal's confirmation is called saved. A finished document lives in the journal alone. Newer is decided by sequence,
// checksum and descent, never by the clock.
//
// Promises: a text that was ever written by a released version opens in every later one; what cannot be read, or was written by a later
// version, is never written over; of two revisions of which neither comes from the other none is dropped.
//
// What lies where:
//
//	local storage   gapwright/<key>                    the newest revision of an open document
//	                gapwright/{aside,before,parted}/…  only while the journal cannot be used
//	                gapwright/told/<word>              a person was told that once; nothing is in it
//	journal, heads  <key>                              sequence, sum, ancestors' sums
//	journal, past   [<key>, sequence, sum]             texts of the last three revisions, the head's among them
//	                [aside/<key>/<sum>, 0, ""]         a text that was damaged or foreign, as it was found; never pruned
//	                [before/<key>/<sum>, 0, ""]        a text as it was before a migration; never pruned
//	                [parted/<key>/<sum>, 0, ""]        a revision that could not be merged; never pruned
//	                [told/<word>, 0, ""]               as in local storage
//
// The package knows no browser except in browser.go, which passes on to web/journal.js.
package store
