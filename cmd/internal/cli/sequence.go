package cli

import (
	"errors"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"seamrail/cmd/internal/starter"
	"seamrail/export/sequencereport"
	"seamrail/motion/filekind"
	"seamrail/motion/plain"
	"seamrail/motion/sequence"
	"seamrail/motion/source"
	"seamrail/plot/strip"
)

// SequenceOptions is what the sequence command was asked.
type SequenceOptions struct {
	Streams Streams
	File    string // "" for the built-in sequence, "-" for standard input
	Takes   string // wanted of each shot that does not say; "" as the file has it
	Output  string // a picture to draw; "" for none
	JSON    bool
}

// NewCmdSequence returns the sequence command. A nil run means the real one.
func NewCmdSequence(s Streams, run func(*SequenceOptions) error) *cobra.Command {
	o := &SequenceOptions{Streams: s}
	if run == nil {
		run = sequenceRun
	}
	c := &cobra.Command{
		Use:   "sequence [FILE]",
		Short: "Join shots into one clip and plan the day",
		Long: `Join shots into one clip: what is seen when, in frames and timecode; how the
picture moves out of every cut and into the next shot, and whether that carries
on, turns aside or goes back; whether the clip's last frame leads into its
first; the order to film in that changes rig and light least; and the real time
and the space on a card that all takes need.

Each [[shot]] of the file names a shot file in its folder or below it. Speeds
are told in picture widths per on-screen second, at the face of the product that
the eye follows; where a shot says nothing of its camera, by its axes.

Without a FILE a built-in sequence is used.`,
		Example: `  seamrail sequence clip.toml
  seamrail sequence clip.toml -o strip.png
  seamrail sequence clip.toml --json`,
		Args: atMost("one sequence file"),
		RunE: func(_ *cobra.Command, args []string) error {
			o.File = first(args)
			return run(o)
		},
	}
	f := c.Flags()
	f.StringVarP(&o.Output, "output", "o", "", "draw the clip as a strip to `FILE`, ending in .png, .svg or .pdf")
	f.StringVar(&o.Takes, "takes", "", "plan `N` takes of each shot that does not say itself")
	f.BoolVar(&o.JSON, "json", false, "report as JSON ("+sequencereport.Schema+")")
	_ = c.MarkFlagFilename("output", formats...)
	return c
}

func sequenceRun(o *SequenceOptions) error {
	format := ""
	if o.Output != "" {
		var err error
		if format, err = formatOf(o.Output); err != nil {
			return err
		}
	}
	var over []source.Override
	if o.Takes != "" {
		over = append(over, source.Override{Path: "takes", Text: o.Takes, Origin: "--takes"})
	}
	j, err := readSequence(o.File, o.Streams.In, over...)
	if err != nil {
		return err
	}
	if format != "" {
		if err := o.draw(j.clip, format); err != nil {
			return err
		}
	}
	if err := deliver(o.Streams, stdout, func(w io.Writer) error { return o.tell(w, j.report()) }); err != nil {
		return err
	}
	return j.trouble()
}

// draw writes the strip.
func (o *SequenceOptions) draw(c *sequence.Clip, format string) error {
	d, err := stripOf(c)
	if err != nil {
		return err
	}
	return deliver(o.Streams, o.Output, func(w io.Writer) error { return strip.Draw(w, format, d) })
}

// tell writes the report.
func (o *SequenceOptions) tell(w io.Writer, d sequencereport.Data) error {
	if o.JSON {
		return sequencereport.WriteJSON(w, d)
	}
	err := sequencereport.Write(w, d, sequencereport.Options{Colour: o.Streams.Colour})
	if err == nil && o.Output != "" {
		_, err = fmt.Fprintf(w, "\nWrote %s.\n", plain.Text(o.Output))
	}
	return err
}

// joined is a sequence with all its shots planned.
type joined struct {
	sequence sequence.Sequence
	jobs     []job // one for each entry, in order; what a sheet for each is made from
	clip     *sequence.Clip
}

// readSequence reads a sequence, with over in the place of what it says, and its
// shots, plans them and joins them.
func readSequence(file string, in io.Reader, over ...source.Override) (joined, error) {
	folder, name, err := openFolder(file, in)
	if err != nil {
		return joined{}, err
	}
	defer folder.close()
	data, err := folder.read(name)
	if err != nil {
		return joined{}, err
	}
	s, err := sequence.Decode(folder.path(name), data, over)
	if err != nil {
		if other := wrongKind(folder.path(name), data, filekind.Sequence); other != nil {
			err = other
		}
		return joined{}, err
	}
	jobs, err := folder.shots(s)
	if err != nil {
		return joined{}, err
	}
	planned := make([]sequence.Planned, len(jobs))
	for i, j := range jobs {
		planned[i] = sequence.Planned{Shot: j.shot, Trajectory: j.trajectory}
	}
	clip, err := sequence.Join(s, planned)
	return joined{s, jobs, clip}, err
}

func (j joined) report() sequencereport.Data {
	d := sequencereport.Data{Clip: j.clip, Defaults: j.sequence.Defaults}
	seen := map[string]bool{}
	for i, one := range j.jobs {
		name := j.sequence.Entries[i].File
		if seen[name] {
			continue
		}
		seen[name] = true
		if err := one.unable(); err != nil {
			d.Troubles = append(d.Troubles, sequencereport.Trouble{File: name, Text: err.Error()})
		}
		d.Heads = append(d.Heads, sequencereport.Head{File: name, Headline: one.headline()})
	}
	return d
}

// trouble is a LimitError where a shot must not run as it is, else nil.
func (j joined) trouble() error {
	if n := len(j.report().Troubles); n > 0 {
		return &LimitError{fmt.Sprintf("%s of the sequence must not run as it is", counted(n, "shot"))}
	}
	return nil
}

// openFolder finds the folder of a sequence and the name of its file there.
func openFolder(file string, in io.Reader) (clipFolder, string, error) {
	switch file {
	case "":
		files, err := starter.Clip()
		return clipFolder{held: files}, starter.SequenceName, err
	case stdout:
		data, err := io.ReadAll(io.LimitReader(in, largestFile))
		if err != nil {
			return clipFolder{}, "", errors.New("cannot read the sequence from standard input")
		}
		folder, err := rootOf(".")
		folder.held = map[string][]byte{stdinName: data}
		return folder, stdinName, err
	}
	return folderOf(file)
}

// stdinName is what faults call a sequence from standard input.
const stdinName = "stdin"
