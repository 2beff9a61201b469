package command

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"seamrail/motion/law/optimal"
)

// Every law that a shot can ask for is completed.
func TestLawsAreCompleted(t *testing.T) {
	names, _ := CompleteLaw(nil, nil, "")
	for _, k := range optimal.Kinds() {
		assert.Contains(t, names, k.Name())
	}
	assert.Len(t, names, len(optimal.Kinds()))
}
