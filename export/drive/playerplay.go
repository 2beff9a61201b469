package drive

import (
	"time"

	"seamrail/export/drive/stepplayer"
)

// start makes ready to play rows.
func (p *player) start(r *rows) error {
	p.rows, p.ended, p.going = r, false, false
	p.began, p.over = time.Time{}, time.Time{}
	return p.begin()
}

// supply sends rows as long as there is room, and lets them be played once
// there are enough. It is done when all have been.
func (p *player) supply() error {
	for p.failure == nil && p.rows.left() && p.inFlight() < mostFlight {
		payload, n, err := p.batch()
		if err != nil {
			return failed(Unplanned, "%v", err)
		}
		if n == 0 {
			break
		}
		p.order(stepplayer.Rows, payload, n)
	}
	if !p.rows.left() && !p.ended {
		p.ended = true
		p.order(stepplayer.End, nil, 0)
	}
	if !p.going && (p.ended || p.free() < p.perFrame() || p.rows.next >= enough) {
		p.going = true
		p.order(stepplayer.Go, nil, 0)
	}
	return nil
}

func (p *player) perFrame() int { return rowBytes / p.wide() }

// batch makes the rows of one frame: a full one, or what is left.
func (p *player) batch() (payload []byte, n int, err error) {
	if p.free() < p.perFrame() {
		return nil, 0, nil
	}
	for ; n < p.perFrame() && p.rows.left(); n++ {
		if payload, err = p.rows.row(payload); err != nil {
			return nil, 0, err
		}
	}
	return payload, n, nil
}

// free is how many rows may be sent: its room less what is on the way.
func (p *player) free() int {
	n := p.room
	for _, f := range p.flight {
		n -= f.rows
	}
	return n
}

func (p *player) inFlight() int {
	n := 0
	for _, f := range p.flight {
		n += len(f.bytes)
	}
	return n
}

// glide plays the quickest gentle move of one axis.
func (p *player) glide(axis int, to float64, relative bool) error {
	from := p.at
	if relative {
		now, ok := p.position()
		if !ok {
			return failed(Silent, "it does not say where it stands")
		}
		from, to = now, now[axis]+to
	}
	from = append([]float64(nil), from...)
	a := p.axes[axis]
	move := gentle(a, to-from[axis])
	at := func(sec float64, steps []int64) {
		for i, m := range p.motors {
			pos := from[i]
			if i == axis {
				gone, _, _, _ := move.At(sec)
				pos += gone
			}
			steps[m] = nearestStep(pos, p.axes[i].StepsPerUnit.Float())
		}
	}
	r := newRows(p.wide(), p.tickSeconds(), max(ticksOf(move.T, p.tickSeconds()), 1), at)
	if err := p.playAll(r, seconds(move.T)); err != nil {
		return err
	}
	if !relative {
		p.at[axis] = to
	}
	return nil
}

// playAll plays rows to their end.
func (p *player) playAll(r *rows, takes time.Duration) error {
	if err := p.start(r); err != nil {
		return err
	}
	end := p.now.Add(takes + 2*patience)
	for p.over.IsZero() {
		if err := p.supply(); err != nil {
			return err
		}
		if err := p.wait(end); err != nil {
			return err
		}
		switch {
		case p.stops > 0:
			return errStopped
		case !p.now.Before(end):
			return failed(Silent, "it has not said that the move has ended")
		}
	}
	p.rows = nil
	return nil
}

// load makes ready a pass: its rows begin with the run-up.
func (p *player) load(pass *pass) error {
	count := int64(-1)
	if p.Rounds > 0 {
		count = ticksOf(p.planned(p.Rounds), p.tickSeconds())
	}
	at := func(sec float64, steps []int64) {
		for i, m := range p.motors {
			steps[m] = nearestStep(p.planAt(i, pass.ofRounds(), sec-p.runUp), p.axes[i].StepsPerUnit.Float())
		}
	}
	return p.start(newRows(p.wide(), p.tickSeconds(), count, at))
}

func (p *player) feed(pass *pass) error {
	if err := p.supply(); err != nil {
		return err
	}
	pass.until = float64(p.rows.next)*p.tickSeconds() - p.runUp
	if pass.until > 0 {
		round := int64((pass.until-p.tickSeconds())/p.period) + 1
		if pass.total > 0 {
			round = min(round, pass.total)
		}
		pass.rounds = max(pass.rounds, round)
	}
	pass.fill = 1 - float64(p.free())/float64(p.info.Capacity)
	return nil
}

// finish ends the pass after the round that rows are being made for.
func (p *player) finish(pass *pass) {
	pass.total = max(pass.rounds, 1)
	p.rows.count = ticksOf(p.planned(pass.total), p.tickSeconds())
}

// done tells whether all rows have been played. The last tick may reach beyond
// the end of the motion.
func (p *player) done(pass *pass) bool {
	if p.over.IsZero() {
		return false
	}
	beyond := float64(p.rows.count)*p.tickSeconds() - p.planned(pass.total)
	pass.executed = p.over.Sub(p.began).Seconds() - beyond
	return true
}

func (p *player) last(*pass) ([]float64, bool) {
	if p.fresh() != nil {
		return nil, false
	}
	at, ok := p.position()
	return at, ok && p.status.State == stepplayer.Ended
}

func (p *player) slow() {
	p.urge(stepplayer.Hold)
	if q := p.engine.pass; q != nil && q.pausedAt.IsZero() {
		q.held, q.pausedAt = true, p.now
	}
}

func (p *player) crash() {
	p.crashed = true
	p.urge(stepplayer.Abort)
}

// rest waits until the player says that nothing moves. It slows down within the
// rows it holds.
func (p *player) rest() error {
	still := func() bool {
		s := p.status.State
		return p.crashed || s != stepplayer.Playing && s != stepplayer.Slowing
	}
	ok, err := p.until(restWait, still)
	if err == nil && !ok {
		err = failed(Silent, "it has not come to rest within %v of the hold", restWait)
	}
	return err
}

func (p *player) resume(pass *pass) {
	p.urge(stepplayer.Resume)
	pass.shift += p.now.Sub(pass.pausedAt)
	pass.pausedAt = time.Time{}
}

// halt makes the player forget its rows.
func (p *player) halt() bool {
	p.rows = nil
	if p.gone || p.fresh() != nil {
		return false
	}
	at, ok := p.position()
	known := ok && p.known && !p.crashed && !p.locked() && p.status.State != stepplayer.Aborted
	p.crashed = false
	if p.begin() != nil || p.calming {
		return false
	}
	if known {
		copy(p.at, at)
	}
	return known
}
