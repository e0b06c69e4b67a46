package geometry_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	. "gapwright/geometry"
)

// Posts 74 mm apart under strings that are 54 mm apart: each 10 mm outside its string.
var posts74 = Posts{Bass: -37, Treble: 37, Pitch: Exactly(0.5)}

func TestTurnsAtTwoPosts(t *testing.T) {
	for _, c := range []struct {
		name         string
		posts        Posts
		strings      []MeasuredString
		asks         [2]Length
		bass, treble Eighths
		over         [2]Length
	}{
		{"both down by 0.25 at fret 12: one turn of 0.5", posts74, two(Exactly(2), 1.75, Exactly(2), 1.75), [2]Length{-0.5, -0.5}, -8, -8, [2]Length{0, 0}},
		// bass 0.4 down at the saddle, treble 0.2 down: 0.2 over 54 mm, at the posts −0.3 ∓ 37 × 0.2/54 = −0.437037 and −0.162963: 6.99 and 2.61
		// eighths. −7 and −3 give −0.4375 + t·0.25, t = 10/74 and 64/74: −0.403716 and −0.221284, so at the fret 0.001858 and 0.010642 too low.
		// −7 and −2 would leave the treble string 0.016 too high.
		{"tapered", posts74, two(Exactly(2), 1.8, Exactly(1.7), 1.6), [2]Length{-0.437037, -0.162963}, -7, -3, [2]Length{-0.001858, -0.010642}},
		// the same up
		{"raised", posts74, two(Exactly(1.6), 1.8, Exactly(1.5), 1.6), [2]Length{0.437037, 0.162963}, 7, 3, [2]Length{0.001858, 0.010642}},
		// only bass is to move, 0.25 at the saddle: at the posts 0.25 × 64/54 = 0.296296 and −0.25 × 10/54 = −0.046296, 4.74 and −0.74 eighths;
		// 5 and −1 give 0.3125 − t·0.375: 0.261824 and −0.011824, at the fret 0.005912 over and under
		{"one side", posts74, two(Exactly(1.6), 1.725, Exactly(1.5), 1.5), [2]Length{0.296296, -0.046296}, 5, -1, [2]Length{0.005912, -0.005912}},
		// the plate turns about a rest 60 mm behind posts that stand 15 mm in front of the saddle: lever 45/60, so −0.5/0.75 = −0.666667 at the
		// posts, 10.67 eighths; 11 are 0.6875 × 0.75 = 0.515625, at the fret 0.007813 too low
		{"a plate", Posts{Bass: -37, Treble: 37, Pitch: Exactly(0.5), Saddle: 15, Rest: 60}, two(Exactly(2), 1.75, Exactly(2), 1.75), [2]Length{-0.666667, -0.666667}, -11, -11,
			[2]Length{-0.007813, -0.007813}},
	} {
		got := must(c.posts.Turn(c.strings))
		nearInterval(t, c.name+", asks at the bass post", got.AskBass, Exactly(c.asks[0]), 1e-6)
		nearInterval(t, c.name+", asks at the treble post", got.AskTreble, Exactly(c.asks[1]), 1e-6)
		if got.Bass != c.bass || got.Treble != c.treble {
			t.Errorf("%s: %d and %d eighths, want %d and %d", c.name, got.Bass, got.Treble, c.bass, c.treble)
		}
		for i, over := range c.over {
			nearInterval(t, c.name+", over", got.Over[i], Exactly(over), 1e-6)
			nearInterval(t, c.name+", after", got.After[i], Exactly(c.strings[i].Target+over), 1e-6)
		}
	}
}

func TestPostsCarryReadingsByTheirWeights(t *testing.T) {
	// 2.25 to 2.50, wanted 2: −0.5 to −1 at the strings; at the posts the far string weighs −10/54: −0.5 × 64/54 + 1 × 10/54 is not the bound of
	// either; −1 × 64/54 + 0.5 × 10/54 = −1.092593 to −0.5 × 64/54 + 1 × 10/54 = −0.407407
	gap := must(TwoMarks(2.25, 2.5))
	got := must(posts74.Turn(two(gap, 2, gap, 2)))
	nearInterval(t, "bass post", got.AskBass, Interval{-1.092593, -0.407407}, 1e-6)
	nearInterval(t, "treble post", got.AskTreble, Interval{-1.092593, -0.407407}, 1e-6)
	// from the middle: 0.75 is 12 eighths; then it reads 1.875 to 2.125
	if got.Bass != -12 || got.Treble != -12 {
		t.Errorf("%d and %d eighths, want −12", got.Bass, got.Treble)
	}
	nearInterval(t, "after", got.After[0], Interval{1.875, 2.125}, 1e-9)
	// floors of 1.95: no more than 0.6 at the saddle, 9 eighths
	strings := two(gap, 2, gap, 2)
	strings[0].Floor, strings[1].Floor = 1.95, 1.95
	if got = must(posts74.Turn(strings)); got.Bass != -9 || got.Treble != -9 {
		t.Errorf("%d and %d eighths, want −9", got.Bass, got.Treble)
	}
	// and with a thread of 0.45 to 0.55, 8: the same pitch at both posts widens each gap by no more than its own turns
	posts := posts74
	posts.Pitch = Interval{0.45, 0.55}
	got = must(posts.Turn(strings))
	nearInterval(t, "after", got.After[0], Interval{1.975, 2.275}, 1e-9)
	// a middle string under its floor lifts all: 1.5 to 1.7 is 0.4, 6.4 eighths, so 7
	strings = append(two(Exactly(2), 2, Exactly(2), 2), MeasuredString{Gap: Exactly(1.5), Target: 2, Floor: 1.7, Leverage: 0.5})
	if got = must(posts74.Turn(strings)); got.After[2].Low < 1.7 || got.Bass+got.Treble < 13 {
		t.Errorf("%+v", got)
	}
}

func TestThePostsLever(t *testing.T) {
	for _, c := range []struct {
		saddle, rest Length
		want         float64
	}{{0, 0, 1}, {15, 0, 1}, {0, 60, 1}, {15, 60, 0.75}, {-15, 60, 1.25}} {
		near(t, "lever", must(Posts{Saddle: c.saddle, Rest: c.rest}.Lever()), c.want, 1e-12)
	}
	for _, c := range []struct {
		saddle, rest Length
		want         Quantity
	}{{nan, 0, QuantityPosts}, {61, 0, QuantityPosts}, {0, 5, QuantityPosts}, {0, nan, QuantityPosts}, {55, 60, QuantityLever}, {-30, 10, QuantityLever}} {
		_, err := Posts{Saddle: c.saddle, Rest: c.rest}.Lever()
		refused(t, "Lever", err, c.want)
	}
}

func TestPostsRefuse(t *testing.T) {
	good := two(Exactly(2), 1.75, Exactly(2), 1.75)
	for _, c := range []struct {
		posts Posts
		want  Quantity
	}{
		{Posts{Bass: nan, Treble: 37, Pitch: Exactly(0.5)}, QuantityPosts}, {Posts{Bass: -37, Treble: 120, Pitch: Exactly(0.5)}, QuantityPosts},
		{Posts{Bass: 37, Treble: -37, Pitch: Exactly(0.5)}, QuantityPosts}, {Posts{Bass: -37, Treble: 37}, QuantityPitch},
		{Posts{Bass: -37, Treble: 37, Pitch: Exactly(0.5), Rest: 1}, QuantityPosts},
	} {
		_, err := c.posts.Turn(good)
		refused(t, "Turn", err, c.want)
	}
	if _, err := posts74.Turn(good[:1]); !errors.Is(err, ErrTooFewStrings) {
		t.Errorf("%v", err)
	}
	if _, err := posts74.Turn(make([]MeasuredString, 13)); !errors.Is(err, ErrTooMany) {
		t.Errorf("%v", err)
	}
	_, err := posts74.Turn([]MeasuredString{{Gap: Exactly(15), Leverage: 0.01}, {Gap: Exactly(1), Leverage: 0.01, Offset: 5}})
	refused(t, "Turn", err, QuantityTurns)
	// 2000 × 20/… eighths up for a floor in the middle that no thread reaches
	_, err = posts74.Turn([]MeasuredString{{Offset: -27, Leverage: 0.5}, {Leverage: 0.01, Floor: 15}, {Offset: 27, Leverage: 0.5}})
	refused(t, "Turn", err, QuantityTurns)
}

// worstOver is the worst remainder of a pair of turns, worked out from the geometry alone; infinite when a string may be under its floor.
func worstOver(p Posts, lever float64, strings []MeasuredString, bass, treble Eighths) float64 {
	worst := 0.0
	for _, s := range strings {
		along := float64(s.Offset-p.Bass) / float64(p.Treble-p.Bass)
		at := func(pitch Length) Length {
			up := (float64(bass) + (float64(treble)-float64(bass))*along) * float64(pitch) / 8 * lever
			return Length(up * s.Leverage)
		}
		if s.Gap.Low+min(at(p.Pitch.Low), at(p.Pitch.High)) < s.Floor-1e-6 {
			return math.Inf(1)
		}
		middle := (s.Gap.Low + s.Gap.High + at(p.Pitch.Low) + at(p.Pitch.High)) / 2
		worst = max(worst, math.Abs(float64(middle-s.Target)))
	}
	return worst
}

func anyPosts(rng *rand.Rand) Posts {
	half := Length(25 + 20*rng.Float64())
	p := Length(0.4 + 0.6*rng.Float64())
	posts := Posts{Bass: -half, Treble: half, Pitch: Interval{p, p + Length(rng.IntN(2))*0.03}}
	if rng.IntN(3) == 0 {
		posts.Saddle, posts.Rest = Length(-10+30*rng.Float64()), 60
	}
	return posts
}

func TestPostsAreRoundedTogether(t *testing.T) {
	for _, seed := range seeds {
		rng := rand.New(rand.NewPCG(seed, 71))
		for range 120 {
			strings, _ := anyStrings(rng, 2+rng.IntN(5))
			p := anyPosts(rng)
			lever := must(p.Lever())
			got := must(p.Turn(strings))
			best := worstOver(p, lever, strings, got.Bass, got.Treble)
			if math.IsInf(best, 1) {
				t.Fatalf("seed %d: a string may be under its floor: %+v %+v", seed, strings, got)
			}
			for bass := got.Bass - 40; bass <= got.Bass+40; bass++ {
				for treble := got.Treble - 40; treble <= got.Treble+40; treble++ {
					if w := worstOver(p, lever, strings, bass, treble); w < best-1e-6 {
						t.Fatalf("seed %d: %d and %d leave %v, %d and %d %v: %+v %+v", seed, got.Bass, got.Treble, best, bass, treble, w, p, strings)
					}
				}
			}
			for i, s := range strings { // any truth
				along := (s.Offset - p.Bass) / (p.Treble - p.Bass)
				pitch := p.Pitch.Low + p.Pitch.Width()*Length(rng.Float64())
				up := (Length(got.Bass)*(1-along) + Length(got.Treble)*along) * pitch / 8 * Length(lever)
				after := s.Gap.Low + s.Gap.Width()*Length(rng.Float64()) + Length(s.Leverage)*up
				if !got.After[i].Contains(after) || after < s.Floor-1e-6 {
					t.Fatalf("seed %d: string %d comes to %v, told %v", seed, i, after, got.After[i])
				}
			}
		}
	}
}

func TestPostsKnowNeitherHandNorSize(t *testing.T) {
	for _, seed := range seeds {
		rng := rand.New(rand.NewPCG(seed, 72))
		for range 200 {
			strings, _ := anyStrings(rng, 2+rng.IntN(4))
			p := anyPosts(rng)
			got := must(p.Turn(strings))
			other := must(p.Turn(mirrored(strings))) // the posts stand evenly
			nearInterval(t, "mirrored", other.AskBass, got.AskTreble, 1e-9)
			lever := must(p.Lever())
			best := worstOver(p, lever, strings, got.Bass, got.Treble)
			near(t, "mirrored", worstOver(p, lever, strings, other.Treble, other.Bass), best, 1e-6)
			k := Length(0.8 + 0.4*rng.Float64())
			big := Posts{p.Bass * k, p.Treble * k, p.Pitch.Times(float64(k)), p.Saddle * k, p.Rest * k}
			bigger := must(big.Turn(scaled(strings, k)))
			near(t, "scaled", worstOver(p, lever, strings, bigger.Bass, bigger.Treble), best, 1e-6)
			nearInterval(t, "scaled", bigger.AskTreble, got.AskTreble.Times(float64(k)), 1e-9)
			if t.Failed() {
				t.Fatalf("seed %d: %+v %+v", seed, p, strings)
			}
		}
	}
}

func FuzzPosts(f *testing.F) {
	f.Add(-37.0, 37.0, 0.5, 0.5, 0.0, 0.0, -27.0, 2.0, 2.25, 1.75, 1.5, 0.5, 27.0)
	f.Add(-100.0, -90.0, 0.2, 3.0, 60.0, 76.0, 99.0, 0.0, 15.0, 15.0, 15.0, 0.01, 100.0)
	f.Add(math.NaN(), math.Inf(1), 0.0, -1.0, math.NaN(), math.NaN(), math.NaN(), 1.0, 0.0, -1.0, math.NaN(), 2.0, 0.0)
	f.Fuzz(func(t *testing.T, bass, treble, p1, p2, saddle, rest, u1, low, high, target, floor, lever, u2 float64) {
		p := Posts{Length(bass), Length(treble), Interval{Length(p1), Length(p2)}, Length(saddle), Length(rest)}
		s := MeasuredString{Length(u1), Interval{Length(low), Length(high)}, Length(target), Length(floor), lever}
		o := s
		o.Offset = Length(u2)
		got, err := p.Turn([]MeasuredString{s, o})
		if err != nil {
			return
		}
		for i, a := range got.After {
			if !sound(a) || !sound(got.Over[i]) || a.Low < s.Floor-1e-5 || !sound(got.AskBass) || !sound(got.AskTreble) {
				t.Fatalf("%+v %+v: %+v", p, s, got)
			}
		}
	})
}
