package cli_test

import (
	"os"
	"os/exec"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// started is a line that the runtime prints of a package that makes something before
// main: its name, the time it took and the bytes it left.
var started = regexp.MustCompile(`(?m)^init (\S+) @\S+ ms, (\S+) ms clock, (\d+) bytes`)

// cost is what a package takes at every start.
type cost struct{ ms, bytes float64 }

// costs are the least of several starts of this test, which has all of the program in it.
func costs(t *testing.T) map[string]cost {
	t.Helper()
	out := map[string]cost{}
	for range 5 {
		cmd := exec.Command(os.Args[0], "-test.run=^$")
		cmd.Env = append(os.Environ(), "GODEBUG=inittrace=1")
		said, err := cmd.CombinedOutput()
		require.NoError(t, err, "%s", said)
		for _, m := range started.FindAllStringSubmatch(string(said), -1) {
			ms, err := strconv.ParseFloat(m[2], 64)
			require.NoError(t, err)
			bytes, err := strconv.ParseFloat(m[3], 64)
			require.NoError(t, err)
			if had, ok := out[m[1]]; ok {
				ms, bytes = min(ms, had.ms), min(bytes, had.bytes)
			}
			out[m[1]] = cost{ms, bytes}
		}
	}
	return out
}

// No package of ours makes at start what the command at hand may not need: each takes
// less than half of what encoding/gob does, which comes with the writer of PDF. Patterns,
// templates and tables took up to three times as much of it as gob.
func TestNothingIsMadeAtStart(t *testing.T) {
	all := costs(t)
	bound := all["encoding/gob"]
	require.Positive(t, bound.bytes)
	ours := 0
	for name, c := range all {
		if !strings.HasPrefix(name, "seamrail/") || strings.HasPrefix(name, "seamrail/cmd/internal/cli") {
			continue // the tests of the command line are in it too
		}
		ours++
		assert.Less(t, c.bytes, bound.bytes/2, "bytes of %s", name)
		assert.Less(t, c.ms, bound.ms/2, "ms of %s", name)
	}
	assert.Greater(t, ours, 10)
}
