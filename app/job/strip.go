package job

import "gapwright/geometry"

// Raising a loose saddle by strips under it. What goes in can come out again, so a round need not stop half-way: it is laid for the worst case, and no
// string stays under its wish.

// Strip is one kind of leaf, veneer or card that is to hand. What is typed is taken as it is: 0.03 mm more or less of it is 0.015 mm at fret 12.
type Strip struct {
	Thick Typed `json:"thick,omitzero"` // of one, or of ten of them together
	Ten   bool  `json:"ten,omitzero"`
	Count int   `json:"count,omitzero"` // how many there are; 0: enough
}

const (
	// mostLeaves is how many leaves a pile may have: more give under the strings (common practice, no source).
	mostLeaves = 6
	// ShortPart is how long the short strip at one end is, of the saddle's length: with a third the saddle cannot rock on it.
	ShortPart = 1.0 / 3
	// MostKinds is how many kinds of strip a kit holds.
	MostKinds = 4
	// closeEnds is how much more one end may ask for than the other and still get one even pile: under 0.1 mm at fret 12 (common practice, no source).
	closeEnds geometry.Length = 0.15
	// pileGive is how far a pile under the strings' pull may be off what was typed (common practice, no source).
	pileGive geometry.Length = 0.05
)

// Each is what one of them measures; zero where nothing that can be read was typed.
func (s Strip) Each() geometry.Length {
	if s.Ten {
		return s.Thick.LengthOr(0) / 10
	}
	return s.Thick.LengthOr(0)
}

// The thinnest and the thickest that one strip may be: thinner ones tear (common practice, no source).
const (
	thinnestStrip geometry.Length = 0.05
	thickestStrip geometry.Length = 2
)

// Check tells whether it can be a strip. Errors: geometry's.
func (s Strip) Check() error {
	if _, err := s.Thick.Length(); err != nil {
		return err
	}
	if s.Ten {
		return limit{s.Thick, geometry.QuantityShim, 10 * thinnestStrip, 10 * thickestStrip}.check()
	}
	return limit{s.Thick, geometry.QuantityShim, thinnestStrip, thickestStrip}.check()
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

// leaves lists the kit's kinds, each in its place; of one that cannot be piled there is none.
func (k Kit) leaves() []geometry.Leaf {
	var all []geometry.Leaf
	for _, s := range k.Strips {
		leaf := geometry.Leaf{Thickness: geometry.Exactly(s.Each()), Count: s.Count}
		switch {
		case s.Check() != nil:
			leaf = geometry.Leaf{Thickness: geometry.Exactly(thinnestStrip)}
		case s.Count <= 0 || s.Count > mostLeaves:
			leaf.Count = mostLeaves
		}
		all = append(all, leaf)
	}
	return all
}

// Pile is the best pile of what is to hand that is not under a thickness; ok is false when there is none.
func (k Kit) Pile(need geometry.Length) (pile geometry.Pile, ok bool) {
	pile, err := geometry.PileFor(need, k.leaves(), mostLeaves)
	return pile, err == nil && pile.Leaves > 0
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

// StripPlan is what a round is to lay under the saddle, worked out from the facts.
type StripPlan struct {
	Outcome  StripOutcome
	Strings  []PlannedString // without what belongs to a cut
	Shim     geometry.Shim   // what is asked for
	Known    bool            // what is to hand makes it: Laying; otherwise only what is asked for is known
	Laying   geometry.Laying
	Thick    [2]geometry.Length // what lies at the two ends, bass and treble
	Stands   [2]geometry.OnShim // the ends of the saddle afterwards
	Stood    [2]bool            // whether that end was measured
	Findings []geometry.Finding
}

// StripPlan works out the round from its readings, wishes and what is to hand. Errors: geometry's, ErrNoReading while something is missing.
func (r Record) StripPlan() (StripPlan, error) {
	planned, strings, _, err := r.planned()
	if err != nil {
		return StripPlan{}, err
	}
	plan := StripPlan{Outcome: StripThere, Strings: planned}
	if plan.Shim, err = geometry.Raise(strings, r.Instrument.Ends()); err != nil {
		return StripPlan{}, err
	}
	for _, s := range planned {
		switch {
		case s.Verdict == geometry.TooLow:
			plan.Outcome = StripGo
		case s.Verdict == geometry.CannotTell && plan.Outcome == StripThere:
			plan.Outcome = StripCannotTell
		}
	}
	if plan.Outcome == StripGo && plan.Shim.BetterNew() {
		plan.Outcome = StripTooMuch
	}
	under := r.build(&plan)
	for i := range plan.Strings {
		plan.Strings[i].After = strings[i].Raised(under.At(strings[i].Offset))
	}
	for side, laid := range [2]geometry.Interval{under.Bass, under.Treble} {
		r.onShim(&plan, side, laid)
	}
	return plan, nil
}

// build finds what to lay: one even pile where the ends agree, over a pickup, under a saddle in two pieces, of which one would rock on a short strip, and
// where what is to hand gives nothing better.
func (r Record) build(plan *StripPlan) geometry.Laid {
	ends := plan.Shim
	ends.Lay.Bass, ends.Lay.Treble = max(ends.Lay.Bass, thinnestStrip), max(ends.Lay.Treble, thinnestStrip) // never one end alone
	even := ends
	even.Lay.Bass = max(ends.Lay.Bass, ends.Lay.Treble)
	even.Lay.Treble = even.Lay.Bass
	under, _ := r.Answer(AskUnder)
	if even.Lay.Bass-min(ends.Lay.Bass, ends.Lay.Treble) <= closeEnds || under == UnderPickup || under == UnderUnsure || r.Split() {
		ends = even
	}
	over := func(l geometry.Laying) geometry.Length {
		return max(l.Under.Bass.High-plan.Shim.Lay.Bass, l.Under.Treble.High-plan.Shim.Lay.Treble)
	}
	laying, errEven := even.Build(r.Kit.leaves(), mostLeaves, ShortPart)
	stepped, err := ends.Build(r.Kit.leaves(), mostLeaves, ShortPart)
	if err == nil && (errEven != nil || over(stepped) < over(laying)) {
		laying = stepped
	}
	if plan.Known = err == nil || errEven == nil; !plan.Known {
		plan.Thick = [2]geometry.Length{ends.Lay.Bass, ends.Lay.Treble}
		return geometry.Laid{Ends: ends.Lay.Ends, Bass: geometry.Exactly(ends.Lay.Bass), Treble: geometry.Exactly(ends.Lay.Treble)}
	}
	plan.Laying = laying
	plan.Thick = [2]geometry.Length{laying.Even.Thickness.High, laying.Even.Thickness.High}
	plan.Thick[laying.Side] += laying.Strip.Thickness.High
	return laying.Under
}

// onShim works out what stands up and what is left in the slot at a side, by what was measured and what was laid since.
func (r Record) onShim(plan *StripPlan, side int, laid geometry.Interval) {
	stood := r.Stands[side]
	if stood == nil {
		return
	}
	exposure, err := stood.Exposure.Length()
	if err != nil {
		return
	}
	raised := geometry.Length(0)
	for n := r.stoodIn[side]; n < len(r.Rounds); n++ { // rounds count from 1, so this leaves out the one under way
		for _, s := range r.Rounds[n-1].Shims {
			raised += [2]Typed{s.Bass, s.Treble}[side].LengthOr(0)
		}
	}
	give := stood.Give.LengthOr(geometry.Millimetre / 2)
	end := geometry.SaddleEnd{Exposure: geometry.Interval{Low: exposure - give, High: exposure + give}.AtLeast(0).Shifted(raised), Depth: stood.Depth.LengthOr(0)}
	if end.Depth > 0 {
		end.Depth = max(end.Depth-raised, thinnestStrip) // 0 would say that nobody measured it
	}
	stands, findings, err := geometry.Shimmed(geometry.Side(side), end, laid)
	if err != nil {
		return
	}
	plan.Stands[side], plan.Stood[side] = stands, true
	if plan.Outcome != StripGo {
		return
	}
	plan.Findings = append(plan.Findings, findings...)
	for _, f := range findings {
		if f.Severity == geometry.Refuse {
			plan.Outcome = StripTooShallow
		}
	}
}

func (r Record) stripReady() (bool, error) {
	plan, err := r.StripPlan()
	return err == nil && plan.Outcome == StripGo, err
}

// stripLowered goes by what was laid. Ends that differ may be a wedge, or a short strip over whose edge its end comes up by more.
func (r Record) stripLowered(course int) (geometry.Interval, bool) {
	shims := r.Current().Shims
	if len(shims) != 1 || !shims[0].Bass.Given() || !shims[0].Treble.Given() {
		return geometry.Interval{}, false
	}
	bass, treble, err := lengths(shims[0].Bass, shims[0].Treble)
	laid := geometry.Laid{Ends: r.Instrument.Ends(), Bass: geometry.Exactly(bass), Treble: geometry.Exactly(treble)}
	laid.Bass.High = max(bass, treble+(bass-treble)/(1-ShortPart))
	laid.Treble.High = max(treble, bass+(treble-bass)/(1-ShortPart))
	up := laid.At(r.Instrument.Offset(course))
	return geometry.Interval{Low: -up.High - pileGive, High: -up.Low + pileGive}, err == nil
}

// Leans tells whether more of the saddle may stand up than sits in its slot.
func (p StripPlan) Leans() bool { return len(p.Findings) > 0 }

// Unclear is the first course whose reading cannot tell enough for the plan; the bass-most when all can.
func (p StripPlan) Unclear() int { return Plan{Strings: p.Strings}.Unclear() }

// SeatDepth are the facts that add the slot's depth to the saddle's stand; ask tells whether it is missing from one of this round.
func (r Record) SeatDepth(depth Typed) (facts []Fact, ask bool) {
	for side, stood := range r.Stands {
		if stood != nil && stood.Exposure.Given() && !stood.Depth.Given() && r.stoodIn[side] == r.state.round().Number {
			s := *stood
			s.Depth, ask = depth, true
			facts = append(facts, s)
		}
	}
	return facts, ask
}

// Piled lists what is in a pile: the kinds, and how many of each.
func (k Kit) Piled(pile geometry.Pile) (strips []Strip) {
	for n, count := range pile.Counts {
		if count > 0 && n < len(k.Strips) {
			s := k.Strips[n]
			s.Count = count
			strips = append(strips, s)
		}
	}
	return strips
}

// LaidAs is what lies at bass and treble end as a record keeps it, as finely as a caliper shows it.
func (k Kit) LaidAs(bass, treble geometry.Length) Shimmed {
	step := geometry.Millimetre / 100
	if k.Unit == Inch {
		step = geometry.Thousandth
	}
	return Shimmed{Write(bass.RoundUp(step), k.Unit, step), Write(treble.RoundUp(step), k.Unit, step)}
}
