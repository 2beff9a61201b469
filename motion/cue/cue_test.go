package cue_test

import (
	"fmt"
	"math"
	"math/big"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/floats/scalar"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
	"seamrail/motion/cue"
	"seamrail/motion/plan"
	"seamrail/motion/plan/sample"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// Filmed at 120 and played at 24: the loop is 144 frames, 1.2 s of real time.
const clockOf = `shot = "Lantern"
[clock]
capture = "120"
playback = "24"
loop = "144 frames"
[take]
rounds = 3
[rig]
file = "bench.toml"
`

const railOf = `[axis.rail]
move = "there-and-back"
from = "40 mm"
to = "100 mm"
`

const tableOf = `[axis.table]
move = "turn"
turns = "1/6"
law = "uniform"
`

func planned(t testing.TB, text string) (*plan.Plan, shot.Shot) {
	t.Helper()
	s, err := shot.Decode("lamp.toml", []byte(text), nil)
	require.NoError(t, err)
	p, err := plan.Build(s, sample.Bench(rig.InverseTime))
	require.NoError(t, err)
	return p, s
}

func sheet(t testing.TB, text string) cue.Sheet {
	t.Helper()
	p, s := planned(t, text)
	out, err := cue.New(p, s)
	require.NoError(t, err)
	return out
}

// one is the sheet of a shot with one cue, on the rail alone.
func one(t testing.TB, lines string) cue.Sheet {
	t.Helper()
	return sheet(t, clockOf+railOf+"[[cue]]\nname = \"pebble\"\n"+lines)
}

// Free fall from rest under standard gravity: 0.45160 s for 1 m, 0.24735 s for
// 0.3 m (sqrt(2h/g)), 0.1428 s for 0.1 m.
func TestFallAgainstHandbook(t *testing.T) {
	for mm, want := range map[float64]float64{0: 0, 100: 0.14281, 300: 0.24735, 1000: 0.45160} {
		assert.InDelta(t, want, cue.Fall(mm, 0), 5e-6, "%v mm", mm)
	}
	// Thrown down at 1 m/s from 1 m: t = (sqrt(1 + 2g) - 1)/g, worked with
	// g = 9.80665.
	assert.InDelta(t, (math.Sqrt(1+2*9.80665)-1)/9.80665, cue.Fall(1000, 1000), 1e-12)
}

// What falls for the time that a fall takes has come as far as it fell.
func TestFallAndHeightAreInverse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h, v := rapid.Float64Range(0, 10_000).Draw(t, "height"), rapid.Float64Range(0, 20_000).Draw(t, "speed")
		assert.True(t, scalar.EqualWithinAbsOrRel(h, cue.Height(cue.Fall(h, v), v), 1e-9, 1e-12), "%v", h)
		assert.LessOrEqual(t, cue.Fall(h, v), cue.Fall(h, 0), "thrown down, it is there sooner")
	})
}

// Frame 72 of 144 is 0.6 s into the loop. A pebble from 0.3 m falls 0.24735 s;
// it is to be let go at 0.35265 s, and the hand is told 0.15 s before.
func TestAPebbleByHand(t *testing.T) {
	c := one(t, "at = \"72 frames\"\nfall = \"300 mm\"\nreaction = \"0.15 s\"\nlead = \"0.05 s\"").Cues[0]
	assert.Equal(t, "3/5", c.Lands.String())
	assert.Equal(t, "72", c.Screen.String())
	assert.InDelta(t, 0.24735, c.Falls.Float(), 5e-6)
	assert.InDelta(t, 0.6-0.24735-0.05, c.Moves().Float(), 5e-6)
	assert.InDelta(t, 0.6-0.24735-0.05-0.15, c.Now().Float(), 5e-6)
	assert.InDelta(t, 0.6-0.24735-0.05-0.15-1.5, c.First().Float(), 5e-6)
}

func TestMeasuredTakesThePlaceOfAFall(t *testing.T) {
	c := one(t, "at = \"3 s\"\nmeasured = \"0.62 s\"\nbeats = 0\nreaction = \"0 s\"").Cues[0]
	assert.Equal(t, "31/50", c.Way.String())
	assert.Equal(t, "-1/50", c.Now().String(), "before the loop begins")
}

func TestEvents(t *testing.T) {
	const dwells = "dwell-far = \"12 frames\"\ndwell-near = \"6 frames\"\nphase = \"1/4\"\ncycles = 2\n"
	// Each cycle is 72 frames: out 27, rest 12, back 27, rest 6. A quarter of the
	// loop, 36 frames, is past at frame 0: it is at the far end since 27.
	for c, want := range map[[2]string]int64{
		{"", `at = "turnaround"`}:                        72,
		{"", `at = "far-end"`}:                           72,
		{"", "at = \"near-end\"\nwhich = 1"}:             0,
		{"", "at = \"far-end\"\nafter = \"-6 frames\""}:  66,
		{dwells, `at = "far-end"`}:                       27 + 72 - 36,
		{dwells, "at = \"far-end\"\nwhich = 2"}:          27 + 2*72 - 36,
		{dwells, `at = "near-end"`}:                      66 - 36,
		{dwells, "at = \"near-end\"\nwhich = 2"}:         66 + 72 - 36,
		{dwells, "at = \"turnaround\"\nafter = \"1 s\""}: 33 + 72 - 36 + 24,
		{dwells, "at = \"turnaround\"\nwhich = 2"}:       33 + 2*72 - 36,
	} {
		got := sheet(t, clockOf+railOf+c[0]+"[[cue]]\nname = \"pebble\"\n"+c[1]).Cues[0]
		if c[0] != "" && want >= 144 {
			want -= 144
		}
		assert.Equal(t, fmt.Sprint(want), got.Screen.String(), "%q", c)
	}
}

// What a there-and-back does at exact times, its track does too.
func TestEndsAgreeWithTheTrack(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		text := fmt.Sprintf("dwell-far = \"%d frames\"\ndwell-near = \"%d frames\"\nphase = \"%d/7\"\ncycles = %d\nout-share = \"%d/5\"\n",
			rapid.IntRange(1, 20).Draw(rt, "far"), rapid.IntRange(1, 20).Draw(rt, "near"), rapid.IntRange(0, 6).Draw(rt, "phase"),
			rapid.IntRange(1, 3).Draw(rt, "cycles"), rapid.IntRange(1, 4).Draw(rt, "share"))
		event := rapid.SampledFrom([]string{"turnaround", "far-end", "near-end"}).Draw(rt, "event")
		s := sheet(t, clockOf+railOf+text+"[[cue]]\nname = \"pebble\"\nat = \""+event+"\"\n")
		tr, at := s.Plan.Axes[0].Track, s.Cues[0].Lands.Float()
		end := 100.
		if event == "near-end" {
			end = 40
		}
		assert.InDelta(rt, end, tr.At(at).Pos, 1e-9)
		assert.InDelta(rt, 0, tr.At(at+1e-4).Vel, 1e-9, "it rests there from then on")
		const before = 0.02 // a third of the shortest way, which eases in: it has moved by then
		if event != "turnaround" {
			assert.NotEqual(rt, end, tr.At(math.Mod(at-before+1.2, 1.2)).Pos, "and has just come")
		}
	})
}

// Moves that go at other times than the shot says turn round where their tracks
// do: shaped, at the quickest pace, and along keys.
func TestTurnaroundsOfOtherMoves(t *testing.T) {
	quickest := clockOf
	quickest = quickest[:len("shot = \"Lantern\"\n[clock]\n")] + "pace = \"quickest\"\n" + quickest[len("shot = \"Lantern\"\n[clock]\n"):]
	keys := "[axis.rail]\nmove = \"keys\"\nkeys = [{ at = \"0 frames\", pos = \"40 mm\" }, { at = \"50 frames\", pos = \"90 mm\" }, { at = \"100 frames\", pos = \"20 mm\" }]\n"
	for name, text := range map[string]string{"quickest": quickest + railOf, "keys": clockOf + keys} {
		s := sheet(t, text+"[[cue]]\nname = \"pebble\"\nat = \"turnaround\"\n")
		tr := s.Plan.Axes[0].Track
		at := s.Cues[0].Lands.Float()
		assert.InDelta(t, 0, tr.At(at).Vel, 1e-6, name)
		if name == "quickest" {
			near := sheet(t, text+"[[cue]]\nname = \"pebble\"\nat = \"near-end\"\n").Cues[0].Lands
			assert.InDelta(t, 40, tr.At(near.Float()).Pos, 1e-6, "it is at the near end as the loop begins")
			assert.Zero(t, near.Sign())
		}
		assert.Positive(t, tr.At(at-0.01).Vel*-tr.At(at+0.01).Vel, "%s: it goes one way before and the other after", name)
	}
}

func TestFaults(t *testing.T) {
	for lines, want := range map[string]string{
		`at = "144 frames"`: `lamp.toml:16:6: cue[1].at "144 frames" must be`,
		`at = "6.5 s"`:      `frames 0 to 143 are in it`,
		"at = \"turnaround\"\nafter = \"72 frames\"":  `lamp.toml:17:9: cue[1].after "72 frames" is outside the loop, at frame 144 of the timeline; frames 0 to 143 are in it`,
		"at = \"turnaround\"\nafter = \"-73 frames\"": `at frame -1 of the timeline`,
		"at = \"3 s\"\nfall = \"8 m\"":                `lamp.toml:17:8: cue[1].fall "8 m" takes 1.277 s, and a round only 1.2 s of real time; a fall of less than 7060.79 mm would do`,
		"at = \"3 s\"\nmeasured = \"1.2 s\"":          `cue[1].measured "1.2 s" takes 1.2 s, and a round only 1.2 s of real time; less than 1.2 s would do`,
		"at = \"turnaround\"\naxis = \"crane\"":       `lamp.toml:17:8: cue[1].axis "crane" is none of the shot; its axes are rail`,
		"at = \"turnaround\"\nwhich = 2":              `lamp.toml:17:9: cue[1].which "2" asks for number 2, and the loop has 1`,
	} {
		p, s := planned(t, clockOf+railOf+"[[cue]]\nname = \"pebble\"\n"+lines)
		_, err := cue.New(p, s)
		if lines == `at = "144 frames"` {
			want = `lamp.toml:16:6: cue[1].at "144 frames" is outside the loop, at frame 144 of the timeline; frames 0 to 143 are in it`
		}
		assert.ErrorContains(t, err, want, lines)
	}
	for axes, want := range map[string]string{
		tableOf: `cue[1].at "turnaround" waits for an axis that turns round, and none does; say when, such as at = "72 frames"`,
		railOf + "[axis.table]\nmove = \"keys\"\nkeys = [{ at = \"0 frames\", pos = \"40 deg\" }, { at = \"50 frames\", pos = \"42 deg\" }]\n": `several turn round; add one, such as axis = "rail"`,
	} {
		p, s := planned(t, clockOf+axes+"[[cue]]\nname = \"pebble\"\nat = \"turnaround\"\n")
		_, err := cue.New(p, s)
		assert.ErrorContains(t, err, want)
	}
	p, s := planned(t, clockOf+tableOf+"[[cue]]\nname = \"pebble\"\nat = \"far-end\"\naxis = \"table\"\n")
	_, err := cue.New(p, s)
	assert.ErrorContains(t, err, "waits for an end of table, which does not go there and back between two")
}

func TestACountFarAhead(t *testing.T) {
	const short = "shot = \"Lantern\"\n[clock]\ncapture = \"10000\"\nplayback = \"24\"\nloop = \"10 frames\"\n[rig]\nfile = \"bench.toml\"\n[axis.rail]\nat = \"40 mm\"\n[[cue]]\nname = \"a\"\nat = \"0 s\"\n"
	for lines, want := range map[string]string{
		"lead = \"2 s\"": `cue[1].lead "2 s" has the count begin 3500 rounds before, of 0.001 s each; less than 1000 would do`,
		"":               `cue[1].beats has the count begin 1500 rounds before`,
	} {
		p, s := planned(t, short+lines)
		_, err := cue.New(p, s)
		assert.ErrorContains(t, err, want)
	}
}

func TestAnAxisThatNeverTurnsRound(t *testing.T) {
	p, s := planned(t, clockOf+railOf+tableOf+"[[cue]]\nname = \"pebble\"\nat = \"turnaround\"\naxis = \"table\"\n")
	_, err := cue.New(p, s)
	assert.ErrorContains(t, err, `cue[1].axis "table" does not turn round in the loop; say when, such as at = "72 frames"`)
	p, s = planned(t, clockOf+railOf+"[axis.table]\nmove = \"hold\"\nat = \"3 deg\"\n[[cue]]\nname = \"pebble\"\nat = \"turnaround\"\naxis = \"crane\"\n")
	_, err = cue.New(p, s)
	assert.ErrorContains(t, err, "its axes are rail, table")
}

// brute lists every beat of a take by adding up, and sorts them.
func brute(s cue.Sheet, rounds int64) []string {
	type beat struct {
		at  *big.Rat
		txt string
	}
	var all []beat
	rat := func(r exact.Rat) *big.Rat { return new(big.Rat).SetFrac(r.Num(), r.Den()) }
	for i, c := range s.Cues {
		for r := range rounds {
			if c.Rounds != nil && !slices.Contains(c.Rounds, r+1) {
				continue
			}
			for left := range c.Beats + 1 {
				at := rat(c.Lands)
				at.Add(at, new(big.Rat).Mul(big.NewRat(r, 1), rat(s.Plan.Round())))
				for _, less := range []exact.Rat{c.Way, c.Reaction, c.Habit.Shift(), c.Beat.Mul(exact.Int(left))} {
					at.Sub(at, rat(less))
				}
				all = append(all, beat{at, fmt.Sprint(i, r, left)})
			}
		}
	}
	slices.SortStableFunc(all, func(a, b beat) int { return a.at.Cmp(b.at) })
	out := make([]string, len(all))
	for i, b := range all {
		out[i] = b.at.RatString() + " " + b.txt
	}
	slices.Sort(out)
	return out
}

// Beats of any cues are those that adding up finds, each once and in order.
func TestBeatsAgainstAddingUp(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		text := clockOf + railOf
		for i := range rapid.IntRange(1, 3).Draw(rt, "cues") {
			text += fmt.Sprintf("[[cue]]\nname = \"c%d\"\nat = \"%d frames\"\nfall = \"%d mm\"\nlead = \"%d ms\"\nbeats = %d\nbeat = \"%d ms\"\n", i,
				rapid.IntRange(0, 143).Draw(rt, "at"), rapid.IntRange(0, 2000).Draw(rt, "fall"), rapid.IntRange(0, 3000).Draw(rt, "lead"),
				rapid.IntRange(0, 5).Draw(rt, "beats"), rapid.IntRange(100, 900).Draw(rt, "beat"))
			if rapid.Bool().Draw(rt, "some") {
				text += "rounds = [2, 4]\n"
			}
		}
		rounds := rapid.Int64Range(1, 5).Draw(rt, "rounds")
		s := sheet(t, text).WithHabits(map[string]cue.Habit{"hand": cue.HabitOf([]float64{0.08, -0.01})})
		var got []string
		last := exact.Int(-1000)
		for b := range s.Beats(rounds) {
			assert.False(rt, b.At.Less(last), "in order")
			last = b.At
			got = append(got, fmt.Sprintf("%s %d %d %d", b.At, b.Cue, b.Round, b.Left))
		}
		slices.Sort(got)
		assert.ElementsMatch(rt, brute(s, rounds), got)
		// A take that does not end begins in the same way.
		n := 0
		for b := range s.Beats(0) {
			if n++; n > 40 {
				break
			}
			assert.GreaterOrEqual(rt, b.Round, int64(0))
		}
		assert.LessOrEqual(rt, min(len(got), 41), n)
	})
}

func TestCountIn(t *testing.T) {
	s := sheet(t, clockOf+railOf+tableOf+"[[cue]]\nname = \"pebble\"\nat = \"3 s\"\nrounds = \"each\"\n")
	require.Positive(t, s.Plan.RunUp, "the table turns through the seam")
	var counts []string
	for b := range s.Take(2, 3) {
		if b.Cue == cue.CountIn {
			counts = append(counts, b.At.Add(exact.New(s.Plan.RunUp, 120)).String())
		}
	}
	assert.Equal(t, []string{"-3", "-2", "-1", "0"}, counts, "the last is when motion begins")
	// Told 0.6 s into the loop and counted to for 1.5 s, it is counted to from
	// 0.9 s before frame 0, less the run-up.
	runUp := float64(s.Plan.RunUp) / 120
	assert.Equal(t, int64(math.Ceil(0.9-runUp)), s.Needs(2))
	assert.Equal(t, s.Needs(2), s.Needs(0))
	assert.EqualValues(t, 8, one(t, "at = \"0 s\"\nmeasured = \"1 s\"\nbeats = 7\nbeat = \"1 s\"\nrounds = 1").Needs(1))
	assert.Zero(t, one(t, "at = \"3 s\"\nrounds = 3").Needs(3), "in the third round there is time enough")
	assert.Zero(t, one(t, "at = \"3 s\"\nrounds = 9").Needs(3))
	assert.Equal(t, s.Plan.Round().Mul(exact.Int(2)).Add(exact.New(s.Plan.RunOut, 120)), s.Ends(2))
}

func TestCautions(t *testing.T) {
	assert.Equal(t, []string{"pebble is cued in round 9, and the take has 3"}, one(t, "at = \"3 s\"\nrounds = 9\n").Cautions(3))
	assert.Empty(t, one(t, "at = \"3 s\"\nrounds = 9\n").Cautions(0))
	assert.Equal(t, []string{"pebble is let go each round before the last has landed"}, one(t, "at = \"3 s\"\nlead = \"2 s\"\nrounds = \"each\"").Cautions(3))
	assert.Empty(t, one(t, "at = \"3 s\"\nlead = \"2 s\"").Cautions(3), "once")
	assert.Empty(t, one(t, "at = \"3 s\"\nlead = \"2 s\"\nrounds = [1, 3]").Cautions(3))
	assert.Equal(t, []string{"pebble is counted to before the hand has moved for the round before: fewer beats, or every other round"},
		one(t, "at = \"3 s\"\nbeats = 4\nrounds = \"each\"").Cautions(3))
	two := func(other string) []string {
		return one(t, "at = \"3 s\"\nbeats = 1\n[[cue]]\nname = \"petal\"\nbeats = 1\n"+other).Cautions(3)
	}
	assert.Equal(t, []string{"pebble and petal are both counted to the hand at once: give one another hand, or fewer beats"}, two(`at = "4 s"`))
	assert.Equal(t, []string{"pebble and petal are both counted to the hand at once: give one another hand, or fewer beats"}, two(`at = "2 s"`))
	assert.Equal(t, []string{"the counts to pebble and to petal run into each other: nobody can tell whose beat is whose; another time for one of them would do"},
		two("at = \"4 s\"\nhand = \"left\""), "two tones a fifth of a second apart")
	assert.Empty(t, two("at = \"143 frames\"\nreaction = \"0.05 s\""), "half a second apart, one after the other")
	assert.Empty(t, one(t, "at = \"3 s\"\nrounds = 1\nbeats = 1\n[[cue]]\nname = \"petal\"\nbeats = 1\nrounds = 3\nat = \"4 s\"").Cautions(3))
}

func TestHands(t *testing.T) {
	s := one(t, "at = \"3 s\"\nhand = \"left\"\n[[cue]]\nname = \"a\"\nat = \"1 s\"\n[[cue]]\nname = \"b\"\nhand = \"left\"\nat = \"1 s\"")
	assert.Equal(t, []string{"left", "hand"}, s.Hands())
}

// Counts to two hands are told apart where the one is over a quarter of a second
// before the other begins, and where they are one count; fewer beats are offered
// that have been tried.
func TestMuddledCounts(t *testing.T) {
	muddled := func(first, other string) []cue.Muddle {
		return one(t, "at = \"3 s\"\nhand = \"right\"\n"+first+"\n[[cue]]\nname = \"petal\"\nhand = \"left\"\n"+other).Muddled()
	}
	assert.Empty(t, muddled("beats = 3", "at = \"3 s\"\nbeats = 2"), "the same now, the same beats")
	assert.NotEmpty(t, muddled("beats = 3", "at = \"3 s\"\nbeat = \"0.4 s\""), "the same now, another beat")
	// The pebble's now is at 0.6 s and a count of one beat to the petal begins half a
	// second before it: at 1.351 s it is 0.251 s behind, at 1.349 s 0.249 s.
	assert.Empty(t, muddled("beats = 1\nrounds = 1", "measured = \"0.849 s\"\nat = \"5 s\"\nbeats = 1\nrounds = 2"))
	assert.NotEmpty(t, muddled("beats = 1\nrounds = 2", "measured = \"0.851 s\"\nat = \"5 s\"\nbeats = 1\nrounds = 3"))
	assert.Empty(t, muddled("beats = 1\nrounds = 2", "measured = \"0.849 s\"\nat = \"5 s\"\nbeats = 1\nrounds = 3"))
	got := muddled("beats = 3", "at = \"5 s\"\nbeats = 3")
	require.Len(t, got, 1)
	assert.EqualValues(t, 0, got[0].Beats)
	assert.Equal(t, "beats = 0 for both: a single tone each", got[0].Cure())
	assert.Empty(t, muddled("beats = 0\nreaction = \"0 s\"", "at = \"5 s\"\nbeats = 0\nreaction = \"0 s\""), "and so it is")
	assert.Empty(t, muddled("beats = 3\nrounds = 1", "at = \"4 s\"\nrounds = 3"), "in rounds far apart")
}
