package sheet

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
	"seamrail/motion/cue"
	"seamrail/motion/plan/sample"
)

// A thin lens of 50 mm that is sharp at 380 mm magnifies by 50/330 (f/(u - f),
// Hecht, Optics). At 120 frames a second, 1/250 s is 120/250 of a frame: 172.8
// degrees.
func TestSettings(t *testing.T) {
	p := lantern(t)
	assert.Equal(t, "1 : 6.6", p.value(t, "image : object"))
	assert.Equal(t, "1/250 s (173 deg)", p.value(t, "shutter"))
	assert.Equal(t, "120", p.value(t, "frames/s"))
	assert.Equal(t, "36 mm x 20.25 mm", p.value(t, "sensor used"))
	assert.Equal(t, "5600 K", p.value(t, "white balance"), "the lamps' colour")
	assert.Equal(t, "towards the table", p.value(t, "rail carries it"))
	assert.Equal(t, "40 mm", p.value(t, "with rail at"))
	assert.Equal(t, "60 mm, product's middle", p.value(t, "over the table's top"))
	assert.Equal(t, "45 mm", p.value(t, "prism of 6, to a corner"))
	assert.Equal(t, []string{"key", "", "100 %", "", "550 mm", "50 deg left", "0 deg", "5600 K"}, p.Lamps.Rows[0])
}

// What nobody said is a blank, never a guess.
func TestUnknownIsBlank(t *testing.T) {
	assert.Empty(t, lantern(t).value(t, "aperture"))
	assert.Empty(t, lantern(t).value(t, "ISO"))
	bare := pageOf(t, lanternMoves)
	for _, name := range []string{"shutter", "ISO", "white balance", "sensor used", "pixels", "focal length", "sharp at, from lens",
		"image : object", "to the table's axis", "over the table's top", "shape and size", "height"} {
		assert.Empty(t, bare.value(t, name), name)
	}
	require.Len(t, bare.Lamps.Rows, blankLamps)
	assert.Empty(t, strings.Join(bare.Lamps.Rows[0], ""))
}

// The marks against the closed form of the 3-4-5 polynomial, 10u^3 - 15u^4 + 6u^5
// (Norton, Design of Machinery, cam chapter): each way takes 66 of the 144
// frames.
func TestMarks(t *testing.T) {
	m := lantern(t).Marks
	assert.Equal(t, []string{"frame", "real s", "rail, mm", "table, deg"}, m.Heads)
	require.Len(t, m.Rows, 13)
	for k, row := range m.Rows {
		frame := float64(12 * k)
		name := fmt.Sprint(12 * k)
		if k == 12 {
			name = "seam"
		}
		assert.Equal(t, name, row[0])
		assert.Equal(t, fmt.Sprintf("%.3f", frame/120), row[1])
		u := min(frame/66, 1)
		if frame > 78 {
			u = (144 - frame) / 66
		}
		assert.InDelta(t, 40+60*u*u*u*(10-15*u+6*u*u), amountOf(t, row[2]), 0.0051, name)
		assert.InDelta(t, 60*frame/144, amountOf(t, row[3]), 0.0051, name)
	}
}

// The peak speed of the 3-4-5 polynomial is 1.875 times the mean (the same
// chapter): 60 mm in 66 frames of 1/120 s.
func TestMoves(t *testing.T) {
	m := lantern(t).Moves
	assert.Equal(t, [][]string{
		{"rail", "40.00 mm", "100.00 mm", "0.550 s", "0.000 s", "eased, up to 205 mm/s"},
		{"rail", "100.00 mm", "100.00 mm", "0.100 s", "0.550 s", "rests"},
		{"rail", "100.00 mm", "40.00 mm", "0.550 s", "0.650 s", "eased, up to 205 mm/s"},
	}, m.Rows[:3])
	assert.Equal(t, "205", fmt.Sprintf("%.0f", 1.875*60/0.55))
	require.Len(t, m.Rows, 6)
	up, even, out := m.Rows[3], m.Rows[4], m.Rows[5]
	assert.Equal(t, []string{"table", "0.00 deg", "60.00 deg", "1.200 s", "0.000 s", "even, 50 deg/s"}, even)
	// From rest to 50 deg/s along a curve that is symmetrical about its middle, an
	// axis goes half as far as at 50 deg/s.
	assert.InDelta(t, -25*amountOf(t, up[3]), amountOf(t, up[1]), 0.05)
	assert.Equal(t, up[3]+" before", up[4])
	assert.Equal(t, "180.00 deg", out[1], "after three rounds of a sixth of a turn")
	assert.Equal(t, "after the last round", out[4])
	assert.Contains(t, m.Notes, "table goes on by 60.00 deg each round.")
}

// A loop that is cut comes back unseen: what it shows and the way back make a
// round, and the table, which turns on meanwhile, begins the next one a round
// further.
func TestTheWayBackOfACut(t *testing.T) {
	tr, s := made(t, strings.Replace(lanternMoves, `move = "there-and-back"
from = "40 mm"
to = "100 mm"
law = "3-4-5"
dwell-far = "12 frames"
`, `move = "through"
from = "40 mm"
to = "100 mm"
`, 1))
	require.Positive(t, tr.Plan().Back)
	p := Of(tr.Plan(), s, cue.Sheet{})
	ends := [][2]string{{"100.00 mm", "40.00 mm"}, {"60.00 deg", fmt.Sprintf("%.2f deg", tr.Advance(1).Float())}}
	for i, end := range ends {
		rows := back(tr, i)
		assert.Equal(t, end, [2]string{rows[0][1], rows[len(rows)-1][2]})
		assert.Equal(t, "1.200 s", rows[0][4])
		sum := 0.0
		for _, r := range rows {
			sum += amountOf(t, r[3])
			assert.Contains(t, p.Moves.Rows, r)
			assert.Regexp(t, "^eased, .*, not seen$", r[5])
		}
		assert.InDelta(t, float64(tr.Plan().Back)/120, sum, 0.0005*float64(len(rows)))
	}
	assert.Empty(t, back(first(made(t, lanternMoves)), 0))
	assert.Equal(t, []string{"seam", "1.200", "100.00", "60.00"}, p.Marks.Rows[12])
	assert.Contains(t, p.Facts[0], "on the way back")
}

// A display stand that turns once in 7.2 s goes 100 degrees in 2 s, clockwise.
func TestStands(t *testing.T) {
	tr := sample.Display(t, 48, exact.New(36, 5), 6)
	m := marks(tr, 4)
	assert.Equal(t, "display, deg", m.Heads[len(m.Heads)-1])
	assert.InDelta(t, -100, amountOf(t, m.Rows[12][len(m.Heads)-1]), 0.0051, "48 frames at 24 are 2 s")
	require.Len(t, stands(tr.Plan()), 1)
	assert.Contains(t, stands(tr.Plan())[0], "a turn in 7.200 s, clockwise")
}

// The curves drawn are the marks listed.
func TestPositionsAreTheMarks(t *testing.T) {
	p := lantern(t)
	for c, curve := range p.Positions.Curves {
		require.Len(t, curve.Values, samples+1)
		for k, row := range p.Marks.Rows {
			at := float64(k) / 12 * samples
			require.Equal(t, at, math.Trunc(at))
			assert.InDelta(t, amountOf(t, row[2+c]), curve.Values[int(at)], 0.0051)
		}
	}
}

// Ways follow on each other and fill the round, whatever the keys.
func TestWaysFillTheRound(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		text := strings.Replace(lanternMoves, `move = "there-and-back"
from = "40 mm"
to = "100 mm"
law = "3-4-5"
dwell-far = "12 frames"
`, "move = \"keys\"\n"+keys(rt), 1)
		tr, _ := made(t, text)
		all := ways(tr, 0, 0, 1.2)
		at, end := 0.0, 1.2
		for k, w := range all {
			assert.InDelta(rt, at, w.From, 1e-9)
			if k > 0 {
				assert.InDelta(rt, all[k-1].to, w.from, 1e-6)
				assert.NotEqual(rt, all[k-1].Dir, w.Dir)
			}
			if w.Dir != 0 {
				assert.Equal(rt, float64(w.Dir), math.Copysign(1, w.to-w.from))
			}
			at = w.To
		}
		assert.InDelta(rt, end, at, 1e-9)
	})
}

func keys(rt *rapid.T) string {
	out := "keys = ["
	for k := range rapid.IntRange(2, 5).Draw(rt, "keys") {
		out += fmt.Sprintf(`{ at = "%d frames", pos = "%d mm" },`, 24*k, 40+rapid.IntRange(0, 60).Draw(rt, "place"))
	}
	return out + "]\n"
}

// A loop is marked in as many parts as fit and not in far fewer.
func TestMarkStep(t *testing.T) {
	assert.EqualValues(t, 12, markStep(144))
	assert.EqualValues(t, 1, markStep(12))
	assert.EqualValues(t, 10, markStep(100))
	rapid.Check(t, func(rt *rapid.T) {
		loop := rapid.Int64Range(1, 10_000_000).Draw(rt, "loop")
		step := markStep(loop)
		parts := (loop + step - 1) / step
		assert.LessOrEqual(rt, parts, int64(maxMarks))
		assert.GreaterOrEqual(rt, 3*parts, min(loop, maxMarks), "step %d", step)
	})
}

// What a hand does is told as package cue words it.
func TestCues(t *testing.T) {
	p := lantern(t)
	require.Len(t, p.Cues.Rows, 2)
	assert.Equal(t, "pebble <small>", p.Cues.Rows[0][0])
	assert.Contains(t, p.Cues.Rows[0][2], "frame 72 of 144, turnaround of rail")
	// It falls 300 mm in sqrt(2*300/9806.65) = 0.24735 s, to land at 0.6 s.
	assert.Contains(t, p.Cues.Notes[0], "0.247 s")
	assert.Equal(t, "round 2", p.Cues.Rows[1][5])
	assert.Empty(t, pageOf(t, lanternMoves).Cues.Rows)
}

func TestFacts(t *testing.T) {
	p := lantern(t)
	assert.Equal(t, "Loop: 144 frames on screen, 6.000 s at 24 frames/s. The camera takes 144 frames at 120 frames/s: 1.200 s of real time.", p.Facts[0])
	assert.Contains(t, p.Facts[1], "Keep round 2")
	tr, s := made(t, strings.Replace(lanternMoves, "rounds = 3", "rounds = 1", 1))
	assert.Contains(t, Of(tr.Plan(), s, cue.Sheet{}).Facts[1], "Take: 1 round,")
}

func first[A, B any](a A, _ B) A { return a }
