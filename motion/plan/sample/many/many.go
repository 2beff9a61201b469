// Package many is how often a test does again what differs each time: a few times
// whenever tests are run, and all the times that its author wants with SEAMRAIL_MANY
// set, as .ci/run sets it. It holds helpers of tests alone.
package many

import (
	"flag"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// asked is the variable that asks for all of it.
const asked = "SEAMRAIL_MANY"

// shorter is by how much less is done in short, as rapid does.
const shorter = 5

// Asked tells whether all of it is asked for.
func Asked() bool { return os.Getenv(asked) != "" }

// Times is how often: a few times, fewer in short, or all of them.
func Times(few, all int) int {
	switch {
	case Asked():
		return all
	case testing.Short():
		return max(1, few/shorter)
	}
	return few
}

// Long leaves a test out in short that does one thing that takes long.
func Long(t *testing.T) {
	t.Helper()
	if testing.Short() && !Asked() {
		t.Skip("takes long")
	}
}

// Check is rapid.Check with a few draws of something that takes long; with as many as
// rapid draws otherwise where all of it is asked for, and as many as -rapid.checks says.
// Tests beside it in the same package must not draw at the same time.
func Check(t *testing.T, few int, property func(*rapid.T)) {
	t.Helper()
	checks := flag.Lookup("rapid.checks")
	if usual := checks.DefValue; !Asked() && checks.Value.String() == usual {
		require.NoError(t, checks.Value.Set(strconv.Itoa(few)))
		defer func() { _ = checks.Value.Set(usual) }()
	}
	rapid.Check(t, property)
}
