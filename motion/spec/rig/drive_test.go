package rig_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/drivetrain/motor"
	"seamrail/motion/spec/rig"
)

const loaded = `rig = "Slope"
[axis.rail]
travel = ["0 mm", "400 mm"]
speed = "400 mm/s"
acceleration = "3 m/s2"
screw = { lead = "8 mm", diameter = "7 mm", friction = 0.15 }
gear = "2:1"
microsteps = 16
[axis.rail.load]
mass = "2400 g"
incline = "20 deg"
friction = "3 N"
[axis.rail.motor]
torque = ["0.40 N m at 0 turn/s", "30 N cm at 600 turn/min"]
holding = "0.44 N m"
detent = "20 mN m"
brake = "0.5 N m"
inertia = "54 g cm2"
reserve = 2
[axis.tilt]
travel = ["-20 deg", "20 deg"]
speed = "90 deg/s"
acceleration = "180 deg/s2"
steps = "6400 per turn"
[axis.tilt.load]
inertia = "0.004 kg m2"
overhang = "0.3 N m"
efficiency = "60 %"
[axis.tilt.motor]
per-turn = "4 deg"
`

func TestDrive(t *testing.T) {
	r, defaults := decode(t, loaded)
	rail, _ := r.Axis("rail")
	require.NotNil(t, rail.Drive)
	assert.Equal(t, motor.Drive{
		PerTurn: 4,
		Load:    motor.Load{Mass: 2.4, Pull: motor.Incline(2.4, 20), Friction: 3},
		Train:   motor.Thread{Lead: 8, Diameter: 7, Friction: 0.15, Flank: 15}.Train(),
		Motor: motor.Motor{
			Curve:   []motor.Point{{Speed: 0, Torque: 0.4}, {Speed: 10, Torque: 0.3}},
			Holding: 0.44, Detent: 0.02, Brake: 0.5, Inertia: 5.4, Reserve: 2,
		},
	}, *rail.Drive)
	tilt, _ := r.Axis("tilt")
	require.NotNil(t, tilt.Drive)
	assert.InDelta(t, 4000, tilt.Drive.Load.Mass, 1e-9)
	tilt.Drive.Load.Mass = 0
	assert.Equal(t, motor.Drive{
		Rotary: true, PerTurn: 4, Load: motor.Load{Pull: 0.3, EitherWay: true},
		Train: motor.Efficient(0.6), Motor: motor.Motor{Reserve: 1.5},
	}, *tilt.Drive)
	said := strings.Join(keysAndValues(defaults), "\n")
	for _, want := range []string{
		"axis.rail.screw.flank 15 deg", "axis.tilt.load.friction 0 N m", "axis.tilt.motor.detent 0 N m", "axis.tilt.motor.reserve 1.5",
	} {
		assert.Contains(t, said, want)
	}
}

// A belt without an efficiency is given that of belts.
func TestDriveOfABelt(t *testing.T) {
	r, _ := decode(t, strings.Replace(bench, "direction = \"reverse\"\n", "direction = \"reverse\"\nload = { mass = \"2 kg\" }\n", 1))
	rail, _ := r.Axis("rail")
	assert.Equal(t, motor.Drive{PerTurn: 40, Load: motor.Load{Mass: 2}, Train: motor.Efficient(0.95)}, *rail.Drive)
	table, _ := r.Axis("table")
	assert.Nil(t, table.Drive)
}

func TestDriveFaults(t *testing.T) {
	for _, c := range []struct{ old, new, want string }{
		{`mass = "2400 g"`, ``, `axis rail: load.mass is missing; give it, such as mass = "2.4 kg"`},
		{`mass = "2400 g"`, `mass = "0 g"`, `10:8: axis rail: load.mass "0 g" must be above 0 kg`},
		{`mass = "2400 g"`, `mass = "2400 mm"`, `10:8: axis rail: load.mass "2400 mm" is a length`},
		{`mass = "2400 g"`, "mass = \"2400 g\"\ninertia = \"1 kg mm2\"", `11:11: axis rail: load.inertia "1 kg mm2" has no meaning on a linear axis; write mass`},
		{`incline = "20 deg"`, `incline = "91 deg"`, `11:11: axis rail: load.incline "91 deg" must be from -90 to 90 deg`},
		{`friction = "3 N"`, `friction = "-3 N"`, `12:12: axis rail: load.friction "-3 N" must be at least 0 N`},
		{`friction = "3 N"`, `efficiency = "50 %"`, `12:14: axis rail: load.efficiency "50 %" says already what the screw's diameter and friction say`},
		{`friction = 0.15 }`, `friction = 9 }`, `6:56: axis rail: screw.friction "9" will not do: no motor can turn such a screw`},
		{`, diameter = "7 mm", friction = 0.15`, ``, `axis rail: load.efficiency is missing`},
		{`, friction = 0.15`, ``, `6:9: axis rail: screw.friction is missing`},
		{`diameter = "7 mm"`, `diameter = "0 mm"`, `6:37: axis rail: screw.diameter "0 mm" must be above 0 mm`},
		{`"0.40 N m at 0 turn/s"`, `"0.40 N m"`, `14:11: axis rail: torque[1] "0.40 N m" must be a torque`},
		{`"30 N cm at 600 turn/min"`, `"30 N cm at 0 turn/min"`, `14:35: axis rail: motor.torque[2] "30 N cm at 0 turn/min" must be at a higher speed`},
		{`reserve = 2`, `reserve = 0.5`, `19:11: axis rail: motor.reserve "0.5" must be from 1 to 10`},
		{`reserve = 2`, `per-turn = "4 mm"`, `19:12: axis rail: motor.per-turn "4 mm" says already`},
		{`per-turn = "4 deg"`, ``, `axis tilt: motor.per-turn is missing`},
		{`per-turn = "4 deg"`, `per-turn = "0 deg"`, `axis tilt: motor.per-turn "0 deg" must be above 0 deg`},
		{`efficiency = "60 %"`, ``, `axis tilt: load.efficiency is missing`},
		{`efficiency = "60 %"`, `efficiency = "160 %"`, `axis tilt: load.efficiency "160 %" must be above 0 and at most 100 %`},
		{`overhang = "0.3 N m"`, `incline = "3 deg"`, `axis tilt: load.incline "3 deg" has no meaning on a rotary axis`},
		{"[axis.tilt.load]\ninertia = \"0.004 kg m2\"\noverhang = \"0.3 N m\"\nefficiency = \"60 %\"\n", ``, `axis tilt: load is missing`},
	} {
		t.Run(c.new, func(t *testing.T) {
			require.Contains(t, loaded, c.old)
			_, _, err := rig.Decode("slope.toml", []byte(strings.Replace(loaded, c.old, c.new, 1)))
			require.Error(t, err)
			assert.Contains(t, err.Error(), strings.Replace(c.want, "torque[1]", "motor.torque[1]", 1))
		})
	}
}

// What the drive is told never has a number that is none.
func FuzzDrive(f *testing.F) {
	f.Add("2.4 kg", "20 deg", "0.15", "0.4 N m at 3 turn/s")
	f.Add("0.001 g", "-90 deg", "0", "0 N m at 0 deg/s")
	f.Fuzz(func(t *testing.T, mass, incline, friction, torque string) {
		for _, s := range []string{mass, incline, friction, torque} {
			if strings.ContainsAny(s, "\"\\\n\r") {
				t.Skip()
			}
		}
		text := strings.NewReplacer("2400 g", mass, "20 deg\"\nfriction", incline+"\"\nfriction", "0.15", `"`+friction+`"`, "0.40 N m at 0 turn/s", torque).Replace(loaded)
		r, _, err := rig.Decode("f.toml", []byte(text))
		if err != nil {
			return
		}
		d := *r.Axes[0].Drive
		for _, x := range []float64{d.Torque(100, 1000), d.Torque(-100, 1000), d.Standing(), d.Release().Acc, d.Motor.At(1)} {
			if math.IsNaN(x) || math.IsInf(x, 0) {
				t.Fatalf("%v of %+v", x, d)
			}
		}
	})
}
