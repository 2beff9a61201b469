package command

import (
	"fmt"
	"io"
	"slices"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/job"
	"seamrail/motion/base/plain"
	"seamrail/motion/edit/selects"
	"seamrail/motion/law"
	"seamrail/motion/law/optimal"
	"seamrail/motion/move"
)

// ShotFlags are the flags of every command that plans a shot: they take the
// place of values in the file.
type ShotFlags struct {
	Shot string // file name; "" for the built-in shot
	Rig  string // file name that takes the place of the shot's rig
	Axis string // the axis that the move flags speak of
	// Rigs are the files where several may be named; Rig is the only one of them.
	Rigs []string
	// Without are axes and stands of the shot that are left out.
	Without []string
	set     *pflag.FlagSet
	own     []shotFlag // those that were added; a command may have its own of the name of another
	several bool       // rigs may be named
}

// shotFlag is a flag and the key of the shot file it stands for. of is what axis has
// the key; it is nil for keys outside the axes.
type shotFlag struct {
	name, key string
	of        *job.Spoken
	usage     string
}

var shotFlags = []shotFlag{
	{"capture", "clock.capture", nil, "capture `RATE` of the camera, such as 119.88"},
	{"playback", "clock.playback", nil, "playback `RATE` of the timeline, such as 23.976"},
	{"retime", "clock.retime", nil, "`RATIO` of picture speed to real speed, such as 1/5"},
	{"loop", "clock.loop", nil, "`LENGTH` on screen, such as \"6 s\" or \"144 frames\""},
	{"rounds", "take.rounds", nil, "record `N` rounds in a take"},
	{"move", "move", job.Rail, "what the axis does, as a shot file names its `MOVE`: through, turn, hold, ..."},
	{"from", "from", job.Rail, "near `END` of the move, such as \"40 mm\""},
	{"to", "to", job.Rail, "far `END` of the move, such as \"100 mm\""},
	{"law", "law", job.Rail, "motion `LAW`, such as 3-4-5 or harmonic"},
	{"dwell-far", "dwell-far", job.Rail, "`TIME` at rest at the far end, such as \"12 frames\""},
	{"dwell-near", "dwell-near", job.Rail, "`TIME` at rest at the near end"},
	{"cycles", "cycles", job.Rail, "go there and back `N` times in a loop"},
	{"at", "at", job.Rail, "`PLACE` of an axis that holds, such as \"60 mm\""},
	{"turns", "turns", job.Table, "turn the table `N` times in a loop, such as 1/6"},
	{"symmetry", "symmetry", job.Table, "`N` faces of the product on the table look alike"},
}

// SeveralRigs lets several rigs be named. It is called before flags are added.
func (f *ShotFlags) SeveralRigs() { f.several = true }

// Register adds the flags to a command.
func (f *ShotFlags) Register(c *cobra.Command) {
	f.add(c, shotFlags)
	f.set.StringVar(&f.Axis, "axis", "", "`AXIS` that the flags of the move speak of, such as rail")
	_ = c.RegisterFlagCompletionFunc("law", CompleteLaw)
	_ = c.RegisterFlagCompletionFunc("move", completeMove)
	f.registerRig(c)
}

// RegisterSome adds a few of the flags to a command, and the one of the rig.
func (f *ShotFlags) RegisterSome(c *cobra.Command, names ...string) {
	f.add(c, slices.DeleteFunc(slices.Clone(shotFlags), func(x shotFlag) bool { return !slices.Contains(names, x.name) }))
	f.registerRig(c)
}

func (f *ShotFlags) add(c *cobra.Command, flags []shotFlag) {
	f.set, f.own = c.Flags(), flags
	for _, x := range flags {
		f.set.String(x.name, "", x.usage)
	}
}

// registerRig adds the flags that say what the shot is planned on.
func (f *ShotFlags) registerRig(c *cobra.Command) {
	if f.several {
		f.set.StringArrayVar(&f.Rigs, "rig", nil, "read the rig from `FILE` or NAME.toml, not where the shot says; given again, look on each")
	} else {
		f.set.StringVar(&f.Rig, "rig", "", "read the rig from `FILE` or NAME.toml, not where the shot says")
	}
	f.set.StringArrayVar(&f.Without, "without", nil, "leave `AXIS` out, and what speaks of it; such as table, on a rig that has none")
	_ = c.MarkFlagFilename("rig", "toml")
}

// Given tells whether a flag was on the command line, and its text.
func (f *ShotFlags) Given(name string) (string, bool) {
	flag := f.set.Lookup(name)
	if flag == nil || !flag.Changed {
		return "", false
	}
	return flag.Value.String(), true
}

// Words are what of the command line a function finds in its flags.
func (f *ShotFlags) Words(find func(*pflag.FlagSet) []string) []string { return find(f.set) }

// Source is where the flags say that the shot comes from.
func (f *ShotFlags) Source() job.Source {
	if len(f.Rigs) == 1 {
		f.Rig = f.Rigs[0]
	}
	x := job.Source{Shot: f.Shot, Rig: job.RigNamed(f.Rig, f.Shot), Axis: f.Axis, Without: f.Without}
	for _, k := range f.own {
		if text, ok := f.Given(k.name); ok {
			x.Over = append(x.Over, job.Value{Key: k.key, Of: k.of, Text: text, Origin: "--" + k.name})
		}
	}
	return x
}

// Job loads, plans and checks the shot.
func (f *ShotFlags) Job(in io.Reader) (*job.Job, error) { return f.Source().Job(in) }

func completeMove(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	return move.Names(), cobra.ShellCompDirectiveNoFileComp
}

// CompleteLaw completes the name of a motion law.
func CompleteLaw(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	return append(law.Names(), optimal.Made()...), cobra.ShellCompDirectiveNoFileComp
}

// NoStopHelp is what --no-stop does.
const NoStopHelp = "gcode: go on from the start of the take without waiting for the operator"

// TooLong is an error for a count-in that nobody waits for.
func TooLong(sec int) error {
	if sec < 0 || sec > job.MaxCountIn {
		return exit.Misused("--count-in %d must be from 0 to %d seconds", sec, job.MaxCountIn)
	}
	return nil
}

// WarnLeftOut tells of takes that are kept and yet not handed on.
func WarnLeftOut(w io.Writer, takes selects.Takes) {
	for _, l := range takes.LeftOut {
		Complain(w, fmt.Errorf("take %d is kept, but left out: %s", l.Take, l.Why))
	}
	if takes.Unread > 0 {
		Complain(w, fmt.Errorf("%s of the log cannot be read; which takes are kept may have been said there: see \"seamrail takes\"", plain.Count(takes.Unread, "line")))
	}
}
