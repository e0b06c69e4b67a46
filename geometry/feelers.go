package geometry

import (
	"cmp"
	"slices"
)

// FeelerSet gives the leaves of a common metric set, thinnest first: 8 leaves (0.05 to 0.50 mm), 13 (to 1.00) or 20 (by 0.05 to 1.00); nil for
// any other number. From memory, common practice; the leaf lists of DIN 2275 could not be read.
func FeelerSet(leaves int) []Length {
	thirteen := []Length{0.05, 0.10, 0.15, 0.20, 0.25, 0.30, 0.40, 0.50, 0.60, 0.70, 0.80, 0.90, 1.00}
	switch leaves {
	case 8:
		return thirteen[:8:8]
	case 13:
		return thirteen
	case 20:
		return []Length{0.05, 0.10, 0.15, 0.20, 0.25, 0.30, 0.35, 0.40, 0.45, 0.50, 0.55, 0.60, 0.65, 0.70, 0.75, 0.80, 0.85, 0.90, 0.95, 1.00}
	}
	return nil
}

// FewestLeaves is the smallest number of a set's leaves that together make thickness, the thickest first; nil when four do not. A pile is a little
// thicker than its sum when it is not pressed together.
func FewestLeaves(set []Length, thickness Length) []Length {
	leaves := slices.Clone(set)
	slices.SortFunc(leaves, func(a, b Length) int { return cmp.Compare(b, a) })
	var pile func(from, count int, left Length) []Length
	pile = func(from, count int, left Length) []Length {
		for i := from; i < len(leaves); i++ {
			switch rest := left - leaves[i]; {
			case rest < -hair:
				continue
			case count == 1 && rest <= hair:
				return []Length{leaves[i]}
			case count > 1:
				if more := pile(i+1, count-1, rest); more != nil {
					return append([]Length{leaves[i]}, more...)
				}
			}
		}
		return nil
	}
	for count := 1; count <= 4; count++ {
		if found := pile(0, count, thickness); found != nil {
			return found
		}
	}
	return nil
}
