package virtual

import (
	"math"
	"slices"
	"sort"
)

// homing is where a search for the switches stands.
type homing struct {
	active bool
	axis   int
	only   string // the line of the axes it is for; "" = all
	found  bool   // the switch is found; it is on its way to Home
}

const (
	// homeShare is the share of its greatest speed at which an axis looks for
	// its switch (common practice: slow enough to stop on the switch).
	homeShare = 0.25
	// homeReach is how far it looks, in travels: more than once, so that it
	// finds the switch from wherever it stands.
	homeReach = 1.5
)

// home looks for the switches, one axis after the other: of all axes, or of those
// with a line of their own.
func (r *Rig) home(only string) {
	b := &r.board
	b.locked, b.latched = false, 0
	b.homing = homing{active: true, axis: -1, only: only}
	r.homeNext()
}

// homesBy tells whether a line homes single axes.
func (r *Rig) homesBy(line string) bool {
	return line != "" && slices.ContainsFunc(r.o.Axes, func(a Axis) bool { return a.HomeLine == line })
}

// homeNext goes on with the next axis that has switches. An endless one with a
// line of its own has a mark, and is on it.
func (r *Rig) homeNext() {
	h := &r.board.homing
	for h.axis++; h.axis < len(r.o.Axes); h.axis++ {
		a := &r.o.Axes[h.axis]
		switch {
		case h.only != "" && a.HomeLine != h.only:
		case a.Switches:
			h.found = false
			r.homeMove(a.homeSide() * homeReach * (a.High - a.Low))
			return
		case h.only != "":
			r.setCount(h.axis, a.stepsAt(a.Home))
			r.forget()
		}
	}
	r.board.homing = homing{}
	r.board.homed = true
	r.answer(0)
}

// homeSide returns the end at which an axis homes: the one nearer to Home.
func (a *Axis) homeSide() float64 {
	if a.Home-a.Low <= a.High-a.Home {
		return -1
	}
	return 1
}

// homeMove moves the axis in hand by a distance. The board reads no line
// meanwhile.
func (r *Rig) homeMove(by float64) {
	b := &r.board
	a := &r.o.Axes[b.homing.axis]
	to := b.count
	to[b.homing.axis] += int64(math.Round(by * a.StepsPerUnit))
	o := order{modal: modal{motion: 1, feed: a.Speed * homeShare * 60}}
	blk, any := r.o.block(&b.count, &to, &o)
	b.doing, b.then = draining, func() {}
	if !any {
		r.backedOff()
		return
	}
	b.count = to
	b.plan.add(&blk, &r.o)
	r.start()
}

// foundSwitch is called on the switch, or on the way beyond it.
func (r *Rig) foundSwitch() {
	h := &r.board.homing
	a := &r.o.Axes[h.axis]
	r.forget()
	if h.found {
		r.alarm(alarmHoming)
		return
	}
	h.found = true
	at := a.Low
	if a.homeSide() > 0 {
		at = a.High
	}
	r.homeMove(a.Home - at)
}

// backedOff is called when a homing move has ended without a switch.
func (r *Rig) backedOff() {
	h := &r.board.homing
	if !h.found {
		r.alarm(alarmHoming)
		return
	}
	a := &r.o.Axes[h.axis]
	r.setCount(h.axis, a.stepsAt(a.Home))
	r.forget()
	r.homeNext()
}

// Numbers of alarms.
const (
	alarmSwitch = 1 // a limit switch opened
	alarmTravel = 2 // a line would have left the travel
	alarmReset  = 3 // reset while moving
	alarmHoming = 9 // homing found no switch
)

// open tells whether a limit switch of an axis is open at a place, on the side
// it is moving to.
func (a *Axis) open(place float64, dir int64) bool {
	return a.Switches && (dir > 0 && place >= a.High || dir < 0 && place <= a.Low)
}

// watchSwitches ends the slice where the machine meets a limit switch.
func (r *Rig) watchSwitches(c *slice) {
	for i := range r.o.Axes {
		a := &r.o.Axes[i]
		if !a.Switches || c.steps[i] == 0 || c.pulses == 0 {
			continue
		}
		opens := func(k int64) bool {
			return a.open(r.place(i, c.begins[i]+c.stepsAfter(i, c.eighths(k))), c.steps[i])
		}
		if opens(c.pulses) {
			c.pulses = 1 + int64(sort.Search(int(c.pulses)-1, func(k int) bool { return opens(int64(k) + 1) }))
			c.rest, r.shaft.trips = 0, true
		}
	}
}

// tripped is called when the machine stands on a limit switch.
func (r *Rig) tripped() {
	r.shaft.clear()
	r.board.drop()
	if r.player != nil {
		r.player.trip()
		return
	}
	if r.board.homing.active {
		r.foundSwitch()
		return
	}
	r.alarm(alarmSwitch)
}
