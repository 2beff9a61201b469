package drive_test

import (
	"bytes"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"seamrail/export/drive"
	"seamrail/export/drive/takelog"
	"seamrail/motion/controller/program"
	"seamrail/motion/controller/segment"
	"seamrail/motion/plan/sample"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
)

// witness sees all that the engine tells, and asks what a script wants once a
// state is entered.
type witness struct {
	states   []drive.State
	said     []string
	counts   []int
	progress []drive.Progress
	marks    map[string][]float64
	passes   []drive.Pass
	script   []cue
	passed   func()
	beat     func() // at every beat of the count-in
	entered  func(s drive.State)
	watch    func() // at every progress
	ask      func(after time.Duration, r drive.Request)
}

// cue is a request some time after the engine enters a state.
type cue struct {
	state drive.State
	after time.Duration
	ask   drive.Request
}

func (w *witness) Enter(s drive.State) {
	w.states = append(w.states, s)
	if w.entered != nil {
		w.entered(s)
	}
	for len(w.script) > 0 && w.script[0].state == s {
		c := w.script[0]
		w.script = w.script[1:]
		w.ask(c.after, c.ask)
		if len(w.script) > 0 && w.script[0].state != s {
			break
		}
	}
}
func (w *witness) Say(text string) { w.said = append(w.said, text) }
func (w *witness) Count(left int) {
	w.counts = append(w.counts, left)
	if w.beat != nil {
		w.beat()
	}
}
func (w *witness) Progress(p drive.Progress) {
	w.progress = append(w.progress, p)
	if w.watch != nil {
		w.watch()
	}
}
func (w *witness) Passed(p drive.Pass) {
	w.passes = append(w.passes, p)
	if w.passed != nil {
		w.passed()
	}
}
func (w *witness) Marked(name string, at []float64) {
	if w.marks == nil {
		w.marks = map[string][]float64{}
	}
	w.marks[name] = at
}

// paper is a take log in memory.
type paper struct {
	bytes.Buffer
	room int // bytes; 0 = no end of them
}

func (p *paper) Write(b []byte) (int, error) {
	if p.room > 0 && p.Len()+len(b) > p.room {
		return 0, errNoRoom
	}
	return p.Buffer.Write(b)
}

func (p *paper) Sync() error { return nil }

type noRoom struct{}

func (noRoom) Error() string { return "no space left on device" }

var errNoRoom = noRoom{}

// bench is the rig of the samples with a controller of a kind.
func bench(kind rig.ControllerKind) rig.Rig {
	r := sample.Bench(rig.InverseTime)
	c := kind.Defaults()
	c.Feed, c.Greeting, c.StepRate = rig.InverseTime, "Bench", 40000
	r.Controller = c
	for i, a := range r.Axes {
		n := []string{"0", "3"}[i]
		r.Axes[i].Settings = rig.AxisSettings{Acceleration: a.MaxAcc, Speed: a.MaxSpeed}
		if kind == rig.Buffered {
			s := &r.Axes[i].Settings
			s.StepsName, s.SpeedName, s.AccelerationName, s.TravelName = "$10"+n, "$11"+n, "$12"+n, "$13"+n
		}
	}
	return r
}

func source(t testing.TB, tr *trajectory.Trajectory) func() drive.Source {
	take, err := segment.EqualTime{}.Cut(tr)
	require.NoError(t, err)
	return func() drive.Source { return program.New(tr, take) }
}

// scene is a run that is about to be.
type scene struct {
	t       testing.TB
	p       *puppet
	w       *witness
	log     *paper
	tr      *trajectory.Trajectory
	options drive.Options
}

// loop is a second in which the rail goes there and back and the table turns a
// seventh.
func loop(t testing.TB, kind rig.ControllerKind) *trajectory.Trajectory {
	return sample.Make(t, 24, bench(kind), sample.Rail(t, "3-4-5", 20), sample.Table(t))
}

// stage sets a scene for one take of three rounds that nobody has to confirm.
func stage(t testing.TB, tr *trajectory.Trajectory) *scene {
	s := &scene{t: t, p: newPuppet(), log: &paper{}, tr: tr}
	c := &tr.Plan().Rig.Controller
	c.DwellGrain = 0 // the puppet dwells for as long as it is told
	if c.Kind == rig.Lockstep {
		s.p.realtime, s.p.buffer = false, 0
	}
	s.p.settings = printed
	s.w = &witness{}
	s.w.ask = func(after time.Duration, r drive.Request) {
		s.p.in(after, func() { s.p.asked = append(s.p.asked, r) })
	}
	s.options = drive.Options{
		Trajectory: tr, Source: source(t, tr), Observer: s.w, Log: takelog.NewWriter(s.log, nil), Shot: tr.Plan().ShotFile, Plan: tr.Plan().Hash(),
		Rounds: 3, Takes: 1, Settle: drive.ByHand, Confirmed: true,
	}
	return s
}

func (s *scene) run() drive.Result {
	return drive.Run(s.p, s.options)
}

func (s *scene) read() takelog.Log {
	l, err := takelog.Read(bytes.NewReader(s.log.Bytes()))
	require.NoError(s.t, err)
	require.Zero(s.t, l.Torn)
	return l
}
