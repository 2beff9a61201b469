package cli_test

import (
	"errors"
	"os"
	"os/exec"
	"strconv"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"seamrail/cmd/internal/cli"
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
// one command of their own: "exits CODE COMMAND..." wants that very exit code.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 "../../../testdata/script",
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		Cmds:                map[string]func(*testscript.TestScript, bool, []string){"exits": exits},
		UpdateScripts:       os.Getenv("UPDATE_SCRIPTS") != "",
	})
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
