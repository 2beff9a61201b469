package planreport_test

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/report"
	"seamrail/export/report/planreport"
	"seamrail/motion/drivetrain/motor"
	"seamrail/motion/plan"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/shot"
	"seamrail/motion/verify"
)

// sloping is a loop whose rail stands on a slope and is turned by a motor with
// so much torque, at any speed.
func sloping(t *testing.T, torque float64, change func(*motor.Drive)) (*trajectory.Trajectory, verify.Verdict) {
	t.Helper()
	d := motor.Drive{
		PerTurn: 40, Load: motor.Load{Mass: 2, Pull: motor.Incline(2, 30)}, Train: motor.Efficient(0.95),
		Motor: motor.Motor{Curve: []motor.Point{{Torque: torque}, {Speed: 20, Torque: torque}}, Reserve: 1.5},
	}
	change(&d)
	return railed(t, &d)
}

// railed is the loop of the shot "reveal" with a load and a motor on its rail.
func railed(t *testing.T, d *motor.Drive) (*trajectory.Trajectory, verify.Verdict) {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("testdata", "reveal.toml"))
	require.NoError(t, err)
	s, err := shot.Decode("reveal.toml", data, nil)
	require.NoError(t, err)
	for i := range s.Rig.Axes {
		if s.Rig.Axes[i].Name == "rail" {
			s.Rig.Axes[i].Drive = d
		}
	}
	p, err := plan.Build(s, *s.Rig)
	require.NoError(t, err)
	tr := trajectory.New(p)
	return tr, verify.Check(tr)
}

func text(t *testing.T, tr *trajectory.Trajectory, v verify.Verdict) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, report.Text(&b, judged(tr, v, planreport.Data{}).Report(), false))
	return b.String()
}

func same(*motor.Drive) {}

func TestMotors(t *testing.T) {
	for name, c := range map[string]struct {
		torque float64
		change func(*motor.Drive)
		want   []string
	}{
		"enough":   {0.5, same, []string{"READY, BUT  The loop closes", "1 point will not do:\n            power loss of rail.", "rail          needs 0.", "times over", "power off     it falls towards lower numbers, as far as 100 mm"}},
		"tight":    {0.1, same, []string{"READY, BUT  The loop closes", "1 point will not do:\n            power loss of rail.", "less than the 1.5 times that are", "+ axis rail: would do with a load of"}},
		"short":    {0.05, same, []string{"NOT READY  The move is within the limits, but the motor of rail has not the", "it loses steps"}},
		"unknown":  {0, func(d *motor.Drive) { d.Motor.Curve = nil }, []string{"what the motor has, the rig"}},
		"beyond":   {0.5, func(d *motor.Drive) { d.Motor.Curve = d.Motor.Curve[:1] }, []string{"beyond the last speed of its"}},
		"holding":  {0.5, func(d *motor.Drive) { d.Motor.Holding = 0.01 }, []string{"cannot hold its load"}},
		"brake":    {0.5, func(d *motor.Drive) { d.Motor.Brake = 0.2 }, []string{"it stays: its brake holds, 3."}},
		"screw":    {0.5, func(d *motor.Drive) { d.Train = motor.Efficient(0.4) }, []string{"it stays: what lies between holds by itself"}},
		"friction": {0.5, func(d *motor.Drive) { d.Load.Friction = 12 }, []string{"it stays: friction holds, 1.22 times over", "is kept from falling by little"}},
		"detent":   {0.5, func(d *motor.Drive) { d.Motor.Detent = 0.2 }, []string{"it stays: the motor's detent holds, 3."}},
		"level":    {0.5, func(d *motor.Drive) { d.Load.Pull = 0 }, []string{"it stays: nothing pulls"}},
		"higher":   {0.5, func(d *motor.Drive) { d.Load.Pull = -d.Load.Pull }, []string{"Axis rail falls towards higher numbers when"}},
	} {
		tr, v := sloping(t, c.torque, c.change)
		text := text(t, tr, v)
		for _, want := range c.want {
			assert.Contains(t, text, want, name)
		}
	}
}

// Nothing is said of motors where the rig says nothing of loads.
func TestNoMotors(t *testing.T) {
	tr, v := railed(t, nil)
	assert.NotContains(t, text(t, tr, v), "MOTORS")
}

func TestMotorsAsJSON(t *testing.T) {
	tr, v := sloping(t, 0.05, same)
	var b bytes.Buffer
	require.NoError(t, report.JSON(&b, judged(tr, v, planreport.Data{}).Facts()))
	var doc struct {
		Verdict struct{ Ready bool }
		Motors  []struct {
			Axis, Level        string
			Needs, Has, Margin float64
			PowerOff           struct{ Falls bool } `json:"power_off"`
		}
	}
	require.NoError(t, json.Unmarshal(b.Bytes(), &doc))
	assert.False(t, doc.Verdict.Ready)
	require.Len(t, doc.Motors, 1)
	m := doc.Motors[0]
	assert.Equal(t, "short", m.Level)
	assert.InEpsilon(t, m.Has/m.Needs, m.Margin, 1e-5)
	assert.True(t, m.PowerOff.Falls)
}
