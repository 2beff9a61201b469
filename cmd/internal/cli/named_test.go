package cli_test

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
	"github.com/stretchr/testify/assert"

	"seamrail/cmd/internal/cli"
	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/exit"
)

// refused runs the program and wants it to refuse the command line, printing
// nothing else, and returns what it said.
func refused(t *testing.T, args ...string) string {
	t.Helper()
	var out, said bytes.Buffer
	code := cli.Run(command.Streams{In: strings.NewReader(""), Out: &out, Err: &said}, args)
	assert.Equal(t, exit.Usage, code, args)
	assert.Empty(t, out.String(), args)
	return said.String()
}

// everyCommand are the commands of the program, but for those of the library.
func everyCommand() []*cobra.Command {
	root := cli.NewRoot(command.Streams{})
	return slices.DeleteFunc(root.Commands(), func(c *cobra.Command) bool {
		return c.Name() == "completion"
	})
}

func TestAnEmptyArgumentIsNoName(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, c := range everyCommand() {
		for _, nothing := range []string{"", " ", "\t"} {
			args := []string{c.Name(), nothing}
			if len(c.ValidArgs) > 0 {
				args = []string{c.Name(), c.ValidArgs[0], nothing}
			}
			said := refused(t, args...)
			if c.Args(c, args[1:]) == nil { // what takes no argument says so
				assert.Contains(t, said, "an empty name is no name", args)
			}
		}
	}
}

func TestAnEmptyValueOfAFlagIsNone(t *testing.T) {
	t.Chdir(t.TempDir())
	tried := 0
	for _, c := range everyCommand() {
		c.Flags().VisitAll(func(f *pflag.Flag) {
			if !strings.HasPrefix(f.Value.Type(), "string") {
				return
			}
			tried++
			args := []string{c.Name(), "--" + f.Name, ""}
			if len(c.ValidArgs) > 0 {
				args = slices.Insert(args, 1, c.ValidArgs[0])
			}
			if c.Name() == "man" {
				return
			}
			if c.Args != nil && c.Args(c, nil) != nil {
				args = append(args, "x") // what it needs first
			}
			assert.Contains(t, refused(t, args...), "--"+f.Name+" is empty", args)
		})
	}
	assert.Greater(t, tried, 100)
}

// A shell asks for what may follow nothing.
func TestCompletionMayBeAskedOfNothing(t *testing.T) {
	var out bytes.Buffer
	code := cli.Run(command.Streams{Out: &out, Err: &bytes.Buffer{}}, []string{"__complete", "export", ""})
	assert.Zero(t, code)
	assert.Contains(t, out.String(), "frames")
}

func TestARigOfMetalWantsItsShotNamed(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, args := range [][]string{
		{"--at-start"}, {"--home"}, {"--home", "--from", "40 mm", "--to", "90 mm"},
	} {
		said := refused(t, append([]string{"drive", "--port", "/dev/ttyX", "--confirmed"}, args...)...)
		assert.Contains(t, said, "name the shot", args)
	}
}
