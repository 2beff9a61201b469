package search

import (
	"context"
	"errors"
	"fmt"

	"seamrail/cmd/internal/starter"
	"seamrail/export/report/spinreport"
	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/move"
	"seamrail/motion/plan"
	"seamrail/motion/spec/shot"
	"seamrail/motion/turntable/spin"
)

// asked is a command line of spin being understood. Everything wrong with it is
// gathered and told at once.
type asked struct {
	o      Spin
	report spinreport.Data
	faults fault.List
	bare   bool // nothing but flags says what stands on the stands
}

// Spin asks for the loops in which a display stand and the carriage close together.
// Texts are as they were typed.
type Spin struct {
	Periods     []string // "20.4 s", one for each speed
	Uncertainty string
	Timed       []string // "20 turns in 412.3 s"
	Reaction    string
	Direction   string
	Drift       string
	Also        []string // other things with a period of their own
	Symmetry    string
	Radius      string
	Pixels      string
	Within      string
	Between     []string // two on-screen times
	Cycles      string
	Offers      []string // other capture rates
	Most        int

	// Without a shot, the clock, "" for the usual; and those of the flags given that
	// would speak of a shot.
	Capture, Playback, Retime string
	OfShot                    []string
}

// Described tells whether it says itself what stand it is about.
func (o Spin) Described() bool { return len(o.Periods)+len(o.Timed) > 0 }

// Find understands the question, of a plan or of none, and looks for loops.
func (o Spin) Find(own *plan.Plan) (spinreport.Data, error) {
	return o.FindUntil(context.Background(), own)
}

// FindUntil is Find until ctx ends, whose error it then returns.
func (o Spin) FindUntil(ctx context.Context, own *plan.Plan) (spinreport.Data, error) {
	a := &asked{o: o}
	q := &a.report.Query
	a.report.Title = "Spin: loops in which a display stand and the carriage close together"
	if own != nil {
		a.fromPlan(own)
	} else {
		a.alone()
		a.flagClock()
		q.From, q.To = exact.Int(4), exact.Int(12)
	}
	a.fromFlags()
	q.Most = o.Most
	if err := a.faults.Err(); err != nil || len(q.Products) == 0 {
		return a.report, err
	}
	answer, err := spin.FindUntil(ctx, *q)
	a.report.Answer = answer
	if err == nil && own != nil {
		loop := spin.LoopOf(*q, own.Loop, a.ownSpeeds(own))
		a.report.Own = &loop
	}
	return a.report, err
}

// alone refuses flags that speak of a shot where there is none.
func (a *asked) alone() {
	for _, flag := range a.o.OfShot {
		a.wrong(flag, errors.New("speaks of a shot, and --period or --timed describe a stand without one; name the shot too, or leave it out"))
	}
}

func (a *asked) wrong(flag string, err error) {
	if err != nil {
		a.faults = append(a.faults, fault.Fault{File: "--" + flag, Quantity: err.Error()})
	}
}

func (a *asked) filled(key, value, why string) {
	a.report.Defaults = append(a.report.Defaults, shot.Default{Key: key, Value: value, Why: why})
}

// The rates where flags give none: those of the built-in shot.
const (
	usualCapture  = "119.88"
	usualPlayback = "23.976"
)

// flagClock makes the clock of a command line without a shot.
func (a *asked) flagClock() {
	capture, playback := a.rate("capture", a.o.Capture, usualCapture), a.rate("playback", a.o.Playback, usualPlayback)
	var retime exact.Rat
	if a.o.Retime != "" {
		r, err := exact.Parse(a.o.Retime)
		a.wrong("retime", err)
		retime = r
	}
	if len(a.faults) > 0 {
		capture, playback, retime = exact.Int(1), exact.Int(1), exact.Rat{} // something to go on
	}
	c, err := clock.New(capture, playback, retime)
	a.wrong("retime", err)
	a.report.Query.Clock = c
}

func (a *asked) rate(flag, text, usual string) exact.Rat {
	if text == "" {
		text = usual
		a.filled(flag, usual, "as in the built-in shot, "+starter.ShotName)
	}
	r, err := clock.ParseRate(text)
	a.wrong(flag, err)
	return r
}

// fromPlan takes the clock, the stands and the tables of a plan. Stands of a rig
// that the shot does not use are looked at where it uses none.
func (a *asked) fromPlan(p *plan.Plan) {
	a.report.Title = "Spin: " + p.Title
	q := p.SpinQuery()
	if len(q.Products) == 0 {
		a.bare = true
		for _, s := range p.Rig.Stands {
			q.Products = append(q.Products, spin.Product{Stand: s.Stand, Symmetry: 1})
		}
	}
	a.report.Query = q
	for i := range p.Axes {
		if t, ok := tableOf(p, &p.Axes[i]); ok {
			a.report.Tables = append(a.report.Tables, t)
		}
	}
}

// tableOf tells of an axis that turns, and false of any other.
func tableOf(p *plan.Plan, axis *plan.Axis) (spinreport.Table, bool) {
	m, turns := axis.Move.Does.(move.Turner)
	if !turns {
		return spinreport.Table{}, false
	}
	degrees := exact.Int(360)
	t := spinreport.Table{
		Name: axis.Rig.Name, Turns: m.Turned(), Speed: m.Turned().Abs().Mul(degrees).Quo(p.Loop.Real()),
		Steady: m.Steady(), Symmetry: m.Faces(),
		Remainder: spin.RemainderOf(axis.Rig.StepsPerUnit.Mul(degrees), m.Turned()), Period: p.Loop.Real(),
	}
	if axis.RunUp != nil {
		t.RunUp = p.RunUp
	}
	if axis.RunOut != nil {
		t.RunOut = p.RunOut
	}
	return t, true
}

// ownSpeeds returns the speed of each product in the shot itself: the one that
// the shot names, else the first.
func (a *asked) ownSpeeds(p *plan.Plan) []spin.Speed {
	var out []spin.Speed
	for _, q := range a.report.Query.Products {
		v := q.Stand.Speeds[0]
		for _, s := range p.Stands {
			if s.Rig.Name == q.Stand.Name {
				v = s.Speed
			}
		}
		out = append(out, v)
	}
	return out
}

// counts reads a whole number of a flag within bounds.
func (a *asked) counts(flag, text string, most int64) int64 {
	r, err := exact.Parse(text)
	n, whole := r.Int64()
	if err != nil || !whole || n < 1 || n > most {
		a.wrong(flag, fmt.Errorf("%q must be a whole number from 1 to %d", text, most))
		return 1
	}
	return n
}
