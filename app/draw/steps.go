package draw

import "strings"

// Act is a step of the work that has a picture of its own.
type Act string

// The acts, with the labels that their pictures take. All labels are short: 14 letters unless it says otherwise.
const (
	StandRule    Act = "stand-rule"     // the fret's number; the word at the eye; that it is not to scale
	GapLeaf      Act = "gap-leaf"       // the fret's number; what is slid in; that it is not to scale
	GapCaliper   Act = "gap-caliper"    // the fret's number; what stands on the fret; that it is not to scale
	TakeOut      Act = "take-out"       // none
	MarkSides    Act = "mark-sides"     // the letter on the bass end; what is marked there; what is marked on the front face (30 letters each)
	StandUp      Act = "stand-up"       // the height that is meant (7 letters); which side the strings come from
	SlotDeep     Act = "slot-deep"      // how deep the slot is (20 letters)
	SlotFull     Act = "slot-full"      // none: strips fill the slot, and the saddle hardly stands in it
	SlotAbove    Act = "slot-above"     // how long it is; how wide; how deep (12 letters)
	AcrossBoard  Act = "across-board"   // the board's radius (20 letters); how far the outer strings are apart (20 letters)
	WholeSaddle  Act = "whole-saddle"   // its heights at the outer strings, bass first
	MakeThick    Act = "make-thickness" // the part of a new saddle that is in hand: how thick it becomes (16 letters)
	MakeLong     Act = "make-length"    // how long (16 letters)
	MakeUnder    Act = "make-underside" // none
	MakeCrown    Act = "make-crown"     // none
	MakeEnds     Act = "make-ends"      // none
	MakePolish   Act = "make-polish"    // none
	EmptyBench   Act = "empty-bench"    // none: where nothing is
	ToFile       Act = "to-file"        // none: what is on the phone goes into a file
	SandLow      Act = "sand"           // how to stroke (32 letters)
	SandPress    Act = "sand-press"     // what is pressed more: the bass end (28 letters in two lines)
	SandRocks    Act = "sand-rocks"     // flat; not so
	SandBends    Act = "sand-bends"     // flat; not so
	Checks       Act = "checks"         // flat; square; no rocking
	SmoothFoot   Act = "smooth"         // none
	PutBack      Act = "put-back"       // none
	SeatTest     Act = "seat"           // none
	LayStrip     Act = "lay-strip"      // how thick what goes in is at the left end and at the right end (15 letters)
	LayStepped   Act = "lay-stepped"    // the same
	PlayEvery    Act = "play-every"     // where to play (24 letters); that it is not to scale
	Air          Act = "air"            // dry; the good range; damp
	AirDry       Act = "air-dry"        // the same, and the word at the mark where the air is now (4 letters)
	AirDamp      Act = "air-damp"       // the same
	ScrewKey     Act = "screw-key"      // how it is turned; what happens
	PostWheel    Act = "post-wheel"     // the same, of a bridge on two posts
	ReliefHeld   Act = "relief-held"    // what is slid in; at the left finger; at the right finger; that it is not to scale
	FirstGap     Act = "first-gap"      // what is slid in; that it is not to scale
	FirstPressed Act = "first-pressed"  // the same; at the finger; that it is not to scale
	FileStop     Act = "file-stop"      // at the pile; that it is not to scale
)

// act is one picture: its height, whether it has a left and a right that change places with the hand, and its shapes.
type act struct {
	act     Act
	tall    float64
	mirrors bool
	shapes  string
}

// actTall is the most that a picture of a step is high: on a phone it leaves room for the question and for the thumb.
const actTall = 128.0

var acts = [...]act{
	{StandRule, 128, true, `use neck-side 0 0; rect rule 175 2 30 90 0;
		strokes mark 192 86 205 86 197 78 205 78 192 70 205 70 197 62 205 62 192 54 205 54 197 46 205 46 192 38 205 38 197 30 205 30 192 22 205 22 197 14 205 14;
		rect light 205 71 9 21 0; line string 4 78 316 66; line hint 60 82 172 82;
		use eye 36 82; text label 1 start 6 44 160 1; text number 0 middle 190 124 60 1; text label 2 end 316 124 112 1`},
	{GapLeaf, 128, true, `use neck-side 0 0; use leaf 190 73; line string 4 78 316 66;
		text label 1 middle 190 36 250 1; line dim 190 43 190 62; text number 0 end 176 124 60 1; text label 2 start 6 124 112 1`},
	{GapCaliper, 128, true, `use neck-side 0 0; rect fret 187 70 6 22 0; rect sheet 178 2 24 68 1; rect hole 184 30 12 18 0; strokes fine 178 58 202 58 178 64 202 64;
		line string 4 78 184 71; line string 196 70.5 316 66; arrow move 222 104 222 78;
		text label 1 end 168 24 160 1; text number 0 middle 190 124 60 1; text label 2 end 316 124 112 1`},
	{TakeOut, 126, true, `use tuners 52 50; arc move 52 50 46 30 150;
		use bridge 120 82; use saddle-14 150 56;
		strokes hint 150 58 150 100 280 58 280 100; finger 152 44 0 42 18; finger 278 44 180 42 18; arrow move 215 28 215 4`},
	{MarkSides, 120, true, `area saddle 40 94 40 58 88 52 160 48 232 52 280 58 280 94; area saddle 40 58 54 48 108 41 160 39 212 41 266 48 280 58 232 52 160 48 88 52;
		text number 0 middle 62 84 30 1; area string-end 152 68 168 68 160 82; strokes mark 86 84 86 94 234 84 234 94;
		line dim 160 62 160 22; line dim 62 90 62 102; text label 1 start 14 116 290 1; text label 2 middle 160 15 304 1`},
	{StandUp, 120, true, `use end-on 130 0; line string 4 50 130 28 206 66 214 84; strokes fine 98 27 128 27 98 76 118 76; between dim 106 28 106 75;
		text number 0 end 92 78 88 1; text label 1 start 6 15 124 1; arrow hint 8 24 66 24`},
	{SlotDeep, 110, false, `area wood 60 104 84 70 140 64 140 94 172 94 172 64 228 70 252 104; strokes fine 132 64 140 64 132 94 140 94; between dim 156 65 156 93;
		line hint 140 64 172 64; text number 0 middle 156 46 250 1`},
	{SlotFull, 106, false, `area wood 60 102 84 68 140 62 140 92 172 92 172 62 228 68 252 102; rect sheet 141 84 30 8 0; rect sheet 141 76 30 8 0;
		area saddle 142 76 142 20 148 12 156 10 164 12 170 20 170 76; strokes fine 174 62 194 62 174 76 194 76; between dim 186 63 186 75; strokes trouble 206 20 226 40 226 20 206 40`},
	{SlotAbove, 122, false, `blob wood 20 62 34 34 90 28 160 34 230 28 286 34 300 62 286 90 230 96 160 90 90 96 34 90; rect hole 60 54 200 14 2;
		strokes fine 60 20 60 52 260 20 260 52 264 54 312 54 264 68 312 68; between dim 61 24 259 24; between dim 306 38 306 53; between dim 306 84 306 69;
		text label 0 middle 160 16 240 1; text label 1 end 312 118 170 1; arrow move 110 104 110 62; text label 2 middle 110 118 110 1`},
	{AcrossBoard, 122, false, `blob board 30 92 52 68 104 58 160 55 216 58 268 68 290 92 216 98 160 99 104 98; curve hint 36 84 52 67 104 57 160 54 216 57 268 67 284 84;
		dot string-end 62 57 4; dot string-end 258 57 4; strokes fine 62 26 62 50 258 26 258 50; between dim 63 30 257 30;
		text label 1 middle 160 20 300 1; text label 0 middle 160 118 300 1`},
	{WholeSaddle, 112, true, `use saddle-24 40 84; strokes fine 74 20 74 86 246 20 246 86; dot string-end 74 41 4; dot string-end 246 41 4; between dim 74 46 74 83; between dim 246 46 246 83;
		line outline 20 84 300 84; text label 0 middle 74 104 146 1; text label 1 middle 246 104 146 1`},
	{MakeThick, 96, false, `area saddle 40 40 60 22 292 22 272 40; area saddle 40 40 272 40 272 58 40 58; area saddle 272 40 292 22 292 40 272 58; arrow move 20 49 36 43; arrow move 76 10 64 19;
		line hint 40 40 60 22; text label 0 middle 160 84 200 1`},
	{MakeLong, 96, false, `use saddle-24 40 58; strokes fine 40 62 40 78 280 62 280 78; between dim 41 70 279 70; line stop-line 40 58 40 22; line stop-line 280 58 280 22; text label 0 middle 160 90 200 1`},
	{MakeUnder, 76, false, `use saddle-24 40 56; line stop-line 40 56 280 56; rect grit 24 60 272 9 1`},
	{MakeCrown, 76, false, `use saddle-24 40 66; line stop-line 40 30 88 24 160 21 232 24 280 30; dot string-end 74 20 4; dot string-end 126 17 4; dot string-end 194 17 4; dot string-end 246 20 4`},
	{MakeEnds, 76, false, `area saddle 40 66 40 36 46 29 88 24 160 21 232 24 274 29 280 36 280 66; curve stop-line 40 44 40 36 46 29 58 27.5; curve stop-line 280 44 280 36 274 29 262 27.5;
		sweep move 24 44 26 30 36 20; sweep move 296 44 294 30 284 20`},
	{MakePolish, 76, false, `use saddle-24 40 66; line good 40 30 88 24 160 21 232 24 280 30; between move 112 10 208 10`},
	{EmptyBench, 84, false, `rect board 8 52 304 10 2; line outline 30 62 30 80; line outline 290 62 290 80; rect rule 60 45 92 7 0; strokes mark 66 45 66 48 74 45 74 48 82 45 82 48 90 45 90 48 98 45 98 48 106 45 106 48 114 45 114 48 122 45 122 48 130 45 130 48 138 45 138 48 146 45 146 48;
		line hint 190 52 190 30 214 26 236 25 258 26 282 30 282 52`},
	{ToFile, 96, false, `rect sheet 70 6 50 84 7; line fine 88 12 102 12; strokes fine 80 30 110 30 80 40 110 40 80 50 104 50; arrow move 136 48 188 48;
		area sheet 208 14 240 14 256 30 256 82 208 82; line outline 240 14 240 30 256 30; strokes fine 218 44 246 44 218 54 246 54 218 64 238 64`},
	{SandLow, 60, false, `rect grit 6 50 308 9 1; area saddle 40 50 40 36 54 33 69 32 84 33 98 36 98 50; line hint 256 50 256 36 270 33 285 32 300 33 314 36 314 50;
		finger 49 44 -14 42 13; finger 89 44 194 42 13; arrow move 142 40 246 40; text label 0 middle 160 14 306 1`},
	{SandPress, 58, true, `rect grit 6 46 168 9 1; area saddle 30 46 30 30 60 26 90 25 120 26 150 30 150 46; finger 50 31 -90 28 22; finger 134 33 -90 28 14;
		arrow move 18 6 18 38; text label 0 start 186 25 132 2`},
	{SandRocks, 77, false, `rect grit 8 46 142 9 1; area saddle 30 46 30 26 54 22 80 20 106 22 130 26 130 46; line good 68 32 76 40 92 24; text label 0 middle 80 72 150 1;
		rect grit 170 46 142 9 1; area saddle 190 40 190 24 214 20 240 18 266 20 290 24 290 46 200 46 193 45; turn 1 200 46 5;
		strokes trouble 232 24 248 40 248 24 232 40; sweep move 304 34 308 25 304 15; sweep move 178 18 174 27 178 36; text label 1 middle 240 72 150 1`},
	{SandBends, 77, false, `rect grit 8 46 142 9 1; area saddle 30 46 30 26 54 22 80 20 106 22 130 26 130 46; line good 68 32 76 40 92 24; text label 0 middle 80 72 150 1;
		area light 190 40 215 45 240 47 265 45 290 40; area grit 170 36 190 40 215 45 240 47 265 45 290 40 312 36 312 45 290 49 265 54 240 56 215 54 190 49 170 45;
		area saddle 190 40 190 20 214 16 240 14 266 16 290 20 290 40; strokes trouble 232 19 248 35 248 19 232 35; text label 1 middle 240 72 150 1`},
	{Checks, 116, false, `area saddle 8 50 102 50 102 70 82 76 55 78 28 76 8 70; rect rule 2 34 106 16 0; strokes mark 8 34 8 39 20 34 20 39 32 34 32 39 44 34 44 39 56 34 56 39 68 34 68 39 80 34 80 39 92 34 92 39;
		rect fret 118 84 86 9 1; area saddle 152 84 152 34 154 29 160 27 166 29 168 34 168 84; area rule 168 84 168 24 176 24 176 75 196 75 196 84;
		rect fret 214 84 98 9 1; area saddle 220 84 220 66 264 61 306 66 306 84; finger 234 62 -90 44 18; arrow move 292 56 292 36;
		text label 0 middle 54 112 102 1; text label 1 middle 161 112 102 1; text label 2 middle 264 112 104 1`},
	{SmoothFoot, 96, false, `use saddle-24 40 62; line stop-line 42 62 278 62; rect grit 20 70 280 9 1; strokes fine 60 50 84 50 96 50 120 50 200 50 224 50;
		between move 110 90 210 90; sweep move 30 48 28 58 36 66; sweep move 290 48 292 58 284 66`},
	{PutBack, 102, false, `use bridge-open 30 60; use saddle-18 72 32; strokes hint 72 36 72 60 248 36 248 60; arrow move 160 38 160 57`},
	{SeatTest, 112, false, `use bridge-in 30 62; finger 96 42 -90 40 20; finger 224 30 -90 28 20; arrow move 62 12 62 46; arrow move 258 46 258 12`},
	{LayStrip, 122, true, `use bridge-open 30 80; rect fret 69 68 182 4 0; rect saddle 69 62 182 4 0; use saddle-18 72 48; arrow move 44 26 44 66; arrow move 276 26 276 66;
		text label 0 start 6 13 146 1; text label 1 end 314 13 146 1`},
	{LayStepped, 122, true, `use bridge-open 30 80; rect fret 69 68 182 4 0; rect saddle 69 62 61 4 0; use saddle-18 72 48; arrow move 44 26 44 66; arrow move 276 26 276 66;
		text label 0 start 6 13 146 1; text label 1 end 314 13 146 1`},
	{PlayEvery, 116, true, `use neck-side 0 -14; finger 110 84 -90 46 20; line string 4 66 108 82 138 77; curve string 138 77 200 70 316 58; curve hint 138 77 200 60 316 58;
		curve hint 138 77 220 78 316 58; arrow move 136 34 208 34; text label 0 start 120 20 196 1; text label 1 end 316 112 112 1`},
	{Air, 108, false, `use air 0 0; text label 0 middle 58 100 100 1; text label 1 middle 160 100 100 1; text label 2 middle 262 100 100 1`},
	{AirDry, 114, false, `use air 0 6; area trouble 58 66 51 54 65 54; text label 0 middle 58 106 100 1; text label 1 middle 160 106 100 1; text label 2 middle 262 106 100 1;
		text label 3 start 70 65 48 1`},
	{AirDamp, 114, false, `use air 0 6; area trouble 273 66 266 54 280 54; text label 0 middle 58 106 100 1; text label 1 middle 160 106 100 1; text label 2 middle 262 106 100 1;
		text label 3 start 284 65 34 1`},
	{ScrewKey, 124, false, `rect fret 4 108 312 12 1; rect hole 150 52 12 56 0; strokes fine 150 60 162 64 150 68 162 72 150 76 162 80 150 84 162 88 150 92 162 96 150 100 162 104;
		rect sheet 126 62 74 24 2; strokes fine 150 66 162 66 150 82 162 82; line string 4 72 126 62 178 58 188 62; line string 188 62 196 86;
		line outline 156 52 156 14 104 14; sweep move 137 29 134 35 142 41 156 43 170 41 178 35 172 29; arrow move 224 100 224 64; text label 0 start 194 38 124 1; text label 1 start 232 88 86 1`},
	{PostWheel, 124, false, `line outline 4 112 316 112; rect hole 166 60 12 52 0; strokes fine 166 96 178 100 166 100 178 104 166 104 178 108 166 64 178 68 166 68 178 72;
		rect sheet 146 76 52 14 4; strokes fine 154 79 154 87 162 79 162 87 172 79 172 87 182 79 182 87 190 79 190 87;
		area wood 116 66 120 46 150 38 316 30 316 54 240 66; dot string-end 196 32 3; dot string-end 236 30 3; dot string-end 276 28 3;
		sweep move 142 82 138 92 152 99 172 101 192 99 206 92 202 82; arrow move 104 102 104 62; text label 0 start 212 98 104 1; text label 1 end 94 88 86 1`},
	{ReliefHeld, 128, true, `use bowed 0 -34; use leaf 160 58; line string 4 60 26 54 66 63 254 63 316 50; finger 53 62 -90 40 20; finger 246 63 -90 40 20;
		text label 0 middle 160 38 150 1; line dim 160 43 160 54; text label 1 start 4 16 150 1; text label 2 end 316 16 150 1; text label 3 start 6 124 112 1`},
	{FirstGap, 128, true, `area wood 4 98 44 86 316 86 316 106 90 106 4 116; rect board 66 78 250 14 1; use fret 192 78; use fret 290 78; area saddle 44 92 44 64 48 58 66 55 66 92;
		use leaf 186 50; line string 4 72 46 58 64 54 316 46; text label 0 middle 186 20 250 1; line dim 186 27 186 42; text label 1 end 316 124 112 1`},
	{FirstPressed, 128, true, `use nut-side 0 -34; use fret 112 78; use fret 190 78; use fret 264 78; use leaf 106 56; line string 4 68 34 52 46 50 190 67 264 67 316 59;
		finger 228 66 -90 44 20; text label 0 middle 106 26 150 1; line dim 106 33 106 49; text label 1 end 316 16 112 1; text label 2 end 316 124 112 1`},
	{FileStop, 124, true, `use nut-side 0 -34; rect sheet 49 72 62 6 0; rect sheet 49 66 62 6 0; rect sheet 49 60 62 6 0; use fret 212 78;
		area fret 4 64 4 55 150 42 150 51; arrow move 96 24 26 31; text label 0 start 166 58 150 1; line dim 162 56 108 68; text label 1 end 316 120 112 1`},
}

// parts are what several pictures share.
var parts = map[string]string{
	"neck-side": `area wood 4 104 316 104 316 110 200 112 4 114; rect board 4 98 312 10 1; use small-fret 26 98; use small-fret 84 98; use small-fret 138 98; use small-fret 190 98;
		use small-fret 238 98; use small-fret 284 98`,
	"small-fret": `curve fret -4 0 -3 -4 0 -6 3 -4 4 0`,
	"fret":       `curve fret -14 0 -12 -7 0 -11 12 -7 14 0`,
	"nut-side":   `area wood 4 132 30 120 316 120 316 140 74 140 4 150; rect board 48 112 268 14 1; area saddle 30 126 30 94 34 88 48 84 48 126`,
	"bowed": `area wood 4 124 30 110 316 112 316 160 276 160 266 150 252 140 160 138 60 134 4 142;
		area board 30 116 30 100 66 102 100 109 131 112.9 160 114 187 113 211 110.7 234 107 254 102 272 97 276 100 276 114 254 114 160 125;
		strokes outline 66 102 66 98 100 109 100 105 131 112.9 131 108.9 160 114 160 110 187 113 187 109 211 110.7 211 106.7 234 107 234 103 254 102 254 98 272 97 272 93;
		area saddle 22 114 22 90 30 88 30 114`,
	"leaf": `area fret -8 4 -5 1 5 1 9 4 26 52 2 52; dot fine 13 44 2.5; arrow move 58 52 36 22`,
	"eye":  `curve fine 11 -11 17 -5 18 0 16 5 10 9; blob string-end 13 -6 16 -1 13 4 11 -1; curve outline -22 1 -8 -8 15 -13; curve outline -22 1 -8 6 13 10; curve fine -14 -12 0 -18 18 -20`,
	"air": `rect sheet 12 62 296 16 8; rect chosen 127 60 66 20 6; strokes mark 127 64 127 76 193 64 193 76;
		curve wood 20 28 45 38 70 41 95 38 120 28; curve wood 135 32 160 31 185 32; curve wood 200 40 225 28 250 25 275 28 300 40;
		arrow move 70 18 70 34; arrow move 250 50 250 31; line good 152 18 158 24 170 10; line string 20 12 120 22; line string 200 12 300 2`,
	"bridge":      `area wood 0 40 10 8 25 0 168 0 182 8 192 40; line outline -12 40 196 40; rect hole 28 2 136 18 0`,
	"bridge-open": `area wood 0 40 10 8 29 0 231 0 250 8 260 40; line outline -16 40 276 40; rect hole 39 2 182 20 0`,
	"bridge-in":   `area wood 0 40 10 8 29 0 231 0 250 8 260 40; line outline -16 40 276 40; rect hole 39 2 182 20 0; use saddle-16 50 20; area wood 0 40 10 10 29 4 231 4 250 10 260 40`,
	"saddle-14":   `area saddle 0 0 0 -19 26 -22 65 -24 104 -22 130 -19 130 0`,
	"saddle-16":   `area saddle 0 0 0 -28 32 -32 80 -34 128 -32 160 -28 160 0`,
	"saddle-18":   `area saddle 0 0 0 -22 36 -26 88 -28 140 -26 176 -22 176 0`,
	"saddle-24":   `area saddle 0 0 0 -36 48 -42 120 -45 192 -42 240 -36 240 0`,
	"tuners": `area board -8 76 -8 30 8 30 8 76; area sheet -10 30 -18 22 -20 -28 20 -28 18 22 10 30; rect fret -33 -23 11 10 4; rect fret -33 -7 11 10 4; rect fret -33 9 11 10 4;
		rect fret 22 -23 11 10 4; rect fret 22 -7 11 10 4; rect fret 22 9 11 10 4; strokes outline -22 -18 -18 -18 18 -18 22 -18 -22 -2 -18 -2 18 -2 22 -2 -22 14 -18 14 18 14 22 14;
		line string -11 -18 -5.4 30 -5.4 76; line string -11 -2 -3.6 30 -3.6 76; line string -11 14 -1.8 30 -1.8 76; line string 11 -18 5.4 30 5.4 76; line string 11 -2 3.6 30 3.6 76;
		line string 11 14 1.8 30 1.8 76; dot string-end -11 -18 3; dot string-end -11 -2 3; dot string-end -11 14 3; dot string-end 11 -18 3; dot string-end 11 -2 3; dot string-end 11 14 3`,
	"end-on": `area wood -70 112 -46 82 -14 76 -14 104 14 104 14 76 60 80 86 112; area saddle -12 104 -12 40 -9 32 0 27 9 31 12 38 12 104`,
	// of the pictures to choose from
	"open":          `area wood 6 80 12 58 24 54 96 54 108 58 114 80; rect hole 26 56 68 12 0; line outline 2 80 118 80`,
	"front":         `area wood 6 80 12 60 24 56 96 56 108 60 114 80; line outline 2 80 118 80`,
	"above":         `blob wood 6 45 12 24 36 20 60 24 84 20 108 24 114 45 108 68 84 70 60 68 36 70 12 68; rect hole 20 36 80 16 2`,
	"cross-section": `area wood 14 82 30 52 52 50 52 72 68 72 68 50 90 52 106 82`,
	"screw-row": `area wood 2 74 118 74 118 88 2 88; rect fret 8 66 104 9 2; rect hole 24 52 4 14 0; rect sheet 15 42 22 12 1; dot string-end 26 39 2.2;
		rect hole 54 52 4 14 0; rect sheet 45 42 22 12 1; dot string-end 56 39 2.2; rect hole 84 52 4 14 0; rect sheet 75 42 22 12 1; dot string-end 86 39 2.2`,
	"posts": `line outline 2 84 118 84; rect fret 23 54 6 30 0; rect sheet 15 66 22 8 3; rect fret 91 54 6 30 0; rect sheet 83 66 22 8 3;
		area wood 12 59 14 48 30 41 60 38 90 41 106 48 108 59; dot string-end 36 37 1.8; dot string-end 52 36 1.8; dot string-end 68 36 1.8; dot string-end 84 37 1.8`,
	"rod": `area wood 118 52 118 70 60 68 48 62 12 74 8 64 44 44 52 52; area board 54 46 118 46 118 52 54 52; area saddle 48 42 54 42 54 52 48 52`,
	"nut": `area wood 8 84 8 66 112 66 112 84; area saddle 12 66 12 42 27 42 27 48 33 48 33 42 57 42 57 48 63 48 63 42 87 42 87 48 93 48 93 42 108 42 108 66;
		dot string-end 30 45 2.4; dot string-end 60 45 2.4; dot string-end 90 45 2.4`,
	"hex":         `dot fret 42 45 24; area hole 53.04 45 47.52 35.44 36.48 35.44 30.96 45 36.48 54.56 47.52 54.56`,
	"query":       `curve outline 53 15 56 10 62 9 67 13 66 19 61 23 60 28; dot string-end 60 35 1.8`,
	"query-large": `curve outline 82 36 86.29 28.86 94.86 27.43 102 33.14 100.57 41.71 93.43 47.43 92 54.57; dot string-end 92 64.57 2.57`,
	"tag": `curve fine 92 50 100 40 94 30; area sheet 53.63 4.76 93.24 10.32 99.77 21.34 90.45 30.13 50.84 24.56; dot outline 91.84 20.23 2.2;
		strokes fine 58.59 12.52 80.38 15.59 57.76 18.47 73.6 20.69`,
	"loose": `area saddle 28 0 28 -20 40 -23 60 -24 80 -23 92 -20 92 0`,
	"plate": `area wood 12 112 50 28 270 28 308 112; area grit 40 106 68 34 252 34 280 106; area sheet 30 106 56 34 76 34 54 106; area sheet 290 106 264 34 244 34 266 106`,
	"low":   `area saddle 104 84 104 64 132 58 160 56 188 58 216 64 216 84; area saddle 104 64 110 58 134 52 160 50 186 52 210 58 216 64 188 58 160 56 132 58`,
}

// Acts lists them.
func Acts() []Act {
	all := make([]Act, len(acts))
	for i, a := range acts {
		all[i] = a.act
	}
	return all
}

// ActPicture draws an act, 320 wide and 128 high at most. A label that is not given is left out; without a description, the labels are that. Mirrored is for the
// left-handed: what has a left and a right changes places, its letters still to be read.
func ActPicture(a Act, mirrored bool, title, desc string, labels ...string) Scene {
	if desc == "" {
		desc = said(labels)
	}
	for _, known := range acts {
		if known.act == a {
			p := sheet(string(a), title, desc, 320, known.tall)
			p.shapes(known.shapes, labels)
			if mirrored && known.mirrors {
				return Mirrored(p.Scene)
			}
			return p.Scene
		}
	}
	return sheet(string(a), title, desc, 320, actTall).Scene
}

// said is the labels of a picture in a row, for those who do not see it.
func said(labels []string) string {
	all := make([]string, 0, len(labels))
	for _, l := range labels {
		if l != "" {
			all = append(all, l)
		}
	}
	return strings.Join(all, ", ")
}
