package job

import (
	"gapwright/geometry"
)

// What a height would do, before it is wished for: pure, and quick enough for a finger that drags.

// Player is whose playing a string is measured against, as it stands in records.
type Player string

// The players: the three touches, and the person's own by what was heard.
const (
	LightPlayer Player = "light"
	MixedPlayer Player = "mixed"
	HardPlayer  Player = "hard"
	OwnPlayer   Player = "own"
)

// Players lists the players that can be chosen: the person's own once something was heard.
func (r Record) Players() []Player {
	all := []Player{LightPlayer, MixedPlayer, HardPlayer}
	for _, side := range []geometry.Side{geometry.BassSide, geometry.TrebleSide} {
		if _, err := r.OwnTouch(side); err == nil {
			return append(all, OwnPlayer)
		}
	}
	return all
}

// Player is whose touch the present wish was chosen for.
func (r Record) Player() Player {
	if w := r.state.round().Wanted; w != nil {
		switch w.For {
		case LightPlayer, MixedPlayer, HardPlayer, OwnPlayer:
			return w.For
		}
	}
	return MixedPlayer
}

// Style is how hard the player plays; ok is false for the person's own touch, which is heard and not supposed.
func (p Player) Style() (geometry.Style, bool) {
	switch p {
	case LightPlayer:
		return geometry.StyleLight, true
	case MixedPlayer:
		return geometry.StyleMixed, true
	case HardPlayer:
		return geometry.StyleHard, true
	}
	return 0, false
}

// highestStop is the highest fret at which playing is judged (common practice, no source).
const highestStop = 12

// FingerBehind is how far behind the fret a finger presses (common practice, no source).
const FingerBehind geometry.Length = 5

// capo is the fret of the capo, 0 without.
func (i Instrument) capo() int {
	if i.Set == nil {
		return 0
	}
	return i.Set.Capo
}

// stops are the lowest and the highest stop that playing is judged at: from the open string, or the capo.
func (i Instrument) stops() (from, to int) {
	return i.capo(), max(i.capo(), min(highestStop, i.LastFret()-1))
}

// pluckAt is where a string on that path is plucked, from the saddle.
func pluckAt(p geometry.Path) geometry.Length { return geometry.UsualPluck * p.Neck().Scale }

// side is the nearer outer course of a course: its touch is taken.
func (i Instrument) side(course int) geometry.Side {
	if 2*course > i.Last() {
		return geometry.TrebleSide
	}
	return geometry.BassSide
}

// KeptTouch is the room that a person's playing was found to need at one side, in the model's own units and for no other use.
type KeptTouch struct {
	Side int   `json:"side"`
	Low  Typed `json:"low"`
	High Typed `json:"high"`
}

// tests are what was heard at a side, each with the room that the string had then, and that the person said that nothing buzzes.
func (s *state) tests(side geometry.Side) []geometry.BuzzTest {
	var all []geometry.BuzzTest
	add := func(course, set, saddle int, f Listened) {
		path, _, err := s.path(course, set, saddle)
		if err != nil {
			return
		}
		from, to := f.Stop, f.Stop
		if f.Everywhere {
			from, to = s.Instrument.stops()
		}
		for stop := from; stop <= to; stop++ {
			if room, err := path.Headroom(stop, pluckAt(path)); err == nil {
				all = append(all, geometry.BuzzTest{Room: room.Free, Buzzed: f.Buzzed})
			}
		}
	}
	for _, h := range s.heard {
		if s.Instrument.side(h.String) == side {
			add(h.String, h.set, h.saddle, h.Listened)
		}
	}
	return all
}

// OwnTouch brackets the room that the person's playing needs at a side, by what was heard in this job and, where that says nothing, in the one
// before. Errors: geometry.ErrNoReading for nothing heard, geometry.ErrTouch when what was heard does not fit together.
func (r Record) OwnTouch(side geometry.Side) (geometry.Touch, error) {
	tests := r.tests(side)
	if r.Instrument.AsSet != nil {
		for _, k := range r.Instrument.AsSet.Touch {
			low, high, err := lengths(k.Low, k.High)
			if err != nil || k.Side != int(side) {
				continue
			}
			if low > 0 {
				tests = append(tests, geometry.BuzzTest{Room: geometry.Exactly(low), Buzzed: true})
			}
			if high < geometry.MostTouch {
				tests = append(tests, geometry.BuzzTest{Room: geometry.Exactly(high)})
			}
		}
	}
	return geometry.TouchOf(tests)
}

func (r Record) keptTouch() []KeptTouch {
	var kept []KeptTouch
	for _, side := range []geometry.Side{geometry.BassSide, geometry.TrebleSide} {
		if touch, err := r.OwnTouch(side); err == nil {
			fine := geometry.Millimetre / 100
			kept = append(kept, KeptTouch{int(side), Write(touch.Needs.Low, MM, fine), Write(touch.Needs.High, MM, fine)})
		}
	}
	return kept
}

// Heard lists what was heard of a course with the strings and the saddle as they are now.
func (r Record) Heard(course int) []Listened {
	var all []Listened
	for _, h := range r.heard {
		if h.String == course && h.set == r.set && h.saddle == r.saddleState() {
			all = append(all, h.Listened)
		}
	}
	return all
}

// needs is the room that a player needs at a side; ok is false for an own touch of which nothing was heard.
func (r Record) needs(p Player, side geometry.Side) (geometry.Interval, bool) {
	if style, ok := p.Style(); ok {
		return geometry.StyleTouch(r.Instrument.Kind().ID, side, style)
	}
	touch, err := r.OwnTouch(side)
	return touch.Needs, err == nil
}

// Chance says whether a string stopped somewhere has the room that a player needs.
type Chance uint8

// The chances.
const (
	ChanceNotKnown Chance = iota
	RoomEnough            // for certain, by the model
	RoomPerhaps           // the readings or the touch do not tell
	RoomLacking           // for certain, by the model
)

// Chances lists them, so that tests can ask for a word for each.
func Chances() []Chance { return []Chance{ChanceNotKnown, RoomEnough, RoomPerhaps, RoomLacking} }

func chance(room, needs geometry.Interval) Chance {
	switch {
	case room.Low >= needs.High:
		return RoomEnough
	case room.High < needs.Low:
		return RoomLacking
	}
	return RoomPerhaps
}

// Rooms is the headroom of one string over the frets at which playing is judged.
type Rooms struct {
	Path     geometry.Path
	All      []geometry.Headroom // from the open string, or the capo, upwards
	Chances  []Chance            // likewise; not known without a player
	Tightest int                 // which has the least room at its low end
	Worst    Chance
}

// Least is the stop with the least room.
func (r Rooms) Least() geometry.Headroom {
	if r.Tightest < len(r.All) {
		return r.All[r.Tightest]
	}
	return geometry.Headroom{}
}

// From is the first stop.
func (r Rooms) From() int {
	if len(r.All) == 0 {
		return 0
	}
	return r.All[0].Stop
}

func (i Instrument) rooms(path geometry.Path, needs geometry.Interval, known bool) Rooms {
	from, to := i.stops()
	rooms := Rooms{Path: path, All: make([]geometry.Headroom, 0, to-from+1), Chances: make([]Chance, 0, to-from+1)}
	at := pluckAt(path)
	for stop := from; stop <= to; stop++ {
		room, err := path.Headroom(stop, at)
		if err != nil {
			break
		}
		rooms.All = append(rooms.All, room)
		c := ChanceNotKnown
		if known {
			c = chance(room.Free, needs)
		}
		rooms.Chances = append(rooms.Chances, c)
		rooms.Worst = max(rooms.Worst, c)
		if room.Free.Low < rooms.Least().Free.Low {
			rooms.Tightest = len(rooms.All) - 1
		}
	}
	return rooms
}

// Rooms is the headroom of a course as it is now, for a player. Errors: those of Path.
func (r Record) Rooms(course int, after bool, p Player) (Rooms, Measured, error) {
	path, measured, err := r.Path(course, after)
	if err != nil {
		return Rooms{}, measured, err
	}
	needs, known := r.needs(p, r.Instrument.side(course))
	return r.Instrument.rooms(path, needs, known), measured, nil
}

// RoomsAfter is the headroom of a course once a plan's round is done: the stop line reached, the smoothing perhaps taken. Errors: those of Path.
func (r Record) RoomsAfter(plan Plan, course int, p Player) (Rooms, error) {
	path, _, err := r.Path(course, false)
	if err != nil {
		return Rooms{}, err
	}
	at := r.Instrument.Offset(course)
	fine := geometry.Line{Ends: plan.Drawn.Ends, Bass: plan.Drawn.Bass + plan.Stop.SmoothBass, Treble: plan.Drawn.Treble + plan.Stop.SmoothTreble}
	path, err = path.LowerSaddle(geometry.Interval{Low: plan.Drawn.At(at), High: fine.At(at)})
	if err != nil {
		return Rooms{}, err
	}
	needs, known := r.needs(p, r.Instrument.side(course))
	return r.Instrument.rooms(path, needs, known), nil
}

// Explorer answers what a height would do at each outer string. It is worked out once; Side is quick.
type Explorer struct {
	Measured Measured
	Player   Player
	job      Record
	sides    [2]explored
}

type explored struct {
	course   int
	lever    float64
	now      geometry.Path
	gap      geometry.Interval
	needs    geometry.Interval
	player   bool
	suits    geometry.Suits
	suited   bool
	strung   geometry.Strung
	sounds   bool
	before   geometry.CentsRange
	exposure geometry.Interval
	stands   bool
	profile  Profile
}

// Explore prepares for looking at heights as a player would find them. Errors: geometry.ErrNoReading while an outer string is not read.
func (r Record) Explore(p Player) (Explorer, error) {
	x := Explorer{Player: p, job: r}
	var err error
	from, to := r.Instrument.stops()
	for side := range x.sides {
		s := &x.sides[side]
		s.course = side * r.Instrument.Last()
		if s.lever, err = r.Instrument.Lever(s.course); err != nil {
			return x, err
		}
		if s.gap, err = r.Before(s.course); err != nil {
			return x, err
		}
		var measured Measured
		if s.now, measured, err = r.Path(s.course, false); err != nil {
			return x, err
		}
		if side == 0 || !measured.First {
			x.Measured.First = measured.First
		}
		x.Measured.Relief = measured.Relief
		s.needs, s.player = r.needs(p, geometry.Side(side))
		if s.player {
			s.suits, err = s.now.LowestFor(geometry.Playing{Touch: s.needs, At: pluckAt(s.now), From: from, To: to}, r.Instrument.ReadFret(), r.Instrument.Held)
			s.suited = err == nil
		}
		if s.strung, err = r.Instrument.StrungAt(s.course, 0); err == nil {
			s.before, err = s.now.Sharp(s.strung, 12, FingerBehind)
			s.sounds = err == nil
		}
		s.exposure, s.stands = r.exposure(side)
		s.profile = profile(s.now)
	}
	return x, nil
}

// Seen is what a height would do at one outer string.
type Seen struct {
	Course int
	Height geometry.Length
	Rooms
	Suits  geometry.Suits      // the lowest gap that suits the player
	Suited bool                // whether that is known
	Off    geometry.Interval   // what comes off the saddle under this string in all, or how far it sinks there; below zero: rises
	Raises bool                // whether it can rise
	Left   geometry.Interval   // how far the saddle stands there then
	Stands bool                // whether that is known
	Before geometry.CentsRange // how sharp it sounds at fret 12 as it is
	Sharp  geometry.CentsRange // and at that height
	Change geometry.CentsRange // of it, by the change of height
	Sounds bool                // whether the string is known well enough for these
}

// Side looks at a height, in the instrument's own fret and condition, at the bass (0) or treble (1) string. Errors: *geometry.RangeError.
func (x Explorer) Side(side int, height geometry.Length) (Seen, error) {
	s := x.sides[side]
	seen := Seen{Course: s.course, Height: height, Suits: s.suits, Suited: s.suited, Stands: s.stands, Before: s.before}
	path, err := s.now.WithGap(x.job.Instrument.ReadFret(), x.job.Instrument.Held, geometry.Exactly(height))
	if err != nil {
		return seen, err
	}
	seen.Rooms = x.job.Instrument.rooms(path, s.needs, s.player)
	seen.Off = s.gap.Shifted(-height).Times(1 / s.lever)
	if seen.Raises = x.job.Method.Raises(); !seen.Raises {
		seen.Off = seen.Off.AtLeast(0)
	} else if !x.job.Method.Lowers() {
		seen.Off = seen.Off.Times(-1).AtLeast(0).Times(-1)
	}
	if s.stands {
		seen.Left = s.exposure.Minus(seen.Off).AtLeast(0)
	}
	if s.sounds {
		if seen.Sharp, err = path.Sharp(s.strung, 12, FingerBehind); err == nil {
			seen.Change, err = s.now.SharpChange(path, s.strung, 12, FingerBehind)
		}
		seen.Sounds = err == nil
	}
	return seen, nil
}

// Lowest is the lowest gap at a side that suits the player; ok is false where it is not known what they need.
func (x Explorer) Lowest(side int) (suits geometry.Suits, ok bool) {
	return x.sides[side].suits, x.sides[side].suited
}

// Now is the string's path as it was read.
func (x Explorer) Now(side int) geometry.Path { return x.sides[side].now }

// Suggest is the wish that suits the explorer's player: by style what is usual for it, by the person's own touch the lowest that is sure to do.
func (x Explorer) Suggest(own bool) (wish Chosen) {
	defer func() { wish.For = x.Player }()
	if style, ok := x.Player.Style(); ok {
		return x.job.Wish(style, own)
	}
	wish = x.job.Wish(geometry.StyleMixed, own)
	if x.sides[0].suited && !x.sides[0].suits.Beyond {
		wish.Bass = x.job.wish(0, x.sides[0].suits.Gap.High, own)
	}
	if last := x.job.Instrument.Last(); x.sides[1].suited && !x.sides[1].suits.Beyond {
		wish.Treble = x.job.wish(last, x.sides[1].suits.Gap.High, own)
	}
	return wish
}

// Drag is a string that is pulled up and down from a wish, no further than what may be wished for. It is worked out once; To is quick.
type Drag struct {
	from      Chosen
	side      int
	lever     float64
	step      geometry.Length
	unit      Unit
	was       geometry.Length // from's
	low, high geometry.Length
}

// farthest is more steps than any string can be pulled.
const farthest = 1 << 20

// Drag takes hold of the string of one side.
func (x Explorer) Drag(from Chosen, side int) Drag {
	end := func(by int) geometry.Length {
		moved := [2]int{}
		moved[side] = by
		return x.job.Nudged(from, moved[0], moved[1]).Heights()[side]
	}
	return Drag{from, side, x.sides[side].lever, x.job.Kit.SmallStep(), x.job.Kit.Unit, end(0), end(-farthest), end(farthest)}
}

// To is by how many steps the wish moves when the string is pulled by so much at the saddle, upwards above zero; the height then, and the wish,
// as Nudged by these steps makes it.
func (d Drag) To(rise geometry.Length) (steps int, height geometry.Length, to Chosen) {
	to = d.from
	moved := (rise * geometry.Length(d.lever) / d.step).RoundTo(1)
	if moved == 0 {
		return 0, d.was, to
	}
	height = min(max((d.was+moved*d.step).RoundTo(d.step), d.low), d.high)
	text := Write(height, d.unit, d.step)
	if d.side == 0 {
		to.Bass = text
	} else {
		to.Treble = text
	}
	return int(((height - d.was) / d.step).RoundTo(1)), height, to
}

// Heights are the heights of a wish, bass and treble.
func (c Chosen) Heights() [2]geometry.Length {
	return [2]geometry.Length{c.Bass.LengthOr(0), c.Treble.LengthOr(0)}
}

// Worst is the worst chance at either string.
func Worst(seen [2]Seen) Chance { return max(seen[0].Rooms.Worst, seen[1].Rooms.Worst) }

// Tightest is the string with the least certain room: of those with the worst chance the one that needs most.
func Tightest(seen [2]Seen) Seen {
	if seen[1].Rooms.Worst > seen[0].Rooms.Worst || seen[1].Rooms.Worst == seen[0].Rooms.Worst && seen[1].Least().Free.Low < seen[0].Least().Free.Low {
		return seen[1]
	}
	return seen[0]
}

// Both looks at both heights of a wish. Errors: *geometry.RangeError.
func (x Explorer) Both(wish Chosen) (seen [2]Seen, err error) {
	for side, height := range wish.Heights() {
		if seen[side], err = x.Side(side, height); err != nil {
			return seen, err
		}
	}
	return seen, nil
}

// Row is the headroom of one course.
type Row struct {
	Course int
	Rooms
}

// Rows is the headroom of every course that was read, as they are now.
func (r Record) Rows(after bool, p Player) []Row {
	var rows []Row
	for _, course := range r.Measured(after) {
		if rooms, _, err := r.Rooms(course, after, p); err == nil {
			rows = append(rows, Row{course, rooms})
		}
	}
	return rows
}

// RowsAfter is the headroom of every course that was read, once a plan's round is done.
func (r Record) RowsAfter(plan Plan, p Player) []Row {
	var rows []Row
	for _, course := range r.Measured(false) {
		if rooms, err := r.RoomsAfter(plan, course, p); err == nil {
			rows = append(rows, Row{course, rooms})
		}
	}
	return rows
}

// Rows is the headroom at a wish: the outer strings at their heights, the others as the straight cut between takes them with it.
func (x Explorer) Rows(seen [2]Seen) []Row {
	i := x.job.Instrument
	line := geometry.Line{Ends: geometry.Ends{Bass: i.Offset(0), Treble: i.Offset(i.Last())}, Bass: seen[0].Off.Middle(), Treble: seen[1].Off.Middle()}
	var rows []Row
	for _, course := range x.job.Measured(false) {
		if side := course / i.Last(); course == 0 || course == i.Last() {
			rows = append(rows, Row{course, seen[side].Rooms})
			continue
		}
		path, _, err := x.job.Path(course, false)
		if err != nil {
			continue
		}
		if path, err = path.LowerSaddle(geometry.Exactly(line.At(i.Offset(course)))); err == nil {
			needs, known := x.job.needs(x.Player, i.side(course))
			rows = append(rows, Row{course, i.rooms(path, needs, known)})
		}
	}
	return rows
}

// Run is neighbouring stops that are judged alike.
type Run struct {
	From, To int // 0: open
	Chance   Chance
	First    int // the fret that the tightest of them touches first
}

// Runs joins neighbouring stops that are judged alike, so that they can be said in a few words.
func (r Rooms) Runs() []Run {
	var runs []Run
	least := geometry.Length(0)
	for i, room := range r.All {
		if n := len(runs); n > 0 && runs[n-1].Chance == r.Chances[i] {
			runs[n-1].To = room.Stop
			if room.Free.Low < least {
				least, runs[n-1].First = room.Free.Low, room.First
			}
			continue
		}
		runs, least = append(runs, Run{room.Stop, room.Stop, r.Chances[i], room.First}), room.Free.Low
	}
	return runs
}

// Profile is a string over its frets as a picture wants it, in millimetres, everything in the middle of what is known; heights are over the chord
// from fret 1 to the body joint.
type Profile struct {
	Frets, Tops []float64         // of every fret from the first: its distance from the nut and the height of its top
	Length, Nut float64           // nut to saddle; the string at the nut
	Now         geometry.Interval // the string at the saddle, as it is
}

// Profile is the string of a side as it is now.
func (x Explorer) Profile(side int) Profile { return x.sides[side].profile }

func profile(now geometry.Path) Profile {
	neck := now.Neck()
	p := Profile{Length: float64(neck.Scale + neck.Setback), Nut: float64(now.Nut().Middle()), Now: now.Saddle()}
	relief := now.Relief().Middle()
	for fret := 1; fret <= neck.Frets; fret++ {
		at, err := geometry.FretDistance(neck.Scale, fret)
		top, errTop := neck.Top(fret, relief)
		if err != nil || errTop != nil {
			break
		}
		p.Frets, p.Tops = append(p.Frets, float64(at)), append(p.Tops, float64(top))
	}
	return p
}

// AtSaddle is where the string runs at the saddle, in the middle of what is known, in the profile's frame.
func (s Seen) AtSaddle() float64 { return float64(s.Rooms.Path.Saddle().Middle()) }

// TightestRow is the row to point out: of those with the worst chance the one with the least certain room; 0 without rows.
func TightestRow(rows []Row) int {
	at := 0
	for n, r := range rows {
		if r.Worst > rows[at].Worst || r.Worst == rows[at].Worst && r.Least().Free.Low < rows[at].Least().Free.Low {
			at = n
		}
	}
	return at
}
