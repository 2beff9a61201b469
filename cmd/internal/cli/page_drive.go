package cli

import (
	"errors"
	"fmt"
	"strings"

	"seamrail/cmd/internal/console"
	"seamrail/cmd/internal/host"
	"seamrail/cmd/internal/page"
	"seamrail/export/drive"
	"seamrail/export/report"
	"seamrail/motion/plan"
	"seamrail/motion/rig"
	"seamrail/motion/source"
	"seamrail/motion/unit"
)

// pageDrive is a run that a page steers: a session whose panel is the page.
type pageDrive struct {
	*session
	to    page.Audience
	o     page.DriveOptions
	world world
	take  func() drive.Source
	first page.DriveState
}

// pageWantsShot is wantsShot on a page.
const pageWantsShot = "a rig at a port moves by a shot that is named, and by no other: save this one, end the page and open it by its name, " +
	"as in \"seamrail page lantern.toml\"; the rig made of software drives it as it is"

// Drive connects to a rig.
func (c pageCore) Drive(p page.Planned, o page.DriveOptions, to page.Audience) (page.Run, error) {
	j, ok := p.(pageJob)
	if !ok {
		panic("cli: a plan that this core did not make")
	}
	if c.o.Shot == "" && !o.Virtual {
		return nil, errors.New(pageWantsShot)
	}
	s := newSession(&DriveOptions{
		Shot: ShotFlags{Shot: c.o.Shot, known: &understood{j.shot, j.rig}}, Port: o.Port, Virtual: o.Virtual, Fast: o.Virtual && o.Fast,
		CountIn: o.CountIn, Endless: o.Endless, Confirmed: o.Virtual && o.Fast,
	}, j.job)
	s.out, s.called = sayer{to}, to.Called
	s.Panel = s.panel(0, false)
	d := &pageDrive{session: s, to: to, o: o}
	if err := s.openLog(); err != nil {
		return nil, err
	}
	var err error
	if d.take, err = s.program(); err == nil {
		d.world, err = s.o.open(j.rig, s.hurried, s.asks)
	}
	if err != nil {
		return nil, errors.Join(err, s.log.Close())
	}
	d.first = d.begins()
	return d, nil
}

// sayer says what a session prints.
type sayer struct{ to page.Audience }

func (s sayer) Write(p []byte) (int, error) {
	if text := strings.TrimSpace(string(p)); text != "" {
		s.to.Say(text)
	}
	return len(p), nil
}

// pageObserver is what the engine observes: the page sees it, and the session
// keeps the last pass.
type pageObserver struct {
	page.Audience
	s *session
}

// Passed keeps the pass besides showing it.
func (o pageObserver) Passed(p drive.Pass) {
	o.s.passes = append(o.s.passes, p)
	o.Audience.Passed(p)
}

// First is what there is to see before it begins.
func (d *pageDrive) First() page.DriveState { return d.first }

func (d *pageDrive) begins() page.DriveState {
	p := d.job.plan
	out := page.NewDriveState()
	out.Open, out.Where, out.Plan, out.State = true, d.o.Port, p.Hash(), drive.Opening.String()
	out.Cautions = append([]string{console.NoEmergencyStop}, report.Cautions(p)...)
	for _, a := range p.Axes {
		out.Axes = append(out.Axes, page.AxisName{Name: a.Rig.Name, Unit: a.Rig.Unit()})
		out.Readback = append(out.Readback, readback(p, a)...)
	}
	if text := strings.TrimSpace(d.lastTime()); text != "" {
		out.Said = append(out.Said, page.Said{Text: text})
	}
	return out
}

// readback is what the controller has to be set to for an axis.
func readback(p *plan.Plan, a plan.Axis) []page.Readback {
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
	return []page.Readback{
		{Axis: a.Rig.Name, What: "steps", Setting: asked(s.StepsName), Wanted: a.Rig.StepsPerUnit.Decimal(3) + " a " + a.Rig.Unit()},
		{Axis: a.Rig.Name, What: "speed", Setting: asked(s.SpeedName), Wanted: unit.Format(s.Speed, speed)},
		{Axis: a.Rig.Name, What: "acceleration", Setting: asked(s.AccelerationName), Wanted: unit.Format(s.Acceleration, acc)},
	}
}

// options are those of the session, with the page for its observer and asked
// for each take.
func (d *pageDrive) options() drive.Options {
	o := d.session.options(d.take)
	o.Observer = pageObserver{d.to, d.session}
	if !d.o.Fast {
		o.Takes, o.Settle = 0, drive.AskOperator
	}
	return o
}

// Run drives until the operator leaves or something is wrong.
func (d *pageDrive) Run() (how string, err error) {
	defer func() { err = errors.Join(err, d.world.Close(), d.log.Close()) }()
	d.guard(d.world, host.Ahead)
	r := d.session.run(d.world, d.options())
	if err := r.Err(); err != nil {
		return "", fmt.Errorf("%w; where the rig stands is not known: home it, or place it by hand, before it moves again", err)
	}
	words := "where the rig stands is known"
	if !r.Known {
		words = "where the rig stands is not known"
	}
	return fmt.Sprintf("%s, %s; %s", r.End, counted(r.Takes, "take"), words), nil
}

// Ask passes a request on. A stop of a rig that rests leaves the run, which
// then goes on where it stands.
func (d *pageDrive) Ask(r drive.Request) {
	switch r.Kind {
	case drive.Stop:
		d.anew.Store(true)
		offer(d.hurried, r)
	case drive.Quit:
		d.anew.Store(false)
		offer(d.hurried, r)
	default:
		offer(d.asks, r)
	}
}

// Go runs the next take, of the plan that is handed over. Where that moves the
// rig otherwise, the run is planned anew and waits for another Go.
func (d *pageDrive) Go(p page.Planned) bool {
	j, ok := p.(pageJob)
	if !ok {
		panic("cli: a plan that this core did not make")
	}
	if d.runs.Load() == runOf(j.job) {
		d.Ask(drive.Request{Kind: drive.Go})
		return false
	}
	d.next.Store(&understood{j.shot, j.rig})
	d.anew.Store(true)
	offer(d.hurried, drive.Request{Kind: drive.Quit})
	return true
}

// Mark is the value of the shot that a place of an axis gives.
func (d *pageDrive) Mark(name string, axis int, at float64) (page.Set, error) {
	a := d.job.plan.Axes[axis]
	key, err := markKey(a.Move, name)
	return page.Set{Path: source.Join("axis", a.Rig.Name) + "." + key, Value: markText(a, at)}, err
}
