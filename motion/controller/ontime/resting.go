package ontime

import (
	"slices"

	"seamrail/motion/base/fault"
	"seamrail/motion/spec/rig"
)

// What a refusal may rest on.
const (
	slowRate         = "slowest step rate"
	stepTimer        = "step timer"
	idleDelay        = "idle delay"
	lookAhead        = "look-ahead"
	junction         = "junction deviation"
	feedWord         = "feed word"
	dwellGrains      = "dwells"
	wire             = "link"
	accelerationSet  = "acceleration setting of the controller"
	speedSet         = "speed setting of the controller"
	accelerationsSet = "acceleration settings of the controller"
	settingsSet      = "speed and acceleration settings of the controller"
)

// found is a key of a rig file's [controller], and how its value is found out; "" where
// a setting tells it.
type found struct{ key, how string }

var founds = map[string]found{
	slowRate:    {"slowest-step-rate", "time a line of 1 mm that is to take a minute"},
	stepTimer:   {"step-timer", "see what its processor counts with, or measure a pass"},
	idleDelay:   {"idle-delay", ""},
	lookAhead:   {"blocks", "see what its makers say it plans ahead"},
	junction:    {"junction-deviation", ""},
	feedWord:    {"feed-decimals", "see what its makers say it reads"},
	dwellGrains: {"dwell-grain", "time a hundred dwells of 10 ms"},
	wire:        {"baud", "see what it is set to"},
}

// resting is a refusal that says so where it rests on a value that was filled in: how
// that is found out, and what would be if it were another.
func (s *search) resting(f fault.Fault) fault.Fault {
	key, how, assumed := s.assumed(f)
	if !assumed {
		return f
	}
	f.Fit += "; that value is assumed, the rig file states none: " + how + ", and state " + key
	if f.Quantity == slowRate && s.follows(freely, 1) {
		f.Fit += "; a board without one would follow"
	}
	return f
}

// freely is a board that goes as slowly as it is told.
var freely = remedy{apply: func(c *rig.Controller, _ []rig.Axis, _ float64) {
	c.SlowestStepRate, c.Timer = 0, rig.StepTimer{Known: true}
}}

// assumed tells whether what a refusal rests on was filled in.
func (s *search) assumed(f fault.Fault) (key, how string, assumed bool) {
	if x, ok := founds[f.Quantity]; ok {
		switch f.Quantity {
		case idleDelay:
			x.how = see(s.m.c.Reports[rig.IdleWait])
		case junction:
			x.how = see(s.m.c.Reports[rig.Junction])
		}
		return x.key, x.how, slices.Contains(s.m.c.Filled, x.key)
	}
	for _, a := range s.m.axes {
		if f.Axis != "" && f.Axis != a.Name {
			continue
		}
		acceleration := f.Quantity == accelerationSet || f.Quantity == accelerationsSet || f.Quantity == settingsSet
		speed := f.Quantity == speedSet || f.Quantity == settingsSet
		if acceleration && a.Assumed.Acceleration {
			return "settings of axis " + a.Name, see(a.Settings.AccelerationName), true
		}
		if speed && a.Assumed.Speed {
			return "settings of axis " + a.Name, see(a.Settings.SpeedName), true
		}
	}
	return "", "", false
}

// see is how a setting is found out.
func see(name string) string {
	if name == "" {
		return "see what the controller is set to"
	}
	return "see what " + name + " says"
}
