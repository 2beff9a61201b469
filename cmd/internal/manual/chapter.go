package manual

import (
	"bytes"
	"fmt"
	"io"
	"strings"

	"seamrail/cmd/internal/guide"
)

// ChapterFile returns the name of a chapter's page: "seamrail-driving.7".
func ChapterFile(c guide.Chapter) string { return program + "-" + c.Name + ".7" }

const program = "seamrail"

const chapterPage = `.TH "%s" "7" "" "seamrail" "Guide"
.SH NAME
%s \- %s
.SH DESCRIPTION
.nf
%s.fi
.SH SEE ALSO
\fB%s\fR(1)
`

// pageWidth is how wide a chapter is laid out, in characters; man indents it.
const pageWidth = 73

// WriteChapter writes the page of a chapter, laid out as in a terminal.
func WriteChapter(w io.Writer, c guide.Chapter) error {
	var text bytes.Buffer
	_ = c.Text(&text, pageWidth, false) // a buffer takes all
	_, body, _ := strings.Cut(text.String(), "\n\n")
	name := escape(program + "-" + c.Name)
	_, err := fmt.Fprintf(w, chapterPage,
		strings.ToUpper(name), name, escape(c.Short), asTyped.Replace(escape(body)), program)
	return err
}

// asTyped keeps signs of code from being made into those of print.
var asTyped = strings.NewReplacer("'", `\(aq`, "`", `\(ga`, "~", `\(ti`, "^", `\(ha`, "±", `\(+-`)
