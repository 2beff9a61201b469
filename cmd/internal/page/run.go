package page

import (
	"errors"

	"seamrail/cmd/internal/console"
	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/session"
	"seamrail/export/drive"
	"seamrail/export/report/planreport"
	"seamrail/motion/plan"
	"seamrail/motion/rig"
	"seamrail/motion/unit"
)

// driveOptions says which rig to drive, and how.
type driveOptions struct {
	port    string
	virtual bool // a rig made of software
	fast    bool // whose time goes as fast as it can; one take, that nobody confirms
	countIn int  // s
	endless bool // round after round until asked to finish
}

// run is a run on a rig as the page steers it. Tests put one in its place that moves
// nothing.
type run struct {
	first  DriveState                     // what there is to see before it begins
	drives func() (how string, err error) // until the operator leaves or something is wrong
	ask    func(drive.Request)            // passes a request on, and does not wait
	again  func(*job.Job) (anew bool)     // runs a take of another plan, or of the same
	mark   func(name string, axis int, at float64) (Set, error)
}

// wantsShot is said to whoever named no shot: what moves a rig of metal is never a guess.
const wantsShot = "a rig at a port moves by a shot that is named, and by no other: save this one, end the page and open it by its name, " +
	"as in \"seamrail page lantern.toml\"; the rig made of software drives it as it is"

// onRig connects to a rig. What happens in the run is told to the stage.
func (s *Server) onRig(p *job.Job, o driveOptions) (*run, error) {
	if s.shot == "" && !o.virtual {
		return nil, errors.New(wantsShot)
	}
	d, err := session.Steer(session.Options{
		Source: job.Source{Shot: s.shot}, Port: o.port, Virtual: o.virtual, Fast: o.virtual && o.fast,
		CountIn: o.countIn, Endless: o.endless, Confirmed: o.virtual && o.fast,
	}, p, &s.stage)
	if err != nil {
		return nil, err
	}
	mark := func(name string, axis int, at float64) (Set, error) {
		path, text, err := d.Value(name, axis, at)
		return Set{Path: path, Value: text}, err
	}
	return &run{first: begins(p.Plan, o.port, d.LastTime()), drives: d.Run, ask: d.Ask, again: d.Go, mark: mark}, nil
}

// begins is what there is to see of a run before it begins.
func begins(p *plan.Plan, where, lastTime string) DriveState {
	out := NewDriveState()
	out.Open, out.Where, out.Plan, out.State = true, where, p.Hash(), drive.Opening.String()
	out.Cautions = append([]string{console.NoEmergencyStop}, planreport.Cautions(p)...)
	for _, a := range p.Axes {
		out.Axes = append(out.Axes, AxisName{Name: a.Rig.Name, Unit: a.Rig.Unit()})
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
