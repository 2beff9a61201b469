package measuring_test

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/measuring"
	"seamrail/motion/spec/rig"
	"seamrail/motion/vibration/sweep"
)

// swinging is a rig's file with how its rail swings.
func swinging(t *testing.T, file, how string) string {
	t.Helper()
	return changed(t, file, `# shake      = { frequency = "6 Hz", damping = "3 %" }`, "shake = { "+how+" }")
}

var narrow = []string{"how=sweep", "check=mark", "low=4 Hz", "high=9 Hz", "damping=3 %"}

// On every kind of controller a sweep finds the swing of the machine, and the foot was
// pushed as the model of the board has it: the rig of software knows nothing of that.
func TestASweepFindsTheSwing(t *testing.T) {
	for _, kind := range rig.DrivenKinds() {
		file := bench(t, kind)
		w := walked(t, file).on(swinging(t, file, `frequency = "5.4 Hz", damping = "2.5 %"`))
		f, err := w.run("rail", "swing", narrow...)
		require.NoError(t, err, kind)
		require.Len(t, f.Lines, 3, "%s: %s", kind, &w.out)
		assert.InDelta(t, 5.4, f.Value.Value, f.Value.Bound(), kind)
		assert.InDelta(t, 0.025, w.rig().Axes[0].Shake.Spring.Damping, 1e-3)
		assert.InDelta(t, 1, f.Swept.Gain, 0.05, kind)
	}
}

// A board that waits for each answer is too slow for high frequencies, and is not sent them.
func TestWhatABoardCannotMakeIsLeftOut(t *testing.T) {
	file := changed(t, bench(t, rig.Lockstep), `baud               = 115200`, `baud               = 9600`, `backlash     = "0.05 mm"`, `backlash     = "0 mm"`)
	w := walked(t, file).on(swinging(t, file, `frequency = "5.4 Hz", damping = "2.5 %"`))
	f, err := w.run("rail", "swing", "how=sweep", "check=mark", "low=4 Hz", "high=30 Hz", "damping=10 %", "most=3000 mm/s2")
	require.NoError(t, err)
	assert.Contains(t, strings.Join(strings.Fields(w.out.String()), " "), "to 30 Hz: by its model the board would not make it")
	require.NotNil(t, f.Swept)
	last := f.Swept.Points[len(f.Swept.Points)-1].Frequency
	assert.Greater(t, last, 8.)
	assert.Less(t, last, 29.)
}

// A turntable is shaken in degrees, whatever its phone then counts.
func TestATableIsSweptInDegrees(t *testing.T) {
	file := bench(t, rig.StepPlayer)
	file = changed(t, file, "[axis.table]", "[axis.table]\nshake = { frequency = \"6.2 Hz\", damping = \"3 %\" }")
	w := walked(t, file).on("")
	f, err := w.run("table", "swing", narrow...)
	require.NoError(t, err)
	require.NotEmpty(t, f.Swept.Modes.Modes, "%s", &w.out)
	assert.InDelta(t, 6.2, f.Value.Value, f.Value.Bound()+1e-3)
	assert.Contains(t, strings.Join(strings.Fields(w.out.String()), " "), "to each deg/s2, by how far from the middle")
	assert.Contains(t, w.out.String(), "into the braces of shake", "one line has no place for another key")
	assert.InDelta(t, 6.2, w.rig().Axes[1].Shake.Spring.Frequency, 0.01)
}

// A swing that is damped far less than was expected has not built up: nothing is written.
func TestALightSwingIsSweptAgain(t *testing.T) {
	file := bench(t, rig.StepPlayer)
	w := walked(t, file).on(swinging(t, file, `frequency = "5.4 Hz", damping = "1 %"`))
	f, err := w.run("rail", "swing", narrow...)
	require.NoError(t, err)
	require.Len(t, f.Doubts, 1)
	assert.Contains(t, f.Doubts[0], "sweep again with damping = 1")
	assert.Empty(t, f.Lines)
}

// None in the band is said, and a rise at its end.
func TestNoneIsFoundWhereNoneIs(t *testing.T) {
	file := bench(t, rig.StepPlayer)
	w := walked(t, file).on(swinging(t, file, `frequency = "9.5 Hz", damping = "3 %"`))
	f, err := w.run("rail", "swing", narrow...)
	require.NoError(t, err)
	assert.Empty(t, f.Doubts)
	assert.Empty(t, f.Lines)
	assert.Contains(t, w.out.String(), "none stands out from 4 to")
	assert.Contains(t, w.out.String(), "the end of the band")
}

// Steps that were lost end it: nothing is made of the record.
func TestLostStepsEndASweep(t *testing.T) {
	file := bench(t, rig.StepPlayer)
	w := walked(t, file).on(swinging(t, file, `frequency = "5.4 Hz", damping = "2.5 %"`))
	f, err := w.run("rail", "swing", append([]string{"on-mark=0.4 mm"}, narrow...)...)
	require.NoError(t, err)
	require.NotEmpty(t, f.Doubts, "%s", &w.out)
	assert.Contains(t, f.Doubts[0], "steps were lost in the sweep")
	assert.Nil(t, f.Swept)
}

// What rings down after the sweep is a second reading, and where it is another swing
// nothing is written.
func TestASecondReadingThatDiffers(t *testing.T) {
	file := bench(t, rig.StepPlayer)
	dir := t.TempDir()
	log := filepath.Join(dir, "s.csv")
	w := walked(t, file).on(swinging(t, file, `frequency = "5.4 Hz", damping = "2.5 %"`))
	w.log = log
	_, err := w.run("rail", "swing", narrow...)
	require.NoError(t, err)
	text, err := os.ReadFile(log)
	require.NoError(t, err)
	l, err := sweep.Parse(string(text))
	require.NoError(t, err)
	record, err := os.ReadFile(filepath.Join(dir, "s-record.csv"))
	require.NoError(t, err)
	for hertz, doubts := range map[float64]int{5.43: 0, 7.5: 1} {
		made := strings.Builder{}
		for line := range strings.Lines(string(record)) {
			var at, v float64
			if n, _ := fmt.Sscanf(line, "%g,%g", &at, &v); n == 2 {
				for _, m := range l.Marks[4:] {
					if since := at - m.From; since > 0 {
						v = 900 * math.Exp(-0.03*2*math.Pi*hertz*since) * math.Cos(2*math.Pi*hertz*since)
					}
				}
				line = fmt.Sprintf("%.4f,%g\n", at, v)
			}
			made.WriteString(line)
		}
		other := filepath.Join(dir, "other.csv")
		require.NoError(t, os.WriteFile(other, []byte(made.String()), 0o600))
		w := walked(t, file)
		w.log, w.record = log, other
		f, err := w.run("rail", "swing")
		require.NoError(t, err)
		require.Len(t, f.Doubts, doubts, "%s", &w.out)
		if doubts > 0 {
			assert.Contains(t, f.Doubts[0], "rang down after the sweep, 7.5")
			assert.Empty(t, f.Lines)
		}
	}
}

// Stopped on the way it ends, and what was swept until then can be read.
func TestAStoppedSweepIsKept(t *testing.T) {
	file := bench(t, rig.Buffered)
	w := walked(t, file).on(swinging(t, file, `frequency = "5.4 Hz", damping = "2.5 %"`))
	log := filepath.Join(t.TempDir(), "s.csv")
	var stop func()
	out := writer(func(text string) {
		if strings.Contains(text, "11 of") {
			stop()
		}
	})
	ask, err := measuring.NewAsker(out, strings.NewReader(""), narrow, false)
	require.NoError(t, err)
	k := &measuring.Walk{File: w.file, Ask: ask, Port: w.port, Sweep: log}
	_, err = k.Run("rail", "swing", func(s func()) func() { stop = s; return func() {} })
	require.Error(t, err)
	assert.NotEqual(t, exit.Usage, exit.Code(err))
	text, err := os.ReadFile(log)
	require.NoError(t, err)
	l, err := sweep.Parse(string(text))
	require.NoError(t, err)
	assert.Len(t, l.Bursts, 11)
}

type writer func(string)

func (w writer) Write(b []byte) (int, error) { w(string(b)); return len(b), nil }
