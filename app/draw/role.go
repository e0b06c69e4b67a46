package draw

// Role is what a shape stands for; the style sheet of the pictures has a class for each.
type Role string

// The roles.
const (
	Outline      Role = "outline"   // the plain pencil line of a thing
	Fine         Role = "fine"      // a thin line inside a thing
	Hint         Role = "hint"      // a dashed thin line: sight, pointer, where something was
	Dim          Role = "dim"       // a dimension's arrow
	Move         Role = "move"      // an arrow that says: move so
	Sheet        Role = "sheet"     // a thing of no special matter, in front of others
	Wood         Role = "wood"      // body, bridge, neck
	Board        Role = "board"     // the fingerboard
	Hole         Role = "hole"      // sound hole, slot
	Metal        Role = "fret"      // a fret
	Bone         Role = "saddle"    // saddle or nut
	Rule         Role = "rule"      // a measuring rule's body
	Mark         Role = "mark"      // a rule's mark
	Lit          Role = "mark-lit"  // a mark at which light shows
	Unlit        Role = "mark-dark" // a mark that the string covers, or one above it
	Light        Role = "light"     // light under the string
	Wire         Role = "string"    // a string along its length
	WireEnd      Role = "string-end"
	Now          Role = "string-now"   // where the string may be
	After        Role = "string-after" // where it may be after the round
	Waste        Role = "waste"        // what comes off, as an area
	Hatching     Role = "removed"      // the strokes over it
	StopLine     Role = "stop-line"    // the line to draw
	Pencil       Role = "pencil"       // a pencil line that has a thickness
	Grit         Role = "grit"         // sanding paper
	Hand         Role = "hand"
	Gap          Role = "gap"    // nothing: what is under it does not go on
	Chosen       Role = "chosen" // the row that is chosen
	Target       Role = "tap"    // unseen, for the finger
	Nothing      Role = "none"   // kept for later, not shown
	StepDone     Role = "step-done"
	StepNow      Role = "step-now"
	Round        Role = "round"
	Trouble      Role = "trouble"
	Good         Role = "good"
	Grip         Role = "grip" // a thing to take hold of and pull
	GripHeld     Role = "grip-held"
	GripMark     Role = "grip-mark" // which way it goes
	GripMarkHeld Role = "grip-mark-held"
	Drag         Role = "drag" // unseen, for the finger that pulls
	RoomRing     Role = "room-ring"
	RoomHalf     Role = "room-half"
	RoomFull     Role = "room-full"
	RoomCross    Role = "room-cross" // over RoomFull
	RoomDash     Role = "room-dash"
	Lines        Role = "lines"      // the thin level lines of a chart
	WasFound     Role = "was-found"  // a reading before anything was done
	WasLeft      Role = "was-left"   // a reading after the work
	SetLine      Role = "set-line"   // how it was last set
	CodePaper    Role = "code-paper" // white and black, in the dark as well: a camera reads them
	CodeDark     Role = "code-dark"
	Label        Role = "label"
	Value        Role = "number"
)

// Roles lists every role.
func Roles() []Role {
	return []Role{Outline, Fine, Hint, Dim, Move, Sheet, Wood, Board, Hole, Metal, Bone, Rule, Mark, Lit, Unlit, Light, Wire, WireEnd, Now, After,
		Waste, Hatching, StopLine, Pencil, Grit, Hand, Gap, Chosen, Target, Nothing, StepDone, StepNow, Round, Trouble, Good,
		Grip, GripHeld, GripMark, GripMarkHeld, Drag, RoomRing, RoomHalf, RoomFull, RoomCross, RoomDash, Lines, WasFound,
		WasLeft, SetLine, CodePaper, CodeDark, Label, Value}
}

// Class is the role's class in the style sheet.
func (r Role) Class() string { return "p-" + string(r) }
