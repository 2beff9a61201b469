package session

import (
	"fmt"
	"io"

	"seamrail/cmd/internal/console"
	"seamrail/cmd/internal/host"
	"seamrail/export/drive"
	"seamrail/export/drive/virtual"
	"seamrail/motion/spec/rig"
)

// World is what the engine waits on, and what has to be closed after it.
type World interface {
	drive.World
	io.Closer
}

// Connect connects to the rig that the options name.
func (o *Options) Connect(r rig.Rig, hurried, asks <-chan drive.Request) (World, error) {
	switch {
	case o.Fast:
		return host.NewFast(virtualRig(r), hurried, asks), nil
	case o.Virtual:
		return host.New(virtual.NewPort(virtualRig(r), 1), r.Controller.Baud, hurried, asks), nil
	}
	open := o.Open
	if open == nil {
		open = host.Open
	}
	port, err := open(o.Port, r.Controller.Baud)
	if err != nil {
		return nil, err
	}
	return host.New(port, r.Controller.Baud, hurried, asks), nil
}

// guard has the controller told to hold if this program dies. A rig made of software
// is worth no urgency.
func (s *session) guard(w World, u host.Urgency) {
	if s.o.Virtual {
		u = host.Ordinary
	}
	if w, ok := w.(*host.World); ok {
		w.Guard(drive.LastWordsFor(s.job.Rig), u, s.say)
	}
}

// say tells the operator what the engine does not.
func (s *session) say(text string) { fmt.Fprintln(s.out, console.Folded(text, s.o.Terminal.width())) }

// virtualRig is the rig as its file describes it. One whose greeting the file
// does not know says something all the same, as boards do.
func virtualRig(r rig.Rig) *virtual.Rig {
	o := virtual.Of(r)
	if o.Greeting == "" {
		o.Greeting = "Virtual rig, ready"
	}
	return virtual.New(o)
}
