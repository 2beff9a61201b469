// Package acquaint asks whatever is at a port what it is, at the usual speeds, for the
// command and for the page, and says what to do where nobody answers.
package acquaint

import (
	"io"
	"slices"
	"strings"

	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/host"
	"seamrail/cmd/internal/starter"
	"seamrail/export/drive"
	"seamrail/export/drive/virtual"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/rig/rigfile"
)

// Options says what is asked.
type Options struct {
	Port    string
	Virtual bool     // a rig made of software, in place of the port
	Like    *rig.Rig // the rig that it is made after; nil for the starter's
	Mishap  string   // what is amiss with it, one of Mishaps; "" = nothing
	Baud    int      // the only speed to try; 0 = the usual ones

	// Keep saves what went over the wire at the last speed that was tried; nil keeps nothing.
	Keep func(write func(io.Writer) error) error

	Dial  drive.Dial                                     // in place of a port; nil = none
	Open  func(name string, baud int) (host.Port, error) // nil = host.Open
	Ports func() ([]host.PortFacts, error)               // nil = host.Ports
}

// where is the controller, in words.
func (o Options) where() string {
	if o.Virtual {
		return "a rig made of software"
	}
	return "the controller at " + o.Port
}

// bauds are the speeds to try.
func (o Options) bauds() []int {
	if o.Baud > 0 {
		return []int{o.Baud}
	}
	return drive.Bauds()
}

// Meet learns what is at the port, telling what it does. The error says what to do, and
// is the rig's.
func Meet(o Options, tell func(string)) (rigfile.Board, error) {
	dial, err := o.dial()
	if err != nil {
		return rigfile.Board{}, err
	}
	var kept keeper
	if o.Keep != nil {
		dial = kept.around(dial)
	}
	b, err := drive.Acquaint(dial, o.bauds(), tell)
	unsaved := kept.save(o, b.Kind.String())
	if err != nil {
		return b, exit.Failed("%w%s", err, bulleted(o.advice(err)))
	}
	b.From = o.where()
	return b, unsaved
}

// bulleted puts each of some texts on a line of its own.
func bulleted(list []string) string {
	if len(list) == 0 {
		return ""
	}
	return "\n- " + strings.Join(list, "\n- ")
}

func (o Options) dial() (drive.Dial, error) {
	switch {
	case o.Dial != nil:
		return o.Dial, nil
	case o.Virtual:
		return o.software()
	}
	open := o.Open
	if open == nil {
		open = host.Open
	}
	return func(baud int) (drive.Wire, error) {
		port, err := open(o.Port, baud)
		if err != nil {
			return nil, err
		}
		return host.New(port, baud, nil, nil), nil
	}, nil
}

// mishaps are what may be amiss with a rig made of software, to see what is said then.
var mishaps = []struct {
	word   string
	change func(o *virtual.Options)
}{
	{"silent", func(o *virtual.Options) { o.Faults = []virtual.Fault{{Kind: virtual.FallSilent}} }},
	{"speed", func(o *virtual.Options) { o.Baud = oddBaud }},
	{"unplugged", func(o *virtual.Options) { o.Faults = []virtual.Fault{{Kind: virtual.Vanish, At: unplugged}} }},
	{"stranger", func(o *virtual.Options) {
		o.Faults = []virtual.Fault{{Kind: virtual.FallSilent, At: spoken}, {Kind: virtual.Garble, At: spoken / 2, Text: "LAMP 4 READY\r\n"}}
	}},
}

// oddBaud is a speed that nobody tries, and the times are while it is listened to.
const (
	oddBaud   = 74880
	unplugged = 5e8 // ns
	spoken    = 1e9 // ns, before a virtual board has begun
)

// Mishaps are the words for what may be amiss.
func Mishaps() []string {
	var out []string
	for _, m := range mishaps {
		out = append(out, m.word)
	}
	return out
}

// software opens a rig made of software, whose time flies.
func (o Options) software() (drive.Dial, error) {
	var r rig.Rig
	if o.Like != nil {
		r = *o.Like
	} else if starters, _, err := rig.Decode(starter.RigName, starter.Rig()); err == nil {
		r = starters
	} else {
		return nil, err
	}
	if !r.Controller.Kind.Driven() {
		return nil, exit.Misused("%s is set and started by hand: nothing is sent to it, and nothing answers", r.Name)
	}
	board := virtual.Of(r)
	if board.Greeting == "" {
		board.Greeting = "Virtual rig, ready"
	}
	if i := slices.Index(Mishaps(), o.Mishap); i >= 0 {
		mishaps[i].change(&board)
	}
	return func(baud int) (drive.Wire, error) {
		board := board
		board.HostBaud = baud
		return host.NewFast(virtual.New(board), nil, nil), nil
	}, nil
}
