package newfiles

import (
	"bufio"
	"bytes"
	"cmp"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"seamrail/cmd/internal/atomicfile"
	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/starter"
	"seamrail/export/report/filesreport"
	"seamrail/motion/base/list"
	"seamrail/motion/base/plain"
	"seamrail/motion/edit/sequence"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/setup"
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
	Told    command.Told
	Shot    kindOptions

	answers *bufio.Reader // of who is asked
	into    bool          // a folder was named
}

// NewCmdNew returns the new command. A nil run means the real one.
func NewCmdNew(s command.Streams, run func(*Options) error) *cobra.Command {
	o := &Options{Streams: s, Dir: "."}
	o.Read.Of.Open = s.OpenPort
	c := &cobra.Command{
		Use:   "new [KIND] [DIR]",
		Short: "Write a commented shot and rig to start from",
		Long: `Write a shot file and a rig file to start from, with every line explained, and
the schemas that let an editor check and complete them. DIR is made if it is
not there; without it the files go into the current folder. Files that are
already there are left alone unless --force is given.

KIND is a kind of shot:

` + kindLines() + `
In a terminal the five numbers that matter for that kind are asked, one after the
other, unless one is given as a flag; what is not answered stays as it is. Without
a KIND a terminal is shown the list, and otherwise the built-in shot is written. A
folder that is called as a kind is written to as ./NAME.

The shot is made for the rig that is written beside it, with --no-table for one
without a turntable, or for a rig file of your own: then --rig names it, and ends
and axes are those of that rig.

With --port the rig file is begun from what the controller there says of itself, as
"seamrail connect" asks it. Nothing moves, but opening the port starts many boards
anew: a carriage on an incline may fall meanwhile. Each line then says how it is
known, and what a controller cannot know is a question, which every plan names.`,
		Example: `  seamrail new lantern
  seamrail new pass my-pass --capture 119.88 --loop "8 s" --distance "320 mm"
  seamrail new hand bead --no-table --fall "200 mm"
  seamrail new label mark --rig my-rig.toml --magnification 1:3
  seamrail new lantern --controller lockstep
  seamrail new lantern --table-letter Y
  seamrail new lantern --port /dev/ttyUSB0
  seamrail new day --sequence`,
		Args: atMostTwo,
		RunE: func(_ *cobra.Command, args []string) error {
			if err := o.named(args); err != nil {
				return err
			}
			return command.Or(run, newRun)(o)
		},
		ValidArgsFunction: completeShotKind,
	}
	c.Flags().StringVar(&o.Kind, "controller", rig.Buffered.String(), "`KIND` of the rig's controller: "+anyOf(rig.KindNames()))
	_ = c.RegisterFlagCompletionFunc("controller", completeKind)
	c.Flags().StringVar(&o.Table, "table-letter", "", "`LETTER` of the turntable: Y or Z on a board that has X, Y and Z alone, A on many others")
	_ = c.RegisterFlagCompletionFunc("table-letter", completeTable)
	o.Read.register(c)
	o.Shot.register(c)
	c.Flags().BoolVar(&o.Clip, "sequence", false, "write a sequence of shots too")
	c.Flags().BoolVar(&o.Force, "force", false, "write over files that are already there")
	o.Told.RegisterFiles(c)
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
	if err := o.offer(); err != nil {
		return err
	}
	o.withoutLantern(kind)
	if err := o.Read.check(kind, o.Shot.of.Name != ""); err != nil {
		return err
	}
	if err := o.checkShot(); err != nil {
		return err
	}
	rigText := starter.RigWith(kind)
	if table != "" {
		rigText = starter.WithTableLetter(rigText, table)
	}
	atomicfile.Settle(o.Dir)
	shotName, shotText, rigText, err := o.shot(rigText)
	if err != nil {
		return err
	}
	files := []atomicfile.File{
		{Name: shotName, Fill: atomicfile.Bytes(shotText)},
		{Name: starter.RigName, Fill: atomicfile.Bytes(rigText)},
		{Name: "shot.schema.json", Fill: atomicfile.Bytes(shot.Schema())},
		{Name: "rig.schema.json", Fill: atomicfile.Bytes(rig.Schema())},
	}
	if o.ownRig() {
		files = slices.Delete(files, rigFile, rigFile+1)
	}
	if o.Clip {
		more, err := clipFiles()
		if err != nil {
			return err
		}
		files = append(files, more...)
	}
	files = slices.DeleteFunc(files, o.schemaThere)
	if err := o.absent(list.Map(files, func(f atomicfile.File) string { return f.Name })...); err != nil {
		return err
	}
	if o.Read.asked() {
		text, err := o.Read.rig(rigText, table, o.Streams.Err)
		if err != nil {
			return err
		}
		files[rigFile].Fill = atomicfile.Bytes(text)
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
	starter.SetUpName:    "a set-up: what its shots have in common",
	starter.CameraName:   "the camera of the set-up: what it is",
	starter.LensName:     "its lens",
}

const newShot = "a shot of it"

// purpose is what a file is for.
func purpose(name string) string {
	if _, ok := setup.Schemas()[name]; ok {
		return "for editors, of set-ups and what they take"
	}
	return cmp.Or(newFor[name], newShot)
}

// newWords tells what was written, and what to do next.
func newWords(o *Options, files []atomicfile.File) error {
	var b, list strings.Builder
	fmt.Fprintf(&list, "Wrote to %s:\n", plain.Text(o.Dir))
	facts := filesreport.Written()
	facts.Folder = o.Dir
	for _, f := range files {
		what := cmp.Or(o.isFor(f.Name), purpose(f.Name))
		fmt.Fprintf(&list, "  %-21s %s\n", f.Name, what)
		facts.Files = append(facts.Files, filesreport.FileOf(f.Name, what, ""))
	}
	if o.Read.asked() {
		fmt.Fprintf(&b, "First: answer the questions of %s, marked to be measured; the controller cannot know them.\n", o.in(starter.RigName))
	}
	o.holds(&b)
	fmt.Fprintf(&b, "Next: seamrail plan %s\n", o.in(files[0].Name))
	if o.Clip {
		fmt.Fprintf(&b, "      seamrail sequence %s\n", o.in(starter.SequenceName))
	}
	return o.Told.Wrote(o.Streams, list.String()+b.String(), func() filesreport.Document { return facts.Said(b.String()) })
}

// in is the name of a file of the folder, to print.
func (o *Options) in(name string) string { return plain.Text(filepath.Join(o.Dir, name)) }

// absent makes sure that nothing would be written over that is not to be.
func (o *Options) absent(names ...string) error {
	if o.Force {
		return nil
	}
	for _, name := range names {
		path := filepath.Join(o.Dir, name)
		if _, err := os.Lstat(path); err != nil {
			continue
		}
		fit := "--force writes over it"
		if name == starter.RigName && o.Shot.of.Name != "" && !o.Read.asked() {
			fit = "--rig " + path + " makes the shot for the rig that it describes, and " + fit
		}
		return fmt.Errorf("%s is already there and nothing was written; %s", path, fit)
	}
	return nil
}

// schemaThere tells whether a file is a schema that the folder has already, to the byte,
// as one has in which a shot was made before.
func (o *Options) schemaThere(f atomicfile.File) bool {
	var ours bytes.Buffer
	if !strings.HasSuffix(f.Name, ".schema.json") || f.Fill(&ours) != nil {
		return false
	}
	there, err := os.ReadFile(filepath.Join(o.Dir, f.Name))
	return err == nil && bytes.Equal(there, ours.Bytes())
}

// clipSchema is what the schema of a sequence file is called.
const clipSchema = "sequence.schema.json"

// clipFiles are the files of the built-in sequence, but for the rig they share
// with the built-in shot.
func clipFiles() ([]atomicfile.File, error) {
	held, err := starter.Clip()
	if err != nil {
		return nil, err
	}
	delete(held, starter.RigName)
	var out []atomicfile.File
	for _, name := range slices.Sorted(maps.Keys(held)) {
		out = append(out, atomicfile.File{Name: name, Fill: atomicfile.Bytes(held[name])})
	}
	schemas := setup.Schemas()
	schemas[clipSchema] = sequence.Schema()
	for _, name := range slices.Sorted(maps.Keys(schemas)) {
		out = append(out, atomicfile.File{Name: name, Fill: atomicfile.Bytes(schemas[name])})
	}
	return out, nil
}

func completeTable(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	return strings.Split(starter.TableLetters, ""), cobra.ShellCompDirectiveNoFileComp
}

func completeKind(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	return rig.KindNames(), cobra.ShellCompDirectiveNoFileComp
}

// anyOf lists names of which one is chosen.
func anyOf(names []string) string {
	last := len(names) - 1
	return strings.Join(names[:last], ", ") + " or " + names[last]
}
