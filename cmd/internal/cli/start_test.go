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
// main: its name and the bytes it left. How long it took depends on what else runs.
var started = regexp.MustCompile(`(?m)^init (\S+) @\S+ ms, \S+ ms clock, (\d+) bytes`)

// made is how many bytes each package makes at every start: this test has all of the
// program in it.
func made(t *testing.T) map[string]int {
	t.Helper()
	cmd := exec.Command(os.Args[0], "-test.run=^$")
	cmd.Env = append(os.Environ(), "GODEBUG=inittrace=1")
	said, err := cmd.CombinedOutput()
	require.NoError(t, err, "%s", said)
	out := map[string]int{}
	for _, m := range started.FindAllStringSubmatch(string(said), -1) {
		out[m[1]], err = strconv.Atoi(m[2])
		require.NoError(t, err)
	}
	return out
}

// No package of ours makes at start what the command at hand may not need: each makes
// less than half of what encoding/gob does, which comes with the writer of PDF. Patterns,
// templates and tables made up to three times as much as that.
func TestNothingIsMadeAtStart(t *testing.T) {
	all := made(t)
	bound := all["encoding/gob"]
	require.Positive(t, bound)
	ours := 0
	for name, bytes := range all {
		if !strings.HasPrefix(name, "seamrail/") || strings.HasPrefix(name, "seamrail/cmd/internal/cli") {
			continue // the tests of the command line are in it too
		}
		ours++
		assert.Less(t, bytes, bound/2, name)
	}
	assert.Greater(t, ours, 10)
}
