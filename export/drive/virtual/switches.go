package virtual

import "sort"

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
