package drive

import (
	"time"

	"seamrail/export/drive/stepplayer"
)

// start makes ready to play rows.
func (p *player) start(r *rows) error {
	p.rows, p.ended, p.going = r, false, false
	p.began, p.over, p.begun, p.resumed = time.Time{}, time.Time{}, time.Time{}, time.Time{}
	p.held, p.strays = false, 0
	err := p.begin()
	p.begun = p.now
	return err
}

// supply sends rows as long as there is room, and lets them be played once
// there are enough. It is done when all have been.
func (p *player) supply() error {
	for p.failure == nil && p.rows.left() && p.inFlight() < maxFlight {
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
		p.going, p.went = true, p.now
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
