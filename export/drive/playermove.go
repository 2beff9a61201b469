package drive

import (
	"slices"
	"time"

	"seamrail/export/drive/stepplayer"
	"seamrail/motion/plan/stepwise"
)

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
	by := make([]float64, len(p.axes))
	by[axis] = to - from[axis]
	if err := p.goes(from, by); err != nil {
		return err
	}
	return p.glided(axis, to, relative)
}

// together plays the quickest gentle move of axes to their places, along a straight line.
func (p *player) together(to []float64) error {
	by := make([]float64, len(to))
	for i := range to {
		by[i] = to[i] - p.at[i]
	}
	if err := p.goes(p.at, by); err != nil {
		return err
	}
	return p.arrived(to)
}

// goes plays the quickest gentle move by so much, from where the axes stand.
func (p *player) goes(from, by []float64) error {
	from = append([]float64(nil), from...)
	move := stepwise.Together(p.axes, by)
	at := func(sec float64, steps []int64) {
		gone, _, _, _ := move.At(sec)
		for i, m := range p.motors {
			steps[m] = nearestStep(from[i]+gone*by[i], p.axes[i].StepsPerUnit.Float())
		}
	}
	r := newRows(p.wide(), p.tickSeconds(), max(ticksOf(move.T, p.tickSeconds()), 1), at)
	return p.playAll(r, seconds(move.T))
}

// playAll plays rows to their end.
func (p *player) playAll(r *rows, takes time.Duration) error {
	if err := p.start(r); err != nil {
		return err
	}
	end := p.now.Add(takes + 2*patience)
	for p.over.IsZero() && p.stops == 0 { // a stop may have come while it stood by: it is not told to go then
		if err := p.supply(); err != nil {
			return err
		}
		if err := p.wait(end); err != nil {
			return err
		}
		if !p.now.Before(end) && p.stops == 0 {
			return failed(Silent, "it has not said that the move has ended")
		}
	}
	if p.stops > 0 {
		return errStopped
	}
	p.rows = nil
	return nil
}

// departed is when it said that it plays the rows of the last gentle move.
func (p *player) departed() span {
	at := p.began.Add(-seconds(p.way()))
	return span{earlier(p.went, at), at, at.Add(hostGrain)}
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

// lead is how long the rows take that are sent before the motion begins.
func (p *player) lead() time.Duration {
	n := min(p.info.Capacity, enough)
	if p.rows.count >= 0 {
		n = min(n, int(p.rows.count))
	}
	if p.controller.Baud <= 0 {
		return 0
	}
	return seconds(float64(n*p.wide()) * bitsPerByte * (rowBytes + 6) / rowBytes / float64(p.controller.Baud))
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

// ackBytes is what may be on the wire before a status that is sent unasked: an
// acknowledgement (see stepplayer/PROTOCOL.md). Both ends of a pass are told so.
const ackBytes = 8

// done tells whether all rows have been played. The last tick may reach beyond
// the end of the motion.
func (p *player) done(pass *pass) bool {
	if p.over.IsZero() {
		return false
	}
	if p.began.IsZero() {
		p.fail(NotPlan, "it says that all has been played, and has never said that it plays")
		return false
	}
	beyond := float64(p.rows.count)*p.tickSeconds() - p.planned(pass.total)
	pass.executed = p.over.Sub(p.began).Seconds() - beyond
	pass.doubt = hostGrain.Seconds() + 2*p.engine.way.bytes(ackBytes).Seconds()
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
	p.held = true
	if q := p.engine.pass; q != nil && q.pausedAt.IsZero() {
		q.held, q.pausedAt = q.held || !p.calming, p.now
	}
}

func (p *player) crash() {
	p.crashed = true
	p.urge(stepplayer.Abort)
}

// rest waits until the player says that nothing moves. It slows down within the
// rows it holds.
func (p *player) rest() error {
	// Rows that slow down last twice as long as they would, and those before go on.
	limit := p.slowing() + patience
	overtaken := p.toGo()
	still := func() bool {
		if overtaken && !p.toGo() { // the hold was before it, and nothing to a player that stood by
			overtaken = false
			p.urge(stepplayer.Hold)
		}
		return p.crashed || p.rested()
	}
	return p.within(limit, still, notAtRest, limit)
}

func (p *player) slowing() time.Duration { return seconds(2 * stepplayer.HoldRows * p.tickSeconds()) }

// toGo tells whether the word to go is still on the way.
func (p *player) toGo() bool {
	return slices.ContainsFunc(p.flight, func(f frame) bool { return f.kind == stepplayer.Go })
}

// rested tells whether the status is one of a rig that does not move. Of a player that has
// been told to go, one from before that is none, and to stand by is to be about to move.
func (p *player) rested() bool {
	if p.rows != nil && p.going && (!p.seen.After(p.went) || p.status.State == stepplayer.StandingBy) {
		return false
	}
	return !p.status.State.Moves()
}

func (p *player) resume(pass *pass) {
	p.urge(stepplayer.Resume)
	p.held, p.resumed = false, p.now
	pass.shift += p.now.Sub(pass.pausedAt)
	pass.pausedAt = time.Time{}
}

// halt makes the player forget its rows. Until it has, a status that was on the
// wire may still tell of an abort that was asked for.
func (p *player) halt() bool {
	p.rows = nil
	if p.gone || p.fresh() != nil {
		return false
	}
	at, ok := p.position()
	known := ok && p.known && !p.crashed && p.status.State.Keeps()
	begin := p.begin
	if p.crashed && !p.calming { // it has obeyed none of what was behind the abort
		begin = p.anew
	}
	err := begin()
	p.crashed = false
	if err != nil || p.calming {
		return false
	}
	if known {
		copy(p.at, at)
	}
	return known
}
