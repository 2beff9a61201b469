package virtual

import "strconv"

// immediate obeys a byte that acts out of line, and tells whether it is one.
func (r *Rig) immediate(c byte) bool {
	switch c {
	case r.o.Status:
		r.say(r.status())
	case r.o.Hold:
		r.holdFeed()
	case r.o.Resume:
		r.resumeFeed()
	case r.o.Abort:
		r.reset()
	default:
		return false
	}
	return true
}

// reset forgets everything but the place. While moving it is an alarm: the
// place is not to be trusted.
func (r *Rig) reset() {
	moved := r.shaft.runs
	r.clear()
	if moved {
		r.lock(alarmReset)
	}
	r.greet()
}

// clear stops the motors and empties all buffers.
func (r *Rig) clear() {
	b := &r.board
	r.halt()
	b.drop()
	b.ring.clear()
	b.line, b.long, b.latched = b.line[:0], false, 0
	b.doing, b.wait, b.then = reading, idleFor, nil
	b.modal = powerOnModal()
	b.homing = homing{}
	b.dry = false
	r.forget()
}

// forget makes the board take the place of the motors for where it is.
func (r *Rig) forget() {
	b := &r.board
	b.count = r.shaft.count
	for i := range r.o.Axes {
		b.target[i] = r.o.Axes[i].unitsAt(b.count[i])
	}
}

// reboot starts the board as from power-on: it counts from 0 again.
func (r *Rig) reboot() {
	if r.player != nil {
		r.player.restart()
		return
	}
	r.clear()
	for i := range r.o.Axes {
		r.setCount(i, 0)
	}
	r.forget()
	r.out.clear()
	r.board.homed, r.board.code, r.board.locked = false, 0, r.o.StartsLocked
	r.boot()
}

// boot is the time until the greeting.
func (r *Rig) boot() {
	r.board.doing, r.board.wait = booting, r.now+lasting(r.o.BootSeconds)
}

func (r *Rig) greet() {
	if r.o.Greeting != "" {
		r.say("")
		r.say(r.o.Greeting)
	}
	if r.board.locked {
		r.say("[MSG:locked]")
	}
}

// alarm stops at once and refuses lines until unlocked.
func (r *Rig) alarm(code int) {
	if r.player != nil {
		r.player.trip()
		return
	}
	r.clear()
	r.lock(code)
}

func (r *Rig) lock(code int) {
	r.board.locked, r.board.code = true, code
	r.board.homed = false
	r.stats.Alarms++
	r.say("ALARM:" + strconv.Itoa(code))
}

// leaveTravel slows down before a line that would leave the travel, and is in
// alarm then.
func (r *Rig) leaveTravel() {
	b := &r.board
	if b.cycle && b.held == free {
		b.held = slowing
	}
	b.doing = stopping
}
