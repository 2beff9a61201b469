package virtual_test

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pgregory.net/rapid"

	"seamrail/motion/spec/rig"
)

// speeds returns the greatest jump of speed between two spans that follow each
// other, in mm/s, from a moment on, and the last end of motion.
func jump(h *host, from float64) (worst float64) {
	d := h.rig.Record()
	before := math.NaN()
	for i := range d.Len() {
		s := d.Span(i)
		if s.Start < from {
			continue
		}
		v := (s.To[0] - s.From[0]) / (s.End - s.Start)
		if !math.IsNaN(before) {
			worst = math.Max(worst, math.Abs(v-before))
		}
		before = v
	}
	return worst
}

// Held, the carriage slows at its acceleration and keeps its place; resumed, it
// ends where it would have ended, later.
func TestHoldAndResume(t *testing.T) {
	h := newHost(t, bench())
	h.say("G94\nG1 X100 F6000\n", 600*time.Millisecond)
	at := h.rig.Place()[0]
	assert.Equal(t, "<Hold:1|", h.say("!?", 0)[0][:8])
	h.rig.Advance(time.Second)
	held := h.rig.Place()[0]
	// Up to five slices of 10 ms were cut already; then v²/2a of 100 mm/s.
	assert.Greater(t, held-at, 100*100/1000.)
	assert.Less(t, held-at, 100*100/1000.+100*0.06)
	assert.Equal(t, "<Hold:0|", h.say("?", time.Second)[0][:8])
	assert.Equal(t, held, h.rig.Place()[0], "it stands")
	h.say("~", 0)
	h.finish()
	assert.Equal(t, []float64{100}, h.rig.Place())
	assert.Less(t, jump(h, 0), 500*0.02+100./8, "no more than acceleration over two slices, and a step's rounding")
}

// Whenever the hold comes, and however many blocks it spans, no step is lost.
func TestHoldAnywhere(t *testing.T) {
	m := measured{blocks: 16, accel: 500, feeds: "per-minute", segments: 200, amplitude: 100, period: 4, steps: 80, dropped: -1}
	lines := m.lines()
	rapid.Check(t, func(rt *rapid.T) {
		hold := time.Duration(rapid.Int64Range(0, 4200).Draw(rt, "hold")) * time.Millisecond
		rest := time.Duration(rapid.Int64Range(0, 1500).Draw(rt, "rest")) * time.Millisecond
		h := newHost(t, bench())
		h.react = hostReaction
		sent := false
		for todo := lines; len(todo) > 0 || len(h.pending) > 0; {
			todo = h.send(todo)
			if !sent && h.rig.Now() >= hold {
				sent = true
				h.say("!", rest)
				h.say("~", 0)
				h.say("", 2*time.Second)
				h.say("~", 0)
			}
			if len(h.pending) > 0 {
				h.listen()
			}
		}
		h.finish()
		if h.rig.Place()[0] != 0 {
			rt.Fatalf("it ends at %v", h.rig.Place())
		}
	})
}

// Aborted in motion it stops at once, is in alarm, and moves no more until
// unlocked; the machine is not where the board thinks.
func TestAbortInMotion(t *testing.T) {
	o := bench()
	o.Greeting = "Hello bench"
	h := newHost(t, o)
	h.say("G94\nG1 X100 F6000\n", 600*time.Millisecond)
	assert.Equal(t, []string{"ALARM:3", "Hello bench", "[MSG:locked]"}, h.say("\x18", 0))
	place := h.rig.Place()[0]
	assert.Equal(t, []string{"error:9", "error:9"}, h.stream("G94", "G1 X0 F6000"))
	h.finish()
	assert.Equal(t, place, h.rig.Place()[0])
	assert.Contains(t, h.say("?", 0)[0], "<Alarm|")
	d := h.rig.Record()
	believed := d.At(h.rig.Now().Seconds())[0]
	assert.InDelta(t, 0.5*100*100/1000., place-believed, 0.2, "it slipped half its stopping way")

	h.stream("$X")
	assert.Empty(t, h.stream("G94 G1 X0 F6000"))
	h.finish()
	assert.InDelta(t, place-believed, h.rig.Place()[0], 1e-9)
}

func TestAbortAtRestIsNoAlarm(t *testing.T) {
	o := bench()
	o.Greeting = "Hello bench"
	h := newHost(t, o)
	assert.Equal(t, []string{"Hello bench"}, h.say("\x18", 0))
	assert.Empty(t, h.stream("G94 G1 X1 F600"))
}

// switched returns the bench board with limit switches.
func switched(t *testing.T) *host {
	o := bench()
	o.Axes[0].Switches, o.Axes[0].Low, o.Axes[0].High = true, -2, 302
	o.Axes[0].Place, o.Set[rig.SoftLimits] = 120, 1
	return newHost(t, o)
}

func TestHoming(t *testing.T) {
	h := switched(t)
	assert.Empty(t, h.stream("$H"))
	assert.InDelta(t, 0, h.rig.Place()[0], 1.0/80, "at Home, wherever it stood")
	assert.Contains(t, h.say("?", 0)[0], "<Idle|MPos:0.000,")
	require.Empty(t, h.stream("G94 G1 X300 F6000"))
	h.finish()
	assert.InDelta(t, 300, h.rig.Place()[0], 1.0/80)

	assert.Equal(t, []string{"ALARM:2"}, h.say("G1 X301 F600\n", time.Second))
	assert.Equal(t, []string{"error:9"}, h.stream("G1 X299 F600"))
	h.finish()
	assert.InDelta(t, 300, h.rig.Place()[0], 1.0/80)
}

// A line beyond the travel in mid-move: it slows down first, in its lane.
func TestSoftLimitSlowsDownFirst(t *testing.T) {
	h := switched(t)
	require.Empty(t, h.stream("$H"))
	from := h.rig.Now().Seconds()
	h.say("G94\nG1 X290 F6000\n", time.Second)
	h.say("X500\n", 3*time.Second)
	assert.Equal(t, "ALARM:2", h.replies[len(h.replies)-1])
	assert.Less(t, jump(h, from), 500*0.02+100./8)
	assert.InDelta(t, h.rig.Record().At(h.rig.Now().Seconds())[0], h.rig.Place()[0], 1.0/80, "the place is kept")
}

// Unhomed, it does not know of its travel, and meets the switch.
func TestLimitSwitch(t *testing.T) {
	h := switched(t)
	got := h.say("G94\nG1 X250 F6000\n", 10*time.Second)
	assert.Equal(t, []string{"ok", "ok", "ALARM:1"}, got)
	assert.InDelta(t, 302, h.rig.Place()[0], 1.0/80)
	assert.Equal(t, []string{"error:9"}, h.stream("G1 X0 F600"))
	h.stream("$X")
	assert.Empty(t, h.stream("G91 G94 G1 X-50 F6000"), "away from the switch it may go")
	h.finish()
	assert.InDelta(t, 252, h.rig.Place()[0], 1.0/80)
}

func TestHomingWithoutSwitchEndsInAlarm(t *testing.T) {
	o := bench()
	o.Axes[0].Switches, o.Axes[0].Low, o.Axes[0].High, o.Axes[0].Place = true, -2, 302, 1000
	h := newHost(t, o)
	_, err := h.rig.Write([]byte("$H\n"))
	require.NoError(t, err)
	h.finish()
	assert.Equal(t, []string{"ALARM:9"}, h.replies)
}
