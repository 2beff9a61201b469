package segment

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestARoundEndsOnTheNumberItBeganWith: what the last digits of the arithmetic leave is
// none; a jump of two billionths is one, and so is whatever a take with a run-up does,
// which comes to the seam from elsewhere.
func TestARoundEndsOnTheNumberItBeganWith(t *testing.T) {
	for _, x := range []struct {
		name    string
		end     float64
		ramped  bool
		becomes float64
	}{
		{"rounding above", 40 + 9e-10, false, 40}, {"rounding below", 40 - 9e-10, false, 40},
		{"a jump", 40 + 2e-9, false, 40 + 2e-9}, {"a jump back", 40 - 2e-9, false, 40 - 2e-9},
		{"half a degree on", 40.5, false, 40.5}, {"with a run-up", 40 + 9e-10, true, 40 + 9e-10},
	} {
		k := Take{Rest: []float64{40, 0}, Round: []Block{{End: []float64{50, 3}}, {End: []float64{x.end, 7}}}}
		if x.ramped {
			k.RunUp = []Block{{End: []float64{45, 0}}}
		}
		close(k)
		assert.Equal(t, []float64{x.becomes, 7}, k.Round[1].End, x.name)
		assert.Equal(t, []float64{50, 3}, k.Round[0].End)
	}
}
