package job

import "gapwright/geometry"

// Raising a loose saddle by strips under it. What goes in can come out again, so a round need not stop half-way: it is laid for the worst case, and no
// string stays under its wish.

// Strip is one kind of leaf, veneer or card that is to hand.
type Strip struct {
	Thick Typed `json:"thick,omitzero"` // of one, or of ten of them together
	Ten   bool  `json:"ten,omitzero"`
	Count int   `json:"count,omitzero"` // how many there are; 0: enough
}

// each is what one strip measures; zero where nothing that can be read was typed.
func (s Strip) each() geometry.Length {
	if s.Ten {
		return s.Thick.LengthOr(0) / 10
	}
	return s.Thick.LengthOr(0)
}

// Limits of what goes into one pile (common practice, no source): thinner leaves tear, and more of them give under the strings.
const (
	thinnestStrip geometry.Length = 0.02
	mostLeaves                    = 6
)

// Check tells whether it can be a strip. Errors: geometry's.
func (s Strip) Check() error {
	if _, err := s.Thick.Length(); err != nil {
		return err
	}
	if each := s.each(); each < thinnestStrip || each > ThickestStrip {
		times := 1.0
		if s.Ten {
			times = 10
		}
		return &geometry.RangeError{Quantity: geometry.QuantityFeeler, Got: times * float64(each), Min: times * float64(thinnestStrip), Max: times * float64(ThickestStrip)}
	}
	return nil
}

// WithStrip is the kit with one kind more; ok is false when it holds as many as it can.
func (k Kit) WithStrip(s Strip) (more Kit, ok bool) {
	for n, known := range k.Strips {
		if known == (Strip{}) {
			k.Strips[n] = s
			return k, true
		}
	}
	return k, false
}

// WithoutStrip is the kit without its n-th kind.
func (k Kit) WithoutStrip(n int) Kit {
	copy(k.Strips[n:], k.Strips[n+1:])
	k.Strips[len(k.Strips)-1] = Strip{}
	return k
}

// Leaves counts how many of each of the kit's kinds are in a pile.
type Leaves [len(Kit{}.Strips)]int

// Thick is what the pile measures, pressed together.
func (k Kit) Thick(pile Leaves) geometry.Length {
	thick := geometry.Length(0)
	for n, count := range pile {
		thick += geometry.Length(count) * k.Strips[n].each()
	}
	return thick
}

// Pile is the thinnest pile of what is to hand that is at least so thick, of the fewest leaves among equals; ok is false when there is none.
func (k Kit) Pile(least geometry.Length) (best Leaves, ok bool) {
	var pile Leaves
	thinnest, fewest := geometry.Length(0), 0
	var from func(n, left int)
	from = func(n, left int) {
		if n == len(pile) {
			thick, leaves := k.Thick(pile), mostLeaves-left
			if thick >= least-sameMark && (!ok || thick < thinnest-sameMark || thick < thinnest+sameMark && leaves < fewest) {
				best, thinnest, fewest, ok = pile, thick, leaves, true
			}
			return
		}
		most := left
		if s := k.Strips[n]; s.each() <= 0 {
			most = 0
		} else if s.Count > 0 {
			most = min(left, s.Count)
		}
		for pile[n] = 0; pile[n] <= most; pile[n]++ {
			from(n+1, left-pile[n])
		}
		pile[n] = 0
	}
	from(0, mostLeaves)
	return best, ok
}

// without is the kit after a pile was taken from it.
func (k Kit) without(pile Leaves) Kit {
	for n, count := range pile {
		if s := &k.Strips[n]; s.Count > 0 {
			if s.Count -= count; s.Count == 0 {
				*s = Strip{}
			}
		}
	}
	return k
}

// StripOutcome says whether there is something to lay.
type StripOutcome string

// The outcomes of planning.
const (
	StripGo         StripOutcome = "go"
	StripThere      StripOutcome = "there"       // no string is under its wish
	StripCannotTell StripOutcome = "cannot-tell" // the readings do not show that any is
	StripTooMuch    StripOutcome = "too-much"    // more is missing than a strip should make up
	StripTooShallow StripOutcome = "too-shallow" // too little of the saddle would be left in its slot
)

// StripOutcomes lists every outcome, so that tests can ask for a sentence for each.
func StripOutcomes() []StripOutcome {
	return []StripOutcome{StripGo, StripThere, StripCannotTell, StripTooMuch, StripTooShallow}
}

// StripPlan is what a round is to lay under the saddle, worked out from the facts. Pairs are bass and treble.
type StripPlan struct {
	Outcome  StripOutcome
	Gap      [2]geometry.Interval // of the outer strings, now
	Target   [2]geometry.Length
	Need     [2]geometry.Interval // missing under them, at the saddle; the high end is sure to be enough
	Known    bool                 // whether a pile of what is to hand does it; else Laid is only what is needed
	Even     Leaves               // right across
	Extra    Leaves               // on top of it, half as long, at the end Side
	Side     int
	Laid     [2]geometry.Length   // at the two ends of the saddle
	After    [2]geometry.Interval // of the outer strings
	Stands   [2]geometry.Interval // the saddle over the top, afterwards
	StandsOf [2]bool              // whether that was measured
	Seat     [2]geometry.Length   // how deep the saddle then sits in its slot; 0: not known
	Findings []geometry.Finding
}

const (
	// closeEnds is how much more one end may need than the other before an even pile will not do: 0.1 mm at fret 12 (common practice, no source).
	closeEnds geometry.Length = 0.2
	// pileGive is how far a pile under the pull of the strings may be off what was typed (common practice, no source).
	pileGive geometry.Length = 0.05
	// seatShare is how much of what stands up a saddle must have in its slot at least, so that it cannot lever the slot open (common practice, no source).
	seatShare geometry.Length = 0.5
)

// StripPlan works out the round from its readings, wishes and what is to hand. Errors: geometry.ErrNoReading while something is missing.
func (r Record) StripPlan() (StripPlan, error) {
	lever, err := r.Instrument.Leverage(r.Instrument.ReadFret(), r.Instrument.Held)
	if err != nil {
		return StripPlan{}, err
	}
	plan := StripPlan{Outcome: StripThere}
	for side := range plan.Gap {
		course := side * r.Instrument.Last()
		gap, err := r.Before(course)
		target, errTarget := r.Target(course)
		if err != nil || errTarget != nil {
			return StripPlan{}, geometry.ErrNoReading
		}
		plan.Gap[side], plan.Target[side], plan.After[side] = gap, target, gap
		plan.Need[side] = geometry.Exactly(target).Minus(gap).Times(1 / lever).AtLeast(0)
		switch geometry.Judge(gap, target, lever) {
		case geometry.TooLow:
			plan.Outcome = StripGo
		case geometry.CannotTell:
			if plan.Outcome == StripThere {
				plan.Outcome = StripCannotTell
			}
		}
	}
	if plan.Outcome != StripGo {
		return plan, nil
	}
	r.lay(&plan)
	for side := range plan.Gap {
		lift := r.line(plan.Laid).At(r.Instrument.Offset(side * r.Instrument.Last()))
		plan.After[side] = plan.Gap[side].Shifted(geometry.Length(lever) * lift)
		r.seat(&plan, side)
	}
	if max(plan.Need[0].High, plan.Need[1].High) > ThickestStrip+sameMark {
		plan.Outcome = StripTooMuch
	}
	return plan, nil
}

func (r Record) line(ends [2]geometry.Length) geometry.Line {
	return geometry.Line{Ends: r.Instrument.Ends(), Bass: ends[0], Treble: ends[1]}
}

// lay fills in what goes under the saddle. A pile is even where the ends agree, over a pickup, and where what is to hand gives nothing better.
func (r Record) lay(plan *StripPlan) {
	if plan.Need[1].High > plan.Need[0].High {
		plan.Side = 1
	}
	most, least := plan.Need[plan.Side].High, plan.Need[1-plan.Side].High
	ends := r.Instrument.Ends()
	share := (ends.Treble - r.Instrument.Offset(0)) / (ends.Treble - ends.Bass) // of the extra, under the outer string: the saddle is longer than they are apart
	under, _ := r.Answer(AskUnder)
	even := most-least <= closeEnds || under == UnderPickup || under == UnderUnsure
	if !even {
		low, ok := r.Kit.Pile(max(least, thinnestStrip)) // never one end alone
		if thick := r.Kit.Thick(low); ok && thick < most-sameMark {
			rest := r.Kit.without(low)
			if plan.Extra, ok = rest.Pile((most - thick) / share); ok {
				plan.Known, plan.Even = true, low
				plan.Laid[plan.Side], plan.Laid[1-plan.Side] = thick+rest.Thick(plan.Extra), thick
				return
			}
		}
	}
	plan.Even, plan.Known = r.Kit.Pile(most)
	switch {
	case plan.Known:
		most = r.Kit.Thick(plan.Even)
	case !even:
		plan.Laid[plan.Side], plan.Laid[1-plan.Side] = least+(most-least)/share, least
		return
	}
	plan.Laid = [2]geometry.Length{most, most}
}

// seat works out what stands up and what is left in the slot at a side, by what was measured and laid since.
func (r Record) seat(plan *StripPlan, side int) {
	stood := r.Stands[side]
	if stood == nil {
		return
	}
	raised := plan.Laid[side]
	for n := r.stoodIn[side]; n < len(r.Rounds); n++ { // rounds count from 1, so this leaves out the one under way
		for _, s := range r.Rounds[n-1].Shims {
			raised += [2]Typed{s.Bass, s.Treble}[side].LengthOr(0)
		}
	}
	if e, err := stood.Exposure.Length(); err == nil {
		give := stood.Give.LengthOr(geometry.Millimetre / 2)
		plan.Stands[side], plan.StandsOf[side] = geometry.Interval{Low: e - give, High: e + give}.AtLeast(0).Shifted(raised), true
	}
	depth := stood.Depth.LengthOr(0)
	if depth == 0 {
		return
	}
	plan.Seat[side] = max(0, depth-raised)
	stands := plan.Stands[side]
	switch {
	case plan.Seat[side] < seatShare*stands.Low:
		plan.Outcome = StripTooShallow
	case plan.Seat[side] < stands.High:
		plan.Findings = append(plan.Findings, geometry.Finding{Kind: geometry.LeanRisk, Severity: geometry.Caution, Side: geometry.Side(side), Length: stands.High})
	}
}

func (r Record) stripReady() (bool, error) {
	plan, err := r.StripPlan()
	return err == nil && plan.Outcome == StripGo, err
}

func (r Record) stripLowered(course int) (geometry.Interval, bool) {
	shims := r.Current().Shims
	if len(shims) != 1 || !shims[0].Bass.Given() || !shims[0].Treble.Given() {
		return geometry.Interval{}, false
	}
	bass, treble, err := lengths(shims[0].Bass, shims[0].Treble)
	up := r.line([2]geometry.Length{bass, treble}).At(r.Instrument.Offset(course))
	return geometry.Interval{Low: -up - pileGive, High: -up + pileGive}, err == nil
}
