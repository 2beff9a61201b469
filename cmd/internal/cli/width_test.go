package cli_test

import (
	"io"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/cli"
	"seamrail/cmd/internal/cli/command"
)

// as runs the program for a terminal that is so wide.
func as(t *testing.T, columns int, line string) string {
	t.Helper()
	var out strings.Builder
	require.Zero(t, cli.Run(command.Streams{Out: &out, Err: io.Discard, Wide: columns}, words(line)))
	return out.String()
}

// Whatever is told fits the terminal and uses it, and no word of it is lost in a narrow
// one. Lines to be typed are never broken.
func TestWhatIsToldFitsTheTerminal(t *testing.T) {
	t.Chdir(t.TempDir())
	require.Zero(t, cli.Run(command.Streams{Out: io.Discard, Err: io.Discard}, []string{"new"}))
	for _, line := range []string{
		"plan lantern.toml", "plan --all lantern.toml", "spin lantern.toml", "soften lantern.toml --frequency 6Hz", "shake lantern.toml --frequency 8Hz",
		"reach lantern.toml", "takes lantern.toml", `spin --period "7.3 s"`,
	} {
		all := map[string]bool{}
		for _, columns := range []int{120, 80, 60} {
			told := as(t, columns, line)
			longest, last := 0, map[string]bool{}
			for l := range strings.Lines(told) {
				if n := utf8.RuneCountInString(strings.TrimSuffix(l, "\n")); !strings.Contains(l, ` = "`) && !strings.Contains(l, "to see it") {
					longest = max(longest, n)
					assert.LessOrEqual(t, n, columns, "%s: %s", line, l)
				}
			}
			for _, w := range strings.Fields(told) {
				last[w] = true
			}
			for w := range all {
				assert.True(t, last[w] || strings.Trim(w, "#.") == "", "%s in %d: %q is gone", line, columns, w)
			}
			all = last
		}
	}
}
