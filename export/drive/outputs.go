package drive

import (
	"errors"
	"math"
	"slices"
	"strconv"
	"time"

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

// lights switches an output of the rig on, which must be at rest, for so many s, and
// brackets when. It is the controller that ends that: whatever becomes of this program or of
// the wire, it goes out. An exact one is as long as it is told to be.
func (e *engine) lights(o rig.Output, sec float64, exact bool) (span, error) {
	e.lit = append(e.lit, o) // it counts as on before its word goes out, which may be lost
	return e.m.lights(o, sec, exact)
}

// goesOut waits until an output is off again.
func (e *engine) goesOut(o rig.Output) error {
	err := e.m.goesOut(o)
	if err == nil {
		e.lit = slices.DeleteFunc(e.lit, func(l rig.Output) bool { return l.Name == o.Name })
	}
	return err
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
		return span{}, unknownOutput(o, err)
	}
	return t.way.said(), nil
}

// unknownOutput says what a line was for that the board refuses.
func unknownOutput(o rig.Output, err error) error {
	var f *Failure
	if errors.As(err, &f) && f.End == Refused {
		return failed(Refused, "output %s: the board does not know what the rig file has for it: %s", o.Name, f.Detail)
	}
	return err
}

// lamp is an output that a board of lines was told to switch on, to wait, and to switch off,
// all at once.
type lamp struct {
	told float64   // s between the two; 0 = it is not timed by the board
	off  int       // number of the line that ends it
	on   time.Time // when it went on
	out  time.Time // when it went out; zero = it has not
}

// lights hands over all three lines together, if the board takes them so.
func (t *lineController) lights(o rig.Output, sec float64, exact bool) (span, error) {
	t.lamp = lamp{}
	told := sec
	if exact {
		told = t.controller.ExposureDwell(sec)
	}
	lines := []string{o.On, dwellLine(told), o.Off}
	if told <= 0 || !t.takesAhead(lines) {
		t.doubt("output " + o.Name + staysOn)
		return t.switches(o, true)
	}
	if err := t.quieten(); err != nil {
		return span{}, err
	}
	quiet, waits := t.silentWay(), time.Duration(0)
	for i, line := range lines {
		if i == 1 {
			waits = seconds(t.lasts(told))
		}
		t.put(line, t.promptly(len(line)+1)+waits, nil)
	}
	t.flight[0].quiet = quiet
	t.lamp = lamp{told: told, off: t.count}
	if err := t.awaitBut(len(lines) - 1); err != nil {
		return span{}, unknownOutput(o, err)
	}
	t.lamp.on = t.way.said().at
	return t.way.said(), nil
}

// staysOn is said of an output that nobody but this program switches off.
const staysOn = " is switched off by this program alone: it stays on if that dies, or the wire is lost, while it is on"

// dwellLine is a dwell of so many s, in whole ms.
func dwellLine(sec float64) string {
	return "G4 P" + strconv.FormatFloat(math.Ceil(sec*1000-millisHair)/1000, 'f', -1, 64)
}

// millisHair is what a time may be above whole ms by rounding alone.
const millisHair = 1e-6

// takesAhead tells whether it keeps lines that come while it is at another.
func (t *lineController) takesAhead(lines []string) bool {
	n := 0
	for _, line := range lines {
		n += len(line) + 1
	}
	return n < t.controller.ReceiveBuffer && (t.keepsLines || !t.controller.Kind.OneByOne())
}

// goesOut waits for the last of the lines.
func (t *lineController) goesOut(o rig.Output) error {
	if t.lamp.told == 0 {
		_, err := t.switches(o, false)
		return err
	}
	err := t.await(o.Off)
	l := t.lamp
	if t.lamp = (lamp{}); err != nil {
		return unknownOutput(o, err)
	}
	if was := l.out.Sub(l.on).Seconds(); was < l.told*leastLit {
		return failed(Mismatched, "output %s was to be on for %.3f s and was for %.3f: look at what its board makes of %q", o.Name, l.told, was, dwellLine(l.told))
	}
	return nil
}

// leastLit is the share of its time that an output must have been on: answers are some ms
// out, and a board that takes the seconds of a dwell for ms is a thousand times out.
const leastLit = 0.5

// keeps tries, once and with an output off, whether a board that takes one line and then the
// next keeps those that come meanwhile: most have some tens of bytes for that.
func (t *lineController) keeps(o rig.Output) error {
	lines := []string{o.Off, syncLine, o.Off}
	if err := t.quieten(); err != nil {
		return err
	}
	for _, line := range lines {
		t.put(line, 2*patience, nil)
	}
	ok, err := t.until(patience, func() bool { return len(t.flight) == 0 })
	if err != nil {
		return unknownOutput(o, err)
	}
	if t.keepsLines = ok; !ok {
		t.empty()
	}
	return nil
}

// switches sends a frame that switches an output, and waits until it is obeyed.
func (p *player) switches(o rig.Output, on bool) (span, error) { return p.switched(o, on, 0) }

// lights has the player end it by itself.
func (p *player) lights(o rig.Output, sec float64, _ bool) (span, error) {
	return p.switched(o, true, uint32(max(math.Ceil(sec*1000-millisHair), 1)))
}

// goesOut switches it off all the same: a late word does no harm.
func (p *player) goesOut(o rig.Output) error {
	_, err := p.switched(o, false, 0)
	return err
}

// switched switches one, for so many ms, or 0 for until it is told.
func (p *player) switched(o rig.Output, on bool, ms uint32) (span, error) {
	bit := byte(1) << (o.Number - 1)
	p.outputs &^= bit
	if on {
		p.outputs |= bit
	}
	was := p.now
	p.order(stepplayer.Switch, stepplayer.SwitchPayload(p.outputs, ms), 0)
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
	if _, err := t.switches(o, false); err != nil || !t.controller.Kind.OneByOne() || t.keepsLines {
		return err
	}
	return t.keeps(o)
}
