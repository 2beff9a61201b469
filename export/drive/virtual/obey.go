package virtual

import (
	"strconv"
	"strings"

	"seamrail/motion/spec/rig"
)

// obey does what the line in hand says.
func (r *Rig) obey() {
	b := &r.board
	text, long := strings.TrimSpace(string(b.line)), b.long
	b.line, b.long = b.line[:0], false
	r.mishaps.lines++
	r.stats.Lines++
	if f, ok := r.mishaps.strikes(RefuseLine, r.mishaps.lines); ok {
		r.refuse(f.Value)
		return
	}
	if long {
		r.refuse(errorTooLong)
		return
	}
	if b.latched != 0 && text != r.o.UnlockLine {
		r.say("error:" + strconv.Itoa(b.latched))
		return
	}
	if r.command(text) {
		return
	}
	if b.locked || r.jogging() {
		r.refuse(errorLocked)
		return
	}
	r.motion(text)
}

// refuse answers with an error.
func (r *Rig) refuse(code int) {
	r.stats.Errors++
	if r.o.LatchErrors && r.board.latched == 0 {
		r.board.latched = code
	}
	r.say("error:" + strconv.Itoa(code))
}

// command obeys the lines that are not RS-274/NGC.
func (r *Rig) command(text string) bool {
	switch {
	case text == "":
		r.answer(0)
	case r.o.UnlockLine != "" && text == r.o.UnlockLine:
		r.unlock()
	case r.o.Names[rig.Homing] != "" && r.o.Set[rig.Homing] == 0 && (text == r.o.HomeLine || r.homesBy(text)):
		r.refuse(errorNoHoming)
	case r.o.HomeLine != "" && text == r.o.HomeLine:
		r.drain(func() { r.home("") })
	case r.homesBy(text):
		r.drain(func() { r.home(text) })
	case r.o.JogLine != "" && strings.HasPrefix(text, r.o.JogLine):
		r.jog(text[len(r.o.JogLine):])
	case r.o.SettingsLine != "" && text == r.o.SettingsLine:
		r.printSettings()
	case r.lacks(text):
		r.refuse(errorUnknown)
	case !r.board.locked && r.outputsBy(text) != nil:
		r.drain(func() { r.obeyOutputs(text); r.answer(0) })
	case r.o.Answers[text] != nil:
		for _, line := range r.o.Answers[text] {
			r.say(line)
		}
		r.answer(0)
	default:
		return r.writeSetting(text)
	}
	return true
}

func (r *Rig) unlock() {
	b := &r.board
	b.latched = 0
	if b.locked {
		b.locked = false
		r.say("[MSG:unlocked]")
	}
	r.answer(0)
}

// motion obeys a line of RS-274/NGC.
func (r *Rig) motion(text string) {
	b := &r.board
	var code int
	b.words, code = parseWords([]byte(text), b.words[:0])
	if code == 0 {
		var o order
		if o, code = r.o.understand(b.words, b.modal); code == 0 {
			r.follow(&o)
			return
		}
	}
	r.refuse(code)
}

// follow carries out an order.
func (r *Rig) follow(o *order) {
	b := &r.board
	b.modal, b.number = o.modal, o.number
	if o.inverse {
		b.modal.feed = 0 // F of G93 holds for its own line
	}
	switch {
	case o.ends:
		r.drain(func() { b.modal = modal{}; b.modal.offset = o.offset; r.allOff(); r.answer(0) })
	case o.waits:
		r.drain(func() { r.answer(0) })
	case o.dwell:
		r.drain(func() { r.pause(o.p) })
	case o.shift != 0:
		r.shift(o)
	case o.anyAxis:
		r.move(o)
	default:
		r.answer(0)
	}
}

// shift sets or clears the offset of G92.
func (r *Rig) shift(o *order) {
	b := &r.board
	for i := range r.o.Axes {
		switch {
		case o.shift == 2:
			b.modal.offset[i] = 0
		case o.given[i]:
			b.modal.offset[i] = b.target[i] - o.axes[i]
		}
	}
	r.answer(0)
}

// maxEvents is how many steps a block may have: its eighths times its steps
// still fit in 64 bits.
const maxEvents = 500_000_000

// move makes the block of a line, if it has steps.
func (r *Rig) move(o *order) {
	b := &r.board
	to := b.target
	for i := range r.o.Axes {
		switch {
		case !o.given[i]:
		case o.relative:
			to[i] += o.axes[i]
		default:
			to[i] = o.axes[i] + o.offset[i]
		}
		if r.o.Set[rig.SoftLimits] != 0 && b.homed && !r.o.Axes[i].within(to[i]) {
			r.leaveTravel()
			return
		}
	}
	var counts [maxAxes]int64
	for i := range r.o.Axes {
		counts[i] = r.o.Axes[i].stepsAt(to[i])
	}
	blk, any := r.o.block(&b.count, &counts, o)
	if blk.events > maxEvents {
		r.refuse(errorNumber)
		return
	}
	b.target = to
	if !any {
		r.stats.Dropped++
		r.answer(0)
		return
	}
	b.block, b.count = blk, counts
	b.doing = placing
}

// placeBlock puts the block in hand into the look-ahead when there is room.
func (r *Rig) placeBlock() bool {
	b := &r.board
	if b.plan.room() == 0 {
		r.start()
		if b.plan.room() == 0 {
			return false
		}
	}
	r.noteBlock()
	b.plan.add(&b.block, &r.o)
	b.doing = reading
	r.answer(0)
	return true
}

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
	case r.o.JogCancel:
		if r.jogging() {
			r.holdFeed()
		}
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
	r.allOff()
	b.drop()
	b.ring.clear()
	b.line, b.long, b.latched = b.line[:0], false, 0
	b.doing, b.wait, b.then = reading, idleFor, nil
	b.modal = modal{}
	b.homing, b.jogs = homing{}, false
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
