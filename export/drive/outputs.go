package drive

import (
	"errors"
	"slices"

	"seamrail/export/drive/stepplayer"
	"seamrail/motion/spec/rig"
)

// wired makes sure, once, that the controller has the outputs that takes switch. One
// that is in an alarm answers to none of its words, so that this is after it.
func (e *engine) wired() error {
	for ; e.found < len(e.Outputs); e.found++ {
		if err := e.m.wants(e.Outputs[e.found]); err != nil {
			return err
		}
	}
	return nil
}

// switched switches an output of the rig, which must be at rest, and brackets when the
// controller has done so.
func (e *engine) switched(o rig.Output, on bool) (span, error) {
	if on { // it counts as on before its word goes out, which may be lost
		e.lit = append(e.lit, o)
	}
	at, err := e.m.switches(o, on)
	if err == nil && !on {
		e.lit = slices.DeleteFunc(e.lit, func(l rig.Output) bool { return l.Name == o.Name })
	}
	return at, err
}

// darken switches off whatever is on, as far as the controller still listens. One that
// was reset, or is in an alarm, has done so itself.
func (e *engine) darken() {
	stops, calming := e.stops, e.calming
	e.stops, e.calming = 0, true // it is waited for whatever has come before
	for len(e.lit) > 0 && !e.gone {
		o := e.lit[0]
		e.lit = e.lit[1:]
		if _, err := e.m.switches(o, false); err != nil {
			e.Observer.Say("output " + o.Name + " may still be on: " + err.Error())
		}
	}
	e.stops, e.calming = stops, calming
}

// switches sends the line that switches an output, and waits for its answer: a controller at
// rest has done what it says by then.
func (t *lineController) switches(o rig.Output, on bool) (span, error) {
	line := o.Off
	if on {
		line = o.On
	}
	if err := t.prompt(line); err != nil {
		var f *Failure
		if errors.As(err, &f) && f.End == Refused {
			err = failed(Refused, "output %s: the board does not know what the rig file has for it: %s", o.Name, f.Detail)
		}
		return span{}, err
	}
	return t.way.said(), nil
}

// switches sends a frame that switches an output, and waits until it is obeyed.
func (p *player) switches(o rig.Output, on bool) (span, error) {
	bit := byte(1) << (o.Number - 1)
	p.outputs &^= bit
	if on {
		p.outputs |= bit
	}
	was := p.now
	p.order(stepplayer.Switch, []byte{p.outputs}, 0)
	if err := p.obeyed(); err != nil {
		return span{}, err
	}
	at := p.now.Add(-p.engine.way.bytes(ackBytes))
	return span{earlier(was, at), at, at.Add(hostGrain)}, nil
}

// wants tells whether a player has an output of the rig file.
func (p *player) wants(o rig.Output) error {
	switch {
	case p.info.Version < stepplayer.VersionOutputs:
		return failed(Mismatched, "output %s: it speaks version %d of the protocol, which has no outputs", o.Name, p.info.Version)
	case o.Number > p.info.Outputs:
		return failed(Mismatched, "output %s is number %d, and it has %d", o.Name, o.Number, p.info.Outputs)
	}
	return nil
}

// wants switches an output off before anything moves: a controller that does not know
// its word says so now.
func (t *lineController) wants(o rig.Output) error {
	_, err := t.switches(o, false)
	return err
}
