package newfiles

import (
	"bytes"
	"cmp"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"seamrail/cmd/internal/atomicfile"
	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/starter"
	"seamrail/motion/base/plain"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// Options is what the new command was asked.
type Options struct {
	Streams command.Streams
	Dir     string
	Kind    string // of the rig's controller
	Table   string // the letter of the turntable; "" = as the starter has it
	Read    readOptions
	Clip    bool // a sequence and its shots too
	Force   bool
}

// NewCmdNew returns the new command. A nil run means the real one.
func NewCmdNew(s command.Streams, run func(*Options) error) *cobra.Command {
	o := &Options{Streams: s}
	o.Read.Open = o.Read.open
	if run == nil {
		run = newRun
	}
	c := &cobra.Command{
		Use:   "new [DIR]",
		Short: "Write a commented shot and rig to start from",
		Long: `Write a shot file and a rig file to start from, with every line explained, and
the schemas that let an editor check and complete them. DIR is made if it is
not there; without it the files go into the current folder. Files that are
already there are left alone unless --force is given.

With --port the rig file is begun from what the controller there prints of
itself: steps, speeds, accelerations, and what else it is set to. Nothing moves,
but opening the port starts many boards anew: a carriage on an incline may fall
meanwhile. What a controller cannot know is left to be filled in, and the file
says where; it is not understood before.`,
		Example: `  seamrail new lantern
  seamrail plan lantern/lantern.toml
  seamrail new lantern --controller lockstep
  seamrail new lantern --table-letter Y
  seamrail new lantern --port /dev/ttyUSB0
  seamrail new day --sequence`,
		Args: command.AtMost("one folder"),
		RunE: func(_ *cobra.Command, args []string) error {
			if o.Dir = command.First(args); o.Dir == "" {
				o.Dir = "."
			}
			return run(o)
		},
	}
	c.Flags().StringVar(&o.Kind, "controller", rig.Buffered.String(), "`KIND` of the rig's controller: "+anyOf(rig.KindNames()))
	_ = c.RegisterFlagCompletionFunc("controller", completeKind)
	c.Flags().StringVar(&o.Table, "table-letter", "", "`LETTER` of the turntable: Y or Z on a board that has X, Y and Z alone, A on many others")
	_ = c.RegisterFlagCompletionFunc("table-letter", completeTable)
	o.Read.register(c)
	c.Flags().BoolVar(&o.Clip, "sequence", false, "write a sequence of shots too")
	c.Flags().BoolVar(&o.Force, "force", false, "write over files that are already there")
	return c
}

// rigFile is where the rig file stands among those that are written.
const rigFile = 1

func newRun(o *Options) error {
	kind, ok := rig.KindNamed(o.Kind)
	if !ok {
		return exit.Misused("--controller %q must be one of %s", o.Kind, strings.Join(rig.KindNames(), ", "))
	}
	table := strings.ToUpper(o.Table)
	if len(table) > 1 || !strings.Contains(starter.TableLetters, table) {
		return exit.Misused("--table-letter %q must be one of %s", o.Table, strings.Join(strings.Split(starter.TableLetters, ""), ", "))
	}
	if err := o.Read.check(kind); err != nil {
		return err
	}
	rigText := starter.RigWith(kind)
	if table != "" {
		rigText = starter.WithTableLetter(rigText, table)
	}
	files := []atomicfile.File{
		{Name: starter.ShotName, Fill: constant(starter.Shot())},
		{Name: starter.RigName, Fill: constant(rigText)},
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
	atomicfile.Settle(o.Dir)
	if !o.Force {
		if err := absent(o.Dir, files); err != nil {
			return err
		}
	}
	if o.Read.asked() {
		text, err := o.Read.rig(rigText, table)
		if err != nil {
			return err
		}
		files[rigFile].Fill = constant(text)
	}
	if err := atomicfile.Folder(o.Dir, files, nil); err != nil {
		return err
	}
	return newWords(o, files)
}

// newFor is what each file is for, by its name; of the others, newShot.
var newFor = map[string]string{
	starter.ShotName:     "the shot: what the picture should do",
	starter.RigName:      "the rig: what your machine can do; put its numbers here first",
	"shot.schema.json":   "for editors that check as you type",
	"rig.schema.json":    "the same for the rig",
	starter.SequenceName: "a sequence: which shots make a clip",
	clipSchema:           "for editors, of the sequence",
}

const newShot = "a shot of it"

// newWords tells what was written, and what to do next.
func newWords(o *Options, files []atomicfile.File) error {
	var b strings.Builder
	fmt.Fprintf(&b, "Wrote to %s:\n", plain.Text(o.Dir))
	for _, f := range files {
		fmt.Fprintf(&b, "  %-21s %s\n", f.Name, cmp.Or(newFor[f.Name], newShot))
	}
	if o.Read.asked() {
		fmt.Fprintf(&b, "First: fill in the lines of %s that say FILL IN; the controller cannot know them.\n", o.in(starter.RigName))
	}
	fmt.Fprintf(&b, "Next: seamrail plan %s\n", o.in(starter.ShotName))
	if o.Clip {
		fmt.Fprintf(&b, "      seamrail sequence %s\n", o.in(starter.SequenceName))
	}
	_, err := io.WriteString(o.Streams.Out, b.String())
	return err
}

// in is the name of a file of the folder, to print.
func (o *Options) in(name string) string { return plain.Text(filepath.Join(o.Dir, name)) }

// absent makes sure that nothing would be written over.
func absent(dir string, files []atomicfile.File) error {
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

// anyOf lists names of which one is chosen.
func anyOf(names []string) string {
	last := len(names) - 1
	return strings.Join(names[:last], ", ") + " or " + names[last]
}
