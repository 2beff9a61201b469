package sequence

import (
	"fmt"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/list"
	"seamrail/motion/base/source"
	"seamrail/motion/edit/schedule"
)

// Film is one thing to film: a shot in one set-up, for one piece or several.
type Film struct {
	Planned
	File     string
	Setup    schedule.Setup
	Pieces   []int     // of the clip
	Takes    int       // wanted: the most that any of its pieces wants
	Recorded int64     // captured frames of a take, with what the camera leads
	Seconds  exact.Rat // real s of the rig's motion in a take
	Record   exact.Rat // real s that the camera records in a take
	Stills   bool      // its frames are so far apart that a camera takes them one by one
	Bytes    exact.Rat // of a take; 0 = not known
	Spent    Spent     // where the real time of a take goes
}

// Kind is what the camera makes of it.
func (f Film) Kind() Kind {
	if f.Stills {
		return Stills
	}
	return Filmed
}

// film lists what there is to film and finds the order for it.
func (c *Clip) film(report *source.Report) {
	lamps := lights{}
	type one struct {
		file  string
		setup schedule.Setup
	}
	index := map[one]int{}
	var said []Recording // of each film
	for i := range c.Pieces {
		p := &c.Pieces[i]
		key := one{p.Entry.File, p.setup(lamps)}
		n, ok := index[key]
		if !ok {
			n = len(c.Films)
			index[key] = n
			c.Films = append(c.Films, c.filmOf(*p, key.setup))
			said = append(said, Recording{})
		}
		f := &c.Films[n]
		said[n] = said[n].with(report, p.Entry.Recording, p.Entry.path)
		f.Pieces, f.Takes, p.Film = append(f.Pieces, i), max(f.Takes, p.Entry.Takes), n
	}
	for i := range c.Films {
		c.Films[i].sized(said[i], c.Card)
	}
	work := list.Map(c.Films, func(f Film) schedule.Setup { return f.Setup })
	c.Order = schedule.Find(work, c.costs())
}

// costs are those of a change: one each, or the milliseconds it takes, part
// ones up.
func (c *Clip) costs() schedule.Costs {
	if c.Counted {
		return schedule.Costs{Rig: 1, Light: 1}
	}
	ms := func(sec exact.Rat) int64 { return sec.Mul(exact.Int(1000)).Ceil().Whole() }
	return schedule.Costs{Rig: ms(c.Day.RigChange), Light: ms(c.Day.LightChange)}
}

// filmOf is what a take of a shot takes.
func (c *Clip) filmOf(p Piece, setup schedule.Setup) Film {
	t := p.Trajectory
	up, out := t.RampFrames()
	rate := p.Shot.Clock.Capture
	moving := up + t.Rounds()*t.RoundFrames() + out
	f := Film{Planned: p.Planned, File: p.Entry.File, Setup: setup, Seconds: exact.Int(moving).Quo(rate)}
	lead := c.Card.Lead.Mul(rate).Ceil().Whole()
	f.Recorded = moving + 2*lead
	f.Record = exact.Int(f.Recorded).Quo(rate)
	f.Spent = c.spent(p, exact.Int(lead).Quo(rate))
	return f
}

// sized tells what a camera makes of it, and how large that is.
func (f *Film) sized(own Recording, card Card) {
	f.Stills = own.stills(f.Shot.Clock.Capture)
	f.Bytes = own.of(card).bytes(*f)
}

// lights names each set of lamps by the shot that first has it.
type lights map[string]string

// setup is how rig and light stand for a piece: in the words of the sequence, or
// by the rig and the lamps of its shot.
func (p Piece) setup(l lights) schedule.Setup {
	s := schedule.Setup{Rig: p.Entry.Rig, Light: p.Entry.Light}
	if s.Rig == "" {
		s.Rig = p.Trajectory.Rig().Name
	}
	if s.Light == "" {
		s.Light = l.name(p)
	}
	return s
}

// Unlit is the light of shots that say nothing of lamps.
const Unlit = "not stated"

func (l lights) name(p Piece) string {
	if p.Shot.Scene == nil || len(p.Shot.Scene.Lamps) == 0 {
		return Unlit
	}
	key := fmt.Sprintf("%+v", p.Shot.Scene.Lamps)
	if _, ok := l[key]; !ok {
		l[key] = "lamps of " + p.Entry.File
	}
	return l[key]
}

// Totals is what all takes of a clip need.
type Totals struct {
	Takes   int
	Motion  exact.Rat // real s of the rig's motion
	Record  exact.Rat // real s recorded
	Bytes   exact.Rat // of those whose size is known; 0 = of none
	Unsized int       // takes whose size is not known
	Changes exact.Rat // real s of changes, as the day states them
	Between exact.Rat // real s beside the recordings
	Day     exact.Rat // real s of all of it, with what is between takes
}

// All is the bytes of all takes; 0 where that of any is not known.
func (t Totals) All() exact.Rat {
	if t.Unsized > 0 {
		return exact.Rat{}
	}
	return t.Bytes
}

// Totals adds up all takes.
func (c *Clip) Totals() Totals {
	var t Totals
	for _, f := range c.Films {
		n := exact.Int(int64(f.Takes))
		t.Takes += f.Takes
		t.Motion = t.Motion.Add(n.Mul(f.Seconds))
		t.Record = t.Record.Add(n.Mul(f.Record))
		t.Bytes = t.Bytes.Add(n.Mul(f.Bytes))
		if f.Bytes.Sign() == 0 {
			t.Unsized += f.Takes
		}
	}
	t.Changes = exact.Int(int64(c.Order.RigChanges)).Mul(c.Day.RigChange).Add(exact.Int(int64(c.Order.LightChanges)).Mul(c.Day.LightChange))
	t.Between = c.between()
	t.Day = t.Record.Add(t.Changes).Add(t.Between)
	return t
}

// between is what comes beside the recordings of all takes: what each needs, or as long as
// the day states from each to the next where that is more.
func (c *Clip) between() exact.Rat {
	var sum, last exact.Rat
	for _, n := range c.Order.Order {
		f := c.Films[n]
		needs := f.Spent.Beside()
		each := needs
		if each.Less(c.Day.Between) {
			each = c.Day.Between
		}
		sum, last = sum.Add(exact.Int(int64(f.Takes)).Mul(each)), each.Sub(needs)
	}
	return sum.Sub(last) // nothing is waited for after the last take
}
