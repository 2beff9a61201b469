package spent_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"seamrail/motion/plan/sample/spent"
)

// Work counts, and waiting does not.
func TestBy(t *testing.T) {
	sum := 0.0
	works := spent.By(func() {
		for began := time.Now(); time.Since(began) < 20*time.Millisecond; {
			sum++
		}
	})
	assert.Positive(t, works)
	assert.Less(t, spent.By(func() { <-time.After(200 * time.Millisecond) }), 150*time.Millisecond)
}
