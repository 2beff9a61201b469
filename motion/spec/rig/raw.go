package rig

import "seamrail/motion/base/source"

// Raw is a rig as it is written, before anything is understood.
type Raw struct {
	Place      source.Place         `toml:"-"`
	Rig        source.Text          `toml:"rig" jsonschema:"example=Bench rail and table" jsonschema_description:"What the rig is called."`
	Cautions   source.Texts         `toml:"cautions" jsonschema_description:"What to know before it moves; printed with every plan and export."`
	Controller RawController        `toml:"controller" jsonschema_description:"The box that makes the steps."`
	Axis       map[string]RawAxis   `toml:"axis" jsonschema_description:"The axes, each under its own name."`
	Output     map[string]RawOutput `toml:"output" jsonschema_description:"Outputs of the controller that switch a lamp, a release or a recorder, each under its own name."`
	Stand      map[string]RawStand  `toml:"stand" jsonschema_description:"Display stands that turn by themselves, each under its own name."`
}

// RawAxis is an [axis.NAME] table of a rig.
type RawAxis struct {
	Place        source.Place `toml:"-"`
	Kind         source.Text  `toml:"kind" jsonschema:"enum=linear,enum=rotary" jsonschema_description:"Whether it slides or turns."`
	Letter       source.Text  `toml:"letter" jsonschema:"example=X" jsonschema_description:"The controller's letter for it: X Y Z U V W A B or C."`
	Travel       source.Texts `toml:"travel" jsonschema:"required" jsonschema_description:"Its two ends, or endless for a turntable."`
	Home         source.Text  `toml:"home" jsonschema:"example=0 mm" jsonschema_description:"Where it stands when it is switched on or homed."`
	HomeLine     source.Text  `toml:"home-line" jsonschema:"example=$HX" jsonschema_description:"Line that homes this axis alone, or none if it has no switch; left out, the controller's homes it, but for an endless axis."`
	Speed        source.Text  `toml:"speed" jsonschema:"required,example=400 mm/s,example=180 deg/s" jsonschema_description:"Greatest speed, per real second; on a two-ends rig none, where nobody knows."`
	Acceleration source.Text  `toml:"acceleration" jsonschema:"required,example=3000 mm/s2" jsonschema_description:"Greatest acceleration, per real second squared; on a two-ends rig none, where nobody knows."`
	Jerk         source.Text  `toml:"jerk" jsonschema:"example=60000 mm/s3" jsonschema_description:"Greatest jerk, per real second cubed; left out, there is no limit."`
	Belt         *RawBelt     `toml:"belt" jsonschema_description:"A toothed belt on a pulley."`
	Screw        *RawScrew    `toml:"screw" jsonschema_description:"A lead screw."`
	Steps        source.Text  `toml:"steps" jsonschema:"example=80 per mm,example=3200 per turn" jsonschema_description:"Steps a unit, where they are known already; instead of belt, screw, gear and motor."`
	Gear         source.Text  `toml:"gear" jsonschema:"example=90:1" jsonschema_description:"Turns of the motor to turns of what it drives."`
	MotorSteps   source.Text  `toml:"motor-steps" jsonschema:"example=200" jsonschema_description:"Full steps of one turn of the motor."`
	Microsteps   source.Text  `toml:"microsteps" jsonschema:"example=16" jsonschema_description:"Microsteps of one full step, as the driver is set."`
	Direction    source.Text  `toml:"direction" jsonschema:"enum=forward,enum=reverse" jsonschema_description:"reverse if it moves the wrong way."`
	Backlash     source.Text  `toml:"backlash" jsonschema:"example=0.05 mm" jsonschema_description:"Play that is taken up where it turns round; left out, nothing is said of it."`
	Load         *RawLoad     `toml:"load" jsonschema_description:"What it moves; with it the report tells what the motor has to give, and what happens when its current is cut."`
	Motor        *RawMotor    `toml:"motor" jsonschema_description:"What the motor can do."`
	Settings     *RawSettings `toml:"settings" jsonschema_description:"What the controller is set to for this axis."`
	Shake        *RawShake    `toml:"shake" jsonschema_description:"How what it carries swings after a move."`
	Reports      *RawReports  `toml:"reports" jsonschema_description:"Names under which the controller prints these settings."`
	Stops        source.Texts `toml:"stops" jsonschema_description:"two-ends: the places at which an end may be set, as values or rows; left out, any."`
	Distances    source.Texts `toml:"distances" jsonschema_description:"two-ends: how far apart its ends may be set, as values or rows; left out, any."`
}

// RawBelt is a belt = { ... } value.
type RawBelt struct {
	Place source.Place `toml:"-"`
	Pitch source.Text  `toml:"pitch" jsonschema:"required,example=2 mm" jsonschema_description:"From one tooth of the belt to the next."`
	Teeth source.Text  `toml:"teeth" jsonschema:"required,example=20" jsonschema_description:"Teeth of the pulley."`
}

// RawScrew is a screw = { ... } value.
type RawScrew struct {
	Place source.Place `toml:"-"`
	Lead  source.Text  `toml:"lead" jsonschema:"required,example=8 mm" jsonschema_description:"What one turn of the screw moves."`
	RawThread
}
