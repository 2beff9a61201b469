package many

import (
	"flag"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// drawn counts how often a property is drawn.
func drawn(t *testing.T, few int) int {
	t.Helper()
	n := 0
	Check(t, few, func(*rapid.T) { n++ })
	return n
}

// So many as are wanted are drawn, and all of them where that is asked for; what the
// command line says goes first, and nothing of it stays.
func TestAsManyAsAreWanted(t *testing.T) {
	t.Setenv(asked, "")
	few, all := 20, 100
	short := 1
	if testing.Short() {
		short = shorter
	}
	assert.Equal(t, few/short, drawn(t, few))
	assert.Equal(t, few/short, Times(few, all))
	checks := flag.Lookup("rapid.checks").Value
	assert.Equal(t, "100", checks.String(), "as it was")
	t.Setenv(asked, "1")
	assert.Equal(t, all/short, drawn(t, few))
	assert.Equal(t, all, Times(few, all))
	t.Setenv(asked, "")
	assert.NoError(t, checks.Set("40"))
	defer func() { assert.NoError(t, checks.Set("100")) }()
	assert.Equal(t, 40/short, drawn(t, few))
}
