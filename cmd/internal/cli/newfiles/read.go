package newfiles

import (
	"errors"
	"strings"

	"github.com/spf13/cobra"

	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/session"
	"seamrail/cmd/internal/starter"
	"seamrail/cmd/internal/starter/kinds"
	"seamrail/cmd/internal/textfile"
	"seamrail/export/drive"
	"seamrail/motion/spec/filekind"
	"seamrail/motion/spec/rig"
)

// readOptions say from which controller a rig file is begun.
type readOptions struct {
	Port    string
	Baud    int
	Virtual bool
	Rig     string // file of the rig that is made of software
	// Open connects to a controller, or to a rig made of software.
	Open func(r rig.Rig) (session.World, error)
}

// usualBaud is the speed of the wire of most boards.
const usualBaud = 115200

func (o *readOptions) register(c *cobra.Command) {
	f := c.Flags()
	f.StringVar(&o.Port, "port", "", "begin the rig file from the controller at `PORT`; see \"seamrail ports\"")
	f.IntVar(&o.Baud, "baud", usualBaud, "speed of that port in `BITS` a second")
	f.BoolVar(&o.Virtual, "virtual", false, "begin it from a rig made of software, to see how that goes")
	f.StringVar(&o.Rig, "rig", "", "the rig that a KIND of shot is made for is that of `FILE`; with --virtual, the rig made of software is")
	c.MarkFlagsMutuallyExclusive("port", "virtual")
	_ = c.MarkFlagFilename("port")
	_ = c.MarkFlagFilename("rig", "toml")
}

// asked tells whether a controller is to be read at all.
func (o *readOptions) asked() bool { return o.Port != "" || o.Virtual }

// check refuses flags that make no sense together.
func (o *readOptions) check(kind rig.ControllerKind, shot bool) error {
	switch {
	case o.Baud <= 0:
		return exit.Misused("--baud must be above 0, such as %d", usualBaud)
	case o.Rig != "" && !o.Virtual && o.Port != "":
		return exit.Misused("--rig is for --virtual: a rig of metal says itself what it is")
	case o.Rig != "" && !o.Virtual && !shot:
		return exit.Misused("--rig is for --virtual, or for a KIND of shot, which is then made for that rig: %s", strings.Join(kinds.Names(), ", "))
	case o.asked() && !kind.Counted():
		return exit.Misused("a %s controller does not print its settings in a form that is known: write its rig file by hand, from \"seamrail new --controller %s\"", kind, kind)
	}
	return nil
}

// rig returns the rig file that begins from what the controller says. A rig made
// of software is as the text has it, unless a file is named.
func (o *readOptions) rig(text []byte, table string) ([]byte, error) {
	r, err := o.software(text)
	if err != nil {
		return nil, err
	}
	b, err := o.inquire(r)
	if err != nil {
		return nil, exit.Failed("%w; nothing was written", err)
	}
	where := "the controller at " + o.Port
	if o.Virtual {
		where = "a rig made of software"
	}
	out, err := starter.RigOf(starter.Board{From: where, Baud: o.Baud, Greeting: b.Greeting, Settings: b.Settings, Table: table})
	if err != nil {
		return nil, exit.Failed("the controller was read, but %w; nothing was written", err)
	}
	return out, nil
}

func (o *readOptions) inquire(r rig.Rig) (b drive.Board, err error) {
	w, err := o.Open(r)
	if err != nil {
		return b, err
	}
	defer func() { err = errors.Join(err, w.Close()) }()
	c := rig.Buffered.Defaults()
	c.Baud = o.Baud
	return drive.Inquire(w, c)
}

// software is the rig whose controller is made of software; of a real one no
// more is known than the speed of its wire.
func (o *readOptions) software(text []byte) (rig.Rig, error) {
	name := starter.RigName
	if o.Rig != "" {
		data, err := textfile.Read(o.Rig)
		if err != nil {
			return rig.Rig{}, err
		}
		name, text = o.Rig, data
	}
	r, _, err := rig.Decode(name, text)
	r.Controller.Baud = o.Baud
	return r, textfile.Rather(err, name, text, filekind.Rig)
}

func (o *readOptions) open(r rig.Rig) (session.World, error) {
	d := session.Options{Port: o.Port, Virtual: o.Virtual, Fast: o.Virtual}
	return d.Connect(r, nil, nil)
}
