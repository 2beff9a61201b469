package cli

import (
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"seamrail/cmd/internal/whole"
	"seamrail/export/header"
	"seamrail/export/textpage"
	"seamrail/motion/exact"
	"seamrail/motion/kept"
	"seamrail/motion/plain"
	"seamrail/plot/figure"
)

// MakeOptions is what the make command was asked.
type MakeOptions struct {
	Streams Streams
	Shot    ShotFlags
	Output  string
	NoStop  bool
	Force   bool
}

// NewCmdMake returns the make command. A nil run means the real one.
func NewCmdMake(s Streams, run func(*MakeOptions) error) *cobra.Command {
	o := &MakeOptions{Streams: s}
	if run == nil {
		run = makeRun
	}
	c := &cobra.Command{
		Use:   "make [SHOT]",
		Short: "Write everything into one folder",
		Long: `Write the report, the plots, the tables and the G-code of a shot into one
folder, with an index that says what each file is for, and index.html, which
shows it all in a browser. All of it is written or none of it. Files that the
shot says too little for are left out, and named with the reason.

A plan that the rig cannot do is not written, unless --force is given; the
files then say so at their top.`,
		Example: "  seamrail make lantern.toml -o out\n  seamrail make --loop \"8 s\"",
		Args:    atMost("one shot file"),
		RunE: func(_ *cobra.Command, args []string) error {
			o.Shot.Shot = first(args)
			return run(o)
		},
	}
	o.Shot.register(c)
	c.Flags().StringVarP(&o.Output, "output", "o", "loop", "write to folder `DIR`")
	c.Flags().BoolVar(&o.NoStop, "no-stop", false, noStopHelp)
	c.Flags().BoolVar(&o.Force, "force", false, "write a plan that the rig cannot do all the same")
	return c
}

func makeRun(o *MakeOptions) error {
	o.Shot.ahead = true
	j, err := o.Shot.prepare(o.Streams.In)
	if err != nil {
		return err
	}
	if err := refuse(j.unable(), o.Force); err != nil {
		return err
	}
	takes, err := o.Shot.kept(j)
	if err != nil {
		return err
	}
	warnLeftOut(o.Streams.Err, takes)
	all := j.contents(takes, o.NoStop)
	files := j.folder(all)
	bar := newProgress(o.Streams, len(files))
	err = whole.Folder(o.Output, files, bar.next)
	bar.finish()
	if err != nil {
		return err
	}
	return j.made(o.Streams.Out, o.Output, all)
}

const indexName = "index.txt"

// folder is the parts with what lists them.
func (j job) folder(all contents) []whole.File {
	files := make([]whole.File, 0, len(all.parts)+2)
	for _, p := range all.parts {
		files = append(files, whole.File{Name: p.name, Fill: p.fill})
	}
	return append(files, whole.File{Name: indexName, Fill: j.index(all)}, whole.File{Name: pageName, Fill: j.page(all)})
}

// contents are the files of the folder, with the takes to keep.
func (j job) contents(takes kept.Takes, noStop bool) contents {
	set := exportSettings{tick: exact.New(1, 1000), handles: true, takes: takes, countIn: countIn, noStop: noStop}
	report := with(part{"report.txt", "read this first: does it close, can the rig do it", func(w io.Writer) error { return j.report(w, false, false) }})
	motion := with([]part{
		{"loop.png", "the motion drawn, for a screen", j.figure("png", figure.Options{})},
		{"loop.svg", "the same, for a web page or an editor", j.figure("svg", figure.Options{})},
		{"loop.pdf", "the same, for paper", j.figure("pdf", figure.Options{})},
		{"loop.ngc", "G-code for the rig's controller", j.exporter("gcode", set)},
		{"frames.csv", "where every axis is at each captured frame", j.exporter("frames", set)},
		{"steps.csv", "the time of every motor step of the take, in ns", j.exporter("steps", set)},
		{"ticks.csv", "every axis' step count each millisecond", j.exporter("ticks", set)},
		{"plan.json", "the report for other programs", j.exporter("json", set)},
	}...)
	return together(report, j.sheetParts(), j.previewParts(), motion, j.pictureParts(set), j.pictureDrawn(), j.aboveParts(),
		j.cueParts(), j.handoffParts(set))
}

// index writes what each file is for.
func (j job) index(all contents) func(io.Writer) error {
	return func(w io.Writer) error {
		if _, err := fmt.Fprintf(w, "%s\nplan %s\n\n", header.Clean(j.plan.Title), j.plan.Hash()); err != nil {
			return err
		}
		if _, err := io.WriteString(w, j.said()+"\n"); err != nil {
			return err
		}
		return all.list(w)
	}
}

// made says what was written.
func (j job) made(w io.Writer, dir string, all contents) error {
	if _, err := fmt.Fprintf(w, "%s, in %s:\n", header.Clean(j.plan.Title), plain.Text(dir)); err != nil {
		return err
	}
	if err := all.list(w); err != nil {
		return err
	}
	if err := all.stale(w, dir); err != nil {
		return err
	}
	if _, err := io.WriteString(w, j.lacking()); err != nil {
		return err
	}
	_, err := io.WriteString(w, j.said())
	return err
}

// said is the headline in lines of a page, with that it was forced where it was.
func (j job) said() string {
	h := j.headline()
	words := h.Stamp + "  " + header.Clean(h.Words)
	if !h.Ready() {
		words += " It was written because that was forced."
	}
	return strings.Join(textpage.Fold(words, textpage.Width), "\n") + "\n"
}
