package manual_test

import (
	"bytes"
	"strings"
	"testing"

	"github.com/spf13/cobra"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/guide"
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

// A chapter is a page of section 7, with every word that the terminal shows, and no line
// that roff would take for a request.
func TestChapterPage(t *testing.T) {
	for _, c := range guide.Chapters() {
		var page, text bytes.Buffer
		require.NoError(t, manual.WriteChapter(&page, c))
		assert.Equal(t, "seamrail-"+c.Name+".7", manual.ChapterFile(c))
		begin := `.TH "SEAMRAIL\-` + strings.ToUpper(strings.ReplaceAll(c.Name, "-", `\-`)) + `" "7" "" "seamrail" "Guide"` + "\n.SH NAME\n"
		assert.True(t, strings.HasPrefix(page.String(), begin), page.String()[:80])
		_, body, _ := strings.Cut(page.String(), ".nf\n")
		body, after, _ := strings.Cut(body, "\n.fi\n")
		assert.Equal(t, ".SH SEE ALSO\n\\fBseamrail\\fR(1)\n", after)
		assert.NotRegexp(t, `(?m)^[.']`, body)
		require.NoError(t, c.Text(&text, 73, false))
		_, want, _ := strings.Cut(text.String(), "\n\n")
		assert.Equal(t, strings.Fields(want), strings.Fields(strings.NewReplacer(`\(aq`, "'", `\(ga`, "`", `\(ti`, "~", `\(+-`, "±", `\(de`, "°", `\-`, "-", `\e`, `\`, `\&`, "").Replace(body)))
	}
}
