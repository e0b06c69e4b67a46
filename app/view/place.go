package view

import (
	"net/url"
	"strings"
)

// A Place is one of the app's few fixed addresses. Each is a folder with a page in it on a static host; what is shown there is told
// by the query, so that no address ever needs a server to understand it.
type Place string

// The places, in the order in which the site writes them.
const (
	Bench      Place = "/"
	Instrument Place = "/instrument/"
	Job        Place = "/job/"
	Kit        Place = "/kit/"
	About      Place = "/about/"
	Check      Place = "/check/"   // the quick check; of an instrument, by its id
	History    Place = "/history/" // of an instrument
	Letter     Place = "/letter/"  // what is handed to the owner, of a job
	Code       Place = "/code/"    // an instrument as a picture for another phone; without an id, the reader of one
	Copy       Place = "/copy/"    // backup and restore; of an instrument, by its id
	Learn      Place = "/learn/"   // short pages, by their name
	Buzz       Place = "/buzz/"    // where it buzzes, and why; of an instrument, by its id
)

// Places lists every address the app answers to.
func Places() []Place {
	return []Place{Bench, Instrument, Job, Kit, About, Check, History, Letter, Code, Copy, Learn, Buzz}
}

// Link builds the address of a place for a person or a browser. The prefix is the folder the app is served from: "" or "/" at the root
// of a host, "/folder" below it. Every link in the app is built here, so that none forgets the prefix.
func Link(prefix string, place Place, id string) string {
	address := strings.TrimSuffix(prefix, "/") + string(place)
	if id == "" {
		return address
	}
	return address + "?" + url.Values{"id": {id}}.Encode()
}

// PlaceOf finds the place that a path leads to; anything unknown leads to the Bench.
func PlaceOf(path, prefix string) Place {
	path = strings.TrimSuffix(strings.TrimPrefix(path, strings.TrimSuffix(prefix, "/")), "/") + "/"
	for _, p := range Places() {
		if path == string(p) {
			return p
		}
	}
	return Bench
}
