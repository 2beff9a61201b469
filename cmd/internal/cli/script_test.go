package cli_test

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/cli"
	"seamrail/motion/plan/sample/many"
)

// programs are what tests can run as programs, by name.
var programs = map[string]func(){
	"seamrail": func() { os.Exit(cli.Main()) },
}

// TestMain lets the scripts run the program as the test binary itself.
func TestMain(m *testing.M) {
	testscript.Main(m, programs)
}

// TestScripts runs the whole program from testdata/script. The scripts have
// commands of their own: "exits CODE COMMAND..." wants that very exit code, "append
// TO FROM" writes one file on the end of another, and "metal LOG" makes a log of
// virtual takes one of takes that a rig of metal has run.
func TestScripts(t *testing.T) {
	files, err := filepath.Glob("../../../testdata/script/*.txtar")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	testscript.Run(t, testscript.Params{
		Files:               slices.DeleteFunc(files, leftOut),
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"exits": exits,
			"append": func(ts *testscript.TestScript, _ bool, args []string) {
				rewrite(ts, args[0], func(text string) string { return text + ts.ReadFile(args[1]) })
			},
			"phone": func(ts *testscript.TestScript, _ bool, args []string) {
				rewrite(ts, args[0], phones[args[1]])
			},
			"metal": func(ts *testscript.TestScript, _ bool, args []string) {
				rewrite(ts, args[0], metal)
			},
		},
		UpdateScripts: os.Getenv("UPDATE_SCRIPTS") != "",
	})
}

// phones are what another phone would have recorded, or not the whole of it.
var phones = map[string]func(record string) string{
	"in-g": func(r string) string {
		return rows(r, func(_ int, at, v float64) (float64, float64, bool) { return at, v / 9806.65, true })
	},
	"slow": func(r string) string {
		return rows(r, func(i int, at, v float64) (float64, float64, bool) { return at, v, i%18 == 0 })
	},
	"half": func(r string) string {
		return rows(r, func(i int, at, v float64) (float64, float64, bool) { return at, v, i < 15_000 })
	},
	"still": func(r string) string {
		return rows(r, func(i int, at, _ float64) (float64, float64, bool) { return at, float64(i * i % 7), true })
	},
	"dull": func(r string) string {
		return rows(r, func(_ int, at, v float64) (float64, float64, bool) { return at, v / 100, true })
	},
}

// rows are the rows of a record after its head, as each is to be.
func rows(record string, how func(i int, at, v float64) (float64, float64, bool)) string {
	lines := strings.Split(strings.TrimSpace(record), "\n")
	var out strings.Builder
	out.WriteString("t,a\n")
	for i, line := range lines[1:] {
		var at, v float64
		_, _ = fmt.Sscanf(line, "%g,%g", &at, &v)
		if at, v, keep := how(i, at, v); keep {
			fmt.Fprintf(&out, "%.4f,%g\n", at, v)
		}
	}
	return out.String()
}

// inShort are the scripts that are run in short: each says something of the whole
// program, and none takes long.
var inShort = []string{"plan", "usage", "faults", "new", "export", "controller", "takes", "wrong-file"}

// leftOut tells whether a script is left out in short.
func leftOut(file string) bool {
	name := strings.TrimSuffix(filepath.Base(file), ".txtar")
	return testing.Short() && !many.Asked() && !slices.Contains(inShort, name)
}

// metal numbers virtual takes on from those that are there, and takes their mark away.
func metal(log string) string {
	there := 0
	for line := range strings.Lines(log) {
		if strings.Contains(line, `"begin"`) && !strings.Contains(line, `"virtual"`) {
			there++
		}
	}
	log = virtualTake.ReplaceAllStringFunc(log, func(text string) string {
		n, _ := strconv.Atoi(virtualTake.FindStringSubmatch(text)[1])
		return fmt.Sprintf(`"take":%d`, there+n)
	})
	return strings.ReplaceAll(log, `,"virtual":true`, "")
}

var virtualTake = regexp.MustCompile(`"take":([0-9]+),"virtual":true`)

func rewrite(ts *testscript.TestScript, name string, how func(string) string) {
	text := ts.ReadFile(name)
	ts.Check(os.WriteFile(ts.MkAbs(name), []byte(how(text)), 0o600))
}

func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits CODE COMMAND...")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	code := 0
	var failed *exec.ExitError
	if err := ts.Exec(args[1], args[2:]...); errors.As(err, &failed) {
		code = failed.ExitCode()
	} else {
		ts.Check(err)
	}
	if code != want {
		ts.Fatalf("exit code %d, want %d", code, want)
	}
}
