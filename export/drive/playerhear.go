package drive

import (
	"time"

	"seamrail/export/drive/stepplayer"
)

func (p *player) heard(b []byte) {
	p.reader.Add(b)
	for f, ok := p.reader.Next(); ok; f, ok = p.reader.Next() {
		if err := p.frame(f); err != nil {
			p.fail(Garbled, "a frame of type %q that makes no sense: %v", byte(f.Type), err)
		}
	}
}

func (p *player) frame(f stepplayer.Frame) error {
	p.silent = time.Time{}
	switch f.Type {
	case stepplayer.HelloAnswer:
		return p.greeted(f)
	case stepplayer.Ack:
		room, err := stepplayer.ReadAck(f.Payload)
		p.acknowledged(f.Seq, room)
		return err
	case stepplayer.Refused:
		reason, room, err := stepplayer.ReadRefused(f.Payload)
		if err == nil {
			p.refused(f.Seq, reason, room)
		}
		return err
	case stepplayer.StatusNow:
		s, err := stepplayer.ReadStatus(f.Payload)
		if err == nil {
			p.reported(s)
		}
		return err
	}
	return nil
}

func (p *player) greeted(f stepplayer.Frame) error {
	info, err := stepplayer.ReadPlayer(f.Payload)
	if err != nil {
		return err
	}
	p.info = &info
	if !p.greets {
		p.fail(Restarted, "it said hello anew: it was reset or lost power, and what it held is gone")
	}
	return nil
}

// acknowledged drops the frames before seq: the player has obeyed them.
func (p *player) acknowledged(seq byte, room int) {
	n := int(seq - p.seq + byte(len(p.flight))) // of them, by distance around 256
	if n > len(p.flight) {
		return // an old one, overtaken
	}
	p.flight = p.flight[:copy(p.flight, p.flight[n:])]
	p.room = room
	if n > 0 {
		p.resent = p.now
	}
}

func (p *player) refused(seq byte, reason stepplayer.Reason, room int) {
	p.acknowledged(seq, room)
	switch reason {
	case stepplayer.Lost, stepplayer.NoRoom:
		p.resend()
	case stepplayer.InAlarm:
		p.fail(Alarmed, "it is in an alarm; position is not to be trusted")
	default:
		p.fail(Refused, "frame %d refused: %v", seq, reason)
	}
}

// resend sends all frames without acknowledgement again, unless that has just
// been done: each frame after a lost one is refused too.
func (p *player) resend() {
	if p.now.Sub(p.resent) < resendAfter/4 {
		return
	}
	p.resent = p.now
	if p.out.waiting() {
		return
	}
	for _, f := range p.flight {
		p.out.send(f.bytes)
	}
}

func (p *player) reported(s stepplayer.Status) {
	was := p.status
	p.status, p.seen, p.before = &s, p.now, p.asked
	p.room = s.Room
	if was == nil || was.State != s.State {
		p.turned(s.State)
	}
	if pass := p.engine.pass; pass != nil && p.moving && s.State == stepplayer.Playing {
		if at, ok := p.position(); ok {
			pass.saw(at, p.before, p.now)
		}
	}
}

// turned takes in that the player does something else now.
func (p *player) turned(s stepplayer.State) {
	switch s {
	case stepplayer.Playing:
		if p.began.IsZero() {
			p.began = p.now
			if p.engine.pass != nil {
				p.engine.pass.anchor(-p.runUp)
			}
		}
	case stepplayer.Ended:
		p.over = p.now
	case stepplayer.Starved:
		if p.moving && !p.calming {
			p.fail(Behind, "it ran out of rows: the link or this computer is too slow")
		}
	case stepplayer.Alarm:
		if p.moving {
			p.fail(Alarmed, "a limit switch opened; it stopped by itself, and position is not to be trusted")
		}
	case stepplayer.Aborted:
		if p.moving && !p.crashed {
			p.fail(Alarmed, "it stopped at once, unasked; position is not to be trusted")
		}
	}
}

// tick asks for the status and sends again what was lost.
func (p *player) tick() {
	if p.info == nil {
		return
	}
	if !p.now.Before(p.asked.Add(p.every())) {
		p.ask()
	}
	if len(p.flight) > 0 {
		switch first := p.flight[0]; {
		case p.now.Sub(first.at) > patience:
			p.fail(Silent, "no acknowledgement for %v", p.now.Sub(first.at).Round(time.Millisecond))
		case p.now.Sub(later(first.at, p.resent)) >= resendAfter:
			p.resend()
		}
	}
	if !p.silent.IsZero() && p.now.Sub(p.silent) > patience {
		p.fail(Silent, "it has not answered for %v", p.now.Sub(p.silent).Round(time.Millisecond))
	}
}

// every is how often the status is asked for: while rows wait for room, as
// often as an eighth of its store is played.
func (p *player) every() time.Duration {
	if p.rows == nil {
		return pollEvery
	}
	eighth := seconds(float64(p.info.Capacity) / 8 * p.tickSeconds())
	return min(pollEvery, max(eighth, 10*time.Millisecond))
}

func (p *player) due() time.Time {
	if p.info == nil {
		return p.now.Add(never)
	}
	due := p.asked.Add(p.every())
	if len(p.flight) > 0 {
		due = earlier(due, later(p.flight[0].at, p.resent).Add(resendAfter))
	}
	return due
}
