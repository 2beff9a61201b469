package command

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"seamrail/cmd/internal/atomicfile"
	"seamrail/cmd/internal/format"
	"seamrail/cmd/internal/job"
	"seamrail/export/header"
	"seamrail/export/report"
	"seamrail/export/report/filesreport"
	"seamrail/motion/base/plain"
	"seamrail/plot/sheet"
)

// Stdout is the file name that means standard output.
const Stdout = "-"

// Deliver fills a file, whole or not at all, or standard output.
func Deliver(s Streams, name string, fill func(io.Writer) error) error {
	if name != Stdout {
		return atomicfile.Write(name, func(w io.Writer) error {
			c := newCounter(s, name, w)
			defer c.Finish()
			return fill(c)
		})
	}
	if err := atomicfile.RefusedOutput(s.Out); err != nil {
		return err
	}
	b := bufio.NewWriter(s.Out)
	err := fill(b)
	if err == nil {
		err = b.Flush()
	}
	if cause, ok := atomicfile.Cause(err); ok {
		return fmt.Errorf("cannot write to standard output: %w", cause)
	}
	return err
}

// Written fills a file and says so: with of, what there is to say behind its name, and
// below, what stands under that.
func (t Told) Written(s Streams, j *job.Job, name, of, below string, fill func(io.Writer) error) error {
	if err := Deliver(s, name, fill); err != nil {
		return err
	}
	words := fmt.Sprintf("Wrote %s%s.\n%s", plain.Text(name), of, below)
	return t.Wrote(s, words, func() filesreport.Document { return format.Wrote(j, name).Said(below) })
}

// Wrote says what was written: in words, or as facts.
func (t Told) Wrote(s Streams, words string, facts func() filesreport.Document) error {
	return Deliver(s, Stdout, func(w io.Writer) error {
		if t.JSON {
			return report.JSON(w, facts())
		}
		_, err := io.WriteString(w, words)
		return err
	})
}

// Tell writes what there is to tell to standard output: as JSON, or as a report in
// colours where they show.
func Tell(s Streams, json bool, c report.Content) error {
	return Deliver(s, Stdout, func(w io.Writer) error {
		if json {
			return report.JSON(w, c.Facts())
		}
		return report.TextWithin(w, c.Report(), s.Colour, s.Columns(report.Width))
	})
}

// Complain prints an error, every line of it marked as ours and free of what a
// terminal would obey.
func Complain(w io.Writer, err error) {
	_, _ = io.WriteString(w, complaint(err, columns(w)))
}

// complaint is an error in lines of so many characters, or as long as they are where that
// is 0.
func complaint(err error, width int) string {
	const ours = "seamrail: "
	text := ""
	for _, line := range strings.Split(strings.TrimRight(err.Error(), "\n"), "\n") {
		parts := []string{header.Clean(line)}
		if width > 0 {
			parts = report.Fold(parts[0], max(width-len(ours), 1))
		}
		text += ours + strings.Join(parts, "\n"+strings.Repeat(" ", len(ours))) + "\n"
	}
	return text
}

// PictureKinds are the kinds of picture, by the ending of the file's name.
var PictureKinds = []string{"png", "svg", "pdf"}

// PictureKind returns the kind of picture that a file's name asks for.
func PictureKind(name string) (string, error) {
	ending := strings.ToLower(strings.TrimPrefix(filepath.Ext(name), "."))
	if slices.Contains(PictureKinds, ending) {
		return ending, nil
	}
	if name == Stdout {
		return "", errors.New("a picture goes to a file; name one with -o loop.png")
	}
	return "", fmt.Errorf("-o %q must end in .png, .svg or .pdf", name)
}

// OptionalKind is PictureKind of a picture that need not be drawn: "" for no name.
func OptionalKind(name string) (string, error) {
	if name == "" {
		return "", nil
	}
	return PictureKind(name)
}

// DrawToo draws a picture beside a report, and says so under it, unless the report is
// for programs.
func DrawToo(s Streams, name string, programs bool, draw func(io.Writer) error) error {
	if err := Deliver(s, name, draw); err != nil || programs {
		return err
	}
	_, err := fmt.Fprintf(s.Out, "\nWrote %s.\n", plain.Text(name))
	return err
}

// LacksIn says what a picture of a kind cannot set of a title, as a line; "" where it
// can all.
func LacksIn(kind, title string) string {
	if kind == "svg" {
		return ""
	}
	return LineOf(sheet.LacksText(title))
}

// LineOf is a text as a line, and nothing as nothing.
func LineOf(words string) string {
	if words == "" {
		return ""
	}
	return words + "\n"
}
