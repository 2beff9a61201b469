package against

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"seamrail/motion/plan/sample/many"
)

// Frames that are smeared by motion lie four times less surely on the first, and say so: that is no
// blow, and nearly always as good a plan.
func TestPosesThatAreRougherInMotion(t *testing.T) {
	n, is := many.Times(4, 60), 0
	for seed := range uint64(n) {
		p, k := fern()
		k.seed, k.noise, k.smear = seed, 0.03, 4
		r := laidOut(t, p, k)
		assert.NotEqual(t, Differs, r.Verdict.Kind, show(r))
		assert.InDelta(t, k.zero, r.Frame0.Value, 0.02)
		is += int(step(r.Verdict.Kind == IsPlan))
	}
	assert.GreaterOrEqual(t, is, n*9/10)
}
