package cli

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"seamrail/cmd/internal/starter"
	"seamrail/cmd/internal/whole"
	"seamrail/motion/rig"
	"seamrail/motion/shot"
)

// NewOptions is what the new command was asked.
type NewOptions struct {
	Streams Streams
	Dir     string
	Kind    string // of the rig's controller
	Clip    bool   // a sequence and its shots too
	Force   bool
}

// NewCmdNew returns the new command. A nil run means the real one.
func NewCmdNew(s Streams, run func(*NewOptions) error) *cobra.Command {
	o := &NewOptions{Streams: s}
	if run == nil {
		run = newRun
	}
	c := &cobra.Command{
		Use:   "new [DIR]",
		Short: "Write a commented shot and rig to start from",
		Long: `Write a shot file and a rig file to start from, with every line explained, and
the schemas that let an editor check and complete them. DIR is made if it is
not there; without it the files go into the current folder. Files that are
already there are left alone unless --force is given.`,
		Example: `  seamrail new lantern
  seamrail plan lantern/lantern.toml
  seamrail new lantern --controller lockstep
  seamrail new day --sequence`,
		Args: atMost("one folder"),
		RunE: func(_ *cobra.Command, args []string) error {
			if o.Dir = first(args); o.Dir == "" {
				o.Dir = "."
			}
			return run(o)
		},
	}
	c.Flags().StringVar(&o.Kind, "controller", rig.Buffered.String(), "`KIND` of the rig's controller: buffered, lockstep or step-player")
	_ = c.RegisterFlagCompletionFunc("controller", completeKind)
	c.Flags().BoolVar(&o.Clip, "sequence", false, "write a sequence of shots too")
	c.Flags().BoolVar(&o.Force, "force", false, "write over files that are already there")
	return c
}

func newRun(o *NewOptions) error {
	kind, ok := rig.KindNamed(o.Kind)
	if !ok {
		return misused("--controller %q must be one of %s", o.Kind, strings.Join(rig.KindNames(), ", "))
	}
	files := []whole.File{
		{Name: starter.ShotName, Fill: constant(starter.Shot())},
		{Name: starter.RigName, Fill: constant(starter.RigWith(kind))},
		{Name: "shot.schema.json", Fill: constant(shot.Schema())},
		{Name: "rig.schema.json", Fill: constant(rig.Schema())},
	}
	if o.Clip {
		more, err := clipFiles()
		if err != nil {
			return err
		}
		files = append(files, more...)
	}
	if !o.Force {
		if err := absent(o.Dir, files); err != nil {
			return err
		}
	}
	if err := whole.Folder(o.Dir, files, nil); err != nil {
		return err
	}
	shotFile := filepath.Join(o.Dir, starter.ShotName)
	_, err := fmt.Fprintf(o.Streams.Out, `Wrote to %s:
  %-18s the shot: what the picture should do
  %-18s the rig: what your machine can do; put its numbers here first
  %-18s for editors that check as you type
  %-18s the same for the rig
Next: seamrail plan %s
`, o.Dir, files[0].Name, files[1].Name, files[2].Name, files[3].Name, shotFile)
	if err != nil || !o.Clip {
		return err
	}
	return clipWords(o)
}

// absent makes sure that nothing would be written over.
func absent(dir string, files []whole.File) error {
	for _, f := range files {
		path := filepath.Join(dir, f.Name)
		if _, err := os.Lstat(path); err == nil {
			return fmt.Errorf("%s is already there and nothing was written; --force writes over it", path)
		}
	}
	return nil
}

func constant(data []byte) func(io.Writer) error {
	return func(w io.Writer) error {
		_, err := io.Copy(w, bytes.NewReader(data))
		return err
	}
}
