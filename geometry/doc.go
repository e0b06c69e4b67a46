// Package geometry knows what is true of lengths, readings, necks, strings and saddles.
//
// Everything here is a pure function of its arguments: no screen, no storage, no clock, no words for people. Lengths are millimetres
// inside. Coordinates: x along the string, nut at 0, saddle at scale plus setback; u across, centre line 0, bass side negative; heights
// up from the fret tops.
//
// Where each formula lives, where it comes from, and the test that holds it:
//
//	fret distance d(n) = L(1 − 2^(−n/12))        FretDistance    equal temperament (ISO 16 pitch, twelfth root of two)  frets_test.go
//	leverage λ = d(n)/(L+c), held: (d(n)−d(k))/(L+c−d(k))  Leverage   straight string, similar triangles                frets_test.go
//	reading as an interval                        TwoMarks, Caliper, JustFits, Cards, Repeats   JCGM 100:2008 on bounds  reading_test.go
//	zero not at the rule's end: gap = mark + e    OnRuleEnd       the rule's own geometry                                reading_test.go
//	cut at the saddle (gap − target)/λ            WholeCut        similar triangles                                      cut_test.go
//	stop line of a round                          StopLine        worst case over the readings                           cut_test.go
//	straightest cut through several strings       (fit)           lexicographic minimax, vertex enumeration              fit_test.go
//	break angle atan(exposure/distance)           BreakAngle      plane geometry                                         left_test.go
//	strokes still to do                           Sanding.Coach   removal per stroke from the person's own checks        coach_test.go
//
// Left out on purpose: wear, string stiffness at the saddle, and any figure for how much a truss-rod turn does: those are learned on
// the instrument itself or not at all.
package geometry
