package plan_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
	"seamrail/motion/plan"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/shot"
	"seamrail/motion/verify"
)

// display is a stand of 25 s a turn under a product of four faces: 86.4 degrees
// in 6 s, 3.6 short of a face. In 6.25 s it would be a quarter turn exactly.
const display = `
[clock]
playback = "24"
loop = "6 s"
[rig.axis.rail]
letter = "X"
travel = ["0 mm", "400 mm"]
speed = "400 mm/s"
acceleration = "3000 mm/s2"
steps = "80 per mm"
[rig.stand.display]
direction = "clockwise"
[rig.stand.display.speed.slow]
period = "25 s"
uncertainty = "0.1 s"
[axis.rail]
from = "40 mm"
to = "100 mm"
cycles = 2
[spin.display]
symmetry = 4
radius = "45 mm"
`

func planned(t testing.TB, text string) (*plan.Plan, error) {
	t.Helper()
	s, err := shot.Decode("display.toml", []byte(text), nil)
	require.NoError(t, err)
	return plan.Build(s, *s.Rig)
}

func TestAStandIsPlannedBesideTheAxes(t *testing.T) {
	p, err := planned(t, display)
	require.NoError(t, err)
	require.Len(t, p.Axes, 1, "no axis of the rig")
	require.Len(t, p.Stands, 1)
	s := p.Stands[0]
	assert.True(t, s.Rate.Equal(exact.New(-360, 25)), "clockwise is below 0")
	assert.True(t, s.Angle(exact.Int(6)).Equal(exact.New(-864, 10)))
	assert.True(t, s.Seam.Degrees().Equal(exact.New(-36, 10)))
	assert.EqualValues(t, 1, s.Seam.Match)
	assert.False(t, s.Seam.Closes())
	assert.False(t, s.Refuses(), "no bound is stated")
	assert.Empty(t, p.Breaches(), "a stand has no limits")
	assert.EqualValues(t, 2, p.SpinQuery().Cycles)
	assert.True(t, p.SpinQuery().From.Equal(exact.Int(3)) && p.SpinQuery().To.Equal(exact.Int(12)))
}

func TestAStatedBoundRefuses(t *testing.T) {
	steady := strings.Replace(display, `uncertainty = "0.1 s"`, `uncertainty = "0 s"`, 1)
	drifting := func(text, drift string) string {
		return strings.Replace(text, "[rig.stand.display]\n", "[rig.stand.display]\ndrift = \""+drift+"\"\n", 1)
	}
	// 3.6 degrees at 45 mm are an arc of 2.827 mm, and a chord hardly less. Two
	// uncertainties of 0.4 % of 86.4 degrees are 0.691, 1 % of drift 0.864.
	for _, c := range []struct {
		text, within string
		refuses      bool
	}{
		{drifting(steady, "0 %"), "3.5 deg", true}, {drifting(steady, "0 %"), "3.7 deg", false},
		{drifting(steady, "0 %"), "2.8 mm", true}, {drifting(steady, "0 %"), "2.9 mm", false},
		{drifting(display, "0 %"), "4.29 deg", true}, {drifting(display, "0 %"), "4.3 deg", false},
		{drifting(display, "1 %"), "5.15 deg", true}, {drifting(display, "1 %"), "5.16 deg", false},
		{steady, "3.7 deg", true}, // nothing is known of its drift
	} {
		p, err := planned(t, c.text+`within = "`+c.within+"\"\n")
		require.NoError(t, err)
		assert.Equal(t, c.refuses, p.Stands[0].Refuses(), "%s %v", c.within, p.Stands[0].Rig.Regulation)
		assert.Equal(t, c.refuses, !verify.Check(trajectory.New(p)).OK, c.within)
	}
}

// 6.25 s are 150 frames at 24, 12.5 s are 300.
func TestNearestLoopsThatClose(t *testing.T) {
	p, err := planned(t, strings.Replace(display, `loop = "6 s"`, "loop = \"160 frames\"\nbetween = [\"1 s\", \"13 s\"]", 1)+"within = \"0.1 deg\"\n")
	require.NoError(t, err)
	near := p.Nearest()
	require.Len(t, near, 2)
	assert.EqualValues(t, 150, near[0].Screen)
	assert.EqualValues(t, 300, near[1].Screen)
}

// Nearest is what a walk over every loop finds.
func TestNearestAgainstEveryLoop(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		frames := rapid.Int64Range(24, 400).Draw(r, "frames")
		text := strings.Replace(display, `loop = "6 s"`, `loop = "`+exact.Int(frames).String()+" frames\"\n", 1)
		text = strings.Replace(text, `"25 s"`, `"`+exact.New(rapid.Int64Range(1000, 9000).Draw(r, "period"), 100).Decimal(2)+` s"`, 1)
		p, err := planned(t, text+"within = \"1 deg\"\n")
		require.NoError(r, err)
		var below, above int64
		for n := int64(1); n <= 2*frames; n++ {
			l, err := p.Loop.Clock.LoopFrames(n)
			require.NoError(r, err)
			if 2*n < frames || n == frames || !p.ClosesAt(l) {
				continue
			}
			if n < frames {
				below = n
			} else if above == 0 {
				above = n
			}
		}
		var want, got []int64
		for _, n := range []int64{below, above} {
			if n > 0 {
				want = append(want, n)
			}
		}
		for _, l := range p.Nearest() {
			got = append(got, l.Screen)
		}
		assert.Equal(r, want, got)
	})
}

func TestStandsThatCannotBePlanned(t *testing.T) {
	second := "[rig.stand.display.speed.fast]\nperiod = \"9 s\"\nuncertainty = \"0 s\"\n[axis.rail]"
	for _, c := range []struct{ old, new, want string }{
		{"[spin.display]", "[spin.plinth]", `display.toml:20:7: spin.plinth is no stand of the rig "unnamed rig"; it has display`},
		{"symmetry = 4", "speed = \"fast\"", `display.toml:20:7: spin.display.speed "fast" is not a speed of the stand; it has slow`},
		{"[axis.rail]", second, `display.toml:23:7: spin.display.speed is missing, and the stand has more than one; it has slow, fast`},
		{"symmetry = 4", "start = \"10 deg\"", `display.toml:20:7: spin.display.start 10 deg cannot be kept: the stand cannot be started in phase; leave it out`},
	} {
		require.Contains(t, display, c.old)
		_, err := planned(t, strings.Replace(display, c.old, c.new, 1))
		require.ErrorContains(t, err, c.want)
	}
	cut := strings.Replace(display, display[strings.Index(display, "[rig.stand.display]"):strings.Index(display, "[axis.rail]")], "", 1)
	_, err := planned(t, cut)
	assert.ErrorContains(t, err, "the rig has none; give it one, such as [stand.display]")
}

func TestTheHashKnowsTheStand(t *testing.T) {
	one, err := planned(t, display)
	require.NoError(t, err)
	two, err := planned(t, strings.Replace(display, `"25 s"`, `"26 s"`, 1))
	require.NoError(t, err)
	none, err := planned(t, strings.Split(display, "[spin")[0])
	require.NoError(t, err)
	assert.NotEqual(t, one.Hash(), two.Hash())
	assert.NotEqual(t, one.Hash(), none.Hash())
}

// BenchmarkNearest looks at ten thousand loops, none of which closes.
func BenchmarkNearest(b *testing.B) {
	text := strings.Replace(display, `loop = "6 s"`, "loop = \"10000 frames\"\nbetween = [\"1 s\", \"1000 s\"]", 1)
	text = strings.Replace(text, `"25 s"`, `"25.000001 s"`, 1)
	p, err := planned(b, text+"within = \"0.0000001 deg\"\n")
	require.NoError(b, err)
	for b.Loop() {
		require.Empty(b, p.Nearest())
	}
}
