package ontime

import (
	"context"
	"strings"

	"seamrail/motion/base/exact"
	"seamrail/motion/controller/firmware"
	"seamrail/motion/controller/program"
	"seamrail/motion/controller/rs274"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
)

// machine is the rig's controller, as far as blocks concern it.
type machine struct {
	t       *trajectory.Trajectory
	c       rig.Controller
	axes    []rig.Axis
	advance []exact.Rat
	board   firmware.Board
	link    firmware.Link
	letters string
	opening program.Opening
	within  float64 // s that all rounds together may be late
	slowest float64 // steps/s of the busiest axis it does not go below; 0 = none
	until   context.Context
}

func newMachine(t *trajectory.Trajectory) *machine {
	axes := make([]rig.Axis, t.AxisCount())
	for i := range axes {
		axes[i] = t.Axis(i)
	}
	return machineOf(t, t.Rig().Controller, axes)
}

// machineOf is the machine with a controller and axes that may be better than
// those of the rig.
func machineOf(t *trajectory.Trajectory, c rig.Controller, axes []rig.Axis) *machine {
	m := &machine{t: t, c: filled(c), axes: axes, within: within(t), until: context.Background()}
	var letters strings.Builder
	for i, a := range axes {
		m.advance = append(m.advance, t.Advance(i))
		letters.WriteByte(letterOf(a))
	}
	m.letters = letters.String()
	m.board = boardOf(m.c, axes)
	m.link = linkOf(m.c)
	m.slowest = m.c.SlowestStepRate
	if hz := m.c.Timer.Hz; hz > 0 {
		m.slowest = max(m.slowest, firmware.SixteenBit(hz).SlowestRate())
	}
	return m
}

// letterOf is the word of an axis; one that has none makes no line anywhere.
func letterOf(a rig.Axis) byte {
	if a.Letter == "" {
		return '?'
	}
	return a.Letter[0]
}

// What a rig file that is silent means: what its decoder fills in.
const (
	defaultBlocks    = 16
	defaultDeviation = 0.01 // mm
	defaultReceive   = 128
)

func filled(c rig.Controller) rig.Controller {
	if c.Blocks <= 0 {
		c.Blocks = defaultBlocks
	}
	if c.JunctionDeviation <= 0 {
		c.JunctionDeviation = defaultDeviation
	}
	if c.ReceiveBuffer <= 0 {
		c.ReceiveBuffer = defaultReceive
	}
	return c
}

// boardOf is the board as the rig file describes it.
func boardOf(c rig.Controller, axes []rig.Axis) firmware.Board {
	b := firmware.Board{
		Blocks: c.Blocks, JunctionDeviation: c.JunctionDeviation, AlongAll: c.PathFeed == rig.AlongAll,
		Wide: !c.SinglePrecision, ClockError: c.RateError,
		DwellGrain: firmware.Lasting(c.DwellGrain), IdleDelay: firmware.Lasting(c.IdleDelay),
	}
	if c.Timer.Hz > 0 {
		b.Timer, b.Turn = firmware.SixteenBit(c.Timer.Hz), firmware.Measured
	}
	if c.SlowestStepRate > 0 {
		b.Timer.Slowest = 1 / c.SlowestStepRate
	}
	if c.SegmentRate > 0 {
		b.Line = firmware.Lasting(1 / c.SegmentRate)
	}
	for _, a := range axes {
		b.Axes = append(b.Axes, axisOf(c, a))
	}
	return b
}

func axisOf(c rig.Controller, a rig.Axis) firmware.Axis {
	out := firmware.Axis{
		StepsPerUnit: a.StepsPerUnit.Float(), Acceleration: a.Settings.Acceleration, Speed: a.Settings.Speed,
		Counts: rs274.Weight(c, a), Rotary: a.Kind == rig.Rotary && !rs274.IsLinear(a.Letter),
	}
	if out.Acceleration <= 0 {
		out.Acceleration = a.MaxAcc
	}
	if out.Speed <= 0 {
		out.Speed = a.MaxSpeed
	}
	return out
}

// replySeconds is what a host takes to see an answer and send the next line:
// serial adapters hold characters back for up to 16 ms, the usual setting of
// their timer.
const replySeconds = 0.016

func linkOf(c rig.Controller) firmware.Link {
	l := firmware.Link{Baud: c.Baud, Receive: c.ReceiveBuffer - 1}
	if c.Kind.OneByOne() {
		l.Single, l.Reply = true, firmware.Lasting(replySeconds)
	}
	return l
}
