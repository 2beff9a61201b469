package plan

import (
	"fmt"
	"io"
	"strings"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
	"seamrail/motion/turntable/spin"
)

// Stand is a display stand during the loop. The rig does not command it: it has
// no steps and no limits, and turns on at its one speed through the seam.
type Stand struct {
	Rig   rig.Stand
	Spin  shot.Spin
	Speed spin.Speed
	Rate  exact.Rat // degrees a real second: above 0 anticlockwise, seen from above
	Seam  spin.Seam // how far off its face it is when the loop comes round
}

// Angle returns where it stands, sec real seconds after frame 0, in degrees.
func (s Stand) Angle(sec exact.Rat) exact.Rat { return s.Spin.Start.Add(s.Rate.Mul(sec)) }

// Refuses tells whether a bound that the shot states is not known to be kept. One
// that was filled in keeps no rig from being driven.
func (s Stand) Refuses() bool { return s.Bounded() && !s.Seam.Certain() }

// Bounded tells whether the shot states how far off the loop may close.
func (s Stand) Bounded() bool { return s.Spin.Within.Unit != spin.Unstated }

// standsOf looks up every stand of the shot on the rig. It also tells the speeds that
// were filled in.
func standsOf(s shot.Shot, r rig.Rig) (stands []Stand, speeds []shot.Default, faults fault.List) {
	for _, one := range s.Spins {
		stand, filled, err := standOf(one, s, r)
		if err != nil {
			err.File, err.Line, err.Column = s.File, one.Line, one.Column
			faults = append(faults, *err)
			continue
		}
		speeds = append(speeds, filled...)
		if stand.Rig.Name != "" {
			stands = append(stands, stand)
		}
	}
	return stands, speeds, faults
}

// noStand is said of a stand that a shot asks for and its rig does not have.
const noStand = "is no stand"

func standPath(name string) string { return "spin." + name }

// standOf returns no stand where one is not sound.
func standOf(one shot.Spin, s shot.Shot, r rig.Rig) (Stand, []shot.Default, *fault.Fault) {
	path := standPath(one.Name)
	on, ok := r.Stand(one.Name)
	if !ok {
		return Stand{}, nil, &fault.Fault{Quantity: path, Bound: fmt.Sprintf(noStand+" of the rig %q", r.Name), Fit: standFit(r)}
	}
	if one.Faulty || on.Faulty {
		if one.Speed == "" || len(on.Speeds) == 0 {
			return Stand{}, nil, nil
		}
		_, filled, err := standSpeed(one, on) // a name is one all the same
		return Stand{}, filled, err
	}
	if one.Started && !on.Phased {
		return Stand{}, nil, &fault.Fault{Quantity: path + ".start", Value: one.Start.Decimal(3) + " deg",
			Bound: "cannot be kept: the stand cannot be started in phase", Fit: "leave it out, or say start-in-phase = true in the rig file"}
	}
	v, filled, err := standSpeed(one, on)
	if err != nil || s.Loop.Captured == 0 { // nor is it known how long it turns
		return Stand{}, filled, err
	}
	return Stand{
		Rig: on, Spin: one, Speed: v, Rate: on.Rate(v),
		Seam: one.Product(on.Stand).Seam(s.Loop, v),
	}, filled, nil
}

func standFit(r rig.Rig) string {
	if len(r.Stands) == 0 {
		return "the rig has none; give it one, such as [stand.display]"
	}
	return "it has " + strings.Join(r.StandNames(), ", ")
}

// standSpeed finds the speed the shot names, or fills in the only one there is.
func standSpeed(s shot.Spin, on rig.Stand) (spin.Speed, []shot.Default, *fault.Fault) {
	path := standPath(s.Name) + ".speed"
	if v, ok := on.Stand.Speed(s.Speed); ok {
		return v, nil, nil
	}
	names := strings.Join(on.SpeedNames(), ", ")
	switch {
	case s.Speed != "":
		return spin.Speed{}, nil, &fault.Fault{Quantity: path, Value: fmt.Sprintf("%q", s.Speed), Bound: "is not a speed of the stand", Fit: "it has " + names}
	case len(on.Speeds) != 1:
		return spin.Speed{}, nil, &fault.Fault{Quantity: path, Bound: "is missing, and the stand has more than one", Fit: "it has " + names}
	}
	return on.Speeds[0], []shot.Default{{Key: path, Value: names, Why: "the only one the stand has"}}, nil
}

// SpinQuery is what loops to look for, in which every stand of the plan closes.
// It means nothing in a plan without stands.
func (p *Plan) SpinQuery() spin.Query {
	q := spin.Query{Clock: p.Loop.Clock, Captures: p.Captures, From: p.Shortest, To: p.Longest, Cycles: p.cycles()}
	for _, s := range p.Stands {
		q.Products = append(q.Products, s.Spin.Product(s.Rig.Stand))
	}
	return q
}

// cycles returns how often the carriage goes there and back in the loop.
func (p *Plan) cycles() int64 {
	for _, a := range p.Axes {
		if n := visits(a.Move); n > 0 {
			return n
		}
	}
	return 1
}

// hashStands adds the stands to the digest of a plan that has any.
func (p *Plan) hashStands(w io.Writer) {
	for _, s := range p.Stands {
		fmt.Fprintf(w, "stand %s %s %s\n", s.Rig.Name, s.Rate, s.Spin.Start)
	}
}
