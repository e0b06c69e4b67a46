package draw

// things are the tables of the pictures to choose from, 120 × 90.
var things = [...]struct {
	thing  Thing
	shapes string
}{
	{SaddleLoose, `use open 0 0; use loose 0 52; strokes hint 28 54 28 68 92 54 92 68; arrow move 60 24 60 7`},
	{SaddleGlued, `use loose 0 68; use front 0 0; blob trouble 30 58 36 54 44 59 52 55 60 59 68 55 76 59 84 54 91 58 84 64 76 63 68 68 60 63 52 66 44 63 37 66;
		arrow hint 60 40 60 14; strokes trouble 52 12 68 26 68 12 52 26`},
	{SaddleUnsure, `use loose 0 68; use front 0 0; use query 0 0`},
	{SaddleDamage, `use loose 0 58; area wood 6 70 12 48 24 44 96 44 108 48 114 70; curve outline 2 84 30 82 60 76 90 82 118 84;
		area hole 6 70 40 76 60 74 80 76 114 70 60 70; line trouble 72 44 68 51 74 57 69 63 73 70`},
	{SaddlePrecious, `use loose 0 68; use front 0 0; use tag 0 0`},
	{SaddleStepped, `use above 0 0; area saddle 22 38 98 38 98 50 22 50; line outline 22 48 41 41 41 48 60 41 60 48 79 41 79 48 98 41`},
	{SaddleSplit, `area saddle 24 68 24 48 40 45 54 44 54 68; area saddle 66 68 66 46 80 47 96 50 96 68; use front 0 0; arrow dim 38 34 53 34; arrow dim 82 34 67 34`},
	{SaddleThrough, `area saddle 8 68 14 50 34 44 60 42 86 44 106 50 112 68; use front 0 0; area saddle 4 72 6 60 13 58 13 72; area saddle 116 72 114 60 107 58 107 72`},
	{SaddleLow, `area saddle 28 58 28 53 60 51 92 53 92 58; use front 0 0; arrow move 60 26 60 46; line hint 20 28 100 28`},
	{BridgeScrews, `rect fret 22 8 76 74 3; rect sheet 44 14 30 12 1; line string 2 20 74 20; dot hole 68 17 2.2; dot hole 68 23 2.2; rect sheet 44 31 30 12 1;
		line string 2 37 74 37; dot hole 68 34 2.2; dot hole 68 40 2.2; rect sheet 44 48 30 12 1; line string 2 54 74 54; dot hole 68 51 2.2;
		dot hole 68 57 2.2; rect sheet 44 65 30 12 1; line string 2 71 74 71; dot hole 68 68 2.2; dot hole 68 74 2.2;
		sweep move 78.39 23 73.07 27.88 65.92 28.82 59.51 25.49 56.18 19.08 57.12 11.93 62 6.61`},
	{BridgePosts, `line outline 2 82 118 82; rect fret 23 40 6 42 0; rect sheet 15 58 22 8 3; rect fret 91 40 6 42 0; rect sheet 83 58 22 8 3;
		area wood 12 50 14 38 30 30 60 27 90 30 106 38 108 50; dot string-end 36 26 1.8; dot string-end 52 26 1.8; dot string-end 68 26 1.8;
		dot string-end 84 26 1.8; sweep move 10 72 26 76 42 72`},
	{WorkBlank, `hatch removed 6 14 20 106 20 106 70 14 70; rect outline 14 20 92 50 0; area saddle 14 70 14 48 36 42 60 40 84 42 106 48 106 70`},
	{WorkNut, `area wood 8 84 8 62 112 62 112 84; area saddle 16 62 16 44 30 44 30 50 34 50 34 44 52 44 52 50 56 50 56 44 74 44 74 50 78 50 78 44 104 44 104 62;
		dot string-end 32 46 2; dot string-end 54 46 2; dot string-end 76 46 2; area fret 94 44 98 44 98 8 94 8; between move 106 14 106 40`},
	{WorkRelief, `area board 6 44 24 51 42 55 60 57 78 55 96 51 114 44 114 54 96 61 78 65 60 67 42 65 24 61 6 54; line string 6 38 114 38; between dim 60 39 60 56`},
	{UnderClear, `use above 0 0; line good 48 60 54 66 66 55`},
	{UnderLead, `use above 0 0; rect fret 24 40 72 8 3; curve string 94 44 106 50 104 64 112 78 116 86`},
	{UnderShim, `use above 0 0; rect saddle 24 38 46 12 0; area sheet 54 39 92 36 94 47 56 50`},
	{UnderStuck, `use above 0 0; rect saddle 20 36 80 16 2; strokes trouble 50 34 70 54 70 34 50 54`},
	{UnderUnsure, `use above 0 0; use query 0 4`},
	{SeatUnsure, `use open 0 0; use loose 0 68; use query 0 -2`},
	{SeatFlat, `use cross-section 0 0; area saddle 54 72 54 26 56 22 60 20 64 22 66 26 66 72; arrow move 60 4 60 15; line good 84 30 90 37 102 22`},
	{SeatRocks, `use open 0 0; area saddle 28 66 26.26 46.08 37.95 42.04 57.79 39.3 77.8 38.56 90.01 40.5 91.76 60.42; sweep move 22 44 16 34 22 24;
		sweep move 104 20 109 30 104 42`},
	{SeatLeans, `use cross-section 0 0; area saddle 54.13 70.75 63.7 25.76 66.48 22.26 70.81 21.14 74.31 23.92 75.43 28.25 65.87 73.25; line hint 60 72 60 8;
		sweep move 62 10 70 11 80 16`},
	{FollowCaliper, `area saddle 52 78 52 34 56 30 64 30 68 34 68 78; rect sheet 6 6 108 14 1; area sheet 34 20 52 20 52 62 46 52 34 26;
		area sheet 68 20 94 20 94 26 76 50 68 62; strokes mark 12 8 12 14 20 8 20 14 28 8 28 14; rect hole 74 9 26 8 1`},
	{FollowPencil, `area saddle 4 40 116 40 116 82 4 82; hatch removed 6 4 66 116 66 116 82 4 82; rect pencil 4 59 70 7 0; line stop-line 4 66 74 66;
		area sheet 74 64 77.89 49.27 104.98 14.6 114.44 21.99 87.35 56.66; strokes fine 82.62 52.97 109.71 18.3; area pencil 74 64 75.72 57.73 79.66 60.81`},
	{FollowKnife, `area saddle 4 40 116 40 116 82 4 82; hatch removed 6 4 66 116 66 116 82 4 82; line outline 4 66 74 66;
		area fret 74 64 86.86 41.05 93.16 45.97 83.31 58.58; area sheet 85.28 39.82 106.21 13.03 115.67 20.41 94.74 47.21`},
	{FollowCards, `use loose 0 58; rect sheet 8 60 104 6 1; rect sheet 8 66 104 6 1; rect sheet 8 72 104 6 1; rect sheet 8 78 104 6 1; line stop-line 28 52 92 52`},
	{ScrewsFree, `dot fret 60 45 24; area hole 71.04 45 65.52 35.44 54.48 35.44 48.96 45 54.48 54.56 65.52 54.56;
		sweep move 28.05 33.37 35.27 21.67 46.53 13.78 60 11 73.47 13.78 84.73 21.67 91.95 33.37; line good 90 66 96 73 108 58`},
	{ScrewsFloating, `curve outline 2 80 60 72 118 80; area wood 34 74 36 60 44 56 76 56 84 60 86 74; area hint 50 74 52 60 60 56 92 56 100 60 102 74;
		line string 46 54 46 30; dot string-end 46 54 1.8; line string 55 54 55 30; dot string-end 55 54 1.8; line string 64 54 64 30;
		dot string-end 64 54 1.8; line string 73 54 73 30; dot string-end 73 54 1.8; arrow move 88 44 112 44`},
	{ScrewsVibrato, `area wood 2 54 34 54 34 86 2 86; area wood 84 54 118 54 118 86 84 86; line outline 34 78 38 70 43 84 48 70 53 84 58 70 62 78;
		area fret 62.01 44.09 69.95 43.11 74.33 78.84 66.39 79.82; area fret 29.51 42.03 102.96 33.01 103.81 39.96 30.37 48.98;
		area sheet 68 27.23 85.86 25.04 87.08 34.96 69.21 37.16; rect hole 25 40 6 24 1; line string 2 28 76 27; sweep move 111 48 114 38 110 26`},
	{ScrewsUnsure, `use hex 0 0; use query-large 0 0`},
	{ScrewsStuck, `dot fret 60 45 24;
		area hole 71.04 45 69.56 39.48 65.52 35.44 60 33.96 54.48 35.44 50.44 39.48 48.96 45 50.44 50.52 54.48 54.56 60 56.04 65.52 54.56 69.56 50.52;
		strokes trouble 40 25 80 65 80 25 40 65`},
	{ScrewsDamage, `use screw-row 0 0; line trouble 72 62 68 68 74 74 69 80 73 86`},
	{ScrewsPrecious, `use screw-row 0 0; use tag 0 0`},
	{PostsDamage, `use posts 0 0; line trouble 62 38 57 44 63 51 58 58`},
	{PostsPrecious, `use posts 0 0; use tag 0 0`},
	{WayClockwise, `dot fret 42 47 22; area hole 52.12 47 47.06 38.24 36.94 38.24 31.88 47 36.94 55.76 47.06 55.76;
		sweep move 11.93 36.06 18.72 25.04 29.33 17.62 42 15 54.67 17.62 65.28 25.04 72.07 36.06; dot string-end 98 20 4; rect sheet 86 25 24 14 1;
		arrow move 98 78 98 46`},
	{WayCounter, `dot fret 42 47 22; area hole 52.12 47 47.06 38.24 36.94 38.24 31.88 47 36.94 55.76 47.06 55.76;
		sweep move 72.07 36.06 65.28 25.04 54.67 17.62 42 15 29.33 17.62 18.72 25.04 11.93 36.06; dot string-end 98 20 4; rect sheet 86 25 24 14 1;
		arrow move 98 78 98 46`},
	{WayUnsure, `dot fret 42 47 22; area hole 52.12 47 47.06 38.24 36.94 38.24 31.88 47 36.94 55.76 47.06 55.76; use query-large 0 0`},
	{NutFiles, `use nut 0 0; rect fret 26 6 8 28 0; rect fret 56.8 6 6.4 28 0; rect fret 87.6 6 4.8 28 0`},
	{NutNoFiles, `use nut 0 0; rect fret 26 6 8 28 0; rect fret 56.8 6 6.4 28 0; rect fret 87.6 6 4.8 28 0; strokes trouble 48 8 72 32 72 8 48 32`},
	{NutWorn, `area wood 8 84 8 66 112 66 112 84; area saddle 12 66 12 42 27 42 27 60 33 60 33 42 57 42 57 60 63 60 63 42 87 42 87 60 93 60 93 42 108 42 108 66;
		dot string-end 30 57 2.4; dot string-end 60 57 2.4; dot string-end 90 57 2.4; line trouble 72 42 76 49 70 55 75 66; arrow move 30 20 30 50`},
	{NutUnsure, `use nut 0 0; curve outline 53.5 15.5 56.29 10.86 61.86 9.93 66.5 13.64 65.57 19.21 60.93 22.93 60 27.57; dot string-end 60 34.07 1.67`},
	{RodTurns, `use rod 0 0; line hint 50 57 118 60; rect fret 34 50 14 6 2; line outline 36 53 14 40 14 26; sweep move 6 40 8 28 22 20`},
	{RodNone, `use rod 0 0`},
	{RodStuck, `use rod 0 0; line hint 50 57 118 60; rect fret 34 50 14 6 2; line outline 36 53 14 40 14 26; strokes trouble 20 32 46 58 46 32 20 58`},
	{RodUnsure, `use rod 0 0; curve outline 21 19 24 14 30 13 35 17 34 23 29 27 28 32; dot string-end 28 39 1.8`},
}
