package drive

import (
	"time"

	"seamrail/export/drive/stepplayer"
)

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
	still := func() bool {
		s := p.status.State
		return p.crashed || !s.Moves()
	}
	// Rows that slow down last twice as long as they would, and those before go on.
	limit := seconds(2*stepplayer.HoldRows*p.tickSeconds()) + patience
	ok, err := p.until(limit, still)
	if err == nil && !ok {
		err = failed(Silent, "it has not come to rest within %v of the hold", limit)
	}
	return err
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
	err := p.begin()
	p.crashed = false
	if err != nil || p.calming {
		return false
	}
	if known {
		copy(p.at, at)
	}
	return known
}
