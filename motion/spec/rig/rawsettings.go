package rig

import "seamrail/motion/base/source"

// RawBoardReports is the reports = { ... } value of a controller: under which
// names it prints the settings that concern all its axes.
type RawBoardReports struct {
	Place             source.Place `toml:"-"`
	StepPulse         source.Text  `toml:"step-pulse" jsonschema:"example=$0" jsonschema_description:"Name of the length of its step pulses, in us, or none."`
	IdleDelay         source.Text  `toml:"idle-delay" jsonschema:"example=$1" jsonschema_description:"Name of its idle delay, in ms, 255 being never, or none."`
	StepInvert        source.Text  `toml:"step-invert" jsonschema:"example=$2" jsonschema_description:"Name of the mask of inverted step signals, or none."`
	DirectionInvert   source.Text  `toml:"direction-invert" jsonschema:"example=$3" jsonschema_description:"Name of the mask of inverted directions, or none."`
	EnableInvert      source.Text  `toml:"enable-invert" jsonschema:"example=$4" jsonschema_description:"Name of the switch that inverts the enable signal, or none."`
	JunctionDeviation source.Text  `toml:"junction-deviation" jsonschema:"example=$11" jsonschema_description:"Name of its junction deviation, in mm, or none."`
	Inches            source.Text  `toml:"inches" jsonschema:"example=$13" jsonschema_description:"Name of the switch that makes it report inches, or none."`
	SoftLimits        source.Text  `toml:"soft-limits" jsonschema:"example=$20" jsonschema_description:"Name of the switch of its soft limits, or none."`
	HardLimits        source.Text  `toml:"hard-limits" jsonschema:"example=$21" jsonschema_description:"Name of the switch of its limit switches, or none."`
	Homing            source.Text  `toml:"homing" jsonschema:"example=$22" jsonschema_description:"Name of the switch of homing, or none."`
	HomeInvert        source.Text  `toml:"home-invert" jsonschema:"example=$23" jsonschema_description:"Name of the mask of axes that home at the other end, or none."`
	Laser             source.Text  `toml:"laser" jsonschema:"example=$32" jsonschema_description:"Name of the switch of its laser mode, or none."`
}

// RawBoardSettings is the settings = { ... } value of a controller: what it has
// been set to. What is left out is not compared.
type RawBoardSettings struct {
	Place           source.Place  `toml:"-"`
	StepPulse       source.Text   `toml:"step-pulse" jsonschema:"example=10 us" jsonschema_description:"How long a step pulse is."`
	StepInvert      source.Text   `toml:"step-invert" jsonschema:"example=0" jsonschema_description:"Mask of inverted step signals, a bit an axis."`
	DirectionInvert source.Text   `toml:"direction-invert" jsonschema:"example=1" jsonschema_description:"Mask of inverted directions, a bit an axis."`
	EnableInvert    source.Switch `toml:"enable-invert" jsonschema_description:"Whether the enable signal is inverted."`
	SoftLimits      source.Switch `toml:"soft-limits" jsonschema_description:"Whether it refuses what is beyond its travel."`
	HardLimits      source.Switch `toml:"hard-limits" jsonschema_description:"Whether a limit switch stops it."`
	Homing          source.Switch `toml:"homing" jsonschema_description:"Whether it homes."`
	HomeInvert      source.Text   `toml:"home-invert" jsonschema:"example=0" jsonschema_description:"Mask of axes that home at the other end, a bit an axis."`
}
