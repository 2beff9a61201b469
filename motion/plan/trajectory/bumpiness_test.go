package trajectory

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"seamrail/motion/law"
)

// The reason given for bumpiness: half-way through any law, where a search
// without a forerunner begins, j/6v is below a tenth of it.
func TestBumpinessCoversTheLaws(t *testing.T) {
	for _, l := range law.All() {
		p := l.At(0.5)
		assert.Less(t, math.Abs(p.J)/(6*p.V), bumpiness/10.0, l.Name())
	}
}
