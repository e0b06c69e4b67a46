// Package geometry knows what is true of lengths, readings, necks, strings and saddles.
//
// Everything here is a pure function of its arguments: no screen, no storage, no clock, no words for people. Lengths are millimetres
// inside. Coordinates: x along the string, nut at 0, saddle at scale plus setback; u across, centre line 0, bass side negative; heights
// up from the fret tops. What a person measures comes in through functions that return a typed refusal; nothing returns what is not a number
// together with no refusal, and nothing panics.
//
// Where each formula lives, where it comes from, and the test that holds it:
//
//	1 in = 25.4 mm exactly                        ParseLength     addendum to NBS Circular 572, 1959                    tables_test.go
//	fret distance d(n) = L(1 − 2^(−n/12))         FretDistance    equal temperament; Anderson and Beausoleil 2024       tables_test.go
//	leverage λ = d(n)/(L+c)                       Leverage        straight string, similar triangles                    tables_test.go
//	held at k: λ = (d(n)−d(k))/(L+c−d(k))         Leverage        straight string, similar triangles                    frets_test.go
//	reading as an interval                        TwoMarks, Caliper, JustFits, Cards, Repeats                           reading_test.go
//	bounds to standard uncertainty, width/√12     Interval.StandardUncertainty   JCGM 100:2008, 4.3.7                   tables_test.go
//	zero not at the rule's end: gap = mark + e    OnRuleEnd       the rule's own geometry                               reading_test.go
//	cut at the saddle (gap − target)/λ            WholeCut        similar triangles                                     cut_test.go
//	gap after the cut: gap − λ·removed            MeasuredString.After           similar triangles                      tables_test.go
//	stop line of a round                          StopLine        worst case over the readings                          property_test.go
//	straightest cut through several strings       fit             lexicographic minimax by linear programming           fit_test.go
//	which string is in the way, and by how much   Blocked         the underside is a straight line                      cut_test.go
//	done, or cannot tell                          Judge           the target inside a reading narrow enough             left_test.go
//	a change since an earlier reading             Since           the difference of two ranges                          compare_test.go
//	break angle atan(exposure/distance)           BreakAngle      plane geometry                                        left_test.go
//	what is left standing                         WhatIsLeft, LowestGap          interval arithmetic                    left_test.go
//	relief curve −4r(x−x1)(xj−x)/(xj−x1)²         Neck.Top        Euler and Bernoulli's beam under one moment           board_test.go
//	relief from where it was held and read        Neck.Relief     the same curve under another chord                    board_test.go
//	radius across R − √(R² − u²), cone R(x)       Camber          plane geometry                                        board_test.go
//	a string fanning out over a cylinder: s²/8R   FanRelief       sagitta of a parabola                                 board_test.go
//	the string's line and every clearance         NewPath, Path.Clearance         straight lines                        path_test.go, gonum_test.go
//	what a change of relief does                  Neck.ReliefMoves, Path.WithRelief               the nut goes with the neck   path_test.go
//	plucked string: triangle and its mirror       PluckReach      Fletcher and Rossing, 2.8 (from memory)               headroom_test.go
//	headroom: least clearance/reach               Path.Headroom   a bound for the ideal string                          headroom_test.go, gonum_test.go
//	touch from buzz tests, height that suits it   TouchOf, Path.LowestFor         the person's own ear                  headroom_test.go
//	touch by style                                StyleTouch      common practice, no source                            headroom_test.go
//	f = 440·2^((m−69)/12), cents                  Tone.Frequency, Frequency.CentsFrom             ISO 16                strings_test.go
//	T = (2Lf)²μ, μ = ρπD²/4                       Strung.Tension, RoundWeight     any textbook                          strings_test.go
//	nylon sets                                    NylonSets       Anderson and Beausoleil 2024                          strings_test.go
//	sideways TL/(p(L−p)), bending                 Strung.Sideways, Strung.Bend    statics; Grimes 2014                  strings_test.go
//	strain, cents and setbacks when stopped       Stopped, Path.Sharp             Anderson and Beausoleil 2024          sharp_test.go
//	does the saddle's top follow the board        CrownOf         Helly's theorem on lines                              crown_test.go, gonum_test.go
//	seats of a new crown                          SeatHeights     plane geometry                                        crown_test.go
//	relief, nut, saddle: what is out              Diagnose        usual ranges: common practice, no source              diagnosis_test.go
//	sizes of grits by FEPA and CAMI               Grit.Size       tables quoting ISO 6344 and ANSI B74.18               grit_test.go
//	order of papers, fewest and most even         Papers          a step of 1.5 to 2: common practice, no source        grit_test.go
//	smoothing by the grain before it              SmoothingFor    common practice, no source                            grit_test.go
//	pixels per millimetre from a card             ScreenFromCard  ISO/IEC 7810, ID-1                                    screen_test.go
//	a new saddle: old + (target − gap)/λ, crown   FromBlank       straight lines and circles                            blank_test.go
//	strokes still to do                           Sanding.Coach, LineSanding.Coach  the person's own checks             coach_test.go, uneven_test.go
//	shim under the saddle (target − gap)/λ        Raise           similar triangles                                     shim_test.go
//	the best pile of what is to hand              PileFor         every pile is looked at                               shim_test.go
//	a strip under one end: strip/(1 − part)       Stepped         a straight line over two edges                        shim_test.go
//	pitches and diameters of threads              Threads         ISO 261 and 724, ASME B1.1                            screw_test.go
//	turns = change/pitch, in eighths              TurnsFor, MeasuredString.Screw        a screw moves by its pitch      screw_test.go
//	middle seats over the outer two               InnerSeats      plane geometry                                        screw_test.go
//	turns at two posts, rounded together          Posts.Turn      every pair near the line is looked at                 post_test.go
//	plate on posts: (rest − saddle)/rest          Posts.Lever     similar triangles                                     post_test.go
//	nut, open gap: 1/(1 − d(1)/(L+c))             OpenNut.Plan    similar triangles                                     nut_test.go
//	nut, pressed gap: 1 + 2^(1/12)                PressedNut.Plan similar triangles                                     nut_test.go
//	pile as a stop for the file                   StopPile        a straight line over frets 1 and 2                    nut_test.go
//	what a nut slot does further along            Neck.AfterNut   similar triangles                                     nut_test.go
//	moisture towards which wood goes              WoodMoisture    Hailwood and Horrobin; Simpson 1998                   wood_test.go
//	gap and humidity: one slope for all settings  DriftOf         least squares; JCGM 100:2008, 5.1.2 and G.3           drift_test.go, slope_test.go
//
// A numerical library works out again what was worked out here in another way; it is used by gonum_test.go alone.
//
// Left out on purpose: wear, string stiffness at the saddle, and any figure for how much a truss-rod turn does: those are learned on
// the instrument itself or not at all. Readings are never averaged: what the eye gets wrong it gets wrong each time.
package geometry
