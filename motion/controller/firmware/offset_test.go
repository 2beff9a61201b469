package firmware_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"seamrail/motion/controller/firmware"
	"seamrail/motion/spec/rig"
)

// An axis that has gone round and round before the take is counted from afar, and
// numbers of 24 bits are the coarser the farther. Up to where its steps are told
// well apart a take is off by no more than a step, and as long.
func TestTakesFromAfar(t *testing.T) {
	far, played := 0.0, 0
	for _, row := range rows(t, takes+"takes.tsv")[1:] {
		name := takes + strings.Fields(row)[0]
		lines := rows(t, name+".ngc")
		near := settings(t, name+".settings")
		per := near.Axes[1].StepsPerUnit
		own := play(t, near, lines, 0)
		took := own.lasts()
		last := own.at(took)[1]
		if last == 0 {
			continue // no table turns
		}
		c := rig.Controller{SinglePrecision: true}
		most := c.Countable(per)
		for _, share := range []float64{0.2, 0.4, 0.7, 1} {
			b := settings(t, name+".settings")
			b.Axes[1].Offset = math.Floor((most*share-math.Abs(float64(last))/per)/360) * 360
			if b.Axes[1].Offset <= 0 {
				continue
			}
			played++
			from := firmware.Counts{1: b.StepsAt(1, 0)}
			got := playFrom(t, b, lines, 0, from)
			assert.InDelta(t, took, got.lasts(), apart, "%s from %g", name, b.Axes[1].Offset)
			for k := range 1000 {
				sec := took * float64(k) / 1000
				want, at := own.at(sec), got.at(sec)
				assert.InDelta(t, want[0], at[0], stepsApart)
				assert.InDelta(t, want[1], at[1]-from[1], stepsApart, "%s from %g at %g s", name, b.Axes[1].Offset, sec)
				far = max(far, math.Abs(float64(want[1]-(at[1]-from[1]))))
			}
		}
	}
	assert.Greater(t, played, 20, "six takes turn a table")
	t.Logf("%g steps off at the most", far)
}
