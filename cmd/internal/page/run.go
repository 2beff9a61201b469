package page

import (
	"seamrail/cmd/internal/console"
	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/session"
	"seamrail/export/drive"
	"seamrail/export/report/planreport"
	"seamrail/motion/base/list"
	"seamrail/motion/base/unit"
	"seamrail/motion/plan"
	"seamrail/motion/spec/rig"
)

// run is a run on a rig as the page steers it. Tests put one in its place that moves
// nothing.
type run struct {
	first DriveState // what there is to see before it begins
	steered
}

// steered is what the page wants of a session.Steered.
type steered interface {
	Run() (how string, err error) // until the operator leaves or something is wrong
	Ask(drive.Request)            // passes a request on, and does not wait
	Anew(*job.Job) bool           // goes over to another plan, where it is one
	Walk()                        // goes through the plan slowly, once that is worked out
}

// onRig connects to a rig. What happens in the run is told to the stage.
func (s *desk) onRig(p *job.Job, o session.Options) (*run, error) {
	d, err := session.Steer(o, p, &s.stage)
	if err != nil {
		return nil, err
	}
	return &run{begins(p, o.Port, d.LastTime()), d}, nil
}

// begins is what there is to see of a run before it begins.
func begins(j *job.Job, where, lastTime string) DriveState {
	p, out := j.Plan, NewDriveState()
	out.Open, out.Where, out.Plan, out.State = true, where, p.Hash(), drive.Opening.String()
	out.Cautions = append([]string{console.NoEmergencyStop}, planreport.Cautions(p, j.Schedule)...)
	for _, a := range p.Axes {
		rests := list.Map(drive.JogRests(p.Rig.Controller, a.Rig), func(r drive.JogRest) float64 { return r.Way })
		out.Axes = append(out.Axes, AxisName{Name: a.Rig.Name, Unit: a.Rig.Unit(), Speeds: drive.JogSpeeds(a.Rig), Rests: rests})
		out.Readback = append(out.Readback, readback(p, a)...)
	}
	if lastTime != "" {
		out.Said = append(out.Said, Said{Text: lastTime})
	}
	return out
}

// readback is what the controller has to be set to for an axis.
func readback(p *plan.Plan, a plan.Axis) []Readback {
	speed, acc := unit.Speed, unit.Acceleration
	if a.Rig.Kind == rig.Rotary {
		speed, acc = unit.AngularSpeed, unit.AngularAcceleration
	}
	asked := func(name string) string {
		if p.Rig.Controller.SettingsLine == "" {
			return ""
		}
		return name
	}
	s := a.Rig.Settings
	return []Readback{
		{Axis: a.Rig.Name, What: "steps", Setting: asked(s.StepsName), Wanted: a.Rig.StepsPerUnit.Decimal(3) + " a " + a.Rig.Unit()},
		{Axis: a.Rig.Name, What: "speed", Setting: asked(s.SpeedName), Wanted: unit.Format(s.Speed, speed)},
		{Axis: a.Rig.Name, What: "acceleration", Setting: asked(s.AccelerationName), Wanted: unit.Format(s.Acceleration, acc)},
	}
}
