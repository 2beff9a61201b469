package drive

import (
	"cmp"
	"math"

	"seamrail/export/drive/stepplayer"
	"seamrail/motion/spec/rig"
)

// carry plays rows that are made as they are needed: the ramp, and when it is let go of, or
// when the end of the travel is near, rows that brake. Where none come any more it stops
// at once at the last.
func (p *player) carry(j *jogging) error {
	if err := p.fresh(); err != nil {
		return err
	}
	from, ok := p.position()
	if !ok {
		return failed(Silent, "it does not say where it stands")
	}
	b := &jogBrake{acceleration: acceleration(p.axes[j.axis])}
	r := newRows(p.wide(), p.tickSeconds(), -1, p.jogAt(j, from, b))
	if err := p.start(r); err != nil {
		return err
	}
	for p.over.IsZero() && !j.ranOut && p.stops == 0 {
		if err := p.feedJog(j, b); err != nil {
			return err
		}
		if err := p.wait(p.now.Add(lookSoon / 8)); err != nil {
			return err
		}
		p.tellJog(j, true)
	}
	if p.stops > 0 {
		return errStopped
	}
	p.rows = nil
	if j.ranOut {
		return p.anew()
	}
	return p.jogged(j)
}

// anew counts the frames anew: those that came when there were no rows left it has not
// obeyed.
func (p *player) anew() error {
	info := p.info
	if err := p.greet(); err != nil {
		p.info = cmp.Or(p.info, info)
		return err
	}
	return p.begin()
}

// jogTop is the greatest speed: one at which a row holds the steps of a tick.
func (p *player) jogTop(a rig.Axis, speed float64) float64 {
	return min(speed, rowTop(a, p.tickSeconds()))
}

// rowTop is the speed at which rows of a tick are half full.
func rowTop(a rig.Axis, tick float64) float64 {
	return math.MaxInt8 / 2 / (a.StepsPerUnit.Float() * tick)
}

// jogBrake is how a jog comes to rest.
type jogBrake struct {
	acceleration float64
	on           bool
	sec, speed   float64 // when it begins, and how fast it is then
}

// way is how far it is after sec.
func (b *jogBrake) way(r ramp, sec float64) float64 {
	if !b.on || sec <= b.sec {
		return r.way(sec)
	}
	t := min(sec-b.sec, b.speed/b.acceleration)
	return r.way(b.sec) + t*(b.speed-b.acceleration*t/2)
}

// from begins at the end of a row. It brakes as is usual, or so that it rests at the end of
// the travel.
func (b *jogBrake) from(r ramp, sec, tick, most float64) {
	near := b.near(r, sec+tick, most)
	b.on, b.sec, b.speed = true, sec, r.speed(sec)
	if left := most - r.way(sec); near && left > 0 {
		b.acceleration = min(b.acceleration, b.speed*b.speed/(2*left))
	}
}

// near tells whether it must brake before sec so as to rest within most.
func (b *jogBrake) near(r ramp, sec, most float64) bool {
	v := r.speed(sec)
	return r.way(sec)+v*v/(2*b.acceleration) > most
}

// jogAt is where the motors are in a jog.
func (p *player) jogAt(j *jogging, from []float64, b *jogBrake) func(float64, []int64) {
	return func(sec float64, steps []int64) {
		for i, m := range p.motors {
			pos := from[i]
			if i == j.axis {
				pos += j.way * min(b.way(j.ramp, sec), j.most)
			}
			steps[m] = nearestStep(pos, p.axes[i].StepsPerUnit.Float())
		}
	}
}

// feedJog sends rows as far ahead as a player has them.
func (p *player) feedJog(j *jogging, b *jogBrake) error {
	r := p.rows
	look := int64(math.Ceil(lookSoon.Seconds() / r.tick))
	last := p.playedNow() + look
	for p.failure == nil && !p.ended && p.inFlight() < maxFlight && (b.on || j.over(p.now) || r.next+look/4 <= last) {
		payload, n, err := p.jogRows(j, b, last)
		if err != nil {
			return failed(Unplanned, "%v", err)
		}
		if n > 0 {
			p.order(stepplayer.Rows, payload, n)
		}
		if b.on && !r.left() {
			p.ended = true
			p.order(stepplayer.End, nil, 0)
		}
		if n == 0 {
			break
		}
	}
	j.fed = min(b.way(j.ramp, float64(r.next)*r.tick), j.most)
	if !p.going {
		p.going, p.went = true, p.now
		p.order(stepplayer.Go, nil, 0)
	}
	return nil
}

// jogRows makes the rows of one frame: up to the last that is wanted by now, or all that
// brake.
func (p *player) jogRows(j *jogging, b *jogBrake, last int64) (payload []byte, n int, err error) {
	for r := p.rows; n < min(p.perFrame(), p.free()); n++ {
		p.brakes(j, b)
		if b.on && !r.left() || !b.on && r.next >= last {
			break
		}
		if payload, err = r.row(payload); err != nil {
			return nil, 0, err
		}
	}
	return payload, n, nil
}

// brakes decides whether the next row is the first that brakes.
func (p *player) brakes(j *jogging, b *jogBrake) {
	r := p.rows
	sec := float64(r.next) * r.tick
	if b.on || !j.over(p.now) && !b.near(j.ramp, sec+r.tick, j.most) {
		return
	}
	b.from(j.ramp, sec, r.tick, j.most)
	r.count = r.next + max(ticksOf(b.speed/b.acceleration, r.tick), 1)
}

// playedNow is how many rows have been played by now, as far as is known.
func (p *player) playedNow() int64 {
	if p.began.IsZero() {
		return 0
	}
	since, played := p.began, 0.0
	if p.status != nil && p.before.After(p.began) {
		since, played = p.before, float64(p.status.Played)
	}
	return int64(math.Floor(played + p.now.Sub(since).Seconds()/p.tickSeconds()))
}

// jogged takes in where a jog has ended.
func (p *player) jogged(j *jogging) error {
	if err := p.fresh(); err != nil {
		return err
	}
	at, ok := p.position()
	if !ok {
		return failed(Silent, "it does not say where it stands")
	}
	if p.sure(j.axis) {
		p.at[j.axis] = at[j.axis]
	}
	return nil
}
