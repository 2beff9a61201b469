package page_test

import (
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
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
		node := exec.Command("node", append([]string{"--test", "--test-concurrency=" + at, "--test-reporter=spec"}, names...)...)
		node.Env = append(os.Environ(), "SEAMRAIL_PROGRAM="+program, "SEAMRAIL_DEMO="+demo)
		node.Stdout, node.Stderr = os.Stdout, os.Stderr
		return node.Run()
	}
	// Not more at a time: a page that drives has to say in time that it is there, or the rig
	// stops.
	beside := runs("2", slices.DeleteFunc(slices.Concat(scriptsOf(longest), scripts), repeated(scriptsOf(alone))))
	require.NoError(t, errors.Join(beside, runs("1", scriptsOf(alone))))
}

// longest are those that take half a minute and more, which are begun first: two in
// parallel are then done at about the same time.
var longest = []string{"driven.test.mjs", "drive.test.mjs", "access.test.mjs", "byhand.test.mjs", "layout.test.mjs", "bytouch.test.mjs", "shape.test.mjs", "touch.test.mjs"}

// alone are those that time what is on the screen, and how much memory it takes.
var alone = []string{"swift.test.mjs", "long.test.mjs"}

func scriptsOf(names []string) []string {
	var out []string
	for _, x := range names {
		out = append(out, "testdata/browser/"+x)
	}
	return out
}

// repeated tells of each name whether it is one of those, or was asked for before.
func repeated(those []string) func(string) bool {
	seen := map[string]bool{}
	for _, x := range those {
		seen[x] = true
	}
	return func(x string) bool {
		was := seen[x]
		seen[x] = true
		return was
	}
}

func command(t *testing.T, name string, args ...string) {
	t.Helper()
	out, err := exec.Command(name, args...).CombinedOutput()
	require.NoError(t, err, string(out))
}
