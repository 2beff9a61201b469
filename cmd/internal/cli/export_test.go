package cli

import (
	"io"
	"slices"
	"strings"
	"testing"

	"github.com/spf13/pflag"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/format"
)

// The command and its help say of command.PictureKinds what their table does.
func TestExportIsTheTable(t *testing.T) {
	var asked []string
	c := NewCmdExport(command.Streams{}, func(o *ExportOptions) error { asked = append(asked, o.What); return nil })
	c.SetOut(io.Discard)
	c.SetErr(io.Discard)
	for _, f := range format.Exports() {
		assert.Contains(t, c.Long, "  "+f.Export.Name)
		assert.Contains(t, c.Long, f.Export.Help+"\n")
		c.SetArgs([]string{f.Export.Name})
		require.NoError(t, c.Execute(), f.Export.Name)
	}
	assert.Equal(t, format.Names(), asked)
	assert.Equal(t, format.Names(), c.ValidArgs)
	assert.Contains(t, c.Use, strings.Join(format.Names(), "|"))
	for _, f := range format.All() {
		if _, err := format.Named(f.File); err != nil {
			c.SetArgs([]string{f.File})
			assert.Equal(t, exit.Usage, exit.Code(c.Execute()), "a file of the folder is no name of a format: %s", f.File)
		}
	}
}

// Each flag of the command is of the shot, of whatever is written, or of the command.PictureKinds
// that claim it, whose name its help begins with.
func TestFlagsOfFormats(t *testing.T) {
	c := NewCmdExport(command.Streams{}, func(*ExportOptions) error { return nil })
	claimed := map[string]string{}
	for _, f := range format.Exports() {
		for _, name := range f.Export.Flags {
			flag := c.Flags().Lookup(name)
			require.NotNil(t, flag, name)
			assert.True(t, strings.HasPrefix(flag.Usage, f.Export.Name+": "), flag.Usage)
			claimed[name] = f.Export.Name
		}
	}
	shot := NewCmdPlan(command.Streams{}, nil)
	c.Flags().VisitAll(func(f *pflag.Flag) {
		common := slices.Contains([]string{"output", "force", "help"}, f.Name) || shot.Flags().Lookup(f.Name) != nil
		assert.NotEqual(t, common, claimed[f.Name] != "", f.Name)
	})
}
