package rig

import "seamrail/motion/base/source"

// RawLoad is an [axis.NAME.load] table.
type RawLoad struct {
	Place      source.Place `toml:"-"`
	Mass       source.Text  `toml:"mass" jsonschema:"example=2.4 kg" jsonschema_description:"linear: all that moves, camera and cables included."`
	Incline    source.Text  `toml:"incline" jsonschema:"example=20 deg" jsonschema_description:"linear: how steeply it climbs as its numbers grow; 90 deg is straight up."`
	Inertia    source.Text  `toml:"inertia" jsonschema:"example=4000 kg mm2" jsonschema_description:"rotary: of all that turns with it, about its axis."`
	Overhang   source.Text  `toml:"overhang" jsonschema:"example=0.3 N m" jsonschema_description:"rotary: the greatest torque of gravity about its axis, where the load is not balanced."`
	Friction   source.Text  `toml:"friction" jsonschema:"example=3 N,example=0.05 N m" jsonschema_description:"What it takes to keep it moving slowly: a force, or a torque on a rotary axis."`
	Efficiency source.Text  `toml:"efficiency" jsonschema:"example=95 %" jsonschema_description:"Share of the motor's work that reaches the load through belt, screw or gear."`
}

// RawMotor is an [axis.NAME.motor] table.
type RawMotor struct {
	Place   source.Place `toml:"-"`
	Torque  source.Texts `toml:"torque" jsonschema_description:"Running torque at some speeds of the motor, slowest first, such as 0.40 N m at 0 turn/s."`
	Holding source.Text  `toml:"holding" jsonschema:"example=0.44 N m" jsonschema_description:"Torque at rest, with current."`
	Detent  source.Text  `toml:"detent" jsonschema:"example=0.02 N m" jsonschema_description:"Torque at rest, without current."`
	Brake   source.Text  `toml:"brake" jsonschema:"example=0.5 N m" jsonschema_description:"Torque of a brake on the motor's shaft that falls in without current."`
	Inertia source.Text  `toml:"inertia" jsonschema:"example=54 g cm2" jsonschema_description:"Of the rotor and all that turns with it: coupling, pulley, screw."`
	Reserve source.Text  `toml:"reserve" jsonschema:"example=1.5" jsonschema_description:"How many times what is needed the motor should have."`
	PerTurn source.Text  `toml:"per-turn" jsonschema:"example=40 mm,example=4 deg" jsonschema_description:"What one turn of the motor moves, where the axis states its steps and not how it is driven."`
}

// RawThread is what of a screw says whether it holds by itself.
type RawThread struct {
	Diameter source.Text `toml:"diameter" jsonschema:"example=7 mm" jsonschema_description:"At the middle of its thread."`
	Friction source.Text `toml:"friction" jsonschema:"example=0.15" jsonschema_description:"Coefficient of friction between screw and nut."`
	Flank    source.Text `toml:"flank" jsonschema:"example=15 deg" jsonschema_description:"Half the angle between the sides of its thread: 15 deg for a trapezoidal one, 0 deg for a square one."`
}
