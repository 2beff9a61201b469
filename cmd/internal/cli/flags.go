package cli

import (
	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"seamrail/motion/source"
)

// ShotFlags are the flags of every command that plans a shot: they take the
// place of values in the file.
type ShotFlags struct {
	Shot string // file name; "" for the built-in shot
	Rig  string // file name that takes the place of the shot's rig
	Axis string // the axis that the move flags speak of
	set  *pflag.FlagSet

	known *understood // in place of all of these
	ahead bool        // what the controller makes of the shot will be asked for
}

// shotFlag is a flag and the key of the shot file it stands for. move is the
// kind of move the key belongs to; it is empty for keys outside the axes.
type shotFlag struct {
	name, key, move, usage string
}

var shotFlags = []shotFlag{
	{"capture", "clock.capture", "", "capture `RATE` of the camera, such as 119.88"},
	{"playback", "clock.playback", "", "playback `RATE` of the timeline, such as 23.976"},
	{"retime", "clock.retime", "", "`RATIO` of picture speed to real speed, such as 1/5"},
	{"loop", "clock.loop", "", "`LENGTH` on screen, such as \"6 s\" or \"144 frames\""},
	{"rounds", "take.rounds", "", "record `N` rounds in a take"},
	{"from", "from", thereAndBack, "near `END` of the move, such as \"40 mm\""},
	{"to", "to", thereAndBack, "far `END` of the move, such as \"100 mm\""},
	{"law", "law", thereAndBack, "motion `LAW`, such as 3-4-5 or harmonic"},
	{"dwell-far", "dwell-far", thereAndBack, "`TIME` at rest at the far end, such as \"12 frames\""},
	{"dwell-near", "dwell-near", thereAndBack, "`TIME` at rest at the near end"},
	{"cycles", "cycles", thereAndBack, "go there and back `N` times in a loop"},
	{"turns", "turns", turn, "turn the table `N` times in a loop, such as 1/6"},
}

// The moves that flags speak of, and the axes they mean in a shot that has
// none with such a move.
const (
	thereAndBack = "there-and-back"
	turn         = "turn"
	railAxis     = "rail"
	tableAxis    = "table"
)

// register adds the flags to a command.
func (f *ShotFlags) register(c *cobra.Command) {
	f.set = c.Flags()
	for _, x := range shotFlags {
		f.set.String(x.name, "", x.usage)
	}
	f.set.StringVar(&f.Rig, "rig", "", "read the rig from `FILE`, not where the shot says")
	f.set.StringVar(&f.Axis, "axis", "", "`AXIS` that the flags of the move speak of, such as rail")
	_ = c.RegisterFlagCompletionFunc("law", completeLaw)
	_ = c.MarkFlagFilename("rig", "toml")
}

// given tells whether a flag was on the command line, and its text.
func (f *ShotFlags) given(name string) (string, bool) {
	flag := f.set.Lookup(name)
	if flag == nil || !flag.Changed {
		return "", false
	}
	return flag.Value.String(), true
}

// overrides returns the values on the command line, for a shot whose axes are
// looked up with axisOf: it names the axis that has a move.
func (f *ShotFlags) overrides(axisOf func(move string) string) []source.Override {
	var out []source.Override
	for _, x := range shotFlags {
		text, ok := f.given(x.name)
		if !ok {
			continue
		}
		path := x.key
		if x.move != "" {
			path = source.Join("axis", axisOf(x.move)) + "." + x.key
		}
		out = append(out, source.Override{Path: path, Text: text, Origin: "--" + x.name})
	}
	return out
}

// bare tells whether the command line describes a whole rail move by itself.
func (f *ShotFlags) bare() bool {
	_, from := f.given("from")
	_, to := f.given("to")
	return f.Shot == "" && from && to
}
