package page_test

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// browserVariable names the folder that npm has put puppeteer-core into, which
// drives a browser over its debugging port, and axe-core, which checks pages
// against the W3C's WCAG 2.
const browserVariable = "SEAMRAIL_CHROMIUM"

// The page in Debian's Chromium: the scripts are in testdata/browser. They print
// what they measured.
func TestBrowser(t *testing.T) {
	folder := os.Getenv(browserVariable)
	if folder == "" {
		t.Skipf("set %s to a folder with puppeteer-core and axe-core in it; Chromium must be installed", browserVariable)
	}
	demo := t.TempDir()
	program := filepath.Join(t.TempDir(), "seamrail")
	command(t, "go", "build", "-o", program, "seamrail/cmd/seamrail")
	command(t, program, "new", demo)

	scripts, err := filepath.Glob("testdata/browser/*.test.mjs")
	require.NoError(t, err)
	for _, x := range slices.Concat(longest, alone) {
		require.Contains(t, scripts, "testdata/browser/"+x)
	}
	runs := func(at string, names []string) error {
		node := exec.Command("node", append([]string{"--test", "--test-timeout=" + maxScript, "--test-concurrency=" + at, "--test-reporter=spec"}, names...)...)
		node.Env = append(os.Environ(), "SEAMRAIL_PROGRAM="+program, "SEAMRAIL_DEMO="+demo)
		var said bytes.Buffer
		node.Stdout, node.Stderr = io.MultiWriter(os.Stdout, &said), os.Stderr
		if err := node.Run(); err != nil {
			return fmt.Errorf("%w\n%s", err, failing(said.String()))
		}
		return nil
	}
	beside := slices.DeleteFunc(slices.Clone(scripts), func(x string) bool {
		return slices.Contains(longest, filepath.Base(x)) || slices.Contains(alone, filepath.Base(x))
	})
	require.NoError(t, errors.Join(runs("2", slices.Concat(scriptsOf(longest), beside)), runs("1", scriptsOf(alone))))
}

// maxScript is far above what the longest script takes, in ms: what it waits for in vain is then
// told.
const maxScript = "600000"

// longest are those that take half a minute and more, which are begun first: two at a time are
// then done at about the same time.
var longest = []string{"film.test.mjs", "access.test.mjs", "shape.test.mjs", "shelf.test.mjs"}

// alone are those in which a page has to say in time that it is there, or the rig stops,
// and those that time what is on the screen, and how much memory it takes.
var alone = []string{"driven.test.mjs", "drive.test.mjs", "byhand.test.mjs", "bytouch.test.mjs", "twoends.test.mjs", "swift.test.mjs", "long.test.mjs"}

// failing are the lines that say what failed and why, of what node says at the end. Told again
// they are the last of a long output, of which often no more than that is kept.
func failing(said string) string {
	_, end, _ := strings.Cut(said, "failing tests:")
	var out []string
	for line := range strings.Lines(end) {
		if line = strings.TrimSpace(line); strings.HasPrefix(line, "test at ") || strings.HasPrefix(line, "\u2716") || strings.Contains(line, "Error") {
			out = append(out, line)
		}
	}
	return strings.Join(out[:min(len(out), 12)], "\n")
}

func scriptsOf(names []string) []string {
	var out []string
	for _, x := range names {
		out = append(out, "testdata/browser/"+x)
	}
	return out
}

func command(t *testing.T, name string, args ...string) {
	t.Helper()
	out, err := exec.Command(name, args...).CombinedOutput()
	require.NoError(t, err, string(out))
}
