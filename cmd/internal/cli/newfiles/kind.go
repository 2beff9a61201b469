package newfiles

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/starter"
	"seamrail/cmd/internal/starter/kinds"
	"seamrail/cmd/internal/textfile"
	"seamrail/export/report"
	"seamrail/motion/spec/filekind"
	"seamrail/motion/spec/rig"
)

// kindOptions say which kind of shot is written, and what it is told.
type kindOptions struct {
	NoTable bool
	of      kinds.Kind // without a name for the built-in shot
	set     *pflag.FlagSet
}

// numberWords are the flags that answer the questions of all kinds, with what they are.
var numberWords = []struct{ name, usage string }{
	{"capture", "capture `RATE` of the camera, such as 119.88"},
	{"loop", "`LENGTH` on screen, such as \"6 s\" or \"144 frames\""},
	{"from", "where the carriage sets out, such as \"40 mm\"; an `END` of its way"},
	{"to", "the other `END`, such as \"100 mm\""},
	{"distance", "`DISTANCE` from the lens to the product's axis, such as \"400 mm\""},
	{"hole", "out-of-dark: `DIAMETER` of the hole"},
	{"magnification", "label: `RATIO` of image to object, such as 1:2"},
	{"fall", "hand: `HEIGHT` that it falls"},
	{"faces", "`N` sides of the product look alike"},
	{"onward", "turntable: it turns on by `N` of these sides in a loop"},
	{"interval", "time-lapse: real `TIME` from one picture to the next"},
	{"exposure", "stop-motion: real `TIME` that each frame is exposed"},
	{"rest", "still-turn: `PERCENT` of the loop that it stands still"},
}

func (o *kindOptions) register(c *cobra.Command) {
	o.set = c.Flags()
	o.set.BoolVar(&o.NoTable, "no-table", false, "make a KIND of shot for a rig without a turntable")
	for _, w := range numberWords {
		o.set.String(w.name, "", w.usage)
	}
}

// given are the numbers on the command line.
func (o *kindOptions) given() kinds.Answers {
	out := kinds.Answers{}
	for _, w := range numberWords {
		if f := o.set.Lookup(w.name); f.Changed {
			out[w.name] = f.Value.String()
		}
	}
	return out
}

// kindLines lists the kinds for a help.
func kindLines() string {
	var b strings.Builder
	for _, k := range kinds.All() {
		fmt.Fprintf(&b, "  %-15s %s\n", k.Name, k.Line)
	}
	return b.String()
}

func atMostTwo(_ *cobra.Command, args []string) error {
	if len(args) > 2 {
		return exit.Misused("takes a kind of shot and a folder, and no more; %q is too much", args[2])
	}
	return nil
}

// named reads what the arguments name.
func (o *Options) named(args []string) error {
	if len(args) == 0 {
		return nil
	}
	of, ok := kinds.Named(args[0])
	switch {
	case ok:
		o.Shot.of = of
		args = args[1:]
	case len(args) == 2:
		return exit.Misused("%q must be a kind of shot: %s", args[0], strings.Join(kinds.Names(), ", "))
	}
	if len(args) > 0 {
		o.Dir, o.into = args[0], true
	}
	return nil
}

// checkShot refuses flags that make no sense with the kind, or without one.
func (o *Options) checkShot() error {
	numbers := o.Shot.given()
	switch {
	case o.Shot.of.Name == "" && (len(numbers) > 0 || o.Shot.NoTable):
		for _, w := range numberWords {
			if _, ok := numbers[w.name]; ok {
				return exit.Misused("--%s is for a KIND of shot: %s", w.name, strings.Join(kinds.Names(), ", "))
			}
		}
		return exit.Misused("--no-table is for a KIND of shot: %s", strings.Join(kinds.Names(), ", "))
	case o.Shot.of.Name != "" && o.Clip:
		return exit.Misused("--sequence writes shots of its own; leave the KIND away")
	case o.ownRig():
		for _, name := range []string{"controller", "table-letter", "baud"} {
			if o.Shot.set.Changed(name) {
				return exit.Misused("--%s is for a rig file that is written, and --rig names one that is there", name)
			}
		}
	}
	return nil
}

// withoutLantern picks a kind of shot for a rig that cannot film the built-in one, which
// has a turntable.
func (o *Options) withoutLantern(kind rig.ControllerKind) {
	if o.Shot.of.Name == "" && !kind.Driven() && !o.Clip && !o.Read.asked() {
		o.Shot.of = kinds.ByHand()[0]
	}
}

// ownRig tells whether the shot is made for a rig file that is there already.
func (o *Options) ownRig() bool {
	return o.Shot.of.Name != "" && o.Read.Rig != "" && !o.Read.Of.Virtual
}

// shot is the shot that is written, and the rig it is made for.
func (o *Options) shot(rigText []byte) (name string, text, onRig []byte, err error) {
	of := o.Shot.of
	if of.Name == "" {
		return starter.ShotName, starter.Shot(), rigText, nil
	}
	rigText = of.BuiltIn(rigText, !o.Shot.NoTable)
	file, named := starter.RigName, starter.RigName
	if o.ownRig() {
		if rigText, err = textfile.Read(o.Read.Rig); err != nil {
			return "", nil, nil, fmt.Errorf("the rig of the shot: %w", err)
		}
		file = o.Read.Rig
		named = seenFrom(o.Dir, file)
	}
	r, _, err := rig.Decode(file, rigText)
	if err != nil {
		return "", nil, nil, textfile.Rather(err, file, rigText, filekind.Rig)
	}
	b := kinds.BenchOf(r, !o.Shot.NoTable)
	if err := of.Suits(b); err != nil {
		return "", nil, nil, err
	}
	answers := o.Shot.given()
	if err := o.asked(b, answers); err != nil {
		return "", nil, nil, err
	}
	if len(answers) == 0 && o.Streams.Asks {
		written := []string{of.ShotName(), starter.RigName}
		if o.ownRig() {
			written = written[:rigFile]
		}
		if err := o.absent(written...); err != nil { // before anybody has answered
			return "", nil, nil, err
		}
		if answers, err = o.ask(b); err != nil {
			return "", nil, nil, err
		}
	}
	text, err = of.Make(b, answers, named, !o.ownRig())
	if err != nil {
		return "", nil, nil, exit.Misused("--%w; nothing was written", err)
	}
	return of.ShotName(), text, rigText, nil
}

// asked refuses a number that the kind does not ask for.
func (o *Options) asked(b kinds.Bench, given kinds.Answers) error {
	var names []string
	for _, q := range o.Shot.of.Questions(b, given) {
		names = append(names, "--"+q.Name)
	}
	for _, w := range numberWords {
		if _, ok := given[w.name]; ok && !slices.Contains(names, "--"+w.name) {
			return exit.Misused("--%s is no number of %s; it has %s", w.name, o.Shot.of.Name, strings.Join(names, ", "))
		}
	}
	return nil
}

// seenFrom is the name of a file as it is seen from a folder.
func seenFrom(dir, file string) string {
	if filepath.IsAbs(file) {
		return file
	}
	rel, err := filepath.Rel(dir, file)
	if err != nil {
		return file
	}
	return filepath.ToSlash(rel)
}

// isFor says what a file is for; of the others it is "".
func (o *Options) isFor(name string) string {
	if o.Shot.of.Name != "" && name == o.Shot.of.ShotName() {
		return newFor[starter.ShotName]
	}
	return newFor[name]
}

func completeShotKind(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	if len(args) > 0 {
		return nil, cobra.ShellCompDirectiveFilterDirs
	}
	return slices.Clone(kinds.Names()), cobra.ShellCompDirectiveFilterDirs
}

// holds says whether a kind of shot holds with the numbers that were given, on the rig it
// was made for; of a rig file that is still to be filled in nothing is known.
func (o *Options) holds(b *strings.Builder) {
	if o.Shot.of.Name == "" || o.Read.asked() {
		return
	}
	j, err := job.Source{Shot: filepath.Join(o.Dir, o.Shot.of.ShotName())}.Job(nil)
	if err != nil {
		fmt.Fprintf(b, "It cannot be planned so:\n%v\n", err)
		return
	}
	h := j.Headline()
	for _, line := range report.Fold(h.Stamp+": "+h.Words, o.Streams.Columns(report.Width)) {
		fmt.Fprintln(b, line)
	}
}
