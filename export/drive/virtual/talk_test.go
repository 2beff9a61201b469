package virtual_test

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/drive/virtual"
)

// say writes text as it is and returns what is heard by and by.
func (h *host) say(text string, by time.Duration) []string {
	h.t.Helper()
	before := len(h.replies)
	_, err := h.rig.Write([]byte(text))
	require.NoError(h.t, err)
	h.rig.Advance(by)
	h.take()
	return h.replies[before:]
}

func TestAnswers(t *testing.T) {
	for _, c := range []struct{ line, want string }{
		{"", "ok"},
		{"(only a comment)", "ok"},
		{"; another", "ok"},
		{"g21 g90 (words may be small)", "ok"},
		{"N10 G1 X10 F600", "ok"},
		{"G1 X 1 0 F6 00", "ok"},
		{"G4 P0.01", "ok"},
		{"G92 X0", "ok"},
		{"G92.1", "ok"},
		{"M2", "ok"},
		{"S1000 T1 M5", "ok"},
		{"17", "error:1"},
		{"*G1", "error:1"},
		{"G", "error:2"},
		{"G1 X", "error:2"},
		{"G1 X1.2.3 F60", "error:2"},
		{"G1 X1e3 F60", "error:20"},
		{"G1 F-60 X1", "error:2"},
		{"G20", "error:20"},
		{"G1.5", "error:20"},
		{"G1 B3 F100", "error:20"},
		{"M99", "error:20"},
		{"G90 G91", "error:21"},
		{"G0 G1 X3 F60", "error:21"},
		{"G4 P1 X3", "error:21"},
		{"G1 X1", "error:22"},
		{"G1 X1 F0", "error:22"},
		{"G93 G1 X1", "error:22"},
		{"G1 X1 X2 F60", "error:25"},
		{"G4", "error:28"},
		{"G1 X1 F60" + strings.Repeat(" ", 80), "error:11"},
	} {
		h := newHost(t, bench())
		assert.Equal(t, []string{c.want}, h.say(c.line+"\n", time.Second), c.line)
	}
}

// A feed of G93 holds for its own line; going from one style to the other
// forgets it.
func TestFeedsAreForgotten(t *testing.T) {
	h := newHost(t, bench())
	assert.Equal(t, []string{"error:22"}, h.stream("G93 G1 X1 F60", "X2"))
	assert.Equal(t, []string{"error:22"}, h.stream("G94", "G1 X3"))
	assert.Empty(t, h.stream("X3 F60", "X4"))
}

func TestPlacesAndOffsets(t *testing.T) {
	h := newHost(t, bench())
	require.Empty(t, h.stream("G94 G1 X10 F6000", "G91 X5", "X-2.5", "G90", "G92 X100", "X110", "G92.1", "X22"))
	h.finish()
	assert.Equal(t, []float64{22}, h.rig.Place())
	// 10, 15, 12.5; there it is called 100, so 110 is 22.5; then plainly 22.
	var ends []float64
	for i := range h.rig.Record().Len() {
		ends = append(ends, h.rig.Record().Span(i).To[0])
	}
	assert.Contains(t, ends, 15.0)
	assert.Contains(t, ends, 22.5)
}

// An ok comes when a line has been read and planned, not when it has run; one
// for a dwell when it is over.
func TestWhenItAnswers(t *testing.T) {
	h := newHost(t, bench())
	assert.Equal(t, []string{"ok", "ok"}, h.say("G94\nG1 X100 F600\n", 0))
	h.rig.Advance(time.Millisecond)
	assert.Empty(t, h.say("G4 P0.5\n", 10*time.Second))
	assert.Equal(t, []string{"ok"}, h.say("", time.Second))
	at := h.rig.Record().Span(h.rig.Record().Len() - 1).End
	assert.InDelta(t, 10+600./60/500, at, 0.01)
}

func TestEmptyBlocksAreDropped(t *testing.T) {
	h := newHost(t, bench())
	require.Empty(t, h.stream("G94 G1 X0.004 F60", "X0.006", "X0.007"))
	h.finish()
	assert.EqualValues(t, 2, h.rig.Stats().Dropped)
	assert.EqualValues(t, 1, h.rig.Stats().Blocks, "0.007 mm is more than half a step of 1/80")
	assert.Equal(t, []float64{1.0 / 80}, h.rig.Place())
}

// 127 bytes fit; the next are lost, and what is left is read as it stands.
func TestReceiveBufferOverflows(t *testing.T) {
	o := bench()
	h := newHost(t, o)
	require.Empty(t, h.stream("G94"))
	h.say("G4 P1\n", time.Millisecond)
	h.say(strings.Repeat("G1 X1.00 F60\n", 10), time.Millisecond)
	s := h.rig.Stats()
	assert.EqualValues(t, 3, s.Lost)
	assert.Equal(t, 127, s.Fill)
	h.finish()
	assert.EqualValues(t, 2+9, len(h.replies)-1+1, "the tenth has lost its end, and waits for one")
}

// A byte takes ten bits, both ways.
func TestTheWireTakesTime(t *testing.T) {
	o := bench()
	o.Baud = 9600
	h := newHost(t, o)
	_, err := h.rig.Write([]byte("G94\n"))
	require.NoError(t, err)
	sent := 4 * 10 / 9600.
	h.wait()
	assert.InDelta(t, sent+10/9600., h.rig.Now().Seconds(), 1e-8, "the o of ok")
	h.rig.Advance(lasting(3 * 10 / 9600.))
	h.take()
	assert.Equal(t, []string{"ok"}, h.replies)
	assert.InDelta(t, sent, h.rig.Stats().BusySeconds, 1e-8)
}

func lasting(seconds float64) time.Duration {
	return time.Duration(seconds*1e9 + 1)
}

func TestItBootsDeafAndGreets(t *testing.T) {
	o := bench()
	o.Greeting, o.ResetsOnOpen, o.BootSeconds, o.StartsLocked = "Hello bench", true, 1.5, true
	h := newHost(t, o)
	assert.Empty(t, h.say("G94\n", 1400*time.Millisecond))
	assert.EqualValues(t, 4, h.rig.Stats().Deaf)
	assert.Equal(t, []string{"Hello bench", "[MSG:locked]"}, h.say("", 200*time.Millisecond))
	assert.Equal(t, []string{"error:9"}, h.say("G94\n", time.Millisecond))
	assert.Equal(t, []string{"[MSG:unlocked]", "ok"}, h.say("$X\n", time.Millisecond))
	assert.Equal(t, []string{"ok"}, h.say("G94\n", time.Millisecond))
}

func TestSettings(t *testing.T) {
	o := bench()
	o.Axes[0].StepsName, o.Axes[0].SpeedName, o.Axes[0].AccelerationName = "$100", "$110", "M201 X"
	h := newHost(t, o)
	assert.Equal(t, []string{"$100=80.000", "$110=12000.000", "M201 X500.000"}, h.stream("$$"))
	assert.Equal(t, []string{"error:20", "error:2", "error:2"}, h.stream("$999=3", "$100=x", "$100=-1"))

	assert.Empty(t, h.say("$100=160\nG94\n", 10*time.Millisecond), "deaf while it writes, to what comes after")
	assert.Equal(t, []string{"ok"}, h.say("", 20*time.Millisecond)[:1])
	h.say("", time.Second)
	assert.Equal(t, "$100=160.000", h.stream("$$")[0])
}

func TestStatusReport(t *testing.T) {
	o := bench()
	o.Axes[0].Letter = 'A'
	h := newHost(t, o)
	assert.Equal(t, []string{"<Idle|MPos:0.000,0.000,0.000,0.000|Bf:15,127>"}, h.say("?", 0))
	h.say("N7 G94 G1 A10 F600\n", 500*time.Millisecond)
	at := h.rig.Place()[0]
	got := h.say("?", 0)
	require.Len(t, got, 1)
	// 4.9 after 0.5 s: 0.02 s up to speed at 500/s2 and 0.48 s at 10/s. Step 392 is
	// there, since at such a rate it comes at the fifth of the eight interrupts of
	// its event.
	assert.Contains(t, got[0], "<Run|MPos:0.000,0.000,0.000,4.900|")
	assert.Contains(t, got[0], "|Ln:7>")
	assert.InDelta(t, 4.9, at, 1e-9)
}

// A word of a board without real-time bytes is only a byte.
func TestLockstepHasNoRealTimeBytes(t *testing.T) {
	o := bench()
	o.Status, o.Hold, o.Resume, o.Abort = 0, 0, 0, 0
	h := newHost(t, o)
	h.window = 0
	assert.Empty(t, h.say("?", time.Second))
	assert.Equal(t, []string{"error:1"}, h.say("\n", time.Second))
	assert.Empty(t, h.stream("G94 G1 X1 F600", "X2", "X3"))
}

// With a slow host that waits for each ok the look-ahead runs dry, and the
// carriage stops in mid-way.
func TestUnderrunsAreCounted(t *testing.T) {
	m := measured{blocks: 16, accel: 1000, feeds: "per-minute", segments: 200, amplitude: 100, period: 4, steps: 80, dropped: -1}
	o := bench()
	o.Axes[0].Acceleration = 3000 // a block of 3 mm alone lasts 2 sqrt(3/3000) = 63 ms
	h := newHost(t, o)
	h.window, h.react = 0, 100*time.Millisecond
	require.Empty(t, h.stream(m.lines()...))
	h.finish()
	lasts, _ := m.judge(h.rig.Record())
	assert.Greater(t, lasts, 199*0.1)
	assert.Greater(t, h.rig.Stats().Underruns, int64(100))
	assert.Greater(t, h.rig.Stats().Starts, int64(100))

	h = newHost(t, bench())
	h.react = hostReaction
	require.Empty(t, h.stream(m.lines()...))
	h.finish()
	assert.Zero(t, h.rig.Stats().Underruns)
}

func TestLatchedErrors(t *testing.T) {
	o := bench()
	o.LatchErrors = true
	h := newHost(t, o)
	assert.Equal(t, []string{"error:20", "error:20", "error:20"}, h.stream("G20", "G94", "G1 X1 F60"))
	h.stream("$X")
	assert.Empty(t, h.stream("G94"))
}

func TestNewPanicsOnNoBoard(t *testing.T) {
	for _, spoil := range []func(o *virtual.Options){
		func(o *virtual.Options) { o.Axes = nil },
		func(o *virtual.Options) { o.Blocks = 2 },
		func(o *virtual.Options) { o.ReceiveBuffer = 1 },
	} {
		o := bench()
		spoil(&o)
		assert.Panics(t, func() { virtual.New(o) })
	}
}
