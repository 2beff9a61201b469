package cli

import (
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"seamrail/cmd/internal/atomicfile"
	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/format"
	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/logbook"
	"seamrail/export/header"
	"seamrail/export/report/filesreport"
	"seamrail/motion/base/plain"
)

// MakeOptions is what the make command was asked.
type MakeOptions struct {
	Streams command.Streams
	Shot    command.ShotFlags
	Output  string
	NoStop  bool
	Force   bool
	Told    command.Told
}

// NewCmdMake returns the make command. A nil run means the real one.
func NewCmdMake(s command.Streams, run func(*MakeOptions) error) *cobra.Command {
	o := &MakeOptions{Streams: s}
	c := command.OfShot(&cobra.Command{
		Use:   "make [SHOT]",
		Short: "Write everything into one folder",
		Long: `Write the report, the plots, the tables and the G-code of a shot into one
folder, with an index that says what each file is for, and index.html, which
shows it all in a browser. All of it is written or none of it. Files that the
shot says too little for are left out, and named with the reason.

A plan that the rig cannot do is not written, unless --force is given; the
files then say so at their top.`,
		Example: "  seamrail make lantern.toml -o out\n  seamrail make --loop \"8 s\"",
	}, &o.Shot, o, run, makeRun)
	c.Flags().StringVarP(&o.Output, "output", "o", "loop", "write to folder `DIR`")
	c.Flags().BoolVar(&o.NoStop, "no-stop", false, command.NoStopHelp)
	c.Flags().BoolVar(&o.Force, "force", false, "write a plan that the rig cannot do all the same")
	o.Told.RegisterFiles(c)
	return c
}

func makeRun(o *MakeOptions) error {
	source := o.Shot.Source()
	source.Ahead = true
	j, err := source.Job(o.Streams.In)
	if err != nil {
		return err
	}
	if err := job.Refuse(j.Unable(), o.Force); err != nil {
		return err
	}
	opt := format.Usual()
	opt.NoStop = o.NoStop
	if opt.Takes, err = logbook.Kept(o.Shot.Shot, j.Plan); err != nil {
		return err
	}
	command.WarnLeftOut(o.Streams.Err, opt.Takes.Synced(j.Mark))
	all := format.New(j, opt).Contents()
	files := all.Files()
	bar := command.NewProgress(o.Streams, len(files))
	err = atomicfile.Folder(o.Output, files, bar.Next)
	bar.Finish()
	if err != nil {
		return err
	}
	var said strings.Builder
	if err := made(&said, o.Output, j, all); err != nil {
		return err
	}
	return o.Told.Wrote(o.Streams, said.String(), func() filesreport.Document {
		var besides strings.Builder
		_ = beside(&besides, o.Output, all)
		return all.Wrote(o.Output).Said(besides.String())
	})
}

// made says what was written.
func made(w io.Writer, dir string, j *job.Job, all format.Contents) error {
	if _, err := fmt.Fprintf(w, "%s, in %s:\n", header.Clean(j.Plan.Title), plain.Text(dir)); err != nil {
		return err
	}
	if _, err := io.WriteString(w, format.Said(j)+"\n"); err != nil {
		return err
	}
	if err := all.List(w); err != nil {
		return err
	}
	return beside(w, dir, all)
}

// beside says what lies there of other plans, and what the typeface lacks.
func beside(w io.Writer, dir string, all format.Contents) error {
	if err := all.Stale(w, dir); err != nil {
		return err
	}
	_, err := io.WriteString(w, command.LineOf(all.Lacks()))
	return err
}
