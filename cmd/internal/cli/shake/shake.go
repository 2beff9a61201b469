package shake

import (
	"io"

	"github.com/spf13/cobra"

	"seamrail/cmd/internal/cli/command"
	"seamrail/export/report/shakereport"
	"seamrail/plot/chart/shakeplot"
)

// Options is what the shake command was asked.
type Options struct {
	Streams   command.Streams
	Shot      command.ShotFlags
	Frequency string
	Damping   string
	Peaks     []string // "4.2 at 0.31 s"
	RingDown  string   // a record of acceleration, as a file
	Column    int      // of the record, counted from 1 after the time; 0 = the liveliest
	Pixels    string   // of the picture to a millimetre
	JSON      bool
	Output    string // a picture as well; "" for none
}

// NewCmdShake returns the shake command. A nil run means the real one.
func NewCmdShake(s command.Streams, run func(*Options) error) *cobra.Command {
	o := &Options{Streams: s}
	c := command.OfShot(&cobra.Command{
		Use:   "shake [SHOT]",
		Short: "Tell what a move leaves swinging, and what would leave less",
		Long: `Tell how far what an axis carries swings beside its carriage over the loop, and
what is left of it in each dwell; then which laws, durations and dwells, in
whole frames, leave less, and what a move leaves that is shaped to cancel it.

The rig has to be knocked at once: lay a phone on the carriage that records
acceleration, tap the carriage along the rail, and give the record with
--ring-down, or read peaks off it and give them with --peaks. The line to keep
in the rig file is printed. --frequency tries any other. Without an --axis, it
is the first whose swing the rig file knows, or that moves there and back.`,
		Example: `  seamrail shake lantern.toml
  seamrail shake --frequency "6 Hz" --damping "3 %" -o shake.png
  seamrail shake lantern.toml --ring-down knock.csv
  seamrail shake --peaks "8.1 at 0.10 s,6.7 at 0.29 s,5.6 at 0.48 s" --json`,
	}, &o.Shot, o, run, shakeRun)
	o.register(c)
	return c
}

func (o *Options) register(c *cobra.Command) {
	f := c.Flags()
	f.StringVar(&o.Frequency, "frequency", "", "natural `FREQUENCY` of what the axis carries, such as \"6 Hz\"")
	f.StringVar(&o.Damping, "damping", "", "its damping, as a `SHARE` of critical, such as \"3 %\"")
	f.StringSliceVar(&o.Peaks, "peaks", nil, "`PEAKS` as it comes to rest, such as \"4.2 at 0.31 s\", with commas between")
	f.StringVar(&o.RingDown, "ring-down", "", "read a record of acceleration from `FILE`: times and columns, as CSV")
	f.IntVar(&o.Column, "column", 0, "use column `N` of the record, the time not counted, not the one that moves most")
	f.StringVar(&o.Pixels, "pixels-per-mm", "", "`N` pixels of the picture to a mm of the product")
	f.BoolVar(&o.JSON, "json", false, "report as JSON ("+shakereport.Schema+")")
	f.StringVarP(&o.Output, "output", "o", "", "draw it to `FILE` too, ending in .png, .svg or .pdf")
	_ = c.MarkFlagFilename("ring-down", "csv", "tsv", "txt")
}

func shakeRun(o *Options) error {
	kind, err := command.OptionalKind(o.Output)
	if err != nil {
		return err
	}
	d, err := o.survey()
	if err != nil {
		return err
	}
	if err := command.Tell(o.Streams, o.JSON, d); err != nil || kind == "" {
		return err
	}
	picture, err := shakePicture(d)
	if err != nil {
		return err
	}
	return command.DrawToo(o.Streams, o.Output, o.JSON, func(w io.Writer) error { return shakeplot.Draw(w, kind, picture) })
}
