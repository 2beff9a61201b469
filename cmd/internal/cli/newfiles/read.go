package newfiles

import (
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"seamrail/cmd/internal/acquaint"
	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/starter"
	"seamrail/cmd/internal/starter/kinds"
	"seamrail/cmd/internal/textfile"
	"seamrail/motion/base/plain"
	"seamrail/motion/spec/filekind"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/rig/rigfile"
)

// readOptions say from which controller a rig file is begun.
type readOptions struct {
	Of  acquaint.Options
	Rig string // file of the rig that is made of software
}

func (o *readOptions) register(c *cobra.Command) {
	f := c.Flags()
	f.StringVar(&o.Of.Port, "port", "", "begin the rig file from the controller at `PORT`; see \"seamrail ports\"")
	f.IntVar(&o.Of.Baud, "baud", 0, "try this speed of that port alone, in `BITS` a second; 0 tries the usual ones")
	f.BoolVar(&o.Of.Virtual, "virtual", false, "begin it from a rig made of software, to see how that goes")
	f.StringVar(&o.Rig, "rig", "", "the rig that a KIND of shot is made for is that of `FILE`; with --virtual, the rig made of software is")
	c.MarkFlagsMutuallyExclusive("port", "virtual")
	_ = c.MarkFlagFilename("port")
	_ = c.MarkFlagFilename("rig", "toml")
}

// asked tells whether a controller is to be read at all.
func (o *readOptions) asked() bool { return o.Of.Port != "" || o.Of.Virtual }

// check refuses flags that make no sense together.
func (o *readOptions) check(kind rig.ControllerKind, shot bool) error {
	switch {
	case o.Of.Baud < 0:
		return exit.Misused("--baud must be above 0, or 0 for the usual speeds")
	case o.Rig != "" && !o.Of.Virtual && o.Of.Port != "":
		return exit.Misused("--rig is for --virtual: a rig of metal says itself what it is")
	case o.Rig != "" && !o.Of.Virtual && !shot:
		return exit.Misused("--rig is for --virtual, or for a KIND of shot, which is then made for that rig: %s", strings.Join(kinds.Names(), ", "))
	case o.asked() && !kind.Driven():
		return exit.Misused("nothing is sent to a %s controller, and nothing answers: write its rig file by hand, from \"seamrail new --controller %s\"", kind, kind)
	}
	return nil
}

// rig returns the rig file that begins from what the controller says, and tells what it
// does on the way. A rig made of software is as the text has it, unless a file is named.
func (o *readOptions) rig(text []byte, table string, told io.Writer) ([]byte, error) {
	name := starter.RigName
	if o.Rig != "" {
		name = o.Rig
		var err error
		if text, err = textfile.Read(name); err != nil {
			return nil, err
		}
	}
	like, _, err := rig.Decode(name, text)
	if err := textfile.Rather(err, name, text, filekind.Rig); err != nil {
		return nil, err
	}
	o.Of.Like = &like
	b, err := acquaint.Meet(o.Of, func(words string) { fmt.Fprintln(told, plain.Line(words)) })
	if err != nil {
		return nil, fmt.Errorf("%w\nnothing was written", err)
	}
	if all := b.AxisLetters(); table != "" && (all == "" || !strings.Contains(all[1:], table)) {
		return nil, exit.Failed("the controller was read, but it tells of the axes %s, and the turntable cannot be %s; nothing was written", all, table)
	}
	b.Table = table
	return rigfile.File(b), nil
}
