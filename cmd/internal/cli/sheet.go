package cli

import (
	"cmp"
	"io"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/clip"
	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/format"
	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/logbook"
	"seamrail/motion/base/plain"
	"seamrail/plot/sheet"
)

// SheetOptions is what the sheet command was asked.
type SheetOptions struct {
	Streams  command.Streams
	Shot     command.ShotFlags
	Sequence string // a sequence file whose shots have a sheet each; "" for one shot
	Output   string
	Told     command.Told
}

// NewCmdSheet returns the sheet command. A nil run means the real one.
func NewCmdSheet(s command.Streams, run func(*SheetOptions) error) *cobra.Command {
	o := &SheetOptions{Streams: s}
	c := command.OfShot(&cobra.Command{
		Use:   "sheet [SHOT]",
		Short: "Write the page that a shot is built from on the day",
		Long: `Write the page that a shot is built from on the day: what does not hold, the marks
to make with tape, what to set on camera and lens, the lamps, the scene from above to scale, what the lens sees, where each
axis is every so many frames, each way from here to there in so many seconds,
the cues, what to mind, and boxes to tick for the takes. A number that the shot
does not say is a blank to fill in by hand.

The ending of the file's name says whether it is a PDF on A4 or an HTML page
that needs nothing beside it and prints the same. With --sequence, every shot of
a sequence has a page in one PDF, in the order to film them in.`,
		Example: `  seamrail sheet lantern.toml -o sheet.pdf
  seamrail sheet -o sheet.html
  seamrail sheet --sequence clip.toml -o sheets.pdf`,
	}, &o.Shot, o, run, sheetRun)
	f := c.Flags()
	f.StringVarP(&o.Output, "output", "o", "sheet.pdf", "write to `FILE`, ending in .pdf or .html")
	f.StringVar(&o.Sequence, "sequence", "", "write a sheet for each shot of the sequence `FILE`")
	o.Told.RegisterFiles(c)
	_ = c.MarkFlagFilename("output", "pdf", "html")
	_ = c.MarkFlagFilename("sequence", "toml")
	return c
}

// check finds what is wrong with what was asked.
func (o *SheetOptions) check() error {
	ending := strings.ToLower(filepath.Ext(o.Output))
	switch {
	case o.Output == command.Stdout:
		return exit.Misused("a sheet goes to a file; name one with -o sheet.pdf")
	case ending != ".pdf" && ending != ".html":
		return exit.Misused("-o %q must end in .pdf or .html", o.Output)
	case o.Sequence != "" && o.Shot.Shot != "":
		return exit.Misused("a sheet is of one shot or of a sequence: leave %s or --sequence out", o.Shot.Shot)
	case o.Sequence != "" && ending == ".html":
		return exit.Misused("the sheets of a sequence go into one PDF; name it with -o sheets.pdf")
	}
	return nil
}

func sheetRun(o *SheetOptions) error {
	if err := o.check(); err != nil {
		return err
	}
	pages, j, trouble, err := o.pages()
	if err != nil {
		return err
	}
	write, lacks := func(w io.Writer) error { return sheet.Write(w, pages) }, command.LineOf(sheet.Lacks(pages...))
	if strings.EqualFold(filepath.Ext(o.Output), ".html") {
		write, lacks = func(w io.Writer) error { return sheet.HTML(w, pages[0]) }, ""
	}
	words := ""
	if o.Sequence != "" {
		words = ": " + plain.Count(len(pages), "sheet") + ", in the order to film in"
	}
	return cmp.Or(o.Told.Written(o.Streams, j, o.Output, words, lacks, write), trouble)
}

// pages are the sheets that were asked for, the job where they are of one, and what
// keeps any of their plans from being run.
func (o *SheetOptions) pages() (pages []sheet.Page, of *job.Job, trouble, err error) {
	if o.Sequence != "" {
		j, err := clip.Read(o.Sequence, o.Streams.In)
		if err != nil {
			return nil, nil, nil, err
		}
		return j.Sheets(), nil, j.Trouble(), nil
	}
	j, err := o.Shot.Job(o.Streams.In)
	if err != nil {
		return nil, nil, nil, err
	}
	hands, err := logbook.Habitual(j.Cues, o.Shot.Shot)
	if err != nil {
		return nil, nil, nil, err
	}
	return []sheet.Page{format.Sheet(j.WithCues(hands))}, j, j.Trouble(), nil
}
