package drive

import (
	"errors"
	"time"
)

const (
	// greetWait is how long a controller may take to greet: a boot loader that
	// waits for an upload takes two seconds, some boards more.
	greetWait = 6 * time.Second
	// provokeWait is how long one that is up may take to answer an empty line.
	provokeWait = time.Second
	// againWait is how long one that is up may take to greet after its abort byte,
	// which no boot loader sees.
	againWait = 2 * time.Second
	// hopeWait is how long nothing is said of a controller that has not been understood: what
	// boots in two seconds has been by then.
	hopeWait = 3 * time.Second
	// chatter is how long a controller may go on talking after its greeting.
	chatter = 200 * time.Millisecond
)

// greet waits for a controller that starts anew when the port opens, and
// provokes one that does not: by an empty line, which changes nothing, and
// only then by its abort byte.
func (t *lineController) greet() error {
	t.expected = true
	defer func() { t.expected = false }()
	c := t.controller
	there := func() bool { return t.greeted }
	if c.ResetsOnOpen && c.Greeting != "" {
		if _, err := t.until(greetWait, there); err != nil {
			return err
		}
	}
	if !t.greeted {
		if err := t.provoke(); err != nil {
			return err
		}
	}
	if _, err := t.until(chatter, func() bool { return false }); err != nil {
		return err
	}
	t.every = pollEvery
	if err := t.fresh(); err != nil {
		return err
	}
	return t.leftOver()
}

// leftOver waits for what a run before this one has left moving, and ends what
// it has left held.
func (t *lineController) leftOver() error {
	if t.controller.Status == 0 {
		return nil
	}
	ok, err := t.until(leftWait, func() bool { return t.status.resting() })
	switch {
	case err != nil:
		return err
	case !ok:
		return failed(Silent, "it is still at something, %q, and was not told to be", t.status.state)
	case !t.status.is("Hold") || t.controller.Abort == 0:
		return nil
	}
	t.crash()
	t.halt()
	return t.fault()
}

// provoke makes it say something.
func (t *lineController) provoke() error {
	oks := t.oks
	tries := 1
	if t.controller.Greeting == "" && t.controller.ResetsOnOpen {
		// What it boots with is not known, and it hears nothing until it has.
		tries = int(greetWait / provokeWait)
	}
	for range tries {
		t.out.send([]byte("\n"))
		ok, err := t.until(provokeWait, func() bool { return t.greeted || t.oks > oks })
		if err != nil {
			return err
		}
		if ok {
			break
		}
	}
	if !t.greeted && t.oks == oks && t.controller.Abort != 0 {
		t.out.hurry(t.controller.Abort)
		if _, err := t.until(againWait, func() bool { return t.greeted }); err != nil {
			return err
		}
	}
	return t.recognise(oks)
}

// recognise judges what has been heard.
func (t *lineController) recognise(oks int) error {
	switch {
	case t.greeted:
		return nil
	case t.controller.Greeting != "" && t.stranger != "":
		return failed(Foreign, "it said %q, and should greet with %q", shortened(t.stranger), t.controller.Greeting)
	case t.oks > oks:
		return nil
	case t.garbled > 0:
		return failed(Garbled, "what it says cannot be read; is the speed of the wire right?")
	case t.controller.Greeting != "":
		return failed(Silent, "no greeting %q within %v, and no answer to an empty line", t.controller.Greeting, greetWait)
	}
	return failed(Silent, "no answer to an empty line within %v", provokeWait)
}

// toLook is what to look at where a controller is not heard, or not understood.
const toLook = `is it powered, does the cable carry data, and is this its port and its speed? "seamrail connect" asks whatever is there at every usual speed, and says what was seen`

// met greets, and says what to look at where that takes long or comes to nothing.
func (e *engine) met() error {
	e.hopes = e.now.Add(hopeWait)
	err := e.m.greet()
	e.hopes = time.Time{}
	var f *Failure
	if errors.As(err, &f) && (f.End == Silent || f.End == Garbled || f.End == Foreign) {
		f.Detail += "; " + toLook
	}
	return err
}

// hoping says, once, that the controller has not been understood yet.
func (e *engine) hoping() {
	if !e.hopes.IsZero() && !e.now.Before(e.hopes) {
		e.hopes = time.Time{}
		e.Observer.Say("The controller has not been understood yet, and is waited for some seconds more: " + toLook + ". Stop leaves.")
	}
}
