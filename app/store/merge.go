package store

import (
	"bytes"
	"encoding/json"
	"errors"
	"slices"
)

// ErrDiffers is what a merge answers with, beside the best body that there is, when both sides changed the same thing in different ways.
var ErrDiffers = errors.New("both sides changed the same thing differently")

// together lists members that mean nothing one without the other: they are taken from one side.
var together = [][]string{{"unit", "marks"}, {"zero", "zeroDist"}, {"fret", "held"}, {"scale", "trebleScale"}}

// mergeMembers joins two JSON objects member by member: what only one side changed since base is taken from that side. What both changed
// differently stays as theirs has it, and the error is ErrDiffers. A member is taken whole, since a part of a measurement (its digits without
// its unit) is none. Without a base, what only one side has was added there. Names stand in the order of theirs.
func mergeMembers(_ string, base, ours, theirs json.RawMessage) (json.RawMessage, error) {
	_, was, _ := members(base) // null, or no object: as if it had nothing
	ourNames, o, wrong := members(ours)
	names, t, err := members(theirs)
	if err := errors.Join(wrong, err); err != nil {
		return nil, err
	}
	var differs error
	merged := map[string]json.RawMessage{}
	for _, name := range ourNames {
		if !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	for _, name := range names {
		from := t
		group := partners(name)
		switch {
		case alike(o, t, group) || alike(o, was, group):
		case alike(t, was, group):
			from = o
		default:
			differs = ErrDiffers
		}
		if value, there := from[name]; there {
			merged[name] = value
		}
	}
	return object(names, merged), differs
}

// partners are the members that are taken together with one, itself among them.
func partners(name string) []string {
	for _, group := range together {
		if slices.Contains(group, name) {
			return group
		}
	}
	return []string{name}
}

// alike reports whether two objects have the same values under those names.
func alike(a, b map[string]json.RawMessage, names []string) bool {
	for _, name := range names {
		if !bytes.Equal(a[name], b[name]) {
			return false
		}
	}
	return true
}

// members reads a JSON object: its names in order and its values, without spare blanks.
func members(body json.RawMessage) (names []string, values map[string]json.RawMessage, err error) {
	var whole bytes.Buffer
	if err := json.Compact(&whole, body); err != nil {
		return nil, nil, err
	}
	if err := json.Unmarshal(whole.Bytes(), &values); err != nil || values == nil {
		return nil, nil, errors.Join(err, ErrBody)
	}
	pen := json.NewDecoder(&whole)
	pen.Token() // the brace
	for pen.More() {
		name, _ := pen.Token()
		var skipped json.RawMessage
		if err := pen.Decode(&skipped); err != nil {
			return nil, nil, err
		}
		if name, ok := name.(string); ok && !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return names, values, nil
}

// object writes the members that are there in the order of the names.
func object(names []string, values map[string]json.RawMessage) json.RawMessage {
	out := []byte{'{'}
	for _, name := range names {
		value, there := values[name]
		if !there {
			continue
		}
		if len(out) > 1 {
			out = append(out, ',')
		}
		quoted, _ := json.Marshal(name) // a text always has a JSON form
		out = append(append(append(out, quoted...), ':'), value...)
	}
	return append(out, '}')
}
