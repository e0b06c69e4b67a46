package draw

import "testing"

// buzzes is the pictures of where it buzzes.
func buzzes() []named {
	var list []named
	for strings, name := range []string{"one", "few", "all"} {
		list = append(list, named{"buzz-" + name, BuzzNeck(strings, -1, name, "")})
	}
	for place, name := range []string{"open", "first", "middle", "upper", "everywhere", "fret"} {
		list = append(list, named{"buzz-all-" + name, BuzzNeck(2, place, name, "")})
	}
	return append(list, named{"buzz-one-middle", BuzzNeck(0, 2, "t", "")}, named{"fret-rocker", FretRocker("t", "")})
}

// Every string that buzzes carries a sign at every place that is meant, the others none.
func TestBuzzIsWhereItIsSaid(t *testing.T) {
	for strings, lines := range []int{1, 2, 4} {
		for place, each := range []int{1, 2, 2, 1, 5, 1} { // everywhere: the open string and four stops
			signs := 0
			for _, s := range BuzzNeck(strings, place, "t", "").Shapes {
				if s.Role == RoomFull {
					signs++
				}
			}
			if signs != lines*each {
				t.Errorf("strings %d, place %d: %d signs, want %d", strings, place, signs, lines*each)
			}
		}
	}
}
