package measuring

import (
	"fmt"
	"io"
	"math"
	"sync/atomic"
	"time"

	"seamrail/cmd/internal/deadman"
	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/host"
	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/session"
	"seamrail/export/drive"
	"seamrail/export/drive/virtual"
	"seamrail/export/drive/wirelog"
	"seamrail/motion/controller/program"
	"seamrail/motion/spec/rig"
)

// Port says which rig is moved.
type Port struct {
	Name    string
	Virtual bool     // a rig made of software, whose time flies
	Truth   *rig.Rig // what its machine really is; nil = as its file says
	Open    func(name string, baud int) (host.Port, error)
	// Keep saves all that went over the wire, once the port has been let go of; nil keeps
	// nothing. Played is such a record in place of a rig.
	Keep   func(write func(io.Writer) error) error
	Played *wirelog.Playback
}

// hand moves one axis of a rig by the engine that runs takes: each way is a shot that was
// planned and checked, and there is no other motion.
type hand struct {
	rig   rig.Rig
	axis  rig.Axis // as far as the person allows
	world session.World
	made  *virtual.Rig // nil for one of metal, and for a record of one of software
	say   func(string)
	said  map[string]bool

	virtual       bool
	hurried, asks chan drive.Request
	typed         <-chan string // lines of a terminal, each of which stops; nil = none
	stopped       atomic.Bool
	greeted       bool    // the controller has been: its port is not opened anew
	opened        bool    // where the axis stands is known
	at            float64 // where the axis stands by count
}

const requestsHeld = 4 // a stop, another, and what the script of a run wants next

// connect opens the port. Nothing moves yet.
func connect(p Port, r rig.Rig, say func(string)) (*hand, error) {
	h := &hand{rig: r, say: say, said: map[string]bool{}, virtual: p.Virtual, hurried: make(chan drive.Request, requestsHeld), asks: make(chan drive.Request, requestsHeld)}
	if p.Played != nil {
		h.world = played{p.Played}
		return h, nil
	}
	if p.Virtual {
		o := virtual.Of(r)
		if o.Greeting == "" {
			o.Greeting = "Virtual rig, ready"
		}
		if p.Truth != nil {
			o.As(*p.Truth)
		} else { // it has the play of its file, and no motor that falls out of step
			o.As(r)
			for i := range o.Axes {
				o.Axes[i].Mechanics.Speed, o.Axes[i].Mechanics.Acceleration = 0, 0
			}
		}
		h.made = virtual.New(o)
		h.world = host.NewFast(h.made, h.hurried, h.asks)
		return h, nil
	}
	o := session.Options{Port: p.Name, Open: p.Open}
	w, err := o.Connect(r, h.hurried, h.asks)
	if err != nil {
		return nil, exit.Failed("%w", err)
	}
	h.world = w
	if w, ok := w.(*host.World); ok {
		w.Guard(drive.LastWordsFor(r), host.First, say)
	}
	return h, nil
}

// stop slows the rig down; again, it aborts.
func (h *hand) stop() {
	h.stopped.Store(true)
	offer(h.hurried, drive.Stop)
}

// shotOf is a shot in which the axis does what a table of a shot file says, at a rate and
// in a loop of so many frames. A board that plays steps is told of all its motors: the
// others hold.
func (h *hand) shotOf(rate int, frames float64, does string) string {
	text := fmt.Sprintf("shot = \"Measure\"\n[clock]\ncapture = \"%d\"\nplayback = \"%d\"\nloop = \"%.0f frames\"\n[rig]\nfile = \"rig.toml\"\n[take]\nrounds = 1\n", rate, rate, frames)
	for _, a := range h.rig.Axes {
		switch {
		case a.Name == h.axis.Name:
			text += fmt.Sprintf("[axis.%s]\n%s\n", a.Name, does)
		case h.rig.Controller.Kind.PlaysSteps():
			text += fmt.Sprintf("[axis.%s]\nat = \"%.6f %s\"\n", a.Name, a.Home, a.Unit())
		}
	}
	return text
}

// stays is a shot in which the axis rests at a place for some seconds: going to its start
// brings it there.
func (h *hand) stays(at, seconds float64) string {
	const rate = 100 // a hundredth of a second is as fine as a rest need be
	return h.shotOf(rate, math.Ceil(seconds*rate), fmt.Sprintf("at = \"%.6f %s\"", at, h.axis.Unit()))
}

// moment is as short a rest as any board can be told to make, in s.
const moment = 0.1

// plan plans a shot on the rig, within what the person allows, as the controller can
// follow it.
func (h *hand) plan(text string) (*job.Job, error) {
	j, err := h.within(text)
	if err != nil {
		return nil, err
	}
	return j, j.Unable()
}

// within plans a shot within what the person allows, whatever the controller makes of it.
func (h *hand) within(text string) (*job.Job, error) {
	s, faults := job.Files.Understand("the measurement", []byte(text), nil)
	if err := faults.Err(); err != nil {
		return nil, err
	}
	r := h.rig
	r.Axes = append([]rig.Axis(nil), r.Axes...)
	for i := range r.Axes {
		if r.Axes[i].Name == h.axis.Name {
			r.Axes[i] = h.axis
		}
	}
	j, err := job.Plan(s, r, false)
	if err != nil {
		return nil, err
	}
	return j, j.Beyond()
}

// options are those of the engine for a job.
func (h *hand) options(j *job.Job) (drive.Options, error) {
	o := h.plainly(j)
	if j.Rig.Controller.Kind.PlaysSteps() {
		return o, nil
	}
	if err := program.Check(j.Trajectory); err != nil {
		return o, err
	}
	chosen, err := j.Blocks()
	if err != nil {
		return o, err
	}
	o.Source = func() drive.Source { return program.New(j.Trajectory, chosen.Take) }
	if x := j.Expected(); x != nil && !x.Exact {
		o.Foretold = func(rounds int64) float64 { return x.Executed + float64(rounds-x.Rounds)*x.RoundExecuted }
	}
	return o, nil
}

// plainly are the options without the lines of a take.
func (h *hand) plainly(j *job.Job) drive.Options {
	return drive.Options{
		Trajectory: j.Trajectory, Virtual: h.virtual, Shot: j.Plan.ShotFile, Plan: j.Plan.Hash(),
		Rounds: int64(j.Plan.Rounds), Settle: drive.AsBefore, At: h.places(j), Unlock: h.virtual,
	}
}

// places are where the axes of a plan stand, by count.
func (h *hand) places(j *job.Job) []float64 {
	at := make([]float64, len(j.Plan.Axes))
	for i, a := range j.Plan.Axes {
		if at[i] = a.Rig.Home; a.Rig.Name == h.axis.Name {
			at[i] = h.at
		}
	}
	return at
}

// want is what is asked of the engine in a state.
type want struct {
	in  drive.State
	ask drive.RequestKind
}

// run has the engine do what is wanted, in order, and then leave. It fails where it did
// not come to that.
func (h *hand) run(text string, wants []want, set func(*drive.Options)) (*watch, error) {
	j, err := h.plan(text)
	if err != nil {
		return nil, err
	}
	o, err := h.options(j)
	if err != nil {
		return nil, err
	}
	set(&o)
	return h.carry(j, o, wants)
}

// carry is run for a job with its options.
func (h *hand) carry(j *job.Job, o drive.Options, wants []want) (*watch, error) {
	w := &watch{h: h, wants: append(wants, want{drive.Ready, drive.Quit}), in: map[drive.State]span{}}
	o.Observer = w
	defer h.listen()()
	r := drive.Run(h.world, o)
	if err := r.Err(); err != nil {
		return w, exit.Failed("%w\nwhere the rig stands is not known: home it, or place it by hand, before it moves again", err)
	}
	if h.stopped.Load() || len(w.wants) > 0 || !r.Known {
		return w, exit.Told(nil)
	}
	for i, a := range j.Plan.Axes {
		if a.Rig.Name == h.axis.Name {
			h.opened, h.at = true, r.At[i]
		}
	}
	return w, nil
}

// listen has a line that is typed while it moves stop it.
func (h *hand) listen() (release func()) {
	done := make(chan struct{})
	deadman.Go(func() {
		select {
		case _, ok := <-h.typed:
			if ok {
				h.stop()
			}
		case <-done:
		}
	})
	return func() { close(done) }
}

// here begins: the axis homes, or stands where it is taken to be its home.
func (h *hand) here() error {
	how := drive.ByHand
	if h.switched() {
		how = drive.ByHoming
	}
	if h.opened {
		return nil
	}
	if h.greeted {
		return h.anew()
	}
	_, err := h.run(h.stays(h.axis.Home, moment), nil, func(o *drive.Options) { o.Settle = how })
	h.greeted = true
	return err
}

// anew begins again on a port that is open: another axis, or one whose place was lost.
func (h *hand) anew() error {
	h.at = h.axis.Home
	var wants []want
	if h.switched() {
		wants = []want{{drive.Ready, drive.Home}}
	}
	_, err := h.run(h.stays(h.axis.Home, moment), wants, func(*drive.Options) {})
	return err
}

// switched tells whether the axis has a switch to home on.
func (h *hand) switched() bool { return h.rig.Controller.HomeLineOf(h.axis) != "" && !h.axis.Endless }

// homes looks for the switch, and says how long that took.
func (h *hand) homes() (time.Duration, error) {
	w, err := h.run(h.stays(h.axis.Home, moment), []want{{drive.Ready, drive.Home}}, func(*drive.Options) {})
	if err != nil {
		return 0, err
	}
	return w.homed, nil
}

// to brings the axis to a place, gently.
func (h *hand) to(at float64) error {
	_, err := h.goes(at)
	return err
}

// goes is to, and from when to when it went.
func (h *hand) goes(at float64) (span, error) {
	if math.Abs(at-h.at) < nowhere {
		return span{}, nil
	}
	w, err := h.run(h.stays(at, moment), []want{{drive.Ready, drive.Go}, {drive.Cautioning, drive.Decline}}, func(*drive.Options) {})
	if err != nil {
		return span{}, err
	}
	return w.in[drive.Approaching], nil
}

// nowhere is a way that no word for a controller tells, in mm or degrees.
const nowhere = 1e-4

// from brings the axis to a place from a side, so that its play is taken up alike.
func (h *hand) from(lead, at float64) error {
	if err := h.to(at + lead); err != nil {
		return err
	}
	return h.to(at)
}

// take runs a shot once, as it is run in a take.
func (h *hand) take(text string) error {
	_, err := h.run(text, []want{{drive.Ready, drive.Go}}, func(o *drive.Options) { o.Confirmed = true })
	return err
}

// truly is where the machine of a rig of software really stands.
func (h *hand) truly() float64 { return h.made.Place()[h.index()] }

// index is the number of the axis on the board of a rig of software.
func (h *hand) index() (n int) {
	for _, a := range h.rig.Axes {
		if a.Name == h.axis.Name {
			return n
		}
		if a.Letter != "" {
			n++
		}
	}
	panic("measuring: the axis is of another rig")
}

// watch is what the engine tells, and what it is asked next.
type watch struct {
	h       *hand
	wants   []want
	state   drive.State
	since   time.Time
	in      map[drive.State]span // when it was in each state, the last time
	homed   time.Duration        // how long it looked for the switches
	settles int
}

// span is from when to when.
type span struct{ from, to time.Time }

// Enter asks for what is wanted in the state.
func (w *watch) Enter(s drive.State) {
	now := w.h.world.Now()
	if w.state == drive.Homing && s != drive.Homing {
		w.homed = now.Sub(w.since)
	}
	w.in[w.state] = span{w.since, now}
	w.state, w.since = s, now
	switch rests := s == drive.Ready || s == drive.Unsettled || s == drive.Resting; {
	case rests && w.h.stopped.Load():
		offer(w.h.asks, drive.Quit)
	case len(w.wants) > 0 && w.wants[0].in == s:
		offer(w.h.asks, w.wants[0].ask)
		w.wants = w.wants[1:]
	case s == drive.Unsettled:
		w.unsettled()
	}
}

// unsettled is asked first what the options say. Axes without a switch, which are not what
// is measured, count as at home where they stand; a place that was lost ends the run.
func (w *watch) unsettled() {
	w.settles++
	switch {
	case w.h.opened || w.settles > 2:
		offer(w.h.asks, drive.Quit)
	case w.settles == 2:
		offer(w.h.asks, drive.Here)
	}
}

// offer asks, unless more is waiting than the engine can take.
func offer(to chan<- drive.Request, kind drive.RequestKind) {
	select {
	case to <- drive.Request{Kind: kind}:
	default:
	}
}

// Say passes on what the engine tells people, once: each way is a run of its own, and
// most of it is the same.
func (w *watch) Say(text string) {
	if !w.h.said[text] {
		w.h.said[text] = true
		w.h.say("  " + text)
	}
}

// reportWidth is that of a plain page, in characters.
const reportWidth = 78

// Count, Progress, Marked and Passed are of no interest here.
func (w *watch) Count(int)                {}
func (w *watch) Progress(drive.Progress)  {}
func (w *watch) Marked(string, []float64) {}
func (w *watch) Passed(drive.Pass)        {}
