package rig

import (
	"fmt"

	"seamrail/motion/base/unit"
)

// StepTimer is what a controller times its steps with.
//
// One of 16 bits counts whole ticks and begins anew one tick after it has
// matched (data sheets of 8-bit microcontrollers: f = clock / (N (1 + OCR)) in
// the mode that clears the counter on a match), so that each interval is a tick
// too long. The zero value is a timer about which nothing is known; it is taken
// for a fine one.
type StepTimer struct {
	Hz    float64 // ticks/s of a 16-bit counter; 0 = finer than matters, or not known
	Known bool
}

// The words of the key step-timer beside a frequency.
const (
	fineTimer    = "fine"
	unknownTimer = "unknown"
)

const (
	// usualTick is the clock of common 8-bit boards (common practice).
	usualTick = 16e6 // Hz
	// usualGrain is measured on the host build of an open 8-bit firmware: see
	// testdata/reference.
	usualGrain = 0.05 // s

	minTimer, maxTimer = 1e6, 1e9 // Hz
	maxGrain, maxIdle  = 1, 10    // s
)

// String prints the timer as the rig file has it.
func (t StepTimer) String() string {
	switch {
	case t.Hz > 0:
		return fmt.Sprintf("%g MHz", t.Hz/1e6)
	case t.Known:
		return fineTimer
	}
	return unknownTimer
}

// clock reads what it counts time and place with.
func (b *controllerBuilder) clock(c *Controller) {
	raw := b.raw
	switch t := raw.StepTimer; {
	case !t.Set:
		b.fill("step-timer", c.Timer.String())
	case t.Text == fineTimer || t.Text == unknownTimer:
		c.Timer = StepTimer{Known: t.Text == fineTimer}
	default:
		if q, ok := b.report.Quantity(t, b.path+"step-timer", unit.Frequency); ok {
			c.Timer = StepTimer{Hz: q.Float(), Known: true}
			if hz := c.Timer.Hz; hz < minTimer || hz > maxTimer {
				b.report.Wrong(t, b.path+"step-timer", `must be from 1 MHz to 1000 MHz, "fine" or "unknown"`, `such as "16 MHz"`)
			}
		}
	}
	b.orNone(raw.DwellGrain, "dwell-grain", &c.DwellGrain, maxGrain, unit.Time)
	if idle := raw.IdleDelay; idle.Set && idle.Text != none {
		b.quantity(idle, "idle-delay", &c.IdleDelay, from0, maxIdle, unit.Time)
		c.IdleAtOnce = c.IdleDelay == 0
	} else {
		b.orNone(idle, "idle-delay", &c.IdleDelay, maxIdle, unit.Time)
	}
	c.IdleStated = raw.IdleDelay.Set
	if raw.SinglePrecision.Set {
		c.SinglePrecision = raw.SinglePrecision.On
	} else {
		b.fill("single-precision", fmt.Sprint(c.SinglePrecision))
	}
}
