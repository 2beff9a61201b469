package cli

import (
	"cmp"
	"errors"
	"fmt"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/format"
	"seamrail/cmd/internal/job"
	"seamrail/export/report/filesreport"
	"seamrail/motion/base/plain"
	"seamrail/plot/preview"
)

// PreviewOptions is what the preview command was asked.
type PreviewOptions struct {
	Streams command.Streams
	Shot    command.ShotFlags
	Output  string
	Width   int // 0 is what is usual
	Every   int64
	Seam    bool
	Stills  int
	Apart   bool // number faces that look alike too
	Told    command.Told
}

// previewWidth is the usual width of a preview, in px.
const previewWidth = 480

// NewCmdPreview returns the preview command. A nil run means the real one.
func NewCmdPreview(s command.Streams, run func(*PreviewOptions) error) *cobra.Command {
	o := &PreviewOptions{Streams: s}
	c := command.OfShot(&cobra.Command{
		Use:   "preview [SHOT]",
		Short: "Draw what the lens sees, as a loop that plays",
		Long: `Draw what the lens sees, as an animated PNG that any browser plays: the product
on its table, with its blur and its smear, at the playback rate, for ever. It is
a drawing to judge the move by; whether it hitches is seen at a glance.

Faces of the product that look alike, by its symmetry, are drawn alike, and the
others are numbered; --tell-apart numbers all. What the shot does not say of
camera and scene is filled in and told.

With --seam, draw a strip of stills instead: the last frames of the loop and the
first ones, with bars for how much the picture changes from each to the next.`,
		Example: `  seamrail preview lantern.toml -o preview.png
  seamrail preview --width 320 --every 2
  seamrail preview --seam --stills 3 -o seam.png`,
		PreRun: func(c *cobra.Command, _ []string) {
			if o.Seam && !c.Flags().Changed("output") {
				o.Output = "seam.png"
			}
		},
	}, &o.Shot, o, run, previewRun)
	f := c.Flags()
	f.StringVarP(&o.Output, "output", "o", "preview.png", "write to `FILE`, ending in .png; \"seam.png\" with --seam")
	f.IntVar(&o.Width, "width", 0, fmt.Sprintf("`PIXELS` across a picture; %d, or %d with --seam, otherwise", previewWidth, format.StillWidth))
	f.Int64Var(&o.Every, "every", 1, "show every `N`th frame, each N times as long")
	f.BoolVar(&o.Apart, "tell-apart", false, "number every face, also those that look alike")
	f.BoolVar(&o.Seam, "seam", false, "draw a strip of stills around the seam")
	f.IntVar(&o.Stills, "stills", format.UsualStills, "with --seam, `N` stills on either side")
	o.Told.RegisterFiles(c)
	return c
}

// check finds what is wrong with what was asked, all of it at once.
func (o *PreviewOptions) check() error {
	var wrong []error
	switch {
	case o.Output == command.Stdout:
		wrong = append(wrong, errors.New("a picture goes to a file; name one with -o preview.png"))
	case strings.ToLower(filepath.Ext(o.Output)) != ".png":
		wrong = append(wrong, fmt.Errorf("-o %q must end in .png", o.Output))
	}
	if o.Every < 1 {
		wrong = append(wrong, fmt.Errorf("--every %d must be 1 or more", o.Every))
	}
	if o.Every > 1 && o.Seam {
		wrong = append(wrong, errors.New("--every is for an animation; a strip shows each frame"))
	}
	if o.Apart && o.Seam {
		wrong = append(wrong, errors.New("--tell-apart is for an animation; a strip compares what looks alike"))
	}
	if o.Stills < 1 || o.Stills > preview.MaxStills {
		wrong = append(wrong, fmt.Errorf("--stills %d must be within 1..%d", o.Stills, preview.MaxStills))
	}
	if o.Width != 0 && (o.Width < preview.MinWidth || o.Width > preview.MaxWidth) {
		wrong = append(wrong, fmt.Errorf("--width %d must be within %d..%d", o.Width, preview.MinWidth, preview.MaxWidth))
	}
	return errors.Join(wrong...)
}

func previewRun(o *PreviewOptions) error {
	if err := o.check(); err != nil {
		return err
	}
	j, err := o.Shot.Job(o.Streams.In)
	if err != nil {
		return err
	}
	words, err := o.draw(j)
	if err != nil {
		return err
	}
	said := strings.Join(words, "\n")
	err = o.Told.Wrote(o.Streams, fmt.Sprintf("Wrote %s: %s\n", plain.Text(o.Output), said),
		func() filesreport.Document { return format.Wrote(j, o.Output).Said(said) })
	return cmp.Or(err, j.Trouble())
}

// draw writes the file and says what is in it.
func (o *PreviewOptions) draw(j *job.Job) ([]string, error) {
	usual := previewWidth
	if o.Seam {
		usual = format.StillWidth
	}
	f, said, err := format.Finder(j, cmp.Or(o.Width, usual), o.Apart)
	if err != nil {
		return nil, err
	}
	words, fill := format.Loop(f, o.Every)
	if o.Seam {
		words, fill = format.Strip(j, f, o.Stills)
	}
	if err := command.Deliver(o.Streams, o.Output, fill); err != nil {
		return nil, err
	}
	out := words()
	for _, s := range said {
		out = append(out, "Filled in: "+s+".")
	}
	return out, nil
}
