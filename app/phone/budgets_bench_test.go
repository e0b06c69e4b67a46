package phone

import (
	"flag"
	"fmt"
	"slices"
	"strings"
	"sync"
)

// times is how often each start is measured; the median of fewer than nine says little.
var times = flag.Int("times", 9, "how often each start is measured")

// A budget is one line of what `make bench` prints at its end.
type budget struct {
	what, goal, got, spread string
	kept                    bool
}

var (
	budgets   []budget
	budgeting sync.Mutex
)

// Budget adds a line: what was measured, the goal it must not pass, and what each try came to; decimals are those that are printed.
func Budget(what string, goal float64, unit string, decimals int, tries ...float64) {
	budgeting.Lock()
	defer budgeting.Unlock()
	tries = slices.Sorted(slices.Values(tries))
	b := budget{what: what, goal: fmt.Sprintf("≤ %g%s", goal, unit), got: fmt.Sprintf("%.*f%s", decimals, at(tries, 0.5), unit), kept: at(tries, 0.5) <= goal}
	if len(tries) > 1 {
		b.spread = fmt.Sprintf("%.*f to %.*f (%d)", decimals, at(tries, 0.25), decimals, at(tries, 0.75), len(tries))
	}
	budgets = append(budgets, b)
}

// tellBudgets prints all of them. They are told, not held: a busy computer is no fault.
func tellBudgets() {
	if len(budgets) == 0 {
		return
	}
	fmt.Printf("\n%-74s %10s %12s  %s\n", "Budgets", "goal", "median", "quartiles (tries)")
	for _, b := range budgets {
		passed := ""
		if !b.kept {
			passed = "   over"
		}
		fmt.Printf("%-74s %10s %12s  %s%s\n", b.what, b.goal, b.got, b.spread, passed)
	}
	fmt.Println(strings.Repeat("-", 20))
}
