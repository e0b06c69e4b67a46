package words

import (
	"strings"

	"gapwright/app/job"
	"gapwright/geometry"
)

// What stands in the pictures of the steps, and what they are called.

// ActTitle names the picture of an act; the acts are those of draw.
func ActTitle(act string) string {
	switch act {
	case "stand-rule":
		return "The rule stands on the fret beside the string, the eye level with the gap"
	case "gap-leaf":
		return "Leaves or cards slid under the string at the fret"
	case "gap-caliper":
		return "A caliper’s depth rod standing on the fret, up to the string"
	case "take-out":
		return "All strings slack, and the saddle drawn straight up with two fingers"
	case "mark-sides":
		return "The saddle with a letter at its bass end and an arrow on its front"
	case "stand-up":
		return "The saddle from the end: its height over the wood in front of it"
	case "slot-deep":
		return "The bridge cut across: how deep the slot is"
	case "slot-full":
		return "Strips fill the slot, and the saddle hardly stands in it"
	case "slot-above":
		return "The bridge from above: how long and how wide the slot is"
	case "across-board":
		return "The board from its end: how round it is, and how far the outer strings are apart"
	case "empty-bench":
		return "An empty bench"
	case "to-file":
		return "All that is on the phone goes into a file"
	case "make-thickness":
		return "The new saddle from one end: how thick it is"
	case "make-length":
		return "The new saddle from the front, its two ends marked: how long it is"
	case "make-underside":
		return "The new saddle’s underside, flat on the paper"
	case "make-crown":
		return "The new saddle’s top, shaped under the strings"
	case "make-ends":
		return "Both ends of the new saddle, made round"
	case "make-polish":
		return "The new saddle’s top, polished from end to end"
	case "whole-saddle":
		return "The saddle from the front: its heights under the outer strings"
	case "sand":
		return "The saddle held low on flat paper, and moved along it once"
	case "sand-press":
		return "One end of the saddle pressed more than the other"
	case "sand-rocks":
		return "A saddle flat on the paper, and one that rocks so that a corner goes"
	case "sand-bends":
		return "A saddle on flat paper, and one on bent paper with a gap under it"
	case "put-back":
		return "The saddle going back down into its slot"
	case "post-wheel":
		return "The wheel under one end of the bridge: what a turn does to it"
	case "checks":
		return "Three checks: a straight edge on the underside, a square at the end, a press on each end"
	case "smooth":
		return "The saddle upright on fine paper, and both of its ends down"
	case "seat":
		return "The saddle in its slot, a finger pressing one end and then the other"
	case "lay-strip":
		return "Strips laid into the slot, the saddle over them"
	case "lay-stepped":
		return "A long strip in the slot, a short one over it at one end"
	case "play-every":
		return "A finger behind a fret, the string plucked, and on to the next fret"
	case "air":
		return "Dry air sinks the top, damp air lifts it"
	case "air-dry":
		return "The air is too dry now: it sinks the top"
	case "air-damp":
		return "The air is too damp now: it lifts the top"
	case "screw-key":
		return "A key in the screw under a string: what a turn does to it"
	case "file-stop":
		return PilePicture()
	}
	return SurveyPicture(map[string]job.Feature{"relief-held": job.Relief, "first-pressed": job.FirstPressed}[act])
}

// NotToScale is said of a picture whose heights are drawn far too tall; HeightsOnly of bars across the board.
func NotToScale() string { return "not to scale" }

// HeightsNote is said under bars whose foot may be left out.
func HeightsNote(broken bool) string {
	if broken {
		return "foot left out"
	}
	return HeightsOnly()
}
func HeightsOnly() string { return "heights to scale" }

// The labels of the pictures, in the order in which draw takes them.
func EyeHere() string       { return "eye level" }
func RodLabel() string      { return "depth rod" }
func MarkLabels() []string  { return []string{"B", "bass end", "front: this face to the neck"} }
func StandLabels() []string { return []string{"how far?", "from the neck"} }
func SlotLabels() []string  { return []string{"how long?", "how wide?", "how deep?"} }
func DepthLabel() string    { return "how deep?" }
func AcrossLabels() []string {
	return []string{"how round?", "outer strings: how far apart?"}
}
func HeightLabels() []string { return []string{"how high?", "how high?"} }
func SandLabels() []string {
	return []string{"one stroke: one length, one way"}
}
func PressMore(side int) string {
	if side == 0 {
		return "press more at the bass end"
	}
	return "press more at the treble end"
}
func RockLabels() []string  { return []string{"flat", "a corner goes"} }
func BendLabels() []string  { return []string{"flat", "the paper bends"} }
func CheckLabels() []string { return []string{"no light", "square", "no click"} }
func AirLabels() []string   { return []string{"under 40\u00a0%", "40 to 60\u00a0%", "over 60\u00a0%"} }
func PlayLabel() string     { return "open, then every fret" }
func HalfTurn() []string    { return []string{"half a turn", "up or down?"} }
func OneTurn() []string     { return []string{"one turn", "how far?"} }
func TrialTurn(n int) []string {
	return []string{plural(n, "turn", "turns") + " up", "read it"}
}
func RodLook() string { return "a nut or socket here?" }

// BowPicture names the neck from the side; BowText says what it shows, for those who do not see it. Turn is tighter above zero, looser below, 0 for a rod
// that is left alone.
func BowPicture() string { return "The neck from the side, with its bow under a straight string" }
func BowText(read string, turn int, scale string) string {
	all := []string{scale}
	if turn != 0 {
		all = append([]string{"The key turns " + OnMost(turn)}, all...)
	}
	if read != "" {
		all = append([]string{"Relief " + read}, all...)
	}
	return strings.Join(all, ", ")
}

// OnMost is which way the drawn key turns: rods that go the other way are few.
func OnMost(turn int) string {
	if turn < 0 {
		return Looser() + ", on most"
	}
	return Tighter() + ", on most"
}

// EndsText is a number at both ends.
func EndsText(numbers [2]string) string {
	return SideTitle(0) + " " + numbers[0] + ", " + SideTitle(1) + " " + numbers[1]
}

// Sided are the names of the two ends in a picture.
func Sided() [2]string { return [2]string{"bass", "treble"} }

// The pictures of all strings side by side: on what they lie, and what stands over them.
func BridgePicture() string {
	return "The bridge from the front, with the saddle in its slot and its strings"
}
func ScrewsPicture() string { return "The screws, one row for the strings" }
func PostsPicture() string  { return "The bridge on its two posts" }
func NutPicture() string    { return "The nut from the front, with its slots" }
func OrderPicture() string  { return "In which order the strings go on" }
func OrderNote() string     { return "outer ones first" }
func SlotLine() string      { return "dashed: where strings should lie" }
func TurnHeads() [2]string  { return [2]string{"turns", "order"} }

// InOrder is a place in an order: no string is called by such a word.
func InOrder(n int) string {
	ending := "th"
	if n%100 < 11 || n%100 > 13 {
		switch n % 10 {
		case 1:
			ending = "st"
		case 2:
			ending = "nd"
		case 3:
			ending = "rd"
		}
	}
	return Number(n) + ending
}

// Ordered writes several; 0 is none.
func Ordered(all []int) []string {
	var said []string
	for _, n := range all {
		if n == 0 {
			said = append(said, "")
		} else {
			said = append(said, InOrder(n))
		}
	}
	return said
}
func SlotInBridge() string { return "saddle in its slot" }

// OrderText is the order in which strings go on, for those who do not see the picture.
func OrderText(order []string) string {
	return "From the bass side: " + strings.Join(order, ", ") + ". The outer strings go on first, then inwards."
}

// TurnShort is a number of turns over a string; the arrow under it says which way.
func TurnShort(eighths int) string {
	text, _, _ := strings.Cut(TurnBy(eighths, ""), " ")
	return text
}

// TurnsLong is the same with its unit, where there is room.
func TurnsLong(eighths int) string {
	switch {
	case eighths == 0:
		return TurnShort(0)
	case eighths >= -8 && eighths <= 8:
		return TurnShort(eighths) + " turn"
	}
	return TurnShort(eighths) + " turns"
}

// TurnsText says what each is turned by, for those who do not see the picture.
func TurnsText(i job.Instrument, m job.Method, turns []int) string {
	var all []string
	for n, eighths := range turns {
		all = append(all, Thing(i, m, n)+" "+Eighths(eighths))
	}
	return strings.Join(all, ", ")
}

// SlotsText says how each slot stands.
func SlotsText(i job.Instrument, slots []job.NutSlot) string {
	var all []string
	for _, s := range slots {
		all = append(all, CourseTitle(i, s.Course)+": "+SlotSays(s.State))
	}
	return strings.Join(all, "; ")
}

// RoomSign says what the mark over a fret means, and which fret it is; each is a short line.
func RoomSign(c job.Chance, fret int) [2]string {
	said := ""
	switch c {
	case job.RoomLacking:
		said = "touches"
	case job.RoomPerhaps:
		said = "may hit"
	case job.RoomEnough:
		said = "clears"
	default:
		return [2]string{}
	}
	return [2]string{said, Fret(fret)}
}

// Under says how thick what lies under an end is.
func (r Reader) Under(side int, l geometry.Length) string { return Sided()[side] + " " + r.Thick(l) }

// Bow says a relief that was read.
func (r Reader) Bow(i geometry.Interval) string { return r.signed(i) }

// The pictures of both outer strings over their fret, one bar each.
func HeightsPicture() string { return "The outer strings over the fret" }
func WantedBars() string     { return "wanted" }
func BeforeBars() string     { return "before" }
func (r Reader) BarsText(names [2]string, label string, was, is [2]geometry.Interval) string {
	var all []string
	for side, name := range names {
		text := name + " now " + r.Span(is[side])
		if was[side].High > 0 {
			text += ", " + label + " " + r.Span(was[side])
		}
		all = append(all, text)
	}
	return strings.Join(all, "; ")
}
