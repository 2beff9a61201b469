package page

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The product gets every outline and the one it had: what the others have alone is set
// aside, and every byte is as it was in the end.
func TestTheProductGetsEveryOutline(t *testing.T) {
	b := browsed(t)
	shape := func(text, name string) Answer {
		return b.planned(text, true, m{"path": "scene.product.shape", "value": name})
	}
	round := shape(b.text, "cylinder")
	require.Empty(t, round.Faults)
	assert.Contains(t, round.Text, "#~ prism: sides  = 6")
	assert.Contains(t, round.Text, `radius = "45 mm"`)
	assert.Equal(t, b.text, shape(round.Text, "prism").Text)

	box := shape(round.Text, "box")
	require.Empty(t, box.Faults)
	assert.Contains(t, box.Text, `#~ cylinder: radius = "45 mm"`)
	assert.Contains(t, box.Text, `width = "90 mm"`, "as wide as it was")
	assert.Contains(t, box.Text, `depth = "90 mm"`)
	again := shape(box.Text, "cylinder")
	require.Empty(t, again.Faults)
	assert.Contains(t, again.Text, "\nradius = \"45 mm\"")

	none := shape(b.text, "sphere")
	assert.True(t, none.Refused)
	assert.Equal(t, b.text, none.Text)
}
