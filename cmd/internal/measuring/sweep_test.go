package measuring_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/spec/rig"
)

// On every kind of controller a sweep finds the swing of the machine.
func TestASweepFindsTheSwing(t *testing.T) {
	for _, kind := range rig.DrivenKinds() {
		file := bench(t, kind)
		truth := changed(t, file, `# shake      = { frequency = "6 Hz", damping = "3 %" }`, `shake = { frequency = "5.4 Hz", damping = "2.5 %" }`)
		w := walked(t, file).on(truth)
		f, err := w.run("rail", "swing", "how=sweep", "check=mark", "low=4 Hz", "high=9 Hz", "damping=3 %")
		t.Log(w.out.String())
		require.NoError(t, err, kind)
		require.Len(t, f.Lines, 3, "%s", kind)
		assert.InDelta(t, 5.4, f.Value.Value, max(f.Value.Bound(), 1e-3), kind)
		assert.InDelta(t, 0.025, w.rig().Axes[0].Shake.Spring.Damping, 1e-3)
	}
}
