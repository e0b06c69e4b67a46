package job

import "gapwright/geometry"

// What there is to do on an instrument, from what holds its strings up.

// Bridge is what holds the strings up at the bridge, as it stands in profiles.
type Bridge string

// The bridges. BridgeUnsure is an answer too: nothing is done at the bridge then.
const (
	BridgeNotAsked Bridge = ""
	BridgeSlot     Bridge = "drop-in" // a strip that lies loose in its slot
	BridgeFixed    Bridge = "fixed"   // a strip that is glued, or stands in a slot open at both ends
	BridgeScrews   Bridge = "screws"  // one or two at each string
	BridgePosts    Bridge = "posts"   // two posts or wheels under all strings
	BridgeUnsure   Bridge = "unsure"
)

// Bridges lists what can be answered.
func Bridges() []Bridge {
	return []Bridge{BridgeSlot, BridgeFixed, BridgeScrews, BridgePosts, BridgeUnsure}
}

// Holds is what holds the strings up: as answered, or the loose saddle that the family usually has, of which the job itself asks; BridgeNotAsked
// where it has to be asked first.
func (i Instrument) Holds() Bridge {
	if i.Bridge == BridgeNotAsked && i.Kind().DropIn {
		return BridgeSlot
	}
	return i.Bridge
}

// Methods lists what can be done with such an instrument, the usual thing first: what fits its bridge, then nut and neck. The small ukuleles have
// no rod in their necks.
func (i Instrument) Methods() []Method {
	var fit []Method
	switch i.Holds() {
	case BridgeSlot:
		fit = []Method{SandUnderside, RaiseByStrip, NewSaddle}
	case BridgeScrews:
		fit = []Method{ByScrews}
	case BridgePosts:
		fit = []Method{ByPosts}
	}
	fit = append(fit, NutSlots)
	switch i.Kind().ID {
	case geometry.UkuleleSmall, geometry.UkuleleTenor, geometry.UkuleleBaritone:
		return fit
	}
	return append(fit, SetRelief)
}

// Split tells whether the saddle is in two pieces, which are worked as one.
func (r Record) Split() bool {
	a, _ := r.Answer(AskSaddle)
	return a == SaddleSplit
}

// Minds tells whether an answer bears on the method: a saddle that hardly stands out has nothing to give, but can be raised or replaced.
func (m Method) Minds(a Answer) bool { return a != SaddleLow || !m.Raises() }
