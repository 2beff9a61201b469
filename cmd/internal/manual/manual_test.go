package manual_test

import (
	"bytes"
	"testing"

	"github.com/spf13/cobra"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/manual"
)

func tree() *cobra.Command {
	root := &cobra.Command{Use: "tool", Short: "Do things"}
	sub := &cobra.Command{
		Use: "go", Short: "Go there", Long: "Go there.\n\n.not a request\n\n  kept  apart",
		Example: `  tool go \here`, RunE: func(*cobra.Command, []string) error { return nil },
	}
	sub.Flags().StringP("to", "t", "", "the `PLACE` to go to")
	sub.Flags().Bool("secret", false, "unseen")
	_ = sub.Flags().MarkHidden("secret")
	root.AddCommand(sub, &cobra.Command{Use: "ghost", Hidden: true, Run: func(*cobra.Command, []string) {}})
	return root
}

func TestPage(t *testing.T) {
	commands := manual.Commands(tree())
	require.Len(t, commands, 2)
	assert.Equal(t, "tool.1", manual.FileName(commands[0]))
	assert.Equal(t, "tool-go.1", manual.FileName(commands[1]))
	var b bytes.Buffer
	require.NoError(t, manual.Write(&b, commands[1]))
	assert.Equal(t, `.TH "TOOL\-GO" "1" "" "seamrail" "Manual"
.SH NAME
tool\-go \- go there
.SH SYNOPSIS
.B tool go [flags]
.SH DESCRIPTION
.PP
Go there.
.PP
\&.not a request
.PP
.nf
  kept  apart
.fi
.SH OPTIONS
.TP
.B \-h, \-\-help
help for go
.TP
.B \-t, \-\-to PLACE
the PLACE to go to
.SH EXAMPLES
.nf
  tool go \ehere
.fi
.SH SEE ALSO
\fBtool\fR(1)
`, b.String())
}
